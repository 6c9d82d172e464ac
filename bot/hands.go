package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/catalogue"
)

// ErrClosing is the cause of requests that were not answered because the
// service was closed. They leave no trace, so that they can be answered after
// the next start.
var ErrClosing = errors.New("the program is stopping")

// hand is a request in hand.
type hand struct {
	who     catalogue.Who
	message string
	// long is set where the request is Long, or looks like it.
	long   bool
	cancel context.CancelCauseFunc
}

// take takes a request in hand; its context ends by drop, Stop and Close.
func (s *Service) take(ctx context.Context, req Request) (context.Context, *hand, error) {
	ctx, cancel := context.WithCancelCause(ctx)
	h := &hand{who: req.Who, message: req.Message, long: s.looksLong(req), cancel: cancel}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.idle != nil {
		cancel(ErrClosing)
		return ctx, nil, ErrClosing
	}
	s.hands[h] = struct{}{}
	return ctx, h, nil
}

// looksLong goes by the word that a request begins with, so that it can be
// stopped from the moment that it is in hand.
func (s *Service) looksLong(req Request) bool {
	word := req.Command
	if first := strings.Fields(req.Text); word == "" && len(first) > 0 {
		word = first[0]
	}
	return slices.ContainsFunc(s.o.Specs, func(spec catalogue.Spec) bool {
		return spec.Long && strings.EqualFold(spec.Name, word)
	})
}

func (s *Service) drop(h *hand) {
	h.cancel(context.Canceled)
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.hands, h)
	if s.idle != nil && len(s.hands) == 0 {
		close(s.idle)
	}
}

// lengthen marks a request in hand as long work, which Stop may end.
func (s *Service) lengthen(h *hand) {
	s.mu.Lock()
	defer s.mu.Unlock()
	h.long = true
}

// Stop ends the long work that its asker has in hand in a channel: that of one
// message, or all of it where message is empty. What is stopped is recorded as
// such, and its Handle returns. It tells how many pieces of work there were.
func (s *Service) Stop(_ context.Context, who catalogue.Who, message string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	stopped := 0
	for h := range s.hands {
		same := h.who.Platform == who.Platform && h.who.Channel == who.Channel && h.who.Guild == who.Guild && h.who.Maker == who.Maker
		if h.long && same && (message == "" || message == h.message) {
			h.cancel(ErrStopped)
			stopped++
		}
	}
	return stopped
}

// Close takes no further requests and waits for those in hand. When ctx ends
// first, they are stopped and leave no trace; the error tells how many. What
// was answered can still be marked as delivered; where other processes share
// the daybook, they may send what was not.
func (s *Service) Close(ctx context.Context) error {
	s.mu.Lock()
	if s.idle == nil {
		s.idle = make(chan struct{})
		if len(s.hands) == 0 {
			close(s.idle)
		}
	}
	idle := s.idle
	s.mu.Unlock()
	defer s.putAllBack(context.WithoutCancel(ctx))
	select {
	case <-idle:
		return nil
	case <-ctx.Done():
	}
	s.mu.Lock()
	left := len(s.hands)
	for h := range s.hands {
		h.cancel(ErrClosing)
	}
	s.mu.Unlock()
	<-idle // Handle does not wait past the end of its context, but for a write
	if left == 0 {
		return nil
	}
	return fmt.Errorf("bot: %d requests were stopped unanswered: %w", left, ErrClosing)
}

// putAllBack gives back the answers that this process has not sent.
func (s *Service) putAllBack(ctx context.Context) {
	ctx, cancel := context.WithTimeout(ctx, s.o.RecordTimeout)
	defer cancel()
	for _, entry := range s.leases.close() {
		if err := s.o.Book.Release(ctx, entry, s.o.Book.Owner()); err != nil {
			s.o.Log.Warn("an answer that was not sent is not given back yet", "entry", entry, "error", err)
			return // the leases end by themselves
		}
	}
}
