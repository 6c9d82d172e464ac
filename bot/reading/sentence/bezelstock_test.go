package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// How high the strip is that there is, is no height of the stone.
func TestHeightOfBezelStock(t *testing.T) {
	for typed, dome := range map[string]string{
		"bezel for pear cab 16x10 fine silver strip 0.32 thick 3mm high":                                                 "",
		"8mm round cab, bezel wire 1/8 tall 28ga":                                                                        "",
		"moss agate 20x15 oval, 5 tall. bezel strip I bought is 3mm high .3 thick. how much do I cut":                    "5",
		"oval cab, 30 by 22 mm, a quarter inch thick. How long should my bezel strip be? I've the ready made 3 mm stuff": "0.25 in",
		"bezel 10x8 oval 4 mm high stone, .3":                                                                            "4 mm",
		"bezel wire .3 thick for a cab 12x10, 4.5 high":                                                                  "4.5",
		"stone 10x8, 4 high, bezel strip .3":                                                                             "4",
	} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, typed)
		assert.Equal(t, dome, r.Options["dome"], typed)
	}
}
