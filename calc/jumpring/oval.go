package jumpring

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
)

// Oval is an oval jump ring of round wire, an ellipse inside: LongMM and ShortMM are its
// inside, WireMM the diameter of its wire.
type Oval struct{ LongMM, ShortMM, WireMM float64 }

// Check says what is wrong with the ring, for the maker; nil if nothing is.
func (o Oval) Check() error {
	if !(o.LongMM >= o.ShortMM && o.ShortMM > 0 && o.WireMM > 0) {
		return fmt.Errorf("inside and wire of an oval ring must be more than 0 mm, and its length at least its width")
	}
	return Ring{InsideMM: o.ShortMM, WireMM: o.WireMM}.Check()
}

// WireLengthMM is the wire in one closed ring: the perimeter of the ellipse through the
// middle of the wire.
func (o Oval) WireLengthMM() float64 {
	return outline.EllipsePerimeterMM((o.LongMM+o.WireMM)/2, (o.ShortMM+o.WireMM)/2)
}

// VolumeMM3 of one closed ring, by Pappus.
func (o Oval) VolumeMM3() float64 { return o.WireLengthMM() * math.Pi * o.WireMM * o.WireMM / 4 }

// ForChain is the least number of rings whose plain chain, one through the next along
// their length, is at least so long; see Ring.ForChain.
func (o Oval) ForChain(lengthMM float64) int {
	return Ring{InsideMM: o.LongMM, WireMM: o.WireMM}.ForChain(lengthMM)
}
