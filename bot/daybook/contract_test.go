package daybook

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contract is what every store does alike. Each part gets a store of its own.
func contract(t *testing.T, open opener) {
	parts := []struct {
		name string
		test func(*testing.T, *Book, *testClock)
	}{
		{"record", testRecord},
		{"record refuses", testRecordRefuses},
		{"odd text", testOddText},
		{"same event", testSameEvent},
		{"same event at once", testSameEventAtOnce},
		{"delivery", testDelivery},
		{"clock set back", testClockSetBack},
		{"pages", testPages},
		{"filters", testFilters},
		{"search", testSearch},
		{"rooms keep apart", testRoomsKeepApart},
		{"summary", testSummary},
		{"amendments", testAmendments},
		{"rules", testRules},
		{"settings", testSettings},
		{"corrections", testCorrections},
		{"outlines", testOutlines},
		{"forget quoted", testForgetQuoted},
		{"forget", testForget},
		{"forget one", testForgetEntry},
		{"retention", testRetention},
		{"leases", testLeases},
		{"claims at once", testClaimsAtOnce},
		{"events", testEvents},
		{"check", testCheck},
		{"searches against a plain look", testSearches},
	}
	for _, p := range parts {
		t.Run(p.name, func(t *testing.T) {
			clock := newTestClock()
			p.test(t, open(t)(WithClock(clock.Now), WithOwner("us")), clock)
		})
	}
}

var bench = Room{Platform: "discord", Guild: "g1", Channel: "c1"}

// sample is a whole entry of our own invention.
func sample(message string) Entry {
	return Entry{
		At:       time.Date(2031, 3, 4, 9, 0, 0, 5000, time.UTC),
		Key:      Key{bench.Platform, bench.Channel, message},
		Guild:    bench.Guild,
		Maker:    "m1",
		Typed:    "Collet OVAL 8×6 depth 4",
		Request:  "collet",
		Line:     "collet oval 8x6 depth 4",
		Args:     json.RawMessage(`{"outline": {"Text": "oval"}, "size": {"Numbers": [8, 6]}}`),
		Outline:  "oval",
		Status:   Answered,
		Headline: "cut 32.4 x 9.7 mm from 0.64 mm sterling",
		Figures:  json.RawMessage(`[{"id":"rim_length","value":32.400000000000006}]`),
		Answer:   json.RawMessage(`{"Headline":  "kept byte for byte"}`),
		Version:  "1.2.3",
		Route:    json.RawMessage(`{"thread":"t9"}`),
	}
}

func mustRecord(t *testing.T, b *Book, e Entry) Entry {
	t.Helper()
	stored, existed, err := b.Record(t.Context(), e)
	if err != nil || existed {
		t.Fatalf("Record(%q) = existed %v, %v", e.Key.Message, existed, err)
	}
	return stored
}

func ids(all []Entry) []int64 {
	list := []int64{}
	for _, e := range all {
		list = append(list, e.ID)
	}
	return list
}

func testRecord(t *testing.T, b *Book, clock *testClock) {
	want := sample("1001")
	stored := mustRecord(t, b, want)
	assert.Positive(t, stored.ID)
	want.ID = stored.ID
	assert.Equal(t, want, stored, "stored")
	kept, err := b.AnswerByID(t.Context(), stored.ID)
	assert.Equal(t, []any{string(want.Answer), nil}, []any{string(kept), err}, "its answer")
	_, err = b.AnswerByID(t.Context(), stored.ID+1)
	assert.ErrorIs(t, err, ErrNotFound, "an answer that is not there")
	for name, get := range map[string]func() (Entry, error){
		"ByID":   func() (Entry, error) { return b.ByID(t.Context(), stored.ID) },
		"ByIDIn": func() (Entry, error) { return b.ByIDIn(t.Context(), bench, stored.ID) },
		"ByKey":  func() (Entry, error) { return b.ByKey(t.Context(), want.Key) },
	} {
		got, err := get()
		require.NoError(t, err)
		assert.Equal(t, want, got, name)
	}

	// The least that can be recorded; its time is the clock's.
	least := Entry{Key: Key{"terminal", "room", ""}, Status: Failed}
	got, err := b.ByID(t.Context(), mustRecord(t, b, least).ID)
	require.NoError(t, err)
	least.ID, least.At = got.ID, clock.Now()
	assert.Equal(t, least, got, "least")

	// The outline is found in the arguments where it is not given.
	bare := sample("1002")
	bare.Outline = ""
	assert.Equal(t, "oval", mustRecord(t, b, bare).Outline, "outline of a value")
	bare.Key.Message, bare.Args = "1003", json.RawMessage(`{"outline":"pear"}`)
	assert.Equal(t, "pear", mustRecord(t, b, bare).Outline, "outline of a word")

	_, err = b.ByID(t.Context(), 987654)
	assert.ErrorIs(t, err, ErrNotFound, "an id that is not there")
	_, err = b.ByKey(t.Context(), Key{"discord", "c1", "none"})
	assert.ErrorIs(t, err, ErrNotFound, "a key that is not there")
	_, err = b.ByKey(t.Context(), Key{"terminal", "room", ""})
	assert.ErrorIs(t, err, ErrNotFound, "a key without an event")
}

func testRecordRefuses(t *testing.T, b *Book, _ *testClock) {
	for name, spoil := range map[string]func(*Entry){
		"no platform":    func(e *Entry) { e.Key.Platform = "" },
		"no channel":     func(e *Entry) { e.Key.Channel = "" },
		"unknown status": func(e *Entry) { e.Status = "maybe" },
		"broken JSON":    func(e *Entry) { e.Answer = json.RawMessage(`{"a":`) },
	} {
		e := sample("1")
		spoil(&e)
		if _, _, err := b.Record(t.Context(), e); err == nil || errors.Is(err, ErrCannotRecord) {
			t.Errorf("%s: got error %v, want a fault of the caller", name, err)
		}
	}
	if all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1"}); err != nil || len(all) > 0 {
		t.Errorf("after refusals the room has %d entries, %v", len(all), err)
	}
}

func testOddText(t *testing.T, b *Book, _ *testClock) {
	e := sample("odd")
	e.Typed = "nul \x00 bad \xff quote ' \" $1 ?1 emoji 💍 \n two lines; DROP TABLE entries;--"
	e.Maker = "m=1\n2"
	e.Answer = json.RawMessage(`{"a":"\u0000 \ud83d\udc8d"}`)
	e.Problem = strings.Repeat("long ", 20_000)
	stored := mustRecord(t, b, e)
	got, err := b.ByID(t.Context(), stored.ID)
	require.NoError(t, err)
	assert.Equal(t, stored, got, "read back")
	assert.Equal(t, "nul  bad \uFFFD quote ' \" $1 ?1 emoji 💍 \n two lines; DROP TABLE entries;--", got.Typed, "typed")
	assert.Equal(t, string(e.Answer), string(got.Answer), "answer")
	for _, f := range []Filter{{Maker: e.Maker}, {Text: "DROP"}, {Text: "' OR 1=1"}, {Text: "%"}} {
		f.Platform, f.Guild, f.Channel = bench.Platform, bench.Guild, bench.Channel
		all, err := b.List(t.Context(), f)
		require.NoError(t, err)
		want := 1
		if strings.Contains(f.Text, "OR") {
			want = 0
		}
		assert.Len(t, all, want, "%+v", f)
	}
	n, err := b.ForgetMaker(t.Context(), "discord", e.Maker)
	assert.Equal(t, []any{1, nil}, []any{n, err}, "forgotten")
}

func testSameEvent(t *testing.T, b *Book, _ *testClock) {
	first := mustRecord(t, b, sample("7"))
	again := sample("7")
	again.Typed, again.Guild, again.Maker, again.Status = "something else", "g2", "m2", Refused
	got, existed, err := b.Record(t.Context(), again)
	require.NoError(t, err)
	assert.Equal(t, true, existed, "existed")
	assert.Equal(t, first, got, "the first one")

	for _, other := range []Key{{"matrix", "c1", "7"}, {"discord", "c2", "7"}, {"discord", "c1", "8"}, {"discord", "c1", ""}, {"discord", "c1", ""}} {
		e := sample("")
		e.Key = other
		mustRecord(t, b, e)
	}
}

func testSameEventAtOnce(t *testing.T, b *Book, _ *testClock) {
	const at = 64
	type result struct {
		id      int64
		existed bool
		err     error
	}
	results := make(chan result)
	for i := range at {
		go func() {
			e := sample("same")
			e.Maker = fmt.Sprint(i)
			stored, existed, err := b.Record(t.Context(), e)
			results <- result{stored.ID, existed, err}
		}()
	}
	seen, fresh := map[int64]bool{}, 0
	for range at {
		r := <-results
		assert.NoError(t, r.err)
		seen[r.id] = true
		if !r.existed {
			fresh++
		}
	}
	if fresh != 1 || len(seen) != 1 {
		t.Errorf("%d of %d were told that they are the first, of %d entries", fresh, at, len(seen))
	}
}

func testDelivery(t *testing.T, b *Book, clock *testClock) {
	one, two, three := mustRecord(t, b, sample("1")), mustRecord(t, b, sample("2")), mustRecord(t, b, sample("3"))
	old := sample("0")
	old.At = one.At.Add(-time.Hour)
	old = mustRecord(t, b, old)
	elsewhere := sample("1")
	elsewhere.Key.Platform = "matrix"
	mustRecord(t, b, elsewhere)

	undelivered := func(since time.Time) []int64 {
		t.Helper()
		all, err := b.Undelivered(t.Context(), "discord", since)
		require.NoError(t, err)
		return ids(all)
	}
	assert.Equal(t, []int64{one.ID, two.ID, three.ID}, undelivered(one.At), "fresh ones")
	assert.Equal(t, []int64{one.ID, two.ID, three.ID, old.ID}, undelivered(time.Time{}), "all")

	at := clock.Now()
	require.NoError(t, b.MarkDelivered(t.Context(), one.ID, "sent-1", at))
	require.NoError(t, b.MarkDelivered(t.Context(), one.ID, "sent-twice", at.Add(time.Second)))
	require.NoError(t, b.MarkExpired(t.Context(), three.ID, at))
	assert.Equal(t, []int64{two.ID}, undelivered(one.At), "what is left")
	got, err := b.ByID(t.Context(), one.ID)
	require.NoError(t, err)
	assert.Equal(t, "sent-1", got.Delivered, "delivered")
	assert.Equal(t, at, got.DeliveredAt, "delivered at")
	assert.ErrorIs(t, b.MarkDelivered(t.Context(), 987654, "x", at), ErrNotFound, "delivering nothing")
	assert.ErrorIs(t, b.MarkExpired(t.Context(), 987654, at), ErrNotFound, "expiring nothing")
}

func testClockSetBack(t *testing.T, b *Book, clock *testClock) {
	e := sample("1")
	e.At = time.Time{}
	first := mustRecord(t, b, e)
	clock.Move(-3 * time.Hour)
	e.Key.Message = "2"
	second := mustRecord(t, b, e)
	if !second.At.Before(first.At) {
		t.Fatalf("the clock was not set back: %v, %v", first.At, second.At)
	}
	all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1"})
	require.NoError(t, err)
	assert.Equal(t, []int64{second.ID, first.ID}, ids(all), "latest first")
	all, err = b.Undelivered(t.Context(), "discord", second.At)
	require.NoError(t, err)
	assert.Equal(t, []int64{first.ID, second.ID}, ids(all), "oldest first")
}

func testPages(t *testing.T, b *Book, _ *testClock) {
	var want []int64
	for i := range 45 {
		want = append([]int64{mustRecord(t, b, sample(fmt.Sprint(i))).ID}, want...)
	}
	for name, f := range map[string]Filter{"all": {}, "by maker": {Maker: "m1"}, "by text": {Text: "oval"}} {
		f.Platform, f.Guild, f.Channel = bench.Platform, bench.Guild, bench.Channel
		var got []int64
		for pages := 0; ; pages++ {
			page, err := b.List(t.Context(), f)
			require.NoError(t, err)
			if len(page) == 0 {
				assert.Equal(t, 3, pages, name+": pages")
				break
			}
			got = append(got, ids(page)...)
			f.Before = page[len(page)-1].ID
		}
		assert.Equal(t, want, got, name)
	}
	page, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Limit: 2})
	require.NoError(t, err)
	assert.Equal(t, want[:2], ids(page), "limit")
}

func testFilters(t *testing.T, b *Book, _ *testClock) {
	base := sample("").At
	for i, e := range []Entry{
		{Maker: "m1", Request: "collet", Outline: "oval", Status: Answered},
		{Maker: "m2", Request: "collet", Outline: "pear", Status: Answered},
		{Maker: "m1", Request: "bezel", Outline: "oval", Status: Refused},
		{Maker: "m2", Request: "", Status: Refused},
		{Maker: "m12", Request: "dome", Status: Failed},
	} {
		e.Key, e.Guild, e.At = Key{"discord", "c1", fmt.Sprint(i)}, "g1", base.Add(time.Duration(i)*time.Hour)
		mustRecord(t, b, e)
	}
	for _, c := range []struct {
		name string
		f    Filter
		want []string // messages
	}{
		{"all", Filter{}, []string{"4", "3", "2", "1", "0"}},
		{"maker", Filter{Maker: "m1"}, []string{"2", "0"}},
		{"request", Filter{Request: "collet"}, []string{"1", "0"}},
		{"outline", Filter{Outline: "oval"}, []string{"2", "0"}},
		{"status", Filter{Status: Refused}, []string{"3", "2"}},
		{"maker and outline and status", Filter{Maker: "m1", Outline: "oval", Status: Answered}, []string{"0"}},
		{"nobody", Filter{Maker: "m9"}, nil},
		{"from", Filter{From: base.Add(3 * time.Hour)}, []string{"4", "3"}},
		{"to", Filter{To: base.Add(time.Hour)}, []string{"0"}},
		{"between", Filter{From: base.Add(time.Hour), To: base.Add(3 * time.Hour)}, []string{"2", "1"}},
		{"maker between", Filter{Maker: "m2", From: base.Add(time.Hour), To: base.Add(3 * time.Hour)}, []string{"1"}},
		// What was typed can't pose as a column.
		{"facet as text", Filter{Text: "outline=oval"}, nil},
	} {
		c.f.Platform, c.f.Guild, c.f.Channel = bench.Platform, bench.Guild, bench.Channel
		all, err := b.List(t.Context(), c.f)
		require.NoError(t, err)
		var got []string
		for _, e := range all {
			got = append(got, e.Key.Message)
		}
		assert.Equal(t, c.want, got, c.name)
	}
	for _, f := range []Filter{{}, {Platform: "discord"}, {Channel: "c1"}} {
		_, err := b.List(t.Context(), f)
		assert.Error(t, err, "List(%+v) names no room and is answered", f)
		_, err = b.Summary(t.Context(), f)
		assert.Error(t, err, "Summary(%+v) names no room and is answered", f)
	}
}

func testSearch(t *testing.T, b *Book, _ *testClock) {
	e := sample("1")
	e.Typed, e.Line, e.Headline = "COLLET oval 8×6, depth 4,2 ÉMERI", "collet oval 8x6 depth 4.2", "cut 32.4 x 9.70 mm (sterling)."
	want := mustRecord(t, b, e)
	e.Key.Message, e.Typed, e.Line, e.Headline = "2", "dome 12", "dome 12", "cut a disc"
	mustRecord(t, b, e)
	for text, found := range map[string]bool{
		"oval": true, "Oval COLLET": true, "8x6": true, "8×6": true, "8X6 oval": true, "4,2": true, "4.2": true,
		"sterling": true, "9.70": true, "9.7": false, "émeri": true, "ova": false, "oval dome": false, "pear": false,
	} {
		all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: text, Maker: "m1"})
		require.NoError(t, err)
		if got := len(all) == 1 && all[0].ID == want.ID; got != found {
			t.Errorf("%q: found %v, want %v (%d entries)", text, got, found, len(all))
		}
	}
}

func testRoomsKeepApart(t *testing.T, b *Book, _ *testClock) {
	// Near misses of the room, some of them with ids that belong to another
	// kind of thing, and the direct chat of the same maker.
	rooms := []Room{
		bench,
		{"discord", "g1", "c2"}, {"discord", "g2", "c1"}, {"discord", "", "c1"}, {"matrix", "g1", "c1"},
		{"discord", "c1", "g1"}, {"discord", "g1c", "1"}, {"discord", "g", "1c1"}, {"discord", "%", "c1"},
	}
	own := map[Room]int64{}
	for i, r := range rooms {
		e := sample(fmt.Sprint("message", i))
		e.Key.Platform, e.Guild, e.Key.Channel = r.Platform, r.Guild, r.Channel
		e.Typed = fmt.Sprintf("collet oval secret%d", i)
		own[r] = mustRecord(t, b, e).ID
	}
	for i, r := range rooms {
		for _, f := range []Filter{
			{}, {Maker: "m1"}, {Request: "collet"}, {Outline: "oval"}, {Text: "oval"}, {Status: Answered, Text: "collet"}, {Before: 1 << 40},
			{From: time.Unix(0, 0)},
		} {
			f.Platform, f.Guild, f.Channel = r.Platform, r.Guild, r.Channel
			all, err := b.List(t.Context(), f)
			require.NoError(t, err)
			assert.Equal(t, []int64{own[r]}, ids(all), fmt.Sprintf("%+v", f))
			s, err := b.Summary(t.Context(), f)
			require.NoError(t, err)
			assert.Equal(t, 1, s.Total, fmt.Sprintf("summary of %+v", f))
		}
		for j, other := range rooms {
			_, err := b.ByIDIn(t.Context(), r, own[other])
			if i == j {
				require.NoError(t, err)
				continue
			}
			assert.ErrorIs(t, err, ErrNotFound, fmt.Sprintf("%v's entry asked for in %v", other, r))
			all, err := b.List(t.Context(), Filter{Platform: r.Platform, Guild: r.Guild, Channel: r.Channel, Text: fmt.Sprint("secret", j)})
			require.NoError(t, err)
			assert.Equal(t, []int64{}, ids(all), fmt.Sprintf("%v's secret searched for in %v", other, r))
		}
	}
}

func testSummary(t *testing.T, b *Book, _ *testClock) {
	n := 0
	add := func(times int, request, outline string, status Status, problem string) {
		for range times {
			n++
			mustRecord(t, b, Entry{Key: Key{"discord", "c1", fmt.Sprint(n)}, Guild: "g1", Maker: fmt.Sprint("m", n%2),
				Request: request, Outline: outline, Status: status, Problem: problem})
		}
	}
	add(3, "collet", "oval", Answered, "")
	add(2, "collet", "pear", Refused, "too thick")
	add(2, "gauge", "", Answered, "")
	add(1, "", "", Refused, "what?")
	add(1, "", "", Failed, "broken")
	f := Filter{Platform: "discord", Guild: "g1", Channel: "c1", Before: 2, Limit: 1} // no page in a summary
	got, err := b.Summary(t.Context(), f)
	require.NoError(t, err)
	assert.Equal(t, Summary{
		Total:    9,
		Requests: []Count{{"collet", 5}, {"", 2}, {"gauge", 2}},
		Outlines: []Count{{"oval", 3}, {"pear", 2}},
		Statuses: []Count{{"answered", 5}, {"refused", 3}, {"failed", 1}},
		Problems: []Count{{"too thick", 2}, {"broken", 1}, {"what?", 1}},
	}, got, "summary")
	f.Status = Failed
	got, err = b.Summary(t.Context(), f)
	require.NoError(t, err)
	assert.Equal(t, []any{1, []Count{{"broken", 1}}}, []any{got.Total, got.Problems}, "what failed")
	f.Status = ""
	f.Request, f.Maker = "collet", "m1"
	got, err = b.Summary(t.Context(), f)
	require.NoError(t, err)
	assert.Equal(t, 3, got.Total, "one maker's collets") // entries 1, 3 and 5
	got, err = b.Summary(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "empty"})
	require.NoError(t, err)
	assert.Equal(t, Summary{}, got, "nothing")
}

func testAmendments(t *testing.T, b *Book, clock *testClock) {
	e := mustRecord(t, b, sample("1"))
	first, err := b.Amend(t.Context(), e.ID, "teacher", "file 0.2 mm more", clock.Now())
	require.NoError(t, err)
	assert.Equal(t, Amendment{ID: first.ID, EntryID: e.ID, At: clock.Now(), By: "teacher", Text: "file 0.2 mm more"}, first, "amendment")
	second, err := b.Amend(t.Context(), e.ID, "teacher", "no, 0.3", clock.Move(-time.Hour))
	require.NoError(t, err)
	got, err := b.Amendments(t.Context(), e.ID)
	require.NoError(t, err)
	assert.Equal(t, []Amendment{first, second}, got, "amendments")
	after, err := b.ByID(t.Context(), e.ID)
	require.NoError(t, err)
	assert.Equal(t, e, after, "the answer itself")
	elsewhere := sample("1")
	elsewhere.Guild, elsewhere.Key.Channel = "g2", "c2"
	other, err := b.Amend(t.Context(), mustRecord(t, b, elsewhere).ID, "teacher", "thinner", clock.Now())
	require.NoError(t, err)
	for room, want := range map[Room][]Amendment{
		bench: {first, second}, {"discord", "g2", "c2"}: {other}, {"discord", "g2", "c1"}: nil, {"discord", "g1", "c2"}: nil,
	} {
		got, err = b.AmendmentsIn(t.Context(), room)
		require.NoError(t, err)
		assert.Equal(t, want, got, fmt.Sprintf("amendments in %v", room))
	}
	_, err = b.Amend(t.Context(), 987654, "teacher", "x", clock.Now())
	assert.ErrorIs(t, err, ErrNotFound, "amending nothing")
}

func testRules(t *testing.T, b *Book, clock *testClock) {
	here, there := Scope{ChannelScope, "discord", "c1"}, Scope{GuildScope, "discord", "c1"}
	one, err := b.PinRule(t.Context(), here, "we use 1 mm rims here", "teacher")
	require.NoError(t, err)
	assert.Equal(t, Rule{ID: one.ID, Scope: here, Text: "we use 1 mm rims here", By: "teacher", At: clock.Now()}, one, "rule")
	two, err := b.PinRule(t.Context(), here, "pickle warm, not hot", "teacher")
	require.NoError(t, err)
	got, err := b.Rules(t.Context(), here)
	require.NoError(t, err)
	assert.Equal(t, []Rule{one, two}, got, "rules")
	got, err = b.Rules(t.Context(), there)
	require.NoError(t, err)
	assert.Len(t, got, 0, "rules of the guild")
	assert.ErrorIs(t, b.UnpinRule(t.Context(), there, one.ID), ErrNotFound, "another scope's rule")
	require.NoError(t, b.UnpinRule(t.Context(), here, one.ID))
	assert.ErrorIs(t, b.UnpinRule(t.Context(), here, one.ID), ErrNotFound, "twice")
	_, err = b.PinRule(t.Context(), Scope{"planet", "discord", "c1"}, "x", "y")
	assert.Error(t, err, "a rule for a planet is pinned")
}

func testSettings(t *testing.T, b *Book, _ *testClock) {
	scopes := []Scope{
		{MakerScope, "discord", "1"}, {ChannelScope, "discord", "1"}, {GuildScope, "discord", "1"},
		{MakerScope, "matrix", "1"}, {MakerScope, "discord", "2"},
	}
	for i, s := range scopes {
		require.NoError(t, b.SetSetting(t.Context(), s, "metal", fmt.Sprint("first", i), "m1"))
		require.NoError(t, b.SetSetting(t.Context(), s, "metal", fmt.Sprint("metal", i), "m1"))
	}
	require.NoError(t, b.SetSetting(t.Context(), scopes[0], "paper", "", "m1"))
	for i, s := range scopes {
		v, err := b.Setting(t.Context(), s, "metal")
		require.NoError(t, err)
		assert.Equal(t, fmt.Sprint("metal", i), v, "setting")
	}
	all, err := b.Settings(t.Context(), scopes[0])
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"metal": "metal0", "paper": ""}, all, "settings")
	require.NoError(t, b.DropSetting(t.Context(), scopes[0], "metal"))
	assert.ErrorIs(t, b.DropSetting(t.Context(), scopes[0], "metal"), ErrNotFound, "dropping twice")
	_, err = b.Setting(t.Context(), scopes[0], "metal")
	assert.ErrorIs(t, err, ErrNotFound, "a setting that is not there")
	all, err = b.Settings(t.Context(), Scope{MakerScope, "discord", "none"})
	require.NoError(t, err)
	assert.Equal(t, map[string]string{}, all, "no settings")
	all, err = b.Settings(t.Context(), scopes[1])
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"metal": "metal1"}, all, "the channel's")
}

func testCorrections(t *testing.T, b *Book, clock *testClock) {
	c := Correction{Platform: "discord", Maker: "m1", Alloy: "sterling", ThicknessMM: 0.6438, NeutralFactor: 0.4375, KerfMM: 0.3,
		Trials: json.RawMessage(`[{"rim_mm":32.1}]`)}
	first, err := b.KeepCorrection(t.Context(), c)
	require.NoError(t, err)
	c.ID, c.At = first.ID, clock.Now()
	assert.Equal(t, c, first, "kept")
	other := c
	other.Alloy = "bronze"
	other, err = b.KeepCorrection(t.Context(), other)
	require.NoError(t, err)
	c.NeutralFactor = 0.5
	better, err := b.KeepCorrection(t.Context(), c)
	require.NoError(t, err)
	assert.NotEqual(t, first.ID, better.ID, "a new correction has the old one's id")
	got, err := b.Corrections(t.Context(), "discord", "m1")
	require.NoError(t, err)
	assert.Equal(t, []Correction{other, better}, got, "corrections")
	assert.ErrorIs(t, b.DropCorrection(t.Context(), "discord", "m2", better.ID), ErrNotFound, "another maker's")
	assert.ErrorIs(t, b.DropCorrection(t.Context(), "discord", "m1", first.ID), ErrNotFound, "the replaced one")
	require.NoError(t, b.DropCorrection(t.Context(), "discord", "m1", better.ID))
	got, err = b.Corrections(t.Context(), "discord", "m1")
	require.NoError(t, err)
	assert.Equal(t, []Correction{other}, got, "the other one")
}

func testCheck(t *testing.T, b *Book, _ *testClock) {
	h, err := b.Check(t.Context())
	require.NoError(t, err)
	assert.Equal(t, int64(lastSchema), h.SchemaVersion, "schema")
	if h.Store == "" || h.DiskLow {
		t.Errorf("health %+v", h)
	}
}
