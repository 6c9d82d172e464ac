package sentence

import (
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// ringFigures are the figures of a message about small stones round a stone, jump rings
// or stones in tube, each as what it most likely measures by the words round it.
type ringFigures struct {
	m       *message
	request string
	// of are the figures by option, each value once, in the message's order.
	of map[string][]*quantity
	// beside are those that are no option: what there is of wire or tube, how wide the
	// whole may be, or nothing that matters.
	beside []*quantity
	// last is the latest figure that has an option by its chance, and lastOption which.
	last       *quantity
	lastOption string
	// made is how many rings the wire at hand makes, where that was worked out.
	made int
	// sure is the chance of the figure that is placed least surely.
	sure float64
}

// How sure each figure's place must be: where the rules found none for one of them, and
// where they placed all of them otherwise.
const (
	placedPerhaps = 0.6
	// placedAtLeast is its chance among all places, those too that its value can't have.
	placedAtLeast = 0.27
	// surelyIdle is the chance from which a figure is none of the piece.
	surelyIdle = 0.5
	// surelyNotCounted is that of a whole number that might be how many stones there are.
	surelyNotCounted = 0.75
	placedSurely     = 0.9
)

// ringPlaces are the options of these requests that a figure is placed in, with the
// values that each may have, in mm where it is a length.
var ringPlaces = map[string]map[string][2]float64{
	"halo":     {"size": {1.5, 60}, "with": {0.6, 12}, "count": {3, 200}, "gap": {0, 1.5}, "centregap": {0, 1.5}, "edge": {0.1, 3}, "thickness": {0.4, 3}, "cornercut": {3, 45}},
	"jumpring": {"wire": {0.2, 6}, "inside": {0.8, 60}, "mandrel": {0.8, 60}, "ratio": {1.5, 20}, "count": {1, 5000}, "chain": {20, 5000}, "kerf": {0.02, 1}},
	"tubeset":  {"size": {0.8, 15}, "tubesize": {0.1, 20}, "count": {1, 500}, "depth": {0.3, 10}, "spacing": {0, 20}, "room": {0, 10}, "kerf": {0.02, 1}},
}

// wholePlaces are options that count, and plainPlaces those that have no unit.
var (
	wholePlaces = map[string]bool{"count": true}
	plainPlaces = map[string]bool{"count": true, "ratio": true}
)

// mayBeRings reports whether a figure's unit and value let it be an option of one of these
// requests.
func (q *quantity) mayBeRings(request, option string) bool {
	values, known := ringPlaces[request][option]
	if !known {
		return false
	}
	within := q.value >= values[0] && q.value <= values[1]
	switch q.measure {
	case bare:
		return within && (!wholePlaces[option] || q.value == math.Trunc(q.value)) && (option != "chain" || q.value >= 100)
	case length:
		return within && !plainPlaces[option] && option != "cornercut"
	case count:
		return within && option == "count"
	case percent:
		return within && option == "cornercut"
	case gauge:
		return option == "wire" || option == "thickness" || option == "tubesize"
	case size:
		return len(q.sides) == 2 && (request == "halo" && option == "size" || option == "tubesize")
	}
	return false
}

// ringFiguresOf places the figures of a message that is read anew; false where one has
// no likely place.
func (m *message) ringFiguresOf(request string) (ringFigures, bool) {
	fresh := m.anew()
	fresh.found = append(fresh.found, fresh.countsInWords()...)
	slices.SortFunc(fresh.found, func(a, b *quantity) int { return a.first - b.first })
	fresh.bindByRules()
	fresh.ringsInInches(request)
	fresh.bareGauge(request)
	f := ringFigures{m: fresh, request: request, of: map[string][]*quantity{}, sure: 1}
	for _, q := range fresh.found {
		if !f.place(q) {
			return f, false
		}
	}
	f.settleCount()
	return f, len(f.of) > 0
}

// centreWords are what the stone is called that others stand round.
var centreWords = map[string]bool{"centre": true, "center": true, "middle": true}

// wordLeading is the word before a figure, past "is" and "of".
func (m *message) wordLeading(q *quantity) string {
	if w := m.at(q.first - 1).text; w != "is" && w != "of" && w != "stone" {
		return w
	}
	return m.at(q.first - 2).text
}

// ofTube reports whether a figure is of the tube by the word beside it: its outside, its
// wall or its bore.
func (f *ringFigures) ofTube(q *quantity) bool {
	if q.measure != length && q.measure != bare && q.measure != gauge || len(f.m.found) < 2 || q.value > 20 {
		return false
	}
	if q.measure == gauge || q.role == "outer" || q.role == "inner" || q.role == "wall" {
		return true
	}
	after, before := f.m.at(q.next).text, f.m.at(q.first-1).text
	if before == "each" {
		before = strings.TrimSuffix(f.m.at(q.first-2).text, "s")
	}
	if before == "is" || before == "of" {
		before = f.m.wordLeading(q)
	}
	return tubeAfter[after] || tubeBefore[before] || after == "heavy" && f.m.at(q.next+1).text == "wall"
}

// tubeAfter and tubeBefore are words beside a figure of a tube.
var (
	tubeAfter  = map[string]bool{"tube": true, "tubing": true, "pipe": true, "wall": true, "walls": true, "od": true, "outside": true, "outer": true, "hole": true, "bore": true, "id": true, "inner": true}
	tubeBefore = map[string]bool{"wall": true, "walls": true, "od": true, "outer": true, "hole": true, "bore": true, "id": true, "tube": true, "pipe": true, "tubing": true}
)

// overAll reports whether a figure of a halo is how wide the whole may be.
func (f *ringFigures) overAll(q *quantity) bool {
	if f.request != "halo" || q.measure != length && q.measure != bare || q.value < 5 || q.value > 40 {
		return false
	}
	m := f.m
	return m.saysOneBetween(q.next, q.next+3, "overall", "altogether", "total") || m.saysOneBetween(q.first-7, q.first, "under", "top", "finished", "finish", "finishes", "end", "ends", "overall", "total", "maximum", "within") && !m.saysOneBetween(q.first-3, q.first, ",", ".") && !m.saysOneBetween(q.first-2, q.first, "centre", "center", "stone", "round", "around")
}

// likeBefore is the option of the figure before one that is its alternative: "3.0, and
// with 3.5".
func (f *ringFigures) likeBefore(q *quantity) string {
	const leastLike, mostUnlike = 0.1, 1.7
	if f.last == nil || q.measure != bare && q.measure != length || f.last.measure == size {
		return ""
	}
	ratio := max(q.value, f.last.value) / min(q.value, f.last.value)
	between := f.m.saysOneBetween(f.last.next, q.first, append([]string{"with", "=ar"}, alternating...)...)
	if !between || ratio > mostUnlike || ratio == 1 || !q.mayBeRings(f.request, f.lastOption) || plainPlaces[f.lastOption] || f.m.rolesOf(f.request, q).Of(f.lastOption) < leastLike {
		return ""
	}
	return f.lastOption
}

// settleCount takes the total of several numbers: "26 of us, 10 rings each, so 260".
func (f *ringFigures) settleCount() {
	all := f.of["count"]
	if len(all) == 2 && all[0].next == all[1].first && strings.Contains(all[1].typed(f.m), "dozen") { // "ten dozen"
		n := all[0].value * all[1].value
		f.of["count"] = []*quantity{{measure: bare, value: n, shown: plain(n), first: all[0].first, next: all[1].next}}
		return
	}
	for _, q := range f.beside {
		if len(all) == 2 && q.measure == bare && q.value*all[0].value == all[1].value { // "six bracelets of 35, so 210"
			f.of["count"] = all[1:]
			return
		}
	}
	if len(all) < 3 {
		return
	}
	total, product, sum := all[len(all)-1], 1.0, 0.0
	for _, q := range all[:len(all)-1] {
		product *= q.value
		sum += q.value
	}
	if total.value == product || total.value == sum {
		f.of["count"] = []*quantity{total}
	}
}

// countsInWords are whole numbers in words that no figure has: "need nine little tubes",
// "ten dozen".
func (m *message) countsInWords() (all []*quantity) {
	for i := 0; i < len(m.tokens); i++ {
		n, next := numberWords[m.at(i).text], i+1
		if n < 3 || n != math.Trunc(n) || m.taken[i] || m.inFigure(i) {
			continue
		}
		if more := numberWords[m.at(next).text]; more >= 12 && n < more && !m.taken[next] && !m.inFigure(next) {
			n, next = n*more, next+1
		}
		q := &quantity{measure: bare, shown: plain(n), value: n, first: i, next: next}
		m.take(q)
		all = append(all, q)
		i = next - 1
	}
	return all
}

// atHand reports whether a figure of jump rings is what there is of wire, or a coil's
// length: a mass, or a length that is no chain's.
func (f *ringFigures) atHand(q *quantity) bool {
	if m := f.m.at(q.next).text; f.request == "jumpring" && q.measure == bare && (m == "m" || m == "metre" || m == "meter") {
		q.measure, q.unit, q.value = length, true, 1000*q.value
		q.next++
	}
	if f.request != "jumpring" || q.measure != mass && (q.measure != length || !q.unit || q.value < 20) {
		return false
	}
	roles := f.m.rolesOf(f.request, q)
	role, chance := roles.Best()
	switch {
	case q.measure == mass, f.m.saysOneBetween(q.first-4, q.first, "=coil", "coil"), q.value >= 30 && f.m.at(q.next).text == "long" && role == "mandrel":
		return true
	case roles.Of("inside")+roles.Of("mandrel") >= 0.5:
		return false
	case role == "chain":
		return chance < placedSurely && !f.m.says(chainWords...) && !f.m.says("how many", "jumprings")
	}
	return roles.Of("chain") < 0.3 || !f.m.says(chainWords...)
}

// chainWords are what a plain chain of rings is for.
var chainWords = []string{"chain", "necklace", "bracelet", "anklet", "choker", "link", "links"}

// byWord is the option that a word beside a figure names for certain, empty for none.
func (f *ringFigures) byWord(q *quantity) string {
	switch f.request {
	case "halo":
		return f.m.wordOfHalo(q)
	case "jumpring":
		if option := f.m.wordOfRing(q); option != "" {
			return option
		}
	case "tubeset":
		if f.ofTube(q) {
			return "tubesize"
		}
		if f.m.saysUnder(q) {
			return "room"
		}
	}
	ofSaw := f.m.saysOneBetween(q.first-5, q.first, "saw", "blade", "kerf") && !f.m.saysOneBetween(q.first-3, q.first, ",")
	if ofSaw && (q.measure == length || q.measure == bare) && q.value <= 0.8 {
		return "kerf"
	}
	return ""
}

// wordOfHalo is the option of a halo that a word beside a figure names.
func (m *message) wordOfHalo(q *quantity) string {
	if (m.leadsWith("bezel", q) || m.saysOneBetween(q.first-2, q.first, "wall", "walls") || m.at(q.next).text == "bezel" || q.role == "wall") && q.measure != size && thicknessOf(q) < 0.9 {
		return "centregap" // the wall round the centre
	}
	if q.measure == count && q.value != math.Trunc(q.value) && centreWords[m.at(q.next).text] {
		q.measure, q.thing = bare, "" // "6.5 center" counts nothing
	}
	if q.measure != length && q.measure != bare {
		return ""
	}
	if q.value >= 2 && centreWords[m.wordLeading(q)] || q.value >= 3 && (centreWords[m.at(q.next).text] || m.at(q.next).text == "round" && centreWords[m.at(q.next+1).text]) {
		return "size"
	}
	if q.role == "gap" && q.value < 0.6 && m.saysOneBetween(q.first-1, q.first, "spacing", "gap", "gaps") {
		return "gap"
	}
	if q.value >= 0.7 && q.value <= 4 && m.saysOneBetween(q.first-3, q.first, "surrounding", "melee", "accents", "accent") {
		return "with"
	}
	if q.value <= 1.5 && m.leadsToCentre(q) {
		return "centregap"
	}
	return ""
}

// leadsToCentre reports whether a figure is told as the way to or from the centre: "a 0.3 gap
// to the center", "0.2 from the centre".
func (m *message) leadsToCentre(q *quantity) bool {
	for i := q.next; i < q.next+4; i++ {
		if w := m.at(i).text; w != "to" && w != "from" {
			if w != "gap" && w != "mm" && w != "space" && w != "clearance" {
				return false
			}
			continue
		}
		return centreWords[m.at(i+1).text] || m.at(i+1).text == "the" && centreWords[m.at(i+2).text]
	}
	return false
}

// wordOfRing is the option of jump rings that a word beside a figure names.
func (m *message) wordOfRing(q *quantity) string {
	switch {
	case q.measure == bare && m.at(q.next).text == "times":
		return "ratio"
	case q.measure == bare && q.value >= 2 && q.value == math.Trunc(q.value) && (m.at(q.next).text == "links" || m.at(q.next).text == "rings"):
		return "count"
	case q.measure == size && len(q.sides) == 2 && m.says("oval", "ovals", "elliptical"):
		return "inside"
	case q == m.beside("mandrel") && q.value >= 0.8 && q.value <= 60:
		return "mandrel"
	}
	return ""
}

// saysUnder reports whether a figure is the room that a tube has under its stone.
func (m *message) saysUnder(q *quantity) bool {
	return (q.measure == length || q.measure == bare) && q.value <= 10 && m.saysOneBetween(q.next, q.next+2, "below", "under", "beneath", "underneath") && !m.saysOneBetween(q.next, q.next+3, "under the girdle")
}

// leastMainMM is what a stone or a ring's inside has at least in mm: a smaller number
// without a unit is in inches, and so are the others then.
var leastMainMM = map[string]float64{"size": 0.7, "inside": 0.5}

// ringsInInches reads numbers without a unit as inches where the stone or the ring would
// be too small in mm.
func (m *message) ringsInInches(request string) {
	inches := slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == length && strings.HasSuffix(q.shown, " in") })
	small := slices.ContainsFunc(m.found, func(q *quantity) bool {
		least := leastMainMM[m.likeliestOf(request, q)]
		return q.measure == bare && q.value < least || q.measure == size && !q.unit && q.sides[0] < least || request == "tubeset" && inches && q.measure == bare && q.value < 0.12
	})
	if !small {
		return
	}
	var read []string
	for _, q := range m.found {
		if !q.unit && q.value < 1 && q.value > 0 && (q.measure == bare || q.measure == size) {
			q.asInches()
			read = append(read, q.shown)
		}
	}
	m.assume("read as inches: %s", strings.Join(read, ", "))
}

// bareGauge reads a whole number that is surely the wire of jump rings as its gauge.
func (m *message) bareGauge(request string) {
	for _, q := range m.found {
		if request == "jumpring" && q.measure == bare && q.value >= lowestGauge && q.value <= highestGauge && q.value == math.Trunc(q.value) && m.likeliestOf(request, q) == "wire" && m.of(gauge) == nil {
			q.measure, q.shown = gauge, q.shown+"ga"
			m.assume("%s is read as the wire's gauge; say mm if it is not", plain(q.value))
		}
	}
}

func (m *message) likeliestOf(request string, q *quantity) string {
	role, _ := m.likelyRole(request, q)
	return role
}

// place puts a figure where it most likely belongs; false where that is not likely.
func (f *ringFigures) place(q *quantity) bool {
	if f.request == "halo" && f.m.countsStones(q) {
		number := &quantity{measure: bare, value: q.sides[0], shown: plain(q.sides[0]), first: q.first, next: q.next}
		stone := &quantity{measure: bare, value: q.sides[1], shown: plain(q.sides[1]), first: q.first, next: q.next}
		f.add("count", number)
		f.add("with", stone)
		return true
	}
	if f.request == "tubeset" && f.m.stoneInTubeByMeasure() {
		f.add(map[bool]string{true: "tubesize", false: "size"}[q.measure == size], q)
		return q.measure == size || q.measure == length || q.measure == bare
	}
	if f.request == "halo" && f.m.isBezelOutside(q) {
		f.beside = append(f.beside, q)
		return true
	}
	if option := f.byWord(q); option != "" {
		f.put(option, q)
		return true
	}
	if f.atHand(q) || f.overAll(q) || f.request == "jumpring" && q.measure != gauge && f.isOutside(q) {
		f.beside = append(f.beside, q)
		return true
	}
	best, most, sum := "", 0.0, 0.0
	for role, chance := range f.m.rolesOf(f.request, q).All() {
		idle := role == written.Retracted || role == written.Idle || role == written.Result || role == written.Asked
		if idle && chance < surelyIdle || !idle && !q.mayBeRings(f.request, role) {
			continue
		}
		sum += chance
		if chance > most {
			best, most = role, chance
		}
	}
	if most < placedAtLeast || most/sum < placedPerhaps {
		like := f.likeBefore(q)
		if like == "" {
			return false
		}
		best, most, sum = like, placedPerhaps, 1
	}
	f.sure = min(f.sure, most/sum)
	switch best {
	case written.Retracted:
		f.m.assume("%s is left out, since you took it back", strings.TrimSpace(q.typed(f.m)))
	case written.Idle, written.Result, written.Asked:
		if f.request == "halo" && most < surelyNotCounted && q.mayBeRings("halo", "count") && q.value >= 5 {
			return false // it may be how many stones there are
		}
		f.beside = append(f.beside, q)
	default:
		f.put(best, q)
	}
	return true
}

// put places a figure with the other end of its range.
func (f *ringFigures) put(option string, q *quantity) {
	f.last, f.lastOption = q, option
	if q.other != nil {
		f.add(option, q.other)
	}
	f.add(option, q)
}

// add keeps a figure of an option, once where it is said twice.
func (f *ringFigures) add(option string, q *quantity) {
	for _, before := range f.of[option] {
		if before.shown == q.shown || before.measure != gauge && q.measure != gauge && math.Abs(before.value-q.value) < 1e-9 && len(q.sides)+len(before.sides) == 0 {
			return
		}
	}
	f.of[option] = append(f.of[option], q)
}

// one is the only figure of an option, nil for none or for several.
func (f *ringFigures) one(option string) *quantity {
	if len(f.of[option]) != 1 {
		return nil
	}
	return f.of[option][0]
}

// mmOf is the only figure of an option in mm, 0 for none or for several.
func (f *ringFigures) mmOf(option string) float64 {
	q := f.one(option)
	if q == nil {
		return 0
	}
	return thicknessOf(q)
}

// numberOf is the only figure of an option, or what is usual where there is none.
func (f *ringFigures) numberOf(option string, usual float64) float64 {
	if q := f.one(option); q != nil {
		return thicknessOf(q)
	}
	return usual
}

// mostApart is how many times the least of several figures of an option the greatest is.
const mostApart = 2.5

// several is the option that has more than one figure, empty for none; ok is false where
// two have, or where they are no alternatives.
func (f *ringFigures) several() (option string, ok bool) {
	for name, all := range f.of {
		if len(all) < 2 {
			continue
		}
		least, most := math.Inf(1), 0.0
		for _, q := range all {
			least, most = min(least, thicknessOf(q)), max(most, thicknessOf(q))
		}
		if option != "" || len(all) > 6 || most > mostApart*least && name != "gap" || !f.alternatives(all) {
			return "", false
		}
		option = name
	}
	return option, true
}

// alternatives reports whether a word or a comma before each figure after the first tells
// that it stands beside the one before: "1.2 or 1.4", "then on the 6 mm".
func (f *ringFigures) alternatives(all []*quantity) bool {
	swapped := f.m.says("swap", "swapped", "swapping", "trade")
	for k := 1; k < len(all); k++ {
		a, b := all[k-1], all[k]
		switch {
		case swapped && f.m.saysOneBetween(a.next, b.first, "for"):
		case a.other == b || b.other == a || a.first == b.first:
		case f.m.saysOneBetween(max(a.next, b.first-4), b.first, alternating...):
		case b.first-a.next <= 2 && f.m.saysOneBetween(a.next, b.first, ",", "mm", "/"):
		default:
			return false
		}
	}
	return true
}

// alternating are words that put a figure beside another of its kind.
var alternating = []string{"or", "than", "to", "and", "versus", "vs", "about", "instead", "rather", "also", "then", "now", "says"}

// with is the same figures with one of several.
func (f *ringFigures) with(option string, q *quantity) ringFigures {
	g := ringFigures{m: f.m, request: f.request, of: map[string][]*quantity{}, beside: f.beside, sure: f.sure}
	for name, all := range f.of {
		g.of[name] = all
	}
	g.of[option] = []*quantity{q}
	return g
}

// lengthBeside is the only length that is no option and has at least so many mm.
func (f *ringFigures) lengthBeside(least, most float64) (only *quantity) {
	for _, q := range f.beside {
		if (q.measure == length || q.measure == bare && most < 100) && q.value >= least && q.value <= most {
			if only != nil {
				return nil
			}
			only = q
		}
	}
	return only
}

// reading is the piece with every figure in its place.
func (f *ringFigures) reading(options ...string) Reading {
	d := f.m.draft(f.request)
	for _, option := range options {
		if q := f.one(option); q != nil {
			d.set(option, q)
			if option == "wire" {
				d.say("wire", wireShown(q))
			}
		}
	}
	for _, q := range f.m.found {
		q.used = true
	}
	for _, q := range f.beside {
		d.note("%s is not needed for this", strings.TrimSpace(q.typed(f.m)))
	}
	d.alloy("alloy", false)
	return d.reading()
}

// wireShown is a wire as the catalogue reads it: a bare whole number would be a gauge.
func wireShown(q *quantity) string {
	switch q.measure {
	case gauge:
		return q.shown
	case bare:
		return q.shown + " mm"
	}
	return plain(q.value) + "mm"
}
