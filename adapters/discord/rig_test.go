package discord

import (
	"bytes"
	"context"
	"errors"
	"guildhand/bot/delivery"
	"log/slog"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rig is an adapter that runs against a stand-in.
type rig struct {
	t       *testing.T
	discord *standIn
	service Service
	adapter *Adapter
	log     *lockedBuffer
	stop    func() error
}

// patience is how long a test waits for what must come: under the race detector, on
// a busy machine.
const patience = 4 * time.Minute

// quick shortens the adapter's waiting, so that tests need not wait. What is
// slow on a busy machine is neither deferred nor too late, unless a test is about
// that.
var quick = pace{
	deferAfter: time.Minute, window: time.Minute, redeliver: 200 * time.Millisecond,
	progress:  delivery.Pace{After: 50 * time.Millisecond, Every: 50 * time.Millisecond, Seldom: 100 * time.Millisecond},
	reopenMax: 200 * time.Millisecond, identify: 20 * time.Millisecond, client: 5 * time.Second,
}

// lockedBuffer is a log that is written to and read at the same time.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

func (s *standIn) config() Config {
	return Config{Token: s.token, ApplicationID: s.appID, FreshFor: time.Hour}
}

// start runs an adapter against the stand-in and waits until it is connected.
func start(t *testing.T, s *standIn, service Service, config Config) *rig {
	t.Helper()
	return startAt(t, s, service, config, quick)
}

func startAt(t *testing.T, s *standIn, service Service, config Config, p pace) *rig {
	t.Helper()
	r := launch(t, s, service, config, p)
	r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
	return r
}

func launch(t *testing.T, s *standIn, service Service, config Config, p pace) *rig {
	t.Helper()
	log := &lockedBuffer{}
	a, err := New(config, Options{
		Service: service, Shop: testShop(), Transport: s.transport(), pace: p,
		Journal: filepath.Join(t.TempDir(), "intake"),
		Log:     slog.New(slog.NewTextHandler(log, &slog.HandlerOptions{Level: slog.LevelDebug})),
	})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	r := &rig{t: t, discord: s, service: service, adapter: a, log: log}
	var once sync.Once
	var result error
	r.stop = func() error {
		once.Do(func() {
			cancel()
			select {
			case result = <-ended:
			case <-time.After(15 * time.Second):
				result = errors.New("the adapter does not end")
			}
		})
		return result
	}
	t.Cleanup(func() {
		assert.NoError(t, r.stop())
		r.noSecrets()
		if t.Failed() {
			t.Logf("log:\n%s", log.String())
		}
	})
	return r
}

// noSecrets: no log holds the bot's token, a token of an interaction, or what
// was typed.
func (r *rig) noSecrets() {
	r.t.Helper()
	text := r.log.String()
	for _, secret := range []string{r.discord.token, "-secret", "8x6", "remark-of-the-maker", "secret of the asker"} {
		if strings.Contains(text, secret) {
			r.t.Errorf("the log holds %q", secret)
		}
	}
}

// wait waits for a condition, with the stand-in locked while it is looked at
// by the condition itself.
func (r *rig) wait(what string, done func() bool) {
	r.t.Helper()
	require.Eventually(r.t, done, patience, 5*time.Millisecond, what) // with the race detector, on a busy machine
}

// state copies an interaction and its messages under the stand-in's lock, since
// an edit changes a message in place.
func (r *rig) state(e *interactionState) interactionState {
	r.discord.mu.Lock()
	defer r.discord.mu.Unlock()
	now := *e
	now.original, now.source = e.original.copy(), e.source.copy()
	now.follows = nil
	for _, m := range e.follows {
		now.follows = append(now.follows, m.copy())
	}
	return now
}

func (m *shown) copy() *shown {
	if m == nil {
		return nil
	}
	now := *m
	return &now
}

// answered waits for the final message of an interaction.
func (r *rig) answered(e *interactionState) *shown {
	r.t.Helper()
	var m shown
	r.wait("an answer to "+e.id, func() bool {
		r.discord.mu.Lock()
		defer r.discord.mu.Unlock()
		if e.original == nil || e.original.loading || len(e.original.message.Embeds) == 0 {
			return false
		}
		m = *e.original
		return true
	})
	return &m
}

// arg is one option of a slash command as a person fills it in.
type arg struct {
	name  string
	value any
}

// slash presses a command in a channel of the guild.
func (r *rig) slash(name string, args ...arg) *interactionState {
	return r.discord.send(slash(name, args...))
}

func slash(name string, args ...arg) pressed {
	options := []map[string]any{}
	for _, a := range args {
		kind := typeString
		switch a.value.(type) {
		case bool:
			kind = typeBoolean
		case float64, int:
			kind = typeNumber
		}
		options = append(options, map[string]any{"name": a.name, "type": kind, "value": a.value})
	}
	return pressed{kind: 2, guild: theGuild, data: map[string]any{"id": "823456789012345678", "name": name, "type": 1, "options": options}}
}

// press presses a button of a message.
func (r *rig) press(m *shown, label string) *interactionState {
	r.t.Helper()
	return r.discord.send(r.pressing(m, label))
}

func (r *rig) pressing(m *shown, label string) pressed {
	r.t.Helper()
	for _, row := range m.message.Components {
		for _, c := range row.Components {
			if c.Type == typeButton && strings.HasPrefix(c.Label, label) {
				return pressed{kind: 3, guild: theGuild, source: m,
					data: map[string]any{"component_type": typeButton, "custom_id": c.CustomID}}
			}
		}
	}
	r.t.Fatalf("the message has no button %q: %s", label, mustJSON(m.message.Components))
	return pressed{}
}

// choose takes an option of the message's select.
func (r *rig) choose(m *shown, label string) *interactionState {
	r.t.Helper()
	for _, row := range m.message.Components {
		for _, c := range row.Components {
			for _, o := range c.Options {
				if o.Label == label {
					return r.discord.send(pressed{kind: 3, guild: theGuild, source: m,
						data: map[string]any{"component_type": typeSelect, "custom_id": c.CustomID, "values": []string{o.Value}}})
				}
			}
		}
	}
	r.t.Fatalf("the message has no select with %q: %s", label, mustJSON(m.message.Components))
	return nil
}

// fill sends a form, with the fields' values by their ids; fields that are not
// named keep what they were opened with.
func (r *rig) fill(f *modal, values map[string]string) *interactionState {
	return r.fillAs(f, values, theMaker)
}

// fillAs sends a form as somebody else.
func (r *rig) fillAs(f *modal, values map[string]string, who string) *interactionState {
	rows := []any{}
	for n, label := range f.Components {
		c := label.Component
		v, ok := values[c.CustomID]
		if !ok {
			v = c.Value
		}
		field := map[string]any{"type": c.Type, "id": 2*n + 2, "custom_id": c.CustomID, "value": v}
		if c.Type == typeSelect {
			delete(field, "value")
			field["values"] = []string{}
			if v != "" {
				field["values"] = []string{v}
			}
		}
		rows = append(rows, map[string]any{"type": typeLabel, "id": 2*n + 1, "component": field})
	}
	p := pressed{kind: 5, guild: theGuild, maker: who, data: map[string]any{"custom_id": f.CustomID, "components": rows}}
	if who == people["tess"] {
		p.permissions = int64(permManageGuild)
	}
	return r.discord.send(p)
}

// form waits for the form that answers an interaction.
func (r *rig) form(e *interactionState) *modal {
	r.t.Helper()
	var f *modal
	r.wait("a form", func() bool { f = r.state(e).form; return f != nil })
	return f
}

// complete types into an option and gives what is offered.
func (r *rig) complete(name, opt string, typed any) ([]choice, time.Duration) {
	r.t.Helper()
	start := time.Now()
	e := r.discord.send(pressed{kind: 4, guild: theGuild, data: map[string]any{
		"id": "823456789012345678", "name": name, "type": 1,
		"options": []map[string]any{{"name": opt, "type": typeString, "value": typed, "focused": true}},
	}})
	var ack interactionState
	for end := time.Now().Add(5 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if ack = r.state(e); ack.ack != 0 {
			break
		}
	}
	if ack.ack != replyChoices {
		r.t.Fatalf("completion of %s %s was answered with %d", name, opt, ack.ack)
	}
	return ack.choices, ack.ackAt.Sub(start)
}

// text is all that a message says.
func (m *shown) text() string {
	var b strings.Builder
	b.WriteString(m.message.Content)
	for _, e := range m.message.Embeds {
		b.WriteString("\n" + e.Title + "\n" + e.Description)
		if e.Footer != nil {
			b.WriteString("\n" + e.Footer.Text)
		}
	}
	return b.String()
}

// wantText fails unless the message says all of it.
func (r *rig) wantText(m *shown, parts ...string) {
	r.t.Helper()
	for _, p := range parts {
		if !strings.Contains(strings.ToLower(m.text()), strings.ToLower(p)) { // sentences begin with a capital here
			r.t.Errorf("the message lacks %q:\n%s", p, m.text())
		}
	}
}
