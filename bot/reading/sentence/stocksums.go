package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

// stockSums answers small sums on stock that no request works out: blanks from a
// sheet, one tube in another, the wax that a heap of metal casts, a mass as a cube,
// and how wide a stone of so many carats is.
func (m *message) stockSums() (Reading, bool) {
	if m.context.Asked != nil {
		return Reading{}, false
	}
	for _, read := range []func(*message) (Reading, bool){
		(*message).karatOfMix, (*message).severalMetals, (*message).ballsOfMass, (*message).ballWeighed, (*message).discOfCutter, (*message).discOfEach, (*message).metalOfEach, (*message).oneOfMany, (*message).blanksFromSheet, (*message).tubeInTube, (*message).waxForMetal, (*message).cubeOfMass, (*message).widthOfCarats, (*message).caratsOfWidth, (*message).leanOfCone, (*message).massOfVolume, (*message).shapeOnScales, (*message).sheetOfMass, (*message).stripOfMass, (*message).wireOfMass,
	} {
		m.release()
		m.bindRoles()
		if r, ok := read(m); ok {
			return r, true
		}
	}
	m.release()
	return Reading{}, false
}

// blanksFromSheet counts the plain rectangles or discs that a sheet yields: "can I get 10
// blanks 28 x 6 out of a 100 x 50 sheet".
func (m *message) blanksFromSheet() (Reading, bool) {
	var sizes []*quantity
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 {
			sizes = append(sizes, q)
		}
	}
	if disc := m.discFromSheet(); disc != nil {
		sizes = append(sizes, disc)
	}
	if len(sizes) != 2 || !m.says("how many", "can i get", "will i get", "do i get", "get out of", "fit on", "fit in", "cut from", "out of", "enough for") || !m.has("sheet", "offcut") && !m.says("plate", "piece") || len(m.meaning("outline:")) > 0 || m.has("stone") {
		return Reading{}, false
	}
	blank, sheet := sizes[0], sizes[1]
	if blank.sides[0]*blank.sides[1] > sheet.sides[0]*sheet.sides[1] {
		blank, sheet = sheet, blank
	}
	blanks := "blanks of " + strings.TrimSpace(blank.typed(m))
	if disc := m.discFromSheet(); disc != nil {
		for _, q := range m.found {
			q.used = q.used || q.first == disc.first
		}
		blanks = "discs of " + mm(disc.value)
	}
	blank.used, sheet.used = true, true
	cut := sawCutMM
	if q := m.with("kerf"); q != nil {
		q.used, cut = true, q.value
	}
	n := m.counts("pieces", "rings")
	for _, q := range m.found {
		if n == nil && !q.used && (q.measure == count || q.measure == bare) && q.value == math.Trunc(q.value) && q.value >= 2 {
			n = q
		}
	}
	if n != nil {
		n.used = true
	}
	m.leaveThickness()
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	across := func(a, b float64) int {
		return int((sheet.sides[0]+cut)/(a+cut)+1e-9) * int((sheet.sides[1]+cut)/(b+cut)+1e-9)
	}
	most := max(across(blank.sides[0], blank.sides[1]), across(blank.sides[1], blank.sides[0]))
	text := fmt.Sprintf("%d %s fit on %s in rows, with %s mm for each saw cut.", most, blanks, strings.TrimSpace(sheet.typed(m)), plain2(cut))
	if n != nil {
		verdict := "Yes: "
		if float64(most) < n.value {
			verdict = "No: only "
		}
		text = verdict + text
	}
	return Reading{Outcome: Explanation, Topic: "blanks from a sheet", Source: "rows x columns, a saw cut between neighbours; saw cut: common practice, no source",
		Text: text + " Blanks that are curved nest closer or waste more: print the template and lay it on the sheet."}, true
}

// discFromSheet is the one diameter of discs that are cut from a sheet, as a square that
// holds it; nil for none.
func (m *message) discFromSheet() *quantity {
	if !m.says("disc", "discs", "disk", "disks", "circles") || m.cues["kit"] >= 3 || m.says("how many sheets") {
		return nil
	}
	var across *quantity
	for _, q := range m.found {
		if q.measure != length || q.other != nil || q.role == "thickness" || q.value < 5 {
			continue
		}
		if across != nil {
			return nil
		}
		across = q
	}
	if across == nil {
		return nil
	}
	square := *across
	square.sides = []float64{across.value, across.value}
	return &square
}

// leaveThickness marks a thickness that changes nothing in a sum.
func (m *message) leaveThickness() {
	for _, q := range m.unused() {
		if q.measure == gauge || q.role == "thickness" {
			q.used = true
		}
	}
}

// Words for one part that goes into another.
var slidingWords = []string{"slide", "slides", "sliding", "slip", "slips", "sleeve", "fit over", "fits over", "fit inside", "fits inside", "go over", "go inside", "goes over", "goes inside", "going in", "goes in", "goes into", "go into", "telescope", "telescopes", "telescoping", "fit in", "fits in", "swallow", "rattling"}

// Clearances of parts that slide, mm of the diameter; common practice, no source.
const (
	leastPlayMM = 0.05
	mostPlayMM  = 0.1
)

// tubeInTube answers whether one tube or rod slides in another: "does 4 mm ID slide
// over 4 mm OD?", and what goes into a tube of which only the bore is known.
func (m *message) tubeInTube() (Reading, bool) {
	if !m.says(slidingWords...) || m.has("stone", "whichstone", "block") || m.says("pressing", "pressed") || m.says("jewel", "jewels", "gem", "gems", "crystal", "faceted") || len(m.meaning("outline:")) > 0 {
		return Reading{}, false
	}
	m.inchesAlike()
	bore, said := m.boreSaid()
	part := m.partSaid()
	switch {
	case len(m.unused()) > 0:
		return m.wallBetween()
	case bore <= 0:
		return Reading{}, false
	case part == nil && m.says("what", "which", "how narrow", "how wide", "how thick"):
		return worked("tube in a tube", slidingSource,
			fmt.Sprintf("A bore of %.2f mm%s takes a tube or a rod of %.2f to %.2f mm outside: %s to %s mm of play lets it slide. Measure both, because stock is sold within a tolerance.", bore, said, bore-mostPlayMM, bore-leastPlayMM, plain2(leastPlayMM), plain2(mostPlayMM)))
	case part == nil:
		return Reading{}, false
	}
	return worked("tube in a tube", slidingSource, slides(bore, part.value, said))
}

const slidingSource = "bore = outside - 2 x wall; clearance: common practice, no source"

// slides tells whether a part goes into a bore, both in mm.
func slides(bore, part float64, how string) string {
	play := bore - part
	both := fmt.Sprintf("%s mm inside%s over %s mm outside", plain2(bore), how, plain2(part))
	verdict := fmt.Sprintf("Yes, loosely: %s leaves %.2f mm of play.", both, play)
	switch {
	case play < -0.005:
		verdict = fmt.Sprintf("No: %s is %.2f mm too tight.", both, -play)
	case play < 0.03:
		verdict = fmt.Sprintf("No, or only by force: %s has no clearance.", both)
	case play <= 0.15:
		verdict = fmt.Sprintf("Yes: %s leaves %.2f mm of play, a sliding fit.", both, play)
	}
	return verdict + " A fit that slides wants 0.05 to 0.1 mm of clearance: sand the inner tube, or draw it down, until it moves; measure both, because tube is sold within a tolerance."
}

// inchesAlike reads diameters below 1 as inches where a wall beside them is in inches.
func (m *message) inchesAlike() {
	if !slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == length && strings.HasSuffix(q.shown, " in") }) {
		return
	}
	for _, q := range m.found {
		if q.measure == bare && q.value < 1 && q.value > 0.05 {
			q.measure, q.value, q.unit = length, q.value*25.4, true
		}
	}
}

// boreSaid is the inside diameter of the outer tube, mm: as it is told, or by its
// outside and wall, and how it was found. Zero where it can't be told.
func (m *message) boreSaid() (bore float64, how string) {
	in := m.with("inner")
	if in != nil && slices.Contains([]string{"od", "outside", "outer", "x"}, m.at(in.next).text) {
		in.role, in = "outer", nil // "slides inside 6.35 OD x 0.5 wall"
	}
	if in != nil {
		in.used = true
		return in.value, ""
	}
	tube := m.of(size)
	if tube != nil && tube.isTube() {
		tube.used = true
		return tube.sides[0] - 2*tube.sides[1], fmt.Sprintf(" (%s - 2 x %s)", plain(tube.sides[0]), plain(tube.sides[1]))
	}
	outer, wall := m.outerWithWall(), m.with("wall", "thickness")
	if outer == nil || wall == nil || wall.value > outer.value/3 {
		return 0, ""
	}
	outer.used, wall.used = true, true
	return outer.value - 2*wall.value, fmt.Sprintf(" (%s - 2 x %s)", plain2(outer.value), plain2(wall.value))
}

// outerWithWall is the outside diameter of the tube whose wall is told.
func (m *message) outerWithWall() *quantity {
	if q := m.with("outer"); q != nil {
		return q
	}
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && m.at(q.next).text == "tube" {
			return q
		}
	}
	return nil
}

// partSaid is the outside diameter of the rod or tube that goes in.
func (m *message) partSaid() *quantity {
	q := m.with("outer", "diameter")
	for _, other := range m.found {
		if q == nil && !other.used && (other.measure == length || other.measure == bare) && other.role != "wall" {
			q = other
		}
	}
	if q != nil {
		q.used = true
	}
	return q
}

// wallBetween is the wall of a tube that slides over a part, where only the two
// diameters are told: "9 mm outside over 8 mm: how thick a wall".
func (m *message) wallBetween() (Reading, bool) {
	if len(m.found) != 2 || !m.says("how thick", "what wall", "which wall") || !m.says("over", "around", "round", "outside") {
		return Reading{}, false
	}
	outer, part := m.found[0].value, m.found[1].value
	if outer < part {
		outer, part = part, outer
	}
	if m.found[0].measure == size || m.found[1].measure == size || outer-part < 2*mostPlayMM {
		return Reading{}, false
	}
	m.leaveOut()
	return worked("wall of a sleeve", "wall = (outside - inner part - clearance) / 2; clearance: common practice, no source",
		fmt.Sprintf("A tube of %s mm outside slides over %s mm with a wall of %.2f to %.2f mm: half of %s - %s, less %s to %s mm of play.", plain(outer), plain(part), (outer-part-mostPlayMM)/2, (outer-part-leastPlayMM)/2, plain(outer), plain(part), plain2(leastPlayMM), plain2(mostPlayMM)))
}

// waxForMetal is the heaviest wax that so much metal casts, with its button left in
// the crucible.
func (m *message) waxForMetal() (Reading, bool) {
	q, a, key, named := m.of(mass), m.metal(), "sterling", ""
	if q == nil || !m.asksForWax() {
		return Reading{}, false
	}
	q.used = true
	if a != nil {
		key, a.used = a.likeliestKey(), true
	} else {
		named = " You named no metal, so sterling is taken."
	}
	if key == "" {
		return Reading{}, false
	}
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	const button = 0.2
	alloy := alloyOf(key)
	whole := q.value / casting.MetalG(1, casting.WaxDensityGPerCM3, alloy.DensityGPerCM3)
	return Reading{Outcome: Explanation, Topic: "wax for the metal there is", Source: "metal = wax x density of the metal / density of the wax; a button of 20 %: common practice, no source",
		Text: fmt.Sprintf("%s of %s casts a wax of %.1f g at most, sprue and all: %.1f g fills the mould to the last drop, and a fifth of the metal is for the button. Old metal must be clean, without solder, and at least half of the melt fresh.%s", strings.TrimSpace(q.typed(m)), alloy.Name, whole/(1+button), whole, named)}, true
}

// asksForWax reports whether the wax is sought that a mass of metal casts.
func (m *message) asksForWax() bool {
	return m.says("how big a wax could", "which wax", "what wax", "max wax", "maximum wax", "wax at most", "size of wax", "wax can i cast", "wax could i cast", "heaviest wax", "biggest wax", "largest wax", "how much wax", "how big a wax", "how heavy a wax", "how heavy can the wax", "what wax can", "what weight of wax", "what size wax")
}

// whichWax asks for a wax to try, where the message tells more than the metal.
func (m *message) whichWax(d *draft) Reading {
	for _, q := range m.found {
		q.used = true
	}
	d.alloy("alloy", false)
	d.question("wax", "I reckon from the wax to the metal, its button included. Which wax, in grams, shall I try?", d.with("1 g", "wax", "1 g"), d.with("1.5 g", "wax", "1.5 g"), d.with("2 g", "wax", "2 g"))
	return d.reading()
}

// cubeOfMass is the edge of a cube of so much metal.
func (m *message) cubeOfMass() (Reading, bool) {
	q, a := m.of(mass), m.metal()
	if q == nil || a == nil || a.likeliestKey() == "" || !m.says("as a cube", "a cube", "cube of") || len(m.found) > 1 {
		return Reading{}, false
	}
	alloy := alloyOf(a.likeliestKey())
	return Reading{Outcome: Explanation, Topic: "cube of a mass", Source: "edge = cube root of mass / density",
		Text: fmt.Sprintf("%s of %s is a cube of %.1f mm a side, at %.2f g/cm³.", strings.TrimSpace(q.typed(m)), alloy.Name, math.Cbrt(q.value*1000/alloy.DensityGPerCM3), alloy.DensityGPerCM3)}, true
}

// leanOfCone is how far a wall leans whose top, bottom and height are told.
func (m *message) leanOfCone() (Reading, bool) {
	if !m.says("what angle", "which angle", "what lean", "what taper", "angle is", "how steep", "what degree") || m.of(angle) != nil {
		return Reading{}, false
	}
	top, base, high := m.endOf("top", nil), m.endOf("base", narrowing), m.with("height")
	if top == nil || base == nil || high == nil || top == base || len(m.found) != 3 || top.measure == size || base.measure == size {
		return Reading{}, false
	}
	lean := math.Atan((top.value-base.value)/2/high.value) * 180 / math.Pi
	return Reading{Outcome: Explanation, Topic: "lean of a wall", Source: "tan lean = (top - base) / 2 / height",
		Text: fmt.Sprintf("The wall leans %.1f° on each side, %.1f° in all: half of %s - %s over a height of %s mm.", lean, 2*lean, plain(top.value), plain(base.value), plain(high.value))}, true
}

// widthOfCarats is how wide a round diamond of so many carats is.
func (m *message) widthOfCarats() (Reading, bool) {
	q := m.of(carat, bare)
	if q == nil || len(m.found) > 1 || len(m.alloys) > 0 || !m.says("carat", "carats", "ct") || !m.says("mm", "wide", "how big", "what size", "across", "diameter", "millimeters", "millimetres") || m.has("block") || q.value > 30 || m.cues["collet"]+m.cues["prongs"]+m.cues["bezel"] > 0 || m.says("18 ct", "9 ct", "gold") {
		return Reading{}, false
	}
	if !m.mayBeRoundDiamond() {
		return Reading{}, false
	}
	diamond, known := stone.GemByKey("diamond")
	size, depth, err := stone.SizeFromCarat(outline.Round, q.value, 1, diamond)
	if err != nil || !known {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "carats to mm", Source: "the usual weight formula for a round brilliant; common practice, no source",
		Text: fmt.Sprintf("A round diamond of %s ct is about %.1f mm across and %.1f mm deep. Other gems of that weight are wider or narrower by their density; cut stones differ by a tenth or two, so measure yours.", plain(q.value), size.WidthMM, depth)}, true
}
