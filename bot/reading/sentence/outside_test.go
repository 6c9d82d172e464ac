package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is left to others is declined, also where a fact shares a word with it; work of
// the trade on plate is not.
func TestOutsideTheTrade(t *testing.T) {
	for say, declined := range map[string]bool{
		"how do i gold plate this":                             true,
		"how do you rhodium plate white gold at home":          true,
		"how to anodise titanium":                              true,
		"who sells decent silver sheet in small pieces":        true,
		"how long to braise a brisket":                         true,
		"a pedra fica rodando dentro da virola, já fechei":     true,
		"how do i solder a bezel to a back plate":              false,
		"how do i keep solder off gold plate":                  false,
		"my chain is worn, why does it rub through at one end": false,
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, declined, r.Outcome == Declined, "%s: %s", say, r.Topic)
	}
}

// A question that is surely about safety gets the cautions of its job, a trouble that has
// figures its causes, and a few words for the log or the bench what they ask for.
func TestInPlaceOfAPiece(t *testing.T) {
	for say, want := range map[string]string{
		"Soldering in the conservatory on a wooden table with a slate on it. My wife's not keen. What should I have by me?": "cautions job soldering",
		"the wall has ripples where i pushed it over, at the ends of the oval. stone 14x10":                                 "trouble sign bezel-wrinkles-on-setting",
		"show entry 12": "daybook action show number 12",
		"units inch":    "bench units inch",
		"can u always use 0.5 for me so i dont have to say": "bench thickness 0.5 mm",
		"what can you actually do?":                         "help",
		"thickness 3.2 mm which ga":                         "gauge gauge 3.2 mm",
	} {
		assert.Equal(t, want, Read(say, Context{Addressed: true}).Line(), say)
	}
}
