package sentence

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Days of the daybook as people say them, in the forms that it reads.

// isoDay is a day in figures that means the same everywhere.
var isoDay = regexp.MustCompile(`\b20\d\d-\d\d?-\d\d?\b`)

// daysOf are how many days a word for a time has.
var daysOf = map[string]float64{"day": 1, "days": 1, "d": 1, "week": 7, "weeks": 7, "wk": 7, "wks": 7, "fortnight": 14, "fortnights": 14, "month": 30, "months": 30}

// weekdays are the names of days that the daybook reads.
var weekdays = map[string]string{"monday": "monday", "tuesday": "tuesday", "wednesday": "wednesday", "thursday": "thursday", "friday": "friday", "saturday": "saturday", "sunday": "sunday",
	"tue": "tuesday", "tues": "tuesday", "weds": "wednesday", "thur": "thursday", "thurs": "thursday", "fri": "friday"}

// bookDays takes the days that a message asks for: yesterday, "2 weeks ago", "since
// monday", or two days in figures.
func (d *draft) bookDays() {
	m := d.m
	if days := isoDay.FindAllString(m.typed, -1); len(days) > 0 {
		d.say("from", days[0])
		d.say("to", days[len(days)-1])
		if len(days) == 1 && m.says("since", "from", "after") {
			delete(d.options, "to")
		}
		return
	}
	if d.namedDays() {
		return
	}
	switch days, approximate := m.daysBack(); {
	case m.says("yesterday"):
		d.say("from", "yesterday")
		d.say("to", "yesterday")
	case days > 0:
		end := "from"
		if m.says("older than", "older", "before") {
			end = "to"
		}
		d.say(end, plain(days)+"d")
		if approximate {
			d.note("a month is taken as 30 days")
		}
	case m.weekday() != "":
		d.say("from", m.weekday())
		switch {
		case m.says("last"):
			d.note("last %s can also mean the one a week earlier; write its date for that", m.weekday())
		case !m.says("since", "from", "after", "until", "til", "till", "to today"):
			d.say("to", m.weekday())
		}
	case m.says("today"):
		d.say("from", "today")
	case m.says("week"):
		d.say("from", "7d")
	}
}

// months are the names of months, whole and short.
var months = []string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december", "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sep", "sept", "oct", "nov", "dec"}

// besideMonth stand before a month that is no other word: "in may".
var besideMonth = []string{"in", "since", "from", "to", "until", "till", "last", "during", "of", "through", "and", "before", "after"}

// namedDays takes days by the names of their months: "since 1 March", "24 Nov to 26 Nov",
// "in October"; the daybook takes the latest such day.
func (d *draft) namedDays() bool {
	m := d.m
	var days []string
	for i, t := range m.tokens {
		if !slices.Contains(months, t.text) {
			continue
		}
		before, after := m.at(i-1), m.at(i+1)
		if before.text == "of" {
			before = m.at(i - 2)
		}
		switch number := dayNumber(before); {
		case number != "":
			days = append(days, number+"-"+t.text)
		case dayNumber(after) != "":
			days = append(days, dayNumber(after)+"-"+t.text)
		case slices.Contains(besideMonth, m.at(i-1).text), slices.Contains(months[:12], t.text) && t.text != "may" && t.text != "march":
			days = append(days, t.text)
		}
	}
	if len(days) == 0 {
		days = m.daysByNumber()
	}
	if len(days) == 0 {
		return false
	}
	d.say("from", days[0])
	d.say("to", days[len(days)-1])
	switch {
	case len(days) > 1:
	case m.says("since", "from", "after"):
		delete(d.options, "to")
	case m.says("before", "until", "till", "up to"):
		delete(d.options, "from")
	}
	return true
}

// daysByNumber are days that are told without their month: "on the 14th".
func (m *message) daysByNumber() (days []string) {
	for i := range m.tokens {
		end := m.at(i + 1)
		if n := dayNumber(m.at(i)); n != "" && m.at(i).number && end.glued && ordinalEnds[end.text] {
			days = append(days, n+end.text)
		}
	}
	return days
}

// ordinalEnds come behind the figure of a day.
var ordinalEnds = map[string]bool{"st": true, "nd": true, "rd": true, "th": true}

// dayNumber is the number of a day in a month, "1" or "1st", empty for none.
func dayNumber(t token) string {
	number := strings.TrimRight(t.text, "stndrh")
	if n, err := strconv.Atoi(number); err == nil && n >= 1 && n <= 31 {
		return number
	}
	return ""
}

// besideNamedMonth reports whether a figure is the day of a month.
func (m *message) besideNamedMonth(q *quantity) bool {
	before, after := m.at(q.first-1).text, m.at(q.next).text
	if after == "of" {
		after = m.at(q.next + 1).text
	}
	return slices.Contains(months, before) || slices.Contains(months, after)
}

// daysBack is how many days a message looks back, 0 where it doesn't say: "2 weeks
// ago", "in the past month", "this fortnight". A month is only about so many.
func (m *message) daysBack() (days float64, approximate bool) {
	for i, t := range m.tokens {
		each := daysOf[t.text]
		if each == 0 || i == 0 {
			continue
		}
		before := m.at(i - 1)
		n := 0.0
		switch {
		case before.number:
			n = before.value
		case numberWords[before.text] >= 2:
			n = numberWords[before.text]
		case each > 7 && slices.Contains([]string{"last", "past", "this", "a", "the", "one"}, before.text):
			n = 1
		}
		const most = 3650
		if n >= 1 && n == math.Trunc(n) && n*each <= most && !strings.HasPrefix(before.text, "-") {
			return n * each, each == daysOf["month"]
		}
	}
	return 0, false
}

// weekday is the one day of the week that a message names, empty for none or several.
func (m *message) weekday() (only string) {
	for _, t := range m.tokens {
		if day := weekdays[t.text]; day != "" && day != only {
			if only != "" {
				return ""
			}
			only = day
		}
	}
	return only
}

// numbersEntry are words right before the number of an entry.
var numbersEntry = []string{"number", "numbers", "no", "no.", "#", "entry", "entries", "answer", "id", "amend", "unpin"}

// saysEntry reports whether a whole number is that of an entry by the word before it:
// "answer 8", "no 27 is wrong".
func (m *message) saysEntry(q *quantity) bool {
	before := strings.TrimSuffix(m.at(q.first-1).text, ".")
	if before == "" && m.at(q.first-1).text == "." {
		before = m.at(q.first - 2).text // "no. 27"
	}
	after := daysOf[m.at(q.next).text] > 0 || m.at(q.next).text == "of"
	return slices.Contains(numbersEntry, before) && !after
}
