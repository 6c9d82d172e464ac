package sentence

import (
	"fmt"
	"math"
)

// plainLinks are chains of one ring through the next, of which the rings count as told.
var plainLinks = []string{"belcher", "rolo", "trace chain", "cable chain", "curb", "cuban", "link chain", "link bracelet", "links", "figaro"}

// patternedChain keeps a chain from being counted as a plain one, or weighed as a straight
// wire, where its pattern takes more rings or its links' width is not told.
func (m *message) patternedChain(r Reading) (Reading, bool) {
	woven := m.says(weaves...)
	switch {
	case woven && (r.Request == "jumpring" && r.Options["chain"] != "" || r.Outcome == Question && m.chance("jumpring") >= ringPerhaps && m.says("how many", "number of", "rings per")):
		wire, inside := mmOfAny(r.Options["wire"]), mmOfAny(r.Options["inside"])
		if inside == 0 {
			inside = mmOfAny(r.Options["mandrel"])
		}
		if inside == 0 {
			inside = math.Round(100*parse(r.Options["ratio"])*wire) / 100
		}
		if told, ok := m.ratioOfWeave(); ok && inside == 0 {
			return told, true
		}
		return ringsByPatch(wire, inside)
	case r.Request == "weigh" && r.Options["form"] == "wire" && r.Options["length"] != "" && m.says("chain", "bracelet", "necklace", "anklet") && m.says(plainLinks...) && !m.tellsWire():
		d := m.draft("jumpring")
		d.say("chain", r.Options["length"])
		d.say("wire", r.Options["thickness"])
		if alloy := r.Options["alloy"]; alloy != "" {
			d.say("alloy", alloy)
		}
		d.needRing()
		return Reading{Outcome: Question, Request: "jumpring", Options: d.options, Ask: "A chain's links take more wire than its length. " + d.ask, Missing: d.missing, Choices: d.choices, Notes: r.Notes}, d.ask != ""
	}
	return Reading{}, false
}

// tellsWire reports whether it is told how much wire there is, which is weighed then: "5 foot
// of 2 mm wire".
func (m *message) tellsWire() bool {
	long := 0
	for _, q := range m.found {
		if q.measure == length && q.value >= 25 {
			long++
		}
	}
	return long > 1 || m.says("of wire")
}

// mmOfAny is a thickness or a length as an option shows it, in mm; 0 for none.
func mmOfAny(shown string) float64 {
	if q := newMessage(shown).quantityOfAny(); q != nil {
		return thicknessOf(q)
	}
	return 0
}

// ringsByPatch tells that rings of a weave are counted from a piece of it, with what one of
// them takes where its wire and inside are known.
func ringsByPatch(wire, inside float64) (Reading, bool) {
	ratio := ""
	if wire > 0 && inside > 0 {
		ratio = fmt.Sprintf(" Yours have an aspect ratio of %.1f, %s inside over wire of %s, and take %s of wire each.", inside/wire, mm(inside), mm(wire), mm(math.Pi*(inside+wire)))
	}
	return worked("rings in a weave", "common practice, no source",
		"I count rings for a plain chain only; byzantine, persian, rope and sheet weaves take several times as many."+ratio+" Close 5 cm of the weave, count its rings, and multiply by the whole length over 5 cm; a sheet grows with its area. Add a tenth for the ends and spoilt rings.")
}
