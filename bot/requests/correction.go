package requests

import (
	"context"
	"fmt"
	"math"
	"strconv"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/calc/development"
	"guildhand/calc/setting"
)

// sameSheetMM is how near two thicknesses must be to count as the same sheet:
// less than half the step between two neighbouring gauges down to 30 ga.
const sameSheetMM = 0.012

// neutral is where in its thickness the metal keeps its length: as a share of
// it, of the wall and of its sharp corners, and what saw and file take.
type neutral struct {
	factor, corner, kerfMM float64
}

// neutralOf settles it: as typed, as measured trials of this maker tell, or the
// usual value, which is less where corners are bent sharply. said is what was
// assumed.
func neutralOf(ctx context.Context, c *catalogue.Call, alloyKey string, thicknessMM float64, sharp bool) (n neutral, said []string) {
	if k := c.Number("neutral"); k > 0 {
		return neutral{factor: k, corner: k, kerfMM: c.Number("kerf")}, nil
	}
	if kept, ok := keptCorrection(ctx, c, alloyKey, thicknessMM); ok && !c.Args.Has("kerf") {
		factor, kerf := hundredThousandths(kept.NeutralFactor), hundredThousandths(kept.KerfMM)
		c.Settle("neutral", numbered(factor))
		c.Settle("kerf", numbered(kerf))
		return neutral{factor: factor, corner: factor, kerfMM: kerf}, []string{correctionWords(kept)}
	}
	n = usualNeutral(sharp)
	n.kerfMM = c.Number("kerf")
	if sharp {
		return n, []string{fmt.Sprintf("neutral factor 0.5, corners %g (a handbook value for soft copper and brass)", tightBend)}
	}
	return n, []string{"neutral factor 0.5 (gentle bends: common practice, no source)"}
}

// usualNeutral is where the metal keeps its length for all that is known without
// a trial; less in corners that are bent sharply.
func usualNeutral(sharp bool) neutral {
	if sharp {
		return neutral{factor: 0.5, corner: tightBend}
	}
	return neutral{factor: 0.5, corner: 0.5}
}

// bendsSharply reports whether the collet's corners are bent tighter than twice
// the metal.
func bendsSharply(s setting.Spec) bool {
	return !s.Stone.Smooth() && s.Corners == development.Bent && s.InsideRadiusMM < 2*s.ThicknessMM
}

// hundredThousandths rounds what trials have taught so that the answer's line
// can carry it: far finer than any blank is cut.
func hundredThousandths(v float64) float64 { return math.Round(v*1e5) / 1e5 }

func numbered(v float64) catalogue.Value {
	return catalogue.Value{Text: strconv.FormatFloat(v, 'f', -1, 64), Number: v}
}

// keptCorrection finds the asker's correction for a sheet. A daybook that
// can't be read counts as one without corrections: a blank without a
// correction is better than none, and the answer then says that it used the
// usual factor.
func keptCorrection(ctx context.Context, c *catalogue.Call, alloyKey string, thicknessMM float64) (catalogue.Correction, bool) {
	if c.Corrections == nil {
		return catalogue.Correction{}, false
	}
	all, err := c.Corrections(ctx)
	if err != nil {
		return catalogue.Correction{}, false
	}
	best, found := catalogue.Correction{}, false
	for _, k := range all {
		off := math.Abs(k.ThicknessMM - thicknessMM)
		if k.Alloy == alloyKey && off <= sameSheetMM && (!found || off < math.Abs(best.ThicknessMM-thicknessMM)) {
			best, found = k, true
		}
	}
	return best, found
}

// correctionWords says what is used and how to drop it.
func correctionWords(k catalogue.Correction) string {
	return fmt.Sprintf("neutral factor %.3f and kerf %s mm from your %s of %s %s mm (to drop it: tune drop id %d)",
		k.NeutralFactor, words.MM(k.KerfMM), trialCount(len(k.Trials)), k.Alloy, words.MM(k.ThicknessMM), k.ID)
}

func trialCount(n int) string {
	if n == 1 {
		return "trial"
	}
	return fmt.Sprintf("%d trials", n)
}
