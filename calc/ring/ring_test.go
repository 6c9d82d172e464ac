package ring

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	for _, row := range []struct {
		system System
		text   string
		want   float64 // as a number of the system
	}{
		{US, "7", 7}, {US, " 7 1/2 ", 7.5}, {US, "7½", 7.5}, {US, "7-1/4", 7.25}, {US, "7.25", 7.25}, {US, "1/2", 0.5},
		{UK, "n", 14}, {UK, "N 1/2", 14.5}, {UK, "N½", 14.5}, {UK, "n.5", 14.5}, {UK, "Z+1", 27}, {UK, "z + 6", 32},
		{ISO, "54", 54}, {ISO, "54.5", 54.5}, {Japan, "13", 13}, {Continental, "14", 14}, {Diameter, "17.3 mm", 17.3},
	} {
		c, err := row.system.Parse(row.text)
		if err != nil {
			t.Errorf("%s %q: %v", row.system, row.text, err)
			continue
		}
		assert.InDelta(t, row.want, row.system.Number(c), 1e-9, "%s %q", row.system, row.text)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, row := range []struct {
		system System
		text   string
	}{
		{US, ""}, {US, "N"}, {US, "17"}, {US, "-1"}, {US, "7 1/9"}, {US, "7.5 1/2"}, {US, "1e1"}, {US, "inf"}, {US, "NaN"}, {US, "0x7"}, {US, "7 1/2 x"},
		{UK, "7"}, {UK, "NN"}, {UK, "Z+7"}, {UK, "Y+1"}, {UK, "Z+"}, {UK, "é"},
		{Japan, "0"}, {Japan, "31"}, {ISO, "40"}, {ISO, "77"}, {Continental, "0"}, {Diameter, "5"}, {Diameter, "60"},
		{System("moon"), "7"},
	} {
		c, err := row.system.Parse(row.text)
		if err == nil {
			t.Errorf("%s %q was taken as %g mm", row.system, row.text, c)
			continue
		}
		if lines[row.system].title != "" && !strings.Contains(err.Error(), row.system.Range()) {
			t.Errorf("%s %q: %q does not give the range %s", row.system, row.text, err, row.system.Range())
		}
	}
}

// Every named size of every system comes back from its circumference, and its
// name can be typed again.
func TestThereAndBack(t *testing.T) {
	count := 0
	for _, s := range Systems() {
		l := lines[s]
		for n := l.minimum; n <= l.maximum+1e-9; n += l.roundTo {
			text, c, ok := s.Nearest(s.CircumferenceMM(n))
			if !ok {
				t.Errorf("%s %g has no name", s, n)
				continue
			}
			back, err := s.Parse(text)
			if err != nil || math.Abs(back-c) > 1e-9 || math.Abs(s.Number(c)-n) > 1e-9 {
				t.Errorf("%s %g: named %q, %g mm, read %g mm (%v)", s, n, text, c, back, err)
			}
			count++
		}
	}
	if count < 400 {
		t.Errorf("only %d sizes tried", count)
	}
}

func TestNearestOutside(t *testing.T) {
	for _, s := range Systems() {
		for _, c := range []float64{0, 20, 120, -5} {
			if text, _, ok := s.Nearest(c); ok {
				t.Errorf("%s names %g mm %q", s, c, text)
			}
		}
	}
}

func TestGuess(t *testing.T) {
	for text, want := range map[string]System{"N": UK, "n 1/2": UK, "54": ISO, "7": "", "16": "", "17.3": "", "": "", "80": "", "banana": ""} {
		got, ok := Guess(text)
		if got != want || ok != (want != "") {
			t.Errorf("Guess(%q) = %q, %v; want %q", text, got, ok, want)
		}
	}
}

func TestBlank(t *testing.T) {
	// The trade's rule: pi times inner diameter plus thickness.
	b, err := Shank{CircumferenceMM: 17 * math.Pi, WidthMM: 4, ThicknessMM: 1.5, Profile: Flat}.Blank()
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*18.5, b.LengthMM, 1e-9, "length")
	assert.InDelta(t, math.Pi*18.5*6, b.VolumeMM3, 1e-9, "volume")
	// Pappus: the blank's volume is that of the ring it becomes, the section's
	// area times the path of its centroid.
	ring := math.Pi * (10*10 - 8.5*8.5) * 4
	assert.InDelta(t, ring, b.VolumeMM3, 1e-9, "volume of the ring")

	wide, _ := Shank{CircumferenceMM: 17 * math.Pi, WidthMM: 7, ThicknessMM: 1.5, Profile: Flat}.Blank()
	assert.InDelta(t, 0.638, wide.AllowanceMM, 0.001, "allowance of a wide band")
	assert.InDelta(t, wide.AllowanceMM, wide.LengthMM-b.LengthMM, 1e-9, "wide band")
	court, _ := Shank{CircumferenceMM: 17 * math.Pi, WidthMM: 10, ThicknessMM: 1.5, Profile: Court}.Blank()
	assert.InDelta(t, 0.638, court.AllowanceMM, 0.001, "allowance of a wide court band")
	none, _ := Shank{CircumferenceMM: 17 * math.Pi, WidthMM: 10, ThicknessMM: 1.5, Profile: Court, HasAllowance: true}.Blank()
	assert.InDelta(t, 0, none.AllowanceMM, 0, "no allowance")

	half, _ := Shank{CircumferenceMM: 17 * math.Pi, WidthMM: 4, ThicknessMM: 2, Profile: HalfRound}.Blank()
	assert.InDelta(t, math.Pi*(17+2*0.4244*2), half.LengthMM, 1e-3, "half-round")

	for _, s := range []Shank{
		{CircumferenceMM: 0, WidthMM: 1, ThicknessMM: 1}, {CircumferenceMM: 54, WidthMM: 4, ThicknessMM: 5},
		{CircumferenceMM: math.NaN(), WidthMM: 1, ThicknessMM: 1}, {CircumferenceMM: 54, WidthMM: -1, ThicknessMM: 1},
	} {
		if b, err := s.Blank(); err == nil {
			t.Errorf("%+v gave %+v", s, b)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"7 1/2", "N½", "Z+1", "54", "", "½½", "+", "Z++1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range Systems() {
			c, err := s.Parse(text)
			if err == nil && !(c > 30 && c < 90) {
				t.Errorf("%s %q gave %g mm", s, text, c)
			}
		}
	})
}
