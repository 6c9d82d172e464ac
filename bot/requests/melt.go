package requests

import (
	"context"
	"fmt"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/casting"
	"guildhand/calc/stock"
)

func meltRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "melt",
		Summary: "metal to melt for a wax or a model, the wax's size before shrinkage, a wax dipped on a punch",
		Detail: "Weigh the wax with its sprue, or a model in another metal, and get the metal to melt with its button. Give a " +
			"finished size to get the size to make the wax. With `dip`: a wax shell dipped on a tapered punch, where to trim it, and its metal.",
		Options: slices.Concat(weighedOptions(), shrinkageOptions(), dipOptions(), option.Lean(), []catalogue.Option{option.Units(), option.Paper()}),
		Examples: []catalogue.Example{
			{Line: "melt wax 3.2g sterling", Summary: "metal for a wax that was weighed with its sprue"},
			{Line: "melt model 4.1g from brass 18k-yellow", Summary: "a brass model to be cast in gold"},
			{Line: "melt 8x6 sterling shrink 1.2%", Summary: "the size to carve the wax"},
			{Line: "melt 17.3 14k-yellow wax 2 dwt wax-shrink 2.5% mould-shrink 0.5% finish 0.5%", Summary: "through a mould, with finishing"},
			{Line: "melt dip 8x6 height 5 wall 0.9 sterling lean 8.5 tip 2", Summary: "a wax shell on a punch"},
		},
		Answer: answerMelt,
	}
}

// weighedOptions are the wax or model that is weighed, and the metal.
func weighedOptions() []catalogue.Option {
	alloy := option.Alloy()
	alloy.Summary = "the metal to cast: sterling, 18k-yellow ..."
	from := option.Alloy()
	from.Name, from.Aliases, from.Bare = "from", []string{"model-metal"}, false
	from.Summary = "the metal that the model is made of"
	from.Default, from.DefaultNote, from.Bench = "", "", false
	from.Excludes = []string{"wax", "dip"}
	return []catalogue.Option{
		{
			Name: "wax", Aliases: []string{"pattern"},
			Summary: "mass of the wax with its sprue: 3.2 g",
			Kind:    catalogue.Mass, Min: 0.01, Max: 2000,
			Required: true, Unless: []string{"model", "size", "dip"}, Excludes: []string{"model", "dip"},
			Prompt:  "what does the wax weigh with its sprue? or give a model's mass, or the finished size",
			Suggest: []string{"2g", "3g", "5g"},
		},
		{
			Name: "model", Aliases: []string{"master"},
			Summary: "mass of a model in another metal; type that metal after from",
			Kind:    catalogue.Mass, Min: 0.01, Max: 5000, Excludes: []string{"dip"},
			Suggest: []string{"4g", "10g"},
			Sample: func(a catalogue.Args) string {
				if a.Has("from") {
					return "4.1g"
				}
				return "4.1g from brass"
			},
		},
		from,
		alloy,
		{
			Name: "sprue", Summary: "mass of the sprue, if you did not weigh it with the wax or model",
			Kind: catalogue.Mass, Min: 0.01, Max: 500,
		},
		{
			Name: "button", Summary: "button, the metal above the sprue: a share of the casting, or its mass",
			Kind: catalogue.Share, Min: 0, Max: 200,
			Default: "10", DefaultNote: "worked example of a casting supplier's help page", Bench: true,
			Suggest: []string{"10", "15", "25", "8g"},
		},
		{
			Name: "wax-density", Aliases: []string{"wax-sg"},
			Summary: "density of the wax in g/cm³",
			Kind:    catalogue.Number, Min: 0.8, Max: 1.3,
			Default: "0.96", DefaultNote: "carving and injection wax 0.95 to 0.98 (O. Untracht)", Bench: true,
			Suggest: []string{"0.95", "0.98"},
		},
	}
}

// shrinkageOptions are the size wanted, and what is lost on the way to it.
func shrinkageOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "size", Aliases: []string{"finished"},
			Summary: "size wanted of the finished piece; with dip, the inner size at the rim",
			Kind:    catalogue.Size, Min: 0.5, Max: 300, Bare: true,
			Suggest: []string{"8x6", "17.3"},
		},
		{
			Name: "shrink", Aliases: []string{"metal-shrink"},
			Summary: "linear shrinkage of the casting, per cent",
			Kind:    catalogue.Percent, Min: 0, Max: 10,
			Default: "1", DefaultNote: "a mould maker's help page; measure your own", Bench: true,
			Suggest: []string{"1.2", "1.5"},
		},
		{
			Name: "wax-shrink", Summary: "linear shrinkage of injected wax, per cent; a carved wax has none",
			Kind: catalogue.Percent, Min: 0, Max: 10, Suggest: []string{"2.5"},
		},
		{
			Name: "mould-shrink", Summary: "linear shrinkage of the rubber mould, per cent",
			Kind: catalogue.Percent, Min: 0, Max: 10, Suggest: []string{"0.5"},
		},
		{
			Name: "finish", Summary: "what filing and polishing take off, per cent of the size",
			Kind: catalogue.Percent, Min: 0, Max: 10, Suggest: []string{"0.5", "1"},
		},
	}
}

// dipOptions are a wax shell dipped on a punch.
func dipOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "dip", Aliases: []string{"dipped"},
			Summary: "a wax shell dipped on a tapered punch",
			Kind:    catalogue.Flag,
		},
		{
			Name: "height", Summary: "height of the dipped collet along its axis",
			Kind: catalogue.Length, Min: 0.5, Max: 60, Suggest: []string{"4", "5", "6"},
		},
		{
			Name: "wall", Summary: "wall of the dipped collet as cast",
			Kind: catalogue.Length, Min: 0.2, Max: 4, Suggest: []string{"0.8", "1"},
		},
		{
			Name: "film", Summary: "thickness of wax that one dip leaves",
			Kind: catalogue.Length, Min: 0.05, Max: 1.5, Suggest: []string{"0.3"},
		},
		{
			Name: "punch", Summary: "a punch of the workshop, for its lean and tip",
			Kind: catalogue.Word, ChoicesFrom: punchChoices, Excludes: []string{"lean", "included", "tip"},
		},
		{
			Name: "tip", Summary: "width of the punch at its tip",
			Kind: catalogue.Length, Min: 0, Max: 50, Suggest: []string{"2"},
		},
	}
}

func punchChoices(shop *stock.Workshop) []catalogue.Choice {
	if shop == nil {
		return nil
	}
	var list []catalogue.Choice
	for _, p := range shop.Punches {
		list = append(list, catalogue.Choice{Key: p.Name, Summary: fmt.Sprintf("%s, lean %.1f°", p.Kind, p.Lean.Degrees())})
	}
	return list
}

func answerMelt(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	size := c.Value("size").Numbers
	weighs := c.Args.Has("wax") || c.Args.Has("model")
	if c.Args.Has("dip") && len(size) == 0 {
		return nil, answer.Refuse(dipExample, "a dipped shell needs its inner size at the rim, 0.5 to 300 mm")
	}
	if why := notCast(alloy); why != "" {
		return nil, answer.Refuse(c.Retyped(map[string]string{"alloy": "sterling"}), "%s", why)
	}
	m := melting{c: c, alloy: alloy, a: &answer.Answer{}}
	jobs := []cautions.Job{cautions.Casting}
	if c.Args.Has("dip") {
		jobs = append(jobs, cautions.Wax)
	}
	does(m.a, c, alloy, jobs...)
	if c.Args.Has("dip") {
		return m.dip(size)
	}
	if len(size) > 0 {
		if err := m.enlarge(size); err != nil {
			return nil, err
		}
	}
	if weighs {
		if err := m.charge(); err != nil {
			return nil, err
		}
	}
	m.beforePouring()
	return m.a, nil
}

// beforePouring adds the cautions that the answer has no room for, as a step.
func (m *melting) beforePouring() {
	jobs := make([]cautions.Job, len(m.a.Jobs))
	for i, j := range m.a.Jobs {
		jobs[i] = cautions.Job(j)
	}
	words := "Before you melt and pour:"
	for _, c := range cautions.Applicable(cautions.Work{Jobs: jobs, Alloy: m.alloy}) {
		if !slices.Contains(m.a.Cautions, c.Short) {
			words += " " + c.Short
		}
	}
	m.a.Steps = append(m.a.Steps, words)
}

// notCast says why a metal is not melted at the bench; "" for one that is.
func notCast(a stock.Alloy) string {
	switch a.Family {
	case stock.Titanium, stock.Niobium:
		return fmt.Sprintf("%s is not melted at the bench: it burns in air and eats crucible and investment. A specialist casts it in vacuum or argon", a.Name)
	}
	return ""
}

// melting is one answer of melt in the making.
type melting struct {
	c     *catalogue.Call
	alloy stock.Alloy
	a     *answer.Answer
}

func (m *melting) shrinkage() (casting.Shrinkage, error) {
	share := func(option string) float64 { return m.c.Number(option) / 100 }
	s := casting.Shrinkage{Mould: share("mould-shrink"), Wax: share("wax-shrink"), Metal: share("shrink"), Finish: share("finish")}
	if err := s.Check(); err != nil {
		return s, answer.Refuse("melt 8x6 sterling shrink 1.2%", "%s", err)
	}
	return s, nil
}

// enlarge returns the size to make the wax or the model.
func (m *melting) enlarge(size []float64) error {
	s, err := m.shrinkage()
	if err != nil {
		return err
	}
	wax := make([]float64, len(size))
	for i, mm := range size {
		wax[i] = mm * s.Factor()
	}
	what := "wax"
	if s.Mould > 0 || s.Wax > 0 {
		what = "master model"
	}
	m.a.Headline = fmt.Sprintf("Make the %s %s for a finished %s of %s.", what, words.Size(m.c, wax...), words.Size(m.c, size...), m.alloy.Name)
	names := []string{"length", "width", "third"}
	for i, mm := range wax {
		m.a.Figures = append(m.a.Figures, answer.Figure{ID: "pattern_" + names[i], Label: what + ", " + names[i], Value: mm, Unit: answer.MM})
	}
	m.a.Figures = append(m.a.Figures, answer.Figure{ID: "shrinkage", Label: "shrinkage in all, linear", Value: 100 * s.Total(), Unit: answer.Percent, Main: true})
	m.a.Steps = append(m.a.Steps,
		fmt.Sprintf("factor = 1/((1−%.3f)(1−%.3f)(1−%.3f)(1−%.3f)) for mould, wax, metal and finishing = %.4f", s.Mould, s.Wax, s.Metal, s.Finish, s.Factor()),
		"shrinkage differs from shop to shop: cast a measured trial, and save your own figures on your bench")
	if s.Wax == 0 && s.Mould == 0 {
		m.a.Assumptions = append(m.a.Assumptions, "a carved wax, no shrinkage of its own (house rule; an injected wax has about 2.5 %, a mould 0 to 1 %)")
	}
	if s.Finish == 0 {
		m.a.Assumptions = append(m.a.Assumptions, "nothing for filing and polishing (house rule)")
	}
	return nil
}

// charge returns the metal to melt for a weighed wax or model.
func (m *melting) charge() error {
	c := m.c
	patternG, density, what := 0.0, 0.0, ""
	if c.Args.Has("model") {
		if !c.Args.Has("from") {
			return answer.Refuse("melt model 4.1g from brass 18k-yellow", "the model's metal is missing: type it after from")
		}
		from, err := option.AlloyOf(c, "from")
		if err != nil {
			return err
		}
		patternG, density, what = c.Number("model"), from.DensityGPerCM3, from.Name+" model"
		m.a.Assumptions = append(m.a.Assumptions, fmt.Sprintf("density %.2f g/cm³ of %s (%s)", from.DensityGPerCM3, from.Name, firstSource(from.Source)))
	} else {
		patternG, density, what = c.Number("wax"), c.Number("wax-density"), "wax"
	}
	sprue := c.Number("sprue")
	m.melt(patternG+sprue, density, what)
	if sprue == 0 {
		m.a.Assumptions = append(m.a.Assumptions, "the "+what+" was weighed with its sprue (house rule)")
	}
	return nil
}

// withButton is the metal for a casting and its button, which is a share of the casting
// or a mass.
func (m *melting) withButton(castingG float64) casting.Charge {
	if button := m.c.Value("button"); button.IsMass {
		return casting.ChargeWith(castingG, button.Number)
	}
	return casting.ChargeOf(castingG, m.c.Number("button")/100)
}

// buttonWords is how much the button is, in grams and of the casting.
func (m *melting) buttonWords(charge casting.Charge) string {
	if m.c.Value("button").IsMass {
		return fmt.Sprintf("%.2f g, %.0f %% of the casting", charge.ButtonG, 100*charge.ButtonG/charge.CastingG)
	}
	return fmt.Sprintf("%.0f %% = %.2f g", m.c.Number("button"), charge.ButtonG)
}

// smallButtonG is a button under which a note warns.
const smallButtonG = 3

// melt adds the metal for a pattern to the answer.
func (m *melting) melt(patternG, density float64, what string) {
	alloy := m.alloy
	charge := m.withButton(casting.MetalG(patternG, density, alloy.DensityGPerCM3))
	head := fmt.Sprintf("Melt %.2f g of %s.", charge.TotalG, alloy.Name)
	if m.a.Headline != "" {
		head += " " + m.a.Headline
	}
	m.a.Headline = head
	figures := massFigures("charge_mass", "metal to melt", charge.TotalG, true)
	figures[0].Main, figures[1].Main = false, len(m.a.Figures) < 3 // the headline has the first
	figures = append(figures,
		answer.Figure{ID: "casting_mass", Label: "casting with its sprue", Value: charge.CastingG, Unit: answer.Gram, Main: true},
		answer.Figure{ID: "button_mass", Label: "button", Value: charge.ButtonG, Unit: answer.Gram, Main: len(m.a.Figures) < 3},
		answer.Figure{ID: "metal_ratio", Label: "metal over pattern, by mass", Value: alloy.DensityGPerCM3 / density, Unit: answer.Ratio},
	)
	m.a.Figures = append(figures, m.a.Figures...)
	if charge.ButtonG < smallButtonG {
		m.a.Notes = append(m.a.Notes, fmt.Sprintf("a button of %.2f g freezes too soon; %d g or more is usual", charge.ButtonG, smallButtonG))
	}
	cost(m.a, m.c.Shop, alloy, charge.TotalG)
	m.a.Assumptions = append(m.a.Assumptions, fmt.Sprintf("density %.2f g/cm³ of %s (%s)", alloy.DensityGPerCM3, alloy.Name, firstSource(alloy.Source)))
	m.a.Steps = append([]string{
		fmt.Sprintf("casting = %.2f g of %s x %.2f / %.2f g/cm³ = %.2f g", patternG, what, alloy.DensityGPerCM3, density, charge.CastingG),
		fmt.Sprintf("button = %s; small castings need more, %d g and up: the button must freeze last (common practice, no source)", m.buttonWords(charge), smallButtonG),
		fmt.Sprintf("%s melts from %.0f to %.0f °C; use at least half new metal, and only metal that you know", alloy.Name, alloy.SolidusC, alloy.LiquidusC),
	}, m.a.Steps...)
}
