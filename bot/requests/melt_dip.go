package requests

import (
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/casting"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

const dipExample = "melt dip 8x6 height 5 wall 0.9 sterling lean 8.5 tip 2"

// filmMM is what one dip in hot injection wax leaves.
const filmMM = 0.3

// dip answers for a wax shell on a punch.
func (m *melting) dip(size []float64) (*answer.Answer, error) {
	c := m.c
	long, wide, err := rimOfShell(size)
	if err != nil {
		return nil, err
	}
	if !c.Args.Has("height") {
		return nil, answer.Refuse(dipExample, "the height of the dipped collet is missing; it can be 0.5 to 60 mm")
	}
	s, err := m.shrinkage()
	if err != nil {
		return nil, err
	}
	factor := s.Factor()
	d := casting.Dipped{
		WidthMM: wide * factor, HeightMM: c.Number("height") * factor,
		WallMM: c.NumberOr("wall", 0.9) * factor, DipMM: c.NumberOr("film", filmMM),
		TipMM: c.NumberOr("tip", 1.5),
	}
	punch, err := m.punch(&d)
	if err != nil {
		return nil, err
	}
	dip, err := d.Dipping()
	if err != nil {
		return nil, answer.Refuse(dipExample, "%s", err)
	}
	m.a.Assumptions = append(m.a.Assumptions, dipAssumptions(c)...)
	waxG := shellG(d, dip, long*factor, c.Number("wax-density"))

	m.a.Headline = fmt.Sprintf("Dip %d times to %s deep, then trim rim and base.", dip.Dips, words.Length(c, dip.DipDepthMM))
	headline := m.a.Headline
	figures := dipFigures(d, dip, long*factor, waxG, s)
	m.a.Steps = []string{
		fmt.Sprintf("wax inside at the rim = %s x %.4f for shrinkage = %s mm", words.Size(c, size...), factor, words.MM(d.WidthMM)),
		fmt.Sprintf("on a punch of %.1f° lean with a %s mm tip that width lies %.2f mm from the tip, and the base %.2f mm", d.Lean.Degrees(), words.MM(d.TipMM), dip.RimFromTipMM, dip.BaseFromTipMM),
		"mark both lines on the punch, oil it lightly and wipe it, and warm it to the hand (common practice, no source)",
		"dip in hot injection wax, straight down and slowly up, let each layer go dull, and dip again. " + cautionOf("wax-fire"),
		"trim at both lines while the wax is on the punch: off comes the closed tip below the base and the ragged edge above the rim",
		"cool the punch and draw the shell straight off (a round one may be twisted off); check the wall with a caliper, and sprue it at the rim",
	}
	m.melt(waxG, c.Number("wax-density"), "wax")
	// The shell is what is made; its metal comes second.
	m.a.Headline = headline + fmt.Sprintf(" Melt %.2f g of %s.", m.a.Figures[0].Value, m.alloy.Name)
	for i := range m.a.Figures {
		m.a.Figures[i].Main = m.a.Figures[i].ID == "charge_mass"
	}
	m.a.Figures = append(figures, m.a.Figures...)
	m.beforePouring()
	return drawn(c, m.a, dipDrawing(c, long*factor, d, dip, punch)), nil
}

// rimOfShell is the inside of a dipped shell's rim; one number is both extents.
func rimOfShell(size []float64) (long, wide float64, err error) {
	switch len(size) {
	case 1:
		return size[0], size[0], nil
	case 2:
		return max(size[0], size[1]), min(size[0], size[1]), nil
	}
	return 0, 0, answer.Refuse(dipExample, "a dipped shell takes length x width at the rim, in mm; %d numbers were given", len(size))
}

// dipAssumptions are the usual values that stand in for those not given.
func dipAssumptions(c *catalogue.Call) []string {
	var list []string
	if !c.Args.Has("wall") {
		list = append(list, "wall 0.9 mm as cast (house rule)")
	}
	if !c.Args.Has("film") {
		list = append(list, "one dip leaves 0.3 mm of wax (common practice, no source: measure a trial)")
	}
	return append(list, "the wax weighs as an oval of this size (rough)")
}

func dipFigures(d casting.Dipped, dip casting.Dipping, longMM, waxG float64, s casting.Shrinkage) []answer.Figure {
	return []answer.Figure{
		{ID: "trim_base", Label: "trim the base, from the tip", Value: dip.BaseFromTipMM, Unit: answer.MM, Main: true},
		{ID: "trim_rim", Label: "trim the rim, from the tip", Value: dip.RimFromTipMM, Unit: answer.MM, Main: true},
		{ID: "dips", Label: "dips", Value: float64(dip.Dips), Unit: answer.Count, Main: true},
		{ID: "wax_wall", Label: "wall of wax", Value: dip.WallMM, Unit: answer.MM, Main: true},
		{ID: "wax_rim_length", Label: "wax inside at the rim, length", Value: longMM, Unit: answer.MM},
		{ID: "wax_rim_width", Label: "wax inside at the rim, width", Value: d.WidthMM, Unit: answer.MM},
		{ID: "wax_base_width", Label: "wax inside at the base, width", Value: dip.BaseWidthMM, Unit: answer.MM},
		{ID: "wax_outer_width", Label: "wax outside at the rim, width", Value: dip.OuterWidthMM, Unit: answer.MM},
		{ID: "dip_depth", Label: "depth to dip", Value: dip.DipDepthMM, Unit: answer.MM},
		{ID: "wax_mass", Label: "wax of the shell, estimate", Value: waxG, Unit: answer.Gram},
		{ID: "shrinkage", Label: "shrinkage in all, linear", Value: 100 * s.Total(), Unit: answer.Percent},
	}
}

// punch sets the lean and the tip of the punch: from a punch of the workshop or
// as given.
func (m *melting) punch(d *casting.Dipped) (name string, err error) {
	c := m.c
	if word := c.Word("punch"); word != "" {
		if c.Shop != nil {
			for _, p := range c.Shop.Punches {
				if p.Name == word {
					d.Lean, d.TipMM = p.Lean, p.Small.WidthMM
					if p.Large.WidthMM < d.WidthMM {
						return "", answer.Refuse(dipExample, "punch %s is %s mm wide at most; the wax needs %s mm at its rim", p.Name, words.MM(p.Large.WidthMM), words.MM(d.WidthMM))
					}
					return "punch " + p.Name, nil
				}
			}
		}
		return "", answer.Refuse(dipExample, "no punch %q in the workshop", word)
	}
	d.Lean = option.Leaning(c)
	if !c.Args.Has("tip") {
		m.a.Assumptions = append(m.a.Assumptions, "punch 1.5 mm wide at its tip (house rule: measure yours)")
	}
	return "punch", nil
}

// shellG estimates the mass of a wax shell: mid-wall ellipse at half height,
// times slant, times wall. longMM is the wax's inner length at the rim.
func shellG(d casting.Dipped, dip casting.Dipping, longMM, densityGPerCM3 float64) float64 {
	inset := d.HeightMM / 2 * d.Lean.Tan()
	grow := dip.WallMM / 2 / d.Lean.Cos()
	perimeter := outline.EllipsePerimeterMM(longMM/2-inset+grow, d.WidthMM/2-inset+grow)
	slant := d.HeightMM / d.Lean.Cos()
	return stock.MassG(perimeter*slant*dip.WallMM, densityGPerCM3)
}

// shellBodies are the trimmed shell, an oval that is longMM long inside at the rim.
func shellBodies(longMM float64, d casting.Dipped, dip casting.Dipping) ([]axonometric.Body, error) {
	shape := outline.Shape{Kind: outline.Oval, Size: outline.Size{LengthMM: longMM, WidthMM: d.WidthMM}}
	if longMM == d.WidthMM {
		shape = outline.Shape{Kind: outline.Round, Size: outline.Size{WidthMM: d.WidthMM}}
	}
	rim, err := outline.New(shape)
	if err != nil {
		return nil, err
	}
	body, err := finished.Shell(rim, d.HeightMM, dip.WallMM/d.Lean.Cos(), d.Lean)
	return []axonometric.Body{body}, err
}

// dipDrawing is the punch from the side, tip down, with the lines to trim at.
func dipDrawing(c *catalogue.Call, longMM float64, d casting.Dipped, dip casting.Dipping, punch string) template.Drawing {
	tan, cos := d.Lean.Tan(), d.Lean.Cos()
	inner := func(y float64) float64 { return d.TipMM/2 + y*tan }
	outer := func(y float64) float64 { return inner(y) + dip.WallMM/cos }
	top := dip.DipDepthMM + d.HeightMM*0.3
	rim, base := dip.RimFromTipMM, dip.BaseFromTipMM
	side := outer(rim) + 2
	drawing := template.Drawing{
		Name:  fmt.Sprintf("dip-%sx%s", words.MM(d.WidthMM), words.MM(d.HeightMM)),
		Title: "Wax shell on the " + punch,
		Lines: []string{
			fmt.Sprintf("wax wall %s in %s; side view, tip down, lean %.1f°", words.Length(c, dip.WallMM), words.Counted(dip.Dips, "dip", "dips"), d.Lean.Degrees()),
		},
	}
	drawing.Paths = append(drawing.Paths,
		template.Polyline("punch", template.Outline, "punch", true,
			[2]float64{-inner(0), 0}, [2]float64{inner(0), 0}, [2]float64{inner(top), top}, [2]float64{-inner(top), top}),
		template.Polyline("shell", template.Cut, "", true,
			[2]float64{-outer(base), base}, [2]float64{outer(base), base}, [2]float64{outer(rim), rim}, [2]float64{-outer(rim), rim}),
		template.Polyline("trim-rim", template.Waste, "trim, rim", false, [2]float64{-side, rim}, [2]float64{side, rim}),
		template.Polyline("trim-base", template.Waste, "trim, base", false, [2]float64{-side, base}, [2]float64{side, base}))
	tip := [2]float64{-inner(0), 0}
	drawing.Dimensions = []template.Dimension{
		{A: tip, B: [2]float64{inner(0), 0}, Side: template.Below, Text: "tip " + words.Length(c, d.TipMM)},
		{A: [2]float64{inner(0), 0}, B: [2]float64{side, base}, Side: template.Right, Text: "trim the base at " + words.Length(c, base)},
		{A: [2]float64{inner(0), 0}, B: [2]float64{side, rim}, Side: template.Right, Text: "trim the rim at " + words.Length(c, rim)},
		{A: tip, B: [2]float64{-inner(dip.DipDepthMM), dip.DipDepthMM}, Side: template.Left, Text: "dip to " + words.Length(c, dip.DipDepthMM)},
	}
	if bodies, err := shellBodies(longMM, d, dip); err == nil {
		drawing.Details = []template.Drawing{finishedView(bodies, 0, "wax, before it is sprued")}
	}
	drawing.Alt = inWords(drawing, "trim lines are measured from the tip")
	return drawing
}
