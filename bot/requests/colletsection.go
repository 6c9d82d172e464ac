package requests

import (
	"fmt"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// colletSection is the wall cut across the stone's narrow way, filed level and
// with its bearing cut, and the stone in it. ok is false where such a section
// would not be true: the lean varies round the outline, the two sides differ, or
// the stone does not come to rest on its bearing.
func colletSection(c *catalogue.Call, u colletUsed) (d template.Drawing, ok bool) {
	s := u.Seat
	if u.Taper != setting.Even || s.Falls || s.Wedges || s.Unsupported || !alikeAcross(u.stone.shape.Kind) {
		return d, false
	}
	half, level := u.Solid.WidthMM/2, u.ThicknessMM/u.Lean.Cos()
	rim, base := u.RimMM, u.RimMM-u.HeightMM
	inner := func(z float64) float64 { return half + u.FaceMM(z) }
	wall := [][2]float64{{inner(base) + level, base}, {inner(rim) + level, rim}}
	bearing := "no bearing: the stone drops in"
	if u.LedgeMM > 0 {
		bearing = "bearing cut, ledge " + words.Length(c, u.LedgeMM)
		top := u.Wall().BearingTopMM()
		if top < rim {
			wall = append(wall, [2]float64{inner(rim), rim})
		}
		wall = append(wall, [2]float64{half + u.ClearanceMM, top}, [2]float64{half + u.ClearanceMM, 0},
			[2]float64{half, 0}, [2]float64{inner(-s.FloorMM), -s.FloorMM})
	} else {
		wall = append(wall, [2]float64{inner(rim), rim})
	}
	wall = append(wall, [2]float64{inner(base), base})
	right := template.Polyline("wall-right", template.Edge, "", true, wall...)
	left := template.Polyline("wall-left", template.Edge, "", true, mirrored(wall)...)

	g, culet, table := s.RestMM+u.Solid.GirdleMM, s.RestMM-u.Solid.PavilionMM, s.RestMM+u.Solid.TableMM()
	side := [][2]float64{{0, culet}, {half, s.RestMM}, {half, g}, {half - u.Solid.CrownRunMM(), table}}
	stone := template.Polyline("stone-section", template.Stone, "stone", true, append(append([][2]float64{}, side...), mirrored(side[1:])...)...)
	low, high := min(base, culet)-0.4, max(rim, table)+0.4
	d = template.Drawing{
		Title: "Section across the narrow way",
		Lines: []string{
			fmt.Sprintf("filed level, %s; lean %.4g°, wall %s", bearing, u.Lean.Degrees(), words.Length(c, u.ThicknessMM)),
			culetWords(c, -s.ProudMM),
		},
		Paths:    []template.Path{left, right, stone, template.Polyline("axis", template.Centre, "", false, [2]float64{0, low}, [2]float64{0, high})},
		CutFaces: []template.Path{left, right},
		Dimensions: []template.Dimension{
			{A: wall[0], B: wall[1], Side: template.Right, Text: "height " + words.Length(c, u.HeightMM)},
			{A: [2]float64{-half, g}, B: [2]float64{-inner(rim) - level, rim}, Side: template.Left, Name: "above the girdle", Text: "rim " + words.Length(c, s.AboveGirdleMM)},
			{A: [2]float64{-wall[0][0], base}, B: wall[0], Side: template.Below, Name: "base", Text: words.Length(c, 2*wall[0][0]) + " outside"},
		},
	}
	return d, true
}

// culetWords says how far the culet is inside the base.
func culetWords(c *catalogue.Call, roomMM float64) string {
	if roomMM < 0 {
		return "the culet stands " + words.Length(c, -roomMM) + " below the base"
	}
	return "the culet is " + words.Length(c, roomMM) + " above the base"
}

// alikeAcross reports whether both sides of a stone are alike where it is cut
// across its narrow way through the culet.
func alikeAcross(k outline.Kind) bool {
	switch k {
	case outline.Heart, outline.Trillion, outline.HalfMoon, outline.TaperedBaguette, outline.Measured:
		return false
	}
	return true
}
