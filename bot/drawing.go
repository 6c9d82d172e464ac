package bot

import (
	"context"
	"crypto/sha256"
	"fmt"
	"runtime"
	"sync"

	"golang.org/x/sync/singleflight"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/fairness"
)

// drawing bounds how many attachments are drawn at once, shared fairly between
// guilds, so that a burst costs time and not memory. It keeps the last pictures:
// drawing is most of the work of an answer, and a picture is asked for again with
// another button or after a failed send.
type drawing struct {
	places *fairness.Places
	flight singleflight.Group

	mu    sync.Mutex
	kept  map[string][]byte
	order []string // oldest first
	bytes int
}

// keptPictures is how many bytes of pictures are kept, some 500 of them.
const keptPictures = 16 << 20

func newDrawing() *drawing {
	n := runtime.GOMAXPROCS(0)
	return &drawing{places: fairness.New(2*n, n), kept: map[string][]byte{}}
}

// bound makes an answer's attachments draw within the bounds of its guild. A
// panic while drawing is an error, and not the end of the answer.
func (d *drawing) bound(a *answer.Answer, who catalogue.Who) {
	for i := range a.Attachments {
		at := a.Attachments[i]
		if at.Render == nil {
			continue
		}
		bounded := func(ctx context.Context) (data []byte, err error) {
			release, err := d.places.Acquire(ctx, guildOf(who))
			if err != nil {
				return nil, err
			}
			defer release()
			defer func() {
				if p := recover(); p != nil {
					err = panicked(p)
				}
			}()
			return at.Render(ctx)
		}
		a.Attachments[i].Render = bounded
		if at.Type == answer.PNG {
			a.Attachments[i].Render = func(ctx context.Context) ([]byte, error) { return d.picture(ctx, a, at.Name, bounded) }
		}
	}
}

// numbered has an answer's files carry the number of its entry.
func numbered(a *answer.Answer, entry int64) {
	if a == nil {
		return
	}
	for i := range a.Attachments {
		if render := a.Attachments[i].Render; render != nil {
			a.Attachments[i].Render = func(ctx context.Context) ([]byte, error) { return render(answer.WithEntry(ctx, entry)) }
		}
	}
}

// picture draws a picture, unless it was drawn lately. The key is
// every figure and word of the answer, with the entry's number.
func (d *drawing) picture(ctx context.Context, a *answer.Answer, name string, draw func(context.Context) ([]byte, error)) ([]byte, error) {
	_, whole, err := a.Record()
	if err != nil {
		return draw(ctx)
	}
	key := fmt.Sprintf("%x", sha256.Sum256(fmt.Appendf(whole, "%s %d", name, answer.EntryOf(ctx))))
	d.mu.Lock()
	data := d.kept[key]
	d.mu.Unlock()
	if data != nil {
		return data, nil
	}
	drawn, err, _ := d.flight.Do(key, func() (any, error) { return draw(ctx) })
	if err != nil {
		return draw(ctx) // it may have been another asker's time that ran out
	}
	data = drawn.([]byte)
	d.keep(key, data)
	return data, nil
}

func (d *drawing) keep(key string, data []byte) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.kept[key] != nil || len(data) > keptPictures {
		return
	}
	d.kept[key] = data
	d.order = append(d.order, key)
	d.bytes += len(data)
	for d.bytes > keptPictures {
		oldest := d.order[0]
		d.order = d.order[1:]
		d.bytes -= len(d.kept[oldest])
		delete(d.kept, oldest)
	}
}
