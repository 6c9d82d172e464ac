package sentence

// Who shows a sum of his own, "59.5 plus 6.3, that is 65.8 mm", tells its parts too: none of
// them is a measure of the piece, which is told beside it.

// ownOperand is the role of a part of such a sum.
const ownOperand = "own operand"

var (
	// sumSigns join the parts of a sum.
	sumSigns = []string{"plus", "times", "multiplied", "+", "*", "pi"}
	// insideSum are other words between its parts.
	insideSum = []string{"x", "and", "by", "the", "a", "mean", "average", "inside", "outside", "inner", "outer", "diameter", "circumference", "thickness", "stone", "of", "as", "(", ")", "mm"}
	// toResult stand between a sum and its result.
	toResult = []string{"that", "thats", "that's", "which", "is", "gives", "gave", "equals", "=", "makes", "comes", "came", "to", "so", "i", "get", "got", "about", "or", ",", ":", "it", "giving", "i.e", "ie", "e", "."}
	// bindsSum must be among them.
	bindsSum = []string{"is", "gives", "gave", "equals", "=", "makes", "comes", "came", "get", "got", "thats", "that's", "giving", "i.e", "ie"}
)

// bindOwnSums marks what follows from a sum that is told, and its parts.
func (m *message) bindOwnSums() {
	for _, q := range m.found {
		if !q.mayBeOwn() {
			continue
		}
		parts, ok := m.sumBefore(q)
		if !ok {
			continue
		}
		q.role = ownResult
		for _, part := range parts {
			part.role = ownOperand
		}
		if m.hasFigureOfPiece(q) {
			continue
		}
		q.role = "" // without its sum nothing is told of the piece
		for _, part := range parts {
			part.role = ""
		}
	}
}

// sumBefore lists the figures of the sum that a figure is the result of.
func (m *message) sumBefore(q *quantity) (parts []*quantity, ok bool) {
	i, bound := q.first-1, false
	for i >= 0 && !m.inFigure(i) && contains(toResult, m.at(i).text) {
		bound = bound || contains(bindsSum, m.at(i).text)
		i--
	}
	signs := 0
	bound = bound || m.at(i).text == "pi" // "14.2 x pi = 44.6"
	for ; bound && i >= 0; i-- {
		word := m.at(i).text
		switch part := m.figureAt(i); {
		case part != nil && part.mayBeOwn():
			parts = append(parts, part)
			i = part.first
		case contains(sumSigns, word):
			signs++
		case !contains(insideSum, word):
			return parts, signs > 0
		}
	}
	return parts, signs > 0
}

// figureAt is the figure that a token belongs to, nil for none.
func (m *message) figureAt(i int) *quantity {
	for _, q := range m.found {
		if q.first <= i && i < q.next {
			return q
		}
	}
	return nil
}
