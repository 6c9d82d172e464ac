package requests

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/bezel"
	"guildhand/calc/stock"
)

// bezelHeadline is what to cut: what was asked for by name comes first.
func bezelHeadline(c *catalogue.Call, u bezelUsed) string {
	strip := "a strip"
	if u.hasEdge() {
		strip = "a " + c.Args.Word("edging") + " strip"
	}
	piece := fmt.Sprintf("%s %s of %s", strip, words.Size(c, u.cutMM(), u.cutHeightMM()), words.Metal(c, u.alloy))
	cab := u.stone.aWords(c) + " cabochon"
	switch {
	case u.hasGallery():
		piece = fmt.Sprintf("%d repeats (%s) of gallery strip, %s thick, %s high or more,", u.gallery.Repeats, words.Length(c, u.gallery.CutMM()),
			words.Thickness(c, c.Value("thickness")), words.Length(c, u.HeightMM))
		if u.count > 1 {
			piece = fmt.Sprintf("%d times %s", u.count, piece)
		}
	case u.count > 1:
		piece = fmt.Sprintf("%d %ss, %s each, of %s", u.count, strings.TrimPrefix(strip, "a "), words.Size(c, u.cutMM(), u.cutHeightMM()), words.Metal(c, u.alloy))
	}
	if u.count > 1 {
		cab = fmt.Sprintf("%d cabochons, each %s", u.count, u.stone.aWords(c))
	}
	if plateAsked(c, u) {
		piece = fmt.Sprintf("a back plate %s and %s", plateWords(c, u), piece)
	}
	if !u.cupAsked {
		return fmt.Sprintf("Cut %s for %s.", piece, cab)
	}
	if u.cup.fits() {
		return fmt.Sprintf("Yes, a bought %s cup should fit. Or cut %s for %s.", sizeOfCup(c, u), piece, cab)
	}
	return fmt.Sprintf("No, no usual cup fits it. Cut %s for %s.", piece, cab)
}

// plateAsked reports whether a back plate was asked for by name; it stands in the
// headline then.
func plateAsked(c *catalogue.Call, u bezelUsed) bool {
	return u.plateMM > 0 && (c.Args.Typed("plate") || c.Args.Typed("platethick"))
}

// plateWords is the plate's size and metal.
func plateWords(c *catalogue.Call, u bezelUsed) string {
	size := u.plate.Blank.Size()
	return fmt.Sprintf("%s of %s", words.Size(c, size.LengthMM, size.WidthMM), words.Thickness(c, c.Args["platethick"]))
}

func sizeOfCup(c *catalogue.Call, u bezelUsed) string {
	if u.cup.size.LengthMM == u.cup.size.WidthMM {
		return words.Size(c, u.cup.size.WidthMM)
	}
	return words.Size(c, u.cup.size.LengthMM, u.cup.size.WidthMM)
}

// cupWords say whether a bought bezel cup takes the stone.
func cupWords(c *catalogue.Call, u bezelUsed) string {
	switch {
	case !u.cup.known:
		return "none: cups of this outline are rare, so make the bezel"
	case u.cup.fits():
		return fmt.Sprintf("%s; try the stone in it, its wall needs %s", sizeOfCup(c, u), words.Length(c, u.wallOverBackMM()))
	case u.cup.offMM > 0:
		return fmt.Sprintf("none fits: the nearest usual one, %s, is %s too small", sizeOfCup(c, u), words.Length(c, u.cup.offMM))
	}
	return fmt.Sprintf("none fits: the nearest usual one, %s, is %s too large", sizeOfCup(c, u), words.Length(c, -u.cup.offMM))
}

// wallOverBackMM is the wall above the stone's back.
func (u bezelUsed) wallOverBackMM() float64 { return u.HeightMM - u.seatMM() }

// bezelNotes say what a maker must know of the parts before cutting.
func bezelNotes(c *catalogue.Call, u bezelUsed) []string {
	notes := append([]string(nil), u.stone.notes...)
	for _, d := range u.stone.dips {
		where := ""
		switch parts := u.onStrip(d); len(parts) {
		case 1:
			where = fmt.Sprintf("from %s to %s along the strip from seam A", words.Length(c, parts[0][0]), words.Length(c, parts[0][1]))
		default:
			where = fmt.Sprintf("along the first %s and the last %s of the strip, beside the seam", words.Length(c, parts[0][1]), words.Length(c, u.cutMM()-parts[1][0]))
		}
		notes = append(notes, fmt.Sprintf("the wall can't be pushed over %s, where the stone dips in by %s and the wall goes straight across: %s", where, words.Length(c, d.depthMM), fillDip))
	}
	if !u.stone.curve.Convex() {
		notes = append(notes, "the wall can't be pushed over in the cleft: it would have to stretch there; hold the stone at its lobes and point, and close the cleft with a small tab or leave it")
	}
	if carries := u.BearingCarriesMM(); u.Bearing != bezel.NoBearing && carries < 0.2 {
		notes = append(notes, fmt.Sprintf("the %s carries the stone on %s at its narrowest, and it may tip: make it thicker", c.Args.Word("bearing"), words.Length(c, math.Max(0, carries))))
	}
	if u.plate.HasCutOut && u.Bearing == bezel.NoBearing && u.plate.CarriesMM < 0.5 {
		notes = append(notes, fmt.Sprintf("the shelf carries the stone on %s at its narrowest: leave a wider one", words.Length(c, u.plate.CarriesMM)))
	}
	notes = append(notes, edgeNotes(c, u)...)
	return notes
}

// edgeNotes are about a top edge that is not plain.
func edgeNotes(c *catalogue.Call, u bezelUsed) []string {
	switch g := u.gallery; {
	case u.hasEdge():
		if valley := u.wallOverBackMM() - u.edge.DepthMM; valley < u.LeastMM {
			return []string{fmt.Sprintf("between the %s the wall ends %s above the stone's back, too low to hold there: only the %s hold it", edgeWord(u.edge.Edging, 2), words.Length(c, valley), edgeWord(u.edge.Edging, 2))}
		}
	case u.hasGallery() && !g.Comes:
		return []string{fmt.Sprintf("this strip does not come out even: %.1f %% of stretch shows, %.0f %% does not. Take one with another repeat, or cut one repeat short at the seam",
			100*g.StretchShare, 100*bezel.MostStretchShare)}
	}
	return nil
}

// partFigures are the figures of the parts, those that were asked for by name
// among the main ones.
func partFigures(c *catalogue.Call, u bezelUsed) (asked, plate, others []answer.Figure) {
	if u.cupAsked {
		asked = append(asked, answer.Figure{ID: "cup", Label: "bought cup", Value: u.cup.offMM, Unit: answer.MM, Text: cupWords(c, u), Main: true})
	} else {
		others = append(others, answer.Figure{ID: "cup", Label: "bought cup", Value: u.cup.offMM, Unit: answer.MM, Text: cupWords(c, u)})
	}
	if u.count > 1 {
		asked = append(asked, answer.Figure{ID: "stock_length", Label: fmt.Sprintf("strip for all %d, sawn", u.count), Value: u.cuts().TotalMM(), Unit: answer.MM, Main: true},
			answer.Figure{ID: "count", Label: "bezels", Value: float64(u.count), Unit: answer.Count})
	}
	asked = append(asked, edgeFigures(c, u)...)
	if n := u.notches; len(n) > 0 {
		asked = append(asked, answer.Figure{ID: "relief_width", Label: "notch at each corner, width", Value: n[0].WidthMM, Unit: answer.MM, Main: true},
			answer.Figure{ID: "relief_depth", Label: "notch, depth", Value: n[0].DepthMM, Unit: answer.MM})
	}
	if len(u.holes) > 0 {
		asked = append(asked, answer.Figure{ID: "relief_hole", Label: "relief hole under each corner", Value: u.holeMM, Unit: answer.MM, Main: true})
	}
	if u.plateMM == 0 {
		return asked, nil, others
	}
	size := u.plate.Blank.Size()
	plate = []answer.Figure{
		{ID: "plate_length", Label: "back plate", Value: size.LengthMM, Unit: answer.MM, Main: !plateAsked(c, u), Text: plateWords(c, u)},
		{ID: "plate_width", Label: "back plate, width", Value: size.WidthMM, Unit: answer.MM},
		{ID: "plate_thickness", Label: "back plate, thickness", Value: u.plateMM, Unit: answer.MM},
		{ID: "plate_rim", Label: "back plate, rim outside the wall", Value: u.plate.RimMM, Unit: answer.MM},
		{ID: "plate_mass", Label: "mass of the back plate", Value: stock.MassG(u.plate.AreaMM2()*u.plateMM, u.alloy.DensityGPerCM3), Unit: answer.Gram},
	}
	if u.plate.HasCutOut {
		open := u.plate.CutOut.Size()
		plate = append(plate,
			answer.Figure{ID: "cutout_length", Label: "cut-out", Value: open.LengthMM, Unit: answer.MM, Main: true, Text: fmt.Sprintf("%s, with a shelf of %s inside the wall", words.Size(c, open.LengthMM, open.WidthMM), words.Length(c, u.plate.ShelfMM))},
			answer.Figure{ID: "cutout_width", Label: "cut-out, width", Value: open.WidthMM, Unit: answer.MM},
			answer.Figure{ID: "shelf", Label: "shelf inside the wall", Value: u.plate.ShelfMM, Unit: answer.MM},
			answer.Figure{ID: "shelf_carries", Label: "shelf under the stone, at the least", Value: u.plate.CarriesMM, Unit: answer.MM})
	}
	return asked, plate, others
}

// edgeFigures are those of a cut edge or of gallery strip.
func edgeFigures(c *catalogue.Call, u bezelUsed) []answer.Figure {
	switch {
	case u.hasEdge():
		low, high := u.edge.PitchMM()
		wide := words.Length(c, u.LengthMM/float64(u.edge.Count))
		if high-low > 0.005 {
			wide = fmt.Sprintf("%s to %s", words.MM(low), words.Length(c, high))
		}
		return []answer.Figure{
			{ID: "repeats", Label: edgeWord(u.edge.Edging, 2), Value: float64(u.edge.Count), Unit: answer.Count, Main: true, Text: fmt.Sprintf("%d, each %s wide", u.edge.Count, wide)},
			{ID: "pitch", Label: "width of one " + edgeWord(u.edge.Edging, 1), Value: u.LengthMM / float64(u.edge.Count), Unit: answer.MM},
			{ID: "edge_depth", Label: "depth of the cuts", Value: u.edge.DepthMM, Unit: answer.MM, Main: true},
			{ID: "valley_height", Label: "wall above the stone's back in a valley", Value: u.wallOverBackMM() - u.edge.DepthMM, Unit: answer.MM},
		}
	case u.hasGallery():
		g := u.gallery
		comes := "as it is"
		switch {
		case g.LooseMM > 0:
			comes = fmt.Sprintf("as it is; the bezel gets %s wider across", words.Length(c, g.LooseMM))
		case g.StretchShare > 5e-4:
			comes = fmt.Sprintf("stretched %.1f %% to %s", 100*g.StretchShare, words.Length(c, u.LengthMM))
		}
		return []answer.Figure{
			{ID: "gallery_repeats", Label: "repeats", Value: float64(g.Repeats), Unit: answer.Count, Main: true, Text: fmt.Sprintf("%d, %s", g.Repeats, comes)},
			{ID: "gallery_length", Label: "gallery strip to cut", Value: g.CutMM(), Unit: answer.MM},
			{ID: "gallery_stretch", Label: "stretch", Value: 100 * g.StretchShare, Unit: answer.Percent},
			{ID: "gallery_fits", Label: "a repeat that fits unstretched", Value: g.Fits[0], Unit: answer.MM, Main: true, Text: fmt.Sprintf("%s or %s", words.MM(g.Fits[0]), words.Length(c, g.Fits[1]))},
		}
	}
	return nil
}

// bezelFitFigure is the tolerance line.
func bezelFitFigure(c *catalogue.Call, u bezelUsed) answer.Figure {
	t := u.fit()
	return answer.Figure{ID: "fit_tolerance", Label: "fit, good to about", Value: t.AcrossMM, Unit: answer.MM, Main: true,
		Text: fmt.Sprintf("%s across; first check %s", words.Length(c, t.AcrossMM), checkFirst(t.Largest))}
}

// holdNotes warn of a wall that is too low to hold, or hides the stone.
func holdNotes(c *catalogue.Call, u bezelUsed) []string {
	wall := u.GirdleMM + u.OverMM
	var notes []string
	if wall < u.LeastMM-1e-9 {
		notes = append(notes, fmt.Sprintf("too low to hold: with this grip the wall ends %s above the stone's back, and metal can only be rubbed over from %s", words.Length(c, wall), words.Length(c, u.LeastMM)))
	} else if u.Short() {
		notes = append(notes, fmt.Sprintf("low: with this grip the wall is %s, under a third of the stone's height (%s), the least that one published rule asks for", words.Length(c, wall), words.Length(c, u.ThirdMM)))
	}
	if rise := u.GirdleMM + u.RiseMM; rise > u.DomeMM*0.6 {
		notes = append(notes, fmt.Sprintf("the wall covers %.0f %% of the stone's height: thinner metal or a smaller grip shows more stone", 100*rise/u.DomeMM))
	}
	return notes
}

// ruleWords says what set the wall's height, and which of the published rules
// it meets.
func ruleWords(u bezelUsed) string {
	third := "over a third of the stone's height"
	if u.GirdleMM+u.OverMM < u.ThirdMM-1e-9 {
		third = "under a third of the stone's height"
	}
	switch u.Rule {
	case bezel.ByThird:
		return "a third of the stone's height; its curve asks for less"
	case bezel.ByLeast:
		return "the least that can be rubbed over; " + third
	case bezel.ByGrip:
		return "your grip; " + third
	}
	if u.EdgeAssumed {
		return fmt.Sprintf("the curve of the side, assumed to lean %.0f°; %s", u.Edge.Degrees(), third)
	}
	return "the curve of the side; " + third
}

func bezelFigures(c *catalogue.Call, u bezelUsed) []answer.Figure {
	outer := u.Outer.Size()
	asked, plate, others := partFigures(c, u)
	filed := fmt.Sprintf("strip to cut, with %s mm to file", words.MM(u.filing))
	if u.hasGallery() {
		filed = "strip to cut, whole repeats"
	}
	figures := append(asked, []answer.Figure{
		{ID: "cut_length", Label: filed, Value: u.cutMM(), Unit: answer.MM},
		{ID: "strip_length", Label: "strip as it closes, length", Value: u.LengthMM, Unit: answer.MM, Main: true},
		{ID: "strip_height", Label: "strip, height", Value: u.cutHeightMM(), Unit: answer.MM},
		{ID: "wall_height", Label: "finished wall, height", Value: u.HeightMM, Unit: answer.MM, Main: true, Text: wallWords(c, u)},
		{ID: "height_rule", Label: "set by", Value: float64(u.Rule), Unit: answer.Count, Main: true, Text: ruleWords(u)},
		{ID: "over_girdle", Label: "wall above the upright part of the side", Value: u.OverMM, Unit: answer.MM},
	}...)
	figures = append(figures, plate...)
	figures = append(figures, bearingFigures(u)...)
	figures = append(figures, []answer.Figure{
		{ID: "reach", Label: "reach over the stone, each side", Value: u.ReachMM, Unit: answer.MM, Main: true},
		bezelFitFigure(c, u),
		{ID: "wall_low", Label: "finished wall, the rules' least", Value: u.LowMM + u.seatMM(), Unit: answer.MM},
		{ID: "wall_high", Label: "finished wall, the rules' most", Value: u.HighMM + u.seatMM(), Unit: answer.MM},
		{ID: "wall_third", Label: "a third of the stone's height", Value: u.ThirdMM, Unit: answer.MM},
	}...)
	figures = append(figures, others...)
	seam := u.seam.Summary
	if u.Bevel > 0 {
		seam += fmt.Sprintf(", bevel %.1f°", u.Bevel.Degrees())
	}
	figures = append(figures,
		answer.Figure{ID: "seam", Label: "seam", Value: u.Bevel.Degrees(), Unit: answer.Degree, Text: seam, Main: true},
		answer.Figure{ID: "thickness", Label: "thickness", Value: u.ThicknessMM, Unit: answer.MM},
		answer.Figure{ID: "outer_length", Label: "finished bezel, outside length", Value: outer.LengthMM, Unit: answer.MM},
		answer.Figure{ID: "outer_width", Label: "finished bezel, outside width", Value: outer.WidthMM, Unit: answer.MM},
		answer.Figure{ID: "stone_lean", Label: "lean of the stone where the wall ends, from the vertical", Value: u.LeanAtEdge.Degrees(), Unit: answer.Degree},
		answer.Figure{ID: "corners", Label: "corners", Value: float64(len(u.Folds)), Unit: answer.Count},
		answer.Figure{ID: "mass", Label: "mass of the strip", Value: u.stripMassG(), Unit: answer.Gram},
	)
	return atMostSix(figures, u.Bevel > 0)
}

// givesWay are the figures that leave the main ones first where there are more than
// six, in this order. A bevel to file stays.
var givesWay = []string{"seam", "reach", "height_rule", "relief_hole", "gallery_fits", "edge_depth", "fit_tolerance", "cutout_length"}

func atMostSix(figures []answer.Figure, bevel bool) []answer.Figure {
	main := 0
	for _, f := range figures {
		if f.Main {
			main++
		}
	}
	for _, id := range givesWay {
		for i := range figures {
			if main > 6 && figures[i].ID == id && figures[i].Main && !(id == "seam" && bevel) {
				figures[i].Main = false
				main--
			}
		}
	}
	return figures
}

// stripMassG is the strip as cut, less what a pattern takes from its edge.
func (u bezelUsed) stripMassG() float64 {
	mm3 := stock.SheetMM3(u.cutMM(), u.cutHeightMM(), u.ThicknessMM)
	if u.hasEdge() {
		mm3 -= u.edge.RemovedMM2() * u.ThicknessMM
	}
	return stock.MassG(mm3, u.alloy.DensityGPerCM3)
}

// bearingFigures are those of a step or a bearing wire: its length, and how far it
// lies below the wall's top.
func bearingFigures(u bezelUsed) []answer.Figure {
	var figures []answer.Figure
	switch u.Bearing {
	case bezel.Step:
		figures = []answer.Figure{{ID: "step_length", Label: "inner strip, length", Value: u.BearingLengthMM, Unit: answer.MM, Main: true},
			{ID: "step_height", Label: "inner strip, height", Value: u.BearingMM, Unit: answer.MM},
			{ID: "step_thickness", Label: "inner strip, thickness", Value: u.BearingThickMM, Unit: answer.MM}}
	case bezel.Wire:
		figures = []answer.Figure{{ID: "wire_length", Label: "bearing wire, length", Value: u.BearingLengthMM, Unit: answer.MM, Main: true},
			{ID: "wire_diameter", Label: "bearing wire, diameter", Value: u.BearingMM, Unit: answer.MM}}
	default:
		return nil
	}
	return append(figures,
		answer.Figure{ID: "rim_above_bearing", Label: "wall above the bearing, where the stone's back lies", Value: u.wallOverBackMM(), Unit: answer.MM, Main: true},
		answer.Figure{ID: "bearing_carries", Label: "bearing under the stone, at the least", Value: u.BearingCarriesMM(), Unit: answer.MM})
}

// seatMM is what the stone's back stands above the wall's lower edge.
func (u bezelUsed) seatMM() float64 {
	if u.Bearing == bezel.NoBearing {
		return 0
	}
	return u.BearingMM
}

// wallWords is the wall's height with the range of the published rules.
func wallWords(c *catalogue.Call, u bezelUsed) string {
	low, high := u.LowMM+u.seatMM(), u.HighMM+u.seatMM()
	if high-low < 0.05 {
		return words.Length(c, u.HeightMM)
	}
	return fmt.Sprintf("%s (the rules give %s to %s)", words.Length(c, u.HeightMM), words.MM(low), words.MM(high))
}

// folds are the fold lines of a wall: at corners that turn outward, and in clefts,
// which bend the other way.
type folds struct{ outward, clefts int }

// foldsOf counts the corners of a wall, less a cleft that the seam does not take.
func foldsOf(corners int, convex, seamAtCleft bool) folds {
	if convex || seamAtCleft || corners == 0 {
		return folds{outward: corners}
	}
	return folds{corners - 1, 1}
}

// scored says on which face they are scored: "4 fold lines on the inside".
func (f folds) scored() string {
	outward := words.Counted(f.outward, "fold line", "fold lines") + " on the inside"
	switch {
	case f.clefts == 0:
		return outward
	case f.outward == 0:
		return "the fold line in the cleft on the outside"
	}
	return outward + " and the one in the cleft on the outside"
}

// bent says how to bend at them.
func (f folds) bent() string {
	switch {
	case f.outward+f.clefts == 1 && f.clefts == 1:
		return "bend at the fold line, the opposite way to the rest of the wall; the line is the middle of its bend"
	case f.outward+f.clefts == 1:
		return "bend at the fold line: it is the middle of its bend"
	case f.clefts > 0:
		return fmt.Sprintf("bend at the %d fold lines, in the cleft the opposite way: each is the middle of its bend", f.outward+f.clefts)
	}
	return fmt.Sprintf("bend at the %d fold lines: each is the middle of its bend", f.outward)
}

func bezelSteps(c *catalogue.Call, u bezelUsed) *making {
	m := makingOf(c, u.alloy)
	add := m.add
	outer := u.Outer.Size()
	bezelStripSteps(c, u, m)
	m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
	fold := foldsOf(len(u.Folds), u.stone.curve.Convex(), u.BevelReflex)
	switch {
	case len(u.Folds) > 0 && u.Corners == bezel.Mitred:
		m.do(treatment.JoinJobs(u.alloy), "score %s to two thirds of the thickness, fold, and %s", fold.scored(), treatment.FillScores(u.alloy))
	case len(u.Folds) > 0:
		add("%s", fold.bent())
	}
	if u.Bevel > 0 {
		side := "inner"
		if u.BevelReflex {
			side = "outer"
		}
		add("file a bevel of %.1f° on each end, taking away the %s edge", u.Bevel.Degrees(), side)
	}
	add("wrap it round the stone (tape keeps it), mark the overlap, and file the ends until they meet without a gap; it closes at %s", words.Length(c, u.LengthMM))
	m.do(treatment.JoinJobs(u.alloy), "take the stone out; close the seam %s and %s", u.seam.Summary, treatment.Join(u.alloy, "hard"))
	if u.stone.curve.Convex() {
		add("true it on a mandrel; outside it measures %s", holeSize(c, outer))
	} else {
		add("true its lobes on a round mandrel and its sides on a flat block, and keep the cleft sharp with the edge of a flat file held against it; outside it measures %s", holeSize(c, outer))
	}
	switch u.Bearing {
	case bezel.Step:
		m.do(treatment.JoinJobs(u.alloy), "bend the inner strip, %s long, %s high and %s thick, to fit inside; its lower edge flush with the wall's, seams apart; %s",
			words.Length(c, u.BearingLengthMM), words.Length(c, u.BearingMM), words.Length(c, u.BearingThickMM), treatment.Join(u.alloy, "medium"))
	case bezel.Wire:
		m.do(treatment.JoinJobs(u.alloy), "bend %s of wire %s thick to fit inside at the bottom, and %s", words.Length(c, u.BearingLengthMM), words.Length(c, u.BearingMM), treatment.Join(u.alloy, "medium"))
	}
	plateSteps(c, u, m)
	add("try the stone before you polish; it must drop in without force")
	over := "rub the wall over from opposite sides"
	switch {
	case !u.stone.curve.Convex():
		over = "push the point over first, then the lobes and sides a little at a time, from opposite sides, and stop short of the cleft: leave the wall upright there"
	case !u.stone.curve.Smooth():
		over = "push the corners over first, then the sides between them, from opposite sides"
	}
	m.do([]cautions.Job{cautions.Setting}, "the stone goes in last, when no more heat or wet work follows; %s", over)
	bend := "each sharp corner takes its angle x the corner factor x thickness"
	if u.Corners == bezel.Mitred {
		bend = "folded corners are measured on the outer skin"
	}
	add("length: inner perimeter %s + turning of the bends x %.3g x thickness; %s", words.Length(c, u.Inner.PerimeterMM()), u.NeutralFactor, bend)
	bezelHeightSteps(c, u, add)
	bezelFitStep(c, u, add)
	if u.kerf != 0 {
		add("%s more each way for saw and file, from your trials", words.Length(c, u.kerf))
	}
	return m
}

// bezelStripSteps cut the strip and its top edge.
func bezelStripSteps(c *catalogue.Call, u bezelUsed, m *making) {
	jobs := []cautions.Job{cautions.Saw, cautions.Files}
	several := ""
	if u.count > 1 {
		several = fmt.Sprintf(", %d times from one length of %s (%s for each saw cut), marked at %s", u.count, words.Length(c, u.cuts().TotalMM()), words.Length(c, u.cuts().SawMM), marksWords(c, u.cuts().MarksMM()))
	}
	if u.hasGallery() {
		m.do(jobs, "cut the gallery strip between two repeats, %d repeats long (%s)%s; true the ends with a file and deburr them", u.gallery.Repeats, words.Length(c, u.gallery.CutMM()), several)
		if u.gallery.StretchShare > 5e-4 {
			m.do(treatment.AnnealJobs(u.alloy), "anneal it, and stretch it evenly from %s to %s, a little at a time: roll or hammer it along the plain edge only", words.Length(c, u.gallery.CutMM()), words.Length(c, u.LengthMM))
		}
		return
	}
	m.do(jobs, "cut the strip %s%s; %s of its length is for filing the joint, %s of its height for rubbing %s flat; deburr it",
		words.Size(c, u.cutMM(), u.cutHeightMM()), several, words.Length(c, u.filing), words.Length(c, u.truing), u.truedEdges())
	switch {
	case u.hasEdge():
		m.do(jobs, "divide the top edge into %d %s between the marks, leaving %s plain at each end to file away, and cut them %s deep with a saw or a file: the joint and every fold lie in a valley",
			u.edge.Count, edgeWord(u.edge.Edging, 2), words.Length(c, (u.filing+u.kerf)/2), words.Length(c, u.edge.DepthMM))
	case len(u.notches) > 0:
		corners := "each corner"
		if !u.stone.curve.Convex() {
			corners = "the point"
		}
		m.do(jobs, "cut a V in the top edge at %s, %s wide at the top and %s deep; the two sides close it when they are pushed over", corners, words.Length(c, u.notches[0].WidthMM), words.Length(c, u.notches[0].DepthMM))
	}
}

// truedEdges are the edges that can be rubbed flat.
func (u bezelUsed) truedEdges() string {
	if u.hasEdge() {
		return "the lower edge"
	}
	return "both edges"
}

// marksWords are where to mark a length, the first few of many.
func marksWords(c *catalogue.Call, marks []float64) string {
	const most = 6
	var list []string
	for _, x := range marks[:min(most, len(marks))] {
		list = append(list, words.MM(x))
	}
	said := strings.Join(list, ", ") + " mm"
	if words.Inches(c) {
		list = list[:0]
		for _, x := range marks[:min(most, len(marks))] {
			list = append(list, words.Length(c, x))
		}
		said = strings.Join(list, ", ")
	}
	if len(marks) > most {
		said += " and so on"
	}
	return said
}

// plateSteps cut the back plate and join the wall to it.
func plateSteps(c *catalogue.Call, u bezelUsed, m *making) {
	if u.plateMM == 0 {
		m.add("rub the lower edge flat; the back stays open, and the stone sits on the %s", c.Args.Word("bearing"))
		reliefStep(c, u, m, "bearing")
		return
	}
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "cut the back plate %s: the wall's outside and %s more all round", plateWords(c, u), words.Length(c, u.plate.RimMM))
	if u.plate.HasCutOut {
		size := u.plate.CutOut.Size()
		m.do([]cautions.Job{cautions.Drill, cautions.Saw}, "scribe the cut-out %s on it, %s inside the wall; centre-punch and drill a hole in it, thread the saw blade through, and saw it out", words.Size(c, size.LengthMM, size.WidthMM), words.Length(c, u.plate.ShelfMM))
	}
	m.do(treatment.JoinJobs(u.alloy), "rub the lower edge flat, set it on the back plate with the solder on the rim outside, and %s", treatment.Join(u.alloy, "easy"))
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "saw the plate's rim off and file it flush with the wall, or leave it as part of the design")
	what := "plate"
	if u.Bearing != bezel.NoBearing {
		what = "bearing"
	}
	reliefStep(c, u, m, what)
}

// reliefStep drills under the stone's sharp corners.
func reliefStep(c *catalogue.Call, u bezelUsed, m *making, what string) {
	if len(u.holes) > 0 {
		corners := fmt.Sprintf("each of the %d corners", len(u.holes))
		if len(u.holes) == 1 {
			corners = "the point"
		}
		m.do([]cautions.Job{cautions.Drill}, "drill or bur a %s hole into the %s under %s of the stone, so that no corner bears on metal", words.Length(c, u.holeMM), what, corners)
	}
}

// bezelFitStep says what the tolerance is made of.
func bezelFitStep(c *catalogue.Call, u bezelUsed, add func(string, ...any)) {
	t := u.fit()
	add("The fit is good to about %s across: %s. Most comes from one: first check %s, which adds %s.",
		words.Length(c, t.AcrossMM), doubtWords(c, u.tried), checkFirst(t.Largest), words.Length(c, t.LargestMM))
	if t.AcrossMM > 2*u.ClearanceMM {
		add("That is more than the play of %s: wrap the strip round the stone and mark its overlap before you solder it.", words.Length(c, 2*u.ClearanceMM))
	}
}

// bezelHeightSteps say where the wall's height comes from.
func bezelHeightSteps(c *catalogue.Call, u bezelUsed, add func(string, ...any)) {
	add("the wall is set by %s; it reaches %s in over the stone, where the stone leans %.0f°", ruleWords(u), words.Length(c, u.ReachMM), u.LeanAtEdge.Degrees())
	rows := fmt.Sprintf("height: %s up the stone's side and dome", words.Length(c, u.OverMM))
	if u.GirdleMM > 0 {
		rows += fmt.Sprintf(", + %s upright", words.Length(c, u.GirdleMM))
	}
	if u.Bearing != bezel.NoBearing {
		rows += fmt.Sprintf(", + %s seat", words.Length(c, u.BearingMM))
	}
	add("%s, + %s to true the edges; the dome is taken as the conic with this side and height", rows, words.Length(c, u.truing))
	add("published rules disagree: a third of the stone's height at least (a maker's page on bezels): %s; by the curve of the side (two more makers' pages): %s; the least to rub over (common practice, no source): %s",
		words.Length(c, u.ThirdMM), words.Length(c, u.ByCurveMM), words.Length(c, u.LeastMM))
	add("before you cut: hold a strip of card against the stone; where the stone turns in to about 45° the wall is high enough, and a steep side needs more (common practice, no source)")
}
