package discord

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/turns"
)

// question is one request on its way: from a command, a form, or a button.
type question struct {
	bot.Request
	// alone is set where the answer is for the asker only.
	alone bool
	// spec is the request's description where it is known beforehand.
	spec *catalogue.Spec
}

// onCommand answers a slash command.
func (a *Adapter) onCommand(ctx context.Context, x *exchange, i *discordgo.Interaction, data discordgo.ApplicationCommandInteractionData) bool {
	given, alone, form, line := a.given(data)
	spec := a.menu.specs[data.Name]
	if spec == nil && data.Name != askCommand {
		return a.say(ctx, x, saying("there is no such request any more; open the list of commands again"))
	}
	if spec != nil && (form || len(line) == 0 && a.lacks(spec, given)) {
		return a.openForm(ctx, x, spec, composeLine("", given, spec), alone)
	}
	q := question{alone: alone, spec: spec, Request: bot.Request{Who: a.who(i), Message: i.ID, Text: line}}
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
func (a *Adapter) given(data discordgo.ApplicationCommandInteractionData) (options map[string]string, alone, form bool, line string) {
	spec := a.menu.specs[data.Name]
	options = map[string]string{}
	for _, o := range data.Options {
		if o == nil {
			continue
		}
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

// ask has a question answered and sends the answer. It reports whether that
// was delivered; if not, it is found and delivered later.
func (a *Adapter) ask(ctx context.Context, x *exchange, i *discordgo.Interaction, q question) bool {
	q.Route = newRoute(i, q.alone)
	q.At = time.Now()
	kept := q.Request
	x.onDeferral(func() {
		if err := a.intake.add(kept); err != nil {
			a.log.Error("the intake could not be written", "error", err)
		}
	})
	if q.spec != nil && q.spec.Long {
		x.deferNow(ctx)
		q.Progress = func(done, total int, note string) {
			x.note(ctx, progressText(done, total, note), a.pace.progress)
		}
	}
	x.deferLater(ctx, a.pace.deferAfter-time.Since(x.began))

	within, end := a.running.begin(ctx, i.ID, q.Who.Maker)
	reply, err := a.handle(within, q.Request, q.spec)
	end()
	if err != nil && ctx.Err() != nil {
		return false // ending: what was announced is for the next process
	}
	if err != nil {
		a.metrics.Fault(requestOf(q, reply))
		a.log.Error("a request could not be recorded", "interaction", i.ID, "error", err)
		// The asker is told to ask again, so nobody else does.
		x.recorded(false, func() { a.recordedNow(i.ID) })
		if reply.Refusal == nil {
			return a.say(ctx, x, saying("this could not be answered just now; please ask again in a minute"))
		}
		return a.say(ctx, x, refusalMessage(reply, nil, ""))
	}
	alone := q.alone || reply.Answer != nil && reply.Answer.Alone
	x.recorded(reply.Answer != nil && !alone, func() { a.recordedNow(i.ID) })
	if reply.Duplicate && reply.Delivered {
		a.metrics.Duplicate()
		return true
	}
	release, err := slot(ctx, a.drawing, q.Who)
	if err != nil {
		return false
	}
	m := a.replyMessage(ctx, reply, alone, q.Who, q.Text)
	release()
	return a.deliver(ctx, x, reply, m, a.hidden(m, reply, q.Who), requestOf(q, reply))
}

// handle has a request answered and recorded, in one of the places for that.
// It goes before drawing, so that in a burst it is soon known what is refused.
// Long requests wait in the service, and take no place from short ones.
func (a *Adapter) handle(ctx context.Context, r bot.Request, spec *catalogue.Spec) (bot.Reply, error) {
	if spec != nil && spec.Long {
		return a.service.Handle(ctx, r)
	}
	release, err := slot(ctx, a.computing, r.Who)
	if err != nil {
		return bot.Reply{}, err
	}
	defer release()
	return a.service.Handle(ctx, r)
}

// hidden is m for an answer that was deferred for the asker alone, who may
// show it.
func (a *Adapter) hidden(m *message, reply bot.Reply, who catalogue.Who) *message {
	if reply.Answer == nil {
		return m
	}
	edited := *m
	edited.Components = answerComponents(reply, a.menu.specs[reply.Answer.Request], view{unit: inMM, alone: true, canShow: who.Guild != ""})
	return &edited
}

// slot waits for one of the places of a guild, or of a direct chat.
func slot(ctx context.Context, places *turns.Turns, who catalogue.Who) (release func(), err error) {
	name := who.Guild
	if name == "" {
		name = who.Channel
	}
	return places.Take(ctx, name)
}

func progressText(done, total int, note string) string {
	text := strconv.Itoa(done)
	if total > 0 {
		text += " of " + strconv.Itoa(total)
	}
	if note != "" {
		text += ", " + note
	}
	return text
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
	m := answerMessage(reply, a.menu.specs[reply.Answer.Request], view{
		unit: inMM, alone: alone, canShow: alone && who.Guild != "",
	})
	a.pictures(ctx, m, reply.Answer)
	return m
}

// deliver sends a reply's message and marks its entry.
func (a *Adapter) deliver(ctx context.Context, x *exchange, reply bot.Reply, m, hidden *message, request string) bool {
	id, err := x.send(ctx, m, hidden, isAnswerTo(reply.Entry))
	took := time.Since(x.began)
	if err != nil {
		a.log.Warn("an answer could not be delivered and will be sent later", "interaction", x.id, "entry", reply.Entry, "request", request, "error", err)
		a.putBack(ctx, reply.Entry)
		return false
	}
	if reply.Answer != nil {
		a.metrics.Answered(request, took)
	} else {
		a.metrics.Refused(request, took)
	}
	a.log.Info("answered", "interaction", x.id, "entry", reply.Entry, "request", request, "refused", reply.Refusal != nil, "ms", took.Milliseconds())
	a.seen.answered(x.id, id)
	a.mark(ctx, reply.Entry, id)
	return true
}

// mark notes in the daybook that an answer is there. Where that fails, it is
// tried again when undelivered answers are looked for.
func (a *Adapter) mark(ctx context.Context, entry int64, id string) {
	if err := a.service.Delivered(ctx, entry, id); err != nil {
		a.log.Error("a delivered answer could not be marked", "entry", entry, "error", err)
	}
}

// say sends a sentence that no entry belongs to.
func (a *Adapter) say(ctx context.Context, x *exchange, m *message) bool {
	if _, err := x.send(ctx, m, m, func(s sent) bool { return len(s.Embeds) > 0 }); err != nil {
		a.log.Warn("a message could not be delivered", "interaction", x.id, "error", err)
		return false
	}
	return true
}

// recorded reads a kept entry for a button, if the presser may see it.
func (a *Adapter) recorded(ctx context.Context, i *discordgo.Interaction, entry int64) (bot.Reply, *message) {
	reply, err := a.service.Again(ctx, entry)
	if err != nil || reply.Answer == nil {
		if err != nil {
			a.log.Warn("an entry could not be read again", "entry", entry, "error", err)
		}
		return reply, saying("this answer is not in the daybook any more; please ask again")
	}
	if who := a.who(i); reply.Who.Platform != Platform || reply.Who.Channel != who.Channel && reply.Who.Maker != who.Maker {
		return reply, saying("this answer belongs to another channel")
	}
	return reply, nil
}
