package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The workshop's requests follow what the models say of each figure.
func TestPlacedByChances(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		says, line string
		notes      []string
	}{
		{"Class of 9, each one round collet 6 in 0.8 copper, depth 4. Two spares.", "kit makers 9 spare 22.2% collet alloy copper depth 4 outline round size 6 thickness 0.8 mm", []string{"spares for 9 pieces: 2, which is 22.2 %"}},
		{"8 students, 2 domes each, 20 mm wide 6 high, copper 24 gauge", "kit each 2 makers 8 dome alloy copper height 6 size 20 mm thickness 24ga", nil},
		{"my workshop on the 21st: 5 participants, a band size N 3 wide 1.2 mm each, and a tube setting for a 3 mm stone", "kit makers 5 band ring N system uk thickness 1.2 mm width 3 ; tubeset outline round size 3 mm", nil},
		{"I need to know if my 15 grams of silver is enough. wax cat 1.1, stick 0.3, button 4", "melt alloy sterling button 4 g sprue 0.3 wax 1.1 g", []string{"compare the metal to melt with your 15 grams"}},
		{"how much silver for a wax that weighs a tenth of an ounce", "melt alloy sterling wax 0.1 ozt", nil},
	} {
		r := Read(tt.says, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, tt.line, r.Line(), tt.says+r.Ask)
		assert.Equal(t, Request, r.Outcome, tt.says+r.Ask)
		assert.Subset(t, r.Notes, tt.notes, tt.says)
	}
}

// A trial that was off at each end by so much needs no measures.
func TestOffByWords(t *testing.T) {
	t.Parallel()
	r := Read("came out 0.2 big at the rim, 0.1 under at the base, oval 8x6, 20ga. adjust please", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, r.Text, "rim was off by 0.20 mm across: cut that edge of the next blank 0.63 mm shorter")
	assert.Contains(t, r.Text, "base was off by 0.10 mm across: cut that edge of the next blank 0.31 mm longer")
}
