package requests

import (
	"fmt"
	"math"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
	"guildhand/calc/jumpring"
	"guildhand/calc/ring"
	"guildhand/calc/stock"
	"guildhand/calc/tubeset"
)

// jumpringDrawing is one ring at full size, to lay a ring or a mandrel on, and the
// coil that it is sawn from.
func jumpringDrawing(c *catalogue.Call, r jumpring.Ring, kerf float64, count int, alloy stock.Alloy) template.Drawing {
	d := template.Drawing{
		Name:  fmt.Sprintf("jumpring-%s-%s", words.MM(r.WireMM), words.MM(r.InsideMM)),
		Title: "Jump ring, " + words.Length(c, r.InsideMM) + " inside",
		Lines: []string{
			fmt.Sprintf("%s wire, %s; %s", alloy.Name, words.Thickness(c, c.Value("wire")), words.Counted(count, "ring", "rings")),
			fmt.Sprintf("aspect ratio %.2f; printed at full size, to lay a ring on", r.Aspect()),
		},
	}
	in, out := r.InsideMM/2, r.OutsideMM()/2
	d.Paths = append(d.Paths,
		template.Circle("inside", template.Edge, "", [2]float64{}, in),
		template.Circle("outside", template.Edge, "", [2]float64{}, out),
		template.Polyline("joint", template.Mark, "", false, [2]float64{in, 0}, [2]float64{out, 0}))
	d.Dimensions = []template.Dimension{
		{A: [2]float64{-in, 0}, B: [2]float64{in, 0}, Side: template.Below, Name: "inside", Text: words.Length(c, r.InsideMM) + " inside"},
		{A: [2]float64{-out, 0}, B: [2]float64{out, 0}, Side: template.Below, Name: "outside", Text: words.Length(c, r.OutsideMM()) + " outside"},
	}
	d.Details = []template.Drawing{coilSection(c, r, kerf), chainView(r)}
	d.Alt = inWords(d, fmt.Sprintf("%s of wire in one ring", words.Length(c, r.WireLengthMM())))
	return d
}

// coilSection is the coil on its mandrel, cut along its axis; the saw's cut runs
// along one side.
func coilSection(c *catalogue.Call, r jumpring.Ring, kerf float64) template.Drawing {
	const turns = 6
	least, most := r.Mandrels()
	d := template.Drawing{Title: "The coil, cut along its axis", Lines: []string{"wound turn against turn, sawn along one side, kerf " + words.Length(c, kerf)}}
	mandrel := r.InsideMM
	text := "mandrel " + words.MM(least) + " to " + words.Length(c, most)
	if c.Args.Has("mandrel") {
		text = "mandrel " + words.Length(c, mandrel)
	}
	middle, long := (mandrel+r.WireMM)/2, turns*r.WireMM
	for i := range turns {
		x := (float64(i) + 0.5) * r.WireMM
		for _, y := range []float64{-middle, middle} {
			wire := template.Circle(fmt.Sprintf("wire-%d-%g", i, y), template.Edge, "", [2]float64{x, y}, r.WireMM/2)
			d.Paths, d.CutFaces = append(d.Paths, wire), append(d.CutFaces, wire)
		}
	}
	d.Paths = append(d.Paths,
		template.Polyline("mandrel-top", template.Outline, "mandrel", false, [2]float64{-r.WireMM, mandrel / 2}, [2]float64{long + r.WireMM, mandrel / 2}),
		template.Polyline("mandrel-bottom", template.Outline, "mandrel", false, [2]float64{-r.WireMM, -mandrel / 2}, [2]float64{long + r.WireMM, -mandrel / 2}))
	d.Dimensions = []template.Dimension{{A: [2]float64{long + r.WireMM, -mandrel / 2}, B: [2]float64{long + r.WireMM, mandrel / 2}, Side: template.Right, Name: "mandrel", Text: text}}
	return d
}

// chainView is three rings, one through the next.
func chainView(r jumpring.Ring) template.Drawing {
	section := make([][2]float64, 16)
	for i := range section {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(section)))
		section[i] = [2]float64{r.WireMM / 2 * (1 - cos), r.WireMM / 2 * sin}
	}
	var bodies []axonometric.Body
	for n := range 3 {
		b := finished.Shank(section, finished.Circle(r.InsideMM/2))
		b.Marks = nil
		for i, p := range b.Points {
			if n%2 == 1 { // every second one stands up
				p.Y, p.Z = -p.Z, p.Y
			}
			p.X += float64(n) * r.InsideMM
			b.Points[i] = p
		}
		bodies = append(bodies, b)
	}
	return finishedView(bodies, 0, "rings in a plain chain")
}

// tubesetDrawing is the tube's section with its stone, much enlarged, and the
// length to cut at full size.
func tubesetDrawing(c *catalogue.Call, stone float64, tube tubeset.Tube, length, pavilion float64, count int, alloy stock.Alloy) template.Drawing {
	d := template.Drawing{
		Name:  fmt.Sprintf("tubeset-%s", words.MM(stone)),
		Title: "Tube setting for a round " + words.Length(c, stone),
		Lines: []string{
			fmt.Sprintf("%s tube, %s outside, wall %s", alloy.Name, words.Length(c, tube.OuterMM), words.Length(c, tube.WallMM)),
			fmt.Sprintf("%s; bur %s, the stone's own diameter", words.Counted(count, "piece", "pieces"), words.Length(c, stone)),
		},
	}
	out := tube.OuterMM / 2
	d.Paths = append(d.Paths,
		template.Polyline("end-top", template.Cut, "", false, [2]float64{-out, length}, [2]float64{out, length}),
		template.Polyline("end-bottom", template.Cut, "", false, [2]float64{-out, 0}, [2]float64{out, 0}),
		template.Polyline("side-left", template.Edge, "", false, [2]float64{-out, 0}, [2]float64{-out, length}),
		template.Polyline("side-right", template.Edge, "", false, [2]float64{out, 0}, [2]float64{out, length}))
	d.Dimensions = []template.Dimension{
		{A: [2]float64{-out, 0}, B: [2]float64{out, 0}, Side: template.Below, Name: "outside", Text: words.Length(c, tube.OuterMM) + " outside"},
		{A: [2]float64{out, 0}, B: [2]float64{out, length}, Side: template.Right, Name: "length", Text: "length " + words.Length(c, length)},
	}
	d.Details = []template.Drawing{tubeSection(c, stone, tube, length, pavilion)}
	if count > 1 {
		d.Details = append(d.Details, rowOfTubes(c, tube, min(count, 5)))
	}
	d.Alt = inWords(d)
	return d
}

// tubeSection is the tube cut through its axis, seat cut, the stone in it.
func tubeSection(c *catalogue.Call, stone float64, tube tubeset.Tube, length, pavilion float64) template.Drawing {
	out, bore, half := tube.OuterMM/2, tube.InnerMM()/2, stone/2
	seat := length - tubeset.SeatDepthMM(stone)
	slope := pavilion / half
	wall := [][2]float64{{out, 0}, {out, length}, {half, length}, {half, seat}, {bore, seat - (half-bore)*slope}, {bore, 0}}
	right := template.Polyline("wall-right", template.Edge, "", true, wall...)
	left := template.Polyline("wall-left", template.Edge, "", true, mirrored(wall)...)
	girdle := 0.03 * stone
	crown, table := 0.162*stone, 0.53*half
	side := [][2]float64{{0, seat - pavilion}, {half, seat}, {half, seat + girdle}, {table, seat + girdle + crown}}
	gem := template.Polyline("stone", template.Stone, "stone", true, append(append([][2]float64{}, side...), mirrored(side[1:])...)...)
	return template.Drawing{
		Title:    "Section, seat cut, before the rim is pushed over",
		Paths:    []template.Path{left, right, gem, template.Polyline("axis", template.Centre, "", false, [2]float64{0, math.Min(0, seat-pavilion) - 0.4}, [2]float64{0, seat + girdle + crown + 0.4})},
		CutFaces: []template.Path{left, right},
		Dimensions: []template.Dimension{
			{A: [2]float64{out, seat}, B: [2]float64{out, length}, Side: template.Right, Name: "seat", Text: "seat " + words.Length(c, tubeset.SeatDepthMM(stone))},
			{A: [2]float64{half, length}, B: [2]float64{out, length}, Side: template.Above, Name: "wall left", Text: words.Length(c, tube.WallLeftMM(stone)) + " wall left"},
			{A: [2]float64{-bore, 0}, B: [2]float64{bore, 0}, Side: template.Below, Name: "inside", Text: words.Length(c, tube.InnerMM()) + " inside"},
		},
	}
}

// rowOfTubes is the row from above.
func rowOfTubes(c *catalogue.Call, tube tubeset.Tube, count int) template.Drawing {
	d := template.Drawing{Title: "The row from above"}
	if count == 5 && c.Number("count") > 5 {
		d.Lines = []string{"its first five"}
	}
	apart := tube.OuterMM + c.Number("spacing")
	for i := range count {
		at := [2]float64{float64(i) * apart, 0}
		d.Paths = append(d.Paths,
			template.Circle(fmt.Sprintf("tube-%d", i+1), template.Edge, "", at, tube.OuterMM/2),
			template.Circle(fmt.Sprintf("bore-%d", i+1), template.Edge, "", at, tube.InnerMM()/2))
	}
	d.Dimensions = []template.Dimension{{A: [2]float64{}, B: [2]float64{apart, 0}, Side: template.Below, Name: "centre to centre", Text: words.Length(c, apart) + " centres"}}
	return d
}

// resizeDrawing is what is let in or taken out, at full size, and the ring with
// the place of the cut.
func resizeDrawing(c *catalogue.Call, r resized, alloy stock.Alloy) template.Drawing {
	change := math.Abs(r.changeMM())
	what, name := "Piece to let in", "let-in"
	if r.changeMM() < 0 {
		what, name = "Piece to take out", "take-out"
	}
	d := template.Drawing{
		Name:  fmt.Sprintf("resize-%s-%s", name, words.MM(change)),
		Title: fmt.Sprintf("%s, %s to %s", what, sizeName(r.fromSystem, r.fromText), sizeName(r.toSystem, r.toText)),
		Lines: []string{fmt.Sprintf("%s, %s %s", alloy.Name, words.Size(c, r.width, r.thickness), r.profile), "measured at the middle of the metal"},
	}
	d.Paths = []template.Path{
		template.Polyline("edge-top", template.Cut, "", false, [2]float64{0, r.width}, [2]float64{change, r.width}),
		template.Polyline("edge-bottom", template.Cut, "", false, [2]float64{0, 0}, [2]float64{change, 0}),
		template.Polyline("end-a", template.Cut, "", false, [2]float64{0, 0}, [2]float64{0, r.width}),
		template.Polyline("end-b", template.Cut, "", false, [2]float64{change, 0}, [2]float64{change, r.width}),
	}
	d.Dimensions = d.Overall(template.Below, words.Length(c, change), words.Length(c, r.width))
	d.Details = []template.Drawing{resizeRing(c, r), bandSection(c, ring.Shank{WidthMM: r.width, ThicknessMM: r.thickness, Profile: r.profile})}
	d.Alt = inWords(d, "the cut lies at the back of the shank, opposite the setting, or at its old seam")
	return d
}

// resizeRing is the ring as it is, from the side, its setting above and the cut
// below.
func resizeRing(c *catalogue.Call, r resized) template.Drawing {
	in := r.fromMM / math.Pi / 2
	out := in + r.thickness
	neutral := in + r.profile.NeutralFactor()*r.thickness
	half := math.Abs(r.changeMM()) / 2 / neutral
	d := template.Drawing{
		Title: "The ring now",
		Paths: []template.Path{
			template.Circle("inside", template.Edge, "", [2]float64{}, in),
			template.Circle("outside", template.Edge, "", [2]float64{}, out),
		},
		Dimensions: []template.Dimension{{A: [2]float64{-in, 0}, B: [2]float64{in, 0}, Side: template.Above, Name: "inside now", Text: words.Length(c, 2*in) + " inside now"}},
	}
	sin, cos := math.Sincos(half)
	at := func(radius, side float64) [2]float64 { return [2]float64{side * radius * sin, -radius * cos} }
	if r.changeMM() > 0 {
		d.Lines = []string{"cut it at the mark and open it"}
		d.Paths = append(d.Paths, template.Polyline("saw", template.Mark, "saw here", false, [2]float64{0, -in}, [2]float64{0, -out}))
		return d
	}
	d.Lines = []string{"take out what is hatched"}
	var face [][2]float64
	for i := range 9 {
		s, k := math.Sincos(-half + half*float64(i)/4)
		face = append(face, [2]float64{out * s, -out * k})
	}
	for i := range 9 {
		s, k := math.Sincos(half - half*float64(i)/4)
		face = append(face, [2]float64{in * s, -in * k})
	}
	d.CutFaces = []template.Path{template.Polyline("taken", template.Waste, "", true, face...)}
	d.Paths = append(d.Paths,
		template.Polyline("saw-a", template.Mark, "saw inside the marks", false, at(in, -1), at(out, -1)),
		template.Polyline("saw-b", template.Mark, "saw inside the marks", false, at(in, 1), at(out, 1)))
	return d
}
