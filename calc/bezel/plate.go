package bezel

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
)

// Plate is the back plate that the wall is soldered on.
type Plate struct {
	// Blank is what is cut: the wall's outer face and the rim round it.
	Blank outline.Curve
	RimMM float64
	// CutOut is the opening under the stone, where HasCutOut is set. Its edge lies
	// ShelfMM inside the wall, and carries the stone on CarriesMM at the least,
	// where the stone has gone all its play to the other side.
	CutOut             outline.Curve
	HasCutOut          bool
	ShelfMM, CarriesMM float64
}

// AreaMM2 of the plate as cut, without the opening.
func (p Plate) AreaMM2() float64 {
	if p.HasCutOut {
		return p.Blank.AreaMM2() - p.CutOut.AreaMM2()
	}
	return p.Blank.AreaMM2()
}

// Plate works out a back plate with a rim outside the wall. A shelf over 0 opens
// it under the stone and leaves so much inside the wall.
func (b Bezel) Plate(rimMM, shelfMM float64) (Plate, error) {
	p := Plate{RimMM: rimMM}
	var err error
	if p.Blank, err = b.Outer.Offset(rimMM); err != nil {
		return p, err
	}
	if shelfMM <= 0 {
		return p, nil
	}
	p.HasCutOut, p.ShelfMM = true, shelfMM
	if p.CarriesMM = shelfMM - 2*b.ClearanceMM; p.CarriesMM <= 0 && b.Bearing == NoBearing {
		return p, &Error{fmt.Sprintf("a shelf of %.2f mm lets the stone fall through, which has %.2f mm of play: leave a wider shelf", shelfMM, 2*b.ClearanceMM)}
	}
	p.CutOut, err = b.Inner.Offset(-shelfMM)
	if size := p.CutOut.Size(); err != nil || math.Min(size.LengthMM, size.WidthMM) < leastCutOutMM {
		return p, &Error{fmt.Sprintf("a shelf of %.2f mm all round leaves no opening of %g mm or more to saw out: leave a narrower shelf, or a solid plate", shelfMM, leastCutOutMM)}
	}
	return p, nil
}

// leastCutOutMM is the narrowest opening that is worth sawing. Common practice, no
// source.
const leastCutOutMM = 1.0

// UsualPlateRimMM is what a back plate has outside the wall to lay solder on, and
// to be filed away afterwards. Common practice, no source.
const UsualPlateRimMM = 1.5

// UsualShelfMM is how much of an open back plate is left inside the wall: 1.5 mm,
// on small stones an eighth of their width. Common practice, no source.
func UsualShelfMM(widthMM float64) float64 {
	return math.Max(0.5, math.Floor(math.Min(1.5, widthMM/8)*10+1e-9)/10)
}

// BearingCarriesMM is how much of the stone's back lies on the bearing at the
// least, where the stone has gone all its play to the other side: a step carries
// on its thickness, a round wire on its crown, half its thickness in.
func (b Bezel) BearingCarriesMM() float64 {
	in := 0.0
	switch b.Bearing {
	case Step:
		in = b.BearingThickMM
	case Wire:
		in = b.BearingMM / 2
	}
	return in - 2*b.ClearanceMM
}
