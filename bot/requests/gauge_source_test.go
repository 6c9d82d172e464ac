package requests_test

import (
	"math"
	"strings"
	"testing"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/requeststest"
)

// The decimals of ASTM B258, Table 1, as reprinted in handbooks (rounded to 0.1
// mil), and C. H. Haswell's determination of the same gauge for Brown & Sharpe,
// reprinted in the Metal Worker's Handy-Book tables of weights of wire and
// plates.
func TestGaugeAgainstPublishedTables(t *testing.T) {
	s := room(t)
	who := catalogue.Who{Platform: "test", Channel: "c1", Maker: "anna"}
	for _, tt := range []struct {
		gauge    string
		b258Inch float64
		haswell  float64 // 0 where not read
	}{
		{"8", .1285, .12849}, {"10", .1019, .10189}, {"12", .0808, .080808}, {"13", .0720, .071961}, {"14", .0641, .064084},
		{"15", .0571, .057068}, {"16", .0508, 0}, {"18", .0403, 0}, {"20", .0320, 0}, {"22", .0253, 0}, {"24", .0201, 0},
		{"26", .0159, 0}, {"28", .0126, 0}, {"30", .0100, 0},
	} {
		r := requeststest.Say(t, s, who, "gauge "+tt.gauge)
		if r.Answer == nil {
			t.Errorf("gauge %s: %s", tt.gauge, requeststest.Told(r))
			continue
		}
		var inch float64
		for _, f := range r.Answer.Figures {
			if f.ID == "thickness_inch" {
				inch = f.Value
			}
		}
		if math.Abs(inch-tt.b258Inch) > 0.00005+1e-9 { // the table's own rounding
			t.Errorf("gauge %s is %.6f in, published %.4f", tt.gauge, inch, tt.b258Inch)
		}
		if tt.haswell != 0 && math.Abs(inch-tt.haswell) > 0.00001 {
			t.Errorf("gauge %s is %.6f in, Haswell %.6f", tt.gauge, inch, tt.haswell) // its five decimals are cut off, not rounded
		}
	}
}

func TestGaugeAnswers(t *testing.T) {
	s := room(t)
	who := catalogue.Who{Platform: "test", Channel: "c1", Maker: "anna"}
	for _, tt := range []struct{ text, headline string }{
		{"gauge 22", "22 ga is 0.644 mm (0.0253 in)"},
		{"gauge 22 ga", "22 ga is 0.644 mm (0.0253 in)"},
		{"Gauge: 22g", "22 ga is 0.644 mm (0.0253 in)"},
		{"gauge 0000", "0000 ga is 11.684 mm (0.4600 in)"},
		{"gauge 0.64 mm", "0.64 mm is nearest to 22 ga (0.644 mm), which is 0.6 % thicker"},
		{"gauge 0,64", "0.64 mm is nearest to 22 ga (0.644 mm), which is 0.6 % thicker"},
		{"gauge .025in", "0.635 mm is nearest to 22 ga (0.644 mm), which is 1.4 % thicker"},
		{"gauge 1/32 in", "0.794 mm is nearest to 20 ga (0.812 mm), which is 2.3 % thicker"},
		{"gauge 1 mm", "1 mm is nearest to 18 ga (1.024 mm), which is 2.4 % thicker"},
		{"gauge 99", `refused: gauge "99" is not a gauge number`},
		{"gauge 0 mm", "refused: gauge 0 mm is out of range"},
		{"gauge", "refused: which thickness: a gauge number, mm or inch? | try: gauge 22"},
	} {
		if got := requeststest.Told(requeststest.Say(t, s, who, tt.text)); !strings.HasPrefix(got, tt.headline) {
			t.Errorf("%q: got %s, want %s", tt.text, got, tt.headline)
		}
	}
}
