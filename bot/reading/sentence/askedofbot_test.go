package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWishesOfTheBotItself lists what members want of what is kept and shown, and mere talk
// that sounds like it.
func TestWishesOfTheBotItself(t *testing.T) {
	for said, want := range map[string]string{
		"stop storing my stuff":                      "what is kept of you",
		"please dont save what i type":               "what is kept of you",
		"who can see what i ask":                     "who sees the log",
		"can my boss read what i typed":              "who sees the log",
		"that wasnt what i asked":                    readWrongly,
		"can you forget that last one it was wrong":  "correct the log",
		"stop doing inches just do mm for me always": "bench units mm",
		"give me inches from now on instead of mm":   "bench units inch",
		"Might I see what I asked you last week?":    "daybook from 7d",
		"dont use inches with me":                    "bench units mm",
		"list my collets":                            "daybook request collet",
		"what does my bench assume":                  "bench",
		"forget my last question":                    "correct the log",
		"export all the calculations of this month":  "daybook action export from 30d",
		"Your answer yesterday was perfect; the stone dropped in with a most satisfying click.": "",
		"I've asked you six things today and I haven't even had my coffee.":                     "",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		switch {
		case want == "":
			assert.Equal(t, Silent, r.Outcome, "%s: %s", said, shown(r))
		case r.Topic != "":
			assert.Equal(t, want, r.Topic, said)
		default:
			assert.Equal(t, want, r.Line(), said)
		}
	}
}

// TestAskedAtTheCounter lists questions of the shop with the topic that answers each, in other
// words than the topics' own.
func TestAskedAtTheCounter(t *testing.T) {
	for said, topic := range map[string]string{
		"is it fine to keep my pearls in a plastic pouch":           "storing pearls",
		"can sterling be tig welded":                                "laser and welding",
		"what compound should i put on a brass cuff":                "compound by metal",
		"how do i rivet these so the arms still swing":              "rivet that turns",
		"the little stones in my halo touch each other":             "halo stones touch",
		"i dunked the ring in water while it was still red hot":     "quench too hot",
		"brooch keeps popping open, the pin comes out of the catch": "brooch catch opens",
		"can the acid stand next to my propane bottle":              "acid beside gas",
		"is a pyrex jug ok to quench in":                            "quenching bowl",
		"the pickle pot stinks today":                               "pickle smells",
		"does chlorine hurt silver":                                 "chlorine and jewellery",
		"can i solder hard on a fine silver bezel":                  "hard solder on fine silver",
		"do i top up my pickle or start again":                      "how often to change pickle",
		"30 gauge silver for a pendant back ok?":                    "limit: back plate",
		"0.4mm prongs any good":                                     "limit: prong thickness",
		"my melting dish has a crack, still usable?":                "cracked crucible",
		"i am scared of lighting the torch":                         "afraid of the torch",
		"what tools do i need to buy to start on 200 quid":          "first tools",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, topic, r.Topic, "%s: %s", said, shown(r))
	}
}
