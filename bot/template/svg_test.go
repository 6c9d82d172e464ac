package template

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/template/scene"
)

// svgDoc is what an independent reader sees of an SVG file.
type svgDoc struct {
	Width   string `xml:"width,attr"`
	Height  string `xml:"height,attr"`
	ViewBox string `xml:"viewBox,attr"`
	Title   string `xml:"title"`
	Desc    string `xml:"desc"`
	Paths   []struct {
		ID    string `xml:"id,attr"`
		Class string `xml:"class,attr"`
		D     string `xml:"d,attr"`
	} `xml:"path"`
	Texts []string `xml:"text"`
}

func readSVG(t *testing.T, data []byte) svgDoc {
	t.Helper()
	var doc svgDoc
	require.NoError(t, xml.Unmarshal(data, &doc), "not well-formed")
	return doc
}

// pathLength reads SVG path data by the grammar of the SVG specification (the
// commands that we may meet) and adds up the lengths of its segments; cubics
// are integrated by composite Gauss-Legendre. It also counts cubics. It shares
// no code with the drawing side.
func pathLength(d string) (length float64, cubics int, err error) {
	var fields []string
	for i := 0; i < len(d); {
		switch c := rune(d[i]); {
		case unicode.IsLetter(c) && c != 'e':
			fields = append(fields, d[i:i+1])
			i++
		case c == ' ' || c == ',':
			i++
		default:
			j, dot := i+1, c == '.'
			for j < len(d) {
				e := d[j] == 'e' || d[j-1] == 'e'
				if !e && (d[j] == '-' || d[j] == '.' && dot || !strings.ContainsRune("0123456789.", rune(d[j]))) {
					break
				}
				dot = dot || d[j] == '.'
				j++
			}
			fields = append(fields, d[i:j])
			i = j
		}
	}
	var x, y, x0, y0 float64
	cmd := ""
	next := func() float64 {
		if len(fields) == 0 {
			err = fmt.Errorf("path data ends early")
			return 0
		}
		v, e := strconv.ParseFloat(fields[0], 64)
		if e != nil {
			err = e
		}
		fields = fields[1:]
		return v
	}
	line := func(u, v float64) {
		length += math.Hypot(u-x, v-y)
		x, y = u, v
	}
	for len(fields) > 0 && err == nil {
		if unicode.IsLetter(rune(fields[0][0])) {
			cmd, fields = fields[0], fields[1:]
		}
		switch cmd {
		case "M":
			x, y = next(), next()
			x0, y0 = x, y
		case "L":
			line(next(), next())
		case "z", "Z":
			line(x0, y0)
		case "C":
			var p [8]float64
			p[0], p[1] = x, y
			for i := 2; i < 8; i++ {
				p[i] = next()
			}
			length += cubicLength(p)
			cubics++
			x, y = p[6], p[7]
		default:
			return 0, 0, fmt.Errorf("unexpected command %q", cmd)
		}
	}
	return length, cubics, err
}

// cubicLength integrates the speed of a cubic Bézier piece by five-point
// Gauss-Legendre on 16 intervals.
func cubicLength(p [8]float64) float64 {
	nodes := [5]float64{-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640}
	weights := [5]float64{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
	sum := 0.0
	const n = 16
	for i := range n {
		for k := range nodes {
			t := (float64(i) + (nodes[k]+1)/2) / n
			u := 1 - t
			speed := func(a, b, c, d float64) float64 {
				return 3 * (u*u*(b-a) + 2*u*t*(c-b) + t*t*(d-c))
			}
			sum += weights[k] / 2 / n * math.Hypot(speed(p[0], p[2], p[4], p[6]), speed(p[1], p[3], p[5], p[7]))
		}
	}
	return sum
}

// segsLength is the length of a path of the drawing.
func segsLength(p Path) (length float64, cubics int) {
	var at scene.Point
	for _, s := range p.Segs {
		switch s.Op {
		case scene.LineTo, scene.ClosePath:
			length += math.Hypot(s.P.X-at.X, s.P.Y-at.Y)
		case scene.CubicTo:
			length += cubicLength([8]float64{at.X, at.Y, s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.P.X, s.P.Y})
			cubics++
		}
		at = s.P
	}
	return length, cubics
}

func TestSVGLengths(t *testing.T) {
	for _, d := range samples() {
		t.Run(d.Name, func(t *testing.T) {
			data, err := SVG(d)
			require.NoError(t, err)
			assert.NoError(t, compareLengths(readSVG(t, data), d))
		})
	}
}

// compareLengths checks that each path of d is in doc once, under its id, with
// its length to 1e-7 of itself and as many curves.
func compareLengths(doc svgDoc, d Drawing) error {
	byID := map[string]string{}
	for _, p := range doc.Paths {
		if p.ID == "" {
			continue
		}
		if _, twice := byID[p.ID]; twice {
			return fmt.Errorf("id %q is there twice", p.ID)
		}
		byID[p.ID] = p.D
	}
	if len(byID) != len(d.Paths) {
		return fmt.Errorf("%d paths with an id, want %d", len(byID), len(d.Paths))
	}
	for _, p := range d.Paths {
		data, ok := byID[p.ID]
		if !ok {
			return fmt.Errorf("no path %q", p.ID)
		}
		got, gotCubics, err := pathLength(data)
		if err != nil {
			return fmt.Errorf("path %q: %w", p.ID, err)
		}
		want, wantCubics := segsLength(p)
		if math.Abs(got-want) > 1e-7*want {
			return fmt.Errorf("path %q is %.9f mm long, want %.9f", p.ID, got, want)
		}
		if gotCubics != wantCubics {
			return fmt.Errorf("path %q has %d curves, want %d", p.ID, gotCubics, wantCubics)
		}
	}
	return nil
}

// The check above must be able to fail: by a change of one part in a million,
// by a missing path and by a doubled id.
func TestSVGLengthsCanFail(t *testing.T) {
	data, err := SVG(collet8())
	require.NoError(t, err)
	for name, spoil := range map[string]func(*svgDoc, *Drawing){
		"length":  func(_ *svgDoc, d *Drawing) { d.Paths[0].Segs[len(d.Paths[0].Segs)-1].P.X += 3e-5 },
		"missing": func(_ *svgDoc, d *Drawing) { d.Paths[1].ID = "foot" },
		"doubled": func(doc *svgDoc, _ *Drawing) { doc.Paths[1].ID = doc.Paths[0].ID },
	} {
		doc, spoilt := readSVG(t, data), collet8()
		spoil(&doc, &spoilt)
		assert.Error(t, compareLengths(doc, spoilt), "%s: a planted error was not seen", name)
	}
}

// One user unit is one millimetre, and everything lies within the picture.
func TestSVGScale(t *testing.T) {
	for _, d := range samples() {
		data, err := SVG(d)
		require.NoError(t, err)
		doc := readSVG(t, data)
		var x, y, w, h float64
		_, err = fmt.Sscan(doc.ViewBox, &x, &y, &w, &h)
		require.NoError(t, err)
		assert.Zero(t, x)
		assert.Zero(t, y)
		assert.Equal(t, fmt.Sprint(w)+"mm", doc.Width, d.Name)
		assert.Equal(t, fmt.Sprint(h)+"mm", doc.Height, d.Name)
		assert.GreaterOrEqual(t, w, Bounds(d).W(), d.Name)
		assert.GreaterOrEqual(t, h, Bounds(d).H(), d.Name)
		for _, line := range d.Lines {
			assert.Contains(t, strings.Join(doc.Texts, " "), line, d.Name)
		}
	}
}

// What a maker typed stays text.
func TestSVGEscapes(t *testing.T) {
	d := collet8()
	nasty := `</title><script>alert("&")</script>` + "\x00\x1b[2J" + string([]byte{0xff}) + "\u202e💍"
	d.Title, d.Alt, d.Lines = nasty, nasty, []string{nasty}
	d.Paths[0].ID, d.Paths[0].Label = `rim" onload="x`, nasty
	d.Texts = append(d.Texts, Text{Text: nasty})
	data, err := SVG(d)
	require.NoError(t, err)
	doc := readSVG(t, data)
	assert.Equal(t, `</title><script>alert("&")</script> [2J□□`, doc.Title)
	assert.Equal(t, `</title><script>alert("&")</script> [2J□□`, doc.Desc)
	assert.Equal(t, "rim--onload--x", doc.Paths[0].ID)
	for name, s := range map[string]string{"script": "<script", "handler": `onload="`, "control": "\x1b"} {
		assert.NotContains(t, string(data), s, name)
	}
}
