package sentence

import (
	"strconv"
	"strings"
	"unicode"
)

// readNumber reads a numeral at i: 4, 0.8, .8, 0,8, 1,250, 5/16, 7 1/2, 7-1/2.
func readNumber(s []rune, i int) (token, int) {
	whole, next := digits(s, i)
	if n, after, ok := fraction(s, next, whole); ok {
		return number(n, whole+string(s[next:after])), after
	}
	// 7 1/2 and 7-1/2 are one number.
	if !strings.ContainsAny(whole, ".,") && next+1 < len(s) && (s[next] == ' ' || s[next] == '-') && unicode.IsDigit(s[next+1]) {
		top, at := digits(s, next+1)
		if n, after, ok := fraction(s, at, top); ok && n < 1 {
			base, _ := strconv.ParseFloat(whole, 64)
			return number(base+n, whole+" "+top+string(s[at:after])), after
		}
	}
	plain := decimal(whole)
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return token{text: whole}, next
	}
	return number(v, plain), next
}

func number(v float64, shown string) token {
	return token{text: shown, number: true, value: v, shown: shown}
}

// digits reads digits with at most one point or comma inside them.
func digits(s []rune, i int) (string, int) {
	j, sign := i, false
	for j < len(s) {
		if unicode.IsDigit(s[j]) && s[j] < unicode.MaxASCII {
			j++
			continue
		}
		if (s[j] == '.' || s[j] == ',') && !sign && j+1 < len(s) && unicode.IsDigit(s[j+1]) {
			sign = true
			j++
			continue
		}
		break
	}
	if j == i {
		j++ // a digit of another script: passed over as a sign
	}
	return string(s[i:j]), j
}

// decimal makes a point of a decimal comma, and takes out one that groups
// thousands.
func decimal(whole string) string {
	before, after, comma := strings.Cut(whole, ",")
	if !comma {
		if strings.HasPrefix(whole, ".") {
			return "0" + whole
		}
		return whole
	}
	if len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before != "0" {
		return before + after
	}
	if before == "" {
		before = "0"
	}
	return before + "." + after
}

// fraction reads the rest of a common fraction, "/16", after its top.
func fraction(s []rune, i int, top string) (value float64, next int, ok bool) {
	if i+1 >= len(s) || s[i] != '/' || !unicode.IsDigit(s[i+1]) || strings.ContainsAny(top, ".,") {
		return 0, i, false
	}
	bottom, next := digits(s, i+1)
	if strings.ContainsAny(bottom, ".,") {
		return 0, i, false // "6/4.8" are two measures
	}
	a, err1 := strconv.ParseFloat(top, 64)
	b, err2 := strconv.ParseFloat(bottom, 64)
	if err1 != nil || err2 != nil || b == 0 || b > 128 {
		return 0, i, false
	}
	return a / b, next, true
}

// numberWords are numerals that people write out. A unit or a thing that is
// counted must follow, because "one" and "a" are mostly no numbers.
var numberWords = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20,
	"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100, "dozen": 12, "half": 0.5, "quarter": 0.25,
}
