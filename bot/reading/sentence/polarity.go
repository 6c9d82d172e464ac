package sentence

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// doubtWords make a question to which yes may mean that a thing won't do: "is 28 ga
// too thin?", "isn't that dangerous?"
var doubtWords = []string{
	"too thin", "too thick", "too much", "too little", "too light", "too heavy", "too weak", "too chunky", "too soft", "too flimsy", "too skinny", "too fine", "too small", "too big", "too large", "too hot", "too cold", "too long", "too short", "too high", "too tall", "too low", "too wide", "too narrow", "too tight", "too loose",
	"flimsy", "bad", "silly", "daft", "mad", "crazy", "stupid", "asking for trouble", "overkill", "will it bend", "will it dent", "would it bend", "would it dent", "problem", "wrong", "a mistake",
	"dangerous", "danger", "unsafe", "not safe", "harmful", "toxic", "poisonous", "poison", "risk", "risky", "hurt", "hurts", "damage", "damages", "ruin", "ruins", "not ok", "not okay", "cant i", "cant you", "cant we", "shouldnt", "isnt", "arent", "wont", "doesnt", "dont", "not", "never", "avoid", "forbidden", "why", "or",
}

// yesOrNo begins an answer.
var yesOrNo = regexp.MustCompile(`^(Yes|No)[,:.] ?`)

// plainly takes yes and no from the beginning of an answer, where the question
// could mean either by them. What follows says it all.
func (m *message) plainly(r Reading) Reading {
	if m.says(doubtWords...) {
		r.Text, r.Verdict = withoutYesOrNo(r.Text), withoutYesOrNo(r.Verdict)
	}
	own := func(q *quantity) bool { return q.role == ownResult }
	compared := strings.Contains(r.Verdict, "you say") // whether it is right is told already
	if r.Outcome == Request && !compared && slices.ContainsFunc(m.found, own) {
		r.Verdict = withoutYesOrNo(r.Verdict)
	}
	return r
}

func withoutYesOrNo(text string) string {
	rest := yesOrNo.ReplaceAllString(text, "")
	if rest == text || strings.HasPrefix(rest, "but ") {
		return text
	}
	first, size := utf8.DecodeRuneInString(rest)
	return string(unicode.ToUpper(first)) + rest[size:]
}
