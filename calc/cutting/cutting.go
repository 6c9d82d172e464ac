// Package cutting shares pieces of wire and tube out over stock lengths.
package cutting

import (
	"cmp"
	"fmt"
	"slices"
)

// Bar is one stock length: the pieces that are cut from it, by their place in
// the list given, and what they take of it.
type Bar struct {
	Pieces []int
	UsedMM float64
}

// Error is a piece that no stock length holds.
type Error struct {
	Piece             int
	PieceMM, LengthMM float64
}

func (e *Error) Error() string {
	return fmt.Sprintf("a piece of %.2f mm is longer than a stock length of %.2f mm", e.PieceMM, e.LengthMM)
}

// roundingMM is by how much a full bar may be over by rounding alone.
const roundingMM = 1e-6

// Plan cuts pieces, each with what the saw and the file take, from as few stock
// lengths as it finds: the longest pieces first, each from the first bar that
// still has it (first fit decreasing, which never needs more than 11/9 of the
// fewest and one bar more; G. Dósa 2007, from memory). The error is an *Error.
func Plan(piecesMM []float64, lengthMM float64) ([]Bar, error) {
	order := make([]int, len(piecesMM))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(piecesMM[j], piecesMM[i]) })
	var bars []Bar
	for _, i := range order {
		mm := piecesMM[i]
		if !(mm > 0 && mm <= lengthMM+roundingMM) {
			return nil, &Error{Piece: i, PieceMM: mm, LengthMM: lengthMM}
		}
		at := slices.IndexFunc(bars, func(b Bar) bool { return b.UsedMM+mm <= lengthMM+roundingMM })
		if at < 0 {
			at, bars = len(bars), append(bars, Bar{})
		}
		bars[at].Pieces = append(bars[at].Pieces, i)
		bars[at].UsedMM += mm
	}
	return bars, nil
}
