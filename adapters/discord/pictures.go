package discord

import (
	"context"
	"crypto/sha256"
	"sync"

	"golang.org/x/sync/singleflight"

	"guildhand/bot/answer"
)

// pictures keeps the pictures drawn last. Drawing is most of the work of an
// answer, and a class asks for the same piece many times within a minute.
type pictures struct {
	flight singleflight.Group

	mu    sync.Mutex
	list  map[string][]byte
	order []string // oldest first
	bytes int
}

// keptPictures is how many bytes of pictures are kept, some 500 of them.
const keptPictures = 16 << 20

// draw gives the picture of an answer, drawn now or before. Answers that are
// alike in every figure and word have the same picture.
func (p *pictures) draw(ctx context.Context, a *answer.Answer, at answer.Attachment) ([]byte, error) {
	_, whole, err := a.Record()
	if err != nil {
		return render(ctx, at)
	}
	h := sha256.New()
	h.Write(whole)
	h.Write([]byte(at.Name))
	key := string(h.Sum(nil))
	p.mu.Lock()
	data := p.list[key]
	p.mu.Unlock()
	if data != nil {
		return data, nil
	}
	drawn, err, _ := p.flight.Do(key, func() (any, error) { return render(ctx, at) })
	if err != nil {
		// It may have been another asker's time that ran out.
		return render(ctx, at)
	}
	data = drawn.([]byte)
	p.keep(key, data)
	return data, nil
}

func (p *pictures) keep(key string, data []byte) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.list == nil {
		p.list = map[string][]byte{}
	}
	if p.list[key] != nil || len(data) > keptPictures {
		return
	}
	p.list[key] = data
	p.order = append(p.order, key)
	p.bytes += len(data)
	for p.bytes > keptPictures {
		oldest := p.order[0]
		p.order = p.order[1:]
		p.bytes -= len(p.list[oldest])
		delete(p.list, oldest)
	}
}
