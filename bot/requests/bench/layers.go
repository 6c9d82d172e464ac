package bench

import (
	"context"

	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/reading"
)

// Layers returns the benches that serve a maker in a channel, strongest first:
// the maker's own, the channel's, the guild's. Settings are kept by option
// name, as canonical text.
func Layers(ctx context.Context, book *daybook.Book, who catalogue.Who) ([]reading.Layer, error) {
	if book == nil {
		return nil, nil
	}
	var layers []reading.Layer
	for _, l := range []reading.Layer{
		{Source: catalogue.FromMaker, Note: "your bench"},
		{Source: catalogue.FromChannel, Note: "bench of this channel"},
		{Source: catalogue.FromGuild, Note: "bench of the guild"},
	} {
		scope := Scope(who, l.Source)
		if scope.ID == "" {
			continue
		}
		values, err := book.Settings(ctx, scope)
		if err != nil {
			return nil, err
		}
		l.Values = values
		layers = append(layers, l)
	}
	if who.Locale == usEnglish {
		layers = append(layers, reading.Layer{
			Source: catalogue.FromGuild, Note: "your app is set to US English",
			Values: map[string]string{"units": "inch", "paper": "letter"},
		})
	}
	return layers, nil
}

// usEnglish is the language of an app whose maker is taken to measure in inches
// and print on letter paper, unless a bench says otherwise.
const usEnglish = "en-US"

// Scope returns the daybook's scope of the asker's maker, channel or guild bench.
func Scope(who catalogue.Who, s catalogue.Source) daybook.Scope {
	switch s {
	case catalogue.FromMaker:
		return daybook.Scope{Kind: daybook.MakerScope, Platform: who.Platform, ID: who.Maker}
	case catalogue.FromChannel:
		return daybook.Scope{Kind: daybook.ChannelScope, Platform: who.Platform, ID: who.Channel}
	default:
		return daybook.Scope{Kind: daybook.GuildScope, Platform: who.Platform, ID: who.Guild}
	}
}
