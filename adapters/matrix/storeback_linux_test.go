//go:build goolm

package matrix

import (
	"guildhand/bot"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// TestStoreOutOfReach: the bot's store takes no writes for a while, as on a disk
// that turned read-only. Where rooms are encrypted nothing can be said then, and
// nothing that was asked is lost: no message, and no key.
func TestStoreOutOfReach(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	clear, room := ana.room(false), ana.room(true)
	ana.ask(clear, "!gauge 20ga")
	ana.ask(room, "!gauge 20ga")
	protect := func(how string) error {
		return exec.Command("chattr", how, b.cfg.StorePath, b.cfg.StorePath+"-wal").Run()
	}
	if err := protect("+i"); err != nil {
		t.Skipf("files can't be protected here: %v", err)
	}
	locked := true
	unlock := func() {
		if locked {
			locked = false
			if err := protect("-i"); err != nil {
				t.Error(err)
			}
		}
	}
	t.Cleanup(unlock)
	if err := os.WriteFile(b.cfg.StorePath, nil, 0); err == nil {
		t.Skip("files can't be protected here")
	}
	if _, text := ana.ask(clear, "!gauge 10ga"); !strings.HasPrefix(text.Body, bot.CantRecord) {
		t.Errorf("in the clear: %q", text.Body)
	}
	asked := []question{askGauge(ana, room, 1)}
	if err := ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room); err != nil {
		t.Fatal(err)
	}
	asked = append(asked, askGauge(ana, room, 2), askGauge(ana, room, 3)) // with another key
	time.Sleep(2 * time.Second)                                           // an answer would have come by now
	ana.mu.Lock()
	for _, q := range asked {
		if len(ana.replies(ana.seen, room, q.id)) > 0 {
			t.Error("answered without the store")
		}
	}
	ana.mu.Unlock()
	unlock()
	answered(t, ana, room, asked, false)
	ana.noPlainText(room)
}
