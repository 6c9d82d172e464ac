package answer

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// full has more of everything than a phone shows.
func full() *Answer {
	a := &Answer{
		Headline: "Cut 24.45 x 8.09 mm of 22 ga (0.64 mm) sterling silver for an oval 8 x 6 mm.",
		Cautions: []string{
			"Use only solder that its maker sells as cadmium-free, with fumes drawn off your face.",
			"Wear goggles and gloves at the pickle.", "Keep fingers beside the blade's path.",
		},
		Assumptions: []string{
			"lean 8.5° (17 degrees included, a value from memory)", "rim 1 mm (common practice, no source)", "clearance 0.05 mm (common practice, no source)",
			"corner bent (default)", "neutral factor 0.5 (gentle bends: common practice, no source)", "depth 3.7 mm, measure it (estimate, 62 % of the width: common practice, no source)",
			"alloy copper (your bench)", "house rule: rims are 1.2 mm here",
		},
		Steps: []string{"draw it"},
	}
	for i := range 8 {
		a.Figures = append(a.Figures, Figure{ID: fmt.Sprintf("figure_%d", i), Label: fmt.Sprintf("figure %d", i), Value: float64(i), Unit: MM, Main: i < 7})
	}
	return a
}

// height is how many lines a screen takes.
func height(a *Answer, s Screen, columns int) int {
	n := lines("", s.Headline, columns) + lines(LeadAssumed, s.Assumed, columns)
	for _, f := range s.Figures {
		n += lines("  ", f.Label+"  "+a.Show(f), columns)
	}
	for _, note := range s.Notes {
		n += lines(LeadNote, note, columns)
	}
	return n + lines(LeadCare, s.Care, columns)
}

func TestFirstScreen(t *testing.T) {
	a := full()
	const all = "house rule: rims are 1.2 mm here; depth 3.7 mm, measure it (estimate); alloy copper (your bench); " +
		"corner bent; rim 1 mm, clearance 0.05 mm, neutral factor 0.5 (common practice); lean 8.5° (from memory)"
	for _, test := range []struct {
		columns, figures int
		assumed          string
	}{
		{78, 6, all},
		{PhoneColumns, 4, "house rule: rims are 1.2 mm here; depth 3.7 mm, measure it (estimate); and 6 more in the working"},
		{400, 6, all},
	} {
		s := a.FirstScreen(test.columns, ScreenLines)
		if got := height(a, s, test.columns); got > ScreenLines {
			t.Errorf("%d columns: %d lines", test.columns, got)
		}
		if len(s.Figures) != test.figures || s.Assumed != test.assumed {
			t.Errorf("%d columns: %d figures, assumed %q", test.columns, len(s.Figures), s.Assumed)
		}
		// The worst caution is whole, the others follow.
		if s.Care != a.Cautions[0] || !slices.Equal(s.MoreCare, a.Cautions[1:]) {
			t.Errorf("%d columns: cautions %q, %q", test.columns, s.Care, s.MoreCare)
		}
		if others := a.OtherFigures(s); len(others)+len(s.Figures) != len(a.Figures) || others[len(others)-1].ID != "figure_7" {
			t.Errorf("%d columns: %d figures are left for the working", test.columns, len(others))
		}
	}
}

// Warnings are never cut for figures, nor house rules for anything.
func TestFirstScreenKeepsWarnings(t *testing.T) {
	a := full()
	for i := range 4 {
		a.Notes = append(a.Notes, strings.Repeat("mind this ", 12)+fmt.Sprint(i))
		a.Assumptions = append(a.Assumptions, "house rule of the guild: "+strings.Repeat("thick metal ", 8)+fmt.Sprint(i))
	}
	s := a.FirstScreen(PhoneColumns, ScreenLines)
	if !slices.Equal(s.Notes, a.Notes) || len(s.Figures) != fewestFigures {
		t.Errorf("notes %q, %d figures", s.Notes, len(s.Figures))
	}
	for _, rule := range a.Assumptions[7:] {
		if !strings.Contains(s.Assumed, rule) {
			t.Errorf("%q is not shown: %q", rule, s.Assumed)
		}
	}
}

func TestFirstScreenOfNothing(t *testing.T) {
	a := &Answer{}
	if s := a.FirstScreen(PhoneColumns, ScreenLines); s.Care != "" || len(s.MoreCare)+len(s.Figures)+len(s.Notes) > 0 || s.Assumed != "" || a.HasWorking() {
		t.Errorf("got %+v", s)
	}
}

func TestWrap(t *testing.T) {
	for _, test := range []struct {
		lead, text string
		columns    int
		want       []string
	}{
		{"", "one two three", 7, []string{"one two", "three"}},
		{"to: ", "one two three", 9, []string{"to: one", "    two", "    three"}},
		{"", "incomprehensible", 4, []string{"incomprehensible"}},
		{"", "  α β\nγ ", 3, []string{"α β", "γ"}},
		{"", "", 4, []string{""}},
	} {
		if got := Wrap(test.lead, test.text, test.columns); !slices.Equal(got, test.want) {
			t.Errorf("%q: got %q, want %q", test.text, got, test.want)
		}
	}
}
