package requests

import (
	"context"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/bot/requests/words"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

// The SVG's paths, read by a parser of vector paths, are as long as the
// figures say.
func TestColletSVGAgreesWithFigures(t *testing.T) {
	for kind, line := range requeststest.ColletOfEveryOutline() {
		t.Run(string(kind), func(t *testing.T) {
			a, err := requeststest.Ask(All(nil), line)
			if err != nil {
				t.Fatal(err)
			}
			lengths := svgLengths(t, a)
			for id, want := range map[string]float64{
				"rim": requeststest.Value(t, a, "rim_length"), "base": requeststest.Value(t, a, "base_length"),
			} {
				if got := lengths[id]; math.Abs(got-want) > 2e-6*want {
					t.Errorf("path %s is %.9f mm, figure %.9f", id, got, want)
				}
			}
			for _, seam := range []string{"seam-a", "seam-b"} {
				if lengths[seam] == 0 {
					t.Errorf("no path %s", seam)
				}
			}
		})
	}
}

func svgLengths(t *testing.T, a *answer.Answer) map[string]float64 {
	t.Helper()
	lengths := map[string]float64{}
	for _, att := range a.Attachments {
		if att.Type != "image/svg+xml" {
			continue
		}
		data, err := att.Render(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(strings.NewReader(string(data)))
		for {
			tok, err := d.Token()
			if err != nil {
				break
			}
			if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "path" {
				var id, path string
				for _, at := range e.Attr {
					switch at.Name.Local {
					case "id":
						id = at.Value
					case "d":
						path = at.Value
					}
				}
				if id != "" {
					lengths[id] = requeststest.SVGPath(t, path).Length()
				}
			}
		}
	}
	return lengths
}

func TestColletPromises(t *testing.T) {
	ids := []string{"rim_length", "base_length", "slant", "height", "blank_width", "blank_height", "blank_area", "blank_mass",
		"rim_outer_length", "rim_outer_width", "base_outer_length", "base_outer_width"}
	for kind, line := range requeststest.ColletOfEveryOutline() {
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Errorf("%s: %v", kind, err)
			continue
		}
		for _, id := range ids {
			if v := requeststest.Value(t, a, id); !(v > 0) || math.IsInf(v, 0) {
				t.Errorf("%s: %s is %v", kind, id, v)
			}
		}
		main := 0
		for _, f := range a.Figures {
			if f.Main {
				main++
			}
		}
		if main > 6 || main == 0 {
			t.Errorf("%s: %d figures on the first screen", kind, main)
		}
		if len(a.Cautions) < 2 || len(a.Cautions) > 3 {
			t.Errorf("%s: %d cautions", kind, len(a.Cautions))
		}
		if len(a.Assumptions) == 0 || len(a.Steps) == 0 || len(a.Attachments) != 3 {
			t.Errorf("%s: %d assumptions, %d steps, %d attachments", kind, len(a.Assumptions), len(a.Steps), len(a.Attachments))
		}
		if again, err := requeststest.Ask(All(nil), a.Line); err != nil || again.Headline != a.Headline {
			t.Errorf("%s: %q gives %v", kind, a.Line, err)
		}
	}
}

// The usual seam of every outline, as the trade places it.
func TestColletSeams(t *testing.T) {
	for kind, want := range map[outline.Kind]string{
		outline.Pear: "at the point", outline.Emerald: "in the middle of a long side", outline.Oval: "along a flat side",
		outline.Marquise: "at a point", outline.Heart: "at the cleft", outline.Square: "in the middle", outline.Cushion: "in the middle",
		outline.Trillion: "in the middle", outline.Baguette: "in the middle",
	} {
		a, err := requeststest.Ask(All(nil), requeststest.ColletOfEveryOutline()[kind])
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(a.Assumptions, "\n"); !strings.Contains(got, "seam "+want) {
			t.Errorf("%s: %q does not have the seam %q", kind, got, want)
		}
	}
}

func TestColletRefusals(t *testing.T) {
	for _, line := range []string{
		"collet oval 8x6 depth 4 sterling 22ga lean 40",                        // the base closes
		"collet oval 8x6 depth 9 height 4 sterling 22ga",                       // the culet stands proud
		"collet round 2 depth 1.2 sterling 2mm",                                // the wall is thicker than the shape
		"collet pear 6x6 depth 4 sterling 22ga",                                // no pear
		"collet round 6 seam point",                                            // no such place
		"collet square 5 depth 3 base round basesize 0.6 sterling 22ga",        // base too small
		"collet oval carat 1 sterling 22ga",                                    // which gem?
		"collet measured sterling 22ga points 0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,0", // all in line
		"collet round 6 cornercut 10",
		"collet oval 8x6 taper base",
	} {
		_, err := requeststest.Ask(All(nil), line)
		r, ok := answer.AsRefusal(err)
		if !ok {
			t.Errorf("%s: %v", line, err)
			continue
		}
		if r.Problem == "" || r.Try == "" {
			t.Errorf("%s: refused with %q, try %q", line, r.Problem, r.Try)
			continue
		}
		if _, err := requeststest.Ask(All(nil), r.Try); err != nil {
			t.Errorf("%s: what it says to try, %q, is refused: %v", line, r.Try, err)
		}
	}
}

func TestColletThinSheetWarns(t *testing.T) {
	for line, warns := range map[string]bool{
		"collet oval 8x6 depth 4 sterling 22ga":   false,
		"collet oval 8x6 depth 4 sterling 23ga":   true,
		"collet oval 8x6 depth 4 sterling 0.6mm":  true,
		"collet oval 8x6 depth 4 sterling 0.65mm": false,
	} {
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(strings.Join(a.Notes, " "), "thin for a sheet collet"); got != warns {
			t.Errorf("%s: warns %v", line, got)
		}
	}
}

// TestColletLook writes the pictures where GUILDHAND_LOOK points, for eyes.
func TestColletLook(t *testing.T) {
	dir := os.Getenv("GUILDHAND_LOOK")
	if dir == "" {
		t.Skip("set GUILDHAND_LOOK to a folder to look at the pictures")
	}
	for kind, line := range requeststest.ColletOfEveryOutline() {
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Fatal(err)
		}
		for _, att := range a.Attachments {
			data, err := att.Render(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, string(kind)+filepath.Ext(att.Name)), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func BenchmarkColletCompute(b *testing.B) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for _, kind := range outline.Kinds() {
		line := requeststest.ColletOfEveryOutline()[kind]
		b.Run(string(kind), func(b *testing.B) {
			for b.Loop() {
				call, err := requeststest.CallOf(specs, shop, line)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := colletOf(context.Background(), call); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkColletWithPNG(b *testing.B) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for kind, line := range requeststest.ColletOfEveryOutline() {
		b.Run(string(kind), func(b *testing.B) {
			for b.Loop() {
				call, err := requeststest.CallOf(specs, shop, line)
				if err != nil {
					b.Fatal(err)
				}
				a, err := call.Answer(context.Background())
				if err != nil {
					b.Fatal(err)
				}
				if _, err := a.Attachments[0].Render(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A gem's weight is estimated from the size, and the size from the weight: one
// is the way back of the other.
func TestGemWeight(t *testing.T) {
	for _, line := range []string{
		"collet oval 8x6 gem sapphire sterling", "collar pear 9x6 gem sapphire sterling 20ga", "prongs round 6.5 gem diamond sterling 20ga",
	} {
		a, err := requeststest.Ask(All(nil), line)
		if err != nil {
			t.Fatal(err)
		}
		f := requeststest.Figure(t, a, "stone_weight")
		if f.Unit != answer.Carat || !strings.Contains(strings.Join(a.Notes, " "), "about "+f.Display()) {
			t.Errorf("%s: %s, notes %q", line, f.Display(), a.Notes)
		}
		back, err := requeststest.Ask(All(nil), fmt.Sprintf("collet %s carat %.6f gem %s sterling", strings.Fields(line)[1], f.Value, strings.Fields(line)[4]))
		if err != nil {
			t.Fatal(err)
		}
		var width float64
		if _, err := fmt.Sscanf(strings.ReplaceAll(strings.Fields(line)[2], "x", " "), "%f", &width); err != nil {
			t.Fatal(err)
		}
		// Only the proportion of the outline was not given back.
		if got := back.Headline; strings.HasPrefix(line, "prongs") && !strings.Contains(got, "round 6.5 mm") || !strings.HasPrefix(line, "prongs") && !strings.Contains(got, words.MM(width)+" x 6 mm") {
			t.Errorf("%s: %.3f ct gives back %s", line, f.Value, got)
		}
	}
	a, err := requeststest.Ask(All(nil), "collet kite 8x6 gem opal sterling")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(a.Notes, " "), "no weight") {
		t.Errorf("a kite's weight: %q", a.Notes)
	}
}

// A stone is named by its everyday word, also where that is an outline's, and a
// stone of equal sides has no long one.
func TestWordsOfStones(t *testing.T) {
	for _, line := range []string{"collet oval 8x6 gem emerald depth 4 sterling 22ga", "collet oval 8x6 depth 4 sterling 22ga gem agate"} {
		a, err := requeststest.Ask(All(nil), line)
		require.NoError(t, err, line)
		assert.Contains(t, strings.Join(a.Notes, " "), "the stone weighs about", line)
	}
	a, err := requeststest.Ask(All(nil), "heat sterling stone moissanite")
	require.NoError(t, err)
	assert.Contains(t, a.Headline, "moissanite")
	for line, want := range map[string]string{
		"collet octagon 7 depth 4 sterling 22ga":     "in the middle of a side",
		"collet octagon 9x7 depth 4 sterling 22ga":   "in the middle of a long side",
		"collet cushion 7x7 depth 4 sterling 22ga":   "in the middle of a side",
		"collet emerald 8x6 depth 4.2 sterling 22ga": "in the middle of a long side",
	} {
		a, err := requeststest.Ask(All(nil), line)
		require.NoError(t, err, line)
		for _, f := range a.Figures {
			if f.ID == "seam" {
				assert.Contains(t, f.Text, want, line)
			}
		}
	}
}

// A disc smaller than the dome is across says why.
func TestFlatDomeSaysWhyItsDiscIsSmall(t *testing.T) {
	a, err := requeststest.Ask(All(nil), "dome 12 height 0.5 20ga")
	require.NoError(t, err)
	assert.Less(t, requeststest.Value(t, a, "disc_diameter"), 12.0)
	assert.Contains(t, strings.Join(a.Notes, "\n"), "the disc is smaller than the dome is across")
	a, err = requeststest.Ask(All(nil), "dome 12 height 3 20ga")
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(a.Notes, "\n"), "smaller than the dome")
}
