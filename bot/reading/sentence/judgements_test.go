package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure is judged beside the figure that it depends on, and by what it is.
func TestFiguresAreJudged(t *testing.T) {
	for say, want := range map[string]struct{ topic, says string }{
		"prongs 0.8 wide on 6.5, ok?":                                                        {"limit: prong thickness", "Yes, 0.8 mm"},
		"will 0.7 mm claws do for a 2 ct diamond?":                                           {"limit: prong of the stone", "No, 0.7 mm is too thin"},
		"are 2.2mm claws too wide for an 8mm stone?":                                         {"limit: prong of the stone", "2.2mm is heavy"},
		"is a seat 0.3 deep in a 0.8 wall ok":                                                {"limit: seat of the wall", "Yes, a seat of 0.3 is adequate"},
		"seat cut .020 into a .032 wall, too deep?":                                          {"limit: seat of the wall", "too deep"},
		"24g for a bezel on a ring worn every day, ok?":                                      {"limit: bezel thickness", "Yes, 24g (0.51 mm)"},
		"1/16 of bezel over the edge, too much?":                                             {"limit: rim above the girdle", "1/16 (1.59 mm) is too much"},
		"is a 1mm wide shank too thin for every day, silver":                                 {"limit: ring thickness", "1mm is thin"},
		"ring 1 mm thick 2 mm wide in fine silver for every day, is it strong enough":        {"limit: ring thickness", "Fine silver is soft"},
		"Would you call 0.3 mm play round a 6 mm stone sloppy or acceptable for a beginner?": {"limit: gap round a stone", "0.3 mm is too much"},
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Equal(t, want.topic, r.Topic, say)
		assert.Contains(t, r.Text, want.says, say)
	}
}

// A verdict takes no piece's place where the piece is what is asked for.
func TestPiecesAreNotJudged(t *testing.T) {
	for _, say := range []string{
		"how do i make a bezel for my 5.5mm x 4 pear, fine silver and .5mm thick and 2.7mm high",
		"collet oval 8x6 depth 4, seat 0.3, 0.8 thick",
	} {
		assert.NotEqual(t, Explanation, Read(say, Context{Addressed: true}).Outcome, say)
	}
}
