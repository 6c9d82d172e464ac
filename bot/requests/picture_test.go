package requests

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/bot/template/scene"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
	"guildhand/calc/units"
)

// onPicture are the figures that a maker needs to cut from the picture alone,
// by request.
var onPicture = map[string][]string{
	"collet": {"blank_width", "blank_height", "rim_length", "base_length", "slant", "girdle_line", "thickness"},
	"prongs": {"blank_width", "blank_height", "rim_length", "base_length", "thickness", "prong_width", "window_depth", "drill"},
	"bezel": {"cut_length", "strip_height", "wall_height", "reach", "thickness", "wire_length", "wire_diameter", "step_length", "step_height",
		"plate_length", "plate_width", "plate_thickness", "plate_rim", "cutout_length", "cutout_width", "edge_depth", "relief_width", "relief_depth", "relief_hole", "stock_length"},
	"collar":   {"strip_length", "strip_height", "rim_wall", "foot_wall", "height"},
	"band":     {"blank_length", "width", "thickness", "inner_diameter"},
	"dome":     {"disc_diameter", "dome_diameter", "dome_height", "thickness"},
	"melt":     {"trim_base", "trim_rim", "dip_depth", "wax_wall"},
	"tune":     {"next_rim_length", "next_base_length"},
	"match":    {},
	"saddle":   {"blank_width", "blank_height", "rim_length", "cut_depth", "thickness"},
	"jumpring": {"inside_diameter", "outside_diameter", "wire"},
	"tubeset":  {"tube_outer", "tube_inner", "length", "seat_depth", "wall_left", "bur"},
	"halo":     {"plate_outer_length", "plate_outer_width", "gap", "hole"},
	"resize":   {"inner_from", "width"},
}

// supportOnPicture are those of what is soldered into a collet.
var supportOnPicture = []string{"wire_diameter", "wire_length", "wire_top", "step_thickness", "step_length", "step_base_length", "step_height",
	"cross_length", "cross_width", "cross_height", "cross_thickness", "gallery_wire", "gallery_length"}

// finishedOn are the requests whose picture shows the finished piece.
var finishedOn = []string{"collet", "prongs", "bezel", "collar", "band", "dome", "melt", "match", "saddle", "halo"}

// wanted are the measures of an answer as they stand on its picture.
func wanted(a *answer.Answer) []string { return measuresOf(a, onPicture[a.Request]) }

func measuresOf(a *answer.Answer, ids []string) []string {
	var list []string
	for _, f := range a.Figures {
		if f.Unit != answer.MM || !slices.Contains(ids, f.ID) {
			continue
		}
		list = append(list, words.MM(f.Value))
		if a.Inches {
			list = append(list, fmt.Sprintf("%.3f", f.Value/units.MMPerInch))
		}
	}
	return list
}

// A picture can be forwarded alone and cut from. Every example with a drawing
// keeps the picture's contract, in mm and in inches.
func TestPicturesOfExamples(t *testing.T) {
	specs := All(nil)
	seen := map[string]int{}
	for _, s := range specs {
		for _, e := range s.Examples {
			for _, line := range []string{e.Line, e.Line + " units inch"} {
				a := requeststest.Answered(t, specs, stock.DemoWorkshop(), line)
				if a == nil {
					continue
				}
				p, ok := requeststest.PictureOf(t, a)
				if !ok {
					continue
				}
				seen[s.Name]++
				want := wanted(a)
				if slices.Contains(finishedOn, s.Name) {
					want = append(want, "Finished piece")
				}
				require.GreaterOrEqual(t, len(want), min(2, len(onPicture[a.Request])), "%s: measures looked for", line)
				assert.Empty(t, p.Faults(want...), line)
				assert.Less(t, pngBytes(t, a), mostPNGBytes, "%s: bytes, for a phone", line)
				if a.Inches {
					assert.NoError(t, everyLengthInInches(p.Lettering()), line)
					assert.NoError(t, everyLengthInInches(a.Attachments[0].Alt), line)
				}
				for _, w := range want { // who can't see it hears the same
					assert.Contains(t, a.Attachments[0].Alt, w, line)
				}
			}
		}
	}
	for request := range onPicture {
		assert.NotZero(t, seen[request], "%s: no picture was looked at", request)
	}
	t.Log(seen)
}

// What is soldered into a collet stands on its section, with what to cut for it; in
// the section a bearing wire touches the pavilion.
func TestSupportsOnPictures(t *testing.T) {
	specs := All(nil)
	for _, kind := range []string{"wire", "step", "cross", "gallery"} {
		for _, stone := range []string{"oval 8x6", "round 7", "pear 10x7", "emerald 9x7", "marquise 12x6"} {
			line := "collet " + stone + " depth 4 sterling 22ga support " + kind
			a := requeststest.Answered(t, specs, stock.DemoWorkshop(), line)
			require.NotNil(t, a, line)
			p, ok := requeststest.PictureOf(t, a)
			require.True(t, ok, line)
			cut := measuresOf(a, supportOnPicture)
			require.GreaterOrEqual(t, len(cut), 2, line)
			assert.Empty(t, p.Faults(slices.Concat(wanted(a), cut, []string{"Finished piece"})...), line)
			section := a.Attachments[0].Scene.(template.Drawing).Details[0]
			require.Greater(t, len(section.CutFaces), 2, "%s: the wall's two sides and what is soldered in", line)
			if kind != "wire" {
				continue
			}
			i := slices.IndexFunc(section.Paths, func(p template.Path) bool { return p.Role == template.Stone })
			stoneAt := section.Paths[i].Segs
			culet, girdle := stoneAt[0].P, stoneAt[1].P
			circle, _ := section.CutFaces[3].Segs.Bounds()
			middle, radius := scene.Point{X: (circle.X0 + circle.X1) / 2, Y: (circle.Y0 + circle.Y1) / 2}, circle.W()/2
			ux, uy := girdle.X-culet.X, girdle.Y-culet.Y
			off := (ux*(middle.Y-culet.Y) - uy*(middle.X-culet.X)) / math.Hypot(ux, uy)
			assert.InDelta(t, radius, math.Abs(off), 0.002, "%s: across the narrow side, where it is steepest, the pavilion touches the wire", line)
		}
	}
}

// A deep blank's seam slopes, and its dimension line lies farther out than the
// blank: it keeps inside the frame.
func TestSlopingDimensionKeepsInsideTheFrame(t *testing.T) {
	const line = "collet measured points 3.04,0.01 2.12,2.85 0.08,4.06 -2.05,2.87 -2.91,0.07 -2.07,-2.74 0.01,-3.91 2.21,-2.77 height 15.336"
	a := requeststest.Answered(t, All(nil), stock.DemoWorkshop(), line)
	require.NotNil(t, a)
	p, ok := requeststest.PictureOf(t, a)
	require.True(t, ok)
	assert.Empty(t, p.Faults(wanted(a)...))
}

var lengthMM, lengthInch = regexp.MustCompile(`\d mm`), regexp.MustCompile(`\d in\b`)

// everyLengthInInches reports a text in which a length stands in mm only, but
// for the scale bar's.
func everyLengthInInches(text string) error {
	rest := regexp.MustCompile(`\d+ mm; not full size`).ReplaceAllString(text, "")
	if mm, inch := len(lengthMM.FindAllString(rest, -1)), len(lengthInch.FindAllString(rest, -1)); mm != inch {
		return fmt.Errorf("%d lengths in mm and %d in inches: %s", mm, inch, rest)
	}
	return nil
}

// mostPNGBytes is what a phone's connection should bear.
const mostPNGBytes = 60_000

func pngBytes(t *testing.T, a *answer.Answer) int {
	t.Helper()
	data, err := a.Attachments[0].Render(t.Context())
	require.NoError(t, err)
	return len(data)
}

// BenchmarkAnswerWithPicture is an answer with its PNG, for the largest pictures.
func BenchmarkAnswerWithPicture(b *testing.B) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for _, line := range []string{"collet oval 8x6 depth 4 sterling 22ga units inch", "prongs emerald 9x7 depth 4.5 sterling 20ga",
		"bezel oval 10x8 dome 3 fine-silver 28ga", "bezel oval 18x13 dome 5 fine-silver 28ga serrated plate open", "bezel round 12 dome 4 scalloped 28ga", "collar pear 9x6 depth 4 sterling 20ga block demo-pear", "band us 7", "dome 20 height 6 22ga",
		"match hole 10.5x8.5 oval 20ga", "match strip 28x6 20ga sterling", "match tube tube-10x1", "prongs marquise 10x5 depth 3.2 sterling 20ga units inch", "halo oval 8x6 with 1.3", "collet heart 8x8 depth 4 sterling 22ga", "tune oval 8x6 depth 4 sterling 22ga rimgot 9.16x7.16 basegot 7.48x5.48", "melt dip 8x6 height 5 wall 0.9 sterling lean 8.5 tip 2"} {
		b.Run(strings.ReplaceAll(line, " ", "_"), func(b *testing.B) {
			for b.Loop() {
				call, err := requeststest.CallOf(specs, shop, line)
				require.NoError(b, err)
				a, err := call.Answer(b.Context())
				require.NoError(b, err)
				data, err := a.Attachments[0].Render(b.Context())
				require.NoError(b, err)
				b.ReportMetric(float64(len(data)), "bytes")
			}
		})
	}
}

// BenchmarkFurtherFiles are the files that are drawn when somebody asks for them.
func BenchmarkFurtherFiles(b *testing.B) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for _, line := range []string{"collet pear 9x6 depth 4 sterling 22ga units inch", "prongs marquise 10x5 depth 3.2 sterling 20ga paper letter", "bezel oval 10x8 dome 3 fine-silver 28ga",
		"collar pear 9x6 depth 4 sterling 20ga block demo-pear", "band us 7", "dome 20 height 6 22ga"} {
		call, err := requeststest.CallOf(specs, shop, line)
		require.NoError(b, err)
		a, err := call.Answer(b.Context())
		require.NoError(b, err)
		for _, at := range a.Attachments[1:] {
			b.Run(strings.ReplaceAll(line, " ", "_")+"/"+at.Type, func(b *testing.B) {
				for b.Loop() {
					_, err := at.Render(b.Context())
					require.NoError(b, err)
				}
			})
		}
	}
}

// Random requests: 70, 200 where the whole is asked for, in a long run 2,000.
func TestPicturesOfRandomRequests(t *testing.T) {
	t.Parallel()
	n := testcount.Of(70, 200, 2000)
	const seed = 1403
	rnd := rand.New(rand.NewPCG(seed, 14))
	specs, shop := All(nil), stock.DemoWorkshop()
	for drawn := 0; drawn < n; {
		line := randomPicture(rnd)
		a := requeststest.Answered(t, specs, shop, line)
		if a == nil {
			continue
		}
		p, ok := requeststest.PictureOf(t, a)
		if !ok {
			continue
		}
		drawn++
		want := wanted(a)
		if slices.Contains(finishedOn, a.Request) {
			want = append(want, "Finished piece")
		}
		faults := p.Faults(want...)
		if n := pngBytes(t, a); n >= mostPNGBytes {
			faults = append(faults, fmt.Sprintf("%d bytes", n))
		}
		if len(faults) > 0 {
			t.Errorf("%s (seed %d)\n  %s", line, seed, strings.Join(faults, "\n  "))
		}
	}
}

// randomPicture is a request that draws.
func randomPicture(rnd *rand.Rand) string {
	between := func(low, high float64) float64 { return low + (high-low)*rnd.Float64() }
	inch := ""
	if rnd.IntN(4) == 0 {
		inch = " units inch"
	}
	switch rnd.IntN(9) {
	case 7:
		return fmt.Sprintf("saddle oval %.1fx%.1f depth 4 sterling 0.6mm shank diameter %.1f 1.5mm %s wide %.1f", between(6, 12), between(5, 8), between(14, 24),
			[]string{"flat", "half-round", "court"}[rnd.IntN(3)], between(2, 9)) + inch
	case 8:
		return []string{
			fmt.Sprintf("jumpring %.2fmm ratio %.2f count %d sterling", between(0.6, 2), between(3, 8), 1+rnd.IntN(200)),
			fmt.Sprintf("tubeset round %.1f count %d spacing %.1f sterling", between(1.5, 7), 1+rnd.IntN(9), between(0, 2)),
			fmt.Sprintf("halo oval %.1fx%.1f with %.1f", between(7, 12), between(5, 7), between(1, 2)),
			fmt.Sprintf("resize diameter %.1f to %.1f width %.1f 1.5mm half-round", between(14, 17), between(17.5, 21), between(2, 7)),
		}[rnd.IntN(4)] + inch
	case 0:
		return fmt.Sprintf("band diameter %.1f width %.1f %.1fmm %s", between(14, 22), between(1.5, 12), between(0.8, 2.5),
			[]string{"flat", "half-round", "court"}[rnd.IntN(3)]) + inch
	case 1:
		d := between(5, 60)
		return fmt.Sprintf("dome %.1f height %.1f 24ga", d, d*between(0.1, 0.5)) + inch
	case 2:
		return fmt.Sprintf("melt dip %.1fx%.1f height %.1f wall 0.9 sterling lean %.1f tip 2", between(5, 14), between(4, 9), between(2, 9), between(4, 12)) + inch
	case 3:
		return "prongs" + strings.TrimPrefix(requeststest.RandomCollet(rnd), "collet")
	case 4:
		return randomForming(rnd)
	case 5:
		return []string{
			fmt.Sprintf("match tubesize %.1fx%.1f sterling", between(4, 14), between(0.5, 1.2)),
			fmt.Sprintf("match strip %.0fx%.1f 20ga sterling", between(15, 45), between(4, 9)),
			fmt.Sprintf("match offcut %.0fx%.0f 22ga sterling", between(20, 50), between(8, 20)),
			fmt.Sprintf("match hole %.1fx%.1f oval 20ga", between(8, 14), between(6, 8)),
		}[rnd.IntN(4)] + inch
	}
	return requeststest.RandomCollet(rnd)
}

// Each rule of the contract can fail: a picture that keeps it is broken in one
// way, and that fault is found.
func TestPictureContractCanFail(t *testing.T) {
	a := requeststest.Answered(t, All(nil), stock.DemoWorkshop(), "collet pear 9x6 depth 4 sterling 22ga")
	require.NotNil(t, a)
	line := func(class string, from, to scene.Point) requeststest.DrawnLine {
		return requeststest.DrawnLine{Class: class, Path: scene.Polyline(from, to)}
	}
	for rule, spoil := range map[string]func(p *requeststest.Drawn){
		"frame":   func(p *requeststest.Drawn) { p.WidthPx = 600 },
		"period":  func(p *requeststest.Drawn) { p.Lines[0].Period = 5000 },
		"size":    func(p *requeststest.Drawn) { p.Texts[1].Em = 20 },
		"overlap": func(p *requeststest.Drawn) { p.Texts[1].Box = p.Texts[2].Box },
		"cut line": func(p *requeststest.Drawn) {
			at := p.Lines[0].Path[0].P
			p.Texts[1].Box = scene.Rect{X0: at.X - 20, Y0: at.Y - 20, X1: at.X + 20, Y1: at.Y + 20}
		},
		"leader": func(p *requeststest.Drawn) {
			p.Lines = append(p.Lines, line("cut", scene.Point{X: 100, Y: 0}, scene.Point{X: 100, Y: 50}),
				line("leader", scene.Point{X: 80, Y: 20}, scene.Point{X: 130, Y: 25}))
		},
		"title": func(p *requeststest.Drawn) {
			orphan := p.Texts[0]
			orphan.Text, orphan.Box.X1 = "mm", orphan.Box.X0+30
			p.Texts = slices.Insert(p.Texts, 1, orphan)
		},
		"finished": func(p *requeststest.Drawn) {
			p.Lines = slices.DeleteFunc(p.Lines, func(l requeststest.DrawnLine) bool { return l.Class == "seen" })
		},
		"measure": func(p *requeststest.Drawn) { p.Texts = p.Texts[:1] },
	} {
		p, ok := requeststest.PictureOf(t, a)
		require.True(t, ok)
		require.Empty(t, p.Faults(wanted(a)...))
		spoil(&p)
		found := slices.ContainsFunc(p.Faults(wanted(a)...), func(s string) bool { return strings.HasPrefix(s, rule+":") })
		assert.True(t, found, "%s: not found in %v", rule, p.Faults(wanted(a)...))
	}
}
