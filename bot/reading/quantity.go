package reading

import (
	"math"
	"strconv"
	"strings"

	"guildhand/calc/units"
)

// dimension is what a unit measures.
type dimension uint8

const (
	noUnit dimension = iota
	lengthUnit
	gaugeUnit
	angleUnit
	percentUnit
	massUnit
	forceUnit
	gUnit     // "g": grams, or gauge where it can't mean grams
	vagueMass // "oz", "gr": troy or avoirdupois, grain or gram
)

// unit is a word that may follow a number.
type unit struct {
	dim dimension
	// factor to mm, degrees, percent, g or N.
	factor float64
	// key writes the unit in canonical text; empty for the kind's own unit.
	key string
}

var unitWords = map[string]unit{
	"mm": {lengthUnit, 1, ""}, "millimetre": {lengthUnit, 1, ""}, "millimetres": {lengthUnit, 1, ""},
	"millimeter": {lengthUnit, 1, ""}, "millimeters": {lengthUnit, 1, ""},
	"cm": {lengthUnit, 10, ""}, "centimetre": {lengthUnit, 10, ""}, "centimetres": {lengthUnit, 10, ""},
	"centimeter": {lengthUnit, 10, ""}, "centimeters": {lengthUnit, 10, ""},
	"um": {lengthUnit, 0.001, ""}, "µm": {lengthUnit, 0.001, ""}, "micron": {lengthUnit, 0.001, ""}, "microns": {lengthUnit, 0.001, ""},
	"in": {lengthUnit, units.MMPerInch, ""}, "inch": {lengthUnit, units.MMPerInch, ""}, "inches": {lengthUnit, units.MMPerInch, ""},
	`"`: {lengthUnit, units.MMPerInch, ""}, "''": {lengthUnit, units.MMPerInch, ""},
	// Not "mil": a thousandth of an inch to some and a millimetre to others.
	"thou": {lengthUnit, units.MMPerInch / 1000, ""},

	"ga": {gaugeUnit, 1, ""}, "gauge": {gaugeUnit, 1, ""}, "gage": {gaugeUnit, 1, ""}, "gge": {gaugeUnit, 1, ""},
	"awg": {gaugeUnit, 1, ""}, "gauges": {gaugeUnit, 1, ""},

	"°": {angleUnit, 1, ""}, "deg": {angleUnit, 1, ""}, "degs": {angleUnit, 1, ""},
	"degree": {angleUnit, 1, ""}, "degrees": {angleUnit, 1, ""},

	"%": {percentUnit, 1, ""}, "percent": {percentUnit, 1, ""}, "pct": {percentUnit, 1, ""},

	"g":    {gUnit, 1, ""},
	"gram": {massUnit, 1, ""}, "grams": {massUnit, 1, ""}, "gramme": {massUnit, 1, ""}, "grammes": {massUnit, 1, ""},
	"gm": {massUnit, 1, ""}, "gms": {massUnit, 1, ""}, "gr": {vagueMass, 0, ""},
	"grain": {massUnit, units.GramPerGrain, "grain"}, "grains": {massUnit, units.GramPerGrain, "grain"},
	"mg": {massUnit, 0.001, "mg"}, "kg": {massUnit, 1000, "kg"},
	"dwt": {massUnit, units.GramPerPennyweight, "dwt"}, "pennyweight": {massUnit, units.GramPerPennyweight, "dwt"},
	"pennyweights": {massUnit, units.GramPerPennyweight, "dwt"},
	"ozt":          {massUnit, units.GramPerTroyOunce, "ozt"}, "toz": {massUnit, units.GramPerTroyOunce, "ozt"},
	"ozav": {massUnit, units.GramPerOunce, "ozav"},
	"oz":   {vagueMass, 0, ""}, "ounce": {vagueMass, 0, ""}, "ounces": {vagueMass, 0, ""},
	"ct": {massUnit, units.GramPerCarat, "ct"}, "cts": {massUnit, units.GramPerCarat, "ct"},
	"carat": {massUnit, units.GramPerCarat, "ct"}, "carats": {massUnit, units.GramPerCarat, "ct"},
	"lb": {massUnit, units.GramPerPound, "lb"}, "lbs": {massUnit, units.GramPerPound, "lb"},

	"n": {forceUnit, 1, ""}, "newton": {forceUnit, 1, ""}, "newtons": {forceUnit, 1, ""},
	"kn": {forceUnit, 1000, "kN"},
	"t":  {forceUnit, units.NewtonPerTonneForce, "t"}, "tf": {forceUnit, units.NewtonPerTonneForce, "t"},
	"tonne": {forceUnit, units.NewtonPerTonneForce, "t"}, "tonnes": {forceUnit, units.NewtonPerTonneForce, "t"},
	// A bare "ton" is the short ton of 2000 lbf: of the tons on press plates it
	// is the smallest, so a press is never taken for stronger than it is.
	"ton": {forceUnit, units.NewtonPerShortTon, "ton"}, "tons": {forceUnit, units.NewtonPerShortTon, "ton"},
	"lbf": {forceUnit, units.NewtonPerPoundForce, "lbf"},
}

// unitPhrases are units of two words.
var unitPhrases = []struct {
	phrase string
	unit   unit
}{
	{"troy-ounces", unit{massUnit, units.GramPerTroyOunce, "ozt"}},
	{"troy-ounce", unit{massUnit, units.GramPerTroyOunce, "ozt"}},
	{"troy-oz", unit{massUnit, units.GramPerTroyOunce, "ozt"}},
	{"oz-troy", unit{massUnit, units.GramPerTroyOunce, "ozt"}},
	{"oz-t", unit{massUnit, units.GramPerTroyOunce, "ozt"}},
	{"oz-av", unit{massUnit, units.GramPerOunce, "ozav"}},
	{"per-cent", unit{percentUnit, 1, ""}},
	{"b&s", unit{gaugeUnit, 1, ""}},
	{"short-tons", unit{forceUnit, units.NewtonPerShortTon, "ton"}},
	{"short-ton", unit{forceUnit, units.NewtonPerShortTon, "ton"}},
	{"metric-tons", unit{forceUnit, units.NewtonPerTonneForce, "t"}},
	{"metric-ton", unit{forceUnit, units.NewtonPerTonneForce, "t"}},
}

// number is one number as it was typed.
type number struct {
	value    float64
	start    int // in low
	end      int // after the digits
	unit     unit
	unitEnd  int  // after the unit; end where there is none
	whole    bool // digits only
	fraction bool
	// bad marks what looks like a number and is none: "1.2.3", "nan", "3/0".
	bad bool
}

const maxSides = 3

// quantity is a number, or several joined by x.
type quantity struct {
	n     [maxSides]number
	count int // may be more than maxSides; the rest is not kept
	start int
	end   int
}

// last is the quantity's last number that was kept.
func (q *quantity) last() *number { return &q.n[min(q.count, maxSides)-1] }

// numberAt reports whether a number starts at i.
func numberAt(s string, i int) bool {
	if i >= len(s) {
		return false
	}
	switch s[i] {
	case '+', '-':
		i++
	}
	if i < len(s) && (s[i] == '.' || s[i] == ',') {
		i++
	}
	return digitAt(s, i) || notFinite(s, i) >= 0
}

// notFinite returns the end of a word that stands for no finite number, or -1.
func notFinite(s string, i int) int {
	if strings.HasPrefix(s[i:], "∞") {
		return i + len("∞")
	}
	for _, w := range [...]string{"nan", "infinity", "infinite", "inf"} {
		if strings.HasPrefix(s[i:], w) {
			j := i + len(w)
			if !letterAt(s, j) || s[j] == 'x' && (j+1 == len(s) || !letterAt(s, j+1) || notFinite(s, j+1) >= 0) {
				return j
			}
		}
	}
	return -1
}

// readNumber reads a number without its unit; ok is false where none starts at
// i. Decimal mark is point or comma; "1 1/4", "1-1/4" and "5/16" are numbers.
func readNumber(s string, i int) (n number, ok bool) {
	if !numberAt(s, i) {
		return number{}, false
	}
	n.start = i
	negative := s[i] == '-'
	if s[i] == '-' || s[i] == '+' {
		i++
	}
	if e := notFinite(s, i); e >= 0 && !digitAt(s, i) {
		n.end, n.unitEnd, n.bad = e, e, true
		return n, true
	}
	mantissa := readMantissa(s, i, &n)
	n.end = readExponent(s, mantissa)
	n.whole = n.whole && n.end == mantissa
	if !n.bad {
		v, err := strconv.ParseFloat(strings.Replace(s[i:n.end], ",", ".", 1), 64)
		n.bad = err != nil || math.IsInf(v, 0)
		n.value = v
	}
	if !n.bad && n.whole {
		readFraction(s, &n)
	}
	if negative {
		n.value = -n.value
		n.whole = false
	}
	// What sticks to the number and is no unit or x makes it none.
	for n.end < len(s) && (s[n.end] == '.' || s[n.end] == ',' || s[n.end] == '/') && digitAt(s, n.end+1) {
		n.bad = true
		n.end = digits(s, n.end+1)
	}
	n.unitEnd = n.end
	return n, true
}

// digits returns the end of the run of digits at i.
func digits(s string, i int) int {
	for digitAt(s, i) {
		i++
	}
	return i
}

// readMantissa returns the end of digits with a decimal mark; two marks make no
// number.
func readMantissa(s string, i int, n *number) int {
	marks := 0
	for i < len(s) && (isDigit(s[i]) || (s[i] == '.' || s[i] == ',') && digitAt(s, i+1)) {
		if !isDigit(s[i]) {
			marks++
		}
		i++
	}
	n.whole, n.bad = marks == 0, marks > 1
	return i
}

// readExponent returns the end of an exponent at i, "e-3", or i where none stands
// there.
func readExponent(s string, i int) int {
	if i >= len(s) || s[i] != 'e' {
		return i
	}
	k := i + 1
	if k < len(s) && (s[k] == '-' || s[k] == '+') {
		k++
	}
	if !digitAt(s, k) {
		return i
	}
	k = digits(s, k)
	if letterAt(s, k) && !strings.ContainsRune("xmgi", rune(s[k])) { // x, mm, g and in may follow
		return i
	}
	return k
}

// readFraction extends a whole number by what makes it a fraction: "/16" or
// " 1/4".
func readFraction(s string, n *number) {
	whole := 0.0
	top := n.value
	j := n.end
	if j < len(s) && (s[j] == ' ' || s[j] == '-') {
		k := j + 1
		if s[j] == ' ' {
			k = spaces(s, j)
		}
		m := k
		for digitAt(s, m) {
			m++
		}
		if m == k || m-k > 4 || m >= len(s) || s[m] != '/' || !digitAt(s, m+1) {
			return
		}
		whole = n.value
		top, _ = strconv.ParseFloat(s[k:m], 64)
		j = m
	}
	if j >= len(s) || s[j] != '/' || !digitAt(s, j+1) {
		return
	}
	k := j + 1
	for digitAt(s, k) {
		k++
	}
	bottom, err := strconv.ParseFloat(s[j+1:k], 64)
	n.end, n.whole, n.fraction = k, false, true
	if err != nil || bottom == 0 || k-j > 6 {
		n.bad = true
		return
	}
	n.value = whole + top/bottom
}

// readUnit reads the unit after a number that ends at i.
func readUnit(s string, i int) (u unit, end int, ok bool) {
	j := spaces(s, i)
	if j < len(s) && s[j] == '-' && letterAt(s, j+1) { // 22-ga
		j++
	}
	if j >= len(s) {
		return unit{}, i, false
	}
	for _, p := range unitPhrases {
		if e := matchPhrase(s, j, p.phrase); e >= 0 {
			return p.unit, e, true
		}
	}
	switch {
	case s[j] == '"' && j == i:
		return unitWords[`"`], j + 1, true
	case strings.HasPrefix(s[j:], "''") && j == i:
		return unitWords["''"], j + 2, true
	case s[j] == '%':
		return unitWords["%"], j + 1, true
	case strings.HasPrefix(s[j:], "°"):
		return unitWords["°"], j + len("°"), true
	}
	e := j
	if strings.HasPrefix(s[j:], "µ") {
		e += len("µ")
	}
	e = letters(s, e)
	if e == j || e-j > 12 {
		return unit{}, i, false
	}
	word := s[j:e]
	if u, ok := unitWords[word]; ok {
		if e < len(s) && s[e] == '.' && !digitAt(s, e+1) {
			e++ // "in."
		}
		return u, e, true
	}
	// 8mmx6mm
	if w, cut := strings.CutSuffix(word, "x"); cut && numberAt(s, spaces(s, e)) {
		if u, ok := unitWords[w]; ok {
			return u, e - 1, true
		}
	}
	return unit{}, i, false
}

// readJoin reads the x between two sides; the end is where a number starts.
func readJoin(s string, i int) (end int, ok bool) {
	j := spaces(s, i)
	if j >= len(s) {
		return i, false
	}
	switch {
	case s[j] == 'x' || s[j] == '*':
		j++
	case strings.HasPrefix(s[j:], "by"):
		j += 2
	default:
		return i, false
	}
	j = spaces(s, j)
	if !numberAt(s, j) {
		return i, false
	}
	return j, true
}

// readQuantity reads numbers joined by x, each with its unit; allow tells which
// units may be taken, so that a word that is no unit here is left for others.
func readQuantity(s string, i int, allow func(unit, int, int) bool) (q quantity, ok bool) {
	q.start = i
	for {
		n, found := readNumber(s, i)
		if !found {
			break
		}
		if u, e, found := readUnit(s, n.end); found && allow(u, spaces(s, n.end), e) {
			n.unit, n.unitEnd = u, e
		}
		if q.count < maxSides {
			q.n[q.count] = n
		}
		q.count++
		q.end = n.unitEnd
		next, joined := readJoin(s, n.unitEnd)
		if !joined {
			break
		}
		i = next
	}
	if q.count == 0 {
		return q, false
	}
	// 5/16 x 1/4 in: the last unit serves the sides without one; in front, it
	// serves those after: 8mm x 6.
	kept := q.n[:min(q.count, maxSides)]
	for k := len(kept) - 2; k >= 0; k-- {
		if kept[k].unit.dim == noUnit {
			kept[k].unit = kept[k+1].unit
		}
	}
	for k := 1; k < len(kept); k++ {
		if kept[k].unit.dim == noUnit {
			kept[k].unit = kept[k-1].unit
		}
	}
	return q, true
}

// bad reports whether one of the numbers is none.
func (q *quantity) bad() bool {
	for _, n := range q.n[:min(q.count, maxSides)] {
		if n.bad {
			return true
		}
	}
	return false
}

// tidy rounds away what binary fractions add to a decimal: far below anything
// that can be measured, so that 0.025 in is 0.635 mm.
func tidy(v float64) float64 {
	if math.Abs(v) < 1e6 {
		v = math.Round(v*1e9) / 1e9
	}
	if v == 0 {
		return 0 // not -0
	}
	return v
}

// plain writes a number as it can be typed.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
