package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
	"guildhand/calc/units"
)

// gaugeOf reads a conversion between gauge number, mm and inch.
func (m *message) gaugeOf() (Reading, bool) {
	d := m.draft("gauge")
	for _, a := range m.alloys {
		a.used = true // gauges of all our metals are the same
	}
	var found []*quantity
	for _, q := range m.found {
		if (q.measure == gauge || q.measure == length || q.measure == bare) && !m.isPartOfUnit(q) {
			found = append(found, q)
		}
	}
	if len(found) == 2 && (found[0].measure != bare || found[1].measure != bare) && !m.says("list", "all") {
		lengths := found[0].measure != gauge && found[1].measure != gauge
		if !m.says(comparing...) && (lengths || !m.says("is", "or", "than", "difference", "between", "which")) {
			for _, t := range unitTellers {
				if told, ok := m.toldBy(t); ok && t.topic == "gauges" {
					return told, true
				}
			}
		}
		return m.compareGauges(found[0], found[1])
	}
	if len(found) != 1 {
		return Reading{}, false
	}
	q := found[0]
	if q.measure == gauge && q.other != nil && m.says("thicker", "thinner", "heavier", "difference", "between") {
		return m.compareGauges(q.other, q) // "is 18 or 22 gauge thicker"
	}
	q.used = true
	switch {
	case q.measure == gauge:
		d.say("gauge", q.shown)
	case q.measure == length && q.value > thickestGauge && m.namesWantedUnit():
		return worked("lengths", "1 in = 25.4 mm", m.longTold(q)+".")
	case q.measure == length:
		d.say("gauge", q.shown)
	case q.value > mostGauge:
		return Reading{}, false
	case q.value == float64(int(q.value)) && q.value >= 4:
		d.say("gauge", q.shown+"ga")
	default:
		d.say("gauge", q.shown+" mm")
	}
	return d.reading(), true
}

// thickestGauge is the thickest metal that has a gauge number, 0000, in mm.
const thickestGauge = 11.7

// mostGauge is more than any gauge number and any thickness in mm that has one.
const mostGauge = 60

// besideGauge reads a bare number as a gauge where the other is one, or a thickness that
// is compared with it, and it can be one; else as mm.
func (q *quantity) besideGauge(other *quantity) {
	if q.measure != bare {
		return
	}
	q.measure = length
	const leastNumber, mostNumber, mostThick = 10, 40, 4
	besideThin := other.measure == length && other.value <= mostThick && q.value >= leastNumber && q.value <= mostNumber
	if q.value == math.Trunc(q.value) && (other.measure == gauge && q.value >= mostThick || besideThin) {
		q.measure = gauge
	}
}

// compareGauges answers which of two thicknesses is the thicker.
func (m *message) compareGauges(one, other *quantity) (Reading, bool) {
	one.used, other.used = true, true
	one.besideGauge(other)
	other.besideGauge(one)
	first, second := thicknessOf(one), thicknessOf(other)
	said := func(q *quantity, mm float64) string {
		if q.measure == gauge {
			return fmt.Sprintf("%s ga (%.2f mm)", strings.TrimSuffix(q.shown, "ga"), mm)
		}
		return fmt.Sprintf("%.2f mm", mm)
	}
	thicker, thinner := said(one, first), said(other, second)
	asked := "Yes"
	if first < second {
		thicker, thinner, asked = thinner, thicker, "No"
	}
	if m.says("thinner") {
		asked = map[string]string{"Yes": "No", "No": "Yes"}[asked]
	}
	text := fmt.Sprintf("%s is thicker than %s, by %.2f mm. The higher the gauge number, the thinner the metal.", thicker, thinner, math.Abs(first-second))
	if math.Abs(first-second) < 0.02*first && one.measure != other.measure {
		text = fmt.Sprintf("Yes: %s and %s are the same thickness, but for %.3f mm.", said(one, first), said(other, second), math.Abs(first-second))
	} else if m.says("thicker", "thinner") && m.says("is", "are") {
		text = asked + ": " + text
	} else if one.measure != other.measure && m.says("is") {
		text = "No: " + text
	}
	for _, q := range []*quantity{one, other} {
		if one.measure != other.measure && q.measure == length {
			near := nearestGauge(q.value)
			text += fmt.Sprintf(" The gauge nearest to %s is %s, %s.", mm(q.value), plain(near), mm(gaugeMM(near)))
		}
	}
	return Reading{Outcome: Explanation, Topic: "gauges", Text: text, Source: "ASTM B258"}, true
}

func thicknessOf(q *quantity) float64 {
	if q.measure == gauge {
		return gaugeMM(q.value)
	}
	return q.value
}

// weigh reads the mass of a piece of stock.
func (m *message) weigh() (Reading, bool) {
	for _, read := range []func(*message) (Reading, bool){(*message).sheetOfMass, (*message).lengthOfMass, (*message).stripOfMass, (*message).shapeWeighed, (*message).ballWeighed, (*message).bangleWeighed, (*message).settingWeighed} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	d := m.draft("weigh")
	d.places = []place{{"length", "length", 1, 100000}, {"thickness", "thickness of the metal", 0.05, 30}, {"size", "size of the piece", 1, 1000}, {"count", "number of pieces", 1, 10000}}
	d.piecesCounted()
	switch {
	case m.stripWeighed():
		d.stripStock()
	case m.has("tube") || m.with("outer") != nil && m.with("wall") != nil && !m.says(ballWords...):
		d.tubeStock()
	case m.has("profile:half-round"):
		d.halfRoundStock()
	case (m.says(rodWords...) || m.has("wire")) && d.rodBySize():
	case m.roundOfSheet():
		d.discStock()
	case m.has("wire") || m.longRound() || m.says("bar", "bar stock") && (m.with("diameter") != nil || m.longSquare()) || m.says(rodWords...) || m.wireUnnamed():
		if !m.has("wire") && !m.says(rodWords...) && !m.has("outline:round", "outline:square", "squarewire") {
			d.note("a thickness and a length are read as round wire; say sheet and its width if it is that")
		}
		d.wireStock()
	case m.has("disc") || m.has("outline:round") && !m.has("stone"):
		d.discStock()
	default:
		if !d.sheetStock() {
			return Reading{}, false
		}
	}
	for _, q := range m.unused() { // "would it be over 25 g?"
		if q.measure == mass && q.role != ownResult {
			q.used = true
			d.note("compare the mass with your %s", strings.TrimSpace(q.typed(m)))
		}
	}
	d.alloy("alloy", true)
	if !d.has("alloy") && d.ask == "" {
		d.note("no metal was named, so the bench's is taken")
	}
	if d.options["form"] != "" && d.ask == "" {
		d.needMeasures()
	}
	return d.reading(), true
}

// halfRoundStock takes half-round wire: its section as a size, or as two figures of which the
// larger is its width, and its length.
func (d *draft) halfRoundStock() {
	m := d.m
	d.say("form", "half-round")
	d.set("size", m.of(size))
	long := m.longestOver(1)
	if with := m.with("length"); with != nil && (long == nil || with.value >= long.value) {
		long = with
	}
	d.set("length", long)
	var sides []*quantity
	for _, q := range m.unused() {
		if q.measure == length || q.measure == bare || q.measure == gauge {
			sides = append(sides, q)
		}
	}
	if len(sides) == 1 && !d.has("size") && !d.has("thickness") { // "4 mm half round" is named by its width
		sides[0].used, sides[0].option = true, "size"
		d.lowAsHalf(thicknessOf(sides[0]))
		return
	}
	if d.has("size") || len(sides) != 2 {
		return
	}
	sides[0].used, sides[1].used = true, true
	a, b := thicknessOf(sides[0]), thicknessOf(sides[1])
	d.say("size", plain(max(a, b))+"x"+plain(min(a, b)))
}

// lowAsHalf takes half-round wire that is named by its width for half a round wire.
func (d *draft) lowAsHalf(wide float64) {
	d.say("size", plain(wide)+"x"+plain(wide/2))
	d.note("half-round %s wide is taken as %s high, half of a round wire; say its height if yours is flatter", mm(wide), mm(wide/2))
}

// longSquare reports whether a square section is told with a length that is far longer:
// "1.2 m of 3 mm square bar".
func (m *message) longSquare() bool {
	const far = 8
	all := m.lengths()
	return m.has("outline:square") && len(all) == 2 && max(all[0].value, all[1].value) >= far*min(all[0].value, all[1].value)
}

// flattestDisc is the least thickness of a disc in diameters that "3 x 0.5" is not taken
// for; a blank is thinner. Common practice, no source.
const flattestDisc = 0.25

// diameterByThickness takes the two sides of "a disc 22 by 1.2".
func (d *draft) diameterByThickness() {
	q := d.m.of(size)
	if q == nil || d.has("size") || len(q.sides) != 2 || q.sides[1] > flattestDisc*q.sides[0] {
		return
	}
	q.used = true
	d.say("size", plain(q.sides[0]))
	d.say("thickness", plain(q.sides[1])+" mm")
}

// discStock takes a disc by its diameter and thickness.
func (d *draft) discStock() {
	d.say("form", "disc")
	d.set("size", d.m.with("diameter", "width"))
	d.diameterByThickness()
	d.gaugeInLetters()
	d.thickness(1.9)
	if !d.has("thickness") {
		d.set("thickness", d.m.with("height", "depth"))
	}
	if !d.has("size") {
		d.set("size", d.m.first(2, 500, length, bare))
	}
}

// rodWords name long round stock besides wire.
var rodWords = []string{"rod", "rods", "spool", "coil"}

// rodBySize takes a rod whose thickness and length are joined: "rod 8 mm x 100".
func (d *draft) rodBySize() bool {
	q := d.m.of(size)
	const longer = 15 // times as long as thick, so that it is no flat wire
	if q == nil || len(q.sides) != 2 || d.m.has("profile:half-round") || !d.m.says(rodWords...) && max(q.sides[0], q.sides[1]) < longer*min(q.sides[0], q.sides[1]) {
		return false
	}
	q.used = true
	d.say("form", "wire")
	if d.m.has("squarewire") || d.m.has("outline:square") {
		d.say("form", "square-wire")
	}
	d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
	d.say("length", plain(max(q.sides[0], q.sides[1])))
	return true
}

// wireUnnamed reports whether a thickness and a length many times as long are all that
// is told of a piece: "1 foot of 14 gauge sterling".
func (m *message) wireUnnamed() bool {
	if m.has("stone", "disc", "sheet", "tube") || m.says("strip", "ingot", "bar", "washer", "hole", "each side", "a side") || m.of(size) != nil || len(m.alloys) == 0 {
		return false
	}
	var all []*quantity
	for _, q := range m.found {
		switch {
		case q.used: // the number of pieces
		case q.measure == length, q.measure == bare, q.measure == gauge:
			if q.role == "width" || q.role == "height" {
				return false
			}
			all = append(all, q)
		}
	}
	if len(all) != 2 {
		return false
	}
	thin, long := all[0], all[1]
	if thicknessOf(thin) > thicknessOf(long) {
		thin, long = long, thin
	}
	if m.has("outline:square") && m.at(thin.next).text != "square" {
		return false // a square of sheet
	}
	return long.measure != gauge && (thin.measure == gauge || thin.unit || m.has("outline:square", "squarewire")) && thicknessOf(thin) <= 8 && thicknessOf(long) >= 10*thicknessOf(thin)
}

// stripWeighed reports whether a strip is given by its length, height and thickness.
func (m *message) stripWeighed() bool {
	if section, long := m.sectionAndLength(); m.says("strip", "flat", "flat stock", "bar") && section != nil && long != nil {
		return true
	}
	return m.says("bezel wire", "bezel strip", "strip") && m.longestOver(60) != nil && m.with("height", "width") != nil
}

// sectionAndLength are the two sides of a strip's section and its length, "6 x 1.2, 60 long";
// nil where one is missing or another figure is in doubt.
func (m *message) sectionAndLength() (section, long *quantity) {
	for _, q := range m.found {
		switch {
		case q.measure == size && len(q.sides) == 2 && slices.Min(q.sides) <= mostStripMM && section == nil:
			section = q
		case (q.measure == length || q.measure == bare) && q.other == nil && q.role == "length" && long == nil:
			long = q
		case q.measure == count:
		default:
			return nil, nil
		}
	}
	if section == nil || long == nil || long.value < slices.Max(section.sides) {
		return nil, nil
	}
	return section, long
}

// mostStripMM is the thickest flat strip whose section is told by two sides.
const mostStripMM = 4

// stripStock takes a strip as the sheet it is.
func (d *draft) stripStock() {
	if section, long := d.m.sectionAndLength(); section != nil && long != nil {
		section.used, long.used = true, true
		d.say("form", "sheet")
		d.say("size", plain(long.value)+"x"+plain(slices.Max(section.sides)))
		d.say("thickness", plain(slices.Min(section.sides))+" mm")
		return
	}
	long, high := d.m.longestOver(60), d.m.with("height", "width")
	long.used, high.used = true, true
	d.say("form", "sheet")
	d.say("size", plain(long.value)+"x"+plain(high.value))
	d.thickness(1.9)
}

// longRound reports whether a round piece is given by its thickness and a length
// many times as long: "1 metre of 1.5 mm round".
func (m *message) longRound() bool {
	if !m.has("outline:round") || m.has("stone", "disc") {
		return false
	}
	var all []float64
	for _, q := range m.found {
		if q.measure == length || q.measure == bare || q.measure == gauge {
			all = append(all, thicknessOf(q))
		}
	}
	return len(all) == 2 && min(all[0], all[1]) <= 8 && max(all[0], all[1]) >= 15*min(all[0], all[1])
}

// lengthOfMass is the question the other way round: how long is an ounce of this
// wire? Length = mass / (density x section).
func (m *message) lengthOfMass() (Reading, bool) {
	m.gramsBesideGauge()
	q, t, a := m.of(mass), m.of(gauge), m.metal()
	if t == nil {
		t = m.with("thickness")
	}
	m.lengthOfThin()
	if q == nil || m.with("length") != nil || !m.says("how long", "how many", "what length", "length", "how much", "how big", "how far", "gives me", "will that make") {
		return Reading{}, false
	}
	if t == nil {
		t = m.first(0.1, 8, length, bare)
	}
	if t == nil || a == nil || a.likeliestKey() == "" {
		return Reading{}, false
	}
	d := thicknessOf(t)
	section, shape := math.Pi*d*d/4, "round"
	if m.has("squarewire", "outline:square") {
		section, shape = d*d, "square"
	}
	alloy := alloyOf(a.likeliestKey())
	mm := q.value / (alloy.DensityGPerCM3 / 1000) / section
	q.used, t.used, a.used = true, true, true
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	if !m.has("wire", "squarewire") && !m.says(rodWords...) && !m.says("how long", "what length", "how many feet", "how many metres", "how many meters", "how many inches", "how many cm", "how many mm", "bar", "draw") {
		return m.sheetTold(q, alloy.Name, alloy.DensityGPerCM3, d, "")
	}
	return Reading{Outcome: Explanation, Topic: "length of a mass", Source: "mass = density x section x length",
		Text: fmt.Sprintf("%s of %s wire of %.2f mm, %s, is %s, at %.2f g/cm³.", strings.TrimSpace(q.typed(m)), shape, d, alloy.Name, longWire(mm), alloy.DensityGPerCM3)}, true
}

// sheetTold tells how large a sheet is that a mass makes.
func (m *message) sheetTold(q *quantity, name string, density, thick float64, named string) (Reading, bool) {
	area := q.value / (density / 1000) / thick
	return worked("sheet of a mass", "mass = density x thickness x area",
		fmt.Sprintf("%s of %s at %.2f mm is %.1f cm² of sheet (%.2f in²), such as %.0f x 50 mm or a square of %.0f mm, at %.2f g/cm³.%s Rolled edges are trimmed, so reckon with a tenth less.", strings.TrimSpace(q.typed(m)), name, thick, area/100, area/units.MMPerInch/units.MMPerInch, area/50, math.Sqrt(area), density, named))
}

// sheetOfMass is how large a sheet is that scrap makes: "got 20 g of silver scrap, how big a
// piece of 1 mm sheet is that?" Without a metal it is sterling.
func (m *message) sheetOfMass() (Reading, bool) {
	q, key, named := m.of(mass), "sterling", ""
	switch a := m.metal(); {
	case a != nil:
		key = a.likeliestKey()
	case !m.says("scrap", "ingot", "roll", "rolled", "rolling"):
		return Reading{}, false
	default:
		named = " You named no metal, so sterling is taken."
	}
	if q == nil || key == "" || len(m.alloys) > 1 || !m.says("sheet", "plate", "roll") || m.says("how long", "strip", "wide", "wire") || !m.says("how big", "how much", "how large", "what size", "wot size", "how many square", "what area", "how far") {
		return Reading{}, false
	}
	thick := m.of(gauge)
	for _, other := range m.found {
		if (other.measure == length || other.measure == bare) && other.value <= thickest && thick == nil {
			thick = other
		}
	}
	if thick == nil || len(m.found) != 2 {
		return Reading{}, false
	}
	alloy := alloyOf(key)
	return m.sheetTold(q, alloy.Name, alloy.DensityGPerCM3, thicknessOf(thick), named)
}

// lengthOfThin takes the only length of a message, if it is no longer than wire is thick, for
// that: "what length of 2 mm round wire is 25 g".
func (m *message) lengthOfThin() {
	const thickestWire = 8
	if q := m.with("length"); q != nil && q.value <= thickestWire && m.of(gauge) == nil && len(m.found) == 2 {
		q.role = ""
	}
}

// bangleWeighed reads a bangle of round stock whose weight is asked for as the bangle that it
// is: its answer has the mass.
func (m *message) bangleWeighed() (Reading, bool) {
	const least, most = 20, 95
	hoop := m.cues["hoop"] > 0
	var inside *quantity
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare) && q.value >= least && q.value <= most {
			inside = q
		}
	}
	if inside == nil || !hoop && !m.says("bangle", "bangles") || m.of(size) != nil || !m.has("wire", "outline:round", "profile:half-round", "squarewire", "outline:square") && m.with("thickness") == nil {
		return Reading{}, false
	}
	if m.with("length", "width") != nil && m.with("length", "width") != inside || m.says("long", "strip", "pattern") {
		return Reading{}, false
	}
	m.release()
	m.bindRoles()
	read := (*message).bangle
	if hoop {
		read = (*message).hoop
	}
	r, ok := read(m)
	return r, ok && r.Outcome == Request && r.Options["bangle"] != ""
}

// settingWeighed reads a setting of a stone whose weight is asked for as the setting: its
// answer has the mass.
func (m *message) settingWeighed() (Reading, bool) {
	if !m.says("collet", "collets", "tapered setting") || m.says("blank", "disc") {
		return Reading{}, false
	}
	m.release()
	r := m.collet("collet")
	return r, r.Outcome == Request
}

// longWire is a wire's length as one measures it: in mm up to a metre.
func longWire(mm float64) string {
	if mm < 1000 {
		return fmt.Sprintf("%.0f mm long (%.1f in)", mm, mm/units.MMPerInch)
	}
	return fmt.Sprintf("%.2f m long (%.1f ft)", mm/1000, mm/304.8)
}

// wireOfMass is how long the wire is that a mass makes, where that is asked in so many
// words.
func (m *message) wireOfMass() (Reading, bool) {
	if !m.says("draw", "draw to", "draw down", "wire", "round") || !m.says("how many inches", "how many feet", "how many metres", "how many meters", "how many cm", "how long", "what length") {
		return Reading{}, false
	}
	return m.lengthOfMass()
}

// stripOfMass is how long a strip of a width and a thickness is that a mass makes.
func (m *message) stripOfMass() (Reading, bool) {
	q, key, named := m.of(mass), "sterling", ""
	a := m.metal()
	switch {
	case a != nil:
		key = a.likeliestKey()
	case !m.says("scrap", "melt", "ingot", "roll", "rolled"):
		return Reading{}, false
	default:
		named = " You named no metal, so sterling is taken."
	}
	if q == nil || key == "" || m.with("length") != nil || !m.says("how long", "how far", "what length", "how many inches", "how many cm", "how many mm") || !m.says("strip", "bezel wire", "ribbon", "sheet", "roll", "rolled", "wide") {
		return Reading{}, false
	}
	wide, thick, ok := m.stripSides()
	if !ok {
		return Reading{}, false
	}
	q.used = true
	if a != nil {
		a.used = true
	}
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	alloy := alloyOf(key)
	long := q.value / (alloy.DensityGPerCM3 / 1000) / (wide * thick)
	return worked("length of a mass", "mass = density x section x length",
		fmt.Sprintf("%s of %s as a strip %.2f mm wide and %.2f mm thick is %.0f mm long (%.1f in), at %.2f g/cm³.%s", strings.TrimSpace(q.typed(m)), alloy.Name, wide, thick, long, long/units.MMPerInch, alloy.DensityGPerCM3, named))
}

// stripSides takes the width and the thickness of a strip, in mm.
func (m *message) stripSides() (wide, thick float64, ok bool) {
	if s := m.of(size); s != nil {
		if len(s.sides) != 2 {
			return 0, 0, false
		}
		s.used = true
		return max(s.sides[0], s.sides[1]), min(s.sides[0], s.sides[1]), true
	}
	w, t := m.with("width", "height"), m.with("thickness")
	if t == nil {
		t = m.of(gauge)
	}
	if w == nil || t == nil {
		var both []*quantity
		for _, q := range m.found {
			if q.measure == length || q.measure == bare || q.measure == gauge {
				both = append(both, q)
			}
		}
		if len(both) != 2 {
			return 0, 0, false
		}
		w, t = both[0], both[1]
		if thicknessOf(w) < thicknessOf(t) {
			w, t = t, w
		}
	}
	w.used, t.used = true, true
	return w.value, thicknessOf(t), true
}

// gramsBesideGauge reads the second of two gauges as grams, where it has the letter of
// both and a length is sought: "18ga ... 31 g, how many feet".
func (m *message) gramsBesideGauge() {
	var gauges []*quantity
	for _, q := range m.found {
		if q.measure == gauge {
			gauges = append(gauges, q)
		}
	}
	if m.of(mass) != nil || !m.says("how long", "what length", "how many feet", "how many metres", "how many meters", "how much wire") {
		return
	}
	if len(gauges) == 1 && len(m.found) == 2 && m.at(gauges[0].next-1).text == "g" && m.first(0.1, 8, length) != nil {
		q := gauges[0]
		q.measure, q.role, q.shown = mass, "", plain(q.value)+" g"
		return
	}
	if len(gauges) != 2 {
		return
	}
	for i, q := range gauges {
		other := gauges[1-i]
		if m.at(q.next-1).text == "g" && m.at(other.next-1).text != "g" {
			q.measure, q.role, q.shown = mass, "", plain(q.value)+" g"
			return
		}
	}
}

func (d *draft) needMeasures() {
	switch d.options["form"] {
	case "wire", "square-wire":
		if !d.has("length") {
			d.question("length", "How long is the wire, in mm?", d.with("100 mm", "length", "100"), d.with("1 foot", "length", "304.8"), d.with("1 m", "length", "1000"))
		}
	case "sheet", "disc":
		if !d.has("size") {
			d.question("size", "How large is the piece, in mm?", d.with("50 x 50 mm", "size", "50x50"), d.with("100 x 50 mm", "size", "100x50"))
		}
	}
}

func (d *draft) wireStock() {
	m := d.m
	d.say("form", "wire")
	if m.has("squarewire") || m.has("outline:square") && !m.has("stone") {
		d.say("form", "square-wire")
	}
	d.set("length", m.with("length"))
	switch {
	case m.of(gauge) != nil:
		d.set("thickness", m.of(gauge))
	case m.with("thickness", "diameter") != nil:
		d.set("thickness", m.with("thickness", "diameter"))
	}
	var free []*quantity
	for _, q := range m.found {
		if !q.used && q.role == "" && (q.measure == length || q.measure == bare) {
			free = append(free, q)
		}
	}
	for _, q := range free {
		switch {
		case !d.has("thickness") && (q.value <= 6 || len(free) > 1 && q == smallest(free)):
			d.set("thickness", q)
		case !d.has("length"):
			d.set("length", q)
		}
	}
}

func smallest(all []*quantity) *quantity {
	least := all[0]
	for _, q := range all {
		if q.value < least.value {
			least = q
		}
	}
	return least
}

func (d *draft) tubeStock() {
	m := d.m
	d.say("form", "tube")
	outer, wall := d.tube()
	long := m.with("length", "height")
	if long == nil {
		long = m.first(5, 100000, length, bare)
	}
	if outer > 0 && wall > 0 {
		d.say("size", plain(outer)+"x"+plain(wall))
	} else if q := m.of(size); q != nil {
		d.set("size", q)
		if len(q.sides) == 3 {
			return
		}
	}
	d.set("length", long)
}

// tube takes a tube's outer diameter and wall, in mm: by their words, from outer
// and inner diameter, or as "10 x 1". Zeros where they are not all there.
func (d *draft) tube() (outer, wall float64) {
	m := d.m
	o, in, w := m.with("outer", "diameter"), m.with("inner"), m.with("wall", "thickness")
	if w == nil {
		w = m.of(gauge)
	}
	if o == nil {
		for _, s := range m.senses { // "10 mm tube", "tube 8 mm"
			if !contains(s.Means, "tube") {
				continue
			}
			for _, q := range m.found {
				if !q.used && q.role == "" && (q.measure == length || q.measure == bare) && (q.next == s.first || q.first == s.next) {
					o = q
				}
			}
		}
	}
	if o != nil && w == nil && in == nil {
		w = m.first(0.1, 3, length, bare)
		if w == o {
			w = nil
		}
	}
	switch {
	case o != nil && w != nil && w.role == "" && w.measure != gauge && plainMM(o) && plainMM(w) && w.value < o.value && w.value > 0.4*o.value && m.saysOneBetween(max(0, w.first-4), min(len(m.tokens), w.next+3), "hole", "bore", "inside", "in", "id", "inner"):
		o.used, w.used = true, true
		t := tubeOfSides(o.value, w.value)
		return t.OuterMM, t.WallMM
	case o != nil && w != nil:
		o.used, w.used = true, true
		if thick := thicknessOf(w); o.measure == bare && o.value <= 2*thick && o.value < 2 {
			return o.value * 25.4, thick // ".375 OD x .032": inches both
		}
		return o.value, thicknessOf(w)
	case o != nil && in != nil && in.value < o.value:
		o.used, in.used = true, true
		return o.value, (o.value - in.value) / 2
	case in != nil && w != nil:
		in.used, w.used = true, true
		return in.value + 2*thicknessOf(w), thicknessOf(w)
	}
	return 0, 0
}

func (d *draft) sheetStock() bool {
	m := d.m
	d.say("form", "sheet")
	q := m.of(size)
	if one := m.first(3, 1000, length, bare); q == nil && one != nil && (contains(m.meaning("outline:"), "square") || m.says("each side", "a side")) {
		one.used = true
		d.say("size", plain(one.value)+"x"+plain(one.value))
		d.thickness(3)
		return true
	}
	if q == nil {
		long, wide := m.with("length"), m.with("width")
		if long == nil || wide == nil {
			if !m.has("sheet") {
				return false
			}
			d.thickness(1.9)
			return true
		}
		long.used, wide.used = true, true
		d.say("size", plain(long.value)+"x"+plain(wide.value))
		d.thickness(3)
		return true
	}
	if len(q.sides) == 3 {
		q.used = true
		least := min(q.sides[0], q.sides[1], q.sides[2])
		var rest []string
		for _, s := range q.sides {
			if s == least && !d.has("thickness") {
				d.say("thickness", plain(s)+" mm")
				continue
			}
			rest = append(rest, plain(s))
		}
		if len(rest) > 2 {
			rest = rest[:2]
		}
		d.say("size", strings.Join(rest, "x"))
		return true
	}
	d.set("size", q)
	d.gaugeInLetters()
	d.thickness(3)
	return true
}

// match reads the question the other way round: which stones does this metal
// serve?
func (m *message) match() (Reading, bool) {
	d := m.draft("match")
	d.places = []place{{"thickness", "thickness of the metal", 0.1, 3}, {"lean", "lean of the wall", 0, 45}}
	if o := m.meaning("outline:"); len(o) > 0 {
		d.say("outline", o[0])
	}
	if !d.metalToMatch() {
		return Reading{}, false
	}
	d.roundHole()
	d.angles()
	d.workedWithLikely()
	if !d.has("thickness") {
		d.thickness(3)
	}
	d.alloy("alloy", false)
	for _, q := range m.unused() { // the stone there is, or the number of a hole
		if q.measure == length || q.measure == bare || q.measure == size {
			q.used = true
			d.note("compare your %s with the sizes in the answer", strings.TrimSpace(q.typed(m)))
		}
	}
	return d.reading(), true
}

// roundHole takes a hole of one measure for a round one, where no outline was named.
func (d *draft) roundHole() {
	if hole := d.options["hole"]; hole != "" && !strings.Contains(hole, "x") && !d.has("outline") {
		d.say("outline", "round")
		d.note("one measure only, so the hole is taken as round")
	}
}

// sizedHole is a length right before the word hole: "the 8 mm hole".
func (m *message) sizedHole() *quantity {
	for _, q := range m.found {
		hole := m.at(q.next).text == "hole" || m.at(q.next).text == "block" && m.at(q.next+1).text == "hole"
		if !q.used && (q.measure == length || q.measure == bare && q.unit) && hole {
			return q
		}
	}
	return nil
}

// needWax asks for the wax of a casting.
func (d *draft) needWax() {
	d.question("wax", "What does the wax weigh with its sprue, in grams?", d.with("3 g", "wax", "3 g"), d.with("5 g", "wax", "5 g"))
}

// melt reads metal for a casting: from a wax, or from a model in another metal.
func (m *message) melt() (Reading, bool) {
	d := m.draft("melt")
	d.places = []place{{"wax", "mass of the wax", 0, 0}}
	if m.has("dip") {
		return m.dipped()
	}
	if m.asksForWax() {
		return m.whichWax(d), true
	}
	if r, ok := m.fineContent(); ok {
		return r, true
	}
	if r, ok := d.waxTree(); ok {
		return r, true
	}
	if d.finishedSize() {
		return d.reading(), true
	}
	if r, ok := d.castFromModel(); ok {
		return r, true
	}
	d.sprueAndButton()
	q := m.massOfWax()
	if q == nil && d.has("wax") {
		d.alloy("alloy", true)
		return d.reading(), true
	}
	if q == nil {
		q = m.first(0.05, 2000, bare)
	}
	if q == nil {
		if m.has("shrink") || m.says("bigger", "oversize", "allow") {
			return m.shrinkage(d)
		}
		if m.cues["melt"] < 2 {
			return Reading{}, false
		}
		d.alloy("alloy", true)
		d.needWax()
		return d.reading(), true
	}
	if q.measure == bare {
		q.shown += " g"
	}
	metals := m.alloys
	if role, chance := m.likelyRole("melt", q); role == "model" && chance >= likelyRole && len(metals) >= 2 {
		d.modelAndMetals(q)
		return d.reading(), true // "a brass model of 7 g, its sprue 3 g of wax"
	}
	if m.has("wax") || m.has("resin") || q == m.likeliestWax() && len(metals) < 2 {
		return d.waxOfMass(q), true
	}
	if len(metals) >= 2 {
		d.modelAndMetals(q)
		return d.reading(), true
	}
	if len(metals) == 1 && m.chance("melt") >= plainly {
		return d.waxOrModel(q), true
	}
	return Reading{}, false
}

// densities reads "1.12 g/cm³" as a figure of no measure: it is no mass.
func (m *message) densities() {
	for _, q := range slices.Clone(m.found) { // the 3 of cm3 is taken out
		per := m.at(q.next + 1).text
		if q.measure != mass || m.at(q.next).text != "-" || !m.at(q.next).glued || per != "cm" && per != "cc" && per != "ml" {
			continue
		}
		end := q.next + 2
		if m.at(end).text == "3" && m.at(end).glued { // "g/cm3"
			m.found = slices.DeleteFunc(m.found, func(other *quantity) bool { return other.first == end })
			end++
		}
		q.measure, q.value, q.shown, q.next = bare, m.at(q.first).value, m.at(q.first).shown, end
		for k := q.first; k < end; k++ {
			m.taken[k] = true
		}
	}
}

// atHandWords tell that a mass is of the metal that there is.
var atHandWords = []string{"enough", "plenty", "will it do", "suffice", "scrap", "offcuts", "at hand", "in stock", "left over", "all up"}

// waxOfMass takes the mass of a wax or of a printed resin, with its density.
func (d *draft) waxOfMass(q *quantity) Reading {
	m := d.m
	d.set("wax", q)
	d.spruedWax(q)
	var have *quantity
	for _, left := range m.unused() { // what is at hand of the metal
		if left.measure == mass && left.role != ownResult && (m.says("enough", "plenty", "will it do", "suffice") || left.value > q.value && m.isIdle("melt", left)) {
			left.used, have = true, left
			d.note("compare the metal to melt with your %s", strings.TrimSpace(left.typed(m)))
		}
	}
	d.limit()
	if q := m.densityOfWax(); q != nil {
		q.used = true
		d.say("wax-density", plain(q.value))
	} else if m.says("=pla") {
		d.say("wax-density", "1.24")
		d.note("PLA is taken as 1.24 g/cm³ (its makers' sheets, from memory); a print that is hollow inside weighs too little for this, so weigh one that is printed full")
	} else if (m.has("resin") || m.says("plastic") && m.says("print", "printed")) && (!m.has("wax") || m.says("print", "printed", "not wax", "not in wax")) {
		d.say("wax-density", "1.1")
		d.note("a printing resin is taken as 1.1 g/cm³ (common practice, no source); your resin's sheet says more exactly")
	}
	d.alloy("alloy", true)
	r := d.reading()
	if r.Outcome == Request && have != nil && m.says(atHandWords...) && r.Options["alloy"] != "" {
		density := casting.WaxDensityGPerCM3
		if told := parse(r.Options["wax-density"]); told > 0 {
			density = told
		}
		r.Verdict = enoughFor(casting.MetalG(q.value, density, alloyOf(r.Options["alloy"]).DensityGPerCM3), have.value)
	}
	return r
}

// densityOfWax is a wax's or a resin's density: behind its word, or the
// only figure that can be one where a density is spoken of.
func (m *message) densityOfWax() (only *quantity) {
	const least, most = 0.7, 2.5
	if q := m.behindWord("density", "gravity", "sg"); q != nil && q.value > least && q.value < most {
		return q
	}
	for _, q := range m.found {
		if q.used || q.measure != bare || q.value <= least || q.value >= most || q.value == math.Trunc(q.value) || !m.says("density", "specific gravity") {
			continue
		}
		if only != nil {
			return nil
		}
		only = q
	}
	return only
}

// isIdle reports whether a figure most likely is given for no option of a request.
func (m *message) isIdle(request string, q *quantity) bool {
	role, _ := m.rolesOf(request, q).Best()
	return contains(nowhere, role)
}

// weighedModel is what a model in metal weighs, behind its word and that of its metal: "a
// brass master thats 11.4g".
func (m *message) weighedModel() (of *metal, grams *quantity) {
	const near = 4
	for _, a := range m.alloys {
		if !contains([]string{"master", "pattern", "model", "original"}, m.at(a.next).text) {
			continue
		}
		for _, q := range m.found {
			if (q.measure == mass || q.measure == bare) && q.first > a.next && q.first-a.next <= near && m.saysOneBetween(a.next, q.first, "weighs", "thats", "is", "at", "of", "that", "weighing", "comes") {
				return a, q
			}
		}
	}
	return nil, nil
}

// castFromModel takes a model that was weighed in its metal, and the metal to cast.
func (d *draft) castFromModel() (Reading, bool) {
	m := d.m
	from, grams := m.weighedModel()
	if from == nil || len(m.alloys) != 2 || from.likeliestKey() == "" {
		return Reading{}, false
	}
	if grams.measure == bare {
		grams.shown += " g"
	}
	d.set("model", grams)
	d.say("from", from.likeliestKey())
	from.used = true
	d.alloy("alloy", false)
	var have *quantity
	for _, q := range m.unused() {
		if q.measure == mass && q.role != ownResult {
			q.used, have = true, q
			d.note("compare the metal to melt with your %s", strings.TrimSpace(q.typed(m)))
		}
	}
	r := d.reading()
	if r.Outcome == Request && have != nil && m.says("enough", "plenty", "suffice", "will it do", "will that do") {
		r.Verdict = enoughFor(casting.MetalG(grams.value, alloyOf(d.options["from"]).DensityGPerCM3, alloyOf(d.options["alloy"]).DensityGPerCM3), have.value)
	}
	return r, true
}

// usualButton is the share of the casting that is melted on top; common practice, no
// source.
const usualButton = 0.2

// enoughFor says whether metal at hand serves for a casting, both in grams.
func enoughFor(cast, have float64) string {
	switch {
	case have < cast:
		return fmt.Sprintf("No, not enough: the casting alone takes %.1f g, and your %.1f g is %.1f g short, without sprue and button.", cast, have, cast-have)
	case have < (1+usualButton)*cast:
		return fmt.Sprintf("Hardly: the casting takes %.1f g, and your %.1f g leaves only %.1f g for sprue and button; a fifth is usual.", cast, have, have-cast)
	}
	return fmt.Sprintf("Yes: the casting takes %.1f g, and your %.1f g leaves %.1f g for sprue and button.", cast, have, have-cast)
}

// waxOrModel asks what was weighed, where it is told in which metal it is cast and not
// what it is.
func (d *draft) waxOrModel(q *quantity) Reading {
	d.alloy("alloy", true)
	q.used = true
	grams := strings.TrimSpace(q.shown)
	d.question("", fmt.Sprintf("What weighs %s: a wax, or a model in metal?", strings.TrimSpace(q.typed(d.m))),
		d.with("a wax", "wax", grams), d.with("a silver model", "model", grams, "from", "sterling"), d.with("a brass model", "model", grams, "from", "brass"))
	return d.reading()
}

// finishedSize takes a size that the casting is to have and how much it shrinks: the
// size of the wax follows. Both must be told, and no mass.
func (d *draft) finishedSize() bool {
	m := d.m
	shrink := m.of(percent)
	if shrink == nil || m.of(mass) != nil || m.with("wax") != nil || !m.has("shrink") && !m.says("cad") || m.has("sprue") || shrink.value > 10 {
		return false
	}
	var sizes []*quantity
	for _, q := range m.found {
		switch q.measure {
		case size, length, bare:
			if q.value < 1 {
				return false // an allowance for filing, in mm
			}
			sizes = append(sizes, q)
		case percent:
			if q != shrink {
				return false // which shrinkage is which?
			}
		}
	}
	if len(sizes) != 1 || len(sizes[0].sides) > 2 {
		return false
	}
	d.set("size", sizes[0])
	d.set("shrink", shrink)
	d.alloy("alloy", true)
	return true
}

// leastButton is how many per cent of a casting its button has at least; less is what
// the casting shrinks by. Common practice, no source.
const leastButton = 4

// sprueAndButton takes the sprue and what is added for the button.
func (d *draft) sprueAndButton() {
	m := d.m
	for _, s := range m.senses {
		if !contains(s.Means, "sprue") {
			continue
		}
		for _, q := range m.found {
			if q.used || q.measure != mass && q.measure != percent && q.measure != bare || m.onlyMass(q) && q == m.likeliestWax() {
				continue // "wax bear with sprue is 26.5 g"
			}
			if q.next == s.first && m.at(q.first-1).text == "wax" && m.at(s.next).number {
				continue // "wax 2 g sprue 0.5 g"
			}
			if q.next == s.first || q.first-s.next >= 0 && q.first-s.next <= 2 && m.at(s.next).text != "." {
				d.button(q, m.at(s.first).text)
				break
			}
		}
	}
	for _, p := range m.found { // "add 30 percent"
		if p.measure == percent && !p.used && !d.has("button") && !m.has("shrink") && p.value <= 100 && (p.value >= leastButton || m.has("sprue")) {
			d.set("button", p)
		}
	}
}

// modelAndMetals takes a model's mass with the metal that it is of and the one that it
// is to be: "a silver casting of 8.2 g, what in 18k".
func (d *draft) modelAndMetals(q *quantity) {
	m, metals := d.m, d.m.alloys
	d.set("model", q)
	from, to := m.nearestMetal(q), (*metal)(nil)
	if model, target := m.modelMetal(), m.targetMetal(); model != nil {
		from = model
	} else if target != nil {
		from, to = nil, target
	}
	for _, a := range metals {
		if from == nil && a != to {
			from = a
		}
		if to == nil && a != from {
			to = a
		}
	}
	for _, pick := range []struct {
		option string
		a      *metal
	}{{"from", from}, {"alloy", to}} {
		for _, a := range metals {
			a.used = a != pick.a
		}
		d.alloy(pick.option, false)
	}
	for _, a := range metals {
		a.used = true
	}
}

// markedMetal is the one metal before which one of these words stands, and which a
// test of the words before that lets through. Nil where none or several are.
func (m *message) markedMetal(marks []string, lets func(mark int) bool) *metal {
	var found *metal
	for _, a := range m.alloys {
		i := a.first - 1
		for slices.Contains([]string{"a", "an", "the", "solid", "some", "it", "real"}, m.at(i).text) {
			i--
		}
		if !slices.Contains(marks, m.at(i).text) || !lets(i) {
			continue
		}
		if found != nil {
			return nil
		}
		found = a
	}
	return found
}

// modelWords name what is weighed in one metal, to be cast in another.
var modelWords = []string{"model", "models", "model's", "master", "original", "pattern"}

// ofModel reports whether a mark behind which a metal stands tells what the model is
// of: "model in pewter", "9.5 g in copper", "from brass".
func (m *message) ofModel(mark int) bool {
	tells := m.says("weighs", "weighed", "weighing")
	weighed := slices.ContainsFunc(m.found, func(q *quantity) bool {
		return (q.measure == mass || tells && q.measure == bare) && q.next == mark
	})
	const near = 3 // words: "brass model 4.1 g in 18k"
	ofOther := slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == mass && q.next == mark && slices.ContainsFunc(m.alloys, func(a *metal) bool { return a.next <= q.first && q.first-a.next <= near })
	})
	return m.at(mark).text == "from" || weighed && !ofOther || slices.Contains(modelWords, m.at(mark-1).text)
}

// modelMetal is the metal that the model is of, where a word before it tells.
func (m *message) modelMetal() *metal {
	return m.markedMetal([]string{"from", "in", "of"}, m.ofModel)
}

// targetMetal is the metal to cast in, where a word before it tells: "to sterling", "in
// gold", "need 18k white".
func (m *message) targetMetal() *metal {
	return m.markedMetal([]string{"to", "into", "in", "need", "want", "wanted", "becomes", "pour", "pouring"}, func(mark int) bool { return !m.ofModel(mark) })
}

// massOfWax is the first mass, or the figure beside the wax where several are told,
// also one without a unit: "is 40 g enough for a wax of 3.5".
func (m *message) massOfWax() *quantity {
	if q := m.likeliestWax(); q != nil && len(m.alloys) < 2 { // else it may be a model's sprue
		return q
	}
	if q := m.besideWax(mass); q != nil {
		return q
	}
	first := m.of(mass)
	if q := m.besideWax(bare); first != nil && q != nil {
		if m.at(q.next).text == "of" || m.at(q.next).text == "wax" {
			return q // "is 30 g of scrap enough for 2.2 of wax"
		}
		if role, _ := m.likelyRole("melt", q); role == "wax" {
			return q
		}
	}
	return first
}

// likeliestWax is the free figure that most likely is the wax's mass where a message
// surely asks for a casting, nil for none: what is at hand of the metal is told beside it.
func (m *message) likeliestWax() (wax *quantity) {
	if m.tooShort() || m.chance("melt") < certain {
		return nil
	}
	highest, waxes := perhapsRole, 0
	for _, q := range m.found {
		if q.used || q.measure != mass && q.measure != bare {
			continue
		}
		role, chance := m.likelyRole("melt", q)
		if role == "wax" && q.measure == mass {
			waxes++
		}
		if role == "wax" && chance > highest {
			wax, highest = q, chance
		}
	}
	if waxes > 1 { // each of several, or with a tree
		return nil
	}
	return wax
}

// besideWax is the figure of a measure beside the wax or the resin.
func (m *message) besideWax(kind measure) *quantity {
	for i := range m.senses {
		s := &m.senses[i]
		if !contains(s.Means, "wax") && !contains(s.Means, "resin") {
			continue
		}
		for _, q := range m.found {
			if q.measure != kind || q.used || q.role != "" {
				continue
			}
			if gap := q.first - s.next; gap >= 0 && gap <= 3 && m.saysBetween(s.next, q.first, "of", "is", "thats", "that", "weighs", "model", "ring", "its", "about", ",", "at") {
				return q
			}
			if gap := s.first - q.next; gap >= 0 && gap <= 1 && m.saysBetween(q.next, s.first, "of", "wax", "ring") {
				return q
			}
		}
	}
	return nil
}

// spruedWax takes the sprue off a wax that was weighed with it.
func (d *draft) spruedWax(wax *quantity) {
	sprue := d.m.quantityOf("sprue")
	if sprue == nil || sprue.value >= wax.value || !d.m.says("including", "incl", "includes", "with the sprue", "of which", "sprue on", "inc") {
		return
	}
	d.say("wax", plain(wax.value-sprue.value)+" g")
	d.note("the wax without its sprue is %s - %s g", plain(wax.value), plain(sprue.value))
}

// limit notes a mass that the casting should not pass, "not past 50 g", or that there
// is to melt.
func (d *draft) limit() {
	for _, q := range d.m.unused() {
		if q.measure == mass && q.role != ownResult && d.m.says("enough", "customer supplies", "i have", "ive got", "scrap", "do i have") {
			q.used = true
			d.note("compare the metal to melt with your %s", strings.TrimSpace(q.typed(d.m)))
			continue
		}
		if w := d.m.at(q.first - 1).text; q.measure == mass && q.role != ownResult && (w == "past" || w == "over" || w == "above" || w == "under" || w == "than") {
			q.used = true
			d.note("compare the mass with your %s", strings.TrimSpace(q.typed(d.m)))
		}
	}
}

// fineContent is how much pure gold is in a piece of karat gold.
func (m *message) fineContent() (Reading, bool) {
	q := m.of(mass)
	if q != nil && m.says("refiner", "refiners", "fine silver in", "pure silver in", "silver content", "actual silver") {
		return m.fineSilver(q)
	}
	if q == nil || !m.says("gold in", "gold is in", "pure gold", "fine gold in", "actual gold", "gold content", "gold would be in") {
		return Reading{}, false
	}
	for _, a := range m.alloys {
		k, _, isGold := strings.Cut(a.key, "k")
		if !isGold || !isDigits(k) {
			continue
		}
		part := parse(k) / 24
		return Reading{Outcome: Explanation, Topic: "fine content", Source: "karat = parts of 24 by mass",
			Text: fmt.Sprintf("%s of %s karat gold holds %.2f g of pure gold: %s parts in 24.", strings.TrimSpace(q.typed(m)), k, q.value*part, k)}, true
	}
	return Reading{}, false
}

// silverParts is the fine silver in alloys of it, by their names.
var silverParts = map[string]float64{"sterling": 0.925, "fine-silver": 1}

// fineSilver is how much fine silver a mass of an alloy holds.
func (m *message) fineSilver(q *quantity) (Reading, bool) {
	key := m.alloys[0].likeliestKey()
	part := silverParts[key]
	if part == 0 || len(m.alloys) > 1 {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "fine content", Source: "parts of 1000 by mass, as the mark says",
		Text: fmt.Sprintf("%s of %s holds %.2f g of fine silver, %.1f %% of it; file dust and solder in scrap make it a little less. What a refiner pays for that goes by the day's price and his charges, which I don't know: ask him.", strings.TrimSpace(q.typed(m)), alloyOf(key).Name, q.value*part, 100*part)}, true
}

// nearestMetal is the metal that stands nearest to a mass: what that mass is of.
func (m *message) nearestMetal(q *quantity) *metal {
	best, distance := m.alloys[0], 1<<30
	for _, a := range m.alloys {
		gap := max(a.first-q.next, q.first-a.next)
		if gap < distance {
			best, distance = a, gap
		}
	}
	return best
}

func (d *draft) button(q *quantity, word string) {
	if d.m.onlyMass(q) && d.m.says("wax with sprue", "wax with the sprue", "wax and sprue", "wax with its sprue", "wax plus sprue", "wax incl sprue", "wax including sprue", "wax including the sprue", "sprued wax", "wax with sprues") {
		d.set("wax", q)
		d.note("%s is taken as the wax together with its sprue", strings.TrimSpace(q.typed(d.m)))
		return
	}
	if strings.HasPrefix(word, "sprue") && q.measure != percent {
		d.set("sprue", q)
		return
	}
	d.set("button", q)
}

// behindWord is the free number right behind one of these words, but for "of" or "is".
func (m *message) behindWord(words ...string) *quantity {
	for _, q := range m.found {
		if q.used || q.measure != bare {
			continue
		}
		if contains(words, m.at(q.first-1).text) || contains([]string{"of", "is", "=", ":"}, m.at(q.first-1).text) && contains(words, m.at(q.first-2).text) {
			return q
		}
	}
	return nil
}

// onlyMass reports whether a message has no other mass than this one.
func (m *message) onlyMass(q *quantity) bool {
	return q.measure == mass && !slices.ContainsFunc(m.found, func(other *quantity) bool { return other != q && other.measure == mass })
}

// shrinkage answers how much larger a wax is made.
func (m *message) shrinkage(d *draft) (Reading, bool) {
	for _, q := range m.found {
		q.used = q.measure == ringSize
	}
	d.alloy("alloy", false)
	return Reading{Outcome: Explanation, Topic: "shrinkage", Source: "common practice, no source",
		Text: "Make a carved wax about 1 to 1.5 % larger than the finished piece, and one from a rubber mould 3 to 5 %: a casting shrinks by about 1 to 1.5 % as it sets, an injected wax and its mould by the rest. Leave another 2 to 3 % where you will file and polish. For a size of your own, give it with melt: melt wax 3 g sterling size 20."}, true
}

// dipped reads a wax shell dipped on a punch.
func (m *message) dipped() (Reading, bool) {
	d := m.draft("melt")
	d.places = []place{{"wall", "wall as cast", 0.2, 4}, {"height", "height", 1, 60}, {"tip", "width of the punch at its tip", 0.5, 50}, {"film", "thickness of one coat", 0.05, 1.5}}
	d.say("dip", "yes")
	d.set("size", m.of(size))
	d.set("wall", m.with("wall", "thickness"))
	d.set("height", m.with("height"))
	d.set("film", m.with("film"))
	if !d.has("wall") {
		d.set("wall", m.first(0.3, 2.5, length, bare))
	}
	if !d.has("size") {
		d.set("size", m.with("diameter"))
		if !d.has("size") {
			d.set("size", m.first(2, 100, length, bare))
		}
	}
	d.angles()
	d.alloy("alloy", false)
	if !d.has("height") && d.has("size") {
		d.question("height", "How high is the dipped setting, in mm?", d.with("5 mm", "height", "5"), d.with("6 mm", "height", "6"), d.with("7 mm", "height", "7"))
	}
	return d.reading(), true
}

// tune reads a measured trial.
func (m *message) tune() (Reading, bool) {
	d := m.draft("tune")
	d.places = []place{{"rimgot", "measured rim", 0.5, 100}, {"basegot", "measured base", 0.5, 100}, {"heightgot", "measured height", 0.5, 90}}
	var sizes []*quantity
	for _, q := range m.found {
		if q.measure == size && !q.used {
			sizes = append(sizes, q)
		}
	}
	if len(sizes) < 2 {
		return Reading{}, false
	}
	d.outline()
	for _, q := range sizes {
		switch place := m.trialPlace(q); place {
		case "rimgot", "basegot", "size":
			if !d.has(place) {
				d.set(place, q)
			}
		case "wanted":
			q.used = true
			d.note("the size that you wanted follows from the setting, so %s is not needed", q.typed(m))
		}
	}
	d.set("depth", m.with("depth"))
	d.set("heightgot", m.with("height"))
	d.thickness(2)
	d.alloy("alloy", false)
	if m.says("inside", "inner") {
		d.say("face", "inner")
	}
	if !d.has("size") || !d.has("outline") {
		d.needStone(false)
	}
	if !d.has("basegot") && d.ask == "" {
		d.question("basegot", "What did the base measure, length x width in mm?", d.with("the base as wide as the rim less 1.7 mm", "basegot", lessOf(d.options["rimgot"], 1.7)))
	}
	return d.reading(), true
}

func lessOf(size string, by float64) string {
	a, b, two := strings.Cut(size, "x")
	if !two {
		return plain(max(parse(size)-by, 0.5))
	}
	return plain(max(parse(a)-by, 0.5)) + "x" + plain(max(parse(b)-by, 0.5))
}

// trialPlace says what a size in a report of a trial is, by the words around it.
func (m *message) trialPlace(q *quantity) string {
	switch role, chance := m.likelyRole("tune", q); {
	case chance < trialRole:
	case role == "size" || role == "rimgot" || role == "basegot":
		return role
	case role == "rim" || role == "basesize":
		return "wanted"
	}
	around := " " + m.between(max(0, q.first-5), q.first) + " | " + m.between(q.next, min(len(m.tokens), q.next+4)) + " "
	behind := around[strings.Index(around, "|"):]
	before := around[:strings.Index(around, "|")+1]
	switch {
	case strings.Contains(before, "should be |") || strings.Contains(before, "wanted") && !strings.Contains(before, " rim ") || strings.Contains(before, "supposed to be"):
		return "wanted"
	case strings.Contains(before, "came out") || strings.Contains(before, "measured") || strings.Contains(before, "ended up") || strings.Contains(before, "turned out"):
		return "rimgot"
	case strings.Contains(behind, " rim ") || strings.Contains(behind, " top ") || strings.Contains(before, " rim "):
		return "rimgot"
	case strings.Contains(behind, " base ") || strings.Contains(behind, " bottom ") || strings.Contains(before, " base "):
		return "basegot"
	}
	for _, s := range m.senses {
		for _, means := range s.Means {
			if strings.HasPrefix(means, "outline:") && (s.next == q.first || s.first == q.next) {
				return "size"
			}
		}
	}
	return "size"
}
