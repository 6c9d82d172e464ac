package discord

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
)

// faultyService is the real service with faults that a test can order.
type faultyService struct {
	*bot.Service
	t    testing.TB
	book *daybook.Book

	mu           sync.Mutex
	handled      map[string]int
	cannotRecord error // Handle can't record
	markFails    int   // so many calls of Delivered fail
}

func newFaulty(t testing.TB, specs []catalogue.Spec) *faultyService {
	service, book := realService(t, func(*daybook.Book) []catalogue.Spec { return specs }, testShop())
	return &faultyService{Service: service, t: t, book: book, handled: map[string]int{}}
}

// restarted is a service without faults on the same daybook, as after a crash.
func (f *faultyService) restarted() *faultyService {
	service := bot.New(bot.Options{Specs: f.Specs(), Shop: testShop(), Book: f.book, Log: slog.New(slog.DiscardHandler), Version: "test", Timeout: patience})
	return &faultyService{Service: service, t: f.t, book: f.book, handled: map[string]int{}}
}

func (f *faultyService) Handle(ctx context.Context, r bot.Request) (bot.Reply, error) {
	f.mu.Lock()
	f.handled[r.Message]++
	broken := f.cannotRecord
	f.mu.Unlock()
	if broken != nil {
		return bot.Reply{Refusal: &answer.Refusal{Problem: bot.CantRecord, Cause: broken}, Who: r.Who, Message: r.Message}, broken
	}
	return f.Service.Handle(ctx, r)
}

func (f *faultyService) Delivered(ctx context.Context, entry int64, message string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.markFails > 0 {
		f.markFails--
		return errors.New("the disk is full")
	}
	return f.Service.Delivered(ctx, entry, message)
}

func (f *faultyService) breakStore(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.cannotRecord = err
}

func (f *faultyService) timesHandled(message string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.handled[message]
}

// deliveredAs is the message that an entry was delivered as, or "".
func (f *faultyService) deliveredAs(entry int64) string {
	e, err := f.book.ByID(context.Background(), entry)
	if errors.Is(err, daybook.ErrNotFound) {
		return ""
	}
	require.NoError(f.t, err)
	return e.Delivered
}

// expired reports whether an entry is neither delivered nor to be delivered.
func (f *faultyService) expired(entry int64) bool {
	left, err := f.book.Undelivered(context.Background(), Platform, time.Time{})
	require.NoError(f.t, err)
	return f.deliveredAs(entry) == "" && !slices.ContainsFunc(left, func(e daybook.Entry) bool { return e.ID == entry })
}

// count is how many entries the daybook has.
func (f *faultyService) count() int {
	for n := 0; ; n++ {
		if _, err := f.book.ByID(context.Background(), int64(n+1)); errors.Is(err, daybook.ErrNotFound) {
			return n
		}
	}
}
