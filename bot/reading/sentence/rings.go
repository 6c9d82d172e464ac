package sentence

import (
	"fmt"
	"math"
	"strings"
)

// widestBand is how wide the shank of a ring is at most, in mm.
const widestBand = 30

// band reads the shank of a ring.
func (m *message) band() Reading {
	d := m.draft("band")
	d.places = []place{{"width", "width of the band", 0.8, widestBand}, {"thickness", "thickness of the metal", 0.3, 5}}
	for _, q := range m.found { // "cut length 2 mm square wire"
		if q.role == "length" && q.value <= 8 && m.stockBehind(q) {
			q.role = ""
		}
	}
	m.likelyRing("band", "ring")
	d.workedDown()
	d.finger()
	d.profile()
	d.taper()
	d.section()
	d.alloy("alloy", m.has("weight") || m.has("price"))
	d.secondRing()
	if !d.has("ring") && !d.has("bangle") && d.ask == "" {
		d.question("ring", "Which ring size, and in which system: us 7, uk N, iso 54?",
			d.with("US 7", "ring", "7", "system", "us"), d.with("UK N", "ring", "N", "system", "uk"), d.with("54 mm round the finger (ISO)", "ring", "54", "system", "iso"))
	}
	return d.reading()
}

// workedDown leaves out what the metal was before it was forged, rolled or drawn: "6 mm
// round down to 5 x 3".
func (d *draft) workedDown() {
	m := d.m
	if m.says("taper", "tapers", "tapering", "tapered", "back", "narrows") {
		return
	}
	for k, q := range m.found[:max(0, len(m.found)-1)] {
		next := m.found[k+1]
		gap := m.between(q.next, next.first)
		if (q.measure == length || q.measure == gauge) && next.measure != ringSize && (strings.HasSuffix(gap, "down to") || strings.HasSuffix(gap, "down to a")) {
			q.used = true
			d.note("what it was worked down from, %s, changes nothing", strings.TrimSpace(q.typed(m)))
		}
	}
}

// isFingerRound reports whether a size without a system can only be the way round
// the finger in millimetres.
func isFingerRound(q *quantity) bool { return q.value >= 41 && q.value <= 76 }

// systemOf is the system of a ring size; one that is not said is assumed, with a
// note.
func (d *draft) systemOf(q *quantity, said string) string {
	switch {
	case said != "":
		return said
	case isFingerRound(q):
		d.note("size %s is read as millimetres round the finger (ISO)", q.shown)
		return "iso"
	}
	d.note("size %s is read as US; say uk, iso or japan if it is not", q.shown)
	return "us"
}

// ringSize takes a size, and its system or the question which it is.
func (d *draft) ringSize(q *quantity) {
	d.set("ring", q)
	switch {
	case q.system != "":
		d.say("system", q.system)
	case isFingerRound(q):
		d.say("system", d.systemOf(q, ""))
	case q.value >= 14 && q.value <= 26 && d.m.says("diameter", "german", "dutch", "germany", "dia"):
		d.say("system", "diameter")
	case q.value >= 14 && q.value < 41:
		d.question("ring", fmt.Sprintf("Which system is size %s?", q.shown), d.with("Japanese "+q.shown, "system", "japan"), d.with("continental "+q.shown, "system", "continental"), d.with(q.shown+" mm inside", "system", "diameter"))
	default:
		d.say("system", d.systemOf(q, ""))
	}
	d.otherSizes(q)
}

// roundFinger takes the way round the finger, in inches to the hundredth of a millimetre.
func (d *draft) roundFinger(q *quantity) {
	q.used = true
	round := q.value
	if strings.HasSuffix(q.shown, " in") {
		round = math.Round(100*round) / 100
	}
	d.say("ring", plain(round))
	d.say("system", "iso")
}

// finger takes the ring's size: a size, the way round the finger, or an inner
// diameter.
func (d *draft) finger() {
	m := d.m
	m.bindGirth()
	if q := m.sizeOfFinger(); q != nil {
		d.ringSize(q)
		return
	}
	if q := m.with("perimeter"); q != nil && q.value > mostRingSize && m.context.takes("band", "bangle") {
		q.used = true
		across := math.Round(10*q.value/math.Pi) / 10
		d.say("bangle", plain(across))
		d.note("%s round is %s across inside", strings.TrimSpace(q.typed(m)), mm(across))
		return
	}
	if q := m.with("perimeter"); q != nil && q.value >= 36 {
		d.roundFinger(q)
		return
	}
	if q := m.with("inner"); q != nil && q.value >= 30 && q.value <= 120 && m.context.takes("band", "bangle") {
		d.set("bangle", q)
		return
	}
	for _, role := range []string{"inner", "diameter"} {
		if q := m.with(role); q != nil && q.measure != gauge && q.value >= 11 && q.value <= 26 && !(role == "diameter" && m.says("across the outside", "over the outside", "outside to outside")) {
			q.used = true
			d.say("ring", plain(q.value))
			d.say("system", "diameter")
			return
		}
	}
	if q := m.first(41, 76, length, bare); q != nil && m.says("finger", "round", "around", "ring size for", "what size is", "what ring size", "which ring size") {
		d.roundFinger(q)
		return
	}
	if q := m.first(41, 76, length); q != nil {
		if role, chance := m.likelyRole("band", q); role == "ring" && chance >= surelyFinger {
			d.roundFinger(q)
			d.note("%s is read as the way round the finger", strings.TrimSpace(q.typed(m)))
			return
		}
	}
	if q := m.first(12, 26, length); q != nil && !m.says("tall", "high") && !m.ofStoneWord(q) && !m.says(outsideWords...) {
		q.used = true
		d.say("ring", plain(q.value))
		d.say("system", "diameter")
		d.note("%s is read as the inner diameter", q.typed(m))
	}
}

// surelyFinger is the chance from which a length that could be the way round a finger is
// that.
const surelyFinger = 0.7

// sizeOfFinger is the ring size of the message: of several, the half that is settled on.
func (m *message) sizeOfFinger() *quantity {
	first := m.of(ringSize)
	if first == nil || m.ringSizes() < 2 || m.ringSizes() > 3 || !m.says(settling...) && !(m.ringSizes() == 3 && m.says("between")) {
		return first
	}
	for _, q := range m.found {
		if q.measure == ringSize && !q.used && letter(q.shown) && strings.HasSuffix(q.shown, "1/2") {
			return q
		}
	}
	return first
}

// otherSizes passes over sizes that only tell of the one that was taken: "T 1/2, but
// between T and U", "I always overshoot to N".
func (d *draft) otherSizes(taken *quantity) {
	m := d.m
	for _, q := range m.found {
		if q == taken || q.used || q.measure != ringSize {
			continue
		}
		before := m.between(max(0, q.first-4), q.first)
		grown := strings.Contains(before, "overshoot") || strings.Contains(before, "comes out") || strings.Contains(before, "came out") || strings.Contains(before, "grow") || strings.Contains(before, "ends up") || strings.Contains(before, "or") && m.says("overshoot", "comes out", "ends up", "grows")
		between := (m.says("between") || m.ringSizes() == 3 || m.says(settling...)) && strings.HasSuffix(taken.shown, "1/2") && letter(taken.shown) && (q.shown[:1] == taken.shown[:1] || q.shown[0] == taken.shown[0]+1)
		switch {
		case between:
			q.used = true
		case grown:
			q.used = true
			d.note("if it comes out %s, cut the next shorter by the difference of the two sizes round the inside: half a UK size is about 0.6 mm", q.shown)
		}
	}
}

// secondRing asks which ring is meant where two sizes are left, "sizes L to U".
func (d *draft) secondRing() {
	if d.sizesCompared() {
		return
	}
	system := d.options["system"]
	for _, q := range d.m.found {
		if q.measure != ringSize || q.used || q.shown == d.options["ring"] || system == "" {
			continue
		}
		q.used = true
		other := q.system
		if other == "" {
			other = system
		}
		first := d.options["ring"]
		if d.m.says("=both", "his n hers", "his and hers", "one for above", "=nesting") && d.m.ringSizes() == 2 && d.has("thickness") {
			d.note("worked out for %s; for %s ask again with that size", first, q.shown)
			return
		}
		resize := map[string]string{"from": system + " " + first, "to": other + " " + q.shown}
		for _, name := range []string{"width", "thickness", "profile", "alloy"} {
			if v := d.options[name]; v != "" {
				resize[name] = v
			}
		}
		d.question("ring", fmt.Sprintf("Two ring sizes are named, %s and %s. Which do you mean?", first, q.shown),
			d.with("a ring of "+first), d.with("a ring of "+q.shown, "ring", q.shown, "system", other), Choice{first + " resized to " + q.shown, "resize", resize})
		return
	}
}

// sizesCompared tells whether two sizes in two systems are one, where that is asked:
// "the stick says R, the sizer says 8 3/4, which one is lying?"
func (d *draft) sizesCompared() bool {
	m := d.m
	first := m.quantityOf("ring")
	if first == nil || m.ringSizes() != 2 || !m.says("lying", "wrong", "which is right", "which one is right", "the same", "agree", "match", "equivalent") {
		return false
	}
	for _, q := range m.found {
		if q.measure != ringSize || q == first || letter(q.shown) == letter(first.shown) {
			continue
		}
		one, err := systemOfSize(first).Parse(first.shown)
		other, wrong := systemOfSize(q).Parse(q.shown)
		if err != nil || wrong != nil {
			return false
		}
		q.used = true
		d.note("%s is %.1f mm round the finger and %s is %.1f mm, %.1f mm apart; half a UK size is about 0.6 mm", first.shown, one, q.shown, other, math.Abs(one-other))
		return true
	}
	return false
}

// profile takes the section of the shank.
func (d *draft) profile() {
	if p := d.m.meaning("profile:"); len(p) > 0 {
		d.say("profile", p[len(p)-1])
		return
	}
	if section := d.m.sectionBeside(); section != "" {
		d.say("profile", section)
		return
	}
	if d.m.says("oval wire", "oval section", "oval profile", "oval bar") && !d.m.says("on edge", "edge on", "hard way") && d.m.context.takes("band", "stock") {
		d.say("profile", "court")
		d.note("an oval section has its middle at half its height, as a court one")
		return
	}
	if d.m.says("=flat") && !d.m.says("flat pattern", "flat blank", "flat piece", "flat layout", "hammer flat", "flat top") {
		d.say("profile", "flat")
	} else if d.m.says("low dome", "high dome", "domed band", "domed ring", "domed wire", "d wire") {
		d.say("profile", "half-round")
	}
}

// sectionBeside is the section of wire by the word behind its thickness: "12g round", "rod
// of 2 mm square".
func (m *message) sectionBeside() string {
	if m.has("stone") {
		return ""
	}
	for _, q := range m.found {
		w := m.at(q.next).text
		if (w == "round" || w == "square") && (q.measure == gauge || q.measure == length && q.value <= 6 && m.says("rod", "bar", "wire", "stock")) {
			return w
		}
	}
	return ""
}

// section takes width and thickness: "4 x 1.5" is width x thickness of a band.
func (d *draft) section() {
	m := d.m
	for _, q := range m.found {
		if q.measure != size || q.used || q.role != "" || m.ofStoneWord(q) {
			continue
		}
		if len(q.sides) == 2 {
			q.used = true
			wide, thick := q.sides[0], q.sides[1]
			if wide < thick && thick >= 1.6*wide && thick > 2 {
				d.say("width", plain(thick))
				d.say("thickness", plain(wide)+" mm")
				d.note("%s is taken as %s wide and %s thick", strings.TrimSpace(q.typed(m)), plain(thick), plain(wide))
			} else if wide < thick {
				d.question("width", fmt.Sprintf("Which is the width of %s?", q.typed(m)),
					d.with(plain(wide)+" wide, "+plain(thick)+" thick", "width", plain(wide), "thickness", plain(thick)+" mm"),
					d.with(plain(thick)+" wide, "+plain(wide)+" thick", "width", plain(thick), "thickness", plain(wide)+" mm"))
			} else {
				d.say("width", plain(wide))
				d.say("thickness", plain(thick)+" mm")
			}
		}
		break
	}
	d.set("width", m.with("width"))
	d.roundSection()
	if q := m.with("strip"); q != nil && !d.has("width") && q.measure != gauge && q.value > 2.5 && m.with("thickness") != nil {
		d.set("width", q) // "10 mm strip 1 mm thick"
	}
	d.byHalfRound()
	if q := m.with("height"); q != nil && !d.has("width") && q.measure != gauge && q.value >= 2.5 && d.request == "band" {
		d.set("width", q)
		d.note("%s tall is taken as the width of the band", strings.TrimSpace(q.typed(m)))
	}
	if !d.has("thickness") {
		switch {
		case m.of(gauge) != nil:
			d.set("thickness", m.of(gauge))
		case m.with("thickness", "height", "wall", "depth", "strip") != nil:
			d.set("thickness", m.with("thickness", "height", "wall", "depth", "strip"))
		}
	}
	d.lengthsLeft()
	if (m.has("wire") || m.squareStock()) && d.has("thickness") && !d.has("width") && !d.has("profile") {
		if m.squareStock() {
			d.say("profile", "square")
		} else {
			d.roundWire()
		}
	}
}

// roundSection takes "4 mm round" as the wire of a ring or a bangle.
func (d *draft) roundSection() {
	m := d.m
	if d.has("width") || d.has("profile") && d.options["profile"] != "round" || d.has("thickness") || m.has("stone", "cab", "setting") {
		return
	}
	for _, q := range m.found {
		if q.used || q.role != "" || q.measure != length && q.measure != bare || q.value > 8 || m.at(q.next).text != "round" || m.at(q.next+1).word() && !metalStems[m.at(q.next+1).stem] && m.at(q.next+1).text != "wire" {
			continue
		}
		d.set("thickness", q)
		d.roundWire()
		return
	}
}

// squareStock reports whether wire is square: "square wire", "wire 2.2 square".
func (m *message) squareStock() bool {
	if m.has("squarewire") || m.says("square section") {
		return true
	}
	for _, q := range m.found {
		at := q.next
		if m.at(at).text == "thick" {
			at++ // "4 mm thick square"
		}
		if (q.measure == length || q.measure == bare || q.measure == gauge) && (m.at(at).text == "square" || m.at(at).text == "sq") && q.value <= 30 {
			return m.at(at+1).text != "stone" && m.at(at+1).text != "stones" && !m.has("stone", "setting")
		}
	}
	return false
}

// byHalfRound reads "4 mm half round x 2" as width x thickness.
func (d *draft) byHalfRound() {
	m := d.m
	for k := 0; k+1 < len(m.found); k++ {
		a, b := m.found[k], m.found[k+1]
		if a.used || b.used || m.at(b.first-1).text != "x" || !d.has("profile") || a.measure != length && a.measure != bare || a.value > 20 || b.value > a.value || b.measure != count && b.measure != bare && b.measure != length {
			continue
		}
		for i := a.next; i < b.first-1; i++ {
			if w := m.at(i).text; w != "half" && w != "round" && w != "d" && w != "court" && w != "flat" && w != "shape" && w != "section" && w != "-" && w != "comfort" && w != "fit" && w != "wire" && w != "low" && w != "dome" {
				return
			}
		}
		d.set("width", a)
		d.set("thickness", b)
		d.say("thickness", plain(b.value)+" mm")
		return
	}
}

// taper takes a shank's two ends: "tapers from 6 to 3 mm", "5x1.8 tapering to
// 2.5x1.4", "8 wide at the top and 4 at the back".
func (d *draft) taper() {
	m := d.m
	narrows := m.says("taper", "tapers", "tapered", "tapering", "narrows to", "narrowing to") || m.says("down to") && m.says("at the back", "at back", "behind")
	if !m.context.takes("band", "taper") || !narrows {
		return
	}
	var sections, widths []*quantity
	for _, q := range m.found {
		switch {
		case q.used || m.ofStoneWord(q):
		case q.measure == size && len(q.sides) == 2:
			sections = append(sections, q)
		case q.measure == length || q.measure == bare:
			if q.role == "" || q.role == "width" {
				widths = append(widths, q)
			}
		}
	}
	switch {
	case len(sections) == 2:
		top, back := sections[0], sections[1]
		if top.sides[0] < back.sides[0] {
			top, back = back, top
		}
		top.used, back.used = true, true
		d.say("width", plain(top.sides[0]))
		d.say("thickness", plain(top.sides[1])+" mm")
		d.say("taper", plain(back.sides[0])+"x"+plain(back.sides[1]))
	case len(widths) == 1 && widths[0].other != nil: // a range, "6-3 mm"
		q := widths[0]
		wide, narrow := q.value, q.other.value
		q.used, q.other = true, nil
		d.say("width", plain(max(wide, narrow)))
		d.say("taper", plain(min(wide, narrow)))
	case len(widths) == 2 || len(widths) == 3 && m.with("thickness") == nil:
		wide, narrow := widths[0], widths[1]
		if wide.value < narrow.value {
			wide, narrow = narrow, wide
		}
		d.set("width", wide)
		d.set("taper", narrow)
	case len(sections) == 1 && len(widths) == 1 && widths[0].value < max(sections[0].sides[0], sections[0].sides[1]):
		d.set("taper", widths[0])
	default:
		d.question("taper", "How wide is it on top, and how wide at the back?", d.with("6 mm to 3 mm", "width", "6", "taper", "3"), d.with("4 mm to 2 mm", "width", "4", "taper", "2"))
	}
}

// ofStoneWord matches a size right beside a stone: "a 16 x 12 stone".
func (m *message) ofStoneWord(q *quantity) bool {
	for _, s := range m.senses {
		if w := m.at(s.next).text; w == "wire" || w == "section" || w == "bar" {
			continue // "5 x 2.5 oval wire"
		}
		if s.first == q.next || s.next == q.first {
			for _, means := range s.Means {
				if means == "stone" || strings.HasPrefix(means, "outline:") {
					return true
				}
			}
		}
	}
	return false
}

// lengthsLeft places bare lengths: the larger of two is the width; one alone is
// what is missing, if it can be only that.
func (d *draft) lengthsLeft() {
	m := d.m
	var free []*quantity
	for _, q := range m.found {
		if !q.used && q.role == "" && (q.measure == length || q.measure == bare) && q.value <= 30 && m.plain(q) && !strings.HasPrefix(m.at(q.next).text, "size") {
			free = append(free, q)
		}
	}
	switch {
	case m.tellsTwoApart() && len(free) > 1:
	case len(free) == 2 && !d.has("width") && !d.has("thickness"):
		wide, thick := free[0], free[1]
		if wide.value < thick.value {
			wide, thick = thick, wide
		}
		d.set("width", wide)
		d.set("thickness", thick)
	case len(free) != 1:
	case d.options["profile"] == "round" && !d.has("thickness") && free[0].value <= 10:
		d.set("thickness", free[0])
	case d.has("width") && !d.has("thickness") && free[0].value <= 5 && !m.tellsTwoApart():
		d.set("thickness", free[0])
	case d.has("thickness") && !d.has("width") && free[0].value <= widestBand:
		if role, chance := m.likelyRole(d.request, free[0]); role != "thickness" || chance < likelyRole {
			d.set("width", free[0])
		}
	case !d.has("width") && !d.has("thickness") && m.has("wire") && free[0].value <= 5:
		d.set("thickness", free[0])
	case !d.has("width") && !d.has("thickness") && free[0].value > 2.4 && free[0].value <= widestBand:
		d.set("width", free[0])
	case !d.has("width") && !d.has("thickness") && free[0].value < 1.9:
		d.set("thickness", free[0])
	}
}

// tellsTwoApart matches two pieces in one message: "one's 12 mm wide and one's 3 mm",
// "one of 4 mm and the other of 6 mm".
func (m *message) tellsTwoApart() bool {
	ones := 0
	for _, t := range m.tokens {
		if t.text == "ones" || t.text == "one" {
			ones++
		}
	}
	return ones >= 2 && m.says("ones", "=two") || ones >= 1 && m.says("the other", "other one", "=another")
}

// roundWire is a band of round wire: as wide as it is thick.
func (d *draft) roundWire() {
	if d.m.context.takes("band", "stock") {
		d.say("profile", "round")
		return
	}
	d.say("width", d.options["thickness"])
	if g, ok := gaugeNumber(d.options["thickness"]); ok {
		d.say("width", plain(gaugeMM(g)))
	}
	d.note("round wire is reckoned as wide as it is thick; its weight is 79 %% of what is said, since a square has more")
}

func gaugeNumber(s string) (float64, bool) {
	if len(s) > 2 && s[len(s)-2:] == "ga" {
		return parse(s), true
	}
	return 0, false
}

// dappingHole takes the hollow of a dapping block as the dome's diameter: "22 mm disc
// in the 14 hole".
func (d *draft) dappingHole() {
	m := d.m
	for _, q := range m.found {
		after := m.at(q.next).text
		ofBlock := after == "hole" || after == "hollow" || after == "cup" || after == "depression"
		if ofBlock && !q.used && (q.measure == length || q.measure == bare || q.measure == count) && q.value >= 3 && m.says("disc", "disk", "dap", "dapping", "doming") && m.at(q.first-1).text != "no" && m.at(q.first-1).text != "number" {
			d.set("size", q)
			d.note("the hollow, %s, is taken as the dome's diameter", strings.TrimSpace(q.typed(m)))
			return
		}
	}
}

// dome reads a dome, half a bead or the disc for one.
func (m *message) dome() Reading {
	d := m.draft("dome")
	d.places = []place{{"size", "diameter of the dome", 2, 300}, {"height", "height of the dome", 0.2, 150}, {"disc", "diameter of the disc", 2, 450}, {"thickness", "thickness of the metal", 0.1, 4}}
	if o := m.meaning("outline:"); len(o) > 0 && o[0] != "round" && o[0] != "half-moon" || m.says("half an egg", "spoon bowl", "spoon shape", "boat shape") {
		return Reading{Outcome: Explanation, Topic: "domes that are not round", Source: "common practice, no source",
			Text: "I work out round domes only. For an oval or another outline dome a larger piece than you need, over a wooden or pitch former, and saw it to its outline afterwards; try it in copper first."}
	}
	if (m.has("hemisphere") || m.halfBall() || m.wholeBall()) && !m.says("third", "quarter", "shallow", "part of") || m.says("all the way") {
		d.say("hemisphere", "yes")
	}
	overAll, loss := m.thicknessOverAll(), m.filedOffHalf()
	if overAll != nil {
		delete(d.options, "hemisphere")
		overAll.used = true
		d.say("height", plain(overAll.value/2))
		d.note("a bead that is %s thick over all is two halves of %s mm", strings.TrimSpace(overAll.typed(m)), plain(overAll.value/2))
	} else if q := m.with("height", "depth"); q != nil {
		delete(d.options, "hemisphere")
		d.set("height", q)
		if m.has("closedbead") && q.value > 1 {
			d.say("height", plain(q.value/2))
			d.note("a bead that is %s high over all is two halves of %s mm", strings.TrimSpace(q.typed(m)), plain(q.value/2))
		}
	}
	d.discAndDome()
	if !d.has("thickness") {
		d.thickness(2)
	}
	d.widerByLoss(loss)
	if !d.has("height") && !d.has("hemisphere") {
		if q := m.first(1, 150, length, bare); q != nil && d.has("size") && q.value < m.quantityOf("size").widest() {
			d.set("height", q)
		}
	}
	if m.toldInside(m.quantityOf("size")) {
		d.say("face", "inside")
	}
	d.alloy("alloy", false)
	switch {
	case d.has("size") && !d.has("height") && !d.has("hemisphere") && !d.has("disc"):
		d.question("height", "How high is the dome?", d.with("half a ball", "hemisphere", "yes"), d.with("a third of the width", "height", plain(parse(d.options["size"])/3)), d.with("a shallow quarter", "height", plain(parse(d.options["size"])/4)))
	case !d.has("size") && !d.has("disc"):
		d.question("size", "How wide is the dome, in mm?", d.with("20 mm", "size", "20", "hemisphere", "yes"), d.with("12 mm", "size", "12", "hemisphere", "yes"))
	}
	balls := !d.has("height") && m.says("what size ball", "what size bead", "which ball", "what ball", "how big a ball", "how big a bead", "size of ball", "size of bead")
	if d.has("disc") && (d.has("hemisphere") || balls) && !d.has("size") && d.ask == "" {
		return m.domeOfDisc(d)
	}
	if m.has("closedbead") {
		d.note("a bead of two halves needs a vent hole before it is soldered")
	}
	return d.reading()
}

// widest is the larger side of a size, or the length itself; without a figure there is no limit.
func (q *quantity) widest() float64 {
	if q == nil {
		return math.Inf(1)
	}
	widest := q.value
	for _, side := range q.sides {
		widest = max(widest, side)
	}
	return widest
}

// wholeBall reports whether a ball is to be made, which is no tool or chain of that name.
func (m *message) wholeBall() bool {
	for i, t := range m.tokens {
		if (t.text == "ball" || t.text == "balls") && m.at(i-1).text != "size" && !contains([]string{"peen", "pein", "end", "ended", "bur", "burr", "hammer", "chain", "bearing", "bearings", "joint", "pin", "pins", "stud"}, m.at(i+1).text) {
			return true
		}
	}
	return false
}

// thicknessOverAll is how thick a bead of two flat domes is through its middle, nil where
// that is not told: no sheet is so thick.
func (m *message) thicknessOverAll() *quantity {
	const thickestSheet = 2.5
	if !m.has("closedbead") && !m.says("lentil", "pillow", "bead", "beads", "halves", "two domes", "two discs", "two disks") {
		return nil
	}
	widest := 0.0
	for _, q := range m.lengths() {
		widest = max(widest, q.value)
	}
	for _, q := range m.found {
		if q.used || !plainMM(q) || q.value <= thickestSheet || q.value >= widest {
			continue // the widest is across
		}
		if saidOf(" "+m.nearby(q)+" ", []string{"total thickness", "overall thickness", "thick in all", "thick overall", "thick altogether", "thick in total", "thickness in all", "through the middle", "at the middle", "in the middle", "at the centre", "at the center", "thick through", "fat overall", "fat altogether", "fat in all", "deep overall", "deep in all", "deep altogether", "overall depth", "total depth", "high in total", "tall in total", "thickness altogether", "total height"}) || q.role == "thickness" {
			return q
		}
	}
	return nil
}

// filedOffHalf is what filing takes off each half of a bead, nil where that is not told; it
// is no sheet.
func (m *message) filedOffHalf() *quantity {
	if !m.says("half", "halves", "each") {
		return nil
	}
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && q.value < 1 && saidOf(" "+m.nearby(q)+" ", []string{"filed", "filing", "file", "loss", "lose", "loses", "rubbed", "sanded", "sanding"}) {
			q.used = true
			return q
		}
	}
	return nil
}

// widerByLoss says how much wider the disc of half a ball is, for what is filed off its rim:
// a cylinder of that height is pi x the width x the height large.
func (d *draft) widerByLoss(loss *quantity) {
	across := lengthOf(d.options["size"])
	if loss == nil || !d.has("hemisphere") || across == 0 {
		return
	}
	wider := math.Sqrt(2*across*across+4*across*loss.value) - math.Sqrt2*across
	d.note("for the %s that filing takes off each half, cut the disc %.2f mm wider than that", strings.TrimSpace(loss.typed(d.m)), wider)
	if d.options["thickness"] == loss.shown {
		delete(d.options, "thickness")
	}
}

// halfBall reports whether half of something round is meant: "half a 1/2 in ball".
func (m *message) halfBall() bool {
	return m.says("half a", "half of a") && m.says("ball", "sphere", "globe", "bead") || m.says("half round dome", "half round domes", "half dome")
}

// discAndDome takes the disc, the dome's own width, and a size that tells width and
// height.
func (d *draft) discAndDome() {
	m := d.m
	for _, q := range m.found { // "1 mm sheet" is no diameter, and "10 cm wire" none either
		switch next := m.at(q.next).text; {
		case q.measure != length || q.role != "" || q.used:
		case next == "sheet":
			d.set("thickness", q)
		case next == "wire" || next == "chain" || next == "cord":
			q.role = "length"
		}
	}
	d.dappingHole()
	for _, q := range m.found { // "from 2 domes"
		if w := m.at(q.next).stem; q.measure == bare && q.value == 2 && (w == "dome" || w == "half" || w == "halv" || w == "hemispher") {
			q.used = true
		}
	}
	// "25mm disc domed" has the disc, "disc for a 20 mm dome" asks for it.
	for _, s := range m.senses {
		if !contains(s.Means, "disc") {
			continue
		}
		for _, q := range m.found {
			ofDisc := q.role == "" || q.role == "diameter" || q.role == "dome" && q.next == s.first // "dome a 25 mm disc"
			if !q.used && (q.measure == length || q.measure == bare) && ofDisc && (m.discMade(s.next, q) || s.first-q.next >= 0 && s.first-q.next <= 1 && m.at(q.next).text != "." || q.first == s.next || q.first == s.next+1 && m.saysBetween(s.next, q.first, "is", "of", "was")) && q.value > 3 {
				d.set("disc", q)
			}
		}
	}
	if q := m.discCut(); q != nil && !d.has("disc") {
		d.set("disc", q)
	}
	if q := m.domedHigh(); q != nil && d.has("disc") && !d.has("height") {
		d.set("height", q)
	}
	if !d.has("disc") || !d.has("height") && !d.has("hemisphere") {
		if !d.has("size") {
			d.set("size", m.with("diameter", "width", "outer", "dome", "inner"))
		}
		if !d.has("size") {
			d.set("size", m.first(3, 300, length, bare))
		}
	}
	if q := m.of(size); q != nil && len(q.sides) == 2 && !d.has("size") {
		q.used = true
		d.say("size", plain(max(q.sides[0], q.sides[1])))
		d.say("height", plain(min(q.sides[0], q.sides[1])))
	}
}

// discMade reports whether a figure tells discs that are there, behind their word: "discs
// already punched at 7/8".
func (m *message) discMade(behind int, q *quantity) bool {
	return q.first > behind && m.saysOneBetween(behind, q.first, "cut", "punched", "already", "got") && m.saysBetween(behind, q.first, "cut", "punched", "already", "at", "of", "that", "thats", "which", "are", "is", "i", "ive", "got", "have", "measuring", "measure", "from", "stock", "in", ",") && m.at(q.next).text != "dome"
}

// domedHigh is how high a disc is domed: "18 mm discs domed 4 mm". What is more than half of
// the disc is the dome's width.
func (m *message) domedHigh() *quantity {
	for _, q := range m.found {
		lead := m.at(q.first - 1).text
		if lead == "to" || lead == "about" || lead == "by" {
			lead = m.at(q.first - 2).text
		}
		disc := m.quantityOf("disc")
		if !q.used && plainMM(q) && (q.role == "" || q.role == "dome") && lead == "domed" && disc != nil && q.value <= disc.value/2 {
			return q
		}
	}
	return nil
}

// discCut is the disc that a cutter makes or that was punched: "my disc cutter does 19 mm".
func (m *message) discCut() *quantity {
	if len(m.lists()) > 0 {
		return nil // one of several
	}
	for _, q := range m.found {
		if q.used || q.role != "" || q.measure != length && q.measure != bare || q.value <= 3 {
			continue
		}
		if lead := m.between(max(0, q.first-2), q.first); lead == "cutter does" || lead == "cutter makes" || lead == "cutter cuts" || lead == "cutter is" || lead == "have punched" || lead == "i punched" {
			return q
		}
	}
	return nil
}

// domeOfDisc is the half ball that a disc makes: its mid-metal diameter is the
// disc's over the root of two (a hemisphere has twice the area of its base).
func (m *message) domeOfDisc(d *draft) Reading {
	disc := lengthOf(d.options["disc"])
	for _, q := range m.found {
		if q.used && q.option == "disc" {
			disc = q.value // in mm, whatever it was typed in
		}
	}
	if m.context.takes("dome", "hemisphere") && m.context.Takes != nil {
		d.say("height", plain(disc/2.8284271247461903))
		d.say("face", "middle")
		delete(d.options, "hemisphere")
	}
	r := d.reading()
	if r.Outcome == Request {
		r.Verdict = fmt.Sprintf("A disc of %s makes half a ball of about %s across, measured at the middle of the metal.", mm(disc), mm(disc/math.Sqrt2))
	}
	return r
}
