package sentence

import (
	"math"
	"slices"
	"strings"

	"guildhand/calc/tubeset"
)

// Who knows which tube a stone takes goes to buy it, and often there are two others: "they
// only have 5.0 with 0.4 wall or 5.5 with 0.6, which". The tubes are compared for the stone
// in hand, as they are where one message tells them all.

// A tube that anybody offers for a stone is as wide outside as these times the stone, and its
// wall is at most so much of it.
const (
	narrowestOffered, widestOffered = 0.9, 3.0
	thickestOffered                 = 0.4
)

// longestOfOffer is how many words a message has at most that offers tubes.
const longestOfOffer = 28

// tubesOffered tells which of the tubes that can be had is for the stone in hand.
func (m *message) tubesOffered() (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if !ok || piece.Request != "tubeset" && piece.Request != "match" || len(m.found) == 0 || m.words() > longestOfOffer || m.says("how deep", "how tall", "how long", "another stone") {
		return Reading{}, false
	}
	if outline := piece.Options["outline"]; outline != "" && outline != "round" || len(m.meaning("outline:")) > 0 {
		return Reading{}, false
	}
	stone := newMessage(piece.Options["size"]).quantityOfAny()
	if stone == nil || stone.sides != nil || thicknessOf(stone) <= 0 {
		return Reading{}, false
	}
	tubes := m.tubesFor(thicknessOf(stone))
	if len(tubes) < 2 {
		return Reading{}, false
	}
	m.useAll()
	sum := ringFigures{m: m.anew(), request: "tubeset", of: map[string][]*quantity{"size": {stone}}, sure: 1}
	r, ok := sum.whichTube(tubes)
	if !ok || r.Outcome != Request {
		return r, ok
	}
	for name, v := range piece.Options {
		if r.Options[name] == "" && piece.Request == "tubeset" {
			r.Options[name] = v
		}
	}
	r.Options["size"] = piece.Options["size"]
	r.Changed = changesOf(piece.Options, r.Options)
	return r, true
}

// tubesFor are the tubes that all figures of a message tell, each by its outside and its wall;
// none where a figure can't be either for such a stone.
func (m *message) tubesFor(stoneMM float64) (all []tubeset.Tube) {
	var outer, walls []float64
	inches := m.context.toldInInches()
	var figures []*quantity
	for _, q := range m.found {
		if q.other != nil { // "with 0.4 mm or 5.5 mm"
			figures = append(figures, q.other)
		}
		figures = append(figures, q)
	}
	for _, q := range figures {
		v := 1.0
		if inches && (q.measure == bare || q.measure == size) && !q.unit && q.value < 1 {
			v = 25.4
		}
		switch {
		case q.measure == size && len(q.sides) == 2:
			all = append(all, tubeOfSides(v*q.sides[0], v*q.sides[1]))
			continue
		case q.measure != bare && q.measure != length && q.measure != gauge:
			return nil
		}
		switch v *= thicknessOf(q); {
		case q.measure == gauge, v <= thickestOffered*stoneMM && q.role != "outer":
			walls = append(walls, v)
		default:
			outer = append(outer, v)
		}
	}
	if len(outer) > 0 || len(walls) > 0 {
		paired, ok := tubesOf(outer, walls, nil)
		if !ok || len(paired) == 0 {
			return nil
		}
		all = append(all, paired...)
	}
	if slices.ContainsFunc(all, func(t tubeset.Tube) bool {
		return t.OuterMM < narrowestOffered*stoneMM || t.OuterMM > widestOffered*stoneMM || t.WallMM < 0.1 || t.WallMM > thickestOffered*math.Max(stoneMM, 1) || t.InnerMM() <= 0
	}) {
		return nil
	}
	return all
}

// sameTubeMM is how near a figure is to a tube's outside that names the tube by it.
const sameTubeMM = 0.03

// tubeNamed takes another stone for the tube in hand, where that is named by its outside:
// "if I go to the 3 mm stones, is the 4.0 good then?".
func (m *message) tubeNamed(last Last) (Reading, bool) {
	outside, _, is := strings.Cut(last.Options["tubesize"], "x")
	if last.Request != "tubeset" || !is || len(m.found) != 2 || len(m.alloys) > 0 || !m.says("stone", "stones", "a stone of", "cz", "czs", "diamond", "diamonds") || m.says("wall", "walls", "how many", "between", "apart") {
		return Reading{}, false
	}
	named := slices.IndexFunc(m.found, func(q *quantity) bool {
		return (q.measure == bare || q.measure == length) && math.Abs(q.value-lengthOf(outside)) < sameTubeMM
	})
	if named < 0 {
		return Reading{}, false
	}
	stone := m.found[1-named]
	if stone.measure != bare && stone.measure != length || stone.role != "" || stone.value >= lengthOf(outside) || stone.value < lengthOf(outside)/2 {
		return Reading{}, false
	}
	d := m.draftWith("tubeset", last.Options)
	d.set("size", stone)
	m.useAll()
	r := m.changedFrom(last, d)
	r.Verdict = m.verdict(r)
	return r, true
}
