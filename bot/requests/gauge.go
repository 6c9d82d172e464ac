package requests

import (
	"context"
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// stockMM are thicknesses in which sheet is sold where it is not sold by
// number. Common option.Practice, no source.
var stockMM = []float64{0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.5, 1.8, 2, 2.5, 3, 4, 5, 6, 8, 10, 12}

func gaugeRequest() catalogue.Spec {
	return catalogue.Spec{
		Name:    "gauge",
		Summary: "a thickness between gauge number, mm and inch",
		Detail:  "A whole number alone is a gauge number; write mm or in for a thickness. 00 is thicker than 0.",
		Options: []catalogue.Option{{
			Name: "gauge", Aliases: []string{"thickness"},
			Summary: "22, 22ga, 0.64 mm or .025 in",
			Kind:    catalogue.Thickness, Min: 0.05, Max: 12, Bare: true,
			Required: true, Prompt: "which thickness: a gauge number, mm or inch?",
			Suggest: []string{"22ga", "20ga", "24ga", "18ga", "26ga", "0.5mm", "0.64mm", "1mm", ".025in"},
		}},
		Examples: []catalogue.Example{
			{Line: "gauge 22", Summary: "a gauge number"},
			{Line: "gauge 0.64 mm", Summary: "millimetres"},
			{Line: "gauge .025 in", Summary: "inches"},
		},
		Answer: gaugeAnswer,
	}
}

func gaugeAnswer(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	v := c.Value("gauge")
	mm := v.Number
	nearest, nearestMM := stock.NearestGauge(mm)
	metric := nearestOf(stockMM, mm)
	inch := mm / units.MMPerInch

	a := &answer.Answer{
		Figures: []answer.Figure{
			{ID: "thickness", Label: "thickness", Value: mm, Unit: answer.MM, Text: fmt.Sprintf("%.3f mm", mm)},
			{ID: "thickness_inch", Label: "in inches", Value: inch, Unit: "in", Text: fmt.Sprintf("%.4f in", inch), Main: !v.HasGauge},
			{ID: "nearest_gauge", Label: "nearest number", Value: float64(nearest), Unit: answer.Gauge,
				Text: fmt.Sprintf("%s ga, %.3f mm", stock.GaugeName(nearest), nearestMM)},
			{ID: "nearest_stock", Label: "nearest metric stock", Value: metric, Unit: answer.MM,
				Text: fmt.Sprintf("%g mm%s", metric, offBy(metric, mm)), Main: true},
		},
		Assumptions: []string{
			"Brown & Sharpe (American wire) numbers, as for non-ferrous sheet and wire; steel sheet has others",
			"metric stock thicknesses: " + option.Practice,
		},
		Steps: []string{
			"d(n) = 0.005 in x 92^((36 - n) / 39) (ASTM B258)",
			fmt.Sprintf("n = %s: %.4f in = %.3f mm", stock.GaugeName(nearest), nearestMM/units.MMPerInch, nearestMM),
		},
		Notes: []string{"Measure the sheet before you cut: what is sold under a number varies."},
	}
	if v.HasGauge {
		a.Headline = fmt.Sprintf("%s ga is %.3f mm (%.4f in)", stock.GaugeName(v.Gauge), mm, inch)
		for _, n := range []int{v.Gauge - 1, v.Gauge + 1} {
			if n < stock.ThickestGauge || n > stock.ThinnestGauge {
				continue
			}
			id, label := "thicker_gauge", "one thicker"
			if n > v.Gauge {
				id, label = "thinner_gauge", "one thinner"
			}
			a.Figures = append(a.Figures, answer.Figure{ID: id, Label: label, Value: stock.GaugeMM(n), Unit: answer.MM,
				Text: fmt.Sprintf("%s ga, %.3f mm", stock.GaugeName(n), stock.GaugeMM(n)), Main: true})
		}
		return a, nil
	}
	a.Headline = fmt.Sprintf("%s mm is nearest to %s ga (%.3f mm)%s", thousandths(mm), stock.GaugeName(nearest), nearestMM, offBy(nearestMM, mm))
	return a, nil
}

// offBy tells by how much a stock thickness is over or under what is wanted.
func offBy(got, want float64) string {
	pct := (got/want - 1) * 100
	switch {
	case math.Abs(pct) < 0.05:
		return ""
	case pct > 0:
		return fmt.Sprintf(", which is %.1f %% thicker", pct)
	}
	return fmt.Sprintf(", which is %.1f %% thinner", -pct)
}

// thousandths writes mm to 0.001, without needless zeros.
func thousandths(mm float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", mm), "0"), ".")
}

func nearestOf(list []float64, v float64) float64 {
	best := list[0]
	for _, x := range list {
		if math.Abs(x-v) < math.Abs(best-v) {
			best = x
		}
	}
	return best
}
