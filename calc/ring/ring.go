// Package ring turns ring sizes of the systems in use into the inner
// circumference in mm and back, and gives the length of a shank's blank.
//
// Every system is a straight line in the circumference, so conversions are
// exact to float64; what is not exact is the trade: printed charts of the same
// system differ by up to 0.6 mm, and a ring stick is read to about 0.3 mm.
package ring

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"guildhand/calc/units"
)

// System is a system of ring sizes.
type System string

// Systems of ring sizes.
const (
	// ISO is the inner circumference in mm (ISO 8653; JIS S 4700:1998 adopts
	// it unchanged). Range 41 to 76.
	ISO System = "iso"
	// US is the size of the United States and Canada.
	US System = "us"
	// UK is the letter size of the United Kingdom, Ireland and Australia.
	UK System = "uk"
	// Japan is the customary size 1 to 30 (not JIS S 4700).
	Japan System = "japan"
	// Continental is the circumference less 40 mm (Italy, Spain, Switzerland).
	Continental System = "continental"
	// Diameter is the inner diameter in mm.
	Diameter System = "diameter"
)

// Systems lists every system, in the order in which answers show them.
func Systems() []System { return []System{ISO, US, UK, Japan, Continental, Diameter} }

// line is a system as a straight line: circumference = zeroMM + stepMM * n for
// minimum <= n <= maximum; roundTo is the step in which the trade names sizes.
type line struct {
	zeroMM, stepMM   float64
	minimum, maximum float64
	roundTo          float64
	title            string
}

// lines are the definitions.
//
//   - ISO 8653:2016: the size is the inner circumference in mm, 41 to 76.
//   - US/Canada: inner diameter 0.458 in + 0.032 in n; there is no single
//     standard, and a second chart in use differs by up to 0.005 in.
//   - UK: BS 6820:1987, circumference 36.25 mm + 1.25 mm n, A = 1 ... Z = 26;
//     charts that step the letters on the US grid lie up to 0.6 mm off.
//   - Japan: custom size, inner diameter (38 + n)/3 mm.
//   - Continental: circumference - 40 mm.
var lines = map[System]line{
	ISO:         {0, 1, 41, 76, 1, "ISO 8653"},
	US:          {math.Pi * 0.458 * units.MMPerInch, math.Pi * 0.032 * units.MMPerInch, 0, 16, 0.25, "US/Canada"},
	UK:          {36.25, 1.25, 1, 32, 0.5, "UK/Australia"},
	Japan:       {math.Pi * 38 / 3, math.Pi / 3, 1, 30, 1, "Japan (custom size)"},
	Continental: {40, 1, 1, 36, 0.5, "continental"},
	Diameter:    {0, math.Pi, 11.5, 25, 0.05, "inner diameter"},
}

// Title is the system's name for people.
func (s System) Title() string { return lines[s].title }

// Range says in words which sizes the system has here, "0 to 16".
func (s System) Range() string {
	l := lines[s]
	switch s {
	case UK:
		return letter(l.minimum) + " to " + letter(l.maximum)
	case Diameter:
		return fmt.Sprintf("%g to %g mm", l.minimum, l.maximum)
	}
	return fmt.Sprintf("%g to %g", l.minimum, l.maximum)
}

// CircumferenceMM returns the inner circumference of size n of the system, mm.
// UK letters count A = 1, and A 1/2 = 1.5. Any n is taken; Parse checks ranges.
func (s System) CircumferenceMM(n float64) float64 {
	l := lines[s]
	return l.zeroMM + l.stepMM*n
}

// Number returns the size n of the system for a circumference in mm, unrounded:
// the inverse of CircumferenceMM.
func (s System) Number(circumferenceMM float64) float64 {
	l := lines[s]
	return (circumferenceMM - l.zeroMM) / l.stepMM
}

// Nearest names the size of the system nearest to a circumference, in the
// steps in which the trade names sizes (US quarters, UK half letters), and
// gives that size's own circumference in mm. ok is false where the system has
// no such size.
func (s System) Nearest(circumferenceMM float64) (text string, sizeMM float64, ok bool) {
	l := lines[s]
	n := math.Round(s.Number(circumferenceMM)/l.roundTo) * l.roundTo
	if n < l.minimum-1e-9 || n > l.maximum+1e-9 {
		return "", 0, false
	}
	return s.format(n), s.CircumferenceMM(n), true
}

func (s System) format(n float64) string {
	switch s {
	case UK:
		return letter(n)
	case US:
		return mixed(n)
	case Diameter:
		return strconv.FormatFloat(n, 'f', 2, 64) + " mm"
	}
	return strconv.FormatFloat(math.Round(n*100)/100, 'f', -1, 64)
}

// Parse reads a size of the system and returns the inner circumference in mm.
//
// Numbers may be decimal or with a fraction ("7", "7.5", "7 1/2", "7½"); UK
// sizes are a letter with an optional fraction ("N", "n 1/2", "N½") and go on
// after Z as "Z+1" to "Z+6". The error says what is wrong and gives the range.
func (s System) Parse(text string) (circumferenceMM float64, err error) {
	l, ok := lines[s]
	if !ok {
		return 0, fmt.Errorf("no ring size system %q", string(s))
	}
	read := readNumber
	if s == UK {
		read = readLetter
	}
	n, ok := read(text)
	if !ok {
		return 0, fmt.Errorf("%q is not a %s ring size; sizes go from %s", text, l.title, s.Range())
	}
	if !(n >= l.minimum && n <= l.maximum) {
		return 0, fmt.Errorf("%s ring size %q is out of range; sizes go from %s", l.title, text, s.Range())
	}
	return s.CircumferenceMM(n), nil
}

// Guess finds the system of a size typed without one: a letter is UK, a number
// from 41 to 76 is ISO. A smaller number may be US, Japanese, continental or a
// diameter, and is not guessed: a wrong guess is a spoilt ring.
func Guess(text string) (System, bool) {
	if _, ok := readLetter(text); ok {
		return UK, true
	}
	if n, ok := readNumber(text); ok && n >= lines[ISO].minimum && n <= lines[ISO].maximum {
		return ISO, true
	}
	return "", false
}

var fractions = map[string]float64{
	"1/4": 0.25, "1/2": 0.5, "3/4": 0.75, "1/8": 0.125, "3/8": 0.375, "5/8": 0.625, "7/8": 0.875,
	"1/3": 1. / 3, "2/3": 2. / 3,
}

var spell = strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8",
	"⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3", "-", " ", "mm", " ")

func readNumber(text string) (float64, bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if strings.HasPrefix(text, "-") { // elsewhere a hyphen joins, as in 7-1/2
		return 0, false
	}
	words := strings.Fields(spell.Replace(text))
	if len(words) == 0 || len(words) > 2 {
		return 0, false
	}
	if f, ok := fractions[words[0]]; ok && len(words) == 1 {
		return f, true
	}
	// Only plain decimals: ParseFloat alone would take "inf", "1e9" and "0x1p4".
	if strings.Trim(words[0], "0123456789.") != "" {
		return 0, false
	}
	n, err := strconv.ParseFloat(words[0], 64)
	if err != nil {
		return 0, false
	}
	if len(words) == 2 {
		f, ok := fractions[words[1]]
		if !ok || n != math.Trunc(n) {
			return 0, false
		}
		n += f
	}
	return n, true
}

func readLetter(text string) (float64, bool) {
	t := strings.TrimSpace(spell.Replace(strings.ToUpper(text)))
	if t == "" || t[0] < 'A' || t[0] > 'Z' {
		return 0, false
	}
	n := float64(t[0]-'A') + 1
	rest := strings.TrimSpace(t[1:])
	if rest == "" {
		return n, true
	}
	if after, ok := strings.CutPrefix(rest, "+"); ok && t[0] == 'Z' {
		beyond, ok := readNumber(after)
		return n + beyond, ok
	}
	f, ok := fractions[rest]
	if !ok && rest == ".5" {
		f, ok = 0.5, true
	}
	return n + f, ok
}

func letter(n float64) string {
	whole := math.Floor(n + 1e-9)
	half := ""
	if n-whole > 0.25 {
		half = " 1/2"
	}
	if whole > 26 {
		return fmt.Sprintf("Z+%g%s", whole-26, half)
	}
	return string(rune('A'+int(whole)-1)) + half
}

func mixed(n float64) string {
	whole := math.Floor(n + 1e-9)
	text := strconv.Itoa(int(whole))
	switch math.Round((n - whole) * 4) {
	case 1:
		text += " 1/4"
	case 2:
		text += " 1/2"
	case 3:
		text += " 3/4"
	}
	return text
}
