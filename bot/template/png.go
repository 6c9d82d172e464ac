package template

import (
	"fmt"
	"math"

	"github.com/tdewolff/canvas"
)

// The picture is 800 px wide and meant to be seen at half of that on a phone:
// capitals are then 11 px high and the thinnest line is 1.5 px wide.
const (
	pngWidth     = 800
	pngMargin    = 24.0
	pngEm        = 31.0
	pngTitleEm   = 35.0
	pngTallest   = 880.0 // the drawn blank
	pngMostTexts = 12    // rows of text under the title
	crowded      = 60    // paths, beyond which all lines are thinner
	smallScale   = 6.0   // px per mm, below which crowded lines are thinner still
)

// picture is the layout of a PNG: all places are known before a pixel is set,
// so that its size can be told without drawing it. It is not changed after
// layoutPNG and so may be drawn by several goroutines at once.
type picture struct {
	set    *fontSet
	height int
	// pxPerMM is the scale of the drawing.
	pxPerMM float64
	// scene is in pixels, y up; stage is the part of the picture for it.
	scene *scene
	stage canvas.Rect
	// pen is 1 px, less where lines are crowded.
	pen float64

	bar    scaleBar
	legend [][]legendEntry
	title  []string
	texts  []string
}

// scaleBar is a length to judge the picture by.
type scaleBar struct {
	mm   float64
	px   float64
	text string
}

const (
	pngSample = 96.0 // px, a line of the legend
	rowHeight = pngEm * 1.4
)

// PNG draws d for a phone. The picture is to fit, not 1:1; its pHYs chunk
// gives the resolution at which the blank would be full size. The error is
// for a drawing that holds nothing or a coordinate that is not a number.
func PNG(d Drawing) (data []byte, widthPx, heightPx int, err error) {
	p, err := layoutPNG(d)
	if err != nil {
		return nil, 0, 0, err
	}
	data, err = p.encode()
	return data, pngWidth, p.height, err
}

// layoutPNG finds the place of everything.
func layoutPNG(d Drawing) (*picture, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	set, err := fonts()
	if err != nil {
		return nil, err
	}
	p := &picture{set: set}

	b := Bounds(d)
	const wide = pngWidth - 2*pngMargin
	p.pxPerMM = math.Min(wide/math.Max(b.WidthMM(), 1e-3), pngTallest/math.Max(b.HeightMM(), 1e-3))
	left := (pngWidth - b.WidthMM()*p.pxPerMM) / 2
	toPx := canvas.Identity.Translate(left, 0).Scale(p.pxPerMM, p.pxPerMM).Translate(-b.X0, -b.Y0)
	p.pen = 1
	if len(d.Paths) > crowded {
		p.pen = 0.6
		if p.pxPerMM < smallScale {
			p.pen = 0.35
		}
	}

	// labels may stand above and below the drawing; what they do not use is cut
	const spare = 5 * pngEm
	window := canvas.Rect{X0: 0, Y0: -spare, X1: pngWidth, Y1: b.HeightMM()*p.pxPerMM + spare}
	room := window
	room.X0, room.X1 = pngMargin/2, pngWidth-pngMargin/2
	p.scene = newScene(d, set, fitting{
		toView: toPx, window: window, room: room,
		pen: p.pen, em: pngEm, tolerance: 0.15, widest: 0.45 * wide, screen: true,
	})
	p.stage = grow(p.scene.used, 6)

	p.bar = barFor(p.pxPerMM)
	p.legend = legendRows(d.present(), lettering{set: set, em: pngEm}, pngSample, wide)
	p.title = shorten(lettering{set: set, em: pngTitleEm, bold: true}.wrap(d.Title, wide), 3)
	body := lettering{set: set, em: pngEm}
	for _, line := range d.Lines {
		p.texts = append(p.texts, body.wrap(line, wide)...)
	}
	p.texts = shorten(p.texts, pngMostTexts)
	if n := len(p.scene.left); n > 0 {
		p.texts = append(p.texts, fmt.Sprintf("%d labels have no room here: see the PDF.", n))
	}

	h := pngMargin + p.stage.H() + rowHeight // the bar's row
	h += float64(len(p.legend)) * rowHeight
	h += float64(len(p.title))*pngTitleEm*lineHeight + float64(len(p.texts))*pngEm*lineHeight
	h += pngEm*0.5 + pngMargin
	p.height = int(math.Ceil(h))
	return p, nil
}

// barFor picks a round length that is easy to see: 10 mm where it will do.
func barFor(pxPerMM float64) scaleBar {
	const least, most = 60.0, 420.0
	mm := 10.0
	if px := mm * pxPerMM; px < least || px > most {
		mm = math.Pow(10, math.Floor(math.Log10(most/pxPerMM)))
		for _, k := range []float64{5, 2} {
			if k*mm*pxPerMM <= most {
				mm *= k
				break
			}
		}
	}
	return scaleBar{mm: mm, px: mm * pxPerMM, text: fmt.Sprintf("%g mm", mm)}
}

// encode draws the picture and makes the file.
func (p *picture) encode() ([]byte, error) {
	sheet := newPixels(pngWidth, p.height)
	defer sheet.done()
	p.draw(sheet)
	return encodePNG(sheet.img, p.pxPerMM*1000)
}

// draw letters and strokes everything.
func (p *picture) draw(sheet *pixels) {
	b := brush{to: sheet, pen: 1}
	up := float64(p.height) - pngMargin - p.stage.Y1 // stage level 0 in the image
	p.scene.draw(brush{to: sheet, pen: p.pen}, 0, up)

	body := lettering{set: p.set, em: pngEm}
	y := float64(p.height) - pngMargin - p.stage.H()
	y -= rowHeight
	b.drawBar(p.bar, body, pngMargin, y+pngEm*0.35)
	for _, row := range p.legend {
		y -= rowHeight
		for _, e := range row {
			b.drawSample(e.role, body, pngSample, pngMargin+e.x, y+pngEm*0.35)
		}
	}
	y -= pngEm * 0.25
	for _, s := range p.title {
		y -= pngTitleEm * lineHeight
		b.write(lettering{set: p.set, em: pngTitleEm, bold: true}, s, pngMargin, y+pngTitleEm*descent, 0, canvas.Left)
	}
	for _, s := range p.texts {
		y -= pngEm * lineHeight
		b.write(body, s, pngMargin, y+pngEm*descent, 0, canvas.Left)
	}
}

// drawBar draws the scale bar, its left end at x and its middle at y.
func (b brush) drawBar(bar scaleBar, l lettering, x, y float64) {
	const end = 10 // pens
	p := &canvas.Path{}
	for _, at := range []float64{x, x + bar.px} {
		p.MoveTo(at, y-end*b.pen)
		p.LineTo(at, y+end*b.pen)
	}
	p.MoveTo(x, y)
	p.LineTo(x+bar.px, y)
	b.stroke(p, 4, nil, black)
	text := bar.text + "; not full size"
	b.write(l, text, x+bar.px+14*b.pen, y-l.em*capHeight/2, 0, canvas.Left)
}
