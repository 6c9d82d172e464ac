package sentence

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"guildhand/calc/stone"
)

// measure is what a quantity measures, by its unit or by what is beside it.
type measure int

const (
	bare     measure = iota // no unit: 4
	length                  // mm
	size                    // two or three lengths joined by x
	gauge                   // B&S number
	angle                   // degrees
	percent                 //
	mass                    // grams
	carat                   // weight of a stone, ct
	ringSize                // text with its system
	temper                  // a temperature; °C
	force                   // newtons
	count                   // of what is counted, in thing
	volume                  // cubic centimetres
	money                   // a price
)

// quantity is a number of the message, or several joined by x, with its unit.
type quantity struct {
	measure measure
	// mm is the length, or the first of a size; for others the value in the
	// measure's unit.
	value float64
	sides []float64
	// shown is how the catalogue reads it: "4", "22ga", "5/16 in", "8x6".
	shown string
	// thing is what is counted: "makers", "prongs", "joints".
	thing string
	// system of a ring size: "us", "uk", "iso"; empty if none was named.
	system string
	// first and next bound the tokens that it takes.
	first, next int
	// unit tells that a unit was typed.
	unit bool
	// role is what it stands for, once known; and used tells that a reading has it.
	role string
	used bool
	// option is what a reading made of it; other is the far end of a range.
	option string
	other  *quantity
	// late tells that it is a number in words that no reader had a use for.
	late bool
	// noted tells that a note says what became of it, so that no model moves it.
	noted bool
	// mends tells that it stands in for a figure that was taken back: "no wait" takes back
	// one, though both words do.
	mends bool
}

// units that may follow a number. Angles and masses have factors to degrees and
// grams; lengths to mm.
type unitWord struct {
	measure measure
	factor  float64
	shown   string // after the number, in the catalogue's form
}

var unitWords = map[string]unitWord{
	"mm": {length, 1, ""}, "millimeter": {length, 1, ""}, "millimeters": {length, 1, ""}, "millimetre": {length, 1, ""}, "millimetres": {length, 1, ""}, "mms": {length, 1, ""}, "mill": {length, 1, ""}, "mil": {length, 1, ""}, "mils": {length, 1, ""},
	"cm": {length, 10, " cm"}, "centimeter": {length, 10, " cm"}, "centimetre": {length, 10, " cm"}, "centimeters": {length, 10, " cm"}, "centimetres": {length, 10, " cm"}, "cms": {length, 10, " cm"},
	"m": {length, 1000, ""}, "meter": {length, 1000, ""}, "metre": {length, 1000, ""}, "meters": {length, 1000, ""}, "metres": {length, 1000, ""},
	`"`: {length, 25.4, " in"}, "inch": {length, 25.4, " in"}, "inches": {length, 25.4, " in"}, "ins": {length, 25.4, " in"},
	"micron": {length, 0.001, ""}, "microns": {length, 0.001, ""},
	"thou": {length, 0.0254, ""}, "thousandths": {length, 0.0254, ""},
	"'": {length, 304.8, ""}, "ft": {length, 304.8, ""}, "foot": {length, 304.8, ""}, "feet": {length, 304.8, ""}, "yard": {length, 914.4, ""}, "yards": {length, 914.4, ""},
	"ga": {gauge, 1, "ga"}, "gauge": {gauge, 1, "ga"}, "gage": {gauge, 1, "ga"}, "guage": {gauge, 1, "ga"}, "gauges": {gauge, 1, "ga"}, "awg": {gauge, 1, "ga"}, "gge": {gauge, 1, "ga"}, "gaugue": {gauge, 1, "ga"},
	"°": {angle, 1, ""}, "deg": {angle, 1, ""}, "degs": {angle, 1, ""}, "degree": {angle, 1, ""}, "degrees": {angle, 1, ""}, "graus": {angle, 1, ""}, "grau": {angle, 1, ""}, "grados": {angle, 1, ""}, "gradi": {angle, 1, ""}, "grad": {angle, 1, ""}, "degrés": {angle, 1, ""},
	"%": {percent, 1, "%"}, "percent": {percent, 1, "%"}, "pct": {percent, 1, "%"},
	"gram": {mass, 1, "g"}, "grams": {mass, 1, "g"}, "gramme": {mass, 1, "g"}, "grammes": {mass, 1, "g"}, "gm": {mass, 1, "g"}, "gms": {mass, 1, "g"}, "grm": {mass, 1, "g"},
	"kg": {mass, 1000, "kg"}, "mg": {mass, 0.001, "mg"}, "dwt": {mass, 1.55517384, "dwt"}, "pennyweight": {mass, 1.55517384, "dwt"}, "pennyweights": {mass, 1.55517384, "dwt"}, "grains": {mass, 0.06479891, "grains"},
	"ozt": {mass, 31.1034768, "ozt"}, "toz": {mass, 31.1034768, "ozt"}, "oz": {mass, 31.1034768, "ozt"}, "ounce": {mass, 31.1034768, "ozt"}, "ounces": {mass, 31.1034768, "ozt"},
	"tola": {mass, 11.6638038, ""}, "tolas": {mass, 11.6638038, ""},
	"carat": {carat, 1, ""}, "carats": {carat, 1, ""}, "cts": {carat, 1, ""},
	"ton": {force, 8896.443230521, "ton"}, "tons": {force, 8896.443230521, "ton"}, "tonne": {force, 9806.65, "t"}, "tonnes": {force, 9806.65, "t"}, "t": {force, 9806.65, "t"}, "kn": {force, 1000, "kN"},
	"cc": {volume, 1, ""}, "ml": {volume, 1, ""}, "cm3": {volume, 1, ""},
	"celsius": {temper, 1, ""}, "c": {temper, 1, ""}, "fahrenheit": {temper, 1, ""}, "f": {temper, 1, ""},
}

// counted are things that a bare number may count, with the name that the
// frames know them by.
var counted = map[string]string{
	"student": "makers", "maker": "makers", "peopl": "makers", "person": "makers", "kid": "makers", "participant": "makers", "pupil": "makers", "beginn": "makers", "attende": "makers", "particip": "makers", "learner": "makers", "member": "makers", "ppl": "makers", "women": "makers", "adult": "makers", "folk": "makers", "teenag": "makers",
	"prong": "prongs", "claw": "prongs", "tip": "prongs", "decim": "decimals", "place": "decimals",
	"scallop": "repeats", "teeth": "repeats", "tooth": "repeats", "serrat": "repeats",
	"joint": "joints", "seam": "joints", "join": "joints",
	"piec": "pieces", "pc": "pieces", "pcs": "pieces", "off": "pieces", "blank": "pieces", "disc": "pieces", "disk": "pieces", "of": "",
	"coat": "coats", "dip": "coats", "layer": "coats", "hole": "holes", "time": "times", "pass": "times", "day": "days",
	"jump": "jump rings", "ring": "rings", "loop": "rings", "bezel": "settings", "set": "settings", "collet": "settings", "stone": "stones",
}

// quantities finds every number of the message, with its unit and what it
// counts. It marks the tokens that they take.
func (m *message) quantities() {
	for i := 0; i < len(m.tokens); i++ {
		if m.taken[i] {
			continue
		}
		if q, ok := m.ringSize(i); ok {
			m.add(q)
			i = q.next - 1
			continue
		}
		if q, ok := m.gaugeBefore(i); ok {
			m.add(q)
			i = q.next - 1
			continue
		}
		if q, ok := m.quantity(i); ok {
			m.add(q)
			i = q.next - 1
		}
	}
}

// timesASize reads "5x 1.7mm stones" as five of one size: the x is joined to the count
// and not to what follows, and a thing that is counted stands behind.
func (m *message) timesASize() {
	for _, q := range slices.Clone(m.found) {
		number, x, of := m.at(q.first), m.at(q.first+1), m.at(q.first+2)
		thing := counted[m.at(q.next).stem]
		if !strings.HasSuffix(m.at(q.next).text, "s") { // "an 8x 6mm stone"
			continue
		}
		if q.measure != size || len(q.sides) != 2 || !q.unit || number.value != math.Trunc(number.value) || x.text != "x" || !x.glued || !of.number || of.glued || thing == "" {
			continue
		}
		m.found = append(m.found, &quantity{measure: count, value: number.value, shown: number.shown, thing: thing, first: q.first, next: q.first + 2})
		q.measure, q.value, q.sides = length, q.sides[1], nil
		_, one, _ := strings.Cut(q.shown, "x")
		q.shown, q.first = strings.TrimSpace(one), q.first+2
		if of.value == q.value {
			q.shown += " mm"
		}
	}
}

func (m *message) add(q quantity) {
	for k := q.first; k < q.next; k++ {
		m.taken[k] = true
	}
	m.found = append(m.found, &q)
}

// numberAt returns the number at i, also one in words where a unit or a thing
// that is counted follows.
func (m *message) numberAt(i int) (value float64, shown string, next int, ok bool) {
	t := m.at(i)
	if v, next, ok := m.dozensAt(i); ok {
		return v, plain(v), next, true
	}
	if t.number {
		if f := m.at(i + 2); m.at(i+1).text == "and" && f.number && f.value < 1 && strings.Contains(f.text, "/") && t.value == math.Trunc(t.value) {
			return t.value + f.value, t.shown + " " + f.shown, i + 3, true // "2 and 3/4"
		}
		if part, after := m.andPart(i + 1); part > 0 && t.value == math.Trunc(t.value) {
			return t.value + part, plain(t.value + part), after, true // "5 and a half"
		}
		return t.value, t.shown, m.ofOneUnit(i+1, t.value), true
	}
	if v, shown, next, ok := m.sayingPartsOfInch(i); ok {
		return v, shown, next, true
	}
	if v, next, ok := m.spokenNumber(i); ok && m.meansNumber(i, next) && m.at(next).text != "dozen" {
		return v, plain(v), next, true
	}
	if v, is := numberWords[t.text]; is && v >= 2 && m.at(i-1).text == "of" && (m.at(i-2).stem == stemOf("class") || m.at(i-2).stem == stemOf("workshop") || m.at(i-2).stem == stemOf("group")) {
		return v, plain(v), i + 1, true
	}
	v, is := numberWords[t.text]
	if !is {
		return m.oneAt(i)
	}
	next = m.ofOneUnit(i+1, v)
	if (t.text == "half" || t.text == "quarter") && (m.at(next).text == "a" || m.at(next).text == "an" || m.at(next).text == "of") && unitLike(m.at(next+1).text) {
		next++
	}
	if t.text == "three" && strings.HasPrefix(m.at(next).text, "quarter") {
		v, next = 0.75, next+1
		if m.at(next).text == "of" {
			next++
		}
		if m.at(next).text == "an" || m.at(next).text == "a" {
			next++
		}
	}
	after := m.at(next)
	if !unitLike(after.text) && counted[after.stem] == "" && after.text != "troy" && after.text != "dozen" {
		return 0, "", i, false
	}
	if t.text == "half" && after.text == "in" || after.text == "m" || after.text == "a" || after.text == "dozen" && v == 1 {
		if after.text != "dozen" {
			return 0, "", i, false
		}
		v, next = 12, next+1
	}
	return v, plain(v), next, true
}

// ofOneUnit is behind "of an" where that comes between a part and its unit, "5/16 of an
// inch", "a quarter of an inch", and i else.
func (m *message) ofOneUnit(i int, part float64) int {
	article := m.at(i + 1).text
	if part < 1 && m.at(i).text == "of" && (article == "a" || article == "an") && unitLike(m.at(i+2).text) {
		return i + 2
	}
	return i
}

const dozen = 12

// dozensAt reads "two dozen", "2 dozen" and "half a dozen".
func (m *message) dozensAt(i int) (value float64, next int, ok bool) {
	t := m.at(i)
	v, next, spoken := m.spokenNumber(i)
	switch {
	case t.text == "half" && m.between(i+1, i+3) == "a dozen":
		return dozen / 2, i + 3, true
	case t.number && t.value >= 1 && t.value == math.Trunc(t.value) && m.at(i+1).text == "dozen":
		return dozen * t.value, i + 2, true
	case t.text == "a" && m.at(i+1).text == "dozen" && !m.at(i+2).word():
		return dozen, i + 2, true // "jump rings, a dozen"
	case spoken && v >= 2 && m.at(next).text == "dozen":
		return dozen * v, next + 1, true
	}
	return 0, i, false
}

// oneAt reads "a" and "per" before a unit as one: "a foot", "per inch", "a half inch".
func (m *message) oneAt(i int) (value float64, shown string, next int, ok bool) {
	t := m.at(i)
	if next := m.at(i + 1).text; t.text == "per" && (next == "foot" || next == "ft" || next == "meter" || next == "metre" || next == "inch") {
		return 1, "1", i + 1, true
	}
	if (t.text == "foot" || t.text == "inch") && !m.at(i-1).number && numberWords[m.at(i-1).text] == 0 {
		if part, _ := m.andPart(i + 1); part > 0 {
			return 1, "1", i, true // "foot and a half"
		}
	}
	if before := m.at(i - 2).text; m.at(i-1).text == "of" && (before == "thousandths" || before == "thou") {
		return 0, "", i, false // "65 thousandths of an inch"
	}
	if (t.text == "a" || t.text == "an") && (unitLike(m.at(i+1).text) && !m.at(i+1).capital && m.at(i+1).text != "m" && m.at(i+1).text != "gauge" || m.at(i+1).text == "dozen" || m.at(i+1).text == "half" || m.at(i+1).text == "quarter" || m.at(i+1).text == "troy") {
		if inner, shown, next, ok := m.numberAt(i + 1); ok {
			return inner, shown, next, true
		}
		if w := m.at(i + 1).text; w == "half" || w == "quarter" {
			return 0, "", i, false // "a half bead"
		}
		return 1, "1", i + 1, true
	}
	return 0, "", i, false
}

// partsOfInch are the words of the bench's fractions.
var partsOfInch = map[string]float64{"quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}

// partsOfUnit are the words for parts of other units.
var partsOfUnit = map[string]float64{"third": 3, "thirds": 3, "fifth": 5, "fifths": 5, "tenth": 10, "tenths": 10, "twelfth": 12, "twelfths": 12, "twentieth": 20, "hundredth": 100, "hundredths": 100}

// sayingPartsOfInch reads "three sixteenths" and "three sixteenths of an inch".
func (m *message) sayingPartsOfInch(i int) (value float64, shown string, next int, ok bool) {
	v, parts := numberWords[m.at(i).text], partsOfInch[m.at(i+1).text]
	if v == 3 && m.at(i+1).text == "quarter" { // "three quarter by half inch"
		parts = 4
	}
	if m.at(i).text == "a" || m.at(i).text == "an" {
		v = 1
	}
	if of := m.between(i+2, i+4); parts == 0 && v >= 1 && (of == "of an" || of == "of a") && unitLike(m.at(i+4).text) {
		if parts = partsOfUnit[m.at(i+1).text]; parts > v { // "a tenth of an ounce"
			return v / parts, plain(v / parts), i + 4, true
		}
	}
	if parts == 0 || v < 1 || v >= parts {
		return 0, "", i, false
	}
	next = i + 2
	if m.between(next, next+2) == "of an" {
		next += 2
	}
	if parts == 4 {
		return v / parts, plain(v / parts), next, true
	}
	return v / parts, plain(v) + "/" + plain(parts), next, true
}

func unitLike(w string) bool { _, ok := unitWords[w]; return ok }

// plain writes a number with at most four decimals.
func plain(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}

// quantity reads a number with its unit at i, or a size of two or three.
func (m *message) quantity(i int) (quantity, bool) {
	v, shown, next, ok := m.numberAt(i)
	if !ok {
		return quantity{}, false
	}
	values, shownAs := []float64{v}, []string{shown}
	var marks []unitWord // the unit after each number, measure bare where none
	unit, next := m.unitAt(next, v)
	if part, after := m.andPart(next); part > 0 && (unit.measure == length || unit.measure == mass || unit.measure == carat) && v == math.Trunc(v) { // "an inch and a quarter"
		v, shown, next = v+part, plain(v+part), after
		values[0], shownAs[0] = v, shown
	}
	marks = append(marks, unit)
	for len(values) < 3 && (unit.measure == bare || unit.measure == length) {
		j := next
		if w := m.at(j).text; w != "x" && w != "by" {
			break
		}
		for m.at(j).text == "x" {
			j++
		}
		if m.at(j).text == "by" {
			j++
		}
		v, shown, after, ok := m.numberAt(j)
		if !ok || m.countsPieces(after, v) {
			break
		}
		unit, after := m.unitAt(after, v)
		if part, behind := m.andPart(after); part > 0 && unit.measure == length && v == math.Trunc(v) {
			v, shown, after = v+part, plain(v+part), behind
		}
		values, shownAs, marks, next = append(values, v), append(shownAs, shown), append(marks, unit), after
	}
	q := quantity{first: i, next: next}
	if len(values) == 1 {
		if next, ok := m.priceTo(i, next); ok {
			q.measure, q.value, q.shown, q.next = money, v, shown, next
			return q, true
		}
		return m.single(q, v, shown, unit), true
	}
	q = sides(q, values, shownAs, marks)
	for k, s := range shownAs {
		if q.unit && marks[k].measure == bare && isThousandths(s) {
			m.assume("%s is read as inches", s)
		}
	}
	return q, true
}

// countsPieces reports whether a number behind "x" counts pieces and is no side: "10 mm x 6
// of them".
func (m *message) countsPieces(next int, v float64) bool {
	of := m.between(next, next+2)
	return v == math.Trunc(v) && (contains([]string{"pcs", "pc", "pieces", "off", "times"}, m.at(next).text) || of == "of them" || of == "of those" || of == "of these" || of == "of em")
}

// currencies are words and signs of money.
var currencies = map[string]bool{"$": true, "£": true, "€": true, "quid": true, "pence": true, "p": true, "dollars": true, "dollar": true, "bucks": true, "euro": true, "euros": true, "usd": true, "gbp": true, "eur": true, "cents": true}

// priceTo reports whether the number from i up to next is a price, "£65 a gram",
// "78 pence per gram", "0.85 a gram", and where it ends.
func (m *message) priceTo(i, next int) (end int, ok bool) {
	ok = i > 0 && currencies[m.at(i-1).text] && m.at(i-1).text != "p" // "size P 4 mm wide" is no price
	if currencies[m.at(next).text] && (m.at(next).text != "p" || m.at(next).glued) {
		ok, next = true, next+1
	}
	if w := m.at(next).text; w == "a" || w == "per" || w == "an" || w == "-" {
		if u := unitWords[m.at(next+1).text]; u.measure == mass || m.at(next+1).text == "g" {
			return next + 2, true
		}
	}
	return next, ok
}

// sides makes a size of several numbers; the last unit holds for those before
// it that have none. A gauge at the end is no side: 50 x 20 x 22 ga.
func sides(q quantity, values []float64, shown []string, marks []unitWord) quantity {
	q.measure = size
	last := unitWord{}
	for k := len(marks) - 1; k >= 0; k-- {
		if marks[k].measure == length && last.measure == bare {
			last = marks[k]
		}
	}
	var parts []string
	for k, v := range values {
		u := marks[k]
		if u.measure == bare {
			u = last
		}
		if k > 0 && marks[k].measure == bare && marks[0].measure == length && last != marks[0] {
			u = marks[0] // "5 mm x 0.5 x 1 metre": the unit before goes on
		}
		if u.measure == length && u.factor == 1 && marks[k].measure == bare && isThousandths(shown[k]) {
			u = unitWords["inch"] // "6 mm x .060"
		}
		f := 1.0
		if u.measure == length {
			f = u.factor
		}
		if u.measure == gauge {
			q.sides = append(q.sides, gaugeMM(v))
			parts = append(parts, plain(gaugeMM(v)))
			continue
		}
		q.sides = append(q.sides, v*f)
		if f == 1 {
			parts = append(parts, shown[k])
		} else {
			parts = append(parts, plain(v*f))
		}
	}
	fractions := last.measure == bare
	for k, s := range shown {
		fractions = fractions && marks[k].measure == bare && strings.Contains(s, "/") && values[k] < 3
	}
	if fractions { // "3/8 x 5/16"
		last = unitWords["inch"]
		for k := range q.sides {
			q.sides[k] *= last.factor
		}
	}
	q.unit = last.measure == length
	mixed := func(u unitWord) bool { return u.measure == gauge || u.measure == length && u.factor != 25.4 }
	if last.factor == 25.4 && !slices.ContainsFunc(marks, mixed) { // inches stay as they were typed
		q.shown = strings.Join(shown, " x ") + " in"
	} else {
		q.shown = strings.Join(parts, "x")
	}
	q.value = q.sides[0]
	return q
}

// isThousandths matches ".024", which is of an inch: no sheet is so thin in mm.
func isThousandths(shown string) bool { return strings.HasPrefix(shown, "0.0") && len(shown) >= 5 }

// gaugeMM is the thickness of a B&S number: 0.005 in at No. 36, 0.46 in at
// No. 0000 (ASTM B258).
func gaugeMM(n float64) float64 { return 0.127 * math.Pow(92, (36-n)/39) }

// single makes the quantity of one number.
func (m *message) single(q quantity, v float64, shown string, u unitWord) quantity {
	q.value, q.shown, q.measure = v, shown, u.measure
	switch u.measure {
	case bare:
		// A bare fraction, or thousandths, is of an inch.
		if strings.Contains(shown, "/") && !strings.Contains(shown, " ") && v < 2 || isThousandths(shown) {
			q.measure, q.unit, q.value, q.shown = length, true, v*25.4, shown+" in"
			m.assume("%s is read as inches", shown)
			break
		}
		if q.first > 0 && m.at(q.first-1).text == "x" && v == math.Trunc(v) && !across[m.at(q.next).text] && !measuring[m.at(q.next).text] { // "26 ga x 10", not "8 wide x 2 thick"
			q.measure, q.thing = count, "pieces"
			break
		}
		if v > 500 && m.says("solder", "anneal", "melt", "torch", "kiln", "heat") && m.at(q.next).text != "mm" {
			q.measure = temper
			break
		}
		if lot := m.at(q.first - 2).text; m.at(q.first-1).text == "of" && (lot == "set" || lot == "pack" || lot == "batch" || lot == "lot") {
			q.measure, q.thing = count, "pieces"
		} else if m.at(q.next).text == "sheets" && v == math.Trunc(v) {
			q.measure, q.thing = count, "pieces"
		} else if v == math.Trunc(v) && m.countsSized(q.next) {
			q.measure, q.thing = count, "stones"
		} else if thing, ok := m.countedAt(q.next); ok && !sideWords[m.at(q.first-1).text] && !(thing == "stones" && strings.HasSuffix(shown, ".0")) {
			if thing != "makers" && m.at(q.first-1).text == "of" && m.at(q.first-2).stem == stemOf("class") {
				thing = "makers"
			}
			if thing == "prongs" && v == 1 {
				thing = "pieces" // "one claw setting"
			}
			q.measure, q.thing = count, thing
		}
	case length:
		q.unit, q.value = true, v*u.factor
		switch {
		case u.factor == 1, u.shown != "":
			q.shown = shown + u.shown
		default:
			q.shown = plain(q.value)
		}
		if u.factor == 1 && u.shown == "" {
			q.shown = shown + " mm"
		}
	case mass:
		q.unit, q.value, q.shown = true, v*u.factor, shown+" "+u.shown
		if u.shown == "" {
			q.shown = plain(q.value) + " g"
		}
	case force:
		q.unit, q.value, q.shown = true, v*u.factor, shown+u.shown
	case temper:
		q.unit = true
	default:
		q.unit, q.shown = true, shown+u.shown
	}
	return q
}

// sideWords name the number behind them, which then counts nothing: "od 5 stone 4.5".
var sideWords = map[string]bool{"od": true, "id": true, "outside": true, "inside": true, "wall": true, "dia": true, "diameter": true}

// countsSized matches a number before sized stones: "seven 2 mm stones", "3 8x6
// ovals".
func (m *message) countsSized(i int) bool {
	if m.at(i).word() && m.at(i+1).number && !bindingWords[m.at(i).text] && !unitLike(m.at(i).text) && !measuring[m.at(i).text] && !across[m.at(i).text] {
		i++ // "five little 2.75 mm garnets"
	}
	if !m.at(i).number || m.at(i-1).text == "x" {
		return false
	}
	j := i
	for m.at(j).number || unitLike(m.at(j).text) || m.at(j).text == "x" || m.at(j).text == "by" {
		j++
	}
	for k := j; k < j+3 && m.at(k).word() && (!bindingWords[m.at(k).text] || m.at(k).text == "round"); k++ { // "five 1/2 inch round cabs"
		if sizedPlurals[m.at(k).text] || pluralGems[m.at(k).text] {
			return true
		}
	}
	return false
}

// sizedPlurals are things that are counted with their size.
var sizedPlurals = wordSet("stones rounds ovals pears squares hearts cabs cabochons marquises cushions gems trillions cz melee balls discs beads domes bezels collets settings hemispheres")

// pluralGems are the names of gems as they are counted: "garnets".
var pluralGems = func() map[string]bool {
	all := map[string]bool{}
	for _, g := range stone.Gems() {
		for _, name := range append([]string{g.Key}, g.Aliases...) {
			if !strings.Contains(name, "-") {
				all[name+"s"] = true
				if short, y := strings.CutSuffix(name, "y"); y {
					all[short+"ies"] = true
				}
			}
		}
	}
	return all
}()

// countedAt names the thing that a bare number before i counts.
func (m *message) countedAt(i int) (string, bool) {
	if v := m.at(i - 1); v.number && v.value != math.Trunc(v.value) {
		return "", false // "1.3 stones" are stones of 1.3 mm
	}
	for k := i; k < i+3 && k < len(m.tokens); k++ {
		t := m.tokens[k]
		if t.text == "-" && t.glued {
			continue
		}
		if k == i && t.text == "of" && m.at(i+1).text == "us" {
			return "makers", true // "four of us"
		}
		if t.text == "tubes" {
			return "settings", true
		}
		if thing := counted[t.stem]; thing != "" {
			if k == i && m.measuresOne(i) {
				return "", false
			}
			if thing == "times" && k > i {
				return "", false
			}
			return thing, true
		}
		// "10 beginner students", "4 sturdy prongs": one word may come between,
		// and no number.
		if k > i || t.number || !t.word() || bindingWords[t.text] || numberWords[t.text] > 0 {
			return "", false
		}
	}
	return "", false
}

// measuresOne reports whether the number before i is the size of the one thing behind it:
// "a 25 disc", "a round 4 stone", and not "a 3 stone ring".
func (m *message) measuresOne(i int) bool {
	one := slices.Contains([]string{"disc", "disk", "blank", "stone"}, m.at(i).text)
	lead := slices.Contains([]string{"a", "an", "my", "the", "round", "square", "this", "that"}, m.at(i-2).text)
	after := m.at(i + 1)
	return one && lead && m.at(i-1).value > 1 && (!after.word() || bindingWords[after.text] || after.text == "if" || after.text == "at")
}

// bindingWords end a noun phrase: what follows is no longer what is counted.
var bindingWords = map[string]bool{"in": true, "of": true, "for": true, "with": true, "and": true, "to": true, "on": true, "or": true, "x": true, "by": true, "round": true, "oval": true, "pear": true, "square": true, "heart": true, "mm": true, "deep": true, "wide": true, "tall": true, "high": true, "thick": true, "long": true, "the": true, "my": true, "half": true, "size": true, "gold": true}

// unitAt reads a unit at i, after the number v. It decides "in", "g", "ct" and
// "m", which are other words too.
func (m *message) unitAt(i int, v float64) (unitWord, int) {
	t := m.at(i)
	if t.text == "-" && t.glued && (unitLike(m.at(i+1).text) || m.at(i+1).text == "ish") { // 20-gauge
		return m.unitAt(i+1, v)
	}
	if t.text == "ish" && m.at(i-1).number { // "18ish gauge"
		return m.unitAt(i+1, v)
	}
	if mm, next := m.standardWireGauge(i, v); mm > 0 {
		return unitWord{length, mm / v, ""}, next
	}
	if u, next, decided := m.wordOrUnit(i, v); decided {
		return u, next
	}
	u, ok := unitWords[t.text]
	if !ok {
		return unitWord{}, i
	}
	next := i + 1
	if u.measure == angle { // degrees of heat
		switch m.at(next).text {
		case "c", "celsius", "centigrade":
			return unitWords["celsius"], next + 1
		case "f", "fahrenheit":
			return unitWords["fahrenheit"], next + 1
		}
	}
	if u.measure == mass && t.text == "oz" && m.at(next).text == "troy" {
		next++
	}
	return u, next
}

// wordOrUnit decides what the word at i is after the number v, where it may be a unit or
// another word.
func (m *message) wordOrUnit(i int, v float64) (u unitWord, next int, decided bool) {
	t, none := m.at(i), unitWord{}
	switch t.text {
	case "in":
		if m.inchesAt(i) {
			return unitWords["inch"], i + 1, true
		}
		return none, i, true
	case "g", "gr":
		return m.gramOrGauge(i, v), i + 1, true
	case "b":
		if m.between(i+1, i+3) == "and s" { // "22 B&S"
			return unitWords["gauge"], i + 3, true
		}
	case "k", "kt":
		return none, i, true // a karat gold is a word of its own: see karats
	case "ct":
		return unitWords["carat"], i + 1, true // what is gold was taken before
	case "troy":
		if next := m.at(i + 1).text; next == "oz" || next == "ounce" || next == "ounces" {
			return unitWords["ozt"], i + 2, true
		}
	case "per":
		if m.at(i+1).text == "cent" {
			return unitWords["%"], i + 2, true
		}
	case "x":
		return none, i, true
	case "c", "f":
		return none, i, v < 60
	case "t":
		return none, i, !t.glued && m.at(i+1).text != "press"
	case "'":
		return none, i, !t.glued || !m.at(i-1).number // "an' 8"
	case "m":
		return none, i, !t.glued && !m.metresAt(i, v)
	}
	return none, i, false
}

// metresAt reports whether a lone "m" at i is the unit: it ends a phrase on stock that
// may be so long.
func (m *message) metresAt(i int, v float64) bool {
	const longest = 100
	t, after := m.at(i), m.at(i+1).text
	return v <= longest && !t.capital && slices.Contains([]string{"", ".", ",", ";", "?", "!", ")", "of", "long", "here", "in"}, after) && m.saysStock()
}

// saysStock reports whether the message has a word for long stock.
func (m *message) saysStock() bool {
	return slices.ContainsFunc(m.tokens, func(t token) bool {
		return slices.Contains([]string{"wire", "rod", "tube", "tubing", "strip", "coil", "spool", "chain", "alambre", "draht", "fil"}, t.text)
	})
}

// inchesAt reports whether the word "in" at i is the unit: not where a metal, a
// number, an article or a gauge follows.
func (m *message) inchesAt(i int) bool {
	before, after := m.at(i-1), m.at(i+1)
	if before.glued && m.at(i).glued || strings.Contains(before.text, "/") || strings.HasPrefix(before.text, "0.0") {
		return true
	}
	if m.at(i).glued {
		return true
	}
	if things := m.at(i - 3); m.at(i-2).text == "x" && before.glued && things.word() && !unitLike(things.text) {
		return false // "2 mm stones x7 in tube"
	}
	switch after.text {
	case "a", "an", "the", "my", "this", "that", "it", "some", "one", "two", "three", "or", "our", "your", "each", "total", "all", "solid", "rose", "yellow", "white", "red", "mm", "us", "uk", "eu", "what", "block", "die", "yank", "american", "british", "english":
		return false
	}
	if most := mostInchesOf[after.text]; most > 0 && before.value > most {
		return false // "1.6 in thickness"
	}
	if settingsHeld[after.text] && m.at(i+2).text != "wire" && m.at(i+2).text != "strip" {
		return false // "7x5 in prongs"
	}
	if after.number || metalStems[after.stem] || m.namesGem(i+1) || m.at(i+2).text == "sizes" || unitLike(after.text) && after.word() { // "14 in inches"
		return false
	}
	return true
}

// mostInchesOf are the most inches that a piece measures in what these words name.
var mostInchesOf = map[string]float64{"thickness": 0.3, "height": 2.5, "depth": 2.5}

// settingsHeld are what stones are set in, where no inches stand before: "two pears 6x4 in
// bezels".
var settingsHeld = map[string]bool{
	"bezel": true, "bezels": true, "collet": true, "collets": true, "prong": true, "prongs": true, "claw": true, "claws": true, "tube": true, "tubes": true,
	"basket": true, "baskets": true, "rubover": true, "rubovers": true, "setting": true, "settings": true, "cups": true, "cones": true,
}

// namesGem reports whether the word at i is a gem's: "10 x 7 in tanzanite" has no inches.
func (m *message) namesGem(i int) bool {
	return slices.ContainsFunc(m.termsAt(i, 1), func(t *Term) bool {
		return slices.ContainsFunc(t.Means, func(means string) bool { return strings.HasPrefix(means, "gem:") })
	})
}

var metalStems = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range []string{"silver", "sterling", "gold", "copper", "brass", "bronze", "platinum", "palladium", "fine", "argentium", "ss", "nickel", "titanium", "aluminium", "aluminum", "pewter", "metal", "sheet", "wire"} {
		all[stemOf(w)] = true
	}
	delete(all, "sheet")
	delete(all, "wire")
	return all
}()

// standardWireGauges are the diameters of the Imperial standard wire gauge in
// inches, by number (BS 3737, from memory).
var standardWireGauges = []float64{
	.324, .300, .276, .252, .232, .212, .192, .176, .160, .144, .128, .116, .104, .092, .080, .072,
	.064, .056, .048, .040, .036, .032, .028, .024, .022, .020, .018, .0164, .0148, .0136, .0124,
}

// standardWireGauge reads "swg" at i after a number, also behind "gauge", and tells
// the thickness in mm; 0 for none.
func (m *message) standardWireGauge(i int, v float64) (mm float64, next int) {
	if u := unitWords[m.at(i).text]; u.measure == gauge || m.at(i).text == "g" {
		i++
	}
	if m.at(i).text != "swg" {
		return 0, i
	}
	mm, ok := m.swgOf(v)
	if !ok {
		return 0, i
	}
	return mm, i + 1
}

// swgOf is the thickness of an SWG number in mm, and says so in a note.
func (m *message) swgOf(v float64) (mm float64, ok bool) {
	if v < 1 || v != math.Trunc(v) || int(v) >= len(standardWireGauges) {
		return 0, false
	}
	mm = standardWireGauges[int(v)] * 25.4
	m.assume("%s SWG is %.2f mm; other gauge numbers are B&S here", plain(v), mm)
	return mm, true
}

// gramOrGauge decides what 20g is: gauge for the whole numbers of sheet and
// wire, grams where the message speaks of weight.
func (m *message) gramOrGauge(i int, v float64) unitWord {
	if m.at(i-1).number && strings.ContainsAny(m.at(i-1).text, ".,") {
		return unitWords["gram"] // "14.0 g": a gauge is whole
	}
	if w := m.at(i - 2).text; v != math.Trunc(v) || v < 8 || v > 36 || w == "over" || w == "under" || w == "past" || w == "exactly" {
		return unitWords["gram"]
	}
	for k, t := range m.tokens {
		switch t.text {
		case "dwt", "pennyweight", "pennyweights", "tola", "tolas", "ozt":
			return unitWords["gram"]
		}
		switch t.stem {
		case "wax", "button", "master", "melt", "scrap", "ingot", "lump", "cast", "casting", "pendant", "resin", "print", "sprue", "model", "delft":
			return unitWords["gram"]
		case "weigh", "weight", "heavi", "gram":
			// "what does 30 cm of 18g wire weigh" asks for a weight of a gauge.
			if k < i && i-k <= 3 {
				return unitWords["gram"]
			}
		}
	}
	if w := m.at(i - 2).text; m.at(i+1).text == "in" && metalStems[m.at(i+2).stem] && (w == "is" || w == "was" || w == "weighs" || w == "weighed" || w == "its") {
		return unitWords["gram"] // "my bangle is 31 g in copper"
	}
	// "20g of silver" is a mass.
	if m.at(i+1).text == "of" {
		return unitWords["gram"]
	}
	return unitWords["gauge"]
}

// gaugeBefore reads "gauge 22", "ga. 22" and "#22".
func (m *message) gaugeBefore(i int) (quantity, bool) {
	t := m.at(i)
	if t.text == "swg" && m.at(i+1).number && !m.at(i-1).number { // "swg 16"
		if mm, _ := m.swgOf(m.at(i + 1).value); mm > 0 {
			return quantity{measure: length, value: mm, shown: plain(mm) + " mm", unit: true, first: i, next: i + 2}, true
		}
	}
	if t.text != "gauge" && t.text != "ga" && t.text != "gage" && t.text != "#" || i > 0 && m.at(i-1).number && !m.taken[i-1] {
		return quantity{}, false
	}
	if w := m.at(i + 1).text; (w == "," || w == "is" || w == "of") && m.at(i+2).number && m.at(i+2).value >= 8 {
		q, ok := m.gaugeAt(i + 2) // "gauge: 22"
		q.first = i
		return q, ok
	}
	q, ok := m.gaugeAt(i + 1)
	q.first = i
	return q, ok
}

// gaugeAt reads the number at i as a gauge.
func (m *message) gaugeAt(i int) (quantity, bool) {
	n := m.at(i)
	if !n.number || n.value != math.Trunc(n.value) || n.value > 40 {
		return quantity{}, false
	}
	if u, _ := m.unitAt(i+1, n.value); u.measure != bare && u.measure != gauge || m.at(i+1).text == "x" {
		return quantity{}, false
	}
	return quantity{measure: gauge, value: n.value, shown: n.shown + "ga", unit: true, first: i, next: i + 1}, true
}
