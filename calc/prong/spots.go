// Package prong turns a collet into prongs: where they stand round the stone,
// how wide they are, and the windows to saw out between them, drawn on the
// collet's own flat blank.
package prong

import (
	"fmt"
	"math"
	"slices"

	"guildhand/calc/outline"
)

// Error is a set of prongs that can't be made; its text is a sentence without
// a full stop.
type Error struct {
	Problem string
	// Number is a number of prongs that would work; 0 if none is known.
	Number int
}

func (e *Error) Error() string { return e.Problem }

// Spot is where a prong stands: at the arc length AtMM of the stone's outline.
type Spot struct {
	AtMM float64
	// Corner is set for a prong that goes round a corner of the outline.
	Corner bool
	// Where is the place in words, "at the point".
	Where string
}

// MostProngs bounds how many prongs can be asked for.
const MostProngs = 16

// Usual is the usual number of prongs of an outline.
func Usual(c outline.Curve) int {
	usual := c.Kind.Describe().Prongs.Usual
	if usual == outline.OnePer6MM {
		return min(12, max(4, 2*int(math.Round(c.PerimeterMM()/12))))
	}
	return usual
}

// Spots places n prongs on an outline by the rule in its description. Points
// are always covered, and the other prongs are spaced evenly from there;
// outlines with corners have a prong at each and further ones in the middle of
// the sides; every other outline has them at even distances along the girdle,
// half a distance from the usual seam.
func Spots(c outline.Curve, n int) ([]Spot, error) {
	if n < 2 || n > MostProngs {
		return nil, &Error{fmt.Sprintf("%d prongs are outside 2 to %d", n, MostProngs), Usual(c)}
	}
	rule := c.Kind.Describe().Prongs
	pointed := rule.At == outline.FromPoint || rule.At == outline.OnCornersAndArc
	switch {
	case rule.Even && n%2 != 0:
		return nil, &Error{fmt.Sprintf("a %s has both points covered and takes an even number of prongs, not %d", c.Kind, n), n + 1}
	case pointed && !rule.Even && n < 3:
		return nil, &Error{fmt.Sprintf("a %s needs 3 prongs or more", c.Kind), 3}
	}
	switch rule.At {
	case outline.FromPoint:
		return fromPoint(c, n), nil
	case outline.OnCornersAndArc:
		return cornersAndArc(c, n), nil
	case outline.OnCorners, outline.OnRoundedCorners:
		return cornered(c, corners(c), n)
	}
	start := 0.0
	if place, ok := c.PlaceNamed(""); ok {
		if mm, ok := c.LengthTo(place); ok {
			start = mm
		}
	}
	return Even(c, n, start), nil
}

// Even places n prongs at even distances along the girdle, the first half a
// distance after the arc length fromMM.
func Even(c outline.Curve, n int, fromMM float64) []Spot {
	p := c.PerimeterMM()
	spots := make([]Spot, n)
	for i := range spots {
		spots[i] = spotAt(c, math.Mod(fromMM+p*(float64(i)+0.5)/float64(n), p), "")
	}
	return spots
}

// At places prongs where the maker says, in per cent of the way round from the
// arc length fromMM, rising.
func At(c outline.Curve, fromMM float64, percents []float64) []Spot {
	p := c.PerimeterMM()
	spots := make([]Spot, len(percents))
	for i, v := range percents {
		spots[i] = spotAt(c, math.Mod(fromMM+p*v/100, p), "")
	}
	return spots
}

// spotAt makes a spot and finds out whether it lies on a corner.
func spotAt(c outline.Curve, mm float64, where string) Spot {
	s := Spot{AtMM: mm, Where: where}
	at, p := 0.0, c.PerimeterMM()
	for i, piece := range c.Pieces {
		if c.Turning(i) != 0 && math.Abs(math.Remainder(mm-at, p)) < 1e-6*p {
			s.Corner = true
		}
		at += piece.LengthMM()
	}
	return s
}

// fromPoint spaces n prongs evenly from the outline's point.
func fromPoint(c outline.Curve, n int) []Spot {
	p := c.PerimeterMM()
	place, _ := c.PlaceNamed("point")
	start, _ := c.LengthTo(place)
	spots := make([]Spot, n)
	for i := range spots {
		spots[i] = spotAt(c, math.Mod(start+p*float64(i)/float64(n), p), "")
		if spots[i].Corner {
			spots[i].Where = "at a point"
		}
	}
	spots[0].Where = place.Summary
	return spots
}

// cornersAndArc has a prong at both corners of the flat side and the others
// evenly on the round one.
func cornersAndArc(c outline.Curve, n int) []Spot {
	flat, round := c.Pieces[0].LengthMM(), c.Pieces[1].LengthMM()
	spots := []Spot{{AtMM: 0, Corner: true, Where: "at a corner"}}
	for i := range n - 1 {
		spots = append(spots, spotAt(c, flat+round*float64(i)/float64(n-1), ""))
	}
	spots[1].Where = "at a corner"
	return spots
}

// corners are the spots of an outline that has them: the corners of a polygon
// and of a trillion, and the middles of the cut or rounded corners of an
// emerald, octagon, cushion or cut trillion.
func corners(c outline.Curve) []Spot {
	cut, hasCut := c.PlaceNamed("cut")
	rounded := c.Kind.Describe().Prongs.At == outline.OnRoundedCorners
	var spots []Spot
	at := 0.0
	for i, piece := range c.Pieces {
		l := piece.LengthMM()
		switch {
		case hasCut || rounded:
			odd, where := 1, "on a rounded corner"
			if hasCut {
				odd, where = cut.Tag%2, "on a cut corner"
			}
			if i%2 == odd {
				spots = append(spots, Spot{AtMM: at + l/2, Where: where})
			}
		case c.Turning(i) > 0:
			spots = append(spots, Spot{AtMM: at, Corner: true, Where: "at a corner"})
		}
		at += l
	}
	return spots
}

// cornered puts prongs at every corner and then in the middles of the longest
// sides, in pairs or as many as there are sides of that length.
func cornered(c outline.Curve, corners []Spot, n int) ([]Spot, error) {
	k := len(corners)
	if c.Kind.Describe().Prongs.EveryOtherCorner && 2*n == k {
		var others []Spot
		for i := 0; i < k; i += 2 {
			others = append(others, corners[i])
		}
		return others, nil
	}
	if n < k {
		return nil, &Error{fmt.Sprintf("a %s has %d corners to cover: %d prongs are too few", c.Kind, k, n), k}
	}
	p := c.PerimeterMM()
	type side struct{ mid, length float64 }
	var sides []side
	for i, a := range corners {
		next := corners[(i+1)%k].AtMM
		if i == k-1 {
			next += p
		}
		sides = append(sides, side{math.Mod((a.AtMM+next)/2, p), next - a.AtMM})
	}
	slices.SortStableFunc(sides, func(a, b side) int {
		switch d := b.length - a.length; {
		case d > 1e-6:
			return 1
		case d < -1e-6:
			return -1
		}
		return 0
	})
	var allowed []int
	for i := range sides {
		if i == k-1 || sides[i].length-sides[i+1].length > 1e-6 {
			allowed = append(allowed, k+i+1)
		}
	}
	if n > k && !slices.Contains(allowed, n) {
		best := k
		for _, a := range allowed {
			if math.Abs(float64(a-n)) < math.Abs(float64(best-n)) {
				best = a
			}
		}
		return nil, &Error{fmt.Sprintf("%d prongs don't divide evenly over the %d corners and the sides of a %s", n, k, c.Kind), best}
	}
	spots := slices.Clone(corners)
	for _, s := range sides[:n-k] {
		spots = append(spots, Spot{AtMM: s.mid, Where: "in the middle of a side"})
	}
	slices.SortFunc(spots, func(a, b Spot) int {
		if a.AtMM < b.AtMM {
			return -1
		}
		return 1
	})
	return spots, nil
}

// BestSeam is the outline's named place that lies furthest from any prong, so
// that a window takes away most of the seam; the trade's default place wins
// where it is as far as any.
func BestSeam(c outline.Curve, spots []Spot) outline.Place {
	var best outline.Place
	furthest := -1.0
	for _, place := range c.Places {
		mm, ok := c.LengthTo(place)
		if !ok {
			continue
		}
		if d := nearest(c, spots, mm); d > furthest+1e-6 {
			best, furthest = place, d
		}
	}
	return best
}

// nearest is the arc length from mm to the nearest spot.
func nearest(c outline.Curve, spots []Spot, mm float64) float64 {
	p, least := c.PerimeterMM(), math.Inf(1)
	for _, s := range spots {
		least = math.Min(least, math.Abs(math.Remainder(mm-s.AtMM, p)))
	}
	return least
}
