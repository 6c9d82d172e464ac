package template

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/template/scene"
)

// chunks reads a PNG file's chunks by the specification, sums checked.
func chunks(data []byte) (map[string][]byte, []string, error) {
	found, order := map[string][]byte{}, []string{}
	if !bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")) {
		return nil, nil, errors.New("no signature")
	}
	for rest := data[8:]; len(rest) > 0; {
		if len(rest) < 12 {
			return nil, nil, errors.New("a chunk is cut off")
		}
		n := int(binary.BigEndian.Uint32(rest))
		if len(rest) < 12+n {
			return nil, nil, errors.New("a chunk is cut off")
		}
		name, body := string(rest[4:8]), rest[8:8+n]
		if crc32.ChecksumIEEE(rest[4:8+n]) != binary.BigEndian.Uint32(rest[8+n:]) {
			return nil, nil, fmt.Errorf("the sum of %s is wrong", name)
		}
		found[name], order = body, append(order, name)
		rest = rest[12+n:]
	}
	return found, order, nil
}

// render decodes a drawing's picture as greys.
func render(t *testing.T, d Drawing) *image.Gray {
	t.Helper()
	data, err := PNG(d, 0)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, pngWidth, img.Bounds().Dx())
	shaded, ok := img.(*image.Paletted)
	require.True(t, ok, "the picture is a %T", img)
	g := image.NewGray(img.Bounds())
	for i, shade := range shaded.Pix {
		g.Pix[i] = luma(shaded.Palette[shade])
	}
	return g
}

// ink is the box of all that is not white.
func ink(g *image.Gray) image.Rectangle {
	var r image.Rectangle
	for y := range g.Rect.Dy() {
		for x := range g.Rect.Dx() {
			if g.GrayAt(x, y).Y < 200 {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return r
}

func TestPNG(t *testing.T) {
	for _, d := range samples() {
		t.Run(d.Name, func(t *testing.T) {
			data, err := PNG(d, 0)
			require.NoError(t, err)
			assert.Less(t, len(data), 60_000, "bytes, for a phone")
			_, order, err := chunks(data)
			require.NoError(t, err)
			assert.Equal(t, []string{"IHDR", "pHYs"}, order[:2], "the file begins")
			g := render(t, d)
			r := ink(g)
			require.False(t, r.Empty(), "the picture is blank")
			assert.True(t, r.In(g.Rect.Inset(8)), "ink at %v leaves the margin in %v", r, g.Rect)
		})
	}
}

// The physical resolution turns pixels into the millimetres of the blank: a
// rectangle of 40 x 10 mm is measured in the picture, between the middles of
// its sides.
func TestPNGResolution(t *testing.T) {
	d := Drawing{Name: "r", Paths: []Path{Rect("r", Mark, "", [2]float64{-7, 3}, [2]float64{33, 13})}}
	assert.NoError(t, measureRectangle(t, d, 40, 10))
	assert.Error(t, measureRectangle(t, d, 40.4, 10), "one percent too long")
	assert.Error(t, measureRectangle(t, d, 40, 10.2), "two percent too high")
}

func measureRectangle(t *testing.T, d Drawing, widthMM, heightMM float64) error {
	t.Helper()
	data, err := PNG(d, 0)
	require.NoError(t, err)
	found, _, err := chunks(data)
	require.NoError(t, err)
	phys := found["pHYs"]
	if len(phys) != 9 || phys[8] != 1 || !bytes.Equal(phys[:4], phys[4:8]) {
		return fmt.Errorf("pHYs is % x", phys)
	}
	perMM := float64(binary.BigEndian.Uint32(phys)) / 1000
	g := render(t, d)
	across := func(n int, at func(i int) uint8) float64 {
		first, last := -1, 0
		for i := range n {
			if at(i) < 128 {
				if first < 0 {
					first = i
				}
				last = i
			}
		}
		return float64(last - first + 1)
	}
	top := ink(g).Min.Y
	w := across(g.Rect.Dx(), func(x int) uint8 { return g.GrayAt(x, top+40).Y }) - styles[Mark].width
	first := 0
	for first < 800 && g.GrayAt(first, top+40).Y >= 128 {
		first++
	}
	down := 0
	for y := top; y < top+int(11*perMM); y++ {
		if g.GrayAt(400, y).Y < 128 {
			down = y
		}
	}
	h := float64(down-top+1) - styles[Mark].width
	if math.Abs(w/perMM-widthMM) > 1.5/perMM || math.Abs(h/perMM-heightMM) > 1.5/perMM {
		return fmt.Errorf("measured %.3f x %.3f mm at %.3f px/mm, want %g x %g", w/perMM, h/perMM, perMM, widthMM, heightMM)
	}
	return nil
}

// Roles are told apart without colour: the same line, drawn in each role and
// seen as greys at 400 px wide, differs between any two roles in what the line
// is made of, not only in its shade.
// Lines of a section are of the same types as lines of a blank, and no legend
// names them.
func TestPNGRolesDiffer(t *testing.T) {
	pattern := map[Role]string{}
	for _, r := range roles {
		path := Polyline("line", r, "", false, [2]float64{0, 0}, [2]float64{100, 0})
		if r == Drill { // a drill is a circle
			path = Circle("line", r, "", [2]float64{50, 0}, 1)
		}
		d := Drawing{Paths: []Path{path,
			Polyline("frame", Mark, "", true, [2]float64{0, -10}, [2]float64{100, -10}, [2]float64{100, 10}, [2]float64{0, 10})}}
		g := render(t, d)
		pattern[r] = runs(g, ink(g).Min.Y+75)
	}
	for i, a := range roles {
		for _, b := range roles[:i] {
			if (a == Edge || a == Seen) && (b == Cut || b == Edge) || (a == Stone && b == Mark) {
				continue // lines of a section or view, where nothing is cut or marked
			}
			assert.NotEqual(t, pattern[b], pattern[a], "%s and %s look the same", styles[a].name, styles[b].name)
		}
	}
	assert.Len(t, pattern, len(styles), "every role is looked at")
}

// runs describes the line at about level y of a picture, halved to 400 px: its
// thickness, the lengths of its dashes and gaps, and whether it has ticks.
func runs(g *image.Gray, y int) string {
	dark := func(x, y int) bool {
		sum := 0
		for _, p := range []image.Point{{2 * x, 2 * y}, {2*x + 1, 2 * y}, {2 * x, 2*y + 1}, {2*x + 1, 2*y + 1}} {
			sum += int(g.GrayAt(p.X, p.Y).Y)
		}
		return sum/4 < 160
	}
	y /= 2
	kinds := map[string]bool{}
	tall, last, on := 0, 0, false
	for x := 8; x < 392; x++ {
		h := 0
		for dy := -10; dy <= 10; dy++ {
			if dark(x, y+dy) {
				h++
			}
		}
		if h > 6 {
			tall = 1
		}
		if (h > 0) != on {
			if last > 0 {
				kinds[fmt.Sprintf("%v %d", on, (x-last+1)/3)] = true
			}
			last, on = x, h > 0
		}
	}
	thick := 0
	for x := 60; x < 70; x++ {
		h := 0
		for dy := -4; dy <= 4; dy++ {
			if dark(x, y+dy) {
				h++
			}
		}
		thick = max(thick, h)
	}
	return fmt.Sprint(tall, thick/3, kinds)
}

// Labels keep clear of lines, of each other and of the picture's edge. The
// check goes over all segments and knows nothing of the placer's grid.
func TestLabelsClear(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11)) // fixed, so that a failure can be seen again
	all := samples()
	for range 150 {
		slant := 2 + 20*random.Float64()
		d := sector("random", slant*(1.2+10*random.Float64()), slant, 5+300*random.Float64())
		d.Name = fmt.Sprintf("slant %.3f", slant)
		all = append(all, d)
	}
	labels := 0
	for _, d := range all {
		p, err := layoutPNG(d)
		require.NoError(t, err)
		labels += len(p.drawing.placed)
		assert.NoError(t, labelsClear(p.drawing), d.Name)
		if len(d.Paths) >= 9 {
			// those that would need a leader over a cut line are in the key
			assert.GreaterOrEqual(t, len(p.drawing.placed), 3, d.Name)
		}
	}
	assert.GreaterOrEqual(t, labels, 900, "labels checked")

	// the check can fail: a label pushed onto the rim, and two on one spot
	p, _ := layoutPNG(collet8())
	first, box := p.drawing.lines[0][0].P, &p.drawing.placed[1].box
	*box = scene.Rect{X0: first.X - 5, Y0: first.Y - 5, X1: first.X - 5 + box.W(), Y1: first.Y - 5 + box.H()}
	assert.Error(t, labelsClear(p.drawing), "a label on a line was not seen")
	p, _ = layoutPNG(collet8())
	p.drawing.placed[1].box = p.drawing.placed[0].box
	assert.Error(t, labelsClear(p.drawing), "two labels on one spot were not seen")
}

func labelsClear(s *layout) error {
	for i, q := range s.placed {
		if q.box.X0 < 8 || q.box.X1 > pngWidth-8 {
			return fmt.Errorf("%q leaves the picture", q.lines)
		}
		for _, r := range s.placed[:i] {
			if q.box.Overlaps(r.box) {
				return fmt.Errorf("%q covers %q", q.lines, r.lines)
			}
		}
		if q.over {
			continue
		}
		for j, line := range s.lines {
			if line.Flatten(0.01).Clip(q.box).Length() > 0 {
				return fmt.Errorf("%q lies on path %d", q.lines, j)
			}
		}
	}
	return nil
}

// Absurd drawings are drawn in bounded space or refused, never with a panic.
func TestPNGExtremes(t *testing.T) {
	line := func(x, y float64) Drawing {
		return Drawing{Name: "x", Title: "x", Paths: []Path{Polyline("rim", Cut, "rim", false, [2]float64{0, 0}, [2]float64{x, y})}}
	}
	wordy := collet8()
	wordy.Title = strings.Repeat("very long title ", 500)
	wordy.Lines = []string{strings.Repeat("x", 100_000), "", "\n\t", "ok"}
	wordy.Paths[0].Label = strings.Repeat("rim ", 1000)
	for name, d := range map[string]Drawing{
		"5 m wide": line(5000, 1), "5 m high": line(1, 5000), "9 m across": line(9000, 9000),
		"1 µm": line(0.001, 0), "a point": line(0, 0), "upright": line(0, 3),
		"wordy":     wordy,
		"text only": {Title: "t", Texts: []Text{{Text: "hello", SizeMM: 9000}}},
		"unknown":   {Paths: []Path{Polyline("a", Role(99), "a", false, [2]float64{0, 0}, [2]float64{1, 1})}},
	} {
		g := render(t, d)
		assert.Equal(t, pngWidth, g.Rect.Dx(), name)
		assert.LessOrEqual(t, g.Rect.Dy(), 2200, name)
		_, err := SVG(d)
		assert.NoError(t, err, name)
	}
	for name, d := range map[string]Drawing{
		"empty":     {},
		"move only": {Paths: []Path{{Segs: scene.Path{{Op: scene.MoveTo}}}}},
		"NaN":       line(math.NaN(), 1),
		"infinite":  line(1, math.Inf(-1)),
		"11 m":      line(11_000, 1),
		"no move":   {Paths: []Path{{Segs: scene.Path{{Op: scene.LineTo, P: scene.Point{X: 1, Y: 1}}}}}},
		"handle":    {Paths: []Path{{Segs: scene.Path{{Op: scene.MoveTo}, {Op: scene.CubicTo, C1: scene.Point{X: math.NaN()}, P: scene.Point{X: 1, Y: 1}}}}}},
		"angle":     {Texts: []Text{{Text: "a", Angle: math.NaN()}}},
	} {
		_, err := PNG(d, 0)
		assert.Error(t, err, name)
		_, err = SVG(d)
		assert.Error(t, err, name)
		_, err = PDF(d, A4)
		assert.Error(t, err, name)
	}
}

// The same drawing gives the same files, also when many are drawn at once.
func TestConcurrent(t *testing.T) {
	ds := samples()[:4]
	type file struct{ png, svg, pdf []byte }
	want := make([]file, len(ds))
	for i, d := range ds {
		want[i].png, _ = PNG(d, 0)
		want[i].svg, _ = SVG(d)
		want[i].pdf, _ = PDF(d, Letter)
	}
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for i, d := range ds {
				var got file
				got.png, _ = PNG(d, 0)
				got.svg, _ = SVG(d)
				got.pdf, _ = PDF(d, Letter)
				assert.True(t, bytes.Equal(want[i].png, got.png), "%s: PNG", d.Name)
				assert.True(t, bytes.Equal(want[i].svg, got.svg), "%s: SVG", d.Name)
				assert.True(t, bytes.Equal(want[i].pdf, got.pdf), "%s: PDF", d.Name)
			}
		})
	}
	wg.Wait()
}

// At 400 px wide capitals are 11 px high and lines 1.5 px wide.
func TestPNGLegible(t *testing.T) {
	g := render(t, Drawing{Lines: []string{"HHHHHHHH"}, Paths: []Path{
		Polyline("a", Mark, "", false, [2]float64{0, 0}, [2]float64{100, 0})}})
	box := ink(g)
	// the first line of text is the row of capitals
	high := 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		dark := false
		for x := box.Min.X; x < box.Min.X+150; x++ {
			dark = dark || g.GrayAt(x, y).Y < 128
		}
		if !dark {
			break
		}
		high++
	}
	assert.GreaterOrEqual(t, high, 22, "capitals, px at 800 px")
	for r, s := range styles {
		assert.GreaterOrEqual(t, s.width, 3.0, "px at 800 px, role %d", r)
		assert.LessOrEqual(t, s.ink, scene.Grey(0x60), "role %d is too pale", r)
	}
}

func luma(c color.Color) uint8 { return color.GrayModel.Convert(c).(color.Gray).Y }
