package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/ring"
)

// massNamed tells a mass whose units are named apart from its figure: "pennyweights to
// ounces troy, 37 of them".
func (m *message) massNamed() (Reading, bool) {
	if len(m.found) != 1 || m.hasPiece() && m.found[0].measure != mass || m.cues["melt"]+m.cues["weigh"] > 0 {
		return Reading{}, false
	}
	from, ok := m.unitsJoined()
	q := m.found[0]
	switch {
	case !ok || q.measure != bare && q.measure != mass && q.measure != count:
		return Reading{}, false
	case q.measure == mass:
		return massInUnits(strings.TrimSpace(q.typed(m)), q.value), true
	}
	return massInUnits(q.shown+" "+from.name, q.value*from.per), true
}

// unitsJoined is the first of two units of mass with "to" or "in" between them.
func (m *message) unitsJoined() (from conversion, ok bool) {
	at := func(i int) (conversion, bool) {
		for _, c := range conversions {
			if c.measure == mass && (contains(c.say, m.at(i).text) || contains(c.in, m.at(i).text) || contains(c.say, m.at(i).text+"s")) {
				return c, true
			}
		}
		return conversion{}, false
	}
	for i := range m.tokens {
		if w := m.at(i + 1).text; w != "to" && w != "into" && w != "in" || m.inFigure(i) {
			continue
		}
		one, named := at(i)
		other, too := at(i + 2)
		if named && too && one.name != other.name {
			return one, true
		}
	}
	return conversion{}, false
}

// massOfVolume tells what a volume weighs in a metal: "the print is 640 cubic mm, in
// sterling?"
func (m *message) massOfVolume() (Reading, bool) {
	a := m.metal()
	if a == nil || a.likeliestKey() == "" || len(m.found) == 0 || m.has("wax") && !m.says("not wax", "no wax") {
		return Reading{}, false
	}
	q, mm3 := m.found[0], m.volumeTyped()
	switch {
	case mm3 > 0:
	case len(m.found) != 1:
		return Reading{}, false
	case q.measure != bare && q.measure != length:
	case m.says("cubic mm", "cubic millimetres", "cubic millimeters", "mm cubed", "mm3"):
		mm3 = m.at(q.first).value
	case m.says("cubic cm", "cubic centimetres", "cubic centimeters"):
		mm3 = m.at(q.first).value * 1000
	}
	if mm3 <= 0 {
		return Reading{}, false
	}
	alloy := alloyOf(a.likeliestKey())
	grams := mm3 / 1000 * alloy.DensityGPerCM3
	return worked("mass of a volume", "mass = volume x density; a button of a fifth: common practice, no source",
		fmt.Sprintf("%s mm³ of %s weighs %.2f g, at %.2f g/cm³. To cast it melt about a fifth more for the button, %.1f g, and add the sprue. What the model is made of doesn't matter where its volume is known.", plain(mm3), alloy.Name, grams, alloy.DensityGPerCM3, 1.2*grams))
}

// volumeTyped is the only volume of a message in mm³, "1.9cm3" or "2 cc", 0 for none or
// where there is another figure.
func (m *message) volumeTyped() float64 {
	q := m.found[0]
	unit, behind := m.at(q.next-1).text, m.at(q.next)
	cubed := behind.text == "3" && behind.glued || strings.Contains(m.typed, unit+"³") && !strings.Contains(m.typed, "/")
	rest := m.found[1:]
	if cubed && len(rest) > 0 && rest[0].first == q.next {
		rest = rest[1:]
	}
	switch {
	case len(rest) > 0:
		return 0
	case cubed && q.measure == length && (unit == "mm" || unit == "cm"):
		return m.at(q.first).value * map[string]float64{"mm": 1, "cm": 1000}[unit]
	case q.measure == bare && (behind.text == "cc" || behind.text == "ml" || behind.text == "cm³" || behind.text == "cm3"):
		return q.value * 1000
	case q.measure == bare && (behind.text == "mm³" || behind.text == "mm3"):
		return q.value
	}
	return 0
}

// sizesApart tells how far two ring sizes are apart, round and across.
func (m *message) sizesApart() (Reading, bool) {
	if m.ringSizes() != 2 || len(m.found) != 2 || !m.says("difference between", "difference in", "how many mm between", "mm between", "how far apart") {
		return Reading{}, false
	}
	var around [2]float64
	for i, q := range m.found {
		c, err := ring.System(systemName(q)).Parse(q.shown)
		if err != nil {
			return Reading{}, false
		}
		around[i] = c
	}
	change := math.Abs(around[1] - around[0])
	first, second := m.found[0], m.found[1]
	return worked("difference of two sizes", "the systems' own tables",
		fmt.Sprintf("%s is %.1f mm round the finger and %s is %.1f mm: %.2f mm round, %.2f mm across. The length to let in or take out is the difference round: resize %s %s to %s %s.", first.shown, around[0], second.shown, around[1], change, change/math.Pi, systemName(first), first.shown, systemName(second), second.shown))
}

// bandsOfStrip tells how many bands of one size come out of a strip.
func (m *message) bandsOfStrip() (Reading, bool) {
	var strip *quantity
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 3 && max(q.sides[0], q.sides[1]) >= 60 {
			strip = q
		}
	}
	size := m.of(ringSize)
	if strip == nil || size == nil || m.ringSizes() != 1 || len(m.found) != 2 || !m.says("how many") {
		return Reading{}, false
	}
	sides := slices.Sorted(slices.Values(strip.sides))
	thick, wide, long := sides[0], sides[1], sides[2]
	around, err := systemOfSize(size).Parse(size.shown)
	if err != nil {
		return Reading{}, false
	}
	blank, err := ring.Shank{CircumferenceMM: around, WidthMM: wide, ThicknessMM: thick, Profile: ring.Flat}.Blank()
	if err != nil {
		return Reading{}, false
	}
	one := blank.LengthMM
	n := math.Floor((long + sawCutMM) / (one + sawCutMM))
	word := plain(n)
	if n < 4 {
		word = []string{"none", "one", "two", "three"}[int(n)]
	}
	return worked("bands from a strip", "length = pi x (inside diameter + thickness); saw cut: common practice, no source",
		fmt.Sprintf("%s%s (%s): a %s of that section takes %.1f mm, and each saw cut %s mm; %.1f mm is left over.", strings.ToUpper(word[:1]), word[1:], plain(n), strings.ToUpper(systemName(size))+" "+size.shown, one, plain2(sawCutMM), long-n*one-max(0, n-1)*sawCutMM))
}
