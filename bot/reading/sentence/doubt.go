package sentence

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/trust"
	"guildhand/bot/reading/written"
)

// A piece that is worked out from a message read wrongly costs metal. Where all signs
// together make it doubtful whether a piece is what was meant, its reading is shown and
// asked about, with other readings that come near.
const (
	// trusted is the chance from which a piece is worked out without asking.
	trusted = 0.5
	// likelyCompleted is the chance from which a piece in which a figure had no place by
	// the rules is asked about as a whole, and not its figure alone.
	likelyCompleted = 0.4
	// surelyCompleted is the chance from which it is worked out.
	surelyCompleted = 0.72
	// surelyMeant is the chance from which another reading is taken in place of a
	// doubtful one.
	surelyMeant = 0.8
	// near is the chance from which another reading is offered beside the first.
	near = 0.12
	// hopeless is the chance under which what is known in words is tried first.
	hopeless = 0.15
)

// confirmed is the reading of a piece where it can be trusted, another that surely is
// what was meant, and else a question.
func (m *message) confirmed(r Reading) Reading {
	lost := r.asksOfFigure()
	if !lost && r.Outcome != Request || !m.mayDoubt(r) {
		return r
	}
	if piece, ok := m.pieceInTalk(); ok && !lost && m.context.undoubted == nil && m.plainlySaid(piece, r) {
		return r
	}
	chance := 0.0
	if !lost {
		signs := m.signsOf(r)
		if m.context.undoubted != nil {
			m.context.undoubted(signs)
			return r
		}
		chance = trust.Chance(signs)
		if chance >= trusted || m.plainlyTyped(r) || m.surelyRings(r) || m.surelyResized(r) || m.surelyPlaced(r) || m.weightAsked(r) || m.asksMeasureOf(r) || r.isReckoned() || m.checksSum(r, signs) || r.hasBorderedPlate() || allInPlace(signs, m.asksItsFigures(r) || m.typedAsLine(r) || m.countsProngs(r) && !m.wantsKnowledge()) {
			return r
		}
	}
	others := m.otherReadings(r)
	if len(others) > 0 && others[0].chance >= surelyMeant && !m.namesFirst(r, others[0].Reading) {
		return others[0].Reading
	}
	if lost {
		return r
	}
	if chance < hopeless && m.wantsKnowledge() {
		if known, ok := m.nearestByAllWords(nearEnough); ok {
			return known
		}
	}
	return m.askIfMeant(candidate{r, chance}, others)
}

// checksSum reports whether a piece is worked out because its asker has done so and wants his
// sum checked, and hardly a figure is in a place where it doesn't belong.
func (m *message) checksSum(r Reading, signs trust.Signs) bool {
	return len(r.Told) > 0 && signs["unlikely places"] <= 1 && slices.ContainsFunc(m.found, func(q *quantity) bool { return q.role == ownResult })
}

// hasBorderedPlate reports whether a bezel's plate has a border, which only its own words tell.
func (r Reading) hasBorderedPlate() bool { return r.Request == "bezel" && r.Options["platerim"] != "" }

// asksOfFigure reports whether a reading asks what a figure is.
func (r Reading) asksOfFigure() bool { return r.Outcome == Question && r.Unplaced != "" }

// toldByChances are requests whose figures the models know better than the signs do. Of a
// setting or a ring the signs tell more: there one measure may be of several things.
var toldByChances = []string{"kit", "tune", "melt", "match", "weigh"}

// surelyPlaced reports whether a message surely asks for what was read, and each of its
// figures is where it most likely belongs or is left out as what isn't needed.
func (m *message) surelyPlaced(r Reading) bool {
	if m.chance(r.Request) < certain || !contains(toldByChances, r.Request) {
		return false
	}
	return !slices.ContainsFunc(m.found, func(q *quantity) bool {
		role, chance := m.likelyRole(r.Request, q)
		switch place := m.placeIn(r, q); {
		case chance < perhapsRole:
			return true
		case place == "pieces":
			return contains(notOfPiece, role) && role != "each"
		case place == "":
			return !contains(notOfPiece, role)
		default:
			return place != role
		}
	})
}

// typedAsLine reports whether a message begins as a line of options does: "dome 30 height 10".
func (m *message) typedAsLine(r Reading) bool {
	return m.at(0).text == r.Request && (m.inFigure(1) || slices.ContainsFunc(m.alloys, func(a *metal) bool { return a.first == 1 }) ||
		slices.ContainsFunc(m.senses, func(s sense) bool {
			return s.first == 1 && len(s.Means) > 0 && strings.HasPrefix(s.Means[0], "outline:")
		}))
}

// countsProngs reports whether the number of a piece's prongs is told by their name, which no
// other piece has.
func (m *message) countsProngs(r Reading) bool {
	return r.Request == "prongs" && r.Options["number"] != "" && slices.ContainsFunc(m.found, func(q *quantity) bool { return q.thing == "prongs" })
}

// How likely a request and the places of its figures must be for a piece that also asks
// to know something: "8x6 oval, 0.4 fine, where do I put the seam?"
const (
	leastAsked  = 0.32
	leastOfBest = 0.75
	// leastOfAll is the chance of all places together where figures are left out.
	leastOfAll, surelyAsked = 0.82, 0.78
)

// allInPlace reports whether each figure is where it most likely belongs, so that all that
// is doubtful is whether a piece is wanted at all. Then the piece serves better than a
// question, since nothing in it is read wrongly. So it does where its figures are asked for
// in words.
func allInPlace(s trust.Signs, asked bool) bool {
	return s["figures"] > 0 && s["completed"]+s["left out"]+s["unlikely places"] == 0 && s["worst place"] >= math.Log(leastOfBest) && (asked || s["intent"] >= math.Log(leastAsked))
}

// certainlyPlaced reports whether a message certainly asks for a piece, and each of its figures
// certainly is where it was put.
func certainlyPlaced(s trust.Signs) bool {
	return s["figures"] > 0 && s["left out"]+s["unlikely places"] == 0 && s["worst place"] >= math.Log(likelyRole) && s["intent"] >= math.Log(likelyRole)
}

// restIsIdle reports whether a piece lacks nothing but figures that its asker surely gave
// for something else: "my Year 11s want a 4 claw crown".
func restIsIdle(r, whole Reading, s trust.Signs) bool {
	return maps.Equal(r.Options, whole.Options) && s["unlikely places"] == 0 && s["places"] >= math.Log(leastOfAll) && s["intent"] >= math.Log(surelyAsked)
}

// mayDoubt reports whether a reading is a piece that the words of this message alone make.
func (m *message) mayDoubt(r Reading) bool {
	if r.Options["action"] != "" {
		return false // nothing is worked out
	}
	return readersOf[r.Request] != nil && len(r.Changed) == 0 && r.Verdict == "" && m.context.Asked == nil && !m.convertsSize(r) && !m.tellsOfPiece(r)
}

// askedAsWhole works out a piece with its figures where they surely belong, or asks about
// it, in place of a question about a figure that has no place in it by the rules.
func (m *message) askedAsWhole(r Reading) Reading {
	if !r.asksOfFigure() || !m.mayDoubt(r) {
		return r
	}
	whole, ok := m.completed(r)
	if ok && m.context.undoubted != nil {
		m.context.undoubted(m.signsOf(whole))
		return whole
	}
	others, chance, idle, certainInAll := m.otherReadings(r), 0.0, false, false
	if ok {
		signs := m.signsOf(whole)
		chance, idle, certainInAll = trust.Chance(signs), restIsIdle(r, whole, signs), certainlyPlaced(signs)
	}
	switch {
	case ok && m.surelyPlaced(whole), (chance >= surelyCompleted || idle || certainInAll) && m.context.Last == nil:
		return whole
	case chance >= likelyCompleted:
		return m.askIfMeant(candidate{whole, chance}, others)
	case len(others) > 0 && others[0].chance >= likelyCompleted:
		return m.askIfMeant(others[0], others[1:])
	}
	return r
}

// How likely a figure must be where it is put, or not needed at all, where the rules have
// no place for it.
const (
	leastPlace   = 0.5
	leastLeftOut = 0.7
	// leastFree is the chance of all free places together under which a figure is another
	// value of what has one.
	leastFree = 0.3
)

// completed is the piece that a question about figures without a place most likely means:
// each of them where it belongs by the words round it, or left out. There is none where
// something else is to be asked.
func (m *message) completed(r Reading) (Reading, bool) {
	if !r.asksOfFigure() || readersOf[r.Request] == nil {
		return r, false
	}
	o := Reading{Outcome: Request, Request: r.Request, Options: maps.Clone(r.Options), Notes: slices.Clone(r.Notes), Completed: true}
	d := draft{m: m, request: r.Request, options: o.Options}
	m.numbersInWords()
	for _, q := range m.found {
		if q.other != nil {
			return r, false // which end of a range is asked
		}
		if q.used || m.isStripHeight(r, q) || m.placeIn(o, q) != "" || q.measure == size && m.reckonedIn(o, q, 1) {
			continue
		}
		option, chance := m.freePlace(o, q)
		switch {
		case option == "" && chance >= leastLeftOut:
			o.Notes = append(o.Notes, fmt.Sprintf("the %s is left out", strings.TrimSpace(q.typed(m))))
		case option != "" && chance >= leastPlace:
			o.Options[option] = d.shown(option, q)
		default:
			return r, false
		}
	}
	d.conflicts()
	return o, d.ask == "" && o.hasAll()
}

// needed are, by request, options of which a piece has at least one of each list.
var needed = map[string][][]string{
	"collet": stoneNeeded, "collar": stoneNeeded, "prongs": stoneNeeded, "bezel": append([][]string{{"outline"}}, stoneNeeded...),
	"tubeset": stoneNeeded, "halo": append([][]string{{"with"}}, stoneNeeded...), "saddle": append([][]string{{"shank"}}, stoneNeeded...),
	"band": {{"ring", "bangle"}}, "resize": {{"from"}, {"to"}}, "jumpring": {{"wire"}, {"inside", "mandrel", "ratio"}}, "dome": {{"size", "disc"}},
	"melt": {{"wax", "model", "size"}, {"alloy"}}, "weigh": {{"size", "length", "pieces", "collet"}}, "gauge": {{"gauge"}}, "kit": {{"makers"}},
}

var stoneNeeded = [][]string{{"size", "points", "traced", "carat", "tubesize", "basesize"}}

// hasAll reports whether a piece has all options without which there is none.
func (r Reading) hasAll() bool {
	return !slices.ContainsFunc(needed[r.Request], func(any []string) bool {
		return !slices.ContainsFunc(any, func(option string) bool { return r.Options[option] != "" })
	})
}

// freePlace is the option of a reading that a figure most likely belongs to and that has
// no value yet, empty where it most likely belongs to none. The chance is that among all
// that it may be; it is 0 where the figure most likely is another value of what has one.
func (m *message) freePlace(r Reading, q *quantity) (option string, chance float64) {
	roles := m.rolesOf(r.Request, q)
	chance = roles.Of(nowhere...)
	all := chance
	for role, c := range roles.All() {
		if slices.Contains(nowhere, role) || !m.isFree(r, role, q) {
			continue
		}
		all += c
		if c > chance {
			option, chance = role, c
		}
	}
	if all < leastFree {
		return "", 0
	}
	return option, chance / all
}

// nowhere are the roles of figures that are given for no option.
var nowhere = []string{written.Retracted, written.Idle, written.Asked, written.Result}

// isFree reports whether a reading has no value of an option yet and could take a figure
// for it.
func (m *message) isFree(r Reading, option string, q *quantity) bool {
	d := draft{m: m, request: r.Request, options: r.Options}
	if d.has(option) || !m.context.takes(r.Request, option) || !q.unitLets(option) || !d.formHas(option) || m.countsThings(q) && !countedPlaces[option] {
		return false
	}
	for other := range r.Options {
		if m.context.Excludes != nil && m.context.Excludes(r.Request, option, other) {
			return false
		}
	}
	return true
}

// countsThings reports whether a whole number stands before a noun in the plural: "eleven
// ladies", "five small diamonds", "six of my pupils".
func (m *message) countsThings(q *quantity) bool {
	return q.measure == count || q.measure == bare && q.value == math.Trunc(q.value) && m.thingsAt(q.next) != ""
}

// thingsAt is the noun in the plural that stands at i or behind one word more, empty for
// none.
func (m *message) thingsAt(i int) string {
	for k := i; k < i+3; k++ {
		t := m.at(k)
		switch {
		case t.text == "of" || t.text == "my" || t.text == "our" || t.text == "the":
			continue
		case !t.word() || bindingWords[t.text] || measuring[t.text] || unitLike(t.text):
			return ""
		case strings.HasSuffix(t.text, "s") && !strings.HasSuffix(t.text, "ss") && len(t.text) >= fewestLetters && t.stem != t.text:
			return t.text
		}
	}
	return ""
}

// namesFirst reports whether a message names the piece of one reading and not that of
// another.
func (m *message) namesFirst(r, other Reading) bool {
	return r.Request != other.Request && m.says(r.Request) && !m.says(other.Request)
}

// plainlyTyped reports whether a message names its piece and has hardly a word that the
// reader does not know: "bezel oval 10x8, 28 ga".
func (m *message) plainlyTyped(r Reading) bool {
	return (m.says(r.Request) || m.cues[r.Request] >= plainlyNamed) && m.strangeWords() == 0 && !m.wantsKnowledge() && !strings.Contains(m.typed, "?")
}

// tellsOfPiece reports whether a reading has something from an earlier piece: then the
// words of this message alone don't tell whether it is right.
func (m *message) tellsOfPiece(r Reading) bool {
	if m.context.Last == nil {
		return false
	}
	for name, v := range r.Options {
		if m.context.Last.Request == r.Request && m.context.Last.Options[name] == v || name != "alloy" && strings.ContainsAny(v, "0123456789") && !m.holds(v) {
			return true
		}
	}
	return false
}

// holds reports whether one of the message's figures is in an option's value.
func (m *message) holds(value string) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return m.memory.holdsFigure(value, q) })
}

// askIfMeant asks whether a piece is what was meant, or one of the others.
func (m *message) askIfMeant(r candidate, others []candidate) Reading {
	all := append(slices.Clone(others), r)
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.chance, a.chance) })
	best := all[0]
	q := Reading{Outcome: Question, Doubted: true, Request: best.Request, Options: best.Options, Notes: best.Notes,
		Ask: fmt.Sprintf("I am not sure that I read this right. Do you mean \"%s\"?", best.Line())}
	q.Choices = []Choice{{isMeant, best.Request, best.Options}}
	for _, other := range all[1:min(3, len(all))] {
		if other.chance >= near || other.Line() == r.Line() {
			q.Choices = append(q.Choices, Choice{unlike(other.Reading, best.Reading), other.Request, other.Options})
		}
	}
	return q
}

// isMeant is the answer that a doubted reading was right.
const isMeant = "yes"

// Words that answer whether a reading was right, alone or before more.
var (
	yesWords = []string{"yes", "yep", "yeah", "yup", "aye", "correct", "right", "exactly", "sure", "ok", "okay", "thats it", "that's it", "that one", "go ahead", "go on", "please do", "spot on", "you got it"}
	noWords  = []string{"no", "nope", "nah", "wrong", "not that", "neither", "none"}
)

// mostAgreeing is how many words an answer has at most that says yes or no alone.
const mostAgreeing = 5

// yesOrNo reads the answer whether a reading was right, where it has no figure.
func (m *message) yesOrNo(asked *Reading) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || m.words() > mostAgreeing || m.ownJob() {
		return Reading{}, false
	}
	switch text := m.text(); {
	case beginsWithOne(text, noWords):
		return Reading{Outcome: Question, Choices: asked.Choices[1:],
			Ask: "Say it in other words, then: the piece by its name, and each figure with what it measures, as in \"3 mm wide\"."}, true
	case beginsWithOne(text, yesWords):
		return m.chosen(asked.Choices[0]), true
	}
	return Reading{}, false
}

func beginsWithOne(text string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return text == w || strings.HasPrefix(text, w+" ") })
}

// unlike says in what a reading differs from another.
func unlike(r, from Reading) string {
	if r.Request != from.Request {
		return "no, " + r.Line()
	}
	var says []string
	for _, name := range slices.Sorted(maps.Keys(r.Options)) {
		if v := r.Options[name]; from.Options[name] != v {
			says = append(says, name+" "+v)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(from.Options)) {
		if _, ok := r.Options[name]; !ok {
			says = append(says, "no "+name)
		}
	}
	return "no: " + strings.Join(says, ", ")
}

// signsOf are what speaks for and against a piece that was read.
func (m *message) signsOf(r Reading) trust.Signs {
	s := trust.Signs{"notes": float64(len(r.Notes) + len(r.Told)), "options": float64(len(r.Options)), "questions": float64(strings.Count(m.typed, "?"))}
	s["intent"] = logOf(m.chance(r.Request))
	for class, c := range m.memory.intentsOfAll().All() {
		if class != r.Request {
			s["other intent"] = max(s["other intent"], c)
		}
	}
	s["knowing"], s["silent"], s["trial"] = m.chance(knowing...), m.chance(intent.Silent, intent.Declined), m.chance("tune")
	for name, is := range map[string]bool{"verdict": r.Verdict != "", "plain": m.beyondDoubt(r), "cued": m.cues[r.Request] >= plainlyNamed, "named": m.says(r.Request)} {
		if is {
			s[name] = 1
		}
	}
	if r.Completed {
		s["completed"] = 1
	}
	s["metals"] = float64(len(m.alloys))
	s["strange words"] = m.strangeWords()
	m.weighPlaces(r, s)
	return s
}

// strangeWords is the share of the longer words of a message in which nothing was found.
func (m *message) strangeWords() float64 {
	all, strange := 0, 0
	for i, t := range m.tokens {
		if t.word() && len(t.text) >= fewestLetters {
			all++
			if !m.taken[i] {
				strange++
			}
		}
	}
	return float64(strange) / float64(max(all, 1))
}

// fewestLetters is how long a word is to say something.
const fewestLetters = 4

// unlikelyPlace is the chance under which a figure is hardly where it belongs.
const unlikelyPlace = 0.2

// weighPlaces adds how likely the figures' places are by the words round them.
func (m *message) weighPlaces(r Reading, s trust.Signs) {
	for _, q := range m.found {
		roles, place := m.rolesOf(r.Request, q), m.placeIn(r, q)
		chance := roles.Of(place, written.Asked) // "is 26 ga enough" asks about a thickness
		if place == "number" && q.thing == "prongs" || place == "carat" && q.measure == carat {
			chance = 1 // its noun or its unit tells
		}
		switch {
		case q.used && (q.role == ownResult || q.role == ownOperand), q.used && q.noted && q.option == "size" && place == "":
			chance = 1
		case place == "pieces", q.measure == size && place == "" && m.reckonedIn(r, q, 1): // roles are those of the class, or of the sides together
			chance = 1 - roles.Of(written.Retracted, written.Idle, written.Result)
		case place == "" && q.used && q.role == "radius" && r.Options["perimeter"] != "": // the way round its corners
			chance = 1 - roles.Of(written.Result)
		case place == "" && (q.used || m.reckonedIn(r, q, 1, 2, 0.5, math.Pi, 1/math.Pi)): // its answer says what became of it
			chance = 1 - roles.Of(written.Result)
			s["reckoned in"]++
		case place == "":
			chance = roles.Of(written.Retracted, written.Idle, written.Asked, written.Result)
			s["left out"]++
		}
		s["figures"]++
		if q.measure == bare {
			s["bare"]++
		}
		s["places"] += logOf(chance)
		s["worst place"] = min(s["worst place"], logOf(chance))
		if chance < unlikelyPlace {
			s["unlikely places"]++
		}
		if best, c := roles.Best(); best != place {
			s["other place"] = max(s["other place"], c)
		}
		s["result"], s["asked"] = max(s["result"], roles.Of(written.Result)), max(s["asked"], roles.Of(written.Asked))
	}
}

// logOf is the logarithm of a chance, none below that of one in five hundred.
func logOf(chance float64) float64 { return math.Log(max(chance, 0.002)) }

// candidate is a reading with how far it can be trusted.
type candidate struct {
	Reading
	chance float64
}

// otherReadings are other readings of a message as a piece: with figures where they
// most likely belong by the words round them, and as other requests that it may ask
// for, those first that can be trusted most.
func (m *message) otherReadings(r Reading) (all []candidate) {
	seen := map[string]bool{r.Line(): true}
	add := func(of *message, o Reading) {
		if line := o.Line(); o.Outcome == Request && !seen[line] {
			seen[line] = true
			all = append(all, candidate{o, trust.Chance(of.signsOf(o))})
		}
	}
	add(m, m.moved(r))
	for _, request := range m.mayAskFor(r.Request) {
		fresh := m.anew()
		if o, ok := fresh.readAs(request); ok {
			if whole, ok := fresh.completed(o); ok {
				o = whole
			}
			add(fresh, o)
			add(fresh, fresh.moved(o))
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.chance, a.chance) })
	return all
}

// mayAsk is the chance from which a message may ask for another piece.
const mayAsk = 0.08

// mayAskFor are at most two of the likeliest pieces that a message asks for, but for one.
func (m *message) mayAskFor(not string) (all []string) {
	intents := m.memory.intentsOfAll()
	counted := not == "prongs" && slices.ContainsFunc(m.found, func(q *quantity) bool { return q.thing == "prongs" })
	for request := range readersOf {
		if request != not && !counted && intents.Of(request) >= mayAsk && m.context.takes(request, "") {
			all = append(all, request)
		}
	}
	slices.SortFunc(all, func(a, b string) int {
		return cmp.Or(cmp.Compare(intents.Of(b), intents.Of(a)), cmp.Compare(a, b))
	})
	return all[:min(2, len(all))]
}

// decisive are options without which there is no piece.
var decisive = map[string]bool{"size": true, "outline": true, "ring": true, "wire": true, "inside": true, "from": true, "to": true, "wax": true, "model": true, "with": true, "shank": true, "form": true, "gauge": true, "strip": true, "tubesize": true, "hole": true, "offcut": true}

// move takes a figure from one option of a reading to another; no option is "".
type move struct {
	q        *quantity
	from, to string
}

// moved is a reading with each figure where it most likely belongs, or the reading
// itself where that makes no piece.
func (m *message) moved(r Reading) Reading {
	moves := m.moves(r)
	if r.Outcome != Request || len(moves) == 0 {
		return r
	}
	o := r
	o.Options = maps.Clone(r.Options)
	for _, v := range moves {
		delete(o.Options, v.from)
	}
	d := draft{m: m, request: r.Request}
	for _, v := range moves {
		if v.to == "" {
			continue
		}
		if _, taken := o.Options[v.to]; taken {
			return r
		}
		o.Options[v.to] = d.shown(v.to, v.q)
	}
	for name := range r.Options {
		if _, still := o.Options[name]; !still && decisive[name] {
			return r
		}
	}
	return o
}

// moves are those of figures that most likely belong elsewhere.
func (m *message) moves(r Reading) (all []move) {
	for _, q := range m.found {
		roles, place := m.rolesOf(r.Request, q), m.placeIn(r, q)
		to, chance := roles.Best()
		switch {
		case q.noted || to == place || chance < perhapsRole || roles.Of(place) > unlikelyPlace || decisive[place] && q.measure == size:
			continue
		case to == written.Retracted || to == written.Idle || to == written.Asked || to == written.Result:
			to = ""
		case !m.context.takes(r.Request, to) || !q.fitsOption(to):
			continue
		}
		if to != place {
			all = append(all, move{q, place, to})
		}
	}
	return all
}

// placeIn is the option of a reading that a figure was given for, empty for none.
func (m *message) placeIn(r Reading, q *quantity) string {
	if v, ok := r.Options[q.option]; ok && m.memory.holdsFigure(v, q) {
		return q.option
	}
	roles, best := m.rolesOf(r.Request, q), ""
	for _, option := range slices.Sorted(maps.Keys(r.Options)) {
		if m.memory.holdsFigure(r.Options[option], q) && (best == "" || roles.Of(option) > roles.Of(best)) {
			best = option
		}
	}
	return best
}

// reckonedIn reports whether each side of a figure is some times an option's value:
// "6 x 1.8" is a width and a thickness, a bead's 8 mm two domes of 4 mm, and the way round
// gives the diameter.
func (m *message) reckonedIn(r Reading, q *quantity, times ...float64) bool {
	sides := q.sides
	if q.measure != size {
		sides = []float64{q.value}
	}
	for _, side := range sides {
		if !m.comesOf(r, side, times) {
			return false
		}
	}
	return len(sides) > 0
}

func (m *message) comesOf(r Reading, side float64, times []float64) bool {
	for name, value := range r.Options {
		for _, h := range m.memory.figuresIn(value) {
			v := h.value
			if h.gauge {
				v = gaugeMM(v)
			}
			for _, of := range times {
				if name != "alloy" && math.Abs(v*of-side) <= 0.005*side {
					return true
				}
			}
		}
	}
	return false
}

// holdsFigure reports whether an option's value has a figure of the message in it.
func (n *memory) holdsFigure(value string, q *quantity) bool {
	if value == q.shown || strings.TrimSuffix(value, " mm") == q.shown {
		return true
	}
	sides := q.sides
	switch {
	case q.measure != size:
		sides = []float64{q.value}
	case len(sides) > 2: // "20x10x4" is a size and a height
		sides = sides[:2]
	}
	held := n.figuresIn(value)
	for _, side := range sides {
		near := func(h heldFigure) bool {
			v, of := h.value, side
			switch {
			case h.gauge && q.measure != gauge:
				v = gaugeMM(v)
			case !h.gauge && q.measure == gauge:
				of = gaugeMM(side)
			}
			asInches := q.measure == bare && !q.unit && strings.Contains(value, " in") && math.Abs(v-25.4*of) <= 0.005*v
			return asInches || math.Abs(v-of) <= 0.005*max(of, 0.1)
		}
		if !slices.ContainsFunc(held, near) {
			return false
		}
	}
	return len(sides) > 0
}

// heldFigure is a figure in an option's value, in mm or a gauge's number.
type heldFigure struct {
	value float64
	gauge bool
}

// figuresIn are the figures in an option's value. They are kept, since a value is
// compared with every figure of a message.
func (n *memory) figuresIn(value string) []heldFigure {
	if known, ok := n.held[value]; ok {
		return known
	}
	var all []heldFigure
	for _, v := range newMessage(strings.ReplaceAll(value+" ", " in ", `" `)).found { // no preposition stands in a value
		if v.measure == size {
			for _, side := range v.sides {
				all = append(all, heldFigure{side, false})
			}
			continue
		}
		all = append(all, heldFigure{v.value, v.measure == gauge})
	}
	n.held[value] = all
	return all
}

// Signs are those of what the reader makes of a message that stands by itself, where
// that is a piece.
func Signs(typed string, c Context) (r Reading, s trust.Signs, isPiece bool) {
	c.undoubted = func(signs trust.Signs) { s = signs }
	r = Read(typed, c)
	return r, s, s != nil
}

// HasFigure reports whether an option's value has the figure that is typed alone, or
// nothing that is typed can be read as one figure: "a dozen of them".
func HasFigure(value, typed string) bool {
	found := newMessage(typed).found
	if len(found) != 1 || newMemory(typed).holdsFigure(value, found[0]) {
		return true
	}
	q := found[0]
	if q.unit {
		return false
	}
	if value == q.shown+"ga" { // its message told the unit, here as below
		return true
	}
	q.asInches()
	return q.value < mostBare*25.4 && strings.Contains(typed, ".") && newMemory(typed).holdsFigure(value, q)
}
