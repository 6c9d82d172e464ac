package discord

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/calc/stock"
)

// fakeService is a service whose faults a test can order. What the real one
// does is tested with the real one.
type fakeService struct {
	specs []catalogue.Spec
	shop  *stock.Workshop

	mu        sync.Mutex
	entries   []*fakeEntry
	handled   map[string]int
	refuseDay error // Handle can't record
	markFails int   // so many calls of Delivered fail
	expired   map[int64]bool
}

type fakeEntry struct {
	reply     bot.Reply
	delivered string
}

func newFakeService(specs []catalogue.Spec) *fakeService {
	return &fakeService{specs: specs, shop: testShop(), handled: map[string]int{}, expired: map[int64]bool{}}
}

func (f *fakeService) Specs() []catalogue.Spec { return f.specs }

func (f *fakeService) Handle(ctx context.Context, r bot.Request) (bot.Reply, error) {
	f.mu.Lock()
	f.handled[r.Message]++
	for _, e := range f.entries {
		if e.reply.Message == r.Message && r.Message != "" {
			reply := e.reply
			reply.Duplicate, reply.Delivered = true, e.delivered != ""
			f.mu.Unlock()
			return reply, nil
		}
	}
	broken := f.refuseDay
	f.mu.Unlock()
	if broken != nil {
		return bot.Reply{}, broken
	}
	reply := f.compute(ctx, r)
	reply.Route, reply.Who, reply.Message = r.Route, r.Who, r.Message
	f.mu.Lock()
	defer f.mu.Unlock()
	reply.Entry = int64(len(f.entries) + 1)
	f.entries = append(f.entries, &fakeEntry{reply: reply})
	return reply, nil
}

func (f *fakeService) compute(ctx context.Context, r bot.Request) (reply bot.Reply) {
	defer func() {
		if p := recover(); p != nil {
			reply = bot.Reply{Refusal: &answer.Refusal{Problem: "that went wrong on our side and was noted"}}
		}
	}()
	look := reading.Lookups{Shop: f.shop}
	var parsed reading.Parsed
	var err error
	if r.Command != "" {
		parsed, err = reading.ParseOptions(f.specs, r.Command, r.Options, look)
	} else {
		parsed, err = reading.Parse(f.specs, r.Text, look)
	}
	var a *answer.Answer
	if err == nil && parsed.Spec.Needs == catalogue.Teacher && !r.Who.Teacher {
		err = answer.Refuse("", "%s is for teachers", parsed.Spec.Name)
	}
	if err == nil {
		progress := r.Progress
		if progress == nil {
			progress = func(int, int, string) {}
		}
		a, err = parsed.Spec.Answer(ctx, &catalogue.Call{Spec: parsed.Spec, Args: parsed.Args, Line: parsed.Line, Who: r.Who, Shop: f.shop, Progress: progress})
	}
	if err != nil {
		refusal, ok := answer.AsRefusal(err)
		if !ok {
			refusal = &answer.Refusal{Problem: "that went wrong on our side", Cause: err}
		}
		return bot.Reply{Refusal: refusal}
	}
	return bot.Reply{Answer: a}
}

func (f *fakeService) Delivered(_ context.Context, entry int64, message string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.markFails > 0 {
		f.markFails--
		return errors.New("the disk is full")
	}
	e := f.entries[entry-1]
	if e.delivered == "" {
		e.delivered = message
	}
	return nil
}

func (f *fakeService) Expired(_ context.Context, entry int64) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.expired[entry] = true
	return nil
}

func (f *fakeService) PutBack(context.Context, int64) error { return nil }

func (f *fakeService) Undelivered(_ context.Context, _ string, since time.Time) ([]bot.Reply, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	var list []bot.Reply
	for _, e := range f.entries {
		if e.delivered == "" && !f.expired[e.reply.Entry] {
			list = append(list, e.reply)
		}
	}
	return list, nil
}

func (f *fakeService) Again(_ context.Context, entry int64) (bot.Reply, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if entry < 1 || entry > int64(len(f.entries)) {
		return bot.Reply{}, fmt.Errorf("entry %d: not in the daybook", entry)
	}
	return f.entries[entry-1].reply, nil
}

func (f *fakeService) Complete(_ context.Context, line string, cursor int) []bot.Completion {
	return reading.Complete(f.specs, f.shop, line, cursor)
}

// deliveredAs gives the message that an entry was delivered as.
func (f *fakeService) deliveredAs(entry int64) string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.entries[entry-1].delivered
}

func (f *fakeService) count() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return len(f.entries)
}
