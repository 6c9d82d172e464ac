package requests

import (
	"context"
	"strings"
	"testing"
)

// runExamples asks every example of a request and checks that the answer fits
// a phone, that its line asks the same again, and that its attachments can be
// drawn.
func runExamples(t *testing.T, request string) {
	t.Helper()
	run := 0
	for _, s := range All(nil) {
		if s.Name != request {
			continue
		}
		for _, e := range s.Examples {
			a, err := askLine(t, e.Line)
			if err != nil {
				t.Errorf("%s: %v", e.Line, err)
				continue
			}
			run++
			for _, f := range fit(a) {
				t.Errorf("%s: %s", e.Line, f)
			}
			if len(a.Cautions) > 3 {
				t.Errorf("%s: %d cautions", e.Line, len(a.Cautions))
			}
			again, err := askLine(t, a.Line)
			if err != nil || again.Headline != a.Headline || again.Line != a.Line {
				t.Errorf("%s: typed again as %q it differs: %v", e.Line, a.Line, err)
			}
			for _, f := range a.Attachments {
				if b, err := f.Render(context.Background()); err != nil || len(b) < 100 {
					t.Errorf("%s: %s has %d bytes, %v", e.Line, f.Name, len(b), err)
				}
			}
			t.Logf("%s\n  %s\n  %s\n  notes %s\n  assumed %s\n  steps\n   %s", e.Line, a.Headline, strings.Join(mains(a), "; "),
				strings.Join(a.Notes, "; "), strings.Join(a.Assumptions, "; "), strings.Join(a.Steps, "\n   "))
		}
	}
	if run < 3 {
		t.Errorf("only %d examples of %s ran", run, request)
	}
}
