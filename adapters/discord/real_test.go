package discord

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// realService is the service of the program, on a daybook of its own.
func realService(t testing.TB, specs func(*daybook.Book) []catalogue.Spec, shop *stock.Workshop) (*bot.Service, *daybook.Book) {
	t.Helper()
	book, err := daybook.Open(context.Background(), filepath.Join(t.TempDir(), "daybook.db"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = book.Close() })
	return bot.New(bot.Options{Specs: specs(book), Shop: shop, Book: book, Log: slog.New(slog.DiscardHandler), Version: "test", Timeout: patience}), book
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
		for i, ex := range spec.Examples {
			if i > 0 && !testcount.Whole() {
				break
			}
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
		subcommands := 0
		for _, o := range c.Options {
			offered[o.Name] = true
			if o.Type == typeSubcommand {
				subcommands++
				assert.LessOrEqual(t, len(o.Options), mostOptions, "%s %s", c.Name, o.Name)
			}
		}
		spec := m.specs[c.Name]
		if spec != nil && subcommands == 0 {
			assert.LessOrEqual(t, len(c.Options), mostOptions, c.Name)
			for i := range spec.Options {
				if o := &spec.Options[i]; o.Required && !offered[o.Name] {
					t.Errorf("%s does not offer %s", c.Name, o.Name)
				}
			}
		}
		if spec != nil {
			assert.Equal(t, len(spec.Parts), subcommands, c.Name)
		}
		t.Log(c.Name, len(c.Options), "options,", c.size(), "characters", fmt.Sprint(c.Needs))
	}
	var first []string
	for _, c := range m.commands {
		if c.Name == "collet" {
			for _, o := range c.Options[:5] {
				first = append(first, o.Name)
			}
		}
	}
	assert.Equal(t, "outline size depth alloy thickness", strings.Join(first, " "))
}

// Buttons of real answers after a restart of adapter and service.
func TestRealButtonsAfterRestart(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	path := filepath.Join(t.TempDir(), "daybook.db")
	open := func() (*bot.Service, func()) {
		book, err := daybook.Open(context.Background(), path)
		require.NoError(t, err)
		return bot.New(bot.Options{Specs: testSpecs(), Shop: testShop(), Book: book, Log: slog.New(slog.DiscardHandler), Timeout: patience}), func() { _ = book.Close() }
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

// No field of a form is lost, whatever stands in the last one.
func TestRealForms(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	ids := func(f *modal) string {
		var list []string
		for _, row := range f.Components {
			list = append(list, row.Component.CustomID)
		}
		return strings.Join(list, " ")
	}
	kinds := func(f *modal) (list []int) {
		for _, label := range f.Components {
			list = append(list, label.Component.Type)
		}
		return list
	}
	f := r.form(r.slash("dome", arg{"form", true}))
	assert.Contains(t, ids(f), "hollows")
	m := r.answered(r.fill(f, map[string]string{"size": "20", "height": "6", "hollows": "30 28 25 22", inputRest: "22ga sterling"}))
	assert.Contains(t, m.text(), "hollows 30 28 25 22")
	assert.NotContains(t, m.text(), "This would work")
	f = r.form(r.slash("collet", arg{"form", true}))
	assert.Equal(t, "stone: depth alloy thickness rest:", ids(f))
	m = r.answered(r.fill(f, map[string]string{stoneField: "oval 8x6", "depth": "4", "alloy": "sterling", "thickness": "22ga"}))
	r.wantText(m, "oval", "depth 4", "22")
	f = r.form(r.slash("collet", arg{"outline", "oval"}, arg{"form", true}))
	m = r.answered(r.fill(f, map[string]string{"size": "8x6", "depth": "4", inputRest: "oval depth 5 22ga"}))
	r.wantText(m, "depth is given twice, as 4 and as 5")
	f = r.form(r.slash("collet", arg{"size", "8x6"}, arg{"form", true}))
	assert.Equal(t, "outline depth alloy thickness rest:", ids(f))
	assert.Equal(t, []int{typeSelect, typeInput, typeInput, typeSelect, typeInput}, kinds(f))
}

// Subcommands set what their request reads.
func TestSubcommands(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	sub := func(name, part string, args ...arg) pressed {
		p := slash(name, args...)
		data := p.data.(map[string]any)
		data["options"] = []map[string]any{{"name": part, "type": typeSubcommand, "options": data["options"]}}
		p.permissions = int64(permManageGuild)
		return p
	}
	send := func(p pressed) *shown { return r.answered(r.discord.send(p)) }
	r.wantText(send(sub("bench", "set", arg{"alloy", "brass"})), "kept on your bench", "brass")
	r.wantText(send(sub("bench", "show")), "alloy brass")
	r.wantText(send(sub("daybook", "mine")), "stored about you")
	r.wantText(send(sub("daybook", "list", arg{"maker", theMaker})), "no. ")
	r.wantText(send(sub("tune", "show")), "You have no correction")
	r.wantText(send(sub("bench", "answers", arg{"answers", "off"})), "From now on I answer nothing")
	// Obeyed on every way in, but for what keeps or forgets something, and first aid.
	r.wantText(r.answered(r.slash("ask", arg{"line", "collet oval 8x6"})), "turned my answers off")
	r.discord.say(inGuild(atBot + "collet oval 8x6 22ga sterling"))
	r.wantText(send(sub("bench", "answers", arg{"answers", "commands"})), "only commands")
	r.wantText(r.answered(r.slash("ask", arg{"line", "collet oval 8x6"})), "daybook no. ")
	r.discord.say(inGuild(atBot + "collet oval 8x6 22ga sterling"))
	time.Sleep(500 * time.Millisecond) // long enough to see a wrong answer
	r.discord.mu.Lock()
	defer r.discord.mu.Unlock()
	for _, m := range r.discord.channels[theChannel] {
		assert.Nil(t, m.message.Reference, "a mention was answered")
	}
}

// What a language suggests is stated as assumed, and a bench outranks it.
func TestLocale(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	p := slash("ask", arg{"line", "collet oval 8x6 22ga sterling"})
	p.locale = "en-US"
	m := r.answered(r.discord.send(p))
	assert.Contains(t, m.message.Embeds[0].Title, " in")
	r.wantText(r.answered(r.press(m, "Working")), "paper letter, units inch (all: your app is set to US English)")
	r.answered(r.slash("ask", arg{"line", "bench units mm"}))
}

func TestMenus(t *testing.T) {
	t.Parallel()
	r, book := realRig(t)
	author := "723456789012345670"
	menu := func(name, id, text string, embeds ...map[string]any) pressed {
		return pressed{kind: kindCommand, guild: theGuild, data: map[string]any{
			"id": "823456789012345678", "name": name, "type": commandMessage, "target_id": id,
			"resolved": map[string]any{"messages": map[string]any{id: map[string]any{
				"id": id, "type": 0, "channel_id": theChannel, "content": text, "author": userBody(author), "embeds": embeds,
			}}},
		}}
	}
	m := r.answered(r.discord.send(menu(menuAsk, "663456789012345678", "would a collet for an oval 8x6 work in 22ga sterling?")))
	assert.True(t, m.ephemeral)
	r.wantText(m, "I read what <@723456789012345670> wrote", "daybook no. 1")
	assert.Empty(t, m.message.Mentions.Users)
	e, err := book.ByID(context.Background(), 1)
	require.NoError(t, err)
	assert.Empty(t, e.Typed, "another's words are kept")
	r.wantText(r.answered(r.discord.send(menu(menuAsk, "663456789012345678", ""))), "no words")
	_, err = book.ForgetMaker(context.Background(), Platform, author)
	require.NoError(t, err)
	_, err = book.ByID(context.Background(), 1)
	require.ErrorIs(t, err, daybook.ErrNotFound, "its author is forgotten, and what was read from their words is not")

	wrong := r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}))
	footer := map[string]any{"footer": map[string]any{"text": wrong.message.Embeds[0].Footer.Text}}
	forged := menu(menuCorrect, wrong.id, "", footer)
	forged.permissions = int64(permManageGuild)
	r.wantText(r.answered(r.discord.send(forged)), "not one of my answers")
	author = theBot
	p := menu(menuCorrect, wrong.id, "", footer)
	r.wantText(r.answered(r.discord.send(p)), "for teachers")
	p.permissions = int64(permManageGuild)
	f := r.form(r.discord.send(p))
	fill := pressed{kind: kindForm, guild: theGuild, permissions: int64(permManageGuild), data: map[string]any{"custom_id": f.CustomID, "components": []any{
		map[string]any{"type": 18, "component": map[string]any{"type": typeInput, "custom_id": inputText, "value": "the rim is 0.2 mm longer"}}}}}
	r.wantText(r.answered(r.discord.send(fill)), "its maker has been told")
	r.wantText(r.answered(r.discord.send(menu(menuCorrect, "663456789012345678", "hello"))), "not one of my answers")
}

// A follow-up goes on from the answer whose button was pressed.
func TestFollowUp(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	m := r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}, arg{"private", true}))
	r.answered(r.slash("ask", arg{"line", "band 7 width 4 18ga copper"}))
	f := r.form(r.press(m, "Follow up"))
	again := r.answered(r.fill(f, map[string]string{inputText: "and in 20 gauge?"}))
	r.wantText(again, "oval", "20")
	assert.True(t, again.ephemeral, "a private answer is followed up in private")
}
