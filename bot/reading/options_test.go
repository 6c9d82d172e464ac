package reading

import (
	"context"
	"errors"
	"reflect"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

func TestParseOptions(t *testing.T) {
	specs := testSpecs()
	got, err := ParseOptions(specs, "collet", map[string]string{
		"outline": "Oval", "size": "5/16 × 1/4 in", "depth": " 4,1 mm ", "metal": "AG925", "thickness": "22 ga", "pre-cone": "yes", "corner": "",
	}, testLook())
	if err != nil {
		t.Fatal(err)
	}
	want, err := Parse(specs, "collet oval 5/16 x 1/4 in depth 4.1 sterling 22ga pre-cone", testLook())
	if err != nil || got.Line != want.Line || !reflect.DeepEqual(got.Args, want.Args) {
		t.Errorf("got %s %v\nwant %s %v, %v", got.Line, got.Args, want.Line, want.Args, err)
	}
	for _, tt := range []struct {
		word    string
		options map[string]string
		problem string
		try     string
	}{
		{"collet", map[string]string{"outline": "ovla", "size": "8x6"}, `there is no outline "ovla"; did you mean oval?`, "collet oval 8x6"},
		{"collet", map[string]string{"outline": "oval", "size": "8x6", "depth": "NaN"}, `depth "nan" is not a number; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet", map[string]string{"outline": "oval", "size": "8x6 or so"}, `size "8x6 or so" is not a size; it takes 0.8 to 100 mm a side`, "collet oval 8x6"},
		{"collet", map[string]string{"outline": "oval", "size": "-1x6"}, `size -1x6 mm is out of range: it takes 0.8 to 100 mm a side`, "collet oval 8x6"},
		{"collet", map[string]string{"outline": "oval"}, "what size is the stone?", "collet oval 8x6"},
		{"collet", map[string]string{"outline": "oval", "size": "8x6", "metal": "copper", "alloy": "sterling"}, "alloy is given twice, sterling and copper; leave one out", ""},
		{"collet", map[string]string{"outline": "oval", "size": "8x6", "detph": "4"}, `there is no option "detph"; did you mean depth?`, ""},
		{"collet", map[string]string{"outline": "oval", "size": "8x6", "lean": "8", "included": "17"}, "lean and included can't both be given; leave one out", "collet oval 8x6 lean 8"},
		{"collet", map[string]string{"outline": "oval", "size": "8x6", "depth": strings.Repeat("4", 7000)}, "the question is 7007 characters long; up to 1500 are read", ""},
		{"colet", nil, `there is no request "colet"; did you mean collet?`, "collet oval 8x6"},
		{"kit", map[string]string{"makers": "12", "piece": "collet oval 8x6"}, "", ""},
	} {
		_, err := ParseOptions(specs, tt.word, tt.options, testLook())
		if tt.problem == "" {
			if err != nil {
				t.Errorf("%v: %v", tt.options, err)
			}
			continue
		}
		r, ok := answer.AsRefusal(err)
		if !ok || r.Problem != tt.problem || tt.try != "" && r.Try != tt.try || r.Try == "" {
			t.Errorf("%v\n got %+v\nwant %s\n try %s", tt.options, r, tt.problem, tt.try)
			continue
		}
		if _, err := Parse(specs, r.Try, testLook()); err != nil {
			t.Errorf("%v: %q does not work: %v", tt.options, r.Try, err)
		}
	}
}

func TestBenchPrecedence(t *testing.T) {
	specs := testSpecs()
	calls := 0
	look := testLook()
	look.Bench = func() ([]Layer, error) {
		calls++
		return []Layer{
			{catalogue.FromMaker, "your bench", map[string]string{"thickness": "20ga", "depth": "9"}},
			{catalogue.FromChannel, "bench of this channel", map[string]string{"thickness": "18ga", "alloy": "copper"}},
			{catalogue.FromGuild, "bench of the guild", map[string]string{"thickness": "16ga", "alloy": "sterling", "nothing": "x"}},
		}, nil
	}
	p, err := Parse(specs, "collet oval 8x6", look)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]catalogue.Value{
		"outline":   {Text: "oval"},
		"thickness": {Text: "20ga", Number: p.Args["thickness"].Number, Gauge: 20, HasGauge: true, Source: catalogue.FromMaker, Note: "your bench"},
		"alloy":     {Text: "copper", Source: catalogue.FromChannel, Note: "bench of this channel"},
		"lean":      {Text: "8.5", Number: 8.5, Source: catalogue.FromDefault, Note: "from memory"},
	} {
		if got := p.Args[name]; !reflect.DeepEqual(got, want) {
			t.Errorf("%s is %+v, want %+v", name, got, want)
		}
	}
	if p.Args.Has("depth") {
		t.Error("depth is no bench option and was filled")
	}
	if p.Line != "collet oval 8x6 copper 20ga" {
		t.Errorf("line %q", p.Line)
	}
	for _, tt := range []struct {
		uses          []string
		assumed, line string
	}{
		{nil, "", "collet oval 8x6 no bench"},
		{[]string{"alloy", "lean"}, "alloy copper (bench of this channel); lean 8.5° (from memory)", "collet oval 8x6 copper no bench"},
		{[]string{"thickness"}, "thickness 20ga (your bench)", "collet oval 8x6 20ga no bench"},
	} {
		c := p.Call()
		c.Spec = &catalogue.Spec{Name: "collet", Options: p.Spec.Options, Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			for _, name := range tt.uses {
				c.Value(name)
			}
			return &answer.Answer{}, nil
		}}
		a, err := c.Answer(t.Context())
		if err != nil || strings.Join(a.Assumptions, "; ") != tt.assumed || a.Line != tt.line {
			t.Errorf("%v: %v, %+v", tt.uses, err, a)
		}
	}
	if p, err = Parse(specs, "collet oval 8x6 22ga", look); err != nil || p.Args["thickness"].Text != "22ga" || p.Args["thickness"].Source != catalogue.Typed {
		t.Errorf("typed thickness lost: %+v, %v", p.Args["thickness"], err)
	}
	if calls != 2 {
		t.Errorf("bench asked %d times", calls)
	}
	if _, err := Parse(specs, "daybook find oval", look); err != nil || calls != 2 {
		t.Errorf("bench asked for a request without bench options; %v", err)
	}
	broken := errors.New("store away")
	look.Bench = func() ([]Layer, error) { return nil, broken }
	if _, err := Parse(specs, "collet oval 8x6", look); !errors.Is(err, broken) {
		t.Errorf("error %v", err)
	}
}

// TestTypedSuppressesDefault: where included is typed, lean's default is not
// filled in.
func TestTypedSuppressesDefault(t *testing.T) {
	p, err := Parse(testSpecs(), "collet oval 8x6 included 17", testLook())
	if err != nil || p.Args.Has("lean") {
		t.Errorf("args %v, %v", p.Args, err)
	}
}
