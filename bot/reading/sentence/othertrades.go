package sentence

import "strings"

// Things of other trades and of the home. A question about one of them shares a word with
// many topics of ours - nail varnish with the varnish on silver, a watch's movement with a
// drill - so that the thing itself, and nothing near it, says whose trade it is.

// othersThings name what no jeweller works on, each word as it is written: the stem of tired
// is that of a tire.
var othersThings = exactly(`gel nail,gel nails,acrylic nail,acrylic nails,gel polish,false nails,manicure,mascara,hair dye,tattoo,
	watch movement,mainspring,main spring,hairspring,eta 2824,miyota,wristwatch,wrist watch,pocket watch,watch battery,watch crystal,pendulum,cuckoo clock,grandfather clock,chronometer,
	goat,goats,sheep,lamb,ewe,cow,cows,horse,pony,hens,chickens,piglet,puppy,kitten,hamster,rabbit,parrot,budgie,goldfish,scours,fleas,hoof,farrier,my cat keeps,my dog keeps,
	tomato,tomatoes,potatoes,rose bush,my roses,blight,lawnmower,mower,compost,greenfly,aphids,slugs,seedlings,hedge trimmer,
	bake a cake,birthday cake,sourdough,boil an egg,fry an egg,poach an egg,chicken breast,brisket,gravy,curry,stew,marmalade,lasagne,risotto,custard,pancakes,cookies,barbecue,
	toothache,denture,dentures,root canal,tooth crown,wisdom tooth,insulin,
	gearbox,carburettor,carburetor,spark plug,clutch cable,brake pads,brake disc,tyre,tyres,tire pressure,exhaust pipe,engine oil,head gasket,motorbike,moped,fiesta,car battery,windscreen,windshield,lineset,heat pump,air conditioner,septic,
	dovetail,dovetails,mortise,tenon,oak table,walnut box,floorboards,skirting board,decking,chest of drawers,wardrobe,bookshelf,fingerboard,violin,cello,guitar,piano,ukulele,trumpet,
	zipper,broken zip,sewing machine,sawing machine,overlocker,quilt,quilts,yarn,cardigan,trousers,baby blanket,upholstery,
	mig,stick weld,weld rod,welding rod,tig on,end mill,feeds and speeds,feed and speed,milling cutter,rebar,
	wifi,wi fi,router password,phone wont charge,excel formula,spotify,netflix,facebook,snapchat,tiktok,whatsapp,
	out of a carpet,out of the carpet,mattress,wallpaper,paint a wall,ceramic mug,teapot handle,
	plane iron,hoof knife,chainsaw,lawn mower,chef knife,chefs knife,fishing rod,air rifle,shotgun,
	mortgage,passport,bus times,train times,rain on,snow tomorrow,cricket score,football score`)

// exactly are words and phrases of a list that are said only by themselves and not by others
// of their stems.
func exactly(list string) (all []string) {
	for _, w := range strings.Split(list, ",") {
		all = append(all, "="+strings.TrimSpace(w))
	}
	return all
}

// oursBeside are words of the bench that take such a thing back into the trade: a tag for a
// dog is silver, tin snips are not for a hedge, an egg makes a patina.
var oursBeside = []string{"silver", "gold", "copper", "brass", "bronze", "platinum", "palladium", "pewter", "titanium", "argentium", "jewellery", "jewelry", "jeweller", "jeweler", "ring", "bezel", "collet", "claw", "prong", "stone", "gem", "cab", "cabochon", "opal", "turquoise", "pearl", "diamond", "sapphire", "ruby", "garnet", "amber", "malachite",
	"pendant", "brooch", "earring", "earrings", "bracelet", "bangle", "necklace", "charm", "locket", "cufflink", "solder", "soldering", "anneal", "annealing", "pickle", "flux", "quench", "patina", "etch", "etching", "resist", "engrave", "burs", "bur", "rivet", "enamel", "tumbler", "tripoli", "rouge", "dapping", "doming", "mandrel", "workshop", "studio", "guild", "torch", "fumes", "dust", "resin", "casting", "wax", "lug", "bench", "class", "students", "sheet", "setting for", "weigh", "file", "saw blade", "saw frame", "blank", "disc", "dome", "kiln", "finger", "knuckle", "hand", "binding", "shape", "shaped", "like a", "string goes", "goes round"}

// watchWork are words of a watch that is to be mended, told or opened: "watch" by itself is
// a verb too, and its case and strap are metal.
var watchWork = []string{"movement", "loses", "gains", "regulate", "battery", "antique", "genuine", "dial", "winding", "wind it", "stopped", "ticking", "ticks", "crystal", "serial number", "hands", "open the back", "service", "servicing", "runs slow", "runs fast", "seconds"}

// ofOtherTrade is the topic of what a thing of another trade has shown to be none of ours.
const ofOtherTrade = "of another trade"

// otherTrade declines a question about a thing of another trade, in one sentence.
func (m *message) otherTrade() (Reading, bool) {
	if c := m.context; m.figureCount() > 0 && (c.Last != nil || c.Asked != nil) {
		return Reading{}, false // it goes on: "22.5 round her hand with the yarn"
	}
	if m.hasPiece() || len(m.alloys) > 0 || !m.asksOfOthersThing() || m.says(oursBeside...) {
		return Reading{}, false
	}
	m.useAll()
	return Reading{Outcome: Declined, Topic: ofOtherTrade, Text: notMyTrade}, true
}

// asksOfOthersThing reports whether a thing of another trade is asked about.
func (m *message) asksOfOthersThing() bool {
	if !m.asks() && !m.says("anything for", "any ideas", "any tips", "help", "wont", "keeps") {
		return false
	}
	return m.says(othersThings...) || m.says("my watch", "a watch", "the watch", "this watch", "husbands watch", "wifes watch", "dads watch", "fathers watch", "old watch", "movement") && m.says(watchWork...) && m.says("watch", "eta", "regulate", "caliber", "calibre")
}
