package knowledge

import (
	"fmt"
	"math"
)

// Trouble is a sign at the bench with its likely causes and what to do. Adding
// one is a literal in troubles.
type Trouble struct {
	// Key is the sign in short, "solder balls up".
	Key string
	// Signs are groups of words, as in Fact.Asks: one of each must be said. The
	// first names the piece or part; "it" stands for the piece of the last answer.
	Signs [][]string
	// Causes are likely causes, the likeliest first, each a sentence.
	Causes []string
	// Now is what to do with this piece, Next what to change on the next one.
	Now, Next string
	// Job names the cautions that go with it, empty for none.
	Job    string
	Source string
	// Correct works out a correction from the difference that was measured, in mm,
	// along the strip or across the piece; nil if none can be worked out.
	Correct func(mm float64, across bool) string
}

// Troubles lists the signs that are known. The caller must not change it.
func Troubles() []Trouble { return troubles }

// mostStretch is how far annealed silver or gold lets itself be stretched over a
// mandrel, as a share of its length: common practice, no source.
const mostStretch = 0.03

// shortStrip corrects a bezel or ring that came out too short by a length, or
// too small by a diameter. A closed strip's length is pi times its diameter.
func shortStrip(mm float64, across bool) string {
	if across {
		return fmt.Sprintf("%.2f mm too small across is %.1f mm of length: cut the next strip that much longer.", mm, math.Pi*mm)
	}
	return fmt.Sprintf("Cut the next strip %.2f mm longer: that is %.2f mm across. This one may be stretched by %.2f mm if it is at least %.0f mm long.", mm, mm/math.Pi, mm, math.Ceil(mm/mostStretch))
}

// longStrip corrects one that came out too long or too large.
func longStrip(mm float64, across bool) string {
	if across {
		return fmt.Sprintf("%.2f mm too large across is %.1f mm of length: take that out at the seam.", mm, math.Pi*mm)
	}
	return fmt.Sprintf("Take %.2f mm out at the seam: it makes the piece %.2f mm smaller across. If you measured %.2f mm across and not along the strip, take out %.1f mm.", mm, mm/math.Pi, mm, math.Pi*mm)
}

// troubles are signs at the bench, one literal each.
var troubles = []Trouble{
	{Key: "strip too short", Signs: [][]string{{"bezel", "strip", "collet", "ring", "band", "trial", "blank", "wire", "setting"}, {"too short", "short by", "too small", "mm short", "millimeter short", "millimetre short", "doesnt meet", "does not meet", "dont meet", "doesnt close", "wont close", "doesnt go round", "didnt fit", "wont go over the stone", "too tight", "undersized", "size small", "size too small", "sizes small", "sizes too small", "out small"}},
		Causes: []string{"The stone was measured short, or the thickness was left out (pi x thickness).", "The saw's kerf and the filing of the joint took more than was allowed.", "An oval was worked out by its average diameter, which is short."},
		Now:    "if it lacks little, anneal it and stretch it on a bezel mandrel or with a planishing hammer, a little at a time; if it lacks more than 3 %, cut a new strip and keep this one for a smaller stone.", Next: "measure the stone in hand and cut the strip 0.3 mm long; file the joint until it just fits.", Source: CommonPractice, Correct: shortStrip},
	{Key: "strip too long", Signs: [][]string{{"bezel", "strip", "collet", "ring", "band", "blank", "setting"}, {"too long", "too big", "too large", "too loose", "oversized", "long by", "too wide", "size big", "size too big", "sizes too big", "size too large"}},
		Causes: []string{"The strip was cut to the outside of the wall.", "The joint was not filed true, so the ends stand open."},
		Now:    "cut through the seam, take out the difference, file the ends square and solder again with the same grade.", Next: "close the ring round the stone and mark where the ends overlap before you cut.", Source: CommonPractice, Correct: longStrip},
	{Key: "solder balls up", Signs: [][]string{{"solder"}, {"balls", "balled", "ball up", "balling", "balls up", "wont flow", "will not flow", "not flowing", "doesnt flow", "wouldnt flow", "wont run", "sits there", "beads up", "rolls up"}},
		Causes: []string{"The metal is not as hot as the solder: the flame was on the solder.", "Dirt, grease or oxide in the joint.", "The flux is used up.", "The parts do not touch."},
		Now:    "stop, let it cool, pickle and rinse the piece, clean the joint, flux again, and heat the metal all round until the solder flows towards the heat.", Next: "clean and fit the joint first; heat the larger part first.", Job: "soldering", Source: CommonPractice},
	{Key: "solder jumps to one side", Signs: [][]string{{"solder"}, {"one side", "wrong side", "jumped", "jumps", "only one part", "climbed", "ran up"}},
		Causes: []string{"Solder runs to the hotter part, and one part was hotter."}, Now: "flux again and heat the other part more.", Next: "heat both parts so that they reach the heat together; the thicker one needs more.", Job: "soldering", Source: CommonPractice},
	{Key: "seam opened", Signs: [][]string{{"seam", "joint", "join"}, {"open", "opened", "opens", "came apart", "popped", "split", "broke", "let go", "comes apart", "cracked", "falls apart", "fell apart", "comes undone", "came undone", "undone"}},
		Causes: []string{"A later soldering melted the first joint: too low a grade, or too long a flame.", "The ends did not meet all along, so that solder bridged a gap.", "The ends were under spring tension."},
		Now:    "take the stone out first. Then pickle and rinse the piece, clean the joint, close it without tension, flux and solder it again.", Next: "solder the seam with hard and what follows with medium and easy; anneal before you close it.", Job: "soldering", Source: CommonPractice},
	{Key: "firestain", Signs: [][]string{{"silver", "sterling", "polish", "polished", "polishing"}, {"grey", "gray", "purple", "shadow", "dark patches", "cloudy", "stain", "blotchy"}},
		Causes: []string{"Firestain: copper oxide below the surface from heating sterling in air."}, Now: "file or sand through it, or hide it: heat and pickle the piece several times until it is white all over, then polish lightly.", Next: "coat all of the piece with flux or boric acid in alcohol, heat fast, and heat less often.", Job: "soldering", Source: CommonPractice},
	{Key: "pink from the pickle", Signs: [][]string{{"pickle", "silver", "sterling", "piece", "ring", "bezel"}, {"pink", "coppery", "copper colour", "copper color", "copper coloured", "copper colored"}},
		Causes: []string{"Steel was in the pickle (tweezers, binding wire), so copper plated onto the silver."}, Now: "take the steel out. The pickle is still good. Rub the pink off with fine abrasive or a brass brush and soapy water.", Next: "use copper, brass or plastic tongs, and take binding wire off before the pickle.", Job: "pickle", Source: CommonPractice},
	{Key: "cracked on quenching", Signs: [][]string{{"it", "sheet", "metal", "ring", "piece", "collet", "bezel", "gold", "silver", "nickel", "wire", "strip", "band", "one", "setting", "this", "brass", "white"}, {"crack", "cracked", "cracks", "broke", "split", "snapped"}, {"quench", "quenched", "quenching", "water", "plunged", "dropped it in"}},
		Causes: []string{"The alloy must cool in air: nickel white gold cracks when it is quenched hot.", "It was quenched while it still glowed.", "It was worked too far without annealing."},
		Now:    "don't solder over the crack: cut it out or melt the piece down.", Next: "look the metal up with heat before you quench it.", Job: "annealing", Source: "an alloy maker's heat-treating page"},
	{Key: "wrinkled in the block", Signs: [][]string{{"block", "press", "hole", "flat", "side", "collar", "collet", "punch"}, {"wrinkle", "wrinkled", "crinkle", "crinkled", "buckled", "buckle", "crumpled", "folded over", "rippled", "crinkles", "wrinkles", "buckles"}},
		Causes: []string{"The step to the next hole is too large.", "The metal was hard.", "The wall is thin for the length of its flat sides."},
		Now:    "anneal, put the punch inside and press it out again a little at a time; a sharp fold stays a crack, so begin anew.", Next: "go through every hole, anneal before each, oil the outside, keep the punch or a wooden former inside, and use thicker metal.", Job: "press", Source: CommonPractice},
	{Key: "bezel wrinkles on setting", Signs: [][]string{{"bezel"}, {"wrinkle", "wrinkles", "wrinkled", "ripple", "ripples", "pucker", "puckered", "bunches", "bunching", "buckles"}},
		Causes: []string{"The wall is too high for the stone's side.", "The bezel is slightly large.", "The metal was hard."},
		Now:    "push over north, south, east and west in turn and then between, rocking the pusher; file the rim lower if it still gathers.", Next: "a lower wall, annealed fine silver, and a strip that just lets the stone drop in.", Source: "bench forum: wall too high, stone not uniform, bezel slightly large"},
	{Key: "stone rattles", Signs: [][]string{{"stone"}, {"rattles", "rattle", "loose", "moves", "wobbles", "wobbly", "spins", "tips", "turns in"}},
		Causes: []string{"The wall is not pushed down all round.", "The bearing is uneven, so that the stone rocks.", "The setting is too large."},
		Now:    "push the wall down opposite the loose side first, then all round; if it rocks on its bearing, take it out and level the bearing.", Next: "try the stone table down in its seat before you set it, and set last of all.", Source: CommonPractice},
	{Key: "stone does not fit", Signs: [][]string{{"stone"}, {"wont fit", "doesnt fit", "does not fit", "wont go in", "too tight", "gets stuck", "wont drop in", "wont go down", "sits too high", "wont seat"}},
		Causes: []string{"Solder or a burr inside the wall.", "The bezel was cut to the stone's exact way round, without its thickness."},
		Now:    "don't press the stone in. Clean the inside with a bur or a scraper; to get a stuck stone out, push it from behind through a hole, or pull with wax or a thread laid under it.", Next: "lay a piece of thread or tape under the stone when you try it.", Source: CommonPractice},
	{Key: "pits", Signs: [][]string{{"pit", "pits", "pitted", "pitting", "porous", "porosity", "pinholes", "pin holes"}},
		Causes: []string{"The solder was heated too long or too often, so that part of it boiled off.", "Flux or dirt was trapped in the joint.", "In a casting: gas, or metal too hot."},
		Now:    "clean out the pit with a bur, flux, fill it with a small piece of easier solder, and file it level.", Next: "fit the joint tightly, use less solder, and take the flame away as soon as it has flowed.", Job: "soldering", Source: CommonPractice},
	{Key: "dome split", Signs: [][]string{{"dome", "disc", "disk", "dapped", "doming"}, {"split", "cracked", "crack", "tore", "torn", "cracks", "splits"}},
		Causes: []string{"The metal was hard: not annealed, or not between hollows.", "The disc went into too small a hollow at once.", "The edge had saw marks, where cracks begin."},
		Now:    "a split edge can be filed away if the dome may be smaller; otherwise begin anew.", Next: "smooth the disc's edge, anneal, begin in the largest hollow, and go down one by one.", Job: "hammer", Source: CommonPractice},
	{Key: "prong broke", Signs: [][]string{{"prong", "claw"}, {"broke", "broken", "snapped", "cracked", "broke off", "came off", "breaks"}},
		Causes: []string{"More than half of the prong was cut away for the seat.", "It was bent to and fro and hardened.", "The prong is thin for the stone."},
		Now:    "take the stone out. A new prong is soldered on or the setting made again; a broken stump does not hold.", Next: "cut 40 % of the prong for the seat and never over half, and bend each prong once.", Source: "40 % and at most half: GIA benchmark, trade guide"},
	{Key: "wax stuck on the punch", Signs: [][]string{{"wax"}, {"wont come off", "will not come off", "stuck", "sticks", "doesnt come off", "wont release", "cracks when"}},
		Causes: []string{"No release film on the punch.", "The wax has shrunk onto a cold punch.", "The shell closes round an undercut."},
		Now:    "warm the punch a little from its shank with a hair dryer or warm water, and with no flame near the wax, until the wax next to it softens, then pull straight; don't twist an oval or a pear.", Next: "wipe the punch with a trace of release oil, warm it before dipping, and take the shell off while it is still warm.", Source: CommonPractice},
	{Key: "bezel melted", Signs: [][]string{{"bezel", "wire", "wall"}, {"=melted", "keeps melting", "keep melting", "collapsed", "burned through", "burnt through", "slumped"}},
		Causes: []string{"The flame was on the thin wall and not on the plate."}, Now: "cut a new strip; a slumped one has lost its thickness.", Next: "heat the plate, from below or round the outside, and let the heat come into the wall; use easy solder.", Job: "soldering", Source: CommonPractice},
	{Key: "blank does not close", Signs: [][]string{{"collet", "cone", "blank", "setting"}, {"doesnt close", "wont close", "ends dont meet", "ends do not meet", "gap", "twisted", "doesnt line up", "wont line up", "uneven", "crooked"}},
		Causes: []string{"The blank was bent round instead of along its fold lines.", "The print was not at 100 %: measure the check bar.", "The metal is hard and springs open."},
		Now:    "anneal, bend it evenly with each bend square to the rim, and bring the ends past each other so that they spring together.", Next: "measure the check bar of the print, and try the blank in copper first.", Source: CommonPractice},

	// Heat and solder.
	{Key: "joint does not fill", Signs: [][]string{{"solder", "joint", "seam", "join"}, {"gap", "hole in", "didnt fill", "wont fill", "doesnt fill", "not filled", "wont bridge", "bridge"}},
		Causes: []string{"The ends do not meet all along: solder runs through a close joint and fills no gap.", "There is too little solder, or it did not get to its flow point everywhere.", "Dirt or oxide kept the solder off."},
		Now:    "saw through the seam, file the ends square, close it without tension, flux and solder it again with the same grade.", Next: "hold the joint to the light before you solder; no light may show.", Job: "soldering", Source: CommonPractice},
	{Key: "too much solder", Signs: [][]string{{"solder", "joint", "seam"}, {"too much", "lump", "blob", "flooded", "everywhere", "all over", "excess", "puddle"}, {"solder", "seam", "bezel", "joint"}},
		Causes: []string{"More solder was used than the joint takes.", "The piece was overheated, and the solder ran over the surface."},
		Now:    "let it cool, pickle and rinse, then file, scrape or sand the surplus away; inside a bezel use a scraper or a bur.", Next: "cut chips of about 1 x 1 mm, put them at the joint, and stop as soon as the bright line shows.", Job: "files", Source: CommonPractice},
	{Key: "solder line shows", Signs: [][]string{{"seam", "joint", "solder", "solder line", "join"}, {"shows", "visible", "see the line", "line shows", "yellow line", "can see", "dark line", "line across", "yellowish"}},
		Causes: []string{"The joint was not tight, so that a band of solder shows.", "Easy solder is yellower than sterling.", "A low grade of gold solder doesn't match the metal's colour."},
		Now:    "if it is narrow, file it level and burnish it; if it is wide, saw the seam out, file the ends square and solder it again.", Next: "make the joint tight and use hard solder of the metal's own colour for seams that show.", Job: "files", Source: CommonPractice},
	{Key: "back plate warped", Signs: [][]string{{"backplate", "back plate", "base plate", "plate", "sheet"}, {"warped", "warp", "warps", "buckled", "bowed", "curled up", "bent up", "lifted"}, {"solder", "soldered", "heat", "heated", "gap", "bezel", "torch"}},
		Causes: []string{"The plate was heated on one side or in the middle, so that it grew unevenly.", "It was hard or strained when it went under the torch.", "It is thin for its size, or clamped so that it could not move."},
		Now:    "don't press it flat with solder in the gap. If the gap is small, flux, add a chip where it gapes and heat all of the plate evenly while the bezel is held down lightly; otherwise take it apart, anneal and flatten the plate, sand the bezel's foot flat, and solder again.", Next: "anneal and flatten the plate first, support it on a mesh, heat it all over from below, and use thicker sheet for large stones.", Job: "soldering", Source: CommonPractice},
	{Key: "flux burns up", Signs: [][]string{{"flux"}, {"brown", "crusty", "crust", "black", "burnt", "burns", "glassy", "burned", "used up", "dries up"}, {"solder", "goes", "turns", "went", "gets", "and", "before", "crusty", "brown"}},
		Causes: []string{"The flux was heated too long or too hot, and is used up.", "The first heat was too fast: boiling water threw the flux and the solder off.", "The wrong flux for this metal and heat."},
		Now:    "stop, let it cool, pickle and rinse the piece, clean the joint, and flux again.", Next: "dry the flux slowly until it is white and still, then put the solder on and heat quickly with a larger flame.", Job: "soldering", Source: CommonPractice},
	{Key: "solder chips jump off", Signs: [][]string{{"solder", "pallion", "chip", "chips"}, {"jump off", "jumps off", "jumping off", "pops off", "falls off", "fell off", "fall off", "flies off", "moves away", "slides off"}},
		Causes: []string{"The flux boiled up under the chips as its water left."},
		Now:    "let the flux settle, push the chips back with a pick, and go on gently.", Next: "warm the flux until it stops bubbling before you put the chips on, or melt the chip to a ball and pick it up.", Job: "soldering", Source: CommonPractice},
	{Key: "orange peel", Signs: [][]string{{"metal", "surface", "silver", "sheet", "ring", "bezel", "texture", "dome", "copper", "gold", "brass", "strip"}, {"orange peel", "grainy", "pebbly", "peel", "rough when bent"}},
		Causes: []string{"Coarse grain: annealed too hot or too long.", "Annealed after only light working."},
		Now:    "sand it smooth and burnish it; on a piece that still has to be bent much begin with new metal, because coarse grain cracks sooner.", Next: "anneal at a dull red for seconds, not minutes, and work the metal well between anneals.", Job: "annealing", Source: "an alloy metallurgist's page; Santa Fe Symposium 1987 (14k); Z. Metallkunde 85 (1994)"},
	{Key: "sheet began to melt", Signs: [][]string{{"metal", "silver", "sheet", "ring", "edge", "edges", "prong", "prongs", "claw", "piece", "backplate", "collet"}, {"=melted", "starting to melt", "started to melt", "shiny and wobbly", "reticulated", "slumped", "went liquid", "rounded off", "balled up"}},
		Causes: []string{"The flame stayed in one place, or was too large for this part.", "Thin parts get hot first.", "The light was too bright to see the glow."},
		Now:    "take the flame away at once and let it cool without touching it. Metal that has lost its thickness or gone spongy is cut away or replaced.", Next: "keep the flame moving, heat the thick part, and work in dim light, where dull red shows.", Job: "soldering", Source: CommonPractice},
	{Key: "cracked in working", Signs: [][]string{{"metal", "sheet", "strip", "wire", "ring", "silver", "shank", "brass", "gold", "ingot", "band"}, {"=cracked", "=cracks", "=cracking", "a crack", "=split", "=snapped", "=tore", "=breaks", "=broke"}, {"bend", "bending", "bent", "roll", "rolling", "rolled", "hammer", "hammering", "forging", "forged", "mandrel", "mill", "stretch", "stretching", "draw", "drawing", "drawn", "drawplate"}},
		Causes: []string{"It hardened as it was worked and was not annealed in time.", "Its edge had nicks or saw marks, where cracks begin.", "The ingot held oxide, gas or a shrinkage pipe.", "The alloy turned brittle by the wrong cooling."},
		Now:    "stop and cut or file beyond the end of the crack; solder does not mend it for further bending.", Next: "anneal sooner, smooth the edges first, scrap the head of an ingot, and look up with heat how the metal must cool.", Job: "annealing", Source: "a metallurgist's page on cracks; M. Grimwade on defects in wrought alloys"},
	{Key: "stone harmed by heat", Signs: [][]string{{"stone", "opal", "turquoise", "garnet", "amethyst", "emerald", "pearl", "ruby", "sapphire", "gem", "cab", "topaz", "peridot"}, {"crack", "cracked", "changed colour", "changed color", "went cloudy", "turned white", "went dark", "lost its colour", "lost its color", "burst", "shattered", "went white"}, {"solder", "soldering", "heat", "heated", "torch", "flame", "quench", "hot"}},
		Causes: []string{"No stone bears a torch without risk, and many are ruined by little heat.", "It was cooled suddenly."},
		Now:    "let it cool slowly by itself, and do not quench it: hot stones burst. The damage does not go back; tell the owner, and replace the stone.", Next: "take every stone out before the torch is lit, and set it after the last heat.", Job: "stones", Source: "D. D. Martin, Gemstone durability, Gems & Gemology 23 (1987); bench and gem forums"},
	{Key: "pickle does nothing", Signs: [][]string{{"pickle"}, {"isnt doing", "not working", "doesnt work", "isnt working", "does nothing", "still black", "wont clean", "not cleaning", "stopped working", "doing nothing", "weak", "takes forever", "wont come clean"}},
		Causes: []string{"It is cold.", "It is spent, and blue with copper.", "Glassy flux covers the metal.", "The black is deep oxide from too long a heat, or what is left is firestain, which pickle doesn't take."},
		Now:    "warm it, covered and well below boiling, and give the piece ten minutes more; soak flux glass off in hot water first. If it is spent, mix a fresh bath: the salt or acid slowly into the water.", Next: "keep a lid on, change the bath when it is blue and slow, and give the old one to a waste collection.", Job: "pickle", Source: CommonPractice},
	{Key: "white or glassy crust", Signs: [][]string{{"white", "glassy", "glass", "hard"}, {"crust", "residue", "coating", "film", "glaze", "deposit"}, {"solder", "soldering", "flux", "pickle", "silver", "after"}},
		Causes: []string{"It is flux that melted to glass.", "It is pickle that dried on the piece because it was not rinsed."},
		Now:    "soak it in hot water, then in warm pickle, rinse well, and brush with soapy water; don't file the glass: it flies and dulls files.", Next: "let the piece cool as its metal asks, pickle it soon after soldering, and rinse it.", Job: "pickle", Source: CommonPractice},
	{Key: "too soft after soldering", Signs: [][]string{{"ring", "wire", "silver", "shank", "piece", "cuff", "ear wire", "pin", "prongs"}, {"too soft now", "too soft after", "went soft", "gone soft", "bends easily", "bends too easily", "floppy"}},
		Causes: []string{"The soldering heat annealed it."},
		Now:    "work it hard again: hammer it lightly with a mallet on a mandrel, twist a wire a turn, or tumble it in steel shot; set stones do not go under the hammer.", Next: "plan a step of forming after the last heat, or start with thicker metal.", Job: "hammer", Source: CommonPractice},
	{Key: "brittle platinum seam", Signs: [][]string{{"platinum"}, {"brittle", "cracked", "crack", "broke", "dark", "cracks"}, {"seam", "joint", "weld", "solder", "soldering"}},
		Causes: []string{"Carbon, flux, steel or another metal got into it while it was hot.", "A low platinum solder was used."},
		Now:    "cut the joint out down to clean metal, clean it, and do it again without flux.", Next: "use clean tools and a block kept for platinum, a sharp, slightly oxidising flame, no charcoal and no acetylene, and a weld-grade solder.", Job: "soldering", Source: "bench articles on platinum; bench forum on brittle platinum seams"},

	// Strip, seam and shape.
	{Key: "cracked in the block", Signs: [][]string{{"collet", "collar", "tube", "setting"}, {"=cracked", "=cracks", "=cracking", "a crack", "=split", "=tore", "=splits"}, {"block", "punch", "press", "hole", "die"}},
		Causes: []string{"The metal or its seam was hard: not annealed before this hole.", "The seam was not filled, or was made with easy solder.", "The step to this hole is too large."},
		Now:    "press it out without forcing it. An open seam can be closed, soldered with hard and annealed; a crack in the wall means a new collar.", Next: "solder the seam with hard, file it level, anneal before each hole, oil the outside and go hole by hole.", Job: "press", Source: CommonPractice},
	{Key: "stuck in the block", Signs: [][]string{{"collet", "collar", "punch", "tube", "setting"}, {"stuck", "jammed", "wont come out", "cant get"}, {"block", "hole", "die", "plate"}},
		Causes: []string{"It was driven in dry, or too deep.", "The metal springs against the wall of the hole.", "The punch is gripped by the metal that closed round it."},
		Now:    "turn the block over and push it out from the small side with a wooden dowel or brass rod that bears on the whole edge, a drop of oil first. Don't pry with steel, and keep your hands from under the ram.", Next: "oil the outside, wax the punch, and drive it in a little at a time, taking it out to look.", Job: "press", Source: CommonPractice},
	{Key: "rim marked by the punch", Signs: [][]string{{"collet", "collar", "rim", "top", "edge", "bezel"}, {"chewed", "chewed up", "=marked", "dented", "mangled", "bruised", "scarred", "burred", "mushroomed"}, {"punch", "hammer", "block", "press"}},
		Causes: []string{"The punch does not reach the wall's whole height, or is smaller than the collar, so that the rim takes the blow.", "The punch was struck off square.", "The rim was left with burrs."},
		Now:    "stop before it splits: file the rim level and anneal. What is filed off is lost in height, so check that enough is left above the bearing.", Next: "leave about half a millimetre more height, use the punch that fits, strike it square, and put brass or leather between.", Job: "hammer", Source: CommonPractice},
	{Key: "egg shaped", Signs: [][]string{{"collet", "bezel", "setting", "collar", "oval", "ring", "tube"}, {"egg shaped", "egg shape", "=egg", "lopsided", "lop sided", "out of shape", "out of round", "not round"}, {"came out", "went", "gone", "turned", "became", "turned out", "ended up", "goes", "keeps"}},
		Causes: []string{"It was bent more at one end than at the other.", "The seam is stiffer than the rest and did not bend.", "The mandrel was round, or the piece was not turned end for end on its taper."},
		Now:    "anneal it and true it on an oval or tapered mandrel with a mallet, from both ends; press the tight end a little flatter with the fingers first.", Next: "mark the quarter points on the strip, bend from both ends to the middle, and round it after soldering.", Job: "hammer", Source: CommonPractice},
	{Key: "bezel corners gape", Signs: [][]string{{"bezel", "wall", "setting"}, {"corner", "corners"}, {"gap", "gape", "gapes", "wont close", "wont fold", "dont close", "tear", "tore", "split", "bunch", "wrinkled"}},
		Causes: []string{"At a corner there is more metal than the rim needs, so it folds or tears.", "The corner of the wall is rounder than the stone's."},
		Now:    "push the corners over first and then the sides; if metal is left over, saw a fine slit at the corner and close it as a mitre. Do not force it over the point of the stone: corners chip.", Next: "score, fold and solder the corners sharp, file the rim a little lower there, and set the corners first.", Job: "setting", Source: "a stone setter's page: corners first, then the sides"},
	{Key: "bezel leans or flares", Signs: [][]string{{"bezel", "wall", "collet"}, {"=leans", "is leaning", "leaning over", "=flares", "flared out", "splayed", "opened out", "not straight", "tilts out"}},
		Causes: []string{"It was stretched more at its rim than at its foot, on a tapered mandrel.", "The foot was not flat when it was soldered."},
		Now:    "anneal it if it is not yet on its plate, and true it on a straight mandrel or turn it end for end; on its plate press it in with a flat piece of wood all round.", Next: "turn it end for end on the mandrel, and sand the foot flat before soldering.", Source: CommonPractice},
	{Key: "springs open", Signs: [][]string{{"ring", "strip", "bezel", "shank", "band", "collet", "cuff", "blank", "wire"}, {"springs open", "spring open", "wont stay closed", "opens up again", "wont stay shut", "springing open"}},
		Causes: []string{"The metal is hard: it was not annealed, or hardened as it was bent.", "It was bent just to closed and not past it."},
		Now:    "anneal it, bend the ends past each other to one side and then to the other, and let them spring together.", Next: "anneal before the last bend; a seam under tension opens at the next heat.", Job: "annealing", Source: CommonPractice},
	{Key: "strip curls", Signs: [][]string{{"strip", "sheet", "wire", "bezel wire"}, {"curls", "curled", "curling", "twists", "twisted", "corkscrew", "spirals", "wavy"}, {"cut", "cutting", "shears", "snips", "roll", "rolling", "rolled", "mill", "drawn", "saw", "when"}},
		Causes: []string{"Shears and snips curl what they cut.", "The rolls were not parallel, or the strip went in at a slant."},
		Now:    "anneal it, pull it straight between two pliers, and flatten it with a mallet on a flat block.", Next: "saw narrow strips, or cut them with a guillotine; set the rolls parallel and feed the strip square.", Job: "hammer", Source: CommonPractice},
	{Key: "ring stuck on the mandrel", Signs: [][]string{{"ring", "band", "shank", "bezel"}, {"stuck", "jammed", "wont come off", "cant get it off"}, {"mandrel", "ring stick", "triblet"}},
		Causes: []string{"It was driven up the taper and grips it."},
		Now:    "tap its lower edge towards the thin end with a mallet, turning the mandrel between taps; rest the ring on the jaws of a vice opened just wider than the mandrel, and tap the mandrel's thick end with wood.", Next: "hammer lightly, take it off often and turn it end for end.", Job: "hammer", Source: CommonPractice},
	{Key: "saw blades break", Signs: [][]string{{"blade", "blades", "saw"}, {"break", "breaks", "breaking", "snap", "snaps", "snapping", "broke", "keeps breaking"}},
		Causes: []string{"The blade is slack, or too coarse for the metal.", "It is pushed or twisted: the saw cuts by its own weight.", "The piece moves on the pin."},
		Now:    "take the broken piece out of the cut, fit a new blade so tight that it rings, teeth down and out, and wax it.", Next: "take a blade with two or three teeth in the thickness, hold the frame upright, and saw on the spot to turn a corner.", Job: "saw", Source: CommonPractice},
	{Key: "saw sticks", Signs: [][]string{{"saw", "blade", "sawing"}, {"jams", "jamming", "jammed", "sticks", "sticking", "binds", "gets stuck", "is stuck"}},
		Causes: []string{"The blade is dry or dull.", "Its teeth are too coarse for thin sheet.", "The frame leans, or the sheet lifts on the stroke."},
		Now:    "ease the blade back the way it came without twisting it, wax it, and start again with long light strokes.", Next: "wax the blade often, hold the sheet down on the pin with fingers beside the blade's path, and choose two or three teeth in the thickness.", Job: "saw", Source: CommonPractice},
	{Key: "saw wanders", Signs: [][]string{{"saw", "sawing", "cut", "blade"}, {"wanders", "wander", "wandering", "off the line", "not straight", "drifts", "crooked cut", "wont follow"}},
		Causes: []string{"The frame leans, or the blade is slack or dull.", "The pressure is sideways."},
		Now:    "back out, start again beside the line on the waste side, and file to the line.", Next: "tighten the blade, keep the frame upright, look at the line ahead and not at the blade, and let the blade cut.", Job: "saw", Source: CommonPractice},
	{Key: "drill wanders or breaks", Signs: [][]string{{"drill", "drill bit", "bur", "burr"}, {"wanders", "skids", "slips", "breaks", "broke", "snapped", "skates", "burns", "wont cut", "squeals"}},
		Causes: []string{"There is no mark to start in.", "It turns too fast, dry or dull.", "It was tilted or pushed."},
		Now:    "stop the drill before you touch anything; a piece that is broken off in the metal is pushed out from the back or drilled round.", Next: "centre-punch, clamp the work, oil or wax the drill, run it slower and hold it upright; wear eye protection.", Job: "drill", Source: CommonPractice},
	{Key: "tube bent", Signs: [][]string{{"tube", "tubing", "chenier", "tube set", "tube setting"}, {"banana", "banana shaped", "bowed", "kinked", "went curved", "bent like", "is curved"}},
		Causes: []string{"The strip was not parallel, or the seam is hard where the rest is soft.", "It was pulled or pressed off its axis.", "It was heated along one side."},
		Now:    "anneal it, straighten it with a rod inside by rolling it on a flat plate; a short setting is better cut again from a straight piece.", Next: "cut the strip parallel, heat it evenly, and draw or press it in line with its axis.", Source: CommonPractice},
	{Key: "template does not fit", Signs: [][]string{{"template", "print", "printout", "pattern", "paper", "pdf"}, {"wrong size", "too small", "too big", "too large", "doesnt fit", "does not fit", "doesnt match", "not to scale", "wrong scale"}},
		Causes: []string{"The printer scaled it to fit the page.", "The stone's size that was typed is not the stone's."},
		Now:    "measure the check bar: if it is not its printed length, print again at 100 % with fit to page off. Don't cut metal from this print.", Next: "measure the check bar on every print, and measure the stone in hand.", Source: CommonPractice},

	// Domes.
	{Key: "dome ripples", Signs: [][]string{{"dome", "disc", "half bead", "bead", "bowl", "half ball"}, {"ripple", "ripples", "wrinkle", "wrinkles", "wrinkled", "wavy", "creased", "pleats", "puckered"}},
		Causes: []string{"The disc is thin for its size, and its edge had to shrink too much at once.", "The first hollow was too deep or the punch too small.", "The metal was hard."},
		Now:    "anneal it and go back to a larger hollow; work round the edge with light blows of a punch that fits until the ripples are gone. A fold that has closed is a crack.", Next: "start in the largest hollow, fit the punch to it, anneal between hollows, and use thicker metal.", Job: "hammer", Source: CommonPractice},
	{Key: "bead halves do not meet", Signs: [][]string{{"bead", "ball", "halves", "halfs", "halve", "hemispheres", "domes"}, {"line up", "dont match", "gap", "dont meet", "doesnt meet", "mismatch", "different sizes", "wont meet", "not the same"}},
		Causes: []string{"The edges are not level.", "The two were not taken to the same hollow.", "One disc was off centre."},
		Now:    "set both again in one hollow with one punch, then rub each edge flat on sandpaper on a plate of glass until no light shows between them. Drill the vent hole before you solder.", Next: "punch both discs alike, keep them centred, and use one hollow and one punch for both.", Job: "soldering", Source: CommonPractice},
	{Key: "dome is marked", Signs: [][]string{{"dome", "disc", "bowl", "half ball"}, {"=marks in", "=marks on", "=marked", "=dents", "dented", "scratched", "ring mark", "bumps", "flat spots"}},
		Causes: []string{"The hollow's edge cut the disc, because the disc is wider than the hollow.", "Grit or damage on punch or block.", "The punch is too small for the hollow."},
		Now:    "set it once more in a clean hollow with a punch that fits, then file and sand the marks out.", Next: "take a hollow wider than the disc, wipe the tools, and use a wooden punch for the last step.", Job: "hammer", Source: CommonPractice},

	// Setting.
	{Key: "stone sits crooked", Signs: [][]string{{"stone", "table", "gem"}, {"crooked", "tilted", "tilts", "one side lower", "=leaning", "not level", "sits uneven", "sits low"}, {"collet", "setting", "seat", "bezel", "sits", "prongs", "side", "bearing"}},
		Causes: []string{"The bearing is higher on one side.", "A burr, solder or dirt lies under the stone.", "The stone itself is uneven below."},
		Now:    "take it out and don't push it level with the prongs or the wall: it chips. Clean the seat, mark the high side, cut it down a little and try again.", Next: "mark the seat at one height with dividers, and try the stone table down.", Job: "setting", Source: CommonPractice},
	{Key: "stone stuck in its setting", Signs: [][]string{{"stone", "cab", "cabochon", "opal", "gem", "it"}, {"stuck in", "wont come out", "cant get it out", "get the stone out", "get my stone out", "get the cab out", "get my cab out", "get it out of the", "is stuck", "stuck stone"}, {"bezel", "stone", "setting", "cab", "collet", "cabochon"}},
		Causes: []string{"It was tried without a thread or tape under it.", "The wall is tight at one place, by a burr or by solder."},
		Now:    "push it from behind through a hole with a wooden stick; without a hole turn the piece over a soft cloth and tap it lightly, or pull it with a lump of sticky wax or a strip of tape on its dome. Don't pry with steel, don't heat it, and don't drill with the stone in.", Next: "lay dental floss or tape under the stone whenever you try it, or cut a hole in the plate first.", Source: CommonPractice},
	{Key: "stone chipped", Signs: [][]string{{"stone", "girdle", "opal", "gem", "corner", "cab", "emerald", "point", "edge of the stone", "culet"}, {"chipped", "chip", "cracked", "crack", "chips", "broke", "broken"}, {"setting", "set", "pushing", "pushed", "prong", "prongs", "claw", "bezel", "girdle", "while", "pressed"}},
		Causes: []string{"The seat touched the girdle or the point, or was uneven.", "The tool pressed on the stone.", "The wall or prong was too thick or hard to move.", "The stone was flawed or thin at its edge."},
		Now:    "stop, wear eye protection, and take the stone out with the setting opened, not with the stone as lever. A small chip can sometimes lie under a prong or the rim; a lapidary can recut it. Tell the owner.", Next: "relieve the seat at corners and points, thin the rim, use annealed metal and push in small steps round the stone.", Job: "setting", Source: "GIA benchmark: relief at corners; " + CommonPractice},
	{Key: "stone fell out", Signs: [][]string{{"stone", "diamond", "gem", "cab", "opal"}, {"fell out", "falls out", "came out of", "dropped out", "lost the stone", "popped out", "pops out", "keeps falling"}},
		Causes: []string{"The rim or prong was not over the edge.", "The wall is too low for the stone's side.", "Prongs wore thin, or the seat was cut too large."},
		Now:    "look at the stone for chips and at the seat for wear before you set it again; a worn or thin prong is rebuilt first, with the stone away from the torch.", Next: "choose the wall's height by the stone's side, check with a bamboo stick and sticky wax that nothing moves, and look at prongs once a year.", Job: "setting", Source: "a trade journal's checks for a loose stone: probe, sticky wax, jiggle"},
	{Key: "bezel tore or wore thin", Signs: [][]string{{"bezel", "rim", "wall"}, {"tore", "torn", "thin", "filed through", "wore through", "paper thin", "worn"}, {"setting", "filing", "filed", "push", "pushing", "polish", "rim", "place", "through", "burnish"}},
		Causes: []string{"The rim was filed or polished too long.", "The metal was thin, or was pushed to and fro."},
		Now:    "a hole in the wall does not hold: take the stone out and make a new bezel.", Next: "use 26 ga instead of 30, finish with a burnisher and not a file, and protect the stone with tape.", Job: "setting", Source: CommonPractice},
	{Key: "prongs catch", Signs: [][]string{{"prong", "prongs", "claw", "claws", "tips"}, {"catch", "catches", "catching", "snag", "snags", "are sharp", "is sharp", "scratches me"}},
		Causes: []string{"The tip is not down on the stone.", "The tip was left square or sharp."},
		Now:    "push a tip that stands off down a little at a time, then round it with a cup bur or a fine file held off the stone, and burnish it. A thin or cracked prong is rebuilt, with the stone out.", Next: "cut all tips to one length after setting, and draw cotton wool across them: it shows what catches.", Job: "setting", Source: CommonPractice},
	{Key: "prongs uneven", Signs: [][]string{{"prong", "prongs", "claw", "claws"}, {"uneven", "different heights", "different lengths", "not even", "crooked", "dont touch", "doesnt touch", "not touching", "gap under"}},
		Causes: []string{"They were marked or sawn unevenly.", "The seats are not at one height.", "One was bent further than the others."},
		Now:    "do not bend them to and fro. Open them just enough to take the stone out, level the seats, and file the tips to one height only after they all lie on the stone.", Next: "divide the rim with dividers, cut all seats at one mark, and bend opposite prongs in turn, each a little.", Job: "setting", Source: CommonPractice},

	// Finish.
	{Key: "scratches after polishing", Signs: [][]string{{"scratch", "scratches", "lines", "drag lines", "sanding marks"}, {"polish", "polished", "polishing", "buff", "buffing", "still there", "wont come out", "show"}},
		Causes: []string{"A grit was left out, or its marks were not removed before the next.", "The mop or the paper carried coarser grit over."},
		Now:    "go back to the grit that takes the scratch out, then through each finer one, across the last marks.", Next: "wash the piece between grits, and keep a mop for each compound.", Job: "polishing", Source: CommonPractice},
	{Key: "silver went black", Signs: [][]string{{"silver", "sterling", "ring", "piece", "metal"}, {"went black", "turned black", "gone black", "goes black", "black spots", "all black", "black all over"}},
		Causes: []string{"After heating: copper oxide, which warm pickle takes off.", "In wear or in the drawer: tarnish, a sulphide, which pickle doesn't take off.", "In a cleaner: bleach or another chemical."},
		Now:    "after a heat let it cool, then pickle and rinse it; tarnish comes off with a silver cloth. If bleach was on it, rinse it well with water and keep it away from acid and pickle.", Next: "flux the whole piece and heat it briefly; store it dry and closed.", Job: "pickle", Source: CommonPractice},
	{Key: "patina fails", Signs: [][]string{{"patina", "liver of sulphur", "liver of sulfur", "oxidising", "oxidizing", "blackening"}, {"wont take", "doesnt take", "not working", "patchy", "wears off", "comes off", "rubs off", "uneven", "flakes"}},
		Causes: []string{"Grease or finger marks on the metal.", "The solution is old, or too strong, which makes a crust that flakes.", "Fine silver and germanium silver take it more slowly."},
		Now:    "wash the piece with soap and a brush, rinse it, and try again in weak fresh solution, several short dips with rinses between, outdoors or in a fume hood.", Next: "touch it with tongs only, and mix it fresh by its data sheet; never near acid or pickle.", Job: "chemicals", Source: "EUH031 on sulphides and acids; the rest: " + CommonPractice},

	// Casting and wax.
	{Key: "porous casting", Signs: [][]string{{"cast", "casting", "castings"}, {"full of holes", "little holes", "tiny holes", "small holes", "has holes", "of holes", "porous", "porosity", "pinholes", "pits", "pitted", "spongy"}},
		Causes: []string{"Shrinkage: the sprue is thin, or sits at a thin part that freezes first.", "Metal or flask was too hot.", "Gas from old metal, or a burnout that was too short."},
		Now:    "single pits are burnished shut or filled with easy solder; a spongy piece is weak, so recast it and don't set stones in it.", Next: "put the sprue on the thickest part and about 1.5 times as thick, use at least half fresh metal, and the coolest metal and flask that fill the mould.", Job: "casting", Source: "two casting houses' pages; sprue about 1.5 x; half fresh metal: " + CommonPractice},
	{Key: "casting not filled", Signs: [][]string{{"cast", "casting", "mould", "mold", "flask"}, {"didnt fill", "not filled", "incomplete", "missing", "half filled", "didnt come out complete", "short pour", "doesnt fill"}},
		Causes: []string{"The metal or the flask was too cold.", "The sprue is too thin or too long.", "Too little metal, or no way out for the air."},
		Now:    "cut off the sprue and melt it again with fresh metal. Let a flask cool right down before you look into the mould, and keep water away from molten metal.", Next: "thicker sprue at the thickest part, more metal in the button, and the flask's temperature from your investment's sheet.", Job: "casting", Source: CommonPractice},
	{Key: "fins on the casting", Signs: [][]string{{"cast", "casting", "castings"}, {"fins", "flashing", "veins", "cracked investment", "webs"}},
		Causes: []string{"The investment cracked: heated too fast, knocked, or mixed wrong.", "It dried out before the burnout."},
		Now:    "cut and file the fins off, in eye protection.", Next: "weigh powder and water by the maker's sheet, keep the flask damp until the burnout, and heat by the sheet's steps.", Job: "casting", Source: CommonPractice},
	{Key: "wax cracks or breaks", Signs: [][]string{{"wax"}, {"crack", "cracks", "cracked", "broke", "breaks", "brittle", "crumbles", "snapped"}},
		Causes: []string{"It is cold, or the layers were not warm when they were joined.", "It was made too thin, or pulled off a cold punch."},
		Now:    "warm the crack with a hot tool until wax runs in, fill it, and smooth it; a shell that cracked through is dipped again.", Next: "work in a warm room, let each coat cool a little and not wholly, and take the shell off while it is warm.", Job: "wax", Source: CommonPractice},
}
