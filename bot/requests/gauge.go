package requests

import (
	"context"
	"errors"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

func gaugeRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "gauge",
		Summary: "a thickness between gauge number, mm and inch",
		Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return nil, errors.New("not yet")
		},
	}
}
