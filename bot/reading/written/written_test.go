package written

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRead(t *testing.T) {
	m, err := Read("bezel,collet\tstrip for an [18x13|size] oval, [5|dome] tall")
	require.NoError(t, err)
	assert.Equal(t, []string{"bezel", "collet"}, m.Intents)
	assert.Equal(t, "strip for an 18x13 oval, 5 tall", m.Text)
	require.Len(t, m.Figures, 2)
	assert.Equal(t, "18x13", m.Text[m.Figures[0].Start:m.Figures[0].End])
	assert.Equal(t, "dome", m.Figures[1].Role)
	_, err = Read("no tab here")
	require.Error(t, err)
}

func TestReadFollowUp(t *testing.T) {
	f, err := ReadFollowUp("band\tchange\tmake it [6|width] wide")
	require.NoError(t, err)
	assert.Equal(t, "band", f.After)
	assert.Equal(t, "change", f.Does)
	assert.Equal(t, "make it 6 wide", f.Text)
	_, err = ReadFollowUp("band\tmake it 6 wide")
	require.Error(t, err)
}

// Every line that is kept can be read.
func TestAllCanBeRead(t *testing.T) {
	messages, err := Messages("messages")
	require.NoError(t, err)
	assert.NotEmpty(t, messages)
	followUps, err := FollowUps("followups")
	require.NoError(t, err)
	assert.NotEmpty(t, followUps)
}
