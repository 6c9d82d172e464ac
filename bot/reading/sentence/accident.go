package sentence

import (
	"regexp"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// accident is one kind of harm told by words in any order and with slips of the
// keyboard. Each group of words must be said by one of its words; near puts a
// harm within so many words of a part of the body that is somebody's.
type accident struct {
	// job is the first aid's name in the request cautions.
	job string
	// says are groups of words or short phrases; one of each must be said.
	says [][]string
	// harms, where set, must stand near somebody's part of the body.
	parts, harms []string
}

var (
	limbs     = strings.Fields("finger fingers forefinger forefingers fingertip fingertips pinky pinkie index hand hands thumb thumbs thumbnail fingernail nail arm arms forearm elbow leg legs shin thigh thighs foot feet toe toes face cheek chin forehead nose lip lips tongue mouth ear neck throat chest belly stomach knee lap wrist wrists palm palms knuckle knuckles skin scalp head paw self myself himself herself themselves yourself")
	sight     = strings.Fields("eye eyes eyeball eyelid eyelids")
	corrosive = strings.Fields("acid pickle flux patina liver ferric chloride nitric sulfuric sulphuric muriatic hydrochloric hydrofluoric aqua chemical chemicals caustic lye bleach ammonia etchant etching mordant bichromate borax solvent acetone superglue cyanide")
	airborne  = strings.Fields("fume fumes smoke smell smelling smelled stink gas vapour vapor vapours vapors pickle acid solder soldering soldered melting melted casting cast pouring workshop studio burnout kiln brass bronze zinc galvanised galvanized cadmium liver patina torch bench flux enamel enamelling dust investment sulfur sulphur bleach chlorine propane butane acetylene nickel dremel resin plaster spray")
	owners    = strings.Fields("my his her their our your the a an one both left right own students student kids kid childs sons daughters wifes husbands dads moms mums friends mates colleagues apprentices teachers dogs cats guys girls boys someones somebodys classmates partners neighbours mine little middle index ring pinky bare whole entire index of")
	pieceName = strings.Fields("ring rings band shank bezel collet blank setting strip wire sheet tube stone size fit gloves glove guard safe need wear wearing should tool tools held hold")
)

// persons are people whom a message may tell of as hurt.
var persons = strings.Fields("he she hes shes friend student teacher colleague kid boy girl man woman husband wife son daughter mum dad someone somebody er sie il elle él ella apprentice")

// accidents are tried in this order. A kind that kills or blinds comes first.
var accidents = []accident{
	{job: "shock", says: [][]string{{"touched", "touching", "grabbed"}, {"kiln element", "heating element", "kiln wire", "kiln wires", "live wire", "live wires", "bare wire", "bare wires", "the mains", "the terminals"}, {"jolt", "zap", "zapped", "shock", "down", "thrown", "tingles", "tingling", "heart", "breathing", "collapsed", "floor", "numb"}}},
	{job: "hurt", says: [][]string{{"twitching", "having a seizure", "has a seizure", "had a seizure", "convulsing", "isnt responding", "is not responding", "not responding", "doesnt respond", "does not respond", "wont wake up", "not waking up", "isnt waking up", "cant wake him", "cant wake her", "unresponsive", "unconscious", "out cold", "reagiert nicht", "ne répond pas", "no responde"}, persons}},
	{job: "hurt", says: [][]string{{"on the floor", "on the ground", "lying", "collapsed", "fell down"}, {"doesnt answer", "does not answer", "not answering", "isnt answering", "wont answer", "doesnt move", "does not move", "not moving", "isnt moving"}, persons}},
	{job: "hurt", says: [][]string{{"sting", "stung", "bee", "wasp", "hornet", "allergic"}, {"throat", "tongue", "lips", "breathe", "breathing", "face is swelling", "face swelling"}}},
	{job: "hurt", says: [][]string{{"hit me in the head", "hit him in the head", "hit her in the head", "hit me on the head", "hit him on the head", "hit her on the head", "struck him on the head", "struck her on the head", "struck me on the head", "hit my head", "hit his head", "hit her head", "hit head on", "bumped my head", "bumped his head", "bumped her head", "banged my head", "banged his head", "banged her head", "concussed", "concussion", "clutching his chest", "clutching her chest", "holding his chest", "fell off the ladder", "fell off a ladder", "fell off the stool", "fell off my stool", "fell down the stairs", "broke my wrist", "broken my wrist", "broke my arm", "broken my arm", "sprained my wrist", "sprained my ankle", "twisted my ankle", "dislocated my thumb", "dislocated my finger"}}},
	{job: "eyes", says: [][]string{{"superglue", "super glue", "glue", "glued", "epoxy", "resin"}, {"eyelid", "eyelids", "eyelash", "eyelashes", "my lashes", "her lashes", "his lashes", "eyes shut", "eye shut"}}},
	{job: "eyes", parts: sight, harms: strings.Fields("in into got get gets went go goes flew flicked popped shot jumped bounced splash splashed splashes splashing spray sprayed squirted spat spit burn burns burned burnt burning sting stings stinging stung hurt hurts hurting sore pain painful itch itches itchy itching watering weeping streaming poke poked hit red swollen swelled gritty scratchy scratched blurry blurred blind blinded something bit acid pickle flux metal splinter sliver shard chip dust flake rubbed rubbing open stuck dripped")},
	{job: "eyes", says: [][]string{{"blew", "blew up", "blown", "exploded", "burst", "popped", "spat", "spit", "went off", "went bang", "shattered"}, {"in my face", "in his face", "in her face", "into my face", "in their face", "in my eyes", "over my face", "got my face"}}},
	{job: "fumes", says: [][]string{corrosive, {"up my nose", "up his nose", "up her nose", "in my nose"}}},
	{job: "fumes", says: [][]string{{"student collapsed", "he collapsed", "she collapsed", "someone collapsed", "somebody collapsed", "pale and collapsed", "has collapsed", "student fainted", "student passed out", "tongue feels metallic", "tongue tastes metallic", "drunk from the fumes", "catching my breath", "catching her breath", "catching his breath", "metallic taste", "metal taste", "taste of metal", "tastes of metal"}}},
	{job: "swallowed", says: [][]string{{"swallowed", "swallow", "swallows", "swallowing", "ingested", "gulped"}}},
	{job: "swallowed", says: [][]string{
		{"ate", "eaten", "drank", "drunk", "drinking", "licked", "licking", "sip", "sips", "sipped", "gulp", "gulps", "swig", "mouthful", "mouthfuls", "chewed", "in his mouth", "in her mouth", "in my mouth", "in their mouth", "in its mouth"},
		append(slices.Clone(corrosive), strings.Fields("solder bead beads stone crystals crystal powder solution metal wax pellets filings polish rouge compound jar cup mug glass some")...)}},
	{job: "swallowed", says: [][]string{{"ate", "eaten", "chewed", "gulped down"}, strings.Fields("dog cat puppy kitten baby toddler child kid grandson granddaughter"), strings.Fields("ring earring earrings charm chain pendant stud bead brooch clasp magnet")}},
	{job: "fumes", says: [][]string{{"breathed", "inhaled", "inhaling", "gassed", "lungful", "cant breathe", "cannot breathe", "not breathing", "struggling to breathe", "difficulty breathing", "trouble breathing", "hard to breathe", "out of breath", "short of breath", "cant catch my breath", "cant catch her breath", "cant catch his breath", "carbon monoxide poisoning", "unconscious"}}},
	{job: "fumes", says: [][]string{
		{"passed out", "fainted", "fainting", "faint", "collapsed", "dizzy", "dizziness", "woozy", "nauseous", "nausea", "vomiting", "vomited", "throwing up", "threw up", "puking", "wheezing", "wheezy", "coughing", "cough", "choking", "tight chest", "chest is tight", "chest tightness", "breathing is tight", "breathing feels tight", "breathing tight", "breathing got tight", "made me sick", "made me ill", "made her sick", "made him sick", "making me sick", "makes me sick", "making me ill", "chest feels tight", "chest feels", "chest hurts", "chest pain", "my chest", "headache", "headaches", "head hurts", "head is pounding", "feel ill", "feel sick", "feeling sick", "feels sick", "felt sick", "felt ill", "went dizzy", "feeling rough", "feeling awful", "feeling funny", "feeling weird", "feeling faint", "feel faint", "feel rough", "feel awful", "feel terrible", "feels ill", "feeling ill", "feeling unwell", "feel unwell", "feel funny", "feel weird", "lightheaded", "light headed", "head spins", "head is spinning", "feel drunk", "feeling drunk", "feel high", "fever", "feverish", "shaky", "feeling shivery", "hot and cold", "sweating", "aching all over", "chills", "shivering", "shivery", "flu", "flulike", "throat burns", "throat hurts", "throat is burning", "throat is raw", "sore throat", "my throat", "my lungs", "her lungs", "his lungs", "lungs hurt", "metallic taste", "metal taste", "sweet taste", "bad taste"},
		airborne}},
	{job: "burn", says: [][]string{{"on fire", "caught fire", "catches fire", "catch fire", "catching fire", "caught alight", "set alight", "set fire to my sleeve", "set fire to my hair", "set my hair"}, strings.Fields("my her his their him me hair sleeve apron shirt clothes clothing jumper scarf beard student kid she he someone somebody i")}},
	{job: "cut", parts: limbs, says: [][]string{{"wrapped round my", "wrapped around my", "wrapped round his", "wrapped round her", "tight round my", "caught round my", "wound round my", "stuck on my", "stuck on his", "stuck on her", "cant get it off my"}, {"gone white", "going white", "gone blue", "going blue", "gone purple", "going purple", "swelling", "swollen", "numb", "grabbed", "pulled"}}, harms: strings.Fields("wrapped wound stuck grabbed pulled caught gone going white blue purple swelling swollen numb")},
	{job: "burn", parts: limbs, says: [][]string{{"hot", "molten", "melted", "boiling"}, {"down my", "down his", "down her", "on my", "on his", "on her", "over my", "over his", "over her", "onto my"}, {"wax", "metal", "silver", "gold", "solder", "pitch", "water", "flux", "casting", "investment"}}, harms: strings.Fields("hot molten melted boiling wax metal silver gold solder pitch water flux")},
	{job: "fumes", says: [][]string{{"fuming", "its fuming", "filling with fumes", "fumes everywhere", "is smoking", "brown smoke", "brown gas", "yellow gas", "brown fumes"}, {"acid", "nitric", "sulphuric", "sulfuric", "bleach", "pickle", "chlorine", "aqua regia"}, {"now", "kitchen", "room", "help", "everywhere", "what do i", "went", "gone"}}},
	{job: "burn", parts: limbs, says: [][]string{{"hot", "molten", "melted", "glowing"}, {"borax", "flux"}}, harms: strings.Fields("hot molten melted glowing borax flux")},
	{job: "skin", parts: limbs, harms: corrosive, says: [][]string{{"on my", "on his", "on her", "on their", "on the", "on me", "on him", "on both", "on fingers", "on hands", "on hand", "on skin", "on face", "on feet", "all over", "over my", "over his", "over her", "onto my", "onto", "down my", "down his", "down her", "splashed", "splash", "spilled", "spilt", "spill", "dripped", "soaked", "sprayed", "squirted", "dunked", "stings", "stinging", "burns", "burning", "burned", "burnt", "itching", "itchy", "tingling", "numb", "peeling", "turned white", "gone white", "red and", "blisters", "blistered", "got"}}},
	{job: "burn", parts: limbs, harms: strings.Fields("burned burnt burnd burn burns burning scald scalded scalds blister blisters blistered blistering singed seared charred cooked roasted fried")},
	{job: "burn", parts: limbs, says: [][]string{{"hot", "red hot", "molten", "melted", "glowing", "torch", "flame", "wax", "soldering iron", "kiln", "boiling", "steam", "flask", "crucible", "hotplate"}, {"on my", "on his", "on her", "under molten", "under the torch", "got my", "got his", "got her", "drop of", "blob of", "grabbed", "touched", "picked up", "picked it up", "picked", "dropped", "fell", "landed", "dripped", "spilled", "spilt", "poured", "splashed", "ran over", "brushed", "caught", "went over", "went on", "went onto", "went all over", "went down", "ran down", "stuck to", "got on", "got onto"}}, harms: strings.Fields("hot molten melted glowing torch flame wax iron kiln steam boiling flask crucible hotplate")},
	{job: "burn", says: [][]string{{"touched", "grabbed", "picked up", "picked", "gripped"}, {"hot", "red hot", "molten", "glowing", "before it was cold", "before it cooled", "before it had cooled", "before it was cool"}, {"my hand", "hand", "palm", "finger", "fingers", "thumb", "bare hands", "skin"}, {"i", "my", "she", "he", "her", "his", "student", "kid", "touched"}}},
	{job: "cut", says: [][]string{{"sliced me", "stabbed me", "gashed me", "jabbed me", "cut me", "hit me in the face", "hit him in the face", "hit her in the face", "got cut by", "cut by the disc", "cut by the saw", "cut by the shear", "cut by the guillotine", "cut by the blade", "cut by sheet", "pinched skin", "knocked out by", "took the skin off", "nail gone black", "nail has gone black", "nail went black", "nail turned black", "nail gone purple", "skinned my", "skinned his", "skinned her", "grazed my", "hole in hand", "hole in my hand", "hole in my finger", "hole in his hand", "hole in her hand", "hole in my palm", "hole in my leg"}}},
	{job: "cut", says: [][]string{{"tip of finger", "tip of my finger", "tip of his finger", "tip of her finger", "fingertip", "fingernail", "thumbnail", "nail"}, {"gone", "ripped off", "torn off", "hanging off", "hanging by", "sliced off", "chopped off", "missing"}}},
	{job: "cut", says: [][]string{limbs, {"rolled my", "rolled his", "rolled her", "fed my", "put my finger", "put his finger", "ran my finger", "stuck my finger"}, strings.Fields("mill rollers rolls press shear guillotine motor wheel")}},
	{job: "cut", says: [][]string{{"slipped", "jumped", "skidded", "kicked back", "flew off", "snapped"}, {"got my", "got his", "got her", "hit my", "hit his", "hit her", "into my", "onto my", "into his", "into her", "through my"}, limbs}},
	{job: "cut", says: [][]string{strings.Fields("thumb nail toe hand fingernail thumbnail"), {"going black", "gone black", "turned black", "went black", "going blue", "gone blue", "turned blue", "going purple", "gone purple", "turned purple"}, strings.Fields("hammer mallet press vice mill hit after dropped anvil punch")}},
	{job: "cut", says: [][]string{{"bleeding", "bleeds", "bled", "gushing", "pouring blood", "blood everywhere", "so much blood", "all bloody", "hand is bloody", "finger is bloody", "thumb is bloody", "blood", "need stitches", "needs stitches", "tetanus", "severed", "amputated", "fingertip off", "tip of my finger", "tip of his finger", "tip of her finger", "scalped"}}},
	{job: "burn", says: [][]string{
		{"touched", "grabbed", "picked up", "picked it up", "took hold of", "leaned on", "leant on", "sat on", "put my hand on", "rested my hand on"},
		{"too soon", "thought it was cold", "thought was cold", "thought it was cool", "thought was cool", "still hot", "bare handed", "barehanded", "bare hands", "forgot it was hot", "didnt realise it was hot", "hadnt cooled", "not cooled"},
		{"ow", "oww", "ouch", "argh", "finger", "fingers", "fingertip", "fingertips", "thumb", "hand", "palm", "hurts", "white", "red", "stings", "skin"}}},
	{job: "burn", says: [][]string{{"sat on", "leaned on", "leant on", "leaned against", "leant against", "stepped on", "trod on", "knelt on", "touched"}, {"hot brick", "hot tweezers", "hot tongs", "hot kiln", "hot flask", "hot crucible", "hot ingot", "hot plate", "hot ring", "hot piece", "hot metal", "hot end", "wrong end", "the kiln", "the flask", "the crucible", "the muffle", "molten", "red hot", "the hotplate"}, {"i", "my", "she", "he", "student", "kid", "me", "sat", "leaned", "leant", "picked", "grabbed", "stepped", "touched"}}},
	{job: "burn", says: [][]string{{"grabbed", "picked up", "caught hold of", "took hold of"}, {"hot brick", "hot tweezers", "hot tongs", "hot flask", "hot crucible", "hot ingot", "hot plate", "hot ring", "hot piece", "hot metal", "hot end", "wrong end", "red hot"}, {"i", "my", "she", "he", "student", "kid", "me", "grabbed", "picked"}}},
	{job: "burn", says: [][]string{{"steam burn", "steam burns", "burn from", "burns from", "burn on my", "burn on his", "burn on her"}, append([]string{"steam burn", "steam burns", "i have a", "ive got a", "i got a", "got a"}, limbs...)}},
	{job: "skin", says: [][]string{corrosive, {"in a cut", "in the cut", "in my cut", "into a cut", "into the cut", "into my cut", "in an open cut", "in a graze", "in a scratch", "in a wound", "in the wound", "in an open wound", "in a blister"}, {"got", "went", "stings", "stinging", "burns", "burning", "hurts", "ouch", "my", "his", "her", "i have"}}},
	{job: "cut", says: [][]string{{"grabbed", "caught", "pulled", "snatched", "wound up"}, {"round my finger", "around my finger", "round his finger", "round her finger", "round my hand", "around my hand", "round my thumb", "around my thumb", "around his finger", "around her finger"}, {"wheel", "buff", "polisher", "motor", "drill", "flexshaft", "flex shaft", "lathe", "mill", "mop", "chain", "thread", "string", "glove"}}},
	{job: "burn", says: [][]string{{"i have a blister", "ive got a blister", "got a blister", "got blisters", "blister on my", "blisters on my", "blister on his", "blister on her", "a blister from", "blisters from"}}},
	{job: "burn", says: [][]string{{"singed", "frizzled"}, {"eyelashes", "eyebrows", "eyebrow", "hair", "beard", "face", "fringe", "moustache", "arm"}}},
	{job: "burn", says: [][]string{{"blew", "blew up", "exploded", "burst", "went bang", "went off"}, {"got my", "got me", "hit my", "hit me", "all over me", "over my legs", "on my legs", "on me"}}},
	{job: "burn", says: [][]string{{"ow", "oww", "ouch", "argh", "aargh"}, {"hot", "torch", "flame", "soldering", "kiln", "crucible", "brick", "ingot", "molten", "burnout"}}},
	{job: "burn", says: [][]string{{"molten", "melted", "hot wax", "hot metal", "hot silver", "hot brass", "hot copper", "hot gold", "hot piece", "hot ring", "hot solder", "hot scrap", "hot offcut", "still hot", "red hot", "glowing"}, {"in my shoe", "into my shoe", "in his shoe", "into his shoe", "in her shoe", "into her shoe", "in my boot", "into my boot", "into his boot", "into her boot", "down my boot", "down my shirt", "down my sleeve", "down his sleeve", "down her sleeve", "in my lap", "in my sock", "down my neck", "down my back", "through my shoe", "through my sock", "through his shoe", "onto my shoe"}}},
	{job: "burn", says: [][]string{{"spark", "sparks", "ember", "hot chip", "hot bit", "bead of solder"}, {"down my glove", "down my shirt", "in my shoe", "down my neck", "into my glove", "in my glove", "on my hand", "on my arm", "on my leg", "on my neck", "down my sleeve", "down her glove", "down his glove", "down her neck", "down his neck"}}},
	{job: "cut", says: [][]string{{"dropped", "drop", "fell", "landed", "fallen"}, {"on my toe", "on my toes", "on my foot", "on his foot", "on her foot", "on his toe", "on her toe", "on my hand", "on her hand", "on his hand", "on my fingers"}}},
	{job: "cut", says: [][]string{limbs, {"caught in", "pulled in", "pulled into", "dragged into", "sucked into", "went into", "trapped in", "stuck in", "jammed in", "jammed into", "pinched in", "squashed in", "crushed in", "caught between", "trapped between", "jammed between", "pinched between", "got in", "went in", "in between"},
		strings.Fields("mill rollers rolls press motor wheel polisher buffer buff shear guillotine lathe drawbench grinder jaws spindle belt")}},
	{job: "cut", says: [][]string{{"hair", "ponytail", "scarf", "sleeve"}, {"caught in", "got caught", "pulled in", "pulled into", "sucked into", "sucked in", "wrapped round", "wrapped around", "tangled in", "wound round", "wound into"}, strings.Fields("polisher motor wheel drill mill lathe spindle buff buffer flexshaft dremel grinder")}},
	{job: "cut", says: [][]string{{"caught my hair", "caught her hair", "caught his hair", "caught my sleeve", "caught her sleeve", "caught his sleeve", "caught my scarf", "caught my plait", "hair went into", "hair got into", "sleeve went into"}, strings.Fields("polisher polishing motor wheel drill mill lathe spindle buff buffer flexshaft dremel grinder")}},
	{job: "cut", says: [][]string{strings.Fields("hair sleeve scarf necklace glove gloves apron ponytail"), {"caught in", "got caught", "pulled in", "pulled into", "wrapped round", "wrapped around", "sucked into", "ripped out", "tangled in", "torn out"}, {"my", "her", "his", "their", "she", "he", "someone", "student", "i"}}},
	{job: "cut", parts: limbs, harms: strings.Fields("stapled cut cuts sliced slice slicing slashed slit stab stabbed jabbed gouged gashed gash poked punctured pierced impaled nicked sawed sawn drilled drill skewered crushed squashed squished pinched trapped mashed smashed smacked whacked hammered hit jammed broken broke fractured swollen swelling swelled throbbing numb embedded lodged splinter splinters sliver slivers shard needle graver bit stuck through under ripped torn wound bruised bruise purple")},
}

// slips are words that look like a slip for a word of harm and are none.
var slips = map[string]bool{}

func init() {
	for _, w := range strings.Fields("buried burring burred burrs shallow shallower hands bands finder stubbed burner burners burnish burnished crashed slides slicer sawing breather pouring chopped blending breeding painted silver silvers cooking cracked scalped brushed alright blaster castings cooled crooked flames glassy gravers healed heated bloody inches investments livers locking passes packed poking punched rounds scales sealed shared sliding spelling though string strings snipped snip snips skipped slipped shipped clipped flipped tipped dipped stripped linked linking scared roller stopped chipped falling shears pierce fusing kinked growing masking coiled graded swings swinging strung smeared rusted tapped stacked selling seated leaked inhaler glazed eyewash anklet storing pocked plater messing leaden invested rented cropped drooped banned spelled rippled ribbing sheared steaming swearing screaming laying feeding difficult hearing stinks stinky buffed") {
		slips[w] = true
	}
}

// accidentWords are the words of accidents of five letters or more, to which slips
// are mended, by their first letters.
var accidentWords = func() map[byte][]string {
	all := map[byte][]string{}
	add := func(words []string) {
		for _, phrase := range words {
			for _, w := range strings.Fields(phrase) {
				if len(w) >= 5 && !slices.Contains(all[w[0]], w) {
					all[w[0]] = append(all[w[0]], w)
				}
			}
		}
	}
	for _, a := range accidents {
		add(a.parts)
		add(a.harms)
		for _, g := range a.says {
			add(g)
		}
	}
	return all
}()

// mendHarm mends a slip in a word of harm: "fingre", "bleding", "swollowed".
func mendHarm(w string) string {
	if len(w) < 5 || slips[w] || commonWords[w] || slices.Contains(accidentWords[w[0]], w) {
		return w
	}
	for _, a := range accidentWords[w[0]] {
		if abs(len(a)-len(w)) > 1 {
			continue
		}
		d := levenshtein.ComputeDistance(a, w)
		if d == 1 && len(w) >= 6 || d == 2 && sameLetters(a, w) {
			return a
		}
	}
	return w
}

func sameLetters(a, b string) bool {
	x, y := []byte(a), []byte(b)
	slices.Sort(x)
	slices.Sort(y)
	return string(x) == string(y)
}

// howFar are words that only say how ill somebody feels: "feeling a bit sick".
var howFar = regexp.MustCompile(` (feel|feeling|feels|felt) (?:a bit|a little|abit|a touch|a tad|rather|really|so|quite|pretty|very|kinda|kind of|sort of|slightly|proper|well|still|now|all) `)

// accidentIn finds an accident in the words of a message.
func accidentIn(words []string) string {
	for i := range words {
		words[i] = mendHarm(words[i])
	}
	text := howFar.ReplaceAllString(" "+strings.Join(words, " ")+" ", " $1 ")
	said := begun(text)
	for _, a := range accidents {
		all := true
		for _, group := range a.says {
			all = all && said.oneOf(group)
		}
		if all && (len(a.harms) == 0 || harmed(words, a)) {
			return a.job
		}
	}
	return ""
}

// begunText is a text with the beginnings of its words, for many words that are looked
// for in it.
type begunText struct {
	text   string
	begins beginnings
}

func begun(text string) *begunText {
	t := &begunText{text: text}
	for i := range len(text) {
		if text[i] == ' ' {
			t.begins.add(text[i+1:])
		}
	}
	return t
}

func (t *begunText) oneOf(group []string) bool {
	for _, w := range group {
		if t.begins.has(w) && saysWhole(t.text, w) {
			return true
		}
	}
	return false
}

func saidOf(text string, group []string) bool {
	const many = 10 // words from which on it pays to look how the text's begin
	if len(group) >= many {
		return begun(text).oneOf(group)
	}
	for _, w := range group {
		if saysWhole(text, w) {
			return true
		}
	}
	return false
}

// saysWhole reports whether words stand in a text with a blank on either side.
func saysWhole(text, words string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return false
		}
		i += from
		if end := i + len(words); i > 0 && text[i-1] == ' ' && end < len(text) && text[end] == ' ' {
			return true
		}
		from = i + 1
	}
}

// farthest is how many words may stand between a harm and the part that it hit.
const farthest = 7

// harmed reports whether a harm stands near a part of somebody's body, with no
// piece of work between them: "cut the ring to fit my finger" hurts nobody.
func harmed(words []string, a accident) bool {
	for i, part := range words {
		if !slices.Contains(a.parts, part) || !somebodys(words, i, a.job) {
			continue
		}
		for k, harm := range words {
			if k == i || abs(k-i) > farthest || !slices.Contains(a.harms, harm) {
				continue
			}
			if harm == "bit" && k > 0 && (words[k-1] == "a" || words[k-1] == "little") {
				continue // "a bit of string round my finger"
			}
			if harm == "under" && k > i {
				continue // "the mouth is 0.15 mm under"
			}
			between := words[min(i, k)+1 : max(i, k)]
			if a.job == "cut" && !stuckIn(words, i) && slices.ContainsFunc(between, func(w string) bool { return slices.Contains(pieceName, w) }) {
				continue
			}
			return true
		}
	}
	return false
}

// stuckIn reports whether something is said to be in a part of a body: "a sliver of
// wire in my fingertip".
func stuckIn(words []string, part int) bool {
	return part > 1 && slices.Contains(strings.Fields("in into through under"), words[part-2]) && slices.Contains(strings.Fields("my his her their"), words[part-1])
}

// somebodys tells a part of a body from a tool or a stone of that name: "third
// hand", "cut by hand", "tiger eye", "nose of the pliers".
func somebodys(words []string, i int, job string) bool {
	part, before, after := words[i], "", ""
	if strings.HasSuffix(part, "self") || strings.HasSuffix(part, "selves") {
		return true
	}
	if i > 0 {
		before = words[i-1]
	}
	if i+1 < len(words) {
		after = words[i+1]
	}
	if slices.Contains(strings.Fields("ring rings cuff stud hoop bracelet band chain piece saw tool tools file files held engraving engraved made size pin pins bolt shade shades protection cabochon cab cabs stone guard bur burs stock line"), after) {
		return false
	}
	if i == 0 && slices.Contains(strings.Fields("squashed squished crushed caught trapped burned burnt bleeding blistered scalded swollen numb stuck smashed"), after) {
		return true
	}
	if job == "eyes" && slices.Contains(strings.Fields("tiger tigers cat cats evil screw naked by bulls hook"), before) {
		return slices.Contains(strings.Fields("cat cats"), before) && slices.Contains(words, "my")
	}
	if slices.Contains(owners, before) {
		return before != "a" && before != "an" && before != "the" || job != "cut" || part == "nail" || slices.Contains(words, "my") || slices.Contains(words, "i")
	}
	return slices.Contains(strings.Fields("under beneath behind in into on through off hurt burnt burned cut sliced crushed bleeding"), before) && part != "hand"
}
