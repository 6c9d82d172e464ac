package template

import (
	"fmt"

	"guildhand/bot/template/scene"
	"guildhand/calc/tracing"
)

// tracingCardUse says on the page how the card is used.
var tracingCardUse = []string{
	"Print at 100 %, then measure the bars at the foot of this page, and the 50 mm bar on the card. If they are off, the traced outline is off too.",
	"Cut the card out along the crop marks; it fits a wallet. Keep it flat and clean.",
	"Lay the stone in the middle of the black zone, a cabochon on its back, a faceted stone on its table. A black or deeply coloured stone goes on the white zone.",
	"Hold the phone flat, straight above the stone, 20 to 30 cm away, with the whole card in the picture. Light from a window is best: no flash, no glare on the stone's edge, no fingers on the card.",
	"Send the original photograph to guildhand with the word trace, and check the outline that it draws before you cut anything.",
}

// TracingCard is the page with the tracing card at exactly 1:1, as a PDF.
func TracingCard(paper Paper) ([]byte, error) {
	sheet := tracingSheet(paper)
	return scene.PDF([]*scene.Scene{sheet}, "Tracing card", "The tracing card, 85.6 x 54 mm, full size, with a black zone and a white zone for a stone.")
}

func tracingSheet(paper Paper) *scene.Scene {
	c := &composer{paper: paper}
	c.turn(false)
	c.heading("Tracing card")
	c.flow(scene.Lettering{Em: paperTextEm}, tracingCardUse[0], "", 0)
	s := c.now()
	centre := scene.Point{X: s.to.Box.X1 / 2, Y: c.y - 8 - tracing.CardHeightMM/2}
	s.tracingCard(centre)
	c.y = centre.Y - tracing.CardHeightMM/2 - 8
	for i, line := range tracingCardUse[1:] {
		c.flow(scene.Lettering{Em: paperTextEm}, line, fmt.Sprintf("%d. ", i+1), 6)
	}
	s.footer("", paper.checkBar())
	return s.to
}

// tracingCard draws the card round its centre. The card's places run down, the
// sheet's up.
func (s *sheet) tracingCard(centre scene.Point) {
	fill := func(r tracing.Rect, ink scene.Grey) {
		s.to.Fill(scene.Rect{X0: centre.X + r.Left, Y0: centre.Y - r.Bottom, X1: centre.X + r.Right, Y1: centre.Y - r.Top}.Path(), ink, scene.Tag{})
	}
	for _, m := range tracing.Marks {
		for i, module := range []float64{7, 5, 3} {
			h := module / 7 * tracing.MarkMM / 2
			ink := scene.Black
			if i == 1 {
				ink = scene.White
			}
			fill(tracing.Rect{Left: m.X - h, Top: m.Y - h, Right: m.X + h, Bottom: m.Y + h}, ink)
		}
	}
	for _, r := range tracing.Checks() {
		fill(r, scene.Black)
	}
	fill(tracing.Zones[tracing.Black], scene.Black)
	fill(tracing.Bar, scene.Black)
	words := scene.Lettering{Em: 1.9}
	s.to.Write(scene.Text{At: scene.Point{X: centre.X + tracing.Bar.Right + 1, Y: centre.Y - tracing.Bar.Bottom + 0.1}, Line: "50 mm", Lettering: words})
	// Crop marks lie outside the card, so that nothing dark is near its marks.
	w, h := tracing.CardWidthMM/2, tracing.CardHeightMM/2
	for _, x := range []float64{-1, 1} {
		for _, y := range []float64{-1, 1} {
			at := scene.Point{X: centre.X + x*w, Y: centre.Y + y*h}
			line := scene.Line{Width: 0.15, Ink: scene.Black}
			s.to.Stroke(scene.Polyline(scene.Point{X: at.X + x*1.5, Y: at.Y}, scene.Point{X: at.X + x*5, Y: at.Y}), line, scene.Tag{})
			s.to.Stroke(scene.Polyline(scene.Point{X: at.X, Y: at.Y + y*1.5}, scene.Point{X: at.X, Y: at.Y + y*5}), line, scene.Tag{})
		}
	}
}
