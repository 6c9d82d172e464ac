package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Days and the number of an entry, as people say them.
func TestDaysAndNumbersOfDaybook(t *testing.T) {
	for _, tc := range []struct {
		typed string
		want  map[string]string
	}{
		{"show the daybook entries on jump rings from 2 weeks ago", map[string]string{"from": "14d"}},
		{"show the daybook of the past month, please", map[string]string{"from": "30d"}},
		{"what did we ask you in the past three months, show the daybook", map[string]string{"from": "90d"}},
		{"show the daybook entries since monday", map[string]string{"from": "monday"}},
		{"list the daybook from 2026-03-01 to 2026-03-31", map[string]string{"from": "2026-03-01", "to": "2026-03-31"}},
		{"Show me all the pear entries of the daybook since 1 March.", map[string]string{"from": "1-march", "to": "", "outline": "pear"}},
		{"show the daybook, 24 Nov to 26 Nov", map[string]string{"from": "24-nov", "to": "26-nov"}},
		{"show the daybook of march 3rd", map[string]string{"from": "3-march", "to": "3-march"}},
		{"show the daybook entries in october", map[string]string{"from": "october", "to": "october"}},
		{"may I see the daybook of today", map[string]string{"from": "today", "to": ""}},
		{"the daybook answer number 27 is wrong, the depth should read 3.8", map[string]string{"action": "show", "number": "27"}},
	} {
		r := Read(tc.typed, Context{Addressed: true})
		assert.Equal(t, "daybook", r.Request, "%s: %s", tc.typed, shown(r))
		for option, want := range tc.want {
			assert.Equal(t, want, r.Options[option], "%s: %s", tc.typed, shown(r))
		}
	}
}

// Nothing is taken off a bench because somebody forgets, or because a figure changes.
func TestBenchKeepsWhatIsNotTakenBack(t *testing.T) {
	for _, say := range []string{
		"my students forget to state the metal, so keep copper as the default metal in this channel",
		"my default is 18 ga, drop it to 26 please and remember that",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Empty(t, r.Options["drop"], "%s: %s", say, shown(r))
	}
	r := Read("from this day the class account keeps copper, 22 gauge, ring sizes ISO, A4 paper", Context{Addressed: true})
	assert.NotEqual(t, "band", r.Request, shown(r))
}
