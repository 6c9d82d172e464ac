package daybookrequest

import (
	"context"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/words"
)

// bookPage is how many entries a list shows; a phone takes about as many.
const bookPage = 10

// daysInUTC is said where days were named, since a platform does not tell where
// its makers are.
const daysInUTC = "days are counted in UTC"

// chosen is what the typed options choose of the room, and the line that
// chooses the same on any later day.
func (b *bookCall) chosen(deed string) (f daybook.Filter, line string, err error) {
	f = daybook.Filter{
		Platform: b.room.Platform, Guild: b.room.Guild, Channel: b.room.Channel,
		Request: b.Args.Word("request"), Outline: b.Args.Word("outline"), Status: daybook.Status(b.Args.Word("status")),
		Maker: b.maker(), Text: b.Args.Word("find"), Before: int64(b.Args.Number("before", 0)),
	}
	words := []string{"daybook"}
	if deed != bookList {
		words = append(words, deed)
	}
	for _, o := range []string{"format", "request", "outline", "status"} {
		if v := b.Args.Word(o); v != "" {
			words = append(words, v)
		}
	}
	if f.Maker != "" {
		words = append(words, "maker", f.Maker)
	}
	for _, o := range []string{"from", "to"} {
		text := b.Args.Word(o)
		if text == "" {
			continue
		}
		day, ok := readDay(text, b.Now)
		if month, is := readMonth(text, b.Now); is {
			if day, ok = month, true; o == "to" {
				day = month.AddDate(0, 1, -1)
			}
		}
		if !ok {
			return f, "", answer.Refuse(b.Retyped(map[string]string{o: "yesterday"}),
				"%s %q is not a day; write 2026-11-25, 25.11.2026, 25-november, 25th, november, today, yesterday, a weekday, or 7d for seven days ago", o, text)
		}
		words = append(words, o, day.Format(time.DateOnly))
		if o == "from" {
			f.From = day
		} else {
			f.To = day.AddDate(0, 0, 1)
		}
	}
	if !f.From.IsZero() && !f.To.IsZero() && !f.From.Before(f.To) {
		return f, "", answer.Refuse(b.Retyped(map[string]string{"from": b.Args.Word("to"), "to": b.Args.Word("from")}),
			"the first day is after the last; swap them")
	}
	if f.Before > 0 {
		words = append(words, "before", strconv.FormatInt(f.Before, 10))
	}
	if f.Text != "" {
		words = append(words, "find", f.Text)
	}
	return f, strings.Join(words, " "), nil
}

// days tells in an answer that days were counted in UTC, where any were.
func (b *bookCall) days(a *answer.Answer) *answer.Answer {
	if b.Args.Has("from") || b.Args.Has("to") {
		a.Assumptions = append(a.Assumptions, daysInUTC)
	}
	return a
}

// mention is how a platform writes that somebody is meant.
var mention = regexp.MustCompile(`^<@[!&]?([^<>]+)>?$`)

// maker is the maker that was named, by mention or id.
func (b *bookCall) maker() string {
	text := b.Args.Word("maker")
	if strings.EqualFold(text, "me") && b.Who.Maker != "" {
		return b.Who.Maker
	}
	if m := mention.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return text
}

var (
	daysAgo    = regexp.MustCompile(`^(\d{1,4})(d|days?|w|weeks?)$`)
	dayAlone   = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)$`)
	dayOfMonth = regexp.MustCompile(`^(\d{1,2})-?([a-z]{3,9})$`)
	dayForms   = []string{"2006-1-2", "2006/1/2", "2006.1.2", "20060102", "2.1.2006"}
)

// readDay reads a day as people type it and gives its beginning in UTC. Forms
// that mean different days in different countries are not read.
func readDay(text string, now time.Time) (time.Time, bool) {
	now = now.UTC()
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	text = strings.ToLower(strings.TrimSpace(text))
	switch text {
	case "today", "now":
		return today, true
	case "yesterday":
		return today.AddDate(0, 0, -1), true
	}
	if m := daysAgo.FindStringSubmatch(text); m != nil {
		n, _ := strconv.Atoi(m[1]) // at most four digits
		if m[2][0] == 'w' {
			n *= 7
		}
		return today.AddDate(0, 0, -n), true
	}
	for back := range 7 {
		day := today.AddDate(0, 0, -back)
		if name := strings.ToLower(day.Weekday().String()); text == name || text == name[:3] {
			return day, true
		}
	}
	if m := dayAlone.FindStringSubmatch(text); m != nil {
		return latestDayOfAMonth(m[1], today)
	}
	if m := dayOfMonth.FindStringSubmatch(text); m != nil {
		return latestDay(m[1], m[2], today)
	}
	for _, form := range dayForms {
		if day, err := time.Parse(form, text); err == nil && day.Year() >= 2000 && day.Year() < 2200 {
			return day, true
		}
	}
	return time.Time{}, false
}

// latestDay is the latest day of that number and month that is not after today.
func latestDay(number, month string, today time.Time) (time.Time, bool) {
	n, _ := strconv.Atoi(number)       // two digits
	for back := range leapsApart + 1 { // the 29th of February is not in every year
		first, ok := monthOf(month, today.Year()-back)
		day := first.AddDate(0, 0, n-1)
		if !ok || n < 1 {
			return time.Time{}, false
		}
		if day.Month() == first.Month() && !day.After(today) {
			return day, true
		}
	}
	return time.Time{}, false
}

// latestDayOfAMonth is the latest day with that number that is not after today: of two
// months in a row, one has all 31.
func latestDayOfAMonth(number string, today time.Time) (time.Time, bool) {
	n, _ := strconv.Atoi(number) // two digits
	for back := range 3 {
		first := time.Date(today.Year(), today.Month()-time.Month(back), 1, 0, 0, 0, 0, time.UTC)
		if day := first.AddDate(0, 0, n-1); n > 0 && day.Month() == first.Month() && !day.After(today) {
			return day, true
		}
	}
	return time.Time{}, false
}

// leapsApart is how many years may lie between two leap years.
const leapsApart = 8

// readMonth reads the name of a month and gives the beginning of the latest one that has
// begun, in UTC.
func readMonth(text string, now time.Time) (time.Time, bool) {
	now = now.UTC()
	first, ok := monthOf(strings.ToLower(strings.TrimSpace(text)), now.Year())
	if ok && first.After(now) {
		first = first.AddDate(-1, 0, 0)
	}
	return first, ok
}

// monthOf is the beginning of a month by its name, whole or of three letters.
func monthOf(name string, year int) (time.Time, bool) {
	for month := time.January; month <= time.December; month++ {
		if whole := strings.ToLower(month.String()); name == whole || name == whole[:3] || name == "sept" && month == time.September {
			return time.Date(year, month, 1, 0, 0, 0, 0, time.UTC), true
		}
	}
	return time.Time{}, false
}

// walk passes the chosen entries to each, latest first, until it says no. What
// was asked of the daybook itself is left out.
func (b *bookCall) walk(ctx context.Context, f daybook.Filter, page int, each func(*daybook.Entry) bool) error {
	f.Limit = page
	for {
		entries, err := b.book.List(ctx, f)
		if err != nil {
			return err
		}
		for i := range entries {
			if entries[i].Request != b.Spec.Name && !each(&entries[i]) {
				return nil
			}
		}
		if len(entries) < page {
			return nil
		}
		f.Before = entries[len(entries)-1].ID
	}
}

// entryRunes is how much of an entry a list shows: a terminal's line, two of a
// phone; refusedRunes how much of a request that was refused, before the reason.
// daybook show has the whole.
const entryRunes, refusedRunes = 76, 24

// listTag is entryTag without the year that it is now.
func listTag(e *daybook.Entry, now time.Time) string {
	tag := entryTag(e)
	if at := e.At.UTC(); at.Year() == now.UTC().Year() {
		return strings.Replace(tag, at.Format(" 2006 "), " ", 1)
	}
	return tag
}

// clipped shortens a text to so many characters.
func clipped(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

func listEntries(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	f, line, err := b.chosen(bookList)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{Line: line, Alone: true}
	var last int64
	more := false
	err = b.walk(ctx, f, 5*bookPage, func(e *daybook.Entry) bool {
		if len(a.Notes) == bookPage {
			more = true
			return false
		}
		last = e.ID
		note := listTag(e, b.Now) + ": "
		if e.Status == daybook.Answered {
			note += asked(e)
		} else {
			note += clipped(asked(e), refusedRunes) + " (" + string(e.Status) + ": " + e.Problem + ")"
		}
		a.Notes = append(a.Notes, clipped(note, entryRunes))
		return true
	})
	if err != nil {
		return nil, err
	}
	chosen := line != "daybook"
	switch n := len(a.Notes); {
	case n == 0 && chosen:
		a.Headline = "nothing in this channel's daybook matches"
	case n == 0:
		a.Headline = "nobody has asked anything in this channel yet"
	case chosen:
		a.Headline = fmt.Sprintf("%s of this channel that match, latest first", words.Counted(n, "entry", "entries"))
	default:
		a.Headline = fmt.Sprintf("the latest %s of this channel", words.Counted(n, "entry", "entries"))
	}
	if more {
		a.Notes = append(a.Notes, "older: "+olderLine(line, last))
	}
	return b.days(a), nil
}

var beforeWord = regexp.MustCompile(` before \d+`)

// olderLine is a list's line for its next page. The words to find stand last.
func olderLine(line string, before int64) string {
	line = beforeWord.ReplaceAllString(line, "")
	at := strings.Index(line, " find ")
	if at < 0 {
		at = len(line)
	}
	return line[:at] + " before " + strconv.FormatInt(before, 10) + line[at:]
}

// bookMost is how many lines each ranking of a summary has.
const bookMost = 6

func summarise(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	f, line, err := b.chosen(bookSummary)
	if err != nil {
		return nil, err
	}
	s, err := b.book.Summary(ctx, f)
	if err != nil {
		return nil, err
	}
	// What was asked of the daybook is no part of the class.
	own := f
	own.Request = b.Spec.Name
	if f.Request == "" {
		o, err := b.book.Summary(ctx, own)
		if err != nil {
			return nil, err
		}
		s = without(s, o)
	}
	of := map[string]int{}
	for _, c := range s.Statuses {
		of[c.Name] = c.N
	}
	a := &answer.Answer{
		Line: line, Alone: true,
		Headline: fmt.Sprintf("%s: %d answered, %d refused, %d failed",
			words.Counted(s.Total, "request", "requests"), of[string(daybook.Answered)], of[string(daybook.Refused)], of[string(daybook.Failed)]),
		Figures: []answer.Figure{
			{ID: "asked", Label: "asked", Value: float64(s.Total), Unit: answer.Count, Main: true},
			{ID: "answered", Label: "answered", Value: float64(of[string(daybook.Answered)]), Unit: answer.Count, Main: true},
			{ID: "refused", Label: "refused", Value: float64(of[string(daybook.Refused)]), Unit: answer.Count, Main: true},
			{ID: "failed", Label: "failed", Value: float64(of[string(daybook.Failed)]), Unit: answer.Count, Main: true},
		},
	}
	rank := func(lead string, counts []daybook.Count, sep string) {
		var parts []string
		for _, c := range counts {
			if name := c.Name; c.N > 0 && len(parts) < bookMost {
				if name == "" {
					name = "not understood"
				}
				parts = append(parts, fmt.Sprintf("%s %d×", name, c.N))
			}
		}
		if len(parts) > 0 {
			a.Notes = append(a.Notes, lead+strings.Join(parts, sep))
		}
	}
	rank("asked most: ", s.Requests, ", ")
	rank("outlines: ", s.Outlines, ", ")
	rank("refused because: ", s.Problems, "; ")
	return b.days(a), nil
}

// without takes one summary out of another.
func without(s, part daybook.Summary) daybook.Summary {
	s.Total -= part.Total
	for _, lists := range [][2]*[]daybook.Count{
		{&s.Requests, &part.Requests}, {&s.Outlines, &part.Outlines}, {&s.Statuses, &part.Statuses}, {&s.Problems, &part.Problems},
	} {
		less := map[string]int{}
		for _, c := range *lists[1] {
			less[c.Name] = c.N
		}
		var left []daybook.Count
		for _, c := range *lists[0] {
			if c.N -= less[c.Name]; c.N > 0 {
				left = append(left, c)
			}
		}
		*lists[0] = left
	}
	return s
}
