package sentence

import "strings"

// chatterWords alone want no answer, in whatever order.
var chatterWords = wordSet("thanks thank you thx ty ta cheers great perfect awesome brilliant lovely nice one cool sweet ace legend star magic wicked super superb wonderful excellent amazing fab fabulous ok okay okey right gotcha got it sorted good job bot mate pal love all so much very really that is thats was youre a the me my lol haha hahaha ha lmao rofl hehe yay wow oh ah aha ooh hmm phew whoops oops fine sounds will do makes sense see i interesting clever smart neat noted understood roger champion beauty bless appreciated much appreciate again well done bye later night goodnight morning evening see ya cya tomorrow thursday tuesday monday wednesday friday saturday sunday then everyone folks guys xx x hooray sick mint top banana yep yup yeah yes no nope nah sure")

// notChatter are words that answer or ask something even among chatter.
var notChatter = map[string]bool{"yes": true, "no": true, "sure": true, "yep": true, "yup": true, "yeah": true, "nope": true, "nah": true}

// onlyChatter reports whether a message is thanks, praise or laughter and nothing
// else.
func (m *message) onlyChatter() bool {
	said := false
	for _, t := range m.tokens {
		if t.number || t.word() && !chatterWords[t.text] || strings.Contains(m.typed, "?") {
			return false
		}
		said = said || t.word() && !notChatter[t.text] && len(t.text) > 1
	}
	return said && (len(m.found) == 0)
}

// chatter is met with silence.
func (m *message) chatter() (Reading, bool) {
	if m.onlyChatter() && !m.has("greeting") || m.jokes() || m.onlyGreets() || m.remarksWithThanks() {
		return Reading{Outcome: Silent}, true
	}
	return Reading{}, false
}

// onlyGreets reports whether a message greets the room and asks nothing. Who says hi or hello
// to the bot may not know what it does.
func (m *message) onlyGreets() bool {
	if !m.has("greeting") || len(m.found) > 0 {
		return false
	}
	if m.says("how are you", "how are u", "how r u") && m.words() <= fewestInGreeting+5 {
		return true
	}
	return m.words() <= 2 && !m.says("hi", "hello", "hey", "hallo", "help", "there", "anyone", "awake", "bot") && !strings.Contains(m.typed, "?")
}

// asksBeside are words that ask for something beside a thanks.
var asksBeside = []string{"but", "how", "why", "what", "whats", "which", "where", "when", "who", "can", "could", "would", "should", "shall", "need", "want", "please", "pls", "next", "also", "now", "same", "instead", "and if", "make it", "try", "again", "wrong", "not"}

// remarksWithThanks reports whether a message thanks and then only tells how it went.
func (m *message) remarksWithThanks() bool {
	return m.startsWith("thank you", "i thank you", "thanks", "many thanks", "tack", "danke", "merci", "gracias", "grazie", "obrigado", "obrigada") && len(m.found) == 0 && len(m.alloys) == 0 && !strings.Contains(m.typed, "?") && !m.says(asksBeside...)
}

// jokes matches talk to others of the room that asks nothing: "told you it would
// know".
func (m *message) jokes() bool {
	if strings.Contains(m.typed, "?") && !strings.Contains(m.typed, "@") || len(m.found) > 0 || len(m.alloys) > 0 {
		return false
	}
	return strings.HasPrefix(strings.TrimSpace(m.typed), "@") || m.says("lol", "haha", "hahaha", "lmao", "rofl", "told you", "off to the bench", "see you", "have a good", "good night", "let you know", "you legend", "youre a star", "will report back", "wish me luck") && !m.asksInWords() && m.stoneSides() == nil
}

// afterThanks is a message without the thanks that it begins with: "ta. how tall
// did you use?"
func afterThanks(typed string) string {
	rest := strings.TrimSpace(typed)
	cut := false
	for {
		after, ok := cutThanks(rest)
		if !ok {
			break
		}
		rest, cut = after, true
	}
	if !cut || len(strings.Fields(rest)) < 2 {
		return typed
	}
	return rest
}

// thanksBefore are what a message may begin with that says nothing to its question.
var thanksBefore = []string{"thanks very much", "thanks so much", "thanks a lot", "thank you so much", "thank you very much", "ok thanks", "okay thanks", "ok thank you", "ok cheers", "ok ta", "ok great", "ok cool", "i thank you, sir", "i thank you", "thank you", "many thanks", "thanks", "cheers mate", "cheers", "ta", "thx", "great", "brilliant", "perfect", "lovely", "awesome", "cool", "excellent", "nice one", "nice", "ahh", "ah", "oh", "ok", "okay", "right", "got it", "noted", "lol", "haha", "hmm", "wow"}

// cutThanks cuts a leading thanks that a comma, a full stop or an "and" ends.
func cutThanks(typed string) (rest string, ok bool) {
	lower := strings.ToLower(typed)
	for _, w := range thanksBefore {
		if !strings.HasPrefix(lower, w) {
			continue
		}
		rest = typed[len(w):]
		trimmed := strings.TrimLeft(rest, ",.!-–— ")
		if trimmed == rest || trimmed == "" || !strings.ContainsAny(rest[:len(rest)-len(trimmed)], ",.!-–—") {
			continue
		}
		return trimmed, true
	}
	return typed, false
}

// afterNo sets a comma after the "no" that an answer begins with, which denies the
// question and not the word behind it: "no tapered, not a bezel".
func afterNo(typed string) string {
	rest := strings.TrimSpace(typed)
	if len(rest) > 3 && strings.EqualFold(rest[:3], "no ") && !strings.HasPrefix(strings.ToLower(rest), "no idea") && !strings.HasPrefix(strings.ToLower(rest), "no clue") && !strings.HasPrefix(strings.ToLower(rest), "no pref") {
		return "no, " + strings.TrimSpace(rest[3:])
	}
	return typed
}
