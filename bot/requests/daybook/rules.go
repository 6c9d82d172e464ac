package daybookrequest

import (
	"context"
	"errors"
	"fmt"
	"time"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/bench"
	"guildhand/bot/requests/words"
)

// Bounds of house rules: each later answer states all of them.
const (
	mostRules      = 8 // of a channel
	mostGuildRules = 4
	mostRuleRunes  = 200
)

// ruleScope is where a rule holds.
type ruleScope struct {
	daybook.Scope
	name, whole string
	most        int
	// word stands in a request that is about it, or is empty.
	word string
}

func (b *bookCall) ruleScope(guild bool) ruleScope {
	if guild {
		return ruleScope{bench.Scope(b.Who, catalogue.FromGuild), "the guild", "all channels of the guild", mostGuildRules, "guild "}
	}
	return ruleScope{bench.Scope(b.Who, catalogue.FromChannel), "this channel", "this channel", mostRules, ""}
}

// changing is the scope whose rules are to be changed.
func (b *bookCall) changing() (ruleScope, error) {
	s := b.ruleScope(b.Args.Word("scope") == "guild")
	switch {
	case s.Kind != daybook.GuildScope:
	case s.ID == "":
		return s, answer.Refuse("daybook rules", "there is no guild here, so it has no house rules")
	case !b.Who.Teacher:
		return s, answer.Refuse("daybook rules", "the guild's house rules are %s", b.Who.ForTeachers())
	}
	return s, nil
}

// listed returns the rules that hold in the channel as an answer.
func (b *bookCall) listed(ctx context.Context, headline string) (*answer.Answer, error) {
	own, err := b.book.Rules(ctx, b.ruleScope(false).Scope)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Headline: headline}
	for _, r := range own {
		a.Notes = append(a.Notes, fmt.Sprintf("%d: %s", r.ID, r.Text))
	}
	var guilds []daybook.Rule
	if guild := b.ruleScope(true); guild.ID != "" {
		if guilds, err = b.book.Rules(ctx, guild.Scope); err != nil {
			return nil, err
		}
	}
	for _, r := range guilds {
		a.Notes = append(a.Notes, fmt.Sprintf("%d, of the guild: %s", r.ID, r.Text))
	}
	switch {
	case headline != "":
	case len(own)+len(guilds) == 0:
		a.Headline = "this channel has no house rules"
	case len(guilds) == 0:
		a.Headline = fmt.Sprintf("%s of this channel, which each answer states", words.Counted(len(own), "house rule", "house rules"))
	default:
		a.Headline = fmt.Sprintf("%s of this channel and %d of the guild, which each answer states",
			words.Counted(len(own), "house rule", "house rules"), len(guilds))
	}
	return a, nil
}

func houseRules(ctx context.Context, b *bookCall) (*answer.Answer, error) { return b.listed(ctx, "") }

func pinRule(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	scope, err := b.changing()
	if err != nil {
		return nil, err
	}
	text := b.Args.Word(bookPin)
	if n := utf8.RuneCountInString(text); n > mostRuleRunes {
		return nil, answer.Refuse("daybook rules", "a house rule is stated in every answer, so it has at most %d characters; this one has %d", mostRuleRunes, n)
	}
	all, err := b.book.Rules(ctx, scope.Scope)
	if err != nil {
		return nil, err
	}
	for _, r := range all {
		if r.Text == text {
			return b.listed(ctx, "that is pinned already: "+text)
		}
	}
	if len(all) >= scope.most {
		return nil, answer.Refuse("daybook rules", "%s has %d house rules, and each answer states them all; remove one first: daybook %sunpin %d",
			scope.name, len(all), scope.word, all[0].ID)
	}
	if _, err := b.book.PinRule(ctx, scope.Scope, text, b.Who.Maker); err != nil {
		return nil, err
	}
	return b.listed(ctx, "pinned for "+scope.whole+"; answers state it from now on: "+text)
}

func unpinRule(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	scope, err := b.changing()
	if err != nil {
		return nil, err
	}
	id, err := b.number(bookUnpin, "a house rule")
	if err != nil {
		return nil, answer.Refuse("daybook rules", "daybook unpin needs the number of a house rule; daybook rules lists them")
	}
	err = b.book.UnpinRule(ctx, scope.Scope, id)
	if errors.Is(err, daybook.ErrNotFound) {
		other := "daybook guild unpin removes the guild's"
		if scope.Kind == daybook.GuildScope {
			other = "to remove a channel's, use daybook unpin there"
		}
		return nil, answer.Refuse("daybook rules", "%s has no house rule %d; daybook rules lists them, and %s", scope.name, id, other)
	}
	if err != nil {
		return nil, err
	}
	return b.listed(ctx, fmt.Sprintf("house rule %d is taken away", id))
}

// mostDays is the longest retention.
const mostDays = 3650

// retention tells or sets for how many days the guild's entries are kept.
func retention(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	if b.Who.Guild == "" {
		return nil, answer.Refuse("daybook mine", "there is no guild here; daybook forget removes what is stored about you")
	}
	const day = 24 * time.Hour
	if !b.Args.Typed("number") {
		keep, err := b.book.Retention(ctx, b.Who.Platform, b.Who.Guild)
		if err != nil {
			return nil, err
		}
		a := &answer.Answer{Headline: "entries of this guild are kept until their maker has them forgotten"}
		if keep > 0 {
			a.Headline = fmt.Sprintf("entries of this guild are kept for %s", words.Counted(int(keep/day), "day", "days"))
		}
		a.Notes = []string{"daybook retention 90 keeps them for 90 days, daybook retention 0 without end"}
		return a, nil
	}
	if !b.Who.Teacher {
		return nil, answer.Refuse("daybook mine", "retention is for teachers, in a channel of the guild")
	}
	days := int(min(b.Args.Number("number", 0), 1e9))
	if days > mostDays {
		return nil, answer.Refuse("daybook retention", "retention takes 0 to %d days; 0 keeps entries without end", mostDays)
	}
	if err := b.book.SetRetention(ctx, b.Who.Platform, b.Who.Guild, time.Duration(days)*day, b.Who.Maker); err != nil {
		return nil, err
	}
	if days == 0 {
		return &answer.Answer{Headline: "entries of this guild are kept until their maker has them forgotten"}, nil
	}
	return &answer.Answer{
		Headline: fmt.Sprintf("entries of this guild, in all of its channels, are kept for %s", words.Counted(days, "day", "days")),
		Notes:    []string{"older ones are removed once a day and can't be brought back, but from a back-up"},
	}, nil
}
