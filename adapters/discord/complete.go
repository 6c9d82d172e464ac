package discord

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"guildhand/bot/catalogue"
)

// completeWithin is how long a completion may take: a later one is of no use.
const completeWithin = 2 * time.Second

// onComplete answers with what may come next, from memory.
func (a *Adapter) onComplete(ctx context.Context, i *interaction, data input) {
	ctx, cancel := context.WithTimeout(ctx, completeWithin)
	defer cancel()
	list := []choice{}
	given, part := data.Options, ""
	if len(given) == 1 && given[0].Type == typeSubcommand {
		given, part = given[0].Options, given[0].Name
	}
	for _, o := range given {
		if !o.Focused {
			continue
		}
		typed, _ := o.Value.(string)
		if spec := a.menu.specs[data.Name]; spec != nil {
			so, ok := spec.Option(o.Name)
			if ok && takesEntry(spec, part) == so.Name {
				list = a.completeEntry(ctx, i, so, typed)
				continue
			}
			if ok {
				list = matching(a.menu.completions[data.Name][so.Name], typed)
				continue
			}
		}
		if o.Name == optLine {
			list = a.completeLine(ctx, a.menu.specs[data.Name], typed)
		}
	}
	if _, err := a.api.respond(ctx, i.ID, i.Token, callback{Type: replyChoices, Data: choices{Choices: list}}); err != nil {
		a.log.Debug("a completion came too late", "interaction", i.ID, "error", err)
	}
}

// takesEntry is the option of a subcommand that takes an entry's number, "" for
// none.
func takesEntry(spec *catalogue.Spec, part string) string {
	for _, p := range spec.Parts {
		if p.Name == part {
			return p.Entry
		}
	}
	return ""
}

// completeEntry offers entries by number and headline. What goes on behind the
// number, as a correction does, is typed after it.
func (a *Adapter) completeEntry(ctx context.Context, i *interaction, o *catalogue.Option, typed string) []choice {
	list := []choice{}
	number, rest, more := strings.Cut(strings.TrimSpace(typed), " ")
	if more {
		typed = number
	}
	whole := ""
	if more {
		whole = number
	}
	for _, kept := range a.service.Recent(ctx, a.who(i), typed, maxChoices) {
		if whole != "" && strconv.FormatInt(kept.Entry, 10) != whole {
			continue
		}
		c := choice{Name: clip(fmt.Sprintf("%d: %s", kept.Entry, kept.Headline), maxCommandText), Value: kept.Entry}
		if o.Kind != catalogue.Integer {
			text := strings.TrimSpace(fmt.Sprintf("%d %s", kept.Entry, rest))
			if length(text) > maxCommandText {
				continue // it is sent as it was typed
			}
			c.Value = text
		}
		list = append(list, c)
	}
	return list
}

// matching finds suggestions: first those that begin with what was typed, then
// those that have it within.
func matching(list []suggestion, typed string) []choice {
	typed = strings.ToLower(strings.TrimSpace(typed))
	begins, within := []choice{}, []choice{}
	for _, s := range list {
		found := 0
		for _, m := range s.match {
			switch {
			case strings.HasPrefix(m, typed):
				found = 2
			case found == 0 && strings.Contains(m, typed):
				found = 1
			}
		}
		switch c := (choice{Name: s.name, Value: s.value}); found {
		case 2:
			begins = append(begins, c)
		case 1:
			within = append(within, c)
		}
	}
	begins = append(begins, within...)
	return begins[:min(len(begins), maxChoices)]
}

// completeLine offers whole lines, each with one more word. What is too long
// for a choice is not offered.
func (a *Adapter) completeLine(ctx context.Context, spec *catalogue.Spec, typed string) []choice {
	line := strings.TrimLeft(typed, " ")
	before := ""
	if spec != nil && firstWord(line) != spec.Name {
		before = spec.Name + " "
	}
	list := []choice{}
	seen := map[string]bool{}
	kept := line[:strings.LastIndexByte(line, ' ')+1]
	for _, c := range a.service.Complete(ctx, before+line, len(before+line)) {
		whole := kept + c.Text
		if len(list) == maxChoices || seen[whole] || length(whole) > maxCommandText || c.Text == "" {
			continue
		}
		seen[whole] = true
		name := whole
		if c.Summary != "" && length(whole)+2+length(c.Summary) <= maxCommandText {
			name += ": " + c.Summary
		}
		list = append(list, choice{Name: name, Value: whole})
	}
	return list
}
