package requests

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/development"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/prong"
)

func prongsRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "prongs",
		Summary: "where to saw, file and drill a collet into prongs, drawn on its blank",
		Detail: "Give the stone and the metal as for a collet. The points of a pear, a marquise and a heart and the corners of other outlines " +
			"get a prong each; the others stand at even distances along the girdle, or where you say. The windows are drawn on the collet's own blank, " +
			"so that you can saw before or after forming.",
		Options:   prongsOptions(),
		Retired:   retiredBearing(),
		StopWords: []string{"collet"},
		Examples: []catalogue.Example{
			{Line: "prongs oval 8x6 depth 4 sterling 20ga", Summary: "the usual four"},
			{Line: "prongs 4 collet oval 8x6 depth 4 sterling 20ga", Summary: "the same, counted"},
			{Line: "prongs pear 9x6 depth 4 18k-yellow 0.8mm number 5", Summary: "the point and four more"},
			{Line: "prongs emerald 8x6 depth 4.2 sterling 20ga width 1.2", Summary: "on the cut corners"},
			{Line: "prongs round 6.5 depth 4 sterling 0.8mm number 6 gallery 2", Summary: "six, with 2 mm left above the base"},
			{Line: "prongs marquise 10x5 depth 3.2 sterling 20ga", Summary: "both points covered"},
			{Line: "prongs round 8 depth 5 sterling 20ga places 10 40 60 90", Summary: "where you say, in per cent of the way round"},
		},
		Answer: answerProngs,
	}
}

func prongsOptions() []catalogue.Option {
	own := []catalogue.Option{
		{
			Name: "number", Aliases: []string{"count", "prong"},
			Summary: "how many prongs (default: the usual number for the outline)",
			Kind:    catalogue.Integer, Min: 2, Max: prong.MostProngs, Bare: true, Suggest: []string{"4", "6", "3", "5", "8"},
			Excludes: []string{"places"},
		},
		{
			Name: "width", Aliases: []string{"prong-width"},
			Summary: "width of a prong, mm (default: from the metal and the stone)",
			Kind:    catalogue.Length, Min: 0.4, Max: 6, Suggest: []string{"0.8", "1", "1.2", "1.5"},
		},
		{
			Name: "gallery", Aliases: []string{"left"},
			Summary: "height of wall left above the base, along the slant, mm",
			Kind:    catalogue.Length, Min: 0.3, Max: 40, Suggest: []string{"1.5", "2"},
		},
		{
			Name:    "drill",
			Summary: "drill for the windows' corners, mm",
			Kind:    catalogue.Length, Min: 0.3, Max: 5, Suggest: []string{"0.6", "0.8", "1"},
		},
		{
			Name:    "even",
			Summary: "even distances along the girdle, whatever the outline",
			Kind:    catalogue.Flag, Excludes: []string{"places"},
		},
		{
			Name: "places", Aliases: []string{"at"},
			Summary: "where the prongs stand, in per cent of the way round from the usual seam: 10 40 60 90",
			Kind:    catalogue.Words,
		},
	}
	var options []catalogue.Option
	for _, o := range colletOptions() {
		switch o.Name {
		case "precone":
			continue
		case "rim":
			o.Summary = "prong above the girdle's lower edge, mm (default: from the girdle and the crown)"
			o.Suggest = []string{"1.2", "1.5"}
		case "lean":
			options = append(options, own...) // before what is seldom typed
		}
		options = append(options, o)
	}
	return options
}

// prongsUsed is a collet with its prongs.
type prongsUsed struct {
	colletUsed
	plan  *prong.Plan
	spots []prong.Spot
}

func answerProngs(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	u, err := prongsOf(ctx, c)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Headline: fmt.Sprintf("Cut %s of %s and saw %d prongs for %s.",
			words.Size(c, u.flat.WidthMM, u.flat.HeightMM), words.Metal(c, u.alloy), len(u.plan.Prongs), u.stone.aWords(c)),
		Figures:     prongsFigures(c, u),
		Notes:       append(u.notes, prongsNotes(c, u)...),
		Assumptions: u.assumptions,
	}
	prongsSteps(c, u).finish(a)
	return drawn(c, a, prongsDrawing(c, u)), nil
}

func prongsOf(ctx context.Context, c *catalogue.Call) (prongsUsed, error) {
	var u prongsUsed
	stone, err := stoneOf(c)
	if err != nil {
		return u, err
	}
	if u.spots, err = spotsOf(c, stone.curve); err != nil {
		return u, err
	}
	inner := c.With()
	var said []string
	if !c.Args.Has("seam") {
		seam := prong.BestSeam(stone.curve, u.spots)
		inner.Args["seam"] = catalogue.Value{Text: seam.Name}
		said = append(said, "seam "+seam.Summary+" (away from the prongs: common practice, no source)")
	}
	if u.colletUsed, err = colletOf(ctx, inner); err != nil {
		return u, err
	}
	work := prong.Work{WidthMM: c.Number("width"), GalleryMM: c.Number("gallery"), DrillMM: c.Number("drill")}
	if work.WidthMM == 0 {
		work.WidthMM = prong.UsualWidth(u.ThicknessMM, u.stone.curve.Size())
		said = append(said, fmt.Sprintf("prong %s wide (an eighth of the stone, one and a half walls at least: common practice, no source)", words.Length(c, work.WidthMM)))
	}
	if work.GalleryMM == 0 {
		seat := u.BearingLineMM()
		work.GalleryMM = math.Max(0.3, math.Min(prong.UsualGallery(u.SlantMM), math.Floor((u.SlantMM-seat)*10)/10))
		said = append(said, fmt.Sprintf("%s left above the base (a third of the slant, or as the seat allows: common practice, no source)", words.Length(c, work.GalleryMM)))
	}
	ownDrill := work.DrillMM > 0
	if !ownDrill {
		work.DrillMM = prong.LeastDrillMM
	}
	if u.plan, err = prong.Lay(u.Collet, u.spots, work); err != nil {
		return u, refuseProngs(c, u, work, err)
	}
	if !ownDrill {
		work.DrillMM = prong.UsualDrill(u.plan.NarrowestMM)
		said = append(said, fmt.Sprintf("drill %s (a quarter of the narrowest window: common practice, no source)", words.Length(c, work.DrillMM)))
		if u.plan, err = prong.Lay(u.Collet, u.spots, work); err != nil {
			return u, refuseProngs(c, u, work, err)
		}
	}
	if work.DrillMM > u.plan.NarrowestMM {
		return u, answer.Refuse(c.Retyped(map[string]string{"drill": ""}), "a drill of %s does not go into a window of %s", words.Length(c, work.DrillMM), words.Length(c, u.plan.NarrowestMM))
	}
	u.assumptions = append(u.assumptions, said...)
	return u, nil
}

// spotsOf places the prongs on the stone.
func spotsOf(c *catalogue.Call, curve outline.Curve) ([]prong.Spot, error) {
	start := 0.0
	if place, ok := curve.PlaceNamed(""); ok {
		start, _ = curve.LengthTo(place)
	}
	if words := c.Word("places"); words != "" {
		return placesOf(c, curve, start, words)
	}
	n := int(c.Number("number"))
	if n == 0 {
		n = prong.Usual(curve)
	}
	if c.Args.Has("even") {
		return prong.Even(curve, n, start), nil
	}
	spots, err := prong.Spots(curve, n)
	var e *prong.Error
	if errors.As(err, &e) {
		return nil, answer.Refuse(c.Retyped(map[string]string{"number": strconv.Itoa(e.Number)}), "%s", e.Problem)
	}
	return spots, err
}

// placesOf reads places in per cent of the way round.
func placesOf(c *catalogue.Call, curve outline.Curve, start float64, words string) ([]prong.Spot, error) {
	var shares []float64
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
		v, err := strconv.ParseFloat(strings.TrimSuffix(w, "%"), 64)
		if err != nil || !(v >= 0 && v < 100) {
			return nil, answer.Refuse(c.Retyped(map[string]string{"places": "10 40 60 90"}), "place %q is not a share of the way round; each is from 0 to less than 100 per cent", w)
		}
		shares = append(shares, v)
	}
	slices.Sort(shares)
	shares = slices.Compact(shares)
	if len(shares) < 2 || len(shares) > prong.MostProngs {
		return nil, answer.Refuse(c.Retyped(map[string]string{"places": "10 40 60 90"}), "%d places are outside 2 to %d prongs", len(shares), prong.MostProngs)
	}
	return prong.At(curve, start, shares), nil
}

func refuseProngs(c *catalogue.Call, u prongsUsed, w prong.Work, err error) error {
	var e *prong.Error
	if !errors.As(err, &e) {
		return err
	}
	seat := u.BearingLineMM()
	switch {
	case u.SlantMM-w.GalleryMM < seat && u.SlantMM-seat >= 0.3:
		return answer.Refuse(c.Retyped(map[string]string{"gallery": words.MM(math.Floor((u.SlantMM-seat)*10) / 10)}), "%s", e.Problem)
	case u.SlantMM-w.GalleryMM < seat:
		return answer.Refuse(c.Retyped(map[string]string{"gallery": "", "rim": "1", "height": "", "allowance": "2"}), "%s", e.Problem)
	case e.Number > 0:
		// Thinner or fewer prongs: as many of the least width as there is
		// room for.
		return answer.Refuse(c.Retyped(map[string]string{"width": words.MM(math.Max(0.4, w.WidthMM/2)), "number": fewer(u, e.Number), "places": ""}), "%s", e.Problem)
	}
	return answer.Refuse(c.Spec.Example(), "%s", e.Problem)
}

// fewer is the usual number of prongs where that is less, as an option's text.
func fewer(u prongsUsed, most int) string {
	if usual := prong.Usual(u.stone.curve); usual < most {
		return strconv.Itoa(usual)
	}
	return ""
}

func prongsNotes(c *catalogue.Call, u prongsUsed) []string {
	var notes []string
	if u.plan.SeamInProng {
		notes = append(notes, "the seam lies in a prong: make it a clean joint without a gap, or move it with seam")
	}
	if u.plan.WidestMM > 6 {
		notes = append(notes, fmt.Sprintf("a window is %s wide at the rim: more prongs hold the stone better", words.Length(c, u.plan.WidestMM)))
	}
	if u.plan.WidthMM < 1.2*u.ThicknessMM {
		notes = append(notes, "a prong narrower than 1.2 times the wall bends sideways first")
	}
	return notes
}

func prongsFigures(c *catalogue.Call, u prongsUsed) []answer.Figure {
	p := u.plan
	places := prongPlaces(u)
	return append([]answer.Figure{
		{ID: "rim_length", Label: "rim, along the edge", Value: u.flat.RimLengthMM, Unit: answer.MM, Main: true},
		{ID: "base_length", Label: "base, along the edge", Value: u.flat.BaseLengthMM, Unit: answer.MM, Main: true},
		{ID: "prongs", Label: "prongs", Value: float64(len(p.Prongs)), Unit: answer.Count, Main: strings.Contains(places, ":"), Text: places},
		{ID: "prong_width", Label: "prong, width", Value: p.WidthMM, Unit: answer.MM, Main: true},
		{ID: "window_depth", Label: "windows, deep", Value: p.DepthMM, Unit: answer.MM, Main: true},
		{ID: "gallery", Label: "wall left above the base", Value: p.GalleryMM, Unit: answer.MM, Main: true},
		{ID: "drill", Label: "drill", Value: p.DrillMM, Unit: answer.MM},
		{ID: "prong_above_girdle", Label: "prong above the girdle line", Value: u.RimMM / u.MeanLean.Cos(), Unit: answer.MM},
		{ID: "window_narrowest", Label: "narrowest window, at its bottom", Value: p.NarrowestMM, Unit: answer.MM},
		{ID: "window_widest", Label: "widest window, at the rim", Value: p.WidestMM, Unit: answer.MM},
		{ID: "slant", Label: "slant, rim to base", Value: u.SlantMM, Unit: answer.MM},
		{ID: "blank_width", Label: "blank, width", Value: u.flat.WidthMM, Unit: answer.MM},
		{ID: "blank_height", Label: "blank, height", Value: u.flat.HeightMM, Unit: answer.MM},
		{ID: "thickness", Label: "thickness", Value: u.ThicknessMM, Unit: answer.MM},
	}, append(append(notMain(seatFigures(u.colletUsed)), notMain([]answer.Figure{fitFigure(c, u.colletUsed)})...), u.stone.weightFigure()...)...)
}

// notMain leaves the figures to the working: the phone shows six.
func notMain(figures []answer.Figure) []answer.Figure {
	for i := range figures {
		figures[i].Main = false
	}
	return figures
}

// prongPlaces names where the prongs stand: "5: at the point and 4 more".
func prongPlaces(u prongsUsed) string {
	counts := map[string]int{}
	var order []string
	for _, s := range u.spots {
		if s.Where != "" && counts[s.Where] == 0 {
			order = append(order, s.Where)
		}
		counts[s.Where]++
	}
	var parts []string
	for _, w := range order {
		part := w
		if counts[w] > 1 {
			part = fmt.Sprintf("%d %ss", counts[w], strings.Replace(w, " a ", " ", 1)) // "2 at points"
		}
		parts = append(parts, part)
	}
	n := len(u.spots)
	switch rest := counts[""]; {
	case rest == n:
		return fmt.Sprintf("%d", n)
	case rest > 0:
		parts = append(parts, fmt.Sprintf("%d more", rest))
	}
	return fmt.Sprintf("%d: %s", n, strings.Join(parts, ", "))
}

func prongsSteps(c *catalogue.Call, u prongsUsed) *making {
	p := u.plan
	m := makingOf(c, u.alloy)
	add := m.add
	sawing := []cautions.Job{cautions.Saw}
	m.do(sawing, "print the template at full size, measure its check bars, glue it on and saw the blank outside its lines: rim %s, base %s, slant %s",
		words.Length(c, u.flat.RimLengthMM), words.Length(c, u.flat.BaseLengthMM), words.Length(c, u.SlantMM))
	m.do([]cautions.Job{cautions.Drill}, "centre punch and drill %s at the windows' corners, with the sheet clamped", words.Length(c, p.DrillMM))
	add("to saw before forming: saw only down to 1 mm above the drilled holes, form, then finish the windows; a blank with open windows kinks there. It is surer to form first and to saw afterwards, along the scribed lines")
	m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
	m.do(treatment.JoinJobs(u.alloy), "form the collet, close the seam %s and %s", u.Seam.Summary, treatment.Join(u.alloy, "hard"))
	m.do(sawing, "saw from the rim down both sides of each prong to the holes, then along the bottom; %s stays above the base", words.Length(c, p.GalleryMM))
	corner := false
	for _, q := range p.Prongs {
		corner = corner || q.Corner
	}
	if corner {
		add("a prong on a corner goes round it: keep both arms alike, half of %s each, and leave it thick in the fold", words.Length(c, p.WidthMM))
	}
	m.do([]cautions.Job{cautions.Files, cautions.Polishing}, "file the windows, round the edges, and polish inside them while the stone is out")
	add("cut the bearing in each prong to the stone in hand, up from the girdle line, %s below the rim edge on the slant: it takes %.0f %% of the wall (40 %% is published, over half is too much)", words.Length(c, u.GirdleLineMM()), 100*u.Seat.Share)
	m.do([]cautions.Job{cautions.Setting}, "the stone goes in last; push opposite prongs over in turns, then file and round their tips")
	for _, warning := range u.alsoWarned {
		add("%s", warning)
	}
	u.soldered.step(c, m, u.colletUsed)
	fitStep(c, m, u.colletUsed)
	add("places: %s", prongPlaces(u))
	return m
}

func prongsDrawing(c *catalogue.Call, u prongsUsed) template.Drawing {
	d := colletDrawing(c, u.colletUsed)
	d.Name = "prongs-" + u.stone.fileName()
	d.Title = fmt.Sprintf("%d prongs on the collet for %s", len(u.plan.Prongs), u.stone.aWords(c))
	d.Lines = append(d.Lines, fmt.Sprintf("prongs %s wide, hatched windows %s deep", words.Length(c, u.plan.WidthMM), words.Length(c, u.plan.DepthMM)))
	at := func(p development.Point) [2]float64 { return [2]float64{p.X, p.Y} }
	for i, w := range u.plan.Windows {
		points := make([][2]float64, len(w.Edge))
		for k, p := range w.Edge {
			points[k] = at(p)
		}
		d.CutFaces = append(d.CutFaces, template.Polyline("", template.Waste, "", true, points...))
		d.Paths = append(d.Paths, template.Polyline(fmt.Sprintf("window-%d", i+1), template.Waste, "saw out", false, points...))
		for k, p := range w.Drills {
			d.Paths = append(d.Paths, template.Circle(fmt.Sprintf("drill-%d-%d", i+1, k+1), template.Drill, "drill "+words.Length(c, u.plan.DrillMM), at(p), u.plan.DrillMM/2))
		}
	}
	if len(d.Details) > 1 { // the section, in which the windows end at the gallery
		section := &d.Details[0]
		up := u.plan.GalleryMM * u.MeanLean.Cos()
		left, right := section.Paths[0].Segs[0].P, section.Paths[1].Segs[0].P
		section.Paths = append(section.Paths, template.Polyline("gallery", template.Mark, "bottom of the windows", false,
			[2]float64{left.X + u.ThicknessMM, left.Y + up}, [2]float64{right.X - u.ThicknessMM, right.Y + up}))
		section.Dimensions = append(section.Dimensions, template.Dimension{
			A: [2]float64{left.X, left.Y}, B: [2]float64{left.X, left.Y + up}, Side: template.Left, Name: "below the windows", Text: "left " + words.Length(c, up)})
	}
	if bodies, err := finished.Prongs(u.Collet, u.plan); err == nil {
		if ring, ok := u.soldered.ring(u.colletUsed); ok {
			bodies = append(bodies, ring)
		}
		d.Details[len(d.Details)-1] = finishedView(bodies, seamFaces(u.Stone, u.Collet.Seam), "prongs as sawn")
	}
	d.Alt = colletInWords(d, u.colletUsed, fmt.Sprintf("windows leave %d prongs %s wide; they are %s deep, with drill holes of %s at their lower corners",
		len(u.plan.Prongs), words.Length(c, u.plan.WidthMM), words.Length(c, u.plan.DepthMM), words.Length(c, u.plan.DrillMM)))
	return d
}
