package delivery_test

import (
	"context"
	"errors"
	"log/slog"
	"path/filepath"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/delivery"
)

// room is a platform: it counts the answers that arrive.
type room struct {
	mu       sync.Mutex
	arrived  []int64
	err      error // of the next sendings
	working  int
	progress []string
}

func (r *room) Send(_ context.Context, reply bot.Reply) (delivery.Sent, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.err != nil {
		return delivery.Sent{}, r.err
	}
	r.arrived = append(r.arrived, reply.Entry)
	return delivery.Sent{Message: "sent", Way: "message"}, nil
}

func (r *room) Working(context.Context) { r.working++ }

func (r *room) Progress(_ context.Context, text string) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.progress = append(r.progress, text)
	return nil
}

func (r *room) fail(err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.err = err
}

// shop is a service on a daybook of its own, whose marks can be made to fail.
type shop struct {
	*bot.Service
	book     *daybook.Book
	problems int // so many marks fail
}

func (s *shop) Delivered(ctx context.Context, entry int64, message string) error {
	if s.problems > 0 {
		s.problems--
		return errors.New("the disk is full")
	}
	return s.Service.Delivered(ctx, entry, message)
}

func gauge(answerIt func(context.Context, *catalogue.Call) (*answer.Answer, error)) catalogue.Spec {
	return catalogue.Spec{Name: "gauge", Summary: "gauge", Answer: answerIt}
}

func quick(context.Context, *catalogue.Call) (*answer.Answer, error) {
	return &answer.Answer{Headline: "22 ga"}, nil
}

func open(t *testing.T, spec catalogue.Spec) *shop {
	t.Helper()
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = book.Close() })
	service := bot.New(bot.Options{Specs: []catalogue.Spec{spec}, Book: book, Log: slog.New(slog.DiscardHandler)})
	return &shop{Service: service, book: book}
}

func (s *shop) outbox(again delivery.Sender, change func(*delivery.Options)) *delivery.Outbox {
	o := delivery.Options{
		Platform: "test", FreshFor: time.Hour, Every: time.Minute,
		Log: slog.New(slog.DiscardHandler),
	}
	if change != nil {
		change(&o)
	}
	return delivery.New(s, again, o)
}

func request(message string) bot.Request {
	return bot.Request{Who: catalogue.Who{Platform: "test", Channel: "c", Maker: "anna"}, Message: message, Text: "gauge"}
}

func (s *shop) unsent(t *testing.T) int {
	t.Helper()
	left, err := s.book.Undelivered(t.Context(), "test", time.Time{})
	require.NoError(t, err)
	return len(left)
}

func TestAnsweredOnce(t *testing.T) {
	s, first, again := open(t, gauge(quick)), &room{}, &room{}
	o := s.outbox(again, nil)
	for range 3 {
		_, err := o.Answer(t.Context(), request("m1"), first)
		require.NoError(t, err)
		assert.True(t, o.Redeliver(t.Context()))
	}
	assert.Equal(t, []int64{1}, first.arrived)
	assert.Empty(t, again.arrived)
	assert.Zero(t, s.unsent(t))
}

func TestNotSentAtFirst(t *testing.T) {
	s, first, again := open(t, gauge(quick)), &room{err: errors.New("no network")}, &room{err: errors.New("no network")}
	var ways []string
	o := s.outbox(again, func(o *delivery.Options) { o.Redelivered = func(way string) { ways = append(ways, way) } })
	_, err := o.Answer(t.Context(), request("m1"), first)
	require.Error(t, err)
	assert.False(t, o.Redeliver(t.Context()), "the network is still away")
	again.fail(nil)
	assert.True(t, o.Redeliver(t.Context()))
	assert.True(t, o.Redeliver(t.Context()))
	assert.Equal(t, []int64{1}, again.arrived)
	assert.Equal(t, []string{"message"}, ways)
}

// An answer that is being sent is not redelivered meanwhile.
func TestNotRedeliveredWhileBeingSent(t *testing.T) {
	s, again := open(t, gauge(quick)), &room{}
	o := s.outbox(again, nil)
	sender := senderFunc(func(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
		assert.True(t, o.Redeliver(ctx))
		reply, err := o.Answer(ctx, request("m1"), again)
		assert.NoError(t, err)
		assert.True(t, reply.Duplicate && reply.Delivered, "the event came again")
		return delivery.Sent{Message: "sent"}, nil
	})
	_, err := o.Answer(t.Context(), request("m1"), sender)
	require.NoError(t, err)
	assert.Empty(t, again.arrived)
}

type senderFunc func(context.Context, bot.Reply) (delivery.Sent, error)

func (f senderFunc) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) { return f(ctx, r) }

// What was sent and could not be marked is marked later, and not sent again.
func TestMarkedLater(t *testing.T) {
	s, first, again := open(t, gauge(quick)), &room{}, &room{}
	s.problems = 3
	o := s.outbox(again, nil)
	_, err := o.Answer(t.Context(), request("m1"), first)
	require.NoError(t, err)
	assert.False(t, o.Redeliver(t.Context()))
	assert.False(t, o.Redeliver(t.Context()))
	assert.Equal(t, 1, s.unsent(t))
	assert.True(t, o.Redeliver(t.Context()))
	assert.Zero(t, s.unsent(t))
	assert.Empty(t, again.arrived)
}

func TestOldAndUndeliverableAnswersExpire(t *testing.T) {
	for name, test := range map[string]struct {
		age  time.Duration
		err  error
		want int
	}{
		"fresh":         {59 * time.Minute, nil, 1},
		"too old":       {61 * time.Minute, nil, 0},
		"nowhere to go": {0, delivery.ErrUndeliverable, 0},
	} {
		t.Run(name, func(t *testing.T) {
			s, again := open(t, gauge(quick)), &room{err: test.err}
			_, _, err := s.book.Record(t.Context(), daybook.Entry{
				At: time.Now().Add(-test.age), Key: daybook.Key{Platform: "test", Channel: "c", Message: "m"},
				Status: daybook.Refused, Problem: "x",
			})
			require.NoError(t, err)
			assert.True(t, s.outbox(again, nil).Redeliver(t.Context()))
			assert.Len(t, again.arrived, test.want)
			assert.Zero(t, s.unsent(t))
		})
	}
}

// What can't be recorded is told, and not marked.
func TestNothingRecorded(t *testing.T) {
	s, first := open(t, gauge(quick)), &room{}
	require.NoError(t, s.book.Close())
	reply, err := s.outbox(first, nil).Answer(t.Context(), request("m1"), first)
	require.NoError(t, err)
	assert.Equal(t, bot.CantRecord, reply.Refusal.Problem)
	assert.Equal(t, []int64{0}, first.arrived)
}

// fake answers without a store, for tests of time.
type fake struct {
	delivery.Service
	handle func(context.Context, bot.Request) (bot.Reply, error)
	looked int
	failed bool
}

func (f *fake) Handle(ctx context.Context, r bot.Request) (bot.Reply, error) { return f.handle(ctx, r) }

func (f *fake) Undelivered(context.Context, string) ([]bot.Reply, error) {
	f.looked++
	if f.failed {
		return nil, errors.New("the store is away")
	}
	return nil, nil
}

func TestProgress(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := &fake{handle: func(_ context.Context, r bot.Request) (bot.Reply, error) {
			r.OnLong()
			time.Sleep(3 * time.Second) // nothing reported
			r.Progress(0, 100, "waiting for its turn")
			time.Sleep(3 * time.Second)
			r.Progress(45, 100, "laying out")
			time.Sleep(10 * time.Second)
			return bot.Reply{}, nil
		}}
		r := &room{}
		o := delivery.New(f, &room{}, delivery.Options{Log: slog.New(slog.DiscardHandler)})
		_, err := o.Answer(t.Context(), request("m1"), r)
		require.NoError(t, err)
		assert.Equal(t, 1, r.working)
		assert.Equal(t, []string{"", "working on it: waiting for its turn", "working on it: 45 of 100, laying out"},
			r.progress, "after 2, 5 and 9.5 s")
	})
}

func TestShortWorkShowsNoProgress(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := &fake{handle: func(_ context.Context, r bot.Request) (bot.Reply, error) {
			r.Progress(1, 2, "sawing")
			time.Sleep(time.Minute)
			return bot.Reply{}, nil
		}}
		r := &room{}
		_, err := delivery.New(f, &room{}, delivery.Options{Log: slog.New(slog.DiscardHandler)}).Answer(t.Context(), request("m1"), r)
		require.NoError(t, err)
		assert.Zero(t, r.working)
		assert.Empty(t, r.progress)
	})
}

// Unsent answers are looked for now and then; after a failure soon, then ever
// more slowly, and at once when nudged.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := &fake{}
		o := delivery.New(f, &room{}, delivery.Options{Every: time.Minute, Log: slog.New(slog.DiscardHandler)})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- o.Run(ctx) }()
		time.Sleep(10*time.Minute + time.Second)
		synctest.Wait()
		assert.Equal(t, 11, f.looked)
		f.failed, f.looked = true, 0
		o.Nudge()
		time.Sleep(10 * time.Minute)
		synctest.Wait()
		assert.Greater(t, f.looked, 13, "it tries again sooner than every minute")
		assert.Less(t, f.looked, 40, "and ever more slowly")
		cancel()
		require.ErrorIs(t, <-ended, context.Canceled)
	})
}
