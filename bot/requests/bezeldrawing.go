package requests

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/bezel"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
)

func bezelDrawing(c *catalogue.Call, u bezelUsed) template.Drawing {
	d := template.Drawing{
		Name:  "bezel-" + u.stone.fileName(),
		Title: "Bezel for " + u.stone.aWords(c),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
		},
		Paths: bezelStripPaths(u),
	}
	d.Lines = append(d.Lines, bezelPictureLines(c, u)...)
	level := func(id string, role template.Role, y float64) {
		if y > 0.05 && y < u.cutHeightMM()-0.05 {
			d.Paths = append(d.Paths, template.Polyline(id, role, id, false, [2]float64{0, y}, [2]float64{u.cutMM(), y}))
		}
	}
	seat := u.lowerMM()
	if u.Bearing != bezel.NoBearing {
		seat += u.BearingMM
		level("bearing", template.Bearing, seat)
	}
	if u.GirdleMM > 0 {
		level("girdle", template.Girdle, seat+u.GirdleMM)
	}
	measured(d.Paths, "bearing", words.Length(c, seat)+" above the lower edge")
	measured(d.Paths, "girdle", words.Length(c, seat+u.GirdleMM)+" above the lower edge")
	nameMarks(d.Paths, quarterNames(u.stone.curve, u.seam))
	seamMeasures(d.Paths, u.Bezel)
	d.Dimensions = d.Overall(template.Above, words.Length(c, u.cutMM()), words.Length(c, u.cutHeightMM()))
	size := u.Outer.Size()
	if u.plateMM > 0 {
		size = u.plate.Blank.Size()
	}
	middle := math.Max(u.cutMM(), size.LengthMM) / 2
	d.Paths = append(d.Paths, bezelPlan(c, u, middle)...)
	if section, ok := bezelSection(c, u); ok {
		d.Details = []template.Drawing{section}
	}
	if over, ok := rubbedOver(c, u); ok {
		d.Details = append(d.Details, over)
	}
	if bodies, err := finished.Bezel(finished.Cabochon{Bezel: u.Bezel, BackMM: u.seatMM(), Seam: u.seam, Edge: u.edge, Plate: u.plate, PlateMM: u.plateMM}); err == nil {
		d.Details = append(d.Details, finishedView(bodies, seamFaces(u.Stone, u.seam), "before the wall is rubbed over"))
	}
	d.Alt = inWords(d, "a straight strip", "seam "+u.seam.Summary, foldWords(len(u.Folds)), "below it the finished bezel is seen from above")
	return d
}

// bezelPictureLines are what the picture says of the strip beside its measures.
func bezelPictureLines(c *catalogue.Call, u bezelUsed) []string {
	var lines []string
	if u.filing > 0 {
		lines = append(lines, fmt.Sprintf("%s of the length is to file at the joint", words.Length(c, u.filing)))
	}
	switch {
	case u.hasEdge():
		low, high := u.edge.PitchMM()
		wide := words.Length(c, high)
		if high-low > 0.005 && !words.Inches(c) {
			wide = words.MM(low) + " to " + wide
		}
		lines = append(lines, fmt.Sprintf("%d %s, each %s wide, cut %s deep", u.edge.Count, edgeWord(u.edge.Edging, 2), wide, words.Length(c, u.edge.DepthMM)))
	case u.hasGallery():
		lines = append(lines, fmt.Sprintf("%d repeats of gallery strip, %s each", u.gallery.Repeats, words.Length(c, u.gallery.RepeatMM)))
		if u.gallery.StretchShare > 5e-4 {
			lines = append(lines, fmt.Sprintf("to be stretched to %s", words.Length(c, u.LengthMM)))
		}
	case len(u.notches) > 0:
		lines = append(lines, fmt.Sprintf("notches %s wide, %s deep", words.Length(c, u.notches[0].WidthMM), words.Length(c, u.notches[0].DepthMM)))
	}
	if u.count > 1 {
		lines = append(lines, fmt.Sprintf("cut %d from %s", u.count, words.Length(c, u.cuts().TotalMM())))
	}
	return lines
}

// bezelStripPaths are the strip's edges and marks; its top edge as it is cut.
func bezelStripPaths(u bezelUsed) []template.Path {
	b, height := u.Bezel, u.cutHeightMM()
	if u.hasGallery() { // as it is before it is stretched
		k := u.gallery.CutMM() / b.LengthMM
		b.Folds, b.Quarters = scaled(b.Folds, k), scaled(b.Quarters, k)
		b.LengthMM = u.gallery.CutMM()
	}
	paths := stripPaths(u.cutMM(), height, u.filing+u.kerf, b)
	for i := range u.gallery.Repeats - min(1, u.gallery.Repeats) {
		x := float64(i+1) * u.gallery.RepeatMM
		paths = append(paths, template.Polyline(fmt.Sprintf("repeat-%d", i+1), template.Mark, "repeats", false, [2]float64{x, 0}, [2]float64{x, height / 4}))
	}
	for i, d := range u.stone.dips {
		for k, part := range u.onStrip(d) {
			y := 0.8 * height
			paths = append(paths, template.Polyline(fmt.Sprintf("dip-%d-%d", i+1, k+1), template.Outline, "dip: not pushed over", false, [2]float64{part[0], y}, [2]float64{part[1], y}))
		}
	}
	top := u.topEdge()
	if top == nil {
		return paths
	}
	paths[0] = template.Polyline("rim", template.Cut, "top edge", false, top...)
	low := height
	for _, p := range top {
		low = math.Min(low, p[1])
	}
	ends := map[string]float64{"seam-a": top[0][1], "seam-b": top[len(top)-1][1]}
	for i, p := range paths {
		if len(p.Segs) != 2 {
			continue
		}
		x, foot := p.Segs[0].P.X, math.Min(height/4, 1.5)
		switch y, isEnd := ends[p.ID]; {
		case isEnd:
			paths[i] = template.Polyline(p.ID, p.Role, p.Label, false, [2]float64{x, y}, [2]float64{x, 0})
		case p.Role == template.Fold:
			paths[i] = template.Polyline(p.ID, p.Role, p.Label, false, [2]float64{x, low}, [2]float64{x, 0})
		case strings.HasPrefix(p.ID, "mark-"): // there may be no metal at the top
			paths[i] = template.Polyline(p.ID, p.Role, p.Label, false, [2]float64{x, foot}, [2]float64{x, 0})
		}
	}
	return paths
}

// topEdge is the strip's top edge where it is not straight, from seam A.
func (u bezelUsed) topEdge() [][2]float64 {
	height, filed := u.cutHeightMM(), u.filing+u.kerf
	if u.hasEdge() {
		edge := u.edge.Edge()
		points := [][2]float64{{0, height - u.edge.DepthMM}}
		for _, p := range edge {
			points = append(points, [2]float64{p[0] + filed/2, height + p[1]})
		}
		return append(points, [2]float64{u.cutMM(), height - u.edge.DepthMM})
	}
	if len(u.notches) == 0 {
		return nil
	}
	var points [][2]float64
	for _, n := range u.notches {
		x, foot := n.AtMM+filed/2, height-n.DepthMM-(u.truing+u.kerf)/2
		left, right := [2]float64{x - n.WidthMM/2, height}, [2]float64{x + n.WidthMM/2, height}
		switch {
		case n.AtMM <= 0:
			points = append(points, [2]float64{0, foot}, [2]float64{x, foot}, right)
		case n.AtMM >= u.LengthMM-1e-9:
			points = append(points, left, [2]float64{x, foot}, [2]float64{u.cutMM(), foot})
		default:
			points = append(points, left, [2]float64{x, foot}, right)
		}
	}
	if u.notches[0].AtMM > 0 {
		points = append([][2]float64{{0, height}}, points...)
	}
	if u.notches[len(u.notches)-1].AtMM < u.LengthMM-1e-9 {
		points = append(points, [2]float64{u.cutMM(), height})
	}
	return points
}

// onStrip is where a dip lies on the strip as cut, from seam A: one stretch, or two
// where the seam lies in it.
func (u bezelUsed) onStrip(d dip) [][2]float64 {
	filed := (u.filing + u.kerf) / 2
	from, to := u.OnStrip(d.line[0])+filed, u.OnStrip(d.line[len(d.line)-1])+filed
	if from > to {
		from, to = to, from
	}
	if to-from > u.LengthMM/2 {
		return [][2]float64{{0, from}, {to, u.cutMM()}}
	}
	return [][2]float64{{from, to}}
}

func scaled(list []float64, k float64) []float64 {
	out := make([]float64, len(list))
	for i, x := range list {
		out[i] = k * x
	}
	return out
}

// bezelPlan is the bezel seen from above: plate, wall and stone.
func bezelPlan(c *catalogue.Call, u bezelUsed, middle float64) []template.Path {
	var lines []planLine
	curve := func(id, label string, curve outline.Curve, role template.Role) {
		lines = append(lines, planLine{id, label, curve.Polyline(0.005), true, role})
	}
	if u.plateMM > 0 && u.plate.RimMM > 0 {
		curve("plate", "back plate", u.plate.Blank, template.Seen)
	}
	curve("outside", "wall", u.Outer, template.Seen)
	curve("stone", "stone", u.stone.curve, template.Stone)
	if u.plate.HasCutOut {
		curve("cut-out", "cut-out", u.plate.CutOut, template.Hidden)
	}
	for i, d := range u.stone.dips {
		lines = append(lines, planLine{fmt.Sprintf("dip-line-%d", i+1), "dip", d.line, false, template.Stone})
	}
	for i, p := range u.holes {
		const sides = 24
		circle := make([]outline.Point, sides)
		for k := range circle {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / sides)
			circle[k] = outline.Point{X: p.X + u.holeMM/2*cos, Y: p.Y + u.holeMM/2*sin}
		}
		lines = append(lines, planLine{fmt.Sprintf("relief-%d", i+1), "relief hole", circle, true, template.Drill})
	}
	paths := planLines(middle, u.Outer.Kind == outline.Heart, lines...)
	if u.plateMM > 0 {
		size := u.plate.Blank.Size()
		measured(paths, "plate", words.Size(c, size.LengthMM, size.WidthMM))
	}
	if u.plate.HasCutOut {
		size := u.plate.CutOut.Size()
		measured(paths, "cut-out", words.Size(c, size.LengthMM, size.WidthMM))
	}
	for i := range u.holes {
		measured(paths, fmt.Sprintf("relief-%d", i+1), words.Length(c, u.holeMM))
	}
	return paths
}

// plateCuts are where a section cuts the back plate, from left to right; outer is
// half the wall's outside across.
func (u bezelUsed) plateCuts(outer float64) [][2]float64 {
	if u.plateMM == 0 {
		return nil
	}
	edge := outer + u.plate.RimMM
	if !u.plate.HasCutOut {
		return [][2]float64{{-edge, edge}}
	}
	open := outer - u.ThicknessMM - u.plate.ShelfMM
	return [][2]float64{{-edge, -open}, {open, edge}}
}

// bezelSection is the wall with the stone in it, cut across the narrow way,
// before the wall is rubbed over.
func bezelSection(c *catalogue.Call, u bezelUsed) (template.Drawing, bool) {
	side, err := u.Side(24)
	if err != nil {
		return template.Drawing{}, false
	}
	seat := u.seatMM()
	for i := range side {
		side[i][1] += seat
	}
	inner := side[0][0] + u.ClearanceMM
	outer := inner + u.ThicknessMM
	right := rectangle("wall-right", inner, 0, outer, u.HeightMM)
	left := rectangle("wall-left", -outer, 0, -inner, u.HeightMM)
	d := template.Drawing{
		Title: "Section, before the wall is rubbed over",
		Paths: []template.Path{
			left, right,
			template.Polyline("stone-section", template.Stone, "stone", true, append(append([][2]float64{}, side...), mirrored(side)...)...),
		},
		CutFaces: []template.Path{left, right},
	}
	switch u.Bearing {
	case bezel.Step:
		d.Lines = []string{fmt.Sprintf("inner strip %s, %s thick", words.Size(c, u.BearingLengthMM, u.BearingMM), words.Length(c, u.BearingThickMM))}
		for i, x := range [][2]float64{{inner - u.BearingThickMM, inner}, {-inner, -inner + u.BearingThickMM}} {
			step := rectangle(fmt.Sprintf("step-%d", i+1), x[0], 0, x[1], u.BearingMM)
			d.Paths, d.CutFaces = append(d.Paths, step), append(d.CutFaces, step)
		}
	case bezel.Wire:
		d.Lines = []string{fmt.Sprintf("bearing wire %s thick, %s long", words.Length(c, u.BearingMM), words.Length(c, u.BearingLengthMM))}
		for i, x := range []float64{inner - u.BearingMM/2, -inner + u.BearingMM/2} {
			wire := template.Circle(fmt.Sprintf("wire-%d", i+1), template.Edge, "", [2]float64{x, u.BearingMM / 2}, u.BearingMM/2)
			d.Paths, d.CutFaces = append(d.Paths, wire), append(d.CutFaces, wire)
		}
	}
	for i, x := range u.plateCuts(outer) {
		plate := rectangle(fmt.Sprintf("plate-%d", i+1), x[0], -u.plateMM, x[1], 0)
		d.Paths, d.CutFaces = append(d.Paths, plate), append(d.CutFaces, plate)
	}
	if u.plateMM > 0 {
		d.Lines = append(d.Lines, fmt.Sprintf("back plate %s thick, %s outside the wall", words.Length(c, u.plateMM), words.Length(c, u.plate.RimMM)))
	}
	d.Dimensions = []template.Dimension{
		{A: [2]float64{outer, 0}, B: [2]float64{outer, u.HeightMM}, Side: template.Right, Text: "wall " + words.Length(c, u.HeightMM)},
		{A: [2]float64{-side[0][0], seat}, B: [2]float64{0, seat + u.DomeMM}, Side: template.Left, Text: "stone " + words.Length(c, u.DomeMM)},
	}
	return d, true
}

// rubbedOver is the right wall enlarged, as it stands and as it lies over the
// stone: its inner face then follows the stone's side to where it reaches.
func rubbedOver(c *catalogue.Call, u bezelUsed) (template.Drawing, bool) {
	side, err := u.Side(200)
	if err != nil {
		return template.Drawing{}, false
	}
	seat, half := u.seatMM(), side[0][0]
	inner := half + u.ClearanceMM
	clip := half - max(1.5, 2*u.ReachMM)
	var stone, on [][2]float64
	for i, p := range side {
		at := [2]float64{p[0], p[1] + seat}
		if i > 0 && p == side[i-1] {
			continue // a side without an upright part
		}
		if p[0] >= clip {
			stone = append(stone, at)
		}
		if p[0] >= half-u.ReachMM && at[1] >= seat+u.GirdleMM {
			on = append(on, at)
		}
	}
	if len(on) < 3 {
		return template.Drawing{}, false
	}
	out := make([][2]float64, len(on)) // a wall's thickness outside the stone
	for i, p := range on {
		a, b := on[max(i-1, 0)], on[min(i+1, len(on)-1)]
		l := math.Hypot(b[0]-a[0], b[1]-a[1])
		out[i] = [2]float64{p[0] + u.ThicknessMM*(b[1]-a[1])/l, p[1] - u.ThicknessMM*(b[0]-a[0])/l}
	}
	tip := on[len(on)-1]
	slices.Reverse(out)
	wall := rectangle("wall", inner, 0, inner+u.ThicknessMM, u.HeightMM)
	return template.Drawing{
		Title: "The wall, enlarged",
		Paths: []template.Path{wall,
			template.Polyline("side", template.Stone, "stone", false, stone...),
			template.Polyline("rubbed-over", template.Outline, "rubbed over", false, slices.Concat(on, out)...)},
		CutFaces: []template.Path{wall},
		Dimensions: []template.Dimension{
			{A: tip, B: [2]float64{half, tip[1]}, Side: template.Above, Text: "over the stone " + words.Length(c, u.ReachMM)},
		},
	}, true
}
