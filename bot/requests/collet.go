package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Defaults of a collet. Common option.Practice, no source, unless said otherwise.
const (
	// tightBend is the neutral factor of bends with an inside radius under
	// twice the thickness: 0.55 T + 1.57 R for soft brass and soft copper is
	// 0.350 as a factor (Machinery's Handbook, 31st ed., bend allowances).
	tightBend = 0.35
	// leastSheetGauge is the thinnest sheet for a collet, B&S.
	leastSheetGauge = 22
)

func colletRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "collet",
		Usual:   true,
		Summary: "the flat blank of a tapered setting for a faceted stone, from sheet",
		Detail: "Give the stone's outline, size and depth, the metal and its thickness. The blank is exact for every outline: " +
			"cut it, bend it at the fold lines, solder the seam. A 1:1 template comes as PDF; measure its check bar before you cut.",
		Options: colletOptions(),
		Retired: retiredBearing(),
		Examples: []catalogue.Example{
			{Line: "collet oval 8x6 depth 4 sterling 22ga", Summary: "an oval in sterling"},
			{Line: "collet pear 9x7 20ga sterling", Summary: "depth estimated, seam at the point"},
			{Line: "collet emerald 8x6 depth 4.2 sterling 0.8mm corner scored", Summary: "folded at scored corners"},
			{Line: "collet round 6 height 4.5 18k-yellow 0.7mm lean 10", Summary: "a height of your own"},
			{Line: "collet square 5 depth 3.2 sterling 20ga taper base base round", Summary: "a square rim on a round base"},
			{Line: "collet measured points 0,4.2 1.6,3.6 2.7,2.1 3.1,0 2.7,-2.1 1.6,-3.6 0,-4.2 -1.6,-3.6 -2.7,-2.1 -3.1,0 -2.7,2.1 -1.6,3.6 depth 4 sterling 22ga", Summary: "from your own caliper points"},
		},
		Answer: answerCollet,
	}
}

// colletOptions are a collet's options; requests about collets take them too.
func colletOptions() []catalogue.Option {
	options := append(option.Stone(), option.Depth())
	for i := range options {
		if options[i].Name == "size" {
			options[i].Unless = append(options[i].Unless, "carat")
		}
	}
	options = append(options, option.Alloy(), option.Thickness())
	options = append(options, option.Lean()...)
	options = slices.Concat(options, []catalogue.Option{
		{
			Name:    "height",
			Summary: "height of the wall from rim to base, mm; else depth plus allowance",
			Kind:    catalogue.Length, Min: 0.5, Max: 90, Suggest: []string{"4", "5", "6"},
			Excludes: []string{"allowance"},
		},
		{
			Name:    "allowance",
			Summary: "height beyond the stone's depth, mm (1.5 to 2 is usual)",
			Kind:    catalogue.Length, Min: 0, Max: 20, Default: "1.75", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"1.5", "1.75", "2"},
		},
	}, stonePlaceOptions(), baseOptions(), []catalogue.Option{
		{
			Name: "corner", Aliases: []string{"corners"},
			Summary: "bent: bent to an inside radius; scored: scored and folded on the outer skin",
			Kind:    catalogue.Word, Default: "bent", Bench: true,
			Choices: []catalogue.Choice{
				{Key: "bent", Summary: "bent, sharp inside or to the radius given"},
				{Key: "scored", Aliases: []string{"folded", "score"}, Summary: "scored inside and folded on the outer skin"},
			},
		},
		{
			Name: "radius", Aliases: []string{"inside-radius"},
			Summary: "inside radius of bent corners, mm; 0 is sharp",
			Kind:    catalogue.Length, Min: 0, Max: 5, Default: "0", Suggest: []string{"0", "0.3", "0.5"},
		},
		seamOption(),
		option.Neutral(),
		{
			Name: "precone", Aliases: []string{"pre-cone"},
			Summary: "draw the round pre-cone instead, to be closed round and squeezed to shape",
			Kind:    catalogue.Flag,
		},
		option.Paper(),
		option.Units(),
	})
	options = append(append(options, stoneExtras()...), option.Kerf())
	return append(append(options, proportionOptions()...), supportOptions()...)
}

// stonePlaceOptions are how the stone lies in the wall.
func stonePlaceOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name:    "rim",
			Summary: "rim above the girdle's lower edge, mm; else from the girdle and the crown",
			Kind:    catalogue.Length, Min: 0, Max: 10, Bench: true,
			Suggest: []string{"0.7", "1", "1.2"},
		},
		{
			Name: "clearance", Aliases: []string{"play"},
			Summary: "play between the stone and the side of its bearing, mm",
			Kind:    catalogue.Length, Min: 0, Max: 1, Default: "0.05", DefaultNote: option.Practice, Bench: true,
			Suggest: []string{"0", "0.05", "0.1"},
		},
		{
			Name:    "ledge",
			Summary: "how far the wall stands under the stone's edge, mm; 0 is a wall the stone drops into",
			Kind:    catalogue.Length, Min: 0, Max: 3, Bench: true,
			Suggest: []string{"0.2", "0.3", "0"},
		},
	}
}

// baseOptions are how the wall goes from the rim to the base.
func baseOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name:    "taper",
			Summary: "even: same lean all round; apex: a general cone; base: base of its own outline",
			Kind:    catalogue.Word, Default: "even",
			Choices: []catalogue.Choice{
				{Key: "even", Aliases: []string{"even-slope"}, Summary: "the same lean everywhere, as a block with one angle makes"},
				{Key: "apex", Aliases: []string{"cone"}, Summary: "sections similar to the rim, a general cone"},
				{Key: "base", Aliases: []string{"base-given"}, Summary: "rim and base are two outlines"},
			},
		},
		{
			Name:    "base",
			Summary: "outline of the base's opening, for a base of its own",
			Kind:    catalogue.Word, Choices: option.Outlines(),
		},
		{
			Name:    "basesize",
			Summary: "size of the base's opening in mm; else it follows from the lean",
			Kind:    catalogue.Size, Min: 0.5, Max: option.MaxSideMM, Suggest: []string{"3", "4x3"},
		},
	}
}

// colletUsed is a computed collet with all that its answer says.
type colletUsed struct {
	setting.Collet
	stone stoneUsed
	alloy stock.Alloy
	// alsoWarned are warnings of the seat that a first screen has no room for.
	alsoWarned []string
	// tip is the angle of the stone's point at the seam where it was measured, 0
	// elsewhere.
	tip units.Angle
	// tried is set where the factor comes from trials or from the maker.
	tried bool
	// soldered is what is soldered in.
	soldered support
	// flat is the blank to cut: the collet's own, or the round pre-cone.
	flat        development.Flat
	preCone     bool
	assumptions []string
	notes       []string
}

// colletOf computes the collet of a call. The error is a refusal where the
// maker can mend it.
func colletOf(ctx context.Context, c *catalogue.Call) (colletUsed, error) {
	var used colletUsed
	var err error
	if used.stone, err = stoneOf(c); err != nil {
		return used, err
	}
	if used.alloy, err = option.AlloyOf(c, "alloy"); err != nil {
		return used, err
	}
	spec := setting.Spec{
		Stone:          used.stone.curve,
		ClearanceMM:    c.Number("clearance"),
		Taper:          setting.Taper(c.Word("taper")),
		ThicknessMM:    c.Number("thickness"),
		InsideRadiusMM: c.Number("radius"),
	}
	if !c.Args.Has("basesize") { // else the lean follows from the base
		spec.Lean = option.Leaning(c)
	}
	if spec.Seam, err = seamOf(c, used.stone); err != nil {
		return used, err
	}
	used.seat(c, &spec)
	used.heights(c, &spec)
	if err := used.ledge(c, &spec); err != nil {
		return used, err
	}
	if err := used.base(c, &spec); err != nil {
		return used, err
	}
	if c.Args.Word("corner") == "scored" {
		spec.Corners = development.Scored
	}
	n, said := neutralOf(ctx, c, used.alloy.Key, spec.ThicknessMM, bendsSharply(spec))
	spec.NeutralFactor, spec.CornerFactor, spec.KerfMM = n.factor, n.corner, n.kerfMM
	used.tried = c.Args.Has("neutral")
	used.assumptions = append(used.assumptions, said...)
	if used.Collet, err = setting.Lay(spec); err != nil {
		return used, refuseCollet(c, err)
	}
	if used.Flat.Corners > 0 {
		c.Value("corner") // else nothing is bent or scored
	}
	used.point(c)
	if err := used.support(c); err != nil {
		return used, err
	}
	used.flat = used.Flat
	if c.Args.Has("precone") {
		if used.flat, err = used.PreCone(); err != nil {
			return used, answer.Refuse(c.Retyped(map[string]string{"precone": ""}), "%s", err)
		}
		used.preCone = true
	}
	used.say(c)
	return used, nil
}

// heights settles the wall's height and the culet.
func (u *colletUsed) heights(c *catalogue.Call, spec *setting.Spec) {
	spec.CuletMM = spec.Solid.PavilionMM
	if mm := c.Number("height"); mm > 0 {
		spec.HeightMM = mm
		if u.stone.depthEstimated {
			// Nothing was measured: no check can be made against it.
			spec.CuletMM = 0
		}
		return
	}
	spec.HeightMM = u.stone.depthMM + c.Number("allowance")
	if u.stone.depthEstimated {
		u.assumptions = append(u.assumptions, u.stone.depthAssumption())
	}
}

// base settles the opening of a base with an outline of its own.
func (u *colletUsed) base(c *catalogue.Call, spec *setting.Spec) error {
	word := c.Word("base")
	switch {
	case word == "" && spec.Taper == setting.BaseGiven:
		return answer.Refuse(c.Retyped(map[string]string{"base": "round"}), "which outline should the base have?")
	case word == "" && c.Args.Has("basesize"):
		return answer.Refuse(c.Retyped(map[string]string{"taper": "base", "base": "round"}), "a base size needs the base's outline")
	case word == "":
		return nil
	case c.Args.Typed("taper") && spec.Taper != setting.BaseGiven:
		return answer.Refuse(c.Retyped(map[string]string{"taper": "base"}), "a base of its own outline goes with the taper \"base\", not %q", string(spec.Taper))
	}
	spec.Taper = setting.BaseGiven
	shape := outline.Shape{Kind: outline.Kind(word)}
	var size stoneSize = c.Value("basesize").Numbers
	own := size.put(&shape.Size)
	if !own {
		size := u.stone.curve.Size()
		shape.Size = outline.Size{LengthMM: size.LengthMM, WidthMM: size.WidthMM}
		if shape.Kind.Describe().Regular {
			shape.Size.LengthMM = 0
		}
		if shape.Kind == u.stone.shape.Kind {
			shape = u.stone.shape
		}
	}
	if shape.Kind == outline.Measured && !(u.stone.shape.Kind == outline.Measured && !own) {
		return answer.Refuse(c.Retyped(map[string]string{"base": "round"}), "a base can't be measured points of its own; take round, oval, square or another outline")
	}
	curve, err := outline.New(shape)
	if err != nil {
		return answer.Refuse(c.Retyped(map[string]string{"base": "round", "basesize": ""}), "the base: %s", err)
	}
	spec.BaseFollows = !own
	spec.Base = curve
	return nil
}

// stoneSize are the one to three numbers of a size.
type stoneSize []float64

// put fills an outline's size; it reports whether there was one.
func (n stoneSize) put(s *outline.Size) bool {
	switch len(n) {
	case 1:
		s.WidthMM = n[0]
	case 2:
		s.LengthMM, s.WidthMM = n[0], n[1]
	case 3:
		s.LengthMM, s.WidthMM, s.ThirdMM = n[0], n[1], n[2]
	}
	return len(n) > 0
}

// refuseCollet words what the computation refused, with a line that works.
func refuseCollet(c *catalogue.Call, err error) error {
	var limit *setting.LimitError
	if errors.As(err, &limit) {
		changes := map[string]string{}
		switch {
		case limit.Radius:
			changes["radius"] = words.MM(limit.MaxRadiusMM)
		case limit.MinHeightMM > 0:
			changes["height"], changes["allowance"] = words.MM(limit.MinHeightMM), ""
		case limit.MaxLean > 0 && c.Spec.Name == "collar":
			// Forming thickens the foot on its way in, which takes more room.
			changes["lean"], changes["included"] = strconv.FormatFloat(math.Floor(limit.MaxLean.Degrees()*8)/10, 'f', -1, 64), ""
		case limit.MaxLean > 0:
			changes["lean"], changes["included"] = strconv.FormatFloat(math.Floor(limit.MaxLean.Degrees()*10+1e-9)/10, 'f', -1, 64), ""
		case limit.MaxThicknessMM >= option.MinThicknessMM:
			changes["thickness"] = words.MM(limit.MaxThicknessMM) + "mm"
		case c.Args.Has("basesize"):
			changes["basesize"] = "" // the size that follows from the lean
		default:
			return answer.Refuse(c.Spec.Example(), "%s", limit.Problem)
		}
		return answer.Refuse(c.Retyped(changes), "%s", limit.Problem)
	}
	var dev *development.Error
	if errors.As(err, &dev) {
		if c.Args.Typed("base") && !c.Args.Typed("corner") && !c.Args.Typed("radius") {
			return answer.Refuse(c.Retyped(map[string]string{"base": "", "basesize": "", "taper": ""}), "%s", dev.Problem)
		}
		return answer.Refuse(c.Retyped(map[string]string{"corner": "scored", "radius": "", "seam": ""}), "%s", dev.Problem)
	}
	if e, ok := asOutlineError(err); ok {
		return answer.Refuse(c.Spec.Example(), "%s", e.Problem)
	}
	return err
}

// say collects assumptions and notes.
func (u *colletUsed) say(c *catalogue.Call) {
	u.assumptions = append(slices.Clone(u.stone.assumptions), u.assumptions...)
	u.notes = append(u.notes, u.stone.said(c)...)
	u.saySeat(c)
	if u.Flat.Corners > 0 && !u.preCone && c.Args["corner"].Source == catalogue.FromDefault {
		u.assumptions = append(u.assumptions, "corners bent, sharp inside (default)")
	}
	if u.BaseFollows {
		size := u.Base.Size()
		u.assumptions = append(u.assumptions, fmt.Sprintf("base opening %s, from the mean lean", words.Size(c, size.LengthMM, size.WidthMM)))
	}
	if u.Taper == setting.ApexCone {
		u.assumptions = append(u.assumptions, fmt.Sprintf("lean %.1f° to %.1f° round the outline, the mean as given", u.Flat.MinLean.Degrees(), u.Flat.MaxLean.Degrees()))
	}
	if !c.Args.Has("seam") {
		u.assumptions = append(u.assumptions, "seam "+u.Seam.Summary+" (common practice, no source)")
	}
	if u.ThicknessMM < stock.GaugeMM(leastSheetGauge)-1e-9 && u.Seat.BehindMM >= seat.ThinMM {
		u.notes = append(u.notes, fmt.Sprintf("thin for a sheet collet: %.4g mm, under %.4f mm (22 ga), may crease in setting", u.ThicknessMM, stock.GaugeMM(leastSheetGauge)))
	}
	if u.InsideRadiusMM == 0 && u.stone.curve.MinRadiusMM() < 2*u.ThicknessMM && u.stone.shape.Kind != outline.Measured {
		const tight = "tight bends for this thickness: make a trial and tell its measures to tune"
		if len(u.notes) < 2 {
			u.notes = append(u.notes, tight)
		} else {
			u.alsoWarned = append(u.alsoWarned, tight)
		}
	}
}

func answerCollet(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	u, err := colletOf(ctx, c)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut %s of %s for %s.",
			words.Size(c, u.flat.WidthMM, u.flat.HeightMM), words.Metal(c, u.alloy), u.stone.aWords(c)),
		Figures:     colletFigures(c, u),
		Notes:       u.notes,
		Assumptions: u.assumptions,
	}
	colletSteps(c, u).finish(a)
	return drawn(c, a, colletDrawing(c, u)), nil
}

func colletFigures(c *catalogue.Call, u colletUsed) []answer.Figure {
	rim, base, opening := u.RimOutside, u.BaseOutside, u.BaseInside
	figures := []answer.Figure{
		{ID: "rim_length", Label: "rim, along the edge", Value: u.flat.RimLengthMM, Unit: answer.MM, Main: true},
		{ID: "base_length", Label: "base, along the edge", Value: u.flat.BaseLengthMM, Unit: answer.MM, Main: true},
		{ID: "seam", Label: "seam", Text: seamWords(u), Value: u.bevelAcross().Degrees(), Unit: answer.Degree, Main: true},
		{ID: "blank_mass", Label: "mass of the blank", Value: stock.MassG(u.flat.AreaMM2*u.ThicknessMM, u.alloy.DensityGPerCM3), Unit: answer.Gram},
		{ID: "girdle_line", Label: "girdle line below the rim edge, inside", Value: u.GirdleLineMM(), Unit: answer.MM},
		{ID: "slant", Label: "slant, rim to base as cut", Value: u.SlantMM, Unit: answer.MM},
		{ID: "bearing_line", Label: "bearing line below the rim edge, inside", Value: u.BearingLineMM(), Unit: answer.MM},
		{ID: "height", Label: "height, rim to base", Value: u.HeightMM, Unit: answer.MM},
		{ID: "blank_width", Label: "blank, width", Value: u.flat.WidthMM, Unit: answer.MM},
		{ID: "blank_height", Label: "blank, height", Value: u.flat.HeightMM, Unit: answer.MM},
		{ID: "blank_area", Label: "blank, area", Value: u.flat.AreaMM2, Unit: answer.MM2},
		{ID: "thickness", Label: "thickness", Value: u.ThicknessMM, Unit: answer.MM},
		{ID: "offcut_mass", Label: "mass of the offcut", Value: stock.MassG(max(0, u.flat.OffcutMM2())*u.ThicknessMM, u.alloy.DensityGPerCM3), Unit: answer.Gram},
		{ID: "rim_outer_length", Label: "finished rim, outside length", Value: rim.LengthMM, Unit: answer.MM},
		{ID: "rim_outer_width", Label: "finished rim, outside width", Value: rim.WidthMM, Unit: answer.MM},
		{ID: "base_outer_length", Label: "finished base, outside length", Value: base.LengthMM, Unit: answer.MM},
		{ID: "base_outer_width", Label: "finished base, outside width", Value: base.WidthMM, Unit: answer.MM},
		{ID: "base_opening_length", Label: "base opening, length", Value: opening.LengthMM, Unit: answer.MM},
		{ID: "base_opening_width", Label: "base opening, width", Value: opening.WidthMM, Unit: answer.MM},
		{ID: "lean", Label: "mean lean", Value: u.MeanLean.Degrees(), Unit: answer.Degree},
		{ID: "lean_min", Label: "least lean", Value: u.Flat.MinLean.Degrees(), Unit: answer.Degree},
		{ID: "lean_max", Label: "largest lean", Value: u.Flat.MaxLean.Degrees(), Unit: answer.Degree},
		{ID: "seam_bevel", Label: "bevel to file on each seam end, measured level", Value: u.bevel().Degrees(), Unit: answer.Degree},
		{ID: "seam_bevel_across", Label: "the same across the sheet, from the square-cut face", Value: u.bevelAcross().Degrees(), Unit: answer.Degree},
		{ID: "corners", Label: "corners to " + cornerVerb(u), Value: float64(u.Flat.Corners), Unit: answer.Count},
	}
	figures = append(figures, seatFigures(u)...)
	figures = append(figures, fitFigure(c, u))
	return append(figures, u.stone.weightFigure()...)
}

func cornerVerb(u colletUsed) string {
	if u.Corners == development.Scored {
		return "score and fold"
	}
	return "bend"
}

// seamWords is the seam's place with its bevel: "at the point, bevel 36.9°".
func seamWords(u colletUsed) string {
	if u.preCone {
		return u.Seam.Summary + ", closed round first"
	}
	if u.Flat.Bevel == 0 {
		return u.Seam.Summary
	}
	return fmt.Sprintf("%s, bevel %.1f°", u.Seam.Summary, u.bevelAcross().Degrees())
}

// bevelSide says which skin of the seam's ends is filed away.
func bevelSide(f development.Flat) string {
	if f.BevelReflex {
		return "outer"
	}
	return "inner"
}

func colletSteps(c *catalogue.Call, u colletUsed) *making {
	m := makingOf(c, u.alloy)
	add := m.add
	add("Print the template at full size and measure its check bars before you cut; it shows the outside of the metal.")
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "Glue it on, saw outside the lines and file to them: rim %s, base %s along the edges, slant %s.",
		words.Length(c, u.flat.RimLengthMM), words.Length(c, u.flat.BaseLengthMM), words.Length(c, u.SlantMM))
	if u.Seat.FloorMM > 0 {
		add("Scribe the girdle line %s below the rim edge and the bearing line at %s, on the inside.",
			words.Length(c, u.GirdleLineMM()), words.Length(c, u.BearingLineMM()))
	} else {
		add("Scribe the girdle line %s below the rim edge, on the inside.", words.Length(c, u.GirdleLineMM()))
	}
	if u.Flat.Bevel > 0 && !u.preCone {
		add("File a bevel of %.1f° on each seam end, measured across the sheet from its square-cut face (%.1f° seen from above), taking away the %s edge, so that the ends meet at the mitre.",
			u.bevelAcross().Degrees(), u.bevel().Degrees(), bevelSide(u.Flat))
	}
	m.do(treatment.AnnealJobs(u.alloy), "%s.", words.Capital(treatment.Anneal(u.alloy)))
	fold := foldsOf(u.Flat.Corners, u.stone.curve.Convex(), u.Flat.BevelReflex)
	switch {
	case u.preCone:
		m.do(treatment.JoinJobs(u.alloy), "Close the seam without a gap and %s.", treatment.Join(u.alloy, "hard"))
		add("Squeeze the cone to the stone's shape; the seam goes %s.", u.Seam.Summary)
	case u.Flat.Corners > 0 && u.Corners == development.Scored:
		m.do(treatment.JoinJobs(u.alloy), "Score %s to about two thirds of the thickness, fold on the skin that is left, and %s.", fold.scored(), treatment.FillScores(u.alloy))
	case u.Flat.Corners > 0:
		add("%s.", words.Capital(fold.bent()))
	default:
		add("Bend it to shape with the wall's rulings as folds: quarter marks at the rim show where the ends and sides of the stone lie.")
	}
	if !u.preCone {
		m.do(treatment.JoinJobs(u.alloy), "Close the seam %s without a gap and %s.", u.Seam.Summary, treatment.Join(u.alloy, "hard"))
	}
	rim, base := u.RimOutside, u.BaseOutside
	m.do([]cautions.Job{cautions.Files}, "True it on a punch or mandrel, then file rim and base level: the blank leaves %s to true each edge.", words.Length(c, u.LossMM))
	add("Check outside: rim %s, base %s, height %s. If a measure is off, tell it to tune before the next one.",
		words.Size(c, rim.LengthMM, rim.WidthMM), words.Size(c, base.LengthMM, base.WidthMM), words.Length(c, u.HeightMM))
	seatSteps(c, m, u)
	fitStep(c, m, u)
	proportionStep(m, u)
	if u.Taper == setting.Even {
		add("How it is worked out: the inner face is the stone's outline %s, plus its height above the girdle's lower edge x tan %.4g°; the neutral line lies %.3g of the thickness further out; every edge is laid flat exactly.",
			faceWords(c, u), u.Lean.Degrees(), u.NeutralFactor)
	}
	return m
}
