package reading

import (
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// talkWords say nothing to a computation: what people write around a stone and
// its metal. A word that could change the answer ("no", "or", "twice") is none.
var talkWords = append([]string{
	"i", "ive", "im", "id", "ve", "m", "s", "d", "my", "me", "we", "our", "us", "you", "your", "it", "its", "this", "that", "these", "there", "here",
	"have", "has", "got", "get", "want", "need", "like", "would", "should", "could", "can", "do", "does", "did", "am", "be", "going", "trying",
	"what", "which", "how", "much", "big", "large", "so", "if", "then", "now", "just", "some", "any", "to", "out", "up", "use", "make", "making", "made",
	"hi", "hello", "hey", "thanks", "thank", "help", "know", "tell", "work", "question", "quick", "blank", "piece", "metal", "gem", "gemstone", "faceted",
	"shaped", "setting", "settings", "set", "size", "sized", "flat", "measures", "measured", "measuring", "will", "shall", "ring", "rings", "pendant", "earring", "earrings", "brooch",
}, stopWords...)

// sentence reads a question that is put in a sentence, or that leaves the
// request's word out: "I have this 9 x 7 pear and 20 gauge sterling: what do I
// cut?" It is read only where every word is either an option's or says nothing,
// where one request alone can be meant, and the answer notes how it was read.
// ok is false for any other line.
func (p *parser) sentence(i int) (parsed Parsed, ok bool, err error) {
	if p.depth > 0 {
		return Parsed{}, false, nil
	}
	var line string
	var usual *catalogue.Spec
	for k := range p.specs {
		s := &p.specs[k]
		if s.Usual {
			usual = s
		}
		// A request that changes what is kept is never guessed.
		if s.Keeps || s.Long || !slices.ContainsFunc(append([]string{s.Name}, s.Implied...), func(w string) bool { return p.stands(w, i) }) {
			continue
		}
		if read, ok := p.reads(s, i); ok {
			if line != "" {
				return Parsed{}, false, nil // two are meant
			}
			line = read
		}
	}
	if line == "" && usual != nil {
		if read, ok := p.reads(usual, i); ok {
			line = read
		}
	}
	if line == "" {
		return Parsed{}, false, nil
	}
	whole := parser{specs: p.specs, look: p.look}
	parsed, err = whole.parse(line)
	if err == nil {
		parsed.Notes = append(parsed.Notes, "read as: "+parsed.Line)
		return parsed, true, nil
	}
	// What is missing is asked for; any other mistake is not one of the line as
	// it was typed.
	r, refused := answer.AsRefusal(err)
	asks := refused && slices.ContainsFunc(whole.spec.Options, func(o catalogue.Option) bool { return o.Prompt != "" && o.Prompt == r.Problem })
	return parsed, !refused || asks, err
}

// reads gives the sentence from i on as a line of a request, without the words
// that say nothing. ok is false where a word is not understood, or where
// nothing is said of what the request needs.
func (p *parser) reads(spec *catalogue.Spec, i int) (line string, ok bool) {
	words := parser{specs: p.specs, look: p.look, typed: p.typed}
	words.start(spec)
	parts := []string{spec.Name}
	needed := false
	for i = p.skip(i); i < len(p.low); i = p.skip(i) {
		end, needs := words.valueEnd(i)
		needed = needed || needs
		if end > i {
			if words.dangles(i, end, p.skip(end)) {
				return "", false
			}
			parts = append(parts, p.raw[p.rawAt(i):p.rawAt(end)])
			i = end
			continue
		}
		end = letters(p.low, i)
		word := p.low[i:end]
		says := word != spec.Name && !slices.Contains(talkWords, word) && !slices.Contains(spec.Implied, word) && !slices.Contains(spec.StopWords, word)
		if end == i || says {
			return "", false
		}
		i = end
	}
	return strings.Join(parts, " "), needed
}

// valueEnd gives the end of an option's name, a bare choice or a quantity at i,
// or i where none stands there. needs reports whether it is, or may be, a
// value that the request can't do without.
func (p *parser) valueEnd(i int) (end int, needs bool) {
	option, _, choice := p.bareChoice(i)
	named, name := p.optionName(i)
	if name > i && (p.low[i:name] == p.spec.Name || slices.Contains(talkWords, p.low[i:name])) && !numberAt(p.low, p.skip(name)) {
		name = i // "size" alone says nothing
	}
	end = max(i, choice, name)
	switch {
	case end > i && end == choice:
		return end, p.spec.Options[option].Asked()
	case end > i:
		return end, p.spec.Options[named].Asked()
	case numberAt(p.low, i):
		if q, ok := readQuantity(p.low, i, func(u unit, from, to int) bool { return p.unitFits(nil, u, from, to) }); ok {
			return q.end, q.count > 1
		}
	}
	return i, false
}

// dangles reports whether an option's name from i to end has no value right
// behind it, at next, nor a number before it: "disc for a 20 mm dome" does not
// say that the disc is 20 mm.
func (p *parser) dangles(i, end, next int) bool {
	k, e := p.optionName(i)
	if k < 0 || e != end || !numeric(&p.spec.Options[k]) || p.valueFollows(k, end) || numberAt(p.low, next) {
		return false
	}
	before := strings.TrimRight(p.low[:i], " -")
	return before == "" || !strings.ContainsAny(before[len(before)-1:], "0123456789") && !unitEnds(before)
}

// unitEnds reports whether a text ends in a number with its unit: "6 mm".
func unitEnds(text string) bool {
	at := strings.LastIndexAny(text, "0123456789")
	if at < 0 {
		return false
	}
	_, end, ok := readUnit(text, spaces(text, at+1))
	return ok && end == len(text)
}

// stands reports whether a word stands in the line from i on, other than as the
// unit of a number: "20 gauge".
func (p *parser) stands(word string, i int) bool {
	afterNumber := false
	for i = p.skip(i); i < len(p.low); i = p.skip(i) {
		end := letters(p.low, i)
		if end > i {
			_, _, isUnit := readUnit(p.low, i)
			if p.low[i:end] == word && !(afterNumber && isUnit) {
				return true
			}
			afterNumber = false
		} else {
			end = max(wordEnd(p.low, i), i+1)
			afterNumber = digitAt(p.low, i)
		}
		i = end
	}
	return false
}
