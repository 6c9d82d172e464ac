package sentence

import (
	"math"
	"slices"
	"strings"
)

// sizeSystems are the words that name a system of ring sizes.
var sizeSystems = map[string]string{
	"us": "us", "usa": "us", "american": "us", "america": "us", "canadian": "us", "canada": "us",
	"uk": "uk", "british": "uk", "england": "uk", "english": "uk", "australian": "uk", "aus": "uk", "au": "uk",
	"eu": "iso", "iso": "iso", "european": "iso", "europe": "iso", "french": "iso", "fr": "iso", "euro": "iso",
	"japan": "japan", "japanese": "japan", "jp": "japan",
	"continental": "continental", "swiss": "continental", "italian": "continental", "spanish": "continental",
}

// sizeWords come before the number of a ring size, "size 7".
var sizeWords = map[string]bool{"size": true, "sz": true, "sized": true, "sizes": true}

// ringSize reads a ring size at i: "us 7", "size 7 1/2", "uk size P", "size N½",
// "7 us", "size 7 and a quarter". A size of two sides is a stone's.
func (m *message) ringSize(i int) (quantity, bool) {
	system, sized := "", false
	if sizeSystems[m.at(i).text] != "" && m.besideSize(i) && !m.at(i+1).number {
		return quantity{}, false // it is of the size before: "R (UK), 6 wide"
	}
	j := i
	for ; j < len(m.tokens) && !m.taken[j]; j++ {
		w := m.at(j).text
		switch {
		case sizeSystems[w] != "" && system == "" && !(w == "us" && m.plainUs(j)):
			system = sizeSystems[w]
			continue
		case sizeWords[w], w == "ring" && (sizeWords[m.at(j+1).text] || system != ""):
			sized = true
			continue
		case j == i && w == "knuckle" && m.besideSize(i):
			sized = true
			continue
		case w == "a" && m.at(j+1).glued:
			return quantity{}, false // "ISO, A4" is a paper
		case (w == "-" || w == "," || w == "is" || w == "a" || w == "of" || w == "no" || w == "number") && (system != "" || sized) && j > i:
			continue
		}
		break
	}
	if j == i {
		if q, ok := m.sizeInList(i); ok {
			return q, true
		}
		if q, ok := m.letterAndHalf(i); ok {
			return q, true
		}
		return m.sizeThenSystem(i)
	}
	shown, after, ok := m.sizeValue(j, system == "uk" || sized)
	if !ok {
		return quantity{}, false
	}
	if m.at(after).text == "in" && m.at(after+1).value == 1 {
		return quantity{}, false // "european 4 in 1" is a weave
	}
	if s := sizeSystems[m.at(after).text]; s != "" && system == "" && !(m.at(after).text == "us" && m.plainUs(after)) {
		system, after = s, after+1
	}
	if system == "" && !letter(shown) && !m.speaksOfRings() {
		return quantity{}, false
	}
	if letter(shown) && system == "" {
		system = "uk"
	}
	return quantity{measure: ringSize, shown: shown, system: system, value: m.at(j).value, first: i, next: after, unit: true}, true
}

// besideSize reports whether a ring size stands right before a word: "size 9, knuckle 10".
func (m *message) besideSize(i int) bool {
	last := m.of(ringSize)
	return last != nil && (m.between(last.next, i) == "" || m.between(last.next, i) == ",")
}

// sizeInList reads one more size after a comma or "and": "sizes K, L, N and P".
func (m *message) sizeInList(i int) (quantity, bool) {
	if len(m.found) == 0 {
		return quantity{}, false
	}
	last := m.found[len(m.found)-1]
	gap := m.between(last.next, i)
	if last.measure != ringSize || gap != "" && gap != "," && gap != "and" && gap != ", and" && gap != "or" && gap != "to" && gap != "-" {
		return quantity{}, false
	}
	if !letter(last.shown) {
		return m.numberInList(i, last, gap)
	}
	if t := m.at(i); len(t.text) != 1 || !t.word() || t.text == "x" || !t.capital && !(t.text != "a" && strings.Contains(gap, ",") && m.ofSizesNamed(last)) || t.text == "i" && m.at(i+1).word() {
		return quantity{}, false
	}
	shown, after, ok := m.sizeValue(i, true)
	return quantity{measure: ringSize, shown: shown, system: last.system, first: i, next: after, unit: true}, ok
}

// numberInList reads one more size in figures: "size 7 and 8", "us 6 to 7 1/2".
func (m *message) numberInList(i int, last *quantity, gap string) (quantity, bool) {
	v, shown, next, ok := m.numberAt(i)
	after := m.at(next).text
	u, _ := m.unitAt(next, v)
	joined := gap == "and" || gap == "or" || gap == "to" || m.ofSizesNamed(last) && (gap == "," || gap == ", and") && 4*v == math.Trunc(4*v)
	if !ok || !joined || u.measure != bare || after == "x" || after == "by" || measuring[after] || counted[m.at(next).stem] != "" || v < 0.5 || v > 76 || v > 2.5*last.value {
		return quantity{}, false
	}
	return quantity{measure: ringSize, shown: shown, value: v, system: last.system, first: i, next: next, unit: true}, true
}

// ofSizesNamed reports whether a size stands in a list that "sizes" leads: "sizes 3, 5".
func (m *message) ofSizesNamed(last *quantity) bool {
	for k := slices.Index(m.found, last); k >= 0 && m.found[k].measure == ringSize; k-- {
		if m.saysOneBetween(m.found[k].first, m.found[k].next, "sizes") {
			return true
		}
	}
	return false
}

// sectionWords come behind a letter that is a wire's section and no ring size: "D section".
var sectionWords = map[string]bool{"section": true, "shape": true, "shaped": true, "profile": true}

// sectionLetters takes letters of a wire's section for no ring sizes.
func (m *message) sectionLetters() {
	for i := range m.tokens {
		next := m.at(i + 1).text
		before := m.at(i-1).text == "profile" || m.at(i-1).text == "section"
		if d := m.at(i).text; sectionWords[next] || before || (d == "d" || d == "c") && (next == "ring" || next == "band" || next == "wire" || next == "stock" || next == "bar" || next == "shank") {
			m.tokens[i].capital = false
		}
	}
}

// letterAndHalf reads "N 1/2" and "N and a half", which are sizes without a word.
func (m *message) letterAndHalf(i int) (quantity, bool) {
	t := m.at(i)
	if len(t.text) != 1 || !t.word() || t.text == "a" || t.text == "i" && !(t.capital && m.at(i+1).value == 0.5) || t.text == "x" && !(t.capital && m.fromLetterToLetter(i)) {
		return quantity{}, false
	}
	if t.text == "x" {
		return quantity{measure: ringSize, shown: "X", system: "uk", first: i, next: i + 1, unit: true}, true
	}
	if t.text == "n" && !t.capital && m.at(i-1).number {
		return quantity{}, false // "6 n a quarter"
	}
	if !t.capital && m.at(i+1).number && unitWords[m.at(i+2).text].measure == length {
		return quantity{}, false // "w 0.5 mm silver" is with that
	}
	shown, next, ok := m.sizeValue(i, true)
	if m.loneSize(i) || m.letterToward(i) || m.letterOfStock(i) {
		next = max(next, i+1)
		if shown == "" {
			shown = strings.ToUpper(t.text)
		}
		return quantity{measure: ringSize, shown: shown, system: "uk", first: i, next: next, unit: true}, true
	}
	// A capital alone is a size after the words that lead to one: "for N in 1.5 mm".
	led := t.capital && sizeLeads[m.at(i-1).text] && (m.speaksOfRings() || m.says("blank", "long", "length", "size", "what about")) && !m.has("prongs") && m.at(i+1).stem != "prong"
	led = led || t.capital && (m.fromLetterToLetter(i) || m.hasAndWears(i))
	if !ok || next == i+1 && !led {
		return quantity{}, false
	}
	q := quantity{measure: ringSize, shown: shown, system: "uk", first: i, next: next, unit: true}
	return q, true
}

// fromLetterToLetter matches a capital letter of "from a T to a V" and "take an O
// down to an M".
func (m *message) fromLetterToLetter(i int) bool {
	lead := m.at(i - 1).text
	if lead == "a" || lead == "an" || lead == "size" {
		lead = m.at(i - 2).text
	}
	capitals := 0
	for _, t := range m.tokens {
		if t.capital && t.text != "i" && t.text != "a" {
			capitals++
		}
	}
	return capitals == 2 && (i == 0 && m.at(1).text == "to" || lead == "from" || lead == "to" || lead == "take" || lead == "stretch" || lead == "resize" || lead == "enlarge" || lead == "go") && m.says("to") && m.says("from", "put in", "let in", "cut out", "take out", "take", "stretch", "resize", "enlarge", "go", "down to", "up to")
}

// hasAndWears matches a capital letter of "it's stamped R and I'm an O".
func (m *message) hasAndWears(i int) bool {
	switch m.at(i - 1).text {
	case "a", "an", "stamped", "marked", "says", "size", "reads":
		return m.twoSizesTold() && !m.says("stone", "cab", "prong")
	}
	return false
}

// loneSize matches a capital letter that stands alone in talk of rings: "it's an O
// and I'm an L". A letter of a shape is none: "D section".
func (m *message) loneSize(i int) bool {
	t := m.at(i)
	if !t.capital || !m.speaksOfRings() || t.text == "v" || m.at(i-1).number || m.at(i+1).glued || shapedLike[m.at(i+1).text] {
		return false
	}
	shouts := 0
	for _, other := range m.tokens {
		if other.capital {
			shouts++
		}
	}
	return shouts <= 4
}

// letterToward matches either letter of "t down to p" and "K 1/2 to N", whatever its case.
func (m *message) letterToward(i int) bool {
	isSize := func(k int) bool {
		t := m.at(k)
		return len(t.text) == 1 && t.text[0] >= 'f' && t.text[0] <= 'z' && t.text != "i" && t.text != "x" && t.word() && !t.glued
	}
	toward := func(k int) (next int, ok bool) {
		if m.at(k).value == 0.5 || m.at(k).text == "half" {
			k++
		}
		if m.at(k).text == "down" || m.at(k).text == "up" {
			k++
		}
		return k + 1, m.at(k).text == "to" || m.at(k).text == "into"
	}
	if !isSize(i) || m.saysOneBetween(0, len(m.tokens), "say", "mean", "meant") {
		return false // one of them is put right
	}
	if next, ok := toward(i + 1); ok && isSize(next) && !m.at(i-1).number {
		return true
	}
	for k := max(0, i-6); k < i; k++ {
		if next, ok := toward(k + 1); ok && next == i && isSize(k) && !m.at(k-1).number {
			return true
		}
	}
	return false
}

// letterOfStock matches the only capital letter of a message that tells a strip or wire and
// no stone, where it stands apart: "L, 1.2 x 3 flat", "R out of 1.8 mm square".
func (m *message) letterOfStock(i int) bool {
	t, next := m.at(i), m.at(i+1)
	if len(t.text) != 1 || !t.capital || t.text < "g" || t.text == "i" || t.text == "v" || t.text == "x" || next.glued || m.at(i-1).number {
		return false
	}
	apart := (i == 0 || m.at(i-1).text == ",") && (next.text == "" || next.text == "," || next.number || next.text == "out" || next.text == "in" || next.text == "from" || next.text == "1/2") || next.text == "" && m.at(i-1).word()
	if !apart || m.hasStoneWord() || slices.ContainsFunc(m.tokens, func(o token) bool { return o.capital && o.text != t.text && o.text != "i" }) {
		return false
	}
	return m.saysOneBetween(0, len(m.tokens), "flat", "court", "square", "sq", "strip", "wire", "blank", "band", "shank", "len", "length", "halfround", "comfort", "dshape", "thick", "section") && slices.ContainsFunc(m.tokens, func(o token) bool { return o.number })
}

// hasStoneWord reports whether a stone or a setting is spoken of, before phrases are read.
func (m *message) hasStoneWord() bool {
	for _, t := range m.tokens {
		switch t.stem {
		case "stone", "cab", "gem", "bezel", "collet", "prong", "claw", "cz", "tube", "dome", "drill", "coil", "mandrel", "grade", "letter", "point", "cabochon", "diamond", "sapphir", "gauge", "spring":
			return true
		}
	}
	return false
}

// sizeLeads are words after which a capital letter is a ring's size.
var sizeLeads = map[string]bool{"for": true, "from": true, "to": true, "an": true, "a": true, "and": true, "ring": true, "rings": true, "band": true, "sizes": true, "between": true, "up": true, "down": true, "size": true, "about": true, "enlarge": true, "resize": true, "stretch": true, "reduce": true, "make": true}

// plainUs tells "us" the pronoun from "us" the system: "can you tell us".
func (m *message) plainUs(i int) bool {
	next := m.at(i + 1)
	return !next.number && !sizeWords[next.text] && !(m.at(i-1).number || sizeWords[m.at(i-1).text])
}

func letter(s string) bool { return s != "" && s[0] >= 'A' && s[0] <= 'Z' }

// sizeThenSystem reads "7 us", "54 eu" and "18.5 mm" is left alone.
func (m *message) sizeThenSystem(i int) (quantity, bool) {
	t := m.at(i)
	if !t.number {
		return quantity{}, false
	}
	value, shown, at, _ := m.numberAt(i)
	s := sizeSystems[m.at(at).text]
	if s == "" || m.at(at).text == "us" && m.plainUs(at) && !m.speaksOfRings() {
		return quantity{}, false
	}
	next := at + 1
	if m.at(next).text == "sizes" {
		return quantity{}, false // "1.5 us sizes" is a difference
	}
	if sizeWords[m.at(next).text] {
		next++
	}
	return quantity{measure: ringSize, shown: shown, system: s, value: value, first: i, next: next, unit: true}, true
}

// bareSizes reads the sizes that are said without their word: "it is a 6 and I need
// a 7", "from size 8 to 7 1/2".
func (m *message) bareSizes() {
	m.quarterSizes()
	if !m.speaksOfRings() || !m.says("need", "should be", "want", "from", "into", "supposed to be", "has to be", "to be", "instead of", "fit a", "down to", "up to", "needs to be", "resize", "stretch", "take") || m.hasStone() && !m.fromRoundToRound() || m.says("taper", "tapers", "tapered", "tapering") {
		return
	}
	var bareOnes []*quantity
	sized := 0
	for _, q := range m.found {
		if q.measure == ringSize {
			sized++
			continue
		}
		lead := m.at(q.first - 1).text
		if n := m.at(q.next + 1); m.at(q.next).text == "to" && n.number && unitLike(m.at(q.next+2).text) {
			continue // "from 6 to 3 mm" are lengths
		}
		ends := !m.at(q.next).word() || m.at(q.next).text == "and" || m.at(q.next).text == "but" || m.at(q.next).text == "to" || m.at(q.next).text == "now" || m.at(q.next).text == "in" || m.at(q.next).text == "width" || m.at(q.next).text == "it"
		iso := isFingerRound(q) && (lead == "is" || lead == "be" || lead == "rings" || lead == "its" || lead == "a" || lead == "to" || lead == "from" || lead == "now")
		if q.measure == bare && (q.value >= 1 && q.value <= 16 || isFingerRound(q)) && ends && (iso || lead == "a" || lead == "an" || lead == "to" || lead == "from") && 4*q.value == float64(int(4*q.value)) {
			bareOnes = append(bareOnes, q)
		}
	}
	if n := sized + len(bareOnes); n != 2 && !(n == 1 && m.says("sizes", "a size")) {
		return
	}
	for _, q := range bareOnes {
		q.measure, q.unit = ringSize, true
	}
}

// fromRoundToRound matches "from 52 to 49", sizes that are the way round the finger.
func (m *message) fromRoundToRound() bool {
	for i := 0; i+1 < len(m.found); i++ {
		a, b := m.found[i], m.found[i+1]
		if a.measure == bare && b.measure == bare && isFingerRound(a) && isFingerRound(b) && m.at(a.first-1).text == "from" && m.between(a.next, b.first) == "to" {
			return true
		}
	}
	return false
}

// quarterSizes reads "8 and 3/4" as a ring size in talk of rings: nobody writes so
// many millimetres.
func (m *message) quarterSizes() {
	if !m.speaksOfRings() || m.hasStone() || m.says("inch", "inches", "european", "continental") {
		return
	}
	if slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == ringSize && !letter(q.shown) }) {
		return
	}
	for _, q := range m.found {
		_, part, mixed := strings.Cut(q.shown, " ")
		quarters := part == "1/4" || part == "1/2" || part == "3/4"
		if q.measure == bare && mixed && quarters && q.value >= 2 && q.value <= 16 && !measuring[m.at(q.next).text] && m.at(q.next).text != "x" && m.at(q.next).text != "by" {
			q.measure, q.unit = ringSize, true
			if m.says("american", "us size", "us sizes", "usa") {
				q.system = "us"
			}
		}
	}
}

// joinsQuestion are words that begin what comes behind an "n" that means and.
var joinsQuestion = map[string]bool{"how": true, "what": true, "whats": true, "where": true, "which": true, "when": true, "why": true, "do": true, "does": true, "should": true, "can": true, "will": true, "is": true, "if": true, "then": true, "i": true, "im": true}

// quarterShown are quarters of a size as a ring's size shows them.
var quarterShown = map[float64]string{0.25: " 1/4", 0.75: " 3/4"}

// sizeValue reads the size itself: a number, or a letter where letters are
// sizes, with a half or quarter after it.
func (m *message) sizeValue(j int, letters bool) (shown string, next int, ok bool) {
	t := m.at(j)
	switch {
	case t.number:
		if w := m.at(j + 1).text; w == "x" || w == "by" {
			return "", j, false // a stone's size
		}
		if u, _ := m.unitAt(j+1, t.value); u.measure != bare && !(u.measure == length && m.at(j+1).text == "in") {
			return "", j, false // "size 6 mm"
		}
		shown, next = t.shown, j+1
	case t.text == "n" && !t.capital && joinsQuestion[m.at(j+1).text]: // "whats my size n how long"
		return "", j, false
	case letters && len(t.text) == 1 && t.text[0] >= 'a' && t.text[0] <= 'z' && (t.text != "a" || m.at(j-1).text == "uk") && (t.text != "x" || t.capital && sizeWords[m.at(j-1).text] && !m.at(j+1).number):
		shown, next = strings.ToUpper(t.text), j+1
		if m.at(next).text == "+" && m.at(next+1).number {
			return shown + "+" + m.at(next+1).shown, next + 2, true
		}
		if h := m.at(next); h.number && h.value == 0.5 {
			return shown + " 1/2", next + 1, true
		}
		if part := quarterShown[m.at(next).value]; part != "" && m.at(next).number && !measuring[m.at(next+1).text] && !contains([]string{"x", "by", "in", "inch", "\"", "wide", "thick"}, m.at(next+1).text) {
			return shown + part, next + 1, true // "J 3/4"
		}
	default:
		if n, is := numberWords[t.text]; is && n >= 1 && t.text != "one" {
			shown, next = plain(n), j+1
			break
		}
		return "", j, false
	}
	k := next
	slang := (m.at(k).text == "n" || m.at(k).text == "an" || m.at(k).text == "&") && m.saysOneBetween(k+1, k+3, "half", "quarter")
	if m.at(k).text == "and" || m.at(k).text == "-" || slang {
		k++
	}
	if m.at(k).text == "a" {
		k++
	}
	part := map[string]string{"half": " 1/2", "quarter": " 1/4"}[m.at(k).text]
	if m.at(k).text == "three" && strings.HasPrefix(m.at(k+1).text, "quarter") {
		part, k = " 3/4", k+1
	}
	// "size 7 half round": the half belongs to the profile.
	if part != "" && !(k == next && m.at(k+1).text == "round") && !(m.at(k+1).text == "-" && m.at(k+2).text == "round") && m.at(k+1).text != "hard" && m.at(k+1).text != "ball" {
		return shown + part, k + 1, true
	}
	return shown, next, true
}

// speaksOfRings reports whether a size can be a ring's: the message has a ring, a
// band, a finger, a shank or the like, and "size" is not that of a drill or of a
// stone.
func (m *message) speaksOfRings() bool {
	for _, t := range m.tokens {
		switch t.stem {
		case "ring", "band", "finger", "shank", "mandrel", "thumb", "knuckl", "resiz", "engag", "wed", "sizer":
			return true
		}
		if s := sizeSystems[t.text]; (s == "iso" || s == "japan") && t.text != "french" && t.text != "fr" {
			return true
		}
	}
	if m.says("half a size", "half round", "d shape", "d section", "comfort fit", "court", "sizes up", "sizes down", "sizes from", "a size up", "a size down") {
		return true
	}
	for i, t := range m.tokens {
		if sizeWords[t.text] && m.at(i+1).number && !m.hasStone() {
			return true
		}
	}
	return false
}

// hasStone reports whether a stone's two sides are in the message.
func (m *message) hasStone() bool {
	for i, t := range m.tokens {
		if t.text == "x" && m.at(i-1).number && m.at(i+1).number {
			return true
		}
		if t.stem == "cab" || t.stem == "cabochon" || t.stem == "stone" || t.stem == "gem" {
			return true
		}
	}
	return false
}
