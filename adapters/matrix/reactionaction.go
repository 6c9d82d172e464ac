package matrix

import (
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
)

// reactionAction is what a reaction on an answer asks for.
type reactionAction string

const (
	showWorking reactionAction = "working"
	sendPDF     reactionAction = "pdf"
	showInches  reactionAction = "inches"
	sendFiles   reactionAction = "files"
)

// actions in the order in which an answer offers them, with the reactions that
// mean them; the first of each is the one offered.
var actions = []struct {
	action reactionAction
	keys   []string
	label  string
	has    func(bot.Reply) bool
}{
	{showWorking, []string{"🔧", "🛠", "🔨"}, "working", func(r bot.Reply) bool { return r.Answer.HasWorking() }},
	{sendPDF, []string{"📄", "📃", "🖨"}, "PDF at 1:1", func(r bot.Reply) bool { return len(r.Files().PDF) > 0 }},
	{showInches, []string{"📏", "📐"}, "inches", func(r bot.Reply) bool { return r.Answer.HasLengths() }},
	{sendFiles, []string{"📎", "✂"}, "other files", func(r bot.Reply) bool { return len(otherFiles(r)) > 0 }},
}

// otherFiles are the drawings and what else is not shown at once.
func otherFiles(r bot.Reply) []answer.Attachment {
	f := r.Files()
	return append(f.SVG, f.Others...)
}

// actionOf reads a reaction. Emoji come with and without a variation selector,
// and with shades of skin.
func actionOf(key string) (reactionAction, bool) {
	key = strings.Map(func(r rune) rune {
		if r == '\ufe0f' || r == '\ufe0e' || (r >= 0x1f3fb && r <= 0x1f3ff) {
			return -1
		}
		return r
	}, strings.TrimSpace(key))
	for _, o := range actions {
		for _, k := range o.keys {
			if k == key {
				return o.action, true
			}
		}
	}
	return "", false
}

// offersOf is the line that says which reactions an answer takes.
func offersOf(r bot.Reply) string {
	var parts []string
	for _, o := range actions {
		if o.has(r) {
			parts = append(parts, o.keys[0]+" "+o.label)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "react with " + strings.Join(parts, ", ")
}
