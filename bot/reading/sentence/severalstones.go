package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/bezel"
	"guildhand/calc/outline"
)

// Who has several stones wants the piece of each: "blanks for a 6 mm round, an 8x6 oval and
// a 7x5 pear". A list of pieces does that, for one maker; of two it is asked, since a piece
// alone is drawn larger. Strips are told in words.

// betweenStones are what stands between the stones of a list, beside outlines.
var betweenStones = []string{",", "and", "n", "a", "an", "one", "two", "the", "other", "another", "is", "then", "also", "plus", "+", "&", "mm", "stone", "stones", "cab", "cabs", "for", "ones", "faceted"}

// stonesApart are words that tell of several stones, or of one piece for each.
var stonesApart = []string{"stones", "each", "both", "rounds", "ovals", "pears", "collets", "bezels", "collars", "settings", "blanks", "strips", "cabs", "lengths", "one is", "the other", "two", "three", "four", "five"}

// mostStones is how many stones are listed at most.
const mostStones = 8

// stoneList are two or more stones that a message tells one after the other.
func (m *message) stoneList() (list []*quantity) {
	for _, q := range m.found {
		stone := q.measure == size && len(q.sides) == 2 && !m.ofMetal(q) || (q.measure == length || q.measure == bare) && q.value >= 2 && q.value <= 60 && q.other == nil
		if !stone || q.role != "" && q.role != "diameter" {
			if len(list) > 1 {
				break
			}
			list = nil
			continue
		}
		if n := len(list); n > 0 && !m.joinsStones(list[n-1].next, q.first) {
			if n > 1 {
				break
			}
			list = nil
		}
		list = append(list, q)
	}
	if len(list) < 2 || len(list) > mostStones || !m.areStones(list) {
		return nil
	}
	return list
}

// joinsStones reports whether only outlines and words of a list stand between two figures.
func (m *message) joinsStones(first, next int) bool {
	if next-first > 6 || first == next {
		return false
	}
	joined := false
	for i := first; i < next; i++ {
		outline := slices.ContainsFunc(m.senses, func(s sense) bool { return s.first <= i && i < s.next && s.outline() != "" })
		t := m.at(i)
		if !outline && !contains(betweenStones, t.text) {
			return false
		}
		joined = joined || contains([]string{",", "and", "n", "plus", "+", "&"}, t.text)
	}
	return joined
}

// areStones reports whether the figures of a list are sizes of stones and nothing else: all
// have two sides, or an outline is named with each, or words tell that there are several.
func (m *message) areStones(list []*quantity) bool {
	sizes, own := 0, 0
	seen := map[string]bool{}
	for i, q := range list {
		if q.measure == size {
			sizes++
		}
		if m.ownOutline(list, i) != nil {
			own++
		}
		if seen[q.shown] {
			return false
		}
		seen[q.shown] = true
	}
	last := list[len(list)-1]
	and := m.saysOneBetween(list[len(list)-2].next, last.first, "and", "n", "plus", "+", "&")
	switch after := m.at(last.next).text; {
	case after == "deep" || after == "high" || after == "tall" || after == "thick" || after == "wide" || after == "long":
		return false
	case sizes == len(list), own == len(list):
		return and || m.says(stonesApart...)
	}
	return sizes == 0 && and && m.says(stonesApart...) && (m.ofStoneWord(last) || m.besideStones(list[0]))
}

// besideStones reports whether stones in the plural are named right before a figure: "round
// cabs 6, 8 and 10".
func (m *message) besideStones(q *quantity) bool {
	return m.saysOneBetween(max(0, q.first-3), q.first, "stones", "cabs", "rounds", "cabochons", "collets", "bezels", "collars")
}

// ownOutline is the outline that is named with one stone of a list, before it or behind it,
// nil for none.
func (m *message) ownOutline(list []*quantity, i int) *sense {
	before := slices.ContainsFunc(m.senses, func(s sense) bool { return s.outline() != "" && s.next == list[0].first })
	var low, high int
	switch {
	case before && i > 0:
		low, high = list[i-1].next, list[i].first
	case before:
		low, high = max(0, list[0].first-2), list[0].first
	case i+1 < len(list):
		low, high = list[i].next, list[i+1].first
	default:
		low, high = list[i].next, min(len(m.tokens), list[i].next+3)
	}
	for k := range m.senses {
		if s := &m.senses[k]; s.outline() != "" && s.first >= low && s.next <= high {
			return s
		}
	}
	return nil
}

// ofOneStone is the message read anew as if it told of one stone of a list alone.
func (m *message) ofOneStone(list []*quantity, i int) *message {
	own := m.ownOutline(list, i)
	for k := i + 1; own == nil && k < len(list); k++ {
		own = m.ownOutline(list, k) // "a 10x8 and a 12x10 oval"
	}
	fresh := m.without(slices.Concat(list[:i], list[i+1:]))
	for k := range fresh.senses {
		if s := &fresh.senses[k]; s.outline() != "" && own != nil && s.first != own.first {
			s.Term = &Term{Say: s.Say, Means: []string{"shape of another"}}
		}
	}
	fresh.found = slices.DeleteFunc(fresh.found, func(q *quantity) bool {
		return (q.measure == bare || q.measure == count) && q.value == float64(len(list)) && q.first < list[0].first // "three stones"
	})
	for n, v := range numberWords {
		for k, t := range fresh.tokens {
			fresh.taken[k] = fresh.taken[k] || t.text == n && v == float64(len(list))
		}
	}
	fresh.bindRoles()
	fresh.ofList = true
	return fresh
}

// saysClass reports whether a message tells of people who make the pieces.
func (m *message) saysClass() bool {
	return m.says("class", "student", "pupil", "learner", "maker", "people", "workshop", "course", "group", "lady", "beginner", "apprentice", "teach", "club", "guild", "participant", "attendee")
}

// eachOfSeveral reads a setting for each of several stones as one list of pieces.
func (m *message) eachOfSeveral(request string) (Reading, bool) {
	if m.ofList || m.ofClass || m.context.Last != nil || !m.context.takes("kit", "pieces") || m.saysClass() {
		return Reading{}, false
	}
	list := m.stoneList()
	if list == nil {
		return Reading{}, false
	}
	var lines []string
	var pieces []Reading
	for i := range list {
		r := m.ofOneStone(list, i).collet(request)
		if r.Outcome != Request || !m.memory.holdsFigure(r.Options["size"], list[i]) {
			return Reading{}, false
		}
		lines, pieces = append(lines, r.Line()), append(pieces, r)
	}
	m.useAll()
	all := map[string]string{"makers": "1", "pieces": strings.Join(lines, " ; ")}
	if len(pieces) > 2 {
		return Reading{Outcome: Request, Request: "kit", Options: all, Verdict: fmt.Sprintf("One list for your %d stones: each has its own blank.", len(list))}, true
	}
	asked := Reading{Outcome: Question, Request: request, Options: pieces[0].Options, Ask: "There are two stones in that. Shall I lay out both blanks in one list, or draw one?",
		Choices: []Choice{{"both in one list", "kit", all}}}
	for i, r := range pieces {
		asked.Choices = append(asked.Choices, Choice{"the " + strings.TrimSpace(list[i].typed(m)), request, r.Options})
	}
	return asked, true
}

// sizeTold is the length and the width of a stone that a figure tells.
func sizeTold(q *quantity) outline.Size {
	if len(q.sides) < 2 {
		return outline.Size{LengthMM: q.value, WidthMM: q.value}
	}
	return outline.Size{LengthMM: slices.Max(q.sides), WidthMM: slices.Min(q.sides)}
}

// stripRound is how long a strip of so thick a wall is that closes round a stone, with so
// much room between them, all in mm.
func stripRound(kind string, stone outline.Size, wall, clearance float64) (long float64, ok bool) {
	const neutral = 0.5 // the line in the middle of the metal, as in a bezel's own answer
	curve, err := outline.New(outline.Shape{Kind: outline.Kind(kind), Size: stone})
	if err != nil {
		return 0, false
	}
	strip, err := bezel.Straight(bezel.Spec{Stone: curve, ClearanceMM: clearance, ThicknessMM: wall, NeutralFactor: neutral}, outline.Place{})
	return strip.LengthMM, err == nil
}

// stripOfEach tells the bezel strip of each of several stones.
func (m *message) stripOfEach() (Reading, bool) {
	list := m.stoneList()
	if list == nil || m.ofClass || m.ofList || m.has("step", "bearingwire") {
		return Reading{}, false
	}
	var parts []string
	all, wall := 0.0, 0.0
	for i, q := range list {
		r := m.ofOneStone(list, i).bezel()
		if r.Outcome != Request || r.Request != "bezel" || r.Options["count"] != "" || !m.memory.holdsFigure(r.Options["size"], q) {
			return Reading{}, false
		}
		if wall = lengthOf(r.Options["thickness"]); wall == 0 {
			wall = gaugeMM(28)
		}
		stone := sizeTold(q)
		long, ok := stripRound(r.Options["outline"], stone, wall, 0)
		if !ok {
			return Reading{}, false
		}
		all += long
		named := mm(q.value)
		if q.measure == size {
			named = plain(stone.LengthMM) + " x " + mm(stone.WidthMM)
		}
		if kind := r.Options["outline"]; kind != string(outline.Round) {
			named += " " + kind
		}
		parts = append(parts, fmt.Sprintf("%s: %.1f mm", named, long))
	}
	m.useAll()
	return worked("strips for several stones", "the stone's outline, moved out by half of the strip's thickness",
		fmt.Sprintf("Lengths of bezel strip to cut from metal %.2f mm thick: %s In all %.0f mm, before the joints: add about 0.3 mm to each for filing. Measure each stone.", wall, inAll(parts), math.Ceil(all)))
}
