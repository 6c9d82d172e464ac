package requests

import (
	"context"
	"errors"
	"fmt"
	"time"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
)

// Bounds of house rules: each later answer of the channel states all of them.
const (
	mostRules     = 8
	mostRuleRunes = 200
)

func (b *bookCall) rules(ctx context.Context) ([]daybook.Rule, error) {
	return b.Book.Rules(ctx, b.Who.Scope(catalogue.FromChannel))
}

// listed gives the channel's rules as an answer.
func (b *bookCall) listed(ctx context.Context, headline string) (*answer.Answer, error) {
	all, err := b.rules(ctx)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Headline: headline}
	for _, r := range all {
		a.Notes = append(a.Notes, fmt.Sprintf("%d: %s", r.ID, r.Text))
	}
	if headline == "" {
		a.Headline = fmt.Sprintf("%s of this channel, which each answer states", counted(len(all), "house rule", "house rules"))
		if len(all) == 0 {
			a.Headline = "this channel has no house rules"
		}
	}
	return a, nil
}

func houseRules(ctx context.Context, b *bookCall) (*answer.Answer, error) { return b.listed(ctx, "") }

func pinRule(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	text := b.Args.Word(bookPin)
	if n := utf8.RuneCountInString(text); n > mostRuleRunes {
		return nil, answer.Refuse("daybook rules", "a house rule is stated in every answer, so it has at most %d characters; this one has %d", mostRuleRunes, n)
	}
	all, err := b.rules(ctx)
	if err != nil {
		return nil, err
	}
	for _, r := range all {
		if r.Text == text {
			return b.listed(ctx, "that is pinned already: "+text)
		}
	}
	if len(all) >= mostRules {
		return nil, answer.Refuse("daybook rules", "this channel has %d house rules, and each answer states them all; take one away first: daybook unpin %d",
			len(all), all[0].ID)
	}
	if _, err := b.Book.PinRule(ctx, b.Who.Scope(catalogue.FromChannel), text, b.Who.Maker); err != nil {
		return nil, err
	}
	return b.listed(ctx, "pinned for this channel; answers state it from now on: "+text)
}

func unpinRule(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	id, err := b.number(bookUnpin, "a house rule")
	if err != nil {
		return nil, answer.Refuse("daybook rules", "daybook unpin needs the number of a house rule; daybook rules lists them")
	}
	err = b.Book.UnpinRule(ctx, b.Who.Scope(catalogue.FromChannel), id)
	if errors.Is(err, daybook.ErrNotFound) {
		return nil, answer.Refuse("daybook rules", "this channel has no house rule %d", id)
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
		return nil, answer.Refuse("daybook mine", "there is no guild here; daybook forget removes what is stored of you")
	}
	const day = 24 * time.Hour
	if !b.Args.Typed("number") {
		keep, err := b.Book.Retention(ctx, b.Who.Platform, b.Who.Guild)
		if err != nil {
			return nil, err
		}
		a := &answer.Answer{Headline: "entries of this guild are kept until their maker has them forgotten"}
		if keep > 0 {
			a.Headline = fmt.Sprintf("entries of this guild are kept for %s", counted(int(keep/day), "day", "days"))
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
	if err := b.Book.SetRetention(ctx, b.Who.Platform, b.Who.Guild, time.Duration(days)*day, b.Who.Maker); err != nil {
		return nil, err
	}
	if days == 0 {
		return &answer.Answer{Headline: "entries of this guild are kept until their maker has them forgotten"}, nil
	}
	return &answer.Answer{
		Headline: fmt.Sprintf("entries of this guild, in all of its channels, are kept for %s", counted(days, "day", "days")),
		Notes:    []string{"older ones are removed once a day and can't be brought back, but from a back-up"},
	}, nil
}
