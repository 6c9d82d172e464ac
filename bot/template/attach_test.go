package template

import (
	"bytes"
	"context"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAttachments(t *testing.T) {
	d := collet8()
	want := []struct{ name, mime, begins string }{
		{"collet-round-8.png", "image/png", "\x89PNG"},
		{"collet-round-8.pdf", "application/pdf", "%PDF-"},
		{"collet-round-8.svg", "image/svg+xml", "<svg"},
	}
	got := d.Attachments(Letter, func() Page { return Page{} })
	require.Len(t, got, len(want))
	assert.Contains(t, got[1].Alt, "Letter", "the PDF's text names the paper")
	for i, w := range want {
		a := got[i]
		assert.Equal(t, w.name, a.Name)
		assert.Equal(t, w.mime, a.Type)
		assert.Contains(t, a.Alt, d.Alt)
		data, err := a.Render(t.Context())
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(data, []byte(w.begins)), "%s: begins with %.8q", a.Name, data)
		if w.mime == "image/png" {
			size, err := png.DecodeConfig(bytes.NewReader(data))
			require.NoError(t, err)
			assert.Equal(t, pngWidth, size.Width)
		}
		gone, cancel := context.WithCancel(t.Context())
		cancel()
		_, err = a.Render(gone)
		assert.ErrorIs(t, err, context.Canceled, "%s: drawn for nobody", a.Name)
	}
	for _, a := range (Drawing{Name: "nothing"}).Attachments(A4, func() Page { return Page{} }) {
		_, err := a.Render(t.Context())
		assert.ErrorIs(t, err, errNothing, a.Name)
	}
}
