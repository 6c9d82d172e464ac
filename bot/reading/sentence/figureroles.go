package sentence

import (
	"math"
	"strings"

	"guildhand/bot/reading/figures"
	"guildhand/bot/reading/written"
)

// measureNames are how package figures knows the measures.
var measureNames = map[measure]string{bare: "bare", length: "length", size: "size", gauge: "gauge", angle: "angle", percent: "percent", mass: "mass", carat: "carat", ringSize: "ring", temper: "temper", force: "force", count: "count", volume: "volume", money: "money"}

// Figures are the words of a message and the figures among them, and how the
// catalogue would read each.
func Figures(typed string) (words []string, all []figures.Figure, shown []string) {
	m := newMessage(typed)
	for _, q := range m.found {
		shown = append(shown, q.shown)
	}
	m.bindByRules()
	words, all = m.asFigures()
	return words, all, shown
}

// WordsBefore is how many words of a message stand in this beginning of it.
func WordsBefore(beginning string) int { return len(newMessage(beginning).tokens) }

func (m *message) asFigures() (words []string, all []figures.Figure) {
	for _, t := range m.tokens {
		w := t.stem
		if w == "" {
			w = t.text
		}
		words = append(words, w)
	}
	for _, a := range m.alloys {
		for i := a.first; i < a.next && i < len(words); i++ {
			words[i] = "@metal"
		}
	}
	for _, s := range m.senses {
		for _, means := range s.Means {
			if strings.HasPrefix(means, "outline:") && s.next == s.first+1 {
				words[s.first] = "@outline"
			}
		}
	}
	for _, q := range m.found {
		all = append(all, figures.Figure{First: q.first, Next: q.next, Measure: measureNames[q.measure], Value: q.value, Unit: q.unit, Rule: q.role})
	}
	return words, all
}

// How likely a figure's role must be by the words round it: to be taken where the
// rules find none, and to be left out of the piece.
const (
	likelyRole = 0.9
	// perhapsRole is enough where the message surely speaks of the piece.
	perhapsRole = 0.5
)

// rolesBound are the roles that the words round a figure may bind before a request
// reads it.
var rolesBound = map[string]bool{"thickness": true, "height": true, "width": true, "length": true, "depth": true, "dome": true}

// bindLikely gives figures without a role the one that is likely by the words round
// them.
func (m *message) bindLikely() {
	request, _ := m.likeliest()
	for _, q := range m.found {
		if !q.free() {
			continue
		}
		role, chance := m.likelyRole(request, q)
		if chance >= perhapsRole {
			m.bindNumber(request, role, q)
		}
		if chance >= likelyRole && rolesBound[role] && q.mayBe(role) && m.with(role) == nil {
			q.role = role
		}
	}
}

// placeLikely gives figures that are left over their likely place in the request,
// and says of those that were taken back or that it doesn't need that they are left
// out.
func (d *draft) placeLikely() {
	m, likelyRole := d.m, likelyRole
	if m.ofClass {
		likelyRole = classRole
	}
	for _, q := range m.unused() {
		role, chance := m.likelyRole(d.request, q)
		switch {
		case role == written.Retracted && chance >= likelyRole:
			q.used = true
			d.note("%s is left out, since you took it back", strings.TrimSpace(q.typed(m)))
		case role == written.Idle && chance >= likelyRole:
			q.used = true
			d.note("%s is not needed for this", strings.TrimSpace(q.typed(m)))
		case d.request == "bench": // nothing is kept that isn't named
		case chance >= likelyRole && !d.has(role) && m.context.takes(d.request, role) && q.fitsOption(role) && !d.tallerThanWide(role, q):
			d.set(role, q)
			if d.missing == role {
				d.ask, d.missing, d.choices = "", "", nil
			}
		}
	}
}

// changeLikely puts a figure of a follow-up where it most likely belongs by the words
// round it.
func (m *message) changeLikely(d *draft, q *quantity, set func(option string) bool) bool {
	role, chance := m.likelyRoleAfter(Last{d.request, d.options}, q)
	return chance >= likelyRole && q.fitsOption(role) && set(role)
}

// likelyRole is what a figure most likely measures where the message asks for a
// request.
func (m *message) likelyRole(request string, q *quantity) (role string, chance float64) {
	return m.rolesOf(request, q).Best()
}

// How near the values of a piece a figure is that changes it. Who changes a stone of 1.5
// to 1.7 says so without a word for it.
const (
	// nearSpread is the usual distance of a new value from the old, of logarithms.
	nearSpread = 0.35
	// leastNear is what the least near value counts, and notYet what an option counts that
	// the piece has no figure for.
	leastNear = 0.2
	notYet    = 0.5
)

// likelyRoleAfter is what a figure most likely measures where a message goes on from a
// piece: by the words round it, and by how near it is to what the piece has.
func (m *message) likelyRoleAfter(piece Last, q *quantity) (role string, chance float64) {
	best, sum := 0.0, 0.0
	d := draft{m: m, request: piece.Request, options: piece.Options}
	for option, c := range m.rolesOf(piece.Request, q).All() {
		if !d.formHas(option) {
			continue
		}
		c *= m.memory.nearness(piece.Options[option], q)
		sum += c
		if c > best {
			role, best = option, c
		}
	}
	if sum == 0 {
		return "", 0
	}
	return role, best / sum
}

// nearness is how near a figure is to that of an option's value, from leastNear to 1.
func (n *memory) nearness(value string, q *quantity) float64 {
	held := n.figuresIn(value)
	if value == "" || len(held) == 0 || q.value <= 0 {
		return notYet
	}
	best := leastNear
	for _, h := range held {
		v := h.value
		if h.gauge && q.measure != gauge {
			v = gaugeMM(v)
		}
		if v > 0 {
			off := math.Log(q.value/v) / nearSpread
			best = max(best, math.Exp(-off*off/2))
		}
	}
	return best
}

// tallerThanWide reports whether a figure would make a stone or its setting taller than
// the stone is long, which none is.
func (d *draft) tallerThanWide(option string, q *quantity) bool {
	stone := d.m.quantityOf("size")
	return stone != nil && (option == "depth" || option == "dome" || option == "height") && q.value > stone.value
}

// likelyPlaces are the options that a figure may be given for by the words round it
// alone, with the values, in mm where they are lengths, that one may have. What decides
// which piece it is, as its size, is not among them.
var likelyPlaces = map[string][2]float64{
	"thickness": {0.15, 4}, "wire": {0.3, 6}, "stepthick": {0.15, 3}, "platethick": {0.2, 3}, "shankthick": {0.6, 5},
	"height": {0.8, 40}, "depth": {0.8, 25}, "dome": {0.8, 25}, "seat": {0.3, 8}, "girdle": {0.1, 6}, "rim": {0.1, 5}, "platerim": {0.2, 15},
	"width": {0.8, 60}, "length": {3, 2000}, "edge": {1, 60}, "lean": {1, 45}, "included": {5, 90}, "gap": {0, 5}, "spacing": {0, 20}, "centregap": {0, 5},
	"kerf": {0.05, 2}, "filing": {0.05, 3}, "allowance": {0.05, 5}, "clearance": {0.02, 2}, "pitch": {0.5, 15}, "repeats": {3, 200}, "cutdepth": {0.2, 10},
	"number": {2, 16}, "count": {1, 5000}, "makers": {1, 200}, "each": {1, 500}, "joints": {1, 20}, "inside": {1, 60}, "mandrel": {1, 60}, "ratio": {2, 12}, "chain": {20, 3000},
	"crown": {15, 60}, "pavilion": {20, 60}, // degrees
	"button": {0.5, 500}, "sprue": {0.1, 200}, "spare": {1, 100}, "shrink": {0.1, 10}, "perimeter": {8, 400}, "shankwide": {1, 30}, "basesize": {1, 40}, "taper": {0.8, 30},
}

// fitsOption reports whether a figure's unit and value let it be an option.
func (q *quantity) fitsOption(option string) bool {
	values, known := likelyPlaces[option]
	if !known {
		return false
	}
	within := q.value >= values[0] && q.value <= values[1]
	switch q.measure {
	case gauge:
		return contains([]string{"thickness", "wire", "stepthick", "platethick", "shankthick"}, option)
	case angle:
		return within && wantsDegrees(option)
	case count:
		return within && (countedPlaces[option] || option == "joints")
	case mass:
		return option == "button" || option == "sprue"
	case percent:
		return option == "spare" || option == "button" || option == "sprue" || option == "shrink"
	case length:
		return within && !countedPlaces[option] && !wantsDegrees(option) && option != "ratio"
	case bare:
		return within
	case size:
		return option == "basesize"
	}
	return false
}

// wantsDegrees reports whether an option is an angle.
func wantsDegrees(option string) bool {
	return contains([]string{"lean", "included", "crown", "pavilion"}, option)
}

// countedPlaces are filled by a number without a unit.
var countedPlaces = map[string]bool{"number": true, "count": true, "makers": true, "each": true, "repeats": true, "chain": false}

// placesOfJumpRing are the options that a figure may be given for by the words round it
// before the rules look, with the values in mm that one may have.
var placesOfJumpRing = map[string][2]float64{"wire": {0.3, 6}, "mandrel": {0.8, 60}, "chain": {20, 3000}}

// bothStonesLikely takes the centre stone's size and the small stones' where the words
// round both tell them for certain.
func (d *draft) bothStonesLikely() {
	m := d.m
	if d.has("size") || d.has("with") || m.says(outsideWords...) || m.with("outer") != nil {
		return
	}
	centre, small := d.surely("size"), d.surely("with")
	if centre != nil && small != nil && centre.value > small.value && small.value >= 0.7 && small.value <= 5 {
		d.set("size", centre)
		d.set("with", small)
	}
}

// surely is the one free length or bare number that has a role by the words round it,
// nil for none or for several.
func (d *draft) surely(which string) (only *quantity) {
	for _, q := range d.m.found {
		if q.used || q.measure != length && q.measure != bare {
			continue
		}
		if role, chance := d.m.likelyRole(d.request, q); role == which && chance >= likelyRole {
			if only != nil {
				return nil
			}
			only = q
		}
	}
	return only
}

// takeLikely gives lengths and bare numbers the option that they surely are by the
// words round them.
func (d *draft) takeLikely(places map[string][2]float64) {
	for _, q := range d.m.found {
		if q.used || q.measure != length && q.measure != bare {
			continue
		}
		role, chance := d.m.likelyRole(d.request, q)
		values, known := places[role]
		if !known || chance < likelyRole || d.has(role) || q.value < values[0] || q.value > values[1] {
			continue
		}
		d.set(role, q)
		switch {
		case role == "wire" && q.measure == bare:
			d.say("wire", q.shown+" mm")
		case role == "wire":
			d.say("wire", plain(q.value)+"mm")
		}
	}
}
