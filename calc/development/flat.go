package development

import (
	"math"
	"math/cmplx"

	"guildhand/calc/units"
)

// Point is a point of the flat blank or of a plan view, mm.
type Point struct{ X, Y float64 }

// Cubic is a cubic Bézier piece from P0 to P3, mm. Straight pieces have their
// control points on the thirds.
type Cubic struct{ P0, P1, P2, P3 Point }

// Line is a straight piece of the flat blank, mm.
type Line struct{ A, B Point }

// LengthMM is the line's length.
func (l Line) LengthMM() float64 { return math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y) }

// Ruling is a straight line of the wall, in the flat and in space (X, Y of
// the plan, Z up from the girdle's level being 0 at the rim).
type Ruling struct {
	FlatRim, FlatBase   Point
	SpaceRim, SpaceBase [3]float64
	// Normal is the angle of the wall's level outward normal, radians.
	Normal float64
}

// Flat is a flat blank: opened at the seam, seam edges left and right, rim at
// the top (larger y), base at the bottom, seen from outside. The bounding
// box's lower left corner is at the origin, and the blank stands so that its
// two seam edges lean equally to either side.
type Flat struct {
	// Rim and Base run from seam A (left) to seam B (right).
	Rim, Base []Cubic
	// SeamA and SeamB run from rim to base.
	SeamA, SeamB Line
	// Folds are the lines where corners are bent or scored, rim to base.
	Folds []Line
	// Levels are the lines on the wall at the heights asked for (girdle,
	// bearing), each from seam A to seam B.
	Levels [][]Cubic
	// Marks are the rim points of the quarter marks, each a short line inward.
	Marks []Line
	// Rulings of the wall without corner strips and seam ends, in order.
	Rulings []Ruling
	// RimLengthMM and BaseLengthMM are the lengths of the flat edges, with
	// corner strips and seam ends.
	RimLengthMM, BaseLengthMM float64
	AreaMM2                   float64
	// SurfaceAreaMM2 is the area of the developed surface alone, without
	// corner strips and seam ends, integrated in space.
	SurfaceAreaMM2 float64
	// WidthMM and HeightMM of the bounding box.
	WidthMM, HeightMM float64
	// Turn is by how much the blank turns in the flat from seam A to seam B.
	Turn units.Angle
	// Bevel is the angle to file on each seam end where the seam lies on a
	// corner, half the corner's turning seen from above; 0 elsewhere.
	Bevel units.Angle
	// BevelAcross is the same bevel measured across the sheet, square to the seam
	// edge and from its square-cut face: half the dihedral turning.
	BevelAcross units.Angle
	// BevelReflex is set where that corner is reflex (a heart's cleft): the
	// outer edge is filed away, not the inner one.
	BevelReflex bool
	// MinLean and MaxLean of the wall round the outline.
	MinLean, MaxLean units.Angle
	// Corners is the number of corners that are bent or scored.
	Corners int
	// Patches are the whole wall from seam to seam, where Wall.Patches asked for
	// them.
	Patches []Patch
}

// OffcutMM2 is what is left of the bounding box, mm2; on a plain strip it is 0
// but for rounding.
func (f Flat) OffcutMM2() float64 { return f.WidthMM*f.HeightMM - f.AreaMM2 }

// CornerWork says how corners are made in real metal.
type CornerWork int

const (
	// Bent corners: the faces are joined by a cylindrical bend.
	Bent CornerWork = iota
	// Scored corners: folded on the outer skin.
	Scored
)

// Wall is what Develop lays flat.
type Wall struct {
	Sections
	// OutMM is how much farther out the developed (neutral) surface lies than the
	// inner faces: k t cos a for a surface k t outside them, measured square to
	// the wall, whose points are then k t sin a lower. 0 develops the inner faces.
	OutMM float64
	// ThicknessMM and NeutralFactor (k) are for corner strips and seam ends;
	// both 0 for a surface without thickness.
	ThicknessMM, NeutralFactor float64
	Corners                    CornerWork
	// InsideRadiusMM of bent corners.
	InsideRadiusMM float64
	// RimBeyondMM runs every ruling on above the rim, along the axis.
	RimBeyondMM float64
	// LevelsMM are depths below the blank's rim, along the axis, to be drawn as
	// lines.
	LevelsMM []float64
	// SeamAddMM is added to both seam ends, for what the saw takes.
	SeamAddMM float64
	// Patches asks for the wall's patches, with rulings close enough that a curve
	// drawn on the wall keeps to 1e-7 mm.
	Patches bool
}

// Develop lays the wall flat. The error is an *Error with a sentence.
func Develop(w Wall) (Flat, error) {
	if !(w.HeightMM > 0) {
		return Flat{}, &Error{"the wall has no height"}
	}
	spans, err := walk(w.Rim, w.Base)
	if err != nil {
		return Flat{}, err
	}
	spans, seamRidge, err := opened(spans, w.Seam)
	if err != nil {
		return Flat{}, &Error{"the seam can't lie " + w.Seam.Summary + ": that part of the outline is gone at the rim"}
	}
	a := assembly{wall: w, fl: flattening{height: w.HeightMM, out: w.OutMM}}
	if w.Patches {
		a.fl.finer = patchesFiner
	}
	if err := a.lay(spans, seamRidge); err != nil {
		return Flat{}, err
	}
	return a.flat()
}

// patchesFiner divides the steps of a wall whose patches are asked for.
const patchesFiner = 12

// corner is a ridge between two panels, in metal.
type corner struct {
	// strip is the width between the two panels' ends, and end what is added
	// to (or, negative, cut off) each panel beyond the inner ridge's foot.
	stripMM, endMM float64
}

// ridgeCorner works a ridge: its dihedral turning beta between the faces of
// leans a1 and a2 whose level normals differ by theta is
//
//	cos beta = cos a1 cos a2 cos theta + sin a1 sin a2.
//
// Ends are measured on the developed surface from the foot of the inner
// ridge. A bend's inside is the wall's inner face at a convex corner and the
// outer one at a reflex corner.
func (a *assembly) ridgeCorner(theta, lean1, lean2 float64) corner {
	t, k, r := a.wall.ThicknessMM, a.wall.NeutralFactor, a.wall.InsideRadiusMM
	beta := dihedral(theta, lean1, lean2)
	outer := t * math.Tan(beta/2) // from the inner to the outer ridge
	switch {
	case a.wall.Corners == Scored && theta > 0:
		return corner{endMM: outer}
	case a.wall.Corners == Scored:
		return corner{}
	case theta > 0:
		return corner{stripMM: beta * (r + k*t), endMM: -r * math.Tan(beta/2)}
	}
	return corner{stripMM: beta * (r + k*t), endMM: -outer - r*math.Tan(beta/2)}
}

func dihedral(theta, lean1, lean2 float64) float64 {
	c := math.Cos(lean1)*math.Cos(lean2)*math.Cos(theta) + math.Sin(lean1)*math.Sin(lean2)
	return math.Acos(math.Max(-1, math.Min(1, c)))
}

// assembly puts panels side by side.
type assembly struct {
	wall   Wall
	fl     flattening
	panels []panel
	// between[i] joins panels i and i+1.
	between []corner
	// seamEnd is what both seam ends run on beyond the inner ridge.
	seamEnd float64
	// bevel is half the turning in plan, bevelAcross half the dihedral one.
	bevel, bevelAcross float64
	bevelReflex        bool
}

// lay flattens the panels and works the corners between them.
func (a *assembly) lay(spans []span, seamRidge *span) error {
	a.seamEnd = a.wall.SeamAddMM
	var thetas []float64
	start := 0
	flush := func(end int) error {
		if end == start {
			return &Error{"two corners of the section fall together"}
		}
		a.panels = append(a.panels, a.fl.panel(spans[start:end]))
		start = end + 1
		return nil
	}
	for i, s := range spans {
		if s.ridge {
			if err := flush(i); err != nil {
				return err
			}
			thetas = append(thetas, s.to-s.from)
		}
	}
	if err := flush(len(spans)); err != nil {
		return err
	}
	for i, theta := range thetas {
		a.between = append(a.between, a.ridgeCorner(theta, a.panels[i].leanTo, a.panels[i+1].leanFrom))
	}
	if seamRidge != nil {
		theta := seamRidge.to - seamRidge.from
		first, last := &a.panels[0], &a.panels[len(a.panels)-1]
		beta := dihedral(theta, last.leanTo, first.leanFrom)
		a.bevel, a.bevelAcross, a.bevelReflex = math.Abs(theta)/2, beta/2, theta < 0
		if theta > 0 {
			a.seamEnd += a.wall.ThicknessMM * math.Tan(beta/2)
		}
	}
	return nil
}

// place stands the panels side by side, symmetric about the vertical.
func (a *assembly) place() {
	turn := 0.0
	for _, p := range a.panels {
		turn += p.turn
	}
	bearing := -math.Pi/2 - turn/2
	var at complex128 // rim end of the last panel
	for i := range a.panels {
		p := &a.panels[i]
		if i > 0 {
			c := a.between[i-1]
			at += cmplx.Rect(c.stripMM+2*c.endMM, bearing+math.Pi/2)
		}
		p.move(bearing-p.stations[0].bearing, at)
		bearing += p.turn
		at = p.stations[len(p.stations)-1].f
	}
}

// move turns a panel by an angle and sets its first ruling's rim end at a point.
func (p *panel) move(by float64, to complex128) {
	rot := cmplx.Rect(1, by)
	shift := to - p.stations[0].f*rot
	for i := range p.stations {
		s := &p.stations[i]
		s.f, s.g, s.tangent = s.f*rot+shift, s.g*rot+shift, s.tangent*rot
		s.tau, s.bearing = s.tau+by, s.bearing+by
	}
}

// flat draws the blank.
func (a *assembly) flat() (Flat, error) {
	a.place()
	out := Flat{
		Turn:        units.Angle(0),
		Bevel:       units.Angle(a.bevel),
		BevelAcross: units.Angle(a.bevelAcross),
		BevelReflex: a.bevelReflex,
		Corners:     len(a.between),
		MinLean:     units.Angle(math.Inf(1)),
		MaxLean:     units.Angle(math.Inf(-1)),
	}
	top := -a.wall.RimBeyondMM / a.wall.HeightMM
	levels := []float64{top, 1}
	for _, mm := range a.wall.LevelsMM {
		levels = append(levels, math.Min(1, top+mm/a.wall.HeightMM))
	}
	strips := 0
	for _, p := range a.panels {
		strips += len(p.strips) + 3
	}
	out.Rulings = make([]Ruling, 0, strips)
	lines := make([]drawn, len(levels))
	for l := range lines {
		lines[l].cubics = make([]Cubic, 0, strips)
	}
	room := make([]edge, 0, strips)
	for i := range a.panels {
		p := &a.panels[i]
		out.Turn += units.Angle(p.turn)
		startMM, endMM := a.seamEnd, a.seamEnd
		if i > 0 {
			startMM = a.between[i-1].endMM
		}
		if i < len(a.between) {
			endMM = a.between[i].endMM
		}
		for l, u := range levels {
			run, err := p.run(room, u, startMM, endMM)
			if err != nil {
				return Flat{}, err
			}
			if middle, atCorner := lines[l].add(run); atCorner {
				out.foldEnd(l, middle)
			}
		}
		p.inform(a.wall.HeightMM, top, &out)
	}
	out.Rim, out.RimLengthMM = lines[0].cubics, lines[0].lengthMM
	out.Base, out.BaseLengthMM = lines[1].cubics, lines[1].lengthMM
	for _, l := range lines[2:] {
		out.Levels = append(out.Levels, l.cubics)
	}
	out.SeamA = Line{lines[0].start, lines[1].start}
	out.SeamB = Line{lines[0].end, lines[1].end}
	if a.wall.Patches {
		out.Patches = a.patches()
	}
	out.settle()
	return out, nil
}

// foldEnd keeps the ends of the fold between two panels as the levels come: rim
// first, then base.
func (f *Flat) foldEnd(level int, at Point) {
	switch level {
	case 0:
		f.Folds = append(f.Folds, Line{A: at})
	case 1:
		f.Folds[len(f.Folds)-1].B = at
	}
}

// inform adds the panel's rulings, marks, area and leans to the blank.
func (p *panel) inform(height, top float64, out *Flat) {
	add := func(s *station) {
		out.Rulings = append(out.Rulings, Ruling{
			FlatRim: toPoint(s.f + complex(top, 0)*(s.g-s.f)), FlatBase: toPoint(s.g),
			SpaceRim:  [3]float64{s.rim.X + top*(s.base.X-s.rim.X), s.rim.Y + top*(s.base.Y-s.rim.Y), -top * height},
			SpaceBase: [3]float64{s.base.X, s.base.Y, -height},
			Normal:    s.phi,
		})
		lean := units.Angle(s.lean)
		out.MinLean = min(out.MinLean, lean)
		out.MaxLean = max(out.MaxLean, lean)
	}
	for i := range p.strips {
		s := &p.strips[i]
		if i == 0 {
			add(s.a)
		}
		add(s.b)
		out.SurfaceAreaMM2 += s.areaMM2
		p.mark(i, out)
	}
}

// mark adds a quarter mark where the strip starts at a quarter turn of the
// normal, or in the middle of an edge that faces one.
func (p *panel) mark(i int, out *Flat) {
	s := &p.strips[i]
	quarter := math.Abs(math.Remainder(s.a.phi, math.Pi/2)) < 1e-9
	if !quarter || s.rimMM == 0 {
		return
	}
	f, g := s.a.f, s.a.g
	if s.a.phi == s.b.phi {
		f, g = (s.a.f+s.b.f)/2, (s.a.g+s.b.g)/2
	} else if i == 0 {
		return // at a seam or a corner, which are marks of their own
	}
	out.Marks = append(out.Marks, Line{toPoint(f), toPoint(f + (g-f)*0.12)})
}

// RoundPreCone is the round stand-in for a wall: the annular sector with the
// same two edge lengths and the same slant, to be closed round and then
// squeezed to shape: R_rim = s P_rim / (P_rim - P_base), angle P_rim / R_rim.
// The error is an *Error if the two lengths are equal (a plain strip) or
// the sector would pass a full turn. Levels are drawn at the given shares of
// the slant below the rim.
func RoundPreCone(rimMM, baseMM, slantMM float64, levels ...float64) (Flat, error) {
	if !(rimMM > baseMM && baseMM > 0 && slantMM > 0) {
		return Flat{}, &Error{"a round pre-cone needs a rim longer than its base"}
	}
	if rimMM-baseMM < 1e-4*slantMM {
		// The sector's radius would be beyond all measure.
		return Flat{}, &Error{"a wall that does not taper needs no round pre-cone: its blank is a plain strip"}
	}
	outer := slantMM * rimMM / (rimMM - baseMM)
	angle := rimMM / outer
	if angle >= 2*math.Pi {
		return Flat{}, &Error{"the round pre-cone would pass a full turn: its wall is too flat"}
	}
	f := Flat{RimLengthMM: rimMM, BaseLengthMM: baseMM, Turn: units.Angle(-angle),
		AreaMM2: (rimMM + baseMM) / 2 * slantMM}
	f.SurfaceAreaMM2 = f.AreaMM2
	lean := units.Angle(math.Asin((rimMM - baseMM) / (2 * math.Pi * slantMM)))
	f.MinLean, f.MaxLean = lean, lean
	f.Rim = arcCubics(outer, angle)
	f.Base = arcCubics(outer-slantMM, angle)
	for _, u := range levels {
		f.Levels = append(f.Levels, arcCubics(outer-u*slantMM, angle))
	}
	f.SeamA = Line{f.Rim[0].P0, f.Base[0].P0}
	f.SeamB = Line{f.Rim[len(f.Rim)-1].P3, f.Base[len(f.Base)-1].P3}
	area := f.AreaMM2
	f.settle()
	f.AreaMM2 = area
	return f, nil
}

// arcCubics is the arc of a circle about the origin, symmetric about the Y
// axis, from left to right.
func arcCubics(r, angle float64) []Cubic {
	n := int(math.Ceil(angle/0.05)) + 1
	out := make([]Cubic, n)
	step := angle / float64(n)
	arm := 4.0 / 3 * math.Tan(step/4) * r
	for i := range out {
		a := math.Pi/2 + angle/2 - step*float64(i)
		b := a - step
		p, q := cmplx.Rect(r, a), cmplx.Rect(r, b)
		out[i] = Cubic{toPoint(p), toPoint(p - cmplx.Rect(arm, a+math.Pi/2)), toPoint(q + cmplx.Rect(arm, b+math.Pi/2)), toPoint(q)}
	}
	return out
}
