package template

import (
	"bytes"
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

	"github.com/tdewolff/canvas"

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
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// rendered gives one page of a PDF, or the part named by options, as greys at
// dots per inch.
func rendered(t *testing.T, file string, page, dpi int, options ...string) *image.Gray {
	t.Helper()
	n := strconv.Itoa(page)
	args := append([]string{"-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n}, options...)
	out, err := exec.Command(tool(t, "pdftoppm"), append(args, file)...).Output()
	if err != nil {
		t.Fatalf("pdftoppm: %v", err)
	}
	var w, h, top int
	head := regexp.MustCompile(`^P5\s+(\d+)\s+(\d+)\s+(\d+)\s`).FindSubmatch(out)
	if head == nil {
		t.Fatalf("pdftoppm gave no picture of page %d", page)
	}
	w, _ = strconv.Atoi(string(head[1]))
	h, _ = strconv.Atoi(string(head[2]))
	top, _ = strconv.Atoi(string(head[3]))
	pix := out[len(head[0]):]
	if top != 255 || len(pix) != w*h {
		t.Fatalf("page %d is a picture of %d bytes for %d x %d", page, len(pix), w, h)
	}
	return &image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// pageCount and sizes in points by pdfinfo.
func pageSizes(t *testing.T, file string) (sizes [][2]float64) {
	t.Helper()
	out, err := exec.Command(tool(t, "pdfinfo"), "-f", "1", "-l", "9999", "-box", file).Output()
	if err != nil {
		t.Fatalf("pdfinfo: %v", err)
	}
	for _, m := range regexp.MustCompile(`(?m)^Page +\d+ MediaBox: +(\S+) +(\S+) +(\S+) +(\S+)`).FindAllSubmatch(out, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
		}
		sizes = append(sizes, [2]float64{v[2] - v[0], v[3] - v[1]})
	}
	if len(sizes) == 0 {
		t.Fatal("pdfinfo tells of no page")
	}
	return sizes
}

func printed(t *testing.T, d Drawing, paper Paper) []byte {
	t.Helper()
	data, err := PDF(d, paper)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The page box is the paper's, to a thousandth of a point: ISO 216 A4 is 210 x
// 297 mm, US Letter 8.5 x 11 in, a point 1/72 in.
func TestPDFPageBox(t *testing.T) {
	want := map[Paper][2]float64{A4: {595.276, 841.890}, Letter: {612, 792}}
	for paper, size := range want {
		for _, d := range samples() {
			data := printed(t, d, paper)
			boxes := regexp.MustCompile(`/MediaBox\[0 0 (\S+) (\S+)\]`).FindAllSubmatch(data, -1)
			if len(boxes) == 0 {
				t.Fatalf("%s: no page box", d.Name)
			}
			for _, b := range boxes {
				w, _ := strconv.ParseFloat(string(b[1]), 64)
				h, _ := strconv.ParseFloat(string(b[2]), 64)
				if w > h { // across
					w, h = h, w
				}
				if math.Abs(w-size[0]) > 1e-3 || math.Abs(h-size[1]) > 1e-3 {
					t.Errorf("%s on %s: %g x %g pt, want %v", d.Name, paper, w, h, size)
				}
			}
		}
	}
}

// The same by another program's reading.
func TestPDFPageBoxRead(t *testing.T) {
	file := saved(t, printed(t, big(), A4))
	for i, s := range pageSizes(t, file) {
		w, h := min(s[0], s[1]), max(s[0], s[1])
		if math.Abs(w-595.276) > 0.01 || math.Abs(h-841.890) > 0.01 {
			t.Errorf("page %d is %g x %g pt", i+1, w, h)
		}
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

// The check bar is 50 mm between its ends when the page is rendered at 600 dpi
// and measured, within a pixel, on every page.
func TestPDFCheckBar(t *testing.T) {
	const dpi = 600
	pixel := 25.4 / dpi
	for _, c := range []struct {
		d     Drawing
		paper Paper
	}{{collet8(), A4}, {collet8(), Letter}, {stockSheet(60), Letter}, {big(), A4}} {
		file := saved(t, printed(t, c.d, c.paper))
		for page, size := range pageSizes(t, file) {
			g := foot(t, file, page+1, dpi, size)
			if got := barLength(g, dpi); math.Abs(got-50) > pixel {
				t.Errorf("%s on %s, page %d: the bar is %.3f mm", c.d.Name, c.paper, page+1, got)
			}
		}
	}
	// a printer that fits to the page, here by 1 %, must be found out
	file := saved(t, printed(t, collet8(), A4))
	g := foot(t, file, 1, dpi*99/100, pageSizes(t, file)[0])
	if got := barLength(g, dpi); math.Abs(got-50) <= pixel {
		t.Errorf("a bar printed at 99 %% measures %.3f mm: the check can't fail", got)
	}
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
	if math.Abs(w-100) > 0.06 || math.Abs(h-40) > 0.06 {
		t.Errorf("the rectangle is %.3f x %.3f mm", w, h)
	}
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
				if m := inkMargin(rendered(t, file, page+1, dpi), dpi); m < 10-0.3 {
					t.Errorf("%s on %s, page %d: ink %.2f mm from the edge", d.Name, paper, page+1, m)
				}
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
	if inkMargin(moved, dpi) >= 10-0.3 {
		t.Error("ink in the margin was not seen")
	}
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
		boxes := regexp.MustCompile(`/MediaBox\[0 0 (\S+) (\S+)\]`).FindAllSubmatch(data, -1)
		w, _ := strconv.ParseFloat(string(boxes[0][1]), 64)
		h, _ := strconv.ParseFloat(string(boxes[0][2]), 64)
		tiled := len(boxes) > c.pages
		if c.w == 262 {
			if !tiled {
				t.Errorf("%g x %g on %s fits no page but is not tiled", c.w, c.h, c.paper)
			}
			continue
		}
		if len(boxes) != c.pages || (w < h) != c.upright {
			t.Errorf("%g x %g on %s: %d pages, the first %g x %g pt", c.w, c.h, c.paper, len(boxes), w, h)
		}
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
		if til.cols*til.rows < 2 {
			t.Fatalf("%s is not tiled", d.Name)
		}
		file := saved(t, printed(t, d, A4))
		pages := tilePages(t, file)
		found := map[string]*image.Gray{}
		for name, page := range pages {
			found[name] = rendered(t, file, page, dpi)
		}
		if missing := uncovered(d, til, found, dpi); missing != 0 {
			t.Errorf("%s: %d points of the lines are on no page", d.Name, missing)
		}
		for name := range found { // without any one page, something is missing
			less := map[string]*image.Gray{}
			for n, g := range found {
				if n != name {
					less[n] = g
				}
			}
			if uncovered(d, til, less, dpi) == 0 {
				t.Errorf("%s: page %s could be left out unseen", d.Name, name)
			}
		}
		for _, w := range [][2]canvas.Rect{{til.window(0, 0), til.window(1, 0)}} {
			if got := w[0].X1 - w[1].X0; math.Abs(got-overlap) > 1e-9 {
				t.Errorf("%s: neighbours overlap by %g mm", d.Name, got)
			}
		}
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
		if !strings.Contains(text, want) {
			t.Errorf("page %d does not say %q", page, want)
		}
		if m := regexp.MustCompile(`column ([A-Z]+) row (\d+)`).FindStringSubmatch(text); m != nil {
			pages[m[1]+m[2]] = page
		}
	}
	if len(pages) < 2 {
		t.Fatalf("%d tiles have a label", len(pages))
	}
	return pages
}

func pageText(t *testing.T, file string, page int) string {
	t.Helper()
	n := strconv.Itoa(page)
	out, err := exec.Command(tool(t, "pdftotext"), "-f", n, "-l", n, "-layout", file, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
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
		line := p.canvas().Flatten(0.01)
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
			for _, want := range []string{"measure this bar first: it must be 50.0 mm", "print at 100 %, no fit to page"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s, page %d does not say %q", d.Name, page+1, want)
				}
			}
		}
		first := pageText(t, file, 1)
		for _, want := range append([]string{d.Title, "cut", "seam", "girdle", "bearing"}, d.Lines...) {
			if !strings.Contains(first, want) {
				t.Errorf("%s: the first page does not say %q", d.Name, want)
			}
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
	data, err := PDFPages(pages, A4)
	if err != nil {
		t.Fatal(err)
	}
	file := saved(t, data)
	n := len(pageSizes(t, file))
	if n < 5 {
		t.Errorf("%d pages for two templates and 1500 words", n)
	}
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
		if m := inkMargin(rendered(t, file, page, 60), 60); m < 10-0.5 {
			t.Errorf("page %d: ink %.2f mm from the edge", page, m)
		}
	}
	if len(starts) != 3 || starts[pages[2].Heading] != n {
		t.Errorf("pieces begin on pages %v of %d", starts, n)
	}
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
	if lost > 0 {
		t.Errorf("%d of %d words are lost", lost, len(words))
	}
}

// A drawing of absurd size is refused with a sentence, and so is an endless
// handout.
func TestPDFTooLarge(t *testing.T) {
	d := Drawing{Title: "t", Paths: []Path{Rect("r", Cut, "rim", [2]float64{0, 0}, [2]float64{5000, 5000})}}
	_, err := PDF(d, A4)
	if r, ok := answer.AsRefusal(err); !ok || !strings.Contains(r.Problem, "5000 x 5000 mm") {
		t.Errorf("got %v", err)
	}
	if _, err := PDFPages([]Page{{Sections: []Section{{Paragraphs: []string{strings.Repeat("word ", 700_000)}}}}}, A4); err == nil {
		t.Error("an endless handout was set")
	}
	if _, err := PDFPages(nil, A4); err == nil {
		t.Error("nothing was printed")
	}
}

// What a maker typed stays text in the PDF too.
func TestPDFText(t *testing.T) {
	d := collet8()
	d.Title = `) Tj /JS (x) \ ( <b> 💍 Größe ½`
	file := saved(t, printed(t, d, A4))
	if text := pageText(t, file, 1); !strings.Contains(text, `) Tj /JS (x) \ ( <b> □ Größe ½`) {
		t.Errorf("the title came out as %.80q", text)
	}
	out, err := exec.Command(tool(t, "pdfinfo"), "-js", file).CombinedOutput()
	if err != nil || bytes.Contains(out, []byte("Error")) || len(bytes.TrimSpace(out)) > 0 {
		t.Errorf("script or errors in the file: %s %v", out, err)
	}
}

func TestPaperNamed(t *testing.T) {
	for name, want := range map[string]Paper{"a4": A4, " Letter ": Letter, "A4": A4} {
		if got, ok := PaperNamed(name); !ok || got != want {
			t.Errorf("%q is %v, %v", name, got, ok)
		}
	}
	if _, ok := PaperNamed("foolscap"); ok {
		t.Error("foolscap was found")
	}
}
