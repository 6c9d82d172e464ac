package forming

import (
	"errors"
	"fmt"
	"math"
	"slices"

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
	// PerimeterMM is the mid-wall perimeter (see inside), WallMM the thickness square to
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
	return solveWall(w.WallMM, w.WallMM, w.StockPerimeterMM, section)
}

// At is the finished wall at the depth x below the place where the taper
// starts.
func (w *Wall) At(x float64) (Section, error) { return w.at(x, w.WallMM) }

// at is At from a guess of the wall there.
func (w *Wall) at(x, guessMM float64) (Section, error) {
	outer := outerFace{offsetMM: w.Rim.OuterOffsetMM - x*w.Lean.Tan()}
	s, err := solveWall(guessMM, w.WallMM, w.StockMM, func(t float64) (Section, error) { return w.inside(&outer, t) })
	if err != nil {
		return Section{}, fmt.Errorf("%w %.4g mm below the rim", ErrCloses, x)
	}
	return s, nil
}

// outerFace is the wall's outer face at one depth, with the area inside it once
// that is known.
type outerFace struct{ offsetMM, areaMM2 float64 }

// between is the section of outer offset and wall given.
func (w *Wall) between(outerMM, t float64) (Section, error) {
	return w.inside(&outerFace{offsetMM: outerMM}, t)
}

// inside is the section of a wall t thick inside its outer face. Its perimeter is the
// level area of metal over the level wall, so that perimeter, wall and length
// along the wall give the true volume round corners too; on a smooth outline
// that is the length of the middle line.
func (w *Wall) inside(outer *outerFace, t float64) (Section, error) {
	level := t / w.Lean.Cos()
	s := Section{WallMM: t, OuterOffsetMM: outer.offsetMM, InnerOffsetMM: outer.offsetMM - level}
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
	if outer.areaMM2 == 0 {
		face, err := w.Outline.Offset(outer.offsetMM)
		if err != nil {
			return Section{}, err
		}
		outer.areaMM2 = face.AreaMM2()
	}
	s.PerimeterMM = (outer.areaMM2 - inner.AreaMM2()) / level
	return s, nil
}

// solveWall finds the wall t = t0 (Ps/P)^(1/2) of a section whose perimeter P
// depends on it, from a guess, by the secant method: P changes by a few per cent
// over the whole of t, so that a few steps reach 1e-12.
func solveWall(guess, t0, stockMM float64, section func(t float64) (Section, error)) (Section, error) {
	miss := func(t float64) (Section, float64, error) {
		s, err := section(t)
		if err != nil {
			return s, 0, err
		}
		return s, t - t0*math.Sqrt(stockMM/s.PerimeterMM), nil
	}
	a := guess
	s, fa, err := miss(a)
	if err != nil {
		return s, err
	}
	b := a - fa
	for range 30 {
		before := s
		var fb float64
		if s, fb, err = miss(b); err != nil {
			return s, err
		}
		if math.Abs(fb) <= 1e-12*b || fb == fa {
			break
		}
		next := b - fb*(b-a)/(fb-fa)
		if math.Abs(next-a)*math.Abs(next-b) <= 1e-13*b*b { // from here the line through both is as good
			return before.towards(s, (next-a)/(b-a)), nil
		}
		a, b, fa = b, next, fb
	}
	return s, nil
}

// towards goes on the line through two sections, from s at 0 to q at 1.
func (s Section) towards(q Section, share float64) Section {
	between := func(a, b float64) float64 { return a + share*(b-a) }
	return Section{
		PerimeterMM: between(s.PerimeterMM, q.PerimeterMM), WallMM: between(s.WallMM, q.WallMM),
		InnerOffsetMM: between(s.InnerOffsetMM, q.InnerOffsetMM), OuterOffsetMM: between(s.OuterOffsetMM, q.OuterOffsetMM),
	}
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

// kronrod15 are the nodes on [-1, 0] of the fifteen-point Gauss-Kronrod rule with
// its weights and those of the seven-point Gauss rule inside it (R. Piessens and
// others, QUADPACK, Springer 1983, routine QK15); the other half is symmetric.
var kronrod15 = [8]struct{ node, kronrod, gauss float64 }{
	{-0.991455371120812639, 0.022935322010529225, 0},
	{-0.949107912342758525, 0.063092092629978553, 0.129484966168869693},
	{-0.864864423359769073, 0.104790010322250184, 0},
	{-0.741531185599394440, 0.140653259715525919, 0.279705391489276668},
	{-0.586087235467691130, 0.169004726639267903, 0},
	{-0.405845151377397167, 0.190350578064785410, 0.381830050505118945},
	{-0.207784955007898468, 0.204432940075298892, 0},
	{0, 0.209482141084727828, 0.417959183673469388},
}

// span integrates over the depth. It begins a panel where a face of the wall
// passes the outline, since a corner on a curve goes over from a mitre to a
// trimmed one there, and where a side vanishes; and halves a panel until both its rules
// agree, which converges all the same where a side vanishes that no formula told of.
func (w *Wall) span(x0, x1 float64) (span, error) {
	if x1 <= x0 {
		return span{}, nil
	}
	joints, err := w.joints(x0, x1)
	if err != nil {
		return span{}, err
	}
	var sum span
	for i := 1; i < len(joints); i++ {
		part, err := w.panel(joints[i-1], joints[i], 20)
		if err != nil {
			return span{}, err
		}
		sum = sum.add(part)
	}
	return sum, nil
}

// panel integrates between two depths with at most so many halvings. Over a
// thousandth of the height one panel is as good.
func (w *Wall) panel(x0, x1 float64, halvings int) (span, error) {
	mid, half := (x0+x1)/2, (x1-x0)/2
	var sum span
	var stockMM [15]float64 // by the depth, at each node
	rough := 0.0
	var last, before struct{ x, wallMM float64 }
	for i := range 2*len(kronrod15) - 1 {
		k := kronrod15[min(i, 2*len(kronrod15)-2-i)]
		if i >= len(kronrod15) {
			k.node = -k.node
		}
		x, guess := mid+k.node*half, w.WallMM
		if i > 1 { // go on as before
			guess = last.wallMM + (last.wallMM-before.wallMM)*(x-last.x)/(last.x-before.x)
		}
		s, err := w.at(x, guess)
		if err != nil {
			return span{}, err
		}
		before, last.x, last.wallMM = last, x, s.WallMM
		d := w.per(s)
		stockMM[i] = d.stockMM
		sum = sum.add(span{k.kronrod * half * d.stockMM, k.kronrod * half * d.volumeMM3})
		rough += k.gauss * half * d.stockMM
	}
	if halvings == 0 || x1-x0 < 1e-3*w.HeightMM || kronrodError(stockMM, half, sum.stockMM, rough) <= 1e-11*w.HeightMM {
		return sum, nil
	}
	left, err := w.panel(x0, mid, halvings-1)
	if err != nil {
		return span{}, err
	}
	right, err := w.panel(mid, x1, halvings-1)
	return left.add(right), err
}

// kronrodError is QK15's own estimate of its error: (200 |K - G| / A)^1.5 A, K and G
// being what fifteen and seven points make of the integral and A that of how far the
// integrand is from its mean.
func kronrodError(integrand [15]float64, half, fifteen, seven float64) float64 {
	varies := 0.0
	for i, v := range integrand {
		varies += kronrod15[min(i, len(integrand)-1-i)].kronrod * half * math.Abs(v-fifteen/(2*half))
	}
	return varies * min(1, math.Pow(200*math.Abs(fifteen-seven)/max(varies, 1e-300), 1.5))
}

// joints are the depths x0 and x1, with those between them at which the perimeter
// goes over from one formula to another: where a face of the wall passes the outline,
// and where it loses a side.
func (w *Wall) joints(x0, x1 float64) ([]float64, error) {
	list := []float64{x0}
	if w.Lean > 0 {
		passed := w.Outline.VanishingMM()
		if cornersOnCurves(w.Outline) {
			passed = append(passed, 0)
		}
		bothFaces := w.Corners == Mitred || !w.Outline.Convex()
		for _, inward := range passed {
			s, err := solveWall(w.WallMM, w.WallMM, w.StockMM, func(t float64) (Section, error) { return w.between(t/w.Lean.Cos()-inward, t) })
			switch {
			case err == nil:
				list = append(list, w.depthOfOuter(s.OuterOffsetMM))
			case inward == 0:
				return nil, err
			}
			if bothFaces {
				list = append(list, w.depthOfOuter(-inward))
			}
		}
	}
	list = append(slices.DeleteFunc(list, func(x float64) bool { return x < x0 || x >= x1 }), x1)
	slices.Sort(list)
	return slices.Compact(list), nil
}

// depthOfOuter is the depth at which the outer face is so far outside the outline.
func (w *Wall) depthOfOuter(offsetMM float64) float64 {
	return (w.Rim.OuterOffsetMM - offsetMM) / w.Lean.Tan()
}

// cornersOnCurves tells whether a curved piece ends in a corner. Straight sides
// meet in the same way inside and outside of the outline.
func cornersOnCurves(c outline.Curve) bool {
	for i, p := range c.Pieces {
		before := c.Pieces[(i+len(c.Pieces)-1)%len(c.Pieces)]
		if c.Turning(i) != 0 && (p.Kind != outline.Straight || before.Kind != outline.Straight) {
			return true
		}
	}
	return false
}
