package knowledge

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/cautions"
)

// longestText is what fits on a phone's first screen beside a source line.
const longestText = 420

// telegramWords are shorthand that leaves sentences half said.
var telegramWords = []string{" w/", "w/o ", " approx", " temp ", " incl ", " resp ", " pls ", " etc.", " etc ", " min. ", " max. ", "->", "=>", " vs ", " thru ", "e.g.", "i.e."}

// unsafeWords promise what nobody can promise from afar.
var unsafeWords = []string{"perfectly safe", "completely safe", "is safe", "are safe", "harmless", "no risk", "no danger", "don't worry", "nothing to worry"}

func wholeSentences(t *testing.T, key, text string) {
	t.Helper()
	assert.NotEmpty(t, text, key)
	assert.LessOrEqual(t, len([]rune(text)), longestText, key)
	assert.Equal(t, strings.TrimSpace(text), text, key)
	last := []rune(text)
	if len(last) > 0 && !unicode.IsDigit(last[len(last)-1]) && !strings.HasSuffix(text, "ga\".") {
		// A line to type may end a text.
		assert.Contains(t, ".!?", string(last[len(last)-1]), "%s ends in the middle of a sentence", key)
	}
	for _, w := range append(telegramWords, unsafeWords...) {
		assert.NotContains(t, strings.ToLower(text), w, key)
	}
}

func groupsAreFilled(t *testing.T, key string, groups [][]string) {
	t.Helper()
	for _, g := range groups {
		assert.NotEmpty(t, g, key)
		for _, phrase := range g {
			bare := strings.TrimPrefix(phrase, "=")
			assert.NotEmpty(t, bare, key)
			assert.Equal(t, strings.ToLower(strings.Join(strings.Fields(bare), " ")), bare, "%s: a phrase is lower case with single blanks", key)
			assert.False(t, strings.ContainsAny(bare, "'’?!,;:"), "%s: %q holds a sign that a message's words do not have", key, phrase)
		}
	}
}

func TestFactsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Facts() {
		assert.NotEmpty(t, f.Key)
		assert.False(t, seen[f.Key], "%s is there twice", f.Key)
		seen[f.Key] = true
		assert.NotEmpty(t, f.Source, f.Key)
		assert.NotEmpty(t, append(append(f.Term, f.Questions...), flat(f.Asks)...), "nothing finds %s", f.Key)
		wholeSentences(t, f.Key, f.Text)
		groupsAreFilled(t, f.Key, f.Asks)
		groupsAreFilled(t, f.Key, [][]string{append([]string{"question"}, f.Questions...)})
		groupsAreFilled(t, f.Key, [][]string{append([]string{"term"}, f.Term...)})
	}
	assert.GreaterOrEqual(t, len(seen), 170)
}

func TestTroublesAreComplete(t *testing.T) {
	jobs := map[string]bool{"": true}
	for _, j := range cautions.Jobs() {
		jobs[string(j)] = true
	}
	seen := map[string]bool{}
	for _, s := range Troubles() {
		assert.Regexp(t, `^[a-z]+( [a-z]+)*$`, s.Key)
		assert.False(t, seen[s.Key], "%s is there twice", s.Key)
		seen[s.Key] = true
		assert.NotEmpty(t, s.Source, s.Key)
		assert.True(t, jobs[s.Job], "%s: no cautions are kept for %q", s.Key, s.Job)
		assert.NotEmpty(t, s.Signs, s.Key)
		assert.NotEmpty(t, s.Causes, s.Key)
		for _, c := range s.Causes {
			wholeSentences(t, s.Key, c)
		}
		wholeSentences(t, s.Key, s.Now)
		wholeSentences(t, s.Key, s.Next)
		groupsAreFilled(t, s.Key, s.Signs)
	}
	assert.GreaterOrEqual(t, len(seen), 50)
}

// Bleach, cyanide, asbestos and the like are answered before anything else.
func TestWarningsComeFirst(t *testing.T) {
	for _, f := range safety {
		assert.True(t, f.Warns, f.Key)
	}
	for _, f := range Facts()[:len(basics)] {
		assert.False(t, f.Warns, f.Key)
	}
}

func flat(groups [][]string) []string {
	var all []string
	for _, g := range groups {
		all = append(all, g...)
	}
	return all
}
