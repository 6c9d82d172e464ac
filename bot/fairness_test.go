package bot_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nap is a request that takes a while.
func nap(d time.Duration) catalogue.Spec {
	return catalogue.Spec{Name: "nap", Summary: "takes a while", Answer: func(ctx context.Context, _ *catalogue.Call) (*answer.Answer, error) {
		select {
		case <-time.After(d):
			return &answer.Answer{Headline: "slept"}, nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}}
}

func maker(guild, channel, name string) catalogue.Who {
	return catalogue.Who{Platform: "test", Guild: guild, Channel: channel, Maker: name}
}

// held is a request that says that it has begun and then waits to be let go.
func held(begun chan<- struct{}, letGo <-chan struct{}) catalogue.Spec {
	return catalogue.Spec{Name: "held", Summary: "waits", Answer: func(ctx context.Context, _ *catalogue.Call) (*answer.Answer, error) {
		begun <- struct{}{}
		select {
		case <-letGo:
			return &answer.Answer{Headline: "let go"}, nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}}
}

// TestOneGuildsBurst: while one guild's burst of 200 is worked off, another's
// questions are answered, though nothing of the burst gets done.
func TestOneGuildsBurst(t *testing.T) {
	const burst = 200
	begun, letGo := make(chan struct{}, burst), make(chan struct{})
	s := openShop(t, func(o *bot.Options) {
		o.Specs = append(o.Specs, held(begun, letGo))
		o.AtOnce, o.PerGuild = 8, 2
	})
	var wg sync.WaitGroup
	for i := range burst {
		wg.Go(func() {
			ask(t, s, maker("busy", fmt.Sprint("c", i%5), fmt.Sprint("m", i)), fmt.Sprint("b", i), "held")
		})
	}
	<-begun
	<-begun // the guild has its share
	for i := range 10 {
		r := ask(t, s, maker("quiet", "q1", "anna"), fmt.Sprint("q", i), "cut 8x6")
		assert.NotNil(t, r.Answer)
	}
	assert.Empty(t, begun, "the busy guild got more than its share")
	close(letGo)
	wg.Wait()
}

func TestLimits(t *testing.T) {
	now := noon
	var mu sync.Mutex
	s := openShop(t, func(o *bot.Options) {
		o.Clock = func() time.Time { mu.Lock(); defer mu.Unlock(); return now }
		o.Limits = bot.Limits{Maker: bot.Limit{AtOnce: 5, PerMinute: 6}, Channel: bot.Limit{AtOnce: 12, PerMinute: 60}}
	})
	wait := func(d time.Duration) { mu.Lock(); now = now.Add(d); mu.Unlock() }
	n := 0
	try := func(who catalogue.Who) *answer.Refusal {
		t.Helper()
		n++
		r, err := s.Handle(t.Context(), bot.Request{Who: who, Message: fmt.Sprint("m", n), Text: "cut 8x6"})
		require.NoError(t, err)
		assert.Equal(t, (r.Refusal != nil), (r.Entry == 0), "reply %+v", r)
		return r.Refusal
	}
	through := func(who catalogue.Who, want int) *answer.Refusal {
		t.Helper()
		for i := range 50 {
			if r := try(who); r != nil {
				assert.Equal(t, want, i)
				return r
			}
		}
		t.Fatalf("%s: no limit", who.Maker)
		return nil
	}
	a := maker("g1", "c1", "anna")
	r := through(a, 5)
	assert.Equal(t, "one moment: you have asked more than 5 times in a short while; ask again in 10 s", r.Problem)
	// Another maker, and the same one in another channel, have their own.
	through(maker("g1", "c1", "ben"), 5)
	through(maker("g1", "c2", "anna"), 5)
	// The channel's limit is met by the third.
	r = through(maker("g1", "c1", "carl"), 2)
	assert.Equal(t, "one moment: this channel has asked more than 12 times in a short while; ask again in 1 s", r.Problem)
	wait(20 * time.Second)
	through(a, 2)
	wait(time.Hour)
	through(a, 5)
	// A clock that is set back locks nobody out for longer.
	wait(-24 * time.Hour)
	try(a)
	wait(time.Minute)
	if r := try(a); r != nil && strings.Contains(r.Problem, "86") {
		t.Errorf("after the clock was set back: %q", r.Problem)
	}
	wait(24*time.Hour + time.Minute)
	through(a, 5)

	// Nothing of it is in the daybook, so that a flood does not fill the disk.
	all, err := s.book.List(t.Context(), daybook.Filter{Platform: "test", Guild: "g1", Channel: "c1", Status: daybook.Refused, Limit: 100})
	if err != nil || len(all) != 0 {
		t.Errorf("recorded: %d, %v", len(all), err)
	}
	// An event that was answered before is no new one.
	wait(time.Hour)
	first := ask(t, s, a, "same", "cut 8x6")
	through(a, 4)
	if again := ask(t, s, a, "same", "cut 8x6"); !again.Duplicate || again.Entry != first.Entry {
		t.Errorf("a duplicate was told to wait: %+v", again)
	}
	// One that was told to wait can be asked again.
	r2, err := s.Handle(t.Context(), bot.Request{Who: a, Message: "later", Text: "cut 8x6"})
	if err != nil || r2.Refusal == nil {
		t.Fatalf("%+v, %v", r2, err)
	}
	wait(time.Minute)
	if r := ask(t, s, a, "later", "cut 8x6"); r.Answer == nil {
		t.Errorf("asked again: %+v", r)
	}
}

// A class of twenty that types as fast as it can for ten minutes meets no
// limit.
func TestClassMeetsNoLimit(t *testing.T) {
	now := noon
	s := openShop(t, func(o *bot.Options) { // limits are looked at before the daybook
		o.Book, o.Clock = nil, func() time.Time { return now }
	})
	asked := 0
	for second := range 600 {
		now = now.Add(time.Second)
		for m := range 20 {
			if (second+m)%6 != 0 && second != 0 { // each asks every six seconds, and all at once at the start
				continue
			}
			asked++
			if r, err := s.Handle(t.Context(), bot.Request{Who: maker("g1", "c1", fmt.Sprint(m)), Text: "x"}); err == nil {
				t.Fatalf("second %d: %+v", second, r.Refusal)
			}
		}
	}
	if asked < 2000 {
		t.Errorf("only %d were asked", asked)
	}
}

// Many who ask once are all let through.
func TestManyMakers(t *testing.T) {
	s := openShop(t, func(o *bot.Options) { o.Book = nil })
	for i := range 50_000 {
		if r, err := s.Handle(t.Context(), bot.Request{Who: maker("g", fmt.Sprint("c", i), "m"), Text: "x"}); err == nil {
			t.Fatalf("request %d: %+v", i, r.Refusal)
		}
	}
}

// long is long work that goes on until it is let go or stopped.
func long(letGo <-chan struct{}, begun chan<- string) catalogue.Spec {
	return catalogue.Spec{Name: "long", Summary: "long", Long: true, Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
		c.Progress(10, 100, "nesting")
		begun <- c.Who.Maker
		select {
		case <-letGo:
			return &answer.Answer{Headline: "done"}, nil
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}}
}

func stop() catalogue.Spec {
	return catalogue.Spec{Name: "stop", Summary: "stop", Keeps: true, Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
		return &answer.Answer{Headline: fmt.Sprint(c.Stop())}, nil
	}}
}

func TestLongWork(t *testing.T) {
	letGo, begun := make(chan struct{}), make(chan string, 100)
	s := openShop(t, func(o *bot.Options) {
		o.Specs = append(o.Specs, long(letGo, begun), stop())
		o.AtOnce, o.PerGuild = 1, 1
	})
	type result struct {
		who catalogue.Who
		bot.Reply
		progress []string
	}
	results := make(chan result, 100)
	start := func(who catalogue.Who, message string) {
		go func() {
			var mu sync.Mutex
			res := result{who: who}
			r, err := s.Handle(t.Context(), bot.Request{Who: who, Message: message, Text: "long", Progress: func(done, total int, note string) {
				mu.Lock()
				defer mu.Unlock()
				res.progress = append(res.progress, note)
			}})
			assert.NoError(t, err)
			res.Reply = r
			results <- res
		}()
	}
	a, b := maker("g1", "c1", "anna"), maker("g2", "c2", "ben")
	start(a, "l1")
	start(b, "l2")
	<-begun
	<-begun // both guilds have one in hand
	// The chat goes on meanwhile, though there is one place for short requests.
	if r := ask(t, s, a, "m1", "cut 8x6"); r.Answer == nil {
		t.Fatalf("%+v", r.Refusal)
	}
	// A second one of the same guild waits, and says so.
	start(maker("g1", "c1", "carl"), "l3")
	select {
	case who := <-begun:
		t.Fatalf("%s's began too", who)
	case <-time.After(100 * time.Millisecond):
	}
	// Nobody else can stop it: not by name, channel, guild or platform.
	for _, other := range []catalogue.Who{
		maker("g1", "c1", "eve"), maker("g1", "c9", "anna"), maker("g9", "c1", "anna"), {Platform: "other", Guild: "g1", Channel: "c1", Maker: "anna"},
	} {
		assert.Zero(t, s.Stop(t.Context(), other, ""))
		assert.Zero(t, s.Stop(t.Context(), other, "l1"))
	}
	assert.Zero(t, s.Stop(t.Context(), a, "another message"))
	// The asker can, with a word in the room.
	if r := ask(t, s, a, "m2", "stop"); r.Answer == nil || r.Answer.Headline != "1" {
		t.Errorf("stop: %+v", r)
	}
	got := <-results
	if got.who != a || got.Refusal == nil || got.Refusal.Problem != "stopped" || got.Refusal.Try != "long" || len(got.progress) != 1 || got.progress[0] != "nesting" {
		t.Errorf("stopped: %+v", got)
	}
	if e, err := s.book.ByID(t.Context(), got.Entry); err != nil || e.Status != daybook.Refused {
		t.Errorf("recorded %+v, %v", e, err)
	}
	// Then it is the next one's turn. It is stopped by its message.
	assert.Equal(t, "carl", <-begun)
	assert.Equal(t, 1, s.Stop(t.Context(), maker("g1", "c1", "carl"), "l3"))
	if got := <-results; got.Refusal == nil || len(got.progress) != 2 || got.progress[0] != "waiting for its turn" {
		t.Errorf("waited: %+v", got)
	}
	assert.Zero(t, s.Stop(t.Context(), a, ""))
	close(letGo)
	if got := <-results; got.who != b || got.Answer == nil {
		t.Errorf("the other guild's: %+v", got)
	}
}

// Long work can be stopped as soon as it is known as such, also while it waits
// for its place.
func TestStopBeforeTheWorkBegins(t *testing.T) {
	begun := make(chan string, 2)
	letGo := make(chan struct{})
	s := openShop(t, func(o *bot.Options) {
		o.Specs = append(o.Specs, long(letGo, begun))
		o.LongAtOnce = 1
	})
	who := maker("g1", "c1", "anna")
	var wg sync.WaitGroup
	defer wg.Wait()
	defer close(letGo)
	wg.Go(func() { ask(t, s, maker("g2", "c2", "ben"), "m1", "long") })
	<-begun // the only place is taken
	got := make(chan bot.Reply, 1)
	wg.Go(func() { got <- ask(t, s, who, "l1", "Long") })
	require.Eventually(t, func() bool { return s.Stop(t.Context(), who, "") == 1 }, time.Minute, time.Millisecond)
	r := <-got
	require.NotNil(t, r.Refusal)
	assert.Equal(t, "stopped", r.Refusal.Problem)
	assert.Empty(t, begun, "it began, so the test tells nothing")
}

func TestLongWorkIsBounded(t *testing.T) {
	letGo, begun := make(chan struct{}), make(chan string, 100)
	s := openShop(t, func(o *bot.Options) { o.Specs = append(o.Specs, long(letGo, begun)) })
	var wg sync.WaitGroup
	var refused atomic.Int64
	for i := range 20 {
		wg.Go(func() {
			r := ask(t, s, maker("g1", "c1", fmt.Sprint(i)), fmt.Sprint("m", i), "long")
			if r.Refusal != nil {
				assert.True(t, strings.HasPrefix(r.Refusal.Problem, "one moment: "), "refused: %s", r.Refusal.Problem)
				if refused.Add(1) == 14 {
					close(letGo)
				}
			}
		})
	}
	wg.Wait()
	if refused.Load() != 14 || len(begun) != 6 {
		t.Errorf("%d refused, %d worked on", refused.Load(), len(begun))
	}
}

func TestLongWorkHasItsTime(t *testing.T) {
	s := openShop(t, func(o *bot.Options) {
		o.Specs = append(o.Specs, long(nil, make(chan string, 1)))
		o.LongTimeout = 50 * time.Millisecond
	})
	if r := ask(t, s, anna, "m1", "long"); r.Refusal == nil || !strings.HasPrefix(r.Refusal.Problem, "this took too long") {
		t.Errorf("%+v", r)
	}
}

func TestClose(t *testing.T) {
	letGo, begun := make(chan struct{}), make(chan string, 100)
	s := openShop(t, func(o *bot.Options) {
		brief := nap(100 * time.Millisecond)
		sleep := brief.Answer
		brief.Answer = func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			begun <- c.Who.Maker
			return sleep(ctx, c)
		}
		o.Specs = append(o.Specs, long(letGo, begun), brief)
	})
	short, endless := make(chan error, 1), make(chan error, 1)
	go func() {
		r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "short", Text: "nap"})
		if err == nil && r.Answer == nil {
			err = errors.New("no answer")
		}
		short <- err
	}()
	go func() {
		_, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "endless", Text: "long"})
		endless <- err
	}()
	<-begun
	<-begun // both are in hand
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Second)
	defer cancel()
	closed := make(chan error, 1)
	go func() { closed <- s.Close(ctx) }()
	assert.NoError(t, <-short)
	if err := <-endless; !errors.Is(err, bot.ErrClosing) {
		t.Errorf("what does not end: %v", err)
	}
	if err := <-closed; !errors.Is(err, bot.ErrClosing) || !strings.Contains(err.Error(), "1 requests") {
		t.Errorf("closed: %v", err)
	}
	// It left no trace, so that the platform may bring it again.
	if _, err := s.book.ByKey(t.Context(), daybook.Key{Platform: "test", Channel: "c1", Message: "endless"}); !errors.Is(err, daybook.ErrNotFound) {
		t.Errorf("recorded: %v", err)
	}
	r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "late", Text: "cut 8x6"})
	if !errors.Is(err, bot.ErrClosing) || r.Answer != nil {
		t.Errorf("after closing: %+v, %v", r, err)
	}
	// What was answered can still be marked.
	e, err := s.book.ByKey(t.Context(), daybook.Key{Platform: "test", Channel: "c1", Message: "short"})
	require.NoError(t, err)
	assert.NoError(t, s.Delivered(t.Context(), e.ID, "a1"))
	assert.NoError(t, s.Close(t.Context()))
	idle := openShop(t, nil)
	assert.NoError(t, idle.Close(t.Context()))
}
