package intent

import (
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/written"
)

// Examples reads the labelled sentences of a folder and the messages written for
// learning of another. Sets that are only measured, blind-*, are left out, and so
// are conversations, whose messages mean little alone. The reader finds what is in a
// message.
func Examples(folder, writtenFolder string, reader func(typed string) Message, leaveOut ...string) (all []Example, err error) {
	messages, err := written.Messages(writtenFolder)
	if err != nil {
		return nil, err
	}
	for _, m := range messages {
		all = append(all, Example{reader(m.Text), m.Intents})
	}
	all = append(all, ofTopics(reader)...)
	sentences, err := written.Sentences(folder, leaveOut...)
	if err != nil {
		return nil, err
	}
	for _, s := range sentences {
		if e := (Example{reader(s.Say), intentsOf(s)}); len(s.Turns) == 0 && len(e.Intents) > 0 {
			all = append(all, e)
		}
	}
	return all, nil
}

// intentsOf a sentence: a question back says nothing of what was asked.
func intentsOf(s written.Sentence) (all []string) {
	for _, w := range s.Want {
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

// mostWays is how many ways to ask for a topic are learnt from, so that questions on topics
// don't outweigh the messages.
const mostWays = 6

// ofTopics are the ways to ask for what is known in words.
func ofTopics(reader func(string) Message) (all []Example) {
	add := func(key, intent string) {
		ways := knowledge.Ways(key)
		for _, way := range ways[:min(len(ways), mostWays)] {
			all = append(all, Example{reader(way), []string{intent}})
		}
	}
	for _, f := range knowledge.Facts() {
		add(f.Key, Explanation)
	}
	for _, t := range knowledge.Troubles() {
		add("trouble: "+t.Key, Trouble)
	}
	return all
}
