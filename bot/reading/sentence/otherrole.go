package sentence

import (
	"math"
	"slices"
	"strings"
)

// A figure is told again where its first role was wrong: "2.3 thick. No, 2.3 is the width",
// "1.8 wide, no wait that's the thickness", "5 in inside, 5 mm not inches, sorry".

// takesBack are words that take back what was said just before or just after them. "No" does
// so only where it stands by itself.
var takesBack = []string{"sorry", "excuse me", "pardon", "no wait", "wait no", "no hang on", "hang on", "correction", "i mean", "i meant", "scratch that", "my mistake", "other way round", "other way around", "wrong way round", "oops", "no its", "no thats", "no that", "no it"}

// correctsBetween reports whether words between two tokens take something back.
func (m *message) correctsBetween(first, next int) bool {
	text := " " + m.between(first, next) + " "
	for _, w := range takesBack {
		if strings.Contains(text, " "+w+" ") {
			return true
		}
	}
	for i := first; i < next; i++ {
		before, after := m.at(i-1).text, m.at(i+1)
		if m.at(i).text == "no" && (before == "." || before == ",") && (after.text == "," || after.number) {
			return true
		}
	}
	return false
}

// wordOfRole is the word of a role right beside a figure: behind it, past "is the", or before.
func (m *message) wordOfRole(q *quantity) *sense {
	next := q.next
	for next < q.next+3 && contains([]string{"is", "its", "the", "was", "for", "thats", "that", "be", "should", "how"}, m.at(next).text) {
		next++
	}
	before := q.first
	for before > q.first-2 && contains([]string{"is", "of", "=", "the", "at"}, m.at(before-1).text) {
		before--
	}
	for _, first := range []int{q.next, next} {
		for i := range m.senses {
			if s := &m.senses[i]; s.Role != "" && s.first == first {
				return s
			}
		}
	}
	for i := range m.senses {
		if s := &m.senses[i]; s.Role != "" && !s.After && s.next == before {
			return s
		}
	}
	return nil
}

// otherRole takes the first place of a figure back that is told again in another one.
func (m *message) otherRole() {
	m.figureToldAgain()
	m.thatIsOther()
}

// figureToldAgain drops a figure that is told again with another role or another unit.
func (m *message) figureToldAgain() {
	for l := 1; l < len(m.found); l++ {
		b := m.found[l]
		for k := l - 1; k >= 0; k-- {
			a := m.found[k]
			if !plainLength(a) || !plainLength(b) || m.denied(b.first) || m.at(a.first).text != m.at(b.first).text || !m.at(a.first).number {
				continue
			}
			if !m.correctsBetween(a.next, b.first) && !m.correctsBetween(b.next, min(len(m.tokens), b.next+5)) {
				continue
			}
			was, is := m.wordOfRole(a), m.wordOfRole(b)
			switch {
			case math.Abs(a.value-b.value) > 1e-9 && a.unit && b.unit && is == nil: // "5 in, 5 mm not inches"
				m.assume("%s replaces %s, as you corrected it", strings.TrimSpace(b.typed(m)), strings.TrimSpace(a.typed(m)))
				a.measure, a.unit, a.value, a.shown = b.measure, b.unit, b.value, b.shown
				m.found = slices.Delete(m.found, l, l+1)
			case was != nil && is != nil && was != is && was.Role != is.Role && math.Abs(a.value-b.value) < 1e-9:
				m.assume("%s is the %s, as you corrected it", strings.TrimSpace(b.typed(m)), sideWord(is.Role))
				b.unit, b.measure, b.shown = b.unit || a.unit, max(a.measure, b.measure), longer(a.shown, b.shown)
				b.role, b.mends, is.used = is.Role, true, true
				m.unsay(was)
				m.found = slices.Delete(m.found, k, k+1)
			default:
				continue
			}
			l = 0
			break
		}
	}
}

// sideWord is a role as people call it.
func sideWord(role string) string {
	switch role {
	case "outer":
		return "outside"
	case "inner":
		return "inside"
	}
	return role
}

// plainLength reports whether a figure is a length or has no unit.
func plainLength(q *quantity) bool { return q.measure == length || q.measure == bare }

func longer(a, b string) string {
	if len(a) > len(b) {
		return a
	}
	return b
}

// thatIsOther gives the figure before a correction the role that it has: "1.8 wide, no wait
// that's the thickness".
func (m *message) thatIsOther() {
	for i := range m.senses {
		is := &m.senses[i]
		if is.Role == "" || is.After && is.first == 0 {
			continue
		}
		start := is.first
		for start > 0 && start > is.first-3 && contains([]string{"the", "is", "thats", "that", "its", "it", "be"}, m.at(start-1).text) {
			start--
		}
		said := m.between(start, is.first)
		if said != "thats the" && said != "that is the" && said != "its the" && said != "it is the" && said != "thats" || !m.correctsBetween(start-3, start+1) {
			continue
		}
		a := m.quantityEndingBefore(start)
		if a == nil || !a.mayBe(is.Role) {
			continue
		}
		was := m.wordOfRole(a)
		if was == nil || was == is || was.Role == is.Role || was.first >= start {
			continue
		}
		m.assume("%s is the %s, as you corrected it", strings.TrimSpace(a.typed(m)), sideWord(is.Role))
		a.role, is.used = is.Role, true
		m.unsay(was)
	}
}

// quantityEndingBefore is the last plain length before a token.
func (m *message) quantityEndingBefore(i int) (last *quantity) {
	for _, q := range m.found {
		if q.next <= i && plainLength(q) {
			last = q
		}
	}
	return last
}
