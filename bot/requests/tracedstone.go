package requests

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/tracing"
)

// tracedOf takes the traced outline that a call names, and writes its id into
// the line, which never means another.
func tracedOf(c *catalogue.Call) (catalogue.Traced, error) {
	if c.Traced == nil {
		return catalogue.Traced{}, answer.Refuse("", "traced stones are kept in the daybook, and there is none here")
	}
	t, err := c.Traced(c.Word("traced"))
	if err != nil {
		return t, err
	}
	c.Settle("traced", catalogue.Value{Text: t.ID})
	return t, nil
}

// dipMM is from what dip on a traced outline counts as concave: less is within
// what tracing may be off.
const dipMM = 0.15

// dip is where a stone runs inside its outline: its line from one side to the
// other, placed as the outline is.
type dip struct {
	line    []outline.Point
	depthMM float64
}

// dipsOf are the dips of a closed line, about the middle of its box as an outline
// is.
func dipsOf(line [][2]float64) []dip {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range line {
		for k := range p {
			low[k], high[k] = math.Min(low[k], p[k]), math.Max(high[k], p[k])
		}
	}
	at := func(p [2]float64) outline.Point {
		return outline.Point{X: p[0] - (low[0]+high[0])/2, Y: p[1] - (low[1]+high[1])/2}
	}
	var dips []dip
	for _, d := range tracing.Dips(line, dipMM) {
		one := dip{depthMM: d.DepthMM}
		for _, p := range d.Line {
			one.line = append(one.line, at(p))
		}
		dips = append(dips, one)
	}
	return dips
}

// said are the stone's notes and what its dips do to a wall.
func (s stoneUsed) said(c *catalogue.Call) []string {
	notes := slices.Clone(s.notes)
	for _, d := range s.dips {
		notes = append(notes, fmt.Sprintf("the stone dips in by %s; the wall goes straight across, and metal can't be pushed over there: %s", words.Length(c, d.depthMM), fillDip))
	}
	return notes
}

// fillDip is what a maker does about a dip.
const fillDip = "fill the gap with a tab or prong of its own, or have the stone recut"

// tracedStone is a stone by its traced outline. Walls go round its hull: metal
// can't be pushed over where a stone dips in.
func tracedStone(c *catalogue.Call) (stoneUsed, error) {
	var s stoneUsed
	t, err := tracedOf(c)
	if err != nil {
		return s, err
	}
	s.traced = cmp.Or(t.Name, t.ID)
	if s.curve, err = s.hullOf(t.Points); err != nil {
		return s, answer.Refuse("trace list", "%s", err)
	}
	if t.DeviationMM > 0 {
		s.assumptions = append(s.assumptions, fmt.Sprintf("outline within %s mm (estimate; hold the print against the stone)", words.MM(t.DeviationMM)))
	} else {
		s.assumptions = append(s.assumptions, "outline from "+t.From)
	}
	s.dips = dipsOf(t.Points)
	s.depthOf(c)
	return s, nil
}

// hullOf is the outline round the hull of a closed line.
func (s *stoneUsed) hullOf(line [][2]float64) (outline.Curve, error) {
	hull := tracing.Hull(line)
	s.shape.Kind = outline.Measured
	for _, p := range tracing.Fewer(hull, outline.MaxPoints) {
		s.shape.Points = append(s.shape.Points, outline.Point{X: p[0], Y: p[1]})
	}
	return outline.New(s.shape)
}

// bridgeDips leaves out caliper points that lie inside the others' hull, where
// enough are left, and says so. Points that go round more than once, as those in a
// wrong order do, are left for the outline to refuse.
func (s *stoneUsed) bridgeDips(c *catalogue.Call) {
	if s.shape.Kind != outline.Measured || len(s.shape.Points) < outline.MinPoints || !onceRound(s.shape.Points) {
		return
	}
	line := make([][2]float64, len(s.shape.Points))
	for i, p := range s.shape.Points {
		line[i] = [2]float64{p.X, p.Y}
	}
	hull := tracing.Hull(line)
	if len(hull) == len(line) || len(hull) < outline.MinPoints {
		return
	}
	s.shape.Points = s.shape.Points[:0]
	for _, p := range hull {
		s.shape.Points = append(s.shape.Points, outline.Point{X: p[0], Y: p[1]})
	}
	if s.dips = dipsOf(line); len(s.dips) > 0 {
		return
	}
	s.assumptions = append(s.assumptions, fmt.Sprintf("%s left out, which lie up to %s mm inside the line between their neighbours (estimate, measure them again)",
		words.Counted(len(line)-len(hull), "point", "points"), words.MM(tracing.DipMM(line, hull))))
}

// onceRound reports whether a closed line turns by one full turn in all.
func onceRound(points []outline.Point) bool {
	n := len(points)
	sum := 0.0
	for i, p := range points {
		q, r := points[(i+1)%n], points[(i+2)%n]
		sum += math.Remainder(math.Atan2(r.Y-q.Y, r.X-q.X)-math.Atan2(q.Y-p.Y, q.X-p.X), 2*math.Pi)
	}
	return math.Abs(math.Abs(sum)-2*math.Pi) < 1e-6
}

// perimeterOption is the way round a stone whose outline has no name.
func perimeterOption() catalogue.Option {
	return catalogue.Option{
		Name: "perimeter", Aliases: []string{"around", "way-round", "paper-strip"},
		Summary: "of a freeform stone: length of a paper strip that just meets round it, mm; its size too",
		Kind:    catalogue.Length, Min: 5, Max: 400, Suggest: []string{"40", "60"},
		Excludes: []string{"points", "traced"},
	}
}

// strippedStone is a freeform stone by a paper strip round it, its length and its
// width: a superellipse that fits all three.
func strippedStone(c *catalogue.Call) (stoneUsed, error) {
	var s stoneUsed
	kind := outline.Kind(c.Word("outline"))
	size := c.Value("size").Numbers
	perimeter := c.Number("perimeter")
	switch {
	case kind != "" && kind != outline.Measured:
		return s, answer.Refuse(c.Retyped(map[string]string{"perimeter": ""}),
			"the way round %s follows from its size: leave the perimeter out, or say measured for a stone whose outline has no name", words.Article(strings.ReplaceAll(string(kind), "-", " ")))
	case len(size) != 2:
		return s, answer.Refuse(c.Spec.Name+" measured 20x16 perimeter 58", "a paper strip's length needs the stone's length x width by calipers beside it")
	}
	points, n, err := tracing.FromStrip(size[0], size[1], perimeter)
	if err != nil {
		return s, answer.Refuse(c.Retyped(map[string]string{"perimeter": words.MM(math.Round(10*0.965*math.Pi/2*(size[0]+size[1])) / 10)}), "%s", err)
	}
	if s.curve, err = s.hullOf(points); err != nil {
		return s, answer.Refuse(c.Spec.Name+" measured 20x16 perimeter 58", "%s", err)
	}
	s.assumptions = append(s.assumptions, fmt.Sprintf("a superellipse that fits all three; hold the print to the stone (estimate, its exponent %.2f)", n))
	s.depthOf(c)
	return s, nil
}
