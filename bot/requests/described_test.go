package requests_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
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

// sources names, for every request that computes, the file that checks its
// figures against something outside, and a test there.
var sources = map[string]struct{ file, test string }{
	"collet":  {"calc/development/development_source_test.go", "TestFrustumsInPrint"},
	"collar":  {"calc/forming/forming_source_test.go", "TestTubeThroughAConicalDie"},
	"bezel":   {"calc/bezel/bezel_source_test.go", "TestBendAllowance"},
	"match":   {"calc/stone/calibrated_source_test.go", "TestCalibratedSizesAsPublished"},
	"band":    {"calc/ring/ring_source_test.go", "TestBlankAgainstBendAllowance"},
	"dome":    {"calc/dome/dome_source_test.go", "TestSegmentAgainstHandbook"},
	"gauge":   {"bot/requests/gauge_source_test.go", "TestGaugeAgainstPublishedTables"},
	"weigh":   {"calc/stock/alloys_source_test.go", "TestDensityAgainstPublished"},
	"melt":    {"calc/casting/casting_source_test.go", "TestMetalAgainstWorkedExamples"},
	"heat":    {"calc/stock/alloys_source_test.go", "TestAnnealingAgainstPublished"},
	"trouble": {"bot/requests/trouble_source_test.go", "TestTroubleCorrectsByPi"},
}

// withoutSource says why a request has no such file.
var withoutSource = map[string]string{
	"prongs":   "a gap: its cuts are checked against the collet's own blank alone",
	"tune":     "a gap: it is checked by recovering the factor and kerf that trials were made with",
	"kit":      "lays out the blanks of other requests; its tests have the layout judged by a geometry library",
	"cautions": "computes nothing; each text has its source in bot/cautions",
	"bench":    "computes nothing: what is kept",
	"stop":     "computes nothing",
	"daybook":  "computes nothing: what was answered",
	"help":     "computes nothing: the catalogue",
}

func TestEveryRequestHasAnOutsideCheck(t *testing.T) {
	specs := requests.All(nil)
	for i := range specs {
		name := specs[i].Name
		source, checked := sources[name]
		reason, excused := withoutSource[name]
		require.True(t, checked != excused, "%s needs a *_source_test.go, or the reason why it has none", name)
		if excused {
			assert.NotEmpty(t, reason, name)
			continue
		}
		text, err := os.ReadFile(filepath.Join("../..", source.file))
		require.NoError(t, err, name)
		assert.NotEmpty(t, source.test, name)
		assert.Contains(t, string(text), "func "+source.test+"(", name)
	}
	assert.Len(t, specs, len(sources)+len(withoutSource), "a request is gone and still listed")
}
