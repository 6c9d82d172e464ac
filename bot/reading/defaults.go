package reading

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// complete checks what goes together, fills what was not typed and asks for what
// is missing.
func (p *parser) complete() (Parsed, error) {
	spec := p.spec
	out := Parsed{Spec: spec}
	for k := range spec.Options {
		if p.given[k] {
			if other := p.excluded(k); other >= 0 {
				a, b := min(k, other), max(k, other)
				return out, &answer.Refusal{
					Problem: fmt.Sprintf("%s and %s can't both be given; leave one out", spec.Options[a].Name, spec.Options[b].Name),
					Try:     p.try(p.without(b), p.without(a)),
				}
			}
		}
	}
	notes, err := p.fillFromBench()
	if err != nil {
		return out, err
	}
	out.Notes = notes
	var missing []int
	for k := range spec.Options {
		o := &spec.Options[k]
		if p.given[k] {
			continue
		}
		if o.Default != "" {
			v, f := readAlone(o, p, k, o.Default)
			if f != nil {
				return out, fmt.Errorf("reading: default %q of %s %s: %w", o.Default, spec.Name, o.Name, f)
			}
			v.Source, v.Note = catalogue.FromDefault, o.DefaultNote
			p.fill(k, v)
			continue
		}
		if p.excluded(k) >= 0 {
			continue
		}
		if o.Required && !p.anyGiven(o.Unless) && (o.NotRequired == nil || !o.NotRequired(p.args())) {
			missing = append(missing, k)
		}
	}
	if len(missing) > 0 {
		return out, p.ask(missing)
	}
	out.Args, out.NoBench, out.parser = p.args(), p.noBench, p
	out.Line = p.line(catalogue.FromGuild)
	return out, nil
}

// fill gives option k a value that was not typed, unless another keeps it out:
// then it is put by, in case that one turns out to be of no use.
func (p *parser) fill(k int, v catalogue.Value) {
	other := p.excluded(k)
	if other < 0 {
		p.set[k], p.given[k] = v, true
		return
	}
	if p.set[other].Source == catalogue.Typed {
		return
	}
	if p.displaced == nil {
		p.displaced = map[string]catalogue.Args{}
	}
	by := p.spec.Options[other].Name
	if p.displaced[by] == nil {
		p.displaced[by] = catalogue.Args{}
	}
	if name := p.spec.Options[k].Name; !p.displaced[by].Has(name) {
		p.displaced[by][name] = v
	}
}

// args are the options that have a value so far.
func (p *parser) args() catalogue.Args {
	args := make(catalogue.Args, len(p.spec.Options))
	for k := range p.spec.Options {
		if p.given[k] {
			args[p.spec.Options[k].Name] = p.set[k]
		}
	}
	return args
}

// excluded returns an option with a value that can't go with option k, or -1.
func (p *parser) excluded(k int) int {
	for i := range p.spec.Options {
		if i == k || !p.given[i] {
			continue
		}
		if p.spec.Options[i].RulesOut(&p.spec.Options[k]) {
			return i
		}
	}
	return -1
}

func (p *parser) anyGiven(names []string) bool {
	for i := range p.spec.Options {
		if p.given[i] && slices.Contains(names, p.spec.Options[i].Name) {
			return true
		}
	}
	return false
}

// fillFromBench fills what was not typed from the benches, strongest first. A
// value that the option does not know any more is left out, and said so.
func (p *parser) fillFromBench() (notes []string, err error) {
	if p.look.Bench == nil || p.noBench {
		return nil, nil
	}
	wanted := false
	for k := range p.spec.Options {
		wanted = wanted || p.spec.Options[k].Bench && !p.given[k]
	}
	if !wanted {
		return nil, nil
	}
	layers, err := p.look.Bench()
	if err != nil {
		return nil, err
	}
	for _, l := range layers {
		for k := range p.spec.Options {
			o := &p.spec.Options[k]
			text, ok := l.Values[o.Name]
			if !ok || !o.Bench || p.given[k] {
				continue
			}
			v, f := readAlone(o, p, k, text)
			if f != nil {
				notes = append(notes, fmt.Sprintf("%s %s (%s) was not used: %s", o.Name, short40(text), l.Note, f.problem))
				continue
			}
			v.Source, v.Note = l.Source, l.Note
			p.fill(k, v)
		}
	}
	return notes, nil
}

// read reads a value that stands alone, such as a default, a bench value or a
// slash option's text: all of it has to be the value.
func readAlone(o *catalogue.Option, p *parser, k int, text string) (catalogue.Value, *fault) {
	q := *p // whole gives no option a value, so the state can be shared
	q.depth, q.typed = maxDepth, readTyped(text)
	return q.whole(k)
}

// whole reads all of the line as the value of option k.
func (p *parser) whole(k int) (catalogue.Value, *fault) {
	o := &p.spec.Options[k]
	n := len(p.low)
	i := p.skipTo(0)
	switch o.Kind {
	case catalogue.Flag:
		switch strings.TrimSpace(p.low) {
		case "yes", "true", "on", "1":
			return catalogue.Value{Text: "yes"}, nil
		}
		return catalogue.Value{}, faultf(0, n, nil, "%s is yes or no, and not %s", o.Name, shown(p.low))
	case catalogue.Word:
		key, end := choiceAt(p.low, i, p.choices[k])
		if end >= 0 && p.skip(end) >= n {
			return catalogue.Value{Text: key}, nil
		}
		f := p.badValue(k, 0, 0, i)
		f.end = n
		return catalogue.Value{}, f
	case catalogue.Text, catalogue.Words, catalogue.Single:
		return p.wholeText(k)
	case catalogue.Points:
		v, end, f := readPoints(o, p.low, i)
		if f == nil {
			f = p.leftOver(k, end)
		}
		return v, f
	case catalogue.RingSize:
		text, end, ok := p.sizeInSystem(k, i)
		if !ok {
			text, end, ok = readRingSize(p.low, i)
		}
		if !ok {
			return catalogue.Value{}, p.badValue(k, 0, 0, i)
		}
		return catalogue.Value{Text: text}, p.leftOver(k, end)
	}
	q, ok := readQuantity(p.low, i, func(unit, int, int) bool { return true })
	if !ok {
		return catalogue.Value{}, p.notOfOption(k)
	}
	if f := p.leftOver(k, q.end); f != nil {
		return catalogue.Value{}, f
	}
	return valueOf(o, p.low, q, o.Name == "gauge")
}

// wholeText reads all of the line as the text, the words or the one word of
// option k.
func (p *parser) wholeText(k int) (catalogue.Value, *fault) {
	o := &p.spec.Options[k]
	n := len(p.low)
	switch o.Kind {
	case catalogue.Words:
		var list []string
		for j := p.skip(0); j < n; j = p.skip(j) {
			e := wordEnd(p.low, j)
			list = append(list, strings.TrimRight(p.low[j:e], wordMarks))
			j = e
		}
		return catalogue.Value{Text: strings.Join(list, " ")}, nil
	case catalogue.Single:
		text, end := p.single(p.skipTo(0))
		if text == "" {
			return catalogue.Value{}, faultf(0, n, nil, "%s needs a word", o.Name)
		}
		return catalogue.Value{Text: text}, p.leftOver(k, end)
	}
	text := unquoted(cleanText(p.raw))
	if text == "" {
		return catalogue.Value{}, faultf(0, n, nil, "%s needs some text", o.Name)
	}
	return catalogue.Value{Text: text}, nil
}

// leftOver is the fault of a line that has more than the value of option k, which
// ends at end.
func (p *parser) leftOver(k, end int) *fault {
	if p.skip(end) < len(p.low) {
		return p.notOfOption(k)
	}
	return nil
}

// notOfOption is the fault of a line that is no value of option k.
func (p *parser) notOfOption(k int) *fault {
	o := &p.spec.Options[k]
	return faultf(0, len(p.low), nil, "%s %s is not %s%s", o.Name, shown(p.low), o.Noun(), p.hint(k))
}

// parseOptions reads the structured form.
func (p *parser) parseOptions(word string, options map[string]string) (Parsed, error) {
	p.typed = readTyped(word)
	i := p.skip(0)
	spec, end := p.request(i)
	if spec == nil || p.skip(end) < len(p.low) {
		return Parsed{}, p.noRequest(i)
	}
	p.start(spec)
	total := 0
	names := make([]string, 0, len(options))
	for name, text := range options {
		total += utf8.RuneCountInString(text)
		names = append(names, name)
	}
	if total > MaxLine {
		return Parsed{Spec: spec}, answer.Refuse(p.example(), "the question is %d characters long; up to %d are read", total, MaxLine)
	}
	slices.Sort(names)
	for _, name := range names {
		if strings.TrimSpace(options[name]) == "" {
			continue
		}
		o, ok := spec.Option(strings.ToLower(name))
		if !ok {
			p.typed = readTyped(name)
			return Parsed{Spec: spec}, answer.Refuse(p.example(), "%s", p.unknown(0).problem)
		}
		k := slices.IndexFunc(spec.Options, func(x catalogue.Option) bool { return x.Name == o.Name })
		if o.Kind == catalogue.Flag && slices.Contains([]string{"no", "false", "off", "0"}, strings.ToLower(strings.TrimSpace(options[name]))) {
			continue
		}
		v, f := readAlone(o, p, k, options[name])
		if f == nil {
			f = p.give(k, v, 0, 0)
		}
		if f != nil {
			return Parsed{Spec: spec}, &answer.Refusal{Problem: f.problem, Try: p.try(p.mended(k, f.fix, options)...)}
		}
	}
	return p.complete()
}

// mended writes structured options as lines with a value that works in place of
// option k's.
func (p *parser) mended(k int, fixes []string, options map[string]string) []string {
	if s := p.sampleText(k); s != "" {
		fixes = append(slices.Clone(fixes), s)
	}
	args := catalogue.Args{}
	for name, text := range options {
		if o, ok := p.spec.Option(strings.ToLower(name)); ok && strings.TrimSpace(text) != "" {
			args[o.Name] = catalogue.Value{Text: text}
		}
	}
	o := &p.spec.Options[k]
	var lines []string
	for _, fix := range append(fixes, "") {
		args[o.Name] = catalogue.Value{Text: strings.TrimPrefix(fix, o.Name+" ")}
		if fix == "" {
			delete(args, o.Name)
		}
		lines = append(lines, p.write(args, false))
	}
	return lines
}
