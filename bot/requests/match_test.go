package requests

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

func TestMatchExamples(t *testing.T) { runExamples(t, "match") }

func TestMatchRefusals(t *testing.T) {
	refusals(t,
		"match",
		"match strip 5x1 20ga",
		"match strip 28 20ga",
		"match tubesize 8x4.5",
		"match hole 10.5x8.5 20ga",
		"match block demo-pear oval",
		"match hole 30x28 oval 20ga",
		"match hole 9x9 octagon 20ga",
		"match hole 9 round 20ga lean 0",
	)
}

// What match says of a stone, collar and collet say of the same stone: the
// way there and the way back agree.
func TestMatchAgreesWithCollar(t *testing.T) {
	a, err := askLine(t, "match tube tube-10x1")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, f := range a.Figures {
		if !strings.HasPrefix(f.ID, "fit_") {
			continue
		}
		name := strings.TrimSuffix(strings.ReplaceAll(f.Label, " x ", "x"), " mm")
		back, err := askLine(t, fmt.Sprintf("collar %s sterling tube tube-10x1", name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		stretch := figureOf(t, back, "tube_stretch")
		effort := math.Abs(stretch)
		if stretch > 0 {
			effort *= 2
		}
		if math.Abs(effort-f.Value) > 1e-9 {
			t.Errorf("%s: match %.6f, collar %.6f", name, f.Value, effort)
		}
		checked++
	}
	if checked < 4 {
		t.Errorf("only %d stones were asked back", checked)
	}
	// A strip cut for a stone serves that stone.
	c, err := askLine(t, "collar oval 8x6 sterling 20ga filing 0.3")
	if err != nil {
		t.Fatal(err)
	}
	m, err := askLine(t, fmt.Sprintf("match strip %.4fx%.4f 20ga sterling oval", figureOf(t, c, "strip_length")+1e-3, figureOf(t, c, "strip_height")+1e-3))
	if err != nil || !strings.Contains(m.Headline, "oval 8 x 6 mm") {
		t.Errorf("%v, %v", m, err)
	}
	// A blank cut for a stone fits an offcut of its size and the saw's margin.
	blank, err := askLine(t, "collet oval 8x6 sterling 22ga")
	if err != nil {
		t.Fatal(err)
	}
	m, err = askLine(t, fmt.Sprintf("match offcut %.4fx%.4f 22ga sterling oval", figureOf(t, blank, "blank_width")+1.001, figureOf(t, blank, "blank_height")+1.001))
	if err != nil || !strings.Contains(m.Headline, "oval 8 x 6 mm") {
		t.Errorf("%v, %v", m, err)
	}
}

// Every size of the list can be drawn and is ordered by size within its row.
func TestCalibratedSizesAreStones(t *testing.T) {
	m := matcher{call: nil}
	seen := map[string]bool{}
	for _, s := range stone.CalibratedSizes() {
		id := fmt.Sprintf("%s %v", s.Kind, s.Size)
		if seen[id] {
			t.Errorf("%s is listed twice", id)
		}
		seen[id] = true
		if s.Size.LengthMM < s.Size.WidthMM {
			t.Errorf("%s is wider than long", id)
		}
	}
	m.each(func(stone.Calibrated, outline.Curve, float64, float64) (match, bool) { return match{}, false })
	if m.looked != len(seen) || m.looked < 60 {
		t.Errorf("%d of %d sizes can be drawn", m.looked, len(seen))
	}
}
