package discord

import (
	"bytes"
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot/answer"
)

func TestPicturesAreDrawnOnce(t *testing.T) {
	var p pictures
	var drawn atomic.Int32
	piece := func(line string, mm float64, size int) (*answer.Answer, answer.Attachment) {
		return &answer.Answer{Request: "plate", Line: line, Figures: []answer.Figure{{ID: "length", Value: mm, Unit: answer.MM}}},
			answer.Attachment{Name: "plate.png", Type: typePNG, Render: func(context.Context) ([]byte, error) {
				drawn.Add(1)
				time.Sleep(20 * time.Millisecond)
				return bytes.Repeat([]byte(line), size), nil
			}}
	}
	draw := func(line string, mm float64, size int) {
		t.Helper()
		a, at := piece(line, mm, size)
		data, err := p.draw(t.Context(), a, at)
		if err != nil || len(data) != len(line)*size {
			t.Errorf("%d bytes, %v", len(data), err)
		}
	}
	var wg sync.WaitGroup
	for range 20 { // at the same time, and after
		wg.Go(func() { draw("plate 8x6", 8, 10) })
	}
	wg.Wait()
	draw("plate 8x6", 8, 10)
	if n := drawn.Load(); n != 1 {
		t.Errorf("drawn %d times, want once", n)
	}
	// The same line with another figure, as after a correction, is another.
	draw("plate 8x6", 8.0001, 10)
	if n := drawn.Load(); n != 2 {
		t.Errorf("drawn %d times, want twice", n)
	}
	// What is kept is bounded, and the oldest goes.
	for range 3 {
		draw("x", float64(drawn.Load()), keptPictures/2)
	}
	if p.bytes > keptPictures || len(p.list) != len(p.order) {
		t.Errorf("%d bytes, %d pictures, %d in order", p.bytes, len(p.list), len(p.order))
	}
	before := drawn.Load()
	draw("plate 8x6", 8, 10)
	if drawn.Load() != before+1 {
		t.Error("the oldest is still kept")
	}
	// A failure is not kept.
	a, at := piece("fails", 1, 1)
	at.Render = func(context.Context) ([]byte, error) { return nil, errors.New("no pen") }
	if _, err := p.draw(t.Context(), a, at); err == nil {
		t.Error("a failure is lost")
	}
	draw("fails", 1, 1)
}
