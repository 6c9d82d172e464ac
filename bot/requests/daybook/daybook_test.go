package daybookrequest_test

import (
	"bytes"
	"context"
	"encoding/json"
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
	"guildhand/bot/requests"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// class is a service on a daybook of its own, whose clock and version can be
// set.
type class struct {
	*bot.Service
	book *daybook.Book
	now  time.Time
}

var monday = time.Date(2026, 11, 23, 14, 5, 0, 0, time.UTC)

func newClass(t *testing.T) *class {
	t.Helper()
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	k := &class{book: book, now: monday}
	k.Service = k.program("v1", requests.All(k.book))
	return k
}

// program is a program of some version on the class's daybook.
func (k *class) program(version string, specs []catalogue.Spec) *bot.Service {
	return bot.New(bot.Options{
		Specs: specs, Shop: stock.DemoWorkshop(), Book: k.book, Version: version,
		Log: slog.New(slog.DiscardHandler), Clock: func() time.Time { return k.now }, Timeout: time.Minute,
	})
}

func (k *class) say(t *testing.T, who catalogue.Who, text string) bot.Reply {
	t.Helper()
	return requeststest.Say(t, k.Service, who, text)
}

// must answers; a refusal ends the test.
func (k *class) must(t *testing.T, who catalogue.Who, text string) bot.Reply {
	t.Helper()
	r := k.say(t, who, text)
	if r.Answer == nil {
		t.Fatalf("%q: %s", text, requeststest.Told(r))
	}
	return r
}

var (
	student = catalogue.Who{Platform: "discord", Guild: "g1", Channel: "c1", Maker: "anna"}
	fellow  = catalogue.Who{Platform: "discord", Guild: "g1", Channel: "c1", Maker: "ben"}
	master  = catalogue.Who{Platform: "discord", Guild: "g1", Channel: "c1", Maker: "dora", Teacher: true}
)

func elsewhere(who catalogue.Who, change func(*catalogue.Who)) catalogue.Who {
	change(&who)
	return who
}

const oval = "collet oval 8x6 depth 4 sterling 22ga"

func TestDaybookListsAndFinds(t *testing.T) {
	k := newClass(t)
	k.must(t, student, oval)                            // 1
	k.must(t, fellow, "gauge 22")                       // 2
	k.say(t, fellow, "gauge 99")                        // 3, refused
	k.now = k.now.AddDate(0, 0, 2)                      // Wednesday
	k.must(t, student, "collet round 6 20ga depth 3.7") // 4
	k.must(t, master, "daybook")                        // 5, and left out of lists

	for _, tt := range []struct {
		line, want string // the numbers listed
	}{
		{"daybook", "4 3 2 1"},
		{"daybook list", "4 3 2 1"},
		{"daybook collet", "4 1"},
		{"daybook request collet outline oval", "1"},
		{"daybook oval", "1"},
		{"daybook refused", "3"},
		{"daybook answered gauge", "2"},
		{"daybook maker ben", "3 2"},
		{"daybook by <@anna>", "4 1"},
		{"daybook by <@!anna>", "4 1"},
		{"daybook by me", ""},
		{"daybook today", ""}, // refused below
		{"daybook from today", "4"},
		{"daybook from wed", "4"},
		{"daybook from 2026-11-23 to 2026-11-23", "3 2 1"},
		{"daybook from 23.11.2026 to yesterday", "3 2 1"},
		{"daybook to 2d", "3 2 1"},
		{"daybook from 1w", "4 3 2 1"},
		{"daybook from 1d", "4"},
		{"daybook find oval 8x6", "1"},
		{"daybook find 8x6 from today", ""},
		{"daybook from monday find 22ga", "2 1"},
		{"daybook before 3", "2 1"},
	} {
		r := k.say(t, master, tt.line)
		if tt.line == "daybook today" {
			if r.Refusal == nil {
				t.Errorf("%q is answered", tt.line)
			}
			continue
		}
		if r.Answer == nil {
			t.Errorf("%q: %s", tt.line, requeststest.Told(r))
			continue
		}
		if got := numbers(r.Answer.Notes); got != tt.want {
			t.Errorf("%q lists %q, want %q: %s", tt.line, got, tt.want, requeststest.Told(r))
		}
		if !r.Answer.Alone {
			t.Errorf("%q is shown to all", tt.line)
		}
		// The line chooses the same when it is asked on a later day.
		later := k.now
		k.now = k.now.AddDate(0, 0, 40)
		again := k.must(t, master, r.Answer.Line)
		k.now = later
		if got := numbers(again.Answer.Notes); got != tt.want || again.Answer.Line != r.Answer.Line {
			t.Errorf("%q, later as %q, lists %q and is %q", tt.line, r.Answer.Line, got, again.Answer.Line)
		}
	}
	for i := range 25 {
		k.must(t, student, fmt.Sprintf("gauge %d", 10+i%20))
	}
	seen := 0
	line := "daybook gauge"
	for page := 0; line != ""; page++ {
		notes := k.must(t, master, line).Answer.Notes
		line = ""
		for _, n := range notes {
			if rest, ok := strings.CutPrefix(n, "older: "); ok {
				line = rest
				continue
			}
			seen++
		}
		if page > 5 {
			t.Fatal("the pages do not end")
		}
	}
	if seen != 27 {
		t.Errorf("%d entries on all pages, want 27", seen)
	}
}

// numbers are those of the entries in a list.
func numbers(notes []string) string {
	var list []string
	for _, n := range notes {
		if rest, ok := strings.CutPrefix(n, "no. "); ok {
			number, _, _ := strings.Cut(rest, ",")
			list = append(list, number)
		}
	}
	return strings.Join(list, " ")
}

// What a maker types, and what is refused how. Each line offered is answered.
func TestDaybookRefusals(t *testing.T) {
	k := newClass(t)
	k.must(t, student, oval)
	k.say(t, student, "gibberish")
	k.must(t, student, "bench")
	for _, tt := range []struct {
		who        catalogue.Who
		text, want string
	}{
		{who: student, text: "daybook", want: "daybook list is for teachers"},
		{who: student, text: "daybook show 1", want: "daybook show is for teachers"},
		{who: student, text: "daybook 1", want: "for teachers"},
		{who: student, text: "daybook check 1", want: "for teachers"},
		{who: student, text: "daybook amend 1 nonsense", want: "for teachers"},
		{who: student, text: "daybook pin nonsense", want: "for teachers"},
		{who: student, text: "daybook unpin 1", want: "for teachers"},
		{who: student, text: "daybook export", want: "for teachers"},
		{who: student, text: "daybook summary", want: "for teachers"},
		{who: student, text: "daybook retention 1", want: "for teachers"},
		{who: master, text: "daybook show", want: "needs the number of an entry"},
		{who: master, text: "daybook show 0", want: "needs the number of an entry"},
		{who: master, text: "daybook check", want: "needs the number of an entry"},
		{who: master, text: "daybook unpin", want: "needs the number of a house rule"},
		{who: master, text: "daybook unpin 9", want: "no house rule 9"},
		{who: master, text: "daybook show 77", want: "has no entry 77"},
		{who: master, text: "daybook check 2", want: "was not understood"},
		{who: master, text: "daybook check 3", want: "about what is kept (bench)"},
		{who: master, text: "daybook amend 77 too long", want: "has no entry 77"},
		{who: master, text: "daybook amend 1", want: "what is the correction of entry 1?"},
		{who: master, text: "daybook amend the rim is too long", want: "type the entry's number, then the correction"},
		{who: master, text: "daybook amend", want: "amend needs some text"},
		{who: master, text: "daybook pin", want: "pin needs some text"},
		{who: master, text: "daybook pin " + strings.Repeat("long ", 50), want: "at most 200 characters; this one has 249"},
		{who: master, text: "daybook retention 5000", want: "0 to 3650 days"},
		{who: master, text: "daybook from 11/12/2026", want: "is not a day"},
		{who: master, text: "daybook from 2026-13-40", want: "is not a day"},
		{who: master, text: "daybook from today to yesterday", want: "swap them"},
		{who: master, text: "daybook summary before 3", want: "leave before out"},
		{who: master, text: "daybook mine collet", want: "daybook mine takes nothing more; leave request out"},
		{who: master, text: "daybook show 1 refused", want: "leave status out"},
		{who: master, text: "daybook sumary", want: "did you mean summary?"},
		{who: elsewhere(master, func(w *catalogue.Who) { w.Guild = "" }), text: "daybook retention 3", want: "there is no guild here"},
	} {
		r := k.say(t, tt.who, tt.text)
		if r.Refusal == nil || !strings.Contains(r.Refusal.Problem, tt.want) {
			t.Errorf("%s, %q: %s\nwant %q", tt.who.Maker, tt.text, requeststest.Told(r), tt.want)
			continue
		}
		if r.Refusal.Try == "" {
			t.Errorf("%q: nothing to try", tt.text)
			continue
		}
		if again := k.say(t, tt.who, r.Refusal.Try); again.Answer == nil {
			t.Errorf("%q offers %q: %s", tt.text, r.Refusal.Try, requeststest.Told(again))
		}
	}
}

func TestDaybookShowsWithTemplate(t *testing.T) {
	k := newClass(t)
	first := k.must(t, student, oval)
	want, err := first.Answer.Attachments[0].Render(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	r := k.must(t, master, "daybook show 1")
	a := r.Answer
	if a.Headline != first.Answer.Headline || len(a.Figures) != len(first.Answer.Figures) || len(a.Attachments) != len(first.Answer.Attachments) {
		t.Errorf("shown %+v", a)
	}
	if !strings.Contains(a.Notes[0], "no. 1, 23 Nov 2026 14:05, anna, typed: "+oval) {
		t.Errorf("notes %q", a.Notes)
	}
	got, err := a.Attachments[0].Render(t.Context())
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("the template differs: %d and %d bytes, %v", len(got), len(want), err)
	}
	// So it does from the buttons under what was shown.
	again, err := k.Recorded(t.Context(), r.Entry)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := again.Answer.Attachments[0].Render(t.Context()); err != nil || !bytes.Equal(got, want) {
		t.Errorf("the template of the button differs: %d bytes, %v", len(got), err)
	}
	// A refusal is shown as one, and what only changes something has no more to it.
	k.say(t, student, "gauge 99")
	if got := requeststest.Told(k.must(t, master, "daybook 3")); !strings.HasPrefix(got, "refused: ") {
		t.Errorf("shown %s", got)
	}
}

func TestDaybookAmends(t *testing.T) {
	k := newClass(t)
	first := k.must(t, student, oval)
	if err := k.Delivered(t.Context(), first.Entry, "message-77"); err != nil {
		t.Fatal(err)
	}
	ask := func(message, text string) bot.Reply {
		t.Helper()
		r, err := k.Handle(t.Context(), bot.Request{Who: master, Message: message, Text: text})
		if err != nil || r.Answer == nil {
			t.Fatalf("%s, %v", requeststest.Told(r), err)
		}
		return r
	}
	r := ask("m1", "daybook amend 1: from 0.6 mm sheet, cut 0.2 mm longer at the Rim; collet 7x5 is another")
	const text = "from 0.6 mm sheet, cut 0.2 mm longer at the Rim; collet 7x5 is another"
	if r.Answer.Headline != "correction to no. 1: "+text || r.Answer.InReplyTo != "message-77" || r.Answer.Alone {
		t.Errorf("answer %+v", r.Answer)
	}
	// As a late delivery would send it.
	if again, err := k.Recorded(t.Context(), r.Entry); err != nil || again.Answer.InReplyTo != "message-77" {
		t.Errorf("again %+v, %v", again.Answer, err)
	}
	ask("m2", "daybook amend 1 "+text) // the same again is kept once
	kept, err := k.book.Amendments(t.Context(), 1)
	if err != nil || len(kept) != 1 || kept[0].Text != text || kept[0].By != "dora" || !kept[0].At.Equal(monday) {
		t.Errorf("kept %+v, %v", kept, err)
	}
	shown := k.must(t, master, "daybook show 1")
	if !strings.Contains(requeststest.Told(shown), "corrected by the teacher, 23 Nov 2026: "+text) {
		t.Errorf("shown %s", requeststest.Told(shown))
	}
	e, err := k.book.ByID(t.Context(), 1)
	if err != nil || e.Headline != first.Answer.Headline {
		t.Errorf("the answer itself changed: %q, %v", e.Headline, err)
	}
	// The structured form of a slash command.
	s, err := k.Handle(t.Context(), bot.Request{Who: master, Command: "daybook", Options: map[string]string{"amend": "1 Second thoughts"}})
	if err != nil || s.Answer == nil || s.Answer.Headline != "correction to no. 1: Second thoughts" {
		t.Errorf("structured: %s, %v", requeststest.Told(s), err)
	}
}

func TestDaybookHouseRules(t *testing.T) {
	k := newClass(t)
	for range 2 { // the second changes nothing
		k.must(t, master, "daybook pin 1 mm rims here, depth 4")
	}
	k.must(t, master, "daybook pin goggles ON")
	stated := func(who catalogue.Who) string { return strings.Join(k.must(t, who, oval).Answer.Assumptions, "\n") }
	got := stated(student)
	for _, want := range []string{"house rule: 1 mm rims here, depth 4", "house rule: goggles ON"} {
		if !strings.Contains(got, want) {
			t.Errorf("not stated: %q in %s", want, got)
		}
	}
	for name, who := range map[string]catalogue.Who{
		"another channel":  elsewhere(student, func(w *catalogue.Who) { w.Channel = "c2" }),
		"another platform": elsewhere(student, func(w *catalogue.Who) { w.Platform = "matrix" }),
	} {
		if got := stated(who); strings.Contains(got, "house rule") {
			t.Errorf("%s states %s", name, got)
		}
	}
	list := k.must(t, student, "daybook rules")
	if got := requeststest.Told(list); got != "2 house rules of this channel, which each answer states | 1: 1 mm rims here, depth 4 | 2: goggles ON" {
		t.Error(got)
	}
	k.must(t, master, "daybook unpin 1")
	if got := stated(student); strings.Contains(got, "rims here") || !strings.Contains(got, "goggles ON") {
		t.Errorf("after unpinning: %s", got)
	}
	for i := range 20 {
		k.say(t, master, fmt.Sprint("daybook pin rule ", i))
	}
	if got := strings.Count(stated(student), "house rule: "); got != 8 {
		t.Errorf("%d rules are stated", got)
	}
}

func TestDaybookGuildRules(t *testing.T) {
	k := newClass(t)
	k.must(t, master, "daybook pin 1 mm rims here")
	k.must(t, master, "daybook guild pin goggles on, in every shop")
	next := elsewhere(student, func(w *catalogue.Who) { w.Channel = "c2" })
	for _, test := range []struct {
		name string
		who  catalogue.Who
		want string
	}{
		{"this channel", student, "house rule: 1 mm rims here; house rule of the guild: goggles on, in every shop"},
		{"another channel", next, "house rule of the guild: goggles on, in every shop"},
		{"another guild", elsewhere(student, func(w *catalogue.Who) { w.Guild, w.Channel = "g2", "c3" }), ""},
	} {
		var got []string
		for _, a := range k.must(t, test.who, oval).Answer.Assumptions {
			if strings.HasPrefix(a, "house rule") {
				got = append(got, a)
			}
		}
		if strings.Join(got, "; ") != test.want {
			t.Errorf("%s states %q", test.name, got)
		}
	}
	for who, want := range map[*catalogue.Who]string{
		&student: "1 house rule of this channel and 1 of the guild, which each answer states | 1: 1 mm rims here | 2, of the guild: goggles on, in every shop",
		&next:    "0 house rules of this channel and 1 of the guild, which each answer states | 2, of the guild: goggles on, in every shop",
	} {
		if got := requeststest.Told(k.must(t, *who, "daybook rules")); got != want {
			t.Error(got)
		}
	}
	// For teachers alone, also where somebody is alone with the bot.
	alone := elsewhere(student, func(w *catalogue.Who) { w.Channel, w.Direct = "d1", true })
	for _, who := range []catalogue.Who{student, alone} {
		for _, line := range []string{"daybook guild pin no goggles", "daybook unpin guild 2"} {
			if r := k.say(t, who, line); r.Refusal == nil || !strings.Contains(r.Refusal.Problem, "for teachers") {
				t.Errorf("%s: %s", line, requeststest.Told(r))
			}
		}
	}
	if r := k.say(t, elsewhere(master, func(w *catalogue.Who) { w.Guild, w.Direct = "", true }), "daybook guild pin x"); r.Refusal == nil || !strings.Contains(r.Refusal.Problem, "no guild here") {
		t.Errorf("without a guild: %s", requeststest.Told(r))
	}
	// Neither scope takes the other's away.
	for _, line := range []string{"daybook unpin 2", "daybook guild unpin 1"} {
		if r := k.say(t, master, line); r.Refusal == nil || !strings.Contains(r.Refusal.Problem, "has no house rule") {
			t.Errorf("%s: %s", line, requeststest.Told(r))
		}
	}
	for i := range 6 {
		k.say(t, master, fmt.Sprint("daybook guild pin rule ", i))
	}
	if r := k.say(t, master, "daybook guild pin one more"); r.Refusal == nil || !strings.Contains(r.Refusal.Problem, "remove one first: daybook guild unpin 2") {
		t.Errorf("one too many: %s", requeststest.Told(r))
	}
	k.must(t, master, "daybook guild unpin 2")
	// The structured form of a slash command.
	s, err := k.Handle(t.Context(), bot.Request{Who: master, Command: "daybook", Options: map[string]string{"pin": "goggles", "scope": "guild"}})
	if err != nil || s.Answer == nil || !strings.HasPrefix(s.Answer.Headline, "pinned for all channels of the guild") {
		t.Errorf("structured: %s, %v", requeststest.Told(s), err)
	}
	if got := strings.Join(k.must(t, next, oval).Answer.Assumptions, "; "); strings.Contains(got, "in every shop") || !strings.Contains(got, "of the guild: goggles") {
		t.Errorf("in the end: %s", got)
	}
}

func TestDaybookSummary(t *testing.T) {
	k := newClass(t)
	for range 3 {
		k.must(t, student, oval)
	}
	k.must(t, fellow, "gauge 22")
	for range 2 {
		k.say(t, fellow, "gauge 99")
	}
	k.say(t, fellow, "gibberish")
	k.must(t, master, "daybook")
	r := k.must(t, master, "daybook summary")
	got := requeststest.Told(r)
	for _, want := range []string{"7 requests: 4 answered, 3 refused, 0 failed", "asked most: ", "collet 3×", "gauge 3×", "not understood 1×", "outlines: oval 3×", "refused because: gauge ", " 2×; "} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nlacks %q", got, want)
		}
	}
	if f := r.Answer.Figures; len(f) != 4 || f[0].Value != 7 || f[1].Value != 4 || f[2].Value != 3 || f[3].Value != 0 {
		t.Errorf("figures %+v", f)
	}
	if got := requeststest.Told(k.must(t, master, "daybook summary gauge refused")); !strings.HasPrefix(got, "2 requests: 0 answered, 2 refused") {
		t.Error(got)
	}
}

// TestDaybookChecks plants a program of another version, whose figures differ.
func TestDaybookChecks(t *testing.T) {
	k := newClass(t)
	k.must(t, student, oval)
	if got := requeststest.Told(k.must(t, master, "daybook check 1")); !strings.Contains(got, "entry 1 still holds: all ") || !strings.Contains(got, "recorded by version v1, computed again by version v1") {
		t.Errorf("the same version: %s", got)
	}
	// What the maker's or the channel's bench holds by now makes no difference.
	k.must(t, student, "bench copper 18ga")
	k.must(t, master, "bench channel units inch")
	if got := requeststest.Told(k.must(t, master, "daybook check 1")); !strings.Contains(got, "entry 1 still holds") {
		t.Errorf("with another bench: %s", got)
	}

	// changed is the catalogue with another collet.
	changed := func(change func(*answer.Answer) error) []catalogue.Spec {
		specs := requests.All(k.book)
		answers := specs[0].Answer
		specs[0].Answer = func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			a, err := answers(ctx, c)
			if err == nil {
				err = change(a)
			}
			return a, err
		}
		return specs
	}
	check := func(name string, change func(*answer.Answer) error, want ...string) *answer.Answer {
		t.Helper()
		r := requeststest.Say(t, k.program("v2", changed(change)), master, "daybook check 1")
		got := requeststest.Told(r)
		for _, w := range append(want, "recorded by version v1, computed again by version v2") {
			if !strings.Contains(got, w) {
				t.Errorf("%s: %s\nlacks %q", name, got, w)
			}
		}
		return r.Answer
	}
	a := check("figures changed", func(a *answer.Answer) error {
		a.Figures[0].Value += 0.25
		a.Figures[1].Value += 1e-5
		a.Figures[2].Value *= 1 + 1e-12 // rounding of another processor
		a.Figures[3].ID = "renamed"
		return nil
	}, "entry 1: 4 of ", "to have the new answer, ask: "+oval)
	first := k.must(t, student, oval).Answer.Figures
	for i, want := range []string{
		", was " + first[0].Display(),
		", was " + fmt.Sprint(first[1].Value) + " mm", // less than is shown
		", was not given",
		"no longer in the answer, was " + first[3].Display(),
	} {
		if i >= len(a.Figures) || !strings.HasSuffix(a.Figures[i].Text, want) {
			t.Errorf("change %d is %+v, want %q", i, a.Figures, want)
		}
	}
	if len(a.Cautions) == 0 {
		t.Error("changed figures come without cautions")
	}
	check("refused today", func(*answer.Answer) error { return answer.Refuse(oval, "too thin for that") }, "entry 1 would be refused today: too thin for that")
	check("another wording", func(a *answer.Answer) error { a.Headline = "Saw it out."; return nil }, "the figures are the same, but the wording has changed", "today: Saw it out.")

	// What was refused then.
	k.say(t, student, "collet oval 8x6 depth 4 sterling 22ga lean 44")
	last, err := k.book.List(t.Context(), daybook.Filter{Platform: "discord", Guild: "g1", Channel: "c1", Status: daybook.Refused, Limit: 1})
	if err != nil || len(last) != 1 || last[0].Line == "" {
		t.Fatalf("%+v, %v", last, err)
	}
	line := fmt.Sprintf("daybook check %d", last[0].ID)
	if got := requeststest.Told(k.must(t, master, line)); !strings.Contains(got, "is still refused") {
		t.Errorf("refused then: %s", got)
	}
	specs := requests.All(k.book)
	specs[0].Answer = func(context.Context, *catalogue.Call) (*answer.Answer, error) {
		return &answer.Answer{Headline: "now it works"}, nil
	}
	if got := requeststest.Told(requeststest.Say(t, k.program("v2", specs), master, line)); !strings.Contains(got, "was refused and would be answered today: now it works") {
		t.Errorf("refused then, answered today: %s", got)
	}
}

// TestDaybookDoesNotCross tries to reach one room's entries from every other
// kind of room, by each way there is.
func TestDaybookDoesNotCross(t *testing.T) {
	k := newClass(t)
	k.must(t, student, "collet oval 8x6.75 depth 4 sterling 22ga") // 1, the one nobody else may see
	k.must(t, master, "daybook pin the secret rule 6.75")
	k.must(t, master, "daybook amend 1 the secret correction 6.75")
	alone := elsewhere(student, func(w *catalogue.Who) { w.Guild, w.Channel, w.Direct = "", "d1", true })
	strangers := map[string]catalogue.Who{
		"another channel":                    elsewhere(master, func(w *catalogue.Who) { w.Channel = "c2" }),
		"another guild":                      elsewhere(master, func(w *catalogue.Who) { w.Guild, w.Channel = "g2", "c9" }),
		"another guild, the channel's id":    elsewhere(master, func(w *catalogue.Who) { w.Guild = "g2" }),
		"no guild, the channel's id":         elsewhere(master, func(w *catalogue.Who) { w.Guild, w.Direct = "", true }),
		"another platform, all ids the same": elsewhere(master, func(w *catalogue.Who) { w.Platform = "matrix" }),
		"the guild's id as channel":          elsewhere(master, func(w *catalogue.Who) { w.Channel = "g1" }),
		"a wildcard":                         elsewhere(master, func(w *catalogue.Who) { w.Guild, w.Channel = "%", "%" }),
		"the same maker's id elsewhere":      elsewhere(student, func(w *catalogue.Who) { w.Platform, w.Teacher, w.Direct = "matrix", true, true }),
		"a maker's own direct chat":          elsewhere(alone, func(w *catalogue.Who) { w.Maker = "eve" }),
	}
	lines := []string{
		"daybook", "daybook show 1", "daybook 1", "daybook check 1", "daybook amend 1 crossing", "daybook export csv", "daybook export json",
		"daybook summary", "daybook rules", "daybook unpin 1", "daybook collet", "daybook maker anna", "daybook find 6.75", "daybook before 2",
		"daybook from 2026-01-01", "daybook mine", "daybook answered oval", "daybook check 2", "daybook show 2", "daybook show 3",
		"daybook find ' OR 1=1 --", "daybook maker %", "daybook find *",
	}
	for name, who := range strangers {
		if who.Maker == master.Maker {
			who.Maker = "mallory"
		}
		for _, line := range lines {
			// A channel's id is one of the platform, so rules and benches are
			// bound to it and not to the guild besides.
			if who.Platform == master.Platform && who.Channel == master.Channel && (line == "daybook rules" || line == "daybook unpin 1") {
				continue
			}
			r := k.say(t, who, line)
			whole := requeststest.Told(r)
			if r.Answer != nil {
				whole += fmt.Sprint(r.Answer.Figures, r.Answer.Steps, r.Answer.Assumptions, r.Answer.InReplyTo)
				for _, f := range r.Answer.Attachments {
					data, err := f.Render(t.Context())
					if err != nil {
						t.Errorf("%s, %q: %v", name, line, err)
					}
					whole += string(data)
				}
			}
			// What was typed is said again; nothing else of it may be there.
			whole = strings.ReplaceAll(whole, "find 6.75", "")
			whole = strings.ReplaceAll(whole, `"6.75"`, "")
			if strings.Contains(whole, "6.75") || strings.Contains(whole, "secret") {
				t.Errorf("%s, %q: %s", name, line, whole)
			}
		}
	}
	kept, err := k.book.Amendments(t.Context(), 1)
	if err != nil || len(kept) != 1 {
		t.Errorf("amended from elsewhere: %+v, %v", kept, err)
	}
	if got := requeststest.Told(k.must(t, student, "daybook rules")); !strings.Contains(got, "secret rule") {
		t.Errorf("unpinned from elsewhere: %s", got)
	}
	// The owner sees it, so that the test could have failed.
	if got := requeststest.Told(k.must(t, master, "daybook find 6.75")); !strings.Contains(got, "6.75") {
		t.Errorf("the room itself: %s", got)
	}
	// Retention of a guild is its own.
	k.must(t, strangers["another guild"], "daybook retention 1")
	k.now = k.now.AddDate(1, 0, 0)
	if _, err := k.book.Purge(t.Context(), k.now); err != nil {
		t.Fatal(err)
	}
	if _, err := k.book.ByID(t.Context(), 1); err != nil {
		t.Errorf("another guild's retention removed it: %v", err)
	}
	k.must(t, master, "daybook retention 90")
	if _, err := k.book.Purge(t.Context(), k.now); err != nil {
		t.Fatal(err)
	}
	if _, err := k.book.ByID(t.Context(), 1); err == nil {
		t.Error("the guild's own retention did not remove it")
	}
}

func TestDaybookPrivacy(t *testing.T) {
	k := newClass(t)
	k.must(t, student, oval)
	k.must(t, student, "bench copper")
	other := elsewhere(student, func(w *catalogue.Who) { w.Guild, w.Channel = "g2", "c7" })
	k.must(t, other, "gauge 18 ")
	k.must(t, fellow, "gauge 22")
	direct := elsewhere(student, func(w *catalogue.Who) { w.Guild, w.Channel, w.Direct = "", "d1", true })

	// In the channel, only what belongs there, and no file.
	r := k.must(t, student, "daybook mine")
	if got := requeststest.Told(r); !strings.HasPrefix(got, "stored about you in this guild | 2 entries: ") || !strings.Contains(got, "1 default on your bench") ||
		len(r.Answer.Attachments) != 0 || !r.Answer.Alone {
		t.Errorf("in the channel: %s", got)
	}
	// In a direct chat, everything.
	r = k.must(t, direct, "daybook mine")
	if len(r.Answer.Attachments) != 1 {
		t.Fatalf("in a direct chat: %s", requeststest.Told(r))
	}
	data, err := r.Answer.Attachments[0].Render(t.Context())
	var got struct {
		Maker   string
		Entries []struct{ Typed, Guild, Maker string }
		Bench   map[string]string
	}
	if err != nil || json.Unmarshal(data, &got) != nil {
		t.Fatalf("%v: %s", err, data)
	}
	if got.Maker != "anna" || len(got.Entries) != 4 || got.Bench["alloy"] != "copper" || got.Entries[2].Guild != "g2" {
		t.Errorf("file %+v", got)
	}
	if strings.Contains(string(data), "ben") && strings.Contains(string(data), `"maker": "ben"`) {
		t.Error("the file has another maker's entries")
	}
	// Buttons find the file again.
	again, err := k.Recorded(t.Context(), r.Entry)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := again.Answer.Attachments[0].Render(t.Context()); err != nil {
		t.Error(err)
	}

	// Forgetting asks first.
	r = k.must(t, student, "daybook forget")
	if got := requeststest.Told(r); !strings.Contains(got, "ask: daybook forget yes") {
		t.Errorf("first asking: %s", got)
	}
	if _, err := k.book.ByID(t.Context(), 1); err != nil {
		t.Fatalf("forgotten without a yes: %v", err)
	}
	r, err = k.Handle(t.Context(), bot.Request{Who: student, Message: "m9", Text: "daybook forget yes", Route: []byte(`{"asker":"anna"}`)})
	if err != nil || r.Answer == nil || !strings.HasPrefix(r.Answer.Headline, "forgotten: 6 entries") {
		t.Fatalf("%s, %v", requeststest.Told(r), err)
	}
	// The answer can still be sent late; then it goes too.
	left, err := k.book.Undelivered(t.Context(), "discord", time.Time{})
	if err != nil || len(left) != 2 || left[1].ID != r.Entry {
		t.Fatalf("undelivered %+v, %v", left, err)
	}
	if err := k.Delivered(t.Context(), r.Entry, "a9"); err != nil {
		t.Fatal(err)
	}
	if err := k.Delivered(t.Context(), r.Entry, "a9"); err != nil {
		t.Errorf("marked again: %v", err)
	}
	d, err := k.book.MakerData(t.Context(), "discord", "anna")
	if err != nil || len(d.Entries)+len(d.Settings)+len(d.Corrections)+len(d.Amendments)+len(d.Rules) != 0 {
		t.Errorf("left %+v, %v", d, err)
	}
	if d, err := k.book.MakerData(t.Context(), "discord", "ben"); err != nil || len(d.Entries) != 1 {
		t.Errorf("another maker has %+v, %v", d, err)
	}
}

// What only its asker may see goes with that mark through the daybook.
func TestAloneIsKept(t *testing.T) {
	k := newClass(t)
	r := k.must(t, master, "daybook")
	again, err := k.Recorded(t.Context(), r.Entry)
	if err != nil || !again.Answer.Alone {
		t.Errorf("again %+v, %v", again.Answer, err)
	}
}

func TestDaybookExports(t *testing.T) {
	k := newClass(t)
	k.must(t, student, oval)
	k.say(t, fellow, `=HYPERLINK("http://x";"y")`)
	k.must(t, fellow, "gauge 22")
	k.must(t, master, "daybook amend 1 -0.2 mm at the rim")
	r := k.must(t, master, "daybook export csv from monday")
	if !r.Answer.Alone || len(r.Answer.Attachments) != 1 || r.Answer.Attachments[0].Name != "daybook-1-to-3.csv" || r.Answer.Attachments[0].Type != "text/csv" {
		t.Fatalf("answer %+v", r.Answer)
	}
	file := func(a *answer.Answer) string {
		t.Helper()
		data, err := a.Attachments[0].Render(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	csv := file(r.Answer)
	for _, want := range []string{"\ufeffentry,at,maker,request,line,", "1,2026-11-23T14:05:00Z,anna,collet,", ",'-0.2 mm at the rim,v1,", "'=HYPERLINK", "rim_length (mm)"} {
		if !strings.Contains(csv, want) {
			t.Errorf("the file lacks %q:\n%s", want, csv)
		}
	}
	j := k.must(t, master, "daybook json collet")
	var got struct {
		Guild, Channel string
		Entries        []struct {
			Entry       int64
			Line        string
			Figures     []struct{ ID string }
			Corrections []struct{ Text, By string }
		}
	}
	if err := json.Unmarshal([]byte(file(j.Answer)), &got); err != nil {
		t.Fatal(err)
	}
	if got.Guild != "g1" || len(got.Entries) != 1 || got.Entries[0].Line != oval+" no bench" || len(got.Entries[0].Figures) < 5 ||
		len(got.Entries[0].Corrections) != 1 || got.Entries[0].Corrections[0].By != "dora" {
		t.Errorf("JSON %+v", got)
	}
	// The file of the button, after a restart and with more asked meanwhile, is
	// the same one.
	k.now = k.now.AddDate(0, 0, 9)
	k.must(t, student, "gauge 18")
	again, err := k.program("v1", requests.All(k.book)).Recorded(t.Context(), r.Entry)
	if err != nil {
		t.Fatal(err)
	}
	if file(again.Answer) != csv {
		t.Errorf("the file of the button is another:\n%s", file(again.Answer))
	}
	if empty := k.must(t, master, "daybook export dome"); len(empty.Answer.Attachments) != 0 || !strings.Contains(requeststest.Told(empty), "there is no file") {
		t.Errorf("nothing fits: %s", requeststest.Told(empty))
	}
}
