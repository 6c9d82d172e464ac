package bot

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/answer"
)

// What is kept of an answer, as JSON. The names of fields never change: old
// entries are read by new programs.

type keptFigure struct {
	ID    string      `json:"id"`
	Label string      `json:"label"`
	Value float64     `json:"value"`
	Unit  answer.Unit `json:"unit"`
	Text  string      `json:"text,omitempty"`
	Main  bool        `json:"main,omitempty"`
}

type keptAttachment struct {
	Name     string `json:"name"`
	Type     string `json:"type"`
	Alt      string `json:"alt,omitempty"`
	WidthPx  int    `json:"width_px,omitempty"`
	HeightPx int    `json:"height_px,omitempty"`
}

type keptAnswer struct {
	Request     string           `json:"request"`
	Line        string           `json:"line"`
	Headline    string           `json:"headline"`
	Figures     []keptFigure     `json:"figures,omitempty"`
	Notes       []string         `json:"notes,omitempty"`
	Assumptions []string         `json:"assumptions,omitempty"`
	Steps       []string         `json:"steps,omitempty"`
	Cautions    []string         `json:"cautions,omitempty"`
	Attachments []keptAttachment `json:"attachments,omitempty"`
}

// recordAnswer gives the figures, and the whole answer without the bytes of
// its attachments. It fails for figures that are no numbers.
func recordAnswer(a *answer.Answer) (figures, whole json.RawMessage, err error) {
	kept := keptAnswer{
		Request: a.Request, Line: a.Line, Headline: a.Headline, Notes: a.Notes,
		Assumptions: a.Assumptions, Steps: a.Steps, Cautions: a.Cautions,
	}
	for _, f := range a.Figures {
		kept.Figures = append(kept.Figures, keptFigure(f))
	}
	for _, t := range a.Attachments {
		kept.Attachments = append(kept.Attachments, keptAttachment{t.Name, t.Type, t.Alt, t.WidthPx, t.HeightPx})
	}
	if figures, err = json.Marshal(kept.Figures); err == nil {
		whole, err = json.Marshal(kept)
	}
	if err != nil {
		return nil, nil, fmt.Errorf("bot: an answer of %s can't be kept: %w", a.Request, err)
	}
	return figures, whole, nil
}

// recordedAnswer reads an answer back; its attachments have no Render yet.
func recordedAnswer(whole json.RawMessage) (*answer.Answer, error) {
	var kept keptAnswer
	if err := json.Unmarshal(whole, &kept); err != nil {
		return nil, fmt.Errorf("bot: a kept answer: %w", err)
	}
	a := &answer.Answer{
		Request: kept.Request, Line: kept.Line, Headline: kept.Headline, Notes: kept.Notes,
		Assumptions: kept.Assumptions, Steps: kept.Steps, Cautions: kept.Cautions,
	}
	for _, f := range kept.Figures {
		a.Figures = append(a.Figures, answer.Figure(f))
	}
	for _, t := range kept.Attachments {
		a.Attachments = append(a.Attachments, answer.Attachment{Name: t.Name, Type: t.Type, Alt: t.Alt, WidthPx: t.WidthPx, HeightPx: t.HeightPx})
	}
	return a, nil
}

// typedForm writes a structured request as one line, for the daybook.
func typedForm(req Request) string {
	names := make([]string, 0, len(req.Options))
	for n := range req.Options {
		names = append(names, n)
	}
	slices.Sort(names)
	var b strings.Builder
	b.WriteString(req.Command)
	for _, n := range names {
		b.WriteString(" " + n + ": " + req.Options[n])
	}
	return b.String()
}
