package requests

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/bezel"
	"guildhand/calc/forming"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

// about rounds an order of magnitude to two figures and says so; under least
// no gauge tells one value from another.
func about(value, least float64, unit string) string {
	if value < least {
		return fmt.Sprintf("under %g %s", least, unit)
	}
	step := math.Pow(10, math.Floor(math.Log10(value))-1)
	return fmt.Sprintf("about %g %s", math.Round(math.Round(value/step)*step*1e6)/1e6, unit)
}

// holeSize is a size of an outline, as one number where both are the same.
func holeSize(c *catalogue.Call, s outline.Size) string {
	if math.Abs(s.LengthMM-s.WidthMM) < 0.005 {
		return words.Length(c, s.WidthMM)
	}
	return words.Size(c, s.LengthMM, s.WidthMM)
}

// loadWords is a press load as an order of magnitude, with the gauge's
// pressure where the press is known.
func loadWords(u collarUsed, n float64) string {
	s := about(n/1000, 0.1, "kN")
	if u.press.RamAreaMM2 > 0 {
		s += ", " + about(forming.GaugeBar(u.press, n), 1, "bar")
	}
	return s
}

func plural(n int, one string) string {
	switch n {
	case 0:
		return "no " + one
	case 1:
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func (u collarUsed) passes() int {
	n := 0
	for _, p := range u.plan.Passes {
		if !p.Sizing {
			n++
		}
	}
	return n
}

func collarHeadline(c *catalogue.Call, u collarUsed) string {
	if u.tube.Name != "" {
		return fmt.Sprintf("Cut %s of %s (%s %s) for %s.",
			words.Length(c, u.stripHeightMM), u.tube.Name, u.alloy.Name, words.Size(c, u.tube.OuterMM, u.tube.WallMM), u.stone.aWords(c))
	}
	return fmt.Sprintf("Cut a strip %s of %s for %s.", words.Size(c, u.stripMM, u.stripHeightMM), words.Metal(c, u.alloy), u.stone.aWords(c))
}

func collarFigures(c *catalogue.Call, u collarUsed) []answer.Figure {
	var figures []answer.Figure
	add := func(f answer.Figure) { figures = append(figures, f) }
	if u.tube.Name != "" {
		add(answer.Figure{ID: "tube_length", Label: "tube, to cut", Value: u.stripHeightMM, Unit: answer.MM})
		add(answer.Figure{ID: "tube_stretch", Label: "perimeter, to change", Value: 100 * u.fit.Stretch, Unit: answer.Percent, Text: stretchWords(u.fit.Stretch), Main: true})
	} else {
		add(answer.Figure{ID: "strip_length", Label: fmt.Sprintf("strip, length with %s to file", words.Length(c, u.filing)), Value: u.stripMM, Unit: answer.MM})
		add(answer.Figure{ID: "strip_height", Label: "strip, height before forming", Value: u.stripHeightMM, Unit: answer.MM})
	}
	last, size := "last hole of "+u.block.Name, u.plan.Last.Size
	if !u.named {
		last, size = "block to look for, opening at least", u.want.Opening
	}
	add(answer.Figure{ID: "last_hole", Label: last, Value: size.WidthMM, Unit: answer.MM, Text: holeSize(c, size), Main: true})
	if u.named {
		add(answer.Figure{ID: "passes", Label: "through the block", Value: float64(u.passes()), Unit: answer.Count, Main: true,
			Text: plural(u.passes(), "pressing") + ", " + plural(u.plan.Anneals, "anneal")})
	} else {
		add(answer.Figure{ID: "block_thickness", Label: "block to look for, thickness at least", Value: u.want.ThicknessMM, Unit: answer.MM, Main: true})
		add(answer.Figure{ID: "passes", Label: "pressings, estimate", Value: float64(u.passes()), Unit: answer.Count})
	}
	rim := u.wall.Rim
	end := u.plan.Passes[len(u.plan.Passes)-1]
	add(answer.Figure{ID: "foot_wall", Label: "wall at the foot after forming", Value: end.FootWallMM, Unit: answer.MM, Main: true})
	add(answer.Figure{ID: "press_load", Label: "press load, rough, no target", Value: u.plan.MaxLoadN, Unit: answer.Newton, Text: loadWords(u, u.plan.MaxLoadN), Main: true})
	if u.tube.Name == "" {
		add(answer.Figure{ID: "seam", Label: "seam", Value: u.strip.Bevel.Degrees(), Unit: answer.Degree, Text: u.Seam.Summary, Main: true})
	}
	add(answer.Figure{ID: "length_added", Label: "length along the wall that forming adds", Value: u.HeightMM/u.Lean.Cos() - u.wall.StripHeightMM, Unit: answer.MM})
	add(answer.Figure{ID: "anneals", Label: "anneals between pressings", Value: float64(u.plan.Anneals), Unit: answer.Count})
	add(answer.Figure{ID: "rim_wall", Label: "wall at the rim after forming", Value: rim.WallMM, Unit: answer.MM})
	add(answer.Figure{ID: "height", Label: "height after forming", Value: u.plan.HeightMM, Unit: answer.MM})
	add(answer.Figure{ID: "mid_perimeter", Label: "perimeter of the finished rim at mid-wall", Value: rim.PerimeterMM, Unit: answer.MM})
	add(answer.Figure{ID: "foot_perimeter", Label: "perimeter of the finished foot at mid-wall", Value: end.FootPerimeterMM, Unit: answer.MM})
	add(answer.Figure{ID: "total_strain", Label: "hoop strain of the foot, in all", Value: u.plan.TotalStrain, Unit: answer.Ratio})
	add(answer.Figure{ID: "strain_limit", Label: "strain limit between anneals", Value: u.alloy.StrainLimit, Unit: answer.Ratio})
	add(answer.Figure{ID: "hole_gap", Label: "play of the finished rim in the last hole, all round", Value: math.Max(0, u.plan.Last.GapMM), Unit: answer.MM})
	add(answer.Figure{ID: "volume", Label: "metal", Value: u.wall.VolumeMM3, Unit: answer.MM3})
	add(answer.Figure{ID: "mass", Label: "mass of the collar", Value: stock.MassG(u.wall.VolumeMM3, u.alloy.DensityGPerCM3), Unit: answer.Gram})
	add(answer.Figure{ID: "crinkle", Label: "risk that flats crinkle", Value: float64(u.plan.Crinkle), Unit: answer.Count, Text: u.plan.Crinkle.String()})
	if u.press.RamAreaMM2 > 0 {
		add(answer.Figure{ID: "gauge_pressure", Label: "pressure on the gauge, order only, no target", Value: forming.GaugeBar(u.press, u.plan.MaxLoadN), Unit: answer.Bar,
			Text: about(forming.GaugeBar(u.press, u.plan.MaxLoadN), 1, "bar")})
	}
	outer, base := u.RimOuter.Size(), u.BaseInner.Size()
	add(answer.Figure{ID: "rim_outer_length", Label: "finished rim, outside length", Value: outer.LengthMM, Unit: answer.MM})
	add(answer.Figure{ID: "rim_outer_width", Label: "finished rim, outside width", Value: outer.WidthMM, Unit: answer.MM})
	add(answer.Figure{ID: "base_opening_length", Label: "base opening before the foot thickens, length", Value: base.LengthMM, Unit: answer.MM})
	add(answer.Figure{ID: "base_opening_width", Label: "base opening before the foot thickens, width", Value: base.WidthMM, Unit: answer.MM})
	figures = append(figures, u.stone.weightFigure()...)
	for i, f := range servingTubes(u.tubes, 3) {
		add(answer.Figure{ID: fmt.Sprintf("tube_%d", i+1), Label: fmt.Sprintf("tube that serves, no. %d", i+1), Value: 100 * f.Stretch, Unit: answer.Percent, Text: f.Tube.Name + ": " + stretchWords(f.Stretch)})
	}
	return figures
}

// servingTubes are the first tubes of the ranking that serve.
func servingTubes(fits []forming.TubeFit, most int) []forming.TubeFit {
	for i, f := range fits {
		if !f.Serves || i == most {
			return fits[:i]
		}
	}
	return fits
}

// stretchWords says what a tube needs.
func stretchWords(stretch float64) string {
	switch {
	case math.Abs(stretch) < 5e-4:
		return "as it is"
	case stretch > 0:
		return fmt.Sprintf("stretch by %.1f %%", 100*stretch)
	}
	return fmt.Sprintf("squeeze by %.1f %%", -100*stretch)
}

func collarSteps(c *catalogue.Call, u collarUsed) *making {
	m := makingOf(c, u.alloy)
	add := m.add
	cut := []cautions.Job{cautions.Saw, cautions.Files}
	outer := u.RimOuter.Size()
	if u.tube.Name != "" {
		m.do(cut, "cut %s of tube square and deburr it", words.Length(c, u.stripHeightMM))
		m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
		if u.fit.Why != "" {
			add("mind: %s", u.fit.Why)
		}
	} else {
		m.do(cut, "cut the strip %s; %s of its length is for filing the joint true; deburr it", words.Size(c, u.stripMM, u.stripHeightMM), words.Length(c, u.filing))
		m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
		if u.strip.Bevel > 0 {
			add("file a bevel of %.1f° on each end, so that the ends meet at the mitre", u.strip.Bevel.Degrees())
		}
		m.do(treatment.JoinJobs(u.alloy), "bend it, close the seam %s without a gap and %s", u.Seam.Summary, treatment.Join(u.alloy, "hard"))
		add("rinse and dry it; the straight collar measures about %s outside", holeSize(c, outer))
	}
	block := "the block"
	if u.named {
		block = "block " + u.block.Name
	}
	for i, p := range u.plan.Passes {
		m.do(passJobs(u, p), "%s", passWords(c, u, p, i, block))
	}
	leanDeg, kind := u.Lean.Degrees(), u.stone.shape.Kind
	inner, err := u.stone.curve.Offset(u.wall.Foot.InnerOffsetMM)
	if err == nil {
		base, rim := inner.Size(), u.RimInner.Size()
		if punch, ok := punchFor(c.Shop, kind, leanDeg, base, rim); ok {
			m.do([]cautions.Job{cautions.Hammer}, "true the inside with punch %s, lightly, in the last hole", punch.Name)
		} else {
			m.do([]cautions.Job{cautions.Hammer}, "true the inside with a %s punch of %.1f° lean that is %s at its tip or less and %s at its shoulder or more, lightly, in the last hole",
				kind, leanDeg, holeSize(c, base), holeSize(c, rim))
		}
	}
	add("after forming: wall %s at the rim and %s at the foot, height %s; the metal's volume stays %.1f mm³",
		words.Length(c, u.wall.Rim.WallMM), words.Length(c, u.plan.Passes[len(u.plan.Passes)-1].FootWallMM), words.Length(c, u.plan.HeightMM), u.wall.VolumeMM3)
	for i, f := range servingTubes(u.tubes, 3) {
		if i == 0 && u.tube.Name == "" {
			add("from tube instead, a heavy-walled one whose bore is near the stone's size (common practice, no source): the block brings it to size")
		}
		why := ""
		if f.Why != "" {
			why = "; " + f.Why
		}
		add("%s: %s, bore %s; cut %s%s", f.Tube.Name, stretchWords(f.Stretch), words.Length(c, f.BoreMM), words.Length(c, f.Wall.StripHeightMM), why)
	}
	add("how it is worked out: hoop strain ln(P0/P) of the mid-wall perimeter, no change of volume; wall and height along the wall each grow by the root of P0/P")
	add("load: (1 + friction / tan lean) x (1 - foot / rim) x flow stress x section of the wall, thin-wall tube nosing (Johnson and Mellor, from memory); it may be off by a factor of %d either way, and seating a punch takes more", int(forming.SpreadFactor))
	add("%s: %s", u.alloy.Name, u.alloy.FormingSource)
	if u.plan.Crinkle != forming.NoFlats {
		add("flats: a plate with one free edge in compression, tangent modulus (Timoshenko and Gere, from memory): risk %s", u.plan.Crinkle)
	}
	return m
}

// passJobs are the jobs of one pressing.
func passJobs(u collarUsed, p forming.Pass) []cautions.Job {
	jobs := []cautions.Job{cautions.Press}
	if p.AnnealBefore {
		jobs = append(treatment.AnnealJobs(u.alloy), jobs...)
	}
	return jobs
}

// passWords is one pressing, as it is done.
func passWords(c *catalogue.Call, u collarUsed, p forming.Pass, i int, block string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d: ", i+1)
	if p.AnnealBefore {
		b.WriteString(treatment.AnnealAgain(u.alloy))
		if p.Extra {
			b.WriteString(" (one more, because the outline closes in several directions at once; common practice, no source)")
		}
		b.WriteString(", then ")
	}
	part := ""
	if p.Parts > 1 {
		part = fmt.Sprintf(" (part %d of %d)", p.Part, p.Parts)
	}
	switch {
	case p.Sizing && p.Strain < 0:
		fmt.Fprintf(&b, "bring the tube to the outline and stretch it on the punch%s", part)
	case p.Sizing:
		fmt.Fprintf(&b, "bring the tube to the outline and squeeze it to the size of the rim%s", part)
	default:
		hole := holeSize(c, p.Hole.Size)
		sink := math.Max(0, p.Hole.GapMM) / u.Lean.Tan()
		fmt.Fprintf(&b, "hole %s of %s%s: it drops in by %s; press ", hole, block, part, words.Length(c, sink))
		switch {
		case p.BelowMM > 0.05:
			fmt.Fprintf(&b, "with a follower or the punch until the rim is %s below the face", words.Length(c, p.BelowMM))
		case p.BelowMM < -0.05:
			fmt.Fprintf(&b, "until the rim stands %s proud of the face", words.Length(c, -p.BelowMM))
		default:
			b.WriteString("until the rim is flush")
		}
		fmt.Fprintf(&b, "; %s of the wall leans", words.Length(c, p.TaperMM))
	}
	fmt.Fprintf(&b, "; strain %.3f, %.3f since the last anneal, limit %.2f", math.Abs(p.Strain), p.SinceAnneal, u.alloy.StrainLimit)
	if !p.Sizing {
		fmt.Fprintf(&b, "; %s", loadWords(u, p.LoadN))
	}
	return b.String()
}

// collarDrawing is the strip to cut, over the last hole with the finished rim
// in it, at 1:1.
func collarDrawing(c *catalogue.Call, u collarUsed) template.Drawing {
	d := template.Drawing{
		Name:  "collar-" + u.stone.fileName(),
		Title: "Collar for " + u.stone.aWords(c),
	}
	hole := u.plan.Last.Size
	opening, err := u.wall.OuterRim()
	if u.named {
		opening, err = outline.New(outline.Shape{Kind: u.block.Kind, Size: hole})
	}
	below := 0.0
	if u.tube.Name == "" {
		d.Lines = []string{
			fmt.Sprintf("%s sheet, %s", u.alloy.Name, words.Thickness(c, c.Value("thickness"))),
			fmt.Sprintf("strip %s, seam %s", words.Size(c, u.stripMM, u.stripHeightMM), u.Seam.Summary),
		}
		d.Paths = stripPaths(u.stripMM, u.stripHeightMM, u.filing+u.KerfMM, u.strip)
		d.Paths = append(d.Paths, passLines(u)...)
		d.Alt = fmt.Sprintf("A straight strip %s by %s mm, with lines across it above which it stays straight after each pressing", words.MM(u.stripMM), words.MM(u.stripHeightMM))
		below = -4
	} else {
		d.Lines = []string{fmt.Sprintf("%s, cut %s", u.tube.Name, words.Length(c, u.stripHeightMM))}
		d.Alt = "No strip"
	}
	if err != nil {
		return d
	}
	size := opening.Size()
	centre := [2]float64{math.Max(u.stripMM, size.LengthMM) / 2, below - size.WidthMM/2}
	d.Paths = append(d.Paths, planPath("opening", "opening", opening, centre))
	d.Paths = append(d.Paths, planPath("rim-outside", "rim", u.RimOuter, centre), planPath("base-outside", "base", u.BaseOuter, centre))
	d.Alt += ", and seen from above the block's opening with the finished rim and base in it."
	return d
}

// passLines are the lines on the strip above which the wall is still straight
// after each pressing, as scribe marks to check by.
func passLines(u collarUsed) []template.Path {
	var paths []template.Path
	for i, p := range u.plan.Passes {
		// What is straight has not changed but for the sizing of a tube.
		y := u.stripHeightMM - u.KerfMM/2 - p.StraightMM
		if p.Sizing || p.StraightMM < 0.3 || y < 0.3 {
			continue
		}
		paths = append(paths, template.Polyline(fmt.Sprintf("pass-%d", i+1), template.Mark, fmt.Sprintf("pass %d", i+1), false, [2]float64{0, y}, [2]float64{u.stripMM, y}))
	}
	return paths
}

// stripPaths are a strip's edges, folds and quarter marks. Marks are measured
// from the seam's left end, half of what is filed away further in.
func stripPaths(length, height, filed float64, b bezel.Bezel) []template.Path {
	at := func(x, y float64) [2]float64 { return [2]float64{x, y} }
	paths := []template.Path{
		template.Polyline("rim", template.Cut, "top edge", false, at(0, height), at(length, height)),
		template.Polyline("base", template.Cut, "bottom edge", false, at(0, 0), at(length, 0)),
		template.Polyline("seam-a", template.Seam, "seam A", false, at(0, height), at(0, 0)),
		template.Polyline("seam-b", template.Seam, "seam B", false, at(length, height), at(length, 0)),
	}
	for i, x := range b.Folds {
		paths = append(paths, template.Polyline(fmt.Sprintf("fold-%d", i+1), template.Fold, "", false, at(x+filed/2, height), at(x+filed/2, 0)))
	}
	tick := math.Min(height/4, 1.5)
	for i, x := range b.Quarters {
		if x < 0.3 || x > b.LengthMM-0.3 {
			continue // the seam itself
		}
		paths = append(paths, template.Polyline(fmt.Sprintf("mark-%d", i+1), template.Mark, "", false, at(x+filed/2, height), at(x+filed/2, height-tick)))
	}
	return paths
}

// planPath is an outline seen from above, lying on its side, as an outline
// path.
func planPath(id, label string, o outline.Curve, centre [2]float64) template.Path {
	points := o.Polyline(0.005)
	list := make([][2]float64, len(points))
	for i, p := range points {
		list[i] = [2]float64{centre[0] + p.Y, centre[1] - p.X}
	}
	return template.Polyline(id, template.Outline, label, true, list...)
}
