package reading

import (
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

// MaxLine is the longest line that is read, in characters. The longest that
// makes sense is a measured outline of 64 points, about 1,100.
const MaxLine = 1500

// Layer is one bench: values that fill what was not typed, by option name.
type Layer struct {
	Source catalogue.Source
	// Note says whose bench it is, for the answer: "your bench".
	Note   string
	Values map[string]string
}

// Lookups is what parsing draws on besides the line. The zero value serves.
type Lookups struct {
	// Shop gives the choices that depend on the workshop; may be nil.
	Shop *stock.Workshop
	// Bench gives the benches, strongest first. It is called once for a request
	// that has bench options, and not for others; may be nil.
	Bench func() ([]Layer, error)
}

// Parsed is a request that was understood.
type Parsed struct {
	Spec *catalogue.Spec
	Args catalogue.Args
	// Line is the request as it was understood, with what the bench filled in.
	// Call.Line has it as the answer used it.
	Line string
	// Notes say what was not used, such as a bench value that the workshop no
	// longer knows.
	Notes []string
	// NoBench is set where the line says that no bench counts.
	NoBench bool

	parser *parser
}

// Call makes the call of a request that was understood. Who asks, the workshop
// and what the request may draw on are still to be set.
func (p Parsed) Call() *catalogue.Call {
	return &catalogue.Call{
		Spec: p.Spec, Args: maps.Clone(p.Args), Notes: p.Notes, NoBench: p.NoBench,
		Write: p.parser.write, Displaced: p.parser.displaced,
		Progress: func(int, int, string) {},
	}
}

// Parse reads a line as people type it. The error is an *answer.Refusal where
// the maker can mend the line, and otherwise what the bench returned; Parsed
// then still has the Spec, if the request's word was understood.
//
// Options come in any order, as name and value ("depth 4", "depth=4",
// "depth4"), value and name ("12 makers"), or, for bare options, as the value
// alone ("oval 8x6 sterling 22ga"). What is not understood is never passed
// over.
func Parse(specs []catalogue.Spec, line string, look Lookups) (Parsed, error) {
	p := parser{specs: specs, look: look}
	return p.parse(line)
}

// ParseOptions reads the structured form of a request: option texts by option
// name, each by the same rules as a typed one. Empty texts count as not given.
func ParseOptions(specs []catalogue.Spec, word string, options map[string]string, look Lookups) (Parsed, error) {
	p := parser{specs: specs, look: look}
	return p.parseOptions(word, options)
}

// TypedOptions reads which options a line has, as canonical texts by name,
// whether or not it has all that its request needs. A line that says that no
// bench counts can't be written so: whole is then false.
func TypedOptions(specs []catalogue.Spec, line string, look Lookups) (options map[string]string, whole bool, err error) {
	p := parser{specs: specs, look: look}
	p.typed = readTyped(line)
	spec, end := p.request(p.skip(0))
	if spec == nil {
		return nil, false, p.noRequest(p.skip(0))
	}
	p.start(spec)
	if f := p.scan(end); f != nil {
		return nil, false, p.refusal(f)
	}
	if f := p.resolve(); f != nil {
		return nil, false, p.refusal(f)
	}
	options = map[string]string{}
	for k := range spec.Options {
		if p.given[k] {
			options[spec.Options[k].Name] = p.set[k].Text
		}
	}
	return options, !p.noBench, nil
}

// parser reads one line. Lines to try are read by further parsers, one deeper
// each, without a bench.
type parser struct {
	specs []catalogue.Spec
	look  Lookups
	depth int

	typed
	spec *catalogue.Spec
	// choices of the spec's Word options, by option.
	choices [][]catalogue.Choice
	set     []catalogue.Value
	given   []bool
	spans   [][2]int
	pending []quantity
	// last is the option that a bare value was last given to, or -1: a name
	// right after such a value is its label, as in "oval shape".
	last int
	mass bool // the spec has a Mass option, so that "g" can mean grams
	// noBench is set where the line says that no bench counts.
	noBench bool
	// displaced are values that a bench value kept out, by its option.
	displaced map[string]catalogue.Args
}

// maxDepth bounds how many mistakes a line to try may have mended.
const maxDepth = 3

func (p *parser) parse(line string) (Parsed, error) {
	if n := utf8.RuneCountInString(line); n > MaxLine {
		return Parsed{}, answer.Refuse(p.example(), "the question is %d characters long; up to %d are read", n, MaxLine)
	}
	p.typed = readTyped(line)
	i := p.skip(0)
	if i >= len(p.low) {
		return Parsed{}, answer.Refuse(p.example(), "nothing was asked; a question starts with a request word: %s", p.words())
	}
	spec, end := p.request(i)
	if spec == nil {
		return Parsed{}, p.noRequest(i)
	}
	p.start(spec)
	if f := p.scan(end); f != nil {
		return Parsed{Spec: spec}, p.refusal(f)
	}
	if f := p.resolve(); f != nil {
		return Parsed{Spec: spec}, p.refusal(f)
	}
	return p.complete()
}

func (p *parser) start(spec *catalogue.Spec) {
	n := len(spec.Options)
	p.spec = spec
	p.last = -1
	p.set = make([]catalogue.Value, n)
	p.given = make([]bool, n)
	p.spans = make([][2]int, n)
	p.choices = make([][]catalogue.Choice, n)
	for i := range spec.Options {
		o := &spec.Options[i]
		switch o.Kind {
		case catalogue.Word, catalogue.RingSize:
			p.choices[i] = o.ChoicesIn(p.look.Shop)
		case catalogue.Mass, catalogue.Share:
			p.mass = true
		}
	}
}

// request finds the request word at i.
func (p *parser) request(i int) (*catalogue.Spec, int) {
	var found *catalogue.Spec
	best := -1
	for k := range p.specs {
		if e := matchPhrase(p.low, i, p.specs[k].Name); e > best {
			found, best = &p.specs[k], e
		}
	}
	return found, best
}

// skip passes over blanks and marks that carry no meaning: commas between
// words, brackets, quotes, bullets, markup.
func (p *parser) skip(i int) int {
	s := p.low
	for i < len(s) {
		switch s[i] {
		case ' ', ';', '|', '(', ')', '[', ']', '{', '}', '"', '\'', '`', '*', '_', '~', '>', '!', '?', ':', '=', '&':
			i++
		case ',', '.':
			if digitAt(s, i+1) {
				return i
			}
			i++
		case '-', '+':
			if i+1 < len(s) && numberAt(s, i) {
				return i
			}
			i++
		default:
			if strings.HasPrefix(s[i:], "…") || strings.HasPrefix(s[i:], "•") {
				i += len("…")
				continue
			}
			return i
		}
	}
	return i
}

// stopWords may come anywhere between options, where they are no option's name
// or value: they say nothing that the values around them don't.
var stopWords = []string{
	"a", "an", "the", "for", "of", "in", "with", "and", "please", "at", "is", "from", "using", "made", "on",
	"cut", "stone", "sheet", "long", "wide", "across",
}

// fillWord returns the end of a fill word at i, or -1.
func (p *parser) stopWord(i int) int {
	e := letters(p.low, i)
	if e > i && (slices.Contains(stopWords, p.low[i:e]) || slices.Contains(p.spec.StopWords, p.low[i:e])) {
		return e
	}
	return -1
}

// scan reads options from i to the end of the line.
func (p *parser) scan(i int) *fault {
	for {
		i = p.skip(i)
		if i >= len(p.low) {
			return nil
		}
		next, f := p.item(i)
		if f != nil {
			return f
		}
		if next <= i { // cannot happen; never loop
			return faultf(i, len(p.low), nil, "%s can't be read", shown(p.low[i:]))
		}
		i = next
	}
}

// item reads one option at i and returns the place after it.
func (p *parser) item(i int) (int, *fault) {
	if e := p.noBenchAt(i); e >= 0 {
		p.noBench = true
		return e, nil
	}
	named, nameEnd := p.optionName(i)
	bare, choice, choiceEnd := p.bareChoice(i)
	if named >= 0 && nameEnd >= choiceEnd {
		label := p.isLabel(named, nameEnd)
		p.last = -1
		if label {
			return nameEnd, nil
		}
		end, f := p.namedValue(named, i, nameEnd)
		if f == nil {
			end, f = p.follower(named, end)
		}
		return end, f
	}
	if k, key, end, after := p.choiceBeforeName(i, bare); k >= 0 {
		p.last = -1
		return after, p.give(k, catalogue.Value{Text: key}, i, end)
	}
	if bare >= 0 {
		p.last = bare
		return choiceEnd, p.give(bare, catalogue.Value{Text: choice}, i, choiceEnd)
	}
	p.last = -1
	if end, f, ok := p.barePoints(i); ok {
		return end, f
	}
	if k := p.free(catalogue.RingSize); k >= 0 {
		if text, end, ok := p.sizeInSystem(k, i); ok {
			return end, p.give(k, catalogue.Value{Text: text}, i, end)
		}
	}
	if numberAt(p.low, i) {
		return p.bareQuantity(i)
	}
	if k := p.free(catalogue.RingSize); k >= 0 {
		if text, end, ok := readRingSize(p.low, i); ok && letters(p.low, i) == i+1 && p.stopWord(i) < 0 {
			p.last = k
			return end, p.give(k, catalogue.Value{Text: text}, i, end)
		}
	}
	if e := p.notThisFlag(i); e >= 0 {
		return e, nil
	}
	return p.plainWords(i)
}

// plainWords reads what is neither a name, a choice nor a number: a stop word, or
// text of an option that is free.
func (p *parser) plainWords(i int) (int, *fault) {
	text := p.free(catalogue.Text)
	inner := false // a request inside this one starts here
	if text >= 0 {
		spec, _ := p.request(i)
		inner = spec != nil
	}
	if e := p.stopWord(i); e >= 0 && !inner && (text < 0 || p.known(p.skip(e))) {
		return e, nil
	}
	if k := p.free(catalogue.Words); k >= 0 {
		return p.wordList(k, i, i)
	}
	if text >= 0 {
		return p.rest(text, i, i)
	}
	return i, p.unknown(i)
}

// follower reads the quantity right behind the value of an option that says whose
// it is: "shank us 7 1.5mm" has the shank's thickness.
func (p *parser) follower(k, i int) (int, *fault) {
	then := p.spec.Options[k].Then
	j := p.skip(i)
	if then == "" || !numberAt(p.low, j) {
		return i, nil
	}
	for n := range p.spec.Options {
		if o := &p.spec.Options[n]; o.Name == then && !p.given[n] {
			q, _ := readQuantity(p.low, j, func(u unit, from, to int) bool { return p.unitFits(o, u, from, to) })
			if after, _ := p.optionName(spaces(p.low, q.end)); q.count != 1 || after >= 0 && !p.valueFollowsName(q.end) {
				return i, nil // "3 mm wide": another's
			}
			v, f := p.quantityValue(n, q, true)
			if f != nil {
				return q.end, f
			}
			return q.end, p.give(n, v, j, q.end)
		}
	}
	return i, nil
}

// valueFollowsName reports whether the name after a quantity has a value of its
// own behind it.
func (p *parser) valueFollowsName(i int) bool {
	k, e := p.optionName(spaces(p.low, i))
	return k >= 0 && p.valueFollows(k, e)
}

// known reports whether an option, its value or a request is at i.
func (p *parser) known(i int) bool {
	if numberAt(p.low, i) {
		return true
	}
	if spec, _ := p.request(i); spec != nil {
		return true
	}
	if k, _ := p.optionName(i); k >= 0 {
		return true
	}
	k, _, _ := p.bareChoice(i)
	return k >= 0
}

// isLabel reports whether an option's name comes after its value and only
// names it: "oval shape", "22ga ... gauge".
func (p *parser) isLabel(k, nameEnd int) bool {
	o := &p.spec.Options[k]
	if o.Kind == catalogue.Flag || o.Kind == catalogue.Text || o.Kind == catalogue.Words || p.valueFollows(k, nameEnd) {
		return false
	}
	if k == p.last || p.given[k] {
		return true
	}
	for _, q := range p.pending {
		if p.strong(q) == k {
			return true
		}
	}
	return false
}

// choiceBeforeName finds a choice with its option's name after it: "scored
// corners", "round base". after is the place after the name.
func (p *parser) choiceBeforeName(i, bare int) (option int, key string, end, after int) {
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if o.Kind != catalogue.Word || k == bare || p.given[k] {
			continue
		}
		key, e := choiceAt(p.low, i, p.choices[k])
		if e < 0 {
			continue
		}
		name, n := p.optionName(spaces(p.low, e))
		if name == k && !p.valueFollows(k, n) {
			return k, key, e, n
		}
	}
	return -1, "", -1, -1
}

// notThisFlag returns the end of "no precone" or "without precone", or -1.
func (p *parser) notThisFlag(i int) int {
	for _, no := range [...]string{"no", "not", "without"} {
		e := matchPhrase(p.low, i, no)
		if e < 0 {
			continue
		}
		if k, n := p.optionName(spaces(p.low, e)); k >= 0 && p.spec.Options[k].Kind == catalogue.Flag {
			return n
		}
	}
	return -1
}

// free returns the first bare option of a kind that has no value yet, or -1.
func (p *parser) free(kind catalogue.Kind) int {
	for k := range p.spec.Options {
		if o := &p.spec.Options[k]; o.Kind == kind && o.Bare && !p.given[k] {
			return k
		}
	}
	return -1
}

// optionName finds the option whose name or alias is the longest at i.
func (p *parser) optionName(i int) (option, end int) {
	option, end = -1, -1
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if e := matchPhrase(p.low, i, o.Name); e > end {
			option, end = k, e
		}
		for _, a := range o.Aliases {
			if e := matchPhrase(p.low, i, a); e > end {
				option, end = k, e
			}
		}
	}
	return option, end
}

// bareChoice finds the longest choice of the bare Word options at i.
func (p *parser) bareChoice(i int) (option int, key string, end int) {
	option, end = -1, -1
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if o.Kind != catalogue.Word || !o.Bare {
			continue
		}
		key2, e := choiceAt(p.low, i, p.choices[k])
		if e > end || e >= 0 && e == end && p.given[option] && !p.given[k] {
			option, key, end = k, key2, e
		}
	}
	if end > 0 && numeral(p.low[i:end]) {
		// "925" is a metal, "925 mm" and "925x3" are not.
		if _, _, ok := readUnit(p.low, end); ok {
			return -1, "", -1
		}
		if _, ok := readJoin(p.low, end); ok {
			return -1, "", -1
		}
	}
	return option, key, end
}

func numeral(s string) bool { return strings.Trim(s, "0123456789") == "" }

// choiceAt finds the longest choice at i.
func choiceAt(s string, i int, choices []catalogue.Choice) (key string, end int) {
	end = -1
	for c := range choices {
		if e := matchWord(s, i, choices[c].Key); e > end {
			key, end = choices[c].Key, e
		}
		for _, a := range choices[c].Aliases {
			if e := matchWord(s, i, a); e > end {
				key, end = choices[c].Key, e
			}
		}
	}
	return key, end
}

// matchWord is matchPhrase for a choice, which the configuration may have
// written with capitals.
func matchWord(s string, i int, word string) int {
	if word == "" || i >= len(s) || s[i] != word[0] && word[0] < utf8.RuneSelf && s[i] != word[0]|0x20 {
		return -1
	}
	return matchPhrase(s, i, strings.ToLower(word))
}

// afterName passes over what may come between a name and its value.
func (p *parser) afterName(i int) int {
	for i < len(p.low) && (p.low[i] == ' ' || p.low[i] == ':' || p.low[i] == '=') {
		i++
	}
	return i
}

// valueFollows reports whether a value of the option comes after its name.
func (p *parser) valueFollows(k, i int) bool {
	j := p.afterName(i)
	o := &p.spec.Options[k]
	if o.Kind == catalogue.Word {
		_, e := choiceAt(p.low, j, p.choices[k])
		return e >= 0
	}
	if o.Kind == catalogue.RingSize {
		if _, _, ok := p.sizeInSystem(k, j); ok {
			return true
		}
	}
	return numberAt(p.low, j) || o.Kind == catalogue.Text || o.Kind == catalogue.Words
}

// sizeInSystem reads a ring size after the word of its system, "us 7", where
// the option itself has systems.
func (p *parser) sizeInSystem(k, i int) (text string, end int, ok bool) {
	system, e := choiceAt(p.low, i, p.choices[k])
	if e < 0 {
		return "", i, false
	}
	size, end, ok := readRingSize(p.low, p.afterName(e))
	return system + " " + size, end, ok
}

// give sets an option, once.
func (p *parser) give(k int, v catalogue.Value, start, end int) *fault {
	o := &p.spec.Options[k]
	if p.given[k] {
		first := p.set[k].Text
		if o.Kind == catalogue.Flag {
			return faultf(start, end, []string{""}, "%s is given twice; once is enough", o.Name)
		}
		if first == v.Text {
			return faultf(start, end, []string{""}, "%s %s is given twice; leave one out", o.Name, first)
		}
		return faultf(start, end, []string{""}, "%s is given twice, %s and %s; leave one out", o.Name, short40(first), short40(v.Text))
	}
	v.Source = catalogue.Typed
	p.set[k], p.given[k], p.spans[k] = v, true, [2]int{start, end}
	return nil
}

func short40(s string) string { return strings.Trim(shown(s), `"`) }

// namedValue reads the value after an option's name.
func (p *parser) namedValue(k, start, nameEnd int) (int, *fault) {
	o := &p.spec.Options[k]
	j := p.afterName(nameEnd)
	switch o.Kind {
	case catalogue.Flag:
		return p.namedFlag(k, start, nameEnd)
	case catalogue.Text:
		return p.rest(k, start, j)
	case catalogue.Words:
		return p.wordList(k, start, j)
	case catalogue.Single:
		j = p.skipTo(j)
		text, end := p.single(j)
		if other, _ := p.optionName(j); text == "" || other >= 0 {
			return j, p.badValue(k, start, nameEnd, j)
		}
		return end, p.give(k, catalogue.Value{Text: text}, start, end)
	case catalogue.Word:
		return p.namedChoice(k, start, nameEnd)
	case catalogue.Points:
		v, end, f := readPoints(o, p.low, p.skipTo(j))
		if f != nil {
			f.start = start
			f.fix = p.withName(o)
			return end, f
		}
		return end, p.give(k, v, start, end)
	case catalogue.RingSize:
		return p.namedRingSize(k, start, nameEnd)
	}
	return p.namedQuantity(k, start, nameEnd)
}

// namedFlag reads the yes or no that may follow a flag's name; the name alone is
// yes.
func (p *parser) namedFlag(k, start, nameEnd int) (int, *fault) {
	j := p.afterName(nameEnd)
	for _, yes := range [...]string{"yes", "true", "on"} {
		if e := matchPhrase(p.low, j, yes); e >= 0 {
			return e, p.give(k, catalogue.Value{Text: "yes"}, start, e)
		}
	}
	for _, no := range [...]string{"no", "false", "off"} {
		if e := matchPhrase(p.low, j, no); e >= 0 && p.noBenchAt(j) < 0 {
			return e, nil
		}
	}
	return nameEnd, p.give(k, catalogue.Value{Text: "yes"}, start, nameEnd)
}

// namedRingSize reads a ring's size, and its system where the system's word comes
// first: "size us 7".
func (p *parser) namedRingSize(k, start, nameEnd int) (int, *fault) {
	j := p.valueStart(p.afterName(nameEnd))
	if text, end, ok := p.sizeInSystem(k, j); ok {
		return end, p.give(k, catalogue.Value{Text: text}, start, end)
	}
	if bare, choice, e := p.bareChoice(j); bare >= 0 {
		if f := p.give(bare, catalogue.Value{Text: choice}, j, e); f != nil {
			return e, f
		}
		j = p.afterName(e)
	}
	if text, end, ok := readRingSize(p.low, j); ok {
		return end, p.give(k, catalogue.Value{Text: text}, start, end)
	}
	return j, p.badValue(k, start, nameEnd, j)
}

// namedQuantity reads the number and unit after an option's name.
func (p *parser) namedQuantity(k, start, nameEnd int) (int, *fault) {
	o := &p.spec.Options[k]
	j := p.valueStart(p.afterName(nameEnd))
	q, ok := readQuantity(p.low, j, func(u unit, from, to int) bool { return p.unitFits(o, u, from, to) })
	if !ok {
		return j, p.badValue(k, start, nameEnd, j)
	}
	v, f := p.quantityValue(k, q, matchPhrase(p.low, start, "gauge") == nameEnd)
	if f != nil {
		f.start = start
		if f.fix == nil {
			f.fix = p.withName(o)
		} else {
			for i := range f.fix {
				f.fix[i] = o.Name + " " + f.fix[i]
			}
		}
		return q.end, f
	}
	return q.end, p.give(k, v, start, q.end)
}

// valueStart passes over a fill word before a value: "depth of 4".
func (p *parser) valueStart(j int) int {
	if e := p.stopWord(j); e >= 0 {
		if n := p.skip(e); numberAt(p.low, n) {
			return n
		}
	}
	return p.skipTo(j)
}

// skipTo passes over quotes and brackets before a value.
func (p *parser) skipTo(j int) int {
	for j < len(p.low) && (p.low[j] == ' ' || p.low[j] == '"' || p.low[j] == '\'' || p.low[j] == '(' || p.low[j] == '`') {
		j++
	}
	return j
}

// unitFits reports whether a word after a number is the unit of a value of o: a
// unit of any kind is, so that a wrong one is spoken of, unless the word is at
// the same time the name of an option that has its own value after it.
func (p *parser) unitFits(o *catalogue.Option, u unit, from, to int) bool {
	if from < to && !letterAt(p.low, from) {
		return true // " % °
	}
	if spec, e := p.request(from); spec != nil && e >= to && p.free(catalogue.Text) >= 0 && (o == nil || !takes(o, u.dim)) {
		return false // 12 gauge ...: the request inside this one starts
	}
	if k, e := p.optionName(from); k >= 0 && e >= to {
		if o != nil && !takes(o, u.dim) || p.valueFollows(k, e) {
			return false
		}
		if o == nil && !p.bareTakes(u.dim) {
			return false
		}
	}
	if o != nil && takes(o, u.dim) {
		return true
	}
	if _, _, e := p.bareChoice(from); e >= to {
		return false
	}
	return true
}

// bareTakes reports whether a bare option takes a unit.
func (p *parser) bareTakes(d dimension) bool {
	for k := range p.spec.Options {
		if o := &p.spec.Options[k]; o.Bare && takes(o, d) {
			return true
		}
	}
	return false
}

// namedChoice reads the choice after a Word option's name.
func (p *parser) namedChoice(k, start, nameEnd int) (int, *fault) {
	o := &p.spec.Options[k]
	j := p.skipTo(p.afterName(nameEnd))
	if e := p.stopWord(j); e >= 0 {
		if _, c := choiceAt(p.low, p.skip(e), p.choices[k]); c >= 0 {
			j = p.skip(e)
		}
	}
	key, end := choiceAt(p.low, j, p.choices[k])
	if end < 0 {
		// "tube 8x1" for a tube that is called tube-8x1.
		key, end = choiceAt(p.low, start, p.choices[k])
		if end <= nameEnd {
			end = -1
		}
	}
	if len(p.choices[k]) == 0 {
		return j, faultf(start, wordEnd(p.low, j), []string{""}, "this workshop has nothing to choose from for %s", o.Name)
	}
	if end < 0 {
		return j, p.badValue(k, start, nameEnd, j)
	}
	return end, p.give(k, catalogue.Value{Text: key}, start, end)
}

// wordList reads a list of words up to the next option name.
func (p *parser) wordList(k, start, i int) (int, *fault) {
	var list []string
	end := i
	for {
		i = p.skip(end)
		if i >= len(p.low) {
			break
		}
		if o, _ := p.optionName(i); o >= 0 && i > start || p.noBenchAt(i) >= 0 {
			break
		}
		e := wordEnd(p.low, i)
		list = append(list, strings.TrimRight(p.low[i:e], wordMarks))
		end = e
	}
	if len(list) == 0 {
		return i, p.badValue(k, start, i, i)
	}
	return end, p.give(k, catalogue.Value{Text: strings.Join(list, " ")}, start, end)
}

// wordMarks end a word of a list.
const wordMarks = " ,;|()[]{}\"'`*_~>!?:=&.+-"

// single reads the word at i as it was typed, without the marks that end a
// sentence.
func (p *parser) single(i int) (text string, end int) {
	end = wordEnd(p.low, i)
	return strings.TrimRight(cleanText(p.raw[p.rawAt(i):p.rawAt(end)]), ",:!?)\"'`"), end
}

// wordEnd returns the end of the word at i: up to a blank or a separating mark.
func wordEnd(s string, i int) int {
	for i < len(s) && s[i] != ' ' && s[i] != ';' && s[i] != '|' &&
		!(s[i] == ',' && !digitAt(s, i+1)) {
		_, n := utf8.DecodeRuneInString(s[i:])
		i += n
	}
	return i
}

// rest assigns to a Text option the rest of the line, as typed.
func (p *parser) rest(k, start, i int) (int, *fault) {
	text := unquoted(cleanText(p.raw[p.rawAt(i):]))
	if text == "" {
		return i, p.badValue(k, start, i, i)
	}
	return len(p.low), p.give(k, catalogue.Value{Text: text}, start, len(p.low))
}

// barePoints reads points without a name, where at least three pairs stand in
// a row and a Points option is bare.
func (p *parser) barePoints(i int) (int, *fault, bool) {
	k := p.free(catalogue.Points)
	if k < 0 {
		return i, nil, false
	}
	j := i
	for n := 0; n < minPoints; n++ {
		_, _, e, ok := readPair(p.low, j)
		if !ok {
			return i, nil, false
		}
		j = spaces(p.low, e)
		for j < len(p.low) && (p.low[j] == ';' || p.low[j] == ',') {
			j = spaces(p.low, j+1)
		}
	}
	o := &p.spec.Options[k]
	v, end, f := readPoints(o, p.low, i)
	if f != nil {
		f.fix = p.withName(o)
		return end, f, true
	}
	return end, p.give(k, v, i, end), true
}
