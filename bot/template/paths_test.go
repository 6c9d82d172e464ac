package template

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"guildhand/calc/development"
)

func TestCircleLength(t *testing.T) {
	const r = 7.3
	p := Circle("c", Drill, "", [2]float64{3, -4}, r)
	got, _ := segsLength(p)
	if want := 2 * math.Pi * r; math.Abs(got-want) > 1e-8*want {
		t.Errorf("the circle is %.10f mm round, want %.10f", got, want)
	}
	b := Bounds(Drawing{Paths: []Path{p}})
	if want := (Box{3 - r, -4 - r, 3 + r, -4 + r}); math.Abs(b.X0-want.X0)+math.Abs(b.Y0-want.Y0)+math.Abs(b.X1-want.X1)+math.Abs(b.Y1-want.Y1) > 1e-7 {
		t.Errorf("bounds %v, want %v", b, want)
	}
}

// Bounds are those of the curve, not of its handles: this cubic rises to 3/4 of
// its handles' height.
func TestBoundsOfCurve(t *testing.T) {
	p := FromCubics("c", Cut, "", []development.Cubic{{
		P0: development.Point{}, P1: development.Point{Y: 4}, P2: development.Point{X: 10, Y: 4}, P3: development.Point{X: 10}}})
	if b := Bounds(Drawing{Paths: []Path{p}}); math.Abs(b.HeightMM()-3) > 1e-9 || math.Abs(b.WidthMM()-10) > 1e-9 {
		t.Errorf("bounds %v, want 10 x 3", b)
	}
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
		if got, _ := segsLength(test.path); math.Abs(got-test.length) > 1e-12 {
			t.Errorf("%s: %g mm long, want %g", name, got, test.length)
		}
		moves := 0
		for _, s := range test.path.Segs {
			if s.Op == MoveTo {
				moves++
			}
		}
		if moves != test.moves {
			t.Errorf("%s: %d moves, want %d", name, moves, test.moves)
		}
		// what the renderers get has the same length
		if got := test.path.canvas().Length(); math.Abs(got-test.length) > 1e-9 {
			t.Errorf("%s: drawn %g mm long, want %g", name, got, test.length)
		}
	}
}

// Any drawing is drawn or refused: no panic, a well-formed SVG, lengths kept.
func FuzzDrawing(f *testing.F) {
	f.Add("rim", "girdle", "seam, file 36.9°", 0.0, 0.0, 25.0, 6.0, 12.0, 9.0, 30.0, uint8(3))
	f.Add("", "</svg>\x00", "💍\u202e", -1e-9, 1e4, 1e-12, -1e4, 3.0, 3.0, 1e308, uint8(250))
	f.Add("a b", strings.Repeat("w", 300), "\xff", 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, -720.0, uint8(8))
	f.Fuzz(func(t *testing.T, id, labelText, text string, x0, y0, x1, y1, x2, y2, angle float64, kind uint8) {
		role := Role(kind % 11)
		a, b, c := [2]float64{x0, y0}, [2]float64{x1, y1}, [2]float64{x2, y2}
		d := Drawing{Name: id, Title: labelText, Alt: text, Lines: []string{text, labelText},
			Paths: []Path{
				{ID: id, Role: role, Label: labelText, Closed: kind > 127, Segs: []Seg{
					{Op: MoveTo, P: a}, {Op: CubicTo, C1: b, C2: c, P: [2]float64{x2, y0}}, {Op: LineTo, P: b}}},
				Polyline("p", Role(kind%9), labelText, kind%2 == 0, a, b, c),
			},
			Texts: []Text{{At: b, Angle: angle, Text: text, SizeMM: math.Abs(y1) / 4}}}
		if _, w, h, err := PNG(d); err == nil && (w != pngWidth || h < 50 || h > 2500) {
			t.Errorf("the picture is %d x %d", w, h)
		}
		if _, err := PDF(d, Paper(kind%2)); err == nil && d.check() != nil {
			t.Error("a drawing that can't be drawn was printed")
		}
		data, err := SVG(d)
		if err != nil {
			return
		}
		if !utf8.Valid(data) {
			t.Error("the SVG is not UTF-8")
		}
		for dec := xml.NewDecoder(strings.NewReader(string(data))); ; {
			if _, err := dec.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("not well-formed: %v", err)
			}
		}
	})
}
