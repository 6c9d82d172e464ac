package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestKnuckleHasASize: what stands beside a ring's size for a knuckle is a size, and no width.
func TestKnuckleHasASize(t *testing.T) {
	t.Parallel()
	for _, say := range []string{"ring for arthritic finger size 9 knuckle 10", "size 7, knuckle 8 1/2, band 1.5 thick sterling"} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotContains(t, r.Options, "width", say)
	}
}
