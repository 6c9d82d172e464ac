package template

import (
	"math"

	"guildhand/calc/development"
)

// arc gives cubic pieces of a circular arc round the origin's x and cy, from
// angle a to b in radians.
func arc(cx, cy, r, a, b float64, n int) []development.Cubic {
	var out []development.Cubic
	step := (b - a) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4) * r
	at := func(t float64) (development.Point, development.Point) {
		return development.Point{X: cx + r*math.Cos(t), Y: cy + r*math.Sin(t)}, development.Point{X: -math.Sin(t), Y: math.Cos(t)}
	}
	for i := range n {
		p, u := at(a + float64(i)*step)
		q, v := at(a + float64(i+1)*step)
		out = append(out, development.Cubic{P0: p, P1: development.Point{X: p.X + k*u.X, Y: p.Y + k*u.Y}, P2: development.Point{X: q.X - k*v.X, Y: q.Y - k*v.Y}, P3: q})
	}
	return out
}

// sector is the blank of a round tapered setting: an annular sector with its
// opening at the top, rim outside, of the given rim radius, slant and angle.
func sector(name string, rimRadius, slant, degrees float64, lines ...string) Drawing {
	half := degrees / 2 * math.Pi / 180
	from, to := math.Pi/2+half, math.Pi/2-half
	n := int(degrees/12) + 2
	level := func(down float64) []development.Cubic { return arc(0, 0, rimRadius-down, from, to, n) }
	rim, base := level(0), level(slant)
	d := Drawing{
		Name: name, Title: "Round collet 8 mm, lean 8.5°",
		Lines: lines,
		Alt:   "The flat blank of a round collet.",
	}
	d.Paths = append(d.Paths,
		FromCubics("rim", Cut, "rim", rim),
		FromCubics("base", Cut, "base", base),
		FromLine("seam-a", Seam, "seam A", development.Line{A: rim[0].P0, B: base[0].P0}),
		FromLine("seam-b", Seam, "seam B", development.Line{A: rim[n-1].P3, B: base[n-1].P3}),
		FromCubics("girdle", Girdle, "girdle", level(slant*0.22)),
		FromCubics("bearing", Bearing, "bearing", level(slant*0.38)),
	)
	for i, t := range []float64{0.25, 0.5, 0.75} {
		a := from + t*(to-from)
		p := func(r float64) development.Point {
			return development.Point{X: r * math.Cos(a), Y: r * math.Sin(a)}
		}
		d.Paths = append(d.Paths, FromLine("quarter-"+string(rune('1'+i)), Mark, "quarter", development.Line{A: p(rimRadius), B: p(rimRadius - slant*0.15)}))
	}
	return d
}

// collet8 is a common size: rim 26.7 mm long, slant 6.6 mm.
func collet8() Drawing {
	return sector("collet-round-8", 28.8, 6.6, 53.2,
		"Sterling, 0.64 mm (22 ga). Blank 25.6 x 8.9 mm.",
		"Rim 26.74 mm, base 20.6 mm. Seam on a flat side.",
		"Cut outside the line; file to it.")
}

// strip is a long low annular strip, 60 x 5 mm.
func strip() Drawing {
	d := sector("bezel-strip", 250, 4.2, 13.8, "A long, low blank.")
	d.Title = "Collar strip 60 x 5 mm"
	return d
}

// emerald is the blank of a cut-corner setting: eight trapezoids, folds
// between them, the seam in the middle of a long side.
func emerald() Drawing {
	d := Drawing{Name: "collet-emerald-8x6", Title: "Emerald collet 8 x 6 mm, lean 8.5°",
		Lines: []string{"Sterling, 0.64 mm (22 ga). Blank 26.4 x 11.9 mm.", "Scored corners: file each fold to 45°, leave a third."},
		Alt:   "The flat blank of an emerald collet: eight trapezoids in a fan."}
	widths := []float64{2.6, 2.1, 3.4, 2.1, 5.2, 2.1, 3.4, 2.1, 2.6}
	turn := []float64{6.1, 6.1, 6.1, 6.1, 6.1, 6.1, 6.1, 6.1}
	slant := 6.4
	dir := 26.0 * math.Pi / 180
	rim := [][2]float64{{0, 0}}
	base := [][2]float64{}
	p := rim[0]
	foot := func(p [2]float64, dir float64) [2]float64 {
		return [2]float64{p[0] + slant*math.Sin(dir), p[1] - slant*math.Cos(dir)}
	}
	base = append(base, foot(p, dir))
	for i, w := range widths {
		p = [2]float64{p[0] + w*math.Cos(dir), p[1] + w*math.Sin(dir)}
		rim = append(rim, p)
		if i < len(turn) {
			half := turn[i] / 2 * math.Pi / 180
			base = append(base, foot(p, dir-half))
			dir -= 2 * half
		} else {
			base = append(base, foot(p, dir))
		}
	}
	n := len(rim)
	mix := func(t float64) [][2]float64 {
		var out [][2]float64
		for i := range rim {
			out = append(out, [2]float64{rim[i][0] + t*(base[i][0]-rim[i][0]), rim[i][1] + t*(base[i][1]-rim[i][1])})
		}
		return out
	}
	d.Paths = append(d.Paths,
		Polyline("rim", Cut, "rim", false, rim...),
		Polyline("base", Cut, "base", false, base...),
		Polyline("seam-a", Seam, "seam A", false, rim[0], base[0]),
		Polyline("seam-b", Seam, "seam B", false, rim[n-1], base[n-1]),
		Polyline("girdle", Girdle, "girdle", false, mix(0.22)...),
		Polyline("bearing", Bearing, "bearing", false, mix(0.36)...))
	for i := 1; i < n-1; i++ {
		d.Paths = append(d.Paths, Polyline("fold-"+string(rune('0'+i)), Fold, "fold", false, rim[i], base[i]))
	}
	d.Texts = append(d.Texts, Text{At: [2]float64{(rim[0][0] + base[0][0]) / 2, (rim[0][1] + base[0][1]) / 2}, Text: "seam, file 12.4°"})
	return d
}

// lowBlank is 25 mm long and 6 mm high with everything on it.
func lowBlank() Drawing {
	d := sector("prongs-round", 60, 5.2, 23, "Six prongs; saw the windows after forming.")
	d.Title = "Prongs in a round collet"
	for i := range 6 {
		a := math.Pi/2 + (float64(i)-2.5)*3.4*math.Pi/180
		at := func(r, da float64) [2]float64 { return [2]float64{r * math.Cos(a+da), r * math.Sin(a+da)} }
		d.Paths = append(d.Paths,
			Polyline("window-"+string(rune('1'+i)), Waste, "window", true, at(60, 0.012), at(56.6, 0.007), at(56.6, -0.007), at(60, -0.012)),
			Circle("drill-"+string(rune('1'+i)), Drill, "drill 0.8", at(56.4, 0), 0.4))
	}
	return d
}

// tall is a narrow upright blank.
func tall() Drawing {
	d := Drawing{Name: "tall", Title: "Tall narrow blank", Lines: []string{"5 x 60 mm"}, Alt: "A tall strip."}
	d.Paths = append(d.Paths, Polyline("rim", Cut, "rim", false, [2]float64{0, 60}, [2]float64{5, 60}),
		Polyline("base", Cut, "base", false, [2]float64{0, 0}, [2]float64{5, 0}),
		Polyline("seam-a", Seam, "seam A", false, [2]float64{0, 60}, [2]float64{0, 0}),
		Polyline("seam-b", Seam, "seam B", false, [2]float64{5, 60}, [2]float64{5, 0}),
		Polyline("fold-1", Fold, "fold", false, [2]float64{2.5, 60}, [2]float64{2.5, 0}))
	return d
}

// stockSheet is a stock sheet with many pieces nested on it.
func stockSheet(n int) Drawing {
	d := Drawing{Name: "sheet-1", Title: "Sheet 1 of 1: 100 x 200 mm", Lines: []string{"Sterling 0.64 mm, kerf 0.4 mm."}, Alt: "Pieces on a sheet."}
	d.Paths = append(d.Paths, Rect("sheet", Outline, "sheet", [2]float64{0, 0}, [2]float64{200, 100}))
	for i := range n {
		x, y := 16+float64(i%7)*28, 8+float64(i/7)*10
		piece := collet8()
		for _, p := range piece.Paths[:4] {
			q := p.Placed(0, x, y-24)
			q.Label = ""
			q.ID = p.ID + "-" + string(rune('a'+i%26)) + string(rune('a'+i/26))
			d.Paths = append(d.Paths, q)
		}
		d.Texts = append(d.Texts, Text{At: [2]float64{x, y + 1.4}, Text: itoa(i + 1)})
	}
	return d
}

func itoa(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return itoa(n/10) + string(rune('0'+n%10))
}

// samples are drawings that look like real answers.
func samples() []Drawing {
	return []Drawing{collet8(), strip(), emerald(), lowBlank(), tall(), stockSheet(60), big()}
}

// big is wider and higher than a page.
func big() Drawing {
	d := sector("big", 330, 240, 70, "Larger than a page.")
	d.Title = "Large cone"
	return d
}
