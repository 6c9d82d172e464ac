package daybook

import (
	"encoding/json"
	"fmt"
	"sync"
	"testing"
	"time"
)

func testForget(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	mine := mustRecord(t, b, sample("1"))
	elsewhere := sample("2")
	elsewhere.Guild, elsewhere.Key.Channel = "g2", "c9"
	mineToo := mustRecord(t, b, elsewhere)
	direct := sample("5")
	direct.Guild, direct.Key.Channel = "", "chat-with-m1"
	mustRecord(t, b, direct)
	noErr(t, b.SetSetting(ctx, Scope{ChannelScope, "discord", "chat-with-m1"}, "paper", "letter", "m1"))
	others := sample("3")
	others.Maker = "m2"
	others = mustRecord(t, b, others)
	namesake := sample("4")
	namesake.Key.Platform = "matrix"
	namesake = mustRecord(t, b, namesake)

	channel := Scope{ChannelScope, "discord", "c1"}
	noErr(t, b.SetSetting(ctx, Scope{MakerScope, "discord", "m1"}, "metal", "sterling", "m1"))
	noErr(t, b.SetSetting(ctx, channel, "paper", "a4", "m1"))
	noErr(t, b.SetRetention(ctx, "discord", "g1", time.Hour, "m1"))
	_, err := b.KeepCorrection(ctx, Correction{Platform: "discord", Maker: "m1", Alloy: "sterling", Trials: json.RawMessage(`[]`)})
	noErr(t, err)
	_, err = b.Amend(ctx, others.ID, "m1", "thinner", clock.Now())
	noErr(t, err)
	_, err = b.Amend(ctx, mine.ID, "m2", "thicker", clock.Now())
	noErr(t, err)
	_, err = b.PinRule(ctx, channel, "clean first", "m1")
	noErr(t, err)

	data, err := b.MakerData(ctx, "discord", "m1")
	noErr(t, err)
	equal(t, "entries", ids(data.Entries), []int64{mine.ID, mineToo.ID, mineToo.ID + 1})
	equal(t, "the rest", []int{len(data.Amendments), len(data.Settings), len(data.Corrections), len(data.Rules)}, []int{1, 1, 1, 1})

	n, err := b.ForgetMaker(ctx, "discord", "m1")
	equal(t, "forgotten", []any{n, err}, []any{3, nil})

	data, err = b.MakerData(ctx, "discord", "m1")
	noErr(t, err)
	equal(t, "nothing is left", data, MakerData{Settings: map[string]string{}})
	_, err = b.ByID(ctx, mine.ID)
	wantErr(t, "a forgotten entry", err, ErrNotFound)
	all, err := b.Amendments(ctx, mine.ID)
	noErr(t, err)
	equal(t, "amendments of a forgotten entry", len(all), 0)
	all, err = b.Amendments(ctx, others.ID)
	noErr(t, err)
	equal(t, "the amendment stays without a name", []any{all[0].By, all[0].Text}, []any{"", "thinner"})
	rules, err := b.Rules(ctx, channel)
	noErr(t, err)
	equal(t, "the rule stays without a name", []any{rules[0].By, rules[0].Text}, []any{"", "clean first"})
	paper, err := b.Setting(ctx, channel, "paper")
	equal(t, "the channel's paper", []any{paper, err}, []any{"a4", nil})
	for _, id := range []int64{others.ID, namesake.ID} {
		_, err := b.ByID(ctx, id)
		noErr(t, err)
	}

	// No column of any table keeps the id.
	noMention(t, b, "m1", "discord")

	// Ids are never used twice: a button in a room may still carry one.
	last := mustRecord(t, b, sample("1"))
	_, err = b.ForgetMaker(ctx, "discord", "m1")
	noErr(t, err)
	if next := mustRecord(t, b, sample("1")); next.ID <= last.ID {
		t.Errorf("id %d after %d", next.ID, last.ID)
	}
	if _, err := b.ForgetMaker(ctx, "discord", ""); err == nil {
		t.Error("the maker without a name is forgotten")
	}
}

func testForgetEntry(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	kept := mustRecord(t, b, sample("1"))
	direct := sample("2")
	direct.Guild, direct.Key.Channel, direct.Maker = "", "chat-with-m7", "m7"
	gone := mustRecord(t, b, direct)
	_, err := b.Amend(ctx, gone.ID, "teacher", "x", clock.Now())
	noErr(t, err)
	noErr(t, b.ForgetEntry(ctx, gone.ID))
	wantErr(t, "twice", b.ForgetEntry(ctx, gone.ID), ErrNotFound)
	noMention(t, b, "m7", "discord")
	all, err := b.Amendments(ctx, gone.ID)
	equal(t, "its amendments", []any{len(all), err}, []any{0, nil})
	_, err = b.ByID(ctx, kept.ID)
	noErr(t, err)
	found, err := b.List(ctx, Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "oval"})
	noErr(t, err)
	equal(t, "the other one", ids(found), []int64{kept.ID})
}

// noMention reads every text of every table of ours. Rows of the other
// platform are passed over.
func noMention(t *testing.T, b *Book, maker, platform string) {
	t.Helper()
	columns := map[string][]string{
		"entries": {"maker", "words"}, "words": {"word"}, "settings": {"scope", "set_by"}, "corrections": {"maker"},
		"rooms":      {"channel"},
		"amendments": {"by_maker"}, "rules": {"scope", "by_maker"}, "retention": {"set_by"}, "claims": {"owner"},
	}
	for table, names := range columns {
		for _, column := range names {
			where := ""
			switch table {
			case "words":
				where = ` AND room IN (SELECT id FROM rooms WHERE platform = '` + platform + `')`
			case "rooms", "entries", "settings", "corrections", "rules", "retention":
				where = ` AND platform = '` + platform + `'`
			}
			var n int
			noErr(t, b.read.QueryRowContext(t.Context(),
				`SELECT COUNT(*) FROM `+table+` WHERE `+column+` LIKE $1`+where, "%"+maker+"%").Scan(&n))
			if n > 0 {
				t.Errorf("%s.%s mentions the maker %d times", table, column, n)
			}
		}
	}
}

func testRetention(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	keep, err := b.Retention(ctx, "discord", "g1")
	equal(t, "kept for ever", []any{keep, err}, []any{time.Duration(0), nil})
	noErr(t, b.SetRetention(ctx, "discord", "g1", 48*time.Hour, "teacher"))
	noErr(t, b.SetRetention(ctx, "discord", "g1", 24*time.Hour, "teacher"))
	keep, err = b.Retention(ctx, "discord", "g1")
	equal(t, "kept for a day", []any{keep, err}, []any{24 * time.Hour, nil})
	if err := b.SetRetention(ctx, "discord", "g1", -time.Hour, "teacher"); err == nil {
		t.Error("entries are kept for less than nothing")
	}

	now := clock.Now()
	add := func(message, guild string, age time.Duration) Entry {
		e := sample(message)
		e.Guild, e.At = guild, now.Add(-age)
		return mustRecord(t, b, e)
	}
	gone, edge, kept := add("1", "g1", 25*time.Hour), add("2", "g1", 24*time.Hour), add("3", "g1", time.Hour)
	other := add("4", "g2", 1000*time.Hour)
	_, err = b.Amend(ctx, gone.ID, "teacher", "x", now)
	noErr(t, err)
	for i := range purgeBatch + 3 {
		add(fmt.Sprint("old", i), "g1", 30*time.Hour)
	}
	n, err := b.Purge(ctx, now)
	equal(t, "purged", []any{n, err}, []any{purgeBatch + 4, nil})
	_, err = b.ByID(ctx, gone.ID)
	wantErr(t, "an old entry", err, ErrNotFound)
	for _, e := range []Entry{edge, kept, other} {
		_, err := b.ByID(ctx, e.ID)
		noErr(t, err)
	}
	all, err := b.List(ctx, Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "oval"})
	noErr(t, err)
	equal(t, "search after purge", ids(all), []int64{kept.ID, edge.ID})
	var words int
	noErr(t, b.read.QueryRowContext(ctx, `SELECT COUNT(DISTINCT entry) FROM words`).Scan(&words))
	equal(t, "entries with words", words, 3)

	noErr(t, b.SetRetention(ctx, "discord", "g1", 0, "teacher"))
	n, err = b.Purge(ctx, now.Add(1000*time.Hour))
	equal(t, "purged without a rule", []any{n, err}, []any{0, nil})
}

func testLeases(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	const lease = 30 * time.Second
	one, two, three := mustRecord(t, b, sample("1")), mustRecord(t, b, sample("2")), mustRecord(t, b, sample("3"))
	claim := func(owner string, limit int) []int64 {
		t.Helper()
		all, err := b.ClaimUndelivered(ctx, "discord", owner, lease, limit)
		noErr(t, err)
		return ids(all)
	}
	none := []int64{}
	// Who records holds for a while.
	equal(t, "fresh", claim("a", 10), none)
	clock.Move(DefaultHold)
	equal(t, "another platform's", func() int { all, _ := b.ClaimUndelivered(ctx, "matrix", "a", lease, 10); return len(all) }(), 0)
	equal(t, "a", claim("a", 2), []int64{one.ID, two.ID})
	equal(t, "b", claim("b", 10), []int64{three.ID})
	equal(t, "a again", claim("a", 10), none)

	// a renews one and dies; b takes two over.
	clock.Move(lease - time.Second)
	noErr(t, b.Renew(ctx, one.ID, "a", lease))
	wantErr(t, "another's lease", b.Renew(ctx, one.ID, "b", lease), ErrLeaseLost)
	clock.Move(time.Second)
	equal(t, "b takes over", claim("b", 10), []int64{two.ID, three.ID})
	wantErr(t, "a comes back", b.Renew(ctx, two.ID, "a", lease), ErrLeaseLost)

	noErr(t, b.Release(ctx, two.ID, "a")) // not a's any more: nothing happens
	equal(t, "not released", claim("c", 10), none)
	noErr(t, b.Release(ctx, two.ID, "b"))
	mine, err := b.Claim(ctx, two.ID, "c", lease)
	equal(t, "claimed by id", []any{mine, err}, []any{true, nil})
	mine, err = b.Claim(ctx, two.ID, "d", lease)
	equal(t, "claimed by two", []any{mine, err}, []any{false, nil})

	noErr(t, b.MarkDelivered(ctx, one.ID, "x", clock.Now()))
	noErr(t, b.MarkExpired(ctx, three.ID, clock.Now()))
	wantErr(t, "renewing what was sent", b.Renew(ctx, one.ID, "a", lease), ErrLeaseLost)
	clock.Move(time.Hour)
	mine, err = b.Claim(ctx, one.ID, "d", lease)
	equal(t, "claiming what was sent", []any{mine, err}, []any{false, nil})
	equal(t, "what is left", claim("d", 10), []int64{two.ID})

	// A clock that was set back does not make anybody wait for it.
	clock.Move(-24 * time.Hour)
	equal(t, "after the clock was set back", claim("e", 10), []int64{two.ID})
	equal(t, "held again", claim("f", 10), none)
	all, err := b.ClaimUndelivered(ctx, "discord", "f", 1000*time.Hour, 10)
	equal(t, "still held", []any{len(all), err}, []any{0, nil})
	noErr(t, b.Renew(ctx, two.ID, "e", 1000*time.Hour))
	clock.Move(MaxLease)
	equal(t, "no lease is longer", claim("g", 10), []int64{two.ID})
}

func testClaimsAtOnce(t *testing.T, b *Book, clock *testClock) {
	const entries, owners = 120, 8
	for i := range entries {
		mustRecord(t, b, sample(fmt.Sprint(i)))
	}
	clock.Move(time.Hour)
	var (
		wg    sync.WaitGroup
		mu    sync.Mutex
		times = map[int64]int{}
	)
	for o := range owners {
		wg.Go(func() {
			for {
				all, err := b.ClaimUndelivered(t.Context(), "discord", fmt.Sprint("owner", o), time.Minute, 7)
				if err != nil {
					t.Error(err)
				}
				if err != nil || len(all) == 0 {
					return
				}
				mu.Lock()
				for _, e := range all {
					times[e.ID]++
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	if len(times) != entries {
		t.Errorf("%d of %d were claimed", len(times), entries)
	}
	for id, n := range times {
		if n != 1 {
			t.Errorf("entry %d was claimed %d times", id, n)
		}
	}
}

func testEvents(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	const lease = 30 * time.Second
	k := Key{"discord", "c1", "event"}
	claim := func(owner string) (bool, time.Time) {
		t.Helper()
		mine, until, err := b.ClaimEvent(ctx, k, owner, lease)
		noErr(t, err)
		return mine, until
	}
	expect := func(what, owner string, wantMine bool, wantUntil time.Time) {
		t.Helper()
		mine, until := claim(owner)
		equal(t, what, []any{mine, until}, []any{wantMine, wantUntil})
	}
	end := clock.Now().Add(lease)
	expect("first", "a", true, time.Time{})
	expect("second", "b", false, end)
	expect("the same again", "a", false, end)
	clock.Move(lease)
	noErr(t, b.RenewEvent(ctx, k, "a", lease)) // late, but nobody had taken over
	end = clock.Now().Add(lease)
	expect("renewed", "b", false, end)
	wantErr(t, "renewed by another", b.RenewEvent(ctx, k, "b", lease), ErrLeaseLost)
	clock.Move(lease)
	expect("a has died", "b", true, time.Time{})
	wantErr(t, "renewed too late", b.RenewEvent(ctx, k, "a", lease), ErrLeaseLost)
	noErr(t, b.ReleaseEvent(ctx, k, "a")) // not a's any more
	expect("b has it", "a", false, clock.Now().Add(lease))
	noErr(t, b.ReleaseEvent(ctx, k, "b"))
	expect("given back", "c", true, time.Time{})
	clock.Move(-24 * time.Hour)
	expect("the clock was set back", "d", true, time.Time{})

	e := sample(k.Message)
	mustRecord(t, b, e)
	wantErr(t, "renewed after it was recorded", b.RenewEvent(ctx, k, "d", lease), ErrLeaseLost)
	expect("recorded", "d", false, time.Time{})
	clock.Move(time.Hour)
	expect("recorded long ago", "d", false, time.Time{})
	var left int
	noErr(t, b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM claims`).Scan(&left))
	equal(t, "claims left", left, 0)

	mine, _, err := b.ClaimEvent(ctx, Key{"terminal", "room", ""}, "a", lease)
	equal(t, "no event", []any{mine, err}, []any{true, nil})

	// A claim that nobody finishes goes with the purge, a day later.
	k.Message = "lost"
	claim("a")
	_, err = b.Purge(ctx, clock.Move(25*time.Hour))
	noErr(t, err)
	noErr(t, b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM claims`).Scan(&left))
	equal(t, "claims left", left, 0)

	// Many see one event at once.
	k.Message = "at once"
	wins := make(chan bool)
	const processes = 32
	for i := range processes {
		go func() {
			mine, _, err := b.ClaimEvent(ctx, k, fmt.Sprint("p", i), lease)
			if err != nil {
				t.Error(err)
			}
			wins <- mine
		}()
	}
	n := 0
	for range processes {
		if <-wins {
			n++
		}
	}
	equal(t, "winners", n, 1)
}
