package matrix

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// question is one that was asked, with the answer that it must get.
type question struct {
	id   id.EventID
	want string // beginning of the answer's body
	by   id.UserID
}

// askGauge asks the n-th question of a row, each with an answer of its own.
func askGauge(m *maker, room id.RoomID, n int) question {
	m.t.Helper()
	ga := 10 + n%20
	return question{m.say(room, fmt.Sprintf("!gauge %dga", ga)), fmt.Sprintf("%d ga ", ga), m.cli.UserID}
}

// askLinger asks what takes the bot a while.
func askLinger(m *maker, room id.RoomID, n int) question {
	m.t.Helper()
	return question{m.say(room, fmt.Sprintf("!linger text %d", n)), fmt.Sprintf("lingered %d.", n), m.cli.UserID}
}

// answeredOnce waits until all questions are answered and fails the test where
// one is answered twice, wrongly, or out of order.
func answeredOnce(t *testing.T, m *maker, room id.RoomID, asked []question) {
	t.Helper()
	answered(t, m, room, asked, true)
}

// answered is answeredOnce, with or without regard to the order.
func answered(t *testing.T, m *maker, room id.RoomID, asked []question, inOrder bool) {
	t.Helper()
	awaitAnswers(m, room, asked)
	m.settle(room)
	m.mu.Lock()
	var order []id.EventID
	for _, s := range m.fromBot(m.seen, room) {
		if s.fail == nil {
			order = append(order, questionsOf(s.evt.Content.AsMessage())...)
		}
	}
	last := map[id.UserID]int{} // each maker's are answered in order
	for n, q := range passedOn(asked, m.seen) {
		got := m.replies(m.seen, room, q.id)
		if body := textTo(got[0].evt.Content.AsMessage(), q.id); len(body) < len(q.want) || body[:len(q.want)] != q.want {
			t.Errorf("question %d got %q, want %q", n, body, q.want)
		}
		at := slices.Index(order, q.id)
		if inOrder && at < last[q.by] {
			t.Errorf("question %d was answered before the one before it", n)
		}
		last[q.by] = at
	}
	m.mu.Unlock()
	m.noRepeats(room)
}

// passedOn gives the questions in the order in which the server passed them on. A server
// that was killed passes what it had in hand on late.
func passedOn(asked []question, all []seen) []question {
	at := map[id.EventID]int{}
	for n, s := range all {
		at[s.raw.ID] = n
	}
	asked = slices.Clone(asked)
	slices.SortStableFunc(asked, func(a, b question) int { return at[a.id] - at[b.id] })
	return asked
}

// awaitAnswers waits until each question has an answer.
func awaitAnswers(m *maker, room id.RoomID, asked []question) {
	m.t.Helper()
	m.waitFor(2*patience, fmt.Sprintf("all %d answers", len(asked)), func(all []seen) bool {
		for _, q := range slices.Backward(asked) {
			if len(m.replies(all, room, q.id)) == 0 {
				return false
			}
		}
		return true
	})
}

// shortTimeline is how many events one response holds where a test wants more
// questions than fit into one, and not many.
const shortTimeline = 6

func withShortTimeline(a *Adapter) { a.timelineLimit = shortTimeline }

// TestBacklog: questions asked while the bot was away are all answered, in
// order, where one response of the server holds fewer.
func TestBacklog(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	questions := testcount.InLong(2*shortTimeline+1, 130)
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	// Three makers: one alone may not ask so much at once.
	makers := []*maker{newMaker(t, h, "ana"), newMaker(t, h, "ben"), newMaker(t, h, "cleo")}
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := makers[0].on(t)
		room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) {
			r.Invite = append(r.Invite, makers[1].cli.UserID, makers[2].cli.UserID)
		})
		for _, m := range makers[1:] {
			if _, err := m.cli.JoinRoomByID(m.ctx, room); err != nil {
				t.Fatal(err)
			}
		}
		for _, m := range makers {
			for _, other := range makers {
				m.on(t).waitMember(room, other.cli.UserID, event.MembershipJoin)
			}
			m.on(t).ask(room, "!gauge 20ga")
		}
		b.stop()
		var asked []question
		for n := range questions {
			asked = append(asked, askGauge(makers[n%3].on(t), room, n))
		}
		if testcount.Long() {
			b.start()
		} else {
			b.start(withShortTimeline)
		}
		answeredOnce(t, ana, room, asked)
		if encrypted {
			ana.noPlainText(room)
		}
	})
}

// TestBacklogOfOne: one maker's questions that waited for the bot are answered
// at the pace that one maker is allowed, not refused.
func TestBacklogOfOne(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	ana.ask(room, "!gauge 20ga")
	b.stop()
	var asked []question
	for n := range 7 {
		asked = append(asked, askGauge(ana, room, n))
	}
	b.limits = bot.Limits{Maker: bot.Limit{AtOnce: 3, PerMinute: 120}}
	b.start()
	for _, q := range asked {
		// One that comes with a later sync than the others is told first that it waits.
		ana.wait("the answer "+q.want, func(all []seen) bool {
			return slices.ContainsFunc(ana.replies(all, room, q.id), func(s seen) bool {
				body := s.evt.Content.AsMessage().Body
				answered := strings.HasPrefix(body, q.want)
				assert.True(t, answered || strings.HasSuffix(body, "your questions wait and are answered in turn"), body)
				return answered
			})
		})
	}
}

// TestCuts: the connection is cut at random moments, for an instant or a while.
func TestCuts(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := sharedServer(t)
	p := h.proxy
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana") // past the proxy
	random, cutter := rand.New(rand.NewPCG(5, 1)), rand.New(rand.NewPCG(5, 4))
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		room := ana.room(encrypted)
		ana.ask(room, "!gauge 20ga")
		stop := make(chan struct{})
		var cuts atomic.Int32
		var cutting sync.WaitGroup
		cutting.Go(func() {
			for {
				select {
				case <-stop:
					p.set(false)
					return
				case <-time.After(time.Duration(50+cutter.IntN(250)) * time.Millisecond):
				}
				if cuts.Add(1)%4 == 0 {
					p.set(true)
					time.Sleep(time.Duration(cutter.IntN(400)) * time.Millisecond)
					p.set(false)
				} else {
					p.cut()
				}
			}
		})
		var asked []question
		for n := 0; n < testcount.InLong(10, 40) || cuts.Load() < 5; n++ {
			asked = append(asked, askGauge(ana, room, n))
			time.Sleep(time.Duration(random.IntN(120)) * time.Millisecond)
		}
		close(stop)
		cutting.Wait()
		answeredOnce(t, ana, room, asked)
		t.Logf("%d cuts, %d questions", cuts.Load(), len(asked))
		if encrypted {
			ana.noPlainText(room)
		}
	})
}

// TestServerRestart: the server is killed while questions are asked, and comes
// back. Dendrite keeps its queue on disk here and is killed, not stopped: it
// then hardly ever loses what it acknowledged, which an orderly stop often does.
func TestServerRestart(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	random := rand.New(rand.NewPCG(5, 2))
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		for servers := 1; !restartServer(t, encrypted, random); servers++ {
			require.Less(t, servers, 5, "every killed server lost its place in its queue")
			t.Log("the killed server lost its place in its queue; once more with another server")
		}
	})
}

// restartServer kills a server of its own a few times while questions are asked. It
// gives false where the server lost its place in its queue: then it passes nothing on,
// and the bot can't know of the questions.
func restartServer(t *testing.T, encrypted bool, random *rand.Rand) bool {
	t.Helper()
	h := ownServer(t, unlimited)
	defer startBot(t, botConfig(t, h)).stop()
	ana := newMaker(t, h, "ana")
	room := ana.room(encrypted)
	ana.ask(room, "!gauge 20ga")
	var asked []question
	for round := range testcount.InLong(2, 3) {
		for n := range 5 {
			asked = append(asked, askGauge(ana, room, 5*round+n))
		}
		time.Sleep(time.Duration(random.IntN(300)) * time.Millisecond)
		h.kill()
		time.Sleep(time.Duration(random.IntN(500)) * time.Millisecond)
		require.NoError(t, h.start())
		if h.lostItsPlace() {
			return false
		}
	}
	// A key that the killed server had not passed on yet comes on request,
	// and its message is answered after others.
	answered(t, ana, room, asked, !encrypted)
	if encrypted {
		ana.noPlainText(room)
	}
	return true
}

// TestKill: the bot's process is killed at random moments, while questions are
// asked in a clear and, if the build can, an encrypted room.
func TestKill(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	kills := testcount.InLong(6, 50)
	h := sharedServer(t)
	cfg := botConfig(t, h)
	child := &childBot{t: t, log: filepath.Join(t.TempDir(), "log"), c: childOf{
		Config: cfg, Book: filepath.Join(t.TempDir(), "daybook.db"),
	}}
	child.start()
	t.Cleanup(func() { child.kill() })
	ana := newMaker(t, h, "ana")
	rooms := []id.RoomID{ana.room(false)}
	if encryptionBuilt {
		rooms = append(rooms, ana.room(true))
	}
	for _, room := range rooms {
		ana.ask(room, "!gauge 20ga")
	}
	random := rand.New(rand.NewPCG(5, 3))
	asked := make([][]question, len(rooms))
	for n := range kills {
		for i, room := range rooms {
			asked[i] = append(asked[i], askLinger(ana, room, len(asked[i])))
			if random.IntN(2) == 0 {
				asked[i] = append(asked[i], askGauge(ana, room, n))
			}
		}
		// From before the start is done to after the answers are sent.
		time.Sleep(time.Duration(random.IntN(900)) * time.Millisecond)
		child.kill()
		child.start()
		if (n+1)%(mostTries-1) == 0 { // a question that ended the bot more often is given up
			for i, room := range rooms {
				awaitAnswers(ana, room, asked[i])
			}
		}
	}
	total := 0
	for i, room := range rooms {
		total += len(asked[i])
		answeredOnce(t, ana, room, asked[i])
	}
	t.Logf("%d kills, %d questions", kills, total)
	if encryptionBuilt {
		ana.noPlainText(rooms[1])
	}
}

// TestManyRooms: questions are asked in many rooms at once, half of them
// encrypted; in a long run 200 questions in 20 rooms.
func TestManyRooms(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	rooms, each := testcount.InLong(6, 20), testcount.InLong(3, 10)
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	var ids []id.RoomID
	for n := range rooms {
		ids = append(ids, ana.room(encryptionBuilt && n%2 == 1))
	}
	var mu sync.Mutex
	asked := map[id.RoomID][]question{}
	sent := map[id.EventID]time.Time{}
	var asking sync.WaitGroup
	for _, room := range ids {
		asking.Go(func() {
			for n := range each {
				at := time.Now()
				q := askGauge(ana, room, n)
				mu.Lock()
				asked[room] = append(asked[room], q)
				sent[q.id] = at
				mu.Unlock()
			}
		})
	}
	asking.Wait()
	var took []time.Duration
	for n, room := range ids {
		answeredOnce(t, ana, room, asked[room])
		if encryptionBuilt && n%2 == 1 {
			ana.noPlainText(room)
		}
	}
	ana.mu.Lock()
	for _, s := range ana.seen {
		if s.raw.Sender == ana.bot && s.fail == nil && s.evt.Type == event.EventMessage {
			if at, ok := sent[s.evt.Content.AsMessage().RelatesTo.GetReplyTo()]; ok {
				took = append(took, time.UnixMilli(s.raw.Timestamp).Sub(at))
			}
		}
	}
	ana.mu.Unlock()
	slices.Sort(took)
	if len(took) != rooms*each {
		t.Fatalf("%d answers to %d questions", len(took), rooms*each)
	}
	t.Logf("%d questions in %d rooms: median %s, p99 %s, longest %s", len(took), rooms,
		took[len(took)/2], took[len(took)*99/100], took[len(took)-1])
}
