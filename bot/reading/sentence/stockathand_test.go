package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestPiecesFromStrip: who has a strip is told how many come out of it, or whether it is
// enough, with the piece itself.
func TestPiecesFromStrip(t *testing.T) {
	t.Parallel()
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for say, want := range map[string]struct{ request, begins string }{
		// pi x (12 + 2 x 0.05 + 0.3) + 0.3 = 39.26 mm each: 600.5 / 39.76 = 15.1
		"I've 60 cm of 0.3 strip: how many 12 mm round bezels?": {"bezel", "It makes 15 in all: each takes 39.26 mm"},
		// pi x (20 + 0.1 + 0.4) + 0.3 = 64.7 mm
		"is 3 inches of strip enough for a 20 mm round 26 gauge": {"bezel", "Yes: one takes 64.7"},
		"I cut a 38 mm strip for a 12 mm round, is that enough?": {"bezel", "No: one takes 39."},
		// US 7 is 54.4 mm round: + 2 pi = 60.7 mm each
		"how many size 7 bands 2 mm thick from 300 mm of wire":     {"band", "It makes 4 in all: each takes 60.7 mm"},
		"got 10 inches of 2 mm wire will that make 4 size 7 rings": {"band", "Yes: 4 take 244.3"},
		// a band of 6 mm needs a little more than pi x (inside + thickness): 58.79 mm as in its own answer
		"how many size M rings 6 x 1.8 can i get from 300 mm of strip":                        {"band", "It makes 5 in all: each takes 58.79 mm"},
		"how many 12 mm round bezels from 60 cm of strip":                                     {"bezel", "It makes 14 in all: each takes 39.59 mm"}, // 26 ga, as in its own answer
		"Have I enough in a 150 mm length of 2 x 5 for three rings, size P?":                  {"band", "No: 3 take 188."},
		"i only have 60mm of fine silver strip left. stone is a 24x18 oval. will it go round": {"bezel", "No: one takes 6"},
	} {
		r := Read(say, c)
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, want.request, r.Request, say)
		assert.Contains(t, r.Verdict, want.begins, say)
	}
	for _, say := range []string{
		"how long a strip for a 10x8 oval bezel 0.3 mm",
		"how many 5 mm jump rings from 10 ft of 16 gauge",
		"12 mm round bezel, 28 ga, 5 mm high",
	} {
		assert.NotContains(t, Read(say, c).Verdict, "It makes", say)
	}
}

// TestPiecesFromStripAfterPiece: the piece of the last answer is meant where none is told.
func TestPiecesFromStripAfterPiece(t *testing.T) {
	t.Parallel()
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	first := "size 7 band 2mm thick 5 wide"
	c = c.After(first, Read(first, c))
	r := Read("i've got 150 mm of it, is that enough for two", c)
	assert.Equal(t, "band", r.Request)
	assert.Contains(t, r.Verdict, "Yes: 2 take 121.9")
}

// TestDiscsFromSheet: discs are counted in rows, as blanks are.
func TestDiscsFromSheet(t *testing.T) {
	t.Parallel()
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	assert.Contains(t, Read("how many 20 mm discs from a 100 x 100 sheet", c).Text, "16 discs of 20 mm fit") // (100 + 0.5) / 20.5 = 4.9
	assert.Contains(t, Read("can I get 12 discs of 22 mm out of a 100 x 75 mm sheet of 0.5 brass", c).Text, "Yes: 12 discs of 22 mm")
}

// TestHeatsBeside: several metals are told beside one another.
func TestHeatsBeside(t *testing.T) {
	t.Parallel()
	r := Read("melting point of copper and brass", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, r.Verdict, "Copper begins to melt at about 1065 °C")
	assert.Contains(t, r.Verdict, "Cartridge brass CuZn30 begins to melt")
}

// TestSizesInRow: sizes that stand in a row without a sign are a list.
func TestSizesInRow(t *testing.T) {
	t.Parallel()
	r := Read("need 3 rings sz 6 7 8 all 2 x 5 flat", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, r.Ask+r.Text+r.Verdict, "6: 58.2 mm, 7: 60.7 mm, 8: 63.3 mm")
}

// TestMeasureOfPiece: who names a piece and its stone and asks for a measure gets the piece.
func TestMeasureOfPiece(t *testing.T) {
	t.Parallel()
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for say, request := range map[string]string{
		"how tall should the collet be for a 6mm round": "collet",
		"how high should the bezel be for a 10x8 cab":   "bezel",
	} {
		r := Read(say, c)
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, request, r.Request, say)
	}
}
