package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/calc/halo"
	"guildhand/calc/outline"
)

// The halo's usual gaps and edge, mm; common practice, no source.
const (
	usualGap  = 0.1
	usualEdge = 0.4
)

// halo works out small stones round a stone from which of the figures are told.
func (f *ringFigures) halo() (Reading, bool) {
	if f.m.says(twoRows...) || f.m.says("hidden halo", "under halo") {
		return Reading{}, false
	}
	f.roundBezel()
	several, ok := f.several()
	if !ok {
		return Reading{}, false
	}
	size, with, count := f.of["size"], f.of["with"], f.of["count"]
	overall := f.lengthBeside(5, 40)
	switch {
	case several == "count" && !f.m.says("or", "vs", "versus"):
		return Reading{}, false
	case several != "" && len(size) > 0 && len(with) > 0:
		return f.halosCompared(several)
	case several != "":
		return Reading{}, false
	case len(size) == 1 && len(with) == 1:
		return f.haloAsTold()
	case len(with) == 1 && len(count) == 1:
		return f.centreByCount()
	case len(size) == 1 && len(count) == 1:
		return f.smallByCount()
	case len(size) == 1 && overall != nil:
		return f.smallWithin(overall)
	case len(with) == 1 && overall != nil:
		return f.centreWithin(overall)
	}
	return Reading{}, false
}

// wholeHalo reports whether the centre, the small stones and their number are all told.
func (f *ringFigures) wholeHalo() bool {
	return f.request == "halo" && f.one("size") != nil && f.one("with") != nil && f.one("count") != nil
}

// outlineOfCentre is the outline that the message names, or the usual one of the centre's
// size.
func (f *ringFigures) outlineOfCentre() (kind string, named bool) {
	round := false
	for _, o := range f.m.meaning("outline:") {
		if o != "round" {
			return o, true
		}
		round = true
	}
	if q := f.one("size"); q != nil && q.measure == size {
		return "oval", false
	}
	return "round", round
}

// spec is the halo of these figures, with the usual gaps where none are told.
func (f *ringFigures) spec() (halo.Spec, error) {
	return f.specOf(f.shapeOfCentre())
}

// shapeOfCentre is the outline of the stone in the middle.
func (f *ringFigures) shapeOfCentre() outline.Shape {
	kind, _ := f.outlineOfCentre()
	shape := outline.Shape{Kind: outline.Kind(kind), CutShare: f.mmOf("cornercut") / 100}
	if q := f.one("size"); q.measure == size {
		shape.Size = outline.Size{LengthMM: max(q.sides[0], q.sides[1]), WidthMM: min(q.sides[0], q.sides[1])}
	} else {
		shape.Size.WidthMM = q.value
	}
	return shape
}

// specOf is the halo round this shape.
func (f *ringFigures) specOf(shape outline.Shape) (halo.Spec, error) {
	curve, err := outline.New(shape)
	return halo.Spec{Centre: curve, StoneMM: f.mmOf("with"), GapMM: f.numberOf("gap", usualGap), ToCentreMM: f.numberOf("centregap", usualGap),
		RimMM: f.numberOf("edge", usualEdge), Count: int(f.numberOf("count", 0))}, err
}

// haloAsTold is the request with every figure in its place, and whether so many stones go
// round where that is told.
func (f *ringFigures) haloAsTold() (Reading, bool) {
	s, err := f.spec()
	if err != nil || s.StoneMM >= smallerSide(s) && !f.m.says("petal", "petals", "flower", "same size") {
		return Reading{}, false
	}
	kind, named := f.outlineOfCentre()
	total := s.Count > 0 && f.m.says("how many", "hw many", "number of") // which is asked for, whatever they have
	options := []string{"size", "with", "count", "gap", "centregap", "edge", "thickness", "cornercut"}
	r := f.reading(options...)
	if total {
		delete(r.Options, "count")
	}
	r.Options["outline"] = kind
	f.touching(&r)
	if !named {
		r.Notes = append(r.Notes, fmt.Sprintf("the centre stone is taken as %s; say its outline if it is not", kind))
	}
	if s.Count > 0 && r.Outcome == Request {
		r.Verdict = whetherRound(s)
	}
	if overall := f.lengthBeside(5, 40); overall != nil && f.overAll(overall) {
		r.Verdict, r.Notes = whetherWithin(s, overall.value)+r.Verdict, nil
	}
	return r, true
}

// roundBezel takes the outside of the centre's bezel for the centre, where that is told: the
// small stones go round the bezel.
func (f *ringFigures) roundBezel() {
	centre := f.one("size")
	for _, q := range f.beside {
		stands := centre != nil && centre.measure != size && q.value > centre.value && q.value < centre.value+3
		if f.m.isBezelOutside(q) && (stands || len(f.of["size"]) == 0) {
			f.m.assume("the small stones go round the bezel, %s outside", mm(q.value))
			f.of["size"], f.beside = []*quantity{q}, without(f.beside, q)
			return
		}
	}
}

// isBezelOutside reports whether a figure is the outside of the setting in the middle.
func (m *message) isBezelOutside(q *quantity) bool {
	return (q.measure == length || q.measure == bare) && q.value >= 2 && m.saysOneBetween(q.first-5, q.next+3, "bezel", "collet", "cup", "setting") && m.saysOneBetween(q.first-4, q.next+2, "outside", "outer", "od")
}

// touching closes the gaps of stones that are to touch, where no gap is told.
func (f *ringFigures) touching(r *Reading) {
	if f.m.says("touch each other", "touching each other", "all touching", "all touch", "just touch", "to touch", "touching one another") && f.one("gap") == nil && f.one("centregap") == nil && f.one("count") == nil {
		r.Options["gap"], r.Options["centregap"] = "0", "0"
	}
}

func smallerSide(s halo.Spec) float64 {
	size := s.Centre.Size()
	return min(size.LengthMM, size.WidthMM)
}

// whetherRound says whether a number of stones go round, and how far apart.
func whetherRound(s halo.Spec) string {
	h, err := s.Set()
	most := s
	most.Count = 0
	fit, none := most.Set()
	if err != nil {
		if none != nil {
			return ""
		}
		return fmt.Sprintf("No: %s. %d go round with gaps of %s.", err, fit.Count, mm(fit.GapMM))
	}
	text := fmt.Sprintf("Yes: %d stones of %s go round with gaps of %s between them, %s from centre to centre.", s.Count, mm(s.StoneMM), mm(h.GapMM), mm(h.PitchMM))
	if none == nil && fit.Count > s.Count {
		text += fmt.Sprintf(" %d is the most, with gaps of %s.", fit.Count, mm(fit.GapMM))
	}
	return text
}

// whetherWithin says whether the plate stays within a width over all.
func whetherWithin(s halo.Spec, overall float64) string {
	plate := s.PlateSize()
	answer := "Yes"
	if max(plate.LengthMM, plate.WidthMM) > overall {
		answer = "No"
	}
	return fmt.Sprintf("%s: over all it is %s x %s, the centre and on both sides the gap, a stone and an edge of %s. ", answer, plain2(plate.LengthMM), mm(plate.WidthMM), mm(s.RimMM))
}

// halosCompared tells how many stones go round for each of several sizes or gaps.
func (f *ringFigures) halosCompared(several string) (Reading, bool) {
	var parts []string
	for _, q := range f.of[several] {
		each := f.with(several, q)
		s, err := each.spec()
		if err != nil || s.StoneMM >= smallerSide(s) {
			return Reading{}, false
		}
		if several == "count" {
			parts = append(parts, fmt.Sprintf("%d stones: %s", s.Count, strings.TrimSuffix(whetherRound(s), ".")))
			continue
		}
		h, err := s.Set()
		if err != nil {
			parts = append(parts, fmt.Sprintf("%s: %s", each.named(several), err))
			continue
		}
		plate := s.PlateSize()
		parts = append(parts, fmt.Sprintf("%s: %d stones, gaps of %s, plate %s x %s", each.named(several), h.Count, mm(h.GapMM), plain2(plate.LengthMM), mm(plate.WidthMM)))
	}
	kind, _ := f.outlineOfCentre()
	return worked("halos compared", "circles round a circle, or equal chords along the outline; gaps of 0.1 mm and an edge of 0.4 mm where none are told: common practice, no source",
		fmt.Sprintf("Round %s %s, %s", article(kind), kind, inAll(parts)))
}

// article is that of an outline's word.
func article(word string) string {
	if strings.ContainsAny(word[:1], "aeiou") {
		return "an"
	}
	return "a"
}

// named says which of several pieces it is.
func (f *ringFigures) named(option string) string {
	q := f.one(option)
	shown := mm(thicknessOf(q))
	if q.measure == size {
		shown = plain2(q.sides[0]) + " x " + mm(q.sides[1])
	}
	switch option {
	case "size":
		return "a stone of " + shown
	case "with":
		return "small stones of " + shown
	case "gap", "centregap":
		return "a gap of " + shown
	case "wire":
		return "wire of " + shown
	case "inside":
		return shown + " inside"
	case "mandrel":
		return "on " + shown
	case "chain":
		return "a chain of " + shown
	case "ratio":
		return "a ratio of " + plain(q.value)
	}
	return shown
}

// centreByCount tells how large a centre is round which so many small stones come out
// even.
func (f *ringFigures) centreByCount() (Reading, bool) {
	small, n := f.mmOf("with"), int(f.mmOf("count"))
	gap, toCentre := f.numberOf("gap", usualGap), f.numberOf("centregap", usualGap)
	kind, _ := f.outlineOfCentre()
	if n < 5 {
		return Reading{}, false
	}
	if kind == string(outline.Round) {
		even := halo.EvenCentreMM(small, n, gap, toCentre)
		if even < 0.8 {
			return Reading{}, false
		}
		return worked("centre for a number of stones", "circles round a circle",
			fmt.Sprintf("%d stones of %s go round a centre of %s, with gaps of %s between them and %s to the centre; touching one another and the centre they go round %s. To see it: halo round %s with %s count %d.",
				n, mm(small), mm(even), mm(gap), mm(toCentre), mm(halo.EvenCentreMM(small, n, 0, 0)), plain2(even), plain2(small), n))
	}
	described := outline.Kind(kind).Describe()
	long := max(described.LengthOverWidth, 1)
	of := func(width float64) (outline.Curve, error) {
		return outline.New(outline.Shape{Kind: outline.Kind(kind), Size: outline.Size{LengthMM: long * width, WidthMM: width}})
	}
	width, ok := halo.Spec{StoneMM: small, GapMM: gap, ToCentreMM: toCentre}.EvenCentreWidthMM(n, of)
	if !ok {
		return Reading{}, false
	}
	return worked("centre for a number of stones", "equal chords along the outline; proportions: common practice, no source",
		fmt.Sprintf("%d stones of %s go round %s %s of about %s x %s with gaps of %s, where it is %s times as long as wide; a longer one is narrower. To see it: halo %s %sx%s with %s count %d.",
			n, mm(small), article(kind), kind, plain2(long*width), mm(width), mm(gap), plain2(long), kind, plain2(long*width), plain2(width), plain2(small), n))
}

// smallByCount works out the halo with small stones of which so many come out even.
func (f *ringFigures) smallByCount() (Reading, bool) {
	s, err := f.spec()
	if err != nil {
		return Reading{}, false
	}
	n := s.Count
	if f.m.says("touching", "all touch", "touch each other") && f.one("gap") == nil && f.one("centregap") == nil {
		s.GapMM, s.ToCentreMM = 0, 0
	}
	s.StoneMM, s.Count = smallerSide(s)/4, 0
	even, ok := s.EvenStoneMM(n)
	if !ok || even < 0.7 || even > smallerSide(s) {
		return Reading{}, false
	}
	touching := s
	touching.GapMM = 0
	most, _ := touching.EvenStoneMM(n)
	kind, _ := f.outlineOfCentre()
	r := f.reading("size", "count", "gap", "centregap", "edge", "thickness", "cornercut")
	r.Options["outline"], r.Options["with"] = kind, plain2(even)
	r.Verdict = fmt.Sprintf("%d stones go round with even gaps of %s if they are %s wide; at %s they would touch.", n, mm(s.GapMM), mm(even), mm(most))
	if s.GapMM == 0 {
		r.Verdict = fmt.Sprintf("%d stones of %s touch one another and the centre.", n, mm(even))
	}
	return r, r.Outcome == Request
}

// smallWithin works out the halo with the largest small stones that a width over all
// leaves room for.
func (f *ringFigures) smallWithin(overall *quantity) (Reading, bool) {
	centre := f.one("size")
	if centre.measure == size {
		return Reading{}, false
	}
	small := halo.SmallWithinMM(overall.value, centre.value, f.numberOf("centregap", usualGap), f.numberOf("edge", usualEdge))
	if small < 0.7 || small > centre.value {
		return Reading{}, false
	}
	kind, _ := f.outlineOfCentre()
	r := f.reading("size", "gap", "centregap", "edge", "thickness", "cornercut")
	r.Options["outline"], r.Options["with"] = kind, plain2(small)
	r.Notes = nil
	r.Verdict = fmt.Sprintf("Stones of up to %s stay within %s over all: half of what the centre of %s leaves, less the gap to it and the edge.", mm(small), mm(overall.value), mm(centre.value))
	return r, r.Outcome == Request
}

// centreWithin works out the halo round the largest round centre that a width over all
// leaves room for.
func (f *ringFigures) centreWithin(overall *quantity) (Reading, bool) {
	small := f.mmOf("with")
	if kind, _ := f.outlineOfCentre(); kind != string(outline.Round) {
		return Reading{}, false
	}
	centre := halo.CentreWithinMM(overall.value, small, f.numberOf("centregap", usualGap), f.numberOf("edge", usualEdge))
	if centre < 1.5*small {
		return Reading{}, false
	}
	r := f.reading("with", "gap", "centregap", "edge", "thickness", "cornercut")
	r.Options["outline"], r.Options["size"] = "round", plain2(centre)
	r.Notes = nil
	r.Verdict = fmt.Sprintf("A round centre of up to %s leaves room within %s over all for stones of %s, the gap to them and the edge on both sides.", mm(centre), mm(overall.value), mm(small))
	return r, r.Outcome == Request
}

// twoRows are words for a halo of two rows.
var twoRows = []string{"double halo", "two halos", "second halo", "two circles", "double row", "two rows", "second row", "another row", "outer row", "outside row", "inside row", "inner row", "triple halo", "three halos", "three rows", "triple row"}

// doubleHalo works out both rows of a halo: the second goes round what the first makes.
func (m *message) doubleHalo() (Reading, bool) {
	f, ok := m.ringFiguresOf("halo")
	with := f.of["with"]
	if rows := m.stonesOfRows(f.one("size")); len(rows) == 2 {
		with = rows
	}
	if !ok || f.one("size") == nil || len(with) == 0 || len(with) > 2 || len(f.of["count"]) > 0 {
		return Reading{}, false
	}
	rows := []ringFigures{f.with("with", with[0]), f.with("with", with[len(with)-1])}
	names := []string{"inner", "outer"}
	if m.says("triple halo", "three halos", "three rows", "triple row") {
		if len(with) > 1 {
			return Reading{}, false // which row has which?
		}
		rows, names = append(rows, f.with("with", with[0])), []string{"inner", "middle", "outer"}
	}
	shape := f.shapeOfCentre()
	var parts, lines []string
	var plate outline.Size
	for i, row := range rows {
		s, err := row.specOf(shape)
		if err != nil {
			return Reading{}, false
		}
		set, err := s.Set()
		if err != nil {
			return Reading{}, false
		}
		round := plain2(shape.Size.WidthMM)
		if shape.Size.LengthMM > 0 {
			round = plain2(shape.Size.LengthMM) + "x" + round
		}
		parts = append(parts, fmt.Sprintf("%s row: %d stones of %s round %s mm, with gaps of %s", names[i], set.Count, mm(s.StoneMM), round, mm(set.GapMM)))
		lines = append(lines, fmt.Sprintf("halo %s %s with %s", shape.Kind, round, plain2(s.StoneMM)))
		plate = s.PlateSize()
		shape.Size = grown(shape.Size, 2*(s.ToCentreMM+s.StoneMM))
	}
	about := ""
	if shape.Kind != outline.Round {
		about = " The outer row follows the same outline made larger, so its number may be one off at the tips; lay it out before you drill."
	}
	return worked("double halo", "circles round a circle, or equal chords along the outline; gaps of 0.1 mm and an edge of 0.4 mm where none are told: common practice, no source",
		fmt.Sprintf("%s The plate is %s x %s over all, with an edge of %s.%s To see each row: %s.", sentenceCase(inAll(parts)), plain2(max(plate.LengthMM, plate.WidthMM)), mm(plate.WidthMM), mm(f.numberOf("edge", usualEdge)), about, strings.Join(lines, "; ")))
}

// stonesOfRows are the small stones of a halo's inner and outer row in this order, where
// just two widths are told besides the centre's.
func (m *message) stonesOfRows(centre *quantity) (rows []*quantity) {
	for _, q := range m.found {
		counted := m.saysOneBetween(q.next, q.next+2, "row", "rows", "halo", "halos", "stones") && q.measure != length && q.value == math.Trunc(q.value)
		if q == centre || q.measure != length && q.measure != bare || counted || q.value < 0.7 || q.value > 4 {
			continue
		}
		rows = append(rows, q)
	}
	if centre == nil || len(rows) != 2 {
		return nil
	}
	outer := func(q *quantity) bool {
		return m.saysOneBetween(max(0, q.first-3), q.next+2, "outer", "outside", "second") && !m.saysOneBetween(q.first-2, q.next+1, "inner", "inside", "first")
	}
	if outer(rows[0]) && !outer(rows[1]) {
		slices.Reverse(rows)
	}
	return rows
}

// stonesAtHand tells whether the small stones that somebody has are enough for a halo: their
// number is not that of the halo.
func (m *message) stonesAtHand(r Reading) (Reading, bool) {
	n := parse(r.Options["count"])
	if r.Request != "halo" || r.Outcome != Request || n == 0 || r.Verdict != "" || !m.says("enough", "do i have", "will they do", "pack of", "packet of", "bag of") {
		return Reading{}, false
	}
	f, ok := m.ringFiguresOf("halo")
	if !ok {
		return Reading{}, false
	}
	s, err := f.spec()
	if err != nil {
		return Reading{}, false
	}
	s.Count = 0
	set, err := s.Set()
	if err != nil {
		return Reading{}, false
	}
	r.Options = maps.Clone(r.Options)
	delete(r.Options, "count")
	r.Verdict = fmt.Sprintf("Yes, that is enough: %d go round with gaps of %s, so your %s leave %s over.", set.Count, mm(set.GapMM), plain(n), plain(n-float64(set.Count)))
	if n < float64(set.Count) {
		r.Verdict = fmt.Sprintf("No: %d go round with gaps of %s, so your %s are %s short.", set.Count, mm(set.GapMM), plain(n), plain(float64(set.Count)-n))
	}
	return r, true
}

// brokenCount tells what becomes of a number of stones that came out with a fraction.
func (m *message) brokenCount(r Reading) (Reading, bool) {
	if r.Outcome != Question && r.Outcome != Unknown || !m.says("=number", "=count", "=counted", "=counts") {
		return Reading{}, false
	}
	var broken *quantity
	for _, q := range m.found {
		whole := q.value == math.Trunc(q.value)
		again := broken != nil && (math.Abs(broken.value-math.Floor(broken.value)-q.value) < 0.001 || whole && math.Abs(q.value-broken.value) < 1)
		switch {
		case again:
		case q.measure != bare && q.measure != count || whole || q.value < 5 || q.value > 80 || broken != nil:
			return Reading{}, false
		default:
			broken = q
		}
	}
	if broken == nil || m.says("mm") || broken.measure == bare && !m.saysOneBetween(broken.first-4, broken.next+3, "number", "count", "counted", "counts", "calculated") {
		return Reading{}, false
	}
	n := math.Floor(broken.value)
	return worked("gap left in a halo", "circles round a circle",
		fmt.Sprintf("Take %s, the whole number below: %s would overlap. %s of a stone's space is left over: share it evenly between all the gaps, where it shows least. Or change the circle's diameter: for exactly %s stones make it smaller by the space that is left over divided by pi, and for %s larger by the space that the last stone lacks divided by pi.", plain(n), plain(n+1), plain2(broken.value-n), plain(n), plain(n+1)))
}

// grown is a size made larger both ways; a size of one figure stays one.
func grown(s outline.Size, mm float64) outline.Size {
	s.WidthMM += mm
	if s.LengthMM > 0 {
		s.LengthMM += mm
	}
	return s
}
