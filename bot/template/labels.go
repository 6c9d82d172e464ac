package template

import (
	"math"
	"slices"
	"sync"

	"guildhand/bot/template/scene"
)

// Labels are placed the same way in all three outputs: beside their line where
// there is room, otherwise in the free space round the drawing with a thin
// leader to a dot on the line. Positions that touch a line, another label or
// the edge are never taken. All lengths are in the renderer's unit.

// anchor is a point of a line with its unit normal.
type anchor struct{ x, y, nx, ny float64 }

// label is lettering that wants a place.
type label struct {
	lines []string
	// owner is the number of the path that it belongs to, or -1 for a text.
	owner int
	// anchors in the order of preference.
	anchors []anchor
	// onAnchor puts the lettering's middle on the anchor itself first, turned
	// by angle degrees.
	onAnchor bool
	angle    float64
	em       float64
	// dimension is the text of a dimension, which stands on one side of its
	// line and needs no distance from others to be understood.
	dimension bool
}

// placed is a label with its place.
type placed struct {
	label
	x, y float64 // middle of the lettering
	// leader runs from the line to the lettering.
	leader   bool
	from, to scene.Point
	box      scene.Rect
	// over is lettering on white that hides the lines under it.
	over bool
}

// placer holds what is already on the picture.
type placer struct {
	room scene.Rect
	cell float64
	w, h int
	// owner of each cell: 0 empty, path number + 1, or shared.
	owner []int32
	// sum is the summed-area table of occupied cells.
	sum   []int32
	grids *grids
	done  []placed
	// over lets texts of a crowded drawing hide lines.
	over bool
	// lines are all lines by number, cuts those that no leader may cross.
	lines []scene.Path
	cuts  []cutLine
}

// cutLine is a flattened line and the rectangle round it.
type cutLine struct {
	path scene.Path
	box  scene.Rect
}

const shared = math.MaxInt32

func cutLineOf(p scene.Path) cutLine {
	box, _ := p.Bounds()
	return cutLine{p, box}
}

// newPlacer makes a placer for the lines (flattened paths) within room; em is
// the usual size of lettering.
func newPlacer(room scene.Rect, lines []scene.Path, em float64) *placer {
	p := &placer{room: room, cell: em / 6}
	// A page never needs more cells than this; a coarser grid only keeps
	// labels a little further from lines.
	const mostCells = 120_000
	if n := room.W() * room.H() / (p.cell * p.cell); n > mostCells {
		p.cell *= math.Sqrt(n / mostCells)
	}
	p.w, p.h = int(room.W()/p.cell)+1, int(room.H()/p.cell)+1
	p.grids = keptGrids.Get().(*grids)
	p.owner, p.sum = p.grids.cleared(p.w*p.h, (p.w+1)*(p.h+1))
	p.lines = lines
	for i, line := range lines {
		p.mark(line, int32(i)+1)
	}
	for y := range p.h {
		row, owners := int32(0), p.owner[y*p.w:][:p.w]
		above, sums := p.sum[y*(p.w+1)+1:][:p.w], p.sum[(y+1)*(p.w+1)+1:][:p.w]
		for x, owner := range owners {
			if owner != 0 {
				row++
			}
			sums[x] = above[x] + row
		}
	}
	return p
}

// grids are the cells of a placer, a megabyte, kept for the next.
type grids struct{ owner, sum []int32 }

var keptGrids = sync.Pool{New: func() any { return &grids{} }}

// cleared gives both grids with as many cells, each 0.
func (g *grids) cleared(owners, sums int) (owner, sum []int32) {
	g.owner, g.sum = slices.Grow(g.owner[:0], owners)[:owners], slices.Grow(g.sum[:0], sums)[:sums]
	clear(g.owner)
	clear(g.sum)
	return g.owner, g.sum
}

// mark enters a line into the grid.
func (p *placer) mark(line scene.Path, owner int32) {
	line.EachLine(func(a, b scene.Point) {
		a, b, ok := p.room.Clip(a, b)
		if !ok {
			return
		}
		n := int(math.Hypot(b.X-a.X, b.Y-a.Y)/(p.cell/2)) + 1
		for i := 0; i <= n; i++ {
			t := float64(i) / float64(n)
			x, y := p.at(a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y))
			switch c := &p.owner[y*p.w+x]; *c {
			case 0, owner:
				*c = owner
			default:
				*c = shared
			}
		}
	})
}

// at is the cell of a point, kept inside the grid.
func (p *placer) at(x, y float64) (int, int) {
	i, j := int((x-p.room.X0)/p.cell), int((y-p.room.Y0)/p.cell)
	return min(max(i, 0), p.w-1), min(max(j, 0), p.h-1)
}

// clear tells whether no line comes within gap of the box.
func (p *placer) clear(r scene.Rect, gap float64) bool {
	x0, y0 := p.at(r.X0-gap, r.Y0-gap)
	x1, y1 := p.at(r.X1+gap, r.Y1+gap)
	s := p.w + 1
	return p.sum[(y1+1)*s+x1+1]-p.sum[y0*s+x1+1]-p.sum[(y1+1)*s+x0]+p.sum[y0*s+x0] == 0
}

// onlyOwn tells whether the lines within gap of the box are all owner's.
func (p *placer) onlyOwn(r scene.Rect, gap float64, owner int) bool {
	x0, y0 := p.at(r.X0-gap, r.Y0-gap)
	x1, y1 := p.at(r.X1+gap, r.Y1+gap)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			if c := p.owner[y*p.w+x]; c != 0 && c != int32(owner)+1 {
				return false
			}
		}
	}
	return true
}

// free tells whether the box is in the room and clear of labels and leaders.
func (p *placer) free(r scene.Rect, gap float64) bool {
	if r.X0 < p.room.X0 || r.Y0 < p.room.Y0 || r.X1 > p.room.X1 || r.Y1 > p.room.Y1 {
		return false
	}
	wide := r.Grow(gap)
	for i := range p.done {
		q := &p.done[i]
		if q.box.Overlaps(wide) {
			return false
		}
		if q.leader {
			if _, _, hit := wide.Clip(q.from, q.to); hit {
				return false
			}
		}
	}
	return true
}

// clutter weighs the lines that a leader meets after it has left its own: each
// crossing, and more where it runs along a line. A line in a neighbouring cell
// counts as met, except close to the start, where lines may lie side by side.
func (p *placer) clutter(a, b scene.Point, owner int) float64 {
	weight, on := 0.0, false
	own := int32(owner) + 1
	foreign := func(x, y int) bool {
		x, y = min(max(x, 0), p.w-1), min(max(y, 0), p.h-1)
		c := p.owner[y*p.w+x]
		return c != 0 && c != own
	}
	steps := int(math.Hypot(b.X-a.X, b.Y-a.Y)/p.cell) + 1
	for i := 0; i <= steps; i++ {
		t := float64(i) / float64(steps)
		x, y := p.at(a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y))
		met := foreign(x, y)
		if i > 2 {
			met = met || foreign(x-1, y) || foreign(x+1, y) || foreign(x, y-1) || foreign(x, y+1)
		}
		switch {
		case !met:
		case on:
			weight += 0.5
		default:
			weight += 1.5
		}
		on = met
	}
	return weight
}

// company weighs what is close to the start of a leader: other lines, which its
// dot might be taken to mean, and other leaders' dots.
func (p *placer) company(from scene.Point, owner int, em float64) float64 {
	weight := 0.0
	near := scene.Rect{X0: from.X, Y0: from.Y, X1: from.X, Y1: from.Y}
	if !p.onlyOwn(near, p.cell*1.5, owner) {
		weight += 3
	}
	for i := range p.done {
		if q := &p.done[i]; q.leader && math.Hypot(q.from.X-from.X, q.from.Y-from.Y) < em {
			weight += 2
		}
	}
	return weight
}

// leaderFree tells whether a leader is clear of labels and other leaders.
func (p *placer) leaderFree(a, b scene.Point) bool {
	for i := range p.done {
		q := &p.done[i]
		if _, _, hit := q.box.Grow(q.em/6).Clip(a, b); hit {
			return false
		}
		if q.leader && scene.Cross(a, b, q.from, q.to) {
			return false
		}
	}
	return !p.crossesCut(a, b)
}

// crossesCut tells whether a leader from a crosses a line to be cut. Its dot may
// sit on one.
func (p *placer) crossesCut(a, b scene.Point) bool {
	if l := math.Hypot(b.X-a.X, b.Y-a.Y); l > 0 { // off the line that it starts on
		t := min(0.9, p.cell/2/l)
		a = scene.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
	}
	box := scene.Rect{X0: min(a.X, b.X), Y0: min(a.Y, b.Y), X1: max(a.X, b.X), Y1: max(a.Y, b.Y)}
	for _, cut := range p.cuts {
		if !cut.box.Overlaps(box) {
			continue
		}
		for i, s := range cut.path {
			if s.Op != scene.MoveTo && scene.Cross(a, b, cut.path[i-1].P, s.P) {
				return true
			}
		}
	}
	return false
}

// leaderDirections are tried in this order: steep first, since most blanks are
// wide and low.
var leaderDirections = [][2]float64{
	{0, 1}, {0, -1}, {0.26, 0.966}, {-0.26, 0.966}, {0.26, -0.966}, {-0.26, -0.966},
	{0.5, 0.866}, {-0.5, 0.866}, {0.5, -0.866}, {-0.5, -0.866}, {0.8, 0.6}, {-0.8, 0.6}, {0.8, -0.6}, {-0.8, -0.6}, {1, 0}, {-1, 0},
}

// leaderLengths in ems.
var leaderLengths = []float64{0.9, 1.6, 2.4, 3.4, 4.8, 6.5, 9, 12}

// manyLabels is the number beyond which leaders would make a thicket; then
// lettering gets smaller instead.
const manyLabels = 24

// place finds a place for each label, in their order; it returns the places
// and the labels for which there is none. It gives the grids back, so the placer
// is not used after it.
func (p *placer) place(labels []label) (done []placed, left []label) {
	defer keptGrids.Put(p.grids)
	leaders := len(labels) <= manyLabels
	sizes := []float64{1, 0.8, 0.66}
	if p.over && leaders {
		sizes = []float64{1, 0.88}
	}
	if !leaders && !p.over {
		sizes = append(sizes, 0.5, 0.4)
	}
	for _, l := range labels {
		ok := false
		for _, size := range sizes {
			try := l
			try.em = l.em * size
			if ok = p.beside(try); ok {
				break
			}
			if leaders {
				if ok = p.withLeader(try); ok {
					break
				}
			}
		}
		if !ok && p.over && !leaders {
			ok = p.onTop(l)
		}
		if !ok {
			left = append(left, l)
		}
	}
	return p.done, left
}

// size of a label's lettering.
func (p *placer) size(l label) (w, h float64) {
	letters := scene.Lettering{Em: l.em}
	n := float64(len(l.lines))
	return letters.Widest(l.lines), l.em * (scene.CapHeight + scene.Descent + (n-1)*scene.LineHeight)
}

// nearEms is how far, in ems, a label without a leader may be from its line.
const nearEms = 0.8

// beside puts the label on its anchor, or close beside its line.
func (p *placer) beside(l label) bool {
	w, h := p.size(l)
	gap := l.em * 0.22
	put := func(x, y, angle float64) bool {
		bw, bh := w, h
		if angle != 0 {
			sin, cos := math.Sincos(angle * math.Pi / 180)
			bw, bh = math.Abs(w*cos)+math.Abs(h*sin), math.Abs(w*sin)+math.Abs(h*cos)
		}
		r := scene.Rect{X0: x - bw/2, Y0: y - bh/2, X1: x + bw/2, Y1: y + bh/2}
		if !p.clear(r, gap) || !p.free(r, gap) {
			return false
		}
		if l.owner >= 0 && !l.dimension && !p.onlyOwn(r, 3*gap, l.owner) {
			return false // it could be read as its neighbour's
		}
		if l.owner >= 0 && p.lines[l.owner].Clip(r.Grow(nearEms*l.em)).Length() == 0 {
			return false // it would float
		}
		at := placed{label: l, x: x, y: y, box: r}
		at.angle = angle
		p.done = append(p.done, at)
		return true
	}
	for _, a := range l.anchors {
		if l.onAnchor {
			if put(a.x, a.y, l.angle) || l.angle != 0 && put(a.x, a.y, 0) {
				return true
			}
			continue
		}
		reach := math.Abs(a.nx)*w/2 + math.Abs(a.ny)*h/2 + gap + p.cell*1.5
		// a short line has room beyond what its normal suggests
		for _, far := range []float64{reach, reach + 1.2*gap} {
			for _, side := range []float64{far, -far} {
				x, y := a.x+a.nx*side, a.y+a.ny*side
				if !p.crossesCut(scene.Point{X: a.x, Y: a.y}, scene.Point{X: x, Y: y}) && put(x, y, 0) {
					return true
				}
			}
		}
	}
	return false
}

// onTop puts a text on its anchor, over whatever lines there are.
func (p *placer) onTop(l label) bool {
	if !l.onAnchor {
		return false
	}
	for _, size := range []float64{1, 0.8, 0.66, 0.5} {
		try := l
		try.em = l.em * size
		w, h := p.size(try)
		a := l.anchors[0]
		r := scene.Rect{X0: a.x - w/2, Y0: a.y - h/2, X1: a.x + w/2, Y1: a.y + h/2}
		if p.free(r, try.em*0.2) {
			p.done = append(p.done, placed{label: try, x: a.x, y: a.y, box: r, over: true})
			return true
		}
	}
	return false
}

// withLeader puts the label in free space with a leader to its line. It takes
// the place with the fewest crossed lines and the shortest leader.
func (p *placer) withLeader(l label) bool {
	w, h := p.size(l)
	gap := l.em * 0.3
	best, bestCost := placed{}, math.Inf(1)
	for i, a := range l.anchors {
		near := p.company(scene.Point{X: a.x, Y: a.y}, l.owner, l.em)
		for j, dir := range leaderDirections {
			sure := near
			// a leader nearly along its own line is hard to follow
			if along := math.Abs(dir[0]*a.nx + dir[1]*a.ny); (a.nx != 0 || a.ny != 0) && along < 0.5 {
				sure += 4
			}
			for _, long := range leaderLengths {
				cost := long + 0.3*float64(i) + 0.05*float64(j) + sure
				if cost >= bestCost {
					break
				}
				from := scene.Point{X: a.x, Y: a.y}
				to := scene.Point{X: a.x + dir[0]*long*l.em, Y: a.y + dir[1]*long*l.em}
				// the leader ends on the lettering's edge, nearest side first
				k := math.Max(math.Abs(dir[0]), math.Abs(dir[1]))
				x := to.X + dir[0]/k*(w/2+gap*0.6)
				y := to.Y + dir[1]/k*(h/2+gap*0.6)
				r := scene.Rect{X0: x - w/2, Y0: y - h/2, X1: x + w/2, Y1: y + h/2}
				if !p.clear(r, gap) || !p.free(r, gap) || !p.leaderFree(from, to) {
					continue
				}
				if cost += p.clutter(from, to, l.owner); cost < bestCost {
					bestCost = cost
					best = placed{label: l, x: x, y: y, box: r, leader: true, from: from, to: to}
				}
			}
		}
	}
	if math.IsInf(bestCost, 1) {
		return false
	}
	p.done = append(p.done, best)
	return true
}

// labelsOf collects the labels of d; lines are d's paths flattened, in the
// renderer's unit. Where several paths share role and label, one of them is
// lettered: the line style tells the rest.
func labelsOf(d Drawing, lines []scene.Path, f fitting) []label {
	letters := scene.Lettering{Em: f.em}
	var out []label
	type sort struct {
		role Role
		text string
	}
	seen := map[sort]bool{}
	for i, p := range d.Paths {
		text := scene.Plain(p.Label)
		if f.screen {
			text = p.lettered()
		}
		if text == "" || seen[sort{p.Role, text}] {
			continue
		}
		anchors := anchorsOn(lines[i], f.window)
		if len(anchors) == 0 {
			continue
		}
		seen[sort{p.Role, text}] = true
		out = append(out, label{lines: shorten(letters.Wrap(text, f.widest), 3), owner: i, anchors: anchors, em: f.em})
	}
	// A mark is short and its name means nothing away from it: it comes first.
	slices.SortStableFunc(out, func(a, b label) int { return first(d.Paths[a.owner].Role) - first(d.Paths[b.owner].Role) })
	for _, t := range d.Texts {
		at := f.toView.Point(point(t.At))
		if w := f.window; t.Text == "" || at.X < w.X0 || at.X > w.X1 || at.Y < w.Y0 || at.Y > w.Y1 {
			continue
		}
		l := label{owner: -1, anchors: []anchor{{x: at.X, y: at.Y}}, onAnchor: true, angle: math.Mod(t.Angle, 360), em: f.textEm(t)}
		l.lines = shorten(scene.Lettering{Em: l.em}.Wrap(t.Text, f.widest), 3)
		if len(l.lines) > 0 {
			out = append(out, l)
		}
	}
	return out
}

// first is 0 for roles that are lettered before others.
func first(r Role) int {
	if r == Mark {
		return 0
	}
	return 1
}

// lettered is a path's label with its measure.
func (p Path) lettered() string {
	if p.Measure == "" || p.Label == "" {
		return scene.Plain(p.Label + p.Measure)
	}
	return scene.Plain(p.Label + ": " + p.Measure)
}

// labelFractions are the places along a line where its label is tried.
var labelFractions = []float64{0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84, 0.07, 0.93}

// anchorsOn lists places on line, within the window, where a label may go.
func anchorsOn(line scene.Path, window scene.Rect) []anchor {
	inside := line.Clip(window)
	const n = 100
	all := pointsAlong(inside, n)
	if len(all) == 0 {
		return nil
	}
	var out []anchor
	for _, f := range labelFractions {
		out = append(out, all[min(int(f*n), len(all)-1)])
	}
	return out
}

// pointsAlong gives n points on a flattened path, in the middles of n equal
// lengths of it.
func pointsAlong(flat scene.Path, n int) []anchor {
	total := flat.Length()
	if n <= 0 || total == 0 || math.IsNaN(total) {
		return nil
	}
	out := make([]anchor, 0, n)
	step := total / float64(n)
	next, run := step/2, 0.0
	var last anchor
	flat.EachLine(func(a, b scene.Point) {
		dx, dy := b.X-a.X, b.Y-a.Y
		l := math.Hypot(dx, dy)
		if l == 0 {
			return
		}
		last = anchor{b.X, b.Y, -dy / l, dx / l}
		for next <= run+l && len(out) < n {
			t := (next - run) / l
			out = append(out, anchor{a.X + t*dx, a.Y + t*dy, -dy / l, dx / l})
			next += step
		}
		run += l
	})
	for len(out) < n { // rounding at the very end
		out = append(out, last)
	}
	return out
}
