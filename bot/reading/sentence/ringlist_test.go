package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Each size of a list of rings is worked out: L to T, 1.5 mm thick, is 51.25 + 1.5 pi and
// so on.
func TestEachRingOfAListIsWorkedOut(t *testing.T) {
	t.Parallel()
	for said, holds := range map[string][]string{
		"strip lengths for sizes L to O please, 1.5 mm thick":                                {"L: 56.0 mm", "M: 57.2 mm", "N: 58.5 mm", "O: 59.7 mm", "4 blanks"},
		"sizes L-N in 2mm round wire, how much wire in all?":                                 {"L: 57.5 mm", "M: 58.8 mm", "N: 60.0 mm", "3 blanks take 177.8 mm"},
		"us sizes 6 through 7 in half sizes, 14 gauge round wire, lengths":                   {"6: 57.0 mm", "6 1/2: 58.3 mm", "7: 59.5 mm"},
		"5 people, stacking rings L N N P R, 2mm round wire, how much wire all in":           {"L: 57.5 mm", "2 x N: 60.0 mm", "R: 65.0 mm", "5 blanks take 307.7 mm"},
		"I need blanks for two US 6, one US 7 and three US 8 rings, 18 ga":                   {"2 x 6: 55.1 mm", "7: 57.6 mm", "3 x 8: 60.2 mm", "6 blanks"},
		"stackers: two of L, four of N, three of P, 1.5 mm round silver wire. How much wire": {"2 x L: 56.0 mm", "4 x N: 58.5 mm", "9 blanks", "9.7 g in sterling silver"},
		"Blank lengths for 50, 52, 54 and 56, flat 3 x 1.2":                                  {"50: 53.8 mm", "56: 59.8 mm", "(ISO)"},
		"plain bands 5, 6, 7 and 8 us, 4x1.5 mm, lengths please":                             {"5: 54.0 mm", "8: 61.7 mm"},
		"sizes 5 to 9 for 12 people, 1.3 round wire":                                         {"5: 53.4 mm", "9: 63.6 mm", "For 12 rings of these sizes reckon with about 708 mm; all in the largest would take 769 mm"},
		"I've 400 mm of 2 mm wire. Enough for sizes L, M, N, O, P and Q?":                    {"Yes: your 400 mm leaves 33.1 mm over", "Q: 63.8 mm"},
		"J, M and Q in mm inside":                                                            {"J: 48.8 mm round and 15.52 mm across", "US 8 1/4"},
		"his band is a T, hers is an L. 18k, 2x1.5 d-shape. cut lengths?":                    {"T: 65.2 mm", "L: 55.2 mm"},
		"wire for rings M, N and P please, each twice, 1.8 round":                            {"2 x M: 58.2 mm", "6 blanks take 361.9 mm"},
		"3 rings size 7, 2 rings size 8, 1.5mm x 3mm sterling, total length":                 {"3 x 7: 59.1 mm", "2 x 8: 61.7 mm", "5 blanks"},
		"I wear an N and my sister wears a Q, matching bands 3x1.5":                          {"N: 58.5 mm", "Q: 62.2 mm"},
		"sizes h, k, m, p, r, 1.2 mm strip":                                                  {"H: 50.0 mm", "R: 62.5 mm", "5 blanks"},
		"need lengths for a 52 and a 58 band, 1.4 thick 5 wide":                              {"52: 56.4 mm", "58: 62.4 mm"},
		"How long for a size 7 and a size 9, 16 gauge?":                                      {"7: 58.5 mm", "9: 63.6 mm"},
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		for _, h := range holds {
			assert.Contains(t, r.Text+r.Verdict+r.Ask, h, said)
		}
	}
}

func TestTwoSizesOfOneRingAreNoList(t *testing.T) {
	t.Parallel()
	for said, request := range map[string]string{
		"resize from J to T 1.5 thick":                             "resize",
		"resize sizes 5 to 9":                                      "resize",
		"make it from L to N. 2mm thick":                           "resize",
		"Both my rings need K to M, what do I add? 1.5 thick":      "resize",
		"how much do I cut out to take a T to an R?":               "resize",
		"the ring is too loose, she is an L and it is an N":        "resize",
		"finger is between M and N, wide band 8mm, 1.5 thick":      "band",
		"how long do i cut for a ring size Q? idk what Q is":       "band",
		"what is the difference in mm between ring size M and N":   "",
		"size N ring, 3 mm wide, and a round bezel 8 mm beside it": "",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, ringsOfSeveralSizes, r.Topic, said)
		assert.NotContains(t, r.Text+r.Verdict+r.Ask, "blanks take", said)
		if request != "" {
			assert.Equal(t, request, r.Request, said)
		}
	}
}
