package sentence

import (
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"guildhand/bot/knowledge"
)

// vocabulary are the words that spelling is mended to, by their first letter:
// the lexicon's, the metals' and the units'.
var vocabulary = func() map[byte][]string {
	seen := map[string]bool{}
	add := func(w string) {
		if len(w) >= 5 && !strings.ContainsAny(w, "=") {
			seen[w] = true
		}
	}
	for _, t := range everyTerm() {
		for _, say := range t.Say {
			for _, w := range strings.Fields(strings.TrimPrefix(say, "=")) {
				add(w)
			}
		}
	}
	for n := range metalNames {
		for _, w := range strings.Fields(n) {
			add(w)
		}
	}
	for _, w := range []string{"gauge", "inches", "degrees", "millimeters", "millimetres", "celsius", "fahrenheit", "centigrade", "students", "sterling", "yellow", "white", "thickness", "diameter"} {
		add(w)
	}
	by := map[byte][]string{}
	for w := range seen {
		by[w[0]] = append(by[w[0]], w)
	}
	return by
}()

// commonWords are everyday words that look like a word of the trade and are
// none; they are never mended.
var commonWords = wordSet(`signed sign signing joined dropped cancelled about above after again against along already also although always among another anything around because
		become before begin behind being below beside better between bigger black block board bought bring broke broken build built called cannot
		careful carry cause center centre change cheap check clean clear close closed coming could course cover crack cracked craft create
		deeper different doing double doesnt drawn drill drops easier either enough evenly every everyone everything exact example extra
		faster final finally finish finished first fixed flush follow forget found front going great green group guess happen happens hardly
		having heard higher holes house idea inside instead itself keeps kinda kitchen known large larger later learn least leave mikes miked level light
		likely little longer looking looks lower makes making marks maybe metal might minute mistake money month months morning mostly
		moves myself never night normal nothing number often older other others outer outside owner paper parts people perhaps piece pieces place
		placed plain please point points possible press pretty probably problem project proper pushed puts question quick quite rather
		reach ready really reason right rough rules sharp shape shaped shapes sheet shelf shoot shop short should shows simple since single
		sized sizes slightly slots small smaller smooth solid someone something sorry sound source space split spring square stand start
		started steel steps stick still straight strip strong student style stuff super sweet table takes taken thanks their there these
		thing things think third those three tight tools total touch tried trying turns twice under until upper using usual usually wants
		water where which while whole whose without wonder words works worked world would write wrong young figured tonight tomorrow wears wearing
		pouring sinks skill skills sleeve slope tiny tinny hours house story storey weird wired wider waste paste taste plates flame frame
		spare share scale stale steam stream screw scrap sweat stamp swage bends binds bands sands hands lands finds kinds minds rinds
		coming during boring string bringing ordering writing waiting heating beating eating meeting seating cooking looking
		working walking talking asking making taking baking giving living moving having saving sitting getting letting
		cutting putting hitting fitting bitting rubbing
		chlorine jumper jumpers allow allowed allows alter altered marking marked market matter matters stuck stick wound wounds swallowed swallow cooker cookers pyrometer
		across action actual adding adjust afford afraid afternoon agree alive alone aloud apart appear apple apply areas argue arrive aside asked
		asleep attach autumn avoid awake aware awful badly basic basis beach beads beans beard began begun belief belong bench bigger bills bird birth
		blade blades bless blood board boats books borrow bottle bowl boxes brain brand bread breaks breath brick bring brown brush burns cable cakes
		calls candle cards carries castle catch cause chain chains chair chalk chance charge chart chase cheer chest chips chose church circles claim
		clamp clients climb clock cloth clouds coach coast coats coffee colour color comes common copied copies copy corner couple court covers creak
		cream crisp cross crowd curve curved curves cycle daily dance danger dated deals death decide degree delay depth dirty drawing dream dress
		dried drive drops drying dusty early earth eight email empty enjoy enter entire equal error event exist fails faint fairly faith false
		family fancy favour favor feels fence fever field fifty fight files filing final finer fingers fired fires fixes flash fleet float floor
		focus force forge forgot formal forty forum fourth fresh friday friend fruit fully funny gauze giant gifts girls given gives glass globe
		glory glove goes grain grand grant grass grave great grind grinder grips grown guard guess guide guild hammer handle handy happy
		harder health heart heavy hello helps hinge hints hobby holder honest hoping horse hotel human ideas image index inner input issue items
		jewel jewels joint judge juice keeps knife knock known label labels lacks ladies landed larger laser lately laugh layer leads leaves lemon
		length lesson letter lever lights limit lined lines lists lived loads local locks logic longer loops loose lower lucky lunch magic major
		makers march match maybe meant medal mercy merry messy metals middle minor minus mixed model moist month moral motor mount mouse mouth moved
		movie music nails naked names nasty needs nerve never newer newly nicely nights ninth noise north noted novel nurse ocean offer often
		older onion opens opera order orders organ other ought ounce outer owner packs pages paint pairs panel panic parks party patch pause peace
		phase phone photo piano picks pilot pinch pipes place plans plant plays plus power presses prices pride prime print prints prior prize proof
		proud prove pulls pulse punch pupil queen query quiet quote radio raise ranch range rapid ratio razor reads rebel refer relax repair reply
		reset rider rings rinse risen rival river roads rolls rooms roots roses rotary round route royal rubber ruler runs rural sadly safer saint salad
		sales salts sandy saved saves scaly scene school score scored seals seats seems seller sends sense serve seven shade shaft shake shall share
		sharp sheer shell shift shine shiny shirt shock shops shore shots shout shows sides sight signs silly sixth skins skirt slate sleep slice
		slide slight slip slope slots slower smart smell smile smoke snake snaps soaks sober socks softer solve songs sorts south spark speak speed
		spell spend spent spine spite spoke spoon sport spots spray stack staff stage stain stair stake stamp state stays steady steal steel steep
		steps sticks stiff stirs stock stole stool stops store storm stove strange straw street stretch strike stroke stuff sugar suits sunny surge
		sword table tables tails tales tapes tasks taxes teach teams tears teeth tells tends tenth terms tests texts thank thick thief thigh
		thing third thorn thread threw throw thumb tiger tiles timer times tired title toast today token tonight topic torch touch tough tower toxic
		trace track trade trail train trash treat trees trend trial tribe trick tried tries trips truck truly trunk trust truth tubes tucks tunes
		twist types uncle union unite unless upper upset urban usage users usual valid value vapor verse video views virus visit vital voice vowel
		wages wagon waist walls wants waste watch waves wears weeks weird wheel while whisk whole wider widow width winds wings wiped wires witch
		woman women woods words works world worry worse worst worth wraps wrist write wrote yards years yesterday yield young yours youth zones`)

// spell mends words that are no words of ours and lie one letter from one, or
// two where they are long.
func (m *message) spell() {
	for i := range m.tokens {
		t := &m.tokens[i]
		if !t.word() || len(t.text) < 5 || commonWords[t.text] || known[t.stem] || known[t.text] {
			continue
		}
		best, distance := "", 3
		for _, w := range vocabulary[t.text[0]] {
			if abs(len(w)-len(t.text)) > 2 {
				continue
			}
			if d := lettersWrong(t.text, w); d < distance || d == distance && w < best {
				best, distance = w, d
			}
		}
		if best == "" || distance > 1 && len(t.text) < 10 {
			continue
		}
		t.corrected, t.text = t.text, best
		t.stem = stemOf(best)
	}
}

// known are stems and words that need no mending.
var known = func() map[string]bool {
	all := map[string]bool{}
	for _, words := range vocabulary {
		for _, w := range words {
			all[w], all[stemOf(w)] = true, true
		}
	}
	for _, phrase := range knowledgePhrases() {
		for _, w := range strings.Fields(strings.TrimPrefix(phrase, "=")) {
			all[w], all[stemOf(w)] = true, true
		}
	}
	for w := range unitWords {
		all[w] = true
	}
	for w := range numberWords { // "eighty" is no "eight"
		all[w] = true
	}
	for w := range partsOfInch { // nor is "eighth"
		all[w] = true
	}
	for s := range counted {
		all[s] = true
	}
	return all
}()

// knowledgePhrases are the phrases by which facts and troubles are found.
func knowledgePhrases() []string {
	var all []string
	for _, f := range knowledge.Facts() {
		all = append(all, f.Term...)
		all = append(all, slices.Concat(f.Asks...)...)
	}
	for _, t := range knowledge.Troubles() {
		all = append(all, slices.Concat(t.Signs...)...)
	}
	return all
}

// lettersWrong is how many letters are wrong, missing or too many; two that changed places
// are one slip.
func lettersWrong(typed, word string) int {
	if len(typed) == len(word) {
		for i := 0; i+1 < len(word); i++ {
			if typed[i] != word[i] {
				if typed[i] == word[i+1] && typed[i+1] == word[i] && typed[i+2:] == word[i+2:] {
					return 1
				}
				break
			}
		}
	}
	return levenshtein.ComputeDistance(typed, word)
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// behindFor and behindTo are words before which a 4 is "for" and a 2 is "to".
var (
	behindFor = wordSet("a an the my this that these those him her me u you us my mum mom dad someone somebody both each every class students beginners ppl practice practise fun now example making doing setting")
	behindTo  = wordSet("make cut do get go fit solder use anneal b be bend know put set file the my a an u you me work keep try learn start form size")
	// keepsFigure are words behind which a figure stays one.
	keepsFigure = wordSet("size sz us uk iso eu number no about approx is = by x and or depth height deep high tall wide thick gauge ga")
)

func wordSet(words string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(words) {
		all[w] = true
	}
	return all
}

// figuresForWords reads the 4 of "disc 4 a dome", the 2 of "how 2 cut" and the b4 of
// "b4 soldering" as the words that they stand for.
func (m *message) figuresForWords() {
	var kept []token
	for i := 0; i < len(m.tokens); i++ {
		t := m.tokens[i]
		before, after := m.at(i-1), m.at(i+1)
		if heard := heardNumber(before.text, t.text, after.text, m.at(i+2).text); heard != "" {
			t = token{text: heard, stem: stemOf(heard)}
		}
		if heardKarats[t.text] && (before.number || numberWords[before.text] > 0) {
			t = token{text: "carat", stem: stemOf("carat")}
		}
		switch {
		case t.text == "b" && after.text == "4" && after.glued:
			t.text, t.stem = "before", stemOf("before")
			i++
		case t.text == "4" && t.number && after.word() && !after.glued && m.meansFor(i) && !t.glued && !before.number:
			t = token{text: "for", stem: stemOf("for")}
		case t.text == "2" && t.number && after.word() && !after.glued && behindTo[after.text] && !keepsFigure[before.text] && !t.glued && !before.number && before.word():
			t = token{text: "to", stem: stemOf("to")}
		}
		if outline, rest, ok := gluedOutline(t); ok {
			kept = append(kept, outline)
			t = rest
		}
		kept = append(kept, t)
	}
	m.tokens = kept
}

// sizeOfWhat are words before "size" that tell whose size is sought, which no figure then is:
// "disc size 4 a 10mm ball".
var sizeOfWhat = wordSet("disc disk strip blank sheet tube wire what wat wot which")

// meansFor reports whether the 4 at i is the word "for".
func (m *message) meansFor(i int) bool {
	before, after := m.at(i-1).text, m.at(i+1).text
	half := after == "half" && behindFor[m.at(i+2).text]
	if before == "size" && sizeOfWhat[m.at(i-2).text] {
		return half || behindFor[after]
	}
	if pieceBeforeFor[before] && m.at(i+2).number && isOutline(after) {
		return true // "halo 4 oval 8x6"
	}
	return behindFor[after] && !keepsFigure[before]
}

// isOutline reports whether a word names an outline.
func isOutline(word string) bool {
	return slices.ContainsFunc(slices.Concat(lexicon[stemOf(word)], lexicon["="+word]), func(t *Term) bool {
		return slices.ContainsFunc(t.Means, func(what string) bool { return strings.HasPrefix(what, "outline:") })
	})
}

// pieceBeforeFor are pieces that a 4 before an outline and its size doesn't count.
var pieceBeforeFor = wordSet("halo bezel collet cup tube saddle")

// gluedOutline parts the two words of "emeraldcut" and "pearshaped".
func gluedOutline(t token) (outline, rest token, ok bool) {
	for _, end := range []string{"cut", "shaped", "shape"} {
		name, found := strings.CutSuffix(t.text, end)
		if !found || !t.word() {
			continue
		}
		for _, term := range lexicon[stemOf(name)] {
			if len(term.Means) > 0 && strings.HasPrefix(term.Means[0], "outline:") {
				return token{text: name, stem: stemOf(name), glued: t.glued}, token{text: end, stem: stemOf(end)}, true
			}
		}
	}
	return token{}, token{}, false
}
