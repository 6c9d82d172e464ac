package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Whoever wants to be forgotten is, in whatever words; settings and pieces are not meant.
func TestForgetsWhoAsks(t *testing.T) {
	for said, line := range map[string]string{
		"please delete everything you have stored about me": "daybook action forget",
		"bin everything u know about me cheers":             "daybook action forget",
		"delete everything with my name":                    "daybook action forget",
		"I should like my entries removed":                  "daybook action forget",
		"get rid of all my stuff please":                    "daybook action forget",
		"what have you got on me":                           "daybook action mine",
		"what do you know about me?":                        "daybook action mine",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), "%s\n%s", said, shown(r))
	}
	for _, said := range []string{"delete my settings", "get rid of firescale on me ring", "how do i remove a ring stuck on me finger", "remove my correction"} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, "daybook", r.Request, "%s\n%s", said, shown(r))
	}
}
