package sentence

import (
	"slices"
	"strings"

	"guildhand/bot/knowledge"
)

// Details that a message adds to the piece in hand, each known by its own words.

// chains are what jump rings are made into.
var chains = []string{"bracelet", "necklace", "chain", "anklet", "choker", "strand"}

// shortestChainMM is the shortest length that somebody wants of a chain.
const shortestChainMM = 100

// linksOfChain takes how long the jump rings in hand make a chain: "how many for a 7 inch
// bracelet".
func (m *message) linksOfChain(last Last) (Reading, bool) {
	if last.Request != "jumpring" || len(m.found) != 1 || len(m.alloys) > 0 || !m.says(chains...) || !m.context.takes("jumpring", "chain") {
		return Reading{}, false
	}
	long := m.found[0]
	if long.measure != length || !long.unit || long.other != nil || long.value < shortestChainMM {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	delete(d.options, "count")
	d.set("chain", long)
	return m.changedFrom(last, d), true
}

// plateStandsOut takes how far the back plate of the bezel in hand stands out, once the
// plate was talked of: "1mm bigger all round".
func (m *message) plateStandsOut(last Last) (Reading, bool) {
	ofPlate := m.context.Topic == "back plate" || last.Options["plate"] != "" || m.has("backplate")
	if last.Request != "bezel" || !ofPlate || len(m.found) != 1 || len(m.alloys) > 0 || !m.says("all round", "all around", "all the way round", "all the way around", "on all sides", "border", "rim all round") {
		return Reading{}, false
	}
	rim := m.found[0]
	if rim.measure != length && rim.measure != bare || rim.value > mostPlateRim || !m.context.takes("bezel", "platerim") {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.say("plate", "solid")
	d.set("platerim", rim)
	return m.changedFrom(last, d), true
}

// cameOutTight reads a ring in hand that came out too tight or too loose, without a size.
func (m *message) cameOutTight(last Last) (Reading, bool) {
	if last.Request != "band" || len(m.found) > 0 || len(m.alloys) > 0 || m.words() > longestChange || strings.Contains(m.typed, "?") || !m.says("came out", "came up", "turned out", "comes out", "ended up") {
		return Reading{}, false
	}
	key := ""
	switch small, big := m.says("small", "tight", "snug"), m.says("big", "loose", "large"); {
	case small && !big:
		key = "strip too short"
	case big && !small:
		key = "strip too long"
	default:
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: "trouble", Options: map[string]string{"sign": knowledge.Word(key)}, Topic: "trouble: " + key}, true
}

// weighedInAll tells the mass of all that was worked out, where it is asked for in total.
func (m *message) weighedInAll(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || !m.says("in total", "altogether", "in all", "all together", "total weight", "all told") || !m.asksCost() || m.has("stone") {
		return Reading{}, false
	}
	return m.weighedLast(last)
}

// otherProngs takes another number of prongs that is asked about: "would 6 be better?".
func (m *message) otherProngs(last Last) (Reading, bool) {
	if last.Request != "prongs" || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestChange || !m.says("would", "what about", "how about", "would be better", "is better", "be nicer", "be safer", "be stronger") || m.says("mm", "gauge", "why", "wide", "thick", "high", "tall", "size", "stone") {
		return Reading{}, false
	}
	n := m.found[0]
	if n.measure != bare && n.measure != count || n.measure == count && n.thing != "prongs" || !isCount(n) || n.value < 3 || n.value > 12 || plain(n.value) == last.Options["number"] || n.other != nil {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set("number", n)
	return m.changedFrom(last, d), true
}

// andHalf is the ring in hand half a size larger: "and a half?".
func (m *message) andHalf(last Last) (Reading, bool) {
	shown := last.Options["ring"]
	if last.Request != "band" || shown == "" || strings.ContainsAny(shown, " ./") || !slices.Contains([]string{"and a half", "and the half", "plus a half", "and a half please", "what about the half", "and the half size"}, strings.Trim(m.text(), " ?!.")) {
		return Reading{}, false
	}
	if system := last.Options["system"]; system != "us" && system != "uk" {
		return Reading{}, false
	}
	m.useAll()
	d := m.draftWith(last.Request, last.Options)
	d.say("ring", shown+" 1/2")
	return m.changedFrom(last, d), true
}

// otherSection takes another section of the strip that is weighed: "oh, I mistyped, 3 x 2.5".
func (m *message) otherSection(last Last) (Reading, bool) {
	if last.Request != "weigh" || last.Options["form"] != "sheet" || last.Options["thickness"] == "" || len(m.found) != 1 || len(m.alloys) > 0 || m.says("sheet", "disc", "tube", "wire") {
		return Reading{}, false
	}
	section, before := m.found[0], newMessage(last.Options["size"]).quantityOfAny()
	if section.measure != size || len(section.sides) != 2 || before == nil || len(before.sides) != 2 {
		return Reading{}, false
	}
	wide, thick, long := slices.Max(section.sides), slices.Min(section.sides), slices.Max(before.sides)
	if thick > mostStripMM || long < 5*wide {
		return Reading{}, false
	}
	m.useAll()
	d := m.draftWith(last.Request, last.Options)
	d.say("size", plain(long)+"x"+plain(wide))
	d.say("thickness", plain(thick)+" mm")
	return m.changedFrom(last, d), true
}
