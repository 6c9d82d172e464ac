package forming

import (
	"fmt"
	"math"
	"slices"

	"guildhand/calc/stock"
)

// How far a tube may be from the collar's perimeter, and the wall from which
// on a tube counts as heavy. Common practice, no source: a heavy-walled round
// tube whose bore is only near the stone's size serves, because the block
// brings it to size; a punch stretches a few per cent before thin places show.
const (
	MaxSqueeze = 0.12
	MaxStretch = 0.06
	HeavyMM    = 0.7
)

// TubeFit is a tube as a collar for one stone.
type TubeFit struct {
	Tube stock.Tube
	// Stretch is the change of the mid-wall perimeter that the tube needs:
	// positive to be stretched, negative to be squeezed, as a share.
	Stretch float64
	// BoreMM is the tube's inner diameter and StoneBoreMM the diameter of the
	// round bore with the finished inner rim's perimeter.
	BoreMM, StoneBoreMM float64
	// Wall is the collar made of the tube; nil if it does not serve.
	Wall *Wall
	// Serves is set where the tube can be brought to size; Why says what is in
	// the way, or warns.
	Serves bool
	Why    string
}

// RankTubes returns the tubes of the alloy that can be turned into the collar,
// the one that needs the least change first, then those that don't serve. The
// collar's wall and stock perimeter are replaced by each tube's.
func RankTubes(c Collar, alloy string, tubes []stock.Tube) []TubeFit {
	var fits []TubeFit
	for _, t := range tubes {
		if t.Alloy == alloy {
			fits = append(fits, FitTube(c, t))
		}
	}
	slices.SortStableFunc(fits, func(a, b TubeFit) int {
		if a.Serves != b.Serves {
			if a.Serves {
				return -1
			}
			return 1
		}
		switch d := a.effort() - b.effort(); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return fits
}

// effort ranks tubes: a stretch thins the wall and may tear the seam, so it
// counts twice; a light wall counts as a few per cent.
func (f TubeFit) effort() float64 {
	e := math.Abs(f.Stretch)
	if f.Stretch > 0 {
		e *= 2
	}
	if f.Tube.WallMM < HeavyMM {
		e += 0.05
	}
	return e
}

// FitTube works out what a tube needs to become the collar.
func FitTube(c Collar, t stock.Tube) TubeFit {
	f := TubeFit{Tube: t, BoreMM: t.OuterMM - 2*t.WallMM}
	c.WallMM = t.WallMM
	c.StockPerimeterMM = math.Pi * (t.OuterMM - t.WallMM)
	closes := fmt.Sprintf("a wall of %.2f mm closes the foot", t.WallMM)
	// The rim tells what the tube needs; the whole wall is worked out only for
	// one that serves.
	w := &Wall{Collar: c, StockMM: c.StockPerimeterMM}
	var err error
	if w.Rim, err = w.rim(); err != nil {
		f.Why = closes
		return f
	}
	f.Stretch = w.Rim.PerimeterMM/w.StockMM - 1
	if inner, err := c.Outline.Offset(w.Rim.InnerOffsetMM); err == nil {
		f.StoneBoreMM = inner.PerimeterMM() / math.Pi
	}
	switch {
	case f.Stretch > MaxStretch:
		f.Why = fmt.Sprintf("too small: it would be stretched by %.1f %%, more than %.0f %%", 100*f.Stretch, 100*MaxStretch)
		return f
	case f.Stretch < -MaxSqueeze:
		f.Why = fmt.Sprintf("too large: it would be squeezed by %.1f %%, more than %.0f %%", -100*f.Stretch, 100*MaxSqueeze)
		return f
	}
	if f.Wall, err = NewWall(c); err != nil {
		f.Why = closes
		return f
	}
	f.Serves = true
	if t.WallMM < HeavyMM {
		f.Why = fmt.Sprintf("wall of %.2f mm is light for a seat", t.WallMM)
	}
	return f
}
