package requests

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/knowledge"
	"guildhand/bot/requests/words"
)

func troubleRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "trouble",
		Summary: "what went wrong at the bench: a sign, its likely causes, what to do",
		Detail: "Say what you see, in your own words: \"solder balls up\", \"my bezel is half a millimetre short\". " +
			"You get what to do with this piece, the likely causes in order, and what to change next time.",
		Options: []catalogue.Option{
			{
				Name: "sign", Summary: "what you see: solder-balls-up, strip-too-short, stone-rattles ...",
				Kind: catalogue.Word, Choices: troubleChoices(), Bare: true,
				Required: true, Prompt: "what went wrong: solder balls up, the strip is too short, the stone rattles ...?",
			},
			{Name: "by", Summary: "by how much it is short or long, mm", Kind: catalogue.Length, Min: 0.01, Max: 50},
			{Name: "across", Summary: "the difference was measured across the piece, not along the strip", Kind: catalogue.Flag},
		},
		Examples: []catalogue.Example{
			{Line: "trouble solder-balls-up", Summary: "why it won't flow, and what now"},
			{Line: "trouble strip-too-short by 0.5", Summary: "with the correction worked out"},
			{Line: "trouble strip-too-long by 1 across", Summary: "measured across the piece"},
		},
		Answer: answerTrouble,
	}
}

func troubleChoices() []catalogue.Choice {
	var choices []catalogue.Choice
	for _, t := range knowledge.Troubles() {
		choices = append(choices, catalogue.Choice{Key: knowledge.Word(t.Key), Summary: t.Key})
	}
	return choices
}

func answerTrouble(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	sign := strings.ReplaceAll(c.Args.Word("sign"), "-", " ")
	for _, t := range knowledge.Troubles() {
		if t.Key == sign {
			return troubleAnswer(c, &t), nil
		}
	}
	return nil, fmt.Errorf("no trouble %q", sign)
}

func troubleAnswer(c *catalogue.Call, t *knowledge.Trouble) *answer.Answer {
	a := &answer.Answer{Headline: words.Capital(t.Now), Assumptions: []string{"causes and remedies (" + t.Source + ")"}}
	by, across := c.Args.Number("by", 0), c.Args.Has("across")
	if t.Correct != nil && by > 0 {
		a.Headline = t.Correct(by, across)
		a.Steps = append(a.Steps, "now: "+t.Now)
		a.Figures = append(a.Figures, answer.Figure{ID: "difference", Label: "difference", Value: by, Unit: answer.MM})
	}
	for i, cause := range t.Causes {
		a.Steps = append(a.Steps, "likely cause: "+cause)
		if i == 0 {
			a.Notes = append(a.Notes, "likeliest: "+cause)
		}
	}
	if t.Next != "" {
		a.Notes = append(a.Notes, "next time: "+t.Next)
		a.Steps = append(a.Steps, "next time: "+t.Next)
	}
	if t.Job != "" {
		a.Cautions = cautions.Lines(cautions.Work{Jobs: []cautions.Job{cautions.Job(t.Job)}})
	}
	return a
}
