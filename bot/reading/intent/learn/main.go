// Learn makes the model of package intent from labelled sentences.
package main

import (
	"flag"
	"log"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/sentence"
)

func main() {
	log.SetFlags(0)
	sentences := flag.String("sentences", "", "the folder with the labelled sentences")
	messages := flag.String("written", "", "the folder with the messages written for learning")
	model := flag.String("model", "", "the file to write")
	without := flag.String("without", "", "sets to leave out, separated by commas")
	flag.Parse()
	examples, err := intent.Examples(*sentences, *messages, sentence.Found, strings.Split(*without, ",")...)
	if err != nil {
		log.Fatal(err)
	}
	m, err := intent.Fit(examples)
	if err != nil {
		log.Fatal(err)
	}
	said, err := m.WriteFile(*model)
	if err != nil {
		log.Fatal(err)
	}
	log.Printf("%d examples, %s", len(examples), said)
}
