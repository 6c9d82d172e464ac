package discord

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// update writes what is shown into the files of testdata. Read the difference
// before you commit it.
var update = flag.Bool("update", false, "rewrite the files of testdata")

// An hour of a member, played from a transcript against the stand-in, with the
// program's own requests in a process of their own. Lines of the file that begin
// with ">" say what people do; those below are what Discord then shows.
func TestHour(t *testing.T) {
	t.Parallel()
	path := filepath.Join("testdata", "hour.txt")
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	h := &hour{t: t, standIn: newStandIn(t), dir: t.TempDir(), shown: map[string]*shown{}}
	h.rig = &rig{t: t, discord: h.standIn, log: &lockedBuffer{}}
	h.start()
	var played strings.Builder
	for line := range strings.Lines(string(want)) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "#"):
			played.WriteString(line + "\n")
		case strings.HasPrefix(line, "> "):
			played.WriteString("\n" + line + "\n" + h.play(strings.TrimPrefix(line, "> ")))
		}
	}
	require.NoError(t, h.child.Process.Signal(os.Interrupt))
	assert.NoError(t, h.child.Wait())
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(played.String()), 0o644))
	}
	assert.Equal(t, ofDiscord(string(want)), ofDiscord(played.String()))
}

var (
	// ofTheRequest are lines whose words and figures are a request's own: figures,
	// steps, lists, assumptions, and cautions.
	ofTheRequest = regexp.MustCompile(`^  (?:[^*]*: \*\*|\d+\. |• |\*\*Assumed|⚠ )`)
	figure       = regexp.MustCompile(`\d+(?:\.\d+)?`)
)

// ofDiscord is what a transcript says of Discord: who sees what and where, under
// which buttons. A request's own lines and figures have their own tests.
func ofDiscord(transcript string) string {
	var b strings.Builder
	for line := range strings.Lines(transcript) {
		switch {
		case strings.HasPrefix(line, ">"):
			b.WriteString(line)
		case !ofTheRequest.MatchString(line):
			b.WriteString(figure.ReplaceAllString(line, "0"))
		}
	}
	return b.String()
}

// hour is the state of a transcript that is played.
type hour struct {
	t *testing.T
	*standIn
	rig   *rig
	dir   string
	child *exec.Cmd
	// shown are the messages by the number of their entry, last the latest one.
	shown map[string]*shown
	last  *shown
	// thread is the latest that the bot has opened.
	thread string
}

// people are those of the transcript. The teacher manages the server.
var people = map[string]string{"ana": theMaker, "ben": "723456789012345670", "tess": "723456789012345671"}

func (h *hour) start() {
	child, ready := startChild(h.t, h.standIn, h.dir, "real")
	h.child = child
	select {
	case <-ready:
	case <-time.After(patience):
		h.t.Fatal("the program does not connect")
	}
}

// deeds are what people can do, each with what its words say.
var deeds = []struct {
	words *regexp.Regexp
	do    func(h *hour, who, a, b string) string
}{
	{regexp.MustCompile(`^(\w+) mentions the bot: (.*)$`), (*hour).mention},
	{regexp.MustCompile(`^(\w+) mentions the bot in the thread: (.*)$`), (*hour).mentionInThread},
	{regexp.MustCompile(`^(\w+) writes to the bot: (.*)$`), (*hour).write},
	{regexp.MustCompile(`^(\w+) replies to no\. (\d+): (.*)$`), (*hour).reply},
	{regexp.MustCompile(`^(\w+) uses /(\S+)(.*)$`), (*hour).command},
	{regexp.MustCompile(`^(\w+) opens the form of /(\S+) and fills in (.*)$`), (*hour).form},
	{regexp.MustCompile(`^(\w+) presses "([^"]+)" under no\. (\d+)$`), (*hour).press},
	{regexp.MustCompile(`^(\w+) chooses "([^"]+)"$`), (*hour).choose},
	{regexp.MustCompile(`^(\w+) presses "Follow up" under no\. (\d+) and writes: (.*)$`), (*hour).follow},
	{regexp.MustCompile(`^(\w+) takes "Correct this answer" on no\. (\d+)(?: and writes: (.*))?$`), (*hour).correct},
	{regexp.MustCompile(`^(\w+) asks what takes long, and the program is killed over it: (.*)$`), (*hour).kill},
}

func (h *hour) play(line string) string {
	h.t.Helper()
	for _, d := range deeds {
		if m := d.words.FindStringSubmatch(line); m != nil {
			require.Contains(h.t, people, m[1], line)
			m = append(m, "", "")
			return d.do(h, people[m[1]], m[2], m[3])
		}
	}
	h.t.Fatalf("nobody can do this: %s", line)
	return ""
}

// tell writes a message as people see it, and keeps it by its entry.
func (h *hour) tell(where string, m *shown) string {
	h.last = m
	for _, e := range m.message.Embeds {
		if e.Footer != nil && len(m.message.Components) > 0 { // the answer, not its working or files
			if n := entryOfFooter(e.Footer.Text); n > 0 {
				h.shown[fmt.Sprint(n)] = m
			}
		}
	}
	if m.ephemeral {
		where += ", for the asker alone"
	}
	if m.message.Reference != nil {
		where += ", as a reply"
	}
	for _, f := range m.message.Attachments {
		where += ", with " + f.Filename
	}
	text := m.text()
	if labels := m.labels(); len(labels) > 0 {
		text += "\n[" + strings.Join(labels, "] [") + "]"
	}
	for name, id := range people {
		text = strings.ReplaceAll(text, "<@"+id+">", "@"+name)
	}
	var b strings.Builder
	b.WriteString("(" + where + ")\n")
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			b.WriteString("  " + line + "\n")
		}
	}
	return b.String()
}

func (h *hour) pressed(p pressed, who string) pressed {
	p.maker = who
	if who == people["tess"] {
		p.permissions = int64(permManageGuild)
	}
	return p
}

// answer waits for what an interaction brings: a message, also one that takes the
// place of a deferral.
func (h *hour) answer(e *interactionState) string {
	var m *shown
	h.rig.wait("an answer", func() bool {
		now := h.rig.state(e)
		m = now.original
		if len(now.follows) > 0 {
			m = now.follows[len(now.follows)-1]
		}
		return m != nil && !m.loading && len(m.message.Embeds) > 0
	})
	return h.tell("in the channel", m)
}

func (h *hour) mention(who, text, _ string) string {
	return h.tell("in the channel", h.rig.replyTo(theChannel, h.say(said{guild: theGuild, maker: who, text: atBot + text})))
}

func (h *hour) mentionInThread(who, text, _ string) string {
	asked := h.say(said{guild: theGuild, channel: h.thread, maker: who, text: atBot + text})
	return h.tell("in the thread", h.rig.replyTo(h.thread, asked))
}

func (h *hour) write(who, text, _ string) string {
	direct := directChannel(who)
	return h.tell("in the direct chat", h.rig.replyTo(direct, h.say(said{channel: direct, maker: who, text: text})))
}

func (h *hour) reply(who, entry, text string) string {
	require.Contains(h.t, h.shown, entry)
	asked := h.say(said{guild: theGuild, maker: who, text: atBot + text, replyTo: h.shown[entry]})
	return h.tell("in the channel", h.rig.replyTo(theChannel, asked))
}

// command takes options as name=value, with _ for a blank in a value.
func (h *hour) command(who, name, rest string) string {
	var args []arg
	for _, word := range strings.Fields(rest) {
		option, text, _ := strings.Cut(word, "=")
		var value any = strings.ReplaceAll(text, "_", " ")
		if option == optPrivate {
			value = true
		}
		args = append(args, arg{option, value})
	}
	text := h.answer(h.send(h.pressed(slash(name, args...), who)))
	if strings.Contains(rest, "kit_") {
		text += h.class()
	}
	return text
}

// class tells the thread that a class has got.
func (h *hour) class() string {
	thread, list := h.rig.threadOf(theChannel, 3)
	h.thread = thread
	h.mu.Lock()
	text := "(a thread is opened: " + h.names[thread] + ")\n"
	h.mu.Unlock()
	for _, m := range list {
		text += h.tell("in the thread", m)
	}
	return text
}

func (h *hour) form(who, name, fields string) string {
	values := map[string]string{}
	for _, field := range strings.Split(fields, "; ") {
		id, text, _ := strings.Cut(field, "=")
		values[id] = text
	}
	f := h.rig.form(h.send(h.pressed(slash(name, arg{optForm, true}), who)))
	var text strings.Builder
	fmt.Fprintf(&text, "(a form: %s)\n", f.Title)
	for _, label := range f.Components {
		kind := "text"
		if label.Component.Type == typeSelect {
			kind = fmt.Sprintf("list of %d", len(label.Component.Options))
		}
		fmt.Fprintf(&text, "  %s: %s (%s)\n", label.Label, label.Description, kind)
	}
	return text.String() + h.answer(h.rig.fillAs(f, values, who))
}

func (h *hour) press(who, label, entry string) string {
	m := h.shown[entry]
	require.NotNil(h.t, m, entry)
	before := m.edits
	e := h.send(h.pressed(h.rig.pressing(m, label), who))
	switch {
	case strings.HasPrefix(label, "In ") && who == theMaker:
		h.rig.wait("the change", func() bool { return h.rig.state(e).source.edits > before })
		return h.tell("the message changes", h.rig.state(e).source)
	case label == "Show to channel":
		h.rig.wait("the answer in the channel", func() bool { return len(h.rig.state(e).follows) == 1 })
		return h.tell("in the channel", h.rig.state(e).follows[0])
	}
	text := h.answer(e)
	if list := h.last.message.Components; len(list) > 0 && len(list[0].Components[0].Options) > 0 {
		text += "  choices:"
		for _, o := range list[0].Components[0].Options {
			text += " " + o.Label + ";"
		}
		text += "\n"
	}
	return text
}

func (h *hour) choose(who, label, _ string) string {
	list := h.last.message.Components
	require.NotEmpty(h.t, list)
	for _, o := range list[0].Components[0].Options {
		if o.Label == label {
			return h.answer(h.send(h.pressed(pressed{kind: kindComponent, guild: theGuild, source: h.last, data: map[string]any{
				"component_type": typeSelect, "custom_id": list[0].Components[0].CustomID, "values": []string{o.Value},
			}}, who)))
		}
	}
	h.t.Fatalf("no choice %q", label)
	return ""
}

func (h *hour) follow(who, entry, text string) string {
	f := h.rig.form(h.send(h.pressed(h.rig.pressing(h.shown[entry], "Follow up"), who)))
	return h.answer(h.rig.fillAs(f, map[string]string{inputText: text}, who))
}

// correct takes the menu. Where the correction is kept, its maker is told, and
// the wrong answer is marked.
func (h *hour) correct(who, entry, text string) string {
	wrong := h.shown[entry]
	e := h.send(h.pressed(pressed{kind: kindCommand, guild: theGuild, data: map[string]any{
		"id": "823456789012345678", "name": menuCorrect, "type": commandMessage, "target_id": wrong.id,
		"resolved": map[string]any{"messages": map[string]any{wrong.id: map[string]any{
			"id": wrong.id, "type": 0, "channel_id": theChannel, "content": "", "author": userBody(theBot),
			"embeds": []map[string]any{{"footer": map[string]any{"text": wrong.message.Embeds[0].Footer.Text}}},
		}}},
	}}, who))
	if text == "" {
		return h.answer(e)
	}
	told := h.answer(h.rig.fillAs(h.rig.form(e), map[string]string{inputText: text}, who))
	told += h.tell("in the channel", h.rig.replyTo(theChannel, wrong.id))
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, m := range h.channels[theChannel] {
		if m.id == wrong.id {
			told += h.tell("the wrong answer changes", m.copy())
		}
	}
	return told
}

// kill ends the program as soon as it has begun the work, and starts it again.
func (h *hour) kill(who, text, _ string) string {
	h.mu.Lock()
	h.typed = nil
	h.mu.Unlock()
	asked := h.say(said{guild: theGuild, maker: who, text: atBot + text})
	h.rig.wait("the work", func() bool {
		h.mu.Lock()
		defer h.mu.Unlock()
		return len(h.typed) > 0
	})
	require.NoError(h.t, h.child.Process.Kill())
	_ = h.child.Wait()
	h.forget()
	h.start()
	return h.tell("in the channel", h.rig.replyTo(theChannel, asked))
}
