package requests

import (
	"context"
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/halo"
	"guildhand/calc/stock"
)

func haloRequest() catalogue.Spec {
	thickness := option.Thickness()
	thickness.Summary = "thickness of the plate: 1.2 mm, 16ga"
	thickness.Default, thickness.DefaultNote = "1.2mm", option.Practice
	thickness.Bench = false
	thickness.Suggest = []string{"1.2mm", "1mm", "1.5mm", "16ga"}
	gap := func(name, summary, usual string, aliases ...string) catalogue.Option {
		return catalogue.Option{Name: name, Aliases: aliases, Summary: summary, Kind: catalogue.Length, Min: 0, Max: 5,
			Default: usual, DefaultNote: option.Practice, Suggest: []string{usual, "0.2", "0.3"}}
	}
	return catalogue.Spec{
		Name:    "halo",
		Summary: "small stones round a centre stone: how many, spacing, the plate and its holes",
		Detail: "Round a round centre the stones are circles round a circle; round any other outline neighbours are the same distance " +
			"apart along the outline offset by the gap and half a stone. The answer says which stone sizes would come out even.",
		Options: append(append(option.Stone(),
			catalogue.Option{
				Name: "with", Aliases: []string{"small", "melee", "of"},
				Summary: "diameter of the small round stones, mm",
				Kind:    catalogue.Length, Min: 0.7, Max: 12,
				Required: true, Prompt: "how wide are the small stones, in mm?",
				Suggest: []string{"1.3", "1", "1.5", "2"},
			},
			catalogue.Option{
				Name: "count", Aliases: []string{"stones"},
				Summary: "how many small stones, in place of the most that fit",
				Kind:    catalogue.Integer, Min: halo.Least, Max: halo.Most, Suggest: []string{"16", "20", "24"},
			},
			gap("gap", "least gap between neighbours, mm", "0.1"),
			gap("centregap", "gap between the centre stone and the small ones, mm", "0.1", "centergap", "gap-to-centre"),
			gap("edge", "metal outside the small stones, mm", "0.4"),
			thickness,
			option.Alloy(),
			option.Units(),
			option.Paper(),
		), stoneExtras()[:2]...),
		Examples: []catalogue.Example{
			{Line: "halo oval 8x6 with 1.3", Summary: "the most stones that fit"},
			{Line: "halo round 6.5 with 1.3 18k-white", Summary: "round a round stone"},
			{Line: "halo pear 9x6 with 1.5 count 15", Summary: "so many stones"},
			{Line: "halo cushion 7 with 1.2 gap 0.15 centregap 0.2", Summary: "with gaps of your own"},
		},
		Answer: answerHalo,
	}
}

func answerHalo(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	s, err := stoneOf(c)
	if err != nil {
		return nil, err
	}
	spec := halo.Spec{Centre: s.curve, StoneMM: c.Number("with"), GapMM: c.Number("gap"), ToCentreMM: c.Number("centregap"), RimMM: c.Number("edge"), Count: int(c.Number("count"))}
	h, err := spec.Set()
	if err != nil {
		return nil, answer.Refuse(haloTry(c, spec), "%s", err)
	}
	plate := spec.PlateSize()
	hole := 0.6 * spec.StoneMM
	a := &answer.Answer{
		Headline: fmt.Sprintf("Set %d stones of %s round %s, on a plate %s of %s %s.", h.Count, words.Length(c, spec.StoneMM), s.aWords(c),
			words.Size(c, plate.LengthMM, plate.WidthMM), words.Thickness(c, c.Value("thickness")), alloy.Name),
		Figures: []answer.Figure{
			{ID: "count", Label: "small stones", Value: float64(h.Count), Unit: answer.Count},
			{ID: "pitch", Label: "centre to centre", Value: h.PitchMM, Unit: answer.MM, Main: true},
			{ID: "gap", Label: "gap between neighbours", Value: h.GapMM, Unit: answer.MM, Main: true},
			{ID: "gap_to_centre", Label: "gap to the centre stone", Value: spec.ToCentreMM, Unit: answer.MM},
			{ID: "plate_outer_length", Label: "plate, length", Value: plate.LengthMM, Unit: answer.MM},
			{ID: "plate_outer_width", Label: "plate, width", Value: plate.WidthMM, Unit: answer.MM},
			{ID: "bur", Label: "setting bur", Value: spec.StoneMM, Unit: answer.MM},
			{ID: "hole", Label: "hole to drill first", Value: hole, Unit: answer.MM, Main: true},
		},
		Assumptions: append(s.assumptions, "holes six tenths of the stone (common practice, no source)"),
		Notes:       s.said(c),
	}
	for n, id := range []string{"even_size", "even_size_more"} {
		if mm, ok := spec.EvenStoneMM(h.Count + n); ok {
			a.Figures = append(a.Figures, answer.Figure{ID: id, Label: fmt.Sprintf("even with %d", h.Count+n), Value: mm, Unit: answer.MM, Main: true})
		}
	}
	if over := h.GapMM - spec.GapMM; over > 0.05 {
		a.Notes = append(a.Notes, fmt.Sprintf("the stones don't come out even: each gap is %s mm wider than asked for", words.MM(over)))
	}
	if h.GapMM < 0.03 {
		a.Notes = append(a.Notes, "neighbours all but touch: measure the stones, a few hundredths decide")
	}
	haloSteps(c, spec, h, hole, alloy).finish(a)
	d, err := haloDrawing(s, spec, h, hole, alloy, c)
	if err != nil {
		return nil, err
	}
	return drawn(c, a, d), nil
}

// haloTry is a line with stones of a size that goes round.
func haloTry(c *catalogue.Call, spec halo.Spec) string {
	for _, mm := range []float64{spec.StoneMM, 1.3, 1, 2, 3} {
		spec.StoneMM, spec.Count = mm, 0
		if _, err := spec.Set(); err == nil {
			return c.Retyped(map[string]string{"with": words.MM(mm), "count": ""})
		}
	}
	return "halo oval 8x6 with 1.3"
}

func haloSteps(c *catalogue.Call, spec halo.Spec, h halo.Halo, hole float64, alloy stock.Alloy) *making {
	m := makingOf(c, alloy)
	m.add("centres lie on the centre stone's outline offset by %.2f mm gap + %.2f mm, half a stone; %d of them, %.2f mm apart in a straight line, leave gaps of %.2f mm",
		spec.ToCentreMM, spec.StoneMM/2, h.Count, h.PitchMM, h.GapMM)
	m.add("the stones decide: measure some of each size, and lay them round the centre stone in wax before you drill")
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "glue the print on the plate, centre-punch every hole and saw the plate out; the opening for the centre stone's setting comes last")
	m.do([]cautions.Job{cautions.Drill}, "clamp the plate, drill the holes %.2f mm, then cut the seats with a setting bur of %.2f mm", hole, spec.StoneMM)
	m.do(treatment.JoinJobs(alloy), "join plate and centre setting: %s. All soldering is done before any stone is set", treatment.Join(alloy, "hard"))
	m.add("raise beads, or solder prong wire, in the gaps between neighbours: one bead holds two stones, and each stone wants at least two")
	m.do([]cautions.Job{cautions.Setting}, "set the small stones first and the centre stone last")
	return m
}
