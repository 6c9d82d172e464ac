package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestThingsOfOtherTrades lists questions about a thing of another trade, which share a word
// with topics of ours, and questions of ours that have such a thing beside them.
func TestThingsOfOtherTrades(t *testing.T) {
	for said, others := range map[string]bool{
		"how do i get acrylic nails off without acetone":                      true,
		"how do i service a mainspring in a pocket watch":                     true,
		"battery in my watch is dead how do i open the back":                  true,
		"my roses have black spot what do i spray":                            true,
		"my tooth crown fell off, can I glue it back":                         true,
		"what oil for a sewing machine":                                       true,
		"What tyre pressure for a Ford Fiesta?":                               true,
		"Me goats have got the scours, anything for that lol":                 true,
		"what spark plug gap for a honda mower":                               true,
		"does nail varnish remover take off the marker":                       false,
		"how do i solder a watch strap lug":                                   false,
		"can I set a cat's eye cab in a bezel":                                false,
		"can i let the dog in the workshop":                                   false,
		"what gauge guitar string is good for binding":                        false,
		"what do i smear on the file so soft metal doesn't cake in its teeth": false,
		"my cat knocked over the pickle":                                      false,
		"what size is a watch case back disc 38 mm in silver 1.2 thick":       false,
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, others, r.Outcome == Declined, "%s: %s", said, shown(r))
	}
}
