package requests

import (
	"context"
	"errors"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

func benchRequest([]catalogue.Spec) catalogue.Spec {
	return catalogue.Spec{
		Name:    "bench",
		Summary: "the defaults of a maker, a channel or the guild: metal, gauge, units, paper",
		Keeps:   true,
		Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return nil, errors.New("not yet")
		},
	}
}
