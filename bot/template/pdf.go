package template

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/template/scene"
)

// Page is one piece of a printed set: a heading, a drawing at 1:1 and text.
// What does not fit flows on to further pages.
type Page struct {
	Heading string
	// Drawing may be nil.
	Drawing  *Drawing
	Sections []Section
	// ToFill are the beginnings of lines to write on: "rim, measured".
	ToFill []string
}

// Section is text under a heading of its own. Title, paragraphs and bullets
// may each be empty; they are set in this order.
type Section struct {
	Title      string
	Paragraphs []string
	Bullets    []string
	// Numbered sets 1, 2, 3 before the bullets: steps in their order.
	Numbered bool
}

// mostPages is the largest number of pages of one file, and mostTiles the
// largest number of pages that one drawing is spread over.
const (
	mostPages = 400
	mostTiles = 60
)

// PDF draws d at exactly 1:1 on paper, with a bar to check the printer by, on
// one page where it fits either way round, otherwise tiled over several that
// overlap.
func PDF(d Drawing, paper Paper) ([]byte, error) {
	return PDFPages([]Page{{Drawing: &d}}, paper, "")
}

// PDFPages prints pages in their order, each beginning on a new sheet. All
// copies of drawings are at exactly 1:1. The foot is said on every page.
func PDFPages(pages []Page, paper Paper, foot string) ([]byte, error) {
	if len(pages) == 0 {
		return nil, errNothing
	}
	c := &composer{paper: paper}
	for _, p := range pages {
		if err := c.page(p); err != nil {
			return nil, err
		}
		if len(c.sheets) > mostPages {
			return nil, fmt.Errorf("more than %d pages", mostPages)
		}
	}
	scenes := make([]*scene.Scene, len(c.sheets))
	for i, s := range c.sheets {
		label := fmt.Sprintf("page %d of %d", i+1, len(c.sheets))
		if s.place != "" {
			label += ", " + s.place
		}
		s.footer(strings.TrimSpace(foot+" "+label), paper.checkBar())
		scenes[i] = s.to
	}
	title, alt := pages[0].Heading, ""
	if d := pages[0].Drawing; d != nil {
		title, alt = firstOf(title, d.Title), d.Alt
	}
	return scene.PDF(scenes, title, alt)
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// The words at the check bar.
const (
	checkWords = "measure this bar first: it must be "
	bothWords  = "measure both bars first: each must be "
	printWords = "print at 100 %, no fit to page"
)

// footer draws the check bars and the page's label. A level bar is on every page;
// an upright one, by which paper that feeds unevenly is found out, where the
// page is free at its right edge. Bars are made of filled rectangles: their ends
// are edges, and no line's width adds to them.
func (s *sheet) footer(label string, bar checkBar) {
	x, y := printMargin, printMargin+1.5
	right := s.to.Box.X1 - printMargin
	block := func(from, to, low, high float64) {
		s.to.Fill(scene.Rect{X0: x + from, Y0: y + low, X1: x + to, Y1: y + high}.Path(), scene.Black, scene.Tag{})
	}
	// ticks and line of the bar, on its own axes
	bars := [][4]float64{{0, bar.lengthMM, 0, 0.7}}
	for i := 0.0; i < bar.lengthMM-1e-9; i += 2 * bar.blockMM {
		bars = append(bars, [4]float64{i, i + bar.blockMM, 0, 3.2})
	}
	const clear = 3
	low := s.area().Y0 + clear
	words := checkWords
	upright := s.to.Empty(scene.Rect{X0: right - 3.2 - clear, Y0: low - clear, X1: right, Y1: low + bar.lengthMM + clear})
	if upright {
		words = bothWords
	}
	for _, b := range bars {
		block(b[0], b[1], b[2], b[3])
		if upright {
			block(right-x-b[3], right-x-b[2], low-y+b[0], low-y+b[1])
		}
	}
	l := scene.Lettering{Em: 3.1}
	bold := scene.Lettering{Em: 3.1, Bold: true}
	s.write(bold, words+bar.words, x, y+4.6, scene.Start)
	s.write(l, printWords, x+bar.lengthMM+3, y+0.3, scene.Start)
	s.write(l, label, right, y+4.6, scene.End)
	if title := l.Wrap(s.title, right-x-2*bar.lengthMM); s.place != "" && len(title) > 0 {
		s.write(l, shorten(title, 1)[0], right, y+0.3, scene.End)
	}
}

// sheet is one page that is being composed.
type sheet struct {
	brush
	// place is the sheet's place in a tiled drawing, "column B row 1", and
	// title the drawing's.
	place, title string
}

// top, bottom, left and right of what a page may hold besides its footer.
func (s *sheet) area() scene.Rect {
	return scene.Rect{X0: printMargin, Y0: printMargin + footerHeight, X1: s.to.Box.X1 - printMargin, Y1: s.to.Box.Y1 - printMargin}
}

// composer lays text and drawings out on sheets.
type composer struct {
	paper  Paper
	sheets []*sheet
	// y is the level below which the current sheet is free.
	y float64
}

// turn begins a new sheet.
func (c *composer) turn(landscape bool) *sheet {
	s := c.blank(landscape)
	c.sheets = append(c.sheets, s)
	c.y = s.area().Y1
	return s
}

func (c *composer) blank(landscape bool) *sheet {
	w, h := c.paper.sizeMM()
	if landscape {
		w, h = h, w
	}
	return newSheet(w, h)
}

func newSheet(w, h float64) *sheet {
	return &sheet{brush: brush{to: &scene.Scene{Box: scene.Rect{X1: w, Y1: h}}, pen: paperPen}}
}

func (c *composer) now() *sheet { return c.sheets[len(c.sheets)-1] }

// page sets one Page.
func (c *composer) page(p Page) error {
	if p.Drawing != nil && c.bench(p) {
		return nil
	}
	if p.Drawing == nil {
		c.turn(false)
		c.heading(p.Heading)
	} else if err := c.drawing(p.Heading, *p.Drawing); err != nil {
		return err
	}
	for _, s := range p.Sections {
		c.section(s)
	}
	return nil
}

// heading sets a page's headline.
func (c *composer) heading(s string) {
	c.flow(scene.Lettering{Em: paperHeadEm, Bold: true}, s, "", 0)
	if s != "" {
		c.y -= 1
	}
}

// section sets a Section; its title stays with the first lines of its text.
func (c *composer) section(s Section) {
	text := scene.Lettering{Em: paperTextEm}
	if s.Title != "" {
		c.y -= 2
		c.need(4 * paperTextEm * scene.LineHeight)
		c.flow(scene.Lettering{Em: paperTextEm * 1.1, Bold: true}, s.Title, "", 0)
	}
	for _, p := range s.Paragraphs {
		c.flow(text, p, "", 0)
		c.y -= 1.2
	}
	for i, p := range s.Bullets {
		sign := "•"
		if s.Numbered {
			sign = fmt.Sprintf("%d.", i+1)
		}
		c.flow(text, p, sign, 6)
		c.y -= 0.8
	}
}

// need turns the page where less than h is free on it.
func (c *composer) need(h float64) {
	if c.y-h < c.now().area().Y0 {
		c.turn(false)
	}
}

// flow sets a wrapped text, with a sign before its first line, and turns the
// page where it must. Lines are no longer than is good to read.
func (c *composer) flow(l scene.Lettering, s, sign string, indent float64) {
	const longest = 180
	area := c.now().area()
	for i, line := range l.Wrap(s, math.Min(area.W(), longest)-indent) {
		if len(c.sheets) > mostPages {
			return // PDFPages says so
		}
		c.need(l.Em * scene.LineHeight)
		x := area.X0
		if i == 0 {
			c.now().write(l, sign, x, c.y-l.Em*(scene.LineHeight-scene.Descent), scene.Start)
		}
		c.y = c.now().column(l, []string{line}, x+indent, c.y)
	}
}

// shorten cuts lines to at most n, and shows that it did.
func shorten(lines []string, n int) []string {
	if len(lines) <= n {
		return lines
	}
	lines = append([]string(nil), lines[:n]...)
	lines[n-1] = strings.TrimRight(lines[n-1], " .,;") + " …"
	return lines
}
