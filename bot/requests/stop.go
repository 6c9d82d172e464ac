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
		Summary:  "stop your long work in this channel, such as a kit",
		Detail:   "It stops only your own requests in this channel that are not answered yet.",
		Examples: []catalogue.Example{{Line: "stop"}},
		Keeps:    true,
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			stopped := 0
			if c.Stop != nil {
				stopped = c.Stop()
			}
			switch stopped {
			case 0:
				return &answer.Answer{Alone: true, Headline: "you have no running work in this channel"}, nil
			case 1:
				return &answer.Answer{Alone: true, Headline: "I stopped your request"}, nil
			}
			return &answer.Answer{Alone: true, Headline: words.Counted(stopped, "request", "requests") + " of yours are stopped"}, nil
		},
	}
}
