package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// askedOfRings are ways in which members ask what is known of jump rings, resizing,
// tube settings, halos, saddles and bands, by the topic that must be found. They
// were written apart from the words that find them.
var askedOfRings = []struct {
	topic   string
	phrases []string
}{
	{"length of a jump ring", []string{"for jump rings do i measure to the inside or outside of the wire", "formula for jump ring wire length?"}},
	{"springback of a coil", []string{"my coil springs open when i take it off the mandrel, jump rings too large", "why are my jump rings bigger than the mandrel"}},
	{"saw or cutters for jump rings", []string{"should i saw jump rings or use flush cutters", "jump rings: saw cut or pinch cut, whats the difference"}},
	{"oval jump rings", []string{"how do i make oval jump rings", "can you do oval jump rings"}},
	{"square wire jump rings", []string{"jump rings out of square wire, anything different", "does square wire work for jump rings"}},
	{"twisted wire jump rings", []string{"jump rings from twisted wire, how much longer", "i want twisted jump rings"}},
	{"jump ring through a hole", []string{"what jump ring goes through a charm with a hole near the edge", "jump ring for a thick pendant, hole close to the edge, what size"}},
	{"wire for jump rings", []string{"what gauge jump rings for a charm bracelet", "which wire is strong enough for a keyring jump ring"}},
	{"jump ring over a cord", []string{"jump ring that slides over leather cord", "what jump ring for a 3mm rubber cord"}},
	{"temper of jump rings", []string{"should jump rings be half hard or dead soft", "my jump rings pull open, do i need to harden them"}},
	{"jump ring ends overlap", []string{"jump rings wont close flush, the ends are offset", "why do the ends of my jump rings not line up"}},
	{"jump rings all of one size", []string{"i make jump rings by hand with round nose pliers and they are all different sizes", "how do i get jump rings all the same size"}},
	{"g on a wire reel", []string{"jump ring wire reel says 30g, is that gram or gauge", "wire for jump rings marked 50g, does that mean gauge"}},
	{"rings in a weave", []string{"how many rings per inch of byzantine", "european 4 in 1, roughly how many rings"}},
	{"closing a jump ring", []string{"how do you close a jump ring neatly", "best way to close jump rings"}},
	{"loop in loop chain", []string{"what size rings for loop in loop chain", "how much wire does loop in loop take"}},
	{"sizing platinum", []string{"can i solder platinum when i size a ring", "resizing a platinum ring, weld or solder"}},
	{"reducing a ring", []string{"does a reducing plate work on a plain band", "compress a ring instead of cutting it"}},
	{"cab in a tube", []string{"can i set a cab in a tube", "cabochon in a piece of tube, what bur"}},
	{"circle of a saddle", []string{"saddle: inside or outside of the ring", "do i saddle to the inner or outer circle of the shank"}},
	{"size of a stack", []string{"stacking rings worn together, same size", "do stackers need to go up a size"}},
	{"bottom of a tube setting", []string{"tube setting, open or closed at the bottom", "do i leave a tube set stone closed at the bottom"}},
	{"saddle on a bangle", []string{"saddle for a bezel on a bangle", "scooped base for a setting on a cuff"}},
	{"thickness of a wide ring", []string{"how thick should a wide ring be", "what gauge for a wide band"}},
	{"chain of two ring sizes", []string{"chain with big and small jump rings alternating", "jump ring chain, every other one a large one"}},
	{"size of a jump ring", []string{"how are jump rings measured", "jump ring sizes, is it id or od"}},
	{"mandrel for jump rings", []string{"what can i use as a mandrel for jump rings", "jump rings: what to wind them on"}},
	{"rings that cannot be sized", []string{"can you resize a tungsten ring", "stainless steel ring resize possible?"}},
	{"sizing near a delicate stone", []string{"resize ring with an opal in it", "can i size a pearl ring without removing the pearl"}},
	{"sizing a wide band", []string{"wide band a half size up, should i stretch it or cut it", "sizing a wide ring: roll it or insert a piece"}},
	{"piece for a tapered shank", []string{"ring shank tapers, how wide is the piece to let in", "resize a tapered shank, what width piece"}},
	{"setting opens when sized", []string{"after i sized the ring down the claws opened and stones are loose", "sizing made the stone in the prong setting come loose"}},
	{"stones along the shank", []string{"can a channel set ring be resized", "resize an eternity ring"}},
	{"wrong size after sizing", []string{"i cut out 2 mm but the ring ended up only half a size down", "resized ring came out the wrong size"}},
	{"sizing beads", []string{"big knuckle thin finger, sizing beads or a ring guard", "what about sizing balls inside the ring for arthritis"}},
	{"solder for sizing", []string{"what solder for resizing a silver ring", "which solder do i use to size a gold ring"}},
	{"where to cut a ring", []string{"where do i cut the ring to size it", "resizing, cut at the old seam or somewhere else"}},
	{"indian ring sizes", []string{"resize from indian size 14 to 16", "my ring is an indian size 12, make it smaller"}},
	{"sizing a signet ring", []string{"resize a signet ring, will the head crack", "sizing a heavy signet, will the engraving distort"}},
	{"sizing plated rings", []string{"can i resize a gold plated ring", "resizing a vermeil ring"}},
	{"saw cut when sizing", []string{"sizing down do i allow for the saw blade", "resize: does the kerf of the saw count"}},
	{"sizing a spoon ring", []string{"how do i resize a spoon ring", "spoon ring is too big"}},
	{"sizing a hollow ring", []string{"how to resize a hollow ring", "hollow ring too small, cut it?"}},
	{"thickness when sizing", []string{"when resizing does the thickness matter", "resizing: do i count the thickness of the shank in it"}},
	{"how far to stretch a ring", []string{"how far can you stretch a silver ring", "how much can i stretch a band before it thins"}},
	{"ring out of round after sizing", []string{"ring is out of round after sizing", "how do i true it round again after resizing the ring"}},
	{"how often can a ring be sized", []string{"how many times can a ring be resized", "does resizing a ring make it weaker"}},
	{"measure before sizing", []string{"i want to resize a ring but dont know my size, how do i measure", "how do i know what size the ring is before resizing"}},
	{"sizing with a different gold", []string{"sizing with a different gold, will the colour match of the piece show", "resize a gold ring with a piece of lower karat"}},
	{"stepping the piece in", []string{"how do i hold the piece in the gap when sizing a ring up", "sizing up, piece falls out before it is soldered"}},
	{"tube for a stone", []string{"how do i choose tube for tube setting", "rule of thumb for tube setting sizes"}},
	{"seat depth in a tube", []string{"how deep do i cut the seat for a stone in a tube", "tube setting: how far down should the girdle sit"}},
	{"metal over the girdle in a tube", []string{"tube setting, how much metal above the girdle", "how much rim to push over in a tube setting"}},
	{"height of a tube setting", []string{"how tall should a tube setting be", "tube set stud, how long should the tube be so the culet doesnt poke"}},
	{"seat too deep in a tube", []string{"i cut the tube seat too deep", "the stone sank and sits below the rim of its tube"}},
	{"bur for a tube", []string{"what size bur for tube setting", "tube setting: same size bur or smaller bur than the stone"}},
	{"tube wall thin or ragged", []string{"tube got paper thin when i cut the seat for the stone", "seat in the tube came out ragged"}},
	{"pearl in a tube", []string{"tube set a pearl", "can an opal be set in a tube"}},
	{"oval tube", []string{"tube setting for an oval stone", "can i tube set a square stone"}},
	{"drill your own tube", []string{"make a tube setting from solid rod", "can i drill my own tube for a stone from bar"}},
	{"drawing a tube", []string{"draw down a tube for tube setting with a drawplate", "drawplate for tube and stone settings, how small can i draw it"}},
	{"tall tube settings", []string{"tall tube setting on a ring, will it tip over", "is a tall tube set stone stable"}},
	{"stone turns in its tube", []string{"stone spins in the tube setting", "tube set stone rattles"}},
	{"holding a tube", []string{"how do i hold a tube while i cut the seat for the stone", "what do you grip a tube setting in"}},
	{"closing a tube", []string{"how do i burnish a tube setting closed", "what punch closes a tube over the stone"}},
	{"temper of tube", []string{"do i anneal the tube before setting the stone", "tube setting, half hard or soft tube"}},
	{"sawing tube straight", []string{"cut tube settings square", "how do i saw straight ends on tube settings"}},
	{"wall of a tube", []string{"how thick should the wall of a tube setting be", "tube setting, what wall thickness"}},
	{"soldering a tube on", []string{"how do i solder a tube setting to a ring", "attach tube settings to a plate"}},
	{"double halo", []string{"how do i lay out a double halo", "a halo with two rows"}},
	{"stones in the corners of a halo", []string{"halo round a square, a stone in each corner", "how do i keep a stone in the corners of a cushion halo"}},
	{"plate of a halo", []string{"how thick is the plate for a halo", "halo, what thickness of sheet"}},
	{"gap left in a halo", []string{"the halo doesnt come out even", "there is half a stone gap left over in my halo"}},
	{"graduated halo", []string{"halo with graduated stones", "stones in the halo getting bigger towards the tip"}},
	{"weight of small stones", []string{"total carat weight of a halo of small diamonds", "how many carats are the melee in a halo"}},
	{"stones that are not round in a halo", []string{"halo of baguettes", "a halo with princess stones"}},
	{"edge of a halo", []string{"how much metal outside the stones of a halo", "halo border, what margin"}},
	{"height of a halo", []string{"should the halo sit above or below the centre stone", "how high is a halo relative to the girdle"}},
	{"drill for small stones", []string{"what hole do i drill for halo stones", "drill and bur for pave stones in a plate, how deep"}},
	{"beads or prongs of a halo", []string{"halo stones: shared beads or prongs", "how are the stones of a halo held"}},
	{"depth of a saddle", []string{"formula for the depth of a saddle", "how do i calculate how deep a saddle is"}},
	{"flat base on a shank", []string{"saddle or file a flat on the ring for a bezel with a flat back", "flat backed cab bezel on a round shank"}},
	{"setting came off the shank", []string{"my bezel came off the shank", "the setting fell off the ring shank, it was only touching at one point"}},
	{"holding a setting for soldering", []string{"how do i hold the setting on the shank to solder it", "bezel slides on the shank while soldering", "how to hold the collet so it stays put while soldering to the shank"}},
	{"along or across the shank", []string{"oval setting on a shank, which way should it lie", "saddle: east west or north south"}},
	{"saddle on an oval or other section", []string{"how do i saddle to an oval section shank", "saddle for a knife edge shank"}},
	{"setting between the shank's ends", []string{"can i cut the shank and put the collet between the ends", "let the setting into the shank instead of a saddle"}},
	{"saddling a dome", []string{"saddle a dome to a ring", "how does a half ball sit on a ring shank, what curve"}},
	{"tools for a saddle", []string{"which file do i use for a saddle", "how do i cut a saddle"}},
	{"half-round and flat", []string{"is the length different for half round wire than flat", "half round ring, shorter than flat?"}},
	{"twisted ring", []string{"ring from two twisted wires", "how long for a twisted rope ring"}},
	{"which profile wears best", []string{"court or flat band, which feels better", "comfort fit vs d shape"}},
	{"knife edge band", []string{"knife edge ring, how long a blank", "triangular section ring"}},
	{"hinged bangle", []string{"hinged bangle, cut in two halves?", "bangle with a hinge"}},
	{"open bangle", []string{"open cuff, how big a gap", "torque bangle length"}},
	{"expanding bangle", []string{"how do i make an expanding bangle", "christening bangle that slides, expandable"}},
	{"bevelled band", []string{"ring with bevelled edges", "chamfered band"}},
	{"russian wedding rings", []string{"russian wedding ring, what size", "three interlocking rings for a size N finger"}},
	{"oval section on edge", []string{"ring from oval wire on edge", "bend a ring the hard way"}},
}

func TestTalkOfRingsIsFound(t *testing.T) {
	for _, a := range askedOfRings {
		for _, say := range a.phrases {
			r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
			assert.Equal(t, a.topic, r.Topic, "%s -> %s %s", say, r.Line(), r.Ask)
		}
	}
}
