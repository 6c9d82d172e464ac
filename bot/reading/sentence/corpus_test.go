package sentence

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/trust"
	"guildhand/bot/requests"
	"guildhand/calc/testcount"
)

// wanted is one acceptable reading of a message. Exactly one of its kinds is set.
type wanted struct {
	// Request and its options; options that are left out must not be read.
	Request string            `json:"request,omitempty"`
	Options map[string]string `json:"options,omitempty"`
	// Ask is a question back.
	Ask bool `json:"ask,omitempty"`
	// Explain is an explanation, a verdict without a piece, or trouble at the
	// bench, with words of which it must hold at least one.
	Explain bool     `json:"explain,omitempty"`
	Holds   []string `json:"holds,omitempty"`
	// Topic is the key of the fact or trouble that must answer; of a question back, the
	// one that must be among its choices.
	Topic string `json:"topic,omitempty"`
	// Aid is the first aid that is wanted.
	Aid string `json:"aid,omitempty"`
	// Decline is "not my trade", or a job that is not there yet.
	Decline bool `json:"decline,omitempty"`
	// Silent is no answer at all.
	Silent bool `json:"silent,omitempty"`
}

// oneTurn is one message with the readings that are right for it.
type oneTurn struct {
	Say  string   `json:"say"`
	Want []wanted `json:"want"`
}

// sample is one message or one conversation of a corpus.
type sample struct {
	Subject string `json:"subject"`
	oneTurn
	Turns []oneTurn `json:"turns,omitempty"`
}

type grade int

const (
	right grade = iota
	rightQuestion
	unhelpful
	harmful
)

var gradeNames = []string{"right", "right question", "unhelpful", "harmful"}

// free are options that a reading may add without harm: they say how, not what.
var free = map[string]bool{"gem": true, "system": true, "seam": true, "corner": true, "hemisphere": true, "profile": true, "bearing": true, "face": true, "wax-density": true, "stone": true, "units": true}

func gradeOf(r Reading, want []wanted) grade {
	asked := false
	for _, w := range want {
		if matches(r, w) {
			if w.Ask {
				return rightQuestion
			}
			return right
		}
		asked = asked || w.Aid != ""
	}
	if asked || r.Outcome == Request || r.Outcome == FirstAid {
		return harmful
	}
	return unhelpful
}

func matches(r Reading, w wanted) bool {
	switch {
	case w.Topic != "":
		return !w.Ask && r.Topic == w.Topic || w.Ask && r.Outcome == Question && offersTopic(r, w.Topic)
	case w.Ask:
		return r.Outcome == Question
	case w.Silent:
		return r.Outcome == Silent || r.Outcome == Unknown
	case w.Decline:
		return r.Outcome == Declined
	case w.Aid != "":
		return r.Outcome == FirstAid && r.Topic == w.Aid
	case w.Explain:
		if r.Outcome != Explanation && !(r.Outcome == Request && (r.Verdict != "" || r.Request == "heat" || r.Request == "cautions" || r.Request == "trouble")) && r.Outcome != Declined {
			return false
		}
		if len(w.Holds) == 0 || r.Outcome == Request {
			return r.Outcome != Declined
		}
		for _, h := range w.Holds {
			if strings.Contains(strings.ToLower(r.Text+r.Verdict), strings.ToLower(h)) {
				return true
			}
		}
		return false
	}
	return r.Outcome == Request && r.Request == w.Request && sameOptions(r.Options, w.Options)
}

func offersTopic(r Reading, topic string) bool {
	key, isTrouble := strings.CutPrefix(topic, "trouble: ")
	return slices.ContainsFunc(r.Choices, func(c Choice) bool {
		return isTrouble && c.Options["sign"] == knowledge.Word(key) || !isTrouble && c.Options["term"] == knowledge.Word(key)
	})
}

func sameOptions(got, want map[string]string) bool {
	for name, w := range want {
		g, ok := got[name]
		if name == "system" && !ok {
			continue
		}
		if !ok || w != "*" && !sameValue(name, g, w) {
			return false
		}
	}
	for name, g := range got {
		if _, ok := want[name]; !ok && !free[name] && !(name == "outline" && (g == "oval" || g == "round")) && !(name == "form") && !(name == "each" && g == "1") {
			return false
		}
	}
	return true
}

// sameValue compares numbers in mm, alloys by any of their names, and other words
// as they are.
func sameValue(name, got, want string) bool {
	if strings.EqualFold(strings.TrimSpace(got), strings.TrimSpace(want)) {
		return true
	}
	if name == "from" || name == "to" || name == "ring" || name == "shank" {
		got, want = sizeWithoutSystem(got), sizeWithoutSystem(want)
	}
	if name == "units" {
		got, want = strings.TrimSuffix(got, "ch"), strings.TrimSuffix(want, "ch")
	}
	if strings.EqualFold(got, want) {
		return true
	}
	if name == "alloy" || name == "from" && len(newMessage(want).alloys) > 0 {
		return mayBeAlloy(got, want)
	}
	a, b := numbersOf(name, got), numbersOf(name, want)
	if len(a) == 0 || len(a) != len(b) {
		return false
	}
	if name == "size" {
		slices.Sort(a)
		slices.Sort(b)
	}
	for i := range a {
		if math.Abs(a[i]-b[i]) > 0.011*math.Max(0.5, math.Abs(b[i])) {
			return false
		}
	}
	return true
}

// mayBeAlloy reports whether a label's words for a metal may mean the alloy that was read:
// "750 yellow gold", or "silver", which the answer says is read as sterling.
func mayBeAlloy(got, want string) bool {
	return slices.ContainsFunc(newMessage(want).alloys, func(a *metal) bool { return a.key == got || slices.Contains(a.among, got) })
}

// sizeWithoutSystem is a lettered ring size alone: UK N 1/2, uk N½ and N 1/2 are one.
func sizeWithoutSystem(s string) string {
	s = strings.TrimSpace(strings.ReplaceAll(s, "½", " 1/2"))
	if rest, named := strings.CutPrefix(strings.ToLower(s), "uk "); named && letter(strings.ToUpper(rest)) {
		s = rest
	}
	return strings.Join(strings.Fields(s), " ")
}

func numbersOf(name, s string) []float64 {
	m := newMessage(s)
	var all []float64
	for _, q := range m.found {
		switch {
		case q.measure == size:
			all = append(all, q.sides...)
		case q.measure == gauge && name != "gauge":
			all = append(all, gaugeMM(q.value))
		default:
			all = append(all, q.value)
		}
	}
	return all
}

// excludes tells which options of the program's own requests can't stand together.
var excludes = func() func(string, string, string) bool {
	specs := requests.All(nil)
	return func(request, option, other string) bool {
		for i := range specs {
			if specs[i].Name == request {
				return specs[i].Excludes(option, other)
			}
		}
		return false
	}
}()

// takes is the catalogue's own word on which request has which option.
var takes = func() func(string, string) bool {
	specs := requests.All(nil)
	return func(request, option string) bool {
		for i := range specs {
			if specs[i].Name == request {
				_, ok := specs[i].Option(option)
				return ok || option == ""
			}
		}
		return false
	}
}()

// result is how one sample of a corpus was graded.
type result struct {
	subject, say, got string
	grade             grade
}

func run(samples []sample) []result {
	var results []result
	for _, s := range samples {
		if len(s.Turns) == 0 {
			r := Read(s.Say, Context{Addressed: true, Takes: takes, Excludes: excludes})
			results = append(results, result{s.Subject, s.Say, shown(r), gradeOf(r, s.Want)})
			continue
		}
		// A conversation is as good as its worst turn.
		c, worst := Context{Addressed: true, Takes: takes, Excludes: excludes}, result{subject: s.Subject, say: s.Turns[0].Say}
		for _, turn := range s.Turns {
			r := Read(turn.Say, c)
			if g := gradeOf(r, turn.Want); g > worst.grade {
				worst.grade, worst.say, worst.got = g, s.Turns[0].Say+" ... "+turn.Say, shown(r)
			}
			c = c.After(turn.Say, r)
		}
		results = append(results, worst)
	}
	return results
}

func shown(r Reading) string {
	kind := []string{"not understood", "request", "asks", "explains", "first aid", "declines", "silent"}[r.Outcome]
	return fmt.Sprintf("%s: %s %s %.60s", kind, r.Line(), r.Topic, r.Ask)
}

func load(t *testing.T, path string) []sample {
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	var all []sample
	require.NoError(t, json.Unmarshal(raw, &all), path)
	require.NotEmpty(t, all, path)
	return all
}

// floors are what each corpus must reach, in per cent right (a right question
// back counts as right) and at most harmful. They only rise, but for twice, when the
// models of all words learnt more: they do better on sentences that nobody tuned on, and cost
// some of these a sentence or two; see testdata/README.md.
var floors = map[string]struct{ right, harmful float64 }{
	"tuning":                 {98.2, 0},
	"tuning-conversations":   {97, 0},
	"tuning-a":               {95, 1.1}, // one of its readings takes a wall of .02 in for mm
	"tuning-talk-b":          {83.5, 2},
	"tuning-talk-c":          {83.8, 3},
	"tuning-b":               {94.4, 1.3},
	"tuning-bench":           {96.5, 1},
	"tuning-bench-b":         {97.1, 0.6},
	"tuning-bench-c":         {94.5, 1.2},
	"tuning-bench-d":         {94, 0.6},
	"tuning-c":               {99.2, 0.5},
	"tuning-d":               {98.8, 0.9},
	"tuning-d-conversations": {74.5, 7.6},
	"tuning-rings":           {97.8, 0.6},
	"tuning-e-rings":         {96.6, 1.7},
	"tuning-rings-b":         {95, 0},
	"tuning-e-conversations": {52, 12},
	"tuning-f":               {95.9, 1.5},
	"tuning-f-conversations": {53.7, 13},
	"tuning-g-conversations": {36, 11},
	"tuning-f-rings":         {98.7, 0.6},
	"tuning-g":               {94.4, 0.8},
	"tuning-g-rings":         {89.4, 1.8},
	"tuning-pieces-b":        {99.4, 0},
	"tuning-talk":            {94.7, 3.9},
	"tuning-words":           {76.1, 3.9},
	"tuning-h":               {88.7, 2.6},
	"tuning-i":               {87.6, 3.8},
	"tuning-i-rings":         {85.1, 3.7},
	"tuning-i-conversations": {25.2, 32.9},
	"tuning-j":               {92.2, 1.7},
	"tuning-j-rings":         {84.4, 3.1},
	"tuning-j-conversations": {34.5, 14},
	"tuning-k-sentences":     {81.8, 3.2},
	"tuning-k-rings":         {72.5, 3.7},
	"tuning-k-conversations": {22, 22.8},
	"tuning-l":               {93, 1.1},
	"tuning-l-rings":         {86.3, 1.8},
	"tuning-l-conversations": {34.5, 15.5},
	"tuning-n":               {90.8, 1.1},
	"tuning-n-rings":         {85.7, 1.8},
	"tuning-n-conversations": {34.5, 15.5},
	"tuning-h-rings":         {92.5, 3.1},
	"tuning-h-conversations": {47, 12.4},
	"tuning-m":               {89.1, 2.7},
	"tuning-m-rings":         {83.8, 3.1},
	"tuning-m-conversations": {23.6, 26.4},
	"tuning-o":               {88.4, 1.6},
	"tuning-o-rings":         {78.1, 4.4},
	"tuning-q":               {85.5, 3},
	"tuning-q-rings":         {80, 1.8},
	"tuning-q-conversations": {15.8, 38.9},
	"tuning-r":               {87.5, 2.4},
	"tuning-r-rings":         {82.5, 1.8},
	"tuning-r-conversations": {41, 12.6},
	"tuning-t":               {89.7, 2.4},
	"tuning-t-rings":         {82, 3.2},
	"tuning-t-conversations": {62, 9.5},
	"tuning-u":               {76, 4.3},
	"tuning-u-rings":         {73, 7.6},
	"tuning-u-conversations": {15, 34.5},
	"tuning-v":               {78, 3.2},
	"tuning-v-rings":         {75, 3.2},
	"tuning-v-conversations": {38, 16},
	"tuning-w":               {77, 6},
	"tuning-w-rings":         {77, 3.8},
	"tuning-w-conversations": {15, 27},
	"tuning-p":               {90.3, 1.8},
	"tuning-p-rings":         {80.6, 3.1},
	"tuning-p-conversations": {28.2, 21.8},
	"tuning-o-conversations": {22, 15.5},
}

// readAlways are the sets that are read where not all are asked for: the first ones and
// the newest that was opened. Those that are still blind are read, too.
var readAlways = []string{"tuning", "tuning-conversations", "tuning-rings", "tuning-u", "tuning-u-rings", "tuning-u-conversations"}

// TestCorpus measures the reader on sets of sentences and conversations, with
// GUILDHAND_WHOLE=1 on every one. With -v it prints a table by subject and what went wrong.
func TestCorpus(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		if !testcount.Whole() && !slices.Contains(readAlways, name) && !strings.HasPrefix(name, "blind-") {
			continue
		}
		t.Run(name, func(t *testing.T) {
			results := run(load(t, file))
			counts := map[string][4]int{}
			for _, r := range results {
				for _, key := range []string{r.subject, "ALL"} {
					c := counts[key]
					c[r.grade]++
					counts[key] = c
				}
				if r.grade >= unhelpful {
					t.Logf("%-9s [%s] %s\n            -> %s", gradeNames[r.grade], r.subject, r.say, r.got)
				}
			}
			subjects := make([]string, 0, len(counts))
			for s := range counts {
				subjects = append(subjects, s)
			}
			slices.Sort(subjects)
			for _, s := range subjects {
				c := counts[s]
				n := float64(c[0] + c[1] + c[2] + c[3])
				t.Logf("%-24s %4.0f  right %5.1f %%  asked %5.1f %%  unhelpful %5.1f %%  harmful %5.1f %%", s, n, 100*float64(c[0])/n, 100*float64(c[1])/n, 100*float64(c[2])/n, 100*float64(c[3])/n)
			}
			all := counts["ALL"]
			n := float64(len(results))
			floor, ok := floors[name]
			if ok {
				require.GreaterOrEqual(t, 100*float64(all[0]+all[1])/n, floor.right, "per cent right or rightly asked back")
				require.LessOrEqual(t, 100*float64(all[3])/n, floor.harmful, "per cent harmful")
			}
		})
	}
}

// TestRecordTurns adds what becomes of messages that come after a piece to the outcomes of
// package trust, where a file for them is named: of every other conversation of the sets
// that are still measured, and of all of the older ones.
func TestRecordTurns(t *testing.T) {
	path := os.Getenv("GUILDHAND_OUTCOMES")
	if path == "" {
		t.Skip("GUILDHAND_OUTCOMES names no file")
	}
	measured := []string{"tuning-k", "tuning-j", "tuning-i"}
	var became []trust.Outcome
	for _, set := range append(measured, "tuning-h", "tuning-g", "tuning-f", "tuning-e", "tuning-d") {
		for i, s := range load(t, "testdata/"+set+"-conversations.json") {
			if i%2 == 0 || !slices.Contains(measured, set) {
				became = append(became, outcomesOf(s)...)
			}
		}
	}
	require.NoError(t, trust.Append(path, became))
}

// outcomesOf are those of a conversation up to its first harmful answer, from where on
// nothing can be right.
func outcomesOf(s sample) (became []trust.Outcome) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for i, turn := range s.Turns {
		undoubted, signs, isPiece := SignsInTalk(turn.Say, c)
		grade := gradeOf(undoubted, turn.Want)
		if isPiece && i > 0 {
			became = append(became, trust.Outcome{Right: grade <= rightQuestion, Signs: signs})
		}
		if grade == harmful {
			break
		}
		c = c.After(turn.Say, undoubted)
	}
	return became
}
