package answer

import (
	"slices"
	"testing"
)

func TestDisplay(t *testing.T) {
	tests := []struct {
		figure       Figure
		want, inches string
	}{
		{Figure{Value: 25.4, Unit: MM}, "25.40 mm", "1.000 in"},
		{Figure{Value: 12.3456, Unit: MM}, "12.35 mm", "0.486 in"},
		{Figure{Value: -0.001, Unit: MM}, "0.00 mm", "0.000 in"},
		{Figure{Value: -1.5, Unit: MM}, "−1.50 mm", "−0.059 in"},
		{Figure{Value: 645.16, Unit: MM2}, "645.2 mm²", "1.000 in²"},
		{Figure{Value: 36.869, Unit: Degree}, "36.9°", "36.9°"},
		{Figure{Value: 0.834, Unit: Gram}, "0.83 g", "0.83 g"},
		{Figure{Value: 650.4, Unit: Celsius}, "650 °C", "650 °C"},
		{Figure{Value: 999.6, Unit: Newton}, "1000 N", "1000 N"},
		{Figure{Value: 19613, Unit: Newton}, "19.6 kN", "19.6 kN"},
		{Figure{Value: 22, Unit: Gauge}, "22 ga", "22 ga"},
		{Figure{Value: 3, Unit: Count}, "3", "3"},
		{Figure{Value: 2, Unit: "furlong"}, "2 furlong", "2 furlong"},
		{Figure{Value: 7, Unit: MM, Text: "medium solder"}, "medium solder", "medium solder"},
	}
	for _, test := range tests {
		if got := test.figure.Display(); got != test.want {
			t.Errorf("Display of %v %s: got %q, want %q", test.figure.Value, test.figure.Unit, got, test.want)
		}
		if got := test.figure.DisplayInches(); got != test.inches {
			t.Errorf("DisplayInches of %v %s: got %q, want %q", test.figure.Value, test.figure.Unit, got, test.inches)
		}
	}
}

func TestBrief(t *testing.T) {
	got := Brief([]string{
		"lean 8.5° (from memory)", "rim 1 mm (common practice)", "nominal sizes",
		"clearance 0.05 mm (common practice)", "a (b) c", "depth 4 mm (estimate (rough))",
		"seam at the point (common practice)",
	})
	want := []string{
		"lean 8.5° (from memory)",
		"rim 1 mm, clearance 0.05 mm, seam at the point (all: common practice)",
		"nominal sizes", "a (b) c", "depth 4 mm (estimate (rough))",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	if got := Brief(nil); got != nil {
		t.Errorf("of nothing: %q", got)
	}
}

func TestShow(t *testing.T) {
	length, mass := Figure{Value: 25.4, Unit: MM}, Figure{Value: 1, Unit: Gram}
	for _, test := range []struct {
		answer Answer
		figure Figure
		want   string
	}{
		{Answer{}, length, "25.40 mm"},
		{Answer{Inches: true}, length, "25.40 mm (1.000 in)"},
		{Answer{Inches: true}, mass, "1.00 g"},
	} {
		if got := test.answer.Show(test.figure); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}
