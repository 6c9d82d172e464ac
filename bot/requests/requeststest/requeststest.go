// Package requeststest asks requests in tests as the service does, and checks
// what holds for every answer.
package requeststest

import (
	"context"
	"errors"
	"fmt"
	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/reading"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// CallOf makes the call of a line in a workshop.
func CallOf(specs []catalogue.Spec, shop *stock.Workshop, line string) (*catalogue.Call, error) {
	return CallWith(specs, reading.Lookups{Shop: shop}, line)
}

// CallWith is CallOf with benches.
func CallWith(specs []catalogue.Spec, look reading.Lookups, line string) (*catalogue.Call, error) {
	parsed, err := reading.Parse(specs, line, look)
	if err != nil {
		return nil, err
	}
	call := parsed.Call()
	call.Shop = look.Shop
	call.Nested = func(line string) (*catalogue.Call, error) {
		within := look
		if parsed.NoBench {
			within.Bench = nil
		}
		return CallWith(specs, within, line)
	}
	return call, nil
}

// Ask runs a line through the parser and its request, as the service does.
func Ask(specs []catalogue.Spec, line string) (*answer.Answer, error) {
	call, err := CallOf(specs, stock.DemoWorkshop(), line)
	if err != nil {
		return nil, err
	}
	return call.Answer(context.Background())
}

// Answered is the answer to a line, or nil if it is refused or needs a
// daybook.
func Answered(t *testing.T, specs []catalogue.Spec, shop *stock.Workshop, line string) *answer.Answer {
	t.Helper()
	call, err := CallOf(specs, shop, line)
	if err != nil {
		return nil
	}
	a, err := call.Answer(context.Background())
	if err != nil {
		if _, refused := answer.AsRefusal(err); !refused && !call.Spec.Keeps {
			t.Errorf("%s: %v", line, errors.Unwrap(err))
		}
		return nil
	}
	return a
}

// ColletOfEveryOutline is one collet of every outline.
func ColletOfEveryOutline() map[outline.Kind]string {
	sizes := map[outline.Kind]string{
		outline.Round: "6", outline.Square: "5", outline.Hexagon: "6", outline.Octagon: "8x8", outline.Trillion: "7",
		outline.Heart: "7x7", outline.HalfMoon: "8x4", outline.TaperedBaguette: "6x4x3", outline.Marquise: "10x5", outline.Pear: "9x6",
		outline.Measured: "points 0,4.2 1.6,3.6 2.7,2.1 3.1,0 2.7,-2.1 1.6,-3.6 0,-4.2 -1.6,-3.6 -2.7,-2.1 -3.1,0 -2.7,2.1 -1.6,3.6",
	}
	lines := map[outline.Kind]string{}
	for _, k := range outline.Kinds() {
		size, ok := sizes[k]
		if !ok {
			size = "8x6"
		}
		lines[k] = fmt.Sprintf("collet %s %s depth 3.6 sterling 22ga", k, size)
	}
	return lines
}

func Value(t testing.TB, a *answer.Answer, id string) float64 {
	t.Helper()
	for _, f := range a.Figures {
		if f.ID == id {
			return f.Value
		}
	}
	t.Fatalf("no figure %q", id)
	return 0
}

// Unfit reports what makes an answer unfit for a phone or for the daybook.
func Unfit(a *answer.Answer) []string {
	if a.Request == "cautions" {
		return nil // a list of its own kind, with its own tests
	}
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
	if len(a.Cautions) < 1 || len(a.Cautions) > cautions.MostShown {
		add("cautions are not one to three")
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

func Figure(t *testing.T, a *answer.Answer, id string) answer.Figure {
	t.Helper()
	for _, f := range a.Figures {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("%s: no figure %s", a.Line, id)
	return answer.Figure{}
}

func Mains(a *answer.Answer) []string {
	var list []string
	for _, f := range a.Figures {
		if f.Main {
			list = append(list, f.Label+" "+f.Display())
		}
	}
	return list
}

// Examples asks every example of a request and checks that the answer fits
// a phone, that its line asks the same again, and that its attachments can be
// drawn.
func Examples(t *testing.T, specs []catalogue.Spec, request string) {
	t.Helper()
	run := 0
	for _, s := range specs {
		if s.Name != request {
			continue
		}
		for _, e := range s.Examples {
			a, err := Ask(specs, e.Line)
			if err != nil {
				t.Errorf("%s: %v", e.Line, err)
				continue
			}
			run++
			for _, f := range Unfit(a) {
				t.Errorf("%s: %s", e.Line, f)
			}
			if len(a.Cautions) > 3 {
				t.Errorf("%s: %d cautions", e.Line, len(a.Cautions))
			}
			again, err := Ask(specs, a.Line)
			if err != nil || again.Headline != a.Headline || again.Line != a.Line {
				t.Errorf("%s: typed again as %q it differs: %v", e.Line, a.Line, err)
			}
			for _, f := range a.Attachments {
				if b, err := f.Render(context.Background()); err != nil || len(b) < 100 {
					t.Errorf("%s: %s has %d bytes, %v", e.Line, f.Name, len(b), err)
				}
			}
			t.Logf("%s\n  %s\n  %s\n  notes %s\n  assumed %s\n  steps\n   %s", e.Line, a.Headline, strings.Join(Mains(a), "; "),
				strings.Join(a.Notes, "; "), strings.Join(a.Assumptions, "; "), strings.Join(a.Steps, "\n   "))
		}
	}
	if run < 3 {
		t.Errorf("only %d examples of %s ran", run, request)
	}
}

// Absurd are values that people, or their phones, do send.
var Absurd = []string{"0", "1e9", "-3", "NaN", "1e-9", "Inf", "1234567890123456789012345678901234567890", "💍", "", "8x", "x", "8xx6", "½", "٣", "0x10", "8x6x4x2", "1/0", "--", "8..5", "a4", "\x00", "\u202e6"}

// RandomCollet makes a collet request: mostly sensible, sometimes not.
func RandomCollet(rnd *rand.Rand) string {
	kinds := outline.Kinds()
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	num := func(low, high float64) string {
		if rnd.IntN(25) == 0 {
			return pick(Absurd...)
		}
		return fmt.Sprintf("%.*f", rnd.IntN(4), low+(high-low)*rnd.Float64())
	}
	kind := kinds[rnd.IntN(len(kinds))]
	words := []string{"collet", string(kind)}
	switch {
	case kind == outline.Measured:
		words = append(words, "points")
		n := 6 + rnd.IntN(20)
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			words = append(words, fmt.Sprintf("%.2f,%.2f", 3*c+0.1*rnd.Float64(), 4*s+0.1*rnd.Float64()))
		}
	case kind == outline.Round, kind == outline.Square:
		words = append(words, num(1, 20))
	default:
		words = append(words, num(1, 20)+pick("x", " x ", "×", "*", " by ")+num(1, 20))
	}
	for range rnd.IntN(6) {
		words = append(words, pick(
			"depth "+num(0.5, 15), "height "+num(0.5, 20), "rim "+num(0, 3), "lean "+num(0, 45), "included "+num(0, 90),
			"clearance "+num(0, 0.5), "ledge "+num(0, 0.6), num(10, 30)+"ga", num(0.1, 3)+"mm", "sterling", "18k-yellow",
			"seam "+pick("side", "end", "point", "corner", "cleft", "cut"), "corner "+pick("bent", "scored"), "radius "+num(0, 2),
			"taper "+pick("even", "apex", "base"), "base "+pick("round", "oval", "square", "heart"), "neutral "+num(0.2, 0.6),
			"precone", "allowance "+num(0, 5), "cornercut "+num(2, 45), "paper letter", "units inch"))
	}
	return strings.Join(words, " ")
}

func Say(t *testing.T, s *bot.Service, who catalogue.Who, text string) bot.Reply {
	t.Helper()
	r, err := s.Handle(t.Context(), bot.Request{Who: who, Text: text})
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return r
}

// Told is an answer or refusal as one text.
func Told(r bot.Reply) string {
	if r.Refusal != nil {
		return "refused: " + r.Refusal.Problem + " | try: " + r.Refusal.Try
	}
	return r.Answer.Headline + " | " + strings.Join(append(r.Answer.Notes, r.Answer.Steps...), " | ")
}
