package template

import (
	"bytes"
	"fmt"
	"math"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
)

// Page is one piece of a printed set: a heading, a drawing at 1:1 and text.
// What does not fit flows on to further pages.
type Page struct {
	Heading string
	// Drawing may be nil.
	Drawing  *Drawing
	Sections []Section
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
	return PDFPages([]Page{{Drawing: &d}}, paper)
}

// PDFPages prints pages in their order, each beginning on a new sheet. All
// drawings are at exactly 1:1.
func PDFPages(pages []Page, paper Paper) ([]byte, error) {
	set, err := fonts()
	if err != nil {
		return nil, err
	}
	if len(pages) == 0 {
		return nil, errNothing
	}
	set = set.forPDF()
	c := &composer{set: set, paper: paper}
	for _, p := range pages {
		if err := c.page(p); err != nil {
			return nil, err
		}
		if len(c.sheets) > mostPages {
			return nil, fmt.Errorf("more than %d pages", mostPages)
		}
	}

	var out bytes.Buffer
	var to *pdf.PDF
	for i, s := range c.sheets {
		if i == 0 {
			to = pdf.New(&out, s.w, s.h, nil)
			title, alt := pages[0].Heading, ""
			if d := pages[0].Drawing; d != nil {
				title, alt = firstOf(title, d.Title), d.Alt
			}
			to.SetInfo(set.plain(title), set.plain(alt), "", "", "guildhand")
		} else {
			to.NewPage(s.w, s.h)
		}
		b := brush{to: to, pen: paperPen}
		for _, draw := range s.draw {
			draw(b)
		}
		label := fmt.Sprintf("page %d of %d", i+1, len(c.sheets))
		if s.place != "" {
			label += ", " + s.place
		}
		b.footer(set, s, label)
	}
	if err := to.Close(); err != nil {
		return nil, fmt.Errorf("writing the PDF: %w", err)
	}
	return out.Bytes(), nil
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// The words at the check bar.
const (
	checkWords = "measure this bar first: it must be 50.0 mm"
	printWords = "print at 100 %, no fit to page"
)

// footer draws the check bar and the page's label. The bar is made of filled
// rectangles: its ends are edges, and no line's width adds to it.
func (b brush) footer(set *fontSet, s *sheet, label string) {
	x, y := printMargin, printMargin+1.5
	block := func(from, to, low, high float64) {
		b.fill(canvas.Rectangle(to-from, high-low).Translate(x+from, y+low), black)
	}
	block(0, checkBarMM, 0, 0.7)
	for i := 0.0; i < checkBarMM; i += 20 {
		block(i, i+10, 0, 3.2)
	}
	l := lettering{set: set, em: 3.1}
	bold := lettering{set: set, em: 3.1, bold: true}
	b.write(bold, checkWords, x, y+4.6, 0, canvas.Left)
	b.write(l, printWords, x+checkBarMM+3, y+0.3, 0, canvas.Left)
	b.write(l, label, s.w-printMargin, y+4.6, 0, canvas.Right)
	if title := l.wrap(s.title, s.w-2*printMargin-2*checkBarMM); s.place != "" && len(title) > 0 {
		b.write(l, shorten(title, 1)[0], s.w-printMargin, y+0.3, 0, canvas.Right)
	}
}

// sheet is one page that is being composed.
type sheet struct {
	w, h float64
	draw []func(brush)
	// place is the sheet's place in a tiled drawing, "column B row 1", and
	// title the drawing's.
	place, title string
}

// top, bottom, left and right of what a page may hold besides its footer.
func (s *sheet) area() canvas.Rect {
	return canvas.Rect{X0: printMargin, Y0: printMargin + footerHeight, X1: s.w - printMargin, Y1: s.h - printMargin}
}

// composer lays text and drawings out on sheets.
type composer struct {
	set    *fontSet
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
	return &sheet{w: w, h: h}
}

func (c *composer) now() *sheet { return c.sheets[len(c.sheets)-1] }

// page sets one Page.
func (c *composer) page(p Page) error {
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
	c.flow(lettering{set: c.set, em: paperHeadEm, bold: true}, s, "", 0)
	if s != "" {
		c.y -= 1
	}
}

// section sets a Section; its title stays with the first lines of its text.
func (c *composer) section(s Section) {
	text := lettering{set: c.set, em: paperTextEm}
	if s.Title != "" {
		c.y -= 2
		c.need(4 * paperTextEm * lineHeight)
		c.flow(lettering{set: c.set, em: paperTextEm * 1.1, bold: true}, s.Title, "", 0)
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
func (c *composer) flow(l lettering, s, sign string, indent float64) {
	const longest = 180
	area := c.now().area()
	for i, line := range l.wrap(s, math.Min(area.W(), longest)-indent) {
		if len(c.sheets) > mostPages {
			return // PDFPages says so
		}
		c.need(l.em * lineHeight)
		c.y -= l.em * lineHeight
		x, y := area.X0, c.y+l.em*descent
		first := i == 0
		c.now().draw = append(c.now().draw, func(b brush) {
			if first {
				b.write(l, sign, x, y, 0, canvas.Left)
			}
			b.write(l, line, x+indent, y, 0, canvas.Left)
		})
	}
}
