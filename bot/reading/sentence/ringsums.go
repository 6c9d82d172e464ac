package sentence

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/halo"
	"guildhand/calc/ring"
)

// ratioOfRing tells what two of a jump ring's wire, inside and aspect ratio make of
// the third; an outside diameter is two wires more than the inside.
func (m *message) ratioOfRing() (Reading, bool) {
	if m.counts("rings", "jump rings", "pieces") != nil || m.says("how many", "how much wire", "wire length", "weigh") {
		return Reading{}, false
	}
	wire, w := m.wireOf()
	ratio := m.ratioSaid()
	across, outer := m.acrossRing(w, ratio)
	switch {
	case across == nil || len(m.lengths()) > 3 || ratio != nil && (across == ratio || (m.at(across.first-1).text == "wire" || m.between(across.first-2, across.first) == "wire is")):
		return Reading{}, false
	case ratio != nil && w == nil && !outer:
		thick := across.value / ratio.value
		return worked("wire for an aspect ratio", "inside / ratio; ASTM B258 for gauges",
			fmt.Sprintf("Take wire of %s: the inside, %s, over the ratio, %s. The nearest gauge is %s, %s.", mm(thick), mm(across.value), plain(ratio.value), plain(nearestGauge(thick))+" ga", mm(gaugeMM(nearestGauge(thick)))))
	case ratio != nil || w == nil || w == across:
		return Reading{}, false
	}
	inside, how := across.value, ""
	if outer {
		inside -= 2 * wire
		how = fmt.Sprintf("The inside is %s: %s outside less two wires of %s. ", mm(inside), mm(across.value), mm(wire))
	}
	if inside <= 0 {
		return Reading{}, false
	}
	w.used, across.used = true, true
	d := m.draft("jumpring")
	d.say("wire", w.shown)
	if w.measure != gauge {
		d.say("wire", plain(wire)+"mm")
	}
	d.say("inside", across.shown)
	if outer {
		d.say("inside", plain(inside))
	}
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("%sThe aspect ratio is the inside over the wire: %s / %s = %.1f.", how, plain2(inside), plain2(wire), inside/wire)
	return r, true
}

// ratioSaid is the bare number beside the words for an aspect ratio.
func (m *message) ratioSaid() *quantity {
	for _, q := range m.found {
		if m.timesWire(q) {
			return q
		}
	}
	for i := range m.tokens {
		if w := m.at(i).text; w != "ratio" && w != "ar" {
			continue
		}
		for _, q := range m.found {
			if gap := max(q.first-i-1, i-q.next); q.measure == bare && gap >= 0 && (gap <= 1 || gap == 2 && m.at(i+1).text == "of") && (q.role == "" || q.role == "perimeter") {
				return q
			}
		}
	}
	return nil
}

// timesWire reports whether a figure says how many wires wide a ring is: "3.5 times the
// wire".
func (m *message) timesWire(q *quantity) bool {
	return (q.measure == bare || q.measure == count) && q.value >= 2 && q.value <= 12 && (m.at(q.next).text == "times" || q.thing == "times") && m.saysOneBetween(q.next, q.next+4, "wire", "thickness", "gauge")
}

// acrossRing is how wide a jump ring is, and whether that is its outside.
func (m *message) acrossRing(not ...*quantity) (q *quantity, outer bool) {
	if q := m.with("outer"); q != nil {
		return q, true
	}
	if q := m.saidOutside(); q != nil {
		return q, true
	}
	return m.insideOf(not...), false
}

// outsideWords say that a figure was measured over the wire.
var outsideWords = []string{"across the outside", "outside to outside", "over the outside", "on the outside", "measured outside", "outer edge to outer edge", "edge to edge", "overall", "over all", "outside measurement", "outside measure", "measure outside", "measures outside"}

// saidOutside is the figure of a jump ring that a phrase calls its outside: "7.9
// across the outside".
func (m *message) saidOutside() *quantity {
	if !m.says(outsideWords...) {
		return nil
	}
	for _, q := range m.lengths() {
		if !q.used && (q.role == "diameter" || q.role == "" || q.role == "outer") && q.value > 2.6 && q.value <= 60 {
			return q
		}
	}
	return nil
}

// nearestGauge is the whole B&S number nearest to a thickness.
func nearestGauge(thickMM float64) float64 {
	return math.Round(36 - 39*math.Log(thickMM/0.127)/math.Log(92))
}

// linksMissing answers how many links bring a chain to its length.
func (m *message) linksMissing() (Reading, bool) {
	var long []*quantity
	for _, q := range m.lengths() {
		if q.value >= 25 && q.measure == length && q.role != "inner" || q.measure == bare && q.role == "" && len(long) == 1 && q.value > 12 {
			long = append(long, q)
		}
	}
	inside := m.insideOfLink()
	if len(long) != 2 || inside <= 0 {
		return Reading{}, false
	}
	a, b := long[0].value, long[1].value
	if long[1].measure == bare { // "41 cm and I need 45"
		b *= a / m.at(long[0].first).value
	}
	missing := math.Abs(b - a)
	if missing < inside || missing > 0.6*max(a, b) {
		return Reading{}, false
	}
	n := math.Round(missing / inside)
	return worked("links for a longer chain", "rings in line, pulled straight",
		fmt.Sprintf("About %.0f links: the chain wants %s more, and pulled straight each link adds its inside, %s. Make an odd or even number as the clasp needs, and one to spare.", n, mm(missing), mm(inside)))
}

// insideOfLink is the inside of a chain's link, told as such or by its outside and
// wire; 0 where it is not known.
func (m *message) insideOfLink() float64 {
	if q := m.with("inner", "diameter"); q != nil {
		return q.value
	}
	wire, w := m.wireOf()
	if q := m.with("outer"); q != nil && w != nil && w != q {
		return q.value - 2*wire
	}
	return 0
}

// eternityStones answers how many stones stand all round a ring.
func (m *message) eternityStones() (Reading, bool) {
	size, stone := m.of(ringSize), m.first(0.8, 6, length)
	if size == nil || stone == nil {
		return Reading{}, false
	}
	circumference, err := ring.System(systemName(size)).Parse(size.shown)
	if err != nil {
		return Reading{}, false
	}
	const under, gap = 1.0, 0.1 // metal under the girdle and between the stones; common practice, no source
	n := math.Floor((circumference + 2*math.Pi*under) / (stone.value + gap))
	return worked("stones of an eternity ring", "circle of the girdles; metal under them and gaps: common practice, no source",
		fmt.Sprintf("About %.0f stones of %s: with %s of metal under the girdles they stand on a circle %s round, and each takes %s and a gap of %s. Lay them out on that circle before you drill, and share what is left over; a ring with stones all round can't be sized later.", n, mm(stone.value), mm(under), mm(circumference+2*math.Pi*under), mm(stone.value), mm(gap)))
}

// sizeOfStack answers from the facts on bands which size rings have that are worn
// together.
func (m *message) sizeOfStack() (Reading, bool) {
	f := m.ringFact("band", true)
	if f == nil || m.ringSizes() > 0 {
		return Reading{}, false
	}
	return explain(f), true
}

// weaves are chains that take more rings than a plain one.
var weaves = []string{"byzantine", "half persian", "full persian", "european 4 in 1", "european", "4 in 1", "4in 1", "6 in 1", "jens pind", "dragonscale", "box chain", "box weave", "foxtail", "viking", "helm", "japanese", "roundmaille", "full persian 6 in 1", "king chain", "turkish", "inca", "mobius", "shaggy loops", "orbital", "euro 4", "jpl", "rope chain", "loop in loop", "loop-in-loop", "roman chain"}

// weaveRatios are the aspect ratios that weaves of round rings are mostly made with:
// common practice, from memory. The longer names stand before their parts.
var weaveRatios = []struct {
	name, say string
	ratio     float64
}{
	{"Jens Pind's linkage", "jens pind", 2.9}, {"Jens Pind's linkage", "jpl", 2.9},
	{"Half Persian 4 in 1", "half persian 4 in 1", 5}, {"Half Persian", "half persian", 4.5},
	{"Full Persian", "full persian", 5}, {"Byzantine", "byzantine", 3.5}, {"Box chain", "box chain", 3.5},
	{"European 4 in 1", "european 4 in 1", 4}, {"European 4 in 1", "european", 4},
}

// ratioOfWeave tells the usual aspect ratio of a weave, and the inside that it makes
// of the wire.
func (m *message) ratioOfWeave() (Reading, bool) {
	wire, w := m.wireOf()
	if w == nil || m.with("inner") != nil {
		return Reading{}, false
	}
	for _, weave := range weaveRatios {
		if !m.says(weave.say) {
			continue
		}
		return worked("aspect ratio of a weave", "common practice, from memory",
			fmt.Sprintf("%s mostly wants an aspect ratio of about %s: with wire of %s that is rings of about %s inside. A tenth more or less decides how stiff it is, so make a hand's length first. For their wire: jumpring wire %smm ratio %s count 50.", weave.name, plain(weave.ratio), mm(wire), mm(math.Round(10*wire*weave.ratio)/10), plain2(wire), plain(weave.ratio)))
	}
	return Reading{}, false
}

// weaveByPatch answers that rings of a weave are counted from a piece of it.
func (m *message) weaveByPatch() (Reading, bool) {
	wire, w := m.wireOf()
	if w == nil || m.says("mandrel", "aspect ratio", "=ar") || m.counts("rings", "jump rings", "pieces") != nil {
		return Reading{}, false
	}
	if inside := m.insideOf(w); inside != nil && inside != w && inside.value < 20 {
		return ringsByPatch(wire, inside.value)
	}
	return ringsByPatch(wire, 0)
}

// evenAngle answers the angle between holes or stones that stand evenly round a
// circle.
func (m *message) evenAngle() (Reading, bool) {
	n := m.counts("holes", "stones", "prongs", "pieces", "settings")
	for _, q := range m.found {
		if n == nil && q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 3 && q.value <= 200 {
			n = q
		}
	}
	for i, t := range m.tokens {
		if v := numberWords[t.text]; n == nil && v >= 3 && v == math.Trunc(v) && !m.taken[i] {
			n = &quantity{measure: count, value: v}
		}
	}
	if n == nil || n.value < 2 {
		return Reading{}, false
	}
	return worked("angle between holes", "a circle is 360 degrees",
		fmt.Sprintf("%.4g degrees between one and the next: 360 / %s. To check with dividers, step off pitch circle x sin(%.4g degrees).", 360/n.value, plain(n.value), 180/n.value))
}

// centreOfHalo answers how wide a round centre is that so many small stones fit
// round.
func (m *message) centreOfHalo() (Reading, bool) {
	small := m.first(0.7, 6, length)
	n := m.counts("stones", "pieces")
	for _, q := range m.found {
		if n == nil && q != small && q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 5 {
			n = q
		}
	}
	if n == nil || small == nil || n.value < 5 {
		return Reading{}, false
	}
	for _, q := range m.lengths() {
		if q != small && q != n && q.value > small.value {
			return Reading{}, false // the centre is known
		}
	}
	const gap = 0.1 // the halo's usual gaps
	touching := halo.EvenCentreMM(small.value, int(n.value), 0, 0)
	spaced := halo.EvenCentreMM(small.value, int(n.value), gap, gap)
	return worked("centre for a number of stones", "circles round a circle",
		fmt.Sprintf("%s stones of %s touch one another and the centre round %s. With gaps of 0.1 mm between them and to the centre it is %s. To see it: halo round %s with %s count %s.", plain(n.value), mm(small.value), mm(touching), mm(spaced), plain2(spaced), plain2(small.value), plain(n.value)))
}

// stonesTouch answers whether a ring of round stones touch one another.
func (m *message) stonesTouch() (Reading, bool) {
	n := m.countedStones()
	var d []*quantity
	var wall float64
	for _, q := range m.lengths() {
		switch {
		case q.value >= 0.7 && q.value <= 30 && q != nil && (n == 0 || q.value != n || q.measure == length):
			d = append(d, q)
		case q.value < 0.7:
			wall = q.value
		}
	}
	if n < 3 || len(d) != 2 || len(m.lengths()) > 4 {
		return Reading{}, false
	}
	small, centre := d[0].value, d[1].value
	if small > centre && !m.beneath(d[0], smallWords) {
		small, centre = centre, small
	}
	gap := func(wall float64) string {
		g := halo.EvenGapMM(small+2*wall, centre+2*wall, int(n))
		switch {
		case math.Abs(g) < 0.005:
			return "touch exactly"
		case g > 0:
			return fmt.Sprintf("stand %s apart", mm(g))
		}
		return fmt.Sprintf("don't fit: they are %s too wide each", mm(-g))
	}
	text := fmt.Sprintf("%s stones of %s set against a centre of %s %s.", plain(n), mm(small), mm(centre), gap(0))
	if wall > 0 {
		text += fmt.Sprintf(" With a bezel of %s round every stone they %s: each grows by twice the wall.", mm(wall), gap(wall))
	}
	for _, q := range m.found {
		q.used = true
	}
	answer := m.draft("halo")
	answer.say("outline", "round")
	answer.say("size", plain(centre))
	answer.say("with", plain(small))
	answer.say("count", plain(n))
	return Reading{Outcome: Request, Request: "halo", Options: answer.options, Verdict: text}, true
}

// countedStones is how many stones stand round a centre, in figures or words.
func (m *message) countedStones() float64 {
	if q := m.counts("stones", "pieces", "settings"); q != nil {
		return q.value
	}
	for i, t := range m.tokens {
		if n := numberWords[t.text]; n >= 3 && n == math.Trunc(n) && !m.taken[i] {
			return n
		}
	}
	for _, q := range m.found {
		if q.measure == bare && q.role == "" && q.value == math.Trunc(q.value) && q.value >= 3 {
			return q.value
		}
	}
	return 0
}

// hiddenHalo answers stones round the cone of a setting, under its stone.
func (m *message) hiddenHalo() (Reading, bool) {
	text := "It is the same calculation, with the width of the setting at that height in place of the stone's: measure across the cone where the small stones' girdles will stand."
	across := m.with("diameter", "outer")
	if across == nil {
		return worked("hidden halo", "circles round a circle", text+" Then ask, with that width: halo round 5.5 with 1.2.")
	}
	return worked("hidden halo", "circles round a circle",
		fmt.Sprintf("%s Yours is %s there. Ask with the small stones' size: halo round %s with 1.2.", text, mm(across.value), plain2(across.value)))
}

// tubePairs are the tubes of a message that gives several as outside and inside:
// "3.5/2.5, 4.5/3.3".
func (m *message) tubePairs() (pairs [][2]float64) {
	for _, q := range m.found { // "3/2" is no fraction of an inch
		if top, bottom, ok := strings.Cut(strings.TrimSuffix(q.shown, " in"), "/"); ok && q.measure == length && parse(top) > parse(bottom) && !strings.Contains(top, " ") {
			pairs = append(pairs, [2]float64{parse(top), parse(bottom)})
		}
	}
	pairs = append(pairs, m.tubeSizes()...)
	for k := 0; k+1 < len(m.found); k++ {
		od, id := m.found[k], m.found[k+1]
		if gap := m.between(od.next, id.first); gap != "-" && gap != "x" || od.measure != bare && od.measure != length || id.measure != bare && id.measure != length || od.value <= id.value || od.value > 2.5*id.value {
			continue
		}
		pairs = append(pairs, [2]float64{od.value, id.value})
		k++
	}
	return pairs
}

// tubeSizes are several sizes of tube, each outside x inside: "3.0 x 1.8 and 2.6 x 1.6".
func (m *message) tubeSizes() (pairs [][2]float64) {
	for _, q := range m.found {
		switch {
		case q.measure != size:
			continue
		case len(q.sides) != 2 || q.sides[1] >= q.sides[0] || q.sides[0] > 2.5*q.sides[1]:
			return nil
		}
		pairs = append(pairs, [2]float64{q.sides[0], q.sides[1]})
	}
	return pairs
}

// stonesOfTubes answers which round stones go in several tubes.
func (m *message) stonesOfTubes() (Reading, bool) {
	pairs := m.tubePairs()
	if len(pairs) < 2 {
		return Reading{}, false
	}
	var parts []string
	for _, p := range pairs {
		parts = append(parts, fmt.Sprintf("%s / %s takes a stone of about %s", plain2(p[0]), plain2(p[1]), mm((p[0]+p[1])/2)))
	}
	return worked("stones for tubes", "half of the wall: C. Lewton-Brain, Tube Setting",
		"A round stone covers half of the wall, so it is halfway between inside and outside: "+strings.Join(parts, "; ")+". Up to a tenth of a millimetre more or less can be cut.")
}

// notchForWire answers how a tube or a cup is notched to sit on round wire.
func (m *message) notchForWire() (Reading, bool) {
	wire := m.wireBelow()
	if wire == nil || m.of(ringSize) != nil {
		return Reading{}, false
	}
	return worked("notch for round wire", "the wire's own circle; depth: common practice, no source",
		fmt.Sprintf("The notch is half a round of the wire's own diameter, %s: use a round file, a ball bur or a cylinder bur of %s, and cut straight through both walls. At full depth, %s, the wire lies in to its middle; a quarter of its diameter is enough for a joint. Across a ring's shank the notch also follows the ring's outside a little; try it often.", mm(wire.value), mm(wire.value), mm(wire.value/2)))
}

// tubeOnWire answers the notch of a tube that sits across a wire, where no ring is told.
func (m *message) tubeOnWire(r Reading) (Reading, bool) {
	if r.Outcome == Request || !m.says("notch", "notched", "fishmouth", "fish mouth", "saddle", "scoop") || !m.has("tube") || !m.says("wire") || len(m.lengths()) != 2 || m.has("stone") {
		return Reading{}, false
	}
	return m.notchForWire()
}

// wireBelow is the round wire that a base sits on: "onto 1.2 wire", "2mm round shank".
func (m *message) wireBelow() *quantity {
	for _, q := range m.lengths() {
		if q.value < 0.5 || q.value > 5 {
			continue
		}
		switch m.at(q.next).text {
		case "wire":
			return q
		case "round":
			if w := m.at(q.next + 1).text; w == "shank" || w == "wire" || w == "band" || w == "ring" {
				return q
			}
		}
	}
	return nil
}
