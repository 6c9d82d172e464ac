package matrix

import (
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/delivery"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// ponderRequest is long work that goes on until it is stopped, or for as many
// tenths of a second as it is told.
func ponderRequest() catalogue.Spec {
	return catalogue.Spec{
		Name: "ponder", Summary: "takes long", Long: true,
		Options:  []catalogue.Option{{Name: "tenths", Summary: "how long", Kind: catalogue.Integer, Min: 0, Max: 100, Bare: true}},
		Examples: []catalogue.Example{{Line: "ponder 1"}},
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			tenths := int(c.Args.Number("tenths", 0))
			for i := 1; tenths == 0 || i <= tenths; i++ {
				c.Progress(i, 100, "laying out <b>")
				select {
				case <-time.After(100 * time.Millisecond):
				case <-ctx.Done():
					return nil, ctx.Err()
				}
			}
			return &answer.Answer{Headline: fmt.Sprintf("pondered %d.", tenths)}, nil
		},
	}
}

// soon makes notes on progress come early.
func soon(a *Adapter) {
	a.pace = delivery.Pace{After: 300 * time.Millisecond, Every: 300 * time.Millisecond, Seldom: delivery.DefaultPace.Seldom}
}

// startPonderer starts a bot that knows ponder.
func startPonderer(t *testing.T, h *homeserver, change ...func(*Adapter)) *runningBot {
	t.Helper()
	b := startBot(t, botConfig(t, h))
	b.stop()
	b.more = append(b.more, ponderRequest())
	b.start(change...)
	return b
}

// waitAnswer waits for the answer of long work, and gives the messages on
// progress that came before it.
func (m *maker) waitAnswer(room id.RoomID, q id.EventID) (answer *event.MessageEventContent, notes []seen) {
	m.t.Helper()
	m.wait("the answer", func(all []seen) bool {
		var answers []seen
		if answers, notes = m.repliesAndNotes(all, room, q); len(answers) > 0 {
			answer = answers[0].evt.Content.AsMessage()
		}
		return answer != nil
	})
	return answer, notes
}

// waitNote waits for the message on progress of a question.
func (m *maker) waitNote(room id.RoomID, q id.EventID) (note seen) {
	m.t.Helper()
	m.wait("a message on progress", func(all []seen) bool {
		_, notes := m.repliesAndNotes(all, room, q)
		if len(notes) > 0 {
			note = notes[0]
		}
		return len(notes) > 0
	})
	return note
}

// waitEdit waits for an edit of the bot's that begins with some words.
func (m *maker) waitEdit(room id.RoomID, of id.EventID, begin string) *event.MessageEventContent {
	m.t.Helper()
	var found *event.MessageEventContent
	m.wait(fmt.Sprintf("an edit of %s that begins with %q", of, begin), func(all []seen) bool {
		for _, c := range m.edits(all, room, of) {
			if strings.HasPrefix(c.NewContent.Body, begin) {
				found = c
			}
		}
		return found != nil
	})
	return found
}

// TestLongWorkStepsAside: while long work goes on, its room is answered, a
// message tells how far it is, and its asker stops it with a word.
func TestLongWorkStepsAside(t *testing.T) {
	h := sharedServer(t)
	startPonderer(t, h, soon)
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		room := m.room(encrypted)
		q := m.say(room, "!ponder 0")
		if _, text := m.ask(room, "!gauge 22"); !strings.Contains(text.Body, "0.644 mm") {
			t.Errorf("meanwhile: %q", text.Body)
		}
		note := m.waitNote(room, q)
		c := note.evt.Content.AsMessage()
		if !strings.HasPrefix(c.Body, "working on it: ") || !strings.HasSuffix(c.Body, " of 100, laying out <b>\nto stop it: !stop") ||
			strings.Contains(c.FormattedBody, "<b>") || c.MsgType != event.MsgNotice {
			t.Errorf("the message on progress: %+v", c)
		}
		if c.Mentions == nil || len(c.Mentions.UserIDs) > 0 {
			t.Errorf("it mentions %+v", c.Mentions)
		}
		var edits []*event.MessageEventContent
		m.wait("two edits", func(all []seen) bool {
			edits = m.edits(all, room, note.raw.ID)
			return len(edits) >= 2
		})
		for i, e := range edits {
			if !strings.HasPrefix(e.NewContent.Body, "working on it: ") || e.NewContent.Body == c.Body {
				t.Errorf("edit %d: %q", i, e.NewContent.Body)
			}
		}
		if _, text := m.ask(room, "!stop"); !strings.HasPrefix(text.Body, "I stopped your request") {
			t.Errorf("stop: %q", text.Body)
		}
		text, notes := m.waitAnswer(room, q)
		if !strings.HasPrefix(text.Body, "stopped") || len(notes) != 1 {
			t.Errorf("the long work: %q, %d messages on progress", text.Body, len(notes))
		}
		m.waitEdit(room, note.raw.ID, "stopped")
		if _, text := m.ask(room, "!stop"); !strings.HasPrefix(text.Body, "you have no running work") {
			t.Errorf("stop again: %q", text.Body)
		}
		if encrypted {
			m.noPlainText(room)
		}
	})
}

// TestNotesOnProgress: what is done soon has no message on its progress; what
// takes longer has one, which ends when the answer stands.
func TestNotesOnProgress(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startPonderer(t, h)
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		b.stop()
		b.start(func(a *Adapter) { a.pace.After = time.Hour })
		room := m.room(encrypted)
		m.ask(room, "!gauge 20ga")
		quick := m.say(room, "!ponder 2")
		if text, notes := m.waitAnswer(room, quick); !strings.HasPrefix(text.Body, "pondered 2.") || len(notes) > 0 {
			t.Errorf("quick work: %q, %d messages on progress", text.Body, len(notes))
		}
		b.stop()
		b.start(func(a *Adapter) {
			a.pace = delivery.Pace{After: 100 * time.Millisecond, Every: time.Hour, Seldom: time.Hour}
		})
		slow := m.say(room, "!ponder 10")
		text, notes := m.waitAnswer(room, slow)
		if !strings.HasPrefix(text.Body, "pondered 10.") || len(notes) != 1 {
			t.Fatalf("slow work: %q, %d messages on progress", text.Body, len(notes))
		}
		if len(text.Mentions.UserIDs) != 1 || text.RelatesTo.GetReplaceID() != "" {
			t.Errorf("the answer is no message of its own: %+v", text)
		}
		m.waitEdit(room, notes[0].raw.ID, "done, see the answer")
		m.settle(room)
		m.mu.Lock()
		defer m.mu.Unlock()
		assert.Len(t, m.edits(m.seen, room, notes[0].raw.ID), 1, "edits before the next was due")
		if answers := m.replies(m.seen, room, slow); len(answers) != 1 {
			t.Errorf("%d answers", len(answers))
		}
	})
}

// TestNotesOfTheDead: the bot's process is killed at random moments of long
// work. Each question has one answer in the end and at most one message on
// progress, which has ended.
func TestNotesOfTheDead(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := sharedServer(t)
	child := &childBot{t: t, log: filepath.Join(t.TempDir(), "log"), c: childOf{
		Config: botConfig(t, h), Book: filepath.Join(t.TempDir(), "daybook.db"), Soon: true,
	}}
	child.start()
	t.Cleanup(func() { child.kill() })
	ana := newMaker(t, h, "ana")
	rooms := []id.RoomID{ana.room(false)}
	if encryptionBuilt {
		rooms = append(rooms, ana.room(true))
	}
	random := rand.New(rand.NewPCG(5, 6))
	questions := make([][]id.EventID, len(rooms))
	for round := range testcount.InLong(3, 30) {
		for i, room := range rooms {
			questions[i] = append(questions[i], ana.say(room, "!ponder 8"))
		}
		if round%3 == 1 {
			for i, room := range rooms {
				ana.waitNote(room, questions[i][round])
			}
		} else {
			time.Sleep(time.Duration(200+random.IntN(1800)) * time.Millisecond)
		}
		child.kill()
		child.start()
		if round%3 < 2 {
			continue
		}
		// A question that ends the bot too often is given up, so that here none
		// may be in hand for long.
		for i, room := range rooms {
			for _, q := range questions[i] {
				ana.waitAnswer(room, q)
			}
		}
	}
	noted := 0
	for i, room := range rooms {
		for _, q := range questions[i] {
			if text, _ := ana.waitAnswer(room, q); !strings.HasPrefix(text.Body, "pondered 8.") {
				t.Errorf("answer %q", text.Body)
			}
		}
		ana.settle(room)
		ana.mu.Lock()
		for n, q := range questions[i] {
			answers, notes := ana.repliesAndNotes(ana.seen, room, q)
			if len(answers) != 1 || len(notes) > 1 {
				t.Errorf("question %d: %d answers, %d messages on progress", n, len(answers), len(notes))
			}
			for _, note := range notes {
				noted++
				// Clients show the edit that was sent last.
				edits := ana.edits(ana.seen, room, note.raw.ID)
				if len(edits) == 0 || !strings.HasPrefix(edits[len(edits)-1].NewContent.Body, "done") {
					t.Errorf("question %d: its message on progress has not ended", n)
				}
			}
		}
		ana.mu.Unlock()
	}
	assert.NotZero(t, noted, "no message on progress was seen, so nothing was tested")
	t.Logf("%d messages on progress", noted)
	if encryptionBuilt {
		ana.noPlainText(rooms[1])
	}
}

func TestTypingLastsBetweenTwoEdits(t *testing.T) {
	if p := delivery.DefaultPace; !slices.IsSorted([]time.Duration{p.After, p.Every, p.Seldom, typingFor}) {
		t.Error("typing ends between two edits")
	}
}
