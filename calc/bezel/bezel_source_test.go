package bezel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/units"
)

// Machinery's Handbook, 31st ed. (Industrial Press, 2020), p. 1421, bend
// allowances: for 90 degrees L = 0.55 T + 1.57 R (soft brass and copper),
// 0.64 T + 1.57 R (half-hard copper and brass, soft steel), 0.71 T + 1.57 R
// (bronze, hard copper). Worked example, fig. 13: T = 0.125 in, R = 0.375 in,
// 180 degrees, soft steel: 1.338 in; R = 0.625 in, 60 degrees: 0.707 in.
// Equivalent neutral factors 0.350, 0.407, 0.452 (derived by arithmetic).
func TestBendAllowance(t *testing.T) {
	const inch = units.MMPerInch
	// A round wall is two bends of 180 degrees, or six of 60.
	for _, c := range []struct{ radius, bends, want float64 }{{0.375, 2, 1.338}, {0.625, 6, 0.707}} {
		s := spec(stone(t, "round", 0, 2*c.radius*inch))
		s.ClearanceMM, s.ThicknessMM, s.NeutralFactor, s.DomeMM = 0, 0.125*inch, 0.407, 4
		b, err := Lay(s, s.Stone.Places[0])
		require.NoError(t, err)
		assert.InDelta(t, c.want, b.LengthMM/inch/c.bends, 1e-3, "inside radius %.3f in", c.radius)
	}
	// A sharp corner of 90 degrees has R = 0.
	for k, perT := range map[float64]float64{0.350: 0.55, 0.407: 0.64, 0.452: 0.71} {
		s := spec(stone(t, "square", 0, 10))
		s.ClearanceMM, s.ThicknessMM, s.NeutralFactor = 0, 1, k
		b, err := Lay(s, s.Stone.Places[0])
		require.NoError(t, err)
		assert.InDelta(t, perT, (b.LengthMM-40)/4, 0.001, "factor %.3f: a corner", k)
	}
}

// Machinery's Handbook, 31st ed., p. 91, spherical segment: height 50, chord
// 125, radius 64 (64.06).
func TestSphericalSegment(t *testing.T) {
	p, err := profileOf(62.5, 50, CapEdge(125, 50))
	require.NoError(t, err)
	x, y := p.at(0.5)
	// The circle through (62.5, 0), its mirror image, and (x, y).
	centre := (62.5*62.5 - x*x - y*y) / (-2 * y)
	assert.InDelta(t, 64.06, math.Hypot(62.5, centre), 0.005, "radius")
}
