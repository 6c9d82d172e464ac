package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// hurtBy are ways in which somebody tells of a hurt, by the first aid that must
// come. They are our own invention.
var hurtBy = map[string][]string{
	"shock": {
		"i got an electric shock from the polishing motor", "got a shock from the kiln door", "Ben electrocuted himself on the rectifier, he is on the floor", "had a shock off the pendant motor foot pedal, hand still tingles",
		"the plating rig zapped me", "my apprentice got shocked by the hotplate and his heart is racing", "the lathe gave him a shock, he won't let go of it", "ich habe einen Stromschlag bekommen vom Ofen",
		"the casing is live, he got a belt and says his arm is twitching", "touched the casing of the pickle heater and received a shock, my arm is numb", "the shock off the lamp threw me across the room", "our lad touched the kiln wires and is down, not breathing right",
	},
	"hurt": {
		"hair got sucked into the polisher", "caught my hair in the polishing motor, some of it came away", "my ponytail got caught in the flexshaft", "my plait got pulled into the flex shaft and my neck aches", "sleeve got wound into the mop, wrist feels twisted",
		"the drop hammer's handle hit my head and i feel sleepy", "she banged her head on the press and is confused", "our teacher is clutching his chest", "i think he's concussed", "broke my wrist tripping over the hose", "student fell off the stool",
		"my friend is on the floor and she is twitching", "he does not respond, we found him at the bench", "he's on the floor and doesn't answer", "student fainted and is not waking up", "she's lying by the bench, not moving", "wasp stung her and her tongue is swelling", "the buff threw the ring and hit me in the face", "smashed my knuckles with the raising hammer", "hammered my thumb, nail is purple",
		"whacked my thumb with a planishing hammer and its swollen",
		"rolling mill trapped my fingers",
		"my apprentice crushed his finger in the rolling mill",
		"hand squashed in the press, fingers white, ambulance coming, what do we do till then",
		"dropped the anvil on my toe",
		"hammer slipped and got my wrist",
		"my thumb is going black after the hammer",
	},
	"eyes": {
		"glass bead blew up in my face", "my student got pickle in her eye HELP", "pickel splashed in my eyes", "flux spat into his eye", "i think a bit of saw blade flew in my left eye",
		"my eye is really sore after grinding", "eye burning from acid fumes splash", "toddler rubbed flux in his eyes", "metal shard in eye", "cant open my eye something is in it",
		"she poked herself in the eye with a graver", "dust from the buffing wheel got in my eye and it wont stop watering", "my eyes are gritty after melting platinum without glasses",
		"Metal splinter in eye from grinding, not hurting much now, rinse or leave", "the dog got pickle in his eye", "whats the first thing to do, liver of sulphur squirted in my mates eye", "my cats eye got splashed with pickle",
	},
	"swallowed": {
		"swallowed some flux by accident it was in a mug", "my kid drank pickle", "the dog ate some borax", "i swollowed a bead of solder", "toddler licked the ferric chloride lid", "he took a sip of pickle thinking it was water", "took a gulp from the wrong mug, it was the pickle", "had a small sip of flux by mistake",
		"my daughter ate a handful of citric pickle crystals", "i accidentally drank acid", "cat licked liver of sulphur",
	},
	"fumes": {
		"I can’t breathe properly after the pickle boiled over", "the pickle went up my nose", "i feel drunk from the fumes", "my tongue feels metallic", "head spins after soldering indoors", "trouble catching my breath after patina",
		"someone fainted in workshop fumes maybe", "i think i breathed in cadmium solder fume, old stick of my dads, chest feels tight", "liver of sulphur smell giving me a headache, window is open, should i stop",
		"i feel ill after melting brass", "shivering and fever since casting bronze yesterday", "inhailed smoke from the burnout", "im dizzy from the pickle", "my husband collapsed near the kiln", "she cant stop coughing after pouring",
		"metallic taste in my mouth after soldering galvanized wire", "throat is raw after using nitric fumes", "student passed out next to the propane torch", "woozy after 3 hours of soldering",
		"patina fumes made me sick", "breathing is tight after soldering", "i got a lungful of investment powder", "he's vomiting after the enamel kiln fumes", "cant breathe after mixing bleach and pickle",
	},
	"fire": {
		"torch hose is on fire", "fire on my bench, the flux alcohol jar lit", "gas regulator is on fire", "the hose on my acetylene caught light", "HELP the kiln is on fire", "acetone jar caught fire on the shelf what do i do",
		"my extractor is in flames", "theres a fire in the bin next to the bench",
	},
	"burn": {
		"my sleeve is on fire do i use water", "a spark went down my glove", "his apron is on fire should i use the extinguisher", "picked up a ring I thought was cold ow ow ow finger and thumb what do i do", "ow touched the soldering brick bare handed", "molten silver ran into my shoe", "grabbed the ring too soon, fingertips all white",
		"burnt my finger on hot ring what do i do", "i grabbed the hot tweezers with my hand", "molten silver landed on my foot", "hot wax dripped on her arm", "molten wax went on my wrist", "boiling wax ran down his arm", "the hot solder went all over my hand", "burnd my thumb", "her sleeve caught fire",
		"scalded my hand with boiling water from the pickle pot", "his fingers are blistered from picking up a hot ingot", "torch went over my knuckles", "student burned himself", "my hair is on fire",
		"steam burn from the quench", "touched red hot steel, palm is white", "blisters on my fingertips after annealing", "brunt my fingre on the torch", "singed my face when i lit the torch",
	},
	"skin": {
		"pickle all over my hand", "nitric acid splashed on my arm", "spilled ferric chloride down my leg", "my fingers are tingling after etching with acid", "flux burns on my skin, its red and itchy", "acid dripped onto his foot",
		"nitric acid from the test kit has dripped on my forearm, yellow stain and burning", "got killed spirits on my arm, it stings and has gone white", "caustic splashed up my wrist, the skin is slippery and burning", "nitric on fingers", "got ammonia in a cut", "got liver of sulphur on my hands", "pickle soaked through my jeans onto my thigh",
	},
	"cut": {
		"drilled right through my finger at the bench and it is swelling", "the press dropped and a needle is stuck in my thumb", "got a sliver of wire in my fingertip", "cut by the disc cutter", "rolled my finger in the mill", "sheet metal sliced me",
		"tip of finger gone", "nail ripped off", "graver slip, deep hole in hand", "i pinched skin in the pliers", "saw jumped onto my knuckle", "stapled my thumb", "fingertip caught in the rolling mill", "her hair was caught in the buff and the scalp is torn",
		"sliced thumb with saw blade its deep and won't stop bleeding", "hair got caught in the polishing motor shes bleeding from scalp", "got a drill bit through the nail",
		"wheel grabbed the chain round my finger", "graver went into my palm", "i stabbed my hand with the graver", "saw blade snapped and is stuck in my finger",
		"cut my fingre with the shears", "theres blood everywhere", "metal sliver under my thumbnail", "she drilled through her finger", "punctured my palm with a scriber",
		"kid sliced her hand on copper sheet", "bleding alot from my hand", "do i need stitches", "a wire went through my finger", "the drill ripped the piece round and it gashed my wrist",
		"bur skidded and jabbed my index finger",
	},
}

// hurtsNobody are sentences with the same words in which nobody is hurt.
var hurtsNobody = []string{
	"pickle burnt my copper", "i tested the pickle with a strip", "the bezel slumped when the solder ran", "my stone wont come back out of the bezel", "had a sip of coffee then soldered the ring", "pickle in a cut groove wont rinse out", "the flux leaves a burn on my silver", "cut a bezel for a tiger eye cab", "what eye shade do i need for platinum", "can i cut this by hand", "i burnt the flux off", "how do i cut a ring to fit my finger", "hand cut stone 10x8", "third hand broke", "how do i hold a hand piece when i drill", "my wax got caught in the mould", "my torch went on and on today", "the molten silver went down the sprue", "hot metal into pickle ok?",
	"the wire is stuck in the drawplate", "burn out schedule for a small flask", "cats eye cabochon 8mm bezel", "hook and eye clasp from 16ga wire", "shallow dome 20mm", "how do i avoid burning my fingers",
	"what gloves for hands when using pickle", "keep pickle out of my eyes how", "i hammered the band on the mandrel", "burnish the bezel by hand", "the bur cut into my bezel", "finger size 7, cut length of 1.5 mm wire",
	"nearly cut my finger off today, whats a good way to hold small bits", "Measured my finger w/ a bit of string 61mm but my knuckle 65. what size do i make",
	"what extinguisher do i keep near the torch in case something is on fire", "can i set the boric acid and alcohol on fire on my bench",
	"my ring turned my finger black", "blister under my gold foil, keum boo", "the hot plate is too small for my kiln", "cut by hand or with the disc cutter", "picked up the kiln yesterday, how do i wire it",
	"the saw jumped out of the line into the bezel", "hole in my bezel after filing", "the stone was cut by the lapidary to 8mm", "bead burst in the kiln", "silver spat when it cooled",
	"drill broke in the middle of the bezel", "my collet cracked in the block", "the stone got chipped by my graver", "ring blank for a thumb ring size 10", "acid for etching copper", "pickle is eating my brass",
	"i sliced the tube into rings", "the torch burned through my bezel", "what does burning smell of wax mean for the burnout", "hand file or needle file", "how thick is a nail head", "my saw blade broke", "eye pins from 20ga",
	"how much silver do i cut for a toe ring us 3, 14 gauge, 3 mm wide", "left hand ring finger us 6 band 4mm", "splash of silver on my casting", "gold nose stud wire gauge", "ear cuff from 18ga", "toe ring size", "belly ring wire 14ga",
	"ring i made gets stuck at his knuckle, 20 inside, can i hammer it on the mandrel",
	"i wound a thread round her finger 55 mm what us size", "wrapped dental floss round my finger, marked it, 60mm, 1.5 thick band", "wound a bit of string around my wrist, 17 cm, bangle please",
	"the bail has to swallow a 10mm cord", "endcap that will swallow 6mm leather cord", "tube that swallows a 2mm chain",
	"cut me a strip for a 10x8 bezel", "can you cut me a shank, size 8", "I want a shop that will cut me 40 cm of wire", "who could cut us discs of 0.8 mm", "please cut her a shank from 2 mm, her finger is size 6", "my hand shakes so cut me the back plate first",
	"my eyes aren't great; kindly get me a bigger print into the room", "my eyes are not so good, something in large letters please", "her eyes are old, put it in big figures", "my hand fits through a 64 hole", "my hand goes through a 64 mm hole, which bangle", "missed the bloody bus",
	"please put the claw gaps 1.2 drilled at foot, 6, oval tapered 11x9, 1.0", "slots drilled at the foot of each claw, 1 mm", "how do i avoid heat shock from the torch", "my knuckles won't fit through a 60 mm bangle",
	"the price of gold gave me a shock", "got a shock when I saw the bill", "can i get an electric shock from a plating rectifier", "thermal shock cracked my stone", "thermal shock from the kiln cracked my enamel", "my balance is not responding", "i set a bee in the bezel and the stone is proud",
}

func TestWhoeverIsHurtGetsFirstAid(t *testing.T) {
	n := 0
	for job, wordings := range hurtBy {
		for _, say := range wordings {
			n++
			r := Read(say, Context{Addressed: true})
			assert.Equal(t, FirstAid, r.Outcome, say)
			assert.Equal(t, job, r.Topic, say)
		}
	}
	assert.GreaterOrEqual(t, n, 80)
	for _, say := range hurtsNobody {
		assert.NotEqual(t, FirstAid, Read(say, Context{Addressed: true}).Outcome, say)
	}
}

// hurtAllTheSame are hurts told in words that elsewhere are an order or bad sight.
var hurtAllTheSame = map[string]string{
	"the blade cut me a nasty one across the palm": "cut", "the shears cut me": "cut", "his thumb is all bloody": "cut", "my hand went through the rollers": "cut", "my eyes are bad after the weld, gritty": "eyes", "a wire went through my hand": "cut", "cut me badly with the graver, hand": "cut",
}

func TestHurtInWordsOfAnOrder(t *testing.T) {
	for say, job := range hurtAllTheSame {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, FirstAid, r.Outcome, say)
		assert.Equal(t, job, r.Topic, say)
	}
}

// dangerousWishes are wishes that can kill, by what must be said of them.
var dangerousWishes = map[string]string{
	"can i dip in boric acid and alcohol then use the torch right next to the jar": "alcohol and flame",
	"my 20 ton jack is over the limit of the press, can i still push it":           "press over its rating",

	"can i solder a hollow bead shut without a vent":                      "heating a closed form",
	"do i have to drill a hole in my bead before i solder the two halves": "heating a closed form",
	"is the old cadmium solder my grandad had ok to use":                  "cadmium solder",
	"can i etch silver with nitric acid at home":                          "strong acids at home",
	"how do i use hydrofluoric to clean my castings":                      "strong acids at home",
	"whats the max psi for acetylene, can i go to 20":                     "acetylene pressure",
	"can i put a bit of oil on the oxygen regulator its stiff":            "oil on oxygen",
	"i think my propane hose is leaking how do i check":                   "looking for a leak",
	"can i do my burnout in the kitchen oven":                             "indoor burnout",
	"burnout kiln in my apartment, window open, ok?":                      "indoor burnout",
	"can i skip goggles for a quick solder":                               "going without protection",
	"do i really need a respirator to mix investment":                     "going without protection",
	"can i mix liver of sulfur and pickle to save space in the same jar":  "mixing chemicals",
	"do i add water to acid or acid to water":                             "water into acid",
	"can i pour old pickle down the drain":                                "pickle down the drain",
	"my crucible is a bit damp can i still pour":                          "wet crucible or mould",
	"can i melt old fishing weights in my silver crucible":                "heating coated or unknown metal",
	"is investment dust bad for you":                                      "silica dust",
	"can i retip a prong with the stone in, its an emerald":               "torch near a stone",
	"can i leave the kiln unattended overnight":                           "tired drunk or alone",
	"can i quench my ring in methylated spirits":                          "quenching in what burns",
	"is it ok to eat a sandwich at the bench":                             "eating where one solders",
	"can i hold a chain on the polishing wheel":                           "motor and what hangs",
	"ring is stuck and finger turning purple":                             "ring stuck on a finger",
	"my ring wont come off my finger its swollen":                         "ring stuck on a finger",
	"the ring is stuck on my finger":                                      "ring stuck on a finger",
	"my kid has a bead up her nose":                                       "something in nose or ear",
	"superglued my fingers together":                                      "glued fingers",
	"hiss coming from my torch connection":                                "looking for a leak",
	"can i quench the flask straight away":                                "hot flask",
}

func TestDangerousWishesAreRefused(t *testing.T) {
	for say, topic := range dangerousWishes {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, topic, r.Topic, say)
	}
}

// The first aid of the many other hurts leads with the line on the one that is told.
func TestLeadsWithTheLineOnTheHurt(t *testing.T) {
	for said, begins := range map[string]string{
		"vice fell on me foot and its gone purple":       "Broken, crushed or badly twisted",
		"he's on the floor and doesn't answer":           "If the person does not answer",
		"he does not respond, we found him at the bench": "",
	} {
		r, hurt := FirstAidFor(said)
		assert.True(t, hurt, said)
		assert.Equal(t, "hurt", r.Topic, said)
		assert.True(t, strings.HasPrefix(r.Verdict, begins), "%s: %s", said, r.Verdict)
	}
}
