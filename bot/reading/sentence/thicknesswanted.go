package sentence

import (
	"strings"

	"guildhand/bot/knowledge"
)

// thicknessAsked ask how thick metal is to be at least.
var thicknessAsked = []string{"thinnest", "how thin", "min thickness", "minimum thickness", "least thickness", "lightest gauge", "lightest sheet", "how thick should", "how thick must", "how thick does", "how thick do i need", "what thickness should", "min gauge", "minimum gauge"}

// wideRingMM is how wide a ring is that may be thinner than a narrow one, in mm.
const wideRingMM = 8

// thicknessWanted tells how thick a ring, a bangle or a bezel is to be at least, where only its
// width or its stone is told: that figure is not judged as a thickness.
func (m *message) thicknessWanted() (Reading, bool) {
	if !m.beginsTalkOrWhole() || len(m.found) == 0 || !m.says(thicknessAsked...) || m.says("why", "worn", "wore", "repair", "solder", "prong", "prongs", "claw", "claws", "wire", "jump ring", "jump rings", "tube", "dome", "halo", "backplate", "back plate", "collet", "saddle", "post", "posts", "hallmark", "stamp") {
		return Reading{}, false
	}
	wide := 0.0
	for _, q := range m.found {
		switch {
		case q.measure == ringSize, q.measure == size && m.stoneSides() != nil:
		case plainLength(q) && (m.at(q.next).text == "wide" || q.role == "width" || m.saysOneBetween(q.first-3, q.first, "width")):
			wide = q.value
		case plainLength(q) && m.ofStoneWord(q):
		default:
			return Reading{}, false
		}
	}
	switch {
	case m.says("bezel", "bezels"):
		return ruleOf("bezel thickness")
	case m.says("bangle", "bangles", "cuff", "cuffs"):
		return ruleOf("bangle")
	case !m.says("ring", "rings", "band", "bands", "shank", "stacker", "stackers"):
		return Reading{}, false
	case m.says("big stone", "large stone", "heavy stone", "setting on top"):
		return ruleOf("shank under a large stone")
	}
	key := "how thick a wedding ring"
	if wide >= wideRingMM {
		key = "thickness of a wide ring"
	}
	f := factNamed(key)
	if f == nil {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: f.Key, Text: f.Text, Source: f.Source}, true
}

// ruleOf tells the rule of a limit without a figure to judge by it.
func ruleOf(key string) (Reading, bool) {
	for i, all := 0, knowledge.Limits(); i < len(all); i++ {
		if l := &all[i]; l.Key == key {
			return Reading{Outcome: Explanation, Topic: "limit: " + l.Key, Text: strings.TrimSpace(l.Rule), Source: l.Source}, true
		}
	}
	return Reading{}, false
}
