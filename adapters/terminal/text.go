package terminal

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"

	"guildhand/bot/answer"

	"golang.org/x/term"
)

// page is how wide text may be.
type page struct{ columns int }

// plainPage is for files, pipes and terminals of unknown width.
var plainPage = page{78}

// fewestColumns keeps a terminal that is squeezed to nothing readable.
const fewestColumns = 20

// rows leaves one line of a first screen for what else there is.
const rows = answer.ScreenLines - 1

// pageOf measures the terminal that w writes to. Ask again for each answer: the
// window may have changed.
func pageOf(w io.Writer) page {
	file, ok := w.(*os.File)
	if !ok {
		return plainPage
	}
	columns, _, err := term.GetSize(int(file.Fd()))
	if err != nil || columns <= 0 {
		return plainPage
	}
	// Some terminals break a line that fills the last column.
	return page{max(columns-1, fewestColumns)}
}

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

// answer is the first screen of an answer: headline, main figures, notes,
// cautions, what was assumed. The working is not part of it.
func (p page) answer(a *answer.Answer) string {
	screen := a.FirstScreen(p.columns, rows)
	var b strings.Builder
	p.paragraph(&b, "", screen.Headline)
	wide := 0
	for _, f := range screen.Figures {
		wide = max(wide, min(utf8.RuneCountInString(f.Label), p.columns/2))
	}
	for _, f := range screen.Figures {
		gap := strings.Repeat(" ", max(0, wide-utf8.RuneCountInString(f.Label)))
		line := "  " + f.Label + gap + "  " + a.Show(f)
		if utf8.RuneCountInString(line) > p.columns {
			p.paragraph(&b, "  ", f.Label+" "+a.Show(f))
			continue
		}
		b.WriteString(line + "\n")
	}
	lead := answer.LeadNote
	if len(a.Figures) == 0 {
		lead = "  " // the notes are the answer: help, lists
	}
	for _, note := range screen.Notes {
		p.paragraph(&b, lead, note)
	}
	if screen.Care != "" {
		p.paragraph(&b, answer.LeadCare, screen.Care)
	}
	if screen.Assumed != "" {
		p.paragraph(&b, answer.LeadAssumed, screen.Assumed)
	}
	for _, caution := range screen.MoreCare {
		p.paragraph(&b, answer.LeadCare, caution)
	}
	return clean(b.String())
}

// refusal is the sentence of a refusal and the line to try.
func (p page) refusal(r *answer.Refusal) string {
	var b strings.Builder
	p.paragraph(&b, "", r.Problem)
	for i, c := range r.Choices {
		p.paragraph(&b, fmt.Sprintf("%2d. ", i+1), c.Label)
	}
	if len(r.Choices) > 0 {
		p.paragraph(&b, "", answer.ReplyHint)
	} else if r.Try != "" {
		// Not wrapped: it is there to be copied.
		fmt.Fprintf(&b, "try: %s\n", strings.ReplaceAll(r.Try, "\n", " "))
	}
	return clean(b.String())
}

// working is the working of an answer: its steps, numbered, the figures that
// the first screen had no room for, and in full what was assumed and cautioned.
func (p page) working(a *answer.Answer) string {
	var b strings.Builder
	for i, step := range a.Steps {
		p.paragraph(&b, fmt.Sprintf("%2d. ", i+1), step)
	}
	for _, f := range a.OtherFigures(a.FirstScreen(p.columns, rows)) {
		p.paragraph(&b, "  ", f.Label+": "+a.Show(f))
	}
	for _, assumption := range answer.Brief(a.Assumptions) {
		p.paragraph(&b, answer.LeadAssumed, assumption)
	}
	for _, caution := range a.Cautions {
		p.paragraph(&b, answer.LeadCare, caution)
	}
	if b.Len() == 0 {
		return "this answer has no working\n"
	}
	return clean(b.String())
}

// paragraph writes text behind a lead, wrapped.
func (p page) paragraph(b *strings.Builder, lead, text string) {
	for _, line := range answer.Wrap(lead, text, p.columns) {
		b.WriteString(line + "\n")
	}
}
