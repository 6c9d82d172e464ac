package matrix

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"guildhand/bot/answer"
)

// TestSharing: who shares an event with the answer that waits longest. Only what
// goes to the same place does; a maker with many questions does not keep others
// out; an event is never fuller than a server takes.
func TestSharing(t *testing.T) {
	wait := func(name string, room id.RoomID, thread id.EventID, asker id.UserID, bytes int, picture bool) *waiting {
		m := &message{}
		m.line("", strings.Repeat("x", bytes))
		s := &section{room: room, thread: thread, asker: asker, message: m}
		if picture {
			s.picture = &answer.Attachment{}
		}
		return &waiting{out: outgoing{room: room, part: name, section: s}}
	}
	var flood []*waiting
	for n := range 30 {
		flood = append(flood, wait(fmt.Sprint("ana", n), "!a", "", "@ana", 1000, n%2 == 0))
	}
	all := append(flood,
		&waiting{out: outgoing{room: "!a", part: "a file"}},
		wait("ben", "!a", "", "@ben", 1000, true),
		wait("in a thread", "!a", "$t", "@ben", 10, false),
		wait("in another room", "!b", "", "@ben", 10, false),
		wait("long", "!a", "", "@dora", mostShared, false),
		wait("cleo", "!a", "", "@cleo", 1000, true),
	)
	var parts []string
	size, pictures := 0, 0
	for _, w := range sharing(all[0], all) {
		parts = append(parts, w.out.part)
		size += w.out.section.size()
		pictures += w.out.section.pictures()
	}
	assert.Equal(t, []string{"ana0", "ben", "cleo", "ana1", "ana2"}, parts[:5])
	for _, not := range []string{"a file", "in a thread", "in another room", "long"} {
		assert.NotContains(t, parts, not)
	}
	assert.LessOrEqual(t, size, mostShared)
	assert.Greater(t, size, mostShared-1000)
	assert.LessOrEqual(t, pictures, mostPictures)
	assert.Equal(t, []string{"long"}, []string{sharing(all[34], all)[0].out.part})
}

// TestThreadOnly: an event that answers share replies to no message of its thread,
// so that it does not go with one that is taken back.
func TestThreadOnly(t *testing.T) {
	assert.Nil(t, threadOnly(""))
	assert.Empty(t, threadOnly("$t").GetReplyTo())
	assert.Equal(t, id.EventID("$t"), threadOnly("$t").GetThreadParent())
	assert.Equal(t, event.RelThread, threadOnly("$t").Type)
}
