package template

import (
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
)

// tool finds one of the poppler programs, which read PDF independently of the
// library that writes it.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed (poppler-utils): the PDF is not read back", name)
	}
	return path
}

// saved writes a PDF to a file for the tools.
func saved(t *testing.T, data []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "x.pdf")
	require.NoError(t, os.WriteFile(file, data, 0o644))
	return file
}

// rendered gives one page of a PDF, or the part named by options, as greys at
// dots per inch.
func rendered(t *testing.T, file string, page, dpi int, options ...string) *image.Gray {
	t.Helper()
	n := strconv.Itoa(page)
	args := append([]string{"-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n}, options...)
	var faults strings.Builder
	program := exec.Command(tool(t, "pdftoppm"), append(args, file)...)
	program.Stderr = &faults
	out, err := program.Output()
	require.NoError(t, err, "pdftoppm")
	require.Empty(t, faults.String(), "what pdftoppm finds wrong")
	var w, h, top int
	head := regexp.MustCompile(`^P5\s+(\d+)\s+(\d+)\s+(\d+)\s`).FindSubmatch(out)
	require.NotNil(t, head, "pdftoppm gave no picture of page %d", page)
	w, _ = strconv.Atoi(string(head[1]))
	h, _ = strconv.Atoi(string(head[2]))
	top, _ = strconv.Atoi(string(head[3]))
	pix := out[len(head[0]):]
	require.Equal(t, 255, top)
	require.Len(t, pix, w*h, "page %d", page)
	return &image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// pageCount and sizes in points by pdfinfo.
func pageSizes(t *testing.T, file string) (sizes [][2]float64) {
	t.Helper()
	out, err := exec.Command(tool(t, "pdfinfo"), "-f", "1", "-l", "9999", "-box", file).Output()
	require.NoError(t, err, "pdfinfo")
	for _, m := range regexp.MustCompile(`(?m)^Page +\d+ MediaBox: +(\S+) +(\S+) +(\S+) +(\S+)`).FindAllSubmatch(out, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
		}
		sizes = append(sizes, [2]float64{v[2] - v[0], v[3] - v[1]})
	}
	require.NotEmpty(t, sizes, "pdfinfo tells of no page")
	return sizes
}

func printed(t *testing.T, d Drawing, paper Paper) []byte {
	t.Helper()
	data, err := PDF(d, paper)
	require.NoError(t, err)
	return data
}

// pageBoxes are the sizes that the pages of a PDF tell, points.
func pageBoxes(data []byte) [][][]byte {
	return regexp.MustCompile(`/Type /Page\n/Parent 1 0 R\n/MediaBox \[0 0 (\S+) (\S+)\]`).FindAllSubmatch(data, -1)
}

// The page box is the paper's, to the hundredth of a point in which it is
// written: ISO 216 A4 is 210 x 297 mm, US Letter 8.5 x 11 in, a point 1/72 in.
func TestPDFPageBox(t *testing.T) {
	want := map[Paper][2]float64{A4: {595.276, 841.890}, Letter: {612, 792}}
	for paper, size := range want {
		for _, d := range samples() {
			data := printed(t, d, paper)
			boxes := pageBoxes(data)
			require.NotEmpty(t, boxes, d.Name)
			for _, b := range boxes {
				w, _ := strconv.ParseFloat(string(b[1]), 64)
				h, _ := strconv.ParseFloat(string(b[2]), 64)
				if w > h { // across
					w, h = h, w
				}
				assert.InDelta(t, size[0], w, 0.005, "%s on %s", d.Name, paper)
				assert.InDelta(t, size[1], h, 0.005, "%s on %s", d.Name, paper)
			}
		}
	}
}

// The same by another program's reading.
func TestPDFPageBoxRead(t *testing.T) {
	file := saved(t, printed(t, big(), A4))
	for i, s := range pageSizes(t, file) {
		w, h := min(s[0], s[1]), max(s[0], s[1])
		assert.InDelta(t, 595.276, w, 0.01, "page %d", i+1)
		assert.InDelta(t, 841.890, h, 0.01, "page %d", i+1)
	}
}

// foot renders the lowest 30 mm of a page that is size points large.
func foot(t *testing.T, file string, page, dpi int, size [2]float64) *image.Gray {
	t.Helper()
	high, wide := size[1]/72*float64(dpi), size[0]/72*float64(dpi)
	strip := 30 / 25.4 * float64(dpi)
	return rendered(t, file, page, dpi, "-x", "0", "-y", strconv.Itoa(int(high-strip)),
		"-W", strconv.Itoa(int(wide)), "-H", strconv.Itoa(int(strip)))
}

// barLength measures the longest dark run of a picture, mm.
func barLength(g *image.Gray, dpi float64) float64 {
	best := 0
	for y := range g.Rect.Dy() {
		run := 0
		for x := range g.Rect.Dx() {
			if g.GrayAt(x, y).Y < 128 {
				run++
				best = max(best, run)
			} else {
				run = 0
			}
		}
	}
	return float64(best) / dpi * 25.4
}

// rightEdge renders the rightmost 16 mm of a page above its foot, turned so that
// what is upright lies level.
func rightEdge(t *testing.T, file string, page, dpi int, size [2]float64) *image.Gray {
	t.Helper()
	px := func(points float64) int { return int(points / 72 * float64(dpi)) }
	strip := px(16 / 25.4 * 72)
	g := rendered(t, file, page, dpi, "-x", strconv.Itoa(px(size[0])-strip), "-y", strconv.Itoa(px(size[1]/2)),
		"-W", strconv.Itoa(strip), "-H", strconv.Itoa(px(size[1]/2-22/25.4*72)))
	turned := image.NewGray(image.Rect(0, 0, g.Rect.Dy(), g.Rect.Dx()))
	for y := range g.Rect.Dy() {
		for x := range g.Rect.Dx() {
			turned.SetGray(y, x, g.GrayAt(x, y))
		}
	}
	return turned
}

// The check bar is 50 mm, on Letter 2 in, between its ends when the page is
// rendered at 600 dpi and measured, within a pixel, on every page; so is the
// upright one of a page that has room for it.
func TestPDFCheckBar(t *testing.T) {
	const dpi = 600
	pixel := 25.4 / dpi
	for _, c := range []struct {
		d     Drawing
		paper Paper
	}{{collet8(), A4}, {collet8(), Letter}, {stockSheet(60), Letter}, {big(), A4}} {
		file := saved(t, printed(t, c.d, c.paper))
		for page, size := range pageSizes(t, file) {
			want := map[Paper]float64{A4: 50, Letter: 50.8}[c.paper]
			g := foot(t, file, page+1, dpi, size)
			assert.InDelta(t, want, barLength(g, dpi), pixel, "%s on %s, page %d", c.d.Name, c.paper, page+1)
			if c.d.Name != collet8().Name {
				continue // too full for an upright bar
			}
			side := rightEdge(t, file, page+1, dpi, size)
			assert.InDelta(t, want, barLength(side, dpi), pixel, "%s on %s, page %d, upright", c.d.Name, c.paper, page+1)
		}
	}
	// a printer that fits to the page, here by 1 %, must be found out
	file := saved(t, printed(t, collet8(), A4))
	g := foot(t, file, 1, dpi*99/100, pageSizes(t, file)[0])
	assert.Greater(t, math.Abs(barLength(g, dpi)-50), pixel, "the check can fail")
}

// The blank itself is 1:1: a rectangle of 100 x 40 mm measures so between the
// middles of its lines.
func TestPDFFullSize(t *testing.T) {
	const dpi = 600
	d := Drawing{Paths: []Path{Rect("r", Mark, "", [2]float64{5, 5}, [2]float64{105, 45})}}
	g := rendered(t, saved(t, printed(t, d, A4)), 1, dpi)
	wide, high := 0, 0
	row := make([]int, g.Rect.Dy())
	for y := range g.Rect.Dy() - 30*dpi*10/254 {
		first, last := -1, -1
		for x := range g.Rect.Dx() {
			if g.GrayAt(x, y).Y < 128 {
				if first < 0 {
					first = x
				}
				last = x
			}
		}
		if first >= 0 && last-first > 90*dpi*10/254 {
			row[y] = last - first + 1
			wide = max(wide, row[y])
		}
	}
	first, last := -1, 0
	for y, n := range row {
		if n > 0 {
			if first < 0 {
				first = y
			}
			last = y
		}
	}
	high = last - first + 1
	line := styles[Mark].width * paperPen
	w, h := float64(wide)/dpi*25.4-line, float64(high)/dpi*25.4-line
	assert.InDelta(t, 100, w, 0.06, "mm")
	assert.InDelta(t, 40, h, 0.06, "mm")
}

// inkMargin is the least distance of ink from the edge of a page, mm.
func inkMargin(g *image.Gray, dpi float64) float64 {
	r := ink(g)
	m := min(r.Min.X, r.Min.Y, g.Rect.Max.X-r.Max.X, g.Rect.Max.Y-r.Max.Y)
	return float64(m) / dpi * 25.4
}

// Nothing is printed within 10 mm of the paper's edge, where printers do not
// reach.
func TestPDFMargins(t *testing.T) {
	const dpi = 100
	for _, d := range append(samples(), wide(190), wide(277)) {
		for _, paper := range []Paper{A4, Letter} {
			file := saved(t, printed(t, d, paper))
			for page := range pageSizes(t, file) {
				m := inkMargin(rendered(t, file, page+1, dpi), dpi)
				assert.GreaterOrEqual(t, m, 10-0.3, "%s on %s, page %d: mm", d.Name, paper, page+1)
			}
		}
	}
	// an A4 page cut at 5 mm less all round would be seen
	g := rendered(t, saved(t, printed(t, collet8(), A4)), 1, dpi)
	cut := g.SubImage(g.Rect.Inset(20)).(*image.Gray)
	moved := image.NewGray(image.Rect(0, 0, cut.Rect.Dx(), cut.Rect.Dy()))
	for y := range cut.Rect.Dy() {
		for x := range cut.Rect.Dx() {
			moved.Set(x, y, cut.At(x+20, y+20))
		}
	}
	assert.Less(t, inkMargin(moved, dpi), 10-0.3, "ink in the margin is seen")
}

// wide is a low strip of the length given, mm.
func wide(mm float64) Drawing {
	return Drawing{Name: fmt.Sprintf("strip-%g", mm), Title: "Strip", Paths: []Path{
		Rect("rim", Cut, "strip", [2]float64{0, 0}, [2]float64{mm, 8})}}
}

// The orientation that needs no tiling is chosen.
func TestPDFOrientation(t *testing.T) {
	for _, c := range []struct {
		w, h    float64
		paper   Paper
		pages   int
		upright bool
	}{
		{50, 20, A4, 1, true},
		{188, 20, A4, 1, true},
		{190, 20, A4, 1, false}, // no room for the lines' width upright
		{270, 100, A4, 1, false},
		{180, 250, A4, 2, true}, // texts on a page of their own
		{275, 165, A4, 2, true},
		{262, 100, Letter, 2, true}, // wider than Letter: tiled
		{258, 100, Letter, 1, false},
	} {
		d := Drawing{Title: "t", Lines: []string{"a", "b"}, Paths: []Path{Rect("r", Cut, "", [2]float64{0, 0}, [2]float64{c.w, c.h})}}
		data := printed(t, d, c.paper)
		boxes := pageBoxes(data)
		w, _ := strconv.ParseFloat(string(boxes[0][1]), 64)
		h, _ := strconv.ParseFloat(string(boxes[0][2]), 64)
		tiled := len(boxes) > c.pages
		if c.w == 262 {
			assert.True(t, tiled, "%g x %g on %s fits no page but is not tiled", c.w, c.h, c.paper)
			continue
		}
		assert.Len(t, boxes, c.pages, "%g x %g on %s", c.w, c.h, c.paper)
		assert.Equal(t, c.upright, w < h, "%g x %g on %s: the first page is %g x %g pt", c.w, c.h, c.paper, w, h)
	}
}

// Tiles cover the drawing: put side by side by their windows, the printed pages
// show ink at every point of every solid line, and each point in the overlap is
// on both pages.
func TestPDFTiles(t *testing.T) {
	const dpi = 150
	for _, d := range []Drawing{big(), wideAndHigh()} {
		b := Bounds(d)
		til := (&composer{paper: A4}).tiling(b)
		require.GreaterOrEqual(t, til.cols*til.rows, 2, "%s is not tiled", d.Name)
		file := saved(t, printed(t, d, A4))
		pages := tilePages(t, file)
		found := map[string]*image.Gray{}
		for name, page := range pages {
			found[name] = rendered(t, file, page, dpi)
		}
		assert.Zero(t, uncovered(d, til, found, dpi), "%s: points of the lines that are on no page", d.Name)
		for name := range found { // without any one page, something is missing
			less := map[string]*image.Gray{}
			for n, g := range found {
				if n != name {
					less[n] = g
				}
			}
			assert.NotEqual(t, 0, uncovered(d, til, less, dpi), "%s: page %s could be left out unseen", d.Name, name)
		}
		assert.InDelta(t, overlap, til.window(0, 0).X1-til.window(1, 0).X0, 1e-9, "%s: neighbours overlap", d.Name)
	}
}

// wideAndHigh takes two columns and two rows at least.
func wideAndHigh() Drawing {
	return Drawing{Name: "panel", Title: "Panel", Paths: []Path{
		Rect("rim", Cut, "rim", [2]float64{0, 0}, [2]float64{330, 420}),
		Circle("hole", Cut, "hole", [2]float64{165, 210}, 120)}}
}

// tilePages finds the pages by their labels, "B1" to a page number.
func tilePages(t *testing.T, file string) map[string]int {
	t.Helper()
	pages := map[string]int{}
	n := len(pageSizes(t, file))
	for page := 1; page <= n; page++ {
		text := pageText(t, file, page)
		want := fmt.Sprintf("page %d of %d", page, n)
		assert.Contains(t, text, want, "page %d", page)
		if m := regexp.MustCompile(`column ([A-Z]+) row (\d+)`).FindStringSubmatch(text); m != nil {
			pages[m[1]+m[2]] = page
		}
	}
	require.GreaterOrEqual(t, len(pages), 2, "%d tiles have a label", len(pages))
	return pages
}

func pageText(t *testing.T, file string, page int) string {
	t.Helper()
	n := strconv.Itoa(page)
	out, err := exec.Command(tool(t, "pdftotext"), "-f", n, "-l", n, "-layout", file, "-").Output()
	require.NoError(t, err, "pdftotext")
	return string(out)
}

// uncovered counts points of d's cut lines, each millimetre, at which no page
// that should show them has ink, or whose page is missing.
func uncovered(d Drawing, til tiling, pages map[string]*image.Gray, dpi float64) int {
	missing := 0
	for _, p := range d.Paths {
		if p.Role != Cut {
			continue
		}
		line := p.Segs.Flatten(0.01)
		for _, at := range pointsAlong(line, int(line.Length())) {
			on, shown := 0, 0
			for row := range til.rows {
				for col := range til.cols {
					w := til.window(col, row)
					if at.x < w.X0 || at.x > w.X1 || at.y < w.Y0 || at.y > w.Y1 {
						continue
					}
					on++
					g := pages[fmt.Sprintf("%c%d", 'A'+col, row+1)]
					if g == nil {
						continue
					}
					x := (printMargin + inset + at.x - w.X0) / 25.4 * dpi
					y := float64(g.Rect.Dy()) - (printMargin+footerHeight+inset+at.y-w.Y0)/25.4*dpi
					if darkNear(g, int(x), int(y)) {
						shown++
					}
				}
			}
			if on == 0 || shown < on {
				missing++
			}
		}
	}
	return missing
}

// darkNear tells whether there is ink within a pixel.
func darkNear(g *image.Gray, x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if (image.Point{X: x + dx, Y: y + dy}).In(g.Rect) && g.GrayAt(x+dx, y+dy).Y < 160 {
				return true
			}
		}
	}
	return false
}

// Every page says what to measure and how to print.
func TestPDFWords(t *testing.T) {
	for _, d := range []Drawing{collet8(), big()} {
		file := saved(t, printed(t, d, Letter))
		for page := range pageSizes(t, file) {
			text := pageText(t, file, page+1)
			for _, want := range []string{"first: ", "must be 2.00 in (50.8 mm)", "print at 100 %, no fit to page"} {
				assert.Contains(t, text, want, "%s, page %d", d.Name, page+1)
			}
		}
		first := pageText(t, file, 1)
		for _, want := range append([]string{d.Title, "cut", "seam", "girdle", "bearing"}, d.Lines...) {
			assert.Contains(t, first, want, d.Name)
		}
	}
}

// A handout keeps every word, also where a piece takes more than a page, and
// each piece begins on a page of its own.
func TestPDFPagesHandout(t *testing.T) {
	emeraldBlank, round := emerald(), collet8()
	var words []string
	long := func(tag string, n int) string {
		var out []string
		for i := range n {
			out = append(out, fmt.Sprintf("%s%d", tag, i))
		}
		words = append(words, out...)
		return strings.Join(out, " ")
	}
	pages := []Page{
		{Heading: "Piece one: emerald collet", Drawing: &emeraldBlank, Sections: []Section{
			{Title: "Steps", Bullets: []string{long("saw", 40), long("file", 30), long("bend", 500)}, Numbered: true},
			{Title: "Cautions", Bullets: []string{long("heat", 12), long("acid", 12)}},
			{Title: "Notes", Paragraphs: []string{long("note", 900), "", long("end", 3)}},
		}},
		{Heading: "Piece two: round collet", Drawing: &round},
		{Heading: "Cut list", Sections: []Section{{Paragraphs: []string{long("cut", 5)}}}},
	}
	data, err := PDFPages(pages, A4, "")
	require.NoError(t, err)
	file := saved(t, data)
	n := len(pageSizes(t, file))
	assert.GreaterOrEqual(t, n, 5, "%d pages for two templates and 1500 words", n)
	var all strings.Builder
	starts := map[string]int{}
	for page := 1; page <= n; page++ {
		text := pageText(t, file, page)
		all.WriteString(" " + text)
		for _, p := range pages {
			if strings.HasPrefix(strings.TrimSpace(text), p.Heading) {
				starts[p.Heading] = page
			}
		}
		assert.GreaterOrEqual(t, inkMargin(rendered(t, file, page, 60), 60), 10-0.5, "page %d: mm", page)
	}
	assert.Len(t, starts, 3, "each piece begins a page")
	assert.Equal(t, n, starts[pages[2].Heading])
	have := map[string]bool{}
	for _, w := range strings.Fields(all.String()) {
		have[w] = true
	}
	lost := 0
	for _, w := range words {
		if !have[w] {
			lost++
		}
	}
	assert.Zero(t, lost, "words lost, of %d", len(words))
}

// A drawing of absurd size is refused with a sentence, and so is an endless
// handout.
func TestPDFTooLarge(t *testing.T) {
	d := Drawing{Title: "t", Paths: []Path{Rect("r", Cut, "rim", [2]float64{0, 0}, [2]float64{5000, 5000})}}
	_, err := PDF(d, A4)
	r, ok := answer.AsRefusal(err)
	require.True(t, ok, "%v", err)
	assert.Contains(t, r.Problem, "5000 x 5000 mm")
	_, err = PDFPages([]Page{{Sections: []Section{{Paragraphs: []string{strings.Repeat("word ", 700_000)}}}}}, A4, "")
	assert.Error(t, err, "an endless handout")
	_, err = PDFPages(nil, A4, "")
	assert.Error(t, err, "nothing to print")
}

// What a maker typed stays text in the PDF too.
func TestPDFText(t *testing.T) {
	d := collet8()
	d.Title = `) Tj /JS (x) \ ( <b> 💍 Größe ½`
	file := saved(t, printed(t, d, A4))
	assert.Contains(t, pageText(t, file, 1), `) Tj /JS (x) \ ( <b> □ Größe ½`)
	out, err := exec.Command(tool(t, "pdfinfo"), "-js", file).CombinedOutput()
	require.NoError(t, err, "%s", out)
	assert.Empty(t, strings.TrimSpace(string(out)), "script or errors in the file")
}

// Every letter is read back as itself, in a file whose letters are numbered by a
// byte and in one that has others.
func TestPDFLettersReadBack(t *testing.T) {
	for _, letters := range []string{
		"!\"#$%&'()*+,-./0123456789:;<=>?@[\\]^_`{|}~", "AaBbCcDdEeFfGgHhIiJjKkLlMmNnOoPpQqRrSsTtUuVvWwXxYyZz",
		"¡¢£¤¥¦§¨©ª«¬®¯°±²³´µ¶·¸¹º»¼½¾¿", "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖ×ØÙÚÛÜÝÞß", "àáâãäåæçèéêëìíîïðñòóôõö÷øùúûüýþÿ",
		"–—‘’“”„•…€™−′″π√∞≤≥≠≈←↑→↓⅓⅔⅛⅜⅝⅞□", "Łódź, Plzeň, Жанна",
	} {
		d := collet8()
		d.Title = letters
		assert.Contains(t, pageText(t, saved(t, printed(t, d, A4)), 1), letters)
	}
}

func TestPaperNamed(t *testing.T) {
	for name, want := range map[string]Paper{"a4": A4, " Letter ": Letter, "A4": A4} {
		got, ok := PaperNamed(name)
		assert.True(t, ok, name)
		assert.Equal(t, want, got, name)
	}
	_, ok := PaperNamed("foolscap")
	assert.False(t, ok)
}
