package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/bezel"
	"guildhand/calc/development"
	"guildhand/calc/forming"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

func collarRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "collar",
		Summary: "the strip or tube for a collar that a block will taper, and the way through its holes",
		Detail: "Give the stone, the metal and its thickness, and name the block if you have one. The answer has the strip (or what each " +
			"tube would need), the holes in their order, where to anneal, wall and height after forming, and the press load as an order of " +
			"magnitude. Without a block it says what opening and thickness to look for.",
		Options: collarOptions(),
		Retired: retiredBearing(),
		Examples: []catalogue.Example{
			{Line: "collar pear 9x6 depth 4 sterling 20ga block demo-pear press 20t", Summary: "from sheet, in a pear block"},
			{Line: "collar oval 8x6 depth 4 sterling tube tube-9x1 block demo-oval", Summary: "from tube"},
			{Line: "collar emerald 8x6 depth 4.2 sterling 20ga block demo-emerald press 12t", Summary: "an emerald outline needs more anneals"},
			{Line: "collar oval 8x6 depth 4 18k-yellow 0.8mm", Summary: "which block to look for"},
			{Line: "collar round 7 sterling 0.8mm block demo-round-steep", Summary: "depth estimated, a steeper block"},
		},
		Answer: answerCollar,
	}
}

func collarOptions() []catalogue.Option {
	own := []catalogue.Option{
		blockOption(), tubeOption(), pressOption(),
		{
			Name: "filing", Aliases: []string{"joint"},
			Summary: "length added for truing the joint with a file, mm",
			Kind:    catalogue.Length, Min: 0, Max: 3, Default: "0.3", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0.2", "0.3", "0.5"},
		},
	}
	var options []catalogue.Option
	for _, o := range colletOptions() {
		switch o.Name {
		case "taper", "base", "basesize", "precone", "radius":
			continue // a block makes an even slope, and its corners
		case "thickness":
			o.Excludes = append(o.Excludes, "tube")
		case "lean":
			options = append(options, own...) // before what is seldom typed
		}
		options = append(options, o)
	}
	return options
}

// collarUsed is a computed collar with all that its answer says.
type collarUsed struct {
	colletUsed
	wall  *forming.Wall
	plan  *forming.Plan
	strip bezel.Bezel
	// stripMM and stripHeightMM are the strip to cut, with what is filed away
	// at the joint and lost to the saw; of a tube stripMM is 0.
	stripMM, stripHeightMM float64
	filing                 float64
	block                  stock.Block
	named                  bool // a block was named; else the plan is for an imagined one
	tube                   stock.Tube
	fit                    forming.TubeFit
	press                  stock.Press
	tubes                  []forming.TubeFit
	want                   forming.Wanted
}

// imaginedGapMM is how much wider, all round, the last hole of a block to be
// looked for may be, and imaginedStepMM the step between its holes. Common
// option.Practice, no source.
const (
	imaginedGapMM  = 0.15
	imaginedStepMM = 0.5
)

func answerCollar(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	u, err := collarOf(ctx, c)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Headline:    collarHeadline(c, u),
		Figures:     collarFigures(c, u),
		Notes:       append(u.notes, collarNotes(c, u)...),
		Assumptions: u.assumptions,
	}
	if u.tube.Name != "" {
		a.Lengths = []answer.Length{tubePiece("collar", u.tube.OuterMM, u.tube.WallMM, u.stripHeightMM, u.alloy)}
	}
	collarSteps(c, u).finish(a)
	return drawn(c, a, collarDrawing(c, u)), nil
}

// collarOf computes the collar of a call. A block that only stands on a bench
// gives way where it can't form this collar, and the answer says so.
func collarOf(ctx context.Context, c *catalogue.Call) (collarUsed, error) {
	u, err := collarIn(ctx, c)
	r, refused := answer.AsRefusal(err)
	if !refused || !c.Args.Has("block") || c.Args.Typed("block") {
		return u, err
	}
	note := fmt.Sprintf("block %s (%s) was not used: %s", c.Args.Word("block"), c.Args["block"].Note, r.Problem)
	c.Drop("block")
	if u, err = collarIn(ctx, c); err == nil {
		u.notes = append([]string{note}, u.notes...)
	}
	return u, err
}

func collarIn(ctx context.Context, c *catalogue.Call) (collarUsed, error) {
	var u collarUsed
	if !c.Args.Has("tube") {
		u.filing = c.Number("filing")
	}
	inner := c.With()
	if err := u.fromShop(c, inner); err != nil {
		return u, err
	}
	said := u.notes
	var err error
	if u.colletUsed, err = colletOf(ctx, inner); err != nil {
		return u, withoutShop(c, err)
	}
	u.notes = append(said, u.notes...)
	if err := u.matchBlock(c); err != nil {
		return u, err
	}
	collar := forming.Collar{
		Outline:     u.stone.curve,
		RimOffsetMM: u.FaceMM(u.RimMM),
		Lean:        u.Lean, HeightMM: u.HeightMM, WallMM: u.ThicknessMM,
	}
	// A wall without a corner is scored nowhere, whatever the bench says.
	if u.stone.curve.Smooth() {
		u.Corners = development.Bent
	} else if c.Word("corner") == "scored" {
		collar.Corners = forming.Mitred
	}
	u.tubes = forming.RankTubes(collar, u.alloy.Key, shopOf(c.Shop).Tubes)
	if u.tube.Name != "" {
		if err := u.fromTube(c, &collar); err != nil {
			return u, err
		}
	}
	if u.wall, err = forming.NewWall(collar); err != nil {
		return u, u.refuseWall(c, collar, err)
	}
	if err := u.planned(c); err != nil {
		return u, err
	}
	if err := u.laidOut(); err != nil {
		return u, answer.Refuse(c.Spec.Example(), "%s", err)
	}
	u.assume(c)
	return u, nil
}

// fromShop finds what was named of the workshop; a block brings its lean and a
// tube its wall.
func (u *collarUsed) fromShop(c, inner *catalogue.Call) error {
	if c.Args.Has("block") {
		if u.block, u.named = blockNamed(c.Shop, c.Word("block")); !u.named {
			return answer.Refuse(c.Retyped(map[string]string{"block": ""}), "there is no block %q in the workshop", c.Word("block"))
		}
		lean := u.block.Lean.Degrees()
		inner.Args["lean"] = catalogue.Value{Text: fmt.Sprintf("%.4g", lean), Number: lean}
		delete(inner.Args, "included")
	}
	return u.tubeAndPress(c, inner)
}

func (u *collarUsed) tubeAndPress(c, inner *catalogue.Call) error {
	if c.Args.Has("tube") {
		var ok bool
		if u.tube, ok = tubeNamed(c.Shop, c.Word("tube")); !ok {
			return answer.Refuse(c.Retyped(map[string]string{"tube": ""}), "there is no tube %q in the workshop", c.Word("tube"))
		}
		if alloy := c.Word("alloy"); alloy != u.tube.Alloy {
			if c.Args.Typed("alloy") {
				return answer.Refuse(c.Retyped(map[string]string{"alloy": u.tube.Alloy}), "%s is of %s, not of %s", u.tube.Name, u.tube.Alloy, alloy)
			}
			c.Settle("alloy", catalogue.Value{Text: u.tube.Alloy})
			inner.Args["alloy"] = c.Args["alloy"]
		}
		inner.Args["thickness"] = catalogue.Value{Text: words.MM(u.tube.WallMM) + "mm", Number: u.tube.WallMM}
	}
	if c.Args.Has("press") {
		var ok bool
		if u.press, ok = pressNamed(c.Shop, c.Word("press")); !ok {
			return answer.Refuse(c.Retyped(map[string]string{"press": ""}), "there is no press %q in the workshop", c.Word("press"))
		}
	}
	return nil
}

// withoutShop mends a line to try that would give a lean beside a block, or a
// thickness beside a tube.
func withoutShop(c *catalogue.Call, err error) error {
	r, ok := answer.AsRefusal(err)
	if !ok {
		return err
	}
	mended := *r
	if c.Args.Has("block") && strings.Contains(r.Try, " lean ") {
		mended.Problem += "; the block's own lean was taken"
		mended.Try = strings.Replace(mended.Try, " block "+c.Word("block"), "", 1)
	}
	if c.Args.Has("tube") && strings.Contains(r.Problem, "too thick") {
		mended.Problem += "; the tube's own wall was taken"
		mended.Try = strings.Replace(mended.Try, " tube "+c.Word("tube"), "", 1)
	}
	return &mended
}

// matchBlock refuses a block of another outline.
func (u *collarUsed) matchBlock(c *catalogue.Call) error {
	kind := u.stone.shape.Kind
	if !u.named || u.block.Kind == kind {
		return nil
	}
	other := ""
	for _, b := range shopOf(c.Shop).Blocks {
		if b.Kind == kind {
			other = shopKey(b.Name)
			break
		}
	}
	problem := fmt.Sprintf("block %s has %s holes, and the stone's outline is %s", u.block.Name, u.block.Kind, kind)
	if kind == outline.Measured {
		problem += ": no block is cut to measured points; take the nearest outline and its size"
	}
	return answer.Refuse(c.Retyped(map[string]string{"block": other}), "%s", problem)
}

// fromTube makes the collar from the tube that was named.
func (u *collarUsed) fromTube(c *catalogue.Call, collar *forming.Collar) error {
	u.fit = forming.FitTube(*collar, u.tube)
	if !u.fit.Serves {
		other := ""
		if len(u.tubes) > 0 && u.tubes[0].Serves {
			other = shopKey(u.tubes[0].Tube.Name)
		}
		return answer.Refuse(c.Retyped(map[string]string{"tube": other}), "%s does not serve: %s", u.tube.Name, u.fit.Why)
	}
	collar.WallMM = u.tube.WallMM
	collar.StockPerimeterMM = math.Pi * (u.tube.OuterMM - u.tube.WallMM)
	return nil
}

// refuseWall words a foot that closes because forming thickens it.
func (u *collarUsed) refuseWall(c *catalogue.Call, collar forming.Collar, err error) error {
	if !errors.Is(err, forming.ErrCloses) {
		return answer.Refuse(c.Spec.Example(), "%s", err)
	}
	lo, hi := 0.0, collar.HeightMM
	for range 20 {
		try := collar
		try.HeightMM = (lo + hi) / 2
		if _, err := forming.NewWall(try); err == nil {
			lo = try.HeightMM
		} else {
			hi = try.HeightMM
		}
	}
	changes := map[string]string{"block": "", "lean": "5", "included": ""}
	if h := math.Floor(lo*10) / 10; h >= u.RimMM+u.CuletMM && h >= 0.5 {
		changes = map[string]string{"height": words.MM(h), "allowance": ""}
	}
	return answer.Refuse(c.Retyped(changes), "the foot closes: forming thickens the wall on its way in, and at a lean of %.4g° it stays open to a height of %.1f mm", u.Lean.Degrees(), lo)
}

// planned takes the collar through the block, or through an imagined one.
func (u *collarUsed) planned(c *catalogue.Call) error {
	if u.Lean <= 0 {
		return answer.Refuse(c.Retyped(map[string]string{"lean": "8.5", "included": ""}), "a wall without lean needs no block: the lean must be more than 0°")
	}
	rim, err := u.wall.OuterRim()
	if err != nil {
		return err
	}
	if u.want, err = u.wall.Want(imaginedGapMM); err != nil {
		return err
	}
	die := forming.Die{ThicknessMM: u.want.ThicknessMM}
	if !u.named {
		n := int(u.HeightMM*u.Lean.Tan()*2/imaginedStepMM) + 2
		die.Holes = forming.EvenHoles(rim, imaginedStepMM, n)
	} else {
		die.ThicknessMM = u.block.ThicknessMM
		if die.Holes, err = forming.Holes(u.block, rim); err != nil {
			return fmt.Errorf("block %s: %w", u.block.Name, err)
		}
	}
	u.plan, err = forming.NewPlan(u.wall, die, u.alloy)
	size := rim.Size()
	switch {
	case errors.Is(err, forming.ErrNoHole):
		return answer.Refuse(c.Retyped(map[string]string{"block": ""}), "no hole of block %s takes the stone and its metal, %s: its largest is %s",
			u.block.Name, holeSize(c, size), holeWords(c, die.Holes))
	case errors.Is(err, forming.ErrThrough):
		return answer.Refuse(c.Retyped(map[string]string{"block": ""}), "the collar, %s outside, falls through every hole of block %s, which is %s thick",
			holeSize(c, size), u.block.Name, words.Length(c, u.block.ThicknessMM))
	}
	return err
}

func holeWords(c *catalogue.Call, holes []forming.Hole) string {
	if len(holes) == 0 {
		return "none"
	}
	return holeSize(c, holes[0].Size)
}

// laidOut draws the strip: the finished rim's wall, measured level, straight.
func (u *collarUsed) laidOut() error {
	u.stripHeightMM = u.wall.StripHeightMM
	if u.tube.Name != "" {
		return nil
	}
	u.stripHeightMM += u.KerfMM
	var err error
	u.strip, err = stripOf(u.Spec, u.Seam)
	u.stripMM = u.strip.LengthMM + u.KerfMM + u.filing
	return err
}

func (u *collarUsed) assume(c *catalogue.Call) {
	if u.named {
		u.assumptions = append(u.assumptions, fmt.Sprintf("lean %.4g° (the block's)", u.block.Lean.Degrees()))
	}
	u.assumptions = append(u.assumptions,
		fmt.Sprintf("strain limit %.2f between anneals (house rule)", u.alloy.StrainLimit),
		fmt.Sprintf("friction %.2g oiled (common practice, no source)", forming.Friction))
	if !u.named {
		u.assumptions = append(u.assumptions, fmt.Sprintf("holes %.2g mm apart, the last up to %.2g mm wider all round (common practice, no source)", imaginedStepMM, imaginedGapMM))
	}
	u.assumptions = append(u.assumptions, demoShop(c.Shop, u.block.Name, u.tube.Name, u.press.Name)...)
}

func collarNotes(c *catalogue.Call, u collarUsed) []string {
	var notes []string
	if u.plan.StraightMM > 0.05 {
		notes = append(notes, fmt.Sprintf("the block is too thin to taper all: %s at the rim stays straight, the collar is %s high; %s of block would do",
			words.Length(c, u.plan.StraightMM), words.Length(c, u.plan.HeightMM), words.Length(c, u.HeightMM+math.Max(0, u.plan.Last.GapMM)/u.Lean.Tan())))
	}
	if told := twoWallsWords(c, u); told != "" {
		notes = append(notes, told)
	}
	if gap := u.plan.Last.GapMM; u.named && gap > 0.02 && u.LedgeMM > 0 {
		notes = append(notes, fmt.Sprintf("left flush with the block's face the ledge is %s smaller: drive the rim %s below it",
			words.Length(c, min(gap, u.RimMM*u.Lean.Tan())), words.Length(c, gap/u.Lean.Tan())))
	}
	if u.plan.Last.UnevenMM > 0.2 {
		notes = append(notes, fmt.Sprintf("in places the last hole is up to %s wider, and so is the collar", words.Length(c, u.plan.Last.UnevenMM)))
	}
	if u.plan.Crinkle >= forming.Possible {
		word := "may"
		if u.plan.Crinkle == forming.Likely {
			word = "will likely"
		}
		notes = append(notes, fmt.Sprintf("the flats %s crinkle: punch inside each hole, or a thicker wall", word))
	}
	if u.press.CapacityN > 0 && u.plan.MaxLoadN*forming.SpreadFactor > u.press.CapacityN {
		notes = append(notes, fmt.Sprintf("the load may near the rated %.0f kN of press %s: do not go there, anneal more often", u.press.CapacityN/1000, u.press.Name))
	}
	if worst := u.collapse(); worst > 0.8 {
		notes = append(notes, "the straight wall may give way before the foot closes: smaller steps, more anneals")
	}
	return notes
}

func (u *collarUsed) collapse() float64 {
	worst := 0.0
	for _, p := range u.plan.Passes {
		worst = math.Max(worst, p.CollapseShare)
	}
	return worst
}
