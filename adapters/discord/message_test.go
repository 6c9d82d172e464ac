package discord

import (
	"context"
	"log/slog"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// posted waits for the bot's nth message in a channel.
func (r *rig) posted(channel string, n int) *shown {
	r.t.Helper()
	var m shown
	r.wait("a message in "+channel, func() bool {
		r.discord.mu.Lock()
		defer r.discord.mu.Unlock()
		if len(r.discord.channels[channel]) < n {
			return false
		}
		m = *r.discord.channels[channel][n-1]
		return true
	})
	return &m
}

// inGuild is a member's message in the guild.
func inGuild(text string) said { return said{guild: theGuild, text: text} }

// realRig is an adapter on the program's own requests.
func realRig(t *testing.T) (*rig, *daybook.Book) {
	t.Helper()
	s := newStandIn(t)
	service, book := realService(t, requests.All, testShop())
	return start(t, s, service, s.config()), book
}

// A mention that overtakes the READY before it waits for that one.
func TestMentionBeforeReady(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		a := &Adapter{selfKnown: make(chan struct{}), log: slog.New(slog.DiscardHandler)}
		self := "not asked yet"
		go func() {
			a.awaitSelf(t.Context())
			self = a.self()
		}()
		synctest.Wait()
		assert.Equal(t, "not asked yet", self)
		for range 2 { // every new session begins with one
			a.onReady(&shard{}, []byte(`{"user":{"id":"`+theBot+`"}}`))
		}
		synctest.Wait()
		assert.Equal(t, theBot, self)
	})
}

func TestMentions(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	s := r.discord
	id := s.say(inGuild(atBot + "a collet for an 8x6 oval in 22 gauge sterling"))
	m := r.posted(theChannel, 1)
	r.wantText(m, "daybook no. 1", "For example:", "I keep your question", "forget")
	require.NotNil(t, m.message.Reference)
	assert.Equal(t, id, m.message.Reference.Message)
	assert.Len(t, m.files, 1)
	assert.Empty(t, m.message.Mentions.Users, "an answer at once pings nobody")

	// What follows is told no more how to ask, and changes what was asked.
	s.say(inGuild(atBot + "and in 20 gauge?"))
	m = r.posted(theChannel, 2)
	r.wantText(m, "20", "daybook no. 2")
	assert.NotContains(t, m.text(), "For example:")

	// In a direct chat nobody needs to be named.
	dm := directChannel(theMaker)
	s.say(said{channel: dm, text: "collet oval 8x6 22ga sterling"})
	r.wantText(r.posted(dm, 1), "daybook no. 3")

	// A mention alone asks how to ask.
	s.say(inGuild(atBot))
	r.wantText(r.posted(theChannel, 3), "daybook no. 4")
}

func TestWhatIsNotSaidToTheBot(t *testing.T) {
	t.Parallel()
	r, book := realRig(t)
	s := r.discord
	collet := "collet oval 8x6 22ga sterling"
	for _, m := range []said{
		inGuild(collet), // nobody is mentioned
		{guild: theGuild, text: atBot + collet, bot: true},     // another bot
		{guild: theGuild, text: atBot + collet, maker: theBot}, // itself
		{guild: theGuild, text: atBot + collet, kind: 7},       // Discord's own message
		{channel: directChannel(theMaker), text: ""},           // a picture alone
		inGuild(atBot + "thanks a lot!"),                       // chatter
	} {
		s.say(m)
	}
	s.say(inGuild(atBot + collet))
	r.wantText(r.posted(theChannel, 1), "daybook no. 1")
	r.wait("all that was said to be settled", func() bool { return len(r.adapter.journal.left()) == 0 })
	time.Sleep(200 * time.Millisecond) // for what would come after it
	s.mu.Lock()
	assert.Len(t, s.channels[theChannel], 1)
	assert.Empty(t, s.channels[directChannel(theMaker)])
	s.mu.Unlock()
	_, err := book.ByID(context.Background(), 2)
	assert.ErrorIs(t, err, daybook.ErrNotFound)
	assert.Empty(t, r.adapter.journal.left())
}

// What only the asker may see goes to the asker, though it was asked aloud.
func TestPrivateAnswerToAMention(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	r.discord.say(inGuild(atBot + "daybook mine"))
	r.wantText(r.posted(theChannel, 1), "sent it to you as a direct message")
	m := r.posted(directChannel(theMaker), 1)
	r.wantText(m, "stored about you")
	assert.Nil(t, m.message.Reference)
}

// A thread has its channel's bench, house rules and daybook, by command and by
// mention, and its answers stay in the thread.
func TestThreads(t *testing.T) {
	t.Parallel()
	r, book := realRig(t)
	s := r.discord
	const thread = "643456789012345678"
	s.mu.Lock()
	s.threads[thread] = theChannel
	s.mu.Unlock()
	in := func(p pressed, channel string) pressed { p.channel = channel; return p }
	teacher := in(slash("ask", arg{"line", "bench channel alloy brass"}), theChannel)
	teacher.permissions = int64(permManageGuild)
	r.answered(s.send(teacher))
	r.wantText(r.answered(s.send(in(slash("ask", arg{"line", "collet oval 8x6"}), thread))), "brass")
	s.say(said{guild: theGuild, channel: thread, text: atBot + "collet oval 10x8"})
	m := r.posted(thread, 2)
	r.wantText(m, "brass", "daybook no. 3")
	room := daybook.Room{Platform: Platform, Guild: theGuild, Channel: theChannel}
	for entry := int64(1); entry <= 3; entry++ {
		_, err := book.ByIDIn(context.Background(), room, entry)
		assert.NoError(t, err, "entry %d is not the channel's", entry)
	}
	// Late, it goes to the thread all the same.
	s.forget()
	e := s.earlier(in(slash("ask"), thread), 20*time.Minute, 0)
	way := route{Token: e.token, Until: e.until, Channel: thread}
	reply, err := r.service.Handle(context.Background(), bot.Request{Text: "collet oval 8x6", Message: e.id, Route: way.encode(), At: time.Now(),
		Who: catalogue.Who{Platform: Platform, Guild: theGuild, Channel: theChannel, Maker: theMaker}})
	require.NoError(t, err)
	require.NoError(t, r.service.Release(context.Background(), reply.Entry))
	late := r.posted(thread, 3)
	r.wantText(late, "For <@"+theMaker+">, late:")
	assert.Equal(t, []string{theMaker}, late.message.Mentions.Users)
}

// Nobody has a teacher's rights in a group message, or where a maker brought
// the app along.
func TestGroupsAndAppsOfMakers(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	s := r.discord
	alone := slash("ask", arg{"line", "collet oval 8x6"}, arg{"private", true})
	alone.guild, alone.channel, alone.context = "", "633456789012345678", 2
	m := r.answered(s.send(alone))
	other := slash("daybook", arg{"line", "show 1"})
	other.guild, other.channel, other.context, other.maker = "", alone.channel, 2, "723456789012345670"
	r.wantText(r.answered(s.send(other)), "is for teachers")
	p := r.pressing(m, "Working")
	p.guild, p.channel, p.context, p.maker = "", alone.channel, 2, other.maker
	r.wantText(r.answered(s.send(p)), "for the one who asked")
	brought := slash("daybook", arg{"line", "show 1"})
	brought.installedBy, brought.permissions = theMaker, int64(permAdministrator)
	r.wantText(r.answered(s.send(brought)), "is for teachers")
}

// A mention that was taken in when the process died is answered by the next.
func TestMentionAfterAKill(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	path := t.TempDir() + "/intake"
	j, err := openJournal(path)
	require.NoError(t, err)
	way := route{ReplyTo: "653456789012345678"}
	require.NoError(t, j.add(bot.Request{Text: "plate 8x6", Message: way.ReplyTo, Route: way.encode(), At: time.Now(),
		Who: catalogue.Who{Platform: Platform, Guild: theGuild, Channel: theChannel, Maker: theMaker}}))
	require.NoError(t, j.close())
	a, err := New(s.config(), Options{Service: f, Shop: testShop(), Transport: s.transport(), pace: quick, Journal: path})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	r := &rig{t: t, discord: s, log: &lockedBuffer{}}
	m := r.posted(theChannel, 1)
	cancel()
	require.NoError(t, <-ended)
	assert.Equal(t, way.ReplyTo, m.message.Reference.Message)
	assert.Equal(t, []string{theMaker}, m.message.Mentions.Users)
	assert.True(t, strings.HasPrefix(m.message.Content, "For <@"))
}
