package template

import (
	"fmt"
	"strings"

	"guildhand/bot/template/scene"
)

// The bench sheet: copies of the blank at 1:1, then two columns, the drawings on
// the left and the words on the right. Nothing stands on a copy but its lines,
// so that nothing on glued paper is taken for one.
const (
	benchEm     = 2.7
	benchRow    = benchEm * scene.LineHeight
	benchGap    = 5.0  // between the columns
	benchLeft   = 0.56 // of the width, for the drawings
	barZone     = 10.0 // kept free on the right for the upright check bar
	copyGap     = 6.0
	captionHigh = 4.5
	// leastCopyWide is the least room across for a copy, whose caption stands below it.
	leastCopyWide = 18.0
	mostCopies    = 6
	mostLarger    = 5.0 // the dimensioned view over 1:1
	cornerMM      = 0.1
	// widestDetail keeps a ring from filling the column.
	widestDetail = 62.0
)

// bench sets a page with a drawing and text as a bench sheet. It reports false,
// and sets nothing, where the drawing is too large for one.
func (c *composer) bench(p Page) bool {
	d := p.Drawing.Whole()
	if len(p.Sections) == 0 || len(d.Paths) > crowded || d.check() != nil {
		return false
	}
	b := Bounds(d)
	area := c.blank(false).area()
	if b.W() > area.W()-2*inset || b.H() > 0.4*area.H() {
		return false
	}
	c.turn(false)
	c.heading(firstOf(p.Heading, d.Title))
	c.flow(scene.Lettering{Em: paperTextEm}, strings.Join(d.Lines, "; "), "", 0)
	c.y -= 1.5
	c.copies(d, b, area)
	s := c.now()
	top := c.y - 2
	left := area
	left.X1 = left.X0 + benchLeft*area.W()
	left.Y1 = top
	fill := left
	fill.Y1 = fill.Y0 + fillHigh(p.ToFill)
	left.Y0 = fill.Y1
	s.drawings(d, left)
	s.toFill(p.ToFill, fill)
	right := scene.Rect{X0: left.X1 + benchGap, X1: area.X1 - barZone, Y0: area.Y0, Y1: top}
	rest := s.words(rowsOf(p.Sections, right.W()), right)
	for len(rest) > 0 && len(c.sheets) <= mostPages {
		s = c.turn(false)
		c.heading(firstOf(p.Heading, d.Title) + ", continued")
		for _, x := range []float64{area.X0, area.X0 + right.W() + benchGap} {
			rest = s.words(rest, scene.Rect{X0: x, X1: x + right.W(), Y0: area.Y0, Y1: c.y})
		}
	}
	c.y = c.now().area().Y0
	return true
}

// copies sets the blank at 1:1, as often as there is room at the top of the page.
func (c *composer) copies(d Drawing, b scene.Rect, area scene.Rect) {
	bare := Drawing{Name: d.Name, Paths: make([]Path, len(d.Paths))}
	for i, p := range d.Paths {
		p.Label, p.Measure = "", ""
		bare.Paths[i] = p
	}
	s := c.now()
	l := scene.Lettering{Em: benchEm}
	wide := max(b.W()+copyGap, leastCopyWide)
	first, spare := l.Wrap("1:1, try in copper", wide-copyGap/2), l.Wrap("1:1, spare", wide-copyGap/2)
	high := b.H() + captionHigh + float64(max(len(first), len(spare))-1)*benchRow + 2*inset
	cols := min(mostCopies, max(1, int((area.W()+copyGap-2*inset)/wide)))
	rows := min(max(1, int(0.3*area.H()/high)), (mostCopies+cols-1)/cols)
	window := b.Grow(2)
	drawn := newLayout(bare, fitting{
		toView: scene.Moved(0, 0), window: window, room: window,
		pen: paperPen, em: paperEm, tolerance: 0.005, widest: 45,
	})
	for i := range min(mostCopies, rows*cols) {
		x := area.X0 + inset + float64(i%cols)*wide
		low := c.y - inset - b.H() - float64(i/cols)*high
		drawn.draw(s.brush, x-b.X0, low-b.Y0)
		caption := first
		if i > 0 {
			caption = spare
		}
		s.column(l, caption, x, low-inset)
	}
	c.y -= float64(rows) * high
}

// drawings sets the dimensioned view enlarged, then the details, one below the
// other where that leaves each enough height, or two abreast.
func (s *sheet) drawings(d Drawing, box scene.Rect) {
	text, bold := scene.Lettering{Em: benchEm}, scene.Lettering{Em: benchEm, Bold: true}
	drawn, scale, y := s.view(d, scene.Rect{X0: box.X0, X1: box.X1, Y0: box.Y1 - 0.45*box.H(), Y1: box.Y1}, mostLarger)
	y = s.column(text, []string{fmt.Sprintf("drawn %.2g : 1, not to cut from", scale)}, box.X0, y)
	entries, texts := keyOf(d, drawn)
	for _, row := range legendRows(brokenEntries(entries, text, paperSample, box.W()), text, paperSample, box.W()) {
		y -= benchRow * 1.1
		s.samples(row, text, paperSample, box.X0, y+benchRow/2)
	}
	for _, t := range texts {
		y = s.column(text, text.Wrap(t, box.W()), box.X0, y)
	}
	y -= 2
	const enough = 45
	abreast, wide := 1, box.W()
	if len(d.Details) > 1 && (y-box.Y0)/float64(len(d.Details)) < enough {
		abreast, wide = 2, (box.W()-benchGap)/2
	}
	for i := 0; i < len(d.Details); i += abreast {
		high := (y - box.Y0) / float64((len(d.Details)-i+abreast-1)/abreast)
		foot := y
		for k, detail := range d.Details[i:min(i+abreast, len(d.Details))] {
			x := box.X0 + float64(k)*(wide+benchGap)
			at := s.column(bold, bold.Wrap(detail.Title, wide), x, y)
			for _, line := range detail.Lines {
				at = s.column(text, text.Wrap(line, wide), x, at)
			}
			most := min(2*mostLarger, widestDetail/max(Bounds(detail).W(), cornerMM))
			_, _, at = s.view(detail, scene.Rect{X0: x, X1: x + wide, Y0: y - high, Y1: at - 1}, most)
			foot = min(foot, at)
		}
		y = foot - 2
	}
}

// view draws d with its dimensions into the upper part of a box, at the largest
// scale up to most, and gives the scale and the lower edge.
func (s *sheet) view(d Drawing, box scene.Rect, most float64) (*layout, float64, float64) {
	b := Bounds(d)
	left, right := d.sideRoom(benchEm, box.W())
	above, below := d.heightRoom(benchEm)
	const labels = 2.5 * benchEm // above and below
	scale := min(most, max(box.W()-left-right, box.W()/4)/max(b.W(), cornerMM),
		max(box.H()-above-below-2*labels, box.H()/4)/max(b.H(), cornerMM))
	across := box.X0 + left + (box.W()-left-right-b.W()*scale)/2
	spare := scene.Rect{X0: box.X0, X1: box.X1, Y0: -below - 2*labels, Y1: b.H()*scale + above + 2*labels}
	drawn := newLayout(d, fitting{
		toView: scene.View{Scale: scale, DX: across - b.X0*scale, DY: -b.Y0 * scale}, window: spare, room: spare,
		pen: paperPen, em: benchEm, tolerance: 0.01, widest: 0.55 * box.W(), screen: true,
	})
	drawn.moved(0, box.Y1-drawn.used.Y1)
	drawn.draw(s.brush, 0, 0)
	return drawn, scale, drawn.used.Y0 - 1.5
}

const fillRow = 7.5 // of a line to write on

func fillHigh(lines []string) float64 {
	if len(lines) == 0 {
		return 0
	}
	return float64(len(lines))*fillRow + 2*benchRow
}

// toFill sets lines to write on.
func (s *sheet) toFill(lines []string, box scene.Rect) {
	if len(lines) == 0 {
		return
	}
	y := s.column(scene.Lettering{Em: benchEm, Bold: true}, []string{"Note your trial here"}, box.X0, box.Y1-benchRow)
	l := scene.Lettering{Em: benchEm}
	for _, line := range lines {
		y -= fillRow
		s.write(l, line, box.X0, y+1.2, scene.Start)
		x := box.X0 + l.Width(line) + 2
		s.stroke(scene.Polyline(scene.Point{X: x, Y: y + 0.8}, scene.Point{X: box.X1, Y: y + 0.8}), aid)
	}
}

// textRow is one line of a column.
type textRow struct {
	scene.Lettering
	text, sign string
	before     float64
	// heads stays with what comes after it.
	heads bool
	// follow is how many rows after this one belong to the same step: a step is
	// not read on another page half-way.
	follow int
}

// rowsOf breaks sections to a width.
func rowsOf(sections []Section, wide float64) []textRow {
	const indent = 5.0
	text, bold := scene.Lettering{Em: benchEm}, scene.Lettering{Em: benchEm * 1.1, Bold: true}
	var rows []textRow
	add := func(l scene.Lettering, s, sign string, wide, before float64) {
		lines := l.Wrap(s, wide)
		for i, line := range lines {
			r := textRow{Lettering: l, text: line, heads: l.Bold}
			if i == 0 {
				r.sign, r.before, r.follow = sign, before, len(lines)-1
			} else if sign != "" {
				r.sign = " "
			}
			rows = append(rows, r)
		}
	}
	for _, s := range sections {
		if s.Title != "" {
			add(bold, s.Title, "", wide, 2)
		}
		for _, p := range s.Paragraphs {
			add(text, p, "", wide, 0.4)
		}
		for i, p := range s.Bullets {
			sign := "•"
			if s.Numbered {
				sign = fmt.Sprintf("%d.", i+1)
			}
			add(text, p, sign, wide-indent, 0.4)
		}
	}
	return rows
}

// highOf is how high the first row stands with all that must follow it on the
// same page: the rest of its step, and after a title the first step.
func highOf(rows []textRow) float64 {
	high := 0.0
	for i, left := 0, 1; i < len(rows) && left > 0; i++ {
		r := rows[i]
		high += r.before + r.Em*scene.LineHeight
		left = max(left-1, r.follow)
		if r.heads {
			left++
		}
	}
	return high
}

// words sets as many rows as a box holds, and gives the rest.
func (s *sheet) words(rows []textRow, box scene.Rect) []textRow {
	const indent = 5.0
	y := box.Y1
	for i, r := range rows {
		need := r.before + r.Em*scene.LineHeight
		if whole := highOf(rows[i:]); whole <= box.H() {
			need = whole
		}
		if y-need < box.Y0 {
			return rows[i:]
		}
		if i > 0 {
			y -= r.before
		}
		x := box.X0
		if r.sign != "" {
			s.write(scene.Lettering{Em: r.Em}, strings.TrimSpace(r.sign), x, y-r.Em*(scene.LineHeight-scene.Descent), scene.Start)
			x += indent
		}
		y = s.column(r.Lettering, []string{r.text}, x, y)
	}
	return nil
}
