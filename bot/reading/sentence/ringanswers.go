package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/halo"
	"guildhand/calc/ring"
	"guildhand/calc/units"
)

// ringAnswers are tried in this order, the first that can be worked out answers.
// Adding one is a literal here.
var ringAnswers = []ringAnswer{
	{"resize", [][]string{{"stackers", "stacking rings", "stacked", "a stack"}, {"size"}}, (*message).sizeOfStack},
	{"band", [][]string{{"eternity", "stones all round", "stones all the way round", "stones all around", "anniversary ring"}, {"how many", "number of", "fit"}}, (*message).eternityStones},
	{"jumpring", [][]string{{"=coil"}, {"long", "length"}, {"how many"}}, (*message).turnsOfCoil},
	{"jumpring", [][]string{{"how many", "most", "enough", "number of", "do i get", "will i get", "can i get"}, {"from", "out of", "left", "in a", "out of that", "get", "enough"}}, (*message).ringsFromWire},
	{"jumpring", [][]string{{"oval", "ovals", "elliptical"}}, (*message).ovalRings},
	{"jumpring", [][]string{{"square wire", "=square"}}, (*message).squareRing},
	{"jumpring", [][]string{{"hole", "edge"}, {"thick"}}, (*message).ringThroughHole},
	{"jumpring", [][]string{{"ratio", "=ar"}, {"swg"}, {"awg", "both"}}, (*message).ratioBothWays},
	{"jumpring", [][]string{{"how many"}, {"ounce", "ounces", "oz", "gram", "grams", "ozt", "=g"}}, (*message).ringsByMass},
	{"jumpring", [][]string{{"per ounce", "per oz", "in an ounce", "an ounce", "per gram", "in a gram"}}, (*message).ringsByMass},

	{"jumpring", [][]string{{"aspect ratio", "=ar", "ratio", "right ring size", "what size ring", "what size rings", "which size ring", "what rings"}}, (*message).ratioOfWeave},
	{"jumpring", [][]string{{"aspect ratio", "=ar", "ratio"}}, (*message).ratioOfRing},
	{"jumpring", [][]string{{"short", "longer", "lengthen", "extend", "add to it", "how many more", "more links", "more rings"}, {"how many", "more", "links"}}, (*message).linksMissing},
	{"jumpring", [][]string{weaves, {"how many", "rings per", "total", "per inch", "number of", "bracelet", "necklace", "anklet", "choker"}}, (*message).weaveByPatch},

	{"resize", [][]string{{"piece in", "bit in", "piece out", "bit out", "took out", "let in", "taken out", "added"}, {"to start", "started", "it was", "originally", "before"}}, (*message).sizeByLength},
	{"resize", [][]string{{"how many", "what size", "which size", "how much smaller", "how much bigger", "size is that", "what does that make", "what will it be", "what would it be", "what is it now"}, {"take out", "cut out", "took out", "cutting out", "taking out", "add", "added", "let in", "remove", "removed", "out"}}, (*message).sizeByLength},
	{"resize", [][]string{{"difference between", "difference in", "mm between", "how far apart"}}, (*message).sizesApart},
	{"resize", [][]string{{"=size", "=sizes"}}, (*message).lengthOfSizes},
	{"band", [][]string{{"strip", "bar", "length of"}, {"how many"}}, (*message).bandsOfStrip},

	{"tubeset", [][]string{{"strip", "sheet"}, {"tube", "tubing", "chenier"}}, (*message).stripAndTube},
	{"tubeset", [][]string{{"tubes", "tube"}, {"which stones", "what stones", "what size stones", "which stone", "what stone", "size stones", "stones"}}, (*message).stonesOfTubes},
	{"tubeset", [][]string{{"=bur", "=burr"}, {"ok", "fit", "fits", "too big", "too small", "tight", "alright", "good", "work", "use"}, {"stone"}}, (*message).burAndStone},

	{"halo", [][]string{twoRows}, (*message).doubleHalo},
	{"halo", [][]string{{"angle", "degrees"}, {"between", "apart", "each", "even angles", "what angle", "evenly"}}, (*message).evenAngle},
	{"halo", [][]string{{"hidden halo", "under halo", "halo under", "halo below", "halo underneath"}}, (*message).hiddenHalo},
	{"halo", [][]string{{"touch", "touches", "touching"}}, (*message).stonesTouch},
	{"halo", [][]string{{"centre", "center", "middle"}, {"what size", "how big", "how wide", "what diameter", "which size"}}, (*message).centreOfHalo},
	{"halo", [][]string{{"carat", "carats", "tcw", "ctw"}}, (*message).weightOfMelee},
	{"halo", [][]string{{"what size", "which size", "how big", "size melee", "how wide", "what diameter"}, {"exactly", "fit", "for a halo of", "halo of", "want", "need", "stones"}}, (*message).evenMelee},

	{"saddle", [][]string{{"fish mouth", "fishmouth", "burr", "bur", "notch", "round file", "drill"}}, (*message).notchForWire},
	{"saddle", [][]string{{"deep", "depth", "sagitta", "scoop", "how much do i file", "how much to file"}}, (*message).depthOfSaddle},
	{"saddle", [][]string{{"file", "radius", "bur", "rod", "drill", "sanding", "dowel", "mandrel"}, {"diameter", "size", "which", "what", "radius"}}, (*message).rodOfSaddle},
	{"saddle", [][]string{{"angle"}, {"tubes", "settings", "collets", "bezels", "row"}}, (*message).angleOfRow},
	{"saddle", [][]string{{"notch"}}, (*message).depthOfSaddle},
	{"saddle", [][]string{{"cut the shank", "open the shank", "between the ends", "between the shoulders", "into the shank"}}, (*message).shankOpening},
}

// ringTalkAlone reads talk of the ring's jobs before the rules for other subjects,
// where no last answer may be meant.
func (m *message) ringTalkAlone() (Reading, bool) {
	if m.aboutTrialRing() {
		return m.trialRing()
	}
	if m.wholeSetting() {
		return Reading{}, false // the ring is the story of a setting
	}
	if m.context.Asked != nil || m.context.Last != nil && (len(m.tokens) < 6 || m.startsWith(openers...) || m.ringWork() == "") {
		return Reading{}, false
	}
	return m.ringTalk()
}

// wholeSetting reports whether a tapered setting is described by its stone and its
// metal.
func (m *message) wholeSetting() bool {
	setting := m.cues["collet"]+m.cues["prongs"] >= 3 || m.has("setting")
	return setting && m.namesPiece() && m.figureCount() >= 2 && !m.has("tube") && !m.says("halo", "saddle", "stones are", "small stones", "spacing") && m.cues["tubeset"]+m.cues["saddle"] < 5
}

// wireOf takes the wire of jump rings, in mm, for an answer that is worked out.
func (m *message) wireOf() (float64, *quantity) {
	if q := m.of(gauge); q != nil {
		return gaugeMM(q.value), q
	}
	q := m.beside("wire")
	if q == nil || q.value > 4 {
		q = m.with("thickness", "wall")
	}
	if q == nil {
		for _, l := range m.lengths() {
			if l.value <= 2.6 && l.role == "" && (q == nil || l.value < q.value) {
				q = l
			}
		}
	}
	if q == nil {
		return 0, nil
	}
	return q.value, q
}

// insideOf takes the inside of jump rings: the length that is called so, or the
// one before "rings".
func (m *message) insideOf(not ...*quantity) *quantity {
	if q := m.with("inner", "diameter"); q != nil {
		return q
	}
	for _, q := range m.lengths() {
		if q.value >= 0.8 && q.value <= 30 && !slices.Contains(not, q) {
			return q
		}
	}
	return nil
}

// turnsOfCoil answers how many rings are in a close-wound coil.
func (m *message) turnsOfCoil() (Reading, bool) {
	wire, q := m.wireOf()
	for _, l := range m.lengths() {
		if l != q && q != nil && l.value > 5*wire {
			n := math.Floor(l.value/wire + 1e-9)
			return worked("turns of a coil", "one wire's thickness a turn",
				fmt.Sprintf("A close-wound coil has one turn for each wire's thickness: %s / %s is %.0f turns, so about %.0f rings once the two ends are trimmed off.", mm(l.value), mm(wire), n, n-1))
		}
	}
	return Reading{}, false
}

// squareRing tells the length of one jump ring of square wire.
func (m *message) squareRing() (Reading, bool) {
	wire, w := m.wireOf()
	inside := m.insideOf(w)
	if w == nil || inside == nil || m.says("square inch", "square cm", "square foot") {
		return Reading{}, false
	}
	return worked("square wire jump rings", "centroid of the section",
		fmt.Sprintf("One ring of %s square wire, %s inside, takes %s, the same length as of round wire: pi x (inside + wire), because the middle of the wire lies at half its thickness. It weighs 4 / pi, or 1.27 times, as much. Anneal the wire and keep it from twisting as you wind.", mm(wire), mm(inside.value), mm(math.Pi*(inside.value+wire))))
}

// ringThroughHole tells how large a ring must be that goes through a hole near an
// edge.
func (m *message) ringThroughHole() (Reading, bool) {
	thick := m.with("thickness")
	var edge *quantity
	for _, q := range m.lengths() {
		if q != thick && q.role != "diameter" {
			if edge != nil {
				return Reading{}, false
			}
			edge = q
		}
	}
	if thick == nil || edge == nil {
		return Reading{}, false
	}
	least := math.Hypot(thick.value, edge.value)
	return worked("jump ring through a hole", "diagonal of the enclosed section; play: common practice, no source",
		fmt.Sprintf("The ring goes round the metal between hole and edge, %s by %s, so its inside must be more than %s; about %s lets it swing. The wire must pass the hole with 0.2 mm to spare. Then ask: jumpring 18ga inside %s.", mm(thick.value), mm(edge.value), mm(least), mm(math.Ceil(3*least)/2), plain(math.Ceil(3*least)/2)))
}

// usualKerf is what the saw takes from each ring, mm; common practice, no source.
const usualKerf = 0.3

// ringsFromWire answers how many rings a length of wire makes.
func (m *message) ringsFromWire() (Reading, bool) {
	wire, w := m.wireOf()
	var long *quantity
	for _, l := range m.lengths() {
		if l != w && l.unit && l.value >= 100 {
			long = l
		}
	}
	if w == nil || long == nil || m.says("chain", "necklace", "bracelet") && !m.says("wire left", "of wire") {
		return Reading{}, false
	}
	if role, chance := m.likelyRole("jumpring", long); m.says("chain", "necklace", "bracelet") && role == "chain" && chance >= likelyRole {
		return Reading{}, false
	}
	inside := m.insideOf(w, long)
	if inside == nil {
		return Reading{}, false
	}
	each := math.Pi * (inside.value + wire)
	d := m.draft("jumpring")
	for _, q := range []*quantity{w, inside, long} {
		q.used = true
	}
	d.say("wire", w.shown)
	if w.measure != gauge {
		d.say("wire", plain(wire)+"mm")
	}
	option := "inside"
	if m.says(mandrelWords...) {
		option = "mandrel"
	}
	d.say(option, plain(inside.value))
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("%s of %s wire makes %.0f rings with a saw that takes %s each, or %.0f with cutters: each takes %s. Keep a little of the wire's ends to hold.",
		strings.TrimSpace(long.typed(m)), mm(wire), math.Floor(long.value/(each+usualKerf)), mm(usualKerf), math.Floor(long.value/each), mm(each))
	return r, true
}

// ratioBothWays tells an aspect ratio in both gauges that share a number.
func (m *message) ratioBothWays() (Reading, bool) {
	var number float64
	var inside *quantity
	for _, q := range m.found {
		switch {
		case q.measure == gauge:
			number = q.value
		case q.measure == length && inside == nil && q.value > 2.5:
			inside = q
		}
	}
	if number < 1 || int(number) >= len(standardWireGauges) || inside == nil {
		return Reading{}, false
	}
	awg, swg := gaugeMM(number), standardWireGauges[int(number)]*25.4
	return worked("aspect ratio in two gauges", "ASTM B258; BS 3737 from memory",
		fmt.Sprintf("The aspect ratio is the inside over the wire. No. %s is %s in AWG and %s in SWG: with %s inside that is %.2f by AWG and %.2f by SWG. Measure the wire to see which it is.", plain(number), mm(awg), mm(swg), mm(inside.value), inside.value/awg, inside.value/swg))
}

// ringsByMass answers how many rings weigh an ounce or a gram.
func (m *message) ringsByMass() (Reading, bool) {
	wire, w := m.wireOf()
	inside := m.insideOf(w)
	a := m.metal()
	if w == nil || inside == nil || a == nil || a.likeliestKey() == "" {
		return Reading{}, false
	}
	key := a.likeliestKey()
	each := math.Pi * (inside.value + wire) * math.Pi / 4 * wire * wire * alloyOf(key).DensityGPerCM3 / 1000
	grams, per := units.GramPerTroyOunce, "a troy ounce"
	if m.says("gram") {
		grams, per = 1, "a gram"
	}
	if q := m.of(mass); q != nil {
		grams, per = q.value, strings.TrimSpace(q.typed(m))
	}
	return worked("rings by weight", "length of the ring x area of the wire x density",
		fmt.Sprintf("One ring of %s wire, %s inside, in %s weighs %.3f g, so %s holds about %.0f of them.", mm(wire), mm(inside.value), alloyName(key), each, per, math.Floor(grams/each)))
}

// A step of each system, mm of circumference.
var (
	usStep = ring.US.CircumferenceMM(7) - ring.US.CircumferenceMM(6)
	ukStep = ring.UK.CircumferenceMM(2) - ring.UK.CircumferenceMM(1)
)

// sizeByLength answers which size a ring has once a length was taken out or let in.
func (m *message) sizeByLength() (Reading, bool) {
	var cut *quantity
	for _, q := range m.lengths() {
		if q.measure == length && q.value >= 0.4 && q.value <= 15 && q.role != "thickness" && q.role != "width" {
			if cut != nil {
				return Reading{}, false
			}
			cut = q
		}
	}
	if cut == nil {
		return Reading{}, false
	}
	text := fmt.Sprintf("%s of circumference is %.1f US sizes or %.1f UK sizes: one US size is %s, one UK size %s.", mm(cut.value), cut.value/usStep, cut.value/ukStep, mm(usStep), mm(ukStep))
	from := m.fromSize()
	if from != nil {
		circumference, err := ring.System(systemName(from)).Parse(from.shown)
		if err != nil {
			return Reading{}, false
		}
		after, did := circumference-cut.value, "Taking out"
		if m.says("add", "added", "let in", "adding", "insert") && !m.says("take out", "taking out", "cut out") {
			after, did = circumference+cut.value, "Letting in"
		}
		us, _, okUS := ring.US.Nearest(after)
		uk, _, okUK := ring.UK.Nearest(after)
		if okUS && okUK {
			text = fmt.Sprintf("%s %s brings a %s from %s to %s round inside: about US %s or UK %s. ", did, mm(cut.value), strings.ToUpper(systemName(from))+" "+from.shown, mm(circumference), mm(after), us, uk) + text
		}
	}
	if m.says("pattern", "repeat") {
		text += " With a pattern take out whole repeats, and cut in the same place of each."
	}
	return worked("sizes in a length", "steps of the US and UK systems", text)
}

// systemName is the system of a ring size that was found; a number alone is US.
func systemName(q *quantity) string {
	switch {
	case q.system != "":
		return q.system
	case letter(q.shown):
		return "uk"
	case isFingerRound(q):
		return "iso"
	}
	return "us"
}

// lengthOfSizes answers what some sizes up or down are in mm, where no size is
// named: the length is the same from any.
func (m *message) lengthOfSizes() (Reading, bool) {
	if m.of(ringSize) != nil || m.says("wide band", "titanium", "tungsten", "stack", "stackers", "stacking", "stacked") {
		return Reading{}, false
	}
	steps, step := m.sizeSteps()
	if steps == 0 {
		return Reading{}, false
	}
	for _, q := range m.found {
		if q != step && q.role != "thickness" && q.role != "width" && q.measure != length {
			return Reading{}, false
		}
	}
	for _, f := range []string{"can a ring", "eternity", "channel", "opal", "hollow", "came out", "possible", "ended up", "only half", "only one", "only 1"} {
		if m.says(f) {
			return Reading{}, false
		}
	}
	verb, way := "add", "let in"
	if m.goesDown() {
		verb, way = "take out", "taken out"
	}
	var parts []string
	for _, s := range []struct {
		name, word string
		step       float64
	}{{"us", "US", usStep}, {"uk", "UK", ukStep}} {
		if said := m.saidSystem(); said == "" || said == s.name {
			parts = append(parts, fmt.Sprintf("%s in %s sizes", mm(steps*s.step), s.word))
		}
	}
	if len(parts) == 0 {
		return Reading{}, false
	}
	size := "sizes"
	if steps == 1 {
		size = "size"
	} else if steps < 1 {
		size = "of a size"
	}
	text := fmt.Sprintf("To go %s %s you %s %s. That length is %s whatever the ring's size and thickness, because it is the change of the inner circumference.", plain(steps), size, verb, strings.Join(parts, ", or "), way)
	if verb == "add" {
		text += " A plain band without stones may be stretched by about half a US size, a heavy one by a whole size; beyond that cut it and let a piece in."
	}
	return worked("one size", "steps of the US and UK systems; stretching: two jewellers' pages", text)
}

// saidSystem is the only system of ring sizes that the message names, "" for none.
func (m *message) saidSystem() string {
	said := ""
	for i, t := range m.tokens {
		if s := sizeSystems[t.text]; s != "" && !(t.text == "us" && m.plainUs(i) && m.at(i-1).text != "sizes") {
			said = s
		}
	}
	return said
}

// stripAndTube answers the strip that a tube is made from, or the tube that a
// strip makes.
func (m *message) stripAndTube() (Reading, bool) {
	wall, outer := m.with("wall", "thickness"), m.with("outer", "diameter")
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && q.sides[1] < q.sides[0]/4 {
			od := q.sides[0]/math.Pi + q.sides[1]
			text := fmt.Sprintf("A strip %s wide and %s thick closes to a tube of about %s outside and %s inside.", mm(q.sides[0]), mm(q.sides[1]), mm(od), mm(od-2*q.sides[1]))
			if outer == nil {
				for _, l := range m.lengths() {
					if l.value > 4*q.sides[1] && l.value < od {
						outer = l
					}
				}
			}
			if outer != nil && outer.value < od {
				text += fmt.Sprintf(" It can be drawn down to %s outside: that is %.0f %% off its circumference, so anneal after every three or four holes. The wall stays or thickens a little.", mm(outer.value), 100*(1-(outer.value-q.sides[1])/(od-q.sides[1])))
			}
			return worked("tube from strip", "mid-wall perimeter; anneals: common practice, no source", text)
		}
	}
	if wall == nil {
		wall = m.of(gauge)
	}
	for _, l := range m.lengths() {
		switch {
		case wall == nil && l.value < 1.3 && l != outer:
			wall = l
		case outer == nil && l.value >= 1.3 && l != wall && l.value <= 20:
			outer = l
		}
	}
	if wall == nil || outer == nil || outer.value <= 2*wall.value || m.stoneSides() != nil {
		return Reading{}, false
	}
	t := thicknessOf(wall)
	if m.ofStoneWord(outer) && outer.role != "outer" && !contains([]string{"tube", "od", "outside"}, m.at(outer.next).text) {
		return worked("strip for a tube", "mid-wall perimeter; half of the wall: C. Lewton-Brain, Tube Setting",
			fmt.Sprintf("A stone of %s covers half of the wall, so with a wall of %s its tube is %s outside. Cut the strip %s wide: pi x (outside - wall), which is pi x the stone. Cut it a little wide, taper one end to start it through the drawplate, and anneal it first.", mm(outer.value), mm(t), mm(outer.value+t), mm(math.Pi*outer.value)))
	}
	return worked("strip for a tube", "mid-wall perimeter",
		fmt.Sprintf("For a tube of %s outside with a wall of %s cut the strip %s wide: pi x (outside - wall). Cut it a little wide, taper one end to start it through the drawplate, and anneal it first.", mm(outer.value), mm(t), mm(math.Pi*(outer.value-t))))
}

// weightOfMelee estimates the weight of round brilliant diamonds.
func (m *message) weightOfMelee() (Reading, bool) {
	n := m.counts("stones", "pieces")
	if n == nil {
		for _, q := range m.found {
			if q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 4 {
				n = q
				break
			}
		}
	}
	d := m.first(0.7, 12, length)
	if n == nil || d == nil {
		return Reading{}, false
	}
	each := 0.0061 * 0.61 * d.value * d.value * d.value
	return worked("weight of small stones", "0.0061 x d x d x depth at a depth of 61 %, a gemmologist's formula",
		fmt.Sprintf("About %.2f ct together: a round brilliant diamond of %s weighs about %.3f ct, and there are %s. Cubic zirconia would be about 1.65 times as heavy. It is an estimate; sellers weigh them.", n.value*each, mm(d.value), each, plain(n.value)))
}

// evenMelee answers which stones go round a round centre in a given number.
func (m *message) evenMelee() (Reading, bool) {
	n := m.counts("stones", "pieces")
	for _, q := range m.found { // "so 16 go round", "8 round stones"
		w := m.at(q.next).text
		if n == nil && q.measure == bare && q.value == math.Trunc(q.value) && (w == "round" || w == "small") && (m.at(q.next+1).stem == "stone" || m.at(q.next+1).stem == "diamond") {
			n = q
		}
		if n == nil && q.measure == bare && q.value == math.Trunc(q.value) && (w == "go" || w == "fit" || w == "of" && m.at(q.next+1).text == "them") {
			n = q
		}
	}
	o := m.meaning("outline:")
	if n == nil || len(o) > 0 && o[0] != "round" || n.value < 5 {
		return Reading{}, false
	}
	centre := m.first(2, 40, length)
	for _, q := range m.found {
		if centre == nil && q != n && (q.measure == bare || q.measure == length) && q.value >= 2 && q.value <= 40 {
			centre = q
		}
	}
	if centre == nil {
		return Reading{}, false
	}
	across := centre.value
	wall := m.with("wall")
	if wall == nil {
		for _, q := range m.lengths() {
			if q != centre && q.value <= 1 && m.says("wall") {
				wall = q
			}
		}
	}
	around := mm(across)
	if wall != nil {
		across += 2 * wall.value
		around += " and its wall, " + mm(across) + " in all"
	}
	for _, q := range m.lengths() {
		if q != centre && q != wall && q != n {
			return Reading{}, false // the small stones' size is known
		}
	}
	const gap = 0.1 // the halo's usual gaps
	d := halo.EvenStoneMM(across, int(n.value), gap, gap)
	if d < 0.7 {
		return Reading{}, false
	}
	if touching := halo.EvenStoneMM(across, int(n.value), 0, 0); m.says("touching", "all touch", "touch each other") {
		return worked("stones that come out even", "circles round a circle",
			fmt.Sprintf("%s stones of %s touch one another and %s. Stones that touch chip, so leave a gap of about 0.1 mm between them: then take %s.", plain(n.value), mm(touching), around, mm(d)))
	}
	return worked("stones that come out even", "circles round a circle",
		fmt.Sprintf("For %s stones round %s take melee of %s, with gaps of 0.1 mm between them and to the centre. Measure what you buy: a few hundredths decide. To see it: halo round %s with %s count %s.", plain(n.value), around, mm(d), plain(across), plain(math.Round(d*100)/100), plain(n.value)))
}

// outsideOf is the outside diameter of the ring, and how it is known; 0 if it is
// not.
func (m *message) outsideOf(not *quantity) (outside float64, how string) {
	if q := m.lengthAcross(not, "outer", "outside", "od"); q != nil {
		return q.value, "with " + mm(q.value) + " outside"
	}
	inside, name := 0.0, ""
	if size := m.of(ringSize); size != nil {
		circumference, err := ring.System(systemName(size)).Parse(size.shown)
		if err != nil {
			return 0, ""
		}
		inside, name = circumference/math.Pi, "a "+strings.ToUpper(systemName(size))+" "+size.shown
	} else if q := m.lengthAcross(not, "inner", "inside", "id"); q != nil {
		inside, name = q.value, "one of "+mm(q.value)+" inside"
	} else {
		return 0, ""
	}
	thick := m.with("thickness")
	if thick == nil {
		thick = m.of(gauge)
	}
	if thick == nil {
		for _, q := range m.lengths() {
			if q != not && q.value <= 3 && q.role == "" {
				thick = q
			}
		}
	}
	if thick == nil {
		return inside + 3, fmt.Sprintf("on %s with a shank of 1.5 mm (assumed), %s outside", name, mm(inside+3))
	}
	outside = inside + 2*thicknessOf(thick)
	return outside, fmt.Sprintf("on %s with a shank of %s, %s outside", name, mm(thicknessOf(thick)), mm(outside))
}

// lengthAcross is a ring's or a bangle's length across that has a role, or one of these
// words beside it.
func (m *message) lengthAcross(not *quantity, role string, words ...string) *quantity {
	for _, q := range m.lengths() {
		if q != not && q.value >= 14 && q.value <= 80 && (q.role == role || q.role == "" && m.saysOneBetween(q.first-3, q.next+3, words...)) {
			return q
		}
	}
	return nil
}

// rodOfSaddle answers which rod, file or bur has the curve of the shank.
func (m *message) rodOfSaddle() (Reading, bool) {
	if m.says("collet", "bezel", "setting", "oval", "stone") && m.of(size) != nil {
		return Reading{}, false
	}
	outside, how := m.outsideOf(nil)
	if outside == 0 {
		return Reading{}, false
	}
	return worked("rod for a saddle", "outside of the shank",
		fmt.Sprintf("The saddle has the curve of the shank's outside: %s in diameter, %s. No bur is that large: use a half-round file with that curve or a tighter one, then abrasive paper round a rod that with it is %s thick. On a half-round shank fit the other way by hand.", mm(outside), how, mm(outside)))
}

// angleOfRow answers the angle between settings that stand side by side on a
// shank and touch at their feet.
func (m *message) angleOfRow() (Reading, bool) {
	var wide *quantity
	for _, q := range m.lengths() {
		if w := m.at(q.next).stem; q.measure == bare && (w == "tube" || w == "collet" || w == "set" || w == "setting" || w == "bezel") {
			continue // how many
		}
		if q.value >= 1.5 && q.value <= 12 && (wide == nil || q.role == "outer" || q.role == "diameter") {
			wide = q
		}
	}
	outside, how := m.outsideOf(wide)
	if wide == nil || outside == 0 {
		return Reading{}, false
	}
	angle := 2 * math.Atan(wide.value/outside) * 180 / math.Pi
	return worked("angle of a row", "two feet that touch on the outside of the shank",
		fmt.Sprintf("About %.1f degrees between one and the next: each is %s wide and stands on the shank, %s, with its foot touching its neighbour's. File each foot's two sides to half of it, %.1f degrees, if they are to touch all the way up.", angle, mm(wide.value), how, angle/2))
}

// shankOpening answers how much of a shank a setting takes that stands between its
// ends.
func (m *message) shankOpening() (Reading, bool) {
	var wide *quantity
	for _, q := range m.lengths() {
		if q.value >= 2.5 && q.value <= 20 && (wide == nil || q.role == "diameter" || q.role == "width") {
			wide = q
		}
	}
	outside, how := m.outsideOf(wide)
	if wide == nil || outside == 0 || wide.value >= outside {
		return Reading{}, false
	}
	arc := outside * math.Asin(wide.value/outside)
	return worked("setting between the shank's ends", "chord and arc of the shank's outside",
		fmt.Sprintf("Cut out %s measured straight across, which is %s along the outside of the shank (%s), less about 0.3 mm to file each end to the collet's curve. It then sits lower, with a joint at each side; the finger's size stays if the collet's foot keeps the two ends that far apart.", mm(wide.value), mm(arc), how))
}

// baseWidth is the width of a setting's base: the length within three words of
// that word.
func (m *message) baseWidth() *quantity {
	for _, q := range m.lengths() {
		if q.value >= 2 && q.value < 14 && q.role != "thickness" && q.role != "height" && m.saysOneBetween(q.first-3, q.next+4, "base", "bottom", "btm", "foot", "below", "rim", "od", "tube", "cup") {
			return q
		}
	}
	return m.baseBefore()
}

// baseBefore is the first figure behind a word for a base, "the base of my setting measures
// 7", nil where its clause ends before one.
func (m *message) baseBefore() *quantity {
	for i := range m.tokens {
		if !contains([]string{"base", "bottom", "foot", "underside"}, m.at(i).text) {
			continue
		}
		for k := i + 1; k < i+8 && m.at(k).text != "" && !contains([]string{",", ".", ";", "on", "ring", "shank", "band"}, m.at(k).text); k++ {
			for _, q := range m.lengths() {
				if q.first == k {
					if q.value >= 2 && q.value < 14 && q.role != "thickness" {
						return q
					}
					return nil
				}
			}
		}
	}
	return nil
}

// depthOfSaddle answers how deep a base is hollowed, by its width and the ring.
func (m *message) depthOfSaddle() (Reading, bool) {
	wide := m.baseWidth()
	if wide == nil && (m.of(size) != nil || len(m.meaning("outline:")) > 0 || m.has("tube") && m.says("high", "tall")) {
		return Reading{}, false
	}
	based := wide != nil
	for _, q := range m.lengths() {
		if !based && q.value >= 2 && q.value < 14 && q.role != "thickness" && q.role != "height" && q.role != "depth" && q.role != "width" {
			if wide != nil {
				return Reading{}, false
			}
			wide = q
		}
	}
	outside, how := m.outsideOf(wide)
	if wide == nil || outside <= wide.value {
		return Reading{}, false
	}
	start := ""
	if m.says("yes", "right", "correct") && !m.says("=which", "how deep") {
		start = "Yes, with R to the outside of the shank. "
	}
	return worked("depth of a saddle", "rise of a chord in a circle",
		start+fmt.Sprintf("The saddle is %s deep for a base %s wide across the curve, %s: depth = R - square root of (R x R - H x H), where R is half the shank's outside diameter and H is half the base's width. Use a half-round file with the curve of the shank's outside or a tighter one. File a little less than this and fit it to the ring in hand. For the curve on the blank: saddle round 6 shank us 7.", mm(sagitta(outside, wide.value)), mm(wide.value), how))
}
