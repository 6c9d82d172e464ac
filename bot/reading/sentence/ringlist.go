package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/ring"
	"guildhand/calc/stock"
)

// A list of ring sizes, "J, M and Q" or "sizes 5 to 9", is worked out for each of them:
// one size alone would leave the other rings uncut.

// listedRing is one size of a list of rings, and how many rings of it are wanted.
type listedRing struct {
	shown  string
	system ring.System
	round  float64 // inside, mm
	count  int
}

// sizeList is a list of ring sizes as it stands in a message.
type sizeList struct {
	rings []listedRing
	taken []*quantity
	// spans tells that the first and the last size were said, "J to T"; joined that all
	// sizes stand one after another.
	spans, joined bool
	// led tells that a word for several rings leads to the list.
	led bool
}

// ringsOfSeveralSizes is the answer on a list of rings.
const ringsOfSeveralSizes = "rings of several sizes"

// mostSizesListed is how many sizes that are told one by one.
const mostSizesListed = 26

// listOfRings works out several sizes of one plain ring, where the rules asked which of
// them is meant, took some of them for something else, or found nothing.
func (m *message) listOfRings(r Reading) (Reading, bool) {
	if r.Topic == ringsFromStripTopic {
		return Reading{}, false
	}
	list, ok := m.plainList()
	if !ok || !m.wantsAllListed(r, list) {
		return Reading{}, false
	}
	return m.ringTable(list, r, nil)
}

// plainList is the list of sizes of a message about plain rings; false where it is about
// something else.
func (m *message) plainList() (sizeList, bool) {
	if m.has("stone", "cab", "halo", "setting", "price", "tube") || m.says(settling...) || m.says("=or", "sizer", "sizers", "mandrel") || !m.canAnswer("band") || m.says(systemsWithoutTable...) {
		return sizeList{}, false
	}
	return m.sizesListed()
}

// listInTalk works out a list of sizes for the ring in talk, or for the ring of the class
// that was asked about: its section and metal are known.
func (m *message) listInTalk() (Reading, bool) {
	known := m.context.Last
	if asked := m.context.Asked; asked != nil {
		known = &Last{Request: asked.Request, Options: asked.Options}
		if asked.Piece != nil {
			known = asked.Piece
		}
	}
	if known == nil || known.Request != "band" && known.Request != "kit" || m.context.Aid != "" || m.says("not", "instead", "rather", "wrong", "sorry") {
		return Reading{}, false
	}
	fresh := m.anew()
	fresh.bindRoles()
	fresh.release()
	list, ok := fresh.plainList()
	if !ok || !list.joined && !list.spans || !fresh.wantsAllListed(Reading{}, list) {
		return Reading{}, false
	}
	return fresh.ringTable(list, Reading{}, known.Options)
}

// wantsAllListed reports whether each size of a list is wanted by itself. Two sizes with
// "to" between them are mostly a resizing.
func (m *message) wantsAllListed(r Reading, list sizeList) bool {
	resizing := m.chance("resize")
	cuts, _ := m.lengthChanged()
	switch {
	case m.says("resize", "resizing", "=sizing", "=sized", "stretch", "enlarge", "came out", "came up", "difference", "apart", "between") || cuts != nil || m.leadsFrom(list.taken):
		return false
	case list.spans:
		return m.says(toldOfEach...) && !m.says("up", "down", "bigger", "smaller", "tighter", "larger")
	case len(list.taken) >= 3:
		return list.joined && (list.led || resizing < surelyOfRing)
	case r.Outcome == Request && r.Request != "band":
		matching := m.says("=matching bands", "=matching rings") && !list.spans
		return list.led && (matching || (list.joined || m.says("both", "couple", "each")) && resizing < surelyOfRing)
	}
	return (list.joined || list.led || r.Missing == "ring") && resizing < min(surelyOfRing, m.chance("band", "kit"))
}

// leadsFrom reports whether "from" stands before one of some sizes, which then is what a
// ring has.
func (m *message) leadsFrom(sizes []*quantity) bool {
	return slices.ContainsFunc(sizes, func(q *quantity) bool { return m.saysOneBetween(q.first-2, q.first, "from") })
}

// toldOfEach are words for what is told of each size of a span.
var toldOfEach = []string{"=sizes", "=lengths", "=strips", "=blanks", "=circumferences", "=diameters", "=chart", "=table", "every size", "each size", "all sizes"}

// severalRings are words for several rings, or for what is told of each.
var severalRings = []string{"sizes", "rings", "bands", "strips", "lengths", "blanks", "stackers", "circumferences", "diameters", "shanks", "each", "all", "every", "both", "couple", "pair"}

// sizesListed finds the list of ring sizes of a message; false where there is none, or
// where its sizes are not all of one system.
func (m *message) sizesListed() (list sizeList, ok bool) {
	m.lettersListed()
	m.numbersListed()
	list.joined = true
	var last *quantity
	for _, q := range m.found {
		if q.measure != ringSize {
			continue
		}
		if last != nil {
			list.joined = list.joined && m.joinsSizes(last, q)
		}
		list.taken = append(list.taken, q)
		last = q
	}
	if len(list.taken) < 2 || len(list.taken) > mostSizesListed {
		return list, false
	}
	m.systemForAll(list.taken)
	first := list.taken[0]
	list.spans = len(list.taken) == 2 && slices.Contains(spanning, m.between(first.next, last.first))
	list.led = m.says(severalRings...)
	for _, q := range list.taken {
		round, err := systemOfSize(q).Parse(q.shown)
		if err != nil || systemOfSize(q) != systemOfSize(first) {
			return list, false
		}
		list.rings = append(list.rings, listedRing{q.shown, systemOfSize(q), round, m.howManyOf(q)})
	}
	if list.spans {
		list.rings, ok = m.sizesBetween(list.rings[0], list.rings[1])
		return list, ok
	}
	if list.rings[0].count == len(list.rings) && !slices.ContainsFunc(list.rings[1:], func(r listedRing) bool { return r.count != 1 }) {
		list.rings[0].count = 1 // "3 rings, sizes 6 7 8": as many as there are sizes
	}
	each := m.timesEach()
	for i := range list.rings {
		list.rings[i].count *= each
	}
	list.rings = eachOnce(list.rings)
	return list, len(list.rings) > 1
}

// spanning are what stands between the first and the last of several sizes.
var spanning = []string{"to", "-", "through", "thru", "up to", "till", "until"}

// joining are what stands between two sizes of a list.
var joining = []string{"", ",", "and", "/", "plus", "+", "then", ".", ", and", ", then", "and a", "and an", "a", "an", ", a", ", an"}

// joinsSizes reports whether nothing but signs of a list, or how many of the next are
// wanted, stands between two sizes.
func (m *message) joinsSizes(a, b *quantity) bool {
	first := b.first
	if n := m.countBefore(b); n > 0 {
		first = m.startOfCount(b)
	}
	return slices.Contains(joining, m.between(a.next, max(a.next, first)))
}

// timesEach is how often each size of a list is wanted: "two of each", "each twice".
func (m *message) timesEach() int {
	for i := range m.tokens {
		if m.at(i+1).text != "of" || m.at(i+2).text != "each" {
			continue
		}
		n := max(numberWords[m.at(i).text], m.at(i).value)
		if n < 2 || n > 50 || n != math.Trunc(n) {
			continue
		}
		for _, q := range m.found {
			if q.first == i {
				q.used = true
			}
		}
		return int(n)
	}
	if m.says("each twice", "twice each", "pair of each") {
		return 2
	}
	return 1
}

// startOfCount is where the number stands that counts rings of this size.
func (m *message) startOfCount(q *quantity) int {
	i := q.first - 1
	for ; i > q.first-4; i-- {
		if w := m.at(i).text; w != "x" && w != "of" && w != "size" && w != "rings" && w != "bands" && w != "blanks" {
			break
		}
	}
	return i
}

// countBefore is how many rings of a size are wanted by the number before it, "two US 6"
// and "3 x L"; 0 where none stands there.
func (m *message) countBefore(q *quantity) int {
	at := m.startOfCount(q)
	t, n := m.at(at), numberWords[m.at(at).text]
	if slices.ContainsFunc(m.found, func(o *quantity) bool { return o.measure == ringSize && o.first <= at && at < o.next }) {
		return 0
	}
	if t.number && (at < q.first-1 || letter(q.shown) || m.saysOneBetween(at, q.next, "rings", "bands", "blanks")) {
		n = t.value
	}
	if n < 1 || n > 50 || n != math.Trunc(n) || t.text == "a" || t.text == "an" {
		return 0
	}
	return int(n)
}

// howManyOf is how many rings of a size are wanted; the number that tells it is read then.
func (m *message) howManyOf(q *quantity) int {
	n := m.countBefore(q)
	if n == 0 {
		return 1
	}
	at := m.startOfCount(q)
	for _, counted := range m.found {
		if counted.first == at && counted.measure != ringSize {
			counted.used = true
		}
	}
	return n
}

// lettersListed reads three capital letters or more that stand in a list as ring sizes:
// "J, M and Q".
func (m *message) lettersListed() {
	single := func(i int) bool {
		t := m.at(i)
		return t.capital && t.text != "v" && !m.inFigure(i) && !m.at(i+1).glued || m.isLetterSize(i)
	}
	for i := 0; i < len(m.tokens); i++ {
		var list []int
		for k := i; single(k); {
			list = append(list, k)
			k = m.sizeEnd(k)
			for slices.Contains([]string{",", "and", "/", "plus", "x", "of"}, m.at(k).text) || m.at(k).number || numberWords[m.at(k).text] >= 1 {
				k++
			}
		}
		if len(list) < 3 {
			continue
		}
		for _, k := range list {
			if !m.inFigure(k) {
				m.add(quantity{measure: ringSize, shown: strings.ToUpper(m.at(k).text), system: "uk", first: k, next: k + 1, unit: true})
			}
		}
		i = list[len(list)-1]
	}
	slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
}

// isLetterSize reports whether a ring size in letters begins at i, or has its letter there.
func (m *message) isLetterSize(i int) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == ringSize && letter(q.shown) && q.first <= i && i < q.next
	})
}

// sizeEnd is where the ring size at i ends.
func (m *message) sizeEnd(i int) int {
	for _, q := range m.found {
		if q.first <= i && i < q.next {
			return q.next
		}
	}
	return i + 1
}

// numbersListed reads bare numbers as ring sizes that stand in a list or a span with one:
// "5, 6, 7 and 8 us", "sizes 5-9"; and three or more that can only be the way round a
// finger.
func (m *message) numbersListed() {
	for from := 0; from < len(m.found); {
		next := from + 1
		for next < len(m.found) && m.sizeInRun(m.found[next-1], m.found[next]) {
			next++
		}
		run := m.found[from:next]
		isSize := func(q *quantity) bool { return q.measure == ringSize && !letter(q.shown) }
		last := run[len(run)-1]
		inSystem := len(run) > 1 && m.at(last.next).text == "in" && sizeSystems[m.at(last.next+1).text] != ""
		named := len(run) >= 3 && sizeWords[m.at(run[0].first-1).text] && m.says("blank", "blanks", "flat", "band", "bands", "half round")
		if inSystem || named || slices.ContainsFunc(run, isSize) || (len(run) >= 3 || len(run) == 2 && m.says(severalRings...)) && !slices.ContainsFunc(run, func(q *quantity) bool { return !isFingerRound(q) }) {
			for _, q := range run {
				q.measure, q.unit, q.role = ringSize, true, ""
			}
		}
		from = next
	}
}

// sizeInRun reports whether two figures may be ring sizes that stand in a list; without a
// sign between them, "sz 6 7 8", they must be near one another and no measure of the metal.
func (m *message) sizeInRun(a, b *quantity) bool {
	may := func(q *quantity) bool {
		quarters := q.measure == bare && (q.role == "" || q.role == "width" && !m.saysOneBetween(q.first-3, q.first, "width", "wide") && m.at(q.next).text != "wide") && q.other == nil && 4*q.value == math.Trunc(4*q.value)
		return q.measure == ringSize && !letter(q.shown) || quarters && (q.value >= 1 && q.value <= 16 || isFingerRound(q))
	}
	gap := m.between(a.next, b.first)
	inRow := gap == "" && b.value != a.value && math.Abs(b.value-a.value) <= 2 && b.value >= 3 && !m.saysOneBetween(b.next, b.next+1, "wide", "thick", "x", "by", "high", "deep", "tall", "of", "rings", "bands", "pieces")
	return may(a) && may(b) && (inRow || slices.Contains(joining, gap) && gap != "" && gap != "." || slices.Contains(spanning, gap))
}

// systemForAll gives the system that one size of a list has to those without.
func (m *message) systemForAll(sizes []*quantity) {
	system := ""
	for _, q := range sizes {
		if !letter(q.shown) && q.system != "" {
			system = q.system
		}
	}
	if said := m.saidSystem(); system == "" && said != "uk" {
		system = said
	}
	for _, q := range sizes {
		if q.system == "" && !letter(q.shown) {
			q.system = system
		}
	}
}

// sizesBetween are the sizes of a span: whole ones, or halves where halves are said.
func (m *message) sizesBetween(first, last listedRing) (all []listedRing, ok bool) {
	from, to := first.system.Number(first.round), last.system.Number(last.round)
	if first.system != last.system || first.system == ring.Diameter || from == to {
		return nil, false
	}
	from, to = min(from, to), max(from, to)
	step := 1.0
	if whole := math.Round(2*from) / 2; m.says("halves", "half sizes", "half size", "=half") || whole != math.Trunc(whole) || math.Round(2*to)/2 != math.Trunc(math.Round(2*to)/2) {
		step = 0.5
	}
	if (to-from)/step >= mostSizesListed && first.system == ring.ISO {
		step *= 2
	}
	for n := from; n <= to+1e-6; n += step {
		round := first.system.CircumferenceMM(n)
		shown, _, named := first.system.Nearest(round)
		if !named || len(all) == mostSizesListed {
			return nil, false
		}
		all = append(all, listedRing{shown, first.system, round, 1})
	}
	return all, true
}

// eachOnce adds up the rings of one size.
func eachOnce(rings []listedRing) (all []listedRing) {
	for _, r := range rings {
		same := slices.IndexFunc(all, func(o listedRing) bool { return o.shown == r.shown && o.system == r.system })
		if same >= 0 {
			all[same].count += r.count
			continue
		}
		all = append(all, r)
	}
	return all
}

// ringTable tells what each ring of a list is cut to, or, where no thickness is told, how
// far it is round and across inside.
func (m *message) ringTable(list sizeList, r Reading, known map[string]string) (Reading, bool) {
	for _, q := range list.taken {
		q.used = true
	}
	makers := m.counts("makers")
	if makers != nil {
		makers.used = true
	}
	each := 1.0
	if n := m.counts("rings", "pieces"); n != nil {
		n.used = true
		if m.saysOneBetween(n.next, n.next+2, eachWords...) {
			each = n.value
		}
	}
	shank, d, ok := m.shankOfList(known)
	have := m.longestOver(60)
	if have != nil {
		have.used = true
	}
	if !ok || len(m.unused()) > 0 || d.ask != "" {
		return Reading{}, false
	}
	if shank.ThicknessMM == 0 {
		if have != nil || makers != nil && !m.speaksOfRings() {
			return Reading{}, false
		}
		return m.insidesOfList(list.rings)
	}
	cuts, err := cutsOf(list.rings, shank)
	if err != nil {
		return Reading{}, false
	}
	text := cuts.told(sawCutMM)
	if list.spans && makers != nil {
		text = fmt.Sprintf("One of each: %s %s", text, cuts.forAll(makers.value*each))
	}
	if have != nil {
		text = enoughOf(m, have, cuts.total+sawCutMM*float64(cuts.count)) + " " + text
	}
	told := Reading{Outcome: Explanation, Topic: ringsOfSeveralSizes, Source: "length = pi x (inside diameter + thickness), less for half round; saw cut: common practice, no source",
		Text: text + cuts.massOf(d) + cuts.remarks(), Notes: slices.Concat(d.notes, m.assumed)}
	if r.Outcome == Request && r.Request == "band" {
		return d.firstOfList(told, list.rings[0]), true
	}
	if r.Outcome == Question && r.Request == "band" && !m.says("how much", "total", "in all", "altogether", "all in", "length", "lengths", "how long", "weights") && cuts.widthTold && len(list.rings) <= mostDrawn {
		return d.offeringDrawings(told, list.rings), true
	}
	return told, true
}

// severalOfOne tells what several rings of one size take together, where that is asked:
// "five of them, size 7, 14 gauge round wire".
func (m *message) severalOfOne(r Reading) (Reading, bool) {
	if r.Request != "band" || r.Options["ring"] == "" || m.ringSizes() != 1 || m.has("stone", "setting", "halo") || !m.says("all told", "total", "in all", "altogether", "all together", "for all", "for the lot", "how much wire", "how much strip", "how much stock", "how much silver", "for them all", "for all of them") {
		return Reading{}, false
	}
	n, size := m.ringsCounted(), m.of(ringSize)
	round, err := systemOfSize(size).Parse(size.shown)
	if err != nil || n < 2 || n > 200 {
		return Reading{}, false
	}
	list := sizeList{rings: []listedRing{{size.shown, systemOfSize(size), round, n}}, taken: []*quantity{size}}
	return m.ringTable(list, r, nil)
}

// ringsCounted is how many rings of one size are wanted, 0 where that is not told.
func (m *message) ringsCounted() int {
	for i := range m.tokens {
		n := max(numberWords[m.at(i).text], m.at(i).value)
		next := i + 1
		if n != math.Trunc(n) || n < 2 {
			continue
		}
		ofThem := m.at(next).text == "of" && m.saysOneBetween(next+1, next+2, "em", "them", "these", "those", "the")
		if !ofThem && !m.saysOneBetween(next, next+3, "rings", "stackers", "bands", "shanks") || m.saysOneBetween(next, next+1, "size", "sizes", "mm") {
			continue
		}
		for _, q := range m.found {
			if q.first == i {
				q.used = true
			}
		}
		return int(n)
	}
	return 0
}

// firstOfList is the first ring of a list, with what each is cut to.
func (d *draft) firstOfList(told Reading, first listedRing) Reading {
	d.say("ring", first.shown)
	d.say("system", string(first.system))
	return Reading{Outcome: Request, Request: "band", Options: d.options, Notes: told.Notes, Verdict: told.Text + " Drawn here is the " + first.shown + "."}
}

// mostDrawn is of how many rings the drawings can be offered.
const mostDrawn = 3

// offeringDrawings tells the lengths of a few rings and asks which of them to draw.
func (d *draft) offeringDrawings(told Reading, rings []listedRing) Reading {
	d.say("ring", rings[0].shown)
	d.say("system", string(rings[0].system))
	asks := Reading{Outcome: Question, Request: "band", Options: d.options, Missing: "ring", Notes: told.Notes, Ask: told.Text + " Which shall I draw?"}
	for _, r := range rings {
		asks.Choices = append(asks.Choices, d.with("the ring of "+r.shown, "ring", r.shown, "system", string(r.system)))
	}
	return asks
}

// enoughOf tells whether a strip is long enough for what is cut from it.
func enoughOf(m *message, have *quantity, total float64) string {
	if have.value < total {
		return fmt.Sprintf("No: your %s is %.1f mm short.", strings.TrimSpace(have.typed(m)), total-have.value)
	}
	return fmt.Sprintf("Yes: your %s leaves %.1f mm over.", strings.TrimSpace(have.typed(m)), have.value-total)
}

// shankOfList is the section that all rings of a list have; its thickness is 0 where none
// is told; what the message doesn't tell is that of the ring that is known.
func (m *message) shankOfList(known map[string]string) (shank ring.Shank, d *draft, ok bool) {
	d = m.draft("band")
	d.profile()
	d.section()
	for _, q := range m.found {
		if !q.used && !d.has("thickness") && (q.measure == length || q.measure == bare) && q.value <= 5 {
			d.set("thickness", q)
		}
	}
	d.alloy("alloy", false)
	for _, a := range m.alloys {
		a.used = true
	}
	for _, option := range []string{"thickness", "width", "profile", "alloy"} {
		if v := known[option]; v != "" && !d.has(option) {
			d.say(option, v)
		}
	}
	shank = ring.Shank{Profile: ring.Flat, WidthMM: mmOf(d.options["width"]), ThicknessMM: mmOf(d.options["thickness"])}
	if q := m.quantityOf("thickness"); q != nil {
		shank.ThicknessMM = thicknessOf(q)
	}
	if q := m.quantityOf("width"); q != nil {
		shank.WidthMM = thicknessOf(q)
	}
	if p := ring.Profile(d.options["profile"]); p != "" {
		shank.Profile = p
	}
	if shank.Profile.OneSize() && shank.WidthMM == 0 {
		shank.WidthMM = shank.ThicknessMM
	}
	return shank, d, !d.has("taper")
}

// mmOf is the length that an option's text says, in mm; 0 for none.
func mmOf(text string) float64 {
	if q := newMessage(text).quantityOfAny(); q != nil {
		return thicknessOf(q)
	}
	return 0
}

// listCuts are the pieces that a list of rings is cut to.
type listCuts struct {
	rings                  []listedRing
	lengths                []float64
	count                  int
	total, longest, volume float64
	shank                  ring.Shank
	// widthTold tells that the rings' width is known, and with it its allowance.
	widthTold bool
	allowance float64
}

// cutsOf works out the blank of each ring of a list.
func cutsOf(rings []listedRing, shank ring.Shank) (listCuts, error) {
	cuts := listCuts{rings: rings, shank: shank, widthTold: shank.WidthMM > 0}
	if !cuts.widthTold {
		shank.WidthMM = 1
	}
	for _, r := range rings {
		shank.CircumferenceMM = r.round
		blank, err := shank.Blank()
		if err != nil {
			return cuts, err
		}
		cuts.lengths = append(cuts.lengths, blank.LengthMM)
		cuts.count += r.count
		cuts.total += float64(r.count) * blank.LengthMM
		cuts.volume += float64(r.count) * blank.VolumeMM3
		cuts.longest, cuts.allowance = max(cuts.longest, blank.LengthMM), blank.AllowanceMM
	}
	return cuts, nil
}

// told tells each length and the metal for all with so much for each saw cut.
func (c listCuts) told(sawCut float64) string {
	var each []string
	for i, r := range c.rings {
		times := ""
		if r.count > 1 {
			times = fmt.Sprintf("%d x ", r.count)
		}
		each = append(each, fmt.Sprintf("%s%s: %.1f mm", times, r.shown, c.lengths[i]))
	}
	return fmt.Sprintf("%s. %d blanks take %.1f mm in all, with %s mm for each saw cut.", strings.Join(each, ", "), c.count, c.total+sawCut*float64(c.count), plain2(sawCut))
}

// forAll tells the metal for so many rings of which only the span of their sizes is known.
func (c listCuts) forAll(rings float64) string {
	mean := c.total / float64(c.count)
	return fmt.Sprintf("For %s rings of these sizes reckon with about %.0f mm; all in the largest would take %.0f mm.", plain(rings), rings*(mean+sawCutMM), rings*(c.longest+sawCutMM))
}

// massOf tells the mass of a list's blanks, where their metal and their width are known.
func (c listCuts) massOf(d *draft) string {
	alloy := alloyOf(d.options["alloy"])
	if alloy.Key == "" || !c.widthTold {
		return ""
	}
	return fmt.Sprintf(" They weigh %.1f g in %s.", stock.MassG(c.volume, alloy.DensityGPerCM3), alloy.Name)
}

// remarks tell what else a list's lengths depend on.
func (c listCuts) remarks() string {
	system := c.rings[0].system
	text := fmt.Sprintf(" %s sizes, metal %s thick.", strings.ToUpper(string(system)), mm(c.shank.ThicknessMM))
	if system == ring.ISO {
		text = fmt.Sprintf(" Sizes are mm round the finger (ISO), metal %s thick.", mm(c.shank.ThicknessMM))
	}
	switch {
	case c.allowance > 0:
		text += fmt.Sprintf(" Each has %s more because the band is wide.", mm(c.allowance))
	case !c.widthTold:
		text += " Bands over 5 mm wide want a longer blank: say the width."
	}
	return text + " Squaring and filing the ends takes a little more."
}

// insidesOfList tells how far each ring of a list is round and across inside.
func (m *message) insidesOfList(rings []listedRing) (Reading, bool) {
	var each []string
	other := ring.US
	if rings[0].system == ring.US {
		other = ring.UK
	}
	for _, r := range rings {
		also := ""
		if text, _, ok := other.Nearest(r.round); ok && len(rings) <= 8 {
			also = fmt.Sprintf(", %s %s", strings.ToUpper(string(other)), text)
		}
		each = append(each, fmt.Sprintf("%s: %.1f mm round and %.2f mm across%s", r.shown, r.round, r.round/math.Pi, also))
	}
	return worked("insides of several sizes", "ISO 8653 and the steps of the systems; length = pi x (inside diameter + thickness)",
		fmt.Sprintf("Inside, as %s sizes: %s. A strip is cut longer than the way round by pi x its thickness, %s for metal of 1.5 mm: name the thickness and I tell each length.", strings.ToUpper(string(rings[0].system)), strings.Join(each, "; "), mm(math.Pi*1.5)))
}
