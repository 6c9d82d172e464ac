package requests

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
)

// saddlePathOf is the path "saddle" of an answer's SVG, as points along its lines, a
// tenth of a millimetre apart at the most.
func saddlePathOf(t *testing.T, a *answer.Answer) (points [][2]float64) {
	t.Helper()
	for _, file := range a.Attachments {
		if !strings.HasSuffix(file.Name, ".svg") {
			continue
		}
		data, err := file.Render(t.Context())
		require.NoError(t, err)
		m := regexp.MustCompile(`(?s)<path[^>]*id="saddle"[^>]*?\bd="([^"]*)"`).FindSubmatch(data)
		if m == nil {
			m = regexp.MustCompile(`(?s)<path[^>]*?\bd="([^"]*)"[^>]*id="saddle"`).FindSubmatch(data)
		}
		require.NotNil(t, m, "the SVG has a path called saddle")
		for _, s := range requeststest.SVGPath(t, string(m[1])) {
			if len(points) > 0 {
				from := points[len(points)-1]
				n := math.Ceil(math.Hypot(s.P.X-from[0], s.P.Y-from[1]) / 0.1)
				for k := 1.0; k < n; k++ {
					points = append(points, [2]float64{from[0] + (s.P.X-from[0])*k/n, from[1] + (s.P.Y-from[1])*k/n})
				}
			}
			points = append(points, [2]float64{s.P.X, s.P.Y})
		}
	}
	return points
}

// The printed line of a tube, wrapped round the tube again, lies on the shank:
// worked here from the paper alone.
func TestPrintedTubeTemplateLiesOnItsShank(t *testing.T) {
	for _, v := range []struct {
		line                 string
		radius, crest, inner float64
		halfRoundWide        float64
	}{
		{"saddle tubesize 5x0.5 height 6 shank diameter 14 1.5mm wide 20", 2.5, 8.5, 7, 0},
		{"saddle tubesize 6x0.6 height 6 shank diameter 24 2mm wide 20", 3, 14, 12, 0},
		{"saddle tubesize 5x0.5 height 6 shank diameter 17 1.6mm half-round wide 8", 2.5, 10.1, 8.5, 8},
	} {
		a, err := requeststest.Ask(All(nil), v.line)
		require.NoError(t, err, v.line)
		points := saddlePathOf(t, a)
		require.Greater(t, len(points), 40, v.line)
		first, high := points[0], 0.0
		assert.InDelta(t, 2*math.Pi*v.radius, points[len(points)-1][0]-first[0], 0.01, "%s: once round", v.line)
		for _, p := range points {
			high = math.Max(high, p[1]) // SVG's y runs down: the lowest point of the wall
		}
		low := high
		for _, p := range points {
			low = math.Min(low, p[1])
		}
		assert.InDelta(t, figure(a, "cut_depth"), high-low, 0.003, v.line)
		// The seam of a round lies where x is largest: with its length along the
		// finger that is to the side, along the band.
		top := figure(a, "height_low") - figure(a, "height")
		for _, p := range points {
			sin, cos := math.Sincos((p[0] - first[0]) / v.radius)
			x, y := v.radius*sin, v.radius*cos
			r := v.crest
			if v.halfRoundWide > 0 {
				r = v.inner + (v.crest-v.inner)*math.Sqrt(1-math.Pow(2*x/v.halfRoundWide, 2))
			}
			assert.InDelta(t, v.crest-math.Sqrt(r*r-y*y), top+p[1]-low, 0.01, v.line)
		}
	}
}

// Every outline, on shanks of 14 to 24 mm, flat and half-round: the answer has its
// figures, its printed line is as deep as they say, and the line typed again gives
// the same.
func TestSaddleOfEveryOutline(t *testing.T) {
	for _, choice := range option.Outlines() {
		size := outline.Kind(choice.Key).Describe().Sample
		if outline.Kind(choice.Key) == outline.Measured {
			continue
		}
		sides := fmt.Sprintf("%gx%g", size.LengthMM, size.WidthMM)
		switch {
		case size.ThirdMM > 0:
			sides += fmt.Sprintf("x%g", size.ThirdMM)
		case size.LengthMM == 0:
			sides = fmt.Sprintf("%g", size.WidthMM)
		}
		for _, shank := range []string{"diameter 14 1.2mm flat", "diameter 24 2mm half-round wide 6"} {
			line := fmt.Sprintf("saddle %s %s shank %s", choice.Key, sides, shank)
			a, err := requeststest.Ask(All(nil), line)
			require.NoError(t, err, line)
			assert.InDelta(t, figure(a, "cut_depth"), figure(a, "height_high")-figure(a, "height_low"), 1e-9, line)
			assert.Greater(t, figure(a, "height_low"), figure(a, "height")-0.01, line)
			assert.NotEmpty(t, saddlePathOf(t, a), line)
			again, err := requeststest.Ask(All(nil), a.Line)
			require.NoError(t, err, a.Line)
			assert.Equal(t, a.Headline, again.Headline, a.Line)
		}
	}
}

func TestSaddleRefusals(t *testing.T) {
	for line, says := range map[string]string{
		"saddle oval 8x6":                                 "which ring",
		"saddle oval 8x6 shank 7":                         "say its system",
		"saddle oval 40x30 shank diameter 14":             "misses the shank",
		"saddle bezel oval 10x8 shank us 7":               "how high is the bezel",
		"saddle tube shank us 7 height 6":                 "which tube",
		"saddle tubesize 5x0.5 shank us 7":                "how long is the tube",
		"saddle shank us 7":                               "which outline",
		"saddle round 6 shank us 7 2mm round-wire wide 3": "as wide as it is thick",
		"saddle oval 8x6 shank us 44":                     "out of range",
	} {
		_, err := requeststest.Ask(All(nil), line)
		refused, ok := answer.AsRefusal(err)
		require.True(t, ok, "%s: %v", line, err)
		assert.Contains(t, refused.Problem, says, line)
		if refused.Try != "" && !strings.HasPrefix(refused.Try, "help") {
			_, err := requeststest.Ask(All(nil), refused.Try)
			assert.NoError(t, err, "%s -> %s", line, refused.Try)
		}
	}
}
