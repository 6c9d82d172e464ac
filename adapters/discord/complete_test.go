package discord

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"guildhand/bot/requests"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
)

func TestCompletion(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	tests := []struct {
		name, opt string
		typed     any
		want      string // the first values
		count     int
	}{
		{"plate", "metal", "", "metal-00 metal-01", 25},
		{"plate", "metal", "metal-3", "metal-30 metal-31", 10},
		{"plate", "metal", "M07", "metal-07", 1},
		{"plate", "metal", "9", "metal-09 metal-19", 4},
		{"plate", "metal", "zinc", "", 0},
		{"plate", "size", "", "8x6 10x8 8", 3},
		{"plate", "size", "10", "10x8", 1},
		{"plate", "block", "", testShop().Blocks[0].Name + " " + testShop().Blocks[1].Name, len(testShop().Blocks)},
		{"plate", "ring", "6", "6 6 1/2", 2},
		{"plate", "lean", "", "8.5 14", 2},
		{"plate", "line", "", "8x6 10x8 8 metal-00", 25},
		{"plate", "line", "plate ", "plate 8x6 plate 10x8", 25},
		{"ask", "line", "plate ", "plate 8x6 plate 10x8", 25},
		{"plate", "line", "8x6 lean 8", "8x6 lean 8.5", 1},
		{"ask", "line", "pl", "plate", 1},
		{"ask", "line", strings.Repeat("x", 99) + " ", "", 0},
		{"gone", "size", "", "", 0},
	}
	for _, test := range tests {
		t.Run(test.name+" "+test.opt+" "+fmt.Sprint(test.typed), func(t *testing.T) {
			list, took := r.complete(test.name, test.opt, test.typed)
			var values []string
			for _, c := range list {
				values = append(values, fmt.Sprint(c.Value))
			}
			if got := strings.Join(values, " "); len(list) != test.count || !strings.HasPrefix(got, test.want) {
				t.Errorf("%d choices, %q; want %d, %q", len(list), got, test.count, test.want)
			}
			if testcount.Long() { // a busy machine has no pace to test
				assert.Less(t, took, 100*time.Millisecond)
			}
		})
	}
}

// Every option of the real catalogue that is completed offers something, well
// within the time.
func TestRealCompletion(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	specs := requests.All(nil)
	service, _ := realService(t, requests.All, testShop())
	r := start(t, s, service, s.config())
	count, slowest := 0, time.Duration(0)
	for _, c := range r.adapter.menu.commands {
		for _, o := range c.Options {
			if !o.Autocomplete {
				continue
			}
			count++
			list, took := r.complete(c.Name, o.Name, "")
			slowest = max(slowest, took)
			if len(list) == 0 && o.Name != optLine {
				t.Errorf("%s %s: %d choices after %s", c.Name, o.Name, len(list), took)
			}
		}
	}
	t.Logf("%d options are completed, the slowest after %s", count, slowest)
	if testcount.Long() {
		assert.Less(t, slowest, 100*time.Millisecond)
	}
	if count < len(specs) {
		t.Errorf("%d options only", count)
	}
}

// Entries are completed by number and headline: a teacher's from the channel,
// anybody else's own.
func TestEntriesAreCompleted(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	r.answered(r.slash("ask", arg{"line", "collet oval 8x6 22ga sterling"}))
	other := slash("ask", arg{"line", "band us 7 width 4 1.5mm sterling"})
	other.maker = "723456789012345670"
	r.answered(r.discord.send(other))
	offered := func(part, option, typed string, permissions int64) []choice {
		e := r.discord.send(pressed{kind: kindComplete, guild: theGuild, permissions: permissions, data: map[string]any{
			"id": "823456789012345678", "name": "daybook", "type": 1, "options": []map[string]any{{
				"name": part, "type": typeSubcommand,
				"options": []map[string]any{{"name": option, "type": typeInteger, "value": typed, "focused": true}},
			}},
		}})
		r.wait("the choices", func() bool { return r.state(e).ack == replyChoices })
		return r.state(e).choices
	}
	all := offered("show", "number", "", int64(permManageGuild))
	if assert.Len(t, all, 2) {
		assert.Contains(t, all[0].Name, "2: Cut 5")
		assert.EqualValues(t, 2, all[0].Value)
	}
	byWord := offered("check", "number", "oval", int64(permManageGuild))
	if assert.Len(t, byWord, 1) {
		assert.Contains(t, byWord[0].Name, "for an oval")
	}
	own := offered("show", "number", "", 0)
	if assert.Len(t, own, 1) {
		assert.EqualValues(t, 1, own[0].Value)
	}
	correction := offered("amend", "amend", "1 the rim is longer", int64(permManageGuild))
	if assert.Len(t, correction, 1) {
		assert.Equal(t, "1 the rim is longer", correction[0].Value)
	}
	assert.Empty(t, offered("unpin", "number", "", int64(permManageGuild)), "a rule's number is no entry's")
}
