package requests

import (
	"fmt"
	"math"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/units"
)

// tipOption is the angle of a stone's own point, for the bevel of a seam there.
func tipOption() catalogue.Option {
	return catalogue.Option{
		Name: "tip", Aliases: []string{"tip-angle"},
		Summary: "angle of the stone's own point, degrees, for the bevel of a seam there; else as drawn",
		Kind:    catalogue.Angle, Min: 30, Max: 175, Suggest: []string{"80", "90", "105"},
	}
}

// point settles the angle of the point where the seam lies on one.
func (u *colletUsed) point(c *catalogue.Call) {
	drawn := 180 - 2*u.Flat.Bevel.Degrees()
	switch {
	case u.Flat.Bevel == 0 || u.Flat.BevelReflex || u.preCone:
		if c.Args.Has("tip") {
			u.notes = append(u.notes, "The tip's angle changes nothing here: it is for the bevel of a seam at a point.")
		}
	case c.Args.Has("tip"):
		u.tip = units.Angle(c.Number("tip")) * units.Degree
		if off := math.Abs(c.Number("tip") - drawn); off > 5 {
			u.notes = append(u.notes, fmt.Sprintf("The blank is drawn for a point of %.0f°: trim its ends to your stone's %.0f°.", drawn, c.Number("tip")))
		}
	case u.stone.shape.Kind == outline.Pear || u.stone.shape.Kind == outline.Marquise || u.stone.shape.Kind == outline.Heart:
		u.assumptions = append(u.assumptions, fmt.Sprintf("point %.0f° (as drawn; else tip)", drawn))
	}
}

// bevel is the seam's bevel seen from above.
func (u colletUsed) bevel() units.Angle {
	if u.tip > 0 {
		return (180*units.Degree - u.tip) / 2
	}
	return u.Flat.Bevel
}

// bevelAcross is the bevel across the sheet: half the dihedral turning of two
// faces that lean by a and turn by theta, cos beta = cos2 a cos theta + sin2 a.
func (u colletUsed) bevelAcross() units.Angle {
	if u.tip == 0 {
		return u.Flat.BevelAcross
	}
	cos, sin := u.MeanLean.Cos(), u.MeanLean.Sin()
	return units.Angle(math.Acos(cos*cos*(2*u.bevel()).Cos()+sin*sin) / 2)
}

// pinchSaidMM is the least pinch at a point that an answer speaks of: what a
// bench can see.
const pinchSaidMM = 0.02

// pointNotes say what is tight at the stone's points.
func pointNotes(c *catalogue.Call, u *colletUsed) []string {
	var notes []string
	say := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if u.HasPoint {
		if u.Point.PinchMM > pinchSaidMM {
			left := u.ClearanceMM - u.Point.PinchMM
			switch {
			case u.LedgeMM == 0 && left < 0:
				say("At the point the folded wall touches the stone by %s: file its inside out there.", words.Length(c, -left))
			case u.LedgeMM == 0:
				say("At the point the folded wall leaves %s of play.", words.Length(c, left))
			default:
				say("At the point the folded wall stands %s nearer: relieve it there.", words.Length(c, u.Point.PinchMM))
			}
		}
		switch {
		case u.LedgeMM > 0 && u.Point.LeftMM <= 0 && u.Seat.BehindMM > 0:
			say("In the sharpest corner the bearing cuts through the wall.")
		case u.LedgeMM > 0 && u.InsideRadiusMM > 0 && u.Point.LeftMM < seat.ThinMM:
			say("The bearing leaves %s of wall in the corners: it may tear.", words.Length(c, u.Point.LeftMM))
		}
	}
	if u.BaseTrimmed() {
		say("The base has a corner: bend it there.")
	}
	return notes
}

// pointFigures are those of a stone with sharp corners.
func pointFigures(u colletUsed) []answer.Figure {
	if !u.HasPoint {
		return nil
	}
	return []answer.Figure{
		{ID: "point_pinch", Label: "wall nearer at the point than elsewhere", Value: u.Point.PinchMM, Unit: answer.MM},
		{ID: "wall_at_corner", Label: "wall left in the corners behind the bearing", Value: u.Point.LeftMM, Unit: answer.MM},
	}
}
