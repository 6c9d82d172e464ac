package requests

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
)

func TestBezelExamples(t *testing.T) { requeststest.Examples(t, All(nil), "bezel") }

// refusals checks that each line is refused with a line to try that works.
func refusals(t *testing.T, lines ...string) {
	t.Helper()
	for _, line := range lines {
		_, err := requeststest.Ask(All(nil), line)
		r, ok := answer.AsRefusal(err)
		if !ok {
			t.Errorf("%s: %v", line, err)
			continue
		}
		if r.Problem == "" || r.Try == "" {
			t.Errorf("%s: %q, try %q", line, r.Problem, r.Try)
			continue
		}
		if _, err := requeststest.Ask(All(nil), r.Try); err != nil {
			t.Errorf("%s: %q; what it says to try, %q, gives %v", line, r.Problem, r.Try, err)
		}
	}
}

func TestBezelRefusals(t *testing.T) {
	refusals(t,
		"bezel oval 10x8 dome 6 edge 50",
		"bezel oval 10x8 dome 3 grip 4.5",
		"bezel round 3 dome 1 bearing step stepthick 3mm",
		"bezel oval 10x8 seam point",
		"bezel oval 10x8 edge 75",
	)
}

// A round bezel by hand, and every outline answered.
func TestBezelOfEveryOutline(t *testing.T) {
	a, err := requeststest.Ask(All(nil), "bezel round 10 dome 3 fine-silver 0.4mm clearance 0.05 filing 0.3")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := requeststest.Value(t, a, "strip_length"), math.Pi*(10+0.1+0.4); math.Abs(got-want) > 1e-9 {
		t.Errorf("strip %.6f mm, want %.6f", got, want)
	}
	if got := requeststest.Value(t, a, "cut_length") - requeststest.Value(t, a, "strip_length"); math.Abs(got-0.3) > 1e-9 {
		t.Errorf("%.6f mm to file, want 0.3", got)
	}
	for kind, line := range requeststest.ColletOfEveryOutline() {
		if kind == outline.Measured {
			line = "collet measured points 0,4.2 1.6,3.6 2.7,2.1 3.1,0 2.7,-2.1 1.6,-3.6 0,-4.2 -1.6,-3.6 -2.7,-2.1 -3.1,0 -2.7,2.1 -1.6,3.6 depth 3.6 sterling 22ga"
		}
		line = "bezel" + line[len("collet"):]
		line = line[:len(line)-len(" depth 3.6 sterling 22ga")] + " dome 2.2 sterling 28ga"
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Errorf("%s: %v", line, err)
			continue
		}
		for _, f := range requeststest.Unfit(a) {
			t.Errorf("%s: %s", kind, f)
		}
		if lengths := svgLengths(t, a); math.Abs(lengths["rim"]-requeststest.Value(t, a, "cut_length")) > 1e-5 {
			t.Errorf("%s: the drawn strip is %.6f mm long, the figure %.6f", kind, lengths["rim"], requeststest.Value(t, a, "cut_length"))
		}
	}
}

// 400 random bezels as they are typed, on stones from 3 to 60 mm: none whose
// wall is lower than a third of the stone's height, or than what can be rubbed
// over, without a note that says so.
func TestNoBezelTooLowUnsaid(t *testing.T) {
	r := rand.New(rand.NewPCG(20261125, 11))
	answered, short := 0, 0
	for range 400 {
		width := 3 + 57*r.Float64()
		dome, thick, girdle := width*(0.12+0.38*r.Float64()), 0.25+0.35*r.Float64(), 0.0
		line := fmt.Sprintf("bezel round %.2f dome %.2f sterling %.2fmm", width, dome, thick)
		if r.IntN(3) == 0 {
			girdle = 0.5 * dome * r.Float64()
			line += fmt.Sprintf(" girdle %.2f", girdle)
		}
		if r.IntN(2) == 0 {
			line += fmt.Sprintf(" edge %.0f", 50*r.Float64())
		}
		if r.IntN(4) == 0 {
			line += fmt.Sprintf(" grip %.2f", 0.05+0.6*r.Float64())
		}
		a, err := requeststest.Ask(All(nil), line)
		if _, refused := answer.AsRefusal(err); refused {
			continue
		}
		require.NoError(t, err, line)
		answered++
		wall := requeststest.Value(t, a, "wall_height")
		assert.InDelta(t, wall+0.2, requeststest.Value(t, a, "strip_height"), 1e-9, "%s: truing", line)
		least := math.Max(dome/3, girdle+math.Max(0.5, 1.5*thick)) - 0.015 // typed to 0.01 mm
		said := slices.ContainsFunc(a.Notes, func(n string) bool { return strings.HasPrefix(n, "low: ") || strings.HasPrefix(n, "too low to hold: ") })
		if wall < least {
			short++
			assert.True(t, said, "%s: %.2f mm of wall, least %.2f", line, wall, least)
		}
	}
	assert.Greater(t, answered, 380)
	assert.Greater(t, short, 10, "no short wall was tried")
}
