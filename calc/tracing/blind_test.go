package tracing

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// tally counts photographs and how their perimeters came out.
type tally struct{ shown, accepted, half, whole, bad int }

func (t *tally) add(o outcome) {
	t.shown++
	if o.err != nil {
		return
	}
	t.accepted++
	off := math.Abs(o.perimeter)
	mm := math.Abs(o.trace.PerimeterMM - o.truthMM)
	if off <= 0.005 || mm <= 0.15 {
		t.half++
	}
	if off <= 0.01 || mm <= 0.2 {
		t.whole++
	}
	if off > 0.02 {
		t.bad++
	}
}

// TestBlind measures photographs that nothing was tuned on. Two run every
// day, 400 with GUILDHAND_LONG.
func TestBlind(t *testing.T) {
	if testing.Short() {
		t.Skip("photographs take long to simulate")
	}
	photographs, first := 2, uint64(500_000)
	if os.Getenv("GUILDHAND_LONG") != "" {
		photographs = 400
	}
	groups := map[string]*tally{}
	all := &tally{}
	group := func(name string) *tally {
		if groups[name] == nil {
			groups[name] = &tally{}
		}
		return groups[name]
	}
	for i := range photographs {
		s, m, zone := goodScene(first + uint64(i))
		o := runScene(s, m, zone)
		all.add(o)
		group("material " + m.name).add(o)
		group("zone " + string(zone)).add(o)
		group(fmt.Sprintf("tilt %d to %d", int(s.tilt*180/math.Pi)/3*3, int(s.tilt*180/math.Pi)/3*3+3)).add(o)
		if o.err != nil {
			t.Logf("%d %s on %s: %v", i, m.name, zone, o.err)
		} else if math.Abs(o.perimeter) > 0.01 {
			t.Logf("%d %s on %s: perimeter %+.2f %%, view %.1f, deviation told %.2f, seen %.2f", i, m.name, zone, 100*o.perimeter, o.trace.View.Degrees(), o.trace.DeviationMM, o.far)
		}
	}
	row := func(name string, x *tally) {
		n := math.Max(1, float64(x.accepted))
		t.Logf("%-20s %4d shown, %3.0f %% accepted; of these %3.0f %% within 0.5 %% or 0.15 mm, %3.0f %% within 1 %% or 0.2 mm, %d over 2 %%",
			name, x.shown, 100*float64(x.accepted)/float64(max(1, x.shown)), 100*float64(x.half)/n, 100*float64(x.whole)/n, x.bad)
	}
	for _, name := range slices.SortedFunc(maps.Keys(groups), cmp.Compare[string]) {
		row(name, groups[name])
	}
	row("all", all)
	assert.GreaterOrEqual(t, float64(all.accepted), 0.5*float64(all.shown))
	if photographs < 100 {
		assert.LessOrEqual(t, all.bad, 1)
		return
	}
	assert.GreaterOrEqual(t, float64(all.accepted), 0.8*float64(all.shown), "accepted")
	assert.GreaterOrEqual(t, float64(all.whole), 0.95*float64(all.accepted), "within 1 %")
	assert.GreaterOrEqual(t, float64(all.half), 0.7*float64(all.accepted), "within 0.5 %")
	assert.LessOrEqual(t, float64(all.bad), float64(all.accepted)/200, "over 2 %")
}
