package requests

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// linesOf is how many lines there are: a terminal says below the answer where the
// rest is.
func linesOf(columns int) int {
	if columns > answer.PhoneColumns {
		return answer.ScreenLines - 1
	}
	return answer.ScreenLines
}

// screen is the first screen of an answer as text, wrapped, without the cautions
// that follow beyond it.
func screen(a *answer.Answer, columns int) []string {
	s := a.FirstScreen(columns, linesOf(columns))
	text := answer.Wrap("", s.Headline, columns)
	for _, f := range s.Figures {
		text = append(text, answer.Wrap("  ", f.Label+"  "+a.Show(f), columns)...)
	}
	for _, n := range s.Notes {
		text = append(text, answer.Wrap(answer.LeadNote, n, columns)...)
	}
	if s.Care != "" {
		text = append(text, answer.Wrap(answer.LeadCare, s.Care, columns)...)
	}
	if s.Assumed != "" {
		text = append(text, answer.Wrap(answer.LeadAssumed, s.Assumed, columns)...)
	}
	return text
}

// The widths of a terminal and of a phone.
var widths = []int{78, answer.PhoneColumns}

// checkScreen checks that a first screen has no more lines than a phone shows.
// Only warnings about the very piece may make it longer on a phone, and then
// everything else gives way to them.
func checkScreen(t *testing.T, a *answer.Answer, columns int) {
	t.Helper()
	if len(a.Figures) == 0 && a.Fleeting {
		return // first aid: all that must be done stands on the screen
	}
	if a.Explains {
		return // a text of its own length, limited in package knowledge
	}
	text := screen(a, columns)
	s := a.FirstScreen(columns, linesOf(columns))
	switch over := len(text) - linesOf(columns); {
	case over <= 0:
	case columns > answer.PhoneColumns, over > 4, len(s.Figures) > 2:
		t.Errorf("%s: %d lines of %d columns: %q", a.Line, len(text), columns, text)
	case len(a.Notes) == 0 && !a.Inches:
		t.Errorf("%s: %d lines of %d columns without a warning: %q", a.Line, len(text), columns, text)
	}
	if (s.Assumed == "") != (len(a.Assumptions) == 0) || (s.Care == "") != (len(a.Cautions) == 0) || len(s.MoreCare) != max(0, len(a.Cautions)-1) {
		t.Errorf("%s: assumptions or cautions are missing: %q", a.Line, text)
	}
}

// Every example of the catalogue that needs no daybook fits a first screen, in
// a terminal and on a phone.
func TestExamplesFitAScreen(t *testing.T) {
	specs, shop := All(nil), stock.DemoWorkshop()
	shown := 0
	for _, s := range specs {
		for _, e := range s.Examples {
			a := requeststest.Answered(t, specs, shop, e.Line)
			if a == nil {
				continue
			}
			shown++
			for _, columns := range widths {
				checkScreen(t, a, columns)
				for _, l := range screen(a, columns) {
					t.Log(l)
				}
			}
		}
	}
	if shown < 60 {
		t.Errorf("only %d examples were shown", shown)
	}
}

func TestRandomAnswersFitAScreen(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 12))
	specs, shop := All(nil), stock.DemoWorkshop()
	shown := 0
	for range 2000 {
		a := requeststest.Answered(t, specs, shop, requeststest.RandomCollet(rnd))
		if a == nil {
			continue
		}
		shown++
		for _, columns := range widths {
			checkScreen(t, a, columns)
		}
	}
	if shown < 200 {
		t.Errorf("only %d were answered", shown)
	}
}

// No figure of a first screen repeats what the headline has, and something of
// what was assumed always shows.
func TestScreenRepeatsNothingAndHidesNotAll(t *testing.T) {
	specs, shop := All(nil), stock.DemoWorkshop()
	shown := 0
	for _, s := range specs {
		for _, e := range s.Examples {
			a := requeststest.Answered(t, specs, shop, e.Line)
			if a == nil {
				continue
			}
			for _, columns := range widths {
				screen := a.FirstScreen(columns, linesOf(columns))
				for _, f := range screen.Figures {
					if value := a.Show(f); strings.ContainsAny(value, ".:") {
						assert.NotContains(t, " "+screen.Headline, " "+value, "%s: %s", e.Line, f.Label)
						shown++
					}
				}
				if len(a.Assumptions) > 0 {
					assert.NotEmpty(t, screen.Assumed, e.Line)
					assert.NotContains(t, screen.Assumed, "see the working", e.Line)
				}
			}
		}
	}
	assert.Greater(t, shown, 100)
}
