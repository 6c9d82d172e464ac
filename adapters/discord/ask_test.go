package discord

import (
	"bytes"
	"errors"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSlashAndLine(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	tests := []struct {
		name string
		e    *interactionState
		want []string
	}{
		{"options", r.slash("plate", arg{"size", "8x6"}, arg{"thickness", "20ga"}, arg{"count", 3.0}, arg{"both", true}, arg{"lean", 8.5}, arg{"seam", "corner"}),
			[]string{"cut a plate, 8x6 mm", "20ga", "seam corner", "count 3", "lean 8.5", "both", "Length: **25.40 mm**", "Mass: **3.22 g**", "\nThin for a plate", "**Assumed:** ", "⚠ Wear eye protection."}},
		{"false flag", r.slash("plate", arg{"size", "8x6"}, arg{"both", false}), []string{"cut a plate"}},
		{"line", r.slash("plate", arg{"line", "10x8 metal-07 thickness 0.8mm"}), []string{"cut a plate, 10x8 mm", "metal-07"}},
		{"line with its word", r.slash("plate", arg{"line", "plate 10x8"}), []string{"cut a plate, 10x8 mm"}},
		{"line and options", r.slash("plate", arg{"line", "10x8"}, arg{"depth", "4 mm"}), []string{"cut a plate, 10x8 mm", "depth 4"}},
		{"ask", r.slash("ask", arg{"line", "plate 8x6 m03"}), []string{"metal-03"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			m := r.answered(test.e)
			r.wantText(m, test.want...)
			r.wantText(m, "daybook no. ")
			if m.ephemeral {
				t.Error("the answer is hidden")
			}
			if len(m.files) != 1 || !bytes.HasPrefix(m.files[0].data, []byte("\x89PNG\r\n\x1a\n")) {
				t.Fatalf("the answer has no PNG")
			}
			assert.Equal(t, "a plate with its measures", m.message.Attachments[0].Description)
		})
	}
}

func TestPrivate(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	m := r.answered(r.slash("plate", arg{"size", "8x6"}, arg{"private", true}))
	require.True(t, m.ephemeral, "the answer is seen by all")
	e := r.press(m, "Show to channel")
	r.wait("the answer in the channel", func() bool { return len(r.state(e).follows) == 1 })
	st := r.state(e)
	public := st.follows[0]
	if public.ephemeral || len(public.files) != 1 {
		t.Errorf("what is shown is hidden (%t) or has %d files", public.ephemeral, len(public.files))
	}
	r.wantText(public, "cut a plate")
	if st.update == nil || strings.Contains(string(mustJSON(st.update.Components)), "Show to channel") {
		t.Error("the offer to show is still there")
	}
	assert.NotContains(t, string(mustJSON(public.message.Components)), "Show to channel", "what is shown offers to be shown")
}

func TestAnswersThatSayHowTheyAreShown(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	m := r.answered(r.slash("fault", arg{"how", "alone"}))
	if !m.ephemeral || strings.Contains(string(mustJSON(m.message.Components)), "Show to channel") {
		t.Error("an answer for the asker alone is seen by all, or offered to be")
	}
	// What is not kept has its files at once, and no buttons.
	m = r.answered(r.slash("fault", arg{"how", "fleeting"}))
	if !m.ephemeral || len(m.files) != 4 || len(m.message.Components) != 0 {
		t.Errorf("hidden %t, %d files, %d rows", m.ephemeral, len(m.files), len(m.message.Components))
	}
	r.wantText(r.answered(r.slash("fault", arg{"how", "inches"})), "25.40 mm", "1.000 in")
	r.wantText(r.answered(r.slash("fault", arg{"how", "about"})), "about https://discord.com/channels/"+theGuild+"/"+theChannel+"/623456789012345671")
}

func TestRefusalIsForTheAsker(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	m := r.answered(r.slash("plate", arg{"size", "8x6"}, arg{"count", 59.0}))
	assert.True(t, m.ephemeral, "the refusal is seen by all")
	r.wantText(m, "59 plates do not fit; up to 58 do", "This would work: plate 8x6")
	// The line that would work is one press away.
	r.wantText(r.answered(r.press(m, "Try: plate 8x6")), "cut a plate, 8x6 mm")

	m = r.answered(r.slash("ask", arg{"line", "plait 8x6"}))
	assert.True(t, m.ephemeral, "the refusal is seen by all")
}

func TestNoAnswerPings(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	m := r.answered(r.slash("fault", arg{"how", "ping"}))
	r.wantText(m, `for \@everyone and \<\@723456789012345678\> \*\*bold\*\*`, `\@here \<\@&1\> \</collet:1\>`)
	m = r.answered(r.slash("ask", arg{"line", "@everyone <@723456789012345678>"}))
	if strings.Contains(m.text(), "<@") && !strings.Contains(m.text(), `\<`) {
		t.Errorf("a mention came through: %s", m.text())
	}
}

func TestLimits(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	m := r.answered(r.slash("fault", arg{"how", "long"}))
	// The cautions are shown, however much stands before them.
	r.wantText(m, "…\n⚠ caution", "**Assumed:** ")
	if len(m.files) != 1 || length(m.message.Attachments[0].Description) > maxAlt {
		t.Error("no picture, or its alternative text is too long")
	}
	w := r.answered(r.press(m, "Working"))
	if len(w.files) != 1 || w.files[0].name != "working.txt" || !bytes.Contains(w.files[0].data, []byte("40. Step `x`")) {
		t.Errorf("the whole working is not in a file")
	}
}

func TestFaults(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	m := r.answered(r.slash("fault", arg{"how", "panic"}))
	if !m.ephemeral || strings.Contains(m.text(), "secret") {
		t.Errorf("a fault shows: %s", m.text())
	}
	m = r.answered(r.slash("fault", arg{"how", "picture"}))
	r.wantText(m, "all went well", "\nx.png could not be drawn")

	f.breakStore(errors.New("disk full"))
	m = r.answered(r.slash("fault", arg{"how", "ping"}))
	assert.True(t, m.ephemeral, "the fault is seen by all")
	r.wantText(m, "I can't write to the daybook, so I can't answer now")
	// Nothing that was deferred is kept for later: the asker was told.
	r.wantText(r.answered(r.slash("batch")), "I can't write to the daybook, so I can't answer now")
	if left := r.adapter.journal.left(); len(left) != 0 {
		t.Errorf("%d requests are kept", len(left))
	}
}

func TestDeferral(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	soon := quick
	soon.deferAfter = 300 * time.Millisecond
	r := startAt(t, s, newFaulty(t, testSpecs()), s.config(), soon)
	t.Run("long work at once", func(t *testing.T) {
		s := newStandIn(t)
		r := start(t, s, newFaulty(t, testSpecs()), s.config())
		e := r.slash("batch", arg{"count", 1.0}, arg{"wait", 200.0})
		r.wantText(r.answered(e), "1 pieces")
		assert.Equal(t, replyDeferred, r.state(e).ack)
	})
	t.Run("long work with progress", func(t *testing.T) {
		e := r.slash("batch", arg{"count", 4.0}, arg{"wait", 150.0})
		r.wait("the announcement", func() bool { return r.state(e).ack == replyDeferred })
		r.wait("a note on progress", func() bool {
			s.mu.Lock()
			defer s.mu.Unlock()
			return strings.Contains(e.original.message.Content, `of 4, cutting \<\@1\> list`)
		})
		m := r.answered(e)
		r.wantText(m, "4 pieces")
		assert.Empty(t, m.message.Content)
		assert.False(t, m.ephemeral, "nobody asked for it in private")
	})
	t.Run("stopped", func(t *testing.T) {
		// The real service records what was stopped.
		s := newStandIn(t)
		service, _ := realService(t, func(*daybook.Book) []catalogue.Spec { return testSpecs() }, testShop())
		r := start(t, s, service, s.config())
		e := r.slash("batch", arg{"count", 50.0}, arg{"wait", 400.0})
		note := func() *shown {
			s.mu.Lock()
			defer s.mu.Unlock()
			if e.original == nil || e.original.message.Content == "" {
				return nil
			}
			m := *e.original
			return &m
		}
		r.wait("a note on progress", func() bool { return note() != nil })
		other := r.pressing(note(), "Stop")
		other.maker = "723456789012345670"
		r.wantText(r.answered(s.send(other)), "nothing left to stop")
		p := r.press(note(), "Stop")
		r.wait("the last word", func() bool { return len(r.state(e).follows) == 1 })
		r.wantText(r.state(e).follows[0], "stopped")
		// The work ends before the press is acknowledged, so the last word may be first.
		r.wait("the press acknowledged", func() bool { return r.state(p).ack == replyDeferredUpdate })
	})
	t.Run("a refusal stays with the asker", func(t *testing.T) {
		e := r.slash("batch", arg{"count", 13.0}, arg{"wait", 1.0})
		r.wait("the refusal", func() bool { return len(r.state(e).follows) == 1 })
		now := r.state(e)
		assert.True(t, now.follows[0].ephemeral, "the refusal is seen by all")
		assert.Nil(t, now.original, "the announcement stays")
		assert.Equal(t, replyDeferred, now.ack)
		r.wantText(now.follows[0], "13 can't be cut from one sheet")
	})
	t.Run("what turns out to be slow", func(t *testing.T) {
		e := r.slash("fault", arg{"how", "wait"})
		m := r.answered(e)
		assert.Equal(t, replyDeferred, r.state(e).ack)
		r.wantText(m, "all went well")
	})
	t.Run("what is slow to draw is announced to all", func(t *testing.T) {
		e := r.slash("fault", arg{"how", "draw"})
		m := r.answered(e)
		if m.ephemeral || r.state(e).ack != replyDeferred || len(m.files) != 1 {
			t.Errorf("hidden %t, first answer %d, %d files", m.ephemeral, r.state(e).ack, len(m.files))
		}
		assert.NotContains(t, string(mustJSON(m.message.Components)), "Show to channel", "it is offered to be shown")
	})
	t.Run("what is fast is not announced", func(t *testing.T) {
		s := newStandIn(t)
		r := start(t, s, newFaulty(t, testSpecs()), s.config())
		e := r.slash("fault", arg{"how", "ping"})
		r.answered(e)
		assert.Equal(t, replyMessage, r.state(e).ack)
	})
}

func TestTeachers(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	c := s.config()
	c.TeacherRole = "923456789012345671 923456789012345672"
	r := start(t, s, newFaulty(t, testSpecs()), c)
	tests := []struct {
		name        string
		roles       []string
		permissions int64
		guild       string
		want        bool
	}{
		{"nobody", nil, 0, theGuild, false},
		{"another role", []string{"923456789012345673"}, 1 << 11, theGuild, false},
		{"the role", []string{"923456789012345673", "923456789012345672"}, 0, theGuild, true},
		{"manages the server", nil, 1<<11 | 1<<5, theGuild, true},
		{"administrator", nil, 1 << 3, theGuild, true},
		{"direct message", nil, 0, "", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := slash("ledger")
			p.roles, p.permissions, p.guild = test.roles, test.permissions, test.guild
			m := r.answered(s.send(p))
			assert.Equal(t, test.want, strings.Contains(m.text(), "12 answers this week"))
			if !test.want && !m.ephemeral {
				t.Error("the refusal is seen by all")
			}
		})
	}
}
