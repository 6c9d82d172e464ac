package template

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestLook writes the sample pictures for a look with one's own eyes:
// GUILDHAND_LOOK=/tmp/look go test -run TestLook ./bot/template
func TestLook(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("GUILDHAND_LOOK names no folder to write the sample pictures to")
	}
	for _, d := range samples() {
		data, err := PNG(d, 0)
		require.NoError(t, err, d.Name)
		t.Log(d.Name, len(data))
		require.NoError(t, os.WriteFile(filepath.Join(dir, d.Name+".png"), data, 0o644))
		vector, err := SVG(d)
		require.NoError(t, err, d.Name)
		require.NoError(t, os.WriteFile(filepath.Join(dir, d.Name+".svg"), vector, 0o644))
		for _, paper := range []Paper{A4, Letter} {
			printed, err := PDF(d, paper)
			require.NoError(t, err, d.Name)
			require.NoError(t, os.WriteFile(filepath.Join(dir, d.Name+"-"+paper.String()+".pdf"), printed, 0o644))
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, d := range samples() {
		b.Run(d.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := PNG(d, 0); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestLookHandout writes a sample handout beside the other samples.
func TestLookHandout(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("GUILDHAND_LOOK names no folder to write the sample handout to")
	}
	a, b, c := emerald(), collet8(), stockSheet(40)
	data, err := PDFPages([]Page{
		{Heading: "Class of 12: what to cut", Sections: []Section{
			{Title: "Cut list", Bullets: []string{"12 emerald collets 8 x 6 mm, sterling 0.64 mm", "12 round collets 8 mm, sterling 0.64 mm"}},
			{Title: "Metal", Paragraphs: []string{"One sheet 200 x 100 mm, 0.64 mm: 61 % used. 78.2 g."}}}},
		{Heading: "Sheet layout", Drawing: &c},
		{Heading: "Emerald collet", Drawing: &a, Sections: []Section{
			{Title: "Steps", Numbered: true, Bullets: []string{"Measure the bar at the foot of the page.", "Stick the template on the sheet and saw outside the line; file to it.", "Score the folds on the outside to two thirds of the thickness, fold, and run hard solder into each corner from the inside so that the fold does not open while the seam is soldered."}},
			{Title: "Cautions", Bullets: []string{"Soldering: ventilate, wear eye protection, tie back hair.", "Pickle: acid into water, never the other way round; no steel in it."}}}},
		{Heading: "Round collet", Drawing: &b},
	}, A4, "")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "handout.pdf"), data, 0o644))
}

func BenchmarkPDF(b *testing.B) {
	for b.Loop() {
		if _, err := PDF(collet8(), A4); err != nil {
			b.Fatal(err)
		}
	}
}
