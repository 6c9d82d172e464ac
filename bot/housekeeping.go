package bot

import (
	"context"
	"time"
)

const (
	// housekeepingEvery is how often what is past its retention is removed.
	housekeepingEvery = 24 * time.Hour
	// housekeepingAgain is when that is tried again after a failure.
	housekeepingAgain = 10 * time.Minute
)

// Housekeeping removes what is past its guild's retention, now and once a day,
// until ctx ends. It may run in several processes at once.
func (s *Service) Housekeeping(ctx context.Context) error {
	for {
		wait := housekeepingEvery
		removed, err := s.o.Book.Purge(ctx, s.o.Clock())
		switch {
		case ctx.Err() != nil:
			return nil
		case err != nil:
			wait = housekeepingAgain
			s.o.Log.Warn("could not remove entries past their retention; trying again later", "error", err)
		case removed > 0:
			s.o.Log.Info("removed entries past their retention", "entries", removed)
		}
		select {
		case <-ctx.Done():
			return nil
		case <-time.After(wait):
		}
	}
}
