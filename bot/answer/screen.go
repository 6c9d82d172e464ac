package answer

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// ScreenLines is how many lines a phone shows before it scrolls.
const ScreenLines = 12

// PhoneColumns is about how many characters stand in a line on a phone.
const PhoneColumns = 44

// Leads of the paragraphs of a first screen, in text. Adapters that mark them
// otherwise use no more room.
const (
	LeadNote    = "note: "
	LeadCare    = "take care: "
	LeadAssumed = "assumed: "
)

// Screen is the first screen of an answer: what comes before the working. It
// is shorter than the answer, and what it leaves out is in the working.
type Screen struct {
	Headline string
	// Figures that have room, one to a line.
	Figures []Figure
	// Notes are whole.
	Notes []string
	// Care is the worst caution, whole; empty for none.
	Care string
	// Assumed is a paragraph of what was assumed, with as much of it as has
	// room; empty for none.
	Assumed string
	// MoreCare are the other cautions. They follow beyond the lines that the
	// screen was fitted to.
	MoreCare []string
}

// FirstScreen fits an answer into so many lines of so many columns: the
// headline, warnings about this very piece and the worst caution whole, then as
// many of the main figures as have room, two at least, then what was assumed, as
// far as the lines go. Only a headline, notes and a caution that fill the screen
// by themselves make it longer. The other cautions come after all this.
func (a *Answer) FirstScreen(columns, rows int) Screen {
	s := Screen{Headline: a.Headline, Notes: a.Notes}
	if len(a.Cautions) > 0 {
		s.Care, s.MoreCare = a.Cautions[0], a.Cautions[1:]
	}
	room := rows - lines("", a.Headline, columns) - lines(LeadCare, s.Care, columns)
	lead := LeadNote
	if len(a.Figures) == 0 {
		lead = "  " // the notes are the answer
	}
	for _, n := range a.Notes {
		room -= lines(lead, n, columns)
	}
	main := a.mainFigures()
	need := func(f Figure) int { return lines("  ", f.Label+"  "+a.Show(f), columns) }
	for _, f := range main[:min(len(main), fewestFigures)] {
		s.Figures = append(s.Figures, f)
		room -= need(f)
	}
	// What was assumed has two lines if there is room for them, and what must be
	// said of it in any case, before more figures have.
	taken := rankedOf(a.Assumptions)
	least := 0
	if len(a.Assumptions) > 0 {
		all := lines(LeadAssumed, taken.words(len(taken.sorted)), columns)
		must := lines(LeadAssumed, taken.words(taken.must), columns)
		least = max(must, min(leastAssumed, all, room))
	}
	room -= least
	for _, f := range main[len(s.Figures):] {
		if need(f) > room {
			break
		}
		s.Figures = append(s.Figures, f)
		room -= need(f)
	}
	s.Assumed = taken.fit(least+max(room, 0), columns)
	return s
}

// fewestFigures are shown whatever else there is to say.
const fewestFigures = 2

// leastAssumed is how many lines are kept for what was assumed.
const leastAssumed = 2

// mostFigures is how many the first screen shows at most.
const mostFigures = 6

func (a *Answer) mainFigures() []Figure {
	marked := slices.DeleteFunc(slices.Clone(a.Figures), func(f Figure) bool { return !f.Main })
	return marked[:min(len(marked), mostFigures)]
}

// OtherFigures are those that a screen has no room for; they belong to the
// working.
func (a *Answer) OtherFigures(s Screen) []Figure {
	return slices.DeleteFunc(slices.Clone(a.Figures), func(f Figure) bool {
		return slices.ContainsFunc(s.Figures, func(shown Figure) bool { return shown.ID == f.ID })
	})
}

// HasWorking reports whether there is more to an answer than its first screen
// may show.
func (a *Answer) HasWorking() bool {
	return len(a.Steps) > 0 || len(a.Figures) > len(a.mainFigures()) || len(a.Assumptions) > 0
}

// ranked are assumptions in the order in which a screen shows them: house rules
// and estimates, which it always shows, then what depends on who asks, then the
// usual values, each the shortest first.
type ranked struct {
	sorted []string
	// must is how many are always shown.
	must int
}

func rankedOf(assumptions []string) ranked {
	r := ranked{sorted: slices.Clone(assumptions)}
	slices.SortStableFunc(r.sorted, func(x, y string) int {
		return cmp.Or(rank(x)-rank(y), utf8.RuneCountInString(x)-utf8.RuneCountInString(y))
	})
	for r.must < len(r.sorted) && rank(r.sorted[r.must]) <= rankEstimate {
		r.must++
	}
	r.must = max(r.must, min(1, len(r.sorted))) // never all hidden
	return r
}

// fit words as many as go into so many lines.
func (r ranked) fit(most, columns int) string {
	shown := len(r.sorted)
	for shown > r.must && lines(LeadAssumed, r.words(shown), columns) > most {
		shown--
	}
	return r.words(shown)
}

// words are the first so many, and how many are left.
func (r ranked) words(shown int) string {
	switch n := len(r.sorted); {
	case n == 0:
		return ""
	}
	text := strings.Join(brief(r.sorted[:shown], "", shortNote), "; ")
	if left := len(r.sorted) - shown; left > 0 {
		text += fmt.Sprintf("; and %d more in the working", left)
	}
	return text
}

// RuleLead begins an assumption that is a house rule.
const RuleLead = "house rule"

// Ranks of assumptions on a first screen.
const (
	rankRule     = iota
	rankEstimate // to be measured before anything is cut
	rankOwn      // may differ from maker to maker
	rankUsual    // always holds
)

func rank(assumption string) int {
	_, note, _ := cutNote(assumption)
	switch {
	case strings.HasPrefix(assumption, RuleLead):
		return rankRule
	case strings.HasPrefix(note, "estimate"):
		return rankEstimate
	case strings.Contains(assumption, "bench"), strings.Contains(assumption, "your"):
		return rankOwn
	}
	return rankUsual
}

// shortNote is the source of an assumption in few words. The working has it in
// full.
func shortNote(note string) string {
	switch {
	case note == "default":
		return ""
	case strings.HasPrefix(note, "estimate"):
		return "estimate"
	case strings.Contains(note, "common practice"):
		return "common practice"
	case strings.Contains(note, "from memory"):
		return "from memory"
	case strings.HasPrefix(note, "a handbook value"):
		return "handbook"
	case strings.HasPrefix(note, "invented"):
		return "invented"
	}
	return note
}

// Wrap breaks text into lines of so many columns after a lead; where there is
// a lead, the lines that follow are indented. A word that is longer than a line
// stands alone.
func Wrap(lead, text string, columns int) []string {
	indent := ""
	if lead != "" {
		indent = "    "
	}
	var wrapped []string
	line, column, start := lead, utf8.RuneCountInString(lead), true
	for _, word := range strings.Fields(text) {
		length := utf8.RuneCountInString(word)
		switch {
		case start:
		case column+1+length > columns:
			wrapped = append(wrapped, line)
			line, column = indent, len(indent)
		default:
			line += " "
			column++
		}
		line += word
		column += length
		start = false
	}
	return append(wrapped, line)
}

// lines counts those of a paragraph; an empty one has none.
func lines(lead, text string, columns int) int {
	if text == "" {
		return 0
	}
	return len(Wrap(lead, text, columns))
}
