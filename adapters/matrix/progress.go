package matrix

import (
	"context"
	"crypto/rand"
	"slices"
	"time"

	"guildhand/bot"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// typingFor is how long the server shows the bot as typing unless told again.
const typingFor = 20 * time.Second

// note is the message that tells how far long work is. The answer does not
// replace it but follows it, as any answer follows its question, so nothing that
// makes answers come once has to know of it. It gets its last word after the
// answer stands and before the answer is marked as delivered, so that another
// run does it if this one dies in between.
type note struct {
	id id.EventID
	// unsure is true if there may be one that has to be looked for.
	unsure bool
	// text is what it says.
	text string
}

// Working lets the room's next event be handled, and shows the bot as typing.
func (q *firstReply) Working(ctx context.Context) {
	q.unblock()
	q.working, q.note.unsure = true, q.again
	q.typing(ctx, true)
}

// Progress posts the message, or edits it.
func (q *firstReply) Progress(ctx context.Context, text string) error {
	q.typing(ctx, true)
	if text == "" || text == q.note.text || q.a.limit.holds() {
		return nil // under a limit the answers come first
	}
	m := &message{}
	m.line("", text)
	if slices.Contains(q.a.words, "stop") {
		m.request("to stop it: ", q.to.Prefix+"stop")
	}
	c := m.notice()
	if q.note.id != "" {
		// No run looks for these edits, so each has a name of its own.
		_, err := q.a.send(ctx, outgoing{
			room: q.to.Room, part: partID(q.asked, "progress "+rand.Text()), after: q.asked,
			build: ready(edit(c, q.note.id)),
		})
		q.note.text = text
		return err
	}
	c.RelatesTo, c.Mentions = relation(q.to.Question, q.to.Thread), &event.Mentions{}
	q.note.unsure = true
	out := noteOf(q.asked, q.to)
	out.again, out.build = q.again, ready(c)
	sent, err := q.a.send(ctx, out)
	if err == nil {
		q.note = note{id: sent}
		if !q.again { // else it may be an earlier run's, with that one's words
			q.note.text = text
		}
	}
	return err
}

// noteOf names the message.
func noteOf(asked id.EventID, to route) outgoing {
	return outgoing{room: to.Room, part: partID(asked, "progress"), after: asked}
}

// typing shows the bot as typing, or no longer. It is a sign of life only: a
// failure is not worth a word.
func (q *firstReply) typing(ctx context.Context, on bool) {
	_, _ = q.a.cli.UserTyping(ctx, q.to.Room, on, typingFor)
}

// closeNote gives the message its last word, if there is one. It gives an error
// only if ctx has ended.
func (a *Adapter) closeNote(ctx context.Context, asked id.EventID, to route, n note, again bool, word string) error {
	if n.id == "" && !n.unsure && !again {
		return nil
	}
	there := n.id
	var err error
	if there == "" {
		there, err = persist(ctx, func(ctx context.Context) (id.EventID, error) {
			return a.findSent(ctx, noteOf(asked, to))
		})
	}
	if err == nil && there != "" {
		m := &message{}
		m.line("", word)
		_, err = a.send(ctx, outgoing{
			room: to.Room, part: partID(asked, "progress end"), after: asked, again: again,
			build: ready(edit(m.notice(), there)),
		})
	}
	if err != nil && ctx.Err() == nil {
		a.log.Warn("the message on progress was not ended", "room", to.Room, "event", asked, "err", err)
	}
	return ctx.Err()
}

// lastWord is what the message on progress ends with.
func lastWord(r bot.Reply) string {
	if r.Refusal != nil {
		return r.Refusal.Problem
	}
	return "done, see the answer"
}
