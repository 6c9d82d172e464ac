package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Figures wanted in other units where no piece is asked for; values by hand: US n is
// 0.458 in + 0.032 in n across, a UK letter is 36.25 mm + 1.25 mm n round (BS 6820),
// gauges are 0.127 mm x 92^((36 - n) / 39) (ASTM B258).
func TestToldInUnits(t *testing.T) {
	for said, holds := range map[string]string{
		"what is a british N 1/2 across in millimetres":         "17.31 mm across",                 // (36.25 + 1.25 x 14.5) / pi
		"swiss 8, 18 and 28 into ISO please, it is for a chart": "continental 28 is 68.0 mm round", // 40 + 28
		"is a uk M the same as my american size 6?":             "They are 0.6 mm apart",           // 52.5 - 51.87
		"what would 1550 F be in celsius, on an oven of 1982":   "1550 °F is 843 °C",               // (1550 - 32) x 5/9
		"fahrenheit for 700, the easy solder is in C":           "700 °C is 1292 °F, and 700 °F is 371 °C",
		"is 18 thicker than 22 and how many mm are they each":   "22 ga is 0.64 mm",
		"thou to mm for 15 and 30":                              "30 thou is 0.76 mm", // 0.03 x 25.4
		"would 0.6 be nearer a 22 or a 23 gauge":                "23 ga is 0.57 mm",
		"Fineness 417: how many karats is 417, and 750":         "417 parts of gold in a thousand is 10.0 karat",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, "%s\n%s", said, shown(r))
		assert.Contains(t, r.Text, holds, said)
	}
}

// Sums of thicknesses, other numbers than gauges, and sizes of places without a table
// are not told as if they were known.
func TestNotToldInUnits(t *testing.T) {
	for _, said := range []string{
		"a 22 and a 26 doubled up, as thick as a 20?",
		"my drill is 0.7 and his is a number 70, the same?",
		"hong kong size 14 is what in american",
		"size 9 in metal gauge Birmingham is how many mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotContains(t, r.Source, "B258", said)
		assert.NotEqual(t, "ring sizes", r.Topic, said)
	}
}

// The ring whose size was told is what the next message goes on with.
func TestGoesOnWithToldRing(t *testing.T) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	first := "Swiss 17, please in US, for an American bride"
	r := Read(first, c)
	assert.Equal(t, "ring sizes", r.Topic)
	c = c.After(first, r)
	assert.Equal(t, &Last{"band", map[string]string{"ring": "17", "system": "continental"}}, c.Last)
}
