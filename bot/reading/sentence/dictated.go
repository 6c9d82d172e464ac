package sentence

import (
	"slices"
	"strings"
)

// heardAs are words that dictation writes for a number of the same sound.
var heardAs = map[string]string{"ate": "eight", "too": "two", "fore": "four"}

// heardKarats are words that dictation writes for carat behind a number.
var heardKarats = wordSet("carrot carrots carot carots caret carets karet")

// small are those, besides the persons, who swallow what lies about.
const small = "child toddler baby dog cat puppy"

// mayEat are words, besides those for persons, behind which somebody has eaten something, and
// mayHaveSwallowed those of a message in which somebody may have.
var (
	mayEat           = wordSet(small + " i they we who you has have had just probably accidentally and")
	mayHaveSwallowed = append(strings.Fields(small+" swallowed drank"), persons...)
)

// heardNumber is the number that dictation wrote as another word, "ate millimetres", "ate by
// six", where what follows it can only follow a number; empty else.
func heardNumber(before, word, next, afterNext string) string {
	heard, is := heardAs[word]
	if !is || word == "ate" && (slices.Contains(persons, before) || mayEat[before]) {
		return ""
	}
	side := (next == "by" || next == "x") && (numberWords[afterNext] > 0 || afterNext != "" && strings.Trim(afterNext, "0123456789.") == "" || heardAs[afterNext] != "")
	if word == "ate" && (before == "by" || before == "x") {
		return heard
	}
	const shortest = 2 // "m", "c" and "t" are words too
	if unit := unitWords[next]; side || unit.measure == length && len(next) >= shortest && next != "foot" && next != "feet" || next == "point" && numberWords[afterNext] > 0 {
		return heard
	}
	return ""
}

// withHeardNumbers is a text with the numbers that dictation wrote as other words.
func withHeardNumbers(text string) string {
	words := strings.Split(text, " ")
	for i := range words {
		if i > 0 && i+2 < len(words) {
			if heard := heardNumber(words[i-1], words[i], words[i+1], words[i+2]); heard != "" {
				words[i] = heard
			}
		}
	}
	return strings.Join(words, " ")
}

// eats are words for what a chemical does to metal, and to skin.
var eats = wordSet("ate eaten eating eats")

// withChemicalsEating tells what a chemical eats by another word, for nobody has swallowed
// anything: "the pickle ate my copper" etches it, "acid ate a hole in my thumb" is a burn.
// Where a person or a pet may have eaten something it stays.
func withChemicalsEating(text string) string {
	words := strings.Split(text, " ")
	instead := "etched"
	switch {
	case saidOf(text, limbs):
		instead = "burned"
	case saidOf(text, mayHaveSwallowed):
		return text
	}
	for i := 1; i < len(words); i++ {
		by := words[i-1]
		if i > 1 && (by == "has" || by == "had" || by == "is" || by == "was") {
			by = words[i-2]
		}
		if eats[words[i]] && (by == "solder" || by == "chloride" || slices.Contains(corrosive, by)) {
			words[i] = instead
		}
	}
	return strings.Join(words, " ")
}
