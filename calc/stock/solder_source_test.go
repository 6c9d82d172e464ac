package stock

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Machinery's Handbook, 31st ed., table 1a, silver brazing filler metals "based
// on AWS A5.8": solidus and liquidus in degrees F, cadmium in percent.
func TestFillersAgainstHandbook(t *testing.T) {
	rows := []struct {
		key               string
		solidusF, flowF   float64
		cadmiumPercentage float64
	}{
		{"bag-2a", 1125, 1310, 20},
		{"bag-3", 1170, 1270, 16},
		{"bag-5", 1250, 1370, 0},
		{"bag-6", 1270, 1425, 0},
		{"bag-7", 1145, 1205, 0},
		{"bag-8", 1435, 1435, 0},
		{"bag-20", 1250, 1410, 0},
		{"bag-24", 1220, 1305, 0},
	}
	for _, r := range rows {
		s, ok := SolderByKey(r.key)
		if !ok {
			t.Errorf("%s is not in the table", r.key)
			continue
		}
		solidus, flow := (r.solidusF-32)/1.8, (r.flowF-32)/1.8
		if math.Abs(s.SolidusC-solidus) > 1 || math.Abs(s.FlowC-flow) > 1 || s.CadmiumPercent != r.cadmiumPercentage {
			t.Errorf("%s: %.0f to %.0f °C, Cd %.0f %%; handbook %.0f to %.0f °C, Cd %.0f %%",
				r.key, s.SolidusC, s.FlowC, s.CadmiumPercent, solidus, flow, r.cadmiumPercentage)
		}
	}
}

// T. McCreight, The Complete Metalsmith (from memory, a refiner's data): flow
// in degrees F 1325, 1360, 1450, 1490 for easy, medium, hard and enamelling;
// solidus by a bench forum's list 670, 691, 740 °C.
func TestGradesFlowInOrder(t *testing.T) {
	flowF := map[string]float64{"easy": 1325, "medium": 1360, "hard": 1450, "extra-hard": 1490}
	solidusC := map[string]float64{"easy": 670, "medium": 691, "hard": 740}
	for key, f := range flowF {
		s, _ := SolderByKey(key)
		assert.InDelta(t, (f-32)/1.8, s.FlowC, 1, "%s flows at %.0f °C, printed %.0f F", key, s.FlowC, f)
		if want, ok := solidusC[key]; ok && math.Abs(s.SolidusC-want) > 2 {
			t.Errorf("%s begins to melt at %.0f °C, printed %.0f", key, s.SolidusC, want)
		}
	}
	sterling, _ := AlloyByKey("sterling")
	before := 0.0
	for _, key := range []string{"extra-easy", "easy", "medium", "hard"} {
		s, _ := SolderByKey(key)
		if s.FlowC <= before || s.FlowC >= sterling.SolidusHighC {
			t.Errorf("%s flows at %.0f °C: not above %.0f and under sterling's %.0f", key, s.FlowC, before, sterling.SolidusHighC)
		}
		before = s.FlowC
	}
	// The enamelling grade is over sterling's solidus; it is for fine silver.
	if s, _ := SolderByKey("extra-hard"); s.FlowC <= sterling.SolidusHighC {
		t.Errorf("extra-hard flows at %.0f °C, under sterling's solidus %.0f", s.FlowC, sterling.SolidusHighC)
	}
}
