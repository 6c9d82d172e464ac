package scene

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inkOf is how many pixels' worth of black a picture holds.
func inkOf(t *testing.T, s *Scene) (float64, image.Image) {
	t.Helper()
	data, err := s.PNG(1)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	sum := 0.0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			grey, _, _, _ := img.At(x, y).RGBA()
			sum += 1 - float64(grey)/math.MaxUint16
		}
	}
	return sum, img
}

// A stroke inks its length times its width, whichever way it runs, and what
// lies over itself counts once. Areas by plane geometry.
func TestStrokeArea(t *testing.T) {
	from := Point{100, 100}
	square := Rect{50, 50, 150, 150}.Path()
	for name, c := range map[string]struct {
		path   Path
		dashes []float64
		want   float64
	}{
		"level":     {Polyline(from, Point{180, 100}), nil, 80 * 6},
		"leftwards": {Polyline(from, Point{20, 100}), nil, 80 * 6},
		"oblique":   {Polyline(from, Point{160, 180}), nil, 100 * 6},
		"crossing":  {append(Polyline(Point{60, 100}, Point{140, 100}), Polyline(from, Point{100, 180})...), nil, 2*80*6 - 6*3},
		"dashed":    {Polyline(from, Point{180, 100}), []float64{10, 10}, 40 * 6},
		// the sides overlap in a quarter of each corner, and the bevel fills
		// half of the missing one
		"square":        {square, nil, 4*(100*6-9) + 4*9/2},
		"square turned": {square.Turned(1).In(Moved(200, 0)), nil, 4*(100*6-9) + 4*9/2},
		"circle":        {Circle(from, 50), nil, math.Pi * (53*53 - 47*47)},
		"outside":       {Polyline(Point{-50, -50}, Point{-10, 300}), nil, 0},
	} {
		s := &Scene{Box: Rect{X1: 200, Y1: 200}}
		s.Stroke(c.path, Line{Width: 6, Dashes: c.dashes}, Tag{})
		got, _ := inkOf(t, s)
		assert.InDelta(t, c.want, got, 0.015*c.want, name)
	}
}

func TestFillHole(t *testing.T) {
	hole := Polygon(Point{40, 40}, Point{40, 60}, Point{60, 60}, Point{60, 40}) // the other way round
	s := &Scene{Box: Rect{X1: 100, Y1: 100}}
	s.Fill(append(Rect{20, 20, 80, 80}.Path(), hole...), Black, Tag{})
	got, _ := inkOf(t, s)
	assert.InDelta(t, 60*60-20*20, got, 1)
}

// Level text comes from kept letters, turned text from their outlines: both ink
// the same amount, and text keeps within its measured width.
func TestTextTurned(t *testing.T) {
	l := Lettering{Em: 40}
	const line = "seam, file 36.9°"
	var ink [3]float64
	for i, angle := range []float64{0, 90, 30} {
		s := &Scene{Box: Rect{X1: 400, Y1: 400}}
		s.Write(Text{Lettering: l, Line: line, At: Point{200, 200}, Anchor: Middle, Angle: angle})
		var img image.Image
		ink[i], img = inkOf(t, s)
		if angle == 0 {
			left := (400 - l.Width(line)) / 2
			for y := range 400 {
				for x := range int(left) {
					grey, _, _, _ := img.At(x, y).RGBA()
					require.EqualValues(t, math.MaxUint16, grey, "ink left of the text, at %d, %d", x, y)
				}
			}
		}
	}
	assert.InEpsilon(t, ink[0], ink[1], 0.02)
	assert.InEpsilon(t, ink[0], ink[2], 0.02)
}

func TestFlattenAndBounds(t *testing.T) {
	c := Circle(Point{3, -4}, 7)
	for _, tolerance := range []float64{0.5, 0.01, 0.0001} {
		most := 0.0
		c.Flatten(tolerance).EachLine(func(a, b Point) {
			most = max(most, 7-math.Hypot((a.X+b.X)/2-3, (a.Y+b.Y)/2+4))
		})
		assert.LessOrEqual(t, most, tolerance, "a chord leaves the circle")
	}
	r, ok := c.Bounds()
	require.True(t, ok)
	assert.InDelta(t, 14, r.W(), 1e-7)
	_, ok = Path{{P: Point{1, 1}}}.Bounds()
	assert.False(t, ok, "a move alone has no bounds")
}

// Both fonts have every letter that is numbered by a byte, each has a number of
// its own, and a byte holds them all.
func TestCodedLetters(t *testing.T) {
	assert.LessOrEqual(t, firstCode+len(codedLetters), 256)
	assert.Len(t, codes, len(codedLetters), "a letter is there twice")
	for _, r := range codedLetters {
		assert.False(t, regular.glyph(r).missing || bold.glyph(r).missing, "%q", r)
	}
	assert.Equal(t, "\x20A~", coded(" A~"))
}

// A letter that is not an everyday one is embedded too.
func TestPDFLetters(t *testing.T) {
	page := func(line string) int {
		s := &Scene{Box: Rect{X1: 100, Y1: 100}}
		s.Write(Text{Lettering: Lettering{Em: 5}, Line: line, At: Point{10, 10}})
		data, err := PDF([]*Scene{s}, "title", "")
		require.NoError(t, err)
		return len(data)
	}
	assert.NotContains(t, everyday, "Ж")
	for r := rune(0); r <= 0x2fff; r++ {
		if isEveryday(r) != strings.ContainsRune(everyday, r) {
			t.Fatalf("%U is of one list of everyday letters alone", r)
		}
	}
	assert.Greater(t, page("0123456789 ЖЩЮЯ"), page("0123456789 łłłł"), "the shapes of the letters are in the file")
}

func TestPlain(t *testing.T) {
	for in, want := range map[string]string{
		" a \t\n b ":    "a b",
		"Größe ½ 36.9°": "Größe ½ 36.9°",
		"💍\u202e\xff":   "□□",
		"𝔸":             "□", // PDF numbers letters by 16 bits
	} {
		assert.Equal(t, want, Plain(in))
	}
}

func TestNumbersOfAPDF(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 1: "1", -1: "-1", 12.5: "12.5", -0.25: "-0.25", 0.001: "0.001", 0.0004: "0", -0.0004: "0", 841.88976: "841.89", 3.0400: "3.04", -20.0099: "-20.01", 1.2344: "1.234", 1e6: "1000000",
	} {
		assert.Equal(t, want, string(appendPlaces(nil, v)), "%v", v)
	}
}
