package sentence

import (
	"fmt"
	"maps"
	"math"
	"math/bits"
	"slices"
	"strings"
	"sync"

	"github.com/agnivade/levenshtein"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/intent"
)

// A question in words that no fact foresaw is matched by the meaning of its
// words, in any order: every fact and every trouble is a bag of weighted words,
// words of one meaning count as one, and rare words weigh more. A strong match
// is answered, a weak one is asked back with up to three choices, and a message
// whose words are mostly unknown matches nothing.

// How much of a message's words, by weight, a topic must explain.
const (
	answers    = 0.72 // to be the answer
	likely     = 0.6  // to be the answer where a job lacks every figure
	alsoFor    = 0.5  // to be the answer where a subject is left to others otherwise
	offers     = 0.38 // to be one of the choices
	margin     = 0.1  // by which the answer must lead the next topic
	nearlySame = 0.9  // from where no lead is asked for
	strayShare = 0.2  // lost where all words that the topic lacks name other topics
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
dull blunt
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
crooked tilted skewed wonky
beginner beginners learner novice newbie starter
customer customers client wearer
swim pool swimming sea
pouch box bag
daft stupid silly mad
poke poking protrude
burnout burning
jump hop hops
matte frosted satin brushed
finesilver puresilver
peel skin
string tension
cold chilly
sieve mesh
buy bought
rust rusted rusty
die dies
tweezer tweezers tongs
sharpen sharp
hide invisible`, "\n")

// plainWords say nothing about a subject.
var plainWords = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(`a an the this that these those it its is are was were be been being am do does did doing done have has had having
		i me my mine we us our you your he she his her they them their who whom which what whats when where why how whose
		and or but if so than then as of to in on at by for with from into onto up down out off over under about again
		can could will would should shall may might must not no yes dont doesnt didnt isnt wont cant couldnt
		just really very quite too also only even still always never ever now today yesterday time times
		get gets got getting go goes going went gone come comes came make makes made making take takes took put puts
		use uses used using need needs want wants like know think thought say says said tell told explain please help hi hey hello
		thanks thank anyone anybody someone somebody something anything everything thing things way ways bit little lot lots kind sort type
		any some all each every both two last next other another more most much many
		there here im ive id ill youre thats whats lol guys question quick new good bad better best right wrong ok okay well
		look looks try tried trying keep keeps start started end happen happens happened mean means meant work works working
		tap piece jewelry jewellery bench silver metal because until while though however yet around between through back
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
	if w == "plumbing" { // its stem is that of plumb gold
		return "plumber"
	}
	s := stemOf(w)
	if plainWords[w] || plainWords[s] || len(w) < 2 {
		return ""
	}
	if m := meaningOf[s]; m != "" {
		return m
	}
	return s
}

// oneWord are phrases that name one thing. The matcher reads each as one word, so
// that "saw blade" and "saw frame" do not meet in "saw".
var oneWord = func() map[string]string {
	all := map[string]string{}
	for _, p := range strings.Split(`piercing saw,split ring,split mandrel,snap mandrel,torch tip,pure silver,rub over,fire scale,fire stain,back plate,base plate,jump ring,ear wire,ear post,earring post,saw blade,half round,dead soft,half hard,full hard,work harden,work hardened,work hardening,
		age harden,slow cooker,heat sink,third hand,bench pin,bench peg,binding wire,step bezel,tube setting,tube set,flush set,flush setting,gypsy set,gypsy setting,soft solder,hard solder,easy solder,medium solder,
		paste solder,solder paste,strip solder,sheet solder,wire solder,fine silver,white gold,rose gold,red gold,yellow gold,green gold,nickel silver,german silver,gold filled,gold plated,silver plated,
		boric acid,citric acid,ear ring,draw plate,rolling mill,ring clamp,ring stick,pin back,brooch pin,vent hole,air hole,carbon monoxide,burn out,neutral factor,k factor,orange peel,ring size,
		magic marker,permanent marker,felt tip,oil stone,cross peen,ball peen,flex shaft,pendant motor,jewellers saw,melting point,flow point,soldering iron,lead free,cold connection,wax pen,liver sulphur,liver sulfur`, ",") {
		p = strings.TrimSpace(p)
		all[p] = strings.ReplaceAll(p, " ", "")
		if !strings.HasSuffix(p, "s") {
			all[p+"s"] = all[p]
		}
	}
	return all
}()

// kindsOfQuestion are what a question asks for, by how it is put. Two questions of
// one kind are a little more alike.
var kindsOfQuestion = [][]string{
	{"why", "how come", "reason"},
	{"how long do i leave", "how long in", "how long does", "how long will", "how long should", "how many minutes", "how many hours"},
	{"how often", "how many times"},
	{"how hot", "what temp", "what temperature", "what heat"},
	{"which", "what kind", "what sort", "what type"},
	{"where"},
	{"when do", "when should", "before or after", "how do i know", "how can i tell"},
	{"how much", "how many", "how big", "how thick", "how thin", "how wide", "how deep", "how high", "how tall", "what size", "what gauge", "what thickness"},
	{"how do", "how to", "how can", "how would", "how should", "best way", "way to", "tips"},
}

// question is a question or a message as the matcher reads it.
type question struct {
	words   map[string]bool
	pairs   map[string]bool
	kinds   uint16 // a bit for each of kindsOfQuestion
	content int
	weight  float64 // of all of it, once weighed
	// wordList and pairList are its words and pairs with their weights, in the order of
	// the alphabet, once weighed.
	wordList, pairList []weighed
	// has are the numbers of its words and pairs, once weighed.
	has numbers
}

// weighed is a word or a pair of words with what it weighs, and its number among those
// of the topics' questions, 0 for one that they have not.
type weighed struct {
	text   string
	weight float64
	number int
}

// numbers are a set of small numbers.
type numbers []uint64

func (n *numbers) add(i int) {
	for len(*n) <= i/64 {
		*n = append(*n, 0)
	}
	(*n)[i/64] |= 1 << (i % 64)
}

func (n numbers) have(i int) bool { return i/64 < len(n) && n[i/64]&(1<<(i%64)) != 0 }

// asQuestion reads words in lower case.
func asQuestion(words []string) question {
	q := question{words: map[string]bool{}, pairs: map[string]bool{}}
	text := " " + strings.Join(words, " ") + " "
	for i, put := range kindsOfQuestion {
		if slices.ContainsFunc(put, func(p string) bool { return saysWhole(text, p) }) {
			q.kinds |= 1 << i
		}
	}
	last := ""
	for i := 0; i < len(words); i++ {
		w := words[i]
		if i+1 < len(words) {
			if one := oneWord[w+" "+words[i+1]]; one != "" {
				w = one
				i++
			}
		}
		mean := meaning(w)
		if mean == "" {
			continue
		}
		q.words[mean] = true
		if last != "" && last != mean {
			q.pairs[last+" "+mean] = true
		}
		last = mean
	}
	q.content = len(q.words)
	return q
}

// wordsOf splits a text of ours into words in lower case.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "'", "")), func(r rune) bool { return (r < 'a' || r > 'z') && r != 'é' })
}

// topic is a fact or a trouble as a bag of words.
type topic struct {
	fact    *knowledge.Fact
	trouble *knowledge.Trouble
	// words are weights from 0 to 1; 1 is a word of its name or of what asks for it.
	words map[string]float64
	// questions are those that it is known to answer, its terms among them; firstQuestion
	// is the place of the first among those of all topics.
	questions     []question
	firstQuestion int
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
	for w := range asQuestion(wordsOf(text)).words {
		t.words[w] = math.Max(t.words[w], weight)
		if weight == 1 {
			t.name[w] = true
		}
	}
}

func (t *topic) answersTo(questions []string) {
	for _, q := range questions {
		t.add(q, 1)
		if asked := asQuestion(wordsOf(q)); asked.content > 0 {
			t.questions = append(t.questions, asked)
		}
	}
}

// weights say how much a word tells of a subject: the rarer, the more.
type weights struct {
	rarity map[string]float64
	// names is how many topics have a word in their name or their questions.
	names   map[string]int
	unknown float64
	kind    float64
	// numbers are those of the words and pairs of the topics' questions, from 1.
	numbers map[string]int
}

func (w *weights) word(s string) float64 {
	if r, ok := w.rarity[s]; ok {
		return r
	}
	return w.unknown
}

// pairShare is what two words side by side add, as a share of what they weigh.
const pairShare = 0.15

func (w *weights) pair(p string) float64 {
	first, second, _ := strings.Cut(p, " ")
	return pairShare * (w.word(first) + w.word(second))
}

// weigh notes what a question's words and pairs weigh, and all of it together. It
// goes by the alphabet, so that a sum is always the same.
func (w *weights) weigh(q *question) {
	q.wordList, q.pairList = w.listed(q.words, w.word), w.listed(q.pairs, w.pair)
	q.weight = w.kind * float64(bits.OnesCount16(q.kinds))
	for _, each := range [][]weighed{q.wordList, q.pairList} {
		for _, e := range each {
			q.weight += e.weight
			if e.number > 0 {
				q.has.add(e.number)
			}
		}
	}
}

func (w *weights) listed(texts map[string]bool, weight func(string) float64) []weighed {
	list := make([]weighed, 0, len(texts))
	for _, s := range slices.Sorted(maps.Keys(texts)) {
		list = append(list, weighed{s, weight(s), w.numbers[s]})
	}
	return list
}

// number gives the words and pairs of a question their numbers.
func (w *weights) number(q *question) {
	for _, texts := range []map[string]bool{q.words, q.pairs} {
		for s := range texts {
			if w.numbers[s] == 0 {
				w.numbers[s] = len(w.numbers) + 1
			}
		}
	}
}

// knownTopics are topics with the weight of each word among them.
type knownTopics struct {
	all []topic
	// having are the topics that have a word.
	having map[string][]having
	// askedWith are the questions that have a word or a pair, by its number and by their
	// place among those of all topics, which are questions in number.
	askedWith [][]int
	questions int
	*weights
}

// having is a topic that has a word: its place among all, what the word weighs in it
// and whether it is of its name.
type having struct {
	at     int
	weight float64
	named  bool
}

// tally is what the words of a message say for one topic.
type tally struct {
	sum                 float64
	astray              float64 // of words that other topics go by and this has not
	hits                int
	named, own, telling bool
}

// tallies count the words of a message for every topic that has one.
func (known *knownTopics) tallies(said *question) []tally {
	all := make([]tally, len(known.all))
	named := 0.0 // of words that any topic goes by
	for _, s := range said.wordList {
		goesBy := known.names[s.text] > 0
		if goesBy {
			named += s.weight
		}
		own, telling := !ofEveryTopic[s.text], known.names[s.text] <= 2
		for _, h := range known.having[s.text] {
			t := &all[h.at]
			t.sum += s.weight * h.weight
			t.hits++
			if goesBy {
				t.astray -= s.weight
			}
			t.named = t.named || h.named
			t.own = t.own || own
			t.telling = t.telling || h.named && telling
		}
	}
	for i := range all {
		all[i].astray = max(0, all[i].astray+named)
	}
	return all
}

// topics are all topics but those of one job. ringTopics are the facts of the ring's
// jobs.
var (
	topics     = sync.OnceValue(func() *knownTopics { return topicsOf(false, knowledge.Troubles()) })
	ringTopics = sync.OnceValue(func() *knownTopics { return topicsOf(true, nil) })
)

// topicsOf are the facts of no job, or those of the ring's jobs, and the troubles.
func topicsOf(ofRings bool, troubles []knowledge.Trouble) *knownTopics {
	var all []topic
	facts := knowledge.Facts()
	for i := range facts {
		f := &facts[i]
		if (f.Of != "") != ofRings {
			continue
		}
		t := topic{fact: f, words: map[string]float64{}, name: map[string]bool{}}
		t.add(f.Key, 1)
		t.answersTo(f.Term)
		t.answersTo(f.Questions)
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
		t.answersTo(append([]string{s.Key}, s.Questions...))
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
	most := math.Log(1 + float64(len(all)))
	for w, n := range in {
		in[w] = math.Log(1 + float64(len(all))/(0.5+n))
	}
	w := &weights{rarity: in, names: map[string]int{}, numbers: map[string]int{}, unknown: 0.45 * most, kind: 0.2 * most}
	for _, t := range all {
		for s := range t.name {
			w.names[s]++
		}
	}
	known := &knownTopics{all: all, having: map[string][]having{}, weights: w}
	for i := range all {
		all[i].firstQuestion = known.questions
		for k := range all[i].questions {
			known.note(&all[i].questions[k])
		}
		for word, weight := range all[i].words {
			known.having[word] = append(known.having[word], having{i, weight, all[i].name[word]})
		}
	}
	return known
}

// note notes the words and pairs of the next question.
func (known *knownTopics) note(q *question) {
	known.number(q)
	known.weigh(q)
	q.has = nil // of a message alone
	for len(known.askedWith) <= len(known.numbers) {
		known.askedWith = append(known.askedWith, nil)
	}
	for _, list := range [][]weighed{q.wordList, q.pairList} {
		for _, w := range list {
			known.askedWith[w.number] = append(known.askedWith[w.number], known.questions)
		}
	}
	known.questions++
}

// inCommon is what a question has of a message: the weight of the words and pairs, and how
// many words they are.
type inCommon struct {
	weight float64
	words  int
}

// sharedWith is what each question of all topics has of a message.
func (known *knownTopics) sharedWith(said *question) []inCommon {
	all := make([]inCommon, known.questions)
	for _, w := range said.wordList {
		if w.number > 0 {
			for _, at := range known.askedWith[w.number] {
				all[at].weight += w.weight
				all[at].words++
			}
		}
	}
	for _, p := range said.pairList {
		if p.number > 0 {
			for _, at := range known.askedWith[p.number] {
				if all[at].words > 0 {
					all[at].weight += p.weight
				}
			}
		}
	}
	return all
}

// alike is how much of a message and of the question of a topic most like it is shared,
// by weight, from 0 to 1; whole tells that every word of that question was said.
func (t *topic) alike(said *question, all []inCommon, weights *weights) (best float64, whole bool) {
	for i := range t.questions {
		q, both := &t.questions[i], all[t.firstQuestion+i]
		if both.words == 0 {
			continue
		}
		for range bits.OnesCount16(q.kinds & said.kinds) {
			both.weight += weights.kind
		}
		if s := 2 * both.weight / (said.weight + q.weight + 1e-9); s > best {
			best, whole = s, both.words == len(q.wordList)
		}
	}
	return best, whole
}

// match is how well a topic explains a message.
type match struct {
	*topic
	score float64
	// hits is how many of the message's words the topic has; same tells that they
	// are the words of a question that it is known to answer, and no others.
	hits int
	same bool
}

// nearestTopics are the topics that explain most of a message's words, the best
// first. A message of several sentences is also matched by each of them.
func (m *message) nearestTopics() []match {
	if m.memory.near == nil {
		m.memory.near = m.nearestOf(topics())
	}
	return m.memory.near
}

func (m *message) nearestOf(known *knownTopics) []match {
	var sentences [][]string
	var whole, one []string
	for _, t := range m.tokens {
		switch {
		case t.word():
			w := strings.ReplaceAll(t.text, "'", "")
			whole, one = append(whole, w), append(one, w)
		case t.text == "." && len(one) > 0:
			sentences, one = append(sentences, one), nil
		}
	}
	if len(sentences) > 0 && len(one) > 0 {
		sentences = append(sentences, one)
	}
	best := map[*topic]match{}
	for _, n := range known.matches(whole) {
		best[n.topic] = n
	}
	if len(sentences) > 1 {
		for _, s := range sentences {
			few := asQuestion(s).content < 3 // "all different sizes." tells no subject
			for _, n := range known.matches(s) {
				n.score *= 0.95
				if (n.same || !few) && n.hits > 1 && n.score > best[n.topic].score {
					best[n.topic] = n
				}
			}
		}
	}
	maps.DeleteFunc(best, func(t *topic, _ match) bool { return m.ofOtherMetal(t) })
	found := slices.AppendSeq([]match{}, maps.Values(best))
	slices.SortFunc(found, func(a, b match) int {
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

// metalsOfTopics are the metals that a topic may be of alone. Silver is not among them: what
// is known of silver is mostly asked of any metal.
var metalsOfTopics = []string{"brass", "bronze", "copper", "gold", "platinum", "palladium"}

// ofOtherMetal reports whether a topic is of a metal that the message doesn't name, which
// names another: "the pickle turned my silver pink" and brass that turned pink.
func (m *message) ofOtherMetal(t *topic) bool {
	if len(m.alloys) != 1 { // of several the topic may be of one
		return false
	}
	other := false
	for _, name := range metalsOfTopics {
		if !slices.Contains(strings.Fields(t.label()), name) {
			continue
		}
		if m.says(name) || name == "gold" && slices.ContainsFunc(m.alloys, (*metal).ofGold) {
			return false
		}
		other = true
	}
	return other
}

// matches are the topics that words match well enough to be offered.
func (known *knownTopics) matches(words []string) []match {
	all, w := known.all, known.weights
	said := asQuestion(mendedForTopics(words))
	w.weigh(&said)
	total := 0.0
	for _, s := range said.wordList {
		total += s.weight
	}
	if total == 0 {
		return nil
	}
	var found []match
	tells, shared := tellsOfTrouble(words), known.sharedWith(&said)
	for i, count := range known.tallies(&said) {
		t := &all[i]
		if !count.named || t.trouble != nil && !tells || !count.own && (t.fact == nil || !t.isTermOf(&said)) {
			continue
		}
		like, whole := t.alike(&said, shared, w)
		if count.hits < 2 && !whole && !count.telling {
			continue
		}
		score, same := scoreOf(like, count.sum/total), t.isTermOf(&said)
		if count.telling { // few other topics have this word
			score = math.Min(score+0.12, math.Max(score, 0.97))
		}
		if t.trouble != nil && count.hits < 3 && !same {
			score *= 0.85 // two words tell little of what went wrong
		}
		if !same {
			score *= 1 - strayShare*count.astray/total
		}
		if score >= offers {
			found = append(found, match{t, score, count.hits, same})
		}
	}
	return found
}

// ofEveryTopic are pieces and stock that so many topics speak of that they tell
// none from another.
var ofEveryTopic = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields("stone bezel ring collet collar dome prong solder sheet wire tube setting strip thick size torch heat") {
		all[meaning(w)] = true
	}
	return all
}()

// isTermOf reports whether a message is a question of the topic and has no other
// word: "why hard solder first", "prong or bezel".
func (t *topic) isTermOf(said *question) bool {
	for i := range t.questions {
		q := &t.questions[i]
		if q.sameWordsAs(said) && q.kinds == said.kinds {
			return true
		}
	}
	return false
}

// sameWordsAs reports whether a message has the words of a question of a topic, and no
// others.
func (q *question) sameWordsAs(said *question) bool {
	if len(q.wordList) != len(said.wordList) {
		return false
	}
	for _, w := range q.wordList {
		if !said.has.have(w.number) {
			return false
		}
	}
	return true
}

// tellsOfTrouble reports whether words may tell of trouble at the bench. What asks
// for a size or a choice does not.
func tellsOfTrouble(words []string) bool {
	text := strings.Join(words, " ") + " "
	for _, wish := range []string{"i need a", "i want a", "show my", "show me", "give me", "could i have", "can i have"} {
		if strings.Contains(" "+text, " "+wish+" ") {
			return false
		}
	}
	for _, asks := range []string{"what stone", "what size", "what tube", "which", "how long", "how much", "how many", "what gauge", "how thick", "how big", "what is", "whats a", "what are", "what was", "what did", "wot", "what oval", "what round"} {
		if strings.HasPrefix(text, asks+" ") || strings.Contains(text, " "+asks+" do i ") {
			return false
		}
	}
	return true
}

// scoreOf joins how like the nearest known question is with how many of the
// words a topic has anywhere.
func scoreOf(like, covered float64) float64 {
	return math.Max(math.Max(like, 0.8*covered), 0.6*like+0.42*covered)
}

// mendedForTopics mends words that no topic has and that lie one letter from one
// that a topic has.
func mendedForTopics(words []string) []string {
	w := topics()
	out := slices.Clone(words)
	for i, word := range out {
		m := meaning(word)
		if m == "" || len(word) < 6 || commonWords[word] {
			continue
		}
		if _, known := w.rarity[m]; known {
			continue
		}
		for _, other := range topicWords()[word[0]] {
			if abs(len(other)-len(word)) <= 1 && levenshtein.ComputeDistance(other, word) == 1 {
				out[i] = other
				break
			}
		}
	}
	return out
}

// topicWords are the words by which topics are asked for, by their first letter.
var topicWords = sync.OnceValue(func() map[byte][]string {
	seen, by := map[string]bool{}, map[byte][]string{}
	add := func(text string) {
		for _, w := range wordsOf(text) {
			if len(w) >= 5 && meaning(w) != "" && !seen[w] {
				seen[w] = true
				by[w[0]] = append(by[w[0]], w)
			}
		}
	}
	for _, f := range knowledge.Facts() {
		add(strings.Join(slices.Concat(f.Term, f.Questions), " "))
	}
	for _, s := range knowledge.Troubles() {
		add(strings.Join(slices.Concat([]string{s.Key}, s.Questions), " "))
	}
	return by
})

// asksInWords reports whether a message is a question or tells of trouble, and
// not a room's chatter.
func (m *message) asksInWords() bool {
	return m.startsWith("is", "are", "can", "could", "do", "does", "did", "will", "would", "should", "was", "has") || m.defines() || strings.Contains(m.typed, "?") || m.says("how", "why", "what", "whats", "which", "when", "where", "can i", "do i", "should i", "is it", "does", "help", "my", "wont", "keeps", "best way", "tips", "advice", "explain", "difference")
}

// questionWord reports whether a message begins with a word of a question, or has
// one that asks for knowledge.
func (m *message) questionWord() bool {
	return m.startsWith("is", "are", "can", "could", "do", "does", "did", "will", "would", "should", "how", "why", "what", "whats", "which", "when", "where") || m.defines() || m.says("how do", "how can", "why", "which is right", "which should i", "is that wrong", "does that matter", "can i", "do i", "should i", "is it", "does it", "best way", "difference", "which one")
}

// foreseen answers a question that is much like one that a topic is known to
// answer, where no figure asks for a piece.
func (m *message) foreseen() (Reading, bool) { return m.like(answers) }

// wordForWord answers a question that is all but the same as a known one.
func (m *message) wordForWord() (Reading, bool) {
	if m.context.Last != nil && (len(m.found) > 0 && !m.whole() || m.pointsBack() || m.startsWith(openers...)) {
		return Reading{}, false
	}
	near := m.nearestTopics()
	if len(near) == 0 || near[0].hits < 3 && !near[0].same || m.defines() && (near[0].hits < 2 || !near[0].same) {
		return Reading{}, false
	}
	if f, _ := m.askedFact(false); f != nil && m.defines() {
		return Reading{}, false
	}
	return m.like(0.93)
}

func (m *message) like(least float64) (Reading, bool) {
	if len(m.tokens) < 2 || m.figureCount() > 0 && (!m.asksToKnow() || (m.context.Last != nil || m.context.Asked != nil) && !m.whole()) {
		return Reading{}, false
	}
	switch near := m.nearestTopics(); {
	case m.has("temperature") && (len(m.alloys) > 0 || len(m.meaning("solder:")) > 0 || m.has("anneal")),
		len(m.alloys) > 0 && m.says("quench", "anneal", "annealing", "melting") && !m.startsWith("why", "is it bad", "after") && !(len(near) > 0 && near[0].same),
		m.wishes(), m.says("safety", "precautions", "hazards"):
		least = max(least, 0.95) // figures are worked out
	case !m.asksInWords():
		least = max(least, 0.85)
	case m.figureCount() > 0 && m.asksForMeasure():
		least = max(least, 0.85)
	}
	near := m.nearestTopics()
	if m.sizesFinger() || len(near) == 0 || near[0].hits < 2 || near[0].score < least || len(near) > 1 && near[0].score-near[1].score < margin/2 && near[0].score < nearlySame {
		return Reading{}, false
	}
	return m.readingOf(near[0]), true
}

// sizesFinger reports whether a message asks for the size of a finger by how far it is round.
func (m *message) sizesFinger() bool {
	if m.figureCount() != 1 || !m.says("finger") || !m.says("size") || m.says("knuckle", "knuckles") || !m.says("around", "round", "circumference") {
		return false
	}
	q := m.of(length, bare)
	if q == nil {
		q = m.with("perimeter")
	}
	return q != nil && isFingerRound(q)
}

// wishes reports whether a message wishes for a piece, of which what is missing may
// be asked.
func (m *message) wishes() bool {
	return m.says("i need a", "i want a", "i need the", "want the", "how long a", "how long is a", "how tall a", "how high a", "how big a", "how wide a", "what length", "template for", "blank for", "strip for", "show my", "show me", "what do i cut", "can i have", "could i have", "can i get", "give me", "make me", "how many small", "what tube", "which tube", "what size tube", "how much sterling for my", "how much silver for my", "how much gold for my", "how much metal for my", "for my wax")
}

// asksForMeasure reports whether a question asks for a measure, which a request may
// work out from the figures beside it.
func (m *message) asksForMeasure() bool {
	return m.startsWith("what", "which", "how many", "how much", "how deep", "how wide", "how high", "how tall", "how long", "how big", "how thick") || m.says("how many", "how much", "how deep", "how wide", "how high", "how tall", "how long", "how big", "what size", "what height", "which size")
}

// wantsFigures are words that ask for a piece's own figures.
var wantsFigures = []string{"how long do i cut", "how long should i cut", "how long a strip", "how long for", "what length", "whats the length", "the length", "lengths", "strip length", "blank", "template", "flat pattern", "layout", "what do i cut", "what should i cut", "cut what", "how much do i cut",
	"calculate", "work out", "how much silver", "how much gold", "how much metal", "how much wire", "how much sheet", "how much copper", "weigh", "weight", "weighs", "convert", "in mm", "in inches", "how many mm", "in thou", "what size disc", "disc size", "what disc", "diameter of the disc", "how big do i cut", "how big a", "pdf", "print", "each side", "spacing", "in grams", "what gauge", "which gauge", "in gauge", "awg", "swg", "how thick is", "what uk size", "what us size", "aspect ratio", "does it make", "will i get", "can i make from"}

// asksToKnow tells a question of knowing, "is 1.2 mm too thin for a wedding band",
// from a wish for a piece's figures, "10x8 oval, 28 ga, how long?" A stone or a ring
// of known size is a piece.
func (m *message) asksToKnow() bool {
	if m.figureCount() == 0 {
		return m.asksInWords()
	}
	if m.sameAsKnown() {
		return true
	}
	if m.hasPiece() || len(m.found) > 2 || m.says(wantsFigures...) {
		return false
	}
	return m.questionWord()
}

// figureCount counts figures. A number in words, "two joints", is none unless it
// measures something.
func (m *message) figureCount() int {
	n := 0
	for _, q := range m.found {
		if strings.ContainsAny(q.typed(m), "0123456789") || q.measure != bare && q.measure != count {
			n++
		}
	}
	return n
}

// sameAsKnown reports whether a message has the words of a known question and no
// others, whatever its figure: "blade size for 18 gauge".
func (m *message) sameAsKnown() bool {
	near := m.nearestTopics()
	return !m.hasPiece() && len(m.found) == 1 && len(near) > 0 && near[0].same && near[0].hits >= 2
}

// hasPiece reports whether a message has the size of a stone or of a ring.
func (m *message) hasPiece() bool {
	if m.of(size) != nil || m.of(ringSize) != nil || m.of(mass) != nil {
		return true
	}
	for _, o := range m.meaning("outline:") {
		if (o != "round" || m.besideStone() != nil && m.cues["bangle"] == 0) && m.of(length) != nil {
			return true
		}
	}
	return false
}

// jobOrKnown reads a job. Where it lacks everything and the message is much like
// a known question, that is answered in place of a question back.
func (m *message) jobOrKnown() (Reading, bool) {
	knows := m.asksToKnow() && !m.wishes() && (m.context.Last == nil && m.context.Asked == nil || m.figureCount() == 0) // before the job uses the figures
	sized := m.of(size) != nil || m.of(ringSize) != nil || m.of(carat) != nil || m.besideStone() != nil
	r, ok := m.job()
	if r.Request == "heat" && (m.has("temperature") || len(m.tokens) <= 4 && m.says("temperature", "temp")) {
		return r, ok
	}
	if ok && r.Request == "cautions" && knows && !m.says("safety", "precautions", "hazards", "cautions") {
		if found, known := m.clearly(answers, 2); known {
			return found, true
		}
		if found, known := m.nearestByAllWords(nearEnough); known && m.chance(intent.Explanation) >= wantsToKnow {
			return found, true
		}
		if m.chance(intent.Explanation) >= certain && m.chance("cautions") < unlikely && len(m.meaning("gem:")) == 0 {
			if offered, known := m.byAllWords(); known {
				return offered, true
			}
		}
	}
	if ok && r.Outcome == Question && !knows && !sized && !m.wishes() {
		if found, known := m.ofOneSentence(); known {
			return found, true
		}
	}
	if ok && r.Outcome == Question && !knows && !m.wishes() && m.figureCount() == 0 && !m.asksInWords() && len(m.meaning("outline:")) == 0 && !m.startsWith("need", "want") {
		if found, known := m.clearly(likely, 3); known {
			return found, true
		}
	}
	beside := r.Outcome == Declined || r.Request == "heat" && (r.Outcome == Question && len(m.alloys) == 0 || m.chance(intent.Trouble) >= sure)
	if ok && beside && m.figureCount() == 0 {
		if found, known := m.nearestByAllWords(quiteNear); known {
			return found, true
		}
	}
	if ok && r.Outcome != Unknown && !onlyKnowledge(r) && m.wantsKnowledge() {
		if known, ok := m.knownInWords(r); ok && (m.context.Last == nil || m.figureCount() == 0 || m.whole()) {
			return known, true
		}
	}
	if !ok || r.Outcome != Question || !knows || len(m.alloys) > 0 && r.Request == "heat" && m.says("quench", "anneal", "melt") && !m.startsWith("why", "is it bad") {
		return r, ok
	}
	if found, known := m.ofOneSentence(); known && !sized {
		return found, true
	}
	if found, known := m.clearly(likely, 2); known {
		return found, true
	}
	if m.asksOfWork() {
		return m.nearest()
	}
	return r, ok
}

// asksOfWork reports whether a message asks how something is done, whether it may
// be done or why it went as it did, and names no piece with a figure: then no size
// helps to answer it.
func (m *message) asksOfWork() bool {
	if len(m.found) > 0 || m.context.Last != nil || m.context.Asked != nil || m.wishes() || m.asksForMeasure() || len(m.meaning("outline:")) > 0 || m.tooShort() {
		return false
	}
	return m.startsWith("can i", "can you", "could i", "could you", "is it", "is a", "is the", "is my", "are", "why", "how come", "will", "would", "should i", "do i", "does", "how do i", "how do you", "how can i", "how to", "what happens", "my", "which side", "which way")
}

// ofOneSentence is the topic that one question of a longer message asks for, which
// has no figure: "How much do you lose on a ring? I weighed mine: 6.8 g, then 5.9 g."
func (m *message) ofOneSentence() (Reading, bool) {
	first, best := 0, match{}
	for i := 0; i <= len(m.tokens); i++ {
		if i < len(m.tokens) && m.tokens[i].text != "." {
			continue
		}
		if i-first >= 4 && (first > 0 || i < len(m.tokens)-1) && !m.figureWithin(first, i) {
			var words []string
			for _, t := range m.tokens[first:i] {
				if t.word() {
					words = append(words, strings.ReplaceAll(t.text, "'", ""))
				}
			}
			for _, n := range topics().matches(words) {
				if n.score > best.score && n.hits >= 2 && n.trouble == nil {
					best = n
				}
			}
		}
		first = i + 1
	}
	if best.topic == nil || best.score < answers {
		return Reading{}, false
	}
	return m.readingOf(best), true
}

func (m *message) figureWithin(first, next int) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return q.first >= first && q.first < next })
}

// clearly is the nearest topic, where it explains enough and leads the next one.
func (m *message) clearly(least float64, hits int) (Reading, bool) {
	near := m.nearestTopics()
	if len(near) == 0 || near[0].hits < hits || !m.mayBe(near[0]) {
		return Reading{}, false
	}
	lead := 1.0
	if len(near) > 1 {
		lead = near[0].score - near[1].score
	}
	score := near[0].score
	switch {
	case score >= nearlySame && (near[0].same || lead >= margin/4 || near[0].hits >= 3):
	case score >= least && (lead >= margin || near[0].hits >= 4 && lead > 0):
	case score >= least+0.12 && near[0].hits >= 2 && len(near) > 1 && near[0].fact != nil && near[1].fact != nil && (len(near) == 2 || score-near[2].score >= margin):
		// two facts that say much the same
	case near[0].hits >= 3 && score >= least-0.12 && lead >= 1.5*margin:
	default:
		return Reading{}, false
	}
	return m.readingOf(near[0]), true
}

// nearest answers by the nearest topic, or asks which of up to three is meant.
func (m *message) nearest() (Reading, bool) {
	if m.context.surely || len(m.tokens) < 2 || m.figureCount() > 0 && (!m.asksToKnow() && !m.wantsKnowledge() || (m.context.Last != nil || m.context.Asked != nil) && !m.whole()) {
		return Reading{}, false
	}
	if !m.asksInWords() {
		if r, ok := m.clearly(answers, 2); ok {
			return r, true
		}
		return m.byAllWords()
	}
	if r, ok := m.clearly(likely, 1); ok {
		return r, true
	}
	if near := m.nearestTopics(); len(near) > 0 && near[0].hits >= 2 && near[0].score >= m.knownEnough() && m.wantsKnowledge() && m.mayBe(near[0]) {
		return m.readingOf(near[0]), true
	}
	if m.context.Last != nil {
		if r, ok := m.lastAgain(); ok {
			return r, true
		}
	}
	return m.byAllWords()
}

// whichTopic and nothingCertain begin the question that offers topics.
const (
	whichTopic     = "Which of these do you mean?"
	nothingCertain = "I know nothing certain on that. Is it one of these?"
)

// offersTopics reports whether a question offers topics and nothing else.
func offersTopics(r *Reading) bool {
	return r.Outcome == Question && r.Request == "" && (strings.Contains(r.Ask, whichTopic) || strings.Contains(r.Ask, nothingCertain))
}

// surely is how much of a message's words a fact must explain to be the answer
// without saying what it answers.
const surely = 0.8

// nearestKnown begins the note on an explanation of which that is not sure.
const nearestKnown = "the nearest that I know"

func (m *message) readingOf(n match) Reading {
	if n.trouble != nil {
		return m.troubleReading(n.trouble)
	}
	r := explain(n.fact)
	if (n.score < surely || n.hits < 2) && !n.same {
		r.Notes = append(r.Notes, fmt.Sprintf(nearestKnown+" to your question is %q; if you mean something else, say it in other words", n.label()))
	}
	return r
}
