package bot

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/requests"
)

// TestSpokenTo: the bot answers what is meant for it, and leaves a room's
// chatter and other bots' commands alone.
func TestSpokenTo(t *testing.T) {
	s := New(Options{Specs: requests.All(nil)})
	for _, row := range []struct {
		how  Addressing
		text string
		want bool
	}{
		{Prefixed, "ban @spammer", false},
		{Prefixed, "ban @spammer 30", false},
		{Prefixed, "done", false},
		{Prefixed, "home", false},
		{Prefixed, "some day!", false},
		{Prefixed, "weather tomorrow", false},
		{Prefixed, "band practice", false},
		{Prefixed, "help", true},
		{Prefixed, "gauge", true},
		{Prefixed, "stop", true},
		{Prefixed, "guage 20", true},
		{Prefixed, "dame 12mm copper", true},
		{Prefixed, "collet oval 8x6", true},
		{Prefixed, "band us 7", true},
		{Prefixed, "bench letter", true},
		{Prefixed, "daybook forget", true},
		{Prefixed, "what do I cut for an 8x6 oval in sterling", true},
		{Prefixed, "I burned my hand", true},
		{Replied, "same in 20ga please", true},
		{Replied, "same but gold", true},
		{Replied, "2", true},
		{Replied, "make it 12", true},
		{Replied, "thank you", false},
		{Replied, "some day!", false},
		{Replied, "see you all at the guild hall at 7 tonight", false},
		{Named, "good evening", true},
	} {
		assert.Equal(t, row.want, s.spokenTo(t.Context(), Request{Text: row.text, Addressed: row.how}), "%v %q", row.how, row.text)
	}
}
