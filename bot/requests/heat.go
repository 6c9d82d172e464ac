package requests

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

func heatRequest() catalogue.Spec {
	alloy := option.Alloy()
	alloy.Default, alloy.DefaultNote = "", ""
	alloy.Required = true
	return catalogue.Spec{
		Name:    "heat",
		Summary: "annealing, soldering and quenching figures of an alloy, hazards first",
		Detail: "Annealing range and how to see it, quench or air-cool, solders by flow temperature and their order in a piece with " +
			"several joints, pickle and fire stain, and what heat does to a stone. Your alloy maker's data sheet comes first.",
		Options: []catalogue.Option{
			alloy,
			{
				Name: "solder", Aliases: []string{"filler"},
				Summary: "the solder you have: hard, medium, easy, extra-easy, extra-hard, or a standard's name",
				Kind:    catalogue.Word, Choices: solderChoices(),
			},
			{
				Name: "joints", Aliases: []string{"seams"},
				Summary: "how many joints the piece has, one after another",
				Kind:    catalogue.Integer, Min: 1, Max: 12,
				Suggest: []string{"2", "3", "4"},
			},
			{
				Name: "stone", Aliases: []string{"gem"},
				Summary: "a stone that will be near the heat",
				Kind:    catalogue.Word, Choices: gemChoices(),
			},
		},
		Examples: []catalogue.Example{
			{Line: "heat sterling", Summary: "annealing, solders, pickle"},
			{Line: "heat sterling joints 3", Summary: "which solder for which joint"},
			{Line: "heat 18k-white", Summary: "an alloy that must not be quenched hot"},
			{Line: "heat sterling solder hard stone opal", Summary: "may this stone stay in?"},
		},
		Answer: answerHeat,
	}
}

func solderChoices() []catalogue.Choice {
	var list []catalogue.Choice
	for _, s := range stock.Solders() {
		summary := fmt.Sprintf("%s, flows at %.0f °C", s.Composition, s.FlowC)
		if s.CadmiumPercent > 0 {
			summary = "holds cadmium: refused"
		}
		list = append(list, catalogue.Choice{Key: s.Key, Aliases: s.Aliases, Summary: summary})
	}
	return append(list, catalogue.Choice{Key: "cadmium", Aliases: []string{"cd", "cadmium-bearing"}, Summary: "holds cadmium: refused"})
}

func gemChoices() []catalogue.Choice {
	var list []catalogue.Choice
	for _, g := range stone.Gems() {
		list = append(list, catalogue.Choice{Key: g.Key, Aliases: g.Aliases, Summary: string(g.Heat) + ": " + g.HeatNote})
	}
	return list
}

func answerHeat(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	way := treatment.Of(alloy)
	typedSolder, hasSolder, err := solderOf(c, alloy, way)
	if err != nil {
		return nil, err
	}

	a := &answer.Answer{}
	a.Headline = heatHeadline(alloy, way)
	a.Figures = heatFigures(alloy, way)
	if gem, ok := stone.GemByKey(c.Word("stone")); ok {
		a.Notes = append(a.Notes, stoneNote(c.Word("stone"), gem))
		a.Headline = fmt.Sprintf("Take the %s out first. ", strings.ReplaceAll(c.Word("stone"), "-", " ")) + a.Headline
	}

	m := makingOf(c, alloy)
	if way.Cold == "" {
		m.do(treatment.AnnealJobs(alloy), "Anneal: %s.", glowWords(alloy.AnnealLowC, alloy.AnnealHighC))
		m.add("Cool: %s. %s", way.Cool, way.Why)
	} else {
		m.add("%s. %s", words.Capital(way.Cold), way.Why)
	}
	joints := int(c.Number("joints"))
	joining := treatment.JoinJobs(alloy)
	if way.Joint == treatment.NotSoldered {
		joining = []cautions.Job{cautions.Files} // rivets and tabs
	}
	for _, line := range way.Solder {
		m.do(joining, "%s", line)
	}
	switch {
	case way.Joint == treatment.SilverSoldered:
		silverSolders(a, m, alloy, typedSolder, hasSolder, joints)
	case joints > 1 && way.Joint != treatment.NotSoldered:
		m.add("%d joints: the highest-flowing grade first, then lower ones; the flow of each is on its maker's sheet.", joints)
	}
	for _, line := range way.After {
		m.add("%s", line)
	}
	m.add("Sources of %s: %s.", alloy.Name, alloy.Source)
	m.finish(a)
	// Hazards come first, in full.
	var hazards []string
	for _, caution := range cautions.For(m.work()) {
		hazards = append(hazards, caution.Full)
	}
	a.Steps = append(hazards, a.Steps...)
	a.Assumptions = append(a.Assumptions,
		"figures of tables and from memory: your alloy maker's data sheet comes first (sources in the working)")
	return a, nil
}

// heatHeadline says how the metal is softened and cooled, or that it isn't.
func heatHeadline(alloy stock.Alloy, way treatment.Treatment) string {
	if way.Cold != "" {
		return fmt.Sprintf("%s: %s.", words.Capital(alloy.Name), way.Cold)
	}
	return fmt.Sprintf("%s: anneal at %.0f to %.0f °C, then %s.", words.Capital(alloy.Name), alloy.AnnealLowC, alloy.AnnealHighC, way.Cool)
}

func heatFigures(alloy stock.Alloy, way treatment.Treatment) []answer.Figure {
	var figures []answer.Figure
	if alloy.AnnealHighC > 0 {
		from, to := "anneal from", "anneal up to"
		if way.Cold != "" {
			from, to = "furnace with argon or vacuum, from", "furnace with argon or vacuum, up to"
		}
		figures = append(figures,
			answer.Figure{ID: "anneal_low", Label: from, Value: alloy.AnnealLowC, Unit: answer.Celsius},
			answer.Figure{ID: "anneal_high", Label: to, Value: alloy.AnnealHighC, Unit: answer.Celsius})
	}
	return append(figures,
		answer.Figure{ID: "solidus", Label: "begins to melt", Value: alloy.SolidusC, Unit: answer.Celsius, Text: solidusWords(alloy), Main: true},
		answer.Figure{ID: "liquidus", Label: "is molten", Value: alloy.LiquidusC, Unit: answer.Celsius})
}

// solderOf reads the solder of a call. It refuses cadmium, solder that flows
// above the metal's solidus, and silver solder where the alloy takes none.
func solderOf(c *catalogue.Call, alloy stock.Alloy, way treatment.Treatment) (s stock.Solder, ok bool, err error) {
	word := c.Word("solder")
	if word == "" {
		return stock.Solder{}, false, nil
	}
	try := "heat " + alloy.Key
	if way.Joint == treatment.SilverSoldered {
		try += " solder easy"
	}
	if word == "cadmium" {
		return s, false, answer.Refuse(try, "%s", cadmiumWords("this filler holds cadmium"))
	}
	s, ok = stock.SolderByKey(word)
	if !ok {
		return s, false, fmt.Errorf("solder %q is not in the table", word)
	}
	if s.CadmiumPercent > 0 {
		return s, false, answer.Refuse(try, "%s", cadmiumWords(fmt.Sprintf("%s holds %.0f %% cadmium", s.Name, s.CadmiumPercent)))
	}
	if way.Joint != treatment.SilverSoldered {
		return s, false, answer.Refuse(try, "silver solder is not the trade's joint for %s; ask without a solder to see what is", alloy.Name)
	}
	if s.FlowC >= alloy.SolidusHighC {
		return s, false, answer.Refuse(try, "%s flows at %.0f °C and %s begins to melt at %s; the solder must flow below that", s.Name, s.FlowC, alloy.Name, solidusWords(alloy))
	}
	return s, true, nil
}

// solidusWords is where a metal begins to melt, the lowest published value first.
func solidusWords(a stock.Alloy) string {
	if a.SolidusHighC > a.SolidusC {
		return fmt.Sprintf("%.0f to %.0f °C, by source", a.SolidusC, a.SolidusHighC)
	}
	return fmt.Sprintf("%.0f °C", a.SolidusC)
}

// flowWords is a solder's flow with its margin to where the metal may begin to
// melt.
func flowWords(a stock.Alloy, s stock.Solder) string {
	margin := a.SolidusC - s.FlowC
	if margin < 0 {
		return fmt.Sprintf("%.0f °C, no sure margin", s.FlowC)
	}
	return fmt.Sprintf("%.0f °C, margin %.0f °C", s.FlowC, margin)
}

func cadmiumWords(what string) string {
	return what + ", whose fume can kill: do not heat it; use a cadmium-free filler, and take this one to a hazardous-waste collector"
}

// silverSolders adds the silver solders that flow below the alloy's solidus,
// and their order in a piece with several joints.
func silverSolders(a *answer.Answer, m *making, alloy stock.Alloy, typed stock.Solder, hasTyped bool, joints int) {
	if hasTyped {
		margin := alloy.SolidusC - typed.FlowC
		a.Figures = append(a.Figures,
			answer.Figure{ID: "solder_flow", Label: typed.Name + " flows", Value: typed.FlowC, Unit: answer.Celsius, Main: true},
			answer.Figure{ID: "solder_solidus", Label: typed.Name + " begins to melt", Value: typed.SolidusC, Unit: answer.Celsius},
			answer.Figure{ID: "solder_margin", Label: "flow below the metal's melting", Value: margin, Unit: answer.Celsius, Main: true})
		switch {
		case margin < 0:
			a.Notes = append(a.Notes, fmt.Sprintf("It flows at %.0f °C and the metal melts from %s: no sure margin. Take a lower grade, or heat evenly, flame off at the flash.", typed.FlowC, solidusWords(alloy)))
		case margin < treatment.CloseC:
			a.Notes = append(a.Notes, fmt.Sprintf("Only %.0f °C from this solder's flow to the metal's melting, less than solder may be off: heat evenly and take the flame off at the flash.", margin))
		}
		m.do(treatment.JoinJobs(alloy), "Solder: %s, begins to melt at %.0f °C, flows at %.0f °C (%s).", typed.Name, typed.SolidusC, typed.FlowC, typed.Source)
	} else {
		for _, key := range []string{"hard", "medium", "easy"} {
			if s, ok := stock.SolderByKey(key); ok && s.FlowC < alloy.SolidusHighC {
				a.Figures = append(a.Figures, answer.Figure{ID: key + "_flow", Label: key + " solder flows", Value: s.FlowC, Unit: answer.Celsius, Text: flowWords(alloy, s), Main: true})
			}
		}
	}
	if joints > 0 {
		var grades []string
		for i, s := range stock.SolderSequence(joints) {
			grades = append(grades, s.Key)
			m.do(treatment.JoinJobs(alloy), "joint %d: %s, melts from %.0f °C, flows at %.0f °C (%s)", i+1, s.Key, s.SolidusC, s.FlowC, s.Composition)
		}
		a.Headline += fmt.Sprintf(" Solders for %d joints: %s.", joints, strings.Join(grades, ", "))
		m.add("Hard first, because a later joint must flow before an earlier one moves; joints that share hard are shielded from the flame and not brought to full heat again (common practice, no source).")
	} else {
		m.do(treatment.JoinJobs(alloy), "Joints in order: hard for the first and for every seam that will be formed, then medium, then easy; extra-easy for repairs only (common practice, no source).")
	}
	if alloy.Key != "fine-silver" && alloy.Family == stock.Silver {
		m.add("Extra-hard solder flows at 810 °C and is for fine silver under enamel, not for this alloy's seams.")
	}
	a.Assumptions = append(a.Assumptions, "usual solder grades; yours may flow 20 °C off: go by its maker (common practice, no source)")
}

// stoneNote is what heat does to the stone, first of all notes.
func stoneNote(typed string, g stone.Gem) string {
	name := strings.ReplaceAll(typed, "-", " ")
	switch g.Heat {
	case stone.Never:
		return name + ": " + g.HeatNote
	case stone.Risky:
		return name + ": " + g.HeatNote + "; many are lost"
	}
	return "heated set only by experienced hands and at the owner's risk; " + name + ": " + g.HeatNote + "; let it cool slowly, never quench"
}

// glowWords describes a temperature range by what shows it, never by colour
// alone: eyes, light and alloys differ.
func glowWords(lowC, highC float64) string {
	return fmt.Sprintf("heat to %.0f to %.0f °C for a few seconds all over: %s; judge by a thermocouple, temperature paint or marker rather than by colour alone (borax flux turns clear and glassy at about 590 °C, from memory)",
		lowC, highC, glow((lowC+highC)/2))
}

// glow is the colour of a hot body in a dim room, from memory of the usual
// tables; a bright bench hides the first 100 °C of it.
func glow(c float64) string {
	switch {
	case c < 500:
		return "no glow at all"
	case c < 600:
		return "the faintest red, seen in a dim corner only"
	case c < 690:
		return "a dark red in a dim corner"
	case c < 780:
		return "a dull cherry red in a dim corner"
	case c < 880:
		return "cherry red"
	case c < 980:
		return "bright orange-red, behind a filter shade"
	}
	return "orange to yellow, behind a filter shade"
}
