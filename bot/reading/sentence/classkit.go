package sentence

import (
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// kit reads a class: how many makers, and what each of them makes.
func (m *message) kit() (Reading, bool) {
	d := m.draft("kit")
	makers := m.makers()
	surely := m.surelyKit()
	if len(makers) == 0 && !surely && (m.cues["kit"] < 3 || len(m.found) > 0) {
		return Reading{}, false
	}
	for _, q := range makers {
		q.used = true
		d.say("makers", makers[0].shown)
	}
	m.kitFigures(d)
	d.spareCount(makers)
	if len(makers) > 1 {
		delete(d.options, "makers")
	}
	if m.severalPieces() {
		m.useAll()
		d.question("pieces", "There are several kinds of pieces in that. Say the makers, then one piece after another with a semicolon between: kit 8 makers collet oval 8x6 sterling 22ga ; 4 dome 18 height 5 copper 24ga.")
		return d.reading(), true
	}
	inWords := ""
	if len(makers) == 0 && surely {
		inWords = m.makersInWords()
	}
	piece, ok := m.piece()
	if !ok && len(makers) == 0 {
		m.useAll()
		d.question("makers", "How many makers are in the class, and what does each of them make?")
		return d.reading(), true
	}
	if !ok {
		d.question("pieces", "What does each maker make? Say it as you would ask for one.", d.with("a collet", "pieces", "collet oval 8x6 sterling 22ga"), d.with("a bezel", "pieces", "bezel oval 10x8 fine-silver 28ga"), d.with("a plain ring", "pieces", "band us 7 width 4 1.5mm sterling"))
		return d.reading(), true
	}
	if inWords != "" && piece.Outcome == Request {
		d.question("makers", "How many makers are in the class?", d.with(inWords+" makers", "makers", inWords, "pieces", piece.Line()))
	}
	if len(makers) > 1 && piece.Outcome == Request {
		for _, n := range howMany(makers) {
			d.choices = append(d.choices, d.with(n+" in the class", "makers", n, "pieces", piece.Line()))
		}
		d.ask, d.missing = "How many makers are in the class?", "makers"
	}
	return m.kitOf(d, piece), true
}

// howMany are the numbers of makers that a class may have, of those that were told: two
// may be one group and another.
func howMany(makers []*quantity) []string {
	var all []string
	for _, q := range makers[:min(3, len(makers))] {
		all = append(all, q.shown)
	}
	if len(makers) == 2 {
		all = append(all, plain(makers[0].value+makers[1].value))
	}
	return all
}

// kitOf is a class that makes this piece; what the piece lacks is asked for.
func (m *message) kitOf(d *draft, piece Reading) Reading {
	if piece.Outcome == Question {
		r := Reading{Outcome: Question, Request: "kit", Options: d.options, Ask: piece.Ask, Missing: piece.Missing, Piece: &Last{Request: piece.Request, Options: piece.Options}}
		for _, c := range piece.Choices {
			r.Choices = append(r.Choices, d.with(c.Label, "pieces", c.Line()))
		}
		return r
	}
	d.notes = append(d.notes, piece.Notes...)
	d.say("pieces", piece.Line())
	if !d.has("makers") {
		d.question("makers", "How many makers are in the class?")
	}
	return d.reading()
}

// kitRole is the chance from which a figure of a class is taken for what it most
// likely is.
const kitRole = 0.9

// perhapsMakers is the chance from which a second figure may count makers too, so that
// it is asked how many there are.
const perhapsMakers = 0.75

// surelyKit reports whether the message as a whole asks for a class's pieces.
func (m *message) surelyKit() bool {
	if m.tooShort() {
		return false
	}
	return m.chance("kit") >= possible || m.cues["kit"] >= plainlyNamed && m.chance("kit") >= likelier
}

// makers are the figures that count the makers, each value once.
func (m *message) makers() []*quantity {
	var all []*quantity
	if q := m.counts("makers"); q != nil {
		all = append(all, q)
	}
	for _, q := range m.found { // "class of 8", "workshop for 12"
		if len(all) == 0 && q.measure == bare && q.role == "" && isCount(q) && (m.at(q.first-1).text == "of" || m.at(q.first-1).text == "for") && q.value <= 60 {
			if w := m.at(q.first - 2).stem; w == stemOf("class") || w == stemOf("workshop") || w == stemOf("group") || w == stemOf("course") {
				all = append(all, q)
			}
		}
	}
	if !m.surelyKit() {
		return all[:min(1, len(all))]
	}
	for _, q := range m.found {
		role, chance := m.likelyRole("kit", q)
		if slices.Contains(all, q) || role != "makers" || chance < kitRole && (len(all) == 0 || chance < perhapsMakers) || q.value < 1 || q.value != math.Trunc(q.value) || q.value > 200 || q.measure != bare && q.measure != count {
			continue
		}
		if slices.ContainsFunc(all, func(other *quantity) bool { return other.value == q.value }) {
			q.used = true // said twice
			continue
		}
		all = append(all, q)
	}
	return all
}

// isCount reports whether a figure is a whole number of two or more.
func isCount(q *quantity) bool { return q.value >= 2 && q.value == math.Trunc(q.value) }

// kitFigures takes the figures that are the class's own and not the piece's: the
// spares, the sheet, the gap, how many each makes.
func (m *message) kitFigures(d *draft) {
	if q := m.of(percent); q != nil {
		d.set("spare", q)
	}
	d.sheetBesideWord()
	for _, q := range m.found {
		if counts := q.measure == bare || q.measure == count && q.thing != "makers"; counts && !q.used && isCount(q) && !d.has("each") && contains(eachWords, m.at(q.next).text) {
			d.set("each", q)
		}
	}
	for i, t := range m.tokens { // "three each"
		if n := numberWords[t.text]; n >= 2 && !d.has("each") && !m.taken[i] && contains(eachWords, m.at(i+1).text) {
			d.say("each", plain(n))
			m.taken[i] = true
		}
	}
	if q := m.counts("rings", "settings", "pieces", "stones"); q != nil && !d.has("each") && strings.Contains(" "+m.text()+" ", " each ") {
		d.set("each", q)
	}
	if !m.surelyKit() {
		return
	}
	for _, q := range m.found {
		role, chance := m.likelyRole("kit", q)
		if q.used || chance < kitRole && (role != written.Idle || chance < trialRole) {
			continue
		}
		switch {
		case role == "sheet" && !d.has("sheet") && q.measure == size && len(q.sides) == 2 && min(q.sides[0], q.sides[1]) >= 20:
			d.set("sheet", q)
		case role == "gap" && !d.has("gap") && (q.measure == length || q.measure == bare) && q.value >= 0.2 && q.value <= 5:
			d.set("gap", q)
		case role == "each" && !d.has("each") && q.measure == bare && isCount(q) && q.value <= 20:
			d.set("each", q)
		case role == "stock" && q.measure != size:
			q.used = true
			d.note("how many sheets it takes is worked out; you said %s", strings.TrimSpace(q.typed(m)))
		case role == written.Retracted:
			q.used = true
			d.note("%s is left out, since you took it back", strings.TrimSpace(q.typed(m)))
		case role == written.Idle:
			q.used = true
			d.note("%s is not needed for this", strings.TrimSpace(q.typed(m)))
		}
	}
}

// eachWords stand behind how many each maker makes: "two each".
var eachWords = []string{"each", "apiece", "ea"}

// sheetBesideWord takes the size beside a word for sheet: "from a 100 x 200 sheet".
func (d *draft) sheetBesideWord() {
	m := d.m
	for _, s := range m.senses {
		if !contains(s.Means, "sheet") {
			continue
		}
		for _, q := range m.found {
			if q.measure == size && !q.used && (q.next == s.first || q.first == s.next || q.first == s.next+1 && m.at(s.next).text == "of") && min(q.sides[0], q.sides[1]) >= 20 {
				d.set("sheet", q)
			}
		}
	}
}

// spareCount turns a number of spares into the per cent that kit takes, where each
// maker makes one.
func (d *draft) spareCount(makers []*quantity) {
	if len(makers) != 1 || d.has("spare") || d.has("each") || !d.m.surelyKit() {
		return
	}
	for _, q := range d.m.found {
		role, chance := d.m.likelyRole("kit", q)
		if role != "spare" || chance < kitRole || q.used || q.measure != bare && q.measure != count || q.value != math.Trunc(q.value) || q.value > makers[0].value {
			continue
		}
		q.used = true
		spare := math.Floor(1000*q.value/makers[0].value) / 10
		d.say("spare", plain(spare)+"%")
		d.note("%s spare for %s makers is spare %s %%", q.shown, makers[0].shown, plain(spare))
		return
	}
}

// kindsOfPiece are requests that are one kind of piece, by the least weight of the
// words for it.
var kindsOfPiece = [][]struct {
	request string
	least   int
}{
	{{"collet", 3}, {"bezel", 3}, {"prongs", 4}, {"tubeset", 5}, {"collar", 3}},
	{{"dome", 3}},
	{{"band", 3}, {"bangle", 4}},
	{{"jumpring", 5}},
}

// severalPieces reports whether a class makes pieces of several kinds or outlines.
func (m *message) severalPieces() bool {
	if !m.surelyKit() {
		return false
	}
	kinds := 0
	for _, kind := range kindsOfPiece {
		for _, of := range kind {
			if m.cues[of.request] >= of.least {
				kinds++
				break
			}
		}
	}
	outlines := map[string]bool{}
	for _, o := range m.meaning("outline:") {
		outlines[o] = true
	}
	return kinds > 1 || len(outlines) > 1 && m.says("others", "the rest", "=and", "second", "plus")
}

// useAll takes all figures and metals as read, where none of them counts.
func (m *message) useAll() {
	for _, q := range m.found {
		q.used = true
	}
	for _, a := range m.alloys {
		a.used = true
	}
}

// piece reads what is made in a class.
func (m *message) piece() (Reading, bool) {
	switch {
	case m.cues["prongs"] >= 4:
		return m.collet("prongs"), true
	case m.cues["jumpring"] >= 5:
		return m.jumpring()
	case m.cues["tubeset"] >= 5:
		return m.tubeset()
	case m.cues["collar"] >= 3 && m.cues["bezel"] < 3:
		return m.collet("collar"), true
	case m.cues["bezel"] >= 2 && m.cues["collet"] < 3:
		return m.bezel(), true
	case m.cues["collet"] >= 1:
		return m.collet("collet"), true
	case m.cues["dome"] >= 3:
		return m.dome(), true
	case m.cues["bangle"] >= 4:
		return m.bangle()
	case m.cues["band"] >= 2 || m.of(ringSize) != nil:
		return m.band(), true
	case len(m.meaning("outline:")) > 0 && m.stoneSides() != nil:
		return m.collet("collet"), true
	}
	return Reading{}, false
}

// makersInWords takes the one number in words that no figure has, which most likely
// counts the makers: "seven and me". It is asked about, because nothing else says so.
func (m *message) makersInWords() string {
	at := -1
	for i, t := range m.tokens {
		if v := numberWords[t.text]; v < 3 || v != math.Trunc(v) || m.taken[i] || m.inFigure(i) || t.text == "dozen" || t.text == "hundred" {
			continue
		}
		if at >= 0 {
			return ""
		}
		at = i
	}
	if at < 0 {
		return ""
	}
	m.taken[at] = true
	return plain(numberWords[m.tokens[at].text])
}
