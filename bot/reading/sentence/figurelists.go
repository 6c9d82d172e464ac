package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
	"guildhand/calc/dome"
	"guildhand/calc/tubeset"
)

// Figures of one kind that stand one after the other are what there is of a kind: the
// stones in a box, the discs of a cutter, the tubes on a shelf. No request takes several,
// so which of them serves is told in words.

// listedWith are what stands between the figures of a list.
var listedWith = []string{",", "and", "n", "or", "&", "+", "mm", "a", "an", "then", "also", "plus", "round", "rounds", "od"}

// mostBetween is how many words stand between two figures of a list at most.
const mostBetween = 3

// lists are the runs of two or more lengths that the message tells as alternatives.
func (m *message) lists() (all [][]*quantity) {
	var list []*quantity
	end := func() {
		if len(list) > 1 {
			all = append(all, list)
		}
		list = nil
	}
	for _, q := range m.found {
		if q.measure != length && q.measure != bare || q.role == "thickness" || q.role == "wall" {
			end()
			continue
		}
		if n := len(list); n > 0 {
			before := list[n-1]
			next := q.first - before.next
			if m.isFraction(before) && next == 0 { // "5/8 3/4 7/8"
				list = append(list, q)
				continue
			}
			if next < 1 || next > mostBetween || !m.saysBetween(before.next, q.first, listedWith...) || !m.saysOneBetween(before.next, q.first, ",", "and", "n", "or", "&", "od") {
				end()
			}
		}
		list = append(list, q)
	}
	end()
	return all
}

// isFraction reports whether a length was typed as less than one, "5/8".
func (m *message) isFraction(q *quantity) bool {
	return strings.Contains(q.typed(m), "/") && !strings.Contains(strings.TrimSpace(q.typed(m)), " ")
}

// listOf is the only list of at least so many figures, nil for none and for several.
func (m *message) listOf(least int) (only []*quantity) {
	for _, list := range m.lists() {
		if len(list) < least {
			continue
		}
		if only != nil {
			return nil
		}
		only = list
	}
	return only
}

// without is the message read anew without some of its figures.
func (m *message) without(list []*quantity) *message {
	fresh := m.anew()
	fresh.found = slices.DeleteFunc(fresh.found, func(q *quantity) bool {
		return slices.ContainsFunc(list, func(of *quantity) bool { return of.first == q.first })
	})
	return fresh
}

// valuesOf are the figures of a list in mm.
func valuesOf(list []*quantity) (all []float64) {
	for _, q := range list {
		all = append(all, q.value)
	}
	return all
}

// beginsTalk reports whether a message stands by itself.
func (m *message) beginsTalk() bool { return m.context.Last == nil && m.context.Asked == nil }

// beginsTalkOrWhole reports whether a message stands by itself or tells all that it needs.
func (m *message) beginsTalkOrWhole() bool {
	return m.context.Asked == nil && (m.context.Last == nil || m.whole())
}

// besideList reports whether one of these words stands a few words before a list or
// behind it.
func (m *message) besideList(list []*quantity, words ...string) bool {
	const near = 7
	first, next := list[0].first, list[len(list)-1].next
	return m.saysOneBetween(max(0, first-near), first, words...) || m.saysOneBetween(next, min(len(m.tokens), next+3), words...)
}

// discOfCutter tells which of a cutter's discs makes a dome, or the dome of the one that is
// named again.
func (m *message) discOfCutter() (Reading, bool) {
	if !m.beginsTalk() || !m.has("domework") && !m.says("dome", "domes", "domed", "doming", "dapping", "ball", "sphere", "bead", "beads", "bowl", "half ball") {
		return Reading{}, false
	}
	list := m.listOf(2)
	if list == nil || !m.besideList(list, "cutter", "cutters", "discs", "disks", "punches", "disc", "disk") {
		return Reading{}, false
	}
	fresh := m.without(list)
	for _, q := range fresh.found {
		if slices.Contains(valuesOf(list), q.value) && q.role != "thickness" && !m.asksWhichDisc(q) {
			fresh.found = slices.DeleteFunc(fresh.found, func(other *quantity) bool { return other == q })
			fresh.inHand = map[string]string{"disc": q.shown}
			break
		}
	}
	r := fresh.dome()
	if r.Outcome != Request {
		return Reading{}, false
	}
	if r.Options["disc"] == "" {
		r.Verdict = discFor(r, valuesOf(list))
	}
	return r, r.Verdict != ""
}

// asksWhichDisc reports whether one of a cutter's discs is asked for, so that a figure that is
// named again is the dome's own: "which for a 12 mm half dome?"
func (m *message) asksWhichDisc(again *quantity) bool {
	ofDome := m.saysOneBetween(again.next, min(len(m.tokens), again.next+3), "dome", "domes", "hemisphere", "hemispheres", "half", "ball", "bead", "beads", "across", "wide", "od")
	return ofDome && m.says("which", "what size", "what disc", "nearest", "closest")
}

// usualDomeMM is the sheet of a dome where none is told; common practice, no source.
const usualDomeMM = 0.6

// domeOf is the dome of a request, measured over its outside.
func domeOf(r Reading) dome.Dome {
	d := dome.Dome{DiameterMM: lengthOf(r.Options["size"]), HeightMM: lengthOf(r.Options["height"]), ThicknessMM: usualDomeMM, Face: dome.Outside}
	if r.Options["hemisphere"] != "" {
		d.HeightMM = d.DiameterMM / 2
	}
	if t := lengthOf(r.Options["thickness"]); t > 0 {
		d.ThicknessMM = t
	}
	return d
}

// discFor tells which disc a dome takes, of those that there are.
func discFor(r Reading, discs []float64) string {
	d := domeOf(r)
	if d.Check() != nil {
		return ""
	}
	disc := d.DiscMM()
	slices.Sort(discs)
	for _, have := range discs {
		switch off := have - disc; {
		case math.Abs(off) <= 0.04*disc:
			return fmt.Sprintf("Take the %s disc: the dome's is about %s, so it comes out %.1f %% %s.", mm(have), mm(disc), 100*math.Abs(off)/disc, whichWay(off, "larger", "smaller"))
		case off > 0:
			return fmt.Sprintf("Take the %s disc and trim it: the dome's is about %s.", mm(have), mm(disc))
		}
	}
	return fmt.Sprintf("None of them is large enough: the dome's disc is about %s. Saw that one out.", mm(disc))
}

// ofEachWords tell that of several figures each is a piece of its own.
var ofEachWords = []string{"both", "each", "all", "two", "three", "respectively", "discs", "separate", "separately"}

// discOfEach tells the disc of each of several domes that differ in their width alone.
func (m *message) discOfEach() (Reading, bool) {
	wanted, chance := m.likeliest()
	list := m.listOf(2)
	if !m.beginsTalk() || wanted != "dome" || chance < possible || list == nil || !m.says(ofEachWords...) {
		return Reading{}, false
	}
	var parts []string
	for i, q := range list {
		fresh := m.without(slices.Concat(list[:i], list[i+1:]))
		r := fresh.dome()
		d := domeOf(r)
		if r.Outcome != Request || r.Options["disc"] != "" || math.Abs(d.DiameterMM-q.value) > 0.005 || d.Check() != nil {
			return Reading{}, false
		}
		parts = append(parts, fmt.Sprintf("%s across and %s high takes a disc of %.1f mm", mm(d.DiameterMM), mm(d.HeightMM), d.DiscMM()))
	}
	return worked("discs of several domes", "a disc has the area of its dome at the middle of the metal", "Measured over the outside, "+inAll(parts))
}

// metalOfEach tells the metal of each of several waxes that are cast apart.
func (m *message) metalOfEach() (Reading, bool) {
	wanted, chance := m.likeliest()
	a := m.metal()
	if !m.beginsTalk() || wanted != "melt" || chance < possible || len(m.alloys) != 1 || a.likeliestKey() == "" || !m.says("both", "each", "respectively", "separate", "separately") || m.has("sprue") {
		return Reading{}, false
	}
	alloy := alloyOf(a.likeliestKey())
	var parts []string
	var before *quantity
	for _, q := range m.found {
		switch {
		case q.measure == count:
			continue
		case q.measure != mass && q.measure != bare, before != nil && !m.saysBetween(before.next, q.first, listedWith...):
			return Reading{}, false
		}
		before = q
		grams := casting.MetalG(q.value, casting.WaxDensityGPerCM3, alloy.DensityGPerCM3)
		parts = append(parts, fmt.Sprintf("%s g of wax is %.1f g of metal, %.1f g with a fifth for the button", plain(q.value), grams, (1+usualButton)*grams))
	}
	if len(parts) < 2 {
		return Reading{}, false
	}
	return worked("metal of several waxes", "mass x the metal's density / the wax's, 0.96 g/cm³; a button of a fifth: common practice, no source",
		fmt.Sprintf("In %s: %s", alloy.Name, inAll(parts)))
}

// stoneWords tell that figures are those of stones.
var stoneWords = []string{"stone", "stones", "cabs", "cab", "cabochon", "cabochons", "gems", "gem", "czs", "cz", "rounds", "diamonds", "garnets", "opals", "pedras", "brilliants"}

// oneOfMany tells which of several stones goes in a tube, a cone or round a strip, or which
// of several tubes a stone takes.
func (m *message) oneOfMany() (Reading, bool) {
	list := m.listOf(2)
	if !m.beginsTalk() || list == nil || slices.Max(valuesOf(list)) > 40 || len(list) > 8 {
		return Reading{}, false
	}
	fresh := m.without(list)
	fresh.bindRoles()
	if r, ok := tubesForStone(fresh, list); ok {
		return r, true
	}
	if m.besideList(list, stoneWords...) {
		for _, read := range []func(*message, []*quantity) (Reading, bool){stonesInTube, stonesOnCone, stonesInStrip} {
			if r, ok := read(fresh, list); ok {
				return r, true
			}
		}
	}
	return Reading{}, false
}

// stonesInTube tells of each stone whether it goes in the tube that the rest tells.
func stonesInTube(rest *message, stones []*quantity) (Reading, bool) {
	if !rest.says("tube", "tubing", "pipe", "tubo") || rest.has("slide") {
		return Reading{}, false
	}
	t, ok := rest.oneTube()
	if !ok {
		return Reading{}, false
	}
	f := ringFigures{m: rest, request: "tubeset", of: map[string][]*quantity{"size": stones}, sure: 1}
	return f.whichStone(t)
}

// oneTube is the tube that a message tells with all its figures.
func (m *message) oneTube() (tubeset.Tube, bool) {
	d := m.draft("match")
	outer, wall := d.tube()
	if q := m.of(size); outer == 0 && q != nil && len(q.sides) == 2 {
		q.used = true
		t := tubeOfSides(q.sides[0], q.sides[1])
		outer, wall = t.OuterMM, t.WallMM
	}
	plainFigures := slices.ContainsFunc(m.found, func(q *quantity) bool { return !q.used && (q.measure == length || q.measure == bare) })
	return tubeset.Tube{OuterMM: outer, WallMM: wall}, outer > 0 && wall > 0 && 2*wall < outer && outer < 30 && !plainFigures
}

// stonesOnCone tells of each stone whether it sits on a cone that is made, whose top and
// wall the rest tells.
func stonesOnCone(rest *message, stones []*quantity) (Reading, bool) {
	if !rest.says("cone", "collet", "setting", "mount", "head") {
		return Reading{}, false
	}
	top, wall := rest.with("outer", "top"), rest.with("wall", "thickness")
	if top == nil {
		top = rest.lengthBeside("top", "outside", "mouth", "across")
	}
	if top == nil || wall == nil || top == wall || !plainMM(top) || thicknessOf(wall) > top.value/4 {
		return Reading{}, false
	}
	thick := thicknessOf(wall)
	inner := top.value - 2*thick
	var parts []string
	best := 0.0
	for _, stone := range stones {
		switch v := stone.value; {
		case v <= inner:
			parts = append(parts, mm(v)+" falls through")
		case (top.value-v)/2 < tubeset.LeastWallMM:
			parts = append(parts, fmt.Sprintf("%s leaves no more than %s of wall to push over", mm(v), mm(max(0, (top.value-v)/2))))
		default:
			parts = append(parts, fmt.Sprintf("%s rests on %s of wall and leaves %s beside it", mm(v), mm((v-inner)/2), mm((top.value-v)/2)))
			if best == 0 {
				best = v
			}
		}
	}
	lead := "None of them suits."
	if best > 0 {
		lead = fmt.Sprintf("Take the %s stone.", mm(best))
	}
	return worked("which stone for a cone", "inside = outside - 2 x wall; the wall left beside a stone: common practice, no source",
		fmt.Sprintf("%s The cone is %s inside at its top (%s - 2 x %s): %s Cut a seat into the wall before you push it over.", lead, mm(inner), plain(top.value), plain(thick), sentenceCase(inAll(parts))))
}

// lengthBeside is the length with one of these words close by.
func (m *message) lengthBeside(words ...string) *quantity {
	for _, q := range m.found {
		if plainMM(q) && q.role != "wall" && q.role != "thickness" && m.saysOneBetween(q.next, min(len(m.tokens), q.next+4), words...) {
			return q
		}
	}
	return nil
}

// stonesInStrip tells which round stone takes most of a strip for its bezel.
func stonesInStrip(rest *message, stones []*quantity) (Reading, bool) {
	if !rest.says(stripWords...) || len(rest.meaning("outline:")) > 0 && rest.meaning("outline:")[0] != "round" {
		return Reading{}, false
	}
	var long, thick *quantity
	for _, q := range rest.found {
		switch {
		case q.measure == gauge || q.role == "thickness" || (q.measure == length || q.measure == bare) && q.value < 1.3:
			thick = q
		case plainMM(q) && q.value >= 15 && long == nil:
			long = q
		case q.measure != count:
			return Reading{}, false
		}
	}
	if long == nil {
		return Reading{}, false
	}
	wall := gaugeMM(28)
	if thick != nil {
		wall = thicknessOf(thick)
	}
	var parts []string
	best := 0.0
	for _, stone := range stones {
		need := math.Pi * (stone.value + wall)
		parts = append(parts, fmt.Sprintf("%s takes %.1f mm", mm(stone.value), need))
		if need <= long.value {
			best = max(best, stone.value)
		}
	}
	lead := "The strip is too short for all of them."
	if best > 0 {
		lead = fmt.Sprintf("The %s stone leaves least: %.1f mm of your %s.", mm(best), long.value-math.Pi*(best+wall), strings.TrimSpace(long.typed(rest)))
	}
	return worked("stones for a strip", "a round bezel's strip is pi x (stone + thickness)",
		fmt.Sprintf("%s With a wall of %.2f mm a round of %s Add 0.3 mm for filing the joint.", lead, wall, inAll(parts)))
}

// tubesForStone tells which of several tubes of one wall a stone takes.
func tubesForStone(m *message, tubes []*quantity) (Reading, bool) {
	before, next := tubes[0].first, tubes[len(tubes)-1].next
	outsides := []string{"outside", "od", "outer", "tube", "tubes", "tubing"}
	if !m.saysOneBetween(max(0, before-2), before, outsides...) && !m.saysOneBetween(next, min(len(m.tokens), next+2), outsides...) {
		return Reading{}, false
	}
	var wall, stone *quantity
	for _, q := range m.found {
		switch {
		case (q.role == "wall" || q.role == "thickness" || thicknessOf(q) <= 1.2 && (q.measure == length || q.measure == bare)) && wall == nil:
			wall = q
		case plainMM(q) && stone == nil:
			stone = q
		case q.measure == count:
		default:
			return Reading{}, false
		}
	}
	if wall == nil || stone == nil || stone.value > 15 {
		return Reading{}, false
	}
	var all []tubeset.Tube
	for _, q := range tubes {
		t := tubeset.Tube{OuterMM: q.value, WallMM: thicknessOf(wall)}
		if t.InnerMM() <= 0 {
			return Reading{}, false
		}
		all = append(all, t)
	}
	f := ringFigures{m: m, request: "tubeset", of: map[string][]*quantity{"size": {stone}}, sure: 1}
	return f.whichTube(all)
}
