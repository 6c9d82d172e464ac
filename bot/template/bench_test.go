package template

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
)

// benchPage is a bench sheet of a rectangle that can be measured.
func benchPage(wide, high float64) Page {
	d := Drawing{Name: "blank", Title: "Blank", Lines: []string{"sterling, 0.64 mm"},
		Paths: []Path{Rect("r", Mark, "", [2]float64{5, 5}, [2]float64{5 + wide, 5 + high})}}
	d.Dimensions = []Dimension{{A: [2]float64{5, 5}, B: [2]float64{5 + wide, 5}, Side: Below, Text: "length"}}
	return Page{Drawing: &d, ToFill: []string{"rim"}, Sections: []Section{
		{Title: "Measures", Paragraphs: []string{"Cut it."}, Bullets: []string{"length"}},
		{Title: "Steps", Bullets: []string{"Saw.", "File."}, Numbered: true}}}
}

// sides are the lengths of the straight lines of a picture that are within 20
// pixels of a length, across or up: the longest dark run of each, since a line's
// corners are bevelled.
func sides(across, up int, dark func(i, k int) bool, about int) []int {
	type line struct{ start, row, longest int }
	var lines []line
	for k := range up {
		run := 0
		for i := range across + 1 {
			if i < across && dark(i, k) {
				run++
				continue
			}
			if run > about-20 && run < about+20 {
				start := i - run
				at := slices.IndexFunc(lines, func(l line) bool { return max(l.start-start, start-l.start, k-l.row) < 20 })
				if at < 0 {
					at, lines = len(lines), append(lines, line{start, k, 0})
				}
				lines[at].longest = max(lines[at].longest, run)
			}
			run = 0
		}
	}
	var list []int
	for _, l := range lines {
		list = append(list, l.longest)
	}
	return list
}

// Every copy on a bench sheet is true to size both ways, and both check bars are,
// measured after another program has rendered the page at 600 dpi: A4 and
// Letter.
func TestBenchSheetIsFullSize(t *testing.T) {
	const dpi, wide, high = 600, 25.0, 9.0
	px := func(mm float64) int { return int(mm / 25.4 * dpi) }
	line := styles[Mark].width * paperPen
	for _, paper := range []Paper{A4, Letter} {
		data, err := PDFPages([]Page{benchPage(wide, high)}, paper, "Lengths in mm.")
		require.NoError(t, err)
		file := saved(t, data)
		sizes := pageSizes(t, file)
		require.Len(t, sizes, 1, paper)
		g := rendered(t, file, 1, dpi)
		dark := func(x, y int) bool { return g.GrayAt(x, y).Y < 128 }
		top := g.Rect.Dy() / 3
		level := sides(g.Rect.Dx(), top, dark, px(wide))
		upright := sides(top, g.Rect.Dx(), func(i, k int) bool { return dark(k, i) }, px(high))
		assert.GreaterOrEqual(t, len(level), 2*mostCopies, "%s: both long sides of all copies are looked at", paper)
		assert.GreaterOrEqual(t, len(upright), 2*mostCopies, "%s: both short sides of all copies are looked at", paper)
		for _, n := range level {
			assert.InDelta(t, wide+line, float64(n)/dpi*25.4, 0.06, "%s: length of a copy, mm", paper)
		}
		for _, n := range upright {
			assert.InDelta(t, high+line, float64(n)/dpi*25.4, 0.06, "%s: height of a copy, mm", paper)
		}
		want := map[Paper]float64{A4: 50, Letter: 50.8}[paper]
		bar := g.SubImage(image.Rect(0, g.Rect.Dy()-px(15), g.Rect.Dx(), g.Rect.Dy())).(*image.Gray)
		assert.InDelta(t, want, barLength(&image.Gray{Pix: bar.Pix, Stride: bar.Stride, Rect: bar.Rect.Sub(bar.Rect.Min)}, dpi), 25.4/dpi, "%s: level bar", paper)
		assert.InDelta(t, want, barLength(rightEdge(t, file, 1, dpi, sizes[0]), dpi), 25.4/dpi, "%s: upright bar", paper)
		assert.GreaterOrEqual(t, inkMargin(g, dpi), 10-0.3, "%s: mm", paper)
	}
}

// The words below a copy are whole, however small the blank.
func TestCaptionsOfSmallCopies(t *testing.T) {
	for _, wide := range []float64{2, 8, 14, 25} {
		data, err := PDFPages([]Page{benchPage(wide, 3)}, A4, "")
		require.NoError(t, err)
		text := pageText(t, saved(t, data), 1)
		assert.NotContains(t, text, "…", "%g mm wide", wide)
		assert.Equal(t, 1, strings.Count(text, "copper"), "%g mm wide: %s", wide, text)
		assert.Equal(t, mostCopies-1, strings.Count(text, "spare"), "%g mm wide: %s", wide, text)
	}
}

// A step that runs over stands whole on the next page, under the sheet's title.
func TestStepsAreNotBrokenBetweenPages(t *testing.T) {
	p := benchPage(20, 6)
	const steps = 24
	for i := range steps {
		p.Sections[1].Bullets = append(p.Sections[1].Bullets, fmt.Sprintf("begin%dx %s end%dx", i, strings.Repeat("take care not to burn yourself ", 2+i%7), i))
	}
	data, err := PDFPages([]Page{p}, A4, "")
	require.NoError(t, err)
	file := saved(t, data)
	pages := len(pageSizes(t, file))
	require.Greater(t, pages, 1)
	begun := 0
	for page := 1; page <= pages; page++ {
		text := pageText(t, file, page)
		if page > 1 {
			assert.Contains(t, text, "Blank, continued")
		}
		for i := range steps {
			begins := strings.Contains(text, fmt.Sprintf("begin%dx", i))
			assert.Equal(t, begins, strings.Contains(text, fmt.Sprintf("end%dx", i)), "page %d, step %d", page, i)
			if begins {
				begun++
			}
		}
	}
	assert.Equal(t, steps, begun)
}

// The bench sheet of every sample fills its page: of the bands of a twentieth of
// its height most have ink.
func TestBenchSheetIsFull(t *testing.T) {
	d := collet8()
	p := benchPage(1, 1)
	p.Drawing = &d
	data, err := PDFPages([]Page{p}, A4, "")
	require.NoError(t, err)
	g := rendered(t, saved(t, data), 1, 60)
	const bands = 20
	full := 0
	for i := range bands {
		part := g.SubImage(image.Rect(0, i*g.Rect.Dy()/bands, g.Rect.Dx(), (i+1)*g.Rect.Dy()/bands)).(*image.Gray)
		inked := 0
		for y := part.Rect.Min.Y; y < part.Rect.Max.Y; y++ {
			for x := range part.Rect.Dx() {
				if part.GrayAt(x, y).Y < 128 {
					inked++
				}
			}
		}
		if inked > 20 {
			full++
		}
	}
	assert.GreaterOrEqual(t, full, 11, "bands with ink, of %d: even with little text", bands)
}

// The number of the entry stands on picture and sheet, and changes nothing else of
// the picture's size.
func TestEntryInTheFoot(t *testing.T) {
	d := collet8()
	d.Foot = "Lengths in mm. Drawn 26 November 2026."
	files := d.Attachments(A4, func() Page { p := benchPage(1, 1); p.Drawing = nil; return p })
	ctx := answer.WithEntry(t.Context(), 4711)
	sheet, err := files[1].Render(ctx)
	require.NoError(t, err)
	assert.Contains(t, pageText(t, saved(t, sheet), 1), "Lengths in mm. Drawn 26 November 2026. Entry 4711.")
	plain, err := files[0].Render(t.Context())
	require.NoError(t, err)
	numbered, err := files[0].Render(ctx)
	require.NoError(t, err)
	assert.NotEqual(t, plain, numbered)
	again, err := files[0].Render(t.Context())
	require.NoError(t, err)
	assert.Equal(t, plain, again, "the number is on its own picture only")
}
