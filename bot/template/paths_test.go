package template

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/template/scene"
	"guildhand/calc/development"
)

// A thinned path keeps its ends and corners and stays closed, and no point of it
// lies farther from it than was allowed.
func TestThinned(t *testing.T) {
	var points [][2]float64
	for i := range 721 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 720)
		points = append(points, [2]float64{7 * cos, 7 * sin})
	}
	points = append(points, [2]float64{9, 0}, [2]float64{10, 0}, [2]float64{11, 0}, [2]float64{11, 3})
	const tolerance = 0.002
	for _, closed := range []bool{false, true} {
		whole := Polyline("edge", Cut, "edge", closed, points...)
		thin := whole.Thinned(tolerance)
		assert.Less(t, len(thin.Segs), 300)
		assert.Equal(t, whole.Segs[0], thin.Segs[0])
		assert.Equal(t, whole.Segs[len(whole.Segs)-1], thin.Segs[len(thin.Segs)-1], "its end, and whether it is closed")
		left := thin.Segs.Strokes()[0]
		assert.Contains(t, left, scene.Point{X: 11}, "the corner")
		assert.NotContains(t, left, scene.Point{X: 10}, "on a straight line")
		for _, p := range whole.Segs {
			least := math.Inf(1)
			for i := 1; i < len(left); i++ {
				least = min(least, fromChord(p.P, left[i-1], left[i]))
			}
			assert.LessOrEqual(t, least, tolerance)
		}
	}
	circle := Circle("c", Drill, "", [2]float64{}, 7).Thinned(tolerance)
	for _, s := range circle.Segs {
		assert.InDelta(t, 7, math.Hypot(s.P.X, s.P.Y), tolerance)
	}
	assert.InEpsilon(t, 2*math.Pi*7, circle.Segs.Length(), 1e-3)
	assert.Empty(t, Path{}.Thinned(1).Segs)
}

// A circle keeps within 1e-5 mm all round, whatever its size, and its length so too.
func TestCircleKeepsItsRadius(t *testing.T) {
	for _, r := range []float64{0.3, 2.3, 2.4, 7.3, 26, 60, 300} {
		p := Circle("c", Drill, "", [2]float64{3, -4}, r)
		got, _ := segsLength(p)
		assert.InDelta(t, 2*math.Pi*r, got, 2*math.Pi*1e-5, "radius %g", r)
		p.Segs.Flatten(1e-9).EachLine(func(a, _ scene.Point) {
			assert.InDelta(t, r, math.Hypot(a.X-3, a.Y+4), 1.1e-5, "radius %g", r)
		})
		b := Bounds(Drawing{Paths: []Path{p}})
		assert.InDeltaSlice(t, []float64{3 - r, -4 - r, 3 + r, -4 + r}, []float64{b.X0, b.Y0, b.X1, b.Y1}, 2.5e-8)
	}
}

// Bounds are those of the curve, not of its handles: this cubic rises to 3/4 of
// its handles' height.
func TestBoundsOfCurve(t *testing.T) {
	p := FromCubics("c", Cut, "", []development.Cubic{{
		P0: development.Point{}, P1: development.Point{Y: 4}, P2: development.Point{X: 10, Y: 4}, P3: development.Point{X: 10}}})
	b := Bounds(Drawing{Paths: []Path{p}})
	assert.InDelta(t, 10, b.W(), 1e-9)
	assert.InDelta(t, 3, b.H(), 1e-9)
}

func TestConstructors(t *testing.T) {
	a, b, c := development.Point{X: 1, Y: 2}, development.Point{X: 4, Y: 6}, development.Point{X: 4, Y: 9}
	third := func(p, q development.Point) development.Cubic {
		at := func(t float64) development.Point {
			return development.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)}
		}
		return development.Cubic{P0: p, P1: at(1. / 3), P2: at(2. / 3), P3: q}
	}
	for name, test := range map[string]struct {
		path   Path
		length float64
		moves  int
	}{
		"line":           {FromLine("l", Seam, "", development.Line{A: a, B: b}), 5, 1},
		"open":           {Polyline("p", Cut, "", false, [2]float64{0, 0}, [2]float64{3, 0}, [2]float64{3, 4}), 7, 1},
		"closed":         {Polyline("p", Cut, "", true, [2]float64{0, 0}, [2]float64{3, 0}, [2]float64{3, 4}), 12, 1},
		"closed already": {Polyline("p", Cut, "", true, [2]float64{0, 0}, [2]float64{3, 0}, [2]float64{3, 4}, [2]float64{0, 0}), 12, 1},
		"rectangle":      {Rect("r", Outline, "", [2]float64{5, 5}, [2]float64{1, 2}), 14, 1},
		"joined cubics":  {FromCubics("c", Cut, "", []development.Cubic{third(a, b), third(b, c)}), 8, 1},
		"apart cubics":   {FromCubics("c", Cut, "", []development.Cubic{third(a, b), third(c, b)}), 8, 2},
	} {
		got, _ := segsLength(test.path)
		assert.InDelta(t, test.length, got, 1e-12, name)
		assert.InDelta(t, test.length, test.path.Segs.Length(), 1e-9, name)
		assert.Len(t, test.path.Segs.Strokes(), test.moves, name)
	}
}

// Any drawing is drawn or refused: no panic, a well-formed SVG, lengths kept.
func FuzzDrawing(f *testing.F) {
	f.Add("rim", "girdle", "seam, file 36.9°", 0.0, 0.0, 25.0, 6.0, 12.0, 9.0, 30.0, uint8(3))
	f.Add("", "</svg>\x00", "💍\u202e", -1e-9, 1e4, 1e-12, -1e4, 3.0, 3.0, 1e308, uint8(250))
	f.Add("a b", strings.Repeat("w", 300), "\xff", 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, -720.0, uint8(8))
	f.Fuzz(func(t *testing.T, id, labelText, text string, x0, y0, x1, y1, x2, y2, angle float64, kind uint8) {
		role := Role(kind % 11)
		a, b, c := scene.Point{X: x0, Y: y0}, scene.Point{X: x1, Y: y1}, scene.Point{X: x2, Y: y2}
		curve := scene.Path{{P: a}, {Op: scene.CubicTo, C1: b, C2: c, P: scene.Point{X: x2, Y: y0}}, {Op: scene.LineTo, P: b}}
		if kind > 127 {
			curve = append(curve, scene.Seg{Op: scene.ClosePath, P: a})
		}
		d := Drawing{Name: id, Title: labelText, Alt: text, Lines: []string{text, labelText},
			Paths: []Path{
				{ID: id, Role: role, Label: labelText, Segs: curve},
				Polyline("p", Role(kind%9), labelText, kind%2 == 0, [2]float64{x0, y0}, [2]float64{x1, y1}, [2]float64{x2, y2}),
			},
			Texts: []Text{{At: [2]float64{x1, y1}, Angle: angle, Text: text, SizeMM: math.Abs(y1) / 4}}}
		if data, err := PNG(d, 0); err == nil {
			size, err := png.DecodeConfig(bytes.NewReader(data))
			require.NoError(t, err)
			assert.Equal(t, pngWidth, size.Width)
			assert.GreaterOrEqual(t, size.Height, 50)
			assert.LessOrEqual(t, size.Height, 2500)
		}
		if _, err := PDF(d, Paper(kind%2)); err == nil {
			assert.NoError(t, d.check(), "a drawing that can't be drawn was printed")
		}
		data, err := SVG(d)
		if err != nil {
			return
		}
		assert.True(t, utf8.Valid(data), "the SVG is UTF-8")
		for dec := xml.NewDecoder(strings.NewReader(string(data))); ; {
			_, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, "not well-formed")
		}
	})
}
