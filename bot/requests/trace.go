package requests

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"image/png"
	"math"
	"regexp"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/photograph"
	"guildhand/bot/requests/bench"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/outline"
	"guildhand/calc/tracing"
)

// photographsAtOnce is how many are open at the same time: each may take some
// 200 MB.
const photographsAtOnce = 2

// tracer answers trace.
type tracer struct {
	book *daybook.Book
	open chan struct{}
}

func traceRequest(book *daybook.Book) catalogue.Spec {
	t := &tracer{book, make(chan struct{}, photographsAtOnce)}
	return catalogue.Spec{
		Name:    "trace",
		Summary: "a stone's outline from a photograph on the tracing card, or from a paper strip and calipers",
		Detail: "Print the card with trace card, lay the stone on it, and send a photograph from straight above with the word trace. " +
			"Check the outline that comes back, then type trace keep and a name: collet, bezel, collar and others then take traced and that name. " +
			"Without a photograph, give the length of a paper strip round the stone and its length x width, or caliper points. No photograph is kept.",
		Keeps: true,
		Reads: func(args catalogue.Args) bool {
			return args.Has("card") || args.Has("list") || args.Has("traced") && !args.Has("keep")
		},
		Options: traceOptions(),
		Parts: []catalogue.Part{
			{Name: "photo", Summary: "the outline of a stone from a photograph on the tracing card", Options: []string{"edge", "length"}, Photo: true},
			{Name: "strip", Summary: "an outline from a paper strip and two caliper measures", Options: []string{"strip", "size"}},
			{Name: "keep", Summary: "keep the latest outline under a name", Options: []string{"keep", "traced"}},
			{Name: "card", Summary: "the tracing card to print", Sets: map[string]string{"card": "yes"}, Options: []string{"paper"}},
			{Name: "list", Summary: "the outlines that you traced", Sets: map[string]string{"list": "yes"}},
			{Name: "drop", Summary: "forget an outline", Options: []string{"drop"}},
		},
		Examples: []catalogue.Example{
			{Line: "trace card", Summary: "the card to print"},
			{Line: "trace strip 58 size 20x16", Summary: "from a paper strip, and length x width"},
			{Line: "trace points 0,9 4.5,7.5 6.5,3 6,-3 3.5,-7.5 0,-9 -4.5,-7 -6.5,-2 -5.5,4", Summary: "from caliper points"},
			{Line: "trace list", Summary: "what you traced"},
		},
		StopWords: []string{"photo", "photograph", "picture"},
		Answer:    t.answer,
	}
}

func traceOptions() []catalogue.Option {
	stone := option.Stone()
	points := stone[2]
	points.Summary = "8 to 64 caliper points x,y in mm, in order round the stone"
	size := stone[1]
	size.Required, size.Unless, size.NotRequired = false, nil, nil
	size.Summary = "length x width of the stone by calipers, mm"
	traced := stone[3]
	traced.Excludes = []string{"size", "points", "strip"}
	traced.Summary = "an outline that you traced before, by name or id"
	return []catalogue.Option{
		{Name: "card", Summary: "the tracing card to print", Kind: catalogue.Flag},
		{Name: "keep", Aliases: []string{"confirm"}, Summary: "keep the latest outline under this name", Kind: catalogue.Single},
		{Name: "list", Aliases: []string{"show"}, Summary: "the outlines that you traced", Kind: catalogue.Flag},
		{Name: "drop", Aliases: []string{"forget"}, Summary: "forget the outline of this name", Kind: catalogue.Single},
		{Name: "strip", Aliases: []string{"perimeter"}, Summary: "length of a paper strip that just meets round the stone, mm",
			Kind: catalogue.Length, Min: 5, Max: 400, Suggest: []string{"40", "60"}, Form: true},
		size,
		points,
		{Name: "length", Aliases: []string{"caliper", "long"}, Summary: "the stone's length by calipers: checks and scales a photograph, mm",
			Kind: catalogue.Length, Min: 2, Max: option.MaxSideMM, Suggest: []string{"18", "25"}, Form: true, Excludes: []string{"size", "points", "strip"}},
		{Name: "edge", Aliases: []string{"girdle"}, Summary: "height of the stone's widest line above the card, mm",
			Kind: catalogue.Length, Min: 0.05, Max: 10, Suggest: []string{"0.5", "1", "2"}, Form: true},
		traced,
		option.Units(),
		option.Paper(),
	}
}

func (t *tracer) answer(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	switch {
	case c.Args.Has("card"):
		return traceCard(c), nil
	case c.Args.Has("list"):
		return t.list(ctx, c)
	case c.Args.Has("drop"):
		return t.drop(ctx, c)
	case c.Args.Has("keep"):
		return t.keep(ctx, c)
	case c.Args.Has("traced"):
		found, err := tracedOf(c)
		if err != nil {
			return nil, err
		}
		return tracedAnswer(c, found), nil
	case c.Args.Has("strip"):
		return t.strip(ctx, c)
	case c.Args.Has("points"):
		return t.points(ctx, c)
	case len(c.Photo) > 0:
		return t.photo(ctx, c)
	case c.PhotoLost:
		return nil, answer.Refuse("trace card", "I could not fetch your photograph: send it once more. If that fails too, send a smaller JPEG, or measure the stone with a paper strip round it, its length and its width, as in trace strip 58 size 20x16")
	}
	return nil, answer.Refuse("trace card", "send a photograph of the stone on the tracing card with the word trace; trace card gives you the card to print. Without one, type the length of a paper strip round the stone with its length x width, as in trace strip 58 size 20x16")
}

// traceCard is the card to print.
func traceCard(c *catalogue.Call) *answer.Answer {
	paper, _ := template.PaperNamed(c.Word("paper"))
	a := &answer.Answer{
		Headline: fmt.Sprintf("Print the tracing card on %s paper at 100 %%, and measure its 50 mm bar.", paper),
		Figures: []answer.Figure{
			{ID: "card_length", Label: "card, length", Value: tracing.CardWidthMM, Unit: answer.MM, Main: true},
			{ID: "card_width", Label: "card, width", Value: tracing.CardHeightMM, Unit: answer.MM, Main: true},
			{ID: "bar", Label: "bar to measure", Value: tracing.BarMM, Unit: answer.MM, Main: true},
		},
		Notes: []string{
			"Lay the stone in the middle of the black zone, a black or deeply coloured one on the white zone; faceted stones lie table down.",
			"Photograph it from straight above, 20 to 30 cm away, with the whole card in the picture, and send the original file with the word trace.",
		},
	}
	a.Attachments = []answer.Attachment{{
		Name: "tracing-card.pdf", Type: answer.PDF,
		Alt:    "The tracing card, 85.6 x 54 mm, full size on " + paper.String() + ": a black and a white zone for the stone, marks at its corners, a ring of checks and a 50 mm bar.",
		Render: func(context.Context) ([]byte, error) { return template.TracingCard(paper) },
	}}
	return a
}

// add stores an outline and gives it its id.
func (t *tracer) add(ctx context.Context, c *catalogue.Call, found catalogue.Traced) (catalogue.Traced, error) {
	for i := range found.Points {
		for k := range found.Points[i] {
			found.Points[i][k] = math.Round(found.Points[i][k]*1000) / 1000
		}
	}
	for _, v := range []*float64{&found.PerimeterMM, &found.LengthMM, &found.WidthMM, &found.DeviationMM, &found.ViewDegrees} {
		*v = math.Round(*v*1000) / 1000
	}
	data, err := json.Marshal(found)
	if err != nil {
		return found, err
	}
	sum := sha256.Sum256(data)
	found.ID = "t" + hex.EncodeToString(sum[:5])
	if t.book != nil && c.Who.Maker != "" {
		err = t.book.AddOutline(ctx, daybook.Outline{Platform: c.Who.Platform, Maker: c.Who.Maker, ID: found.ID, Traced: data})
	}
	return found, err
}

// asTraced is a traced outline with its measures.
func asTraced(points [][2]float64, from string) catalogue.Traced {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		for k := range p {
			low[k], high[k] = math.Min(low[k], p[k]), math.Max(high[k], p[k])
		}
	}
	return catalogue.Traced{Points: points, PerimeterMM: tracing.ClosedLength(points), LengthMM: high[1] - low[1], WidthMM: high[0] - low[0], From: from}
}

func (t *tracer) strip(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	size := c.Value("size").Numbers
	if len(size) != 2 {
		return nil, answer.Refuse(c.Retyped(map[string]string{"size": "20x16", "strip": "58"}), "a strip needs the stone's length x width by calipers beside it, as in trace strip 58 size 20x16")
	}
	points, n, err := tracing.FromStrip(size[0], size[1], c.Number("strip"))
	if err != nil {
		long, wide := size[0], size[1]
		return nil, answer.Refuse(c.Retyped(map[string]string{"strip": words.MM(math.Round(10*0.965*math.Pi/2*(long+wide)) / 10)}), "%s", err)
	}
	found, err := t.add(ctx, c, asTraced(points, fmt.Sprintf("a superellipse of exponent %.2f through strip, length and width (measure the stone's corners: its real outline may differ)", n)))
	if err != nil {
		return nil, err
	}
	return tracedAnswer(c, found), nil
}

func (t *tracer) points(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	shape := outline.Shape{Kind: outline.Measured}
	for _, p := range c.Value("points").Points {
		shape.Points = append(shape.Points, outline.Point{X: p[0], Y: p[1]})
	}
	curve, err := outline.New(shape)
	if err != nil {
		return nil, answer.Refuse("trace points 0,9 4.5,7.5 6.5,3 6,-3 3.5,-7.5 0,-9 -4.5,-7 -6.5,-2 -5.5,4", "%s", err)
	}
	const every = 360
	points := make([][2]float64, every)
	for i := range points {
		p, _ := curve.AtLength(curve.PerimeterMM() * float64(i) / every)
		points[i] = [2]float64{p.X, p.Y}
	}
	found, err := t.add(ctx, c, asTraced(points, fmt.Sprintf("%d caliper points", len(shape.Points))))
	if err != nil {
		return nil, err
	}
	return tracedAnswer(c, found), nil
}

func (t *tracer) photo(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	select {
	case t.open <- struct{}{}:
		defer func() { <-t.open }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	opened, cancel := photograph.Budget(ctx, photographTime)
	defer cancel()
	picture, err := photograph.Read(opened, c.Photo)
	if err != nil {
		return nil, refusedPhotograph(err)
	}
	photo := tracing.NewPhoto(picture.Image, picture.Orientation)
	options := tracing.Options{EdgeMM: c.Number("edge"), LengthMM: c.Number("length")}
	trace, err := tracing.Find(photo, options, func() error { return context.Cause(opened) })
	if err != nil {
		return nil, refusedPhotograph(err)
	}
	shown, err := overlay(photo, trace)
	if err != nil {
		return nil, err
	}
	from := fmt.Sprintf("a photograph on the %s zone, the stone's edge %s mm above the card", trace.Zone, words.MM(trace.EdgeMM))
	if trace.Scaled != 1 {
		from += fmt.Sprintf(", scaled by %+.1f %% to your calipers", 100*(trace.Scaled-1))
	}
	found := asTraced(everyOther(trace.Outline), from)
	found.DeviationMM, found.ViewDegrees, found.Doubts = trace.DeviationMM, trace.View.Degrees(), trace.Doubts
	if found, err = t.add(ctx, c, found); err != nil {
		return nil, err
	}
	a := tracedAnswer(c, found)
	if options.EdgeMM == 0 {
		a.Assumptions = append(a.Assumptions, fmt.Sprintf("the stone's edge lies %s mm above the card; type edge and its height if not (common practice, no source)", words.MM(tracing.UsualEdgeMM)))
	}
	a.Alone = true
	a.Attachments = append([]answer.Attachment{{
		Name: "traced-on-photograph.png", Type: answer.PNG,
		Alt:    "Your photograph of the stone, with the traced outline drawn on it. Check that the line follows the stone's edge all round.",
		Render: func(context.Context) ([]byte, error) { return shown, nil },
	}}, a.Attachments...)
	return a, nil
}

// refusedPhotograph says to the sender why a photograph could not be opened or
// traced; any other error stays as it is.
func refusedPhotograph(err error) error {
	var unreadable *photograph.Error
	var untraceable *tracing.Refusal
	switch {
	case errors.As(err, &unreadable):
		return answer.Refuse("trace card", "%s", unreadable.Problem)
	case errors.As(err, &untraceable):
		return answer.Refuse("trace card", "%s", untraceable.Advice)
	case errors.Is(err, context.DeadlineExceeded):
		return answer.Refuse("trace card", "the photograph took too long to open: save it as an ordinary JPEG of 12 megapixels and send it again")
	}
	return err
}

// everyOther halves the points: they lie closer than a bench can use.
func everyOther(points [][2]float64) [][2]float64 {
	out := make([][2]float64, 0, len(points)/2+1)
	for i := 0; i < len(points); i += 2 {
		out = append(out, points[i])
	}
	return out
}

// tracedAnswer shows an outline.
func tracedAnswer(c *catalogue.Call, t catalogue.Traced) *answer.Answer {
	c.Settle("traced", catalogue.Value{Text: t.ID})
	name := "The stone"
	if t.Name != "" {
		name = "Stone " + t.Name
	}
	a := &answer.Answer{
		Line:     "trace traced " + t.ID,
		Headline: fmt.Sprintf("%s measures %s, %s round its edge.", name, words.Size(c, t.LengthMM, t.WidthMM), words.Length(c, t.PerimeterMM)),
		Figures: []answer.Figure{
			{ID: "perimeter", Label: "perimeter", Value: t.PerimeterMM, Unit: answer.MM},
			{ID: "length", Label: "length", Value: t.LengthMM, Unit: answer.MM},
			{ID: "width", Label: "width", Value: t.WidthMM, Unit: answer.MM},
		},
		Assumptions: []string{"from " + t.From},
		Notes:       []string{"Hold the print against the stone before you cut anything, and measure the stone's length: it must agree within 0.2 mm."},
	}
	if t.DeviationMM > 0 {
		sure := "sure"
		if len(t.Doubts) > 0 {
			sure = "less sure: " + strings.Join(t.Doubts, ", ")
		}
		a.Figures = append(a.Figures,
			answer.Figure{ID: "deviation", Label: "outline within", Value: t.DeviationMM, Unit: answer.MM, Main: true},
			answer.Figure{ID: "view_angle", Label: "seen from the side by", Value: t.ViewDegrees, Unit: answer.Degree, Main: true},
			answer.Figure{ID: "trust", Label: "how sure", Value: float64(len(t.Doubts)), Unit: answer.Count, Text: sure, Main: true})
	}
	if hull := tracing.Hull(t.Points); len(hull) > 2 {
		if dip := tracing.DipMM(t.Points, hull); dip > dipMM {
			a.Notes = append(a.Notes, fmt.Sprintf("The outline dips in by %s: metal can't be pushed over there.", words.Length(c, dip)))
		}
	}
	if t.Name == "" {
		a.Notes = append(a.Notes, "If the outline is right, keep it: trace keep and a name; bezel traced and that name then takes it.")
	}
	points := make([][2]float64, len(t.Points))
	copy(points, t.Points)
	d := template.Drawing{
		Name: "traced-" + cmp.Or(t.Name, t.ID), Title: "Traced outline",
		Lines: []string{"perimeter " + words.Length(c, t.PerimeterMM), "hold it against the stone"},
		Paths: []template.Path{template.Polyline("outline", template.Cut, "", true, points...)},
	}
	d.Dimensions = d.Overall(template.Below, words.Length(c, t.WidthMM), words.Length(c, t.LengthMM))
	d.Alt = inWords(d, "the stone's outline seen from above")
	return drawn(c, a, d)
}

var nameForm = regexp.MustCompile(`^[\p{L}\p{N}][\p{L}\p{N}_-]{0,31}$`)

func (t *tracer) keep(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	name := c.Word("keep")
	if !nameForm.MatchString(name) {
		return nil, answer.Refuse("trace keep moss", "a name is one word of letters, digits, - or _, at most 32 of them")
	}
	if t.book == nil || c.Traced == nil {
		return nil, answer.Refuse("", "traced stones are kept in the daybook, and there is none here")
	}
	found, err := c.Traced(c.Word("traced"))
	if err != nil {
		return nil, err
	}
	if err := t.book.NameOutline(ctx, c.Who.Platform, c.Who.Maker, found.ID, name); err != nil {
		return nil, err
	}
	return &answer.Answer{
		Alone:    true,
		Headline: fmt.Sprintf("Kept as %s: %s, %s round. Try: bezel traced %s", name, words.Size(c, found.LengthMM, found.WidthMM), words.Length(c, found.PerimeterMM), name),
	}, nil
}

func (t *tracer) list(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	all, err := bench.AllTraced(ctx, t.book, c.Who)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Alone: true, Headline: words.Counted(len(all), "outline traced", "outlines traced")}
	for _, o := range all {
		a.Notes = append(a.Notes, fmt.Sprintf("%s: %s, %s round", cmp.Or(o.Name, o.ID+" (not kept)"), words.Size(c, o.LengthMM, o.WidthMM), words.Length(c, o.PerimeterMM)))
	}
	if len(all) == 0 {
		a.Notes = []string{"trace card gives you the card to print"}
	}
	return a, nil
}

func (t *tracer) drop(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	name := c.Word("drop")
	gone := answer.Refuse("trace list", "you have kept no traced stone as %q", name)
	if t.book == nil {
		return nil, gone
	}
	switch err := t.book.DropOutline(ctx, c.Who.Platform, c.Who.Maker, name); {
	case errors.Is(err, daybook.ErrNotFound):
		return nil, gone
	case err != nil:
		return nil, err
	}
	return &answer.Answer{Alone: true, Headline: "Forgotten: " + name}, nil
}

// overlay is the photograph round the card's zone with the outline on it, as a
// PNG without any of the photograph's own data.
func overlay(p tracing.Photo, t tracing.Trace) ([]byte, error) {
	var b bytes.Buffer
	if err := png.Encode(&b, tracing.Overlay(p, t, 900)); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
