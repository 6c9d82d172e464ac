package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/knowledge"
)

// asked are ways in which members ask for what is known in words, by the topic
// that must be found. They are written apart from the words that find them.
var asked = []struct {
	topic   string
	phrases []string
}{
	{"prong", []string{"what is a prong", "explain what a claw is"}},
	{"gallery", []string{"what does gallery mean on a ring", "what is the gallery rail"}},
	{"gallery wire", []string{"whats gallery strip used for", "what is scalloped bezel"}},
	{"step bezel", []string{"what does a stepped bezel look like, explain", "what is bearing wire for"}},
	{"flush setting", []string{"what is a gypsy setting", "explain flush set please"}},
	{"channel setting", []string{"what is channel setting", "what does channel set mean"}},
	{"pave", []string{"whats a pave setting", "what is bead setting"}},
	{"basket", []string{"what is a basket", "what does basket setting mean"}},
	{"head", []string{"what is a peg head", "what does setting head mean"}},
	{"solder grades", []string{"what is easy solder", "what does hard solder mean"}},
	{"saddle", []string{"whats a saddle", "explain saddle to a beginner"}},
	{"back plate", []string{"what is a back plate", "what does backplate mean"}},
	{"v prong", []string{"what is a v prong", "explain v tip"}},
	{"outline", []string{"what is the word outline for", "what does outline mean"}},
	{"block and punch", []string{"what is a bezel block", "whats a collet plate"}},
	{"blank", []string{"what is a blank", "what does blank mean in your answers"}},
	{"seam", []string{"what is a seam", "what do you mean by seam"}},
	{"dome", []string{"what is dapping", "what does doming mean"}},
	{"doming block", []string{"what is a dapping block", "can you explain doming punches"}},
	{"facet", []string{"what is a facet", "what does faceted stone mean"}},
	{"rose cut", []string{"what is a rose cut", "explain rose cut stones"}},
	{"cabochon kinds", []string{"what does buff top mean", "whats a sugarloaf"}},
	{"calibrated", []string{"what does calibrated mean", "what is a calibrated stone"}},
	{"melee", []string{"what is melee", "whats melee then"}},
	{"carat point", []string{"how many points in a carat", "what does a point mean for a diamond"}},
	{"carat and karat", []string{"carat or karat, whats the difference", "is ct the same as kt"}},
	{"mohs", []string{"what is mohs", "explain the mohs scale"}},
	{"germanium silver", []string{"what's argentium", "what is germanium silver"}},
	{"sterling", []string{"what is sterling", "what does sterling mean"}},
	{"fine silver", []string{"what is fine silver", "whats 999 silver"}},
	{"britannia silver", []string{"what is britannia", "please tell me what britannia silver is, what does britannia mean"}},
	{"nickel silver", []string{"what is nickel silver", "whats german silver"}},
	{"white gold", []string{"what is white gold", "explain white gold to me"}},
	{"rose gold", []string{"what is rose gold", "whats red gold"}},
	{"gold filled and vermeil", []string{"what is vermeil", "what does gold filled mean"}},
	{"fineness", []string{"what is fineness", "what does millesimal mean"}},
	{"plumb", []string{"what is plumb solder", "what does plumb mean"}},
	{"temper", []string{"whats the difference between half hard and dead soft", "what does full hard mean"}},
	{"swg and b&s", []string{"awg or swg, which one for silver", "british gauge vs american, are they different"}},
	{"ga", []string{"what does ga mean", "ga is short for what"}},
	{"smaller number thicker", []string{"is a higher gauge number thinner", "do lower gauge numbers mean thicker metal"}},
	{"pennyweight", []string{"dwt?", "what is a pennyweight"}},
	{"troy ounce", []string{"what is a troy ounce", "whats ozt"}},
	{"sheet and plate", []string{"is plate the same as sheet", "difference between sheet and plate"}},
	{"chenier", []string{"what is chenier", "chenier?"}},
	{"half round", []string{"what is half round wire", "what does d section mean"}},
	{"findings", []string{"what are findings", "what does findings mean"}},
	{"jump ring", []string{"what is a jump ring", "whats a jump ring for"}},
	{"flow point and melting point", []string{"is flow point the same as melting point", "difference between solidus and liquidus"}},
	{"flow point", []string{"what is a flow point", "what does liquidus mean"}},
	{"sweat soldering", []string{"what is sweat soldering", "explain sweat solder"}},
	{"pallion", []string{"what is a pallion", "what are paillons"}},
	{"fillet", []string{"what is a fillet", "what does solder fillet mean"}},
	{"heat sink", []string{"what is a heat sink", "whats a heatsink"}},
	{"firecoat", []string{"what is firecoat", "what is a barrier flux"}},
	{"borax", []string{"what is borax", "whats a borax cone"}},
	{"solder", []string{"whats brazing then", "what is solder exactly"}},
	{"depletion gilding", []string{"how do i bring up the fine silver", "what is depletion gilding"}},
	{"patina", []string{"what is a patina", "whats liver of sulphur"}},
	{"burnish", []string{"what does burnish mean", "what is a burnisher"}},
	{"planish", []string{"what does planish mean", "what is a planishing hammer"}},
	{"bezel pusher", []string{"what is a prong pusher", "whats a bezel pusher"}},
	{"bezel rocker", []string{"what is a bezel rocker", "whats a bezel roller"}},
	{"pitch", []string{"what is pitch", "what is setters wax"}},
	{"ring stick", []string{"what is a ring stick", "whats a sizing stick"}},
	{"rolling mill", []string{"what is a rolling mill", "explain the rolling mill"}},
	{"drawplate", []string{"what is a drawplate", "whats a draw plate for"}},
	{"investment", []string{"what is investment", "what does investment mean"}},
	{"flask", []string{"what is a flask", "what does flask mean"}},
	{"graver", []string{"what is a graver", "whats a burin"}},
	{"setting bur", []string{"what is a hart bur", "difference between a setting bur and a ball one"}},
	{"bench pin", []string{"what is a bench pin", "whats a bench peg"}},
	{"binding wire", []string{"what is binding wire", "whats iron wire for"}},
	{"third hand", []string{"what is a third hand", "what are cross locking tweezers"}},
	{"check bar", []string{"what is the check bar", "whats the check bar for"}},
	{"why curved", []string{"why is the pattern for a collet fan shaped", "how come a tapered setting needs a curved blank"}},
	{"straight strip for a taper", []string{"can i just use a straight strip for a cone", "can i use a plain strip instead for the collet"}},
	{"why anneal", []string{"why bother annealing", "why do you keep annealing it"}},
	{"why 17 degrees", []string{"why is it 17 degrees", "why that angle"}},
	{"why file square", []string{"why should the ends be filed flat", "why do i need to file it square"}},
	{"why sterling stains", []string{"why does only sterling get firestain", "why no fire scale on fine silver"}},
	{"why pi times thickness", []string{"do i add the thickness once or twice", "why do you add pi times the metal thickness"}},
	{"why strip longer", []string{"why is the strip longer than my stone", "how come the bezel is bigger than the way round"}},
	{"why pi", []string{"why multiply by 3.14 for a ring", "why do you use pi for a circle"}},
	{"why solder flows to heat", []string{"why does solder go towards the heat", "does solder follow the hotter side"}},
	{"why bezels wrinkle", []string{"why is a bezel that is too high a problem", "how come a tall bezel gathers"}},
	{"why quench some golds", []string{"why quench some gold and not others", "which golds do you quench and which not"}},
	{"why flux", []string{"why do i need flux", "whats the point of flux"}},
	{"why pickle", []string{"why do we use pickle", "whats the point of pickle at all"}},
	{"why vent hole", []string{"why do beads need a vent hole", "do i need a hole in a hollow form"}},
	{"why measure each stone", []string{"why measure every calibrated stone", "why measure the real stone"}},
	{"why set last", []string{"why do you set the stone last", "why is the stone set last"}},
	{"why hard first", []string{"why is hard used first for the seam", "why start with hard solder"}},
	{"why fine silver bezel", []string{"why use fine silver for a bezel", "why fine silver and not sterling bezel wire"}},
	{"oval by average", []string{"can i take the average of length and width for an oval", "is it wrong to use the mean diameter of an oval"}},
	{"bezel and collet", []string{"difference between a bezel and a collet", "is a collet the same as a bezel"}},
	{"sterling and fine", []string{"sterling vs fine silver", "difference between sterling and 999"}},
	{"firescale and firestain", []string{"is firescale the same as firestain", "fire stain vs fire scale"}},
	{"prongs or bezel", []string{"which holds better, prongs or a bezel", "are claws or a bezel stronger for everyday"}},
	{"brass and bronze", []string{"difference between brass and bronze", "is bronze the same as brass"}},
	{"paste and liquid flux", []string{"paste or liquid flux", "which is better, liquid flux or paste"}},
	{"soft and hard soldering", []string{"can i use plumbing solder", "is lead solder ok on silver"}},
	{"torch kinds", []string{"mapp gas or propane, which is better", "propane vs acetylene"}},
	{"asbestos", []string{"my old mat may be asbestos", "how do i know if a board has asbestos"}},
	{"propane storage", []string{"can i keep propane indoors", "where should gas cylinders be stored overnight"}},
	{"masks", []string{"what kind of mask do i need for sanding", "is an n95 enough"}},
	{"stone dust", []string{"is quartz dust bad for lungs", "is grinding agate dangerous"}},
	{"pregnancy", []string{"im pregnant can i solder", "is flux ok while breastfeeding"}},
	{"children and torches", []string{"can kids use the torch", "is a 10 year old allowed to solder"}},
	{"bystanders", []string{"can i solder with my baby in the room", "is polishing ok with pets about"}},
	{"burnout fumes", []string{"how do i vent the kiln", "what do i do about fumes from burning wax"}},
	{"v prong", []string{"does a pear need a v prong", "should i use a v tip on a marquise"}},
	{"galvanised wire", []string{"can i solder galvanized wire", "is zinc coated wire ok as binding wire"}},
	{"bleach", []string{"can i use bleach to clean silver", "what if i mix ammonia and pickle"}},
	{"cyanide", []string{"is cyanide used for bombing gold", "can i do cyanide stripping at home"}},
	{"steam and ultrasonic", []string{"can i put opal in the ultrasonic", "steam cleaner on pearls ok?"}},
	{"liver of sulphur indoors", []string{"is liver of sulfur ok in the kitchen", "liver of sulphur inside the house?"}},
	{"platinum glasses", []string{"what shade lens for palladium welding", "do i need sunglasses for platinum soldering"}},
	{"eye protection", []string{"do i need goggles for sawing", "what safety glasses should i wear for the drill"}},
	{"neutralise pickle", []string{"can i use baking soda on pickle", "neutralize acid with bicarb?"}},
	{"hot metal into pickle", []string{"can i drop it hot in the pickle", "is it ok to quench straight in pickle"}},
	{"nickel allergy", []string{"customer is allergic to metal earrings", "which silver is nickel free for a rash"}},
	{"lead", []string{"is it safe to melt pewter on the same bench", "does lead contaminate silver near it"}},
	{"food safe", []string{"is my copper cup safe to drink from", "is a silver soldered spoon food safe"}},
	{"ventilation", []string{"is an open window enough for soldering", "how much extraction do i need for the torch"}},
	{"when is it annealed", []string{"how can i tell its annealed", "how do you know when brass is soft enough"}},
	{"how often to anneal", []string{"how often should i anneal", "how soon do i need to anneal again"}},
	{"anneal before or after soldering", []string{"anneal before soldering or not", "should i solder first or anneal before i solder"}},
	{"which flux", []string{"which flux should i buy for brass", "what flux do you use on gold"}},
	{"how to solder", []string{"how do i solder a seam", "how to solder a ring shut"}},
	{"where to heat", []string{"where do i point the flame", "where should the torch go, on the plate"}},
	{"which flame", []string{"what kind of flame for sterling", "what kind of flame should i use on silver"}},
	{"clean before soldering", []string{"do i need to clean metal before soldering", "how do i prepare a joint for soldering"}},
	{"how much solder", []string{"how many pallions for a bezel", "what amount of solder goes on a seam"}},
	{"solder for a seam before medium", []string{"which solder for the seam if medium comes later", "what grade for the bezel seam before the plate"}},
	{"reheating a joint", []string{"can a hard joint flow again a second time", "how often can i remelt the same solder"}},
	{"protect a joint", []string{"how do i stop the first joint from melting", "how to keep earlier joints safe in the next heat"}},
	{"hold a bezel for soldering", []string{"how do i keep a bezel in place on the plate", "how to hold the bezel so it stays put while soldering to the plate"}},
	{"pickle time", []string{"how long does it stay in the pickle", "how warm should pickle be"}},
	{"citric pickle", []string{"can i use citric acid instead of pickle", "citric acid for pickling silver"}},
	{"vinegar pickle", []string{"vinegar as a substitute for pickle", "can i pickle in vinegar and salt"}},
	{"tarnish", []string{"how do i stop silver tarnishing", "why does it tarnish so quick"}},
	{"measure a ring size", []string{"how do i measure my finger", "how can i find someones ring size"}},
	{"measure a stone", []string{"how do i measure a cab", "what do i measure on the stone"}},
	{"measure base or widest", []string{"do i measure the bottom or the widest part for a bezel", "stone bulges above the base, where do i measure"}},
	{"measure a freeform", []string{"how do i measure an odd shaped stone", "how to measure irregular cabs for the bezel"}},
	{"oval formula", []string{"is there a formula for an ellipse", "what equation gives an oval"}},
	{"how tight a bezel fits", []string{"how snug should a bezel fit", "how tight should the stone be"}},
	{"bezel height rule", []string{"is there a rule of thumb for bezel height", "how high is a bezel in general"}},
	{"bezel overlap", []string{"how far over the stone should the bezel fold over, how much", "how much overlap for a bezel"}},
	{"close a bezel", []string{"how do i push over a bezel", "whats the best way to close a bezel"}},
	{"make ends meet", []string{"how do i get the ends to meet", "how to make a seam line up"}},
	{"how to sand", []string{"what grit do i start with", "how do i sand silver"}},
	{"file order", []string{"in what order do i file and sand", "which emery paper comes after the needle file"}},
	{"order of finishing", []string{"which comes first polishing or tumbling, order", "what comes first in polishing, order of tools"}},
	{"order of a bezel ring", []string{"steps to make a bezel ring", "what order do i make a bezel pendant in"}},
	{"bend a cone", []string{"how do i bend a cone shape", "whats the best way to bend the collet blank"}},
	{"bend a ring", []string{"how do i bend a ring", "how to round a thick band"}},
	{"transfer a template", []string{"how do i glue the template on the metal", "how to transfer a pattern to sheet"}},
	{"print at full size", []string{"how do i print it actual size", "the printout is the wrong size", "my printer does fit to page what now"}},
	{"saw blade", []string{"which saw blade for thin sheet", "what size blade should i use"}},
	{"level a stone", []string{"how do i get my stone to sit level", "how to make the stone sit flat"}},
	{"cut a seat", []string{"how do i cut a seat for the stone", "what bur to cut the bearing"}},
	{"dome an oval", []string{"can you dome an oval", "is it possible to dap a pear shape"}},
	{"make a dome", []string{"how do i dome a disc", "how to use a dapping block and punches for a half ball"}},
	{"disc and thickness", []string{"does thickness matter for the disc of a dome", "do you account for how thick the disc is in a bead"}},
	{"open or closed back", []string{"should i have an open back on my bezel", "why drill a hole in the backplate"}},
	{"harden a finished piece", []string{"how do i harden a ring after soldering", "how to make a shank stiffer after soldering"}},
	{"prong width", []string{"what gauge wire for claws", "how thick should a prong be"}},
	{"how many prongs", []string{"should i have 4 or 6 prongs", "how many claws does a ring need"}},
	{"back plate margin", []string{"how much bigger should the backplate be", "what margin on the base plate"}},
	{"back plate thickness", []string{"what gauge for a back plate", "how thick is a backplate"}},
	{"flush setting depth", []string{"how thick must a band be for a gypsy set stone", "flush set: is my metal deep enough"}},
	{"brass for settings", []string{"can i use brass for a collet or does it crack", "will it split if i use brass"}},
	{"copper in wear", []string{"can i wear a copper ring daily", "is a copper ring ok to wear daily"}},
	{"green finger", []string{"does copper turn my finger green, its a band", "why does my copper ring turn my finger green"}},
	{"fragile stones", []string{"is an opal too soft for a ring", "setting tanzanite, is that risky"}},
	{"neutral factor", []string{"explain k factor like im 5", "why do you use a neutral axis"}},
	{"crown and pavilion", []string{"pavilion - which part is that", "where is the table on a gem"}},
	{"blue pickle", []string{"my pickle has gone blue", "is green pickle still ok"}},
	{"too hot for silver", []string{"is 800 C too hot for sterling", "what happens if i overheat silver"}},
	{"allow for kerf", []string{"do i add kerf", "how much kerf should i allow"}},
	{"outline names", []string{"difference between a pear and a teardrop", "is marquise the same as navette"}},
	{"trouble: saw sticks", []string{"my saw keeps jamming", "the blade sticks in the cut"}},
	{"trouble: springs open", []string{"why does my ring spring open", "the strip wont stay closed"}},
	{"trouble: prongs catch", []string{"my prongs catch on my jumper", "one claw snags"}},
	{"trouble: bezel melted", []string{"bezel wire keeps melting", "the wall slumped"}},
	{"metal for beginners", []string{"whats the best metal to start learning with", "which metal for a beginner"}},
	{"medium weight sheet", []string{"what is heavy weight sheet", "whats a medium weight wire"}},
	{"collet height", []string{"how tall so the culet doesnt stick out", "how deep so that the point doesnt poke through, pokes out now"}},
	{"texture and ring size", []string{"does hammering make a ring bigger", "will a hammered texture stretch my band"}},
	{"hammer or file ends", []string{"should ring ends be mitred or straight", "butt joint or bevelled for a band"}},
	{"trouble: joint does not fill", []string{"theres a gap in my seam", "solder wont bridge the join"}},
	{"trouble: too much solder", []string{"theres a blob of solder on it", "i used too much solder on the joint"}},
	{"trouble: solder line shows", []string{"the seam is visible", "you can see the line of solder"}},
	{"trouble: back plate warped", []string{"my plate bowed when i heated it", "backplate buckled in soldering"}},
	{"trouble: flux burns up", []string{"my flux turns black before the solder melts", "flux gets crusty and brown"}},
	{"trouble: solder chips jump off", []string{"the pallions keep jumping off", "solder chips fall off when the flux bubbles"}},
	{"trouble: orange peel", []string{"ring surface looks like orange peel", "my silver went grainy"}},
	{"trouble: sheet began to melt", []string{"the edges melted on my ring", "silver started to melt and slumped"}},
	{"trouble: cracked in working", []string{"my strip cracked when i rolled it", "brass split while bending"}},
	{"trouble: stone harmed by heat", []string{"opal went cloudy when i soldered", "the garnet cracked in the torch"}},
	{"trouble: pickle does nothing", []string{"pickle not working", "the pickle isnt working anymore"}},
	{"trouble: white or glassy crust", []string{"theres a glassy coating after soldering", "white residue on silver"}},
	{"trouble: too soft after soldering", []string{"ring bends too easily now", "my cuff went soft"}},
	{"trouble: brittle platinum seam", []string{"platinum seam is brittle", "my platinum joint cracked"}},
	{"trouble: cracked in the block", []string{"collar split in the second hole", "my tube cracked in the press"}},
	{"trouble: stuck in the block", []string{"punch is jammed in the collar hole", "collar stuck in the die"}},
	{"trouble: rim marked by the punch", []string{"rim got dented from the hammer", "edge of the collet is mangled by the punch"}},
	{"trouble: egg shaped", []string{"my bezel turned egg shaped", "ring went out of round"}},
	{"trouble: bezel corners gape", []string{"bezel wont fold at the corners", "theres a gap at the corner of my bezel"}},
	{"trouble: bezel leans or flares", []string{"the wall is splayed outwards", "my bezel leans to the left"}},
	{"trouble: strip curls", []string{"the strip curled up when i cut it", "wire twists coming out of the rolling mill, twisted"}},
	{"trouble: ring stuck on the mandrel", []string{"ring is stuck on the mandrel", "band jammed on the triblet"}},
	{"trouble: saw blades break", []string{"my saw blades keep snapping", "blade broke again"}},
	{"trouble: saw wanders", []string{"my saw cut drifts", "blade wanders off the line"}},
	{"trouble: drill wanders or breaks", []string{"drill bit skids on silver", "drill keeps slipping, it slips"}},
	{"trouble: tube bent", []string{"my tubing is bowed", "the chenier kinked"}},
	{"trouble: template does not fit", []string{"pdf came out not to scale", "my template does not fit the stone"}},
	{"trouble: dome ripples", []string{"bowl is wavy at the rim", "disc puckered when i dapped it"}},
	{"trouble: bead halves do not meet", []string{"the two halves dont match", "my beads domes are different sizes"}},
	{"trouble: dome is marked", []string{"there are dents in my dome", "half ball has a ring mark"}},
	{"trouble: stone sits crooked", []string{"stone is tilted in the bezel", "table not level in its prongs"}},
	{"trouble: stone stuck in its setting", []string{"how do i get the stone out of a bezel without breaking it", "cabochon is stuck in the setting"}},
	{"trouble: stone chipped", []string{"i chipped the emerald with a prong", "stone cracked while i was setting it"}},
	{"trouble: stone fell out", []string{"the stone fell out of my ring", "my diamond keeps falling out"}},
	{"trouble: bezel tore or wore thin", []string{"i filed through the rim of the bezel", "bezel tore at one place"}},
	{"trouble: prongs uneven", []string{"my claws are uneven", "prongs dont touch the stone"}},
	{"trouble: scratches after polishing", []string{"i still see scratches after the buff", "sanding marks show on polished silver"}},
	{"trouble: silver went black", []string{"silver turned black", "the ring went black overnight"}},
	{"trouble: patina fails", []string{"the patina rubs off", "liver of sulfur is patchy"}},
	{"trouble: porous casting", []string{"my casting is spongy", "castings have pinholes"}},
	{"trouble: casting not filled", []string{"my casting is incomplete", "mould half filled"}},
	{"trouble: fins on the casting", []string{"casting came out with fins", "theres flashing on my castings"}},
	{"trouble: wax cracks or breaks", []string{"wax is brittle", "my wax snapped"}},
}

func TestKnowledgeIsFound(t *testing.T) {
	for _, a := range asked {
		require.GreaterOrEqual(t, len(a.phrases), 2, a.topic)
		for _, say := range a.phrases {
			r := Read(say, Context{Addressed: true})
			assert.Equal(t, a.topic, r.Topic, "%s -> %s %s", say, r.Line(), r.Ask)
		}
	}
}

// A question is not copied into the words that find it: then it would prove
// nothing about other ways to ask. Words that name a thing may be the whole of a
// question, as in "what is flux".
func TestQuestionsAreNotCopied(t *testing.T) {
	copied := map[string]bool{}
	for _, phrase := range knowledgePhrases() {
		copied[strings.TrimPrefix(phrase, "=")] = true
	}
	for _, a := range asked {
		for _, say := range a.phrases {
			if !strings.HasPrefix(say, "what") {
				assert.False(t, copied[say], say)
			}
		}
	}
}

// Every fact and trouble is the topic of a question in this file or of one in
// the sentences that the reader was tuned with.
func TestEveryTopicIsAsked(t *testing.T) {
	t.Parallel()
	reached := map[string]bool{}
	for _, a := range asked {
		reached[a.topic] = true
	}
	for _, a := range askedOfRings {
		reached[a.topic] = true
	}
	for _, s := range load(t, "testdata/tuning.json") {
		reached[Read(s.Say, Context{Addressed: true}).Topic] = true
	}
	for _, say := range basicQuestions {
		reached[Read(say, Context{Addressed: true}).Topic] = true
	}
	for say := range dangerousWishes {
		reached[Read(say, Context{Addressed: true}).Topic] = true
	}
	for _, s := range load(t, "testdata/tuning-k.json") {
		reached[Read(s.Say, Context{Addressed: true}).Topic] = true
	}
	for _, q := range knownQuestions() {
		reached[q.read.Topic] = true
	}
	for _, f := range knowledge.Facts() {
		assert.True(t, reached[f.Key], "nothing asks for %q", f.Key)
	}
	for _, s := range knowledge.Troubles() {
		assert.True(t, reached["trouble: "+s.Key], "nothing asks for trouble %q", s.Key)
	}
}

// basicQuestions reach what the tuning sentences and the table leave out.
var basicQuestions = []string{
	"what is a collet", "what is a bezel", "what is a collar", "what is a girdle", "what is a culet", "what is a pavilion", "what is a bearing",
	"what is a shank", "explain the k factor", "what is kerf", "what does lean mean", "what is annealing", "what is pickle", "what is flux",
	"what does quenching do", "what is work hardening", "what is springback", "what is gauge", "what is a cabochon", "what is a mandrel",
	"what is a sprue", "what does comfort fit mean", "what is a tube setting", "what is aspect ratio", "what is a halo",
	"whats the formula for a ring blank", "why is the seam at the point of a pear", "where should the seam go", "what gauge for a bezel",
	"what gauge for a collet", "what gauge for a ring", "is a wide band tighter, do i size up", "why did it turn copper colour in the pickle, all the silver",
	"my flats ripple in the block", "solder balled up", "solder jumped to one side", "the seam opened", "grey shadow on polished silver",
	"it cracked when i quenched the ring", "bezel wrinkled when i set it", "the stone rattles", "the stone doesnt fit", "there are pits in it",
	"what does 585 mean", "can a magnet tell if it is real silver", "what is a ronde", "what is a split ring", "can i boil my pickle", "what is a vulcaniser", "why does white gold need rhodium", "my dome split", "a prong broke", "wax stuck on the punch", "i melted my bezel", "my cone blank is twisted",
}

// A piece with its sizes is worked out: words of a fact beside it do not take
// its place.
func TestPieceIsWorkedOutNotExplained(t *testing.T) {
	for say, request := range map[string]string{
		"how do i work out the strip for an 18x13 oval cab, 28 ga bezel":                     "bezel",
		"how wide should the prongs be for a 10x8 oval, 20ga sterling":                       "prongs",
		"how many claws for a 7mm round, 0.8 sterling":                                       "prongs",
		"back plate thickness 0.8, bezel for a 14x10 oval cab, how much bigger is the plate": "bezel",
		"what thickness of bezel do i cut for a 16x12 oval cab in 26 ga":                     "bezel",
		"formula for the bezel of a 10x8 oval in 28 ga":                                      "bezel",
		"why is my tapered setting blank curved? oval 8x6, 4 deep, 22 ga sterling collet":    "collet",
		"what is the blank for a 6mm round collet in 20 ga":                                  "collet",
		"what blank do i need, oval 8x6 collet leaning 10 degrees each side, 22 ga":          "collet",
		"a flared collet for an 8mm round, 0.7 mm":                                           "collet",
		"4 prongs on a 5mm princess with sharp corners, 0.8 sterling":                        "prongs",
		"egg shaped cab 20x15, i want a 28 ga bezel":                                         "bezel",
		"what fan shape do i cut for a 6mm round in 22 ga":                                   "collet",
		"what is the melting point of sterling":                                              "heat",
		"what is the annealing temperature of brass":                                         "heat",
		"whats the flow point of hard solder":                                                "heat",
		"how much overlap, bezel for a 12 mm round cab, 4 mm high, 0.3 wall":                 "bezel",
		"how do i bend a ring, size 7 us, 1.5 mm thick, 4 mm wide":                           "band",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, request, r.Request, "%s -> %s", say, r.Topic)
	}
}

// "it" is the piece of the last answer, and no sign of another piece.
func TestItIsTheLastPiece(t *testing.T) {
	after := func(request string) Context {
		return Context{Addressed: true, Last: &Last{Request: request, Options: map[string]string{}}}
	}
	for _, c := range []struct{ last, say, topic string }{
		{"bezel", "it came out half a mm short", "trouble: strip too short"},
		{"bezel", "it wrinkles", "trouble: bezel wrinkles on setting"},
		{"collet", "mine came out egg shaped", "trouble: egg shaped"},
		{"dome", "it split", "trouble: dome split"},
		{"bezel", "ok and is that too thin for a ring", ""},
		{"collar", "do i quench that", ""},
		{"gauge", "is that thick enough for a collet", ""},
	} {
		r := Read(c.say, after(c.last))
		if c.topic == "" {
			assert.NotContains(t, r.Topic, "trouble", c.say)
			continue
		}
		assert.Equal(t, c.topic, r.Topic, c.say)
	}
}

// What is deadly is answered as such, however it is asked.
func TestWarningsBeforeRecipes(t *testing.T) {
	for say, topic := range map[string]string{
		"can i make up pickle with bleach":                       "bleach",
		"pickle isnt working, can i add some bleach":             "bleach",
		"my seam opened, can i bind it with galvanised wire":     "galvanised wire",
		"how do i mix a cyanide pickle":                          "cyanide",
		"im pregnant, how do i mix pickle":                       "pregnancy",
		"can i soak old asbestos board and cut it for soldering": "asbestos",
	} {
		assert.Equal(t, topic, Read(say, Context{Addressed: true}).Topic, say)
	}
}
