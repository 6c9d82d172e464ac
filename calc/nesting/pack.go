package nesting

import (
	"context"
	"math"
)

// profile is a piece as the stack sees it: lower and upper edge over the grid,
// widened by half the gap, from the piece's lowest point and leftmost cell.
type profile struct {
	lower, upper []float64
	// sampled is every sampleStride-th cell of lower.
	sampled []float64
	// origin is where the piece's own origin lies from the first cell and the
	// lowest point of the widened piece.
	origin Point
	height float64
	// areaMM2 is what the widened piece takes up.
	areaMM2 float64
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
		p.areaMM2 += (p.upper[i] - p.lower[i]) * cellMM
	}
	for i := 0; i < n; i += sampleStride {
		p.sampled = append(p.sampled, p.lower[i])
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
	top []float64 // height of what lies there, by cell
	// lostMM2 is the area below top: pieces, and room that no later piece reaches.
	lostMM2 float64
	// seen is what is known of the places tried, by piece and turn: most of
	// them are the same for the next piece.
	seen map[*profile][]spot
}

// spot is what is known of a profile at a place: the least level at which it
// can come to lie there, and the least mean height of the room that then stays
// empty below it.
type spot struct {
	level, empty float64
	known        knowledge
}

// knowledge is how well a spot is known.
type knowledge int

const (
	// bounded: the level and the room are at least so much.
	bounded knowledge = iota
	// sampled: the same, and a new sample would find no more.
	sampled
	// exact: the level and the room are so much.
	exact
)

// spots are those of a profile, one for each place of the coarse search.
func (s *stack) spots(p *profile) []spot {
	if s.seen == nil {
		s.seen = map[*profile][]spot{}
	}
	if s.seen[p] == nil {
		s.seen[p] = make([]spot, max(0, len(s.top)-len(p.lower))/coarse+2)
	}
	return s.seen[p]
}

// put lays the profile on the stack. Spots near it keep their level as a bound,
// since what lies there only grows.
func (s *stack) put(p *profile, cell int, y float64) {
	for i, u := range p.upper {
		if u += y; u > s.top[cell+i] {
			s.lostMM2 += (u - s.top[cell+i]) * cellMM
			s.top[cell+i] = u
		}
	}
	for q, spots := range s.seen {
		for i := max(0, cell-len(q.lower)) / coarse; i < len(spots); i++ {
			if placeOf(i, q, len(s.top)) >= cell+len(p.upper) {
				break
			}
			spots[i] = spot{level: spots[i].level}
		}
	}
}

// coarse is how many cells lie between two places of the coarse search.
const coarse = 12

// placeOf is the cell of the coarse search's place i; the last is against the
// right edge.
func placeOf(i int, p *profile, cells int) int { return min(i*coarse, cells-len(p.lower)) }

// packing is a trial under way.
type packing struct {
	trial
	// marginMM is kept on every side: with the half of the gap that each piece is
	// widened by, it keeps the gap to the sheet's edge.
	marginMM, roomMM float64
	cells            int
	stacks           []*stack
	layout           Layout
	// rightMM and highMM are how far the last sheet is used.
	rightMM, highMM float64
	// toComeMM2 is the area of the pieces that do not lie yet.
	toComeMM2 float64
}

// pack fills the strip, sheet after sheet. A layout without placements means
// that a piece does not fit this way, or that the pieces take at least as much
// as the best so far. high is how far up the strip pieces lay then; infinite
// where a longer strip may have held more.
func (t trial) pack(ctx context.Context, pieces []Piece, profiles [][2]profile, order []int, gapMM float64, best Layout) (l Layout, high float64, err error) {
	margin := gapMM / 2
	k := packing{trial: t, marginMM: margin, roomMM: t.length - 2*margin, cells: max(0, int(math.Floor((t.width-2*margin)/cellMM)))}
	for _, piece := range order {
		k.toComeMM2 += profiles[piece][0].areaMM2
	}
	for n, piece := range order {
		if n%16 == 0 && ctx.Err() != nil {
			return Layout{}, 0, ctx.Err()
		}
		if best.Sheets == 1 && k.leastMM2() > float64(k.cells)*cellMM*k.roomMM {
			return Layout{}, math.Inf(1), nil
		}
		both := profiles[piece][:]
		if t.alike {
			both = both[:1]
		}
		if !k.lay(piece, both, area(pieces[piece].Outline)) {
			return Layout{}, math.Inf(1), nil
		}
		usedUp := best.Placements != nil && !k.layout.better(best) // what is used only grows
		if usedUp || best.Sheets == 1 && k.leastMM2()+2*margin*(k.rightMM+k.highMM) > best.UsedMM2 {
			return Layout{}, k.reached(), nil
		}
	}
	l = k.layout
	if t.turned {
		l.UsedWidthMM, l.UsedLengthMM = l.UsedLengthMM, l.UsedWidthMM
	}
	return l, k.reached(), nil
}

// reached is how far up the strip pieces lie; infinite where they took more than
// one.
func (k *packing) reached() float64 {
	if len(k.stacks) > 1 {
		return math.Inf(1)
	}
	return k.highMM
}

// leastMM2 is the least area that the pieces take if they all come to lie on the
// first sheet.
func (k *packing) leastMM2() float64 {
	if len(k.stacks) == 0 {
		return k.toComeMM2
	}
	return k.stacks[0].lostMM2 + k.toComeMM2
}

// lay puts one piece where it wastes least, as drawn or in the other ways that
// are given, and counts what is used. It reports whether the piece fits.
func (k *packing) lay(piece int, ways []profile, areaMM2 float64) bool {
	sheet, turn, cell, y, ok := k.rest(k.stacks, ways, k.roomMM, k.cells)
	if !ok {
		k.stacks = append(k.stacks, &stack{top: make([]float64, k.cells)})
		k.rightMM, k.highMM = 0, 0
		if _, turn, cell, y, ok = k.rest(k.stacks[len(k.stacks)-1:], ways, k.roomMM, k.cells); !ok {
			return false
		}
		sheet = len(k.stacks) - 1
	}
	p := &ways[turn]
	k.stacks[sheet].put(p, cell, y)
	k.toComeMM2 -= p.areaMM2
	if sheet == len(k.stacks)-1 {
		k.rightMM = max(k.rightMM, float64(cell+len(p.upper))*cellMM)
		k.highMM = max(k.highMM, y+p.height)
	}
	l := &k.layout
	l.Placements = append(l.Placements, k.placement(piece, sheet, 2*turn, Point{
		X: k.marginMM + float64(cell)*cellMM + p.origin.X,
		Y: k.marginMM + y + p.origin.Y,
	}))
	l.PiecesMM2 += areaMM2
	l.Sheets = len(k.stacks)
	l.UsedWidthMM, l.UsedLengthMM = min(k.rightMM+2*k.marginMM, k.width), min(k.highMM+2*k.marginMM, k.length)
	l.UsedMM2 = float64(l.Sheets-1)*k.sheet.WidthMM*k.sheet.LengthMM + l.UsedWidthMM*l.UsedLengthMM
	return true
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
	for i, s := range stacks {
		best := math.Inf(1)
		try := func(k, c int, at *spot) {
			p := &both[k]
			if cost := t.weigh(s, p, c, at, room, best); cost < best-1e-9 {
				best, sheet, turn, cell, y, ok = cost, i, k, c, at.level, true
			}
		}
		for k := range both {
			if len(both[k].lower) > cells {
				continue
			}
			spots := s.spots(&both[k])
			for j := range spots {
				try(k, placeOf(j, &both[k], cells), &spots[j])
			}
		}
		if !ok {
			continue
		}
		// A cell that was no better once is never better: of those from low to
		// high none is tried again.
		k, low, high := turn, cell, cell
		for near := -1; near != cell; {
			near = cell
			for c := max(0, near-coarse+1); c < low; c++ {
				try(k, c, &spot{})
			}
			for c := high + 1; c < near+coarse && c+len(both[k].lower) <= cells; c++ {
				try(k, c, &spot{})
			}
			low, high = min(low, near-coarse+1), max(high, near+coarse-1)
		}
		return sheet, turn, cell, y, true
	}
	return 0, 0, 0, 0, false
}

// cost is what the profile wastes at the cell by what is known of the spot.
func (t trial) cost(p *profile, cell int, at spot) float64 {
	return at.level + p.height + t.waste*at.empty + 1e-6*float64(cell)
}

// weigh is what the profile wastes at the cell; infinite where it lies above
// the room or no better than the best so far. It looks closer only where what
// is known of the spot leaves it open, and notes there what it finds.
func (t trial) weigh(s *stack, p *profile, cell int, at *spot, room, best float64) float64 {
	limit := min(room, best) - p.height
	for {
		cost := t.cost(p, cell, *at)
		if at.level+p.height > room || cost >= best {
			return math.Inf(1)
		}
		switch at.known {
		case bounded:
			level, empty := s.sample(p, cell, limit)
			at.level = max(at.level, level)
			if level > limit {
				return math.Inf(1)
			}
			at.empty, at.known = empty, sampled
		case sampled:
			level := s.level(p, cell, limit)
			at.level = max(at.level, level)
			if level > limit {
				return math.Inf(1)
			}
			at.empty, at.known = s.gap(p, cell, level), exact
		default:
			return cost
		}
	}
}

// sampleStride is how many cells apart a piece is looked at where a mean, or a
// first guess, is enough.
const sampleStride = 8

// sample is the least level at which the piece may come to lie at the cell, by
// a few of its cells, and the mean height of the room that stays empty below
// it at that level.
func (s *stack) sample(p *profile, cell int, limit float64) (level, empty float64) {
	sum := 0.0
	top := s.top[cell : cell+len(p.lower)]
	for i, l := range p.sampled {
		d := top[i*sampleStride] - l
		if d > level {
			if level = d; level > limit {
				return level, 0
			}
		}
		sum += d
	}
	return level, level - sum/float64(len(p.sampled))
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
	for j := 0; j < len(p.lower); j += sampleStride {
		sum += level + p.lower[j] - s.top[cell+j]
		n++
	}
	return sum / float64(n)
}
