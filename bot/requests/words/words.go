// Package words writes figures the way that every answer writes them: lengths,
// sizes, sheets, counts.
package words

import (
	"fmt"
	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
	"guildhand/calc/units"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Inches reports whether the maker or a bench asks for inches beside mm.
func Inches(c *catalogue.Call) bool { return c.Word("units") == "inch" }

// Length writes a length for a sentence, "54.42 mm", with inches behind it
// where they are asked for.
func Length(c *catalogue.Call, mm float64) string {
	if Inches(c) {
		return fmt.Sprintf("%s mm (%.3f in)", MM(mm), mm/units.MMPerInch)
	}
	return MM(mm) + " mm"
}

// lengths is a length in mm and, where they are asked for, in inches.
func lengths(c *catalogue.Call, mm float64) []string {
	list := []string{MM(mm) + " mm"}
	if Inches(c) {
		list = append(list, fmt.Sprintf("%.3f in", mm/units.MMPerInch))
	}
	return list
}

// MM rounds a length in mm to the 0.01 mm that a bench can use.
func MM(mm float64) string {
	s := fmt.Sprintf("%.2f", mm)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Size writes a size for a sentence: "8 x 6 mm".
func Size(c *catalogue.Call, mm ...float64) string {
	sides, inch := make([]string, len(mm)), make([]string, len(mm))
	for i, v := range mm {
		sides[i], inch[i] = MM(v), fmt.Sprintf("%.3f", v/units.MMPerInch)
	}
	s := strings.Join(sides, " x ") + " mm"
	if Inches(c) {
		s += " (" + strings.Join(inch, " x ") + " in)"
	}
	return s
}

// Metal names sheet or wire by its thickness and alloy, for a headline:
// "22 ga (0.64 mm) sterling silver".
func Metal(c *catalogue.Call, alloy stock.Alloy) string {
	return Thickness(c, c.Value("thickness")) + " " + alloy.Name
}

// Thickness writes a thickness with its gauge: "22 ga (0.64 mm)" where it
// was typed as a gauge, otherwise "0.8 mm (20 ga)", where the nearest gauge is
// within one per cent.
func Thickness(c *catalogue.Call, v catalogue.Value) string {
	if v.HasGauge {
		return stock.GaugeName(v.Gauge) + " ga (" + strings.Join(lengths(c, v.Number), ", ") + ")"
	}
	s, inBrackets := lengths(c, v.Number)[0], lengths(c, v.Number)[1:]
	if n, mm := stock.NearestGauge(v.Number); math.Abs(mm/v.Number-1) < 0.01 {
		inBrackets = append(inBrackets, stock.GaugeName(n)+" ga")
	}
	if len(inBrackets) > 0 {
		s += " (" + strings.Join(inBrackets, ", ") + ")"
	}
	return s
}

// Foot is the last line of a picture: its date and the unit of its measures.
func Foot(c *catalogue.Call) string {
	unit := "Lengths in mm."
	if Inches(c) {
		unit = "Lengths in mm (inches)."
	}
	if c.Now.IsZero() {
		return unit
	}
	return unit + " " + c.Now.UTC().Format("2 Jan 2006") + "."
}

// NoPrice says why there is no cost.
func NoPrice(metal string) string {
	return "no cost: the configuration has no price of " + metal
}

// Capital makes the first letter a capital, for the start of a headline.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if first == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(first)) + s[size:]
}

// Article puts "a" or "an" before a word.
func Article(word string) string {
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// Counted is a number with its noun.
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
