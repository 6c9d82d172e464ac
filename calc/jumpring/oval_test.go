package jumpring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOval(t *testing.T) {
	round := Oval{LongMM: 5, ShortMM: 5, WireMM: 1}
	assert.InDelta(t, Ring{5, 1}.WireLengthMM(), round.WireLengthMM(), 1e-9, "a round one is a ring")
	assert.InDelta(t, Ring{5, 1}.VolumeMM3(), round.VolumeMM3(), 1e-9)

	o := Oval{LongMM: 5, ShortMM: 3, WireMM: 1}
	require.NoError(t, o.Check())
	assert.Equal(t, 90, o.ForChain(450))
	// Between the inscribed rhombus and the box round it.
	assert.Greater(t, o.WireLengthMM(), 4*math.Hypot(3, 2))
	assert.Less(t, o.WireLengthMM(), 2*(6+4.0))

	require.Error(t, Oval{LongMM: 3, ShortMM: 5, WireMM: 1}.Check())
	require.Error(t, Oval{LongMM: 5, ShortMM: 1, WireMM: 1}.Check())
}
