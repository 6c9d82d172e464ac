package tracing

import (
	"cmp"
	"math"
	"slices"
)

// mark is a corner mark as found: its centre and the size of a module, in
// pixels of the photograph.
type mark struct {
	x, y, module float64
	hits         int
}

// darker tells for each pixel of a shrunk picture whether it is clearly darker
// than the mean of its surroundings.
func darker(w, h int, grey []uint8) []bool {
	sums := make([]uint32, (w+1)*(h+1))
	for y := range h {
		row := uint32(0)
		for x := range w {
			row += uint32(grey[y*w+x])
			sums[(y+1)*(w+1)+x+1] = sums[y*(w+1)+x+1] + row
		}
	}
	dark := make([]bool, w*h)
	r := max(w, h) / 24
	for y := range h {
		top, bottom := max(0, y-r), min(h, y+r+1)
		for x := range w {
			left, right := max(0, x-r), min(w, x+r+1)
			sum := sums[bottom*(w+1)+right] - sums[top*(w+1)+right] - sums[bottom*(w+1)+left] + sums[top*(w+1)+left]
			mean := sum / uint32((bottom-top)*(right-left))
			dark[y*w+x] = uint32(grey[y*w+x])*10 < mean*9
		}
	}
	return dark
}

// markRuns reports whether five runs, dark first, are as 1:1:3:1:1.
func markRuns(r [5]int) (module float64, ok bool) {
	total := r[0] + r[1] + r[2] + r[3] + r[4]
	if total < 12 {
		return 0, false
	}
	m := float64(total) / 7
	for i, want := range [5]float64{1, 1, 3, 1, 1} {
		if math.Abs(float64(r[i])-want*m) > math.Max(0.6*m*math.Sqrt(want), 1) {
			return 0, false
		}
	}
	return m, true
}

// across measures the five runs through (x, y), dark there, along a direction.
func across(dark []bool, w, h, x, y, dx, dy int) (runs [5]int, middle float64, ok bool) {
	at := func(k int) (bool, bool) {
		px, py := x+k*dx, y+k*dy
		if px < 0 || py < 0 || px >= w || py >= h {
			return false, false
		}
		return dark[py*w+px], true
	}
	limit := max(w, h) / 6
	ends := [2]int{}
	for side, step := range [2]int{-1, 1} {
		k, want := step, true
		for n := 0; n < 3; n++ {
			for {
				v, in := at(k)
				if !in && n < 2 || k > limit || k < -limit {
					return runs, 0, false
				}
				if !in || v != want {
					break
				}
				runs[2+step*n]++
				k += step
			}
			if n == 0 {
				ends[side] = k
			}
			want = !want
		}
	}
	runs[2]++
	return runs, float64(ends[0]+ends[1]) / 2, true
}

// findMarks looks for corner marks in the picture shrunk by k.
func findMarks(p Photo, k int) []mark {
	w, h, grey := p.shrunk(k)
	if w < 40 || h < 40 {
		return nil
	}
	dark := darker(w, h, grey)
	var found []mark
	for y := 1; y < h-1; y++ {
		row := dark[y*w : (y+1)*w]
		var starts [6]int
		n, last := 0, false
		for x := 0; x <= w; x++ {
			v := x < w && row[x]
			if v == last {
				continue
			}
			last = v
			copy(starts[:], starts[1:])
			starts[5] = x
			n++
			if v || n < 6 {
				continue
			}
			var runs [5]int
			for i := range runs {
				runs[i] = starts[i+1] - starts[i]
			}
			if _, ok := markRuns(runs); ok {
				found = addMark(found, dark, w, h, (starts[2]+starts[3])/2, y)
			}
		}
	}
	for i := range found {
		m := &found[i]
		m.x, m.y, m.module = (m.x+0.5)*float64(k)-0.5, (m.y+0.5)*float64(k)-0.5, m.module*float64(k)
	}
	found = slices.DeleteFunc(found, func(m mark) bool { return m.hits < 2 })
	slices.SortFunc(found, func(a, b mark) int { return cmp.Compare(b.hits, a.hits) })
	return found[:min(len(found), 9)]
}

// addMark confirms a mark by its column and row, and adds it to those found or
// to the one that it repeats.
func addMark(found []mark, dark []bool, w, h, x, y int) []mark {
	down, middle, ok := across(dark, w, h, x, y, 0, 1)
	if !ok {
		return found
	}
	tall, ok := markRuns(down)
	if !ok {
		return found
	}
	cy := y + int(math.Round(middle))
	if cy < 0 || cy >= h || !dark[cy*w+x] {
		return found
	}
	side, middle, ok := across(dark, w, h, x, cy, 1, 0)
	if !ok {
		return found
	}
	wide, ok := markRuns(side)
	if !ok || wide > 1.8*tall || tall > 1.8*wide {
		return found
	}
	n := mark{float64(x) + middle, float64(cy), math.Sqrt(wide * tall), 1}
	for i := range found {
		m := &found[i]
		if math.Hypot(m.x-n.x, m.y-n.y) < 3*m.module {
			k := float64(m.hits)
			m.x, m.y, m.module = (m.x*k+n.x)/(k+1), (m.y*k+n.y)/(k+1), (m.module*k+n.module)/(k+1)
			m.hits++
			return found
		}
	}
	return append(found, n)
}
