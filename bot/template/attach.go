package template

import (
	"context"

	"guildhand/bot/answer"
	"guildhand/bot/template/scene"
)

// Attachments are d as files, in this order: the PNG to look at, the PDF to
// print on paper at 1:1, the SVG for a machine. Nothing is drawn until a file
// is asked for, but the PNG's size is known at once. d is the Scene of the PNG
// and must not be changed afterwards. Where d can't be drawn, Render says why.
func (d Drawing) Attachments(paper Paper) []answer.Attachment {
	alt := d.alt()
	png := answer.Attachment{Name: d.Name + ".png", Type: "image/png", Alt: alt, Scene: d}
	if p, err := layoutPNG(d); err != nil {
		png.Render = func(context.Context) ([]byte, error) { return nil, err }
	} else {
		png.WidthPx, png.HeightPx = pngWidth, p.heightPx()
		png.Render = unlessDone(p.encode)
	}
	return []answer.Attachment{
		png,
		{
			Name: d.Name + ".pdf", Type: "application/pdf",
			Alt:    "Full size on " + paper.String() + ", to print. " + alt,
			Render: unlessDone(func() ([]byte, error) { return PDF(d, paper) }),
		},
		{
			Name: d.Name + ".svg", Type: "image/svg+xml",
			Alt:    "Full size, one unit is one millimetre. " + alt,
			Render: unlessDone(func() ([]byte, error) { return SVG(d) }),
		},
	}
}

// alt is d in words, on one line.
func (d Drawing) alt() string {
	return scene.Plain(firstOf(d.Alt, d.Title))
}

// unlessDone spares the work where nobody waits for it any more.
func unlessDone(draw func() ([]byte, error)) func(context.Context) ([]byte, error) {
	return func(ctx context.Context) ([]byte, error) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		return draw()
	}
}
