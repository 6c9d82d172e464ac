package terminal

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"guildhand/bot/answer"
)

// columns is the width that text is wrapped at; most terminals have 80. rows
// leaves one line of a first screen for where the rest is.
const (
	columns = 78
	rows    = answer.ScreenLines - 1
)

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

// answerText is the first screen of an answer: headline, main figures, notes,
// cautions, what was assumed. The working is not part of it.
func answerText(a *answer.Answer) string {
	screen := a.FirstScreen(columns, rows)
	var b strings.Builder
	paragraph(&b, "", screen.Headline)
	wide := 0
	for _, f := range screen.Figures {
		wide = max(wide, min(utf8.RuneCountInString(f.Label), columns/2))
	}
	for _, f := range screen.Figures {
		gap := strings.Repeat(" ", max(0, wide-utf8.RuneCountInString(f.Label)))
		fmt.Fprintf(&b, "  %s%s  %s\n", f.Label, gap, a.Show(f))
	}
	lead := answer.LeadNote
	if len(a.Figures) == 0 {
		lead = "  " // the notes are the answer: help, lists
	}
	for _, note := range screen.Notes {
		paragraph(&b, lead, note)
	}
	if screen.Care != "" {
		paragraph(&b, answer.LeadCare, screen.Care)
	}
	if screen.Assumed != "" {
		paragraph(&b, answer.LeadAssumed, screen.Assumed)
	}
	for _, caution := range screen.MoreCare {
		paragraph(&b, answer.LeadCare, caution)
	}
	return clean(b.String())
}

// refusalText is the sentence of a refusal and the line to try.
func refusalText(r *answer.Refusal) string {
	var b strings.Builder
	paragraph(&b, "", r.Problem)
	for i, c := range r.Choices {
		paragraph(&b, fmt.Sprintf("%2d. ", i+1), c.Label)
	}
	if len(r.Choices) > 0 {
		paragraph(&b, "", answer.ReplyHint)
	} else if r.Try != "" {
		// Not wrapped: it is there to be copied.
		fmt.Fprintf(&b, "try: %s\n", strings.ReplaceAll(r.Try, "\n", " "))
	}
	return clean(b.String())
}

// stepsText is the working of an answer: its steps, numbered, the figures that
// the first screen had no room for, and in full what was assumed and cautioned.
func stepsText(a *answer.Answer) string {
	var b strings.Builder
	for i, step := range a.Steps {
		paragraph(&b, fmt.Sprintf("%2d. ", i+1), step)
	}
	for _, f := range a.OtherFigures(a.FirstScreen(columns, rows)) {
		paragraph(&b, "  ", f.Label+": "+a.Show(f))
	}
	for _, assumption := range answer.Brief(a.Assumptions) {
		paragraph(&b, answer.LeadAssumed, assumption)
	}
	for _, caution := range a.Cautions {
		paragraph(&b, answer.LeadCare, caution)
	}
	if b.Len() == 0 {
		return "there is no working for this one\n"
	}
	return clean(b.String())
}

// paragraph writes text behind a lead, wrapped.
func paragraph(b *strings.Builder, lead, text string) {
	for _, line := range answer.Wrap(lead, text, columns) {
		b.WriteString(line + "\n")
	}
}
