package sentence

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/outline"
)

// A setting that is made already, or a strip that is cut, takes the stones that it takes.
// The way round it or its width across tells which.

// Words of a setting that is there before its stone, and of how it was measured.
var (
	madeWords   = []string{"made", "finished", "already", "found", "old", "drawer", "empty", "leftover", "left over", "left", "donated", "by mistake", "spare", "have a", "have some", "got a", "got", "have", "box of", "cup", "ready made", "strip is", "piece", "bit of", "what cab", "what oval"}
	roundInside = []string{"round the inside", "around the inside", "around inside", "around on the inside", "round on the inside", "inside round", "round inside", "around it inside", "circumference", "perimeter", "way round", "round it", "around"}
	topWords    = []string{"top", "mouth", "upper", "inside", "across", "outside", "wide", "rim"}
	lowWords    = []string{"bottom", "base", "foot", "tall", "high", "height", "deep"}
	coneWords   = []string{"cone", "cones", "collet", "collets", "setting", "settings", "mount", "crown", "head"}
	cupWords    = []string{"cup", "cups", "bezel", "bezels"}
	askedStones = []string{"stone", "cab", "cabochon", "oval", "round", "gem", "calibr", "faceted", "brillianc", "brilliant", "rounds", "size"}
)

const (
	thickestWall = 1.6  // mm
	leastLedge   = 0.1  // mm on each side; common practice, no source
	mostCut      = 0.5  // of the wall; common practice, no source
	cupPlay      = 0.3  // mm that a cup may be wider than its stone; common practice, no source
	readTo       = 0.01 // mm to which calipers are read
)

// What is told of such stones has these topics.
const (
	stonesRoundTopic = "stones for the way round"
	stonesCupTopic   = "stones for a cup"
	stonesConeTopic  = "stones for a cone"
)

// stonesForMade tells which stones a setting or a strip takes that is there already.
func (m *message) stonesForMade() (Reading, bool) {
	if !m.beginsTalkOrWhole() || m.says("tube", "tubes", "tubing", "chenier", "pipe", "hole", "block", "offcut", "disc", "discs", "disk", "bead", "beads", "ring", "rings", "finger", "scrap") || m.cues["dome"] >= 3 || m.cues["prongs"] >= 3 || m.of(ringSize) != nil || !m.says(madeWords...) || !m.asksForStones() {
		return Reading{}, false
	}
	for _, read := range []func() (Reading, bool){m.stonesRoundIt, m.stonesAcrossIt} {
		m.release()
		m.bindRoles()
		if r, ok := read(); ok {
			return r, true
		}
	}
	m.release()
	return Reading{}, false
}

// asksForStones reports whether a message asks which stone or which size of one.
func (m *message) asksForStones() bool {
	for i, t := range m.tokens {
		if !slices.Contains([]string{"which", "what", "whats", "wot", "biggest", "largest", "any"}, t.text) {
			continue
		}
		for k := i + 1; k <= i+8 && m.at(k).text != "." && m.at(k).text != "," && !m.inFigure(k); k++ {
			if slices.Contains(askedStones, m.at(k).stem) || slices.Contains(askedStones, m.at(k).text) || strings.HasPrefix(m.at(k).text, "calibrat") {
				return true
			}
		}
	}
	return m.has("whichstone") || m.says("which one", "which can i", "which of") && m.says("cab", "cabs", "stones", "ovals")
}

// oneLength is the only length of a message that isn't a thickness, nil for none and for
// several, and the thickness.
func (m *message) oneLength(least, most float64) (long, thick *quantity) {
	several := false
	for _, q := range m.found {
		switch {
		case q.measure == gauge, (q.measure == length || q.measure == bare) && thicknessOf(q) < thickestWall:
			thick = q
		case q.measure == length || q.measure == bare:
			if q.value < least && m.says("strip", "strips", "wire") {
				continue // how high the strip is
			}
			several = several || long != nil
			long = q
		}
	}
	if several || long == nil || long.value < least || long.value > most {
		return nil, thick
	}
	return long, thick
}

// stonesRoundIt tells the stones for the way round a bezel or for a strip's length.
func (m *message) stonesRoundIt() (Reading, bool) {
	if !m.says("bezel", "bezels", "cab", "cabs", "cabochon", "cabochons") || m.says("across", "diameter") { // a collet's strip has its height as well
		return Reading{}, false
	}
	const shortest, longest = 12, 260
	long, thick := m.oneLength(shortest, longest)
	inside := m.says(roundInside...) && !m.says("go round", "go around", "goes round")
	if long == nil || !inside && !m.says("strip", "strips", "wire", "ribbon", "long", "bit of bezel", "piece of bezel") {
		return Reading{}, false
	}
	around, lead := long.value, fmt.Sprintf("The bezel is %s round inside.", mm(long.value))
	if !inside {
		wall := gaugeMM(28)
		if thick != nil {
			wall = thicknessOf(thick)
		}
		around -= math.Pi * wall
		lead = fmt.Sprintf("A strip %s long fits a stone that is %s round: its middle lies outside the stone, which takes pi x its thickness of %.2f mm.", mm(long.value), mm(around), wall)
	}
	if own := m.stonesTold(); len(own) > 0 {
		return m.ownStonesRound(lead, around, own)
	}
	return worked(stonesRoundTopic, "an ellipse's or a circle's perimeter; stock sizes: usual ones",
		lead+" "+roundsFor(around)+" "+ovalsFor(around)+" A stone up to 0.1 mm smaller across drops in; for a smaller one take out the difference at the seam.")
}

// stonesTold are the sizes of the stones that a message tells.
func (m *message) stonesTold() (all []*quantity) {
	for _, q := range m.found {
		if q.measure == size && q.mayBeStone() && !q.isSlender() {
			all = append(all, q)
		}
	}
	return all
}

// ownStonesRound tells which of the stones that are there a bezel goes round.
func (m *message) ownStonesRound(lead string, around float64, own []*quantity) (Reading, bool) {
	var parts []string
	var best *quantity
	for _, q := range own {
		p := outline.EllipsePerimeterMM(q.sides[0]/2, q.sides[1]/2)
		parts = append(parts, fmt.Sprintf("%s is %.1f mm round", shownSides(q.sides), p))
		if p <= around+0.3 && (best == nil || p > outline.EllipsePerimeterMM(best.sides[0]/2, best.sides[1]/2)) {
			best = q
		}
	}
	first := "It is too short for all of them."
	if best != nil {
		first = fmt.Sprintf("It goes round the %s, with %.1f mm over.", shownSides(best.sides), around-outline.EllipsePerimeterMM(best.sides[0]/2, best.sides[1]/2))
	}
	return worked(stonesRoundTopic, "an ellipse's perimeter", fmt.Sprintf("%s %s As ovals, %s", first, lead, inAll(parts)))
}

func shownSides(sides []float64) string { return plain2(sides[0]) + " x " + mm(sides[1]) }

// roundsFor tells the round stone of a way round.
func roundsFor(around float64) string {
	return fmt.Sprintf("Round, that is a stone of %s.", mm(math.Round(100*around/math.Pi)/100))
}

// ovalsFor tells the stock sizes of oval stones next to a way round.
func ovalsFor(around float64) string {
	below, above := [2]float64{}, [2]float64{}
	perimeter := func(s [2]float64) float64 { return outline.EllipsePerimeterMM(s[0]/2, s[1]/2) }
	for _, s := range stockSizes(outline.Oval) {
		switch p := perimeter(s); {
		case p <= around+0.15 && (below[0] == 0 || p > perimeter(below)):
			below = s
		case p > around+0.15 && (above[0] == 0 || p < perimeter(above)):
			above = s
		}
	}
	var parts []string
	if below[0] > 0 {
		parts = append(parts, fmt.Sprintf("%s is %.1f mm round, so %.1f mm are over", shownSides(below[:]), perimeter(below), max(0, around-perimeter(below))))
	}
	if above[0] > 0 {
		parts = append(parts, fmt.Sprintf("%s takes %.1f mm, %.1f more", shownSides(above[:]), perimeter(above), perimeter(above)-around))
	}
	return "Of the usual ovals " + inAll(parts)
}

// stockSizes are the sizes in which stones of an outline are sold, length x width.
func stockSizes(kind outline.Kind) (all [][2]float64) {
	published, common := kind.CalibratedSizes()
	for _, s := range slices.Concat(published, common, kind.Describe().CupSizes) {
		s = kind.Filled(s)
		all = append(all, [2]float64{max(s.LengthMM, s.WidthMM), s.WidthMM})
	}
	slices.SortFunc(all, func(a, b [2]float64) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	return slices.Compact(all)
}

// stonesAcrossIt tells the stones for a cup or a cone by its width across.
func (m *message) stonesAcrossIt() (Reading, bool) {
	cup := m.says(cupWords...)
	if !cup && !m.says(coneWords...) || m.says("make a", "make with", "can make", "cut from", "out of") {
		return Reading{}, false
	}
	sides, wall, own := m.acrossMade()
	const smallest, widest = 2, 45
	if len(sides) == 0 || sides[1] < sides[0]/2 || sides[1] < smallest || sides[0] > widest || wall > sides[1]/4 {
		return Reading{}, false
	}
	how := shownAcross(sides)
	outside := m.says("outside", "outer", "od") || wall > 0 && !cup && !m.says("inside", "inner", "id")
	if outside && wall == 0 {
		return Reading{}, false
	}
	if outside {
		sides = []float64{sides[0] - 2*wall, sides[1] - 2*wall}
		how = fmt.Sprintf("%s (outside less twice the wall of %s)", shownAcross(sides), mm(wall))
	}
	if cup {
		return m.stonesOfCup(sides, how, own)
	}
	return m.stonesOfCone(sides, wall, how)
}

func shownAcross(sides []float64) string {
	if sides[0] == sides[1] {
		return mm(sides[0])
	}
	return shownSides(sides)
}

// acrossMade is how wide a setting is at its top, its wall, and what is told of stones.
func (m *message) acrossMade() (sides []float64, wall float64, own []*quantity) {
	var lengths []*quantity
	for _, q := range m.found {
		switch {
		case q.measure == size && len(q.sides) == 2:
			own = append(own, q)
		case q.measure == gauge, (q.measure == length || q.measure == bare) && thicknessOf(q) < thickestWall:
			wall = thicknessOf(q)
		case m.countsThings(q):
		case q.measure == length || q.measure == bare:
			if !saidOf(" "+m.nearby(q)+" ", lowWords) || saidOf(" "+m.nearby(q)+" ", topWords) {
				lengths = append(lengths, q)
			}
		}
	}
	switch {
	case len(own) > 0 && len(lengths) == 0:
		return []float64{max(own[0].sides[0], own[0].sides[1]), min(own[0].sides[0], own[0].sides[1])}, wall, own[1:]
	case len(lengths) == 2 && m.says("one way", "the other", "by") && len(own) == 0:
		return []float64{max(lengths[0].value, lengths[1].value), min(lengths[0].value, lengths[1].value)}, wall, nil
	case len(lengths) == 1 && len(own) == 0:
		return []float64{lengths[0].value, lengths[0].value}, wall, nil
	case len(lengths) > 1 && len(own) == 0:
		top := slices.MaxFunc(lengths, func(a, b *quantity) int { return cmp.Compare(a.value, b.value) })
		if saidOf(" "+m.nearby(top)+" ", topWords) {
			return []float64{top.value, top.value}, wall, nil
		}
	}
	return nil, 0, nil
}

// nearby are the words round a figure up to the next figures.
func (m *message) nearby(q *quantity) string { return m.wordsBefore(q) + " " + m.wordsBehind(q) }

// stonesOfCup tells the stones that drop into a cup.
func (m *message) stonesOfCup(sides []float64, how string, own []*quantity) (Reading, bool) {
	lead := fmt.Sprintf("The inside is %s: look for a stone of that size, or up to %s smaller in length and in width.", how, mm(cupPlay))
	var fits []string
	if len(own) > 0 {
		for _, q := range own {
			a, b := max(q.sides[0], q.sides[1]), min(q.sides[0], q.sides[1])
			switch {
			case a > sides[0]+0.05 || b > sides[1]+0.05:
				fits = append(fits, shownSides([]float64{a, b})+" is too large")
			case sides[0]-a > cupPlay+readTo || sides[1]-b > cupPlay+readTo:
				fits = append(fits, shownSides([]float64{a, b})+" has too much room")
			default:
				fits = append(fits, fmt.Sprintf("%s goes in, with %s and %s over", shownSides([]float64{a, b}), mm(sides[0]-a), mm(sides[1]-b)))
			}
		}
		return worked(stonesCupTopic, "common practice, no source", lead+" "+sentenceCase(inAll(fits)))
	}
	for _, s := range stockSizes(m.kindOfStone(sides)) {
		if over := sides[0] - s[0]; over >= -0.05 && over <= cupPlay+readTo && sides[1]-s[1] >= -0.05 && sides[1]-s[1] <= cupPlay+readTo {
			fits = append(fits, shownAcross(s[:]))
		}
	}
	text := "No usual size is that close: have a stone cut, or make a new bezel."
	if len(fits) > 0 {
		text = "The usual size for it: " + strings.Join(fits, ", ") + "."
	}
	return worked(stonesCupTopic, "usual sizes; the play: common practice, no source", lead+" "+text)
}

// kindOfStone is the outline that is sought: round where both sides are alike.
func (m *message) kindOfStone(sides []float64) outline.Kind {
	if sides[0] == sides[1] {
		return outline.Round
	}
	return outline.Oval
}

// stonesOfCone tells the stones whose girdle lies in the wall of a cone's top.
func (m *message) stonesOfCone(sides []float64, wall float64, how string) (Reading, bool) {
	most := 0.5
	if wall > 0 {
		most = max(2*leastLedge, 2*mostCut*wall)
	}
	from, to := 2*leastLedge, most
	var fits []string
	for _, s := range stockSizes(m.kindOfStone(sides)) {
		if s[0] >= sides[0]+from-0.01 && s[0] <= sides[0]+to+0.01 && s[1] >= sides[1]+from-0.01 && s[1] <= sides[1]+to+0.01 {
			fits = append(fits, shownAcross(s[:]))
		}
	}
	stock := "No usual size falls in that range: have a stone cut, or open the top a little with a bur."
	if len(fits) > 0 {
		stock = "Usual sizes: " + strings.Join(fits, ", ") + "."
	}
	low, high := []float64{sides[0] + from, sides[1] + from}, []float64{sides[0] + to, sides[1] + to}
	return worked(stonesConeTopic, "the seat takes at most half of the wall: common practice, no source",
		fmt.Sprintf("At its top the setting is %s inside. The girdle lies on a seat that is cut into the wall, at least %s on each side and at most half of the wall, so look for a stone from %s to %s. %s", how, mm(leastLedge), shownAcross(low), shownAcross(high), stock))
}
