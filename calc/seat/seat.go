package seat

import (
	"math"

	"guildhand/calc/units"
)

// Seat is how a stone sits in a wall.
type Seat struct {
	Stone Stone
	Wall  Wall
	// RestMM is the level at which the girdle's lower edge comes to rest: 0 on
	// the bearing, negative where it slips below, positive where a wall without a
	// ledge stands in its way in a place. It has no meaning where Falls is set.
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
	// where rim and base are two outlines; without a ledge, the most that it lies
	// outside the stone's edge where that rests.
	StandsOffMM float64
	// The directions of the worst places, the level normal's angle: where the wall
	// stands off, the floor is deepest, the stone wedges, and where it rests first
	// without a ledge. They have a meaning where the figure has.
	StandsOffAt, FloorAt, WedgesAt, RestAt units.Angle
	// AboveGirdleMM is the finished rim above the girdle's upper edge as the
	// stone rests.
	AboveGirdleMM float64

	// Falls: nothing holds the stone. Wedges: the pavilion meets the wall before
	// the girdle does. Tips: pushed to one side, the stone can drop off the ledge
	// at the other. Unsupported: the bearing's floor runs out below the base, or below the
	// culet.
	Falls, Wedges, Tips, Unsupported bool
}

// Everywhere reports whether the stone rests on metal at every side.
func (c Seat) Everywhere() bool {
	return !c.Falls && !c.Wedges && !c.Unsupported && c.StandsOffMM <= max(1e-6, c.Wall.LedgeMM-c.Wall.ClearanceMM)
}

// Direction is what stone and wall are towards one level normal.
type Direction struct {
	Normal units.Angle
	// FaceMM is how far outside the stone's outline the inner face lies at z = 0,
	// negative under the stone; Slope by how much farther for each mm up.
	FaceMM, Slope float64
	// WallMM is the wall's thickness, measured level.
	WallMM float64
	// DrawsInMM is how far the pavilion draws in over its whole depth.
	DrawsInMM float64
	// Corner is set for a normal between those of a sharp corner's two sides.
	Corner bool
}

// sameMM is a difference that is rounding: of two places that are alike, the first is
// named.
const sameMM = 1e-12

// Check seats the stone in a wall of even slope that follows its outline all
// round.
func Check(s Stone, w Wall) Seat {
	c := newSeat(s, w)
	if rest, ok := w.RestMM(); ok {
		c.RestMM = rest
	} else {
		c.Falls = true
	}
	c.floor(w.LedgeMM, s.ReachMM()/s.PavilionMM-w.Lean.Tan(), 0)
	c.settle()
	return c
}

// CheckAround seats the stone in a wall that is told direction by direction; each
// figure is then the one at its worst place.
func CheckAround(s Stone, w Wall, round []Direction) Seat {
	c := newSeat(s, w)
	c.BehindMM, c.RimLeftMM = math.Inf(1), math.Inf(1)
	drop := w.FaceMM(0) // of the face at z = 0 as it should be
	c.Share = 0
	for _, d := range round {
		c.floor(max(0, -d.FaceMM), d.DrawsInMM/s.PavilionMM-d.Slope, d.Normal)
		if d.Corner {
			continue
		}
		if off := d.FaceMM - drop; off > c.StandsOffMM+sameMM {
			c.StandsOffMM, c.StandsOffAt = off, d.Normal
		}
		left := w.leftMM(d, 0)
		c.BehindMM = min(c.BehindMM, left)
		c.RimLeftMM = min(c.RimLeftMM, w.leftMM(d, w.RimMM))
		c.Share = max(c.Share, 1-left/d.WallMM)
	}
	if w.LedgeMM == 0 {
		c.rests(round)
	}
	c.settle()
	return c
}

// Carried is the seat where something soldered in carries the stone at z = 0.
func (c Seat) Carried() Seat {
	c.Falls, c.Tips, c.RestMM, c.StandsOffMM = false, false, 0, 0
	c.settle()
	return c
}

func newSeat(s Stone, w Wall) Seat {
	return Seat{Stone: s, Wall: w, Share: w.Share(), BehindMM: w.LeftMM(0), RimLeftMM: w.LeftMM(w.RimMM),
		Tips: w.LedgeMM > 0 && w.LedgeMM <= w.ClearanceMM+TipsMM}
}

// floor takes the deepest floor: the pavilion leaves a wall that stands under the
// stone by ledgeMM at leaves mm for each mm below z = 0.
func (c *Seat) floor(ledgeMM, leaves float64, at units.Angle) {
	if leaves < 1e-9 {
		if !c.Wedges {
			c.WedgesAt = at
		}
		c.Wedges = true
		return
	}
	if mm := ledgeMM / leaves; mm > c.FloorMM+sameMM {
		c.FloorMM, c.FloorAt = mm, at
	}
}

// rests is where the stone comes to rest in a wall without a ledge that leans
// more in places: there first, and elsewhere it stands off.
func (c *Seat) rests(round []Direction) {
	c.StandsOffMM = 0
	mm := math.Inf(-1)
	for _, d := range round {
		if d.Slope > 1e-9 && -d.FaceMM/d.Slope > mm+sameMM {
			mm, c.RestAt = -d.FaceMM/d.Slope, d.Normal
		}
	}
	if mm < c.Wall.RimMM-c.Wall.HeightMM {
		c.Falls = true
		return
	}
	c.RestMM = mm
	for _, d := range round {
		if off := d.FaceMM + c.RestMM*d.Slope; !d.Corner && off > c.StandsOffMM+sameMM {
			c.StandsOffMM, c.StandsOffAt = off, d.Normal
		}
	}
}

// settle draws what follows from the rest.
func (c *Seat) settle() {
	w := c.Wall
	below := w.HeightMM - w.RimMM
	if c.Wedges {
		c.FloorMM = 0
	}
	c.Unsupported = c.FloorMM > min(below, c.Stone.PavilionMM)
	c.ProudMM = c.Stone.PavilionMM - c.RestMM - below
	c.AboveGirdleMM = w.RimMM - c.Stone.GirdleMM - c.RestMM
}

// leftMM is the wall left at z >= 0 towards a direction, measured level.
func (w Wall) leftMM(d Direction, z float64) float64 {
	return d.WallMM - max(0, w.ClearanceMM-d.FaceMM-z*d.Slope)
}
