package tracing

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/testcount"
)

// tally counts photographs and how their perimeters came out.
// Of those accepted, half are within 0.5 % or 0.15 mm, whole within 1 % or
// 0.2 mm, both within 1 % and 0.2 mm.
type tally struct{ shown, accepted, half, whole, both, bad, honest int }

func (t *tally) add(o outcome) {
	t.shown++
	if o.err != nil {
		return
	}
	t.accepted++
	if o.far <= o.trace.DeviationMM {
		t.honest++
	}
	off := math.Abs(o.perimeter)
	mm := math.Abs(o.trace.PerimeterMM - o.truthMM)
	if off <= 0.005 || mm <= 0.15 {
		t.half++
	}
	if off <= 0.01 || mm <= 0.2 {
		t.whole++
	}
	if off <= 0.01 && mm <= 0.2 {
		t.both++
	}
	if off > 0.02 {
		t.bad++
	}
}

// Seeds of photographs. Those from tuningSeeds on were looked at while the
// tracer was written, those from blindSeeds on were not.
const tuningSeeds, blindSeeds = 700_000, 271_828_000

// TestBlind measures photographs that nothing was tuned on, as a careful maker
// takes them. Two run every day, 400 with GUILDHAND_LONG.
func TestBlind(t *testing.T) {
	if testing.Short() {
		t.Skip("photographs take long to simulate")
	}
	if !testcount.Long() {
		all := tallied(t, blindScene, blindSeeds, 2)
		assert.LessOrEqual(t, all.bad, 1)
		return
	}
	t.Log("photographs used for tuning:")
	tallied(t, blindScene, tuningSeeds, 60)
	t.Log("photographs never seen:")
	all := tallied(t, blindScene, blindSeeds, 400)
	assert.GreaterOrEqual(t, float64(all.accepted), 0.8*float64(all.shown), "accepted")
	assert.GreaterOrEqual(t, float64(all.whole), 0.95*float64(all.accepted), "within 1 % or 0.2 mm")
	assert.GreaterOrEqual(t, float64(all.both), 0.95*float64(all.accepted), "within 1 % and 0.2 mm")
	assert.GreaterOrEqual(t, float64(all.half), 0.7*float64(all.accepted), "within 0.5 %")
	assert.LessOrEqual(t, float64(all.bad), float64(all.accepted)/200, "over 2 %")
	assert.GreaterOrEqual(t, float64(all.honest), 0.9*float64(all.accepted), "within the deviation told")
}

// tallied traces photographs and logs how they came out, by material, zone and
// tilt.
func tallied(t *testing.T, draw func(uint64) (*scene, material, Zone), first uint64, photographs int) *tally {
	groups := map[string]*tally{}
	all := &tally{}
	group := func(name string) *tally {
		if groups[name] == nil {
			groups[name] = &tally{}
		}
		return groups[name]
	}
	for i := range photographs {
		if only := os.Getenv("GUILDHAND_SEEDS"); only != "" && !slices.Contains(strings.Split(only, ","), strconv.Itoa(i)) {
			continue
		}
		s, m, zone := draw(first + uint64(i))
		o := runScene(s, m, zone)
		all.add(o)
		group("material " + m.name).add(o)
		group("zone " + string(zone)).add(o)
		group(fmt.Sprintf("tilt %d to %d", int(s.tilt*180/math.Pi)/3*3, int(s.tilt*180/math.Pi)/3*3+3)).add(o)
		switch {
		case o.err != nil:
			t.Logf("%d %s on %s: %v [%s]", i, m.name, zone, o.err, o.trace.note())
		case math.Abs(o.perimeter) > 0.01 || math.Abs(o.trace.PerimeterMM-o.truthMM) > 0.2 || os.Getenv("GUILDHAND_LOOK") != "":
			t.Logf("%d %s on %s: perimeter %+.2f %% (%+.2f mm), view %.1f, deviation told %.2f, seen %.2f [%s]", i, m.name, zone, 100*o.perimeter, o.trace.PerimeterMM-o.truthMM, o.trace.View.Degrees(), o.trace.DeviationMM, o.far, o.trace.note())
		}
		if dir := os.Getenv("GUILDHAND_LOOK"); dir != "" && o.trace.Drawn != nil {
			leaveLook(t, s, o, fmt.Sprintf("%s/%d.png", dir, i))
		}
	}
	row := func(name string, x *tally) {
		n := math.Max(1, float64(x.accepted))
		t.Logf("%-28s %4d shown, %3.0f %% accepted; of these %3.0f %% within 0.5 %% or 0.15 mm, %3.0f %% within 1 %% or 0.2 mm, %.1f %% within 1 %% and 0.2 mm, %d over 2 %%; %3.0f %% within the deviation told",
			name, x.shown, 100*float64(x.accepted)/float64(max(1, x.shown)), 100*float64(x.half)/n, 100*float64(x.whole)/n, 100*float64(x.both)/n, x.bad, 100*float64(x.honest)/n)
	}
	for _, name := range slices.SortedFunc(maps.Keys(groups), cmp.Compare[string]) {
		row(name, groups[name])
	}
	row("all", all)
	return all
}
