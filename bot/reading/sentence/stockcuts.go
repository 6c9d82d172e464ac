package sentence

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/ring"
)

// sawCutMM is what a saw cut takes between two blanks; common practice, no source.
const sawCutMM = 0.5

// sizesTold are the ring sizes of the message.
func (m *message) sizesTold() (sizes []*quantity) {
	for _, q := range m.found {
		if q.measure == ringSize {
			sizes = append(sizes, q)
		}
	}
	return sizes
}

// sizedRings are the ring sizes of the message, each as often as it is wanted.
func (m *message) sizedRings() []*quantity {
	sizes := m.sizesTold()
	n := m.counts("rings", "pieces")
	if len(sizes) == 1 && n != nil && n.value >= 2 && n.value <= 100 {
		for len(sizes) < int(n.value) {
			sizes = append(sizes, sizes[0])
		}
	}
	return sizes
}

// aboutRingsFromStrip: how much strip do several rings take, and does mine do?
func (m *message) aboutRingsFromStrip() bool {
	if m.cues["resize"] >= 3 || m.has("stone", "weight", "price", "convert") || m.says("shorter") || m.cues["kit"] >= 3 || len(m.sizedRings()) < 2 {
		return false
	}
	return m.says("strip", "wire", "length", "metal", "stock", "sheet", "bar") && m.says("how much", "total", "enough", "altogether", "in all", "do i need", "does my", "will my", "can i get", "saw", "kerf", "waste", "saw cuts") && !m.says("came out", "wanted")
}

// ringsFromStrip adds up the blanks of several rings, with the saw cuts between
// them, and compares that with the strip there is.
func (m *message) ringsFromStrip() (Reading, bool) {
	sizes := m.sizedRings()
	for _, q := range sizes {
		q.used = true
	}
	list, ok := m.sizesListed()
	if ok && list.spans && m.wantsAllListed(Reading{}, list) {
		return m.ringTable(list, Reading{}, nil)
	}
	if n := m.counts("rings", "pieces"); n != nil {
		n.used = true
	}
	kerf, cut := m.with("kerf"), sawCutMM
	if kerf != nil {
		kerf.used, cut = true, kerf.value
	}
	have := m.longestOver(60)
	if have != nil {
		have.used = true
	}
	shank, d, ok := m.shankOfList(nil)
	if !ok || len(m.unused()) > 0 || d.ask != "" {
		return Reading{}, false
	}
	if shank.ThicknessMM == 0 {
		return m.firstRing(sizes[0])
	}
	var rings []listedRing
	for _, q := range sizes {
		around, err := systemOfSize(q).Parse(q.shown)
		if err != nil {
			return Reading{}, false
		}
		rings = append(rings, listedRing{q.shown, systemOfSize(q), around, 1})
	}
	cuts, err := cutsOf(eachOnce(rings), shank)
	if err != nil {
		return Reading{}, false
	}
	text := cuts.told(cut)
	if have != nil {
		text = enoughOf(m, have, cuts.total+cut*float64(cuts.count)) + " " + text
	}
	return Reading{Outcome: Explanation, Topic: ringsFromStripTopic, Source: "length = pi x (inside diameter + thickness); saw cut: common practice, no source",
		Text: text + cuts.remarks(), Notes: m.assumed}, true
}

// ringsFromStripTopic is the answer on the strip for several rings.
const ringsFromStripTopic = "rings from a strip"

// firstRing asks for the thickness that a list of rings lacks.
func (m *message) firstRing(q *quantity) (Reading, bool) {
	options := map[string]string{"ring": q.shown, "system": string(systemOfSize(q))}
	r := Reading{Outcome: Question, Request: "band", Options: options, Missing: "thickness", Ask: "How thick is the metal? I add up the blanks from that."}
	for _, t := range []string{"1 mm", "1.5 mm", "2 mm"} {
		r.Choices = append(r.Choices, Choice{t + ", the first ring alone", "band", map[string]string{"ring": q.shown, "system": string(systemOfSize(q)), "thickness": t}})
	}
	return r, true
}

// systemOfSize is the system of a ring size: the one that was said, or US for a
// number and UK for a letter.
func systemOfSize(q *quantity) ring.System {
	if q.system != "" {
		return ring.System(q.system)
	}
	if letter(q.shown) {
		return ring.UK
	}
	if isFingerRound(q) {
		return ring.ISO
	}
	return ring.US
}

// longestOver is the longest length that no reading has, of so many mm at least.
func (m *message) longestOver(least float64) *quantity {
	var best *quantity
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && q.value >= least && (best == nil || q.value > best.value) {
			best = q
		}
	}
	return best
}

// aboutTrialRing: a ring that was made from a blank of this length came out one
// size and should be another.
func (m *message) aboutTrialRing() bool {
	sizes := 0
	for _, q := range m.found {
		if q.measure == ringSize {
			sizes++
		}
	}
	return sizes == 2 && m.says("came out", "came up", "turned out", "ended up", "it is a", "made it", "made from", "comes out") && (m.trialBlank() != nil || m.says("strip", "blank") && m.says("came up", "came out", "turned out", "ended up"))
}

// trialBlank is the length from which a ring was made.
func (m *message) trialBlank() *quantity {
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare || q.measure == size) && q.value >= 38 && q.value <= 90 {
			return q
		}
	}
	return nil
}

// trialRing changes the blank by the difference between two ring sizes.
func (m *message) trialRing() (Reading, bool) {
	var around []float64
	var said []string
	var sizes []*quantity
	for i, q := range m.found {
		if q.measure != ringSize {
			continue
		}
		sizes = append(sizes, q)
		if q.system == "" && len(around) == 1 {
			q.system = m.found[i-1].system
		}
		c, err := systemOfSize(q).Parse(q.shown)
		if err != nil {
			return Reading{}, false
		}
		around, said = append(around, c), append(said, q.shown)
	}
	came := m.isResult(sizes[1]) && !m.isResult(sizes[0])
	if came || m.says("wanted", "want", "needed", "should be", "should have been", "meant") && m.saysBefore("came out", "wanted", "should") && !m.isResult(sizes[0]) {
		around[0], around[1] = around[1], around[0]
		said[0], said[1] = said[1], said[0]
	}
	was := m.trialBlank()
	change := around[1] - around[0]
	if was == nil {
		return Reading{Outcome: Explanation, Topic: "next blank of a ring", Source: "a ring's length changes by what its circumference changes",
			Text: fmt.Sprintf("Cut the next blank %.1f mm %s than the one that made %s: that is what %s and %s differ round the inside. The metal does not matter, its thickness does: cut it from the same thickness and file the ends the same way.", math.Abs(change), map[bool]string{true: "longer", false: "shorter"}[change > 0], said[0], said[0], said[1])}, true
	}
	return Reading{Outcome: Explanation, Topic: "next blank of a ring", Source: "a ring's length changes by what its circumference changes",
		Text: fmt.Sprintf("Cut %.1f mm next time: %s to %s is %+.2f mm round the inside, added to the %s mm that made %s. Cut it the same thickness and file the ends the same way.", was.value+change, said[0], said[1], change, plain2(was.value), said[0])}, true
}

// saysBefore reports whether one of the wanted words stands before the phrase.
func (m *message) saysBefore(phrase string, words ...string) bool {
	text := m.text()
	at := strings.Index(text, phrase)
	for _, w := range words {
		if i := strings.Index(text, w); i >= 0 && at >= 0 && i < at {
			return true
		}
	}
	return false
}
