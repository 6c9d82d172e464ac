package discord

import (
	"testing"

	"guildhand/bot/requests"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every translation is whole, fits, and is of a text that a command still has.
func TestTranslations(t *testing.T) {
	m, err := newMenu(requests.All(nil), testShop())
	require.NoError(t, err)
	used := map[string]bool{askSummary: true, lineSummary: true, privateSummary: true, formSummary: true}
	for i := range m.list {
		spec := &m.list[i]
		used[spec.Summary] = true
		for _, p := range spec.Parts {
			used[p.Summary] = true
		}
		for _, o := range spec.Options {
			used[o.Summary] = true
		}
	}
	for english, of := range translations {
		assert.True(t, used[english], "nothing says %q any more", english)
		for _, text := range []string{of.german, of.french, of.spanish} {
			assert.NotEmpty(t, text, english)
			assert.LessOrEqual(t, length(text), maxCommandText, text)
		}
	}
	said := 0
	for _, c := range m.commands {
		if len(c.Translations) > 0 {
			said++
			assert.Len(t, c.Translations, 4, c.Name)
		}
	}
	assert.GreaterOrEqual(t, said, 13)
}

// A registration that differs in nothing is left as it is, its translations too.
func TestTranslationsAreCompared(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	for range 2 {
		r := start(t, s, newFaulty(t, requests.All(nil)), s.config())
		require.NoError(t, r.stop())
		s.forget()
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	assert.Equal(t, 1, s.overwrites)
}
