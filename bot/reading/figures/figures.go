// Package figures tells by the words round a figure what it most likely measures:
// an option of the request, a figure that was taken back, or nothing that matters.
// It is a second opinion for the rules of bot/reading/sentence.
//
// The model is learnt from the messages in written and from the labelled sentences
// in sentence/testdata; after they change, run
//
//	go generate ./bot/reading/figures
package figures

import (
	_ "embed"
	"math"
	"strconv"

	"guildhand/bot/reading/logistic"
	"guildhand/bot/reading/written"
)

//go:generate go run ./learn -sentences ../sentence/testdata -written ../written -model model.gob.gz

// Figure is a number of a message, or several joined by x: the words from First to
// before Next.
type Figure struct {
	First, Next int
	// Measure is what its unit says of it, "length"; Value is in mm or in that
	// measure's unit.
	Measure string
	Value   float64
	// Unit tells that a unit was typed.
	Unit bool
	// Rule is what a rule of the reader takes it for, empty where none does.
	Rule string
}

//go:embed model.gob.gz
var packed []byte

// learnt is the model of the program.
var learnt = logistic.Embedded("figures", packed)

// Roles is how likely the figure at measures each thing, where a message with
// these words and figures asks for a request.
func Roles(request string, words []string, all []Figure, at int) logistic.Chances {
	return RolesBy(learnt(), request, words, all, at)
}

// once is how surely a role goes to one figure alone: a stone has one depth.
const once = 0.75

// oftenTwice are roles that several figures of a message have: a trial's results, a tube's
// outside and wall, and small stones that are compared.
var oftenTwice = []string{written.Retracted, written.Idle, written.Asked, written.Result, "tubesize", "with"}

// RolesOfAll is how likely each figure of a message measures each thing, where what one
// measures is hardly what another does, too.
func RolesOfAll(request string, words []string, all []Figure) []logistic.Chances {
	var alone []logistic.Chances
	for at := range all {
		alone = append(alone, Roles(request, words, all, at))
	}
	if request == "tune" { // a measure may be told as wanted and as it came out
		return alone
	}
	return logistic.Exclusive(alone, once, oftenTwice...)
}

// RolesBy is Roles by any model.
func RolesBy(m *logistic.Model, request string, words []string, all []Figure, at int) logistic.Chances {
	near, far, itself := Features(request, words, all, at)
	return m.Chances(near, far, itself)
}

// How far from a figure words count, in order and in any order.
const (
	inOrder  = 3
	anyOrder = 7
)

// Features of a figure: the words beside it with their places, the words further
// round it in any order, and what it is itself, and its neighbours.
func Features(request string, words []string, all []Figure, at int) (near, far, itself logistic.Counts) {
	near, far, itself = logistic.Counts{}, logistic.Counts{}, logistic.Counts{}
	f := all[at]
	word := func(i int) string { return wordAt(words, all, i) }
	for k := 1; k <= inOrder; k++ {
		before, after := word(f.First-k), word(f.Next-1+k)
		near["-"+strconv.Itoa(k)+" "+before]++
		near["+"+strconv.Itoa(k)+" "+after]++
	}
	near["-2-1 "+word(f.First-2)+" "+word(f.First-1)]++
	near["+1+2 "+word(f.Next)+" "+word(f.Next+1)]++
	near["-1+1 "+word(f.First-1)+" "+word(f.Next)]++
	for k := 1; k <= anyOrder; k++ {
		far["before "+word(f.First-k)]++
		far["after "+word(f.Next-1+k)]++
	}
	size, kind := sizeOf(f), kindOf(f)
	for _, s := range []string{"kind " + kind, "size " + kind + " " + size, "for " + request, "for " + request + " " + kind, "for " + request + " " + kind + " " + size,
		"place " + strconv.Itoa(at), "of " + strconv.Itoa(len(all))} {
		itself[s]++
	}
	if f.Rule != "" {
		itself["rule "+f.Rule]++
		itself["rule "+f.Rule+" for "+request]++
	}
	for _, s := range ranks(all, at) {
		itself[s]++
		itself[s+" for "+request]++
	}
	near["for "+request+" -1 "+word(f.First-1)]++
	near["for "+request+" +1 "+word(f.Next)]++
	if at > 0 {
		itself["behind "+kindOf(all[at-1])+" "+sizeOf(all[at-1])]++
	}
	if at+1 < len(all) {
		itself["before "+kindOf(all[at+1])+" "+sizeOf(all[at+1])]++
	}
	return near, far, itself
}

// wordAt is a word, or a sign for a figure, so that figures of all values are alike.
func wordAt(words []string, all []Figure, i int) string {
	if i < 0 || i >= len(words) {
		return "|"
	}
	for _, f := range all {
		if f.First <= i && i < f.Next {
			return "#" + f.Measure
		}
	}
	return words[i]
}

func kindOf(f Figure) string {
	if f.Unit {
		return f.Measure + "!"
	}
	return f.Measure
}

// sizeOf is the order of a value in steps of a factor of 1.6 or so.
func sizeOf(f Figure) string {
	if f.Value <= 0 {
		return "0"
	}
	return strconv.Itoa(int(math.Round(1.5 * math.Log2(f.Value))))
}

// Example is a figure of a message with what it measures.
type Example struct {
	Request string
	Words   []string
	All     []Figure
	At      int
	Role    string
}

// A feature that stands in fewer examples than this says nothing.
const fewest = 2

// Fit learns a model from examples.
func Fit(examples []Example) (*logistic.Model, error) {
	var samples []logistic.Sample
	for _, e := range examples {
		near, far, itself := Features(e.Request, e.Words, e.All, e.At)
		samples = append(samples, logistic.Sample{Kinds: []logistic.Counts{near, far, itself}, Classes: []string{e.Role}})
	}
	return logistic.Fit(samples, fewest, fewest, fewest)
}

// ranks tell how a figure compares with the others of its kind: the wall is the least
// of a piece's lengths, and the stone's length comes before its width.
func ranks(all []Figure, at int) (says []string) {
	lengths := func(f Figure) bool { return f.Measure == "length" || f.Measure == "bare" }
	if !lengths(all[at]) {
		return nil
	}
	less, more, before, n := 0, 0, 0, 0
	for i, f := range all {
		if !lengths(f) {
			continue
		}
		n++
		if f.Value < all[at].Value {
			less++
		}
		if f.Value > all[at].Value {
			more++
		}
		if i < at {
			before++
		}
	}
	return []string{"less " + strconv.Itoa(min(less, 3)), "more " + strconv.Itoa(min(more, 3)), "nth " + strconv.Itoa(min(before, 3)) + " of " + strconv.Itoa(min(n, 4))}
}
