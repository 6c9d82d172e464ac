package sentence

// outsideShort and boreShort name the two diameters of a tube in short.
var (
	outsideShort = []string{"od", "outside", "outer", "o d", "outside diameter"}
	boreShort    = []string{"id", "inside", "inner", "bore", "i d"}
)

// ownTubeMeasured takes the tube that a maker has for a tube setting by its outside and its wall
// or bore, or asks for its wall: "i only have 4 mm od".
func (m *message) ownTubeMeasured(last Last) (Reading, bool) {
	if last.Request != "tubeset" || len(m.alloys) > 0 || len(m.found) == 0 || len(m.found) > 2 || m.words() > longestChange || !m.says(outsideShort...) || m.says("stone", "stones", "deep", "long", "seat") {
		return Reading{}, false
	}
	for _, q := range m.found {
		if q.measure != bare && q.measure != length {
			return Reading{}, false
		}
	}
	outer := m.found[0].value
	d := m.draftWith("tubeset", last.Options)
	m.useAll()
	if len(m.found) == 1 {
		stone := lengthOf(last.Options["size"])
		if outer < 1 || outer > 12 || stone > 0 && outer < 0.7*stone {
			return Reading{}, false
		}
		d.question("tubesize", "Which tube is it: outer diameter x wall, in mm?", d.with(plain(outer)+" x 0.4", "tubesize", plain(outer)+"x0.4"), d.with(plain(outer)+" x 0.5", "tubesize", plain(outer)+"x0.5"))
		return m.changedFrom(last, d), true
	}
	other := m.found[1].value
	if other > outer {
		return Reading{}, false
	}
	wall := other
	if m.says(boreShort...) || other > outer/3 {
		wall = (outer - other) / 2
	}
	if wall < 0.1 || wall > outer/2.5 {
		return Reading{}, false
	}
	d.say("tubesize", plain(outer)+"x"+plain(wall))
	return m.changedFrom(last, d), true
}
