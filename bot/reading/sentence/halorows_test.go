package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Both rows of a halo have their own stones, a number with a fraction is cut down to the whole
// one, and what somebody has of stones or links is compared with what is wanted.
func TestRowsAndNumbersOfStones(t *testing.T) {
	for say, want := range map[string]string{
		"Double halo, centre 6.5, first row 1.2 second row 1.5. counts pls":                               "stones of 1.2 mm round 6.5 mm",
		"2 rows of halo round 5mm, 1.2 inside row an 1.5 outer row. counts?":                              "15 stones of 1.2 mm round 5 mm",
		"two row halo, 7 mm middle, both rows 1.3, how many stones in each row":                           "19 stones of 1.3 mm round 7 mm",
		"The number became 17,4 when I counted by myself. What does one do with the 0,4?":                 "Take 17",
		"flower, 5mm middle and exactly 8 stones round it all touching. What size are the petals?":        "8 stones of 3.1 mm touch",
		"I have made forty rings already and the chain is only 15 cm. How many more do I make for 40 cm?": "About 67 more",
		"my bracelet is 12 cm with 28 links, how many more links to get to 19 cm":                         "About 17 more",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, want, say)
	}
	enough := Read("halo for a pear 9x6, got a pack of 20 cz 1.75mm is that enough", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, enough.Verdict, "Yes, that is enough")
	assert.Empty(t, enough.Options["count"])
}
