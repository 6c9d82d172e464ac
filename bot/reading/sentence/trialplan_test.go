package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What came out and what was planned find each other. The changes are worked out by hand: pi
// times the difference across, and a cap's area is that of its disc.
func TestTrialBesideItsPlan(t *testing.T) {
	for _, tc := range []struct{ typed, says string }{
		{"Top should be 8.0, it's 8.35. How much shorter?", "1.10 mm shorter"},
		{"trial piece: top od 7.9 (plan 7.6), height 5.1 (plan 5.0)", "0.10 mm lower"},
		{"three trials: 6.62, 6.58 and 6.60 across the top, wanted 6.4", "0.63 mm shorter"},
		{"trial collet OD 9.30, target 9.00, sheet 0.78 measured instead of 0.80", "0.94 mm shorter"},
		{"Pressed collar finished at 4.1 high, I asked 4.6. Same block, same wall. What do I start from next time?", "0.50 mm higher"},
		{"my dome came out 6.1 high instead of 6.5 from a 19 disc", "19.5 mm across"},
		{"dome ended up 14.6 wide not 15, disc was 20", "20.5 mm across"},
		{"the dome measures 19,2 of diameter and I needed 20, the disc was the one you gave", "1.042 times"},
		{"made the cone like u said and its too big the stone falls straight thru. like half a mm. how much do i trim", "1.57 mm shorter"},
		{"collet came out 0.25 too small across, what length do i add to the outer arc", "0.79 mm longer"},
	} {
		r := Read(tc.typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, tc.typed)
		assert.Contains(t, r.Text, tc.says, tc.typed)
	}
	asked := Read("trial one came out like a 7.5 not a 7 at the top, same 24ga. change what", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, asked.Ask, "1.57 mm shorter")
	assert.Equal(t, "size", asked.Missing)
	for _, typed := range []string{"collet for 7.4 round, top should be 8.0 outside, 0.6 sheet", "its 58, should be 55, how much out", "tune round 7 depth 4 sterling 22ga rimgot 7.9 basegot 6"} {
		assert.NotEqual(t, trialTopic, Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes}).Topic, typed)
	}
}
