package matrix

import (
	"testing"

	"guildhand/bot"

	"github.com/stretchr/testify/assert"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

func TestAddressed(t *testing.T) {
	const own = id.UserID("@guildhand:example.org")
	who := self{user: own, names: []string{"Guild Hand", "guildhand"}}
	text := func(body string) *event.MessageEventContent {
		return &event.MessageEventContent{MsgType: event.MsgText, Body: body}
	}
	mentioning := func(body string, users ...id.UserID) *event.MessageEventContent {
		c := text(body)
		c.Mentions = &event.Mentions{UserIDs: users}
		return c
	}
	withPill := func(body, shown, address string) *event.MessageEventContent {
		c := text(body)
		c.Format, c.FormattedBody = event.FormatHTML, `<p><a href="`+address+`">`+shown+`</a> gauge</p>`
		return c
	}
	inReply := func(c *event.MessageEventContent) *event.MessageEventContent {
		c.RelatesTo = (&event.RelatesTo{}).SetReplyTo("$answer")
		return c
	}
	for _, tc := range []struct {
		name    string
		content *event.MessageEventContent
		prefix  string
		direct  bool
		want    string // empty: not addressed
		how     bot.Addressing
	}{
		{"prefix", text("!collet oval 8x6"), "!", false, "collet oval 8x6", bot.Prefixed},
		{"prefix with a blank", text("  ! collet oval 8x6"), "!", false, "collet oval 8x6", bot.Prefixed},
		{"upper case", text("!Collet oval 8x6"), "!", false, "Collet oval 8x6", bot.Prefixed},
		{"a slip", text("!colet oval 8x6"), "!", false, "colet oval 8x6", bot.Prefixed},
		{"letters in the wrong order", text("!guage 20ga"), "!", false, "guage 20ga", bot.Prefixed},
		{"another bot's word", text("!weather"), "!", false, "weather", bot.Prefixed},
		{"the prefix alone", text("!"), "!", false, "", bot.Named},
		{"a room's own prefix takes every word", text("gh weather"), "gh ", false, "weather", bot.Named},
		{"not that of another room", text("!gauge 20ga"), "gh ", false, "", bot.Named},
		{"talk", text("the gauge is thin"), "!", false, "", bot.Named},
		{"m.mentions and name", mentioning("Guild Hand: gauge 20ga", own), "!", false, "gauge 20ga", bot.Named},
		{"m.mentions and localpart", mentioning("@guildhand gauge 20ga", own), "!", false, "gauge 20ga", bot.Named},
		{"m.mentions alone", mentioning("gauge 20ga", own), "!", false, "gauge 20ga", bot.Named},
		{"m.mentions of another", mentioning("guildhand: gauge 20ga", "@ben:example.org"), "!", false, "", bot.Named},
		{"a name that only begins alike", mentioning("guildhands gauge", own), "!", false, "guildhands gauge", bot.Named},
		{"a pill without m.mentions", withPill("Hand gauge", "Hand", "https://matrix.to/#/@guildhand:example.org"), "!", false, "gauge", bot.Named},
		{"an escaped pill", withPill("Hand gauge", "Hand", "https://matrix.to/#/%40guildhand%3Aexample.org"), "!", false, "gauge", bot.Named},
		{"a matrix: pill", withPill("Hand gauge", "Hand", "matrix:u/guildhand:example.org"), "!", false, "gauge", bot.Named},
		{"a pill of another", withPill("Ben gauge", "Ben", "https://matrix.to/#/@ben:example.org"), "!", false, "", bot.Named},
		{"full id without m.mentions", text("@guildhand:example.org: gauge 20ga"), "!", false, "gauge 20ga", bot.Named},
		{"full id at the end", text("gauge 20ga @guildhand:example.org"), "!", false, "gauge 20ga", bot.Named},
		{"the name without m.mentions", text("guildhand: gauge 20ga"), "!", false, "", bot.Named},
		{"mention and prefix", mentioning("guildhand: !gauge 20ga", own), "!", false, "gauge 20ga", bot.Named},
		{"thanks in reply", inReply(mentioning("thank you", own)), "!", false, "thank you", bot.Replied},
		{"a request in reply", inReply(mentioning("gauge 20ga", own)), "!", false, "gauge 20ga", bot.Replied},
		{"a reply that the client did not mark", inReply(text("same in 20ga")), "!", false, "same in 20ga", bot.Replied},
		{"a reply that names another", inReply(mentioning("same in 20ga", "@ben:example.org")), "!", false, "", bot.Named},
		{"direct", text("gauge 20ga"), "!", true, "gauge 20ga", bot.Named},
		{"direct with prefix", text("!gauge 20ga"), "!", true, "gauge 20ga", bot.Named},
		{"direct with name", text("guildhand, gauge 20ga"), "!", true, "gauge 20ga", bot.Named},
		{"direct and not known", text("good evening"), "!", true, "good evening", bot.Named},
		{"direct and nothing", text("  "), "!", true, "", bot.Named},
	} {
		toBot := tc.content.RelatesTo != nil
		got, how, ok := addressed(tc.content, who, facts{prefix: tc.prefix}, tc.direct, toBot)
		assert.Equal(t, tc.want != "", ok, tc.name)
		assert.Equal(t, tc.want, got, tc.name)
		assert.Equal(t, tc.how, how, tc.name)
	}
}

func TestAllow(t *testing.T) {
	rule := Allow{Servers: []string{"Example.org"}, Users: []string{"@ana:other.org"}, Rooms: []string{"!room:third.org"}}
	for _, tc := range []struct {
		inviter id.UserID
		room    id.RoomID
		want    bool
	}{
		{"@ben:example.org", "!a:x.org", true},
		{"@ana:other.org", "!a:x.org", true},
		{"@eve:other.org", "!a:x.org", false},
		{"@eve:other.org", "!room:third.org", true},
		{"@eve:notexample.org", "!a:x.org", false},
		{"", "!a:x.org", false},
	} {
		if got := rule.allows(tc.inviter, tc.room); got != tc.want {
			t.Errorf("%s to %s: %t", tc.inviter, tc.room, got)
		}
		if (Allow{}).allows(tc.inviter, tc.room) {
			t.Errorf("%s to %s: allowed by an empty rule", tc.inviter, tc.room)
		}
	}
}

func TestActionOf(t *testing.T) {
	for key, want := range map[string]reactionAction{
		"🔧": showWorking, "🛠\ufe0f": showWorking, "📄": sendPDF, "🖨️": sendPDF,
		"📏": showInches, "📐": showInches, "✂️": sendFiles, "📎": sendFiles,
		"👍": "", "": "", "pdf": "", "👍🏽": "",
	} {
		if got, ok := actionOf(key); got != want || ok != (want != "") {
			t.Errorf("%q: got %q, %t, want %q", key, got, ok, want)
		}
	}
}
