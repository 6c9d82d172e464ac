package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/reading/sentence"
	"guildhand/calc/units"
)

// Who has worked a figure out already wants to hear whether it is right. It is compared with
// the answer's own figure of its kind.

// resultFigures are the figures of a request that a maker works out by himself, the one that
// is meant first at the beginning.
var resultFigures = map[string][]string{
	"band":     {"blank_length", "circumference", "blank_mass"},
	"bezel":    {"strip_length", "cut_length"},
	"collar":   {"mid_perimeter", "strip_length", "mass"},
	"collet":   {"blank_width", "rim_length", "base_length", "slant", "blank_mass"},
	"prongs":   {"blank_width", "rim_length", "base_length", "slant", "blank_mass"},
	"dome":     {"disc_diameter", "blank_mass"},
	"resize":   {"length_change", "blank_to", "blank_from"},
	"melt":     {"charge_mass", "casting_mass"},
	"weigh":    {"mass"},
	"jumpring": {"wire_length", "wire_per_ring", "mass"},
	"tubeset":  {"stock_length", "length", "tube_outer"},
	"kit":      {"sheet_mass", "blank_mass"},
}

// farOff is the share by which a figure differs that hardly measures the same.
const farOff = 0.35

// verdictOn says whether a figure that the asker has worked out is the answer's, "" where the
// answer has none of its kind.
func verdictOn(told sentence.Told, ans *answer.Answer) string {
	own, ok := nearestResult(told, ans)
	if !ok {
		return ""
	}
	difference := told.Value - own.Value
	switch {
	case math.Abs(difference) <= roundingOf(told, own):
		if first, is := figureOf(ans, "charge_mass"); is && first.ID != own.ID {
			return fmt.Sprintf("It depends: your %s is right for the %s, %s; for the %s I get %s.", told.Typed, own.Label, ans.Show(own), first.Label, ans.Show(first))
		}
		return fmt.Sprintf("Yes: your %s agrees with mine, %s for the %s.", told.Typed, ans.Show(own), own.Label)
	case math.Abs(difference) > farOff*own.Value:
		return ""
	}
	off := own
	off.Value, off.Text = math.Abs(difference), ""
	than := "more"
	if difference < 0 {
		than = "less"
	}
	why, onlyAllowed := whyOff(difference, own, ans)
	verdict := "No"
	if onlyAllowed {
		verdict = "It depends"
	}
	return fmt.Sprintf("%s: I get %s for the %s; your %s is %s %s. %s", verdict, ans.Show(own), own.Label, told.Typed, ans.Show(off), than, why)
}

// roundingOf is by how much two results differ that are the same at the bench: rounding, and
// pi taken as 3.14.
func roundingOf(told sentence.Told, own answer.Figure) float64 {
	least := 0.05
	if _, decimals, has := strings.Cut(strings.Fields(told.Typed + " .")[0], "."); !has {
		least = 0.5 // told in whole ones
	} else if len(decimals) == 1 {
		least = 0.1
	}
	return min(max(least, 0.003*own.Value), 0.02*own.Value)
}

// nearestResult is the figure of an answer that one worked out by the asker most likely is:
// one that it agrees with, else the first that it is not far from.
func nearestResult(told sentence.Told, ans *answer.Answer) (nearest answer.Figure, ok bool) {
	if told.Radius {
		return outerRadius(ans)
	}
	unit := answer.MM
	if told.Mass || slices.Contains([]string{"melt", "weigh", "kit"}, ans.Request) {
		unit = answer.Gram
	}
	for _, id := range resultFigures[ans.Request] {
		f, is := figureOf(ans, id)
		if !is || f.Unit != unit || f.Value <= 0 {
			continue
		}
		f.Label = strings.TrimSuffix(f.Label, ", length")
		off := math.Abs(f.Value - told.Value)
		if off <= roundingOf(told, f) {
			return f, true
		}
		if !ok && off <= farOff*f.Value {
			nearest, ok = f, true
		}
	}
	return nearest, ok
}

// outerRadius is the outer radius of the flat blank of a round cone: the slant is to it as the
// difference of the two edges to the longer one.
func outerRadius(ans *answer.Answer) (answer.Figure, bool) {
	rim, hasRim := figureOf(ans, "rim_length")
	base, hasBase := figureOf(ans, "base_length")
	slant, hasSlant := figureOf(ans, "slant")
	if !hasRim || !hasBase || !hasSlant || rim.Value <= base.Value || !strings.Contains(ans.Headline, "round") {
		return answer.Figure{}, false
	}
	return answer.Figure{Label: "outer radius of the blank", Unit: answer.MM, Value: slant.Value * rim.Value / (rim.Value - base.Value)}, true
}

func figureOf(ans *answer.Answer, id string) (answer.Figure, bool) {
	i := slices.IndexFunc(ans.Figures, func(f answer.Figure) bool { return f.ID == id })
	if i < 0 {
		return answer.Figure{}, false
	}
	return ans.Figures[i], true
}

// lookBelow is said where no slip is known that makes such a difference.
const lookBelow = "Check what is given and assumed below: most differences come from one of those values. Don't cut until the two agree."

// shortOfOval is by how many mm pi x the mean of length and width is too short.
const shortOfOval = 0.4

// clearanceOf is the room in mm that a bezel leaves all round its stone, as it was assumed or
// typed.
func clearanceOf(ans *answer.Answer) (mm float64) {
	for _, said := range append(slices.Clone(ans.Assumptions), ans.Line) {
		if _, after, found := strings.Cut(said, "clearance "); found {
			unit := ""
			if n, _ := fmt.Sscanf(after, "%g %s", &mm, &unit); n > 0 {
				if unit == "in" {
					mm *= units.MMPerInch
				}
				return mm
			}
		}
	}
	return 0
}

// whyOff says what most likely makes a difference, and whether it is only an allowance. Round a
// closed strip it is told from the thickness: its middle is pi x the thickness longer than its
// inside.
func whyOff(difference float64, own answer.Figure, ans *answer.Answer) (why string, onlyAllowed bool) {
	thick, hasThick := figureOf(ans, "thickness")
	if !hasThick {
		thick, hasThick = figureOf(ans, "rim_wall") // of a collar
	}
	if !hasThick || !slices.Contains([]string{"blank_length", "strip_length", "cut_length", "mid_perimeter"}, own.ID) {
		return lookBelow, false
	}
	allowance := "The difference is the allowance for a wide band."
	added := 0.0
	if wide, is := figureOf(ans, "wide_allowance"); is {
		added = wide.Value
	}
	if ans.Request == "bezel" {
		room := clearanceOf(ans)
		added, allowance = 2*math.Pi*room, fmt.Sprintf("Mine leaves %.3g mm of room all round, on every side, so that the stone drops in.", room)
	}
	return slipOf(difference+added, thick.Value, added, allowance, strings.Contains(ans.Headline, "oval"))
}

// slipOf says which slip makes a difference, allowances left out.
func slipOf(difference, t, added float64, allowance string, oval bool) (why string, onlyAllowed bool) {
	around := math.Pi * t
	for _, slip := range []struct {
		makes float64
		says  string
	}{
		{0, allowance},
		{-around, "Probably the thickness was left out: the strip's middle is pi x the thickness longer than its inside."},
		{t - around, "Probably you added the thickness once: round the piece it is added pi times."},
		{around, "Probably you took the outside: the length is measured at the middle of the metal."},
	} {
		off := difference - slip.makes
		switch exact := math.Abs(off) <= 0.08; {
		case slip.makes == 0 && added == 0 || !exact && !(oval && off < 0 && off > -shortOfOval && slip.makes <= 0):
			continue
		case exact:
			return slip.says, slip.makes == 0
		default:
			return slip.says + " And pi x the mean of length and width is a little short for an oval.", slip.makes == 0
		}
	}
	return lookBelow, false
}
