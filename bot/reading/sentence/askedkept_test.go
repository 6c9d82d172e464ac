package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is kept is only what was named: a figure for another thing never becomes a
// default, nor does one in a question.
func TestBenchKeepsOnlyWhatIsNamed(t *testing.T) {
	for say, want := range map[string]string{
		"please keep a ledge of 0.35 for me from now on":                         "bench ledge 0.35",
		"my rim is always 0.4, keep that":                                        "bench rim 0.4",
		"we are on letter now, forget A4 please":                                 "bench paper letter",
		"the paper here is A4, always use that":                                  "bench paper a4",
		"delete the gauge that I saved":                                          "bench drop thickness",
		"which of the defaults are mine? gauge says 24 and metal says brass":     "bench",
		"set my gauge to 26":                                                     "bench thickness 26ga",
		"from now on always use 0.7 brass for me":                                "bench alloy brass thickness 0.7 mm",
		"everything in inches from now on please, no need for millimetres again": "bench units inch",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, want, r.Line(), say)
	}
	seam := Read("my seam allowance is 0.4, always has been", Context{Addressed: true})
	assert.Equal(t, Question, seam.Outcome)
	assert.Equal(t, "bench", seam.Request)
	assert.NotContains(t, seam.Options, "allowance")
	assert.NotContains(t, seam.Options, "thickness")
}

func TestClassIsReadByWhoMakesWhat(t *testing.T) {
	for say, want := range map[string]string{
		"class of 9 learners, all doing the oval 10x8 collet in copper 0.8, list what to cut": "kit makers 9 collet alloy copper outline oval size 10x8 thickness 0.8 mm",
		"how do I get 14 blanks of a pear 9x6 out of sheets of 100x200 for my class":          "kit makers 14 sheet 100x200 collet outline pear size 9x6",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, want, r.Line(), say)
	}
	two := Read("saturday class: 8 do the oval collet 8x6 and 5 do the dome 20, one cutting list for both", Context{Addressed: true})
	assert.Equal(t, Question, two.Outcome, "two kinds of pieces are never read as one")
	assert.Equal(t, "kit", two.Request)
}

func TestTrialIsReadByWhatWasMeasured(t *testing.T) {
	r := Read("trial measured: mouth 8.9, foot 7.3, stone is an oval 8x6, 22 ga sterling. what do I change", Context{Addressed: true})
	assert.Equal(t, "tune", r.Request)
	assert.Equal(t, "8.9", r.Options["rimgot"])
	assert.Equal(t, "7.3", r.Options["basegot"])
	assert.Equal(t, "8x6", r.Options["size"])

	r = Read("my trial is 4.3 tall and I wanted 4, how do I cut the next one", Context{Addressed: true})
	assert.Equal(t, "trial piece", r.Topic)
	assert.Contains(t, r.Text, "0.30 mm lower")

	r = Read("my trial's mouth is 7.4 where the plan says 7.2, next blank?", Context{Addressed: true})
	assert.Equal(t, "trial piece", r.Topic)
	assert.Contains(t, r.Text, "0.63 mm shorter")

	r = Read("my trial's rim came to .362 where .354 was wanted, what do I change", Context{Addressed: true})
	assert.Equal(t, Question, r.Outcome, "a bare figure under 0.8 may be inches")
}

func TestEntryIsShownByItsNumber(t *testing.T) {
	r := Read("put a comment under entry number 27, it is not correct", Context{Addressed: true})
	assert.Equal(t, "daybook action show number 27", r.Line())
	assert.NotEmpty(t, r.Notes, "that nothing was changed is said")
	assert.Equal(t, "daybook action forget", Read("erase me from your records please", Context{Addressed: true}).Line())
}
