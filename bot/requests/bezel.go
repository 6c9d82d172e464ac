package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/bezel"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

func bezelRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "bezel",
		Implied: []string{"cabochon", "cabochons", "cab", "cabs"},
		Summary: "the strip for a straight bezel round a cabochon",
		Detail: "Give the stone's outline, size and dome height. The strip's length is that of the neutral line, with what is filed away at the joint; " +
			"its height follows from the stone's height and from its side: how much of it is upright (girdle) and how far the rest leans (edge). " +
			"Published rules for the height disagree, so the answer has a range and says which rule set it. An inner step or a bearing wire is worked out too.",
		Options: bezelOptions(),
		Examples: []catalogue.Example{
			{Line: "bezel oval 10x8 dome 3 fine-silver 28ga", Summary: "the stone sits on its back plate"},
			{Line: "bezel round 12 dome 4 edge 15 sterling 26ga bearing step seat 1.5", Summary: "a step bezel"},
			{Line: "bezel pear 12x8 dome 3.5 fine-silver 0.4mm bearing wire seat 0.8", Summary: "a bearing wire inside, seam at the point"},
			{Line: "bezel square 10 dome 3 sterling 24ga corner mitred", Summary: "corners scored and folded"},
			{Line: "bezel cushion 9x7 sterling 26ga", Summary: "the dome's height estimated"},
		},
		Answer: answerBezel,
	}
}

// Usual sizes of a bezel. Common option.Practice, no source.
const (
	usualDomeShare = 0.33 // of the stone's width
	usualStepMM    = 1.2
)

func bezelOptions() []catalogue.Option {
	thickness := option.Thickness()
	thickness.Default, thickness.Suggest = "26ga", []string{"26ga", "28ga", "24ga", "30ga", "0.3mm", "0.4mm", "0.5mm"}
	options := append(option.Stone(),
		catalogue.Option{
			Name: "dome", Aliases: []string{"high", "stone-height"},
			Summary: "height of the stone from its back to the crown, mm",
			Kind:    catalogue.Length, Min: 0.3, Max: 60, Suggest: []string{"2.5", "3", "3.5", "4"},
		},
		catalogue.Option{
			Name: "edge", Aliases: []string{"edge-angle"},
			Summary: "lean of the stone's side where the dome begins, degrees from the vertical; 0 is upright",
			Kind:    catalogue.Angle, Min: 0, Max: 60, Suggest: []string{"0", "10", "15", "20"},
		},
		catalogue.Option{
			Name:    "girdle",
			Summary: "upright part of the stone's side, from its back up, mm",
			Kind:    catalogue.Length, Min: 0, Max: 20, Default: "0", DefaultNote: option.Practice, Suggest: []string{"0", "0.5", "1"},
		},
		option.Alloy(), thickness,
		catalogue.Option{
			Name: "clearance", Aliases: []string{"play"},
			Summary: "play between stone and wall, mm",
			Kind:    catalogue.Length, Min: 0, Max: 1, Default: "0.05", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0", "0.05", "0.1"},
		},
		catalogue.Option{
			Name: "grip", Aliases: []string{"reach"},
			Summary: "how far in over the stone the wall reaches when it is rubbed over, mm",
			Kind:    catalogue.Length, Min: 0.05, Max: 5, Suggest: []string{"0.25", "0.4"},
		},
		catalogue.Option{
			Name:    "bearing",
			Summary: "what the stone sits on: none (the back plate), step (an inner strip) or wire",
			Kind:    catalogue.Word, Default: "none", DefaultNote: "default",
			Choices: []catalogue.Choice{
				{Key: "none", Aliases: []string{"plate", "back-plate"}, Summary: "the stone sits on the back plate"},
				{Key: "step", Aliases: []string{"inner", "inner-step"}, Summary: "an inner strip, soldered inside the wall"},
				{Key: "wire", Aliases: []string{"bearing-wire"}, Summary: "a round wire laid inside the wall"},
			},
		},
		catalogue.Option{
			Name:    "seat",
			Summary: "height of the step, or diameter of the bearing wire, mm",
			Kind:    catalogue.Length, Min: 0.2, Max: 20, Suggest: []string{"0.8", "1", "1.2", "1.5"},
		},
		catalogue.Option{
			Name:    "stepthick",
			Summary: "thickness of the step's strip; else the wall's",
			Kind:    catalogue.Thickness, Min: option.MinThicknessMM, Max: option.MaxThicknessMM,
		},
		catalogue.Option{
			Name: "corner", Aliases: []string{"corners"},
			Summary: "bent: bent sharp inside; mitred: scored and folded on the outer skin",
			Kind:    catalogue.Word, Default: "bent", DefaultNote: "default", Bench: true,
			Choices: []catalogue.Choice{
				{Key: "bent", Summary: "bent, sharp inside"},
				{Key: "mitred", Aliases: []string{"mitered", "scored", "folded"}, Summary: "scored inside and folded on the outer skin"},
			},
		},
		seamOption(),
		catalogue.Option{
			Name: "filing", Aliases: []string{"joint"},
			Summary: "length added for truing the joint with a file, mm",
			Kind:    catalogue.Length, Min: 0, Max: 3, Default: "0.3", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0.2", "0.3", "0.5"},
		},
		catalogue.Option{
			Name:    "truing",
			Summary: "height added for rubbing both edges of the wall flat, mm",
			Kind:    catalogue.Length, Min: 0, Max: 3, Default: "0.2", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0.1", "0.2", "0.3"},
		},
		option.Neutral(),
		option.Paper(), option.Units())
	for _, o := range stoneExtras() {
		switch o.Name {
		case "cornercut", "polygon":
			options = append(options, o)
		case "gem": // for its cautions; weights are of faceted stones
			o.Summary = "what the stone is: heat and acid ruin some"
			options = append(options, o)
		}
	}
	return append(options, option.Kerf())
}

// bezelUsed is a computed bezel with all that its answer says.
type bezelUsed struct {
	bezel.Bezel
	stone       stoneUsed
	alloy       stock.Alloy
	seam        outline.Place
	kerf        float64
	filing      float64
	truing      float64
	assumptions []string
}

// cutMM is the strip's length to cut.
func (u bezelUsed) cutMM() float64 { return u.LengthMM + u.filing + u.kerf }

// cutHeightMM is the strip's height to cut.
func (u bezelUsed) cutHeightMM() float64 { return u.HeightMM + u.truing + u.kerf }

func bezelOf(ctx context.Context, c *catalogue.Call) (bezelUsed, error) {
	var u bezelUsed
	var err error
	shape := c.With()
	delete(shape.Args, "gem") // no weight of a cabochon is published
	if u.stone, err = stoneOf(shape); err != nil {
		return u, err
	}
	if u.alloy, err = option.AlloyOf(c, "alloy"); err != nil {
		return u, err
	}
	if u.seam, err = seamOf(c, u.stone); err != nil {
		return u, err
	}
	u.filing, u.truing = c.Number("filing"), c.Number("truing")
	s := bezel.Spec{
		Stone: u.stone.curve, GirdleMM: c.Number("girdle"),
		ClearanceMM: c.Number("clearance"), ThicknessMM: c.Number("thickness"),
		GripMM: c.Number("grip"),
	}
	if !u.stone.curve.Smooth() && c.Word("corner") == "mitred" {
		s.Corners = bezel.Mitred
	}
	u.assumptions = u.stone.assumptions
	u.dome(c, &s)
	u.seat(c, &s)
	n, said := neutralOf(ctx, c, u.alloy.Key, s.ThicknessMM, !u.stone.curve.Smooth() && s.Corners == bezel.Bent)
	s.NeutralFactor, s.CornerFactor, u.kerf = n.factor, n.corner, n.kerfMM
	u.assumptions = append(u.assumptions, said...)
	if u.Bezel, err = bezel.Lay(s, u.seam); err != nil {
		return u, refuseBezel(c, s, err)
	}
	if s.GripMM == 0 {
		u.assumptions = append(u.assumptions, fmt.Sprintf("%s to %s over the stone (common practice, no source)", words.Length(c, bezel.LeastGripMM), words.Length(c, bezel.MostGripMM)))
	}
	if !c.Args.Has("seam") {
		u.assumptions = append(u.assumptions, "seam "+u.seam.Summary+" (common practice, no source)")
	}
	return u, nil
}

// dome settles the stone's height and edge.
func (u *bezelUsed) dome(c *catalogue.Call, s *bezel.Spec) {
	size := u.stone.curve.Size()
	width := math.Min(size.LengthMM, size.WidthMM)
	s.DomeMM = c.Number("dome")
	if s.DomeMM == 0 {
		s.DomeMM = math.Round(usualDomeShare*width*10) / 10
		u.assumptions = append(u.assumptions, fmt.Sprintf("dome %s high, measure it (estimate, a third of the width, from the back to the crown: common practice, no source)", words.Length(c, s.DomeMM)))
	}
	if c.Args.Has("edge") {
		s.Edge = units.Angle(c.Number("edge")) * units.Degree
		return
	}
	s.Edge, s.EdgeAssumed = bezel.AssumedEdge(width, s.DomeMM-s.GirdleMM), true
	u.assumptions = append(u.assumptions, fmt.Sprintf("the side leans %.0f° at its edge, measure it (10 to 20° is usual; a steeper side needs more wall: common practice, no source)", s.Edge.Degrees()))
}

// seat settles what the stone sits on.
func (u *bezelUsed) seat(c *catalogue.Call, s *bezel.Spec) {
	switch c.Word("bearing") {
	case "step":
		s.Bearing = bezel.Step
	case "wire":
		s.Bearing = bezel.Wire
	default:
		return
	}
	s.BearingMM = c.Number("seat")
	if s.BearingMM == 0 {
		s.BearingMM = usualStepMM
		if s.Bearing == bezel.Wire {
			s.BearingMM = math.Round(2*s.ThicknessMM*10) / 10
		}
		u.assumptions = append(u.assumptions, fmt.Sprintf("seat %s (common practice, no source)", words.Length(c, s.BearingMM)))
	}
	s.BearingThickMM = c.NumberOr("stepthick", s.ThicknessMM)
}

func refuseBezel(c *catalogue.Call, s bezel.Spec, err error) error {
	var e *bezel.Error
	if !errors.As(err, &e) {
		if o, ok := asOutlineError(err); ok {
			return answer.Refuse(c.Spec.Example(), "the bezel: %s", o.Problem)
		}
		return err
	}
	changes := map[string]string{"edge": "", "grip": "", "girdle": ""}
	if s.Bearing != bezel.NoBearing {
		changes["bearing"], changes["seat"], changes["stepthick"] = "none", "", ""
	}
	return answer.Refuse(c.Retyped(changes), "%s", e.Problem)
}

func answerBezel(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	u, err := bezelOf(ctx, c)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut a strip %s of %s for %s cabochon.",
			words.Size(c, u.cutMM(), u.cutHeightMM()), words.Metal(c, u.alloy), u.stone.aWords(c)),
		Figures:     bezelFigures(c, u),
		Assumptions: u.assumptions,
	}
	bezelSteps(c, u).finish(a)
	a.Notes = append(a.Notes, holdNotes(c, u)...)
	if u.ThicknessMM > 0.7 {
		a.Notes = append(a.Notes, "a wall this thick is set with a hammer handpiece or punch, not with a burnisher")
	}
	return drawn(c, a, bezelDrawing(c, u)), nil
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
	figures := []answer.Figure{
		{ID: "cut_length", Label: fmt.Sprintf("strip to cut, with %s mm to file", words.MM(u.filing)), Value: u.cutMM(), Unit: answer.MM},
		{ID: "strip_length", Label: "strip as it closes, length", Value: u.LengthMM, Unit: answer.MM, Main: true},
		{ID: "strip_height", Label: "strip, height", Value: u.cutHeightMM(), Unit: answer.MM},
		{ID: "wall_height", Label: "finished wall, height", Value: u.HeightMM, Unit: answer.MM, Main: true, Text: wallWords(c, u)},
		{ID: "height_rule", Label: "set by", Value: float64(u.Rule), Unit: answer.Count, Main: true, Text: ruleWords(u)},
		{ID: "over_girdle", Label: "wall above the upright part of the side", Value: u.OverMM, Unit: answer.MM},
		{ID: "reach", Label: "reach over the stone, each side", Value: u.ReachMM, Unit: answer.MM, Main: true},
		{ID: "wall_low", Label: "finished wall, the rules' least", Value: u.LowMM + u.seatMM(), Unit: answer.MM},
		{ID: "wall_high", Label: "finished wall, the rules' most", Value: u.HighMM + u.seatMM(), Unit: answer.MM},
		{ID: "wall_third", Label: "a third of the stone's height", Value: u.ThirdMM, Unit: answer.MM},
	}
	switch u.Bearing {
	case bezel.Step:
		figures = append(figures, answer.Figure{ID: "step_length", Label: "inner strip, length", Value: u.BearingLengthMM, Unit: answer.MM, Main: true},
			answer.Figure{ID: "step_height", Label: "inner strip, height", Value: u.BearingMM, Unit: answer.MM},
			answer.Figure{ID: "step_thickness", Label: "inner strip, thickness", Value: u.BearingThickMM, Unit: answer.MM})
	case bezel.Wire:
		figures = append(figures, answer.Figure{ID: "wire_length", Label: "bearing wire, length", Value: u.BearingLengthMM, Unit: answer.MM, Main: true},
			answer.Figure{ID: "wire_diameter", Label: "bearing wire, diameter", Value: u.BearingMM, Unit: answer.MM})
	}
	seam := u.seam.Summary
	if u.Bevel > 0 {
		seam += fmt.Sprintf(", bevel %.1f°", u.Bevel.Degrees())
	}
	return append(figures,
		answer.Figure{ID: "seam", Label: "seam", Value: u.Bevel.Degrees(), Unit: answer.Degree, Text: seam, Main: true},
		answer.Figure{ID: "thickness", Label: "thickness", Value: u.ThicknessMM, Unit: answer.MM},
		answer.Figure{ID: "outer_length", Label: "finished bezel, outside length", Value: outer.LengthMM, Unit: answer.MM},
		answer.Figure{ID: "outer_width", Label: "finished bezel, outside width", Value: outer.WidthMM, Unit: answer.MM},
		answer.Figure{ID: "stone_lean", Label: "lean of the stone where the wall ends, from the vertical", Value: u.LeanAtEdge.Degrees(), Unit: answer.Degree},
		answer.Figure{ID: "corners", Label: "corners", Value: float64(len(u.Folds)), Unit: answer.Count},
		answer.Figure{ID: "mass", Label: "mass of the strip", Value: stock.MassG(stock.SheetMM3(u.cutMM(), u.cutHeightMM(), u.ThicknessMM), u.alloy.DensityGPerCM3), Unit: answer.Gram},
	)
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

func bezelSteps(c *catalogue.Call, u bezelUsed) *making {
	m := makingOf(c, u.alloy)
	add := m.add
	outer := u.Outer.Size()
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "cut the strip %s; %s of its length is for filing the joint, %s of its height for rubbing both edges flat; deburr it",
		words.Size(c, u.cutMM(), u.cutHeightMM()), words.Length(c, u.filing), words.Length(c, u.truing))
	m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
	switch {
	case len(u.Folds) > 0 && u.Corners == bezel.Mitred:
		m.do(treatment.JoinJobs(u.alloy), "score the %d fold lines on the inside to two thirds of the thickness, fold, and %s", len(u.Folds), treatment.FillScores(u.alloy))
	case len(u.Folds) > 0:
		add("bend at the %d fold lines: each is the middle of its bend", len(u.Folds))
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
	add("true it on a mandrel; outside it measures %s", holeSize(c, outer))
	switch u.Bearing {
	case bezel.Step:
		m.do(treatment.JoinJobs(u.alloy), "bend the inner strip, %s long, %s high and %s thick, to fit inside; its lower edge flush with the wall's, seams apart; %s",
			words.Length(c, u.BearingLengthMM), words.Length(c, u.BearingMM), words.Length(c, u.BearingThickMM), treatment.Join(u.alloy, "medium"))
	case bezel.Wire:
		m.do(treatment.JoinJobs(u.alloy), "bend %s of wire %s thick to fit inside at the bottom, and %s", words.Length(c, u.BearingLengthMM), words.Length(c, u.BearingMM), treatment.Join(u.alloy, "medium"))
	}
	m.do(treatment.JoinJobs(u.alloy), "rub the lower edge flat, set it on the back plate and %s", treatment.Join(u.alloy, "easy"))
	add("try the stone before you polish; it must drop in without force")
	m.do([]cautions.Job{cautions.Setting}, "the stone goes in last, when no more heat or wet work follows; rub the wall over from opposite sides")
	bend := "each sharp corner takes its angle x the corner factor x thickness"
	if u.Corners == bezel.Mitred {
		bend = "folded corners are measured on the outer skin"
	}
	add("length: inner perimeter %s + turning of the bends x %.3g x thickness; %s", words.Length(c, u.Inner.PerimeterMM()), u.NeutralFactor, bend)
	bezelHeightSteps(c, u, add)
	if u.kerf != 0 {
		add("%s more each way for saw and file, from your trials", words.Length(c, u.kerf))
	}
	return m
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

func bezelDrawing(c *catalogue.Call, u bezelUsed) template.Drawing {
	d := template.Drawing{
		Name:  "bezel-" + u.stone.fileName(),
		Title: "Bezel for " + u.stone.aWords(c),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			fmt.Sprintf("%s of the length is to file at the joint", words.Length(c, u.filing)),
		},
		Paths: stripPaths(u.cutMM(), u.cutHeightMM(), u.filing+u.kerf, u.Bezel),
	}
	level := func(id string, role template.Role, y float64) {
		if y > 0.05 && y < u.cutHeightMM()-0.05 {
			d.Paths = append(d.Paths, template.Polyline(id, role, id, false, [2]float64{0, y}, [2]float64{u.cutMM(), y}))
		}
	}
	// The lower edge is trued by half of what is added.
	seat := (u.truing + u.kerf) / 2
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
	middle := math.Max(u.cutMM(), size.LengthMM) / 2
	d.Paths = append(d.Paths, planPaths(middle, plan{"outside", "outside", u.Outer, template.Seen}, plan{"stone", "stone", u.stone.curve, template.Stone})...)
	if section, ok := bezelSection(c, u); ok {
		d.Details = []template.Drawing{section}
	}
	if over, ok := rubbedOver(c, u); ok {
		d.Details = append(d.Details, over)
	}
	if bodies, err := finished.Bezel(u.Bezel, u.seatMM(), u.seam); err == nil {
		d.Details = append(d.Details, finishedView(bodies, seamFaces(u.Stone, u.seam), "before the wall is rubbed over"))
	}
	d.Alt = inWords(d, "a straight strip", "seam "+u.seam.Summary, foldWords(len(u.Folds)), "below it the finished bezel is seen from above")
	return d
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
