package scene

import (
	"math"
	"slices"
)

// Hatch is lines of 45 degrees, spacing apart, inside the closed strokes of a
// path of straight lines, by the even-odd rule: the cut face of a section (ISO
// 128-3).
func (p Path) Hatch(spacing float64) Path {
	r, ok := p.Bounds()
	if !ok || spacing <= 0 {
		return nil
	}
	// v is constant along a line and u runs along it
	uv := func(q Point) (u, v float64) { return (q.X + q.Y) / math.Sqrt2, (q.Y - q.X) / math.Sqrt2 }
	xy := func(u, v float64) Point { return Point{(u - v) / math.Sqrt2, (u + v) / math.Sqrt2} }
	low, high := (r.Y0-r.X1)/math.Sqrt2, (r.Y1-r.X0)/math.Sqrt2
	const most = 2000
	if (high-low)/spacing > most {
		spacing = (high - low) / most
	}
	var out Path
	for v := low + spacing/2; v < high; v += spacing {
		var at []float64
		p.EachLine(func(a, b Point) {
			ua, va := uv(a)
			ub, vb := uv(b)
			if (va < v) != (vb < v) {
				at = append(at, ua+(ub-ua)*(v-va)/(vb-va))
			}
		})
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			out = append(out, Polyline(xy(at[i], v), xy(at[i+1], v))...)
		}
	}
	return out
}
