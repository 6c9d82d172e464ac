package daybook

import "context"

func answerEvents(ctx context.Context, args []string) error { return nil }
