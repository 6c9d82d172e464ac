package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/knowledge"
	"guildhand/bot/reading"
	"guildhand/bot/reading/sentence"
	"guildhand/bot/requests/bench"
)

// memory is for how long a maker's last reading in a room may be followed up.
const memory = 30 * time.Minute

// understood is what became of a request's words: a parsed request, an error to
// refuse with, an explanation, or nothing to say.
type understood struct {
	reading.Parsed
	// verdict begins the answer, notes and changed are added to it.
	verdict        string
	notes, changed []string
	// told are figures that the asker has worked out.
	told []sentence.Told
	// said is an answer that needs no request.
	said *answer.Answer
	// silent is set for chatter, aid for somebody who is hurt.
	silent, aid bool
}

// understand reads a request. Structured ones and lines in the catalogue's form
// come first, as they are; what is left is read as a sentence. A panic is the
// error of this request alone.
func (s *Service) understand(ctx context.Context, req Request) (u understood, err error) {
	defer func() {
		if v := recover(); v != nil {
			u, err = understood{}, panicked(v)
		}
	}()
	if req.Command != "" {
		parsed, err := s.parse(ctx, req)
		return understood{Parsed: parsed}, err
	}
	if len(req.Photo) > 0 && strings.TrimSpace(req.Text) == "" {
		req.Text = "trace" // a photograph alone
	}
	hurt, isHurt := s.hurt(ctx, req)
	parsed, err := s.parse(ctx, req)
	if isHurt && err == nil && parsed.Spec.Name != "help" {
		_, isHurt = sentence.FirstAidFor(req.Text) // a typed line is a new question
	}
	if err == nil && (isHurt && parsed.Spec.Name == "cautions" || !isHurt && !sentence.Doubtful(req.Text)) {
		return understood{Parsed: parsed}, nil
	}
	if isHurt {
		u, err := s.parseReading(ctx, req, hurt)
		u.aid = true
		return u, err
	}
	if _, refused := answer.AsRefusal(err); err != nil && !refused {
		return understood{Parsed: parsed}, err // the bench could not be read
	}
	read := sentence.Read(req.Text, s.readingContext(ctx, req))
	if err != nil && parsed.Spec != nil && !sentence.Spoken(req.Text) && !saysMore(read, req.Text, parsed.Spec) {
		return understood{Parsed: parsed}, err // a typed line with a slip in it
	}
	if err == nil && read.Outcome != sentence.Request && read.Outcome != sentence.Question {
		return understood{Parsed: parsed}, nil
	}
	return s.interpret(ctx, req, read, parsed, err)
}

// saysMore reports whether a reading serves better than the refusal of a typed line: every word
// is the request's, or it is a sentence that begins with a request's word. Of a line without
// a stop, one word that the request doesn't know is told, and not passed over.
func saysMore(read sentence.Reading, typed string, request *catalogue.Spec) bool {
	stops := hasStops(typed)
	inWords := stops || sentence.InPlainWords(typed, func(word string) bool {
		_, ok := request.Option(word)
		return ok
	})
	switch read.Outcome {
	case sentence.Request:
		return stops || read.Request == "trouble" && inWords || sentence.Clean(typed)
	case sentence.Explanation:
		return inWords
	case sentence.Question:
		return inWords && len(read.Choices) > 0 || read.Missing == "alloy" && sentence.Clean(typed)
	}
	return false
}

// hasStops reports whether a message has the stops of a sentence. The comma of 8,5 is none.
func hasStops(typed string) bool {
	return strings.HasSuffix(strings.TrimSpace(typed), "?") || strings.Contains(typed, ", ") || strings.Contains(typed, ": ") || strings.Contains(typed, "? ")
}

// interpret turns a reading into a request, a question back or an explanation.
func (s *Service) interpret(ctx context.Context, req Request, read sentence.Reading, typed reading.Parsed, typedErr error) (understood, error) {
	switch read.Outcome {
	case sentence.Request:
		u, err := s.parseReading(ctx, req, read)
		if err == nil && typedErr == nil && typed.Line == u.Line {
			return understood{Parsed: typed}, nil // the words and their order agree
		}
		if err != nil && typed.Spec != nil && typedErr != nil && !sentence.Spoken(req.Text) {
			return understood{Parsed: typed}, typedErr // as it was typed, it says more
		}
		return u, err
	case sentence.Question:
		return understood{}, s.asks(ctx, req, read)
	case sentence.Explanation:
		ans := &answer.Answer{Explains: true, Headline: read.Text, Assumptions: slices.Clone(read.Notes)}
		if read.Source != "" {
			ans.Assumptions = append(ans.Assumptions, "source: "+read.Source)
		}
		ans.Known, _ = json.Marshal(sentence.Reading{Outcome: read.Outcome, Topic: read.Topic, Piece: read.Piece}) // words of ours: it can't fail
		return understood{said: ans}, nil
	case sentence.Declined:
		return understood{}, &answer.Refusal{Problem: read.Text, Declines: true}
	case sentence.Silent:
		return understood{silent: true}, nil
	}
	if typed.Spec != nil || nearRequest(typedErr) && sentence.OfTheTrade(req.Text) {
		return understood{Parsed: typed}, typedErr
	}
	if sentence.AsksToKnow(req.Text) && sentence.OfTheTrade(req.Text) {
		return understood{}, answer.Refuse("help", "I don't know that. I can explain words and tools of the bench, solder and heat, settings, finishing and what went wrong: say it in other words, or ask in the guild")
	}
	return understood{}, answer.Refuse("help", "I don't understand that yet. Name the piece, the stone's outline and size, the metal and its thickness, as in \"a collet for an 8x6 oval in 22 gauge sterling\"; help lists what I can work out")
}

// nearRequest reports whether a typed line's refusal knows which request was meant.
func nearRequest(err error) bool {
	r, ok := answer.AsRefusal(err)
	return ok && strings.Contains(r.Problem, "did you mean")
}

// parseReading parses a reading's options by the catalogue's own rules.
func (s *Service) parseReading(ctx context.Context, req Request, read sentence.Reading) (understood, error) {
	parsed, err := reading.ParseOptions(s.o.Specs, read.Request, read.Options, reading.Lookups{Shop: s.o.Shop, Bench: s.bench(ctx, req.Who)})
	u := understood{Parsed: parsed, verdict: read.Verdict, notes: slices.Clone(read.Notes), changed: read.Changed, told: read.Told}
	if err == nil {
		u.notes = append(u.notes, "read as: "+parsed.Line)
	}
	return u, err
}

// asks makes the refusal of a question back. Only choices that work are offered,
// each as the line that would be typed for it.
func (s *Service) asks(ctx context.Context, req Request, read sentence.Reading) error {
	r := &answer.Refusal{Problem: read.Ask, Asks: true}
	var works []sentence.Choice
	for i, c := range read.Choices {
		parsed, err := reading.ParseOptions(s.o.Specs, c.Request, c.Options, reading.Lookups{Shop: s.o.Shop})
		if err != nil {
			continue
		}
		line := typedLine(parsed)
		if done, _ := s.tryOut(ctx, req, line); !done {
			continue
		}
		switch {
		case read.Doubted && i == 0:
			r.Problem = fmt.Sprintf("I am not sure that I read this right. Do you mean %s?", inWords(parsed))
		case read.Doubted && c.Request != read.Request:
			c.Label = "no, " + inWords(parsed)
		}
		works = append(works, c)
		r.Choices = append(r.Choices, answer.Choice{Label: c.Label, Line: line})
	}
	if read.Doubted && len(works) > 0 && works[0].Label != read.Choices[0].Label {
		r.Problem = "I am not sure that I read this right. Do you mean one of these?" // the likeliest can't be worked out
	}
	read.Choices = works
	if len(r.Choices) > 0 {
		r.Try = r.Choices[0].Line
	} else if read.Doubted { // what can't be worked out was hardly meant
		r.Problem = "I am not sure what you want to know. Ask it in one sentence: the piece by its name and each figure with what it measures, or one question about the bench."
	}
	r.Known, _ = json.Marshal(read) // words and numbers of ours: it can't fail
	return r
}

// typedLine is a parsed request's line with what was typed alone, so that the
// asker's bench still fills the rest.
func typedLine(parsed reading.Parsed) string {
	options := map[string]string{}
	for name, v := range parsed.Args {
		if v.Source == catalogue.Typed {
			options[name] = v.Text
		}
	}
	return sentence.Reading{Request: parsed.Spec.Name, Options: options}.Line()
}

// readingContext is what a message is read against: the maker's last reading in
// this room and a question that is still open, both from the daybook, so that
// forget and redaction reach them.
func (s *Service) readingContext(ctx context.Context, req Request) sentence.Context {
	c := sentence.Context{Addressed: true, Takes: s.takesOption, Excludes: s.excludesOption}
	if s.o.Book == nil || req.Who.Maker == "" {
		return c
	}
	if layers, err := s.bench(ctx, req.Who)(); err != nil || !bench.Remembers(layers) {
		return c
	}
	if req.About != 0 {
		if e, err := s.o.Book.ByID(ctx, req.About); err == nil {
			return s.goOnFrom(c, []daybook.Entry{e})
		}
	}
	if req.ReplyTo != "" {
		if e, err := s.o.Book.ByDelivered(ctx, roomOf(req), req.ReplyTo); err == nil {
			return s.goOnFrom(c, []daybook.Entry{e})
		}
	}
	now := req.At
	if now.IsZero() {
		now = s.o.Clock()
	}
	entries, err := s.o.Book.List(ctx, daybook.Filter{
		Platform: req.Who.Platform, Guild: req.Who.Guild, Channel: req.Who.Channel, Maker: req.Who.Maker, From: now.Add(-memory), Limit: lastEntries,
	})
	if err != nil {
		s.o.Log.Warn("the last question could not be read", "platform", req.Who.Platform, "error", err)
		return c
	}
	return s.goOnFrom(c, entries)
}

// goOnFrom adds to a context what entries, the latest first, can be gone on from: what was
// said and answered is gone through again in its order, as the reader itself goes on.
func (s *Service) goOnFrom(c sentence.Context, entries []daybook.Entry) sentence.Context {
	for _, e := range slices.Backward(entries) {
		c = c.After(e.Typed, s.readingOf(e))
	}
	return c
}

// readingOf is what was made of an entry's message, as far as it is kept.
func (s *Service) readingOf(e daybook.Entry) sentence.Reading {
	if last, isPiece := s.lastReading(e); isPiece {
		return sentence.Reading{Outcome: sentence.Request, Request: last.Request, Options: last.Options}
	}
	switch {
	case e.Status == daybook.Refused:
		r := answer.RecordedRefusal(e.Problem, e.Try, e.Answer)
		var asked sentence.Reading
		if r.Asks && json.Unmarshal(r.Known, &asked) == nil {
			return asked
		}
		if r.Declines {
			return sentence.Reading{Outcome: sentence.Declined}
		}
	case e.Request != "":
		if kept, ok := typedOf(e); ok && (e.Request == "bench" || e.Request == "daybook") {
			return sentence.Reading{Outcome: sentence.Request, Request: kept.Request, Options: kept.Options}
		}
		return sentence.Reading{Outcome: sentence.Request, Request: "help"} // no piece to go on from
	default:
		return explained(e)
	}
	return sentence.Reading{Outcome: sentence.Unknown}
}

// explained is the explanation of an entry: what it was about, and the piece that it told of.
func explained(e daybook.Entry) sentence.Reading {
	r := sentence.Reading{Outcome: sentence.Explanation}
	if kept, err := answer.Recorded(e.Answer); err == nil && len(kept.Known) > 0 && json.Unmarshal(kept.Known, &r) == nil {
		r.Outcome = sentence.Explanation
	}
	if r.Topic == "" {
		r.Topic = knowledge.KeyOf(e.Headline)
	}
	return r
}

// lastEntries is how many of a maker's latest entries are looked through for what
// can be followed up or gone back to.
const lastEntries = 10

// lastReading is an answered entry as the reading that a follow-up changes.
func (s *Service) lastReading(e daybook.Entry) (*sentence.Last, bool) {
	for i := range s.o.Specs {
		if spec := &s.o.Specs[i]; spec.Name == e.Request && (spec.Keeps || spec.Name == "help" || spec.Name == "stop" || spec.Name == "cautions") {
			return nil, false
		}
	}
	return typedOf(e)
}

// typedOf is an answered entry's request with the options that were typed.
func typedOf(e daybook.Entry) (*sentence.Last, bool) {
	var args catalogue.Args
	if e.Status != daybook.Answered || len(e.Args) == 0 || json.Unmarshal(e.Args, &args) != nil {
		return nil, false
	}
	typed := &sentence.Last{Request: e.Request, Options: map[string]string{}}
	for name, v := range args {
		if v.Source == catalogue.Typed {
			typed.Options[name] = v.Text
		}
	}
	return typed, true
}

// takesOption reports whether a request of the catalogue has an option; an empty
// option asks for the request itself.
func (s *Service) takesOption(request, option string) bool {
	for i := range s.o.Specs {
		if spec := &s.o.Specs[i]; spec.Name == request {
			_, ok := spec.Option(option)
			return ok || option == ""
		}
	}
	return false
}

// excludesOption reports whether two options of a request can't be given together.
func (s *Service) excludesOption(request, option, other string) bool {
	for i := range s.o.Specs {
		if spec := &s.o.Specs[i]; spec.Name == request {
			return spec.Excludes(option, other)
		}
	}
	return false
}

// add puts what the reader says of itself into the answer.
func (u understood) add(ans *answer.Answer) {
	if u.aid {
		ans.Explains = true
		if u.verdict != "" {
			ans.Headline = u.verdict + " " + ans.Headline
		}
		return // nothing else stands between the hurt and what to do
	}
	if u.verdict != "" {
		ans.Headline = u.verdict + " " + ans.Headline
	}
	for _, told := range u.told {
		if says := verdictOn(told, ans); says != "" && u.verdict == "" {
			ans.Headline, u.verdict = says+" "+ans.Headline, says
			continue
		}
		ans.Notes = append(ans.Notes, fmt.Sprintf("compare your %s with the figures here", told.Typed))
	}
	if len(u.changed) > 0 {
		ans.Notes = append(ans.Notes, "changed: "+strings.Join(u.changed, ", "))
	}
	ans.Notes = append(ans.Notes, u.notes...)
}
