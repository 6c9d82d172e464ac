package trust

import (
	"compress/gzip"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The chance is the logistic function of the weighted sum of the signs.
func TestChance(t *testing.T) {
	w := Weights{bias: 1, "likely": 2, "odd": -3}
	for _, test := range []struct {
		signs Signs
		sum   float64
	}{
		{nil, 1},
		{Signs{"likely": 0.5}, 2},
		{Signs{"likely": 1, "odd": 1}, 0},
		{Signs{"unknown": 7}, 1},
	} {
		assert.InDelta(t, 1/(1+math.Exp(-test.sum)), w.Chance(test.signs), 1e-12, test.signs)
	}
}

// Without signs, the weights come to the share of right outcomes; a sign that only right
// ones have speaks for a reading.
func TestFit(t *testing.T) {
	plain := []Outcome{{Right: true}, {Right: true}, {Right: true}, {Right: false}}
	w, err := Fit(plain)
	require.NoError(t, err)
	assert.InDelta(t, 0.75, w.Chance(nil), 1e-3)

	var told []Outcome
	for range 50 {
		told = append(told, Outcome{true, Signs{"named": 1}}, Outcome{false, Signs{"odd": 1}}, Outcome{Right: true}, Outcome{Right: false})
	}
	w, err = Fit(told)
	require.NoError(t, err)
	assert.Greater(t, w.Chance(Signs{"named": 1}), 0.9)
	assert.Less(t, w.Chance(Signs{"odd": 1}), 0.1)
	assert.InDelta(t, 0.5, w.Chance(nil), 0.01)
}

// The weights in the program trust what is likely by all words and well placed.
func TestLearnt(t *testing.T) {
	sure := Signs{"intent": math.Log(0.98), "other intent": 0.01, "places": math.Log(0.95), "worst place": math.Log(0.97), "other place": 0.03, "figures": 2, "options": 4}
	doubtful := Signs{"intent": math.Log(0.1), "other intent": 0.8, "places": 2 * math.Log(0.1), "worst place": math.Log(0.1), "other place": 0.8, "unlikely places": 2, "figures": 2, "options": 4}
	assert.Greater(t, Chance(sure), 0.8)
	assert.Less(t, Chance(doubtful), 0.3)
}

// Of what comes after a piece, a change that fits its words and its piece is trusted, and
// one whose figure belongs elsewhere is not.
func TestLearntOfTurns(t *testing.T) {
	sure := Signs{"changed": 1, "changed gives": 0.95, "changes": 1, "figures": 1, "words": 4}
	doubtful := Signs{"changed": 1, "changed gives": 0.2, "changed about": 0.6, "questions": 1, "changes": 1, "figures": 1, "bare": 1, "words": 9, "bare place": math.Log(0.02), "worst place": math.Log(0.02), "other place": 0.9}
	assert.Greater(t, ChanceInTalk(sure), 0.8)
	assert.Less(t, ChanceInTalk(doubtful), 0.4)
}

// Outcomes are added to those of a file, and read back as one list.
func TestAppend(t *testing.T) {
	path := filepath.Join(t.TempDir(), "outcomes.gz")
	told := []Outcome{{Right: true, Signs: Signs{"named": 1}}, {Signs: Signs{"odd": 0.5}}}
	require.NoError(t, Append(path, told[:1]))
	require.NoError(t, Append(path, told[1:]))
	f, err := os.Open(path)
	require.NoError(t, err)
	z, err := gzip.NewReader(f)
	require.NoError(t, err)
	d := json.NewDecoder(z)
	for _, want := range told {
		var got Outcome
		require.NoError(t, d.Decode(&got))
		assert.Equal(t, want, got)
	}
	require.NoError(t, f.Close())
}
