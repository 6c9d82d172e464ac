// Package daybookrequest is the request "daybook": what was answered in a
// channel is listed, shown, checked, amended, exported and forgotten.
package daybookrequest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/reading"
)

// What daybook can be asked to do; listing is what it does where nothing is
// named. Amending and pinning have free text, so they are options of their own.
const (
	bookList      = "list"
	bookShow      = "show"
	bookCheck     = "check"
	bookSummary   = "summary"
	bookExport    = "export"
	bookRules     = "rules"
	bookUnpin     = "unpin"
	bookMine      = "mine"
	bookForget    = "forget"
	bookRetention = "retention"
	bookAmend     = "amend"
	bookPin       = "pin"
)

// bookDeed is one of them: which options it takes, whether it is for teachers,
// whether it only reads.
type bookDeed struct {
	takes   []string
	teacher bool
	reads   bool
	do      func(context.Context, *bookCall) (*answer.Answer, error)
}

// bookChoosing are the options that choose entries.
var bookChoosing = []string{"request", "outline", "status", "maker", "from", "to", "find"}

func bookDeeds() map[string]bookDeed {
	return map[string]bookDeed{
		bookList:      {append([]string{"before"}, bookChoosing...), true, true, listEntries},
		bookSummary:   {bookChoosing, true, true, summarise},
		bookExport:    {append([]string{"format", "before"}, bookChoosing...), true, true, exportEntries},
		bookShow:      {[]string{"number"}, true, true, showEntry},
		bookCheck:     {[]string{"number"}, true, true, checkEntry},
		bookAmend:     {[]string{"amend"}, true, false, amendEntry},
		bookPin:       {[]string{"pin", "scope"}, true, false, pinRule},
		bookUnpin:     {[]string{"number", "scope"}, true, false, unpinRule},
		bookRetention: {[]string{"number"}, true, false, retention},
		bookRules:     {nil, false, true, houseRules},
		bookMine:      {nil, false, true, mine},
		bookForget:    {[]string{"yes"}, false, false, forget},
	}
}

// bookCall is a call of daybook with what all of its deeds need.
type bookCall struct {
	*catalogue.Call
	book *daybook.Book
	room daybook.Room
	// keeps are the requests that change what is kept, and can't be run again.
	keeps map[string]bool
}

// Request is about what was answered: the requests given, and itself.
func Request(specs []catalogue.Spec, book *daybook.Book) catalogue.Spec {
	keeps := map[string]bool{"daybook": true}
	var asked []catalogue.Choice
	for i := range specs {
		asked = append(asked, catalogue.Choice{Key: specs[i].Name, Summary: specs[i].Summary})
		if specs[i].Keeps {
			keeps[specs[i].Name] = true
		}
	}
	deeds := bookDeeds()
	return catalogue.Spec{
		Name:    "daybook",
		Summary: "answers in this channel: list, show, check, amend, house rules, export, forget",
		Detail: "For teachers, and in a direct chat for its maker: daybook lists the latest; show 12 and check 12 show and recompute entry 12; " +
			"amend 12 and a text keeps a correction beside it and shows it to the channel; pin and a text pins a house rule, unpin 3 removes " +
			"it, and guild pin and a text pins one in all of the guild's channels; export csv or json; summary; retention 90 keeps the guild's entries for 90 days. For everybody: rules, " +
			"mine (what is stored about you) and forget. Entries of other channels and guilds are never shown.",
		Options: bookOptions(asked, specs),
		Examples: []catalogue.Example{
			{Line: "daybook", Summary: "the latest of this channel"},
			{Line: "daybook collet oval from yesterday", Summary: "chosen by request, outline and day"},
			{Line: "daybook refused from 7d", Summary: "what was refused this week"},
			{Line: "daybook summary", Summary: "what was asked most, what was refused and why"},
			{Line: "daybook export csv from 7d", Summary: "a class as a spreadsheet"},
			{Line: "daybook rules", Summary: "the house rules of this channel"},
			{Line: "daybook mine", Summary: "what is stored about you"},
			{Line: "daybook forget", Summary: "asks before it removes what is stored about you"},
		},
		Parts:    bookParts(),
		Corrects: bookAmend,
		Keeps:    true,
		Reads:    func(args catalogue.Args) bool { return deeds[bookDeedOf(args)].reads },
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			if book == nil {
				return nil, errors.New("daybook: no daybook")
			}
			b := &bookCall{Call: c, book: book, keeps: keeps,
				room: daybook.Room{Platform: c.Who.Platform, Guild: c.Who.Guild, Channel: c.Who.Channel}}
			return answerBook(ctx, b, bookDeedOf(c.Args), deeds)
		},
	}
}

// mostEntries is the largest number of an entry that is read.
const mostEntries = 1e12

func bookOptions(asked []catalogue.Choice, specs []catalogue.Spec) []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "action", Aliases: []string{"do"}, Kind: catalogue.Word, Bare: true,
			Summary: "what to do; without it, the latest entries are listed",
			Choices: []catalogue.Choice{
				{Key: bookList, Aliases: []string{"latest", "recent"}, Summary: "the latest entries, or those that you choose"},
				{Key: bookShow, Aliases: []string{"open"}, Summary: "one entry with its template, by its number"},
				{Key: bookCheck, Aliases: []string{"recompute", "verify"}, Summary: "compute an entry again and compare its figures"},
				{Key: bookSummary, Aliases: []string{"overview"}, Summary: "what was asked most, and what was refused and why"},
				{Key: bookExport, Aliases: []string{"download"}, Summary: "entries as a file, CSV or JSON"},
				{Key: bookRules, Aliases: []string{"house-rules"}, Summary: "the house rules of this channel"},
				{Key: bookUnpin, Aliases: []string{"unrule"}, Summary: "remove a house rule, by its number"},
				{Key: bookMine, Aliases: []string{"me", "privacy"}, Summary: "what is stored about you"},
				{Key: bookForget, Aliases: []string{"delete", "erase"}, Summary: "remove what is stored about you"},
				{Key: bookRetention, Aliases: []string{"keep"}, Summary: "for how many days the guild's entries are kept"},
			},
		},
		{
			Name: "number", Aliases: []string{"no", "entry", "days", "day"}, Kind: catalogue.Integer, Bare: true, Max: mostEntries,
			Summary: "an entry's number, a rule's, or days to keep",
			Sample:  func(catalogue.Args) string { return "1" },
		},
		{Name: "request", Aliases: []string{"about"}, Kind: catalogue.Word, Bare: true, Summary: "entries of one request", Choices: asked},
		{Name: "outline", Aliases: []string{"shape"}, Kind: catalogue.Word, Bare: true, Summary: "entries of one stone outline", Choices: outlinesOf(specs)},
		{
			Name: "status", Kind: catalogue.Word, Bare: true, Summary: "entries that were answered, refused, or failed",
			Choices: []catalogue.Choice{
				{Key: string(daybook.Answered), Summary: "with an answer"},
				{Key: string(daybook.Refused), Aliases: []string{"refusals"}, Summary: "with a refusal"},
				{Key: string(daybook.Failed), Aliases: []string{"faults"}, Summary: "that went wrong on our side"},
			},
		},
		{Name: "maker", Aliases: []string{"by", "who"}, Kind: catalogue.Single, Summary: "entries of one maker: a mention or id", Person: true,
			Sample: func(catalogue.Args) string { return "me" }},
		{Name: "from", Aliases: []string{"since"}, Kind: catalogue.Single, Summary: "first day: 2026-11-25, 1-march, march, today, yesterday, monday, 7d",
			Suggest: []string{"today", "yesterday", "7d", "30d"}},
		{Name: "to", Aliases: []string{"until"}, Kind: catalogue.Single, Summary: "last day: 2026-11-25, today, yesterday, monday, 7d",
			Suggest: []string{"today", "yesterday"}},
		{Name: "format", Kind: catalogue.Word, Bare: true, Summary: "format of an export: csv (the default) or json",
			Choices: []catalogue.Choice{{Key: "csv", Summary: "for a spreadsheet"}, {Key: "json", Summary: "for a program"}}},
		{Name: "before", Aliases: []string{"older"}, Kind: catalogue.Integer, Min: 1, Max: mostEntries, Summary: "entries older than this number",
			Sample: func(catalogue.Args) string { return "" }},
		{Name: "yes", Aliases: []string{"confirm"}, Kind: catalogue.Flag, Summary: "with forget: yes, remove it"},
		{Name: "find", Aliases: []string{"search"}, Kind: catalogue.Words, Summary: "entries that have all of these words",
			Suggest: []string{"oval 8x6"}},
		{
			Name: "scope", Aliases: []string{"whose"}, Kind: catalogue.Word, Bare: true,
			Summary: "with pin and unpin: a house rule of this channel (the default), or of the guild, for teachers",
			Choices: []catalogue.Choice{
				{Key: "channel", Aliases: []string{"here", "room"}, Summary: "in this channel"},
				{Key: "guild", Aliases: []string{"server", "everywhere"}, Summary: "in all of the guild's channels"},
			},
		},
		{Name: bookAmend, Aliases: []string{"correct"}, Kind: catalogue.Text, Summary: "an entry's number, then your correction",
			Excludes: []string{"action"}, Sample: func(catalogue.Args) string { return "" }},
		{Name: bookPin, Kind: catalogue.Text, Summary: "a house rule; later answers state it",
			Excludes: []string{"action", bookAmend}, Sample: func(catalogue.Args) string { return "" }},
	}
}

// bookParts are the deeds, each with what it takes.
func bookParts() []catalogue.Part {
	choosing := []string{"request", "outline", "status", "maker", "from", "to", "find"}
	part := func(name, summary string, options ...string) catalogue.Part {
		return catalogue.Part{Name: name, Summary: summary, Sets: map[string]string{"action": name}, Options: options}
	}
	ofEntry := func(p catalogue.Part) catalogue.Part {
		p.Entry = p.Options[0]
		return p
	}
	return []catalogue.Part{
		part(bookMine, "what is stored about you"),
		part(bookForget, "remove what is stored about you", "yes"),
		part(bookRules, "the house rules of this channel"),
		part(bookList, "for teachers: the latest entries, or those that you choose", append(slices.Clone(choosing), "before")...),
		ofEntry(part(bookShow, "for teachers: one entry with its template, by its number", "number")),
		ofEntry(part(bookCheck, "for teachers: compute an entry again and compare its figures", "number")),
		{Name: bookAmend, Summary: "for teachers: correct an answer, and tell its maker", Options: []string{bookAmend}, Entry: bookAmend},
		part(bookSummary, "for teachers: what was asked most, and what was refused and why", choosing...),
		part(bookExport, "for teachers: entries as a file", append([]string{"format"}, choosing...)...),
		{Name: bookPin, Summary: "for teachers: pin a house rule, which later answers state", Options: []string{bookPin, "scope"}},
		part(bookUnpin, "for teachers: remove a house rule, by its number", "number", "scope"),
		part(bookRetention, "for teachers: for how many days the guild's entries are kept", "number"),
	}
}

// outlinesOf are the outlines of the requests' stones, each once.
func outlinesOf(specs []catalogue.Spec) []catalogue.Choice {
	var list []catalogue.Choice
	seen := map[string]bool{}
	for i := range specs {
		if o, ok := specs[i].Option("outline"); ok {
			for _, c := range o.Choices {
				if !seen[c.Key] {
					seen[c.Key] = true
					list = append(list, c)
				}
			}
		}
	}
	return list
}

// bookDeedOf is what was asked for: a number alone shows its entry.
func bookDeedOf(args catalogue.Args) string {
	switch {
	case args.Has(bookAmend):
		return bookAmend
	case args.Has(bookPin):
		return bookPin
	case args.Has("action"):
		return args.Word("action")
	case args.Has("number"):
		return bookShow
	case args.Has("format"):
		return bookExport
	}
	return bookList
}

func answerBook(ctx context.Context, b *bookCall, deed string, deeds map[string]bookDeed) (*answer.Answer, error) {
	d, ok := deeds[deed]
	if !ok {
		return nil, fmt.Errorf("daybook: nothing called %q", deed)
	}
	// In a direct chat there is nobody else's entry.
	if d.teacher && !b.Who.Teacher && !b.Who.Direct {
		return nil, answer.Refuse("daybook mine", "daybook %s is %s; mine, forget and rules are open to you", deed, b.Who.ForTeachers())
	}
	for i := range b.Spec.Options {
		o := b.Spec.Options[i].Name
		if b.Args.Typed(o) && o != "action" && !slices.Contains(d.takes, o) {
			takes := "nothing more"
			if len(d.takes) > 0 {
				takes = strings.Join(d.takes, ", ")
			}
			return nil, answer.Refuse(b.Retyped(map[string]string{o: ""}), "daybook %s takes %s; leave %s out", deed, takes, o)
		}
	}
	return d.do(ctx, b)
}

// number is the number that was typed with a deed, and a refusal where there is
// none.
func (b *bookCall) number(deed, what string) (int64, error) {
	if n := int64(b.Args.Number("number", 0)); n > 0 {
		return n, nil
	}
	return 0, answer.Refuse("daybook", "daybook %s needs the number of %s: daybook %s 12", deed, what, deed)
}

// entry finds an entry of this room. One of another room is as good as none.
func (b *bookCall) entry(ctx context.Context, id int64) (daybook.Entry, error) {
	e, err := b.book.ByIDIn(ctx, b.room, id)
	if errors.Is(err, daybook.ErrNotFound) {
		return e, answer.Refuse("daybook", "this channel's daybook has no entry %d", id)
	}
	return e, err
}

// entry's short description: "no. 12, 25 Nov 14:05, anna".
func entryTag(e *daybook.Entry) string {
	return fmt.Sprintf("no. %d, %s, %s", e.ID, e.At.UTC().Format("2 Jan 2006 15:04"), e.Maker)
}

// asked is what an entry's maker wanted: the request as understood, or else as
// typed.
func asked(e *daybook.Entry) string {
	if e.Line != "" {
		return reading.Echo(e.Line)
	}
	return e.Typed
}
