package discord

import (
	"context"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/delivery"
)

// question is one request on its way: from a command, a form, or a button.
type question struct {
	bot.Request
	// alone is set where the answer is for the asker only.
	alone bool
	// lead is said above the answer.
	lead string
	// spec is the request's description where it is known beforehand.
	spec *catalogue.Spec
}

// onCommand answers a slash command.
func (a *Adapter) onCommand(ctx context.Context, x *response, i *interaction, data input) *message {
	if data.Type == commandMessage {
		return a.onMenu(ctx, x, i, data)
	}
	given, alone, form, line := a.given(data)
	spec := a.menu.specs[data.Name]
	if spec == nil && data.Name != askCommand {
		return saying("there is no such request any more; open the list of commands again")
	}
	if spec != nil && (form || len(line) == 0 && a.lacks(spec, given)) {
		a.openForm(ctx, x, spec, composeLine("", given, spec), alone)
		return nil
	}
	q := question{alone: alone, spec: spec, Request: a.request(i, line)}
	if file, ok := data.photograph(); ok {
		a.addPhotograph(ctx, &q, []attached{file})
	}
	switch {
	case spec == nil:
		q.spec = a.menu.specs[firstWord(line)]
	case line != "":
		// A line may or may not begin with the command's own word.
		if firstWord(line) != spec.Name {
			line = spec.Name + " " + line
		}
		q.Text = strings.TrimSpace(line + " " + composeLine("", given, spec))
	default:
		q.Command, q.Options = spec.Name, given
		q.Text = composeLine(spec.Name, given, spec)
	}
	return a.ask(ctx, x, i, q)
}

// given takes a command's options apart: those of the request as text, and
// ours.
func (a *Adapter) given(data input) (options map[string]string, alone, form bool, line string) {
	spec := a.menu.specs[data.Name]
	options = map[string]string{}
	list := data.Options
	if len(list) == 1 && list[0].Type == typeSubcommand {
		if spec != nil {
			for _, p := range spec.Parts {
				if p.Name == list[0].Name {
					maps.Copy(options, p.Sets)
				}
			}
		}
		list = list[0].Options
	}
	for _, o := range list {
		text, isOn := optionText(o.Value)
		if spec != nil {
			if so, ok := spec.Option(o.Name); ok {
				if so.Kind == catalogue.Flag && !isOn {
					continue
				}
				if text != "" {
					options[so.Name] = text
				}
				continue
			}
		}
		switch o.Name {
		case optPrivate:
			alone = isOn
		case optForm:
			form = isOn
		case optLine:
			line = text
		}
	}
	return options, alone, form, line
}

// optionText gives a value as it would be typed, and whether it is true.
func optionText(value any) (text string, on bool) {
	switch v := value.(type) {
	case string:
		return strings.Join(strings.Fields(v), " "), false
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), false
	case bool:
		return "yes", v
	}
	return "", false
}

// lacks tells whether something is missing that no bench can give.
func (a *Adapter) lacks(spec *catalogue.Spec, given map[string]string) bool {
	for i := range spec.Options {
		if o := &spec.Options[i]; missing(o, given) && !o.Bench && o.Default == "" {
			return true
		}
	}
	return false
}

// missing tells whether a needed option was not given.
func missing(o *catalogue.Option, given map[string]string) bool {
	if !o.Required || given[o.Name] != "" {
		return false
	}
	return !slices.ContainsFunc(o.Unless, func(other string) bool { return given[other] != "" })
}

// composeLine writes options as they would be typed, free text last, since it
// goes on to the end of the line.
func composeLine(name string, given map[string]string, spec *catalogue.Spec) string {
	var parts, last []string
	if name != "" {
		parts = append(parts, name)
	}
	for i := range spec.Options {
		o := &spec.Options[i]
		text, ok := given[o.Name]
		switch {
		case !ok || text == "":
		case o.Kind == catalogue.Flag:
			parts = append(parts, o.Name)
		case o.Kind == catalogue.Text:
			last = append(last, o.Name, text)
		default:
			parts = append(parts, o.Name, text)
		}
	}
	return strings.Join(append(parts, last...), " ")
}

func firstWord(line string) string {
	word, _, _ := strings.Cut(strings.TrimSpace(line), " ")
	return strings.ToLower(word)
}

// ask has a question answered and sends the answer.
func (a *Adapter) ask(ctx context.Context, x *response, i *interaction, q question) *message {
	q.Route = newRoute(i, q.alone)
	x.onDeferral(!q.alone, func() {
		if q.Quoted || a.service.Hurt(ctx, q.Request) {
			return // neither another's words nor talk of a hurt are written down
		}
		if err := a.journal.add(q.Request); err != nil {
			a.log.Error("the journal could not be written", "error", err)
		}
	})
	x.deferLater(ctx, a.pace.deferAfter-time.Since(x.began))
	reply, _ := a.outbox.Answer(ctx, q.Request, &firstReply{a, x, q}) // the outbox logs errors
	if reply.Duplicate && reply.Delivered {
		a.metrics.Duplicate()
		x.recorded(false, func() { a.journalDone(x.id) })
	}
	return nil
}

// firstReply sends the reply to an interaction that is still open.
type firstReply struct {
	a *Adapter
	x *response
	q question
}

// Working defers the answer.
func (f *firstReply) Working(ctx context.Context) { f.x.deferNow(ctx) }

// Progress is told in place of the deferral.
func (f *firstReply) Progress(ctx context.Context, text string) error { return f.x.note(ctx, text) }

// Send sends the reply's message as the interaction's answer.
func (f *firstReply) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
	a, x, q := f.a, f.x, f.q
	if r.Silent {
		// A command wants an answer, whatever was typed into it.
		x.recorded(false, func() { a.journalDone(x.id) })
		m := saying("There is nothing in that to work out. Name the piece, the stone's outline and size, the metal and its thickness.")
		id, err := x.send(ctx, m, m, isMessage)
		return delivery.Sent{Message: id}, err
	}
	alone := isAlone(r, q.alone)
	// The asker of what can't be recorded asks again, so that leaves the journal too.
	x.recorded(r.Answer != nil && !alone, func() { a.journalDone(x.id) })
	m := a.replyMessage(ctx, r, alone, q.Who, q.Text)
	if q.lead != "" {
		m.Content = q.lead
	}
	if r.Answer != nil && r.Answer.Corrects != 0 {
		if a.correct(ctx, r) != "" {
			m = correctionTold(r)
		}
	}
	is := isAnswerTo(r.Entry)
	if r.Entry == 0 {
		is = isMessage
	}
	id, err := x.send(ctx, m, a.hidden(m, r, q.Who), is)
	if err != nil {
		return delivery.Sent{}, err
	}
	a.count(q, r, time.Since(x.began))
	if r.Answer != nil {
		a.openClass(r, alone, routeOf(q.Route).place(q.Who), id, x.token)
	}
	return delivery.Sent{Message: id}, nil
}

// count tells counters and log of a reply that was sent.
func (a *Adapter) count(q question, r bot.Reply, took time.Duration) {
	request := requestOf(q, r)
	switch {
	case r.Answer != nil:
		a.metrics.Answered(request, took)
	case r.Refusal.Cause != nil && r.Entry == 0:
		a.metrics.Fault(request)
	default:
		a.metrics.Refused(request, took)
	}
	a.log.Info("answered", "event", q.Message, "entry", r.Entry, "request", request, "refused", r.Refusal != nil, "ms", took.Milliseconds())
}

// isAlone reports whether only the asker may see a reply.
func isAlone(r bot.Reply, wanted bool) bool { return wanted || r.Answer != nil && r.Answer.Alone }

// hidden is m for an answer that was deferred for the asker alone, who may
// show it.
func (a *Adapter) hidden(m *message, reply bot.Reply, who catalogue.Who) *message {
	if reply.Answer == nil {
		return m
	}
	edited := *m // with what is said above it
	edited.Components = a.answerComponents(reply, view{unit: unitOf(reply), alone: true, canShow: who.Guild != ""})
	return &edited
}

// requestOf names the request for the counters: only words of the catalogue.
func requestOf(q question, reply bot.Reply) string {
	switch {
	case reply.Answer != nil:
		return reply.Answer.Request
	case q.spec != nil:
		return q.spec.Name
	}
	return ""
}

// replyMessage makes the message of a reply, with its picture.
func (a *Adapter) replyMessage(ctx context.Context, reply bot.Reply, alone bool, who catalogue.Who, typed string) *message {
	if reply.Answer == nil {
		spec := a.menu.specs[firstWord(typed)]
		_, rest, _ := strings.Cut(strings.TrimSpace(typed), " ")
		return refusalMessage(reply, spec, rest)
	}
	m := a.answerMessage(reply, view{unit: unitOf(reply), alone: alone, canShow: alone && who.Guild != ""})
	a.drawShown(ctx, m, reply)
	return m
}

// say sends a message that no entry belongs to.
func (a *Adapter) say(ctx context.Context, x *response, m *message) {
	if _, err := x.send(ctx, m, m, isMessage); err != nil {
		a.log.Warn("a message could not be delivered", "interaction", x.id, "error", err)
	}
}

// isMessage recognises any message of ours.
func isMessage(s sent) bool { return len(s.Embeds) > 0 }

// recorded reads a kept entry for a button, if the presser may see it.
func (a *Adapter) recorded(ctx context.Context, i *interaction, entry int64) (bot.Reply, *message) {
	reply, err := a.service.Recorded(ctx, entry)
	if err != nil || reply.Answer == nil {
		if err != nil {
			a.log.Warn("an entry could not be read again", "entry", entry, "error", err)
		}
		return reply, saying("this answer is not in the daybook any more; please ask again")
	}
	who := a.who(i)
	if reply.Who.Maker != who.Maker && routeOf(reply.Route).Alone {
		return reply, saying("this answer is for the one who asked")
	}
	if reply.Who.Platform != Platform || reply.Who.Channel != who.Channel && reply.Who.Maker != who.Maker {
		return reply, saying("this answer belongs to another channel")
	}
	return reply, nil
}
