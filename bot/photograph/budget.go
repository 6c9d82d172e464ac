package photograph

import (
	"context"
	"time"
)

// tick is how often Budget counts.
const tick = 10 * time.Millisecond

// Budget is ctx, ended with the cause context.DeadlineExceeded when the program
// has run for some time. What it waits for a processor on a busy machine counts
// little: a ticker drops the ticks that nobody takes.
func Budget(ctx context.Context, running time.Duration) (context.Context, context.CancelFunc) {
	ctx, cancel := context.WithCancelCause(ctx)
	go func() {
		ticker := time.NewTicker(tick)
		defer ticker.Stop()
		for range running / tick {
			select {
			case <-ticker.C:
			case <-ctx.Done():
				return
			}
		}
		cancel(context.DeadlineExceeded)
	}()
	return ctx, func() { cancel(context.Canceled) }
}
