package sentence

import "math"

// Who types in the shorthand of a job card glues the word for a figure to it: "6rd", "9x7ov",
// "5hi", "1.6t". Such a word is opened to the one that it stands for.

// gluedWords are the words that are glued to a figure, and what they stand for.
var gluedWords = map[string]string{"rd": "round", "rds": "round", "sq": "square", "ov": "oval", "oc": "octagon", "oct": "octagon", "cush": "cushion", "em": "emerald", "hi": "high", "tk": "thick"}

// mostThickTyped and mostWideTyped are the most that "1.6t" and "3w" may measure in mm. Gold
// is told as "14w" and torches as "60w".
const (
	mostThickTyped = 3.5
	mostWideTyped  = 8
)

// opened opens the shorthand that is glued to figures.
func opened(all []token) []token {
	for i := 1; i < len(all); i++ {
		t, figure := &all[i], all[i-1]
		if !t.glued || !t.word() || !figure.number || i+1 < len(all) && all[i+1].glued && all[i+1].word() {
			continue
		}
		if word := figure.opens(t.text, all, i); word != "" {
			t.text, t.stem = word, stemOf(word)
		}
	}
	return all
}

// opens is what a word glued to a figure stands for, empty where it is itself.
func (figure token) opens(word string, all []token, i int) string {
	next := func(text string) bool { return i+1 < len(all) && all[i+1].text == text }
	switch word {
	case "rd":
		if figure.isThird() && !endsFigure(all, i) {
			return ""
		}
	case "sq":
		if next("mm") || next("in") || next("inch") || next("cm") || next("ft") || next("wire") {
			return ""
		}
	case "t":
		if figure.value <= mostThickTyped && figure.value != math.Trunc(figure.value) {
			return "thick"
		}
	case "w":
		if figure.value <= mostWideTyped {
			return "wide"
		}
	}
	return gluedWords[word]
}

// isThird reports whether "rd" behind a number makes it an ordinal: 3rd, 23rd.
func (figure token) isThird() bool {
	return figure.value == math.Trunc(figure.value) && math.Mod(figure.value, 10) == 3 && math.Mod(figure.value, 100) != 13
}

// ordinalAfter come before an ordinal: "the 3rd", "march 3rd".
var ordinalAfter = wordSet("the a on my our her his their your this that january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")

// endsFigure reports whether "3rd" stands where a stone does: nothing that can be the third
// of its kind comes next, and no word before it makes it one.
func endsFigure(all []token, i int) bool {
	if i >= 2 && ordinalAfter[all[i-2].text] {
		return false
	}
	return i+1 >= len(all) || !all[i+1].word()
}
