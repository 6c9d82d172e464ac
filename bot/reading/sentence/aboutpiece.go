package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
)

// A question about the last answer, "is that inside or outside?", is answered from
// its piece: by a sentence, a fact, a sign of trouble, or the piece once more.

// pieceAnswer answers one question about the last piece. A new one is one literal.
type pieceAnswer struct {
	// of are the requests that it is for; empty for all.
	of string
	// asks are groups of words; one of each must be said.
	asks [][]string
	// One of these is the answer: a sentence, the key of a fact, the key of a
	// trouble, or the piece again with a note.
	text, fact, trouble, again string
}

var (
	howWords    = []string{"how", "whats the best way", "way to", "what order", "tips"}
	whyWords    = []string{"why", "how come", "whys", "surely", "seems"}
	usualWords  = []string{"no idea", "what do people", "whats usual", "whats normal", "what is normal", "normally", "most people", "usually", "recommend", "suggest", "typical"}
	thickWords  = []string{"thick", "thickness", "gauge", "wall"}
	acrossWords = []string{"how wide", "how big", "how large", "what width", "what size", "what diameter", "how far across", "how much across", "whats the width", "whats the diameter", "the size of"}
	lastsWords  = []string{"strong enough", "sturdy enough", "tough enough", "hold up", "flimsy", "will it last", "would it last"}
	faceWords   = []string{"inside", "outside", "inner", "outer", "middle"}
	whichFace   = []string{"or", "that", "it", "is"}
	meanWords   = []string{"what is", "whats", "what does", "mean", "means", "what are", "explain"}
)

// pieceAnswers are tried in this order. The sentences say what the answers show and
// how they are reckoned; the rest is common practice, no source.
var pieceAnswers = []pieceAnswer{
	{asks: [][]string{{"=working", "=workings", "show your work", "the maths", "the math", "how did you get", "how do you get that", "how did you work", "how did you arrive", "how is that worked out", "hows that worked out", "where does that come from", "where did you get", "where do you get", "what did you assume", "which assumptions", "assumptions"}}, again: "the working shows how each figure comes about, with all that was assumed"},
	{of: "collet collar prongs bezel band dome halo saddle tubeset jumpring resize", asks: [][]string{{"print", "printed", "printing", "printer", "printable", "pdf", "template", "on paper", "stencil", "cut out and stick", "svg", "cricut"}, {"can", "possible", "could", "do you", "is there", "have", "get", "give", "where", "how", "send", "want"}}, text: "Yes: the answer's PDF has the template at 1:1. Print it at 100 %, with \"fit to page\" off, and measure the check bar before you cut."},
	{of: "band resize", asks: [][]string{faceWords, whichFace}, text: "The length is that of the flat strip, reckoned along the middle of its thickness; the ring size is the inside. Outside it is the inner diameter plus twice the thickness."},
	{of: "bezel", asks: [][]string{faceWords, whichFace}, text: "The strip's length is reckoned along the middle of its thickness, so that its inside fits the stone with a little play. Measure the stone itself, outside, at its widest."},
	{of: "collet collar prongs", asks: [][]string{faceWords, whichFace}, text: "The size you gave is the stone's. Rim and base are the edges of the flat blank; bent up, that length lies inside the wall, near its middle. A finished rim is measured outside, over the metal, where the answer says outside."},
	{of: "jumpring", asks: [][]string{{"inside", "outside", "inner", "outer", "middle", "id", "od"}, {"or", "that", "it", "is"}}, text: "The size is the inside, the mandrel's side of the wire. The outside is the inside plus twice the wire, and stands in the answer."},
	{of: "dome", asks: [][]string{{"inside", "outside", "inner", "outer"}, {"or", "that", "it", "is"}}, text: "The dome's size is taken outside, over the metal; add \"inside\" to your question if it is the inside."},
	{of: "bezel", asks: [][]string{howWords, {"close", "push", "set", "fold", "rub", "press"}}, fact: "close a bezel"},
	{of: "band resize", asks: [][]string{howWords, {"close", "ends", "meet", "line up"}}, fact: "make ends meet"},
	{of: "jumpring", asks: [][]string{howWords, {"close", "open"}}, fact: "open a jump ring"},
	{of: "jumpring", asks: [][]string{howWords, {"cut", "saw", "make", "wind", "coil", "form", "bend", "wrap"}}, text: "Anneal the wire, wind it tight round the mandrel, and slide the coil off. Hold it in leather or a jig with your fingers beside the blade's path, and saw along it with a fine blade; wear eye protection."},
	{of: "collet collar prongs", asks: [][]string{howWords, {"form", "shape", "bend", "curl", "roll", "round", "make it", "turn it", "fold", "curve", "close it"}}, fact: "bend a cone"},
	{of: "band resize", asks: [][]string{howWords, {"form", "shape", "bend", "curl", "roll", "round", "make it", "turn it", "curve"}}, fact: "bend a ring"},
	{of: "bezel", asks: [][]string{howWords, {"form", "shape", "bend", "curl", "round", "make it", "curve", "wrap"}}, text: "Anneal the strip and bend it round the stone, or round a mandrel of its shape, so that the ends meet without springing; mark, cut square and solder them with hard. Try it on the stone before you solder it to a plate."},
	{of: "dome", asks: [][]string{howWords, {"form", "shape", "bend", "round", "make it", "dap", "dome it", "hammer", "curve"}}, fact: "make a dome"},
	{of: "collet collar prongs", asks: [][]string{{"why", "reason"}, {"curved", "curve", "bent", "banana", "arc", "not straight", "rainbow", "smile", "wobbly", "wavy"}}, fact: "why curved"},
	{of: "bezel collar", asks: [][]string{whyWords, {"long", "longer", "big", "bigger", "more", "much", "different", "not"}}, fact: "why pi times thickness"},
	{of: "band", asks: [][]string{whyWords, {"long", "longer", "big", "bigger", "more", "much", "different", "not"}}, fact: "ring formula"},
	{of: "dome", asks: [][]string{whyWords, {"big", "bigger", "large", "larger", "more", "wide"}}, text: "The disc has as much surface as the finished dome, which is more than the circle that the dome covers: a half ball has twice the area of its opening, so the disc is about 1.4 times as wide."},
	{of: "dome", asks: [][]string{{"hole", "vent", "air"}, {"how big", "what size", "how large", "where", "why", "how do i make", "how do i drill", "need one", "do i need", "which drill", "what drill", "how wide"}}, text: "About 1 mm, in each closed form, where it won't show (common practice). Drill it before you solder the halves together: a closed form without one bursts when it is heated."},
	{of: "dome", asks: [][]string{{"other half", "second half", "both halves", "two halves", "top half", "overlap", "overlaps", "lap over"}}, text: "Cut the other half from a disc of the same size, so that the two meet edge to edge: sand both flat on paper, drill a vent hole in one, and solder them butted. A lapped half is larger and leaves a step."},
	{of: "gauge", asks: [][]string{{"nearest", "closest", "next"}, {"buy", "sold", "sell", "stock", "get", "shop", "standard", "sheet"}}, text: "Sheet and wire in mm are mostly sold in steps of 0.1 mm, thicker ones in steps of 0.2 or 0.5 mm: take the nearest, the thicker one where it carries a stone (common practice)."},
	{of: "collet prongs collar", asks: [][]string{usualWords, thickWords}, fact: "collet gauge"},
	{of: "bezel", asks: [][]string{usualWords, thickWords}, fact: "bezel gauge"},
	{of: "band", asks: [][]string{usualWords, thickWords}, fact: "ring gauge"},
	{of: "bezel band collet weigh melt dome", asks: [][]string{{"lemel", "comes back", "scrap", "offcuts", "left over", "leftover"}, {"how much", "what", "how many"}}, text: "Filings and offcuts depend on how you cut: weigh what you bought, take off the piece's mass in the answer, and that is what comes back as offcut and lemel. A refiner pays less than the metal's price for lemel."},
	{of: "melt", asks: [][]string{append([]string{"include", "includes", "included", "with"}, whyWords...), {"button", "sprue"}}, text: "The button is in the metal to melt, 10 % of the casting unless you name another; the wax is taken as weighed with its sprue."},
	{of: "melt", asks: [][]string{whyWords, {"more", "much", "heavy", "heavier", "so"}}, text: "Metal is heavier than wax of the same size by the ratio of their densities (sterling about 10.4 times), and the button comes on top."},
	{of: "collet collar prongs", asks: [][]string{whyWords, {"long", "longer", "big", "bigger", "tall", "high", "wide", "more", "much", "small", "short"}}, text: "The blank's long edge is the way round the rim, which stands outside the stone by the wall and its lean, not round the stone itself; its height is measured along the slant. The working shows each step."},
	{of: "jumpring", asks: [][]string{whyWords, {"long", "longer", "more", "much"}}, text: "Each ring takes pi x (inside + wire) of wire, the way round the middle of the wire, and the saw cut comes on top."},
	{asks: [][]string{{"how accurate", "how exact", "how close", "how precise", "exactly", "trust", "tolerance", "margin of error", "are you sure", "you sure", "is that right", "sure about that"}}, again: "figures are given to 0.01 mm; a bench keeps about 0.1 mm, so make a first piece in copper and measure it"},
	{of: "bezel band collar", asks: [][]string{{"too short", "comes out short", "came out short", "cut it short", "short", "comes up short"}, {"what if", "if", "when", "too"}}, trouble: "strip too short"},
	{of: "bezel band collar", asks: [][]string{{"too long", "too big", "too loose", "comes out long"}, {"what if", "if", "when", "too"}}, trouble: "strip too long"},
	{of: "collet prongs", asks: [][]string{{"too short", "doesnt close", "wont close", "doesnt meet", "dont meet", "too small", "gap"}, {"what if", "if", "when", "too"}}, trouble: "blank does not close"},
	{of: "bezel", asks: [][]string{{"stretch", "stretched"}}, trouble: "strip too short"},
	{of: "collet collar bezel band prongs dome resize jumpring tubeset", asks: [][]string{{"what length do i cut", "how long do i cut", "how much do i cut", "what do i cut", "what size do i cut", "how long is the strip", "how long is the blank", "how big is the blank", "what length is that", "how much do i need", "what length then", "blank size", "size of the blank", "disc size", "size of the disc", "strip length"}}, again: "the first line says what to cut"},
	{of: "halo", asks: [][]string{{"drill size", "what drill", "which drill", "drill bit", "hole size", "size of the holes", "how big are the holes", "how wide are the holes", "what size holes"}}, again: "the holes' size stands in the answer"},
	{of: "halo", asks: [][]string{append([]string{"total size", "overall size", "finished size", "full size"}, acrossWords...), {"total", "whole thing", "whole lot", "whole halo", "altogether", "all of it", "overall", "finished"}}, again: "the plate's size in the first line is that of the whole halo, its metal edge included"},
	{of: "jumpring", asks: [][]string{{"how long", "how much", "what length", "how many feet", "how many metres", "how many meters", "how many inches", "in feet", "in metres", "in meters"}, {"wire", "feet", "metres", "meters", "altogether", "in total"}}, again: "the first line says how much wire; 304.8 mm are a foot"},
	{of: "collet prongs collar", asks: [][]string{acrossWords, {"foot", "base", "bottom", "narrow end", "small end"}}, again: "how wide the base comes out stands in the steps and the working"},
	{of: "halo", asks: [][]string{{"how many", "what gap", "which gap"}}, again: "the answer says how many, and the gap"},
	{of: "tubeset", asks: [][]string{{"what bur", "which bur", "bur size", "how deep"}}, again: "the bur and the seat's depth stand in the answer"},
	{of: "resize", asks: [][]string{{"stretch", "stretching", "stretched", "stretcher"}}, fact: "how far to stretch a ring"},
	{of: "resize", asks: [][]string{{"stretch", "stretched", "stretcher", "cut it", "cut"}, {"can", "just", "instead", "or", "have to", "need", "without", "could", "should"}}, again: "its method says whether this ring may be stretched or must be cut"},
	{of: "jumpring", asks: [][]string{{"spring", "springs", "springy", "springback", "gape"}}, trouble: "springs open"},
	{asks: [][]string{{"kerf", "saw cut", "saw blade", "filing", "waste", "solder gap", "overlap", "joint", "wastage"}, {"include", "includes", "included", "including", "allow", "allows", "allowing", "allowed", "account", "counts", "take off", "add", "extra"}}, again: "what is allowed for, and what isn't, stands among its assumptions"},
	{of: "bezel", asks: [][]string{{"how wide", "how tall", "how high", "what width", "what height"}, {"strip", "bezel"}, {"should", "does", "do", "be", "cut"}}, again: "the strip's height stands in the answer and in its working"},
	{of: "bezel collet collar prongs dome", asks: [][]string{{"how high", "how tall", "what height", "which height", "whats the height", "how high is it", "how tall is it"}}, again: "the height stands in the answer and in its working"},
	{of: "collet collar prongs bezel", asks: [][]string{{"rim"}, meanWords}, text: "The rim is the upper edge of a setting, on the stone's side, that is pushed over the stone; the base is its lower edge."},
	{of: "collet collar prongs bezel", asks: [][]string{{"base"}, meanWords}, text: "The base is the lower edge of a setting, narrower than the rim in a tapered one; it is soldered to the ring or the plate."},
	{asks: [][]string{{"ledge"}, meanWords}, text: "The ledge is the shelf of metal that the stone's girdle rests on, once the bearing is cut into the wall."},
	{asks: [][]string{{"assumed", "estimate", "house rule"}, meanWords}, text: "Assumed is what you didn't say and the answer needed: each stands with its value and where it comes from. Type it with your own value to change it."},
	{of: "collet prongs collar", asks: [][]string{lastsWords}, fact: "collet gauge"},
	{of: "bezel", asks: [][]string{lastsWords}, fact: "bezel gauge"},
	{of: "band", asks: [][]string{lastsWords}, fact: "ring gauge"},
	{of: "band", asks: [][]string{{"tight", "snug", "wide", "loose", "fit"}, {"go up", "size up", "up a size", "too tight", "be tight", "allow", "feel", "wide one", "so wide", "that wide", "bigger size", "half size", "half a size"}}, fact: "wide bands"},
	{asks: [][]string{{"how do i measure", "how do i check", "how to measure", "measure it with"}, {"it", "that", "them"}}, fact: "calipers"},
}

// aboutPiece answers a question about the last piece that brings no figure of its
// own.
func (m *message) aboutPiece() (Reading, bool) {
	last := m.context.Last
	if last == nil || len(m.found)+len(m.alloys) > 0 && !(m.ownFigures(*last) && m.asksInWords()) || len(m.meaning("outline:")) > 0 && !m.says("it round", "them round", "that round") || len(m.tokens) > 16 || m.ownJob() && !m.pointsBack() && m.mostNamed() != last.Request || m.namesAnother(*last) {
		return Reading{}, false
	}
	if len(m.tokens) > 6 && !m.surelyAbout(*last) && !m.says("other half", "comes back", "what do people") {
		if best, _ := m.askedFact(false); best != nil {
			return Reading{}, false
		}
	}
	if m.asksCost() {
		return m.weighedLast(*last)
	}
	for i := range pieceAnswers {
		p := &pieceAnswers[i]
		if p.of != "" && !slices.Contains(strings.Fields(p.of), last.Request) || m.saysOneOfEach(p.asks) == 0 {
			continue
		}
		return m.pieceAnswer(*last, p)
	}
	return Reading{}, false
}

// namesAnother reports whether a message names the piece of another request.
func (m *message) namesAnother(last Last) bool {
	named := m.jobNamed()
	return named != "" && pieceNames[named] != nameOf(last) && !m.says(nameOf(last))
}

func (m *message) pieceAnswer(last Last, p *pieceAnswer) (Reading, bool) {
	switch {
	case p.text != "":
		return Reading{Outcome: Explanation, Topic: "about a " + last.Request, Text: p.text, Source: knowledge.CommonPractice}, true
	case p.again != "":
		return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{p.again}}, true
	case p.trouble != "":
		for i, t := range knowledge.Troubles() {
			if t.Key == p.trouble {
				return m.troubleReading(&knowledge.Troubles()[i]), true
			}
		}
	}
	if f := factNamed(p.fact); f != nil {
		return explain(f), true
	}
	return Reading{}, false
}

// factNamed is the fact with this key, nil for none: a topic that is worked out is no
// fact.
func factNamed(key string) *knowledge.Fact {
	facts := knowledge.Facts()
	for i := range facts {
		if facts[i].Key == key {
			return &facts[i]
		}
	}
	return nil
}

// asksCost matches a question for the mass or cost of the last piece.
func (m *message) asksCost() bool {
	if !m.says("cost", "price", "worth of", "how much would", "how much is that", "how heavy", "what weight", "weigh", "weight", "how many grams") || len(m.tokens) > 9 {
		return false
	}
	return m.pointsBack() || m.startsWith("and", "how much", "how heavy", "what weight", "whats the weight", "weight", "cost", "what would", "what about", "whats it weigh", "what does it weigh", "what will it weigh", "what do they weigh")
}

// weighedLast answers with the last piece's mass and, where the guild keeps prices,
// its cost: most answers have them.
func (m *message) weighedLast(last Last) (Reading, bool) {
	switch last.Request {
	case "collet":
		return Reading{Outcome: Request, Request: "weigh", Options: m.handedOn(&last, "weigh")}, true
	case "band", "bezel", "dome", "collar", "prongs", "jumpring", "melt", "weigh", "tubeset", "halo", "kit":
		note := "the mass stands in the answer"
		if m.says("cost", "price", "worth") {
			note = "the cost stands beside the mass, where your guild keeps a price for the metal"
		}
		return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{note}}, true
	}
	return Reading{}, false
}

// stockWords come before a figure of the stock that a piece is cut from.
var stockWords = []string{"sheet", "plate", "offcut", "scrap", "stock"}

// weightOfCut answers what the blank of the last piece weighs, whatever else is asked of the
// sheet that it is cut from.
func (m *message) weightOfCut() (Reading, bool) {
	last := m.context.Last
	if last == nil || !m.says("weight of the", "weigh the", "weight of that", "weight of this") || !m.says(whatWasCut...) || len(m.alloys) > 0 {
		return Reading{}, false
	}
	for _, q := range m.found {
		if !m.saysOneBetween(q.first-3, q.first, stockWords...) {
			return Reading{}, false
		}
	}
	r, ok := m.weighedLast(*last)
	for _, q := range m.found {
		r.Notes = append(slices.Clone(r.Notes), fmt.Sprintf("the %s is left out: ask for it alone", strings.TrimSpace(q.typed(m))))
	}
	return r, ok
}

// pieceNames are what the pieces of requests are called.
var pieceNames = map[string]string{"collet": "collet", "collar": "collar", "bezel": "bezel", "band": "ring", "resize": "ring", "dome": "dome", "jumpring": "jump ring", "prongs": "prongs", "melt": "casting", "tubeset": "tube setting", "halo": "halo", "saddle": "saddle", "weigh": "sheet", "gauge": "gauge", "heat": "metal"}

func nameOf(last Last) string {
	if name := pieceNames[last.Request]; name != "" {
		return name
	}
	return "piece"
}

// standIns stand for the last piece or topic in a question.
var standIns = map[string]bool{"it": true, "that": true, "them": true, "this": true, "these": true, "those": true, "one": true}

// withItsName reads a question about "it" with the name of the last topic or piece
// in its place: "how do I get it off" after firestain.
func (m *message) withItsName() (Reading, bool) { return m.underName(true) }

// besideItsName reads a question that may go on from the last topic with the topic's
// name added: "and quench right away?" after annealing.
func (m *message) besideItsName() (Reading, bool) {
	if m.context.Topic == "" && (m.context.Last == nil || m.context.Last.Request != "trouble") || m.namesItsTopic() {
		return Reading{}, false
	}
	return m.underName(false)
}

// namesItsTopic reports whether a question says what it is about: "what is a
// scriber" does not go on from the topic before it.
func (m *message) namesItsTopic() bool {
	return m.defines() && !m.pointsBack() && slices.ContainsFunc(m.tokens, func(t token) bool { return t.word() && meaning(t.text) != "" })
}

func (m *message) underName(inPlace bool) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 10 || !m.asksInWords() || inPlace && !m.pointsBack() {
		return Reading{}, false
	}
	for _, name := range m.topicNames() {
		words, named := m.nameIn(name)
		if named != inPlace {
			return Reading{}, false
		}
		if !named {
			words = append(words, name)
		}
		alone := Read(strings.Join(words, " "), Context{Takes: m.context.Takes, Addressed: true})
		if alone.Outcome == Explanation || alone.Outcome == Request && (alone.Request == "trouble" || alone.Request == "cautions") {
			return alone, true
		}
	}
	return Reading{}, false
}

// nameIn are the words of the message with a name in place of the first word that
// stands for it, and whether there was one.
func (m *message) nameIn(name string) (words []string, named bool) {
	for i, t := range m.tokens {
		w := t.text
		determines := w == "that" && m.at(i+1).word() && i > 0 && m.at(i-1).text != "is"
		if standIns[w] && !named && !determines && m.at(i+1).text != "to" {
			w, named = "the "+name, true
		}
		words = append(words, w)
	}
	return words, named
}

// topicNames are the names of what was spoken of last, the likeliest first.
func (m *message) topicNames() []string {
	var names []string
	if f := factNamed(m.context.Topic); f != nil {
		if len(f.Term) > 0 {
			names = append(names, f.Term[0])
		} else {
			names = append(names, f.Key)
		}
		return names
	}
	if last := m.context.Last; last != nil {
		if last.Request == "trouble" {
			return append(names, strings.ReplaceAll(last.Options["sign"], "-", " "))
		}
		names = append(names, nameOf(*last))
	}
	return names
}

// correctable reports whether a correction can be worked out for a sign of trouble.
func correctable(sign string) bool {
	return slices.ContainsFunc(knowledge.Troubles(), func(t knowledge.Trouble) bool { return knowledge.Word(t.Key) == sign && t.Correct != nil })
}

// signAgain goes on from a sign of trouble: what is told of it without a sign of
// its own is more of the same.
func (m *message) signAgain() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request != "trouble" || m.context.Topic != "" && !m.asksInWords() || len(m.tokens) > 20 || m.has("thanks", "greeting") || m.onlyChatter() {
		return Reading{}, false
	}
	options := maps.Clone(last.Options)
	if q := m.difference(); q != nil && options["by"] == "" && len(m.found) == 1 && m.context.takes("trouble", "by") && correctable(options["sign"]) {
		d := m.draft("trouble")
		d.options = options
		d.set("by", q)
		return Reading{Outcome: Request, Request: "trouble", Options: d.options, Topic: strings.ReplaceAll(options["sign"], "-", " ")}, true
	}
	for _, q := range m.found {
		q.used = true
	}
	return Reading{Outcome: Request, Request: "trouble", Options: options, Topic: strings.ReplaceAll(last.Options["sign"], "-", " "), Notes: []string{"with what you add, the causes are still these, the likeliest first; if none fits, say what you see and what you did before"}}, true
}

// toldOfTrouble takes what is told after a sign of trouble, "fine silver, I think 0.5
// mm", as told of it and not as a piece to work out.
func (m *message) toldOfTrouble() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request != "trouble" || m.context.Topic != "" || len(m.found)+len(m.alloys) == 0 || m.asksInWords() && !m.says("my") || m.redoes() || m.startsWith(openers...) || m.beginsAnew("trouble") || m.says("i need", "lets", "please", "size", "length", "blank", "cut a", "how", "redo", "now for") || m.has("weight", "convert") || m.cues["daybook"]+m.cues["bench"] > 0 {
		return Reading{}, false
	}
	return m.signAgain()
}

// noSuchChange says what can be changed, where a message asks for a change of the
// last piece that no option makes.
func (m *message) noSuchChange() (Reading, bool) {
	last := m.context.Last
	if last == nil || len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 14 || len(m.tokens) < 2 || !m.startsWith("and make", "make it", "make that", "and taper", "can you make", "could you make", "same but", "same with", "and with", "what if i", "now with", "and add", "add", "change", "can you change", "can it have", "with", "and give it", "and put", "but") && !m.says("taper it", "make it", "instead", "without the") {
		return Reading{}, false
	}
	return Reading{Outcome: Question, Request: last.Request, Options: last.Options, Ask: "I can't change that in a " + nameOf(*last) + ". I can change its " + changeableIn(last.Request) + ". What should it be?"}, true
}
