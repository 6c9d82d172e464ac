package requests

import (
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/bot/template/scene"
	"guildhand/calc/setting"
	"guildhand/calc/tuning"
)

// tunePicture shows the next blank with the edge of the one before: the phone
// picture alone, since collet draws the blank to cut.
func tunePicture(c *catalogue.Call, a *answer.Answer, u colletUsed, res tuning.Result) {
	next, err := setting.Lay(tuned(u.Spec, res.NeutralFactor, res.KerfMM))
	if err != nil || res.Contradiction != "" {
		return
	}
	was := u.Flat
	d := template.Drawing{
		Name:  "tune-" + u.stone.fileName(),
		Title: fmt.Sprintf("Next collet blank for %s", u.stone.aWords(c)),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			fmt.Sprintf("rim %s, was %s along the edge", words.Length(c, next.Flat.RimLengthMM), words.Length(c, was.RimLengthMM)),
			fmt.Sprintf("base %s, was %s along the edge", words.Length(c, next.Flat.BaseLengthMM), words.Length(c, was.BaseLengthMM)),
		},
		Paths: []template.Path{
			template.FromCubics("rim", template.Cut, "new rim", next.Flat.Rim),
			template.FromCubics("base", template.Cut, "new base", next.Flat.Base),
			template.FromLine("seam-a", template.Seam, "seam", next.Flat.SeamA),
			template.FromLine("seam-b", template.Seam, "seam", next.Flat.SeamB),
		},
		Foot: words.Foot(c),
	}
	d.Dimensions = d.Overall(template.Below, words.Length(c, next.Flat.WidthMM), words.Length(c, next.Flat.HeightMM))
	// The old edge is laid on the new one at seam A, so that seam B shows the
	// whole difference.
	dx, dy := next.Flat.SeamA.A.X-was.SeamA.A.X, next.Flat.SeamA.A.Y-was.SeamA.A.Y
	corner := next.Flat.SeamB.A
	const half = 1.2
	window := scene.Rect{X0: corner.X - half, Y0: corner.Y - half, X1: corner.X + half, Y1: corner.Y + half}
	end := template.Drawing{Title: "Seam B at the rim, enlarged", Lines: []string{"the old edge is dashed, both laid together at seam A"}}
	near := func(p template.Path, role template.Role, label string) {
		p.Segs = p.Segs.Flatten(0.002).Clip(window)
		p.Role, p.Label, p.Measure, p.ID = role, label, "", p.ID+"-end"
		if len(p.Segs) > 0 {
			end.Paths = append(end.Paths, p)
		}
	}
	near(d.Paths[0], template.Edge, "new")
	near(d.Paths[3], template.Edge, "new")
	near(template.FromCubics("old-rim", template.Hidden, "", was.Rim).Placed(0, dx, dy), template.Hidden, "old")
	near(template.FromLine("old-seam-b", template.Hidden, "", was.SeamB).Placed(0, dx, dy), template.Hidden, "old")
	d.Details = []template.Drawing{end}
	d.Alt = inWords(d, "the end of the new blank is shown enlarged with the old edge dashed")
	a.Attachments = append(a.Attachments, d.Attachments(template.A4, func() template.Page { return template.Page{} })[0])
}
