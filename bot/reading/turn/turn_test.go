package turn

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/reading/intent"
)

func TestOf(t *testing.T) {
	for _, test := range []struct{ after, message, want string }{
		{"band", "make it 6 wide", Changes},
		{"bezel", "thanks, lovely", "silent"},
		{"collet", "why is the blank curved?", About},
		{"halo", "back to the first one", Back},
	} {
		does, chance := Of(test.after, intent.Message{Text: test.message}).Best()
		assert.Equal(t, test.want, does, test.message)
		assert.Greater(t, chance, 0.4, test.message)
	}
}
