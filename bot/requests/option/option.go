// Package option has the options that several requests share, so that a stone,
// an alloy or a thickness is typed, checked, completed and kept on the bench the
// same way everywhere. Each call makes new values that a request may change.
package option

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Bounds of what a maker can ask for, mm.
const (
	MinSideMM      = 0.8
	MaxSideMM      = 100
	MinThicknessMM = 0.1
	MaxThicknessMM = 6
)

// Practice marks a default that the trade uses and nobody publishes.
const Practice = "common practice, no source"

// Stone are the stone seen from above: outline, size, or a maker's own
// points for a measured outline. Depth is Depth.
func Stone() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "outline", Aliases: []string{"shape"},
			Summary: "the stone seen from above: oval, pear, emerald ...",
			Kind:    catalogue.Word, Choices: Outlines(), Bare: true,
			Required: true, Prompt: "which outline is the stone?",
			Unless: []string{"traced"},
		},
		{
			Name: "size", Aliases: []string{"stone"},
			Summary: "length x width of the stone in mm; a tapered baguette has a third side",
			Kind:    catalogue.Size, Min: MinSideMM, Max: MaxSideMM, Bare: true,
			Required: true, Prompt: "what size is the stone, length x width in mm?",
			Unless:  []string{"points", "traced"},
			Suggest: calibratedSizes(), Sample: sampleSize,
			NotRequired: func(args catalogue.Args) bool {
				return outline.Kind(args.Word("outline")) == outline.Measured
			},
		},
		{
			Name: "points", Aliases: []string{"caliper-points"},
			Summary: "for a measured outline: 8 to 64 caliper points x,y in mm, in order round the stone",
			Kind:    catalogue.Points, Min: -MaxSideMM, Max: MaxSideMM, Bare: true,
			Excludes: []string{"size"},
		},
		{
			Name:    "traced",
			Summary: "a stone that you traced, by the name that trace keep gave it",
			Kind:    catalogue.Single, Excludes: []string{"outline", "size", "points"},
		},
	}
}

// sampleSize is a size that suits the outline, for a line to try.
func sampleSize(args catalogue.Args) string {
	kind := outline.Kind(args.Word("outline"))
	if kind == "" {
		kind = outline.Oval
	}
	return sizeLine(kind.Describe().Sample)
}

// sizeLine is a size as it is typed: "6", "8x6", "6x4x3", or "" for none.
func sizeLine(s outline.Size) string {
	var numbers []string
	for _, mm := range []float64{s.LengthMM, s.WidthMM, s.ThirdMM} {
		if mm > 0 {
			numbers = append(numbers, strconv.FormatFloat(mm, 'f', -1, 64))
		}
	}
	return strings.Join(numbers, "x")
}

// calibratedSizes are the sizes that completion offers first: ovals, then
// rounds.
func calibratedSizes() []string {
	var list []string
	for _, size := range append(outline.Oval.Describe().PublishedSizes, outline.Round.Describe().PublishedSizes...) {
		list = append(list, sizeLine(size))
	}
	return list
}

func Outlines() []catalogue.Choice {
	var list []catalogue.Choice
	for _, k := range outline.Kinds() {
		d := k.Describe()
		list = append(list, catalogue.Choice{Key: string(k), Aliases: d.Aliases, Summary: d.Summary})
	}
	return list
}

// Alloy is the metal. Requests that can do without take Default away.
func Alloy() catalogue.Option {
	return catalogue.Option{
		Name: "alloy", Aliases: []string{"metal"},
		Summary: "the metal: sterling, 18k-yellow, copper ...",
		Kind:    catalogue.Word, Choices: Alloys(), Bare: true,
		Prompt:  "which metal is it?",
		Default: "sterling", DefaultNote: Practice, Bench: true,
	}
}

func Alloys() []catalogue.Choice {
	var list []catalogue.Choice
	for _, a := range stock.Alloys() {
		aliases := slices.Clone(a.Aliases)
		list = append(list, catalogue.Choice{
			Key: a.Key, Aliases: aliases, Summary: a.Name + ", " + a.Composition,
		})
	}
	for _, v := range stock.VagueWords() {
		list = append(list, catalogue.Choice{Key: v.Word, Aliases: v.Aliases, Summary: "which: " + orWords(v.Of) + "?"})
	}
	return list
}

func orWords(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// WhichAlloy asks back for a word that names several alloys; nil for another.
func WhichAlloy(c *catalogue.Call, option string) error {
	v, ok := stock.VagueByWord(c.Args.Word(option))
	if !ok {
		return nil
	}
	return answer.Refuse(c.Retyped(map[string]string{option: v.Of[0]}), "which %s is it: %s? They melt, cool and weigh differently",
		strings.ReplaceAll(v.Word, "-", " "), orWords(v.Of))
}

// Thickness is the sheet's or wall's thickness, by Brown & Sharpe number
// ("22ga"), in mm or in inches.
func Thickness() catalogue.Option {
	return catalogue.Option{
		Name: "thickness", Aliases: []string{"gauge", "thick"},
		Summary: "thickness of the sheet: 22ga, 0.64 mm or .025 in",
		Kind:    catalogue.Thickness, Min: MinThicknessMM, Max: MaxThicknessMM, Bare: true,
		Prompt:  "how thick is the sheet (22ga, 0.64 mm, .025 in)?",
		Default: "22ga", DefaultNote: Practice, Bench: true,
		Suggest: []string{"22ga", "20ga", "24ga", "18ga", "26ga", "0.5mm", "0.6mm", "0.8mm", "1mm"},
	}
}

// Depth is the stone's depth from table to culet. It has no default: a
// request that can estimate it says so.
func Depth() catalogue.Option {
	return catalogue.Option{
		Name: "depth", Aliases: []string{"deep"},
		Summary: "depth of the stone from table to culet, mm",
		Kind:    catalogue.Length, Min: 0.3, Max: 80,
		Prompt:  "how deep is the stone from table to culet, in mm?",
		Suggest: []string{"3", "3.5", "4", "4.5", "5"},
	}
}

// Paper is the paper of the 1:1 template.
func Paper() catalogue.Option {
	return catalogue.Option{
		Name:    "paper",
		Summary: "paper of the 1:1 template: a4 or letter",
		Kind:    catalogue.Word, Bare: true,
		Choices: []catalogue.Choice{
			{Key: "a4", Summary: "210 x 297 mm"},
			{Key: "letter", Aliases: []string{"us-letter"}, Summary: "8.5 x 11 in"},
		},
		Default: "a4", Bench: true,
	}
}

// Units chooses the units that an answer shows besides mm.
func Units() catalogue.Option {
	return catalogue.Option{
		Name:    "units",
		Summary: "show lengths in mm or in inches",
		Kind:    catalogue.Word,
		Choices: []catalogue.Choice{
			{Key: "mm", Aliases: []string{"metric", "millimetres", "millimeters"}, Summary: "millimetres"},
			{Key: "inch", Aliases: []string{"in", "inches", "imperial"}, Summary: "inches beside millimetres"},
		},
		Default: "mm", Bench: true,
	}
}

// Lean are the wall's slope, from the axis or as the included angle.
func Lean() []catalogue.Option {
	return []catalogue.Option{
		{
			Name:    "lean",
			Summary: "lean of the wall from the axis, degrees (half the included angle)",
			Kind:    catalogue.Angle, Min: 0, Max: 45,
			Default: "8.5", DefaultNote: "17 degrees included, a value from memory", Bench: true,
			Suggest:  []string{"8.5", "14", "6", "10"},
			Excludes: []string{"included"},
		},
		{
			Name: "included", Aliases: []string{"included-angle"},
			Summary: "angle between opposite walls, degrees (twice the lean)",
			Kind:    catalogue.Angle, Min: 0, Max: 90,
			Suggest: []string{"17", "28"},
		},
	}
}

// AlloyOf returns the alloy of an option. A word that names several is refused
// with the question which; the parser lets only known words through, so any other
// is a bug.
func AlloyOf(c *catalogue.Call, option string) (stock.Alloy, error) {
	if err := WhichAlloy(c, option); err != nil {
		return stock.Alloy{}, err
	}
	a, ok := stock.AlloyByKey(c.Word(option))
	if !ok {
		return stock.Alloy{}, fmt.Errorf("alloy %q is not in the table", c.Word(option))
	}
	return a, nil
}

// Neutral is where in its thickness the metal keeps its length, and Kerf what
// saw and file take: given as numbers, they stand in place of what the asker's
// trials have taught.
func Neutral() catalogue.Option {
	return catalogue.Option{
		Name: "neutral", Aliases: []string{"k"},
		Summary: "neutral factor: where in the thickness the metal keeps its length, 0.2 to 0.65",
		Kind:    catalogue.Number, Min: 0.2, Max: 0.65, Suggest: []string{"0.5", "0.4"},
	}
}

// Kerf goes with Neutral.
func Kerf() catalogue.Option {
	return catalogue.Option{
		Name: "kerf", Aliases: []string{"saw-kerf"},
		Summary: "what saw and file take between two edges of the blank, mm",
		Kind:    catalogue.Length, Min: -0.1, Max: 0.6, Suggest: []string{"0", "0.1", "0.2"},
	}
}

// Leaning reads the options of Lean back.
func Leaning(c *catalogue.Call) units.Angle {
	if c.Args.Has("included") {
		return units.Angle(c.Number("included")/2) * units.Degree
	}
	return units.Angle(c.Number("lean")) * units.Degree
}
