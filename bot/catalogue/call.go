package catalogue

import (
	"slices"
	"strings"

	"guildhand/bot/answer"
)

// Inner parses the request that is typed inside this one, in the Text option
// named: the collet of "kit 12 makers collet oval 8x6". Bench defaults, asker,
// workshop and daybook are those of the outer request. The Try of a refusal is
// the whole outer line with the inner one mended.
//
// A list of several requests is split by the handler, which then calls Nested
// for each.
func (c *Call) Inner(option string) (*Call, error) {
	inner, err := c.Nested(c.Args.Word(option))
	if err != nil {
		return nil, c.Around(option, err)
	}
	return inner, nil
}

// Around gives err back, with the Try of a refusal by the inner request, of the
// Text option named, put into the outer line. Other errors stay as they are.
func (c *Call) Around(option string, err error) error {
	r, ok := answer.AsRefusal(err)
	if !ok || r.Try == "" {
		return err
	}
	before, found := strings.CutSuffix(c.Line, c.Args.Word(option))
	if !found {
		return err
	}
	return &answer.Refusal{Problem: r.Problem, Try: before + r.Try, Cause: r.Cause}
}

// Assumed lists the values that were not typed, in the catalogue's order, each
// with where it comes from: "alloy sterling (your bench)". Handlers that word
// an assumption of their own name its option in but, so that it is not said
// twice.
func (c *Call) Assumed(but ...string) []string {
	var lines []string
	for i := range c.Spec.Options {
		o := &c.Spec.Options[i]
		v, ok := c.Args[o.Name]
		if !ok || v.Source == Typed || slices.Contains(but, o.Name) || v.Source == FromDefault && o.DefaultNote == "" {
			continue
		}
		lines = append(lines, v.Assumption(o))
	}
	return lines
}

// Assumption words a value that was not typed: "thickness 22ga (bench of this
// channel)".
func (v Value) Assumption(o *Option) string {
	return o.Name + " " + v.Text + UnitOf(o) + " (" + v.Note + ")"
}

// UnitOf is the unit to show behind a canonical text that has none.
func UnitOf(o *Option) string {
	switch o.Kind {
	case Length, Size:
		return " mm"
	case Angle:
		return "°"
	case Percent:
		return " %"
	}
	return ""
}

// Retyped is the request as typed, with some options set to other texts ("" to
// leave one out), as a line that can be typed: what a refusal offers to try.
func (c *Call) Retyped(changes map[string]string) string {
	words := []string{c.Spec.Name}
	for i := range c.Spec.Options {
		o := &c.Spec.Options[i]
		text, changed := changes[o.Name]
		if !changed && c.Args.Typed(o.Name) {
			text = c.Args[o.Name].Text
		}
		switch {
		case text == "":
		case o.Kind == Flag:
			words = append(words, o.Name)
		case o.Bare:
			words = append(words, text)
		default:
			words = append(words, o.Name, text)
		}
	}
	return strings.Join(words, " ")
}
