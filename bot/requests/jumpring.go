package requests

import (
	"context"
	"fmt"
	"math"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/jumpring"
	"guildhand/calc/stock"
)

func jumpringRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "jumpring",
		Implied: []string{"jumprings", "jump-ring", "jump-rings"},
		Summary: "jump rings: wire for one and for all, aspect ratio, mandrel, chain, mass and cost",
		Detail: "Wire for one ring is π x (inside diameter + wire). Give the inside diameter of the closed ring, the mandrel, or the " +
			"aspect ratio (inside / wire). A ring sold by its size is often named after its mandrel and is a little larger.",
		Options: jumpringOptions(),
		Examples: []catalogue.Example{
			{Line: "jumpring 18ga inside 5mm count 100 sterling", Summary: "a hundred rings by their inside diameter"},
			{Line: "jumpring 1.2mm ratio 4.5 sterling", Summary: "one ring by its aspect ratio"},
			{Line: "jumpring 20ga mandrel 4 count 50 copper", Summary: "by the mandrel that you have"},
			{Line: "jumpring 16ga inside 6 chain 450 sterling", Summary: "rings for a plain chain"},
		},
		Answer: answerJumpring,
	}
}

func jumpringOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "wire", Aliases: []string{"thickness", "gauge"},
			Summary: "diameter of the wire: 18ga, 1.2 mm",
			Kind:    catalogue.Thickness, Min: 0.2, Max: 8, Bare: true,
			Required: true, Prompt: "how thick is the wire (18ga, 1.2 mm)?",
			Suggest: []string{"18ga", "16ga", "20ga", "14ga", "1mm", "1.2mm", "1.5mm"},
		},
		{
			Name: "inside", Aliases: []string{"inner", "inside-diameter", "inner-diameter", "id", "diameter"},
			Summary: "inside diameter of the closed ring, mm",
			Kind:    catalogue.Length, Min: 0.8, Max: 100,
			Required: true, Unless: []string{"mandrel", "ratio"}, Excludes: []string{"mandrel", "ratio"},
			Prompt:  "what is the inside diameter of the ring, in mm?",
			Suggest: []string{"4", "5", "6", "3", "8"},
		},
		{
			Name: "mandrel", Aliases: []string{"rod"},
			Summary: "diameter of the mandrel that the coil is wound on, mm",
			Kind:    catalogue.Length, Min: 0.8, Max: 100, Excludes: []string{"ratio"},
			Suggest: []string{"4", "5", "6"},
		},
		{
			Name: "ratio", Aliases: []string{"aspect", "aspect-ratio", "ar"},
			Summary: "aspect ratio: inside diameter over wire",
			Kind:    catalogue.Number, Min: jumpring.LeastAspect, Max: 60,
			Suggest: []string{"4", "4.5", "3.5", "5"},
		},
		{
			Name: "count", Aliases: []string{"rings", "pieces", "links"},
			Summary: "how many rings",
			Kind:    catalogue.Integer, Min: 1, Max: 100_000, Excludes: []string{"chain"},
			Suggest: []string{"100", "50", "200"},
		},
		{
			Name: "chain", Aliases: []string{"chain-length"},
			Summary: "length of a plain chain, one ring through the next, mm",
			Kind:    catalogue.Length, Min: 2, Max: 50_000,
			Suggest: []string{"450", "180", "600"},
		},
		sawKerf(),
		option.Alloy(),
		option.Units(),
		option.Paper(),
	}
}

// coilEndsMM is the wire at both ends of a coil that the vice and the hand hold;
// common practice, no source.
const coilEndsMM = 40

// sawKerf is what the saw takes from stock that is cut into many pieces.
func sawKerf() catalogue.Option {
	return catalogue.Option{
		Name: "kerf", Aliases: []string{"saw-kerf"},
		Summary: "what the saw takes at each cut, mm",
		Kind:    catalogue.Length, Min: 0, Max: 1.5,
		Default: "0.3", DefaultNote: option.Practice, Suggest: []string{"0.3", "0.25", "0.5"},
	}
}

func answerJumpring(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	kerf := c.Number("kerf")
	ring := ringOfWire(c)
	if err := ring.Check(); err != nil {
		return nil, answer.Refuse(c.Retyped(map[string]string{"inside": words.MM(math.Ceil(4 * ring.WireMM)), "mandrel": "", "ratio": ""}), "%s", err)
	}
	count := max(1, int(c.Number("count")))
	wanted := c.Number("chain")
	if wanted > 0 {
		count = ring.ForChain(wanted)
	}
	coil := ring.CoilMM(count, kerf)
	mass := float64(count) * stock.MassG(ring.VolumeMM3(), alloy.DensityGPerCM3)
	least, most := ring.Mandrels()

	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut %s of %s %s wire for %s, %s inside.", words.Length(c, coil),
			words.Thickness(c, c.Value("wire")), alloy.Name, words.Counted(count, "jump ring", "jump rings"), words.Length(c, ring.InsideMM)),
		Figures: []answer.Figure{
			{ID: "wire_per_ring", Label: "wire in one ring", Value: ring.WireLengthMM(), Unit: answer.MM, Main: true},
			{ID: "wire_length", Label: "wire for all, with the saw's kerf", Value: coil, Unit: answer.MM},
			{ID: "aspect_ratio", Label: "aspect ratio", Value: ring.Aspect(), Unit: answer.Ratio, Main: true},
			{ID: "count", Label: "rings", Value: float64(count), Unit: answer.Count},
			{ID: "mass", Label: "mass of the rings", Value: mass, Unit: answer.Gram, Main: true},
			{ID: "inside_diameter", Label: "inside diameter", Value: ring.InsideMM, Unit: answer.MM},
			{ID: "outside_diameter", Label: "outside diameter", Value: ring.OutsideMM(), Unit: answer.MM, Main: true},
			{ID: "wire", Label: "wire", Value: ring.WireMM, Unit: answer.MM},
			{ID: "mandrel_least", Label: "mandrel, hard wire", Value: least, Unit: answer.MM},
			{ID: "mandrel_most", Label: "mandrel, soft wire", Value: most, Unit: answer.MM},
			{ID: "rings_per_metre", Label: "rings from a metre", Value: math.Floor(1000 / ring.TurnMM(kerf)), Unit: answer.Count},
		},
	}
	a.Lengths = []answer.Length{{
		Name: "jump ring", Stock: fmt.Sprintf("round wire, %s mm", words.MM(ring.WireMM)), Rings: count,
		EachMM: ring.TurnMM(kerf), AllowanceMM: coilEndsMM, KerfMM: kerf, SectionMM2: stock.DiscMM3(ring.WireMM, 1),
		MassG: mass / float64(count), SawMM: ring.WireMM,
	}}
	if wanted > 0 {
		a.Figures[3].Main = true
		a.Figures = append(a.Figures, answer.Figure{ID: "chain_length", Label: "chain, pulled straight", Value: ring.ChainMM(count), Unit: answer.MM, Main: true})
		a.Assumptions = append(a.Assumptions, "a plain chain, one ring through the next; the clasp comes on top")
	}
	cost(a, c.Shop, alloy, stock.MassG(stock.DiscMM3(ring.WireMM, coil), alloy.DensityGPerCM3))
	if c.Args.Has("mandrel") {
		a.Assumptions = append(a.Assumptions, "the mandrel is taken as the inside; the coil springs open by up to some per cent, so measure a ring")
	} else {
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("mandrel %s to %s mm (springback of hard and of annealed sterling wire, estimate)", words.MM(least), words.MM(most)))
	}
	jumpringSteps(c, ring, kerf, count, coil, alloy).finish(a)
	return drawn(c, a, jumpringDrawing(c, ring, kerf, count, alloy)), nil
}

// ringOfWire is the ring of a call; without a check.
func ringOfWire(c *catalogue.Call) jumpring.Ring {
	ring := jumpring.Ring{WireMM: c.Number("wire")}
	switch {
	case c.Args.Has("ratio"):
		ring.InsideMM = c.Number("ratio") * ring.WireMM
	case c.Args.Has("mandrel"):
		ring.InsideMM = c.Number("mandrel")
	default:
		ring.InsideMM = c.Number("inside")
	}
	return ring
}

func jumpringSteps(c *catalogue.Call, ring jumpring.Ring, kerf float64, count int, coil float64, alloy stock.Alloy) *making {
	m := makingOf(c, alloy)
	m.add("wire in one ring = π x (inside %.2f + wire %.2f) = %.2f mm", ring.InsideMM, ring.WireMM, ring.WireLengthMM())
	m.add("one turn of the coil with a kerf of %.2f mm and a pitch of one wire = %.2f mm; %d of them = %.1f mm; the ends that you hold come on top",
		kerf, ring.TurnMM(kerf), count, coil)
	least, most := ring.Mandrels()
	if c.Args.Has("mandrel") {
		m.add("wind three turns on your mandrel, saw one off, close it and measure it: annealed sterling was measured %.0f %% larger than its mandrel, hard wire opens more",
			100*jumpring.MeasuredSpringBack)
	} else {
		m.add("mandrel: %.2f mm for hard wire to %.2f mm for annealed wire (figures of sterling); annealed sterling was once measured %.0f %% larger than its mandrel: wind three turns, saw one off, close it and measure it",
			least, most, 100*jumpring.MeasuredSpringBack)
	}
	m.do(treatment.AnnealJobs(alloy), "for wire that springs, %s", treatment.Anneal(alloy))
	m.do(nil, "wind the wire turn against turn, and wear eye protection: the end of the wire whips round as it leaves the hand")
	m.do([]cautions.Job{cautions.Saw}, "tape the coil, hold it in a clamp and saw along it with a fine blade, one turn after the other")
	m.add("close each ring with two pliers, past its place and back, until the ends spring together without light between them")
	m.do(treatment.JoinJobs(alloy), "where a ring must hold, close it and %s", treatment.Join(alloy, "medium"))
	return m
}
