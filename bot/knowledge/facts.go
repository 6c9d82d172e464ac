// Package knowledge is what guildhand knows of the trade in words: terms, whys
// and differences (facts), and signs of trouble at the bench with their causes.
// It is data; package sentence finds what a message asks for, and the requests
// show it.
package knowledge

import (
	"slices"
	"strings"
)

// Fact is something of the trade that is explained on being asked: a term, a
// why, a difference. Adding one is a literal in facts.
type Fact struct {
	// Key names it in the daybook and in tests.
	Key string
	// Term are words that "what is …" and the like explain by it.
	Term []string
	// Asks are groups of words: a question that has one of each group, by stem or
	// as a phrase, asks for it. A word with "=" before it is found as written.
	Asks [][]string
	// Questions are ways to ask for it. Their words count like those of its name,
	// in any order.
	Questions []string
	// Warns marks an answer about something dangerous. It is looked for before
	// troubles and all other facts.
	Warns bool
	// AtOnce marks a danger that may be there now, as gas that leaks: it answers even where
	// the message gives all figures of a piece.
	AtOnce bool
	// Of is the request in whose talk alone the fact is looked for, "" for any.
	Of string
	// Blocks marks what Of can't work out, or what makes its figures beside the
	// point: the fact answers even where a message gives them all.
	Blocks bool
	// Text is the answer, a few short sentences.
	Text string
	// Source is where it was published, or "common practice, no source".
	Source string
}

// CommonPractice is the source of what the trade does and nobody published.
const CommonPractice = "common practice, no source"

// Word is a key as one word of a typed line: "hard-and-easy-solder".
func Word(key string) string { return strings.NewReplacer(" ", "-", "&", "n").Replace(key) }

// Facts lists what can be explained. The caller must not change it.
func Facts() []Fact { return facts }

// KeyOf is the key of the fact that an answer ends with, empty for none: what stands before it
// may say that the fact is only the nearest.
func KeyOf(text string) string {
	for i := range facts {
		if strings.HasSuffix(text, facts[i].Text) {
			return facts[i].Key
		}
	}
	return ""
}

// facts are all that guildhand explains. A new one is a literal in basics (what
// everybody asks), terms, whys, howtos, more, heatwork, tools, finishes, settings,
// ringwork, castwork, words, rings, glossary, craft, askedSince, askedOfWork,
// tracing, askedInWords, safety, dangers or emergencies.
var facts = slices.Concat(basics, terms, whys, howtos, more, heatwork, tools, finishes, settings, ringwork, castwork, words, rings, glossary, craft, askedSince, askedOfWork, tracing, askedInWords, safety, dangers, emergencies)

// basics are what members ask most.
var basics = []Fact{
	// Terms.
	{Key: "stone from a photograph", Questions: []string{"can you work it out from a photo", "can you measure a stone from a picture", "i printed the card and took a picture where do i send it", "how do i send a photo of my stone", "trace a stone from a photograph", "how does the tracing card work", "is there a way to get the shape of an odd stone", "can i send a picture of my stone", "where do i upload the photo of the stone", "outline of a stone from a photo", "can i trace from a scan", "no printer can i lay a coin or a quarter beside the stone instead of the card"}, Text: "Yes, by a photograph on the tracing card: ask trace card, print it at 100 %, lay the stone in its middle, and photograph it from straight above, all four marks in the picture and no hard shadow. Post the photograph in the chat with the word trace; I draw the outline back for you to confirm, and bezel traced NAME works with it. Without the card I can't measure a picture: lay a paper strip round the stone instead.", Source: CommonPractice},
	{Key: "collet", Term: []string{"collet", "tapered setting", "cone setting"}, Text: "A collet is a tapered ring of metal that holds a faceted stone: wider at the rim than at the base. Its flat blank is part of a ring; for an oval or a pear its curves are not circles.", Source: CommonPractice},
	{Key: "bezel", Term: []string{"bezel", "bezel wire", "bezel setting"}, Text: "A bezel is a thin wall of metal round a stone, mostly a cabochon, that is pushed over its edge to hold it. The strip for it is the way round the stone plus pi x the metal's thickness.", Source: CommonPractice},
	{Key: "collar", Term: []string{"collar"}, Text: "A collar is a straight-walled ring of metal, from strip or tube, that a block with tapered holes forms into a tapered setting.", Source: CommonPractice},
	{Key: "girdle", Questions: []string{"what is the widest edge all round a gem called"}, Term: []string{"girdle"}, Text: "The girdle is the widest edge of a faceted stone, between crown and pavilion. The setting holds the stone there.", Source: CommonPractice},
	{Key: "culet", Term: []string{"culet"}, Text: "The culet is the point or small facet at the bottom of a faceted stone. The setting must be high enough that it doesn't stand out below.", Source: CommonPractice},
	{Key: "crown and pavilion", Questions: []string{"what is the pointed lower half of a gem called", "name of the flat top of a gem"}, Term: []string{"crown", "pavilion", "table"}, Asks: [][]string{{"pavilion", "crown", "table"}, {"which part", "which bit", "where is", "where exactly", "what part"}}, Text: "The crown is the part of a faceted stone above its girdle, the pavilion the part below, the table the large flat facet on top.", Source: CommonPractice},
	{Key: "bearing", Questions: []string{"the little shelf inside a setting that the gem sits on", "is a bearing the same as a seat or a ledge", "are bearer and bearing and seat the same word"}, Term: []string{"bearing", "seat", "bearing line", "ledge"}, Text: "The bearing, or seat, is the ledge cut into the wall of a setting on which the stone's girdle rests. It takes about 40 % of the wall, never much over half.", Source: "about 40 % cut: GIA quality benchmark for prongs; half: trade guide"},
	{Key: "shank", Term: []string{"shank"}, Text: "The shank is the part of a ring that goes round the finger.", Source: CommonPractice},
	{Key: "neutral factor", Term: []string{"neutral factor", "neutral axis", "neutral line", "k factor", "neutral"}, Asks: [][]string{{"k factor", "neutral factor", "neutral axis", "neutral line"}, {"explain", "what is", "=whats", "mean", "means", "what does", "why"}}, Text: "The neutral factor says where in the thickness bent metal keeps its length: 0.5 is the middle. Inside it the metal is squeezed, outside it is stretched. A tight bend moves it inwards, to about 0.35, so the piece needs a little less length.", Source: "handbook value for bend allowance, soft copper and brass"},
	{Key: "kerf", Questions: []string{"how much metal does the blade eat", "how wide is a saw cut", "what is kerf"}, Term: []string{"kerf"}, Text: "The kerf is the width of the cut that a saw blade takes away, a few tenths of a millimetre. Cut outside your line, or allow for it.", Source: CommonPractice},
	{Key: "lean", Questions: []string{"block is marked 28 and the punch 14 do they belong together"}, Term: []string{"lean", "included angle"}, Text: "The lean is how far a wall stands off the vertical, in degrees. The included angle is between opposite walls: twice the lean.", Source: "geometry"},
	{Key: "standard angle", Asks: [][]string{{"angle", "lean", "degree", "degrees", "taper"}, {"standard", "usual", "normal", "default", "typical", "common"}}, Text: "8.5° of lean on each side, 17° included, is taken where you give none (from memory: a usual angle of blocks; check yours). Type lean or included with your own: collet oval 8x6 lean 10.", Source: "from memory"},
	{Key: "anneal", Questions: []string{"what does it mean to soften the metal with the flame", "what does annealing mean", "what is annealing for"}, Asks: [][]string{append([]string{"what is annealing", "what does annealing do"}, definitionsOf("anneal", "annealing", "to anneal")...)}, Text: "To anneal is to heat work-hardened metal until it is soft again. Each metal has its own temperature and way of cooling: ask heat with its name.", Source: CommonPractice},
	{Key: "pickle", Questions: []string{"what is the warm acid bath after the torch called"}, Term: []string{"pickle"}, Text: "Pickle is a warm, weak acid that takes flux and oxide off metal after soldering. Wear goggles, use copper or plastic tongs, and rinse the metal well.", Source: CommonPractice},
	{Key: "flux", Questions: []string{"what is the paste you brush on before the torch for"}, Term: []string{"flux"}, Text: "Flux keeps air off hot metal, so that it doesn't oxidise and solder can flow.", Source: CommonPractice},
	{Key: "quench", Questions: []string{"what is quenching", "why do we quench"}, Term: []string{"quench", "quenching"}, Text: "To quench is to cool hot metal quickly in water. Some alloys need it, some crack by it: ask heat with the metal's name.", Source: CommonPractice},
	{Key: "firestain", Term: []string{"firestain", "firescale", "fire scale", "fire stain", "fire skin", "fireskin"}, Asks: [][]string{{"firestain", "firescale", "fire scale", "fire stain", "fireskin", "fire skin"}, {"stop", "prevent", "avoid", "remove", "get rid", "how", "what"}}, Text: "Firestain is copper oxide below the surface of sterling, a grey shadow after polishing. Coat the whole piece with flux or boric acid in alcohol (bottle closed and far away before you light it), heat quickly with a soft flame, and heat as few times as you can. What is there is filed or sanded off, or hidden under fine silver raised by heating and pickling.", Source: CommonPractice},
	{Key: "work hardening", Questions: []string{"the metal fights back the longer i hammer it", "my wire got stiff after a lot of bending"}, Term: []string{"work hardening", "work hardened", "work harden"}, Text: "Metal hardens as it is bent, hammered or rolled, until it cracks. Annealing makes it soft again.", Source: CommonPractice},
	{Key: "springback", Term: []string{"springback", "spring back"}, Text: "Springback is how far bent metal opens again when you let go. Annealed metal springs back less.", Source: CommonPractice},
	{Key: "gauge", Term: []string{"gauge", "gauge number", "b&s", "awg"}, Text: "A gauge is a number for thickness: the higher, the thinner. For precious metals it is the American (Brown & Sharpe) gauge: 20 ga is 0.81 mm, 22 ga 0.64 mm.", Source: "ASTM B258"},
	{Key: "cabochon", Questions: []string{"a smooth rounded gem with a flat bottom what is it called", "which way up does a cab go", "how do i know which way up a cab goes"}, Term: []string{"cabochon", "cab"}, Text: "A cabochon is a stone with a smooth dome and a flat back. It is mostly held by a bezel.", Source: CommonPractice},
	{Key: "mandrel", Term: []string{"mandrel"}, Text: "A mandrel is a steel rod, mostly tapered, on which rings and settings are rounded.", Source: CommonPractice},
	{Key: "sprue and button", Questions: []string{"the stem that the metal runs in by", "whats a sprue and whats a button"}, Term: []string{"sprue", "button"}, Text: "The sprue is the channel through which metal runs into a mould; the button is the metal left on top of it, which keeps the casting fed while it sets.", Source: CommonPractice},
	{Key: "comfort fit", Questions: []string{"what does comfort fit mean in the cross section", "is court the same as comfort fit"}, Term: []string{"comfort fit", "court"}, Text: "A comfort fit, or court, ring is rounded on the inside too. It slides more easily, so it may be half a size smaller.", Source: "retail size guide, about half a size"},
	{Key: "halo", Term: []string{"halo", "halo setting"}, Text: "A halo is a row of small stones set round a centre stone.", Source: CommonPractice},
	{Key: "tube setting", Term: []string{"tube setting", "tube set"}, Text: "A tube setting holds a small round stone in a short piece of tube: its outside wider than the stone, its bore narrower.", Source: "C. Lewton-Brain, Tube Setting"},
	{Key: "aspect ratio", Questions: []string{"what decides whether a weave of loops is floppy or stiff"}, Term: []string{"aspect ratio"}, Text: "The aspect ratio of a jump ring is its inside diameter divided by the wire's thickness. It decides which chain pattern the ring can make.", Source: "general definition"},
	{Key: "hard and easy solder", Questions: []string{"hard medium easy silver solder melting points", "difference between hard and easy solder"}, Asks: [][]string{{"difference", "diff", "vs", "versus", "or", "between", "higher", "before", "which first", "what order"}, {"hard", "medium", "easy"}, {"solder", "easy", "medium"}}, Text: "The names say in which order they flow: easy at the lowest heat (about 718 °C), medium (about 738 °C), hard at the highest (about 788 °C); each maker grades its own, so read the packet. Solder the first joint with hard, later ones with medium and then easy, so that no earlier joint opens.", Source: "makers' flow temperatures; grades are not a standard"},
	{Key: "which solder first", Questions: []string{"which filler goes on first when there are several joins", "order of solders for 4 joints", "which grade of solder do i use first", "how many times can i solder the same piece"}, Asks: [][]string{{"solder"}, {"which", "what", "order"}, {"first", "order", "sequence", "start with"}}, Text: "Hard solder first, then medium, then easy: each flows at a lower heat, so that the joints before it stay shut. With more joints than grades, use hard for several and keep the finished ones covered or away from the flame.", Source: CommonPractice},
	{Key: "many joints", Questions: []string{"i have more joints than grades of solder", "soldering six joints on one piece"}, Asks: [][]string{{"run out of grades", "how many times can i solder", "how many joints", "so many joints", "more joints than"}}, Text: "You can use one grade for several joints: a joint that has flowed once needs a little more heat the next time. For five joints: hard, hard, hard, medium, easy; keep the flame off finished joints.", Source: CommonPractice},
	{Key: "bezel formula", Asks: [][]string{{"formula", "calculate", "equation", "work out", "how do you figure", "how do i figure"}, {"bezel"}}, Text: "The strip is the way round the stone plus pi x the metal's thickness. For a round stone: (diameter + thickness) x 3.14. For an oval the average of length and width is a little short; ask with its size and I use the ellipse itself: bezel oval 10x8 28ga.", Source: "parallel curve of a convex outline; published rule for rounds"},
	{Key: "ring formula", Asks: [][]string{{"formula", "calculate", "equation", "how do you figure", "how do i figure"}, {"ring", "band", "shank"}}, Text: "The blank of a ring is (inside diameter + thickness) x 3.14. Bands wider than 4 mm want a little more: up to half a size. Ask with the size: band us 7 width 4 1.5mm.", Source: "published rule for ring blanks"},
	{Key: "seam at the point", Asks: [][]string{{"why"}, {"seam", "join", "joint"}, {"point", "tip", "corner"}}, Text: "At the point of a pear or marquise the wall must turn sharply anyway, so the seam there hides the join, leaves the long curves in one piece, and each end is filed to half the angle to make a clean edge.", Source: CommonPractice},
	{Key: "where the seam goes", Asks: [][]string{{"where"}, {"seam", "join", "joint"}, {"go", "put", "place", "be", "goes"}}, Text: "On a curved stone put the seam on a long side, where the wall bends least; on a pear or marquise at the point; on a heart in the cleft; on a cornered stone at a corner or in the middle of a side. Never where a prong will stand.", Source: CommonPractice},
	{Key: "dead soft for bezels", Asks: [][]string{{"half hard", "dead soft", "hard or soft", "temper"}, {"bezel", "collet", "for", "use", "buy", "order", "ear wire", "should"}}, Text: "For a bezel, a collet or anything that you push over a stone use dead soft (annealed) metal. Half hard is for wire that must keep its shape, such as ear wires and pins.", Source: CommonPractice},
	{Key: "bezel gauge", Asks: [][]string{{"what gauge", "which gauge", "how thick", "what thickness"}, {"bezel", "cab", "cabochon"}}, Text: "28 ga (0.32 mm) fine silver is usual for cabochons up to about 30 x 40 mm, 26 ga (0.40 mm) above that; beginners like 26 ga because it doesn't melt so soon. Sterling is stiffer to push over.", Source: "teachers' posts on a bench forum: 28 ga for most, 26 ga above 30 x 40 mm"},
	{Key: "collet gauge", Asks: [][]string{{"what gauge", "which gauge", "how thick", "what thickness"}, {"collet", "tapered setting", "cone"}}, Text: "20 to 22 ga (0.81 to 0.64 mm) is usual for a tapered setting of a stone from 5 to 12 mm; thinner leaves too little behind the bearing.", Source: CommonPractice},
	{Key: "prong height", Questions: []string{"how far should the claws stick up past the gem"}, Asks: [][]string{{"how high", "how tall", "how far", "how long"}, {"prong", "claw"}, {"girdle", "above", "stick up", "stand", "be"}}, Text: "Before setting, a prong stands about 60 to 80 % of the way from the girdle to the table; bent over, it covers 30 to 50 % of the crown's slope. Ask with the stone and I work out the rim: prongs oval 8x6 sterling 20ga.", Source: "GIA quality benchmark for rounds in prongs; trade guide 70 to 80 %"},
	{Key: "wide bands", Questions: []string{"does a broad ring need to be bigger", "do i need to size up for a wide band", "does a wide ring feel tighter", "how much bigger for a 10mm wide ring"}, Asks: [][]string{{"wide", "wider"}, {"band", "ring"}, {"add", "bigger", "larger", "extra", "size up", "tight", "fit", "allow"}}, Text: "Yes: a wide band feels tighter. Above 4 mm add about 0.5 mm to the length; at 5 mm and more half a size (1.28 mm), on very wide bands up to a whole size (2.55 mm). Size the finger with a wide sizer if you can.", Source: "three published guides, which differ: +0.5 mm above 4 mm, +1/2 size from 5 mm, +1 size very wide"},
	{Key: "one size", Asks: [][]string{{"how much", "how many", "what length"}, {"one size", "1 size", "half a size", "half size", "per size", "each size", "size bigger", "size up", "size smaller", "size down"}, {"bigger", "add", "larger", "length", "smaller", "remove", "take out", "cut out"}}, Text: "One US size is 2.55 mm of length (0.81 mm of diameter), half a size 1.28 mm, whatever the thickness.", Source: "US size step of 0.032 in diameter: 0.8128 mm x pi"},
	{Key: "plate melts before bezel", Asks: [][]string{{"bezel", "28ga", "wire"}, {"melt", "melting"}, {"plate", "backplate", "back plate", "solder", "stop", "from melting", "without melting", "avoid"}}, Text: "A thin bezel melts long before a thick plate is hot. Heat the plate from below or round the outside and let the heat come up into the wall; keep the flame off the bezel and off its seam.", Source: CommonPractice},
	{Key: "block of another outline", Asks: [][]string{{"block"}, {"can i", "could i", "will", "use"}, {"pear", "oval", "round", "emerald", "marquise", "square"}, {"oval block", "round block", "pear block", "emerald block", "square block", "other block", "different block"}}, Text: "No: a block gives the collar the outline of its holes, so a pear needs a pear block. Without one make the setting from sheet: collet pear 9x6 20ga sterling.", Source: CommonPractice},
	{Key: "solder near stones", Questions: []string{"can i solder with the stone in it", "solder a ring with the opal still in"}, Asks: [][]string{{"solder", "anneal", "heat", "torch"}, {"stone in", "stone in it", "with the stone", "near the stone", "near a stone", "set stone", "stone set"}}, Text: "No: take every stone out before you light the torch, and set it after the last soldering. Some stones burst, crack or change colour, and flux etches even ruby and sapphire.", Source: "bench forum on stones and heat"},
	{Key: "brass in pickle", Asks: [][]string{{"pickle"}, {"brass", "copper", "bronze", "nickel"}}, Text: "Brass, bronze and copper go into the same warm pickle as silver, but keep a pot of its own for them: copper gathers in it and can plate silver pink if steel touches the bath. Use copper or plastic tongs, and rinse well.", Source: CommonPractice},
	{Key: "brass to silver", Asks: [][]string{{"solder"}, {"brass", "copper", "bronze"}, {"silver", "sterling"}}, Text: "Yes: silver solder joins brass, copper and silver to each other. Sterling begins to melt first, so use medium or easy solder and heat evenly; expect copper-coloured pickle.", Source: CommonPractice},
	{Key: "gold solder", Questions: []string{"which solder for white gold", "what solder for 9ct yellow gold", "solder for 14 karat", "solder for 18ct rose gold", "solder for rose gold", "gold solder which carat"}, Asks: [][]string{{"what solder", "which solder", "solder for"}, {"gold", "14k", "18k", "9k", "10k"}}, Text: "Use gold solder of the gold's own karat and colour, so that fineness and colour match (called plumb). Its flow point must lie at least 20 °C below where your gold begins to melt: read both on the maker's sheet. Silver solder on gold shows, weakens the joint and spoils the fineness.", Source: CommonPractice},
	{Key: "old pickle", Questions: []string{"my acid bath has gone turquoise what now"}, Asks: [][]string{{"pickle"}, {"dispose", "get rid", "old", "throw", "pour", "drain", "disposal", "=used"}}, Text: "Used pickle holds dissolved copper: don't pour it down a drain. Keep it closed and labelled, and take it to a hazardous waste collection; your local rules decide.", Source: "P501: dispose of contents to the place your local rules name"},
	{Key: "mixing pickle", Asks: [][]string{{"pickle"}, {"mix", "make", "make up", "prepare", "recipe", "ratio"}}, Text: "Fill the pot with water first and add the acid or salt slowly to the water, never water to acid. Wear goggles and gloves, have fresh air, and follow the amounts on the packet.", Source: CommonPractice},
	{Key: "kitchen slow cooker", Questions: []string{"warm the acid in a crockpot"}, Asks: [][]string{{"slow cooker", "crock pot", "crockpot", "kitchen", "cooking pot", "pan"}, {"pickle", "acid"}}, Text: "Use a slow cooker for pickle only if it never holds food again: mark it so and keep it out of the kitchen. Use a ceramic insert, no metal, and a lid.", Source: CommonPractice},
	{Key: "unmarked solder", Asks: [][]string{{"=solder", "=solders", "cadmium"}, {"cadmium", "unmarked", "unknown", "unlabeled", "unlabelled", "old", "no label", "not labeled", "dont know what", "inherited"}}, Text: "Don't use it. Old or unmarked solder can hold cadmium, whose fumes kill, sometimes a day later. Take it to a hazardous waste collection and buy solder whose maker says that it is cadmium-free.", Source: "EUH207 and the cadmium standard, 29 CFR 1910.1027"},
	{Key: "solder indoors", Questions: []string{"torch at the kitchen table", "can i solder in my spare room", "is it ok to solder in the house", "solder in a rented flat", "can i solder in my flat", "is it ok to solder in my bedroom"}, Asks: [][]string{{"solder", "torch"}, {"bedroom", "apartment", "my flat", "a flat", "our flat", "council flat", "rented flat", "the flat", "kitchen", "indoors", "inside", "living room", "rented", "dorm"}}, Text: "Not in a room that you sleep or eat in. You need a fireproof surface, an extinguisher, and extraction that draws fumes away from your face; gas cylinders may be forbidden by your lease, insurer or local fire code, so ask first.", Source: CommonPractice},
	{Key: "gloves at the wheel", Questions: []string{"may i wear gloves while i hold a piece against the spinning mop"}, Asks: [][]string{{"glove", "gloves"}, {"polish", "polishing", "buff", "wheel", "drill", "flex shaft", "lathe"}}, Text: "No: never wear gloves at a polishing wheel or a drill, because it can catch them and pull your hand in. Tie back hair and sleeves, wear eye protection and a dust mask.", Source: CommonPractice},
	{Key: "casting temperature", Questions: []string{"how hot should the metal be when i pour"}, Asks: [][]string{{"temp", "temperature", "how hot"}, {"cast", "casting", "pour", "flask"}}, Text: "I keep no casting temperatures. Pour 50 to 100 °C above the point where the metal is all liquid (sterling: 893 to 899 °C, so about 960 to 1000 °C), and take the flask's temperature from your investment's sheet.", Source: CommonPractice},
	{Key: "tube without annealing", Asks: [][]string{{"without annealing", "not annealing", "skip annealing", "need to anneal", "have to anneal", "do i anneal"}, {"block", "hole", "holes", "tube", "collar"}}, Text: "It may wrinkle or crack: anneal before the first hole, and again once the foot has been squeezed by about 25 to 35 % in length round. Ask with your stone and block, and the plan says before which hole: collar oval 8x6 sterling 20ga block demo-oval.", Source: "two thirds of the rolling reduction between anneals, house rule"},
}
