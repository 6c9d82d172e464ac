package sentence

import (
	"strings"

	"guildhand/bot/reading/intent"
)

// Many a conversation ends with what its maker is going to do: "cheers, gonna try it in
// brass tonight". Nothing of that is asked or changed, whatever it names.

const (
	// surelySilent is how likely a message must want no answer to get none.
	surelySilent = 0.8
	// silentAfterThanks is the same of what stands behind thanks.
	silentAfterThanks = 0.4
)

// intentions begin what somebody is going to do.
var intentions = []string{"ill", "i will", "i shall", "we will", "we shall", "im going to", "i am going to", "were going to", "gonna", "going to", "im gonna", "about to", "will", "shall", "off to", "ordering", "cutting", "time to"}

// choosingVerbs are those by which somebody who is going to do something chooses a figure or a
// metal of the piece: "I'll use 0.9 then".
var choosingVerbs = wordSet("use have take need want go like be pick choose prefer do keep stick stay settle with make opt")

// closes reports whether a message that comes after an answer only thanks for it, or tells
// what its maker will do, so that it wants no answer. thanked tells that it began with
// thanks.
func (m *message) closes(thanked bool) bool {
	if thanked && m.byItself() && (m.tellsOnly() || m.praises()) || m.tellsSuccess() || thanked && m.tellsDone() {
		return true
	}
	piece, ok := m.pieceInTalk()
	if !ok && m.context.Topic == "" || len(m.found) > 0 || strings.Contains(m.typed, "?") || m.questionWord() && !m.willDo() || m.wishes() || m.says("please", "instead") || behindPraise(m.typed) != "" {
		return false
	}
	if m.tellsIntention() && (thanked || m.has("thanks")) {
		return true
	}
	if len(m.alloys) > 0 && !m.tellsIntention() || m.startsWith(openers...) && !m.tellsIntention() || m.stoneSides() != nil {
		return false
	}
	silent := m.turnAfter(piece.Request).Of(intent.Silent)
	return m.context.Asked == nil && silent >= surelySilent && m.tellsIntention() || (thanked || m.has("thanks")) && silent >= silentAfterThanks
}

// praises reports whether what stands behind thanks says how good something was: "the
// demonstration was most instructive".
func (m *message) praises() bool {
	return len(m.found)+len(m.alloys) == 0 && m.says("was", "were") && !strings.Contains(m.typed, "?") && !m.questionWord() && !m.says(asksBeside...) &&
		m.says("most", "very", "so", "really", "great", "lovely", "instructive", "helpful", "wonderful", "brilliant", "perfect", "excellent", "fun", "kind", "useful")
}

// tellsOnly reports whether what stands behind thanks tells how something went and asks
// nothing: "thank you. That agrees with my own figure."
func (m *message) tellsOnly() bool {
	if len(m.found) > 0 || len(m.alloys) > 0 || strings.Contains(m.typed, "?") || m.says(asksBeside...) {
		return false
	}
	return m.startsWith("that", "it", "they", "the students", "the class", "we", "works", "worked", "all") || m.chance(intent.Silent) >= silentAfterThanks
}

// willDo reports whether a message begins with what its maker will do: "will order it".
func (m *message) willDo() bool {
	return m.at(0).text == "will" && !subjects[m.at(1).text]
}

// subjects stand behind the verb that a question begins with: "will it bend".
var subjects = wordSet("it that this the they you u he she we i my a there these those one")

// tellsIntention reports whether a message tells what somebody is going to do, and not what
// the piece is to be.
func (m *message) tellsIntention() bool {
	for i := range m.tokens {
		for _, words := range intentions {
			next := i + strings.Count(words, " ") + 1
			if m.between(i, next) != words || i > 0 && !m.ends(i-1) && words == "will" || words == "will" && subjects[m.at(next).text] {
				continue
			}
			return !choosingVerbs[m.at(next).text] || m.at(next).text == "go" && m.at(next+1).text == "and"
		}
	}
	return false
}

// wentWell tell that what was made is as it should be.
var wentWell = []string{"like a glove", "like a dream", "like a charm", "perfect fit", "fits perfectly", "fit perfectly", "fits perfect", "fit perfect", "over the moon", "worked a treat", "works a treat", "went a treat", "came out perfect", "came out perfectly", "came out lovely", "came out great", "came out beautiful", "came out just right", "turned out perfect", "turned out lovely", "turned out great", "turned out beautiful", "turned out so", "looks gorgeous", "looks lovely", "looks amazing", "looks beautiful", "looks brilliant", "looks great", "its a beauty", "nailed it", "so chuffed", "well chuffed", "shes delighted", "hes delighted", "customer delighted", "she loves it", "he loves it", "they love it", "that sorted it", "sorted it", "spot on"}

// butNot are words of what did not go so well, or of what is wanted next.
var butNot = []string{"but", "though", "except", "however", "not", "isnt", "wasnt", "didnt", "doesnt", "wont", "cant", "gap", "open", "loose", "tight", "crooked", "cracked", "melted", "only", "bar", "apart", "until", "if", "now", "next", "another", "same", "again", "can", "could", "would", "should", "what", "whats", "how", "which", "why", "when", "where", "need", "want", "please"}

// tellsSuccess reports whether a message after an answer tells that all went well, and
// nothing else.
func (m *message) tellsSuccess() bool {
	_, piece := m.pieceInTalk()
	return (piece || m.context.Topic != "") && len(m.found)+len(m.alloys) == 0 && !strings.Contains(m.typed, "?") && m.says(wentWell...) && !m.says(butNot...) && m.words() <= longestRemark+fewWords
}

// Words of a piece that is made, and of what went wrong with one.
var (
	finishedWords = []string{"its done", "thats done", "all done", "both done", "are done", "is done", "its finished", "is finished", "all finished", "its soldered", "theyre soldered", "are soldered", "closed very well", "closed well", "closed nicely", "closed beautifully", "closed perfectly", "met exactly", "met perfectly", "met all round", "met nicely", "delighted", "looks well", "look well", "looks lovely", "look lovely", "went on fine", "cast fine", "fits well", "fits fine", "fits nicely", "turned out well", "came out well", "came out fine"}
	wentAstray    = []string{"crack", "cracked", "broke", "broken", "split", "black", "short", "small", "big", "burnt", "burned", "pits", "pitted", "came off", "fell off", "leaks", "bent", "moves", "scratched", "too", "cant", "turn it", "get it"}
)

// tellsDone reports whether what stands behind thanks tells that a piece is made: "it's done,
// and it looks well".
func (m *message) tellsDone() bool {
	_, piece := m.pieceInTalk()
	return (piece || m.context.Topic != "") && len(m.found)+len(m.alloys) == 0 && !strings.Contains(m.typed, "?") && m.says(finishedWords...) && !m.says(butNot...) && !m.says(wentAstray...) && m.words() <= longestRemark+fewWords
}

// afterSuccess is a message without a first sentence that only tells how well the last piece
// came out: "that cast fine. How much for two of them?".
func afterSuccess(typed string) string {
	const longest = 8
	at := strings.IndexAny(typed, ".!")
	if at < 0 || at+1 >= len(typed) || typed[at+1] != ' ' {
		return typed
	}
	first, rest := newMessage(typed[:at]), strings.TrimSpace(strings.TrimLeft(typed[at:], ".! "))
	well := first.says(wentWell...) || first.says(finishedWords...)
	if !well || first.words() > longest || len(first.found)+len(first.alloys) > 0 || first.says(butNot...) || first.says(wentAstray...) || len(strings.Fields(rest)) < 2 {
		return typed
	}
	return rest
}
