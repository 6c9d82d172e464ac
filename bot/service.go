package bot

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"runtime"
	"runtime/debug"
	"sync"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/fairness"
	"guildhand/bot/reading"
	"guildhand/bot/requests/bench"
	"guildhand/calc/stock"
)

// Completion is a word that may come next; see reading.Completion.
type Completion = reading.Completion

// ErrStopped is the cause with which an adapter cancels the context of a
// request that its asker stopped: context.WithCancelCause. That is recorded,
// and the asker told; any other cancellation leaves no trace, so that the
// event can be answered later.
var ErrStopped = errors.New("stopped by the asker")

// CantRecord is what people read when nothing can be recorded.
const CantRecord = "I can't write to the daybook, so I can't answer now; please ask again later"

// What people read when a request fails.
const (
	faultText   = "something went wrong on our side, so there is no answer; it is in our log"
	slowText    = "this took too long, so I stopped it; it is in our log"
	stoppedText = "stopped"
)

// Options of New.
type Options struct {
	Specs []catalogue.Spec
	// Shop is the workshop of the configuration; nil is an empty one.
	Shop *stock.Workshop
	// Book is required: what can't be recorded is not answered.
	Book *daybook.Book
	// Log gets no message content; nil is slog.Default.
	Log *slog.Logger
	// Clock is nil for time.Now.
	Clock func() time.Time
	// Version of the program, kept with every entry.
	Version string
	// Timeout and LongTimeout are for how long a request may compute, and one
	// whose Spec is Long; 0 takes 10 s and 5 min.
	Timeout, LongTimeout time.Duration
	// RecordTimeout is for how long the store may take to write; 0 takes 10 s.
	RecordTimeout time.Duration
	// AtOnce is how many requests compute at the same time, PerGuild how many of
	// them one guild's; 0 takes 8 and 2 for each processor.
	AtOnce, PerGuild int
	// LongAtOnce is how many Long requests compute at the same time, and
	// LongPerGuild how many of them one guild's; 0 takes 2 and 1.
	LongAtOnce, LongPerGuild int
	// Limits of makers and channels; the zero value is none.
	Limits Limits
	// Shared is set where several processes share the daybook: each event is
	// then claimed before it is answered, and each answer before it is sent.
	Shared bool
}

// Service takes requests in and gives replies out. Its methods may be called
// from several goroutines.
type Service struct {
	o           Options
	started     time.Time
	short, long *fairness.Places
	limits      *limiter
	claims      *claims
	drawing     *drawing

	mu sync.Mutex // guards what follows
	// events are those being answered now; each channel is closed at its end.
	events   map[daybook.Key]chan struct{}
	requests map[*inFlight]struct{}
	// aids are the rooms whose latest topic is first aid.
	aids map[daybook.Room]aidTopic
	// idle is set by Close, and closed when no request is left.
	idle chan struct{}
}

// New makes a service.
func New(o Options) *Service {
	processors := runtime.GOMAXPROCS(0)
	o.Shop = cmp.Or(o.Shop, &stock.Workshop{})
	o.Log = cmp.Or(o.Log, slog.Default())
	if o.Clock == nil {
		o.Clock = time.Now
	}
	o.Timeout = cmp.Or(o.Timeout, 10*time.Second)
	o.LongTimeout = cmp.Or(o.LongTimeout, 5*time.Minute)
	o.RecordTimeout = cmp.Or(o.RecordTimeout, 10*time.Second)
	o.AtOnce, o.PerGuild = cmp.Or(o.AtOnce, 8*processors), cmp.Or(o.PerGuild, 2*processors)
	o.LongAtOnce, o.LongPerGuild = cmp.Or(o.LongAtOnce, 2), cmp.Or(o.LongPerGuild, 1)
	return &Service{
		o: o, started: o.Clock(),
		short: fairness.New(o.AtOnce, o.PerGuild), long: fairness.New(o.LongAtOnce, o.LongPerGuild),
		limits: newLimiter(o.Limits), claims: newClaims(o), drawing: newDrawing(),
		events: map[daybook.Key]chan struct{}{}, requests: map[*inFlight]struct{}{},
		aids: map[daybook.Room]aidTopic{},
	}
}

// Specs lists the requests. The caller must not change them.
func (s *Service) Specs() []catalogue.Spec { return s.o.Specs }

// Complete returns the words that may come next at cursor, a byte offset in
// line. It answers from memory.
func (s *Service) Complete(_ context.Context, line string, cursor int) []Completion {
	return reading.Complete(s.o.Specs, s.o.Shop, line, cursor)
}

// Handle answers a request: it is parsed, filled from bench, computed, and
// recorded before Handle returns. The same Message of a channel is answered
// once; a later or simultaneous one gets the recorded reply with Duplicate set.
//
// Refusals and failures are replies too. An error means that nothing could be
// recorded: the Reply then has no Entry, but a Refusal that says so and may be
// shown; a later Handle of the same event tries again.
func (s *Service) Handle(ctx context.Context, req Request) (Reply, error) {
	if !s.spokenTo(ctx, req) {
		return silentReply(req), nil
	}
	key := daybook.Key{Platform: req.Who.Platform, Channel: req.Who.Channel, Message: req.Message}
	if req.Message == "" {
		if reply, over := s.overLimit(ctx, req); over {
			return reply, nil
		}
		return s.handle(ctx, req, key)
	}
	for {
		s.mu.Lock()
		done, taken := s.events[key]
		if !taken {
			done = make(chan struct{})
			s.events[key] = done
		}
		s.mu.Unlock()
		if !taken {
			defer func() {
				s.mu.Lock()
				delete(s.events, key)
				s.mu.Unlock()
				close(done)
			}()
			return s.handleOnce(ctx, req, key)
		}
		select {
		case <-done: // look again: recorded, or to be tried afresh
		case <-ctx.Done():
			return s.unrecorded(req, context.Cause(ctx))
		}
	}
}

// handleOnce answers an event unless it was answered before.
func (s *Service) handleOnce(ctx context.Context, req Request, key daybook.Key) (Reply, error) {
	if s.o.Book == nil {
		return s.unrecorded(req, errors.New("no daybook"))
	}
	entry, err := s.o.Book.ByKey(ctx, key)
	switch {
	case err == nil:
		return s.duplicate(ctx, entry), nil
	case !errors.Is(err, daybook.ErrNotFound):
		return s.unrecorded(req, err)
	}
	if reply, over := s.overLimit(ctx, req); over {
		return reply, nil
	}
	if s.o.Shared {
		if entry, taken, err := s.claim(ctx, key); err != nil {
			return s.unrecorded(req, err)
		} else if taken {
			return s.duplicate(ctx, entry), nil
		}
		s.holdEvent(key)
		defer s.claims.drop(key)
	}
	reply, err := s.handle(ctx, req, key)
	if err != nil && s.o.Shared {
		s.claims.drop(key)
		free, cancel := context.WithTimeout(context.WithoutCancel(ctx), s.o.RecordTimeout)
		defer cancel()
		if err := s.o.Book.ReleaseEvent(free, key, s.o.Book.Owner()); err != nil {
			s.o.Log.Warn("the claim of an event was not released", "platform", key.Platform, "error", err)
		}
	}
	return reply, err
}

// A request that is older than backlogAge, or than this process, was not asked
// just now: it waited for the bot. It is tried again every backlogWait.
const (
	backlogAge  = 10 * time.Second
	backlogWait = time.Second
)

// overLimit is the reply to a maker or channel that asks too much. It has no
// Entry, and the event is not remembered. Questions that come all at once
// because the bot was away were not asked in a short while, so they wait here,
// unless the adapter queues them.
func (s *Service) overLimit(ctx context.Context, req Request) (Reply, bool) {
	for {
		over := s.limits.check(req.Who, s.o.Clock())
		if over.wait <= 0 {
			return Reply{}, false
		}
		backlog := !req.Queued && !req.At.IsZero() && (req.At.Before(s.started) || s.o.Clock().Sub(req.At) >= backlogAge)
		if !backlog {
			if over.first {
				s.o.Log.Warn("asked to wait", "platform", req.Who.Platform, "channel", req.Who.Channel)
			}
			reply := replyTo(req, nil, over.refusal(req.Queued))
			reply.Wait = over.wait
			return reply, true
		}
		select {
		case <-time.After(backlogWait):
		case <-ctx.Done():
			return Reply{}, false // and goes unanswered, since its context has ended
		}
	}
}

// replyTo is a reply that is not recorded yet.
func replyTo(req Request, ans *answer.Answer, refusal *answer.Refusal) Reply {
	return Reply{Answer: ans, Refusal: refusal, Route: req.Route, Who: req.Who, Message: req.Message, At: req.At}
}

// silentReply is the reply to chatter: nothing is recorded or sent.
func silentReply(req Request) Reply {
	r := replyTo(req, nil, nil)
	r.Silent = true
	return r
}

// An event claimed by another process is looked for at first soon, then now
// and then.
const (
	claimPoll    = 50 * time.Millisecond
	claimPollMax = time.Second
)

// claim claims an event for this process, or waits until the process that has
// it has recorded it or its claim has run out.
func (s *Service) claim(ctx context.Context, key daybook.Key) (entry daybook.Entry, taken bool, err error) {
	for wait := claimPoll; ; wait = min(2*wait, claimPollMax) {
		mine, _, err := s.o.Book.ClaimEvent(ctx, key, s.o.Book.Owner(), s.o.Book.Hold())
		if err != nil || mine {
			return entry, false, err
		}
		entry, err = s.o.Book.ByKey(ctx, key)
		if err == nil {
			return entry, true, nil
		}
		if !errors.Is(err, daybook.ErrNotFound) {
			return entry, false, err
		}
		select {
		case <-time.After(wait):
		case <-ctx.Done():
			return entry, false, context.Cause(ctx)
		}
	}
}

// outcome is a request's reply before it is recorded.
type outcome struct {
	// aid keeps the asker's words out of the daybook; silent wants no answer.
	aid, silent bool
	parsed      reading.Parsed
	answer      *answer.Answer
	refusal     *answer.Refusal
	status      daybook.Status
}

// handle computes and records.
func (s *Service) handle(ctx context.Context, req Request, key daybook.Key) (Reply, error) {
	began := time.Now()
	if s.o.Book == nil {
		return s.unrecorded(req, errors.New("no daybook"))
	}
	ctx, f, err := s.admit(ctx, req)
	if err != nil {
		return s.unrecorded(req, err)
	}
	defer s.finish(f)
	out := s.compute(ctx, req, f)
	s.noteAid(req, out)
	if out.silent {
		return silentReply(req), nil
	}
	if err := ctx.Err(); err != nil && !errors.Is(context.Cause(ctx), ErrStopped) {
		return s.unrecorded(req, context.Cause(ctx))
	}
	if out.refusal != nil && errors.Is(out.refusal.Cause, daybook.ErrCannotRecord) {
		return s.unrecorded(req, out.refusal.Cause) // what the request itself keeps
	}
	entry, err := s.entry(req, key, out)
	if err != nil { // an answer that can't be written down is a bug
		out = s.fault(out.parsed, faultText, err)
		if entry, err = s.entry(req, key, out); err != nil {
			return s.unrecorded(req, err)
		}
	}
	write, cancel := context.WithTimeout(context.WithoutCancel(ctx), s.o.RecordTimeout)
	defer cancel()
	stored, existed, err := s.o.Book.Record(write, entry)
	if err != nil {
		return s.unrecorded(req, err)
	}
	if existed {
		return s.duplicate(write, stored), nil
	}
	s.holdEntry(stored.ID)
	s.o.Log.Info("answered", "platform", key.Platform, "request", entry.Request, "status", string(entry.Status),
		"entry", stored.ID, "took", time.Since(began).Round(time.Microsecond))
	numbered(out.answer, stored.ID)
	reply := replyTo(req, out.answer, out.refusal)
	reply.Entry, reply.At = stored.ID, stored.At
	s.describe(&reply, entry.Request)
	return reply, nil
}

// describe fills what a reply has of its request's description.
func (s *Service) describe(r *Reply, request string) {
	for i := range s.o.Specs {
		if spec := &s.o.Specs[i]; spec.Name == request {
			r.Long, r.Once = spec.Long, spec.Keeps
		}
	}
}

// unrecorded is the reply where nothing could be recorded.
func (s *Service) unrecorded(req Request, err error) (Reply, error) {
	if !errors.Is(err, context.Canceled) && !errors.Is(err, ErrClosing) {
		s.o.Log.Error("a request could not be recorded, so it was not answered", "platform", req.Who.Platform, "error", err)
	}
	return replyTo(req, nil, &answer.Refusal{Problem: CantRecord, Cause: err}), fmt.Errorf("bot: not recorded: %w", err)
}

// fault is the outcome of a bug, or of a request that took too long: people read
// the sentence, the log has the cause.
func (s *Service) fault(parsed reading.Parsed, sentence string, cause error) outcome {
	name := ""
	if parsed.Spec != nil {
		name = parsed.Spec.Name
	}
	s.o.Log.Error("failed", "request", name, "error", cause)
	return outcome{parsed: parsed, status: daybook.Failed, refusal: &answer.Refusal{Problem: sentence, Cause: cause}}
}

// guildOf names whose place a request takes: its guild's, or its direct chat's.
func guildOf(who catalogue.Who) string {
	if who.Guild == "" {
		return who.Platform + "\x00\x00" + who.Channel
	}
	return who.Platform + "\x00" + who.Guild
}

// compute parses and answers; whatever happens, there is an outcome. Long work
// has places of its own, so that it takes none from short requests.
func (s *Service) compute(ctx context.Context, req Request, f *inFlight) outcome {
	u, err := s.understand(ctx, req)
	parsed := u.Parsed
	if out, closed := s.closed(ctx, req, u); closed {
		return out
	}
	switch {
	case u.silent:
		return outcome{silent: true}
	case u.said != nil:
		return outcome{answer: u.said, status: daybook.Answered}
	}
	if parsed.Spec != nil && parsed.Spec.Needs == catalogue.Teacher && !req.Who.Teacher {
		return outcome{parsed: parsed, status: daybook.Refused, refusal: notTeacher(parsed.Spec, req.Who)}
	}
	place, limit := s.shortPlace, s.o.Timeout
	if err == nil && parsed.Spec.Long {
		place, limit = s.longPlace, s.o.LongTimeout
		s.markLong(f)
		if req.OnLong != nil {
			req.OnLong()
		}
	}
	release, noPlace := place(ctx, req)
	if noPlace != nil {
		return s.failed(ctx, parsed, req, noPlace)
	}
	defer release()
	if err != nil {
		return s.failed(ctx, parsed, req, err)
	}
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	ans, err := s.run(within, s.call(ctx, parsed, req, 0))
	if err != nil {
		return s.failed(within, parsed, req, err)
	}
	s.addRules(ctx, parsed, req.Who, ans)
	u.add(ans)
	s.drawing.bound(ans, req.Who)
	return outcome{parsed: parsed, answer: ans, status: daybook.Answered, aid: u.aid}
}

func (s *Service) shortPlace(ctx context.Context, req Request) (release func(), err error) {
	return s.short.Acquire(ctx, guildOf(req.Who))
}

// mostLongWaiting is how many long requests of one guild may queue.
const mostLongWaiting = 5

func (s *Service) longPlace(ctx context.Context, req Request) (release func(), err error) {
	most := s.o.LongPerGuild + mostLongWaiting
	release, err = s.long.AcquireQueued(ctx, guildOf(req.Who), most, func() {
		if req.Progress != nil {
			req.Progress(0, 100, "waiting for its turn")
		}
	})
	if errors.Is(err, fairness.ErrFull) {
		return nil, answer.Refuse("", "one moment: this guild has %d such requests running or waiting already; ask again when one is done", most)
	}
	return release, err
}

func notTeacher(spec *catalogue.Spec, who catalogue.Who) *answer.Refusal {
	return answer.Refuse("help", "%s is %s", spec.Name, who.ForTeachers())
}

// failed sorts an error: what the asker can put right, what took too long, what
// the asker stopped, and bugs.
func (s *Service) failed(ctx context.Context, parsed reading.Parsed, req Request, err error) outcome {
	if r, ok := answer.AsRefusal(err); ok {
		if r.Cause != nil {
			s.o.Log.Warn("refused with a cause", "error", r.Cause)
		}
		return outcome{parsed: parsed, status: daybook.Refused, refusal: s.suggest(ctx, parsed.Spec, req, r)}
	}
	switch {
	case errors.Is(context.Cause(ctx), ErrStopped):
		return outcome{parsed: parsed, status: daybook.Refused, refusal: &answer.Refusal{Problem: stoppedText, Try: parsed.Line}}
	case errors.Is(err, context.DeadlineExceeded):
		return s.fault(parsed, slowText, err)
	case errors.Is(err, context.Canceled):
		// Not recorded: handle sees that the context has ended.
		return outcome{parsed: parsed, status: daybook.Failed, refusal: &answer.Refusal{Problem: faultText, Cause: err}}
	}
	return s.fault(parsed, faultText, err)
}

// panicked is the error of a panic, with its stack.
func panicked(value any) error { return fmt.Errorf("panic: %v\n%s", value, debug.Stack()) }

// run calls the request's Answer, catches its panic, and does not wait past
// the context's end. A computation that ignores its context keeps running; its
// result is dropped.
func (s *Service) run(ctx context.Context, call *catalogue.Call) (*answer.Answer, error) {
	type result struct {
		ans *answer.Answer
		err error
	}
	done := make(chan result, 1)
	go func() {
		var r result
		defer func() {
			if v := recover(); v != nil {
				r = result{err: panicked(v)}
			}
			done <- r
		}()
		r.ans, r.err = call.Answer(ctx)
	}()
	select {
	case r := <-done:
		return r.ans, r.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// parse reads the request, typed or structured.
func (s *Service) parse(ctx context.Context, req Request) (reading.Parsed, error) {
	look := reading.Lookups{Shop: s.o.Shop, Bench: s.bench(ctx, req.Who)}
	if req.Command != "" {
		return reading.ParseOptions(s.o.Specs, req.Command, req.Options, look)
	}
	return reading.Parse(s.o.Specs, req.Text, look)
}

// maxNested is how deep requests may stand inside requests.
const maxNested = 2

// call makes what a request's Answer gets.
func (s *Service) call(ctx context.Context, parsed reading.Parsed, req Request, depth int) *catalogue.Call {
	progress := req.Progress
	if progress == nil {
		progress = func(int, int, string) {}
	}
	now := req.At
	if now.IsZero() {
		now = s.o.Clock()
	}
	call := parsed.Call()
	call.Who, call.Shop, call.Progress, call.Now, call.Version = req.Who, s.o.Shop, progress, now, s.o.Version
	call.Photo, call.PhotoLost = req.Photo, req.PhotoLost
	call.Traced = func(nameOrID string) (catalogue.Traced, error) {
		return bench.Traced(context.WithoutCancel(ctx), s.o.Book, req.Who, nameOrID)
	}
	if !parsed.NoBench {
		call.Corrections = func(ctx context.Context) ([]catalogue.Correction, error) {
			return bench.Corrections(ctx, s.o.Book, req.Who)
		}
	}
	// What is shown of an entry is drawn after its request has ended.
	call.Past = func(who catalogue.Who, at time.Time, line string) (*catalogue.Call, error) {
		return s.past(context.WithoutCancel(ctx), who, at, line)
	}
	call.Stop = func() int { return s.Stop(ctx, req.Who, "") }
	call.Nested = func(line string) (*catalogue.Call, error) {
		if depth >= maxNested {
			return nil, answer.Refuse("", "these requests are nested too deeply")
		}
		look := reading.Lookups{Shop: s.o.Shop}
		if !parsed.NoBench {
			look.Bench = s.bench(ctx, req.Who)
		}
		inner, err := reading.Parse(s.o.Specs, line, look)
		if err != nil {
			return nil, err
		}
		if inner.Spec.Keeps || inner.Spec.Needs > parsed.Spec.Needs {
			return nil, answer.Refuse("", "%s can't be part of %s; ask for it on its own", inner.Spec.Name, parsed.Spec.Name)
		}
		inner.NoBench = inner.NoBench || parsed.NoBench
		return s.call(ctx, inner, req, depth+1), nil
	}
	return call
}

// bench returns the benches that fill what was not typed, strongest first.
func (s *Service) bench(ctx context.Context, who catalogue.Who) func() ([]reading.Layer, error) {
	return func() ([]reading.Layer, error) {
		return bench.Layers(ctx, s.o.Book, who)
	}
}

// addRules adds the house rules to an answer.
func (s *Service) addRules(ctx context.Context, parsed reading.Parsed, who catalogue.Who, ans *answer.Answer) {
	if len(ans.Figures) == 0 || parsed.Spec.Keeps || s.o.Book == nil {
		return
	}
	for _, scope := range []struct {
		daybook.Scope
		lead string
	}{
		{bench.Scope(who, catalogue.FromChannel), answer.RuleLead + ": "},
		{bench.Scope(who, catalogue.FromGuild), answer.RuleLead + " of the guild: "},
	} {
		if scope.ID == "" {
			continue
		}
		rules, err := s.o.Book.Rules(ctx, scope.Scope)
		if err != nil {
			s.o.Log.Warn("house rules not read", "platform", who.Platform, "error", err)
			continue
		}
		for _, r := range rules {
			ans.Assumptions = append(ans.Assumptions, scope.lead+r.Text)
		}
	}
}

// Delivered marks an entry as sent, with the platform's id of the answer. An
// entry that a maker has made the daybook forget meanwhile needs no mark.
func (s *Service) Delivered(ctx context.Context, entry int64, platformMessage string) error {
	return s.settle(ctx, entry, func() error {
		return s.o.Book.MarkDelivered(ctx, entry, platformMessage, s.o.Clock())
	})
}

// settle marks an entry as done with, or removes a fleeting one. Until that has
// worked, the answer stays this process's, so that nobody sends it again.
func (s *Service) settle(ctx context.Context, entry int64, mark func() error) error {
	recorded, err := s.o.Book.AnswerByID(ctx, entry)
	if err == nil {
		if fleeting(recorded) {
			err = s.o.Book.ForgetEntry(ctx, entry)
		} else {
			err = mark()
		}
	}
	if err == nil || errors.Is(err, daybook.ErrNotFound) {
		s.claims.drop(entry)
		return nil
	}
	return err
}

// fleeting reports whether a recorded answer must not be kept. Hardly any is, so
// look for the word before decoding.
func fleeting(recorded json.RawMessage) bool {
	if !bytes.Contains(recorded, []byte(`"fleeting":true`)) {
		return false
	}
	ans, err := answer.Recorded(recorded)
	return err == nil && ans.Fleeting
}

// Expired marks an entry as too old to send, or with nowhere to send it; it is
// never sent then.
func (s *Service) Expired(ctx context.Context, entry int64) error {
	return s.settle(ctx, entry, func() error { return s.o.Book.MarkExpired(ctx, entry, s.o.Clock()) })
}

// Recorded returns the stored reply of an entry. Its attachments are computed
// again, from the recorded line, when they are rendered.
func (s *Service) Recorded(ctx context.Context, entry int64) (Reply, error) {
	e, err := s.o.Book.ByID(ctx, entry)
	if err != nil {
		return Reply{}, err
	}
	reply := s.reply(e)
	amended, err := s.o.Book.Amendments(ctx, entry)
	if err != nil {
		return reply, err
	}
	if n := len(amended); n > 0 {
		reply.Corrected = amended[n-1].Text
	}
	return reply, nil
}

// duplicate is the reply to an event that was answered before. One that is not
// sent yet is the caller's to send, unless somebody else is sending it.
func (s *Service) duplicate(ctx context.Context, e daybook.Entry) Reply {
	r := s.reply(e)
	r.Duplicate = true
	r.Delivered = r.Delivered || !s.claimEntry(ctx, e.ID)
	return r
}

// reply makes the reply of a recorded entry.
func (s *Service) reply(e daybook.Entry) Reply {
	r := Reply{
		Entry: e.ID, Delivered: !e.DeliveredAt.IsZero(), Route: e.Route, Message: e.Key.Message, At: e.At,
		Who: catalogue.Who{Platform: e.Key.Platform, Guild: e.Guild, Channel: e.Key.Channel, Maker: e.Maker},
	}
	s.describe(&r, e.Request)
	if e.Status != daybook.Answered {
		r.Refusal = answer.RecordedRefusal(e.Problem, e.Try, e.Answer)
		return r
	}
	ans, err := answer.Recorded(e.Answer)
	if err != nil {
		s.o.Log.Error("a recorded answer can't be read", "entry", e.ID, "error", err)
		r.Refusal = &answer.Refusal{Problem: faultText, Cause: err}
		return r
	}
	s.redraw(ans, e)
	s.drawing.bound(ans, r.Who)
	numbered(ans, e.ID)
	r.Answer = ans
	return r
}

// redraw gives the attachments of a recorded answer their bytes back: the line
// is computed once more when the first of them is asked for.
func (s *Service) redraw(ans *answer.Answer, e daybook.Entry) {
	var (
		mu    sync.Mutex
		fresh *answer.Answer
	)
	compute := func(ctx context.Context) (*answer.Answer, error) {
		mu.Lock()
		defer mu.Unlock()
		if fresh != nil {
			return fresh, nil
		}
		who := catalogue.Who{Platform: e.Key.Platform, Guild: e.Guild, Channel: e.Key.Channel, Maker: e.Maker}
		call, err := s.past(ctx, who, e.At, answer.LineOf(e.Answer, e.Line))
		if err == nil {
			fresh, err = s.run(ctx, call)
		}
		return fresh, err
	}
	for i := range ans.Attachments {
		name := ans.Attachments[i].Name
		ans.Attachments[i].Render = func(ctx context.Context) ([]byte, error) {
			again, err := compute(ctx)
			if err != nil {
				return nil, err
			}
			for _, a := range again.Attachments {
				if a.Name == name && a.Render != nil {
					return a.Render(ctx)
				}
			}
			return nil, fmt.Errorf("bot: entry %d has no %s any more", e.ID, name)
		}
	}
}

// past makes the call of an answered line again. Its asker was allowed to ask
// then, so that is not checked again.
func (s *Service) past(ctx context.Context, who catalogue.Who, at time.Time, line string) (*catalogue.Call, error) {
	parsed, err := reading.Parse(s.o.Specs, line, reading.Lookups{Shop: s.o.Shop})
	if err != nil {
		return nil, err
	}
	if parsed.Spec.Keeps && (parsed.Spec.Reads == nil || !parsed.Spec.Reads(parsed.Args)) {
		return nil, answer.Refuse("", "%s is not run twice", parsed.Spec.Name)
	}
	who.Teacher, who.Direct = true, true
	return s.call(ctx, parsed, Request{At: at, Who: who}, 0), nil
}

// entry makes what is recorded of an outcome.
func (s *Service) entry(req Request, key daybook.Key, out outcome) (daybook.Entry, error) {
	e := daybook.Entry{
		At: req.At, Key: key, Guild: req.Who.Guild, Maker: req.Who.Maker,
		Typed: req.Text, Status: out.status, Line: out.parsed.Line,
		Version: s.o.Version, Route: req.Route,
	}
	if e.At.IsZero() {
		e.At = s.o.Clock()
	}
	if req.Quoted {
		e.Author = req.Author
	}
	if out.aid || req.Quoted {
		e.Typed = "" // neither whoever is hurt nor another's words are written down
	}
	if out.parsed.Spec != nil {
		e.Request = out.parsed.Spec.Name
	}
	var err error
	if out.parsed.Args != nil {
		e.Outline = out.parsed.Args.Word("outline")
		if e.Args, err = json.Marshal(out.parsed.Args); err != nil {
			return e, err
		}
	}
	if out.refusal != nil {
		e.Problem, e.Try = out.refusal.Problem, out.refusal.Try
		e.Answer, err = out.refusal.Record()
		return e, err
	}
	e.Headline, e.Line = out.answer.Headline, out.answer.Line
	e.Figures, e.Answer, err = out.answer.Record()
	return e, err
}
