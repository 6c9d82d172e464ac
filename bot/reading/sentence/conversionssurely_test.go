package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Figures wanted in other units without the usual words for it; values by hand.
func TestSurelyConverted(t *testing.T) {
	for said, holds := range map[string]string{
		"900 degrees celcius what's that fareneit":                "900 °C is 1652 °F", // 900 x 9/5 + 32
		"kiln says 1350 F, what is that in our money, in celsius": "1350 °F is 732 °C", // (1350 - 32) x 5/9
		"half a carat is 0.5 ct is how much grams":                "is 0.10 g",         // 0.5 x 0.2
		"is 11 mm = 7/16?":                     "differ by 0.11 mm", // 7 x 25.4 / 16 = 11.11
		"half a gram, 0.5 g, grains?":          "7.7 grains",        // 0.5 / 0.06479891
		"3 things lol: 20g mm, 24g mm, 28g mm": "20 ga is 0.81 mm",  // ASTM B258
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, "%s\n%s", said, shown(r))
		assert.Contains(t, r.Text, holds, said)
	}
}

func TestIn64ths(t *testing.T) {
	for inches, want := range map[float64]string{0.5: "1/2", 0.156: "5/32", 1.125: "1 1/8", 2: "2", 0.015625: "1/64"} {
		assert.Equal(t, want, in64ths(inches))
	}
}
