package checks

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/stock"
)

// computing are the requests that compute; bot/requests checks them against the
// catalogue.
var computing = []string{"collet", "collar", "bezel", "trace", "prongs", "band", "dome", "gauge", "weigh", "melt", "heat", "match", "tune", "kit",
	"jumpring", "resize", "tubeset", "halo", "saddle"}

// leastRows is how many rows must count, at most MostOfOneTable of any one
// table.
const leastRows = 150

// TestOutsideChecks prints every comparison; run it with -v.
func TestOutsideChecks(t *testing.T) {
	rows := All()
	var list strings.Builder
	list.WriteString("request | quantity | published | ours | difference | tolerance | unit | mark | source\n")
	for _, r := range rows {
		published, ours := r.Published(), fmt.Sprintf("%.6g", r.Ours)
		fmt.Fprintf(&list, "%s | %s | %s | %s | %+.2g | %.2g | %s | %s | %s\n",
			strings.Join(r.Requests, ","), r.Quantity, published, ours, r.Difference(), r.Tolerance, r.Unit, r.Mark, r.Source)
		assert.True(t, r.Holds(), "%s: published %s, ours %s, tolerance %g %s (%s)", r.Quantity, published, ours, r.Tolerance, r.Unit, r.Source)
	}
	all, printed := Counted(rows)
	fmt.Fprintf(&list, "%d rows, %d of them count, %d of those not from memory alone", len(rows), all, printed)
	t.Log("\n" + list.String())
}

// The floor: enough rows, every request that computes and every alloy.
func TestFloor(t *testing.T) {
	rows := All()
	_, printed := Counted(rows)
	assert.GreaterOrEqual(t, printed, leastRows, "rows that count and are not from memory alone")
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	assert.Contains(t, string(readme), fmt.Sprintf("%d comparisons", len(rows)), "README has another count")
	requests, alloys := map[string]int{}, map[string]int{}
	for _, r := range rows {
		if r.Mark == Practice {
			continue
		}
		alloys[r.Alloy]++
		for _, name := range r.Requests {
			requests[name]++
		}
	}
	for _, name := range computing {
		assert.Positive(t, requests[name], "%s has no outside check", name)
	}
	for name := range requests {
		assert.Contains(t, computing, name, "a request that nobody has")
	}
	for _, a := range stock.Alloys() {
		assert.Positive(t, alloys[a.Key], "%s has no outside check", a.Key)
	}
}

// Every row is whole.
func TestRowsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		key := r.Quantity + "|" + r.Source
		assert.False(t, seen[key], "twice: %s", key)
		seen[key] = true
		assert.NotEmpty(t, r.Requests, key)
		assert.NotEmpty(t, r.Quantity, key)
		assert.NotEmpty(t, r.Source, key)
		assert.Contains(t, []Mark{Read, Derived, Memory, Practice}, r.Mark, key)
		assert.LessOrEqual(t, r.Low, r.High, key)
		assert.False(t, math.IsNaN(r.Low+r.High), key)
	}
}

// A wrong figure, an unknown one and a row too many are seen.
func TestChecksCanFail(t *testing.T) {
	r := Row{Low: 10, High: 12, Ours: 12.2, Tolerance: 0.1}
	assert.False(t, r.Holds())
	r.Ours = 9.95
	assert.True(t, r.Holds())
	r.Ours = math.NaN()
	assert.False(t, r.Holds())
	for _, row := range All() {
		row.Ours += row.High - row.Low + 2*row.Tolerance + 1e-6*(1+math.Abs(row.High))
		assert.False(t, row.Holds(), "any figure will do for %s", row.Quantity)
	}
	many := make([]Row, MostOfOneTable+4)
	for i := range many {
		many[i] = Row{Source: "one table", Mark: Read}
	}
	many[0].Mark, many[1].Mark = Memory, Practice
	all, printed := Counted(many)
	assert.Equal(t, MostOfOneTable+1, all)
	assert.Equal(t, MostOfOneTable, printed)
}
