package requests

import (
	"context"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
)

// stopRequest ends the asker's own long work. It is a request like any other,
// so that it can be typed in every room.
func stopRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:     "stop",
		Summary:  "stops long work of yours in this channel, such as a kit",
		Detail:   "Only what you asked for yourself, in this channel, and what is not answered yet.",
		Examples: []catalogue.Example{{Line: "stop"}},
		Keeps:    true,
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			stopped := 0
			if c.Stop != nil {
				stopped = c.Stop()
			}
			switch stopped {
			case 0:
				return &answer.Answer{Alone: true, Headline: "nothing of yours is being worked on in this channel"}, nil
			case 1:
				return &answer.Answer{Alone: true, Headline: "your request is stopped"}, nil
			}
			return &answer.Answer{Alone: true, Headline: words.Counted(stopped, "request", "requests") + " of yours are stopped"}, nil
		},
	}
}
