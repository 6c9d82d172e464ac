package matrix

import (
	"fmt"
	"strings"
	"testing"

	"guildhand/bot"
	"guildhand/bot/answer"
)

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain":                 "plain",
		"a\nb\tc\x00\x1b[31m":   "a b c[31m",
		"@room":                 "@\u2060room",
		"5 g @ 3":               "5 g @ 3",
		"\u202eabc\u2066\u200f": "abc",
		"8×6 mm °":              "8×6 mm °",
	} {
		if got := clean(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

// TestRenderAnswer: a full answer fits the first screen of a phone, and both
// forms say the same.
func TestRenderAnswer(t *testing.T) {
	a := &answer.Answer{
		Line: "collet oval 8x6", Headline: "Cut 30.00 x 8.00 mm from silver <22 ga>",
		Notes: []string{"thin for this"}, Assumptions: []string{"lean 8.5", "rim 1 mm"},
		Steps: []string{"saw", "bend"}, Cautions: []string{"wear goggles", "vent"},
	}
	for n := range 9 {
		a.Figures = append(a.Figures, answer.Figure{
			ID: fmt.Sprint("f", n), Label: fmt.Sprint("figure ", n), Value: 25.4 * float64(n+1), Unit: answer.MM, Main: n < 7,
		})
	}
	a.Attachments = []answer.Attachment{{Name: "a.png", Type: answer.PNG}, {Name: "a.pdf", Type: answer.PDF}}
	c := renderAnswer(bot.Reply{Answer: a}, "!").notice()
	want := []string{
		"Cut 30.00 x 8.00 mm from silver <22 ga>",
		"figure 0: 25.40 mm", "figure 1: 50.80 mm", "figure 2: 76.20 mm", "figure 3: 101.60 mm", "figure 4: 127.00 mm", "figure 5: 152.40 mm",
		"thin for this", "⚠ wear goggles", "assumed: lean 8.5; rim 1 mm", "⚠ vent",
		"asked: !collet oval 8x6", "react with 🔧 working, 📄 PDF at 1:1, 📏 inches",
	}
	if got := strings.Split(c.Body, "\n"); strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("body\n%s\nwant\n%s", c.Body, strings.Join(want, "\n"))
	}
	if lines := strings.Split(c.FormattedBody, "<br>"); len(lines) != len(want) ||
		lines[0] != "<strong>Cut 30.00 x 8.00 mm from silver &lt;22 ga&gt;</strong>" ||
		lines[1] != "figure 0: <strong>25.40 mm</strong>" || lines[11] != "asked: <code>!collet oval 8x6</code>" {
		t.Errorf("HTML %s", c.FormattedBody)
	}
	working := renderWorking(a).notice().Body
	for _, line := range []string{"1. saw", "2. bend", "figure 6: 177.80 mm", "figure 8: 228.60 mm", "assumed: rim 1 mm", "⚠ vent"} {
		if !strings.Contains(working, line) {
			t.Errorf("the working lacks %q: %s", line, working)
		}
	}
	if inches := renderInches(a).notice().Body; !strings.Contains(inches, "figure 1: 2.000 in") {
		t.Errorf("inches: %s", inches)
	}
}

// TestLongText: an answer never grows past what an event may hold.
func TestLongText(t *testing.T) {
	a := &answer.Answer{Headline: "long"}
	for range 5000 {
		a.Steps = append(a.Steps, strings.Repeat("<file> ", 10))
	}
	c := renderWorking(a).notice()
	if n := len(c.Body) + len(c.FormattedBody); n > 2*mostBytes+2*len(cutShort)+10 {
		t.Errorf("%d bytes", n)
	}
	if !strings.HasSuffix(c.Body, cutShort) || !strings.HasSuffix(c.FormattedBody, cutShort) {
		t.Errorf("a cut text does not say so: %q", c.Body[len(c.Body)-60:])
	}
}
