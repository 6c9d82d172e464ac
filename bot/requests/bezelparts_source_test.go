package requests

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/stock"
)

func bezelAsked(t *testing.T, line string) (*answer.Answer, map[string]float64) {
	t.Helper()
	a, err := requeststest.Ask(All(nil), line+" no bench")
	require.NoError(t, err, line)
	for _, f := range requeststest.Unfit(a) {
		t.Errorf("%s: %s", line, f)
	}
	return a, figures(a)
}

// By hand, round 12, play 0.05, wall 0.4, so outside 12.9: a plate with 1.5 mm more
// all round is 15.9 across, and with a shelf of 2 mm inside the wall open 8.1 across.
// Back plates are 24 to 18 gauge (rockseeker.com); the default is within it.
func TestPlateByHand(t *testing.T) {
	a, got := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm plate open shelf 2")
	assert.InDelta(t, 15.9, got["plate_length"], 1e-9)
	assert.InDelta(t, 15.9, got["plate_width"], 1e-9)
	assert.InDelta(t, 8.1, got["cutout_length"], 1e-9)
	assert.InDelta(t, 1.9, got["shelf_carries"], 1e-9)
	assert.InDelta(t, math.Pi/4*(15.9*15.9-8.1*8.1)*got["plate_thickness"]/1000*10.36, got["plate_mass"], 0.01)
	assert.GreaterOrEqual(t, got["plate_thickness"], stock.GaugeMM(24)-1e-9)
	assert.LessOrEqual(t, got["plate_thickness"], stock.GaugeMM(18)+1e-9)
	assert.Contains(t, a.Headline, "back plate 15.9 x 15.9 mm")
	steps := strings.Join(a.Steps, "\n")
	assert.Contains(t, steps, "thread the saw blade")
	assert.Contains(t, a.Jobs, "drill")
	_, plain := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm")
	assert.InDelta(t, 15.9, plain["plate_length"], 1e-9, "a solid one is in every answer")
	_, none := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm plate none bearing step seat 1.5")
	assert.NotContains(t, none, "plate_length")
}

// The step's top, where the stone's back lies, is as far below the rim as the wall
// without a step is high; by hand its strip's middle line is 12 + 0.1 - 0.4 across.
func TestStepByHand(t *testing.T) {
	_, plain := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm")
	_, step := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm bearing step seat 1.5")
	assert.InDelta(t, plain["wall_height"], step["rim_above_bearing"], 1e-9)
	assert.InDelta(t, plain["wall_height"]+1.5, step["wall_height"], 1e-9)
	assert.InDelta(t, math.Pi*11.7, step["step_length"], 1e-9)
	assert.InDelta(t, 0.3, step["bearing_carries"], 1e-9)
	a, _ := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm bearing step stepthick 0.25mm")
	assert.Contains(t, strings.Join(a.Notes, " "), "may tip")
}

// By hand, round 12 of 0.4 mm: pi 12.5 = 39.27 mm, in 16 scallops of 2.454 mm. The
// drawn edge has as many lobes, and the strip's mass is what the drawing's area says.
func TestScallopsByHand(t *testing.T) {
	for _, line := range []string{"bezel round 12 dome 4 sterling 0.4mm scalloped", "bezel square 10 dome 4 sterling 0.4mm serrated pitch 1.3 cutdepth 0.4",
		"bezel pear 12x8 dome 3.5 sterling 0.4mm scalloped repeats 14", "bezel emerald 14x10 dome 4 sterling 0.4mm serrated"} {
		a, got := bezelAsked(t, line)
		d, ok := a.Attachments[0].Scene.(template.Drawing)
		require.True(t, ok)
		points, err := template.Contour(d, 0.002)
		require.NoError(t, err, line)
		area := 0.0
		for i, p := range points {
			q := points[(i+1)%len(points)]
			area += (p[0]*q[1] - q[0]*p[1]) / 2
		}
		mm3 := got["mass"] * 1000 / 10.36
		// The drawing has the ends that are filed away at a valley's height too.
		want := mm3/0.4 - 0.3*got["edge_depth"]
		assert.InDelta(t, want, area, 0.01*want, line)
		assert.InDelta(t, got["strip_length"], got["pitch"]*got["repeats"], 1e-9)
		assert.Contains(t, strings.Join(a.Steps, " "), "divide the top edge")
	}
	_, got := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm scalloped")
	assert.InDelta(t, 16, got["repeats"], 0)
	assert.InDelta(t, math.Pi*12.5/16, got["pitch"], 1e-9)
}

// By hand: 12 repeats of 3.2 mm are 38.4 mm, 2.26 % under pi 12.5; a repeat of
// pi 12.5/12 = 3.272 mm needs none.
func TestGalleryByHand(t *testing.T) {
	a, got := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm gallery 3.2")
	assert.InDelta(t, 12, got["gallery_repeats"], 0)
	assert.InDelta(t, 100*(math.Pi*12.5/38.4-1), got["gallery_stretch"], 1e-9)
	assert.InDelta(t, 38.4, got["cut_length"], 1e-9)
	assert.InDelta(t, math.Pi*12.5/12, got["gallery_fits"], 1e-9)
	assert.Contains(t, a.Headline, "12 repeats (38.4 mm)")
	assert.Contains(t, strings.Join(a.Steps, " "), "stretch it evenly from 38.4 mm to 39.27 mm")
	odd, _ := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm gallery 6")
	assert.Contains(t, strings.Join(odd.Notes, " "), "does not come out even")
}

// By hand: five strips and four saw cuts of 0.3 mm.
func TestCountByHand(t *testing.T) {
	a, got := bezelAsked(t, "bezel round 12 dome 4 sterling 0.4mm count 5")
	each := math.Pi*12.5 + 0.3
	assert.InDelta(t, each, got["cut_length"], 1e-9)
	assert.InDelta(t, 5*each+4*0.3, got["stock_length"], 1e-9)
	assert.Contains(t, a.Headline, "5 strips")
	assert.Contains(t, a.Steps[0], "39.57, 79.44, 119.31, 159.18, 199.05 mm")
}

// A dealer's chart and common practice know 18 x 13; a stone 0.4 mm longer fits no
// cup by the published 0.2 mm.
func TestCupIsAVerdict(t *testing.T) {
	for line, begins := range map[string]string{
		"bezel oval 18x13 dome 5 cup":     "Yes,",
		"bezel oval 18.1x13 dome 5 cup":   "Yes,",
		"bezel oval 18.4x13 dome 5 cup":   "No,",
		"bezel cushion 18x13 dome 5 cup":  "No,",
		"bezel oval 6.15x4.2 dome 2 cup":  "No,",
		"bezel round 12.15 dome 4 cup":    "Yes,",
		"bezel oval 18x13 dome 5":         "Cut",
		"bezel marquise 10x5 dome 2 cup":  "Yes,",
		"bezel oval 55x45 dome 10 cup":    "No,",
		"bezel triangle 10 dome 3.4  cup": "No,",
	} {
		a, _ := bezelAsked(t, line)
		assert.True(t, strings.HasPrefix(a.Headline, begins), "%s: %s", line, a.Headline)
	}
}

// A strip of 58 mm round a stone: the bezel's is pi t and the play's 2 pi c longer.
// And where caliper points dip in, the wall goes straight across and says where.
func TestFreeformStones(t *testing.T) {
	a, got := bezelAsked(t, "bezel measured 20x16 perimeter 58 dome 5 sterling 0.4mm")
	assert.InDelta(t, 58+math.Pi*0.4+2*math.Pi*0.05, got["strip_length"], 0.02)
	assert.InDelta(t, 20.9, got["outer_length"], 0.01)
	assert.InDelta(t, 16.9, got["outer_width"], 0.01)
	assert.Contains(t, strings.Join(a.Assumptions, " "), "superellipse")
	_, unnamed := bezelAsked(t, "bezel 20x16 perimeter 58 dome 5 sterling 0.4mm")
	assert.InDelta(t, got["strip_length"], unnamed["strip_length"], 1e-12)

	// A circle of 20 mm through 16 points, one of which is 1.4 mm in.
	var points []string
	for i := range 16 {
		r := 10.0
		if i == 5 {
			r -= 1.4
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
		points = append(points, answerPoint(r*cos, r*sin))
	}
	a, got = bezelAsked(t, "bezel measured points "+strings.Join(points, " ")+" dome 5 sterling 0.4mm")
	notes := strings.Join(a.Notes, " ")
	sagitta := 10 * (1 - math.Cos(2*math.Pi/16)) // of the chord across the missing point
	assert.Contains(t, notes, "dips in by "+words.MM(1.4-sagitta))
	assert.Contains(t, notes, "of the strip, beside the seam") // the dip is the flattest side
	assert.InDelta(t, math.Pi*(20+0.1+0.4), got["strip_length"], 0.15)
	heart, _ := bezelAsked(t, "bezel heart 10 dome 3 sterling 0.4mm")
	assert.Contains(t, strings.Join(heart.Notes, " "), "in the cleft")
	assert.Contains(t, strings.Join(heart.Steps, " "), "stop short of the cleft")
	oval, _ := bezelAsked(t, "bezel oval 18x13 dome 5 sterling 0.4mm")
	assert.NotContains(t, strings.Join(oval.Notes, " "), "pushed over")
	refusals(t, "bezel measured points 0,3 -2,2.4 2,-2.4 0,-3 2,2.4 -2,-2.4 -3,0 3,0", "bezel oval 20x16 perimeter 58", "bezel measured 20x16 perimeter 90", "bezel measured perimeter 58")
}

// A notch takes 2 d tan 45 degrees at each corner of a square whose sides are pushed
// in by d; the drawing has it.
func TestReliefByHand(t *testing.T) {
	a, got := bezelAsked(t, "bezel square 10 dome 3 sterling 0.4mm relief both")
	assert.InDelta(t, 2*got["reach"], got["relief_width"], 1e-9)
	assert.InDelta(t, got["over_girdle"], got["relief_depth"], 1e-9)
	assert.InDelta(t, 1, got["relief_hole"], 0)
	assert.Contains(t, strings.Join(a.Steps, " "), "4 corners of the stone")
	assert.Contains(t, strings.Join(a.Steps, " "), "push the corners over first")
}

func TestBezelPartsRefuse(t *testing.T) {
	refusals(t,
		"bezel oval 10x8 plate none",
		"bezel oval 10x8 dome 3 repeats 12",
		"bezel oval 10x8 dome 3 pitch 2",
		"bezel oval 10x8 dome 3 cutdepth 0.4",
		"bezel oval 10x8 dome 3 seat 1.2",
		"bezel oval 10x8 dome 3 bearing wire stepthick 0.5mm",
		"bezel oval 10x8 dome 3 plate solid shelf 2",
		"bezel oval 10x8 dome 3 plate none bearing step platerim 2",
		"bezel oval 10x8 dome 3 plate open shelf 3.9",
		"bezel oval 10x8 dome 3 scalloped repeats 200",
		"bezel oval 10x8 dome 3 scalloped cutdepth 3",
		"bezel oval 10x8 dome 3 gallery 20",
		"bezel oval 10x8 dome 3 scalloped gallery 3",
		"bezel oval 10x8 dome 3 relief notch",
		"bezel square 10 dome 3 reliefhole 1",
		"bezel square 10 dome 3 serrated relief notch",
		"bezel square 10 dome 3 serrated repeats 3",
		"kit makers 8 pieces bezel oval 10x8 dome 3 count 5",
	)
}

func answerPoint(x, y float64) string { return fmt.Sprintf("%.4f,%.4f", x, y) }
