package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// pitchWords name the circle on which the middles of a halo's stones lie.
var pitchWords = []string{"pitch circle", "pitch diameter", "pitch dia", "pcd", "bolt circle", "drilling circle", "hole circle"}

// pitchMM is the diameter of the circle on which the middles of n stones lie evenly.
func pitchMM(n, stone, gap float64) float64 { return (stone + gap) / math.Sin(math.Pi/n) }

// pitchCircle tells the circle on which the middles of a number of stones lie, which nothing
// else decides than their size and gaps; of several numbers it tells each.
func (m *message) pitchCircle(r Reading) (Reading, bool) {
	if !m.says(pitchWords...) || r.Outcome == Request && r.Request == "halo" && r.Options["size"] != "" && r.Options["with"] != "" {
		return Reading{}, false
	}
	var numbers []float64
	var stone, gap *quantity
	for _, q := range m.found {
		whole := q.value == math.Trunc(q.value)
		switch {
		case q.measure == size && m.countsStones(q):
			numbers = append(numbers, q.sides[0])
			stone = &quantity{value: q.sides[1]}
		case q.measure != length && q.measure != bare && q.measure != count:
			return Reading{}, false
		case q.measure != length && whole && q.value >= 5 && q.value <= 80:
			if !slices.Contains(numbers, q.value) {
				numbers = append(numbers, q.value)
			}
		case q.measure == count || !whole && q.value > 4:
			// "17.3 stones", or how wide it came
		case q.value < 0.7 && gap == nil:
			gap = q
		case q.value >= 0.7 && q.value <= 6 && stone == nil:
			stone = q
		default:
			return Reading{}, false
		}
	}
	if stone == nil || len(numbers) == 0 || len(numbers) > 4 {
		return Reading{}, false
	}
	apart := usualGap
	switch {
	case gap != nil:
		apart = gap.value
	case m.says("touch", "touching"):
		apart = 0
	}
	var parts []string
	for _, n := range numbers {
		parts = append(parts, fmt.Sprintf("%s stones: %s", plain(n), mm(pitchMM(n, stone.value, apart))))
	}
	grows := ""
	if len(numbers) == 2 {
		by := pitchMM(numbers[1], stone.value, apart) - pitchMM(numbers[0], stone.value, apart)
		grows = fmt.Sprintf(" The second is %s %s.", mm(math.Abs(by)), whichWay(by, "larger", "smaller"))
	}
	return worked("pitch circle of a halo", "chords of a circle; where no gap is told, 0.1 mm: common practice, no source",
		fmt.Sprintf("Diameter of the circle through the middles of the stones: %s%s It is (stone + gap) / sin(180 degrees / number), with stones of %s and gaps of %s.", inAll(parts), grows, mm(stone.value), mm(apart)))
}

// residualWords say that a figure is what was left over, and no gap between two stones.
var residualWords = []string{"residual", "leftover", "remaining", "remains", "left", "rest"}

// residualGap shares what a number of stones leaves over between their gaps.
func (m *message) residualGap(r Reading) (Reading, bool) {
	n := parse(r.Options["count"])
	if r.Outcome != Request || r.Request != "halo" || n < 3 || r.Options["gap"] == "" {
		return Reading{}, false
	}
	for _, q := range m.found {
		if mmOfAny(r.Options["gap"]) != q.value || !m.saysOneBetween(q.first-5, q.next+3, residualWords...) {
			continue
		}
		r.Options = maps.Clone(r.Options)
		delete(r.Options, "gap")
		r.Verdict = fmt.Sprintf("Share the %s evenly: that is %s more in each of the %s gaps. Up to about 0.1 mm each is hardly seen.", mm(q.value), mm(q.value/n), plain(n))
		return r, true
	}
	return Reading{}, false
}

// stonesGoRound reads small stones round a stone where the rules found its bezel: how many go
// round is asked, and one figure is small enough for them.
func (m *message) stonesGoRound(r Reading) (Reading, bool) {
	if r.Request != "bezel" || r.Verdict != "" || !m.says("how many", "number of", "how far out") || !m.says("go round", "go around", "fit round", "fit around", "round it", "around it", "round a", "around a", "around an", "round an", "around the", "round the", "surround") {
		return Reading{}, false
	}
	m.release()
	f, ok := m.ringFiguresOf("halo")
	if !ok || f.one("size") == nil || f.one("with") == nil {
		return Reading{}, false
	}
	read, ok := f.halo()
	return read, ok && read.Outcome == Request
}

// diamondsByPoints takes the small stones of a halo by their weight, "2 point diamonds", as
// what a round brilliant of that weight is wide: hundredths of a carat are no mm.
func (m *message) diamondsByPoints(r Reading) (Reading, bool) {
	const perMM3 = 0.0061 * 0.61 // carat of a round brilliant; see weightOfMelee
	if r.Request != "halo" || r.Options["size"] == "" {
		return Reading{}, false
	}
	for _, q := range m.found {
		points, typed := q.value, strings.TrimSpace(q.typed(m))
		next := m.at(q.next).text
		switch {
		case q.measure == carat && q.value <= 0.25 && !m.says("tcw", "ctw", "total", "in all", "altogether"):
			points = 100 * q.value
		case (q.measure == bare || q.measure == count) && q.value <= 25 && contains([]string{"point", "points", "pointer", "pointers", "pt", "pts", "pters"}, next):
		default:
			continue
		}
		if r.Outcome != Request && r.Unplaced != typed && r.Missing != "with" {
			return Reading{}, false
		}
		wide := math.Round(100*math.Cbrt(points/100/perMM3)) / 100
		d := m.draft("halo")
		d.options = maps.Clone(r.Options)
		d.say("with", plain(wide))
		if next == "pt" || next == "pts" {
			delete(d.options, "alloy")
		}
		d.notes = notesWithout(r.Notes, q.typed(m))
		d.note("a round brilliant diamond of %s points is about %s wide, other stones differ; measure yours", plain(points), mm(wide))
		return d.asDrafted(), true
	}
	return Reading{}, false
}
