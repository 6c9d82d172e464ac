package requests

import (
	"fmt"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

// The workshop's blocks, tubes and presses are named in the configuration as
// their owner likes; a line has them in lower case without blanks.

func shopKey(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(name)), "-")
}

func blockOption() catalogue.Option {
	return catalogue.Option{
		Name: "block", Aliases: []string{"die"},
		Summary: "the block to form it in, by its name in the workshop",
		Kind:    catalogue.Word, Bench: true,
		Excludes: []string{"lean", "included"},
		ChoicesFrom: func(w *stock.Workshop) []catalogue.Choice {
			if w == nil {
				return nil
			}
			var list []catalogue.Choice
			for _, b := range w.Blocks {
				list = append(list, catalogue.Choice{Key: shopKey(b.Name), Summary: fmt.Sprintf("%s holes, lean %.4g°, %.4g mm thick", b.Kind, b.Lean.Degrees(), b.ThicknessMM)})
			}
			return list
		},
	}
}

func tubeOption() catalogue.Option {
	return catalogue.Option{
		Name:    "tube",
		Summary: "a tube of the workshop, by its name",
		Kind:    catalogue.Word,
		ChoicesFrom: func(w *stock.Workshop) []catalogue.Choice {
			if w == nil {
				return nil
			}
			var list []catalogue.Choice
			for _, t := range w.Tubes {
				list = append(list, catalogue.Choice{Key: shopKey(t.Name), Summary: fmt.Sprintf("%s, %.4g mm outside, wall %.4g mm", t.Alloy, t.OuterMM, t.WallMM)})
			}
			return list
		},
	}
}

func pressOption() catalogue.Option {
	return catalogue.Option{
		Name:    "press",
		Summary: "the press, by its name in the workshop, for the gauge pressure",
		Kind:    catalogue.Word, Bench: true,
		ChoicesFrom: func(w *stock.Workshop) []catalogue.Choice {
			if w == nil {
				return nil
			}
			var list []catalogue.Choice
			for _, p := range w.Presses {
				list = append(list, catalogue.Choice{Key: shopKey(p.Name), Summary: fmt.Sprintf("rated for %.0f kN", p.CapacityN/1000)})
			}
			return list
		},
	}
}

func blockNamed(w *stock.Workshop, key string) (stock.Block, bool) {
	for _, b := range shopOf(w).Blocks {
		if shopKey(b.Name) == key {
			return b, true
		}
	}
	return stock.Block{}, false
}

func tubeNamed(w *stock.Workshop, key string) (stock.Tube, bool) {
	for _, t := range shopOf(w).Tubes {
		if shopKey(t.Name) == key {
			return t, true
		}
	}
	return stock.Tube{}, false
}

func pressNamed(w *stock.Workshop, key string) (stock.Press, bool) {
	for _, p := range shopOf(w).Presses {
		if shopKey(p.Name) == key {
			return p, true
		}
	}
	return stock.Press{}, false
}

// shopOf spares the check for a workshop that is not there.
func shopOf(w *stock.Workshop) *stock.Workshop {
	if w == nil {
		return &stock.Workshop{}
	}
	return w
}

// demoShop says that what was used of the workshop is invented.
func demoShop(w *stock.Workshop, names ...string) []string {
	if !shopOf(w).Demo {
		return nil
	}
	var used []string
	for _, n := range names {
		if n != "" {
			used = append(used, n)
		}
	}
	if len(used) == 0 {
		return nil
	}
	return []string{strings.Join(used, ", ") + " (invented, demo workshop: list your own in the configuration)"}
}

// punchFor is the workshop's punch that fills an opening from base to rim.
func punchFor(w *stock.Workshop, kind outline.Kind, leanDeg float64, base, rim outline.Size) (stock.Punch, bool) {
	const sameLeanDeg = 0.6
	for _, p := range shopOf(w).Punches {
		off := p.Lean.Degrees() - leanDeg
		if p.Kind == kind && off < sameLeanDeg && off > -sameLeanDeg &&
			p.Small.WidthMM <= base.WidthMM+0.01 && p.Large.WidthMM >= rim.WidthMM-0.01 {
			return p, true
		}
	}
	return stock.Punch{}, false
}
