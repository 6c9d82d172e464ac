package requests

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/words"
)

func cautionsRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "cautions",
		Summary: "first aid (eyes, skin, burn, swallowed, fumes, cut, shock, hurt) and the safety notes of a job",
		Detail: "What to do when somebody is hurt, or the hazards of a job, worst first, and what to do about them. The makers' " +
			"instructions, the safety data sheets, your local rules and people licensed for the work come before these notes. " +
			"`cautions sources` lists every text with its source.",
		Options: []catalogue.Option{{
			Name: "job", Summary: "eyes, skin, burn, swallowed, fumes, cut, shock, hurt; or a job: soldering, press, casting ...",
			Kind: catalogue.Word, Choices: jobChoices(), Bare: true,
			Required: true, Prompt: "is somebody hurt (" + firstAidList() + "), or which job is it: " + jobList() + "?",
		}},
		Examples: []catalogue.Example{
			{Line: "cautions eyes", Summary: "first aid: pickle or a splinter in the eye"},
			{Line: "cautions soldering", Summary: "before you light the torch"},
			{Line: "cautions pickle", Summary: "acid, and what never goes into it"},
			{Line: "cautions sources", Summary: "every text with its source, in the working"},
		},
		Answer: answerCautions,
	}
}

// jobAliases are other words for jobs.
var jobAliases = map[cautions.Job][]string{
	cautions.Soldering: {"torch", "solder", "brazing", "flux"},
	cautions.Annealing: {"anneal", "quench"},
	cautions.Pickle:    {"acid", "pickling"},
	cautions.Press:     {"hydraulic-press"},
	cautions.Hammer:    {"hammering", "doming", "punch"},
	cautions.Saw:       {"sawing"},
	cautions.Drill:     {"drilling"},
	cautions.Files:     {"filing", "file"},
	cautions.Polishing: {"buffing", "polish", "grinding"},
	cautions.Casting:   {"melting", "burnout", "investment"},
	cautions.Wax:       {"waxes", "injection-wax"},
	cautions.Chemicals: {"chemical", "etching", "patina"},
	cautions.Stones:    {"stone", "gems"},
	cautions.Setting:   {"stone-setting", "engraving"},
	cautions.Class:     {"teaching"},
}

// sourcesWord asks for the table of sources.
const sourcesWord = "sources"

func jobChoices() []catalogue.Choice {
	var list []catalogue.Choice
	for _, f := range cautions.FirstAids() {
		list = append(list, catalogue.Choice{Key: f.Key, Aliases: f.Aliases, Summary: "first aid: " + f.Title})
	}
	for _, j := range cautions.Jobs() {
		list = append(list, catalogue.Choice{Key: string(j), Aliases: jobAliases[j], Summary: "safety notes for " + string(j)})
	}
	return append(list, catalogue.Choice{Key: sourcesWord, Aliases: []string{"source"}, Summary: "every text with its source"})
}

func jobList() string {
	var words []string
	for _, j := range cautions.Jobs() {
		words = append(words, string(j))
	}
	return strings.Join(words, ", ")
}

func firstAidList() string {
	var words []string
	for _, f := range cautions.FirstAids() {
		words = append(words, f.Key)
	}
	return strings.Join(words, ", ")
}

func answerCautions(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	word := c.Word("job")
	if f, ok := cautions.FirstAidFor(word); ok {
		return answerFirstAid(c, f), nil
	}
	if word == sourcesWord {
		return answerSources(c), nil
	}
	list := cautions.OfJob(cautions.Job(word))
	if len(list) == 0 {
		return nil, answer.Refuse("cautions soldering", "there are no notes for %q; there are first aid for %s, and notes for %s", word, firstAidList(), jobList())
	}
	a := &answer.Answer{
		Headline: fmt.Sprintf("%s: %d cautions, the worst first. The working has each in full.", words.Capital(word), len(list)),
		Figures: []answer.Figure{
			{ID: "notes", Label: "notes", Value: float64(len(list)), Unit: answer.Count},
		},
	}
	for _, n := range list {
		a.Cautions = append(a.Cautions, n.Short)
		a.Steps = append(a.Steps, n.Full)
	}
	a.Cautions = append(a.Cautions, cautions.Deferral)
	return a, nil
}

// answerFirstAid says what to do, now first. Nothing of it is left to the
// working but label text, and none of it is kept: who was hurt is nobody's
// record.
func answerFirstAid(c *catalogue.Call, f cautions.FirstAid) *answer.Answer {
	a := &answer.Answer{
		Headline: f.Now.Text, Notes: []string{f.Call.Text},
		Cautions: []string{cautions.NotADoctor}, Fleeting: true,
	}
	for _, l := range f.Then {
		a.Notes = append(a.Notes, l.Text)
	}
	for _, l := range f.Label {
		a.Steps = append(a.Steps, "what labels say, by law in these words; the times above are treatment: "+l.Text)
	}
	for _, l := range f.Lines() {
		a.Steps = append(a.Steps, fmt.Sprintf("source of %q: %s", l.Text, l.Source))
	}
	return a
}

func answerSources(c *catalogue.Call) *answer.Answer {
	rows := cautions.Sources()
	a := &answer.Answer{
		Headline: fmt.Sprintf("The working lists all %d texts of cautions and first aid, each with its source.", len(rows)),
		Figures:  []answer.Figure{{ID: "texts", Label: "texts with their source", Value: float64(len(rows)), Unit: answer.Count}},
		Cautions: []string{cautions.Deferral},
	}
	for _, r := range rows {
		a.Steps = append(a.Steps, r.String())
	}
	return a
}
