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
// and copied; those that are used are embedded.
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
	to.AddUTF8FontFromBytes(pdfFamily, "", regular.cutFor(pages))
	to.AddUTF8FontFromBytes(pdfFamily, "B", bold.cutFor(pages))
	for _, s := range pages {
		to.AddPageFormat("P", fpdf.SizeType{Wd: s.Box.W(), Ht: s.Box.H()})
		s.pdfPage(to)
	}
	var out bytes.Buffer
	if err := to.Output(&out); err != nil {
		return nil, fmt.Errorf("writing the PDF: %w", err)
	}
	return out.Bytes(), nil
}

// everyday are the letters of nearly all drawings: Latin, punctuation, numbers
// and arrows.
var everyday = func() string {
	var all []rune
	for _, block := range [][2]rune{{' ', 0x17f}, {0x2010, 0x203a}, {0x2070, 0x2089}, {0x2150, 0x215f}, {0x2190, 0x2193}, {0x2200, 0x2265}, {Missing, Missing}} {
		for r := block[0]; r <= block[1]; r++ {
			all = append(all, r)
		}
	}
	return string(all)
}()

// cutFor is the font for pages, with their letters at least. The library reads
// every letter of a font that it is given, for each file anew; with the
// everyday ones alone a file takes a sixth of the time.
func (f *typeface) cutFor(pages []*Scene) []byte {
	for _, s := range pages {
		for _, it := range s.items {
			if it.text != nil && strings.ContainsFunc(it.text.Line, func(r rune) bool { return !strings.ContainsRune(everyday, r) }) {
				return f.ttf
			}
		}
	}
	return f.everyday()
}

// pdfPage draws with the operators of ISO 32000, from the lower left
// corner: the library's own calls round every coordinate to 0.01 point.
func (s *Scene) pdfPage(to *fpdf.Fpdf) {
	var out []byte
	write := func(operator string, values ...float64) {
		for _, v := range values {
			out = strconv.AppendFloat(out, v, 'f', 4, 64)
			out = append(out, ' ')
		}
		out = append(out, operator...)
		out = append(out, '\n')
	}
	flush := func() {
		to.RawWriteStr(string(out))
		out = out[:0]
	}
	for _, it := range s.items {
		if it.text != nil {
			t, at := *it.text, it.text.start()
			sin, cos := math.Sincos(t.Angle * math.Pi / 180)
			weight := ""
			if t.Bold {
				weight = "B"
			}
			to.SetFont(pdfFamily, weight, t.Em*pointsPerMM)
			write("q")
			write("0 g")
			write("cm", cos, sin, -sin, cos, (at.X-s.Box.X0)*pointsPerMM, (at.Y-s.Box.Y0)*pointsPerMM)
			flush()
			to.Text(0, s.Box.H(), t.Line)
			to.RawWriteStr("Q")
			continue
		}
		if it.line.Width > 0 {
			write("w", it.line.Width*pointsPerMM)
			write("G", float64(it.ink)/math.MaxUint8)
			dashes := make([]float64, len(it.line.Dashes))
			for i, d := range it.line.Dashes {
				dashes[i] = d * pointsPerMM
			}
			out = append(out, '[')
			write("] 0 d", dashes...)
		} else {
			write("g", float64(it.ink)/math.MaxUint8)
		}
		for _, seg := range it.path.In(View{pointsPerMM, -s.Box.X0 * pointsPerMM, -s.Box.Y0 * pointsPerMM}) {
			switch seg.Op {
			case MoveTo:
				write("m", seg.P.X, seg.P.Y)
			case LineTo:
				write("l", seg.P.X, seg.P.Y)
			case CubicTo:
				write("c", seg.C1.X, seg.C1.Y, seg.C2.X, seg.C2.Y, seg.P.X, seg.P.Y)
			case ClosePath:
				write("h")
			}
		}
		if it.line.Width > 0 {
			write("S")
		} else {
			write("f")
		}
		flush()
	}
}
