package requests

import (
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/bezel"
	"guildhand/calc/finished"
	"guildhand/calc/forming"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// about rounds an order of magnitude to one digit and says so; under least no
// gauge tells one value from another.
func about(value, least float64, unit string) string {
	if value < least {
		return "under " + oneDigit(least) + " " + unit
	}
	return "about " + oneDigit(value) + " " + unit
}

// oneDigit is a value to its first digit.
func oneDigit(value float64) string {
	step := math.Pow(10, math.Floor(math.Log10(value)))
	return fmt.Sprintf("%g", math.Round(math.Round(value/step)*step*1e6)/1e6)
}

// both is a quantity in two units, the maker's first, each to one digit.
func both(c *catalogue.Call, metric float64, metricUnit string, least, perUnit float64, unit string) string {
	if words.Inches(c) {
		return about(metric/perUnit, least/perUnit, unit) + " (" + oneDigit(math.Max(metric, least)) + " " + metricUnit + ")"
	}
	return about(metric, least, metricUnit) + " (" + oneDigit(math.Max(metric, least)/perUnit) + " " + unit + ")"
}

// forceWords is a force as an order of magnitude, in kN and US tons.
func forceWords(c *catalogue.Call, newton float64) string {
	return both(c, newton/1000, "kN", 0.1, units.NewtonPerShortTon/1000, "US tons")
}

// pressureWords is a gauge's pressure as an order of magnitude, in bar and psi.
func pressureWords(c *catalogue.Call, bar float64) string {
	return both(c, bar, "bar", 1, units.PascalPerPsi/units.PascalPerBar, "psi")
}

// holeSize is a size of an outline, as one number where both are the same.
func holeSize(c *catalogue.Call, s outline.Size) string {
	if math.Abs(s.LengthMM-s.WidthMM) < 0.005 {
		return words.Length(c, s.WidthMM)
	}
	return words.Size(c, s.LengthMM, s.WidthMM)
}

// loadWords is a press load as an order of magnitude, with the gauge's
// pressure where the press is known.
func loadWords(c *catalogue.Call, u collarUsed, n float64) string {
	s := forceWords(c, n)
	if u.press.RamAreaMM2 > 0 {
		s += ", " + pressureWords(c, forming.GaugeBar(u.press, n))
	}
	return s
}

func plural(n int, one string) string {
	if n == 0 {
		return "no " + one
	}
	return words.Counted(n, one, one+"s")
}

// annealsWords counts a plan's anneals.
func annealsWords(p *forming.Plan) string {
	switch {
	case !p.AnnealBeforePunch:
		return plural(p.Anneals, "anneal")
	case p.Anneals == 0:
		return "1 anneal, before the punch"
	}
	return plural(p.Anneals+1, "anneal") + ", the last before the punch"
}

func (u collarUsed) passes() int {
	n := 0
	for _, p := range u.plan.Passes {
		if !p.Sizing {
			n++
		}
	}
	return n
}

func collarHeadline(c *catalogue.Call, u collarUsed) string {
	if u.tube.Name != "" {
		return fmt.Sprintf("Cut %s of %s (%s %s) for %s.",
			words.Length(c, u.stripHeightMM), u.tube.Name, u.alloy.Name, words.Size(c, u.tube.OuterMM, u.tube.WallMM), u.stone.aWords(c))
	}
	return fmt.Sprintf("Cut a strip %s of %s for %s.", words.Size(c, u.stripMM, u.stripHeightMM), words.Metal(c, u.alloy), u.stone.aWords(c))
}

func collarFigures(c *catalogue.Call, u collarUsed) []answer.Figure {
	fit := fitFigure(c, u.colletUsed)
	fit.Main = false
	figures := slices.Concat(collarStockFigures(c, u), blockFigures(c, u), formingFigures(c, u), finishedCollarFigures(u),
		notMain(seatFigures(u.colletUsed)), []answer.Figure{fit}, u.stone.weightFigure())
	for i, f := range servingTubes(u.tubes, 3) {
		figures = append(figures, answer.Figure{ID: fmt.Sprintf("tube_%d", i+1), Label: fmt.Sprintf("tube that serves, no. %d", i+1), Value: 100 * f.Stretch, Unit: answer.Percent, Text: f.Tube.Name + ": " + stretchWords(f.Stretch)})
	}
	return figures
}

// collarStockFigures are the strip or the tube to cut.
func collarStockFigures(c *catalogue.Call, u collarUsed) []answer.Figure {
	if u.tube.Name != "" {
		return []answer.Figure{
			{ID: "tube_length", Label: "tube, to cut", Value: u.stripHeightMM, Unit: answer.MM},
			{ID: "tube_stretch", Label: "perimeter, to change", Value: 100 * u.fit.Stretch, Unit: answer.Percent, Text: stretchWords(u.fit.Stretch), Main: true},
		}
	}
	return []answer.Figure{
		{ID: "strip_length", Label: fmt.Sprintf("strip, length with %s to file", words.Length(c, u.filing)), Value: u.stripMM, Unit: answer.MM},
		{ID: "strip_height", Label: "strip, height before forming", Value: u.stripHeightMM, Unit: answer.MM},
	}
}

// blockFigures are the last hole of the block and the pressings through it, or
// the block to look for.
func blockFigures(c *catalogue.Call, u collarUsed) []answer.Figure {
	if u.named {
		size := u.plan.Last.Size
		return []answer.Figure{
			{ID: "last_hole", Label: "last hole of " + u.block.Name, Value: size.WidthMM, Unit: answer.MM, Text: holeSize(c, size), Main: true},
			{ID: "passes", Label: "through the block", Value: float64(u.passes()), Unit: answer.Count, Main: true,
				Text: plural(u.passes(), "pressing") + ", " + annealsWords(u.plan)},
		}
	}
	size := u.want.Opening
	return []answer.Figure{
		{ID: "last_hole", Label: "block to look for, opening at least", Value: size.WidthMM, Unit: answer.MM, Text: holeSize(c, size), Main: true},
		{ID: "block_thickness", Label: "block to look for, thickness at least", Value: u.want.ThicknessMM, Unit: answer.MM, Main: true},
		{ID: "passes", Label: "pressings, estimate", Value: float64(u.passes()), Unit: answer.Count},
	}
}

// formingFigures are what the block and the press do to the wall.
func formingFigures(c *catalogue.Call, u collarUsed) []answer.Figure {
	var figures []answer.Figure
	add := func(f answer.Figure) { figures = append(figures, f) }
	rim := u.wall.Rim
	end := u.plan.Passes[len(u.plan.Passes)-1]
	add(answer.Figure{ID: "foot_wall", Label: "wall at the foot after forming", Value: end.FootWallMM, Unit: answer.MM, Main: true})
	add(answer.Figure{ID: "press_load", Label: "press load, rough, no target", Value: u.plan.MaxLoadN, Unit: answer.Newton, Text: loadWords(c, u, u.plan.MaxLoadN), Main: true})
	if u.tube.Name == "" {
		add(answer.Figure{ID: "seam", Label: "seam", Value: u.strip.Bevel.Degrees(), Unit: answer.Degree, Text: u.Seam.Summary, Main: true})
	}
	add(answer.Figure{ID: "length_added", Label: "length along the wall that forming adds", Value: u.HeightMM/u.Lean.Cos() - u.wall.StripHeightMM, Unit: answer.MM})
	add(answer.Figure{ID: "anneals", Label: "anneals between pressings", Value: float64(u.plan.Anneals), Unit: answer.Count})
	add(answer.Figure{ID: "rim_wall", Label: "wall at the rim after forming", Value: rim.WallMM, Unit: answer.MM})
	add(answer.Figure{ID: "height", Label: "height after forming", Value: u.plan.HeightMM, Unit: answer.MM})
	add(answer.Figure{ID: "mid_perimeter", Label: "perimeter of the finished rim at mid-wall", Value: rim.PerimeterMM, Unit: answer.MM})
	add(answer.Figure{ID: "foot_perimeter", Label: "perimeter of the finished foot at mid-wall", Value: end.FootPerimeterMM, Unit: answer.MM})
	add(answer.Figure{ID: "total_strain", Label: "hoop strain of the foot, in all", Value: u.plan.TotalStrain, Unit: answer.Ratio})
	add(answer.Figure{ID: "strain_limit", Label: "strain limit between anneals", Value: u.alloy.StrainLimit, Unit: answer.Ratio})
	add(answer.Figure{ID: "hole_gap", Label: "play of the finished rim in the last hole, all round", Value: math.Max(0, u.plan.Last.GapMM), Unit: answer.MM})
	add(answer.Figure{ID: "volume", Label: "metal", Value: u.wall.VolumeMM3, Unit: answer.MM3})
	add(answer.Figure{ID: "mass", Label: "mass of the collar", Value: stock.MassG(u.wall.VolumeMM3, u.alloy.DensityGPerCM3), Unit: answer.Gram})
	add(answer.Figure{ID: "crinkle", Label: "risk that flats crinkle", Value: float64(u.plan.Crinkle), Unit: answer.Count, Text: u.plan.Crinkle.String()})
	if u.press.RamAreaMM2 > 0 {
		add(answer.Figure{ID: "gauge_pressure", Label: "pressure on the gauge, order only, no target", Value: forming.GaugeBar(u.press, u.plan.MaxLoadN), Unit: answer.Bar,
			Text: pressureWords(c, forming.GaugeBar(u.press, u.plan.MaxLoadN))})
	}
	return figures
}

// finishedCollarFigures are the sizes of the collar as it comes out of the block.
func finishedCollarFigures(u collarUsed) []answer.Figure {
	outer, base := u.RimOutside, u.BaseInside
	twoWalls, diff := u.stonePlusTwoWalls()
	return []answer.Figure{
		{ID: "rim_outer_length", Label: "finished rim, outside length", Value: outer.LengthMM, Unit: answer.MM},
		{ID: "rim_outer_width", Label: "finished rim, outside width", Value: outer.WidthMM, Unit: answer.MM},
		{ID: "base_opening_length", Label: "base opening before the foot thickens, length", Value: base.LengthMM, Unit: answer.MM},
		{ID: "base_opening_width", Label: "base opening before the foot thickens, width", Value: base.WidthMM, Unit: answer.MM},
		{ID: "stone_plus_two_walls", Label: "the trade's check of the last hole, stone plus two walls, width", Value: twoWalls, Unit: answer.MM},
		{ID: "two_walls_difference", Label: "finished rim outside, over stone plus two walls", Value: diff, Unit: answer.MM},
	}
}

// stonePlusTwoWalls is the trade's own check of the last hole (common practice, no
// source), across the stone, and by how much the finished rim is wider.
func (u collarUsed) stonePlusTwoWalls() (mm, differenceMM float64) {
	return u.Solid.WidthMM + 2*u.ThicknessMM, 2 * (u.wall.Rim.OuterOffsetMM - u.ThicknessMM)
}

// twoWallsWords explains a difference that the trade's check would find.
func twoWallsWords(c *catalogue.Call, u collarUsed) string {
	twoWalls, diff := u.stonePlusTwoWalls()
	if math.Abs(diff) <= 0.3 {
		return ""
	}
	lean := 2 * u.RimMM * u.Lean.Tan()
	how := "wider"
	if diff < 0 {
		how = "narrower"
	}
	reason := fmt.Sprintf("it leans out %s", words.Length(c, lean))
	if stands := 2 * (u.FaceMM(0)); stands < 0 {
		reason += fmt.Sprintf(" and stands %s under the stone", words.Length(c, -stands))
	}
	return fmt.Sprintf("the rim is %s %s than stone plus two walls, %s (the trade's check): %s",
		words.Length(c, math.Abs(diff)), how, words.Length(c, twoWalls), reason)
}

// servingTubes are the first tubes of the ranking that serve.
func servingTubes(fits []forming.TubeFit, most int) []forming.TubeFit {
	for i, f := range fits {
		if !f.Serves || i == most {
			return fits[:i]
		}
	}
	return fits
}

// stretchWords says what a tube needs.
func stretchWords(stretch float64) string {
	switch {
	case math.Abs(stretch) < 5e-4:
		return "as it is"
	case stretch > 0:
		return fmt.Sprintf("stretch by %.1f %%", 100*stretch)
	}
	return fmt.Sprintf("squeeze by %.1f %%", -100*stretch)
}

// collarDrawing is the strip to cut, over the last hole with the finished rim
// in it, at 1:1.
func collarDrawing(c *catalogue.Call, u collarUsed) template.Drawing {
	d := template.Drawing{
		Name:  "collar-" + u.stone.fileName(),
		Title: "Collar for " + u.stone.aWords(c),
	}
	var more []string
	hole := u.plan.Last.Size
	opening, err := u.wall.OuterRim()
	if u.named {
		opening, err = outline.New(outline.Shape{Kind: u.block.Kind, Size: hole})
	}
	if u.tube.Name == "" {
		d.Lines = []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			fmt.Sprintf("seam %s; %s of the length is to file there", u.Seam.Summary, words.Length(c, u.filing)),
		}
		d.Paths = stripPaths(u.stripMM, u.stripHeightMM, u.filing+u.KerfMM, u.strip)
		d.Paths = append(d.Paths, passLines(u)...)
		nameMarks(d.Paths, quarterNames(u.stone.curve, u.Seam))
		seamMeasures(d.Paths, u.strip)
		d.Dimensions = d.Overall(template.Above, words.Length(c, u.stripMM), words.Length(c, u.stripHeightMM))
		more = append(more, "a straight strip", foldWords(len(u.strip.Folds)), "lines across it show above where it stays straight after each pressing")
	} else {
		long, wide := u.stripHeightMM, u.tube.OuterMM
		d.Lines = []string{fmt.Sprintf("%s, %s, cut square at both ends", u.tube.Name, u.alloy.Name)}
		d.Paths = []template.Path{
			template.Rect("tube", template.Edge, "tube", [2]float64{0, 0}, [2]float64{long, wide}),
			template.Polyline("bore-1", template.Hidden, "bore", false, [2]float64{0, u.tube.WallMM}, [2]float64{long, u.tube.WallMM}),
			template.Polyline("bore-2", template.Hidden, "bore", false, [2]float64{0, wide - u.tube.WallMM}, [2]float64{long, wide - u.tube.WallMM}),
			template.Polyline("axis", template.Centre, "", false, [2]float64{-0.6, wide / 2}, [2]float64{long + 0.6, wide / 2}),
		}
		measured(d.Paths, "bore-1", "wall "+words.Length(c, u.tube.WallMM))
		d.Dimensions = []template.Dimension{
			{A: [2]float64{0, wide}, B: [2]float64{long, wide}, Side: template.Above, Name: "length to cut", Text: words.Length(c, long)},
			{A: [2]float64{long, 0}, B: [2]float64{long, wide}, Side: template.Right, Text: words.Length(c, wide) + " outside"},
		}
		more = append(more, "a piece of tube")
	}
	d.Details = []template.Drawing{collarSection(c, u)}
	if bodies, err := finished.Collet(u.Collet); err == nil {
		d.Details = append(d.Details, finishedView(bodies, seamFaces(u.Stone, u.Collet.Seam)))
	}
	if err == nil {
		d.Paths = append(d.Paths, planPaths(math.Max(u.stripMM, u.stripHeightMM)/2, plan{"opening", "opening", opening, template.Outline},
			plan{"rim-outside", "rim", u.RimOuter, template.Seen}, plan{"base-outside", "base", u.BaseOuter, template.Hidden})...)
		more = append(more, "below it the block's opening is seen from above with the finished rim and base in it")
	}
	d.Alt = inWords(d, more...)
	return d
}

// collarSection is one wall before and after the block, the stone's side on
// the left.
func collarSection(c *catalogue.Call, u collarUsed) template.Drawing {
	t, high := u.ThicknessMM, u.wall.StripHeightMM
	before := rectangle("before", 0, 0, t, high)
	rim, footWall, top := u.wall.Rim, u.plan.Passes[len(u.plan.Passes)-1].FootWallMM, u.plan.HeightMM
	// the outside lies on the block up to where the wall stays straight
	knee := top - u.plan.StraightMM
	in, cos := knee*u.Lean.Tan(), u.Lean.Cos()
	rimIn := 4*t + in
	rimOut := rimIn + rim.OuterOffsetMM - rim.InnerOffsetMM
	points := [][2]float64{{rimOut - in - footWall/cos, 0}, {rimOut - in, 0}, {rimOut, knee}, {rimOut, top}, {rimIn, top}}
	if u.plan.StraightMM > 0.05 {
		points = append(points, [2]float64{rimIn, knee})
	}
	after := template.Polyline("after", template.Edge, "", true, points...)
	deeper := 0.2 * top
	block := template.Polyline("block", template.Outline, "block", false,
		[2]float64{rimOut - in - deeper*u.Lean.Tan(), -deeper}, [2]float64{rimOut - in, 0}, [2]float64{rimOut, knee},
		[2]float64{rimOut + 4*t, knee}, [2]float64{rimOut + 4*t, -deeper})
	return template.Drawing{
		Title: "The wall before, and in the block",
		Lines: []string{fmt.Sprintf("wall %s before; after, %s at the rim and %s at the foot; lean %.4g°",
			words.Length(c, t), words.Length(c, rim.WallMM), words.Length(c, footWall), u.Lean.Degrees())},
		Paths: []template.Path{before, block, after}, CutFaces: []template.Path{before, after},
		Dimensions: []template.Dimension{
			{A: [2]float64{0, 0}, B: [2]float64{0, high}, Side: template.Left, Text: words.Length(c, high) + " before"},
			{A: points[1], B: points[3], Side: template.Right, Text: words.Length(c, top) + " after"},
		},
	}
}

// passLines are the lines on the strip above which the wall is still straight
// after each pressing, as scribe marks to check by.
func passLines(u collarUsed) []template.Path {
	var paths []template.Path
	n := 0
	for _, p := range u.plan.Passes {
		if !p.Sizing {
			n++
		}
		// What is straight has not changed but for the sizing of a tube.
		y := u.stripHeightMM - u.KerfMM/2 - p.StraightMM
		if p.Sizing || p.StraightMM < 0.3 || y < 0.3 {
			continue
		}
		paths = append(paths, template.Polyline(fmt.Sprintf("pass-%d", n), template.Mark, fmt.Sprintf("pressing %d", n), false, [2]float64{0, y}, [2]float64{u.stripMM, y}))
	}
	return paths
}

// stripPaths are a strip's edges, folds and quarter marks. Marks are measured
// from the seam's left end, half of what is filed away further in.
func stripPaths(length, height, filed float64, b bezel.Bezel) []template.Path {
	at := func(x, y float64) [2]float64 { return [2]float64{x, y} }
	paths := []template.Path{
		template.Polyline("rim", template.Cut, "top edge", false, at(0, height), at(length, height)),
		template.Polyline("base", template.Cut, "bottom edge", false, at(0, 0), at(length, 0)),
		template.Polyline("seam-a", template.Seam, "seam A", false, at(0, height), at(0, 0)),
		template.Polyline("seam-b", template.Seam, "seam B", false, at(length, height), at(length, 0)),
	}
	for i, x := range b.Folds {
		paths = append(paths, template.Polyline(fmt.Sprintf("fold-%d", i+1), template.Fold, "", false, at(x+filed/2, height), at(x+filed/2, 0)))
	}
	tick := math.Min(height/4, 1.5)
	for i, x := range b.Quarters {
		if x < 0.3 || x > b.LengthMM-0.3 {
			continue // the seam itself
		}
		paths = append(paths, template.Polyline(fmt.Sprintf("mark-%d", i+1), template.Mark, "", false, at(x+filed/2, height), at(x+filed/2, height-tick)))
	}
	return paths
}

// seamMeasures letter the bevel of a strip whose seam lies at a corner.
func seamMeasures(paths []template.Path, b bezel.Bezel) {
	if b.Bevel == 0 {
		return
	}
	side := "inner"
	if b.BevelReflex {
		side = "outer"
	}
	measured(paths, "seam-a", fmt.Sprintf("bevel %.1f°, %s edge away", b.Bevel.Degrees(), side))
}

// plan is an outline to be seen from above.
type plan struct {
	id, label string
	curve     outline.Curve
	role      template.Role
}

// planLine is an open line to be seen from above.
type planLine struct {
	id, label string
	points    []outline.Point
	closed    bool
	role      template.Role
}

// planPaths are outlines within each other, seen from above, below a strip
// whose middle is given. Long stones lie level; a heart stands upright.
func planPaths(middle float64, plans ...plan) []template.Path {
	lines := make([]planLine, len(plans))
	for i, o := range plans {
		lines[i] = planLine{o.id, o.label, o.curve.Polyline(0.005), true, o.role}
	}
	return planLines(middle, plans[0].curve.Kind == outline.Heart, lines...)
}

// planLines are planPaths of lines of any kind; upright ones stand as they are.
func planLines(middle float64, upright bool, lines ...planLine) []template.Path {
	at := func(p outline.Point) [2]float64 { return [2]float64{p.Y, -p.X} }
	if upright {
		at = func(p outline.Point) [2]float64 { return [2]float64{p.X, p.Y} }
	}
	const below = -4 // mm under the strip
	top, left, right := math.Inf(-1), math.Inf(1), math.Inf(-1)
	lists := make([][][2]float64, len(lines))
	for i, o := range lines {
		for _, p := range o.points {
			q := at(p)
			lists[i] = append(lists[i], q)
			top, left, right = math.Max(top, q[1]), math.Min(left, q[0]), math.Max(right, q[0])
		}
	}
	middle = math.Max(middle, (right-left)/2)
	var paths []template.Path
	for i, list := range lists {
		for k := range list {
			list[k][0] += middle - (left+right)/2
			list[k][1] += below - top
		}
		paths = append(paths, template.Polyline(lines[i].id, lines[i].role, lines[i].label, lines[i].closed, list...))
	}
	return paths
}
