package tracing

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// planarTarget are the first corners of the 64 squares of a planar target of 17 cm,
// in mm from its middle, and where they were found in a photograph of 640 x 480 px
// taken through a lens that distorts strongly.
//
// Source: Z. Zhang, "A Flexible New Technique for Camera Calibration", MSR-TR-98-71
// (1998), the data published with it: Model.txt and data1.txt, to 0.0001 px.
func planarTarget(t *testing.T) []pair {
	t.Helper()
	f, err := os.Open("testdata/zhang1998-view1.csv")
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var pairs []pair
	for _, row := range rows[1:] {
		var v [4]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		pairs = append(pairs, pair{Place{(v[0] - 3.1111115) * 25.4, (v[1] + 3.6111115) * 25.4}, v[2], v[3]})
	}
	require.Len(t, pairs, 64)
	return pairs
}

// cutToAxis moves the photograph so that the lens's axis, published at 303.959,
// 206.585 px, is in its middle, as it is in a phone's photograph.
func cutToAxis(pairs []pair) []pair {
	var cut []pair
	for _, p := range pairs {
		cut = append(cut, pair{p.card, p.x + 319.5 - 303.959, p.y + 239.5 - 206.585})
	}
	return cut
}

// borderAndMiddle are the outer squares, where a card has its marks, and the 36
// within, where the stone lies.
func borderAndMiddle(all []pair) (border, middle []pair) {
	for k, p := range all {
		if i, j := k/8, k%8; i == 0 || i == 7 || j == 0 || j == 7 {
			border = append(border, p)
		} else {
			middle = append(middle, p)
		}
	}
	return border, middle
}

// missedMM is how far the camera misses places, mm on the card: the worst and the
// root mean square.
func missedMM(cam camera, places []pair) (worst, rms float64) {
	for _, p := range places {
		x, y := cam.at(p.card, 0)
		d := math.Hypot(x-p.x, y-p.y) / cam.scaleAt(p.card)
		worst, rms = math.Max(worst, d), rms+d*d
	}
	return worst, math.Sqrt(rms / float64(len(places)))
}

// Fitted to the border alone, knowing neither the lens nor the focal length, the
// camera tells places in the middle of the published photograph to 0.3 mm at the
// worst, under one pixel.
func TestPlacesOnThePublishedTarget(t *testing.T) {
	for name, all := range map[string][]pair{"as taken": planarTarget(t), "cut to the lens's axis": cutToAxis(planarTarget(t))} {
		border, middle := borderAndMiddle(all)
		plane, ok := fitHomography(border)
		require.True(t, ok, name)
		cam, _, ok := fitCamera(seen{pairs: border, plane: plane}, 640, 480)
		require.True(t, ok, name)
		worst, rms := missedMM(cam, middle)
		assert.Less(t, worst, 0.3, name)
		assert.Less(t, rms, 0.16, name)
	}
}

// With the published focal length, 832.5 px, the fit finds the published pose and
// distortion.
func TestPoseOfThePublishedTarget(t *testing.T) {
	const publishedFocalPx = 832.5
	all := cutToAxis(planarTarget(t))
	plane, ok := fitHomography(all)
	require.True(t, ok)
	start, ok := cameraFrom(plane, 640, 480, publishedFocalPx)
	require.True(t, ok)
	cam, _ := start.fitted(all, math.Log(publishedFocalPx), 0.0001)
	published := [9]float64{0.992759, -0.026319, 0.117201, 0.0139247, 0.994339, 0.105341, -0.11931, -0.102947, 0.987505}
	cosine := -1.0
	for i := range 9 {
		cosine += published[i] * cam.turn[i]
	}
	turnedDeg := math.Acos(math.Min(1, cosine/2)) * 180 / math.Pi
	// The published shift is that of the corner at 0, 0; ours is that of the middle.
	const middleX, middleY = 3.1111115, -3.6111115
	for i, inch := range []float64{-3.84019, 3.65164, 12.791} {
		want := 25.4 * (inch + published[3*i]*middleX + published[3*i+1]*middleY)
		assert.InDelta(t, want, cam.shift[i], 0.6, "shift %d, mm", i)
	}
	assert.Less(t, turnedDeg, 0.2)
	// The published distortion has two terms, -0.228601 and 0.190353; ours has one,
	// which takes the place of both.
	r := 400 / publishedFocalPx
	assert.InDelta(t, -0.228601*r*r+0.190353*math.Pow(r, 4), cam.bend, 0.005)
}
