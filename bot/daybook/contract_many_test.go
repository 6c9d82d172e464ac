package daybook

import (
	"encoding/json"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
	require.NoError(t, b.SetSetting(ctx, Scope{ChannelScope, "discord", "chat-with-m1"}, "paper", "letter", "m1"))
	others := sample("3")
	others.Maker = "m2"
	others = mustRecord(t, b, others)
	namesake := sample("4")
	namesake.Key.Platform = "matrix"
	namesake = mustRecord(t, b, namesake)

	channel := Scope{ChannelScope, "discord", "c1"}
	require.NoError(t, b.SetSetting(ctx, Scope{MakerScope, "discord", "m1"}, "metal", "sterling", "m1"))
	require.NoError(t, b.SetSetting(ctx, channel, "paper", "a4", "m1"))
	require.NoError(t, b.SetRetention(ctx, "discord", "g1", time.Hour, "m1"))
	_, err := b.KeepCorrection(ctx, Correction{Platform: "discord", Maker: "m1", Alloy: "sterling", Trials: json.RawMessage(`[]`)})
	require.NoError(t, err)
	_, err = b.Amend(ctx, others.ID, "m1", "thinner", clock.Now())
	require.NoError(t, err)
	_, err = b.Amend(ctx, mine.ID, "m2", "thicker", clock.Now())
	require.NoError(t, err)
	_, err = b.PinRule(ctx, channel, "clean first", "m1")
	require.NoError(t, err)

	data, err := b.MakerData(ctx, "discord", "m1")
	require.NoError(t, err)
	assert.Equal(t, []int64{mine.ID, mineToo.ID, mineToo.ID + 1}, ids(data.Entries), "entries")
	assert.Equal(t, []int{1, 1, 1, 1}, []int{len(data.Amendments), len(data.Settings), len(data.Corrections), len(data.Rules)}, "the rest")

	n, err := b.ForgetMaker(ctx, "discord", "m1")
	assert.Equal(t, []any{3, nil}, []any{n, err}, "forgotten")

	data, err = b.MakerData(ctx, "discord", "m1")
	require.NoError(t, err)
	assert.Equal(t, MakerData{Settings: map[string]string{}}, data, "nothing is left")
	_, err = b.ByID(ctx, mine.ID)
	assert.ErrorIs(t, err, ErrNotFound, "a forgotten entry")
	all, err := b.Amendments(ctx, mine.ID)
	require.NoError(t, err)
	assert.Len(t, all, 0, "amendments of a forgotten entry")
	all, err = b.Amendments(ctx, others.ID)
	require.NoError(t, err)
	assert.Equal(t, []any{"", "thinner"}, []any{all[0].By, all[0].Text}, "the amendment stays without a name")
	rules, err := b.Rules(ctx, channel)
	require.NoError(t, err)
	assert.Equal(t, []any{"", "clean first"}, []any{rules[0].By, rules[0].Text}, "the rule stays without a name")
	paper, err := b.Setting(ctx, channel, "paper")
	assert.Equal(t, []any{"a4", nil}, []any{paper, err}, "the channel's paper")
	for _, id := range []int64{others.ID, namesake.ID} {
		_, err := b.ByID(ctx, id)
		require.NoError(t, err)
	}

	// No column of any table keeps the id.
	noMention(t, b, "m1", "discord")

	// Ids are never used twice: a button in a room may still carry one.
	last := mustRecord(t, b, sample("1"))
	_, err = b.ForgetMaker(ctx, "discord", "m1")
	require.NoError(t, err)
	if next := mustRecord(t, b, sample("1")); next.ID <= last.ID {
		t.Errorf("id %d after %d", next.ID, last.ID)
	}
	_, err = b.ForgetMaker(ctx, "discord", "")
	assert.Error(t, err, "the maker without a name is forgotten")
}

// testForgetQuoted: an entry that was read from another's words goes with their
// author, and only on the author's platform.
func testForgetQuoted(t *testing.T, b *Book, _ *testClock) {
	ctx := t.Context()
	quoting := sample("1")
	quoting.Maker, quoting.Author = "reader", "writer"
	quoted := mustRecord(t, b, quoting)
	own := sample("2")
	own.Maker, own.Author = "writer2", "writer2"
	kept := mustRecord(t, b, own)
	n, err := b.ForgetMaker(ctx, "matrix", "writer")
	assert.Equal(t, []any{0, nil}, []any{n, err}, "a namesake on another platform")
	_, err = b.ByID(ctx, quoted.ID)
	require.NoError(t, err)
	_, err = b.ForgetMaker(ctx, "discord", "writer")
	require.NoError(t, err)
	_, err = b.ByID(ctx, quoted.ID)
	require.ErrorIs(t, err, ErrNotFound)
	_, err = b.ByID(ctx, kept.ID)
	require.NoError(t, err)
	noMention(t, b, "writer", "matrix")
	var left int
	require.NoError(t, b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM quoted`).Scan(&left))
	assert.Zero(t, left, "who wrote the words that were read")
}

func testForgetEntry(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	kept := mustRecord(t, b, sample("1"))
	direct := sample("2")
	direct.Guild, direct.Key.Channel, direct.Maker = "", "chat-with-m7", "m7"
	gone := mustRecord(t, b, direct)
	_, err := b.Amend(ctx, gone.ID, "teacher", "x", clock.Now())
	require.NoError(t, err)
	require.NoError(t, b.ForgetEntry(ctx, gone.ID))
	assert.ErrorIs(t, b.ForgetEntry(ctx, gone.ID), ErrNotFound, "twice")
	noMention(t, b, "m7", "discord")
	all, err := b.Amendments(ctx, gone.ID)
	assert.Equal(t, []any{0, nil}, []any{len(all), err}, "its amendments")
	_, err = b.ByID(ctx, kept.ID)
	require.NoError(t, err)
	found, err := b.List(ctx, Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "oval"})
	require.NoError(t, err)
	assert.Equal(t, []int64{kept.ID}, ids(found), "the other one")
}

// noMention reads every text of every table of ours. Rows of the other
// platform are passed over.
func noMention(t *testing.T, b *Book, maker, platform string) {
	t.Helper()
	columns := map[string][]string{
		"entries": {"maker", "words"}, "settings": {"scope", "set_by"}, "corrections": {"maker"}, "outlines": {"maker"}, "quoted": {"author"},
		"rooms":      {"channel"},
		"amendments": {"by_maker"}, "rules": {"scope", "by_maker"}, "retention": {"set_by"}, "claims": {"owner"},
	}
	for table, names := range columns {
		for _, column := range names {
			where := ""
			switch table {
			case "rooms", "entries", "settings", "corrections", "outlines", "quoted", "rules", "retention":
				where = ` AND platform = '` + platform + `'`
			}
			var n int
			require.NoError(t, b.read.QueryRowContext(t.Context(),
				`SELECT COUNT(*) FROM `+table+` WHERE `+column+` LIKE $1`+where, "%"+maker+"%").Scan(&n))
			assert.LessOrEqual(t, n, 0, "%s.%s mentions the maker %d times", table, column, n)
		}
	}
}

func testRetention(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	keep, err := b.Retention(ctx, "discord", "g1")
	assert.Equal(t, []any{time.Duration(0), nil}, []any{keep, err}, "kept for ever")
	require.NoError(t, b.SetRetention(ctx, "discord", "g1", 48*time.Hour, "teacher"))
	require.NoError(t, b.SetRetention(ctx, "discord", "g1", 24*time.Hour, "teacher"))
	keep, err = b.Retention(ctx, "discord", "g1")
	assert.Equal(t, []any{24 * time.Hour, nil}, []any{keep, err}, "kept for a day")
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
	require.NoError(t, err)
	for i := range purgeBatch + 3 {
		add(fmt.Sprint("old", i), "g1", 30*time.Hour)
	}
	n, err := b.Purge(ctx, now)
	assert.Equal(t, []any{purgeBatch + 4, nil}, []any{n, err}, "purged")
	_, err = b.ByID(ctx, gone.ID)
	assert.ErrorIs(t, err, ErrNotFound, "an old entry")
	for _, e := range []Entry{edge, kept, other} {
		_, err := b.ByID(ctx, e.ID)
		require.NoError(t, err)
	}
	all, err := b.List(ctx, Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "oval"})
	require.NoError(t, err)
	assert.Equal(t, []int64{kept.ID, edge.ID}, ids(all), "search after purge")

	require.NoError(t, b.SetRetention(ctx, "discord", "g1", 0, "teacher"))
	n, err = b.Purge(ctx, now.Add(1000*time.Hour))
	assert.Equal(t, []any{0, nil}, []any{n, err}, "purged without a rule")
}

func testLeases(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	const lease = 30 * time.Second
	one, two, three := mustRecord(t, b, sample("1")), mustRecord(t, b, sample("2")), mustRecord(t, b, sample("3"))
	claim := func(owner string, limit int) []int64 {
		t.Helper()
		all, err := b.ClaimUndelivered(ctx, "discord", owner, lease, limit)
		require.NoError(t, err)
		return ids(all)
	}
	none := []int64{}
	// Who records holds for a while.
	assert.Equal(t, none, claim("a", 10), "fresh")
	clock.Move(DefaultHold)
	assert.Equal(t, 0, func() int { all, _ := b.ClaimUndelivered(ctx, "matrix", "a", lease, 10); return len(all) }(), "another platform's")
	assert.Equal(t, []int64{one.ID, two.ID}, claim("a", 2), "a")
	assert.Equal(t, []int64{three.ID}, claim("b", 10), "b")
	assert.Equal(t, none, claim("a", 10), "a again")

	// a renews one and dies; b takes two over.
	clock.Move(lease - time.Second)
	require.NoError(t, b.Renew(ctx, one.ID, "a", lease))
	assert.ErrorIs(t, b.Renew(ctx, one.ID, "b", lease), ErrLeaseLost, "another's lease")
	clock.Move(time.Second)
	assert.Equal(t, []int64{two.ID, three.ID}, claim("b", 10), "b takes over")
	assert.ErrorIs(t, b.Renew(ctx, two.ID, "a", lease), ErrLeaseLost, "a comes back")

	require.NoError(t, b.Release(ctx, two.ID, "a")) // not a's any more: nothing happens
	assert.Equal(t, none, claim("c", 10), "not released")
	require.NoError(t, b.Release(ctx, two.ID, "b"))
	mine, err := b.Claim(ctx, two.ID, "c", lease)
	assert.Equal(t, []any{true, nil}, []any{mine, err}, "claimed by id")
	mine, err = b.Claim(ctx, two.ID, "d", lease)
	assert.Equal(t, []any{false, nil}, []any{mine, err}, "claimed by two")

	require.NoError(t, b.MarkDelivered(ctx, one.ID, "x", clock.Now()))
	require.NoError(t, b.MarkExpired(ctx, three.ID, clock.Now()))
	assert.ErrorIs(t, b.Renew(ctx, one.ID, "a", lease), ErrLeaseLost, "renewing what was sent")
	clock.Move(time.Hour)
	mine, err = b.Claim(ctx, one.ID, "d", lease)
	assert.Equal(t, []any{false, nil}, []any{mine, err}, "claiming what was sent")
	assert.Equal(t, []int64{two.ID}, claim("d", 10), "what is left")

	// A clock that was set back does not make anybody wait for it.
	clock.Move(-24 * time.Hour)
	assert.Equal(t, []int64{two.ID}, claim("e", 10), "after the clock was set back")
	assert.Equal(t, none, claim("f", 10), "held again")
	all, err := b.ClaimUndelivered(ctx, "discord", "f", 1000*time.Hour, 10)
	assert.Equal(t, []any{0, nil}, []any{len(all), err}, "still held")
	require.NoError(t, b.Renew(ctx, two.ID, "e", 1000*time.Hour))
	clock.Move(MaxLease)
	assert.Equal(t, []int64{two.ID}, claim("g", 10), "no lease is longer")
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
				assert.Equal(t, nil, err, err)
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
	assert.Equal(t, entries, len(times), "%d of %d were claimed", len(times), entries)
	for id, n := range times {
		assert.Equal(t, 1, n, "entry %d was claimed %d times", id, n)
	}
}

func testEvents(t *testing.T, b *Book, clock *testClock) {
	ctx := t.Context()
	const lease = 30 * time.Second
	k := Key{"discord", "c1", "event"}
	claim := func(owner string) (bool, time.Time) {
		t.Helper()
		mine, until, err := b.ClaimEvent(ctx, k, owner, lease)
		require.NoError(t, err)
		return mine, until
	}
	expect := func(what, owner string, wantMine bool, wantUntil time.Time) {
		t.Helper()
		mine, until := claim(owner)
		assert.Equal(t, []any{wantMine, wantUntil}, []any{mine, until}, what)
	}
	end := clock.Now().Add(lease)
	expect("first", "a", true, time.Time{})
	expect("second", "b", false, end)
	expect("the same again", "a", false, end)
	clock.Move(lease)
	require.NoError(t, b.RenewEvent(ctx, k, "a", lease)) // late, but nobody had taken over
	end = clock.Now().Add(lease)
	expect("renewed", "b", false, end)
	assert.ErrorIs(t, b.RenewEvent(ctx, k, "b", lease), ErrLeaseLost, "renewed by another")
	clock.Move(lease)
	expect("a has died", "b", true, time.Time{})
	assert.ErrorIs(t, b.RenewEvent(ctx, k, "a", lease), ErrLeaseLost, "renewed too late")
	require.NoError(t, b.ReleaseEvent(ctx, k, "a")) // not a's any more
	expect("b has it", "a", false, clock.Now().Add(lease))
	require.NoError(t, b.ReleaseEvent(ctx, k, "b"))
	expect("given back", "c", true, time.Time{})
	clock.Move(-24 * time.Hour)
	expect("the clock was set back", "d", true, time.Time{})

	e := sample(k.Message)
	mustRecord(t, b, e)
	assert.ErrorIs(t, b.RenewEvent(ctx, k, "d", lease), ErrLeaseLost, "renewed after it was recorded")
	expect("recorded", "d", false, time.Time{})
	clock.Move(time.Hour)
	expect("recorded long ago", "d", false, time.Time{})
	var left int
	require.NoError(t, b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM claims`).Scan(&left))
	assert.Equal(t, 0, left, "claims left")

	mine, _, err := b.ClaimEvent(ctx, Key{"terminal", "room", ""}, "a", lease)
	assert.Equal(t, []any{true, nil}, []any{mine, err}, "no event")

	// A claim that nobody finishes goes with the purge, a day later.
	k.Message = "lost"
	claim("a")
	_, err = b.Purge(ctx, clock.Move(25*time.Hour))
	require.NoError(t, err)
	require.NoError(t, b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM claims`).Scan(&left))
	assert.Equal(t, 0, left, "claims left")

	// Many see one event at once.
	k.Message = "at once"
	wins := make(chan bool)
	const processes = 32
	for i := range processes {
		go func() {
			mine, _, err := b.ClaimEvent(ctx, k, fmt.Sprint("p", i), lease)
			assert.Equal(t, nil, err, err)
			wins <- mine
		}()
	}
	n := 0
	for range processes {
		if <-wins {
			n++
		}
	}
	assert.Equal(t, 1, n, "winners")
}
