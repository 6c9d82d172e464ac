package template

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/template/scene"
	"guildhand/calc/development"
)

func polygonArea(p [][2]float64) float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += (a[0]*b[1] - b[0]*a[1]) / 2
	}
	return sum
}

// The contour of an annular sector has the sector's area, angle/2 (R² − r²),
// less what the chords cut off or add, and runs counter-clockwise.
func TestContourOfSector(t *testing.T) {
	const r, slant, degrees, tolerance = 28.8, 6.6, 53.2, 0.005
	points, err := Contour(collet8(), tolerance)
	require.NoError(t, err)
	want := degrees * math.Pi / 180 / 2 * (r*r - (r-slant)*(r-slant))
	got := polygonArea(points)
	// A chord is never further from its arc than the tolerance.
	assert.InDelta(t, want, got, collet8().LengthMM(Cut)*tolerance, "area, mm2")
	for i, p := range points {
		assert.NotEqual(t, p, points[(i+1)%len(points)], "point %d is there twice", i)
	}
}

func TestContour(t *testing.T) {
	square := Rect("edge", Cut, "", [2]float64{1, 1}, [2]float64{11, 6})
	top := FromLine("top", Cut, "", development.Line{A: development.Point{X: 0, Y: 5}, B: development.Point{X: 10, Y: 5}})
	bottom := FromLine("bottom", Cut, "", development.Line{A: development.Point{X: 0, Y: 0}, B: development.Point{X: 10, Y: 0}})
	left := Polyline("left", Seam, "", false, [2]float64{0, 0}, [2]float64{0, 5})
	right := Polyline("right", Seam, "", false, [2]float64{10, 5}, [2]float64{10, 0})
	far := Polyline("right", Seam, "", false, [2]float64{10.1, 5}, [2]float64{10, 0})
	for name, c := range map[string]struct {
		paths   []Path
		areaMM2 float64 // 0 for an error
	}{
		"closed":             {[]Path{square}, 50},
		"clockwise":          {[]Path{Polyline("e", Cut, "", true, [2]float64{0, 0}, [2]float64{0, 5}, [2]float64{10, 5}, [2]float64{10, 0})}, 50},
		"edges in any order": {[]Path{top, bottom, left, right}, 50},
		"other lines":        {[]Path{square, Polyline("m", Mark, "", false, [2]float64{0, 0}, [2]float64{99, 99})}, 50},
		"with a hole":        {[]Path{Circle("hole", Cut, "", [2]float64{5, 3}, 1), square}, 50},
		"an edge missing":    {[]Path{top, bottom, left}, 0},
		"ends that miss":     {[]Path{top, bottom, left, far}, 0},
		"nothing to cut":     {[]Path{Polyline("m", Mark, "", true, [2]float64{0, 0}, [2]float64{9, 0}, [2]float64{9, 9})}, 0},
		"no paths":           {nil, 0},
	} {
		points, err := Contour(Drawing{Paths: c.paths}, 0.01)
		if c.areaMM2 == 0 {
			assert.ErrorIs(t, err, errOpen, name)
			continue
		}
		require.NoError(t, err, name)
		assert.InDelta(t, c.areaMM2, polygonArea(points), 1e-9, name)
	}
}

func TestPlaced(t *testing.T) {
	p := Path{ID: "a", Role: Cut, Segs: scene.Path{
		{Op: scene.MoveTo, P: scene.Point{X: 1, Y: 2}},
		{Op: scene.CubicTo, C1: scene.Point{X: 3, Y: 2}, C2: scene.Point{X: 4, Y: 4}, P: scene.Point{X: 5, Y: 2}}}}
	got := p.Placed(1, 10, 20)
	assert.Equal(t, scene.Path{
		{Op: scene.MoveTo, P: scene.Point{X: 8, Y: 21}},
		{Op: scene.CubicTo, C1: scene.Point{X: 8, Y: 23}, C2: scene.Point{X: 6, Y: 24}, P: scene.Point{X: 8, Y: 25}}}, got.Segs)
	back := got.Placed(3, 0, 0)
	assert.InDelta(t, got.Segs.Length(), back.Segs.Length(), 1e-12, "a turn keeps the length")
	assert.Equal(t, scene.Point{X: 1, Y: 2}, p.Segs[0].P, "the path itself is unchanged")
}
