package sentence

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// Words for metal that a stone is sought for.
var (
	stripWords = []string{"strip", "strips", "bezel wire", "ribbon", "=band", "flat stuff", "flat wire"}
)

// metalToMatch takes the metal whose stones are sought: a tube, a block's hole, a strip
// or an offcut. Several of one kind are asked about, and so is the metal where only the
// stone is told.
func (d *draft) metalToMatch() bool {
	m := d.m
	kind, stock := d.stockToMatch()
	switch {
	case len(stock) > 1:
		d.whichStock(kind, stock)
	case m.has("tube") && kind == "" && d.tubeByMeasures():
	case kind == "offcut" && len(stock[0].sides) == 3: // "24 by 6 by .8"
		q := stock[0]
		q.used = true
		slices.SortFunc(q.sides, func(a, b float64) int { return cmp.Compare(b, a) }) // "0.8 x 6 x 24"
		if m.says(stripWords...) && q.sides[1] < q.sides[0]/2 {
			kind = "strip"
		}
		d.say(kind, plain(q.sides[0])+"x"+plain(q.sides[1]))
		d.say("thickness", plain(q.sides[2])+" mm")
	case kind != "":
		d.set(kind, stock[0])
	case m.sizedHole() != nil:
		d.set("hole", m.sizedHole())
	case m.likelyHole() != nil:
		d.set("hole", m.likelyHole())
	case m.has("hole", "block") && (m.with("diameter") != nil || m.numbersHole()):
		d.hole()
	case m.says(stripWords...) && d.stripByMeasures():
	case m.has("tube"):
		d.stoneToMatch()
		d.question("tubesize", "Which tube: outer diameter x wall, in mm? I tell the stones that it takes.", d.with("8 x 0.8", "tubesize", "8x0.8"), d.with("10 x 1", "tubesize", "10x1"), d.with("6 x 0.5", "tubesize", "6x0.5"))
	default:
		return false
	}
	return true
}

// stockToMatch are the sizes of the message that are of metal, and which option of
// match they are; what is a stone's size is left.
func (d *draft) stockToMatch() (kind string, stock []*quantity) {
	m := d.m
	var sizes []*quantity
	for _, q := range m.found {
		if q.measure == size && !q.used {
			sizes = append(sizes, q)
		}
	}
	places := map[string][]*quantity{}
	for _, q := range sizes {
		place := m.placeOfSize(q, len(sizes))
		places[place] = append(places[place], q)
	}
	for _, option := range []string{"tubesize", "hole", "strip", "offcut"} {
		if all := places[option]; len(all) > 0 {
			return option, distinct(all)
		}
	}
	return "", nil
}

// distinct are quantities without those that say the same again.
func distinct(all []*quantity) []*quantity {
	var once []*quantity
	for _, q := range all {
		if slices.ContainsFunc(once, func(other *quantity) bool { return slices.Equal(other.sides, q.sides) }) {
			q.used = true
			continue
		}
		once = append(once, q)
	}
	return once
}

// placeOfSize is what a size in a question on metal measures: a thin second side is a
// tube's wall, the words round it tell the rest, and where they don't, its sides do.
func (m *message) placeOfSize(q *quantity, sizes int) string {
	if q.isTube() && (m.has("tube") || !m.says(stripWords...)) {
		return "tubesize"
	}
	role, chance := m.likelyRole("match", q)
	known := chance >= perhapsRole
	switch {
	case q.isSlender() && (known && role == "strip" || m.says("collar", "collars") && !m.has("offcut")):
		return "strip"
	case m.has("hole", "block") && (sizes == 1 && !q.isSlender() || known && role == "hole"):
		return "hole"
	case known && role == "size" && (sizes > 1 || q.mayBeStone()):
		return "size"
	case known && (role == written.Retracted || role == written.Idle):
		return role
	case sizes > 1 && q.mayBeStone() && m.largerSize(q):
		return "size"
	case m.has("tube") && sizes == 1:
		return m.tubeOrStone(q)
	case m.says(stripWords...) && len(q.sides) == 2:
		if q.mayBeStone() && q.sides[0] < 20 {
			return "size"
		}
		return "strip"
	}
	return "offcut"
}

// tubeOrStone is what the one size beside the word tube measures: a wall is no thicker
// than half the tube.
func (m *message) tubeOrStone(q *quantity) string {
	if len(q.sides) != 2 || q.sides[1] >= q.sides[0]/2 {
		return "size"
	}
	return "tubesize"
}

// isTube reports whether two sides are a tube's outer diameter and its wall.
func (q *quantity) isTube() bool {
	const widest = 30
	return len(q.sides) == 2 && q.sides[0] <= widest && q.sides[1] <= mostTubeWall && q.sides[1] <= q.sides[0]/4
}

// isSlender reports whether two sides are those of a strip: no stone and no hole is so
// long.
func (q *quantity) isSlender() bool {
	const slender = 3
	return len(q.sides) == 2 && q.sides[0] >= slender*q.sides[1]
}

// mayBeStone reports whether two sides are like those of a stone.
func (q *quantity) mayBeStone() bool {
	const largest = 30
	return len(q.sides) == 2 && q.sides[0] <= largest && q.sides[1] >= q.sides[0]/2
}

// largerSize reports whether the message has a size longer than this one: the metal is
// longer than the stone that it goes round.
func (m *message) largerSize(q *quantity) bool {
	return slices.ContainsFunc(m.found, func(other *quantity) bool {
		return other.measure == size && other != q && (other.sides[0] > 1.3*q.sides[0] || other.isTube())
	})
}

// whichStock asks which of several tubes, holes or pieces is meant.
func (d *draft) whichStock(kind string, stock []*quantity) {
	names := map[string]string{"tubesize": "tube", "hole": "hole", "strip": "strip", "offcut": "piece"}
	var choices []Choice
	for _, q := range stock {
		q.used = true
		if len(choices) < 3 {
			choices = append(choices, d.with(q.shown, kind, q.shown))
		}
	}
	d.question(kind, fmt.Sprintf("I match one %s at a time: which shall I take first?", names[kind]), choices...)
}

// tubeByMeasures takes a tube by its outer diameter and wall, or asks for the wall.
func (d *draft) tubeByMeasures() bool {
	if d.tubeByRoles() {
		return true
	}
	outer, wall := d.tube()
	if outer > 0 {
		d.say("tubesize", plain(outer)+"x"+plain(wall))
		return true
	}
	bore := d.m.with("inner")
	if bore == nil {
		bore = d.m.boreOfTube()
	}
	if bore == nil {
		return false
	}
	bore.used = true
	across := func(w float64) string { return plain(bore.value+2*w) + "x" + plain(w) }
	d.question("", "How thick is the tube's wall?", d.with("0.5 mm", "tubesize", across(0.5)), d.with("0.8 mm", "tubesize", across(0.8)), d.with("1 mm", "tubesize", across(1)))
	return true
}

// boreOfTube is the length right before the word bore.
func (m *message) boreOfTube() *quantity {
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && m.at(q.next).text == "bore" {
			return q
		}
	}
	return nil
}

// numbersHole reports whether a hole is told by its number: "hole 3", "hole no. 9".
func (m *message) numbersHole() bool {
	return m.numberOfHole() != nil
}

func (m *message) numberOfHole() *quantity {
	for _, q := range m.found {
		if q.used || q.measure != bare && q.measure != count || q.unit {
			continue
		}
		before := strings.TrimSuffix(m.at(q.first-1).text, ".")
		if before == "hole" || slices.Contains([]string{"no", "number", "#"}, before) && m.says("hole") {
			return q
		}
	}
	return nil
}

// stoneToMatch says that a stone's size waits for the metal's.
func (d *draft) stoneToMatch() {
	for _, q := range d.m.found {
		if q.measure == size && !q.used {
			q.used = true
			d.note("compare your %s with the sizes in the answer", strings.TrimSpace(q.typed(d.m)))
		}
	}
}

// matchOrAsk reads the metal that stones are sought for, or asks for it.
func (m *message) matchOrAsk() (Reading, bool) {
	if r, ok := m.match(); ok {
		return r, true
	}
	if m.chance("match") < plainly {
		return Reading{}, false
	}
	m.release()
	d := m.draft("match")
	if o := m.meaning("outline:"); len(o) > 0 {
		d.say("outline", o[0])
	}
	if d.workshopNames(); d.has("block") || d.has("tube") {
		d.thickness(1.9)
		return d.reading(), true
	}
	for _, q := range m.found {
		q.used = true
		d.note("%s waits for that", strings.TrimSpace(q.typed(m)))
	}
	d.question("", "Which metal shall I find stones for: a tube, outside x wall; a strip, length x height; an offcut; or a block's hole?", d.with("a tube 8 x 0.8", "tubesize", "8x0.8"), d.with("a strip 30 x 6", "strip", "30x6"), d.with("an offcut 50 x 20", "offcut", "50x20"))
	return d.reading(), true
}

// hole takes a hole by its width, or asks for it where only its number is told.
func (d *draft) hole() {
	if q := d.m.with("diameter"); q != nil {
		d.set("hole", q)
		return
	}
	q := d.m.numberOfHole()
	q.used = true
	d.question("hole", fmt.Sprintf("How wide is hole %s at its top, in mm? Holes are numbered differently from block to block.", q.shown), d.with("8 mm", "hole", "8"), d.with("10 x 8 mm", "hole", "10x8"))
}

// stripByMeasures takes a strip by its length and its height, or asks for its height.
func (d *draft) stripByMeasures() bool {
	m := d.m
	long, high := m.with("length"), m.with("height", "width")
	var free []*quantity
	for _, q := range m.found {
		if !q.used && q != long && q != high && (q.role == "" || q.role == "strip") && (q.measure == length || q.measure == bare) && q.value > mostMetal {
			free = append(free, q)
		}
	}
	if long == nil {
		if len(free) == 0 {
			return false
		}
		long = slices.MaxFunc(free, func(a, b *quantity) int { return cmp.Compare(a.value, b.value) })
		free = slices.DeleteFunc(free, func(q *quantity) bool { return q == long })
	}
	if high == nil && len(free) == 1 {
		high = free[0]
	}
	if high != nil && high.value >= long.value {
		return false
	}
	long.used = true
	if high != nil {
		high.used = true
		d.say("strip", plain(long.value)+"x"+plain(high.value))
		return true
	}
	d.question("strip", "How high is the strip, in mm?", d.with("6 mm", "strip", plain(long.value)+"x6"), d.with("5 mm", "strip", plain(long.value)+"x5"), d.with("8 mm", "strip", plain(long.value)+"x8"))
	return true
}

// tubeByRoles takes a tube by the two lengths that by all words are its outer diameter
// and its wall.
func (d *draft) tubeByRoles() bool {
	var two []*quantity
	for _, q := range d.m.found {
		if role, chance := d.m.likelyRole("match", q); role == "tubesize" && chance >= sure {
			two = append(two, q)
		}
	}
	const widest = 60
	if len(two) != 2 || !plainMM(two[0]) || two[0].value > widest || two[1].measure != length && two[1].measure != bare || two[1].value > two[0].value/4 || two[1].value < 0.1 {
		return false
	}
	two[0].used, two[1].used = true, true
	d.say("tubesize", plain(two[0].value)+"x"+plain(two[1].value))
	return true
}

// likelyHole is the one length that by all words is how wide a block's hole is.
func (m *message) likelyHole() (only *quantity) {
	if !m.has("hole", "block") && !m.says("hole", "holes", "aperture", "apertures") || m.numbersHole() {
		return nil
	}
	for _, q := range m.found {
		role, chance := m.likelyRole("match", q)
		if role != "hole" || chance < trialRole || q.used || q.measure != length && (q.measure != bare || q.value < 2) {
			continue
		}
		if only != nil {
			return nil
		}
		only = q
	}
	return only
}

// workedWith are the options of match that a figure may be given for by all words,
// with the values that one may have: these are how the maker works, and no stone.
var workedWith = map[string][2]float64{"ledge": {0.1, 2}, "clearance": {0.01, 1}, "kerf": {0.05, 1}, "included": {10, 60}, "lean": {3, 45}}

// saysWorkedWith are words for them, without which no figure is.
var saysWorkedWith = map[string][]string{
	"ledge": {"ledge", "shelf", "seat"}, "clearance": {"clearance", "play", "slack", "allowing", "tolerance", "room"}, "kerf": {"kerf", "saw", "blade", "cut"},
	"included": {"taper", "tapers", "tapered", "draft", "block", "at", "angle"}, "lean": {"lean", "leans", "slope", "per side"},
}

// workedWithLikely takes them, before what is left can only be the thickness.
func (d *draft) workedWithLikely() {
	for _, q := range d.m.found {
		role, chance := d.m.likelyRole("match", q)
		if d.m.saysTaper(q) {
			role, chance = "included", 1
		}
		values, known := workedWith[role]
		if !known || q.used || chance < trialRole || d.has(role) || !d.m.context.takes("match", role) || !d.m.says(saysWorkedWith[role]...) {
			continue
		}
		angled := role == "included" || role == "lean"
		fits := q.measure == bare || q.measure == length && !angled || q.measure == angle && angled
		if fits && q.value >= values[0] && q.value <= values[1] && !(angled && (d.has("lean") || d.has("included"))) {
			d.set(role, q)
		}
	}
}

// saysTaper reports whether a bare number is a block's taper by the word beside it:
// "hole 11x8 at 17", "17 taper".
func (m *message) saysTaper(q *quantity) bool {
	if q.measure != bare || q.value != math.Trunc(q.value) || !m.has("hole", "block") {
		return false
	}
	return slices.Contains([]string{"at", "taper", "tapers", "tapering", "draft"}, m.at(q.first-1).text) || m.at(q.next).text == "taper"
}

// meansMatch reports whether a message that was taken for a piece rather asks for the
// stones that its metal serves.
func (m *message) meansMatch() bool {
	wanted, chance := m.likeliest()
	return wanted == "match" && chance >= sure && m.context.Last == nil && m.context.Asked == nil
}
