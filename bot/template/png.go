package template

import (
	"fmt"
	"math"

	"guildhand/bot/template/scene"
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

// picture is the scene of a PNG, in pixels. Its size is known without drawing
// it.
type picture struct {
	scene.Scene
	// pxPerMM is the scale of the drawing.
	pxPerMM float64
	drawing *layout
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
	return data, pngWidth, p.heightPx(), err
}

func (p *picture) heightPx() int { return int(math.Ceil(p.Box.H())) }

func (p *picture) encode() ([]byte, error) { return p.PNG(p.pxPerMM) }

// layoutPNG finds the place of everything, from the top down.
func layoutPNG(d Drawing) (*picture, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	b := Bounds(d)
	const wide = pngWidth - 2*pngMargin
	scale := math.Min(wide/math.Max(b.W(), 1e-3), pngTallest/math.Max(b.H(), 1e-3))
	p := &picture{pxPerMM: scale}
	thin := brush{to: &p.Scene, pen: 1}
	if len(d.Paths) > crowded {
		thin.pen = 0.6
		if scale < smallScale {
			thin.pen = 0.35
		}
	}

	// labels may stand above and below the drawing; what they do not use is cut
	const spare = 5 * pngEm
	window := scene.Rect{X0: 0, Y0: -spare, X1: pngWidth, Y1: b.H()*scale + spare}
	room := window
	room.X0, room.X1 = pngMargin/2, pngWidth-pngMargin/2
	p.drawing = newLayout(d, fitting{
		toView: scene.View{Scale: scale, DX: (pngWidth-b.W()*scale)/2 - b.X0*scale, DY: -b.Y0 * scale}, window: window, room: room,
		pen: thin.pen, em: pngEm, tolerance: 0.15, widest: 0.45 * wide, screen: true,
	})
	stage := p.drawing.used.Grow(6)
	p.drawing.draw(thin, 0, -pngMargin-stage.Y1)

	to := brush{to: &p.Scene, pen: 1}
	body := scene.Lettering{Em: pngEm}
	y := -pngMargin - stage.H() - rowHeight
	to.scaleBar(scale, body, pngMargin, y+pngEm*0.35)
	for _, row := range legendRows(d.present(), body, pngSample, wide) {
		y -= rowHeight
		to.samples(row, body, pngSample, pngMargin, y+pngEm*0.35)
	}
	title := scene.Lettering{Em: pngTitleEm, Bold: true}
	y = to.column(title, shorten(title.Wrap(d.Title, wide), 3), pngMargin, y-pngEm*0.25)
	var texts []string
	for _, line := range d.Lines {
		texts = append(texts, body.Wrap(line, wide)...)
	}
	texts = shorten(texts, pngMostTexts)
	if n := len(p.drawing.left); n > 0 {
		texts = append(texts, fmt.Sprintf("%d labels have no room here: see the PDF.", n))
	}
	y = to.column(body, texts, pngMargin, y)
	p.Box = scene.Rect{X1: pngWidth, Y0: y - pngEm*0.25 - pngMargin}
	return p, nil
}

// scaleBar draws a length to judge the picture by, its left end at x and its
// middle at y.
func (b brush) scaleBar(pxPerMM float64, l scene.Lettering, x, y float64) {
	mm := barMM(pxPerMM)
	end := x + mm*pxPerMM
	bold := lineStyle{name: aid.name, width: 4}
	for _, at := range []float64{x, end} {
		b.stroke(scene.Polyline(scene.Point{X: at, Y: y - 10*b.pen}, scene.Point{X: at, Y: y + 10*b.pen}), bold)
	}
	b.stroke(scene.Polyline(scene.Point{X: x, Y: y}, scene.Point{X: end, Y: y}), bold)
	b.write(l, fmt.Sprintf("%g mm; not full size", mm), end+14*b.pen, y-l.Em*scene.CapHeight/2, scene.Start)
}

// barMM picks a round length that is easy to see: 10 mm where it will do.
func barMM(pxPerMM float64) float64 {
	const least, most = 60.0, 420.0
	if px := 10 * pxPerMM; px >= least && px <= most {
		return 10
	}
	mm := math.Pow(10, math.Floor(math.Log10(most/pxPerMM)))
	for _, k := range []float64{5, 2} {
		if k*mm*pxPerMM <= most {
			return k * mm
		}
	}
	return mm
}
