// Package bench is what a maker, a channel or a guild keeps: defaults for the
// options of requests, and the request that changes them.
package bench

import (
	"context"
	"errors"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/reading"
	"guildhand/bot/requests/option"
)

// Request keeps defaults for the options of the requests given that have
// Bench set. Its options are theirs, so that a value is kept by the same rules
// by which it is typed.
func Request(specs []catalogue.Spec, book *daybook.Book) catalogue.Spec {
	kept := benchOptions(specs)
	drop := catalogue.Option{
		Name: "drop", Aliases: []string{"forget", "remove", "clear"},
		Summary: "remove a default from the bench, or all of them",
		Kind:    catalogue.Word,
		Choices: []catalogue.Choice{{Key: "all", Aliases: []string{"everything"}, Summary: "every default of this bench"}},
	}
	var options []catalogue.Option
	for _, o := range kept {
		drop.Choices = append(drop.Choices, catalogue.Choice{Key: o.Name, Aliases: o.Aliases, Summary: o.Summary})
		o.Required, o.Default, o.DefaultNote, o.Bench, o.Excludes, o.Unless = false, "", "", false, nil, nil
		options = append(options, o)
	}
	options = append(options, answers,
		catalogue.Option{
			Name: "scope", Aliases: []string{"whose"},
			Summary: "whose bench: maker (yours, the default), channel or guild (teachers)",
			Kind:    catalogue.Word, Bare: true,
			Choices: []catalogue.Choice{
				{Key: "maker", Aliases: []string{"me", "mine", "my"}, Summary: "your own, wherever you ask"},
				{Key: "channel", Aliases: []string{"here", "room"}, Summary: "everybody's in this channel"},
				{Key: "guild", Aliases: []string{"server", "everybody"}, Summary: "everybody's in the guild; for teachers"},
			},
		}, drop)
	return catalogue.Spec{
		Name:    "bench",
		Summary: "the defaults of a maker, a channel or the guild: metal, gauge, units, paper",
		Detail: "What you don't type is taken from your bench, then the channel's, then the guild's, then the default. " +
			"On its own, it shows the defaults that apply here and where each comes from.",
		Options: options,
		Examples: []catalogue.Example{
			{Line: "bench", Summary: "shows what holds here"},
			{Line: "bench metal sterling gauge 22", Summary: "keeps two defaults of your own"},
			{Line: "bench channel paper letter", Summary: "for everybody in this channel"},
			{Line: "bench drop metal", Summary: "takes one away"},
		},
		Parts: parts(options),
		Keeps: true,
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			return benchAnswer(ctx, c, book, kept)
		},
	}
}

// parts are what a bench is for: to look at, to set and to empty. What makers
// set most comes first.
func parts(options []catalogue.Option) []catalogue.Part {
	var set []string
	for _, o := range options {
		if o.Name != "drop" && o.Name != "scope" && o.Name != Answers {
			set = append(set, o.Name)
		}
	}
	set = append(set[:min(len(set), 8)], "scope")
	return []catalogue.Part{
		{Name: "show", Summary: "your defaults here"},
		{Name: "set", Summary: "keep defaults of your own, of this channel or of the guild", Options: set},
		{Name: "drop", Summary: "take a default off a bench", Options: []string{"drop", "scope"}},
		{Name: "answers", Summary: "for teachers: what I answer in this channel", Options: []string{Answers}},
	}
}

// benchOptions are the options that a bench may hold, each once.
func benchOptions(specs []catalogue.Spec) []catalogue.Option {
	var list []catalogue.Option
	seen := map[string]bool{}
	for i := range specs {
		for _, o := range specs[i].Options {
			if o.Bench && !seen[o.Name] {
				seen[o.Name] = true
				list = append(list, o)
			}
		}
	}
	return append(list, memory)
}

// Answers is the name of a channel's setting that says what is answered there.
const Answers = "answers"

// What a channel's teachers may choose: every way in, commands alone, nothing.
const (
	AnswersAll      = "all"
	AnswersCommands = "commands"
	AnswersOff      = "off"
)

var answers = catalogue.Option{
	Name: Answers, Summary: "what is answered in this channel: all, commands or off; for teachers", Kind: catalogue.Word,
	Choices: []catalogue.Choice{
		{Key: AnswersAll, Summary: "mentions and commands"},
		{Key: AnswersCommands, Summary: "commands alone; a mention stays without an answer"},
		{Key: AnswersOff, Summary: "nothing but first aid, and what keeps or forgets something"},
	},
}

// AnswersIn says what is answered in a channel; a direct chat answers all.
func AnswersIn(ctx context.Context, book *daybook.Book, who catalogue.Who) (string, error) {
	if book == nil || who.Direct || who.Channel == "" {
		return AnswersAll, nil
	}
	value, err := book.Setting(ctx, Scope(who, catalogue.FromChannel), Answers)
	if errors.Is(err, daybook.ErrNotFound) || err == nil && value == "" {
		return AnswersAll, nil
	}
	return value, err
}

// setAnswers keeps what is answered in the asker's channel.
func setAnswers(ctx context.Context, c *catalogue.Call, book *daybook.Book) (*answer.Answer, error) {
	value := c.Args.Word(Answers)
	switch {
	case !c.Who.Teacher:
		return nil, answer.Refuse("bench", "what is answered here is for teachers to say: you need the role that this guild has set for teachers")
	case c.Who.Direct || c.Who.Channel == "":
		return nil, answer.Refuse("bench", "in a direct chat I answer everything")
	}
	if err := book.SetSetting(ctx, Scope(c.Who, catalogue.FromChannel), Answers, value, c.Who.Maker); err != nil {
		return nil, err
	}
	said := map[string]string{
		AnswersAll:      "From now on I answer mentions and commands in this channel.",
		AnswersCommands: "From now on I answer only commands in this channel.",
		AnswersOff:      "From now on I answer nothing in this channel but first aid, and what keeps or forgets something.",
	}
	return &answer.Answer{Headline: said[value]}, nil
}

// Memory is the name of the setting that ends follow-ups.
const Memory = "memory"

// memory is kept like a default, but no request has it.
var memory = catalogue.Option{
	Name: Memory, Summary: "whether your last question here is remembered for half an hour, for follow-ups: on or off", Kind: catalogue.Word,
	Choices: []catalogue.Choice{{Key: "on", Summary: "\"and in 20 gauge?\" goes on from it"}, {Key: "off", Summary: "every question stands alone"}},
}

// Remembers reports whether the asker's last question may be followed up. The
// strongest bench that says so decides; where none does, it may.
func Remembers(layers []reading.Layer) bool {
	for _, l := range layers {
		if v := l.Values[Memory]; v != "" {
			return v != "off"
		}
	}
	return true
}

// whose names a bench.
var whose = map[catalogue.Source]string{
	catalogue.FromMaker:   "your bench",
	catalogue.FromChannel: "this channel's bench",
	catalogue.FromGuild:   "the guild's bench",
}

func benchAnswer(ctx context.Context, c *catalogue.Call, book *daybook.Book, kept []catalogue.Option) (*answer.Answer, error) {
	if book == nil {
		return nil, errors.New("bench: no daybook")
	}
	if c.Args.Has(Answers) {
		return setAnswers(ctx, c, book)
	}
	set, drop, err := changes(c, kept)
	if err != nil {
		return nil, err
	}
	if err := option.WhichAlloy(c, "alloy"); err != nil {
		return nil, err
	}

	a := &answer.Answer{Headline: "your defaults here"}
	if len(set)+len(drop) > 0 {
		headline, err := changeBench(ctx, c, book, benchOf(c), set, drop)
		if err != nil {
			return nil, err
		}
		a.Headline = headline
	}
	layers, err := Layers(ctx, book, c.Who)
	if err != nil {
		return nil, err
	}
	tellDefaults(a, kept, layers)
	return a, nil
}

// benchOf is whose bench a call changes.
func benchOf(c *catalogue.Call) catalogue.Source {
	switch c.Args.Word("scope") {
	case "channel":
		return catalogue.FromChannel
	case "guild":
		return catalogue.FromGuild
	}
	return catalogue.FromMaker
}

// changes are the names of the defaults that a call sets and drops.
func changes(c *catalogue.Call, kept []catalogue.Option) (set, drop []string, err error) {
	dropped := c.Args.Word("drop")
	for _, o := range kept {
		if c.Args.Has(o.Name) {
			set = append(set, o.Name)
		}
		if dropped == "all" {
			drop = append(drop, o.Name)
		}
	}
	if dropped != "" && dropped != "all" {
		drop = []string{dropped}
	}
	if slices.Contains(set, dropped) {
		return nil, nil, answer.Refuse("bench drop "+dropped, "you can't set and drop %s at once; leave one out", dropped)
	}
	return set, drop, nil
}

// tellDefaults lists the defaults that apply. What somebody set has a line each,
// the rest shares one; the working says of everything where it comes from.
func tellDefaults(a *answer.Answer, kept []catalogue.Option, layers []reading.Layer) {
	var usual, none []string
	for i := range kept {
		o := &kept[i]
		line, set := inForce(o, layers)
		a.Steps = append(a.Steps, line)
		switch {
		case set:
			a.Notes = append(a.Notes, line)
		case o.Default == "":
			none = append(none, o.Name)
		default:
			usual = append(usual, o.Name+" "+o.Default)
		}
	}
	a.Notes = append(a.Notes, "default: "+strings.Join(usual, ", "))
	if len(none) > 0 {
		a.Notes = append(a.Notes, "none: "+strings.Join(none, ", "))
	}
}

// changeBench keeps and drops defaults, and gives the headline that says so.
func changeBench(ctx context.Context, c *catalogue.Call, book *daybook.Book, source catalogue.Source, set, drop []string) (string, error) {
	scope := Scope(c.Who, source)
	if source == catalogue.FromGuild && !c.Who.Teacher {
		return "", answer.Refuse(c.Retyped(map[string]string{"scope": ""}),
			"the guild's bench is %s; your own is open to you", c.Who.ForTeachers())
	}
	if scope.ID == "" {
		return "", answer.Refuse("bench", "there is no %s here, so it has no bench", scope.Kind)
	}
	var done []string
	for _, name := range set {
		v := c.Args[name]
		if err := book.SetSetting(ctx, scope, name, v.Text, c.Who.Maker); err != nil {
			return "", err
		}
		done = append(done, name+" "+v.Text)
	}
	headline := ""
	if len(done) > 0 {
		headline = "kept on " + whose[source] + ": " + strings.Join(done, ", ")
	}
	var dropped []string
	for _, name := range drop {
		switch err := book.DropSetting(ctx, scope, name); {
		case err == nil:
			dropped = append(dropped, name)
		case !errors.Is(err, daybook.ErrNotFound):
			return "", err
		}
	}
	switch {
	case len(dropped) > 0:
		if headline != "" {
			headline += "; "
		}
		headline += "dropped from " + whose[source] + ": " + strings.Join(dropped, ", ")
	case len(drop) == 1 && len(set) == 0:
		return "", answer.Refuse("bench", "%s has no %s to drop", whose[source], drop[0])
	case headline == "":
		headline = whose[source] + " was empty already"
	}
	return headline, nil
}

// inForce says which default of an option holds, and where it comes from; set
// reports whether that is a bench.
func inForce(o *catalogue.Option, layers []reading.Layer) (line string, set bool) {
	for _, l := range layers {
		if text, ok := l.Values[o.Name]; ok {
			return o.Name + " " + text + " (" + l.Note + ")", true
		}
	}
	switch {
	case o.Default == "":
		return o.Name + ": none", false
	case o.DefaultNote == "" || o.DefaultNote == "default":
		return o.Name + " " + o.Default + " (default)", false
	}
	return o.Name + " " + o.Default + " (default: " + o.DefaultNote + ")", false
}
