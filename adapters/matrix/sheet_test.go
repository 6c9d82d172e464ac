package matrix

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSheet: each picture stands on the sheet whole, in its own colours, with a
// number above it, and a sheet of line drawings keeps a palette.
func TestSheet(t *testing.T) {
	encode := func(one image.Image) []byte {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, one))
		return b.Bytes()
	}
	inks := []color.RGBA{{255, 0, 0, 255}, {0, 128, 0, 255}, {0, 0, 255, 255}, {90, 90, 90, 255}, {200, 100, 0, 255}}
	var lines, mixed []numbered
	for n, ink := range inks {
		one := image.NewPaletted(image.Rect(0, 0, 100+10*n, 200), color.Palette{color.White, ink})
		for i := range one.Pix {
			one.Pix[i] = 1
		}
		lines = append(lines, numbered{n + 1, encode(one)})
	}
	mixed = append(mixed, lines...)
	mixed = append(mixed, numbered{6, encode(image.NewRGBA(image.Rect(0, 0, 50, 50)))})
	for name, pictures := range map[string][]numbered{"line drawings": lines, "with another": mixed} {
		data, err := sheet(pictures)
		require.NoError(t, err)
		out, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		_, paletted := out.(*image.Paletted)
		assert.Equal(t, name == "line drawings", paletted, name)
		count := map[color.RGBA]int{}
		for y := range out.Bounds().Dy() {
			for x := range out.Bounds().Dx() {
				count[color.RGBAModel.Convert(out.At(x, y)).(color.RGBA)]++
			}
		}
		for n, ink := range inks {
			assert.Equal(t, (100+10*n)*200, count[ink], "%s: picture %d", name, n+1)
		}
		assert.NotZero(t, count[color.RGBA{0, 0, 0, 255}], "%s: no numbers", name)
	}
	_, err := sheet([]numbered{{3, []byte("no picture")}})
	assert.ErrorContains(t, err, "answer 3")
}
