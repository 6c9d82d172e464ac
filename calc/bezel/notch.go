package bezel

import (
	"math"

	"guildhand/calc/units"
)

// Notch is a V that is cut into the top edge at a corner, so that the two sides
// can be pushed over without metal piling up between them.
type Notch struct {
	// AtMM is its middle on the strip as it closes; at an end of the strip half of
	// it is cut there.
	AtMM             float64
	WidthMM, DepthMM float64
}

// Notches are at the corners where the outline turns outward. Pushed in by r, two
// sides that meet at a turning of theta are each shorter by r tan(theta/2) at the
// top, and as long as they were where the stone begins to draw in.
func (b Bezel) Notches() []Notch {
	var list []Notch
	add := func(at float64, turn units.Angle) {
		if turn > 0 {
			list = append(list, Notch{at, 2 * b.ReachMM * math.Tan(turn.Radians()/2), b.OverMM})
		}
	}
	if b.Bevel > 0 && !b.BevelReflex {
		add(0, 2*b.Bevel)
	}
	for i, x := range b.Folds {
		add(x, b.FoldTurns[i])
	}
	if b.Bevel > 0 && !b.BevelReflex {
		add(b.LengthMM, 2*b.Bevel)
	}
	return list
}
