package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWaxesOfATree(t *testing.T) {
	for say, line := range map[string]string{
		"If the tree carries twelve little shells of 0.4 g each and a central stem of 5, all in wax, how much bronze should go in the crucible?": "melt alloy commercial-bronze wax 9.8 g",
		"Tree weighs 46 grams with the base, base on its own is 19. 9ct yellow. how much grain":                                                  "melt alloy 9k-yellow wax 27 g",
		"tree came to 38.4g on the base and the base by itself is 11.2, sterling, how much metal":                                                "melt alloy sterling wax 27.2 g",
		"Casting four waxes on one tree: 1.1, 0.9, 1.6, 2.0, sprue another 1.8. All 9ct yellow. What do I weigh out?":                            "melt alloy 9k-yellow wax 7.4 g",
		"eight waxes at 1.3g each plus a 4g sprue in bronze, how much do i melt":                                                                 "melt alloy commercial-bronze wax 14.4 g",
		"waxes weigh 2.1, 1.7 and 3.4 on one tree, stem is 2.5, going in 14k yellow. total metal please":                                         "melt alloy 14k-yellow wax 9.7 g",
		"14k white wax 1.8 g how much metal": "melt alloy 14k-white wax 1.8 g",
		"My son has printed the model in plastic that shall burn away, 1,6 gram. Is it same number as for wax? It becomes brass.": "melt alloy brass wax 1.6 g wax-density 1.1",
		// No parts of a tree.
		"wax 2.4 g with the sprue, button of 5 g, sterling": "melt alloy sterling button 5 g wax 2.4 g",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, line, r.Line(), say)
	}
	enough := Read("The wax tree has five leaves on it at 0.8 g each and the stem is 3 g. Would 120 g of silver be enough?", Context{Addressed: true})
	assert.Contains(t, enough.Verdict, "Yes: the casting takes 75.5 g")
}

func TestMetalsInWords(t *testing.T) {
	for say, holds := range map[string]string{
		"mixing 5g of 9ct with 3g of 18ct, what carat do I end up with": "12.4 karat",
		"i have 25g of casting grain. heaviest wax i can do":            "1.9 g at most",
		"30g of 18k yellow, heaviest wax that will cast":                "1.5 g at most",
		"Are you a human or a machine?":                                 "I am a program",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, holds, say)
	}
}

func TestHeatInPlaceOfATopic(t *testing.T) {
	for say, line := range map[string]string{
		"melt temp of brass vs copper. torch is just a map gas can":                          "heat alloy brass",
		"whats silver melt at sterling not fine":                                             "heat alloy sterling",
		"At what temperature shall I anneal silver and how do I see it without thermometer?": "heat alloy sterling",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
	assert.Equal(t, Question, Read("how do i anneal silver", Context{Addressed: true}).Outcome)
}

func TestTalkInPlaceOfATopic(t *testing.T) {
	for _, say := range []string{
		"Good morning! Here is minus 18 and dark. I sit with coffee and look at my stones.",
		"Works. perfect fit",
	} {
		assert.Equal(t, Silent, Read(say, Context{Addressed: true}).Outcome, say)
	}
	assert.Equal(t, Declined, Read("gold fix today?", Context{Addressed: true}).Outcome)
}

func TestWaxInSeveralMetals(t *testing.T) {
	for say, note := range map[string]string{
		"wax weighs 2.3g whats that in 18k yellow and in silver":                         "in sterling silver the same wax takes 0.66 times as many grams",
		"Same wax, two metals: 2.6 g in wax, quote me sterling and then bronze please":   "in commercial bronze CuZn10 the same wax takes 0.85 times as many grams",
		"2.10 g of wax, does it come heavier in 9ct yellow than in 18 ct yellow, please": "in 18 karat yellow gold the same wax takes 1.37",
		"wax 3 g, not brass, silver":                 "",
		"my brass master weighs 5 g, what in silver": "",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, "melt", r.Request, say)
		if note == "" {
			assert.NotContains(t, strings.Join(r.Notes, "\n"), "times as many", say)
			continue
		}
		assert.Contains(t, strings.Join(r.Notes, "\n"), note, say)
	}
}

func TestEveryWaxOfATreeCounts(t *testing.T) {
	for say, line := range map[string]string{
		"four waxes, 2.1 1.8 1.5 and 0.9 grams, sprue 3 g, sterling. how much metal":                    "melt alloy sterling wax 9.3 g",
		"Waxes weigh 1.2 g, 0.7 g and 2.4 g, tree 5 g. 14k yellow":                                      "melt alloy 14k-yellow wax 9.3 g",
		"5 rings 1.4 g wax each, stem 6 g, sterling":                                                    "melt alloy sterling wax 13 g",
		"waxes .8 .9 1.1 and the button 10g, 9ct yellow":                                                "melt alloy 9k-yellow button 10 g wax 2.8 g",
		"wax 1.4 + wax 0.9 + sprue 0.6, how much sterling":                                              "melt alloy sterling wax 2.9 g",
		"Casting three little charms, 0.6, 0.65 and 0.8 g in wax, plus a tree of 3.5. Sterling silver.": "melt alloy sterling wax 5.55 g",
		"three waxes, 2 g each, and the tree 4g, sterling":                                              "melt alloy sterling wax 10 g",
		"12 shells of .5 g in wax each and a 6 g trunk. bronze.":                                        "melt alloy commercial-bronze wax 12 g",
		"Two wax models of 1,5 g and 2,2 g on one sprue, 1,1 g. How much bronze?":                       "melt alloy commercial-bronze wax 4.8 g",
		// One wax.
		"The wax model weighs 3 g. How much sterling with a button of 10 g?": "melt alloy sterling button 10 g wax 3 g",
		"the wax with its tree is 12 g, sterling":                            "melt alloy sterling wax 12 g",
		"my wax is 2.3g and the sprue is another 0.7, sterling":              "melt alloy sterling sprue 0.7 wax 2.3 g",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
}
