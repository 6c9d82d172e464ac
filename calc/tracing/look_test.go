package tracing

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTuning shows the photographs on which the tracer was tuned, and leaves
// them with their outlines in the folder GUILDHAND_LOOK.
func TestTuning(t *testing.T) {
	if os.Getenv("GUILDHAND_LOOK") == "" {
		t.Skip("set GUILDHAND_LOOK to a folder for the tuning photographs")
	}
	for seed := range uint64(24) {
		if only := os.Getenv("GUILDHAND_SEEDS"); only != "" && !strings.Contains(","+only+",", fmt.Sprintf(",%d,", seed)) {
			continue
		}
		s, m, zone := goodScene(1000 + seed)
		o := runScene(s, m, zone)
		if dir := os.Getenv("GUILDHAND_LOOK"); dir != "" && o.err == nil {
			leaveLook(t, s, o, fmt.Sprintf("%s/%d.png", dir, seed))
		}
		if o.err != nil {
			t.Logf("%d %s on %s: %v (share %.2f scale %.1f blur %.2f)", seed, o.material, zone, o.err, o.trace.Share, o.trace.ScalePx, o.trace.BlurMM)
			continue
		}
		t.Logf("%2d %-10s %s->%s P %+.2f%% (%.2f mm) far %.2f dev %.2f view %.1f scale %.1f blur %.2f eye %.1f/%.1f edge %.2f radial %.3f weak %.2f contrast %.2f", seed, o.material, zone, o.trace.Zone, 100*o.perimeter, o.trace.PerimeterMM-o.truthMM, o.far, o.trace.DeviationMM, o.trace.View.Degrees(), o.trace.ScalePx, o.trace.BlurMM, o.trace.EyeMM, s.eyeMM*math.Cos(s.tilt), s.stone.edgeMM, radial(s, o), o.trace.weak, o.trace.contrast)
	}
}

// radial is by how much the line lies outside the truth where it is seen over
// from far, from the sides and from near, mm.
func radial(s *scene, o outcome) (sums [3]float64) {
	eye, _, _, _ := s.axes()
	var n [3]float64
	for _, p := range o.trace.onCard {
		x, y := p.X-s.at.X, p.Y-s.at.Y
		d := math.Hypot(x, y) - s.stone.radius(math.Atan2(y, x))
		slope := ((p.X-eye[0])*x + (p.Y-eye[1])*y) / math.Hypot(x, y) / eye[2]
		k := 1
		if slope > 0.06 {
			k = 0
		} else if slope < -0.06 {
			k = 2
		}
		sums[k] += d
		n[k]++
	}
	for k := range sums {
		sums[k] /= math.Max(n[k], 1)
	}
	return sums
}

// leaveLook leaves the photograph round the stone with its outline.
func leaveLook(t *testing.T, s *scene, o outcome, name string) {
	s.rng = rand.New(rand.NewPCG(1, 1))
	img := s.picture()
	low, high := bounds(o.trace.Drawn)
	for i, p := range o.trace.Drawn {
		_ = i
		img.Set(int(p[0]+0.5), int(p[1]+0.5), color.RGBA{255, 0, 0, 255})
	}
	f, err := os.Create(name)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, img.SubImage(image.Rect(int(low[0])-40, int(low[1])-40, int(high[0])+40, int(high[1])+40))))
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

// TestRoughness shows how rough the lines of veined stones are, on photographs
// for tuning.
func TestRoughness(t *testing.T) {
	if os.Getenv("GUILDHAND_LOOK") == "" {
		t.Skip("set GUILDHAND_LOOK to look at the tuning photographs")
	}
	for seed := range uint64(160) {
		s, m, zone := goodScene(2000 + seed)
		if m.name != "turquoise" && seed%6 > 0 {
			continue
		}
		o := runScene(s, m, zone)
		t.Logf("%3d %-10s %s P %+.2f %% far %.2f rough %.4f %v", seed, m.name, zone, 100*o.perimeter, o.far, o.trace.rough, o.err != nil)
	}
}
