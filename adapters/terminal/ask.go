package terminal

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
)

// Ask is one question from the command line.
type Ask struct {
	// Line is the request as typed.
	Line string
	// Photo is a photograph that goes with it, nil for none.
	Photo []byte
	// Message is the question's own id, or empty. The same id brings the recorded
	// answer back.
	Message string
	// JSON prints one object instead of text.
	JSON bool
	// Steps adds the working to the text.
	Steps bool
	// Out is the folder for the attachments; empty saves none.
	Out string
	// Progress shows how far long work is; nil shows nothing.
	Progress io.Writer
	Log      *slog.Logger
}

// Run asks, saves, prints to w and marks the answer as delivered. It reports
// whether the request was answered; a refusal is printed too and is no error.
// After an error nothing has been printed, unless w itself failed.
func (a Ask) Run(ctx context.Context, service Service, w io.Writer) (answered bool, err error) {
	request := bot.Request{Who: who(), Message: a.Message, Text: a.Line, Photo: a.Photo}
	if a.Progress != nil {
		request.Progress = progress(a.Progress, "")
	}
	reply, err := service.Handle(ctx, request)
	if err != nil {
		return false, fmt.Errorf("%s (%w)", bot.CantRecord, cmp.Or(errors.Unwrap(err), err)) // the service wraps it in words of its own
	}
	answered = reply.Refusal == nil
	var paths []string
	if answered && a.Out != "" && !reply.Silent {
		if paths, err = save(ctx, a.Out, "", reply.Answer.Attachments); err != nil {
			return false, fmt.Errorf("the answer is entry %d of the daybook, but its files can't be saved: %w", reply.Entry, err)
		}
	}
	var text string
	switch {
	case a.JSON:
		if text, err = jsonText(service, a.Line, reply, paths, "  "); err != nil {
			return false, err
		}
	case reply.Silent:
	case answered:
		text = a.text(pageOf(w), reply, paths)
	default:
		text = pageOf(w).refusal(reply.Refusal)
	}
	if _, err := io.WriteString(w, text); err != nil {
		return false, fmt.Errorf("showing the answer: %w", err)
	}
	delivered(ctx, service, a.Log, reply.Entry)
	return answered, nil
}

func (a Ask) text(p page, reply bot.Reply, paths []string) string {
	var b strings.Builder
	b.WriteString(p.answer(reply.Answer))
	for _, path := range paths {
		fmt.Fprintf(&b, "saved: %s\n", clean(path))
	}
	if a.Steps {
		b.WriteString("working:\n" + p.working(reply.Answer))
	}
	var more []string
	if !a.Steps && reply.Answer.HasWorking() {
		more = append(more, "working: add --steps")
	}
	if a.Out == "" && len(reply.Answer.Attachments) > 0 {
		more = append(more, "template to print: add --out DIR")
	}
	if len(more) > 0 {
		b.WriteString(strings.Join(more, "; ") + "\n")
	}
	return b.String()
}

// The JSON forms. Their names are a promise to scripts.
type (
	answeredJSON struct {
		Status      string           `json:"status"`
		Request     string           `json:"request"`
		Line        string           `json:"line"`
		Headline    string           `json:"headline"`
		Figures     []figureJSON     `json:"figures"`
		Notes       []string         `json:"notes"`
		Assumptions []string         `json:"assumptions"`
		Steps       []string         `json:"steps"`
		Cautions    []string         `json:"cautions"`
		Attachments []attachmentJSON `json:"attachments"`
		Entry       int64            `json:"entry"`
	}
	figureJSON struct {
		ID    string      `json:"id"`
		Label string      `json:"label"`
		Value float64     `json:"value"`
		Unit  answer.Unit `json:"unit"`
		Text  string      `json:"text,omitempty"`
	}
	attachmentJSON struct {
		Name string `json:"name"`
		Type string `json:"type"`
		Path string `json:"path"`
		Alt  string `json:"alt"`
	}
	asksJSON struct {
		Status  string          `json:"status"`
		Asks    string          `json:"asks"`
		Choices []answer.Choice `json:"choices"`
		Entry   int64           `json:"entry"`
	}
	explainedJSON struct {
		Status   string   `json:"status"`
		Request  string   `json:"request,omitempty"`
		Text     string   `json:"text"`
		Sources  []string `json:"sources"`
		Cautions []string `json:"cautions"`
		Entry    int64    `json:"entry"`
	}
	silentJSON struct {
		Status string `json:"status"`
	}
	refusedJSON struct {
		Status  string `json:"status"`
		Request string `json:"request"`
		Problem string `json:"problem"`
		Try     string `json:"try"`
		Entry   int64  `json:"entry"`
	}
)

// jsonText writes a reply as one JSON object, with this indent or on one line.
func jsonText(service Service, line string, reply bot.Reply, paths []string, indent string) (string, error) {
	var object any
	switch r := reply.Refusal; {
	case reply.Silent:
		object = silentJSON{"silent"}
	case r != nil && r.Asks:
		object = asksJSON{"asks", r.Problem, append([]answer.Choice{}, r.Choices...), reply.Entry}
	case r != nil && r.Declines:
		object = explainedJSON{Status: "declined", Text: r.Problem, Sources: []string{}, Cautions: []string{}, Entry: reply.Entry}
	case r != nil:
		object = refusedJSON{
			Status: "refused", Request: requestOf(service, line),
			Problem: r.Problem, Try: r.Try, Entry: reply.Entry,
		}
	case reply.Answer.Explains:
		a := reply.Answer
		object = explainedJSON{
			Status: "explained", Request: a.Request, Text: strings.Join(append([]string{a.Headline}, a.Notes...), "\n"),
			Sources: list(a.Assumptions), Cautions: list(a.Cautions), Entry: reply.Entry,
		}
	default:
		a := reply.Answer
		out := answeredJSON{
			Status: "answered", Request: a.Request, Line: a.Line, Headline: a.Headline,
			Figures: []figureJSON{}, Notes: list(a.Notes), Assumptions: list(a.Assumptions),
			Steps: list(a.Steps), Cautions: list(a.Cautions),
			Attachments: []attachmentJSON{}, Entry: reply.Entry,
		}
		for _, f := range a.Figures {
			out.Figures = append(out.Figures, figureJSON{f.ID, f.Label, f.Value, f.Unit, f.Text})
		}
		for i, file := range a.Attachments {
			entry := attachmentJSON{Name: file.Name, Type: file.Type, Alt: file.Alt}
			if i < len(paths) {
				entry.Path = paths[i]
			}
			out.Attachments = append(out.Attachments, entry)
		}
		object = out
	}
	var b strings.Builder
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", indent)
	if err := encoder.Encode(object); err != nil {
		return "", fmt.Errorf("writing the answer as JSON: %w", err)
	}
	return b.String(), nil
}

// requestOf finds the request's word in a line that was refused, or "".
func requestOf(service Service, line string) string {
	first, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(line)), " ")
	for _, spec := range service.Specs() {
		if spec.Name == first {
			return first
		}
	}
	return ""
}

// list is never nil, so that JSON has [] and not null.
func list(lines []string) []string {
	return append([]string{}, lines...)
}
