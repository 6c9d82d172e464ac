package bot

import (
	"fmt"
	"math"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// Limits say how much may be asked. Who asks more is told to wait, and nothing
// is recorded: a flood must not fill the disk. Each process counts for itself.
type Limits struct {
	// Maker is for one maker in one channel, so that whoever floods it leaves
	// the channel's share to the others.
	Maker Limit
	// Channel is for all makers of a channel.
	Channel Limit
}

// Limit is how many requests may come at once, and how many a minute after
// that. The zero value is no limit.
type Limit struct{ AtOnce, PerMinute int }

// limiter counts requests by maker and channel.
type limiter struct{ makers, channel buckets }

func newLimiter(l Limits) *limiter {
	return &limiter{makers: buckets{limit: l.Maker}, channel: buckets{limit: l.Channel}}
}

// overLimit is who asks too much, and how long to wait.
type overLimit struct {
	why  string
	wait time.Duration
	// first tells that the request before it was let through.
	first bool
}

// check takes a request off what may still be asked; a wait of 0 lets it through.
func (l *limiter) check(who catalogue.Who, now time.Time) overLimit {
	channel := who.Platform + "\x00" + who.Channel
	if wait, first := l.makers.take(channel+"\x00"+who.Maker, now); wait > 0 {
		return overLimit{fmt.Sprintf("you have asked more than %d times in a short while", l.makers.limit.AtOnce), wait, first}
	}
	wait, first := l.channel.take(channel, now)
	return overLimit{fmt.Sprintf("this channel has asked more than %d times in a short while", l.channel.limit.AtOnce), wait, first}
}

// refusal tells whoever asks too much when to ask again, or, where the question
// is queued, that it is answered in its turn.
func (o overLimit) refusal(queued bool) *answer.Refusal {
	if queued {
		return answer.Refuse("", "one moment: %s; your questions wait and are answered in turn", o.why)
	}
	return answer.Refuse("", "one moment: %s; ask again in %d s", o.why, int(math.Ceil(o.wait.Seconds())))
}

// mostBuckets bounds the memory for those who asked lately: a few MB.
const mostBuckets = 20_000

// buckets holds a token bucket for each name. The zero value but for the limit
// is ready.
type buckets struct {
	limit Limit

	mu     sync.Mutex
	byName map[string]*bucket
}

type bucket struct {
	*rate.Limiter
	refused bool
}

// take takes one token from the name's bucket, or returns how long to wait for one.
func (b *buckets) take(name string, now time.Time) (wait time.Duration, first bool) {
	if b.limit == (Limit{}) {
		return 0, false
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	found := b.byName[name]
	if found == nil {
		b.makeRoom(now)
		found = &bucket{Limiter: rate.NewLimiter(rate.Limit(float64(b.limit.PerMinute)/60), b.limit.AtOnce)}
		b.byName[name] = found
	}
	r := found.ReserveN(now, 1)
	if !r.OK() {
		return time.Minute, false // a limit of none at all
	}
	if wait = r.DelayFrom(now); wait <= 0 {
		found.refused = false
		return 0, false
	}
	r.CancelAt(now)
	first, found.refused = !found.refused, true
	return wait, first
}

// makeRoom forgets full buckets, which are as good as new ones. If that is not
// enough, it forgets all: letting someone through is better than running out of
// memory.
func (b *buckets) makeRoom(now time.Time) {
	if b.byName == nil {
		b.byName = map[string]*bucket{}
	}
	if len(b.byName) < mostBuckets {
		return
	}
	for name, old := range b.byName {
		if old.TokensAt(now) >= float64(b.limit.AtOnce) {
			delete(b.byName, name)
		}
	}
	if len(b.byName) > mostBuckets/2 {
		clear(b.byName)
	}
}
