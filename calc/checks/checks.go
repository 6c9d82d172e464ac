// Package checks is the list of outside checks: every figure of guildhand that
// is compared with something outside it, as data. A row has the request, the
// quantity, the published value with its source, and how ours is computed;
// nothing in it comes from our own output.
//
//	go test -v -run TestOutsideChecks ./calc/checks
//
// prints the list and fails where a row fails, where a request that computes or
// an alloy has none, or where too few count.
package checks

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Mark says how far a row's published value can be trusted.
type Mark string

// Marks of rows.
const (
	// Read: the value was read in a copy of the source.
	Read Mark = "read"
	// Derived: the value follows by arithmetic from what was read.
	Derived Mark = "derived"
	// Memory: the value is from memory of the source.
	Memory Mark = "memory"
	// Practice: common practice of the trade, no source.
	Practice Mark = "practice"
)

// Row is one comparison.
type Row struct {
	// Requests whose figures it judges.
	Requests []string
	// Alloy is the key of the alloy that it judges, empty if none.
	Alloy    string
	Quantity string
	Unit     string
	// Low and High bound the published value; both are the same where one value
	// is published.
	Low, High float64
	Source    string
	Mark      Mark
	Ours      float64
	// Tolerance is granted beyond the published bounds, in the row's unit; Why
	// says for what, where it is more than the value's own rounding.
	Tolerance float64
	Why       string
}

// Difference is how far ours lies outside the published bounds, 0 within.
func (r Row) Difference() float64 {
	switch {
	case math.IsNaN(r.Ours):
		return r.Ours
	case r.Ours < r.Low:
		return r.Ours - r.Low
	case r.Ours > r.High:
		return r.Ours - r.High
	}
	return 0
}

// Holds reports whether ours agrees.
func (r Row) Holds() bool { return math.Abs(r.Difference()) <= r.Tolerance*(1+1e-9)+1e-12 }

// Published is the published value as a text.
func (r Row) Published() string {
	if r.Low == r.High {
		return fmt.Sprintf("%.6g", r.Low)
	}
	return fmt.Sprintf("%.6g to %.6g", r.Low, r.High)
}

// MostOfOneTable is how many rows of one source are counted: a long table says
// the same thing many times.
const MostOfOneTable = 15

// Counted is how many rows count: those of each source up to MostOfOneTable,
// common practice not at all. Printed are those of them that do not rest on
// memory alone.
func Counted(rows []Row) (all, printed int) {
	type table struct {
		source string
		memory bool
	}
	of := map[table]int{}
	for _, r := range rows {
		t := table{r.Source, r.Mark == Memory}
		if r.Mark == Practice || of[t] == MostOfOneTable {
			continue
		}
		of[t]++
		all++
		if !t.memory {
			printed++
		}
	}
	return all, printed
}

// All lists every row, by request and source.
func All() []Row {
	var rows []Row
	for _, part := range [][]Row{
		gauges(), units(), rings(), densities(), melting(), annealing(), solders(),
		outlines(), bends(), cones(), domes(), castings(), stones(), bezels(), prongs(), formings(), sheets(),
		jumprings(), resizes(), sections(), tubes(), halos(), saddles(),
	} {
		rows = append(rows, part...)
	}
	slices.SortStableFunc(rows, func(a, b Row) int {
		return cmp.Or(cmp.Compare(a.Requests[0], b.Requests[0]), cmp.Compare(a.Source, b.Source), cmp.Compare(a.Quantity, b.Quantity))
	})
	return rows
}

// table makes rows of one published table.
type table struct {
	requests []string
	source   string
	mark     Mark
	unit     string
	tol      float64
	why      string
}

// row is one line of a table, with a single published value.
func (t table) row(quantity string, published, ours float64) Row {
	return t.between(quantity, published, published, ours)
}

func (t table) between(quantity string, low, high, ours float64) Row {
	return Row{Requests: t.requests, Quantity: quantity, Unit: t.unit, Low: low, High: high, Source: t.source, Mark: t.mark, Ours: ours, Tolerance: t.tol, Why: t.why}
}

func (r Row) of(alloy string) Row {
	r.Alloy = alloy
	return r
}

func on(requests ...string) []string { return requests }
