package sentence

import (
	"math"
	"slices"
	"strings"
	"sync"

	"guildhand/bot/knowledge"
)

// A question in words that no fact foresaw is matched by the meaning of its
// words, in any order: every fact and every trouble is a bag of weighted words,
// words of one meaning count as one, and rare words weigh more. A strong match
// is answered, a weak one is asked back with up to three choices, and a message
// whose words are mostly unknown matches nothing.

// How much of a message's words, by weight, a topic must explain.
const (
	answers = 0.72 // to be the answer
	likely  = 0.62 // to be the answer where a job lacks every figure
	offers  = 0.38 // to be one of the choices
	margin  = 0.12 // by which the answer must lead the next topic
)

// sameMeaning are words of one meaning, one line each; the first stands for all.
var sameMeaning = strings.Split(`prong claw claws tine tip
ring band shank
bezel rubover
solder brazing braze soldering resolder
polish buff shine shiny polishing buffing mop
sand sandpaper emery grit sanding abrasive
heat hot temperature temp warm heated heating
anneal soften softened softening annealing
crack cracked cracks split splits tear tore fracture fractured
break broke broken snap snapped snaps snapping
loose wobble wobbles wobbly rattle rattles rattling moves spins
stone gem gemstone cab cabochon
firestain firescale fireskin
patina oxidise oxidize blacken darken antique liver sulphur sulfur
black blackened dark darkened
pink coppery
hole pit pinhole pits pitted holes porosity porous pinholes
torch flame burner
dull blunt matte
thick thickness gauge
wrinkle ripple pucker crease wrinkles wrinkled rippled buckle crinkle
bend bent curve
sheet plate
disc disk circle
dome doming dap dapping dapped
big large oversized loose
small short tight undersized
harden stiff stiffen hardened
wax waxes
casting cast
hammer mallet rawhide hammering
saw sawing fretsaw
drill drilling bit
bur burr burs burrs
melt melted melting
stick stuck sticks jam jammed jams
clean cleaning wash degrease
pickle pickling
flux fluxes borax
quench quenching quenched
protect shield cover
store storage keep stored
fumes ventilation extraction vent fume
mask respirator
glasses goggles eyewear
difference differ versus vs different
chip chipped chips
level even straight crooked tilted
scratch scratches scratched
earring earrings stud
clear transparent faceted
seam joint join joints joins
mandrel triblet
jeweller jeweler
crooked tilted skewed wonky`, "\n")

// plainWords say nothing about a subject.
var plainWords = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(`a an the this that these those it its is are was were be been being am do does did doing done have has had having
		i me my mine we us our you your he she his her they them their who whom which what whats when where why how whose
		and or but if so than then as of to in on at by for with from into onto up down out off over under about after before again
		can could will would should shall may might must not no yes dont doesnt didnt isnt wont cant couldnt
		just really very quite too also only even still always never ever now today yesterday time times
		get gets got getting go goes going went gone come comes came make makes made making take takes took put puts
		use uses used using need needs want wants like know think thought say says said tell told explain please help hi hey hello
		thanks thank anyone anybody someone somebody something anything everything thing things way ways bit little lot lots kind sort type
		any some all each every both one two first last next same other another more most much many
		there here im ive id ill youre thats whats lol guys question quick new good bad better best right wrong ok okay well
		see look looks try tried trying keep keeps start started end happen happens happened mean means meant work works working
		piece jewelry jewellery bench silver metal because until while though however yet around between without through back
		day days week weeks month year years old class teacher tutor book video youtube nothing sure maybe actually supposed seem seems problem issue fix actual
		whenever wherever somehow anyway once though why people beginner`) {
		all[w], all[stemOf(w)] = true, true
	}
	return all
}()

var meaningOf = func() map[string]string {
	all := map[string]string{}
	for _, line := range sameMeaning {
		words := strings.Fields(line)
		for _, w := range words {
			if s := stemOf(w); all[s] == "" {
				all[s] = stemOf(words[0])
			}
		}
	}
	return all
}()

// meaning is the word that stands for all words of its meaning, "" for a word
// that says nothing.
func meaning(w string) string {
	s := stemOf(w)
	if plainWords[w] || plainWords[s] || len(w) < 2 {
		return ""
	}
	if m := meaningOf[s]; m != "" {
		return m
	}
	return s
}

// topic is a fact or a trouble as a bag of words.
type topic struct {
	fact    *knowledge.Fact
	trouble *knowledge.Trouble
	// words are weights from 0 to 1; 1 is a word of its name or of what asks for it.
	words map[string]float64
	// questions are the meanings of each question that it is known to answer.
	questions []map[string]bool
	// name are the words of its name, one of which must be said.
	name map[string]bool
}

func (t *topic) label() string {
	if t.fact != nil {
		return t.fact.Key
	}
	return t.trouble.Key
}

func (t *topic) add(text string, weight float64) {
	for _, w := range strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "'", "")), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if m := meaning(w); m != "" {
			t.words[m] = math.Max(t.words[m], weight)
			if weight == 1 {
				t.name[m] = true
			}
		}
	}
}

func meanings(text string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(text) {
		if m := meaning(w); m != "" {
			all[m] = true
		}
	}
	return all
}

// alike is how much of a message and of the question most like it is shared, by
// weight, from 0 to 1.
func (t *topic) alike(words, rarity map[string]float64, total float64) float64 {
	best := 0.0
	for _, q := range t.questions {
		shared, asked := 0.0, 0.0
		for w := range q {
			asked += rarity[w]
			if words[w] > 0 {
				shared += words[w]
			}
		}
		best = math.Max(best, 2*shared/(total+asked+1e-9))
	}
	return best
}

// topics are all topics but those of one job, and the weight of each word: the
// rarer, the heavier. ringTopics are the facts of the ring's jobs.
var (
	topics     = sync.OnceValues(func() ([]topic, map[string]float64) { return bags(false, knowledge.Troubles()) })
	ringTopics = sync.OnceValues(func() ([]topic, map[string]float64) { return bags(true, nil) })
)

// bags are the facts of no job, or those of the ring's jobs, and the troubles as
// bags of words.
func bags(ofRings bool, troubles []knowledge.Trouble) ([]topic, map[string]float64) {
	var all []topic
	facts := knowledge.Facts()
	for i := range facts {
		f := &facts[i]
		if (f.Of != "") != ofRings {
			continue
		}
		t := topic{fact: f, words: map[string]float64{}, name: map[string]bool{}}
		t.add(strings.Join(append([]string{f.Key}, f.Term...), " "), 1)
		for _, q := range f.Questions {
			t.add(q, 1)
			t.questions = append(t.questions, meanings(q))
		}
		if !f.Warns { // their words are of many subjects
			for _, g := range f.Asks {
				t.add(strings.Join(g, " "), 0.9)
			}
		}
		t.add(f.Text, 0.45)
		all = append(all, t)
	}
	for i := range troubles {
		s := &troubles[i]
		t := topic{trouble: s, words: map[string]float64{}, name: map[string]bool{}}
		t.add(s.Key, 1)
		for _, g := range s.Signs {
			t.add(strings.Join(g, " "), 0.9)
		}
		t.add(strings.Join(append(slices.Clone(s.Causes), s.Now), " "), 0.4)
		all = append(all, t)
	}
	in := map[string]float64{}
	for _, t := range all {
		for w, weight := range t.words {
			in[w] += weight
		}
	}
	for w, n := range in {
		in[w] = math.Log(1 + float64(len(all))/(0.5+n))
	}
	return all, in
}

// match is how well a topic explains a message.
type match struct {
	*topic
	score float64
}

// nearestTopics are the topics that explain most of a message's words, the best
// first.
func (m *message) nearestTopics() []match {
	all, rarity := topics()
	return m.nearestOf(all, rarity)
}

func (m *message) nearestOf(all []topic, rarity map[string]float64) []match {
	unknown := math.Log(1 + float64(len(all)))
	words, total := map[string]float64{}, 0.0
	for _, t := range m.tokens {
		if !t.word() {
			continue
		}
		w := meaning(t.text)
		if w == "" || words[w] > 0 {
			continue
		}
		weight, known := rarity[w]
		if !known {
			weight = unknown
		}
		words[w] = weight
		total += weight
	}
	if total == 0 {
		return nil
	}
	var found []match
	for i := range all {
		t := &all[i]
		sum, named, hits := 0.0, false, 0
		for w, weight := range words {
			sum += weight * t.words[w]
			named = named || t.name[w]
			if t.words[w] > 0 {
				hits++
			}
		}
		if !named || hits < 2 {
			continue
		}
		score := math.Max(0.85*sum/total, t.alike(words, rarity, total))
		if score >= offers {
			found = append(found, match{t, score})
		}
	}
	slices.SortStableFunc(found, func(a, b match) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return strings.Compare(a.label(), b.label())
	})
	return found
}

// asksInWords reports whether a message is a question or tells of trouble, and
// not a room's chatter.
func (m *message) asksInWords() bool {
	return m.startsWith("is", "are", "can", "could", "do", "does", "did", "will", "would", "should", "was", "has") || m.defines() || strings.Contains(m.typed, "?") || m.says("how", "why", "what", "whats", "which", "when", "where", "can i", "do i", "should i", "is it", "does", "help", "my", "wont", "keeps", "best way", "tips", "advice", "explain", "difference")
}

// foreseen answers a question that is much like one that a topic is known to
// answer, where no figure asks for a piece.
func (m *message) foreseen() (Reading, bool) { return m.like(answers) }

// wordForWord answers a question that is all but the same as a known one.
func (m *message) wordForWord() (Reading, bool) {
	if m.defines() {
		return Reading{}, false
	}
	return m.like(0.93)
}

func (m *message) like(least float64) (Reading, bool) {
	if len(m.tokens) < 2 || len(m.found) > 0 {
		return Reading{}, false
	}
	near := m.nearestTopics()
	if len(m.alloys) > 0 && m.says("quench", "anneal", "annealing", "melting", "temperature", "temp") {
		least = max(least, 0.95) // figures of a metal are worked out
	}
	if !m.asksInWords() {
		least = max(least, 0.95)
	}
	if len(near) == 0 || near[0].score < least || len(near) > 1 && near[0].score-near[1].score < margin/2 {
		return Reading{}, false
	}
	return m.readingOf(near[0].topic), true
}

// jobOrKnown reads a job. Where it lacks everything and the message is much like
// a known question, that is answered in place of a question back.
func (m *message) jobOrKnown() (Reading, bool) {
	r, ok := m.job()
	if ok && r.Outcome != Unknown && !onlyKnowledge(r) && m.wantsKnowledge() {
		if known, ok := m.knownInWords(r); ok {
			return known, true
		}
	}
	if !ok || r.Outcome != Question || len(m.found) > 0 || !m.asksInWords() {
		return r, ok
	}
	near := m.nearestTopics()
	if len(near) > 0 && near[0].score >= likely && m.mayBe(near[0]) && (len(near) == 1 || near[0].score-near[1].score >= margin) {
		return m.readingOf(near[0].topic), true
	}
	return r, ok
}

// nearest answers by the nearest topic, or asks which of up to three is meant.
func (m *message) nearest() (Reading, bool) {
	if len(m.tokens) < 2 || !m.asksInWords() || len(m.found) > 0 && !m.wantsKnowledge() {
		return Reading{}, false
	}
	near := m.nearestTopics()
	if len(near) == 0 {
		return Reading{}, false
	}
	if near[0].score >= answers && (len(near) == 1 || near[0].score-near[1].score >= margin) || near[0].score >= m.knownEnough() && m.wantsKnowledge() && m.mayBe(near[0]) {
		return m.readingOf(near[0].topic), true
	}
	if m.context.Last != nil {
		if again, ok := m.lastAgain(); ok {
			return again, true
		}
	}
	r := Reading{Outcome: Question, Ask: "Which of these do you mean? If none, say it in other words"}
	for _, n := range near[:min(3, len(near))] {
		c := Choice{Label: n.label(), Request: "help", Options: map[string]string{"term": knowledge.Word(n.label())}}
		if n.trouble != nil {
			c.Request, c.Options = "trouble", map[string]string{"sign": knowledge.Word(n.label())}
		}
		r.Choices = append(r.Choices, c)
	}
	return r, true
}

func (m *message) readingOf(t *topic) Reading {
	if t.fact != nil {
		return explain(t.fact)
	}
	return m.troubleReading(t.trouble)
}
