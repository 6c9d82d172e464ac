package sentence

import (
	"math"
	"strings"
	"sync"

	"guildhand/bot/knowledge"
)

// ringSign is a way to tell that a message is about one of the ring's jobs: one
// phrase of each group is said, and none of its strangers.
type ringSign struct {
	of        string
	weight    int
	all       [][]string
	strangers []string
}

// decides is the weight from which a sign or several of them name a job.
const decides = 5

// ringJobs are the ring's jobs, in the order in which they win where two are
// named alike: a halo in tubes is a halo, a tube on a shank a saddle.
var ringJobs = []string{"halo", "saddle", "tubeset", "jumpring", "resize"}

// Words that several signs share.
var (
	shankWords    = []string{"shank", "ring", "band", "signet"}
	settingWords  = []string{"half ball", "setting", "collet", "bezel", "cup", "head", "basket", "base", "tube", "tubes", "cone", "dome", "mount"}
	changingWords = []string{"=bigger", "=smaller", "=larger", "too tight", "too big", "too small", "too loose", "too large", "stretch", "take out", "cut out", "taking out", "took out", "cutting out", "let in", "add a piece", "adding a piece", "3mm piece", "=insert", "reduce", "enlarge", "shrink", "tighten", "loosen", "slides off", "slips off", "wont go over", "doesnt fit", "does not fit", "wont fit", "up a size", "down a size", "make it fit", "piece to add", "how much to take", "=take it down", "=take it up", "=taking it down", "=taking it up", "=taking it in", "=bring it down", "=bring it up", "=sizing", "=sized", "=resize", "=resized", "=resizing", "size up", "size down", "how much do i add", "adding", "half size up", "need up or down", "up or down"}
)

// unsquare are words for the end of a tube that is square or is not.
var unsquare = []string{"=square", "squarely", "straight", "crooked", "wonky", "squint", "skew", "skewed", "at an angle", "on the huh", "slanted", "not true", "perpendicular", "wavy"}

// notSaddle are words of other work on a ring with a setting.
var notSaddle = []string{"resize", "sizing", "stacking", "halo", "class", "students", "prong", "prongs", "claw", "claws", "bezel wire", "strip", "weigh", "weighs", "easy", "which first", "seam", "which solder", "what solder", "too thin", "too thick", "thick enough", "reshank", "stable", "tip over"}

// ringSigns tell the ring's jobs apart. Adding a way to name one is a literal here.
var ringSigns = []ringSign{
	{of: "jumpring", weight: 6, all: [][]string{{"jump ring", "jumpring", "jumprings", "jump rings", "jumper rings", "chainmail", "chainmaille", "chain mail", "maille", "byzantine", "jens pind", "jpl", "half persian", "full persian", "european 4 in 1", "one in one", "=jumps", "little rings that join", "small rings that join", "connector rings", "connecting rings", "o rings", "open rings", "closed rings", "split rings"}}},
	{of: "jumpring", weight: 5, all: [][]string{{"=loops"}, {"wire"}, {"=inside", "=id", "mandrel", "rod", "inner"}}},
	{of: "jumpring", weight: 5, all: [][]string{{"=rings", "=links", "=link", "=turns", "=turn", "=coil"}, {"wire", "=ga", "=g", "gauge", "swg", "awg", "coil", "chain"}, {"mandrel", "rod", "drill bit", "dowel", "knitting needle", "wound", "wind", "winding", "=inside", "=outside", "=id", "=od", "kerf", "cutters", "clasp", "out of that", "from a coil", "how many", "per foot", "per inch", "per metre", "per meter", "chain", "bracelet", "necklace", "inner", "outer", "is in it"}}, strangers: []string{"wedding", "stacking", "finger", "ring size", "solitaire", "stone", "stones"}},
	{of: "jumpring", weight: 6, all: [][]string{{"loop in loop", "roman chain"}}},
	{of: "jumpring", weight: 5, all: [][]string{{"mandrel"}, {"=outside", "=inside", "=od", "=id"}, {"=ring"}, {"out of", "from", "in wire"}}, strangers: []string{"finger", "=size", "band", "wedding", "hammer", "resize", "us", "uk", "shank", "bangle"}},
	{of: "jumpring", weight: 5, all: [][]string{{"aspect ratio", "=ar", "springback", "spring back"}}},
	{of: "jumpring", weight: 5, all: [][]string{{"ratio"}, {"=id", "inside", "wire"}}, strangers: []string{"bezel", "collet", "stone", "mix", "alloy"}},
	{of: "jumpring", weight: 5, all: [][]string{{"mandrel", "rod", "dowel", "drill bit", "knitting needle"}, {"wire", "=rings"}, {"outside", "inside", "=od", "=id", "turns", "wound", "wind", "coil", "=rings"}}, strangers: []string{"finger", "ring size", "band", "bangle", "hoop", "bezel", "stone"}},
	{of: "jumpring", weight: 5, all: [][]string{{"=rings"}, {"out of that", "metres of", "meters of", "feet of", "foot of", "m of", "of wire", "kerf", "cutters", "nippers", "snips"}}, strangers: []string{"wedding", "stacking", "finger", "ring size", "stone", "stones"}},
	{of: "jumpring", weight: 5, all: [][]string{{"clasp", "necklace", "bracelet", "anklet", "charm", "charms", "keyring"}, {"ring", "rings", "=link", "=links"}, {"gauge", "=g", "=ga", "wire", "thick"}}, strangers: []string{"finger", "ring size", "bangle", "wedding", "bezel", "stone", "cab"}},
	{of: "jumpring", weight: 4, all: [][]string{{"chain", "=links", "necklace", "bracelet"}, {"wire", "=links", "rings"}, {"=inside", "=id", "inner", "links", "rings"}}, strangers: []string{"bangle", "cuff", "wrist"}},

	{of: "halo", weight: 6, all: [][]string{{"halo", "halos", "haloed"}}},
	{of: "halo", weight: 5, all: [][]string{{"pitch circle", "pcd", "flower", "petals", "daisy", "cluster"}, {"stones", "round", "petals", "diamonds", "centre", "center"}}, strangers: []string{"jump"}},
	{of: "halo", weight: 5, all: [][]string{{"round it", "around it", "around a", "round a", "around an", "round an", "around the", "round the", "around one", "=around", "surround", "surrounding", "surrounded", "encircle", "circling", "go round", "go around", "goes round", "goes around", "fit round", "fit around", "ring of", "circle of", "border of"}, {"=stones", "diamonds", "melee", "accents", "=sapphires", "=rubies", "=brilliants", "=pearls", "=garnets", "=emeralds", "=spinels", "=zircons", "seed pearls", "=czs", "tiny cz", "=balls", "=granules"}}, strangers: []string{"shank", "finger", "channel", "eternity", "all the way round", "bezel wire", "strip", "string", "paper", "thread", "gap all round"}},
	{of: "halo", weight: 5, all: [][]string{{"melee", "accents", "small stones", "little stones"}, {"centre", "center", "middle stone", "main stone", "solitaire"}}},
	{of: "halo", weight: 5, all: [][]string{{"=stones", "melee"}, {"gap", "spacing", "spaced"}, {"centre", "center", "outside", "outer", "round"}, {"count", "how many", "fit", "fitted", "number", "go in"}}, strangers: []string{"tube", "row", "shank", "channel"}},
	{of: "halo", weight: 5, all: [][]string{{"=stones", "melee", "diamonds"}, {"round centre", "round center", "oval centre", "oval center", "centre stone", "center stone", "=centre", "=center"}}, strangers: []string{"tube", "row", "shank", "channel", "prong", "prongs", "claw", "claws", "only", "centre to centre", "center to center"}},
	{of: "halo", weight: 5, all: [][]string{{"round a", "around a", "round an", "around an", "round the", "around the"}, {"how many"}, {"=gap", "spacing"}}, strangers: []string{"shank", "finger", "strip", "string", "wire"}},
	{of: "halo", weight: 5, all: [][]string{{"carat weight", "total carat", "tcw", "ctw", "total carats", "how many carats"}, {"diamonds", "stones", "melee", "rounds"}}, strangers: []string{"ring", "tube"}},
	{of: "halo", weight: 5, all: [][]string{{"plate", "pave"}, {"drill", "drilled", "hole", "holes", "seat"}, {"stone", "stones", "bur", "seat"}}, strangers: []string{"back plate", "backplate", "tube", "bezel"}},

	{of: "halo", weight: 5, all: [][]string{{"what angle", "angle in degrees", "how many degrees", "degrees between", "degrees apart", "in degrees"}, {"hole", "holes", "stones", "prongs", "claws", "petals"}, {"between", "apart", "each"}}, strangers: []string{"tubes", "collets", "collet", "block", "side by side"}},

	{of: "tubeset", weight: 6, all: [][]string{{"tube set", "tube setting", "tubeset", "tube settings", "tube sets", "tube bezel", "tube bezels", "chenier setting"}}},
	{of: "tubeset", weight: 5, all: [][]string{{"tube", "tubes", "tubing", "chenier", "pipe"}, {"stone", "stones", "seat", "bur", "burr", "girdle", "culet", "brilliant", "cz", "gem", "pearl", "diamond", "sapphire", "ruby", "bright cut", "rattles", "rattle", "burnish", "set", "round", "rounds", "stud", "studs", "strip", "draw", "drawplate"}}, strangers: []string{"block", "collar", "taper", "tapered", "cab", "cabochon", "weigh", "weighs", "grams", "cast", "wax", "offcut", "scrap", "match", "hoop", "bangle"}},
	{of: "tubeset", weight: 5, all: [][]string{{"=bur", "=burr", "setting bur", "burs"}, {"seat", "stone"}, {"fit", "ok", "size", "measured", "tight"}}, strangers: []string{"prong", "claw", "claws", "prongs", "collet", "plate", "bezel"}},

	{of: "tubeset", weight: 5, all: [][]string{{"tube", "tubes", "tubing", "chenier"}, {"cut", "cutting", "saw", "sawing", "sawn"}, unsquare}, strangers: []string{"square tube", "square stone", "shank", "solder"}},
	{of: "tubeset", weight: 5, all: [][]string{{"=cab", "cabochon", "cabs"}, {"in a tube", "in tube", "open the tube", "open up the tube", "in tubing", "in chenier", "in a piece of tube"}}, strangers: []string{"block", "taper", "tapered"}},

	{of: "saddle", weight: 6, all: [][]string{{"fish mouth", "fishmouth", "fish mouthed", "fishmouthed", "birds mouth", "birdsmouth"}}},
	{of: "saddle", weight: 5, all: [][]string{{"=tube"}, {"ring", "band", "shank"}, {"on a", "on the", "on my", "onto a", "to stand on"}, {"tall", "high", "long", "=wall", "template"}}, strangers: append([]string{"stone", "stones", "cz", "diamond", "bur", "burr", "hole", "through", "seat", "drill"}, notSaddle...)},
	{of: "saddle", weight: 5, all: [][]string{{"scoop", "scooped", "curve", "curved", "hollow", "hollowed"}, settingWords, {"bangle", "cuff"}}},
	{of: "saddle", weight: 5, all: [][]string{{"=cab", "cabochon", "cabs"}, {"wire shank", "wire ring", "round shank"}, {"join", "attach", "fix", "how do i", "sit"}}, strangers: notSaddle},
	{of: "saddle", weight: 5, all: [][]string{{"tubes", "collets", "settings", "bezels", "baskets"}, {"side by side", "in a row", "next to each other"}, {"=size", "ring", "shank", "band"}}, strangers: append([]string{"spacing", "spaced", "how far apart", "along a bar"}, notSaddle...)},
	{of: "saddle", weight: 5, all: [][]string{{"=radius", "curve", "curved", "curvature", "hollow"}, {"file", "filed", "filing", "sand", "grind", "bur", "burr"}, settingWords, {"ring", "shank", "band", "=size"}}, strangers: append([]string{"corner", "corners"}, notSaddle...)},
	{of: "saddle", weight: 5, all: [][]string{{"backplate", "back plate", "base plate", "baseplate"}, {"curve", "curved", "flat on", "bend", "dish", "a flat"}, {"shank", "ring", "band"}}, strangers: []string{"resize", "solder first", "halo"}},
	{of: "saddle", weight: 6, all: [][]string{{"saddle", "saddled", "saddling", "coped", "cope"}}},
	{of: "saddle", weight: 5, all: [][]string{{"half round file", "round file", "which file", "what file"}, {"=size", "ring", "shank", "band"}, {"match", "matches", "outside", "fit", "fits", "curve"}}, strangers: []string{"inside of", "resize", "seam"}},
	{of: "saddle", weight: 5, all: [][]string{settingWords, shankWords, {"notch", "scoop", "curve", "curved", "hug", "sit on", "sits on", "sit", "sits", "leans", "lean", "contour", "onto", "on top", "across or along", "across the band", "flush with", "on narrow", "came off", "fell off", "broke off", "gap", "hollow", "scallop", "bind", "between the ends", "follow", "following", "angle between"}}, strangers: notSaddle},
	{of: "saddle", weight: 5, all: [][]string{{"setting", "collet", "bezel", "cup", "head", "basket", "tube", "mount"}, {"shank"}, {"on a", "on the", "on my", "to a", "to the", "to my", "onto"}}, strangers: notSaddle},
	{of: "saddle", weight: 5, all: [][]string{{"base", "collet", "bezel", "setting", "oval", "tube", "tubes", "cup"}, {"shank", "ring", "size", "band", "finger"}, {"notch", "scoop", "gap at the ends", "gap be", "how high will", "outside dia", "lengthways", "along the finger", "across the finger", "finger curve", "hug"}}},

	{of: "resize", weight: 5, all: [][]string{{"=resize", "=resizing", "=resized", "re size", "=sizing", "=sized", "=upsize", "=downsize", "size up", "size down", "sizes up", "sizes down", "sizes bigger", "sizes smaller", "size bigger", "size smaller", "sizes larger", "size larger", "up a size", "down a size", "half a size up", "half a size down", "half size up", "half size down", "size it", "sizing beads", "half a size off", "size off", "sizes off", "make bigger", "make smaller", "make it bigger", "make it smaller"}}, strangers: []string{"jump", "paper", "convert", "stone size", "wide", "how much bigger", "photo"}},
	{of: "resize", weight: 5, all: [][]string{{"finger", "knuckle", "ring", "band", "signet", "shank", "uk sizes", "us sizes"}, changingWords}, strangers: []string{"jump", "halo", "tube", "collet", "bezel", "bigger stone", "=rings", "wax", "cast", "blank", "strip", "dome", "wire", "how long", "make a ring", "making a", "block", "black", "pickle", "polish", "keep getting", "hammer", "texture", "planish", "convert", "stacking", "wide band", "wide ring", "wide one"}},
	{of: "resize", weight: 5, all: [][]string{{"=sizing", "=resize", "=resized", "=resizing", "size up", "half size up", "half a size up"}, {"wide", "cut", "insert", "stretch", "roll"}}, strangers: []string{"paper", "jump", "convert"}},
	{of: "resize", weight: 5, all: [][]string{{"=to size", "i size", "you size", "=sized", "size it", "size a ring", "size my ring", "size this ring", "size the ring", "size that ring"}, {"ring", "band", "signet", "shank"}}, strangers: []string{"jump", "stone size", "make a ring", "what size", "which size"}},
	{of: "resize", weight: 5, all: [][]string{{"=sizes"}, {"going up", "go up", "goes up", "going down", "go down", "=up", "=down", "bigger", "smaller"}}, strangers: []string{"jump", "paper", "convert", "list", "chart", "halo", "tube", "stone", "stones", "wide", "hammer"}},
	{of: "resize", weight: 5, all: [][]string{{"how much bigger", "how much smaller", "how much larger", "difference between", "how many mm between", "mm between"}, {"=size", "=sizes"}}, strangers: []string{"jump", "wax", "cast", "casting", "stone", "hammer", "wide", "texture", "planish", "solder", "systems"}},
	{of: "saddle", weight: 5, all: [][]string{{"setting", "collet", "bezel", "tube"}, {"bottom", "base", "underside"}, {"to fit", "fits", "fit a size", "fit a ring", "fit the ring", "fit my ring"}, {"file", "curve", "cut", "shape"}}, strangers: append([]string{"plate", "backplate"}, notSaddle...)},
	{of: "resize", weight: 5, all: [][]string{{"too big by", "too small by", "too tight by", "too loose by", "too large by", "made it too big", "made it too small", "came out too big", "came out too small", "comes out too big", "comes out too small"}, {"size", "sizes"}}, strangers: []string{"stone", "bezel", "collet", "jump", "cab", "wax", "cast"}},
	{of: "resize", weight: 5, all: [][]string{{"compress", "compressing", "reducing plate", "reducing plates", "reducing die", "ring reducer", "ring shrinker"}, {"ring", "band"}}, strangers: []string{"jump"}},
	{of: "resize", weight: 5, all: [][]string{{"old joint", "old seam", "old solder joint", "previous joint", "last joint"}, {"cut", "saw", "where", "size"}}},
	{of: "resize", weight: 5, all: [][]string{{"stretch"}, {"sterling", "gold", "silver", "ring", "band", "size", "thins", "thin"}}, strangers: []string{"bezel", "collet", "tube", "jump", "bangle", "chain", "strip", "half a millimetre", "dome", "how long", "hammer", "texture", "planish"}},
}

var groupsOfRingSigns = sync.OnceValue(func() (all [][]askedGroup) {
	for _, s := range ringSigns {
		all = append(all, groupsOf(s.all))
	}
	return all
})

// ringWork is the ring's job that a message is about, "" for none of them.
func (m *message) ringWork() string {
	weights := map[string]int{}
	groups := groupsOfRingSigns()
	for i, s := range ringSigns {
		if m.saysAsked(groups[i]) > 0 && !m.says(s.strangers...) {
			weights[s.of] += s.weight
		}
	}
	if m.tellsTwoSizes() || m.tellsTwoMeasures() {
		weights["resize"] += decides
	}
	if m.lengthPut() || m.cameUpWrong() {
		weights["resize"] += decides
	}
	if m.has("tube") && m.has("stone") && !m.says(notTubeset...) {
		weights["tubeset"] += decides
	}
	if m.countAround() || m.smallStonesBeside() {
		weights["halo"] += decides
	}
	if m.wireAndInside() {
		weights["jumpring"] += decides
	}
	best := ""
	for _, of := range ringJobs {
		if weights[of] >= decides && (best == "" || weights[of] > weights[best]) {
			best = of
		}
	}
	return best
}

// tellsTwoSizes reports whether two ring sizes are named, one of which is to
// become the other.
func (m *message) tellsTwoSizes() bool {
	if m.ringSizes() != 2 || m.says("for sizes", "lengths for", "all sizes", "each size") || m.has("convert") && !m.sizesJoined() || m.bySeason() || m.says(settling...) || m.says("list", "chart", "both", "each", "=or", "same as", "do both") {
		return false
	}
	return m.aboutTwoSizes() || m.says("shes", "hes", "her finger", "his finger", "knuckle", "cut out", "too tight", "too big", "too small", "too loose", "=need", "=needs", "=want", "i wear", "need about", "need or", "goes on") || m.twoSizesTold()
}

// bySeason matches a finger that changes, "an M in January and an O in July", which asks
// how to live with both.
func (m *message) bySeason() bool {
	return m.says("winter", "summer", "january", "july", "hot weather", "cold weather", "morning and evening", "swell", "swells")
}

// twoSizesTold matches the size of a ring and that of its wearer: "it's an M and I'm a
// P", "the ring is a K, my finger an N".
func (m *message) twoSizesTold() bool {
	return m.says("its a", "its an", "it is a", "it is an", "it says", "ring is", "rings a", "rings an", "marked", "stamped", "is currently", "at the moment") && m.says("=im", "i am", "she is", "he is", "finger", "mine is", "i take", "takes a", "takes an")
}

// cameUpWrong matches a ring that came out of another size than was meant: "it came up
// too big, it was to be O and it's O and three quarters".
func (m *message) cameUpWrong() bool {
	return m.ringSizes() >= 1 && m.says("came up too big", "came up too small", "came out too big", "came out too small", "turned out too big", "turned out too small") && m.says("was to be", "should be", "should have been", "meant to be", "supposed to be", "wanted")
}

// lengthPut reports whether a piece was let into a ring of known size, or taken out.
func (m *message) lengthPut() bool {
	return m.ringSizes() == 1 && m.says("what will it be", "what would it be", "what is it now", "piece in", "bit in", "piece out", "bit out", "mm out", "mm in", "put a", "let a", "took a") && m.says("put", "let", "took", "cut", "take", "taken", "add", "adding", "added") && m.of(length) != nil && !m.has("stone", "tube", "cab")
}

// tellsTwoMeasures reports whether a ring's inside is told before and after, or a
// size and the number that it shall become: "size 7 make 7 1/4".
func (m *message) tellsTwoMeasures() bool {
	if m.has("stone", "cab", "tube", "bangle", "convert") || m.hasStone() || m.says("jump", "list", "chart", "each") {
		return false
	}
	if pair, _ := m.insideMeasures(); pair != nil {
		return !m.says("block", "collet", "collar") && (m.says("finger", "knuckle") && m.says("ring", "band") || m.says("ring", "band", "piece", "inside", "inner", "finger") && m.says("from", "make", "take out", "add", "into", "down", "up", "let in", "cut out", "take", "should be", "want", "wants", "need", "needs"))
	}
	if m.sizesLed() == 2 && m.says("needs to be", "should be", "has to be", "supposed to be", "want it", "need it", "i wear") && m.says("ring", "band", "finger") {
		return true
	}
	if size := m.of(ringSize); size == nil || letter(size.shown) {
		return false
	}
	for _, q := range m.found {
		if w := m.at(q.first - 1).text; q.measure == bare && (w == "make" || w == "it" && m.at(q.first-2).text == "make" || w == "into" || w == "be" || w == "need" || w == "needs" || w == "want" || w == "to" && m.at(q.first-2).text == "down") && q.value <= 16 && 4*q.value == math.Trunc(4*q.value) && !measuring[m.at(q.next).text] {
			return true
		}
	}
	return false
}

// sizesLed counts the bare numbers that may be ring sizes and have a word before
// them that leads to one: "is 6 1/2, needs to be 7 1/4".
func (m *message) sizesLed() (n int) {
	for _, q := range m.found {
		if q.measure == bare && q.value >= 1 && q.value <= 16 && 4*q.value == math.Trunc(4*q.value) && m.sizeLed(q) && !measuring[m.at(q.next).text] {
			n++
		}
	}
	return n
}

// notTubeset are words of other work with tube.
var notTubeset = []string{"block", "collar", "taper", "tapered", "cab", "cabochon", "weigh", "weighs", "grams", "cast", "wax", "offcut", "scrap", "match", "hoop", "bangle"}

// countAround matches a number of small stones by their size round something: "14 x
// 1.7 mm around a 6.25 mm sapphire".
func (m *message) countAround() bool {
	for _, q := range m.found {
		if m.countsStones(q) && m.says("around", "=round a", "=round an", "=round the", "=round my", "pitch circle", "pcd") {
			return true
		}
	}
	return false
}

// countsStones reports whether a size of two sides is a count and a stone's size.
func (m *message) countsStones(q *quantity) bool {
	return q.measure == size && len(q.sides) == 2 && q.sides[0] == math.Trunc(q.sides[0]) && q.sides[0] >= 5 && q.sides[1] <= 3 && (q.sides[0] >= 3*q.sides[1] || m.at(q.first-1).text == "of" && m.at(q.first-2).stem == "halo")
}

// ringSizes counts the ring sizes of a message.
func (m *message) ringSizes() (n int) {
	for _, q := range m.found {
		if q.measure == ringSize {
			n++
		}
	}
	return n
}

// wireAndInside matches wire, an inside diameter and a number of pieces with no
// word for what is made: "bronze 14 gauge 1/2" ID x 40".
func (m *message) wireAndInside() bool {
	wire := m.of(gauge) != nil || m.beside("wire") != nil
	return wire && m.counts("pieces", "rings") != nil && m.says("=id", "inside", "inner diameter") && m.of(ringSize) == nil && !m.has("stone", "tube", "cab", "bangle", "ring") && m.stoneSides() == nil
}

// ringTalk reads a message about one of the ring's jobs: a question that its
// request does not answer, or the request itself.
func (m *message) ringTalk() (Reading, bool) {
	of, ok := m.ringJob()
	if !ok {
		return Reading{}, false
	}
	m.bindRoles()
	for _, a := range ringAnswers {
		if a.of != of || m.saysOneOfEach(a.asks) == 0 {
			continue
		}
		m.release()
		if r, ok := a.read(m); ok {
			return r, true
		}
	}
	m.release()
	if f := m.ringFact(of, true); f != nil && !m.wholeRing() && !m.wholeSaddle(of) {
		return explain(f), true
	}
	if of == "resize" {
		m.sizesInTalk()
	}
	f := m.ringFact(of, false)
	if f == nil && m.ringSizes() < 2 && !m.tellsTwoMeasures() {
		// "solder jump rings" has the words of solder that jumps.
		if r, ok := m.trouble(); ok && !(of == "jumpring" && r.Topic == "trouble: solder jumps to one side") {
			return r, true
		}
	}
	if of == "band" {
		return Reading{}, false // the jobs read bands
	}
	m.release()
	whole := m.wholeRing()
	r, ok := m.ringRequest(of)
	if of == "resize" && ok && whole {
		r = m.newSizeOf(r)
	}
	switch {
	case ok && r.Outcome == Request && (f == nil || m.manyFigures() || !m.asksWhy() && !m.says("melted", "collapsed", "ruined", "snapped", "went wrong")):
		return m.withVerdict(r), true
	case f != nil:
		return explain(f), true
	case !ok || r.Outcome == Question && len(m.found) == 0 && (!m.wantsPiece() || m.asksWhy()):
		m.release()
		return m.ringInWords(of)
	}
	return m.withVerdict(r), true
}

// ringJob is the ring's job that a message is to be read for, "band" where it is about a
// ring's blank; false where other rules read it better.
func (m *message) ringJob() (of string, ok bool) {
	of = m.ringWork()
	beside := of == "saddle" && m.says("next to", "beside", "against") && !m.says("saddle", "shank", "on a ring", "on the ring", "on top of", "onto")
	if (of == "halo" || of == "" || beside) && m.wholeSetting() {
		return "", false
	}
	if of == "" {
		if m.cues["band"]+m.cues["bangle"] < 3 && m.of(ringSize) == nil && (m.cues["band"] == 0 || len(m.found) > 0) || m.cues["collet"]+m.cues["bezel"]+m.cues["kit"]+m.cues["prongs"] >= 3 {
			return "", false
		}
		of = "band"
	}
	if of == "tubeset" && (len(m.found) == 0 && m.has("whichstone") || len(m.lengths()) > 4 && len(m.tubePairs()) < 2) || m.counts("makers") != nil || m.cues["kit"] >= 3 && (m.has("class", "each") || m.cues["kit"] > 3) || m.cues["bench"] >= 4 || m.cues["daybook"] >= 3 || !m.canAnswer(of) {
		return "", false
	}
	if len(m.found) == 0 && len(m.tokens) <= 6 {
		if _, ok := m.definition(); ok {
			return "", false
		}
	}
	return of, true
}

// newSizeOf is the ring of the size that another would be resized to: "she's an N,
// go half a size up" of a ring that is yet to be made.
func (m *message) newSizeOf(resize Reading) Reading {
	system, size, named := strings.Cut(resize.Options["to"], " ")
	if resize.Outcome != Request || !named || m.says("piece", "let in", "insert", "take out", "cut out", "goes in", "comes out") || resize.Options["width"] == "" || resize.Options["thickness"] == "" {
		return resize
	}
	options := map[string]string{"ring": size, "system": system}
	for _, name := range []string{"width", "thickness", "alloy", "profile"} {
		if v := resize.Options[name]; v != "" {
			options[name] = v
		}
	}
	return Reading{Outcome: Request, Request: "band", Options: options, Notes: resize.Notes}
}

// wholeRing reports whether a ring is described by its size, width and thickness and
// its length is asked for, so that the rest is a story.
func (m *message) wholeRing() bool {
	return m.of(ringSize) != nil && m.with("width") != nil && m.with("thickness") != nil && m.says("how long", "do i cut", "to cut", "what length", "length of", "blank")
}

// wholeSaddle reports whether a setting and the ring that it sits on are described and
// the curve of its base is asked for.
func (m *message) wholeSaddle(of string) bool {
	return of == "saddle" && m.of(ringSize) != nil && m.stoneSides() != nil && m.says("radius", "curve", "what do i", "how much", "how deep")
}

// manyFigures reports whether a message gives two figures or more, which make a
// piece and not a question in words.
func (m *message) manyFigures() bool {
	n := 0
	for _, q := range m.found {
		switch q.measure {
		case size:
			n += len(q.sides)
		case count, percent, money:
		default:
			n++
		}
	}
	return n >= 2
}

// asksWhy reports whether a message asks for a reason or a way and not for figures.
func (m *message) asksWhy() bool {
	return m.startsWith("why", "how do i", "how do you", "how to", "whats the difference", "what is the difference", "should i", "is it", "can i", "do i", "does", "which is") && !m.says("how long", "how many", "how much", "work out", "calculate")
}

func (m *message) ringRequest(of string) (Reading, bool) {
	switch of {
	case "jumpring":
		return m.jumpring()
	case "halo":
		return m.halo()
	case "tubeset":
		return m.tubeset()
	case "saddle":
		return m.saddle()
	}
	return m.ringResize()
}

// ringFact is the fact of this job whose groups of words are said best, of those
// that block the job's request or of the others.
func (m *message) ringFact(of string, blocks bool) *knowledge.Fact {
	best, score := (*knowledge.Fact)(nil), 0
	facts := knowledge.Facts()
	for i := range facts {
		if f := &facts[i]; f.Of == of && f.Blocks == blocks {
			if n := m.saysAsked(asksOfFacts()[i]); n > score {
				best, score = f, n
			}
		}
	}
	return best
}

// ringInWords answers a question about one of the ring's jobs from the facts that
// are nearest to its words, or asks what is to be worked out.
func (m *message) ringInWords(of string) (Reading, bool) {
	if r, ok := m.fact(); ok && len(m.found) == 0 {
		return r, true
	}
	near := m.nearestTopics()
	if !m.wantsPiece() || m.asksWhy() {
		for _, n := range m.nearestOf(ringTopics()) {
			if n.fact.Of == of && n.score >= likely && (len(near) == 0 || near[0].score <= n.score) {
				return explain(n.fact), true
			}
		}
	}
	if len(near) > 0 && near[0].score >= likely {
		return Reading{}, false // the other rules answer it
	}
	d := m.draft(of)
	what := ringExamples[of]
	d.question("", what.ask, what.choices...)
	return Reading{Outcome: Question, Request: of, Options: d.options, Ask: d.ask, Choices: d.choices}, true
}

// ringExamples ask what is to be worked out, with lines that work.
var ringExamples = map[string]struct {
	ask     string
	choices []Choice
}{
	"jumpring": {"I can work out wire, count and weight of jump rings. Which wire, which inside diameter, and how many?", []Choice{
		{"100 of 18 ga, 5 mm inside", "jumpring", map[string]string{"wire": "18ga", "inside": "5", "count": "100"}}, {"by aspect ratio", "jumpring", map[string]string{"wire": "1.2mm", "ratio": "4.5"}}}},
	"resize": {"From which ring size to which, and in which system?", []Choice{
		{"US 6 to US 7", "resize", map[string]string{"from": "us 6", "to": "us 7"}}, {"UK P to UK N", "resize", map[string]string{"from": "uk P", "to": "uk N"}}}},
	"tubeset": {"How wide is the round stone, in mm?", []Choice{
		{"3 mm", "tubeset", map[string]string{"outline": "round", "size": "3"}}, {"4 mm", "tubeset", map[string]string{"outline": "round", "size": "4"}}}},
	"halo": {"What is the centre stone, and how wide are the small ones?", []Choice{
		{"1.3 mm round an oval 8 x 6", "halo", map[string]string{"outline": "oval", "size": "8x6", "with": "1.3"}}, {"1.5 mm round a 6 mm round", "halo", map[string]string{"outline": "round", "size": "6", "with": "1.5"}}}},
	"saddle": {"Which stone or tube sits on which ring: its size and the shank's thickness?", []Choice{
		{"an oval 8 x 6 on a US 7", "saddle", map[string]string{"outline": "oval", "size": "8x6", "shank": "us 7", "shankthick": "1.5mm"}}, {"a tube on a US 7", "saddle", map[string]string{"tubesize": "5x0.5", "height": "6", "shank": "us 7"}}}},
}

// ringAnswer is a question that one of the ring's requests does not answer, and
// what works it out.
type ringAnswer struct {
	of   string
	asks [][]string
	read func(*message) (Reading, bool)
}

// lengths are the figures of a message that are or may be lengths in mm, gauges
// among them, in their order.
func (m *message) lengths() []*quantity {
	var all []*quantity
	for _, q := range m.found {
		if q.measure == length || q.measure == bare {
			all = append(all, q)
		}
	}
	return all
}

// worked is an explanation with a figure that was worked out.
func worked(topic, source, text string) (Reading, bool) {
	return Reading{Outcome: Explanation, Topic: topic, Source: source, Text: text}, true
}

// mm writes a length for a text, to 0.01 mm.
func mm(v float64) string { return plain(math.Round(v*100)/100) + " mm" }
