package bot

import (
	"bytes"
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// A recorded answer's files are drawn with the number of its entry.
func TestFilesCarryTheirEntry(t *testing.T) {
	var got int64
	a := &answer.Answer{Attachments: []answer.Attachment{{Name: "a.png", Render: func(ctx context.Context) ([]byte, error) {
		got = answer.EntryOf(ctx)
		return nil, nil
	}}, {Name: "none"}}}
	numbered(a, 42)
	_, err := a.Attachments[0].Render(t.Context())
	require.NoError(t, err)
	assert.Equal(t, int64(42), got)
	numbered(nil, 1) // a refusal has no files
}

func TestPicturesAreDrawnOnce(t *testing.T) {
	d := newDrawing()
	var drawn atomic.Int32
	piece := func(line string, mm float64, render func(context.Context) ([]byte, error)) answer.Attachment {
		a := &answer.Answer{
			Request: "plate", Line: line, Figures: []answer.Figure{{ID: "length", Value: mm, Unit: answer.MM}},
			Attachments: []answer.Attachment{{Name: "plate.png", Type: answer.PNG, Render: render}},
		}
		d.bound(a, catalogue.Who{Guild: "g"})
		return a.Attachments[0]
	}
	draw := func(line string, mm float64, size int) {
		t.Helper()
		data, err := piece(line, mm, func(context.Context) ([]byte, error) {
			drawn.Add(1)
			time.Sleep(20 * time.Millisecond)
			return bytes.Repeat([]byte(line), size), nil
		}).Render(t.Context())
		require.NoError(t, err)
		assert.Len(t, data, len(line)*size)
	}
	var wg sync.WaitGroup
	for range 20 { // at the same time, and after
		wg.Go(func() { draw("plate 8x6", 8, 10) })
	}
	wg.Wait()
	draw("plate 8x6", 8, 10)
	assert.EqualValues(t, 1, drawn.Load())
	// The same line with another figure, as after a correction, is another.
	draw("plate 8x6", 8.0001, 10)
	assert.EqualValues(t, 2, drawn.Load())
	// What is kept is bounded, and the oldest goes.
	for range 3 {
		draw("x", float64(drawn.Load()), keptPictures/2)
	}
	assert.LessOrEqual(t, d.bytes, keptPictures)
	assert.Len(t, d.kept, len(d.order))
	before := drawn.Load()
	draw("plate 8x6", 8, 10)
	assert.Equal(t, before+1, drawn.Load(), "the oldest is still kept")
	// A failure is not kept.
	_, err := piece("fails", 1, func(context.Context) ([]byte, error) { return nil, errors.New("no pen") }).Render(t.Context())
	require.Error(t, err)
	draw("fails", 1, 1)
}

func TestPanicWhileDrawingIsAnError(t *testing.T) {
	a := &answer.Answer{Attachments: []answer.Attachment{
		{Name: "a.pdf", Type: answer.PDF, Render: func(context.Context) ([]byte, error) { panic("no ink") }},
		{Name: "of an entry that can't be drawn.svg", Type: answer.SVG},
	}}
	newDrawing().bound(a, catalogue.Who{})
	_, err := a.Attachments[0].Render(t.Context())
	require.ErrorContains(t, err, "no ink")
	assert.Nil(t, a.Attachments[1].Render)
}
