package tracing

import (
	"math"
	"slices"
)

// seen is what was found of the card: its ring's corners in the photograph, and
// the plane that they fit.
type seen struct {
	plane homography
	pairs []pair
	// share is how much of the ring was found.
	share float64
}

// signsAt is how well the ring's corners in a plane have the signs they
// should: the share of those inside the photograph, and their number.
func signsAt(p Photo, h homography, all []corner) (right, inside int) {
	for _, c := range all {
		if v, ok := checkContrast(p, h, c, 0.8); ok {
			inside++
			if v > 0.25 {
				right++
			}
		}
	}
	return right, inside
}

// checkContrast compares the four checks round a corner, dMM from it each way:
// 1 where they are black and white as they should be.
func checkContrast(p Photo, h homography, c corner, dMM float64) (float64, bool) {
	var v [4]float64
	for i, d := range [4]Place{{-dMM, -dMM}, {dMM, dMM}, {dMM, -dMM}, {-dMM, dMM}} {
		x, y := h.at(Place{c.at.X + d.X, c.at.Y + d.Y})
		if !p.holds(x, y, 2) {
			return 0, false
		}
		v[i] = p.level(x, y)
	}
	top := max(v[0], v[1], v[2], v[3])
	if top < 25 {
		return 0, true
	}
	// Both of a pair must differ from both of the other.
	low := math.Min(v[2], v[3]) - math.Max(v[0], v[1])
	if c.sign < 0 {
		low = math.Min(v[0], v[1]) - math.Max(v[2], v[3])
	}
	return low / top, true
}

// findCard looks for the card at several sizes of the picture.
func findCard(p Photo) (seen, bool) {
	all := corners()
	half := max(1, int(math.Round(float64(max(p.Width, p.Height))/1800)))
	var best seen
	for _, k := range slices.Compact([]int{half, max(1, half/2), half + 1}) {
		marks := findMarks(p, k)
		h, right := bestPlane(p, marks, all)
		if right < 10 {
			continue
		}
		if s, ok := grow(p, h, all); ok && s.share > best.share {
			best = s
		}
		if best.share > 0.6 {
			break
		}
	}
	return best, best.share > 0
}

// bestPlane tries the marks as corners of the card, in every order, and returns
// the plane in which most of the ring's corners have their signs.
func bestPlane(p Photo, marks []mark, all []corner) (homography, int) {
	var best homography
	most := 0
	try := func(h homography, ok bool) {
		if !ok || !h.front() {
			return
		}
		if right, inside := signsAt(p, h, all); right > most && 7*right > inside {
			best, most = h, right
		}
	}
	n := len(marks)
	if n < 3 {
		return best, 0
	}
	pairs := make([]pair, 4)
	var chosen [4]int
	var place func(k, skip int)
	place = func(k, skip int) {
		if k == 4 {
			if skip < 0 {
				try(fitHomography(pairs))
				return
			}
			three := append(append([]pair{}, pairs[:skip]...), pairs[skip+1:]...)
			try(affineThrough(three))
			return
		}
		if k == skip {
			chosen[k] = -1
			place(k+1, skip)
			return
		}
		for i, m := range marks {
			if slices.Contains(chosen[:k], i) || !fitsBeside(marks, chosen[:k], k, i) {
				continue
			}
			chosen[k] = i
			pairs[k] = pair{Marks[k], m.x, m.y}
			place(k+1, skip)
		}
	}
	place(0, -1)
	if most < len(all)/2 {
		for skip := range 4 {
			place(0, skip)
		}
	}
	return best, most
}

// fitsBeside reports whether a mark may be the card's corner k beside those
// already chosen: the distance between two marks in modules is known but for
// the tilt.
func fitsBeside(marks []mark, chosen []int, k, i int) bool {
	for c, j := range chosen {
		if j < 0 {
			continue
		}
		a, b := marks[i], marks[j]
		want := math.Hypot(Marks[k].X-Marks[c].X, Marks[k].Y-Marks[c].Y)
		got := math.Hypot(a.x-b.x, a.y-b.y) / math.Sqrt(a.module*b.module)
		if got < 0.6*want || got > 1.5*want || a.module > 1.8*b.module || b.module > 1.8*a.module {
			return false
		}
	}
	return true
}

// grow refines the ring's corners where they are seen, and fits the plane to
// them again, until no more are found: so a corner mark under a finger does
// little harm.
func grow(p Photo, h homography, all []corner) (seen, bool) {
	var s seen
	for round := range 5 {
		var pairs []pair
		for _, c := range all {
			if v, ok := checkContrast(p, h, c, 0.6); !ok || v < 0.2 {
				continue
			}
			if q, ok := refine(p, h, c); ok {
				pairs = append(pairs, q)
			}
		}
		pairs = withoutStrays(pairs)
		fit, ok := fitHomography(pairs)
		if !ok || !fit.front() {
			break
		}
		h = fit
		s = seen{h, pairs, float64(len(pairs)) / float64(len(all))}
		if round >= 2 && s.share > 0.9 {
			break
		}
	}
	return s, s.share > 0
}

// withoutStrays drops pairs that lie far from the plane that most agree on.
func withoutStrays(pairs []pair) []pair {
	for range 3 {
		h, ok := fitHomography(pairs)
		if !ok {
			return pairs
		}
		off := make([]float64, len(pairs))
		for i, q := range pairs {
			x, y := h.at(q.card)
			off[i] = math.Hypot(x-q.x, y-q.y)
		}
		limit := math.Max(4*median(off), 0.5)
		kept := pairs[:0:0]
		for i, q := range pairs {
			if off[i] <= limit {
				kept = append(kept, q)
			}
		}
		if len(kept) == len(pairs) || len(kept) < 8 {
			return pairs
		}
		pairs = kept
	}
	return pairs
}

// refine finds a corner below a pixel: the point through which the gradients of
// its surroundings pass at right angles (W. Foerstner and E. Guelch, "A fast
// operator for detection and precise location of distinct points", 1987; from
// memory).
func refine(p Photo, h homography, c corner) (pair, bool) {
	x0, y0 := h.at(c.at)
	x1, y1 := h.at(Place{c.at.X + 1, c.at.Y})
	x2, y2 := h.at(Place{c.at.X, c.at.Y + 1})
	scale := math.Sqrt(math.Abs((x1-x0)*(y2-y0) - (y1-y0)*(x2-x0)))
	r := int(math.Round(math.Max(3, math.Min(1.05*scale, 14))))
	x, y := x0, y0
	for range 6 {
		if !p.holds(x, y, float64(r)+3) {
			return pair{}, false
		}
		var a, b, d, e, f float64
		for dy := -r; dy <= r; dy++ {
			for dx := -r; dx <= r; dx++ {
				w := math.Exp(-2 * float64(dx*dx+dy*dy) / float64(r*r))
				u, v := x+float64(dx), y+float64(dy)
				gx := (p.level(u+1, v) - p.level(u-1, v)) / 2
				gy := (p.level(u, v+1) - p.level(u, v-1)) / 2
				a += w * gx * gx
				b += w * gx * gy
				d += w * gy * gy
				e += w * (gx*gx*float64(dx) + gx*gy*float64(dy))
				f += w * (gx*gy*float64(dx) + gy*gy*float64(dy))
			}
		}
		det := a*d - b*b
		if det < 1e-3*(a+d)*(a+d) {
			return pair{}, false
		}
		mx, my := (d*e-b*f)/det, (a*f-b*e)/det
		x, y = x+mx, y+my
		if math.Hypot(x-x0, y-y0) > 0.9*scale {
			return pair{}, false
		}
		if math.Hypot(mx, my) < 0.01 {
			break
		}
	}
	return pair{c.at, x, y}, true
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	s := slices.Sorted(slices.Values(v))
	return s[len(s)/2]
}
