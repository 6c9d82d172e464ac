package catalogue

import (
	"fmt"
	"strconv"

	"guildhand/calc/stock"
)

// Limits returns the allowed range of an option's number. Where the catalogue
// states none, it is the widest that makes sense at a bench: nothing is
// unbounded.
func (o *Option) Limits() (least, most float64) {
	if o.Min != 0 || o.Max != 0 {
		return o.Min, o.Max
	}
	switch o.Kind {
	case Length:
		return 0.01, 1000
	case Thickness:
		return 0.1, 6
	case Size:
		return 0.8, 100
	case Points:
		return -1000, 1000
	case Angle:
		return 0, 180
	case Percent, Share:
		return 0, 100
	case Mass:
		return 0.001, 100_000
	case Force:
		return 1, 10_000_000
	}
	return 0, 1_000_000
}

// Noun says what kind of value the option takes.
func (o *Option) Noun() string {
	switch o.Kind {
	case Length:
		return "a length"
	case Thickness:
		return "a thickness"
	case Angle:
		return "an angle"
	case Number:
		return "a number"
	case Integer:
		return "a whole number"
	case Percent:
		return "a percentage"
	case Share:
		return "a percentage or a mass"
	case Mass:
		return "a mass"
	case Force:
		return "a force"
	case Size:
		return "a size"
	case Points:
		return "a list of points"
	case RingSize:
		return "a ring size"
	case Text:
		return "some text"
	}
	return "a word"
}

// Range says in words which values are allowed, with units: "0.1 to 6 mm".
// Empty for kinds without a range.
func (o *Option) Range() string {
	least, most := o.Limits()
	var unit string
	switch o.Kind {
	case Length, Size, Thickness, Points:
		unit = " mm"
	case Angle:
		unit = " degrees"
	case Percent:
		unit = " %"
	case Share:
		unit = " % or g"
	case Mass:
		unit = " g"
	case Force:
		return number(least/1000) + " to " + number(most/1000) + " kN"
	case Number, Integer:
	default:
		return ""
	}
	text := number(least) + " to " + number(most) + unit
	switch o.Kind {
	case Thickness:
		if thin, thick := gaugeRange(least, most); thin > thick {
			text += fmt.Sprintf(" (%s to %s ga)", stock.GaugeName(thick), stock.GaugeName(thin))
		}
	case Size:
		text += " a side"
	case Integer:
		text = "whole numbers from " + text
	}
	return text
}

// gaugeRange returns the thinnest and thickest gauge numbers inside a range of
// mm.
func gaugeRange(least, most float64) (thin, thick int) {
	thin, thick = stock.ThinnestGauge, stock.ThickestGauge
	for thin > thick && stock.GaugeMM(thin) < least {
		thin--
	}
	for thick < thin && stock.GaugeMM(thick) > most {
		thick++
	}
	return thin, thick
}

// number writes a number as it can be typed.
func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// ChoicesIn returns a Word option's choices in a workshop, which may be nil.
func (o *Option) ChoicesIn(shop *stock.Workshop) []Choice {
	if o.Choices != nil || o.ChoicesFrom == nil {
		return o.Choices
	}
	if shop == nil {
		shop = &stock.Workshop{}
	}
	return o.ChoicesFrom(shop)
}

// Asked reports whether the option is asked for where it is missing.
func (o *Option) Asked() bool { return o.Required && o.Default == "" }
