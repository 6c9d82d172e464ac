package requests

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

func TestCollarExamples(t *testing.T) { requeststest.Examples(t, All(nil), "collar") }

func TestCollarRefusals(t *testing.T) {
	refusals(t,
		"collar oval 8x6 depth 4 sterling 20ga block demo-pear",        // another outline
		"collar oval 16x14 depth 8 sterling 20ga block demo-oval",      // larger than its largest hole
		"collar oval 8x6 depth 4 sterling tube tube-4x0.5",             // far too small
		"collar oval 8x6 depth 4 18k-yellow tube tube-9x1",             // another metal
		"collar round 4 height 10.5 sterling 20ga",                     // the foot closes
		"collar round 5 height 9 sterling 20ga block demo-round-steep", // it closes at the block's lean
		"collar oval 8x6 depth 4 sterling 20ga lean 0",
	)
}

// ask puts a line to a workshop of the test's own.
func askShop(t *testing.T, shop *stock.Workshop, line string, change func(*catalogue.Call)) *answer.Answer {
	t.Helper()
	call, err := requeststest.CallOf(All(nil), shop, line)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(call)
	}
	a, err := call.Answer(context.Background())
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	for _, f := range requeststest.Unfit(a) {
		t.Errorf("%s: %s", line, f)
	}
	return a
}

// What is cut is what comes out: the strip without its filing, times the
// sheet's thickness, is the volume of the formed collar.
func TestCollarKeepsItsMetal(t *testing.T) {
	for _, line := range []string{
		"collar oval 8x6 depth 4 sterling 20ga block demo-oval",
		"collar round 7 depth 4 copper 0.9mm block demo-round-steep",
		"collar oval 12x9 depth 6 18k-yellow 0.7mm lean 12",
	} {
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Fatal(err)
		}
		call, err := requeststest.CallOf(All(nil), stock.DemoWorkshop(), line)
		if err != nil {
			t.Fatal(err)
		}
		strip := (requeststest.Value(t, a, "strip_length") - 0.3) * requeststest.Value(t, a, "strip_height") * call.Args.Number("thickness", 0)
		if formed := requeststest.Value(t, a, "volume"); math.Abs(strip/formed-1) > 1e-9 {
			t.Errorf("%s: strip of %.9f mm3, formed %.9f mm3", line, strip, formed)
		}
		if added := requeststest.Value(t, a, "length_added"); added <= 0 {
			t.Errorf("%s: forming adds %.4f mm", line, added)
		}
	}
	// A tube is as heavy after as before.
	a, err := requeststest.Ask(All(nil), "collar oval 8x6 depth 4 sterling tube tube-9x1 block demo-oval")
	if err != nil {
		t.Fatal(err)
	}
	tube := math.Pi * 8 * 1 * requeststest.Value(t, a, "tube_length")
	if formed := requeststest.Value(t, a, "volume"); math.Abs(tube/formed-1) > 1e-9 {
		t.Errorf("tube of %.9f mm3, formed %.9f mm3", tube, formed)
	}
}

func TestCollarOfEveryOutline(t *testing.T) {
	for kind, line := range requeststest.ColletOfEveryOutline() {
		a, err := requeststest.Ask(All(nil), "collar"+line[len("collet"):])
		if err != nil {
			t.Errorf("%s: %v", kind, err)
			continue
		}
		for _, f := range requeststest.Unfit(a) {
			t.Errorf("%s: %s", kind, f)
		}
		if requeststest.Value(t, a, "block_thickness") < requeststest.Value(t, a, "height") {
			t.Errorf("%s: a block thinner than the collar is high", kind)
		}
		if lengths := svgLengths(t, a); math.Abs(lengths["rim"]-requeststest.Value(t, a, "strip_length")) > 1e-5 || lengths["opening"] == 0 {
			t.Errorf("%s: the drawn strip is %.6f mm long, the figure %.6f", kind, lengths["rim"], requeststest.Value(t, a, "strip_length"))
		}
	}
}

func TestCollarWarnings(t *testing.T) {
	shop := stock.DemoWorkshop()
	thin := shop.Blocks[2]
	thin.Name, thin.ThicknessMM = "Thin One", 4
	shop.Blocks = append(shop.Blocks, thin)
	shop.Presses = append(shop.Presses, stock.Press{Name: "toy", CapacityN: 1000, RamAreaMM2: 100})
	shop.Demo = false
	a := askShop(t, shop, "collar oval 8x6 depth 4 sterling 20ga block thin-one press toy", nil)
	notes := strings.Join(a.Notes, "\n")
	for _, want := range []string{"too thin to taper all", "rated 1 kN of press toy: do not go there"} {
		if !strings.Contains(notes, want) {
			t.Errorf("no %q in %q", want, notes)
		}
	}
	if requeststest.Value(t, a, "height") >= 5.75 {
		t.Errorf("height %.3f mm", requeststest.Value(t, a, "height"))
	}
	if strings.Contains(strings.Join(a.Assumptions, "\n"), "demo workshop") {
		t.Error("a workshop of one's own is called a demo")
	}
	// A block of the bench that has other holes is left out, and the answer
	// says so.
	a = askShop(t, shop, "collar pear 9x6 depth 4 sterling 20ga", func(c *catalogue.Call) {
		c.Args["block"] = catalogue.Value{Text: "demo-oval", Source: catalogue.FromMaker, Note: "your bench"}
	})
	if !strings.Contains(strings.Join(a.Notes, "\n"), "block demo-oval (your bench) was not used: block demo-oval has oval holes") || !hasLabel(a, "block to look for, opening at least") {
		t.Errorf("%s %v", a.Headline, a.Notes)
	}
	// No workshop at all.
	a = askShop(t, nil, "collar oval 8x6 depth 4 sterling 20ga", nil)
	if !hasLabel(a, "block to look for, opening at least") || !hasLabel(a, "block to look for, thickness at least") {
		t.Errorf("%s %v", a.Headline, requeststest.Mains(a))
	}
}

func hasLabel(a *answer.Answer, label string) bool {
	return slices.ContainsFunc(a.Figures, func(f answer.Figure) bool { return f.Main && f.Label == label })
}

// The gauge shows the force over the ram's area.
func TestCollarGauge(t *testing.T) {
	a, err := requeststest.Ask(All(nil), "collar pear 9x6 depth 4 sterling 20ga block demo-pear press 20t")
	if err != nil {
		t.Fatal(err)
	}
	want := requeststest.Value(t, a, "press_load") / (math.Pi / 4 * 60 * 60) * units.BarPerMPa
	if got := requeststest.Value(t, a, "gauge_pressure"); math.Abs(got/want-1) > 1e-12 {
		t.Errorf("%.4f bar, want %.4f", got, want)
	}
	for _, f := range a.Figures {
		if f.ID == "press_load" && (!strings.Contains(f.Label, "no target") || !strings.HasPrefix(f.Text, "about ")) {
			t.Errorf("a press load that could be taken for a target: %s %s", f.Label, f.Text)
		}
	}
}

// Collar and bezel use what trials have taught, and say so.
func TestStripsUseTheCorrection(t *testing.T) {
	m := newMaker(t)
	const k, kerf = 0.40, 0.10
	for _, alloy := range []string{"sterling", "copper"} {
		if _, err := m.book.KeepCorrection(t.Context(), daybook.Correction{Platform: m.who.Platform, Maker: m.who.Maker, Alloy: alloy,
			ThicknessMM: 0.8, NeutralFactor: k, KerfMM: kerf}); err != nil {
			t.Fatal(err)
		}
	}
	for line, level := range map[string]float64{
		"collar oval 8x6 depth 4 sterling 0.8mm": 0.8 / (8.5 * units.Degree).Cos(),
		"bezel oval 8x6 dome 2.5 copper 0.8mm":   0.8,
	} {
		plain, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Fatal(err)
		}
		tuned := m.must(t, line)
		id := "strip_length"
		if strings.HasPrefix(line, "bezel") {
			id = "cut_length"
		}
		want := 2*math.Pi*(k-0.5)*level + kerf
		if got := requeststest.Value(t, tuned, id) - requeststest.Value(t, plain, id); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: the strip changes by %.6f mm, want %.6f", line, got, want)
		}
		if !strings.Contains(strings.Join(tuned.Assumptions, "\n"), "tune drop id ") {
			t.Errorf("%s: does not say how to drop the correction: %v", line, tuned.Assumptions)
		}
	}
}

// An emerald outline is given one or two anneals more, and the working says
// why.
func TestCollarEmeraldAnneals(t *testing.T) {
	anneals := func(kind outline.Kind) (float64, string) {
		a, err := requeststest.Ask(All(nil), "collar "+string(kind)+" 8x6 depth 4 sterling 20ga block demo-"+string(kind))
		if err != nil {
			t.Fatal(err)
		}
		return requeststest.Value(t, a, "anneals"), strings.Join(a.Steps, "\n")
	}
	oval, _ := anneals(outline.Oval)
	emerald, steps := anneals(outline.Emerald)
	if more := emerald - oval; more < 1 || more > 2 || !strings.Contains(steps, "closes in several directions at once") {
		t.Errorf("%v anneals more", more)
	}
}

// The plan as a maker follows it, in the order that keeps metal, block and
// maker whole.
func TestCollarStepsInOrder(t *testing.T) {
	for _, line := range []string{
		"collar pear 9x6 depth 4 sterling 20ga block demo-pear press 20t",
		"collar oval 8x6 depth 4 sterling tube tube-9x1 block demo-oval press 20t",
		"collar emerald 8x6 depth 4.2 sterling 20ga block demo-emerald press 12t",
		"collar round 8 depth 5.5 18k-white 0.8mm lean 12",
	} {
		a, err := requeststest.Ask(All(nil), line)
		require.NoError(t, err, line)
		first := func(from int, what string) int {
			for i := from; i < len(a.Steps); i++ {
				if strings.Contains(a.Steps[i], what) {
					return i
				}
			}
			t.Errorf("%s: no step %q after step %d", line, what, from)
			return len(a.Steps) - 1
		}
		at := 0
		for _, what := range []string{"dry it inside and out", "put thin oil", "pressing 1 of", "done when", "get it out", "wipe the oil off", "anneal it again", "oil it again", "true the inside", "set the stone last"} {
			at = first(at, what)
		}
		total := int(requeststest.Value(t, a, "passes"))
		for i, s := range a.Steps {
			assert.NotContains(t, s, fmt.Sprintf("pressing %d of", total+1), line)
			if strings.Contains(s, "anneal it again") {
				assert.Contains(t, a.Steps[i-1], "wash the collar", "%s: a torch on oil", line)
				assert.Contains(t, a.Steps[i+1], "dry it inside and out", "%s: wet metal in the block", line)
			}
		}
		assert.Contains(t, strings.Join(a.Steps, " "), fmt.Sprintf("pressing %d of %d", total, total), line)
		for _, s := range a.Steps[first(0, "set the stone last"):] {
			assert.NotRegexp(t, "solder it|pickle|torch|drill", s, line)
		}
	}
}

// Loads in one digit, in both units, the maker's first.
func TestLoadsInOneDigit(t *testing.T) {
	for units, want := range map[string]string{"": `^about \d kN \(0\.\d US tons\), about \d0? bar \(\d00? psi\)$`, " units inch": `^about 0\.\d US tons \(\d kN\), about \d00? psi \(\d0? bar\)$`} {
		a, err := requeststest.Ask(All(nil), "collar pear 9x6 depth 4 sterling 20ga block demo-pear press 20t"+units)
		require.NoError(t, err)
		for _, f := range a.Figures {
			if f.ID == "press_load" {
				assert.Regexp(t, want, f.Text)
			}
		}
	}
}
