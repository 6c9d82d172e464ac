package requests

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
)

func cautionsRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "cautions",
		Summary: "the safety notes of a job: soldering, pickle, press, polishing, casting, chemicals ...",
		Detail: "The hazards of a job, worst first, and what the trade does about them. The makers' instructions, " +
			"the safety data sheets, local codes and licensed practice go before these notes.",
		Options: []catalogue.Option{{
			Name: "job", Summary: "the job: soldering, pickle, press, polishing, casting, chemicals ...",
			Kind: catalogue.Word, Choices: jobChoices(), Bare: true,
			Required: true, Prompt: "which job: " + jobList() + "?",
		}},
		Examples: []catalogue.Example{
			{Line: "cautions soldering", Summary: "before you light the torch"},
			{Line: "cautions pickle", Summary: "acid, and what never goes into it"},
		},
		Answer: answerCautions,
	}
}

var jobAliases = map[answer.Job][]string{
	answer.Soldering: {"torch", "solder", "brazing", "flux"},
	answer.Pickle:    {"acid", "pickling"},
	answer.Press:     {"hydraulic-press"},
	answer.Polishing: {"buffing", "polish", "grinding"},
	answer.Casting:   {"melting", "burnout"},
	answer.Chemicals: {"chemical", "etching", "patina"},
	answer.Files:     {"filing", "file"},
	answer.Saw:       {"sawing", "drilling"},
	answer.Annealing: {"anneal", "quench"},
	answer.Stones:    {"stone", "gems"},
	answer.Hammer:    {"hammering", "doming", "punch"},
}

func jobChoices() []catalogue.Choice {
	var list []catalogue.Choice
	for _, j := range answer.Jobs() {
		list = append(list, catalogue.Choice{Key: string(j), Aliases: jobAliases[j], Summary: "safety notes for " + string(j)})
	}
	return list
}

func jobList() string {
	var words []string
	for _, j := range answer.Jobs() {
		words = append(words, string(j))
	}
	return strings.Join(words, ", ")
}

// cautionsShown is how many notes stand on a first screen, each by its first
// sentence. The notes are in order, hazard first; the working has them whole.
const cautionsShown = 3

func answerCautions(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	job := answer.Job(c.Args.Word("job"))
	notes := answer.AllCautions(job)
	if notes == nil {
		return nil, answer.Refuse("cautions soldering", "no notes for %q; there are notes for %s", string(job), jobList())
	}
	notes = notes[:len(notes)-1] // the deferral, shown apart
	a := &answer.Answer{
		Request:  "cautions",
		Line:     c.Line,
		Headline: fmt.Sprintf("%s, worst first; the working has all %d notes.", words.Capital(string(job)), len(notes)),
		Figures: []answer.Figure{
			{ID: "notes", Label: "notes", Value: float64(len(notes)), Unit: answer.Count},
		},
		Steps: notes,
	}
	for _, n := range notes[:min(cautionsShown, len(notes))] {
		first, _, _ := strings.Cut(n, ". ")
		a.Cautions = append(a.Cautions, strings.TrimSuffix(first, ".")+".")
	}
	a.Cautions = append(a.Cautions, answer.Deferral)
	return a, nil
}
