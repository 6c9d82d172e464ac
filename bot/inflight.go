package bot

import (
	"context"
	"errors"
	"fmt"

	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
)

// ErrClosing is the cause of requests that were not answered because the
// service was closed. They leave no trace, so that they can be answered after
// the next start.
var ErrClosing = errors.New("the program is stopping")

// inFlight is a request being answered.
type inFlight struct {
	who     catalogue.Who
	message string
	// long is set once the request is known to be Long.
	long   bool
	cancel context.CancelCauseFunc
}

// admit registers a request; its context ends by finish, Stop and Close.
func (s *Service) admit(ctx context.Context, req Request) (context.Context, *inFlight, error) {
	ctx, cancel := context.WithCancelCause(ctx)
	f := &inFlight{who: req.Who, message: req.Message, cancel: cancel}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.idle != nil {
		cancel(ErrClosing)
		return ctx, nil, ErrClosing
	}
	s.requests[f] = struct{}{}
	return ctx, f, nil
}

func (s *Service) finish(f *inFlight) {
	f.cancel(context.Canceled)
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.requests, f)
	if s.idle != nil && len(s.requests) == 0 {
		close(s.idle)
	}
}

// markLong marks a running request as long work, which Stop may cancel.
func (s *Service) markLong(f *inFlight) {
	s.mu.Lock()
	defer s.mu.Unlock()
	f.long = true
}

// answering reports whether this process is answering an event.
func (s *Service) answering(key daybook.Key) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.events[key] != nil
}

// Stop cancels the long work of one maker in one channel: that of one message,
// or all of it if message is empty. What is stopped is recorded as such, and
// its Handle returns. Stop returns how many requests it cancelled.
func (s *Service) Stop(_ context.Context, who catalogue.Who, message string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	stopped := 0
	for f := range s.requests {
		same := f.who.Platform == who.Platform && f.who.Channel == who.Channel && f.who.Guild == who.Guild && f.who.Maker == who.Maker
		if f.long && same && (message == "" || message == f.message) {
			f.cancel(ErrStopped)
			stopped++
		}
	}
	return stopped
}

// Close admits no further requests and waits for those in flight. If ctx ends
// first, it cancels them, and they leave no trace; the error says how many.
// What was answered can still be marked as delivered. Where other processes
// share the daybook, they may send what was not.
func (s *Service) Close(ctx context.Context) error {
	s.mu.Lock()
	if s.idle == nil {
		s.idle = make(chan struct{})
		if len(s.requests) == 0 {
			close(s.idle)
		}
	}
	idle := s.idle
	s.mu.Unlock()
	defer s.releaseAll(context.WithoutCancel(ctx))
	select {
	case <-idle:
		return nil
	case <-ctx.Done():
	}
	s.mu.Lock()
	left := len(s.requests)
	for f := range s.requests {
		f.cancel(ErrClosing)
	}
	s.mu.Unlock()
	<-idle // after its context has ended, Handle waits for nothing but a write
	if left == 0 {
		return nil
	}
	return fmt.Errorf("bot: %d requests were stopped unanswered: %w", left, ErrClosing)
}

// releaseAll releases the answers that this process has not sent.
func (s *Service) releaseAll(ctx context.Context) {
	ctx, cancel := context.WithTimeout(ctx, s.o.RecordTimeout)
	defer cancel()
	for _, entry := range s.claims.close() {
		if err := s.Release(ctx, entry); err != nil {
			s.o.Log.Warn("an unsent answer was not released; it will be when its lease ends", "entry", entry, "error", err)
			return
		}
	}
}
