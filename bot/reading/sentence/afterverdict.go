package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Some short messages only make sense by what was said right before them: "what would you
// use then" after a verdict, "k do that" and "what do u need to know" after a piece.

// adviceWanted ask what to take in place of what was judged.
var adviceWanted = []string{"would you use", "would u use", "should i use", "would you run", "would you go", "would you take", "do you suggest", "do you recommend", "would you recommend", "would you suggest", "should i take", "should i go", "should i get", "is better then", "whats better", "would be better", "what then", "use then", "use instead"}

// goAhead agree to what was shown.
var goAhead = []string{"do that", "do that one", "go for it", "do it", "go ahead", "go on", "do so", "run it", "run with that", "go with that", "do it like that"}

// besideAgreeing are words that change nothing of what is agreed to.
var besideAgreeing = wordSet("ok okay k yes yeah yep right then please pls great good fine lets well so and now cool alright thanks")

// agreesToPiece shows the last piece once more where a message does nothing but agree to it:
// "k do that".
func (m *message) agreesToPiece(last Last) (Reading, bool) {
	if readersOf[last.Request] == nil || m.context.Topic != "" || len(m.found)+len(m.alloys) > 0 || strings.Contains(m.typed, "?") {
		return Reading{}, false
	}
	var said []string
	for _, t := range m.tokens {
		if t.word() && !besideAgreeing[t.text] {
			said = append(said, t.text)
		}
	}
	if !slices.Contains(goAhead, strings.Join(said, " ")) {
		return Reading{}, false
	}
	return figuresOf(last), true
}

// needsAsked ask what is still to be told.
var needsAsked = []string{"what do you need", "what do u need", "what info do you need", "what information do you need", "what else do you need", "what else do u need", "what do you need from me", "do you need anything else", "need anything else", "what else should i tell you", "what do you want to know", "anything else you need", "what more do you need", "need to know anything else"}

// nothingLacks tells what a piece may still be told, where somebody asks what is needed.
func (m *message) nothingLacks(last Last) (Reading, bool) {
	if readersOf[last.Request] == nil || len(m.found)+len(m.alloys) > 0 || m.words() > 9 || !m.says(needsAsked...) {
		return Reading{}, false
	}
	return Reading{Outcome: Question, Request: last.Request, Options: maps.Clone(last.Options),
		Ask: fmt.Sprintf("I need no more for your %s: what you didn't tell is assumed, and the answer says so. You can tell me its %s. What is it?", nameOf(last), changeableIn(last.Request))}, true
}

// newFromScratch is a new ring of the size that a ring was to be brought to.
func (m *message) newFromScratch(last Last) (Reading, bool) {
	if last.Request != "resize" || last.Options["to"] == "" || len(m.found)+len(m.alloys) > 0 || !m.says("new one", "from scratch", "new ring", "new band", "make a new", "brand new") || !m.says("same size", "that size", "from scratch", "how long", "length", "strip", "blank") || m.words() > longestChange+2 {
		return Reading{}, false
	}
	d := m.draft("band")
	system, size, _ := strings.Cut(last.Options["to"], " ")
	d.say("system", system)
	d.say("ring", size)
	for _, option := range []string{"alloy", "thickness", "width", "profile"} {
		if v := last.Options[option]; v != "" {
			d.say(option, v)
		}
	}
	r := d.reading()
	r.Changed = []string{"a new ring in place of the resizing"}
	return r, true
}

// shankSaid takes the section and the thickness of the shank that a setting sits on.
func (m *message) shankSaid(last Last) (Reading, bool) {
	if last.Request != "saddle" || len(m.alloys) > 0 || len(m.found) > 1 || m.words() > 8 || !m.says("shank", "ring", "band") || m.says("wall", "cup", "setting", "collet", "stone", "size") || m.asksInWords() {
		return Reading{}, false
	}
	d := m.draftWith("saddle", last.Options)
	switch {
	case m.has("profile:half-round"):
		return Reading{}, false
	case m.says("flat"):
		d.say("profile", "flat")
	case len(m.found) == 0:
		return Reading{}, false
	}
	if len(m.found) == 1 {
		q := m.found[0]
		thick := q.measure == gauge || q.role == "thickness" || m.at(q.next).text == "thick"
		if !thick || q.measure != gauge && q.measure != length && q.measure != bare {
			return Reading{}, false
		}
		q.used = true
		d.say("shankthick", q.shown)
		if q.measure == bare {
			d.say("shankthick", q.shown+" mm")
		}
	}
	return m.changedFrom(last, d), true
}

// fitsWearer are the words of a ring that does not suit its wearer.
var fitsWearer = []string{"too big", "too small", "too tight", "too loose", "told you wrong", "gave you the wrong", "wrong size"}

// sizeMended takes the size that a ring should have, where the one before is too big or too
// small: "too big she says, 6.5".
func (m *message) sizeMended(last Last) (Reading, bool) {
	if last.Request != "band" || last.Options["ring"] == "" || last.Options["system"] == "diameter" || len(m.alloys) > 0 || m.words() > longestChange || !m.says(fitsWearer...) || m.asksInWords() || m.says("came out", "made it", "turned out", "ended up", "resize", "after", "by") {
		return Reading{}, false
	}
	fresh := m.anew()
	if fresh.of(ringSize) == nil {
		if q := fresh.sizeLetter(); q != nil {
			fresh.add(*q)
		}
	}
	if len(fresh.found) != 1 {
		return Reading{}, false
	}
	q := fresh.found[0]
	if q.measure != ringSize && (q.measure != bare || !q.mayFill("ring")) || letter(q.shown) != letter(last.Options["ring"]) {
		return Reading{}, false
	}
	d := fresh.draftWith("band", last.Options)
	d.set("ring", q)
	if q.system != "" {
		d.say("system", q.system)
	}
	return fresh.changedFrom(last, d), true
}

// countFactors multiply how many pieces there are.
var countFactors = []struct {
	words string
	by    float64
}{{"double that", 2}, {"double it", 2}, {"twice that", 2}, {"twice as many", 2}, {"twice the amount", 2}, {"double the amount", 2}, {"half that", 0.5}, {"half as many", 0.5}, {"half the amount", 0.5}, {"three times that", 3}, {"three times as many", 3}, {"triple that", 3}, {"triple it", 3}}

// soManyTimes multiplies the count of the last piece: "and double that".
func (m *message) soManyTimes(last Last) (Reading, bool) {
	now := parse(last.Options["count"])
	if now < 2 || len(m.alloys) > 0 || len(m.found) > 1 || m.words() > 8 || m.saysMeasure() || m.says("length", "size", "wire") {
		return Reading{}, false
	}
	to := 0.0
	for _, f := range countFactors {
		if m.says(f.words) {
			to = f.by * now
		}
	}
	if len(m.found) == 1 {
		q := m.found[0]
		if to != 0 || q.measure != bare && q.measure != count || m.at(q.next).text != "more" && m.at(q.next+1).text != "more" || m.words() > 5 || m.asksInWords() {
			return Reading{}, false
		}
		to = now + q.value
	}
	if to < 1 || to != float64(int(to)) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.say("count", plain(to))
	m.useAll()
	for i, t := range m.tokens {
		if _, number := numberWords[t.text]; number || slices.Contains([]string{"twice", "double", "half", "triple"}, t.text) {
			m.taken[i] = true
		}
	}
	return m.changedFrom(last, d), true
}

// forSoMany takes how many jump rings there are to be: "how much for 300?"
func (m *message) forSoMany(last Last) (Reading, bool) {
	if last.Request != "jumpring" || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > 7 || !m.says("how much", "what about", "and for", "how much wire", "what for") || m.saysMeasure() {
		return Reading{}, false
	}
	q := m.found[0]
	const fewestAsked = 10
	if strings.HasSuffix(last.Options["wire"], "ga") && q.value <= 36 {
		return Reading{}, false // it may be a gauge
	}
	if q.measure != bare && q.measure != count || q.role != "" || q.value < fewestAsked || q.value != float64(int(q.value)) || m.at(q.first-1).text != "for" && m.at(q.first-1).text != "about" {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	delete(d.options, "chain")
	d.set("count", q)
	return m.changedFrom(last, d), true
}

// restStays say that nothing else changes, which goes without saying after a piece.
var restStays = []string{"and leave the rest unaltered", "and leave the rest unchanged", "and leave the rest as it is", "and leave the rest alone", "and leave the rest", "leave the rest unaltered", "leave the rest as is", "leave the rest", "and keep the rest the same", "and keep the rest", "keep the rest the same", "keep the rest", "the rest stays the same", "the rest stays as it is", "the rest as before", "rest as before", "the rest unchanged", "all else unchanged", "all else the same", "all else equal", "everything else the same", "everything else stays the same", "everything else stays", "everything else unchanged", "and keep everything else the same", "keep everything else the same", "the rest can stay", "leave everything else"}

// withoutRest is a message without the words that leave the rest as it was.
func withoutRest(typed string) string {
	low := strings.ToLower(typed)
	for _, stays := range restStays {
		if i := strings.Index(low, stays); i >= 0 && len(low) == len(typed) {
			rest := strings.TrimSpace(strings.TrimRight(strings.TrimSpace(typed[:i]), ",;-") + " " + strings.TrimLeft(typed[i+len(stays):], " ,;"))
			if len(strings.Trim(rest, " .!?")) > 2 {
				return rest
			}
		}
	}
	return typed
}
