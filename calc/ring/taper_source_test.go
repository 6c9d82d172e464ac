package ring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The neutral line of a tapered shank by its definition: a curve about the finger's
// centre whose distance from it is the inner radius plus k times the thickness at
// that angle, thick on top and thinning evenly to the back. Its length is summed
// chord by chord and compared with the closed form; its metal is summed slice by
// slice. Derivation, no table: no source for tapered shanks was found.
func TestTaperAgainstItsNeutralLine(t *testing.T) {
	for _, row := range []struct {
		circumference, width, thickness, backWidth, backThickness float64
		profile                                                   Profile
	}{
		{54.4, 5, 1.8, 2.5, 1.4, Flat},
		{54.4, 6, 2, 3, 1, Flat},
		{47, 4, 1.6, 2, 1.2, HalfRound},
		{62.8, 8, 2.2, 4, 1.5, Court},
		{54.4, 3, 3, 2, 2, RoundWire},
		{70, 10, 2.5, 5, 1.2, HalfRound},
		{41, 3, 1.5, 1.5, 1, Flat},
		{60, 4, 1.5, 4, 1.5, Flat}, // no taper
	} {
		s := Shank{CircumferenceMM: row.circumference, WidthMM: row.width, ThicknessMM: row.thickness, BackWidthMM: row.backWidth, BackThicknessMM: row.backThickness, Profile: row.profile, HasAllowance: true}
		b, err := s.Blank()
		require.NoError(t, err)

		const steps = 20_000
		at := func(i int) (x, y, thick, wide float64) {
			angle := math.Pi * float64(i) / steps // from the top to the back
			share := float64(i) / steps
			thick = row.thickness + share*(row.backThickness-row.thickness)
			wide = row.width + share*(row.backWidth-row.width)
			r := row.circumference/(2*math.Pi) + row.profile.NeutralFactor()*thick
			sin, cos := math.Sincos(angle)
			return r * cos, r * sin, thick, wide
		}
		length, volume := 0.0, 0.0
		for i := range steps {
			x0, y0, t0, w0 := at(i)
			x1, y1, t1, w1 := at(i + 1)
			chord := math.Hypot(x1-x0, y1-y0)
			length += 2 * chord
			volume += 2 * chord * row.profile.AreaMM2((w0+w1)/2, (t0+t1)/2)
		}
		assert.InDelta(t, length, b.LengthMM, 0.01, "length of %+v", row)
		// The slices are longer where the shank is thick, a few parts in a thousand.
		assert.InDelta(t, 1, volume/b.VolumeMM3, 0.01, "volume of %+v", row)
	}
}

func TestTaperRefusesWhatIsLessThanNothing(t *testing.T) {
	_, err := Shank{CircumferenceMM: 54, WidthMM: 4, ThicknessMM: 1.5, BackWidthMM: -1, Profile: Flat}.Blank()
	assert.Error(t, err)
	_, err = Shank{CircumferenceMM: 54, WidthMM: 4, ThicknessMM: 1.5, BackThicknessMM: 9, Profile: Flat}.Blank()
	assert.Error(t, err)
}
