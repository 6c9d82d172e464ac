package daybook

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode"
)

const (
	maxWords     = 80 // of one entry
	maxWordRunes = 40
)

// splitWords cuts text into the whole words that can be searched for: lower
// case, "8×6" like "8x6", "0.64" in one piece.
func splitWords(text string) []string {
	text = strings.ToLower(strings.ReplaceAll(text, "×", "x"))
	fields := strings.FieldsFunc(text, func(r rune) bool {
		return r != '.' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	words := make([]string, 0, len(fields))
	for _, w := range fields {
		w = strings.Trim(w, ".")
		if runes := []rune(w); len(runes) > maxWordRunes {
			w = string(runes[:maxWordRunes])
		}
		if w != "" {
			words = append(words, w)
		}
	}
	slices.Sort(words)
	return slices.Compact(words)
}

// A facet is a word that stands for a column. No word of a text has an equals
// sign, so the two can't be confused.
func facet(column, value string) string {
	value = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, clean(value))
	return column + "=" + value
}

// facets returns those words that find what the filter's columns ask for.
func facets(maker, request, outline string, status Status) []string {
	var words []string
	for _, f := range []struct{ column, value string }{
		{"maker", maker}, {"request", request}, {"outline", outline}, {"status", string(status)},
	} {
		if f.value != "" {
			words = append(words, facet(f.column, f.value))
		}
	}
	return words
}

// indexWords is all that an entry can be found by.
func indexWords(e *Entry) []string {
	words := splitWords(e.Typed + "\n" + e.Line + "\n" + e.Headline)
	return append(facets(e.Maker, e.Request, e.Outline, e.Status), words[:min(len(words), maxWords)]...)
}

// wordSeparator separates an entry's words in its words column; no word contains
// it.
const wordSeparator = "\n"

// clean makes text storable on both stores: valid UTF-8 without NUL, as
// PostgreSQL demands.
func clean(s string) string {
	return strings.ReplaceAll(strings.ToValidUTF8(s, "\uFFFD"), "\x00", "")
}

// outlineIn finds the outline's word in parsed arguments: {"outline": "oval"}
// or {"outline": {"Text": "oval"}}, the form of a catalogue value.
func outlineIn(args json.RawMessage) string {
	var named struct {
		Outline json.RawMessage `json:"outline"`
	}
	if len(args) == 0 || json.Unmarshal(args, &named) != nil || named.Outline == nil {
		return ""
	}
	var word string
	if json.Unmarshal(named.Outline, &word) == nil {
		return word
	}
	var value struct{ Text string }
	if json.Unmarshal(named.Outline, &value) == nil {
		return value.Text
	}
	return ""
}
