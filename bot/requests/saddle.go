package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/ring"
	"guildhand/calc/saddle"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Walls that a saddle is cut into.
const (
	colletWall = "collet"
	bezelWall  = "bezel"
	tubeWall   = "tube"
)

// How the stone's length lies.
const (
	alongFinger = "along-finger"
	alongBand   = "along-band"
)

func saddleRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "saddle",
		Implied: []string{"saddles"},
		Summary: "the base of a setting cut to sit on a ring's shank: its curve on the flat blank",
		Detail: "A collet of any outline and taper, a plain bezel (bezel ... height 4) or a tube (tubesize 5x0.5 height 6) is hollowed " +
			"to the top of the shank. The height is measured from the rim to the shank's highest line, so the blank needs more: " +
			"the answer says how much, and the template has the curve. Past a narrow shank's edges the cut runs on and touches nothing.",
		Options: saddleOptions(),
		Retired: retiredBearing(),
		Examples: []catalogue.Example{
			{Line: "saddle oval 8x6 depth 4 sterling 22ga shank us 7 1.5mm", Summary: "an oval collet on a flat shank"},
			{Line: "saddle round 6 depth 3.7 18k-yellow 0.7mm shank uk N 1.8mm halfround wide 3", Summary: "on a half-round shank"},
			{Line: "saddle bezel oval 10x8 height 4 26ga shank us 7 1.5mm direction along-band", Summary: "a plain bezel, its length along the band"},
			{Line: "saddle tubesize 5x0.5 height 6 shank iso 54 2mm round-wire", Summary: "a tube on a shank of round wire"},
		},
		Answer: answerSaddle,
	}
}

func saddleOptions() []catalogue.Option {
	options := slices.Concat(underSettingOptions(), []catalogue.Option{
		{
			Name:    "setting",
			Summary: "the wall that is cut: collet, bezel or tube",
			Kind:    catalogue.Word, Bare: true, Default: colletWall,
			Choices: []catalogue.Choice{
				{Key: colletWall, Aliases: []string{"tapered"}, Summary: "a tapered setting for a faceted stone"},
				{Key: bezelWall, Aliases: []string{"bezels", "straight"}, Summary: "a straight wall round a cabochon; give its height"},
				{Key: tubeWall, Summary: "a piece of tube; give tubesize and height"},
			},
		},
		{
			Name:    "tubesize",
			Summary: "the tube that is cut, outside x wall, mm: 5x0.5",
			Kind:    catalogue.Size, Min: 0.1, Max: 30, Suggest: []string{"5x0.5", "4.5x0.5", "6x0.6"},
			Excludes: []string{"size", "points", "carat", "thickness", "workshop-tube"},
		},
		workshopTube(),
		{
			Name: "direction", Aliases: []string{"lies"},
			Summary: "which way the stone's length lies: along the finger, or along the band",
			Kind:    catalogue.Word, Bare: true, Default: alongFinger, DefaultNote: option.Practice,
			Choices: []catalogue.Choice{
				{Key: alongFinger, Aliases: []string{"north-south", "lengthwise"}, Summary: "the usual way, across the band"},
				{Key: alongBand, Aliases: []string{"east-west", "sideways", "crosswise"}, Summary: "the stone lies across the finger"},
			},
		},
	})
	for _, o := range colletOptions() {
		switch o.Name {
		case "precone":
			continue
		case "outline", "size":
			o.Unless = append(o.Unless, "tubesize", "workshop-tube")
			always := o.NotRequired
			o.NotRequired = func(args catalogue.Args) bool {
				return args.Word("setting") == tubeWall || always != nil && always(args)
			}
		case "height":
			o.Summary = "from the rim down to the shank's highest line, mm; else depth plus allowance"
		}
		options = append(options, o)
	}
	return options
}

// underSettingOptions are the shank that the setting sits on.
func underSettingOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "shank", Aliases: []string{"ring", "on-ring", "ring-size"},
			Summary: "the ring's size in its system, then its thickness: us 7 1.5mm",
			Kind:    catalogue.RingSize, Choices: ringChoices(),
			Required: true, Prompt: "which ring does it sit on, in which system: us 7, uk N, iso 54, diameter 17.3?",
			Suggest: []string{"us 7", "uk N", "iso 54"}, Then: "shankthick",
		},
		{
			Name: "shankthick", Aliases: []string{"shank-thickness"},
			Summary: "thickness of the shank at its highest line: 1.5 mm, 14ga",
			Kind:    catalogue.Thickness, Min: 0.3, Max: 8,
			Default: "1.5mm", DefaultNote: option.Practice, Suggest: []string{"1.5mm", "1.2mm", "1.8mm", "2mm"},
		},
		{
			Name: "shank-width", Aliases: []string{"shankwide", "width", "wide", "shankwidth"},
			Summary: "width of the shank under the setting, mm",
			Kind:    catalogue.Length, Min: 0.8, Max: 30,
			Default: "4", DefaultNote: option.Practice, Suggest: []string{"4", "3", "2", "5", "6"},
		},
		shankTop(),
	}
}

// workshopTube is a tube of the workshop in place of a size.
func workshopTube() catalogue.Option {
	o := tubeOption()
	o.Name = "workshop-tube" // "tube" alone is a kind of wall
	o.Summary = "a tube of the workshop that is cut, by its name"
	o.Excludes = []string{"size", "points", "carat", "thickness"}
	return o
}

// shankTop is the section of the shank. Its words leave those of stones alone:
// "round" and "oval" are outlines here.
func shankTop() catalogue.Option {
	o := profileOption()
	o.Name, o.Aliases = "top", []string{"profile", "section"}
	o.Summary = "section of the shank, which makes its top: flat, half-round, court, round-wire, square-wire"
	o.DefaultNote = option.Practice
	for i := range o.Choices {
		choice := &o.Choices[i]
		switch ring.Profile(choice.Key) {
		case ring.Court:
			choice.Aliases = []string{"comfort", "comfort-fit"}
		case ring.RoundWire, ring.SquareWire:
			choice.Key, choice.Aliases = choice.Key+"-wire", nil
		}
	}
	return o
}

// saddled is a setting cut to its shank, with all that the answer says.
type saddled struct {
	saddle.Saddle
	laid      setting.Collet
	collet    *colletUsed // of a collet alone
	wall      string
	tubeMM    [2]float64 // outside and wall, of a tube
	stone     stoneUsed
	alloy     stock.Alloy
	ringName  string
	alongBand bool
	heightMM  float64
	// assumptions and notes beyond the collet's.
	assumptions, notes []string
}

// shankOf reads the shank of a call.
func shankOf(c *catalogue.Call) (s saddle.Shank, name string, err error) {
	system, text := sizeAndSystem(c.Word("shank"))
	if guess, ok := ring.Guess(text); ok && system == "" {
		system = guess
	}
	if system == "" {
		return s, "", answer.Refuse(c.Retyped(map[string]string{"shank": "us " + text}), "ring size %s alone is not clear: say its system, us, uk, iso, japan, continental or diameter", text)
	}
	circumference, err := system.Parse(text)
	if err != nil {
		return s, "", answer.Refuse(c.Retyped(map[string]string{"shank": string(system) + " " + ringSample[system]}), "%s", err)
	}
	s = saddle.Shank{InnerDiameterMM: circumference / math.Pi, ThicknessMM: c.Number("shankthick"), Profile: ring.Profile(strings.TrimSuffix(c.Word("top"), "-wire"))}
	s.WidthMM = s.ThicknessMM
	if !s.Profile.OneSize() {
		s.WidthMM = c.Number("shank-width")
	} else if c.Args.Typed("shank-width") && math.Abs(c.Number("shank-width")-s.ThicknessMM) > 1e-9 {
		return s, "", answer.Refuse(c.Retyped(map[string]string{"shank-width": ""}), "%s wire is as wide as it is thick, not %s mm wide and %s mm thick", s.Profile, words.MM(c.Number("shank-width")), words.MM(s.ThicknessMM))
	}
	return s, sizeName(system, text), nil
}

func saddleOf(ctx context.Context, c *catalogue.Call) (saddled, error) {
	u := saddled{wall: c.Word("setting"), alongBand: c.Word("direction") == alongBand}
	shank, name, err := shankOf(c)
	if err != nil {
		return u, err
	}
	u.ringName = name
	if len(c.Value("tubesize").Numbers) > 0 || c.Args.Has("workshop-tube") {
		u.wall = tubeWall
	}
	var spec setting.Spec
	switch u.wall {
	case tubeWall:
		spec, err = u.tube(c)
	case bezelWall:
		spec, err = u.bezel(ctx, c)
	default:
		spec, err = u.tapered(ctx, c)
	}
	if err != nil {
		return u, err
	}
	return u, u.cut(c, spec, shank)
}

// tapered is a collet that stands on the shank's highest line.
func (u *saddled) tapered(ctx context.Context, c *catalogue.Call) (setting.Spec, error) {
	collet, err := colletOf(ctx, c)
	if err != nil {
		return setting.Spec{}, err
	}
	u.collet, u.stone, u.alloy, u.heightMM = &collet, collet.stone, collet.alloy, collet.HeightMM
	u.assumptions, u.notes = collet.assumptions, collet.notes
	return collet.Spec, nil
}

// bezel is a straight wall as high as the call says.
func (u *saddled) bezel(ctx context.Context, c *catalogue.Call) (spec setting.Spec, err error) {
	if u.stone, err = stoneOf(c); err != nil {
		return spec, err
	}
	if u.alloy, err = option.AlloyOf(c, "alloy"); err != nil {
		return spec, err
	}
	if u.heightMM = c.Number("height"); u.heightMM == 0 {
		return spec, answer.Refuse(c.Retyped(map[string]string{"height": "4"}), "how high is the bezel, from its rim to the shank's highest line?")
	}
	spec = setting.Spec{Stone: u.stone.curve, ClearanceMM: c.Number("clearance"), HeightMM: u.heightMM, ThicknessMM: c.Number("thickness"), InsideRadiusMM: c.Number("radius")}
	if spec.Seam, err = seamOf(c, u.stone); err != nil {
		return spec, err
	}
	if c.Args.Word("corner") == "scored" {
		spec.Corners = development.Scored
	}
	n, said := neutralOf(ctx, c, u.alloy.Key, spec.ThicknessMM, bendsSharply(spec))
	spec.NeutralFactor, spec.CornerFactor, spec.KerfMM = n.factor, n.corner, n.kerfMM
	u.assumptions = append(append([]string(nil), u.stone.assumptions...), said...)
	return spec, nil
}

// tube is a piece of tube; its template wraps round the outside.
func (u *saddled) tube(c *catalogue.Call) (spec setting.Spec, err error) {
	n := c.Value("tubesize").Numbers
	if key := c.Word("workshop-tube"); key != "" {
		t, _ := tubeNamed(c.Shop, key)
		n = []float64{t.OuterMM, t.WallMM}
		if !c.Args.Typed("alloy") {
			c.Settle("alloy", catalogue.Value{Text: t.Alloy})
		} else if t.Alloy != c.Word("alloy") {
			return spec, answer.Refuse(c.Retyped(map[string]string{"alloy": t.Alloy}), "%s is %s and not %s", key, t.Alloy, c.Word("alloy"))
		}
		u.assumptions = append(u.assumptions, demoShop(c.Shop, t.Name)...)
	}
	if len(n) != 2 || n[0] <= 2*n[1] {
		return spec, answer.Refuse(c.Retyped(map[string]string{"tubesize": "5x0.5", "outline": "", "size": ""}), "which tube is it? its size is its outside x its wall, two numbers in mm")
	}
	u.tubeMM = [2]float64{n[0], n[1]}
	if word := c.Word("outline"); word != "" && word != string(outline.Round) {
		return spec, answer.Refuse(c.Retyped(map[string]string{"outline": ""}), "tube is round, not %s", words.Article(word))
	}
	if u.alloy, err = option.AlloyOf(c, "alloy"); err != nil {
		return spec, err
	}
	if u.heightMM = c.Number("height"); u.heightMM == 0 {
		return spec, answer.Refuse(c.Retyped(map[string]string{"height": "6"}), "how long is the tube, from its rim to the shank's highest line?")
	}
	bore, err := outline.New(outline.Shape{Kind: outline.Round, Size: outline.Size{WidthMM: n[0] - 2*n[1]}})
	if err != nil {
		return spec, answer.Refuse(c.Retyped(map[string]string{"tubesize": "5x0.5"}), "%s", err)
	}
	u.stone = stoneUsed{curve: bore, shape: outline.Shape{Kind: outline.Round}}
	return setting.Spec{Stone: bore, HeightMM: u.heightMM, ThicknessMM: n[1], NeutralFactor: 1, CornerFactor: 1}, nil
}

// cut lays the wall down past the shank and cuts its base.
func (u *saddled) cut(c *catalogue.Call, spec setting.Spec, shank saddle.Shank) error {
	plain, err := setting.Lay(spec)
	if err != nil {
		return refuseCollet(c, err)
	}
	if plain.Flat.Corners > 0 {
		c.Value("corner") // else nothing is bent or scored
	}
	spec.Patches, spec.CuletMM = true, 0
	if spec.Taper != setting.BaseGiven { // a base of its own fixes the wall's two ends
		low, high := plain.BaseOuter.Bounds()
		across, along := math.Max(high.X, -low.X), math.Max(high.Y, -low.Y)
		if u.alongBand {
			across, along = along, across
		}
		if r := shank.RadiusMM(along); across < r {
			spec.HeightMM += shank.CrestMM() - math.Sqrt(r*r-across*across) + spec.ThicknessMM
		}
	}
	if u.laid, err = setting.Lay(spec); err != nil {
		return refuseCollet(c, err)
	}
	wall := saddle.Wall{
		Flat: u.laid.Flat, RimMM: u.heightMM, TopMM: u.heightMM - spec.RimMM + u.laid.TopMM, AlongBand: u.alongBand, KerfMM: spec.KerfMM,
		InnerMM: spec.NeutralFactor * spec.ThicknessMM, OuterMM: (1 - spec.NeutralFactor) * spec.ThicknessMM,
		RimU: -u.laid.Blank.RimBeyondMM / u.laid.Blank.HeightMM,
	}
	if u.Saddle, err = saddle.On(wall, shank); err != nil {
		var misses *saddle.Error
		if !errors.As(err, &misses) {
			return err
		}
		changes := map[string]string{"shank": "diameter 17.3"}
		switch least := misses.LeastInnerMM; {
		case least > 0 && least <= 25:
			changes["shank"] = "diameter " + words.MM(math.Max(least, 11.5))
		case !u.alongBand:
			return answer.Refuse("saddle oval 8x6 depth 4 sterling 22ga shank us 7 1.5mm", "%s", misses.Problem)
		}
		if u.alongBand && changes["shank"] == "diameter 17.3" {
			changes["direction"] = alongFinger
		}
		return answer.Refuse(c.Retyped(changes), "%s", misses.Problem)
	}
	u.tell(c)
	return nil
}

// lies says which way a stone that is longer than wide lies, "" for another.
func (u *saddled) lies() string {
	size := u.stone.curve.Size()
	if size.LengthMM <= size.WidthMM*1.001 {
		return ""
	}
	if u.alongBand {
		return ", its length along the band"
	}
	return ", its length along the finger"
}

// tell says what was assumed of the shank and what rests on nothing.
func (u *saddled) tell(c *catalogue.Call) {
	if u.lies() == "" && !c.Args.Typed("direction") {
		c.Drop("direction") // a round has no length
	}
	if u.FreeShare > 0.005 {
		u.notes = append(u.notes, fmt.Sprintf("%.0f %% of the base hangs free past the %s shank: solder it where it touches, or use a wider shank",
			100*u.FreeShare, words.Length(c, u.Shank.WidthMM)))
	}
	if u.SteepestDegrees > 50 {
		u.notes = append(u.notes, fmt.Sprintf("the shank falls away by %.0f° under the base: the points of the saddle are thin, so file them last and don't let them bend", u.SteepestDegrees))
	}
}

func answerSaddle(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	u, err := saddleOf(ctx, c)
	if err != nil {
		return nil, err
	}
	d := saddleDrawing(c, u)
	width, height, area := blankBox(d)
	headline := fmt.Sprintf("Cut %s of %s for %s%s, on ring size %s.", words.Size(c, width, height), words.Metal(c, u.alloy), u.stone.aWords(c), u.lies(), u.ringName)
	if u.wall == tubeWall {
		n := u.tubeMM
		headline = fmt.Sprintf("Cut %s of %s tube, %s outside, %s wall, and saddle it to ring size %s.", words.Length(c, u.HighMM), u.alloy.Name, words.Length(c, n[0]), words.Length(c, n[1]), u.ringName)
	}
	a := &answer.Answer{
		Headline: headline,
		Figures: []answer.Figure{
			{ID: "height_low", Label: "lowest wall, rim to shank", Value: u.LowMM, Unit: answer.MM, Main: true},
			{ID: "height_high", Label: "highest wall", Value: u.HighMM, Unit: answer.MM, Main: u.wall != tubeWall},
			{ID: "cut_depth", Label: "depth of the saddle", Value: u.CutDepthMM, Unit: answer.MM, Main: true},
			{ID: "slant", Label: "blank, rim down to the lowest point", Value: u.SlantMM, Unit: answer.MM, Main: u.wall != tubeWall},
			{ID: "outside_diameter", Label: "rod to rub the saddle on", Value: 2 * u.Shank.CrestMM(), Unit: answer.MM, Main: true},
			{ID: "filing", Label: "left to file below the saddle line, at most", Value: u.FilingMM, Unit: answer.MM},
			{ID: "free_share", Label: "of the base past the shank's edges", Value: 100 * u.FreeShare, Unit: answer.Percent},
			{ID: "base_length", Label: "base, along the cut edge", Value: u.CutLengthMM, Unit: answer.MM},
			{ID: "rim_length", Label: "rim, along the edge", Value: u.laid.Flat.RimLengthMM, Unit: answer.MM},
			{ID: "height", Label: "rim to the shank's highest line", Value: u.heightMM, Unit: answer.MM},
			{ID: "blank_width", Label: "blank, width", Value: width, Unit: answer.MM},
			{ID: "blank_height", Label: "blank, height", Value: height, Unit: answer.MM},
			{ID: "thickness", Label: "thickness", Value: u.laid.ThicknessMM, Unit: answer.MM},
			{ID: "steepest", Label: "the shank falls away under the base by at most", Value: u.SteepestDegrees, Unit: answer.Degree},
			{ID: "blank_mass", Label: "mass of the blank", Value: stock.MassG(area*u.laid.ThicknessMM, u.alloy.DensityGPerCM3), Unit: answer.Gram},
		},
		Assumptions: u.assumptions, Notes: u.notes,
	}
	if u.wall == tubeWall {
		a.Lengths = []answer.Length{tubePiece("setting", u.tubeMM[0], u.tubeMM[1], u.HighMM, u.alloy)}
	}
	saddleSteps(c, u).finish(a)
	return drawn(c, a, d), nil
}

func saddleSteps(c *catalogue.Call, u saddled) *making {
	m := makingOf(c, u.alloy)
	m.add("Print the template at full size and measure its check bars before you cut; it shows the outside of the metal.")
	if u.wall == tubeWall {
		m.do([]cautions.Job{cautions.Saw, cautions.Files}, "Saw the tube %s long, file its rim square, and wrap the template round the outside: its two seam edges meet.", words.Length(c, u.HighMM+filedMM))
		m.do([]cautions.Job{cautions.Saw}, "Saw a little outside the curve, from both sides.")
	} else {
		m.do([]cautions.Job{cautions.Saw, cautions.Files}, "Glue it on and saw outside the lines. Scribe the saddle line; the base is cut up to %s below it, so that metal is left to file on both skins.", words.Length(c, u.FilingMM))
		if u.laid.Flat.Bevel > 0 {
			m.add("File a bevel of %.1f° on each seam end, measured across the sheet from its square-cut face, taking away the %s edge.", u.laid.Flat.BevelAcross.Degrees(), bevelSide(u.laid.Flat))
		}
		m.do(treatment.AnnealJobs(u.alloy), "%s.", words.Capital(treatment.Anneal(u.alloy)))
		fold := foldsOf(u.laid.Flat.Corners, u.stone.curve.Convex(), u.laid.Flat.BevelReflex)
		if u.laid.Flat.Corners > 0 && u.laid.Corners == development.Scored {
			m.do(treatment.JoinJobs(u.alloy), "Score %s to about two thirds of the thickness, fold on the skin that is left, and %s.", fold.scored(), treatment.FillScores(u.alloy))
		} else if u.laid.Flat.Corners > 0 {
			m.add("%s.", words.Capital(fold.bent()))
		} else {
			m.add("Bend it evenly, keeping each bend square to the rim; the marks show where the ends and sides of the stone lie.")
		}
		m.do(treatment.JoinJobs(u.alloy), "Close the seam %s without a gap and %s.", u.laid.Seam.Summary, treatment.Join(u.alloy, "hard"))
		m.do([]cautions.Job{cautions.Files}, "True the wall on a punch or mandrel and file the rim level. Leave the base alone until the rim is true.")
	}
	m.do([]cautions.Job{cautions.Files}, "%s", rubbing(c, u))
	m.add("Check: the wall is %s from rim to shank where it is lowest and %s where it is highest, and no light shows under it. The saddle is cut to the ring in hand: a worn or hammered shank is not round.", words.Length(c, u.LowMM), words.Length(c, u.HighMM))
	if u.collet != nil && u.collet.Solid.PavilionMM > 0 {
		room := u.heightMM - u.laid.RimMM - u.collet.Solid.PavilionMM + u.collet.Seat.RestMM
		m.add("The culet stays %s above the shank.", words.Length(c, room))
	}
	m.do(treatment.JoinJobs(u.alloy), "Bind the setting to the shank and %s: the seam of the setting was closed with a harder grade. All soldering is done before any stone is set", treatment.Join(u.alloy, "medium"))
	if u.collet != nil {
		seatSteps(c, m, *u.collet)
	} else {
		m.do([]cautions.Job{cautions.Setting}, "Set the stone last.")
	}
	m.add("How it is worked out: each straight line of the wall is cut where it meets the shank's top, a %s of %s outside diameter; the line is laid flat with the wall itself, so the template carries it exactly.", topWords(u.Shank.Profile), words.Length(c, 2*u.Shank.CrestMM()))
	return m
}

func topWords(p ring.Profile) string {
	switch p {
	case ring.Flat, ring.SquareWire:
		return "cylinder"
	}
	return "rounded ring (torus)"
}

// rubbing is how the base is brought to the shank.
func rubbing(c *catalogue.Call, u saddled) string {
	line := "Wrap abrasive paper round a rod that with it is " + words.Length(c, 2*u.Shank.CrestMM()) + " thick, and rub the base across it, square to the setting, down to the saddle line."
	if topWords(u.Shank.Profile) != "cylinder" {
		line += " Then fit it to the rounded top of the shank with a half-round file, trying it often."
	}
	return line
}

// leanWords is the wall's lean for a drawing, "" for a straight wall.
func leanWords(lean units.Angle) string {
	if lean == 0 {
		return ""
	}
	return fmt.Sprintf("lean %.4g°", lean.Degrees())
}

// shankWords describe the shank for a drawing.
func (u saddled) shankWords(c *catalogue.Call) string {
	parts := []string{u.ringName, words.Length(c, u.Shank.ThicknessMM) + " thick"}
	if !u.Shank.Profile.OneSize() {
		parts = append(parts, words.Length(c, u.Shank.WidthMM)+" wide")
	}
	return "shank " + strings.Join(append(parts, string(u.Shank.Profile)), ", ")
}
