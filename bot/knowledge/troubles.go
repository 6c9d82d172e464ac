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
	// Signs are groups of words, as in Fact.Asks: one of each must be said.
	Signs [][]string
	// Causes are likely causes, the likeliest first, each a sentence.
	Causes []string
	// Now is what to do with this piece, Next what to change on the next one.
	Now, Next string
	// Job names the cautions that go with it, empty for none.
	Job    string
	Source string
	// Correct works out a correction from the difference that was measured, in mm,
	// along the strip or across the piece; nil where none can be worked out.
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
	{Key: "strip too short", Signs: [][]string{{"bezel", "strip", "collet", "ring", "band", "trial", "blank", "wire", "setting"}, {"too short", "short by", "too small", "mm short", "millimeter short", "millimetre short", "doesnt meet", "does not meet", "dont meet", "doesnt close", "wont close", "doesnt go round", "didnt fit", "wont go over the stone", "too tight", "undersized"}},
		Causes: []string{"The stone was measured short, or the thickness was left out (pi x thickness).", "The saw's kerf and the filing of the joint took more than was allowed.", "An oval was worked out by its average diameter, which is short."},
		Now:    "if it lacks little, anneal it and stretch it on a bezel mandrel or with a planishing hammer, a little at a time; if it lacks more than 3 %, cut a new strip and keep this one for a smaller stone.", Next: "measure the stone in hand and cut the strip 0.3 mm long; file the joint until it just fits.", Source: CommonPractice, Correct: shortStrip},
	{Key: "strip too long", Signs: [][]string{{"bezel", "strip", "collet", "ring", "band", "blank", "setting"}, {"too long", "too big", "too large", "too loose", "oversized", "long by", "too wide"}},
		Causes: []string{"The strip was cut to the outside of the wall.", "The joint was not filed true, so the ends stand open."},
		Now:    "cut through the seam, take out the difference, file the ends square and solder again with the same grade.", Next: "close the ring round the stone and mark where the ends overlap before you cut.", Source: CommonPractice, Correct: longStrip},
	{Key: "solder balls up", Signs: [][]string{{"solder"}, {"balls", "balled", "ball up", "balling", "balls up", "wont flow", "will not flow", "not flowing", "doesnt flow", "wouldnt flow", "wont run", "sits there", "beads up", "rolls up"}},
		Causes: []string{"The metal is not as hot as the solder: the flame was on the solder.", "Dirt, grease or oxide in the joint.", "The flux is used up.", "The parts do not touch."},
		Now:    "stop, let it cool, pickle, rinse and clean the joint, flux again, and heat the metal all round until the solder flows towards the heat.", Next: "clean and fit the joint first; heat the larger part first.", Job: "soldering", Source: CommonPractice},
	{Key: "solder jumps to one side", Signs: [][]string{{"solder"}, {"one side", "wrong side", "jumped", "jumps", "only one part", "climbed", "ran up"}},
		Causes: []string{"Solder runs to the hotter part, and one part was hotter."}, Now: "flux again and heat the other part more.", Next: "heat both parts so that they reach the heat together; the thicker one needs more.", Job: "soldering", Source: CommonPractice},
	{Key: "seam opened", Signs: [][]string{{"seam", "joint", "join"}, {"open", "opened", "opens", "came apart", "popped", "split", "broke", "let go", "comes apart", "cracked"}},
		Causes: []string{"A later soldering melted the first joint: too low a grade, or too long a flame.", "The ends did not meet all along, so that solder bridged a gap.", "The ends were under spring tension."},
		Now:    "pickle, clean, close the seam without tension, flux and solder it again; take the stone out first.", Next: "solder the seam with hard and what follows with medium and easy; anneal before you close it.", Job: "soldering", Source: CommonPractice},
	{Key: "firestain", Signs: [][]string{{"grey", "gray", "purple", "shadow", "dark patches", "cloudy", "stain", "blotchy"}, {"silver", "sterling", "polish", "polished", "polishing"}},
		Causes: []string{"Firestain: copper oxide below the surface from heating sterling in air."}, Now: "file or sand through it, or hide it: heat and pickle the piece several times until it is white all over, then polish lightly.", Next: "coat all of the piece with flux or boric acid in alcohol, heat fast, and heat less often.", Job: "soldering", Source: CommonPractice},
	{Key: "pink from the pickle", Signs: [][]string{{"pink", "coppery", "copper colour", "copper color", "copper coloured", "copper colored"}, {"pickle", "silver", "sterling", "piece", "ring", "bezel"}},
		Causes: []string{"Steel was in the pickle (tweezers, binding wire), so copper plated onto the silver."}, Now: "take the steel out. The pickle is still good. Rub the pink off with fine abrasive, or use fresh pickle with a little hydrogen peroxide, wearing goggles.", Next: "use copper, brass or plastic tongs, and take binding wire off before the pickle.", Job: "pickle", Source: CommonPractice},
	{Key: "cracked on quenching", Signs: [][]string{{"crack", "cracked", "cracks", "broke", "split", "snapped"}, {"quench", "quenched", "quenching", "water", "plunged", "dropped it in"}},
		Causes: []string{"The alloy must cool in air: nickel white gold cracks when it is quenched hot.", "It was quenched while it still glowed.", "It was worked too far without annealing."},
		Now:    "don't solder over the crack: cut it out or melt the piece down.", Next: "look the metal up with heat before you quench it.", Job: "annealing", Source: "an alloy maker's heat-treating page"},
	{Key: "wrinkled in the block", Signs: [][]string{{"wrinkle", "wrinkled", "crinkle", "crinkled", "buckled", "buckle", "crumpled", "folded over", "rippled", "crinkles", "wrinkles", "buckles"}, {"block", "press", "hole", "flat", "side", "collar", "collet", "punch"}},
		Causes: []string{"The step to the next hole is too large.", "The metal was hard.", "The wall is thin for the length of its flat sides."},
		Now:    "anneal, put the punch inside and press it out again a little at a time; a sharp fold stays a crack, so begin anew.", Next: "go through every hole, anneal before each, oil the outside, keep the punch or a wooden former inside, and use thicker metal.", Job: "press", Source: CommonPractice},
	{Key: "bezel wrinkles on setting", Signs: [][]string{{"bezel"}, {"wrinkle", "wrinkles", "wrinkled", "ripple", "ripples", "pucker", "puckered", "bunches", "bunching", "buckles"}},
		Causes: []string{"The wall is too high for the stone's side.", "The bezel is slightly large.", "The metal was hard."},
		Now:    "push over north, south, east and west in turn and then between, rocking the pusher; file the rim lower if it still gathers.", Next: "a lower wall, annealed fine silver, and a strip that just lets the stone drop in.", Source: "bench forum: wall too high, stone not uniform, bezel slightly large"},
	{Key: "stone rattles", Signs: [][]string{{"stone"}, {"rattles", "rattle", "loose", "moves", "wobbles", "wobbly", "spins", "tips", "turns in"}},
		Causes: []string{"The wall is not pushed down all round.", "The bearing is uneven, so that the stone rocks.", "The setting is too large."},
		Now:    "push the wall down opposite the loose side first, then all round; if it rocks on its bearing, take it out and level the bearing.", Next: "try the stone table down in its seat before you set it, and set last of all.", Source: CommonPractice},
	{Key: "stone does not fit", Signs: [][]string{{"stone"}, {"wont fit", "doesnt fit", "does not fit", "wont go in", "too tight", "gets stuck", "wont drop in", "stuck"}},
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
		Now:    "warm the punch a little from its shank until the wax next to it softens, then pull straight; don't twist an oval or a pear.", Next: "wipe the punch with a trace of release oil, warm it before dipping, and take the shell off while it is still warm.", Source: CommonPractice},
	{Key: "bezel melted", Signs: [][]string{{"bezel", "wire", "wall"}, {"=melted", "collapsed", "burned through", "burnt through", "slumped"}},
		Causes: []string{"The flame was on the thin wall and not on the plate."}, Now: "cut a new strip; a slumped one has lost its thickness.", Next: "heat the plate, from below or round the outside, and let the heat come into the wall; use easy solder.", Job: "soldering", Source: CommonPractice},
	{Key: "blank does not close", Signs: [][]string{{"collet", "cone", "blank", "setting"}, {"doesnt close", "wont close", "ends dont meet", "ends do not meet", "gap", "twisted", "doesnt line up", "wont line up", "uneven", "crooked"}},
		Causes: []string{"The blank was bent round instead of along its fold lines.", "The print was not at 100 %: measure the check bar.", "The metal is hard and springs open."},
		Now:    "anneal, bend it evenly with each bend square to the rim, and bring the ends past each other so that they spring together.", Next: "measure the check bar of the print, and try the blank in copper first.", Source: CommonPractice},
}
