package sentence

import (
	"regexp"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
)

// injury is one kind of harm, with the words that tell of it in English,
// German, French and Spanish.
type injury struct {
	// job is the first aid's name in the request cautions.
	job string
	// parts and harms must both be said, in words by stem; whole says it alone.
	parts, harms, whole []string
}

var injuries = []injury{
	{
		job:   "eyes",
		parts: []string{"eye", "eyes", "eyeball", "eyelid", "eyelids", "eyelash", "eyelashes", "auge", "augen", "oeil", "œil", "yeux", "ojo", "ojos", "olho", "olhos", "occhio", "occhi", "oog", "ogen"},
		harms: []string{"in my", "in the", "in her", "in his", "in their", "in both", "got", "splash", "splashed", "splashes", "sprayed", "squirted", "flew", "burn", "burns", "burning", "sting", "stings", "stinging", "hurt", "hurts", "itchy", "watering", "poked", "hit", "went", "into", "red", "something", "superglue", "super glue", "glued", "glue", "epoxy", "säure", "gespritzt", "ins", "im", "dans", "acide", "en el", "ácido", "me", "salpicó", "brennt", "brûle", "arde", "caiu", "entrou", "espirrou", "ardendo", "brucia", "schizzato", "schizzata", "gespat", "prikt"},
	},
	{
		job:   "swallowed",
		whole: []string{"swallowed", "swallow", "drank", "drunk some", "ingested", "ate some", "verschluckt", "getrunken", "avalé", "bu de", "tragué", "tragó", "bebí", "bebió", "engoli", "engoliu", "bebeu", "ho bevuto", "ha bevuto", "ingoiato", "inghiottito", "ingeslikt", "doorgeslikt", "in my mouth", "in his mouth", "in her mouth"},
	},
	{
		job:   "fumes",
		whole: []string{"breathed in", "breathed fumes", "breathed the", "inhaled", "cant breathe", "trouble breathing", "hard to breathe", "short of breath", "feel dizzy", "feeling dizzy", "felt dizzy", "dizzy from", "dizzy after", "fever after", "chills after", "like ive got flu", "like i have flu", "like flu", "flu like", "metal taste", "metallic taste", "shivery", "shivering", "coughing", "now coughing", "coughing after", "coughing and", "coughing since", "chest is tight", "chest feels tight", "tight chest", "chest hurts", "eingeatmet", "inhalé", "respiré", "respirei", "inalei", "inalou", "falta de ar", "não consigo respirar", "ho respirato", "ho inalato", "non riesco a respirare", "ingeademd", "metal fume fever", "headache from the", "headache after", "nauseous", "feel sick", "feels sick", "passed out", "fainted", "light headed", "lightheaded"},
	},
	{
		job:   "burn",
		parts: []string{"finger", "fingers", "hand", "hands", "thumb", "arm", "leg", "foot", "face", "myself", "himself", "herself", "skin", "palm", "wrist", "lap", "knee", "lip", "hair", "student", "someone", "hand", "finger", "main", "doigt", "mano", "dedo", "mão", "mao", "mãos", "dedos", "braço", "perna", "rosto", "dito", "dita", "braccio", "gamba", "viso", "vinger", "vingers", "gezicht"},
		harms: []string{"burned", "burnt", "burn my", "burned my", "burnt my", "scalded", "blister", "blistered", "blisters", "hot metal on", "torch on my", "caught fire", "verbrannt", "brûlé", "brulé", "quemé", "quemado", "quemó", "queimei", "queimou", "queimado", "queimadura", "bruciato", "bruciata", "scottato", "scottata", "ustione", "verbrand", "gebrand", "picked up hot", "touched the hot", "touched hot", "grabbed hot"},
		whole: []string{"blistering", "its blistering", "sleeve caught", "hair caught fire", "burned myself", "burnt myself", "i burned my", "i burnt my", "just burned", "just burnt", "a bad burn", "got a burn", "got burned", "got burnt", "have a burn", "habe mich verbrannt", "me suis brûlé", "me suis brulé", "me he quemado", "me quemé", "me queimei", "se queimou", "mi sono bruciato", "mi sono bruciata", "mi sono scottato", "mi sono scottata", "heb me verbrand", "heb mij verbrand", "finger verbrannt", "hand verbrannt", "treat a burn", "for a burn", "for burns", "on a burn", "on burns", "on the burn", "on my burn", "first aid burn", "burn first aid"},
	},
	{
		job:   "skin",
		whole: []string{"its stinging", "is stinging", "skin is burning", "acid on my", "acid on me"},
		parts: []string{"skin", "leg", "lap", "jeans", "hand", "hands", "arm", "arms", "finger", "fingers", "face", "leg", "foot", "haut", "peau", "piel", "wrist", "pele", "mão", "mãos", "braço", "perna", "mano", "pelle", "braccio", "huid"},
		harms: []string{"pickle", "acid", "flux", "patina", "liver", "ferric", "chemical", "spilled", "spilt", "spill", "splashed", "splash", "säure", "acide", "ácido", "bleach", "acido", "zuur", "nitric", "sulfuric", "sulphuric"},
	},
	{
		job:   "cut",
		parts: []string{"finger", "fingers", "hand", "hands", "thumb", "arm", "leg", "foot", "palm", "myself", "himself", "herself", "knuckle", "nail", "mão", "mãos", "dedo", "dedos", "braço", "perna", "dito", "dita", "mano", "braccio", "gamba", "vinger", "vingers"},
		harms: []string{"is in my", "bit in my", "cut", "sliced", "stabbed", "sawed", "sawn", "drilled", "bleeding", "blood", "punctured", "splinter", "sliver", "stuck", "broke off in", "broken in", "went through", "through my", "crushed", "smashed", "hit my", "geschnitten", "coupé", "cortado", "corté", "cortei", "cortou", "furei", "furou", "sangrando", "sangue", "tagliato", "tagliata", "sanguina", "gesneden", "bloedt", "gash", "needle in", "wire in", "blade in"},
		whole: []string{"scalp hurts", "hair got caught", "hair caught in", "bleeding", "finger tip is off", "fingertip is off", "fingertip off", "tip is off", "under my nail", "under his nail", "under her nail", "wont stop bleeding", "lost a finger", "needs stitches", "need stitches", "in den finger geschnitten", "me suis coupé", "me he cortado", "me corté", "saw blade in my", "drill through my", "metal splinter"},
	},
}

// notHurt are words by which a message about hurt is one about how to avoid it.
var notHurt = []string{"nearly cut", "almost cut", "nearly burnt", "nearly burned", "almost burnt", "almost burned", "nearly lost a", "almost lost a", "nearly took my", "almost took my", "how do i avoid", "how to avoid", "without burning", "without cutting", "without hurting", "avoid burning", "avoid cutting", "prevent", "so i dont", "so that i dont", "so we dont", "so they dont", "not to burn", "not to cut", "can pickle burn", "could pickle", "will it burn", "does pickle burn", "is it possible", "out of my eyes", "away from my eyes", "protect my", "protects my", "protect your", "protect their", "protect the", "keep my fingers", "keep your fingers", "stop me cutting", "keep from", "dont want to", "afraid of", "scared of", "worried about cutting", "worried about burning", "do i wear", "should i wear", "what gloves", "which gloves", "always burn the", "risk of", "before i light", "before we light", "before lighting", "wallet is bleeding", "bleeding money", "bleed me dry", "blood red", "blood orange", "bloodstone", "killing me"}

// happened are words by which somebody is hurt whatever else the message says.
var happened = []string{"bleeding", "help", "ambulance", "hospital", "what do i do", "what should i do", "what now", "urgent", "emergency", "999", "911", "112", "just now", "i just", "she just", "he just", "nail gone black", "nail has gone black", "nail went black", "its squashed", "its crushed", "its swollen", "its bleeding"}

// FirstAidFor reads a message by which somebody is hurt. It looks for nothing
// else, so that it may be asked before any other reading.
func FirstAidFor(typed string) (Reading, bool) { return newMessage(typed).firstAid() }

// firstAid finds somebody who is hurt. It is tried before all else, on messages
// of any length, and would rather be wrong than silent.
func (m *message) firstAid() (Reading, bool) {
	if m.memory.unhurt {
		return Reading{}, false
	}
	r, ok := m.tellsHurt()
	m.memory.unhurt = !ok
	if !ok || r.Topic == "fire" {
		return r, ok
	}
	if r.Topic != "swallowed" && m.surelyPiece() {
		return Reading{}, false
	}
	text := aidText(m.typed)
	kind := otherThanItSounds(r.Topic, text)
	if kind == r.Topic {
		kind = m.likelierKind(r.Topic, text)
	}
	if kind != r.Topic {
		r = aidFor(kind)
	}
	if kind == "hurt" {
		r.Verdict = aidLead(kind, text) // the line that matters here, of many
	}
	return r, true
}

// chemicals burn without heat, and heavy things crush without an edge.
var (
	chemicals   = []string{"acid", "acids", "nitric", "aqua regia", "ferric", "ferric chloride", "caustic", "lye", "killed spirits", "silver nitrate", "pickle", "bisulphate", "bisulfate", "sulphuric", "sulfuric", "hydrochloric", "muriatic", "patina", "liver of sulphur", "liver of sulfur", "bleach", "drain cleaner", "descaler", "stripper", "etchant", "ammonia", "peroxide"}
	heat        = strings.Fields("torch flame molten kiln iron oven crucible steam wax pitch glowing boiling boiled scalded scald")
	heavyThings = strings.Fields("hammer mallet anvil vice vise mill rolling press stake block die lid bench drawbench mandrel sledge weight cylinder")
	crushes     = []string{"fell on", "dropped", "landed on", "hit my thumb", "hit me thumb", "hit his thumb", "hit her thumb", "on my thumb", "pinched", "crushed", "crush", "squashed", "flat", "flattened", "trapped", "slammed", "on my foot", "on his foot", "on her foot", "on my toe", "on my toes", "swelling", "swollen", "purple", "black"}
	pulledIn    = strings.Fields("hair ponytail plait braid scarf sleeve cuff hoodie lanyard apron necklace beard")
	openWounds  = strings.Fields("blood bleeding bleeds bled cut cuts sliced slice stabbed stab open deep stitches splinter sliver gash gashed ripped torn leaking drilled drill needle blade saw graver scriber spike stuck through puncture punctured")
)

// otherThanItSounds is the kind of a hurt of which one word tells wrongly: acid burns the
// skin and is rinsed, a hammer cuts nothing, and a machine that pulls at hair or a sleeve
// wrenches a neck or an arm sooner than it cuts.
func otherThanItSounds(kind, text string) string {
	switch {
	case kind == "burn" && saidOf(text, chemicals) && !saidOf(text, heat):
		return "skin"
	case kind == "cut" && (saidOf(text, heavyThings) && saidOf(text, crushes) || saidOf(text, pulledIn)) && !saidOf(text, openWounds):
		return "hurt"
	}
	return kind
}

// ofEyesAlone are parts of an eye: nothing at the bench is called so.
var ofEyesAlone = strings.Fields("eyelid eyelids eyelash eyelashes eyeball")

// How likely another kind of hurt must be by all words, and how unlikely the kind that a
// few words told of, for the first aid of the other: acid burns, and a vice that falls on
// a foot cuts nothing.
const (
	surelyThisKind   = 0.5
	hardlyThisKind   = 0.25
	surelyOtherHurts = 0.3
	// fewestOfKind is how few words tell no kind by themselves.
	fewestOfKind = 6
)

// likelierKind is the kind of hurt by all words of a message, where the one that a few of
// them told of is unlikely beside it. A shock, something swallowed, a person who has
// collapsed, a wound and acid on the skin keep their first aid: the words for them mean
// nothing else.
func (m *message) likelierKind(told, text string) string {
	if told == "swallowed" || told == "shock" || told == "hurt" || m.words() < fewestOfKind || told == "cut" && saidOf(text, openWounds) || told == "skin" && saidOf(text, chemicals) || told == "eyes" && saidOf(text, ofEyesAlone) {
		return told
	}
	all := m.memory.intentsOfAll()
	kind, hurt := intent.Hurt(all)
	of := func(kind string) float64 { return all.Of(intent.FirstAid+"-"+kind) / hurt }
	if hurt < surelyOtherHurts || of(kind) < surelyThisKind || of(told) > hardlyThisKind {
		return told
	}
	return kind
}

// hardlyHurt is the chance of a hurt under which a message that gives figures of a
// piece, and is surely about that, is taken for none whatever words it has: "cut me a strip
// by hand for a 32x24 cab, 8 tall".
const hardlyHurt = 0.01

func (m *message) surelyPiece() bool {
	wanted, chance := m.likeliest()
	_, hurt := intent.Hurt(m.memory.intentsOfAll())
	return m.figureCount() > 0 && hurt < hardlyHurt && chance >= possible && readersOf[wanted] != nil && !hurtOutright(m.typed)
}

// outright matches somebody's finger that was cut or burnt, and what is worn on it.
var outright = regexp.MustCompile(`\b(?:cut|sliced|slit|stabbed|jabbed|burnt|burned|scalded|crushed|smashed|pinched|trapped|skinned|gashed|punctured|drilled|bashed|hammered) (?:into |through )?(?:my|his|her|their|both) (?:own |left |right |index |little |middle )?(?:thumb|thumbs|thumbnail|finger|fingers|fingertip|hand|hands|palm|knuckle|knuckles|wrist|arm|leg|foot|toe|knee|lip|face)\b( (?:ring|rings|band|bands|size|sized|cuff|chain|piece))?`)

// hurtOutright reports whether somebody's finger was cut or burnt, whatever else is asked:
// "cut my thumb, plaster on. ring size P, how long". A thumb ring that is cut is none.
func hurtOutright(typed string) bool {
	for _, found := range outright.FindAllStringSubmatch(strings.ToLower(typed), -1) {
		if found[1] == "" {
			return true
		}
	}
	return false
}

// tellsHurt finds the words by which somebody is hurt.
func (m *message) tellsHurt() (Reading, bool) {
	text := aidText(m.typed)
	said := begun(text).oneOf
	if said(notHurt) && !said(happened) {
		return Reading{}, false
	}
	if saidOf(text, smouldering) && saidOf(text, wearers) {
		r := aidFor("burn")
		r.Verdict = aidLead("burn", text+" on fire ")
		return r, true
	}
	if saidOf(aboutFires.Replace(text), alight) || smoulders(text) {
		switch {
		case saidOf(text, askedAhead) && !said(happened):
			return Reading{}, false
		case burns(text):
			return aidFor("fire"), true
		}
	}
	if measuresFinger(text) || tightOverKnuckle(text) {
		return Reading{}, false
	}
	if stuckRing(text) {
		return Reading{}, false // there is nothing to press on: the facts say what to do
	}
	if hadShock(text) {
		return aidFor("shock"), true // before all else: the current may still be on
	}
	if job := aidAskedFor(text); job != "" {
		return aidFor(job), true
	}
	if job := accidentIn(strings.Fields(text)); job != "" {
		r := aidFor(job)
		if job == "burn" && saidOf(text, alight) {
			r.Verdict = aidLead(job, text)
		}
		return r, true
	}
	for _, is := range injuries {
		if said(is.whole) || said(is.parts) && said(is.harms) && m.hurt(is, said) {
			return aidFor(is.job), true
		}
	}
	return m.hurtByAllWords()
}

// aidKinds are what first aid is asked for, by the word for the hurt; the first that is said
// counts, since acid in an eye is for the eye.
var aidKinds = []struct {
	job   string
	words []string
}{
	{"eyes", strings.Fields("eye eyes")},
	{"swallowed", strings.Fields("swallowed swallowing drank drinking")},
	{"shock", []string{"electric shock", "electrocution", "electric shocks"}},
	{"fumes", strings.Fields("fumes smoke inhaled inhaling inhalation gassed")},
	{"skin", []string{"acid", "chemical", "chemicals", "pickle", "nitric", "caustic", "lye", "bleach"}},
	{"burn", strings.Fields("burn burns scald scalds blister blisters burned burnt scalded")},
	{"cut", strings.Fields("cut cuts wound wounds bleeding puncture gash splinter splinters")},
}

// aidAskedFor is the kind of first aid that a message asks for by its name, "first aid for a
// cut", "how do i treat an acid burn"; empty for none.
func aidAskedFor(text string) string {
	named := saidOf(text, []string{"first aid for", "first aid on", "first aid with", "first aid when", "the first aid in", "emergency treatment for"})
	hurt := saidOf(text, strings.Fields("burn burns scald scalds wound wounds gash splash injury")) || saidOf(text, []string{"a cut", "cuts", "acid in", "pickle in"})
	treats := saidOf(text, []string{"how do i treat", "how do you treat", "how to treat", "how should i treat", "how do we treat", "treatment for", "how do i deal with", "what do i do for", "what do i do about"}) && hurt
	if !named && !treats || saidOf(text, []string{"kit", "kits", "box", "course", "certificate", "poster", "trained", "wood", "leather", "flux", "copper", "silver", "brass", "strip", "sheet", "metal", "wire", "blank", "piece"}) {
		return ""
	}
	for _, k := range aidKinds {
		if saidOf(text, k.words) {
			return k.job
		}
	}
	return ""
}

// likelyHurt is how likely a message must tell of somebody who is hurt by all its words
// for first aid to be given where no words are known that say so. It is low: of 4,400
// messages of the guild's other business that the model had not seen, five came over it.
// likelierHurt is asked for where few words say little.
const (
	likelyHurt   = 0.2
	likelierHurt = 0.65
)

// wordsOfHurt is how many words tell of a hurt even where some of them point back to what
// was said before.
const wordsOfHurt = 12

// surelyHurt is asked for where a message has a saying that only sounds like hurt.
const surelyHurt = 0.9

// eyesOfNobody are eyes that no one sees with.
var eyesOfNobody = []string{"tiger eye", "tigers eye", "cats eye", "cat eye", "eye pin", "eye pins", "eye bolt", "screw eye", "hook and eye", "evil eye", "by eye", "eye protection", "naked eye"}

// onlySoundsLikeHurt reports whether a message has words of a hurt that tell of none: a
// bail that swallows a cord, a hand that goes through a bangle, an eye pin, a shocking bill.
func (m *message) onlySoundsLikeHurt(kind string) bool {
	text := aidText(m.typed)
	switch kind {
	case "eyes":
		return saidOf(text, eyesOfNobody)
	case "shock":
		return saidOf(text, noCurrent)
	}
	return text != withoutMarks(m.typed)
}

// fewestHurt is how few words say nothing of a hurt by themselves.
const fewestHurt = 3

// tellsFirstAid are facts that say themselves what is done for a hurt.
var tellsFirstAid = map[string]bool{"glued fingers": true, "something in nose or ear": true}

// hurtByAllWords finds somebody who is hurt by all words of a message.
func (m *message) hurtByAllWords() (Reading, bool) {
	m.chance()
	kind, chance := intent.Hurt(m.memory.intentsOfAll())
	if m.words() < fewestHurt {
		return Reading{}, false
	}
	least := likelyHurt
	if !m.whole() && m.words() < wordsOfHurt {
		least = likelierHurt
	}
	ofMetal := m.words() <= fewWords && len(m.alloys) > 0 && !saidOf(" "+m.text()+" ", limbs)
	if chance < least || ofMetal || chance < surelyHurt && m.onlySoundsLikeHurt(kind) {
		return Reading{}, false
	}
	if fact, warns := m.warning(); warns && (chance < likelierHurt || tellsFirstAid[fact.Topic]) {
		return Reading{}, false // the fact says what to do
	}
	return aidFor(kind), true
}

// What aidText takes out of a message: marks, tools and sayings that sound like hurt,
// and the foot of a setting. It reads every message, so they are made once.
var (
	aidMarks   = strings.NewReplacer("-", " ", "/", " ", "(", " ", ")", " ", "\"", " ", ",", " ", ".", " ", "!", " ", "?", " ", ";", " ", ":", " ", "\n", " ", "'", "")
	aidTools   = strings.NewReplacer(" bit of string ", " string ", " bit of paper ", " paper ", " bit of tape ", " tape ", " bit of ribbon ", " ribbon ", " bit of thread ", " thread ")
	aidSayings = strings.NewReplacer(" just eyeball ", " just guess ", " or eyeball ", " or guess ", " eyeball it ", " guess it ", " eyeballing ", " guessing ", " eyeballed ", " guessed ",
		" lost the run of myself ", " lost track ", " dog hit my elbow ", " dog jogged me ", " cat hit my elbow ", " cat jogged me ", " knocked my elbow ", " jogged me ", " jogged my elbow ", " jogged me ", " nudged my elbow ", " jogged me ",
		" fingers arent so nimble ", " grip is weak ", " fingers arent as nimble ", " grip is weak ", " fingers are not so nimble ", " grip is weak ", " fingers are not as nimble ", " grip is weak ", " sick about it ", " sorry about it ", " sick about this ", " sorry about this ", " hand cut ", " ", " nothing cut ", " nothing open ", " no cuts ", " ", " pinky purple ", " pink ", " pinky red ", " pink ", " pinky brown ", " pink ", " pinky orange ", " pink ", " pinky colour ", " pink colour ", " pinky color ", " pink color ", " wallet is bleeding ", " wallet is empty ", " wallets bleeding ", " wallet is empty ", " backplates got a blister ", " backplate has a bubble ", " plates got a blister ", " plate has a bubble ", " backplate has a blister ", " backplate has a bubble ", " plate has a blister ", " plate has a bubble ", " sheet has a blister ", " sheet has a bubble ", " sheets got a blister ", " sheet has a bubble ")
	aidFeet = strings.NewReplacer(" at foot ", " at base ", " at the foot ", " at base ", " at each foot ", " at base ", " at their foot ", " at base ", " foot of the ", " base of the ", " foot of each ", " base of each ", " feet of the claws ", " base of the claws ")
)

// burntMetal matches a piece or a tool that a flame went through, and nobody.
var burntMetal = regexp.MustCompile(` (?:burnt|burned|burn) (?:a |the |right |straight |big |little |tiny )*(?:hole |holes )?(?:right |straight )?(?:in|into|through) (?:my|her|his|their|our|the|a) (?:\w+ )?(bezel|sheet|plate|backplate|wall|collet|setting|silver|copper|brass|piece|pendant|dome|shank|metal|strip|tube|wax|charcoal|brick|board|bench|apron|bail|wire|band|ring) `)

// withoutMarks is a message in small letters without its marks, with a blank on either side.
func withoutMarks(typed string) string {
	text := aidMarks.Replace(" " + strings.ReplaceAll(strings.ToLower(typed), "’", "'") + " ")
	return " " + strings.Join(strings.Fields(text), " ") + " "
}

// aidText is a message in small letters without its marks, and without words that
// sound like hurt where nobody is: a piece that swallows a cord, eyes that see badly.
func aidText(typed string) string {
	text := withChemicalsEating(thingsSwallow(withHeardNumbers(withoutMarks(typed))))
	text = aidTools.Replace(text) // no drill's bit
	text = aidSayings.Replace(text)
	text = ordersSayCut(text)
	if !saidOf(text, happened) && !saidOf(text, causes) {
		text = weakEyes.ReplaceAllString(text, " ")
		if !saidOf(text, glares) {
			text = strainedEyes.ReplaceAllString(text, " hard to see ")
		}
	}
	text = ringTakenOff(text)
	if !saidOf(text, limbs) {
		text = burntMetal.ReplaceAllString(text, " melted the $1 ")
	}
	text = aidFeet.Replace(text)
	text = fitsThrough.ReplaceAllString(text, " $1 fits ")
	return goesThrough.ReplaceAllString(text, " $1 fits a $2 ")
}

// shocks tell that current went through somebody.
var shocks = []string{"electric shock", "electrical shock", "electric jolt", "got a shock", "had a shock", "received a shock", "gave me a shock", "gave him a shock", "gave her a shock", "shocked myself", "shocked himself", "shocked herself", "got shocked", "electrocuted", "electrocuted myself", "zapped me", "zapped myself", "zapped him", "zapped her", "got zapped", "been zapped", "got a belt", "had a belt", "a belt right through", "a belt up my", "a belt off the", "a jolt off", "a jolt from", "a jolt up", "casing is live", "case is live", "casing was live", "case was live", "breaker went", "pins and needles", "stromschlag", "stromstoß", "décharge électrique", "électrocuté", "électrocutée", "descarga eléctrica", "calambrazo", "electrocutado", "electrocutada"}

// live are things of the workshop that current runs through.
var live = strings.Fields("motor kiln pedal lathe lamp socket plug wire wires rectifier hotplate mains drill polisher tumbler ultrasonic cable pendant flexshaft welder plater oven")

// noCurrent tells of a shock that no current gave.
var noCurrent = []string{"thermal shock", "heat shock", "shock loading", "price", "prices", "bill", "invoice", "quote", "cost", "costs", "total", "to hear", "to see", "to learn"}

// couldShock ask of a shock that nobody had.
var couldShock = []string{"can i get", "could i get", "will i get", "would i get", "might i get", "can you get", "could you get", "will it give", "can it give", "could it give", "avoid an electric shock", "avoid electric shock", "chance of"}

// hadShock reports whether current went through somebody.
func hadShock(text string) bool {
	electric := saidOf(text, []string{"electric", "electrical", "electrocuted"})
	told := saidOf(text, shocks) || saidOf(text, []string{"shock from", "shock off"}) && saidOf(text, live)
	return told && (electric || !saidOf(text, noCurrent)) && (!saidOf(text, couldShock) || saidOf(text, happened))
}

// alight tells that something burns that should not.
var alight = []string{"on fire", "caught fire", "catching fire", "caught alight", "in flames", "up in flames", "caught light", "ablaze", "fire on my bench", "fire on the bench", "fire in the workshop", "fire in my workshop", "fire in the shed", "fire in my shed", "fire in the studio", "bench fire", "bin fire", "small fire", "little fire", "fire started", "fire has started", "theres a fire", "there is a fire", "fire in the bin", "fire in my bin", "fire in the extractor", "fire in the duct", "fire under the bench", "fire in the cupboard", "fire in the kitchen", "set fire to the", "set fire to my", "wont go out", "flames coming", "flames are coming"}

// burning are things of the workshop that catch fire.
var burning = strings.Fields("bench hose hoses regulator cylinder cylinders bottle tank bin kiln oven curtain curtains jar alcohol meths acetone solvent workshop shed garage studio room house wax rag rags polisher motor extractor hood torch paper papers table plug socket oil shelf carpet floor wall burner propane acetylene butane lighter pan pot duct dust cupboard kitchen titanium magnesium bucket vacuum charger battery tub apparatus it something everything")

// wearers tell that it is somebody, or what somebody wears, that burns.
var wearers = strings.Fields("sleeve sleeves hair apron shirt clothes clothing jumper scarf beard trousers jeans dress skirt glove gloves fringe ponytail coat hoodie sweater cuff him me he she myself himself herself student kid child someone somebody hand finger fingers skin face arm")

// aboutFires are words that only speak of fires: nothing burns.
var aboutFires = strings.NewReplacer(" fire extinguisher", " extinguisher", " fire extinguishers", " extinguishers", " fire blanket", " blanket", " fire brick", " brick", " fire bricks", " bricks", " fire risk", " risk", " fire hazard", " hazard", " fire door", " door", " fire exit", " exit", " fire alarm", " alarm", " fire escape", " escape", " fire officer", " officer", " fire opal", " opal", " fire pit", " pit")

var smouldering = strings.Fields("smouldering smoldering smoulders smolders")

// smoulders reports whether something of the workshop smoulders; charcoal blocks do after
// every use.
func smoulders(text string) bool {
	return saidOf(text, smouldering) && saidOf(text, burning) && !saidOf(text, []string{"charcoal"})
}

// askedAhead begin questions of what is not burning yet.
var askedAhead = []string{"can i set", "should i set", "do i set", "is it ok to set", "how do i set", "what if", "what happens", "what extinguisher", "which extinguisher", "in case", "if my", "if the", "if it", "if something", "will it", "would it", "could it", "can it", "why do", "why does"}

// burns reports whether it is something of the workshop that is on fire, and nobody.
func burns(text string) bool {
	return saidOf(text, burning) && !saidOf(text, wearers)
}

// measuresFinger matches what is wound round a finger to measure it.
func measuresFinger(text string) bool {
	return saidOf(text, strings.Fields("thread string floss paper tape ribbon yarn cord")) && saidOf(text, []string{"round", "around"}) && saidOf(text, []string{"finger", "knuckle", "wrist", "hand"}) && saidOf(text, []string{"size", "mm", "cm", "inch", "inches", "marked", "measured", "measure", "comes to", "came to"}) &&
		!saidOf(text, strings.Fields("swollen swelling blue purple white numb tight stuck bleeding blood cut sliced caught pulled burnt burned"))
}

// tightOverKnuckle matches a ring that is too small, and stuck on nobody.
func tightOverKnuckle(text string) bool {
	return saidOf(text, []string{"stuck at", "sticks at", "stuck over", "stops at", "tight at", "tight over"}) && saidOf(text, []string{"knuckle", "knuckles"}) &&
		!saidOf(text, strings.Fields("swollen swelling blue purple white numb bleeding blood cut sliced crushed"))
}

// stuckRing matches a ring that does not come off a finger, which is no cut.
func stuckRing(text string) bool {
	return saidOf(text, []string{"ring", "band"}) && saidOf(text, []string{"stuck on", "is stuck", "got stuck", "wont come off", "wont budge", "cant get it off", "cant get the ring off", "cant get my ring off", "wont come over"}) && saidOf(text, limbs) &&
		!saidOf(text, strings.Fields("bleeding blood cut sliced crushed torn hot burnt burned mandrel"))
}

// thingsSwallow takes the swallowing out of a piece that takes up another: a bail
// that has to swallow a cord hurts nobody.
func thingsSwallow(text string) string {
	if !saidOf(text, strings.Fields("cord chain rope leather cable bail clasp tube endcap ribbon thong hinge wire")) || saidOf(text, strings.Fields("he she kid child baby toddler dog cat son daughter boy girl student someone somebody accidentally swallowed help hospital")) {
		return text
	}
	return strings.NewReplacer(" to swallow ", " to take ", " swallows ", " takes ", " will swallow ", " will take ", " can swallow ", " can take ", " must swallow ", " must take ", " should swallow ", " should take ").Replace(text)
}

// ordered is somebody for whom something is to be cut: "cut me a strip", "a shop that
// will cut us discs". What comes before cut tells an order from a blade that cut.
var ordered = regexp.MustCompile(` (\S+ )?(cut|saw|slice) (me|us|him|her|them) (\S+) `)

// blades are what cuts somebody by itself.
var blades = strings.Fields("saw blade disc disk it edge sheet wire shears shear guillotine graver scalpel knife bur drill wheel has have had which corner")

// ordersSayCut takes the cutting out of an order for a piece.
func ordersSayCut(text string) string {
	return ordered.ReplaceAllStringFunc(text, func(found string) string {
		w := ordered.FindStringSubmatch(found)
		before, whom, next := strings.TrimSpace(w[1]), w[3], w[4]
		asked := before == "" || slices.Contains(strings.Fields("ill itll thatll wholl youll will can could would to please and you lets kindly just then"), before)
		piece := slices.Contains(strings.Fields("a an the own one two three four five six some another this that these those out"), next) || strings.ContainsAny(next, "0123456789")
		switch {
		case whom == "her" && !piece, slices.Contains(blades, before), slices.Contains(strings.Fields("with on in badly deep deeply open up"), next), !asked && !piece:
			return found
		}
		return " " + w[1] + "make " + whom + " " + next + " "
	})
}

// weakEyes are eyes that only see badly.
var weakEyes = regexp.MustCompile(` (?:my|his|her|our|their|the|these) (?:\S+ )?(?:eyes|eyesight) (?:arent|are not|isnt|is not|are|is) (?:not )?(?:so |too |very |that |really |rather |pretty |getting |a bit )*(?:great|good|brilliant|sharp|best|the best|young|bad|old|poor|weak|tired|failing|going|what they were|what they used to be|as good|as sharp) `)

// strainedEyes are eyes for which small work is hard to see.
var strainedEyes = regexp.MustCompile(` (?:(?:hard|rough|tough|murder|hell|heavy|killer) on (?:my|his|her|our|their|the|these|your|me) (?:\S+ )?eyes|(?:my|his|her|our|these|with) (?:old|ageing|aging|elderly|tired|poor|bad|middle aged|fifty year old|sixty year old) eyes) `)

// glares are what is hard on eyes because it burns them.
var glares = strings.Fields("flame flames glare bright light lights uv arc torches melting melt molten platinum palladium kiln sun")

// cutOffFinger is a ring that was cut off a finger by somebody trained, or long ago.
var cutOffFinger = regexp.MustCompile(` (?:(ring|band) (?:\S+ ){0,3}(?:was|got|been|be|were) (?:cut|sawn|sawed|snipped|clipped) off|(?:cut|cutting|sawed|sawn|saw|snipped|clipped) (?:(?:the|a|her|his|my|their|that|this|its) )?(?:\S+ )?(?:ring|band|it) off(?: of)?) `)

// ringTakenOff takes the cutting out of a ring that was cut off a finger: the finger was not.
func ringTakenOff(text string) string {
	if !saidOf(text, []string{"ring", "band"}) || saidOf(text, strings.Fields("bleeding blood bleeds bled deep stitches sliced stabbed gashed hurts urgent")) {
		return text
	}
	return cutOffFinger.ReplaceAllString(text, " ring taken away from ")
}

// causes are what makes eyes see badly on one day.
var causes = strings.Fields("after since torch weld welding welder laser flash acid pickle flux fume fumes smoke dust grinding splash splashed sore hurt hurts red gritty stinging burning blurry swollen watering streaming weeping open suddenly today")

// fitsThrough is a part of the body that a hole or a bangle lets through.
var fitsThrough = regexp.MustCompile(` (hand|hands|fist|wrist|knuckle|knuckles|finger|fingers|thumb|foot|head) (?:just |barely |only |wont |doesnt |will |can |can just )*(?:fit|fits|pass|passes|squeeze|squeezes) (?:through|in|into) `)

// goesThrough is the same where the hole must be named: a wheel takes fingers too.
var goesThrough = regexp.MustCompile(` (hand|hands|fist|wrist|knuckle|knuckles|finger|fingers|thumb|foot|head) (?:just |barely |only |easily )*(?:goes|slips|slides|comes) through (?:a|an|the|my) (?:\S+ ){0,3}(hole|bangle|ring|circle|hoop|cuff) `)

func aidFor(job string) Reading {
	return Reading{Outcome: FirstAid, Topic: job, Request: "cautions", Options: map[string]string{"job": job}}
}

// hurt rules out work that only sounds like hurt: a setting that is cut by hand,
// a cat's eye cabochon, a finger's size.
func (m *message) hurt(is injury, said func([]string) bool) bool {
	if len(m.alloys) > 0 && len(m.found) > 1 {
		return false
	}
	switch is.job {
	case "eyes":
		return !said(eyesOfNobody)
	case "skin":
		return said([]string{"on my", "on his", "on her", "on the", "on skin", "on your", "down my", "over my", "down his", "down her", "my leg", "jeans", "my hand", "my hands", "my skin", "my arm", "my finger", "my fingers", "my face", "haut", "peau", "piel", "pele", "mão", "braço", "pelle", "mano", "huid", "burns", "stings", "burning", "his hand", "her hand", "on hands", "on hand", "all over"}) && !said([]string{"gloves", "safe to", "bad for", "is it safe", "okay to", "ok to"})
	case "cut":
		return said([]string{"i cut my", "cut my", "cut his", "cut her", "cut myself", "sliced", "stabbed", "bleeding", "blood", "in my", "is in my", "through my", "my finger", "my thumb", "my hand", "his finger", "her finger", "sawed", "drilled", "crushed", "smashed", "geschnitten", "coupé", "cortado", "corté", "cortei", "cortou", "furei", "furou", "sangrando", "tagliato", "tagliata", "sanguina", "gesneden", "bloedt"}) && !said([]string{"ring", "size", "by hand", "measured", "paper", "strip"})
	}
	return true
}
