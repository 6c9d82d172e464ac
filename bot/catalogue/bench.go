package catalogue

import (
	"context"

	"guildhand/bot/daybook"
)

// Benches gives the benches that serve a maker in a channel, strongest first:
// the maker's own, the channel's, the guild's. Settings are kept by option
// name, as canonical text.
func Benches(ctx context.Context, book *daybook.Book, who Who) ([]Layer, error) {
	var layers []Layer
	for _, b := range []Layer{
		{Source: FromMaker, Note: "your bench"},
		{Source: FromChannel, Note: "bench of this channel"},
		{Source: FromGuild, Note: "bench of the guild"},
	} {
		scope := who.Scope(b.Source)
		if scope.ID == "" {
			continue
		}
		values, err := book.Settings(ctx, scope)
		if err != nil {
			return nil, err
		}
		b.Values = values
		layers = append(layers, b)
	}
	return layers, nil
}

// Scope gives the daybook's scope of the asker's maker, channel or guild bench.
func (w Who) Scope(s Source) daybook.Scope {
	switch s {
	case FromMaker:
		return daybook.Scope{Kind: daybook.MakerScope, Platform: w.Platform, ID: w.Maker}
	case FromChannel:
		return daybook.Scope{Kind: daybook.ChannelScope, Platform: w.Platform, ID: w.Channel}
	default:
		return daybook.Scope{Kind: daybook.GuildScope, Platform: w.Platform, ID: w.Guild}
	}
}
