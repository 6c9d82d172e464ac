package daybookrequest

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/words"
)

// storedOf is what is stored of the asker. In a guild's channel, which others
// read, it is only what belongs to that guild, and what belongs to none.
func (b *bookCall) storedOf(ctx context.Context) (daybook.MakerData, error) {
	if b.Who.Maker == "" {
		return daybook.MakerData{}, answer.Refuse("daybook rules", "I can't tell who is asking here, so nothing is stored about you")
	}
	d, err := b.book.MakerData(ctx, b.Who.Platform, b.Who.Maker)
	if err != nil || b.Who.Direct {
		return d, err
	}
	d.Entries = slices.DeleteFunc(d.Entries, func(e daybook.Entry) bool { return e.Guild != b.Who.Guild })
	here := map[int64]bool{}
	for _, a := range d.Amendments {
		if e, err := b.book.ByID(ctx, a.EntryID); err == nil && e.Guild == b.Who.Guild {
			here[a.ID] = true
		}
	}
	d.Amendments = slices.DeleteFunc(d.Amendments, func(a daybook.Amendment) bool { return !here[a.ID] })
	d.Rules = slices.DeleteFunc(d.Rules, func(r daybook.Rule) bool { return r.Scope.ID != b.Who.Channel && r.Scope.ID != b.Who.Guild })
	return d, nil
}

// storedLines count what is stored of a maker.
func storedLines(d daybook.MakerData) []string {
	var lines []string
	add := func(n int, one, many string) {
		if n > 0 {
			lines = append(lines, words.Counted(n, one, many))
		}
	}
	add(len(d.Entries), "entry: your question, its answer and time, your id on this platform", "entries: your questions, their answers and times, your id on this platform")
	add(len(d.Settings), "default on your bench", "defaults on your bench")
	add(len(d.Corrections), "correction from your trial pieces", "corrections from your trial pieces")
	add(len(d.Outlines), "traced outline of a stone, without its photograph", "traced outlines of stones, without their photographs")
	add(len(d.Amendments), "correction that you wrote beside an answer", "corrections that you wrote beside answers")
	add(len(d.Rules), "house rule that you pinned", "house rules that you pinned")
	return lines
}

func mine(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	d, err := b.storedOf(ctx)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Alone: true, Headline: "stored about you in this guild", Notes: storedLines(d)}
	if b.Who.Direct {
		a.Headline = "all that is stored about you on this platform"
	}
	if len(a.Notes) == 0 {
		a.Headline = "nothing is stored about you here yet"
	}
	a.Notes = append(a.Notes, "about you yourself I have only your id on this platform: no name, no address, no picture")
	if !b.Who.Direct {
		a.Notes = append(a.Notes, "ask daybook mine in a direct chat with me for all of it, as a file")
	} else {
		data, err := storedFile(b, d)
		if err != nil {
			return nil, err
		}
		a.Attachments = []answer.Attachment{{
			Name: "daybook-mine.json", Type: "application/json", Alt: "all that is stored about you, as JSON",
			Render: func(context.Context) ([]byte, error) { return data, nil },
		}}
	}
	a.Notes = append(a.Notes, "daybook forget removes it")
	return a, nil
}

// storedFile is all that is stored of a maker, as JSON.
func storedFile(b *bookCall, d daybook.MakerData) ([]byte, error) {
	type correction struct {
		Alloy         string          `json:"alloy"`
		ThicknessMM   float64         `json:"thickness_mm"`
		NeutralFactor float64         `json:"neutral_factor"`
		KerfMM        float64         `json:"kerf_mm"`
		Trials        json.RawMessage `json:"trials,omitempty"`
		At            time.Time       `json:"at"`
	}
	type outline struct {
		ID     string          `json:"id"`
		Name   string          `json:"name,omitempty"`
		Traced json.RawMessage `json:"traced"`
		At     time.Time       `json:"at"`
	}
	type text struct {
		Entry int64     `json:"entry,omitempty"`
		At    time.Time `json:"at"`
		Text  string    `json:"text"`
	}
	type entry struct {
		exportedEntry
		Guild   string `json:"guild"`
		Channel string `json:"channel"`
		Message string `json:"message"`
	}
	out := struct {
		Platform    string            `json:"platform"`
		Maker       string            `json:"maker"`
		Entries     []entry           `json:"entries"`
		Bench       map[string]string `json:"bench"`
		Corrections []correction      `json:"trial_corrections"`
		Outlines    []outline         `json:"outlines"`
		Amendments  []text            `json:"amendments"`
		Rules       []text            `json:"house_rules"`
	}{Platform: b.Who.Platform, Maker: b.Who.Maker, Bench: maps.Clone(d.Settings)}
	for i := range d.Entries {
		e := &d.Entries[i]
		x, err := exported(e, nil)
		if err != nil {
			return nil, err
		}
		out.Entries = append(out.Entries, entry{x, e.Guild, e.Key.Channel, e.Key.Message})
	}
	for _, k := range d.Corrections {
		out.Corrections = append(out.Corrections, correction{k.Alloy, k.ThicknessMM, k.NeutralFactor, k.KerfMM, k.Trials, k.At})
	}
	for _, o := range d.Outlines {
		out.Outlines = append(out.Outlines, outline{o.ID, o.Name, o.Traced, o.At})
	}
	for _, m := range d.Amendments {
		out.Amendments = append(out.Amendments, text{m.EntryID, m.At, m.Text})
	}
	for _, r := range d.Rules {
		out.Rules = append(out.Rules, text{0, r.At, r.Text})
	}
	return indented(out)
}

// forget removes what is stored of the asker, on the second asking.
func forget(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	d, err := b.storedOf(ctx)
	if err != nil {
		return nil, err
	}
	if !b.Args.Has("yes") {
		a := &answer.Answer{
			Alone:    true,
			Headline: "to remove what is stored about you on this platform, in all guilds, ask: daybook forget yes",
			Notes: append(storedLines(d), "your entries, your bench and your trial corrections are removed and can't be brought back",
				"corrections and house rules that you wrote for others stay, without your id"),
		}
		return a, nil
	}
	removed, err := b.book.ForgetMaker(ctx, b.Who.Platform, b.Who.Maker)
	if err != nil {
		return nil, err
	}
	return &answer.Answer{
		Alone: true, Fleeting: true,
		Headline: fmt.Sprintf("forgotten: %s, your bench and your trial corrections on this platform", words.Counted(removed, "entry", "entries")),
		Notes: []string{
			"this question itself is forgotten as soon as you have this answer",
			"messages in the rooms are not mine to remove, and older back-ups keep what they have until somebody deletes them",
		},
	}, nil
}
