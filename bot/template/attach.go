package template

import (
	"context"

	"guildhand/bot/answer"
	"guildhand/bot/template/scene"
)

// Attachments are d as files, in this order: the PNG to look at, the PDF to
// print on paper at 1:1, the SVG for a machine. Nothing is drawn until a file
// is asked for. d is the Scene of the PNG
// and must not be changed afterwards. Where d can't be drawn, Render says why.
// The PDF is a bench sheet with what page adds to the drawing: its words, and
// lines to write on. It is asked for when the file is.
func (d Drawing) Attachments(paper Paper, page func() Page) []answer.Attachment {
	alt := d.alt()
	return []answer.Attachment{
		{
			Name: d.Name + ".png", Type: "image/png", Alt: alt, Scene: d,
			Render: unlessDone(func(ctx context.Context) ([]byte, error) { return PNG(d, answer.EntryOf(ctx)) }),
		},
		{
			Name: d.Name + ".pdf", Type: "application/pdf",
			Alt: "Full size on " + paper.String() + ", to print. " + alt,
			Render: unlessDone(func(ctx context.Context) ([]byte, error) {
				sheet := page()
				sheet.Drawing = &d
				foot := d.Foot
				if entry := answer.EntryOf(ctx); entry > 0 {
					foot += " " + entryWords(entry) + "."
				}
				return PDFPages([]Page{sheet}, paper, foot)
			}),
		},
		{
			Name: d.Name + ".svg", Type: "image/svg+xml",
			Alt:    "Full size, one unit is one millimetre. " + alt,
			Render: unlessDone(func(context.Context) ([]byte, error) { return SVG(d) }),
		},
	}
}

// alt is d in words, on one line.
func (d Drawing) alt() string {
	return scene.Plain(firstOf(d.Alt, d.Title))
}

// unlessDone spares the work where nobody waits for it any more.
func unlessDone(draw func(context.Context) ([]byte, error)) func(context.Context) ([]byte, error) {
	return func(ctx context.Context) ([]byte, error) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		return draw(ctx)
	}
}
