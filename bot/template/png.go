package template

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/template/scene"
)

// The picture is 800 px wide and meant to be seen at half of that on a phone:
// capitals are then 11 px high, those on the drawing 10 px and where room is
// short 9 px, and the thinnest outline is 1.5 px wide.
const (
	pngWidth   = 800
	pngMargin  = 24.0
	pngEm      = 31.0
	pngTitleEm = 35.0
	pngLabelEm = 28.0
	pngTallest = 880.0 // the drawn blank
	// pngWithDetails is the same where details follow.
	pngWithDetails = 560.0
	pngDetail      = 260.0 // a detail, at the most
	pngMostTexts   = 12    // rows of text under the title
	crowded        = 60    // paths, beyond which all lines are thinner
	smallScale     = 6.0   // px per mm, below which crowded lines are thinner still
)

// picture is the scene of a PNG, in pixels.
type picture struct {
	scene.Scene
	// pxPerMM is the scale of the drawing.
	pxPerMM float64
	// drawing is the layout of the drawing, details those of its details, each
	// with its shift on the picture.
	drawing *layout
	details []*layout
	// footY is the base line of the foot, on whose right the entry's number has
	// room.
	footY float64
}

const (
	pngSample = 96.0 // px, a line of the legend
	rowHeight = pngEm * 1.4
)

// PNG draws d for a phone, with the number of its entry in the foot unless it is
// 0. The picture is to fit, not 1:1; its pHYs chunk gives the resolution at which
// the blank would be full size. The error is for a drawing that holds nothing or
// a coordinate that is not a number.
func PNG(d Drawing, entry int64) ([]byte, error) {
	p, err := layoutPNG(d)
	if err != nil {
		return nil, err
	}
	if entry != 0 {
		brush{to: &p.Scene, pen: 1}.write(scene.Lettering{Em: pngEm}, entryWords(entry), pngWidth-pngMargin, p.footY, scene.End)
	}
	return p.PNG(p.pxPerMM)
}

// entryWords name an entry of the daybook.
func entryWords(entry int64) string { return fmt.Sprintf("Entry %d", entry) }

// Picture is the picture of d as a scene, in pixels: what PNG draws.
func Picture(d Drawing) (*scene.Scene, error) {
	p, err := layoutPNG(d)
	if err != nil {
		return nil, err
	}
	return &p.Scene, nil
}

// layoutPNG finds the place of everything, from the top down.
func layoutPNG(d Drawing) (*picture, error) {
	d = d.Whole()
	if err := d.check(); err != nil {
		return nil, err
	}
	const wide = pngWidth - 2*pngMargin
	p := &picture{}
	to := brush{to: &p.Scene, pen: 1}
	body := scene.Lettering{Em: pngEm}
	title := scene.Lettering{Em: pngTitleEm, Bold: true}
	y := to.column(title, shorten(title.Balanced(d.Title, wide), 3), pngMargin, -pngMargin)
	var texts []string
	for _, line := range d.Lines {
		texts = append(texts, body.Balanced(line, wide)...)
	}
	y = to.column(body, shorten(texts, pngMostTexts), pngMargin, y-pngEm*0.1)

	tallest := pngTallest
	if len(d.Details) > 0 {
		tallest = pngWithDetails
	}
	column := frame{pngMargin, pngWidth - pngMargin}
	p.drawing, p.pxPerMM, y = p.view(d, column, tallest, y-pngEm*0.4)
	y -= rowHeight
	to.scaleBar(p.pxPerMM, body, pngMargin, y+pngEm*0.35)
	y = p.key(d, p.drawing, y)
	for i := 0; i < len(d.Details); i++ {
		if i+1 < len(d.Details) && d.Details[i].narrow() && d.Details[i+1].narrow() {
			y = p.detail(d.Details[i], d.Details[i+1], column, y)
			i++
			continue
		}
		y = p.detail(d.Details[i], Drawing{}, column, y)
	}
	if d.Foot != "" {
		y = to.column(body, body.Wrap(d.Foot, wide-body.Width(entryWords(99_999_999))-pngEm), pngMargin, y-pngEm*0.3)
		p.footY = y + pngEm*scene.Descent
	}
	p.Box = scene.Rect{X1: pngWidth, Y0: y - pngEm*0.25 - pngMargin}
	return p, nil
}

// together names marks that had no room on the drawing beside one sample.
func together(entries []legendEntry) []legendEntry {
	var list []legendEntry
	for _, e := range entries {
		i := slices.IndexFunc(list, func(o legendEntry) bool { return o.role == e.role && e.role == Mark })
		if i < 0 {
			list = append(list, e)
			continue
		}
		list[i].text += ", " + e.text
	}
	return list
}

// frame is the part of a picture's width that a drawing has, px.
type frame struct{ from, to float64 }

func (f frame) wide() float64 { return f.to - f.from }

// narrow reports whether a detail has nothing beside it, so that two of them fit
// abreast.
func (d Drawing) narrow() bool {
	left, right := d.sideRoom(pngLabelEm, pngWidth)
	return left == 0 && right == 0
}

// detail sets a detail below y, or two abreast where the second is not empty, and
// gives the lower edge.
func (p *picture) detail(d, beside Drawing, column frame, y float64) float64 {
	details, frames := []Drawing{d}, []frame{column}
	if len(beside.Paths) > 0 {
		middle := (column.from + column.to) / 2
		details, frames = append(details, beside), []frame{{column.from, middle - pngMargin/2}, {middle + pngMargin/2, column.to}}
	}
	to := brush{to: &p.Scene, pen: 1}
	body, bold := scene.Lettering{Em: pngEm}, scene.Lettering{Em: pngEm, Bold: true}
	foot := y
	for i, f := range frames {
		at := to.column(bold, bold.Balanced(details[i].Title, f.wide()), f.from, y-pngEm*0.3)
		for _, line := range details[i].Lines {
			at = to.column(body, body.Balanced(line, f.wide()), f.from, at)
		}
		drawn, _, low := p.view(details[i], f, pngDetail, at-pngEm*0.2)
		foot = min(foot, p.key(Drawing{}, drawn, low))
		p.details = append(p.details, drawn)
	}
	return foot
}

// view sets a drawing below y, at most tallest high without its labels, and
// gives its scale in pixels a millimetre and its lower edge.
func (p *picture) view(d Drawing, f frame, tallest, y float64) (*layout, float64, float64) {
	b := Bounds(d)
	left, right := d.sideRoom(pngLabelEm, f.wide())
	above, below := d.heightRoom(pngLabelEm)
	free := max(f.wide()-left-right, f.wide()/4)
	scale := math.Min(free/math.Max(b.W(), 1e-3), tallest/math.Max(b.H(), 1e-3))
	pen := 1.0
	if len(d.Paths) > crowded {
		pen = 0.6
		if scale < smallScale {
			pen = 0.35
		}
	}
	// labels may stand above and below the drawing; what they do not use is cut
	const spare = 5 * pngLabelEm
	window := scene.Rect{X0: f.from - pngMargin, Y0: -spare - below, X1: f.to + pngMargin, Y1: b.H()*scale + spare + above}
	room := window
	room.X0, room.X1 = f.from-pngMargin/2, f.to+pngMargin/2
	across := f.from + left + (f.wide()-left-right-b.W()*scale)/2
	drawn := newLayout(d, fitting{
		toView: scene.View{Scale: scale, DX: across - b.X0*scale, DY: -b.Y0 * scale}, window: window, room: room,
		pen: pen, em: pngLabelEm, tolerance: 0.15, widest: 0.55 * f.wide(), screen: true,
	})
	stage := drawn.used.Grow(6)
	drawn.moved(0, y-stage.Y1)
	drawn.draw(brush{to: &p.Scene, pen: pen}, 0, 0)
	return drawn, scale, y - stage.H()
}

// key names the lines of d below y, and gives what had no room on the drawing.
func (p *picture) key(d Drawing, drawn *layout, y float64) float64 {
	const wide = pngWidth - 2*pngMargin
	to := brush{to: &p.Scene, pen: 1}
	body := scene.Lettering{Em: pngEm}
	entries, texts := keyOf(d, drawn)
	entries = brokenEntries(entries, body, pngSample, wide)
	for _, row := range legendRows(entries, body, pngSample, wide) {
		y -= rowHeight
		to.samples(row, body, pngSample, pngMargin, y+pngEm*0.35)
	}
	for _, text := range texts {
		y = to.column(body, body.Wrap(text, wide), pngMargin, y)
	}
	return y
}

// keyOf are the lines of d that are to be named below it, and what had no room on
// the drawing.
func keyOf(d Drawing, drawn *layout) (entries []legendEntry, texts []string) {
	entries = d.legend()
	for _, l := range drawn.left {
		text := strings.Join(l.lines, " ")
		switch {
		case l.owner >= 0 && l.owner < len(drawn.roles):
			role := drawn.roles[l.owner]
			if i := slices.IndexFunc(entries, func(e legendEntry) bool { return e.role == role && e.text == styleOf(role).name }); i >= 0 {
				entries[i].text = text
				continue
			}
			entries = append(entries, legendEntry{role: role, text: text})
		case l.owner >= 0:
			texts = append(texts, text)
		}
	}
	entries = slices.DeleteFunc(entries, func(e legendEntry) bool {
		return e.text == styleOf(e.role).name && !(e.role == Cut || e.role == Seam) && drawn.letters(e.role)
	})
	entries = together(entries)
	if n := drawn.textsLeft(); n > 0 {
		texts = append(texts, fmt.Sprintf("%d labels have no room here: see the PDF.", n))
	}
	return entries, texts
}

// scaleBar draws a length to judge the picture by, its left end at x and its
// middle at y.
func (b brush) scaleBar(pxPerMM float64, l scene.Lettering, x, y float64) {
	mm := barMM(pxPerMM)
	end := x + mm*pxPerMM
	bold := lineStyle{name: aid.name, lineType: lineType{width: 4}}
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
