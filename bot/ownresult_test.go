package bot

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/answer"
	"guildhand/bot/reading/sentence"
)

// figuresIn makes an answer of lengths in mm or masses in g.
func figuresIn(request, headline string, unit answer.Unit, figures map[string]float64) *answer.Answer {
	ans := &answer.Answer{Request: request, Headline: headline}
	for id, v := range figures {
		of := unit
		if id == "thickness" {
			of = answer.MM
		}
		ans.Figures = append(ans.Figures, answer.Figure{ID: id, Label: id, Value: v, Unit: of})
	}
	return ans
}

func TestVerdictOnOwnResult(t *testing.T) {
	bezel := figuresIn("bezel", "round", answer.MM, map[string]float64{"strip_length": 32.67, "cut_length": 32.97, "thickness": 0.3})
	bezel.Assumptions = []string{"girdle 0 mm (common practice, no source)", "clearance 0.05 mm (common practice, no source)"}
	loose := figuresIn("bezel", "round", answer.MM, map[string]float64{"strip_length": 32.99, "thickness": 0.3})
	loose.Line = "bezel round 10 0.3mm clearance 0.1"
	band := figuresIn("band", "", answer.MM, map[string]float64{"blank_length": 65.67, "wide_allowance": 0.64, "thickness": 2})
	melt := figuresIn("melt", "", answer.Gram, map[string]float64{"charge_mass": 23.74, "casting_mass": 21.58})
	cone := figuresIn("collet", "round", answer.MM, map[string]float64{"rim_length": 23.76, "base_length": 18.03, "slant": 6.17, "blank_width": 22.92})
	for _, c := range []struct {
		told   sentence.Told
		of     *answer.Answer
		begins string
		says   string
	}{
		{sentence.Told{Typed: "32.7", Value: 32.7}, bezel, "Yes", "agrees with mine"},
		{sentence.Told{Typed: "33 mm", Value: 33}, bezel, "Yes", "agrees"},
		{sentence.Told{Typed: "32.4", Value: 32.4}, bezel, "It depends", "room all round"},
		{sentence.Told{Typed: "32.36", Value: 32.36}, loose, "It depends", "0.1 mm of room all round"},
		{sentence.Told{Typed: "31.4", Value: 31.4}, bezel, "No", "thickness was left out"},
		{sentence.Told{Typed: "65.8 mm", Value: 65.8}, band, "Yes", "65.67 mm"},
		{sentence.Told{Typed: "65.03", Value: 65.03}, band, "It depends", "wide band"},
		{sentence.Told{Typed: "71.3", Value: 71.3}, band, "No", "took the outside"},
		{sentence.Told{Typed: "21.6 g", Value: 21.6, Mass: true}, melt, "It depends", "for the charge_mass I get 23.74 g"},
		{sentence.Told{Typed: "23 mm", Value: 23, Radius: true}, cone, "No", "25.58 mm for the outer radius"},
		{sentence.Told{Typed: "9.2", Value: 9.2}, band, "", ""},
	} {
		says := verdictOn(c.told, c.of)
		assert.Contains(t, says, c.says, c.told.Typed)
		if c.begins == "" {
			assert.Empty(t, says, c.told.Typed)
			continue
		}
		assert.Equal(t, c.begins, says[:len(c.begins)], "%s: %s", c.told.Typed, says)
	}
}
