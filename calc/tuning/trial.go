package tuning

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// Measured is what calipers said about a formed trial. A size that was not
// measured is zero.
type Measured struct {
	RimMM, BaseMM outline.Size
	HeightMM      float64
	// Inner is set where the sizes were taken inside.
	Inner bool
	// CutRimMM and CutBaseMM are the blank's edges as they were drawn; 0 takes
	// those of the collet given.
	CutRimMM, CutBaseMM float64
	// UsualFactor and UsualCorner are the neutral factors of an untuned blank of
	// this piece; both 0 are 0.5.
	UsualFactor, UsualCorner float64
	// CalipersMM is what the calipers are good for; 0 is UsualCalipersMM.
	CalipersMM float64
}

// OutOfTrueMM is the difference between what length and width of one section
// tell beyond which the section does not have the outline that was asked for.
const OutOfTrueMM = 0.15

// ReadingError is a measure that can't be of this piece; its text is a
// sentence without a full stop.
type ReadingError struct{ Problem string }

func (e *ReadingError) Error() string { return e.Problem }

// Read makes the trial's equations from a collet as it was laid out and what
// was measured of the piece. Errors are *ReadingError, or those of
// setting.Lay.
func Read(piece string, c setting.Collet, m Measured) (Trial, error) {
	t := Trial{Piece: piece}
	cutRim, cutBase := m.CutRimMM, m.CutBaseMM
	if cutRim == 0 {
		cutRim = c.Flat.RimLengthMM
	}
	if cutBase == 0 {
		cutBase = c.Flat.BaseLengthMM
	}
	g := (cutRim - cutBase) / (c.SlantMM + c.KerfMM)
	for _, e := range []struct {
		kind         Kind
		got          outline.Size
		inner        outline.Curve
		drawn        [2]outline.Size // inside, outside
		cut, perKerf float64
		edge         func(setting.Collet) float64
	}{
		{Rim, m.RimMM, c.RimInner, [2]outline.Size{c.RimInside, c.RimOutside}, cutRim, 1 + g/2, func(c setting.Collet) float64 { return c.Flat.RimLengthMM }},
		{Base, m.BaseMM, c.BaseInner, [2]outline.Size{c.BaseInside, c.BaseOutside}, cutBase, 1 - g/2, func(c setting.Collet) float64 { return c.Flat.BaseLengthMM }},
	} {
		if e.got == (outline.Size{}) {
			continue
		}
		drawn := e.drawn[1]
		if m.Inner {
			drawn = e.drawn[0]
		}
		out, err := offsetOf(e.kind, e.inner, drawn, e.got)
		if err != nil {
			return t, err
		}
		zero, perFactor, err := blankOf(c, out, e.inner, e.edge)
		if err != nil {
			return t, &ReadingError{fmt.Sprintf("a wall of %.2f mm can't be bent to the %s that was measured", c.ThicknessMM, e.kind)}
		}
		t.Readings = append(t.Readings, Reading{Kind: e.kind, DrawnMM: e.cut, FormedMM: zero, PerFactorMM: perFactor, PerKerf: e.perKerf,
			UsualFactor: usual(c, m, e.edge), CalipersMM: m.CalipersMM})
	}
	if m.HeightMM > 0 {
		if math.Abs(m.HeightMM-c.HeightMM) > 1 {
			return t, &ReadingError{fmt.Sprintf("a height of %.2f mm is not of this piece: its wall is %.2f mm high", m.HeightMM, c.HeightMM)}
		}
		t.Readings = append(t.Readings, Reading{Kind: Height, DrawnMM: c.HeightMM + c.KerfMM*c.MeanLean.Cos(), FormedMM: m.HeightMM, PerKerf: c.MeanLean.Cos(), CalipersMM: m.CalipersMM})
	}
	if len(t.Readings) == 0 {
		return t, ErrNoReadings
	}
	return t, nil
}

// usual is the one factor that makes an edge as long as the usual factors of wall
// and corners do; 0 if there is no telling.
func usual(c setting.Collet, m Measured, edge func(setting.Collet) float64) float64 {
	if m.UsualFactor == m.UsualCorner {
		return m.UsualFactor
	}
	length := func(factor, corner float64) float64 {
		s := c.Spec
		s.NeutralFactor, s.CornerFactor, s.KerfMM = factor, corner, 0
		laid, err := setting.Lay(s)
		if err != nil {
			return math.NaN()
		}
		return edge(laid)
	}
	low, high := length(0.35, 0.35), length(0.5, 0.5)
	k := 0.35 + 0.15*(length(m.UsualFactor, m.UsualCorner)-low)/(high-low)
	if !(k >= MinFactor && k <= MaxFactor) {
		return 0
	}
	return k
}

// Same reports whether two trials are one piece told twice.
func (t Trial) Same(other Trial) bool {
	if t.Piece != other.Piece || len(t.Readings) != len(other.Readings) {
		return false
	}
	for i, r := range t.Readings {
		o := other.Readings[i]
		if r.Kind != o.Kind || math.Abs(r.DrawnMM-o.DrawnMM) > 1e-3 || math.Abs(r.FormedMM-o.FormedMM) > 1e-3 {
			return false
		}
	}
	return true
}

// MeanWith is one piece measured twice: a trial whose readings are the mean of both.
// Measuring again makes the readings surer and is no other trial, because saw and
// bends are the same. ok is false where the two are not of one piece.
func (t Trial) MeanWith(other Trial) (mean Trial, ok bool) {
	if t.Piece != other.Piece || len(t.Readings) != len(other.Readings) {
		return Trial{}, false
	}
	mean.Piece = t.Piece
	for i, r := range t.Readings {
		o := other.Readings[i]
		if r.Kind != o.Kind || math.Abs(r.DrawnMM-o.DrawnMM) > 0.3 {
			return Trial{}, false
		}
		// Formed lengths belong to what was drawn: the first's is kept.
		r.FormedMM = r.DrawnMM - (r.DrawnMM-r.FormedMM+o.DrawnMM-o.FormedMM)/2
		mean.Readings = append(mean.Readings, r)
	}
	return mean, true
}

// blankOf is the length that an edge of the measured section needs on a blank,
// as a function of the neutral factor: zero + perFactor k. The section lies
// out mm outside the drawn one all round.
func blankOf(c setting.Collet, out float64, inner outline.Curve, edge func(setting.Collet) float64) (zero, perFactor float64, err error) {
	// Lengths are linear in the factor but for the turn of a cleft; the two
	// factors are those between which metal lies.
	const k0, k1 = 0.35, 0.5
	var l [2]float64
	for i, k := range [2]float64{k0, k1} {
		s := c.Spec
		s.NeutralFactor, s.CornerFactor, s.KerfMM = k, k, 0
		if c.Taper == setting.Even {
			s.WiderMM += out
		}
		laid, err := setting.Lay(s)
		if err != nil {
			return 0, 0, err
		}
		l[i] = edge(laid)
	}
	perFactor = (l[1] - l[0]) / (k1 - k0)
	zero = l[0] - k0*perFactor
	if c.Taper == setting.Even {
		return zero, perFactor, nil
	}
	// Other tapers don't keep their shape under another clearance: the
	// section's own change of perimeter is taken.
	moved, err := inner.Offset(out)
	if err != nil {
		return 0, 0, err
	}
	return zero + moved.PerimeterMM() - inner.PerimeterMM(), perFactor, nil
}

// offsetOf is how far outside the drawn section the measured one lies, from
// its length and its width.
func offsetOf(kind Kind, inner outline.Curve, drawn, got outline.Size) (float64, error) {
	inside := inner.Size()
	const widest = 2.0
	for _, pair := range [2][2]float64{{got.LengthMM, drawn.LengthMM}, {got.WidthMM, drawn.WidthMM}} {
		if math.Abs(pair[0]-pair[1]) > widest {
			return 0, &ReadingError{fmt.Sprintf("a %s of %.2f x %.2f mm is not of this piece: it was drawn for %.2f x %.2f mm",
				kind, got.LengthMM, got.WidthMM, drawn.LengthMM, drawn.WidthMM)}
		}
	}
	// Both faces move alike: the outer one is wider by what it is wider as drawn.
	solve := func(want float64, extent func(outline.Size) float64) float64 {
		lo, hi := -widest, widest
		for range 50 {
			mid := (lo + hi) / 2
			c, err := inner.Offset(mid)
			if err == nil && extent(c.Size()) > want {
				hi = mid
			} else {
				lo = mid
			}
		}
		return (lo + hi) / 2
	}
	byLength := solve(got.LengthMM-drawn.LengthMM+inside.LengthMM, func(s outline.Size) float64 { return s.LengthMM })
	byWidth := solve(got.WidthMM-drawn.WidthMM+inside.WidthMM, func(s outline.Size) float64 { return s.WidthMM })
	if math.Abs(byLength-byWidth) > OutOfTrueMM {
		return 0, &ReadingError{fmt.Sprintf("the %s is out of true: its length of %.2f mm says %+.2f mm all round and its width of %.2f mm says %+.2f mm; true it on the punch and measure again",
			kind, got.LengthMM, byLength, got.WidthMM, byWidth)}
	}
	return (byLength + byWidth) / 2, nil
}
