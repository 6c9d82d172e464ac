package requests

import (
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/development"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
)

// pictured attaches the phone picture of d alone: nothing of it is cut along.
func (m *matcher) pictured(a *answer.Answer, d template.Drawing, best match) {
	c := m.call
	d.Name = "match-" + string(best.stone.Kind)
	d.Title = fmt.Sprintf("Best served: %s", words.Article(stoneName(c, best.stone)))
	d.Lines = append([]string{best.words}, d.Lines...)
	if laid, err := setting.Lay(best.spec); err == nil {
		if bodies, err := finished.Collet(laid); err == nil {
			d.Details = append(d.Details, finishedView(bodies, seamFaces(laid.Stone, laid.Seam)))
		}
	}
	d.Foot = words.Foot(c)
	d.Alt = inWords(d)
	a.Attachments = append(a.Attachments, d.Attachments(template.A4, func() template.Page { return template.Page{} })[0])
}

// lying turns a plan so that its length lies level, and moves it so that the
// lower left corner of its box is at a place.
func lying(c outline.Curve, at [2]float64) [][2]float64 {
	low, _ := c.Bounds()
	_, high := c.Bounds()
	points := c.Polyline(0.005)
	out := make([][2]float64, len(points))
	for i, p := range points {
		out[i] = [2]float64{p.Y - low.Y + at[0], high.X - p.X + at[1]}
	}
	return out
}

// nested are outlines of one stone round each other, seen from above, their
// common middle at a place.
func nested(curves []outline.Curve, roles []template.Role, labels []string, middle [2]float64) []template.Path {
	var paths []template.Path
	for i, c := range curves {
		low, high := c.Bounds()
		points := lying(c, [2]float64{middle[0] + low.Y, middle[1] - high.X})
		paths = append(paths, template.Polyline(fmt.Sprintf("plan-%d", i+1), roles[i], labels[i], true, points...))
	}
	return paths
}

// set is the rim of a setting with its stone, from above.
func set(s setting.Spec, middle [2]float64) (paths []template.Path, rim outline.Curve, err error) {
	inner, err := s.Stone.Offset(s.FaceMM(s.RimMM))
	if err != nil {
		return nil, rim, err
	}
	if rim, err = s.Stone.Offset(s.FaceMM(s.RimMM) + s.ThicknessMM/s.Lean.Cos()); err != nil {
		return nil, rim, err
	}
	return nested([]outline.Curve{rim, inner, s.Stone}, []template.Role{template.Edge, template.Edge, template.Stone}, []string{"", "", "stone"}, middle), rim, nil
}

// ringFace is the metal between two closed lines.
func ringFace(outer, inner template.Path) template.Path {
	outer.Segs = slices.Concat(outer.Segs, inner.Segs)
	return outer
}

// tubeDrawing is the tube's section, and beside it the rim that it becomes with
// the stone in it.
func (m *matcher) tubeDrawing(t stock.Tube, best match) template.Drawing {
	c := m.call
	r := t.OuterMM / 2
	d := template.Drawing{Paths: []template.Path{
		template.Circle("tube-outside", template.Edge, "", [2]float64{r, 0}, r),
		template.Circle("tube-inside", template.Edge, "tube", [2]float64{r, 0}, r-t.WallMM),
	}}
	d.CutFaces = []template.Path{ringFace(d.Paths[0], d.Paths[1])}
	size := best.spec.Stone.Size()
	x := 2*r + 3 + size.LengthMM
	middle := [2]float64{x, 0}
	if paths, rim, err := set(best.spec, middle); err == nil {
		d.Paths = append(d.Paths, paths...)
		d.CutFaces = append(d.CutFaces, ringFace(paths[0], paths[1]))
		outer := rim.Size()
		low, high := rim.Bounds()
		d.Dimensions = append(d.Dimensions,
			template.Dimension{A: [2]float64{x + low.Y, 0}, B: [2]float64{x + high.Y, 0}, Side: template.Above, Name: "rim", Text: "rim " + words.Length(c, outer.LengthMM)})
	}
	d.Dimensions = append(d.Dimensions,
		template.Dimension{A: [2]float64{0, 0}, B: [2]float64{2 * r, 0}, Side: template.Below, Name: "tube", Text: words.Length(c, t.OuterMM)},
		template.Dimension{A: [2]float64{x - size.LengthMM/2, 0}, B: [2]float64{x + size.LengthMM/2, 0}, Side: template.Below, Name: "stone", Text: words.Length(c, size.LengthMM)})
	d.Lines = []string{fmt.Sprintf("tube %s outside, wall %s; its rim is formed to the stone", words.Length(c, t.OuterMM), words.Length(c, t.WallMM))}
	return d
}

// holeDrawing is the hole from above with the setting's rim and stone in it.
func (m *matcher) holeDrawing(best match) template.Drawing {
	c := m.call
	var d template.Drawing
	hole, err := outline.New(outline.Shape{Kind: m.kind, Size: best.hole})
	if err != nil {
		return d
	}
	d.Paths = nested([]outline.Curve{hole}, []template.Role{template.Outline}, []string{"hole"}, [2]float64{})
	d.Paths[0].ID = "hole"
	if paths, _, err := set(best.spec, [2]float64{}); err == nil {
		d.Paths = append(d.Paths, paths...)
		d.CutFaces = append(d.CutFaces, ringFace(paths[0], paths[1]))
	}
	stone, size := best.spec.Stone.Size(), hole.Size()
	low, high := hole.Bounds()
	slow, shigh := best.spec.Stone.Bounds()
	d.Dimensions = []template.Dimension{
		{A: [2]float64{low.Y, 0}, B: [2]float64{high.Y, 0}, Side: template.Below, Text: "hole " + words.Length(c, size.LengthMM)},
		{A: [2]float64{0, -high.X}, B: [2]float64{0, -low.X}, Side: template.Right, Name: "across the hole", Text: words.Length(c, size.WidthMM)},
		{A: [2]float64{slow.Y, 0}, B: [2]float64{shigh.Y, 0}, Side: template.Above, Text: "stone " + words.Length(c, stone.LengthMM)},
	}
	d.Lines = []string{"the rim from above, as the last hole leaves it"}
	return d
}

// sheetDrawing is the metal that the maker has with the piece to cut on it.
func (m *matcher) sheetDrawing(length, width float64, best match) template.Drawing {
	c := m.call
	d := template.Drawing{Paths: []template.Path{template.Rect("metal", template.Outline, "your metal", [2]float64{0, 0}, [2]float64{length, width})}}
	if best.cut[0] > 0 { // a strip, from one end
		d.Paths = append(d.Paths, template.Rect("strip", template.Cut, "", [2]float64{0, 0}, [2]float64{best.cut[0], best.cut[1]}))
		d.Dimensions = d.Overall(template.Above, words.Length(c, best.cut[0]), words.Length(c, best.cut[1]))
	} else if laid, err := setting.Lay(best.spec); err == nil {
		d.Paths = append(d.Paths, onSheet(laid.Flat, length, width)...)
		d.Dimensions = d.Overall(template.Above, words.Length(c, laid.Flat.WidthMM), words.Length(c, laid.Flat.HeightMM))
	}
	d.Dimensions = append(d.Dimensions, template.Dimension{A: [2]float64{0, 0}, B: [2]float64{length, 0}, Side: template.Below, Name: "your metal", Text: "your metal " + words.Size(c, length, width)})
	return d
}

// onSheet are the edges of a blank in the middle of a piece of metal, its longer
// side along the metal's.
func onSheet(f development.Flat, length, width float64) []template.Path {
	paths := []template.Path{
		template.FromCubics("rim", template.Cut, "rim", f.Rim), template.FromCubics("base", template.Cut, "base", f.Base),
		template.FromLine("seam-a", template.Seam, "seam", f.SeamA), template.FromLine("seam-b", template.Seam, "seam", f.SeamB),
	}
	turns, w, h := 0, f.WidthMM, f.HeightMM
	if h > w {
		turns, w, h = 1, h, w
	}
	for i, p := range paths {
		q := p.Placed(turns, 0, 0)
		if turns == 1 {
			q = q.Placed(0, w, 0) // a quarter turn leaves it left of the origin
		}
		paths[i] = q.Placed(0, (length-w)/2, math.Max(0, (width-h)/2))
	}
	return paths
}
