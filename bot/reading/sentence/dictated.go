package sentence

import (
	"slices"
	"strings"
)

// heardAs are words that dictation writes for a number of the same sound.
var heardAs = map[string]string{"ate": "eight", "too": "two", "fore": "four"}

// heardKarats are words that dictation writes for carat behind a number.
var heardKarats = wordSet("carrot carrots carot carots caret carets karet")

// mayEat are words, besides those for persons, behind which somebody has eaten something.
var mayEat = wordSet("i they we who you child toddler baby dog cat puppy has have had just probably accidentally and")

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

// withoutEatenMetal takes the eating out of a chemical that eats metal: "the pickle ate my
// copper". Where a person or a pet is named it stays.
func withoutEatenMetal(text string) string {
	if saidOf(text, persons) || saidOf(text, strings.Fields("child toddler baby dog cat puppy swallowed drank")) {
		return text
	}
	words := strings.Split(text, " ")
	for i := 1; i < len(words); i++ {
		if words[i] == "ate" && (words[i-1] == "solder" || slices.Contains(corrosive, words[i-1])) {
			words[i] = "etched"
		}
	}
	return strings.Join(words, " ")
}
