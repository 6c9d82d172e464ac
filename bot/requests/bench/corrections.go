package bench

import (
	"context"
	"encoding/json"

	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/calc/tuning"
)

// Corrections returns what is kept of a maker's measured trials; none where it is
// not known who asks.
func Corrections(ctx context.Context, book *daybook.Book, who catalogue.Who) ([]catalogue.Correction, error) {
	if book == nil || who.Maker == "" {
		return nil, nil
	}
	kept, err := book.Corrections(ctx, who.Platform, who.Maker)
	if err != nil {
		return nil, err
	}
	list := make([]catalogue.Correction, len(kept))
	for i, k := range kept {
		var trials []tuning.Trial
		if json.Unmarshal(k.Trials, &trials) != nil {
			trials = nil
		}
		list[i] = catalogue.Correction{
			ID: k.ID, Alloy: k.Alloy, ThicknessMM: k.ThicknessMM,
			NeutralFactor: k.NeutralFactor, KerfMM: k.KerfMM, Trials: trials,
		}
	}
	return list, nil
}
