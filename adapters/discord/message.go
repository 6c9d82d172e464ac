package discord

import (
	"context"
	"net/http"
	"strings"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/delivery"
)

// Members also ask in plain words: by a mention in a channel, or by a direct
// message. Discord sends the text of those two without any privileged intent.

// Types of messages that people write.
const (
	messagePlain = 0
	messageReply = 19
)

// onMessage answers a message that is meant for the bot.
func (a *Adapter) onMessage(ctx context.Context, m *heard) {
	a.awaitSelf(ctx)
	text, addressed := a.addressed(m)
	if !addressed {
		return
	}
	parent := ""
	if m.GuildID != "" {
		parent = a.rooms.info(ctx, a.api, m.ChannelID).parent()
	}
	q := a.spokenQuestion(m, parent, text)
	newcomer := a.service.Newcomer(ctx, q.Who)
	// What is said by somebody who is hurt is written down nowhere.
	if !a.service.Hurt(ctx, q.Request) {
		if err := a.journal.add(q.Request); err != nil {
			a.log.Error("the journal could not be written", "error", err)
		}
	}
	a.withPhotograph(ctx, &q, m.Files)
	reply, err := a.outbox.Answer(ctx, q.Request, &spokenReply{a: a, q: q, way: routeOf(q.Route), newcomer: newcomer, began: time.Now()})
	if reply.Duplicate && reply.Delivered {
		a.metrics.Duplicate()
	}
	if err == nil || reply.Entry != 0 || ctx.Err() == nil {
		a.journalDone(m.ID) // in the daybook, or the asker was told to ask again
	}
}

// addressed gives what a message says to the bot; false if it is not meant for
// it, or comes from another bot.
func (a *Adapter) addressed(m *heard) (text string, ok bool) {
	self := a.self()
	if m.Author.Bot || m.WebhookID != "" || m.Author.ID == self || m.Type != messagePlain && m.Type != messageReply {
		return "", false
	}
	if self == "" && m.GuildID != "" {
		return "", false
	}
	text = m.Content
	mentioned := false
	for _, name := range []string{"<@" + self + ">", "<@!" + self + ">"} {
		mentioned = mentioned || strings.Contains(text, name)
		text = strings.ReplaceAll(text, name, " ")
	}
	for _, u := range m.Mentions { // a reply that pings its author names nobody in the text
		mentioned = mentioned || u.ID == self
	}
	text = strings.TrimLeft(strings.TrimSpace(text), ":, ")
	switch {
	case m.GuildID == "":
		return text, text != "" || photographOf(m.Files) != ""
	case mentioned && text == "" && photographOf(m.Files) == "":
		return "help", true
	}
	return text, mentioned
}

// spokenQuestion is the question of a message.
func (a *Adapter) spokenQuestion(m *heard, parent, text string) question {
	who := catalogue.Who{
		Platform: Platform, Guild: m.GuildID, Channel: m.ChannelID, Maker: m.Author.ID,
		Direct: m.GuildID == "", Teacher: m.GuildID != "" && a.teaches(m.Member),
	}
	way := route{ReplyTo: m.ID}
	if parent != "" {
		who.Channel, way.Channel = parent, m.ChannelID
	}
	q := question{spec: a.menu.specs[firstWord(text)], Request: bot.Request{
		Who: who, Message: m.ID, At: time.Now(), Text: text, Route: way.encode(),
		Spoken: true, ReplyTo: m.Reference.Message,
	}}
	if m.RepliesTo != nil {
		// An answer that was shown or posted later has another id than its first.
		q.About = a.entryOf(m.RepliesTo)
	}
	return q
}

// spokenReply sends the reply to a message, as a reply to it.
type spokenReply struct {
	a   *Adapter
	q   question
	way route
	// newcomer is set where the asker is told three things more.
	newcomer bool
	began    time.Time
}

// Working shows that the bot is writing.
func (s *spokenReply) Working(ctx context.Context) { _ = s.Progress(ctx, "") }

// Progress shows it again: Discord forgets after ten seconds.
func (s *spokenReply) Progress(ctx context.Context, _ string) error {
	return s.a.api.typing(ctx, s.way.place(s.q.Who))
}

// Send sends the reply's message, and nothing for chatter.
func (s *spokenReply) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
	if r.Silent {
		return delivery.Sent{}, nil
	}
	m := s.a.replyMessage(ctx, r, false, s.q.Who, s.q.Text)
	m.asReply(s.way.ReplyTo, nonceOf(r, s.q.Message))
	if s.newcomer && r.Answer != nil && !r.Answer.Explains { // whoever is hurt is not shown around
		m.Embeds = append(m.Embeds, embed{Description: welcome, Color: colourAnswer})
	}
	if r.Answer != nil && r.Answer.Corrects != 0 {
		if id := s.a.correct(ctx, r); id != "" {
			return delivery.Sent{Message: id}, nil
		}
	}
	send := s.a.postAnswer
	if isAlone(r, false) && s.q.Who.Guild != "" {
		send = s.a.whisper
	}
	id, err := send(ctx, s.way.place(s.q.Who), s.q.Who.Maker, m)
	if err != nil {
		return delivery.Sent{}, err
	}
	s.a.count(s.q, r, time.Since(s.began))
	s.a.openClass(r, s.q.alone, s.way.place(s.q.Who), id, "")
	return delivery.Sent{Message: id}, nil
}

// welcome is what a member is told with the first answer to a mention.
const welcome = "For example: *a collet for an 8x6 oval in 22 gauge sterling*\n" +
	"I keep your question, my answer and your id on Discord, and nothing that is not said to me.\n" +
	"`/daybook forget` removes all of it."

// postAnswer posts to a channel.
func (a *Adapter) postAnswer(ctx context.Context, channel, _ string, m *message) (string, error) {
	return a.api.post(ctx, channel, m)
}

// whisper sends in private what was asked aloud, and says so where it was asked.
func (a *Adapter) whisper(ctx context.Context, channel, maker string, m *message) (string, error) {
	note := saying("That answer is for you alone: I have sent it to you as a direct message.")
	note.asReply(m.Reference.Message, m.Nonce+"n")
	private := *m
	private.Reference = nil
	direct, err := a.api.direct(ctx, maker)
	id := ""
	if err == nil {
		id, err = a.api.post(ctx, direct, &private)
	}
	if refused(err) {
		note.Embeds[0].Description = "That answer is for you alone, and Discord doesn't let me write to you. Ask with a command instead: only you see its answer."
	} else if err != nil {
		return "", err
	}
	noted, noteErr := a.api.post(ctx, channel, note)
	if err != nil {
		return noted, noteErr
	}
	return id, nil
}

// asReply makes a message the reply to another, sent once.
func (m *message) asReply(to, nonce string) {
	m.Flags = 0
	m.Nonce, m.EnforceNonce = nonce, nonce != ""
	if to != "" {
		m.Reference = &reference{Message: to}
	}
}

// nonceOf names a message that is sent once: by its entry, or by its event
// where it has none.
func nonceOf(r bot.Reply, event string) string {
	if r.Entry == 0 {
		return "ghm" + event
	}
	return entryNonce(r.Entry)
}

// rooms knows the channels and threads that were met.
type rooms struct {
	mu    sync.Mutex
	known map[string]*channelInfo
}

// mostRooms bounds what is remembered; beyond it, all is looked up afresh.
const mostRooms = 20_000

// info is what a channel is, nil for one that can't be looked at.
func (r *rooms) info(ctx context.Context, api *api, channel string) *channelInfo {
	r.mu.Lock()
	info, known := r.known[channel]
	r.mu.Unlock()
	if known {
		return info
	}
	info, err := api.channel(ctx, channel)
	if err != nil {
		if s, _ := status(err); s != http.StatusForbidden && s != http.StatusNotFound {
			return nil // not remembered: it may work the next time
		}
		info = nil
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.known == nil || len(r.known) >= mostRooms {
		r.known = map[string]*channelInfo{}
	}
	r.known[channel] = info
	return info
}
