package catalogue

import (
	"cmp"
	"context"
	"errors"
	"maps"
	"slices"
	"time"

	"guildhand/bot/answer"
	"guildhand/calc/stock"
	"guildhand/calc/tuning"
)

// Who is where a request comes from and what its asker may do. Ids are opaque
// strings of the platform.
type Who struct {
	Platform, Guild, Channel, Maker string
	// Teacher is true where the platform's roles or power levels allow
	// daybook and guild-wide bench.
	Teacher bool
	// TeacherBy is what makes a teacher on this platform, "power level 50 in this
	// room"; empty is a role.
	TeacherBy string
	// Direct is true in a direct chat with the bot.
	Direct bool
	// Locale is the language of the maker's app as the platform says it,
	// "en-US"; empty if it does not.
	Locale string
}

// ForTeachers says what makes a teacher here, after what is for them.
func (w Who) ForTeachers() string {
	return "for teachers: you need " + cmp.Or(w.TeacherBy, "the role that this guild has set for teachers")
}

// Correction is what measured trials have taught of one sheet: where in its
// thickness the metal keeps its length, and what saw and file take.
type Correction struct {
	ID                    int64
	Alloy                 string
	ThicknessMM           float64
	NeutralFactor, KerfMM float64
	// Trials are those it was solved from; none where they are of a form that
	// is no longer known.
	Trials []tuning.Trial
}

// Traced is a stone's outline that a maker traced, as it is kept.
type Traced struct {
	// ID is made of what follows; the same outline has the same id.
	ID   string `json:"-"`
	Name string `json:"-"`
	// Points are a closed curve, mm, counter-clockwise, its length along y.
	Points                         [][2]float64 `json:"points"`
	PerimeterMM, LengthMM, WidthMM float64
	// DeviationMM is how far the outline may be off, ViewDegrees how far from
	// straight above it was photographed; both are 0 without a photograph.
	DeviationMM float64 `json:",omitempty"`
	ViewDegrees float64 `json:",omitempty"`
	// From says what it was traced from, Doubts what lowers the trust.
	From   string
	Doubts []string `json:",omitempty"`
}

// Call is one asking of a request: what its Answer function gets. Package
// reading makes it of a line.
//
// A request that uses a value takes it by Number, Word or Value, so that the
// answer states where it comes from if it was not typed, and so that the
// answer's line carries it. Args alone only looks.
type Call struct {
	Spec *Spec
	Args Args
	// Notes say what was not used, such as a bench value that the workshop no
	// longer knows.
	Notes []string
	// NoBench is set where the line says that no bench and no trial of its
	// asker counts.
	NoBench bool
	// Write writes this request with other arguments as a line that can be
	// typed; alone makes it a line that no bench fills.
	Write func(args Args, alone bool) string
	// Displaced are the bench and default values that a bench value kept out,
	// by the option of the latter.
	Displaced map[string]Args

	Who Who
	// Shop is the workshop of the configuration: blocks, tubes, prices.
	Shop *stock.Workshop
	// Corrections are what the asker's measured trials have taught, for every
	// alloy and sheet. It may be nil if nothing is kept.
	Corrections func(context.Context) ([]Correction, error)
	// Photo is the photograph that came with the request, as it was sent; nil if
	// none did. It is not kept.
	Photo []byte
	// PhotoLost is set where one came that could not be fetched.
	PhotoLost bool
	// Traced finds an outline that the asker traced, by name or id; an empty name
	// is the latest. It may be nil if nothing is kept.
	Traced func(nameOrID string) (Traced, error)
	// Progress reports long work: done of total, with a short note. Never nil.
	Progress func(done, total int, note string)
	// Nested parses a request typed inside this one, with the same bench, into
	// a Call of its own (see Inner). Never nil.
	Nested func(line string) (*Call, error)
	// Past makes the Call of an answered line once more, as its asker's and
	// without a bench, which the line holds already. It refuses what can't be
	// run twice. It may be nil in tests of other requests.
	Past func(who Who, at time.Time, line string) (*Call, error)
	// Stop ends the asker's own long work in this channel, and tells how many
	// pieces of it there were. It may be nil in tests of other requests.
	Stop func() int
	// Now is the time of the request, Version that of the program.
	Now     time.Time
	Version string

	uses *uses
}

// uses are the options whose values went into an answer.
type uses struct {
	used, worded map[string]bool
	settled      Args
	// closed once the answer is there: drawings, made later and by several
	// goroutines, change nothing.
	closed bool
}

func (c *Call) start() {
	if c.uses == nil {
		c.uses = &uses{used: map[string]bool{}, worded: map[string]bool{}, settled: Args{}}
	}
}

func (c *Call) note(name string, worded bool) {
	c.start()
	if c.uses.closed {
		return
	}
	c.uses.used[name] = true
	if worded {
		c.uses.worded[name] = true
	}
}

// Value takes an option's value; the zero value where it has none.
func (c *Call) Value(name string) Value {
	v, ok := c.Args[name]
	if ok {
		c.note(name, false)
	}
	return v
}

// Number takes an option's number, 0 if it has none.
func (c *Call) Number(name string) float64 { return c.Value(name).Number }

// NumberOr is Number for an option without a default: the fallback where it has
// no value.
func (c *Call) NumberOr(name string, fallback float64) float64 {
	if !c.Args.Has(name) {
		return fallback
	}
	return c.Number(name)
}

// Word takes an option's text, "" if it has none.
func (c *Call) Word(name string) string { return c.Value(name).Text }

// Worded takes a value whose origin the request states in its own words.
func (c *Call) Worded(name string) Value {
	c.note(name, true)
	return c.Args[name]
}

// Settle gives an option the value that the request found for it: the system
// of a ring size that was read by its form, a day for "yesterday". The answer's
// line carries it; stating it is the request's own matter.
func (c *Call) Settle(name string, v Value) {
	v.Source = Settled
	c.Args[name] = v
	c.note(name, true)
	c.uses.settled[name] = v
}

// Drop takes a bench value away that is of no use here, and puts back what it
// kept out: the usual lean instead of that of a block.
func (c *Call) Drop(name string) {
	delete(c.Args, name)
	maps.Copy(c.Args, c.Displaced[name])
}

// With is the same call with arguments of its own. What it uses counts as used
// by this one.
func (c *Call) With() *Call {
	c.start()
	other := *c
	other.Args = maps.Clone(c.Args)
	return &other
}

// Answer computes the answer, and adds what holds for every request: its word
// and line, and where the values come from that were used and not typed.
func (c *Call) Answer(ctx context.Context) (*answer.Answer, error) {
	c.start()
	a, err := c.Spec.Answer(ctx, c)
	if err != nil {
		return nil, err
	}
	if a == nil {
		return nil, errors.New(c.Spec.Name + " gave neither answer nor error")
	}
	a.Inches = a.Inches || c.Word("units") == "inch"
	a.Request = c.Spec.Name
	if a.Line == "" {
		a.Line = c.Line()
	}
	own := a.Assumptions
	a.Assumptions = c.assumed()
	for _, line := range own {
		if !slices.Contains(a.Assumptions, line) {
			a.Assumptions = append(a.Assumptions, line)
		}
	}
	a.Notes = append(a.Notes, c.Notes...)
	c.uses.closed = true
	return a, nil
}

// Line is the request in canonical form: what was typed, what was used of a
// bench, and what was settled. Typed again, whatever the bench, it gives the
// same answer.
func (c *Call) Line() string {
	c.start()
	args := maps.Clone(c.Args)
	maps.DeleteFunc(args, func(name string, v Value) bool {
		return v.Source == FromDefault || v.Source != Typed && !c.uses.used[name]
	})
	maps.Copy(args, c.uses.settled)
	return c.Write(args, c.Spec.hasBench())
}

// Retyped is the request as typed, with some options set to other texts ("" to
// leave one out), as a line that can be typed: what a refusal offers to try.
func (c *Call) Retyped(changes map[string]string) string {
	args := maps.Clone(c.Args)
	maps.DeleteFunc(args, func(_ string, v Value) bool { return v.Source != Typed })
	for name, text := range changes {
		delete(args, name)
		if text != "" {
			args[name] = Value{Text: text}
		}
	}
	return c.Write(args, c.NoBench)
}

// Inner parses the request that is typed inside this one, in the Text option
// named: the collet of "kit 12 makers collet oval 8x6". Bench defaults, asker,
// workshop and corrections are those of the outer request. The Try of a refusal
// is the whole outer line with the inner one mended.
//
// A list of several requests is split by the handler, which then calls Nested
// for each.
func (c *Call) Inner(option string) (*Call, error) {
	inner, err := c.Nested(c.Word(option))
	if err != nil {
		return nil, c.Around(option, err)
	}
	return inner, nil
}

// Around returns err with the Try of a refusal by the inner request, of the
// Text option named, put into the outer line. Other errors stay as they are.
func (c *Call) Around(option string, err error) error {
	r, ok := answer.AsRefusal(err)
	if !ok || r.Try == "" {
		return err
	}
	return &answer.Refusal{Problem: r.Problem, Try: c.Retyped(map[string]string{option: r.Try}), Cause: r.Cause}
}

// assumed lists the values that were used and not typed, in the catalogue's
// order, each with where it comes from: "alloy sterling (your bench)".
func (c *Call) assumed() []string {
	var lines []string
	for i := range c.Spec.Options {
		o := &c.Spec.Options[i]
		v, ok := c.Args[o.Name]
		if !ok || !c.uses.used[o.Name] || c.uses.worded[o.Name] || v.Source == Typed || v.Source == Settled || v.Source == FromDefault && o.DefaultNote == "" {
			continue
		}
		lines = append(lines, o.Name+" "+v.Text+v.unit(o)+" ("+v.Note+")")
	}
	return lines
}

// unit is the unit to show after the value's text.
func (v Value) unit(o *Option) string {
	if v.IsMass {
		return "" // it has its own
	}
	return UnitOf(o)
}

// UnitOf is the unit to show after a canonical text that has none.
func UnitOf(o *Option) string {
	switch o.Kind {
	case Length, Size:
		return " mm"
	case Angle:
		return "°"
	case Percent, Share:
		return " %"
	}
	return ""
}
