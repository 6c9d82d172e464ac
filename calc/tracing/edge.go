package tracing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// signal is how much of the stone's own look a pixel has: about 0 on the bare
// zone, about 1 on the stone. It is linear in light, so that an edge lies where
// it is half-way.
type signal struct {
	s *sheet
	v []float64
}

func (g *signal) at(p Place) float64 {
	x, y := g.s.pixel(p)
	x = math.Max(0, math.Min(x, float64(g.s.w-1)-1e-6))
	y = math.Max(0, math.Min(y, float64(g.s.h-1)-1e-6))
	ix, iy := int(x), int(y)
	fx, fy := x-float64(ix), y-float64(iy)
	i := iy*g.s.w + ix
	return (g.v[i]*(1-fx)+g.v[i+1]*fx)*(1-fy) + (g.v[i+g.s.w]*(1-fx)+g.v[i+g.s.w+1]*fx)*fy
}

// look is what sets the stone apart: on the black zone what it sends back more
// than the zone, on the white zone its colour, which a shadow has not, or its
// darkness.
type look struct {
	weight [3]float64
	offset float64
	// contrast is how far stone and zone are apart, as a share of bare paper.
	contrast float64
	coloured bool
}

func lookOf(s *sheet, stone region) look {
	inner := s.grown(stone.mask, -int(0.5/s.stepMM))
	var mean [3]float64
	n := 0.0
	for i, in := range inner {
		if in {
			for k, v := range s.pix[i] {
				mean[k] += math.Min(v, 1.2)
			}
			n++
		}
	}
	for k := range mean {
		mean[k] /= math.Max(n, 1)
	}
	var l look
	if s.zone == Black {
		sum := mean[0]*mean[0] + mean[1]*mean[1] + mean[2]*mean[2]
		for k := range mean {
			l.weight[k] = mean[k] / math.Max(sum, 1e-9)
		}
		l.contrast = math.Sqrt(sum / 3)
		return l
	}
	grey := (mean[0] + mean[1] + mean[2]) / 3
	chroma := [3]float64{mean[0] - grey, mean[1] - grey, mean[2] - grey}
	sum := chroma[0]*chroma[0] + chroma[1]*chroma[1] + chroma[2]*chroma[2]
	l.contrast = math.Sqrt(sum)
	if l.contrast > 0.18 || l.contrast > 0.1 && grey > 0.35 {
		l.coloured = true
		for k := range chroma {
			l.weight[k] = chroma[k] / sum
		}
		return l
	}
	// Dark: one less the brightness.
	l.contrast = 1 - grey
	for k := range l.weight {
		l.weight[k] = -1 / (3 * l.contrast)
	}
	l.offset = 1 / l.contrast
	return l
}

func (l look) signal(s *sheet) *signal {
	g := &signal{s, make([]float64, len(s.pix))}
	for i, p := range s.pix {
		g.v[i] = l.offset + l.weight[0]*p[0] + l.weight[1]*p[1] + l.weight[2]*p[2]
	}
	return g
}

// shade is one less the brightness, for a stone on white paper.
func (s *sheet) shade() *signal {
	g := &signal{s, make([]float64, len(s.pix))}
	for i, p := range s.pix {
		g.v[i] = 1 - 0.2126*p[0] - 0.7152*p[1] - 0.0722*p[2]
	}
	return g
}

// boundary walks round a region, clockwise as the card is read (Moore's
// neighbours).
func (s *sheet) boundary(r region) []Place {
	start := -1
	for i, in := range r.mask {
		if in {
			start = i
			break
		}
	}
	if start < 0 {
		return nil
	}
	dirs := [8][2]int{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}
	in := func(x, y int) bool { return x >= 0 && y >= 0 && x < s.w && y < s.h && r.mask[y*s.w+x] }
	x, y, from := start%s.w, start/s.w, 0
	var out []Place
	for range 4 * (s.w + s.h) * 8 {
		out = append(out, s.place(x, y))
		moved := false
		for k := range 8 {
			d := (from + 5 + k) % 8
			if in(x+dirs[d][0], y+dirs[d][1]) {
				x, y, from, moved = x+dirs[d][0], y+dirs[d][1], d, true
				break
			}
		}
		if !moved || y*s.w+x == start && len(out) > 2 {
			break
		}
	}
	return out
}

func lengthOf(c []Place) float64 {
	sum := 0.0
	for i, p := range c {
		q := c[(i+1)%len(c)]
		sum += math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	return sum
}

// areaOf is the signed area; positive clockwise as the card is read.
func areaOf(c []Place) float64 {
	sum := 0.0
	for i, p := range c {
		q := c[(i+1)%len(c)]
		sum += (p.X*q.Y - p.Y*q.X) / 2
	}
	return sum
}

// resampled has n points the same distance apart along a closed line.
func resampled(c []Place, n int) []Place {
	total := lengthOf(c)
	out := make([]Place, 0, n)
	walked, next := 0.0, 0.0
	for i, p := range c {
		q := c[(i+1)%len(c)]
		d := math.Hypot(q.X-p.X, q.Y-p.Y)
		for d > 0 && next <= walked+d && len(out) < n {
			f := (next - walked) / d
			out = append(out, Place{p.X + f*(q.X-p.X), p.Y + f*(q.Y-p.Y)})
			next += total / float64(n)
		}
		walked += d
	}
	for len(out) < n {
		out = append(out, c[0])
	}
	return out
}

// withoutFolds leaves out where a closed line runs back on itself.
func withoutFolds(c []Place) []Place {
	const base = 8
	n := len(c)
	out := c[:0:0]
	for i, p := range c {
		a, b := c[(i+n-base)%n], c[(i+base)%n]
		if len(out) > 0 {
			q := out[len(out)-1]
			if (p.X-q.X)*(b.X-a.X)+(p.Y-q.Y)*(b.Y-a.Y) <= 0 {
				continue
			}
		}
		out = append(out, p)
	}
	if len(out) < n/2 {
		return c
	}
	return out
}

// normals point outward from a line that runs clockwise as the card is read.
func normals(c []Place) []Place {
	n := len(c)
	out := make([]Place, n)
	for i := range c {
		a, b := c[(i+n-2)%n], c[(i+2)%n]
		dx, dy := b.X-a.X, b.Y-a.Y
		l := math.Max(math.Hypot(dx, dy), 1e-9)
		out[i] = Place{dy / l, -dx / l}
	}
	return out
}

// found is the edge along each normal.
type found struct {
	at []Place
	// weight is how clear the edge is there, 0 to 1.
	weight []float64
}

const (
	edgePoints = 480
	reachMM    = 1.2
	reachStep  = 0.05
	// evidenceAMM weighs what a mm of stone or card says against an edge's fall.
	evidenceAMM = 1.0
)

// edgeAlong finds the stone's edge near a closed line: the shortest closed path
// through the steepest falls picks it on each normal, and the half-way level
// places it.
//
// Where shade gives brightness, it places the edge in preference: cameras save
// colour at half the sharpness of brightness, and colour bleeds into what is
// bright. bleedMM is how far.
func edgeAlong(g, shade, stone *signal, line []Place, blurMM, bleedMM float64) found {
	n, outward := len(line), normals(line)
	states := int(2*reachMM/reachStep) + 1
	half := math.Max(0.1, 0.6*blurMM)
	at := func(i int, d float64) float64 {
		return g.at(Place{line[i].X + d*outward[i].X, line[i].Y + d*outward[i].Y})
	}
	fall, steepest := make([][]float64, n), make([]float64, n)
	for i := range fall {
		fall[i] = make([]float64, states)
		for k := range fall[i] {
			d := -reachMM + float64(k)*reachStep
			fall[i][k] = at(i, d-half) - at(i, d+half)
			steepest[i] = math.Max(steepest[i], fall[i][k])
		}
	}
	usual := median(steepest)
	for i := range fall {
		most := math.Max(steepest[i], 0.4*usual)
		// What lies within the edge speaks for it where it is stone and against
		// it where it is card.
		within := 0.0
		for k := range fall[i] {
			d := -reachMM + float64(k)*reachStep
			within += evidenceAMM * reachStep * stone.at(Place{line[i].X + d*outward[i].X, line[i].Y + d*outward[i].Y})
			fall[i][k] = fall[i][k]/most + within
		}
	}
	path := closedPath(fall)
	out := found{make([]Place, n), make([]float64, n)}
	near, far := math.Max(0.2, 1.1*blurMM), math.Max(0.4, 1.6*blurMM)
	for i, k := range path {
		d := -reachMM + float64(k)*reachStep
		e := halfWay(func(u float64) float64 { return at(i, u) }, d, near, far)
		if e.sure { // its levels, taken at the same distance on either side
			e = halfWay(func(u float64) float64 { return at(i, u) }, e.at, near, far)
		}
		if shade != nil {
			s := halfWay(func(u float64) float64 {
				return shade.at(Place{line[i].X + u*outward[i].X, line[i].Y + u*outward[i].Y})
			}, d-bleedMM/2, near, far)
			if e.at -= bleedMM; s.sure && s.step > 0.15 {
				e = s
			}
		}
		out.at[i] = Place{line[i].X + e.at*outward[i].X, line[i].Y + e.at*outward[i].Y}
		out.weight[i] = math.Max(0.02, math.Min(1, e.step/0.35))
		if !e.sure {
			out.weight[i] = 0.02
		}
	}
	return out
}

// step is an edge on one normal: where it is half-way, mm outward, and how high
// it is.
type step struct {
	at, step float64
	sure     bool
}

func halfWay(at func(float64) float64, d, near, far float64) step {
	inside := insideAt(at(d-near), at(d-(near+far)/2), at(d-far), near, far)
	outside := outsideAt(at(d+near), at(d+(near+far)/2), at(d+far), near, far, inside)
	level := (inside + outside) / 2
	out, nearest := step{at: d, step: inside - outside}, math.Inf(1)
	for u := d - near; u < d+near; u += 0.025 {
		a, b := at(u), at(u+0.025)
		if a >= level && b < level {
			cross := u + 0.025*(a-level)/(a-b)
			if off := math.Abs(cross - d); off < nearest {
				out.at, out.sure, nearest = cross, true, off
			}
		}
	}
	return out
}

// insideAt is the stone's level at its very edge, from three levels at near,
// half-way and far inside: a side in the shade darkens towards the edge.
func insideAt(a, b, c, near, far float64) float64 {
	mean := (a + b + c) / 3
	out := mean + (a-c)/(far-near)*(near+far)/2
	return math.Max(0.5*mean, math.Min(out, 1.1*mean))
}

// outsideAt is the level just outside the edge: the card darkens there, where the
// stone shades it.
func outsideAt(a, b, c, near, far, inside float64) float64 {
	mean := (a + b + c) / 3
	out := mean + (a-c)/(far-near)*(near+far)/2
	most := 0.35 * math.Abs(inside-mean)
	return math.Max(mean-most/3, math.Min(out, mean+most))
}

// closedPath takes one state for each point so that the sum of the values less
// what jumps cost is the greatest; first and last are neighbours.
func closedPath(value [][]float64) []int {
	n := len(value)
	// Twice round from an unknown start settles the start in the middle.
	twice := make([]int, 2*n)
	for i := range twice {
		twice[i] = i % n
	}
	path := openPath(value, twice, -1)
	start := path[n]
	turned := make([]int, n+1)
	for i := range turned {
		turned[i] = i % n
	}
	return openPath(value, turned, start)[:n]
}

func openPath(value [][]float64, order []int, fixed int) []int {
	states := len(value[0])
	const widest, jump = 3, 0.4
	best := make([]float64, states)
	from := make([][]int8, len(order))
	for step, i := range order {
		from[step] = make([]int8, states)
		next := make([]float64, states)
		for k := range next {
			next[k] = math.Inf(-1)
			if step == 0 {
				next[k] = 0
			}
			for d := -widest; step > 0 && d <= widest; d++ {
				if k+d < 0 || k+d >= states {
					continue
				}
				if v := best[k+d] - jump*float64(d*d)/4; v > next[k] {
					next[k], from[step][k] = v, int8(d)
				}
			}
			next[k] += value[i][k]
			if fixed >= 0 && (step == 0 || step == len(order)-1) && k != fixed {
				next[k] = math.Inf(-1)
			}
		}
		best = next
	}
	end := 0
	for k := range best {
		if best[k] > best[end] {
			end = k
		}
	}
	path := make([]int, len(order))
	for step := len(order) - 1; step >= 0; step-- {
		path[step] = end
		end += int(from[step][end])
	}
	return path
}

// smoothed is the closed curve near the found points whose third differences
// are small, and how far the points scatter about it, mm (E. T. Whittaker, "On
// a new method of graduation", 1923; from memory). Where the line turns sharply
// the curve is free to turn as well.
func smoothed(f found, stiffness float64) (curve []Place, scatterMM float64) {
	n := len(f.at)
	weight := append([]float64(nil), f.weight...)
	// Corners are looked for on a curve without the points' own scatter.
	free := tips(whittaker(f.at, weight, ones(n), 300))
	for round := range 3 {
		curve = whittaker(f.at, weight, free, stiffness)
		off := make([]float64, n)
		for i, p := range f.at {
			off[i] = math.Hypot(p.X-curve[i].X, p.Y-curve[i].Y)
		}
		scatterMM = 1.48 * median(off)
		limit := math.Max(2.5*scatterMM, 0.02)
		if round == 2 {
			break
		}
		for i := range weight {
			r := off[i] / limit
			weight[i] = f.weight[i] / (1 + r*r)
		}
	}
	return curve, scatterMM
}

// tips are how much of the stiffness holds at each point: less where the line
// turns by over 40 degrees within 1.2 mm.
func tips(at []Place) []float64 {
	n := len(at)
	step := lengthOf(at) / float64(n)
	k := max(3, int(0.9/step))
	keep := make([]float64, n)
	for i := range keep {
		keep[i] = 1
	}
	mean := func(i, from, to int) Place {
		var p Place
		for j := from; j <= to; j++ {
			q := at[((i+j)%n+n)%n]
			p.X += q.X / float64(to-from+1)
			p.Y += q.Y / float64(to-from+1)
		}
		return p
	}
	for i := range at {
		a, b, c := mean(i, -k-1, -k+1), mean(i, -1, 1), mean(i, k-1, k+1)
		u, v := Place{b.X - a.X, b.Y - a.Y}, Place{c.X - b.X, c.Y - b.Y}
		turn := math.Abs(math.Atan2(u.X*v.Y-u.Y*v.X, u.X*v.X+u.Y*v.Y))
		if turn > 0.75 {
			for j := -k / 2; j <= k/2; j++ {
				keep[((i+j)%n+n)%n] = 0.01
			}
		}
	}
	return keep
}

func whittaker(at []Place, weight, free []float64, stiffness float64) []Place {
	n := len(at)
	a := mat.NewSymDense(n, nil)
	x, y := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	for i := range at {
		a.SetSym(i, i, a.At(i, i)+weight[i])
		x.SetVec(i, weight[i]*at[i].X)
		y.SetVec(i, weight[i]*at[i].Y)
	}
	d := [4]float64{-1, 3, -3, 1}
	for i := range n {
		k := stiffness * math.Min(free[(i+1)%n], free[(i+2)%n])
		for p := range 4 {
			for q := range 4 {
				r, c := (i+p)%n, (i+q)%n
				if r <= c {
					a.SetSym(r, c, a.At(r, c)+k*d[p]*d[q])
				}
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(a) {
		return at
	}
	var sx, sy mat.VecDense
	if chol.SolveVecTo(&sx, x) != nil || chol.SolveVecTo(&sy, y) != nil {
		return at
	}
	out := make([]Place, n)
	for i := range out {
		out[i] = Place{sx.AtVec(i), sy.AtVec(i)}
	}
	return out
}
