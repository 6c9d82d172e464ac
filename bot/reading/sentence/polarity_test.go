package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// To "too thin?" and "dangerous?" an answer says no yes and no that could be taken
// for their opposite.
func TestNoYesToADoubt(t *testing.T) {
	for say, begins := range map[string]string{
		"is 28ga too thin for a bezel":                                        "28ga (0.32 mm)",
		"is 28ga thick enough for a bezel":                                    "Yes, 28ga (0.32 mm)",
		"is 0.1 mm too thin for a bezel":                                      "0.1 mm is too thin",
		"is it dangerous to heat galvanised metal":                            "Don't heat galvanised metal",
		"can i heat galvanised metal":                                         "No: don't heat galvanised metal",
		"is it bad to quench hot steel tweezers and silver in pickle, quench": "Never quench in pickle",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.True(t, strings.HasPrefix(r.Text, begins), "%s: %s", say, r.Text)
	}
	worked := Read("is 1mm too thick for a collet wall for an 8 mm round stone in sterling", Context{Addressed: true})
	assert.Equal(t, "1 mm is usual for a tapered setting (common practice).", worked.Verdict)
}
