package checks

import (
	"fmt"
	"math"

	"guildhand/calc/halo"
	"guildhand/calc/jumpring"
	"guildhand/calc/outline"
	"guildhand/calc/ring"
	"guildhand/calc/tubeset"
	factors "guildhand/calc/units"
)

// jumprings are aspect ratios, wire and springback of jump rings.
func jumprings() []Row {
	const inch = factors.MMPerInch
	requests := on("jumpring")
	aspect := func(source string, within float64, printed float64, insideMM, wireMM float64) Row {
		return table{requests, source, Read, "", within, ""}.row(fmt.Sprintf("aspect ratio of %.4g / %.4g mm", insideMM, wireMM), printed, jumpring.Ring{InsideMM: insideMM, WireMM: wireMM}.Aspect())
	}
	primer := "three chain makers' pages (K. Karon; clearlyhelena; a bead magazine's primer)"
	armour := "a blog on chain mail, \"How to choose chainmail, part 3\""
	fit := "a sheet on the fit of chain, wire rounded to 0.001 in"
	rules := "a rule book's list of mail (darkon.org)"
	rows := []Row{
		aspect(primer, 1e-12, 3.75, 3, 0.8), aspect(armour, 1e-12, 5, 8, 1.6), aspect(armour, 1e-12, 5, 6, 1.2),
		aspect(fit, 0.006, 3.93, 0.157*inch, 0.040*inch), aspect(fit, 0.006, 3.08, 0.157*inch, 0.051*inch),
		aspect(rules, 0.05, 4.8, 0.5*inch, 0.104*inch), aspect(rules, 0.05, 4.7, 0.375*inch, 0.080*inch), aspect(rules, 0.05, 3.9, 0.25*inch, 0.064*inch),
	}
	blank := table{requests, "a supplier's page on ring sizing and two bench threads: the blank of a ring is (inside diameter + thickness) x pi", Derived, "mm", 0.006, ""}
	metre := table{requests, blank.source + "; rings from a metre without kerf", Derived, "", 0.06, ""}
	mass := table{requests, blank.source + "; in sterling of 10.36 g/cm³", Derived, "g", 0.0006, ""}
	for _, r := range []struct{ inside, wire, length, perMetre, grams float64 }{
		{3, 0.8, 11.94, 83.8, 0.0622}, {4, 1.0, 15.71, 63.7, 0.1278}, {6, 1.29, 22.90, 43.7, 0.310},
	} {
		ring, name := jumpring.Ring{InsideMM: r.inside, WireMM: r.wire}, fmt.Sprintf("jump ring %g / %g mm", r.inside, r.wire)
		rows = append(rows, blank.row(name+", wire", r.length, ring.WireLengthMM()), metre.row(name+", rings", r.perMetre, 1000/ring.WireLengthMM()),
			mass.row(name+", mass", r.grams, ring.VolumeMM3()*10.36/1000))
	}
	rows = append(rows, table{requests, "Machinery's Handbook, volumes of solids: torus 19.739 R r²", Memory, "mm³", 0.02, ""}.
		row("torus R 8, r 1.5 mm", 19.739*8*1.5*1.5, jumpring.Ring{InsideMM: 13, WireMM: 3}.VolumeMM3()))
	plastic := table{requests, "plastic moment d³Y/6 and I = pi d⁴/64 of a round bar (strength of materials), E 75 GPa", Derived, "mm", 0.006, ""}
	for _, r := range []struct{ yield, inside float64 }{{124, 6.51}, {400, 6.87}, {550, 7.09}} {
		rows = append(rows, plastic.row(fmt.Sprintf("1 mm wire of %g MPa off a mandrel of 6.35 mm", r.yield), r.inside, jumpring.SpringBack(6.35, 1, r.yield/75000)))
	}
	least, most := jumpring.Ring{InsideMM: 0.25 * inch, WireMM: 1.02}.Mandrels()
	return append(rows, table{requests, "a chain maker's page on springback: annealed sterling off 0.24 in measures 1/4 in; wire not told, 18 gauge taken", Read, "mm", (most - least) / 2, "the range of soft to hard wire"}.
		row("mandrel for 1/4 in, middle of ours", 0.24*inch, (least+most)/2))
}

// resizes are lengths let into a ring or taken out, and how far it is stretched.
func resizes() []Row {
	requests := on("resize")
	change := func(system ring.System, from, to float64) float64 {
		return ring.LengthChangeMM(system.CircumferenceMM(from), system.CircumferenceMM(to))
	}
	tips := table{requests, "a trade article of bench tips: one size is 1/10 in or 2.54 mm", Read, "mm", 0.02, "rounded; exact 2.5535"}
	institute := table{requests, "a gem institute's bench guide on finger size: steps of 0.2, 0.4 and 0.8 mm in diameter", Derived, "mm", 0.05, "diameters rounded to 0.1 mm"}
	rows := []Row{tips.row("US 6 to 7", 2.54, change(ring.US, 6, 7)), tips.row("US 7 to 6", -2.54, change(ring.US, 7, 6))}
	for i, size := range []float64{0.25, 0.5, 1} {
		rows = append(rows, institute.row(fmt.Sprintf("%g of a US size", size), math.Pi*[]float64{0.2, 0.4, 0.8}[i], change(ring.US, 6, 6+size)))
	}
	return append(rows,
		table{requests, "ISO 8653:2016: the size is the inner circumference", Read, "mm", 1e-9, ""}.row("ISO 54 to 57", 3, change(ring.ISO, 54, 57)),
		table{requests, "R. Rowlett, How Many?: four UK letters are 5 mm", Read, "mm", 1e-9, ""}.row("UK N to P", 2.5, change(ring.UK, 14, 16)),
		table{requests, "encyclopedia and a craft site's table: Japanese sizes step 1/3 mm in diameter", Derived, "mm", 1e-9, ""}.row("Japan 10 to 13", math.Pi, change(ring.Japan, 10, 13)))
}

// sections are blanks of half-round and round stock, and bangles.
func sections() []Row {
	requests := on("band")
	blank := func(circumferenceMM, width, thick float64, p ring.Profile) float64 {
		b, err := ring.Shank{CircumferenceMM: circumferenceMM, WidthMM: width, ThicknessMM: thick, Profile: p, HasAllowance: true}.Blank()
		if err != nil {
			panic(err)
		}
		return b.LengthMM
	}
	seven := ring.US.CircumferenceMM(7)
	centroid := table{requests, "Machinery's Handbook, centre of gravity of a half circle: 4r/3pi = 0.4244 r from the flat; US 7 is 17.32 mm", Memory, "mm", 0.02, "diameter rounded to 0.01 mm"}
	wire := table{requests, "a supplier's page on ring sizing: (inside diameter + thickness) x pi; US 7 is 17.32 mm", Derived, "mm", 0.02, "diameter rounded to 0.01 mm"}
	bangles := table{requests, "three Indian jewellers' bangle charts: sizes in sixteenths of an inch (papilior.com; samskruthisilver.com; jewelsify.com)", Read, "mm", 0.06, "inner diameters rounded to 0.1 mm"}
	rows := []Row{
		centroid.row("US 7, half-round 4 x 2 mm", 59.75, blank(seven, 4, 2, ring.HalfRound)),
		centroid.row("US 7, half-round 3 x 1.5 mm", 58.41, blank(seven, 3, 1.5, ring.HalfRound)),
		wire.row("US 7, round wire 2 mm", math.Pi*(17.32+2), blank(seven, 2, 2, ring.RoundWire)),
		wire.row("US 7, square wire 1.5 mm", math.Pi*(17.32+1.5), blank(seven, 1.5, 1.5, ring.SquareWire)),
		table{requests, "a bench thread on thick bangles: inner circumference + 3.14 x thickness", Derived, "mm", 0.01, "printed with 3.14"}.
			row("bangle 65 mm of 3 mm wire", 65*math.Pi+3*3.14, blank(ring.BangleMM(65, 65), 3, 3, ring.RoundWire)),
	}
	for i, printed := range []float64{54.0, 57.15, 60.3, 63.5, 66.7, 69.9, 73.0, 76.2} {
		sixteenths := float64(2*i + 2)
		rows = append(rows, bangles.row(fmt.Sprintf("bangle 2 %g/16 in, inner diameter", sixteenths), printed, ring.BangleMM((2+sixteenths/16)*factors.MMPerInch, (2+sixteenths/16)*factors.MMPerInch)/math.Pi))
	}
	guide := table{requests, "jewellers' pages on wide bands: up to half a size from 5 mm, a whole size very wide", Read, "mm", 0.01, ""}
	_, half := ring.WideGuidesMM(6)
	_, whole := ring.WideGuidesMM(12)
	return append(rows, guide.row("most that is added at 6 mm wide", 1.28, half), guide.row("most that is added at 12 mm wide", 2.55, whole))
}

// tubes are tubes for round stones.
func tubes() []Row {
	requests := on("tubeset")
	rule := table{requests, "C. Lewton-Brain, Tube Setting: from above the stone covers half of the wall", Derived, "mm", 1e-9, ""}
	rows := []Row{
		rule.row("stone of a tube 5.0 / 4.0 mm", 4.5, tubeset.Tube{OuterMM: 5, WallMM: 0.5}.InnerMM()+0.5),
		rule.row("outside of the tube of 0.5 mm wall for 4.5 mm", 5, tubeset.For(4.5, 0.5).OuterMM),
		rule.row("inside of it", 4, tubeset.For(4.5, 0.5).InnerMM()),
		rule.row("wall left by a stone of 4.5 mm", 0.25, tubeset.Tube{OuterMM: 5, WallMM: 0.5}.WallLeftMM(4.5)),
	}
	over := table{requests, "a bench thread on bearing wire: the rim stands 10 % over the crown; crown of 34.5°", Derived, "mm", 1e-3, ""}
	tolkowsky := table{requests, "M. Tolkowsky, Diamond Design: pavilion 43.1 % of the diameter", Memory, "mm", 1e-9, ""}
	return append(rows,
		over.row("height that the rim covers, round 6 mm", 0.034*6, tubeset.RimOverGirdleMM(6)*math.Sin(34.5*math.Pi/180)).with(0.004),
		tolkowsky.row("pavilion of a round 4 mm", 1.724, tubeset.PavilionMM(4)))
}

// halos are circles round a circle, and parallel outlines.
func halos() []Row {
	requests := on("halo")
	proof := table{requests, "a mathematics forum, with proof: n circles of radius r touch each other and one of radius R where (R + r) sin(pi/n) = r", Read, "", 2e-5, "printed to six figures"}
	var rows []Row
	for _, r := range []struct {
		n      int
		radius float64
	}{{4, 2.41421}, {6, 1}, {8, 0.619914}} {
		// Our stones are from 0.05 to 4 times the guess.
		mm, _ := halo.Spec{Centre: curve(outline.Round, 2, 2), StoneMM: 1.5}.EvenStoneMM(r.n)
		rows = append(rows, proof.row(fmt.Sprintf("%d circles round a circle of radius 1", r.n), r.radius, mm/2))
	}
	forum := table{requests, "a mathematics forum, circles of variable radius: 14 round a radius of 100", Derived, "", 1e-4, ""}
	fourteen, _ := halo.Spec{Centre: curve(outline.Round, 100, 100), StoneMM: 28}.EvenStoneMM(14)
	rows = append(rows, forum.row("radius of 14 circles round 100", 28.62083, fourteen))
	// n = pi / asin((d + g) / (D + d + 2c)), worked by hand, and its whole part.
	worked := table{requests, proof.source + "; worked with gaps by hand, n = pi / asin((d + g)/(D + d + 2c))", Derived, "", 1e-9, ""}
	for _, r := range []struct {
		centre, small, gap, toCentre float64
		n                            float64
	}{
		{6.5, 1.3, 0, 0, 18.76}, {6.5, 1.3, 0.1, 0, 17.41}, {6.5, 1.3, 0.1, 0.1, 17.86}, {5, 1.3, 0, 0, 15.12}, {8, 1.5, 0, 0, 19.81},
	} {
		h, err := halo.Spec{Centre: curve(outline.Round, r.centre, r.centre), StoneMM: r.small, GapMM: r.gap, ToCentreMM: r.toCentre}.Set()
		if err != nil {
			panic(err)
		}
		rows = append(rows, worked.row(fmt.Sprintf("stones of %g mm round %g mm, gaps %g and %g mm (n = %g)", r.small, r.centre, r.gap, r.toCentre, r.n), math.Floor(r.n), float64(h.Count)),
			worked.row(fmt.Sprintf("pitch of them, mm (n = %g)", r.n), (r.centre+r.small+2*r.toCentre)*math.Sin(math.Pi/math.Floor(r.n)), h.PitchMM))
	}
	minkowski := table{requests, "a parallel body grows by its distance on every side (Steiner; textbook geometry)", Memory, "mm", 1e-9, ""}
	size := halo.Spec{Centre: curve(outline.Oval, 8, 6), StoneMM: 1.3, ToCentreMM: 0.1, RimMM: 0.4}.PlateSize()
	return append(rows, minkowski.row("plate of an oval 8 x 6 mm, 1.8 mm out: length", 11.6, size.LengthMM), minkowski.row("the same, width", 9.6, size.WidthMM))
}
