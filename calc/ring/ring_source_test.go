package ring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ISO 8653: the size is the circumference in mm, 41 to 76 (draft BS EN ISO 8653;
// JIS S 4700:1998 adopts the 1986 edition unchanged). Diameters to one decimal:
// encyclopedia table "Ring size", which rounds to 0.1 mm and is once or twice
// 0.05 mm further off.
func TestISOAgainstTable(t *testing.T) {
	printed := map[float64]float64{
		49: 15.6, 50: 15.9, 51: 16.2, 52: 16.6, 53: 16.9, 54: 17.2, 55: 17.5, 56: 17.8, 57: 18.1,
		58: 18.5, 59: 18.8, 60: 19.1, 61: 19.4, 62: 19.7, 63: 20.1, 64: 20.4, 65: 20.7, 66: 21.0,
		68: 21.6, 70: 22.3, 72: 22.9,
	}
	for n, diameter := range printed {
		assert.InDelta(t, diameter, ISO.CircumferenceMM(n)/math.Pi, 0.0501, "ISO")
	}
	for _, text := range []string{"40", "77"} {
		if _, err := ISO.Parse(text); err == nil {
			t.Errorf("ISO %s was taken; the standard goes from 41 to 76", text)
		}
	}
}

// US/Canada, d = 0.458 in + 0.032 in n. Chart 1: a printer's ring size chart,
// mm. Chart 2: the International Gem Society's comparison chart, a second
// standard in use, inches, which differs by up to 0.005 in.
func TestUSAgainstCharts(t *testing.T) {
	chart1 := []struct{ n, diameterMM, circumferenceMM float64 }{
		{0, 11.63, 36.5}, {1, 12.45, 39.1}, {2, 13.26, 41.7}, {3, 14.07, 44.2}, {4, 14.88, 46.8},
		{5, 15.70, 49.3}, {5.5, 16.10, 50.6}, {6, 16.51, 51.9}, {6.5, 16.92, 53.1}, {7, 17.32, 54.4},
		{7.5, 17.73, 55.7}, {8, 18.14, 57.0},
	}
	for _, r := range chart1 {
		c := US.CircumferenceMM(r.n)
		assert.InDelta(t, r.diameterMM, c/math.Pi, 0.006, "US diameter")
		assert.InDelta(t, r.circumferenceMM, c, 0.06, "US circumference")
	}
	chart2 := []float64{.454, .487, .520, .553, .585, .618, .650, .683, .716, .748, .781, .814, .846, .879}
	for n, inch := range chart2 {
		assert.InDelta(t, inch, US.CircumferenceMM(float64(n))/math.Pi/25.4, 0.0051, "US, second chart")
	}
}

// UK, C = 36.25 mm + 1.25 mm n: R. Rowlett, "How Many?" (ring size), C is 40 mm
// and four letters are 5 mm; BS 6820:1987 from memory. Charts that step the
// letters on the US grid agree within 0.1 mm for J to Q only.
func TestUKAgainstRuleAndCharts(t *testing.T) {
	c, err := UK.Parse("C")
	require.NoError(t, err)
	assert.InDelta(t, 40, c, 1e-12, "C")
	chart := map[string]float64{
		"A": 37.8, "C": 40.4, "E": 42.9, "G": 45.5, "H": 46.8, "I": 48.0, "J": 48.7, "K": 50.0,
		"L": 51.2, "M": 52.5, "N": 53.8, "O": 55.1, "P": 56.3, "Q": 57.6, "R": 58.9, "S": 60.2,
		"T": 61.4, "U": 62.7, "V": 64.0, "W": 65.3, "X": 66.6,
	}
	for letter, circumference := range chart {
		tolerance := 0.6
		if letter >= "J" && letter <= "Q" {
			tolerance = 0.1001
		}
		c, err := UK.Parse(letter)
		if err != nil {
			t.Error(err)
			continue
		}
		assert.InDelta(t, circumference, c, tolerance, "UK "+letter)
	}
	g, _ := UK.Parse("G")
	assert.InDelta(t, 5, g-c, 1e-12, "four letters from C")
}

// Japan, custom size, d = (38 + n)/3 mm: a Japanese craft site's size table, which
// computes circumferences with 3.14 up to size 21.
func TestJapanAgainstTable(t *testing.T) {
	rows := []struct{ n, diameterMM, circumferenceMM float64 }{
		{1, 13.00, 40.82}, {4, 14.00, 43.96}, {7, 15.00, 47.10}, {10, 16.00, 50.24}, {12, 16.67, 52.33},
		{13, 17.00, 53.38}, {15, 17.67, 55.47}, {16, 18.00, 56.52}, {19, 19.00, 59.66}, {20, 19.33, 60.70},
		{22, 20.00, 62.83}, {25, 21.00, 65.97}, {28, 22.00, 69.12}, {30, 22.67, 71.22},
	}
	for _, r := range rows {
		c := Japan.CircumferenceMM(r.n)
		assert.InDelta(t, r.diameterMM, c/math.Pi, 0.005, "Japan diameter")
		assert.InDelta(t, r.circumferenceMM, c, 0.05, "Japan circumference")
	}
}

// Continental: circumference less 40 (encyclopedia, "Ring size": Italy, Spain,
// Netherlands, Switzerland); the UK's C is its 0 (Rowlett).
func TestContinental(t *testing.T) {
	c, err := Continental.Parse("14")
	require.NoError(t, err)
	assert.InDelta(t, 54, c, 1e-12, "14")
	ukC, _ := UK.Parse("C")
	assert.InDelta(t, 0, Continental.Number(ukC), 1e-12, "UK C")
}

// Bend allowance of 360 degrees, Machinery's Handbook, 31st ed., p. 1421:
// L = (0.64 T + 1.57 R) per right angle for half-hard copper and brass, soft
// steel. With the same neutral factor, 0.64/1.57, the blank of a ring is the
// handbook's bend of 360 degrees; its fig. 13, T 0.125 in, R 0.375 in, 180
// degrees, prints 1.338 in, and half a ring of that radius has the same length.
func TestBlankAgainstBendAllowance(t *testing.T) {
	const inch = 25.4
	s := Shank{
		CircumferenceMM: 2 * math.Pi * 0.375 * inch, WidthMM: 4, ThicknessMM: 0.125 * inch,
		Profile: Flat, NeutralFactor: 0.64 / (math.Pi / 2), HasAllowance: true,
	}
	b, err := s.Blank()
	require.NoError(t, err)
	// 1.3375 from the printed formula with 1.57 in place of pi/2.
	assert.InDelta(t, 1.338, b.LengthMM/2/inch, 0.001, "half a ring, in")
}
