package tracing

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTuning shows the photographs on which the tracer was tuned, and leaves
// them with their outlines in the folder GUILDHAND_LOOK.
func TestTuning(t *testing.T) {
	if os.Getenv("GUILDHAND_LOOK") == "" {
		t.Skip("set GUILDHAND_LOOK to a folder for the tuning photographs")
	}
	draw := blindScene
	if os.Getenv("GUILDHAND_HARD") != "" {
		draw = hardScene
	}
	n, _ := strconv.Atoi(os.Getenv("GUILDHAND_NUMBER"))
	tallied(t, draw, tuningSeeds, max(n, 8))
}

func (t Trace) note() string {
	return fmt.Sprintf("scale %.1f blur %.2f weak %.2f contrast %.2f rough %.4f scatter %.3f card within %.2f stone beyond %.2f", t.ScalePx, t.BlurMM, t.weak, t.contrast, t.rough, t.scatter, t.within, t.beyond)
}

// leaveLook leaves the photograph round the stone with its outline.
func leaveLook(t *testing.T, s *scene, o outcome, name string) {
	if os.Getenv("GUILDHAND_SEEDS") == "" {
		return
	}
	data, err := os.ReadFile(os.Getenv("GUILDHAND_PHOTOS") + "/" + s.seed + ".jpg")
	require.NoError(t, err)
	stored, err := jpeg.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	low, high := bounds(o.trace.Drawn)
	const k = 3
	part := image.Rect(int(low[0])-30, int(low[1])-30, int(high[0])+30, int(high[1])+30)
	img := image.NewRGBA(image.Rect(0, 0, k*part.Dx(), k*part.Dy()))
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			img.Set(x, y, stored.At(part.Min.X+x/k, part.Min.Y+y/k))
		}
	}
	for _, p := range o.trace.Drawn {
		img.Set(int(k*(p[0]+0.5))-k*part.Min.X, int(k*(p[1]+0.5))-k*part.Min.Y, color.RGBA{255, 0, 0, 255})
	}
	f, err := os.Create(name)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, img))
}

// TestSamples leaves photographs in GUILDHAND_LOOK as a phone saves them.
func TestSamples(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("set GUILDHAND_LOOK to a folder for samples")
	}
	require.NoError(t, os.WriteFile(dir+"/careful.jpg", careful(3).jpeg(), 0o600))
	s, _, _ := goodScene(31)
	s.width, s.height = 4000, 3000
	require.NoError(t, os.WriteFile(dir+"/good-12mp.jpg", s.jpeg(), 0o600))
}
