package sentence

import "strings"

// narrowing are phrases before the measure of a setting's lower end.
var narrowing = []string{"tapering to", "tapered to", "tapers to", "taper to", "narrowing to", "narrows to", "tapering down to", "tapers down to", "tapered down to", "down to"}

// baseOfCone takes the measure of a setting's lower end, "6x4 at the base", "bottom
// 5", "tapering to 4 mm", and asks what a measure of the top is where no stone is
// named: the rim is not as wide as the stone.
func (d *draft) baseOfCone() {
	m := d.m
	if q := m.endOf("base", narrowing); q != nil && m.context.takes(d.request, "basesize") {
		d.set("basesize", q)
		d.say("taper", "base")
		if o := m.meaning("outline:"); len(o) > 0 {
			d.say("base", o[0])
		} else if q.measure != size {
			d.say("base", "round")
		}
	}
	q := m.endOf("top", nil)
	if q == nil || m.has("stone") || len(m.meaning("outline:")) > 0 || m.says("rim") {
		return
	}
	d.set("size", q)
	d.say("outline", "round")
	d.question("size", "Is "+strings.TrimSpace(q.typed(m))+" the size of the stone? I lay a cone out for its stone: the rim follows from that.", d.with("the stone is that size"))
}

// endOf is the free size or length beside the word for one end of a setting, or
// behind one of the phrases that lead to it.
func (m *message) endOf(end string, leads []string) *quantity {
	words := map[string]bool{"top": end == "top", "base": end == "base", "bottom": end == "base"}
	for _, q := range m.found {
		if q.used || q.role != "" || q.measure != size && q.measure != length && q.measure != bare || q.value < 1 {
			continue
		}
		for _, lead := range leads {
			n := len(strings.Fields(lead))
			if m.between(max(0, q.first-n), q.first) == lead {
				return q
			}
		}
		for k := q.next; k <= q.next+3; k++ { // "6x4 at the base"
			if words[m.at(k).text] && !m.roleEnds(q.first) && !m.endWord(q.first-1) {
				return q
			}
			if w := m.at(k).text; w != "at" && w != "the" && w != "across" && w != "wide" && w != "on" && w != "in" {
				break
			}
		}
		for k := q.first - 1; k >= q.first-5; k-- { // "bottom should be 5"
			if words[m.at(k).text] {
				return q
			}
			if w := m.at(k).text; !beside[w] && w != "should" && w != "opening" && w != "hole" && w != "diameter" && w != "size" {
				break
			}
		}
	}
	return nil
}

func (m *message) endWord(i int) bool {
	w := m.at(i).text
	return w == "top" || w == "base" || w == "bottom"
}
