// Package nesting lays flat pieces on stock sheet: true shapes, arcs nested
// into arcs, with a gap for the saw between any two.
//
// Pieces are dropped one after another on what lies below, the way one stacks
// roof tiles: each piece is known by its lower and upper edge over a fine
// grid across the sheet, both widened by half the gap, and comes to rest where
// the gap below it wastes least. Each may lie as drawn or turned by half a
// turn; the whole stack may run along the sheet or across it. The grid is
// taken to the safe side, so that pieces never come closer than the gap.
package nesting

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// Point is a point of a piece or a sheet, mm.
type Point struct{ X, Y float64 }

// Piece is one shape, and how many of it.
type Piece struct {
	Name string
	// Outline is a simple polygon, the first point not repeated.
	Outline []Point
	Count   int
}

// Sheet is the stock: width along X and length along Y, mm.
type Sheet struct{ WidthMM, LengthMM float64 }

// Placement is where a piece lies: its outline is turned about the origin and
// then moved.
type Placement struct {
	// Piece is the index of the piece.
	Piece int
	// Sheet is the number of the sheet, from 0.
	Sheet int
	// QuarterTurns counter-clockwise, 0 to 3.
	QuarterTurns int
	X, Y         float64
}

// Apply returns the placed outline.
func (p Placement) Apply(outline []Point) []Point {
	out := make([]Point, len(outline))
	for i, q := range outline {
		for range p.QuarterTurns {
			q = Point{-q.Y, q.X}
		}
		out[i] = Point{q.X + p.X, q.Y + p.Y}
	}
	return out
}

// Layout is what Nest gives back.
type Layout struct {
	Placements []Placement
	Sheets     int
	// UsedWidthMM and UsedLengthMM are the rectangle that is cut off the last
	// sheet; the sheets before it are used whole.
	UsedWidthMM, UsedLengthMM float64
	// UsedMM2 is the sheet used in all, PiecesMM2 the area of the pieces.
	UsedMM2, PiecesMM2 float64
}

// Yield is the share of the used sheet that becomes pieces.
func (l Layout) Yield() float64 { return l.PiecesMM2 / l.UsedMM2 }

// Error is a nesting that can't be done; its text is a sentence.
type Error struct{ Problem string }

func (e *Error) Error() string { return e.Problem }

// MaxPieces is how many pieces Nest takes at the most.
const MaxPieces = 2000

// cellMM is the grid across the sheet.
const cellMM = 0.05

// Nest lays the pieces on as few sheets as it finds, and on the last on as
// small a rectangle as it finds. gapMM is kept between pieces and to the
// sheet's edge. progress, if not nil, is told how far it is.
//
// The error is an *Error if a piece does not fit on the sheet, or ctx's.
func Nest(ctx context.Context, pieces []Piece, sheet Sheet, gapMM float64, progress func(done, total int)) (Layout, error) {
	order, err := inOrder(pieces, sheet, gapMM)
	if err != nil {
		return Layout{}, err
	}
	profiles := make([][2]profile, len(pieces)) // as drawn and turned by half
	for i, p := range pieces {
		profiles[i] = [2]profile{profileOf(p.Outline, 0, gapMM), profileOf(p.Outline, 2, gapMM)}
	}
	var best Layout
	tries := trials(pieces, order, sheet, gapMM)
	if sameTurned(profiles) {
		tries = slices.DeleteFunc(tries, func(t trial) bool { return !t.alike })
	}
	reached := map[manner]float64{}
	for i, t := range tries {
		if progress != nil {
			progress(i, len(tries))
		}
		// The same strip cut the other way holds the pieces alike, if it is as
		// long as the first was used.
		if high, tried := reached[t.manner]; tried && best.Sheets == 1 && high <= t.length-gapMM {
			continue
		}
		l, high, err := t.pack(ctx, pieces, profiles, order, gapMM, best)
		if err != nil {
			return Layout{}, err
		}
		reached[t.manner] = high
		if l.Placements != nil {
			best = l
		}
	}
	if progress != nil {
		progress(len(tries), len(tries))
	}
	if best.Placements == nil {
		return Layout{}, &Error{"the pieces do not fit on the sheet"}
	}
	return best, nil
}

// sameTurned reports whether no piece looks otherwise after half a turn.
func sameTurned(profiles [][2]profile) bool {
	return !slices.ContainsFunc(profiles, func(p [2]profile) bool {
		same := func(a, b []float64) bool {
			return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) < 1e-9 })
		}
		return !same(p[0].lower, p[1].lower) || !same(p[0].upper, p[1].upper)
	})
}

func (l Layout) better(other Layout) bool {
	if l.Sheets != other.Sheets {
		return l.Sheets < other.Sheets
	}
	return l.UsedMM2 < other.UsedMM2
}

// inOrder checks the pieces and gives the index of each single one, the
// largest first.
func inOrder(pieces []Piece, sheet Sheet, gapMM float64) ([]int, error) {
	var order []int
	for i, p := range pieces {
		low, high := bounds(p.Outline)
		w, h := high.X-low.X+2*gapMM, high.Y-low.Y+2*gapMM
		if len(p.Outline) < 3 || !(w > 0 && h > 0) || math.IsInf(w+h, 0) {
			return nil, &Error{fmt.Sprintf("%s has no outline", p.Name)}
		}
		if !(min(w, h) <= min(sheet.WidthMM, sheet.LengthMM) && max(w, h) <= max(sheet.WidthMM, sheet.LengthMM)) {
			return nil, &Error{fmt.Sprintf("%s, %.2f x %.2f mm with the gap round it, does not fit on a sheet of %.4g x %.4g mm",
				p.Name, w, h, sheet.WidthMM, sheet.LengthMM)}
		}
		for range p.Count {
			order = append(order, i)
		}
		if len(order) > MaxPieces {
			return nil, &Error{fmt.Sprintf("more than %d pieces", MaxPieces)}
		}
	}
	if len(order) == 0 {
		return nil, &Error{"no pieces"}
	}
	area := make([]float64, len(pieces))
	for i, p := range pieces {
		low, high := bounds(p.Outline)
		area[i] = (high.X - low.X) * (high.Y - low.Y)
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case area[i] > area[j]:
			return -1
		case area[i] < area[j]:
			return 1
		}
		return i - j
	})
	return order, nil
}

func bounds(outline []Point) (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range outline {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	return low, high
}

// area of a simple polygon, mm2.
func area(outline []Point) float64 {
	sum := 0.0
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

// trial is one way to try: a strip of the sheet of this width, stacked along
// length; turned means that the strip's width runs along the sheet's length.
type trial struct {
	manner
	length float64
	sheet  Sheet
	turned bool
}

// manner is all that decides where pieces lie on a strip that is long enough.
type manner struct {
	width float64
	// alike lays all pieces as drawn, none turned by half: often better for a
	// stack of arcs.
	alike bool
	// waste is how much the empty room below a piece counts against its height.
	waste float64
}

// trials are the whole sheet both ways, and narrower strips of one to four
// columns of the widest piece, for a rectangle that is cut off a corner.
func trials(pieces []Piece, order []int, sheet Sheet, gapMM float64) []trial {
	widest := 0.0
	for _, i := range order {
		low, high := bounds(pieces[i].Outline)
		widest = max(widest, high.X-low.X)
	}
	var out []trial
	add := func(width, length float64, turned bool) {
		for _, alike := range []bool{true, false} {
			for _, waste := range []float64{1, 0.25} {
				if waste != 1 && len(order) > 100 {
					continue
				}
				out = append(out, trial{manner{width, alike, waste}, length, sheet, turned})
			}
		}
	}
	for _, turned := range []bool{false, true} {
		w, l := sheet.WidthMM, sheet.LengthMM
		if turned {
			w, l = l, w
		}
		if widest+2*gapMM <= w {
			add(w, l, turned)
		}
		if len(order) > 100 {
			continue // the whole sheet is used anyhow
		}
		for columns := 1; columns <= 4; columns++ {
			if narrow := float64(columns)*(widest+gapMM) + gapMM + cellMM; narrow < w {
				add(narrow, l, turned)
			}
		}
	}
	return out
}
