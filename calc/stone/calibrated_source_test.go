package stone

import (
	"testing"

	"guildhand/calc/outline"
)

// Calibrated sizes of a stone dealer's published size and weight chart
// (eastint.com/size_and_weight_conversion_chart.php): rounds 2 to 8 mm by 0.5,
// ovals and octagons (the trade's word for the cut-corner rectangle) 5 x 3, 6 x
// 4, 7 x 5, 8 x 6, 9 x 7, 10 x 8, 11 x 9, 12 x 10, marquises 4 x 2 to 12 x 6 at
// two to one. The fit of 0.1 mm up to one carat is the rule of the gemmological
// society's standard size chart (gemsociety.org/article/standard-gem-sizes-chart).
func TestCalibratedSizesAsPublished(t *testing.T) {
	want := map[outline.Kind][][2]float64{
		outline.Round:    {{2, 2}, {2.5, 2.5}, {3, 3}, {3.5, 3.5}, {4, 4}, {4.5, 4.5}, {5, 5}, {5.5, 5.5}, {6, 6}, {6.5, 6.5}, {7, 7}, {7.5, 7.5}, {8, 8}},
		outline.Oval:     {{5, 3}, {6, 4}, {7, 5}, {8, 6}, {9, 7}, {10, 8}, {11, 9}, {12, 10}},
		outline.Emerald:  {{5, 3}, {6, 4}, {7, 5}, {8, 6}, {9, 7}, {10, 8}, {11, 9}, {12, 10}},
		outline.Marquise: {{4, 2}, {6, 3}, {8, 4}, {10, 5}, {12, 6}},
	}
	got := map[outline.Kind][][2]float64{}
	for _, c := range CalibratedSizes() {
		if c.Published {
			got[c.Kind] = append(got[c.Kind], [2]float64{c.Size.LengthMM, c.Size.WidthMM})
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d outlines are marked as published, want %d", len(got), len(want))
	}
	for kind, sizes := range want {
		if len(got[kind]) != len(sizes) {
			t.Errorf("%s: %v, published %v", kind, got[kind], sizes)
			continue
		}
		for i := range sizes {
			if got[kind][i] != sizes[i] {
				t.Errorf("%s: %v, published %v", kind, got[kind][i], sizes[i])
			}
		}
	}
	if CalibratedFitMM != 0.1 {
		t.Errorf("fit %.2f mm, published 0.1", CalibratedFitMM)
	}
}
