package requests

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/catalogue"
	"guildhand/calc/outline"
)

// Whatever place an outline has for its seam can be asked for.
func TestSeamOptionKnowsEveryPlace(t *testing.T) {
	known := seamOption().Choices
	for _, k := range outline.Kinds() {
		if k == outline.Measured {
			continue
		}
		c, err := outline.New(outline.Shape{Kind: k, Size: k.Describe().Sample})
		require.NoError(t, err)
		for _, place := range c.Places {
			assert.True(t, slices.ContainsFunc(known, func(c catalogue.Choice) bool { return c.Key == place.Name }),
				"the option seam lacks %q of a %s", place.Name, k)
		}
	}
}
