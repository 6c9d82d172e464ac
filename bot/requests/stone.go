package requests

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

// stoneUsed is the stone of a request, with what was assumed of it.
type stoneUsed struct {
	shape outline.Shape
	curve outline.Curve
	// traced is the name or id of a traced stone, empty for another.
	traced string
	// dips are where a freeform stone dips in from the outline, which goes straight
	// across.
	dips []dip
	// depthMM is measured, or estimated where depthEstimated is set.
	depthMM        float64
	depthEstimated bool
	// carat is the weight, estimated from the size, of the gem that was named;
	// 0 if none was.
	carat       float64
	assumptions []string
	notes       []string
}

// aWords names the stone with its article: "an oval 8 x 6 mm".
func (s stoneUsed) aWords(c *catalogue.Call) string {
	return words.Article(s.words(c))
}

// words names the stone: "oval 8 x 6 mm".
func (s stoneUsed) words(c *catalogue.Call) string {
	size := s.curve.Size()
	name := strings.ReplaceAll(string(s.shape.Kind), "-", " ")
	if s.shape.Kind == outline.Measured {
		name = "measured stone"
	}
	if s.traced != "" {
		name = "traced stone " + s.traced
	}
	if numbers := s.shape.Kind.Describe().SizeNumbers; len(numbers) == 1 && numbers[0] == 1 {
		return name + " " + words.Size(c, size.WidthMM)
	}
	if s.shape.Size.ThirdMM > 0 {
		return name + " " + words.Size(c, size.LengthMM, size.WidthMM, s.shape.Size.ThirdMM)
	}
	return name + " " + words.Size(c, size.LengthMM, size.WidthMM)
}

// fileName is the stone in a file's name: "oval-8x6".
func (s stoneUsed) fileName() string {
	size := s.curve.Size()
	if size.LengthMM == size.WidthMM {
		return fmt.Sprintf("%s-%s", s.shape.Kind, words.MM(size.WidthMM))
	}
	return fmt.Sprintf("%s-%sx%s", s.shape.Kind, words.MM(size.LengthMM), words.MM(size.WidthMM))
}

// stoneExtras are the options of a stone beyond stoneOptions: proportions that
// a size does not fix, and estimates from a weight.
func stoneExtras() []catalogue.Option {
	gems := make([]catalogue.Choice, 0, 24)
	for _, g := range stone.Gems() {
		gems = append(gems, catalogue.Choice{Key: g.Key, Aliases: g.Aliases, Summary: fmt.Sprintf("specific gravity %.2f", g.SpecificGravity)})
	}
	return []catalogue.Option{
		{
			Name: "cornercut", Aliases: []string{"corner-cut"},
			Summary: "corner cut of an emerald or a cut-cornered trillion, per cent of the width",
			Kind:    catalogue.Percent, Min: 2, Max: 45, Suggest: []string{"15", "20"},
		},
		{
			Name:    "polygon",
			Summary: "join measured points by straight lines",
			Kind:    catalogue.Flag,
		},
		{
			Name: "carat", Aliases: []string{"carats", "ct"},
			Summary: "weight of the stone in carat, to estimate its size where that was not measured",
			Kind:    catalogue.Number, Min: 0.005, Max: 500, Suggest: []string{"0.5", "1", "2"},
			Excludes: []string{"size", "points"},
		},
		{
			Name: "gem", Aliases: []string{"species"},
			Summary: "what the stone is: its weight is estimated from its size, or its size from its weight",
			Kind:    catalogue.Word, Choices: gems,
		},
	}
}

// stoneOf draws the stone of a call. The error is a refusal.
func stoneOf(c *catalogue.Call) (stoneUsed, error) {
	var s stoneUsed
	if c.Args.Has("traced") {
		return tracedStone(c)
	}
	s.shape.Kind = outline.Kind(c.Word("outline"))
	described := s.shape.Kind.Describe()
	s.shape.CutShare = c.Number("cornercut") / 100
	if s.shape.CutShare > 0 && described.Cut.Most == 0 {
		return s, answer.Refuse(c.Retyped(map[string]string{"cornercut": ""}),
			"a corner cut is for %s outlines, not for a %s", outlinesWith(func(d outline.Description) bool { return d.Cut.Most > 0 }), s.shape.Kind)
	}
	s.shape.Polygon = c.Args.Has("polygon")
	if c.Args.Has("perimeter") {
		return strippedStone(c)
	}
	for _, p := range c.Value("points").Points {
		s.shape.Points = append(s.shape.Points, outline.Point{X: p[0], Y: p[1]})
	}
	if len(s.shape.Points) > 0 && s.shape.Kind != outline.Measured {
		return s, answer.Refuse(c.Retyped(map[string]string{"outline": "measured"}),
			"points are for a measured outline, not for a %s", s.shape.Kind)
	}
	if s.shape.Kind == outline.Measured && len(s.shape.Points) == 0 {
		return s, answer.Refuse(c.Spec.Name+" measured points 0,3 2,2.4 3,0 2,-2.4 0,-3 -2,-2.4 -3,0 -2,2.4",
			"a measured outline needs its points: %d to %d pairs x,y in mm, in order round the stone", outline.MinPoints, outline.MaxPoints)
	}
	size := stoneSize(c.Value("size").Numbers)
	switch len(size) {
	case 0:
		if c.Args.Has("carat") {
			if err := s.fromCarat(c); err != nil {
				return s, err
			}
		}
	case 1:
		if described.FromWidth == 0 && s.shape.Kind != outline.Measured {
			return s, answer.Refuse(c.Retyped(map[string]string{"size": words.MM(size[0]) + "x" + words.MM(max(size[0]/described.LengthOverWidth, option.MinSideMM))}),
				"%s has a length and a width, not one size of %s mm", words.Article(string(s.shape.Kind)), words.MM(size[0]))
		}
	case 3:
		if !slices.Contains(described.SizeNumbers, 3) {
			return s, answer.Refuse(c.Retyped(map[string]string{"size": words.MM(size[0]) + "x" + words.MM(size[1])}),
				"a %s has a length and a width; only %s has a third size", s.shape.Kind,
				words.Article(outlinesWith(func(d outline.Description) bool { return slices.Contains(d.SizeNumbers, 3) })))
		}
	}
	size.put(&s.shape.Size)
	s.bridgeDips(c)
	var err error
	if s.curve, err = outline.New(s.shape); err != nil {
		return s, answer.Refuse(c.Spec.Example(), "%s", err)
	}
	if p := outline.Assumed(s.shape); p != "" {
		s.assumptions = append(s.assumptions, p+" (common practice, no source)")
	}
	s.depthOf(c)
	s.weigh(c)
	return s, nil
}

// outlinesWith names the outlines of which has is true: "emerald and trillion".
func outlinesWith(has func(outline.Description) bool) string {
	var names []string
	for _, k := range outline.Kinds() {
		if has(k.Describe()) {
			names = append(names, strings.ReplaceAll(string(k), "-", " "))
		}
	}
	return strings.Join(names, " and ")
}

// weigh estimates the weight of a stone whose size and gem were given.
func (s *stoneUsed) weigh(c *catalogue.Call) {
	gem, ok := stone.GemByKey(c.Word("gem"))
	if !ok || c.Args.Has("carat") {
		return
	}
	carat, err := stone.CaratFromSize(s.shape.Kind, s.curve.Size(), s.depthMM, gem)
	if err != nil {
		s.notes = append(s.notes, fmt.Sprintf("no weight: no formula is published for a %s", s.shape.Kind))
		return
	}
	s.carat = carat
	spread := stone.WeightSpread
	if s.depthEstimated {
		spread += stone.DepthSpread
	}
	s.notes = append(s.notes, fmt.Sprintf("the stone weighs about %.2f ct (estimate within %.0f %%)", carat, 100*spread))
	s.assumptions = append(s.assumptions, fmt.Sprintf("weight of %s by %s (jewellers' tables)", gem.Key, stone.FormulaName(s.shape.Kind, gem)))
}

// weightFigure is the stone's estimated weight, where there is one.
func (s stoneUsed) weightFigure() []answer.Figure {
	if s.carat == 0 {
		return nil
	}
	return []answer.Figure{{ID: "stone_weight", Label: "weight of the stone, estimate", Value: s.carat, Unit: answer.Carat}}
}

// fromCarat estimates the size from the stone's weight.
func (s *stoneUsed) fromCarat(c *catalogue.Call) error {
	gem, ok := stone.GemByKey(c.Word("gem"))
	if !ok {
		return answer.Refuse(c.Retyped(map[string]string{"gem": "sapphire"}),
			"which gem is it? its weight gives a size only with its specific gravity")
	}
	ratio := s.shape.Kind.Describe().LengthOverWidth
	size, depth, err := stone.SizeFromCarat(s.shape.Kind, c.Number("carat"), ratio, gem)
	if err != nil {
		return answer.Refuse(c.Retyped(map[string]string{"carat": "", "gem": "", "size": "6"}), "%s", err)
	}
	s.shape.Size = size
	s.depthMM, s.depthEstimated = depth, true
	s.assumptions = append(s.assumptions, fmt.Sprintf("size %s x %s mm, measure it (estimate from %s ct of %s, length %.3g times the width: %s)",
		words.MM(size.LengthMM), words.MM(size.WidthMM), words.MM(c.Number("carat")), gem.Key, ratio, stone.FormulaName(s.shape.Kind, gem)))
	return nil
}

// depthOf takes the measured depth or a typical one.
func (s *stoneUsed) depthOf(c *catalogue.Call) {
	if mm := c.Number("depth"); mm > 0 {
		s.depthMM, s.depthEstimated = mm, false
		return
	}
	s.depthMM, s.depthEstimated = stone.TypicalDepthMM(s.shape.Kind, s.curve.Size()), true
}

// depthAssumption is said where the depth was used but not measured.
func (s stoneUsed) depthAssumption() string {
	return fmt.Sprintf("depth %s mm, measure it (estimate, %.0f %% of the width from table to culet: %s)",
		words.MM(s.depthMM), 100*stone.TypicalDepthShare(s.shape.Kind), s.shape.Kind.Describe().DepthSource)
}

// seamOption is where the blank is opened; the words are the places that
// outlines have.
func seamOption() catalogue.Option {
	return catalogue.Option{
		Name:    "seam",
		Summary: "where the seam lies: side, end, point, cleft, corner, cut",
		Kind:    catalogue.Word,
		Choices: []catalogue.Choice{
			{Key: "side", Aliases: []string{"flat", "long-side"}, Summary: "in the middle of a long side"},
			{Key: "end", Aliases: []string{"short-side"}, Summary: "in the middle of an end"},
			{Key: "point", Aliases: []string{"tip"}, Summary: "at the point"},
			{Key: "cleft", Summary: "at a heart's cleft"},
			{Key: "corner", Summary: "at a corner"},
			{Key: "cut", Summary: "in the middle of a cut corner"},
		},
	}
}

// seamOf finds the seam's place on the stone; the trade's default where none
// was asked for.
func seamOf(c *catalogue.Call, s stoneUsed) (outline.Place, error) {
	place, ok := s.curve.PlaceNamed(c.Word("seam"))
	if ok {
		return place, nil
	}
	var names []string
	for _, p := range s.curve.Places {
		names = append(names, p.Name)
	}
	return place, answer.Refuse(c.Retyped(map[string]string{"seam": names[0]}),
		"a %s has no place %q for a seam; it has %s", s.shape.Kind, c.Word("seam"), strings.Join(names, ", "))
}

// asOutlineError finds the sentence of an outline that can't be drawn.
func asOutlineError(err error) (*outline.Error, bool) {
	var e *outline.Error
	return e, errors.As(err, &e)
}
