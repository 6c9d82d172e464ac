package intent

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/written"
)

// labelled is one message of the sentences in sentence/testdata, with the readings
// that are right for it; see corpus_test.go there.
type labelled struct {
	Say  string `json:"say"`
	Want []struct {
		Request               string
		Ask, Explain, Decline bool
		Silent                bool
		Aid, Topic            string
	} `json:"want"`
	Turns []json.RawMessage `json:"turns"`
}

// Examples reads the labelled sentences of a folder and the messages written for
// learning of another. Sets that are only measured, blind-*, are left out, and so
// are conversations, whose messages mean little alone.
func Examples(folder, writtenFolder string, leaveOut ...string) (all []Example, err error) {
	messages, err := written.Messages(writtenFolder)
	if err != nil {
		return nil, err
	}
	for _, m := range messages {
		all = append(all, Example{m.Text, m.Intents})
	}
	all = append(all, ofTopics()...)
	files, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		return nil, err
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		if strings.HasPrefix(name, "blind-") || slices.Contains(leaveOut, name) {
			continue
		}
		raw, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		var samples []labelled
		if err := json.Unmarshal(raw, &samples); err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		for _, s := range samples {
			if e := (Example{s.Say, s.intents()}); len(s.Turns) == 0 && len(e.Intents) > 0 {
				all = append(all, e)
			}
		}
	}
	return all, nil
}

// intents of a sentence: a question back says nothing of what was asked.
func (l *labelled) intents() (all []string) {
	for _, w := range l.Want {
		intent := w.Request
		switch {
		case strings.HasPrefix(w.Topic, "trouble: "):
			intent = Trouble
		case w.Explain:
			intent = Explanation
		case w.Decline:
			intent = Declined
		case w.Silent:
			intent = Silent
		case w.Aid != "":
			intent = FirstAid + "-" + w.Aid
		}
		if intent != "" && !w.Ask && !slices.Contains(all, intent) {
			all = append(all, intent)
		}
	}
	return all
}

// ofTopics are the ways to ask for what is known in words.
func ofTopics() (all []Example) {
	for _, f := range knowledge.Facts() {
		for _, way := range knowledge.Ways(f.Key) {
			all = append(all, Example{way, []string{Explanation}})
		}
	}
	for _, t := range knowledge.Troubles() {
		for _, way := range knowledge.Ways("trouble: " + t.Key) {
			all = append(all, Example{way, []string{Trouble}})
		}
	}
	return all
}
