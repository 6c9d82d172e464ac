package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPartOfTheLogIsForgottenOnlyWithAWarning(t *testing.T) {
	for _, said := range []string{
		"forget all of last night", "delete everything from yesterday", "forget the last thing I asked", "delete the third one", "remove entry 14",
		"wipe what I asked this morning", "erase the ring question, it's a surprise for my wife", "forget the stuff i asked abt the ring",
		"erase please what I asked about the ring of my girlfriend, she reads here also",
		"can you delete the question I asked about the opal", "please forget what I asked about the engagement ring",
	} {
		r := Read(said, Context{})
		assert.Equal(t, "daybook", r.Request, said)
		assert.Equal(t, map[string]string{"action": "forget"}, r.Options, said)
	}
	for _, said := range []string{
		"forget the wire, use sheet", "delete my bench settings", "forget my usual metal", "I always forget what hard solder is",
		"how do I remove firestain from yesterday's piece", "bin the scraps from yesterday or can I melt them", "remove 2 sizes from a ring, P to N",
	} {
		assert.NotEqual(t, "forget", Read(said, Context{}).Options["action"], said)
	}
}

func TestEntriesOfOthersAreNotRemoved(t *testing.T) {
	for _, said := range []string{"please delete my customer's entries", "I would like the entries of my father's customer to be deleted"} {
		assert.Equal(t, "entries of others", Read(said, Context{}).Topic, said)
	}
}

func TestCorrectionAsksForItsEntry(t *testing.T) {
	for _, said := range []string{
		"it was 8.5 not 8 in yesterday's entry", "yesterdays entry has the wrong stone size, it should be 8.5 not 8", "correct the last entry: the stone was 8.5 mm",
		"Entry from yesterday 18:40 has an error: stone was 9.5 mm, not 9.0 mm. Please correct it",
		"I wrote earlier that the block was 17 degrees. On inspecting the stamp I find it to be 28. Would you amend the entry?",
		"In the entry of yesterday I gave wrong stone. It was not 8.0 but 8.5 mm. Can you correct it in the book, please?",
	} {
		r := Read(said, Context{})
		assert.Equal(t, Question, r.Outcome, said)
		assert.Equal(t, correctionWanted, r.Topic, said)
	}
	r := Read("entry 12 is wrong, it should say 0.8 mm", Context{})
	assert.Equal(t, Question, r.Outcome)
	if assert.Len(t, r.Choices, 1) {
		assert.Equal(t, map[string]string{"amend": "12 entry 12 is wrong, it should say 0.8 mm"}, r.Choices[0].Options)
	}
	for _, said := range []string{"the entry hole was 8.5 not 8 mm, is that wrong for a rivet", "entry level saw for a beginner, is it wrong to buy cheap", "what is wrong with entry 7"} {
		assert.NotEqual(t, correctionWanted, Read(said, Context{}).Topic, said)
	}
}

func TestUsualIsReplaced(t *testing.T) {
	for said, want := range map[string]map[string]string{
		"you have me down for 1 mm silver but I changed to 0.8":                        {"thickness": "0.8 mm"},
		"you've got my usual metal as sterling, it's argentium now":                    {"alloy": "silver-935"},
		"You've me down for 1 mm silver but I changed over to 0.8 there after Easter.": {"thickness": "0.8 mm"},
	} {
		r := Read(said, Context{})
		assert.Equal(t, "bench", r.Request, said)
		assert.Equal(t, want, r.Options, said)
	}
	assert.Empty(t, Read("what have you got me down for", Context{}).Options)
}

func TestWhatWasAskedIsFoundAndGivenOut(t *testing.T) {
	for said, want := range map[string]map[string]string{
		"find that bezel I did for the green stone":      {"request": "bezel"},
		"what did I cut Tuesday. The 6.5 collet.":        {"from": "tuesday", "to": "tuesday", "request": "collet"},
		"how often do I ask for bands":                   {"request": "band"},
		"export everything as a file":                    {"action": "export"},
		"can I have all my entries in one file please":   {"action": "export"},
		"give me all my history so I can print it":       {"action": "export"},
		"I want a copy of all my questions":              {"action": "export"},
		"could I get everything I asked as a print out?": {"action": "export"},
	} {
		r := Read(said, Context{})
		assert.Equal(t, "daybook", r.Request, said)
		assert.Equal(t, want, r.Options, said)
	}
	for _, said := range []string{"how do I find the centre of a disc", "print the collet template 1:1", "what did I do wrong with my collet in the block"} {
		assert.NotEqual(t, "daybook", Read(said, Context{}).Request, said)
	}
}

func TestNameIsExplainedThatIsAskedAboutThen(t *testing.T) {
	assert.Equal(t, "flush setting", Read("Gypsy set. Somebody asked what it is. Want it put proper.", Context{}).Topic)
	assert.Equal(t, "melting brass", Read("I shall be melting old brass fittings for practice. What dangers are there, particularly from zinc?", Context{}).Topic)
}
