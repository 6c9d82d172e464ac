package scene

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

const pointsPerMM = 72 / 25.4

// neverDated is what a PDF tells of its making: the same scenes always give the
// same bytes, and a file has its date on the page if it needs one.
var neverDated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

const pdfFamily = "DejaVuSansCondensed"

// PDF is a file with the scenes as its pages, at 1:1. Letters can be searched
// and copied; their shapes are embedded.
func PDF(pages []*Scene, title, subject string) ([]byte, error) {
	// The default size is no page's, so that each page tells its own.
	to := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 1, Ht: 1}})
	to.SetCatalogSort(true)
	to.SetCreationDate(neverDated)
	to.SetModificationDate(neverDated)
	to.SetProducer("guildhand", false)
	to.SetTitle(Plain(title), true)
	to.SetSubject(Plain(subject), true)
	to.SetAutoPageBreak(false, 0)
	to.SetLineJoinStyle("bevel")
	spell := func(line string) string { return line }
	if allCoded(pages) {
		spell = coded
		r, b := regular.packed(), bold.packed()
		to.AddFontFromBytes(pdfFamily, "", r.definition, r.file)
		to.AddFontFromBytes(pdfFamily, "B", b.definition, b.file)
	} else {
		to.AddUTF8FontFromBytes(pdfFamily, "", regular.cutFor(pages))
		to.AddUTF8FontFromBytes(pdfFamily, "B", bold.cutFor(pages))
	}
	for _, s := range pages {
		to.AddPageFormat("P", fpdf.SizeType{Wd: s.Box.W(), Ht: s.Box.H()})
		s.pdfPage(to, spell)
	}
	var out bytes.Buffer
	if err := to.Output(&out); err != nil {
		return nil, fmt.Errorf("writing the PDF: %w", err)
	}
	return out.Bytes(), nil
}

// everydayBlocks are the letters of nearly all drawings, from the first to the last
// of each block: Latin, punctuation, numbers, arrows, and the pi of a ring's length.
var everydayBlocks = [][2]rune{{' ', 0x17f}, {'π', 'π'}, {0x2010, 0x203a}, {0x2070, 0x2089}, {0x2150, 0x215f}, {0x2190, 0x2193}, {0x2200, 0x2265}, {Missing, Missing}}

var everyday = func() string {
	var all []rune
	for _, block := range everydayBlocks {
		for r := block[0]; r <= block[1]; r++ {
			all = append(all, r)
		}
	}
	return string(all)
}()

func isEveryday(r rune) bool {
	for _, block := range everydayBlocks {
		if r <= block[1] {
			return r >= block[0]
		}
	}
	return false
}

// cutFor is the font for pages, with their letters at least. The library reads
// every letter of a font that it is given, for each file anew; with the
// everyday ones alone a file takes a sixth of the time.
func (f *typeface) cutFor(pages []*Scene) []byte {
	for _, s := range pages {
		for _, it := range s.items {
			if it.text != nil && strings.ContainsFunc(it.text.Line, func(r rune) bool { return !isEveryday(r) }) {
				return f.ttf
			}
		}
	}
	return f.everyday()
}

// operators are those of ISO 32000, each with its numbers before it. They are
// written here because the library's own calls round every coordinate to 0.01
// point.
type operators []byte

func (o *operators) put(operator string, numbers ...float64) {
	for _, v := range numbers {
		*o = append(appendPlaces(*o, v), ' ')
	}
	*o = append(append(*o, operator...), '\n')
}

// appendPlaces writes a number to three places after the point, without zeros at its
// end: a thousandth of a point is 0.0004 mm.
func appendPlaces(to []byte, v float64) []byte {
	n := int64(v*1000 + math.Copysign(0.5, v))
	if n < 0 {
		to, n = append(to, '-'), -n
	}
	to = strconv.AppendInt(to, n/1000, 10)
	if n %= 1000; n == 0 {
		return to
	}
	places := [...]byte{'.', byte('0' + n/100), byte('0' + n/10%10), byte('0' + n%10)}
	end := len(places)
	for places[end-1] == '0' {
		end--
	}
	return append(to, places[:end]...)
}

// turn puts a matrix that turns by an angle, in degrees, and moves to a point. A
// thousandth in its first numbers would be a tenth of a millimetre at the far end of a
// page, so they have six places.
func (o *operators) turn(degrees float64, at Point) {
	if degrees == 0 {
		o.put("cm", 1, 0, 0, 1, at.X, at.Y)
		return
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	for _, v := range []float64{cos, sin, -sin, cos} {
		*o = append(strconv.AppendFloat(*o, v, 'f', 6, 64), ' ')
	}
	o.put("cm", at.X, at.Y)
}

// pdfPage draws the scene on the page that was begun, with its lines as spell
// writes them.
func (s *Scene) pdfPage(to *fpdf.Fpdf, spell func(line string) string) {
	view := View{pointsPerMM, -s.Box.X0 * pointsPerMM, -s.Box.Y0 * pointsPerMM}
	var out operators
	var path Path
	var set Lettering // nothing is written on a page that is begun
	for _, it := range s.items {
		out = out[:0]
		if it.text != nil {
			t, at := *it.text, view.Point(it.text.start())
			if t.Lettering != set {
				set = t.Lettering
				weight := ""
				if t.Bold {
					weight = "B"
				}
				to.SetFont(pdfFamily, weight, t.Em*pointsPerMM)
			}
			out.put("q 0 g")
			out.turn(t.Angle, at)
			to.RawWriteStr(string(out))
			to.Text(0, s.Box.H(), spell(t.Line))
			to.RawWriteStr("Q")
			continue
		}
		path = it.path.mappedInto(path[:0], view.Point)
		ink := float64(it.ink) / math.MaxUint8
		if it.line.Width > 0 {
			out.put("w", it.line.Width*pointsPerMM)
			out.put("G", ink)
			out = append(out, '[')
			for _, d := range it.line.Dashes {
				out.put("", d*pointsPerMM)
			}
			out.put("] 0 d")
			out.path(path)
			out.put("S")
		} else {
			out.put("g", ink)
			out.path(path)
			out.put("f")
		}
		to.RawWriteStr(string(out))
	}
}

func (o *operators) path(p Path) {
	for _, s := range p {
		switch s.Op {
		case MoveTo:
			o.put("m", s.P.X, s.P.Y)
		case LineTo:
			o.put("l", s.P.X, s.P.Y)
		case CubicTo:
			o.put("c", s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.P.X, s.P.Y)
		case ClosePath:
			o.put("h")
		}
	}
}
