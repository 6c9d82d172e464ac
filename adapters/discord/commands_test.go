package discord

import (
	"fmt"
	"strings"
	"testing"

	"guildhand/bot/catalogue"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCommands(t *testing.T) {
	m, err := newMenu(testSpecs(), testShop())
	require.NoError(t, err)
	require.Empty(t, badCommands(m.commands))
	var plate, ledger, ask, caliper *command
	for i := range m.commands {
		switch c := &m.commands[i]; c.Name {
		case "plate":
			plate = c
		case "ledger":
			ledger = c
		case "ask":
			ask = c
		case "caliper":
			caliper = c
		}
	}
	if len(caliper.Options) != mostOptions || caliper.Options[0].Name != "rimgot" || caliper.Options[1].Name != "basegot" {
		t.Errorf("caliper has %d options, the first %s", len(caliper.Options), caliper.Options[0].Name)
	}
	if ledger.Needs != permManageGuild || plate.Needs != 0 {
		t.Errorf("ledger needs %d and plate %d", ledger.Needs, plate.Needs)
	}
	assert.Equal(t, "[0 1 2] [0 1]", fmt.Sprint(plate.Contexts, plate.Integrations), "contexts %v, integrations %v", plate.Contexts, plate.Integrations)
	if !ask.Options[0].Required || ask.Options[0].Name != optLine {
		t.Errorf("ask has %+v", ask.Options)
	}
	options := map[string]option{}
	var names []string
	for _, o := range plate.Options {
		options[o.Name] = o
		names = append(names, o.Name)
	}
	// What is needed comes first, then the catalogue's order, then ours.
	assert.Equal(t, "size depth thickness seam metal block lean line private form", strings.Join(names, " "))
	kinds := map[string]int{
		"seam": typeString, "size": typeString, "metal": typeString, "thickness": typeString, "depth": typeString, "lean": typeNumber,
	}
	for name, kind := range kinds {
		assert.Equal(t, kind, options[name].Type, name)
	}
	if c := options["seam"].Choices; len(c) != 2 || c[0] != (choice{Name: "corner: the corner", Value: "corner"}) {
		t.Errorf("choices of seam: %v", c)
	}
	if o := options["metal"]; !o.Autocomplete || len(o.Choices) > 0 {
		t.Error("forty metals should be completed")
	}
	if o := options["lean"]; *o.MaxValue != 45 {
		t.Errorf("range of lean: %v to %v", *o.MinValue, *o.MaxValue)
	}
	// What is left out is named where it can be given.
	assert.Equal(t, "Anything else, as typed: ratio, count, waste, mass, force, points, ring, both, remark", options["line"].Description)
	assert.Equal(t, "Of the sheet (0.1 to 6 mm)", options["thickness"].Description)
}

// A list that is too long ends at a whole name, and says where the others are.
func TestListed(t *testing.T) {
	names := strings.Fields(strings.Repeat("clearance ", 12))
	text := listed("", names, "; /help has all")
	assert.LessOrEqual(t, length(text), maxCommandText)
	assert.True(t, strings.HasSuffix(text, "clearance; /help has all"), text)
	assert.Equal(t, "as typed: a, b", listed("as typed: ", []string{"a", "b"}, "; /help has all"))
}

func TestCommandsAtTheLimits(t *testing.T) {
	long := strings.Repeat("long words ", 12)
	spec := catalogue.Spec{Name: "many", Summary: long}
	for i := range 40 {
		o := catalogue.Option{Name: fmt.Sprintf("option-%02d", i), Summary: long, Kind: catalogue.Word, Required: i == 39}
		for j := range 25 {
			o.Choices = append(o.Choices, catalogue.Choice{Key: fmt.Sprintf("choice-%02d", j), Summary: long})
		}
		spec.Options = append(spec.Options, o)
	}
	m, err := newMenu([]catalogue.Spec{spec}, nil)
	require.NoError(t, err)
	require.Empty(t, badCommands(m.commands))
	c := m.commands[0]
	if len(c.Options) != mostOptions || c.Options[0].Name != "option-39" {
		t.Errorf("%d options, first %s", len(c.Options), c.Options[0].Name)
	}
	choices, completed := 0, 0
	for _, o := range c.Options {
		if len(o.Choices) > 0 {
			choices++
		}
		if o.Autocomplete {
			completed++
		}
	}
	if choices == 0 || completed < 1 {
		t.Errorf("%d options with choices and %d with completion", choices, completed)
	}
	// An option of the request's own keeps its name.
	own := catalogue.Spec{Name: "own", Options: []catalogue.Option{{Name: "line", Kind: catalogue.Length}, {Name: "private", Kind: catalogue.Word, Choices: choicesOf("a")}}}
	if m, err = newMenu([]catalogue.Spec{own}, nil); err != nil {
		t.Fatal(err)
	}
	assert.Equal(t, "2 Own", fmt.Sprint(len(m.commands[0].Options), " ", m.commands[0].Description))
}

func TestCommandsThatDiscordWouldRefuse(t *testing.T) {
	tests := map[string][]catalogue.Spec{
		`request "Big"`:                 {{Name: "Big"}},
		`request "two words"`:           {{Name: "two words"}},
		`two commands are called "ask"`: {{Name: "ask"}},
		`two commands are called "a"`:   {{Name: "a"}, {Name: "a"}},
		`option "x y"`:                  {{Name: "a", Options: []catalogue.Option{{Name: "x y"}}}},
		`two options called "x"`:        {{Name: "a", Options: []catalogue.Option{{Name: "x"}, {Name: "x"}}}},
	}
	for want, specs := range tests {
		if _, err := newMenu(specs, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestRegistration(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	specs := testSpecs()
	config := s.config()
	config.ApplicationID = "" // looked up
	overwrites := func() int { s.mu.Lock(); defer s.mu.Unlock(); return s.overwrites }
	run := func(c Config, specs []catalogue.Spec) {
		t.Helper()
		r := start(t, s, newFaulty(t, specs), c)
		require.NoError(t, r.stop())
	}
	run(config, specs)
	require.Equal(t, 1, overwrites())
	run(config, specs)
	assert.Equal(t, 1, overwrites())
	specs[1].Summary = "longer work"
	run(config, specs)
	assert.Equal(t, 2, overwrites())
	config.TestGuild = theGuild
	run(config, specs)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.overwrites != 3 || len(s.commands[theGuild]) == 0 {
		t.Errorf("%d overwrites, %d bytes for the test guild", s.overwrites, len(s.commands[theGuild]))
	}
}
