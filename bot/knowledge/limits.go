package knowledge

// Limit is a rule of thumb on one thickness or width: whether a figure that a member
// names will do. Adding one is a literal in limits.
type Limit struct {
	// Key names it in the daybook and in tests.
	Key string
	// Asks are groups of words, as in Fact.Asks: one of each must be said.
	Asks [][]string
	// AllNamed tells that every group names what the rule is about. Of the others the last
	// group asks what to think of a figure, if there are two groups or more.
	AllNamed bool
	// OfPiece tells that a request answers with a verdict of its own, before which the rule
	// doesn't go.
	OfPiece bool
	// Not are words of another piece, which the rule is not about.
	Not []string
	// Under Least mm it does not serve, under Usual it is little, over Most it is much.
	Least, Usual, Most float64
	// Largest is the largest figure in mm that may be meant by the question; a larger
	// one is a stone's or a piece's own size.
	Largest float64
	// Less and More say what a smaller and a larger figure is: empty for thin and thick.
	Less, More string
	// Soft is added where the metal is fine silver.
	Soft string
	// Little, Enough and Much say what that means, as the end of a sentence, and
	// Rule is the rule's own figure, a sentence.
	Little, Enough, Much, Rule string
	Source                     string
}

// Asked are the groups of words that ask for the rule, none where a request answers by it.
func (l *Limit) Asked() [][]string {
	if l.OfPiece {
		return nil
	}
	return l.Asks
}

// Named are the groups of words that name what the rule is about.
func (l *Limit) Named() [][]string {
	if l.AllNamed || len(l.Asks) == 1 {
		return l.Asks
	}
	return l.Asks[:len(l.Asks)-1]
}

// Limits lists the rules. The caller must not change it.
func Limits() []Limit { return limits }

// earWireRule is of ear wires and of posts, which are told apart by their names alone.
const earWireRule = "20 ga (0.8 mm) is usual for ear wires and posts, 21 ga (0.72 mm) for small holes; use half hard wire and harden the curve with a mallet."

var limits = []Limit{
	{Key: "ring thickness", Soft: "Fine silver is soft besides: it scratches and bends sooner than sterling, so take it thicker or take sterling.", Not: []string{"bezel", "prong", "claw", "collet", "jump ring", "backplate", "back plate", "dome", "tube", "halo", "gap", "wire wrap", "ear"}, Asks: [][]string{{"ring", "wedding ring", "wedding band", "band", "shank"}, {"thick", "thin", "=thickness", "enough", "strong", "ok", "chunky", "heavy", "will it bend", "bend", "sturdy", "flimsy", "hold up", "last"}}, Least: 1, Usual: 1.5, Most: 2.6, Largest: 4, Little: "it bends out of round in daily wear sooner or later", Enough: "that is sturdy enough for daily wear", Much: "it is heavy to bend and stands up on the finger", Rule: "For a silver ring in daily wear 1.5 mm is usual, 1.2 mm the least for a narrow plain one, and 1.8 to 2 mm for men's rings or under a large stone; harden it after the last heat.", Source: CommonPractice},
	{Key: "shank under a large stone", AllNamed: true, Asks: [][]string{{"shank", "ring"}, {"stone setting", "large stone", "big stone", "stone on top", "heavy stone", "setting on top"}}, Least: 1, Usual: 1.5, Most: 2.6, Largest: 4, Little: "a large setting bends it and works its joint open", Enough: "that carries a large setting", Much: "it is heavy to bend", Rule: "Under a large stone a silver shank of 1.5 to 2 mm, and widest at the setting, is usual.", Source: CommonPractice},
	{Key: "bezel thickness", Asks: [][]string{{"bezel", "rub over", "rubover", "bezel wire"}, {"push over", "by hand", "thick", "thin", "fold", "=thickness", "push it over", "strip", "wall", "serrated", "ok", "enough", "use"}}, Least: 0.25, Usual: 0.3, Most: 0.52, Largest: 1.3, Little: "it creases, melts easily and wears through", Enough: "that goes over by hand when it is annealed", Much: "it is too thick to push over by hand as it is: file a bevel outside until the rim is about 0.3 mm, or set it with a hammer and punch, never on a fragile stone", Rule: "A bezel of 0.3 to 0.4 mm (28 to 26 ga) is usual for cabochons, up to 0.5 mm where it gets knocks.", Source: "28 to 26 ga: teachers' posts on a bench forum; the rest: " + CommonPractice},
	{Key: "prong thickness", Less: "thin", More: "heavy", Asks: [][]string{{"prong", "prongs", "claw", "claws"}}, Least: 0.6, Usual: 0.8, Most: 1.6, Largest: 2.5, Little: "prongs so thin bend open, catch and lose the stone", Enough: "that is usual for stones up to about 6.5 mm (1 ct)", Much: "such prongs are hard to push over and hide the stone", Rule: "Prong width in common practice: 0.8 to 1 mm for stones of 4 to 6.5 mm, 1 to 1.3 mm for 7 to 10 mm; a 1.5 ct round is about 7.4 mm, so 1 mm or more.", Source: "1.5 ct round about 7.4 mm: published proportions; widths: " + CommonPractice},
	{Key: "back plate", Asks: [][]string{{"backplate", "back plate", "base plate", "backing plate", "back on", "back for", "pendant back", "bezel back", "backing"}, {"under", "thick", "thin", "enough", "ok", "=thickness", "big stone", "strong", "work", "do"}}, Least: 0.4, Usual: 0.5, Most: 1.3, Largest: 2, Little: "it warps in the flame and dents", Enough: "that serves small and middling pieces; under a stone of 30 mm or more 0.8 to 1 mm stays flat better", Much: "it takes much heat, and a thin bezel can melt before it is hot", Rule: "24 ga (0.5 mm) for small pendants to 18 ga (1 mm) for large ones; a thin plate under a large stone warps and flexes, which opens the bezel.", Source: "a lapidary teacher's page: 24 to 18 ga"},
	{Key: "ear wire", Asks: [][]string{{"ear wire", "ear wires", "earwire", "earwires", "ear hook", "ear hooks", "ear post", "ear posts", "earring post", "earring posts", "posts on earrings", "posts for earrings", "earring wire", "earring wires", "earring hooks", "french hooks", "posts for studs", "stud posts"}}, Least: 0.6, Usual: 0.8, Most: 1.05, Largest: 2, Little: "it bends open unless it is well hammered", Enough: "that is usual", Much: "it is thick for many pierced ears", Rule: earWireRule, Source: CommonPractice},
	{Key: "ear post", AllNamed: true, Asks: [][]string{{"post", "posts"}, {"ear", "ears", "earring", "earrings", "stud", "studs"}}, Least: 0.6, Usual: 0.8, Most: 1.05, Largest: 2, Little: "it bends open unless it is well hammered", Enough: "that is usual", Much: "it is thick for many pierced ears", Rule: earWireRule, Source: CommonPractice},
	{Key: "jump ring wire", Asks: [][]string{{"jump ring", "jump rings", "jumpring", "jumprings"}, {"bracelet", "charm", "necklace", "strong", "ok", "enough", "weak", "hold", "thin", "pendant", "heavy"}}, Least: 0.6, Usual: 0.8, Most: 2.1, Largest: 2.5, Little: "it pulls open unless it is soldered", Enough: "that holds when it is closed well; solder what carries weight", Much: "it is heavy to open and close", Rule: "18 ga (1 mm) or thicker and soldered for bracelets, 20 ga (0.8 mm) for necklaces; the inside three to five times the wire. 24 ga (0.5 mm) is too weak unsoldered.", Source: CommonPractice},
	{Key: "bangle", Not: []string{"jump ring", "bezel", "chain", "link", "clasp"}, Asks: [][]string{{"bangle", "cuff", "bracelet"}, {"round", "wire", "work hardened", "hardened", "strong", "ok", "thick", "thin", "enough", "hold its shape", "bend"}}, Least: 1, Usual: 2.5, Most: 4.5, Largest: 6, Little: "it bends out of shape in wear unless it is hammered hard, and one that was not work hardened is soft", Enough: "that keeps its shape once it is hardened", Much: "it is heavy, and wants force to bend", Rule: "Closed bangles of round silver wire are 2.5 to 3 mm; cuffs of sheet 1 to 1.3 mm. Planish or tap it hard on a mandrel after the last heat.", Source: CommonPractice},
	{Key: "gap round a stone", Less: "little", More: "too much", Asks: [][]string{{"gap", "play", "room", "loose", "clearance"}, {"bezel", "stone", "setting"}, {"tighten", "start again", "too much", "ok", "close", "sloppy", "call it good", "acceptable", "normal", "all round", "all around", "enough", "too big", "too loose"}}, Least: 0, Usual: 0.02, Most: 0.1, Largest: 1.5, Little: "the stone must drop in by its own weight", Enough: "that closes as you push the wall over", Much: "it won't tighten up evenly: a loose wall wrinkles and the stone turns, so take pi x twice the gap out at the seam, or line it with a thin inner strip, or start again", Rule: "About 0.05 to 0.1 mm of play all round is usual.", Source: "pi x change of diameter; the play: " + CommonPractice},
	{Key: "gap between halo stones", Less: "little", More: "wide", Asks: [][]string{{"gap", "gaps", "space", "spacing", "between"}, {"halo", "pave", "small stones", "melee"}, {"normal", "ok", "okay", "too big", "too much", "too wide", "too small", "enough", "fine"}}, Least: 0.04, Usual: 0.08, Most: 0.25, Largest: 1, Little: "the stones touch and chip each other", Enough: "that is normal", Much: "the row looks loose, so take another stone size or one stone more", Rule: "0.1 to 0.2 mm between small stones is usual, the wider where beads are raised between them.", Source: CommonPractice},
	{Key: "rim above the girdle", AllNamed: true, Less: "little", More: "too much", Asks: [][]string{{"above the girdle", "over the girdle", "above girdle", "past the girdle", "over the edge", "above the edge", "past the edge", "over the stone", "above the stone"}, {"bezel", "rim", "wall", "collet", "too much", "too high", "enough"}}, Least: 0.25, Usual: 0.4, Most: 0.9, Largest: 3, Little: "too little rim is left to hold the stone", Enough: "that rubs over well", Much: "so high a rim hides the crown and wrinkles as it goes over: file it down before you set the stone", Rule: "For a faceted stone of 5 to 8 mm about 0.4 to 0.8 mm of rim stands above the girdle, about a tenth of the stone's width.", Source: CommonPractice},
	{Key: "halo plate thickness", AllNamed: true, Asks: [][]string{{"halo", "pave", "bead set", "bead setting"}, {"underneath", "enough metal", "thick", "thin", "sheet", "plate", "metal under", "deep"}}, Least: 0.5, Usual: 0.8, Most: 1.6, Largest: 3, Little: "the drill comes through and little is left to hold the stones", Enough: "that leaves metal beneath stones up to about 1.3 mm", Much: "it is heavy to drill", Rule: "A round stone is about 60 % as deep as it is wide, so go by your stones: 1.1 mm stones are 0.7 mm deep, and a plate of 1 mm leaves metal beneath; 2 mm stones are 1.2 mm deep. In a thinner plate the seats are open at the back, which some setters want.", Source: "rounds about 60 % deep: published proportions; the rest: " + CommonPractice},
	{Key: "tube wall", Asks: [][]string{{"tube", "tubing", "chenier"}, {"wall"}, {"ok", "enough", "thin", "thick", "stone", "diamond", "work", "fine"}}, Least: 0.2, Usual: 0.4, Most: 0.8, Largest: 1.5, Little: "after the seat is cut only half of it is left to hold the stone", Enough: "half of it carries the stone and half is pushed over", Much: "it is stiff to push over: thin its rim outside", Rule: "Half of the wall is cut for the seat, so 0.3 mm serves stones under about 2 mm, 0.4 to 0.5 mm those of 3 to 4 mm.", Source: "C. Lewton-Brain, Tube Setting: the stone covers half the wall; sizes: " + CommonPractice},
	{Key: "dome sheet", Not: []string{"bezel", "cab", "cabochon", "wire"}, Asks: [][]string{{"dome", "domed", "half ball", "bead"}, {"dent", "thin", "thick", "strong", "enough", "ok", "can i dome", "can you dome", "could i dome", "can i dap", "possible to dome"}}, Least: 0.35, Usual: 0.5, Most: 1.1, Largest: 1.5, Little: "it dents in wear", Enough: "that holds up for earrings and small pendants once it is hardened by the doming; one of 25 mm or more dents less from 0.6 to 0.8 mm", Much: "it takes many anneals and heavy blows", Rule: "0.5 to 0.8 mm (24 to 20 ga) is usual, the thicker the wider the dome.", Source: CommonPractice},
	{Key: "hallmark width", AllNamed: true, Less: "narrow", More: "wide", Asks: [][]string{{"hallmark", "stamp", "stamped"}, {"narrow", "wide", "thin", "small", "fit", "room", "enough"}}, Least: 0.8, Usual: 1.5, Most: 100, Largest: 10, Little: "at best the smallest mark fits, by laser, and under 0.5 mm none does", Enough: "small marks fit inside, best by laser; a punch widens a narrow ring at that spot", Much: "there is room for any mark", Rule: "Marks come in several sizes, the smallest about 0.5 to 1 mm high (from memory): ask your assay office, whose law decides.", Source: "from memory; ask your assay office"},
	{Key: "cut off wire", Asks: [][]string{{"headpin", "head pin", "chain wire", "chain links", "necklace chain"}, {"thick", "thin", "strong", "enough", "ok", "gauge"}}, Least: 0.45, Usual: 0.6, Most: 1.4, Largest: 3, Little: "it bends and wears through", Enough: "that is usual", Much: "it looks heavy", Rule: "Head pins are 22 to 24 ga (0.64 to 0.5 mm), chain links 18 to 20 ga (1 to 0.8 mm), soldered.", Source: CommonPractice},
	{Key: "brooch pin stem", Asks: [][]string{{"brooch pin", "pin stem", "brooch"}, {"thick", "thin", "strong", "enough", "ok", "gauge", "wire"}}, Least: 0.7, Usual: 0.8, Most: 1.3, Largest: 2, Little: "it bends", Enough: "that holds if it is hard and springy", Much: "it makes large holes in cloth", Rule: "0.8 to 1 mm of hard stainless steel, nickel silver or well hardened sterling is usual.", Source: CommonPractice},
	{Key: "collet wall", OfPiece: true, Not: []string{"bezel", "prong", "claw", "tube", "halo", "ring shank"}, Asks: [][]string{{"collet", "collets", "collar", "collars", "tapered setting", "cone setting", "taper", "basket"}, {"wall", "thick", "thin", "sheet", "enough", "ok"}}, Least: 0.35, Usual: 0.6, Most: 1.3, Largest: 2, Little: "the rim bends and wears, and little is left behind the bearing", Enough: "that carries the bearing and goes over the stone", Much: "it is hard to bend to a small outline and to push over", Rule: "0.6 to 0.8 mm (22 to 20 ga) is usual for a tapered setting; for a ring in daily wear take the thicker one, for a pendant or an earring 0.6 mm is ample.", Source: CommonPractice},
	{Key: "bail", Not: []string{"jump ring", "chain wire"}, Asks: [][]string{{"bail", "bails", "pendant loop", "loop of a pendant", "hanging loop"}, {"thick", "thin", "enough", "wear through"}}, Least: 0.6, Usual: 0.8, Most: 1.6, Largest: 2.5, Little: "the chain saws through it in time, the heavier the pendant the sooner", Enough: "that wears well under a light or middling pendant", Much: "it is heavy to bend small", Rule: "A bail of sheet is 0.8 to 1 mm, one of wire 0.8 to 1.3 mm; make it thicker inside, where the chain runs.", Source: CommonPractice},
	{Key: "signet", Not: []string{"bezel", "prong", "claw"}, Asks: [][]string{{"signet"}, {"thick", "thin", "enough", "ok"}}, Least: 1, Usual: 1.3, Most: 3, Largest: 4, Little: "the top dents, and engraving nearly goes through", Enough: "that bears engraving and daily wear", Much: "it is heavy", Rule: "The top of a signet is 1.5 mm or more where it is engraved deep, the shank 1.2 mm or more at the back.", Source: CommonPractice},
}
