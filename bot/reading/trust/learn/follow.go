package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/sentence"
	"guildhand/bot/reading/trust"
	"guildhand/bot/reading/turn"
	"guildhand/bot/reading/written"
)

// showFollowUps prints what the reader makes of each follow-up of a folder after a piece
// of the request that it follows, which is one of the marked messages that are read
// rightly. What an answer was asked for is what its first figure is marked as. With a
// file of outcomes, it adds to them what becomes of each without a doubt.
func showFollowUps(folder, messages, outcomes string) error {
	followUps, err := written.FollowUps(folder)
	if err != nil {
		return err
	}
	pieces, err := readRightly(messages)
	if err != nil {
		return err
	}
	t, became := tally{}, []trust.Outcome(nil)
	for i, f := range followUps {
		last := pieces[f.After]
		if len(last) == 0 {
			continue
		}
		piece := last[i%len(last)]
		c := sentence.Context{Addressed: true}.After("", piece)
		if f.Does == turn.Answers && len(f.Figures) > 0 {
			c = askedFor(c, piece, f.Figures[0].Role)
		}
		undoubted, signs, isPiece := sentence.SignsInTalk(f.Text, c)
		if isPiece {
			became = append(became, trust.Outcome{Right: followed(f, undoubted) == "right", Signs: signs})
		}
		r := sentence.Read(f.Text, c)
		what := followed(f, r)
		does, _, _ := strings.Cut(f.Does, ":")
		t.add(does, what)
		fmt.Printf("%s\t%s\t%s\t%s\t%s %s %s\tafter %s\n", what, f.After, f.Does, f.Text, r.Line(), r.Topic, r.Ask, piece.Line())
	}
	t.print()
	if outcomes == "" {
		return nil
	}
	return trust.Append(outcomes, became)
}

// readRightly are the readings of marked messages that are right, by request.
func readRightly(folder string) (map[string][]sentence.Reading, error) {
	all, err := written.Messages(folder)
	if err != nil {
		return nil, err
	}
	pieces := map[string][]sentence.Reading{}
	const enough = 40
	for _, m := range all {
		if len(pieces[m.Intents[0]]) >= enough || len(m.Figures) < 2 {
			continue
		}
		if r := sentence.Read(m.Text, sentence.Context{Addressed: true}); r.Outcome == sentence.Request && slices.Contains(m.Intents, r.Request) && placed(m, r) {
			pieces[r.Request] = append(pieces[r.Request], r)
		}
	}
	return pieces, nil
}

// askedFor is a context in which one option of a piece is still missing.
func askedFor(c sentence.Context, piece sentence.Reading, option string) sentence.Context {
	options := maps.Clone(piece.Options)
	delete(options, option)
	c.Last = nil
	c.Asked = &sentence.Reading{Outcome: sentence.Question, Request: piece.Request, Options: options, Missing: option, Ask: "What is its " + option + "?"}
	return c
}

// followed is what became of a follow-up.
func followed(f written.FollowUp, r sentence.Reading) string {
	does, of, _ := strings.Cut(f.Does, ":")
	m := f.Message
	switch does {
	case turn.Changes, turn.Answers, turn.Again:
		m.Intents = []string{f.After}
	case turn.About, turn.Back:
		m.Intents = []string{f.After, "weigh", intent.Explanation}
		m.Figures = nil
	case turn.Begins:
		m.Intents = []string{of}
	case "aid":
		if r.Outcome == sentence.FirstAid {
			return "right"
		}
		return "other words"
	default:
		m.Intents = []string{f.Does}
	}
	return becameOf(m, r)
}
