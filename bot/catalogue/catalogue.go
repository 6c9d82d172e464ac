// Package catalogue describes requests: name, options, kinds, units, ranges,
// defaults, examples. The text parser, help, completion, Discord's slash
// definitions and README's table are all made from these descriptions, so
// nothing is described twice.
//
// The table of requests itself is in bot/requests, one file a request.
package catalogue

import (
	"context"
	"slices"

	"guildhand/bot/answer"
	"guildhand/calc/stock"
)

// Kind says how an option's text is read and checked.
type Kind int

// Kinds of options, with the type of Value field that holds the result.
const (
	Word      Kind = iota // one of Choices -> Value.Text is the choice's key
	Length                // "4", "4 mm", "5/32 in" -> Number in mm
	Thickness             // "22ga", "0.64mm", ".025in" -> Number in mm; Gauge set where typed so
	Angle                 // degrees -> Number in degrees
	Number                // -> Number, no unit
	Integer               // -> Number, whole
	Percent               // "3 %" -> Number in percent
	Share                 // "10 %", or the mass itself: "8 g" -> Number in percent, or in g with IsMass set
	Mass                  // "5 g", "3 dwt", "0.2 ozt", "2 ct" -> Number in g
	Force                 // "20t" (tonnes-force), "20 kN", "10 ton" -> Number in N
	Size                  // "8x6", "8 by 6 mm", "5/16 x 1/4 in", "6" -> Numbers in mm, 1 to 3 of them
	Points                // "x,y x,y ..." in mm -> Points
	RingSize              // "7 1/2", "N", "54", with the system option -> Text as typed; with Choices "us 7" -> Text "us 7"
	Flag                  // present or not -> Text "yes"
	Text                  // free text to the end of the line -> Text
	Words                 // a list of words or numbers up to the next option name -> Text
	Single                // one word up to the next blank, as typed: a day, a name -> Text
)

// Choice is one allowed word of a Word option.
type Choice struct {
	// Key is the canonical word, lower case without blanks: "tapered-baguette".
	Key string
	// Aliases are other ways of typing it: "cut-corner", "ag925".
	Aliases []string
	// Summary is one short line for help and completion.
	Summary string
}

// Option describes one option of a request.
type Option struct {
	// Name is how it is typed, lower case, one word: "depth".
	Name string
	// Aliases are other words for the same option.
	Aliases []string
	// Summary is one short line: what it is, for help and completion (at most
	// 100 characters, a limit of slash commands).
	Summary string
	Kind    Kind
	// Min and Max is the allowed range of Number (of each of Numbers), in the
	// kind's unit; both 0 means no range.
	Min, Max float64
	// Choices of a Word option; of a RingSize option, the systems that may stand
	// before its number.
	Choices []Choice
	// ChoicesFrom gives the choices that depend on the workshop (blocks,
	// tubes); used where Choices is nil.
	ChoicesFrom func(*stock.Workshop) []Choice
	// Bare is set where the value may be typed without the option's name: an
	// outline word, a size, an alloy, "22ga".
	Bare bool
	// Required options are asked for when they are missing. Prompt is the
	// question, "which outline is the stone?".
	Required bool
	Prompt   string
	// Unless names options in whose presence a required one is not asked for:
	// points make a size needless.
	Unless []string
	// NotRequired reports whether args make this option unnecessary, where names
	// are not enough; may be nil.
	NotRequired func(Args) bool
	// Excludes names options that can't be typed together with this one; their
	// bench and default values are not filled in either where this one is
	// typed. It is enough to name the other on one of the two.
	Excludes []string
	// Default is the text used where neither maker nor bench gives a value;
	// empty means none (the handler decides and says so).
	Default string
	// DefaultNote says in the answer where the default comes from: "common
	// practice, no source", "from memory". A default without one changes no
	// figure, and the answer does not state it.
	DefaultNote string
	// Bench is set where bench may hold a default for it.
	Bench bool
	// Suggest lists likely values for completion of numbers and sizes.
	Suggest []string
	// Form marks what is measured on a piece: a platform with forms asks for it
	// in one, as it does for Points and Words, and offers it before other
	// options where it can't offer all.
	Form bool
	// Person marks the id of a maker, which a platform may offer to choose.
	Person bool
	// Then names the option of a Thickness that may follow this one's value
	// without its own name: of the ring in "shank us 7 1.5mm".
	Then string
	// Sample gives a value that works beside the other arguments, for the line
	// that a refusal suggests, "" for none; nil takes what the request's
	// examples have, Suggest, Default or the first choice.
	Sample func(Args) string
}

// Example is a request that works, and is run by the tests.
type Example struct {
	Line    string
	Summary string
}

// Permission is who may use a request.
type Permission int

// Permissions.
const (
	Anyone Permission = iota
	// Teacher needs the role that the platform's adapter reports in Who.Teacher.
	Teacher
)

// Spec is the catalogue's entry of one request.
type Spec struct {
	// Name is the request's word, lower case.
	Name string
	// Summary is one line (at most 100 characters): what it answers.
	Summary string
	// Detail is a short paragraph for help.
	Detail  string
	Options []Option
	// Retired are words that were options once, or are options of other requests
	// alone, each with the sentence that says what takes their place.
	Retired  map[string]string
	Examples []Example
	// StopWords are ignored between options, such as "collet" in a request about
	// a collet's prongs.
	StopWords []string
	// Usual marks the one request that a question asks which names none, only a
	// stone and its metal.
	Usual bool
	// Implied are words that name this request in such a question: a cabochon
	// asks for a bezel.
	Implied []string
	Needs   Permission
	// Parts are what the request does, where that is several things: a platform
	// with subcommands offers each with its own options.
	Parts []Part
	// Corrects is the option that takes an entry's number and a teacher's
	// correction of it; empty for most requests.
	Corrects string
	// Class marks a request whose answer a whole class works from: a platform with
	// threads opens one for it.
	Class bool
	// Long marks requests that may take seconds and report progress.
	Long bool
	// Keeps marks requests that change what is kept (bench, tune): they are
	// never run a second time, not even to draw an attachment again.
	Keeps bool
	// Reads tells, of a request that Keeps, the arguments with which it only
	// reads, so that its attachments may be drawn again; may be nil.
	Reads func(Args) bool
	// Answer computes the answer. It returns an *answer.Refusal as error for
	// what the asker can put right; any other error is a bug.
	Answer func(context.Context, *Call) (*answer.Answer, error)
}

// Part is one of the things that a request does.
type Part struct {
	// Name is one lower-case word, Summary one line of at most 100 characters.
	Name, Summary string
	// Sets are options that it gives a value, Options those that it takes.
	Sets    map[string]string
	Options []string
	// Entry is the one of Options that takes an entry's number; empty for none.
	Entry string
	// Photo is set where a photograph comes along.
	Photo bool
}

// Option finds an option by name or alias.
func (s *Spec) Option(name string) (*Option, bool) {
	for i := range s.Options {
		if s.Options[i].Name == name {
			return &s.Options[i], true
		}
		for _, a := range s.Options[i].Aliases {
			if a == name {
				return &s.Options[i], true
			}
		}
	}
	return nil, false
}

// Excludes reports whether two options can't be given together.
func (s *Spec) Excludes(option, other string) bool {
	a, isA := s.Option(option)
	b, isB := s.Option(other)
	return isA && isB && a.RulesOut(b)
}

// RulesOut reports whether an option can't be given together with another of its
// request.
func (o *Option) RulesOut(other *Option) bool {
	return slices.Contains(o.Excludes, other.Name) || slices.Contains(other.Excludes, o.Name)
}

// Example is the line of the request's first example, "" if it has none.
func (s *Spec) Example() string {
	if len(s.Examples) == 0 {
		return ""
	}
	return s.Examples[0].Line
}

// hasBench reports whether a bench may fill an option, the request's own or
// that of a request inside it.
func (s *Spec) hasBench() bool {
	for i := range s.Options {
		if s.Options[i].Bench {
			return true
		}
	}
	return false
}

// Source tells where a value came from, and is named in the answer.
type Source int

// Sources in order of precedence, strongest first.
const (
	Typed Source = iota
	FromMaker
	FromChannel
	FromGuild
	FromDefault
	// Settled values were found by the request itself.
	Settled
)

// Value is one parsed option.
type Value struct {
	// Text is the canonical text; parsing it again gives the same Value.
	Text string `json:"text"`
	// Number in the kind's unit (mm, degrees, g, N, percent).
	Number float64 `json:"number,omitempty"`
	// Numbers of a Size, mm.
	Numbers []float64 `json:"numbers,omitempty"`
	// Points of a Points option, mm.
	Points [][2]float64 `json:"points,omitempty"`
	// Gauge is the B&S number where a thickness was typed as one (HasGauge);
	// No. 00 is -1, as in package stock.
	Gauge    int  `json:"gauge,omitempty"`
	HasGauge bool `json:"hasGauge,omitempty"`
	// IsMass tells of a Share that it was typed as a mass.
	IsMass bool   `json:"isMass,omitempty"`
	Source Source `json:"source,omitempty"`
	// Note is what the answer says of a value that was not typed: the
	// option's DefaultNote, or whose bench it comes from.
	Note string `json:"note,omitempty"`
}

// Args is the parsed options of a request, by option name.
type Args map[string]Value

// Has reports whether the option has a value, from any source.
func (a Args) Has(name string) bool { _, ok := a[name]; return ok }

// Typed reports whether the maker typed the option.
func (a Args) Typed(name string) bool { v, ok := a[name]; return ok && v.Source == Typed }

// Number returns the option's number, or the fallback where it has none.
func (a Args) Number(name string, fallback float64) float64 {
	if v, ok := a[name]; ok {
		return v.Number
	}
	return fallback
}

// Word returns the option's text, or "".
func (a Args) Word(name string) string { return a[name].Text }
