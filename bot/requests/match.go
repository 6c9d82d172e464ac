package requests

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/forming"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
	"guildhand/calc/tubeset"
	"guildhand/calc/units"
)

func matchRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "match",
		Summary: "which stones fit a tube, a strip, an offcut or a block hole",
		Detail: "Give one of tube, strip, offcut, or hole (or a block), with the metal's thickness. The answer ranks the calibrated stone sizes by how well they fit, " +
			"for the lean, allowance and rim that you work with. Depths are typical ones: measure the stone before you cut.",
		Options: matchOptions(),
		Retired: notOfMatch(),
		Examples: []catalogue.Example{
			{Line: "match tube tube-10x1", Summary: "a tube of the workshop"},
			{Line: "match tubesize 8x0.8 sterling outline oval", Summary: "any tube, outer diameter x wall"},
			{Line: "match strip 28x6 20ga sterling", Summary: "a strip, length x height, as a collar"},
			{Line: "match offcut 30x12 22ga sterling", Summary: "a piece of sheet, for a collet's blank"},
			{Line: "match hole 10.5x8.5 oval 20ga", Summary: "a hole of a block"},
			{Line: "match block demo-pear 0.8mm", Summary: "every hole of a block"},
		},
		Answer: answerMatch,
	}
}

// notOfMatch are the words that match does not take.
func notOfMatch() map[string]string {
	words := retiredBearing()
	words["traced"] = "match looks up calibrated sizes, and a traced stone has a size of its own: ask for its bezel, collar or collet (bezel traced NAME), and compare the strip or blank with what you have"
	return words
}

func matchOptions() []catalogue.Option {
	size := func(name, alias, summary string, suggest ...string) catalogue.Option {
		return catalogue.Option{
			Name: name, Aliases: []string{alias}, Summary: summary,
			Kind: catalogue.Size, Min: 0.1, Max: 400, Suggest: suggest,
		}
	}
	options := []catalogue.Option{
		tubeOption(),
		size("tubesize", "tube-size", "a tube: outer diameter x wall, mm", "8x0.8", "10x1"),
		size("strip", "band", "a strip: length x height, mm", "28x6"),
		size("offcut", "piece", "a rectangle of sheet: length x width, mm", "30x12"),
		size("hole", "opening", "a block hole's opening at the face: length x width, mm", "10x8"),
		blockOption(),
		{
			Name: "outline", Aliases: []string{"shape"},
			Summary: "only stones of this outline; of a hole, its outline",
			Kind:    catalogue.Word, Choices: option.Outlines(), Bare: true,
		},
		option.Alloy(), option.Thickness(),
	}
	for i := range options {
		// One thing is matched at a time.
		others := []string{"tube", "tubesize", "strip", "offcut", "hole", "block"}
		if slices.Contains(others, options[i].Name) {
			options[i].Excludes = append(options[i].Excludes, slices.DeleteFunc(others, func(n string) bool { return n == options[i].Name })...)
			options[i].Bench = false
		}
	}
	for _, o := range colletOptions() {
		switch o.Name {
		case "lean", "included", "allowance", "rim", "clearance", "ledge", "neutral", "kerf", "units":
			options = append(options, o)
		}
	}
	return options
}

// match is one calibrated stone that a piece of stock serves.
type match struct {
	stone stone.Calibrated
	// effort ranks: 0 is a perfect fit.
	effort float64
	// words say how it fits, and more says what the working adds.
	words, more string
	// spec is the setting that it makes, cut the strip for it, hole the hole that
	// it goes into.
	spec setting.Spec
	cut  [2]float64
	hole outline.Size
}

// matcher goes through the calibrated stones with one maker's usual values.
type matcher struct {
	lean            units.Angle
	allowance, wall float64
	// smooth and sharp are how the metal bends on outlines without and with
	// corners.
	smooth, sharp neutral
	alloy         stock.Alloy  // for the cautions
	kind          outline.Kind // "" for all
	call          *catalogue.Call
	looked        int
	// As typed, or by the bench: hasRim and hasLedge tell a 0 from none.
	clearanceMM, rimMM, ledgeMM float64
	hasRim, hasLedge            bool
	// telling keeps the call to one stone at a time.
	telling sync.Mutex
	// draw is the picture of the best match.
	draw func(match) template.Drawing
}

func answerMatch(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	m := &matcher{
		alloy:     alloy,
		lean:      option.Leaning(c),
		allowance: c.Number("allowance"),
		kind:      outline.Kind(c.Word("outline")), call: c,
		clearanceMM: c.Number("clearance"), rimMM: c.Number("rim"), ledgeMM: c.Number("ledge"),
		hasRim: c.Args.Has("rim"), hasLedge: c.Args.Has("ledge"),
	}
	if err := m.calibrated(); err != nil {
		return nil, err
	}
	if c.Args.Has("tube") || c.Args.Has("tubesize") {
		return m.tube() // which brings its own wall
	}
	m.wall = c.Number("thickness")
	said := m.bends(ctx)
	a, err := m.sheet()
	if err == nil {
		a.Assumptions = append(a.Assumptions, said...)
	}
	return a, err
}

// bends settles where the metal keeps its length: as typed, as the maker's kept
// trials tell, or as usual. said is what was assumed.
func (m *matcher) bends(ctx context.Context) (said []string) {
	m.smooth, _ = neutralOf(ctx, m.call, m.alloy.Key, m.wall, false)
	m.sharp, said = neutralOf(ctx, m.call, m.alloy.Key, m.wall, true)
	return said
}

// sheet matches what is made of sheet.
func (m *matcher) sheet() (*answer.Answer, error) {
	c := m.call
	switch {
	case c.Args.Has("strip"):
		return m.strip()
	case c.Args.Has("offcut"):
		return m.offcut()
	case c.Args.Has("hole"), c.Args.Has("block"):
		return m.block()
	}
	return nil, answer.Refuse("match strip 28x6 20ga sterling", "what do you want to match? Name a tube, a tubesize, a strip, an offcut, a hole or a block")
}

// calibrated refuses an outline that is not cut to calibrated sizes.
func (m *matcher) calibrated() error {
	if m.kind == "" || slices.ContainsFunc(stone.CalibratedSizes(), func(s stone.Calibrated) bool { return s.Kind == m.kind }) {
		return nil
	}
	return answer.Refuse("match hole 10.5x8.5 oval 20ga", "I know no calibrated sizes of a %s: use collar or collet for your stone", m.kind)
}

// two reads the two numbers of an option.
func (m *matcher) two(name, try string) (a, b float64, err error) {
	n := m.call.Value(name).Numbers
	if len(n) != 2 {
		return 0, 0, answer.Refuse(try, "a %s has two measures in mm: %s", name, strings.TrimPrefix(try, "match "))
	}
	return n[0], n[1], nil
}

// each visits the calibrated stones with their curve, typical depth and the
// wall's height, several at a time: what visit does with the call it does in told.
func (m *matcher) each(visit func(curve outline.Curve, depthMM, heightMM float64) (match, bool)) []match {
	var stones []stone.Calibrated
	for _, s := range stone.CalibratedSizes() {
		if m.kind == "" || s.Kind == m.kind {
			stones = append(stones, s)
		}
	}
	m.looked = len(stones)
	found, fits := make([]match, len(stones)), make([]bool, len(stones))
	inParallel(len(stones), func(i int) {
		s := stones[i]
		curve, err := outline.New(outline.Shape{Kind: s.Kind, Size: s.Size})
		if err != nil {
			return
		}
		depth := stone.TypicalDepthMM(s.Kind, s.Size)
		found[i], fits[i] = visit(curve, depth, depth+m.allowance)
		found[i].stone = s
	})
	var list []match
	for i, ok := range fits {
		if ok {
			list = append(list, found[i])
		}
	}
	slices.SortStableFunc(list, func(a, b match) int { return cmp.Compare(a.effort, b.effort) })
	return list
}

// told words a match, one at a time: a call notes what was asked of it.
func (m *matcher) told(words func() string) string {
	m.telling.Lock()
	defer m.telling.Unlock()
	return words()
}

// inParallel does n pieces of work on the processors that there are. A panic in one
// is the caller's.
func inParallel(n int, work func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	var failed atomic.Pointer[any]
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					failed.Store(&r)
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	wait.Wait()
	if r := failed.Load(); r != nil {
		panic(*r)
	}
}

// collet is the setting of a stone as collet would make it. ok is false where it
// can't be made.
func (m *matcher) collet(curve outline.Curve, depthMM, heightMM float64) (setting.Spec, bool) {
	s := setting.Spec{
		Stone: curve, HeightMM: heightMM, ClearanceMM: m.clearanceMM, LedgeMM: m.ledgeMM,
		Lean: m.lean, Taper: setting.Even, ThicknessMM: m.wall,
		Solid: seat.NewStone(curve, depthMM, seat.Given{}),
	}
	s.CuletMM = s.Solid.PavilionMM
	n := m.smooth
	if !curve.Smooth() {
		n = m.sharp
	}
	s.NeutralFactor, s.CornerFactor, s.KerfMM = n.factor, n.corner, n.kerfMM
	s.RimMM = m.rimMM
	if !m.hasRim {
		s.RimMM = s.Solid.DefaultRimMM(s.ClearanceMM)
	}
	if !m.hasLedge {
		if s.LedgeMM = seat.DefaultLedgeMM(s.Wall(), s.Solid.WidthMM); s.LedgeMM <= 0 {
			return s, false
		}
	}
	return s, true
}

// collarOfCollet is the straight collar that a block tapers to a collet.
func collarOfCollet(s setting.Spec) forming.Collar {
	return forming.Collar{Outline: s.Stone, RimOffsetMM: s.FaceMM(s.RimMM), Lean: s.Lean, HeightMM: s.HeightMM, WallMM: s.ThicknessMM}
}

func (m *matcher) tube() (*answer.Answer, error) {
	c := m.call
	var t stock.Tube
	if c.Args.Has("tube") {
		var ok bool
		if t, ok = tubeNamed(c.Shop, c.Word("tube")); !ok {
			return nil, answer.Refuse("match tubesize 8x0.8 sterling", "there is no tube %q in the workshop", c.Word("tube"))
		}
	} else {
		outer, wall, err := m.two("tubesize", "match tubesize 8x0.8")
		if err != nil {
			return nil, err
		}
		if wall >= outer/2 {
			return nil, answer.Refuse("match tubesize 8x0.8", "a tube %s outside can't have a wall of %s: it must be less than half of that", words.Length(c, outer), words.Length(c, wall))
		}
		t.OuterMM, t.WallMM = outer, wall
		t.Name = "a tube"
	}
	m.wall = t.WallMM
	list := m.each(func(curve outline.Curve, depthMM, heightMM float64) (match, bool) {
		s, ok := m.collet(curve, depthMM, heightMM)
		if !ok {
			return match{}, false
		}
		f := forming.FitTube(collarOfCollet(s), t)
		if !f.Serves || !laid(s) {
			return match{}, false
		}
		effort := math.Abs(f.Stretch)
		if f.Stretch > 0 {
			effort *= 2
		}
		return match{effort: effort, words: m.told(func() string {
			return fmt.Sprintf("%s, cut %s", stretchWords(f.Stretch), words.Length(c, f.Wall.StripHeightMM))
		}), spec: s}, true
	})
	m.draw = func(best match) template.Drawing { return m.tubeDrawing(t, best) }
	what := fmt.Sprintf("%s, %s outside, wall %s", t.Name, words.Length(c, t.OuterMM), words.Length(c, t.WallMM))
	a, err := m.answer(what, list, "as a collar")
	if err != nil {
		return nil, err
	}
	if t.WallMM < forming.HeavyMM {
		a.Notes = append(a.Notes, fmt.Sprintf("a wall of %s is light for a seat; from %s is usual (common practice, no source)", words.Length(c, t.WallMM), words.Length(c, forming.HeavyMM)))
	}
	if c.Args.Has("tube") {
		a.Assumptions = append(a.Assumptions, demoShop(c.Shop, t.Name)...)
	}
	a.Assumptions = append(a.Assumptions, fmt.Sprintf("a tube is squeezed by %.0f %% at most and stretched by %.0f %% (common practice, no source)", 100*forming.MaxSqueeze, 100*forming.MaxStretch))
	if stone := t.OuterMM - t.WallMM; (m.kind == "" || m.kind == outline.Round) && (tubeset.Tube{OuterMM: t.OuterMM, WallMM: t.WallMM}).Serves(stone) == nil {
		a.Notes = append(a.Notes, fmt.Sprintf("as a tube setting it takes a round stone of about %s, which covers half of the wall: tubeset round %s tubesize %sx%s",
			words.Length(c, stone), words.MM(stone), words.MM(t.OuterMM), words.MM(t.WallMM)))
	}
	does(a, c, m.alloy, append(treatment.AnnealJobs(m.alloy), cautions.Saw, cautions.Press)...)
	return a, nil
}

func (m *matcher) strip() (*answer.Answer, error) {
	c := m.call
	length, height, err := m.two("strip", "match strip 28x6 20ga")
	if err != nil {
		return nil, err
	}
	length, height = max(length, height), min(length, height)
	list := m.each(func(curve outline.Curve, depthMM, heightMM float64) (match, bool) {
		s, ok := m.collet(curve, depthMM, heightMM)
		if !ok {
			return match{}, false
		}
		cut, err := stripOf(s, s.Stone.Places[0])
		need := cut.LengthMM + s.KerfMM + usualFilingMM
		if err != nil || need > length+1e-9 {
			return match{}, false
		}
		w, err := forming.NewWall(collarOfCollet(s))
		if err != nil {
			return match{}, false
		}
		tall := w.StripHeightMM + s.KerfMM
		if tall > height+1e-9 || !laid(s) {
			return match{}, false
		}
		waste := 1 - need*tall/(length*height)
		return match{effort: waste, words: m.told(func() string { return fmt.Sprintf("%s, %.0f %% left", words.Size(c, need, tall), 100*waste) }), spec: s, cut: [2]float64{need, tall}}, true
	})
	m.draw = func(best match) template.Drawing { return m.sheetDrawing(length, height, best) }
	a, err := m.answer(fmt.Sprintf("A strip %s of %s", words.Size(c, length, height), words.Thickness(c, c.Value("thickness"))), list, "as a collar")
	if err != nil {
		return nil, err
	}
	a.Assumptions = append(a.Assumptions, fmt.Sprintf("%.2g mm for filing the joint (common practice, no source)", usualFilingMM))
	does(a, c, m.alloy, cautions.Saw, cautions.Files, cautions.Press)
	return a, nil
}

// laid reports whether collet can make the setting.
func laid(s setting.Spec) bool {
	_, err := setting.Lay(s)
	return err == nil
}

func (m *matcher) offcut() (*answer.Answer, error) {
	c := m.call
	length, width, err := m.two("offcut", "match offcut 30x12 22ga")
	if err != nil {
		return nil, err
	}
	length, width = max(length, width), min(length, width)
	const marginMM = 0.5
	list := m.each(func(curve outline.Curve, depthMM, heightMM float64) (match, bool) {
		s, ok := m.collet(curve, depthMM, heightMM)
		if !ok {
			return match{}, false
		}
		l, err := setting.Lay(s)
		if err != nil {
			return match{}, false
		}
		long, short := max(l.Flat.WidthMM, l.Flat.HeightMM)+2*marginMM, min(l.Flat.WidthMM, l.Flat.HeightMM)+2*marginMM
		if long > length || short > width {
			return match{}, false
		}
		waste := 1 - l.Flat.AreaMM2/(length*width)
		return match{effort: waste, words: m.told(func() string {
			return fmt.Sprintf("blank %s, %.0f %% used", words.Size(c, l.Flat.WidthMM, l.Flat.HeightMM), 100*(1-waste))
		}), spec: s}, true
	})
	m.draw = func(best match) template.Drawing { return m.sheetDrawing(length, width, best) }
	a, err := m.answer(fmt.Sprintf("An offcut %s of %s", words.Size(c, length, width), words.Thickness(c, c.Value("thickness"))), list, "as a collet's blank")
	if err != nil {
		return nil, err
	}
	a.Assumptions = append(a.Assumptions, "0.5 mm all round for the saw (common practice, no source)")
	does(a, c, m.alloy, cautions.Saw, cautions.Files)
	return a, nil
}

// block matches a hole, or every hole of a block.
func (m *matcher) block() (*answer.Answer, error) {
	c := m.call
	b, what, err := m.blockOrHole()
	if err != nil {
		return nil, err
	}
	m.kind, m.lean = b.Kind, b.Lean
	if err := m.calibrated(); err != nil {
		return nil, err
	}
	if m.lean <= 0 {
		return nil, answer.Refuse(c.Retyped(map[string]string{"lean": "8.5", "included": ""}), "a block's hole has a lean of more than 0°")
	}
	var shape atomic.Pointer[error]
	list := m.each(func(curve outline.Curve, depthMM, heightMM float64) (match, bool) {
		s, ok := m.collet(curve, depthMM, heightMM)
		if !ok {
			return match{}, false
		}
		rim, ok := outerRimOf(s)
		if !ok {
			return match{}, false
		}
		holes, err := forming.Holes(b, rim)
		if err != nil {
			shape.Store(&err)
			return match{}, false
		}
		return m.inLastHole(b, s, rim.Size(), holes)
	})
	m.draw = m.holeDrawing
	if err := shape.Load(); err != nil {
		return nil, answer.Refuse("match hole 10.5x8.5 oval 20ga", "the hole: %s", *err)
	}
	a, err := m.answer(fmt.Sprintf("%s, with a wall of %s", what, words.Thickness(c, c.Value("thickness"))), list, "as its last hole")
	if err != nil {
		return nil, err
	}
	if c.Args.Has("block") {
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("lean %.4g° (the block's)", b.Lean.Degrees()))
		a.Assumptions = append(a.Assumptions, demoShop(c.Shop, b.Name)...)
	}
	does(a, c, m.alloy, append(treatment.AnnealJobs(m.alloy), cautions.Press)...)
	return a, nil
}

// blockOrHole is the block of the call, or a block of the one hole that was
// given; what names it.
func (m *matcher) blockOrHole() (b stock.Block, what string, err error) {
	c := m.call
	if c.Args.Has("block") {
		b, ok := blockNamed(c.Shop, c.Word("block"))
		if !ok {
			return b, "", answer.Refuse("match hole 10.5x8.5 oval 20ga", "there is no block %q in the workshop", c.Word("block"))
		}
		if m.kind != "" && m.kind != b.Kind {
			return b, "", answer.Refuse(c.Retyped(map[string]string{"outline": ""}), "block %s has %s holes, not %s", b.Name, b.Kind, m.kind)
		}
		return b, "Block " + b.Name, nil
	}
	if m.kind == "" {
		return b, "", answer.Refuse(c.Retyped(map[string]string{"outline": "oval"}), "which outline does the hole have? round, oval, pear ...")
	}
	var hole outline.Size
	stoneSize(c.Value("hole").Numbers).put(&hole)
	b = stock.Block{Kind: m.kind, Lean: m.lean, Holes: []outline.Size{m.kind.Filled(hole)}}
	return b, fmt.Sprintf("%s hole of %s", words.Capital(words.Article(string(m.kind))), holeSize(c, b.Holes[0])), nil
}

// outerRimOf is the outside of a collet's rim, where there is such a collet.
func outerRimOf(s setting.Spec) (outline.Curve, bool) {
	w, err := forming.NewWall(collarOfCollet(s))
	if err != nil || !laid(s) {
		return outline.Curve{}, false
	}
	rim, err := w.OuterRim()
	return rim, err == nil
}

// inLastHole is how a collet fits the smallest hole of a block that its rim
// still goes into.
func (m *matcher) inLastHole(b stock.Block, s setting.Spec, rim outline.Size, holes []forming.Hole) (match, bool) {
	last := -1
	for i, h := range holes {
		if h.GapMM >= 0 {
			last = i
		}
	}
	if last < 0 {
		return match{}, false
	}
	h := holes[last]
	// What the collar sinks in the last hole is not tapered by a flat plate.
	if b.ThicknessMM > 0 && h.GapMM/m.lean.Tan() > b.ThicknessMM || h.GapMM > 1 {
		return match{}, false
	}
	m.telling.Lock()
	defer m.telling.Unlock()
	c := m.call
	fits, more := fmt.Sprintf("play %s", words.Length(c, h.GapMM)), fmt.Sprintf(", rim %s outside", holeSize(c, rim))
	if len(holes) > 1 {
		fits = fmt.Sprintf("%s, ", holeSize(c, h.Size)) + fits
	}
	if h.UnevenMM > 0.2 {
		more += fmt.Sprintf(", %s more play in places", words.Length(c, h.UnevenMM))
	}
	return match{effort: h.GapMM + h.UnevenMM/2, words: fits, more: more, spec: s, hole: h.Size}, true
}

// listed is how many stones an answer names in its working.
const listed = 24

// answer composes the ranking. A piece that serves no calibrated stone is
// refused, with a request that asks the right way round.
func (m *matcher) answer(what string, list []match, as string) (*answer.Answer, error) {
	c := m.call
	if len(list) == 0 {
		whose := "calibrated stone"
		if m.kind != "" {
			whose = fmt.Sprintf("calibrated %s", m.kind)
		}
		return nil, answer.Refuse("match strip 28x6 20ga sterling", "%s fits no %s of %d that were tried; for your own stone use collet or collar", lower(what), whose, m.looked)
	}
	best := list[0]
	a := &answer.Answer{
		Headline: fmt.Sprintf("%s is best for %s, %s.", words.Capital(what), words.Article(stoneName(c, best.stone)), as),
		Assumptions: []string{"depths typical, measure (estimates: common practice, no source)",
			fmt.Sprintf("calibrated sizes within %.1f mm (rounds, ovals, cut-corner rectangles and marquises as published, the others common practice, no source)", stone.CalibratedFitMM)},
	}
	for i, f := range list {
		name := stoneName(c, f.stone)
		if i < 6 {
			a.Figures = append(a.Figures, answer.Figure{ID: fmt.Sprintf("fit_%d", i+1), Label: name, Value: 100 * f.effort, Unit: answer.Percent, Text: f.words, Main: true})
		}
		if i < listed {
			a.Steps = append(a.Steps, fmt.Sprintf("%d: %s: %s%s", i+1, name, f.words, f.more))
		}
	}
	if len(list) > listed {
		a.Steps = append(a.Steps, fmt.Sprintf("and %d more", len(list)-listed))
	}
	a.Figures = append(a.Figures,
		answer.Figure{ID: "served", Label: "calibrated stones served", Value: float64(len(list)), Unit: answer.Count},
		answer.Figure{ID: "looked_at", Label: "calibrated stones looked at", Value: float64(m.looked), Unit: answer.Count})
	m.pictured(a, m.draw(best), best)
	return a, nil
}

func stoneName(c *catalogue.Call, s stone.Calibrated) string {
	return strings.ReplaceAll(string(s.Kind), "-", " ") + " " + holeSize(c, s.Size)
}

// lower makes the first letter small, for use inside a sentence.
func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
