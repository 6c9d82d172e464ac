package sentence

import (
	"fmt"
	"strings"
)

// Asides are what is said of the last piece without a figure that it takes: the
// colour of its gold, the system of its size, a price, the press that stands by.

// anotherColour changes the colour of the last piece's gold: "rose then, if that's
// different".
func (m *message) anotherColour(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 9 || m.asksInWords() && !m.startsWith(openers...) {
		return Reading{}, false
	}
	karats, _, gold := strings.Cut(last.Options["alloy"], "k-")
	if !gold {
		return Reading{}, false
	}
	for _, t := range m.tokens {
		keys := goldKeys(karats, colours[t.text], m.says("palladium"), m.says("nickel"))
		if colours[t.text] == "" || len(keys) != 1 {
			continue
		}
		d := m.draftWith(last.Request, last.Options)
		d.say("alloy", keys[0])
		return m.changedFrom(last, d), true
	}
	return Reading{}, false
}

// systemSaid answers the last ring again where a system of sizes is named alone: the
// answer has the size in each.
func (m *message) systemSaid(last Last) (Reading, bool) {
	if last.Request != "band" || last.Options["ring"] == "" || len(m.found) > 0 || len(m.tokens) > 3 {
		return Reading{}, false
	}
	for _, t := range m.tokens {
		if sizeSystems[t.text] == "" {
			continue
		}
		d := m.draftWith("band", last.Options)
		d.note("the answer has the size in every system")
		return m.changedFrom(last, d), true
	}
	return Reading{}, false
}

// grade takes a grade of solder for the metal that was asked about: "easy?"
func (m *message) grade(last Last) (Reading, bool) {
	if last.Request != "heat" || len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 5 || !m.context.takes("heat", "solder") || m.says("difference", "why") {
		return Reading{}, false
	}
	for _, grade := range []string{"extra easy", "easy", "medium", "hard"} {
		if m.says(grade) {
			d := m.draftWith("heat", last.Options)
			d.say("solder", strings.ReplaceAll(grade, " ", "-"))
			return m.changedFrom(last, d), true
		}
	}
	return Reading{}, false
}

// perMass are what a price is for.
var perMass = map[string]bool{"kilo": true, "kg": true, "kilogram": true, "gram": true, "g": true, "ounce": true, "oz": true, "ozt": true, "gm": true, "gramme": true}

// atPrice takes a price that is named with the last piece. The guild's prices are
// in its configuration, so it is said what to multiply.
func (m *message) atPrice(last Last) (Reading, bool) {
	if len(m.found) == 0 || len(m.found) > 2 || len(m.alloys) > 0 || m.stoneSides() != nil {
		return Reading{}, false
	}
	for _, q := range m.found {
		next := m.at(q.next).text
		priced := q.measure == money || (next == "a" || next == "per" || next == "an" || next == "the") && perMass[m.at(q.next+1).text] && (q.measure == bare || q.measure == length)
		if !priced {
			return Reading{}, false
		}
	}
	typed := strings.TrimSpace(m.found[0].typed(m))
	r, ok := m.weighedLast(last)
	if !ok {
		return Reading{}, false
	}
	for _, q := range m.found {
		q.used = true
	}
	if n := m.at(m.found[0].next + 1).text; perMass[n] {
		typed += " a " + n
	}
	r.Notes = append(r.Notes, fmt.Sprintf("costs are reckoned from your guild's configuration; multiply the mass by your %s", typed))
	return r, true
}

// wasteSaid says what to do with a share for waste, which no answer adds.
func (m *message) wasteSaid(last Last) (Reading, bool) {
	q := m.of(percent)
	if q == nil || len(m.found) > 1 || len(m.alloys) > 0 || !m.says("waste", "wastage", "loss", "spare", "extra", "lemel", "scrap", "more") || m.context.takes(last.Request, "spare") || last.Request == "melt" {
		return Reading{}, false
	}
	q.used = true
	return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{fmt.Sprintf("no waste is in this answer: for your %s take %s times its length or mass", strings.TrimSpace(q.typed(m)), plain(1+q.value/100))}}, true
}

// ownPress takes the rating of a press: the answer's load is to be held against it.
func (m *message) ownPress(last Last) (Reading, bool) {
	q := m.of(force)
	if q == nil || len(m.found) > 1 || last.Request != "collar" {
		return Reading{}, false
	}
	q.used = true
	return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{fmt.Sprintf("hold the load in this answer against your press of %s, and never press over its rating; without a gauge stop where it resists, anneal, and go on", strings.TrimSpace(q.typed(m)))}}, true
}

// resinModel asks for the density of a printed model, which is not that of wax.
func (m *message) resinModel(last Last) (Reading, bool) {
	if last.Request != "melt" || len(m.found) > 0 || !m.says("resin", "printed", "printer", "plastic", "pla", "castable") || len(m.tokens) > 12 {
		return Reading{}, false
	}
	d := m.draftWith("melt", last.Options)
	d.question("wax-density", "Printing resin is denser than wax, so it makes less metal for its weight. What is its density in g/cm³, by its data sheet?", d.with("1.1 g/cm³", "wax-density", "1.1"), d.with("1.15 g/cm³", "wax-density", "1.15"), d.with("1.2 g/cm³", "wax-density", "1.2"))
	return m.changedFrom(last, d), true
}

// buttonSaid asks about a figure for the button that is named without its sign: "add
// ten for the button".
func (m *message) buttonSaid(last Last) (Reading, bool) {
	if last.Request != "melt" || !m.says("button") || len(m.alloys) > 0 || m.asksInWords() {
		return Reading{}, false
	}
	value := 0.0
	if q := m.of(bare); q != nil && len(m.found) == 1 {
		value, q.used = q.value, true
	}
	for i := range m.tokens {
		if v, _, ok := m.spokenNumber(i); ok && value == 0 && len(m.found) == 0 {
			value = v
		}
	}
	if value < 1 || value > 60 {
		return Reading{}, false
	}
	d := m.draftWith("melt", last.Options)
	d.question("button", fmt.Sprintf("Is the button %s per cent of the casting, or %s g?", plain(value), plain(value)), d.with(plain(value)+" %", "button", plain(value)+"%"), d.with(plain(value)+" g", "button", plain(value)+"g"))
	return m.changedFrom(last, d), true
}

// stillAsked asks an open question again, where nothing else was understood.
func (m *message) stillAsked() (Reading, bool) {
	asked := m.context.Asked
	if asked == nil || offersTopics(asked) || m.context.Topic != "" || m.onlyChatter() || len(m.senses)+len(m.found)+len(m.alloys) == 0 && !m.asksInWords() {
		return Reading{}, false
	}
	again := *asked
	again.Ask = dontKnow + strings.TrimPrefix(asked.Ask, dontKnow)
	return again, true
}

// notOfPiece says what can be asked of the last piece, where a question about it was
// not understood.
func (m *message) notOfPiece() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request == "trouble" || m.onlyChatter() || !m.asksInWords() || !m.pointsBack() && !m.ofTrade() || len(m.tokens) > 12 || m.namesAnother(*last) || m.says("my", "i") && !strings.Contains(m.typed, "?") {
		return Reading{}, false
	}
	return Reading{Outcome: Question, Request: last.Request, Options: last.Options,
		Ask:     fmt.Sprintf("I can't answer that about your %s. I can change its %s, say what it weighs, or how it is formed. Ask it in other words, or show it again:", nameOf(*last), changeableIn(last.Request)),
		Choices: []Choice{{"show it again", last.Request, last.Options}}}, true
}
