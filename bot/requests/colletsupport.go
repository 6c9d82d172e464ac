package requests

import (
	"fmt"
	"math"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/setting"
)

// supportOptions are what is soldered into a wall, for the stone to rest on or to
// hold the wall's shape.
func supportOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "support", Aliases: []string{"inside"},
			Summary: "what is soldered in: a bearing wire or step for the stone, a cross-piece or gallery ring at the base",
			Kind:    catalogue.Word,
			Choices: []catalogue.Choice{
				{Key: "wire", Aliases: []string{"bearing-wire"}, Summary: "a ring of round wire under the girdle; the wall itself has no ledge"},
				{Key: "step", Aliases: []string{"inner-step"}, Summary: "an inner strip whose edge is the seat; the wall itself has no ledge"},
				{Key: "cross", Aliases: []string{"cross-piece", "crosspiece"}, Summary: "two strips halved into each other across the base"},
				{Key: "gallery", Aliases: []string{"gallery-ring"}, Summary: "a ring of wire under the base"},
			},
		},
		{
			Name: "supportsize", Aliases: []string{"support-size"},
			Summary: "diameter of that wire, or thickness of the strip, mm; else as usual for the stone",
			Kind:    catalogue.Length, Min: 0.2, Max: 4, Suggest: []string{"0.6", "0.8", "1"},
		},
	}
}

// support is what is soldered into a wall.
type support struct {
	kind   string
	sizeMM float64 // diameter of a wire, thickness of a strip
	wire   seat.BearingWire
	// lengths of the pieces along their middles, and the height of a strip.
	longMM, shortMM, highMM float64
}

// stepHeightMM is how high an inner step is at least. Common practice, no source.
const stepHeightMM = 1.2

// rests reports whether the stone lies on it.
func (s support) rests() bool { return s.kind == "wire" || s.kind == "step" }

// support works out what was asked for.
func (u *colletUsed) support(c *catalogue.Call) error {
	kind := c.Word("support")
	if kind == "" {
		if c.Args.Has("supportsize") {
			return answer.Refuse(c.Retyped(map[string]string{"support": "wire"}), "a support size goes with a support: wire, step, cross or gallery")
		}
		return nil
	}
	s := support{kind: kind, sizeMM: c.Number("supportsize")}
	if s.rests() && u.Taper != setting.Even {
		return answer.Refuse(c.Retyped(map[string]string{"taper": "even", "base": "", "basesize": ""}),
			"a bearing %s lies level only in a wall of even slope", kind)
	}
	if s.sizeMM == 0 {
		s.sizeMM = s.usualMM(*u)
		u.assumptions = append(u.assumptions, fmt.Sprintf("%s %s mm (%s)", s.word(), words.MM(s.sizeMM), option.Practice))
	}
	if err := s.lay(u); err != nil {
		return answer.Refuse(c.Retyped(map[string]string{"support": "", "supportsize": ""}),
			"a %s of %s has no room in this wall", s.word(), words.Length(c, s.sizeMM))
	}
	u.soldered = s
	return nil
}

func (s support) word() string {
	switch s.kind {
	case "wire":
		return "bearing wire"
	case "step":
		return "inner step"
	case "cross":
		return "cross-piece"
	}
	return "gallery ring"
}

// usualMM is a wire of 1 mm at most (18 ga is published for a faceted stone:
// ganoksin orchid 44948) and an eighth of the stone, a step of the ledge that a
// wall of its own would have and the play, and strips of the wall's own sheet.
func (s support) usualMM(u colletUsed) float64 {
	tenths := func(mm float64) float64 { return math.Floor(mm*10+1e-9) / 10 }
	switch s.kind {
	case "wire", "gallery":
		return max(0.4, min(1, tenths(u.Solid.WidthMM/8)))
	case "step":
		return max(0.3, min(u.ThicknessMM, tenths(u.Solid.WidthMM/10+u.ClearanceMM)))
	}
	return u.ThicknessMM
}

// lay works out where it lies and how long it is.
func (s *support) lay(u *colletUsed) error {
	around := func(offsetMM float64) (float64, error) {
		middle, err := u.Stone.Offset(offsetMM)
		return middle.PerimeterMM(), err
	}
	var err error
	half := s.sizeMM / 2 / u.Lean.Cos()
	switch s.kind {
	case "wire":
		var ok bool
		if s.wire, ok = seat.WireUnder(u.Solid, u.Wall(), s.sizeMM); !ok {
			return outline.ErrClosed
		}
		s.longMM, err = around(u.FaceMM(s.wire.MiddleMM) - s.sizeMM/2/u.Lean.Cos())
	case "step":
		s.highMM = max(stepHeightMM, u.stepFloorMM(s.sizeMM)+0.3)
		if s.longMM, err = around(u.FaceMM(0) - half); err == nil {
			s.shortMM, err = around(u.FaceMM(-s.highMM) - half)
		}
	case "cross":
		s.longMM, s.shortMM, s.highMM = u.BaseInside.LengthMM, u.BaseInside.WidthMM, max(1, s.sizeMM)
	case "gallery":
		var middle outline.Curve
		middle, err = middleOfBase(u)
		s.longMM = middle.PerimeterMM()
	}
	return err
}

// middleOfBase is the middle of the wall's lower edge.
func middleOfBase(u *colletUsed) (outline.Curve, error) {
	return u.BaseInner.Offset(u.ThicknessMM / 2 / u.MeanLean.Cos())
}

// ring is what is seen of it on the finished piece: a gallery ring. The stone and
// the wall hide all others.
func (s support) ring(u colletUsed) (axonometric.Body, bool) {
	if s.kind != "gallery" {
		return axonometric.Body{}, false
	}
	middle, err := middleOfBase(&u)
	if err != nil {
		return axonometric.Body{}, false
	}
	body, err := finished.Wire(middle, u.RimMM-u.HeightMM-s.sizeMM/2, s.sizeMM)
	return body, err == nil
}

// stepFloorMM is how far the seat's floor runs down an inner step's edge.
func (u colletUsed) stepFloorMM(thickMM float64) float64 {
	ledge := thickMM/u.Lean.Cos() - u.ClearanceMM
	leaves := u.Solid.ReachMM()/u.Solid.PavilionMM - u.Lean.Tan()
	return max(0, ledge/max(leaves, 0.05))
}

// figures are what to cut for it.
func (s support) figures() []answer.Figure {
	mm := func(id, label string, v float64) answer.Figure {
		return answer.Figure{ID: id, Label: label, Value: v, Unit: answer.MM}
	}
	switch s.kind {
	case "wire":
		return []answer.Figure{mm("wire_diameter", "bearing wire, diameter", s.sizeMM), mm("wire_length", "bearing wire, length along its middle", s.longMM),
			mm("wire_top", "bearing wire, its top below the girdle line", -s.wire.MiddleMM-s.sizeMM/2)}
	case "step":
		return []answer.Figure{mm("step_thickness", "inner step, thickness", s.sizeMM), mm("step_length", "inner step, upper edge along its middle", s.longMM),
			mm("step_base_length", "inner step, lower edge along its middle", s.shortMM), mm("step_height", "inner step, height", s.highMM)}
	case "cross":
		return []answer.Figure{mm("cross_length", "cross-piece, the long way", s.longMM), mm("cross_width", "cross-piece, across", s.shortMM),
			mm("cross_height", "cross-piece, height", s.highMM), mm("cross_thickness", "cross-piece, thickness", s.sizeMM)}
	case "gallery":
		return []answer.Figure{mm("gallery_wire", "gallery ring, wire", s.sizeMM), mm("gallery_length", "gallery ring, length along its middle", s.longMM)}
	}
	return nil
}

// step says how it is made and soldered in.
func (s support) step(c *catalogue.Call, m *making, u colletUsed) {
	jobs := treatment.JoinJobs(u.alloy)
	long, short, size := words.Length(c, s.longMM), words.Length(c, s.shortMM), words.Length(c, s.sizeMM)
	switch s.kind {
	case "wire":
		m.do(jobs, "Bearing wire: bend %s of %s round wire to the stone's outline, close it, push it down inside until its top is %s below the girdle line all round, and solder it in before you set the stone. The pavilion rests on it; try the stone before you solder.",
			long, size, words.Length(c, -s.wire.MiddleMM-s.sizeMM/2))
	case "step":
		m.do(jobs, "Inner step: bend a strip %s at its upper and %s at its lower edge, %s high and %s thick, to fit inside with its upper edge at the girdle line, and solder it in. Then cut the seat into its upper edge at the pavilion's slope, %.0f°.",
			long, short, words.Length(c, s.highMM), size, u.Solid.PavilionAngle().Degrees())
	case "cross":
		m.do(jobs, "Cross-piece: saw two strips %s high and %s thick, %s and %s long, halve them into each other where they cross, file their ends to the wall and solder them in at the base. See that the culet stays clear of them: it is %s above the base.",
			words.Length(c, s.highMM), size, long, short, words.Length(c, max(0, -u.Seat.ProudMM)))
	case "gallery":
		m.do(jobs, "Gallery ring: bend %s of %s wire to the base's outline, close it and solder it under the base.", long, size)
	}
}

// inSection are its cut faces in a section through the culet.
func (s support) inSection(u colletUsed, cut finished.Section) []template.Path {
	var faces []template.Path
	face := func(name string, points ...[2]float64) {
		faces = append(faces, template.Polyline(fmt.Sprintf("%s-%d", name, len(faces)+1), template.Edge, "", true, points...))
	}
	round := func(name string, x, z float64) {
		faces = append(faces, template.Circle(fmt.Sprintf("%s-%d", name, len(faces)+1), template.Edge, "", [2]float64{x, z}, s.sizeMM/2))
	}
	base := u.RimMM - u.HeightMM
	level := s.sizeMM / u.Lean.Cos()
	for i, wall := range [][][2]float64{cut.Left, cut.Right} {
		out := 2*float64(i) - 1 // outward on this side
		inner := func(z float64) float64 { return faceOfSection(wall, z) }
		switch s.kind {
		case "wire":
			round("wire", inner(s.wire.MiddleMM)-out*level/2, s.wire.MiddleMM)
		case "step":
			top := [][2]float64{{inner(0), 0}}
			if edge := edgeOfSection(cut.Stone, out); (inner(0)-edge)*out > 0 {
				top = append(top, [2]float64{edge, 0})
			}
			face("step", append(top, [2]float64{inner(0) - out*level, -u.stepFloorMM(s.sizeMM)},
				[2]float64{inner(-s.highMM) - out*level, -s.highMM}, [2]float64{inner(-s.highMM), -s.highMM})...)
		case "gallery":
			round("gallery", (inner(base)+wall[0][0])/2, base-s.sizeMM/2)
		}
	}
	if s.kind == "cross" {
		face("cross", [2]float64{faceOfSection(cut.Left, base), base}, [2]float64{faceOfSection(cut.Right, base), base},
			[2]float64{faceOfSection(cut.Right, base+s.highMM), base + s.highMM}, [2]float64{faceOfSection(cut.Left, base+s.highMM), base + s.highMM})
	}
	return faces
}

// faceOfSection is where a section's inner face, which its last two points give,
// stands at the height z.
func faceOfSection(wall [][2]float64, z float64) float64 {
	p, q := wall[len(wall)-1], wall[len(wall)-2]
	return p[0] + (q[0]-p[0])*(z-p[1])/(q[1]-p[1])
}

// edgeOfSection is where a section's stone ends on one side.
func edgeOfSection(stone [][2]float64, out float64) float64 {
	edge := 0.0
	for _, p := range stone {
		if p[0]*out > edge*out {
			edge = p[0]
		}
	}
	return edge
}

// onPicture is what to cut for it, in a line.
func (s support) onPicture(c *catalogue.Call) string {
	size, long, short, high := words.Length(c, s.sizeMM), words.Length(c, s.longMM), words.Length(c, s.shortMM), words.Length(c, s.highMM)
	switch s.kind {
	case "wire":
		return fmt.Sprintf("bearing wire %s thick, %s long, its top %s below the girdle line", size, long, words.Length(c, -s.wire.MiddleMM-s.sizeMM/2))
	case "step":
		return fmt.Sprintf("inner step %s thick, %s high, %s long above and %s below", size, high, long, short)
	case "cross":
		return fmt.Sprintf("cross-piece %s thick, %s high, %s and %s long", size, high, long, short)
	case "gallery":
		return fmt.Sprintf("gallery ring of %s wire, %s long", size, long)
	}
	return ""
}
