package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is said of each of two sizes tells which of them the ring has.
func TestOldAndNewSize(t *testing.T) {
	for say, want := range map[string][2]string{
		"shes a Q and the ring i made is an O, 9ct 1.4 thick, how much in":                                    {"uk O", "uk Q"},
		"customers ring is too small shes an O now was a M b4 the baby, 9ct":                                  {"uk M", "uk O"},
		"was an N before the arthritis, she's a P now. 18ct yellow, 1.2 thick":                                {"uk N", "uk P"},
		"it was sized from P to N last year and now needs to go up to O":                                      {"uk N", "uk O"},
		"I overdid it - aimed for L, it came out K. what goes back in?":                                       {"uk K", "uk L"},
		"Ring reads 7 1/4 on my mandrel, finger gauge says 8. Half round 3 x 1.6":                             {"us 7 1/4", "us 8"},
		"Can a 9.5 be made to fit a 9.25 finger or is that too small a change to cut for?":                    {"us 9.5", "us 9.25"},
		"I need to make a brass ring smaller, US 10 to US 8. How much comes out?":                             {"us 10", "us 8"},
		"Going from 52 to 50 with a white gold ring 750, 2 mm thick":                                          {"iso 52", "iso 50"},
		"H to K in platinum 950, 2.0 x 1.8":                                                                   {"uk H", "uk K"},
		"L to P, 4mm D, 1.6 thick. How much do I let in?":                                                     {"uk L", "uk P"},
		"resize down from 8 to 7 and a half. do i account for kerf on both cuts, blade is 2/0":                {"us 8", "us 7.5"},
		"size 12 down to size 9, will it survive, it has 5 stones across the top":                             {"us 12", "us 9"},
		"From 56 to 58, in 14 ct gold with a small collet on top. How much goes in, and will the collet bend": {"iso 56", "iso 58"},
		"my ring is 18.2 mm inside and has to be 17.6. thickness 1.8":                                         {"diameter 18.2", "diameter 17.6"},
		"Ring's .742 inside. Needs to be .716. Take out?":                                                     {"diameter 18.8468", "diameter 18.1864"},
		"The customer brings ring size 53, wish is 56. How much do I insert? It is 1,7 thick":                 {"iso 53", "iso 56"},
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, [3]string{"resize", want[0], want[1]}, [3]string{r.Request, r.Options["from"], r.Options["to"]}, say)
		assert.Equal(t, Request, r.Outcome, say)
	}
	for _, say := range []string{"test ring made from 60.0 x1.5 came out M½, i wanted N. how long now", "can I resize a gold plated ring from 6 to 7"} {
		assert.NotEqual(t, "resize", Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Request, say)
	}
	none := Read("The ring I made is an M and I need an O. It's 1.5mm thick with no stone", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Empty(t, none.Options["stones"])
}

// Each of several rings is told what it needs, and a large knuckle is no size of a ring.
func TestSeveralSizesOfRings(t *testing.T) {
	for say, want := range map[string]string{
		"Two rings on the bench: one L to N, other R to P, both 1.5 thick":                                      "L to N: let in 2.5 mm; R to P: take out 2.5 mm",
		"Two rings to adjust after class: first 6 → 7, second 8.5 → 8. Both 1.2 mm thick sterling. Add or cut?": "6 to 7: let in 2.55 mm; 8.5 to 8: take out 1.28 mm",
		"got three to size today, 5 to 6, 7 to 6 1/2 and 8 to 9. lengths?":                                      "8 to 9: let in 2.55 mm",
		"hers goes from 5.5 to 6, his from 10 to 9.25, how much metal each":                                     "10 to 9.25: take out 1.92 mm",
		"knuckle is a U, base of finger R½, the ring now fits S. What size should I make it?":                   "half way between them is about T",
		"ring is a 9. knuckle 10.5, base 9. what do i resize to":                                                "half way between them is about",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, want, say)
	}
}
