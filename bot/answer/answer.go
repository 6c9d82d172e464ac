// Package answer is what every answer of guildhand is made of: the headline,
// figures, assumptions, steps, cautions and attachments that a request gives
// back, or the refusal that it gives instead. Adapters turn these into their
// platform's messages and know nothing else about a request.
package answer

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
)

// Answer is the whole of what a request returns.
//
// A phone shows about twelve short lines: the headline, at most six figures
// (those marked Main), then assumptions and the worst caution; one or two more
// cautions follow beyond them. Steps are shown on demand ("working").
type Answer struct {
	// Request is the request's word in the catalogue, "collet".
	Request string
	// Line is the request as guildhand understood it, in a form that can be
	// typed again and gives the same answer.
	Line string
	// Headline is the piece to cut, with its stock, in one sentence.
	Headline string
	// Figures in the order of importance. Ids never change between versions.
	Figures []Figure
	// Inches is set where the asker wants lengths in inches beside mm.
	Inches bool
	// Notes are plain warnings about this very piece ("thin for a sheet
	// collet"), shown under the figures.
	Notes []string
	// Assumptions lists every value that was not given, with its value and
	// where it comes from (default, bench of whom, estimate, house rule).
	Assumptions []string
	// Steps is the working: how the figures come about and how to make it.
	Steps []string
	// Cautions of this very work, worst first: whole sentences of package
	// cautions, at most 90 characters each.
	Cautions []string
	// Jobs are what the maker does at the bench, by the words of package
	// cautions. They are for requests that put several answers together and are
	// not kept.
	Jobs []string
	// Parts are the blanks from sheet that the piece needs beside the one that its
	// attachments draw. Like Jobs they are for other requests and not kept.
	Parts []Part
	// Lengths are the pieces of wire or tube that the piece is made from. Like Jobs
	// they are for other requests and not kept.
	Lengths []Length
	// Attachments in the order of importance; see Files for which of them are
	// shown at once.
	Attachments []Attachment

	// Alone is set where only the asker should see the answer, on platforms
	// that can show it so.
	Alone bool
	// InReplyTo is the platform's id of an earlier message of the bot in this
	// channel that the answer speaks of: adapters show it as a reply to that
	// one. Empty for none.
	InReplyTo string
	// Corrects is the entry that the answer corrects, 0 for none: adapters tell
	// its maker, and mark that answer.
	Corrects int64
	// Fleeting answers leave the daybook once they are delivered: the last word
	// to a maker of whom nothing is to be kept.
	Fleeting bool
	// Explains is set where the headline is an explanation and not a piece.
	Explains bool
	// Known is what a message that comes after an explanation is read against, opaque
	// here.
	Known json.RawMessage
}

// Part is a further blank from sheet of the answer's metal.
type Part struct {
	// Name is what it is: "back plate".
	Name string
	// Scene is its template.Drawing, as in Attachment. Edges to cut are those of
	// the blank; openings are drawn as waste.
	Scene       any
	ThicknessMM float64
	// Thickness is ThicknessMM in words: "24 ga (0.51 mm)".
	Thickness string
	// OpenMM2 is the area of the openings, JointMM the length of the joint that it
	// makes with the drawn piece.
	OpenMM2, JointMM float64
}

// Length is a piece of wire or tube of the answer's metal.
type Length struct {
	// Name is what it becomes: "tube", "bearing wire".
	Name string
	// Stock is what it is cut from: "round wire, 2 mm". Pieces of one metal with the
	// same words are cut from the same lengths.
	Stock string
	// EachMM is the piece when it is finished, AllowanceMM what is filed off it or
	// held, KerfMM what the saw takes. Of a coil of rings EachMM is one turn, kerf
	// included, and AllowanceMM the ends that hold the coil.
	EachMM, AllowanceMM, KerfMM float64
	// Rings is how many rings the answer winds, 0 for a straight piece. A coil may be
	// wound from several lengths.
	Rings int
	// SectionMM2 is the metal that a cut across goes through.
	SectionMM2 float64
	// MassG is the mass of one piece, of a coil that of one ring.
	MassG float64
	// SawMM is the length to saw for one piece or ring. JointMM is the length of its
	// joint, 0 where none must be soldered, and JointMM2 the joint's area.
	SawMM, JointMM, JointMM2 float64
}

// Figure is one number of an answer, in full precision.
type Figure struct {
	// ID never changes once published: snake_case, such as "rim_length".
	ID string
	// Label is the figure's name for people: "rim length".
	Label string
	// Value in Unit, full precision. Display rounds to what a bench can use.
	Value float64
	// Unit is one of the Unit constants.
	Unit Unit
	// Text, if not empty, is shown in place of the number ("medium solder").
	Text string
	// Main marks the at most six figures of a phone's first screen.
	Main bool
}

// Unit names the unit of a figure, SI-style as in the JSON output.
type Unit string

// Units of figures.
const (
	MM        Unit = "mm"
	MM2       Unit = "mm2"
	MM3       Unit = "mm3"
	Gram      Unit = "g"
	Degree    Unit = "deg"
	Percent   Unit = "pct"
	Celsius   Unit = "degC"
	Newton    Unit = "N"
	Bar       Unit = "bar"
	Carat     Unit = "ct"
	GramPerCC Unit = "g/cm3"
	Gauge     Unit = "ga"
	Count     Unit = "count"
	Ratio     Unit = "ratio"
	// Money is in the currency of the configuration, named in the label.
	Money Unit = "money"
)

// Attachment is a file that goes with an answer. Its bytes are made when they
// are asked for: a phone that shows the PNG does not pay for the PDF.
type Attachment struct {
	// Name is the file's name, "collet-oval-8x6.png".
	Name string
	// Type is the MIME type, "image/png".
	Type string
	// Alt is the text for those who do not see the picture.
	Alt string
	// Render makes the file's bytes. It may be called more than once and from
	// several goroutines.
	Render func(context.Context) ([]byte, error)
	// Scene is the drawing that the file shows, a template.Drawing, for requests
	// that put several answers' drawings together; nil for other files. It is
	// not kept. Its type is not named because package template builds on this.
	Scene any
}

// Refusal is the answer to a request that can't be computed: one clear
// sentence, and a line that would work. It is an error so that calc, parser
// and handlers can return it through ordinary error returns.
type Refusal struct {
	// Problem says what is wrong with the value given and the allowed range,
	// with units; lower case, no blame.
	Problem string
	// Try is a request that can be copied and works, or empty if none is known.
	Try string
	// Cause is for the log only; its text never reaches a room.
	Cause error
	// Asks is set where Problem is a question back, with at most three choices;
	// Declines where it says that something is not guildhand's trade.
	Asks, Declines bool
	Choices        []Choice
	// Known is what the question's answer is added to, as the reader left it.
	Known json.RawMessage
}

// Error returns the sentence for the asker.
func (r *Refusal) Error() string { return r.Problem }

// Unwrap returns the private cause.
func (r *Refusal) Unwrap() error { return r.Cause }

// Refuse makes a Refusal with a line to try.
func Refuse(try, format string, args ...any) *Refusal {
	return &Refusal{Problem: fmt.Sprintf(format, args...), Try: try}
}

// Trying returns the refusal with another line to try. The refusal itself, which
// its maker may use again, stays as it is.
func (r *Refusal) Trying(line string) *Refusal {
	if r.Try == line {
		return r
	}
	other := *r
	other.Try = line
	return &other
}

// AsRefusal finds a Refusal in err's chain.
func AsRefusal(err error) (*Refusal, bool) {
	var r *Refusal
	ok := errors.As(err, &r)
	return r, ok
}
