package requests

import (
	"fmt"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// colletSections are the wall cut upright through the culet, filed level and with
// its bearing cut, and the stone in it: across the narrow way, and lengthwise
// where a point lies there. There is none where the stone does not come to rest.
func colletSections(c *catalogue.Call, u colletUsed) []template.Drawing {
	s := u.Seat
	if s.Falls || s.Wedges || u.Solid.PavilionMM <= 0 {
		return nil
	}
	across, err := finished.Across(u.Collet, false)
	if err != nil {
		return nil
	}
	bearing := "no bearing: the stone drops in"
	switch {
	case u.LedgeMM > 0:
		bearing = "bearing cut, ledge " + words.Length(c, u.LedgeMM)
	case u.soldered.rests():
		bearing = "no ledge: the stone rests on the " + u.soldered.word()
	}
	lean := fmt.Sprintf("lean %.4g°", u.MeanLean.Degrees())
	if u.Taper != setting.Even {
		lean = fmt.Sprintf("mean lean %.1f°", u.MeanLean.Degrees())
	}
	d := sectionDrawing("Section across", u, across)
	d.Lines = []string{
		fmt.Sprintf("filed level, %s; %s, wall %s", bearing, lean, words.Length(c, u.ThicknessMM)),
		culetWords(c, -s.ProudMM),
	}
	if in := u.soldered.inSection(u, across); len(in) > 0 {
		d.Paths, d.CutFaces = append(d.Paths, in...), append(d.CutFaces, in...)
		d.Lines = append(d.Lines, u.soldered.onPicture(c))
	}
	left, right := across.Left, across.Right
	d.Dimensions = []template.Dimension{
		{A: right[0], B: right[1], Side: template.Right, Text: "height " + words.Length(c, u.HeightMM)},
		{A: left[0], B: right[0], Side: template.Below, Name: "base", Text: words.Length(c, right[0][0]-left[0][0]) + " outside"},
	}
	if s.AboveGirdleMM > 0 {
		girdle := [2]float64{-leftmost(across.Stone), s.RestMM + u.Solid.GirdleMM}
		d.Dimensions = append(d.Dimensions, template.Dimension{A: girdle, B: left[1], Side: template.Left, Name: "above the girdle", Text: "rim " + words.Length(c, s.AboveGirdleMM)})
	}
	list := []template.Drawing{d}
	if pointedLengthwise(u.stone.shape.Kind) {
		if along, err := finished.Across(u.Collet, true); err == nil {
			d := sectionDrawing("Section lengthwise", u, along)
			d.Dimensions = []template.Dimension{
				{A: along.Left[0], B: along.Right[0], Side: template.Below, Name: "base", Text: words.Length(c, along.Right[0][0]-along.Left[0][0]) + " outside"},
			}
			list = append(list, d)
		}
	}
	return list
}

// sectionDrawing draws a section: the wall hatched, the stone, the axis.
func sectionDrawing(title string, u colletUsed, s finished.Section) template.Drawing {
	left := template.Polyline("wall-left", template.Edge, "", true, s.Left...)
	right := template.Polyline("wall-right", template.Edge, "", true, s.Right...)
	low := min(u.RimMM-u.HeightMM, u.Seat.RestMM-u.Solid.PavilionMM) - 0.4
	high := max(u.RimMM, u.Seat.RestMM+u.Solid.TableMM()) + 0.4
	return template.Drawing{
		Title: title,
		Paths: []template.Path{left, right,
			template.Polyline("stone-section", template.Stone, "stone", true, s.Stone...),
			template.Polyline("axis", template.Centre, "", false, [2]float64{0, low}, [2]float64{0, high})},
		CutFaces: []template.Path{left, right},
	}
}

// leftmost is how far a section's stone reaches to its left, where the rim is
// measured.
func leftmost(stone [][2]float64) float64 {
	reach := 0.0
	for _, p := range stone {
		reach = max(reach, -p[0])
	}
	return reach
}

// culetWords says how far the culet is inside the base.
func culetWords(c *catalogue.Call, roomMM float64) string {
	if roomMM < 0 {
		return "the culet stands " + words.Length(c, -roomMM) + " below the base"
	}
	return "the culet is " + words.Length(c, roomMM) + " above the base"
}

// pointedLengthwise reports whether a stone has a point at an end, which only a
// section along its length shows.
func pointedLengthwise(k outline.Kind) bool {
	switch k {
	case outline.Pear, outline.Marquise, outline.Heart, outline.Kite, outline.Lozenge:
		return true
	}
	return false
}
