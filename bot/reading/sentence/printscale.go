package sentence

import (
	"fmt"
	"math"
	"slices"
)

// printScale tells how far off a print is whose check bar was measured: "the bar is 49.2, not
// 50". The tracing card has its own answer.
func (m *message) printScale() (Reading, bool) {
	if !m.beginsTalk() || m.says("card") || !m.says("print", "printed", "prints", "printer", "printout", "copier", "photocopier", "template", "pattern") || !m.says("bar", "line", "check", "scale", "ruler") {
		return Reading{}, false
	}
	bars := m.lengths()
	if len(bars) != 2 || len(m.found) != 2 {
		return Reading{}, false
	}
	const shortest, farthest = 15.0, 0.25
	meant, is := m.meantAndMeasured(bars)
	if min(meant, is) < shortest || math.Abs(is/meant-1) > farthest || is == meant {
		return Reading{}, false
	}
	share := 100 * is / meant
	m.useAll()
	return worked("print off scale", "measured / meant", fmt.Sprintf("The print is at %.1f %%: every length on it is %.1f %% %s. Don't cut from it. Print again at 100 %%, with \"fit to page\" off, and measure the bar before you cut. To correct this sheet on a copier instead, copy it at %.1f %% and measure the copy.",
		share, math.Abs(share-100), whichWay(is-meant, "too long", "too short"), 100*meant/is))
}

// meantAndMeasured are the length that a bar is meant to have, by the words before it or the
// rounder figure, and the one that was measured.
func (m *message) meantAndMeasured(bars []*quantity) (meant, is float64) {
	for i, q := range bars {
		if m.saysOneBetween(max(0, q.first-3), q.first, "not", "instead", "should", "supposed", "meant", "ought") {
			return q.value, bars[1-i].value
		}
	}
	round := slices.IndexFunc(bars, func(q *quantity) bool { return math.Mod(q.value, 25) == 0 || math.Mod(q.value, 25.4) == 0 })
	if round < 0 {
		return 0, 0
	}
	return bars[round].value, bars[1-round].value
}
