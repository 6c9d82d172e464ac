package sentence

import (
	"slices"
	"strings"
	"sync"

	"guildhand/bot/knowledge"
)

// definitions begin a question for a term.
var definitions = []string{"what is", "whats", "what are", "what does", "what means", "what do you mean by", "define", "explain", "meaning of", "tell me what", "what do you call", "what the heck is", "what is the", "whats the", "whats a", "what is a", "what is an", "can you explain", "can someone explain", "could you explain", "please explain", "how would you define", "what exactly is", "remind me what", "definition of", "not sure what", "i dont know what", "dont understand what", "dont get what", "what's meant by", "what is meant by", "does anyone know what", "so what is", "so whats", "quick question what is", "hi what is", "hey what is", "ok what is", "and what is", "whats an"}

// warning finds an answer about something dangerous.
func (m *message) warning() (Reading, bool) {
	best, _ := m.askedFact(true)
	if best == nil {
		return Reading{}, false
	}
	return explain(best), true
}

// dangerAtHand finds a danger that may be there now, whatever piece the message gives beside
// it: "hose is hissing. ring size M, 4 x 1.5, how long?".
func (m *message) dangerAtHand() (Reading, bool) {
	best, _ := m.askedFact(true)
	if best == nil || !best.AtOnce {
		return Reading{}, false
	}
	r := explain(best)
	if m.figureCount() > 0 {
		r.Text += " Ask for the piece again when it is safe."
	}
	return r, true
}

// askedFact finds the fact whose groups of words are said best, nil for none or
// where the message wants a piece worked out.
func (m *message) askedFact(warns bool) (best *knowledge.Fact, score int) {
	said, ok := m.memory.saidFacts[warns]
	if !ok {
		said = m.bestSaid(warns)
		m.memory.saidFacts[warns] = said
	}
	if said.fact != nil && m.worksOut(said.fact) {
		return nil, 0
	}
	return said.fact, said.score
}

// saidFact is the fact whose groups of words are said best, and how well.
type saidFact struct {
	fact  *knowledge.Fact
	score int
}

func (m *message) bestSaid(warns bool) (best saidFact) {
	facts, asks := knowledge.Facts(), asksOfFacts()
	for i := range facts {
		f := &facts[i]
		if f.Of != "" || f.Warns != warns { // ringTalk looks for those of one job
			continue
		}
		if n := m.saysAsked(asks[i]); n > best.score {
			best = saidFact{f, n}
		}
	}
	return best
}

// saysAsked is saysOneOfEach of groups that were stemmed before.
func (m *message) saysAsked(groups []askedGroup) int {
	score := 0
	for i := range groups {
		g := &groups[i]
		longest := 0
		if g.begins.meets(&m.begins) {
			for k, start := range g.starts {
				if m.begins.hasNumber(int(start)) {
					longest = max(longest, m.wordsSaid(g.phrases[k]))
				}
			}
		}
		if longest == 0 {
			return 0
		}
		score += 10 + longest
	}
	return score
}

// fact finds an explanation. Groups of words are tried first, then a term that a
// question of definition names.
func (m *message) fact() (Reading, bool) {
	if best, _ := m.askedFact(false); best != nil {
		return explain(best), true
	}
	return m.definition()
}

// definition finds the longest term that a question of definition names; a term that
// comes right after the words that ask goes before it.
func (m *message) definition() (Reading, bool) {
	if !m.defines() {
		return Reading{}, false
	}
	best, score := (*knowledge.Fact)(nil), 0
	facts := knowledge.Facts()
	for i := range facts {
		for _, t := range facts[i].Term {
			if m.saysPhrase(t) && len(m.found) == 0 {
				length := len(t)
				if m.asksOutright(t) {
					length += longestMessage
				}
				if best == nil || length > score {
					best, score = &facts[i], length
				}
			}
		}
	}
	if best == nil {
		return Reading{}, false
	}
	return explain(best), true
}

// asksOutright reports whether a term comes right after words that ask what it is.
func (m *message) asksOutright(term string) bool {
	t := " " + m.text() + " "
	for _, d := range definitions {
		for _, article := range []string{" ", " a ", " an ", " the "} {
			if strings.Contains(t, " "+d+article+term+" ") {
				return true
			}
		}
	}
	return false
}

// nearestFact is the fact that shares most of its words with the message, if it
// shares enough of them: for questions that are put in words that no fact
// foresaw.
func (m *message) nearestFact() *knowledge.Fact {
	best, score := (*knowledge.Fact)(nil), 0
	facts := knowledge.Facts()
	for i := range facts {
		f := &facts[i]
		if len(f.Asks) < 2 || f.Of != "" {
			continue
		}
		hit := 0
		for _, g := range f.Asks {
			if m.says(g...) {
				hit++
			}
		}
		if hit == len(f.Asks) && hit > score {
			best, score = f, hit
		}
	}
	if best != nil {
		return best
	}
	for i := range facts {
		for _, t := range facts[i].Term {
			if n := len(strings.Fields(t)); n > score && m.saysPhrase(t) && (n > 1 || m.startsWith("why", "how", "what", "whats", "do", "does", "is", "explain")) {
				best, score = &facts[i], n
			}
		}
	}
	return best
}

func explain(f *knowledge.Fact) Reading {
	return Reading{Outcome: Explanation, Topic: f.Key, Text: f.Text, Source: f.Source}
}

// worksOut matches a message that wants a piece worked out, so that a fact of
// the same words does not take its place.
func (m *message) worksOut(f *knowledge.Fact) bool {
	if f.AtOnce {
		return false
	}
	figures := 0
	for _, q := range m.found {
		if q.measure != count {
			figures++
		}
	}
	if figures >= 1 && (m.cues["dome"] >= 3 && m.says("circle", "circles", "disc", "how big", "cut") || m.cues["prongs"] >= 4 && m.of(length) != nil) {
		return true
	}
	if strings.HasPrefix(f.Key, knowledge.OfTracing) && len(f.Asks) >= 3 && !m.namesAPiece() {
		return false // its figures are of the picture and the card
	}
	return figures >= 2 || figures == 1 && len(f.Asks) < 3 && (m.cues["bezel"] >= 3 || m.cues["collet"] >= 3 || m.cues["collar"] >= 3 || m.cues["prongs"] >= 3 || m.cues["band"] >= 3 || m.cues["dome"] >= 3) && (m.stoneSides() != nil || m.besideStone() != nil)
}

// namesAPiece reports whether a message names a piece that is worked out.
func (m *message) namesAPiece() bool {
	return slices.ContainsFunc([]string{"bezel", "collet", "collar", "prongs", "band", "dome", "halo", "saddle", "tubeset", "jumpring"}, func(p string) bool { return m.cues[p] >= plainlyNamed })
}

func (m *message) defines() bool {
	t := m.text() + " "
	for _, d := range definitions {
		d = strings.ReplaceAll(d, "'", "")
		if strings.HasPrefix(t, d+" ") || strings.Contains(t, " "+d+" ") {
			return true
		}
	}
	return strings.HasSuffix(strings.TrimRight(t, " ."), "mean") || len(m.tokens) <= 4 && m.onlyATerm()
}

// onlyATerm reports whether a message is a term and nothing else: "and the
// pavilion?"
func (m *message) onlyATerm() bool {
	said := ""
	for _, t := range m.tokens {
		if t.word() && t.text != "and" && t.text != "the" && t.text != "a" && t.text != "an" && t.text != "so" {
			said = strings.TrimSpace(said + " " + t.text)
		}
	}
	for _, f := range knowledge.Facts() {
		for _, term := range f.Term {
			if term == said {
				return true
			}
		}
	}
	return false
}

// saysOneOfEach reports whether a phrase of every group is said, and how well: ten
// for a group and one for each word of its longest phrase; 0 if one is not.
func (m *message) saysOneOfEach(groups [][]string) int {
	score := 0
	for _, g := range groups {
		longest := 0
		for _, phrase := range g {
			if m.mayStart(phrase) {
				longest = max(longest, m.wordsSaid(stemmed(phrase)))
			}
		}
		if longest == 0 {
			return 0
		}
		score += 10 + longest
	}
	return score
}

// askedGroup are words that mean the same, stemmed, and how they begin.
type askedGroup struct {
	begins  beginnings
	phrases []*stemmedPhrase
	starts  []uint16 // the numbers of the phrases' beginnings
}

// groupsOf stems the words of groups, for those that are looked for in every message.
func groupsOf(asks [][]string) (all []askedGroup) {
	for _, words := range asks {
		var g askedGroup
		for _, w := range words {
			p := stemmed(w)
			g.phrases = append(g.phrases, p)
			g.begins.add(p.words[0])
			g.starts = append(g.starts, uint16(p.begins))
		}
		all = append(all, g)
	}
	return all
}

// asksOfFacts are the groups of words of all facts.
var asksOfFacts = sync.OnceValue(func() (all [][]askedGroup) {
	for _, f := range knowledge.Facts() {
		all = append(all, groupsOf(f.Asks))
	}
	return all
})

// wordsSaid is how many words a phrase has that is said, 0 where it is not.
func (m *message) wordsSaid(p *stemmedPhrase) int {
	if !m.saysStemmed(p) {
		return 0
	}
	return len(p.words)
}

// saysPhrase finds a word by stem, or a phrase by the stems of its words in
// their order; with "=" before it, as written only.
func (m *message) saysPhrase(phrase string) bool {
	return m.mayStart(phrase) && m.saysStemmed(stemmed(phrase))
}

// mayStart reports whether a word of the message begins like the phrase.
func (m *message) mayStart(phrase string) bool { return m.begins.has(strings.TrimPrefix(phrase, "=")) }

func (m *message) saysStemmed(p *stemmedPhrase) bool {
	if len(p.words) > 0 && !m.begins.hasNumber(p.begins) {
		return false
	}
	for i := 0; i+len(p.words) <= len(m.tokens); i++ {
		if len(p.words) > 0 && int(m.starts[i]) != p.begins {
			continue
		}
		all := true
		for k := 0; k < len(p.words) && all; k++ {
			t := &m.tokens[i+k]
			all = t.text == p.words[k] || !p.exact && t.word() && t.stem == p.stems[k]
		}
		if all {
			return true
		}
	}
	return false
}

// stemmedPhrase is a phrase of ours with the stems of its words.
type stemmedPhrase struct {
	words, stems []string
	exact        bool
	// begins is the number of the first word's beginning.
	begins int
}

// stemmedPhrases keeps the stems of our own phrases, which are many and asked
// for with every message. Only words of the program get in, so it stays small.
var stemmedPhrases sync.Map

func stemmed(phrase string) *stemmedPhrase {
	if p, ok := stemmedPhrases.Load(phrase); ok {
		return p.(*stemmedPhrase)
	}
	bare, exact := strings.CutPrefix(phrase, "=")
	p := &stemmedPhrase{words: strings.Fields(bare), exact: exact}
	for _, w := range p.words {
		p.stems = append(p.stems, stemOf(w))
	}
	if len(p.words) > 0 {
		p.begins = beginning(p.words[0])
	}
	stemmedPhrases.Store(phrase, p)
	return p
}
