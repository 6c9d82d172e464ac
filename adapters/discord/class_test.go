package discord

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const classLine = "kit 12 makers collet oval 8x6 depth 4 sterling 22ga"

// threadOf waits for a thread with so many messages.
func (r *rig) threadOf(parent string, n int) (id string, list []*shown) {
	r.t.Helper()
	r.wait("a thread of "+parent, func() bool {
		r.discord.mu.Lock()
		defer r.discord.mu.Unlock()
		for thread, of := range r.discord.threads {
			if of != parent || r.discord.names[thread] == "" || len(r.discord.channels[thread]) < n {
				continue
			}
			id, list = thread, nil
			for _, m := range r.discord.channels[thread] {
				list = append(list, m.copy())
			}
			return true
		}
		return false
	})
	return id, list
}

// wantClass holds a class's messages to what a class needs.
func (r *rig) wantClass(list []*shown) {
	r.t.Helper()
	require.Len(r.t, list, 3)
	r.wantText(list[0], "Cut list", "cut 12 of the collet")
	r.wantText(list[1], "Handouts and layout", "-handout.pdf", "-layout.pdf")
	r.wantText(list[2], "Sheets", "-sheet-1.png", "-sheet-1.svg")
	for i, files := range []int{0, 2, 2} {
		assert.Len(r.t, list[i].files, files)
		assert.False(r.t, list[i].ephemeral)
	}
}

// A class gets a thread at its answer, and in every thread of a channel its bench
// and daybook are the channel's.
func TestClassGetsAThread(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	s := r.discord
	teacher := slash("ask", arg{"line", "bench channel alloy brass"})
	teacher.permissions = int64(permManageGuild)
	r.answered(s.send(teacher))
	e := r.slash("ask", arg{"line", classLine})
	m := r.answered(e)
	assert.False(t, m.ephemeral)
	thread, list := r.threadOf(theChannel, 3)
	assert.Equal(t, m.id, thread)
	s.mu.Lock()
	assert.True(t, strings.HasPrefix(s.names[thread], "Kit no. 2: Cut 12 blanks for 12 makers"), s.names[thread])
	s.mu.Unlock()
	r.wantClass(list)
	asked := s.say(said{guild: theGuild, channel: thread, text: atBot + "collet oval 10x8"})
	r.wantText(r.replyTo(thread, asked), "brass", "daybook no. 3")
}

func TestClassByMention(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	asked := r.discord.say(inGuild(atBot + classLine))
	m := r.replyTo(theChannel, asked)
	thread, list := r.threadOf(theChannel, 3)
	assert.Equal(t, m.id, thread)
	r.wantClass(list)
}

// In a forum a class has a post of its own, and the place where it was asked for
// leads there; in a thread, which has no threads, it stands where it was asked
// for.
func TestClassInAForumAndInAThread(t *testing.T) {
	t.Parallel()
	const forum, post, thread = "683456789012345678", "693456789012345678", "643456789012345678"
	r, _ := realRig(t)
	s := r.discord
	s.mu.Lock()
	s.forums[forum], s.threads[post], s.threads[thread] = true, forum, theChannel
	s.mu.Unlock()
	p := slash("ask", arg{"line", classLine})
	p.channel = post
	r.answered(s.send(p))
	own, list := r.threadOf(forum, 3)
	r.wantClass(list)
	r.wait("the way there", func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		here := s.channels[post]
		return len(here) == 2 && strings.Contains(here[1].text(), "<#"+own+">")
	})
	p = slash("ask", arg{"line", classLine})
	p.channel = thread
	r.answered(s.send(p))
	r.posted(thread, 4)
	s.mu.Lock()
	list = s.channels[thread][1:4]
	s.mu.Unlock()
	r.wantClass(list)
}

// Without a thread nothing is lost: one sentence says why there is none.
func TestClassWithoutAThread(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	s := r.discord
	s.mu.Lock()
	s.noThreads[theChannel] = true
	s.mu.Unlock()
	e := r.slash("ask", arg{"line", classLine})
	r.answered(e)
	r.wait("the reason", func() bool { return len(r.state(e).follows) == 1 })
	told := r.state(e).follows[0]
	assert.True(t, told.ephemeral)
	r.wantText(told, noThread)
	asked := s.say(inGuild(atBot + classLine))
	m := r.replyTo(theChannel, asked)
	r.wantText(r.replyTo(theChannel, m.id), noThread)
}

// What only its asker sees has no thread, until it is shown to the channel.
func TestClassInPrivate(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	m := r.answered(r.slash("ask", arg{"line", classLine}, arg{"private", true}))
	require.True(t, m.ephemeral)
	e := r.press(m, "Show to channel")
	r.wait("the answer in the channel", func() bool { return len(r.state(e).follows) == 1 })
	thread, list := r.threadOf(theChannel, 3)
	assert.Equal(t, r.state(e).follows[0].id, thread)
	r.wantClass(list)
}
