package template

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/template/scene"
)

// labelSpace is the height kept free above and below a drawing for labels, mm.
const labelSpace = 6 * paperEm

// drawing sets a drawing with its title, lines and legend, on new sheets.
func (c *composer) drawing(heading string, d Drawing) error {
	if err := d.check(); err != nil {
		return err
	}
	b := Bounds(d)
	fits := func(s *sheet, header float64) bool {
		a := s.area()
		return b.W() <= a.W()-2*inset && b.H() <= a.H()-header-2*inset-2*paperEm
	}
	upright, across := c.blank(false), c.blank(true)
	switch {
	case fits(upright, c.headerHeight(upright, heading, d)):
		c.turn(false)
	case fits(across, c.headerHeight(across, heading, d)):
		c.turn(true)
	case fits(upright, 0), fits(across, 0):
		// the texts have a page of their own
		c.turn(false)
		c.header(heading, d)
		c.turn(!fits(upright, 0))
		c.atFullSize(d, b)
		return nil
	default:
		return c.tiled(heading, d, b)
	}
	c.header(heading, d)
	c.atFullSize(d, b)
	return nil
}

// headerHeight is the height of what header sets on a sheet.
func (c *composer) headerHeight(s *sheet, heading string, d Drawing) float64 {
	const tall = 1e6 // a sheet that never ends
	try := &composer{paper: c.paper, sheets: []*sheet{newSheet(s.to.Box.W(), tall)}, y: tall}
	try.header(heading, d)
	return tall - try.y
}

// header sets heading, title, lines and legend.
func (c *composer) header(heading string, d Drawing) {
	c.heading(firstOf(heading, d.Title))
	if heading != "" && heading != d.Title {
		c.flow(scene.Lettering{Em: paperTextEm, Bold: true}, d.Title, "", 0)
	}
	for _, line := range d.Lines {
		c.flow(scene.Lettering{Em: paperTextEm}, line, "", 0)
	}
	c.flow(scene.Lettering{Em: paperTextEm}, strings.Join(d.Measures(), "; "), "", 0)
	l := scene.Lettering{Em: paperTextEm}
	for _, row := range legendRows(d.legend(), l, paperSample, c.now().area().W()) {
		const height = paperTextEm * 1.6
		c.need(height)
		c.y -= height
		c.now().samples(row, l, paperSample, c.now().area().X0, c.y+height/2)
	}
	c.y -= 2
}

// atFullSize draws d at 1:1 on what is left of the sheet, which is enough.
func (c *composer) atFullSize(d Drawing, b scene.Rect) {
	s := c.now()
	area := s.area()
	free := c.y - area.Y0
	spare := math.Min(labelSpace, (free-b.H())/2-inset)
	left := area.X0 + (area.W()-b.W())/2
	low := c.y - spare - inset - b.H()
	window := scene.Rect{X0: area.X0, Y0: low - spare, X1: area.X1, Y1: low + b.H() + spare}
	drawn := newLayout(d, fitting{
		toView: scene.Moved(left-b.X0, low-b.Y0), window: window, room: window,
		pen: paperPen, em: paperEm, tolerance: 0.005, widest: 45,
	})
	// labels that did not use the space above let the drawing move up
	up := c.y - inset - drawn.used.Y1
	drawn.draw(s.brush, 0, up)
	c.y = drawn.used.Y0 + up - 3
	if n := len(drawn.left); n > 0 {
		c.flow(scene.Lettering{Em: paperEm}, fmt.Sprintf("%d labels have no room at full size.", n), "", 0)
	}
}

// tiling spreads a drawing over a grid of windows that overlap.
type tiling struct {
	landscape  bool
	cols, rows int
	// w and h of a window, mm; x and y of the lower left corner of the grid.
	w, h, x, y float64
}

// overlap of neighbouring tiles, mm: enough to paste, and to see the marks.
const overlap = 10.0

// tiling chooses the orientation with fewer tiles.
func (c *composer) tiling(b scene.Rect) tiling {
	var best tiling
	for _, landscape := range []bool{false, true} {
		a := c.blank(landscape).area()
		t := tiling{landscape: landscape, w: a.W() - 2*inset, h: a.H() - 2*inset}
		t.cols = max(1, int(math.Ceil((b.W()-overlap)/(t.w-overlap))))
		t.rows = max(1, int(math.Ceil((b.H()-overlap)/(t.h-overlap))))
		t.x = (b.X0 + b.X1 - float64(t.cols)*(t.w-overlap) - overlap) / 2
		t.y = (b.Y0 + b.Y1 - float64(t.rows)*(t.h-overlap) - overlap) / 2
		if !landscape || t.cols*t.rows < best.cols*best.rows {
			best = t
		}
	}
	return best
}

// window of a tile in the drawing's mm; row 0 is the topmost.
func (t tiling) window(col, row int) scene.Rect {
	x := t.x + float64(col)*(t.w-overlap)
	y := t.y + float64(t.rows-1-row)*(t.h-overlap)
	return scene.Rect{X0: x, Y0: y, X1: x + t.w, Y1: y + t.h}
}

// joins are the levels, across or up, at which neighbouring tiles meet: the
// middles of the overlaps.
func joins(n int, from, size float64) []float64 {
	var at []float64
	for i := 1; i < n; i++ {
		at = append(at, from+float64(i)*(size-overlap)+overlap/2)
	}
	return at
}

// column is a column's letter: A to Z, AA and so on.
func column(col int) string {
	name := ""
	for n := col + 1; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// tiled sets a drawing that is larger than a page: texts and an overview
// first, then the tiles row by row. Tiles without a line on them are left out.
func (c *composer) tiled(heading string, d Drawing, b scene.Rect) error {
	t := c.tiling(b)
	if t.cols*t.rows > mostTiles {
		return answer.Refuse("", "at full size, %.0f x %.0f mm takes %d pages of %s, and the most is %d: have the SVG plotted instead",
			b.W(), b.H(), t.cols*t.rows, c.paper, mostTiles)
	}
	c.turn(false)
	c.header(heading, d)
	text := scene.Lettering{Em: paperTextEm}
	c.flow(text, fmt.Sprintf("The drawing is %.0f x %.0f mm, larger than a page. Print all pages at 100 %%, measure the bar on each, "+
		"cut along the dotted join lines or lay sheet over sheet, and bring the round marks together.", b.W(), b.H()), "", 0)
	c.overview(d, b, t)

	for row := range t.rows {
		for col := range t.cols {
			window := t.window(col, row)
			page := c.blank(t.landscape)
			area := page.area()
			move := scene.Moved(area.X0+inset-window.X0, area.Y0+inset-window.Y0)
			view := area.Grow(-inset)
			drawn := newLayout(d, fitting{
				toView: move, window: view, room: view, cut: true,
				pen: paperPen, em: paperEm, tolerance: 0.002, widest: 45,
			})
			if !drawn.hasLines() && len(drawn.placed) == 0 {
				continue
			}
			page.place = fmt.Sprintf("column %s row %d", column(col), row+1)
			page.title = firstOf(heading, d.Title)
			marks, lines := t.registration(window, move)
			page.stroke(lines, lineStyle{lineType: lineType{width: 2, dashes: []float64{2, 14}}, ink: scene.Soft})
			page.stroke(marks, aid)
			drawn.draw(page.brush, 0, 0)
			c.sheets = append(c.sheets, page)
		}
	}
	// text after a tiled drawing begins on a sheet of its own
	c.y = 0
	return nil
}

// hasLines tells whether any line is in the layout.
func (s *layout) hasLines() bool {
	for _, p := range s.lines {
		if len(p) > 0 {
			return true
		}
	}
	return false
}

// registration gives the marks and join lines that fall on a tile, on paper.
func (t tiling) registration(window scene.Rect, move scene.View) (marks, lines scene.Path) {
	const radius, arm, edge = 1.5, 3.0, 4.0
	x0, y0 := t.x, t.y
	x1 := t.x + float64(t.cols)*(t.w-overlap) + overlap
	y1 := t.y + float64(t.rows)*(t.h-overlap) + overlap
	xs, ys := joins(t.cols, t.x, t.w), joins(t.rows, t.y, t.h)
	for _, x := range xs {
		lines = append(lines, scene.Polyline(scene.Point{X: x, Y: y0}, scene.Point{X: x, Y: y1})...)
	}
	for _, y := range ys {
		lines = append(lines, scene.Polyline(scene.Point{X: x0, Y: y}, scene.Point{X: x1, Y: y})...)
	}
	mark := func(x, y float64) {
		marks = append(marks, crossThrough(scene.Rect{X0: x, Y0: y, X1: x, Y1: y}.Grow(arm))...)
		marks = append(marks, scene.Circle(scene.Point{X: x, Y: y}, radius).Flatten(0.01)...)
	}
	// where four tiles meet, and where a join reaches the grid's edge
	for _, x := range xs {
		for _, y := range append([]float64{y0 + edge, y1 - edge}, ys...) {
			mark(x, y)
		}
	}
	for _, y := range ys {
		mark(x0+edge, y)
		mark(x1-edge, y)
	}
	return marks.Clip(window).In(move), lines.Clip(window).In(move)
}

// overview draws the whole in small with the grid of pages over it.
func (c *composer) overview(d Drawing, b scene.Rect, t tiling) {
	c.need(60)
	s := c.now()
	area := s.area()
	wide := float64(t.cols)*(t.w-overlap) + overlap
	high := float64(t.rows)*(t.h-overlap) + overlap
	const most = 120.0
	k := math.Min(area.W()/wide, math.Min(most, c.y-area.Y0-12)/high)
	foot := c.y - 4 - k*high
	toPage := scene.View{Scale: k, DX: area.X0 + (area.W()-k*wide)/2 - k*t.x, DY: foot - k*t.y}
	text := scene.Lettering{Em: paperTextEm}
	for _, p := range d.Paths {
		s.stroke(p.Segs.In(toPage), lineStyle{lineType: lineType{width: 4}})
	}
	for row := range t.rows {
		for col := range t.cols {
			frame := t.window(col, row).Path().In(toPage)
			s.stroke(frame, lineStyle{lineType: lineType{width: 2, dashes: []float64{10, 8}}, ink: scene.Soft})
			s.write(text, fmt.Sprintf("%s%d", column(col), row+1), frame[0].P.X+3, frame[0].P.Y+3, scene.Start)
		}
	}
	s.write(text, "overview, not full size", area.X0, foot-5, scene.Start)
	c.y = foot - 8
}
