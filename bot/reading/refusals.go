package reading

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// refusal makes a refusal of a fault: its sentence, and the whole line with the
// part that is wrong mended, read again to see that it works.
func (p *parser) refusal(f *fault) *answer.Refusal {
	fixes := f.fix
	if len(fixes) == 0 {
		fixes = []string{""}
	}
	lines := make([]string, len(fixes))
	for i, fix := range fixes {
		if fix != "" {
			fix = " " + fix + " "
		}
		lines[i] = p.replace(f.start, max(f.start, f.end), fix)
	}
	return &answer.Refusal{Problem: f.problem, Try: p.try(lines...)}
}

// try returns the first of the lines that works, in canonical form; else one that
// works with what its own refusal suggests; else, for the maker's own line, an
// example of the request.
func (p *parser) try(lines ...string) string {
	second := ""
	if p.depth < maxDepth {
		for _, l := range lines {
			sub := parser{specs: p.specs, look: Lookups{Shop: p.look.Shop}, depth: p.depth + 1}
			parsed, err := sub.parse(l)
			if err == nil {
				return parsed.Line
			}
			if r, ok := answer.AsRefusal(err); ok && second == "" {
				second = r.Try
			}
		}
	}
	if second == "" && p.depth == 0 {
		return p.example()
	}
	return second
}

// example returns a line of the request, or of the first request, that works.
func (p *parser) example() string {
	if p.depth > 0 {
		return ""
	}
	if p.spec != nil && len(p.spec.Examples) > 0 {
		return p.spec.Examples[0].Line
	}
	for i := range p.specs {
		if len(p.specs[i].Examples) > 0 {
			return p.specs[i].Examples[0].Line
		}
	}
	return ""
}

// words lists the request words.
func (p *parser) words() string {
	names := make([]string, len(p.specs))
	for i := range p.specs {
		names[i] = p.specs[i].Name
	}
	return orList(names)
}

// noRequest refuses a line that does not start with a request word.
func (p *parser) noRequest(i int) error {
	var list []candidate
	for k := range p.specs {
		list = append(list, candidate{-1, p.specs[k].Name, p.specs[k].Name, ""})
	}
	end := wordPart(p.low, i)
	given := shown(p.low[i:end])

	// What starts with a stone or a size is a request without its word.
	if line := p.withRequest(i); line != "" {
		return answer.Refuse(line, "a question starts with its request word; did you mean: %s?", line)
	}
	best := nearest(p.low, i, list)
	best = slices.DeleteFunc(best, func(m match) bool { return m.score >= mentionedScore })
	if len(best) > 0 {
		lines := make([]string, len(best))
		for k, m := range best {
			lines[k] = m.put + " " + p.raw[p.rawAt(m.end):]
		}
		return answer.Refuse(p.try(lines...), "there is no request %s; did you mean %s?", given, orList(puts(best)))
	}
	// A request word further on: "can you do a collet oval 8x6".
	for j := end; j < len(p.low) && p.depth == 0; j = wordEnd(p.low, p.skip(j)) {
		k := p.skip(j)
		if spec, _ := p.request(k); spec != nil {
			line := p.raw[p.rawAt(k):]
			p.spec = spec
			return answer.Refuse(p.try(line), "a question starts with its request word, %s; %s comes before it", spec.Name, given)
		}
		if k >= len(p.low) {
			break
		}
	}
	return answer.Refuse(p.example(), "there is no request %s; the requests are %s", given, p.words())
}

// withRequest puts request words before a line whose first word is a bare
// choice or a size, and returns the first that works.
func (p *parser) withRequest(i int) string {
	if p.depth > 0 {
		return ""
	}
	second := ""
	for _, k := range p.namedFirst(i) {
		if p.specs[k].Keeps {
			continue // nothing is changed by a guess
		}
		sub := parser{specs: p.specs, look: Lookups{Shop: p.look.Shop}, depth: p.depth + 1, typed: p.typed}
		sub.start(&p.specs[k])
		if _, _, e := sub.bareChoice(i); e < 0 && !sub.bareTakesNumber(i) {
			continue
		}
		line := p.specs[k].Name + " " + p.raw[p.rawAt(i):]
		parsed, err := sub.parse(line)
		if err == nil {
			return parsed.Line
		}
		if r, ok := answer.AsRefusal(err); ok && second == "" {
			second = r.Try
		}
	}
	return second
}

// namedFirst is the order in which requests are tried: those whose word stands
// in the line from i on, "22 gauge", before the others.
func (p *parser) namedFirst(i int) []int {
	var named, others []int
	for k := range p.specs {
		if hasWord(p.low[i:], p.specs[k].Name) {
			named = append(named, k)
		} else {
			others = append(others, k)
		}
	}
	return append(named, others...)
}

// bareTakesNumber reports whether a number at i can stand without a name.
func (p *parser) bareTakesNumber(i int) bool {
	q, ok := readQuantity(p.low, i, func(unit, int, int) bool { return true })
	if !ok {
		return false
	}
	for k := range p.spec.Options {
		if o := &p.spec.Options[k]; o.Bare && numeric(o) && takes(o, q.n[0].unit.dim) && (q.count == 1 || o.Kind == catalogue.Size) {
			return true
		}
	}
	return false
}

// unknown is the fault of a word that is no option.
func (p *parser) unknown(i int) *fault {
	end := max(wordPart(p.low, i), i+1)
	for end < len(p.low) && p.low[end]&0xc0 == 0x80 {
		end++
	}
	given := shown(p.low[i:end])
	if instead, ok := p.spec.Retired[p.low[i:end]]; ok {
		if j := p.skip(end); digitAt(p.low, j) {
			end = wordEnd(p.low, j) // with its value
		}
		return faultf(i, end, []string{""}, "%s", instead)
	}
	if p.low[i] == '#' && digitAt(p.low, i+1) && p.free(catalogue.Thickness) >= 0 {
		n, _ := readNumber(p.low, i+1)
		return faultf(i, n.end, []string{p.low[i+1:n.end] + "ga"}, "%s may be a gauge number; write %sga", shown(p.low[i:n.end]), short40(p.low[i+1:n.end]))
	}
	for k := range p.spec.Options {
		if o := &p.spec.Options[k]; o.Kind == catalogue.Word && !o.Bare && !p.given[k] {
			if key, e := choiceAt(p.low, i, p.choices[k]); e >= 0 {
				return faultf(i, e, []string{o.Name + " " + key, ""}, "%s needs its option's name before it: %s %s", shown(p.low[i:e]), o.Name, key)
			}
		}
	}
	if best := nearest(p.low, i, p.candidates()); len(best) > 0 {
		m := best[0]
		given = shown(p.low[i:m.end])
		what := "option"
		if o := &p.spec.Options[m.option]; m.put != o.Name {
			what = o.Name
		}
		return faultf(i, m.end, puts(best), "there is no %s %s; did you mean %s?", what, given, orList(puts(best)))
	}
	_ = p.resolve() // numbers already read have taken their place
	var names []string
	for k := range p.spec.Options {
		if !p.given[k] && p.excluded(k) < 0 && len(names) < 8 {
			names = append(names, p.spec.Options[k].Name)
		}
	}
	if len(names) == 0 {
		return faultf(i, end, []string{""}, "%s takes nothing more, and %s is left over", p.spec.Name, given)
	}
	return faultf(i, end, []string{""}, "%s doesn't know %s; it can still take %s", p.spec.Name, given, orList(names))
}

// badValue is the fault of a name whose value at j is missing or invalid.
func (p *parser) badValue(k, start, nameEnd, j int) *fault {
	o := &p.spec.Options[k]
	fix := p.withName(o)
	missing := j >= len(p.low)
	if !missing {
		if n, e := p.optionName(j); n >= 0 && e > j {
			missing = true
		}
		if b, _, _ := p.bareChoice(j); b >= 0 {
			missing = true
		}
	}
	if missing {
		name, noun := o.Name, o.Noun()
		if nameEnd > start {
			name = short40(p.low[start:nameEnd])
		}
		if strings.HasSuffix(noun, " "+name) {
			noun = "a value"
		}
		return faultf(start, nameEnd, fix, "%s needs %s%s", name, noun, p.hint(k))
	}
	end := max(wordEnd(p.low, j), j)
	if o.Kind == catalogue.Word {
		if best := nearest(p.low, j, p.choiceCandidates(k, nil)); len(best) > 0 {
			list := puts(best)
			fix = nil
			for _, w := range list {
				fix = append(fix, o.Name+" "+w)
			}
			return faultf(start, best[0].end, fix, "there is no %s %s; did you mean %s?", o.Name, shown(p.low[j:best[0].end]), orList(list))
		}
		return faultf(start, end, fix, "there is no %s %s%s", o.Name, shown(p.low[j:end]), p.hint(k))
	}
	return faultf(start, end, fix, "%s %s is not %s%s", o.Name, shown(p.low[j:end]), o.Noun(), p.hint(k))
}

// hint says what an option takes, as the end of a sentence.
func (p *parser) hint(k int) string {
	o := &p.spec.Options[k]
	switch o.Kind {
	case catalogue.Word:
		var keys []string
		for _, c := range p.choices[k] {
			if len(keys) == 12 {
				return "; there are " + strings.Join(keys, ", ") + " and others"
			}
			keys = append(keys, c.Key)
		}
		if len(keys) == 0 {
			return ""
		}
		return "; it takes " + orList(keys)
	case catalogue.Points:
		return ": pairs x,y in mm, such as 0,0 8,0 8,6"
	case catalogue.RingSize:
		return ", such as 7 1/2, N or 54"
	case catalogue.Text, catalogue.Words, catalogue.Single:
		return ""
	}
	return "; it takes " + o.Range()
}

// withName is the option with a value that works, for a line to try.
func (p *parser) withName(o *catalogue.Option) []string {
	for k := range p.spec.Options {
		if &p.spec.Options[k] == o {
			if s := p.sampleText(k); s != "" {
				if o.Kind == catalogue.Flag {
					return []string{o.Name}
				}
				return []string{o.Name + " " + s, ""}
			}
		}
	}
	return []string{""}
}

// sample is a value that works for option k, for a line to try.
func (p *parser) sample(k int) []string {
	if k < 0 {
		return nil
	}
	if s := p.sampleText(k); s != "" {
		return []string{s, ""}
	}
	return []string{""}
}

// sampleText finds a value that works: what the request says, what its examples
// have, a suggestion, the default, a choice, or a number in the range.
func (p *parser) sampleText(k int) string {
	o := &p.spec.Options[k]
	if o.Sample != nil {
		return o.Sample(p.args())
	}
	if o.Kind == catalogue.Word && o.Default != "" {
		return o.Default
	}
	if s := p.exampleValue(k); s != "" {
		return s
	}
	if len(o.Suggest) > 0 {
		return o.Suggest[0]
	}
	if o.Default != "" {
		return o.Default
	}
	if len(p.choices[k]) > 0 {
		return p.choices[k][0].Key
	}
	switch o.Kind {
	case catalogue.Flag:
		return "yes"
	case catalogue.Points:
		return "0,0 8,0 8,6 0,6"
	case catalogue.RingSize:
		return "7"
	case catalogue.Text, catalogue.Words, catalogue.Word, catalogue.Single:
		return ""
	}
	least, most := o.Limits()
	v := least + (most-least)/2
	if least > 0 {
		v = math.Sqrt(least) * math.Sqrt(most)
	}
	if r := math.Round(v); r >= least && r <= most {
		v = r
	}
	text := plain(tidy(v))
	if o.Kind == catalogue.Force {
		text += "N"
	}
	return text
}

// exampleValue finds option k in the request's own examples.
func (p *parser) exampleValue(k int) string {
	if p.depth >= maxDepth {
		return ""
	}
	for _, e := range p.spec.Examples {
		sub := parser{specs: p.specs, look: Lookups{Shop: p.look.Shop}, depth: maxDepth}
		parsed, err := sub.parse(e.Line)
		if err != nil || parsed.Spec.Name != p.spec.Name {
			continue
		}
		if v, ok := parsed.Args[p.spec.Options[k].Name]; ok && v.Source == catalogue.Typed {
			return v.Text
		}
	}
	return ""
}

// ask refuses a request that lacks options: it asks for the first, and the line
// to try has a value for each.
func (p *parser) ask(missing []int) *answer.Refusal {
	o := &p.spec.Options[missing[0]]
	question := o.Prompt
	if question == "" {
		question = fmt.Sprintf("what is the %s?", o.Name)
	}
	given := slices.Clone(p.given)
	for _, k := range missing {
		s := p.sampleText(k)
		if s == "" {
			continue
		}
		v, f := readAlone(&p.spec.Options[k], p, k, s)
		if f == nil {
			p.set[k], p.given[k] = v, true
		}
	}
	line := p.line(catalogue.Typed)
	p.given = given
	return &answer.Refusal{Problem: question, Try: p.try(line)}
}
