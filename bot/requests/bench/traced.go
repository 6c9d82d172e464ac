package bench

import (
	"context"
	"encoding/json"
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
)

// Traced finds an outline that a maker traced, by name or id; an empty name is
// the latest. The error is a refusal where there is none.
func Traced(ctx context.Context, book *daybook.Book, who catalogue.Who, nameOrID string) (catalogue.Traced, error) {
	all, err := AllTraced(ctx, book, who)
	if err != nil {
		return catalogue.Traced{}, err
	}
	for _, t := range all {
		if nameOrID == "" || t.ID == nameOrID || t.Name == nameOrID {
			return t, nil
		}
	}
	if nameOrID == "" {
		return catalogue.Traced{}, answer.Refuse("trace card", "you have traced no stone yet: print the card with trace card, and send a photograph of the stone on it with the word trace")
	}
	return catalogue.Traced{}, answer.Refuse("trace list", "you have kept no traced stone as %q: trace list shows yours, and trace keep gives the latest a name", nameOrID)
}

// AllTraced are a maker's traced outlines, the latest first.
func AllTraced(ctx context.Context, book *daybook.Book, who catalogue.Who) ([]catalogue.Traced, error) {
	if book == nil || who.Maker == "" {
		return nil, nil
	}
	kept, err := book.Outlines(ctx, who.Platform, who.Maker)
	if err != nil {
		return nil, err
	}
	all := make([]catalogue.Traced, 0, len(kept))
	for _, k := range kept {
		t := catalogue.Traced{}
		if err := json.Unmarshal(k.Traced, &t); err != nil {
			return nil, fmt.Errorf("outline %s: %w", k.ID, err)
		}
		t.ID, t.Name = k.ID, k.Name
		all = append(all, t)
	}
	return all, nil
}
