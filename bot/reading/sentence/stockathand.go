package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Who has a strip asks what comes out of it: "3 ft of 26 gauge bezel strip, how many 10x8
// bezels", "will 10 inches of 2 mm wire make four size 7 rings". The piece is worked out
// without the strip, and told with it.

// leastStripMM is the shortest strip that anybody asks about as stock.
const leastStripMM = 20

// yieldWords ask how many pieces come out of a stock, or whether it is enough.
var yieldWords = []string{"how many", "enough", "will that make", "will it make", "will that do", "will it do", "will this do", "will it go", "go round", "go around", "go all the way", "reach round", "reach around", "last me", "does it do", "can i get", "can i make", "could i get", "would i get", "do i get", "will i get", "stretch to", "suffice", "be sufficient", "get out of", "get from", "run short", "be short"}

// piecesFromStrip tells how many bezels or rings a strip or wire at hand makes, or whether
// it is enough for those that are wanted.
func (m *message) piecesFromStrip() (Reading, bool) {
	if m.cues["kit"] >= 3 || m.cues["resize"] >= 3 || m.cues["jumpring"] >= 3 || m.cues["weigh"] >= 3 || m.says("sheet", "chain", "earrings", "hoops", "half", "solder", "square wire") {
		return Reading{}, false
	}
	have := m.stripAtHand()
	if have == nil || !m.asksForYield(have) {
		return Reading{}, false
	}
	fresh := m.without([]*quantity{have})
	fresh.bindRoles()
	r, wanted := fresh.pieceOfStrip()
	each, ok := fresh.stripOf(r)
	if last := m.context.Last; !ok && last != nil && len(fresh.found) == 0 {
		wanted = fresh.wantedInWords()
		r = Reading{Outcome: Request, Request: last.Request, Options: last.Options}
		each, ok = fresh.stripOf(r)
	}
	if !ok || len(fresh.unused()) > 0 {
		return Reading{}, false
	}
	m.useAll()
	m.settled = true
	count := int((have.value + sawCutMM) / (each + sawCutMM))
	r.Verdict = m.yieldOf(have, each, count, wanted)
	if r.Request == "bezel" && r.Options["thickness"] == "" {
		r.Notes = append(slices.Clone(r.Notes), fmt.Sprintf("counted for strip of %d ga; tell me if yours is thicker or thinner", usualBezelGauge))
	}
	return r, true
}

// stripAtHand is the one length with a unit that only a strip, wire or bar can have.
func (m *message) stripAtHand() *quantity {
	var have *quantity
	for _, q := range m.found {
		ofStone := m.outlineAt(q.next) || m.at(q.next).text == "cab" || m.at(q.next).text == "stone"
		section := m.saysOneBetween(q.next, q.next+1, "wide", "high", "tall", "thick", "deep", "across", "inside")
		if q.measure != length || q.other != nil || q.value < leastStripMM || !q.unit || ofStone || section {
			continue
		}
		if have != nil {
			return nil
		}
		have = q
	}
	return have
}

// asksForYield reports whether a message asks what comes out of a stock, and names it.
func (m *message) asksForYield(have *quantity) bool {
	lead := m.between(max(0, have.first-3), have.first)
	behind := m.between(have.next, min(len(m.tokens), have.next+5))
	has := strings.Contains(" "+lead+" ", " got ") || strings.Contains(" "+lead+" ", " have ") && m.says("how long", "what length", "length of strip")
	stock := m.says("strip", "wire", "bar", "rod", "stock", "length", "ribbon") || strings.HasPrefix(behind, "of ") || strings.HasSuffix(lead, "from") || strings.HasSuffix(lead, "out of")
	will := slices.ContainsFunc([]string{"will", "would", "does", "can", "is"}, func(w string) bool { return strings.HasPrefix(lead+" ", w+" ") || strings.Contains(lead, " "+w) })
	return stock && (has || m.says(yieldWords...) || will && m.saysOneBetween(have.next, len(m.tokens), "do", "make", "cover", "go", "reach") && m.says("of"))
}

// pieceOfStrip is the bezel or ring that a message tells, with how many of it are wanted,
// 0 where that is not told.
func (m *message) pieceOfStrip() (r Reading, wanted int) {
	sizes := m.sizesTold()
	switch {
	case m.cues["bezel"] >= 2 || m.says("bezel", "bezels") || len(sizes) == 0 && m.says("strip", "strips", "stone", "cab") && m.cues["collet"] < 3 && m.cues["collar"] < 3:
		r = m.bezel()
		wanted = int(lengthOf(r.Options["count"]))
	case len(sizes) == 1:
		wanted = m.ringsBefore(sizes[0])
		r = m.band()
	}
	if wanted == 0 && !m.says("how many") {
		wanted = 1
	}
	return r, wanted
}

// ringsBefore is how many rings of a size are wanted, "4 size 7 rings"; 0 where that is not
// told.
func (m *message) ringsBefore(size *quantity) int {
	for _, q := range m.found {
		if q != size && isCount(q) && (q.measure == bare || q.measure == count) && q.value <= 200 && (q.next == size.first || q.next == size.first-1 && m.saysOneBetween(q.next, size.first, "size", "x", "of", "us", "uk")) {
			q.used = true
			return int(q.value)
		}
	}
	if n := m.counts("rings", "pieces"); n != nil && n != size {
		n.used = true
		return int(n.value)
	}
	return 0
}

// wantedInWords is how many a strip must make by the words alone: "enough for two".
func (m *message) wantedInWords() int {
	if m.says("how many") {
		return 0
	}
	for i, t := range m.tokens {
		if v := numberWords[t.text]; v >= 2 && v == math.Trunc(v) && m.saysOneBetween(i-1, i, "for", "make", "do", "get") {
			return int(v)
		}
	}
	return 1
}

// stripOf is what one bezel or ring is cut to from a strip, mm, as its own answer has it.
func (m *message) stripOf(r Reading) (eachMM float64, ok bool) {
	if r.Outcome != Request {
		return 0, false
	}
	switch r.Request {
	case "bezel":
		wall := lengthOf(r.Options["thickness"])
		if wall == 0 {
			wall = gaugeMM(usualBezelGauge)
		}
		stone := newMessage(r.Options["size"]).quantityOfAny()
		if stone == nil {
			return 0, false
		}
		long, ok := stripRound(r.Options["outline"], sizeTold(stone), wall, usualClearanceMM)
		return long + filedOffJointMM, ok
	case "band":
		round, sized := circumferenceOf(r.Options["system"] + " " + r.Options["ring"])
		shank, _, ok := m.shankOfList(r.Options)
		if !sized || !ok || shank.ThicknessMM == 0 {
			return 0, false
		}
		cuts, err := cutsOf([]listedRing{{round: round, count: 1}}, shank)
		return cuts.total, err == nil
	}
	return 0, false
}

// The strip of a bezel where none is told, what is left between stone and wall, and what the
// strip has for filing the joint, as in the bezel's own answer; common practice, no source.
const (
	usualBezelGauge  = 26
	usualClearanceMM = 0.05
	filedOffJointMM  = 0.3
)

// yieldOf tells what comes out of a strip.
func (m *message) yieldOf(have *quantity, each float64, count, wanted int) string {
	strip := strings.TrimSpace(have.typed(m))
	lead := ""
	switch need := float64(wanted)*(each+sawCutMM) - sawCutMM; {
	case wanted == 1 && count > 0:
		lead = fmt.Sprintf("Yes: one takes %s, so your %s leaves %s over. ", mm(each), strip, mm(have.value-each))
	case wanted > 0 && count >= wanted:
		lead = fmt.Sprintf("Yes: %d take %s, so your %s leaves %s over. ", wanted, mm(need), strip, mm(have.value-need))
	case count == 0:
		return fmt.Sprintf("No: one takes %s, so your %s is %s short.", mm(each), strip, mm(each-have.value))
	case wanted > 0:
		lead = fmt.Sprintf("No: %d take %s, so your %s is %s short. ", wanted, mm(need), strip, mm(need-have.value))
	}
	const first = "Measure the strip, and try the first before you cut the rest."
	if wanted > 0 && count < 2 {
		return lead + "Measure the strip before you cut."
	}
	return lead + fmt.Sprintf("It makes %d in all: each takes %s, with %s mm for each saw cut (common practice). ", count, mm(each), plain2(sawCutMM)) + first
}
