package requests

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// A heart's cleft bends the opposite way to its point: a score on the inside would
// close there instead of opening.
func TestCleftsBendTheOppositeWay(t *testing.T) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for line, want := range map[string]string{
		"bezel heart 12x12 dome 4 sterling 24ga":                             "bend at the fold line: it is",
		"bezel heart 12x12 dome 4 sterling 24ga seam point":                  "bend at the fold line, the opposite way",
		"bezel heart 12x12 dome 4 sterling 24ga seam side":                   "bend at the 2 fold lines, in the cleft the opposite way",
		"bezel heart 12x12 dome 4 sterling 24ga corner mitred":               "score 1 fold line on the inside to",
		"bezel heart 12x12 dome 4 sterling 24ga corner mitred seam point":    "score the fold line in the cleft on the outside",
		"bezel heart 12x12 dome 4 sterling 24ga corner mitred seam side":     "score 1 fold line on the inside and the one in the cleft on the outside",
		"bezel square 10 dome 3 sterling 24ga corner mitred":                 "score 4 fold lines on the inside to",
		"collet heart 8x8 depth 4 sterling 22ga":                             "Bend at the fold line: it is",
		"collet heart 8x8 depth 4 sterling 22ga seam point":                  "Bend at the fold line, the opposite way",
		"collet emerald 8x6 depth 4.2 sterling 22ga":                         "Bend at the 8 fold lines: each",
		"saddle heart 8x8 depth 4 sterling 22ga seam point shank us 7 1.5mm": "Bend at the fold line, the opposite way",
	} {
		a := requeststest.Answered(t, specs, shop, line)
		require.NotNil(t, a, line)
		assert.Contains(t, strings.Join(a.Steps, "\n"), want, line)
	}
}
