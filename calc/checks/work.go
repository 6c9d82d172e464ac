package checks

import (
	"fmt"
	"math"

	"guildhand/calc/bezel"
	"guildhand/calc/casting"
	"guildhand/calc/forming"
	"guildhand/calc/outline"
	"guildhand/calc/prong"
	"guildhand/calc/seat"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
	factors "guildhand/calc/units"
)

// castings are metal for wax, and shrinkage.
func castings() []Row {
	supplier := table{on("melt"), "a casting supplier's two help pages, wax with specific gravity 1 (romanoff.com)", Read, "g", 1e-9, ""}
	dwt := factors.GramPerPennyweight
	teague := casting.Shrinkage{Wax: 1 - 19.88/19.95, Metal: 1 - 19.63/19.88}
	mould := casting.Shrinkage{Wax: 0.025, Metal: 0.010}
	page := table{on("melt"), "a goldsmith's page on mould shrinkage (artistryofgold.com)", Read, "", 0.0005, ""}
	rows := []Row{
		supplier.row("5 g of wax with 10 % button", 5.5, casting.ChargeOf(5, 0.10).TotalG),
		supplier.row("14k of 13.5 for it", 74.25, casting.MetalG(casting.ChargeOf(5, 0.10).TotalG, 1, 13.5)),
		supplier.row("silver of 10.5 for 5.5 g", 57.75, casting.MetalG(43.5-38, 1, 10.5)),
		supplier.row("gold 750 of 15.20 for 5.5 g", 83.60, casting.MetalG(43.5-38, 1, 15.20)),
		table{on("melt"), "a refiner's standard data (auenterprises.com)", Read, "dwt", 0.01, ""}.row("platinum for 0.7 dwt of wax", 15.02, casting.MetalG(0.7*dwt, 1, 21.45)/dwt),
		table{on("melt"), "O. Untracht, quoted in a bench forum: wax .95 to .98, sterling 10.4", Derived, "", 0, ""}.between("sterling over wax", 10.4/.98, 10.4/.95, casting.MetalG(1, casting.WaxDensityGPerCM3, 10.4)),
		table{on("melt"), "a bench forum: 5 ct of wax is about 13.5 g of 14k (orchid 2435)", Read, "g", 0.5, ""}.row("14k for 1 g of wax", 13.5, casting.MetalG(1, casting.WaxDensityGPerCM3, alloy("14k-yellow").DensityGPerCM3)).of("14k-yellow"),
		page.row("wax 2.5 % and metal 1 %, together", 0.035, mould.Total()),
		page.row("and by weight, about three times as much", 0.105, 1-math.Pow(1/mould.Factor(), 3)).with(0.005),
		table{on("melt"), "T. Teague, Santa Fe Symposium, quoted: 19.95 mm model, 19.88 wax, 19.63 cast", Read, "mm", 0.005, ""}.row("model for a casting of 19.63 mm", 19.95, 19.63*teague.Factor()),
	}
	dooley := table{on("melt"), "Dooley, Applied Science for Metal Workers, ch. XXXI, pattern allowances a foot", Read, "in", 0.005, "the share counts of the pattern, not of the casting"}
	for name, sixteenths := range map[string]float64{"brass": 3, "yellow brass": 3.5, "bronze": 2.5} {
		rows = append(rows, dooley.row("pattern of a foot of "+name, 12+sixteenths/16, 12*casting.Shrinkage{Metal: sixteenths / 16 / 12}.Factor()))
	}
	return rows
}

func carats(kind outline.Kind, lengthMM, widthMM, depthMM float64, gem stone.Gem) float64 {
	ct, err := stone.CaratFromSize(kind, outline.Size{LengthMM: lengthMM, WidthMM: widthMM}, depthMM, gem)
	if err != nil {
		return math.NaN()
	}
	return ct
}

func gem(key string) stone.Gem {
	g, ok := stone.GemByKey(key)
	if !ok {
		return stone.Gem{SpecificGravity: math.NaN()}
	}
	return g
}

// stones are weights, sizes, gravities and depths.
func stones() []Row {
	all := on("collet", "match", "kit")
	diamond := gem("diamond")
	first := table{all, "a page on estimating mounted diamonds (gemgate.com)", Read, "ct", 0.001, ""}
	rows := []Row{
		first.row("diamond 6.05/6.11 x 3.63", .8185, carats(outline.Round, 6.05, 6.11, 3.63, diamond)).with(1e-4),
		first.row("diamond 7.10 x 4.47", 1.374, carats(outline.Round, 7.10, 7.10, 4.47, diamond)),
		table{all, "a diamond dealer's worked stone (meridiandiamonds.com)", Read, "ct", 0.005, ""}.row("diamond 7.54 x 7.56 x 4.58", 1.59, carats(outline.Round, 7.54, 7.56, 4.58, diamond)),
	}
	society := table{all, "International Gem Society, standard gem sizes, 6.5 mm rounds", Read, "", 0.005, ""}
	same := func(key string) float64 {
		return carats(outline.Round, 6.5, 6.5, 4, stone.Gem{SpecificGravity: gem(key).SpecificGravity})
	}
	rows = append(rows, society.row("sapphire over diamond", 1.14, same("sapphire")/same("diamond")), society.row("opal over diamond", .61, same("opal")/same("diamond")))
	if size, _, err := stone.SizeFromCarat(outline.Round, 1, 1, diamond); err == nil {
		rows = append(rows, table{all, society.source, Read, "mm", 0.2, "its fit over one carat"}.row("round diamond of one carat", 6.5, size.WidthMM))
	}
	ranges := table{all, "International Gem Society, gemstone physical properties", Read, "", 0, ""}
	for _, g := range []struct {
		key       string
		low, high float64
	}{{"garnet", 3.40, 4.25}, {"sapphire", 3.97, 4.03}, {"topaz", 3.53, 3.56}, {"diamond", 3.51, 3.53}, {"peridot", 3.27, 3.48}, {"tourmaline", 2.84, 3.10}, {"emerald-beryl", 2.66, 2.80}, {"quartz", 2.63, 2.68}, {"opal", 1.99, 2.25}, {"amber", 1.05, 1.096}} {
		rows = append(rows, ranges.between("specific gravity of "+g.key, g.low, g.high, gem(g.key).SpecificGravity))
	}
	single := table{all, "a bench forum's table of gravities (talk.jewelry 16956)", Read, "", 0.005, ""}
	for key, sg := range map[string]float64{"ruby": 4.00, "chrysoberyl": 3.73, "spinel": 3.60, "tanzanite": 3.35, "kunzite": 3.18, "tourmaline": 3.06, "aquamarine": 2.72, "quartz": 2.66, "iolite": 2.61, "opal": 2.15} {
		rows = append(rows, single.row("specific gravity of "+key, sg, gem(key).SpecificGravity))
	}
	factor := table{all, "a bench forum's and a gem dealer's weight factors (talk.jewelry, gempulse.com)", Read, "ct", 1e-9, ""}
	for _, f := range []struct {
		kind   outline.Kind
		length float64
		want   float64
	}{{outline.Round, 5, 25 * 20 * .0018}, {outline.Oval, 7, 36 * 20 * .0020}, {outline.Emerald, 7, 35 * 20 * .0025}, {outline.Baguette, 7, 35 * 20 * .0026}, {outline.Square, 5, 25 * 20 * .0025}, {outline.Marquise, 10, 50 * 20 * .0017}, {outline.Pear, 8, 40 * 20 * .0018}, {outline.Heart, 5, 25 * 20 * .0018}} {
		rows = append(rows, factor.row(fmt.Sprintf("%s %g x 5 x 5 of gravity 4", f.kind, f.length), f.want, carats(f.kind, f.length, 5, 5, stone.Gem{SpecificGravity: 4})))
	}
	chart := table{on("match"), "a stone dealer's size and weight chart (eastint.com)", Read, "", 0, ""}
	listed := map[outline.Size]bool{}
	for _, c := range stone.CalibratedSizes() {
		if c.Published && c.Kind == outline.Oval {
			listed[c.Size] = true
		}
	}
	for _, s := range [][2]float64{{5, 3}, {6, 4}, {7, 5}, {8, 6}, {9, 7}, {10, 8}, {11, 9}, {12, 10}} {
		rows = append(rows, chart.row(fmt.Sprintf("oval %g x %g is a standard size: 1 is yes", s[0], s[1]), 1, truth(listed[outline.Size{LengthMM: s[0], WidthMM: s[1]}])))
	}
	rows = append(rows, table{on("match"), "International Gem Society, standard gem sizes: up to one carat fits within 0.1 mm", Read, "mm", 0, ""}.row("fit of a standard size", 0.1, stone.CalibratedFitMM))
	return append(rows, depths()...)
}

// depths are typical proportions.
func depths() []Row {
	all := on("collet", "collar", "match")
	shallow := table{all, "a gem dictionary: 50 to 70 % all look well (suwagem.com)", Read, "%", 0, ""}
	rows := []Row{
		table{all, "coloured rounds by a stone dealer's and cutters' tables: 56 to 67 % is good (shalev.co.uk)", Read, "%", 0, ""}.between("depth of a round", 56, 67, 100*stone.TypicalDepthShare(outline.Round)),
		table{all, "a diamond seller's tables for emerald cuts: 55 to 70 % (mydiamondcuts.com)", Read, "%", 0, ""}.between("depth of an emerald cut", 55, 70, 100*stone.TypicalDepthShare(outline.Emerald)),
		table{all, "common practice for cushions", Practice, "%", 0, ""}.between("depth of a cushion", 60, 70, 100*stone.TypicalDepthShare(outline.Cushion)),
	}
	for _, k := range []outline.Kind{outline.Oval, outline.Pear, outline.Marquise, outline.Heart} {
		rows = append(rows, shallow.between("depth of "+string(k), 50, 70, 100*stone.TypicalDepthShare(k)))
	}
	return rows
}

func bezels() []Row {
	third := table{on("bezel"), "a maker's page on bezels: a third of the cabochon's height at least (maryannedejong)", Read, "mm", 0, ""}
	height := func(w, dome, girdle, edgeDegrees, thick float64) float64 {
		c := curve(outline.Round, 0, w)
		b, err := bezel.Lay(bezel.Spec{Stone: c, DomeMM: dome, GirdleMM: girdle, Edge: factors.Angle(edgeDegrees) * factors.Degree, ThicknessMM: thick, NeutralFactor: 0.5}, c.Places[0])
		if err != nil {
			return math.NaN()
		}
		return b.HeightMM
	}
	var rows []Row
	for _, s := range []struct{ w, dome float64 }{{16, 3}, {25.4, 6.35}, {40, 12}, {10, 4}, {12, 6}} {
		rows = append(rows, third.between(fmt.Sprintf("wall round %g, %g high", s.w, s.dome), s.dome/3, s.dome, height(s.w, s.dome, 0, 15, 0.32)))
	}
	edge := table{on("bezel"), "two makers' pages: the wall goes by the curve of the side, a steep side needs more (lucywalkerjewellery, rosyrevolver)", Read, "mm", 0, ""}
	upright := table{on("bezel"), "a bench forum: an upright side needs the wall over its full height and a little more (orchid 43638)", Read, "mm", 0, ""}
	return append(rows,
		edge.row("steeper by 20° needs more wall: 1 is yes", 1, truth(height(10, 4, 0, 5, 0.32) > height(10, 4, 0, 25, 0.32))),
		upright.between("wall round a side upright for 3 of 4 mm", 3, 4.5, height(10, 4, 3, 0, 0.32)),
		table{on("bezel"), "Machinery's Handbook, 31st ed., p. 91, spherical segment: radius 64.06", Derived, "°", 0.1, ""}.row("side of a cap 125 across and 50 high", math.Acos(62.5/64.06)*180/math.Pi, bezel.CapEdge(125, 50).Degrees()),
		table{on("bezel"), "common practice: the wall lies 0.5 to 1 mm over the stone", Practice, "mm", 0, ""}.between("overlap on a 16 mm stone", 0.5, 1, bezel.UsualGrip(0.32, 16)),
		table{on("bezel"), "common practice: a cabochon's side leans 10 to 20°", Practice, "°", 0, ""}.between("lean assumed for a side", 10, 20, bezel.AssumedEdge(16, 3).Degrees()),
	)
}

// prongs have few published figures.
func prongs() []Row {
	practice := table{on("prongs"), "common practice: prongs 0.8 to 1.0 mm wide on stones of 5 to 6.5 mm", Practice, "mm", 0, ""}
	gia := table{on("prongs"), "GIA quality assurance benchmark, and a trade guide: a prong stands 60 to 80 % of table height over the girdle; crown 16.2 % (Tolkowsky)", Derived, "mm", 0, ""}
	stone := seat.NewStone(curve(outline.Round, 0, 6.5), 0.6*6.5, seat.Given{})
	return []Row{
		practice.between("width of a prong on a 6 mm round", 0.8, 1.0, prong.UsualWidth(0.6, outline.Size{LengthMM: 6, WidthMM: 6})),
		gia.between("prong over the girdle of a 6.5 mm round", 0.6*0.162*6.5, 0.8*0.162*6.5, stone.DefaultRimMM(0.05)-stone.GirdleMM),
		table{on("prongs"), "common practice: a round is set in four or six prongs", Practice, "", 0, ""}.between("prongs of a round", 4, 6, float64(prong.Usual(curve(outline.Round, 0, 6)))),
	}
}

// nosed is one round collar pressed flush in one hole: wall at the foot,
// height and load.
func nosed(meanRadiusMM, wallMM, heightMM, leanDegrees float64) (foot, height, loadN float64) {
	lean := factors.Angle(leanDegrees) * factors.Degree
	w, err := forming.NewWall(forming.Collar{Outline: curve(outline.Round, 0, 2*(meanRadiusMM-1)), RimOffsetMM: 1 - wallMM/lean.Cos()/2, Lean: lean, HeightMM: heightMM, WallMM: wallMM})
	if err != nil {
		panic(err)
	}
	rim, err := w.OuterRim()
	if err != nil {
		panic(err)
	}
	sterling := alloy("sterling")
	sterling.StrainLimit = 1 // in one pressing
	p, err := forming.NewPlan(w, forming.Die{Holes: forming.EvenHoles(rim, 0.5, 1), ThicknessMM: 2 * heightMM}, sterling)
	if err != nil {
		panic(err)
	}
	return p.Passes[len(p.Passes)-1].FootWallMM, p.HeightMM, p.MaxLoadN
}

// formings are collars in a block.
func formings() []Row {
	var rows []Row
	for _, c := range []struct {
		deck                     string
		mean, wall, height, lean float64
		footFE, heightFE, loadFE float64
	}{
		{"nosing-gentle-3", 4.6, 0.8, 6.35, 8.5, 0.8809, 6.3351, 2647},
		{"nosing-steep-3", 3.5, 0.6, 4.2, 15, 0.7028, 4.1534, 2589},
	} {
		foot, height, load := nosed(c.mean, c.wall, c.height, c.lean)
		t := table{on("collar"), "CalculiX 2.20, deck " + c.deck + " (calc/forming/testdata/nosing)", Read, "mm", 0, "10 % for wall and height, a factor of two for load"}
		rows = append(rows,
			t.row("wall at the foot", c.footFE, foot).with(0.1*c.footFE).of("sterling"),
			t.row("height after forming", c.heightFE, height).with(0.1*c.heightFE).of("sterling"),
			t.between("press load, N", c.loadFE/2, c.loadFE*2, load).of("sterling"))
	}
	const r = 14.0 / 18
	sheet := table{on("collar"), "relations of Johnson and Mellor, and of Dieter, for a tube of 20 x 2 mm to 16 mm at 8° (engineeringenotes.com has the inputs)", Memory, "", 5e-5, ""}
	ram := math.Pi / 4 * 2 * 2 * 25.4 * 25.4
	rows = append(rows,
		sheet.row("nosing stress over flow stress", 0.3803, forming.NosingShare(8*factors.Degree, 0.1, r)),
		sheet.row("sinking stress over flow stress", 0.3939, forming.SinkingShare(8*factors.Degree, 0.1, r)),
		table{on("collar"), "exact factors: a ram of 2 in at 10,000 psi pushes 31,416 lbf", Derived, "bar", 0.5, ""}.row("gauge for 139.7 kN", 689.4757, forming.GaugeBar(stock.Press{RamAreaMM2: ram}, 139.7e3)),
	)
	plate := table{on("collar"), "S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, plate with one free edge", Memory, "", 0, "10 %: the table is for another Poisson's ratio"}
	for ratio, k := range map[float64]float64{1: 1.440, 2: 0.698, 3: 0.564, 5: 0.506} {
		strain := forming.CrinkleStrain(stock.Alloy{HardeningExponent: 1}, 1, ratio*10, 10)
		rows = append(rows, plate.row(fmt.Sprintf("buckling factor, length %g times width", ratio), k, strain*12*0.75/(math.Pi*math.Pi)*100).with(0.1*k))
	}
	limits := table{on("collar", "dome"), "rolling reductions before an anneal", Read, "%", 1, "two thirds of it is allowed, house rule"}
	reduction := func(key string) float64 { return 100 * (1 - math.Exp(-alloy(key).StrainLimit*1.5)) }
	limits.source = "C. Lewton-Brain, bench forum: silver alloys are rolled about 45 % and annealed"
	rows = append(rows, limits.row("rolling reduction of sterling behind its limit", 45, reduction("sterling")).of("sterling"))
	limits.source = "an alloy maker's page on heat-treating: nickel white sheet is annealed again at 40 %"
	return append(rows, limits.row("rolling reduction of 18k-white behind its limit", 40, reduction("18k-white")).of("18k-white"),
		limits.row("rolling reduction of 14k-white behind its limit", 40, reduction("14k-white")).of("14k-white"))
}
