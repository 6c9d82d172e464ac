package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// coilWords are of a coil and what it was wound on.
var coilWords = append([]string{"=coil", "coils", "wound"}, mandrelWords...)

// mostOpened is how many times its mandrel a coil is inside at most.
const mostOpened = 1.16

// mostAlike is how many times another figure is one so near to it that either may be meant.
const mostAlike = 1.06

// mostWanted is how many times the measured mandrel the inside that is wanted is at most: more
// is the length of a coil or a chain.
const mostWanted = 2.5

// leastWanted is how many times the measured mandrel the inside that is wanted is at least:
// less is the wire.
const leastWanted = 0.4

// coilSprung is a coil that was measured: what it was wound on, its inside once it sprang
// open, and the inside that is wanted, nil where that is what it was wound on. A mandrel and
// its coil are the two figures that differ by so little.
func (m *message) coilSprung() (rod, coil, wanted *quantity) {
	var across []*quantity
	for _, q := range m.lengths() {
		wire := q == m.beside("wire") || q.role == "thickness" || q.role == "wall" || m.at(q.next).text == "wire"
		again := slices.ContainsFunc(across, func(o *quantity) bool { return math.Abs(o.value-q.value) < 0.005 })
		if !wire && !again && (q.value >= 1.5 || m.beginsWithPoint(q)) {
			across = append(across, q)
		}
	}
	alike := 0
	for i, a := range across {
		for j, b := range across {
			if b.value > a.value && b.value <= mostAlike*a.value {
				alike++
			}
			if b.value <= a.value || b.value > mostOpened*a.value || rod != nil && b.value/a.value > coil.value/rod.value {
				continue
			}
			rod, coil, wanted = a, b, nil
			if len(across) == 3 && across[3-i-j].value > leastWanted*a.value && across[3-i-j].value < mostWanted*a.value {
				wanted = across[3-i-j]
			}
		}
	}
	if len(across) > 3 || alike > 1 { // which is the coil and which is wanted isn't told
		return nil, nil, nil
	}
	return rod, coil, wanted
}

// asksMandrel reports whether what to wind a coil on is asked for, or what one that was
// measured tells of it.
func (m *message) asksMandrel() bool {
	if m.says("how many", "wire length", "length of wire", "how much wire", "aspect ratio", "=ratio") {
		return false
	}
	for i := range m.tokens {
		if w := m.at(i).text; (w == "what" || w == "which" || w == "whats") && m.saysOneBetween(i+1, i+6, "mandrel", "rod", "dowel", "drill", "wind", "use", "needle", "take") {
			return true
		}
	}
	return m.says("how much smaller", "mandrel for", "rod for", "want", "exactly", "true", "normal", "bigger than", "why")
}

// measuredCoil are words of a coil that came off its mandrel.
var measuredCoil = []string{"sprang", "springs", "sprung", "spring back", "springback", "springs back", "sprang back", "spring open", "came out", "comes out", "come out", "coming out", "came off", "come off", "measure", "measures", "measured", "measuring", "opened", "opens", "ended up", "turned out", "are now", "get", "got", "gives", "gave", "have", "actual", "bigger", "larger", "end up", "became", "grew", "inside of", "read", "reads"}

// mandrelByTrial answers which mandrel makes the ring that is wanted, from one coil that was
// measured: the spring back is taken in proportion.
func (m *message) mandrelByTrial(Reading) (Reading, bool) {
	const perhapsRings = 0.2
	if m.chance("jumpring", "explain") < perhapsRings || !m.says(coilWords...) || m.says("finger", "bezel", "bangle") || m.ringSizes() > 0 || !m.asksMandrel() {
		return Reading{}, false
	}
	m.ringsInInches("jumpring")
	rod, coil, wanted := m.coilSprung()
	if rod == nil || !m.says(measuredCoil...) {
		return Reading{}, false
	}
	target := rod
	if wanted != nil {
		target = wanted
	}
	inInches := ""
	takes := rod.value * target.value / coil.value
	if strings.HasSuffix(coil.shown, " in") {
		inInches = fmt.Sprintf(" (%.4f in)", takes/25.4)
	}
	return worked("springback of a coil", "one measured coil, in proportion",
		fmt.Sprintf("Your coil sprang open from %s to %s, which is normal. For rings of %s inside take a mandrel of about %s%s: %s x %s / %s. Wind three turns on it and measure them; annealed wire springs back less.",
			mm(rod.value), mm(coil.value), mm(target.value), mm(takes), inInches, plain2(rod.value), plain2(target.value), plain2(coil.value)))
}
