// Learn makes the model of package intent from labelled sentences.
package main

import (
	"flag"
	"log"
	"os"
	"strings"

	"guildhand/bot/reading/intent"
)

func main() {
	log.SetFlags(0)
	sentences := flag.String("sentences", "", "the folder with the labelled sentences")
	messages := flag.String("written", "", "the folder with the messages written for learning")
	model := flag.String("model", "", "the file to write")
	without := flag.String("without", "", "sets to leave out, separated by commas")
	flag.Parse()
	examples, err := intent.Examples(*sentences, *messages, strings.Split(*without, ",")...)
	if err != nil {
		log.Fatal(err)
	}
	m, err := intent.Fit(examples)
	if err != nil {
		log.Fatal(err)
	}
	data, err := m.Pack()
	if err != nil {
		log.Fatal(err)
	}
	if err := os.WriteFile(*model, data, 0o644); err != nil {
		log.Fatal(err)
	}
	log.Printf("%d examples, %d intents, %d features, %d kB", len(examples), len(m.Classes), len(m.Features), len(data)/1000)
}
