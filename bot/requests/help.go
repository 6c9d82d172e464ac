package requests

import (
	"context"
	"errors"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

func helpRequest([]catalogue.Spec) catalogue.Spec {
	return catalogue.Spec{
		Name:    "help",
		Summary: "what can be asked, and how",
		Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return nil, errors.New("not yet")
		},
	}
}
