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
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/tubeset"
)

func tubesetRequest() catalogue.Spec {
	tube := tubeOption()
	tube.Excludes = []string{"tubesize"}
	stone := option.Stone()[:2] // points are for outlines that no tube has
	stone[0].Unless, stone[1].Unless, stone[1].NotRequired = nil, nil, nil
	stone[1].Min, stone[1].Max = option.MinSideMM, 15
	stone[1].Suggest = []string{"2", "3", "4", "5"}
	stone[1].Sample = func(catalogue.Args) string { return "4" }
	return catalogue.Spec{
		Name:    "tubeset",
		Summary: "a small round stone set in tube: which tube, how long, the bur, the seat, the wall left",
		Detail: "From above the stone covers half of the tube's wall: stone = (outside + inside) / 2. The seat is cut to the stone's " +
			"own diameter. Name a tube of the workshop or give its size (tubesize 4.5x0.5, outside x wall) to see whether it will do.",
		Options: append(stone,
			tube,
			catalogue.Option{
				Name:    "tubesize",
				Summary: "a tube by its size, outside x wall: 4.5x0.5",
				Kind:    catalogue.Size, Min: 0.1, Max: 20, Suggest: []string{"4.5x0.5", "3.4x0.4", "5.5x0.5"},
			},
			catalogue.Option{
				Name: "count", Aliases: []string{"pieces", "stones"},
				Summary: "how many settings are cut",
				Kind:    catalogue.Integer, Min: 1, Max: 1000, Suggest: []string{"2", "5", "10"},
			},
			catalogue.Option{
				Name: "spacing", Aliases: []string{"gap"},
				Summary: "gap between the tubes of a row, mm",
				Kind:    catalogue.Length, Min: 0, Max: 50, Suggest: []string{"0", "0.5", "1"},
			},
			option.Depth(),
			catalogue.Option{
				Name:    "room",
				Summary: "tube left under the culet, mm",
				Kind:    catalogue.Length, Min: 0, Max: 20,
				Default: "0.5", DefaultNote: option.Practice, Suggest: []string{"0.5", "0.3", "1"},
			},
			sawKerf(),
			option.Alloy(),
			option.Units(),
			option.Paper(),
		),
		Examples: []catalogue.Example{
			{Line: "tubeset round 4", Summary: "the tube for a stone"},
			{Line: "tubeset round 3 count 7 spacing 0.5 18k-yellow", Summary: "a row of seven"},
			{Line: "tubeset round 4.5 tubesize 5x0.5 sterling", Summary: "whether a tube will do"},
			{Line: "tubeset round 5 depth 3.1 sterling", Summary: "with the stone's measured depth"},
		},
		Answer: answerTubeset,
	}
}

// filedMM is what squaring both ends of a piece takes; common practice, no
// source.
const filedMM = 0.2

func answerTubeset(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	size := c.Value("size").Numbers
	if kind := outline.Kind(c.Word("outline")); kind != outline.Round || len(size) > 1 && size[0] != size[1] {
		return nil, answer.Refuse(c.Retyped(map[string]string{"outline": "round", "size": words.MM(size[len(size)-1])}),
			"tube is round, and so are the stones that it is set with; for %s make a bezel or a tapered setting", words.Article(string(kind)))
	}
	stone := size[0]
	tube, from, err := tubeFor(c, alloy, stone)
	if err != nil {
		return nil, err
	}
	below, err := underGirdle(c, stone)
	if err != nil {
		return nil, err
	}
	length := tubeset.LengthMM(stone, below, c.Number("room"))
	count := max(1, int(c.Number("count")))
	need := tubeset.StockMM(count, length, filedMM, c.Number("kerf"))
	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut %s of %s tube, %s outside, %s wall, for a round %s.", lengthsOf(c, count, length), alloy.Name,
			words.Length(c, tube.OuterMM), words.Length(c, tube.WallMM), words.Length(c, stone)),
		Figures: []answer.Figure{
			{ID: "tube_outer", Label: "tube, outside", Value: tube.OuterMM, Unit: answer.MM},
			{ID: "tube_inner", Label: "tube, inside", Value: tube.InnerMM(), Unit: answer.MM},
			{ID: "bur", Label: "setting bur", Value: stone, Unit: answer.MM, Main: true},
			{ID: "seat_depth", Label: "rim to the girdle's lower edge", Value: tubeset.SeatDepthMM(stone), Unit: answer.MM, Main: true},
			{ID: "wall_left", Label: "wall left beside the stone", Value: tube.WallLeftMM(stone), Unit: answer.MM, Main: true},
			{ID: "length", Label: "length of one tube", Value: length, Unit: answer.MM},
			{ID: "stock_length", Label: "tube for all, sawn and filed", Value: need, Unit: answer.MM, Main: count > 1},
			{ID: "covered", Label: "of the wall that the stone covers", Value: 100 * tube.Covered(stone), Unit: answer.Percent},
			{ID: "mass", Label: "mass of the tubes as cut", Value: float64(count) * stock.MassG(stock.TubeMM3(tube.OuterMM, tube.WallMM, length), alloy.DensityGPerCM3), Unit: answer.Gram},
		},
		Assumptions: []string{from},
	}
	a.Lengths = pieceOfTube(c, tube, length, alloy)
	if count > 1 {
		gap := c.Number("spacing")
		a.Figures = append(a.Figures, answer.Figure{ID: "centres", Label: "row, centre to centre", Value: tube.OuterMM + gap, Unit: answer.MM, Main: true},
			answer.Figure{ID: "row_length", Label: "length of the row", Value: float64(count)*tube.OuterMM + float64(count-1)*gap, Unit: answer.MM})
	}
	a.Assumptions = append(a.Assumptions, "rim 10 % over the crown (bench thread)")
	if below < 0 {
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("pavilion %.2f mm (typical; measure yours)", tubeset.PavilionMM(stone)))
	}
	if left := tube.WallLeftMM(stone); left < 0.2 {
		a.Notes = append(a.Notes, fmt.Sprintf("%s mm of wall beside the stone tears easily when it is pushed over; anneal the tube first", words.MM(left)))
	}
	tubesetSteps(c, stone, tube, length, count, alloy).finish(a)
	return drawn(c, a, tubesetDrawing(c, stone, tube, length, length-tubeset.SeatDepthMM(stone)-c.Number("room"), count, alloy)), nil
}

// underGirdle is how far a stone of a measured depth reaches under its girdle; -1
// where no depth was given.
func underGirdle(c *catalogue.Call, stone float64) (float64, error) {
	if !c.Args.Has("depth") {
		return -1, nil
	}
	// The crown over the girdle is about a quarter of a brilliant's depth.
	below := c.Number("depth") - 0.162*stone - 0.03*stone
	if below <= 0 {
		return 0, answer.Refuse(c.Retyped(map[string]string{"depth": words.MM(0.62 * stone)}), "a stone of %s mm is not %s mm deep; a round is about 62 %% as deep as wide", words.MM(stone), words.MM(c.Number("depth")))
	}
	return below, nil
}

// pieceOfTube is the piece of tube that one setting is cut from.
func pieceOfTube(c *catalogue.Call, tube tubeset.Tube, length float64, alloy stock.Alloy) []answer.Length {
	piece := tubePiece("tube setting", tube.OuterMM, tube.WallMM, length, alloy)
	piece.KerfMM = c.Number("kerf")
	piece.JointMM = math.Pi * (tube.OuterMM - tube.WallMM)
	piece.JointMM2 = piece.SectionMM2
	return []answer.Length{piece}
}

// tubePiece is a piece of tube of this outer diameter, wall and length, cut with
// the usual blade, with what squaring its ends takes and no joint.
func tubePiece(name string, outerMM, wallMM, lengthMM float64, alloy stock.Alloy) answer.Length {
	section := math.Pi * (outerMM - wallMM) * wallMM
	return answer.Length{
		Name: name, Stock: fmt.Sprintf("tube, %s mm outside, %s mm wall", words.MM(outerMM), words.MM(wallMM)),
		EachMM: lengthMM, AllowanceMM: filedMM, KerfMM: usualSawCutMM, SectionMM2: section,
		MassG: stock.MassG(section*lengthMM, alloy.DensityGPerCM3), SawMM: outerMM,
	}
}

// lengthsOf is "2.61 mm" or "7 pieces of 2.61 mm".
func lengthsOf(c *catalogue.Call, count int, mm float64) string {
	if count == 1 {
		return words.Length(c, mm)
	}
	return fmt.Sprintf("%d pieces, %s each,", count, words.Length(c, mm))
}

// tubeFor is the tube of a call, or the workshop's that comes nearest to the
// rule, or else a tube to buy; from says which.
func tubeFor(c *catalogue.Call, alloy stock.Alloy, stone float64) (tube tubeset.Tube, from string, err error) {
	buy := tubeset.For(stone, tubeset.UsualWallMM(stone))
	refuse := func(err error) error {
		return answer.Refuse(c.Retyped(map[string]string{"tube": "", "tubesize": words.MM(buy.OuterMM) + "x" + words.MM(buy.WallMM)}), "%s", err)
	}
	if key := c.Word("tube"); key != "" {
		t, _ := tubeNamed(c.Shop, key)
		tube = tubeset.Tube{OuterMM: t.OuterMM, WallMM: t.WallMM}
		if t.Alloy != alloy.Key {
			return tube, "", answer.Refuse(c.Retyped(map[string]string{"alloy": t.Alloy}), "%s is %s and not %s", key, t.Alloy, alloy.Key)
		}
		if err := tube.Serves(stone); err != nil {
			return tube, "", refuse(err)
		}
		return tube, key + " of the workshop", nil
	}
	if n := c.Value("tubesize").Numbers; len(n) > 0 {
		if len(n) != 2 {
			return tube, "", refuse(fmt.Errorf("a tube's size is its outside x its wall, two numbers in mm"))
		}
		tube = tubeset.Tube{OuterMM: n[0], WallMM: n[1]}
		if err := tube.Serves(stone); err != nil {
			return tube, "", refuse(err)
		}
		return tube, fmt.Sprintf("the stone covers %.0f %% of the wall; half is the rule", 100*tube.Covered(stone)), nil
	}
	best := math.Inf(1)
	for _, t := range shopOf(c.Shop).Tubes {
		mine := tubeset.Tube{OuterMM: t.OuterMM, WallMM: t.WallMM}
		off := math.Abs(mine.Covered(stone) - 0.5)
		// A wall far thicker than usual is hard to push over.
		if t.Alloy != alloy.Key || mine.Serves(stone) != nil || off >= best || off > 0.1 || t.WallMM > 1.3*buy.WallMM {
			continue
		}
		best, tube, from = off, mine, shopKey(t.Name)+" of the workshop"
	}
	if from != "" {
		if shopOf(c.Shop).Demo {
			from += " (invented, demo workshop)"
		}
		return tube, from, nil
	}
	return buy, fmt.Sprintf("wall %s mm (common practice, no source)", words.MM(buy.WallMM)), nil
}

func tubesetSteps(c *catalogue.Call, stone float64, tube tubeset.Tube, length float64, count int, alloy stock.Alloy) *making {
	m := makingOf(c, alloy)
	m.add("from above the stone covers half of the wall: outside = stone + wall, inside = stone - wall; here %.2f and %.2f mm, and it covers %.0f %%", tube.OuterMM, tube.InnerMM(), 100*tube.Covered(stone))
	if !c.Args.Has("tubesize") {
		m.add("where your tube has another size, ask again with it: tubesize %.2gx%.2g, outside x wall", tube.OuterMM, tube.WallMM)
	}
	m.add("length = %.2f mm seat + %.2f mm under the girdle and its room = %.2f mm", tubeset.SeatDepthMM(stone), length-tubeset.SeatDepthMM(stone), length)
	m.do(treatment.AnnealJobs(alloy), "%s, so that the rim can be pushed over", treatment.Anneal(alloy))
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "saw %s in a tube jig or over a scribed line, %.2f mm longer than the finished tube, and file both ends square", words.Counted(count, "piece", "pieces"), filedMM)
	m.do(treatment.JoinJobs(alloy), "place each tube on its base, upright, and %s: all soldering is done before any stone is set", treatment.Join(alloy, "medium"))
	m.do([]cautions.Job{cautions.Drill}, "hold the piece fast and cut the seat with a setting bur of %.2f mm, the stone's own diameter, straight down until the girdle's lower edge lies %.2f mm under the rim; a bur a little smaller and a light turn more is the other school", stone, tubeset.SeatDepthMM(stone))
	m.add("the stone must drop in level and not rock; its table shows a little over the rim")
	m.do([]cautions.Job{cautions.Setting}, "push the rim over at four opposite places, then between them, and burnish it round")
	return m
}
