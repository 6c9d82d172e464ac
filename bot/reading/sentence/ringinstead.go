package sentence

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/ring"
)

// surelyOfRing is the chance of a ring's job above which it is read in place of a
// question about another piece.
const surelyOfRing = 0.5

// perhapsOfRing is enough where a ring's size is asked for and there are a strip's figures.
const perhapsOfRing = 0.15

// ringInstead works out a sum on a ring, or reads a resizing or a saddle, where the
// rules found a question back or a piece that the figures don't make.
func (m *message) ringInstead(r Reading) Reading {
	if !m.byItself() || r.Verdict != "" || r.Outcome == FirstAid || r.Outcome == Declined || r.Doubted && r.Request == "" {
		return r
	}
	fresh := m.anew()
	fresh.bindRoles()
	fresh.release()
	for _, read := range []func(*message, Reading) (Reading, bool){(*message).severalResizings, (*message).knuckleAndFinger, (*message).basesOnRings, (*message).listOfRings, (*message).betweenSizes, (*message).cameOutOther, (*message).changeCompared, (*message).sizeAfterCut, (*message).sizeOfStrip, (*message).stripCameOut, (*message).stripForSize, (*message).severalOfOne, (*message).resizingOfTwo, (*message).baseOnRing, (*message).burOfSaddle, (*message).tubeHalfTold, (*message).stonesAtHand, (*message).pitchCircle, (*message).residualGap, (*message).stonesGoRound, (*message).tubeOnWire, (*message).diamondsByPoints, (*message).ovalLink, (*message).brokenCount, (*message).moreLinks, (*message).bangleResized, (*message).settingOnRing, (*message).twistedRing, (*message).openCuff, (*message).mandrelByTrial, (*message).patternedChain, (*message).numberedNeedle, (*message).tubeTotal, (*message).burForStone, (*message).spiralRing, (*message).tubeForRound, (*message).stretchedInstead, (*message).linksLeftOpen, (*message).settingsOfTube} {
		if instead, ok := read(fresh.copied(), r); ok {
			return instead
		}
	}
	return r
}

// sizeAfterCut tells the size that a ring has once a length was cut out of it or let in.
// Nothing else of the ring may be asked for.
func (m *message) sizeAfterCut(Reading) (Reading, bool) {
	if m.chance("resize", "band") < perhapsOfRing && m.speaksOfRings() || !m.asksForSize() && !m.says("what is it", "whats it") || !m.canAnswer("resize") || m.says("each", "every", "how much", "how long", "what length", "which length") {
		return Reading{}, false
	}
	cut, grows := m.lengthChanged()
	if inside := m.insideOfChanged(cut); inside != nil {
		return insideAfterCut(inside, cut, grows)
	}
	from, to := m.oldAndNew(oldOrNew)
	if from == nil && m.ringSizes() == 1 {
		from = m.of(ringSize)
	}
	if likely := m.sizesLikely(mayBeSize); from == nil && len(likely) == 1 && likely[0] != cut {
		m.find(likely...)
		from = likely[0]
	}
	if cut == nil || from == nil || to != nil || isAcross(from) || m.ringSizes() > 1 {
		return Reading{}, false
	}
	m.asSizes(from, nil)
	system := systemName(from)
	was, err := ring.System(system).Parse(from.shown)
	if err != nil {
		return Reading{}, false
	}
	is, did := was-cut.value, "Taking out"
	if grows {
		is, did = was+cut.value, "Letting in"
	}
	us, _, okUS := ring.US.Nearest(is)
	uk, _, okUK := ring.UK.Nearest(is)
	to2, _, ok := ring.System(system).Nearest(is)
	if !ok || !okUS || !okUK || to2 == from.shown {
		return Reading{}, false
	}
	cut.used, from.used = true, true
	d := m.draft("resize")
	d.say("from", system+" "+from.shown)
	d.say("to", system+" "+to2)
	d.shankOfRing()
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("%s %s brings the ring from %s to %s round inside: about US %s, UK %s or ISO %s.", did, mm(cut.value), mm(was), mm(is), us, uk, plain(math.Round(is*10)/10))
	return r, r.Outcome == Request
}

// changeCompared tells whether a length that was let in or cut out is what a ring takes from
// one size to the other.
func (m *message) changeCompared(r Reading) (Reading, bool) {
	cut, grows := m.lengthChanged()
	if cut == nil || r.Outcome != Request || r.Request != "resize" || !m.says("inserted", "took", "taken", "removed", "added", "put", "have cut", "have let", "i cut", "i let") {
		return Reading{}, false
	}
	was, ok := circumferenceOf(r.Options["from"])
	is, both := circumferenceOf(r.Options["to"])
	if !ok || !both || was < is != grows {
		return Reading{}, false
	}
	needs := math.Abs(is - was)
	r.Verdict = fmt.Sprintf("From %s to %s takes %s: your %s is ", r.Options["from"], r.Options["to"], mm(needs), mm(cut.value))
	switch over := cut.value - needs; {
	case math.Abs(over) < 0.1:
		r.Verdict += "right."
	case over > 0:
		r.Verdict += mm(over) + " too much."
	default:
		r.Verdict += mm(-over) + " too little."
	}
	return r, true
}

// circumferenceOf is how far round inside a ring of an option's size is, "us 7 1/2".
func circumferenceOf(option string) (float64, bool) {
	system, shown, ok := strings.Cut(option, " ")
	if !ok {
		return 0, false
	}
	round, err := ring.System(system).Parse(shown)
	return round, err == nil
}

// asksForSize reports whether a message asks which size something is or becomes.
func (m *message) asksForSize() bool {
	for i := range m.tokens {
		asks := m.at(i).text == "what" || m.at(i).text == "which" || m.at(i).text == "whats"
		named := m.at(i).text == "ring" && m.at(i+1).text == "size" && !m.at(i+2).word() && !m.at(i+2).number
		if named || asks && m.saysOneBetween(i+1, i+5, "size", "letter", "diameter", "id") {
			return true
		}
	}
	return m.says("becomes", "closes up to", "closes to", "comes to what", "what does that make", "end up as", "left with", "what size", "which size", "new size", "what letter", "which letter", "what is it now", "what does it become", "now its", "what comes out", "where do i land", "what am i at", "where is it now", "size is that", "size will", "size did", "size does", "size is", "us size", "uk size", "ring size out", "size out of", "ring in", "what have i made", "size comes", "would that be", "ring id", "what id", "what inside", "inside diameter", "diameter of ring", "biggest ring", "largest ring", "what ring")
}

// Words that put metal into a ring, or take it out, before or behind its length.
var (
	lettingIn = []string{"let", "add", "adding", "added", "put", "insert", "inserted", "letting"}
	takingOut = []string{"cut", "cutting", "take", "taking", "took", "taken", "remove", "removed", "saw", "sawed", "sawn"}
)

// insideOfChanged is the inside across of a ring out of which a length is cut, or into which
// it is let; nil where that is not told.
func (m *message) insideOfChanged(cut *quantity) *quantity {
	if cut == nil || m.ringSizes() > 0 {
		return nil
	}
	return m.lengthAcross(cut, "inner", "inside", "id", "diameter", "bore")
}

// insideAfterCut tells how wide a ring is inside once a length was cut out of it or let in.
func insideAfterCut(inside, cut *quantity, grows bool) (Reading, bool) {
	is, does := inside.value-cut.value/math.Pi, "Taking out"
	if grows {
		is, does = inside.value+cut.value/math.Pi, "Letting in"
	}
	return worked("inside after sizing", "a circle's diameter is its circumference over pi",
		fmt.Sprintf("%s %s brings the inside from %s to %s, the length over pi, whatever the thickness. What the saw and the file take counts with it.", does, mm(cut.value), mm(inside.value), mm(is)))
}

// lengthChanged is the one length that is cut out of a ring or let in, and whether the
// ring grows by it.
func (m *message) lengthChanged() (cut *quantity, grows bool) {
	var all []*quantity
	for _, q := range m.found {
		thousandths := q.measure == bare && m.beginsWithPoint(q) && len(m.at(q.first).shown) == len("0.118")
		if (q.measure == length || thousandths) && (q.value >= 0.3 && q.value <= 15 || thousandths) && q.role != "width" && q.role != "thickness" && !measuring[m.at(q.next).text] {
			all = append(all, q)
		}
	}
	near := 4
	if len(all) == 1 {
		near = 8 // it can be no other length
	}
	for _, q := range all {
		beside := m.tokens[max(0, q.first-near):min(len(m.tokens), q.next+near)]
		says := func(words []string) bool {
			return slices.ContainsFunc(beside, func(t token) bool { return slices.Contains(words, t.text) })
		}
		in, out := says(lettingIn), says(takingOut)
		if !in && !out {
			continue
		}
		if cut != nil || in && out {
			return nil, false
		}
		cut, grows = q, in
	}
	if cut != nil && cut.measure == bare {
		cut.asInches()
	}
	return cut, grows
}

// sizeOfStrip tells the ring that a strip makes, by its length and thickness.
func (m *message) sizeOfStrip(Reading) (Reading, bool) {
	if m.chance("band", "match") < perhapsOfRing || m.ringSizes() > 0 || !m.asksForSize() || !m.canAnswer("band") || m.has("stone", "tube", "weight") || m.says("collar", "collars", "collet", "collets", "bezel", "bezels", "cone", "setting") {
		return Reading{}, false
	}
	m.mixedFractions()
	m.stripInInches()
	long, width, thick := m.strip()
	if long == nil || thick == 0 || m.says("finger", "round", "around", "circumference", "inside", "wrist", "knuckle") && !m.says("half round", "strip", "what inside", "what id", "which inside", "whats the inside") || m.says("bangle", "bracelet", "cuff") || m.roundsFinger(long) {
		return Reading{}, false
	}
	inside := long.value/math.Pi - thick
	us, _, okUS := ring.US.Nearest(math.Pi * inside)
	uk, _, okUK := ring.UK.Nearest(math.Pi * inside)
	if !okUS || !okUK || len(m.unused()) > 0 {
		return Reading{}, false
	}
	d := m.draft("band")
	d.profile()
	d.roundPiece(inside)
	if width > 0 {
		d.say("width", plain(width))
	}
	d.say("thickness", plain(thick)+" mm")
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("A strip of %s, %s thick, closes to about %s inside, %s round: US %s, UK %s or ISO %s. Filing the ends takes a little off.", mm(long.value), mm(thick), mm(inside), mm(math.Pi*inside), us, uk, plain(math.Round(math.Pi*inside)))
	return r, r.Outcome == Request
}

// mixedFractions reads bare figures such as 2 3/8 as inches.
func (m *message) mixedFractions() {
	for _, q := range m.found {
		if q.measure == bare && strings.Contains(q.shown, " ") && strings.Contains(q.shown, "/") {
			m.assume("%s is read as inches", q.shown)
			q.asInches()
		}
	}
}

// How long a ring's strip is in inches.
const shortestInches, longestInches = 1.5, 3.6

// stripInInches reads "2.310 of .060 strip" as inches: no strip of a ring is so short in mm,
// and its thickness is in inches or a gauge.
func (m *message) stripInInches() {
	var long *quantity
	thick := false
	for _, q := range m.found {
		switch {
		case q.measure == gauge, q.measure == length && strings.HasSuffix(q.shown, " in"):
			thick = true
		case q.measure == bare && m.beginsWithPoint(q) && q.value < 0.16:
			q.asInches()
			thick = true
		case q.measure == bare && q.isDecimal() && q.value >= shortestInches && q.value <= longestInches && q.role != "thickness" && q.role != "width" && long == nil:
			long = q
		}
	}
	if long != nil && thick {
		m.assume("%s is read as inches", long.shown)
		long.asInches()
	}
}

// roundsFinger reports whether a length may be a ring's size by the words round it.
func (m *message) roundsFinger(q *quantity) bool {
	const perhapsSize = 0.3
	if m.says("cut", "strip", "piece", "blank") {
		return false // it is the metal's
	}
	return q.role == "perimeter" || q.next > 0 && m.rolesOf("band", q).Of("ring", "bangle") >= perhapsSize
}

// Strips of rings in mm: how long one is, how wide at most, and how thick.
const (
	shortestStrip, longestStrip = 36, 90
	widestStrip                 = 25
	thickestStrip               = 4
)

// strip is a ring's strip that the message's lengths make: the only one so long, and of
// the others the thickness is the smaller.
func (m *message) strip() (long *quantity, width, thick float64) {
	var across []float64
	for _, q := range m.found {
		switch {
		case m.saysOneBetween(q.first-2, q.first, "get", "got", "make", "expected") && q.measure == bare && q.role == "" && len(m.found) > 2:
			q.used = true // what its asker made of it
			continue
		case q.measure == size:
			across = append(across, q.sides...)
		case q.measure == gauge:
			across = append(across, gaugeMM(q.value))
		case q.measure != length && q.measure != bare:
			continue
		case q.value >= shortestStrip && q.value <= longestStrip:
			if long != nil {
				return nil, 0, 0
			}
			long = q
		default:
			across = append(across, q.value)
		}
		q.used = true
	}
	slices.Sort(across)
	switch {
	case long == nil && (len(across) == 2 || len(across) == 3) && across[len(across)-1] >= shortestStrip && across[len(across)-1] <= longestStrip:
		last := len(across) - 1 // "57 x 5 x 1.8", "60 by 1.5"
		long, across = &quantity{measure: length, value: across[last]}, across[:last]
	case long == nil:
		return nil, 0, 0
	}
	if len(across) == 0 || len(across) > 2 || across[0] > thickestStrip || across[len(across)-1] > widestStrip {
		return nil, 0, 0
	}
	if len(across) == 2 {
		width = across[1]
	}
	return long, width, across[0]
}

// stripForSize tells whether a strip is long enough for a ring, where its length is all
// that a ring's figures leave over.
func (m *message) stripForSize(r Reading) (Reading, bool) {
	if r.Outcome == Question && r.Unplaced == "" || r.Request != "band" || r.Options["ring"] == "" || r.Options["thickness"] == "" || m.chance("band", "match") < surelyOfRing || m.ringSizes() > 1 {
		return Reading{}, false
	}
	compares := m.says("i make it", "i get", "i got", "i compute", "i computed", "i reckon", "my sum", "my sums", "i calculate", "i calculated", "agree", "correct")
	if !compares && !m.says("enough", "will that do", "will it do", "short", "going to make", "will it make", "does it make", "right", "make a", "do for") {
		return Reading{}, false
	}
	var long *quantity
	for _, q := range m.found {
		left := strings.TrimSpace(q.typed(m)) == r.Unplaced || r.Outcome == Request && m.placeIn(r, q) == ""
		if left && (q.measure == length || q.measure == bare) && q.value >= shortestStrip && q.value <= longestStrip {
			long = q
		}
	}
	round, err := ring.System(r.Options["system"]).Parse(r.Options["ring"])
	thick := newMessage(r.Options["thickness"]).quantityOfAny()
	if long == nil || err != nil || thick == nil {
		return Reading{}, false
	}
	t := thicknessOf(thick)
	needs := round + math.Pi*t
	if compares {
		return Reading{Outcome: Request, Request: "band", Options: r.Options, Notes: notesWithout(r.Notes, long.typed(m)), Verdict: agreesOnLength(long.value, needs)}, true
	}
	says := fmt.Sprintf("Yes: your %s is %s longer than the %s that it takes before any allowance.", mm(long.value), mm(long.value-needs), mm(needs))
	if long.value < needs {
		says = fmt.Sprintf("No: your %s is %s shorter than the %s that it takes before any allowance.", mm(long.value), mm(needs-long.value), mm(needs))
	}
	return Reading{Outcome: Request, Request: "band", Options: r.Options, Notes: notesWithout(r.Notes, long.typed(m)), Verdict: says}, true
}

// notesWithout are notes but those on a figure as it was typed.
func notesWithout(notes []string, typed string) []string {
	return slices.DeleteFunc(slices.Clone(notes), func(n string) bool {
		return strings.Contains(n, strings.TrimSpace(typed)+" is left out") || strings.HasPrefix(n, strings.TrimSpace(typed))
	})
}

// agreesOnLength says whether a length that somebody worked out is the one that a ring takes.
func agreesOnLength(said, needs float64) string {
	const rounding = 0.35
	if math.Abs(said-needs) <= rounding {
		return fmt.Sprintf("Yes: I get %s too, at the middle of the metal and before any allowance; you say %s.", mm(needs), mm(said))
	}
	return fmt.Sprintf("No: I get %s at the middle of the metal, before any allowance, and you say %s.", mm(needs), mm(said))
}

// quantityOfAny is the only figure of a message, nil for none or several.
func (m *message) quantityOfAny() *quantity {
	if len(m.found) != 1 {
		return nil
	}
	return m.found[0]
}

// resizingOfTwo reads two sizes of which one would be left over as a resizing, where all
// words make that the likelier of the ring's jobs.
func (m *message) resizingOfTwo(r Reading) (Reading, bool) {
	if r.Outcome != Question || r.Request != "band" || m.ringSizes() != 2 || m.chance("resize") < max(surelyOfRing, m.chance("band")) || m.widerSize() || m.bySeason() || m.says("=or") {
		return Reading{}, false
	}
	from, to := m.oldAndNew(oldOrNew)
	if from == nil || to == nil || m.ringSizes() != 2 {
		return Reading{}, false
	}
	m.asSizes(from, to)
	resizing := m.resize()
	if resizing.Outcome != Request {
		return Reading{}, false
	}
	return m.confirmed(resizing), true
}

// settingOnRing reads a saddle where a question back is about a setting beside a ring's
// size, which no setting has a place for, or about a ring beside its stone.
func (m *message) settingOnRing(r Reading) (Reading, bool) {
	ofOther := slices.Contains([]string{"band", "bezel", "collet", "tubeset"}, r.Request)
	wanted, _ := m.likeliest()
	if r.Outcome != Question || !ofOther || m.says("halo", "resize") || wanted != "saddle" && m.chance("saddle") < perhapsSaddle {
		return Reading{}, false
	}
	if m.likelyShank(); m.ringSizes() != 1 || !m.hasLikely("saddle", "shank") || !m.hasLikely("saddle", "size", "tubesize") {
		return Reading{}, false
	}
	saddle, ok := m.saddle()
	if ok && saddle.Outcome == Request {
		saddle = m.confirmed(saddle)
	}
	return saddle, ok && (saddle.Outcome == Request || saddle.Unplaced == "" && saddle.Missing != "")
}

// perhapsSaddle is the chance of a saddle above which a stone or tube and a ring's size,
// told for certain, make one where a figure would be left over of any other piece.
const perhapsSaddle = 0.2

// hasLikely reports whether a figure surely has one of these roles in a request.
func (m *message) hasLikely(request string, roles ...string) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return m.rolesOf(request, q).Of(roles...) >= likelyRole
	})
}

// twistedRing tells how long a twist of two wires is cut for a ring.
func (m *message) twistedRing(Reading) (Reading, bool) {
	size, wire := m.of(ringSize), m.least(0.4, 3)
	twisted := m.says("twisted", "twist", "twisting", "rope") && m.says("two", "2", "wires", "strands", "rope", "ply")
	if !twisted || size == nil || wire == nil || m.ringSizes() != 1 {
		return Reading{}, false
	}
	around, err := systemOfSize(size).Parse(size.shown)
	if err != nil {
		return Reading{}, false
	}
	thick, inside := thicknessOf(wire), around/math.Pi
	twist := math.Pi * (inside + 2*thick)
	return worked("twisted ring", "middle of the twist; strands: common practice, no source",
		fmt.Sprintf("Cut the twist %s long: pi x (inside + 2 x wire), with %s inside and two wires of %s, because a twist of two is two wires thick and its middle lies in between. Each strand must be about a tenth longer, %s, and longer still for a tight twist. Twist more than you need, anneal, and cut it to length.", mm(twist), mm(inside), mm(thick), mm(1.1*twist)))
}

// least is the thickness that is told, or the least length between two bounds, in mm.
func (m *message) least(from, to float64) (least *quantity) {
	if q := cmp.Or(m.with("thickness"), m.of(gauge)); q != nil {
		return q
	}
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare) && !m.tellsWidth(q) && q.value >= from && q.value <= to && (least == nil || q.value < least.value) {
			least = q
		}
	}
	return least
}

// tellsWidth reports whether a figure is how wide the metal is.
func (m *message) tellsWidth(q *quantity) bool {
	return q.role == "width" || m.at(q.next).text == "wide"
}

// openCuff tells how long an open cuff is cut for a wrist and a gap.
func (m *message) openCuff(Reading) (Reading, bool) {
	if !m.says("cuff", "open bangle", "torque", "torc", "open", "opens") || !m.says("gap", "opening", "open", "opens", "wrist") || !m.says("wrist", "cuff", "torque", "torc") || m.says("take out", "outta", "taken out") {
		return Reading{}, false
	}
	var wrist, gap *quantity
	for _, q := range m.found {
		ofWrist := m.saysOneBetween(q.next, q.next+2, "wrist") || m.saysOneBetween(q.first-3, q.first, "wrist")
		if q.measure == bare && q.value >= 4 && q.value <= 9 && ofWrist {
			q.asInches() // no wrist is so small in mm or cm
		}
	}
	inInches := slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == length && strings.HasSuffix(q.shown, " in") })
	for _, q := range m.found {
		if q.measure == bare && inInches && q.value < 3 && m.saysOneBetween(q.next, q.next+2, "gap", "opening") {
			q.asInches()
		}
		switch {
		case q.measure != length && q.measure != bare, m.tellsWidth(q):
		case q.value >= 95 && q.value <= 260 && wrist == nil:
			wrist = q
		case q.value >= 15 && q.value <= 50 && (gap == nil || q.role == "gap"):
			gap = q
		}
	}
	if gap == nil && m.saysInch("gap", "opening") {
		gap = &quantity{measure: length, value: 25.4, shown: "1 in", first: len(m.tokens), next: len(m.tokens)}
	}
	if wrist != nil && gap == nil && m.asksCuffLength() {
		return worked("open cuff", "length = wrist - gap; a gap of 25 to 32 mm: common practice, no source",
			fmt.Sprintf("Cut about %.0f to %.0f mm: the wrist, %s, less a gap of 25 to 32 mm. Thick metal takes pi x its thickness more. Forging or tapering the ends makes them longer, so cut to length last.", wrist.value-32, wrist.value-25, mm(wrist.value)))
	}
	if wrist == nil || gap == nil {
		return Reading{}, false
	}
	long, how := wrist.value-gap.value, "; the metal's thickness is not in that yet: add pi x it, 4 to 6 mm for metal of 1.3 to 1.9 mm"
	if thick := m.least(0.5, 6); thick != nil {
		long += math.Pi * thicknessOf(thick)
		how = fmt.Sprintf(", with pi x %s for the metal's thickness", mm(thicknessOf(thick)))
	}
	return worked("open cuff", "length = wrist + pi x thickness - gap",
		fmt.Sprintf("Cut %.0f mm (%.2f in): the wrist, %s, less the gap, %s%s. Forging or tapering the ends makes them longer, so cut to length last.", long, long/25.4, mm(wrist.value), mm(gap.value), how))
}

// asksCuffLength reports whether nothing but how long a cuff is cut is asked.
func (m *message) asksCuffLength() bool {
	return m.says("cuff", "torque", "torc") && m.says("how long", "what length", "length", "cut", "how much wire", "how much strip", "how much do i need")
}

// saysInch reports whether an inch without a number stands before one of these words: "with
// inch gap".
func (m *message) saysInch(words ...string) bool {
	for i := range m.tokens {
		if m.at(i).text == "inch" && !m.inFigure(i) && m.saysOneBetween(i+1, i+2, words...) {
			return true
		}
	}
	return false
}

// bangleResized tells what is taken out of a bangle or let in, from one inside to another.
func (m *message) bangleResized(Reading) (Reading, bool) {
	if !m.says("bangle", "bangles", "bracelet", "cuff") || !m.says("resize", "resizing", "take out", "cut out", "let in", "put in", "smaller", "bigger", "stretch", "from") || m.has("stone") {
		return Reading{}, false
	}
	var insides []*quantity
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare || q.measure == ringSize && !letter(q.shown)) && q.value >= 40 && q.value <= 90 {
			insides = append(insides, q)
		}
	}
	if len(insides) != 2 || insides[0].value == insides[1].value || m.says("oval", "=hand", "round the hand", "circumference") {
		return Reading{}, false
	}
	from, to := m.nowFirst(insides[0], insides[1])
	from, to = m.inOrder(from, to)
	change, does := math.Pi*math.Abs(from.value-to.value), "Take out"
	if to.value > from.value {
		does = "Let in"
	}
	return worked("bangle of another size", "pi x the difference of the insides",
		fmt.Sprintf("%s %s: pi x the difference of %s and %s across inside. The metal's thickness doesn't change that. Cut less at first, close it and measure, because each saw cut and filing the joint take a little too; anneal before you bend it.", does, mm(change), mm(from.value), mm(to.value)))
}

// stripCameOut tells what a strip should have come to, where its ring came out at a
// measured inside.
func (m *message) stripCameOut(Reading) (Reading, bool) {
	if !m.says("came out", "comes out", "turned out", "ended up") || !m.says("strip", "blank", "wire") || m.ringSizes() > 0 || m.has("stone") {
		return Reading{}, false
	}
	var long, thick, inside *quantity
	for _, q := range m.found {
		switch {
		case q.measure != length && q.measure != bare && q.measure != gauge:
			return Reading{}, false
		case q.measure == gauge || q.value <= thickestStrip && q.role != "width" && thick == nil:
			thick = q
		case q.value >= shortestStrip && q.value <= longestStrip && long == nil:
			long = q
		case q.value >= 11 && q.value <= 26 && inside == nil:
			inside = q
		}
	}
	if long == nil || thick == nil || inside == nil {
		return Reading{}, false
	}
	closes := long.value/math.Pi - thicknessOf(thick)
	return worked("ring of a strip", "inside = length / pi - thickness",
		fmt.Sprintf("By the middle of the metal %s of %s closes to %s inside; yours is %s, %s off. Each millimetre that filing the ends takes makes the ring %s smaller across, and stretching or hammering makes it larger. To change the inside, change the next length by pi x as much.",
			mm(long.value), mm(thicknessOf(thick)), mm(closes), mm(inside.value), mm(math.Abs(closes-inside.value)), mm(1/math.Pi)))
}
