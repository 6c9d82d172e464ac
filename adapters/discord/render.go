package discord

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests/words"
)

// Colours of the stripe beside a message; what they say is also in words.
const (
	colourAnswer  = 0x6b7f8f
	colourRefusal = 0xb5651d
)

// warningMark stands before what can hurt, and before nothing else.
const warningMark = "⚠ "

// noMentions lets nobody be pinged, whatever was typed.
var noMentions = mentions{Parse: []string{}}

// unit is how lengths are shown.
type unit string

const (
	inMM   unit = "mm"
	inInch unit = "in"
)

func (u unit) other() unit {
	if u == inMM {
		return inInch
	}
	return inMM
}

// offer is the label of the button that shows a unit.
func (u unit) offer() string {
	if u == inInch {
		return "In inches"
	}
	return "In mm"
}

// unitOf is the unit in which a reply is given.
func unitOf(r bot.Reply) unit {
	if r.Answer != nil && r.Answer.Inches {
		return inInch
	}
	return inMM
}

// descriptionLimit of an answer: with title, footer and a note on the picture
// far less than the 6,000 that an embed may have.
const descriptionLimit = 3000

// view is how one answer is to be shown.
type view struct {
	unit unit
	// alone is set where only the asker sees the message.
	alone bool
	// canShow offers to show it to the channel.
	canShow bool
}

// answerMessage is an answer without its files. Sizes are bounded part by
// part, so that the sum stays under the limit of an embed.
func (ad *Adapter) answerMessage(reply bot.Reply, v view) *message {
	a := withoutEcho(reply.Answer)
	var lines []string
	if length(plain(a.Headline)) > maxTitle {
		lines = append(lines, plain(a.Headline), "")
	}
	screen := a.FirstScreen(answer.PhoneColumns, answer.ScreenLines)
	for _, f := range screen.Figures {
		lines = append(lines, figureLine(a, f))
	}
	for _, n := range screen.Notes {
		lines = append(lines, plain(words.Capital(n)))
	}
	if reply.Corrected != "" {
		lines = append([]string{"**Corrected by a teacher:** " + plain(reply.Corrected), ""}, lines...)
	}
	if snowflake(a.InReplyTo) && a.Corrects == 0 {
		lines = append(lines, "about "+messageLink(reply.Who, a.InReplyTo))
	}
	var end []string
	if screen.Care != "" {
		end = append(end, warningMark+plain(screen.Care))
	}
	if screen.Assumed != "" {
		end = append(end, "**Assumed:** "+plain(screen.Assumed))
	}
	for _, c := range screen.MoreCare {
		end = append(end, warningMark+plain(c))
	}
	e := embed{
		Title:       clip(plain(a.Headline), maxTitle),
		Description: clipBefore(strings.Join(lines, "\n"), strings.Join(end, "\n"), descriptionLimit),
		Color:       colourAnswer,
		Footer:      &footer{Text: footerText(reply.Entry, reading.Echo(a.Line))},
	}
	if e.Title == "" {
		e.Title = clip(plain(a.Request), maxTitle)
	}
	m := &message{Embeds: []embed{e}, Mentions: noMentions, Components: ad.answerComponents(reply, v)}
	if reply.Corrected != "" {
		m.Embeds[0].Color = colourRefusal
	}
	if v.alone {
		m.Flags = flagEphemeral
	}
	return m
}

// figureLine shows a figure after its label.
func figureLine(a *answer.Answer, f answer.Figure) string {
	return plain(words.Capital(f.Label)) + ": **" + plain(a.Show(f)) + "**"
}

// withoutEcho is an answer without the note that says how it was read: the footer
// says it.
func withoutEcho(a *answer.Answer) *answer.Answer {
	echo := "read as: " + reading.Echo(a.Line)
	if !slices.Contains(a.Notes, echo) {
		return a
	}
	less := *a
	less.Notes = slices.DeleteFunc(slices.Clone(a.Notes), func(n string) bool { return n == echo })
	return &less
}

// footerText names the daybook's number, by which people find the entry and
// the adapter knows its own answer again.
func footerText(entry int64, line string) string {
	tag := entryTag(entry)
	if line == "" {
		return tag
	}
	return clip(line, 300) + " · " + tag
}

func entryTag(entry int64) string { return "daybook no. " + strconv.FormatInt(entry, 10) }

// entryOfFooter is the number that ends a footer, 0 where none does.
func entryOfFooter(text string) int64 {
	tag := strings.TrimSuffix(entryTag(0), "0")
	at := strings.LastIndex(text, tag)
	if at < 0 {
		return 0
	}
	n, err := strconv.ParseInt(text[at+len(tag):], 10, 64)
	if err != nil {
		return 0
	}
	return n
}

// isAnswerTo recognises the message of an entry.
func isAnswerTo(entry int64) func(sent) bool {
	tag := entryTag(entry)
	return func(m sent) bool {
		for _, e := range m.Embeds {
			if e.Footer.Text == tag || strings.HasSuffix(e.Footer.Text, " · "+tag) {
				return true
			}
		}
		return false
	}
}

// refusalMessage is one sentence and a line that would work, for the asker
// alone.
func refusalMessage(reply bot.Reply, spec *catalogue.Spec, typed string) *message {
	r := reply.Refusal
	text := plain(words.Capital(r.Problem))
	if r.Try != "" && len(r.Choices) == 0 {
		text += "\n\nThis would work: " + plain(r.Try)
	}
	m := &message{
		Embeds: []embed{{
			Description: clip(text, maxDescription),
			Color:       colourRefusal,
			Footer:      &footer{Text: footerText(reply.Entry, "")},
		}},
		Mentions:   noMentions,
		Flags:      flagEphemeral,
		Components: refusalComponents(r, spec, typed),
	}
	if reply.Entry == 0 {
		m.Embeds[0].Footer = nil
	}
	return m
}

// saying is one sentence to the asker alone.
func saying(format string, args ...any) *message {
	return &message{
		Embeds:   []embed{{Description: clip(plain(words.Capital(fmt.Sprintf(format, args...))), maxDescription), Color: colourRefusal}},
		Mentions: noMentions,
		Flags:    flagEphemeral,
	}
}

// theRestIsAFile ends a working that is too long for a message.
const theRestIsAFile = "… The rest is in working.txt."

// workingMessage is the working and all figures, for the asker alone; what is
// too long for a message is a file.
func workingMessage(reply bot.Reply) *message {
	a := reply.Answer
	steps, rest := workingText(a)
	m := &message{Mentions: noMentions, Flags: flagEphemeral}
	foot := &footer{Text: footerText(reply.Entry, reading.Echo(a.Line))}
	left := maxEmbedTotal - length(foot.Text)
	for _, part := range []struct{ title, text string }{{"Working", steps}, {"Notes and figures", rest}} {
		if part.text == "" {
			continue
		}
		if len(m.Embeds) == 0 {
			part.title = "Working"
		}
		left -= length(part.title)
		e := embed{Title: part.title, Description: clipLines(part.text, theRestIsAFile, min(left, maxDescription)), Color: colourAnswer}
		left -= length(e.Description)
		m.Embeds = append(m.Embeds, e)
	}
	if len(m.Embeds) == 0 {
		m.Embeds = []embed{{Title: "Working", Description: "There is no working for this one.", Color: colourAnswer}}
	}
	m.Embeds[len(m.Embeds)-1].Footer = foot
	if slices.ContainsFunc(m.Embeds, func(e embed) bool { return strings.HasSuffix(e.Description, theRestIsAFile) }) {
		m.attach(file{name: "working.txt", mime: "text/plain; charset=utf-8", data: []byte(unplain(steps + "\n\n" + rest))}, "the whole working as text")
	}
	return m
}

// workingText is the steps, and below them what was assumed, the cautions and all
// figures: what the answer says in few words is here in full.
func workingText(a *answer.Answer) (steps, rest string) {
	var b strings.Builder
	for i, s := range a.Steps {
		fmt.Fprintf(&b, "%d. %s\n", i+1, plain(words.Capital(s)))
	}
	steps = strings.TrimSpace(b.String())
	b.Reset()
	for _, part := range []struct {
		title string
		lines []string
	}{{"Take care", a.Cautions}, {"Assumed", answer.Brief(a.Assumptions)}} {
		if len(part.lines) > 0 {
			fmt.Fprintf(&b, "**%s**\n", part.title)
		}
		for _, line := range part.lines {
			b.WriteString("• " + plain(line) + "\n")
		}
	}
	for _, f := range a.Figures {
		b.WriteString(figureLine(a, f) + "\n")
	}
	return steps, strings.TrimSpace(b.String())
}

// unplain takes the marks of plain and bold away again, for a text file.
func unplain(s string) string {
	var b strings.Builder
	escaped := false
	for _, r := range strings.ReplaceAll(s, "**", "") {
		if r == '\\' && !escaped {
			escaped = true
			continue
		}
		escaped = false
		b.WriteRune(r)
	}
	return b.String()
}

// attach adds a file with its alternative text.
func (m *message) attach(f file, alt string) {
	m.Attachments = append(m.Attachments, attachment{
		ID:       strconv.Itoa(len(m.files)),
		Filename: f.name, Description: clip(alt, maxAlt),
	})
	m.files = append(m.files, f)
}

// draw renders attachments into the message, and says there what could not be
// drawn or is too large.
func (a *Adapter) draw(ctx context.Context, m *message, list []answer.Attachment) {
	problem := func(text string) {
		e := &m.Embeds[0]
		e.Description = clip(strings.TrimSpace(e.Description+"\n"+plain(text)), maxDescription)
	}
	for _, at := range list {
		if len(m.files) == maxFiles {
			problem(fmt.Sprintf("a message takes %d files, and the others are left out", maxFiles))
			return
		}
		data, err := at.Render(ctx)
		switch {
		case err != nil:
			a.log.Error("an attachment could not be drawn", "type", at.Type, "error", err)
			problem(answer.FileProblem(at.Name))
		case len(data) > maxFileBytes:
			problem(fmt.Sprintf("%s has %d MiB, and Discord takes %d", at.Name, len(data)>>20, maxFileBytes>>20))
		default:
			m.attach(file{name: at.Name, mime: at.Type, data: data}, at.Alt)
		}
	}
}

// drawShown draws the files that an answer shows without being asked.
func (a *Adapter) drawShown(ctx context.Context, m *message, reply bot.Reply) {
	files := reply.Files()
	if files.Picture != nil {
		a.draw(ctx, m, []answer.Attachment{*files.Picture})
		if len(m.files) == 1 { // it was drawn
			m.Embeds[0].Image = &embedImage{URL: "attachment://" + m.files[0].name}
		}
	}
	a.draw(ctx, m, files.AtOnce)
}

// messageLink leads to another message of the same place.
func messageLink(who catalogue.Who, message string) string {
	guild := who.Guild
	if guild == "" {
		guild = "@me"
	}
	return "https://discord.com/channels/" + guild + "/" + who.Channel + "/" + message
}
