package scene

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"github.com/klauspost/compress/zlib"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// A PDF may number the letters of a font by one byte or by two. For two the
// library reads, cuts and packs the whole font for each file anew, which is most
// of the time of a file. With one byte it takes a font that was cut and packed
// before. So the letters that nearly all drawings are content with are numbered
// by a byte, and a file with any other has two bytes for each.

const (
	// firstCode is the lowest number that the library gives a letter.
	firstCode = 32
	// extraLetters are those beside the Latin ones. All letters fill the codes from
	// firstCode to 255 at most.
	extraLetters = "–—‘’“”„•…€™‑−′″π√∞≤≥≠≈←↑→↓⅓⅔⅛⅜⅝⅞" + string(Missing)
)

// codedLetters are the letters numbered by a byte; the first has firstCode.
var codedLetters = func() []rune {
	var all []rune
	for r := rune(' '); r <= 'ÿ'; r++ {
		const space, hyphen = 0xa0, 0xad // which no line has: see Plain
		if r <= '~' || r > space && r != hyphen {
			all = append(all, r)
		}
	}
	return append(all, []rune(extraLetters)...)
}()

// codes are the numbers of the coded letters.
var codes = func() map[rune]byte {
	list := make(map[rune]byte, len(codedLetters))
	for i, r := range codedLetters {
		list[r] = byte(firstCode + i)
	}
	return list
}()

// allCoded reports whether a byte is enough for every letter of the pages.
func allCoded(pages []*Scene) bool {
	for _, s := range pages {
		for _, it := range s.items {
			if it.text != nil && strings.ContainsFunc(it.text.Line, func(r rune) bool { return codes[r] == 0 }) {
				return false
			}
		}
	}
	return true
}

// coded is a line of coded letters with a byte for each.
func coded(line string) string {
	out := make([]byte, 0, len(line))
	for _, r := range line {
		out = append(out, codes[r])
	}
	return string(out)
}

// packedFont is a font cut to the coded letters, as the library takes it: its
// definition as JSON and the compressed file.
type packedFont struct{ definition, file []byte }

// packFont cuts a font to the coded letters. It panics where that fails: the
// fonts are part of the program, and any test that writes a PDF finds it out.
func packFont(f *typeface, name string, stem int) packedFont {
	cut := fpdf.UTF8CutFont(f.ttf, string(codedLetters))
	var file bytes.Buffer
	zip, err := zlib.NewWriterLevel(&file, zlib.BestCompression)
	must(err)
	_, err = zip.Write(cut)
	must(err)
	must(zip.Close())

	const perEm = 1000 // a PDF's unit for fonts
	var buf sfnt.Buffer
	metrics, err := f.sfnt.Metrics(&buf, fixed.I(perEm), font.HintingNone)
	must(err)
	bounds, err := f.sfnt.Bounds(&buf, fixed.I(perEm), font.HintingNone)
	must(err)
	widths := make([]int, 256)
	names := make([]string, len(codedLetters))
	for i, r := range codedLetters {
		widths[firstCode+i] = int(f.glyph(r).advance*perEm + 0.5)
		index, err := f.sfnt.GlyphIndex(&buf, r)
		must(err)
		names[i], err = f.sfnt.GlyphName(&buf, index)
		must(err)
	}
	desc := fpdf.FontDescType{
		Ascent: metrics.Ascent.Round(), Descent: -metrics.Descent.Round(), CapHeight: metrics.CapHeight.Round(),
		Flags: fpdf.FontFlagNonsymbolic, StemV: stem,
	}
	box := &desc.FontBBox // y up, where that of the font is down
	box.Xmin, box.Ymin, box.Xmax, box.Ymax = bounds.Min.X.Floor(), -bounds.Max.Y.Ceil(), bounds.Max.X.Ceil(), -bounds.Min.Y.Floor()
	definition, err := json.Marshal(map[string]any{
		"Tp": "TrueType", "Name": name, "Desc": desc, "Cw": widths,
		"Diff": fmt.Sprintf("%d /%s", firstCode, strings.Join(names, " /")),
		"File": name + ".z", "OriginalSize": len(cut),
	})
	must(err)
	return packedFont{definition, slices.Clip(file.Bytes())}
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}
