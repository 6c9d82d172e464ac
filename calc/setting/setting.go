// Package setting computes a collet, the tapered setting of a faceted stone:
// from the stone, the sheet and the taper to the level sections of its wall
// and the flat blank.
//
// Levels: z = 0 is the girdle, the rim lies RimMM above it and the base
// HeightMM below the rim. With clearance c at the girdle and lean a, the
// inner face at z is the stone's outline offset by c + z tan a; the neutral
// surface lies k t / cos a outside it, measured level, and the outer face
// t / cos a.
package setting

import (
	"errors"
	"fmt"
	"math"

	"guildhand/calc/development"
	"guildhand/calc/outline"
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
	// RimMM is the rim's height above the girdle.
	RimMM float64
	// ClearanceMM between stone and wall at the girdle.
	ClearanceMM float64
	Lean        units.Angle
	Taper       Taper
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
	// BearingMM is how far the bearing's line lies below the girdle's.
	BearingMM float64
	// KerfMM is the metal that saw and file take between two opposite edges
	// beyond the lines: every edge of the blank is drawn half of it further
	// out. Finished measures do not change.
	KerfMM float64
}

// Collet is a finished computation.
type Collet struct {
	Spec
	Flat development.Flat
	// SlantMM is the wall's length along its lean: HeightMM / cos a, a being
	// the mean lean.
	SlantMM float64
	// MeanLean round the outline: the lean itself but for BaseGiven.
	MeanLean units.Angle
	// Inner and outer faces at rim and base.
	RimInner, RimOuter, BaseInner, BaseOuter outline.Curve
	// GirdleGapMM is the most that the wall stands off the stone at the
	// girdle beyond the clearance; 0 but for BaseGiven.
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
	if s.CuletMM > 0 && s.HeightMM-s.RimMM < s.CuletMM-1e-9 {
		least := s.RimMM + s.CuletMM
		return &LimitError{
			Problem: fmt.Sprintf("the culet would stand %.2f mm below the base: the wall is %.2f mm high and needs %.2f mm or more",
				s.CuletMM-(s.HeightMM-s.RimMM), s.HeightMM, roundUp(least)),
			MinHeightMM: roundUp(least),
		}
	}
	if s.RimMM >= s.HeightMM {
		return &LimitError{
			Problem:     fmt.Sprintf("the rim is %.2f mm above the girdle but the wall only %.2f mm high", s.RimMM, s.HeightMM),
			MinHeightMM: roundUp(s.RimMM + 0.5),
		}
	}
	if !s.Stone.Holds(s.ThicknessMM - s.ClearanceMM) {
		in := s.Stone.InradiusMM() + s.ClearanceMM
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
		_, _, err := try.faces()
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
// outline.ErrClosed where the base does not stay open.
func (s Spec) faces() (c Collet, inner development.Sections, err error) {
	if s.Taper == BaseGiven && s.BaseFollows {
		if s.Base, err = DefaultBase(s.Stone, s.Base, s.ClearanceMM, s.HeightMM-s.RimMM, s.Lean); err != nil {
			return Collet{}, inner, err
		}
	}
	inner, err = s.sections()
	if err != nil {
		return Collet{}, inner, err
	}
	c = Collet{Spec: s, MeanLean: s.Lean, RimInner: inner.Rim, BaseInner: inner.Base}
	if s.Taper == BaseGiven {
		c.MeanLean = units.Angle(math.Atan((inner.Rim.PerimeterMM() - inner.Base.PerimeterMM()) / (2 * math.Pi * s.HeightMM)))
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
	c, inner, err := s.faces()
	if err != nil {
		return Collet{}, err
	}
	s = c.Spec // with the base that follows
	if s.Taper == BaseGiven {
		c.GirdleGapMM = s.girdleGap(inner)
	}
	cos := c.MeanLean.Cos()
	inner.Seam = s.Seam
	if inner.Seam.Name == "" {
		inner.Seam = s.Stone.Places[0]
	}
	c.Seam = inner.Seam
	// Half the kerf lies on the slant beyond rim and base.
	drawn, beyondMM := inner, 0.0
	if s.KerfMM != 0 && s.Taper != BaseGiven {
		beyondMM = s.KerfMM / 2 * cos
		longer := s
		longer.RimMM, longer.HeightMM = s.RimMM+beyondMM, s.HeightMM+2*beyondMM
		if drawn, err = longer.sections(); err != nil {
			return Collet{}, err
		}
		drawn.Seam = inner.Seam
	}
	c.Flat, err = development.Develop(development.Wall{
		Sections:       drawn,
		OutMM:          s.NeutralFactor * s.levelMM(c.MeanLean),
		ThicknessMM:    s.ThicknessMM,
		NeutralFactor:  s.CornerFactor,
		Corners:        s.Corners,
		InsideRadiusMM: s.InsideRadiusMM,
		LevelsMM:       []float64{s.RimMM + beyondMM, s.RimMM + beyondMM + s.BearingMM},
		SeamAddMM:      s.KerfMM / 2,
	})
	if err != nil {
		return Collet{}, err
	}
	c.SlantMM = s.HeightMM / cos
	return c, nil
}

// sections are the inner faces at rim and base.
func (s Spec) sections() (development.Sections, error) {
	switch s.Taper {
	case ApexCone:
		return development.Apex(s.Stone, s.ClearanceMM, s.RimMM, s.HeightMM, s.Lean)
	case BaseGiven:
		plan, err := s.Stone.Offset(s.ClearanceMM)
		if err != nil {
			return development.Sections{}, err
		}
		rim, err := s.Stone.Offset(s.ClearanceMM + s.widening(plan))
		return development.Sections{Rim: rim, Base: s.Base, HeightMM: s.HeightMM}, err
	}
	return development.EvenSlope(s.Stone, s.ClearanceMM, s.RimMM, s.HeightMM, s.Lean)
}

// outer is the outer face of the wall at the height z: of an even slope taken
// from the stone, else from the inner face.
func (s Spec) outer(inner outline.Curve, zMM, levelMM float64) (outline.Curve, error) {
	if s.Taper == Even || s.Taper == "" {
		return s.Stone.Offset(s.ClearanceMM + zMM*s.Lean.Tan() + levelMM)
	}
	return inner.Offset(levelMM)
}

// supportMM is how far the curve reaches towards the angle phi.
func supportMM(c outline.Curve, phi float64) float64 {
	sin, cos := math.Sincos(phi)
	h := math.Inf(-1)
	for _, p := range c.Pieces {
		h = math.Max(h, math.Max(p.A.X*cos+p.A.Y*sin, p.B.X*cos+p.B.Y*sin))
		if p.Kind != outline.Straight && math.Mod(math.Mod(phi-p.From, 2*math.Pi)+2*math.Pi, 2*math.Pi) <= p.To-p.From {
			at := p.At(phi)
			h = math.Max(h, at.X*cos+at.Y*sin)
		}
	}
	return h
}

// directions at which supports of sections are compared; 720 keeps the error
// of a maximum on our outlines under 1e-3 mm.
const directions = 720

// widening is by how much the rim of a wall with a base of its own must lie
// outside the stone's section so that, a share f = rim / height of the way to
// the base, the girdle still passes everywhere:
// (1-f)(h_plan + d) + f h_base >= h_plan.
func (s Spec) widening(plan outline.Curve) float64 {
	f := s.RimMM / s.HeightMM
	need := 0.0
	for i := range directions {
		phi := 2 * math.Pi * float64(i) / directions
		need = math.Max(need, f/(1-f)*(supportMM(plan, phi)-supportMM(s.Base, phi)))
	}
	return need
}

// girdleGap is the most that the section at the girdle lies outside the
// stone's with its clearance.
func (s Spec) girdleGap(inner development.Sections) float64 {
	f := s.RimMM / s.HeightMM
	gap := 0.0
	for i := range directions {
		phi := 2 * math.Pi * float64(i) / directions
		h := (1-f)*supportMM(inner.Rim, phi) + f*supportMM(inner.Base, phi)
		gap = math.Max(gap, h-supportMM(s.Stone, phi)-s.ClearanceMM)
	}
	return gap
}

// DefaultBase scales a base's shape to the opening whose mean lean from the
// stone's girdle is lean: P_base = P_girdle - 2 pi (height - rim) tan a.
func DefaultBase(stone, base outline.Curve, clearanceMM, belowGirdleMM float64, lean units.Angle) (outline.Curve, error) {
	plan, err := stone.Offset(clearanceMM)
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
		c.RimMM/c.HeightMM, (c.RimMM+c.BearingMM)/c.HeightMM)
}
