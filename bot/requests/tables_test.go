package requests

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests/option"
	"guildhand/calc/stock"
)

// tables are the requests that are looked up or computed in one step.
func tables() []catalogue.Spec {
	return []catalogue.Spec{bandRequest(), domeRequest(), weighRequest(), meltRequest(), heatRequest(), cautionsRequest()}
}

// ask types a line to the requests given, in the demo workshop.
func ask(specs []catalogue.Spec, line string) (*answer.Answer, error) {
	shop := stock.DemoWorkshop()
	parsed, err := reading.Parse(specs, line, reading.Lookups{Shop: shop})
	if err != nil {
		return nil, err
	}
	call := &catalogue.Call{
		Spec: parsed.Spec, Args: parsed.Args, Line: parsed.Line, Shop: shop,
		Progress: func(int, int, string) {},
		Nested: func(inner string) (*catalogue.Call, error) {
			p, err := reading.Parse(specs, inner, reading.Lookups{Shop: shop})
			if err != nil {
				return nil, err
			}
			return &catalogue.Call{Spec: p.Spec, Args: p.Args, Line: p.Line, Shop: shop, Progress: func(int, int, string) {}}, nil
		},
	}
	return call.Spec.Answer(context.Background(), call)
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

// fit reports what makes an answer unfit for a phone or for the daybook.
func fit(a *answer.Answer) []string {
	var faults []string
	add := func(s string) { faults = append(faults, s) }
	if a.Headline == "" || a.Request == "" || a.Line == "" {
		add("no headline, request or line")
	}
	main, seen := 0, map[string]bool{}
	for _, f := range a.Figures {
		if f.Main {
			main++
		}
		if seen[f.ID] {
			add("figure " + f.ID + " twice")
		}
		seen[f.ID] = true
		if f.ID == "" || f.Label == "" || f.Unit == "" || math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
			add("figure " + f.ID + " is not whole")
		}
	}
	if main > 6 || len(a.Figures) == 0 {
		add("main figures are none or more than six")
	}
	if len(a.Cautions) < 2 || len(a.Cautions) > 4 {
		add("cautions are not two to four")
	}
	if len(a.Steps) == 0 {
		add("no steps")
	}
	for _, lines := range [][]string{a.Notes, a.Assumptions, a.Steps, a.Cautions, {a.Headline}} {
		for _, l := range lines {
			if strings.TrimSpace(l) == "" || strings.Contains(l, "%!") || strings.Contains(l, "NaN") || strings.Contains(l, "Inf") {
				add("line " + l)
			}
		}
	}
	return faults
}

func figure(t *testing.T, a *answer.Answer, id string) answer.Figure {
	t.Helper()
	for _, f := range a.Figures {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("%s: no figure %s", a.Line, id)
	return answer.Figure{}
}

func TestTablesExamples(t *testing.T) {
	specs := withCollet()
	run := 0
	for _, s := range tables() {
		for _, e := range s.Examples {
			a, err := ask(specs, e.Line)
			if err != nil {
				t.Errorf("%s: %v", e.Line, err)
				continue
			}
			run++
			for _, f := range fit(a) {
				t.Errorf("%s: %s", e.Line, f)
			}
			again, err := ask(specs, a.Line)
			if err != nil || again.Headline != a.Headline || again.Line != a.Line {
				t.Errorf("%s: typed again as %q it differs: %v", e.Line, a.Line, err)
			}
			for _, f := range a.Attachments {
				if b, err := f.Render(context.Background()); err != nil || len(b) < 100 {
					t.Errorf("%s: %s has %d bytes, %v", e.Line, f.Name, len(b), err)
				}
			}
			t.Logf("%s\n  %s\n  %v\n  assumed %s", e.Line, a.Headline, mains(a), strings.Join(a.Assumptions, "; "))
		}
	}
	if run < 20 {
		t.Errorf("only %d examples ran", run)
	}
}

func mains(a *answer.Answer) []string {
	var list []string
	for _, f := range a.Figures {
		if f.Main {
			list = append(list, f.Label+" "+f.Display())
		}
	}
	return list
}

var errNotRefused = errors.New("answered")

func refusal(specs []catalogue.Spec, line string) (*answer.Refusal, error) {
	_, err := ask(specs, line)
	if err == nil {
		return nil, errNotRefused
	}
	r, ok := answer.AsRefusal(err)
	if !ok {
		return nil, err
	}
	return r, nil
}
