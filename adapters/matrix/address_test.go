package matrix

import (
	"testing"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

func TestAddressed(t *testing.T) {
	const bot = id.UserID("@guildhand:example.org")
	who := self{user: bot, names: []string{"Guild Hand", "guildhand"}}
	known := func(w string) bool { return nearly(w, []string{"collet", "gauge", "help"}) }
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
	}{
		{"prefix", text("!collet oval 8x6"), "!", false, "collet oval 8x6"},
		{"prefix with a blank", text("  ! collet oval 8x6"), "!", false, "collet oval 8x6"},
		{"upper case", text("!Collet oval 8x6"), "!", false, "Collet oval 8x6"},
		{"a slip", text("!colet oval 8x6"), "!", false, "colet oval 8x6"},
		{"letters in the wrong order", text("!guage 20ga"), "!", false, "guage 20ga"},
		{"another bot's word", text("!weather"), "!", false, ""},
		{"the prefix alone", text("!"), "!", false, ""},
		{"a room's own prefix takes every word", text("gh weather"), "gh ", false, "weather"},
		{"not that of another room", text("!gauge 20ga"), "gh ", false, ""},
		{"talk", text("the gauge is thin"), "!", false, ""},
		{"m.mentions and name", mentioning("Guild Hand: gauge 20ga", bot), "!", false, "gauge 20ga"},
		{"m.mentions and localpart", mentioning("@guildhand gauge 20ga", bot), "!", false, "gauge 20ga"},
		{"m.mentions alone", mentioning("gauge 20ga", bot), "!", false, "gauge 20ga"},
		{"m.mentions of another", mentioning("guildhand: gauge 20ga", "@ben:example.org"), "!", false, ""},
		{"a name that only begins alike", mentioning("guildhands gauge", bot), "!", false, "guildhands gauge"},
		{"a pill without m.mentions", withPill("Hand gauge", "Hand", "https://matrix.to/#/@guildhand:example.org"), "!", false, "gauge"},
		{"an escaped pill", withPill("Hand gauge", "Hand", "https://matrix.to/#/%40guildhand%3Aexample.org"), "!", false, "gauge"},
		{"a matrix: pill", withPill("Hand gauge", "Hand", "matrix:u/guildhand:example.org"), "!", false, "gauge"},
		{"a pill of another", withPill("Ben gauge", "Ben", "https://matrix.to/#/@ben:example.org"), "!", false, ""},
		{"full id without m.mentions", text("@guildhand:example.org: gauge 20ga"), "!", false, "gauge 20ga"},
		{"full id at the end", text("gauge 20ga @guildhand:example.org"), "!", false, "gauge 20ga"},
		{"the name without m.mentions", text("guildhand: gauge 20ga"), "!", false, ""},
		{"mention and prefix", mentioning("guildhand: !gauge 20ga", bot), "!", false, "gauge 20ga"},
		{"thanks in reply", inReply(mentioning("thank you", bot)), "!", false, ""},
		{"a request in reply", inReply(mentioning("gauge 20ga", bot)), "!", false, "gauge 20ga"},
		{"direct", text("gauge 20ga"), "!", true, "gauge 20ga"},
		{"direct with prefix", text("!gauge 20ga"), "!", true, "gauge 20ga"},
		{"direct with name", text("guildhand, gauge 20ga"), "!", true, "gauge 20ga"},
		{"direct and not known", text("good evening"), "!", true, "good evening"},
		{"direct and nothing", text("  "), "!", true, ""},
	} {
		got, ok := addressed(tc.content, who, facts{prefix: tc.prefix}, tc.direct, known)
		if ok != (tc.want != "") || ok && got != tc.want {
			t.Errorf("%s: got %q, %t, want %q", tc.name, got, ok, tc.want)
		}
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
