package template

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/tdewolff/canvas"
)

// Lettering is set in DejaVu Sans Condensed, which is compiled in. Its licence
// (Bitstream Vera Fonts Copyright, DejaVu changes in the public domain) allows
// embedding, in programs and in documents; LICENSE-DejaVu.txt has its words.

// fonts are parsed once. Shaping keeps caches in the font and is not safe for
// concurrent use, so it is done under the lock; measuring and drawing the
// shaped glyphs only read.
var fonts = sync.OnceValues(func() (*fontSet, error) {
	regular, err := canvas.LoadFont(dejavusanscondensed.TTF, 0, canvas.FontRegular)
	if err != nil {
		return nil, fmt.Errorf("the embedded font: %w", err)
	}
	bold, err := canvas.LoadFont(dejavusanscondensedbold.TTF, 0, canvas.FontBold)
	if err != nil {
		return nil, fmt.Errorf("the embedded bold font: %w", err)
	}
	// a ligature is one glyph for two letters, and is lost when a reader
	// searches the PDF for "file" or has it read aloud
	regular.SetFeatures("-liga")
	bold.SetFeatures("-liga")
	return &fontSet{mu: new(sync.Mutex), regular: regular, bold: bold}, nil
})

type fontSet struct {
	mu            *sync.Mutex
	regular, bold *canvas.Font
}

// forPDF gives fonts that share all that is large with f. Making a PDF picks
// the glyphs that it needs, and the library then writes their number into the
// very tables of the font that it was given; so each PDF has these of its own.
func (f *fontSet) forPDF() *fontSet {
	own := func(font *canvas.Font) *canvas.Font {
		c, sfnt := *font, *font.SFNT
		maxp, head, hhea := *sfnt.Maxp, *sfnt.Head, *sfnt.Hhea
		sfnt.Maxp, sfnt.Head, sfnt.Hhea = &maxp, &head, &hhea
		c.SFNT = &sfnt
		return &c
	}
	return &fontSet{mu: f.mu, regular: own(f.regular), bold: own(f.bold)}
}

// Proportions of the font, in ems.
const (
	capHeight  = 0.73
	descent    = 0.24
	lineHeight = 1.22
)

// lettering is a style of text: a size in the renderer's unit, and the weight.
type lettering struct {
	set  *fontSet
	em   float64
	bold bool
}

func (l lettering) font() *canvas.Font {
	if l.bold {
		return l.set.bold
	}
	return l.set.regular
}

// width of one line of text. Kerning is left out: it only makes text narrower.
func (l lettering) width(s string) float64 {
	f := l.font()
	units := 0
	for _, r := range s {
		units += int(f.GlyphAdvance(f.GlyphIndex(r)))
	}
	return float64(units) / float64(f.Head.UnitsPerEm) * l.em
}

// shape makes one line of text ready to be drawn, starting at its anchor, or
// centred on it.
func (l lettering) shape(s string, align canvas.TextAlign) *canvas.Text {
	const mmPerPoint = 25.4 / 72 // the library takes sizes in points
	face := l.font().Face(l.em/mmPerPoint, canvas.Black)
	l.set.mu.Lock()
	defer l.set.mu.Unlock()
	return canvas.NewTextLine(face, s, align)
}

// write letters one line of text at x, y, its base line turned by angle
// degrees counter-clockwise.
func (b brush) write(l lettering, s string, x, y, angle float64, align canvas.TextAlign) {
	if s == "" {
		return
	}
	if p, ok := b.to.(*pixels); ok && angle == 0 && p.write(l, s, x, y, align) {
		return
	}
	m := canvas.Identity.Translate(x, y)
	if angle != 0 {
		m = m.Rotate(angle)
	}
	b.to.RenderText(l.shape(s, align), m)
}

// plain makes what a maker typed fit for lettering: one line, no control or
// direction characters, runs of spaces as one, and a box for what the font
// lacks, so that a missing sign is seen to be missing.
func (f *fontSet) plain(s string) string {
	var b strings.Builder
	space := false
	for _, r := range strings.ToValidUTF8(s, "□") {
		switch {
		case unicode.IsSpace(r) || unicode.IsControl(r):
			space = true
			continue
		case unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Co, r) || unicode.Is(unicode.Variation_Selector, r):
			continue
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		if f.regular.GlyphIndex(r) == 0 || f.bold.GlyphIndex(r) == 0 {
			r = '□'
		}
		b.WriteRune(r)
	}
	return b.String()
}

// wrap breaks s into lines no wider than width. A word that is wider than a
// line is broken where the line ends.
func (l lettering) wrap(s string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(l.set.plain(s)) {
		if try := strings.TrimSpace(line + " " + word); l.width(try) <= width {
			line = try
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if line != "" && l.width(line+string(r)) > width {
				lines = append(lines, line)
				line = ""
			}
			line += string(r)
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
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

// widest of the lines.
func (l lettering) widest(lines []string) float64 {
	w := 0.0
	for _, s := range lines {
		w = math.Max(w, l.width(s))
	}
	return w
}
