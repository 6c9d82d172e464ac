package requests

import (
	"cmp"
	"fmt"

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

// tracedStone is a stone by its traced outline. Walls go round its hull: metal
// can't be pushed over where a stone dips in.
func tracedStone(c *catalogue.Call) (stoneUsed, error) {
	var s stoneUsed
	t, err := tracedOf(c)
	if err != nil {
		return s, err
	}
	s.traced = cmp.Or(t.Name, t.ID)
	hull, dip := tracing.Hull(t.Points)
	s.shape.Kind = outline.Measured
	for _, p := range tracing.Fewer(hull, outline.MaxPoints) {
		s.shape.Points = append(s.shape.Points, outline.Point{X: p[0], Y: p[1]})
	}
	if s.curve, err = outline.New(s.shape); err != nil {
		return s, answer.Refuse("trace list", "%s", err)
	}
	if t.DeviationMM > 0 {
		s.assumptions = append(s.assumptions, fmt.Sprintf("outline within %s mm (estimate; hold the print against the stone)", words.MM(t.DeviationMM)))
	} else {
		s.assumptions = append(s.assumptions, "outline from "+t.From)
	}
	if dip > dipMM {
		s.notes = append(s.notes, fmt.Sprintf("the stone dips in by %s; the wall goes straight across, and metal can't be pushed over there: fill the gap with a tab or prong of its own, or have the stone recut", words.Length(c, dip)))
	}
	s.depthOf(c)
	return s, nil
}
