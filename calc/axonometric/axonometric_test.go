package axonometric

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func block(name string, low, high Point) Body {
	at := func(z float64) []Point {
		return []Point{{low.X, low.Y, z}, {high.X, low.Y, z}, {high.X, high.Y, z}, {low.X, high.Y, z}}
	}
	return Loft(name, [][]Point{at(low.Z), at(high.Z)}, false)
}

func lengthMM(lines []Line, name string) float64 {
	sum := 0.0
	for _, l := range lines {
		for i := 1; l.Name == name && i < len(l.Points); i++ {
			sum += math.Hypot(l.Points[i][0]-l.Points[i-1][0], l.Points[i][1]-l.Points[i-1][1])
		}
	}
	return sum
}

// Of the twelve edges of a cube the three that meet at the corner away from the
// eye are hidden, and each is foreshortened by the square root of two thirds
// (ISO 5456-3: the three axes of the isometric projection have the same scale).
func TestCube(t *testing.T) {
	lines := Isometric([]Body{block("cube", Point{}, Point{1, 1, 1})}, 0)
	assert.InDelta(t, 9*math.Sqrt(2.0/3), lengthMM(lines, "cube"), 1e-6)
	for _, l := range lines {
		for _, p := range l.Points {
			assert.InDelta(t, math.Sqrt(2.0/3), max(math.Hypot(p[0], p[1]), math.Sqrt(2.0/3)), 1e-9, "within the hexagon")
		}
	}
}

// A block that stands wholly behind another is not seen; one that stands half
// behind it is seen in half.
func TestBlockBehindAnother(t *testing.T) {
	front := block("front", Point{0, 0, 0}, Point{4, 4, 4})
	alone := lengthMM(Isometric([]Body{front}, 0), "front")
	lines := Isometric([]Body{front, block("back", Point{-3, -3, -3}, Point{-2, -2, -2})}, 0)
	assert.Zero(t, lengthMM(lines, "back"))
	assert.InDelta(t, alone, lengthMM(lines, "front"), 1e-9)
	// Lifted along the axis to the eye it hides what was in front of it.
	lines = Isometric([]Body{front, block("back", Point{6, 6, 6}, Point{7, 7, 7})}, 0)
	assert.InDelta(t, 9*math.Sqrt(2.0/3), lengthMM(lines, "back"), 1e-6)
	assert.InDelta(t, alone-3*math.Sqrt(2.0/3), lengthMM(lines, "front"), 1e-6)
}

// A block of random place and size before a line, by another route: the line's
// points are looked at one by one along the ray to the eye.
func TestHiddenByRays(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, 1))
	for range 200 {
		low := Point{rnd.Float64(), rnd.Float64(), rnd.Float64()}
		high := Point{low.X + 1 + rnd.Float64(), low.Y + 1 + rnd.Float64(), low.Z + 1 + rnd.Float64()}
		b := block("block", low, high)
		p := Point{rnd.Float64()*6 - 3, rnd.Float64()*6 - 3, rnd.Float64()*6 - 3}
		q := Point{rnd.Float64()*6 - 3, rnd.Float64()*6 - 3, rnd.Float64()*6 - 3}
		line := Body{Marks: []Mark{{Name: "line", Points: []Point{p, q}}}}
		got := lengthMM(Isometric([]Body{b, line}, 0), "line")
		a, z := projected(p, 0), projected(q, 0)
		whole := math.Hypot(a.X-z.X, a.Y-z.Y)
		const steps = 4000
		free := 0
		for i := range steps {
			if !meets(low, high, p.Mix(q, (float64(i)+0.5)/steps)) {
				free++
			}
		}
		require.InDelta(t, whole*float64(free)/steps, got, whole*0.004, "seed %d: %v to %v behind %v %v", seed, p, q, low, high)
	}
}

// meets reports whether the ray from p along (1, 1, 1) comes into the block.
func meets(low, high, p Point) bool {
	from := max(low.X-p.X, low.Y-p.Y, low.Z-p.Z, 0)
	return from < min(high.X-p.X, high.Y-p.Y, high.Z-p.Z)
}

func TestQuartersTo(t *testing.T) {
	for _, at := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {-1, -1}, {3, -1}} {
		p := quarterTurned(Point{X: at[0], Y: at[1]}, QuartersTo(at[0], at[1]))
		assert.Greater(t, p.X+p.Y, 0.0, "%v faces the eye", at)
	}
}

func BenchmarkTwoThousandFaces(b *testing.B) {
	var sections [][]Point
	for i := range 100 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 100)
		var ring []Point
		for k := range 10 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 10)
			ring = append(ring, Point{(5 + c) * cos, (5 + c) * sin, s})
		}
		sections = append(sections, ring)
	}
	body := Loft("ring", sections, true)
	for b.Loop() {
		Isometric([]Body{body}, 0)
	}
}
