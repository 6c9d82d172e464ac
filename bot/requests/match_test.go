package requests

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
)

func TestMatchExamples(t *testing.T) { requeststest.Examples(t, All(nil), "match") }

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
	a, err := requeststest.Ask(All(nil), "match tube tube-10x1")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, f := range a.Figures {
		if !strings.HasPrefix(f.ID, "fit_") {
			continue
		}
		name := strings.TrimSuffix(strings.ReplaceAll(f.Label, " x ", "x"), " mm")
		back, err := requeststest.Ask(All(nil), fmt.Sprintf("collar %s sterling tube tube-10x1", name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		stretch := requeststest.Value(t, back, "tube_stretch")
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
	c, err := requeststest.Ask(All(nil), "collar oval 8x6 sterling 20ga filing 0.3")
	if err != nil {
		t.Fatal(err)
	}
	m, err := requeststest.Ask(All(nil), fmt.Sprintf("match strip %.4fx%.4f 20ga sterling oval", requeststest.Value(t, c, "strip_length")+1e-3, requeststest.Value(t, c, "strip_height")+1e-3))
	if err != nil || !strings.Contains(m.Headline, "oval 8 x 6 mm") {
		t.Errorf("%v, %v", m, err)
	}
	// A blank cut for a stone fits an offcut of its size and the saw's margin.
	blank, err := requeststest.Ask(All(nil), "collet oval 8x6 sterling 22ga")
	if err != nil {
		t.Fatal(err)
	}
	m, err = requeststest.Ask(All(nil), fmt.Sprintf("match offcut %.4fx%.4f 22ga sterling oval", requeststest.Value(t, blank, "blank_width")+1.001, requeststest.Value(t, blank, "blank_height")+1.001))
	if err != nil || !strings.Contains(m.Headline, "oval 8 x 6 mm") {
		t.Errorf("%v, %v", m, err)
	}
}

// match offers a stone of one number as collet draws it.
func TestMatchAndColletAgreeOnOneNumber(t *testing.T) {
	for _, kind := range outline.Kinds() {
		if !slices.Contains(kind.Describe().CommonSizes, outline.Size{WidthMM: 6}) {
			continue
		}
		collet, err := requeststest.Ask(All(nil), fmt.Sprintf("collet %s 6 depth 3.5 sterling 22ga", kind))
		require.NoError(t, err)
		match, err := requeststest.Ask(All(nil), fmt.Sprintf("match offcut %.3fx%.3f 22ga sterling %s allowance 1.75",
			requeststest.Value(t, collet, "blank_width")+2, requeststest.Value(t, collet, "blank_height")+2, kind))
		require.NoError(t, err)
		stone, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{WidthMM: 6}})
		require.NoError(t, err)
		size := stone.Size()
		want := fmt.Sprintf("%s %s", kind, holeSize(&catalogue.Call{}, size))
		assert.Contains(t, fmt.Sprint(match.Headline, match.Figures, match.Steps), want)
	}
}
