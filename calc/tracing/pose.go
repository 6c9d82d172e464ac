package tracing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// camera is where the photograph was taken from, and through which lens: a
// pinhole with one term of radial distortion.
type camera struct {
	rotation [3]float64 // axis times angle
	shift    [3]float64 // of the card's centre, mm in the camera's axes
	focalPx  float64
	// bend is the distortion at half a diagonal from the picture's centre.
	bend           float64
	centreX        float64
	centreY        float64
	halfDiagonalPx float64
	turn           [9]float64
}

// Phones have main cameras of 24 to 28 mm, as for 35 mm film, whose diagonal is
// 43.27 mm; twice that is their usual close view.
const (
	usualFocalMM = 27.0
	filmDiagonal = 43.2666
)

func rotationMatrix(v [3]float64) [9]float64 {
	angle := math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
	if angle < 1e-12 {
		return [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}
	}
	x, y, z := v[0]/angle, v[1]/angle, v[2]/angle
	s, c := math.Sincos(angle)
	t := 1 - c
	return [9]float64{
		t*x*x + c, t*x*y - s*z, t*x*z + s*y,
		t*x*y + s*z, t*y*y + c, t*y*z - s*x,
		t*x*z - s*y, t*y*z + s*x, t*z*z + c,
	}
}

// rotationVector is the axis times angle of a rotation by less than a half turn.
func rotationVector(m [9]float64) [3]float64 {
	angle := math.Acos(math.Max(-1, math.Min(1, (m[0]+m[4]+m[8]-1)/2)))
	v := [3]float64{m[7] - m[5], m[2] - m[6], m[3] - m[1]}
	n := math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
	if n < 1e-9 {
		if angle < 1 {
			return [3]float64{}
		}
		// A half turn: the axis is a column of (m + 1)/2; a small turn away from
		// it keeps the fit from the seam.
		return [3]float64{0.01, 0.01, math.Pi - 0.02}
	}
	return [3]float64{v[0] / n * angle, v[1] / n * angle, v[2] / n * angle}
}

// at is where a place of the card, heightMM above it, is in the photograph.
func (c *camera) at(p Place, heightMM float64) (x, y float64) {
	m := &c.turn
	// The card's axes are x right and y down, so heights count against z.
	X := m[0]*p.X + m[1]*p.Y - m[2]*heightMM + c.shift[0]
	Y := m[3]*p.X + m[4]*p.Y - m[5]*heightMM + c.shift[1]
	Z := m[6]*p.X + m[7]*p.Y - m[8]*heightMM + c.shift[2]
	u, v := X/Z*c.focalPx, Y/Z*c.focalPx
	d := 1 + c.bend*(u*u+v*v)/(c.halfDiagonalPx*c.halfDiagonalPx)
	return c.centreX + u*d, c.centreY + v*d
}

// eye is where the camera is: over which place of the card, how high.
func (c *camera) eye() (over Place, heightMM float64) {
	m, t := &c.turn, &c.shift
	return Place{-(m[0]*t[0] + m[3]*t[1] + m[6]*t[2]), -(m[1]*t[0] + m[4]*t[1] + m[7]*t[2])},
		m[2]*t[0] + m[5]*t[1] + m[8]*t[2]
}

// scaleAt is the photograph's pixels a mm at a place of the card.
func (c *camera) scaleAt(p Place) float64 {
	x0, y0 := c.at(p, 0)
	x1, y1 := c.at(Place{p.X + 0.5, p.Y}, 0)
	x2, y2 := c.at(Place{p.X, p.Y + 0.5}, 0)
	return 2 * math.Sqrt(math.Abs((x1-x0)*(y2-y0)-(y1-y0)*(x2-x0)))
}

// cameraFrom starts the fit at the homography's own pose for a focal length
// (Z. Zhang, "A flexible new technique for camera calibration", 2000, for the
// pose of a plane; from memory).
func cameraFrom(h homography, w, ht int, focalPx float64) (camera, bool) {
	c := camera{
		focalPx: focalPx, centreX: float64(w-1) / 2, centreY: float64(ht-1) / 2,
		halfDiagonalPx: math.Hypot(float64(w), float64(ht)) / 2,
	}
	column := func(i int) [3]float64 {
		return [3]float64{(h[i] - c.centreX*h[6+i]) / focalPx, (h[3+i] - c.centreY*h[6+i]) / focalPx, h[6+i]}
	}
	a, b, t := column(0), column(1), column(2)
	norm := func(v [3]float64) float64 { return math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2]) }
	k := 2 / (norm(a) + norm(b))
	if !(t[2]*k > 1) || math.IsInf(k, 0) {
		return c, false
	}
	for i := range 3 {
		a[i] *= k
		b[i] *= k
		c.shift[i] = t[i] * k
	}
	m := mat.NewDense(3, 3, []float64{
		a[0], b[0], a[1]*b[2] - a[2]*b[1],
		a[1], b[1], a[2]*b[0] - a[0]*b[2],
		a[2], b[2], a[0]*b[1] - a[1]*b[0],
	})
	var svd mat.SVD
	if !svd.Factorize(m, mat.SVDFull) {
		return c, false
	}
	var u, v, r mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	r.Mul(&u, v.T())
	var turn [9]float64
	for i := range 9 {
		turn[i] = r.At(i/3, i%3)
	}
	c.rotation = rotationVector(turn)
	c.turn = rotationMatrix(c.rotation)
	return c, true
}

const poseNumbers = 8

func (c *camera) numbers() [poseNumbers]float64 {
	return [poseNumbers]float64{c.rotation[0], c.rotation[1], c.rotation[2], c.shift[0], c.shift[1], c.shift[2], math.Log(c.focalPx), c.bend}
}

func (c camera) with(n [poseNumbers]float64) camera {
	copy(c.rotation[:], n[:3])
	copy(c.shift[:], n[3:6])
	c.focalPx, c.bend = math.Exp(n[6]), n[7]
	c.turn = rotationMatrix(c.rotation)
	return c
}

// misfit are the differences in px, and how far focal length and distortion are
// from what is usual, weighed as that many pixels.
func (c *camera) misfit(pairs []pair, logFocal, spread float64) []float64 {
	out := make([]float64, 0, 2*len(pairs)+2)
	for _, q := range pairs {
		x, y := c.at(q.card, 0)
		out = append(out, x-q.x, y-q.y)
	}
	const noisePx = 0.15
	return append(out, noisePx*(math.Log(c.focalPx)-logFocal)/spread, noisePx*c.bend/0.06)
}

func squares(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return sum
}

// fitted moves the camera to the least squares (Levenberg and Marquardt).
func (c camera) fitted(pairs []pair, logFocal, spread float64) (camera, float64) {
	damping := 1e-3
	errs := c.misfit(pairs, logFocal, spread)
	cost := squares(errs)
	for range 40 {
		base := c.numbers()
		j := mat.NewDense(len(errs), poseNumbers, nil)
		for k := range poseNumbers {
			step := 1e-5 * math.Max(1, math.Abs(base[k]))
			moved := base
			moved[k] += step
			other := c.with(moved)
			for i, e := range other.misfit(pairs, logFocal, spread) {
				j.Set(i, k, (e-errs[i])/step)
			}
		}
		var normal mat.Dense
		normal.Mul(j.T(), j)
		var slope mat.VecDense
		slope.MulVec(j.T(), mat.NewVecDense(len(errs), errs))
		improved := false
		for range 8 {
			var damped mat.Dense
			damped.CloneFrom(&normal)
			for k := range poseNumbers {
				damped.Set(k, k, normal.At(k, k)*(1+damping))
			}
			var step mat.VecDense
			if err := step.SolveVec(&damped, &slope); err != nil {
				damping *= 10
				continue
			}
			next := base
			for k := range poseNumbers {
				next[k] -= step.AtVec(k)
			}
			other := c.with(next)
			otherErrs := other.misfit(pairs, logFocal, spread)
			if s := squares(otherErrs); s < cost {
				improved = cost-s > 1e-7*cost
				c, errs, cost = other, otherErrs, s
				damping = math.Max(damping/10, 1e-9)
				break
			}
			damping *= 10
		}
		if !improved {
			break
		}
	}
	return c, cost
}

// fitCamera finds the camera of a card as seen. offPx is the root mean square
// of what is left.
func fitCamera(s seen, w, h int) (cam camera, offPx float64, ok bool) {
	diagonal := math.Hypot(float64(w), float64(h))
	best := math.Inf(1)
	for i, film := range []float64{usualFocalMM, 2 * usualFocalMM, 3 * usualFocalMM} {
		focal := film / filmDiagonal * diagonal
		start, good := cameraFrom(s.plane, w, h, focal)
		if !good {
			continue
		}
		c, cost := start.fitted(s.pairs, math.Log(focal), 0.05)
		// A long lens needs better evidence than the usual one.
		if i > 0 {
			cost *= 1.3
		}
		if cost < best {
			best, cam, ok = cost, c, true
		}
	}
	if !ok {
		return cam, 0, false
	}
	sum := 0.0
	for _, q := range s.pairs {
		x, y := cam.at(q.card, 0)
		sum += (x-q.x)*(x-q.x) + (y-q.y)*(y-q.y)
	}
	_, height := cam.eye()
	return cam, math.Sqrt(sum / float64(len(s.pairs))), height > 20 && height < 3000
}
