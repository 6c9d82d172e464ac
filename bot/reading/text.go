package reading

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// typed is a line as it is read: low is what the parser looks at, raw what the
// maker typed. low has lower case letters, plain spaces, ASCII quotes and
// dashes, 1/2 for a half sign; what does not print is gone.
type typed struct {
	raw string
	low string
	// at[i] is the place in raw of byte i of low; nil where both are alike.
	at []int32
}

// rawAt returns the place in raw of place i in low, i from 0 to len(low).
func (t *typed) rawAt(i int) int {
	if t.at == nil {
		return i
	}
	return int(t.at[i])
}

// replace returns the line as typed with low[start:end] replaced.
func (t *typed) replace(start, end int, with string) string {
	return t.raw[:t.rawAt(start)] + with + t.raw[t.rawAt(end):]
}

func readTyped(raw string) typed {
	plain := true
	upper := false
	for i := 0; i < len(raw); i++ {
		c := raw[i]
		if c >= utf8.RuneSelf || c < ' ' || c == 0x7f {
			plain = false
			break
		}
		if c == '"' && (i == 0 || raw[i-1] == ' ') {
			plain = false // a quotation, and not inches
			break
		}
		upper = upper || 'A' <= c && c <= 'Z'
	}
	if plain {
		if !upper {
			return typed{raw: raw, low: raw}
		}
		return typed{raw: raw, low: strings.ToLower(raw)}
	}
	t := typed{raw: raw, at: make([]int32, 0, len(raw)+8)}
	var b strings.Builder
	b.Grow(len(raw) + 8)
	quoted := false
	for i, r := range raw {
		size := i+utf8.RuneLen(r) < len(raw) && isDigit(raw[i+utf8.RuneLen(r)])
		s := simple(r, b.Len() > 0 && isDigit(b.String()[b.Len()-1]))
		if s == `"` {
			// A mark that opens a size is a quotation, and so is the next one:
			// it does not mean inches.
			if opens := size && (b.Len() == 0 || b.String()[b.Len()-1] == ' '); opens || quoted {
				quoted = opens && !quoted
				s = " "
			}
		}
		for _, c := range s {
			n := b.Len()
			b.WriteRune(c)
			for ; n < b.Len(); n++ {
				t.at = append(t.at, int32(i))
			}
		}
	}
	t.low = b.String()
	t.at = append(t.at, int32(len(raw)))
	return t
}

// simple returns what the parser reads in place of a character.
func simple(r rune, afterDigit bool) string {
	switch r {
	case '×', '✕', '✖', '⨯', '∗', '⋅', 'х', 'Х': // the last two are Cyrillic
		return "x"
	case '“', '”', '„', '‟', '″', '«', '»', '＂', '〃', '˝':
		return `"`
	case '‘', '’', '‚', '‛', '′', '´', '＇':
		return "'"
	case '–', '—', '−', '‐', '‑', '‒', '―', '﹣':
		return "-"
	case '⁄', '∕':
		return "/"
	case '，', '、', '٫':
		return ","
	case '；':
		return ";"
	case 'º', '˚':
		return "°"
	case 'μ':
		return "µ"
	case '\u200b', '\u200c', '\u200d', '\u2060', '\ufeff', '\u00ad', '\ufe0e', '\ufe0f', '\u20e3':
		return "" // zero width, soft hyphen, emoji presentation, keycap
	}
	if f, ok := fractions[r]; ok {
		if afterDigit {
			return " " + f
		}
		return f
	}
	switch {
	case '！' <= r && r <= '～': // full-width ASCII
		return string(unicode.ToLower(r - 0xfee0))
	case unicode.IsSpace(r) || unicode.IsControl(r):
		return " "
	case unicode.Is(unicode.Cf, r): // direction marks and the like
		return ""
	}
	return string(unicode.ToLower(r))
}

var fractions = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6",
	'⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅒': "1/10",
}

// cleanText is free text as it is kept: one line, single spaces, nothing that
// does not print. A line break becomes "; ", so that a list typed on several
// lines stays one. Cleaning it again changes nothing.
func cleanText(raw string) string {
	var b strings.Builder
	gap := ""
	for _, r := range strings.ToValidUTF8(raw, "\ufffd") {
		switch {
		case r == '\n' || r == '\u2028' || r == '\u2029':
			gap = "; "
		case unicode.IsSpace(r) || unicode.IsControl(r):
			if gap == "" {
				gap = " "
			}
		case unicode.Is(unicode.Cf, r) && r != '\u200d': // joined emoji stay whole
		default:
			if b.Len() > 0 {
				if gap == "; " && strings.HasSuffix(b.String(), ";") {
					gap = " "
				}
				b.WriteString(gap)
			}
			gap = ""
			b.WriteRune(r)
		}
	}
	return b.String()
}

// shown quotes what was typed, for a sentence: short, on one line.
func shown(s string) string {
	s = cleanText(s)
	const most = 40
	if utf8.RuneCountInString(s) > most {
		r := []rune(s)
		s = string(r[:most]) + "…"
	}
	return `"` + s + `"`
}

func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
func isLetter(c byte) bool { return 'a' <= c && c <= 'z' }

// letterAt reports whether a letter of any script is at i.
func letterAt(s string, i int) bool {
	if i >= len(s) {
		return false
	}
	if s[i] < utf8.RuneSelf {
		return isLetter(s[i])
	}
	r, _ := utf8.DecodeRuneInString(s[i:])
	return unicode.IsLetter(r) && r != 'µ'
}

func digitAt(s string, i int) bool { return i < len(s) && isDigit(s[i]) }

// spaces skips blanks.
func spaces(s string, i int) int {
	for i < len(s) && s[i] == ' ' {
		i++
	}
	return i
}

// letters returns the end of the run of letters at i.
func letters(s string, i int) int {
	for letterAt(s, i) {
		_, n := utf8.DecodeRuneInString(s[i:])
		i += n
	}
	return i
}

// matchPhrase returns the end of phrase in s at i, or -1. A "-" of the phrase
// matches any blanks and hyphens, or none: "half moon", "half-moon" and
// "halfmoon" are one. Blanks may come between digits and letters: "18 k". The
// phrase has to end there: no letter after a letter, no digit after a digit.
func matchPhrase(s string, i int, phrase string) int {
	if len(phrase) == 0 || i >= len(s) || s[i] != phrase[0] {
		return -1
	}
	j := i
	for k := 0; k < len(phrase); k++ {
		c := phrase[k]
		if joins(c) {
			for j < len(s) && joins(s[j]) {
				j++
			}
			continue
		}
		if j < len(s) && s[j] == ' ' && k > 0 && len(phrase) > 2 &&
			(isDigit(c) && isLetter(phrase[k-1]) || isLetter(c) && isDigit(phrase[k-1])) {
			j = spaces(s, j)
		}
		if j >= len(s) || s[j] != c {
			return -1
		}
		j++
	}
	if !wordEnds(s, j, isDigit(phrase[len(phrase)-1])) {
		return -1
	}
	return j
}

// joins reports whether a byte may come between the words of a phrase.
func joins(c byte) bool { return c == ' ' || c == '-' || c == '_' }

// wordEnds reports whether a word that ends in a letter or a digit is over at j.
func wordEnds(s string, j int, digit bool) bool {
	if letterAt(s, j) {
		return false
	}
	decimal := j < len(s) && strings.IndexByte(".,/", s[j]) >= 0 && digitAt(s, j+1)
	return !digit || !digitAt(s, j) && !decimal
}

// unquoted takes off the mark that a quotation starts with, and the one that
// ends it.
func unquoted(s string) string {
	const marks = "\"“”„‟″«»＂〃˝"
	inside := strings.TrimLeft(s, marks+" ")
	if inside == s {
		return s
	}
	return strings.TrimRight(inside, marks+" ")
}
