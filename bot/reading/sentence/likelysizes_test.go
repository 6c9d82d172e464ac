package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The old and the new size of a ring are found by the words round them, whether they
// are figures, letters, numbers in words or the ring's inside in mm.
func TestOldAndNewSizeOfRing(t *testing.T) {
	for _, c := range []struct{ typed, from, to string }{
		{"4 to 5 1/2, .060 thick, what do I let in?", "us 4", "us 5 1/2"},
		{"6→7, 3.2x1.4, what do I add", "us 6", "us 7"},
		{"J → M, 1.5. What goes in?", "uk J", "uk M"},
		{"it's a 56 now and needs to be a 53, how much to cut out", "iso 56", "iso 53"},
	} {
		r := Read(c.typed, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, c.typed)
		assert.Equal(t, "resize", r.Request, c.typed)
		assert.Equal(t, c.from, r.Options["from"], c.typed)
		assert.Equal(t, c.to, r.Options["to"], c.typed)
	}
}

// Where only the size that the ring shall have is told, the other is asked for.
func TestOldSizeOfRingIsAskedFor(t *testing.T) {
	r := Read("how long a piece do I let in to get it up to a 9? It's 1.5 thick.", Context{Addressed: true})
	assert.Equal(t, Question, r.Outcome)
	assert.Equal(t, "resize", r.Request)
	assert.Equal(t, "from", r.Missing)
}

// Two sizes make no resizing where something else is asked.
func TestTwoSizesWithoutResizing(t *testing.T) {
	for _, typed := range []string{
		"what is UK N in US sizes, is it a 6 or a 7?",
		"collet for an oval 8x6 and a pear 9x6, 0.6 thick",
		"H 5 V 7",
	} {
		assert.NotEqual(t, "resize", Read(typed, Context{Addressed: true}).Request, typed)
	}
}

// The figures of a saddle are the shank's or the setting's by the words round them.
func TestFiguresOfShankAndSetting(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  map[string]string
	}{
		{"oval 8x6 collet, 0.7 wall, sits on ring 6, shank 2 mm round wire", map[string]string{"size": "8x6", "thickness": "0.7 mm", "shank": "us 6", "shankthick": "2mm"}},
		{"pear 9x6 on a shank of P, 2.1", map[string]string{"size": "9x6", "shank": "uk P", "shankthick": "2.1mm"}},
		{"curve for bezel oval 9x7 on 8", map[string]string{"size": "9x7", "setting": "bezel", "shank": "us 8"}},
	} {
		r := Read(c.typed, Context{Addressed: true})
		assert.Equal(t, "saddle", r.Request, c.typed)
		for option, value := range c.want {
			assert.Equal(t, value, r.Options[option], "%s of %s", option, c.typed)
		}
	}
}

// Figures that the rules took for one another are told apart by the words round them.
func TestFiguresToldApartByWordsRoundThem(t *testing.T) {
	for _, c := range []struct {
		typed, request string
		want           map[string]string
	}{
		{"halo, 1.2 round 5.5, how many stones", "halo", map[string]string{"size": "5.5", "with": "1.2"}},
		{"jump rings on a 7 mm rod, wire 1.8, how much wire for 30", "jumpring", map[string]string{"mandrel": "7 mm", "wire": "1.8 mm", "count": "30"}},
		{"bangle with an inside circumference of 205 mm, 4 mm round wire, how long is the piece", "band", map[string]string{"bangle": "65.3", "thickness": "4 mm"}},
	} {
		r := Read(c.typed, Context{Addressed: true})
		assert.Equal(t, c.request, r.Request, c.typed)
		for option, value := range c.want {
			assert.Equal(t, value, r.Options[option], "%s of %s", option, c.typed)
		}
	}
}
