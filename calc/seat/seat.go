package seat

import "guildhand/calc/units"

// Seat is how a stone sits in a wall.
type Seat struct {
	Stone Stone
	Wall  Wall
	// RestMM is the level at which the girdle's lower edge comes to rest: 0 on
	// the bearing, negative where it slips below. It has no meaning where Falls
	// is set.
	RestMM float64
	// FloorMM is how far below z = 0 the bearing's floor runs out of the wall,
	// where that is deepest; 0 where there is no ledge or the stone wedges.
	FloorMM float64
	// BehindMM is the wall left behind the bearing at z = 0, RimLeftMM that at
	// the rim after the bearing is cut; both measured level.
	BehindMM, RimLeftMM float64
	// Share is the share of the wall that the bearing takes.
	Share float64
	// ProudMM is by how much the culet stands below the finished base; negative
	// is room.
	ProudMM float64
	// StandsOffMM is the most that the wall at z = 0 lies outside its own ledge,
	// where rim and base are two outlines.
	StandsOffMM float64
	// AboveGirdleMM is the finished rim above the girdle's upper edge as the
	// stone rests.
	AboveGirdleMM float64

	// Falls: nothing holds the stone. Wedges: the pavilion meets the wall before
	// the girdle does. Tips: pushed to one side, the stone can drop off the ledge
	// at the other. Unsupported: the bearing's floor runs out below the base.
	Falls, Wedges, Tips, Unsupported bool
}

// Everywhere reports whether the stone rests on metal at every side.
func (c Seat) Everywhere() bool {
	return !c.Falls && !c.Wedges && !c.Unsupported && c.StandsOffMM <= max(0, c.Wall.LedgeMM-c.Wall.ClearanceMM)
}

// Leans are the least and the largest lean round the outline; both the wall's
// own for an even slope.
type Leans struct{ Least, Largest units.Angle }

// Check seats the stone. Lean varies round the outline of a wall that is no even
// slope: each figure is then the one at its worst place.
func Check(s Stone, w Wall, round Leans) Seat {
	c := Seat{Stone: s, Wall: w, Share: w.Share(), BehindMM: w.LeftMM(0)}
	flattest := w
	flattest.Lean = round.Least
	c.RimLeftMM = w.levelMM() - flattest.cutMM(w.RimMM)
	belowMM := w.HeightMM - w.RimMM
	// The pavilion leaves the wall by cot p - tan a for each mm below z = 0.
	leaves := s.reachMM()/s.PavilionMM - round.Largest.Tan()
	c.Wedges = leaves < 1e-9
	if rest, ok := flattest.RestMM(); ok {
		c.RestMM = rest
	} else {
		c.Falls = true
	}
	if w.LedgeMM > 0 {
		c.Tips = w.LedgeMM <= w.ClearanceMM+TipsMM
		if !c.Wedges {
			c.FloorMM = w.LedgeMM / leaves
			c.Unsupported = c.FloorMM > belowMM
		}
	}
	c.ProudMM = s.PavilionMM - c.RestMM - belowMM
	c.AboveGirdleMM = w.RimMM - s.GirdleMM - c.RestMM
	return c
}
