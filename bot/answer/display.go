package answer

import (
	"math"
	"strconv"
	"strings"
)

// Display returns the figure for people, with its unit and no finer than a bench
// can use: lengths to 0.01 mm, angles to 0.1 degree, mass to 0.01 g. A figure
// with a Text shows that.
func (f Figure) Display() string { return f.display(false) }

// DisplayInches is Display with lengths in inches (0.001 in) and areas in
// square inches; other units stay.
func (f Figure) DisplayInches() string { return f.display(true) }

// Show returns a figure of the answer as its asker wants it: in mm, or in mm with
// inches after.
func (a *Answer) Show(f Figure) string {
	text := f.Display()
	if inches := f.DisplayInches(); a.Inches && inches != text {
		return text + " (" + inches + ")"
	}
	return text
}

const (
	mmPerInch = 25.4 // exact, by definition of the inch
	minus     = "\u2212"
)

func (f Figure) display(inches bool) string {
	if f.Text != "" {
		return f.Text
	}
	v := f.Value
	switch f.Unit {
	case MM:
		if inches {
			return fixed(v/mmPerInch, 3) + " in"
		}
		return fixed(v, 2) + " mm"
	case MM2:
		if inches {
			return fixed(v/(mmPerInch*mmPerInch), 3) + " in²"
		}
		return fixed(v, 1) + " mm²"
	case MM3:
		return fixed(v, 1) + " mm³"
	case Gram:
		return fixed(v, 2) + " g"
	case Degree:
		return fixed(v, 1) + "°"
	case Percent:
		return fixed(v, 1) + " %"
	case Celsius:
		return fixed(v, 0) + " °C"
	case Newton:
		if math.Abs(v) >= 1000 {
			return fixed(v/1000, 1) + " kN"
		}
		return fixed(v, 0) + " N"
	case Bar:
		return fixed(v, 0) + " bar"
	case Carat:
		return fixed(v, 2) + " ct"
	case GramPerCC:
		return fixed(v, 2) + " g/cm³"
	case Gauge:
		return fixed(v, 0) + " ga"
	case Count:
		return fixed(v, 0)
	case Ratio:
		return fixed(v, 3)
	case Money:
		return fixed(v, 2)
	}
	return strings.TrimSpace(strconv.FormatFloat(v, 'g', 6, 64) + " " + string(f.Unit))
}

// fixed rounds to so many decimals, without a negative zero.
func fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if rest, negative := strings.CutPrefix(s, "-"); negative {
		if strings.Trim(rest, "0.") == "" {
			return rest
		}
		return minus + rest
	}
	return s
}

// Brief shortens a list of assumptions: those that end in the same note in
// brackets share it, "rim 1 mm, clearance 0.05 mm (all: common practice, no
// source)". Nothing is left out, and a note keeps the place of its first
// assumption.
func Brief(assumptions []string) []string {
	return brief(assumptions, "all: ", func(note string) string { return note })
}

// brief is Brief with each note reworded first; an empty one is left out. all
// comes before a note that is shared.
func brief(assumptions []string, all string, reword func(note string) string) []string {
	var list []string
	place := map[string]int{} // of a note in list
	shared := map[string][]string{}
	for _, line := range assumptions {
		what, note, found := cutNote(line)
		if !found {
			list = append(list, line)
			continue
		}
		note = reword(note)
		if _, seen := place[note]; !seen {
			place[note] = len(list)
			list = append(list, "")
		}
		shared[note] = append(shared[note], what)
	}
	for note, whats := range shared {
		text := strings.Join(whats, ", ")
		switch {
		case note == "":
		case len(whats) > 1:
			text += " (" + all + note + ")"
		default:
			text += " (" + note + ")"
		}
		list[place[note]] = text
	}
	return list
}

// cutNote takes "rim 1 mm (common practice)" apart.
func cutNote(line string) (what, note string, found bool) {
	rest, closed := strings.CutSuffix(line, ")")
	open := strings.LastIndex(rest, " (")
	if !closed || open < 0 || strings.Contains(rest[open:], ")") {
		return "", "", false
	}
	return rest[:open], rest[open+2:], true
}
