package ring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The length change is the difference of the blanks, in any section that both
// rings have.
func TestResizeIsTheDifferenceOfBlanks(t *testing.T) {
	for _, p := range Profiles() {
		for _, thickness := range []float64{1, 1.5, 2.2} {
			from, to := US.CircumferenceMM(6), US.CircumferenceMM(8.5)
			var length [2]float64
			for i, c := range []float64{from, to} {
				b, err := Shank{CircumferenceMM: c, WidthMM: 4, ThicknessMM: thickness, Profile: p, HasAllowance: true}.Blank()
				require.NoError(t, err)
				length[i] = b.LengthMM
			}
			assert.InDelta(t, LengthChangeMM(from, to), length[1]-length[0], 1e-12, p)
		}
	}
}

// Guides on stretching: half a size always taken, a whole one on heavy bands
// alone (a jeweller's page; a bench jeweller's page on sizing methods, which
// goes to 3/4 for regular ones: the lower figure is kept).
func TestStretchingByTheGuides(t *testing.T) {
	at := US.CircumferenceMM
	for _, r := range []struct {
		from, to, thickness float64
		want                Stretched
	}{
		{6, 6.25, 1.2, MayStretch}, {6, 6.5, 1.2, MayStretch}, {6, 6.75, 1.2, MustCut}, {6, 7, 1.5, MustCut},
		{6, 7, 2, HeavyOnly}, {6, 7.25, 3, MustCut}, {7, 6.5, 2, MustCut},
	} {
		assert.Equal(t, r.want, Stretching(at(r.from), at(r.to), r.thickness), "%v", r)
	}
	// Volume is kept: length x width x thickness, width and thickness alike.
	t1 := StretchedThicknessMM(50, 52, 1.5)
	assert.InDelta(t, 50*1.5*1.5, 52*t1*t1, 1e-9)
}
