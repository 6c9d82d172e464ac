package sentence

import (
	"math"
	"slices"
	"strings"
)

// bindRoles gives quantities the role of the word beside them. An adjective
// comes after its number ("4 mm wide"), a noun on either side of it ("width
// 4", "4 mm width"); where a noun comes between two numbers, the one is taken
// that leaves both of them likely.
func (m *message) bindRoles() {
	m.bindByRules()
	m.bindLikely()
}

func (m *message) bindByRules() {
	m.bindOwnResult()
	m.bindReach()
	m.clawNumbers()
	m.bindSheet()
	m.bindBlock()
	m.bindSaidToBe()
	m.bindCrown()
	m.bind(true, 0)
	m.bind(false, 0) // nouns right beside their number are surer than others
	m.bind(true, 2)
	m.bind(false, 4)
}

// bindCrown takes the number behind "crown" or "crown is like" for the height of the stone's
// crown, whatever word follows it. What is higher may be a crown setting.
func (m *message) bindCrown() {
	const highest, near = 3, 3
	for _, q := range m.found {
		if !q.free() || q.value > highest || q.measure != length && q.measure != bare {
			continue
		}
		for i := q.first - 1; i >= q.first-near; i-- {
			word := m.at(i).text
			if word == "crown" {
				q.role = "crown"
			}
			if !contains([]string{"is", "like", "about", "of", "at", "height", "around", "only"}, word) {
				break
			}
		}
	}
}

// bindSheet takes the number behind "sheet at", "metal is" or "sheet mic'd at" as the
// thickness.
func (m *message) bindSheet() {
	if m.with("thickness") != nil {
		return
	}
	for _, q := range m.found {
		if !q.free() || q.value < 0.1 || q.value > 3 || q.measure != length && q.measure != bare {
			continue
		}
		for k := q.first - 1; k >= q.first-4; k-- {
			switch m.at(k).text {
			case "sheet", "metal":
				if k < q.first-1 {
					q.role = "thickness"
					return
				}
			case "at", "is", "of", "measures", "measured", "miked", "mikes", "micd", "to", "now", "about", "down", "rolled":
				continue
			}
			break
		}
	}
}

// bindBlock takes the number of "the block is 17" and of "a 17 block" as the angle
// between its walls.
func (m *message) bindBlock() {
	for _, q := range m.found {
		if q.measure != bare || q.role != "" || q.value < 8 || q.value > 60 {
			continue
		}
		lead := m.between(max(0, q.first-2), q.first)
		if len(m.found) == 1 && m.says("block") && q.value >= leastBlock && q.value == math.Trunc(q.value) { // "round block, I think 17"
			q.role = "included"
			return
		}
		if m.saysAt(q.next, "block") && q.value >= leastBlock || m.at(q.first-1).text == "block" && q.value >= leastBlock || lead == "block is" || lead == "blocks are" || lead == "block says" || lead == "punch is" || lead == "block being" {
			q.role = "included"
			return
		}
	}
}

// farthestSaid is how many words come at most between what is said to measure something
// and its figure.
const farthestSaid = 6

// bindSaidToBe takes the figure of "the height after pressing should be 5" for the height.
func (m *message) bindSaidToBe() {
	for i := range m.senses {
		s := &m.senses[i]
		if s.Role == "" || s.After || s.Role == "length" || m.roleGiven(s.first) {
			continue
		}
		for _, q := range m.found {
			if q.first <= s.next {
				continue
			}
			be := m.at(q.first - 1).text
			between := m.tokens[s.next:q.first]
			if m.saysOneBetween(s.next, s.next+1, "after", "when", "once") && (s.Role == "height" || s.Role == "thickness") {
				if be == "," {
					between = between[:len(between)-1]
				}
				be = "be"
			}
			plain := !slices.ContainsFunc(between, func(t token) bool { return !t.word() || t.number })
			if q.free() && q.mayBe(s.Role) && be == "be" && len(between) <= farthestSaid && plain {
				q.role, s.used = s.Role, true
			}
			break
		}
	}
}

// leastBlock is the least angle by which a block is named, in degrees: "a 17 block".
// Common practice, no source.
const leastBlock = 10

// bind gives roles by the adjectives, which are surer, or by the nouns, to numbers
// that are at most so many words away.
func (m *message) bind(adjectives bool, apart int) {
	for i := range m.senses {
		s := &m.senses[i]
		if s.Role == "" || s.After != adjectives || m.roleGiven(s.first) {
			continue
		}
		before, after := m.quantityBefore(s.first), m.quantityAfter(s.next)
		if before != nil && s.first-before.next > apart {
			before = nil
		}
		if after != nil && after.first-s.next > apart {
			after = nil
		}
		if before != nil && !before.mayBe(s.Role) {
			before = nil
		}
		if before != nil && after != nil && !s.After && m.ofOutline(before) {
			before = nil // "round 6 mm depth 4": the 6 mm is the stone's
		}
		if after != nil && !s.After && m.metalBehind(after) && s.Role != "thickness" && s.Role != "wall" && s.Role != "outer" && s.Role != "inner" && s.Role != "diameter" && s.Role != "length" && !m.standsAlone(s, before, after) {
			after = nil // "rounded corners, 0.4 sterling"
		}
		if after != nil && !after.mayBe(s.Role) {
			after = nil
		}
		if s.Role == "length" && !s.After && before == nil && after != nil && m.roleBegins(after.next) {
			continue // "bangle length 65 inside"
		}
		var q *quantity
		switch {
		case before == nil && after == nil:
			continue
		case before == nil:
			q = after
		case after == nil:
			q = before
		case s.After && s.Role == "length" && after.first == s.next && m.roleEnds(before.first):
			q = after // "outside 5 inside 4 long 120 mm"
		case s.After:
			q = before
		default:
			q = m.likelier(s.Role, before, after)
		}
		if s.After && q == after && q.first != s.next && !(m.between(s.next, q.first) == "," && q.unit) {
			continue // "how wide should it be, 4 ..." binds nothing; "really tall, 12 mm" does
		}
		q.role = s.Role
		s.used = true
	}
}

// standsAlone matches "depth 3.7 mm copper", whose number can be nothing but the
// depth although a metal comes after it.
func (m *message) standsAlone(s *sense, before, after *quantity) bool {
	tall := s.Role == "depth" || s.Role == "height" || s.Role == "dome"
	return tall && before == nil && after.first == s.next && m.likely(s.Role, after)
}

// roleGiven reports whether the word at i has given its role to a number.
func (m *message) roleGiven(i int) bool {
	return slices.ContainsFunc(m.senses, func(s sense) bool { return s.first == i && s.Role != "" && s.used })
}

// beside are words that may come between a role's word and its number.
var beside = map[string]bool{"of": true, "is": true, "was": true, "are": true, "about": true, "approx": true, "roughly": true, ",": true, "at": true, "be": true, "to": true, "a": true, "an": true, "=": true, "it": true, "its": true, "measures": true, "-": true, "in": true, "the": true, "by": true, "mm": true, "my": true, "stone": true, "cab": true, "girdle": true, "got": true, "came": true, "then": true, "total": true, "overall": true, "every": true}

// free reports whether a quantity can still take a role of this kind.
func (q *quantity) free() bool {
	return q.role == "" && (q.measure == bare || q.measure == length || q.measure == gauge || q.measure == angle)
}

// ofOutline matches a number right after an outline's word: "round 6 mm".
func (m *message) ofOutline(q *quantity) bool {
	for _, s := range m.senses {
		if s.next != q.first {
			continue
		}
		for _, means := range s.Means {
			if strings.HasPrefix(means, "outline:") || means == "domework" {
				return true
			}
		}
	}
	return false
}

// Doubtful reports whether a typed line has a number before a word that measures
// and another after it, "4mm wide 1.5mm", so that the words decide which is
// meant and not their order.
func Doubtful(typed string) bool {
	m := newMessage(typed)
	for _, s := range m.senses {
		if s.Role == "" {
			continue
		}
		before, after := m.quantityBefore(s.first), m.quantityAfter(s.next)
		if before == nil || before.next != s.first || !before.mayBe(s.Role) || m.ofOutline(before) {
			continue
		}
		if after != nil && after.mayBe(s.Role) && (s.After || before.unit) {
			return true
		}
	}
	return false
}

// mayBe reports whether a quantity's unit lets it have a role: a gauge is a
// thickness and nothing else.
func (q *quantity) mayBe(role string) bool {
	switch { // words that mostly only say where something is
	case role == "girdle" && q.value > 1.5, role == "cornercut" && q.value > 6:
		return false
	}
	switch q.measure {
	case gauge:
		return role == "thickness" || role == "wall" || role == "diameter" || role == "outer"
	case length:
		return role != "lean" && role != "included" || !q.unit
	case angle:
		return role == "lean" || role == "included" || role == "edge"
	}
	return true
}

// ofMeasure are the nouns that a figure is "of": "6 mm of height".
var ofMeasure = wordSet("height depth thickness width")

func (m *message) quantityBefore(i int) *quantity {
	for back := 0; back <= 1; back++ {
		for _, q := range m.found {
			if q.next == i-back && q.free() {
				return q
			}
		}
		if w := m.at(i - 1 - back).text; !(w == "-" || w == "in" || w == "or" || w == "finished" || w == "overall" || w == "total" || w == "of" && ofMeasure[m.at(i).text]) {
			return nil
		}
	}
	return nil
}

func (m *message) quantityAfter(i int) *quantity {
	for ahead := 0; ahead <= 4; ahead++ {
		for _, q := range m.found {
			if q.first == i+ahead && q.free() {
				return q
			}
		}
		if !beside[m.at(i+ahead).text] {
			return nil
		}
	}
	return nil
}

// likelier decides between the number before a noun and the one after it.
func (m *message) likelier(role string, before, after *quantity) *quantity {
	if m.roleBegins(after.next) && !m.roleEnds(before.first) { // "4 outside 2.8 inside"
		return before
	}
	if m.stockBehind(after) && !m.stockBehind(before) { // "65 inside 4 mm round wire"
		return before
	}
	if m.roleEnds(before.first) { // "od 4 id 2.8"
		return after
	}
	if after.first > m.nounEnd(before)+1 && before.unit { // "4 mm depth and 0.8"
		return before
	}
	if before.measure == bare && (before.value == 17 || before.value == 28) && (role == "height" || role == "depth") && after.measure == bare {
		return after // "17 tall 5": the block's angle and the height
	}
	a := m.likely(role, before) && m.likely("thickness", after)
	b := m.likely(role, after) && m.likely("thickness", before)
	switch {
	case a && !b:
		return before
	case b && !a:
		return after
	}
	if m.likely(role, before) != m.likely(role, after) {
		if m.likely(role, before) {
			return before
		}
		return after
	}
	// A number with its unit right before the noun belongs to it: "4 mm wall".
	if before.unit && !after.unit {
		return before
	}
	if after.unit && !before.unit {
		return after
	}
	if before.unit {
		return before
	}
	return after
}

// stockBehind reports whether a figure is of wire or sheet: "4 mm round wire".
func (m *message) stockBehind(q *quantity) bool {
	for k := q.next; k <= q.next+2; k++ {
		if w := m.at(k).text; w == "wire" || w == "sheet" || w == "bar" {
			return true
		} else if w != "round" && w != "square" && w != "half" {
			return false
		}
	}
	return false
}

// roleBegins and roleEnds report whether a noun that measures begins or ends at i.
func (m *message) roleBegins(i int) bool {
	return slices.ContainsFunc(m.senses, func(s sense) bool { return s.first == i && s.Role != "" && !s.After })
}

func (m *message) roleEnds(i int) bool {
	return slices.ContainsFunc(m.senses, func(s sense) bool {
		return s.next == i && s.Role != "" && s.Role != "length" && s.Role != "strip" && !s.After
	})
}

func (m *message) nounEnd(q *quantity) int { return q.next }

// likelyRange is what a dimension of a setting mostly is, in mm. It decides only
// between two readings of the same words, never what is allowed.
var likelyRange = map[string][2]float64{
	"depth": {1.2, 20}, "height": {1, 40}, "thickness": {0.15, 2.2}, "width": {1, 15}, "dome": {1, 20}, "wall": {0.2, 2}, "diameter": {2, 100},
	"inner": {1, 80}, "outer": {1.5, 100}, "length": {5, 5000}, "edge": {0.3, 4}, "rim": {0.2, 3}, "radius": {0.2, 5}, "girdle": {0.05, 1}, "cornercut": {0.3, 5}, "lean": {0, 45}, "included": {0, 90}, "kerf": {0.05, 1.2}, "gap": {0.02, 3},
}

func (m *message) likely(role string, q *quantity) bool {
	r, ok := likelyRange[role]
	if !ok {
		return true
	}
	if q.measure == gauge {
		return role == "thickness" || role == "wall"
	}
	if q.measure == angle {
		return role == "lean" || role == "included"
	}
	return q.value >= r[0] && q.value <= r[1]
}

// with returns the unused quantity that has one of these roles.
func (m *message) with(roles ...string) *quantity {
	for _, q := range m.found {
		if !q.used && slices.Contains(roles, q.role) {
			return q
		}
	}
	return nil
}

// of returns the unused quantity without a role that has one of these measures.
func (m *message) of(measures ...measure) *quantity {
	for _, q := range m.found {
		if !q.used && q.role == "" && slices.Contains(measures, q.measure) {
			return q
		}
	}
	return nil
}

// counts returns the unused quantity that counts one of these things.
func (m *message) counts(things ...string) *quantity {
	for _, q := range m.found {
		if !q.used && q.measure == count && slices.Contains(things, q.thing) {
			return q
		}
	}
	return nil
}

// unused lists the quantities that no reading has.
func (m *message) unused() []*quantity {
	var left []*quantity
	for _, q := range m.found {
		if !q.used {
			left = append(left, q)
		}
	}
	return left
}
