package template

import "strings"

// Paper is a size of paper to print on.
type Paper int

// Papers.
const (
	A4 Paper = iota
	Letter
)

// PaperNamed finds a paper by its name, in any case.
func PaperNamed(name string) (Paper, bool) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "a4":
		return A4, true
	case "letter":
		return Letter, true
	}
	return A4, false
}

// String is the paper's name.
func (p Paper) String() string {
	if p == Letter {
		return "Letter"
	}
	return "A4"
}

// sizeMM is the size of the sheet, upright: ISO 216, or 8.5 by 11 in.
func (p Paper) sizeMM() (w, h float64) {
	if p == Letter {
		return 8.5 * 25.4, 11 * 25.4
	}
	return 210, 297
}

// Measures on paper, mm.
const (
	// paperPen makes cut lines 0.3 mm wide, the others 0.15 to 0.2 mm.
	paperPen = 0.05
	// paperEm is the lettering of the drawing, capitals 1.8 mm high; paperTextEm
	// that of texts.
	paperEm     = 2.5
	paperTextEm = 3.4
	paperHeadEm = 4.6
	paperSample = 14.0
	// printMargin is left white all round: no common printer reaches the edge.
	printMargin = 10.0
	// footerHeight holds the check bar and the page's label.
	footerHeight = 13.0
	// inset keeps half a line's width, and ticks, inside the margin.
	inset = 0.6
)

// checkBar is the bar to measure on a page, in the unit of the rulers that lie
// where the paper does.
type checkBar struct {
	lengthMM, blockMM float64
	words             string
}

func (p Paper) checkBar() checkBar {
	if p == Letter {
		return checkBar{2 * 25.4, 25.4 / 4, "2.00 in (50.8 mm)"}
	}
	return checkBar{50, 10, "50.0 mm"}
}
