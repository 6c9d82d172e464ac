package tracing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// pair is a place on the card and where it is in the photograph, px.
type pair struct {
	card Place
	x, y float64
}

// homography maps the card's plane to the photograph; the last entry is 1.
type homography [9]float64

func (h homography) at(p Place) (x, y float64) {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return (h[0]*p.X + h[1]*p.Y + h[2]) / w, (h[3]*p.X + h[4]*p.Y + h[5]) / w
}

// front reports whether the whole card is in front of the camera and not seen
// from behind.
func (h homography) front() bool {
	for _, m := range Marks {
		if h[6]*m.X+h[7]*m.Y+h[8] < 0.2 {
			return false
		}
	}
	x0, y0 := h.at(Place{})
	x1, y1 := h.at(Place{1, 0})
	x2, y2 := h.at(Place{0, 1})
	return (x1-x0)*(y2-y0)-(y1-y0)*(x2-x0) > 0
}

// affineThrough is the affine map through three pairs, as a homography.
func affineThrough(pairs []pair) (homography, bool) {
	a, bx, by := mat.NewDense(3, 3, nil), mat.NewVecDense(3, nil), mat.NewVecDense(3, nil)
	for i, p := range pairs[:3] {
		a.SetRow(i, []float64{p.card.X, p.card.Y, 1})
		bx.SetVec(i, p.x)
		by.SetVec(i, p.y)
	}
	var x, y mat.VecDense
	if x.SolveVec(a, bx) != nil || y.SolveVec(a, by) != nil {
		return homography{}, false
	}
	return homography{x.AtVec(0), x.AtVec(1), x.AtVec(2), y.AtVec(0), y.AtVec(1), y.AtVec(2), 0, 0, 1}, true
}

// fitHomography is the least-squares homography of at least four pairs, by the
// linear equations with the card's and the photograph's places scaled to about
// one (R. Hartley and A. Zisserman, "Multiple View Geometry", the normalised
// direct linear transformation; from memory).
func fitHomography(pairs []pair) (homography, bool) {
	if len(pairs) < 4 {
		return homography{}, false
	}
	const cardScale = 40
	var cx, cy, spread float64
	for _, p := range pairs {
		cx += p.x / float64(len(pairs))
		cy += p.y / float64(len(pairs))
	}
	for _, p := range pairs {
		spread += math.Hypot(p.x-cx, p.y-cy) / float64(len(pairs))
	}
	if !(spread > 1) {
		return homography{}, false
	}
	a, b := mat.NewDense(2*len(pairs), 8, nil), mat.NewVecDense(2*len(pairs), nil)
	for i, p := range pairs {
		X, Y := p.card.X/cardScale, p.card.Y/cardScale
		x, y := (p.x-cx)/spread, (p.y-cy)/spread
		a.SetRow(2*i, []float64{X, Y, 1, 0, 0, 0, -x * X, -x * Y})
		a.SetRow(2*i+1, []float64{0, 0, 0, X, Y, 1, -y * X, -y * Y})
		b.SetVec(2*i, x)
		b.SetVec(2*i+1, y)
	}
	var s mat.VecDense
	if s.SolveVec(a, b) != nil {
		return homography{}, false
	}
	v := func(i int) float64 { return s.AtVec(i) }
	g, h := v(6)/cardScale, v(7)/cardScale
	out := homography{
		(v(0)*spread + cx*v(6)) / cardScale, (v(1)*spread + cx*v(7)) / cardScale, v(2)*spread + cx,
		(v(3)*spread + cy*v(6)) / cardScale, (v(4)*spread + cy*v(7)) / cardScale, v(5)*spread + cy,
		g, h, 1,
	}
	for _, n := range out {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			return homography{}, false
		}
	}
	return out, true
}
