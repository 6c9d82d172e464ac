package template

import (
	"image"
	"sync"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/golang/freetype/truetype"
	"github.com/tdewolff/canvas"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

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

// writePixels letters one level line of text onto img, its anchor at x, y, with
// y up from the image's foot. It reports whether it could.
func writePixels(img *image.RGBA, l lettering, s string, x, y float64, align canvas.TextAlign) bool {
	style := faceStyle{em: l.em, bold: l.bold}
	face := borrowFace(style)
	if face == nil {
		return false
	}
	defer returnFace(style, face)
	const unit = 64 // of fixed.Int26_6
	d := font.Drawer{Dst: img, Src: image.Black, Face: face}
	switch width := float64(d.MeasureString(s)) / unit; align {
	case canvas.Center:
		x -= width / 2
	case canvas.Right:
		x -= width
	}
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * unit), Y: fixed.Int26_6((float64(img.Rect.Dy()) - y) * unit)}
	d.DrawString(s)
	return true
}
