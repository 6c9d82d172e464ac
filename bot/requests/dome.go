package requests

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/dome"
	"guildhand/calc/finished"
	"guildhand/calc/stock"
)

func domeRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "dome",
		Summary: "the disc for a dome, or the dome of a disc, and its way through the doming block",
		Detail: "Give two of diameter, height and disc, or all three to see how far the metal must stretch. The disc has the " +
			"dome's area at the middle of the metal. The plan goes hollow by hollow with an anneal wherever the alloy's limit would be passed.",
		Retired: map[string]string{
			"traced": "a dome is sunk from a round disc in round hollows, so a traced outline can't be domed here: give the dome's diameter and height",
		},
		Options: domeOptions(),
		Examples: []catalogue.Example{
			{Line: "dome 20 height 6 22ga sterling", Summary: "the disc for a dome"},
			{Line: "dome 16 hemisphere 24ga copper", Summary: "half a ball"},
			{Line: "dome disc 25 height 6 22ga", Summary: "the dome that a disc makes"},
			{Line: "dome 20 hemisphere hollows 34 30 27 24 22 20", Summary: "with the hollows of your own block"},
		},
		Answer: answerDome,
	}
}

func domeOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "size", Aliases: []string{"diameter", "across"},
			Summary: "diameter of the dome in mm",
			Kind:    catalogue.Size, Min: 2, Max: 300, Bare: true,
			Required: true, Unless: []string{"disc"},
			Prompt:  "how wide is the dome, in mm?",
			Suggest: []string{"12", "16", "20", "25", "30"},
		},
		{
			Name: "height", Aliases: []string{"high", "deep"},
			Summary: "height of the dome from rim to crown",
			Kind:    catalogue.Length, Min: 0.2, Max: 150,
			Prompt:   "how high is the dome, in mm?",
			Required: true, Unless: []string{"disc", "hemisphere"},
			Suggest: []string{"4", "6", "8", "10"},
			Sample:  domeHeightSample,
		},
		{
			Name: "hemisphere", Aliases: []string{"half-ball"},
			Summary: "as high as half its diameter",
			Kind:    catalogue.Flag, Excludes: []string{"height"},
		},
		{
			Name: "disc", Aliases: []string{"blank"},
			Summary: "diameter of the disc that you have",
			Kind:    catalogue.Length, Min: 2, Max: 450,
			Suggest: []string{"20", "25", "30"},
		},
		option.Thickness(),
		option.Alloy(),
		{
			Name: "face", Aliases: []string{"measured-on"},
			Summary: "where the dome is measured: outside, inside or middle of the metal",
			Kind:    catalogue.Word, Bare: true, Default: string(dome.Outside), DefaultNote: "default",
			Choices: []catalogue.Choice{
				{Key: string(dome.Outside), Summary: "over the outside"},
				{Key: string(dome.Inside), Summary: "on the inside"},
				{Key: string(dome.Middle), Summary: "at the middle of the metal"},
			},
		},
		{
			Name: "hollows", Aliases: []string{"hollow"},
			Summary: "diameters of the hollows of your doming block in mm: 30 28 25 22",
			Kind:    catalogue.Words,
		},
		option.Units(),
		option.Paper(),
	}
}

func domeHeightSample(a catalogue.Args) string {
	if n := a["size"].Numbers; len(n) == 1 {
		return strconv.FormatFloat(n[0]*0.3, 'f', 1, 64)
	}
	return "6"
}

func answerDome(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	d, disc, err := domeOf(c)
	if err != nil {
		return nil, err
	}
	hollows, own, err := hollowsOf(c)
	if err != nil {
		return nil, err
	}
	thin := d.Thinning()
	mean := d.MeanThicknessMM(disc)
	crown := mean * (1 - thin.Likely)

	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut a disc %s across of %s for a dome %s, %s.",
			words.Length(c, disc), words.Metal(c, alloy), words.Size(c, d.DiameterMM, d.HeightMM), d.Face),
		Figures: []answer.Figure{
			{ID: "disc_diameter", Label: "disc", Value: disc, Unit: answer.MM},
			{ID: "dome_diameter", Label: "dome, across", Value: d.DiameterMM, Unit: answer.MM},
			{ID: "dome_height", Label: "dome, high", Value: d.HeightMM, Unit: answer.MM},
			{ID: "crown_thickness", Label: "crown after doming, estimate", Value: crown, Unit: answer.MM, Main: true},
			{ID: "sphere_diameter", Label: "hollow that fits the outside", Value: 2 * d.OutsideRadiusMM(), Unit: answer.MM, Main: true},
			{ID: "mean_thickness", Label: "mean thickness", Value: mean, Unit: answer.MM},
			{ID: "blank_mass", Label: "mass of the disc", Value: stock.MassG(stock.DiscMM3(disc, d.ThicknessMM), alloy.DensityGPerCM3), Unit: answer.Gram, Main: true},
		},
	}
	m := domeMaking(c, alloy, d)
	a.Assumptions = append(a.Assumptions,
		"equal areas at mid-metal (common practice, no source)",
		fmt.Sprintf("crown %.0f %% thinner than the mean (three tenths of mere stretching: common practice, no source)", 100*thin.Likely))
	if share := disc / d.DiscMM(); share < 0.995 {
		a.Notes = append(a.Notes, fmt.Sprintf("smaller than the %s mm of equal area: it must stretch to a mean of %s mm, and may tear", words.MM(d.DiscMM()), words.MM(mean)))
	}
	if disc < d.DiameterMM && disc >= 0.995*d.DiscMM() {
		a.Notes = append(a.Notes, fmt.Sprintf("the disc is smaller than the dome is across, because a dome this flat is hardly larger than its plan, and the middle of the metal counts: it is %s across there, not %s as on the outside",
			words.Length(c, d.Middle().DiameterMM), words.Length(c, d.DiameterMM)))
	}
	passes, err := d.Passes(hollows, alloy.StrainLimit)
	switch {
	case err != nil && own:
		return nil, answer.Refuse(c.Retyped(map[string]string{"hollows": ""}), "%s", err)
	case err != nil:
		a.Notes = append(a.Notes, "no plan for a usual doming block: "+err.Error())
	default:
		domePasses(c, a, m, d, alloy, passes)
		if !own {
			a.Assumptions = append(a.Assumptions, fmt.Sprintf("hollows of %g to %g mm (a usual doming block: common practice, no source)", hollows[len(hollows)-1], hollows[0]))
		}
	}
	m.do(treatment.JoinJobs(alloy), "to make it a hollow form, drill a vent hole in it first; then set it on its other half or its back, and %s", treatment.Join(alloy, "hard"))
	m.finish(a)
	return drawn(c, a, discDrawing(c, d, disc, alloy)), nil
}

// domeMaking begins the steps: how the disc is worked out, cut and softened. A
// dome is soldered to another, or to a flat back: it becomes a closed form.
func domeMaking(c *catalogue.Call, alloy stock.Alloy, d dome.Dome) *making {
	m := makingOf(c, alloy)
	m.closed = true
	middle := d.Middle()
	m.add("at the middle of the metal the dome is %.2f mm across and %.2f mm high, radius %.2f mm", middle.DiameterMM, middle.HeightMM, middle.RadiusMM())
	m.add("disc = √(%.2f² + 4 x %.2f²) = %.2f mm (equal area of a spherical cap)", middle.DiameterMM, middle.HeightMM, d.DiscMM())
	m.add("thinning: none in the mean where the rim draws in, at most %.0f %% where it is held", 100*d.Thinning().Most)
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "saw out the disc and deburr its edge")
	m.do(treatment.AnnealJobs(alloy), "%s", treatment.Anneal(alloy))
	return m
}

// domePasses adds the plan of hollows to the answer.
func domePasses(c *catalogue.Call, a *answer.Answer, m *making, d dome.Dome, alloy stock.Alloy, passes []dome.Pass) {
	anneals, total := 0, 0.0
	for i, p := range passes {
		first := ""
		if p.AnnealBefore {
			anneals++
			first = treatment.AnnealAgain(alloy) + ", then "
		}
		total += p.Strain
		m.do([]cautions.Job{cautions.Hammer}, "pass %d: %shollow %g mm: %.2f mm across, %.2f mm high (middle of the metal); rim strain %.3f, %.3f since the last anneal, limit %.2f",
			i+1, first, p.HollowMM, p.DiameterMM, p.HeightMM, p.Strain, p.SinceAnneal, alloy.StrainLimit)
	}
	last := passes[len(passes)-1]
	a.Figures = append(a.Figures,
		answer.Figure{ID: "passes", Label: "hollows, from large to small", Value: float64(len(passes)), Unit: answer.Count, Main: true,
			Text: fmt.Sprintf("%d, from %g to %g mm", len(passes), passes[0].HollowMM, last.HollowMM)},
		answer.Figure{ID: "anneals", Label: "anneals between passes", Value: float64(anneals), Unit: answer.Count, Main: true},
		answer.Figure{ID: "rim_strain", Label: "strain at the rim, all passes", Value: total, Unit: answer.Ratio})
	a.Assumptions = append(a.Assumptions, fmt.Sprintf("strain limit %.2f between anneals (house rule)", alloy.StrainLimit))
	m.add("sources of %s: %s", alloy.Name, alloy.FormingSource)
	m.add("in each hollow strike with a punch a little smaller than the hollow, from the rim inwards in rings; a punch of the hollow's size pinches the metal")
	m.add("rub the rim flat on abrasive paper at the end: the height drops by what you take off")
	if fits := 2 * d.OutsideRadiusMM(); last.HollowMM > fits*1.005 {
		a.Notes = append(a.Notes, fmt.Sprintf("the last hollow, %g mm for %s, leaves it %s high: finish over a punch",
			last.HollowMM, words.MM(fits), words.Length(c, last.HeightMM)))
	}
}

// domeOf reads the dome of a call: from two of diameter, height and disc, or
// from all three. disc is the disc to cut.
func domeOf(c *catalogue.Call) (d dome.Dome, discMM float64, err error) {
	d = dome.Dome{ThicknessMM: c.Number("thickness"), Face: dome.Face(c.Word("face")), HeightMM: c.Number("height")}
	discMM = c.Number("disc")
	size := c.Value("size").Numbers
	if len(size) > 1 {
		return d, 0, answer.Refuse("dome 20 height 6 22ga", "a dome is round and takes one diameter in mm, not %d numbers", len(size))
	}
	if len(size) == 1 {
		d.DiameterMM = size[0]
	}
	if c.Args.Has("hemisphere") {
		if d.DiameterMM == 0 {
			return d, 0, answer.Refuse("dome 20 hemisphere 22ga", "a hemisphere needs its diameter in mm")
		}
		d.HeightMM = d.DiameterMM / 2
	}
	if discMM > 0 && (d.DiameterMM == 0 || d.HeightMM == 0) {
		if d.DiameterMM == 0 && d.HeightMM == 0 {
			return d, 0, answer.Refuse("dome disc "+words.MM(discMM)+" height "+words.MM(discMM*0.25), "a disc makes many domes: give the height or the diameter of yours, in mm")
		}
		d, err = dome.OfDisc(discMM, d)
		if err != nil {
			return d, 0, answer.Refuse("dome disc "+words.MM(discMM)+" height "+words.MM(discMM*0.25), "%s", err)
		}
		return d, discMM, nil
	}
	if err := d.Check(); err != nil {
		return d, 0, answer.Refuse(domeTry(c, d), "%s", err)
	}
	if discMM == 0 {
		return d, d.DiscMM(), nil
	}
	// All three given: how far must the metal stretch?
	if least := d.DiscMM() * 0.8; discMM < least || discMM > d.DiscMM()*1.1 {
		return d, 0, answer.Refuse(c.Retyped(map[string]string{"disc": "", "hollows": ""}), "a disc of %s mm does not make this dome; its disc is from %s mm (stretched) to %s mm", words.MM(discMM), words.MM(least), words.MM(d.DiscMM()*1.1))
	}
	return d, discMM, nil
}

// domeTry is the dome asked for with a height that works, or another where its
// metal is too thick for it.
func domeTry(c *catalogue.Call, d dome.Dome) string {
	d.HeightMM = 0.3 * d.DiameterMM
	if d.Check() != nil {
		return "dome 20 height 6 22ga"
	}
	return c.Retyped(map[string]string{"height": words.MM(d.HeightMM), "hemisphere": "", "disc": "", "hollows": ""})
}

// hollowsOf reads the hollows of the maker's block; own is false where none
// were given and the usual ones are taken.
func hollowsOf(c *catalogue.Call) (list []float64, own bool, err error) {
	words := strings.FieldsFunc(c.Word("hollows"), func(r rune) bool { return r == ' ' || r == ',' || r == ';' })
	if len(words) == 0 {
		return dome.Hollows(), false, nil
	}
	for _, w := range words {
		mm, err := strconv.ParseFloat(strings.TrimSuffix(w, "mm"), 64)
		if err != nil || !(mm >= 1 && mm <= 500) {
			return nil, true, answer.Refuse(c.Retyped(map[string]string{"hollows": ""}), "hollow %q is not a diameter; each is from 1 to 500 mm", w)
		}
		list = append(list, mm)
	}
	if len(list) > 40 {
		return nil, true, answer.Refuse(c.Retyped(map[string]string{"hollows": ""}), "%d hollows are too many; at most 40", len(list))
	}
	return list, true, nil
}

func discDrawing(c *catalogue.Call, d dome.Dome, discMM float64, alloy stock.Alloy) template.Drawing {
	r := discMM / 2
	centre := [2]float64{r, r}
	tick := min(r/4, 2.5)
	drawing := template.Drawing{
		Name:  "dome-disc-" + words.MM(discMM),
		Title: fmt.Sprintf("Disc for a dome %s", words.Size(c, d.DiameterMM, d.HeightMM)),
		Lines: []string{
			fmt.Sprintf("%s sheet, %s", alloy.Name, words.Thickness(c, c.Value("thickness"))),
			"centre punch lightly on the inside only",
		},
	}
	drawing.Paths = append(drawing.Paths,
		template.Circle("disc", template.Cut, "", centre, r),
		template.Polyline("centre-level", template.Mark, "centre", false, [2]float64{r - tick, r}, [2]float64{r + tick, r}),
		template.Polyline("centre-upright", template.Mark, "", false, [2]float64{r, r - tick}, [2]float64{r, r + tick}))
	for i, at := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		drawing.Paths = append(drawing.Paths, template.Polyline(fmt.Sprintf("quarter-%d", i+1), template.Mark, "quarter", false,
			[2]float64{r + at[0]*r, r + at[1]*r}, [2]float64{r + at[0]*(r-tick), r + at[1]*(r-tick)}))
	}
	drawing.Dimensions = []template.Dimension{{A: [2]float64{0, r}, B: [2]float64{discMM, r}, Side: template.Below, Text: "disc " + words.Length(c, discMM) + " across"}}
	drawing.Details = []template.Drawing{domeSection(c, d), finishedView([]axonometric.Body{finished.Dome(d)}, 0, "hollow up")}
	drawing.Alt = inWords(drawing, "the centre and the quarters are marked")
	return drawing
}

// domeSection is the dome cut through its crown, as it stands on its rim.
func domeSection(c *catalogue.Call, d dome.Dome) template.Drawing {
	middle := d.Middle()
	r, half, t := middle.RadiusMM(), d.HalfAngle(), d.ThicknessMM
	const steps = 60
	arc := func(radius float64) [][2]float64 {
		var points [][2]float64
		for i := range steps + 1 {
			sin, cos := math.Sincos(half * (1 - 2*float64(i)/steps))
			points = append(points, [2]float64{radius * sin, radius*cos - r*math.Cos(half)})
		}
		return points
	}
	outer, inner := arc(r+t/2), arc(r-t/2)
	slices.Reverse(inner)
	face := template.Polyline("section", template.Edge, "", true, slices.Concat(outer, inner)...)
	measuredRadius := d.RadiusMM()
	sin, cos := math.Sincos(half)
	rim, crown := measuredRadius*cos-r*cos, measuredRadius-r*cos
	return template.Drawing{
		Title: fmt.Sprintf("Section, measured on the %s", d.Face), Paths: []template.Path{face}, CutFaces: []template.Path{face},
		Dimensions: []template.Dimension{
			{A: [2]float64{-measuredRadius * sin, rim}, B: [2]float64{measuredRadius * sin, rim}, Side: template.Below, Text: words.Length(c, d.DiameterMM) + " across"},
			{A: [2]float64{measuredRadius * sin, rim}, B: [2]float64{0, crown}, Side: template.Right, Text: words.Length(c, d.HeightMM) + " high"},
		},
	}
}
