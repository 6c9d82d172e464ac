package sentence

import (
	"fmt"
	"strings"
)

// saddle reads a setting's base that is cut to sit on a ring's shank. Figures of
// the shank stand beside its words, the others are the setting's.
func (m *message) saddle() (Reading, bool) {
	if !m.canAnswer("saddle") || len(m.found) == 0 {
		return Reading{}, false
	}
	m.likelyShank()
	d := m.draft("saddle")
	d.places = []place{{"thickness", "thickness of the setting's wall", 0.1, 3}, {"shankthick", "thickness of the shank", 0.3, 8}, {"shankwide", "width of the shank", 0.8, 30}, {"height", "height over the shank", 1, 60}}
	d.shankSize()
	d.footOfSetting()
	d.saddleLikely(likelyRole)
	d.shankSection()
	d.saddleLikely(perhapsRole)
	d.settingWall()
	d.outline()
	d.lies()
	ofTube := d.options["setting"] == "tube" || d.has("tubesize")
	if !ofTube && !d.has("size") {
		if q := m.stoneSides(); q != nil {
			d.set("size", q)
		} else if q := m.likelyStone(); q != nil {
			d.set("size", q)
		} else {
			d.set("size", m.first(2, 60, length, bare))
		}
	}
	d.setFirst("depth", m.with("depth"))
	d.setFirst("height", m.with("height"))
	d.set("lean", m.with("lean"))
	if q := m.of(gauge); q != nil {
		d.setFirst("thickness", q)
	} else {
		d.setFirst("thickness", m.with("wall", "thickness"))
	}
	if !d.has("thickness") {
		d.set("thickness", m.first(0.2, 1.3, length))
	}
	d.alloy("alloy", false)
	if sides := m.quantityOf("size"); m.cues["bezel"] >= plainlyNamed && !d.has("outline") && sides != nil && len(sides.sides) == 2 {
		d.say("outline", "oval")
		d.note("no outline was named, so the stone is taken as an oval")
	}
	switch {
	case d.ask != "":
	case !d.has("shank"):
		d.question("shank", "Which ring does it sit on, and in which system: us 7, uk N, iso 54?",
			d.with("US 7", "shank", "us 7"), d.with("UK N", "shank", "uk N"), d.with("54 mm round the finger (ISO)", "shank", "iso 54"))
	case ofTube && !d.has("tubesize") && m.justBefore("tube") != nil:
		q := m.justBefore("tube")
		q.used = true
		d.question("tubesize", fmt.Sprintf("How thick is the wall of the %s tube?", mm(q.value)), d.with("0.4 mm", "tubesize", plain(q.value)+"x0.4"), d.with("0.5 mm", "tubesize", plain(q.value)+"x0.5"))
	case ofTube && !d.has("tubesize"):
		d.question("tubesize", "Which tube is it, outside x wall in mm?", d.with("5 x 0.5 mm", "tubesize", "5x0.5", "height", "6"), d.with("4.5 x 0.5 mm", "tubesize", "4.5x0.5", "height", "6"))
	case !ofTube && !(d.has("outline") && d.has("size")):
		d.question("outline", "What is the stone, its outline and size?", d.with("oval 8 x 6 mm", "outline", "oval", "size", "8x6"), d.with("round 6 mm", "outline", "round", "size", "6"))
	case (d.has("setting") || ofTube) && !d.has("height"):
		d.question("height", "How high is the wall, from its rim to the shank's highest line?", d.with("4 mm", "height", "4"), d.with("6 mm", "height", "6"))
	}
	return d.reading(), true
}

// setFirst takes a quantity as an option that nothing else has yet.
func (d *draft) setFirst(option string, q *quantity) {
	if !d.has(option) {
		d.set(option, q)
	}
}

// saddleRoles are the options of a saddle by the roles that figures may have, with the
// values in mm that each may have.
var saddleRoles = map[string]struct {
	option    string
	low, high float64
}{
	"shankthick": {"shankthick", 0.6, 5}, "shank-width": {"shankwide", 1, 20}, "shankwide": {"shankwide", 1, 20},
	"height": {"height", 1, 25}, "depth": {"depth", 0.8, 20}, "thickness": {"thickness", 0.2, 2.5},
	"size": {"size", 2, 40}, "basesize": {"basesize", 1, 30},
}

// saddleLikely gives figures of a saddle the option that they are so likely given for by
// the words round them. What two figures claim alike neither gets.
func (d *draft) saddleLikely(least float64) {
	m := d.m
	claims := map[string][]*quantity{}
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare && q.measure != gauge && q.measure != size {
			continue
		}
		role, chance := m.likelyRole("saddle", q)
		at, known := saddleRoles[role]
		thick := at.option == "thickness" || at.option == "shankthick"
		value := q.value
		switch {
		case !known || chance < least || d.has(at.option) || q.measure == gauge && !thick:
			continue
		case q.measure == size && at.option != "size" && at.option != "basesize", at.option == "size" && m.has("tube", "tubeset"):
			continue
		case q.measure == gauge:
			value = gaugeMM(q.value)
		case q.measure == size:
			value = q.sides[0]
		}
		if value >= at.low && value <= at.high && m.context.takes("saddle", at.option) {
			claims[at.option] = append(claims[at.option], q)
		}
	}
	for option, of := range claims {
		if len(of) != 1 {
			continue
		}
		d.set(option, of[0])
		if option == "shankthick" && of[0].measure != gauge {
			d.say(option, plain(of[0].value)+"mm")
		}
	}
}

// likelyStone is the figure that is the stone's size by the words round it, nil where
// none is for certain.
func (m *message) likelyStone() *quantity {
	for _, q := range m.found {
		if q.used || q.role != "" && q.role != "diameter" || q.measure != length && q.measure != bare || q.value < 2 || q.value > 60 {
			continue
		}
		if role, chance := m.likelyRole("saddle", q); role == "size" && chance >= likelyRole {
			return q
		}
	}
	return nil
}

// shankSize takes the ring's size with its system.
func (d *draft) shankSize() {
	m := d.m
	if q := m.of(ringSize); q != nil {
		q.used = true
		d.say("shank", d.systemOf(q, q.system)+" "+q.shown)
		return
	}
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && q.value >= 11.5 && q.value <= 25 && (q.role == "inner" || q.role == "diameter") {
			q.used = true
			d.say("shank", "diameter "+plain(q.value))
			return
		}
	}
}

// shankSection takes the shank's section: the figures that stand nearer to its
// words than to those of the setting, or that are called wide.
func (d *draft) shankSection() {
	m := d.m
	for _, p := range m.meaning("profile:") {
		d.say("top", p)
	}
	if m.has("squarewire") {
		d.say("top", "square-wire")
	} else if m.has("wire") && !d.has("top") {
		d.say("top", "round-wire")
	} else if m.says("flat shank", "flat band", "flat ring") {
		d.say("top", "flat")
	}
	for _, q := range m.found {
		if d.likelyOfShank(q) || !m.ofShank(q) {
			continue
		}
		switch {
		case q.measure == size && len(q.sides) == 2 && !d.has("shankwide"):
			q.used = true
			d.say("shankwide", plain(max(q.sides[0], q.sides[1])))
			d.say("shankthick", plain(min(q.sides[0], q.sides[1]))+"mm")
		case q.role == "width":
			d.set("shankwide", q)
		case q.role == "thickness" && (q.measure == length || q.measure == bare || q.measure == gauge && m.gauges() > 1):
			d.set("shankthick", q)
			if q.measure == bare {
				d.say("shankthick", q.shown+"mm")
			}
		case (q.measure == length || q.measure == bare && m.at(q.first-1).text == "shank") && q.role == "" && q.value <= 2.6 && !d.has("shankthick"):
			d.set("shankthick", q)
			d.say("shankthick", plain(q.value)+"mm")
		case q.measure == length && q.role == "" && q.value > 2.6 && q.value <= 12 && !d.has("shankwide"):
			d.set("shankwide", q)
		}
	}
}

// likelyOfShank takes a figure that is the shank's thickness or width by the words round
// it.
func (d *draft) likelyOfShank(q *quantity) bool {
	if q.used || q.measure != length && q.measure != bare && q.measure != gauge {
		return false
	}
	role, chance := d.m.likelyRole("saddle", q)
	if role == "shank-width" {
		role = "shankwide"
	}
	switch {
	case chance < likelyRole || d.has(role) || !q.fitsOption(role):
		return false
	case role == "shankthick":
		d.set(role, q)
		if q.measure != gauge {
			d.say(role, plain(q.value)+"mm")
		}
		return true
	case role == "shankwide":
		d.set(role, q)
		return true
	}
	return false
}

func (m *message) gauges() (n int) {
	for _, q := range m.found {
		if q.measure == gauge {
			n++
		}
	}
	return n
}

// ofShank reports whether a figure is the shank's: a word for the shank or the
// ring's size stands nearer to it than any word for the setting.
func (m *message) ofShank(q *quantity) bool {
	if q.used || q.measure == ringSize || q.role == "depth" || q.role == "height" || m.ofStoneWord(q) || m.ofOutline(q) {
		return false
	}
	if role, chance := m.likelyRole("saddle", q); chance >= likelyRole && settingRoles[role] {
		return false
	}
	near := func(first, next int) int {
		if gap := first - q.next; gap >= 0 {
			return gap
		}
		return max(0, q.first-next)
	}
	shank, setting := 99, 99
	for _, other := range m.found {
		if other.measure == ringSize {
			shank = min(shank, near(other.first, other.next))
		}
	}
	for i := range m.senses {
		s := &m.senses[i]
		for _, means := range s.Means {
			switch {
			case means == "ring" || means == "wire" || strings.HasPrefix(means, "profile:"):
				shank = min(shank, near(s.first, s.next))
			case means == "stone" || means == "sheet" || means == "tube" || strings.HasPrefix(means, "outline:"):
				setting = min(setting, near(s.first, s.next))
			}
		}
		if s.Cues["collet"] >= 3 || s.Cues["bezel"] >= 3 {
			setting = min(setting, near(s.first, s.next))
		}
	}
	for _, a := range m.alloys {
		setting = min(setting, near(a.first, a.next))
	}
	return shank <= 4 && shank < setting
}

// settingRoles are roles of figures that measure the setting and not the shank.
var settingRoles = map[string]bool{"thickness": true, "height": true, "size": true, "depth": true, "tubesize": true}

// settingWall takes the kind of wall: a bezel or a tube, else a tapered setting.
func (d *draft) settingWall() {
	m := d.m
	switch {
	case m.has("tube", "tubeset"):
		d.say("setting", "tube")
		for _, q := range m.found {
			if q.measure == size && len(q.sides) == 2 && !q.used && q.sides[1] < q.sides[0]/2 {
				q.used = true
				d.say("tubesize", plain(q.sides[0])+"x"+plain(q.sides[1]))
			}
		}
		outer, wall := m.with("outer", "diameter"), m.with("wall")
		if !d.has("tubesize") && wall != nil {
			if outer == nil {
				outer = m.first(1.5, 20, length)
			}
			if outer != nil && outer != wall {
				outer.used, wall.used = true, true
				d.say("tubesize", fmt.Sprintf("%sx%s", plain(outer.value), plain(wall.value)))
			}
		}
		d.tubeLikely()
		d.setFirst("height", m.with("length"))
		if d.has("tubesize") {
			delete(d.options, "setting") // the tube says it
		}
		if !d.has("setting") && !d.has("height") && d.has("tubesize") {
			d.set("height", m.first(2, 30, length))
			if !d.has("height") && m.with("height") == nil {
				d.question("height", "How long is the tube, from its rim to the shank's highest line?", d.with("6 mm", "height", "6"), d.with("4 mm", "height", "4"))
			}
		}
	case m.cues["bezel"] >= 3 && m.cues["collet"] < 3 || m.has("cab"):
		d.say("setting", "bezel")
	}
}

// tubeLikely takes a tube's outside with its wall or its inside, told apart, where just
// two figures are a tube's by the words round them.
func (d *draft) tubeLikely() {
	var of []*quantity
	for _, q := range d.m.found {
		if !q.used && (q.measure == length || q.measure == bare) && d.m.rolesOf("saddle", q).Of("tubesize") >= perhapsRole {
			of = append(of, q)
		}
	}
	if len(of) != 2 || d.has("tubesize") {
		return
	}
	const thickestWall = 1.2
	outside, other := max(of[0].value, of[1].value), min(of[0].value, of[1].value)
	wall := other
	switch {
	case other > outside/2:
		wall = (outside - other) / 2
		d.note("%s outside and %s inside is a wall of %s", mm(outside), mm(other), mm(wall))
	case other > thickestWall:
		return
	}
	of[0].used, of[1].used = true, true
	d.say("tubesize", plain2(outside)+"x"+plain2(wall))
}

// lies takes which way the stone's length lies.
func (d *draft) lies() {
	switch {
	case d.m.says("east west", "sideways", "crosswise", "along the band", "across the finger", "along the shank"):
		d.say("direction", "along-band")
	case d.m.says("north south", "along the finger", "lengthwise", "across the band", "across the shank"):
		d.say("direction", "along-finger")
	}
}

// footOfSetting takes the measure of the setting's foot, "foot 5x4", "6 mm at the base": it is
// no stone and no shank.
func (d *draft) footOfSetting() {
	m := d.m
	for _, q := range m.found {
		sized := q.measure == size || q.measure == length || q.measure == bare
		beside := m.saysOneBetween(max(0, q.first-1), q.first, "foot", "base") || m.saysOneBetween(q.next, q.next+1, "foot", "base") || m.saysOneBetween(q.next+2, q.next+3, "foot", "base") && m.saysOneBetween(q.next, q.next+1, "at", "across")
		if q.used || !sized || !beside || q.value < 1 || q.value > 40 || !m.context.takes("saddle", "basesize") {
			continue
		}
		d.set("basesize", q)
		return
	}
}
