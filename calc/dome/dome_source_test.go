package dome

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.6f, want %.6f within %g", what, got, want, tolerance)
	}
}

// Machinery's Handbook, 31st ed., p. 91, spherical segment: h 50 mm, c 125 mm
// prints r 64 mm; A = pi (c^2/4 + h^2), from which the disc of equal area is
// 160.08 mm.
func TestSegmentAgainstHandbook(t *testing.T) {
	d := Dome{DiameterMM: 125, HeightMM: 50}
	near(t, "radius", d.RadiusMM(), 64, 0.5)
	near(t, "radius, unrounded", d.RadiusMM(), 64.06, 0.005)
	near(t, "disc", d.DiscMM(), 160.08, 0.005)
	area := math.Pi / 4 * d.DiscMM() * d.DiscMM()
	near(t, "area by 2 pi r h", area, 2*math.Pi*d.RadiusMM()*50, 1e-9)
}

// The same page, sphere of 6.5 cm: 132.73 cm2. A hemisphere's disc has half of
// that area.
func TestHemisphereAgainstHandbook(t *testing.T) {
	d := Dome{DiameterMM: 65, HeightMM: 32.5}
	near(t, "area, cm2", math.Pi/4*d.DiscMM()*d.DiscMM()/100, 132.73/2, 0.005)
}

// Practical Sheet and Plate Metal Work (title from memory, chestofbooks copy),
// hollowed bowl: the disc of a hemisphere of diameter d has the radius
// d/sqrt(2), by the book's rule d/1.4.
func TestHollowedBowl(t *testing.T) {
	d := Dome{DiameterMM: 200, HeightMM: 100}
	near(t, "disc radius", d.DiscMM()/2, 200/1.4, 1.5)
	near(t, "disc radius, exact", d.DiscMM()/2, 200/math.Sqrt2, 1e-9)
}

// Machinery's Handbook, 31st ed., p. 1428, example 2: a shell drawn from .050
// stock to a wall of .040 has the mean height 3 where it measures 3 3/4 high,
// M = h t / T. The dome's rule is the same conservation of volume: if the wall
// is to be .040 of .050 stock, the disc's area is four fifths of the dome's.
func TestThinnedAsHandbookShell(t *testing.T) {
	d := Dome{DiameterMM: 100, HeightMM: 30, ThicknessMM: 0.050 * 25.4, Face: Middle}
	disc := d.DiscMM() * math.Sqrt(3/3.75)
	near(t, "mean wall, in", d.MeanThicknessMM(disc)/25.4, 0.040, 1e-12)
}

// Holtzapffel, Turning and Mechanical Manipulation (attribution from memory):
// a 6 in ball is spun from two 7.5 in discs, where equal area asks for 8.485
// in. Practice stretches; the mean wall then drops to 78 %.
func TestSpunBallStretches(t *testing.T) {
	d := Dome{DiameterMM: 6 * 25.4, HeightMM: 3 * 25.4, ThicknessMM: 1, Face: Middle}
	near(t, "disc, in", d.DiscMM()/25.4, 8.485, 0.0005)
	wall := d.MeanThicknessMM(7.5 * 25.4)
	near(t, "mean wall", wall, 0.78, 0.002)
	if least := 1 - d.Thinning().Most; wall < least {
		t.Errorf("mean wall %.3f is under the bound %.3f", wall, least)
	}
}
