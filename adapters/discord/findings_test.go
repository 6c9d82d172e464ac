package discord

import (
	"context"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

// What changes a maker's bench or trials is never offered again with another
// gauge, and every choice that is offered works.
func TestAlternativesThatWork(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	offered, tried := 0, 0
	for i := range r.adapter.menu.list {
		spec := &r.adapter.menu.list[i]
		for j, ex := range spec.Examples {
			if j > 0 && !testcount.Whole() {
				break
			}
			p := slash("ask", arg{"line", ex.Line})
			p.permissions, p.maker = int64(permManageGuild), fmt.Sprintf("7334567890%02d%06d", i, j)
			m := r.answered(r.discord.send(p))
			has := strings.Contains(string(mustJSON(m.message.Components)), "Another seam or gauge")
			if spec.Keeps {
				assert.False(t, has, ex.Line)
			}
			if !has || j > 0 {
				continue
			}
			offered++
			p = r.pressing(m, "Another seam or gauge")
			p.maker = fmt.Sprintf("7334567890%02d%06d", i, j)
			list := r.answered(r.discord.send(p))
			for _, row := range list.message.Components {
				for n, o := range row.Components[0].Options {
					if n > 1 && !testcount.Whole() {
						break
					}
					tried++
					q := pressed{kind: 3, guild: theGuild, source: list, maker: fmt.Sprintf("7434567890%02d%06d", i, tried),
						data: map[string]any{"component_type": typeSelect, "custom_id": row.Components[0].CustomID, "values": []string{o.Value}}}
					a := r.answered(r.discord.send(q))
					assert.NotContains(t, a.text(), "This would work", "%s, %s", ex.Line, o.Value)
				}
			}
		}
	}
	t.Logf("%d answers offer %d choices", offered, tried)
	assert.Positive(t, tried)
}

// refusing answers the calls that carry a file, or an embed, with a refusal.
func (s *standIn) refusing(status, code int, part string, refused *int) {
	s.intercept = func(w http.ResponseWriter, r *http.Request) bool {
		kind := r.Header.Get("Content-Type")
		if part == "files" && !strings.HasPrefix(kind, "multipart/") || r.Method == http.MethodGet || strings.HasSuffix(r.URL.Path, "/commands") {
			return false
		}
		s.mu.Lock()
		*refused++
		s.mu.Unlock()
		fail(w, status, code, "refused")
		return true
	}
}

// A file that can't be sent never takes the text with it.
func TestFilesThatCanNotBeSent(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name         string
		status, code int
		want         string
	}{
		{"too large for the proxy", 413, 0, filesTooLarge},
		{"too large for Discord", 400, codeTooLarge, filesTooLarge},
		{"not allowed", 403, codeNoPermission, noFiles},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			f := newFaulty(t, testSpecs())
			r := start(t, s, f, s.config())
			refused := 0
			s.mu.Lock()
			s.refusing(test.status, test.code, "files", &refused)
			s.mu.Unlock()
			m := r.answered(r.slash("plate", arg{"size", "8x6"}))
			r.wantText(m, "cut a plate", test.want, "daybook no. 1")
			assert.Empty(t, m.files)
			r.wantText(r.answered(r.press(m, "1:1 PDF")), test.want)
			s.say(inGuild(atBot + "plate 10x8"))
			r.wait("the message", func() bool { return f.count() == 2 && f.deliveredAs(2) != "" })
			s.mu.Lock()
			defer s.mu.Unlock()
			list := s.channels[theChannel]
			last := list[len(list)-1]
			assert.Contains(t, last.text(), test.want)
			assert.Contains(t, last.text(), "cut a plate, 10x8")
			assert.GreaterOrEqual(t, refused, 3)
		})
	}
}

func TestNoEmbeds(t *testing.T) {
	m := &message{Embeds: []embed{{Title: "Cut it.", Description: "**1 mm** rim", Footer: &footer{Text: "daybook no. 3"}}}, Mentions: noMentions}
	less := m.less(&callError{status: 403, code: codeNoPermission})
	require.NotNil(t, less)
	assert.Equal(t, "Cut it.\n**1 mm** rim\ndaybook no. 3\n"+noEmbeds, less.Content)
	assert.Nil(t, less.less(&callError{status: 403, code: codeNoPermission}), "there is nothing left to leave out")
	assert.Nil(t, m.less(&callError{status: 500}))
}

// A frame that no client can read, and an event without data, change nothing.
func TestBadFrames(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	s.mu.Lock()
	for _, g := range s.gateway.sessions {
		for _, raw := range []string{"null", "[]", "7", `{"op":null}`, `{"op":0,"t":"GUILD_CREATE","s":2,"d":null}`, `{"op":0,"t":"MESSAGE_CREATE","s":2,"d":null}`, "", "{"} {
			g.conn.mu.Lock()
			assert.NoError(t, g.conn.ws.WriteMessage(1, []byte(raw)))
			g.conn.mu.Unlock()
		}
	}
	s.mu.Unlock()
	r.answered(r.slash("plate", arg{"size", "8x6"}))
	r.wait("the notes", func() bool { return strings.Count(r.log.String(), "a frame that is no event was left out") == 8 })
	assert.NotContains(t, r.log.String(), "panic")
	assert.Equal(t, 1, r.gateway().identified)
}

// A dropped connection that resumes is back at once, however often.
func TestReconnectsAtOnceWhereItResumes(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	slow := quick
	slow.starts = time.Hour // a start too many would never come back
	r := startAt(t, s, newFaulty(t, testSpecs()), s.config(), slow)
	for n := 1; n <= 3; n++ {
		s.dropAll()
		r.wait("a resume", func() bool { return r.gateway().resumed == n })
		r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
	}
	g := r.gateway()
	assert.Equal(t, 1, g.identified)
	assert.Empty(t, g.problems)
}

func TestSessionStarts(t *testing.T) {
	var s sessionStarts
	now := time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC)
	for range freeStarts {
		s.add(now)
	}
	assert.Zero(t, s.wait(now, time.Minute))
	s.add(now)
	assert.Equal(t, time.Minute, s.wait(now, time.Minute))
	assert.Zero(t, s.wait(now.Add(61*time.Minute), time.Minute), "an hour later")
}

// Where Discord refuses the commands, those that are registered serve, and the
// log says what Discord points at.
func TestRefusedCommands(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	s.intercept = func(w http.ResponseWriter, r *http.Request) bool {
		if r.Method != http.MethodPut {
			return false
		}
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(http.StatusBadRequest)
		_, _ = w.Write([]byte(`{"code":30034,"message":"Max number of daily application command creates has been reached","errors":{"3":{"options":{"0":{"name":{"_errors":[{"code":"BASE_TYPE_BAD_LENGTH","message":"what was typed"}]}}}}}}`))
		return true
	}
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	r.answered(r.slash("plate", arg{"size", "8x6"}))
	log := r.log.String()
	assert.Contains(t, log, "code 30034, at 3.options.0.name BASE_TYPE_BAD_LENGTH")
	assert.NotContains(t, log, "what was typed")
}

// A correction is a reply to the wrong answer, which is marked, and mentions its
// maker once; the teacher is told in private.
func TestCorrectionReachesItsMaker(t *testing.T) {
	t.Parallel()
	r, book := realRig(t)
	s := r.discord
	wrong := r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}))
	r.wait("its mark", func() bool {
		e, err := book.ByID(context.Background(), 1)
		return err == nil && e.Delivered != ""
	})
	teach := slash("ask", arg{"line", "daybook amend 1 the rim is <@&9> 0.2 mm longer"})
	teach.maker, teach.permissions = "723456789012345670", int64(permManageGuild)
	told := r.answered(s.send(teach))
	assert.True(t, told.ephemeral)
	r.wantText(told, "its maker has been told")
	s.mu.Lock()
	defer s.mu.Unlock()
	list := s.channels[theChannel]
	require.Len(t, list, 3)
	var posted *shown
	for _, m := range list {
		if m.message.Reference != nil {
			posted = m
		}
	}
	require.NotNil(t, posted)
	assert.Equal(t, wrong.id, posted.message.Reference.Message)
	assert.Equal(t, []string{theMaker}, posted.message.Mentions.Users)
	assert.Equal(t, 1, strings.Count(posted.text(), "<@"+theMaker+">"))
	assert.Contains(t, list[0].text(), "**Corrected by a teacher:** the rim is \\<\\@&9\\> 0.2 mm longer")
	assert.Len(t, list[0].files, 1, "the picture stays")
}

// What only its maker saw is corrected in private.
func TestCorrectionOfAPrivateAnswer(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	s := r.discord
	r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}, arg{"private", true}))
	teach := slash("ask", arg{"line", "daybook amend 1 the rim is longer"})
	teach.maker, teach.permissions = "723456789012345670", int64(permManageGuild)
	told := r.answered(s.send(teach))
	r.wantText(told, "its maker has been told")
	m := r.posted(directChannel(theMaker), 1)
	r.wantText(m, "a teacher has corrected answer no. 1", "the rim is longer")
}

// In inches, headline, figures, drawing and files agree, and back again.
func TestInchesEverywhere(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	m := r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}))
	title, picture := m.message.Embeds[0].Title, string(m.files[0].data)
	e := r.press(m, "In inches")
	r.wait("the change", func() bool { return r.state(e).source.edits == 1 })
	assert.Contains(t, m.message.Embeds[0].Title, " in")
	assert.NotEqual(t, title, m.message.Embeds[0].Title)
	assert.NotEqual(t, picture, string(m.files[0].data), "the drawing is the same")
	assert.Contains(t, m.message.Attachments[0].Description, " in", "the alternative text")
	assert.Equal(t, "attachment://"+m.message.Attachments[0].Filename, m.message.Embeds[0].Image.URL)
	r.answered(r.press(m, "1:1 PDF"))
	e = r.press(m, "In mm")
	r.wait("the change back", func() bool { return r.state(e).source.edits == 2 })
	assert.Equal(t, title, m.message.Embeds[0].Title)
	assert.Equal(t, picture, string(m.files[0].data))
}

// No control character and none that turns the direction of writing passes.
func TestCleanText(t *testing.T) {
	for typed, want := range map[string]string{
		"a\u202eb\u2066c\u200fd": "abcd", "a\x1b[31mb": "a\\[31mb", "a\tb\nc": "a b\nc", "\x00a\x7f\u0085": "a",
	} {
		assert.Equal(t, want, plain(typed))
	}
	assert.Equal(t, "ab", clip("a\u202eb", 10))
}
