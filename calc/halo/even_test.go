package halo

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/outline"
)

// Round the centre that is right for so many stones, stones of that width come out even.
func TestEvenCentreOfOval(t *testing.T) {
	for _, count := range []int{14, 22} {
		s := Spec{StoneMM: 1.3, GapMM: 0.1, ToCentreMM: 0.1}
		oval := centreOf(t, outline.Oval, 4.0/3)
		width, ok := s.EvenCentreWidthMM(count, func(w float64) (outline.Curve, error) { return oval(w), nil })
		assert.True(t, ok)
		s.Centre = oval(width)
		even, ok := s.EvenStoneMM(count)
		assert.True(t, ok)
		assert.InDelta(t, 1.3, even, 1e-6, "%d round an oval", count)
	}
}
