package bot

import (
	"context"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// unitsOption and inchUnits ask for inches beside mm, wherever a request has them.
const (
	unitsOption = "units"
	mmUnits     = "mm"
	inchUnits   = "inch"
	seamOption  = "seam"
)

// InUnits is a recorded reply with lengths in inches beside mm, or in mm alone.
// It is computed again, so that headline, figures, drawing and files agree; what
// can't be computed again keeps its headline and drawing.
func (s *Service) InUnits(ctx context.Context, entry int64, inches bool) (Reply, error) {
	recorded, err := s.Recorded(ctx, entry)
	if err != nil || recorded.Answer == nil || recorded.Answer.Inches == inches {
		return recorded, err
	}
	recorded.Answer.Inches = inches
	had, text := mmUnits, inchUnits
	if !inches {
		had, text = text, had
	}
	was, wasErr := s.once(ctx, recorded, unitsOption, had)
	is, isErr := s.once(ctx, recorded, unitsOption, text)
	if wasErr != nil || isErr != nil {
		return recorded, nil
	}
	// What the reader and the house rules added is not computed.
	verdict, ok := strings.CutSuffix(recorded.Answer.Headline, was.Headline)
	if is.Headline = verdict + is.Headline; !ok {
		is.Headline = recorded.Answer.Headline
	}
	is.Notes = append(is.Notes, added(recorded.Answer.Notes, was.Notes)...)
	is.Assumptions = append(is.Assumptions, added(recorded.Answer.Assumptions, was.Assumptions)...)
	is.Alone, is.InReplyTo, is.Explains = recorded.Answer.Alone, recorded.Answer.InReplyTo, recorded.Answer.Explains
	s.drawing.bound(is, recorded.Who)
	numbered(is, entry)
	recorded.Answer = is
	return recorded, nil
}

// added are the lines that were not computed.
func added(shown, computed []string) []string {
	return slices.DeleteFunc(slices.Clone(shown), func(line string) bool { return slices.Contains(computed, line) })
}

// once computes a recorded answer again with one option changed.
func (s *Service) once(ctx context.Context, recorded Reply, option, text string) (*answer.Answer, error) {
	call, err := s.past(ctx, recorded.Who, recorded.At, recorded.Answer.Line)
	if err != nil {
		return nil, err
	}
	if call.Spec.Keeps || call.Spec.Long {
		return nil, answer.Refuse("", "%s is not run twice", call.Spec.Name)
	}
	if _, ok := call.Spec.Option(option); !ok {
		return nil, answer.Refuse("", "%s has no %s", call.Spec.Name, option)
	}
	line := call.Write(withOption(call.Args, option, text), call.NoBench)
	if call, err = s.past(ctx, recorded.Who, recorded.At, line); err != nil {
		return nil, err
	}
	return s.run(ctx, call)
}

// withOption is the typed arguments with one of them set.
func withOption(args catalogue.Args, option, text string) catalogue.Args {
	changed := maps.Clone(args)
	maps.DeleteFunc(changed, func(_ string, v catalogue.Value) bool { return v.Source != catalogue.Typed })
	changed[option] = catalogue.Value{Text: text}
	return changed
}

// Alternative is a recorded request with another seam or gauge.
type Alternative struct {
	Option, Text string
	// Headline is what the answer would say.
	Headline string
	// Line asks for it.
	Line string
}

// Alternatives are the other seams and gauges that a recorded request accepts
// and that give another answer, at most most of them. A request that changes
// what is kept, or takes long, has none.
func (s *Service) Alternatives(ctx context.Context, entry int64, most int) ([]Alternative, error) {
	recorded, err := s.Recorded(ctx, entry)
	if err != nil || recorded.Answer == nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, s.o.Timeout)
	defer cancel()
	call, err := s.past(ctx, recorded.Who, recorded.At, recorded.Answer.Line)
	if err != nil {
		return nil, nil //nolint:nilerr // what can't be asked again has no alternatives
	}
	seen := []*answer.Answer{recorded.Answer}
	var list []Alternative
	for i := range call.Spec.Options {
		o := &call.Spec.Options[i]
		for _, text := range otherTexts(o) {
			if len(list) == most || ctx.Err() != nil {
				return list, nil
			}
			a, err := s.once(ctx, recorded, o.Name, text)
			if err != nil || slices.ContainsFunc(seen, func(b *answer.Answer) bool { return sameResult(a, b) }) {
				continue
			}
			seen = append(seen, a)
			list = append(list, Alternative{Option: o.Name, Text: text, Headline: a.Headline, Line: a.Line})
		}
	}
	return list, nil
}

// otherTexts are the values of an option that is offered to try again with.
func otherTexts(o *catalogue.Option) []string {
	if o.Kind == catalogue.Thickness {
		return o.Suggest
	}
	var keys []string
	if o.Name == seamOption {
		for _, c := range o.Choices {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

// sameResult reports whether two answers say the same figures of the same piece.
func sameResult(a, b *answer.Answer) bool {
	return a.Headline == b.Headline && slices.Equal(a.Figures, b.Figures)
}

// Offers reports whether a request has a seam or gauge to try again with.
func Offers(spec *catalogue.Spec) bool {
	return spec != nil && !spec.Keeps && !spec.Long &&
		slices.ContainsFunc(spec.Options, func(o catalogue.Option) bool { return len(otherTexts(&o)) > 0 })
}
