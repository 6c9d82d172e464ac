package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWhichStoneInWhichTube(t *testing.T) {
	for say, holds := range map[string]string{
		"stones 2, 2.5, 3 and 4. tube 3.6 od wall 0.5. which":                                                                           "Take the 3 mm stone. A tube 3.6 mm outside with a wall of 0.5 mm",
		"got 3mm 4mm and 5mm czs and tube thats 4.8 outside 3.6 inside which one goes in":                                               "Take the 4 mm stone.",
		"tubing 3.4 wide outside n 2.5 in the hole. bag of 2 2.5 3 and 3.5 czs. whats the one":                                          "Take the 3 mm stone.",
		"I possess the following round zircons: 3,0; 3,5; 4,25; 5,0. The tube is 5,5 outside and 4,1 inside. Which of them can be set?": "Take the 5 mm stone.",
		"my tube's 5mm outer n 4mm inner and my cz's are 4mm or 4.5, whats right":                                                       "Take the 4.5 mm stone.",
		"Tubes in stock: 3.5/2.5, 4.5/3.5, 5.5/4.5 (OD/ID). For a 4 mm round, which one?":                                               "Take the tube of 4.5 x 0.5 mm.",
		"which of these for a 3mm stone: 3.5 od 2.5 id, 4 od 3 id, 3 od 2 id":                                                           "Take the tube of 3.5 x 0.5 mm.",
		"Do I choose the tube of 4,0 or that of 4,5, both with wall of 0,5, for a stone of 3,3 mm?":                                     "Take the tube of 4 x 0.5 mm.",
		"I have a length of silver tube, 6 mm outside and 5 within. Which round stones would sit in it?":                                "takes a round stone of about 5.5 mm",
		"tubes 4 and 5 mm outside, wall 0.5, what stones":                                                                               "4 x 0.5 mm takes a stone of about 3.5 mm; 5 x 0.5 mm takes",
		"i have a 4.8mm inside tube what stone goes in it":                                                                              "0.5 mm takes about 5.3 mm",
		"Got tubing with 3.2mm hole, which round stone would suit?":                                                                     "the bore, 3.2 mm, and one wall",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Contains(t, r.Verdict+r.Text+r.Ask, holds, say)
	}
	for say, line := range map[string]string{
		"customers ring is an M, 9ct w stones in, to an O": "resize alloy 9k-yellow from uk M stones to uk O",
		"what tube for a 3 mm stone":                       "tubeset outline round size 3 mm",
		"3 mm stones, 5 of them, which tube and how long":  "tubeset count 5 outline round size 3 mm",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
}

func TestStripOfOnesOwnTube(t *testing.T) {
	for say, holds := range map[string]string{
		"rolling my own tube from 0.5 sheet for a 3mm stone, how wide the strip":                  "9.42 mm wide",
		"I want to make tube for a 5 mm stone out of 0.6 mm sheet. Width of strip?":               "its tube is 5.6 mm outside",
		"how wide a strip for a tube 4 mm outside, 0.5 wall":                                      "11 mm wide",
		"I need tube of 5 mm OD from 0.6 sheet for a 4.4 mm stone. strip width?":                  "13.82 mm wide",
		"can i make my own tube out of 0.5 sheet for a 3.5 stone, no drawplate. how wide a strip": "11 mm wide",
	} {
		assert.Contains(t, Read(say, Context{Addressed: true}).Text, holds, say)
	}
}
