package requests

import (
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/calc/fit"
	"guildhand/calc/tuning"
)

// sheetShare is how far a sheet's thickness may be off its gauge, as a share of it,
// one standard deviation. Common practice, no source: mills publish tolerances by
// width and temper, and none was found for jewellers' sheet.
const sheetShare = 0.03

// fitOf is how far the fit may be off. A line that carries a factor of its own, as
// the trials of a bench or the maker gave it, leaves what one trial leaves.
func fitOf(u colletUsed) fit.Tolerance {
	return u.Fit(doubts(u.ThicknessMM, u.tried))
}

// doubts are what is uncertain before a piece is made of sheet this thick.
func doubts(thicknessMM float64, tried bool) fit.Doubts {
	d := fit.Doubts{ThicknessMM: sheetShare * thicknessMM, CalipersMM: tuning.UsualCalipersMM,
		Factor: tuning.FactorSpread, KerfMM: tuning.KerfSpreadMM}
	if tried {
		d.Factor, d.KerfMM = 0, tuning.TriedRimMM
	}
	return d
}

// checkFirst names the measure that a fit depends on most.
func checkFirst(cause fit.Cause) string {
	switch cause {
	case fit.SheetThickness:
		return "the sheet's thickness"
	case fit.NeutralLine:
		return "a trial piece (tune)"
	case fit.Kerf:
		return "the rim edge as cut"
	}
	return "the stone"
}

// fitFigure is the tolerance line.
func fitFigure(c *catalogue.Call, u colletUsed) answer.Figure {
	t := fitOf(u)
	return answer.Figure{ID: "fit_tolerance", Label: "fit, good to about", Value: t.AcrossMM, Unit: answer.MM, Main: true,
		Text: fmt.Sprintf("%s across; first check %s", words.Length(c, t.AcrossMM), checkFirst(t.Largest))}
}

// doubtWords say what a fit's tolerance is made of.
func doubtWords(c *catalogue.Call, tried bool) string {
	bends := fmt.Sprintf("a neutral factor within %.2f and a kerf within %s", tuning.FactorSpread, words.Length(c, tuning.KerfSpreadMM))
	if tried {
		bends = fmt.Sprintf("a blank whose factor and kerf were tried (%s of rim left)", words.Length(c, tuning.TriedRimMM))
	}
	return fmt.Sprintf("sheet within %.0f %% of its thickness, %s, calipers within %s (each common practice, no source; about two pieces in three come closer)",
		100*sheetShare, bends, words.Length(c, tuning.UsualCalipersMM))
}

// fitStep says what the tolerance is made of.
func fitStep(c *catalogue.Call, m *making, u colletUsed) {
	t := fitOf(u)
	m.add("The fit is good to about %s across: %s. Most comes from one: first check %s, which adds %s.",
		words.Length(c, t.AcrossMM), doubtWords(c, u.tried), checkFirst(t.Largest), words.Length(c, t.LargestMM))
	if u.LedgeMM > 0 && t.AcrossMM/2 > u.LedgeMM-u.ClearanceMM {
		m.add("That is more than the ledge can take: measure a trial piece before you cut the metal, or leave a wider ledge.")
	}
}
