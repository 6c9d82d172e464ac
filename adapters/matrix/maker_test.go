package matrix

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/sqlstatestore"
)

// maker is a person with an ordinary client: the library's own syncer and
// sending, its keys in a store of its own. Nothing of the adapter's sending and
// reading is used, so that a mistake there does not hide itself.
type maker struct {
	t   *testing.T
	h   *homeserver
	cli *mautrix.Client
	e   *encryption
	ctx context.Context
	bot id.UserID
	*watch
}

// watch is what a maker's client has seen.
type watch struct {
	mu      sync.Mutex
	changed chan struct{} // closed and replaced at each event
	seen    []seen
}

// on gives the same maker, whose failures are t's.
func (m *maker) on(t *testing.T) *maker {
	same := *m
	same.t = t
	return &same
}

// seen is an event as it came, and what it says.
type seen struct {
	raw  *event.Event // as the server sent it
	evt  *event.Event // decrypted
	fail error        // why it could not be decrypted
}

// newMaker registers an account and follows its event stream.
func newMaker(t *testing.T, h *homeserver, name string) *maker {
	t.Helper()
	h.register(name)
	ctx, cancel := context.WithCancel(context.Background())
	m := &maker{t: t, h: h, ctx: ctx, bot: h.userID("guildhand"), watch: &watch{changed: make(chan struct{})}}
	cli, err := mautrix.NewClient(h.makers.url(), "", "")
	if err != nil {
		t.Fatal(err)
	}
	cli.Log = zerolog.New(zerolog.NewTestWriter(t)).Level(zerolog.WarnLevel)
	cli.DefaultHTTPRetries = 30
	cli.DefaultHTTPBackoff = 100 * time.Millisecond
	cli.MaxHTTPBackoff = time.Second
	m.cli = cli
	login, giveUp := context.WithTimeout(ctx, patience)
	defer giveUp()
	if _, err := cli.Login(login, &mautrix.ReqLogin{
		Type:       mautrix.AuthTypePassword,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: h.account(name)},
		Password:   password, StoreCredentials: true,
	}); err != nil {
		t.Fatal(err)
	}
	st, err := openStore(ctx, filepath.Join(t.TempDir(), "maker.db"))
	if err != nil {
		t.Fatal(err)
	}
	rooms := sqlstatestore.NewSQLStateStore(st.db, nil, false)
	if err := rooms.Upgrade(ctx); err != nil {
		t.Fatal(err)
	}
	cli.StateStore = rooms
	s := mautrix.NewDefaultSyncer()
	s.FilterJSON = &mautrix.Filter{Room: &mautrix.RoomFilter{Timeline: &mautrix.FilterPart{Limit: 1000}}}
	cli.Syncer = eagerSyncer{s}
	s.OnEvent(cli.StateStoreSyncHandler)
	if encryptionBuilt {
		acct, err := st.account(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if m.e, err = startEncryption(ctx, cli, st.db, acct); err != nil {
			t.Fatal(err)
		}
		if err := m.e.shareOwnKeys(ctx); err != nil {
			t.Fatal(err)
		}
		m.e.attach(s)
		cli.Crypto = makerCrypto{m.e}
	}
	s.OnSync(m.decryptAgain)
	s.OnEvent(m.take)
	done := make(chan struct{})
	go func() { defer close(done); _ = cli.SyncWithContext(ctx) }()
	t.Cleanup(func() {
		cancel()
		select {
		case <-done:
		case <-time.After(patience):
			t.Errorf("the event stream of %s does not end", name)
		}
		_ = st.close()
	})
	return m
}

// eagerSyncer tries again soon after a failed response.
type eagerSyncer struct{ *mautrix.DefaultSyncer }

func (eagerSyncer) OnFailedSync(*mautrix.RespSync, error) (time.Duration, error) {
	return 200 * time.Millisecond, nil
}

func (m *maker) take(ctx context.Context, evt *event.Event) {
	if evt.RoomID == "" {
		return
	}
	s := seen{raw: evt, evt: evt}
	if evt.Type == event.EventEncrypted && m.e != nil {
		s.evt, s.fail = m.e.decrypt(ctx, evt)
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.seen = append(m.seen, s)
	close(m.changed)
	m.changed = make(chan struct{})
}

// decryptAgain tries what could not be decrypted yet, as clients do: a homeserver may
// hand a message out before the key that was sent ahead of it. It runs after the keys
// of a response are taken and before its events.
func (m *maker) decryptAgain(ctx context.Context, _ *mautrix.RespSync, _ string) bool {
	m.mu.Lock()
	all := slices.Clone(m.seen)
	m.mu.Unlock()
	for i, s := range all {
		if s.fail == nil {
			continue
		}
		evt, err := m.e.decrypt(ctx, s.raw)
		if err != nil {
			continue
		}
		m.mu.Lock()
		m.seen[i].evt, m.seen[i].fail = evt, nil
		close(m.changed)
		m.changed = make(chan struct{})
		m.mu.Unlock()
		m.t.Logf("the key of %s came after it", s.raw.ID)
	}
	return true
}

// wait waits until find gives true over the events seen so far.
func (m *maker) wait(what string, find func([]seen) bool) {
	m.t.Helper()
	m.waitFor(patience, what, find)
}

func (m *maker) waitFor(d time.Duration, what string, find func([]seen) bool) {
	m.t.Helper()
	deadline := time.After(d)
	for {
		m.mu.Lock()
		ok, changed := find(m.seen), m.changed
		m.mu.Unlock()
		if ok {
			return
		}
		select {
		case <-changed:
		case <-m.h.exited:
			m.t.Fatalf("%s did not come: the homeserver ended by itself", what)
		case <-deadline:
			m.t.Fatalf("%s did not come within %s; seen: %s", what, d, m.story(20))
		}
	}
}

// story tells the last events, for a failed test.
func (m *maker) story(n int) string {
	m.mu.Lock()
	defer m.mu.Unlock()
	var b strings.Builder
	for _, s := range m.seen[max(0, len(m.seen)-n):] {
		fmt.Fprintf(&b, "\n  %s %s %s", s.raw.Sender, s.raw.Type.Type, s.raw.ID)
		if s.fail != nil {
			fmt.Fprintf(&b, " not decrypted: %v", s.fail)
		} else if s.evt.Type == event.EventMessage {
			fmt.Fprintf(&b, " %.80q", s.evt.Content.AsMessage().Body)
		}
	}
	return b.String()
}

// room makes a room with the bot invited, and waits until the bot is in.
func (m *maker) room(encrypted bool, change ...func(*mautrix.ReqCreateRoom)) id.RoomID {
	m.t.Helper()
	room := m.emptyRoom(encrypted, append([]func(*mautrix.ReqCreateRoom){func(r *mautrix.ReqCreateRoom) {
		r.Invite = append(r.Invite, m.bot)
	}}, change...)...)
	m.waitMember(room, m.bot, event.MembershipJoin)
	return room
}

func (m *maker) emptyRoom(encrypted bool, change ...func(*mautrix.ReqCreateRoom)) id.RoomID {
	m.t.Helper()
	req := &mautrix.ReqCreateRoom{Preset: "private_chat", Name: "the bench room"}
	if encrypted {
		req.InitialState = append(req.InitialState, encryptionState())
	}
	for _, c := range change {
		c(req)
	}
	ctx, cancel := context.WithTimeout(m.ctx, patience)
	defer cancel()
	resp, err := m.cli.CreateRoom(ctx, req)
	if err != nil {
		m.t.Fatal(err)
	}
	return resp.RoomID
}

func invite(user id.UserID) *mautrix.ReqInviteUser { return &mautrix.ReqInviteUser{UserID: user} }

func encryptionState() *event.Event {
	return &event.Event{Type: event.StateEncryption, Content: event.Content{
		Parsed: &event.EncryptionEventContent{Algorithm: id.AlgorithmMegolmV1},
	}}
}

func (m *maker) waitMember(room id.RoomID, user id.UserID, want event.Membership) {
	m.t.Helper()
	m.wait(fmt.Sprintf("%s to be %s", user, want), func(all []seen) bool {
		return slices.ContainsFunc(all, func(s seen) bool {
			return s.raw.RoomID == room && s.raw.Type == event.StateMember && s.raw.GetStateKey() == string(user) &&
				s.raw.Content.AsMember().Membership == want
		})
	})
}

// say sends text as a client does.
func (m *maker) say(room id.RoomID, text string) id.EventID {
	m.t.Helper()
	return m.send(room, &event.MessageEventContent{MsgType: event.MsgText, Body: text})
}

func (m *maker) send(room id.RoomID, c *event.MessageEventContent) id.EventID {
	m.t.Helper()
	ctx, cancel := context.WithTimeout(m.ctx, patience)
	defer cancel()
	resp, err := m.cli.SendMessageEvent(ctx, room, event.EventMessage, c)
	for storeFails(err) && ctx.Err() == nil { // a busy machine; the bot tries again, too
		m.t.Logf("sending once more: %v", err)
		time.Sleep(100 * time.Millisecond)
		resp, err = m.cli.SendMessageEvent(ctx, room, event.EventMessage, c)
	}
	if err != nil {
		m.t.Fatalf("sending, within %s: %v", patience, err)
	}
	return resp.EventID
}

func (m *maker) react(room id.RoomID, to id.EventID, key string) id.EventID {
	m.t.Helper()
	ctx, cancel := context.WithTimeout(m.ctx, patience)
	defer cancel()
	resp, err := m.cli.SendReaction(ctx, room, to, key)
	if err != nil {
		m.t.Fatal(err)
	}
	return resp.EventID
}

// fromBot gives the bot's messages in a room, in order.
func (m *maker) fromBot(all []seen, room id.RoomID) []seen {
	var out []seen
	for _, s := range all {
		if s.raw.RoomID == room && s.raw.Sender == m.bot && s.raw.StateKey == nil &&
			(s.raw.Type == event.EventMessage || s.raw.Type == event.EventEncrypted) {
			out = append(out, s)
		}
	}
	return out
}

// replies gives the bot's messages in reply to an event, without those that tell
// how far long work is.
func (m *maker) replies(all []seen, room id.RoomID, to id.EventID) []seen {
	replies, _ := m.repliesAndNotes(all, room, to)
	return replies
}

// repliesAndNotes gives all of the bot's messages in reply to an event.
func (m *maker) repliesAndNotes(all []seen, room id.RoomID, to id.EventID) (replies, notes []seen) {
	for _, s := range m.fromBot(all, room) {
		switch {
		case s.fail != nil || !slices.Contains(questionsOf(s.evt.Content.AsMessage()), to):
		case isNote(s.evt.Content.AsMessage()):
			notes = append(notes, s)
		default:
			replies = append(replies, s)
		}
	}
	return replies, notes
}

// linked finds the questions that several answers in one message link to.
var linked = regexp.MustCompile(`matrix\.to/#/[^/"]+/(\$[^?"]+)`)

// questionsOf gives the messages that one of the bot's answers: the one that it
// replies to, or those that it links to.
func questionsOf(c *event.MessageEventContent) []id.EventID {
	if c.RelatesTo.GetReplaceID() != "" {
		return nil
	}
	if to := c.RelatesTo.GetReplyTo(); to != "" {
		return []id.EventID{to}
	}
	var all []id.EventID
	for _, found := range linked.FindAllStringSubmatch(c.FormattedBody, -1) {
		all = append(all, id.EventID(found[1]))
	}
	return all
}

// textTo is what a message says to a question: all of it, or what stands below
// the link to the question.
func textTo(c *event.MessageEventContent, question id.EventID) string {
	_, below, ok := strings.Cut(c.Body, string(question)+"?")
	if !ok {
		return c.Body
	}
	_, text, _ := strings.Cut(below, "\n")
	text, _, _ = strings.Cut(text, "\n\n")
	return text
}

func isNote(c *event.MessageEventContent) bool { return strings.HasPrefix(c.Body, "working on it") }

// waitReplies waits for n replies to an event.
func (m *maker) waitReplies(room id.RoomID, to id.EventID, n int) []seen {
	m.t.Helper()
	var got []seen
	m.wait(fmt.Sprintf("%d replies to %s", n, to), func(all []seen) bool {
		got = m.replies(all, room, to)
		return len(got) >= n
	})
	return got
}

// waitText waits for the text of the answer.
func (m *maker) waitText(room id.RoomID, to id.EventID) *event.MessageEventContent {
	m.t.Helper()
	return m.waitReplies(room, to, 1)[0].evt.Content.AsMessage()
}

// ask asks and waits for the text of the answer.
func (m *maker) ask(room id.RoomID, text string) (id.EventID, *event.MessageEventContent) {
	m.t.Helper()
	q := m.say(room, text)
	return q, m.waitText(room, q)
}

// edits gives the bot's replacements of an event.
func (m *maker) edits(all []seen, room id.RoomID, of id.EventID) []*event.MessageEventContent {
	var out []*event.MessageEventContent
	for _, s := range m.fromBot(all, room) {
		if c := s.evt.Content.AsMessage(); s.fail == nil && c.RelatesTo.GetReplaceID() == of {
			out = append(out, c)
		}
	}
	return out
}

// settle asks something that is answered last, so that what was to come before
// has come; it gives all events of the bot in the room.
func (m *maker) settle(room id.RoomID) []seen {
	m.t.Helper()
	q := m.say(room, "!gauge 20ga")
	m.waitReplies(room, q, 1)
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.fromBot(m.seen, room)
}

// download gets a file's bytes, decrypting those of an encrypted room.
func (m *maker) download(url id.ContentURIString, file *event.EncryptedFileInfo) []byte {
	m.t.Helper()
	if file != nil {
		url = file.URL
	}
	uri, err := url.Parse()
	if err != nil {
		m.t.Fatalf("address of the file %q: %v", url, err)
	}
	data, err := m.cli.DownloadBytes(m.ctx, uri)
	if err != nil {
		m.t.Fatal(err)
	}
	if file == nil {
		return data
	}
	if bytes.HasPrefix(data, []byte("\x89PNG")) || bytes.HasPrefix(data, []byte("%PDF")) {
		m.t.Fatal("the file of an encrypted room lies on the server in the clear")
	}
	if err := file.DecryptInPlace(data); err != nil {
		m.t.Fatalf("decrypting the file: %v", err)
	}
	return data
}

// noPlainText fails the test if the bot ever sent a readable message to a room.
func (m *maker) noPlainText(room id.RoomID) {
	m.t.Helper()
	m.mu.Lock()
	defer m.mu.Unlock()
	count := 0
	for _, s := range m.fromBot(m.seen, room) {
		count++
		if s.raw.Type != event.EventEncrypted {
			m.t.Errorf("plain text in an encrypted room: %s", s.raw.ID)
		}
		if s.fail != nil {
			m.t.Errorf("%s cannot be decrypted: %v", s.raw.ID, s.fail)
		}
	}
	if count == 0 {
		m.t.Error("the bot said nothing in the encrypted room, so nothing was checked")
	}
}

// noRepeats fails the test if a message got two answers, with a picture or
// without.
func (m *maker) noRepeats(room id.RoomID) {
	m.t.Helper()
	m.mu.Lock()
	defer m.mu.Unlock()
	count := map[id.EventID]int{}
	for _, s := range m.fromBot(m.seen, room) {
		if c := s.evt.Content.AsMessage(); s.fail == nil && !isNote(c) && c.MsgType != event.MsgFile {
			for _, to := range questionsOf(c) {
				count[to]++
			}
		}
	}
	for to, n := range count {
		if n > 1 {
			m.t.Errorf("%d answers in reply to %s", n, to)
		}
	}
}
