// Learn makes the model of package turn from follow-ups.
package main

import (
	"flag"
	"log"
	"path/filepath"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/sentence"
	"guildhand/bot/reading/turn"
	"guildhand/bot/reading/written"
)

func main() {
	log.SetFlags(0)
	folder := flag.String("written", "", "the folder of package written")
	model := flag.String("model", "", "the file to write")
	flag.Parse()
	all, err := written.FollowUps(filepath.Join(*folder, "followups"))
	if err != nil {
		log.Fatal(err)
	}
	messages, err := written.Messages(filepath.Join(*folder, "messages"))
	if err != nil {
		log.Fatal(err)
	}
	all = append(all, anew(messages)...)
	m, err := turn.Fit(all, sentence.Found)
	if err != nil {
		log.Fatal(err)
	}
	said, err := m.WriteFile(*model)
	if err != nil {
		log.Fatal(err)
	}
	log.Printf("%d follow-ups, %s", len(all), said)
}

// every says which of the messages that stand by themselves are taken, so that they do
// not outweigh the follow-ups.
const every = 4

// answered are requests that such a message may come after.
var answered = []string{"collet", "bezel", "band", "prongs", "dome", "collar", "jumpring", "resize", "tubeset", "halo", "saddle", "melt", "weigh", "kit", "heat", "match", "gauge"}

// anew are messages that stand by themselves, as what may come after an answer that
// has nothing to do with it.
func anew(messages []written.Message) (all []written.FollowUp) {
	for i, m := range messages {
		if i%every != 0 {
			continue
		}
		does := turn.Begins
		switch m.Intents[0] {
		case intent.Explanation, intent.Trouble, intent.FirstAid, intent.Declined, intent.Silent:
			does = m.Intents[0]
		}
		all = append(all, written.FollowUp{After: answered[i/every%len(answered)], Does: does, Message: m})
	}
	return all
}
