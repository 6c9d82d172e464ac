package requests

import (
	"context"
	"fmt"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// helpRequest describes the requests given, and itself.
func helpRequest(specs []catalogue.Spec) catalogue.Spec {
	var choices []catalogue.Choice
	for i := range specs {
		choices = append(choices, catalogue.Choice{Key: specs[i].Name, Summary: specs[i].Summary})
	}
	help := catalogue.Spec{
		Name:    "help",
		Summary: "what can be asked, and how to ask it",
		Detail:  "With a request's word, it lists what that request takes.",
		Options: []catalogue.Option{{
			Name: "request", Aliases: []string{"about"},
			Summary: "the request to describe",
			Kind:    catalogue.Word, Choices: choices, Bare: true,
		}},
		Examples: []catalogue.Example{
			{Line: "help"},
			{Line: "help gauge", Summary: "one request"},
		},
	}
	help.Answer = func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
		word := c.Args.Word("request")
		if word == "" {
			return helpAll(append(slices.Clone(specs), *c.Spec)), nil
		}
		for i := range specs {
			if specs[i].Name == word {
				return helpOne(&specs[i], c), nil
			}
		}
		return nil, fmt.Errorf("help: no request %q", word)
	}
	return help
}

func helpAll(specs []catalogue.Spec) *answer.Answer {
	return &answer.Answer{
		Headline: "ask with one of these words; help and a word tells more",
		Notes:    catalogue.Help(specs),
	}
}

func helpOne(s *catalogue.Spec, c *catalogue.Call) *answer.Answer {
	return &answer.Answer{Headline: catalogue.HelpLine(s), Notes: catalogue.HelpFor(s, c.Shop)}
}
