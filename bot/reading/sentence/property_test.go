package sentence

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/reading/written"
	"guildhand/calc/testcount"
)

// part is a figure of a generated sentence: how it is said, and the option that
// it fills.
type part struct{ says, option, value string }

func pick[T any](r *rand.Rand, all ...T) T { return all[r.IntN(len(all))] }

// spokenLength says a length in one of the ways in which people write it.
func spokenLength(r *rand.Rand, mm float64) string {
	s := plain(mm)
	if mm < 1 && r.IntN(2) == 0 {
		s = strings.TrimPrefix(s, "0")
	}
	if strings.Contains(s, ".") && !strings.HasPrefix(s, ".") && r.IntN(8) == 0 {
		s = strings.ReplaceAll(s, ".", ",")
	}
	return s + pick(r, "mm", " mm", " millimeters")
}

func tenths(r *rand.Rand, low, high float64) float64 {
	return float64(int(10*(low+(high-low)*r.Float64()))) / 10
}

// setting makes a sentence about a setting from its figures.
func settingSentence(r *rand.Rand) (sentence string, want []part) {
	outline := pick(r, "oval", "pear", "marquise", "emerald", "cushion")
	w := tenths(r, 4, 12)
	l := w + tenths(r, 1, 5)
	size := fmt.Sprintf("%s%s%s", plain(l), pick(r, "x", " x ", " by ", "mm x "), plain(w))
	stone := pick(r, size+" "+outline, outline+" "+size, size+"mm "+outline)
	want = append(want, part{stone, "size", plain(l) + "x" + plain(w)})
	job := pick(r, "collet", "bezel")
	depth := tenths(r, w*0.45, w*0.7)
	option := map[string]string{"collet": "depth", "bezel": "dome"}[job]
	says := map[string][]string{"collet": {spokenLength(r, depth) + " deep", "depth " + spokenLength(r, depth), "the stone is " + spokenLength(r, depth) + " deep"}, "bezel": {spokenLength(r, depth) + " high", "dome " + spokenLength(r, depth), spokenLength(r, depth) + " tall", spokenLength(r, depth) + " dome"}}[job]
	want = append(want, part{pick(r, says...), option, plain(depth)})
	if r.IntN(2) == 0 {
		g := 18 + r.IntN(10)
		want = append(want, part{fmt.Sprintf("%d%s", g, pick(r, "ga", " gauge", " ga", "g", "-gauge")), "thickness", fmt.Sprintf("%dga", g)})
	} else {
		t := tenths(r, 0.4, 1)
		want = append(want, part{pick(r, spokenLength(r, t)+" thick", "thickness "+spokenLength(r, t), spokenLength(r, t)+" sheet"), "thickness", plain(t) + " mm"})
	}
	metal := pick(r, part{"sterling", "alloy", "sterling"}, part{"14k rose", "alloy", "14k-rose"}, part{"copper", "alloy", "copper"}, part{"fine silver", "alloy", "fine-silver"}, part{"18ct yellow gold", "alloy", "18k-yellow"})
	named := map[string][]string{"collet": {"a collet", "a tapered setting", "the blank of a cone setting"}, "bezel": {"a bezel", "a bezel strip", "bezel wire"}}[job]
	rest := append([]part{}, want[1:]...)
	rest = append(rest, metal)
	r.Shuffle(len(rest), func(i, j int) { rest[i], rest[j] = rest[j], rest[i] })
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s for %s %s", pick(r, "what do i cut for", "i need", "how do i make", "please lay out", "hi, can you work out"), pick(r, named...), pick(r, "a", "my", "this", "an"), stone)
	for _, p := range rest {
		b.WriteString(pick(r, ", ", " ", " and ") + p.says)
	}
	return b.String() + pick(r, "", "?", " please", " thanks!"), append(want, metal, part{"", "outline", outline})
}

// TestEveryNumberHasItsRole makes sentences from readings: every figure that is
// said is in the reading, in the role from which the sentence was made, or in a
// question back, and none is there that was not said.
func TestEveryNumberHasItsRole(t *testing.T) {
	t.Parallel()
	const seed = 20261125
	r := rand.New(rand.NewPCG(seed, 1))
	n := testcount.Of(1000, 5000, 5000)
	asked := 0
	for range n {
		said, want := settingSentence(r)
		got := Read(said, Context{Addressed: true})
		if got.Outcome == Question {
			asked++
			continue
		}
		require.Equal(t, Request, got.Outcome, "%s (seed %d)", said, seed)
		for _, p := range want {
			assert.True(t, sameValue(p.option, got.Options[p.option], p.value), "%s\n%s should be %s: %s", said, p.option, p.value, got.Line())
		}
		require.Len(t, got.Options, len(want), "%s\n%s", said, got.Line())
		if t.Failed() {
			return
		}
	}
	assert.Less(t, asked, n/20, "questions back where everything was said")
}

// TestNothingPanics reads the corpora's sentences mixed, cut and misspelt, in several
// conversations that go on without an end.
func TestNothingPanics(t *testing.T) {
	const conversations = 4
	runs := testcount.InLong(4_000, 1_000_000)
	words := corpusWords(t)
	for seed := range uint64(conversations) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			readRandom(t, rand.New(rand.NewPCG(7, 7+seed)), words, runs/conversations)
		})
	}
}

func readRandom(t *testing.T, r *rand.Rand, words []string, runs int) {
	c := Context{Addressed: true}
	for n := range runs {
		var b strings.Builder
		for range 1 + r.IntN(14) {
			w := []rune(pick(r, words...))
			switch r.IntN(8) {
			case 0:
				i := r.IntN(len(w))
				w = append(w[:i], w[i+1:]...)
			case 1:
				w[r.IntN(len(w))] = pick(r, 'x', '/', '.', ',', '½', '"', '\'', '°', '9', '\u0301', '\x00')
			}
			b.WriteString(string(w))
			b.WriteString(pick(r, " ", " ", " ", "", "-", ", "))
		}
		said := b.String()
		require.NotPanics(t, func() { c = c.After(said, Read(said, c)) }, "%q", said)
		if (n+1)%10_000 == 0 {
			t.Logf("%d sentences", n+1)
		}
	}
}

func corpusWords(t *testing.T) []string {
	words := append(slices.Clone(unknownMetals), "8x6", "22ga", "half", "a", "1/2", "x", "\"", "size", "18", "ct", "in")
	for _, s := range load(t, "testdata/tuning.json") {
		words = append(words, strings.Fields(s.Say)...)
		for _, turn := range s.Turns {
			words = append(words, strings.Fields(turn.Say)...)
		}
	}
	for i, m := range writtenMessages(t) {
		if i%everyWritten == 0 {
			words = append(words, strings.Fields(m.Text)...)
		}
	}
	return words
}

// everyWritten says which of the messages written to learn from are read by the short test.
const everyWritten = 160

func writtenMessages(t *testing.T) []written.Message {
	all, err := written.Messages("../written/messages")
	require.NoError(t, err)
	return all
}

// TestMessagesToLearnFrom reads messages as members write them, for a panic: words drawn by
// lot hardly ever make the figures that belong together.
func TestMessagesToLearnFrom(t *testing.T) {
	t.Parallel()
	for i, m := range writtenMessages(t) {
		if i%everyWritten == 0 || testcount.Long() {
			require.NotPanics(t, func() { Read(m.Text, Context{Addressed: true, Takes: takes, Excludes: excludes}) }, "%q", m.Text)
		}
	}
}

// A figure that is no size of the ring answers no question for its size.
func TestAnswerWithoutTheSizeAskedFor(t *testing.T) {
	for _, missing := range []string{"from", "to"} {
		known := map[string]string{"to": "from", "from": "to"}[missing]
		asked := &Reading{Outcome: Question, Request: "resize", Ask: "From which ring size to which?", Missing: missing, Options: map[string]string{known: "us 7"}}
		for _, said := range []string{"bead whatsout in 28ga much you weigh of-6, ", "6", "it is 6 mm inside", "28ga", "inside 17.2", "from 6", "up one size", "half a size bigger"} {
			require.NotPanics(t, func() { Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes, Asked: asked}) }, "%s missing: %q", missing, said)
		}
	}
}

// BenchmarkRead reads every sentence of the tuning set; the worst is reported.
func BenchmarkRead(b *testing.B) {
	samples := loadAll(b)
	var worst time.Duration
	for b.Loop() {
		for _, s := range samples {
			began := time.Now()
			Read(s, Context{Addressed: true})
			worst = max(worst, time.Since(began))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(samples)), "µs/sentence")
	b.ReportMetric(float64(worst.Microseconds()), "µs-worst")
}

func loadAll(b *testing.B) []string {
	b.Helper()
	var all []string
	raw, err := os.ReadFile("testdata/tuning.json")
	require.NoError(b, err)
	var samples []sample
	require.NoError(b, json.Unmarshal(raw, &samples))
	for _, s := range samples {
		if s.Say != "" {
			all = append(all, s.Say)
		}
	}
	require.NotEmpty(b, all)
	return all
}
