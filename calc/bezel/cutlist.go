package bezel

// CutList is how several strips are cut from one length: each eachMM long, with
// a saw cut between two.
type CutList struct {
	Count         int
	EachMM, SawMM float64
}

// TotalMM is the length to buy.
func (l CutList) TotalMM() float64 {
	return float64(l.Count)*l.EachMM + float64(l.Count-1)*l.SawMM
}

// MarksMM are where each strip ends, from the end of the length.
func (l CutList) MarksMM() []float64 {
	marks := make([]float64, l.Count)
	for i := range marks {
		marks[i] = float64(i+1)*l.EachMM + float64(i)*l.SawMM
	}
	return marks
}
