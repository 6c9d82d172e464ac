package sentence

import (
	"fmt"
	"slices"
	"strings"
)

// Who works in inches types what the calipers show, ".315 x .236, .19 deep", and names
// no unit. Read as mm such a piece would be cut 25 times too small, so a figure that
// can't be mm makes inches of the bare figures round it, and the answer says so.

// What a figure can't be in mm. Common practice, no source.
const (
	leastStone  = 0.85 // the smallest stone that is set one by one
	leastFancy  = 1.45 // the longer side of a stone that has two
	leastOffcut = 5    // the longer side of a scrap that is worth its sum
	leastDome   = 1.5  // a dome or the disc for it
	leastSheet  = 0.1  // sheet, or a tube's wall
	leastTall   = 0.4  // a stone's depth, or a setting's height
	// mostSheet is the thickest sheet of a setting, in inches; a bare decimal from
	// here up to an inch is no sheet, unless it is in mm.
	mostSheet = 0.14
	mostBare  = 2.5 // the longest stone that is told in inches without a unit
)

// inches reads bare decimals as inches where the message says that it gives inches,
// where a figure can't be mm, or where the stone was told in inches.
func (m *message) inches() {
	why := m.whyInches()
	var read []string
	for _, q := range m.found {
		if q.unit && q.measure == size && m.mixesUnits(q) {
			read = append(read, q.mendMixed())
			continue
		}
		if m.tooThin(q) || why != "" && m.inInches(q, why) {
			q.asInches()
			read = append(read, strings.TrimSuffix(q.shown, " in"))
		}
	}
	if why == "" {
		why = tooSmall
	}
	if len(read) > 0 {
		m.assume("%s %s read as inches, %s", strings.Join(read, ", "), map[bool]string{true: "is", false: "are"}[len(read) == 1], why)
	}
}

// Why bare figures are inches, as the answer says it.
const (
	saidSo    = "as you said"
	tooSmall  = "too small for mm; type mm if you mean that"
	asTheRest = "as the rest is"
)

func (m *message) whyInches() string {
	inInches := func(q *quantity) bool {
		w := m.at(q.next - 1).text
		stone := q.measure == size || q.measure == length && q.value >= 2
		return stone && (strings.HasSuffix(q.shown, " in") || w == "inch" || w == "inches" || w == "in" || w == `"`)
	}
	switch {
	case m.says("in thou", "in inches", "in inch", "all inches", "all in inches", "decimal inches", "inches throughout") && !slices.ContainsFunc(m.found, m.inMillimetres):
		return saidSo
	case slices.ContainsFunc(m.found, m.cantBeMM):
		return tooSmall
	case slices.ContainsFunc(m.found, inInches), slices.ContainsFunc(m.found, inThousandths) && !m.toldInMM():
		return asTheRest
	}
	return ""
}

// inThousandths matches ".065", which was read as inches by itself.
func inThousandths(q *quantity) bool {
	inches, is := strings.CutSuffix(q.shown, " in")
	return is && q.measure == length && isThousandths(inches)
}

// inThreeDecimals matches a figure as calipers in inches show it, "1.250".
func inThreeDecimals(q *quantity) bool {
	_, decimals, _ := strings.Cut(q.shown, ".")
	return len(decimals) == 3
}

func (m *message) inMillimetres(q *quantity) bool {
	return q.measure == length && m.at(q.next-1).text == "mm" || q.measure == size && q.unit
}

// inInches reports whether a bare figure is in inches where the message gives inches.
func (m *message) inInches(q *quantity, why string) bool {
	switch {
	case q.measure == size:
		most := slices.Max(append([]float64{0}, q.sides...))
		bound := mostBare
		if m.saysStock() || why == saidSo {
			bound = leastStone
		}
		return !q.unit && q.isDecimal() && !m.ofWire(q) && most < bound || m.cantBeMM(q)
	case q.measure != bare || !q.isDecimal():
		return q.measure == bare && m.ofSmallDome(q)
	case why == saidSo:
		return q.value < 2
	case m.cantBeMM(q) || q.value < mostSheet:
		return true
	case q.value >= 1:
		return q.value < mostBare && inThreeDecimals(q)
	case m.metalBehind(q) || m.behindSheet(q):
		return false
	}
	return m.besideRole(q, "depth", "height", "dome", "width", "length", "diameter", "perimeter") || m.hasSheetBeside(q)
}

// cantBeMM reports whether a bare figure is too small for what it measures, if it were
// in mm.
func (m *message) cantBeMM(q *quantity) bool {
	switch q.measure {
	case size:
		if q.unit || len(q.sides) == 0 || m.ofWire(q) {
			return false
		}
		most := slices.Max(q.sides)
		switch {
		case m.ofOffcut(q):
			return most < leastOffcut
		case !q.isDecimal():
			return false
		case slices.Min(q.sides) < leastSheet: // "discs .875 x .040"
			return true
		case m.ofMetal(q):
			return most < leastStone
		case m.namesStone():
			return most < leastFancy
		}
		return most < leastStone && (m.namesShape() || m.beginsWithPoint(q))
	case bare:
		if q.value < leastTall && m.beginsWithPoint(q) && m.besideRole(q, "depth", "height") && !m.says("bearing", "seat", "ledge", "step", "girdle") {
			return true
		}
		return q.isDecimal() && !m.metalBehind(q) && (m.isCaliperReading(q) || q.value < leastStone && m.isOnlyOfStone(q)) || m.ofSmallDome(q)
	}
	return false
}

// beginsWithPoint matches a figure that is typed as calipers in inches show it, ".315".
func (m *message) beginsWithPoint(q *quantity) bool {
	decimals, ok := strings.CutPrefix(m.at(q.first).shown, "0.")
	for at := 0; ok; {
		i := strings.Index(m.typed[at:], "."+decimals)
		if i < 0 {
			return false
		}
		if at += i; at == 0 || m.typed[at-1] < '0' || m.typed[at-1] > '9' {
			return true
		}
		at++
	}
	return false
}

// isDecimal reports whether a figure was typed with a point.
func (q *quantity) isDecimal() bool { return strings.Contains(q.shown, ".") }

// isCaliperReading matches thousandths, which nobody types of mm but where they stand
// for a gauge.
func (m *message) isCaliperReading(q *quantity) bool {
	if _, decimals, _ := strings.Cut(q.shown, "."); len(decimals) != 3 || q.value < mostSheet || q.value >= 1 || !m.namesShape() || m.of(mass) != nil {
		return false
	}
	g := gaugeMM(nearestGauge(q.value))
	return q.value < g-0.003 || q.value > g+0.003
}

// namesStone reports whether the message speaks of a stone.
func (m *message) namesStone() bool {
	return m.has("stone", "cab") || len(m.meaning("outline:"))+len(m.meaning("gem:")) > 0
}

// namesShape reports whether the message names what small figures are measured on.
func (m *message) namesShape() bool {
	return m.namesStone() || m.has("domework", "tube", "offcut", "hole", "freeform")
}

// ofWire matches a section of wire or a strip's, which may be so small.
func (m *message) ofWire(q *quantity) bool {
	return m.stockBehind(q) || m.at(q.first-1).text == "wire" || m.has("wire") && !m.namesStone()
}

// isOnlyOfStone matches the one figure beside an outline that one number describes:
// ".276 round", "square garnet .236".
func (m *message) isOnlyOfStone(q *quantity) bool {
	if m.stockBehind(q) || m.toldInMM() || m.of(carat) != nil || m.says("carat", "carats") || m.saysStock() && !m.has("stone", "cab") {
		return false
	}
	for _, s := range m.senses {
		of := s.Role == "diameter" && s.first == q.next || oneSided[s.outline()] || s.outline() == "" && contains(s.Means, "stone")
		if !of || s.first < q.next && q.first-s.next > 1 || s.first >= q.next && s.first-q.next > 0 {
			continue
		}
		w := m.at(s.next).text
		alone := !slices.ContainsFunc(m.found, func(other *quantity) bool {
			return other != q && other.measure != count && (other.next == s.first || other.first == s.next) && !m.besideRole(other, "depth", "height", "dome")
		})
		if between := m.at(q.first - 1); s.first < q.next && q.first-s.next == 1 && (!between.word() || bindingWords[between.text]) {
			continue
		}
		if alone && w != "wire" && w != "bar" && w != "rod" && w != "tube" {
			return true
		}
	}
	return false
}

// toldInMM reports whether a stone's size was told that can only be mm.
func (m *message) toldInMM() bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == size && len(q.sides) > 0 && slices.Max(q.sides) >= mostBare && !m.ofMetal(q) || q.measure == length && m.at(q.next-1).text == "mm" && q.value >= 2 && (m.ofOutline(q) || m.outlineAt(q.next) || m.besideRole(q, "diameter", "width"))
	})
}

// tooThin matches a figure of the metal that is no sheet in mm: ".04 copper".
func (m *message) tooThin(q *quantity) bool {
	return q.measure == bare && q.isDecimal() && q.value > 0.005 && q.value < leastSheet && (m.metalBehind(q) || m.behindSheet(q))
}

// behindSheet matches a figure behind the word of its metal: "sheet .5", "wall .016".
func (m *message) behindSheet(q *quantity) bool {
	for _, s := range m.senses {
		beside := s.next == q.first || s.next == q.first-1 && (m.at(s.next).text == "is" || m.at(s.next).text == "of")
		if (s.Role == "thickness" || s.Role == "wall") && (beside && !s.After || s.first == q.next) {
			return !m.hasSheetBeside(q)
		}
	}
	w := m.at(q.first - 1).text
	return w == "sheet" || w == "metal" || w == "wire"
}

// hasSheetBeside reports whether another figure than this tells the metal's thickness.
func (m *message) hasSheetBeside(q *quantity) bool {
	return slices.ContainsFunc(m.found, func(other *quantity) bool {
		return other != q && (other.measure == gauge || other.measure == length && other.value < 2.2 || other.measure == bare && other.isDecimal() && m.metalBehind(other))
	})
}

// besideRole reports whether a word with one of these roles stands beside a figure.
func (m *message) besideRole(q *quantity, roles ...string) bool {
	for _, s := range m.senses {
		if !slices.Contains(roles, s.Role) {
			continue
		}
		gap := m.between(s.next, q.first)
		if s.first == q.next || s.next <= q.first && !s.After && slices.Contains([]string{"", "is", "of", ",", "=", "about", "its"}, gap) {
			return true
		}
	}
	return false
}

// ofSmallDome matches the disc or the width of a dome that is too small in mm: for any
// dome, or for one of its metal.
func (m *message) ofSmallDome(q *quantity) bool {
	if m.cues["dome"] == 0 || m.metalBehind(q) || m.behindSheet(q) || m.toldInMM() {
		return false
	}
	sheet := m.of(gauge)
	if sheet == nil {
		return q.isDecimal() && q.value < leastDome && m.besideRole(q, "width", "diameter")
	}
	const thicknessesWide = 4 // the least dome that a sheet is bent to, from memory
	wide := m.besideRole(q, "width", "diameter") && q.value < thicknessesWide*gaugeMM(sheet.value)
	return wide || q.isDecimal() && q.value < leastDome && !slices.ContainsFunc(m.found, func(other *quantity) bool {
		return (other.measure == bare || other.measure == length) && other.value >= thicknessesWide*gaugeMM(sheet.value)
	})
}

// mixesUnits matches a stone of which one side can't be in the unit of the other:
// ".39 by 6 mm".
func (m *message) mixesUnits(q *quantity) bool {
	bothInMM := m.at(q.first+1).text == "mm" && m.at(q.next-1).text == "mm"
	if len(q.sides) != 2 || bothInMM || strings.HasSuffix(q.shown, " in") || !m.namesStone() || m.ofMetal(q) || m.ofWire(q) {
		return false
	}
	least, most := slices.Min(q.sides), slices.Max(q.sides)
	return least < leastStone && most < 25.4*least*4 && most > 4*least
}

// mendMixed reads the side as inches that can't be mm, and tells it.
func (q *quantity) mendMixed() (read string) {
	for k, side := range q.sides {
		if side < leastStone {
			read = plain(side)
			q.sides[k] = side * 25.4
		}
	}
	q.value = q.sides[0]
	q.shown = fmt.Sprintf("%sx%s", plain(q.sides[0]), plain(q.sides[1]))
	return read
}

// asInches makes inches of a bare figure.
func (q *quantity) asInches() {
	q.value *= 25.4
	for k := range q.sides {
		q.sides[k] *= 25.4
	}
	if q.measure == bare {
		q.measure = length
	}
	q.unit = true
	q.shown = strings.ReplaceAll(q.shown, "x", " x ") + " in"
}

// How far round a finger is in inches.
const leastRoundFinger, mostRoundFinger = 1.6, 3.6

// fingerInInches reads "my finger is 2 3/4 around with a string": no ring size is measured
// with a string.
func (m *message) fingerInInches() {
	if !m.says("finger", "knuckle", "thumb") || !m.says("string", "tape", "ribbon", "floss", "paper", "measures", "measured", "around", "round") {
		return
	}
	for _, q := range m.found {
		bareSize := q.measure == bare || q.measure == ringSize && q.system == "" && q.value > 0
		if bareSize && q.value >= leastRoundFinger && q.value <= mostRoundFinger && m.saysOneBetween(q.next, q.next+3, "around", "round", "all round", "circumference") {
			q.measure = length
			q.asInches()
			q.role = "perimeter"
			m.assume("%s is read as inches round the finger", strings.TrimSuffix(q.shown, " in"))
		}
	}
}

// How wide a ring is inside, in inches, from the smallest size to the largest.
const leastAcrossRing, mostAcrossRing = 0.45, 1.05

// ringInInches reads "the ring is .742 inside" and "finger mikes .685" as inches across: no
// ring is so narrow in mm, and no metal is told so beside its ring.
func (m *message) ringInInches() {
	ofRing := m.says("ring", "rings", "finger", "=id", "inside") && !m.has("stone", "cab", "tube", "jumpring", "dome", "bezel") && len(m.meaning("outline:")) == 0 && !m.says("chain", "links", "link")
	if !ofRing {
		return
	}
	thousandths := func(q *quantity) bool {
		return q.measure == bare && !q.unit && m.beginsWithPoint(q) && len(m.at(q.first).shown) == len("0.742")
	}
	isRing := func(q *quantity) bool {
		return thousandths(q) && !measuring[m.at(q.next).text] && q.value >= leastAcrossRing && q.value <= mostAcrossRing
	}
	if !slices.ContainsFunc(m.found, isRing) {
		return
	}
	for _, q := range m.found {
		if thousandths(q) {
			q.asInches()
			m.assume("%s is read as inches", strings.TrimSuffix(q.shown, " in"))
		}
	}
}

// inchesOfPiece reads ".240 tall" as inches after a piece that was told in inches.
func (m *message) inchesOfPiece() {
	if !m.context.toldInInches() {
		return
	}
	for _, q := range m.found {
		if q.measure == bare && !q.unit && m.beginsWithPoint(q) {
			q.asInches()
			m.assume("%s is read as inches, %s", strings.TrimSuffix(q.shown, " in"), asTheRest)
		}
	}
}

// toldInInches reports whether the last piece, or the one that was asked about, has a
// figure in inches.
func (c Context) toldInInches() bool {
	inches := func(options map[string]string) bool {
		for _, v := range options {
			if strings.HasSuffix(v, " in") {
				return true
			}
		}
		return false
	}
	return c.Last != nil && inches(c.Last.Options) || c.Asked != nil && inches(c.Asked.Options)
}
