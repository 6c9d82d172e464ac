// Package kit is the request "kit": the blanks of a class, laid on sheets, with
// cut list, cost and handouts.
package kit

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
)

// Bounds of a kit.
const (
	maxMakers    = 60
	maxKitPieces = 600
	maxKitKinds  = 12
	maxKitRings  = 20_000
	minSheetMM   = 20
	maxSheetMM   = 2000
)

// Request is a class that cuts pieces of the requests given.
func Request(specs []catalogue.Spec) catalogue.Spec {
	cutting := sheetRequests(specs)
	return catalogue.Spec{
		Name:    "kit",
		Summary: "a class: cut list, sheet layout, mass, cost and handouts for several makers",
		Detail: "Type the class, then the pieces as you would ask for them, with ; or + or a new line between several. A " +
			"number before a piece is how many in all (2 each: for every maker); without one, every maker gets one. A kit holds pieces of " +
			strings.Join(cutting, ", ") + ". Each metal and thickness has its own sheets; wire and tube are listed by length. " +
			"Type the kit's options before its pieces.",
		Options: kitOptions(),
		Examples: []catalogue.Example{
			{Line: "kit 12 makers collet oval 8x6 depth 4 sterling 22ga", Summary: "one blank for each of twelve"},
			{Line: "kit 12 makers collet oval 8x6 depth 4 sterling 22ga ; 6 collet pear 9x6 depth 4 sterling 22ga", Summary: "two pieces, six of the second"},
			{Line: "kit 8 makers spare 25% sheet 100x200 collet emerald 8x6 depth 4.2 copper 0.8mm + dome 20 height 6 copper 24ga", Summary: "spares, a sheet of your own, two thicknesses"},
			{Line: "kit 10 makers each 2 half-sheet collet round 6 depth 3.7 brass 20ga ; 10 band us 7 width 4 1.2mm copper", Summary: "two for each, from the list's half-sheet"},
			{Line: "kit 12 makers tubeset round 4 sterling ; band us 7 wire 2mm sterling ; jumpring 18ga inside 5 count 20 sterling", Summary: "tube, wire and jump rings by length"},
		},
		Parts: []catalogue.Part{
			{Name: "class", Summary: "cut list, sheets and handouts for a class", Options: []string{"makers", "pieces", "each", "spare", "stocklength", "paper", "units"}},
			{
				Name: "sheets", Summary: "the same, with the sheet, the gaps and the blades of your own",
				Options: []string{"makers", "pieces", "stock", "sheet", "gap", "blade", "each", "spare", "units"},
			},
		},
		Long:  true,
		Class: true,
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			return answerKit(ctx, c, cutting)
		},
	}
}

func kitOptions() []catalogue.Option {
	return []catalogue.Option{
		{
			Name: "makers", Aliases: []string{"maker", "students", "people", "participants"},
			Summary: "how many makers are in the class",
			Kind:    catalogue.Integer, Min: 1, Max: maxMakers, Bare: true,
			Required: true, Prompt: "how many makers are in the class?",
			Suggest: []string{"12", "8", "6", "10", "16"},
		},
		{
			Name: "each", Aliases: []string{"per-maker"},
			Summary: "how many of each piece every maker gets",
			Kind:    catalogue.Integer, Min: 1, Max: 20, Suggest: []string{"2", "3"},
		},
		{
			Name: "spare", Aliases: []string{"spares", "extra"},
			Summary: "spare blanks on top, in percent of each piece",
			Kind:    catalogue.Percent, Min: 0, Max: 100,
			Default: "0", DefaultNote: "default", Suggest: []string{"10", "20", "25"},
		},
		{
			Name: "gap", Aliases: []string{"kerf"},
			Summary: "metal between two blanks for the saw and the file, mm",
			Kind:    catalogue.Length, Min: 0.2, Max: 5,
			Default: "0.8", DefaultNote: option.Practice, Suggest: []string{"0.8", "0.5", "1", "1.5"},
		},
		{
			Name:    "sheet",
			Summary: "size of the sheet that you cut from, mm: 100x200 (default: one of the workshop's)",
			Kind:    catalogue.Size, Min: minSheetMM, Max: maxSheetMM,
			Suggest:  []string{"100x200", "150x300", "100x100"},
			Excludes: []string{"stock"},
		},
		{
			Name: "stock", Summary: "a sheet of the workshop's list, by its name",
			Kind: catalogue.Word, ChoicesFrom: sheetChoices, Bare: true,
		},
		{
			Name: "blade", Aliases: []string{"blade-life"},
			Summary: "how far this class saws with one blade, mm",
			Kind:    catalogue.Length, Min: 20, Max: 10_000,
			Default: "250", DefaultNote: option.Practice, Suggest: []string{"250", "150", "500"},
		},
		{
			Name: "stocklength", Aliases: []string{"stock-length", "lengths"},
			Summary: "how long the wire and tube is that you cut from, mm",
			Kind:    catalogue.Length, Min: 20, Max: 50_000,
			Default: "300", DefaultNote: option.Practice, Suggest: []string{"300", "500", "1000"},
		},
		option.Paper(),
		option.Units(),
		{
			Name: "pieces", Aliases: []string{"piece"},
			Summary: "the pieces, as you would ask for them, with ; or + between several",
			Kind:    catalogue.Text, Bare: true,
			Required: true, Prompt: "what do they cut (collet oval 8x6 depth 4 sterling 22ga)?",
			Suggest: []string{"collet oval 8x6 depth 4 sterling 22ga"},
		},
	}
}

// sheetRequests are the requests whose pieces a kit may hold: those that ask
// for a metal and a thickness, and draw, and those of tube.
func sheetRequests(specs []catalogue.Spec) []string {
	var names []string
	for i := range specs {
		holds := !specs[i].Keeps
		of := []string{"alloy", "thickness", "paper"}
		if specs[i].Name == "tubeset" { // its tube is chosen, and no thickness asked for
			of = []string{"alloy", "paper"}
		}
		for _, o := range of {
			_, ok := specs[i].Option(o)
			holds = holds && ok
		}
		if holds {
			names = append(names, specs[i].Name)
		}
	}
	return names
}

// sheetChoices are the workshop's sheets. "sheet half-sheet" is the one that is
// called half-sheet, though sheet alone is followed by a size.
func sheetChoices(shop *stock.Workshop) []catalogue.Choice {
	var list []catalogue.Choice
	for _, s := range shop.Sheets {
		list = append(list, catalogue.Choice{Key: s.Name, Aliases: []string{"sheet-" + s.Name},
			Summary: fmt.Sprintf("%s x %s mm", words.MM(s.WidthMM), words.MM(s.LengthMM))})
	}
	return list
}

// kit is a class with all that its answer says.
type kit struct {
	call *catalogue.Call
	// cutting are the requests whose pieces it may hold.
	cutting []string

	makers int
	gapMM  float64
	pieces []*kitPiece
	metals []*kitMetal
	stocks []*kitStock
}

// kitOf computes the blanks of a call and lays them on sheets.
func kitOf(ctx context.Context, c *catalogue.Call, cutting []string) (*kit, error) {
	k := &kit{call: c, cutting: cutting, makers: int(c.Number("makers"))}
	if err := k.read(ctx); err != nil {
		return nil, err
	}
	if err := k.withoutUse(); err != nil {
		return nil, err
	}
	if len(k.blanks()) > 0 {
		k.gapMM = c.Number("gap")
	}
	if err := k.share(); err != nil {
		return nil, err
	}
	return k, k.nest(ctx)
}

// withoutUse refuses what was typed for sheet where nothing is cut from it, and
// for wire and tube likewise.
func (k *kit) withoutUse() error {
	refuse := func(option, problem string) error {
		return answer.Refuse(k.try(kitLines(k.call.Word("pieces")), map[string]string{option: ""}), "%s %s: leave it out", option, problem)
	}
	if len(k.blanks()) == 0 {
		for _, o := range []string{"gap", "sheet", "stock"} {
			if k.call.Args.Typed(o) {
				return refuse(o, "is for blanks of sheet, and these pieces are cut from wire or tube")
			}
		}
	}
	if len(k.lengths()) == 0 && k.call.Args.Typed("stocklength") {
		return refuse("stocklength", "is for wire and tube, and these pieces are cut from sheet")
	}
	return nil
}

func answerKit(ctx context.Context, c *catalogue.Call, cutting []string) (*answer.Answer, error) {
	k, err := kitOf(ctx, c, cutting)
	if err != nil {
		return nil, err
	}
	k.settle()
	k.progress(90, "drawing")
	a := &answer.Answer{
		Headline:    k.headline(),
		Assumptions: k.assumptions(),
		Cautions:    k.cautions(),
	}
	k.figures(a)
	k.notes(a)
	k.steps(a)
	k.attach(ctx, a)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	k.progress(100, "done")
	return a, nil
}

// progress says how far the kit is, in percent. Reading the pieces takes it to
// 20, nesting to 90.
func (k *kit) progress(percent int, note string) { k.call.Progress(percent, 100, note) }

// count is how many blanks there are in all.
func (k *kit) count() int {
	n := 0
	for _, b := range k.blanks() {
		n += b.count
	}
	return n
}

// blanks are those of all pieces.
func (k *kit) blanks() []*kitBlank {
	var list []*kitBlank
	for _, p := range k.pieces {
		list = append(list, p.blanks...)
	}
	return list
}
