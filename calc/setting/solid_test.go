package setting

import (
	"math"
	"slices"

	"guildhand/calc/outline"
	"guildhand/calc/seat"
)

// The finished piece as a mesh of its own. The blank's rim and base are polygons
// of short chords; the sheet between them is made of flat facets, an edge of one
// polygon joined to the point of the other where it touches a line of the same
// direction. Every facet is given its thickness square to itself. Level planes cut
// the mesh into polygons, and the stone lies beside it as a stack of polygons.
// Nothing of calc/seat is used but the stone's proportions, and no closed form of
// a taper: what a polygon says is the answer.

// facet is a flat piece of the inner face between two rulings.
type facet struct {
	a, b   line // its two rulings
	normal float64
	tan    float64 // of its lean
}

// line is a ruling of the inner face: its point at z = 0 and how that moves per mm
// of height.
type line struct{ at, up outline.Point }

func (l line) level(z float64) outline.Point {
	return outline.Point{X: l.at.X + z*l.up.X, Y: l.at.Y + z*l.up.Y}
}

type mesh struct {
	facets []facet
	thick  float64
	// sharp reports whether the ridge before a facet keeps its outer edge.
	sharp func(from, to float64) bool
}

// chord is an edge of a polygon with its outward normal, unwrapped along the way.
type chord struct {
	a, b   outline.Point
	normal float64
}

// chain runs round a polygon from its reflex corner, if it has one, so that the
// normals never turn back.
func chain(p []outline.Point) []chord {
	n := len(p)
	list := make([]chord, 0, n)
	for i := range p {
		a, b := p[i], p[(i+1)%n]
		if math.Hypot(b.X-a.X, b.Y-a.Y) < 1e-10 {
			continue
		}
		list = append(list, chord{a, b, math.Atan2(a.X-b.X, b.Y-a.Y)})
	}
	start := 0
	for i := range list {
		before := list[(i+len(list)-1)%len(list)]
		if math.Remainder(list[i].normal-before.normal, 2*math.Pi) < -1e-6 {
			start = i
		}
	}
	list = append(list[start:], list[:start]...)
	for i := 1; i < len(list); i++ {
		list[i].normal = list[i-1].normal + math.Remainder(list[i].normal-list[i-1].normal, 2*math.Pi)
	}
	return list
}

// meshOf joins the two polygons, which lie at rimZ and baseZ.
func meshOf(rim, base []outline.Point, rimZ, baseZ, thick float64) mesh {
	r, b := chain(rim), chain(base)
	if first := math.Remainder(b[0].normal-r[0].normal, 2*math.Pi); !reflexAt(r) {
		// Convex ones may start anywhere: turn the base's chain to begin after the
		// rim's, within a turn.
		if first < 0 {
			first += 2 * math.Pi
		}
		shift := r[0].normal + first - b[0].normal
		for i := range b {
			b[i].normal += shift
		}
		k := len(b)
		for k > 0 && b[k-1].normal-2*math.Pi >= r[0].normal {
			k--
		}
		moved := slices.Clone(b[k:])
		for i := range moved {
			moved[i].normal -= 2 * math.Pi
		}
		b = append(moved, b[:k]...)
	} else {
		shift := first - (b[0].normal - r[0].normal)
		for i := range b {
			b[i].normal += shift
		}
	}
	m := mesh{thick: thick}
	h := rimZ - baseZ
	ruling := func(x, y outline.Point) line {
		up := outline.Point{X: (x.X - y.X) / h, Y: (x.Y - y.Y) / h}
		return line{outline.Point{X: x.X - rimZ*up.X, Y: x.Y - rimZ*up.Y}, up}
	}
	x, y := r[0].a, b[0].a
	for i, j := 0, 0; i < len(r) || j < len(b); {
		var phi float64
		from := ruling(x, y)
		switch {
		case j == len(b) || i < len(r) && r[i].normal < b[j].normal-1e-9:
			phi, x = r[i].normal, r[i].b
			i++
		case i == len(r) || b[j].normal < r[i].normal-1e-9:
			phi, y = b[j].normal, b[j].b
			j++
		default:
			phi, x, y = r[i].normal, r[i].b, b[j].b
			i, j = i+1, j+1
		}
		to := ruling(x, y)
		sin, cos := math.Sincos(phi)
		m.facets = append(m.facets, facet{from, to, phi, from.up.X*cos + from.up.Y*sin})
	}
	return m
}

func reflexAt(c []chord) bool { return c[len(c)-1].normal-c[0].normal > 2*math.Pi+1e-6 }

// inner is the cut through the inner face at z.
func (m mesh) inner(z float64) plan {
	p := make(plan, 0, len(m.facets))
	for _, f := range m.facets {
		p = p.with(f.a.level(z))
	}
	return p
}

func (p plan) with(q outline.Point) plan {
	if n := len(p); n > 0 && (math.Hypot(q.X-p[n-1].X, q.Y-p[n-1].Y) < 1e-9 || math.Hypot(q.X-p[0].X, q.Y-p[0].Y) < 1e-9) {
		return p
	}
	return append(p, q)
}

// outer is the cut through the outer face at z. Between two facets a sharp ridge
// runs on to where their outer faces meet; a bent one is a round bar about the
// inner ridge, of which the level cut is an ellipse.
func (m mesh) outer(z float64) plan {
	p := make(plan, 0, len(m.facets))
	cleft := false
	for i, f := range m.facets {
		before := m.facets[(i+len(m.facets)-1)%len(m.facets)]
		at := f.a.level(z)
		from, to := before.normal, before.normal+math.Remainder(f.normal-before.normal, 2*math.Pi)
		if to < from-1e-6 {
			cleft = true // outer faces cross there
			continue
		}
		if to <= from || m.sharp(from, to) {
			p = p.with(crossing(at, before, f, m.thick))
			continue
		}
		n := max(1, int((to-from)/0.002))
		for k := range n + 1 {
			phi := from + (to-from)*float64(k)/float64(n)
			sin, cos := math.Sincos(phi)
			lean := f.a.up.X*cos + f.a.up.Y*sin
			q := m.thick / math.Hypot(1, lean)
			p = p.with(outline.Point{X: at.X + q*(cos+lean*f.a.up.X), Y: at.Y + q*(sin+lean*f.a.up.Y)})
		}
	}
	if !cleft {
		return p
	}
	// What has crossed over in a cleft lies nearer to the inner face than the sheet
	// is thick.
	in := m.inner(z)
	return slices.DeleteFunc(p, func(q outline.Point) bool { return -in.depth(q) < m.thick*0.999 })
}

// crossing is where the outer faces of two facets that share a ruling meet.
func crossing(at outline.Point, f, g facet, thick float64) outline.Point {
	sf, cf := math.Sincos(f.normal)
	sg, cg := math.Sincos(g.normal)
	p, q := thick*math.Hypot(1, f.tan), thick*math.Hypot(1, g.tan)
	det := cf*sg - sf*cg
	if math.Abs(det) < 1e-9 {
		return outline.Point{X: at.X + p*cf, Y: at.Y + p*sf}
	}
	return outline.Point{X: at.X + (p*sg-q*sf)/det, Y: at.Y + (q*cf-p*cg)/det}
}

// chords are a section's, with a very short one at both ends of each curved piece
// so that a corner opens at the curve's own angle.
func chords(c outline.Curve) []outline.Point {
	const tol, short = 4e-4, 1e-4
	var out []outline.Point
	for _, p := range c.Pieces {
		out = append(out, p.A)
		if p.Kind == outline.Straight || p.To-p.From < 4*short {
			continue
		}
		out = append(out, p.At(p.From+short))
		n := 12 + int((p.To-p.From)/math.Sqrt(8*tol/max(1, p.RadiusAt(p.From), p.RadiusAt(p.To), p.RadiusAt((p.From+p.To)/2))))
		for i := 1; i < n; i++ {
			out = append(out, p.At(p.From+(p.To-p.From)*float64(i)/float64(n)))
		}
		out = append(out, p.At(p.To-short))
	}
	return out
}

// fold makes the mesh of a collet from what its Spec says.
func fold(c Collet) mesh {
	var rim, base outline.Curve
	rimZ, baseZ := c.RimMM+c.LossMM, c.RimMM-c.HeightMM
	switch c.Taper {
	case Even:
		tan := math.Tan(float64(c.Lean))
		face := c.ClearanceMM
		if c.LedgeMM > 0 {
			face = -c.LedgeMM
		}
		rim, _ = c.Stone.Offset(face + rimZ*tan)
		base, _ = c.Stone.Offset(face + baseZ*tan)
	default: // straight rulings from rim to base, as filed
		rim, base, rimZ = c.RimInner, c.BaseInner, c.RimMM
	}
	m := meshOf(chords(rim), chords(base), rimZ, baseZ, c.ThicknessMM)
	seam := math.NaN()
	for i, p := range c.Stone.Pieces {
		if c.Seam.AtCorner && p.Tag == c.Seam.Tag {
			seam = p.From - c.Stone.Turning(i).Radians()/2
		}
	}
	m.sharp = func(from, to float64) bool {
		if to-from < 0.05 || c.Corners != 0 {
			return true // a chord's joint, or scored
		}
		d := math.Remainder(seam-from, 2*math.Pi)
		return d > 0 && d < to-from
	}
	return m
}

// plan is a polygon, seen from above.
type plan []outline.Point

// depth is how far inside the polygon a point lies; negative is outside.
func (p plan) depth(at outline.Point) float64 {
	best, inside := math.Inf(1), false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		ux, uy := b.X-a.X, b.Y-a.Y
		s := ((at.X-a.X)*ux + (at.Y-a.Y)*uy) / (ux*ux + uy*uy)
		s = max(0, min(1, s))
		best = min(best, math.Hypot(at.X-a.X-s*ux, at.Y-a.Y-s*uy))
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/uy*ux {
			inside = !inside
		}
	}
	if inside {
		return best
	}
	return -best
}

// deepest is the greatest depth inside the polygon, by a grid made finer three
// times.
func deepest(p plan) float64 {
	low, high := p.box()
	best := 0.0
	for range 6 {
		var at outline.Point
		dx, dy := (high.X-low.X)/16, (high.Y-low.Y)/16
		for i := range 17 {
			for j := range 17 {
				q := outline.Point{X: low.X + dx*float64(i), Y: low.Y + dy*float64(j)}
				if d := p.depth(q); d >= best {
					best, at = d, q
				}
			}
		}
		low, high = outline.Point{X: at.X - 2*dx, Y: at.Y - 2*dy}, outline.Point{X: at.X + 2*dx, Y: at.Y + 2*dy}
	}
	return best
}

func (p plan) box() (low, high outline.Point) {
	low, high = outline.Point{X: math.Inf(1), Y: math.Inf(1)}, outline.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, q := range p {
		low = outline.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = outline.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	return low, high
}

func (p plan) extent() outline.Size {
	low, high := p.box()
	return outline.Size{LengthMM: high.Y - low.Y, WidthMM: high.X - low.X}
}

// split puts points along the polygon's long edges.
func (p plan) split(mm float64) plan {
	var out plan
	for i, a := range p {
		b := p[(i+1)%len(p)]
		n := int(math.Hypot(b.X-a.X, b.Y-a.Y)/mm) + 1
		for k := range n {
			u := float64(k) / float64(n)
			out = append(out, outline.Point{X: a.X + u*(b.X-a.X), Y: a.Y + u*(b.Y-a.Y)})
		}
	}
	return out
}

// pavilionAt is the pavilion's section at the depth s below the girdle: that of a
// brilliant shrinks about the culet, that of a step cut draws in alike all round.
func pavilionAt(st seat.Stone, p plan, s, keelMM float64) plan {
	if st.Keel {
		in, err := st.Outline.Offset(-s / st.PavilionMM * keelMM)
		if err != nil {
			return nil
		}
		return plan(in.Polyline(2e-3)).split(0.3)
	}
	out := make(plan, len(p))
	for i, q := range p {
		k := 1 - s/st.PavilionMM
		out[i] = outline.Point{X: st.Culet.X + k*(q.X-st.Culet.X), Y: st.Culet.Y + k*(q.Y-st.Culet.Y)}
	}
	return out
}

func (c Collet) besideCleft(q outline.Point, mm float64) bool {
	for i, p := range c.Stone.Pieces {
		if c.Stone.Turning(i) < 0 && math.Hypot(q.X-p.A.X, q.Y-p.A.Y) < mm {
			return true
		}
	}
	return false
}

// seen is what the solid says of a collet.
type seen struct {
	// leastLedge is the least that the wall stands under the stone's edge where it
	// rests, negative where it stands off.
	leastLedge float64
	// touches is the deepest that metal stands in the stone below its bearing.
	touches float64
	// behind is the least wall left behind the bearing.
	behind float64
	// underBase is how far the culet stands below the base.
	underBase                       float64
	rimOutside, baseOutside, inside outline.Size
}

func look(c Collet) seen {
	m := fold(c)
	p := plan(c.Stone.Polyline(2e-3)).split(0.3)
	rest := c.Seat.RestMM
	s := seen{leastLedge: math.Inf(1), behind: math.Inf(1)}
	at := m.inner(rest)
	for _, q := range p {
		if !c.besideCleft(q, 0.5) { // where the nearest metal is the ridge itself
			s.leastLedge = min(s.leastLedge, -at.depth(q))
		}
	}
	side, err := c.Stone.Offset(c.ClearanceMM)
	if err == nil && c.LedgeMM > 0 {
		// The wall left is what lies between the outer face and whatever is
		// farther out, the bearing's side or the inner face.
		outer, seat := m.outer(0), plan(side.Polyline(2e-3)).split(0.3)
		for _, q := range seat {
			if at.depth(q) <= 0 && !c.besideCleft(q, 1.2) {
				s.behind = min(s.behind, outer.depth(q))
			}
		}
		for _, q := range at {
			if seat.depth(q) <= 0 && !c.besideCleft(q, 1.2) {
				s.behind = min(s.behind, outer.depth(q))
			}
		}
	}
	const levels = 10
	below := c.HeightMM - c.RimMM
	keel := 0.0
	if c.Solid.Keel {
		keel = deepest(p)
	}
	for i := range levels + 1 {
		// From the floor's end to the base; a stone that slipped has no floor.
		depth := c.Seat.FloorMM + (min(below+rest, c.Solid.PavilionMM*0.97)-c.Seat.FloorMM)*float64(i)/levels
		if depth < c.Seat.FloorMM {
			break
		}
		in := m.inner(rest - depth)
		for _, q := range pavilionAt(c.Solid, p, depth, keel) {
			s.touches = max(s.touches, -in.depth(q))
		}
	}
	s.underBase = c.Solid.PavilionMM - rest - below
	s.rimOutside, s.baseOutside = m.outer(c.RimMM).extent(), m.outer(c.RimMM-c.HeightMM).extent()
	s.inside = m.inner(c.RimMM - c.HeightMM).extent()
	return s
}
