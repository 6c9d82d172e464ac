package template

import (
	"bytes"
	"context"
	"errors"
	"image/png"
	"strings"
	"testing"
)

func TestAttachments(t *testing.T) {
	d := collet8()
	want := []struct{ name, mime, begins string }{
		{"collet-round-8.png", "image/png", "\x89PNG"},
		{"collet-round-8.pdf", "application/pdf", "%PDF-"},
		{"collet-round-8.svg", "image/svg+xml", "<svg"},
	}
	got := d.Attachments(Letter)
	if len(got) != len(want) {
		t.Fatalf("%d attachments, want %d", len(got), len(want))
	}
	for i, w := range want {
		a := got[i]
		if a.Name != w.name || a.Type != w.mime || !strings.Contains(a.Alt, d.Alt) {
			t.Errorf("%q, %q, %q", a.Name, a.Type, a.Alt)
		}
		data, err := a.Render(context.Background())
		if err != nil || !bytes.HasPrefix(data, []byte(w.begins)) {
			t.Errorf("%s: begins with %.8q (%v)", a.Name, data, err)
		}
		if w.mime == "image/png" {
			size, err := png.DecodeConfig(bytes.NewReader(data))
			if err != nil || size.Width != a.WidthPx || size.Height != a.HeightPx {
				t.Errorf("%s is %d x %d, announced as %d x %d (%v)", a.Name, size.Width, size.Height, a.WidthPx, a.HeightPx, err)
			}
		}
		if !strings.Contains(got[1].Alt, "Letter") {
			t.Errorf("the PDF's text does not name the paper: %q", got[1].Alt)
		}
		gone, cancel := context.WithCancel(context.Background())
		cancel()
		if _, err := a.Render(gone); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: drawn for nobody (%v)", a.Name, err)
		}
	}
	for _, a := range (Drawing{Name: "nothing"}).Attachments(A4) {
		if _, err := a.Render(context.Background()); err == nil {
			t.Errorf("%s: drawn from nothing", a.Name)
		}
	}
}
