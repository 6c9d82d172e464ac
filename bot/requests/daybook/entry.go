package daybookrequest

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/words"
)

// corrections of an entry as lines, oldest first.
func (b *bookCall) corrections(ctx context.Context, id int64) ([]string, error) {
	all, err := b.book.Amendments(ctx, id)
	if err != nil {
		return nil, err
	}
	var lines []string
	for _, a := range all {
		lines = append(lines, fmt.Sprintf("corrected by the teacher, %s: %s", a.At.UTC().Format("2 Jan 2006"), a.Text))
	}
	return lines, nil
}

// showEntry returns an entry as it was answered, with its template again.
func showEntry(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	id, err := b.number(bookShow, "an entry")
	if err != nil {
		return nil, err
	}
	e, err := b.entry(ctx, id)
	if err != nil {
		return nil, err
	}
	corrected, err := b.corrections(ctx, id)
	if err != nil {
		return nil, err
	}
	tag := entryTag(&e)
	if e.Typed != "" {
		tag += ", typed: " + e.Typed
	}
	a := &answer.Answer{}
	if e.Status == daybook.Answered {
		if a, err = answer.Recorded(e.Answer); err != nil {
			return nil, err
		}
		a.InReplyTo, a.Fleeting = "", false
		b.redraw(a, e)
		corrected = append(corrected, a.Notes...)
		if len(a.Figures) > 0 {
			corrected = append(corrected, fmt.Sprintf("recorded by version %s; daybook check %d computes it again", shownVersion(e.Version), id))
		}
	} else {
		a.Headline = string(e.Status) + ": " + e.Problem
		if e.Try != "" {
			corrected = append(corrected, "it offered to try: "+e.Try)
		}
	}
	a.Notes = append([]string{tag}, corrected...)
	a.Line, a.Alone = fmt.Sprintf("daybook show %d", id), true
	return a, nil
}

func shownVersion(v string) string {
	if v == "" {
		return "unknown"
	}
	return v
}

// redraw gives a recorded answer's attachments their bytes back: its line is
// computed once more when the first of them is asked for.
func (b *bookCall) redraw(a *answer.Answer, e daybook.Entry) {
	compute := sync.OnceValues(func() (*answer.Answer, error) {
		call, err := b.past(e)
		if err != nil {
			return nil, err
		}
		return call.Answer(context.Background())
	})
	for i := range a.Attachments {
		name := a.Attachments[i].Name
		a.Attachments[i].Render = func(ctx context.Context) ([]byte, error) {
			again, err := compute()
			if err != nil {
				return nil, err
			}
			for _, t := range again.Attachments {
				if t.Name == name && t.Render != nil {
					return t.Render(answer.WithEntry(ctx, e.ID)) // the entry shown, not the one that shows it
				}
			}
			return nil, fmt.Errorf("daybook: entry %d has no %s any more", e.ID, name)
		}
	}
}

// past makes the call of an entry once more.
func (b *bookCall) past(e daybook.Entry) (*catalogue.Call, error) {
	if b.Past == nil {
		return nil, fmt.Errorf("daybook: entry %d can't be computed here", e.ID)
	}
	who := catalogue.Who{Platform: e.Key.Platform, Guild: e.Guild, Channel: e.Key.Channel, Maker: e.Maker}
	return b.Past(who, e.At, answer.LineOf(e.Answer, e.Line))
}

// checkEntry computes an entry again with the present version and compares.
func checkEntry(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	id, err := b.number(bookCheck, "an entry")
	if err != nil {
		return nil, err
	}
	e, err := b.entry(ctx, id)
	if err != nil {
		return nil, err
	}
	show := fmt.Sprintf("daybook show %d", id)
	switch {
	case b.keeps[e.Request]:
		return nil, answer.Refuse(show, "entry %d was about what is kept (%s), so there is nothing to compute again", id, e.Request)
	case e.Line == "" || b.Past == nil:
		return nil, answer.Refuse(show, "entry %d was not understood, so there is nothing to compute again", id)
	}
	now, refused, err := b.recompute(ctx, e)
	if err != nil {
		return nil, err
	}
	a := &answer.Answer{
		Line: fmt.Sprintf("daybook check %d", id), Alone: true,
		Notes: []string{
			entryTag(&e) + ": " + asked(&e),
			fmt.Sprintf("recorded by version %s, computed again by version %s, with its maker's corrections of today", shownVersion(e.Version), shownVersion(b.Version)),
		},
	}
	switch {
	case e.Status == daybook.Answered && refused != nil:
		a.Headline = fmt.Sprintf("entry %d would be refused today: %s", id, refused.Problem)
		if refused.Try != "" {
			a.Notes = append(a.Notes, "this would work: "+refused.Try)
		}
	case refused != nil:
		a.Headline = fmt.Sprintf("entry %d is still refused", id)
		if refused.Problem != e.Problem {
			a.Headline += fmt.Sprintf(", for another reason: %s; then: %s", refused.Problem, e.Problem)
		}
	case e.Status != daybook.Answered:
		a.Headline = fmt.Sprintf("entry %d was %s and would be answered today: %s", id, e.Status, now.Headline)
	default:
		old, err := answer.RecordedFigures(e.Figures)
		if err != nil {
			return nil, err
		}
		a.Figures = changedFigures(old, now.Figures)
		switch n := len(a.Figures); {
		case n > 0:
			a.Headline = fmt.Sprintf("entry %d: %d of %s changed", id, n, words.Counted(max(len(old), len(now.Figures)), "figure", "figures"))
			a.Notes = append(a.Notes, "to have the new answer, ask: "+e.Line)
			a.Cautions = now.Cautions
		case e.Headline != now.Headline:
			a.Headline = fmt.Sprintf("entry %d: the figures are the same, but the wording has changed", id)
			a.Notes = append(a.Notes, "then: "+e.Headline, "today: "+now.Headline)
		default:
			a.Headline = fmt.Sprintf("entry %d still holds: %s the same", id, map[bool]string{true: "its figure is", false: fmt.Sprintf("all %d figures are", len(old))}[len(old) == 1])
		}
	}
	return a, nil
}

// recompute answers an entry's line once more, or gives its refusal.
func (b *bookCall) recompute(ctx context.Context, e daybook.Entry) (*answer.Answer, *answer.Refusal, error) {
	call, err := b.past(e)
	if err == nil {
		var a *answer.Answer
		if a, err = call.Answer(ctx); err == nil {
			return a, nil, nil
		}
	}
	if r, ok := answer.AsRefusal(err); ok {
		return nil, r, nil
	}
	return nil, nil, err
}

// sameFigure is the share of a figure by which it may differ and still be the
// same: rounding on another processor, a million times less than a bench sees.
const sameFigure = 1e-9

// changedFigures compares figures by id. Each that differs is given with its
// value of today and, in words, what it was; one that is no longer given has
// its old value.
func changedFigures(old, now []answer.Figure) []answer.Figure {
	then := map[string]answer.Figure{}
	for _, f := range old {
		then[f.ID] = f
	}
	var changed []answer.Figure
	note := func(f answer.Figure, text string) {
		f.Text, f.Main = text, len(changed) < 6
		changed = append(changed, f)
	}
	for _, f := range now {
		was, there := then[f.ID]
		delete(then, f.ID)
		switch {
		case !there:
			note(f, f.Display()+", was not given")
		case was.Unit != f.Unit || was.Text != f.Text ||
			math.Abs(f.Value-was.Value) > sameFigure*max(math.Abs(f.Value), math.Abs(was.Value)):
			from, to := was.Display(), f.Display()
			if from == to { // less than is shown
				from, to = exact(was), exact(f)
			}
			note(f, to+", was "+from)
		}
	}
	for _, f := range old {
		if _, left := then[f.ID]; left {
			note(f, "no longer in the answer, was "+f.Display())
		}
	}
	return changed
}

// exact is a figure in full precision.
func exact(f answer.Figure) string {
	return strconv.FormatFloat(f.Value, 'g', -1, 64) + " " + string(f.Unit)
}

// amending is an entry's number and a correction.
var amending = regexp.MustCompile(`(?is)^\s*(?:no\.?\s*|number\s*|#)?(\d{1,12})(?:\s*[:;,.]?\s+(.*))?$`)

// amendEntry keeps a correction beside an entry and shows it to the channel, as
// a reply to the answer.
func amendEntry(ctx context.Context, b *bookCall) (*answer.Answer, error) {
	m := amending.FindStringSubmatch(b.Args.Word(bookAmend))
	if m == nil {
		return nil, answer.Refuse("daybook", "type the entry's number, then the correction: daybook amend 12 the rim is 0.2 mm longer")
	}
	id, _ := strconv.ParseInt(m[1], 10, 64) // at most twelve digits
	e, err := b.entry(ctx, id)
	if err != nil {
		return nil, err
	}
	text := strings.TrimSpace(m[2])
	if text == "" {
		return nil, answer.Refuse(fmt.Sprintf("daybook show %d", id), "what is the correction of entry %d? daybook amend %d and your text", id, id)
	}
	// A question that is put a second time, after a crash, amends once.
	all, err := b.book.Amendments(ctx, id)
	if err != nil {
		return nil, err
	}
	if n := len(all); n == 0 || all[n-1].Text != text || all[n-1].By != b.Who.Maker {
		if _, err := b.book.Amend(ctx, id, b.Who.Maker, text, b.Now); err != nil {
			return nil, err
		}
	}
	a := &answer.Answer{
		Headline:  fmt.Sprintf("correction to no. %d: %s", id, text),
		InReplyTo: e.Delivered, Corrects: id,
	}
	switch {
	case e.Status != daybook.Answered:
	case e.Line != "":
		a.Notes = append(a.Notes, asked(&e)+": "+e.Headline)
	default:
		a.Notes = append(a.Notes, e.Headline)
	}
	a.Notes = append(a.Notes, "go by the teacher's correction; it is kept beside the answer")
	return a, nil
}
