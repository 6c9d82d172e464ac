package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Which of the metal's figures is what: a strip is long and narrow, a wall and a ledge
// are no thickness of sheet, and a hole is no stone.
func TestMetalToMatch(t *testing.T) {
	for _, tc := range []struct {
		typed string
		want  map[string]string
	}{
		{"this sterling is 40x5, 0.7 thick. which round stone is it long enough for, as a collar", map[string]string{"strip": "40x5", "thickness": "0.7 mm"}},
		{"tube 9x0.8, ledge 0.3, which oval goes in", map[string]string{"tubesize": "9x0.8", "ledge": "0.3"}},
		{"stones for a tube? 7.2 mm outside, 0.6 wall", map[string]string{"tubesize": "7.2x0.6"}},
		{"block hole 11x8 at 17, sheet 0.6. which ovals sit in it", map[string]string{"hole": "11x8", "included": "17", "thickness": "0.6 mm"}},
		{"a block with a hole of 9.5 at 17 degrees, collar of 0.8 mm pressed in it. what round stone does it take", map[string]string{"hole": "9.5", "included": "17", "thickness": "0.8 mm"}},
	} {
		r := Read(tc.typed, Context{Addressed: true})
		assert.Equal(t, "match", r.Request, "%s: %s", tc.typed, shown(r))
		for option, want := range tc.want {
			assert.Equal(t, want, r.Options[option], "%s: %s", tc.typed, shown(r))
		}
	}
}
