package matrix

import (
	"context"
	"crypto/rand"
	"slices"
	"strconv"
	"sync"
	"time"

	"guildhand/bot"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

const (
	// noteAfter is how long work may take before a message tells of it.
	noteAfter = 2 * time.Second
	// noteEvery is the wait between two edits of that message at first. It
	// grows to noteSeldom, so that long work does not fill the room's history.
	noteEvery  = 3 * time.Second
	noteSeldom = 15 * time.Second
	// typingFor is how long the server shows the bot as typing unless told again.
	typingFor = 20 * time.Second
	// notePatience is how long an edit that is under way holds up the answer.
	notePatience = 5 * time.Second
)

// noteState is what is known of the message that tells how far long work is.
// The answer does not take its place but follows it, as any answer follows its
// question: so what makes answers come once knows nothing of it. The message
// gets its last word when the answer stands and before the answer is marked as
// delivered, so that another run does it where this one dies in between.
type noteState struct {
	id id.EventID
	// unsure is true where there may be one that has to be looked for.
	unsure bool
}

// note tells how far long work is: by typing at once, and after a while by a
// message that is edited as the work goes on.
type note struct {
	a     *Adapter
	to    route
	asked id.EventID
	// again is true where an earlier run may have left such a message.
	again bool

	stop   chan struct{}
	cancel context.CancelFunc
	done   chan struct{}

	mu   sync.Mutex
	text string // what was last reported, or empty

	// The rest is the goroutine's until done.
	state noteState
}

// watch begins to tell of a request's work; end has to follow.
func (a *Adapter) watch(ctx context.Context, asked id.EventID, to route, again bool) *note {
	ctx, cancel := context.WithCancel(ctx)
	n := &note{
		a: a, to: to, asked: asked, again: again,
		stop: make(chan struct{}), cancel: cancel, done: make(chan struct{}),
		state: noteState{unsure: again && to.Long},
	}
	if !to.Long {
		close(n.done)
		return n
	}
	go n.run(ctx)
	return n
}

// report is the request's progress function.
func (n *note) report(done, total int, what string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.text = progressText(done, total, what)
}

// progressText is the state of long work in words.
func progressText(done, total int, what string) string {
	text := "working on it"
	count := ""
	if done > 0 {
		if count = strconv.Itoa(done); total > 0 {
			count += " of " + strconv.Itoa(total)
		}
	}
	for _, part := range []string{count, what} {
		switch {
		case part == "":
		case text == "working on it":
			text += ": " + part
		default:
			text += ", " + part
		}
	}
	return text
}

func (n *note) reported() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.text
}

// end ends the telling, and gives what is to be tidied.
func (n *note) end() noteState {
	close(n.stop)
	patience := time.AfterFunc(notePatience, n.cancel)
	<-n.done
	patience.Stop()
	n.cancel()
	return n.state
}

// run shows what is reported until end.
func (n *note) run(ctx context.Context) {
	defer close(n.done)
	n.typing(ctx, true)
	defer n.typing(ctx, false)
	wait, every := time.NewTimer(n.a.noteAfter), n.a.noteEvery
	defer wait.Stop()
	shown := ""
	for {
		select {
		case <-n.stop:
			return
		case <-ctx.Done():
			return
		case <-wait.C:
		}
		n.typing(ctx, true)
		if text := n.reported(); text != "" && text != shown {
			first := n.state.id == ""
			if err := n.show(ctx, text); err != nil {
				if ctx.Err() == nil {
					n.a.log.Debug("progress not shown", "room", n.to.Room, "err", err)
				}
				return // the answer follows all the same
			}
			if shown = text; first && n.again {
				shown = "" // it may be an earlier run's, with that one's words
			}
		}
		wait.Reset(every)
		every = min(every*3/2, noteSeldom)
	}
}

// show posts the message, or edits it.
func (n *note) show(ctx context.Context, text string) error {
	m := &message{}
	m.line("", text)
	if slices.Contains(n.a.words, "stop") {
		m.request("to stop it: ", n.to.Prefix+"stop")
	}
	c := m.notice()
	if n.state.id != "" {
		// No run looks for these edits, so each has a name of its own.
		_, err := n.a.send(ctx, outgoing{
			room: n.to.Room, part: partID(n.asked, "progress "+rand.Text()), after: n.asked,
			build: ready(edit(c, n.state.id)),
		})
		return err
	}
	c.RelatesTo, c.Mentions = relation(n.to.Question, n.to.Thread), &event.Mentions{}
	n.state.unsure = true
	out := noteOf(n.asked, n.to)
	out.again, out.build = n.again, ready(c)
	sent, err := n.a.send(ctx, out)
	if err == nil {
		n.state = noteState{id: sent}
	}
	return err
}

// noteOf names the message.
func noteOf(asked id.EventID, to route) outgoing {
	return outgoing{room: to.Room, part: partID(asked, "progress"), after: asked}
}

// typing shows the bot as typing, or no longer. It is a sign of life only: a
// failure is not worth a word.
func (n *note) typing(ctx context.Context, on bool) {
	_, _ = n.a.cli.UserTyping(ctx, n.to.Room, on, typingFor)
}

// closeNote gives the message its last word, if there is one. It gives an error
// only where ctx has ended.
func (a *Adapter) closeNote(ctx context.Context, asked id.EventID, to route, again bool, word string) error {
	if !to.Long || to.note.id == "" && !to.note.unsure && !again {
		return nil
	}
	there := to.note.id
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
