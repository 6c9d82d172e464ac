package nesting

import (
	"context"
	"math"
)

// profile is a piece as the stack sees it: lower and upper edge over the grid,
// widened by half the gap, from the piece's lowest point and leftmost cell.
type profile struct {
	lower, upper []float64
	// origin is where the piece's own origin lies from the first cell and the
	// lowest point of the widened piece.
	origin Point
	height float64
}

// profileOf turns the outline by quarters and measures it.
func profileOf(outline []Point, quarters int, gapMM float64) profile {
	turned := Placement{QuarterTurns: quarters}.Apply(outline)
	low, high := bounds(turned)
	reach := gapMM / 2
	left := low.X - reach
	n := int(math.Ceil((high.X+reach-left)/cellMM + 1e-9))
	lower, upper := fill(n, math.Inf(1)), fill(n, math.Inf(-1))
	for i, a := range turned {
		edgeOver(lower, upper, left, a, turned[(i+1)%len(turned)])
	}
	// Widen by a disc, cell by cell; a neighbour's metal may lie at the near
	// side of its cell, so it counts as one cell nearer than it is.
	m := int(math.Ceil(reach/cellMM)) + 1
	p := profile{lower: fill(n, math.Inf(1)), upper: fill(n, math.Inf(-1))}
	for i := range n {
		for k := -m; k <= m; k++ {
			if i+k < 0 || i+k >= n || math.IsInf(lower[i+k], 0) {
				continue
			}
			away := max(0, math.Abs(float64(k))-1) * cellMM
			if away > reach {
				continue
			}
			rise := math.Sqrt(max(0, reach*reach-away*away))
			p.lower[i] = min(p.lower[i], lower[i+k]-rise)
			p.upper[i] = max(p.upper[i], upper[i+k]+rise)
		}
	}
	floor, top := math.Inf(1), math.Inf(-1)
	for i := range n {
		if math.IsInf(p.lower[i], 0) { // beyond the piece's tip
			p.lower[i], p.upper[i] = p.lower[max(i-1, 0)], p.upper[max(i-1, 0)]
		}
		floor, top = min(floor, p.lower[i]), max(top, p.upper[i])
	}
	for i := range n {
		p.lower[i] -= floor
		p.upper[i] -= floor
	}
	p.height = top - floor
	p.origin = Point{-left, -floor}
	return p
}

func fill(n int, v float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = v
	}
	return s
}

// edgeOver lowers and lifts the cells that the edge from a to b passes.
func edgeOver(lower, upper []float64, left float64, a, b Point) {
	if a.X > b.X {
		a, b = b, a
	}
	first := int(math.Floor((a.X - left) / cellMM))
	last := int(math.Floor((b.X - left) / cellMM))
	at := func(x float64) float64 {
		if b.X-a.X < 1e-12 {
			return a.Y
		}
		return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
	}
	for i := max(first, 0); i <= min(last, len(lower)-1); i++ {
		x0 := max(a.X, left+float64(i)*cellMM)
		x1 := min(b.X, left+float64(i+1)*cellMM)
		y0, y1 := at(x0), at(x1)
		if b.X-a.X < 1e-12 {
			y0, y1 = a.Y, b.Y
		}
		lower[i] = min(lower[i], y0, y1)
		upper[i] = max(upper[i], y0, y1)
	}
}

// stack is one sheet being filled.
type stack struct {
	top    []float64 // height of what lies there, by cell
	placed int
}

// pack fills the strip, sheet after sheet. A layout without placements means
// that a piece does not fit this way, or that it takes as much as the best so far
// before all pieces lie.
func (t trial) pack(ctx context.Context, pieces []Piece, profiles [][2]profile, order []int, gapMM float64, best Layout) (Layout, error) {
	// A margin of half a gap on every side, with the half that each piece is
	// widened by, keeps the gap to the sheet's edge.
	margin := gapMM / 2
	cells := int(math.Floor((t.width - 2*margin) / cellMM))
	room := t.length - 2*margin
	var stacks []*stack
	var l Layout
	right, high := 0.0, 0.0 // of the last sheet
	for n, piece := range order {
		if n%16 == 0 && ctx.Err() != nil {
			return Layout{}, ctx.Err()
		}
		both := profiles[piece][:]
		if t.alike {
			both = both[:1]
		}
		sheet, turn, cell, y, ok := t.rest(stacks, both, room, cells)
		if !ok {
			stacks = append(stacks, &stack{top: make([]float64, max(cells, 0))})
			right, high = 0, 0
			if _, turn, cell, y, ok = t.rest(stacks[len(stacks)-1:], both, room, cells); !ok {
				return Layout{}, nil
			}
			sheet = len(stacks) - 1
		}
		p := both[turn]
		s := stacks[sheet]
		for i, u := range p.upper {
			s.top[cell+i] = max(s.top[cell+i], y+u)
		}
		s.placed++
		if sheet == len(stacks)-1 {
			right = max(right, float64(cell+len(p.upper))*cellMM)
			high = max(high, y+p.height)
		}
		l.Placements = append(l.Placements, t.placement(piece, sheet, 2*turn, Point{
			X: margin + float64(cell)*cellMM + p.origin.X,
			Y: margin + y + p.origin.Y,
		}))
		l.PiecesMM2 += area(pieces[piece].Outline)
		l.Sheets = len(stacks)
		l.UsedWidthMM, l.UsedLengthMM = min(right+2*margin, t.width), min(high+2*margin, t.length)
		l.UsedMM2 = float64(l.Sheets-1)*t.sheet.WidthMM*t.sheet.LengthMM + l.UsedWidthMM*l.UsedLengthMM
		if best.Placements != nil && !l.better(best) {
			return Layout{}, nil // what is used only grows
		}
	}
	if t.turned {
		l.UsedWidthMM, l.UsedLengthMM = l.UsedLengthMM, l.UsedWidthMM
	}
	return l, nil
}

// placement brings a place of the strip to the sheet: a turned strip is the
// sheet seen from its side.
func (t trial) placement(piece, sheet, quarters int, at Point) Placement {
	if !t.turned {
		return Placement{Piece: piece, Sheet: sheet, QuarterTurns: quarters, X: at.X, Y: at.Y}
	}
	return Placement{Piece: piece, Sheet: sheet, QuarterTurns: (quarters + 1) % 4, X: t.sheet.WidthMM - at.Y, Y: at.X}
}

// rest finds where the piece wastes least: the room below it, and the height
// that it adds. The first sheet on which it fits is taken. Places are tried
// coarsely first, then cell by cell round the best.
func (t trial) rest(stacks []*stack, both []profile, room float64, cells int) (sheet, turn, cell int, y float64, ok bool) {
	const stride = 12
	for i, s := range stacks {
		best := math.Inf(1)
		try := func(k, c int) {
			p := &both[k]
			if c < 0 || c+len(p.lower) > cells {
				return
			}
			level := s.level(p, c, min(best, room)-p.height)
			if level+p.height > room || level+p.height >= best {
				return
			}
			if cost := level + p.height + t.waste*s.gap(p, c, level) + 1e-6*float64(c); cost < best-1e-9 {
				best, sheet, turn, cell, y, ok = cost, i, k, c, level, true
			}
		}
		for k := range both {
			for c := 0; c+len(both[k].lower) <= cells; c += stride {
				try(k, c)
			}
			try(k, cells-len(both[k].lower))
		}
		if !ok {
			continue
		}
		for near, k := cell, turn; ; {
			for c := near - stride + 1; c < near+stride; c++ {
				try(k, c)
			}
			if cell == near {
				break
			}
			near = cell
		}
		return sheet, turn, cell, y, true
	}
	return 0, 0, 0, 0, false
}

// level is how high the piece comes to lie at the cell; a value above limit
// means only that it is too high.
func (s *stack) level(p *profile, cell int, limit float64) float64 {
	level := 0.0
	top := s.top[cell : cell+len(p.lower)]
	for j, l := range p.lower {
		if d := top[j] - l; d > level {
			if level = d; level > limit {
				return level
			}
		}
	}
	return level
}

// gap is the mean height of the room that stays empty below the piece.
func (s *stack) gap(p *profile, cell int, level float64) float64 {
	sum, n := 0.0, 0
	for j := 0; j < len(p.lower); j += 8 {
		sum += level + p.lower[j] - s.top[cell+j]
		n++
	}
	return sum / float64(n)
}
