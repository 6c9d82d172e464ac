package reading

import (
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// spoken are the test's requests with what marks them for sentences.
func spoken() []catalogue.Spec {
	specs := testSpecs()
	for i := range specs {
		switch specs[i].Name {
		case "collet":
			specs[i].Usual = true
		case "band":
			specs[i].Implied = []string{"ring"}
		}
	}
	return specs
}

func TestSentences(t *testing.T) {
	specs := spoken()
	for _, tt := range []struct{ line, want string }{
		{"I have this 9 x 7 pear and 20 gauge sterling: what do I cut?", "collet pear 9x7 sterling 20ga"},
		{"Hi! I've got an 8×6 mm oval, 4mm deep, in sterling. What size blank do I need, please?", "collet oval 8x6 depth 4 sterling"},
		{"oval 8x6 depth 4", "collet oval 8x6 depth 4"},
		{"can you make a collet for an oval 8x6", "collet oval 8x6"},
		{"an oval 8x6 for a ring in sterling", "collet oval 8x6 sterling"},
	} {
		p, err := Parse(specs, tt.line, testLook())
		if err != nil {
			t.Errorf("%q: %v", tt.line, err)
			continue
		}
		want, err := Parse(specs, tt.want, testLook())
		if err != nil {
			t.Fatal(err)
		}
		if p.Line != want.Line {
			t.Errorf("%q is read as %q, want %q", tt.line, p.Line, want.Line)
		}
		if len(p.Notes) != len(want.Notes)+1 || p.Notes[len(p.Notes)-1] != "read as: "+p.Line {
			t.Errorf("%q: the answer does not say how it was read: %q", tt.line, p.Notes)
		}
	}
}

// A sentence with a word that may change its meaning, or with two meanings, is
// not read; nor is one that would change what is kept.
func TestSentencesThatAreNotRead(t *testing.T) {
	specs := spoken()
	for _, line := range []string{
		"oval 8x6 but not sterling",
		"I have two ovals 8x6",
		"depth for a 9 mm oval 8x6",
		"an oval 8x6 or a pear",
		"20 gauge",
		"I have no idea",
		"what do I cut",
		"please show the daybook of an oval 8x6",
	} {
		p, err := Parse(specs, line, testLook())
		if r, ok := answer.AsRefusal(err); !ok {
			t.Errorf("%q is read as %q, %v", line, p.Line, err)
		} else if r.Try == "" {
			t.Errorf("%q: no line to try: %s", line, r.Problem)
		}
	}
	// What is missing is asked for.
	_, err := Parse(specs, "what do I cut for my pear?", testLook())
	if r, ok := answer.AsRefusal(err); !ok || !strings.HasPrefix(r.Try, "collet pear ") {
		t.Errorf("got %v", err)
	}
}
