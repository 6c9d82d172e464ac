package requests

import (
	"fmt"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
	"guildhand/calc/halo"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// drawnMM is how far a drawn chord may leave its curve.
const drawnMM = 0.002

// haloDrawing is the plate with its holes, at 1:1.
func haloDrawing(s stoneUsed, spec halo.Spec, h halo.Halo, hole float64, alloy stock.Alloy, c *catalogue.Call) (template.Drawing, error) {
	plate := spec.PlateSize()
	edge, err := spec.PlateEdge()
	if err != nil {
		return template.Drawing{}, err
	}
	d := template.Drawing{
		Name:  fmt.Sprintf("halo-%s-%d", s.fileName(), h.Count),
		Title: fmt.Sprintf("Halo plate, %s", s.words(c)),
		Lines: []string{
			fmt.Sprintf("%s, %s thick", alloy.Name, words.Length(c, c.Number("thickness"))),
			fmt.Sprintf("%d stones of %s", h.Count, words.Length(c, spec.StoneMM)),
			fmt.Sprintf("gaps %s; holes %s", words.Length(c, h.GapMM), words.Length(c, hole)),
		},
	}
	closed := func(id string, role template.Role, label string, points []outline.Point) template.Path {
		list := make([][2]float64, len(points))
		for i, p := range points {
			list[i] = [2]float64{p.X, p.Y}
		}
		return template.Polyline(id, role, label, true, list...)
	}
	d.Paths = append(d.Paths, closed("plate", template.Cut, "", edge).Thinned(drawnMM),
		closed("stone", template.Outline, "centre stone", s.curve.Polyline(drawnMM)))
	for i, p := range h.Centres {
		d.Paths = append(d.Paths,
			template.Circle(fmt.Sprintf("seat-%d", i+1), template.Outline, "", [2]float64{p.X, p.Y}, spec.StoneMM/2),
			template.Circle(fmt.Sprintf("hole-%d", i+1), template.Drill, "", [2]float64{p.X, p.Y}, hole/2))
	}
	d.Dimensions = d.Overall(template.Below, words.Length(c, plate.WidthMM), words.Length(c, plate.LengthMM))
	d.Details = []template.Drawing{haloSection(c, spec, hole), haloView(s, spec, h, d.Paths[0], c.Number("thickness"))}
	d.Alt = inWords(d, fmt.Sprintf("the holes lie evenly round the outline of the centre stone, %s apart", words.Length(c, h.PitchMM)))
	return d, nil
}

// haloSection is the plate cut through one hole, from the centre stone outward: the
// seat cut, and a small stone in it whose girdle is level with the plate.
func haloSection(c *catalogue.Call, spec halo.Spec, hole float64) template.Drawing {
	gem := newSmallStone(spec.StoneMM)
	thick, half, bore := c.Number("thickness"), spec.StoneMM/2, hole/2
	seatMM := gem.GirdleMM
	below := min(thick, seatMM+(half-bore)*gem.PavilionMM/half) // where the seat ends in the hole
	bored := half - (below-seatMM)*half/gem.PavilionMM
	inner := [][2]float64{{-half - spec.ToCentreMM, 0}, {-half, 0}, {-half, -seatMM}, {-bored, -below}, {-bored, -thick}, {-half - spec.ToCentreMM, -thick}}
	outer := [][2]float64{{half, 0}, {half + spec.RimMM, 0}, {half + spec.RimMM, -thick}, {bored, -thick}, {bored, -below}, {half, -seatMM}}
	left, right := template.Polyline("plate-inside", template.Edge, "", true, inner...), template.Polyline("plate-outside", template.Edge, "", true, outer...)
	culet, table := -gem.GirdleMM-gem.PavilionMM, gem.TableMM()-gem.GirdleMM
	side := [][2]float64{{0, culet}, {half, -gem.GirdleMM}, {half, 0}, {half - gem.CrownRunMM(), table}}
	d := template.Drawing{
		Title: "Section through a hole, seat cut",
		Lines: []string{"centre stone on the left; the small stone's girdle level with the plate", haloCulet(c, culet+thick)},
		Paths: []template.Path{left, right,
			template.Polyline("small-stone", template.Stone, "stone", true, append(append([][2]float64{}, side...), mirrored(side[1:])...)...),
			template.Polyline("axis", template.Centre, "", false, [2]float64{0, min(-thick, culet) - 0.3}, [2]float64{0, table + 0.3})},
		CutFaces: []template.Path{left, right},
		Dimensions: []template.Dimension{
			{A: [2]float64{-bored, -thick}, B: [2]float64{bored, -thick}, Side: template.Below, Text: "hole " + words.Length(c, 2*bored)},
			{A: [2]float64{half + spec.RimMM, -thick}, B: [2]float64{half + spec.RimMM, 0}, Side: template.Right, Text: words.Length(c, thick) + " thick"},
		},
	}
	if spec.RimMM > 0 {
		d.Dimensions = append(d.Dimensions, template.Dimension{A: [2]float64{half, 0}, B: [2]float64{half + spec.RimMM, 0}, Side: template.Above, Text: "edge " + words.Length(c, spec.RimMM)})
	}
	return d
}

// haloCulet says how far a small stone's culet is from the plate's underside.
func haloCulet(c *catalogue.Call, roomMM float64) string {
	if roomMM < 0 {
		return fmt.Sprintf("its culet stands out %s below the plate", words.Length(c, -roomMM))
	}
	return fmt.Sprintf("its culet is %s above the plate's underside", words.Length(c, roomMM))
}

// newSmallStone is a round stone of typical proportions.
func newSmallStone(diameterMM float64) seat.Stone {
	size := outline.Size{LengthMM: diameterMM, WidthMM: diameterMM}
	curve, err := outline.New(outline.Shape{Kind: outline.Round, Size: size})
	if err != nil {
		panic(err) // a round of a size that was checked
	}
	return seat.NewStone(curve, stone.TypicalDepthMM(outline.Round, size), seat.Given{})
}

// haloView is the plate with all its stones, their girdles level with it.
func haloView(s stoneUsed, spec halo.Spec, h halo.Halo, edge template.Path, thickMM float64) template.Drawing {
	level := func(z float64) (ring []axonometric.Point) {
		for _, p := range edge.Thinned(0.01).Segs[1:] {
			ring = append(ring, axonometric.Point{X: p.P.X, Y: p.P.Y, Z: z})
		}
		return ring
	}
	bodies := []axonometric.Body{axonometric.Loft(finished.Metal, [][]axonometric.Point{level(-thickMM), level(0)}, false)}
	centre := seat.NewStone(s.curve, s.depthMM, seat.Given{})
	bodies = append(bodies, finished.Stone(centre, -centre.GirdleMM))
	gem := newSmallStone(spec.StoneMM)
	for _, p := range h.Centres {
		bodies = append(bodies, finished.Crown(gem, p))
	}
	return finishedView(bodies, 0, "beads and the centre stone's setting not shown")
}
