package requests

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/bezel"
	"guildhand/calc/fit"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// Parts of a bezel beside its strip: what it stands on, how its top edge is cut,
// its corners, and how many are made.

// Usual values of a bezel's parts. Common practice, no source, but for the plate:
// 24 to 18 gauge is published, the thinnest for pendants (rockseeker.com).
const (
	usualPlate    = "24ga"
	usualHoleMM   = 1.0
	usualSawCutMM = 0.3
	mostBezels    = 500
)

// bezelPartOptions are the options of those parts.
func bezelPartOptions() []catalogue.Option {
	return slices.Concat(plateOptions(), topEdgeOptions(), reliefOptions(), []catalogue.Option{
		{
			Name: "count", Aliases: []string{"stones", "pieces"},
			Summary: "how many alike bezels are cut from one strip",
			Kind:    catalogue.Integer, Min: 1, Max: mostBezels, Suggest: []string{"2", "5", "10"},
		},
		{
			Name: "cup", Aliases: []string{"stock-cup", "bezel-cup"},
			Summary: "ask whether a bought bezel cup fits this stone",
			Kind:    catalogue.Flag,
		},
	})
}

func plateOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "plate", Aliases: []string{"back", "backplate", "back-plate"},
			Summary: "back plate: solid, open (a shelf is left under the stone) or none",
			Kind:    catalogue.Word, Default: "solid", DefaultNote: "default",
			Choices: []catalogue.Choice{
				{Key: "solid", Aliases: []string{"closed", "yes"}, Summary: "a whole back plate"},
				{Key: "open", Aliases: []string{"cut-out", "cutout", "window"}, Summary: "sawn out under the stone, with a shelf left"},
				{Key: "none", Aliases: []string{"no"}, Summary: "no plate; the stone sits on a step or a bearing wire"},
			},
		},
		{
			Name: "platethick", Aliases: []string{"plate-thickness", "backthick"},
			Summary: "thickness of the back plate",
			Kind:    catalogue.Thickness, Min: option.MinThicknessMM, Max: option.MaxThicknessMM,
			Default: usualPlate, DefaultNote: "published range 24 to 18 ga",
			Suggest: []string{"24ga", "22ga", "20ga", "18ga", "26ga"},
		},
		{
			Name: "platerim", Aliases: []string{"plate-rim", "margin"},
			Summary: "rim of the back plate outside the wall, for the solder, mm",
			Kind:    catalogue.Length, Min: 0, Max: 20, Default: words.MM(bezel.UsualPlateRimMM), DefaultNote: option.Practice,
			Suggest: []string{"1", "1.5", "2"},
		},
		{
			Name: "shelf", Aliases: []string{"plate-shelf"},
			Summary: "how wide an open back plate is left inside the wall, mm",
			Kind:    catalogue.Length, Min: 0.2, Max: 20, Suggest: []string{"1", "1.5", "2"},
		},
	}
}

func topEdgeOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "edging", Aliases: []string{"top", "top-edge"},
			Summary: "how the top edge is cut: plain, serrated (teeth) or scalloped (round lobes)",
			Kind:    catalogue.Word, Bare: true,
			Choices: []catalogue.Choice{
				{Key: "plain", Aliases: []string{"smooth"}, Summary: "a straight top edge"},
				{Key: "serrated", Aliases: []string{"serrate", "sawtooth", "toothed"}, Summary: "triangular teeth"},
				{Key: "scalloped", Aliases: []string{"scallop", "scallops", "lobed"}, Summary: "round lobes"},
			},
			Excludes: []string{"gallery"},
		},
		{
			Name: "repeats", Aliases: []string{"teeth", "lobes"},
			Summary: "how many teeth or scallops go round, in place of a width",
			Kind:    catalogue.Integer, Min: 2, Max: 400, Suggest: []string{"12", "16", "24"},
			Excludes: []string{"pitch", "gallery"},
		},
		{
			Name: "pitch", Aliases: []string{"tooth-width", "scallop-width"},
			Summary: "about how wide one tooth or scallop is, mm; the nearest width that comes out even is taken",
			Kind:    catalogue.Length, Min: bezel.LeastRepeatMM, Max: 20, Suggest: []string{"1", "2", "3"},
			Excludes: []string{"gallery"},
		},
		{
			Name: "cutdepth", Aliases: []string{"cut-depth", "tooth-depth"},
			Summary: "how deep the top edge is cut between teeth or scallops, mm",
			Kind:    catalogue.Length, Min: 0.1, Max: 10, Suggest: []string{"0.3", "0.5", "1"},
			Excludes: []string{"gallery"},
		},
		{
			Name: "gallery", Aliases: []string{"gallery-strip", "gallery-pitch"},
			Summary: "a bought gallery strip: the length of one repeat of its pattern, mm",
			Kind:    catalogue.Length, Min: 0.5, Max: 50, Suggest: []string{"2.5", "3.2", "4"},
			Excludes: []string{"filing"},
		},
	}
}

func reliefOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "relief", Aliases: []string{"corner-relief"},
			Summary: "relief at sharp corners: none, notch (a V in the top edge), hole (under the stone) or both",
			Kind:    catalogue.Word,
			Choices: []catalogue.Choice{
				{Key: "none", Summary: "corners as they are"},
				{Key: "notch", Aliases: []string{"v", "v-notch"}, Summary: "a V cut into the top edge at each corner"},
				{Key: "hole", Aliases: []string{"drill", "bur"}, Summary: "a hole in the plate or step under each corner of the stone"},
				{Key: "both", Summary: "a notch and a hole"},
			},
		},
		{
			Name: "reliefhole", Aliases: []string{"relief-drill"},
			Summary: "diameter of the relief hole under a corner, mm",
			Kind:    catalogue.Length, Min: 0.3, Max: 4, Suggest: []string{"0.8", "1", "1.2"},
		},
	}
}

// bezelParts are the parts of a computed bezel beside its strip.
type bezelParts struct {
	plate    bezel.Plate
	plateMM  float64 // 0 without a plate
	edge     bezel.Pattern
	gallery  bezel.Gallery
	notches  []bezel.Notch
	holes    []outline.Point
	holeMM   float64
	count    int
	cup      stockCup
	cupAsked bool
}

// hasEdge reports whether the top edge is cut into repeats.
func (p bezelParts) hasEdge() bool { return p.edge.Edging != bezel.PlainEdge }

// hasGallery reports whether the wall is a bought gallery strip.
func (p bezelParts) hasGallery() bool { return p.gallery.Repeats > 0 }

// stockCup is the nearest size for which bezel cups are sold.
type stockCup struct {
	size  outline.Size
	offMM float64
	known bool
}

// fits reports whether a cup of that size takes the stone: a published rule lets
// calibrated stones differ by 0.1 mm, those over a carat, here 6.5 mm, by 0.2.
func (s stockCup) fits() bool {
	most := stone.CalibratedFitMM
	if s.size.WidthMM > 6.5 {
		most *= 2
	}
	return s.known && math.Abs(s.offMM) <= most+1e-9
}

// onlyWith are options that mean something only beside another.
var onlyWith = []struct{ option, beside, try, why string }{
	{"repeats", "edging", "serrated", "repeats count the teeth or scallops of the top edge: say serrated or scalloped too"},
	{"pitch", "edging", "serrated", "a pitch is the width of a tooth or scallop: say serrated or scalloped too, or gallery with the repeat of a bought strip"},
	{"cutdepth", "edging", "serrated", "a cut depth is for a serrated or scalloped top edge: say which"},
	{"seat", "bearing", "step", "a seat is the height of a step or the thickness of a bearing wire: say bearing step or bearing wire too"},
	{"stepthick", "bearing", "step", "a step's thickness needs a step: say bearing step too"},
}

// besideNothing refuses options that were typed without what they belong to.
func besideNothing(c *catalogue.Call) error {
	for _, o := range onlyWith {
		value := c.Args.Word(o.beside)
		if c.Args.Typed(o.option) && (value == "" || value == "none" || value == "plain") {
			return answer.Refuse(c.Retyped(map[string]string{o.beside: o.try}), "%s", o.why)
		}
	}
	switch plate := c.Args.Word("plate"); {
	case c.Args.Typed("stepthick") && c.Args.Word("bearing") != "step":
		return answer.Refuse(c.Retyped(map[string]string{"bearing": "step"}), "a step's thickness needs a step: say bearing step too")
	case c.Args.Typed("shelf") && plate != "open" && c.Args.Typed("plate"):
		return answer.Refuse(c.Retyped(map[string]string{"plate": "open"}), "a shelf is what an open back plate leaves under the stone: say plate open, or leave the shelf out")
	case (c.Args.Typed("platethick") || c.Args.Typed("platerim")) && plate == "none":
		return answer.Refuse(c.Retyped(map[string]string{"plate": "solid"}), "a thickness or rim of the back plate needs a plate: say plate solid or plate open, or leave it out")
	case plate == "none" && c.Args.Word("bearing") == "none":
		return answer.Refuse(c.Retyped(map[string]string{"bearing": "step"}), "with neither a back plate nor a bearing the stone falls through: say bearing step or bearing wire, or plate solid or open")
	}
	return nil
}

// addParts works out the parts of a bezel that is laid out.
func (u *bezelUsed) addParts(c *catalogue.Call) error {
	for _, add := range []func(*catalogue.Call) error{u.addPlate, u.addEdge, u.addGallery, u.addReliefs} {
		if err := add(c); err != nil {
			return u.refusePart(c, err)
		}
	}
	u.count = int(c.NumberOr("count", 1))
	u.cup.size, u.cup.offMM, u.cup.known = u.stone.shape.Kind.NearestCup(u.stone.curve.Size())
	u.cupAsked = c.Args.Has("cup")
	if u.cupAsked {
		c.Value("cup")
	}
	return nil
}

// refusePart words what a part can't be, and takes its options out of the line to
// try.
func (u *bezelUsed) refusePart(c *catalogue.Call, err error) error {
	var e *bezel.Error
	if errors.As(err, &e) {
		return answer.Refuse(c.Retyped(map[string]string{"shelf": "", "repeats": "", "pitch": "", "cutdepth": "", "gallery": ""}), "%s", e.Problem)
	}
	if o, ok := asOutlineError(err); ok {
		return answer.Refuse(c.Spec.Example(), "the bezel: %s", o.Problem)
	}
	return err
}

func (u *bezelUsed) addPlate(c *catalogue.Call) error {
	kind := c.Word("plate")
	if kind == "none" {
		return nil
	}
	shelf := 0.0
	if kind == "open" || c.Args.Has("shelf") {
		size := u.stone.curve.Size()
		usual := bezel.UsualShelfMM(math.Min(size.LengthMM, size.WidthMM))
		if shelf = c.NumberOr("shelf", usual); !c.Args.Has("shelf") {
			u.assumptions = append(u.assumptions, fmt.Sprintf("shelf %s (common practice, no source)", words.Length(c, shelf)))
		}
	}
	thick, rim := c.Worded("platethick"), c.Worded("platerim")
	u.plateMM = thick.Number
	if thick.Source != catalogue.Typed {
		u.assumptions = append(u.assumptions, fmt.Sprintf("back plate %s (%s)", words.Thickness(c, thick), thick.Note))
	}
	if rim.Source != catalogue.Typed {
		u.assumptions = append(u.assumptions, fmt.Sprintf("rim of the plate %s (%s)", words.Length(c, rim.Number), rim.Note))
	}
	var err error
	u.plate, err = u.Plate(rim.Number, shelf)
	return err
}

func (u *bezelUsed) addEdge(c *catalogue.Call) error {
	kinds := map[string]bezel.Edging{"serrated": bezel.Serrated, "scalloped": bezel.Scalloped}
	kind := kinds[c.Word("edging")]
	if kind == bezel.PlainEdge {
		return nil
	}
	usual := bezel.UsualToothMM
	if kind == bezel.Scalloped {
		usual = bezel.UsualScallopMM
	}
	var err error
	u.edge, err = u.Pattern(kind, c.NumberOr("pitch", usual), int(c.Number("repeats")), c.Number("cutdepth"))
	if err == nil && !c.Args.Has("pitch") && !c.Args.Has("repeats") {
		u.assumptions = append(u.assumptions, fmt.Sprintf("%s about %s wide (common practice, no source)", edgeWord(kind, 2), words.Length(c, usual)))
	}
	if err == nil && !c.Args.Has("cutdepth") {
		u.assumptions = append(u.assumptions, fmt.Sprintf("cut %s deep (common practice, no source)", words.Length(c, u.edge.DepthMM)))
	}
	return err
}

// edgeWord is a tooth or a scallop, or several.
func edgeWord(kind bezel.Edging, n int) string {
	switch {
	case kind == bezel.Scalloped && n == 1:
		return "scallop"
	case kind == bezel.Scalloped:
		return "scallops"
	case n == 1:
		return "tooth"
	}
	return "teeth"
}

func (u *bezelUsed) addGallery(c *catalogue.Call) error {
	if !c.Args.Has("gallery") {
		return nil
	}
	var err error
	u.gallery, err = u.FitGallery(c.Number("gallery"))
	return err
}

func (u *bezelUsed) addReliefs(c *catalogue.Call) error {
	kind := c.Word("relief")
	notch, hole := kind == "notch" || kind == "both", kind == "hole" || kind == "both"
	if c.Args.Has("reliefhole") && !hole {
		return answer.Refuse(c.Retyped(map[string]string{"relief": "hole"}), "a relief hole is drilled only where it is asked for: say relief hole or relief both")
	}
	if !notch && !hole {
		return nil
	}
	if u.stone.curve.Smooth() {
		return answer.Refuse(c.Retyped(map[string]string{"relief": "", "reliefhole": ""}), "%s has no sharp corner to relieve", words.Article(u.stone.words(c)))
	}
	if notch && (u.hasEdge() || u.hasGallery()) {
		return answer.Refuse(c.Retyped(map[string]string{"relief": ""}), "a serrated, scalloped or gallery edge has a valley at its corners and needs no notch there: leave the notch out")
	}
	if notch {
		u.notches = u.Notches()
	}
	if !hole {
		return nil
	}
	u.holeMM = usualHoleMM
	if c.Args.Has("reliefhole") {
		u.holeMM = c.Number("reliefhole")
	} else {
		u.assumptions = append(u.assumptions, fmt.Sprintf("relief holes %s (common practice, no source)", words.Length(c, u.holeMM)))
	}
	for i, p := range u.stone.curve.Pieces {
		if u.stone.curve.Turning(i) > 0 {
			u.holes = append(u.holes, p.A)
		}
	}
	return nil
}

// lowerMM is what is rubbed off the wall's lower edge; the rest of the truing is
// for the top, where that can be rubbed flat.
func (u bezelUsed) lowerMM() float64 {
	if u.hasEdge() {
		return u.truing + u.kerf/2
	}
	return (u.truing + u.kerf) / 2
}

// cuts are the strips of several bezels, from one length.
func (u bezelUsed) cuts() bezel.CutList {
	saw := usualSawCutMM
	if u.kerf != 0 {
		saw = 0 // each length has it
	}
	return bezel.CutList{Count: u.count, EachMM: u.cutMM(), SawMM: saw}
}

// fit is how far the fit may be off.
func (u bezelUsed) fit() fit.Tolerance {
	return u.Fit(doubts(u.ThicknessMM, u.tried))
}

// sheetParts are the blanks of a bezel beside its strip, for a class's cut list.
func sheetParts(c *catalogue.Call, u bezelUsed) []answer.Part {
	var parts []answer.Part
	if u.plateMM > 0 {
		part := answer.Part{Name: "back plate", ThicknessMM: u.plateMM, Thickness: words.Thickness(c, c.Args["platethick"]), JointMM: u.LengthMM}
		if u.plate.HasCutOut {
			part.OpenMM2 = u.plate.CutOut.AreaMM2()
		}
		part.Scene = plateDrawing(c, u, part.Thickness)
		parts = append(parts, part)
	}
	if u.Bearing == bezel.Step {
		v := c.Args["thickness"]
		if c.Args.Has("stepthick") {
			v = c.Args["stepthick"]
		}
		part := answer.Part{Name: "inner strip", ThicknessMM: u.BearingThickMM, Thickness: words.Thickness(c, v), JointMM: u.BearingMM}
		d := template.Drawing{
			Title: "Inner strip of the bezel for " + u.stone.aWords(c),
			Lines: []string{u.alloy.Name + " sheet, " + part.Thickness},
			Paths: []template.Path{template.Rect("step", template.Cut, "", [2]float64{}, [2]float64{u.BearingLengthMM, u.BearingMM})},
		}
		d.Dimensions = d.Overall(template.Above, words.Length(c, u.BearingLengthMM), words.Length(c, u.BearingMM))
		part.Scene = d
		parts = append(parts, part)
	}
	return parts
}

// bearingWire is the wire that the stone sits on, where the bezel has one.
func bearingWire(u bezelUsed) []answer.Length {
	if u.Bearing != bezel.Wire {
		return nil
	}
	section := stock.DiscMM3(u.BearingMM, 1)
	return []answer.Length{{
		Name: "bearing wire", Stock: fmt.Sprintf("round wire, %s mm", words.MM(u.BearingMM)),
		EachMM: u.BearingLengthMM, AllowanceMM: usualFilingMM, KerfMM: usualSawCutMM, SectionMM2: section,
		MassG: stock.MassG(section*u.BearingLengthMM, u.alloy.DensityGPerCM3),
		SawMM: u.BearingMM, JointMM: u.BearingMM, JointMM2: section,
	}}
}

// plateDrawing is the back plate alone: what is cut, sawn out and drilled.
func plateDrawing(c *catalogue.Call, u bezelUsed, thickness string) template.Drawing {
	d := template.Drawing{
		Title: "Back plate of the bezel for " + u.stone.aWords(c),
		Lines: []string{fmt.Sprintf("%s sheet, %s", u.alloy.Name, thickness)},
	}
	closed := func(id, label string, role template.Role, points []outline.Point) {
		line := make([][2]float64, len(points))
		for i, p := range points {
			line[i] = [2]float64{p.X, p.Y}
		}
		d.Paths = append(d.Paths, template.Polyline(id, role, label, true, line...))
	}
	closed("plate", "", template.Cut, u.plate.Blank.Polyline(0.001))
	closed("outside", "wall", template.Mark, u.Outer.Polyline(0.005))
	if u.plate.HasCutOut {
		closed("cut-out", "saw out", template.Waste, u.plate.CutOut.Polyline(0.001))
	}
	for i, p := range u.holes {
		d.Paths = append(d.Paths, template.Circle(fmt.Sprintf("relief-%d", i+1), template.Drill, "relief hole", [2]float64{p.X, p.Y}, u.holeMM/2))
	}
	size := u.plate.Blank.Size()
	width, height := size.LengthMM, size.WidthMM
	if b := template.Bounds(d); b.H() > b.W() {
		width, height = height, width
	}
	d.Dimensions = d.Overall(template.Above, words.Length(c, width), words.Length(c, height))
	return d
}
