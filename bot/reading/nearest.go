package reading

import (
	"guildhand/bot/catalogue"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// candidate is a word that an unknown one may have been meant for.
type candidate struct {
	// option is its place in the spec, -1 for a request word.
	option int
	// word is what was compared, put what goes into the line.
	word, put string
	// about is further text in which whole words may be found.
	about string
}

// match is how well a candidate fits.
type match struct {
	candidate
	score int // smaller is nearer
	words int // how many words of the line it replaces
	end   int // after the last of them
}

// Scores of the ways to be near, in half letters of distance.
const (
	perLetter      = 2
	startScore     = 3 // the word is the candidate's start
	mentionedScore = 5 // the candidate's description has the words
)

const maxWords = 3

// nearest returns the candidates nearest to the one to three words at i, best
// first; those after the first are equally near. Empty where none is near.
func nearest(low string, i int, list []candidate) []match {
	var best []match
	end := i
	var joined string
	for n := 1; n <= maxWords; n++ {
		from := end
		if n > 1 {
			from = spaces(low, end)
		}
		e := wordPart(low, from)
		if e == from || e-i > 40 {
			break
		}
		if n > 1 {
			joined += "-"
		}
		joined += low[from:e]
		end = e
		for _, c := range list {
			score := distance(joined, c)
			if score < 0 {
				continue
			}
			m := match{c, score, n, end}
			switch {
			case len(best) == 0 || better(m, best[0]):
				best = append(best[:0], m)
			case !better(best[0], m) && !slices.ContainsFunc(best, func(b match) bool { return b.put == m.put }):
				best = append(best, m)
			}
		}
	}
	return best
}

func better(a, b match) bool {
	if a.score != b.score {
		return a.score < b.score
	}
	return a.words > b.words
}

// wordPart returns the end of the letters, digits and hyphens at i, and of the
// digits only where letters lead: "ovla8x6" ends before 8.
func wordPart(s string, i int) int {
	j := letters(s, i)
	if j == i {
		return wordEnd(s, i)
	}
	for j < len(s) && s[j] == '-' && letterAt(s, j+1) {
		j = letters(s, j+1)
	}
	return j
}

// distance scores a word against a candidate, -1 for not near.
func distance(word string, c candidate) int {
	n, m := len(word), len(c.word)
	if n < 3 {
		return -1 // two letters are near to everything
	}
	allowed := 1
	switch {
	case n >= 9:
		allowed = 3
	case n >= 4:
		allowed = 2
	}
	if d := n - m; -allowed <= d && d <= allowed {
		d := levenshtein.ComputeDistance(word, c.word)
		if d == 2 && n == m && sorted(word) == sorted(c.word) {
			d = 1 // two letters swapped
		}
		if d <= allowed && d*2 <= min(n, m) {
			score := d * perLetter
			if word[0] != c.word[0] {
				score++
			}
			return score
		}
	}
	if n >= 3 && strings.HasPrefix(c.word, word) {
		return startScore
	}
	if n >= 4 && (mentions(c.word, word) || mentions(c.about, word)) {
		return mentionedScore
	}
	return -1
}

// mentions reports whether text has every word of joined.
func mentions(text, joined string) bool {
	for more := text != ""; more; {
		var w string
		w, joined, more = strings.Cut(joined, "-")
		if len(w) < 3 || !hasWord(text, w) {
			return false
		}
	}
	return text != ""
}

func hasWord(text, w string) bool {
	for i := 0; ; {
		k := strings.Index(text[i:], w)
		if k < 0 {
			return false
		}
		k += i
		if (k == 0 || !isLetter(text[k-1])) && !letterAt(text, k+len(w)) {
			return true
		}
		i = k + 1
	}
}

func sorted(s string) string {
	b := []byte(s)
	slices.Sort(b)
	return string(b)
}

// choiceCandidates lists the choices of Word option k.
func (p *parser) choiceCandidates(k int, list []candidate) []candidate {
	for _, c := range p.choices[k] {
		key := strings.ToLower(c.Key)
		list = append(list, candidate{k, key, c.Key, strings.ToLower(c.Summary)})
		for _, a := range c.Aliases {
			list = append(list, candidate{k, strings.ToLower(a), c.Key, ""})
		}
	}
	return list
}

// candidates lists what may stand at a place between options.
func (p *parser) candidates() []candidate {
	var list []candidate
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		if o.Kind == catalogue.Word && o.Bare {
			list = p.choiceCandidates(k, list)
		}
	}
	for k := range p.spec.Options {
		o := &p.spec.Options[k]
		list = append(list, candidate{k, o.Name, o.Name, ""})
		for _, a := range o.Aliases {
			list = append(list, candidate{k, a, o.Name, ""})
		}
	}
	return list
}

// puts lists what the best matches would put into the line, at most three.
func puts(best []match) []string {
	var list []string
	for _, m := range best {
		if len(list) < 3 {
			list = append(list, m.put)
		}
	}
	return list
}
