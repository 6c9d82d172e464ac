package requests

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
)

// offerLine is "3: tapered baguette 8 x 4 mm: 27.29 x 5.8 mm, 6 % left".
var offerLine = regexp.MustCompile(`^\d+: ([a-z ]+?) ([0-9.]+)(?: x ([0-9.]+))? mm: `)

// offers are the stones that an answer of match lists, as collar and collet are
// asked for them.
func offers(a *answer.Answer) []string {
	var list []string
	for _, s := range a.Steps {
		if m := offerLine.FindStringSubmatch(s); m != nil {
			size := m[2]
			if m[3] != "" {
				size += "x" + m[3]
			}
			list = append(list, strings.ReplaceAll(m[1], " ", "-")+" "+size)
		}
	}
	return list
}

// No piece that match offers is too short, and the request that it points to never
// refuses it. A long run asks for 5,000 offers.
func TestOffersHold(t *testing.T) {
	count := testcount.Of(60, 150, 5000)
	rnd := rand.New(rand.NewPCG(41, 13))
	specs, shop := All(nil), stock.DemoWorkshop()
	asked := map[string]int{}
	for tries := 0; asked[""] < count; tries++ {
		require.Less(t, tries, count)
		with := fmt.Sprintf(" sterling lean %.1f allowance %.2f no bench", 3+15*rnd.Float64(), 1.2+rnd.Float64())
		if rnd.IntN(3) == 0 {
			with = fmt.Sprintf(" neutral %.3f kerf %.2f", 0.38+0.12*rnd.Float64(), 0.2*rnd.Float64()) + with
		}
		gauge := fmt.Sprintf(" %dga", 18+rnd.IntN(7))
		var kind, match, back string
		var check func(a *answer.Answer, offer string)
		switch tries % 4 {
		case 0:
			length, height := 15+40*rnd.Float64(), 4+6*rnd.Float64()
			kind, match = "strip", fmt.Sprintf("strip %.2fx%.2f", length, height)+gauge+with
			back = "collar %s" + gauge + with
			length, height = hundredths(length), hundredths(height)
			check = func(a *answer.Answer, offer string) {
				got := figures(a)
				assert.LessOrEqual(t, got["strip_length"], max(length, height)+1e-6, "%s of %s", offer, match)
				assert.LessOrEqual(t, got["strip_height"], min(length, height)+1e-6, "%s of %s", offer, match)
			}
		case 1:
			length, width := 15+40*rnd.Float64(), 6+15*rnd.Float64()
			kind, match = "offcut", fmt.Sprintf("offcut %.2fx%.2f", length, width)+gauge+with
			back = "collet %s" + gauge + with
			length, width = hundredths(length), hundredths(width)
			check = func(a *answer.Answer, offer string) {
				got := figures(a)
				w, h := got["blank_width"], got["blank_height"]
				assert.LessOrEqual(t, max(w, h), max(length, width)+1e-6, "%s of %s", offer, match)
				assert.LessOrEqual(t, min(w, h), min(length, width)+1e-6, "%s of %s", offer, match)
			}
		case 2:
			tube := shopKey(shop.Tubes[rnd.IntN(len(shop.Tubes))].Name)
			alloy := strings.Replace(with, " sterling", "", 1)
			kind, match = "tube", "tube "+tube+alloy
			back = "collar %s tube " + tube + alloy
			check = func(a *answer.Answer, offer string) {
				assert.Positive(t, figures(a)["tube_length"], "%s of %s", offer, match)
			}
		case 3:
			b := shop.Blocks[rnd.IntN(len(shop.Blocks))]
			plain := regexp.MustCompile(` lean [0-9.]+`).ReplaceAllString(with, "")
			kind, match = "block", "block "+shopKey(b.Name)+gauge+plain
			back = "collar %s block " + shopKey(b.Name) + gauge + plain
			check = func(a *answer.Answer, offer string) {
				assert.LessOrEqual(t, figures(a)["hole_gap"], 1.0, "%s of %s", offer, match)
			}
		}
		a, err := requeststest.Ask(specs, "match "+match)
		if err != nil {
			_, refused := answer.AsRefusal(err)
			require.True(t, refused, "%s: %v", match, err)
			continue
		}
		for _, offer := range offers(a) {
			again, err := requeststest.Ask(specs, fmt.Sprintf(back, offer))
			asked[kind]++
			asked[""]++
			if assert.NoError(t, err, "%s of match %s", offer, match) {
				check(again, offer)
			}
		}
	}
	for _, kind := range []string{"strip", "offcut", "tube", "block"} {
		assert.Greater(t, asked[kind], count/50, kind)
	}
	t.Logf("%v", asked)
}

// hundredths is a number as it was typed.
func hundredths(mm float64) float64 {
	v, _ := strconv.ParseFloat(fmt.Sprintf("%.2f", mm), 64)
	return v
}
