package requests

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/knowledge"
)

// helpRequest describes the requests given, and itself.
func helpRequest(specs []catalogue.Spec) catalogue.Spec {
	var choices []catalogue.Choice
	for i := range specs {
		choices = append(choices, catalogue.Choice{Key: specs[i].Name, Summary: specs[i].Summary})
	}
	const name, summary = "help", "what you can ask, and how"
	choices = append(choices, catalogue.Choice{Key: name, Summary: summary})
	help := catalogue.Spec{
		Name:    name,
		Summary: summary,
		Detail:  "With a request's word, it lists that request's options.",
		Options: []catalogue.Option{{
			Name: "request", Aliases: []string{"about"},
			Summary: "the request to describe",
			Kind:    catalogue.Word, Choices: choices, Bare: true,
		}, {
			Name: "term", Summary: "a term or a question of the trade to explain: firestain, which-flux ...",
			Kind: catalogue.Word, Choices: termChoices(),
		}},
		Examples: []catalogue.Example{
			{Line: "help"},
			{Line: "help gauge", Summary: "one request"},
			{Line: "help term kerf", Summary: "a term of the trade, explained"},
		},
	}
	help.Answer = func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
		if term := c.Word("term"); term != "" {
			return explainTerm(term)
		}
		word := c.Word("request")
		if word == "" {
			return helpAll(append(slices.Clone(specs), *c.Spec)), nil
		}
		for _, s := range append(slices.Clone(specs), *c.Spec) {
			if s.Name == word {
				return helpOne(&s, c), nil
			}
		}
		return nil, fmt.Errorf("help: no request %q", word)
	}
	return help
}

func termChoices() []catalogue.Choice {
	var choices []catalogue.Choice
	for _, f := range knowledge.Facts() {
		choices = append(choices, catalogue.Choice{Key: knowledge.Word(f.Key), Summary: f.Key})
	}
	return choices
}

func explainTerm(term string) (*answer.Answer, error) {
	for _, f := range knowledge.Facts() {
		if knowledge.Word(f.Key) == term {
			return &answer.Answer{Explains: true, Headline: f.Text, Assumptions: []string{"source: " + f.Source}}, nil
		}
	}
	return nil, fmt.Errorf("help: no term %q", term)
}

// helpAll names all requests on one screen; the working says of each what it
// answers.
func helpAll(specs []catalogue.Spec) *answer.Answer {
	var words []string
	for i := range specs {
		words = append(words, specs[i].Name)
	}
	return &answer.Answer{
		Headline: "Start with one of these words; help and a word says more.",
		Notes: []string{
			strings.Join(words, ", "),
			catalogue.ExampleLine(specs[0].Examples[0]),
			"the working says what each one answers",
		},
		Steps: catalogue.Help(specs),
	}
}

// mostExamples is how many a first screen shows.
const mostExamples = 3

// helpOne shows how a request is asked, and its options in the working.
func helpOne(s *catalogue.Spec, c *catalogue.Call) *answer.Answer {
	a := &answer.Answer{Headline: catalogue.HelpLine(s), Steps: catalogue.HelpFor(s, c.Shop)}
	for _, e := range s.Examples[:min(len(s.Examples), mostExamples)] {
		a.Notes = append(a.Notes, catalogue.ExampleLine(e))
	}
	var needed, others []string
	for i := range s.Options {
		if o := &s.Options[i]; o.Required {
			needed = append(needed, o.Name)
		} else {
			others = append(others, o.Name)
		}
	}
	if len(needed) > 0 {
		a.Notes = append(a.Notes, "needs: "+strings.Join(needed, ", "))
	}
	if len(others) > 0 {
		a.Notes = append(a.Notes, "takes: "+strings.Join(others, ", "))
	}
	a.Notes = append(a.Notes, "the working explains each")
	return a
}
