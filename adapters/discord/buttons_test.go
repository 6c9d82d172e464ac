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
		r.wantText(w, "1. mark it", `3. file 25.4 \* 1 \_mm\_`, "**645.2 mm²** area")
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
	t.Run("mm/inch by the asker", func(t *testing.T) {
		e := r.press(m, "mm/inch")
		r.wait("the change", func() bool { return r.state(e).update != nil })
		assert.Equal(t, replyUpdate, r.state(e).ack)
		assert.NotContains(t, string(mustJSON(r.state(e).update)), "attachments", "the picture is touched")
		// The stand-in has changed the message that was pressed.
		r.wantText(m, "**1.000 in** length", "**3.22 g** mass")
		r.wantText(r.answered(r.press(m, "Working")), "**1.000 in²** area")
		back := r.press(m, "mm/inch")
		r.wait("the change back", func() bool { return r.state(back).update != nil })
		r.wantText(m, "**25.40 mm** length")
	})
	t.Run("mm/inch by another", func(t *testing.T) {
		p := r.pressing(m, "mm/inch")
		p.maker = "723456789012345670"
		a := r.answered(s.send(p))
		assert.True(t, a.ephemeral, "another's choice is seen by all")
		r.wantText(a, "**1.000 in** length")
	})
	t.Run("another seam", func(t *testing.T) {
		a := r.answered(r.choose(m, "seam corner"))
		r.wantText(a, "plate seam corner 8x6")
		if a.ephemeral || len(a.files) != 1 {
			t.Error("not a whole answer for all")
		}
	})
	t.Run("another gauge", func(t *testing.T) {
		r.wantText(r.answered(r.choose(m, "thickness 20ga")), "of 20ga", "seam side")
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
		m := r.answered(r.fill(f, map[string]string{"points": "0, 0\n4 , 0\n4,4\n0,4"}))
		r.wantText(m, "points 0,0 4,0 4,4 0,4", "of 20ga")
		assert.True(t, m.ephemeral, "what was asked in private is seen by all")
	})
	t.Run("something is missing", func(t *testing.T) {
		f := r.form(r.slash("trial"))
		var ids []string
		for _, row := range f.Components {
			ids = append(ids, row.Components[0].CustomID)
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
