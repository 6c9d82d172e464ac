package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/intent"
	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

// Some verdicts need two figures of a message: a prong is thin or wide for its stone, a
// seat is deep for its wall. They go before the piece, which nobody asked for.

// weighingWords ask what to think of a figure, where all words ask to know something.
var weighingWords = []string{"enough", "suffice", "sufficient", "adequate", "acceptable", "allowed", "ok", "okay", "too", "normal", "sloppy", "overkill", "excessive", "chunky", "flimsy", "skimpy", "your view", "your opinion", "what do you think", "good idea", "bad idea"}

// mayJudge is the chance of an explanation from which such words ask for a verdict.
const mayJudge = 0.5

// weighsUp reports whether a message asks for a verdict on its figures.
func (m *message) weighsUp() bool {
	return m.asksWhether() || m.endsInEnough() || m.says("adequate", "sufficient", "suffice") || m.chance(intent.Explanation) >= mayJudge && m.says(weighingWords...)
}

// wholeByItself reports whether a message asks for a verdict on its own figures also after
// another piece: it is long, or it has its stone.
func (m *message) wholeByItself() bool {
	return m.whole() || m.words() >= wholeQuestion && (m.hasPiece() || m.besideStone() != nil)
}

// judgedBeside says whether one figure will do beside another.
func (m *message) judgedBeside() (Reading, bool) {
	if (m.context.Last != nil || m.context.Asked != nil) && !m.wholeByItself() || m.figureCount() < 2 || m.says(wantsFigures...) || !m.weighsUp() {
		return Reading{}, false
	}
	for _, judge := range []func(*message) (Reading, bool){(*message).seatOfWall, (*message).prongToJudge} {
		if r, ok := judge(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// mayBePiece is the chance of an explanation under which prongs are to be worked out.
const mayBePiece = 0.3

// thickest is the largest figure in mm that may be a wall's or a prong's.
const thickest = 2.6

// thinFigures are the figures of a message that may be of metal, in mm, each with the
// quantity that says it. A section says two.
func (m *message) thinFigures() (all []thinFigure) {
	for _, q := range m.found {
		switch q.measure {
		case gauge, length, bare:
			if mm := thicknessOf(q); mm > 0 && mm <= thickest {
				all = append(all, thinFigure{mm, q})
			}
		case size:
			if slices.Max(q.sides) <= thickest {
				for _, side := range q.sides {
					all = append(all, thinFigure{side, q})
				}
			}
		}
	}
	return all
}

type thinFigure struct {
	mm float64
	q  *quantity
}

// deepestSeat and usualSeat are how much of a wall a seat may take: see the fact of
// the bearing, which names their sources.
const (
	deepestSeat = 0.5
	usualSeat   = 0.4
	flatSeat    = 0.2
)

// seatOfWall says whether a seat is too deep for its wall.
func (m *message) seatOfWall() (Reading, bool) {
	metal := m.thinFigures()
	if !m.says("seat", "bearing", "ledge", "rebate") || !m.says("wall", "sheet", "metal", "thick", "strip", "tube", "prong", "prongs", "claw", "claws") || len(metal) != 2 || metal[0].q == metal[1].q || metal[0].mm == metal[1].mm || metal[0].q.unit != metal[1].q.unit && metal[0].q.measure == metal[1].q.measure {
		return Reading{}, false
	}
	seat, wall := metal[0], metal[1]
	if seat.mm > wall.mm {
		seat, wall = wall, seat
	}
	share := seat.mm / wall.mm
	said, of := strings.TrimSpace(seat.q.typed(m)), strings.TrimSpace(wall.q.typed(m))
	rule := fmt.Sprintf("A seat of about %.0f %% is usual and half the wall the most: here %s deep or less. For this seat take a wall of %s or more.",
		100*usualSeat, mm(deepestSeat*wall.mm), mm(seat.mm/deepestSeat))
	verdict := ""
	switch {
	case share > deepestSeat+0.02:
		verdict = fmt.Sprintf("No, a seat of %s is too deep for a wall of %s: it takes %.0f %% of it, and the thin rest, %s, bends and breaks.", said, of, 100*share, mm(wall.mm-seat.mm))
	case share > deepestSeat-0.03:
		verdict = fmt.Sprintf("It depends: a seat of %s takes %.0f %% of a wall of %s, which is the most that it bears; %s is left.", said, 100*share, of, mm(wall.mm-seat.mm))
	case share < flatSeat:
		verdict = fmt.Sprintf("It depends: a seat of %s is only %.0f %% of a wall of %s, so the stone has little to sit on.", said, 100*share, of)
	default:
		verdict = fmt.Sprintf("Yes, a seat of %s is adequate in a wall of %s: it takes %.0f %% of it, and %s is left.", said, of, 100*share, mm(wall.mm-seat.mm))
	}
	return Reading{Outcome: Explanation, Topic: "limit: seat of the wall", Text: verdict + " " + rule, Source: "about 40 % cut: GIA quality benchmark for prongs; half: trade guide"}, true
}

// A prong is about an eighth of the stone wide, as prongs takes it, within these; what
// differs from that by more than these shares is thin or wide.
const (
	prongShare                    = 1.0 / 8
	leastProng, mostProng         = 0.7, 1.6
	thinProng, slenderProng       = 0.7, 0.9
	broadProng                    = 1.6
	smallestAcross, largestAcross = 2.0, 60.0
)

// prongToJudge says it of prongs that are hardly to be worked out.
func (m *message) prongToJudge() (Reading, bool) {
	if m.chance(intent.Explanation) < mayBePiece {
		return Reading{}, false
	}
	return m.prongOfStone()
}

// prongOfStone says whether prongs are thin or wide for their stone.
func (m *message) prongOfStone() (Reading, bool) {
	across, metal := m.stoneAcross(), m.thinFigures()
	if across == 0 || len(metal) == 0 || len(metal) > 2 || m.of(gauge) != nil || !m.says("prong", "prongs", "claw", "claws") || m.says("seat", "height", "tall", "long") {
		return Reading{}, false
	}
	usual := min(max(across*prongShare, leastProng), mostProng)
	width := metal[0].mm
	said := strings.TrimSpace(metal[0].q.typed(m))
	for _, f := range metal[1:] {
		width = min(width, f.mm)
		if f.q != metal[0].q {
			said += " and " + strings.TrimSpace(f.q.typed(m))
		}
	}
	rule := fmt.Sprintf("About %s is usual for a stone of %s, an eighth of it, and not under %s in daily wear; for a heavy stone take six prongs rather than four.", mm(usual), mm(across), mm(leastProng))
	verdict := ""
	switch {
	case width < thinProng*usual:
		verdict = fmt.Sprintf("No, %s is too thin for prongs of a stone of %s: they bend open, catch and lose the stone.", said, mm(across))
	case width < slenderProng*usual:
		verdict = fmt.Sprintf("It depends: %s is thin for prongs of a stone of %s, enough for an earring or a pendant and little for a ring in daily wear.", said, mm(across))
	case width > broadProng*usual:
		verdict = fmt.Sprintf("It depends: %s is heavy for prongs of a stone of %s: hard to push over, and they hide the stone.", said, mm(across))
	default:
		verdict = fmt.Sprintf("Yes, %s is enough for prongs of a stone of %s.", said, mm(across))
	}
	return Reading{Outcome: Explanation, Topic: "limit: prong of the stone", Text: verdict + " " + rule, Source: "an eighth of the stone: " + knowledge.CommonPractice}, true
}

// stoneAcross is how long the one stone of a message is, in mm, 0 where it is not said
// or said twice.
func (m *message) stoneAcross() (across float64) {
	for _, q := range m.found {
		longest := 0.0
		switch q.measure {
		case size:
			longest = slices.Max(q.sides)
		case length, bare:
			longest = q.value
		case carat:
			longest = m.widthOf(q.value)
		}
		if longest < smallestAcross || longest <= thickest || longest > largestAcross || q.thing != "" {
			continue
		}
		if across != 0 && math.Abs(across-longest) > 0.01 {
			return 0
		}
		across = longest
	}
	return across
}

// widthOf is how wide a round stone of so many carats is, of the gem that is named or
// else a diamond.
func (m *message) widthOf(carats float64) float64 {
	key := "diamond"
	if gems := m.meaning("gem:"); len(gems) > 0 {
		key = gems[0]
	}
	gem, known := stone.GemByKey(key)
	if !known {
		return 0
	}
	size, _, err := stone.SizeFromCarat(outline.Round, carats, 1, gem)
	if err != nil {
		return 0
	}
	return math.Round(10*size.WidthMM) / 10
}
