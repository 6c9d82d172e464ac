package reading

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

// fault is what is wrong with a part of a line: the sentence, the part (in
// low), and what to put in its place in the line to try.
type fault struct {
	problem string
	// start and end of the part that is wrong; fix replaces it.
	start, end int
	fix        []string
}

func (f *fault) Error() string { return f.problem }

func faultf(start, end int, fix []string, format string, args ...any) *fault {
	return &fault{problem: fmt.Sprintf(format, args...), start: start, end: end, fix: fix}
}

// takes reports whether a quantity's unit fits the option's kind. gIsGram is
// set where "g" may mean grams.
func takes(o *catalogue.Option, d dimension) bool {
	switch o.Kind {
	case catalogue.Length, catalogue.Size:
		return d == noUnit || d == lengthUnit
	case catalogue.Thickness:
		return d == noUnit || d == lengthUnit || d == gaugeUnit || d == gUnit
	case catalogue.Angle:
		return d == noUnit || d == angleUnit
	case catalogue.Percent:
		return d == noUnit || d == percentUnit
	case catalogue.Share:
		return d == noUnit || d == percentUnit || isMass(d)
	case catalogue.Mass:
		return d == noUnit || isMass(d)
	case catalogue.Force:
		return d == noUnit || d == forceUnit
	case catalogue.Number, catalogue.Integer, catalogue.RingSize:
		return d == noUnit
	}
	return false
}

// isMass reports whether a unit may be one of mass.
func isMass(d dimension) bool { return d == massUnit || d == gUnit || d == vagueMass }

// numeric reports whether the option's value is a quantity.
func numeric(o *catalogue.Option) bool {
	switch o.Kind {
	case catalogue.Length, catalogue.Thickness, catalogue.Angle, catalogue.Number, catalogue.Integer, catalogue.Percent, catalogue.Share, catalogue.Mass, catalogue.Force, catalogue.Size:
		return true
	}
	return false
}

// value makes the option's value of a quantity. asGauge is set where a whole
// number without unit is a gauge number.
func valueOf(o *catalogue.Option, low string, q quantity, asGauge bool) (catalogue.Value, *fault) {
	given := low[q.start:q.end]
	if q.bad() {
		return catalogue.Value{}, faultf(q.start, q.end, nil, "%s %s is not a number; it takes %s", o.Name, shown(given), o.Range())
	}
	if q.count > maxSides || o.Kind != catalogue.Size && q.count > 1 {
		if o.Kind == catalogue.Size {
			return catalogue.Value{}, faultf(q.start, q.end, nil, "%s %s has %d sides; it takes one, two or three", o.Name, shown(given), q.count)
		}
		return catalogue.Value{}, faultf(q.start, q.end, nil, "%s is one number and %s is %d; it takes %s", o.Name, shown(given), q.count, o.Range())
	}
	if d := q.n[0].unit.dim; !takes(o, d) {
		return catalogue.Value{}, faultf(q.start, q.end, nil, "%s is %s and %s is not; it takes %s", o.Name, o.Noun(), shown(given), o.Range())
	}
	switch o.Kind {
	case catalogue.Size:
		return sizeValue(o, low, q)
	case catalogue.Thickness:
		return thicknessValue(o, low, q, asGauge)
	}
	n := q.n[0]
	num := plain(n.value)
	switch {
	case o.Kind == catalogue.Integer && n.value != math.Trunc(n.value):
		return catalogue.Value{}, faultf(q.start, q.end, nil, "%s %s is not a whole number; it takes %s", o.Name, shown(given), o.Range())
	case n.unit.dim == vagueMass && strings.HasPrefix(low[spaces(low, n.end):], "gr"):
		return catalogue.Value{}, faultf(q.start, q.end, []string{num + "g"}, "gr can be a grain or a gram; write %s g or %s grain", num, num)
	case n.unit.dim == vagueMass:
		return catalogue.Value{}, faultf(q.start, q.end, []string{num + "ozt"}, "an ounce can be troy or avoirdupois; write %s ozt or %s oz av", num, num)
	case o.Kind == catalogue.Force && n.unit.dim == noUnit:
		// A force without a unit would be guessed wrong by a thousand.
		return catalogue.Value{}, faultf(q.start, q.end, []string{num + "t", num + "kN"}, "%s %s lacks its unit; write %st for tonnes or %skN, from %s", o.Name, shown(given), num, num, o.Range())
	}
	v := catalogue.Value{Number: n.value, IsMass: o.Kind == catalogue.Share && isMass(n.unit.dim)}
	if n.unit.dim != noUnit {
		v.Number *= n.unit.factor
	}
	if n.unit.key != "" {
		v.Text = num + n.unit.key // kept in its own unit: 20t stays 20t
		return v, outside(o, low, q, v.Number)
	}
	v.Number = tidy(v.Number)
	v.Text = plain(v.Number) + map[catalogue.Kind]string{catalogue.Mass: "g", catalogue.Force: "N"}[o.Kind]
	if v.IsMass {
		v.Text += "g"
	}
	return v, outside(o, low, q, v.Number)
}

// sizeValue makes a size of one to three sides.
func sizeValue(o *catalogue.Option, low string, q quantity) (catalogue.Value, *fault) {
	var v catalogue.Value
	var sides []string
	for _, side := range q.n[:q.count] {
		if !takes(o, side.unit.dim) {
			return catalogue.Value{}, faultf(q.start, q.end, nil, "%s is a size and %s is not; it takes %s", o.Name, shown(low[q.start:q.end]), o.Range())
		}
		mm := tidy(inMM(side))
		if f := outside(o, low, q, mm); f != nil {
			return catalogue.Value{}, f
		}
		v.Numbers = append(v.Numbers, mm)
		sides = append(sides, plain(mm))
	}
	v.Number, v.Text = v.Numbers[0], strings.Join(sides, "x")
	return v, nil
}

// thicknessValue makes a thickness of a gauge number or a length.
func thicknessValue(o *catalogue.Option, low string, q quantity, asGauge bool) (catalogue.Value, *fault) {
	n := q.n[0]
	if d := n.unit.dim; d == gaugeUnit || d == gUnit || d == noUnit && asGauge && n.whole {
		gauge, ok := gaugeNumber(low, n)
		if !ok {
			return catalogue.Value{}, faultf(q.start, q.end, nil, "%s %s is not a gauge number; it takes %s", o.Name, shown(low[q.start:q.end]), o.Range())
		}
		v := catalogue.Value{Gauge: gauge, HasGauge: true, Number: stock.GaugeMM(gauge), Text: stock.GaugeName(gauge) + "ga"}
		return v, outside(o, low, q, v.Number)
	}
	v := catalogue.Value{Number: tidy(inMM(n))}
	v.Text = plain(v.Number) + "mm"
	return v, outside(o, low, q, v.Number)
}

// inMM is a length as typed, in mm.
func inMM(n number) float64 {
	if n.unit.dim == lengthUnit {
		return n.value * n.unit.factor
	}
	return n.value
}

// outside is the fault of a number out of its range, or nil. A relative 1e-9
// of the limit is let pass, so that a limit typed in inches is inside.
func outside(o *catalogue.Option, low string, q quantity, v float64) *fault {
	least, most := o.Limits()
	slack := 1e-9 * max(math.Abs(least), math.Abs(most))
	if v >= least-slack && v <= most+slack {
		return nil
	}
	given := low[q.start:q.end]
	if q.n[0].unit.dim == noUnit {
		given += catalogue.UnitOf(o)
	}
	given = strings.Trim(shown(given), `"`)
	converted := ""
	if u := q.n[0].unit; q.count == 1 && u.dim == lengthUnit && u.factor != 1 || u.dim == gaugeUnit || u.dim == gUnit && o.Kind == catalogue.Thickness {
		converted = " (" + short(v) + " mm)"
	}
	return faultf(q.start, q.end, nil, "%s %s%s is out of range: it takes %s", o.Name, given, converted, o.Range())
}

// short writes a number for a sentence.
func short(v float64) string {
	if math.Abs(v) >= 1e6 || v != 0 && math.Abs(v) < 1e-3 {
		return fmt.Sprintf("%.3g", v)
	}
	return plain(math.Round(v*1000) / 1000)
}

// gaugeNumber reads a gauge number: 22, or 0, 00, 000, 0000.
func gaugeNumber(low string, n number) (int, bool) {
	if !n.whole || n.bad {
		return 0, false
	}
	text := strings.TrimPrefix(low[n.start:n.end], "+")
	if text != "0" && strings.Trim(text, "0") == "" {
		if len(text) > 4 {
			return 0, false
		}
		return 1 - len(text), true
	}
	if n.value < 0 || n.value > stock.ThinnestGauge {
		return 0, false
	}
	return int(n.value), true
}

// maxPoints is the most pairs that a Points option takes; minPoints make a
// shape at all. A request may ask for more than the least.
const (
	minPoints = 3
	maxPoints = 64
)

// readPoints reads pairs "x,y" from i until something else comes.
func readPoints(o *catalogue.Option, low string, i int) (v catalogue.Value, end int, f *fault) {
	least, most := o.Limits()
	var b strings.Builder
	start, j := i, i
	factor := 1.0
	for {
		x, y, e, ok := readPair(low, j)
		if !ok {
			break
		}
		v.Points = append(v.Points, [2]float64{x, y})
		end = e
		j = e
		for j < len(low) && (low[j] == ' ' || low[j] == ';' || low[j] == '|' || low[j] == '/' || low[j] == ')' || low[j] == '(' || low[j] == ',') {
			j++
		}
	}
	if len(v.Points) == 0 {
		return v, i, faultf(start, start, nil, "%s takes pairs x,y in mm, such as 0,0 8,0 8,6", o.Name)
	}
	if u, e, ok := readUnit(low, end); ok && u.dim == lengthUnit {
		factor, end = u.factor, e
	}
	if n := len(v.Points); n < minPoints || n > maxPoints {
		return v, end, faultf(start, end, nil, "%s has %d pairs; it takes %d to %d pairs x,y in mm", o.Name, n, minPoints, maxPoints)
	}
	for k := range v.Points {
		p := &v.Points[k]
		for c := range p {
			p[c] = tidy(p[c] * factor)
			if !(p[c] >= least && p[c] <= most) {
				return v, end, faultf(start, end, nil, "%s has a point at %s,%s mm; each number goes from %s to %s mm", o.Name, short(p[0]), short(p[1]), plain(least), plain(most))
			}
		}
		if k > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(plain(p[0]))
		b.WriteByte(',')
		b.WriteString(plain(p[1]))
	}
	v.Text = b.String()
	return v, end, nil
}

// readPair reads "x,y", also in brackets. The comma parts the two, so decimals
// have a point here.
func readPair(low string, i int) (x, y float64, end int, ok bool) {
	i = spaces(low, i)
	if i < len(low) && low[i] == '(' {
		i = spaces(low, i+1)
	}
	x, i, ok = readDecimal(low, i)
	if !ok {
		return 0, 0, i, false
	}
	i = spaces(low, i)
	if i >= len(low) || low[i] != ',' {
		return 0, 0, i, false
	}
	y, i, ok = readDecimal(low, spaces(low, i+1))
	if !ok {
		return 0, 0, i, false
	}
	if j := spaces(low, i); j < len(low) && low[j] == ')' {
		i = j + 1
	}
	return x, y, i, true
}

// readDecimal reads a number whose decimal mark is a point.
func readDecimal(low string, i int) (v float64, end int, ok bool) {
	j := i
	if j < len(low) && (low[j] == '-' || low[j] == '+') {
		j++
	}
	for j < len(low) && (isDigit(low[j]) || low[j] == '.' && digitAt(low, j+1)) {
		j++
	}
	n, ok := readNumber(low[:j], i)
	if !ok || n.bad || n.end != j {
		return 0, i, false
	}
	return n.value, j, true
}

// readRingSize reads "7", "7 1/2", "54", "n", "n 1/2", "z+3": the system is
// another option's matter.
func readRingSize(low string, i int) (text string, end int, ok bool) {
	if numberAt(low, i) {
		n, _ := readNumber(low, i)
		if n.bad || n.value < 0 || n.value > 200 {
			return "", i, false
		}
		return ringText(low[n.start:n.end]), n.end, true
	}
	if i >= len(low) || !isLetter(low[i]) || letterAt(low, i+1) {
		return "", i, false
	}
	text = strings.ToUpper(low[i : i+1])
	end = i + 1
	j := spaces(low, end)
	if text == "Z" && j < len(low) && low[j] == '+' && digitAt(low, j+1) {
		k := j + 1
		for digitAt(low, k) {
			k++
		}
		return text + low[j:k], k, true
	}
	if digitAt(low, j) {
		if n, _ := readNumber(low, j); n.fraction && !n.bad && n.value < 1 {
			return text + " " + low[n.start:n.end], n.end, true
		}
	}
	if strings.HasPrefix(low[end:], ".5") && !digitAt(low, end+2) {
		return text + " 1/2", end + 2, true
	}
	return text, end, true
}

// ringText writes a number with one blank before its fraction and a point as
// decimal mark.
func ringText(s string) string {
	s = strings.TrimPrefix(strings.ReplaceAll(s, ",", "."), "+")
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '-' }), " ")
}
