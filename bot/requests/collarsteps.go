package requests

import (
	"fmt"
	"math"

	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/forming"
)

// collarSteps is the way from the stock to the formed collar: at each step the
// tool, the face, and how the maker knows that it is done.
func collarSteps(c *catalogue.Call, u collarUsed) *making {
	m := makingOf(c, u.alloy)
	if u.tube.Name != "" {
		tubeSteps(c, u, m)
	} else {
		stripSteps(c, u, m)
	}
	block := "the block"
	if u.named {
		block = "block " + u.block.Name
	}
	number := 0
	for _, p := range u.plan.Passes {
		if p.AnnealBefore {
			annealSteps(u, m, p.Extra)
		}
		if p.Sizing {
			m.do([]cautions.Job{cautions.Hammer}, "%s", sizingWords(c, u, p))
			continue
		}
		number++
		m.do([]cautions.Job{cautions.Press}, "pressing %d of %d: %s", number, u.passes(), pressWords(c, u, p, block))
		m.add("get it out: lay the block face down on two bars and push on the foot with a brass or hardwood rod that fits the hole; it is out when it drops")
	}
	if u.plan.AnnealBeforePunch {
		annealSteps(u, m, false)
	}
	punchSteps(c, u, m)
	m.do([]cautions.Job{cautions.Files}, "rub the rim and then the foot on a flat file or emery on a plate, until all of each edge shines; wall %s at the rim and %s at the foot, height %s",
		words.Length(c, u.wall.Rim.WallMM), words.Length(c, u.plan.Passes[len(u.plan.Passes)-1].FootWallMM), words.Length(c, u.plan.HeightMM))
	last := treatment.JoinJobs(u.alloy)
	if len(last) > 0 {
		m.do(last, "wash the oil off and dry it; solder on all that belongs to it, bearing wire, base, shank, and clean it for the last time")
	}
	seatSteps(c, m, u.colletUsed)
	fitStep(c, m, u.colletUsed)
	m.do([]cautions.Job{cautions.Setting}, "set the stone last of all, when no more heat and no more wet work follows")
	fromTubeSteps(c, u, m)
	collarReasons(u, m)
	return m
}

func tubeSteps(c *catalogue.Call, u collarUsed, m *making) {
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "cut %s of tube square and deburr it; both ends are square when a try square shows no light", words.Length(c, u.stripHeightMM))
	m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
	if way := treatment.Of(u.alloy); way.Pickled && way.Cold == "" {
		m.do([]cautions.Job{cautions.Pickle}, "pickle it until it is clean")
	}
	dryAndOil(m, "")
	if u.fit.Why != "" {
		m.add("mind: %s", u.fit.Why)
	}
}

func stripSteps(c *catalogue.Call, u collarUsed, m *making) {
	m.do([]cautions.Job{cautions.Saw, cautions.Files}, "cut the strip %s; %s of its length is for filing the joint true; deburr it", words.Size(c, u.stripMM, u.stripHeightMM), words.Length(c, u.filing))
	m.do(treatment.AnnealJobs(u.alloy), "%s", treatment.Anneal(u.alloy))
	if u.strip.Bevel > 0 {
		side := "inner"
		if u.strip.BevelReflex {
			side = "outer"
		}
		m.add("file each end to a bevel of %.1f°, measured from the end as it was cut square, taking off the %s edge; the ends meet at the mitre without a gap", u.strip.Bevel.Degrees(), side)
	}
	m.do(treatment.JoinJobs(u.alloy), "bend it, wipe the joint clean of grease, close the seam %s until no light shows through, and %s", u.Seam.Summary, treatment.Join(u.alloy, "hard"))
	dryAndOil(m, "; file the joint flush inside and outside")
	m.add("the straight collar measures about %s outside", holeSize(c, u.RimOuter.Size()))
}

// dryAndOil comes between any heat and the block. A tube has no joint to file.
func dryAndOil(m *making, joint string) {
	m.add("rinse it well in fresh water and dry it inside and out, because acid and water rust the block%s", joint)
	m.add("before each pressing put thin oil or wax on the hole's side and on the collar's outside (common practice, no source)")
}

// annealSteps are an anneal between two pressings. A torch needs metal without
// oil, and the block metal without acid.
func annealSteps(u collarUsed, m *making, extra bool) {
	way := treatment.Of(u.alloy)
	why := ""
	if extra {
		why = " (one more, because the outline closes in several directions at once; common practice, no source)"
	}
	if way.Cold != "" {
		m.add("before you go on: %s%s", way.Cold, why)
		return
	}
	m.add("wipe the oil off, wash the collar in warm water and washing-up liquid, and dry it; it is clean when water runs off in a sheet")
	m.do(treatment.AnnealJobs(u.alloy), "%s%s", treatment.AnnealAgain(u.alloy), why)
	if way.Pickled {
		m.do([]cautions.Job{cautions.Pickle}, "%s; then pickle it, rinse it well and dry it inside and out, and oil it again", way.Cool)
	} else {
		m.add("%s; then dry it inside and out, and oil it again", way.Cool)
	}
}

// sizingWords is how a tube gets the outline and the size of the rim.
func sizingWords(c *catalogue.Call, u collarUsed, p forming.Pass) string {
	part := ""
	if p.Parts > 1 {
		part = fmt.Sprintf(", part %d of %d", p.Part, p.Parts)
	}
	outside := holeSize(c, u.RimOuter.Size())
	if p.Strain < 0 {
		return fmt.Sprintf("stretch the tube by %.1f %%%s: shape it over a mandrel of the stone's outline with a rawhide or nylon mallet, then press the oiled punch in from the rim's end and from the foot's in turn, until the outside measures %s at both ends (common practice, no source)",
			100*(math.Exp(-p.Strain)-1), part, outside)
	}
	return fmt.Sprintf("squeeze the tube by %.1f %%%s: shape it over a mandrel of the stone's outline with a rawhide or nylon mallet, then press one end and the other in turn a little way into the oiled hole with a flat plate, and true it on the mandrel, until the outside measures %s at both ends (common practice, no source)",
		100*(1-math.Exp(-p.Strain)), part, outside)
}

// pressWords is one pressing: hole, face, tool, and when it is done.
func pressWords(c *catalogue.Call, u collarUsed, p forming.Pass, block string) string {
	part := ""
	if p.Parts > 1 {
		part = fmt.Sprintf(" (part %d of %d)", p.Part, p.Parts)
	}
	sink := math.Max(0, p.Hole.GapMM) / u.Lean.Tan()
	drops := "it drops in by " + words.Length(c, sink)
	if sink < 0.05 {
		drops = "it stands on the hole's edge"
	}
	s := fmt.Sprintf("hole %s of %s%s, the wide side of the hole up: set the collar in upright, foot first; %s. ", holeSize(c, p.Hole.Size), block, part, drops)
	switch {
	case p.BelowMM > 0.05:
		s += fmt.Sprintf("Press with a follower or the punch's shoulder on the rim; done when the depth rod of the calipers measures %s from the block's face down to the rim all round", words.Length(c, p.BelowMM))
	case p.BelowMM < -0.05:
		s += fmt.Sprintf("Press with a flat steel plate on the rim; done when the rim stands %s above the block's face all round", words.Length(c, -p.BelowMM))
	default:
		s += "Press with a flat steel plate on the rim; done when the plate lies on the block's face all round and the rim is flush"
	}
	return s + fmt.Sprintf(". %s of the wall leans now; strain %.3f, %.3f since the last anneal, limit %.2f; %s, no target",
		words.Length(c, p.TaperMM), math.Abs(p.Strain), p.SinceAnneal, u.alloy.StrainLimit, loadWords(c, u, p.LoadN))
}

// punchSteps true the inside. A hardened punch under a hardened hammer throws
// splinters.
func punchSteps(c *catalogue.Call, u collarUsed, m *making) {
	inner, err := u.stone.curve.Offset(u.wall.Foot.InnerOffsetMM)
	if err != nil {
		return
	}
	base, rim := inner.Size(), u.RimInner.Size()
	name := fmt.Sprintf("a %s punch of %.1f° lean that is %s at its tip or less and %s at its shoulder or more",
		u.stone.shape.Kind, u.Lean.Degrees(), holeSize(c, base), holeSize(c, rim))
	if punch, ok := punchFor(c.Shop, u.stone.shape.Kind, u.Lean.Degrees(), base, rim); ok {
		name = "punch " + punch.Name
	}
	m.do([]cautions.Job{cautions.Hammer, cautions.Press}, "true the inside in the last hole with %s, oiled: press it in gently under the press, or tap it with a brass, rawhide or nylon mallet, never with a hardened hammer; done when its side touches the wall all round and no light shows between them", name)
}

// fromTubeSteps say which tubes serve.
func fromTubeSteps(c *catalogue.Call, u collarUsed, m *making) {
	for i, f := range servingTubes(u.tubes, 3) {
		if i == 0 && u.tube.Name == "" {
			m.add("from tube instead, a heavy-walled one whose bore is near the stone's size (common practice, no source): the block brings it to size")
		}
		why := ""
		if f.Why != "" {
			why = "; " + f.Why
		}
		m.add("%s: %s, bore %s; cut %s%s", f.Tube.Name, stretchWords(f.Stretch), words.Length(c, f.BoreMM), words.Length(c, f.Wall.StripHeightMM), why)
	}
}

// collarReasons say how the figures are worked out.
func collarReasons(u collarUsed, m *making) {
	m.add("how it is worked out: hoop strain ln(P0/P) of the mid-wall perimeter, no change of volume, so the metal stays %.1f mm³; wall and height along the wall each grow by the root of P0/P", u.wall.VolumeMM3)
	m.add("load: (1 + friction / tan lean) x (1 - foot / rim) x flow stress x section of the wall, thin-wall tube nosing (Johnson and Mellor, from memory). It may be off by a factor of %d either way, and seating a punch takes more; finite-element runs of two round collars gave 1.3 and 1.4 times as much, and wall and height within 6 %%", int(forming.SpreadFactor))
	m.add("anneals: where the strain since the last one would pass the limit, and before the punch where half of it is used up; never after a strain under %.2f, because a light strain and an anneal let the grain grow coarse (Z. Metallkunde 85, 1994, abstract; the figure: common practice, no source)", forming.LightStrain)
	m.add("%s: %s", u.alloy.Name, u.alloy.FormingSource)
	if u.plan.Crinkle != forming.NoFlats {
		m.add("flats: a plate with one free edge in compression, tangent modulus (Timoshenko and Gere, from memory): risk %s", u.plan.Crinkle)
	}
}
