package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFiguresPlacedInTalk(t *testing.T) {
	band := Last{"band", map[string]string{"ring": "M", "system": "uk", "thickness": "1.8 mm", "width": "7"}}
	resize := Last{"resize", map[string]string{"from": "us 7", "to": "us 4 1/2", "width": "4"}}
	halo := Last{"halo", map[string]string{"outline": "round", "size": "10 mm", "with": "2 mm"}}
	tubes := Last{"tubeset", map[string]string{"outline": "round", "size": "3.5", "tubesize": "5x0.8"}}
	disc := Last{"weigh", map[string]string{"form": "disc", "size": "26 mm", "thickness": "0.9 mm", "alloy": "sterling"}}
	strip := Last{"bezel", map[string]string{"outline": "round", "size": "25 mm", "thickness": "28ga"}}
	for _, test := range []struct {
		after Last
		say   string
		want  string // empty where it must be asked about or refused
	}{
		{band, "and my sister she has 52", "band ring 52 system iso thickness 1.8 mm width 7"},
		{resize, "it's 54 to 57, I read the card upside down", "resize from iso 54 to iso 57 width 4"},
		{halo, "and with 1.2 stones as well so I can compare them side by side", "halo outline round size 10 mm with 1.2"},
		{halo, "what about 1.25 or 1.4, which comes out evener", ""},
		{tubes, "also for 2 mm ones", "tubeset outline round size 2 mm tubesize 5x0.8"},
		{resize, "hang on, it's a K she has now", "resize from uk K to us 4 1/2 width 4"},
		{resize, "make it W instead", "resize from us 7 to uk W width 4"},
		{disc, "same for a disc of 1 3/8 inches", "weigh alloy sterling form disc size 1 3/8 in thickness 0.9 mm"},
		{strip, "and two of those plus three 10 mm ones, all together", ""},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes, Last: &test.after})
		if test.want == "" {
			assert.NotEqual(t, Request, r.Outcome, "%s: %s", test.say, r.Line())
			continue
		}
		assert.Equal(t, test.want, r.Line(), test.say)
	}
}

func TestFiguresAskedFor(t *testing.T) {
	for _, test := range []struct {
		request, missing string
		options          map[string]string
		say, want        string
	}{
		{"halo", "with", map[string]string{"outline": "oval", "size": "8x6", "count": "16"}, "melee is 1.3, I've got loads", "halo count 16 outline oval size 8x6 with 1.3"},
		{"dome", "size", map[string]string{"height": "4", "thickness": "0.6 mm"}, "twenty five please, same as an old shilling nearly", "dome height 4 size 25 thickness 0.6 mm"},
		{"resize", "from", map[string]string{"to": "us 8", "thickness": "1.5 mm"}, "she's currently an O and a half", "resize from uk O 1/2 thickness 1.5 mm to us 8"},
		{"resize", "from", map[string]string{"to": "us 6 1/2", "width": "5"}, "she says it's a 52, bought in paris", "resize from iso 52 to us 6 1/2 width 5"},
	} {
		asked := &Reading{Outcome: Question, Request: test.request, Options: test.options, Missing: test.missing}
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes, Asked: asked})
		assert.Equal(t, test.want, r.Line(), test.say)
	}
}
