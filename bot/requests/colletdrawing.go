package requests

import (
	"fmt"
	"math"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/development"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
)

// colletDrawing is the blank to cut, at 1:1.
func colletDrawing(c *catalogue.Call, u colletUsed) template.Drawing {
	d := template.Drawing{
		Name:  "collet-" + u.stone.fileName(),
		Title: fmt.Sprintf("Collet blank for %s", u.stone.aWords(c)),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			"seam " + seamWords(u),
		},
		Paths: blankPaths(u),
	}
	below := func(mm float64) string { return words.Length(c, mm) + " below the rim" }
	measured(d.Paths, "rim", words.Length(c, u.flat.RimLengthMM)+" along the edge")
	measured(d.Paths, "base", words.Length(c, u.flat.BaseLengthMM)+" along the edge")
	measured(d.Paths, "girdle", below(u.GirdleLineMM()))
	measured(d.Paths, "bearing", below(u.BearingLineMM()))
	if !u.preCone {
		nameMarks(d.Paths, quarterNames(u.stone.curve, u.Seam))
		if u.Flat.Bevel > 0 {
			measured(d.Paths, "seam-a", fmt.Sprintf("bevel %.1f°, %s edge away", u.bevelAcross().Degrees(), bevelSide(u.Flat)))
		}
	}
	d.Dimensions = append(d.Overall(template.Below, words.Length(c, u.flat.WidthMM), words.Length(c, u.flat.HeightMM)),
		template.Dimension{A: [2]float64{u.flat.SeamA.B.X, u.flat.SeamA.B.Y}, B: [2]float64{u.flat.SeamA.A.X, u.flat.SeamA.A.Y},
			Text: "slant " + words.Length(c, u.SlantMM)})
	if mm := u.flat.SeamA.LengthMM(); words.MM(mm) != words.MM(u.SlantMM) { // the wall does not lean there as it does elsewhere
		d.Dimensions[len(d.Dimensions)-1].Text = "seam " + words.Length(c, mm)
		line := "mean slant " + words.Length(c, u.SlantMM)
		if u.KerfMM != 0 {
			line = fmt.Sprintf("slant %s, and %s more each way for saw and file", words.Length(c, u.SlantMM), words.Length(c, u.KerfMM))
		}
		d.Lines = append(d.Lines, line)
	}
	d.Details = colletSections(c, u)
	if bodies, err := finished.Collet(u.Collet); err == nil {
		if ring, ok := u.soldered.ring(u); ok {
			bodies = append(bodies, ring)
		}
		d.Details = append(d.Details, finishedView(bodies, seamFaces(u.Stone, u.Collet.Seam)))
	}
	d.Alt = colletInWords(d, u)
	return d
}

// seamFaces is how a finished piece is turned so that its seam faces the eye.
func seamFaces(stone outline.Curve, seam outline.Place) int {
	if mm, ok := stone.LengthTo(seam); ok {
		at, _ := stone.AtLength(mm)
		return axonometric.QuartersTo(at.X, at.Y)
	}
	return 0
}

// colletInWords describes the blank for those who do not see the picture.
func colletInWords(d template.Drawing, u colletUsed, more ...string) string {
	return inWords(d, append([]string{foldWords(len(u.flat.Folds))}, more...)...)
}

// foldName is what is done at a fold line.
func foldName(u colletUsed) string {
	if u.Corners == development.Scored {
		return "score and fold"
	}
	return "bend"
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
		paths = append(paths, template.FromLine(fmt.Sprintf("fold-%d", i+1), template.Fold, foldName(u), l))
	}
	for i, l := range trimmedFolds(u) {
		paths = append(paths, template.FromLine(fmt.Sprintf("end-fold-%d", i+1), template.Fold, "bend", l))
	}
	names := []string{"girdle", "bearing"}
	roles := []template.Role{template.Girdle, template.Bearing}
	depths := []float64{u.GirdleLineMM(), u.BearingLineMM()}
	for i, level := range f.Levels {
		if depths[i] <= 0 || depths[i] >= u.SlantMM || i == 1 && u.Seat.FloorMM == 0 {
			continue // it would lie on the rim or off the wall, or there is no bearing
		}
		paths = append(paths, template.FromCubics(names[i], roles[i], names[i], level))
	}
	for i, m := range f.Marks {
		paths = append(paths, template.FromLine(fmt.Sprintf("mark-%d", i+1), template.Mark, "", m))
	}
	return paths
}

// trimmedFolds are the lines along which a wall is creased whose base comes to
// corners that its rim does not have: the middle ruling of each cone that runs
// into such a corner.
func trimmedFolds(u colletUsed) []development.Line {
	if u.preCone || !u.BaseTrimmed() {
		return nil
	}
	var folds []development.Line
	rulings := u.flat.Rulings
	for i := 0; i < len(rulings); {
		j := i
		for j+1 < len(rulings) && sameBase(rulings[i], rulings[j+1]) {
			j++
		}
		if rulings[j].Normal-rulings[i].Normal > 0.02 {
			middle := rulings[(i+j)/2]
			folds = append(folds, development.Line{A: middle.FlatRim, B: middle.FlatBase})
		}
		i = j + 1
	}
	return folds
}

func sameBase(a, b development.Ruling) bool {
	return math.Hypot(a.FlatBase.X-b.FlatBase.X, a.FlatBase.Y-b.FlatBase.Y) < 1e-7
}
