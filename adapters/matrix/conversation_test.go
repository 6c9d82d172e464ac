package matrix

import (
	"strings"
	"testing"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestConversation goes through what people do with a bot in a room.
func TestConversation(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana, ben := newMaker(t, h, "ana"), newMaker(t, h, "ben")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		for name, test := range map[string]func(*testing.T, *maker, *maker, bool){
			"thread":    testThread,
			"edit":      testEdit,
			"reactions": testReactions,
			"addressed": testAddressed,
			"chatter":   testChatter,
			"follow-up": testFollowUp,
			"direct":    testDirect,
			"tracing":   testTracing,
			"injection": testInjection,
		} {
			t.Run(name, func(t *testing.T) { test(t, ana.on(t), ben.on(t), encrypted) })
		}
	})
}

// testThread: a question in a thread is answered there.
func testThread(t *testing.T, ana, _ *maker, encrypted bool) {
	room := ana.room(encrypted)
	root := ana.say(room, "who has the small blocks?")
	q := ana.send(room, &event.MessageEventContent{
		MsgType: event.MsgText, Body: "!" + aCollet, RelatesTo: (&event.RelatesTo{}).SetThread(root, root),
	})
	for _, s := range ana.waitReplies(room, q, 1) {
		rel := s.evt.Content.AsMessage().RelatesTo
		if rel.GetThreadParent() != root || rel.GetNonFallbackReplyTo() != q {
			t.Errorf("the answer's relation is %+v, want thread %s and a true reply to %s", rel, root, q)
		}
	}
	if encrypted {
		ana.noPlainText(room)
	}
}

// testEdit: an edited question edits its answer, picture and all; an edit by
// somebody else changes nothing.
func testEdit(t *testing.T, ana, ben *maker, encrypted bool) {
	room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
	if _, err := ben.cli.JoinRoomByID(ben.ctx, room); err != nil {
		t.Fatal(err)
	}
	ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)
	q, text := firstAnswer(t, ana, room, "!"+aCollet)

	replace := func(m *maker, line string) {
		c := &event.MessageEventContent{MsgType: event.MsgText, Body: line}
		c.SetEdit(q)
		m.send(room, c)
	}
	waitEdits := func(n int) *event.MessageEventContent {
		t.Helper()
		var got []*event.MessageEventContent
		ana.wait("the edited answer", func(all []seen) bool {
			got = ana.edits(all, room, text.raw.ID)
			return len(got) >= n
		})
		return got[n-1]
	}
	replace(ben, "!gauge 18ga")
	replace(ana, "!collet oval 10x8 22ga ag925")
	edited := waitEdits(1)
	if c := edited.NewContent; !strings.Contains(c.Body, "10x8") || c.MsgType != event.MsgImage || !strings.Contains(c.FileName, "10x8") {
		t.Errorf("the edited answer is %+v", edited.NewContent)
	}
	if !strings.HasPrefix(edited.Body, "* ") || edited.Mentions == nil || len(edited.Mentions.UserIDs) > 0 {
		t.Errorf("the edit's fallback is %q with mentions %+v", edited.Body, edited.Mentions)
	}
	replace(ana, "!collet oval 900x8")
	if refusal := waitEdits(2); !strings.Contains(refusal.NewContent.Body, "try: ") || refusal.NewContent.MsgType != event.MsgNotice {
		t.Errorf("the answer became %q, want a refusal", refusal.NewContent.Body)
	}
	for _, s := range ana.settle(room) {
		if s.fail == nil && strings.Contains(s.evt.Content.AsMessage().Body, "18 ga") {
			t.Error("somebody else's edit was answered")
		}
	}

	// A message that becomes a request is answered then.
	idle := ana.say(room, "good evening")
	c := &event.MessageEventContent{MsgType: event.MsgText, Body: "!gauge 18ga"}
	c.SetEdit(idle)
	ana.send(room, c)
	ana.waitReplies(room, idle, 1)
}

// testReactions: each reaction brings what it stands for, once.
func testReactions(t *testing.T, ana, _ *maker, encrypted bool) {
	room := ana.room(encrypted)
	q := ana.say(room, "!draft")
	got := ana.waitReplies(room, q, 2) // text with picture, table
	answer := got[0].raw.ID
	text := got[0].evt.Content.AsMessage()
	for _, offer := range []string{"🔧 working", "📄 PDF", "📏 inches", "📎 other files"} {
		if !strings.Contains(text.Body, offer) {
			t.Errorf("the answer does not offer %q: %q", offer, text.Body)
		}
	}
	if csv := got[1].evt.Content.AsMessage(); csv.MsgType != event.MsgFile || csv.FileName != "draft.csv" {
		t.Errorf("the second part is %s %q, want the table", csv.MsgType, csv.FileName)
	}

	want := 0
	ask := func(key string) *event.MessageEventContent {
		t.Helper()
		want++
		ana.react(room, answer, key)
		return ana.waitReplies(room, answer, want)[want-1].evt.Content.AsMessage()
	}
	if c := ask("🔧"); !strings.Contains(c.Body, "1. cut it\n2. file it") || c.MsgType != event.MsgNotice {
		t.Errorf("working: %q", c.Body)
	}
	if c := ask("📏\ufe0f"); !strings.Contains(c.Body, "1.000 in") {
		t.Errorf("inches: %q", c.Body)
	}
	c := ask("📄")
	if c.MsgType != event.MsgFile || c.FileName != "draft.pdf" || c.Info.MimeType != "application/pdf" {
		t.Errorf("PDF: %+v", c)
	} else if data := ana.download(c.URL, c.File); string(data) != "%PDF-1.4 a draft" {
		t.Errorf("PDF has %q", data)
	}
	if c := ask("📎"); c.FileName != "draft.svg" {
		t.Errorf("other files: %+v", c)
	}
	ana.react(room, answer, "🔨") // another sign for what was given
	ana.react(room, answer, "👍")
	ana.react(room, q, "🔧") // not on an answer
	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	if n := len(ana.replies(ana.seen, room, answer)); n != want {
		t.Errorf("%d replies to the answer, want %d", n, want)
	}
}

// testAddressed: what is meant for the bot, and what is not.
func testAddressed(t *testing.T, ana, ben *maker, encrypted bool) {
	room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
	if _, err := ben.cli.JoinRoomByID(ben.ctx, room); err != nil {
		t.Fatal(err)
	}
	ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)
	text := func(body string) *event.MessageEventContent {
		return &event.MessageEventContent{MsgType: event.MsgText, Body: body}
	}
	mention := func(c *event.MessageEventContent, who ...id.UserID) *event.MessageEventContent {
		c.Mentions = &event.Mentions{UserIDs: who}
		return c
	}
	pill := mention(text("guildhand: gauge 20ga"), ana.bot)
	pill.Format = event.FormatHTML
	pill.FormattedBody = `<a href="https://matrix.to/#/` + string(ana.bot) + `">guildhand</a>: gauge 20ga`

	silent := map[string]id.EventID{
		"talk":                  ana.send(room, text("gauge 20ga is thin")),
		"another bot's command": ana.send(room, text("!weather tomorrow")),
		"a notice": ana.send(room, &event.MessageEventContent{
			MsgType: event.MsgNotice, Body: "!gauge 20ga",
		}),
		"a mention of another": ana.send(room, mention(text("guildhand said so, ben"), ben.cli.UserID)),
	}
	spoken := map[string]id.EventID{
		"the prefix":  ana.send(room, text("!gauge 20ga")),
		"a pill":      ana.send(room, pill),
		"m.mentions":  ana.send(room, mention(text("guildhand, gauge 20ga"), ana.bot)),
		"the full id": ana.send(room, text(string(ana.bot)+" gauge 20ga")),
		"a slip":      ana.send(room, text("!guage 20ga")),
	}
	for what, q := range spoken {
		body := ana.waitText(room, q).Body
		if what != "a slip" && !strings.Contains(body, "0.812 mm") {
			t.Errorf("%s: got %q", what, body)
		}
	}
	q := ana.say(room, "!gauge 16ga")
	answered := ana.waitReplies(room, q, 1)[0].raw.ID
	thanks := mention(text("thank you"), ana.bot)
	thanks.RelatesTo = (&event.RelatesTo{}).SetReplyTo(answered)
	silent["thanks in reply"] = ana.send(room, thanks)
	next := mention(text("gauge 14ga"), ana.bot)
	next.RelatesTo = (&event.RelatesTo{}).SetReplyTo(answered)
	ana.waitReplies(room, ana.send(room, next), 1)

	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	for what, q := range silent {
		if got := ana.replies(ana.seen, room, q); len(got) > 0 {
			t.Errorf("%s was answered: %q", what, got[0].evt.Content.AsMessage().Body)
		}
	}
}

// testDirect: in a direct chat bare text is a request, with or without prefix.
func testDirect(t *testing.T, ana, ben *maker, encrypted bool) {
	room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) {
		r.Name, r.IsDirect, r.Preset = "", true, "trusted_private_chat"
	})
	if _, c := ana.ask(room, "whoami"); !strings.Contains(c.Body, "direct=true") {
		t.Errorf("got %q, want a direct chat", c.Body)
	}
	_, c := ana.ask(room, "gauge 20ga")
	if !strings.Contains(c.Body, "0.812 mm") || strings.Contains(c.Body, "!gauge") {
		t.Errorf("bare text: got %q", c.Body)
	}
	ana.ask(room, "!gauge 20ga")
	if _, c := ana.ask(room, "a long walk home"); !strings.Contains(c.Body, "try: ") {
		t.Errorf("not understood: got %q, want a refusal", c.Body)
	}
	// A third person makes it a room like others.
	if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ben.cli.UserID)); err != nil {
		t.Fatal(err)
	}
	ana.waitMember(room, ben.cli.UserID, event.MembershipInvite)
	idle := ana.say(room, "gauge 18ga")
	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	if len(ana.replies(ana.seen, room, idle)) > 0 {
		t.Error("bare text was answered in a room of three")
	}
}

// testInjection: what a person types stays text.
func testInjection(t *testing.T, ana, ben *maker, encrypted bool) {
	room := ana.room(encrypted)
	nasty := `<b>x</b><img src=x onerror=alert(1)> </p> &amp; <a href="https://matrix.to/#/@ben:guild.test">ben</a> @room @ben:guild.test ` +
		"\u202ereversed\u202c !gauge 20ga `code`"
	for _, line := range []string{"!repeat text " + nasty, "!repeat text refuse", "!gauge <b>20ga</b> @room", "!gauge <script>alert(1)</script>"} {
		c := &event.MessageEventContent{MsgType: event.MsgText, Body: line,
			Mentions: &event.Mentions{UserIDs: []id.UserID{ana.bot}}}
		q := ana.send(room, c)
		got := ana.waitText(room, q)
		for _, tag := range []string{"<b>", "<img", "</p>", "<a ", "<script"} {
			if strings.Contains(got.FormattedBody, tag) {
				t.Errorf("%s: %s came through: %s", line, tag, got.FormattedBody)
			}
		}
		for _, text := range []string{got.Body, got.FormattedBody} {
			if strings.Contains(text, "@room") || strings.Contains(text, "@ben:") || strings.Contains(text, "\u202e") {
				t.Errorf("%s: a mention or a turned text came through: %q", line, text)
			}
		}
		if got.Mentions.Room || len(got.Mentions.UserIDs) != 1 || got.Mentions.UserIDs[0] != ana.cli.UserID {
			t.Errorf("%s: mentions %+v", line, got.Mentions)
		}
		if got.MsgType != event.MsgNotice {
			t.Errorf("%s: %s, which other bots answer", line, got.MsgType)
		}
	}
	// The bot does not take its own words for a request.
	before := len(ana.settle(room))
	if after := len(ana.settle(room)); after != before+1 {
		t.Errorf("%d messages after %d: the bot answers itself", after, before)
	}
}
