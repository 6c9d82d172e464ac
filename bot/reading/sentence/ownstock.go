package sentence

import "math"

// outsideShort and boreShort name the two diameters of a tube in short, wallShort its wall, and
// tubeShort the tube itself.
var (
	outsideShort = []string{"od", "outside", "outer", "o d", "outside diameter", "exterior", "external"}
	boreShort    = []string{"id", "inside", "inner", "bore", "i d", "hole", "interior", "internal"}
	wallShort    = []string{"wall", "walls", "parede", "pared", "wand", "paroi"}
	tubeShort    = []string{"tube", "tubes", "tubing", "pipe", "supplier", "stock"}
	// noTubeTold are words of figures that are of something else than the tube.
	noTubeTold = []string{"stone", "stones", "long", "seat", "band", "shank", "spare", "apart", "between", "high", "tall", "plate", "total", "how many", "how long is"}
)

// stoneSought ask which stone a tube takes.
var stoneSought = []string{"what could go", "what can go", "what goes in", "what fits", "whats fits", "what would fit", "which stone", "what stone"}

// longestOfTube is how many words a message has at most that tells of a tube and asks
// something of it.
const longestOfTube = 18

// ownTubeMeasured takes the tube that a maker has for a tube setting by its outside and its wall
// or bore, or asks for its wall: "i only have 4 mm od". Of the metal that stones are found for,
// it is another tube.
func (m *message) ownTubeMeasured(last Last) (Reading, bool) {
	ofStones := last.Request == "match" && last.Options["tubesize"] != ""
	if last.Request != "tubeset" && !ofStones || len(m.alloys) > 0 || m.words() > longestOfTube || m.says(noTubeTold...) {
		return Reading{}, false
	}
	if len(m.found) == 1 && m.words() <= longestChange && m.says("od", "outside", "outer", "o d") && !ofStones {
		return m.outsideAlone(last)
	}
	outer, wall, ok := m.tubeInWords(ofStones)
	if !ok {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	if !ofStones && m.says(stoneSought...) {
		d = m.draft("match")
	}
	m.useAll()
	d.say("tubesize", plain(outer)+"x"+plain(wall))
	r := m.changedFrom(last, d)
	return r, len(r.Changed) > 0
}

// outsideAlone asks for the wall of a tube of which the outside alone is told.
func (m *message) outsideAlone(last Last) (Reading, bool) {
	q, stone := m.found[0], lengthOf(last.Options["size"])
	if q.measure != bare && q.measure != length || q.value < 1 || q.value > 12 || stone > 0 && q.value < 0.7*stone {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	m.useAll()
	d.question("tubesize", "Which tube is it: outer diameter x wall, in mm?", d.with(plain(q.value)+" x 0.4", "tubesize", plain(q.value)+"x0.4"), d.with(plain(q.value)+" x 0.5", "tubesize", plain(q.value)+"x0.5"))
	return m.changedFrom(last, d), true
}

// tubeInWords is the tube that a message tells by two figures, its outside and its wall or its
// bore. Where surely tells that it can be nothing else, no word need name them.
func (m *message) tubeInWords(surely bool) (outer, wall float64, ok bool) {
	sides := m.tubeFigures()
	bore, walls := m.says(boreShort...) || m.outAndIn(), m.says(wallShort...)
	surely = surely && len(m.found) == 1
	if len(sides) != 2 || !surely && !bore && !walls && !m.says(outsideShort...) && !m.says(tubeShort...) {
		return 0, 0, false
	}
	outer, other := max(sides[0], sides[1]), min(sides[0], sides[1])
	wall = other
	if bore && !walls || !walls && other > outer/3 {
		wall = math.Round(1000*(outer-other)/2) / 1000
	}
	return outer, wall, wall >= 0.1 && wall <= outer/2.5 && outer >= 1 && outer <= 25
}

// tubeFigures are the two figures of a message that tell a tube, none where there are others.
// The "in" of "6 out 5 in" is no inch.
func (m *message) tubeFigures() (sides []float64) {
	for _, q := range m.found {
		switch {
		case q.measure == size && len(q.sides) == 2 && len(m.found) == 1:
			return q.sides
		case q.measure != bare && q.measure != length:
			return nil
		case m.at(q.next-1).text == "in" && m.outAndIn():
			sides = append(sides, m.at(q.first).value)
		default:
			sides = append(sides, q.value)
		}
	}
	return sides
}

// outAndIn reports whether both diameters of a tube are told in short: "6 out 5 in".
func (m *message) outAndIn() bool {
	out, in := false, false
	for i, t := range m.tokens {
		out = out || t.text == "out" && m.at(i-1).number
		in = in || t.text == "in" && m.at(i-1).number
	}
	return out && in
}
