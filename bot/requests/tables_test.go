package requests

import (
	"context"
	"errors"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/requeststest"
)

// tables are the requests that are looked up or computed in one step.
func tables() []catalogue.Spec {
	return []catalogue.Spec{bandRequest(), domeRequest(), weighRequest(), meltRequest(), heatRequest(), cautionsRequest()}
}

// colletStandIn answers as the collet does, for the requests that hold one.
func colletStandIn() catalogue.Spec {
	return catalogue.Spec{
		Name: "collet", Summary: "a collet",
		Options: append(option.Stone(), option.Depth(), option.Thickness(), option.Alloy()),
		Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return &answer.Answer{Headline: "Cut it.", Figures: []answer.Figure{{ID: "blank_mass", Value: 1.25, Unit: answer.Gram}}}, nil
		},
	}
}

func withCollet() []catalogue.Spec { return append(tables(), colletStandIn()) }

func TestTablesExamples(t *testing.T) {
	specs := withCollet()
	run := 0
	for _, s := range tables() {
		for _, e := range s.Examples {
			a, err := requeststest.Ask(specs, e.Line)
			if err != nil {
				t.Errorf("%s: %v", e.Line, err)
				continue
			}
			run++
			for _, f := range requeststest.Unfit(a) {
				t.Errorf("%s: %s", e.Line, f)
			}
			again, err := requeststest.Ask(specs, a.Line)
			if err != nil || again.Headline != a.Headline || again.Line != a.Line {
				t.Errorf("%s: typed again as %q it differs: %v", e.Line, a.Line, err)
			}
			for _, f := range a.Attachments {
				if b, err := f.Render(context.Background()); err != nil || len(b) < 100 {
					t.Errorf("%s: %s has %d bytes, %v", e.Line, f.Name, len(b), err)
				}
			}
			t.Logf("%s\n  %s\n  %v\n  assumed %s", e.Line, a.Headline, requeststest.Mains(a), strings.Join(a.Assumptions, "; "))
		}
	}
	if run < 20 {
		t.Errorf("only %d examples ran", run)
	}
}

var errNotRefused = errors.New("answered")

func refusal(specs []catalogue.Spec, line string) (*answer.Refusal, error) {
	_, err := requeststest.Ask(specs, line)
	if err == nil {
		return nil, errNotRefused
	}
	r, ok := answer.AsRefusal(err)
	if !ok {
		return nil, err
	}
	return r, nil
}
