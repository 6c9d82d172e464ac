package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHowManyRingsIsThat: after jump rings it asks for their count, not for a finger ring.
func TestHowManyRingsIsThat(t *testing.T) {
	t.Parallel()
	for _, first := range []string{"18ga rings 5mm inside, chain 19 cm", "how much wire for a bracelet chain", "makin a chain 50cm how much wire do i buy"} {
		c := Context{Addressed: true, Takes: takes, Excludes: excludes}
		r := Read(first, c)
		c = c.After(first, r)
		again := Read("how many rings is that", c)
		assert.Equal(t, r.Outcome, again.Outcome, first)
		assert.Equal(t, "jumpring", again.Request, first)
		assert.Equal(t, r.Options, again.Options, first)
	}
}
