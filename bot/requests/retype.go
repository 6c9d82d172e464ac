package requests

import (
	"strings"

	"guildhand/bot/catalogue"
)

// retyped is the request as typed, with some options set to other texts ("" to
// leave one out), as a line that can be typed: what a refusal offers to try.
func retyped(c *catalogue.Call, changes map[string]string) string {
	words := []string{c.Spec.Name}
	for i := range c.Spec.Options {
		o := &c.Spec.Options[i]
		text, changed := changes[o.Name]
		if !changed && c.Args.Typed(o.Name) {
			text = c.Args[o.Name].Text
		}
		switch {
		case text == "":
		case o.Kind == catalogue.Flag:
			words = append(words, o.Name)
		case o.Bare:
			words = append(words, text)
		default:
			words = append(words, o.Name, text)
		}
	}
	return strings.Join(words, " ")
}
