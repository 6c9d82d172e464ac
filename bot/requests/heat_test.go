package requests

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/requeststest"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
)

// Each alloy has its heat: hazards first and in full, a way of cooling, and no
// solder that flows where the metal melts.
func TestHeatOfEveryAlloy(t *testing.T) {
	for _, alloy := range stock.Alloys() {
		t.Run(alloy.Key, func(t *testing.T) {
			a, err := requeststest.Ask(tables(), "heat "+alloy.Key+" joints 3")
			require.NoError(t, err)
			for _, f := range requeststest.Unfit(a) {
				t.Error(f)
			}
			for i, short := range a.Cautions {
				full := a.Steps[i]
				for _, c := range cautions.All() {
					if c.Short == short {
						assert.Equal(t, c.Full, full)
					}
				}
			}
			all := strings.Join(a.Steps, "\n")
			way := treatment.Of(alloy)
			if way.Cold == "" {
				assert.Contains(t, all, "rather than by colour alone")
				assert.Contains(t, a.Headline, way.Cool)
			}
			if way.Joint != treatment.NotSoldered {
				assert.Contains(t, all, "cadmium")
			}
			if way.Pickled {
				assert.Contains(t, all, "no steel")
				assert.Contains(t, all, "never water to acid")
			} else {
				assert.NotRegexp(t, `(?i)then pickle|and pickle|warm sodium`, all)
			}
		})
	}
}

func TestHeatSaysHowToCool(t *testing.T) {
	white, err := requeststest.Ask(tables(), "heat 18k-white")
	require.NoError(t, err)
	assert.Contains(t, white.Headline, "in air")
	assert.NotContains(t, white.Headline, "quench")
	rose, err := requeststest.Ask(tables(), "heat 18k-rose")
	require.NoError(t, err)
	assert.Contains(t, rose.Headline, "quench in water as soon as the glow goes")
	opal, err := requeststest.Ask(tables(), "heat sterling stone opal")
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(opal.Headline, "Take the opal out"), opal.Headline)
	assert.Contains(t, opal.Notes[0], "opal")
}

// Every job's notes defer to those who answer for safety.
func TestCautionsOfEveryJob(t *testing.T) {
	for _, job := range cautions.Jobs() {
		a, err := requeststest.Ask(tables(), "cautions "+string(job))
		require.NoError(t, err, job)
		assert.Len(t, a.Steps, int(a.Figures[0].Value), job)
		assert.Equal(t, cautions.Deferral, a.Cautions[len(a.Cautions)-1], job)
		assert.Len(t, a.Cautions, len(a.Steps)+1, job)
	}
	for job, aliases := range jobAliases {
		for _, word := range aliases {
			a, err := requeststest.Ask(tables(), "cautions "+word)
			require.NoError(t, err, word)
			assert.Contains(t, a.Headline, words.Capital(string(job)))
		}
	}
}

func TestFirstAidStandsOnTheScreen(t *testing.T) {
	for _, f := range cautions.FirstAids() {
		for _, word := range append([]string{f.Key}, f.Aliases...) {
			a, err := requeststest.Ask(tables(), "cautions "+word)
			require.NoError(t, err, word)
			assert.Equal(t, f.Now.Text, a.Headline)
			s := a.FirstScreen(answer.PhoneColumns, answer.ScreenLines)
			assert.Equal(t, f.Call.Text, s.Notes[0])
			assert.Len(t, s.Notes, len(f.Then)+1)
			assert.Equal(t, cautions.NotADoctor, s.Care)
			assert.True(t, a.Fleeting, "nobody's injury is kept")
			for _, l := range f.Lines() {
				assert.Contains(t, strings.Join(a.Steps, "\n"), l.Source)
			}
		}
	}
}

func TestSourcesOfCautionsAreListed(t *testing.T) {
	a, err := requeststest.Ask(tables(), "cautions sources")
	require.NoError(t, err)
	all := strings.Join(a.Steps, "\n")
	for _, r := range cautions.Sources() {
		assert.Contains(t, all, r.Text)
		assert.Contains(t, all, "[source: "+r.Source+"]")
	}
	assert.Len(t, a.Steps, len(cautions.Sources()))
}
