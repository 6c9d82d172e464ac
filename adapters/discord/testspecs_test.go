package discord

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

// Requests of the tests' own, so that every kind of option and every part of
// an answer is met, whatever the real catalogue holds.

func choicesOf(keys ...string) []catalogue.Choice {
	var list []catalogue.Choice
	for _, k := range keys {
		list = append(list, catalogue.Choice{Key: k, Summary: "the " + k})
	}
	return list
}

func manyWords(n int) []catalogue.Choice {
	var list []catalogue.Choice
	for i := range n {
		list = append(list, catalogue.Choice{Key: fmt.Sprintf("metal-%02d", i), Aliases: []string{fmt.Sprintf("m%02d", i)}})
	}
	return list
}

func testSpecs() []catalogue.Spec {
	plate := catalogue.Spec{
		Name: "plate", Summary: "a plate, with every kind of option",
		Options: []catalogue.Option{
			{Name: "seam", Summary: "where the seam is", Kind: catalogue.Word, Choices: choicesOf("corner", "side")},
			{Name: "size", Summary: "length x width", Kind: catalogue.Size, Min: 1, Max: 100, Bare: true, Required: true, Prompt: "what size is it?", Unless: []string{"points"}, Suggest: []string{"8x6", "10x8", "8"}},
			{Name: "metal", Summary: "the metal", Kind: catalogue.Word, Choices: manyWords(40), Default: "metal-00", Bare: true},
			{Name: "block", Summary: "a block of the workshop", Kind: catalogue.Word, ChoicesFrom: func(shop *stock.Workshop) []catalogue.Choice {
				var list []catalogue.Choice
				if shop != nil {
					for _, b := range shop.Blocks {
						list = append(list, catalogue.Choice{Key: strings.ReplaceAll(b.Name, " ", "-")})
					}
				}
				return list
			}},
			{Name: "thickness", Summary: "of the sheet", Kind: catalogue.Thickness, Min: 0.1, Max: 6, Suggest: []string{"22ga", "20ga", "0.8mm"}, Default: "22ga"},
			{Name: "depth", Summary: "how deep", Kind: catalogue.Length, Min: 0.3, Max: 80, Suggest: []string{"3", "4"}},
			{Name: "lean", Summary: "of the wall", Kind: catalogue.Angle, Max: 45, Suggest: []string{"8.5", "14"}},
			{Name: "ratio", Summary: "any number", Kind: catalogue.Number},
			{Name: "count", Summary: "how many", Kind: catalogue.Integer, Min: 1, Max: 60},
			{Name: "waste", Summary: "share lost", Kind: catalogue.Percent, Max: 50},
			{Name: "mass", Summary: "how heavy", Kind: catalogue.Mass, Max: 500},
			{Name: "force", Summary: "of the press", Kind: catalogue.Force},
			{Name: "points", Summary: "caliper points x,y in mm", Kind: catalogue.Points, Min: -100, Max: 100},
			{Name: "ring", Summary: "a ring size", Kind: catalogue.RingSize, Suggest: []string{"6", "6 1/2", "7"}},
			{Name: "both", Summary: "on both sides", Kind: catalogue.Flag},
			{Name: "remark", Summary: "anything", Kind: catalogue.Text},
		},
		Examples: []catalogue.Example{
			{Line: "plate 8x6 20ga seam corner"}, {Line: "plate 10x8 depth 4 lean 8.5 count 3 both"},
			{Line: "plate points 0,0 4,0 4,4 0,4"},
		},
		Answer: plateAnswer,
	}
	slow := catalogue.Spec{
		Name: "batch", Summary: "long work", Long: true,
		Options: []catalogue.Option{
			{Name: "count", Summary: "how many", Kind: catalogue.Integer, Min: 1, Max: 60, Default: "3"},
			{Name: "wait", Summary: "milliseconds for each", Kind: catalogue.Integer, Max: 5000, Default: "1"},
		},
		Examples: []catalogue.Example{{Line: "batch count 2"}},
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			n, wait := int(c.Args.Number("count", 1)), time.Duration(c.Args.Number("wait", 1))*time.Millisecond
			for i := range n {
				c.Progress(i, n, "cutting <@1> list")
				select {
				case <-time.After(wait):
				case <-ctx.Done():
					return nil, ctx.Err()
				}
			}
			if n == 13 {
				return nil, answer.Refuse("batch count 12", "13 can't be cut from one sheet")
			}
			return &answer.Answer{Headline: fmt.Sprintf("%d pieces", n), Steps: []string{"cut them"}}, nil
		},
	}
	ledger := catalogue.Spec{
		Name: "ledger", Summary: "for teachers", Needs: catalogue.Teacher,
		Examples: []catalogue.Example{{Line: "ledger"}},
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			return &answer.Answer{Headline: "12 answers this week"}, nil
		},
	}
	trial := catalogue.Spec{
		Name: "trial", Summary: "a trial piece was measured",
		Options: []catalogue.Option{
			{Name: "metal", Summary: "the metal", Kind: catalogue.Word, Choices: choicesOf("copper", "brass"), Required: true, Prompt: "which metal was it?"},
			{Name: "readings", Summary: "the readings, in mm", Kind: catalogue.Words, Required: true, Prompt: "what did you measure?"},
		},
		Examples: []catalogue.Example{{Line: "trial metal copper readings 4.1 4.2 4.15"}},
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			return &answer.Answer{Headline: "read " + c.Args.Word("readings")}, nil
		},
	}
	gauge := catalogue.Spec{
		Name: "caliper", Summary: "more options than a command takes, the measured ones last",
		Answer: func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
			return &answer.Answer{Headline: "rim " + c.Args.Word("rimgot") + " base " + c.Args.Word("basegot")}, nil
		},
		Examples: []catalogue.Example{{Line: "caliper rimgot 9x7 basegot 8x6"}},
	}
	for i := range 25 {
		gauge.Options = append(gauge.Options, catalogue.Option{Name: fmt.Sprintf("extra-%02d", i), Summary: "another", Kind: catalogue.Integer})
	}
	gauge.Options = append(gauge.Options,
		catalogue.Option{Name: "rimgot", Summary: "the rim as measured", Kind: catalogue.Size, Form: true},
		catalogue.Option{Name: "basegot", Summary: "the base as measured", Kind: catalogue.Size, Form: true})
	fault := catalogue.Spec{
		Name: "fault", Summary: "goes wrong",
		Options:  []catalogue.Option{{Name: "how", Summary: "how", Kind: catalogue.Word, Choices: choicesOf("panic", "picture", "ping", "long", "wait", "draw", "refuse", "alone", "fleeting", "inches", "about"), Bare: true, Required: true, Prompt: "how?"}},
		Examples: []catalogue.Example{{Line: "fault ping"}},
		Answer:   faultAnswer,
	}
	return []catalogue.Spec{plate, slow, ledger, trial, gauge, fault}
}

func plateAnswer(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
	if c.Args.Number("count", 1) == 59 {
		return nil, answer.Refuse("plate 8x6", "59 plates do not fit; up to 58 do")
	}
	name := "plate-" + strings.Join(strings.Fields(c.Args.Word("size")), "")
	return &answer.Answer{
		Request:  "plate",
		Headline: "cut a plate, " + c.Args.Word("size") + " mm, from " + c.Args.Word("metal") + " of " + c.Args.Word("thickness"),
		Figures: []answer.Figure{
			{ID: "length", Label: "length", Value: 25.4, Unit: answer.MM, Main: true},
			{ID: "mass", Label: "mass", Value: 3.216, Unit: answer.Gram, Main: true},
			{ID: "area", Label: "area", Value: 645.16, Unit: answer.MM2},
		},
		Notes:       []string{"thin for a plate"},
		Assumptions: []string{"thickness " + c.Args.Word("thickness") + " (default)"},
		Steps:       []string{"mark it", "cut it", "file 25.4 * 1 _mm_"},
		Cautions:    []string{"Wear eye protection.", "Follow the maker's instructions."},
		Attachments: plateFiles(name, c.Line()),
	}, nil
}

func plateFiles(name, line string) []answer.Attachment {
	return []answer.Attachment{
		{Name: name + ".png", Type: answer.PNG, Alt: "a plate with its measures",
			Render: func(context.Context) ([]byte, error) { return testPicture(line) }},
		{Name: name + ".pdf", Type: answer.PDF, Alt: "the plate at 1:1 on A4",
			Render: func(context.Context) ([]byte, error) { return []byte("%PDF-1.4 " + line), nil }},
		{Name: name + ".svg", Type: answer.SVG, Alt: "the plate at 1:1",
			Render: func(context.Context) ([]byte, error) { return []byte("<svg><!--" + line + "--></svg>"), nil }},
		{Name: name + "-corner.png", Type: answer.PNG, Alt: "a corner of the plate",
			Render: func(context.Context) ([]byte, error) { return testPicture(line + " corner") }},
	}
}

// testPicture is a small PNG that differs by line.
func testPicture(line string) ([]byte, error) {
	img := image.NewPaletted(image.Rect(0, 0, 240, 120), color.Palette{color.White, color.Black})
	for i, c := range []byte(line) {
		img.SetColorIndex(i%240, int(c)%120, 1)
	}
	var b bytes.Buffer
	err := png.Encode(&b, img)
	return b.Bytes(), err
}

func faultAnswer(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	a := &answer.Answer{Headline: "all went well"}
	switch c.Args.Word("how") {
	case "panic":
		panic("secret of the asker")
	case "picture":
		a.Attachments = []answer.Attachment{{Name: "x.png", Type: answer.PNG, Alt: "x", Render: func(context.Context) ([]byte, error) { panic("no pen") }}}
	case "alone":
		a.Alone = true
	case "fleeting":
		a.Alone, a.Fleeting, a.Steps = true, true, []string{"gone"}
		a.Attachments = plateFiles("all", c.Line())
	case "inches":
		a.Inches = true
		a.Figures = []answer.Figure{{Label: "length", Value: 25.4, Unit: answer.MM, Main: true}}
	case "about":
		a.InReplyTo = "623456789012345671"
	case "draw":
		a.Attachments = plateFiles("slow", c.Line())[:1]
		a.Attachments[0].Render = func(context.Context) ([]byte, error) {
			time.Sleep(700 * time.Millisecond)
			return testPicture(c.Line())
		}
	case "ping":
		a.Headline = "for @everyone and <@723456789012345678> **bold**"
		a.Notes = []string{"@here <@&1> </collet:1>"}
	case "long":
		a.Headline = strings.Repeat("long ", 100)
		for range 40 {
			a.Figures = append(a.Figures, answer.Figure{Label: strings.Repeat("label*", 30), Value: 1, Unit: answer.MM, Main: true})
			a.Notes = append(a.Notes, strings.Repeat("note_", 30))
			a.Assumptions = append(a.Assumptions, strings.Repeat("assumed ", 20))
			a.Cautions = append(a.Cautions, strings.Repeat("caution ", 20))
			a.Steps = append(a.Steps, strings.Repeat("step `x` ", 40))
		}
		a.Attachments = plateFiles("long", c.Line())
		a.Attachments[0].Alt = strings.Repeat("alternative ", 200)
	case "wait":
		select {
		case <-time.After(700 * time.Millisecond):
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	case "refuse":
		return nil, answer.Refuse("fault ping", "that is refused")
	}
	return a, nil
}

func testShop() *stock.Workshop { return stock.DemoWorkshop() }
