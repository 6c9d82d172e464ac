package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// stone takes outline, size, depth and gem of the message. dome names the
// option that the stone's height fills: "depth" of a faceted stone, "dome" of a
// cabochon.
func (d *draft) stone(heightOption string) {
	m := d.m
	d.outline()
	d.stoneSize()
	// "5 deep" is always the stone's; "4 mm tall" is where the stone is meant.
	if q := m.with("depth"); q != nil && heightOption == "depth" && (m.at(q.next).text == "deep" || m.between(q.next, q.next+2) == "in depth") {
		switch after := m.at(q.next + 1).text; {
		case d.isSettingsDepth(q):
			q.role = "height"
		case after == "block":
			q.used = true
			d.note("your block is %s deep: the holes of the answer have to be no deeper", strings.TrimSpace(q.typed(m)))
		}
	}
	d.set(heightOption, m.with("depth", "dome"))
	if heightOption == "dome" {
		if q := m.with("height"); q != nil && !m.ofBezel(q) {
			d.set("dome", q)
		}
		if q := m.with("thickness"); q != nil && q.measure != gauge && q.value > 1.3 {
			d.set("dome", q) // nobody's bezel wall is so thick
		}
		return
	}
	if q := m.with("thickness"); q != nil && q.measure != gauge && q.value > 2.2 && !d.has("depth") {
		d.set("depth", q)
	}
	if q := m.with("height"); q != nil && m.isOfStone(q) && !d.has("depth") {
		d.set("depth", q)
	}
}

// isOfStone matches a height that is said of the stone: "the stone is 4 mm high".
func (m *message) isOfStone(q *quantity) bool {
	for i := q.first - 1; i >= 0 && i >= q.first-3; i-- {
		switch m.at(i).text {
		case "is", "its", "about", "thats", "measures":
			continue
		case "stone", "gem", "sapphire", "cab":
			return i < q.first-1
		}
		return false
	}
	return false
}

// ofBezel matches a height that is the wall's: "the bezel itself is 5 mm tall".
func (m *message) ofBezel(q *quantity) bool {
	if m.saysAt(q.next, "gallerywire") || m.saysAt(q.next+1, "gallerywire") {
		return true // "3 mm high gallery strip"
	}
	for i := q.first - 1; i >= 0 && i >= q.first-3; i-- {
		if w := m.at(i).text; w == "bezel" || w == "wire" || w == "strip" || w == "wall" {
			return true
		} else if w != "is" && w != "itself" && w != "of" && w != "the" && w != "at" && w != "height" {
			return false
		}
	}
	return false
}

func (d *draft) outline() {
	d.m.settleOutlines()
	outlines := d.m.meaning("outline:")
	if len(outlines) > 0 {
		d.say("outline", outlines[0])
	}
	gem := ""
	if gems := d.m.meaning("gem:"); len(gems) > 0 && (gems[0] != "emerald-beryl" || d.m.says("beryl")) {
		gem = gems[0]
	}
	if d.emeraldIsGem() {
		gem = "emerald-beryl"
	}
	if gem != "" && d.m.context.takes(d.request, "gem") {
		d.say("gem", gem)
	}
}

// emeraldIsGem reports whether "emerald" is the stone and not the outline, which
// is so where another outline is named; that one is then the outline.
func (d *draft) emeraldIsGem() bool {
	other := ""
	for i := range d.m.senses {
		s := &d.m.senses[i]
		switch o := s.outline(); {
		case o == "":
		case o == "emerald" && d.m.between(s.first, s.next) != "emerald" && d.m.between(s.first, s.next) != "emeralds":
			return false // "emerald cut"
		case o != "emerald" && other == "":
			other = o
		}
	}
	if other == "" || !slices.Contains(d.m.meaning("outline:"), "emerald") {
		return false
	}
	for i := range d.m.senses {
		if s := &d.m.senses[i]; s.outline() == "emerald" {
			s.Term = &Term{Say: s.Say, Means: []string{"gem:emerald-beryl", "stone"}}
		}
	}
	d.say("outline", other)
	return true
}

// meaning lists what follows a prefix among the meanings of the message.
func (m *message) meaning(prefix string) []string {
	var all []string
	for _, s := range m.senses {
		for _, means := range s.Means {
			if rest, ok := strings.CutPrefix(means, prefix); ok {
				all = append(all, rest)
			}
		}
	}
	return all
}

// oneSidedAlways are outlines that are as long as wide.
var oneSidedAlways = map[string]bool{"round": true, "square": true, "hexagon": true, "octagon": true}

// tallestOfWide is how tall a stone is at most, in parts of its width: what is more lies in
// its outline. Common practice, no source.
const tallestOfWide = 0.75

// oneSided are outlines that one number describes.
var oneSided = map[string]bool{"round": true, "square": true, "hexagon": true, "octagon": true, "cushion": true, "trillion": true, "heart": true}

// stoneSize takes the stone's length and width: a size, two sides by their
// words, or one number beside the outline or the stone.
func (d *draft) stoneSize() {
	m := d.m
	if q := m.stoneSides(); q != nil {
		d.set("size", q)
		if len(q.sides) == 3 && d.options["outline"] != "tapered-baguette" {
			// Length, width and depth in one breath: 8 x 6 x 4.
			d.say("size", plain(q.sides[0])+"x"+plain(q.sides[1]))
			height := "depth"
			if d.request == "bezel" {
				height = "dome"
			}
			d.say(height, plain(q.sides[2]))
		}
		return
	}
	if d.options["outline"] == "half-moon" && d.halfMoon() {
		return
	}
	long, wide := m.with("length"), m.with("width")
	if tall := m.with("height"); long == nil && wide != nil && tall != nil && !oneSidedAlways[d.options["outline"]] && d.options["outline"] != "" && tall.value >= tallestOfWide*wide.value && tall.value <= 2*wide.value {
		long = tall // "a heart 14 wide and 13 tall"
	}
	if long != nil && wide != nil {
		long.used, wide.used = true, true
		d.say("size", plain(long.value)+"x"+plain(wide.value))
		return
	}
	if q := m.with("diameter"); q != nil {
		d.set("size", q)
		return
	}
	if q := m.besideStone(); q != nil {
		d.set("size", q)
		return
	}
	if oneSided[d.options["outline"]] || d.options["outline"] == "" {
		if wide != nil && long == nil {
			d.set("size", wide)
			return
		}
		if q := m.first(2, 60, length, bare); q != nil {
			d.set("size", q)
		}
	}
}

// halfMoon takes a half moon by its straight side and its height from there:
// "8 mm straight side, 4 mm deep". Of a half circle that is half of it.
func (d *draft) halfMoon() bool {
	m := d.m
	straight := m.first(3, 60, length, bare)
	for _, q := range m.found { // "10 along the straight"
		if after := m.at(q.next).text; straight == nil && !q.used && q.role == "" && (q.measure == length || q.measure == bare) && q.value >= 3 && (after == "along" || after == "on" || after == "straight" || after == "flat") {
			straight = q
		}
	}
	if q := m.with("length", "diameter", "edge"); q != nil && q.value >= 3 {
		straight = q
	}
	if straight == nil {
		return false
	}
	if rise := m.with("depth", "width"); rise != nil && rise.value > 0.3*straight.value && rise.value < 0.7*straight.value {
		straight.used, rise.used = true, true
		d.say("size", plain(straight.value)+"x"+plain(rise.value))
		d.note("%s is taken as the half moon's straight side and %s as its width from there", strings.TrimSpace(straight.typed(m)), strings.TrimSpace(rise.typed(m)))
		return true
	}
	if !m.says("half circle", "semi circle", "semicircle", "half round stone") {
		return false
	}
	straight.used = true
	d.say("size", plain(straight.value)+"x"+plain(straight.value/2))
	d.note("a half circle of %s is half as wide", strings.TrimSpace(straight.typed(m)))
	return true
}

// stoneSides is the first size of two or three sides that is no metal's.
func (m *message) stoneSides() *quantity {
	var thin *quantity
	for _, q := range m.found {
		if q.measure != size || q.used || q.role != "" || m.ofMetal(q) {
			continue
		}
		if slices.Min(q.sides) >= leastSide {
			return q
		}
		if thin == nil {
			thin = q // a strip's section beside a stone, "3 x 0.3"
		}
	}
	return thin
}

// leastSide in mm: what is thinner is a strip's section sooner than a stone.
const leastSide = 0.8

// ofMetal matches a size beside the word of a piece of metal: "30 x 8 offcut",
// "a 50 x 20 sheet", "hole 10 x 8", "4 x 1.5 shank".
func (m *message) ofMetal(q *quantity) bool {
	if m.outlineAt(q.next) || m.at(q.next).text == "cab" || m.at(q.next).text == "stone" {
		return false // "bezel strip 14x10 oval", "for a ring 14 x 10 cab"
	}
	if before := m.at(q.first - 1).text; before == "strip" || before == "wire" || m.at(q.next).text == "strip" || m.ofOffcut(q) {
		return true
	}
	for _, s := range m.senses {
		if s.next != q.first && s.first != q.next && !(s.next == q.first-1 && m.at(q.first-1).text == "is") {
			continue
		}
		for _, means := range s.Means {
			switch means {
			case "offcut", "sheet", "hole", "tube", "wire", "ring", "strip":
				if means == "tube" && s.first > q.first && m.has("cab", "bezel") {
					continue
				}
				return true
			}
		}
	}
	return false
}

// plain matches a number that nothing after it or before it turns into a
// measure of something else: "a 1 mm border" and "over by 1 mm" are not plain.
func (m *message) plain(q *quantity) bool {
	if after := m.at(q.next + 1).text; m.at(q.next).text == "of" && (after == "them" || after == "those" || after == "these") {
		return false
	}
	if m.metalBehind(q) {
		return true // "from 1 mm sheet"
	}
	if m.at(q.first-1).text == "from" && m.stockBehind(q) {
		return true // "from 2 mm square wire"
	}
	if m.at(q.first-1).text == "from" && q.value <= mostMetal && !m.says("instead") && m.at(q.next).text != "to" {
		return true // "a collet from 0.8 mm"
	}
	if m.at(q.first-1).text == "is" && metalParts[m.at(q.first-2).text] && q.value > 3 || m.toolBehind(q) {
		return false
	}
	if w := m.at(q.first - 1).text; within[w] || (w == "about" || w == "around" || w == "a") && within[m.at(q.first-2).text] {
		return false
	}
	t := m.at(q.next)
	if t.text == "-" {
		t = m.at(q.next + 1)
	}
	if !t.word() || m.taken[q.next] && !m.saysAt(q.next, "backplate", "step", "gallerywire") {
		return true
	}
	return usualNext[t.text] || fillers[t.text] || bindingWords[t.text] || plainWords[t.text] && !directions[t.text]
}

// toolBehind matches a number that a tool has, "10 mm punch", and not a hollow bead.
func (m *message) toolBehind(q *quantity) bool {
	next := m.at(q.next + 1).stem
	return toolWords[m.at(q.next).text] && !(m.at(q.next).text == "hollow" && (next == "bead" || next == "ball" || next == "sphere" || next == "form" || next == "dome"))
}

// saysAt reports whether a phrase with one of these meanings begins at i.
func (m *message) saysAt(i int, meanings ...string) bool {
	for _, s := range m.senses {
		if s.first != i {
			continue
		}
		for _, want := range meanings {
			if contains(s.Means, want) {
				return true
			}
		}
	}
	return false
}

// toolWords after a number make it the tool's and not the piece's.
var toolWords = map[string]bool{"dap": true, "hole": true, "punch": true, "hollow": true, "cutter": true, "mandrel": true, "drill": true, "bur": true, "blade": true, "bender": true}

// metalParts are parts of the metal: "bezel is 28" says nothing of the stone.
var metalParts = map[string]bool{"wire": true, "bezel": true, "strip": true, "sheet": true, "metal": true, "block": true, "punch": true, "wall": true}

// within are words before a number by which it is no measure of the piece.
var within = map[string]bool{"over": true, "by": true, "under": true, "above": true, "below": true, "between": true, "from": true, "off": true, "not": true, "extra": true, "another": true, "plus": true, "minus": true, "no": true, "number": true}

// directions after a number say where something is: "3 down from the top".
var directions = map[string]bool{"up": true, "down": true, "off": true, "over": true, "under": true, "between": true, "apart": true, "more": true, "above": true, "below": true}

// usualNext are words that may follow a plain number.
var usualNext = map[string]bool{"sheet": true, "wire": true, "silver": true, "stock": true, "metal": true, "please": true, "pls": true, "plz": true, "thanks": true, "where": true, "how": true, "what": true, "blank": true, "length": true, "size": true, "is": true, "does": true, "will": true, "solid": true, "dead": true, "setting": true, "collet": true, "bezel": true, "strip": true, "ring": true, "band": true, "cab": true, "stone": true, "height": true, "from": true, "sides": true, "finished": true, "total": true, "overall": true, "which": true, "need": true, "making": true, "made": true, "using": true, "want": true, "can": true, "could": true, "sapphire": true, "thx": true, "flat": true, "gauge": true, "template": true, "cut": true, "across": true, "approx": true, "ish": true, "fine": true, "full": true, "half": true, "shallow": true, "domed": true, "dome": true, "faceted": true, "brilliant": true, "high": true, "low": true, "practice": true, "or": true, "each": true, "everything": true, "i": true, "altogether": true, "all": true}

// besideStone is a length right before or after the outline or the stone: "6mm
// round", "round 6", "a 6.5 mm sapphire".
func (m *message) besideStone() *quantity {
	for _, s := range m.senses {
		is := false
		for _, means := range s.Means {
			is = is || strings.HasPrefix(means, "outline:") || means == "stone"
		}
		if !is {
			continue
		}
		for _, q := range m.found {
			if q.used || q.role != "" || q.measure != length && q.measure != bare || m.metalBehind(q) {
				continue
			}
			if between := s.first - q.next; between >= 0 && between <= 2 && !m.numberBetween(q.next, s.first) && q.value >= 0.8 {
				return q
			}
			if between := q.first - s.next; between >= 0 && between <= 1 && q.value >= 0.8 && !m.numberBetween(s.next, q.first) {
				return q
			}
		}
	}
	return nil
}

// metalBehind matches a number whose metal or stock comes right after it.
func (m *message) metalBehind(q *quantity) bool {
	next := m.at(q.next)
	alloy := slices.ContainsFunc(m.alloys, func(a *metal) bool { return a.first == q.next })
	return alloy || metalStems[next.stem] || next.text == "sheet" || next.text == "wire" || next.text == "strip"
}

func (m *message) numberBetween(first, next int) bool {
	for i := first; i < next; i++ {
		if m.at(i).number || m.at(i).text == "." {
			return true
		}
	}
	return false
}

// first is the first unused quantity without a role that has one of these
// measures and lies between low and high.
func (m *message) first(low, high float64, measures ...measure) *quantity {
	for _, q := range m.found {
		if q.used || q.role != "" || q.value < low || q.value > high || !m.plain(q) {
			continue
		}
		for _, want := range measures {
			if q.measure == want {
				return q
			}
		}
	}
	return nil
}

// thickness takes the metal's thickness: a gauge, what is called thick, or a
// length left over that sheet can have.
func (d *draft) thickness(most float64) {
	m := d.m
	switch {
	case m.of(gauge) != nil:
		d.set("thickness", m.of(gauge))
	case m.with("thickness", "wall") != nil:
		d.set("thickness", m.with("thickness", "wall"))
	default:
		if q := m.first(0.1, most, length, bare); q != nil {
			d.set("thickness", q)
		} else if q := m.inGauge(); q != nil {
			q.used = true
			d.say("thickness", q.shown+"ga")
			d.note("%s is read as a gauge number", q.shown)
		}
	}
}

// inGauge is a whole number at the end of "in 22", which can only be a gauge.
func (m *message) inGauge() *quantity {
	for _, q := range m.found {
		before := m.at(q.first - 1).text
		stock := before == "in" || before == "strip" || before == "wire" || before == "sheet" || m.metalBehind(q)
		if q.measure == bare && !q.used && q.role == "" && stock && q.value == float64(int(q.value)) && q.value >= 14 && q.value <= 36 {
			return q
		}
	}
	return nil
}

// needStone asks for what a setting can't do without. assume tells that a size
// of two sides is taken for an oval's.
func (d *draft) needStone(assumeOval bool) {
	if d.m.has("freeform") && !d.has("outline") {
		d.question("points", "A freeform stone has no outline by name. Wrap a strip of paper round its foot and measure it, or give 8 or more caliper points. Which is nearest?",
			d.with("nearest to an oval", "outline", "oval"), d.with("nearest to a pear", "outline", "pear"), d.with("nearest to a cushion", "outline", "cushion"))
		return
	}
	size := d.options["size"]
	two := strings.Contains(size, "x")
	sides := newMessage(size).found
	if d.options["outline"] == "round" && two && len(sides) == 1 && d.roundEnough(sides[0].sides) {
		return
	}
	if d.options["outline"] == "round" && two && len(sides) == 1 && len(sides[0].sides) >= 2 && unequal(sides[0].sides) {
		d.question("outline", "A round stone has one size; which outline is this one?", d.with("oval", "outline", "oval"), d.with("cushion", "outline", "cushion"), d.with("emerald (cut corners)", "outline", "emerald"))
		return
	}
	if o := d.options["outline"]; !two && lengthOf(size) > 0 && contains(longOutlines, o) && d.m.context.Last == nil {
		d.question("size", fmt.Sprintf("What is the stone's length x width, in mm? You gave %s alone.", strings.TrimSpace(size)), d.twoSides(lengthOf(size))...)
		return
	}
	if !d.has("outline") && size != "" {
		switch {
		case !two:
			d.say("outline", "round")
			d.note("one measure only, so the stone is taken as round")
		case assumeOval:
			d.say("outline", "oval")
			d.note("no outline was named, so the stone is taken as an oval")
		case d.has("carat"):
		default:
			d.question("outline", "Which outline is the stone?", d.with("oval", "outline", "oval"), d.with("emerald (cut corners)", "outline", "emerald"), d.with("cushion", "outline", "cushion"))
		}
	}
	if !d.has("size") && !d.has("carat") && !d.has("points") {
		if !d.has("outline") {
			d.question("size", "Which stone is it: its outline, and its length x width in mm?",
				d.with("an oval of 8 x 6", "outline", "oval", "size", "8x6"), d.with("a round of 6", "outline", "round", "size", "6"), d.with("a pear of 9 x 6", "outline", "pear", "size", "9x6"))
			return
		}
		usual := usualSizes[d.options["outline"]]
		if usual == nil {
			usual = []string{"8x6", "10x8", "7x5"}
		}
		var choices []Choice
		for _, s := range usual {
			choices = append(choices, d.with(s+" mm", "size", s))
		}
		d.question("size", "What is the stone's length x width, in mm?", choices...)
	}
}

// longOutlines are longer than they are wide, so that one size does not tell them.
var longOutlines = []string{"oval", "pear", "marquise", "baguette"}

// twoSides are choices for a stone of which one side was told: of the usual sizes those with it.
func (d *draft) twoSides(side float64) (choices []Choice) {
	usual := usualSizes[d.options["outline"]]
	if usual == nil {
		usual = []string{"8x6", "10x8", "7x5", "9x7", "12x10", "14x10", "16x12", "18x13"}
	}
	for _, size := range usual {
		long, wide, _ := strings.Cut(size, "x")
		if len(choices) < 3 && (parse(long) == side || parse(wide) == side) {
			choices = append(choices, d.with(size+" mm", "size", size))
		}
	}
	return choices
}

// roundEnough takes the larger of two measures of a round stone that are as good as one.
func (d *draft) roundEnough(sides []float64) bool {
	const asGoodAsOne = 1.02
	size := d.options["size"]
	if len(sides) != 2 || max(sides[0], sides[1]) > asGoodAsOne*min(sides[0], sides[1]) || strings.Contains(size, "in") || d.m.says("not quite round", "not round", "isnt round", "not perfectly round", "not really round") {
		return false
	}
	d.say("size", plain(max(sides[0], sides[1])))
	if q := d.m.quantityOf("size"); q != nil {
		q.noted = true
	}
	d.note("a round stone of %s mm is taken as wide as its larger measure", size)
	return true
}

func unequal(sides []float64) bool {
	return max(sides[0], sides[1]) > 1.04*min(sides[0], sides[1])
}

// usualSizes are calibrated sizes to offer where a stone's size is missing.
var usualSizes = map[string][]string{
	"round": {"6", "8", "5"}, "square": {"6", "8", "5"}, "hexagon": {"6", "8", "7"}, "octagon": {"8", "6", "10"}, "cushion": {"7", "8x6", "8"}, "trillion": {"6", "7", "8"}, "heart": {"6", "8", "10"},
	"pear": {"9x6", "8x5", "10x7"}, "marquise": {"10x5", "8x4", "12x6"}, "baguette": {"6x3", "5x2.5", "7x3"},
}

// settingPlaces are what a number left over may be in a setting.
var settingPlaces = []place{
	{"size", "stone's size", 2, 100}, {"depth", "stone's depth", 1, 20}, {"height", "height of the wall", 1.5, 40}, {"thickness", "thickness of the metal", 0.1, 3}, {"lean", "lean of the wall", 0, 45}, {"number", "number of prongs", 2, 16},
}

// collet reads a tapered setting, and prongs and collar, which share its stone.
func (m *message) collet(request string) Reading {
	if request == "collar" && m.meansMatch() && m.likelyHole() != nil && m.stoneSides() == nil {
		if r, ok := m.match(); ok && r.Outcome == Request {
			return r
		}
		m.release()
	}
	if each, ok := m.eachOfSeveral(request); ok {
		return each
	}
	d := m.draft(request)
	d.places = settingPlaces
	d.offcutBeside()
	if request == "prongs" {
		d.prongs()
	}
	d.baseOfCone()
	if request == "collar" {
		d.blockAndPress()
		d.heightOfStrip()
	}
	d.stone("depth")
	d.angles()
	for _, q := range m.found { // "a 2 ct, the paper says 2.03 ct": the last counts
		if q.measure == carat && !q.used && q.role == "" {
			q.used = true
			d.say("carat", q.shown)
		}
	}
	d.crownAndPavilion()
	d.slantHeight()
	m.rimByTop()
	d.set("rim", m.with("rim"))
	d.cornerRadius()
	if q := m.with("wall"); q != nil && q.measure != gauge && q.value > 1.9 && m.with("height") == nil {
		q.role = "height" // "walls of 3.5 mm" are so high
	}
	d.set("thickness", m.with("wall"))
	if !d.has("thickness") || m.of(gauge) != nil || m.with("thickness") != nil {
		d.thickness(1.9)
	}
	if q := m.with("strip"); q != nil && q.value < likelyRange["height"][0] && !d.has("thickness") {
		d.set("thickness", q) // "how many mm of 0.8 strip"
	}
	d.set("height", m.with("height", "strip"))
	d.depthOrHeight()
	d.girdleAndTable()
	d.cornerCut()
	d.halfAtBase()
	d.corners()
	d.alloy("alloy", false)
	d.askRangeOfClaws()
	d.askStone(false)
	return d.reading()
}

// cornerRadius takes the radius of bent corners. A cushion's own corners are no
// fold, and follow from its size.
func (d *draft) cornerRadius() {
	q := d.m.with("radius")
	switch {
	case q == nil:
	case d.options["outline"] == "cushion":
		q.used = true
		d.note("a cushion's corners follow from its size and not from your %s", strings.TrimSpace(q.typed(d.m)))
	case d.m.context.takes(d.request, "radius"):
		d.set("radius", q)
	}
}

// stoneAngles takes the angles of a stone's crown and pavilion, which are none of the wall:
// "crown angle 34.5 degrees". Crowns and pavilions that are told in mm are no higher.
func (d *draft) stoneAngles() {
	const least, most, near = 20, 60, 3
	m := d.m
	for _, q := range m.found {
		if q.used || q.measure != angle && q.measure != bare || q.value < least || q.value > most {
			continue
		}
		for i := q.first - 1; i >= q.first-near; i-- {
			t := m.at(i).text
			if option := strings.TrimSuffix(t, "s"); (option == "crown" || option == "pavilion") && !d.has(option) && m.context.takes(d.request, option) {
				d.say(option, plain(q.value))
				q.used, q.option = true, option
				break
			}
			if t != "angle" && t != "of" && t != "is" && t != "at" && t != ":" {
				break
			}
		}
	}
}

// slantHeight takes a height that is told along the wall, where its lean is known.
func (d *draft) slantHeight() {
	q := d.m.with("slant")
	if q == nil || q.measure != length && q.measure != bare || d.has("height") {
		return
	}
	lean := parse(d.options["lean"])
	if lean == 0 {
		lean = parse(d.options["included"]) / 2
	}
	if lean <= 0 || lean >= 60 {
		return
	}
	q.used, q.option = true, "height"
	d.say("height", plain(math.Round(100*q.value*math.Cos(lean*math.Pi/180))/100))
	d.note("%s along the wall is %s mm along the axis", strings.TrimSpace(q.typed(d.m)), d.options["height"])
}

// crownAndPavilion adds the two parts of a stone's depth, where both are said.
func (d *draft) crownAndPavilion() {
	crown, pavilion := d.m.with("crown"), d.m.with("pavilion")
	if crown == nil || pavilion == nil || d.has("depth") {
		return
	}
	crown.used, pavilion.used = true, true
	d.say("depth", plain(crown.value+pavilion.value))
	d.note("depth is crown and pavilion, %s + %s; add the girdle's thickness if you measured it", plain(crown.value), plain(pavilion.value))
}

// likelyDepth reports whether a number can be the depth of the stone: a fifth of
// its width up to all of its width.
func (d *draft) likelyDepth(q *quantity) bool {
	width := d.widthMM()
	return width == 0 || q.value >= 0.2*width && q.value <= 1.1*width
}

// widthMM is the smaller side of the stone, 0 where that is not known.
func (d *draft) widthMM() float64 {
	size := newMessage(d.options["size"]).found
	if len(size) == 0 {
		return 0
	}
	width := size[0].value
	for _, side := range size[0].sides {
		width = min(width, side)
	}
	return width
}

// depthOrHeight takes one length that is left beside a stone and its metal. Behind
// the metal's thickness or the lean of the wall it is the wall's height, and otherwise the stone's depth:
// the answer says which was taken.
func (d *draft) depthOrHeight() {
	m := d.m
	if !d.has("thickness") || !d.has("size") || d.has("depth") || d.has("height") {
		return
	}
	q := m.first(1.9, 20, length, bare)
	if q == nil || !d.likelyDepth(q) || m.ofStoneWord(q) || q.measure == bare && !m.at(q.first).number {
		return // "two at each end"
	}
	said := strings.TrimSpace(q.typed(m))
	if m.says("the height", "my height", "height last time") && m.context.takes(d.request, "height") {
		d.set("height", q)
		return
	}
	for _, a := range m.found {
		if (a.option == "lean" || a.option == "included" || a.option == "thickness") && a.next <= q.first && m.context.takes(d.request, "height") {
			d.set("height", q)
			d.note("%s is taken as the height of the wall; say deep if it is the stone's depth", said)
			return
		}
	}
	d.set("depth", q)
	d.note("%s is taken as the stone's depth; say tall if it is the height of the wall", said)
}

// girdleAndTable takes the girdle's thickness and the table in per cent.
func (d *draft) girdleAndTable() {
	m := d.m
	if q := m.with("girdle"); q != nil && m.context.takes(d.request, "girdle") {
		d.set("girdle", q)
	}
	if !m.context.takes(d.request, "table") {
		return
	}
	for _, q := range m.found {
		if q.measure == percent && !q.used && (m.at(q.first-1).text == "table" || m.at(q.next).text == "table") {
			d.set("table", q)
		}
	}
}

// cornerCut takes cut corners in mm, which the request has in per cent of the
// stone's width.
func (d *draft) cornerCut() {
	for _, q := range d.m.found { // "corners clipped by 18 %"
		if said := d.m.between(max(0, q.first-4), q.first); q.measure == percent && !q.used && strings.Contains(said, "corner") && d.m.context.takes(d.request, "cornercut") {
			q.used = true
			d.say("cornercut", strings.TrimSuffix(q.shown, "%"))
			return
		}
	}
	q, width := d.m.with("cornercut"), d.widthMM()
	if q == nil || width == 0 || !d.m.context.takes(d.request, "cornercut") || q.measure == gauge {
		return
	}
	share := 100 * q.value / width
	if share < 2 || share > 45 {
		return
	}
	q.used = true
	if o := d.options["outline"]; o == "" || o == "baguette" || o == "square" {
		d.say("outline", "emerald")
	}
	d.say("cornercut", plain(float64(int(10*share+0.5))/10))
	d.note("corners of %s are %s %% of the width", strings.TrimSpace(q.typed(d.m)), d.options["cornercut"])
}

// angles takes lean and included angle: degrees are the included angle where
// that is said, and the lean otherwise.
func (d *draft) angles() {
	m := d.m
	d.stoneAngles()
	defer d.leanOfIncluded()
	defer d.sameAngleTwice()
	if d.sidesOrAll() {
		return
	}
	if m.has("straight") && d.request != "collar" && m.with("included", "lean") == nil && m.of(angle) == nil && m.context.takes(d.request, "lean") {
		d.say("lean", "0")
		return
	}
	if q := m.with("included"); q != nil && q.measure != length {
		aside := m.says("per side", "each side", "a side", "off vertical")
		if aside || !m.says("included", "between", "total", "overall") && q.value <= 15 && (q.measure == angle || m.says("wall angle", "lean angle", "side angle")) {
			d.set("lean", q)
			return
		}
		d.set("included", q)
		return
	}
	if q := m.with("lean"); q != nil {
		d.set("lean", q)
		return
	}
	for _, q := range m.found { // "a 17 block"
		marked := contains([]string{"says", "marked", "stamped", "labelled", "reads"}, m.at(q.first-1).text) && m.has("block")
		if q.measure == bare && !q.used && (q.role == "" || q.role == "included") && q.value >= leastBlock && q.value <= 60 && (m.saysAt(q.next, "block") || marked) {
			d.set("included", q)
			if m.says("each side or", "per side or", "or each side", "or per side", "whole angle", "or the whole") {
				d.question("", fmt.Sprintf("Blocks are mostly named by the angle between their walls: %s° is then %s° on each side. Which is yours?", q.shown, plain(q.value/2)), d.with(q.shown+"° between the walls", "included", q.shown), d.with(q.shown+"° on each side", "included", plain(2*q.value)))
			}
			d.note("the %s block is read as %s° included, %s° on each side", q.typed(m), q.shown, plain(q.value/2))
			return
		}
	}
	if q := d.angleOfBlock(); q != nil {
		d.set("included", q)
		d.note("%s is read as the block's angle, %s° on each side", q.shown, plain(q.value/2))
		return
	}
	if q := m.of(angle); q != nil {
		switch {
		case m.says("included", "total", "overall", "full angle"):
			d.set("included", q)
		case q.value > mostLeanSaid && !m.says("lean", "per side", "each side", "off vertical"):
			d.set("included", q)
			d.note("%s is read as the included angle, %s° on each side; say lean if it is that", strings.TrimSpace(q.typed(m)), plain(q.value/2))
		default:
			d.set("lean", q)
		}
	}
}

// angleOfBlock is a bare 17 or 28 beside a stone, a wall and a height of its own: the
// angle that most blocks have; common practice, no source.
func (d *draft) angleOfBlock() *quantity {
	m := d.m
	if m.of(angle) != nil || d.request == "bezel" || m.with("height", "depth") == nil && d.request != "collar" {
		return nil
	}
	for _, q := range m.found {
		if q.measure == bare && !q.used && q.role == "" && (q.value == 17 || q.value == 28) && d.has("size") {
			return q
		}
	}
	return nil
}

// sidesOrAll asks what the angle of a block is where the message asks that.
func (d *draft) sidesOrAll() bool {
	m := d.m
	if !m.has("block") || !m.says("each side or", "per side or", "a side or", "or each side", "or per side", "or all in", "or the whole", "whole angle") {
		return false
	}
	var q *quantity
	for _, one := range m.found {
		if (one.measure == angle || one.measure == bare) && !one.used && one.value >= 8 && one.value <= 60 && one.role != "height" && one.role != "depth" && (q == nil || one.value == q.value) {
			one.used = true
			if q == nil {
				q = one
			}
		}
	}
	if q == nil {
		return false
	}
	n := plain(q.value)
	d.say("included", n)
	d.question("", fmt.Sprintf("Blocks are mostly named by the angle between their walls: %s° is then %s° on each side. Which is yours?", n, plain(q.value/2)), d.with(n+"° between the walls", "included", n), d.with(n+"° on each side", "included", plain(2*q.value)))
	return true
}

// sameAngleTwice passes over an included angle that is said beside the lean: "5 in
// total, so 2 1/2 a side".
func (d *draft) sameAngleTwice() {
	lean := d.m.quantityOf("lean")
	if lean == nil {
		return
	}
	for _, q := range d.m.found {
		if !q.used && (q.measure == angle || q.measure == bare) && q.value == 2*lean.value {
			q.used = true
			d.note("%s in all is %s° on each side", strings.TrimSpace(q.typed(d.m)), plain(lean.value))
		}
	}
}

// leanOfIncluded halves an included angle where a request knows the lean alone.
func (d *draft) leanOfIncluded() {
	if a, ok := d.options["included"]; ok && !d.m.context.takes(d.request, "included") {
		delete(d.options, "included")
		d.say("lean", plain(parse(a)/2))
	}
}

// mostLeanSaid is up to where degrees without a word are the lean of one side:
// blocks are named by their included angle, 17° and more. Common practice, no
// source.
const mostLeanSaid = 12

func (d *draft) corners() {
	m := d.m
	if !m.context.takes(d.request, "corner") {
		return
	}
	folded := "scored"
	if d.request == "bezel" {
		folded = "mitred"
	}
	if m.says("score", "scored", "mitre", "mitred", "miter", "mitered") && m.says("corner", "corners", "fold", "folded", "bend") {
		d.say("corner", folded)
	}
}

func (d *draft) prongs() {
	m := d.m
	if m.has("wire") && !m.says("bezel wire", "bearing wire", "rather than solder", "instead of solder", "instead of wire", "rather than wire", "not wire", "no wire") {
		d.question("", "I lay out prongs that are sawn from a tapered setting, not prongs of wire. Shall I work that out?", Choice{Label: "prongs from a tapered setting", Request: "prongs", Options: d.options})
	}
	d.prongsAtPointAndOthers()
	if !d.has("number") {
		d.clawsByPlace()
	}
	if !d.has("number") {
		d.set("number", m.counts("prongs"))
	}
	if !d.has("number") {
		d.set("number", m.divisions())
	}
	if !d.has("number") {
		d.set("number", m.countBehind("prongs"))
	}
	d.eitherNumber()
	d.takeRangeOfClaws()
	d.clawAndOthers()
	if !d.has("number") {
		for _, q := range m.found {
			if q.measure == bare && q.role == "" && !q.used && q.value >= 3 && q.value <= 12 && q.value == float64(int(q.value)) && (m.at(q.next).text == "of" || m.at(q.next).text == "out") {
				d.set("number", q)
				break
			}
		}
	}
	for _, s := range m.senses {
		if !contains(s.Means, "prongs") {
			continue
		}
		for _, q := range m.found { // "prongs 1.2 mm wide"
			if q.role == "width" && !q.used && q.measure != size && q.value < 4 {
				d.set("width", q)
			}
		}
	}
	d.set("drill", m.with("drill"))
	d.wholeUnderClaws()
}

// clawAndOthers counts the claw that is told beside others: "a V claw on the point and 2
// others".
func (d *draft) clawAndOthers() {
	m := d.m
	for _, q := range m.found {
		if q.used || q.measure != bare || q.value != math.Trunc(q.value) || q.value > 8 || !contains([]string{"others", "other", "more"}, m.at(q.next).text) || d.has("number") {
			continue
		}
		if before := m.between(0, q.first); strings.Contains(before, "v claw") || strings.Contains(before, "v prong") || strings.Contains(before, "one claw") || strings.Contains(before, "a claw") {
			q.used, q.option = true, "number"
			d.say("number", plain(q.value+1))
			d.note("%s more than the first make %s prongs", q.shown, plain(q.value+1))
			return
		}
	}
}

// figureBehind is the bare length right behind a word: "gallery 1.5".
func (m *message) figureBehind(word string) *quantity {
	for _, q := range m.found {
		if !q.used && (q.measure == bare || q.measure == length) && m.at(q.first-1).text == word {
			return q
		}
	}
	return nil
}

// countBehind is the bare whole number right behind a word with a meaning: "claws 4".
func (m *message) countBehind(meaning string) *quantity {
	for _, s := range m.senses {
		if !contains(s.Means, meaning) {
			continue
		}
		for _, q := range m.found {
			if q.first == s.next && q.measure == bare && !q.used && q.role == "" && q.value >= 2 && q.value <= 16 && q.value == math.Trunc(q.value) {
				return q
			}
		}
	}
	return nil
}

// divisions is the number of "divide in 5", "split into 6".
func (m *message) divisions() *quantity {
	for _, q := range m.found {
		before := m.at(q.first - 1).text
		if q.measure != bare || q.used || q.value < 3 || q.value > 16 || q.value != math.Trunc(q.value) || before != "in" && before != "into" && before != "by" {
			continue
		}
		if m.saysOneBetween(max(0, q.first-5), q.first, "divide", "divided", "dividing", "split", "space", "spaced") {
			return q
		}
	}
	return nil
}

// prongsAtPointAndOthers adds up prongs that are told in two parts: "a V on the tip and 4
// others", "V claw on the point, 2 more".
func (d *draft) prongsAtPointAndOthers() {
	m := d.m
	at := slices.IndexFunc(m.tokens, func(t token) bool { return t.text == "v" })
	if at < 0 || !m.saysOneBetween(at, len(m.tokens), "point", "tip", "cleft") {
		return
	}
	for _, q := range m.found {
		w := m.at(q.next).stem
		if q.used || q.first < at || q.value != math.Trunc(q.value) || q.value < 1 || q.value > 8 || w != "other" && w != "more" && w != stemOf("plain") && w != stemOf("normal") {
			continue
		}
		q.used = true
		d.say("number", plain(q.value+1))
		d.note("the V at the point and %s more are %s prongs", plain(q.value), plain(q.value+1))
		for _, one := range m.found { // "1 v"
			one.used = one.used || one.next == at && one.value == 1
		}
		return
	}
}

// eitherNumber asks which it is of "two or four claws".
func (d *draft) eitherNumber() {
	m := d.m
	q := m.quantityOf("number")
	if q == nil || m.at(q.first-1).text != "or" {
		return
	}
	if n := numberWords[m.at(q.first-2).text]; n >= 2 && n != q.value {
		d.question("number", "How many prongs shall I take?", d.with(plain(n)+" prongs", "number", plain(n)), d.with(plain(q.value)+" prongs", "number", plain(q.value)))
	}
}

func (d *draft) blockAndPress() {
	m := d.m
	d.workshopNames()
	if q := m.of(force); q != nil {
		q.used = true
		d.note("the press's size is not needed for the load; name a press of your workshop for its gauge pressure")
	}
}

// bezel reads a straight wall for a cabochon.
func (m *message) bezel() Reading {
	if r, ok := m.stripOfEach(); ok {
		return r
	}
	if m.sizesFinger() {
		return m.band()
	}
	d := m.draft("bezel")
	d.places = []place{{"dome", "height of the stone", 1, 30}, {"thickness", "thickness of the wall", 0.1, 1.5}, {"size", "stone's size", 3, 100}, {"seat", "height of the step", 0.3, 5}}
	d.plateRim()
	if q := m.aroundFreeform(); q != nil {
		return d.freeform(q)
	}
	if q := m.with("perimeter"); q != nil {
		return d.aroundOnly(q)
	}
	if m.says("wrapped", "paper", "string", "thread", "cotton", "tape") && m.stoneSides() == nil {
		if q := m.first(15, 400, length, bare); q != nil {
			return d.aroundOnly(q)
		}
	}
	if m.has("step") {
		d.say("bearing", "step")
		d.set("seat", m.tallStep())
		d.stepStrips()
		d.set("seat", m.with("edge"))
		if q := m.besideMeaning("step"); q != nil && q.measure == length {
			d.set("seat", q)
		}
	}
	if m.has("bearingwire") {
		d.say("bearing", "wire")
	}
	d.stripByGauge()
	d.plateBeside()
	d.bezelParts()
	d.stripBeside()
	d.stone("dome")
	d.cornerRadius()
	d.roundedToCushion()
	d.stripSection()
	if !d.has("thickness") {
		d.thickness(1.3)
	}
	if !d.has("dome") {
		if q := m.first(1.3, 30, length, bare); q != nil && d.has("size") && d.likelyDome(q) && !m.isBeside(q, "waste", "saw", "kerf", "overlap", "allowance", "extra", "spare") && m.at(q.next).text != "bezel" && !m.metalBehind(q) && !m.ofStoneWord(q) && !m.isOfOther(q) {
			d.set("dome", q)
		}
	}
	d.corners()
	if q := m.with("edge"); q != nil && !m.has("backplate") {
		if q.measure == angle {
			d.set("edge", q)
		} else {
			d.set("girdle", q)
		}
	}
	d.alloy("alloy", false)
	d.askStone(true)
	return d.reading()
}

// byItsCorners takes a rectangle with corners of a radius for a bezel as a measured
// stone: each corner saves 2 r - pi r / 2 of the way round.
func (d *draft) byItsCorners(radius *quantity) bool {
	q := d.m.quantityOf("size")
	if q == nil || radius.measure != length && radius.measure != bare || !d.m.context.takes(d.request, "perimeter") {
		return false
	}
	long, wide := q.value, q.value
	if len(q.sides) == 2 {
		long, wide = max(q.sides[0], q.sides[1]), min(q.sides[0], q.sides[1])
	}
	if r := radius.value; r <= 0 || r >= wide/2 {
		return false
	}
	around := math.Round(100*(2*(long+wide)-(8-2*math.Pi)*radius.value)) / 100
	d.say("outline", "measured")
	d.say("size", plain(long)+"x"+plain(wide))
	d.say("perimeter", plain(around))
	d.note("with corners of %s it is %s round: 2 x (length + width) less 1.72 times the radius", strings.TrimSpace(radius.typed(d.m)), mm(around))
	return true
}

// roundedToCushion reads a square or a rectangle with round corners as a cushion.
func (d *draft) roundedToCushion() {
	m := d.m
	if o := d.options["outline"]; (o == "square" || o == "baguette") && m.with("radius") == nil && m.says("round corners", "rounded corners", "radius corners", "soft corners", "rounded square", "rounded rectangle", "rounded rectangular", "corners rounded", "rounded off") {
		d.say("outline", "cushion")
		d.note("a %s with round corners is read as a cushion", o)
	}
	if q := m.with("radius"); q != nil && (d.options["outline"] == "baguette" || d.options["outline"] == "square" || d.options["outline"] == "") {
		q.used = true
		if d.byItsCorners(q) {
			return
		}
		d.say("outline", "cushion")
		d.note("a rectangle with round corners is read as a cushion, whose corners follow from its size and not from your %s", q.typed(m))
	}
}

// stepNames are names of the inner strip that a stone sits on.
var stepNames = []string{"bearing", "step", "seat", "ledge", "shelf", "bearer"}

// tallStep is how tall the inner step is: "inner step 1 mm tall".
func (m *message) tallStep() *quantity {
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.value < 0.3 || q.value > 5 {
			continue
		}
		if q.role == "height" && m.saysOneBetween(max(0, q.first-2), q.first, stepNames...) {
			return q
		}
	}
	return nil
}

// stripByGauge takes how wide a strip is that is told with its gauge: "28 ga x 1/8 in".
func (d *draft) stripByGauge() {
	m := d.m
	for _, q := range m.found {
		if before := m.at(q.first - 1).text; q.used || q.measure != length && q.measure != bare || before != "x" && before != "by" {
			continue
		}
		if slices.ContainsFunc(m.found, func(of *quantity) bool { return of.next == q.first-1 && of.measure == gauge }) {
			q.used, q.noted = true, true
			d.note("the strip's height, %s, changes nothing in its length; compare it with the height in the answer", strings.TrimSpace(q.typed(m)))
		}
	}
}

// stepStrips takes the two strips of a step bezel, "outer 0.4, inner 0.5", and the
// height of the inner one, "bearing 1.5".
func (d *draft) stepStrips() {
	m := d.m
	if q := m.with("outer"); q != nil && q.value < 1.3 {
		d.set("thickness", q)
	}
	for _, q := range m.found {
		if d.has("seat") || q.used || q.measure != length && q.measure != bare || q.value < 0.3 || q.value > 5 || q.role != "" && q.role != "inner" {
			continue
		}
		for k := q.first - 1; k >= q.first-2; k-- {
			if w := m.at(k).text; w == "bearing" || w == "step" || w == "seat" || w == "ledge" || w == "shelf" || w == "bearer" {
				d.set("seat", q)
				break
			} else if w != "inside" && w != "is" && w != "of" && w != "," {
				break
			}
		}
	}
	if q := m.with("inner"); q != nil && q.value < 1.5 && d.has("thickness") {
		d.set("stepthick", q)
	}
}

// isOfOther matches a figure that is said of something else than the stone: "the
// pattern repeat is 2.4 mm", "an 8 mm one".
func (m *message) isOfOther(q *quantity) bool {
	if w := m.at(q.next).text; w == "one" || w == "ones" {
		return true
	}
	if w := m.at(q.first - 1).text; w != "is" && w != "are" && w != "was" {
		return false
	}
	switch m.at(q.first - 2).text {
	case "stone", "cab", "cabochon", "it", "gem", "height", "dome", "girdle", "this", "that", "its", "top":
		return false
	}
	return m.at(q.first - 2).word()
}

// likelyDome reports whether a number can be the height of a cabochon: no more than
// it is wide.
func (d *draft) likelyDome(q *quantity) bool {
	s := d.m.quantityOf("size")
	if s == nil {
		return true
	}
	width := s.value
	for _, side := range s.sides {
		width = min(width, side)
	}
	return q.value <= width
}

// stripSection takes "strip 3 x 0.5", whose height the answer works out for itself.
func (d *draft) stripSection() {
	m := d.m
	for _, q := range m.found {
		if q.measure != size || q.used || len(q.sides) != 2 {
			continue
		}
		thin := min(q.sides[0], q.sides[1])
		if m.ofMetal(q) && thin <= mostMetal || d.has("size") && thin <= 0.7 && m.has("wire", "strip", "bezel") && !m.says("too tall") {
			q.used = true
			d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
			d.note("the strip's height, %s mm, changes nothing in its length; the answer works out the height that the stone needs", plain(max(q.sides[0], q.sides[1])))
		}
	}
	if q := m.with("height"); q != nil && m.ofBezel(q) && !m.says("ledge", "seat", "step") {
		q.used = true
		d.note("your height of %s changes nothing in the strip's length; compare it with the height in the answer", strings.TrimSpace(q.typed(m)))
	}
}

// aroundOnly answers where the length round the stone is all that is known.
func (d *draft) aroundOnly(q *quantity) Reading {
	m := d.m
	q.used = true
	t := m.of(gauge)
	wall := 0.0
	if t == nil {
		t = m.with("thickness", "wall")
	}
	if t == nil {
		t = m.first(0.1, 1.5, length, bare)
	}
	if t != nil {
		t.used = true
		if wall = t.value; t.measure == gauge {
			wall = gaugeMM(t.value)
		}
	}
	for _, a := range m.alloys {
		a.used = true
	}
	d.noteCounts()
	if left := m.unused(); len(left) > 0 {
		what := strings.TrimSpace(left[0].typed(m))
		return Reading{Outcome: Question, Ask: fmt.Sprintf("The strip is %s round the stone and pi x its thickness more; what is the %s for? Say it another way, or leave it out.", strings.TrimSpace(q.typed(m)), what)}
	}
	return perimeterStrip(q.value, wall)
}

func parse(s string) float64 {
	for _, t := range tokenize(s) {
		if t.number {
			return t.value
		}
	}
	return 0
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}
