package matrix

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot"
	"guildhand/bot/daybook/daybooktest"
	"guildhand/calc/testcount"
)

// TestFullDisk: the disk with the daybook and the bot's keys fills up. It says so
// in plain words, and answers by itself when there is space again.
func TestFullDisk(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	dir := daybooktest.SmallDisk(t, "24m", "the daybook's own tests stand in for a part of it")
	cfg := botConfig(t, h)
	cfg.StorePath = filepath.Join(dir, "matrix.db")
	b := &runningBot{t: t, cfg: cfg, book: filepath.Join(dir, "daybook.db")}
	b.start()
	t.Cleanup(func() { b.stop() })
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		if encrypted != encryptionBuilt && !testcount.Long() {
			t.Skip("GUILDHAND_LONG is not set: one kind of room is enough")
		}
		m := ana.on(t)
		room := m.room(encrypted)
		m.ask(room, "!gauge 20ga")
		ballast := filepath.Join(dir, "ballast")
		daybooktest.Fill(t, ballast)
		for n, refused := 0, 0; refused < 3; n++ {
			_, text := m.ask(room, fmt.Sprintf("!gauge %dga", 10+n%20))
			if strings.HasPrefix(text.Body, bot.CantRecord) {
				refused++
			} else if n > 300 {
				t.Fatal("the disk does not fill up")
			}
		}
		if err := os.Remove(ballast); err != nil {
			t.Fatal(err)
		}
		if _, text := m.ask(room, "!gauge 22ga"); !strings.HasPrefix(text.Body, "22 ga") {
			t.Errorf("with space again: %q", text.Body)
		}
		if encrypted {
			m.noPlainText(room)
		}
	})
}
