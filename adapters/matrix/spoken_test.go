package matrix

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// replyTo is a text in reply to an event, as clients send it: the one who is
// replied to is mentioned, and older clients quote the event.
func (m *maker) replyTo(room id.RoomID, to id.EventID, text string) id.EventID {
	m.t.Helper()
	return m.send(room, &event.MessageEventContent{
		MsgType: event.MsgText, Body: "> <" + string(m.bot) + "> 1.29 mm\n\n" + text,
		Format: event.FormatHTML, FormattedBody: "<mx-reply><blockquote>1.29 mm</blockquote></mx-reply>" + text,
		Mentions:  &event.Mentions{UserIDs: []id.UserID{m.bot}},
		RelatesTo: (&event.RelatesTo{}).SetReplyTo(to),
	})
}

// testChatter: other bots' commands that look like a request, and talk in reply
// to the bot, get nothing.
func testChatter(t *testing.T, ana, _ *maker, encrypted bool) {
	room := ana.room(encrypted)
	answered := ana.waitReplies(room, ana.say(room, "!gauge 16ga"), 1)[0].raw.ID
	idle := []id.EventID{
		ana.say(room, "!ban @spammer"), ana.say(room, "!done"), ana.say(room, "!home"), ana.say(room, "!some day!"),
		ana.replyTo(room, answered, "some day!"), ana.replyTo(room, answered, "thank you"),
	}
	ana.noReplies(room, idle)
}

// noReplies: these messages of a room get no reply.
func (m *maker) noReplies(room id.RoomID, messages []id.EventID) {
	m.t.Helper()
	m.settle(room)
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, q := range messages {
		assert.Empty(m.t, m.replies(m.seen, room, q))
	}
}

// TestAnswersOfARoom: teachers choose what is answered in a room. What has the
// prefix is a command, a mention is not; first aid is always given.
func TestAnswersOfARoom(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	mention := func(text string) id.EventID {
		return ana.send(room, &event.MessageEventContent{
			MsgType: event.MsgText, Body: "guildhand: " + text, Mentions: &event.Mentions{UserIDs: []id.UserID{ana.bot}},
		})
	}
	var silent []id.EventID
	assert.Contains(t, ana.waitText(room, mention("gauge 20ga")).Body, "0.812 mm")
	ana.ask(room, "!bench answers commands")
	silent = append(silent, mention("gauge 18ga"))
	_, c := ana.ask(room, "!gauge 18ga")
	assert.Contains(t, c.Body, "1.024 mm")
	ana.ask(room, "!bench answers off")
	silent = append(silent, mention("gauge 16ga"))
	_, c = ana.ask(room, "!gauge 16ga")
	assert.Contains(t, c.Body, "turned my answers off")
	assert.NotContains(t, ana.waitText(room, mention("I burned my hand with the torch")).Body, "turned my answers off")
	ana.ask(room, "!bench answers all")
	ana.waitText(room, mention("gauge 14ga"))
	ana.noReplies(room, silent)
}

// TestMaySpeakLater: what is asked where the bot has not the power to speak is
// answered, once, when it gets it.
func TestMaySpeakLater(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		levels := func(bot int) *event.PowerLevelsEventContent {
			return &event.PowerLevelsEventContent{
				Users: map[id.UserID]int{ana.cli.UserID: 100, ana.bot: bot}, EventsDefault: 50,
			}
		}
		room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) { r.PowerLevelOverride = levels(0) })
		q := ana.say(room, "!gauge 20ga")
		time.Sleep(2 * time.Second) // several tries
		_, err := ana.cli.SendStateEvent(ana.ctx, room, event.StatePowerLevels, "", levels(50))
		require.NoError(t, err)
		assert.Contains(t, ana.waitText(room, q).Body, "0.812 mm")
		ana.settle(room)
		ana.noRepeats(room)
	})
}

// testFollowUp: a reply goes on from the maker's last question.
func testFollowUp(t *testing.T, ana, _ *maker, encrypted bool) {
	room := ana.room(encrypted)
	answered := ana.waitReplies(room, ana.say(room, "!collet oval 8x6 depth 4 sterling 22ga"), 1)[0].raw.ID
	body := ana.waitText(room, ana.replyTo(room, answered, "same in 20ga please")).Body
	assert.Contains(t, body, "20 ga")
	assert.Contains(t, body, "changed: ")
	assert.True(t, strings.Contains(body, "8 x 6") || strings.Contains(body, "8x6"), "got %q", body)
}
