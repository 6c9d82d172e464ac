package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/delivery"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// route is what the daybook keeps with an answer so that it can be sent later.
type route struct {
	Room id.RoomID `json:"room"`
	// Question is the event that the answer replies to.
	Question id.EventID `json:"question"`
	Thread   id.EventID `json:"thread,omitempty"`
	Asker    id.UserID  `json:"asker"`
	// Direct chats show requests without a prefix.
	Prefix string `json:"prefix,omitempty"`
	// Replaces and ReplacesImage are the answer that stands there, where the
	// question was edited.
	Replaces      id.EventID `json:"replaces,omitempty"`
	ReplacesImage id.EventID `json:"replaces_image,omitempty"`
}

// lookEvery is how often unsent answers are looked for, unless other processes
// share the daybook and may leave some.
const lookEvery = 30 * time.Second

func (a *Adapter) newOutbox() *delivery.Outbox {
	every, shared := a.bot.Shared()
	if !shared {
		every = lookEvery
	}
	return delivery.New(a.bot, redelivery{a}, delivery.Options{
		Platform: platform, FreshFor: a.cfg.FreshFor,
		Every: every, Log: a.log, Pace: a.pace,
	})
}

// redelivery sends what an earlier attempt may have sent, wholly or in part.
type redelivery struct{ a *Adapter }

// Send looks for each part of the reply before it sends it.
func (d redelivery) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
	var to route
	if err := json.Unmarshal(r.Route, &to); err != nil || to.Room == "" {
		return delivery.Sent{}, fmt.Errorf("%w: it has no room", delivery.ErrUndeliverable)
	}
	err := d.a.know(ctx, to.Room)
	var sent delivery.Sent
	if err == nil {
		sent, err = d.a.sendReply(ctx, r, to, note{}, true)
	}
	if v, _ := judge(err); v == refused && !d.a.maySpeakLater(ctx, to.Room) {
		// The bot was put out of the room, or the server takes no such message.
		err = fmt.Errorf("%w: %w", delivery.ErrUndeliverable, err)
	}
	return sent, err
}

// maySpeakLater reports whether the bot is in a room and has not the power to
// speak there so far.
func (a *Adapter) maySpeakLater(ctx context.Context, room id.RoomID) bool {
	levels, err := a.cli.StateStore.GetPowerLevels(ctx, room)
	if err != nil || levels == nil {
		return false
	}
	return a.cli.StateStore.IsInRoom(ctx, room, a.cli.UserID) &&
		levels.GetUserLevel(a.cli.UserID) < levels.GetEventLevel(event.EventMessage)
}

// sendReply sends a reply. again is true if an earlier run may have sent it.
func (a *Adapter) sendReply(ctx context.Context, r bot.Reply, to route, n note, again bool) (delivery.Sent, error) {
	record := sentAnswer{
		room: to.Room, question: to.Question, thread: to.Thread,
		asker: digest(string(to.Asker)), entry: r.Entry,
	}
	var err error
	kept := false
	if to.Replaces != "" {
		record.answer = to.Replaces
		record.image, err = a.replace(ctx, r, to, again)
	} else {
		kept, err = a.sendNew(ctx, r, to, &record, again)
	}
	if err == nil && r.Long {
		err = a.closeNote(ctx, id.EventID(r.Message), to, n, again, lastWord(r))
	}
	if err != nil {
		return delivery.Sent{}, err
	}
	if !kept {
		if err := a.store.keepAnswer(ctx, record); err != nil {
			return delivery.Sent{}, fmt.Errorf("answer not noted: %w", err)
		}
	}
	if gone, err := a.isRedacted(ctx, to.Question); err != nil || gone {
		return delivery.Sent{Message: string(record.answer), Way: "taken back"}, errors.Join(err, a.takeBack(ctx, to.Room, to.Question))
	}
	return delivery.Sent{Message: string(record.answer), Way: "sent"}, nil
}

// sendNew sends an answer, and the files that belong to it, as replies to the
// question, and records their events. kept is true where the store has the record
// already, as one of several.
func (a *Adapter) sendNew(ctx context.Context, r bot.Reply, to route, record *sentAnswer, again bool) (kept bool, err error) {
	replyTo, thread, own := to.Question, to.Thread, true
	if r.Answer != nil && r.Answer.InReplyTo != "" {
		// It speaks of an earlier answer, and stands where that one stands.
		earlier := id.EventID(r.Answer.InReplyTo)
		at, ok, err := a.store.answerAt(ctx, to.Room, earlier, "")
		if err != nil {
			return false, err
		}
		if ok {
			replyTo, thread, own = earlier, at.thread, false
		}
	}
	part := func(name string, build builder) outgoing { return partOf(r, to, name, again, build) }
	m := messageOf(r, to.Prefix)
	introduced, err := a.introduce(ctx, r, to, m)
	defer introduced(false)
	if err != nil {
		return false, err
	}
	files := a.filesOf(r)
	s := &section{
		room: to.Room, question: to.Question, thread: thread, asker: to.Asker, ready: time.Now(),
		message: m, picture: files.Picture, files: len(files.AtOnce), record: *record,
	}
	out := part("text", a.alone(s, func(c *event.MessageEventContent) *event.MessageEventContent {
		return place(c, replyTo, thread, to.Asker)
	}))
	if own {
		out.section = s
	}
	a.limit.follow(s.files)
	defer func() { a.limit.follow(-s.files) }()
	if record.answer, err = a.send(ctx, out); err != nil || r.Answer == nil {
		return s.kept, err
	}
	introduced(true)
	// The answer mentions the asker; what follows it doesn't ring again.
	placed := func(c *event.MessageEventContent) *event.MessageEventContent { return place(c, replyTo, thread, "") }
	for i, at := range files.AtOnce {
		file, err := a.send(ctx, part(fmt.Sprintf("file-%d", i), a.attach(at, placed)))
		if err = a.excuse(ctx, err, part, placed, at); err != nil {
			return false, err
		}
		if i == 0 && a.apart(r) != nil {
			record.image = file
		}
		a.limit.follow(-1)
		s.files--
	}
	return s.kept && record.image == "", nil
}

// apart is the picture of a reply that goes out as a message of its own, or nil.
func (a *Adapter) apart(r bot.Reply) *answer.Attachment {
	if !a.cfg.PicturesApart {
		return nil
	}
	return r.Files().Picture
}

// filesOf are the files of a reply. A picture that goes out as a message of its
// own is the first that follow the text.
func (a *Adapter) filesOf(r bot.Reply) answer.FileSet {
	files := r.Files()
	if picture := a.apart(r); picture != nil {
		files.Picture, files.AtOnce = nil, slices.Concat([]answer.Attachment{*picture}, files.AtOnce)
	}
	return files
}

// introduce adds to the first answer in a room what people should know. The
// room counts as told once the function that it gives is called with true.
func (a *Adapter) introduce(ctx context.Context, r bot.Reply, to route, m *message) (told func(bool), err error) {
	nothing := func(bool) {}
	record, err := a.store.room(ctx, to.Room)
	// Whoever is hurt, or is told something else first, is not shown around.
	if err != nil || record.introduced || r.Answer == nil || r.Answer.Explains {
		return nothing, err
	}
	if _, another := a.introducing.LoadOrStore(to.Room, true); another {
		return nothing, nil
	}
	m.firstWords(to.Prefix)
	return func(sent bool) {
		if sent {
			if err := a.store.markIntroduced(ctx, to.Room); err != nil {
				a.log.Warn("a room will be told again what is kept", "room", to.Room, "err", err)
			}
		}
		a.introducing.Delete(to.Room)
	}, nil
}

// partOf names one message of a reply. It is looked for after the event that was
// answered: the question, or its edit.
func partOf(r bot.Reply, to route, name string, again bool, build builder) outgoing {
	asked := id.EventID(r.Message)
	return outgoing{room: to.Room, part: partID(asked, name), after: asked, again: again, build: build}
}

// messageOf makes the reply's text.
func messageOf(r bot.Reply, prefix string) *message {
	if r.Refusal != nil {
		return renderRefusal(r.Refusal, prefix)
	}
	return renderAnswer(r, prefix)
}

// replace edits the answer that stands there, with its picture. Where it is one
// of several in an event, the others stay as they are. A picture that is a
// message of its own is taken away and sent anew: few clients show an edit of
// one. It gives that message, if any.
func (a *Adapter) replace(ctx context.Context, r bot.Reply, to route, again bool) (picture id.EventID, err error) {
	edited := func(c *event.MessageEventContent) *event.MessageEventContent { return edit(c, to.Replaces) }
	a.sharing.Lock()
	defer a.sharing.Unlock()
	rows, err := a.store.answersIn(ctx, to.Room, to.Replaces)
	if err != nil {
		return "", err
	}
	build := a.alone(&section{message: messageOf(r, to.Prefix), picture: a.filesOf(r).Picture, ready: time.Now()}, edited)
	if len(rows) > 1 {
		build = a.shared(a.sectionsOf(ctx, rows, r, to.Question), edited)
	}
	if _, err = a.send(ctx, partOf(r, to, "text", again, build)); err != nil {
		return "", err
	}
	if at := a.apart(r); at != nil {
		placed := func(c *event.MessageEventContent) *event.MessageEventContent {
			return place(c, to.Question, to.Thread, "")
		}
		part := func(name string, build builder) outgoing { return partOf(r, to, name, again, build) }
		picture, err = a.send(ctx, part("picture", a.attach(*at, placed)))
		if err = a.excuse(ctx, err, part, placed, *at); err != nil {
			return "", err
		}
	}
	if to.ReplacesImage == "" {
		return picture, nil
	}
	_, err = persist(ctx, func(ctx context.Context) (*mautrix.RespSendEvent, error) {
		return a.cli.RedactEvent(ctx, to.Room, to.ReplacesImage, mautrix.ReqRedact{
			Reason: "the question was edited", TxnID: partID(id.EventID(r.Message), "redaction"),
		})
	})
	return picture, err
}

// excuse tells the asker of a file that cannot be sent, and lets the rest of the
// answer go on. It gives an error only if nothing can be said either.
func (a *Adapter) excuse(ctx context.Context, err error, part func(string, builder) outgoing, placed func(*event.MessageEventContent) *event.MessageEventContent, at answer.Attachment) error {
	if err == nil || ctx.Err() != nil {
		return err
	}
	out := part("excuse-"+at.Name, nil)
	a.log.Error("file not sent", "room", out.room, "event", out.after, "file", at.Name, "err", err)
	m := &message{}
	m.line("", answer.FileProblem(at.Name))
	out.build = ready(placed(m.notice()))
	_, err = a.send(ctx, out)
	return err
}
