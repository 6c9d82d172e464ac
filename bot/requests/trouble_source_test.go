package requests_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/requests"
	"guildhand/bot/requests/requeststest"
)

// A ring's length grows by pi times its diameter: GIA's quality benchmark for
// finger sizes gives mandrel steps of a quarter, half and whole size as 0.2, 0.4
// and 0.8 mm of diameter, which are 0.6, 1.3 and 2.5 mm of length.
func TestTroubleCorrectsByPi(t *testing.T) {
	for line, says := range map[string]string{
		"trouble strip-too-short by 0.2 across": "0.6 mm of length",
		"trouble strip-too-short by 0.4 across": "1.3 mm of length",
		"trouble strip-too-long by 0.8 across":  "2.5 mm of length",
	} {
		a, err := requeststest.Ask(requests.All(nil), line)
		require.NoError(t, err)
		assert.Contains(t, a.Headline, says, line)
	}
}
