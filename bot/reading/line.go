package reading

import (
	"strings"

	"guildhand/bot/catalogue"
)

// noBench in a line says that no bench and no trial of its asker counts: the
// line alone says what is asked.
const noBench = "no bench"

// Echo is a canonical line as a phone shows it, without what only keeps benches
// out.
func Echo(line string) string { return strings.Replace(line, " "+noBench, "", 1) }

// noBenchAt returns the end of "no bench" or "without bench" at i, or -1. Requests
// that no bench fills don't know it.
func (p *parser) noBenchAt(i int) int {
	fills := false
	for k := range p.spec.Options {
		fills = fills || p.spec.Options[k].Bench
	}
	if !fills {
		return -1
	}
	return max(matchPhrase(p.low, i, noBench), matchPhrase(p.low, i, "without bench"))
}

// line writes what was read so far, with the values of sources up to weakest.
func (p *parser) line(weakest catalogue.Source) string {
	args := p.args()
	for name, v := range args {
		if v.Source > weakest {
			delete(args, name)
		}
	}
	return p.write(args, p.noBench)
}

// without is the typed line without option k.
func (p *parser) without(k int) string {
	args := p.args()
	delete(args, p.spec.Options[k].Name)
	return p.write(args, p.noBench)
}

// write is the one writer of a request as a line: bare words and sizes first, as
// people type them, then names and values, then what takes the rest of the line.
// The line reads back as the same values: where bare ones would not ("us" and
// "letter" are a paper together), all have their names.
func (p *parser) write(args catalogue.Args, alone bool) string {
	args = p.values(args)
	if line := p.compose(args, alone, true); p.readsBack(line, args) {
		return line
	}
	return p.compose(args, alone, false)
}

// values reads those values of which only the text is known.
func (p *parser) values(args catalogue.Args) catalogue.Args {
	full := make(catalogue.Args, len(args))
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		v, ok := args[o.Name]
		if !ok {
			continue
		}
		if numeric(o) && v.Number == 0 && !v.HasGauge {
			if read, f := readAlone(o, p, k, v.Text); f == nil {
				v = read
			}
		}
		full[o.Name] = v
	}
	return full
}

func (p *parser) readsBack(line string, args catalogue.Args) bool {
	q := parser{specs: p.specs, look: Lookups{Shop: p.look.Shop}, depth: maxDepth, typed: readTyped(line)}
	spec, end := q.request(q.skip(0))
	if spec == nil || spec.Name != p.spec.Name {
		return false
	}
	q.start(spec)
	if q.scan(end) != nil || q.resolve() != nil {
		return false
	}
	for k := range spec.Options {
		v, written := args[spec.Options[k].Name]
		if q.given[k] != written || written && q.set[k].Text != v.Text {
			return false
		}
	}
	return true
}

// lateness is the order in which kinds stand in a line: points end where no
// pair follows, words at the next name, text never.
func lateness(k catalogue.Kind) int {
	switch k {
	case catalogue.Points:
		return 1
	case catalogue.Words:
		return 2
	case catalogue.Text:
		return 3
	}
	return 0
}

func (p *parser) compose(args catalogue.Args, alone, bare bool) string {
	words := []string{p.spec.Name}
	for late := range 4 {
		for k := range p.spec.Options {
			o := &p.spec.Options[k]
			v, ok := args[o.Name]
			if !ok || lateness(o.Kind) != late {
				continue
			}
			switch {
			case o.Kind == catalogue.Flag:
				words = append(words, o.Name)
			case bare && o.Bare && p.standsBare(k, v):
				words = append(words, v.Text)
			default:
				words = append(words, o.Name, v.Text)
			}
		}
		if late == 0 && alone {
			words = append(words, noBench)
		}
	}
	return strings.Join(words, " ")
}

// standsBare reports whether option k's value says by itself whose it is.
func (p *parser) standsBare(k int, v catalogue.Value) bool {
	switch p.spec.Options[k].Kind {
	case catalogue.Word:
		return p.onlyChoice(k, v.Text)
	case catalogue.Size:
		return (len(v.Numbers) > 1 || p.soleNumber(k)) && p.sole(k)
	case catalogue.Thickness:
		return v.HasGauge && p.sole(k)
	case catalogue.Text:
		q := parser{specs: p.specs, spec: p.spec, typed: readTyped(v.Text)}
		request, _ := q.request(0)
		name, _ := q.optionName(0)
		return request != nil && name < 0
	}
	return false
}

// onlyChoice reports whether a word, typed alone, is read as option k's and
// nothing else.
func (p *parser) onlyChoice(k int, key string) bool {
	low := strings.ToLower(key)
	if n, e := (&parser{spec: p.spec, typed: typed{raw: low, low: low}}).optionName(0); n >= 0 && e > 0 {
		return false
	}
	for i := range p.spec.Options {
		o := &p.spec.Options[i]
		if i == k || o.Kind != catalogue.Word || !o.Bare {
			continue
		}
		if _, e := choiceAt(low, 0, p.choices[i]); e >= 0 {
			return false
		}
	}
	return !numeral(low)
}

// sole reports whether option k is the only bare one of its kind.
func (p *parser) sole(k int) bool {
	for i := range p.spec.Options {
		if o := &p.spec.Options[i]; i != k && o.Bare && o.Kind == p.spec.Options[k].Kind {
			return false
		}
	}
	return true
}

// soleNumber reports whether option k is the only bare one that takes a number
// without a unit.
func (p *parser) soleNumber(k int) bool {
	for i := range p.spec.Options {
		o := &p.spec.Options[i]
		if i != k && o.Bare && o.Kind != catalogue.Thickness && (numeric(o) || o.Kind == catalogue.RingSize) && takes(o, noUnit) {
			return false
		}
	}
	return true
}
