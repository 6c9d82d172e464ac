package dome

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Machinery's Handbook, 31st ed., p. 91, spherical segment: h 50 mm, c 125 mm
// prints r 64 mm; A = pi (c^2/4 + h^2), from which the disc of equal area is
// 160.08 mm.
func TestSegmentAgainstHandbook(t *testing.T) {
	d := Dome{DiameterMM: 125, HeightMM: 50}
	assert.InDelta(t, 64, d.RadiusMM(), 0.5, "radius")
	assert.InDelta(t, 64.06, d.RadiusMM(), 0.005, "radius, unrounded")
	assert.InDelta(t, 160.08, d.DiscMM(), 0.005, "disc")
	area := math.Pi / 4 * d.DiscMM() * d.DiscMM()
	assert.InDelta(t, 2*math.Pi*d.RadiusMM()*50, area, 1e-9, "area by 2 pi r h")
}

// The same page, sphere of 6.5 cm: 132.73 cm2. A hemisphere's disc has half of
// that area.
func TestHemisphereAgainstHandbook(t *testing.T) {
	d := Dome{DiameterMM: 65, HeightMM: 32.5}
	assert.InDelta(t, 132.73/2, math.Pi/4*d.DiscMM()*d.DiscMM()/100, 0.005, "area, cm2")
}

// Practical Sheet and Plate Metal Work (title from memory, chestofbooks copy),
// hollowed bowl: the disc of a hemisphere of diameter d has the radius
// d/sqrt(2), by the book's rule d/1.4.
func TestHollowedBowl(t *testing.T) {
	d := Dome{DiameterMM: 200, HeightMM: 100}
	assert.InDelta(t, 200/1.4, d.DiscMM()/2, 1.5, "disc radius")
	assert.InDelta(t, 200/math.Sqrt2, d.DiscMM()/2, 1e-9, "disc radius, exact")
}

// Machinery's Handbook, 31st ed., p. 1428, example 2: a shell drawn from .050
// stock to a wall of .040 has the mean height 3 where it measures 3 3/4 high,
// M = h t / T. The dome's rule is the same conservation of volume: if the wall
// is to be .040 of .050 stock, the disc's area is four fifths of the dome's.
func TestThinnedAsHandbookShell(t *testing.T) {
	d := Dome{DiameterMM: 100, HeightMM: 30, ThicknessMM: 0.050 * 25.4, Face: Middle}
	disc := d.DiscMM() * math.Sqrt(3/3.75)
	assert.InDelta(t, 0.040, d.MeanThicknessMM(disc)/25.4, 1e-12, "mean wall, in")
}

// Holtzapffel, Turning and Mechanical Manipulation (attribution from memory):
// a 6 in ball is spun from two 7.5 in discs, where equal area asks for 8.485
// in. Practice stretches; the mean wall then drops to 78 %.
func TestSpunBallStretches(t *testing.T) {
	d := Dome{DiameterMM: 6 * 25.4, HeightMM: 3 * 25.4, ThicknessMM: 1, Face: Middle}
	assert.InDelta(t, 8.485, d.DiscMM()/25.4, 0.0005, "disc, in")
	wall := d.MeanThicknessMM(7.5 * 25.4)
	assert.InDelta(t, 0.78, wall, 0.002, "mean wall")
	if least := 1 - d.Thinning().Most; wall < least {
		t.Errorf("mean wall %.3f is under the bound %.3f", wall, least)
	}
}
