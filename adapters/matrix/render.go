package matrix

import (
	"fmt"
	"html"
	"strings"
	"unicode"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/reading"

	"maunium.net/go/mautrix/event"
)

// message is one text in both of its forms, built line by line from the same
// source. Every text passes plain() or escaped(): nothing that a person typed
// reaches a room as markup, as a mention or with invisible characters.
type message struct {
	plain, html strings.Builder
}

// mostBytes bounds each form. An event may have 65536 bytes, and encryption
// makes both forms a third larger.
const mostBytes = 20_000

const cutShort = "... cut here, too long for one message"

// line adds a line; prefix stands before it in both forms, tag is an HTML
// element around it or empty.
func (m *message) line(tag, text string) {
	open, end := "", ""
	if tag != "" {
		open, end = "<"+tag+">", "</"+tag+">"
	}
	m.raw(clean(text), open+escaped(text)+end)
}

// figure adds a line of label and value.
func (m *message) figure(label, value string) {
	m.raw(clean(label)+": "+clean(value), escaped(label)+": <strong>"+escaped(value)+"</strong>")
}

// request adds a line with a request that can be typed again.
func (m *message) request(lead, request string) {
	m.raw(lead+clean(request), escaped(lead)+"<code>"+escaped(request)+"</code>")
}

func (m *message) raw(plain, html string) {
	switch {
	case strings.HasSuffix(m.plain.String(), cutShort):
		return
	case m.plain.Len()+len(plain) > mostBytes || m.html.Len()+len(html) > mostBytes:
		plain, html = cutShort, cutShort
	}
	if m.plain.Len() > 0 {
		m.plain.WriteString("\n")
		m.html.WriteString("<br>")
	}
	m.plain.WriteString(plain)
	m.html.WriteString(html)
}

// append adds the lines of another message.
func (m *message) append(other *message) {
	m.raw(other.plain.String(), other.html.String())
}

// heading begins an answer among several: whose it is, and a link to its
// question.
func (m *message) heading(number int, name string, s *section) {
	question := s.room.EventURI(s.question, s.asker.Homeserver()).MatrixToURL()
	m.raw("", "")
	m.raw(fmt.Sprintf("%d. %s, %s", number, clean(name), question),
		fmt.Sprintf(`<strong>%d.</strong> <a href="%s">%s</a>, to <a href="%s">this question</a>`,
			number, html.EscapeString(s.asker.URI().MatrixToURL()), escaped(name), html.EscapeString(question)))
}

// notice makes the event's content, without relations.
func (m *message) notice() *event.MessageEventContent {
	return &event.MessageEventContent{
		MsgType: event.MsgNotice, Body: m.plain.String(),
		Format: event.FormatHTML, FormattedBody: m.html.String(),
	}
}

// clean removes what is not seen: control characters, and those that turn the
// direction of text. An @ before a word gets an invisible joiner, so that no
// client makes a mention of it.
func clean(s string) string {
	var b strings.Builder
	for i, r := range s {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteRune(' ')
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
		case r == '@' && i+1 < len(s) && s[i+1] != ' ':
			b.WriteString("@\u2060")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func escaped(s string) string { return html.EscapeString(clean(s)) }

// renderAnswer makes the text of an answer. prefix is what stands before a
// request in this room.
func renderAnswer(r bot.Reply, prefix string) *message {
	a, m := r.Answer, &message{}
	m.line("strong", a.Headline)
	screen := a.FirstScreen(answer.PhoneColumns, answer.ScreenLines)
	for _, f := range screen.Figures {
		m.figure(f.Label, a.Show(f))
	}
	for _, n := range screen.Notes {
		m.line("", n)
	}
	if screen.Care != "" {
		m.line("", "\u26a0 "+screen.Care)
	}
	if screen.Assumed != "" {
		m.line("em", answer.LeadAssumed+screen.Assumed)
	}
	for _, c := range screen.MoreCare {
		m.line("", "\u26a0 "+c)
	}
	if a.Line != "" {
		m.request("asked: ", prefix+reading.Echo(a.Line))
	}
	if offers := offersOf(r); offers != "" {
		m.line("em", offers)
	}
	return m
}

// firstWords are what a room is told once, below the bot's first answer there.
func (m *message) firstWords(prefix string) {
	m.request("I'm new here. Ask me like this: ", prefix+"collet oval 8x6 depth 4 sterling 22ga")
	m.line("", "I keep each question that is put to me, with its answer and who asked, so that teachers can go through it.")
	m.request("To have what I keep of you removed: ", prefix+"daybook forget")
}

// renderRefusal makes the text of a refusal.
func renderRefusal(r *answer.Refusal, prefix string) *message {
	m := &message{}
	m.line("", r.Problem)
	for i, c := range r.Choices {
		m.line("", fmt.Sprintf("%d. %s", i+1, c.Label))
	}
	if len(r.Choices) > 0 {
		m.line("em", answer.ReplyHint)
	} else if r.Try != "" {
		m.request("try: ", prefix+r.Try)
	}
	return m
}

// renderWorking makes the text of the steps, with the figures that the first
// screen had no room for, and in full what it says in few words.
func renderWorking(a *answer.Answer) *message {
	m := &message{}
	m.line("strong", "working: "+a.Headline)
	for i, s := range a.Steps {
		m.line("", fmt.Sprintf("%d. %s", i+1, s))
	}
	for _, f := range a.OtherFigures(a.FirstScreen(answer.PhoneColumns, answer.ScreenLines)) {
		m.figure(f.Label, a.Show(f))
	}
	for _, line := range answer.Brief(a.Assumptions) {
		m.line("em", answer.LeadAssumed+line)
	}
	for _, c := range a.Cautions {
		m.line("", "\u26a0 "+c)
	}
	return m
}

// renderInches makes the text of the figures in inches.
func renderInches(a *answer.Answer) *message {
	m := &message{}
	m.line("strong", "in inches: "+a.Headline)
	for _, f := range a.Figures {
		m.figure(f.Label, f.DisplayInches())
	}
	return m
}
