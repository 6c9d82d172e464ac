package answer

import (
	"encoding/json"
	"fmt"
)

// What is kept of an answer, as JSON. The names of fields never change: old
// entries are read by new programs.

type keptFigure struct {
	ID    string  `json:"id"`
	Label string  `json:"label"`
	Value float64 `json:"value"`
	Unit  Unit    `json:"unit"`
	Text  string  `json:"text,omitempty"`
	Main  bool    `json:"main,omitempty"`
}

type keptAttachment struct {
	Name string `json:"name"`
	Type string `json:"type"`
	Alt  string `json:"alt,omitempty"`
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
	Alone       bool             `json:"alone,omitempty"`
	InReplyTo   string           `json:"in_reply_to,omitempty"`
	Fleeting    bool             `json:"fleeting,omitempty"`
	Inches      bool             `json:"inches,omitempty"`
	Explains    bool             `json:"explains,omitempty"`
	Corrects    int64            `json:"corrects,omitempty"`
	Known       json.RawMessage  `json:"known,omitempty"`
}

// Record returns what the daybook keeps: the figures, and the whole answer
// without the bytes of its attachments. It fails for figures that are no
// numbers.
func (a *Answer) Record() (figures, whole json.RawMessage, err error) {
	kept := keptAnswer{
		Request: a.Request, Line: a.Line, Headline: a.Headline, Notes: a.Notes,
		Assumptions: a.Assumptions, Steps: a.Steps, Cautions: a.Cautions,
		Alone: a.Alone, InReplyTo: a.InReplyTo, Fleeting: a.Fleeting, Inches: a.Inches, Explains: a.Explains, Corrects: a.Corrects, Known: a.Known,
	}
	for _, f := range a.Figures {
		kept.Figures = append(kept.Figures, keptFigure(f))
	}
	for _, t := range a.Attachments {
		kept.Attachments = append(kept.Attachments, keptAttachment{t.Name, t.Type, t.Alt})
	}
	if figures, err = json.Marshal(kept.Figures); err == nil {
		whole, err = json.Marshal(kept)
	}
	if err != nil {
		return nil, nil, fmt.Errorf("answer: one of %s can't be kept: %w", a.Request, err)
	}
	return figures, whole, nil
}

// Recorded reads back what Record kept; the attachments have no Render yet.
func Recorded(whole json.RawMessage) (*Answer, error) {
	var kept keptAnswer
	if err := json.Unmarshal(whole, &kept); err != nil {
		return nil, fmt.Errorf("answer: a kept one can't be read: %w", err)
	}
	a := &Answer{
		Request: kept.Request, Line: kept.Line, Headline: kept.Headline, Notes: kept.Notes,
		Assumptions: kept.Assumptions, Steps: kept.Steps, Cautions: kept.Cautions,
		Alone: kept.Alone, InReplyTo: kept.InReplyTo, Fleeting: kept.Fleeting, Inches: kept.Inches, Explains: kept.Explains, Corrects: kept.Corrects, Known: kept.Known,
	}
	for _, f := range kept.Figures {
		a.Figures = append(a.Figures, Figure(f))
	}
	for _, t := range kept.Attachments {
		a.Attachments = append(a.Attachments, Attachment{Name: t.Name, Type: t.Type, Alt: t.Alt})
	}
	return a, nil
}

// LineOf returns the line of a recorded answer, which may have settled what was
// typed, such as a day; the fallback where it has none.
func LineOf(whole json.RawMessage, fallback string) string {
	if a, err := Recorded(whole); err == nil && a.Line != "" {
		return a.Line
	}
	return fallback
}

// RecordedFigures reads back the figures that Record kept.
func RecordedFigures(figures json.RawMessage) ([]Figure, error) {
	if len(figures) == 0 {
		return nil, nil
	}
	var kept []keptFigure
	if err := json.Unmarshal(figures, &kept); err != nil {
		return nil, fmt.Errorf("answer: kept figures can't be read: %w", err)
	}
	list := make([]Figure, len(kept))
	for i, f := range kept {
		list[i] = Figure(f)
	}
	return list, nil
}
