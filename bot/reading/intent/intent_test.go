package intent

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const sentences = "../sentence/testdata"

// The model in the program knows the sentences that it was learnt from, and says
// so of others without being sure of everything.
func TestLearnt(t *testing.T) {
	for _, test := range []struct{ message, want string }{
		{"I have this 9 x 7 pear and 20 gauge sterling in a tapered setting: what do I cut?", "collet"},
		{"why does the rim of the blank come out curved?", Explanation},
		{"how long a strip do I need for a ring in size 7, 1.5 mm thick", "band"},
		{"bezel strip for an 18x13 oval cab 5 mm tall", "bezel"},
	} {
		likelihoods := Learnt().Likelihoods(test.message)
		best, chance := likelihoods.Best()
		assert.Equal(t, test.want, best, test.message)
		assert.Greater(t, chance, 0.4, test.message)
		sum := 0.0
		for _, c := range likelihoods {
			sum += c
		}
		assert.InDelta(t, 1, sum, 1e-9, "chances sum to one")
	}
	likelihoods := Learnt().Likelihoods("")
	assert.Len(t, likelihoods, len(Learnt().Intents), "nothing said, nothing known")
}

// A model learnt without some of the sentences names what they ask for.
func TestFitNamesWhatItHasNotSeen(t *testing.T) {
	if testing.Short() {
		t.Skip("it learns a model, which takes some seconds")
	}
	all, _, err := Examples(sentences)
	require.NoError(t, err)
	var seen, unseen []Example
	for i, e := range all {
		if i%10 == 0 {
			unseen = append(unseen, e)
		} else {
			seen = append(seen, e)
		}
	}
	m, err := Fit(seen)
	require.NoError(t, err)
	packed, err := m.Pack()
	require.NoError(t, err)
	again, err := Unpack(packed)
	require.NoError(t, err)
	right := 0
	for _, e := range unseen {
		if best, _ := again.Likelihoods(e.Message).Best(); slices.Contains(e.Intents, best) {
			right++
		}
	}
	share := float64(right) / float64(len(unseen))
	t.Logf("%.1f %% of %d sentences that the model has not seen, %d seen", 100*share, len(unseen), len(seen))
	assert.Greater(t, share, 0.75)
}

// The gradient agrees with differences of the loss.
func TestGradient(t *testing.T) {
	m := &Model{index: map[string]int{}}
	examples := []Example{{"cut a bezel", []string{"bezel"}}, {"cut a ring", []string{"band"}}, {"bend a ring and a bezel", []string{"band", "bezel"}}}
	m.features(examples)
	m.Intents = intentsOf(examples)
	p := problem{m: m, intents: 2}
	for _, e := range examples {
		p.rows = append(p.rows, sparse(m.Vector(e.Message)))
		target := make([]float64, 2)
		for _, i := range e.Intents {
			target[slices.Index(m.Intents, i)] += 1 / float64(len(e.Intents))
		}
		p.targets = append(p.targets, target)
	}
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

func TestUnpackRefusesADamagedModel(t *testing.T) {
	_, err := Unpack(packed[:len(packed)/2])
	require.Error(t, err)
}

func TestWords(t *testing.T) {
	assert.Equal(t, []string{"a", "##", "mm", "pear", "#", "ga", "it's", "mine"}, Words("A 9 x 7mm pear, 20ga; it's mine"))
}

func BenchmarkLikelihoods(b *testing.B) {
	for b.Loop() {
		Learnt().Likelihoods("I have this 9 x 7 pear and 20 gauge sterling: what do I cut, and does the point need a relief?")
	}
}
