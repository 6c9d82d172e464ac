package terminal

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"guildhand/bot/answer"
)

// columns is the width that text is wrapped at; most terminals have 80.
const columns = 78

// clean makes text safe to show: control characters, which could move the
// cursor or recolour the screen, marks that turn the direction of reading, and
// broken UTF-8 become a visible sign. Line ends stay.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == utf8.RuneError,
			r == '\u2028', r == '\u2029':
			return '\uFFFD'
		}
		return r
	}, text)
}

// answerText is an answer for reading: headline, main figures, notes, what was
// assumed, cautions. The working is not part of it.
func answerText(a *answer.Answer) string {
	var b strings.Builder
	paragraph(&b, "", a.Headline)
	var main []answer.Figure
	wide := 0
	for _, f := range a.Figures {
		if f.Main {
			main = append(main, f)
			wide = max(wide, min(utf8.RuneCountInString(f.Label), columns/2))
		}
	}
	for _, f := range main {
		gap := strings.Repeat(" ", max(0, wide-utf8.RuneCountInString(f.Label)))
		fmt.Fprintf(&b, "  %s%s  %s\n", f.Label, gap, a.Show(f))
	}
	lead := "note: "
	if len(a.Figures) == 0 {
		lead = "  " // the notes are the answer: help, lists
	}
	for _, note := range a.Notes {
		paragraph(&b, lead, note)
	}
	if len(a.Assumptions) > 0 {
		paragraph(&b, "assumed: ", strings.Join(answer.Brief(a.Assumptions), "; "))
	}
	for _, caution := range a.Cautions {
		paragraph(&b, "take care: ", caution)
	}
	return clean(b.String())
}

// refusalText is the sentence of a refusal and the line to try.
func refusalText(r *answer.Refusal) string {
	var b strings.Builder
	paragraph(&b, "", r.Problem)
	if r.Try != "" {
		// Not wrapped: it is there to be copied.
		fmt.Fprintf(&b, "try: %s\n", strings.ReplaceAll(r.Try, "\n", " "))
	}
	return clean(b.String())
}

// stepsText is the working of an answer, numbered.
func stepsText(a *answer.Answer) string {
	if len(a.Steps) == 0 {
		return "there is no working for this one\n"
	}
	var b strings.Builder
	for i, step := range a.Steps {
		paragraph(&b, fmt.Sprintf("%2d. ", i+1), step)
	}
	return clean(b.String())
}

// paragraph writes text behind a lead, wrapped; where there is a lead, the
// lines that follow are indented.
func paragraph(b *strings.Builder, lead, text string) {
	indent := ""
	if lead != "" {
		indent = "    "
	}
	b.WriteString(lead)
	column := utf8.RuneCountInString(lead)
	start := true
	for _, word := range strings.Fields(text) {
		length := utf8.RuneCountInString(word)
		switch {
		case start:
		case column+1+length > columns:
			b.WriteString("\n" + indent)
			column = len(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += length
		start = false
	}
	b.WriteByte('\n')
}
