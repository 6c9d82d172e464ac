package sentence

import (
	"math"
	"slices"
)

// Numbers that measure nothing: a birthday, a year, the hour, the page of a book,
// how long somebody has done this. They are passed over, and the words beside them
// stay words.

// afterAside are words after a number that make it a span of time, an age or a
// place in a list.
var afterAside = map[string]bool{
	"years": true, "year": true, "yrs": true, "yr": true, "weeks": true, "week": true, "months": true, "month": true, "minutes": true, "minute": true, "mins": true, "min": true,
	"goes": true, "tries": true, "attempts": true, "tonight": true,
	"seconds": true, "second": true, "secs": true, "hours": true, "hour": true, "hrs": true, "decades": true, "oclock": true, "am": true, "pm": true,
}

// beforeAside are words before a whole number that name a page, a lesson or an
// attempt by it.
var beforeAside = map[string]bool{
	"page": true, "pages": true, "pg": true, "chapter": true, "exercise": true, "lesson": true, "fig": true, "module": true, "week": true, "room": true, "bench": true, "attempt": true, "version": true, "part": true, "episode": true, "video": true, "unit": true, "try": true,
}

// yearLeads come before a year.
var yearLeads = map[string]bool{"since": true, "in": true, "from": true, "of": true, "until": true, "till": true, "before": true, "after": true, "around": true, "about": true, "circa": true, "year": true, "early": true, "late": true, "the": true, "back": true, "june": true, "july": true, "may": true, "march": true, "april": true, "august": true, "spring": true, "summer": true}

// timed are words of a lesson or a day, which have an hour.
var timed = map[string]bool{"class": true, "classes": true, "starts": true, "start": true, "starting": true, "finishing": true, "finish": true, "finishes": true, "ends": true, "end": true, "opens": true, "open": true, "closes": true, "close": true, "tonight": true, "tomorrow": true, "today": true, "lesson": true, "bed": true, "meeting": true, "leave": true, "home": true, "here": true, "shuts": true, "lunch": true}

// secondOf are what there is a first and a second of: "first row 1.2 second row 1.5".
var secondOf = map[string]bool{"row": true, "one": true, "ring": true, "halo": true, "circle": true, "stone": true, "size": true, "tier": true, "layer": true, "band": true, "piece": true, "tube": true}

// passOver takes the numbers that measure nothing out of the message.
func (m *message) passOver() {
	m.found = slices.DeleteFunc(m.found, m.isAside)
}

// ofPerson matches how tall somebody is: "he's 6ft 4".
func (m *message) ofPerson(q *quantity) bool {
	feet := func(i int) bool {
		w := m.at(i).text
		return w == "ft" || w == "foot" || w == "feet" || w == "'"
	}
	someone := func(i int) bool {
		w := m.at(i).text
		return w == "hes" || w == "shes" || w == "im" || w == "am" || w == "theyre"
	}
	if feet(q.next-1) && q.measure == length && m.at(q.first).value >= 4 && m.at(q.first).value <= 7 {
		return someone(q.first - 1)
	}
	return q.measure == bare && feet(q.first-1) && m.at(q.first-2).number && someone(q.first-3)
}

// isAge matches how old a child is, where no ring is spoken of whose size it may be: "for my
// niece, she's 9".
func (m *message) isAge(q *quantity) bool {
	const eldest = 17
	lead := slices.Contains([]string{"shes", "hes", "turns", "turned", "turning", "aged"}, m.at(q.first-1).text)
	child := m.says("niece", "nephew", "grandson", "granddaughter", "granddaughters", "daughter", "son", "kid", "little girl", "little boy", "goddaughter", "godson")
	return q.measure == bare && lead && child && q.value == math.Trunc(q.value) && q.value <= eldest && !m.says("ring", "rings", "band", "bands", "size", "finger", "bangle", "wrist")
}

// inWeave matches the numbers of a weave of rings, "european 4 in 1", which count what
// passes through each and say nothing of a ring.
func (m *message) inWeave(q *quantity) bool {
	return m.at(q.next).text == "in" && m.at(q.next+1).text == "1" && q.value >= 1 && q.value <= 12 && !unitLike(m.at(q.next+2).text) ||
		q.value == 1 && m.at(q.first-1).text == "in" && m.at(q.first-2).number && m.at(q.first-2).value <= 12
}

func (m *message) isAside(q *quantity) bool {
	before, after := m.at(q.first-1).text, m.at(q.next).text
	whole := q.value == math.Trunc(q.value)
	switch {
	case m.ofPerson(q), m.isAge(q):
		return true
	case q.measure == ringSize, q.measure == size, q.measure == money:
		return false
	case q.value == 0 && (before == "weighs" || before == "weigh"):
		return true
	case q.measure == percent:
		return q.value == 100 && (after == "sure" || after == "certain")
	case q.measure != bare && q.measure != count:
		return false
	case m.inWeave(q), before == "jpl" && q.value == 3:
		return true
	case q.measure == bare && math.Abs(q.value-math.Pi) < 0.005 && (before == "x" || before == "times" || before == "by"):
		return true // "thickness x 3.14"
	case m.at(q.next).glued && (after == "st" || after == "nd" || after == "rd" || after == "th"): // "her 40th"
		return whole
	case after == "second" && secondOf[m.at(q.next+1).text]:
		return false
	case afterAside[after] && !(after == "min" && m.at(q.next+1).text == "and"):
		return q.measure == bare || q.thing == ""
	case q.measure == count:
		return false
	case beforeAside[before]:
		return whole && q.value < 1000
	case whole && q.value >= 1900 && q.value <= 2099 && yearLeads[before]:
		return true
	case after == "of" && m.at(q.next+1).text == "us":
		return true
	case before == "at" && m.at(q.first-2).text == "it": // "leave it at 6"
		return false
	case whole && q.value <= 24 && (before == "at" || before == "by" || before == "till" || before == "until" || before == "from"):
		for k := q.first - 2; k >= q.first-4; k-- {
			if timed[m.at(k).text] {
				return true
			}
		}
	}
	return false
}
