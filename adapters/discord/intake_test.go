package discord

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guildhand/bot"
)

func TestIntake(t *testing.T) {
	path := filepath.Join(t.TempDir(), "intake")
	open := func() *intake {
		t.Helper()
		in, err := openIntake(path)
		if err != nil {
			t.Fatal(err)
		}
		return in
	}
	in := open()
	for _, id := range []string{"1", "2", "3"} {
		r := bot.Request{Message: id, Text: "batch " + id, Route: mustJSON(route{Token: "t" + id}), At: time.Now(), Options: map[string]string{"count": id}}
		r.Who.Maker, r.Who.Teacher = theMaker, true
		r.Progress = func(int, int, string) {}
		if err := in.add(r); err != nil {
			t.Fatal(err)
		}
	}
	for _, id := range []string{"2", "99"} {
		if err := in.done(id); err != nil {
			t.Fatal(err)
		}
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	// Killed in the middle of a line.
	if _, err := in.file.WriteString(`{"in":{"message":"4"`); err != nil {
		t.Fatal(err)
	}
	in = open()
	left := in.left()
	if len(left) != 2 {
		t.Fatalf("%d left, want 2", len(left))
	}
	for _, r := range left {
		if r.Text != "batch "+r.Message || !r.Who.Teacher || r.Options["count"] != r.Message || !strings.Contains(string(r.Route), "t"+r.Message) {
			t.Errorf("read back as %+v", r)
		}
		if err := in.done(r.Message); err != nil {
			t.Fatal(err)
		}
	}
	if err := in.close(); err != nil {
		t.Fatal(err)
	}
	if in = open(); len(in.left()) != 0 {
		t.Errorf("%d left after all are done", len(in.left()))
	}
	// Nothing of what is done stays in it.
	if err := in.add(bot.Request{Message: "5", Text: "remark"}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Size() == 0 {
		t.Errorf("an open request takes %d bytes, %v", info.Size(), err)
	}
	if err := in.done("5"); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Size() != 0 {
		t.Errorf("%d bytes, %v", info.Size(), err)
	}
}
