package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/bezel"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

func bezelRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "bezel",
		Implied: []string{"cabochon", "cabochons", "cab", "cabs"},
		Summary: "a cabochon's bezel: strip, back plate, step or bearing wire, top edge",
		Detail: "Give the stone's outline, size and dome height. The strip's length is that of the neutral line, with what is filed away at the joint; " +
			"its height follows from the stone's height and from its side: how much of it is upright (girdle) and how far the rest leans (edge). " +
			"Published rules for the height disagree, so the answer has a range and says which rule set it. " +
			"The back plate, an inner step or a bearing wire, a serrated or scalloped top edge, a gallery strip and corner reliefs are worked out too.",
		Options: bezelOptions(),
		Examples: []catalogue.Example{
			{Line: "bezel oval 10x8 dome 3 fine-silver 28ga", Summary: "the stone sits on its back plate"},
			{Line: "bezel round 12 dome 4 edge 15 sterling 26ga bearing step seat 1.5", Summary: "a step bezel"},
			{Line: "bezel pear 12x8 dome 3.5 fine-silver 0.4mm bearing wire seat 0.8", Summary: "a bearing wire inside, seam at the point"},
			{Line: "bezel square 10 dome 3 sterling 24ga corner mitred", Summary: "corners scored and folded"},
			{Line: "bezel cushion 9x7 sterling 26ga", Summary: "the dome's height estimated"},
			{Line: "bezel oval 18x13 dome 5 fine-silver 26ga plate open shelf 2", Summary: "the back plate sawn out under the stone"},
			{Line: "bezel round 12 dome 4 fine-silver 28ga scalloped", Summary: "scallops that come out even"},
			{Line: "bezel oval 18x13 dome 5 fine-silver 0.4mm gallery 3.2", Summary: "a gallery strip fitted to the stone"},
			{Line: "bezel square 10 dome 3 sterling 24ga relief both", Summary: "corners notched, and free below"},
			{Line: "bezel oval 10x8 dome 3 fine-silver 28ga count 5", Summary: "five from one strip"},
			{Line: "bezel measured 20x16 perimeter 58 dome 5 fine-silver 26ga", Summary: "a freeform stone, by a paper strip round it"},
			{Line: "bezel oval 18x13 dome 5 cup", Summary: "whether a bought cup fits"},
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
	of := option.Stone()
	of[0].Unless = append(of[0].Unless, "perimeter")
	options := slices.Concat(of, cabochonOptions(), []catalogue.Option{
		option.Alloy(), thickness,
		{
			Name: "clearance", Aliases: []string{"play"},
			Summary: "play between stone and wall, mm",
			Kind:    catalogue.Length, Min: 0, Max: 1, Default: "0.05", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0", "0.05", "0.1"},
		},
		{
			Name: "grip", Aliases: []string{"reach"},
			Summary: "how far in over the stone the wall reaches when it is rubbed over, mm",
			Kind:    catalogue.Length, Min: 0.05, Max: 5, Suggest: []string{"0.25", "0.4"},
		},
	}, bearingOptions(), []catalogue.Option{
		{
			Name: "corner", Aliases: []string{"corners"},
			Summary: "bent: bent sharp inside; mitred: scored and folded on the outer skin",
			Kind:    catalogue.Word, Default: "bent", DefaultNote: "default", Bench: true,
			Choices: []catalogue.Choice{
				{Key: "bent", Summary: "bent, sharp inside"},
				{Key: "mitred", Aliases: []string{"mitered", "scored", "folded"}, Summary: "scored inside and folded on the outer skin"},
			},
		},
		seamOption(),
		{
			Name: "filing", Aliases: []string{"joint"},
			Summary: "length added for truing the joint with a file, mm",
			Kind:    catalogue.Length, Min: 0, Max: 3, Default: "0.3", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0.2", "0.3", "0.5"},
		},
		{
			Name:    "truing",
			Summary: "height added for rubbing both edges of the wall flat, mm",
			Kind:    catalogue.Length, Min: 0, Max: 3, Default: "0.2", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0.1", "0.2", "0.3"},
		},
		option.Neutral(),
		option.Paper(), option.Units(),
	})
	options = append(options, bezelPartOptions()...)
	options = append(options, perimeterOption())
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

// cabochonOptions are what a cabochon has beside its outline and size.
func cabochonOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "dome", Aliases: []string{"high", "stone-height"},
			Summary: "height of the stone from its back to the crown, mm",
			Kind:    catalogue.Length, Min: 0.3, Max: 60, Suggest: []string{"2.5", "3", "3.5", "4"},
		},
		{
			Name: "edge", Aliases: []string{"edge-angle"},
			Summary: "lean of the stone's side where the dome begins, degrees from the vertical; 0 is upright",
			Kind:    catalogue.Angle, Min: 0, Max: 60, Suggest: []string{"0", "10", "15", "20"},
		},
		{
			Name:    "girdle",
			Summary: "upright part of the stone's side, from its back up, mm",
			Kind:    catalogue.Length, Min: 0, Max: 20, Default: "0", DefaultNote: option.Practice, Suggest: []string{"0", "0.5", "1"},
		},
	}
}

// bearingOptions are what the stone sits on.
func bearingOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name:    "bearing",
			Summary: "what the stone sits on: none (the back plate), step (an inner strip) or wire",
			Kind:    catalogue.Word, Default: "none", DefaultNote: "default",
			Choices: []catalogue.Choice{
				{Key: "none", Aliases: []string{"plate", "back-plate"}, Summary: "the stone sits on the back plate"},
				{Key: "step", Aliases: []string{"inner", "inner-step"}, Summary: "an inner strip, soldered inside the wall"},
				{Key: "wire", Aliases: []string{"bearing-wire"}, Summary: "a round wire laid inside the wall"},
			},
		},
		{
			Name:    "seat",
			Summary: "height of the step, or diameter of the bearing wire, mm",
			Kind:    catalogue.Length, Min: 0.2, Max: 20, Suggest: []string{"0.8", "1", "1.2", "1.5"},
		},
		{
			Name:    "stepthick",
			Summary: "thickness of the step's strip; else the wall's",
			Kind:    catalogue.Thickness, Min: option.MinThicknessMM, Max: option.MaxThicknessMM,
		},
	}
}

// bezelUsed is a computed bezel with all that its answer says.
type bezelUsed struct {
	bezel.Bezel
	stone  stoneUsed
	alloy  stock.Alloy
	seam   outline.Place
	kerf   float64
	filing float64
	truing float64
	// tried is set where the factor comes from trials or from the maker.
	tried       bool
	assumptions []string
	bezelParts
}

// cutMM is the strip's length to cut.
func (u bezelUsed) cutMM() float64 {
	if u.hasGallery() { // it is cut between repeats
		return u.gallery.CutMM()
	}
	return u.LengthMM + u.filing + u.kerf
}

// cutHeightMM is the strip's height to cut.
func (u bezelUsed) cutHeightMM() float64 { return u.HeightMM + u.truing + u.kerf }

func bezelOf(ctx context.Context, c *catalogue.Call) (bezelUsed, error) {
	var u bezelUsed
	var err error
	if err = besideNothing(c); err != nil {
		return u, err
	}
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
	u.tried = c.Args.Has("neutral")
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
	return u, u.addParts(c)
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
		Headline:    bezelHeadline(c, u),
		Figures:     bezelFigures(c, u),
		Assumptions: u.assumptions,
		Parts:       sheetParts(c, u),
		Lengths:     bearingWire(u),
	}
	bezelSteps(c, u).finish(a)
	a.Notes = append(a.Notes, bezelNotes(c, u)...)
	a.Notes = append(a.Notes, holdNotes(c, u)...)
	if u.ThicknessMM > 0.7 {
		a.Notes = append(a.Notes, "a wall this thick is set with a hammer handpiece or punch, not with a burnisher")
	}
	return drawn(c, a, bezelDrawing(c, u)), nil
}
