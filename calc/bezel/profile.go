package bezel

import (
	"fmt"
	"math"

	"guildhand/calc/units"
)

// profile is a dome's half section: the conic from the girdle (R, 0) to the
// crown (0, H), in Bézier's rational form with the middle point where the two
// end tangents meet and the weight cos(turn/2), turn being how far the
// tangent turns. On a spherical cap the middle point is as far from both ends
// and the conic is the circle; on an upright edge it is the quarter ellipse
// (L. Piegl and W. Tiller, The NURBS Book, ch. 7; from memory).
type profile struct {
	R, H, x1, weight float64
}

func profileOf(halfWidthMM, domeMM float64, edge units.Angle) (profile, error) {
	p := profile{R: halfWidthMM, H: domeMM}
	p.x1 = p.R - p.H*edge.Tan()
	if p.x1 < 0.02*p.R {
		flattest := units.Angle(math.Atan(0.98 * p.R / p.H)).Degrees()
		return p, &Error{fmt.Sprintf("a dome of %.2f mm whose side leans %.0f degrees would come to a point: at that height it leans %.0f degrees at most",
			domeMM, edge.Degrees(), math.Floor(flattest))}
	}
	p.weight = math.Cos((math.Pi/2 - edge.Radians()) / 2)
	return p, nil
}

// at is the point of the profile at u from 0 (girdle) to 1 (crown).
func (p profile) at(u float64) (x, y float64) {
	v := 1 - u
	b0, b1, b2 := v*v, 2*u*v*p.weight, u*u
	sum := b0 + b1 + b2
	return (b0*p.R + b1*p.x1) / sum, (b1 + b2) * p.H / sum
}

// Side is the stone's half section across its narrow way: n points from the foot
// of its side, half the width out at the height of its back, up to the crown.
// Points are x from the middle and y from the back, mm.
func (b Bezel) Side(n int) ([][2]float64, error) {
	size := b.Stone.Size()
	half := math.Min(size.LengthMM, size.WidthMM) / 2
	p, err := profileOf(half, b.DomeMM-b.GirdleMM, b.Edge)
	if err != nil {
		return nil, err
	}
	points := [][2]float64{{half, 0}}
	for i := range n - 1 {
		x, y := p.at(float64(i) / float64(n-2))
		points = append(points, [2]float64{x, b.GirdleMM + y})
	}
	return points, nil
}

// drawnIn is where the profile has drawn in by mm from the girdle.
func (p profile) drawnIn(mm float64) (u float64, ok bool) {
	if mm >= p.R {
		return 0, false
	}
	lo, hi := 0.0, 1.0
	for range 60 {
		mid := (lo + hi) / 2
		if x, _ := p.at(mid); p.R-x < mm {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, true
}

// along is where the profile has run for mm from the girdle.
func (p profile) along(mm float64) (u float64, ok bool) {
	if mm > p.length(1) {
		return 1, false
	}
	lo, hi := 0.0, 1.0
	for range 40 {
		mid := (lo + hi) / 2
		if p.length(mid) < mm {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, true
}

// length of the profile from the girdle to u, by chords fine enough for
// 0.001 mm on stones of 100 mm.
func (p profile) length(u float64) float64 {
	const n = 400
	sum := 0.0
	x, y := p.at(0)
	for i := 1; i <= n; i++ {
		xx, yy := p.at(u * float64(i) / n)
		sum += math.Hypot(xx-x, yy-y)
		x, y = xx, yy
	}
	return sum
}

// lean of the profile at u, from the vertical.
func (p profile) lean(u float64) units.Angle {
	const d = 1e-6
	x0, y0 := p.at(math.Max(0, u-d))
	x1, y1 := p.at(math.Min(1, u+d))
	return units.Angle(math.Atan2(x0-x1, y1-y0))
}
