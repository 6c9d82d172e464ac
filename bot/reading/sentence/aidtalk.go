package sentence

import (
	"slices"
	"strings"

	"guildhand/bot/cautions"
)

// What follows first aid is read as part of it, until a whole new question comes:
// "butter?", "we're rinsing now, still red", "she's fine now". The first aid is
// said again, and before it the line of it that bears on the message.

// aidLine is a line of first aid with the words that ask for it, or tell that it
// is needed. A new one is one literal.
type aidLine struct {
	// job is the first aid; empty for any.
	job string
	// asks are words and phrases of which one must be said.
	asks string
	// line is how the line begins in package cautions; where nothing begins so, it
	// is said as it stands (common practice).
	line string
}

// aidLines are tried in this order: what must not be done comes first.
var aidLines = []aidLine{
	{"", "carry on soldering|carry on working|carry on with the|carry on after|keep soldering|keep working|back to work|back to the|back to my|work on the|finish my|finish the|later today|solder again|use my hand|go on soldering|go on working", "Stop work and rest: the hurt comes first, and see a doctor before you go on if you are in doubt."},
	{"eyes", "soda|bicarb|bicarbonate|baking|neutralise|neutralize|vinegar|milk|lemon|drops|eyedrops|eye drops|saline|contact solution|ointment|visine|optrex|tea bag|honey", "Use water only"},
	{"eyes", "rub|rubbing|rubbed|tweezers|magnet|cotton bud|q tip|pull it out|pick it out|get it out|dig it out|poke|stuck in|sticking|embedded|piece of metal|shard", "Metal or glass stuck in the eye"},
	{"eyes", "contact|contacts|lens|lenses|other eye|both eyes", "Turn the head"},
	{"eyes", "grit|dust|filings|speck|polish", "Loose grit"},
	{"eyes", "welding|torch|flash|bright|hours ago|last night|yesterday", "Pain or gritty eyes"},
	{"shock", "touch|grab|hold|drag|pull him|pull her|still holding|cant let go|wont let go|switch|mains|plug|fuse|breaker", "If you cannot switch it off"},
	{"shock", "breathing|breathe|breathes|cpr|unconscious|unresponsive|pulse|defibrillator|aed|not answering|doesnt answer", "If the person does not answer and does not breathe"},
	{"shock", "burn|burnt|burned|mark|blister", "When the current is off, cool"},
	{"shock", "tap|machine|motor|use it again|plug it back|earth|fix it", "Leave the machine unplugged"},
	{"shock", "fine|better|ok now|okay now|all right|alright|tingling|tingles|tingly|heart|fluttering|racing|small|little|tiny|doctor|hospital", "Everybody who had a shock"},
	{"hurt", "wake up|waking up|wake him|wake her|out cold|not answering|isnt answering|wont answer|does not answer|not moving|doesnt move|breathing|breathe|breathes|cpr|unconscious|unresponsive|pulse|defibrillator|aed|doesnt answer", "If the person does not answer and does not breathe"},
	{"hurt", "chest|heart|aspirin", "Chest pain"},
	{"hurt", "nose|ear|tweezers|dig|bead", "Something in the nose or ear"},
	{"hurt", "sleep|asleep|drowsy|vomit|vomited|vomiting|sick|headache|confused|head|concussion", "After a blow to the head"},
	{"hurt", "move|lift|carry|sit up|stand|get up|walk|neck|back|spine", "After a fall"},
	{"hurt", "water|drink|eat|tea|coffee|brandy|painkiller|painkillers|paracetamol|ibuprofen|sugar|food", "Give nothing to eat or drink"},
	{"hurt", "ring|soap", "Ring stuck on a swelling finger"},
	{"hurt", "ice|swollen|swelling|bent|broken|crooked|splint|straighten|sprain|sprained|crushed|crush|squashed|pinched|trapped|flat|flattened|purple|black|foot|toe|toes|thumb|finger|fingers|hand|wrist", "Broken, crushed or badly twisted"},
	{"hurt", "bleeding|blood", "Heavy bleeding"},
	{"hurt", "kiln|gas|fumes|torch|smoke|heater", "If somebody faints"},
	{"skin", "soda|bicarb|bicarbonate|baking|neutralise|neutralize|vinegar|milk|lemon|soap|cream|lotion|butter|aloe|moisturiser|moisturizer|oil|savlon|vaseline|ointment|wipe|wipes|alcohol|ammonia", "Use water only"},
	{"skin", "fluoride|hydrofluoric|hf|rust remover|calcium|gluconate", "Fluoride flux"},
	{"skin", "jeans|trousers|sleeve|shirt|clothes|shoe|shoes|sock|socks|ring|rings|watch|apron|gloves", "While you rinse"},
	{"burn", "on fire|caught fire|catches fire|catch fire|caught alight|in flames|stop drop|flames", "Clothes or hair on fire"},
	{"fire", "extinguisher|blanket|lid|smother|water|bucket|hose it|put it out|sand|wet", "Only a fire no larger"},
	{"fire", "cylinder|valve|turn off the gas|turn the gas off|bottle|tank|regulator|propane|acetylene|oxygen", "A torch, hose or regulator"},
	{"fire", "it went out|its out|out now|gone out|went out|put out|is out|fine|ok now", "Never go near a cylinder"},
	{"fire", "go back|get my|fetch|rescue my|laptop|cat|dog", "Do not go back in"},
	{"fire", "plug|socket|electric|electricity|mains|kiln|motor", "Electricity"},
	{"burn", "butter|margarine|ghee|ice|iced|frozen|freezer|peas|snow|toothpaste|cream|lotion|moisturiser|moisturizer|aloe|honey|egg|eggs|oil|olive|coconut|vinegar|mustard|soy|flour|ointment|savlon|vaseline|lard|potato|tea bag|lavender|sudocrem|neosporin|burn gel|burn spray|pop|popped|popping|burst|lance|pierce|drain|prick|needle|peel", "No ice, no butter"},
	{"burn", "electric|electricity|shock|mains|motor|socket", "Burnt by electricity"},
	{"burn", "ring|rings|watch|bracelet|sleeve|clothes|shirt|glove|sock|stuck to|sticking|wax|swell|swelling|swollen|puffy", "Take off rings"},
	{"burn", "cover|wrap|bandage|bandaid|band aid|plaster|plasters|cling|clingfilm|film|dress|dressing|gauze|bag|tape", "After cooling"},
	{"burn", "acid|pickle|flux|chemical|caustic", "A burn by a chemical"},
	{"burn", "shivering|shivery|cold|freezing|faint|shaking", "Keep the rest of the person warm"},
	{"swallowed", "vomit|vomiting|throw up|be sick|make him sick|make her sick|make them sick|sick it up|bring it up|gag|finger down|fingers down|salt water|ipecac|mustard|throwing up|threw up|hydrogen peroxide", "Rinse the mouth"},
	{"swallowed", "milk|water|drink|drinking|eat|bread|charcoal|yoghurt|yogurt|antacid|soda|bicarb|lemon|oil|egg|tums|gaviscon|tea|juice|cola", "Give nothing to eat or drink"},
	{"swallowed", "drowsy|sleepy|breathe|breathing|choking|choke|coughing|wheezing|unconscious|passed out|drooling", "Trouble with breathing"},
	{"fumes", "go in|go back in|get him out|get her out|drag|hold my breath|fetch", "Do not hold your breath"},
	{"fumes", "mouth to mouth|cpr|rescue breaths|not breathing|stopped breathing|cyanide", "After liver of sulphur"},
	{"fumes", "milk|water|sleep it off|lie down|lying down|bed|alone|sit|resting|drink|coffee|tea", "Awake: sit"},
	{"fumes", "fever|chills|shivering|shivers|brass|bronze|zinc|flu|sweats|nickel silver|galvanised|galvanized", "Chills and fever"},
	{"fumes", "cadmium|nitric|brown|acid|bleach|chlorine|fluoride", "See a doctor even if"},
	{"cut", "pull it out|take it out|pull out|get it out|pliers|dig|still in|stuck|in there|sticking out|tweezers|magnet|remove it|yank", "Something stuck in it"},
	{"cut", "splinter|sliver|burr|shard", "A small splinter"},
	{"cut", "tourniquet|belt|tie|tied|string|elastic", "Press on it, and tie nothing round it unless the emergency service tells you to."},
	{"cut", "soaked|soaking|through the|another cloth|new one|change the|tissue|second cloth", "If blood soaks through"},
	{"cut", "super glue|superglue|glue|cauterise|cauterize|alcohol|peroxide|vinegar|coffee|pepper|honey|cobweb|turmeric|flour|wash|washed|rinse|clean|disinfect|antiseptic|plaster|bandaid|band aid|tape|tetanus|jab", "When it has stopped"},
	{"cut", "numb|cant feel|cant bend|cant move|wont move|wont bend|tingling|deep|bone|fat|tendon|stitches", "See a doctor today"},
	{"cut", "oil|grease|hydraulic|injected", "Oil or grease shot"},
	{"fumes", "fine|better|ok now|okay now|all right|alright|gone|feels good|feel good|nothing wrong", "See a doctor even if"},
	{"eyes", "feels fine|is fine|its fine|seems fine|all fine|feels ok|feels okay|is ok now|its ok now|feels better|is better|much better|all good|no pain|doesnt hurt|stopped hurting|stopped stinging", "Then go to hospital at once"},
	{"eyes", "how long|how many|minutes|minute|mins|min|long enough|enough|stop|still|rinsing|rinsed|rinse|flushing|flushed|washing|washed|tap|shower|hose|bottle|eyewash|red|stings|stinging|sore|blurry|blurred", "If you are alone, rinse first"},
}

// callWords ask whom to call, or tell that it is over; the line on the call
// answers both.
var callWords = strings.Split("doctor|doctors|hospital|a e|er|emergency|ambulance|call|phone|ring 999|urgent care|clinic|gp|nurse|poison|bad|serious|worse|white|charred|big|bigger|face|fine|better|ok now|okay now|all right|alright|stopped hurting|doesnt hurt|not hurting|gone|who do i|should i go|111|999|911|112|scared|worried", "|")

// hurtWords go with a hurt, in whatever somebody says of it.
var hurtWords = strings.Split("how long|hold it|hurt|hurts|hurting|pain|painful|sore|red|sting|stings|stinging|burn|burns|burning|burnt|burned|blister|blisters|bleeding|blood|swelling|swollen|numb|eye|eyes|hand|hands|finger|fingers|thumb|arm|skin|face|mouth|throat|chest|he|she|him|her|hes|shes|they|theyre|kid|student|mum|mom|wife|husband|nurse|doctor|water|tap|rinse|rinsing|rinsed|cold|cool|cooling|bandage|plaster|ambulance|hospital|breathing|dizzy|sick|scar|vomit|press|pressing|elevate|paramol|paracetamol|ibuprofen|aspirin|painkiller|painkillers|first aid", "|")

// afterAid reads a message that follows first aid. hurt is what it says alone.
func (m *message) afterAid(hurt Reading, isHurt bool) (Reading, bool) {
	job := m.context.Aid
	said := " " + m.text() + " "
	if r, ok := m.jobAfterwards(); ok && (!isHurt || !m.anotherHurt(hurt.Topic)) {
		return r, true
	}
	asked := aidAskedFor(aidText(m.typed))
	switch {
	case asked != "":
		job = asked
	case isHurt && m.anotherHurt(hurt.Topic):
		job = hurt.Topic
	case !isHurt && m.asksToPrevent(job):
		return m.prevention(job), true
	case isHurt:
	case m.context.AidOfAnother && !m.bearsOn(job), m.asksAfresh() && !m.tellsWorse():
		return Reading{}, false
	}
	r := aidFor(job)
	r.Verdict = aidLead(job, said)
	return r, true
}

// happensAgain are words by which somebody asks how it is kept from happening again, and
// ofSafety those that ask it only after a small hurt. ofWound is what is done about this one.
var (
	happensAgain = strings.Split("next time|happen again|happens again|happening again|happened again|in future|in the future|from now on", "|")
	ofSafety     = strings.Split("nobody else|no one else|noone else|the others|more safely|safer way|safe way|safest way", "|")
	ofWound      = strings.Split("scar|scars|scarring|infection|infected|blister|blisters|blistering|bleeding|bleed|swelling|swell|sting|stings|stinging|hurting|tetanus|cream|bandage|plaster|doctor|hospital|rinse|rinsing|wash|washing|cool|cooling|treat|treating|press|pressing|breathe|breathing|unconscious|out", "|")
)

// asksToPrevent reports whether a message that follows first aid asks how the next such hurt
// is avoided, and nothing of this one. After what may cost a life only plain words do.
func (m *message) asksToPrevent(aid string) bool {
	said := " " + m.text() + " "
	asks := m.questionWord() || m.says("what", "how", "anything", "tell") || strings.Contains(m.typed, "?")
	small := aid == "burn" || aid == "skin" || aid == "cut"
	return asks && !saidOf(said, ofWound) && (saidOf(said, happensAgain) || small && saidOf(said, ofSafety))
}

// likeliestJobs are the jobs at which each hurt mostly happens; common practice, no source.
var likeliestJobs = map[string]string{"burn": "soldering", "skin": "pickle", "cut": "saw", "fire": "soldering", "fumes": "chemicals"}

// prevention are the cautions of the job that is named or at which such a hurt mostly
// happens, or the question which job it was.
func (m *message) prevention(aid string) Reading {
	for _, j := range cautionJobs {
		if m.has(j.means...) && !contains(j.means, "safety") {
			return Reading{Outcome: Request, Request: "cautions", Options: map[string]string{"job": j.job}}
		}
	}
	if job := likeliestJobs[aid]; job != "" {
		return Reading{Outcome: Request, Request: "cautions", Options: map[string]string{"job": job}}
	}
	d := m.draft("cautions")
	d.askJob()
	return d.reading()
}

// anotherHurt reports whether a first aid that a message asks for alone takes the
// place of the one that is going on: "it's stinging" tells of the same hurt.
func (m *message) anotherHurt(job string) bool {
	said := " " + m.text() + " "
	switch job {
	case "burn", "skin":
		if m.context.Aid == "skin" && !saidOf(said, strings.Fields("hot torch flame molten steam wax")) {
			return false // acid burns too
		}
		return m.context.Aid != "eyes" && m.context.Aid != "shock" && saidOf(said, limbs) // current burns too
	case "fumes":
		// Who does not breathe after a shock or a blow has not breathed gas.
		return m.context.Aid != "shock" && m.context.Aid != "hurt" || saidOf(said, strings.Fields("fume fumes smoke gas vapour vapours"))
	case "eyes":
		return saidOf(said, sight)
	case "cut":
		return saidOf(said, limbs) && saidOf(said, strings.Fields("cut sliced bleeding stabbed crushed drilled sawed"))
	}
	return true
}

// bearsOn reports whether a message is about the hurt at all.
func (m *message) bearsOn(job string) bool {
	said := " " + m.text() + " "
	return saidOf(said, hurtWords) || saidOf(said, callWords) || slices.ContainsFunc(aidLines, func(l aidLine) bool {
		return (l.job == job || l.job == "") && saidOf(said, strings.Split(l.asks, "|"))
	})
}

// asksAfresh reports whether a message is a whole new question, which the first aid
// before it has nothing to do with. In doubt it is not.
func (m *message) asksAfresh() bool {
	const longestOfHurt = 8
	said := " " + m.text() + " "
	named := len(m.alloys) > 0 || len(m.found) > 0
	if m.context.Last != nil && m.startsWith(goingOn...) && (len(m.alloys) > 0 || m.of(gauge, size) != nil) && !saidOf(said, hurtWords) {
		return true
	}
	alone := Read(m.typed, Context{memory: m.memory, Takes: m.context.Takes, Addressed: true, surely: true})
	switch alone.Outcome {
	case Request:
		if alone.Request == "cautions" || alone.Request == "trouble" || alone.Request == "help" {
			return false
		}
		return m.ownJob() && named && !saidOf(said, hurtWords) || m.stoneSides() != nil || m.of(ringSize) != nil || len(m.alloys) > 0 && m.of(gauge) != nil
	case Question:
		return m.ownJob() && len(m.found)+len(m.alloys) > 1 && !saidOf(said, hurtWords)
	case Explanation:
		return len(m.tokens) > 1 && m.chance(knowing...) >= certain && (m.questionWord() || strings.Contains(m.typed, "?")) && !m.bearsOn(m.context.Aid)
	case Declined: // "about the size of a 2p" asks for nothing
		return !m.bearsOn(m.context.Aid) && (m.questionWord() || strings.Contains(m.typed, "?") || m.words() > longestOfHurt)
	}
	return false
}

// aidLead is the line of a first aid that bears on what was said; empty where the
// first aid itself says it first.
func aidLead(job, said string) string {
	for _, l := range aidLines {
		if l.job != "" && l.job != job || !saidOf(said, strings.Split(l.asks, "|")) {
			continue
		}
		return lineOf(job, l.line)
	}
	if saidOf(said, callWords) {
		if f, ok := cautions.FirstAidFor(job); ok {
			return f.Call.Text
		}
	}
	return ""
}

// lineOf is the published line that begins so; the first aid's own first line is
// said anyway and is left out.
func lineOf(job, begins string) string {
	f, ok := cautions.FirstAidFor(job)
	if !ok || strings.HasPrefix(f.Now.Text, begins) {
		return ""
	}
	for _, l := range f.Lines() {
		if strings.HasPrefix(l.Text, begins) {
			return l.Text
		}
	}
	return begins
}
