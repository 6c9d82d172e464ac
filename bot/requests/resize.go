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
	"guildhand/calc/ring"
	"guildhand/calc/stock"
)

func resizeRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "resize",
		Implied: []string{"resizing"},
		Summary: "a ring from one size to another: what to add or take out, and whether it may be stretched",
		Detail: "The length is the change of the inner circumference, π x the change of the inner diameter, whatever the thickness. " +
			"Each size may name its system: us 6, uk N, iso 54, japan 13, continental 14, diameter 17.3. Where only one does, both are of it.",
		Options: []catalogue.Option{
			{
				Name: "from", Aliases: []string{"old"},
				Summary: "the size that the ring has: us 6, uk N, iso 54",
				Kind:    catalogue.RingSize, Choices: ringChoices(), Bare: true,
				Required: true, Prompt: "which size is the ring now, and in which system: us 6, uk N, iso 54?",
				Suggest: []string{"us 6", "uk N", "iso 54"},
			},
			{
				Name: "to", Aliases: []string{"new", "into"},
				Summary: "the size that it shall have",
				Kind:    catalogue.RingSize, Choices: ringChoices(), Bare: true,
				Required: true, Prompt: "which size shall it have, and in which system: us 7, uk P, iso 57?",
				Suggest: []string{"us 7", "uk P", "iso 57"},
			},
			{
				Name: "width", Aliases: []string{"wide"},
				Summary: "width of the shank where it is cut",
				Kind:    catalogue.Length, Min: 0.8, Max: 30,
				Default: "4", DefaultNote: option.Practice, Suggest: []string{"4", "3", "5", "6", "2"},
			},
			shankThickness(),
			profileOption(),
			{
				Name: "stones", Aliases: []string{"stone-set", "set-with-stones"},
				Summary: "the ring has stones in it",
				Kind:    catalogue.Flag,
			},
			option.Alloy(),
			option.Units(),
			option.Paper(),
		},
		Examples: []catalogue.Example{
			{Line: "resize us 6 to us 7 width 4 1.5mm sterling", Summary: "a size up: the piece to let in"},
			{Line: "resize uk P to uk N 18k-yellow half-round stones", Summary: "down, with stones in it"},
			{Line: "resize iso 54 to us 7 1/4 2mm", Summary: "from one system to another"},
		},
		Answer: answerResize,
	}
}

// resized is a ring of a call in both sizes.
type resized struct {
	fromSystem, toSystem ring.System
	fromText, toText     string
	fromMM, toMM         float64
	width, thickness     float64
	profile              ring.Profile
	stones               bool
}

func (r resized) changeMM() float64 { return ring.LengthChangeMM(r.fromMM, r.toMM) }

// resizedOf reads both sizes; a size without a system takes that of the other.
func resizedOf(c *catalogue.Call) (resized, error) {
	r := resized{width: c.Number("width"), thickness: c.Number("thickness"), profile: ring.Profile(c.Word("profile")), stones: c.Args.Has("stones")}
	r.fromSystem, r.fromText = sizeAndSystem(c.Word("from"))
	r.toSystem, r.toText = sizeAndSystem(c.Word("to"))
	for _, pair := range []struct {
		mine, other *ring.System
		text        string
	}{{&r.fromSystem, &r.toSystem, r.fromText}, {&r.toSystem, &r.fromSystem, r.toText}} {
		if *pair.mine == "" {
			*pair.mine = *pair.other
		}
		if guess, ok := ring.Guess(pair.text); ok && *pair.mine == "" {
			*pair.mine = guess
		}
	}
	if r.fromSystem == "" || r.toSystem == "" {
		return r, answer.Refuse(c.Retyped(map[string]string{"from": "us " + r.fromText, "to": "us " + r.toText}),
			"sizes %s and %s are not clear: say their system, such as us, japan or diameter", r.fromText, r.toText)
	}
	var err error
	if r.fromMM, err = r.fromSystem.Parse(r.fromText); err != nil {
		return r, answer.Refuse(c.Retyped(map[string]string{"from": string(r.fromSystem) + " " + ringSample[r.fromSystem]}), "%s", err)
	}
	if r.toMM, err = r.toSystem.Parse(r.toText); err != nil {
		return r, answer.Refuse(c.Retyped(map[string]string{"to": string(r.toSystem) + " " + ringSample[r.toSystem]}), "%s", err)
	}
	if math.Abs(r.changeMM()) < 0.005 {
		return r, answer.Refuse(c.Spec.Example(), "%s and %s are the same size, %.2f mm round inside", sizeName(r.fromSystem, r.fromText), sizeName(r.toSystem, r.toText), r.fromMM)
	}
	return r, nil
}

// sizeAndSystem takes "us 7" apart; a size alone has no system.
func sizeAndSystem(text string) (ring.System, string) {
	system, size, found := strings.Cut(text, " ")
	if s := ring.System(system); found && s.Title() != "" {
		return s, size
	}
	return "", text
}

func answerResize(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	r, err := resizedOf(c)
	if err != nil {
		return nil, err
	}
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	blankOf := func(circumferenceMM float64) (ring.Blank, error) {
		return ring.Shank{CircumferenceMM: circumferenceMM, WidthMM: r.width, ThicknessMM: r.thickness, Profile: r.profile, HasAllowance: true}.Blank()
	}
	from, err := blankOf(r.fromMM)
	if err == nil {
		_, err = blankOf(r.toMM)
	}
	if err != nil {
		return nil, answer.Refuse(c.Retyped(map[string]string{"thickness": "1.2mm"}), "%s", err)
	}
	to, _ := blankOf(r.toMM)
	change := r.changeMM()
	section := words.Size(c, r.width, r.thickness) + " " + string(r.profile)
	headline := fmt.Sprintf("Let in %s of %s %s: %s becomes %s.", words.Length(c, change), section, alloy.Name,
		sizeName(r.fromSystem, r.fromText), sizeName(r.toSystem, r.toText))
	if change < 0 {
		headline = fmt.Sprintf("Take %s out of the shank, %s %s: %s becomes %s.", words.Length(c, -change), section, alloy.Name,
			sizeName(r.fromSystem, r.fromText), sizeName(r.toSystem, r.toText))
	}
	a := &answer.Answer{
		Headline: headline,
		Figures: []answer.Figure{
			{ID: "length_change", Label: "length to add", Value: change, Unit: answer.MM},
			{ID: "way", Label: "method", Value: change, Unit: answer.MM, Text: resizeWay(r, alloy), Main: true},
			{ID: "blank_from", Label: "blank for the old size", Value: from.LengthMM, Unit: answer.MM, Main: true},
			{ID: "blank_to", Label: "blank for the new size", Value: to.LengthMM, Unit: answer.MM, Main: true},
			{ID: "inner_from", Label: "inner diameter now", Value: r.fromMM / math.Pi, Unit: answer.MM},
			{ID: "inner_to", Label: "new inner diameter", Value: r.toMM / math.Pi, Unit: answer.MM, Main: true},
			{ID: "width", Label: "width of the shank", Value: r.width, Unit: answer.MM},
			{ID: "thickness", Label: "thickness of the shank", Value: r.thickness, Unit: answer.MM},
			{ID: "mass_change", Label: "metal let in or taken out", Value: stock.MassG(math.Abs(change)*r.profile.AreaMM2(r.width, r.thickness), alloy.DensityGPerCM3), Unit: answer.Gram},
		},
		Assumptions: []string{"square joints closed tight: nothing is added for solder or saw (common practice, no source)"},
	}
	if r.fromSystem != r.toSystem {
		a.Assumptions = append(a.Assumptions, "two systems: charts differ by up to 0.6 mm round, so try the finger's own sizer")
	}
	if treatment.Of(alloy).Joint == treatment.NotSoldered {
		a.Notes = append(a.Notes, alloy.Name+" is not soldered: a cut ring must be welded in argon or by laser, or made anew")
	}
	if r.stones {
		a.Notes = append(a.Notes, "take every stone out before any heat, and set it again after the last soldering")
	} else {
		a.Assumptions = append(a.Assumptions, "no stones in the ring (say stones if it has some)")
	}
	resizeSteps(c, r, alloy).finish(a)
	return drawn(c, a, resizeDrawing(c, r, alloy)), nil
}

// resizeWay says in a few words whether a ring may be stretched or must be cut.
func resizeWay(r resized, alloy stock.Alloy) string {
	if r.stones {
		return "cut: a ring with stones is not stretched"
	}
	if treatment.Of(alloy).Joint == treatment.NotSoldered && r.changeMM() < 0 {
		return "cut and weld"
	}
	switch ring.Stretching(r.fromMM, r.toMM, r.thickness) {
	case ring.MayStretch:
		return "a plain band without a weak joint may be stretched; else cut"
	case ring.HeavyOnly:
		return "cut; guides let a heavy seamless band be stretched so far"
	}
	return "cut"
}

func resizeSteps(c *catalogue.Call, r resized, alloy stock.Alloy) *making {
	m := makingOf(c, alloy)
	m.add("%s is %.2f mm round inside, %s is %.2f mm: the difference %+.2f mm is the length, whatever the thickness",
		sizeName(r.fromSystem, r.fromText), r.fromMM, sizeName(r.toSystem, r.toText), r.toMM, r.changeMM())
	if r.stones {
		m.add("take every stone out before any heat and before you stretch, bend or hammer: heat cracks stones, and a stretched ring lets them fall out. A ring set with stones all round can't be resized: make it anew")
	}
	if strain := ring.StretchStrain(r.fromMM, r.toMM); strain > 0 && !r.stones && ring.Stretching(r.fromMM, r.toMM, r.thickness) != ring.MustCut {
		m.do(treatment.AnnealJobs(alloy), "to stretch: look for old solder joints first, which tear before the rest gives, then %s", treatment.Anneal(alloy))
		m.do([]cautions.Job{cautions.Hammer}, "stretch a little at a time and turn the ring end for end; strain %.1f %%, the band ends about %.2f mm thick", 100*strain, ring.StretchedThicknessMM(r.fromMM, r.toMM, r.thickness))
	}
	m.do([]cautions.Job{cautions.Saw}, "cut at the old seam where you can see it, else at the back of the shank, opposite the setting")
	if r.changeMM() > 0 {
		m.do([]cautions.Job{cautions.Files}, "open the ring to %.2f mm, and file both ends and a piece %.2f mm long square and flat; make the piece of the same metal and a little wider and thicker, to file down", r.changeMM(), r.changeMM())
	} else {
		m.do([]cautions.Job{cautions.Saw, cautions.Files}, "mark the %.2f mm to take out, measured at the middle of the metal, half on each side of the cut; saw inside the marks and file to them, so that the saw's kerf is part of it", -r.changeMM())
	}
	m.do(treatment.AnnealJobs(alloy), "where it does not bend easily, %s", treatment.Anneal(alloy))
	m.add("bring the ends together under spring, without light between them")
	m.do(treatment.JoinJobs(alloy), "%s", treatment.Join(alloy, "hard"))
	m.add("a ring that was soldered before: use a lower grade than its joints have, and keep heat off them and off the setting")
	m.do([]cautions.Job{cautions.Hammer}, "true it up round on a mandrel and check the size from both sides")
	return m
}
