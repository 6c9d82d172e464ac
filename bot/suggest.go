package bot

import (
	"context"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// maxHops is how many lines to try are followed from one refusal.
const maxHops = 3

// suggest returns the refusal with a line to try that is known to work: its
// own, or the first that works of those that its refusals offer in turn, or an
// example of the request. Lines that change something or take long are not
// tried. All of it takes no longer than the timeout of a request.
func (s *Service) suggest(ctx context.Context, spec *catalogue.Spec, req Request, r *answer.Refusal) *answer.Refusal {
	if r.Try == "" {
		return r
	}
	ctx, cancel := context.WithTimeout(ctx, s.o.Timeout)
	defer cancel()
	line := r.Try
	var tried []string
	for len(tried) < maxHops && line != "" && !slices.Contains(tried, line) {
		works, next := s.tryOut(ctx, req, line)
		if works {
			return r.Trying(line)
		}
		tried = append(tried, line)
		line = next
	}
	var spare []string
	if spec != nil {
		for _, e := range spec.Examples {
			spare = append(spare, e.Line)
		}
		spare = append(spare[:min(1, len(spare))], "help "+spec.Name)
	}
	for _, line := range append(spare, "help") {
		if slices.Contains(tried, line) {
			continue
		}
		// Out of time: trust the example, since tests run every one.
		if works, _ := s.tryOut(ctx, req, line); works || ctx.Err() != nil {
			return r.Trying(line)
		}
	}
	return r.Trying("")
}

// tryOut asks a line as its maker would and reports whether it is answered; if
// not, next is the line that its refusal offers. A line that must not be tried
// counts as working.
func (s *Service) tryOut(ctx context.Context, req Request, line string) (works bool, next string) {
	parsed, err := s.parse(ctx, Request{Who: req.Who, Text: line})
	if err == nil {
		spec := parsed.Spec
		if spec.Needs == catalogue.Teacher && !req.Who.Teacher {
			return false, ""
		}
		if spec.Keeps || spec.Long {
			return true, ""
		}
		_, err = s.run(ctx, s.call(ctx, parsed, Request{Who: req.Who, At: req.At}, 0))
	}
	if err == nil {
		return true, ""
	}
	if r, ok := answer.AsRefusal(err); ok {
		return false, r.Try
	}
	if ctx.Err() == nil {
		s.o.Log.Error("a line to try failed", "request", parsed.Spec.Name, "error", err)
	}
	return false, ""
}
