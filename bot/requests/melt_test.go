package requests

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/requests/requeststest"
)

// A button is a share of the casting or a mass of its own.
func TestButton(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		line                   string
		casting, button, total float64
		says                   string
	}{
		{"melt wax 2g sterling wax-density 1 button 20%", 20.72, 4.144, 24.864, "button = 20 % = 4.14 g"},
		{"melt wax 2g sterling wax-density 1 button 8g", 20.72, 8, 28.72, "button = 8.00 g, 39 % of the casting"},
		{"melt wax 2g sterling wax-density 1 button 5dwt", 20.72, 7.776, 28.496, "button = 7.78 g"},
	} {
		a := requeststest.Answered(t, All(nil), nil, tt.line)
		for id, want := range map[string]float64{"casting_mass": tt.casting, "button_mass": tt.button, "charge_mass": tt.total} {
			assert.InDelta(t, want, requeststest.Value(t, a, id), 0.05, "%s: %s", tt.line, id)
		}
		require.Greater(t, len(a.Steps), 1)
		assert.Contains(t, a.Steps[1], tt.says, tt.line)
	}
}
