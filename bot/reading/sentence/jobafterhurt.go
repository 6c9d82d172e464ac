package sentence

import "strings"

// Who has seen to a small hurt goes back to the job in the same message: "plaster on. how
// long do I cut the tube". The sentence on the job is answered, with what to do first.

// seenTo are words that a hurt has been seen to, by what hurt, and that somebody is back at
// work. What only sounds brave, such as "fine" and "not bad", is none of them.
var seenTo = map[string][]string{
	"burn": strings.Split("cooled|20 min|20 mins|20 minutes|twenty minutes|"+backAtWork, "|"),
	"skin": strings.Split("rinsed|washed off|washed it off|flushed|"+backAtWork, "|"),
	"cut":  strings.Split("plaster|plasters|bandaid|band aid|bandaged|dressed|patched|cleaned up|stopped bleeding|bleeding stopped|bleeding has stopped|"+backAtWork, "|"),
}

const backAtWork = "back to the job|back to work|back at work|back at the bench|back on the bench"

// notCaredFor are words of a hurt that was not seen to, or not long enough.
var notCaredFor = strings.Split("not|isnt|hasnt|havent|didnt|wont|without|except|yet|about to|going to|will|later|no plaster|quick|quickly|sec|secs|second|seconds|a minute|1 min|2 min|5 min|5 mins|one minute|two minutes|five minutes|wiped|ice|butter|toothpaste|superglue|should i|do i need|open|big|in it|still in|through the", "|")

// isWorse are words of a hurt that is worse than small, and of those who should see somebody.
var isWorse = strings.Split("not better|no better|not good|not fine|not ok|worse|white|charred|leathery|waxy|peeling|raw|weeping|blister|blisters|blistered|blistering|numb|cant feel|no feeling|tingling|doesnt hurt|no pain|cant move|cant bend|melted|stuck to|stuck in|spreading|throbbing|red streak|"+
	"palm|whole hand|bigger|huge|size of my|all round|all around|wrist|knuckle|knuckles|neck|foot|feet|groin|mouth|face|eye|eyes|ring wont come off|electric|electrical|shock|mains|"+
	"toddler|baby|pregnant|diabetic|dizzy|faint|shivering|fever|passed out|cant breathe|infected|pus|swelling|swollen|"+
	"deep|bone|blood|still bleeding|keeps bleeding|keeps coming|bleeding again|bleeding through|wont stop|pumping|spurting|gushing|dripping|gaping|tendon|stitches|rusty|tetanus|warfarin|metal still|glass still|"+
	"still sting|still stings|still stinging|stinging|still burns|still burning|still hurts|covered in|hydrofluoric|hf|fluoride|nitric|sulphuric|sulfuric|lye|caustic|soaked|doctor|hospital|ambulance", "|")

// tellsWorse reports whether what comes before the last sentence of a message tells that a
// hurt is no small one.
func (m *message) tellsWorse() bool {
	lead, _ := m.lastSentence()
	return saidOf(spaced(lead), isWorse)
}

// spaced are the words of a text with a blank on either side.
func spaced(text string) string { return " " + newMessage(text).text() + " " }

// fewestOfJob is how many words beside "how long" ask for more than how long to cool.
const fewestOfJob = 2

// firstCare goes with the answer: what a hurt needs before the job, and who needs help, as
// the first aid in bot/cautions has it.
var firstCare = map[string]string{
	"burn": "first be sure that the burn had 20 minutes under cool running water; if not, do that now. Stop and get medical help today if it blisters, is white, charred or numb, is bigger than your palm, or goes round a finger or wrist",
	"skin": "first be sure that the skin had 20 minutes under running water; if it still stings, rinse again. Get medical help now for a chemical burn, and for hydrofluoric acid call an ambulance, even without pain",
	"cut":  "stop and press again if it bleeds. Get help now if it still bleeds after 10 minutes of firm pressure, and today if it gapes, is numb, won't bend or has something in it",
}

// jobAfterwards is what the last sentence of a message asks of a piece or of the trade, where
// the sentences before it tell that a small hurt was seen to.
func (m *message) jobAfterwards() (Reading, bool) {
	if len(seenTo[m.context.Aid]) == 0 || m.context.AidOfAnother {
		return Reading{}, false
	}
	lead, rest := m.lastSentence()
	said := spaced(lead)
	if rest == "" || !saidOf(said, seenTo[m.context.Aid]) || saidOf(said, notCaredFor) || saidOf(said, isWorse) || strings.Contains(lead, "?") {
		return Reading{}, false
	}
	c := m.context
	c.Aid, c.memory, c.Said = "", nil, ""
	job := newMessage(rest)
	job.context = m.context
	bears := newMessage(strings.ReplaceAll(strings.ToLower(rest), "how long", "")) // a strip is asked for so too
	if bears.words() < fewestOfJob || bears.bearsOn(m.context.Aid) {
		return Reading{}, false
	}
	r := Read(rest, c)
	switch {
	case r.Request != "" && readersOf[r.Request] == nil && r.Request != "heat":
		return Reading{}, false
	case r.Outcome == Request, r.Outcome == Question && r.Request != "" && (r.Missing != "" || r.Unplaced != ""):
	case r.Outcome == Explanation && job.chance(knowing...) >= certain:
	default:
		return Reading{}, false
	}
	r.Notes = append(r.Notes, firstCare[m.context.Aid])
	return r, true
}

// sentenceEnds are marks that part the sentences of a message.
const sentenceEnds = ".!;:\n"

// lastSentence is a message in two: what comes before its last sentence, and that. Clauses
// at the beginning of it that speak of the hurt belong to what comes before.
func (m *message) lastSentence() (lead, rest string) {
	typed := strings.TrimRight(m.typed, " .!?\n")
	at := -1
	for i := 0; i < len(typed)-1; i++ {
		if strings.IndexByte(sentenceEnds, typed[i]) >= 0 && (typed[i+1] == ' ' || typed[i] == '\n') {
			at = i
		}
	}
	if at < 0 {
		return "", ""
	}
	lead, rest = typed[:at], strings.TrimSpace(typed[at+1:])
	for {
		clause, after, found := strings.Cut(rest, ",")
		if !found || !m.leadsOver(clause) {
			return lead, rest
		}
		lead, rest = lead+", "+clause, strings.TrimSpace(after)
	}
}

// leadsOver reports whether a clause has nothing of the job: it tells of the hurt, or is a
// word or two before the question.
func (m *message) leadsOver(clause string) bool {
	c := newMessage(clause)
	if len(c.found)+len(c.alloys) > 0 || strongest(c.cues) >= 3 {
		return false
	}
	return c.words() <= 2 || saidOf(" "+c.text()+" ", hurtWords)
}
