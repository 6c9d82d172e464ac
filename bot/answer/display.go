package answer

import (
	"math"
	"strconv"
	"strings"
)

// Display gives the figure for people, with its unit and no finer than a bench
// can use: lengths to 0.01 mm, angles to 0.1 degree, mass to 0.01 g. A figure
// with a Text shows that.
func (f Figure) Display() string { return f.display(false) }

// DisplayInches is Display with lengths in inches (0.001 in) and areas in
// square inches; other units stay.
func (f Figure) DisplayInches() string { return f.display(true) }

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
