// Learn makes the model of package figures from marked messages and from labelled
// sentences.
package main

import (
	"flag"
	"log"
	"path/filepath"
	"regexp"
	"strings"

	"guildhand/bot/reading/figures"
	"guildhand/bot/reading/sentence"
	"guildhand/bot/reading/written"
)

func main() {
	log.SetFlags(0)
	sentences := flag.String("sentences", "", "the folder with the labelled sentences")
	messages := flag.String("written", "", "the folder of package written")
	model := flag.String("model", "", "the file to write")
	without := flag.String("without", "", "sets to leave out, separated by commas")
	flag.Parse()
	examples, err := ofMessages(*messages)
	if err != nil {
		log.Fatal(err)
	}
	labelled, err := ofSentences(*sentences, strings.Split(*without, ","))
	if err != nil {
		log.Fatal(err)
	}
	examples = append(examples, labelled...)
	m, err := figures.Fit(examples)
	if err != nil {
		log.Fatal(err)
	}
	said, err := m.WriteFile(*model)
	if err != nil {
		log.Fatal(err)
	}
	log.Printf("%d figures, %s", len(examples), said)
}

// ofMessages are the figures that the reader finds where one is marked.
func ofMessages(folder string) (all []figures.Example, err error) {
	messages, err := written.Messages(filepath.Join(folder, "messages"))
	if err != nil {
		return nil, err
	}
	for _, m := range messages {
		all = append(all, marked(m.Intents[0], m)...)
	}
	followUps, err := written.FollowUps(filepath.Join(folder, "followups"))
	if err != nil {
		return nil, err
	}
	for _, f := range followUps {
		request := f.After
		if _, other, ok := strings.Cut(f.Does, ":"); ok {
			request = other
		}
		all = append(all, marked(request, f.Message)...)
	}
	return all, nil
}

func marked(request string, m written.Message) (all []figures.Example) {
	words, found, _ := sentence.Figures(m.Text)
	for _, mark := range m.Figures {
		first, next := sentence.WordsBefore(m.Text[:mark.Start]), sentence.WordsBefore(m.Text[:mark.End])
		for at, f := range found {
			if f.First < next && first < f.Next {
				all = append(all, figures.Example{Request: request, Words: words, All: found, At: at, Role: mark.Role})
				break
			}
		}
	}
	return all
}

// ofSentences are the figures whose value is that of one option of the first
// request that is right for a sentence.
func ofSentences(folder string, without []string) (all []figures.Example, err error) {
	sentences, err := written.Sentences(folder, without...)
	if err != nil {
		return nil, err
	}
	for _, s := range sentences {
		if len(s.Want) > 0 && s.Want[0].Request != "" {
			all = append(all, examplesOf(s)...)
		}
	}
	return all, nil
}

func examplesOf(s written.Sentence) (all []figures.Example) {
	words, found, shown := sentence.Figures(s.Say)
	for at := range found {
		var roles []string
		for option, value := range s.Want[0].Options {
			if option != "system" && option != "units" && value != "yes" && alike(value, shown[at]) {
				roles = append(roles, option)
			}
		}
		if len(roles) == 1 {
			all = append(all, figures.Example{Request: s.Want[0].Request, Words: words, All: found, At: at, Role: roles[0]})
		}
	}
	return all
}

var unit = regexp.MustCompile(`mm|ga(uge)?|[ °]|degrees|deg|us|uk|iso`)

// alike compares a label's value with what was read, units aside.
func alike(label, shown string) bool {
	plain := func(s string) string { return unit.ReplaceAllString(strings.ToLower(s), "") }
	return plain(label) == plain(shown)
}
