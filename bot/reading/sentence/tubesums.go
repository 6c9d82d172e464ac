package sentence

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/tubeset"
)

// tubeset works out stones in tube from which of the figures are told.
func (f *ringFigures) tubeset() (Reading, bool) {
	if o := f.m.meaning("outline:"); len(o) > 0 && o[0] != "round" || f.m.says("cab", "cabochon", "cabs") {
		return Reading{}, false
	}
	tubes, ok := f.tubes()
	if !ok {
		return Reading{}, false
	}
	delete(f.of, "tubesize")
	several, ok := f.several()
	sizes := f.of["size"]
	switch {
	case !ok || several != "" && len(tubes) > 1 || len(sizes) > 4:
		return Reading{}, false
	case len(sizes) == 0 && len(tubes) > 1:
		return stonesOfSeveral(tubes)
	case len(sizes) == 0 && len(tubes) == 1:
		return f.stoneOfTube(tubes[0])
	case len(sizes) == 0:
		return Reading{}, false
	case len(tubes) > 1 && len(sizes) == 1:
		return f.whichTube(tubes)
	case several == "size" && len(tubes) == 1:
		return f.whichStone(tubes[0])
	case several != "":
		return f.tubesCompared(several)
	}
	return f.tubeAsTold(tubes)
}

// tubes are those that the message tells, each by its outside and its wall or its bore; a
// wall that is told once is that of them all. ok is false where they are not whole.
func (f *ringFigures) tubes() (all []tubeset.Tube, ok bool) {
	var outer, wall, bore []float64
	for _, q := range f.of["tubesize"] {
		v, before := thicknessOf(q), math.Inf(1)
		if len(outer) > 0 {
			before = outer[len(outer)-1]
		}
		switch {
		case q.measure == size:
			all = append(all, tubeOfSides(q.sides[0], q.sides[1]))
		case q.measure == gauge || q.role == "wall" || q.role == "thickness" || q.role != "outer" && len(outer) > 0 && v < 0.3*before:
			wall = append(wall, v)
		case q.role == "inner" || q.role != "outer" && len(outer) > 0 && v >= 0.45*before && v < before && f.m.says("inside", "inner", "=id", "hole", "bore", "over"):
			bore = append(bore, v)
		case q.role == "outer" || v > 1.2:
			outer = append(outer, v)
		default:
			wall = append(wall, v)
		}
	}
	told, ok := tubesOf(outer, wall, bore)
	all = append(all, told...)
	for _, t := range all {
		if t.WallMM < 0.1 || t.InnerMM() <= 0 {
			return nil, false
		}
	}
	return all, ok
}

// tubesOf are the tubes of these measures; ok is false where they are not whole.
func tubesOf(outer, wall, bore []float64) (all []tubeset.Tube, ok bool) {
	for k, o := range outer {
		switch {
		case len(wall) == 0 && len(bore) == len(outer):
			all = append(all, tubeset.Tube{OuterMM: o, WallMM: (o - bore[k]) / 2})
		case len(bore) == 0 && len(wall) == len(outer):
			all = append(all, tubeset.Tube{OuterMM: o, WallMM: wall[k]})
		case len(bore) == 0 && len(wall) == 1:
			all = append(all, tubeset.Tube{OuterMM: o, WallMM: wall[0]})
		default:
			return nil, false
		}
	}
	return all, len(outer) > 0 || len(wall)+len(bore) == 0
}

// tubeOfSides is a tube told as outside x wall, or as outside x inside.
func tubeOfSides(a, b float64) tubeset.Tube {
	outer, other := max(a, b), min(a, b)
	if other > 0.4*outer {
		other = (outer - other) / 2
	}
	return tubeset.Tube{OuterMM: outer, WallMM: other}
}

func shownTube(t tubeset.Tube) string {
	return plain(round4(t.OuterMM)) + "x" + plain(round4(t.WallMM))
}

func round4(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// tubeAsTold is the request with every figure in its place, with whether the tube serves.
func (f *ringFigures) tubeAsTold(tubes []tubeset.Tube) (Reading, bool) {
	stone := f.mmOf("size")
	if deep := f.one("depth"); deep != nil && (deep.value > 0.9*stone || deep.role != "depth" && deep.value > 0.75*stone) {
		return Reading{}, false
	}
	stick := f.stick()
	for _, q := range f.beside {
		if (q.measure == length || q.measure == size) && q != stick {
			return Reading{}, false // a length that is not known to be idle
		}
	}
	if stick != nil {
		return f.settingsOfStick(stick, tubes)
	}
	r := f.reading("size", "count", "spacing", "depth", "room", "kerf")
	r.Options["outline"] = "round"
	if q := f.one("count"); q != nil && f.m.inPairs(q) {
		r.Options["count"] = plain(2 * q.value)
		r.Notes = append(r.Notes, fmt.Sprintf("%s pairs are %s settings", plain(q.value), plain(2*q.value)))
	}
	if len(tubes) == 1 {
		r.Options["tubesize"] = shownTube(tubes[0])
		r.Verdict = whetherTube(tubes[0], stone)
	}
	return r, true
}

// whetherTube says whether a stone can be set in a tube.
func whetherTube(t tubeset.Tube, stone float64) string {
	rule := fmt.Sprintf("the rule is a stone of %s, halfway between outside and bore", mm(t.OuterMM-t.WallMM))
	if err := t.Serves(stone); err != nil {
		return fmt.Sprintf("No: %s; %s.", err, rule)
	}
	return fmt.Sprintf("Yes: a stone of %s covers %.0f %% of the wall of a tube %s outside and %s inside and leaves %s beside it; %s.", mm(stone), 100*t.Covered(stone), plain2(t.OuterMM), mm(t.InnerMM()), mm(t.WallLeftMM(stone)), rule)
}

// stick is a length of tube that is at hand.
func (f *ringFigures) stick() *quantity {
	q := f.lengthBeside(20, 5000)
	if q == nil || !q.unit || !f.m.says("stick", "of tube", "of tubing", "length of", "piece of") {
		return nil
	}
	return q
}

// The tube of one setting has what its ends are filed by, mm; common practice, no source.
const filedMM = 0.2

// settingsOfStick tells how many settings a length of tube makes.
func (f *ringFigures) settingsOfStick(stick *quantity, tubes []tubeset.Tube) (Reading, bool) {
	stone, kerf := f.mmOf("size"), f.numberOf("kerf", usualKerf)
	each := f.lengthOfTube(stone)
	n := math.Floor(stick.value / tubeset.StockMM(1, each, filedMM, kerf))
	f.beside = nil
	r := f.reading("size", "count", "spacing", "depth", "room", "kerf")
	r.Options["outline"] = "round"
	if q := f.one("count"); q != nil && f.m.inPairs(q) {
		r.Options["count"] = plain(2 * q.value)
		r.Notes = append(r.Notes, fmt.Sprintf("%s pairs are %s settings", plain(q.value), plain(2*q.value)))
	}
	if len(tubes) == 1 {
		r.Options["tubesize"] = shownTube(tubes[0])
	}
	r.Verdict = fmt.Sprintf("%s makes %.0f settings: each is %s long for a stone of %s, and takes %s for filing and %s for the saw.", mm(stick.value), n, mm(each), mm(stone), mm(filedMM), mm(kerf))
	return r, true
}

// settingsOfTube tells how many settings a length of tube makes where the figures were not
// placed together: the stone is known, and the one long figure is the tube's.
func (m *message) settingsOfTube(r Reading) (Reading, bool) {
	if r.Request != "tubeset" || r.Outcome != Request && r.Unplaced == "" || !m.says("how many") || !m.says("of tube", "of tubing", "of chenier") {
		return Reading{}, false
	}
	have, stone := m.stripAtHand(), mmOf(r.Options["size"])
	if have == nil || stone <= 0 || stone > have.value/2 || r.Options["count"] != "" || r.Unplaced != "" && r.Unplaced != strings.TrimSpace(have.typed(m)) {
		return Reading{}, false
	}
	const usualRoom = 0.5 // under the culet; common practice, no source
	each := tubeset.LengthMM(stone, -1, usualRoom)
	n := math.Floor(have.value / tubeset.StockMM(1, each, filedMM, usualKerf))
	return Reading{Outcome: Request, Request: r.Request, Options: r.Options, Notes: r.Notes, Verdict: fmt.Sprintf("%s makes %.0f settings: each is %s long for a stone of %s, and takes %s for filing and %s for the saw.", mm(have.value), n, mm(each), mm(stone), mm(filedMM), mm(usualKerf))}, true
}

// lengthOfTube is the tube of one setting.
func (f *ringFigures) lengthOfTube(stone float64) float64 {
	const usualRoom = 0.5 // under the culet; common practice, no source
	below := -1.0
	if depth := f.mmOf("depth"); depth > 0 {
		below = math.Max(0, depth-crownShare*stone)
	}
	return tubeset.LengthMM(stone, below, f.numberOf("room", usualRoom))
}

// crownShare is how much of a brilliant's width its crown and girdle are high (M. Tolkowsky,
// 1919; the girdle: common practice, no source).
const crownShare = 0.162 + 0.03

// whichTube tells which of several tubes a stone goes in.
func (f *ringFigures) whichTube(tubes []tubeset.Tube) (Reading, bool) {
	stone := f.mmOf("size")
	best, serves := tubes[0], 0
	var parts string
	for _, t := range tubes {
		if math.Abs(t.Covered(stone)-0.5) < math.Abs(best.Covered(stone)-0.5) {
			best = t
		}
		if t.Serves(stone) == nil {
			serves++
		}
		parts += fmt.Sprintf(" %s x %s: %s", plain2(t.OuterMM), mm(t.WallMM), whetherTube(t, stone))
	}
	if serves == 0 {
		usual := tubeset.For(stone, tubeset.UsualWallMM(stone))
		return worked("which tube for a stone", "half of the wall: C. Lewton-Brain, Tube Setting",
			fmt.Sprintf("None of them holds a stone of %s. %s outside with a wall of %s would.%s", mm(stone), mm(usual.OuterMM), mm(usual.WallMM), parts))
	}
	r := f.reading("size", "count", "spacing", "depth", "room", "kerf")
	r.Options["outline"], r.Options["tubesize"] = "round", shownTube(best)
	r.Verdict = fmt.Sprintf("Take the tube of %s x %s.%s", plain2(best.OuterMM), mm(best.WallMM), parts)
	return r, true
}

// whichStone tells which of several stones goes in a tube.
func (f *ringFigures) whichStone(t tubeset.Tube) (Reading, bool) {
	var parts string
	best := f.of["size"][0].value
	for _, q := range f.of["size"] {
		parts += fmt.Sprintf(" %s: %s", mm(q.value), whetherTube(t, q.value))
		if math.Abs(t.Covered(q.value)-0.5) < math.Abs(t.Covered(best)-0.5) {
			best = q.value
		}
	}
	lead := fmt.Sprintf("Take the %s stone.", mm(best))
	if t.Serves(best) != nil {
		lead = fmt.Sprintf("None of them goes in well; the %s stone comes nearest.", mm(best))
	}
	return worked("which stone for a tube", "half of the wall: C. Lewton-Brain, Tube Setting",
		lead+fmt.Sprintf(" A tube %s outside with a wall of %s is for a stone of about %s.%s", mm(t.OuterMM), mm(t.WallMM), mm(t.OuterMM-t.WallMM), parts))
}

// stonesOfSeveral tells which stone each of several tubes takes.
func stonesOfSeveral(tubes []tubeset.Tube) (Reading, bool) {
	var parts []string
	for _, t := range tubes {
		parts = append(parts, fmt.Sprintf("%s x %s takes a stone of about %s", plain2(t.OuterMM), mm(t.WallMM), mm(t.OuterMM-t.WallMM)))
	}
	return worked("stones for tubes", "half of the wall: C. Lewton-Brain, Tube Setting",
		"A round stone covers half of the wall, so it is halfway between outside and bore: "+inAll(parts)+" Up to a tenth of a millimetre more or less can be cut.")
}

// stoneOfTube tells the stones that a tube takes.
func (f *ringFigures) stoneOfTube(t tubeset.Tube) (Reading, bool) {
	if !f.m.asksWhichStone() && !f.m.has("whichstone") && !f.m.says("stone", "stones", "largest", "biggest", "maximum", "max", "smallest") {
		return Reading{}, false
	}
	f.request = "match"
	r := f.reading()
	r.Options["tubesize"] = shownTube(t)
	if o := f.m.meaning("outline:"); len(o) > 0 {
		r.Options["outline"] = o[0]
	}
	r.Verdict = fmt.Sprintf("In a tube setting this tube takes a round stone of about %s: from above the stone covers half of the wall, so it is the outside less the wall.", mm(t.OuterMM-t.WallMM))
	return r, true
}

// tubesCompared tells tube, length and bur of several stones, or lengths for several
// rooms and depths.
func (f *ringFigures) tubesCompared(several string) (Reading, bool) {
	all := f.of[several]
	if several == "kerf" || several == "count" || several == "spacing" || all[0].next == all[1].first {
		return Reading{}, false
	}
	var parts []string
	for _, q := range all {
		each := f.with(several, q)
		stone := each.mmOf("size")
		usual := tubeset.For(stone, tubeset.UsualWallMM(stone))
		long := each.lengthOfTube(stone)
		text := fmt.Sprintf("a stone of %s takes a tube of %s outside with a wall of %s, %s long, and a bur of %s", mm(stone), mm(usual.OuterMM), mm(usual.WallMM), mm(long), mm(stone))
		if several != "size" {
			text = fmt.Sprintf("with %s of %s a stone of %s takes %s of tube", several, mm(thicknessOf(q)), mm(stone), mm(long))
		}
		if n := int(each.mmOf("count")); n > 1 && !(several == "size" && n <= 2*len(all)) { // else of each, and not of them all
			text += fmt.Sprintf(", %s for %d with saw and file", mm(tubeset.StockMM(n, long, filedMM, each.numberOf("kerf", usualKerf))), n)
		}
		parts = append(parts, text)
	}
	return worked("tubes compared", "half of the wall: C. Lewton-Brain, Tube Setting; walls, room under the stone and filing: common practice, no source", sentenceCase(inAll(parts)))
}
