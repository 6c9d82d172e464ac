package sentence

import (
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"github.com/kljensen/snowball/english"
)

// token is one word, number or sign of a message.
type token struct {
	// text is the token in lower case; stem is its stem, for words only.
	text, stem string
	// number is set for a numeral; value is its value then.
	number bool
	value  float64
	// shown is the numeral in a form that the catalogue reads: "5/16", "0.8".
	shown string
	// glued tells that no blank comes between this token and the one before.
	glued bool
	// capital is set for a single capital letter, which may be a ring's size.
	capital bool
	// corrected is the word as it was typed, where its spelling was mended.
	corrected string
}

func (t token) word() bool { return t.stem != "" }

// stemOrText is the stem of a word, and a number or a sign as it is.
func (t token) stemOrText() string {
	if t.word() {
		return t.stem
	}
	return t.text
}

// signs are the runes that people type for one another.
var signs = strings.NewReplacer(
	"×", "x", "✕", "x", "*", "x", "’", "'", "‘", "'", "“", `"`, "”", `"`, "″", `"`, "′", "'", "''", `"`,
	"→", " to ", "⇒", " to ", "->", " to ", "=>", " to ",
	"–", "-", "—", " - ", "‑", "-", "½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3",
	"º", "°", "˚", "°", "ø", " diameter ", "Ø", " diameter ", "⌀", " diameter ", "\u00a0", " ", "…", " ", "&", " and ",
)

// withoutStops writes initials without their full stops, which would end a phrase and leave
// letters that are ring sizes: the aspect ratio of jump rings, and whose sizes are meant.
var withoutStops = strings.NewReplacer(" a.r. ", " ar ", " a.r ", " ar ", " a/r ", " ar ", " A.R. ", " AR ", " A/R ", " AR ", " A.R ", " AR ",
	" A&E", " hospital", " U.S.A.", " USA", " u.s.a.", " usa", " U.S.", " US", " u.s.", " us", " (U.S.", " (US", " U.S ", " US ", " U.K.", " UK", " u.k.", " uk", " (U.K.", " (UK", " U.K ", " UK ")

// tokenize splits a message into tokens. Signs other than those of units and
// sizes separate words; a full stop, a question mark or a semicolon is kept as
// the token "." because it ends a phrase.
func tokenize(message string) []token {
	typed := []rune(signs.Replace(withoutStops.Replace(" " + writtenOut(message))))
	s := []rune(strings.ToLower(string(typed)))
	if len(typed) != len(s) {
		typed = s // a letter that is two in lower case: no capitals then
	}
	var out []token
	glued := false
	for i := 0; i < len(s); {
		r := s[i]
		switch {
		case unicode.IsSpace(r):
			glued = false
			i++
			continue
		case max(scaleOrClock(s, i), bladeNumber(s, i)) > 0:
			j := max(scaleOrClock(s, i), bladeNumber(s, i))
			out = append(out, token{text: string(s[i:j]), stem: string(s[i:j]), glued: glued})
			i = j
		case startsNumber(s, i):
			n, next := readNumber(s, i)
			if n.text == "3" && next < len(s) && s[next] == 'd' && (next+1 == len(s) || !unicode.IsLetter(s[next+1])) {
				n, next = token{text: "3d", stem: "3d"}, next+1
			}
			n.glued = glued
			out = append(out, n)
			i = next
		case unicode.IsLetter(r):
			j := i
			for j < len(s) && (unicode.IsLetter(s[j]) || s[j] == '\'' && j+1 < len(s) && unicode.IsLetter(s[j+1])) {
				j++
			}
			if j == i+1 && typed[i] == 'U' && (len(out) > 0 && sizeLeads[out[len(out)-1].text] || halfSize(s[j:])) { // size U is no "you"
				out = append(out, token{text: "u", stem: "u", capital: true})
				i = j
				continue
			}
			for _, w := range splitWord(string(s[i:j]), j < len(s) && unicode.IsDigit(s[j])) {
				w.glued = glued
				w.capital = j == i+1 && unicode.IsUpper(typed[i])
				out = append(out, w)
				glued = true
			}
			i = j
		case r == '.' && shortensUnit(typed, i, out):
			i++
			continue
		default:
			t, joins := signAt(s, i, out)
			t.glued = glued && joins || t.text == "+"
			if t.text != "" {
				out = append(out, t)
			}
			i++
			glued = joins
			continue
		}
		glued = true
	}
	return opened(out)
}

// halfSize reports whether a text goes on with the half of a ring's size: "U 1/2", "U and a half".
func halfSize(rest []rune) bool {
	const half = " and a half"
	text := string(rest[:min(len(rest), len(half)+1)])
	return strings.HasPrefix(text, " 1/2") || text == half || strings.HasPrefix(text, half) && !unicode.IsLetter(rest[len(half)]) && text[len(half):] != " "
}

// shortUnits are units that are written with a full stop: "3/4 in. wide".
var shortUnits = []string{"in", "ins", "ft", "oz", "dwt", "ga", "mm", "dia"}

// shortensUnit reports whether a full stop only shortens the unit before it: a small letter
// follows, and its writer begins sentences with capital letters.
func shortensUnit(typed []rune, i int, read []token) bool {
	n := len(read)
	if n < 2 || !read[n-2].number || !slices.Contains(shortUnits, read[n-1].text) || i == 0 || !unicode.IsLetter(typed[i-1]) {
		return false
	}
	next := i + 1
	for next < len(typed) && typed[next] == ' ' {
		next++
	}
	return next < len(typed) && unicode.IsLower(typed[next]) && slices.ContainsFunc(typed, unicode.IsUpper)
}

// signAt is the token of a sign, empty where it only separates words, and whether what
// comes next is joined to it.
func signAt(s []rune, i int, read []token) (t token, joins bool) {
	var before token
	if len(read) > 0 {
		before = read[len(read)-1]
	}
	digit := func(k int) bool { return k < len(s) && unicode.IsDigit(s[k]) }
	letter := func(k int) bool { return k >= 0 && k < len(s) && unicode.IsLetter(s[k]) }
	blank := func(k int) bool { return k >= 0 && k < len(s) && unicode.IsSpace(s[k]) }
	switch r := s[i]; r {
	case '"', '\'', '°', '%', '$', '€', '£', '#':
		return token{text: string(r)}, true
	case '+':
		switch {
		case before.text == "z" && digit(i+1):
			return token{text: "+"}, true // ring size Z+2
		case len(before.text) == 1 && before.word() && startsHalf(s[i+1:]):
			return token{text: "and", stem: "and"}, false // ring size N+half
		}
		return token{text: "."}, false
	case '.', '?', '!', ';', '\n':
		return token{text: "."}, false
	case ',', ':', '(', ')', '=':
		return token{text: ","}, false
	case '-', '/':
		switch {
		case r == '-' && letter(i-1) && letter(i+1) && (letter(i-2) || letter(i+2)): // "L-N" is a span
			return token{}, false // "tube-set" is two words
		case r == '/' && blank(i-1) && blank(i+1): // "6 rd / 0.8 / 17"
			return token{text: ","}, false
		}
		return token{text: "-"}, true
	}
	return token{}, false
}

// bladeNumber is where the number of a saw blade ends that begins at i, "4/0"; 0 where
// there is none.
func bladeNumber(s []rune, i int) int {
	digit := func(k int) bool { return k >= 0 && k < len(s) && unicode.IsDigit(s[k]) }
	joined := i > 0 && (digit(i-1) || s[i-1] == '/' || s[i-1] == '.' || s[i-1] == ',')
	if joined || !digit(i) || i+2 >= len(s) || s[i+1] != '/' || s[i+2] != '0' || digit(i+3) || i+3 < len(s) && s[i+3] == '.' && digit(i+4) {
		return 0
	}
	return i + 3
}

// startsHalf reports whether "half" or "1/2" comes next.
func startsHalf(s []rune) bool {
	rest := strings.TrimLeft(string(s[:min(len(s), 6)]), " ")
	return strings.HasPrefix(rest, "half") || strings.HasPrefix(rest, "1/2")
}

// splitWord makes the tokens of a run of letters. An x between two numbers is a
// sign of its own, also where it is typed twice, as in 8xx6.
func splitWord(w string, beforeDigit bool) []token {
	bare := strings.ReplaceAll(w, "'", "")
	if strings.Trim(bare, "x") == "" {
		return []token{{text: "x", stem: "x"}}
	}
	if beforeDigit && strings.HasSuffix(bare, "x") {
		if unit := strings.TrimSuffix(bare, "x"); unit == "mm" || unit == "in" || unit == "cm" {
			return []token{{text: unit, stem: unit}, {text: "x", stem: "x"}}
		}
	}
	if plain := phoneWords[bare]; plain != "" {
		bare = plain
	}
	return []token{{text: bare, stem: stemOf(bare)}}
}

// phoneWords are short ways in which people write words on a phone.
var phoneWords = map[string]string{"wot": "what", "u": "you", "ur": "your", "pls": "please", "plz": "please", "thru": "through", "shd": "should", "abt": "about", "thk": "thick", "bzl": "bezel", "bezl": "bezel", "stn": "stone", "stns": "stones", "clt": "collet", "ht": "height", "lgth": "length", "lngth": "length", "slvr": "silver", "sil": "silver", "blk": "block", "hgt": "height", "thck": "thick", "dia": "dia"}

// keptWords are words whose stem would be that of another word of the trade.
var keptWords = map[string]string{"bearing": "bearing", "setting": "setting", "settings": "setting", "sizing": "sizing", "casting": "casting", "castings": "casting", "wax": "wax", "waxes": "wax", "is": "is", "this": "this", "us": "us", "plate": "plate", "plates": "plate", "plating": "plating", "planishing": "planishing"}

func stemOf(w string) string {
	if kept := keptWords[w]; kept != "" {
		return kept
	}
	if s, ok := stems.Load(w); ok {
		return s.(string)
	}
	s := english.Stem(w, false)
	if len(w) <= longestKept && stemsKept.Add(1) <= mostStems {
		stems.Store(w, s)
	}
	return s
}

// stems keeps the stems of the first words that are met, mostly those of the program
// and of everyday messages: members' words have no end.
var (
	stems     sync.Map
	stemsKept atomic.Int64
)

const (
	mostStems   = 30_000
	longestKept = 24 // letters of a word that is kept
)

// startsNumber reports whether a numeral starts at i: a digit, or a point or
// comma before one that no digit precedes.
func startsNumber(s []rune, i int) bool {
	if unicode.IsDigit(s[i]) {
		return true
	}
	return (s[i] == '.' || s[i] == ',') && i+1 < len(s) && unicode.IsDigit(s[i+1]) && (i == 0 || !unicode.IsDigit(s[i-1]))
}

// scaleOrClock is where "1:1" or an hour such as "7:30" ends that begins at i; 0
// where there is none. Neither measures a piece.
func scaleOrClock(s []rune, i int) int {
	digit := func(k int) bool { return k >= 0 && k < len(s) && unicode.IsDigit(s[k]) }
	if !digit(i) || digit(i-1) || i > 0 && (s[i-1] == '.' || s[i-1] == ',') {
		return 0
	}
	j := i + 1
	if digit(j) {
		j++
	}
	if j+1 >= len(s) || s[j] != ':' || !digit(j+1) {
		return 0
	}
	scale := j == i+1 && s[i] == '1' && s[j+1] == '1' && !digit(j+2)
	hour := digit(j+2) && !digit(j+3)
	switch {
	case scale:
		return j + 2
	case hour:
		return j + 3
	}
	return 0
}
