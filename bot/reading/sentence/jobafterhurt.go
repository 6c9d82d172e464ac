package sentence

import (
	"strings"
)

// Who has seen to a small hurt goes back to the job in the same message: "plaster on. how
// long do I cut the tube". The sentence on the job is answered, and the hurt is thought of.

var (
	// smallHurts are those after which somebody may go on.
	smallHurts = map[string]bool{"burn": true, "skin": true, "cut": true}
	// seenTo are words that the hurt has been seen to, and getsWorse those that it has not.
	seenTo    = strings.Split("fine|ok|okay|better|done|good|bandaged|dressed|plaster|plasters|bandaid|band aid|wrapped|covered|cooled|cooling|stopped|sorted|back to|back at|back on|leave it|leave it be|gone|healed|healing|no blister|patched|cleaned up|washed off|rinsed|not bad|alright|all right|ill live|under the tap|under the cold tap|under water", "|")
	getsWorse = strings.Split("white|charred|black|numb|cant feel|cant move|cant bend|spreading|dizzy|faint|shivering|face|eye|eyes|deep|bone|still bleeding|wont stop|worse|baby|infected|pus|swelling|swollen|through the|soaked|doctor|hospital|er|a e|ambulance|should i|do i need", "|")
)

// careStill goes with the answer.
const careStill = "if the hurt gets worse, or a burn blisters or stays white or numb, stop and see a doctor before you go on"

// jobAfterwards is what the last sentence of a message asks of a piece or of the trade, where
// the sentences before it tell that a small hurt was seen to.
func (m *message) jobAfterwards() (Reading, bool) {
	if !smallHurts[m.context.Aid] || m.context.AidOfAnother {
		return Reading{}, false
	}
	lead, rest := m.lastSentence()
	said := " " + newMessage(lead).text() + " "
	if rest == "" || !saidOf(said, seenTo) || saidOf(said, getsWorse) || strings.Contains(lead, "?") {
		return Reading{}, false
	}
	c := m.context
	c.Aid, c.memory, c.Said = "", nil, ""
	job := newMessage(rest)
	job.context = m.context
	bears := newMessage(strings.ReplaceAll(strings.ToLower(rest), "how long", "")) // a strip is asked for so too
	if bears.bearsOn(m.context.Aid) {
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
	r.Notes = append(r.Notes, careStill)
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
