package discord

import (
	"guildhand/bot/answer"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestButtons(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	first := start(t, s, f, s.config())
	m := first.answered(first.slash("plate", arg{"size", "8x6"}, arg{"seam", "side"}))
	require.NoError(t, first.stop())
	s.forget()
	// All of it works after a restart.
	r := start(t, s, f, s.config())

	t.Run("working", func(t *testing.T) {
		w := r.answered(r.press(m, "Working"))
		assert.True(t, w.ephemeral, "seen by all")
		r.wantText(w, "1. Mark it", `3. File 25.4 \* 1 \_mm\_`, "Area: **645.2 mm²**")
	})
	for label, want := range map[string]struct{ name, mime, data string }{
		"1:1 PDF":     {"plate-8x6.pdf", answer.PDF, "%PDF-1.4 plate"},
		"SVG":         {"plate-8x6.svg", answer.SVG, "<svg>"},
		"Other files": {"plate-8x6-corner.png", answer.PNG, "\x89PNG"},
	} {
		t.Run(label, func(t *testing.T) {
			a := r.answered(r.press(m, label))
			if !a.ephemeral || len(a.files) != 1 {
				t.Fatalf("hidden %t, %d files", a.ephemeral, len(a.files))
			}
			if g := a.files[0]; g.name != want.name || g.mime != want.mime || !strings.HasPrefix(string(g.data), want.data) {
				t.Errorf("file %s, %s, %q", g.name, g.mime, g.data)
			}
		})
	}
	t.Run("inches by the asker", func(t *testing.T) {
		e := r.press(m, "In inches")
		r.wait("the change", func() bool { return r.state(e).source.edits == 1 })
		assert.Equal(t, replyDeferredUpdate, r.state(e).ack)
		// The stand-in has changed the message that was pressed.
		r.wantText(m, "Length: **25.40 mm (1.000 in)**", "Mass: **3.22 g**")
		assert.Len(t, m.files, 1, "the picture goes with it")
		r.wantText(r.answered(r.press(m, "Working")), "(1.000 in²)**")
		back := r.press(m, "In mm")
		r.wait("the change back", func() bool { return r.state(back).source.edits == 2 })
		r.wantText(m, "Length: **25.40 mm**")
	})
	t.Run("inches by another", func(t *testing.T) {
		p := r.pressing(m, "In inches")
		p.maker = "723456789012345670"
		a := r.answered(s.send(p))
		assert.True(t, a.ephemeral, "another's choice is seen by all")
		r.wantText(a, "Length: **25.40 mm (1.000 in)**")
	})
	t.Run("another gauge", func(t *testing.T) {
		list := r.answered(r.press(m, "Another seam or gauge"))
		assert.True(t, list.ephemeral)
		a := r.answered(r.choose(list, "thickness 20ga"))
		r.wantText(a, "of 20ga", "seam side")
		if a.ephemeral || len(a.files) != 1 {
			t.Error("not a whole answer for all")
		}
		// What gives the same answer is not offered.
		for _, o := range list.message.Components[0].Components[0].Options {
			assert.NotContains(t, []string{"seam side", "seam corner", "thickness 22ga"}, o.Label)
		}
	})
	t.Run("a list of an earlier version", func(t *testing.T) {
		p := pressed{kind: 3, guild: theGuild, source: m, data: map[string]any{"component_type": typeSelect, "custom_id": "gh1:t:1", "values": []string{"seam=corner"}}}
		a := r.answered(s.send(p))
		r.wantText(a, "plate seam corner 8x6")
		assert.False(t, a.ephemeral)
	})
	t.Run("of another channel", func(t *testing.T) {
		p := r.pressing(m, "Working")
		p.maker, p.channel = "723456789012345670", "623456789012345670"
		r.wantText(r.answered(s.send(p)), "belongs to another channel")
	})
	for name, id := range map[string]string{
		"unknown entry": customID(actWorking, "99", "mm"), "no entry": customID(actPDF, "x"),
		"unknown action": customID("z", "1"), "not ours": "hello", "request gone": customID(actForm, "gone", ""),
	} {
		t.Run(name, func(t *testing.T) {
			a := r.answered(s.send(pressed{kind: 3, guild: theGuild, source: m, data: map[string]any{"component_type": 2, "custom_id": id}}))
			assert.True(t, a.ephemeral, "seen by all")
			r.wantText(a, "a")
		})
	}
}

func TestForms(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	t.Run("asked for", func(t *testing.T) {
		f := r.form(r.slash("plate", arg{"form", true}, arg{"thickness", "20ga"}, arg{"private", true}))
		m := r.answered(r.fill(f, map[string]string{inputRest: "thickness 20ga points 0,0\n4,0\n4,4\n0,4"}))
		r.wantText(m, "points 0,0 4,0 4,4 0,4", "of 20ga")
		assert.True(t, m.ephemeral, "what was asked in private is seen by all")
	})
	t.Run("something is missing", func(t *testing.T) {
		f := r.form(r.slash("trial"))
		var ids []string
		for _, label := range f.Components {
			ids = append(ids, label.Component.CustomID)
		}
		assert.Equal(t, "metal readings "+inputRest, strings.Join(ids, " "))
		m := r.answered(r.fill(f, map[string]string{"metal": "copper", "readings": "4.1\n4.2\n4.15"}))
		r.wantText(m, "read 4.1 4.2 4.15")
		if m.ephemeral {
			t.Error("the answer is hidden")
		}
	})
	t.Run("one of two is missing", func(t *testing.T) {
		f := r.form(r.slash("trial", arg{"metal", "brass"}))
		m := r.answered(r.fill(f, map[string]string{"readings": "4"}))
		r.wantText(m, "read 4", "metal brass")
	})
	t.Run("measured on a piece", func(t *testing.T) {
		f := r.form(r.slash("caliper", arg{"form", true}))
		r.wantText(r.answered(r.fill(f, map[string]string{"rimgot": "9.6 x 7.6", "basegot": "8x6"})), "rim 9.6x7.6 base 8x6")
	})
	t.Run("by the button of a refusal", func(t *testing.T) {
		m := r.answered(r.slash("ask", arg{"line", "trial metal brass"}))
		f := r.form(r.press(m, "Fill in a form"))
		r.wantText(r.answered(r.fill(f, map[string]string{"readings": "4 5"})), "read 4 5", "metal brass")
	})
	t.Run("what is filled in wrongly", func(t *testing.T) {
		f := r.form(r.slash("trial"))
		m := r.answered(r.fill(f, map[string]string{"metal": "lead", "readings": "4"}))
		assert.True(t, m.ephemeral, "the refusal is seen by all")
	})
	t.Run("of an older program", func(t *testing.T) {
		m := r.answered(s.send(pressed{kind: 5, guild: theGuild, data: map[string]any{"custom_id": "gh1:m:gone:", "components": []any{}}}))
		r.wantText(m, "ask again")
	})
}
