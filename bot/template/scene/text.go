package scene

import (
	"math"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Lettering is set in DejaVu Sans Condensed, which is compiled in. Its licence
// (Bitstream Vera Fonts Copyright, DejaVu changes in the public domain) allows
// embedding, in programs and in documents; LICENSE-DejaVu.txt has its words.

// Proportions of the font, in ems.
const (
	CapHeight  = 0.73
	Descent    = 0.24
	LineHeight = 1.22
)

// Missing stands for a letter that the font lacks, so that it is seen to be
// missing.
const Missing = '□'

// Anchor is the point of a line of text that At is the place of, on its base line.
type Anchor int

// Anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Lettering is a style of text: a size in the scene's unit, and the weight.
type Lettering struct {
	Em   float64
	Bold bool
}

// Text is one line of lettering.
type Text struct {
	Lettering
	Line   string
	At     Point
	Anchor Anchor
	// Angle turns the base line about At, degrees counter-clockwise.
	Angle float64
}

// start is where the base line begins.
func (t Text) start() Point {
	back := t.Width(t.Line) * float64(t.Anchor) / 2
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	return Point{t.At.X - back*cos, t.At.Y - back*sin}
}

// typeface is one of the compiled-in fonts with what was read of it.
type typeface struct {
	ttf  []byte
	sfnt *sfnt.Font
	// common are the letters that were read of those with low numbers, nearly all
	// that are ever used; others has the rest, rune -> *glyph.
	common [0x2300]atomic.Pointer[glyph]
	others sync.Map
	// everyday is the font cut to the everyday letters.
	everyday func() []byte
	// packed is the font cut to the letters numbered by a byte.
	packed func() packedFont
}

// glyph is a letter's shape, y up, and its advance, in ems.
type glyph struct {
	shape   Path
	advance float64
	missing bool
}

var regular, bold = readFont(dejavusanscondensed.TTF, "GHREGL+DejaVuSansCondensed", 87), readFont(dejavusanscondensedbold.TTF, "GHBOLD+DejaVuSansCondensed-Bold", 166)

// readFont panics on a font that can't be read: the fonts are part of the
// program, and any test of this package finds that out.
func readFont(ttf []byte, name string, stem int) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err)
	}
	cut := func() []byte { return fpdf.UTF8CutFont(ttf, everyday) }
	face := &typeface{ttf: ttf, sfnt: f, everyday: sync.OnceValue(cut)}
	face.packed = sync.OnceValue(func() packedFont { return packFont(face, name, stem) })
	return face
}

func (l Lettering) face() *typeface {
	if l.Bold {
		return bold
	}
	return regular
}

// glyph is a letter, which is read once.
func (f *typeface) glyph(r rune) *glyph {
	if r >= 0 && int(r) < len(f.common) {
		g := f.common[r].Load()
		if g == nil {
			g = f.read(r)
			f.common[r].Store(g)
		}
		return g
	}
	if g, ok := f.others.Load(r); ok {
		return g.(*glyph)
	}
	g := f.read(r)
	f.others.Store(r, g)
	return g
}

// read reads a letter from the font.
func (f *typeface) read(r rune) *glyph {
	var buf sfnt.Buffer
	index, err := f.sfnt.GlyphIndex(&buf, r)
	// PDF numbers letters by 16 bits
	g := &glyph{missing: err != nil || index == 0 || r > math.MaxUint16}
	units := float64(f.sfnt.UnitsPerEm())
	ppem := fixed.I(int(f.sfnt.UnitsPerEm()))
	if advance, err := f.sfnt.GlyphAdvance(&buf, index, ppem, font.HintingNone); err == nil {
		g.advance = float64(advance) / 64 / units
	}
	segments, err := f.sfnt.LoadGlyph(&buf, index, ppem, nil)
	if err != nil {
		segments = nil // drawn as a space
	}
	ems := func(p fixed.Point26_6) Point { return Point{float64(p.X) / 64 / units, -float64(p.Y) / 64 / units} }
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			g.shape = append(g.shape, Seg{Op: MoveTo, P: ems(s.Args[0])})
		case sfnt.SegmentOpLineTo:
			g.shape = append(g.shape, Seg{Op: LineTo, P: ems(s.Args[0])})
		case sfnt.SegmentOpQuadTo: // the same curve as a cubic
			a, b, c := g.shape[len(g.shape)-1].P, ems(s.Args[0]), ems(s.Args[1])
			g.shape = append(g.shape, Seg{Op: CubicTo,
				C1: Point{a.X + 2./3*(b.X-a.X), a.Y + 2./3*(b.Y-a.Y)},
				C2: Point{c.X + 2./3*(b.X-c.X), c.Y + 2./3*(b.Y-c.Y)}, P: c})
		case sfnt.SegmentOpCubeTo:
			g.shape = append(g.shape, Seg{Op: CubicTo, C1: ems(s.Args[0]), C2: ems(s.Args[1]), P: ems(s.Args[2])})
		}
	}
	return g
}

// Width of one line of text. Letters are not kerned, so that all three files
// have the same width.
func (l Lettering) Width(s string) float64 { return l.face().ems(0, s) * l.Em }

// ems is the width of a line with s after what is so many ems wide.
func (f *typeface) ems(before float64, s string) float64 {
	for _, r := range s {
		before += f.glyph(r).advance
	}
	return before
}

// Widest of the lines.
func (l Lettering) Widest(lines []string) float64 {
	w := 0.0
	for _, s := range lines {
		w = math.Max(w, l.Width(s))
	}
	return w
}

// Plain makes what a maker typed fit for lettering: one line, no control or
// direction characters, runs of spaces as one, and Missing for what the font
// lacks.
func Plain(s string) string {
	var b strings.Builder
	space := false
	for _, r := range strings.ToValidUTF8(s, string(Missing)) {
		switch {
		case unicode.IsSpace(r) || unicode.IsControl(r):
			space = true
			continue
		case r > unicode.MaxASCII && unicode.In(r, unicode.Cf, unicode.Co, unicode.Variation_Selector):
			continue
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		if regular.glyph(r).missing || bold.glyph(r).missing {
			r = Missing
		}
		b.WriteRune(r)
	}
	return b.String()
}

// together joins words that are one measure, "8 x 6 mm", so that no line ends
// within it.
func together(words []string) []string {
	var out []string
	joinNext := false
	for _, w := range words {
		last := len(out) - 1
		unit := false
		switch strings.TrimRight(w, ").,;:") {
		case "x", "mm", "in", "ga", "°C", "g", "%":
			unit = last >= 0 && out[last] != "" && unicode.IsDigit(rune(out[last][len(out[last])-1]))
		}
		if last >= 0 && (joinNext || unit) {
			out[last] += " " + w
		} else {
			out = append(out, w)
		}
		joinNext = w == "x" && unit
	}
	return out
}

// Wrap breaks s into lines no wider than width. A word that is wider than a
// line is broken where the line ends.
func (l Lettering) Wrap(s string, width float64) []string { return l.wrap(wordsOf(s), width) }

// wordsOf are the words of s between which a line may end.
func wordsOf(s string) []string { return together(strings.Fields(Plain(s))) }

func (l Lettering) wrap(words []string, width float64) []string {
	var lines []string
	line, ems, f := "", 0.0, l.face()
	for _, word := range words {
		more := word
		if line != "" {
			more = " " + word
		}
		if longer := f.ems(ems, more); longer*l.Em <= width {
			line, ems = line+more, longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line, ems = "", 0
		for _, r := range word {
			if longer := ems + f.glyph(r).advance; line == "" || longer*l.Em <= width {
				line, ems = line+string(r), longer
				continue
			}
			lines = append(lines, line)
			line, ems = string(r), f.glyph(r).advance
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Balanced is Wrap with lines of about the same length, so that no word is left
// alone on the last.
func (l Lettering) Balanced(s string, width float64) []string {
	words := wordsOf(s)
	lines := l.wrap(words, width)
	least := l.Widest(words)
	for w := min(width, l.Width(s)); len(lines) > 1; {
		w *= 0.96
		if w < least {
			break
		}
		narrower := l.wrap(words, w)
		if len(narrower) > len(lines) {
			break
		}
		lines = narrower
	}
	return lines
}
