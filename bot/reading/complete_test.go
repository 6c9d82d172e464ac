package reading

import (
	"strings"
	"testing"
)

func TestComplete(t *testing.T) {
	tests := []struct{ line, want string }{
		{"", "collet weigh band kit daybook gauge"},
		{"co", "collet"},
		{"CO", "collet"},
		{"zz", ""},
		{"zz o", ""},
		{"collet ov", "oval"},
		{"collet ta", "tapered-baguette"},
		{"collet ell", "oval"},
		{"collet oval s", "size sterling"},
		{"collet oval 8x6 s", "sterling"},
		{"collet oval 8x6 depth ", "4"},
		{"collet oval 8x6 depth 4 d", ""},
		{"collet oval 8x6 de", "depth"},
		{"collet oval 8x6 corner ", "bent scored"},
		{"collet oval 8x6 corner s", "scored"},
		{"collet oval 8x6 block ", "demo-oval tube-8x0.8 Block-B2"},
		{"collet oval 8x6 block b", "Block-B2"},
		{"collet lean 8 inc", ""},
		{"kit 12 c", "collet"},
		{"kit 12 makers collet ov", "oval"},
		{"kit 12 piece collet oval 8x6 corner b", "bent"},
		{"daybook find oval m", "maker"},
	}
	for _, tt := range tests {
		var got []string
		for _, c := range Complete(testSpecs(), testLook().Shop, tt.line, len(tt.line)) {
			got = append(got, c.Text)
		}
		if tt.line == "collet oval s" { // order is not promised here
			if len(got) != 2 {
				t.Errorf("%q: %v", tt.line, got)
			}
			continue
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("%q: got %v, want %s", tt.line, got, tt.want)
		}
	}
	// Only what comes before the cursor counts.
	if got := Complete(testSpecs(), nil, "collet ov 8x6", len("collet ov")); len(got) != 1 || got[0].Text != "oval" {
		t.Errorf("in mid-line: %v", got)
	}
	for _, cursor := range []int{-5, 1000} {
		Complete(testSpecs(), nil, "collet ö", cursor)
	}
}

// TestCompletionsAreUnderstood types each completion and wants no refusal that
// speaks of an unknown word.
func TestCompletionsAreUnderstood(t *testing.T) {
	specs := testSpecs()
	tried := 0
	for _, line := range []string{"collet ", "collet oval ", "collet oval 8x6 ", "collet oval 8x6 block ", "weigh ", "band us ", "collet base "} {
		for _, c := range Complete(specs, testLook().Shop, line, len(line)) {
			tried++
			if _, err := Parse(specs, line+c.Text, testLook()); err != nil &&
				(strings.Contains(err.Error(), "doesn't know") || strings.Contains(err.Error(), "there is no")) {
				t.Errorf("%s%s: %v", line, c.Text, err)
			}
		}
	}
	if tried < 40 {
		t.Errorf("only %d completions", tried)
	}
}

func TestValuesOf(t *testing.T) {
	specs := testSpecs()
	o, _ := specs[0].Option("alloy")
	var list listing
	list.values(o, o.ChoicesIn(nil), "st")
	if got := list.words; len(got) != 1 || got[0].Text != "sterling" || got[0].Summary != "sterling silver" {
		t.Errorf("values %v", got)
	}
}

func FuzzComplete(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s, len(s))
	}
	specs := testSpecs()
	f.Fuzz(func(t *testing.T, line string, cursor int) {
		if got := Complete(specs, testLook().Shop, line, cursor); len(got) > maxCompletions {
			t.Errorf("%d completions", len(got))
		}
	})
}
