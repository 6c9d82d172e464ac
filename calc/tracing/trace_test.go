package tracing

import (
	"errors"
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

// outcome is one simulated photograph against the truth.
type outcome struct {
	material string
	zone     Zone
	err      error
	trace    Trace
	truthMM  float64
	// perimeter is the relative error, far what 19 of 20 places of the line are
	// closer to the truth than, mm.
	perimeter, far float64
}

func runScene(s *scene, m material, zone Zone) outcome {
	o := outcome{material: m.name, zone: zone, truthMM: ClosedLength(s.stone.outline())}
	p := s.photo()
	o.trace, o.err = Find(p, Options{}, nil)
	if o.err == nil {
		o.perimeter = o.trace.PerimeterMM/o.truthMM - 1
		o.far = farthest(s, o.trace.onCard)
	}
	return o
}

// farthest is what 19 of 20 places of the traced line are closer to the true one
// than.
func farthest(s *scene, line []Place) float64 {
	truth := make([]Place, 0, 1440)
	for _, q := range s.stone.outline() {
		truth = append(truth, Place{q[0], -q[1]})
	}
	// Where on the card the outline lies doesn't matter.
	a, b := centroid(truth), centroid(line)
	off := make([]float64, 0, len(line))
	for _, p := range line {
		near := math.Inf(1)
		for _, q := range truth {
			near = math.Min(near, math.Hypot(p.X-b.X-q.X+a.X, p.Y-b.Y-q.Y+a.Y))
		}
		off = append(off, near)
	}
	slices.Sort(off)
	return off[len(off)*19/20]
}

// centroid of the area within a closed line.
func centroid(line []Place) (c Place) {
	sum := 0.0
	for i, p := range line {
		q := line[(i+1)%len(line)]
		k := p.X*q.Y - p.Y*q.X
		c.X, c.Y, sum = c.X+(p.X+q.X)*k, c.Y+(p.Y+q.Y)*k, sum+3*k
	}
	return Place{c.X / sum, c.Y / sum}
}

// careful is a photograph that should be traced: a jade cabochon on the black
// zone.
func careful(seed uint64) *scene {
	s, _, _ := goodScene(seed)
	s.width, s.height, s.eyeMM = 1800, 1350, 170
	s.tilt, s.blurPx = 0.05, 0.9
	s.stone.radius = superellipse(9, 6.5, 2, 0.6)
	s.stone.colour, s.stone.veins, s.stone.bands, s.stone.clear = [3]float64{0.18, 0.42, 0.20}, 0, 0, false
	s.stone.settle()
	s.at, s.aim = Place{-15, -1}, Place{-8, 0}
	return s
}

func requireTraced(t *testing.T, s *scene, p Photo) Trace {
	t.Helper()
	trace, err := Find(p, Options{EdgeMM: s.stone.edgeMM}, nil)
	require.NoError(t, err)
	truth := ClosedLength(s.stone.outline())
	assert.InDelta(t, truth, trace.PerimeterMM, 0.006*truth)
	assert.InDelta(t, 18, trace.LengthMM, 0.15)
	assert.InDelta(t, 13, trace.WidthMM, 0.15)
	return trace
}

// turned is a picture as a camera stores it that is held another way: by the
// inverse of what the orientation says.
func turned(img image.Image, orientation int) image.Image {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if orientation >= 5 {
		w, h = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	from := storedPlace(orientation, w, h)
	for y := range b.Dy() {
		for x := range b.Dx() {
			sx, sy := from(x, y)
			out.Set(sx, sy, img.At(x, y))
		}
	}
	return out
}

func TestEveryOrientation(t *testing.T) {
	s := careful(3)
	img := s.picture()
	for orientation := 1; orientation <= 8; orientation++ {
		if !testcount.Whole() && orientation != 3 && orientation != 6 { // as phones write most
			continue
		}
		trace := requireTraced(t, s, NewPhoto(turned(img, orientation), orientation))
		eye, _, _, _ := s.axes()
		assert.InDelta(t, eye[2], trace.EyeMM, 0.1*eye[2])
		want := math.Atan(math.Hypot(eye[0]-s.at.X, eye[1]-s.at.Y) / eye[2])
		assert.InDelta(t, want*180/math.Pi, trace.View.Degrees(), 1.5)
	}
}

func TestHardButGood(t *testing.T) {
	for name, change := range map[string]func(*scene){
		"finger, half turn": func(s *scene) { s.fingers, s.spin = []Place{{Marks[1].X + 3, Marks[1].Y - 3}}, s.spin+math.Pi },
		"across":            func(s *scene) { s.spin = 1.2 },
		"uneven light":      func(s *scene) { s.falloff, s.ambient = 0.6, 0.35 },
		"1600 px, close":    func(s *scene) { s.width, s.height, s.eyeMM, s.quality = 1600, 1200, 160, 80 },
	} {
		t.Run(name, func(t *testing.T) {
			s := careful(5)
			change(s)
			requireTraced(t, s, s.photo())
		})
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		reason Reason
		advice string
		change func(*scene)
	}{
		"tilted":    {Tilted, "straight above", func(s *scene) { s.tilt = 0.38 }},
		"far":       {TooFar, "closer", func(s *scene) { s.eyeMM = 260 }},
		"blurred":   {Blurred, "focus", func(s *scene) { s.blurPx = 2.3 }},
		"dark":      {TooDark, "too dark", func(s *scene) { s.light = [3]float64{0.02, 0.02, 0.02} }},
		"no stone":  {NoStone, "no stone", func(s *scene) { s.stone.radius = nil }},
		"over edge": {AtEdge, "middle of the black zone", func(s *scene) { s.at = Place{3, -1} }},
		"clear":     {ClearStone, "ink", func(s *scene) { s.stone.clear, s.stone.shine = true, 0.8 }},
		"pale":      {OtherZone, "black", func(s *scene) { s.stone.colour, s.at = [3]float64{0.7, 0.72, 0.75}, Place{18, -1} }},
		"card cut":  {NoCard, "whole card", func(s *scene) { s.aim = Place{-100, 0} }},
		"many hidden": {CardHidden, "fingers", func(s *scene) {
			s.fingers = []Place{{-22, -23}, {-8, -23}, {6, -23}, {22, -23}, {-22, 21}, {-8, 21}, {6, 21}, {22, 21}, {-39, 0}, {39, 0}}
		}},
	} {
		t.Run(name, func(t *testing.T) {
			s := careful(7)
			c.change(s)
			_, err := Find(s.photo(), Options{}, nil)
			var r *Refusal
			require.ErrorAs(t, err, &r)
			assert.Equal(t, c.reason, r.Reason, r.Advice)
			assert.Contains(t, r.Advice, c.advice)
		})
	}
}

func TestCalipers(t *testing.T) {
	s := careful(9)
	p := s.photo()
	plain, err := Find(p, Options{}, nil)
	require.NoError(t, err)
	scaled, err := Find(p, Options{LengthMM: plain.LengthMM * 1.02}, nil)
	require.NoError(t, err)
	assert.InDelta(t, 1.02, scaled.Scaled, 1e-9)
	assert.InDelta(t, plain.PerimeterMM*1.02, scaled.PerimeterMM, 1e-6)
	_, err = Find(p, Options{LengthMM: plain.LengthMM * 1.1}, nil)
	var r *Refusal
	require.ErrorAs(t, err, &r)
	assert.Equal(t, WrongLength, r.Reason)

	stop := errors.New("out of time")
	_, err = Find(p, Options{}, func() error { return stop })
	assert.ErrorIs(t, err, stop)
}

func TestNothingToSee(t *testing.T) {
	for _, img := range []image.Image{
		image.NewGray(image.Rect(0, 0, 1200, 900)),
		image.NewGray(image.Rect(0, 0, 30, 30)),
		image.NewYCbCr(image.Rect(0, 0, 801, 603), image.YCbCrSubsampleRatio420),
		image.NewUniform(color.White),
	} {
		if img.Bounds().Dx() > 1e6 {
			continue
		}
		_, err := Find(NewPhoto(img, 6), Options{}, nil)
		var r *Refusal
		require.ErrorAs(t, err, &r)
	}
}
