package template

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/tracing"
)

// The printed page is found by the tracer, full size and without a stone on it.
func TestTracingCardIsFound(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		data, err := TracingCard(paper)
		require.NoError(t, err)
		const dpi = 216
		img := rendered(t, saved(t, data), 1, dpi)
		if dir := os.Getenv("GUILDHAND_LOOK"); dir != "" {
			var b bytes.Buffer
			require.NoError(t, png.Encode(&b, img))
			require.NoError(t, os.WriteFile(filepath.Join(dir, "tracing-card-"+paper.String()+".png"), b.Bytes(), 0o600))
		}
		trace, err := tracing.Find(tracing.NewPhoto(img, 1), tracing.Options{}, nil)
		var r *tracing.Refusal
		require.ErrorAs(t, err, &r)
		assert.Equal(t, tracing.NoStone, r.Reason, r.Advice)
		assert.Greater(t, trace.Share, 0.95)
		assert.InDelta(t, dpi/25.4, trace.ScalePx, 0.02, "full size")
	}
}

func TestTracingCardPDF(t *testing.T) {
	data, err := TracingCard(Letter)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(data, []byte("%PDF-")))
}
