package matrix

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// section is an answer that may share an event with others.
type section struct {
	room             id.RoomID
	question, thread id.EventID
	asker            id.UserID
	message          *message
	picture          *answer.Attachment // nil: none
	// files is how many files are to follow.
	files int
	ready time.Time
	// record is what the store keeps of the answer, if it has an entry; kept is
	// set once that is done.
	record sentAnswer
	kept   bool
}

const (
	// mostShared bounds each form of a text that answers share, with room for
	// the lines that are added.
	mostShared = mostBytes - 4000
	// mostPictures bounds the pictures on one sheet, so that a phone shows it.
	mostPictures = 12
	// longWait is a wait for the server's limit that is worth a word.
	longWait = 20 * time.Second
)

// sharing gives those of the messages that wait which can share an event with
// the first: answers for the same place, as many as an event holds. Each asker's
// first comes before anybody's second, so that nobody's flood fills the event.
func sharing(first *waiting, all []*waiting) []*waiting {
	group := []*waiting{first}
	size, pictures := first.out.section.size(), first.out.section.pictures()
	asked := map[id.UserID]int{first.out.section.asker: 1}
	turn := map[*waiting]int{}
	var others []*waiting
	for _, w := range all {
		s := w.out.section
		if w == first || s == nil || w.out.room != first.out.room || s.thread != first.out.section.thread {
			continue
		}
		turn[w] = asked[s.asker]
		asked[s.asker]++
		others = append(others, w)
	}
	slices.SortStableFunc(others, func(x, y *waiting) int { return turn[x] - turn[y] })
	for _, w := range others {
		s := w.out.section
		if size+s.size() > mostShared || pictures+s.pictures() > mostPictures {
			continue
		}
		size, pictures = size+s.size(), pictures+s.pictures()
		group = append(group, w)
	}
	return group
}

func (s *section) size() int { return max(s.message.plain.Len(), s.message.html.Len()) }

func (s *section) pictures() int {
	if s.picture == nil {
		return 0
	}
	return 1
}

// alone builds the event of an answer that shares it with none: its picture with
// the text as caption, or the text.
func (a *Adapter) alone(s *section, finish func(*event.MessageEventContent) *event.MessageEventContent) builder {
	return func(ctx context.Context, encrypted bool) (*event.MessageEventContent, error) {
		m := &message{}
		m.append(s.message)
		a.limit.tellOf(m, s)
		return a.captionedPicture(ctx, m, s.picture, encrypted, finish)
	}
}

// captionedPicture builds a picture with a text as its caption, or the text
// alone where there is no picture or it can't be made or brought to the server.
func (a *Adapter) captionedPicture(ctx context.Context, m *message, at *answer.Attachment, encrypted bool, finish func(*event.MessageEventContent) *event.MessageEventContent) (*event.MessageEventContent, error) {
	if at == nil {
		return finish(m.notice()), nil
	}
	c, err := a.imageOf(*at, m, finish)(ctx, encrypted)
	if err == nil || ctx.Err() != nil {
		return c, err
	}
	a.log.Error("picture not sent", "file", at.Name, "err", err)
	m.line("", answer.FileProblem(at.Name))
	return finish(m.notice()), nil
}

// tellOf adds to a message how long its answers waited for the server's limit,
// and how long their files will, where that is long.
func (l *sendingLimit) tellOf(m *message, sections ...*section) {
	all, one := l.untilFiles()
	if one == 0 {
		return
	}
	var waited time.Duration
	files := 0
	for _, s := range sections {
		waited, files = max(waited, time.Since(s.ready)), files+s.files
	}
	if waited > longWait {
		m.line("em", fmt.Sprintf("This waited %d s: the server lets me send only one message in %d s.", seconds(waited), seconds(one)))
	}
	if files > 0 && all > longWait && l.holds() {
		m.line("em", fmt.Sprintf("The files follow in about %d s: the server lets me send only one message in %d s.", seconds(all), seconds(one)))
	}
}

func seconds(d time.Duration) int { return max(1, int(d.Round(time.Second)/time.Second)) }

// together makes one message of those that can share an event. It takes out
// those that stand in the room already, and those whose question was taken back
// meanwhile.
func (a *Adapter) together(ctx context.Context, group []*waiting) ([]*waiting, outgoing) {
	group = slices.DeleteFunc(slices.Clone(group), func(w *waiting) bool {
		if gone, err := a.isRedacted(ctx, w.out.section.question); err == nil && gone {
			w.done <- sent{}
			return true
		}
		if !w.out.again {
			return false
		}
		there, err := persist(ctx, func(ctx context.Context) (id.EventID, error) { return a.findSent(ctx, w.out) })
		if err != nil || there != "" {
			w.done <- sent{there, err}
			return true
		}
		return false
	})
	switch len(group) {
	case 0:
		return nil, outgoing{}
	case 1:
		return group, group[0].out
	}
	slices.SortStableFunc(group, func(x, y *waiting) int { return int(x.out.section.record.entry - y.out.section.record.entry) })
	sections := sectionsIn(group)
	out := outgoing{room: group[0].out.room, after: group[0].out.after}
	for _, w := range group {
		out.parts = append(out.parts, w.out.part)
	}
	out.part = "guildhand-" + digest(out.parts...)
	out.build = a.shared(sections, func(c *event.MessageEventContent) *event.MessageEventContent {
		c.RelatesTo, c.Mentions = threadOnly(sections[0].thread), &event.Mentions{}
		for _, s := range sections {
			c.Mentions.Add(s.asker)
		}
		return c
	})
	return group, out
}

// threadOnly places an event in a thread, as a reply to none of its messages.
func threadOnly(thread id.EventID) *event.RelatesTo {
	if thread == "" {
		return nil
	}
	return &event.RelatesTo{Type: event.RelThread, EventID: thread}
}

// shared builds the event that answers share. Each stands below the name of its
// asker and a link to its question; their pictures are on one sheet.
func (a *Adapter) shared(sections []*section, finish func(*event.MessageEventContent) *event.MessageEventContent) builder {
	return func(ctx context.Context, encrypted bool) (*event.MessageEventContent, error) {
		m := &message{}
		m.line("em", fmt.Sprintf("%d answers in one message, since the server limits how fast I may send.", len(sections)))
		var pictures []numbered
		for i, s := range sections {
			m.heading(i+1, a.nameIn(ctx, s.room, s.asker), s)
			m.append(s.message)
			if s.picture == nil {
				continue
			}
			data, err := s.picture.Render(ctx)
			switch {
			case ctx.Err() != nil:
				return nil, ctx.Err()
			case err != nil:
				a.log.Error("picture not drawn", "file", s.picture.Name, "err", err)
				m.line("", answer.FileProblem(s.picture.Name))
			default:
				pictures = append(pictures, numbered{i + 1, data})
			}
		}
		a.limit.tellOf(m, sections...)
		var at *answer.Attachment
		if len(pictures) > 0 {
			at = &answer.Attachment{Name: "answers.png", Type: answer.PNG, Render: func(context.Context) ([]byte, error) { return sheet(pictures) }}
		}
		return a.captionedPicture(ctx, m, at, encrypted, finish)
	}
}

// nameIn is a person's display name in a room, or what their id begins with.
func (a *Adapter) nameIn(ctx context.Context, room id.RoomID, user id.UserID) string {
	if member, err := a.cli.StateStore.GetMember(ctx, room, user); err == nil && member.Displayname != "" {
		return member.Displayname
	}
	return user.Localpart()
}

// keepShared notes that answers share an event, all at once: whoever takes one of
// them out must know of the others.
func (a *Adapter) keepShared(ctx context.Context, event id.EventID, sections []*section) error {
	err := a.store.db.DoTxn(ctx, nil, func(ctx context.Context) error {
		for _, s := range sections {
			if s.record.entry == 0 {
				continue
			}
			s.record.answer = event
			if err := a.store.keepAnswer(ctx, s.record); err != nil {
				return err
			}
		}
		return nil
	})
	for _, s := range sections {
		s.kept = err == nil
	}
	return err
}

// sectionsOf makes the answers of an event again that several share, in their
// order; now takes the place of the recorded answer to its question. Answers
// that the daybook no longer has are left out.
func (a *Adapter) sectionsOf(ctx context.Context, rows []sentAnswer, now bot.Reply, question id.EventID) []*section {
	var sections []*section
	for _, row := range rows {
		r, err := now, error(nil)
		if row.question != question {
			r, err = a.bot.Recorded(ctx, row.entry)
		}
		var to route
		if err == nil {
			err = json.Unmarshal(r.Route, &to)
		}
		if err != nil {
			a.log.Warn("an answer of several in one message is not kept", "entry", row.entry, "err", err)
			continue
		}
		sections = append(sections, &section{
			room: row.room, question: row.question, thread: row.thread, asker: to.Asker, ready: time.Now(),
			message: messageOf(r, to.Prefix), picture: a.filesOf(r).Picture, record: row,
		})
	}
	return sections
}

// takeOut takes one of several answers out of the event that they share: the
// event is redacted, so that its words are gone from the server, and what
// remains is sent again, ringing nobody.
func (a *Adapter) takeOut(ctx context.Context, question id.EventID, rest []sentAnswer) error {
	sections := a.sectionsOf(ctx, rest, bot.Reply{}, "")
	if len(sections) == 0 {
		return nil
	}
	first := sections[0]
	answer, err := a.send(ctx, outgoing{
		room: first.room, part: partID(question, "without it"), after: question, again: true,
		build: a.shared(sections, func(c *event.MessageEventContent) *event.MessageEventContent {
			c.RelatesTo, c.Mentions = threadOnly(first.thread), &event.Mentions{}
			return c
		}),
	})
	if err != nil {
		return err
	}
	return a.keepShared(ctx, answer, sections)
}
