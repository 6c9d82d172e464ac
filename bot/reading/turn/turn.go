// Package turn tells by its words what a message does that comes after an answer
// or a question of the bot: whether it answers, changes the piece, asks for the same
// for another stone, asks about the piece, or begins something else. It is a second
// opinion for the rules of bot/reading/sentence.
//
// The model is learnt from the messages in written; after they change, run
//
//	go generate ./bot/reading/turn
package turn

import (
	_ "embed"
	"fmt"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/logistic"
	"guildhand/bot/reading/written"
)

//go:generate go run ./learn -written ../written -model model.gob.gz

// What a message may do, beside the intents of a message that goes on from nothing.
const (
	Answers = "answer" // it answers a question back or gives more of the piece
	Changes = "change"
	Again   = "again" // the same for another stone or ring
	Back    = "back"  // to an earlier piece
	Begins  = "new"   // another request
	About   = "about" // a question about the piece or its answer
)

//go:embed model.gob.gz
var packed []byte

// learnt is the model of the program.
var learnt = logistic.Embedded("turn", packed)

// Of is how likely a message does each thing after an answer of this request.
func Of(after string, message intent.Message) logistic.Chances { return By(learnt(), after, message) }

// By is Of by any model.
func By(m *logistic.Model, after string, message intent.Message) logistic.Chances {
	return m.Chances(features(after, message)...)
}

// termsShown is how many of the terms that a message begins with are looked at by
// themselves.
const termsShown = 4

func features(after string, message intent.Message) []logistic.Counts {
	all := intent.Words(message.Text)
	shape := logistic.Counts{"after " + after: 1, fmt.Sprintf("long %d", min(len(all)/3, 5)): 1}
	if len(all) > 0 {
		shape["first "+all[0]]++
		shape["last "+all[len(all)-1]]++
		shape["after "+after+" "+all[0]]++
	}
	if strings.Contains(message.Text, "?") {
		shape["asks"]++
	}
	for i, t := range message.Terms[:min(2, len(message.Terms))] {
		shape[fmt.Sprintf("%d is %s", i, t)]++
	}
	shape["begins "+strings.Join(message.Terms[:min(termsShown, len(message.Terms))], " ")]++
	return append(intent.Features(message), shape)
}

// A feature that stands in fewer examples than this says nothing.
const fewest = 2

// Fit learns a model from follow-ups.
// The reader finds what is in a message.
func Fit(all []written.FollowUp, reader func(typed string) intent.Message) (*logistic.Model, error) {
	var samples []logistic.Sample
	for _, f := range all {
		does, _, _ := strings.Cut(f.Does, ":")
		samples = append(samples, logistic.Sample{Kinds: features(f.After, reader(f.Text)), Classes: []string{does}})
	}
	return logistic.Fit(samples, fewest, fewest, fewest, fewest, fewest)
}
