package tracing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The limaçon r = b + a cos t dips in where b < 2a; its hull's edge there is the
// double tangent at cos t = -b/2a, where x = -b²/4a: it touches at
// y = ± sqrt(1 - b²/4a²) b/2 and lies b²/4a - (b - a) outside the dip's bottom,
// at x = a - b. Closed form by differentiation.
func TestDipOfALimacon(t *testing.T) {
	const a, b = 6.0, 9.0
	var line [][2]float64
	for i := range 4000 {
		s := 2 * math.Pi * float64(i) / 4000
		r := b + a*math.Cos(s)
		line = append(line, [2]float64{r * math.Cos(s), r * math.Sin(s)})
	}
	for range 2 { // either way round
		dips := Dips(line, 0.15)
		require.Len(t, dips, 1)
		assert.InDelta(t, b*b/4/a-(b-a), dips[0].DepthMM, 1e-4)
		assert.InDelta(t, b*math.Sqrt(1-b*b/4/a/a), dips[0].AcrossMM, 0.02)
		assert.InDelta(t, a-b, dips[0].Deepest[0], 1e-3)
		dip := DipMM(line, Hull(line))
		assert.InDelta(t, dip, dips[0].DepthMM, 1e-9)
		for i, k := 0, len(line)-1; i < k; i, k = i+1, k-1 {
			line[i], line[k] = line[k], line[i]
		}
	}
	assert.Empty(t, Dips(superellipsePoints(18, 13, 2), 0.01), "a convex line dips nowhere")
}
