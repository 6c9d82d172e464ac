package matrix

import (
	"strings"
	"testing"

	"maunium.net/go/mautrix/event"
)

// TestAmendRepliesToTheAnswer: a teacher's correction stands in the room as a
// reply to the answer that it corrects, and not to the teacher's question.
func TestAmendRepliesToTheAnswer(t *testing.T) {
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		room := m.room(encrypted)
		question := m.say(room, "!gauge 22")
		answered := m.waitReplies(room, question, 1)[0]
		list := m.waitText(room, m.say(room, "!daybook"))
		_, rest, found := strings.Cut(list.Body, "no. ")
		number, _, _ := strings.Cut(rest, ",")
		if !found {
			t.Fatalf("no entry in %q", list.Body)
		}
		m.say(room, "!daybook amend "+number+" Our sheet is thinner")
		correction := m.waitReplies(room, answered.evt.ID, 1)[0].evt.Content.AsMessage()
		if correction.MsgType != event.MsgNotice || !strings.HasPrefix(correction.Body, "correction to no. "+number+": Our sheet is thinner") {
			t.Errorf("got %q", correction.Body)
		}
	})
}
