package requests

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/development"
	"guildhand/calc/finished"
	"guildhand/calc/ring"
	"guildhand/calc/saddle"
)

// saddleDrawing is the blank with its saddle, at 1:1.
func saddleDrawing(c *catalogue.Call, u saddled) template.Drawing {
	d := template.Drawing{
		Name:  "saddle-" + u.stone.fileName(),
		Title: fmt.Sprintf("Saddled %s blank for %s", u.wall, u.stone.aWords(c)),
		Lines: []string{u.alloy.Name + " sheet, " + words.Length(c, u.laid.ThicknessMM) + joined(leanWords(u.laid.Lean)), u.shankWords(c)},
		Paths: saddlePaths(u),
	}
	if u.wall == tubeWall {
		n := u.tubeMM
		d.Name, d.Title = "saddle-tube-"+words.MM(n[0]), "Tube to saddle, "+words.Length(c, n[0])+" outside: template to wrap round"
		d.Lines[0] = fmt.Sprintf("%s tube, wall %s", u.alloy.Name, words.Length(c, n[1]))
	} else {
		nameMarks(d.Paths, quarterNames(u.stone.curve, u.laid.Seam))
		if u.laid.Flat.Bevel > 0 {
			measured(d.Paths, "seam-a", fmt.Sprintf("bevel %.1f°, %s edge away", u.laid.Flat.BevelAcross.Degrees(), bevelSide(u.laid.Flat)))
		}
	}
	if lies := u.lies(); lies != "" {
		d.Lines = append(d.Lines, "the stone lies with "+strings.TrimPrefix(lies, ", "))
	}
	measured(d.Paths, "rim", words.Length(c, u.laid.Flat.RimLengthMM)+" along the edge")
	measured(d.Paths, "saddle", words.Length(c, u.CutDepthMM)+" deep")
	width, height, _ := blankBox(d)
	d.Dimensions = d.Overall(template.Below, words.Length(c, width), words.Length(c, height))
	d.Details = []template.Drawing{saddleSection(c, u), saddleView(u)}
	d.Alt = inWords(d, fmt.Sprintf("the wall is %s high where it is lowest and %s where it is highest", words.Length(c, u.LowMM), words.Length(c, u.HighMM)), foldWords(len(u.laid.Flat.Folds)))
	return d
}

func joined(more string) string {
	if more == "" {
		return ""
	}
	return ", " + more
}

// saddlePaths are the lines of the blank: the rim, the saddle line, the edge to cut
// below it, and the seam edges and folds down to that.
func saddlePaths(u saddled) []template.Path {
	f := u.laid.Flat
	cut := make([][2]float64, len(u.Points))
	curve := make([][2]float64, len(u.Points))
	for i, p := range u.Points {
		cut[i], curve[i] = [2]float64{p.Cut.X, p.Cut.Y}, [2]float64{p.Flat.X, p.Flat.Y}
	}
	first, last := u.Points[0].Cut, u.Points[len(u.Points)-1].Cut
	seam := "seam A"
	other := "seam B"
	paths := []template.Path{template.FromCubics("rim", template.Cut, "rim", f.Rim).Thinned(drawnMM)}
	role := template.Bearing
	if u.FilingMM < 0.005 {
		role = template.Cut // the saddle line is the edge itself
	} else {
		paths = append(paths, template.Polyline("base", template.Cut, "base, as cut", false, cut...).Thinned(drawnMM))
	}
	paths = append(paths,
		template.Polyline("saddle", role, "saddle line", false, curve...).Thinned(drawnMM),
		template.FromLine("seam-a", template.Seam, seam, development.Line{A: f.SeamA.A, B: first}),
		template.FromLine("seam-b", template.Seam, other, development.Line{A: f.SeamB.A, B: last}))
	name := foldName(colletUsed{Collet: u.laid})
	for i, l := range f.Folds {
		if end, ok := crossing(l, u.Points); ok {
			l.B = end
		}
		paths = append(paths, template.FromLine(fmt.Sprintf("fold-%d", i+1), template.Fold, name, l))
	}
	for i, m := range f.Marks {
		paths = append(paths, template.FromLine(fmt.Sprintf("mark-%d", i+1), template.Mark, "", m))
	}
	if u.collet != nil && len(f.Levels) > 0 && u.laid.GirdleLineMM() > 0 {
		paths = append(paths, template.FromCubics("girdle", template.Girdle, "girdle", f.Levels[0]).Thinned(drawnMM))
	}
	return paths
}

// crossing is where a line of the blank meets the edge to cut.
func crossing(l development.Line, points []saddle.Point) (development.Point, bool) {
	// Run on below the blank's own base, so that it surely crosses.
	dx, dy := 2*(l.B.X-l.A.X), 2*(l.B.Y-l.A.Y)
	for i := 1; i < len(points); i++ {
		p, q := points[i-1].Cut, points[i].Cut
		ex, ey := q.X-p.X, q.Y-p.Y
		det := dx*-ey + dy*ex
		if math.Abs(det) < 1e-15 {
			continue
		}
		s := ((p.X-l.A.X)*-ey + (p.Y-l.A.Y)*ex) / det
		r := (dx*(p.Y-l.A.Y) - dy*(p.X-l.A.X)) / det
		if s >= 0 && s <= 1 && r >= -1e-9 && r <= 1+1e-9 {
			return development.Point{X: l.A.X + s*dx, Y: l.A.Y + s*dy}, true
		}
	}
	return development.Point{}, false
}

// blankBox is the size of what a drawing cuts out, and its area.
func blankBox(d template.Drawing) (widthMM, heightMM, areaMM2 float64) {
	contour, err := template.Contour(d, 0.002)
	if err != nil {
		return 0, 0, 0
	}
	low, high := contour[0], contour[0]
	for i, p := range contour {
		q := contour[(i+1)%len(contour)]
		areaMM2 += (p[0]*q[1] - q[0]*p[1]) / 2
		for k := range 2 {
			low[k], high[k] = math.Min(low[k], p[k]), math.Max(high[k], p[k])
		}
	}
	return high[0] - low[0], high[1] - low[1], areaMM2
}

// saddleSection is the setting and the shank cut across the finger.
func saddleSection(c *catalogue.Call, u saddled) template.Drawing {
	d := template.Drawing{Title: "Section across the finger", Lines: []string{"filed to the shank"}}
	reach := 0.0
	for _, side := range []float64{-1, 1} {
		p := middleOf(u.Points, side)
		wall := [][2]float64{{p.Inner.Y, p.Inner.Z}, {p.Outer.Y, p.Outer.Z}, {p.RimOuter.Y, p.RimOuter.Z}, {p.RimInner.Y, p.RimInner.Z}}
		path := template.Polyline(fmt.Sprintf("wall-%s", map[float64]string{-1: "left", 1: "right"}[side]), template.Edge, "", true, wall...)
		d.Paths, d.CutFaces = append(d.Paths, path), append(d.CutFaces, path)
		reach = math.Max(reach, math.Abs(p.Outer.Y))
		if side > 0 {
			d.Dimensions = append(d.Dimensions, template.Dimension{A: [2]float64{p.Outer.Y, p.Outer.Z}, B: [2]float64{p.RimOuter.Y, p.RimOuter.Z}, Side: template.Right, Text: "outside " + words.Length(c, u.heightMM-p.Outer.Z)})
		}
	}
	top, inner := u.Shank.RadiusMM(0), u.Shank.InnerDiameterMM/2
	half := math.Min(1.2, math.Asin(math.Min(0.99, reach/top))+0.25)
	shank := arcPoints(top, u.Shank.CrestMM(), -half, half)
	shank = append(shank, arcPoints(inner, u.Shank.CrestMM(), half, -half)...)
	face := template.Polyline("shank", template.Edge, "shank", true, shank...)
	d.Paths, d.CutFaces = append(d.Paths, face), append(d.CutFaces, face)
	d.Paths = append(d.Paths, template.Polyline("axis", template.Centre, "", false, [2]float64{0, -u.Shank.ThicknessMM - 0.4}, [2]float64{0, u.heightMM + 0.4}))
	return d
}

// arcPoints are points of a circle about the finger's axis, angles from the top, so
// that the crest is at y = 0.
func arcPoints(r, crest, from, to float64) (points [][2]float64) {
	const steps = 40
	for i := range steps + 1 {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/steps)
		points = append(points, [2]float64{r * sin, r*cos - crest})
	}
	return points
}

// middleOf is the point of the curve nearest to the shank's middle on one side.
func middleOf(points []saddle.Point, side float64) saddle.Point {
	best := points[0]
	for _, p := range points {
		off, least := math.Abs(p.Space.X), math.Abs(best.Space.X)
		if p.Space.Y*side > 0 && (best.Space.Y*side <= 0 || off < least) {
			best = p
		}
	}
	return best
}

// saddleView is the setting on its ring.
func saddleView(u saddled) template.Drawing {
	const most = 160
	var sections [][]axonometric.Point
	step := max(1, len(u.Points)/most)
	at := func(v development.Vector) axonometric.Point { return axonometric.Point{X: v.X, Y: v.Y, Z: v.Z} }
	for i := 0; i < len(u.Points)-1; i += step {
		p := u.Points[i]
		sections = append(sections, []axonometric.Point{at(p.Outer), at(p.RimOuter), at(p.RimInner), at(p.Inner)})
	}
	shank := ring.Shank{WidthMM: u.Shank.WidthMM, ThicknessMM: u.Shank.ThicknessMM, Profile: u.Shank.Profile}
	across := sectionPoints(shank)
	for i, p := range across {
		across[i] = [2]float64{p[1], p[0]}
	}
	body := finished.Shank(across, finished.Circle(u.Shank.InnerDiameterMM/2))
	body.Marks = nil
	for i, p := range body.Points { // stood up, its joint below
		body.Points[i] = axonometric.Point{X: p.Z, Y: p.Y, Z: -p.X - u.Shank.CrestMM()}
	}
	bodies := []axonometric.Body{axonometric.Loft(finished.Metal, sections, true), body}
	if u.collet != nil && u.collet.Solid.PavilionMM > 0 {
		gem := finished.Stone(u.collet.Solid, u.collet.Seat.RestMM)
		for i, p := range gem.Points {
			q := axonometric.Point{X: p.X, Y: p.Y, Z: p.Z + u.heightMM - u.laid.RimMM}
			if !u.alongBand {
				q.X, q.Y = q.Y, -q.X
			}
			gem.Points[i] = q
		}
		gem.Marks = nil
		bodies = append(bodies, gem)
	}
	return finishedView(bodies, 0, "on ring size "+u.ringName)
}
