package checks

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/ring"
	"guildhand/calc/saddle"
	"guildhand/calc/setting"
)

// tubeOn is a tube of an outer radius, 5 mm long down to the shank's highest line,
// cut to a shank.
func tubeOn(radiusMM float64, shank saddle.Shank) saddle.Saddle {
	const wall, long = 0.3, 5.0
	bore := curve(outline.Round, 2*(radiusMM-wall), 2*(radiusMM-wall))
	deep := long + shank.CrestMM()
	c, err := setting.Lay(setting.Spec{Stone: bore, HeightMM: deep, ThicknessMM: wall, NeutralFactor: 1, CornerFactor: 1, Patches: true})
	if err != nil {
		panic(err)
	}
	d, err := saddle.On(saddle.Wall{Flat: c.Flat, TopMM: long + c.TopMM, RimMM: long, InnerMM: wall}, shank)
	if err != nil {
		panic(err)
	}
	return d
}

// saddles are walls cut to shanks: cylinders on cylinders, whose heights are those
// of circular segments, and rounded tops.
func saddles() []Row {
	requests := on("saddle")
	const radius = 10.0
	flat := saddle.Shank{InnerDiameterMM: 2 * (radius - 1.5), ThicknessMM: 1.5, WidthMM: 60, Profile: ring.Flat}
	segment := table{requests, "Machinery's Handbook, segments of circles for radius 1: height by the angle at the centre", Memory, "mm", 1e-4, "printed to five decimals"}
	var rows []Row
	for _, r := range []struct{ degrees, height float64 }{{20, 0.01519}, {30, 0.03407}, {40, 0.06031}, {50, 0.09369}, {60, 0.13397}, {80, 0.23396}, {90, 0.29289}, {100, 0.35721}, {120, 0.5}} {
		half := r.degrees / 2 * math.Pi / 180
		rows = append(rows, segment.row(fmt.Sprintf("saddle of a tube that spans %g° of a shank of radius 10 mm", r.degrees), radius*r.height, tubeOn(radius*math.Sin(half), flat).CutDepthMM))
	}
	// A pipe fitter's saddle: the ordinate of the branch at the angle a round it is
	// R - sqrt(R² - r² sin² a).
	ordinate := table{requests, "pipe fitters' template of a branch on a header (two cylinders that cross square): ordinate R - sqrt(R² - r² sin² a)", Memory, "mm", 1e-6, ""}
	d := tubeOn(4, flat)
	start := math.Atan2(d.Points[0].Space.Y, d.Points[0].Space.X)
	for _, degrees := range []float64{30, 45, 60} {
		sin := math.Sin(degrees * math.Pi / 180)
		rows = append(rows, ordinate.row(fmt.Sprintf("branch of radius 4 mm on 10 mm, ordinate at %g°", degrees), radius-math.Sqrt(radius*radius-16*sin*sin), ordinateAt(d, 4*(degrees*math.Pi/180-start))-5).with(2e-4))
	}
	half := saddle.Shank{InnerDiameterMM: 17, ThicknessMM: 1.6, WidthMM: 4, Profile: ring.HalfRound}
	ellipse := table{requests, "the ellipse's own equation, y = b sqrt(1 - x²/a²): top of a half-round shank 4 x 1.6 mm", Memory, "mm", 1e-9, ""}
	for _, r := range []struct{ x, share float64 }{{1, math.Sqrt(3) / 2}, {1.2, 0.8}, {1.6, 0.6}} {
		z, _ := half.TopMM(r.x, 0)
		rows = append(rows, ellipse.row(fmt.Sprintf("height %g mm off its middle, from the highest line", r.x), -1.6*(1-r.share), z))
	}
	wire := saddle.Shank{InnerDiameterMM: 17, ThicknessMM: 2, Profile: ring.RoundWire, WidthMM: 2}
	z, _ := wire.TopMM(0.6, 0)
	return append(rows, table{requests, "a circle of radius 1: 1 - sqrt(1 - 0.6²) = 0.2", Memory, "mm", 1e-9, ""}.row("top of round wire 2 mm, 0.6 mm off its middle", -0.2, z))
}

// ordinateAt is the wall's height at so much round a tube's template from its
// seam, between the points on both sides.
func ordinateAt(d saddle.Saddle, roundMM float64) float64 {
	first := d.Points[0].Flat.X
	for i := 1; i < len(d.Points); i++ {
		p, q := d.Points[i-1], d.Points[i]
		if a, b := p.Flat.X-first, q.Flat.X-first; a <= roundMM && roundMM <= b {
			return p.HeightMM + (q.HeightMM-p.HeightMM)*(roundMM-a)/(b-a)
		}
	}
	return math.NaN()
}
