package tracing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// sheet is a zone seen from straight above, as the share of light that bare
// paper sends back there, in red, green and blue. Its pixels are stepMM wide.
type sheet struct {
	zone   Zone
	rect   Rect
	stepMM float64
	w, h   int
	pix    [][3]float64
	// noise is how the zone's bare surface scatters, once it is flattened.
	noise float64
}

func (s *sheet) place(i, j int) Place {
	return Place{s.rect.Left + (float64(i)+0.5)*s.stepMM, s.rect.Top + (float64(j)+0.5)*s.stepMM}
}

func (s *sheet) pixel(p Place) (x, y float64) {
	return (p.X-s.rect.Left)/s.stepMM - 0.5, (p.Y-s.rect.Top)/s.stepMM - 0.5
}

// edgeMM is how far a pixel lies from the zone's edge.
func (s *sheet) edgeMM(i int) float64 {
	x, y := i%s.w, i/s.w
	return (float64(min(x, y, s.w-1-x, s.h-1-y)) + 0.5) * s.stepMM
}

// surface is a quadratic of the place on the card.
type surface [6]float64

func terms(p Place) [6]float64 {
	x, y := p.X/40, p.Y/40
	return [6]float64{1, x, y, x * x, x * y, y * y}
}

func (s surface) at(p Place) float64 {
	sum := 0.0
	for i, t := range terms(p) {
		sum += s[i] * t
	}
	return sum
}

// fitSurface is the least-squares surface through values at places; with robust
// set, values far below are left out: a finger or a shadow. ridge keeps it flat
// where the places don't say.
func fitSurface(at []Place, value []float64, robust bool) (surface, bool) {
	weight := make([]float64, len(at))
	for i := range weight {
		weight[i] = 1
	}
	var out surface
	for round := range 4 {
		normal, right := mat.NewSymDense(6, nil), mat.NewVecDense(6, nil)
		for i, p := range at {
			if weight[i] == 0 {
				continue
			}
			t := terms(p)
			for a := range 6 {
				right.SetVec(a, right.AtVec(a)+weight[i]*t[a]*value[i])
				for b := a; b < 6; b++ {
					normal.SetSym(a, b, normal.At(a, b)+weight[i]*t[a]*t[b])
				}
			}
		}
		for a := range 6 {
			normal.SetSym(a, a, normal.At(a, a)*(1+1e-6)+1e-9)
		}
		var chol mat.Cholesky
		var x mat.VecDense
		if !chol.Factorize(normal) || chol.SolveVecTo(&x, right) != nil {
			return out, false
		}
		for a := range 6 {
			out[a] = x.AtVec(a)
		}
		if !robust || round == 3 {
			break
		}
		off := make([]float64, len(at))
		for i, p := range at {
			off[i] = math.Abs(value[i] - out.at(p))
		}
		limit := 2.5 * math.Max(median(off), 0.004)
		kept := 0
		for i := range at {
			weight[i] = 0
			if off[i] <= limit {
				weight[i] = 1
				kept++
			}
		}
		if kept < 12 {
			return out, false
		}
	}
	return out, true
}

// lighting is the light on bare paper all over the card, by colour.
type lighting [3]surface

// lightOf fits the light to the white checks of the ring.
func lightOf(p Photo, cam *camera) (light lighting, white float64, ok bool) {
	var at []Place
	var values [3][]float64
	var levels []float64
	for _, place := range whites() {
		x, y := cam.at(place, 0)
		if !p.holds(x, y, 3) {
			continue
		}
		sum, n := [3]float64{}, 0
		for _, d := range [5]Place{{0, 0}, {-0.4, 0}, {0.4, 0}, {0, -0.4}, {0, 0.4}} {
			x, y := cam.at(Place{place.X + d.X, place.Y + d.Y}, 0)
			v := p.light(x, y)
			for k := range sum {
				sum[k] += v[k]
			}
			n++
		}
		at = append(at, place)
		for k := range sum {
			values[k] = append(values[k], sum[k]/float64(n))
		}
		levels = append(levels, (sum[0]+sum[1]+sum[2])/float64(3*n))
	}
	if len(at) < 16 {
		return light, 0, false
	}
	for k := range light {
		if light[k], ok = fitSurface(at, values[k], true); !ok {
			return light, 0, false
		}
	}
	return light, median(levels), true
}

// rectified is a zone seen from above.
func rectified(p Photo, cam *camera, light lighting, zone Zone, stepMM float64) *sheet {
	r := Zones[zone]
	s := &sheet{zone: zone, rect: r, stepMM: stepMM, w: int((r.Right - r.Left) / stepMM), h: int((r.Bottom - r.Top) / stepMM)}
	s.pix = make([][3]float64, s.w*s.h)
	for j := range s.h {
		for i := range s.w {
			place := s.place(i, j)
			x, y := cam.at(place, 0)
			v := p.light(x, y)
			for k := range v {
				v[k] /= math.Max(light[k].at(place), 0.02)
			}
			s.pix[j*s.w+i] = v
		}
	}
	return s
}

// flatten divides the white zone by its own paper, or takes the black zone's own
// shine away, fitted to what is not covered by the stone. What is returned is
// how the zone's bare surface scatters.
func (s *sheet) flatten(covered []bool) (noise float64) {
	var at []Place
	var values [3][]float64
	margin := int(0.8 / s.stepMM)
	for j := margin; j < s.h-margin; j += 5 {
		for i := margin; i < s.w-margin; i += 5 {
			if covered != nil && covered[j*s.w+i] {
				continue
			}
			// Only the border, before it is known where the stone is.
			edge := min(i, j, s.w-1-i, s.h-1-j)
			if covered == nil && float64(edge)*s.stepMM > 2.5 {
				continue
			}
			at = append(at, s.place(i, j))
			for k, v := range s.pix[j*s.w+i] {
				values[k] = append(values[k], v)
			}
		}
	}
	if len(at) < 60 {
		return math.Inf(1)
	}
	var fits [3]surface
	for k := range fits {
		fit, ok := fitSurface(at, values[k], true)
		if !ok {
			return math.Inf(1)
		}
		fits[k] = fit
	}
	for j := range s.h {
		for i := range s.w {
			v := &s.pix[j*s.w+i]
			for k := range v {
				bare := fits[k].at(s.place(i, j))
				if s.zone == White {
					v[k] /= math.Max(bare, 0.05)
				} else {
					v[k] -= bare
				}
			}
		}
	}
	off := make([]float64, 0, len(at))
	for n, p := range at {
		off = append(off, math.Abs(values[1][n]-fits[1].at(p)))
	}
	s.noise = 1.48 * median(off)
	return s.noise
}

// region is a connected part of a sheet.
type region struct {
	mask   []bool
	pixels int
	// touches is set where it reaches the zone's edge.
	touches bool
}

// largest is the largest connected region of what is set.
func (s *sheet) largest(set []bool) region {
	label := make([]int32, len(set))
	var queue []int32
	best, bestSize, n := int32(0), 0, int32(0)
	for start := range set {
		if !set[start] || label[start] != 0 {
			continue
		}
		n++
		label[start] = n
		queue = append(queue[:0], int32(start))
		for k := 0; k < len(queue); k++ {
			q := int(queue[k])
			x, y := q%s.w, q/s.w
			for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				nx, ny := x+d[0], y+d[1]
				if nx < 0 || ny < 0 || nx >= s.w || ny >= s.h {
					continue
				}
				if i := ny*s.w + nx; set[i] && label[i] == 0 {
					label[i] = n
					queue = append(queue, int32(i))
				}
			}
		}
		if len(queue) > bestSize {
			best, bestSize = n, len(queue)
		}
	}
	r := region{mask: make([]bool, len(set)), pixels: bestSize}
	for i := range set {
		if best > 0 && label[i] == best {
			r.mask[i] = true
			r.touches = r.touches || s.edgeMM(i) < 0.85
		}
	}
	return r
}

// filled adds what a region encloses: highlights, dark veins.
func (s *sheet) filled(r region) region {
	outside := make([]bool, len(r.mask))
	var queue []int
	add := func(x, y int) {
		if x < 0 || y < 0 || x >= s.w || y >= s.h {
			return
		}
		if i := y*s.w + x; !outside[i] && !r.mask[i] {
			outside[i] = true
			queue = append(queue, i)
		}
	}
	for x := range s.w {
		add(x, 0)
		add(x, s.h-1)
	}
	for y := range s.h {
		add(0, y)
		add(s.w-1, y)
	}
	for k := 0; k < len(queue); k++ {
		x, y := queue[k]%s.w, queue[k]/s.w
		add(x+1, y)
		add(x-1, y)
		add(x, y+1)
		add(x, y-1)
	}
	out := region{mask: make([]bool, len(r.mask)), touches: r.touches}
	for i := range out.mask {
		if !outside[i] {
			out.mask[i] = true
			out.pixels++
		}
	}
	return out
}

// closed fills what cuts into a region and is narrower than 3 mm: a dark vein
// that reaches the stone's edge.
func (s *sheet) closed(r region) region {
	d := int(1.5/s.stepMM + 0.5)
	out := s.filled(region{mask: s.grown(s.grown(r.mask, d), -d), touches: r.touches})
	for i, in := range r.mask {
		out.mask[i] = out.mask[i] || in
	}
	return out
}

// grown widens a mask by about d pixels, narrows it where d is negative.
func (s *sheet) grown(mask []bool, d int) []bool {
	want := d > 0
	out := append([]bool(nil), mask...)
	for range max(d, -d) {
		next := append([]bool(nil), out...)
		for y := 1; y < s.h-1; y++ {
			for x := 1; x < s.w-1; x++ {
				i := y*s.w + x
				if out[i] != want && (out[i-1] == want || out[i+1] == want || out[i-s.w] == want || out[i+s.w] == want) {
					next[i] = want
				}
			}
		}
		out = next
	}
	return out
}
