package requests_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
	"guildhand/calc/checks"
	"guildhand/calc/stock"
)

// half reports what a request's literal leaves out.
func half(s *catalogue.Spec) []string {
	var lacks []string
	want := func(has bool, what string) {
		if !has {
			lacks = append(lacks, what)
		}
	}
	want(s.Summary != "", "summary")
	want(s.Detail != "", "detail")
	want(s.Answer != nil, "answer")
	want(len(s.Examples) > 0, "examples")
	for _, e := range s.Examples {
		want(e.Line != "" && (e.Summary != "" || e.Line == s.Name), "what the example "+e.Line+" shows")
	}
	for i := range s.Options {
		o := &s.Options[i]
		want(o.Summary != "", "summary of "+o.Name)
		want(!o.Required || o.Prompt != "", "prompt of "+o.Name)
		want(o.Kind != catalogue.Word || len(o.ChoicesIn(stock.DemoWorkshop())) > 0, "choices of "+o.Name)
		want(!o.Bench || o.Kind == catalogue.Word || len(o.Suggest) > 0, "usual values of "+o.Name+", which a bench may hold")
	}
	return lacks
}

func TestEveryRequestIsDescribed(t *testing.T) {
	specs := requests.All(nil)
	for i := range specs {
		assert.Empty(t, half(&specs[i]), specs[i].Name)
		if _, err := reading.Parse(specs, specs[i].Example(), reading.Lookups{Shop: stock.DemoWorkshop()}); err != nil {
			t.Errorf("the sample of %s: %v", specs[i].Name, err)
		}
	}
	// Each part is missed where it is left out.
	full := specs[0]
	for what, leave := range map[string]func(*catalogue.Spec){
		"summary":            func(s *catalogue.Spec) { s.Summary = "" },
		"detail":             func(s *catalogue.Spec) { s.Detail = "" },
		"answer":             func(s *catalogue.Spec) { s.Answer = nil },
		"examples":           func(s *catalogue.Spec) { s.Examples = nil },
		"summary of outline": func(s *catalogue.Spec) { s.Options = changed(s, func(o *catalogue.Option) { o.Summary = "" }) },
		"prompt of outline":  func(s *catalogue.Spec) { s.Options = changed(s, func(o *catalogue.Option) { o.Prompt = "" }) },
		"choices of outline": func(s *catalogue.Spec) { s.Options = changed(s, func(o *catalogue.Option) { o.Choices = nil }) },
	} {
		s := full
		leave(&s)
		assert.Equal(t, []string{what}, half(&s))
	}
}

// changed are a request's options with another outline.
func changed(s *catalogue.Spec, change func(*catalogue.Option)) []catalogue.Option {
	options := append([]catalogue.Option(nil), s.Options...)
	for i := range options {
		if options[i].Name == "outline" {
			change(&options[i])
		}
	}
	return options
}

// withoutCheck says why a request has no row in the list of outside checks.
var withoutCheck = map[string]string{
	"cautions": "computes nothing; each text has its source in bot/cautions",
	"bench":    "computes nothing: what is kept",
	"stop":     "computes nothing",
	"daybook":  "computes nothing: what was answered",
	"help":     "computes nothing: the catalogue",
	"trouble":  "computes nothing; each cause has its source in its own table",
}

func TestEveryRequestHasAnOutsideCheck(t *testing.T) {
	checked := map[string]bool{}
	for _, r := range checks.All() {
		for _, name := range r.Requests {
			checked[name] = checked[name] || r.Mark != checks.Practice
		}
	}
	specs := requests.All(nil)
	for i := range specs {
		name := specs[i].Name
		reason, excused := withoutCheck[name]
		assert.NotEqual(t, checked[name], excused, "%s needs a row in calc/checks, or the reason why it has none", name)
		assert.True(t, !excused || reason != "", name)
	}
	assert.Equal(t, len(checked)+len(withoutCheck), len(specs), "a request is gone and still listed")
}
