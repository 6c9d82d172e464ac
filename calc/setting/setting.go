// Package setting computes a collet, the tapered setting of a faceted stone:
// from the stone, the sheet and the taper to the level sections of its wall
// and the flat blank.
//
// Levels: z = 0 is the lower edge of the girdle, where the stone rests; the
// finished rim lies RimMM above it and the finished base HeightMM below the rim.
// The inner face at z is the stone's outline offset by z tan a - ledge (package
// seat); the outer face lies t / cos a outside it, measured level.
//
// # Edges
//
// A blank is cut with edges square to the sheet; formed, they slope by the lean,
// and filing them level takes t sin a off their proud corners. So the blank's
// inner face runs from z = rim + t sin a down to z = rim - height, its outer face
// t sin a lower at both ends, and its slant is (height + t sin a) / cos a. Its
// lengths are those of the neutral surface, k t outside the inner face measured
// square to the wall: the neutral line at z = rim + (1-k) t sin a for the rim and
// at z = rim - height - k t sin a for the base. On flats that are bent they are
// the inner face's own (k = 0), on scored flats the outer face's (k = 1).
package setting

import (
	"errors"
	"fmt"
	"math"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/units"
)

// Taper is the kind of taper.
type Taper string

// Kinds of taper.
const (
	// Even slope: the same lean everywhere.
	Even Taper = "even"
	// ApexCone: sections are similar to the girdle's; a general cone.
	ApexCone Taper = "apex"
	// BaseGiven: the base has an outline of its own.
	BaseGiven Taper = "base"
)

// Spec is what a collet is made for and from.
type Spec struct {
	Stone outline.Curve
	// CuletMM is how far the stone reaches below its girdle; 0 leaves the
	// check out.
	CuletMM float64
	// HeightMM of the wall, level, from rim to base.
	HeightMM float64
	// RimMM is the rim's height above the girdle's lower edge.
	RimMM float64
	// ClearanceMM between the stone and the side of its bearing.
	ClearanceMM float64
	// LedgeMM is how far the wall stands under the stone's edge, measured level,
	// before the bearing is cut; 0 is a wall that the stone drops into.
	LedgeMM float64
	// Carried is set where something that is soldered in, a wire or a step, carries
	// the stone at z = 0.
	Carried bool
	// WiderMM moves the whole wall outward, for a trial that came out wider than
	// it was drawn.
	WiderMM float64
	// Solid is the stone to seat; without a pavilion nothing is checked.
	Solid seat.Stone
	Lean  units.Angle
	Taper Taper
	// Base is the opening at the base, for BaseGiven. Where BaseFollows is set it
	// is only the opening's shape, and its size follows from Lean: see
	// DefaultBase.
	Base        outline.Curve
	BaseFollows bool
	// ThicknessMM of the sheet, NeutralFactor k of the wall, and CornerFactor
	// the same in the corners' bends.
	ThicknessMM, NeutralFactor, CornerFactor float64

	Corners        development.CornerWork
	InsideRadiusMM float64
	// Seam is a place of the stone's outline; the zero Place takes the trade's
	// default.
	Seam outline.Place
	// Patches asks for the blank's patches, to draw a curve on the wall.
	Patches bool
	// KerfMM is the metal that saw and file take between two opposite edges
	// beyond the lines: every edge of the blank is drawn half of it further
	// out. Finished measures do not change.
	KerfMM float64
}

// Collet is a finished computation.
type Collet struct {
	Spec
	Flat development.Flat
	// Blank is what was laid flat; its upper section is TopMM above z = 0.
	Blank development.Wall
	TopMM float64
	// SlantMM is the blank's length along the lean as cut: (HeightMM + LossMM) /
	// cos a, a being the mean lean.
	SlantMM float64
	// LossMM is what filing an edge level takes at its proud corner, t sin a, a
	// being the largest lean.
	LossMM float64
	// Seat is how the stone sits.
	Seat seat.Seat
	// MeanLean round the outline: the lean itself but for BaseGiven.
	MeanLean units.Angle
	// Inner and outer faces at rim and base, corners mitred.
	RimInner, RimOuter, BaseInner, BaseOuter outline.Curve
	// RimInside to BaseOutside are the finished measures: those of the faces, but
	// the outside of a bend is round.
	RimInside, RimOutside, BaseInside, BaseOutside outline.Size
	// RoughMM is how far RimOutside and BaseOutside may be off where the lean
	// changes so fast round a base of its own that the sheet's outer faces cross.
	RoughMM float64
	// Point is the worst of the stone's sharp corners, where HasPoint is set.
	Point    Point
	HasPoint bool
	// GirdleGapMM is the most that the wall at z = 0 stands outside its ledge; 0
	// but for BaseGiven.
	GirdleGapMM float64
}

// LimitError is a collet that can't be made; its text is one sentence without
// a full stop. The limits are 0 where there is none to give.
type LimitError struct {
	Problem string
	// MaxLean and MaxHeightMM are the largest that work with all else as
	// asked; MinHeightMM the smallest height.
	MaxLean                  units.Angle
	MaxHeightMM, MinHeightMM float64
	// MaxThicknessMM is the thickest sheet that works.
	MaxThicknessMM float64
	// MaxRadiusMM is the largest inside radius that works, where Radius is set.
	MaxRadiusMM float64
	Radius      bool
}

func (e *LimitError) Error() string { return e.Problem }

// Lay computes the collet. Errors are *LimitError, *outline.Error or
// *development.Error, each a sentence for the maker.
func Lay(s Spec) (Collet, error) {
	if err := s.check(); err != nil {
		return Collet{}, err
	}
	c, err := s.build()
	if err == nil {
		return c, nil
	}
	if errors.Is(err, outline.ErrClosed) {
		return Collet{}, s.closed()
	}
	return Collet{}, err
}

// check refuses what no lean or height can mend.
func (s Spec) check() error {
	culet := s.CuletMM
	if rest, ok := s.Wall().RestMM(); ok && s.CuletMM > 0 && !s.Carried {
		culet -= rest
	}
	if culet > 0 && s.HeightMM-s.RimMM < culet-1e-9 {
		least := s.RimMM + culet
		return &LimitError{
			Problem: fmt.Sprintf("the culet would stand %.2f mm below the base: the wall is %.2f mm high and needs %.2f mm or more",
				culet-(s.HeightMM-s.RimMM), s.HeightMM, roundUp(least)),
			MinHeightMM: roundUp(least),
		}
	}
	if err := s.checkRadius(); err != nil {
		return err
	}
	if s.RimMM >= s.HeightMM {
		return &LimitError{
			Problem:     fmt.Sprintf("the rim is %.2f mm above the girdle but the wall only %.2f mm high", s.RimMM, s.HeightMM),
			MinHeightMM: roundUp(s.RimMM + 0.5),
		}
	}
	if !s.Stone.Holds(s.ThicknessMM - s.FaceMM(0)) {
		in := s.Stone.InradiusMM() + s.FaceMM(0)
		return &LimitError{
			Problem:        fmt.Sprintf("sheet of %.2f mm is too thick for this stone: half its width is %.2f mm", s.ThicknessMM, in),
			MaxThicknessMM: math.Floor(in*0.6*100) / 100,
		}
	}
	return nil
}

func roundUp(mm float64) float64 { return math.Ceil(mm*100-1e-6) / 100 }

// closed explains a base that closes, with the largest lean and height that
// work.
func (s Spec) closed() error {
	works := func(try Spec) bool {
		var below heights
		_, _, err := try.faces(&below)
		return err == nil
	}
	if s.Taper == BaseGiven && !s.BaseFollows {
		return &LimitError{Problem: fmt.Sprintf("a base opening of this size does not leave room for a wall of %.2f mm", s.ThicknessMM)}
	}
	e := &LimitError{}
	// largest bisects to a fineness; each try may take milliseconds.
	largest := func(lo, hi, fine float64, try func(float64) Spec) float64 {
		for hi-lo > fine {
			if mid := (lo + hi) / 2; works(try(mid)) {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	lean := largest(0, s.Lean.Degrees(), 0.05, func(deg float64) Spec {
		try := s
		try.Lean = units.Angle(deg) * units.Degree
		return try
	})
	e.MaxLean = units.Angle(math.Floor(lean*10)/10) * units.Degree
	height := largest(s.RimMM, s.HeightMM, 0.005, func(mm float64) Spec {
		try := s
		try.HeightMM = mm
		return try
	})
	least := s.RimMM + s.CuletMM
	if h := math.Floor(height*100) / 100; h > least && h > s.RimMM+0.1 {
		e.MaxHeightMM = h
	}
	switch {
	case e.MaxLean > 0 && e.MaxHeightMM > 0:
		e.Problem = fmt.Sprintf("the base closes at a lean of %.4g degrees over %.2f mm: the largest lean at that height is %.1f degrees, the largest height at that lean %.2f mm",
			s.Lean.Degrees(), s.HeightMM, e.MaxLean.Degrees(), e.MaxHeightMM)
	case e.MaxLean > 0:
		e.Problem = fmt.Sprintf("the base closes at a lean of %.4g degrees over %.2f mm: the largest lean at that height is %.1f degrees",
			s.Lean.Degrees(), s.HeightMM, e.MaxLean.Degrees())
	default:
		e.Problem = fmt.Sprintf("the base closes: the stone is too small for sheet of %.2f mm", s.ThicknessMM)
		e.MaxThicknessMM = math.Floor(s.Stone.InradiusMM()*0.6*100) / 100
	}
	return e
}

// faces computes the level sections of the wall; the error is
// outline.ErrClosed where the base does not stay open. below is set to how far a
// base of its own reaches.
func (s Spec) faces(below *heights) (c Collet, inner development.Sections, err error) {
	if s.Taper == BaseGiven && s.BaseFollows {
		if s.Base, err = DefaultBase(s.Stone, s.Base, s.FaceMM(0), s.HeightMM-s.RimMM, s.Lean); err != nil {
			return Collet{}, inner, err
		}
	}
	if s.Taper == BaseGiven {
		below.reach(s.Base)
		inner, err = s.onBase(below)
	} else {
		inner, err = s.sections(0, 0)
	}
	if err != nil {
		return Collet{}, inner, err
	}
	c = Collet{Spec: s, MeanLean: s.Lean, RimInner: inner.Rim, BaseInner: inner.Base}
	if s.Taper == BaseGiven {
		c.MeanLean = units.Angle(math.Atan((inner.Rim.PerimeterMM() - inner.Base.PerimeterMM()) / (2 * math.Pi * s.HeightMM)))
	}
	if err := s.checkTaper(c.MeanLean, inner); err != nil {
		return Collet{}, inner, err
	}
	level := s.levelMM(c.MeanLean)
	// The base must stay open by more than the part of the wall inside the
	// neutral line.
	if !inner.Base.Holds((1 - s.NeutralFactor) * level) {
		return Collet{}, inner, outline.ErrClosed
	}
	if c.RimOuter, err = s.outer(inner.Rim, s.RimMM, level); err != nil {
		return Collet{}, inner, err
	}
	if c.BaseOuter, err = s.outer(inner.Base, s.RimMM-s.HeightMM, level); err != nil {
		return Collet{}, inner, err
	}
	return c, inner, nil
}

// levelMM is the wall's thickness measured level.
func (s Spec) levelMM(lean units.Angle) float64 { return s.ThicknessMM / lean.Cos() }

// build computes the collet without explaining what is wrong.
func (s Spec) build() (Collet, error) {
	var round reaches
	c, inner, err := s.faces(&round.base)
	if err != nil {
		return Collet{}, err
	}
	s = c.Spec // with the base that follows
	cos := c.MeanLean.Cos()
	c.Seam = s.Seam
	if c.Seam.Name == "" {
		c.Seam = s.Stone.Places[0]
	}
	c.LossMM = s.ThicknessMM * s.largestLean(inner, &round).Sin()
	wall := development.Wall{
		OutMM:          s.NeutralFactor * s.ThicknessMM * cos,
		ThicknessMM:    s.ThicknessMM,
		NeutralFactor:  s.CornerFactor,
		Corners:        s.Corners,
		InsideRadiusMM: s.InsideRadiusMM,
		SeamAddMM:      s.KerfMM / 2,
	}
	cutMM := c.LossMM // the blank's rim above the finished one
	if s.Taper == BaseGiven {
		wall.Sections, wall.RimBeyondMM = inner, c.LossMM
	} else {
		// Half the kerf lies on the slant beyond rim and base.
		kerf := s.KerfMM / 2 * cos
		cutMM += kerf
		if wall.Sections, err = s.sections(cutMM, kerf); err != nil {
			return Collet{}, err
		}
	}
	wall.Seam = c.Seam
	made := c.folded(wall.Sections, cutMM)
	var room sides
	var beside *sides
	if s.Taper == BaseGiven {
		beside = &room
		made.sides(&round, beside)
	}
	c.RimInside, c.RimOutside = made.sizes(c.RimMM, beside)
	c.BaseInside, c.BaseOutside = made.sizes(c.RimMM-c.HeightMM, beside)
	if err := c.checkSplay(made, &round); err != nil {
		return Collet{}, err
	}
	across := c.cornerLooks(made)
	c.seated(made, across)
	c.Point, c.HasPoint = c.points(made, across)
	wall.LevelsMM = []float64{s.RimMM + cutMM, s.RimMM + cutMM + c.Seat.FloorMM}
	wall.Patches = s.Patches
	c.Blank, c.TopMM = wall, s.RimMM+cutMM-wall.RimBeyondMM
	c.Flat, err = development.Develop(wall)
	if err != nil {
		return Collet{}, err
	}
	c.SlantMM = (s.HeightMM + c.LossMM) / cos
	c.RoughMM = c.rough()
	return c, nil
}

// rough is RoughMM: on a base of its own, by how fast the lean changes, and at the
// corners of the rim over a side of the base.
func (c Collet) rough() float64 {
	switch fast := c.Flat.MaxLean-c.Flat.MinLean > 15*units.Degree; {
	case c.Taper != BaseGiven || c.Stone.Smooth() && !fast:
		return 0
	case c.Stone.Smooth():
		return 0.1
	case fast:
		return 0.4
	}
	return SlightlyRoughMM
}

// SlightlyRoughMM is RoughMM of corners where the lean changes slowly: no more than
// a bench can see.
const SlightlyRoughMM = 0.02

// folded is the wall that the blank makes, from its sections as cut.
func (c Collet) folded(cut development.Sections, cutMM float64) folded {
	w := folded{rim: cut.Rim, base: cut.Base, rimCorners: cornersOf(cut.Rim), baseCorners: cornersOf(cut.Base), rimZ: c.RimMM + cutMM, heightMM: cut.HeightMM, thicknessMM: c.ThicknessMM, radiusMM: c.InsideRadiusMM}
	if c.Taper == BaseGiven {
		w.rimZ = c.RimMM // its rulings run on above the finished rim
	}
	w.mitred = func(tag int) bool {
		return c.Corners == development.Scored || c.Seam.AtCorner && c.Seam.Tag == tag
	}
	return w
}

// seated checks the stone in the wall.
func (c *Collet) seated(made folded, across []cornerLook) {
	if c.Solid.PavilionMM <= 0 {
		return
	}
	w := c.Wall()
	w.Lean = c.MeanLean
	if c.follows(made) {
		c.Seat = seat.Check(c.Solid, w)
	} else {
		c.Seat = seat.CheckAround(c.Solid, w, c.around(made, across))
		c.GirdleGapMM = c.Seat.StandsOffMM
	}
	if c.Carried {
		c.Seat = c.Seat.Carried()
	}
}

// follows reports whether the wall has one slope all round: an even one, on a
// smooth outline or on flats, none of whose sides the base has lost.
func (c Collet) follows(made folded) bool {
	if c.Taper != Even && c.Taper != "" {
		return false
	}
	flats := c.InsideRadiusMM == 0 || c.Corners == development.Scored
	for _, p := range c.Stone.Pieces {
		flats = flats && p.Kind == outline.Straight
	}
	return (flats || c.Stone.Smooth()) && len(made.base.Pieces) == len(c.Stone.Pieces)
}

// Wall is the wall as the seat sees it.
func (s Spec) Wall() seat.Wall {
	return seat.Wall{Lean: s.Lean, ThicknessMM: s.ThicknessMM, ClearanceMM: s.ClearanceMM, LedgeMM: s.LedgeMM,
		RimMM: s.RimMM, HeightMM: s.HeightMM}
}

// FaceMM is how far outside the stone's outline the inner face of an even slope
// lies at z, before the bearing is cut.
func (s Spec) FaceMM(z float64) float64 { return s.Wall().FaceMM(z) + s.WiderMM }

// GirdleLineMM is how far below the blank's rim edge, along the slant and on the
// inside, the girdle's lower edge comes.
func (c Collet) GirdleLineMM() float64 { return (c.RimMM + c.LossMM) / c.MeanLean.Cos() }

// BearingLineMM is how far below the blank's rim edge, along the slant and on the
// inside, the bearing's floor ends.
func (c Collet) BearingLineMM() float64 { return c.GirdleLineMM() + c.Seat.FloorMM/c.MeanLean.Cos() }

// largestLean compares what rim and base reach in every direction, and notes it in
// round, where the base of a wall with a base of its own stands already.
func (s Spec) largestLean(inner development.Sections, round *reaches) units.Angle {
	switch s.Taper {
	case BaseGiven:
		round.rim.reach(inner.Rim)
	case ApexCone: // whose sections are alike
		round.base.reach(inner.Base)
		larger := inner.Rim.PerimeterMM() / inner.Base.PerimeterMM()
		for i, mm := range round.base {
			round.rim[i] = larger * mm
		}
	default:
		return s.Lean
	}
	most := math.Inf(-1)
	for i := range directions {
		most = max(most, round.rim[i]-round.base[i])
	}
	return units.Angle(math.Atan2(most, s.HeightMM))
}

// sections are the inner faces above the finished rim and below the finished
// base by so much, of an even slope or an apex cone.
func (s Spec) sections(aboveMM, belowMM float64) (development.Sections, error) {
	face, rim, height := s.FaceMM(0), s.RimMM+aboveMM, s.HeightMM+aboveMM+belowMM
	if s.Taper == ApexCone {
		return development.Apex(s.Stone, face, rim, height, s.Lean)
	}
	return development.EvenSlope(s.Stone, face, rim, height, s.Lean)
}

// onBase are the sections of a wall with a base of its own, which reaches so far.
func (s Spec) onBase(below *heights) (development.Sections, error) {
	plan, err := s.Stone.Offset(s.FaceMM(0))
	if err != nil {
		return development.Sections{}, err
	}
	rim, err := s.Stone.Offset(s.FaceMM(0) + s.widening(plan, below))
	return development.Sections{Rim: rim, Base: s.Base, HeightMM: s.HeightMM}, err
}

// outer is the outer face of the wall at the height z: of an even slope taken
// from the stone, else from the inner face.
func (s Spec) outer(inner outline.Curve, zMM, levelMM float64) (outline.Curve, error) {
	if s.Taper == Even || s.Taper == "" {
		return s.Stone.Offset(s.FaceMM(zMM) + levelMM)
	}
	return inner.Offset(levelMM)
}

// widening is by how much the rim of a wall with a base of its own must lie
// outside the stone's section so that, a share f = rim / height of the way to
// the base, the girdle still passes everywhere:
// (1-f)(h_plan + d) + f h_base >= h_plan.
func (s Spec) widening(plan outline.Curve, below *heights) float64 {
	f := s.RimMM / s.HeightMM
	need := 0.0
	var over heights
	over.reach(plan)
	for i := range directions {
		need = math.Max(need, f/(1-f)*(over[i]-below[i]))
	}
	return need
}

// DefaultBase scales a base's shape to the opening whose mean lean from the
// stone's girdle is lean: P_base = P_girdle - 2 pi (height - rim) tan a.
func DefaultBase(stone, base outline.Curve, faceMM, belowGirdleMM float64, lean units.Angle) (outline.Curve, error) {
	plan, err := stone.Offset(faceMM)
	if err != nil {
		return outline.Curve{}, err
	}
	want := plan.PerimeterMM() - 2*math.Pi*belowGirdleMM*lean.Tan()
	if want <= 0 {
		return outline.Curve{}, outline.ErrClosed
	}
	return base.Scaled(want / base.PerimeterMM()), nil
}

// PreCone is the round stand-in for the collet's blank, with its girdle and
// bearing lines.
func (c Collet) PreCone() (development.Flat, error) {
	return development.RoundPreCone(c.Flat.RimLengthMM, c.Flat.BaseLengthMM, c.SlantMM,
		c.GirdleLineMM()/c.SlantMM, min(1, c.BearingLineMM()/c.SlantMM))
}
