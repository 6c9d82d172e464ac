package requests

import (
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/setting"
	"guildhand/calc/units"
)

// proportionOptions are the stone's own proportions, where its maker knows them.
func proportionOptions() []catalogue.Option {
	return []catalogue.Option{
		tipOption(),
		{
			Name: "girdle", Aliases: []string{"girdle-thickness"},
			Summary: "thickness of the stone's girdle, mm; else typical of its cut",
			Kind:    catalogue.Length, Min: 0.01, Max: 5, Suggest: []string{"0.1", "0.2", "0.3"},
		},
		{
			Name: "crown", Aliases: []string{"crown-angle"},
			Summary: "angle of the stone's crown from the girdle, degrees; else typical of its cut",
			Kind:    catalogue.Angle, Min: 5, Max: 60, Suggest: []string{"30", "34.5", "40"},
		},
		{
			Name: "pavilion", Aliases: []string{"pavilion-angle"},
			Summary: "angle of the stone's pavilion from the girdle, degrees; else typical of its cut",
			Kind:    catalogue.Angle, Min: 10, Max: 75, Suggest: []string{"41", "43", "48"},
		},
		{
			Name:    "table",
			Summary: "width of the stone's table, per cent of its width; else typical of its cut",
			Kind:    catalogue.Percent, Min: 20, Max: 90, Suggest: []string{"55", "60", "65"},
		},
	}
}

// retiredBearing is said to lines that still give the bearing as a depth.
func retiredBearing() map[string]string {
	return map[string]string{
		"bearing": "the bearing is now cut into a ledge: say how far the wall stands under the stone, such as ledge 0.2, or leave it out for the usual one",
	}
}

// solidOf is the stone as a solid, with what the call says of its proportions.
func solidOf(c *catalogue.Call, curve outline.Curve, depthMM float64) seat.Stone {
	return seat.NewStone(curve, depthMM, seat.Given{
		GirdleMM: c.Number("girdle"), TableShare: c.Number("table") / 100,
		Crown:    units.Angle(c.Number("crown")) * units.Degree,
		Pavilion: units.Angle(c.Number("pavilion")) * units.Degree,
	})
}

// seat settles the stone's proportions and the rim.
func (u *colletUsed) seat(c *catalogue.Call, spec *setting.Spec) {
	spec.Solid = solidOf(c, u.stone.curve, u.stone.depthMM)
	if c.Args.Has("rim") {
		spec.RimMM = c.Number("rim")
		return
	}
	spec.RimMM = spec.Solid.DefaultRimMM(spec.ClearanceMM)
	u.assumptions = append(u.assumptions, fmt.Sprintf("rim %s mm (40 %% of the crown, published)", words.MM(spec.RimMM)))
}

// ledge settles what the stone rests on.
func (u *colletUsed) ledge(c *catalogue.Call, spec *setting.Spec) error {
	asked := c.Args.Word("support")
	spec.Carried = asked == "wire" || asked == "step"
	switch {
	case c.Args.Has("ledge"):
		spec.LedgeMM = c.Number("ledge")
		return nil
	case spec.Carried:
		return nil // the wall stands outside the stone, and what is soldered in carries it
	}
	spec.LedgeMM = seat.DefaultLedgeMM(spec.Wall(), spec.Solid.WidthMM)
	if spec.LedgeMM <= 0 {
		return answer.Refuse(c.Retyped(map[string]string{"ledge": "0.2"}),
			"a clearance of %s takes as much of this wall as the usual bearing, so nothing is left for a ledge: say how wide it should be, or ledge 0 for a wall that the stone drops into",
			words.Length(c, spec.ClearanceMM))
	}
	u.assumptions = append(u.assumptions, fmt.Sprintf("ledge %s mm (%.0f %% of the wall, published)", words.MM(spec.LedgeMM), 100*spec.Wall().Share()))
	return nil
}

// saySeat collects what the seat assumes and warns of.
func (u *colletUsed) saySeat(c *catalogue.Call) {
	s := u.Solid
	if !allGiven(c, "crown", "girdle", "pavilion", "table") {
		u.assumptions = append(u.assumptions, fmt.Sprintf("crown %.0f°, pavilion %.0f°, girdle %s mm, table %.0f %% (typical)",
			s.CrownAngle().Degrees(), s.PavilionAngle().Degrees(), words.MM(s.GirdleMM), 100*s.TableShare))
	}
	if math.Abs(s.OffDepthMM) > 0.05 {
		u.notes = append(u.notes, fmt.Sprintf("The angles and the girdle make the stone %s deep, not %s: measure them again.",
			words.Length(c, u.stone.depthMM+s.OffDepthMM), words.Length(c, u.stone.depthMM)))
	}
	// The worst come first; a first screen has room for two.
	warnings := slices.Concat(restNotes(c, u), wallNotes(c, u), heightNotes(c, u), pointNotes(c, u), cleftNotes(c, u))
	first := min(2, len(warnings))
	u.notes = append(u.notes, warnings[:first]...)
	u.alsoWarned = warnings[first:]
	if u.RoughMM == setting.SlightlyRoughMM {
		u.alsoWarned = append(u.alsoWarned, fmt.Sprintf("Outside measures are good to %s at the corners, which stand over a base of another outline.", words.Length(c, u.RoughMM)))
	}
}

// cleftNotes say how far the seat's figures may be off in a heart's cleft.
func cleftNotes(c *catalogue.Call, u *colletUsed) []string {
	if u.stone.curve.Convex() {
		return nil
	}
	return []string{fmt.Sprintf("Beside the cleft, the figures of the seat are good to %s: cut the bearing there to the stone in hand.", words.Length(c, setting.CleftDoubtMM))}
}

func allGiven(c *catalogue.Call, names ...string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return !c.Args.Typed(n) })
}

// placeWords says where round the stone a direction of its level normal is.
func placeWords(kind outline.Kind, at units.Angle) string {
	sin, cos := math.Sin(at.Radians()), math.Cos(at.Radians())
	d := kind.Describe()
	switch {
	case d.Regular && kind != outline.Square:
		return "in places"
	case sin < -0.9 && (kind == outline.Pear || kind == outline.Heart):
		return "at the point"
	case math.Abs(sin) > 0.9 && kind == outline.Marquise:
		return "at the points"
	case kind == outline.Square && max(math.Abs(sin), math.Abs(cos)) > 0.9, math.Abs(cos) > 0.9:
		return "at the sides"
	case math.Abs(sin) > 0.9:
		return "at the ends"
	case kind == outline.Oval, kind == outline.Pear, kind == outline.Marquise, kind == outline.Heart:
		return "between sides and ends"
	}
	return "at the corners"
}

// restNotes say where the stone rests, if not all round on its bearing.
func restNotes(c *catalogue.Call, u *colletUsed) []string {
	var notes []string
	s := u.Seat
	say := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	place := func(at units.Angle) string { return placeWords(u.stone.shape.Kind, at) }
	const seen = 0.005 // mm, what a figure of two decimals shows
	switch {
	case s.Falls:
		say("The stone falls through this wall: solder in a bearing wire, or leave a ledge.")
	case u.Carried:
	case u.LedgeMM == 0 && s.RestMM > seen:
		say("%s the wall stops the stone %s above its level: file the inside out there.", words.Capital(place(s.RestAt)), words.Length(c, s.RestMM))
	case u.LedgeMM == 0 && s.StandsOffMM > seen:
		say("Without a ledge the stone rests %s lower, %s only: %s the wall stands %s off. Add a bearing wire.",
			words.Length(c, max(0, -s.RestMM)), place(s.RestAt), place(s.StandsOffAt), words.Length(c, s.StandsOffMM))
	case u.LedgeMM == 0 && s.RestMM < 0:
		say("Without a ledge the stone rests %s lower.", words.Length(c, -s.RestMM))
	case s.Tips:
		say("A ledge of %s lets the stone tip: add a bearing wire.", words.Length(c, u.LedgeMM))
	}
	if s.Wedges {
		say("The pavilion, up to %.0f°, wedges down a wall of %.0f° before the girdle rests.",
			u.Solid.SteepestPavilion().Degrees(), u.Flat.MaxLean.Degrees())
	}
	if s.Unsupported {
		say("%s the bearing would run out of the base, %s below the girdle line: make the wall higher, or its lean less.", words.Capital(place(s.FloorAt)), words.Length(c, s.FloorMM))
	}
	if u.LedgeMM == 0 || u.Carried {
		return notes
	}
	switch off := s.StandsOffMM - u.LedgeMM; {
	case off > seen:
		say("%s the wall stands %s outside the stone: solder in a bearing wire.", words.Capital(place(s.StandsOffAt)), words.Length(c, off))
	case s.StandsOffMM > max(1e-6, u.LedgeMM-u.ClearanceMM-seat.TipsMM):
		say("%s the ledge is %s, and the stone may tip: add a bearing wire.", words.Capital(place(s.StandsOffAt)), words.Length(c, max(0, -off)))
	case s.StandsOffMM > 0.05:
		say("%s the ledge is %s.", words.Capital(place(s.StandsOffAt)), words.Length(c, -off))
	}
	return notes
}

// wallNotes say what the bearing leaves of the wall.
func wallNotes(c *catalogue.Call, u *colletUsed) []string {
	var notes []string
	s := u.Seat
	say := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	switch {
	case s.BehindMM <= 0:
		say("The bearing cuts through the wall: take a smaller ledge.")
	case s.RimLeftMM <= 0:
		say("The bearing cuts through the rim: take a smaller ledge or a lower rim.")
	case s.Share > seat.MostShare:
		say("The bearing takes %.0f %% of the wall, more than half, and leaves %s.", 100*s.Share, words.Length(c, s.BehindMM))
	case s.BehindMM < seat.ThinMM:
		say("Only %s of wall is left behind the bearing: it may tear.", words.Length(c, s.BehindMM))
	}
	return notes
}

// heightNotes say where rim or base stand wrong to the stone.
func heightNotes(c *catalogue.Call, u *colletUsed) []string {
	var notes []string
	s := u.Seat
	say := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if u.RoughMM > setting.SlightlyRoughMM {
		say("The lean changes by %.0f°: outside measures are good to %s.", (u.Flat.MaxLean - u.Flat.MinLean).Degrees(), words.Length(c, u.RoughMM))
	}
	if over := u.RimMM - u.Solid.TableMM(); over > 0.005 {
		say("The rim stands %s above the table.", words.Length(c, over))
	}
	if s.AboveGirdleMM <= 0.005 {
		say("The rim ends below the girdle's upper edge: nothing can be pushed over.")
	}
	if s.ProudMM > 1e-9 && !s.Falls {
		say("The culet may stand %s below the base: measure the stone's depth.", words.Length(c, s.ProudMM))
	}
	return notes
}

// seatFigures are the finished piece's figures.
func seatFigures(u colletUsed) []answer.Figure {
	s := u.Seat
	figures := []answer.Figure{
		{ID: "ledge", Label: "ledge under the stone", Value: u.LedgeMM, Unit: answer.MM, Main: true, Text: u.ledgeWords()},
		{ID: "finished_height", Label: "height, filed level", Value: u.HeightMM, Unit: answer.MM},
		{ID: "finished_rim_above_girdle", Label: "rim above the girdle's upper edge, filed level", Value: s.AboveGirdleMM, Unit: answer.MM},
		{ID: "edge_loss", Label: "left to true each edge", Value: u.LossMM, Unit: answer.MM},
		{ID: "rest_level", Label: "where the stone rests, from the girdle line", Value: s.RestMM, Unit: answer.MM},
		{ID: "wall_behind_bearing", Label: "wall left behind the bearing, level", Value: s.BehindMM, Unit: answer.MM},
		{ID: "wall_at_rim", Label: "wall left at the rim, level", Value: s.RimLeftMM, Unit: answer.MM},
		{ID: "bearing_share", Label: "share of the wall that the bearing takes", Value: 100 * s.Share, Unit: answer.Percent},
		{ID: "culet_room", Label: "culet above the base", Value: -s.ProudMM, Unit: answer.MM},
		{ID: "girdle_thickness", Label: "girdle, thickness", Value: u.Solid.GirdleMM, Unit: answer.MM},
		{ID: "crown_angle", Label: "crown", Value: u.Solid.CrownAngle().Degrees(), Unit: answer.Degree},
		{ID: "pavilion_angle", Label: "pavilion", Value: u.Solid.PavilionAngle().Degrees(), Unit: answer.Degree},
	}
	if s.Falls {
		figures = slices.DeleteFunc(figures, func(f answer.Figure) bool {
			return f.ID == "rest_level" || f.ID == "finished_rim_above_girdle" || f.ID == "culet_room"
		})
	}
	figures = append(figures, pointFigures(u)...)
	figures = append(figures, u.soldered.figures()...)
	if wire, ok := offered(u); ok {
		figures = append(figures, wire.figures()...)
	}
	return figures
}

// ledgeWords replace a ledge that is not there.
func (u colletUsed) ledgeWords() string {
	switch {
	case u.LedgeMM > 0:
		return ""
	case u.soldered.rests():
		return "none, on the " + u.soldered.word()
	}
	return "none, it drops in"
}

// offered is the bearing wire for a wall that has no ledge, or one too small to
// hold the stone, where nothing was asked for.
func offered(u colletUsed) (support, bool) {
	if u.soldered.kind != "" || u.LedgeMM > 0 && !u.Seat.Tips || u.Taper != setting.Even {
		return support{}, false
	}
	s := support{kind: "wire"}
	s.sizeMM = s.usualMM(u)
	return s, s.lay(&u) == nil
}

// seatSteps cut the bearing and set the stone.
func seatSteps(c *catalogue.Call, m *making, u colletUsed) {
	for _, warning := range u.alsoWarned {
		m.add("%s", warning)
	}
	work := []cautions.Job{cautions.Setting}
	u.soldered.step(c, m, u)
	if wire, ok := offered(u); ok {
		wire.step(c, m, u)
	}
	switch {
	case u.soldered.rests():
		m.do(work, "Set the stone last: it must lie level on its %s before the rim is pushed over.", u.soldered.word())
	case u.LedgeMM == 0:
		m.do(work, "Try the stone: it goes down until its edge meets the wall.")
	case !u.Solid.Outline.Smooth():
		m.do(work, "Cut the bearing to the stone in hand: its side up from the girdle line, its floor at the pavilion's slope, %.0f°. Relieve it with a small bur hole beyond and under each sharp corner, set the corners first, then the sides.", u.Solid.PavilionAngle().Degrees())
	default:
		m.do(work, "Cut the bearing to the stone in hand: its side up from the girdle line, its floor at the pavilion's slope, %.0f°. The stone must rest on it all round.", u.Solid.PavilionAngle().Degrees())
	}
	if u.Seat.RimLeftMM > seat.HeavyMM {
		m.add("Thin the rim's outside before you push it over: it is %s thick above the bearing, and over about %s is hard to move (common practice, no source).", words.Length(c, u.Seat.RimLeftMM), words.Length(c, seat.HeavyMM))
	}
	if u.LossMM > 0.15 {
		m.add("As cut, the wall is %s high over all and its rim %s above the girdle line; filed level %s and %s.",
			words.Length(c, u.HeightMM+2*u.LossMM), words.Length(c, u.RimMM+u.LossMM), words.Length(c, u.HeightMM), words.Length(c, u.RimMM))
	}
}

// proportionStep says what the stone's proportions usually are.
func proportionStep(m *making, u colletUsed) {
	p := u.stone.shape.Kind.Describe().Proportions
	if p.Table.Typical == 0 {
		return
	}
	m.add("The stone was taken with a table of %.0f %% (%.0f to %.0f %%: %s) and a girdle of %.1f %% of its width (%.1f to %.1f %%: GIA's tables and Tolkowsky 1919 for rounds). Measure yours, and give crown, pavilion, girdle or table where it differs.",
		100*u.Solid.TableShare, 100*p.Table.Least, 100*p.Table.Most, p.Source, 100*u.Solid.GirdleMM/u.Solid.WidthMM, 100*p.Girdle.Least, 100*p.Girdle.Most)
}

// faceWords say where the inner face lies at the girdle line.
func faceWords(c *catalogue.Call, u colletUsed) string {
	if u.LedgeMM == 0 {
		return "plus " + words.Length(c, u.ClearanceMM) + " of play"
	}
	return "less a ledge of " + words.Length(c, u.LedgeMM)
}
