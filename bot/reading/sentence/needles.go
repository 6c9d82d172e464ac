package sentence

import (
	"fmt"
	"maps"
	"strings"
)

// Knitting needles by their numbers, in mm. The American ones are the Craft Yarn Council's
// list of needle sizes; the old British ones are from memory.
var needlesMM = map[string]map[string]float64{
	"US": {"0": 2, "1": 2.25, "2": 2.75, "3": 3.25, "4": 3.5, "5": 3.75, "6": 4, "7": 4.5, "8": 5, "9": 5.5, "10": 6, "10.5": 6.5, "10 1/2": 6.5, "11": 8, "13": 9, "15": 10},
	"UK": {"14": 2, "13": 2.25, "12": 2.75, "11": 3, "10": 3.25, "9": 3.75, "8": 4, "7": 4.5, "6": 5, "5": 5.5, "4": 6, "3": 6.5, "2": 7, "1": 7.5, "0": 8},
}

// needleNumber is the number of a knitting needle that a coil is wound on, with its system
// where that is told; nil for none. A needle told in mm has no number.
func (m *message) needleNumber() (number *quantity, system string) {
	if !m.says("knitting needle", "knitting needles", "needle", "needles") || m.says("crochet") { // hooks have numbers of their own
		return nil, ""
	}
	for _, q := range m.found {
		if q.measure == length && q.value >= 1.5 && q.value <= 16 && m.saysOneBetween(q.first-4, q.next+4, "needle", "needles", "hook") {
			return nil, ""
		}
	}
	for _, q := range m.found {
		numbered := m.saysOneBetween(q.first-1, q.next, "no", "number", "size", "us", "uk", "#", "us size", "nr") || m.at(q.first-1).text == "." && m.at(q.first-2).text == "no"
		beside := m.saysOneBetween(q.next, q.next+3, "knitting", "needle", "needles", "hook") || m.saysOneBetween(q.first-4, q.first, "needle", "needles", "hook")
		if (q.measure == bare || q.measure == ringSize || q.measure == count) && beside && (numbered || m.at(q.first-1).text == "needle" || m.at(q.first-1).text == "needles") && !m.isDecimalMM(q) {
			return q, m.needleSystem(q)
		}
	}
	return nil, ""
}

// isDecimalMM reports whether a needle's figure can only be mm: 4.5, not 10.5.
func (m *message) isDecimalMM(q *quantity) bool {
	return strings.Contains(q.shown, ".") && q.shown != "10.5"
}

// needleSystem is the system of a needle's number that the message names, empty for none.
func (m *message) needleSystem(q *quantity) string {
	beside := m.tokens[max(0, q.first-3):min(len(m.tokens), q.next+3)]
	for _, t := range beside {
		switch t.text {
		case "us", "american":
			return "US"
		case "uk", "british", "imperial", "english":
			return "UK"
		}
	}
	return ""
}

// numberedNeedle reads jump rings that are wound on a needle told by its number, or asks
// which system the number is of.
func (m *message) numberedNeedle(r Reading) (Reading, bool) {
	if r.Request != "jumpring" && m.chance("jumpring", "explain") < ringPerhaps || r.Outcome == Request && r.Request != "jumpring" {
		return Reading{}, false
	}
	number, system := m.needleNumber()
	if number == nil {
		return Reading{}, false
	}
	us, uk := needlesMM["US"][number.shown], needlesMM["UK"][number.shown]
	of := map[string]float64{"US": us, "UK": uk}
	if us == 0 && uk == 0 {
		return Reading{}, false
	}
	rings, ok := r, true
	if r.Request != "jumpring" {
		m.found = without(m.found, number)
		rings, ok = m.jumpring()
	}
	typed := strings.TrimSpace(number.typed(m))
	if !ok || rings.Options == nil || rings.Unplaced != "" && rings.Unplaced != typed {
		return Reading{}, false
	}
	options := maps.Clone(rings.Options)
	delete(options, "inside")
	delete(options, "ratio")
	delete(options, "mandrel")
	d := m.draft("jumpring")
	d.options = options
	switch mandrel := of[system]; {
	case system != "" && mandrel > 0:
		d.say("mandrel", plain(mandrel))
		d.note("a %s size %s needle is taken as %s thick", system, number.shown, mm(mandrel))
		if !d.has("wire") {
			d.needRing()
		}
	case us == 0 || uk == 0:
		known := whichWay(us-uk, "American", "old British")
		d.question("mandrel", fmt.Sprintf("How thick is the needle %s in mm? I know that number in %s sizes alone, as %s.", typed, known, mm(us+uk)), d.with(known+": "+mm(us+uk), "mandrel", plain(us+uk)))
	default:
		d.question("mandrel", fmt.Sprintf("How thick is the needle in mm? Numbers differ: %s is %s in American sizes and %s in old British ones.", number.shown, mm(us), mm(uk)),
			d.with("US: "+mm(us), "mandrel", plain(us)), d.with("UK: "+mm(uk), "mandrel", plain(uk)))
	}
	return d.asDrafted(), true
}

// without is a list of figures but one.
func without(all []*quantity, but *quantity) (rest []*quantity) {
	for _, q := range all {
		if q != but {
			rest = append(rest, q)
		}
	}
	return rest
}

// asDrafted is a draft's reading where every figure of the message has its place already.
func (d *draft) asDrafted() Reading {
	if d.ask != "" {
		return Reading{Outcome: Question, Request: d.request, Options: d.options, Ask: d.ask, Missing: d.missing, Choices: d.choices, Notes: d.notes}
	}
	return Reading{Outcome: Request, Request: d.request, Options: d.options, Notes: d.notes}
}
