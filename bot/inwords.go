package bot

import (
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
)

// inWords tells what was typed of a request, for a maker who has to say whether it is
// what was meant: "collet: oval, size 8 x 6 mm, depth 4 mm, sterling, thickness 22 gauge".
func inWords(parsed reading.Parsed) string {
	var says []string
	for i := range parsed.Spec.Options {
		o := &parsed.Spec.Options[i]
		if v, ok := parsed.Args[o.Name]; ok && v.Source == catalogue.Typed {
			says = append(says, optionInWords(o, v.Text))
		}
	}
	if len(says) == 0 {
		return parsed.Spec.Name
	}
	return parsed.Spec.Name + ": " + strings.Join(says, ", ")
}

// optionInWords is an option with its value and the value's unit. A word that tells by
// itself what it is stands alone.
func optionInWords(o *catalogue.Option, value string) string {
	shown := value
	if value != "" && strings.ContainsAny(value[len(value)-1:], "0123456789") {
		shown += catalogue.UnitOf(o)
	}
	switch {
	case o.Kind == catalogue.Flag:
		return o.Name
	case o.Kind == catalogue.Word && o.Bare:
		return shown
	case o.Kind == catalogue.Size:
		shown = strings.ReplaceAll(shown, "x", " x ")
	case o.Kind == catalogue.Thickness:
		if gauge, is := strings.CutSuffix(value, "ga"); is {
			return o.Name + " " + gauge + " gauge"
		}
		if mm := strings.TrimSpace(strings.TrimSuffix(value, "mm")); !strings.ContainsAny(mm, "abcdefghijklmnopqrstuvwxyz") {
			shown = mm + " mm"
		}
	}
	return o.Name + " " + shown
}
