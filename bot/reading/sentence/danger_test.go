package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/knowledge"
)

// TestDangerComesBeforeThePiece: whoever tells of gas, of fire or of a finger that is cut
// gets that answered, whatever piece the message asks for beside it.
func TestDangerComesBeforeThePiece(t *testing.T) {
	t.Parallel()
	for say, topic := range map[string]string{
		"torch hose hissing, ring size M 4x1.5 how long?":                                    "looking for a leak",
		"smell gas. anyway 8x6 oval bezel 0.3 fine silver":                                   "looking for a leak",
		"hose has split near the torch. 8x6 oval bezel 0.3 fine silver":                      "looking for a leak",
		"flashback in my torch twice. ring size N 3x1.5 how long":                            "flashback",
		"my torch went pop and the flame ran back into the hose, what strip for 8x6 oval":    "flashback",
		"acetylene cylinder is hot to touch. what's the strip for a 10 mm round":             "hot gas cylinder",
		"acetylene bottle got hot what do i do":                                              "hot gas cylinder",
		"i can smell propane by the bench. whats the band length for size 8, 2mm thick":      "looking for a leak",
		"i left the gas on all night":                                                        "gas left on",
		"torch wont turn off!!":                                                              "gas that can't be shut off",
		"the gas bottle fell over":                                                           "cylinder that fell",
		"our co alarm is going off while burning out":                                        "carbon monoxide alarm",
		"hot crucible tipped, silver all over the bench and floor":                           "molten metal spilt",
		"my kiln tingles when i touch the case, size N ring 3x1.5 how long":                  "machine that tingles",
		"lipo battery swelling in my pendant drill":                                          "swollen battery",
		"kiln is sparking and the breaker tripped":                                           "overheated kiln or plug",
		"there is a fire in the bin":                                                         "fire",
		"theres a small fire in the rag bin, also 22ga or 24ga for a bezel?":                 "fire",
		"bench is smouldering, 20ga for collet 6mm?":                                         "fire",
		"cut my thumb, plaster on. ring size P, 3 wide 1.2 thick, how long":                  "cut",
		"burnt her wrist on the kiln. 8x6 oval collet 0.8 sterling":                          "burn",
		"finger got jammed between the mill rollers":                                         "cut",
		"he pinched his finger in the pliers. 6mm round bezel 0.3, what length is the strip": "cut",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, topic, r.Topic, say)
		if r.Outcome == Explanation && newMessage(say).figureCount() > 0 {
			assert.Contains(t, r.Text, "Ask for the piece again when it is safe.", say)
		}
	}
}

// TestNoDangerInWords: some words of danger tell of none.
func TestNoDangerInWords(t *testing.T) {
	t.Parallel()
	for _, say := range []string{
		"charcoal block keeps smouldering, how do i stop it",
		"there is a fire extinguisher in the hall, enough?",
		"is there a fire risk with alcohol",
		"the collet split at the torch, 6 mm round 0.8 sterling",
		"i cut my finger rings from 1.5 mm sheet, size N 4 wide, how long",
		"do i need flashback arrestors on my torch",
		"do i close the cylinder or the torch first",
		"kiln smoking during burnout is that ok",
		"solder keeps burning after i take the torch away",
		"i dropped the collet on the floor, 6mm round",
		"Oh Margaret, that pendant is some beautiful. You must be tickled with it.",
		"10 mm fire opal, round cab, bezel strip in 0.3 fine silver",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, FirstAid, r.Outcome, say)
		for _, f := range knowledge.Facts() {
			assert.False(t, f.AtOnce && f.Key == r.Topic, "%s: %s", say, r.Topic)
		}
	}
}
