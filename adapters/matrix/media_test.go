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

// A thumbnail shows the left half dark and the right half light, of a drawing in
// greys with the drawing's own palette, of any other picture in its colours.
func TestThumbnails(t *testing.T) {
	const wide, high = 800, 600
	dark, light := color.Gray{}, color.Gray{Y: 255}
	red := color.RGBA{R: 255, A: 255}
	for name, palette := range map[string]color.Palette{
		"greys": {light, color.Gray{Y: 128}, dark}, "colours": {light, red, dark},
	} {
		full := image.NewPaletted(image.Rect(0, 0, wide, high), palette)
		for y := range high {
			for x := range wide / 2 {
				full.SetColorIndex(x, y, 2)
			}
		}
		data, size, err := thumbnail(full)
		require.NoError(t, err)
		assert.Equal(t, image.Pt(thumbnailPx, thumbnailPx*high/wide), size, name)
		small, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		assert.Equal(t, size, small.Bounds().Size(), name)
		for _, y := range []int{0, size.Y / 2, size.Y - 1} {
			for _, x := range []int{0, size.X/2 - 3} {
				assert.Equal(t, dark, color.GrayModel.Convert(small.At(x, y)), "%s at %d, %d", name, x, y)
				assert.Equal(t, light, color.GrayModel.Convert(small.At(size.X-1-x, y)), "%s at %d, %d", name, size.X-1-x, y)
			}
		}
		if kept, ok := small.(*image.Paletted); name == "greys" && assert.True(t, ok, "a drawing keeps its palette") {
			assert.Len(t, kept.Palette, len(palette))
		}
	}
}
