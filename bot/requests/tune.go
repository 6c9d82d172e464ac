package requests

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
	"guildhand/calc/tuning"
)

func tuneRequest(book *daybook.Book) catalogue.Spec {
	return catalogue.Spec{
		Name:    "tune",
		Summary: "from a measured trial piece: how much to change the next blank",
		Detail: "Type the collet as you asked for it, and what you measured on the formed piece: rimgot and basegot (length x width), " +
			"outside unless you say inner, and heightgot where you have it. guildhand saves the correction for you, the alloy and the thickness, and uses it " +
			"in your next blanks. tune show lists what is kept; tune drop forgets it.",
		Keeps:   true,
		Options: tuneOptions(),
		Parts: []catalogue.Part{
			{Name: "trial", Summary: "correct your blanks by a trial piece that you measured", Options: []string{
				"outline", "size", "depth", "alloy", "thickness", "rimgot", "basegot", "heightgot", "face",
			}},
			{Name: "show", Summary: "what is kept for you", Sets: map[string]string{"action": "show"}},
			{Name: "drop", Summary: "forget a correction", Sets: map[string]string{"action": "drop"}, Options: []string{"id"}},
		},
		Retired: retiredBearing(),
		Examples: []catalogue.Example{
			{Line: "tune oval 8x6 depth 4 sterling 22ga rimgot 9.16x7.16 basegot 7.48x5.48", Summary: "rim and base measured outside"},
			{Line: "tune round 6 height 5 copper 0.8mm rimgot 5.75 basegot 4.27 inner", Summary: "measured inside"},
			{Line: "tune show", Summary: "what is kept for you"},
			{Line: "tune drop", Summary: "forget it"},
		},
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			switch c.Word("action") {
			case "show":
				return tuneShow(ctx, c)
			case "drop":
				return tuneDrop(ctx, c, book)
			}
			return tuneTrial(ctx, c, book)
		},
	}
}

func tuneOptions() []catalogue.Option {
	options := []catalogue.Option{
		{
			Name: "action", Summary: "show what is kept, or drop it",
			Kind: catalogue.Word, Bare: true,
			Choices: []catalogue.Choice{
				{Key: "show", Aliases: []string{"list"}, Summary: "list your corrections"},
				{Key: "drop", Aliases: []string{"forget"}, Summary: "forget a correction"},
			},
		},
		{
			Name: "id", Summary: "number of the correction to drop, as tune show lists it",
			Kind: catalogue.Integer, Min: 1, Max: 1e9,
		},
	}
	for _, o := range colletOptions() {
		switch o.Name {
		case "precone", "paper":
			continue
		case "outline", "size":
			o.Unless = append(slices.Clone(o.Unless), "action")
		case "lean":
			options = append(options, trialOptions()...) // before what is seldom typed
		}
		options = append(options, o)
	}
	return options
}

// trialOptions are what was measured on a trial piece, and how.
func trialOptions() []catalogue.Option {
	measured := func(name, alias, summary string) catalogue.Option {
		return catalogue.Option{
			Name: name, Aliases: []string{alias}, Summary: summary,
			Kind: catalogue.Size, Min: 0.5, Max: option.MaxSideMM, Form: true,
		}
	}
	return []catalogue.Option{
		measured("rimgot", "measured-rim", "the formed rim as measured, length x width"),
		measured("basegot", "measured-base", "the formed base as measured, length x width"),
		{
			Name: "heightgot", Aliases: []string{"measured-height"},
			Summary: "the formed height as measured, rim to base",
			Kind:    catalogue.Length, Min: 0.5, Max: 90, Form: true,
		},
		{
			Name: "face", Summary: "where rim and base were measured: outer or inner",
			Kind: catalogue.Word, Bare: true, Default: "outer", DefaultNote: "default",
			Choices: []catalogue.Choice{
				{Key: "outer", Aliases: []string{"outside"}, Summary: "over the outside"},
				{Key: "inner", Aliases: []string{"inside"}, Summary: "on the inside"},
			},
		},
		{
			Name: "calipers", Aliases: []string{"caliper-spread"},
			Summary: "what your calipers are good for on a formed piece, mm",
			Kind:    catalogue.Length, Min: 0.001, Max: 0.5, Default: "0.05", DefaultNote: option.Practice, Suggest: []string{"0.02", "0.05", "0.1"},
		},
		{
			Name: "pieces", Aliases: []string{"mean-of"},
			Summary: "how many trial pieces these measures are the mean of",
			Kind:    catalogue.Integer, Min: 1, Max: 20, Default: "1", DefaultNote: "default",
		},
		{
			Name: "again", Aliases: []string{"remeasured"},
			Summary: "the piece of the last trial, measured again: it stays one trial",
			Kind:    catalogue.Flag,
		},
		{
			Name: "cut", Aliases: []string{"as-cut"},
			Summary: "rim x base of the blank as you cut it, along the edges; else as collet answers",
			Kind:    catalogue.Size, Min: 1, Max: 700,
		},
	}
}

// tuneCautions are for a piece that is measured, corrected and cut again.
func tuneCautions(alloy stock.Alloy) []string {
	return cautions.Lines(cautions.Work{Jobs: []cautions.Job{cautions.Files, cautions.Saw}, Alloy: alloy})
}

// sizeOf reads a measured size; one number is both extents.
func sizeOf(n []float64) outline.Size {
	switch len(n) {
	case 0:
		return outline.Size{}
	case 1:
		return outline.Size{LengthMM: n[0], WidthMM: n[0]}
	}
	return outline.Size{LengthMM: n[0], WidthMM: n[1]}
}

func tuneTrial(ctx context.Context, c *catalogue.Call, book *daybook.Book) (*answer.Answer, error) {
	u, err := colletOf(ctx, c)
	if err != nil {
		return nil, err
	}
	m, err := measuredPiece(c, u)
	if err != nil {
		return nil, err
	}
	try := asDrawn(c, u, m.Inner)
	if m.RimMM == (outline.Size{}) && m.BaseMM == (outline.Size{}) {
		return nil, answer.Refuse(try, "what did the formed piece measure? type rimgot, basegot or both, length x width in mm")
	}
	trial, err := tuning.Read(u.stone.words(c), u.Collet, m)
	var reading *tuning.ReadingError
	if errors.As(err, &reading) {
		return nil, answer.Refuse(try, "%s", reading.Problem)
	}
	if err != nil {
		return nil, err
	}
	before, had := keptCorrection(ctx, c, u.alloy.Key, u.ThicknessMM)
	trials, err := withTrial(c, before.Trials, trial)
	if err != nil {
		return nil, err
	}
	res, err := tuning.Solve(trials)
	if errors.Is(err, tuning.ErrNoReadings) {
		return nil, answer.Refuse(try, "a height alone does not show where the metal keeps its length: give rimgot or basegot too")
	}
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Assumptions: tuneAssumptions(c, u, m), Cautions: tuneCautions(u.alloy)}
	if err := tuneFigures(a, u.Spec, res, trials); err != nil {
		res.Contradiction = "no blank can have all these measures"
	}
	a.Steps = tuneSteps(c, trials, res)
	tunePicture(c, a, u, res)
	sheet := fmt.Sprintf("%s of %s", u.alloy.Name, words.Thickness(c, c.Value("thickness")))
	if res.Contradiction != "" {
		a.Headline = fmt.Sprintf("Not kept: the readings for %s contradict each other.", sheet)
		a.Notes = append(a.Notes, res.Contradiction, "measure a true piece without burr again, inside or outside as you said; "+
			"if an earlier trial was wrong, tune drop forgets it")
		return a, nil
	}
	id, note, err := tuneKeep(ctx, c, book, u, res, trials)
	if err != nil {
		return nil, err
	}
	if note != "" {
		a.Headline = fmt.Sprintf("Next time use neutral factor %.3f and kerf %s for %s.", res.NeutralFactor, words.Length(c, res.KerfMM), sheet)
		a.Notes = append(a.Notes, note)
		return a, nil
	}
	tellKept(c, a, id, had, sheet, res, trials)
	return a, nil
}

// tellKept says that a correction is kept, and what it was solved from.
func tellKept(c *catalogue.Call, a *answer.Answer, id int64, had bool, sheet string, res tuning.Result, trials []tuning.Trial) {
	verb := "Kept"
	if had {
		verb = "Kept, in place of the earlier one,"
	}
	a.Headline = fmt.Sprintf("%s for your %s: factor %.3f, kerf %s, from %s; your next blanks use it.",
		verb, sheet, res.NeutralFactor, words.Length(c, res.KerfMM), trialCount(len(trials)))
	a.Steps = append(a.Steps, fmt.Sprintf("to forget it: tune drop id %d", id), "ask for the next blank: "+colletLine(c))
	if len(trials) < 3 {
		a.Notes = append(a.Notes, fmt.Sprintf("from %s: good to %.2f of the factor, %.2f mm of the kerf; two or three trials settle it",
			trialCount(len(trials)), res.FactorErr, res.KerfErrMM))
	}
}

// measuredPiece is what the maker measured on the formed piece, and the blank as
// it was cut.
func measuredPiece(c *catalogue.Call, u colletUsed) (tuning.Measured, error) {
	usual := usualNeutral(bendsSharply(u.Spec))
	m := tuning.Measured{
		RimMM: sizeOf(c.Value("rimgot").Numbers), BaseMM: sizeOf(c.Value("basegot").Numbers),
		HeightMM: c.Number("heightgot"), Inner: c.Word("face") == "inner",
		CalipersMM:  c.Number("calipers") / math.Sqrt(c.Number("pieces")),
		UsualFactor: usual.factor, UsualCorner: usual.corner,
	}
	switch cut := c.Value("cut").Numbers; len(cut) {
	case 1:
		return m, answer.Refuse(c.Retyped(map[string]string{"cut": sizeText(u.Flat.RimLengthMM, u.Flat.BaseLengthMM)}),
			"a blank as cut has two edges: rim x base, in mm along the edges")
	case 2:
		m.CutRimMM, m.CutBaseMM = max(cut[0], cut[1]), min(cut[0], cut[1])
	}
	return m, nil
}

// asDrawn is the line with the measures that a perfect piece would have.
func asDrawn(c *catalogue.Call, u colletUsed, inner bool) string {
	rim, base := u.RimOutside, u.BaseOutside
	if inner {
		rim, base = u.RimInside, u.BaseInside
	}
	return c.Retyped(map[string]string{
		"rimgot":  sizeText(rim.LengthMM, rim.WidthMM),
		"basegot": sizeText(base.LengthMM, base.WidthMM), "heightgot": "", "cut": "",
	})
}

// withTrial adds a trial to those that are kept. A trial that is told again is
// not another one, nor is a piece that is measured again.
func withTrial(c *catalogue.Call, kept []tuning.Trial, trial tuning.Trial) ([]tuning.Trial, error) {
	trials := slices.DeleteFunc(slices.Clone(kept), trial.Same)
	if !c.Args.Has("again") {
		return append(trials, trial), nil
	}
	last := len(trials) - 1
	if last < 0 {
		return nil, answer.Refuse(c.Retyped(map[string]string{"again": ""}), "there is no earlier trial of this metal to measure again")
	}
	mean, ok := trials[last].MeanWith(trial)
	if !ok {
		return nil, answer.Refuse(c.Retyped(map[string]string{"again": ""}), "your last trial was of another piece (%s), or you gave other measures of it", trials[last].Piece)
	}
	trials[last] = mean
	return trials, nil
}

func sizeText(l, w float64) string { return words.MM(l) + "x" + words.MM(w) }

func tuneAssumptions(c *catalogue.Call, u colletUsed, m tuning.Measured) []string {
	list := slices.Clone(u.assumptions)
	if m.CutRimMM == 0 {
		list = append(list, fmt.Sprintf("blank cut %s at the rim, %s at the base (as collet answers now; if yours differed, add cut RIMxBASE)",
			words.Length(c, u.Flat.RimLengthMM), words.Length(c, u.Flat.BaseLengthMM)))
	}
	return append(list, fmt.Sprintf("makers differ by %.2f of the factor and %.2g mm of kerf about the usual (common practice, no source)", tuning.FactorSpread, tuning.KerfSpreadMM))
}

// tuneFigures puts what was found and the next blank of the same piece into
// the answer.
func tuneFigures(a *answer.Answer, spec setting.Spec, res tuning.Result, trials []tuning.Trial) error {
	readings := 0
	for _, t := range trials {
		readings += len(t.Readings)
	}
	a.Figures = []answer.Figure{
		{ID: "neutral_factor", Label: "neutral factor", Value: res.NeutralFactor, Unit: answer.Ratio, Main: res.Contradiction != ""},
		{ID: "kerf", Label: "kerf, between two edges", Value: res.KerfMM, Unit: answer.MM, Main: res.Contradiction != ""},
	}
	plain := usualNeutral(bendsSharply(spec))
	untuned := tuned(spec, plain.factor, 0)
	untuned.CornerFactor = plain.corner
	usual, err := setting.Lay(untuned)
	if err != nil {
		return err
	}
	next, err := setting.Lay(tuned(spec, res.NeutralFactor, res.KerfMM))
	if err != nil {
		return err
	}
	const step = 0.01
	farther, err := setting.Lay(tuned(spec, res.NeutralFactor+step, res.KerfMM))
	if err != nil {
		return err
	}
	wider, err := setting.Lay(tuned(spec, res.NeutralFactor, res.KerfMM+step))
	if err != nil {
		return err
	}
	rim := next.Flat.RimLengthMM
	rimErr := res.LengthErrMM((farther.Flat.RimLengthMM-rim)/step, (wider.Flat.RimLengthMM-rim)/step)
	a.Figures = append(a.Figures,
		answer.Figure{ID: "next_rim_error", Label: "next rim, good to about", Value: rimErr, Unit: answer.MM},
		answer.Figure{ID: "next_rim_length", Label: "next blank, rim along the edge", Value: next.Flat.RimLengthMM, Unit: answer.MM, Main: true},
		answer.Figure{ID: "next_base_length", Label: "next blank, base along the edge", Value: next.Flat.BaseLengthMM, Unit: answer.MM, Main: true},
		answer.Figure{ID: "rim_change", Label: "rim, change by it", Value: next.Flat.RimLengthMM - usual.Flat.RimLengthMM, Unit: answer.MM, Main: true},
		answer.Figure{ID: "unexplained", Label: "left unexplained, mean", Value: res.RMSMM, Unit: answer.MM, Main: true},
		answer.Figure{ID: "trials", Label: "trials", Value: float64(len(trials)), Unit: answer.Count},
		answer.Figure{ID: "readings", Label: "readings", Value: float64(readings), Unit: answer.Count},
		answer.Figure{ID: "factor_error", Label: "neutral factor, standard error", Value: res.FactorErr, Unit: answer.Ratio},
		answer.Figure{ID: "kerf_error", Label: "kerf, standard error", Value: res.KerfErrMM, Unit: answer.MM},
	)
	return nil
}

// tuned is the piece with a bench's factor and kerf.
func tuned(s setting.Spec, factor, kerfMM float64) setting.Spec {
	s.NeutralFactor, s.CornerFactor, s.KerfMM = factor, factor, kerfMM
	return s
}

func tuneSteps(c *catalogue.Call, trials []tuning.Trial, res tuning.Result) []string {
	steps := []string{
		"every cut edge lies half a kerf inside its line; drawn length = formed length at factor 0 + A x factor + E x kerf",
	}
	for i, t := range trials {
		for _, r := range t.Readings {
			steps = append(steps, fmt.Sprintf("trial %d, %s, %s: %s drawn, %s formed, A %.2f mm, E %.3f",
				i+1, t.Piece, r.Kind, words.Length(c, r.DrawnMM), words.Length(c, r.FormedMM), r.PerFactorMM, r.PerKerf))
		}
	}
	if res.KerfAssumed {
		steps = append(steps, "on a straight wall factor and kerf can't be told apart; each moves by its usual spread")
	}
	return append(steps, fmt.Sprintf("least squares over all readings and the usual values: factor %.3f ± %.3f, kerf %.2f ± %.2f mm", res.NeutralFactor, res.FactorErr, res.KerfMM, res.KerfErrMM))
}

// tuneKeep stores the correction. note is set, instead of an id, where there
// is nobody or nowhere to keep it for.
func tuneKeep(ctx context.Context, c *catalogue.Call, book *daybook.Book, u colletUsed, res tuning.Result, trials []tuning.Trial) (id int64, note string, err error) {
	if book == nil || c.Who.Maker == "" {
		return 0, "not saved: there is no daybook here, or I can't tell who is asking", nil
	}
	raw, err := json.Marshal(trials)
	if err != nil {
		return 0, "", err
	}
	thickness := u.ThicknessMM
	if before, ok := keptCorrection(ctx, c, u.alloy.Key, thickness); ok {
		thickness = before.ThicknessMM // the same sheet, told a little differently
	}
	kept, err := book.KeepCorrection(ctx, daybook.Correction{
		Platform: c.Who.Platform, Maker: c.Who.Maker, Alloy: u.alloy.Key, ThicknessMM: thickness,
		NeutralFactor: res.NeutralFactor, KerfMM: res.KerfMM, Trials: raw,
	})
	return kept.ID, "", err
}

// colletLine is the collet of a trial, to be asked again.
func colletLine(c *catalogue.Call) string {
	line := c.Retyped(map[string]string{"rimgot": "", "basegot": "", "heightgot": "", "face": "", "cut": "", "calipers": "", "pieces": "", "again": "", "action": "", "id": ""})
	return "collet" + strings.TrimPrefix(line, c.Spec.Name)
}

// corrections of the asker; none where nothing is kept.
func corrections(ctx context.Context, c *catalogue.Call) ([]catalogue.Correction, error) {
	if c.Corrections == nil {
		return nil, nil
	}
	return c.Corrections(ctx)
}

func tuneShow(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	all, err := corrections(ctx, c)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Cautions: tuneCautions(stock.Alloy{}),
		Headline: fmt.Sprintf("You have %d corrections.", len(all)),
		Figures:  []answer.Figure{{ID: "corrections", Label: "corrections", Value: float64(len(all)), Unit: answer.Count}},
		Steps:    []string{"a correction is used in your blanks of its alloy and thickness; tune drop id N forgets one"},
	}
	switch len(all) {
	case 0:
		a.Headline = "You have no correction: blanks use the usual neutral factor of 0.5."
	case 1:
		a.Headline = "You have one correction."
	}
	for i, k := range all {
		a.Figures = append(a.Figures, answer.Figure{
			ID: fmt.Sprintf("correction_%d", k.ID), Label: fmt.Sprintf("%d: %s, %s mm", k.ID, k.Alloy, words.MM(k.ThicknessMM)),
			Value: k.NeutralFactor, Unit: answer.Ratio, Main: i < 6,
			Text: fmt.Sprintf("factor %.3f, kerf %s mm, %s", k.NeutralFactor, words.MM(k.KerfMM), trialCount(len(k.Trials))),
		})
		for n, t := range k.Trials {
			a.Steps = append(a.Steps, fmt.Sprintf("%d, trial %d: %s, %d readings", k.ID, n+1, t.Piece, len(t.Readings)))
		}
	}
	return a, nil
}

func tuneDrop(ctx context.Context, c *catalogue.Call, book *daybook.Book) (*answer.Answer, error) {
	all, err := corrections(ctx, c)
	if err != nil {
		return nil, err
	}
	chosen := all
	if id := int64(c.Number("id")); id > 0 {
		chosen = slices.DeleteFunc(slices.Clone(all), func(k catalogue.Correction) bool { return k.ID != id })
	} else {
		chosen = slices.DeleteFunc(slices.Clone(all), func(k catalogue.Correction) bool {
			thickness := c.Number("thickness")
			off := k.ThicknessMM - thickness
			return c.Args.Typed("alloy") && k.Alloy != c.Word("alloy") ||
				c.Args.Typed("thickness") && (off > sameSheetMM || off < -sameSheetMM)
		})
	}
	switch {
	case len(all) == 0:
		return tuneShow(ctx, c)
	case len(chosen) == 0:
		return nil, answer.Refuse("tune show", "you have no such correction; you have %d", len(all))
	case len(chosen) > 1:
		return nil, answer.Refuse(fmt.Sprintf("tune drop id %d", chosen[0].ID), "you have %d corrections: say which, by its number", len(chosen))
	}
	k := chosen[0]
	if err := book.DropCorrection(ctx, c.Who.Platform, c.Who.Maker, k.ID); err != nil {
		return nil, err
	}
	return &answer.Answer{
		Headline: fmt.Sprintf("Dropped: your correction for %s of %s. Blanks use the usual neutral factor of 0.5 again.", k.Alloy, words.Length(c, k.ThicknessMM)),
		Figures: []answer.Figure{
			{ID: "dropped_factor", Label: "neutral factor that was kept", Value: k.NeutralFactor, Unit: answer.Ratio, Main: true},
			{ID: "dropped_kerf", Label: "kerf that was kept", Value: k.KerfMM, Unit: answer.MM, Main: true},
		},
		Steps:    []string{fmt.Sprintf("it came from %s; measure a new trial to keep another", trialCount(len(k.Trials)))},
		Cautions: tuneCautions(stock.Alloy{}),
	}, nil
}
