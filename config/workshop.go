package config

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// workshop turns the lists into the types of the bench.
func (v *validation) workshop() {
	w := v.c.Workshop
	v.c.shop = stock.Workshop{
		Demo: w.Demo, Blocks: v.blocks(w.Blocks), Punches: v.punches(w.Punches), Tubes: v.tubes(w.Tubes),
		Presses: v.presses(w.Presses), Sheets: v.sheets(w.Sheets), Prices: v.prices(w.Prices),
	}
}

func (v *validation) blocks(list []Block) (all []stock.Block) {
	for i, b := range list {
		e := v.entry("blocks", i, reflect.TypeFor[Block]())
		block := stock.Block{
			Name:        e.name(b.Name),
			Kind:        e.outline(b.Outline),
			Lean:        units.Angle(b.LeanDeg) * units.Degree,
			ThicknessMM: b.ThicknessMM,
		}
		if len(b.HolesMM) == 0 {
			e.problem("holes_mm")
		}
		for _, hole := range b.HolesMM {
			block.Holes = append(block.Holes, e.size("holes_mm", block.Kind, hole))
		}
		slices.SortStableFunc(block.Holes, func(a, b outline.Size) int {
			return cmp.Compare(b.LengthMM, a.LengthMM)
		})
		all = append(all, block)
	}
	return all
}

func (v *validation) punches(list []Punch) (all []stock.Punch) {
	for i, p := range list {
		e := v.entry("punches", i, reflect.TypeFor[Punch]())
		all = append(all, stock.Punch{
			Name:  e.name(p.Name),
			Kind:  e.outline(p.Outline),
			Lean:  units.Angle(p.LeanDeg) * units.Degree,
			Small: e.size("small_mm", outline.Kind(p.Outline), p.SmallMM),
			Large: e.size("large_mm", outline.Kind(p.Outline), p.LargeMM),
		})
	}
	return all
}

func (v *validation) tubes(list []Tube) (all []stock.Tube) {
	for i, t := range list {
		e := v.entry("tubes", i, reflect.TypeFor[Tube]())
		if t.WallMM >= t.OuterMM/2 {
			e.problem("wall_mm")
		}
		all = append(all, stock.Tube{
			Name: e.name(t.Name), Alloy: e.alloy(t.Alloy),
			OuterMM: t.OuterMM, WallMM: t.WallMM,
		})
	}
	return all
}

func (v *validation) presses(list []Press) (all []stock.Press) {
	for i, p := range list {
		e := v.entry("presses", i, reflect.TypeFor[Press]())
		radius := p.RamDiameterMM / 2
		all = append(all, stock.Press{
			Name:       e.name(p.Name),
			CapacityN:  p.CapacityTonnes * units.NewtonPerTonneForce,
			RamAreaMM2: math.Pi * radius * radius,
		})
	}
	return all
}

func (v *validation) sheets(list []Sheet) (all []stock.Sheet) {
	for i, s := range list {
		e := v.entry("sheets", i, reflect.TypeFor[Sheet]())
		all = append(all, stock.Sheet{
			Name: e.text("name", s.Name), WidthMM: s.WidthMM, LengthMM: s.LengthMM,
		})
	}
	return all
}

func (v *validation) prices(list []Price) (all []stock.Price) {
	for i, p := range list {
		e := v.entry("prices", i, reflect.TypeFor[Price]())
		if _, err := time.Parse(time.DateOnly, p.Date); err != nil {
			e.problem("date")
		}
		all = append(all, stock.Price{
			Alloy: e.alloy(p.Alloy), PerGram: p.PerGram,
			Currency: e.text("currency", p.Currency), Date: p.Date,
		})
	}
	return all
}

// entry is one entry of a list of the workshop.
type entry struct {
	v    *validation
	path string
	t    reflect.Type
	seen map[string]bool
}

func (v *validation) entry(list string, i int, t reflect.Type) *entry {
	return &entry{v, fmt.Sprintf("workshop.%s[%d]", list, i+1), t, map[string]bool{}}
}

func (e *entry) problem(key string) {
	if e.seen[key] {
		return
	}
	e.seen[key] = true
	path := join(e.path, key)
	e.v.problem(path, "%s", mustBe(path, e.field(key)))
}

func (e *entry) field(key string) reflect.StructField {
	field, _ := fieldOf(e.t, key)
	return field
}

// text is a value that must be there.
func (e *entry) text(key, value string) string {
	if value == "" {
		e.problem(key)
	}
	return value
}

// name is a text that no other entry with a name has.
func (e *entry) name(name string) string {
	path, key := join(e.path, "name"), strings.ToLower(e.text("name", name))
	if first, taken := e.v.names[key]; taken && name != "" {
		e.v.problem(path, "%s is %q, and so is %s; give each its own name, such as \"name: %s-2\"", path, name, first, name)
	} else {
		e.v.names[key] = path
	}
	return name
}

// alloy returns the key of an alloy's word or alias.
func (e *entry) alloy(word string) string {
	if alloy, ok := stock.AlloyByKey(word); ok {
		return alloy.Key
	}
	var known []string
	for _, alloy := range stock.Alloys() {
		known = append(known, alloy.Key)
	}
	e.unknown("alloy", "an alloy's", word, known)
	return word
}

// outline returns the kind of an outline's word. A measured outline is one
// maker's stone, and no block has it.
func (e *entry) outline(word string) outline.Kind {
	var known []string
	for _, kind := range outline.Kinds() {
		if kind != outline.Measured {
			known = append(known, string(kind))
		}
	}
	if !slices.Contains(known, word) {
		e.unknown("outline", "an outline's", word, known)
	}
	return outline.Kind(word)
}

func (e *entry) unknown(key, whose, word string, known []string) {
	path := join(e.path, key)
	e.v.problem(path, "%s: %q is not %s word%s", path, word, whose, nearest(word, known))
}

// size reads "8x6", "8" (the width; the outline's length follows) or, for a
// tapered baguette, "8x6x4".
func (e *entry) size(key string, kind outline.Kind, text string) outline.Size {
	parts := strings.Split(strings.ToLower(strings.ReplaceAll(text, " ", "")), "x")
	var mm [3]float64
	if len(parts) > len(mm) {
		e.problem(key)
		return outline.Size{}
	}
	for i, part := range parts {
		x, err := strconv.ParseFloat(part, 64)
		if err != nil || !inRange(x, e.field(key).Tag) {
			e.problem(key)
			return outline.Size{}
		}
		mm[i] = x
	}
	if len(parts) == 1 {
		return kind.Filled(outline.Size{WidthMM: mm[0]})
	}
	return kind.Filled(outline.Size{LengthMM: mm[0], WidthMM: mm[1], ThirdMM: mm[2]})
}

// workshopOf writes a workshop in the configuration's form.
func workshopOf(shop *stock.Workshop) Workshop {
	w := Workshop{Demo: shop.Demo}
	for _, b := range shop.Blocks {
		block := Block{
			Name: b.Name, Outline: string(b.Kind),
			LeanDeg: tidy(b.Lean.Degrees()), ThicknessMM: b.ThicknessMM,
		}
		for _, hole := range b.Holes {
			block.HolesMM = append(block.HolesMM, sizeText(b.Kind, hole))
		}
		w.Blocks = append(w.Blocks, block)
	}
	for _, p := range shop.Punches {
		w.Punches = append(w.Punches, Punch{
			Name: p.Name, Outline: string(p.Kind), LeanDeg: tidy(p.Lean.Degrees()),
			SmallMM: sizeText(p.Kind, p.Small), LargeMM: sizeText(p.Kind, p.Large),
		})
	}
	for _, t := range shop.Tubes {
		w.Tubes = append(w.Tubes, Tube(t))
	}
	for _, p := range shop.Presses {
		w.Presses = append(w.Presses, Press{
			Name:           p.Name,
			CapacityTonnes: tidy(p.CapacityN / units.NewtonPerTonneForce),
			RamDiameterMM:  tidy(2 * math.Sqrt(p.RamAreaMM2/math.Pi)),
		})
	}
	for _, s := range shop.Sheets {
		w.Sheets = append(w.Sheets, Sheet(s))
	}
	for _, p := range shop.Prices {
		w.Prices = append(w.Prices, Price(p))
	}
	return w
}

// tidy takes away the last bits that a conversion of units leaves.
func tidy(x float64) float64 { return math.Round(x*1e9) / 1e9 }

func sizeText(kind outline.Kind, s outline.Size) string {
	if s == kind.Filled(outline.Size{WidthMM: s.WidthMM}) {
		return number(s.WidthMM)
	}
	text := number(s.LengthMM) + "x" + number(s.WidthMM)
	if s.ThirdMM != 0 {
		text += "x" + number(s.ThirdMM)
	}
	return text
}

func number(x float64) string { return strconv.FormatFloat(tidy(x), 'f', -1, 64) }
