package sentence

import (
	"fmt"
	"strings"
)

// message is one message with what was found in it.
type message struct {
	typed  string
	tokens []token
	// begins has how the words of the message begin; starts are the same by token.
	begins beginnings
	starts []uint16
	taken  []bool // a quantity, a metal or a phrase has the token
	found  []*quantity
	alloys []*metal
	senses []sense
	// cues is how strongly each request is named.
	cues map[string]int
	// ofClass tells that a piece is read that a class makes.
	ofClass bool
	// ofList tells that one stone of several is read alone.
	ofList bool
	// settled tells that the words around the figures leave no doubt what is asked.
	settled bool
	// assumed are notes that go with whatever is read.
	assumed []string
	// memory is what the models say of the text.
	memory *memory
	// context is what the message is read against.
	context Context
	// oldSize and newSize are those of a ring that is resized, nil where the words
	// round them don't tell; see likelySizes.
	oldSize, newSize *quantity
	// inHand are the options that are known of the piece that the message is read
	// as said of, nil for none.
	inHand map[string]string
}

// sense is one phrase of the message with what it means.
type sense struct {
	*Term
	first, next int
	used        bool
}

func newMessage(typed string) *message {
	m := &message{typed: typed, tokens: tokenize(typed), cues: map[string]int{}, memory: newMemory(typed)}
	m.sectionLetters()
	m.figuresForWords()
	m.taken = make([]bool, len(m.tokens))
	m.spell()
	m.starts = make([]uint16, len(m.tokens))
	for i, t := range m.tokens {
		m.begins.add(t.text)
		m.starts[i] = uint16(beginning(t.text))
	}
	m.metals() // first, so that the 18 of 18k is no number
	m.quantities()
	m.timesASize()
	m.densities()
	m.passOver()
	m.phrases()
	m.namedBlock()
	m.inches()
	m.fingerInInches()
	m.ringInInches()
	m.contractions()
	m.otherRole()
	m.mend()
	m.measuredAgain()
	m.ranges()
	m.sidesApart()
	m.bareSizes()
	m.shares()
	return m
}

// afterI are words before which "id" is "I'd" and no inside diameter.
var afterI = map[string]bool{"like": true, "love": true, "want": true, "need": true, "rather": true, "say": true, "prefer": true, "appreciate": true, "be": true, "go": true, "also": true, "have": true, "just": true, "really": true, "been": true, "get": true, "use": true, "never": true, "guess": true, "think": true, "do": true, "still": true}

// contractions tells "I'd" from "ID".
func (m *message) contractions() {
	for i := range m.senses {
		if s := &m.senses[i]; s.next == s.first+1 && m.at(s.first).text == "id" && afterI[m.at(s.next).text] {
			m.unsay(s)
		}
	}
}

// assume notes what was taken for granted while the numbers were read.
func (m *message) assume(format string, args ...any) {
	m.assumed = append(m.assumed, fmt.Sprintf(format, args...))
}

// at returns the token at i, or an empty one outside the message.
func (m *message) at(i int) token {
	if i < 0 || i >= len(m.tokens) {
		return token{}
	}
	return m.tokens[i]
}

func (m *message) between(first, next int) string {
	var words strings.Builder
	words.Grow(max(0, next-first) * usualLetters)
	for i := first; i < next; i++ {
		if i > first {
			words.WriteByte(' ')
		}
		words.WriteString(m.at(i).text)
	}
	return words.String()
}

// usualLetters is how long a word is with the blank before it, or nearly.
const usualLetters = 6

// phrases finds the lexicon's phrases in what is left, the longest first. A
// phrase may run over tokens that a quantity or a metal has, but must have one
// of its own.
func (m *message) phrases() {
	for i := 0; i < len(m.tokens); {
		step := 1
		for n := min(longestPhrase, len(m.tokens)-i); n >= 1; n-- {
			terms := m.termsAt(i, n)
			if len(terms) == 0 {
				continue
			}
			for _, t := range terms {
				if m.goesRound(t, i, n) {
					continue
				}
				m.senses = append(m.senses, sense{Term: t, first: i, next: i + n})
				for job, weight := range t.Cues {
					m.cues[job] += weight
				}
			}
			if n > 1 {
				m.outlinesIn(i, n)
			}
			for k := i; k < i+n; k++ {
				m.taken[k] = true
			}
			step = n
			break
		}
		i += step
	}
}

// goesRound matches the "round" of "round an oval", "round the edge", which is no
// outline.
func (m *message) goesRound(t *Term, i, n int) bool {
	if n != 1 || m.at(i).text != "round" || !contains(t.Means, "outline:round") {
		return false
	}
	switch m.at(i + 1).text {
	case "a", "an", "the", "it", "my", "her", "his", "this", "that", "each", "them", "nose", "about":
		return true
	}
	before := m.at(i - 1).text
	return before == "all" || (before == "fit" || before == "fits") && m.at(i+1).number || before == "way" || before == "goes" || before == "go" || before == "wrapped" || before == "halo"
}

// outlinesIn finds outlines inside a longer phrase: "what oval can I set".
func (m *message) outlinesIn(i, n int) {
	for k := i; k < i+n; k++ {
		for _, t := range m.termsAt(k, 1) {
			if len(t.Means) > 0 && strings.HasPrefix(t.Means[0], "outline:") && m.has("whichstone") {
				m.senses = append(m.senses, sense{Term: t, first: k, next: k + 1})
			}
		}
	}
}

func (m *message) termsAt(i, n int) []*Term {
	if first := m.at(i); phraseLengths[first.stemOrText()]&(1<<n) == 0 && phraseLengths["="+first.text]&(1<<n) == 0 {
		return nil
	}
	free := false
	var stems, texts []string
	for k := i; k < i+n; k++ {
		t := m.at(k)
		free = free || !m.taken[k]
		stems, texts = append(stems, t.stemOrText()), append(texts, t.text)
	}
	if !free {
		return nil
	}
	if terms := lexicon["="+strings.Join(texts, " ")]; len(terms) > 0 {
		return terms
	}
	return lexicon[strings.Join(stems, " ")]
}

// has reports whether a phrase with this meaning is in the message.
func (m *message) has(meanings ...string) bool {
	for _, s := range m.senses {
		for _, want := range meanings {
			for _, is := range s.Means {
				if is == want {
					return true
				}
			}
		}
	}
	return false
}

// says reports whether one of these words or phrases, by stem, stands in the
// message.
func (m *message) says(words ...string) bool {
	for _, w := range words {
		if m.saysPhrase(w) {
			return true
		}
	}
	return false
}

// text is the message in lower case with one blank between tokens.
func (m *message) text() string { return m.between(0, len(m.tokens)) }
