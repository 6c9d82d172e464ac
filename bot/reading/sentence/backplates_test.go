package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBordersOfBackPlates(t *testing.T) {
	for say, line := range map[string]string{
		"i need a backplate for a 20x15 oval with 2mm border, 22ga":                                "bezel outline oval platerim 2 mm platethick 22ga size 20x15",
		"backplate 22ga for an oval 20x15, 2mm all round":                                          "bezel outline oval platerim 2 mm platethick 22ga size 20x15",
		"what size backing plate for a 12mm round cab with 1.5mm margin":                           "bezel outline round platerim 1.5 mm size 12 mm",
		"cut me a back plate with a 3 mm border all round for a 30 x 22 oval, 0.6 sheet":           "bezel outline oval platerim 3 mm platethick 0.6 mm size 30x22",
		"bezel for 20x15 oval cab 5 high, 26ga fine, with a back plate 22ga and 2mm border":        "bezel alloy fine-silver dome 5 outline oval plate solid platerim 2 mm platethick 22ga size 20x15 thickness 26ga",
		"bezel for a 10 mm round cab 4 high, 28 gauge fine silver on a back plate of 0.6 sterling": "bezel alloy fine-silver dome 4 outline round plate solid platethick 0.6 mm size 10 mm thickness 28ga",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, line, r.Line(), say)
	}
}

func TestTopicsOfAnotherMetal(t *testing.T) {
	for say, topic := range map[string]string{
		"the pickle turned my silver pink":    "trouble: pink from the pickle",
		"my brass turned pink in the pickle":  "trouble: brass turned pink",
		"my silver bezel went pink in pickle": "trouble: pink from the pickle",
	} {
		assert.Equal(t, topic, Read(say, Context{Addressed: true, Takes: takes}).Topic, say)
	}
}

func TestFingersByTheWayRound(t *testing.T) {
	for say, line := range map[string]string{
		"whats my finger size if its 54mm around":                                "band ring 54 system iso",
		"my finger measures 61 mm round with a strip of paper what size is that": "band ring 61 system iso",
		"finger is 2 1/4 inches around. size?":                                   "band ring 57.15 system iso",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true, Takes: takes}).Line(), say)
	}
	both := Read("my knuckle is bigger than my finger, 54 mm around, which size", Context{Addressed: true, Takes: takes})
	assert.NotEqual(t, "band", both.Request)
}
