package forming

import (
	"errors"
	"fmt"
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Corners is how the wall goes round a corner of the outline.
type Corners int

// Kinds of corners.
const (
	// Bent corners are sharp inside and round outside. An outline with a
	// reflex corner is taken as mitred.
	Bent Corners = iota
	// Mitred corners are sharp outside: scored and folded, or joined.
	Mitred
)

// Collar is a straight collar and the tapered collet that it becomes.
type Collar struct {
	// Outline is a level outline, usually the stone's.
	Outline outline.Curve
	// RimOffsetMM is the level distance from Outline outward to the inner face
	// of the finished rim.
	RimOffsetMM float64
	// Lean of the finished wall from the axis.
	Lean units.Angle
	// HeightMM is the finished height along the axis.
	HeightMM float64
	// WallMM is the wall of the straight stock.
	WallMM float64
	// StockPerimeterMM is the mid-wall perimeter of the stock where that is
	// given, as it is of a tube; 0 is a strip cut to the finished rim.
	StockPerimeterMM float64
	Corners          Corners
}

// ErrCloses is wrapped by errors of a collar whose foot would close.
var ErrCloses = errors.New("the foot closes")

// Section is the wall at one depth below the rim.
type Section struct {
	// PerimeterMM is the mid-wall perimeter (see between), WallMM the thickness square to
	// the wall.
	PerimeterMM, WallMM float64
	// InnerOffsetMM and OuterOffsetMM are level, from the collar's Outline.
	InnerOffsetMM, OuterOffsetMM float64
}

// Wall is a collar whose rim is solved: the shape that every hole works
// towards. Make it with NewWall.
type Wall struct {
	Collar
	// Rim is the finished rim.
	Rim Section
	// StockMM is the mid-wall perimeter of the stock: the rim's for a strip.
	StockMM float64
	// StripHeightMM is the height of the straight stock that gives HeightMM.
	StripHeightMM float64
	// Foot is the finished foot.
	Foot Section
	// VolumeMM3 of the metal.
	VolumeMM3 float64
}

// NewWall solves rim, foot and strip height of a collar. The error wraps
// ErrCloses if the foot would close, and is an error of the outline
// otherwise.
func NewWall(c Collar) (*Wall, error) {
	if !(c.WallMM > 0 && c.HeightMM > 0 && c.Lean >= 0 && c.Lean.Degrees() < 80 && c.StockPerimeterMM >= 0) {
		return nil, fmt.Errorf("wall %.4g mm, height %.4g mm, lean %.4g°: not a collar", c.WallMM, c.HeightMM, c.Lean.Degrees())
	}
	w := &Wall{Collar: c}
	var err error
	if w.Rim, err = w.rim(); err != nil {
		return nil, err
	}
	w.StockMM = c.StockPerimeterMM
	if w.StockMM == 0 {
		w.StockMM = w.Rim.PerimeterMM
	}
	if w.Foot, err = w.At(c.HeightMM); err != nil {
		return nil, err
	}
	whole, err := w.span(0, c.HeightMM)
	if err != nil {
		return nil, err
	}
	w.StripHeightMM = whole.stockMM
	w.VolumeMM3 = w.StockMM * c.WallMM * w.StripHeightMM
	return w, nil
}

// rim solves the rim: its inner face is given, its wall follows from the
// stock.
func (w *Wall) rim() (Section, error) {
	section := func(t float64) (Section, error) {
		return w.between(w.RimOffsetMM+t/w.Lean.Cos(), t)
	}
	if w.StockPerimeterMM == 0 {
		return section(w.WallMM)
	}
	return solveWall(w.WallMM, w.StockPerimeterMM, section)
}

// At is the finished wall at the depth x below the place where the taper
// starts.
func (w *Wall) At(x float64) (Section, error) {
	outer := w.Rim.OuterOffsetMM - x*w.Lean.Tan()
	s, err := solveWall(w.WallMM, w.StockMM, func(t float64) (Section, error) { return w.between(outer, t) })
	if err != nil {
		return Section{}, fmt.Errorf("%w %.4g mm below the rim", ErrCloses, x)
	}
	return s, nil
}

// between is the section of outer offset and wall given. Its perimeter is the
// level area of metal over the level wall, so that perimeter, wall and length
// along the wall give the true volume round corners too; on a smooth outline
// that is the length of the middle line.
func (w *Wall) between(outer, t float64) (Section, error) {
	level := t / w.Lean.Cos()
	s := Section{WallMM: t, OuterOffsetMM: outer, InnerOffsetMM: outer - level}
	inner, err := w.Outline.Offset(s.InnerOffsetMM)
	if err != nil {
		return Section{}, err
	}
	if w.Corners == Bent && inner.Convex() {
		// Round outside, the level area is P_in t + pi t^2 (Steiner's formula
		// for parallel curves).
		s.PerimeterMM = inner.PerimeterMM() + math.Pi*level
		return s, nil
	}
	face, err := w.Outline.Offset(outer)
	if err != nil {
		return Section{}, err
	}
	s.PerimeterMM = (face.AreaMM2() - inner.AreaMM2()) / level
	return s, nil
}

// solveWall finds the wall t = t0 (Ps/P)^(1/2) of a section whose perimeter P
// depends on it, by the secant method: P changes by a few per cent over the
// whole of t, so that a handful of steps reaches 1e-14.
func solveWall(t0, stockMM float64, section func(t float64) (Section, error)) (Section, error) {
	miss := func(t float64) (Section, float64, error) {
		s, err := section(t)
		if err != nil {
			return s, 0, err
		}
		return s, t - t0*math.Sqrt(stockMM/s.PerimeterMM), nil
	}
	a := t0
	s, fa, err := miss(a)
	if err != nil {
		return s, err
	}
	b := a - fa
	for range 30 {
		var fb float64
		if s, fb, err = miss(b); err != nil {
			return s, err
		}
		if math.Abs(fb) <= 1e-14*b || fb == fa {
			break
		}
		a, b, fa = b, b-fb*(b-a)/(fb-fa), fb
	}
	return s, nil
}

// span is what lies between the depths x0 and x1 of the taper: the length of
// straight stock that it was, dl0 = dl (P/Ps)^(1/2) with dl = dx / cos a, and
// its volume, dV = P t dl.
type span struct{ stockMM, volumeMM3 float64 }

func (s span) add(q span) span { return span{s.stockMM + q.stockMM, s.volumeMM3 + q.volumeMM3} }

// per is a span's integrand.
func (w *Wall) per(s Section) span {
	dl := 1 / w.Lean.Cos()
	return span{dl * math.Sqrt(s.PerimeterMM/w.StockMM), dl * s.PerimeterMM * s.WallMM}
}

// depthOf is the depth of taper that takes up so much straight stock.
func (w *Wall) depthOf(stockMM float64) (float64, error) {
	if stockMM <= 0 {
		return 0, nil
	}
	if stockMM >= w.StripHeightMM*(1-1e-13) {
		return w.HeightMM, nil
	}
	// The integrand changes little, so Newton from a proportional start does.
	x := w.HeightMM * stockMM / w.StripHeightMM
	from, have := 0.0, 0.0
	for range 40 {
		more, err := w.span(min(from, x), max(from, x))
		if err != nil {
			return 0, err
		}
		have, from = have+math.Copysign(more.stockMM, x-from), x
		s, err := w.At(x)
		if err != nil {
			return 0, err
		}
		step := (stockMM - have) * w.Lean.Cos() * math.Sqrt(w.StockMM/s.PerimeterMM)
		x = math.Min(w.HeightMM, x+step)
		if math.Abs(step) < 1e-12*w.HeightMM {
			break
		}
	}
	return x, nil
}

// depthAt is the depth of taper, between lo and hi, at which the mid-wall
// perimeter is p.
func (w *Wall) depthAt(p, lo, hi float64) (float64, error) {
	for range 80 {
		mid := (lo + hi) / 2
		s, err := w.At(mid)
		if err != nil {
			return 0, err
		}
		if s.PerimeterMM > p {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo < 1e-12*(hi+1e-3) {
			break
		}
	}
	return (lo + hi) / 2, nil
}

// Nodes and weights of the eight-point Gauss-Legendre rule on [-1, 1]
// (M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, table
// 25.4); the other half is symmetric.
var gauss8 = [4][2]float64{
	{0.1834346424956498, 0.3626837833783620},
	{0.5255324099163290, 0.3137066458778873},
	{0.7966664774136267, 0.2223810344533745},
	{0.9602898564975363, 0.1012285362903763},
}

// span integrates over the depth, halving panels until halves agree with the
// whole: between the depths at which a side of the outline vanishes the
// integrand is smooth and one halving does, and round those it converges all
// the same. Over a thousandth of the height one panel is as good.
func (w *Wall) span(x0, x1 float64) (span, error) {
	if x1 <= x0 {
		return span{}, nil
	}
	panel := func(a, b float64) (span, error) {
		mid, half := (a+b)/2, (b-a)/2
		var sum span
		for _, node := range gauss8 {
			for _, sign := range [2]float64{-1, 1} {
				s, err := w.At(mid + sign*node[0]*half)
				if err != nil {
					return span{}, err
				}
				d := w.per(s)
				sum = sum.add(span{node[1] * half * d.stockMM, node[1] * half * d.volumeMM3})
			}
		}
		return sum, nil
	}
	whole, err := panel(x0, x1)
	if err != nil || x1-x0 < 1e-3*w.HeightMM {
		return whole, err
	}
	tolerance := 1e-11 * whole.stockMM
	var refine func(a, b float64, whole span, depth int) (span, error)
	refine = func(a, b float64, whole span, depth int) (span, error) {
		mid := (a + b) / 2
		left, err := panel(a, mid)
		if err != nil {
			return span{}, err
		}
		right, err := panel(mid, b)
		if err != nil {
			return span{}, err
		}
		if depth == 0 || math.Abs(left.stockMM+right.stockMM-whole.stockMM) <= tolerance {
			return left.add(right), nil
		}
		if left, err = refine(a, mid, left, depth-1); err != nil {
			return span{}, err
		}
		if right, err = refine(mid, b, right, depth-1); err != nil {
			return span{}, err
		}
		return left.add(right), nil
	}
	return refine(x0, x1, whole, 20)
}
