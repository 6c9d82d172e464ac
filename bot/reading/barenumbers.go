package reading

import (
	"fmt"
	"guildhand/bot/catalogue"
	"slices"
	"strings"
)

// bareQuantity reads a number without a name. With an option's name after it
// ("12 makers") it is that option's; otherwise it waits until the whole line is
// read, so that options may come in any order.
func (p *parser) bareQuantity(i int) (int, *fault) {
	q, _ := readQuantity(p.low, i, func(u unit, from, to int) bool { return p.unitFits(nil, u, from, to) })
	if j := spaces(p.low, q.end); j < len(p.low) {
		if p.low[j] == '-' {
			j++
		}
		if k, e := p.optionName(j); k >= 0 && !p.given[k] && !p.valueFollows(k, e) {
			o := &p.spec.Options[k]
			fits := numeric(o) && takes(o, q.n[0].unit.dim) && (q.count == 1 || o.Kind == catalogue.Size)
			if fits {
				v, f := p.quantityValue(k, q, matchPhrase(p.low, j, "gauge") == e)
				if f != nil {
					f.start, f.end = i, e
					f.fix = p.withName(o)
					return e, f
				}
				return e, p.give(k, v, i, e)
			}
			if o.Kind == catalogue.RingSize && q.count == 1 && q.n[0].unit.dim == noUnit {
				if text, end, ok := readRingSize(p.low, i); ok && end == q.end {
					return e, p.give(k, catalogue.Value{Text: text}, i, e)
				}
			}
		}
	}
	if j := spaces(p.low, q.end); j < len(p.low) && (p.low[j] == 'x' || p.low[j] == '*') && !letterAt(p.low, j+1) {
		given := p.low[i : j+1]
		return j, faultf(i, j+1, p.sample(p.free(catalogue.Size)), "behind %s the other side of the size is missing", shown(given))
	}
	p.pending = append(p.pending, q)
	return q.end, nil
}

// quantityValue makes an option's value of a quantity, after settling what
// "g" and "in" mean.
func (p *parser) quantityValue(k int, q quantity, asGauge bool) (catalogue.Value, *fault) {
	o := &p.spec.Options[k]
	if p.vagueInch(q) {
		inch, fInch := valueOf(o, p.low, q, asGauge)
		mm := q
		for i := range mm.n[:min(mm.count, maxSides)] {
			mm.n[i].unit = unit{}
		}
		mm.end = q.last().end
		millimetre, fMM := valueOf(o, p.low, mm, asGauge)
		switch {
		case fInch != nil && fMM == nil:
			return millimetre, nil
		case fInch == nil && fMM == nil:
			return catalogue.Value{}, faultf(q.start, q.end, []string{millimetre.Text + " mm", plain(q.n[0].value) + " inch"},
				"%s can be %s mm or %s mm (inches); write mm or inch", shown(p.low[q.start:q.end]), strings.TrimSuffix(millimetre.Text, "mm"), strings.TrimSuffix(inch.Text, "mm"))
		}
		return inch, fInch
	}
	return valueOf(o, p.low, q, asGauge)
}

// vagueInch reports whether the "in" after a quantity may be the word: a
// choice follows ("8x6 in sterling") and nothing else speaks for inches.
func (p *parser) vagueInch(q quantity) bool {
	n := q.last()
	if n.unit.dim != lengthUnit || n.unitEnd == n.end {
		return false
	}
	from := spaces(p.low, n.end)
	if from == n.end || p.low[from:n.unitEnd] != "in" {
		return false
	}
	for _, n := range q.n[:min(q.count, maxSides)] {
		if n.fraction || n.value < 1 {
			return false
		}
	}
	if _, _, e := p.bareChoice(p.skip(n.unitEnd)); e < 0 {
		return p.stopWord(spaces(p.low, n.unitEnd)) >= 0
	}
	return true
}

// resolve assigns the numbers that came without a name to bare options: first
// those whose form or unit leaves one place, then the others in the order in
// which they were typed.
func (p *parser) resolve() *fault {
	if len(p.pending) == 0 {
		return nil
	}
	var vague []quantity
	for _, q := range p.pending {
		k := p.strong(q)
		if k < 0 {
			vague = append(vague, q)
			continue
		}
		if q.n[0].unit.dim == gUnit && p.mass {
			num := plain(q.n[0].value)
			return faultf(q.start, q.end, []string{num + "ga", num + " gram"}, "%sg can be a gauge or a mass; write %sga or %s gram", num, num, num)
		}
		v, f := p.quantityValue(k, q, true)
		if f == nil {
			f = p.give(k, v, q.start, q.end)
		} else if f.fix == nil {
			f.fix = p.sample(k)
		}
		if f != nil {
			return f
		}
	}
	for _, q := range vague {
		if f := p.giveBare(q); f != nil {
			return f
		}
	}
	return nil
}

// strong returns the one option that a quantity's form or unit points to, or -1.
func (p *parser) strong(q quantity) int {
	d := q.n[0].unit.dim
	if q.count == 1 && (d == noUnit || d == lengthUnit) {
		return -1
	}
	taken := -1
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if !o.Bare || !numeric(o) || !takes(o, d) || q.count > 1 && o.Kind != catalogue.Size {
			continue
		}
		if !p.given[k] {
			return k
		}
		taken = k
	}
	return taken // give then says that it is there twice; -1: giveBare says more
}

// thickSheetMM is where a length after a single side is no longer taken for a
// thickness without asking.
const thickSheetMM = 1.5

// giveBare assigns a single number to the first bare option that it fits.
func (p *parser) giveBare(q quantity) *fault {
	var first *fault
	d := q.n[0].unit.dim
	candidates := 0
	if p.otherSide(q) {
		return p.unclaimed(q)
	}
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if !o.Bare || p.given[k] || q.count > 1 && o.Kind != catalogue.Size {
			continue
		}
		if o.Kind == catalogue.RingSize && d == noUnit {
			if text, end, ok := readRingSize(p.low, q.start); ok && end == q.end {
				return p.give(k, catalogue.Value{Text: text}, q.start, q.end)
			}
			continue
		}
		// 22 or 0.64 alone: gauge, mm or inch?
		unclear := o.Kind == catalogue.Thickness && d == noUnit && o.Name != "gauge"
		if unclear || !numeric(o) || !takes(o, d) {
			continue
		}
		v, f := p.quantityValue(k, q, o.Name == "gauge")
		if f == nil {
			return p.give(k, v, q.start, q.end)
		}
		candidates++
		if first == nil {
			first = f
			if f.fix == nil {
				first.fix = p.sample(k)
			}
		}
	}
	if first != nil && candidates == 1 || first != nil && q.bad() {
		return first
	}
	return p.unclaimed(q)
}

// otherSide reports whether a length after a single side, "8mm 6mm", is too
// thick for a sheet, so rather the stone's other side.
func (p *parser) otherSide(q quantity) bool {
	k := p.halfSize(q)
	if k < 0 || q.n[0].unit.dim != lengthUnit || q.bad() {
		return false
	}
	mm := inMM(q.n[0])
	return mm >= thickSheetMM && mm*4 >= p.set[k].Number
}

// unclaimed is the fault of a number that no option takes.
func (p *parser) unclaimed(q quantity) *fault {
	given := p.low[q.start:q.end]
	f := faultf(q.start, q.end, nil, "")
	if q.bad() {
		f.problem = fmt.Sprintf("%s is not a number", shown(given))
		f.fix = []string{""}
		return f
	}
	var could []string
	if k := p.halfSize(q); k >= 0 {
		n := q.n[0]
		side := strings.TrimLeft(p.low[n.start:n.unitEnd], "+-")
		whole := p.low[p.spans[k][0]:p.spans[k][1]] + "x" + side
		f.problem = fmt.Sprintf("what is %s? if it is the other side of the size, write %s", shown(given), short40(whole))
		f.start, f.fix = p.spans[k][0], []string{whole}
		return f
	}
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if p.given[k] || !numeric(o) || !takes(o, q.n[0].unit.dim) || q.count > 1 && o.Kind != catalogue.Size || len(could) == 3 {
			continue
		}
		if n := q.n[0]; o.Kind == catalogue.Thickness && n.unit.dim == noUnit && n.whole && n.value >= 10 {
			if v, bad := valueOf(o, p.low, q, true); bad == nil {
				could = append(could, v.Text)
				continue
			}
		}
		if v, bad := valueOf(o, p.low, q, false); bad == nil {
			if o.Kind == catalogue.Thickness && v.Number < 2 { // more likely than a depth
				could = append([]string{o.Name + " " + v.Text}, could...)
				continue
			}
			could = append(could, o.Name+" "+v.Text)
		}
	}
	f.fix = append(slices.Clone(could), "")
	switch len(could) {
	case 0:
		f.problem = fmt.Sprintf("%s doesn't understand %s", p.spec.Name, shown(given))
	default:
		f.problem = fmt.Sprintf("what is %s? give it its name: %s", shown(given), orList(could))
	}
	return f
}

// halfSize returns the Size option that has one side, typed right before q, where
// q may be the other side; or -1.
func (p *parser) halfSize(q quantity) int {
	if d := q.n[0].unit.dim; q.count != 1 || d != noUnit && d != lengthUnit {
		return -1
	}
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if o.Kind != catalogue.Size || !p.given[k] || len(p.set[k].Numbers) != 1 || p.spans[k][1] > q.start {
			continue
		}
		between := strings.Fields(p.low[p.spans[k][1]:q.start])
		if !slices.ContainsFunc(between, func(w string) bool { return !slices.Contains(stopWords, w) }) {
			return k
		}
	}
	return -1
}

// orList joins words: "a, b or c".
func orList(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}
