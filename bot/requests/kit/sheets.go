package kit

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/bot/answer"
	"guildhand/bot/requests/words"
	"guildhand/calc/nesting"
	"guildhand/calc/stock"
)

// usualSheet is what pieces are laid on where the workshop lists no sheet.
var usualSheet = stock.Sheet{Name: "sheet", WidthMM: 150, LengthMM: 300}

// sameSheet is by how much two thicknesses may differ and still be one sheet:
// 0.64 mm and 22 ga. Rolled sheet varies by more.
const sameSheet = 0.01

// kitMetal are the blanks of one metal and thickness, and the sheets that they
// are cut from.
type kitMetal struct {
	blanks []*kitBlank
	sheet  stock.Sheet
	layout nesting.Layout
	// low is the lower left corner, on the last sheet, of the rectangle that is
	// cut off it; usedWidthMM and usedLengthMM its sides.
	low                       nesting.Point
	usedWidthMM, usedLengthMM float64
	// usedMM2 is the sheet used in all, piecesMM2 the blanks' area.
	usedMM2, piecesMM2 float64
}

func (m *kitMetal) alloy() stock.Alloy   { return m.blanks[0].alloy }
func (m *kitMetal) thicknessMM() float64 { return m.blanks[0].thicknessMM }
func (m *kitMetal) metal() string        { return m.blanks[0].metal() }

func (m *kitMetal) massG(areaMM2 float64) float64 {
	return stock.MassG(areaMM2*m.thicknessMM(), m.alloy().DensityGPerCM3)
}

// nest sorts the pieces by metal and thickness and lays each lot on sheets.
func (k *kit) nest(ctx context.Context) error {
	for _, b := range k.blanks() {
		i := slices.IndexFunc(k.metals, func(m *kitMetal) bool {
			return m.alloy().Key == b.alloy.Key && math.Abs(m.thicknessMM()/b.thicknessMM-1) < sameSheet
		})
		if i < 0 {
			k.metals = append(k.metals, &kitMetal{blanks: []*kitBlank{b}})
			continue
		}
		k.metals[i].blanks = append(k.metals[i].blanks, b)
	}
	for i, m := range k.metals {
		begin, end := 20+70*i/len(k.metals), 20+70*(i+1)/len(k.metals)
		err := m.nest(ctx, k.sheets(), k.gapMM, func(done, total int) {
			k.progress(begin+(end-begin)*done/total, "laying out "+m.metal())
		})
		if err != nil {
			return k.tooSmall(m, err)
		}
	}
	return nil
}

// sheets are those that the pieces may be laid on.
func (k *kit) sheets() []stock.Sheet {
	c := k.call
	if n := c.Value("sheet").Numbers; len(n) > 0 {
		return []stock.Sheet{{Name: "sheet", WidthMM: min(n[0], n[len(n)-1]), LengthMM: max(n[0], n[len(n)-1])}}
	}
	if c.Shop == nil || len(c.Shop.Sheets) == 0 {
		return []stock.Sheet{usualSheet}
	}
	if name := c.Word("stock"); name != "" {
		for _, s := range c.Shop.Sheets {
			if s.Name == name {
				return []stock.Sheet{s}
			}
		}
	}
	return c.Shop.Sheets
}

// furtherSheet is what each sheet after the first counts for, as a share of the
// metal: a few large ones are less work than many small ones.
const furtherSheet = 0.02

// effort is the metal of whole sheets, mm2, more where there are many of them.
func effort(s stock.Sheet, sheets int) float64 {
	return float64(sheets) * s.WidthMM * s.LengthMM * (1 + furtherSheet*float64(sheets-1))
}

// fewest is how many sheets metal of an area takes at the least where so large
// a share of a sheet becomes blanks.
func fewest(s stock.Sheet, areaMM2, yield float64) int {
	return max(1, int(math.Ceil(areaMM2/(s.WidthMM*s.LengthMM*yield)-1e-9)))
}

// usualYield is what nesting commonly reaches; the sheet that looks best by it
// is tried first.
const usualYield = 0.68

// nest lays the pieces on the sheet, of those given, that takes the least
// metal, whole sheets counted.
func (m *kitMetal) nest(ctx context.Context, sheets []stock.Sheet, gapMM float64, progress func(done, total int)) error {
	var pieces []nesting.Piece
	for _, b := range m.blanks {
		name := shorten(b.typed)
		if b.part != "" {
			name = b.part + " of " + name
		}
		pieces = append(pieces, nesting.Piece{Name: name, Outline: b.outline, Count: b.count})
		m.piecesMM2 += float64(b.count) * b.areaMM2
	}
	sheets = slices.Clone(sheets)
	slices.SortStableFunc(sheets, func(a, b stock.Sheet) int {
		return cmp.Compare(effort(a, fewest(a, m.piecesMM2, usualYield)), effort(b, fewest(b, m.piecesMM2, usualYield)))
	})
	var refused error
	least := math.Inf(1)
	for i, s := range sheets {
		// Other sheets do not yield much more than those before, but for luck.
		yield := 1.0
		if m.layout.Sheets > 0 {
			yield = min(1, 1.1*m.layout.Yield())
		}
		if effort(s, fewest(s, m.piecesMM2, yield)) >= least {
			continue
		}
		layout, err := nesting.Nest(ctx, pieces, nesting.Sheet{WidthMM: s.WidthMM, LengthMM: s.LengthMM}, gapMM+2*chordMM, func(done, total int) {
			progress(i*total+done, len(sheets)*total)
		})
		var unfit *nesting.Error
		switch {
		case errors.As(err, &unfit):
			if refused == nil {
				refused = err
			}
			continue
		case err != nil:
			return err
		}
		if e := effort(s, layout.Sheets); e < least {
			least = e
			m.sheet, m.layout = s, layout
		}
	}
	if m.layout.Sheets == 0 {
		return refused
	}
	m.measure(gapMM)
	return nil
}

// measure finds the rectangle that is cut off the last sheet: the pieces on it,
// with the gap all round.
func (m *kitMetal) measure(gapMM float64) {
	low, high := nesting.Point{X: math.Inf(1), Y: math.Inf(1)}, nesting.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	last := m.layout.Sheets - 1
	for _, pl := range m.layout.Placements {
		if pl.Sheet != last {
			continue
		}
		for _, at := range pl.Apply(m.blanks[pl.Piece].outline) {
			low = nesting.Point{X: min(low.X, at.X), Y: min(low.Y, at.Y)}
			high = nesting.Point{X: max(high.X, at.X), Y: max(high.Y, at.Y)}
		}
	}
	edge := gapMM + chordMM
	m.low = nesting.Point{X: low.X - edge, Y: low.Y - edge}
	m.usedWidthMM, m.usedLengthMM = high.X-low.X+2*edge, high.Y-low.Y+2*edge
	m.usedMM2 = float64(last)*m.sheet.WidthMM*m.sheet.LengthMM + m.usedWidthMM*m.usedLengthMM
}

// tooSmall words why the pieces can't be laid out, with a sheet that will do.
func (k *kit) tooSmall(m *kitMetal, err error) error {
	var unfit *nesting.Error
	if !errors.As(err, &unfit) {
		return err
	}
	side := 0.0
	for _, b := range k.blanks() {
		side = max(side, b.widthMM, b.heightMM)
	}
	// Room for the gap on both sides and for what the grid of the nesting adds.
	side = math.Ceil((side+2*k.gapMM)/5+0.2) * 5
	if side > maxSheetMM {
		return answer.Refuse(k.call.Spec.Example(), "%s", unfit.Problem)
	}
	side = max(side, minSheetMM)
	return answer.Refuse(k.try(kitLines(k.call.Word("pieces")), map[string]string{
		"stock": "", "sheet": words.MM(side) + "x" + words.MM(side),
	}), "%s; of %s", unfit.Problem, m.metal())
}

// upMM rounds a piece of sheet up to 0.1 mm, so that nothing is cut off it.
func upMM(mm float64) float64 { return math.Ceil(mm*10-1e-6) / 10 }

// piece is what is cut off the last sheet, in words: "24.9 x 77.7 mm".
func (k *kit) used(m *kitMetal) string {
	return words.Size(k.call, upMM(m.usedWidthMM), upMM(m.usedLengthMM))
}

// sheetName names a sheet: "class-card 75 x 100 mm".
func (k *kit) sheetName(m *kitMetal) string {
	return m.sheet.Name + " " + words.Size(k.call, m.sheet.WidthMM, m.sheet.LengthMM)
}

// takes says what sheet a metal takes: "a piece 24.9 x 77.7 mm" or "2 whole
// sheets 150 x 300 mm and a piece 80 x 150 mm".
func (k *kit) takes(m *kitMetal) string {
	last := k.used(m)
	switch n := m.layout.Sheets - 1; n {
	case 0:
		return last
	case 1:
		return fmt.Sprintf("a sheet %s and %s", words.Size(k.call, m.sheet.WidthMM, m.sheet.LengthMM), last)
	default:
		return fmt.Sprintf("%d sheets %s and %s", n, words.Size(k.call, m.sheet.WidthMM, m.sheet.LengthMM), last)
	}
}
