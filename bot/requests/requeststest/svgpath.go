package requeststest

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/bot/template/scene"
)

// SVGPath reads the path data of an SVG file: absolute moves, lines and cubics.
func SVGPath(t testing.TB, data string) scene.Path {
	t.Helper()
	var path scene.Path
	var start scene.Point
	for _, command := range regexp.MustCompile(`[A-Za-z][^A-Za-z]*(?:e-?\d+[^A-Za-z]*)*`).FindAllString(data, -1) {
		var at []scene.Point
		numbers := regexp.MustCompile(`[^\s,]+`).FindAllString(command[1:], -1)
		for i := 0; i+1 < len(numbers); i += 2 {
			x, err := strconv.ParseFloat(numbers[i], 64)
			require.NoError(t, err, command)
			y, err := strconv.ParseFloat(numbers[i+1], 64)
			require.NoError(t, err, command)
			at = append(at, scene.Point{X: x, Y: y})
		}
		switch {
		case command[0] == 'M' && len(at) == 1:
			start = at[0]
			path = append(path, scene.Seg{Op: scene.MoveTo, P: start})
		case command[0] == 'L' && len(at) == 1:
			path = append(path, scene.Seg{Op: scene.LineTo, P: at[0]})
		case command[0] == 'C' && len(at) == 3:
			path = append(path, scene.Seg{Op: scene.CubicTo, C1: at[0], C2: at[1], P: at[2]})
		case command == "z":
			path = append(path, scene.Seg{Op: scene.ClosePath, P: start})
		default:
			require.Fail(t, "unexpected path data", command)
		}
	}
	return path
}
