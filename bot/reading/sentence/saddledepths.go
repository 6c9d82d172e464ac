package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/ring"
)

// baseOnRing tells how deep a setting's base is hollowed for a ring, where all that is told
// of the setting is how wide its base is: its stone has no part in that.
func (m *message) baseOnRing(r Reading) (Reading, bool) {
	if !m.canAnswer("saddle") || r.Outcome == Explanation && factNamed(r.Topic) == nil || slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == carat || q.measure == mass }) {
		return Reading{}, false
	}
	if told, ok := m.sizedBaseOnRing(r); ok {
		return told, true
	}
	wide := m.baseWidth()
	if told, ok := m.ringOfSaddle(r, wide); ok {
		return told, true
	}
	if wide == nil || m.of(size) != nil || !m.says("ring", "band", "shank") {
		return Reading{}, false
	}
	stoneAsked := r.Outcome == Question && r.Request == "saddle" && r.Options["outline"] == "" && m.asksOfBase() && !m.has("tube") && !m.says("template", "pattern", "blank")
	asStone := r.Request == "saddle" && r.Outcome == Request && mmOf(r.Options["size"]) == wide.value
	switch {
	case r.Outcome == Request && !asStone:
		return Reading{}, false
	case stoneAsked, asStone && m.namedBase(wide), m.baseIsToSit(r) && m.asksOfBase(), m.asksDepthOfBase(r):
	default:
		return Reading{}, false
	}
	told, ok := m.depthOfSaddle()
	if tall := m.with("height"); ok && tall != nil && tall != wide {
		told.Text += fmt.Sprintf(" The setting then stands that much lower than its %s.", mm(tall.value))
	}
	return told, ok
}

// namedBase reports whether a figure is called a setting's base, whatever its stone is.
func (m *message) namedBase(q *quantity) bool {
	return m.saysOneBetween(q.first-2, q.next+2, "base", "bottom", "btm", "foot", "underside")
}

// basesOnRings tells how deep one base is hollowed for each of several rings.
func (m *message) basesOnRings(r Reading) (Reading, bool) {
	wide, thick := m.baseWidth(), m.with("thickness")
	if thick == nil {
		thick = m.of(gauge)
	}
	if wide == nil || thick == nil || r.Outcome == Request || !m.asksDepthOfBase(r) {
		return Reading{}, false
	}
	list, ok := m.sizesListed()
	if !ok {
		return Reading{}, false
	}
	var parts []string
	for _, one := range list.rings {
		outside := one.round/math.Pi + 2*thicknessOf(thick)
		if outside <= wide.value {
			return Reading{}, false
		}
		parts = append(parts, fmt.Sprintf("%s: %s", one.shown, mm(sagitta(outside, wide.value))))
	}
	return worked("depths of several saddles", "rise of a chord in a circle",
		fmt.Sprintf("The hollow is as deep as this for each size: %s. The base is %s wide across the curve and the metal %s thick. File a little less and fit each to its ring.", strings.Join(parts, ", "), mm(wide.value), mm(thicknessOf(thick))))
}

// asksDepthOfBase reports whether a message asks how deep a setting's base goes over a ring,
// in words that are of nothing else where a base and a ring are spoken of.
func (m *message) asksDepthOfBase(r Reading) bool {
	return r.Outcome != Request && m.says("sagitta", "depth", "how deep", "hollow", "lose", "lost", "notch", "fishmouth", "fish mouth", "do i take off", "to take off", "do i file", "file off") && !m.says("template", "pattern", "blank", "seat depth", "bur", "burr") && !m.has("halo", "jumpring") && !(m.has("tube") && m.with("height") != nil && !m.says("lose", "lost"))
}

// sagitta is how deep a base so wide lies over a round that has this diameter.
func sagitta(across, wide float64) float64 {
	r, half := across/2, wide/2
	return r - math.Sqrt(r*r-half*half)
}

// sizedBase is the size of an oval or square base, nil where none is told or it is its
// stone's.
func (m *message) sizedBase() *quantity {
	var base *quantity
	for _, q := range m.found {
		if q.measure != size {
			continue
		}
		ofBase := m.saysOneBetween(q.first-2, q.first, "base", "bottom", "foot") || m.saysOneBetween(q.next, q.next+4, "base", "bottom", "foot")
		if base != nil || !ofBase || len(q.sides) != 2 || max(q.sides[0], q.sides[1]) >= 20 || min(q.sides[0], q.sides[1]) < 2 {
			return nil
		}
		base = q
	}
	return base
}

// sizedBaseOnRing tells how deep a base of two sides is hollowed for a ring: what counts is
// the side that lies round the finger.
func (m *message) sizedBaseOnRing(r Reading) (Reading, bool) {
	base := m.sizedBase()
	if base == nil || m.chance("saddle", "explain") < perhapsSaddle || r.Request != "saddle" && r.Outcome == Request {
		return Reading{}, false
	}
	outside, how := m.outsideOf(base)
	long, short := max(base.sides[0], base.sides[1]), min(base.sides[0], base.sides[1])
	if outside <= long {
		return Reading{}, false
	}
	along := fmt.Sprintf("%s where %s lie round the finger", mm(sagitta(outside, short)), plain(short)+" mm")
	across := fmt.Sprintf("%s where %s do", mm(sagitta(outside, long)), plain(long)+" mm")
	depth := along + ", and " + across
	switch {
	case long == short:
		depth = mm(sagitta(outside, long))
	case m.says("along the finger", "along finger", "with the finger", "along my finger", "up the finger", "along her finger"):
		depth = fmt.Sprintf("%s with its length along the finger, because then %s lie round it; across the finger it would be %s", mm(sagitta(outside, short)), plain(short)+" mm", mm(sagitta(outside, long)))
	case m.says("across the finger", "across finger", "across my finger", "across her finger", "along the band", "round the ring", "round the finger"):
		depth = fmt.Sprintf("%s with its length across the finger, because then %s lie round it; along the finger it would be %s", mm(sagitta(outside, long)), plain(long)+" mm", mm(sagitta(outside, short)))
	}
	return worked("depth of a saddle", "rise of a chord in a circle",
		fmt.Sprintf("The base is hollowed %s: the base is %s, %s. The hollow has the curve of the shank's outside. On a square base the two sides that run round the finger are curved, and the two that cross the band stay straight. On an oval the hollow is deepest on the ring's centre line and runs out to nothing at the two ends that lie round the finger. Wrap abrasive paper round a slightly thinner rod, so that both together are no wider than the shank's outside; file a little less than this and fit it to the ring. For a pattern I also need the stone and the setting's height.", depth, strings.TrimSpace(base.typed(m)), how))
}

// ringOfSaddle tells which ring a hollow of a depth fits, where no ring is told: the rise of
// a chord tells its circle.
func (m *message) ringOfSaddle(r Reading, wide *quantity) (Reading, bool) {
	asks := m.says("what ring", "which ring", "ring od", "ring outside", "outside diameter", "what od", "what diameter", "which diameter")
	if !asks || m.of(ringSize) != nil || m.of(size) != nil || r.Outcome == Request || !m.says("deep", "depth", "sagitta", "notch", "hollow") {
		return Reading{}, false
	}
	var deep *quantity
	for _, q := range m.lengths() {
		switch {
		case q.value >= 0.15 && q.value < 3 && deep == nil:
			deep = q
		case q.value >= 3 && q.value < 16 && (wide == nil || wide == q || wide.value < 3):
			wide = q
		case q != wide:
			return Reading{}, false
		}
	}
	if deep == nil || wide == nil || wide == deep || deep.value >= wide.value/2 {
		return Reading{}, false
	}
	across := deep.value + wide.value*wide.value/(4*deep.value)
	us, _, ok := ring.US.Nearest(math.Pi * (across - 3))
	says := ""
	if ok {
		says = fmt.Sprintf(" With a shank of 1.5 mm that would be about US %s.", us)
	}
	return worked("ring of a saddle", "rise of a chord in a circle",
		fmt.Sprintf("It fits a ring %s in outside diameter: depth + width squared / (4 x depth), with a depth of %s and a width of %s.%s", mm(across), mm(deep.value), mm(wide.value), says))
}

// baseIsToSit reports whether a setting is to sit on a ring, and nothing is drawn for it.
func (m *message) baseIsToSit(r Reading) bool {
	if m.says("template", "pattern", "blank", "corners", "fishmouth") {
		return false
	}
	plainly := m.says("sit", "sits", "stand", "stands", "saddle", "sagitta")
	return plainly || r.Request == "saddle" && m.says("deep", "lower", "lose") && !m.has("tube") && m.cues["bezel"] < 3
}

// asksOfBase reports whether a message asks how a base is cut to a ring, or what that takes
// off its height.
func (m *message) asksOfBase() bool {
	return m.says("deep", "depth", "sagitta", "rounding", "scoop", "curve", "height is lost", "height lost", "lower", "lose", "taken off", "how do", "how to", "how much")
}

// burOfSaddle tells which rod or file has the curve of a ring that is told by its size.
func (m *message) burOfSaddle(r Reading) (Reading, bool) {
	if r.Outcome != Question || r.Request != "saddle" || m.of(size) != nil || !m.says("=bur", "=burr", "=file", "=rod", "=drill") {
		return Reading{}, false
	}
	for _, q := range m.found {
		role, chance := m.likelyRole("saddle", q)
		if q.measure == bare && role == "shank" && chance >= likelyRole && isFingerRound(q) {
			q.measure, q.unit, q.system = ringSize, true, "iso"
		}
	}
	return m.rodOfSaddle()
}
