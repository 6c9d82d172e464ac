package sentence

import "math"

// Whole numbers without a unit that may be a gauge, and that may be how many prongs
// there are.
const (
	lowestGauge, highestGauge = 14, 34
	fewestProngs, mostProngs  = 3, 12
)

// bindNumber reads a whole number without a unit as the gauge of the metal or as how
// many prongs there are, where the words round it make that the likeliest.
func (m *message) bindNumber(request, role string, q *quantity) {
	if q.measure != bare || q.unit || q.value != math.Trunc(q.value) {
		return
	}
	switch {
	case role == "thickness" && q.value >= lowestGauge && q.value <= highestGauge && m.of(gauge) == nil && m.with("thickness") == nil && makesPiece[request]:
		q.measure, q.shown = gauge, q.shown+"ga"
		m.assume("%s is read as the metal's gauge; say mm if it is not", plain(q.value))
	case role == "number" && request == "prongs" && q.value >= fewestProngs && q.value <= mostProngs && m.counts("prongs") == nil:
		q.measure, q.thing = count, "prongs"
	}
}
