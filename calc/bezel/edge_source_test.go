package bezel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/fit"
	"guildhand/calc/outline"
)

func laid(t *testing.T, c outline.Curve, change func(*Spec)) Bezel {
	t.Helper()
	s := spec(c)
	if change != nil {
		change(&s)
	}
	b, err := Lay(s, c.Places[0])
	require.NoError(t, err)
	return b
}

// Parallel curves: length P + 2 pi r, area A + r P + pi r² (M. P. do Carmo,
// Differential Geometry of Curves and Surfaces, 1-7, exercise 6).
func TestPlateIsAParallelCurve(t *testing.T) {
	for _, c := range []outline.Curve{stone(t, outline.Oval, 18, 13), stone(t, outline.Round, 0, 12), stone(t, outline.Cushion, 10, 8)} {
		b := laid(t, c, nil)
		const rim, shelf = 1.5, 1.2
		p, err := b.Plate(rim, shelf)
		require.NoError(t, err)
		out := rim + b.ClearanceMM + b.ThicknessMM
		assert.InDelta(t, c.AreaMM2()+out*c.PerimeterMM()+math.Pi*out*out, p.Blank.AreaMM2(), 1e-6, c.Kind)
		in := b.ClearanceMM - shelf
		assert.InDelta(t, c.AreaMM2()+in*c.PerimeterMM()+math.Pi*in*in, p.CutOut.AreaMM2(), 1e-6, c.Kind)
		assert.InDelta(t, p.Blank.AreaMM2()-p.CutOut.AreaMM2(), p.AreaMM2(), 1e-9)
		size, plate := c.Size(), p.Blank.Size()
		assert.InDelta(t, size.LengthMM+2*out, plate.LengthMM, 1e-9)
		assert.InDelta(t, size.WidthMM+2*out, plate.WidthMM, 1e-9)
		assert.InDelta(t, shelf-2*b.ClearanceMM, p.CarriesMM, 1e-12)
	}
	b := laid(t, stone(t, outline.Round, 0, 12), nil)
	_, err := b.Plate(1.5, 0.1)
	require.ErrorContains(t, err, "fall through")
	_, err = b.Plate(1.5, 6.1)
	require.ErrorContains(t, err, "no opening")
	solid, err := b.Plate(1.5, 0)
	require.NoError(t, err)
	assert.InDelta(t, math.Pi/4*math.Pow(12+2*(1.5+0.05+0.4), 2), solid.AreaMM2(), 1e-9)
}

// A solder fillet takes up to 1 mm beside a wall (a maker's page on bezels,
// wubbersu.wordpress.com); what is left for it outside, and what is left of an open
// plate inside, is more, but on stones so small that common practice makes do with
// an eighth of their width.
func TestPlateLeavesRoomForTheFillet(t *testing.T) {
	assert.Greater(t, UsualPlateRimMM, 1.0)
	for _, width := range []float64{8, 10, 13, 18, 30} {
		assert.GreaterOrEqual(t, UsualShelfMM(width), 1.0, "%g mm", width)
	}
	assert.Less(t, UsualShelfMM(6), 1.0)
	assert.GreaterOrEqual(t, UsualShelfMM(3), 0.5)
}

// Machinery's Handbook, circular segment, worked example (from memory): chord 16,
// height 6, radius (c² + 4h²)/8h = 8 1/3.
func TestLobeRadius(t *testing.T) {
	assert.InDelta(t, 25.0/3, lobeRadius(16, 6), 1e-12)
}

// What an edge takes away: of triangles half, of half circles the square less a
// circle's half (area pi p²/8), and in between what the polygon of its points says.
func TestEdgeAreas(t *testing.T) {
	b := laid(t, stone(t, outline.Round, 0, 12), func(s *Spec) { s.DomeMM = 8 })
	teeth, err := b.Pattern(Serrated, 0, 40, 0.6)
	require.NoError(t, err)
	assert.InDelta(t, b.LengthMM*0.6/2, teeth.RemovedMM2(), 1e-9)
	p := b.LengthMM / 20
	half, err := b.Pattern(Scalloped, 0, 20, p/2)
	require.NoError(t, err)
	assert.InDelta(t, 20*(p*p/2-math.Pi*p*p/8), half.RemovedMM2(), 1e-9)
	flat, err := b.Pattern(Scalloped, 0, 20, 0.4)
	require.NoError(t, err)
	for _, pattern := range []Pattern{teeth, half, flat} {
		under := 0.0
		edge := pattern.Edge()
		for i := 1; i < len(edge); i++ {
			under -= (edge[i][0] - edge[i-1][0]) * (edge[i][1] + edge[i-1][1]) / 2
		}
		assert.InDelta(t, pattern.RemovedMM2(), under, 0.005*b.LengthMM)
		assert.InDelta(t, b.LengthMM, edge[len(edge)-1][0], 1e-9)
		assert.Zero(t, edge[0][0])
	}
}

// Whole repeats on every outline: as many valleys as repeats and one more, one at
// each fold and at both ends, none narrower than a saw cuts; without folds as many
// on one half as on the other.
func TestRepeatsComeOutEven(t *testing.T) {
	for _, c := range stones(t) {
		for _, place := range c.Places {
			b, err := Lay(spec(c), place)
			require.NoError(t, err)
			for _, e := range []Edging{Serrated, Scalloped} {
				p, err := b.Pattern(e, 1, 0, 0)
				require.NoError(t, err, c.Kind)
				require.Len(t, p.ValleysMM, p.Count+1)
				for _, fold := range append([]float64{0, b.LengthMM}, b.Folds...) {
					near := math.Inf(1)
					for _, v := range p.ValleysMM {
						near = math.Min(near, math.Abs(v-fold))
					}
					assert.Less(t, near, 1e-9, "%s, seam %s: a fold in a tooth", c.Kind, place.Name)
				}
				low, high := p.PitchMM()
				assert.InDelta(t, 1, low, 0.35)
				assert.InDelta(t, 1, high, 0.35)
				if len(b.Folds) == 0 {
					assert.Zero(t, p.Count%2, c.Kind)
				}
			}
		}
	}
	b := laid(t, stone(t, outline.Square, 0, 10), nil)
	for count := 5; count < 60; count++ {
		p, err := b.Pattern(Serrated, 0, count, 0.3)
		require.NoError(t, err)
		assert.Equal(t, count, p.Count, "as many as were asked for")
	}
	for _, wrong := range []struct {
		e      Edging
		count  int
		depth  float64
		saying string
	}{{Serrated, 3, 0, "too few"}, {Serrated, 200, 0, "a saw cuts"}, {Scalloped, 40, 0.6, "half a circle"}, {Serrated, 20, 5, "draws in"}} {
		_, err := b.Pattern(wrong.e, 0, wrong.count, wrong.depth)
		require.ErrorContains(t, err, wrong.saying)
	}
}

// n repeats of p in a length L: stretched by L/np - 1, and L/n comes out even. By
// hand: a round 12, play 0.05, 0.4 mm thick, k 1/2: L = pi 12.5 = 39.2699 mm.
func TestGalleryComesOut(t *testing.T) {
	b := laid(t, stone(t, outline.Round, 0, 12), nil)
	const L = math.Pi * 12.5
	stretched, err := b.FitGallery(3.2)
	require.NoError(t, err)
	assert.Equal(t, 12, stretched.Repeats)
	assert.InDelta(t, L/38.4-1, stretched.StretchShare, 1e-12) // 2.27 %
	assert.True(t, stretched.Comes)
	assert.InDelta(t, 38.4, stretched.CutMM(), 1e-12)
	loose, err := b.FitGallery(3.29) // 12 make 39.48: 0.21 mm too long
	require.NoError(t, err)
	assert.Equal(t, 12, loose.Repeats)
	assert.InDelta(t, 39.48/math.Pi-12.5, loose.LooseMM, 1e-9)
	assert.Zero(t, loose.StretchShare)
	neither, err := b.FitGallery(6)
	require.NoError(t, err)
	assert.False(t, neither.Comes)
	assert.InDelta(t, L/6, neither.Fits[0], 1e-12)
	assert.InDelta(t, L/7, neither.Fits[1], 1e-12)
	even, err := b.FitGallery(L / 14)
	require.NoError(t, err)
	assert.Equal(t, 14, even.Repeats)
	assert.InDelta(t, 0, even.StretchShare, 1e-12)
	_, err = b.FitGallery(25)
	require.ErrorContains(t, err, "finer")
}

// Pushed in by d, a square of side s is a square of side s - 2d: its top edge loses
// 8d, a quarter of it at each corner. A hexagon's corners turn by 60 degrees: each
// loses 2 d tan 30.
func TestNotchesTakeWhatTheEdgeLoses(t *testing.T) {
	for kind, corners := range map[outline.Kind]float64{outline.Square: 4, outline.Hexagon: 6, outline.Octagon: 8} {
		c := stone(t, kind, 0, 10)
		b := laid(t, c, nil)
		pushed, err := c.Offset(-b.ReachMM)
		require.NoError(t, err)
		lost := c.PerimeterMM() - pushed.PerimeterMM()
		require.NotEmpty(t, b.Notches())
		sum := 0.0
		for _, n := range b.Notches() {
			assert.InDelta(t, lost/corners, n.WidthMM, 1e-9, kind)
			assert.InDelta(t, b.OverMM, n.DepthMM, 1e-12)
			if n.AtMM == 0 || n.AtMM == b.LengthMM {
				sum += n.WidthMM / 2
			} else {
				sum += n.WidthMM
			}
		}
		assert.InDelta(t, lost, sum, 1e-9, kind)
	}
	assert.Empty(t, laid(t, stone(t, outline.Oval, 10, 8), nil).Notches())
	point, err := Lay(spec(stone(t, outline.Pear, 12, 8)), stone(t, outline.Pear, 12, 8).Places[0])
	require.NoError(t, err)
	assert.Len(t, point.Notches(), 2, "half of it at each end")
	heart := stone(t, outline.Heart, 0, 10)
	cleft, ok := heart.PlaceNamed("cleft")
	require.True(t, ok)
	b, err := Lay(spec(heart), cleft)
	require.NoError(t, err)
	assert.Len(t, b.Notches(), 1, "at the point and not in the cleft")
}

func TestCutListIsArithmetic(t *testing.T) {
	l := CutList{Count: 5, EachMM: 50.9, SawMM: 0.3}
	assert.InDelta(t, 5*50.9+4*0.3, l.TotalMM(), 1e-9)
	marks := l.MarksMM()
	assert.InDelta(t, 50.9, marks[0], 1e-12)
	assert.InDelta(t, 2*50.9+0.3, marks[1], 1e-12)
	assert.InDelta(t, l.TotalMM(), marks[4], 1e-9)
}

// The fit is what the opening does when one thing is off: laid out with one value
// and closed with another.
func TestFitIsTheOpeningsDifference(t *testing.T) {
	const d = 1e-3
	for _, c := range []outline.Curve{stone(t, outline.Round, 0, 12), stone(t, outline.Square, 0, 10)} {
		b := laid(t, c, nil)
		// Of a strip of this length, the inner way round where factor and thickness
		// are k and t, over pi.
		across := func(k, thick float64) float64 { return (b.LengthMM - 2*math.Pi*k*thick) / math.Pi }
		assert.InDelta(t, across(0.5, 0.4)-across(0.5+d, 0.4), b.Fit(fit.Doubts{Factor: d}).AcrossMM, 1e-9)
		assert.InDelta(t, across(0.5, 0.4)-across(0.5, 0.4+d), b.Fit(fit.Doubts{ThicknessMM: d}).AcrossMM, 1e-9)
		assert.InDelta(t, 0.1/math.Pi, b.Fit(fit.Doubts{KerfMM: 0.1}).AcrossMM, 1e-12)
		all := b.Fit(fit.Doubts{Factor: 0.08, KerfMM: 0.1, ThicknessMM: 0.012, CalipersMM: 0.05})
		assert.Greater(t, all.AcrossMM, all.LargestMM)
		assert.Equal(t, fit.NeutralLine, all.Largest)
	}
	mitred := laid(t, stone(t, outline.Square, 0, 10), func(s *Spec) { s.Corners = Mitred })
	assert.Zero(t, mitred.Fit(fit.Doubts{Factor: 0.1}).AcrossMM, "its outer skin keeps its length")
	assert.InDelta(t, 2*d, mitred.Fit(fit.Doubts{ThicknessMM: d}).AcrossMM, 1e-12)
}

// By hand, the play 0.05 mm all round: a step 0.4 mm thick carries 0.3 mm at the
// least; the crown of a wire 0.8 mm thick lies 0.4 mm in.
func TestBearingCarries(t *testing.T) {
	c := stone(t, outline.Round, 0, 12)
	step := laid(t, c, func(s *Spec) { s.Bearing, s.BearingMM, s.BearingThickMM = Step, 1.2, 0.4 })
	assert.InDelta(t, 0.3, step.BearingCarriesMM(), 1e-12)
	wire := laid(t, c, func(s *Spec) { s.Bearing, s.BearingMM = Wire, 0.8 })
	assert.InDelta(t, 0.3, wire.BearingCarriesMM(), 1e-12)
}
