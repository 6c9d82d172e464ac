package main

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/sentence"
	"guildhand/bot/reading/written"
)

// show prints what the reader makes of each marked message of a folder, and a table by
// intent. An answer in words is taken for right where words were wanted, whatever they
// say.
func show(folder string) error {
	messages, err := written.Messages(folder)
	if err != nil {
		return err
	}
	t := tally{}
	for _, m := range messages {
		r := sentence.Read(m.Text, sentence.Context{Addressed: true})
		what := becameOf(m, r)
		t.add(m.Intents[0], what)
		fmt.Printf("%s\t%s\t%s\t%s %s %s\n", what, strings.Join(m.Intents, ","), m.Text, r.Line(), r.Topic, r.Ask)
	}
	t.print()
	return nil
}

// tally counts what became of messages, by what they are.
type tally map[string]map[string]int

func (t tally) add(of, what string) {
	for _, of := range []string{of, "all"} {
		if t[of] == nil {
			t[of] = map[string]int{}
		}
		t[of][what]++
	}
}

func (t tally) print() {
	for _, of := range slices.Sorted(maps.Keys(t)) {
		n := 0
		for _, k := range t[of] {
			n += k
		}
		fmt.Fprintf(os.Stderr, "%-14s %5d", of, n)
		for _, what := range []string{"right", "asked", "other words", "wrong"} {
			fmt.Fprintf(os.Stderr, "  %s %5.1f %%", what, 100*float64(t[of][what])/float64(n))
		}
		fmt.Fprintln(os.Stderr)
	}
}

// becameOf is what became of a message: right, asked back, answered in other words than
// wanted, or a wrong piece.
func becameOf(m written.Message, r sentence.Reading) string {
	wants := func(intents ...string) bool {
		return slices.ContainsFunc(intents, func(i string) bool { return slices.Contains(m.Intents, i) })
	}
	words := wants(intent.Explanation, intent.Trouble, "heat", "cautions")
	switch r.Outcome {
	case sentence.Request:
		if wants(r.Request) && (words || placed(m, r)) || words && slices.Contains([]string{intent.Trouble, "heat", "cautions"}, r.Request) {
			return "right"
		}
		return "wrong"
	case sentence.Question:
		return "asked"
	case sentence.FirstAid:
		if wants(intent.FirstAid + "-" + r.Topic) {
			return "right"
		}
		return "wrong"
	case sentence.Explanation:
		if words {
			return "right"
		}
	case sentence.Declined:
		if wants(intent.Declined) {
			return "right"
		}
	case sentence.Silent, sentence.Unknown:
		if wants(intent.Silent) {
			return "right"
		}
	}
	return "other words"
}
