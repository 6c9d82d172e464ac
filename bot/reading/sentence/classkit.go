package sentence

import (
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// kit reads a class: how many makers, and what each of them makes.
func (m *message) kit() (Reading, bool) {
	for _, request := range []string{"collet", "prongs", "collar"} {
		if m.cues[request] < 3 {
			continue
		}
		if each, ok := m.eachOfSeveral(request); ok {
			return each, true
		}
	}
	d := m.draft("kit")
	surely := m.surelyKit()
	if surely {
		m.found = append(m.found, m.countsInWords()...)
		slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
	}
	m.ofClass = surely
	defer func() { m.ofClass = false }()
	makers := m.makers()
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
	several := m.severalPieces()
	if pieces, ok := m.piecesApart(several); ok {
		m.useAll()
		d.say("pieces", pieces)
		if len(makers) != 1 {
			d.askMakers(makers)
		}
		return d.reading(), true
	}
	if len(several) > 1 {
		m.useAll()
		d.question("pieces", "There are several kinds of pieces in that. Say the makers, then one piece after another with a semicolon between: kit 8 makers collet oval 8x6 sterling 22ga ; 4 dome 18 height 5 copper 24ga.")
		return d.reading(), true
	}
	if pieces, ok := m.twoSettings(); ok && surely && len(makers) == 1 {
		d.say("pieces", pieces)
		delete(d.options, "each")
		return d.reading(), true
	}
	inWords := m.makersInWords(len(makers) == 0 && surely)
	piece, ok := m.pieceOfClass()
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
		d.say("pieces", piece.Line())
		d.askMakers(makers)
	}
	return m.kitOf(d, piece), true
}

// askMakers asks how many makers there are, where none or several figures count them.
func (d *draft) askMakers(makers []*quantity) {
	var choices []Choice
	for _, n := range howMany(makers) {
		choices = append(choices, d.with(n+" in the class", "makers", n))
	}
	d.question("makers", "How many makers are in the class?", choices...)
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

// classRole is the chance from which a figure of a class is taken for what it most
// likely is: the rest of the piece's readers have no say in what the class is.
const classRole = 0.5

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
			if w := m.at(q.first - 2).stem; w == stemOf("class") || w == stemOf("workshop") || w == stemOf("group") || w == stemOf("course") || w == stemOf("kit") {
				all = append(all, q)
			}
		}
	}
	if !m.surelyKit() {
		return all[:min(1, len(all))]
	}
	if likeliest := m.likeliestMakers(); len(all) == 0 && likeliest != nil {
		all = append(all, likeliest)
	}
	for _, q := range m.found {
		if slices.Contains(all, q) || len(all) == 0 || m.mayCountMakers(q) < perhapsMakers {
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

// likeliestMakers is the figure that most likely counts the makers, nil for none.
func (m *message) likeliestMakers() (makers *quantity) {
	highest := classRole
	for _, q := range m.found {
		if chance := m.mayCountMakers(q); chance > highest {
			makers, highest = q, chance
		}
	}
	return makers
}

// mayCountMakers is the chance that a figure counts makers.
func (m *message) mayCountMakers(q *quantity) float64 {
	role, chance := m.likelyRole("kit", q)
	if role != "makers" || !isCount(q) || q.value > 200 || q.measure != bare && q.measure != count {
		return 0
	}
	return chance
}

// isCount reports whether a figure is a whole number of two or more.
func isCount(q *quantity) bool { return q.value >= 2 && q.value == math.Trunc(q.value) }

// kitFigures takes the figures that are the class's own and not the piece's: the
// spares, the sheet, the gap, how many each makes.
func (m *message) kitFigures(d *draft) {
	if q := m.of(percent); q != nil {
		d.set("spare", q)
	}
	for _, q := range m.found {
		if m.ofClass && !q.used {
			d.classFigure(q)
		}
	}
	d.sheetBesideWord()
	for _, q := range m.found {
		if counts := q.measure == bare || q.measure == count && q.thing != "makers"; counts && !q.used && isCount(q) && q.value <= mostEach && !d.has("each") && contains(eachWords, m.at(q.next).text) {
			d.set("each", q)
		}
	}
	for i, t := range m.tokens { // "three each"
		if n := numberWords[t.text]; n >= 2 && !d.has("each") && !m.taken[i] && contains(eachWords, m.at(i+1).text) {
			d.say("each", plain(n))
			m.taken[i] = true
		}
	}
	if q := m.counts("rings", "settings", "pieces", "stones"); q != nil && q.value <= mostEach && !d.has("each") && !m.countsSpares(q) && strings.Contains(" "+m.text()+" ", " each ") {
		d.set("each", q)
	}
}

// classFigure takes a figure that is surely the class's own.
func (d *draft) classFigure(q *quantity) {
	role, chance := d.m.likelyRole("kit", q)
	if chance < classRole || d.m.countsSpares(q) {
		return
	}
	typed, free := strings.TrimSpace(q.typed(d.m)), !d.has(role)
	switch lengths := q.measure == length || q.measure == bare; {
	case role == "sheet" && free && q.measure == size && len(q.sides) == 2 && min(q.sides[0], q.sides[1]) >= 20:
		d.set("sheet", q)
	case role == "gap" && free && lengths && q.value >= 0.2 && q.value <= 5:
		d.set("gap", q)
	case role == "blade" && free && lengths && q.value >= 20:
		d.set("blade", q)
	case role == "blade" && lengths && q.value <= mostKerf:
		q.used = true
		d.note("the gap between two blanks leaves room for a blade of %s; say gap to change it", typed)
	case role == "each" && chance >= surelyEach && free && (isCount(q) || q.value == 1) && q.value <= mostEach && (q.measure == bare || q.measure == count):
		d.set("each", q)
	case role == "stock" && q.measure != size:
		q.used = true
		d.note("how many sheets it takes is worked out; you said %s", typed)
	case role == written.Retracted:
		q.used = true
		d.note("%s is left out, since you took it back", typed)
	case role == written.Idle && chance >= leastLeftOut:
		q.used = true
		d.note("%s is not needed for this", typed)
	}
}

// surelyEach is the chance from which a figure counts what each maker makes: it is mostly
// said in words.
const surelyEach = 0.8

// mostKerf is the thickest cut of a saw blade in mm, and mostEach how many of a piece each
// maker may get.
const (
	mostKerf = 1.0
	mostEach = 20
)

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

// spareCount turns a number of spares into the per cent that kit takes.
func (d *draft) spareCount(makers []*quantity) {
	if len(makers) != 1 || d.has("spare") || !d.m.surelyKit() {
		return
	}
	pieces := makers[0].value
	if d.has("each") {
		pieces *= parse(d.options["each"])
	}
	if d.m.says(spareForEach...) {
		d.spares(pieces, pieces)
		return
	}
	for _, q := range d.m.found {
		role, chance := d.m.likelyRole("kit", q)
		if (role == "spare" && chance >= classRole || d.m.countsSpares(q)) && !q.used && (q.measure == bare || q.measure == count) && q.value == math.Trunc(q.value) && q.value <= pieces {
			q.used = true
			if n := q.value; contains(eachWords, d.m.at(q.next+1).text) {
				d.spares(n*makers[0].value, pieces)
				return
			}
			d.spares(q.value, pieces)
			return
		}
	}
	for i, t := range d.m.tokens { // "two spares"
		n := numberWords[t.text]
		least := 2.0
		if behind := d.m.at(i + 2).text; contains(eachWords, behind) || behind == "set" || behind == "kit" {
			least = 1 // "one spare each"
		}
		if next := d.m.at(i + 1).stem; n < least || n > pieces || d.m.taken[i] || next != stemOf("extra") && !spareStems[next] {
			continue
		}
		d.m.taken[i] = true
		if contains(eachWords, d.m.at(i+2).text) {
			n *= makers[0].value
		}
		d.spares(n, pieces)
		return
	}
}

// spareStems are the stems of words for a spare, and for pieces that go wrong: "allow for two
// spoiled ones".
var spareStems = map[string]bool{stemOf("spare"): true, stemOf("spoiled"): true, stemOf("spoilt"): true, stemOf("ruined"): true, stemOf("botched"): true, stemOf("wasted"): true}

// countsSpares reports whether a figure counts spares: "two spare sets".
func (m *message) countsSpares(q *quantity) bool {
	return (q.measure == bare || q.measure == count) && spareStems[m.at(q.next).stem]
}

// spareForEach ask for every piece a second time.
var spareForEach = []string{"double it", "double that", "double the lot", "double everything", "twice as many", "twice the number", "one apiece spare", "a spare each", "a spare apiece", "spare for each", "spare for everyone", "spare per person", "a spare for every"}

// spares are so many of a kit's pieces, in the per cent that kit takes.
func (d *draft) spares(n, pieces float64) {
	spare := math.Floor(1000*n/pieces) / 10
	d.say("spare", plain(spare)+"%")
	d.note("spares for %s pieces: %s, which is %s %%", plain(pieces), plain(n), plain(spare))
}

// kindsOfPiece are requests that are one kind of piece, by the least weight of the
// words for it.
var kindsOfPiece = []map[string]int{
	{"collet": 3, "bezel": 3, "prongs": 4, "tubeset": 5, "collar": 3},
	{"dome": 3},
	{"band": 3, "bangle": 4},
	{"jumpring": 5},
}

// namedPiece is where a message names a kind of piece.
type namedPiece struct{ kind, first, next int }

// severalPieces are the pieces of several kinds or outlines that a class makes, none
// where it makes one.
func (m *message) severalPieces() (all []namedPiece) {
	if !m.surelyKit() {
		return nil
	}
	for _, s := range m.senses {
		kind := kindNamed(s.Term)
		if kind < 0 || kind == 1 && m.isStonesDome(s) || len(all) > 0 && all[len(all)-1].kind == kind {
			continue
		}
		all = append(all, namedPiece{kind, s.first, s.next})
	}
	if len(all) > 1 {
		return all
	}
	outlines := map[string]bool{}
	for _, o := range m.meaning("outline:") {
		outlines[o] = true
	}
	if len(outlines) > 1 && m.says("others", "the rest", "=and", "second", "plus") {
		return make([]namedPiece, 2)
	}
	return nil
}

// kindNamed is the kind of piece that a term names, -1 for none.
func kindNamed(t *Term) int {
	return slices.IndexFunc(kindsOfPiece, func(kind map[string]int) bool {
		for request, least := range kind {
			if t.Cues[request] >= least {
				return true
			}
		}
		return false
	})
}

// twoSettings are two settings of one stone that each makes, "one collet and one claw
// setting": both take the figures.
func (m *message) twoSettings() (pieces string, ok bool) {
	collet, prongs := m.senseOf("collet", 3), m.senseOf("prongs", 4)
	if collet == nil || prongs == nil || collet == prongs {
		return "", false
	}
	first, last := collet, prongs
	if prongs.first < collet.first {
		first, last = prongs, collet
	}
	if last.first-first.next > 4 || !m.saysOneBetween(first.next, last.first, "and", "plus") {
		return "", false
	}
	hidden := m.hideClass()
	claws := m.collet("prongs")
	for _, q := range hidden {
		q.used = true
	}
	if claws.Outcome != Request {
		return "", false
	}
	cone := Reading{Request: "collet", Options: map[string]string{}}
	for option, v := range claws.Options {
		if m.context.takes("collet", option) && option != "number" {
			cone.Options[option] = v
		}
	}
	return cone.Line() + " ; " + claws.Line(), true
}

// senseOf is the first phrase that names a request so strongly, and no other setting, nil
// for none.
func (m *message) senseOf(request string, least int) *sense {
	for i := range m.senses {
		s := &m.senses[i]
		if s.Cues[request] >= least && s.Cues[request] == strongest(s.Cues) {
			return s
		}
	}
	return nil
}

// isStonesDome reports whether "dome" says how high a stone is: "oval 14x10, dome 5".
func (m *message) isStonesDome(s sense) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		role, _ := m.likelyRole("kit", q)
		return q.role == "dome" || role == "dome" && (q.first-s.next >= 0 && q.first-s.next <= 1 || s.first-q.next >= 0 && s.first-q.next <= 1)
	})
}

// piecesApart reads each of several pieces from its own words, where all of them are
// whole.
func (m *message) piecesApart(named []namedPiece) (pieces string, ok bool) {
	from := 0
	var lines []string
	for i, p := range named {
		next := len(m.tokens)
		if i+1 < len(named) {
			if next = m.lastBreak(p.next, named[i+1].first); next < 0 {
				return "", false
			}
		}
		r, ok := m.pieceBetween(from, next)
		if !ok {
			return "", false
		}
		lines = append(lines, r.Line())
		from = next + 1
	}
	return strings.Join(lines, " ; "), len(lines) > 1
}

// lastBreak is the last token of these that parts one piece from the next, -1 for none.
func (m *message) lastBreak(first, next int) int {
	for i := next - 1; i >= first; i-- {
		if contains([]string{"and", "plus", "+", ";", "an", "then"}, m.at(i).text) && !m.inFigure(i) {
			return i
		}
	}
	for i := next - 1; i >= first; i-- {
		if (m.at(i).text == "," || m.at(i).text == ".") && !m.inFigure(i) {
			return i
		}
	}
	return -1
}

// pieceBetween reads a whole piece from some of the words, without what is the class's
// own; of the metal that the message names alone.
func (m *message) pieceBetween(first, next int) (Reading, bool) {
	var words strings.Builder
	for i := first; i < next; i++ {
		if slices.ContainsFunc(m.found, func(q *quantity) bool { return q.used && q.first <= i && i < q.next }) {
			continue
		}
		t := m.at(i)
		if !t.glued {
			words.WriteByte(' ')
		}
		if t.capital {
			t.text = strings.ToUpper(t.text)
		}
		words.WriteString(t.text)
	}
	part := newMessage(words.String())
	part.context, part.ofClass = m.context, true
	part.bindRoles()
	r, ok := part.piece()
	if !ok || r.Outcome != Request {
		return r, false
	}
	if _, has := r.Options["alloy"]; !has && len(m.alloys) == 1 && m.alloys[0].likeliestKey() != "" {
		r.Options["alloy"] = m.alloys[0].likeliestKey()
	}
	return r, true
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

// pieceOfClass reads what is made in a class, if it is whole without the figures that are
// most likely the class's own.
func (m *message) pieceOfClass() (Reading, bool) {
	hidden := m.hideClass()
	if len(hidden) == 0 {
		return m.piece()
	}
	mine := m.unused()
	r, ok := m.piece()
	for _, q := range hidden {
		q.used = false
	}
	if ok && r.Outcome == Request {
		return r, true
	}
	for _, q := range mine {
		q.used, q.option = false, ""
	}
	return m.piece()
}

// hideClass takes the figures that are most likely the class's own, so that its piece is
// read without them.
func (m *message) hideClass() (hidden []*quantity) {
	for _, q := range m.unused() {
		if roles := m.rolesOf("kit", q); roles.Of(notOfPiece...) >= classRole {
			q.used = true
			hidden = append(hidden, q)
		}
	}
	return hidden
}

// notOfPiece are roles of figures of a class that are not its piece's.
var notOfPiece = []string{"makers", "each", "spare", "sheet", "stock", "gap", "blade", written.Idle, written.Retracted}

// piece reads what is made in a class.
func (m *message) piece() (Reading, bool) {
	switch m.pieceNamed() {
	case "collet", "collar", "prongs":
		return m.collet(m.pieceNamed()), true
	case "jumpring":
		return m.jumpring()
	case "tubeset":
		return m.tubeset()
	case "bezel":
		return m.bezel(), true
	case "dome":
		return m.dome(), true
	case "bangle":
		return m.bangle()
	case "band":
		return m.band(), true
	}
	return Reading{}, false
}

// pieceNamed is what a class makes by the words for it, else by its figures.
func (m *message) pieceNamed() string {
	byFigures := func(roles ...string) bool {
		return slices.ContainsFunc(m.unused(), func(q *quantity) bool { return m.rolesOf("kit", q).Of(roles...) >= classRole })
	}
	ringLess := m.of(ringSize) == nil && !byFigures("ring", "bangle")
	if m.cues["band"] >= 3 && ringLess && byFigures("wire", "inside") {
		return "jumpring" // "10 rings of wire 1.2, bore 5"
	}
	for _, p := range []struct {
		request string
		least   int
	}{{"prongs", 4}, {"jumpring", 5}, {"tubeset", 5}, {"collar", 3}, {"bezel", 2}, {"collet", 3}, {"dome", 2}, {"bangle", 4}, {"band", 2}, {"collet", 1}} {
		if m.cues[p.request] < p.least || p.request == "collar" && m.cues["bezel"] >= 3 || p.request == "bezel" && m.cues["collet"] >= 3 {
			continue
		}
		return p.request
	}
	switch {
	case m.of(ringSize) != nil:
		return "band"
	case slices.ContainsFunc(m.unused(), func(q *quantity) bool {
		role, chance := m.likelyRole("kit", q)
		return role == "tubesize" && chance >= classRole
	}):
		return "tubeset"
	case len(m.meaning("outline:")) > 0 && m.stoneSides() != nil:
		return "collet"
	}
	return ""
}

// makersInWords takes the one number in words that no figure has, which most likely
// counts the makers, where that is sought: "seven and me". It is asked about, because
// nothing else says so.
func (m *message) makersInWords(sought bool) string {
	if !sought {
		return ""
	}
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
