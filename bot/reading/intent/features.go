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

// Features of a message: words and pairs of words in one kind, runs of letters in
// the other.
func Features(message string) (words, runs logistic.Counts) {
	words, runs = logistic.Counts{}, logistic.Counts{}
	all := Words(message)
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
