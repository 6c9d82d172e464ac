package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/jumpring"
)

// jumpring works out jump rings from which of the figures are told.
func (f *ringFigures) jumpring() (Reading, bool) {
	f.coilBeside()
	f.insideOfOutside()
	several, ok := f.several()
	if !ok || !f.settleRatio() {
		return Reading{}, false
	}
	switch wire, inside := f.of["wire"], f.across(); {
	case several == "mandrel" && len(wire) == 1 && (f.one("ratio") != nil || f.one("inside") != nil):
		return f.whichMandrel()
	case several == "count" || several == "kerf":
		return Reading{}, false
	case several != "" && len(wire) > 0 && inside != "":
		return f.ringsCompared(several)
	case several != "":
		return Reading{}, false
	case len(wire) == 0 && f.one("ratio") != nil && f.one("inside") != nil:
		return f.wireOfRatio()
	case len(wire) == 1 && inside != "":
		return f.ringsAsTold(inside)
	case len(wire) == 1 && f.one("chain") != nil && f.one("count") != nil:
		return f.insideOfChain()
	case len(wire) == 1:
		return f.turnsOfCoil()
	}
	return Reading{}, false
}

// insideOfChain is the inside of the rings of a chain whose length and number are told:
// pulled straight, each adds its inside, and the two ends a wire each.
func (f *ringFigures) insideOfChain() (Reading, bool) {
	long, n, wire := f.mmOf("chain"), f.mmOf("count"), f.mmOf("wire")
	inside := (long - 2*wire) / n
	if n < 2 || inside < wire {
		return Reading{}, false
	}
	r := f.reading("wire", "count")
	r.Options["inside"] = plain2(inside)
	r.Verdict = fmt.Sprintf("Each link is about %s inside: (%s - 2 x %s) / %s, because pulled straight each adds its inside and the two ends a wire each.", mm(inside), mm(long), mm(wire), plain(n))
	return r, true
}

// coilBeside takes the length of a coil for that, and not for a chain's.
func (f *ringFigures) coilBeside() {
	chain := f.one("chain")
	if chain == nil || !f.coilIsMeasured(chain) && !f.perLength(chain) || f.m.says("chain", "necklace", "bracelet") {
		return
	}
	delete(f.of, "chain")
	f.beside = append(f.beside, chain)
}

// perLength reports whether rings are counted by a length of wire, "how many per ft", and
// not links by one of chain.
func (f *ringFigures) perLength(q *quantity) bool {
	return strings.HasPrefix(strings.TrimSpace(q.typed(f.m)), "per ") && !f.m.says("link", "links")
}

// across is the option that tells how wide the ring is: its inside where that is told,
// else its mandrel or its ratio; empty for none.
func (f *ringFigures) across() string {
	for _, option := range []string{"inside", "mandrel", "ratio"} {
		if len(f.of[option]) > 0 {
			return option
		}
	}
	return ""
}

// insideOfOutside takes a ring's outside, less the wire on both sides, for its inside.
func (f *ringFigures) insideOfOutside() {
	wire := f.mmOf("wire")
	var outside *quantity
	for _, q := range append(append([]*quantity{}, f.of["inside"]...), f.beside...) {
		if q.measure != gauge && q.value > 2*wire+0.5 && q.value < 60 && f.isOutside(q) {
			outside = q
		}
	}
	if outside == nil || wire == 0 {
		return
	}
	drop := func(all []*quantity) (kept []*quantity) {
		for _, q := range all {
			if q != outside {
				kept = append(kept, q)
			}
		}
		return kept
	}
	f.beside, f.of["inside"] = drop(f.beside), drop(f.of["inside"])
	within := outside.value - 2*wire
	f.m.assume("%s outside is %s inside", mm(outside.value), mm(within))
	f.add("inside", &quantity{measure: length, value: within, shown: plain2(within), unit: true, first: outside.first, next: outside.next})
	f.closeEnough("inside")
}

// isOutside reports whether a figure of jump rings is told as their outside.
func (f *ringFigures) isOutside(q *quantity) bool {
	const mostOutside = 60
	m, words := f.m, []string{"outside", "outer", "od"}
	if q.value > mostOutside || q.measure != length && q.measure != bare {
		return false
	}
	if next := m.between(q.next, q.next+2); q.role == "outer" || next == "over all" || m.at(q.next).text == "overall" || m.saysOneBetween(q.next, q.next+1, words...) {
		return true
	}
	inside := []string{"inside", "inner", "id", "hole", ",", "."}
	if m.saysOneBetween(q.first-5, q.first, words...) {
		return q.role != "inner" && !m.saysOneBetween(q.first-5, q.first, inside...)
	}
	another := slices.ContainsFunc(m.found, func(o *quantity) bool { return o.first >= q.next && o.first <= q.next+4 })
	return !another && m.saysOneBetween(q.next, q.next+3, words...) && !m.saysOneBetween(q.next, q.next+2, inside...)
}

// closeEnough drops figures of an option that are another by rounding.
func (f *ringFigures) closeEnough(option string) {
	all := f.of[option]
	if len(all) == 2 && math.Abs(all[0].value-all[1].value) < 0.06 {
		f.of[option] = all[:1]
	}
	if len(f.of[option]) == 0 {
		delete(f.of, option)
	}
}

// settleRatio leaves out a ratio that only says what inside and wire say; false where it
// says something else.
func (f *ringFigures) settleRatio() bool {
	ratio, wire, inside := f.one("ratio"), f.mmOf("wire"), f.one("inside")
	if ratio == nil || wire == 0 || inside == nil {
		return true
	}
	if math.Abs(inside.value/wire-ratio.value) > 0.15 {
		return false
	}
	delete(f.of, "ratio")
	return true
}

// ringMM is the ring of these figures: a coil is as wide inside as its mandrel before it
// springs back.
func (f *ringFigures) ringMM() jumpring.Ring {
	r := jumpring.Ring{WireMM: f.mmOf("wire")}
	switch across := f.across(); across {
	case "ratio":
		r.InsideMM = f.mmOf("ratio") * r.WireMM
	default:
		r.InsideMM = f.mmOf(across)
	}
	return r
}

// ringsAsTold is the request with every figure in its place, with what else is asked of
// them: a chain of so many, or how many there are in the wire at hand.
func (f *ringFigures) ringsAsTold(across string) (Reading, bool) {
	ring := f.ringMM()
	if ring.Check() != nil || f.one("count") != nil && f.one("chain") != nil {
		return Reading{}, false
	}
	options := []string{"wire", across, "count", "chain", "kerf"}
	if across == "inside" && f.one("mandrel") != nil {
		f.m.assume("the mandrel, %s, is left out, since you tell the inside", mm(f.mmOf("mandrel")))
	}
	verdict, ok := f.ofWireAtHand(ring)
	if !ok {
		return Reading{}, false
	}
	if verdict == "" && f.one("count") != nil && !f.m.leavesLinksOpen() && f.m.says("chain", "necklace", "bracelet", "anklet", "choker", "linked") && !f.m.says("chain mail", "chainmail", "maille") {
		n := int(f.mmOf("count"))
		verdict = fmt.Sprintf("%d rings one through the next are %s long, pulled straight: each adds its inside, and a wire stands over at both ends.", n, mm(ring.ChainMM(n)))
	}
	if verdict == "" && f.m.says("ratio", "=ar") && across != "ratio" {
		verdict = fmt.Sprintf("The aspect ratio is the inside over the wire: %s / %s = %.1f.", plain2(ring.InsideMM), plain2(ring.WireMM), ring.Aspect())
		if across == "mandrel" {
			verdict = fmt.Sprintf("On the mandrel the aspect ratio is %s / %s = %.1f; the coil springs open a little, which makes it larger.", plain2(ring.InsideMM), plain2(ring.WireMM), ring.Aspect())
		}
	}
	r := f.reading(options...)
	r.Verdict = verdict
	if n := f.made; n > 0 && n <= 100_000 && f.one("count") == nil && f.one("chain") == nil {
		r.Options["count"] = plain(float64(n))
	}
	return r, true
}

// ofWireAtHand tells how many rings there are in the wire or coil that is at hand, or
// whether it is enough for so many; ok is false where what is at hand is not clear.
func (f *ringFigures) ofWireAtHand(ring jumpring.Ring) (verdict string, ok bool) {
	var long, heavy *quantity
	var rest []*quantity
	for _, q := range f.beside {
		switch {
		case q.measure == mass && heavy == nil && !f.m.says("weigh", "heavy", "price", "per gram", "cost"):
			heavy = q
		case q.measure == length && q.unit && q.value >= 20 && long == nil:
			long = q
		case q.measure == length && q.unit:
			return "", false // a length that is not known to be idle
		default:
			rest = append(rest, q)
		}
	}
	f.beside = rest
	each := ring.TurnMM(f.numberOf("kerf", usualKerf))
	switch {
	case long != nil && (heavy != nil || f.m.says(weaves...)):
		return "", false
	case long != nil && f.coilIsMeasured(long):
		n := math.Floor(long.value/ring.WireMM + 1e-9)
		return fmt.Sprintf("A close-wound coil of %s has one turn for each wire's thickness: %s / %s is %.0f turns, so about %.0f rings once the two ends are trimmed off.", mm(long.value), mm(long.value), mm(ring.WireMM), n, n-1), true
	case long != nil:
		stock := strings.TrimSpace(long.typed(f.m))
		if unit, per := strings.CutPrefix(stock, "per "); per {
			stock = "a " + strings.Replace(unit, "ft", "foot", 1)
		}
		return f.enough(ring, stock+" of wire", long.value/each), true
	case heavy != nil:
		a := f.m.metal()
		if a == nil || a.likeliestKey() == "" {
			return "", false
		}
		key := a.likeliestKey()
		one := ring.VolumeMM3() * alloyOf(key).DensityGPerCM3 / 1000
		return f.enough(ring, fmt.Sprintf("%s of %s, %s of this wire,", strings.TrimSpace(heavy.typed(f.m)), alloyName(key), metres(heavy.value/one*ring.WireLengthMM())), heavy.value/one*ring.WireLengthMM()/each), true
	}
	return "", true
}

func metres(mm float64) string { return plain(math.Round(mm/100)/10) + " m" }

// enough tells how many rings a stock makes, and whether that is enough where a number
// or a chain is told.
func (f *ringFigures) enough(ring jumpring.Ring, stock string, rings float64) string {
	n := int(math.Floor(rings + 1e-9))
	text := fmt.Sprintf("%s makes %d rings at most: each takes %s and the saw's cut. What you hold at the ends while winding is lost.", stock, n, mm(ring.WireLengthMM()))
	f.made = n
	need := int(f.mmOf("count"))
	if chain := f.mmOf("chain"); chain > 0 {
		need = ring.ForChain(chain)
	}
	switch {
	case need > n:
		return fmt.Sprintf("No: you need %d rings. %s", need, sentenceCase(text))
	case need > 0:
		return fmt.Sprintf("Yes: you need %d rings. %s", need, sentenceCase(text))
	case f.m.says("chain", "necklace", "bracelet", "anklet", "choker"):
		text += fmt.Sprintf(" As a plain chain they are %s long.", mm(ring.ChainMM(n)))
	}
	return sentenceCase(text)
}

// coilIsMeasured reports whether a length is that of a coil, and not of its wire.
func (f *ringFigures) coilIsMeasured(long *quantity) bool {
	return long.value <= 300 && (f.m.says("=coil", "turns", "wound tight") && !f.m.says("of wire", "coil of wire") || f.m.at(long.next).text == "long" && f.m.says(mandrelWords...))
}

// turnsOfCoil tells how many rings a close-wound coil has, of which the wire is known.
func (f *ringFigures) turnsOfCoil() (Reading, bool) {
	long := f.lengthBeside(20, 300)
	if long == nil || !f.coilIsMeasured(long) {
		return Reading{}, false
	}
	wire := f.mmOf("wire")
	n := math.Floor(long.value/wire + 1e-9)
	return worked("turns of a coil", "one wire's thickness a turn",
		fmt.Sprintf("A close-wound coil has one turn for each wire's thickness: %s / %s is %.0f turns, so about %.0f rings once the two ends are trimmed off.", mm(long.value), mm(wire), n, n-1))
}

// wireOfRatio works out the wire from a ring's inside and its ratio.
func (f *ringFigures) wireOfRatio() (Reading, bool) {
	inside, ratio := f.mmOf("inside"), f.mmOf("ratio")
	wire := inside / ratio
	g := nearestGauge(wire)
	r := f.reading("inside", "count", "chain", "kerf")
	r.Options["wire"] = plain2(wire) + "mm"
	r.Verdict = fmt.Sprintf("The wire is the inside over the ratio: %s / %s = %s. The nearest gauge is %s, %s, which makes it %.1f.", plain2(inside), plain(ratio), mm(wire), plain(g), mm(gaugeMM(g)), inside/gaugeMM(g))
	return r, r.Outcome == Request
}

// whichMandrel tells which of several mandrels makes the ring that is wanted.
func (f *ringFigures) whichMandrel() (Reading, bool) {
	wire := f.mmOf("wire")
	inside := f.mmOf("inside")
	if inside == 0 {
		inside = wire * f.mmOf("ratio")
	}
	ring := jumpring.Ring{InsideMM: inside, WireMM: wire}
	least, most := ring.Mandrels()
	var best *quantity
	var parts []string
	off := func(q *quantity) float64 { return math.Abs(q.value - (least+most)/2) }
	for _, q := range f.of["mandrel"] {
		if best == nil || off(q) < off(best) {
			best = q
		}
		parts = append(parts, fmt.Sprintf("%s is %.1f times the wire", mm(q.value), q.value/wire))
	}
	across := "ratio"
	if f.one("inside") != nil {
		across = "inside"
	}
	r := f.reading("wire", across, "count", "chain", "kerf")
	r.Verdict = fmt.Sprintf("Take the mandrel of %s. Rings of %s inside, %.1f times the wire, want one of %s for hard wire to %s for soft, because a coil springs open. %s", mm(best.value), mm(inside), ring.Aspect(), mm(least), mm(most), sentenceCase(inAll(parts)))
	return r, r.Outcome == Request
}

// ringsCompared tells of each of several rings what is asked of them.
func (f *ringFigures) ringsCompared(several string) (Reading, bool) {
	if f.lengthBeside(20, 1e6) != nil {
		return Reading{}, false
	}
	var parts []string
	for _, q := range f.of[several] {
		each := f.with(several, q)
		ring := each.ringMM()
		if ring.Check() != nil {
			return Reading{}, false
		}
		text := fmt.Sprintf("%s: ratio %.1f, %s of wire each", each.named(several), ring.Aspect(), mm(ring.WireLengthMM()))
		n := int(each.mmOf("count"))
		if chain := each.mmOf("chain"); chain > 0 {
			n = ring.ForChain(chain)
			text += fmt.Sprintf(", %d rings for %s", n, mm(chain))
		}
		if n > 1 {
			kerf := each.numberOf("kerf", usualKerf)
			text += fmt.Sprintf(", %s for %d with a saw that takes %s", metresOrMM(ring.CoilMM(n, kerf)), n, mm(kerf))
			if f.m.says("chain", "necklace", "bracelet") && f.one("chain") == nil {
				text += fmt.Sprintf(", a chain of %s", mm(ring.ChainMM(n)))
			}
		}
		if a := f.m.metal(); a != nil && n > 0 && a.likeliestKey() != "" {
			text += fmt.Sprintf(", %.1f g", float64(n)*ring.VolumeMM3()*alloyOf(a.likeliestKey()).DensityGPerCM3/1000)
		}
		if f.m.says(mandrelWords...) || f.m.says("mandrels", "stick", "rods") {
			least, most := ring.Mandrels()
			if f.across() != "mandrel" {
				text += fmt.Sprintf(", a mandrel of %s for hard wire to %s for soft", mm(least), mm(most))
			}
		}
		parts = append(parts, text)
	}
	on := ""
	if f.across() == "mandrel" {
		on = " A coil springs open a little from its mandrel; wind three turns and measure."
	}
	return worked("jump rings compared", "pi x (inside + wire) for one ring", sentenceCase(inAll(parts))+on)
}

// moreLinks tells how many more links bring a chain to its length, of which so many make the
// length that there is.
func (m *message) moreLinks(r Reading) (Reading, bool) {
	if !m.says("how many more", "how many extra", "how many further", "many more") || !m.says("chain", "bracelet", "necklace", "links", "rings") {
		return Reading{}, false
	}
	var made *quantity
	var long []*quantity
	for _, q := range m.found {
		switch {
		case q.measure == length && q.value >= 25:
			long = append(long, q)
		case (q.measure == count || q.measure == bare) && q.value >= 3 && q.value == math.Trunc(q.value) && made == nil:
			made = q
		default:
			return Reading{}, false
		}
	}
	if made == nil || len(long) != 2 || long[0].value == long[1].value {
		return Reading{}, false
	}
	is, wanted := min(long[0].value, long[1].value), max(long[0].value, long[1].value)
	more := math.Ceil(made.value*wanted/is - made.value - 0.001)
	return worked("links for a longer chain", "in proportion to the chain that there is",
		fmt.Sprintf("About %.0f more: %s make %s, so each adds %s, and you are %s short. The clasp makes up part of the length, so try the chain on with it before you close the last ones.", more, plain(made.value), mm(is), mm(is/made.value), mm(wanted-is)))
}

// metresOrMM writes a length of wire as a bench says it.
func metresOrMM(v float64) string {
	if v >= 1000 {
		return fmt.Sprintf("%.2f m", v/1000)
	}
	return mm(v)
}

// ovalRings works out oval jump rings, which no request does.
func (m *message) ovalRings() (Reading, bool) {
	f, ok := m.ringFiguresOf("jumpring")
	inside, wire := f.one("inside"), f.mmOf("wire")
	if !ok || inside == nil || len(inside.sides) != 2 || wire == 0 {
		return Reading{}, false
	}
	ring := jumpring.Oval{LongMM: max(inside.sides[0], inside.sides[1]), ShortMM: min(inside.sides[0], inside.sides[1]), WireMM: wire}
	if err := ring.Check(); err != nil {
		return Reading{Outcome: Question, Request: "jumpring", Ask: sentenceCase(err.Error()) + "."}, true
	}
	kerf := f.numberOf("kerf", usualKerf)
	return m.toldOvals(ring, int(f.mmOf("count")), f.mmOf("chain"), kerf)
}

// toldOvals tells the wire of oval rings, of a number or a chain of them and their mass.
func (m *message) toldOvals(ring jumpring.Oval, n int, chain, kerf float64) (Reading, bool) {
	text := fmt.Sprintf("One oval ring takes %s of wire: the perimeter of the oval through the middle of the wire, %s x %s.", mm(ring.WireLengthMM()), plain2(ring.LongMM+ring.WireMM), mm(ring.ShortMM+ring.WireMM))
	if chain > 0 {
		n = ring.ForChain(chain)
		text += fmt.Sprintf(" A plain chain of %s takes %d of them: each adds its inside length, %s.", mm(chain), n, mm(ring.LongMM))
	}
	if n > 1 {
		text += fmt.Sprintf(" %d take %s of wire, with %s for each cut of the saw.", n, metresOrMM(float64(n)*(ring.WireLengthMM()+kerf)), mm(kerf))
	}
	if a := m.metal(); a != nil && n > 0 && a.likeliestKey() != "" {
		key := a.likeliestKey()
		text += fmt.Sprintf(" In %s they weigh %.1f g.", alloyName(key), float64(n)*ring.VolumeMM3()*alloyOf(key).DensityGPerCM3/1000)
	}
	return worked("oval jump rings", "ellipse through the wire's centre", text+" I draw round jump rings only; wind oval ones on an oval mandrel. Two equal rods side by side make straight-sided ones, twice as long as wide, which take about 5 % more wire. Measure one before you cut them all.")
}

// ovalLink works out oval links whose length and width are told apart, "10 long and 6 wide",
// or as the size of their mandrel.
func (m *message) ovalLink(r Reading) (Reading, bool) {
	if !m.says("oval", "ovals", "elliptical") || r.Outcome == Request || r.Topic != "oval jump rings" || strings.HasPrefix(r.Text, "One oval") || len(m.found) > 5 {
		return Reading{}, false
	}
	m.ringsInInches("jumpring")
	wire, w := m.wireOf()
	for _, q := range m.lengths() {
		if w == nil && m.at(q.next).text == "wire" && q.value <= 4 {
			wire, w = q.value, q
		}
	}
	var sides []float64
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 {
			sides = append(sides, q.sides...)
		}
	}
	for _, q := range m.lengths() {
		if q != w && q.value >= 1.5 && q.value <= 40 && (q.role == "length" || q.role == "width" || q.role == "inner" || m.saysOneBetween(q.next, q.next+3, "long", "wide", "by")) {
			sides = append(sides, q.value)
		}
	}
	if w == nil || len(sides) != 2 || m.says("outside") {
		return Reading{}, false
	}
	ring := jumpring.Oval{LongMM: max(sides[0], sides[1]), ShortMM: min(sides[0], sides[1]), WireMM: wire}
	if ring.Check() != nil {
		return Reading{}, false
	}
	n, chain := 0.0, 0.0
	if q := m.counts("rings", "jump rings", "pieces", "links"); q != nil {
		n = q.value
	}
	if m.says("per foot", "a foot") {
		chain = 304.8
	}
	for _, q := range m.lengths() {
		if q != w && q.measure == length && q.value >= 60 {
			chain = q.value
		}
	}
	return m.toldOvals(ring, int(n), chain, usualKerf)
}
