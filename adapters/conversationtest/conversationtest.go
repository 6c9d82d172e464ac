// Package conversationtest holds one conversation that every adapter's tests
// drive by their own platform's events, so that the same words get the same
// answers in every room. It is not part of the program.
package conversationtest

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Turn is one message of a maker, and what the room must show for it.
type Turn struct {
	// Name is how a later turn names this one, to reply to its answer.
	Name string
	// Say is the message, without a mention or a prefix.
	Say string
	// RepliesTo names the turn whose answer this message replies to; empty for a
	// message that replies to none.
	RepliesTo string
	// Line is the request as it was understood; empty where nothing is computed.
	Line string
	// Shows are sentences of the answer, as they stand in it.
	Shows []string
	// Silent is set where nothing may be shown.
	Silent bool
}

// Turns is the conversation.
var Turns = []Turn{
	{
		Name: "collet", Say: "a collet for an 8x6 oval in 22 gauge sterling, 4 deep",
		Line:  "collet oval 8x6 depth 4 sterling 22ga",
		Shows: []string{"of 22 ga (0.64 mm) sterling silver for an oval 8 x 6 mm."},
	},
	{
		Say: "and in 20 gauge?", Line: "collet oval 8x6 depth 4 sterling 20ga",
		Shows: []string{"of 20 ga (0.81 mm) sterling silver for an oval 8 x 6 mm.", "changed: thickness 20ga"},
	},
	{
		Say: "same but 14k rose", Line: "collet oval 8x6 depth 4 14k-rose 20ga",
		Shows: []string{"of 20 ga (0.81 mm) 14 karat rose gold for an oval 8 x 6 mm.", "changed: alloy 14k-rose"},
	},
	{
		Say: "a band, 4 mm wide and 1.5 thick, sterling",
		Shows: []string{
			"Which ring size, and in which system: us 7, uk N, iso 54?",
			"US 7", "UK N", "54 mm round the finger (ISO)",
		},
	},
	{
		Name: "band", Say: "us 7", Line: "band ring 7 us width 4 thickness 1.5mm sterling",
		Shows: []string{"4 x 1.5 mm flat sterling silver for US 7."},
	},
	{
		Say: "and 5 deep?", RepliesTo: "collet", Line: "collet oval 8x6 depth 5 sterling 22ga",
		Shows: []string{"of 22 ga (0.64 mm) sterling silver for an oval 8 x 6 mm.", "changed: depth 5"},
	},
	{
		Say: "i got pickle in my eye",
		Shows: []string{
			"Rinse acid or pickle out of the eye now: running water, lids open, for 20 minutes.",
			"Call your local emergency number (112, 999, 911 ...) while somebody goes on rinsing; it is an emergency even if the pain goes.",
		},
	},
	{
		Say: "she wants to put milk in it",
		Shows: []string{
			"Use water only: never put anything in the eye to neutralise acid.",
			"Rinse acid or pickle out of the eye now: running water, lids open, for 20 minutes.",
		},
	},
	{
		Say:   "what is kerf",
		Shows: []string{"The kerf is the width of the cut that a saw blade takes away, a few tenths of a millimetre."},
	},
	{Say: "thanks a lot!", Silent: true},
	{
		Say: "in inches please", Line: "collet oval 8x6 depth 5 sterling 22ga units inch",
		Shows: []string{"changed: units inch"},
	},
	{
		Say:   "what's the price of gold today",
		Shows: []string{"I don't know the day's metal prices."},
	},
	{
		Say: "and 6 mm wide?", RepliesTo: "band", Line: "band ring 7 us width 6 thickness 1.5mm sterling",
		Shows: []string{"changed: width 6 mm", "6 x 1.5 mm flat sterling silver for US 7."},
	},
}

// Shown is what a room shows for one message.
type Shown struct {
	// Answer is the platform's id of the answer, for a reply to it.
	Answer string
	// Text is all that the answer says, its buttons too.
	Text string
}

// Hold holds the conversation. say puts a message into the room, in reply to an
// earlier answer where that is not empty, and waits for what the room shows; for
// a message that is met with silence it returns at once.
func Hold(t *testing.T, say func(turn Turn, replyTo string) Shown) {
	t.Helper()
	answers := map[string]string{}
	for _, turn := range Turns {
		to, known := answers[turn.RepliesTo]
		require.True(t, known || turn.RepliesTo == "", "no answer is called %q", turn.RepliesTo)
		shown := say(turn, to)
		if turn.Silent {
			assert.Empty(t, shown.Text, turn.Say)
			continue
		}
		if turn.Name != "" {
			answers[turn.Name] = shown.Answer
		}
		text := plain(shown.Text)
		for _, want := range turn.wants() {
			assert.Contains(t, text, plain(want), turn.Say)
		}
	}
}

// wants is all that an answer must show.
func (turn Turn) wants() []string {
	if turn.Line == "" {
		return turn.Shows
	}
	return append([]string{turn.Line}, turn.Shows...)
}

// plain is a text without its platform's marks, line ends and capitals.
func plain(s string) string {
	s = strings.ToLower(s)
	return strings.Join(strings.Fields(strings.NewReplacer(`\`, "", "**", "").Replace(s)), " ")
}

// NumberIn is the number that stands in the group of a pattern, which a text must
// match.
func NumberIn(t *testing.T, text, pattern string) float64 {
	t.Helper()
	found := regexp.MustCompile(pattern).FindStringSubmatch(text)
	require.Len(t, found, 2, text)
	v, err := strconv.ParseFloat(found[1], 64)
	require.NoError(t, err)
	return v
}
