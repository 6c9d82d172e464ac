package answer

import (
	"encoding/json"
	"fmt"
)

// Choice is one answer to a question back: a label, and the line that it stands
// for. The line works as it is.
type Choice struct {
	Label string `json:"label"`
	Line  string `json:"line"`
}

// ReplyHint says how to answer a question back that has numbered choices.
const ReplyHint = "Reply with a number, or say it another way."

// keptQuestion is what is kept of a refusal that asks back or declines. Names
// never change: old entries are read by new programs.
type keptQuestion struct {
	Asks     bool            `json:"asks,omitempty"`
	Declines bool            `json:"declines,omitempty"`
	Choices  []Choice        `json:"choices,omitempty"`
	Known    json.RawMessage `json:"known,omitempty"`
}

// Record returns what the daybook keeps of a refusal beside its sentence and its
// line to try: nothing, unless it asks back or declines.
func (r *Refusal) Record() (json.RawMessage, error) {
	if !r.Asks && !r.Declines {
		return nil, nil
	}
	kept, err := json.Marshal(keptQuestion{r.Asks, r.Declines, r.Choices, r.Known})
	if err != nil {
		return nil, fmt.Errorf("answer: a question back can't be kept: %w", err)
	}
	return kept, nil
}

// RecordedRefusal reads back what Record kept.
func RecordedRefusal(problem, try string, kept json.RawMessage) *Refusal {
	r := &Refusal{Problem: problem, Try: try}
	var q keptQuestion
	if len(kept) > 0 && json.Unmarshal(kept, &q) == nil {
		r.Asks, r.Declines, r.Choices, r.Known = q.Asks, q.Declines, q.Choices, q.Known
	}
	return r
}
