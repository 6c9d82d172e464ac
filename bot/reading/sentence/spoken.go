package sentence

import (
	"math"
	"strings"
)

// tens come before a unit in words: "twenty two".
var tens = map[string]bool{"twenty": true, "thirty": true, "forty": true, "fifty": true, "sixty": true, "seventy": true, "eighty": true, "ninety": true}

// parts of one that follow "and": "five and a half".
var parts = map[string]float64{"half": 0.5, "quarter": 0.25}

// spokenNumber reads a number in words at i: "seventeen", "twenty two", "point
// eight", "two point five", "five and a half".
func (m *message) spokenNumber(i int) (value float64, next int, ok bool) {
	if w := m.at(i).text; w == "nought" || w == "zero" || w == "oh" {
		if m.at(i+1).text == "point" {
			return m.afterPoint(0, i+2)
		}
		return 0, i, false
	}
	if m.at(i).text == "point" {
		return m.afterPoint(0, i+1)
	}
	if v, next, ok := m.hundredAnd(i); ok {
		return v, next, true
	}
	v, is := numberWords[m.at(i).text]
	if !is || v < 1 || m.at(i).text == "dozen" || m.at(i).text == "hundred" {
		return 0, i, false
	}
	next = i + 1
	unit := next
	if m.at(unit).text == "-" {
		unit++
	}
	if u := numberWords[m.at(unit).text]; tens[m.at(i).text] && u >= 1 && u <= 9 {
		v, next = v+u, unit+1
	}
	if m.at(next).text == "hundred" && v < 10 {
		if all, after, ok := m.hundredAnd(next); ok {
			return all + 100*(v-1), after, true
		}
		v, next = 100*v, next+1
	}
	if m.at(next).text == "point" {
		return m.afterPoint(v, next+1)
	}
	if part, after := m.andPart(next); part > 0 {
		return v + part, after, true
	}
	return v, next, true
}

// hundredAnd reads "hundred and twenty" at i.
func (m *message) hundredAnd(i int) (value float64, next int, ok bool) {
	if m.at(i).text != "hundred" || m.at(i+1).text != "and" && m.at(i+1).text != "n" {
		return 0, i, false
	}
	v := numberWords[m.at(i+2).text]
	if v < 1 || v > 90 || v != math.Trunc(v) || m.at(i+2).text == "dozen" {
		return 0, i, false
	}
	next = i + 3
	if u := numberWords[m.at(next).text]; tens[m.at(i+2).text] && u >= 1 && u <= 9 && u == math.Trunc(u) {
		v, next = v+u, next+1
	}
	return 100 + v, next, true
}

// afterPoint reads digits in words, or in figures, behind a spoken point.
func (m *message) afterPoint(whole float64, i int) (float64, int, bool) {
	scale, next := 0.1, i
	for {
		t := m.at(next)
		digit, is := numberWords[t.text]
		if t.text == "nought" || t.text == "zero" || t.text == "oh" {
			digit, is = 0, true
		}
		if after := m.at(next + 1).text; t.number && t.value == float64(int(t.value)) && t.value < 100 && next == i && after != "ct" && after != "k" && after != "kt" && after != "carat" {
			for scale = 1; scale*t.value >= 1; scale /= 10 {
			}
			return whole + scale*t.value, next + 1, true
		}
		if !is || digit > 9 || digit != float64(int(digit)) || next > i && m.at(next+1).text == "point" {
			break // the next figure of a list: "one point two, one point five"
		}
		whole += scale * digit
		scale /= 10
		next++
	}
	return whole, next, next > i
}

// andPart reads "and a half", "and half" and "and three quarters" at i.
func (m *message) andPart(i int) (part float64, next int) {
	if w := m.at(i).text; w != "and" && !((w == "an" || w == "n") && m.at(i+1).text == "a") { // "P an a half"
		return 0, i
	}
	j := i + 1
	if m.at(j).text == "a" {
		j++
	}
	if m.at(j).text == "three" && strings.HasPrefix(m.at(j+1).text, "quarter") {
		return 0.75, j + 2
	}
	p, after := parts[m.at(j).text], m.at(j+1).text
	if after == "round" && roundPieces[m.at(j+2).text] {
		return p, j + 1
	}
	if p == 0 || after == "round" || after == "hard" || after == "ball" || after == "of" && m.at(j-1).text != "a" {
		return 0, i
	}
	if m.at(j-1).text == "a" || unitLike(after) || measuring[after] || !m.at(j+1).word() || strings.HasPrefix(after, "size") {
		return p, j + 1
	}
	return 0, i
}

// roundPieces are what the round of "an inch and a half round cab" belongs to, which is
// no half-round wire.
var roundPieces = map[string]bool{"cab": true, "cabochon": true, "stone": true, "disc": true, "disk": true, "dome": true, "cz": true, "blank": true, "plate": true}

// measuring are words beside which a number in words is a measure.
var across = map[string]bool{"id": true, "od": true, "inside": true, "outside": true, "inner": true, "outer": true}

var measuring = map[string]bool{"wide": true, "deep": true, "tall": true, "high": true, "thick": true, "long": true, "across": true, "height": true, "depth": true, "width": true, "thickness": true, "length": true, "angle": true, "diameter": true, "size": true, "wall": true, "gauge": true, "lean": true, "metal": true, "sheet": true}

// behindMeasure reports whether the word at i stands behind one that measures or is
// counted: "lean around ten", "claws: six".
func (m *message) behindMeasure(i int) bool {
	for k := i - 1; k >= i-3 && k >= 0; k-- {
		switch m.at(k).text {
		case "lean", "depth", "height", "dome", "prongs", "claws":
			return true
		case ",", "is", "around", "about", "roughly", "guess", "say", "maybe":
			continue
		}
		break
	}
	return false
}

// meansNumber reports whether a number in words, from i up to next, measures
// something: a unit or a measuring word is beside it, or it is one of two sides.
func (m *message) meansNumber(i, next int) bool {
	after := m.at(next)
	if m.at(i).text == "point" || m.at(i+1).text == "point" || next-i > 1 && m.at(next-1).text != "a" {
		return true
	}
	if after.text != "m" && after.text != "in" && after.text != "a" && after.text != "t" && unitLike(after.text) || counted[after.stem] != "" {
		return true
	}
	if (after.text == "x" || after.text == "by") && (m.at(next+1).number || numberWords[m.at(next+1).text] > 0) {
		return true
	}
	if w := m.at(i - 1).text; (w == "x" || w == "by") && (m.at(i-2).number || numberWords[m.at(i-2).text] > 0 || unitLike(m.at(i-2).text)) {
		return true
	}
	if m.behindMeasure(i) {
		return true
	}
	if after.text == "of" && (m.at(next+1).text == "them" || m.at(next+1).text == "em" || m.at(next+1).text == "those" || m.at(next+1).text == "these") || after.text == "jump" || after.text == "jumprings" {
		return true
	}
	if _, counts := m.countedAt(next); counts && m.at(i).text != "one" && m.at(i).text != "half" && m.at(i).text != "quarter" {
		return true // "three little tubes"
	}
	if m.countsSized(next) || strings.HasPrefix(after.text, "size") && m.at(i).text != "one" {
		return true
	}
	if m.at(i).text == "one" && (after.text == "thickness" || after.text == "width" || after.text == "height" || after.text == "length" || after.text == "diameter") {
		return false // "the diameter plus one thickness"
	}
	if measuring[after.text] && after.text != "size" && after.text != "metal" && after.text != "sheet" {
		return true
	}
	before := m.at(i - 1).text
	if beside[before] && before != "in" && before != "to" && before != "by" {
		before = m.at(i - 2).text
	}
	return measuring[before] && m.at(i).text != "one"
}
