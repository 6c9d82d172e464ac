package template

import (
	"os"
	"path/filepath"
	"testing"
)

// TestLook writes the sample pictures for a look with one's own eyes:
// GUILDHAND_LOOK=/tmp/look go test -run TestLook ./bot/template
func TestLook(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("GUILDHAND_LOOK names no folder to write the sample pictures to")
	}
	for _, d := range samples() {
		data, w, h, err := PNG(d)
		if err != nil {
			t.Fatal(d.Name, err)
		}
		t.Log(d.Name, w, h, len(data))
		if err := os.WriteFile(filepath.Join(dir, d.Name+".png"), data, 0o644); err != nil {
			t.Fatal(err)
		}
		vector, err := SVG(d)
		if err != nil {
			t.Fatal(d.Name, err)
		}
		if err := os.WriteFile(filepath.Join(dir, d.Name+".svg"), vector, 0o644); err != nil {
			t.Fatal(err)
		}
		for _, paper := range []Paper{A4, Letter} {
			printed, err := PDF(d, paper)
			if err != nil {
				t.Fatal(d.Name, err)
			}
			if err := os.WriteFile(filepath.Join(dir, d.Name+"-"+paper.String()+".pdf"), printed, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	for _, d := range samples() {
		b.Run(d.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, _, err := PNG(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
