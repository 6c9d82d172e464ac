package treatment

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/stock"
)

// Every treatment that an alloy names is described, and none is left over.
func TestTreatmentsAreWhole(t *testing.T) {
	used := map[stock.Treatment]bool{}
	for _, a := range stock.Alloys() {
		used[a.Treatment] = true
		way, ok := treatments[a.Treatment]
		if !assert.True(t, ok, "%s is treated as %q, which is not described", a.Key, a.Treatment) {
			continue
		}
		assert.NotEmpty(t, way.Cool, "%s: Cool", a.Treatment)
		assert.NotEmpty(t, way.Why, "%s: Why", a.Treatment)
		assert.NotEmpty(t, way.After, "%s: After", a.Treatment)
		assert.True(t, way.SilverSolder != (len(way.Solder) > 0), "%s: SilverSolder or Solder", a.Treatment)
	}
	for name := range treatments {
		assert.True(t, used[name], "no alloy is treated as %q", name)
	}
}
