package finished

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// Section is a collet with its stone cut upright through the culet: x to the
// right of the culet, y the height above the girdle's lower edge, mm.
type Section struct {
	// Left and Right are the wall, closed, each beginning with the outer corner of
	// its base and the outer corner of its rim.
	Left, Right [][2]float64
	Stone       [][2]float64
}

// Across cuts a collet along its width, or along its length.
func Across(c setting.Collet, lengthwise bool) (Section, error) {
	cut, err := c.Stone.Offset(c.ClearanceMM)
	if err != nil {
		return Section{}, err
	}
	table, err := c.Stone.Offset(-c.Solid.CrownRunMM())
	if err != nil {
		table = c.Stone.Scaled(max(0.2, c.Solid.TableShare))
	}
	angle := 0.0
	if lengthwise {
		angle = math.Pi / 2
	}
	var s Section
	stone := [2][][2]float64{}
	for i, a := range []float64{angle, angle + math.Pi} {
		reach := func(curve outline.Curve) float64 {
			p := farthest(curve.Polyline(0.002), c.Solid.Culet, a)
			return distance(p, c.Solid.Culet)
		}
		edge := reach(c.Stone)
		keel := 0.0
		if c.Solid.Keel { // a keel runs as far as its sections stay open
			keel = max(0, edge-c.Solid.PavilionMM/c.Solid.SteepestPavilion().Tan())
		}
		wall := profile{
			rim: c.RimMM, base: c.RimMM - c.HeightMM, rimOuter: reach(c.RimOuter), baseOuter: reach(c.BaseOuter),
			rimInner: reach(c.RimInner), baseInner: reach(c.BaseInner), stone: edge, cut: reach(cut),
			leaves: (edge - keel) / c.Solid.PavilionMM,
		}.points(c.LedgeMM > 0)
		g := c.Seat.RestMM + c.Solid.GirdleMM
		stone[i] = [][2]float64{{keel, c.Seat.RestMM - c.Solid.PavilionMM}, {edge, c.Seat.RestMM}, {edge, g}, {reach(table), c.Seat.RestMM + c.Solid.TableMM()}}
		if i == 0 {
			s.Right = wall
		} else {
			s.Left = turned(wall)
		}
	}
	s.Stone = append(s.Stone, stone[0]...)
	for i := len(stone[1]) - 1; i >= 0; i-- {
		s.Stone = append(s.Stone, turned(stone[1])[i])
	}
	return s, nil
}

func turned(points [][2]float64) [][2]float64 {
	out := make([][2]float64, len(points))
	for i, p := range points {
		out[i] = [2]float64{-p[0], p[1]}
	}
	return out
}

// profile is one side of the cut: how far out each outline lies. leaves is by how
// much the pavilion draws in for each mm of depth.
type profile struct {
	rim, base, rimOuter, baseOuter, rimInner, baseInner, stone, cut, leaves float64
}

// points of the wall, from the base outside over the rim to the base inside.
func (p profile) points(ledge bool) [][2]float64 {
	slope := (p.rimInner - p.baseInner) / (p.rim - p.base)
	at := func(z float64) float64 { return p.baseInner + slope*(z-p.base) }
	points := [][2]float64{{p.baseOuter, p.base}, {p.rimOuter, p.rim}}
	floor := 0.0
	if draws := p.leaves - slope; draws > 1e-9 {
		floor = max(0, p.stone-at(0)) / draws
	}
	if !ledge || at(0) >= p.cut || floor > -p.base {
		return append(points, [2]float64{p.rimInner, p.rim}, [2]float64{p.baseInner, p.base})
	}
	top := p.rim
	if p.rimInner > p.cut {
		top = (p.cut - at(0)) / slope
		points = append(points, [2]float64{p.rimInner, p.rim})
	}
	points = append(points, [2]float64{p.cut, top}, [2]float64{p.cut, 0})
	if at(0) < p.stone {
		points = append(points, [2]float64{p.stone, 0}, [2]float64{at(-floor), -floor})
	} else {
		points = append(points, [2]float64{at(0), 0})
	}
	return append(points, [2]float64{p.baseInner, p.base})
}
