package sentence

import (
	"slices"
	"strings"
)

// A sum that was told in a sentence is gone on from as a piece is: "and with a shank of 2 mm"
// after how deep a saddle is. The question that it answered is asked again with the new figure
// in place of the one that it stands for.

// longestOfSum is how many words a message has at most that changes a figure of a sum.
const longestOfSum = 9

// ofOneKind reports whether one figure may take another's place in a question.
func ofOneKind(now, before *quantity) bool {
	switch {
	case now.measure == ringSize || before.measure == ringSize:
		return before.measure == ringSize && (now.measure == ringSize || now.measure == bare && now.mayFill("ring"))
	case now.role != "" && before.role != "" && now.role != before.role:
		return false
	case now.measure == bare || now.measure == length:
		return before.measure == bare || before.measure == length
	}
	return now.measure == before.measure
}

// nearFigure is how many times a figure may be larger or smaller than the one that it takes
// the place of, where no word tells what it is.
const nearFigure = 1.7

// sumThen is the question of a sum with the one figure of a message in place of the one that
// it stands for: the one of its role or kind, else the one that is near it.
func sumThen(question string, m *message) (string, bool) {
	if question == "" || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestOfSum || !m.startsWith(openers...) {
		return "", false
	}
	now, before := m.found[0], newMessage(question)
	before.bindRoles()
	m.bindRoles()
	defer m.release()
	var same, near []*quantity
	for _, q := range before.found {
		if !ofOneKind(now, q) {
			continue
		}
		if now.measure == ringSize || now.role != "" && now.role == q.role || q.measure == ringSize {
			same = append(same, q)
		}
		if q.value > 0 && now.value < nearFigure*q.value && q.value < nearFigure*now.value {
			near = append(near, q)
		}
	}
	if len(same) != 1 {
		same = near
	}
	if len(same) != 1 {
		return "", false
	}
	shown := strings.TrimSpace(now.typed(m))
	if unit := unitTyped(same[0].typed(before)); now.measure == bare && same[0].measure == length {
		shown += " " + unit
	}
	if lead := before.sizeLead(same[0]); same[0].measure == ringSize && !strings.HasPrefix(shown, lead) {
		shown = lead + shown
	}
	return strings.TrimSpace(before.between(0, same[0].first) + " " + shown + " " + before.between(same[0].next, len(before.tokens))), true
}

// unitTyped is the unit of a length as it was typed, "mm" of "6 mm".
func unitTyped(typed string) string {
	return strings.Trim(typed, "0123456789.,/-½¼¾ ")
}

// sizeLead is the word that names a ring size within its own tokens, "size ".
func (m *message) sizeLead(q *quantity) string {
	if lead := m.at(q.first); lead.word() && len(lead.text) > 1 {
		return lead.text + " "
	}
	return ""
}

// isSum reports whether a topic may be that of a sum.
func isSum(topic string) bool {
	return topic != "" && !isVerdict(topic) && !strings.HasPrefix(topic, "about ") && !slices.Contains([]string{"outside the trade", ringsOfSeveralSizes}, topic)
}

// toldAgain tells a sum once more with the figure of a message.
func (m *message) toldAgain() (Reading, bool) {
	c := m.context
	if c.Said == "" || c.Asked != nil || c.Last != nil || !isSum(c.Topic) {
		return Reading{}, false
	}
	question, ok := sumThen(c.Said, m)
	if !ok {
		return Reading{}, false
	}
	alone := Context{Takes: c.Takes, Excludes: c.Excludes, Addressed: c.Addressed}
	r := Read(question, alone)
	if r.Outcome != Explanation || r.Topic != c.Topic {
		return Reading{}, false
	}
	return r, r.Text != Read(c.Said, alone).Text // a fact is the same with any figure
}

// saidOfSum is the question of a sum that was told last, once another was.
func saidOfSum(question, typed string) string {
	if again, ok := sumThen(question, newMessage(typed)); ok {
		return again
	}
	return Joined(question, typed)
}
