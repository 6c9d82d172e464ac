package template

import (
	"math"
	"testing"

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
	if err != nil {
		t.Fatal(err)
	}
	want := degrees * math.Pi / 180 / 2 * (r*r - (r-slant)*(r-slant))
	got := polygonArea(points)
	// A chord is never further from its arc than the tolerance.
	if edge := collet8().LengthMM(Cut); math.Abs(got-want) > edge*tolerance || got <= 0 {
		t.Errorf("area %v mm2, want %v", got, want)
	}
	for i, p := range points {
		if q := points[(i+1)%len(points)]; p == q {
			t.Errorf("point %d, %v, is there twice", i, p)
		}
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
			if err == nil {
				t.Errorf("%s: %d points and no error", name, len(points))
			}
			continue
		}
		if err != nil || math.Abs(polygonArea(points)-c.areaMM2) > 1e-9 {
			t.Errorf("%s: area %v, want %v (%v)", name, polygonArea(points), c.areaMM2, err)
		}
	}
}

func TestPlaced(t *testing.T) {
	p := Path{ID: "a", Role: Cut, Segs: []Seg{{Op: MoveTo, P: [2]float64{1, 2}}, {Op: CubicTo, C1: [2]float64{3, 2}, C2: [2]float64{4, 4}, P: [2]float64{5, 2}}}}
	got := p.Placed(1, 10, 20)
	want := []Seg{{Op: MoveTo, P: [2]float64{8, 21}}, {Op: CubicTo, C1: [2]float64{8, 23}, C2: [2]float64{6, 24}, P: [2]float64{8, 25}}}
	for i := range want {
		if got.Segs[i] != want[i] {
			t.Errorf("segment %d is %v, want %v", i, got.Segs[i], want[i])
		}
	}
	if back := got.Placed(3, 0, 0); back.canvas().Length() != got.canvas().Length() {
		t.Error("a turn changes the length")
	}
	if p.Segs[0].P != [2]float64{1, 2} {
		t.Error("the path itself is changed")
	}
}
