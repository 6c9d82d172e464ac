package sentence

import "slices"

// Questions of what was worked out before, by anybody here or for the asker, that name the
// piece as if it were wanted now: "has anyone done a 9x7 emerald cut this week".

var (
	anyOfUs   = []string{"anyone", "anybody", "someone", "somebody", "any of the students", "any of us", "any of you", "who else", "who has", "whos", "any student", "other people", "the others"}
	workedOut = wordSet("done do did made make worked ask asked calculated drawn computed reckoned figured")
	askTips   = []string{"how", "tip", "tips", "advice", "luck", "trouble", "problem", "problems", "experience", "success", "which", "why", "spare", "find", "own", "mind"}
)

// doneByOthers looks in the log for a piece that somebody here may have worked out.
func (m *message) doneByOthers() (Reading, bool) {
	begins := m.startsWith("has", "have", "did", "hav", "is there", "who else", "who has", "whos", "any", "anyone", "anybody", "someone") || m.says("has anyone", "has anybody", "did anyone", "did anybody", "did someone", "has someone")
	if !begins || !m.says(anyOfUs...) || m.says(askTips...) || !m.verbOfWork() {
		return Reading{}, false
	}
	size := m.of(size) != nil || m.besideStone() != nil || m.of(length) != nil
	if !size && len(m.meaning("outline:"))+len(m.meaning("gem:")) == 0 {
		return Reading{}, false
	}
	return m.inLog()
}

// verbOfWork reports whether somebody of us is asked about as having worked something out: the
// verb stands within four words of who is asked about.
func (m *message) verbOfWork() bool {
	for i, t := range m.tokens {
		if !slices.Contains([]string{"anyone", "anybody", "someone", "somebody", "else", "students", "us", "you", "student", "others", "people", "who", "whos"}, t.text) {
			continue
		}
		for k := i + 1; k <= i+4; k++ {
			if workedOut[m.at(k).text] {
				return true
			}
		}
	}
	return false
}

// fetches are wishes to see again what was answered.
var fetches = []string{"pull up", "bring up", "bring back", "read me back", "read back", "dig out", "dig up", "call up", "fish out", "look out", "give me back", "show me again", "find me", "remind me of", "repeat", "find that", "find the", "find my", "look up that", "look up the"}

// figuresOfIt are words for what was answered, and lostThem for having it no longer.
var (
	figuresOfIt = []string{"sizes", "figures", "numbers", "measurements", "measures", "dimensions", "the answer", "the blank for", "the strip for"}
	lostThem    = []string{"i lost", "ive lost", "cant find", "mislaid", "wrote it on", "wrote them on", "threw away", "thrown away", "again", "you gave me", "you did", "i did", "we did", "you worked out", "i had", "i asked", "lost my", "lost the"}
)

// answeredBefore looks in the log for a piece that was answered for the asker and is named by
// its stone or its job alone.
func (m *message) answeredBefore() (Reading, bool) {
	if m.figureCount() > 0 || m.context.Last != nil || m.context.Asked != nil || m.asksWhy() || m.startsWith("how") {
		return Reading{}, false
	}
	past := m.says(lostThem...)
	fetched := m.says(fetches...) && !m.says("cant find the", "cannot find the", "didnt find the") && (past || m.says(figuresOfIt...))
	told := m.says(figuresOfIt...) && past && m.says("what was", "what were", "whats", "lost", "mislaid", "find")
	if !fetched && !told || len(m.meaning("outline:"))+len(m.meaning("gem:")) == 0 && m.mostNamed() == "" {
		return Reading{}, false
	}
	return m.inLog()
}

// inLog looks in the log for the piece that a message names.
func (m *message) inLog() (Reading, bool) {
	if !m.context.takes("daybook", "find") {
		return Reading{}, false
	}
	r, ok := m.daybook()
	m.leaveOut()
	return r, ok && len(r.Options) > 0
}
