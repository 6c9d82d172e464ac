package jumpring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A chain maker measured annealed sterling wound on 0.24 in at 1/4 in (metals by
// Mark, "springback"; the wire is not told, so the usual 16 to 20 gauge). The
// range between soft and hard wire must hold that measurement.
func TestMandrelsHoldWhatWasMeasured(t *testing.T) {
	for _, wire := range []float64{0.81, 1.02, 1.29} {
		least, most := Ring{InsideMM: 0.25 * 25.4, WireMM: wire}.Mandrels()
		assert.Less(t, least, 0.24*25.4)
		assert.Greater(t, most, 0.24*25.4)
	}
}

// What Mandrels gives springs back to the ring that was asked for.
func TestMandrelsSpringBackToTheRing(t *testing.T) {
	for _, r := range []Ring{{3, 0.8}, {5, 1.024}, {12, 2}, {30, 1.5}} {
		least, most := r.Mandrels()
		assert.InDelta(t, r.InsideMM, SpringBack(most, r.WireMM, AnnealedYield), 1e-9)
		assert.InDelta(t, r.InsideMM, SpringBack(least, r.WireMM, HardYield), 1e-9)
	}
}

// A chain pulled straight, built ring by ring: each hangs with the inside of its
// end on the inside of the end of the one before.
func TestChainBuiltRingByRing(t *testing.T) {
	for _, r := range []Ring{{3, 0.8}, {6, 1.5}} {
		left := 0.0 // outside of the first
		for n := 1; n < 40; n++ {
			right := left + r.OutsideMM()
			assert.InDelta(t, right, r.ChainMM(n), 1e-9)
			assert.Equal(t, n, r.ForChain(r.ChainMM(n)))
			assert.Equal(t, n+1, r.ForChain(r.ChainMM(n)+0.01))
			// The next one's wire lies inside this one's far end.
			left = right - 2*r.WireMM
		}
	}
}

// A coil's length against points along the helix.
func TestTurnAgainstTheHelix(t *testing.T) {
	r := Ring{5, 1.2}
	const steps = 20_000
	sum, mean := 0.0, (r.InsideMM+r.WireMM)/2
	for i := range steps {
		a, b := 2*math.Pi*float64(i)/steps, 2*math.Pi*float64(i+1)/steps
		sum += math.Sqrt(math.Pow(mean*(math.Cos(b)-math.Cos(a)), 2) + math.Pow(mean*(math.Sin(b)-math.Sin(a)), 2) + math.Pow(r.WireMM/steps, 2))
	}
	assert.InDelta(t, sum, r.TurnMM(0), 1e-6)
	assert.InDelta(t, math.Pi*(r.InsideMM-r.ClosedInsideMM(0.3)), 0.3, 1e-12)
}

func TestRefusedRings(t *testing.T) {
	assert.NoError(t, Ring{5, 1}.Check())
	for _, r := range []Ring{{1, 1}, {0, 1}, {5, 0}, {math.NaN(), 1}} {
		assert.Error(t, r.Check(), "%v", r)
	}
}
