package requests

import (
	"context"
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
	"guildhand/calc/ring"
	"guildhand/calc/stock"
)

func bandRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "band",
		Implied: []string{"ring", "rings", "shank"},
		Summary: "the blank of a ring shank or a bangle from its size, and the size in every other system",
		Detail: "The length to cut is that of the section's own middle (its centroid): π x (inner diameter + thickness) for flat, round and " +
			"oval stock, less for half-round. Wide bands get an allowance. Sizes: ISO 8653 " +
			"circumference (JIS S 4700 is the same), US/Canada, UK/Australia letters, Japanese custom sizes, continental " +
			"(circumference less 40), inner diameter. A letter is read as UK and a number from 41 to 76 as ISO; other numbers need their system.",
		Options: bandOptions(),
		Examples: []catalogue.Example{
			{Line: "band us 7 width 4 1.5mm sterling", Summary: "a plain band, US size 7"},
			{Line: "band N 1/2 width 6 1.5mm 18k-yellow", Summary: "a wide band, UK size"},
			{Line: "band 54 width 3 1.2mm court", Summary: "ISO size, court section"},
			{Line: "band japan 13", Summary: "a Japanese custom size, with the usual width and thickness"},
			{Line: "band diameter 17.3", Summary: "from a measured inner diameter"},
			{Line: "band us 7 halfround 4x1.6 sterling", Summary: "half-round wire by its width and height"},
			{Line: "band us 7 wire 2mm sterling", Summary: "round wire"},
			{Line: "band us 7 width 5 1.8mm taper 2.5x1.4 sterling", Summary: "a shank that tapers to the back"},
			{Line: "band bangle 65 round 3mm copper", Summary: "a bangle of round wire"},
			{Line: "band bangle 62x52 half-round 6x2 sterling", Summary: "an oval bangle"},
		},
		Answer: answerBand,
	}
}

func bandOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "ring", Aliases: []string{"ring-size", "finger"},
			Summary: "the ring size: 7 1/2, N, 54, or an inner diameter in mm",
			Kind:    catalogue.RingSize, Bare: true,
			Required: true, Unless: []string{"bangle"}, Excludes: []string{"bangle"}, Prompt: "which ring size, and in which system: us 7, uk N, iso 54, japan 13, continental 14, diameter 17.3?",
			Suggest: []string{"54", "N", "O 1/2", "56"},
			Sample: func(a catalogue.Args) string {
				if s, ok := ringSample[ring.System(a.Word("system"))]; ok {
					return s
				}
				return "54"
			},
		},
		{
			Name: "system", Summary: "system of the ring size: iso, us, uk, japan, continental or diameter",
			Kind: catalogue.Word, Choices: ringChoices(), Bare: true, Bench: true,
		},
		{
			Name: "width", Aliases: []string{"wide"},
			Summary: "width of the band",
			Kind:    catalogue.Length, Min: 0.8, Max: 30,
			Default: "4", DefaultNote: option.Practice, Suggest: []string{"4", "3", "5", "6", "8"},
		},
		shankThickness(),
		profileOption(),
		{
			Name: "stock", Aliases: []string{"wire-size"},
			Summary: "width x thickness together: 4x1.6",
			Kind:    catalogue.Size, Min: 0.3, Max: 30, Bare: true,
			Excludes: []string{"width", "thickness"}, Suggest: []string{"4x1.6", "3x1.5", "5x1.5", "2x2"},
			Sample: func(catalogue.Args) string { return "4x1.5" },
		},
		{
			Name: "taper", Aliases: []string{"tapers-to", "back"},
			Summary: "the shank tapers to this at the back: width x thickness, or its width alone: 2.5x1.2",
			Kind:    catalogue.Size, Min: 0.3, Max: 30,
			Excludes: []string{"bangle"}, Suggest: []string{"2.5x1.2", "2", "3x1.5"},
		},
		{
			Name: "bangle", Aliases: []string{"bracelet"},
			Summary: "a bangle by its inner diameter, or inner length x width of an oval one, mm",
			Kind:    catalogue.Size, Min: 30, Max: 120, Suggest: []string{"65", "60", "62x52", "57.15"},
			Excludes: []string{"system", "allowance"},
		},
		{
			Name: "allowance", Summary: "length added for a wide band, in place of the usual one",
			Kind: catalogue.Length, Min: 0, Max: 5,
		},
		option.Alloy(),
		option.Units(),
		option.Paper(),
	}
}

func shankThickness() catalogue.Option {
	o := option.Thickness()
	o.Summary = "thickness of the shank: 1.5 mm, 14ga"
	o.Min, o.Max = 0.3, 8
	o.Default, o.DefaultNote = "1.5mm", option.Practice
	// The bench's sheet is far too thin for a shank.
	o.Bench = false
	o.Suggest = []string{"1.5mm", "1.2mm", "1.8mm", "2mm", "14ga"}
	return o
}

// profileOption is the section of a shank.
func profileOption() catalogue.Option {
	return catalogue.Option{
		Name: "profile", Aliases: []string{"section"},
		Summary: "section of the band: flat, half-round, court, round or square wire",
		Kind:    catalogue.Word, Bare: true, Default: string(ring.Flat), DefaultNote: "default",
		Choices: []catalogue.Choice{
			{Key: string(ring.Flat), Aliases: []string{"rectangular"}, Summary: "rectangular"},
			{Key: string(ring.HalfRound), Aliases: []string{"halfround", "d", "d-shape", "d-wire", "d-section", "low-dome"}, Summary: "half an ellipse, flat towards the finger; D wire is reckoned as this"},
			{Key: string(ring.Court), Aliases: []string{"comfort", "comfort-fit", "oval", "oval-section"}, Summary: "rounded on both sides"},
			{Key: string(ring.RoundWire), Aliases: []string{"wire", "round-wire"}, Summary: "round wire: its diameter as thickness"},
			{Key: string(ring.SquareWire), Aliases: []string{"square-wire"}, Summary: "square wire: its side as thickness"},
		},
	}
}

func ringChoices() []catalogue.Choice {
	return []catalogue.Choice{
		{Key: string(ring.ISO), Aliases: []string{"eu", "circumference", "jis"}, Summary: "ISO 8653: inner circumference in mm, 41 to 76"},
		{Key: string(ring.US), Aliases: []string{"usa", "canada"}, Summary: "United States and Canada, 0 to 16"},
		{Key: string(ring.UK), Aliases: []string{"australia", "aus", "ireland"}, Summary: "letters, A to Z+6"},
		{Key: string(ring.Japan), Aliases: []string{"jp", "jcs"}, Summary: "Japanese custom sizes, 1 to 30"},
		{Key: string(ring.Continental), Aliases: []string{"italy", "spain", "switzerland"}, Summary: "circumference less 40, 1 to 36"},
		{Key: string(ring.Diameter), Aliases: []string{"inner", "dia"}, Summary: "inner diameter in mm, 11.5 to 25"},
	}
}

// ringOf reads the ring size of a call in its system.
func ringOf(c *catalogue.Call) (system ring.System, circumferenceMM float64, err error) {
	text := c.Word("ring")
	system = ring.System(c.Word("system"))
	// A system that only stands on the bench gives way to a size that it does
	// not have: "N" is UK, whatever the bench says.
	if guess, ok := ring.Guess(text); ok && !c.Args.Typed("system") {
		if _, err := system.Parse(text); system == "" || err != nil {
			c.Drop("system")
			system = guess
		}
	}
	if system == "" {
		return "", 0, unclearRing(c, text)
	}
	circumferenceMM, err = system.Parse(text)
	if err != nil {
		return "", 0, answer.Refuse(c.Retyped(map[string]string{"system": string(system), "ring": ringSample[system]}), "%s", err)
	}
	return system, circumferenceMM, nil
}

// unclearRing asks for the system of a number, naming those that have it.
func unclearRing(c *catalogue.Call, text string) error {
	var fits []string
	for _, s := range ring.Systems() {
		if _, err := s.Parse(text); err == nil {
			fits = append(fits, string(s))
		}
	}
	if len(fits) == 0 {
		return answer.Refuse(c.Retyped(map[string]string{"system": "us", "ring": ringSample[ring.US]}),
			"no system has a ring size %s; sizes are 0 to 16 in us, 1 to 30 in japan, 41 to 76 in iso", text)
	}
	return answer.Refuse(c.Retyped(map[string]string{"system": fits[0]}),
		"ring size %s alone is not clear: say its system, %s", text, strings.Join(fits, " or "))
}

// ringSample is a size of each system, for lines to try.
var ringSample = map[ring.System]string{
	ring.ISO: "54", ring.US: "7", ring.UK: "N", ring.Japan: "13", ring.Continental: "14", ring.Diameter: "17.3",
}

func answerBand(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	if c.Args.Has("bangle") {
		return answerBangle(c)
	}
	system, circumference, err := ringOf(c)
	if err != nil {
		return nil, err
	}
	alloy, shank, err := shankMetalOf(c)
	if err != nil {
		return nil, err
	}
	shank.CircumferenceMM = circumference
	shank.AllowanceMM, shank.HasAllowance = c.Number("allowance"), c.Args.Has("allowance")
	blank, err := shank.Blank()
	if err != nil {
		return nil, answer.Refuse(c.Retyped(map[string]string{"thickness": "1.2mm", "stock": ""}), "%s", err)
	}
	name := sizeName(system, c.Word("ring"))
	if system == ring.Diameter {
		name = words.Length(c, circumference/math.Pi) + " inner diameter"
	}
	headline := fmt.Sprintf("Cut %s of %s %s %s%s for %s.",
		words.Length(c, blank.LengthMM), words.Size(c, shank.WidthMM, shank.ThicknessMM), shank.Profile, alloy.Name, taperWords(c, shank), name)

	a := &answer.Answer{Headline: headline, Figures: bandFigures(shank, blank, system, alloy)}
	if tapers(shank) {
		a.Assumptions = append(a.Assumptions, "an even taper from top to back, joined at the back")
	}
	if !c.Args.Typed("system") {
		from := "by its form"
		if v := c.Args["system"]; v.Note != "" {
			from = v.Note
		}
		c.Settle("system", catalogue.Value{Text: string(system)})
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("size read as %s (%s)", system.Title(), from))
	}
	a.Assumptions = append(a.Assumptions, neutralWords(c, shank, blank)...)
	wideAllowance(a, shank, blank.AllowanceMM)
	a.Notes = bandNotes(shank, system)
	buyBand(a, c, shank, blank, alloy)
	bandSteps(c, shank, blank, circumference, alloy).finish(a)
	return drawn(c, a, bandDrawing(c, shank, blank, alloy, name, finished.Circle(blank.InnerDiameterMM/2))), nil
}

func bandFigures(shank ring.Shank, blank ring.Blank, system ring.System, alloy stock.Alloy) []answer.Figure {
	circumference := shank.CircumferenceMM
	figures := []answer.Figure{
		{ID: "blank_length", Label: "blank length", Value: blank.LengthMM, Unit: answer.MM},
		{ID: "width", Label: "width", Value: shank.WidthMM, Unit: answer.MM},
		{ID: "thickness", Label: "thickness", Value: shank.ThicknessMM, Unit: answer.MM},
		{ID: "inner_diameter", Label: "inner diameter", Value: blank.InnerDiameterMM, Unit: answer.MM, Main: true},
		{ID: "sizes", Label: "the same finger", Value: circumference, Unit: answer.MM, Text: sizesWords(circumference, system), Main: true},
		{ID: "blank_mass", Label: "mass of the blank", Value: stock.MassG(blank.VolumeMM3, alloy.DensityGPerCM3), Unit: answer.Gram, Main: true},
		{ID: "circumference", Label: "inner circumference", Value: circumference, Unit: answer.MM},
		{ID: "wide_allowance", Label: "allowance for a wide band", Value: blank.AllowanceMM, Unit: answer.MM},
	}
	if tapers(shank) {
		width, thickness := shank.Back()
		figures = append(figures,
			answer.Figure{ID: "back_width", Label: "width at the back", Value: width, Unit: answer.MM, Main: true},
			answer.Figure{ID: "back_thickness", Label: "thickness at the back", Value: thickness, Unit: answer.MM, Main: true})
	}
	for _, s := range ring.Systems() {
		if text, mm, ok := s.Nearest(circumference); ok {
			figures = append(figures, answer.Figure{ID: "size_" + string(s), Label: s.Title(), Value: mm, Unit: answer.MM, Text: text})
		}
	}
	return figures
}

// wideAllowance says where the allowance for a wide band comes from, unless the
// maker gave it.
func wideAllowance(a *answer.Answer, shank ring.Shank, allowanceMM float64) {
	if shank.HasAllowance {
		return
	}
	least, most := ring.WideGuidesMM(shank.WidthMM)
	if most <= 0 {
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("allowance for a wide band %s mm (common practice, no source)", words.MM(allowanceMM)))
		return
	}
	a.Figures = append(a.Figures,
		answer.Figure{ID: "wide_allowance_least", Label: "allowance, least of the guides", Value: least, Unit: answer.MM},
		answer.Figure{ID: "wide_allowance_most", Label: "allowance, most of the guides", Value: most, Unit: answer.MM})
	a.Assumptions = append(a.Assumptions, fmt.Sprintf("allowance for a wide band %s mm (published guides differ: %s to %s mm)", words.MM(allowanceMM), words.MM(least), words.MM(most)))
}

// sectionOf is the section of a shank or bangle: width and thickness by
// themselves, together as stock, or the one size of round and square wire.
func sectionOf(c *catalogue.Call) (ring.Shank, error) {
	shank := ring.Shank{Profile: ring.Profile(c.Word("profile"))}
	if sides := c.Value("stock").Numbers; len(sides) > 0 {
		if len(sides) == 1 && shank.Profile.OneSize() {
			sides = append(sides, sides[0])
		}
		if len(sides) != 2 {
			return shank, answer.Refuse(c.Retyped(map[string]string{"stock": "4x1.5"}), "%s mm alone can be the width or the thickness; give both, width x thickness", words.MM(sides[0]))
		}
		shank.WidthMM, shank.ThicknessMM = sides[0], sides[1]
	} else {
		shank.ThicknessMM = c.Number("thickness")
		shank.WidthMM = shank.ThicknessMM
		if !shank.Profile.OneSize() || c.Args.Typed("width") {
			shank.WidthMM = c.Number("width")
		}
	}
	if shank.Profile.OneSize() && shank.WidthMM != shank.ThicknessMM {
		return shank, answer.Refuse(c.Retyped(map[string]string{"width": "", "stock": "", "thickness": words.MM(min(shank.ThicknessMM, 3)) + "mm"}),
			"%s wire is as wide as it is thick, not %s x %s mm", shank.Profile, words.MM(shank.WidthMM), words.MM(shank.ThicknessMM))
	}
	return shank, nil
}

// tapered gives the shank its section at the back.
func tapered(c *catalogue.Call, s *ring.Shank) error {
	back := c.Value("taper").Numbers
	switch {
	case len(back) == 0:
		return nil
	case len(back) > 2:
		return answer.Refuse(c.Retyped(map[string]string{"taper": "2.5x1.2"}), "a shank tapers to a width and a thickness at the back, not to three sizes")
	case s.Profile.OneSize():
		if len(back) == 2 && back[0] != back[1] {
			return answer.Refuse(c.Retyped(map[string]string{"taper": words.MM(back[0])}), "%s wire is as wide as it is thick at the back too, not %s x %s mm", s.Profile, words.MM(back[0]), words.MM(back[1]))
		}
		s.BackWidthMM, s.BackThicknessMM = back[0], back[0]
	case len(back) == 2:
		s.BackWidthMM, s.BackThicknessMM = back[0], back[1]
	default:
		s.BackWidthMM = back[0]
	}
	if s.BackWidthMM > s.WidthMM || s.BackThicknessMM > s.ThicknessMM {
		return answer.Refuse(c.Retyped(map[string]string{"taper": words.MM(min(s.BackWidthMM, s.WidthMM))}),
			"a shank tapers to less than it is on top, %s x %s mm", words.MM(s.WidthMM), words.MM(s.ThicknessMM))
	}
	return nil
}

// tapers reports whether the back of a shank has another section than its top.
func tapers(s ring.Shank) bool {
	width, thickness := s.Back()
	return width != s.WidthMM || thickness != s.ThicknessMM
}

// taperWords say what a shank tapers to, "" where it does not.
func taperWords(c *catalogue.Call, s ring.Shank) string {
	if !tapers(s) {
		return ""
	}
	width, thickness := s.Back()
	return fmt.Sprintf(", tapered to %s at both ends,", words.Size(c, width, thickness))
}

// neutralWords say where the neutral line is taken, and of half-round stock how
// much a D section may differ whose sides first stand upright: at most as much as
// a flat one, whose centroid lies at half the thickness.
func neutralWords(c *catalogue.Call, s ring.Shank, b ring.Blank) []string {
	list := []string{fmt.Sprintf("neutral line at %.2f (the section's centroid)", b.NeutralFactor)}
	if s.Profile == ring.HalfRound {
		more := 2 * math.Pi * (ring.Flat.NeutralFactor() - b.NeutralFactor) * s.ThicknessMM
		list = append(list, fmt.Sprintf("half-round and D wire taken as half an ellipse; a D whose sides first stand upright needs up to %s more", words.Length(c, more)))
	}
	return list
}

// shankMetalOf is the metal that a band or a bangle is made from, and its section.
func shankMetalOf(c *catalogue.Call) (stock.Alloy, ring.Shank, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return alloy, ring.Shank{}, err
	}
	shank, err := sectionOf(c)
	if err == nil {
		err = tapered(c, &shank)
	}
	return alloy, shank, err
}

// spareMM is what a shank's stock has beyond the blank, to hold, saw and file;
// common practice, no source.
const spareMM = 3

// buyBand adds what is bought: a length of stock, and its cost where the
// workshop has a price.
func buyBand(a *answer.Answer, c *catalogue.Call, s ring.Shank, b ring.Blank, alloy stock.Alloy) {
	a.Lengths = wireOfBand(s, b, alloy)
	long := math.Ceil(b.LengthMM + spareMM)
	a.Figures = append(a.Figures, answer.Figure{ID: "stock_length", Label: "stock to buy", Value: long, Unit: answer.MM})
	if shop := c.Shop; shop != nil {
		if _, found := shop.PriceOf(alloy.Key); found {
			cost(a, shop, alloy, stock.MassG(b.VolumeMM3/b.LengthMM*long, alloy.DensityGPerCM3))
		}
	}
}

// wireOfBand is the piece of wire that a shank is bent from; none for a flat one,
// which is cut from sheet.
func wireOfBand(s ring.Shank, b ring.Blank, alloy stock.Alloy) []answer.Length {
	if s.Profile == ring.Flat {
		return nil
	}
	section := s.Profile.AreaMM2(s.WidthMM, s.ThicknessMM)
	wire := fmt.Sprintf("%s wire, %s x %s mm", s.Profile, words.MM(s.WidthMM), words.MM(s.ThicknessMM))
	if s.Profile.OneSize() {
		wire = fmt.Sprintf("%s wire, %s mm", s.Profile, words.MM(s.ThicknessMM))
	}
	backWidth, backThickness := s.Back()
	return []answer.Length{{
		Name: "band", Stock: wire, EachMM: b.LengthMM, AllowanceMM: spareMM, KerfMM: usualSawCutMM,
		SectionMM2: section, MassG: stock.MassG(b.VolumeMM3, alloy.DensityGPerCM3),
		SawMM: 2 * s.ThicknessMM, JointMM: backWidth, JointMM2: s.Profile.AreaMM2(backWidth, backThickness),
	}}
}

func answerBangle(c *catalogue.Call) (*answer.Answer, error) {
	alloy, shank, err := shankMetalOf(c)
	if err != nil {
		return nil, err
	}
	inner := c.Value("bangle").Numbers
	if len(inner) == 3 {
		return nil, answer.Refuse(c.Retyped(map[string]string{"bangle": "62x52"}), "a bangle has one inner diameter, or a length and a width, not three sizes")
	}
	long, wide := inner[0], inner[len(inner)-1]
	name := "a bangle " + words.Length(c, long) + " inside"
	if long != wide {
		name = "an oval bangle " + words.Size(c, long, wide) + " inside"
	}
	shank.CircumferenceMM, shank.HasAllowance = ring.BangleMM(long, wide), true
	blank, err := shank.Blank()
	if err != nil {
		return nil, answer.Refuse(c.Retyped(map[string]string{"thickness": "2mm", "stock": ""}), "%s", err)
	}
	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut %s of %s %s %s for %s.", words.Length(c, blank.LengthMM), words.Size(c, shank.WidthMM, shank.ThicknessMM), shank.Profile, alloy.Name, name),
		Figures: []answer.Figure{
			{ID: "blank_length", Label: "blank length", Value: blank.LengthMM, Unit: answer.MM},
			{ID: "width", Label: "width", Value: shank.WidthMM, Unit: answer.MM},
			{ID: "thickness", Label: "thickness", Value: shank.ThicknessMM, Unit: answer.MM},
			{ID: "inner_diameter", Label: "inner diameter of the same round", Value: blank.InnerDiameterMM, Unit: answer.MM, Main: long != wide},
			{ID: "blank_mass", Label: "mass of the blank", Value: stock.MassG(blank.VolumeMM3, alloy.DensityGPerCM3), Unit: answer.Gram, Main: true},
			{ID: "circumference", Label: "inner circumference", Value: shank.CircumferenceMM, Unit: answer.MM, Main: true},
		},
		Assumptions: append(neutralWords(c, shank, blank), "a closed bangle, its ends square, nothing added for the joint"),
		Notes:       []string{"a closed bangle must pass the hand: measure round the knuckles with the thumb folded in"},
	}
	buyBand(a, c, shank, blank, alloy)
	m := makingOf(c, alloy)
	m.add("inner circumference %.2f mm + 2π x %.3f x %.2f mm = %.2f mm", shank.CircumferenceMM, blank.NeutralFactor, shank.ThicknessMM, blank.LengthMM)
	bendShut(m, alloy)
	m.do([]cautions.Job{cautions.Hammer}, "true it up on a round or oval bangle mandrel; an oval one is made round first and then pressed oval")
	m.finish(a)
	return drawn(c, a, bandDrawing(c, shank, blank, alloy, name, finished.Ellipse(wide/2, long/2))), nil
}

// bendShut are the steps from the stock to a closed ring.
func bendShut(m *making, alloy stock.Alloy) {
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "saw a little long, then file both ends square and true to length: nothing is added here for the joint")
	m.do(treatment.AnnealJobs(alloy), "%s", treatment.Anneal(alloy))
	m.add("bend the ends past each other and back until they spring together without light between them")
	m.do(treatment.JoinJobs(alloy), "close the joint and %s", treatment.Join(alloy, "hard"))
}

func sizeName(system ring.System, text string) string {
	switch system {
	case ring.ISO:
		return "ISO " + text
	case ring.US:
		return "US " + text
	case ring.UK:
		return "UK " + strings.ToUpper(text)
	case ring.Japan:
		return "Japan " + text
	case ring.Continental:
		return "continental " + text
	}
	return text + " mm inner diameter"
}

// sizesWords lists the nearest sizes of the other systems in one line.
func sizesWords(circumferenceMM float64, but ring.System) string {
	short := []struct {
		system ring.System
		word   string
	}{{ring.ISO, "ISO"}, {ring.US, "US"}, {ring.UK, "UK"}, {ring.Japan, "Japan"}, {ring.Continental, "cont."}}
	var words []string
	for _, s := range short {
		if s.system == but {
			continue
		}
		if text, _, ok := s.system.Nearest(circumferenceMM); ok {
			words = append(words, s.word+" "+text)
		}
	}
	return "about " + strings.Join(words, ", ")
}

func bandNotes(s ring.Shank, system ring.System) []string {
	var notes []string
	if s.WidthMM > 5 {
		notes = append(notes, "a wide band sits tighter: try a sizing ring this wide")
	}
	if s.ThicknessMM < 1 {
		notes = append(notes, fmt.Sprintf("%s mm is thin for daily wear; from 1.2 mm is usual (common practice, no source)", words.MM(s.ThicknessMM)))
	}
	switch system {
	case ring.US, ring.UK:
		notes = append(notes, system.Title()+" charts differ by 0.6 mm: use the finger's own stick")
	}
	return notes
}

func bandSteps(c *catalogue.Call, s ring.Shank, b ring.Blank, circumferenceMM float64, alloy stock.Alloy) *making {
	m := makingOf(c, alloy)
	m.add("inner circumference %.2f mm, inner diameter %.2f mm", circumferenceMM, circumferenceMM/math.Pi)
	m.add("length = circumference %.2f + wide-band allowance %.2f + 2π x %.3f x %.2f mm = %.2f mm",
		circumferenceMM, b.AllowanceMM, b.NeutralFactor, meanThickness(s), b.LengthMM)
	for _, system := range ring.Systems() {
		if text, mm, ok := system.Nearest(circumferenceMM); ok {
			m.add("%s: %s (%.2f mm round inside, %+.2f mm)", system.Title(), text, mm, mm-circumferenceMM)
		}
	}
	if tapers(s) {
		m.add("the length is that of the mean thickness: the middle of the metal comes nearer to the finger as evenly as the shank thins")
		m.do([]cautions.Job{cautions.Files}, "file or roll the taper before you bend, from the middle to both ends, and cut to length last: rolling and forging make it longer")
	}
	bendShut(m, alloy)
	m.do([]cautions.Job{cautions.Hammer}, "true it up round on a mandrel; hammering there stretches the band: go up in small steps and check the size from both sides")
	return m
}

// meanThickness is the thickness that the length is reckoned with.
func meanThickness(s ring.Shank) float64 {
	_, back := s.Back()
	return (s.ThicknessMM + back) / 2
}

func bandDrawing(c *catalogue.Call, s ring.Shank, b ring.Blank, alloy stock.Alloy, name string, inside func(float64) float64) template.Drawing {
	l, w := b.LengthMM, s.WidthMM
	back, _ := s.Back()
	// half is how far the edges stand from the middle line, at a place along it.
	half := func(x float64) float64 { return back/2 + (w-back)/2*(1-math.Abs(2*x/l-1)) }
	edge := func(side float64) [][2]float64 {
		if back == w {
			return [][2]float64{{0, w/2 + side*w/2}, {l, w/2 + side*w/2}}
		}
		return [][2]float64{{0, w/2 + side*back/2}, {l / 2, w/2 + side*w/2}, {l, w/2 + side*back/2}}
	}
	d := template.Drawing{
		Name:  fmt.Sprintf("band-%sx%s", words.MM(l), words.MM(w)),
		Title: "Band blank, " + name,
		Lines: []string{
			fmt.Sprintf("%s, %s thick, %s", alloy.Name, words.Length(c, s.ThicknessMM), s.Profile),
			"cut on the outside of the line",
		},
	}
	d.Paths = append(d.Paths,
		template.Polyline("edge-top", template.Cut, "", false, edge(1)...),
		template.Polyline("edge-bottom", template.Cut, "", false, edge(-1)...),
		template.Polyline("seam-a", template.Seam, "joint", false, [2]float64{0, (w - back) / 2}, [2]float64{0, (w + back) / 2}),
		template.Polyline("seam-b", template.Seam, "joint", false, [2]float64{l, (w - back) / 2}, [2]float64{l, (w + back) / 2}))
	if tapers(s) {
		_, thin := s.Back()
		d.Lines = append(d.Lines, fmt.Sprintf("tapers to %s at both ends, which meet at the back; section and view show the top", words.Size(c, back, thin)))
	}
	for i, share := range []float64{0.25, 0.5, 0.75} {
		label := "quarter"
		if share == 0.5 {
			label = "middle"
		}
		x := share * l
		d.Paths = append(d.Paths, template.Polyline(fmt.Sprintf("quarter-%d", i+1), template.Mark, label, false, [2]float64{x, w/2 - half(x)}, [2]float64{x, w/2 + half(x)}))
	}
	d.Dimensions = d.Overall(template.Below, words.Length(c, l), words.Length(c, w))
	if inner := words.Length(c, b.InnerDiameterMM); !strings.Contains(name, inner) {
		said := "closed, " + inner + " across inside"
		if strings.HasPrefix(name, "an oval") { // made round first
			said = "round, before it is pressed oval, " + inner + " across inside"
		}
		d.Lines = append(d.Lines, said)
	}
	section := sectionPoints(s)
	across := make([][2]float64, len(section)) // outward, along the finger
	for i, p := range section {
		across[i] = [2]float64{p[1], p[0]}
	}
	d.Details = []template.Drawing{bandSection(c, s), finishedView([]axonometric.Body{finished.Shank(across, inside)}, 0)}
	d.Alt = inWords(d, "a strip with square ends; the joint closes them", "its middle and quarters are marked")
	return d
}

// bandSection is the band cut through, its finger side below.
func bandSection(c *catalogue.Call, s ring.Shank) template.Drawing {
	w, t := s.WidthMM, s.ThicknessMM
	face := template.Polyline("section", template.Edge, "", true, sectionPoints(s)...)
	return template.Drawing{
		Title: "Section, finger side below", Paths: []template.Path{face}, CutFaces: []template.Path{face},
		Dimensions: []template.Dimension{
			{A: [2]float64{-w / 2, 0}, B: [2]float64{w / 2, 0}, Side: template.Below, Name: "width", Text: words.Length(c, w)},
			{A: [2]float64{w / 2, 0}, B: [2]float64{w / 2, t}, Side: template.Right, Name: "thickness", Text: words.Length(c, t)},
		},
	}
}

// sectionPoints are the corners of a shank's section, the finger side on y 0.
func sectionPoints(s ring.Shank) (points [][2]float64) {
	w, t := s.WidthMM, s.ThicknessMM
	const steps = 24
	switch s.Profile {
	case ring.HalfRound: // half an ellipse on its flat side
		for i := range steps + 1 {
			sin, cos := math.Sincos(math.Pi * float64(i) / steps)
			points = append(points, [2]float64{w / 2 * cos, t * sin})
		}
	case ring.Court, ring.RoundWire:
		for i := range 2 * steps {
			sin, cos := math.Sincos(math.Pi * float64(i) / steps)
			points = append(points, [2]float64{w / 2 * cos, t/2 + t/2*sin})
		}
	default:
		points = [][2]float64{{-w / 2, 0}, {w / 2, 0}, {w / 2, t}, {-w / 2, t}}
	}
	return points
}
