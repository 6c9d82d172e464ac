package bot

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/reading"
	"guildhand/bot/requests"
)

func TestInWords(t *testing.T) {
	for line, want := range map[string]string{
		"collet oval 8x6 depth 4 sterling 22ga":      "collet: oval, size 8 x 6 mm, depth 4 mm, sterling, thickness 22 gauge",
		"collar pear 9x7mm 0.8mm included 28":        "collar: pear, size 9 x 7 mm, thickness 0.8 mm, included 28°",
		"resize us 6 to us 7 width 4 1.5mm":          "resize: from us 6, to us 7, width 4 mm, thickness 1.5 mm",
		"prongs oval 8x6 height 1/4in number 6 22ga": "prongs: oval, size 8 x 6 mm, thickness 22 gauge, number 6, height 6.35 mm",
		"help": "help",
	} {
		parsed, err := reading.Parse(requests.All(nil), line, reading.Lookups{})
		require.NoError(t, err, line)
		assert.Equal(t, want, inWords(parsed))
	}
}
