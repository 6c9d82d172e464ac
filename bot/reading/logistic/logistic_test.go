package logistic

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sampleOf makes a sample of words.
func sampleOf(words string, classes ...string) Sample {
	c := Counts{}
	for _, w := range strings.Fields(words) {
		c[w]++
	}
	return Sample{Kinds: []Counts{c}, Classes: classes}
}

var samples = []Sample{
	sampleOf("cut a bezel", "bezel"),
	sampleOf("cut a ring", "band"),
	sampleOf("bend a ring and a bezel", "band", "bezel"),
	sampleOf("solder a bezel", "bezel"),
}

func TestFit(t *testing.T) {
	m, err := Fit(samples, 1)
	require.NoError(t, err)
	packed, err := m.Pack()
	require.NoError(t, err)
	again, err := Unpack(packed)
	require.NoError(t, err)
	for words, want := range map[string]string{"saw a ring": "band", "file the bezel": "bezel"} {
		chances := again.Chances(sampleOf(words).Kinds...)
		best, chance := chances.Best()
		assert.Equal(t, want, best, words)
		assert.Greater(t, chance, 0.5, words)
		assert.InDelta(t, 1, chances.Of(again.Classes...), 1e-9, "chances sum to one")
	}
}

func TestUnpackRefusesADamagedModel(t *testing.T) {
	m, err := Fit(samples, 1)
	require.NoError(t, err)
	packed, err := m.Pack()
	require.NoError(t, err)
	_, err = Unpack(packed[:len(packed)/2])
	require.Error(t, err)
}

// The gradient agrees with differences of the loss.
func TestGradient(t *testing.T) {
	m := &Model{index: map[string]int{}}
	m.choose(samples, []int{1})
	m.Classes = classesOf(samples)
	p := problem{features: len(m.Features), classes: 2}
	for _, s := range samples {
		p.rows = append(p.rows, sparse(m.vector(s.Kinds)))
		target := make([]float64, 2)
		for _, c := range s.Classes {
			target[slices.Index(m.Classes, c)] += 1 / float64(len(s.Classes))
		}
		p.targets = append(p.targets, target)
	}
	p.byFeature()
	w := make([]float64, (len(m.Features)+1)*2)
	for i := range w {
		w[i] = math.Sin(float64(i))
	}
	grad := make([]float64, len(w))
	p.gradient(grad, w)
	const step = 1e-5
	for i := range w {
		was := w[i]
		w[i] = was + step
		up := p.loss(w)
		w[i] = was - step
		down := p.loss(w)
		w[i] = was
		assert.InDelta(t, (up-down)/(2*step), grad[i], 1e-6)
	}
}
