package discord

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
	"guildhand/calc/stock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// realService is the service of the program, on a daybook of its own.
func realService(t testing.TB, specs func(*daybook.Book) []catalogue.Spec, shop *stock.Workshop) (*bot.Service, *daybook.Book) {
	t.Helper()
	book, err := daybook.Open(context.Background(), filepath.Join(t.TempDir(), "daybook.db"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = book.Close() })
	return bot.New(bot.Options{Specs: specs(book), Shop: shop, Book: book, Log: slog.New(slog.DiscardHandler), Version: "test"}), book
}

// asOptions gives a parsed line as a person would fill in the command.
func asOptions(p reading.Parsed) []arg {
	var args []arg
	for i := range p.Spec.Options {
		o := &p.Spec.Options[i]
		v, ok := p.Args[o.Name]
		if !ok || v.Source != catalogue.Typed {
			continue
		}
		switch o.Kind {
		case catalogue.Angle, catalogue.Number, catalogue.Percent, catalogue.Integer:
			args = append(args, arg{o.Name, v.Number})
		case catalogue.Flag:
			args = append(args, arg{o.Name, true})
		default:
			args = append(args, arg{o.Name, v.Text})
		}
	}
	return args
}

// Every request of the catalogue, by every example of it: typed with /ask,
// typed into its own command, and by the command's options. All three give the
// same answer.
func TestEveryRequest(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	specs := requests.All(nil)
	service, _ := realService(t, requests.All, testShop())
	r := start(t, s, service, s.config())
	examples, pictures := 0, 0
	// headline waits for the answer and gives what is compared of it.
	headline := func(p pressed) string {
		p.permissions = int64(permManageGuild)
		// One maker may not ask everything at once.
		p.maker = fmt.Sprintf("7234567890123%05d", examples)
		m := r.answered(s.send(p))
		e := m.message.Embeds[0]
		if e.Title == "" {
			return "refused: " + e.Description
		}
		for i, a := range m.message.Attachments {
			if a.Description == "" {
				t.Errorf("%s has no alternative text", m.files[i].name)
			}
			if m.files[i].mime == answer.PNG {
				pictures++ // its bytes are held to be a PNG where calls are judged
			}
		}
		return e.Title + "\n" + e.Description
	}
	for i := range specs {
		spec := &specs[i]
		if len(spec.Examples) == 0 {
			t.Errorf("%s has no example", spec.Name)
		}
		for _, ex := range spec.Examples {
			examples++
			t.Run(ex.Line, func(t *testing.T) {
				typed := headline(slash("ask", arg{"line", ex.Line}))
				parsed, err := reading.Parse(specs, ex.Line, reading.Lookups{Shop: testShop()})
				require.NoError(t, err)
				if spec.Keeps {
					return // it depends on what was kept, and changes it
				}
				if strings.HasPrefix(typed, "refused: ") {
					t.Errorf("the example is %s", typed)
				}
				rest := strings.TrimSpace(strings.TrimPrefix(ex.Line, spec.Name))
				if rest != "" {
					if got := headline(slash(spec.Name, arg{"line", rest})); got != typed {
						t.Errorf("typed into the command: %q, and with /ask: %q", got, typed)
					}
				}
				assert.Equal(t, typed, headline(slash(spec.Name, asOptions(parsed)...)))
			})
		}
	}
	t.Logf("%d requests, %d examples, %d pictures", len(specs), examples, pictures)
	if pictures == 0 {
		t.Error("no answer had a picture")
	}
	if examples < len(specs) {
		t.Errorf("%d examples of %d requests", examples, len(specs))
	}
}

// The commands of the real catalogue are such as Discord takes.
func TestRealCommands(t *testing.T) {
	m, err := newMenu(requests.All(nil), testShop())
	require.NoError(t, err)
	assert.Empty(t, badCommands(m.commands))
	for _, c := range m.commands {
		offered := map[string]bool{}
		for _, o := range c.Options {
			offered[o.Name] = true
		}
		if spec := m.specs[c.Name]; spec != nil {
			for i := range spec.Options {
				if o := &spec.Options[i]; (o.Form || o.Required) && !offered[o.Name] {
					t.Errorf("%s does not offer %s", c.Name, o.Name)
				}
			}
		}
		t.Log(c.Name, len(c.Options), "options,", c.size(), "characters", fmt.Sprint(c.Needs))
	}
}

// Buttons of real answers after a restart of adapter and service.
func TestRealButtonsAfterRestart(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	path := filepath.Join(t.TempDir(), "daybook.db")
	open := func() (*bot.Service, func()) {
		book, err := daybook.Open(context.Background(), path)
		require.NoError(t, err)
		return bot.New(bot.Options{Specs: testSpecs(), Shop: testShop(), Book: book, Log: slog.New(slog.DiscardHandler)}), func() { _ = book.Close() }
	}
	service, done := open()
	first := start(t, s, service, s.config())
	m := first.answered(first.slash("plate", arg{"size", "8x6"}, arg{"thickness", "20ga"}))
	require.NoError(t, first.stop())
	done()
	s.forget()
	service, done = open()
	defer done()
	r := start(t, s, service, s.config())
	r.wantText(r.answered(r.press(m, "Working")), "1. mark it")
	for _, label := range []string{"1:1 PDF", "SVG", "Other files"} {
		a := r.answered(r.press(m, label))
		if len(a.files) != 1 || len(a.files[0].data) == 0 {
			t.Errorf("%s: %d files", label, len(a.files))
		}
	}
	r.wantText(r.answered(r.choose(r.answered(r.press(m, "Another seam")), "thickness 0.8mm")), "of 0.8mm")
	e := r.press(m, "In inches")
	r.wait("the change", func() bool { return r.state(e).source.edits == 1 })
	r.wantText(m, "1.000 in")
	require.NoError(t, r.stop())
}

func keyOf(e *interactionState) daybook.Key {
	return daybook.Key{Platform: Platform, Channel: e.channel, Message: e.id}
}

// Every request with measurements asks for them in a form.
func TestRealForms(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	service, _ := realService(t, requests.All, testShop())
	r := start(t, s, service, s.config())
	forms := 0
	for _, spec := range r.adapter.menu.list {
		wanted := map[string]bool{}
		for _, o := range formOptions(&spec) {
			wanted[o.Name] = true
		}
		if len(wanted) == 0 {
			continue
		}
		forms++
		f := r.form(r.slash(spec.Name, arg{"form", true}))
		var fields []string
		measured := false
		for _, row := range f.Components {
			id := row.Components[0].CustomID
			fields = append(fields, id)
			measured = measured || wanted[id]
		}
		t.Log(spec.Name, fields)
		assert.True(t, measured, "the form of %s asks for no measurement: %v", spec.Name, fields)
	}
	if forms == 0 {
		t.Error("no request has a form")
	}
}
