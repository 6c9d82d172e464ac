package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// mayBeSize is how likely a figure must be a ring's old or new size to be one where other
// words tell it.
const mayBeSize = 0.3

// severalResizings tells what to let in or take out of each of several rings: "one goes from L
// to N, the other from R to P".
func (m *message) severalResizings(r Reading) (Reading, bool) {
	if r.Request != "resize" && m.chance("resize", "band") < perhapsOfRing || !m.canAnswer("resize") || r.Outcome == Explanation && standsFast(r.Topic) {
		return Reading{}, false
	}
	var parts []string
	all := m.sizesLikely(mayBeSize)
	for k := 0; k+1 < len(all); k++ {
		from, to := all[k], all[k+1]
		if from.shown == to.shown || !agree(from, to) || isAcross(from) || !m.onlyToBetween(from, to) {
			continue
		}
		part, ok := changeOfSize(from, to)
		if !ok {
			return Reading{}, false
		}
		parts = append(parts, part)
		k++
	}
	if len(parts) < 2 {
		return Reading{}, false
	}
	return worked("several rings resized", "difference of the inside circumferences",
		sentenceCase(strings.Join(parts, "; "))+". That is the difference round the inside, whatever the thickness. A saw cut and filing the joint take a little too, so cut less at first, close it and try the size.")
}

// changeOfSize tells what a ring needs to go from one size to another.
func changeOfSize(from, to *quantity) (string, bool) {
	system := systemOfSize(from)
	if from.system == "" && to.system != "" {
		system = systemOfSize(to)
	}
	was, err := system.Parse(from.shown)
	is, other := system.Parse(to.shown)
	if err != nil || other != nil {
		return "", false
	}
	does := "let in"
	if is < was {
		does = "take out"
	}
	return fmt.Sprintf("%s to %s: %s %s", from.shown, to.shown, does, mm(math.Abs(is-was))), true
}

// Words for the place where a ring sits, which is thinner than the knuckle.
var belowKnuckle = []string{"base", "behind", "below", "beneath", "under", "underneath", "bottom", "root", "finger"}

// knuckleAndFinger tells what is known of a finger with a large knuckle, where the sizes of
// both are told: neither of them is what the ring has.
func (m *message) knuckleAndFinger(r Reading) (Reading, bool) {
	fact := factNamed("sizing beads")
	if r.Outcome == Request && r.Request != "resize" || fact == nil || !m.says("knuckle", "knuckles") || m.chance("resize", "band", "explain", "trouble") < perhapsOfRing {
		return Reading{}, false
	}
	var knuckle, finger *quantity
	for _, q := range m.sizesLikely(mayBeSize) {
		switch place := m.placeOnFinger(q); {
		case place == "":
		case strings.HasPrefix(place, "knuckle") && knuckle == nil:
			knuckle = q
		case slices.Contains(belowKnuckle, place) && finger == nil:
			finger = q
		}
	}
	if knuckle == nil || finger == nil || !agree(knuckle, finger) || isAcross(knuckle) {
		return Reading{}, false
	}
	system := systemOfSize(knuckle)
	over, err := system.Parse(knuckle.shown)
	at, other := system.Parse(finger.shown)
	if err != nil || other != nil || over <= at {
		return Reading{}, false
	}
	middle, _, ok := system.Nearest((over + at) / 2)
	if !ok {
		return Reading{}, false
	}
	return worked(fact.Key, fact.Source,
		fmt.Sprintf("%s Here the knuckle, %s, is %s more round than the finger, %s; half way between them is about %s. Try sizers of both over the knuckle before you cut.", fact.Text, knuckle.shown, mm(over-at), finger.shown, middle))
}

// placeOnFinger is the word for a place on the finger that stands nearest before a size, or
// else right behind it; empty for none.
func (m *message) placeOnFinger(q *quantity) string {
	isPlace := func(i int) bool {
		w := m.at(i).text
		return w == "knuckle" || w == "knuckles" || slices.Contains(belowKnuckle, w)
	}
	for i := q.first - 1; i >= max(0, q.first-5) && !m.ofSizeAt(i) && m.at(i).text != "." && m.at(i).text != ","; i-- {
		if isPlace(i) {
			return m.at(i).text
		}
	}
	for i := q.next; i < q.next+4 && !m.inFigure(i) && m.at(i).text != "," && m.at(i).text != "."; i++ {
		if isPlace(i) {
			return m.at(i).text
		}
	}
	return ""
}
