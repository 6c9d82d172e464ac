package sentence

import (
	"slices"
	"strings"
)

// A figure may be told by another of the message: "half as tall as it's wide", "a third
// of the length deep", "twice as thick as 24 gauge". It is worked out, and the answer
// says what it comes to.

// shareRoles are the words of what a share measures, and sharedOf those of what it is a
// share of.
var (
	shareRoles = map[string]string{"tall": "height", "high": "height", "height": "height", "deep": "depth", "depth": "depth", "thick": "thickness", "thickness": "thickness", "dome": "dome"}
	sharedOf   = map[string]string{"wide": "width", "width": "width", "across": "width", "diameter": "width", "long": "length", "length": "length", "deep": "depth", "depth": "depth"}
	shareFills = []string{"it", "its", "is", "the", "as", "of", "stone", "stones", "our", "usual", "my", "that", "thats", "they", "are", "a", "cab"}
)

// share is what a run of words says of a measure by another.
type share struct {
	factor      float64
	first, next int
	role        string
	of          string
	// figure is the one that is multiplied, nil where of names a side.
	figure *quantity
}

// shares makes figures of shares whose other figure is told.
func (m *message) shares() {
	for i := range m.tokens {
		s, ok := m.shareAt(i)
		if !ok || slices.ContainsFunc(m.found, func(q *quantity) bool { return m.besideRole(q, s.role) && s.figure != q && q.first >= s.next }) {
			continue
		}
		whole, of := m.wholeOf(s)
		if whole <= 0 {
			continue
		}
		v := plain2(whole * s.factor)
		for k := range m.senses {
			if a := &m.senses[k]; a.first >= s.first && a.first < s.next && a.Role != "" {
				m.unsay(a)
			}
		}
		m.assume("%s is %s mm, of %s", m.between(s.first, s.next), v, of)
		q := &quantity{measure: length, value: parse(v), shown: v + " mm", unit: true, role: s.role, first: s.first, next: s.next}
		m.found = slices.DeleteFunc(m.found, func(other *quantity) bool { return other.first >= s.first && other.first < s.next })
		at := slices.IndexFunc(m.found, func(other *quantity) bool { return other.first > q.first })
		if at < 0 {
			at = len(m.found)
		}
		m.found = slices.Insert(m.found, at, q)
		return
	}
}

// factorAt reads "half", "a third", "two thirds", "twice" or "double" at i.
func (m *message) factorAt(i int) (factor float64, next int) {
	switch m.at(i).text {
	case "half":
		return 0.5, i + 1
	case "twice", "double":
		return 2, i + 1
	case "quarter", "third":
		if w := m.at(i - 1).text; w != "a" && w != "one" {
			return 0, i
		}
		return map[string]float64{"quarter": 0.25, "third": 1.0 / 3}[m.at(i).text], i + 1
	case "two", "three":
		n := numberWords[m.at(i).text]
		switch m.at(i + 1).text {
		case "thirds":
			return n / 3, i + 2
		case "quarters":
			return n / 4, i + 2
		}
	}
	return 0, i
}

// shareAt reads a share at i, which says what it measures behind it, "half as tall", or
// before it, "depth a third of the length".
func (m *message) shareAt(i int) (s share, ok bool) {
	factor, j := m.factorAt(i)
	if factor == 0 {
		return share{}, false
	}
	s = share{factor: factor, first: i, next: j, of: "width"}
	if w := m.at(i - 1).text; w == "a" || w == "one" {
		s.first--
	}
	compared := m.at(j).text == "as" && shareRoles[m.at(j+1).text] != ""
	if compared {
		s.role, s.next = shareRoles[m.at(j+1).text], j+2
	} else if w := m.at(j).text; w != "of" && w != "the" && w != "its" {
		return share{}, false
	}
	for k := s.next; k < s.next+6; k++ {
		if of := sharedOf[m.at(k).text]; of != "" && k > s.next && (!compared || of != s.role) {
			s.of, s.next, ok = of, k+1, true
			break
		}
		if at := slices.IndexFunc(m.found, func(q *quantity) bool { return q.first == k }); compared && at >= 0 && k > s.next {
			s.figure, s.next, ok = m.found[at], m.found[at].next, true
			break
		}
		if !slices.Contains(shareFills, m.at(k).text) {
			break
		}
	}
	if compared {
		return s, ok || s.role != "thickness"
	}
	for k := s.first - 1; k >= max(0, s.first-4) && ok; k-- {
		if m.inFigure(k) || m.at(k).text == "." {
			break
		}
		if s.role = shareRoles[m.at(k).text]; s.role != "" {
			return s, s.role != s.of
		}
	}
	return share{}, false
}

// wholeOf is what a share is of, in mm, and how the message has it; 0 where it doesn't
// tell.
func (m *message) wholeOf(s share) (mm float64, typed string) {
	if q := s.figure; q != nil {
		if s.role != "thickness" || q.measure != gauge && q.measure != length {
			return 0, ""
		}
		if q.measure == gauge {
			return gaugeMM(q.value), strings.TrimSpace(q.typed(m))
		}
		return q.value, strings.TrimSpace(q.typed(m))
	}
	for _, q := range m.found {
		switch {
		case q.first >= s.first && q.first < s.next || q.other != nil:
		case s.of == "depth":
			if m.besideRole(q, "depth") && (q.measure == length || q.measure == bare) {
				return q.value, strings.TrimSpace(q.typed(m))
			}
		case q.measure == size && len(q.sides) >= 2 && !m.ofMetal(q):
			if s.of == "length" {
				return slices.Max(q.sides[:2]), strings.TrimSpace(q.typed(m))
			}
			return slices.Min(q.sides[:2]), strings.TrimSpace(q.typed(m))
		case (q.measure == length || q.measure == bare) && q.value >= 2 && q.value <= 60 && !m.metalBehind(q) && !m.besideRole(q, "depth", "height", "dome", "thickness"):
			return q.value, strings.TrimSpace(q.typed(m))
		}
	}
	return 0, ""
}
