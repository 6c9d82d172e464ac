package requests

import (
	"fmt"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
)

// colletDrawing is the blank to cut, at 1:1.
func colletDrawing(c *catalogue.Call, u colletUsed) template.Drawing {
	d := template.Drawing{
		Name:  "collet-" + u.stone.fileName(),
		Title: fmt.Sprintf("Collet blank for %s", u.stone.aWords(c)),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			fmt.Sprintf("blank %s, slant %s, seam %s", words.Size(c, u.flat.WidthMM, u.flat.HeightMM), words.Length(c, u.SlantMM), seamWords(u)),
		},
		Alt:   altText(u),
		Paths: blankPaths(u),
	}
	return d
}

// blankPaths are the lines of a collet's blank.
func blankPaths(u colletUsed) []template.Path {
	f := u.flat
	paths := []template.Path{
		template.FromCubics("rim", template.Cut, "rim", f.Rim),
		template.FromCubics("base", template.Cut, "base", f.Base),
		template.FromLine("seam-a", template.Seam, "seam A", f.SeamA),
		template.FromLine("seam-b", template.Seam, "seam B", f.SeamB),
	}
	for i, l := range f.Folds {
		paths = append(paths, template.FromLine(fmt.Sprintf("fold-%d", i+1), template.Fold, "", l))
	}
	names := []string{"girdle", "bearing"}
	roles := []template.Role{template.Girdle, template.Bearing}
	depths := []float64{u.RimMM, u.RimMM + u.BearingMM}
	for i, level := range f.Levels {
		if depths[i] <= 0 || depths[i] >= u.HeightMM {
			continue // it would lie on the rim or off the wall
		}
		paths = append(paths, template.FromCubics(names[i], roles[i], names[i], level))
	}
	for i, m := range f.Marks {
		paths = append(paths, template.FromLine(fmt.Sprintf("mark-%d", i+1), template.Mark, "", m))
	}
	return paths
}
