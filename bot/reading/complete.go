package reading

import (
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

// Completion is one word that may come at the cursor.
type Completion struct {
	// Text replaces the word before the cursor, back to the last blank.
	Text string
	// Summary is one short line about it; may be empty.
	Summary string
}

// maxCompletions bounds an answer; slash commands take no more either.
const maxCompletions = 25

// Complete returns the words that may come next in a line, from the catalogue
// alone: request words, then option names, choices and usual values. cursor is
// a byte offset; what comes after it is ignored.
func Complete(specs []catalogue.Spec, shop *stock.Workshop, line string, cursor int) []Completion {
	if len(line) > 4*MaxLine {
		return nil
	}
	line = line[:min(max(cursor, 0), len(line))]
	begin := strings.LastIndexByte(line, ' ') + 1
	before := readTyped(line[:begin]).low
	return complete(specs, shop, before, readTyped(line[begin:]).low)
}

func complete(specs []catalogue.Spec, shop *stock.Workshop, before, partial string) []Completion {
	p := parser{specs: specs, look: Lookups{Shop: shop}}
	p.typed = typed{raw: before, low: before}
	i := p.skip(0)
	if i >= len(before) {
		var list listing
		for k := range specs {
			list.add(partial, specs[k].Name, specs[k].Summary)
		}
		return list.words
	}
	spec, end := p.request(i)
	if spec == nil {
		return nil
	}
	p.start(spec)
	open := p.tour(end)
	if open.inner >= 0 {
		return complete(specs, shop, before[open.inner:], partial)
	}
	var list listing
	if open.option >= 0 {
		list.values(&spec.Options[open.option], p.choices[open.option], partial)
		if o := &spec.Options[open.option]; o.Kind != catalogue.Words && o.Kind != catalogue.Flag {
			return list.words
		}
	}
	for k := range spec.Options {
		if o := &spec.Options[k]; o.Bare && !p.given[k] && p.excluded(k) < 0 {
			list.values(o, p.choices[k], partial)
			if o.Kind == catalogue.Text {
				for s := range specs {
					list.add(partial, specs[s].Name, specs[s].Summary)
				}
			}
		}
	}
	for k := range spec.Options {
		if o := &spec.Options[k]; !p.given[k] && p.excluded(k) < 0 {
			list.add(partial, o.Name, o.Summary)
		}
	}
	return list.words
}

// opening is where a line that is being typed stands.
type opening struct {
	// option is the one whose name was typed last and whose value comes now,
	// or -1; inner is where a request inside this one starts, or -1.
	option, inner int
}

// tour goes over the words of a line that may still be wrong, and notes which
// options are there.
func (p *parser) tour(i int) opening {
	at := opening{-1, -1}
	for {
		i = p.skip(i)
		if i >= len(p.low) {
			return at
		}
		next := wordEnd(p.low, i)
		k, e := p.optionName(i)
		b, _, c := p.bareChoice(i)
		text := p.free(catalogue.Text)
		switch {
		case at.option >= 0 && k < 0: // the value that was open
			at.option = -1
		case k >= 0 && e >= c:
			at.option, next = k, e
			if p.given[k] { // "12 makers": its value stood before
				at.option = -1
			}
			p.given[k] = true
			if p.spec.Options[k].Kind == catalogue.Text {
				at.inner = e
				return at
			}
		case b >= 0:
			p.given[b], next = true, c
		case numberAt(p.low, i):
			q, _ := readQuantity(p.low, i, func(unit, int, int) bool { return true })
			next = max(q.end, i+1)
			if s := p.strong(q); s >= 0 {
				p.given[s] = true
			} else if s := p.free(catalogue.Size); s >= 0 {
				p.given[s] = true
			} else if s := p.free(catalogue.Integer); s >= 0 {
				p.given[s] = true
			}
		case text >= 0:
			if spec, _ := p.request(i); spec != nil {
				at.inner = i
				return at
			}
		}
		i = max(next, i+1)
	}
}

// listing collects completions that start with what was typed, each once.
type listing struct{ words []Completion }

func (l *listing) add(partial, text, summary string) {
	if len(l.words) >= maxCompletions || !strings.HasPrefix(strings.ToLower(text), partial) {
		return
	}
	for _, w := range l.words {
		if w.Text == text {
			return
		}
	}
	l.words = append(l.words, Completion{text, summary})
}

func (l *listing) values(o *catalogue.Option, choices []catalogue.Choice, partial string) {
	for _, c := range choices {
		l.add(partial, c.Key, c.Summary)
	}
	// An alias that was begun leads to its word.
	if len(partial) > 1 {
		for _, c := range choices {
			for _, a := range c.Aliases {
				if strings.HasPrefix(strings.ToLower(a), partial) {
					l.add("", c.Key, c.Summary)
				}
			}
		}
	}
	for _, s := range o.Suggest {
		l.add(partial, s, o.Summary)
	}
	if o.Default != "" && len(choices) == 0 {
		l.add(partial, o.Default, o.Summary)
	}
}
