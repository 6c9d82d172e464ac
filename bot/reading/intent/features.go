package intent

import (
	"regexp"
	"strconv"
	"strings"

	"guildhand/bot/reading/logistic"
)

var (
	sizeWritten   = regexp.MustCompile(`\d+(?:[.,/]\d+)? ?[x×] ?\d+(?:[.,/]\d+)?`)
	numberWritten = regexp.MustCompile(`\d*[.,]?\d+(?:[.,/]\d+)?`)
	wordOrNumber  = regexp.MustCompile(`[\p{L}']+|#+`)
)

// lettersInRun is how long the runs of letters are that make misspelt words alike.
const lettersInRun = 4

// Words are the words of a message in lower case, with one sign for every number
// and another for every size, since how much is asked for says little of what.
func Words(message string) []string {
	s := strings.ToLower(strings.NewReplacer("’", "'", "×", "x").Replace(message))
	s = sizeWritten.ReplaceAllString(s, " ## ")
	s = numberWritten.ReplaceAllString(s, " # ")
	return wordOrNumber.FindAllString(s, -1)
}

// Message is what a model reads: the text as it was typed, and what the reader finds
// in it.
type Message struct {
	Text string
	// Terms are its words in a form in which what is alike is the same: a stem for a
	// word, a sign for each kind of figure, and one for any metal and any outline.
	Terms []string
	// Meanings are what the lexicon knows of its phrases and figures, in no order.
	Meanings []string
}

// Features of a message by kind: words and pairs of words, runs of letters, the same
// of its terms, and its meanings.
func Features(m Message) []logistic.Counts {
	words, runs := ofText(m.Text)
	return []logistic.Counts{words, runs, ofTerms(m.Terms), ofMeanings(m.Meanings)}
}

// fewest are, by kind, in how many examples a feature must stand to say something.
var fewest = []int{2, 3, 2, 2}

// ofTerms are terms, neighbours, and neighbours but one.
func ofTerms(terms []string) logistic.Counts {
	alike := logistic.Counts{}
	for i, t := range terms {
		alike["'"+t]++
		if i > 0 {
			alike["'"+terms[i-1]+" "+t]++
		}
		if i > 1 {
			alike["'"+terms[i-2]+" _ "+t]++
		}
	}
	return alike
}

func ofMeanings(meanings []string) logistic.Counts {
	means := logistic.Counts{}
	for _, m := range meanings {
		means["="+m]++
	}
	return means
}

func ofText(text string) (words, runs logistic.Counts) {
	words, runs = logistic.Counts{}, logistic.Counts{}
	all := Words(text)
	words[figures(all)]++
	for i, w := range all {
		words[w]++
		if i > 0 {
			words[all[i-1]+" "+w]++
		}
		padded := []rune("_" + w + "_")
		for k := 0; k+lettersInRun <= len(padded); k++ {
			runs["~"+string(padded[k:k+lettersInRun])]++
		}
	}
	return words, runs
}

// manyFigures is the number of figures from which on more say nothing new.
const manyFigures = 4

// figures is a feature of its own for the number of figures in a message: a
// question for a reason has few, a piece to be worked out has several.
func figures(words []string) string {
	n := 0
	for _, w := range words {
		if w[0] == '#' {
			n += len(w)
		}
	}
	return "figures " + strconv.Itoa(min(n, manyFigures))
}
