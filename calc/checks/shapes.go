package checks

import (
	"fmt"
	"math"

	"guildhand/calc/bezel"
	"guildhand/calc/development"
	"guildhand/calc/dome"
	"guildhand/calc/outline"
	"guildhand/calc/ring"
	"guildhand/calc/setting"
	"guildhand/calc/tracing"
	"guildhand/calc/tuning"
	factors "guildhand/calc/units"
)

// curve is a stone's outline; one that can't be drawn is a fault of this list.
func curve(kind outline.Kind, lengthMM, widthMM float64) outline.Curve {
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: lengthMM, WidthMM: widthMM}})
	if err != nil {
		panic(err)
	}
	return c
}

// outlines are perimeters and parallel curves, on which every wall rests.
func outlines() []Row {
	all := on("collet", "collar", "bezel", "prongs", "match", "kit")
	rows := []Row{
		table{all, "SciPy 1.7 reference, scipy.special.ellipe, example", Read, "", 1e-12, ""}.row("ellipse of half axes 3.5 and 2.1", 17.868899204378693, outline.EllipsePerimeterMM(3.5, 2.1)),
		table{all, "a published value of Ramanujan's second approximation", Read, "", 5e-7, ""}.row("ellipse of half axes 5 and 3", 25.526999, outline.EllipsePerimeterMM(5, 3)),
	}
	if points, n, err := tracing.FromStrip(7, 4.2, 17.868899204378693); err == nil {
		strip := table{on("trace"), "SciPy 1.7 reference, scipy.special.ellipe, example", Read, "", 0.003, "the fit stops where the strip's length is met within a thousandth of a mm"}
		rows = append(rows, strip.row("strip round the ellipse of half axes 3.5 and 2.1: exponent of the superellipse", 2, n))
		strip.tol = 1e-3
		rows = append(rows, strip.row("the outline that it gives: perimeter", 17.868899204378693, tracing.ClosedLength(points)))
	}
	petroleum := table{all, "Standard Handbook of Petroleum & Natural Gas Engineering, p. 11, table of K", Read, "", 6e-4, ""}
	for i, k := range []float64{1.002, 1.010, 1.023, 1.040, 1.064, 1.092, 1.127, 1.168, 1.216, 1.273} {
		m := float64(i+1) / 10
		rows = append(rows, petroleum.row(fmt.Sprintf("ellipse, (a-b)/(a+b) = %.1f: K", m), k, outline.EllipsePerimeterMM(1+m, 1-m)/(2*math.Pi)))
	}
	carmo := table{all, "M. P. do Carmo, Differential Geometry of Curves and Surfaces, 1-7, exercise 6, read in a copy of the statement", Read, "mm", 1e-9, ""}
	for _, c := range []outline.Curve{curve(outline.Oval, 8, 6), curve(outline.Cushion, 9, 7)} {
		const r = 0.7
		o, err := c.Offset(r)
		if err != nil {
			panic(err)
		}
		rows = append(rows,
			carmo.row("parallel of "+string(c.Kind)+" at 0.7 mm, length", c.PerimeterMM()+2*math.Pi*r, o.PerimeterMM()),
			carmo.row("parallel of "+string(c.Kind)+" at 0.7 mm, area (mm²)", c.AreaMM2()+r*c.PerimeterMM()+math.Pi*r*r, o.AreaMM2()))
	}
	return rows
}

// wall is a straight wall round an outline, with no play.
func wall(c outline.Curve, thickMM, k float64) bezel.Bezel {
	b, err := bezel.Straight(bezel.Spec{Stone: c, ThicknessMM: thickMM, NeutralFactor: k}, c.Places[0])
	if err != nil {
		panic(err)
	}
	return b
}

// bends are lengths round bends.
func bends() []Row {
	const inch = factors.MMPerInch
	handbook := table{on("bezel", "collar", "band", "tune"), "Machinery's Handbook, 31st ed., p. 1421, bend allowances and figure 13", Read, "in", 1e-3, "printed with 1.57 for pi/2"}
	shank := func(radius, thick float64) float64 {
		b, err := ring.Shank{CircumferenceMM: 2 * math.Pi * radius * inch, WidthMM: 4, ThicknessMM: thick * inch, Profile: ring.Flat, NeutralFactor: 0.64 / (math.Pi / 2), HasAllowance: true}.Blank()
		if err != nil {
			panic(err)
		}
		return b.LengthMM / inch
	}
	rows := []Row{
		handbook.row("bezel wall, radius 0.375, 180°", 1.338, wall(curve(outline.Round, 0, 0.75*inch), 0.125*inch, 0.407).LengthMM/2/inch),
		handbook.row("bezel wall, radius 0.625, 60°", 0.707, wall(curve(outline.Round, 0, 1.25*inch), 0.125*inch, 0.407).LengthMM/6/inch),
		handbook.row("ring blank, radius 0.375, 180°", 1.338, shank(0.375, 0.125)/2),
		handbook.row("ring blank, radius 0.625, 60°", 0.707, shank(0.625, 0.125)/6),
	}
	for name, perT := range map[string]float64{"soft copper and brass": 0.55, "half-hard copper and brass": 0.64, "bronze and hard copper": 0.71} {
		k := perT / (math.Pi / 2)
		rows = append(rows, handbook.row("sharp right angle of "+name+", of its thickness", perT, (wall(curve(outline.Square, 0, 10), 1, k).LengthMM-40)/4))
		// A trial bent as the handbook says is solved for the handbook's factor:
		// 90 degrees round 0.5, of metal 0.8 thick.
		const T, R = 0.8, 0.5
		reading := tuning.Reading{Kind: tuning.Rim, DrawnMM: perT*T + math.Pi/2*R, FormedMM: math.Pi / 2 * R, PerFactorMM: math.Pi / 2 * T, PerKerf: 1, CalipersMM: 1e-4}
		// A second measure, of a length without a bend, keeps the saw out of it.
		noKerf := tuning.Reading{Kind: tuning.Height, DrawnMM: 10, FormedMM: 10, PerKerf: 1, CalipersMM: 1e-4}
		trials := make([]tuning.Trial, 400) // measured so well and so often that no default matters
		for i := range trials {
			trials[i] = tuning.Trial{Piece: fmt.Sprint("right angle ", i), Readings: []tuning.Reading{reading, noKerf}}
		}
		solved, err := tuning.Solve(trials)
		if err != nil {
			panic(err)
		}
		rows = append(rows, table{on("tune"), handbook.source, Derived, "", 0.005, ""}.row("factor solved from a trial in "+name, k, solved.NeutralFactor))
	}
	ellipse := table{on("bezel", "collar"), "NIST DLMF 19.30.5, ellipse by E, worked out apart from this program; + pi t of a parallel curve", Derived, "mm", 2e-4, ""}
	for _, e := range []struct{ l, w, perimeter float64 }{{8, 6, 22.1035}, {10, 8, 28.3617}, {14, 10, 37.9614}, {18, 13, 49.0119}, {10, 5, 24.2211}, {16, 6, 36.3669}} {
		rows = append(rows, ellipse.row(fmt.Sprintf("strip round an oval %g x %g of 0.4 mm", e.l, e.w), e.perimeter+math.Pi*0.4, wall(curve(outline.Oval, e.l, e.w), 0.4, 0.5).LengthMM))
	}
	supplier := table{on("bezel"), "a supplier's tables: (mean diameter of the stone + thickness) x pi", Read, "mm", 1e-9, ""}
	return append(rows, supplier.row("strip round a round 12 of 0.5 mm", math.Pi*12.5, wall(curve(outline.Round, 0, 12), 0.5, 0.5).LengthMM))
}

// frustum develops the wall between two circles. Circles are drawn at a tenth
// and enlarged, so that inches and feet stay within a stone's limits.
func frustum(rim, base, height float64) development.Flat {
	at := func(d float64) outline.Curve { return curve(outline.Round, 0, 10).Scaled(d / 10) }
	r := at(rim)
	f, err := development.Develop(development.Wall{Sections: development.Sections{Rim: r, Base: at(base), HeightMM: height, Seam: r.Places[0]}})
	if err != nil {
		panic(err)
	}
	return f
}

// cones are frustums, flat.
func cones() []Row {
	all := on("collet", "prongs", "kit", "tune")
	net := frustum(8, 5, 4)
	outer := net.RimLengthMM / -net.Turn.Radians()
	text := table{all, "The Net of a Frustum, a school geometry text (ceemrr.com)", Read, "in", 0.0051, ""}
	full := frustum(6, 6e-4, 4*(1-1e-4))
	homework := table{all, "a homework page: sector of 5 cm and 216° (assignmentexpert 112089)", Read, "", 0.0051, ""}
	const small, large, slant = 5 + 4.0/12, 8 + 3.0/12, 10.5
	victorian := frustum(large, small, math.Sqrt(slant*slant-(large-small)*(large-small)/4))
	forum := table{all, "The Math Forum, Dr. Math, 65796: theta = 360 (R - r)/s, S = R s/(R - r), c = 2 S sin(theta/2)", Read, "mm", 1e-6, ""}
	const R, r, s = 4.3, 2.7, 5.8
	cone, err := development.RoundPreCone(2*math.Pi*R, 2*math.Pi*r, s)
	if err != nil {
		panic(err)
	}
	stone := curve(outline.Round, 0, 6)
	collet, err := setting.Lay(setting.Spec{Stone: stone, Seam: stone.Places[0], ThicknessMM: 0.8, HeightMM: 5, RimMM: 1, Lean: 8.5 * factors.Degree, NeutralFactor: 0.5})
	turn := math.NaN()
	if err == nil {
		turn = -collet.Flat.Turn.Degrees()
	}
	return []Row{
		text.row("outer radius of the net", 11.39, outer),
		text.row("inner radius of the net", 7.12, outer-net.SeamA.LengthMM()),
		text.row("sector of the net, degrees", 126.4, -net.Turn.Degrees()).with(0.05),
		table{all, "a metalworkers' page on cones (anvilfire): 90° included", Read, "°", 0.05, ""}.row("sector", 254.6, -frustum(20, 10, 5).Turn.Degrees()),
		homework.row("sector of the cone, degrees", 216, -full.Turn.Degrees()),
		homework.row("lateral area, cm²", 47.12, full.SurfaceAreaMM2),
		table{all, "a Victorian school arithmetic, p. 76, with pi = 22/7", Read, "ft²", 0.5, ""}.row("lateral area of a frustum 8 ft 3 by 5 ft 4", 224, victorian.SurfaceAreaMM2*(22.0/7)/math.Pi),
		forum.row("angle of a pre-cone, degrees", 360*(R-r)/s, -cone.Turn.Degrees()),
		forum.row("chord of a pre-cone", 2*(R*s/(R-r))*math.Sin(math.Pi*(R-r)/s), cone.WidthMM),
		forum.row("collet of 8.5°: it turns by 360 sin a, degrees", 360*math.Sin(8.5*math.Pi/180), turn),
	}
}

func domes() []Row {
	handbook := table{on("dome"), "Machinery's Handbook, 31st ed., p. 91, spherical segment and sphere", Read, "mm", 0.5, ""}
	segment := dome.Dome{DiameterMM: 125, HeightMM: 50}
	half := dome.Dome{DiameterMM: 65, HeightMM: 32.5}
	bowl := dome.Dome{DiameterMM: 200, HeightMM: 100}
	ball := dome.Dome{DiameterMM: 6 * 25.4, HeightMM: 3 * 25.4, ThicknessMM: 1, Face: dome.Middle}
	shell := dome.Dome{DiameterMM: 100, HeightMM: 30, ThicknessMM: 0.050 * 25.4, Face: dome.Middle}
	return []Row{
		handbook.row("radius of a segment 125 across, 50 high", 64, segment.RadiusMM()),
		table{on("dome"), handbook.source, Derived, "mm", 0.005, ""}.row("disc of that segment", 160.08, segment.DiscMM()),
		handbook.row("half the area of a sphere of 6.5 cm, cm²", 132.73/2, math.Pi/4*half.DiscMM()*half.DiscMM()/100).with(0.005),
		table{on("dome"), "Practical Sheet and Plate Metal Work, hollowed bowl: d/1.4", Read, "mm", 1.5, "the book's 1.4 for the root of 2"}.row("disc radius of a bowl 200 across", 200/1.4, bowl.DiscMM()/2),
		table{on("dome"), "Holtzapffel, Turning and Mechanical Manipulation: a 6 in ball, equal area", Derived, "in", 0.0005, ""}.row("disc of half a ball", 8.485, ball.DiscMM()/25.4),
		table{on("dome"), "Machinery's Handbook, 31st ed., p. 1428, example 2: M = h t/T", Read, "in", 1e-9, ""}.row("wall of a shell drawn from .050 stock", 0.040, shell.MeanThicknessMM(shell.DiscMM()*math.Sqrt(3/3.75))/25.4),
	}
}
