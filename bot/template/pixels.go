package template

import (
	"image"
	"image/color"
	"math"
	"sync"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/golang/freetype/truetype"
	"github.com/srwiley/scanx"
	"github.com/tdewolff/canvas"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// pixels is canvas' renderer for a picture, one pixel to the unit. canvas has
// one too, for colours; a picture of greys has a quarter of the bytes to clear,
// to draw on and to pack, which halves its time.
type pixels struct {
	img     *image.Gray
	scanner *scanx.Scanner
	// ink is the grey of the path that is being drawn.
	ink uint8
}

// sheets are those that no picture is using.
var sheets sync.Pool

// newPixels is a white picture, to be given back with done.
func newPixels(width, height int) *pixels {
	p, _ := sheets.Get().(*pixels)
	if p == nil {
		p = &pixels{img: &image.Gray{}}
		p.scanner = scanx.NewScanner(p, 0, 0)
	}
	p.scanner.SetBounds(width, height)
	n := width * height
	if cap(p.img.Pix) < n {
		p.img.Pix = make([]uint8, n)
	}
	p.img.Pix, p.img.Stride, p.img.Rect = p.img.Pix[:n], width, image.Rect(0, 0, width, height)
	p.img.Pix[0] = white.R
	for done := 1; done < n; done *= 2 {
		copy(p.img.Pix[done:], p.img.Pix[:done])
	}
	return p
}

func (p *pixels) done() { sheets.Put(p) }

// Size is part of canvas.Renderer.
func (p *pixels) Size() (float64, float64) {
	return float64(p.img.Rect.Dx()), float64(p.img.Rect.Dy())
}

// RenderPath fills and strokes a path in plain colours.
func (p *pixels) RenderPath(path *canvas.Path, style canvas.Style, m canvas.Matrix) {
	if style.HasFill() {
		p.fill(path.Copy().Transform(m), style.Fill.Color)
	}
	if style.HasStroke() {
		if len(style.Dashes) > 0 {
			offset, dashes := canvas.ScaleDash(style.StrokeWidth, style.DashOffset, style.Dashes)
			path = path.Dash(offset, dashes...)
		}
		path = path.Stroke(style.StrokeWidth, style.StrokeCapper, style.StrokeJoiner, canvas.PixelTolerance)
		p.fill(path.Transform(m), style.Stroke.Color)
	}
}

// RenderText draws letters that are not level, as paths.
func (p *pixels) RenderText(text *canvas.Text, m canvas.Matrix) {
	text.RenderAsPath(p, m, canvas.DPMM(1))
}

// RenderImage is part of canvas.Renderer; no drawing has an image in it.
func (p *pixels) RenderImage(image.Image, canvas.Matrix) {}

func (p *pixels) fill(path *canvas.Path, c color.RGBA) {
	p.ink = c.R
	p.scanner.Clear()
	path.ToScanxScanner(p.scanner, float64(p.img.Rect.Dy()), canvas.DPMM(1))
	p.scanner.Draw()
}

// SetColor is part of scanx.Spanner; fill sets the ink itself.
func (p *pixels) SetColor(any) {}

// GetSpanFunc is part of scanx.Spanner: what it returns mixes ink into pixels
// x0 to x1 of row y, by how much of them the path covers.
func (p *pixels) GetSpanFunc() scanx.SpanFunc {
	const full = math.MaxUint16
	ink := uint32(p.ink) * full / math.MaxUint8
	return func(y, x0, x1 int, cover uint32) {
		row := p.img.Pix[y*p.img.Stride:][x0:x1]
		if cover == full {
			for i := range row {
				row[i] = p.ink
			}
			return
		}
		for i, was := range row {
			row[i] = uint8((uint32(was)*full/math.MaxUint8*(full-cover)/full + ink*cover/full) >> 8)
		}
	}
}

// Letters are most of the work of a picture when each is drawn as a path. Level
// text is therefore set from letters that were drawn once and are kept as
// pixels; that halves the time of a picture and looks the same.

// faceStyle is what a face was made for.
type faceStyle struct {
	em   float64
	bold bool
}

// faces are those that no picture is using. A face keeps the letters drawn in
// it, and serves one picture at a time.
var faces = struct {
	sync.Mutex
	free map[faceStyle][]font.Face
}{free: map[faceStyle][]font.Face{}}

// keptLetters is how many letters a face keeps, each at four places within a
// pixel; a face then takes about a megabyte.
const keptLetters = 512

var pixelFonts = sync.OnceValues(func() (fonts [2]*truetype.Font, err error) {
	if fonts[0], err = truetype.Parse(dejavusanscondensed.TTF); err == nil {
		fonts[1], err = truetype.Parse(dejavusanscondensedbold.TTF)
	}
	return fonts, err
})

// borrowFace takes a face that is free, or makes one; nil where the fonts
// can't be read, and text is then drawn as paths.
func borrowFace(style faceStyle) font.Face {
	faces.Lock()
	defer faces.Unlock()
	if list := faces.free[style]; len(list) > 0 {
		faces.free[style] = list[:len(list)-1]
		return list[len(list)-1]
	}
	fonts, err := pixelFonts()
	if err != nil {
		return nil
	}
	which := fonts[0]
	if style.bold {
		which = fonts[1]
	}
	// at 72 dots an inch, a point is a pixel
	return truetype.NewFace(which, &truetype.Options{Size: style.em, DPI: 72, Hinting: font.HintingNone, GlyphCacheEntries: keptLetters})
}

func returnFace(style faceStyle, f font.Face) {
	faces.Lock()
	defer faces.Unlock()
	faces.free[style] = append(faces.free[style], f)
}

// write letters one level line of text in black, its anchor at x, y, with y up
// from the foot. It reports whether it could.
func (p *pixels) write(l lettering, s string, x, y float64, align canvas.TextAlign) bool {
	style := faceStyle{em: l.em, bold: l.bold}
	face := borrowFace(style)
	if face == nil {
		return false
	}
	defer returnFace(style, face)
	const unit = 64 // of fixed.Int26_6
	if align != canvas.Left {
		width := float64(eachLetter(face, s, fixed.Point26_6{}, nil)) / unit
		if align == canvas.Center {
			width /= 2
		}
		x -= width
	}
	dot := fixed.Point26_6{X: fixed.Int26_6(x * unit), Y: fixed.Int26_6((float64(p.img.Rect.Dy()) - y) * unit)}
	eachLetter(face, s, dot, p.letter)
	return true
}

// eachLetter visits the letters of a line that begins at dot, with their place
// and how much they cover of each pixel there, and gives the line's length.
func eachLetter(face font.Face, s string, dot fixed.Point26_6, visit func(at image.Rectangle, cover *image.Alpha, from image.Point)) fixed.Int26_6 {
	start, last := dot.X, rune(-1)
	for _, r := range s {
		if last >= 0 {
			dot.X += face.Kern(last, r)
		}
		at, mask, from, advance, _ := face.Glyph(dot, r)
		if cover, ok := mask.(*image.Alpha); ok && visit != nil {
			visit(at, cover, from)
		}
		dot.X += advance
		last = r
	}
	return dot.X - start
}

// letter blackens the pixels of a letter.
func (p *pixels) letter(at image.Rectangle, cover *image.Alpha, from image.Point) {
	in := at.Intersect(p.img.Rect)
	from = from.Add(in.Min.Sub(at.Min))
	for y := range in.Dy() {
		to := p.img.Pix[(in.Min.Y+y)*p.img.Stride+in.Min.X:][:in.Dx()]
		for x, c := range cover.Pix[(from.Y+y)*cover.Stride+from.X:][:in.Dx()] {
			if c != 0 {
				to[x] = uint8(uint32(to[x]) * (math.MaxUint8 - uint32(c)) / math.MaxUint8)
			}
		}
	}
}
