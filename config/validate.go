package config

import (
	"errors"
	"fmt"
	"math"
	"net"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// validate checks every value against its field's tags, then what the tags
// can't say, and makes the workshop.
func (c *Config) validate() error {
	v := &validation{c: c}
	v.walk(reflect.ValueOf(c).Elem(), "")
	v.metrics()
	v.workshop()
	return errors.Join(v.problems...)
}

type validation struct {
	c        *Config
	problems []error
}

func (v *validation) problem(path, format string, args ...any) {
	v.problems = append(v.problems,
		fmt.Errorf("%s: %s", v.c.Origin(path), fmt.Sprintf(format, args...)))
}

func (v *validation) walk(s reflect.Value, path string) {
	for _, field := range fields(s.Type()) {
		value, key := s.FieldByIndex(field.Index), join(path, field.Tag.Get("yaml"))
		switch {
		case value.Kind() == reflect.Struct:
			v.walk(value, key)
		case value.Kind() == reflect.Slice && value.Type().Elem().Kind() == reflect.Struct:
			for i := range value.Len() {
				v.walk(value.Index(i), fmt.Sprintf("%s[%d]", key, i+1))
			}
		case !fits(value, field.Tag):
			v.problem(key, "%s", wants(key, field))
		}
	}
}

// fits tells whether a value is in the range of its tags. An empty string is
// "not given" outside lists; what must be given is checked where it is used.
func fits(value reflect.Value, tag reflect.StructTag) bool {
	if s, ok := value.Interface().(string); ok {
		if words := tag.Get("oneof"); words != "" {
			return slices.Contains(strings.Fields(words), s)
		}
		if pattern := tag.Get("pattern"); pattern != "" && s != "" {
			return regexp.MustCompile("^(?:" + pattern + ")$").MatchString(s)
		}
		return true
	}
	low, high := tag.Get("min"), tag.Get("max")
	if low == "" {
		return true
	}
	if d, ok := value.Interface().(time.Duration); ok {
		least, _ := time.ParseDuration(low)
		most, _ := time.ParseDuration(high)
		return least <= d && d <= most
	}
	least, _ := strconv.ParseFloat(low, 64)
	most, _ := strconv.ParseFloat(high, 64)
	x := value.Convert(reflect.TypeFor[float64]()).Float()
	return least <= x && x <= most // false for NaN
}

func (v *validation) metrics() {
	addr := v.c.Discord.MetricsAddr
	if addr == "" {
		return
	}
	if _, port, err := net.SplitHostPort(addr); err != nil || port == "" {
		field, _ := fieldOf(reflect.TypeFor[Discord](), "metrics_addr")
		v.problem("discord.metrics_addr", "%s", wants("discord.metrics_addr", field))
	}
}

// workshop turns the lists into the types of the bench.
func (v *validation) workshop() {
	w, shop := v.c.Workshop, &v.c.shop
	*shop = stock.Workshop{Demo: w.Demo}
	for i, b := range w.Blocks {
		e := v.entry("blocks", i, reflect.TypeFor[Block]())
		block := stock.Block{
			Name:        e.text("name", b.Name),
			Kind:        e.outline(b.Outline),
			Lean:        units.Angle(b.LeanDeg) * units.Degree,
			ThicknessMM: b.ThicknessMM,
		}
		if len(b.HolesMM) == 0 {
			e.problem("holes_mm")
		}
		for _, hole := range b.HolesMM {
			block.Holes = append(block.Holes, e.size("holes_mm", hole))
		}
		slices.SortStableFunc(block.Holes, func(a, b stockSize) int {
			switch {
			case a.LengthMM > b.LengthMM:
				return -1
			case a.LengthMM < b.LengthMM:
				return 1
			}
			return 0
		})
		shop.Blocks = append(shop.Blocks, block)
	}
	for i, p := range w.Punches {
		e := v.entry("punches", i, reflect.TypeFor[Punch]())
		shop.Punches = append(shop.Punches, stock.Punch{
			Name:  e.text("name", p.Name),
			Kind:  e.outline(p.Outline),
			Lean:  units.Angle(p.LeanDeg) * units.Degree,
			Small: e.size("small_mm", p.SmallMM),
			Large: e.size("large_mm", p.LargeMM),
		})
	}
	for i, t := range w.Tubes {
		e := v.entry("tubes", i, reflect.TypeFor[Tube]())
		if t.WallMM >= t.OuterMM/2 {
			e.problem("wall_mm")
		}
		shop.Tubes = append(shop.Tubes, stock.Tube{
			Name: e.text("name", t.Name), Alloy: e.text("alloy", t.Alloy),
			OuterMM: t.OuterMM, WallMM: t.WallMM,
		})
	}
	for i, p := range w.Presses {
		e := v.entry("presses", i, reflect.TypeFor[Press]())
		radius := p.RamDiameterMM / 2
		shop.Presses = append(shop.Presses, stock.Press{
			Name:       e.text("name", p.Name),
			CapacityN:  p.CapacityTonnes * newtonPerTonneForce,
			RamAreaMM2: math.Pi * radius * radius,
		})
	}
	for i, s := range w.Sheets {
		e := v.entry("sheets", i, reflect.TypeFor[Sheet]())
		shop.Sheets = append(shop.Sheets, stock.Sheet{
			Name: e.text("name", s.Name), WidthMM: s.WidthMM, LengthMM: s.LengthMM,
		})
	}
	for i, p := range w.Prices {
		e := v.entry("prices", i, reflect.TypeFor[Price]())
		if _, err := time.Parse(time.DateOnly, p.Date); err != nil {
			e.problem("date")
		}
		shop.Prices = append(shop.Prices, stock.Price{
			Alloy: e.text("alloy", p.Alloy), PerGram: p.PerGram,
			Currency: e.text("currency", p.Currency), Date: p.Date,
		})
	}
	names := map[string]string{}
	for i, b := range shop.Blocks {
		v.unique(names, "blocks", i, b.Name)
	}
	for i, t := range shop.Tubes {
		v.unique(names, "tubes", i, t.Name)
	}
	for i, p := range shop.Presses {
		v.unique(names, "presses", i, p.Name)
	}
	for i, p := range shop.Punches {
		v.unique(names, "punches", i, p.Name)
	}
}

type stockSize = outline.Size

const (

	// newtonPerTonneForce is 1000 kg times standard gravity, exact by
	// definition (SI brochure, CGPM 1901).
	newtonPerTonneForce = 9806.65
)

func (v *validation) unique(names map[string]string, list string, i int, name string) {
	path := fmt.Sprintf("workshop.%s[%d].name", list, i+1)
	if name == "" {
		return
	}
	if first, taken := names[strings.ToLower(name)]; taken {
		v.problem(path, "%s is %q, and so is %s; give each its own name, such as \"name: %s-2\"", path, name, first, name)
		return
	}
	names[strings.ToLower(name)] = path
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
	field, _ := fieldOf(e.t, key)
	path := join(e.path, key)
	e.v.problem(path, "%s", wants(path, field))
}

// text is a value that must be there.
func (e *entry) text(key, value string) string {
	if value == "" {
		e.problem(key)
	}
	return value
}

func (e *entry) outline(word string) outline.Kind {
	known := map[string]bool{}
	for _, kind := range outline.Kinds() {
		known[string(kind)] = true
	}
	delete(known, string(outline.Measured)) // a block is named by its shape
	if !known[word] {
		path := join(e.path, "outline")
		e.v.problem(path, "%s: %q is not an outline's word%s", path, word, nearest(word, known))
	}
	return outline.Kind(word)
}

// size reads "8x6", "8" or, for a tapered baguette, "8x6x4".
func (e *entry) size(key, text string) stockSize {
	const leastMM, mostMM = 0.5, 200
	parts := strings.Split(strings.ToLower(strings.ReplaceAll(text, " ", "")), "x")
	var mm [3]float64
	if len(parts) > len(mm) {
		e.problem(key)
		return stockSize{}
	}
	for i, part := range parts {
		x, err := strconv.ParseFloat(part, 64)
		if err != nil || !(leastMM <= x && x <= mostMM) {
			e.problem(key)
			return stockSize{}
		}
		mm[i] = x
	}
	if len(parts) == 1 {
		mm[1] = mm[0]
	}
	return stockSize{LengthMM: max(mm[0], mm[1]), WidthMM: min(mm[0], mm[1]), ThirdMM: mm[2]}
}
