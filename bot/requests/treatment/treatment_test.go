package treatment

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/stock"
)

// Every treatment that an alloy names is described, and none is left over.
func TestTreatmentsAreWhole(t *testing.T) {
	used := map[stock.Treatment]bool{}
	for _, a := range stock.Alloys() {
		used[a.Treatment] = true
		way, ok := treatments[a.Treatment]
		if !assert.True(t, ok, "%s is treated as %q, which is not described", a.Key, a.Treatment) {
			continue
		}
		assert.NotEmpty(t, way.Cool, "%s: Cool", a.Treatment)
		assert.NotEmpty(t, way.Why, "%s: Why", a.Treatment)
		assert.NotEmpty(t, way.After, "%s: After", a.Treatment)
		assert.True(t, (way.Joint == SilverSoldered) != (len(way.Solder) > 0), "%s: silver soldered, or Solder", a.Treatment)
		assert.True(t, way.Cold != "" || a.AnnealHighC > 0, "%s: an annealing range, or Cold", a.Key)
		// What is not pickled says so.
		if !way.Pickled {
			assert.Regexp(t, `(?i)pickle`, way.After)
		}
		if Of(a).Joint != SilverSoldered && Of(a).Joint != NotSoldered {
			assert.NotEmpty(t, Of(a).Filler, a.Key)
		}
	}
	for name := range treatments {
		assert.True(t, used[name], "no alloy is treated as %q", name)
	}
}

func TestJointsInWords(t *testing.T) {
	for _, row := range []struct{ alloy, want string }{
		{"copper", "solder it with hard silver solder and flux, then let the glow go and quench in water, rinse and pickle"},
		{"18k-rose", "solder it with hard 18 karat rose gold solder and flux, then quench in water as soon as the glow goes, rinse and pickle"},
		{"14k-white", "solder it with hard 14 karat white gold solder and flux, then let it cool in air until no glow shows in a dark corner, and for a minute more, rinse and pickle"},
		{"platinum-950", "solder it with platinum solder, without flux, then let it cool in air"},
		{"titanium", "have it welded in argon or by laser, or join it cold: titanium grade 2 is not soldered"},
	} {
		a, _ := stock.AlloyByKey(row.alloy)
		assert.Equal(t, row.want, Join(a, "hard"))
	}
}
