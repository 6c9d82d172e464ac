package sentence

import (
	"slices"
	"strings"

	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

// Term is one thing that members say, in all the ways in which they say it.
// Adding a way is a word in Say; adding a thing is a literal in a list below.
type Term struct {
	// Say are the phrases, in lower case; they are found by stem, so "prong"
	// finds "prongs". A phrase with "=" before it is found as written only.
	Say []string
	// Means are what it stands for, for the frames: "outline:oval", "stone".
	Means []string
	// Cues is how strongly it names requests, 1 a hint, 3 the request's own word.
	Cues map[string]int
	// Role is what a number beside it measures; After tells of an adjective, whose
	// number comes before it: "4 mm wide".
	Role  string
	After bool
}

const longestPhrase = 5

// lexicon finds terms by their phrase, in stems joined by blanks, or by "=" and
// the phrase as written.
var lexicon = func() map[string][]*Term {
	found := map[string][]*Term{}
	all := everyTerm()
	for i := range all {
		t := &all[i]
		for _, say := range t.Say {
			if strings.HasPrefix(say, "=") {
				found[say] = append(found[say], t)
				continue
			}
			var stems []string
			for _, w := range strings.Fields(say) {
				stems = append(stems, stemOf(w))
			}
			key := strings.Join(stems, " ")
			found[key] = append(found[key], t)
		}
	}
	return found
}()

// phraseLengths has, by the first word of phrases of the lexicon, how many words they
// have: bit n for n words.
var phraseLengths = func() map[string]uint8 {
	lengths := map[string]uint8{}
	for phrase := range lexicon {
		words := strings.Split(phrase, " ")
		lengths[words[0]] |= 1 << len(words)
	}
	return lengths
}()

// everyTerm lists all terms, those made from outlines, gems and forms too.
func everyTerm() []Term {
	return slices.Concat(outlineTerms(), gemTerms(), formTerms(), terms)
}

// outlineTerms are the outlines' own words; more names of them stand in terms.
func outlineTerms() []Term {
	var all []Term
	for _, k := range outline.Kinds() {
		if k == outline.Measured {
			continue
		}
		word := "=" + strings.ReplaceAll(string(k), "-", " ")
		all = append(all, Term{Say: []string{word, word + "s"}, Means: []string{"outline:" + string(k)}})
	}
	return all
}

func gemTerms() []Term {
	var all []Term
	for _, g := range stone.Gems() {
		say := []string{}
		for _, n := range append([]string{g.Key}, g.Aliases...) {
			if n != "emerald-stone" && n != "shell" && n != "paste" && n != "glass" {
				say = append(say, strings.ReplaceAll(n, "-", " "))
			}
		}
		if g.Key == "glass" {
			continue
		}
		t := Term{Say: say, Means: []string{"gem:" + g.Key, "stone"}}
		if mostlyCabs[g.Key] {
			t.Means, t.Cues = append(t.Means, "cabgem"), cue("bezel", 1)
		}
		all = append(all, t)
	}
	return all
}

// mostlyCabs are gems that are seldom faceted.
var mostlyCabs = map[string]bool{"opal": true, "amber": true, "turquoise": true, "pearl": true}

func cue(job string, weight int) map[string]int { return map[string]int{job: weight} }

// terms are the words of the trade as members use them.
var terms = []Term{
	// Outlines by other names.
	{Say: []string{"=coin", "=coins"}, Means: []string{"outline:round", "stone"}, Cues: cue("bezel", 2)},
	{Say: []string{"=circle", "=circular", "=rnd", "=rnds", "=rd", "=rds", "=rond"}, Means: []string{"outline:round"}},
	{Say: []string{"ellipse", "elliptical", "ovel"}, Means: []string{"outline:oval"}},
	{Say: []string{"teardrop", "tear drop", "pear shape", "pear shaped", "drop shape", "drop shaped", "pearshape"}, Means: []string{"outline:pear"}},
	{Say: []string{"navette", "marquis", "marquee", "marquise cut", "marques"}, Means: []string{"outline:marquise"}},
	{Say: []string{"emerald cut", "emerald shape", "emerald shaped", "cut corner rectangle", "cut corner", "cut corners", "corners cut off", "corners cut", "corners chopped off", "corners lopped off", "clipped corners", "corners clipped", "cropped corners", "=em cut", "radiant", "radiant cut"}, Means: []string{"outline:emerald", "faceted"}},
	{Say: []string{"princess", "princess cut", "square cut"}, Means: []string{"outline:square"}},
	{Say: []string{"asscher"}, Means: []string{"outline:emerald", "faceted"}},
	{Say: []string{"rectangle", "rectangular", "oblong"}, Means: []string{"outline:baguette"}},
	{Say: []string{"baguet", "bagette", "straight baguette"}, Means: []string{"outline:baguette"}},
	{Say: []string{"tapered bag", "tapered baguet"}, Means: []string{"outline:tapered-baguette"}},
	{Say: []string{"cushion cut", "antique square", "cushon"}, Means: []string{"outline:cushion"}},
	{Say: []string{"triangle", "triangular", "trilliant", "trillian", "trillion cut"}, Means: []string{"outline:trillion"}},
	{Say: []string{"heart shape", "heart shaped"}, Means: []string{"outline:heart"}},
	{Say: []string{"hexagonal", "hex", "six sided"}, Means: []string{"outline:hexagon"}},
	{Say: []string{"octagonal", "eight sided"}, Means: []string{"outline:octagon"}},
	{Say: []string{"half moon", "halfmoon"}, Means: []string{"outline:half-moon"}},
	{Say: []string{"diamond shape", "diamond shaped", "rhombus"}, Means: []string{"outline:lozenge"}},
	{Say: []string{"kite shape", "kite shaped"}, Means: []string{"outline:kite"}},
	{Say: []string{"brilliant", "brilliant cut", "round brilliant", "brill", "brills"}, Means: []string{"outline:round", "faceted"}},
	{Say: []string{"freeform", "free form", "irregular", "odd shape", "odd shaped", "weird shape", "weird shaped", "funny shape", "funny shaped", "wonky", "asymmetrical", "asymmetric", "natural shape", "raw stone", "rough stone", "nugget", "slab", "strange shape", "oddly shaped", "no particular shape", "irregularly shaped", "wobbly shape", "wobbly shaped", "wobbly outline", "lumpy", "not symmetrical"}, Means: []string{"freeform"}, Cues: cue("trace", 2)},

	// Stones.
	{Say: []string{"stone", "gem", "gemstone", "crystal", "melee", "faceted stone", "facetted stone"}, Means: []string{"stone"}},
	{Say: []string{"faceted", "facetted", "=facet", "=cut stone"}, Means: []string{"faceted", "stone"}, Cues: cue("collet", 1)},
	{Say: []string{"cab", "cabochon", "cabachon", "cabuchon", "caboshon", "cabs", "cabochons", "cabachons"}, Means: []string{"cab", "stone"}, Cues: cue("bezel", 2)},
	{Say: []string{"labradorite", "moonstone", "jade", "larimar", "obsidian", "lapis lazuli", "variscite", "howlite", "sodalite", "rhodonite", "hematite", "chrysoprase", "sea glass", "beach glass", "druzy", "druse", "opalite", "amazonite"}, Means: []string{"stone", "cabgem"}, Cues: cue("bezel", 1)},
	{Say: []string{"agate", "jasper", "onyx", "carnelian", "tigers eye", "tiger eye", "rose quartz", "chalcedony", "smoky quartz"}, Means: []string{"gem:quartz", "stone", "cabgem"}, Cues: cue("bezel", 1)},
	{Say: []string{"zircon", "apatite", "sunstone", "tsavorite", "rhodolite", "moissanite", "citrine", "amethyst", "swarovski"}, Means: []string{"stone", "facetgem"}},
	{Say: []string{"cz", "=czs", "cubic zirconia", "zirconia"}, Means: []string{"gem:cubic-zirconia", "stone"}},

	// Requests by their own and other words.
	{Say: []string{"=collet", "=collets", "colet", "collett", "collette", "tapered setting", "tapered bezel", "taper setting", "cone", "conical", "cone setting", "conical setting", "cone shaped", "cone layout", "tapered cone", "=tapered", "basket", "basket setting", "flat pattern for a setting", "crown setting", "tapered wall", "frustum", "funnel"}, Means: []string{"setting"}, Cues: cue("collet", 3)},
	{Say: []string{"=taper"}, Cues: cue("collet", 1)},
	{Say: []string{"=setting", "=settings", "setting blank"}, Means: []string{"setting"}, Cues: cue("collet", 1)},
	{Say: []string{"blank"}, Means: []string{"blank"}, Cues: map[string]int{"collet": 1}},
	{Say: []string{"flat pattern", "flat layout", "layout", "lay out", "template", "pattern", "development", "unroll"}, Means: []string{"pattern"}, Cues: cue("collet", 1)},
	{Say: []string{"=bezel", "=bezels", "bezle", "bezzel", "bezal", "bezell", "bessel", "bezle", "bezels"}, Means: []string{"bezel"}, Cues: cue("bezel", 3)},
	{Say: []string{"bezel wire", "bezel strip", "bezel setting", "bezel set", "bezel wall", "bezel tape", "bezel length", "plain bezel", "simple bezel", "straight bezel", "closed back"}, Means: []string{"bezel"}, Cues: cue("bezel", 4)},
	{Say: []string{"rub over", "rubover", "rub over setting"}, Means: []string{"rubover"}, Cues: cue("bezel", 1)},
	{Say: []string{"metal cup round", "metal cup around", "wall round the stone", "wall around the stone"}, Means: []string{"bezel"}, Cues: cue("bezel", 3)},
	{Say: []string{"bezel height", "height of bezel", "height of the bezel"}, Means: []string{"bezel"}, Cues: cue("bezel", 4), Role: "height"},
	{Say: []string{"gallery wire", "gallery strip", "gallery"}, Means: []string{"gallerywire"}, Cues: cue("bezel", 2)},
	{Say: []string{"serrated", "serrated bezel", "serrations", "serrated edge", "sawtooth edge", "sawtooth bezel", "toothed edge"}, Means: []string{"edging:serrated"}, Cues: cue("bezel", 2)},
	{Say: []string{"scalloped", "scalloped bezel", "scalloped edge", "scallop", "scallops"}, Means: []string{"edging:scalloped"}, Cues: cue("bezel", 2)},
	{Say: []string{"=repeat", "=repeats", "pattern repeat", "repeat length", "repeats every", "repeating every"}, Role: "repeat"},
	{Say: []string{"open back", "open backed", "cut out back", "cutout back", "cut out the back", "see through back", "window in the back", "window cut out", "with a window", "window in it", "window in the plate", "window behind", "light through the back", "let light thru", "let light through", "let the light through", "hole cut in it", "open the back", "hole in the back"}, Means: []string{"openback"}, Cues: cue("bezel", 1)},
	{Say: []string{"=shelf", "=lip", "shelf width"}, Role: "shelf"},
	{Say: []string{"corner relief", "relief cuts", "relieve the corners", "notch the corners", "notches at the corners", "v cuts at the corners"}, Means: []string{"reliefcut"}, Cues: cue("bezel", 1)},
	{Say: []string{"stock cup", "stock cups", "stock bezel cup", "ready made cup", "bezel cup", "bezel cups", "premade bezel cup", "store bought bezel"}, Means: []string{"stockcup", "bezel"}, Cues: cue("bezel", 4)},
	{Say: []string{"backplate", "back plate", "backing plate", "=backing", "base plate", "baseplate", "back sheet"}, Means: []string{"backplate"}, Cues: cue("bezel", 2)},
	{Say: []string{"step bezel", "stepped bezel", "inner bearing", "inner bearer", "=bearer", "inner ledge", "inside ledge", "inner shelf", "inside strip", "inner strip", "second strip inside", "=step"}, Means: []string{"step"}, Cues: cue("bezel", 3)},
	{Say: []string{"bearing wire", "inner wire", "seat wire"}, Means: []string{"bearingwire"}, Cues: cue("bezel", 2)},
	{Say: []string{"prong", "claw", "prong setting", "claw setting", "prongs", "pronged"}, Means: []string{"prongs"}, Cues: cue("prongs", 4)},
	{Say: []string{"little arms", "arms that hold", "little legs", "legs that hold", "arms for the stone", "fingers that hold the stone"}, Means: []string{"prongs"}, Cues: cue("prongs", 4)},
	{Say: []string{"tips"}, Means: []string{"prongs"}, Cues: cue("prongs", 1)},
	{Say: []string{"v prong", "v tip"}, Means: []string{"prongs"}, Cues: cue("prongs", 4)},
	{Say: []string{"bezel block", "collet block", "block", "die block", "collet plate", "bezel plate", "collet set", "punch and block", "block and punch", "in the block", "through the block", "drawplate"}, Means: []string{"block"}, Cues: cue("collar", 3)},
	{Say: []string{"=collar", "=collars"}, Cues: cue("collar", 4)},
	{Say: []string{"punch"}, Means: []string{"punch"}, Cues: cue("collar", 2)},
	{Say: []string{"hydraulic press", "press", "hydraulic"}, Means: []string{"press"}, Cues: cue("collar", 2)},
	{Say: []string{"tons", "tonnage", "how many tons", "how much force", "what force", "pressure"}, Means: []string{"force"}, Cues: cue("collar", 2)},
	{Say: []string{"hole", "opening"}, Means: []string{"hole"}, Cues: cue("collar", 1)},
	{Say: []string{"offcut", "off cut", "scrap", "left over", "leftover", "remnant", "scrap piece"}, Means: []string{"offcut"}, Cues: cue("match", 3)},
	{Say: []string{"what stone", "which stone", "what stones", "which stones", "what size stone", "what size stones", "what oval", "which oval", "what pear", "what round", "what can i set", "what can i set with", "biggest stone", "largest stone", "goes with a", "go with a", "what size round", "what will fit", "what fits", "which sizes fit", "stones can i set", "what stone fits", "stones fit", "stone fits", "would fit", "will fit", "what emerald", "which pear", "which round", "what marquise", "what square", "what cushion"}, Means: []string{"whichstone"}, Cues: cue("match", 3)},
	{Say: []string{"tube", "tubesize", "tubing", "pipe", "chenier", "bushing", "ferrule"}, Means: []string{"tube"}, Cues: map[string]int{"match": 1}},
	{Say: []string{"tubeset", "tubesets", "tube setting", "tube set", "tube bezel", "flush tube", "tube settings", "tube sets"}, Means: []string{"tubeset"}, Cues: cue("tubeset", 5)},
	{Say: []string{"trial", "test piece", "trial piece", "copper trial", "test collet", "trial collet", "practice piece", "test came out", "came out", "ended up", "turned out", "measured at", "after forming"}, Means: []string{"trial"}, Cues: cue("tune", 2)},
	{Say: []string{"=tune"}, Cues: cue("tune", 4)},

	{Say: []string{"ring", "rings", "wedding ring", "wedding band", "ring blank", "for finger", "for a finger", "for my finger", "for his finger", "for her finger", "finger size", "stacker", "stacking ring", "thumb ring", "toe ring", "signet", "plain ring", "engagement ring"}, Means: []string{"ring"}, Cues: cue("band", 3)},
	{Say: []string{"=band", "=bands", "shank", "ring shank", "ring band", "tapered band", "tapered ring", "tapered shank", "tapering band", "tapering shank", "shank that tapers", "band that tapers"}, Means: []string{"ring"}, Cues: cue("band", 3)},
	{Say: []string{"ring size", "finger size", "finger", "knuckle", "ring sizes"}, Means: []string{"ring"}, Cues: cue("band", 2)},
	{Say: []string{"mandrel", "ring mandrel", "ring stick"}, Means: []string{"mandrel"}, Cues: cue("band", 1)},
	{Say: []string{"rod", "dowel", "knitting needle", "drill bit", "drill shank"}, Means: []string{"mandrel"}},
	{Say: []string{"bangle", "bracelet", "cuff"}, Means: []string{"bangle"}, Cues: cue("bangle", 4)},
	{Say: []string{"hoop", "hoops", "hoop earring", "hoop earrings", "huggie", "huggies", "huggie hoop", "huggy", "sleeper hoop"}, Means: []string{"hoop"}, Cues: cue("hoop", 4)},
	{Say: []string{"half round", "halfround", "=half rnd", "=half rd", "=halfrnd", "half round wire", "d shape", "d shaped", "d section", "d profile", "profile d", "low dome wire", "=d-shape"}, Means: []string{"profile:half-round"}, Cues: cue("band", 1)},
	{Say: []string{"comfort fit", "court", "court shaped", "court shape", "=comfort"}, Means: []string{"profile:court"}, Cues: cue("band", 1)},
	{Say: []string{"round wire", "wire", "square wire", "round bar", "round rod"}, Means: []string{"wire"}},
	{Say: []string{"square wire", "wire square", "sq wire", "sq bar", "sq rod", "square stock", "square bar", "square rod"}, Means: []string{"wire", "squarewire"}},
	{Say: []string{"resize", "size up", "size down", "resizing", "sizing", "bigger size", "make a ring bigger", "make ring bigger", "stretch a ring", "size bigger", "sizes bigger", "size smaller", "sizes smaller", "size larger", "sizes larger", "enlarge", "size a ring", "go up", "go down", "take out", "cut out"}, Means: []string{"resize"}, Cues: cue("resize", 3)},
	{Say: []string{"saddle", "sit on a shank", "sit on the shank", "sits on a size", "sit on a size", "so it sits on", "sits on the shank", "sits on a shank", "sits on the ring", "fit the shank", "curve of the shank", "fit the ring", "to fit the band", "sit on a ring", "sit on the ring", "contour the base", "notch for the shank", "saddled", "saddling", "curve the base", "curved base", "shape the base", "follow the shank", "follow the ring", "follow the curve", "sits on a ring", "to sit on a", "sits on a half round", "cope", "coped", "sit down on the ring", "hollow the base", "base fits the ring", "base to fit", "match the curve", "sit flush on the shank", "sit flush on the ring", "onto the shank", "on top of a ring", "on top of the shank"}, Means: []string{"saddle"}, Cues: cue("saddle", 5)},
	{Say: []string{"halo"}, Means: []string{"halo"}, Cues: cue("halo", 5)},
	{Say: []string{"gypsy", "gypsy setting", "flush setting", "flush set", "channel setting", "channel set", "in channel", "in a channel", "channel stones", "channels for stones", "pave", "pavé", "cluster", "cluster setting", "invisible setting", "bead setting", "bead set", "star setting", "tension setting", "basket for"}, Means: []string{"othersetting"}, Cues: cue("othersetting", 6)},
	{Say: []string{"torque", "torc", "necklet", "choker", "neck ring", "spiral", "ear cuff", "spring ring"}, Means: []string{"formedwire"}, Cues: cue("formedwire", 6)},
	{Say: []string{"alloy up", "alloy down", "alloying", "to make it 925", "make it 925", "to make it sterling", "to make 925", "enough copper", "make my own sterling", "make my own gold", "make 18k from", "make sterling from", "take it down to", "bring it down to", "bring it up to"}, Means: []string{"alloying"}, Cues: cue("alloying", 7)},
	{Say: []string{"=ar", "jump ring", "jumpring", "jump rings", "jumprings", "jumpers", "chainmail", "chainmaille", "chain mail", "byzantine", "jens pind", "aspect ratio", "maille", "=links", "how many links", "chain links"}, Means: []string{"jumpring"}, Cues: cue("jumpring", 6)},

	{Say: []string{"=dome", "=domes", "domed", "doming", "=doming", "half ball", "half sphere", "hemisphere", "half dome", "bead", "sphere", "bauble", "hollow bead", "half bead", "bead cap", "cupped disc", "dapping", "dap", "dapped", "dapping block", "doming block", "cup shape", "half bead", "ball shape", "hollow ball"}, Means: []string{"domework"}, Cues: cue("dome", 3)},
	{Say: []string{"hemisphere", "=hemi", "=hemis", "half ball", "half sphere", "half bead", "half dome", "two halves", "both halves", "both halfs", "bead", "sphere", "hollow ball", "hollow bead", "full hemisphere"}, Means: []string{"hemisphere"}},
	{Say: []string{"two halves", "2 halves", "bead", "sphere", "bauble", "hollow bauble", "hollow ball", "closed bead", "hollow bead"}, Means: []string{"closedbead"}},
	{Say: []string{"two halves", "2 halves", "both halves", "two domes", "2 domes"}, Cues: cue("dome", 2)},
	{Say: []string{"=ball", "=balls"}, Means: []string{"domework"}, Cues: cue("dome", 2)},
	{Say: []string{"disc", "disk", "circle of", "=circle", "=circles", "roundel"}, Means: []string{"disc"}, Cues: map[string]int{"dome": 1}},

	{Say: []string{"what gauge", "which gauge", "which ga", "what guage", "what ga", "in gauge", "to gauge", "gauge number", "gauge is", "gauge in", "gauge to mm", "mm to gauge", "convert gauge", "in mm", "how many mm", "to millimeters", "to millimetres", "what did i buy", "to mm", "in metric", "to metric", "in millimeters", "in millimetres", "thicker than", "thinner than", "how thick is", "thickness of", "thicker or thinner", "gauge equal", "gauge equivalent"}, Means: []string{"convert"}, Cues: cue("gauge", 2)},
	{Say: []string{"thicker", "thinner"}, Means: []string{"compare"}, Cues: cue("gauge", 1)},
	{Say: []string{"weigh", "weight", "weighs", "how heavy", "heavy is", "heavy will", "how many grams", "many grams", "grams of", "mass", "what does it weigh", "how much metal", "how much silver", "how much gold", "how much copper", "how much sterling", "how much platinum"}, Means: []string{"weight"}, Cues: cue("weigh", 3)},
	{Say: []string{"=dwt", "in grams", "in oz", "=oz", "=grams", "total weight", "in ounces", "=weighs"}, Means: []string{"weight"}, Cues: cue("weigh", 3)},
	{Say: []string{"price", "cost", "how much is", "worth", "expensive"}, Means: []string{"price"}, Cues: cue("weigh", 1)},
	{Say: []string{"sheet", "plate"}, Means: []string{"sheet"}, Cues: cue("weigh", 0)},
	{Say: []string{"wax", "waxes", "wax model", "lost wax", "wax carving"}, Means: []string{"wax"}, Cues: cue("melt", 3)},
	{Say: []string{"cast", "casting", "casting grain", "pour", "melt down", "crucible", "investment", "flask", "centrifuge", "delft", "sand cast"}, Means: []string{"casting"}, Cues: cue("melt", 2)},
	{Say: []string{"button", "sprue"}, Means: []string{"sprue"}, Cues: cue("melt", 2)},
	{Say: []string{"resin", "resin print", "3d print", "=pla", "printed model", "printed resin", "castable"}, Means: []string{"resin"}, Cues: cue("melt", 3)},
	{Say: []string{"shrink", "shrinkage"}, Means: []string{"shrink"}, Cues: cue("melt", 1)},
	{Say: []string{"master", "brass model", "silver model", "model"}, Means: []string{"model"}, Cues: cue("melt", 1)},
	{Say: []string{"dip", "dipping", "dipped", "coats of wax", "wax dipping"}, Means: []string{"dip"}, Cues: cue("melt", 2)},

	{Say: []string{"anneal", "annealing", "annealed", "aneal", "annealling", "soften"}, Means: []string{"anneal"}, Cues: cue("heat", 3)},
	{Say: []string{"solder", "soldering", "soldered", "sodder", "soldier"}, Means: []string{"solder"}, Cues: cue("heat", 2)},
	{Say: []string{"quench", "quenching", "air cool"}, Means: []string{"quench"}, Cues: cue("heat", 3)},
	{Say: []string{"melting point", "melting temp", "melting temperature", "melts at", "melt at", "liquidus", "solidus", "what temp", "what temperature", "how hot", "temp to", "temperature to", "temperature for", "temp for", "flow temp", "flow point", "flow at", "flows at", "melting range"}, Means: []string{"temperature"}, Cues: cue("heat", 3)},
	{Say: []string{"flow", "flows"}, Means: []string{"flow"}, Cues: cue("heat", 1)},
	{Say: []string{"heat treat", "age harden", "harden"}, Means: []string{"harden"}, Cues: cue("heat", 1)},
	{Say: []string{"torch", "flame", "heat", "heating", "heated"}, Means: []string{"torch"}, Cues: cue("heat", 1)},
	{Say: []string{"firescale", "fire scale", "firestain", "fire stain", "fire skin"}, Means: []string{"firestain"}, Cues: cue("heat", 2)},
	{Say: []string{"flux", "borax", "boric acid", "firecoat"}, Means: []string{"flux"}, Cues: cue("heat", 1)},
	{Say: []string{"hard solder", "=hard"}, Means: []string{"solder:hard"}},
	{Say: []string{"medium solder", "=medium", "=med"}, Means: []string{"solder:medium"}},
	{Say: []string{"easy solder", "=easy"}, Means: []string{"solder:easy"}},
	{Say: []string{"extra easy", "extra easy solder", "xtra easy"}, Means: []string{"solder:extra-easy"}},
	{Say: []string{"it solder", "extra hard", "eutectic solder", "extra hard solder"}, Means: []string{"solder:extra-hard"}},
	{Say: []string{"cadmium", "cad"}, Means: []string{"cadmium"}},
	{Say: []string{"half hard", "dead soft", "full hard", "hard or soft", "temper"}, Means: []string{"temper"}},

	{Say: []string{"pickle", "pickling", "pickel", "sparex", "sodium bisulfate", "sodium bisulphate", "ph down", "pickle pot", "citric acid", "citric pickle", "safety pickle"}, Means: []string{"pickle"}, Cues: cue("cautions", 1)},
	{Say: []string{"acid", "liver of sulfur", "liver of sulphur", "patina", "chemical", "chemicals", "etch", "etching", "ferric chloride", "ammonia", "bleach", "acetone", "nitric", "sulfuric", "sulphuric", "ferric"}, Means: []string{"chemicals"}, Cues: cue("cautions", 1)},
	{Say: []string{"on the safe side", "to be safe", "be safe", "play safe", "play it safe"}}, // asks for no caution
	{Say: []string{"safe", "safely", "safety", "dangerous", "danger", "hazard", "hazardous", "toxic", "poisonous", "dodgy", "iffy", "fumes", "fume", "bad for you", "bad for me", "precaution", "precautions", "ventilation", "extraction", "respirator", "goggles", "protective", "protection", "ppe", "mask", "dust", "propane", "acetylene", "gas bottle", "gas cylinder", "oxygen bottle", "fire extinguisher", "asbestos", "pregnant", "cancer", "harmful", "lungs", "breathe", "breathing", "risk", "risky", "caution", "cautions"}, Means: []string{"safety"}, Cues: cue("cautions", 3)},
	{Say: []string{"polish", "polishing", "polisher", "polishing wheel", "buff", "buffing", "buffing wheel", "tumbler", "flex shaft", "flexshaft", "mop"}, Means: []string{"polishing"}},
	{Say: []string{"gloves", "glove"}, Means: []string{"gloves"}, Cues: cue("cautions", 1)},
	{Say: []string{"saw", "sawing", "saw blade", "piercing saw"}, Means: []string{"saw"}},
	{Say: []string{"file", "filing", "files"}, Means: []string{"file"}},
	{Say: []string{"hammer", "hammering", "forging", "planishing", "mallet"}, Means: []string{"hammer"}},

	{Say: []string{"class", "workshop", "teach", "teaching", "students", "student", "lesson", "course", "beginners class", "evening class", "taster", "taster day", "taster session", "hen party", "group of"}, Means: []string{"class"}, Cues: cue("kit", 3)},
	{Say: []string{"cut list", "cutting list", "order list", "what do i order", "materials list", "kit list", "kit for", "kits for", "handout", "handouts"}, Means: []string{"cutlist"}, Cues: cue("kit", 3)},
	{Say: []string{"each makes", "each making", "all doing", "all making", "per person", "per student", "for each", "everyone makes", "everybody makes", "each one makes", "making one each", "one each"}, Means: []string{"each"}, Cues: cue("kit", 1)},

	{Say: []string{"remember that", "remember this", "always use", "back to normal", "i always work in", "i always work with", "i work in", "i always use", "by default", "my default", "default", "defaults", "set my", "from now on", "i usually use", "i only use", "i mostly use", "keep in mind", "remember i", "remember my", "my usual", "please remember", "as my default", "my default", "as default", "remember", "keep that in mind", "pls keep that", "please keep that", "keep this", "unless i say", "is always", "i always have", "my defaults", "=my settings"}, Means: []string{"remember"}, Cues: cue("bench", 4)},
	{Say: []string{"=inches", "use inches", "in inches", "inches please", "show inches", "switch to inches", "imperial", "use inch"}, Means: []string{"units:inch"}, Cues: cue("bench", 1)},
	{Say: []string{"use mm", "use metric", "use millimeters", "use millimetres", "switch to mm", "show mm", "metric", "switch to metric"}, Means: []string{"units:mm"}, Cues: cue("bench", 1)},
	{Say: []string{"letter paper", "us letter", "letter size paper"}, Means: []string{"paper:letter"}, Cues: cue("bench", 1)},
	{Say: []string{"a4", "a4 paper"}, Means: []string{"paper:a4"}, Cues: cue("bench", 1)},
	{Say: []string{"did i ask", "my questions", "my last question", "history", "yesterday", "last week", "what was asked", "asked before", "previous questions", "earlier today", "asked today", "asked yesterday", "asked last", "what i asked", "already ask", "already asked", "things i worked out", "what was that", "what did you tell me", "what did you say", "questions i asked", "=i asked you", "=i asked about", "=ive asked", "my last collet", "my last bezel", "my last ring", "my last blank", "what was my last", "show me my last", "my last answer", "=i asked for", "did i use for the last", "did we work out for", "did i work out for", "did i use for my last", "did i use on my last", "did i use last", "did i cut for my last", "=did i do last", "=did we do last", "=i had you work out", "=you work out last", "=you worked out last", "=worked out before"}, Means: []string{"asked"}, Cues: cue("daybook", 3)},
	{Say: []string{"forget me", "delete my data", "delete my questions", "forget everything about me", "what do you know about me", "what do you keep", "what do you store", "my data", "remove my data", "erase me", "erase my data", "delete my stuff", "delete all my stuff"}, Means: []string{"privacy"}, Cues: cue("daybook", 3)},
	{Say: []string{"what can you do", "what can you actually do", "what kind of things can you", "what kinds of thing can you", "what kinds of things can you", "what sort of things can you", "what sorts of thing can you", "what things can you", "kinds of thing can you", "kind of thing can you", "what is this bot for", "whats this bot for", "what are you for", "channel bot for", "are you listening", "what can you really do", "what can you all do", "what else can you do", "what do you actually do", "what are you able to do", "what are you good for", "what do you know", "how do you work", "how does this work", "what do you do", "who are you", "are you a bot", "what can i ask", "commands", "=help", "help me", "how do i use you", "how do i use this", "instructions", "what are you"}, Means: []string{"helpme"}, Cues: cue("help", 2)},
	{Say: []string{"=hi", "=hello", "=hey", "=hallo", "=morning", "=evening", "=afternoon", "you awake", "anyone there", "are you there", "=hiya", "=howdy", "good morning", "good evening", "good afternoon", "=yo", "greetings", "hi there", "hello there"}, Means: []string{"greeting"}},
	{Say: []string{"thanks", "thank you", "thx", "ty", "cheers", "thank", "=great", "perfect", "awesome", "nice one", "brilliant thanks", "lovely", "=ta", "worked a treat", "much appreciated", "thats great", "that worked", "=got it", "=cool", "ok thanks", "good bot"}, Means: []string{"thanks"}},

	{Say: []string{"photo", "photograph", "picture of my stone", "pic of my stone", "=image", "picture", "pic", "snapshot", "scan", "trace", "tracing", "trace card", "tracing card"}, Means: []string{"photo"}, Cues: cue("trace", 4)},

	{Say: []string{"half round file", "half round files", "round file"}},
	{Say: []string{"draw a triangle", "drew a triangle", "a triangle with", "two arcs"}},
	{Say: []string{"mirror image", "mirror images", "picture frame", "square corners", "round the", "=round it", "round my", "round her", "round his", "go round", "goes round", "way round", "round nose", "what oval do i cut", "what round do i cut", "what square do i cut", "never remember", "cant remember", "dont remember"}},
	{Say: []string{"no taper", "straight sided setting", "straight sides", "parallel sides", "untapered", "not tapered", "without taper"}, Means: []string{"straight"}, Cues: cue("collet", 2)},
	{Say: []string{"half circle", "semi circle", "semicircle", "semicircular"}, Means: []string{"outline:half-moon"}},
	{Say: []string{"old mine", "old mine cut"}, Means: []string{"outline:cushion", "faceted", "stone"}},
	{Say: []string{"old european", "old european cut"}, Means: []string{"faceted", "stone"}},
	{Say: []string{"rose cut"}, Means: []string{"stone"}},

	// What a number measures: adjectives come after it.
	{Say: []string{"=wide", "in width"}, Role: "width", After: true},
	{Say: []string{"at the fattest", "at its fattest", "at the widest", "at its widest", "at widest", "at the widest point", "across the middle"}, Role: "width", After: true},
	{Say: []string{"=width", "breadth"}, Role: "width"},
	{Say: []string{"=thick", "in thickness", "of thick"}, Role: "thickness", After: true},
	{Say: []string{"=thickness"}, Role: "thickness"},
	{Say: []string{"=tall", "=high", "in height", "=hi", "straight up"}, Role: "height", After: true},
	{Say: []string{"=height", "=heigth", "=hight"}, Role: "height"},
	{Say: []string{"=deep", "=from table to culet", "table to culet", "culet to table", "=in depth"}, Role: "depth", After: true},
	{Say: []string{"=depth"}, Role: "depth"},
	{Say: []string{"=long", "in length", "top to bottom", "tip to tip", "from top to bottom", "from top to point", "from tip to tip", "tip to bottom"}, Role: "length", After: true},
	{Say: []string{"=length"}, Role: "length"},
	{Say: []string{"=across", "in diameter", "=dia", "=diam"}, Role: "diameter", After: true},
	{Say: []string{"=diameter", "=dia"}, Role: "diameter"},
	{Say: []string{"inside diameter", "inner diameter", "=internal", "=internally", "internal dia", "internal diam", "inner dia", "inside dia", "inner diam", "inside diam", "inside size", "internal diameter", "=id", "i d", "=inside", "=inner", "bore", "=interior", "interior diameter"}, Role: "inner"},
	{Say: []string{"on the outside", "on its outside", "from outside to outside"}, Role: "outer", After: true},
	{Say: []string{"outside diameter", "outer diameter", "outer dia", "outside dia", "outer diam", "outside diam", "external diameter", "=od", "o d", "=outside", "=outer", "=exterior", "exterior diameter"}, Role: "outer"},
	{Say: []string{"=wall", "=walls", "wall thickness", "thick wall", "walled", "thick walls"}, Role: "wall"},
	{Say: []string{"=around", "all around", "all round", "all the way round", "all the way around", "circumference", "perimeter", "girth"}, Role: "perimeter"},
	{Say: []string{"=dome", "dome height", "domed"}, Role: "dome"},
	{Say: []string{"=lean", "half angle", "per side", "each side", "a side", "off vertical", "taper angle"}, Role: "lean"},
	{Say: []string{"=included", "included angle", "angle"}, Role: "included"},
	{Say: []string{"=radius", "round corners", "rounded corners", "corner radius", "rounded corner", "radius corners"}, Role: "radius"},
	{Say: []string{"=strip", "=strips", "strip of metal"}, Role: "strip", Means: []string{"strip"}, Cues: cue("bezel", 1)},
	{Say: []string{"strip length", "length of strip", "how long a strip", "strip size"}, Means: []string{"strip"}, Cues: cue("bezel", 2)},
	{Say: []string{"=pavilion", "=pavillion"}, Role: "pavilion"},
	{Say: []string{"=crown", "crown height", "crown is", "crown of", "crown above girdle", "crown above the girdle", "crown part", "crown part of the stone", "height of the crown"}, Role: "crown"},
	{Say: []string{"=edge", "straight edge", "vertical edge", "straight wall", "vertical wall", "straight side", "straight sided edge"}, Role: "edge"},
	{Say: []string{"=r", "corner r", "=rad"}, Role: "radius"},
	{Say: []string{"=h"}, Role: "height"},
	{Say: []string{"=rise", "=camber"}, Role: "height"},
	{Say: []string{"girdle thickness", "thick girdle", "thickness of the girdle", "=girdle"}, Role: "girdle"},
	{Say: []string{"cropped corners", "clipped corners", "cut corners", "corners cut", "corners clipped", "corners cropped", "cropped corner", "clipped corner", "corner cut", "corner cuts"}, Role: "cornercut"},
	{Say: []string{"=rim"}, Role: "rim", Means: []string{"rim"}},
	{Say: []string{"below the rim", "under the rim", "down from the rim"}, Role: "rim", After: true, Means: []string{"rim"}},
	{Say: []string{"above the girdle", "above girdle", "over the girdle", "over girdle", "past the girdle", "beyond the girdle", "proud of the girdle", "proud of girdle", "above the stone's edge", "above the stones edge", "over the stone's edge", "over the stones edge", "above the edge of the stone", "above the girdle line", "proud of the stone", "above the stone", "of metal above the girdle"}, Role: "rim", After: true},
	{Say: []string{"height above girdle", "height above the girdle", "length above the girdle", "length above girdle", "above the girdle by", "above girdle by", "past the girdle by"}, Role: "rim"},
	{Say: []string{"straight sides for", "straight side for", "straight up for", "vertical for"}, Role: "edge"},
	{Say: []string{"=base", "=bottom"}, Means: []string{"base"}},
	{Say: []string{"=top"}, Means: []string{"rim"}},
	{Say: []string{"=gap", "=spacing", "space between", "=apart", "between them", "between each"}, Role: "gap"},
	{Say: []string{"=kerf", "saw cut", "saw kerf", "blade width", "=blade"}, Role: "kerf"},
	{Say: []string{"=slant", "slant height", "slanted height", "along the slope", "slope length", "along the slant"}, Role: "slant"},
	{Say: []string{"=wrist", "round the wrist", "around the wrist", "=knuckles", "round the knuckles", "round my hand", "round her hand"}, Role: "perimeter", Means: []string{"wrist"}},
	{Say: []string{"spare", "spares", "extra for mistakes"}, Role: "spare"},
}
