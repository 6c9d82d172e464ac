package bot

import (
	"context"

	"guildhand/bot/answer"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/bench"
)

// closed is the outcome of a request in a channel whose teachers don't want it
// answered. First aid is always given, and what keeps or forgets something
// always works.
func (s *Service) closed(ctx context.Context, req Request, u understood) (outcome, bool) {
	if u.aid || u.Spec != nil && u.Spec.Keeps {
		return outcome{}, false
	}
	policy, err := bench.AnswersIn(ctx, s.o.Book, req.Who)
	if err != nil {
		s.o.Log.Warn("what is answered in a channel could not be read", "platform", req.Who.Platform, "error", err)
		return outcome{}, false
	}
	switch {
	case policy == bench.AnswersAll:
		return outcome{}, false
	case req.Spoken:
		return outcome{silent: true}, true
	case policy == bench.AnswersCommands:
		return outcome{}, false
	}
	return outcome{parsed: u.Parsed, status: daybook.Refused, refusal: answer.Refuse("", "a teacher has turned my answers off in this channel; ask me in a direct message")}, true
}
