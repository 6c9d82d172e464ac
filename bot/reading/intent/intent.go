// Package intent tells by its words alone what a message most likely asks for: a
// request of the catalogue, an explanation, help with trouble, or none of them.
// It is a second opinion for the rules of bot/reading/sentence, which find what
// the message says in particular.
//
// The model is multinomial logistic regression over words, pairs of words, runs of
// four letters and what the reader's lexicon finds, weighted by tf-idf. It is learnt
// from the sentences in sentence/testdata and the messages in written; after they or
// the lexicon change, run
//
//	go generate ./bot/reading/intent
package intent

import (
	_ "embed"
	"strings"

	"guildhand/bot/reading/logistic"
)

//go:generate go run ./learn -sentences ../sentence/testdata -written ../written/messages -model model.gob.gz

// What a message may ask for, beside the requests of the catalogue, which go by
// their words.
const (
	Explanation = "explain"
	Trouble     = "trouble"
	FirstAid    = "aid" // with the kind of first aid behind it: "aid-eyes"
	Declined    = "decline"
	Silent      = "silent"
)

//go:embed model.gob.gz
var packed []byte

// learnt is the model of the program.
var learnt = logistic.Embedded("intent", packed)

// Of is how likely a message asks for each intent, by the model that the program
// carries.
func Of(message Message) logistic.Chances { return By(learnt(), message) }

// By is how likely a message asks for each intent, by any model.
func By(m *logistic.Model, message Message) logistic.Chances {
	return m.Chances(Features(message)...)
}

// Hurt is how likely a message tells that somebody is hurt, and the likeliest kind of
// first aid.
func Hurt(all logistic.Chances) (kind string, chance float64) {
	best := 0.0
	for class, c := range all.All() {
		of, is := strings.CutPrefix(class, FirstAid+"-")
		if !is {
			continue
		}
		chance += c
		if c > best || c == best && of < kind {
			kind, best = of, c
		}
	}
	return kind, chance
}

// Example is a message with what it asks for; several intents are right alike.
type Example struct {
	Message
	Intents []string
}

// Fit learns a model from examples.
func Fit(examples []Example) (*logistic.Model, error) {
	var samples []logistic.Sample
	for _, e := range examples {
		samples = append(samples, logistic.Sample{Kinds: Features(e.Message), Classes: e.Intents})
	}
	return logistic.Fit(samples, fewest...)
}
