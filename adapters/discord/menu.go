package discord

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"guildhand/bot/catalogue"
)

// Menus stand on any message. Discord sends the message with them, without any
// privileged intent.

const (
	menuAsk     = "Ask about this"
	menuCorrect = "Correct this answer"
)

// messageMenus are those that Discord registers; correcting needs a request
// that takes corrections.
func messageMenus(corrects *catalogue.Spec) []command {
	ask := everywhere(command{Name: menuAsk})
	ask.Type = commandMessage
	list := []command{ask}
	if corrects != nil {
		correct := command{Name: menuCorrect, Type: commandMessage, Contexts: []int{contextGuild}, Integrations: []int{0}, Needs: permManageGuild}
		list = append(list, correct)
	}
	return list
}

// corrects is the request that takes corrections, nil for none.
func (m *menu) corrects() *catalogue.Spec {
	for i := range m.list {
		if m.list[i].Corrects != "" {
			return &m.list[i]
		}
	}
	return nil
}

// onMenu answers a menu of a message.
func (a *Adapter) onMenu(ctx context.Context, x *response, i *interaction, data input) *message {
	m, ok := data.Resolved.Messages[data.TargetID]
	if !ok {
		return saying("Discord did not send that message; please try again")
	}
	switch data.Name {
	case menuAsk:
		return a.askAbout(ctx, x, i, &m)
	case menuCorrect:
		return a.openCorrection(ctx, x, i, &m)
	}
	return saying("there is no such menu any more")
}

// askAbout answers somebody's message, to whoever wants to know, and says whose
// words were read. They are not kept.
func (a *Adapter) askAbout(ctx context.Context, x *response, i *interaction, m *heard) *message {
	text := strings.TrimSpace(m.Content)
	if text == "" {
		return saying("that message has no words that I could read")
	}
	q := a.lineQuestion(i, text, true)
	q.Quoted = true
	if m.Author != nil && snowflake(m.Author.ID) {
		q.Author = m.Author.ID
		q.lead = "I read what <@" + m.Author.ID + "> wrote. Only you see this, and their words are not kept."
	}
	return a.ask(ctx, x, i, q)
}

// openCorrection asks a teacher for the correction of an answer.
func (a *Adapter) openCorrection(ctx context.Context, x *response, i *interaction, m *heard) *message {
	entry := a.entryOf(m)
	if entry == 0 {
		return saying("that message is not one of my answers, so it can't be corrected here")
	}
	if !a.who(i).Teacher {
		return saying("correcting is for teachers: you need the role that this guild has set for teachers")
	}
	a.openText(ctx, x, customID(actCorrect, strconv.FormatInt(entry, 10)), fmt.Sprintf("Correct answer no. %d", entry), "What is right?")
	return nil
}

// entryOf is the entry of one of the bot's answers, by its footer; 0 for another
// message.
func (a *Adapter) entryOf(m *heard) int64 {
	if m.Author == nil || m.Author.ID != a.self() {
		return 0
	}
	for _, e := range m.Embeds {
		if n := entryOfFooter(e.Footer.Text); n > 0 {
			return n
		}
	}
	return 0
}

// inputText is the one field of a form that asks for a text.
const inputText = "text:"

// openText opens a form with one field.
func (a *Adapter) openText(ctx context.Context, x *response, id, title, label string) {
	yes := true
	form := modal{CustomID: id, Title: clip(title, maxModalTitle), Components: []component{labelled(label, "", component{
		Type: typeInput, CustomID: inputText, Style: inputParagraph, Required: &yes, MaxLength: 500,
	})}}
	if err := x.direct(ctx, callback{Type: replyModal, Data: form}); err != nil {
		a.log.Warn("a form could not be opened", "interaction", x.id, "error", err)
	}
}

// onText answers a form with one field: a correction, or a follow-up.
func (a *Adapter) onText(ctx context.Context, x *response, i *interaction, action string, rest string, text string) *message {
	entry, audienceOf, ok := parseEntry(rest)
	text = strings.Join(strings.Fields(text), " ")
	if !ok || text == "" {
		return saying("this form is from an older guildhand; please ask again")
	}
	if action == actCorrect {
		spec := a.menu.corrects()
		if spec == nil {
			return saying("there is no such request any more")
		}
		q := question{spec: spec, Request: a.request(i, "")}
		q.Command, q.Options = spec.Name, map[string]string{spec.Corrects: strconv.FormatInt(entry, 10) + " " + text}
		q.Text = composeLine(spec.Name, q.Options, spec)
		return a.ask(ctx, x, i, q)
	}
	if _, problem := a.recorded(ctx, i, entry); problem != nil {
		return problem
	}
	q := a.lineQuestion(i, text, audienceOf == forAsker)
	q.About = entry
	return a.ask(ctx, x, i, q)
}
