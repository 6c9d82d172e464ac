package matrix

import (
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/bot/daybook/daybooktest"
)

// TestTwoOfOneAccount: a second bot on the same store is refused, whatever
// daybook they have, and disturbs nothing. When the first has ended, or was
// killed, the store is free.
func TestTwoOfOneAccount(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	child := &childBot{t: t, log: filepath.Join(t.TempDir(), "log"), c: childOf{
		Config: botConfig(t, h), Book: filepath.Join(t.TempDir(), "daybook.db"),
	}}
	child.start()
	t.Cleanup(func() { child.kill() })
	ana := newMaker(t, h, "ana")
	room := ana.room(encryptionBuilt)
	ana.ask(room, "!gauge 20ga")

	second := func(open func() (*daybook.Book, error)) {
		t.Helper()
		book, err := open()
		if err != nil {
			t.Fatal(err)
		}
		defer book.Close()
		log := testLog(t)
		a, err := New(child.c.Config, newService(book, log, bot.Limits{}, startSpecs(book)...), log)
		if err != nil {
			t.Fatal(err)
		}
		if err := a.Run(t.Context()); err == nil || !strings.Contains(err.Error(), "another guildhand works with the matrix store") {
			t.Errorf("the second bot: %v", err)
		}
	}
	second(func() (*daybook.Book, error) { return daybook.Open(t.Context(), child.c.Book) })
	t.Run("PostgreSQL", func(t *testing.T) {
		address := daybooktest.NewSchema(t, "two bots with one daybook on PostgreSQL are not tested")
		second(func() (*daybook.Book, error) { return daybook.OpenPostgres(t.Context(), address) })
	})
	if _, text := ana.ask(room, "!gauge 18ga"); !strings.HasPrefix(text.Body, "18 ga") {
		t.Errorf("the first bot: %q", text.Body)
	}

	child.kill()
	b := &runningBot{t: t, cfg: child.c.Config, book: child.c.Book}
	b.start()
	t.Cleanup(func() { b.stop() })
	if _, text := ana.ask(room, "!gauge 16ga"); !strings.HasPrefix(text.Body, "16 ga") {
		t.Errorf("the next bot: %q", text.Body)
	}
	ana.noRepeats(room)
}
