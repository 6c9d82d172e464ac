package requests

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
)

// randomForming makes a line of one of the requests that form, set or match:
// mostly sensible, sometimes not.
func randomForming(r *rand.Rand) string {
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	num := func(low, high float64) string {
		if r.IntN(30) == 0 {
			return pick(requeststest.Absurd...)
		}
		return fmt.Sprintf("%.*f", r.IntN(3), low+(high-low)*r.Float64())
	}
	kinds := outline.Kinds()
	kind := kinds[r.IntN(len(kinds))]
	piece := string(kind) + " "
	switch kind {
	case outline.Measured:
		piece += "points"
		n := 8 + r.IntN(16)
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			piece += fmt.Sprintf(" %.2f,%.2f", 3*c, 4*s)
		}
	case outline.Round, outline.Square, outline.Trillion, outline.Heart, outline.Hexagon:
		piece += num(2, 14)
	default:
		piece += num(4, 16) + "x" + num(2, 9)
	}
	shop := stock.DemoWorkshop()
	block, tube := shop.Blocks[r.IntN(len(shop.Blocks))].Name, shop.Tubes[r.IntN(len(shop.Tubes))].Name
	if r.IntN(2) == 0 {
		for _, b := range shop.Blocks {
			if b.Kind == kind {
				block = b.Name
			}
		}
	}
	common := []string{"depth " + num(1, 8), "height " + num(2, 12), "rim " + num(0, 3), num(14, 28) + "ga", num(0.2, 1.6) + "mm", pick("sterling", "copper", "18k-yellow", "titanium")}
	var words []string
	switch request := pick("collar", "collar", "prongs", "bezel", "match", "tune"); request {
	case "collar":
		words = append(words, request, piece)
		common = append(common, "block "+block, "block "+block, "tube "+tube, "press "+pick("20t", "12t"), "lean "+num(1, 30), "corner "+pick("bent", "scored"), "filing "+num(0, 1))
	case "prongs":
		words = append(words, request, piece)
		common = append(common, "number "+num(2, 12), "width "+num(0.5, 3), "gallery "+num(0.3, 6), "drill "+num(0.4, 2), "even", "places "+num(0, 40)+" "+num(40, 99), "seam "+pick("side", "end", "point"))
	case "bezel":
		words = append(words, request, piece)
		common = []string{"dome " + num(0.5, 8), "edge " + num(0, 60), "bearing " + pick("step", "wire", "none"), "seat " + num(0.3, 3), "corner " + pick("bent", "mitred"), "grip " + num(0.1, 1), num(20, 30) + "ga", "girdle " + num(0, 2),
			"plate " + pick("open", "solid", "none"), "shelf " + num(0.2, 3), "platerim " + num(0, 3), pick("scalloped", "serrated"), pick("scalloped", "serrated") + " repeats " + num(2, 40),
			"serrated pitch " + num(0.4, 4), "scalloped cutdepth " + num(0.1, 1.5), "gallery " + num(1, 6), "relief " + pick("notch", "hole", "both"), "count " + num(1, 20), "cup"}
	case "match":
		words = append(words, request, pick("tube "+tube, "tubesize "+num(2, 14)+"x"+num(0.2, 2), "strip "+num(10, 40)+"x"+num(2, 10), "offcut "+num(10, 60)+"x"+num(5, 30), "hole "+num(4, 14)+"x"+num(4, 14), "block "+block))
		common = []string{"outline " + string(kind), num(18, 26) + "ga", "lean " + num(0, 25), "allowance " + num(0, 4)}
	case "tune":
		words = append(words, request, piece, "rimgot "+num(4, 16)+"x"+num(3, 10))
		common = append(common, "basegot "+num(2, 14)+"x"+num(2, 8), pick("inner", "outer"), "heightgot "+num(2, 12))
	}
	for range r.IntN(5) {
		words = append(words, common[r.IntN(len(common))])
	}
	return strings.Join(words, " ")
}

// Whatever is asked, there is an answer that fits a phone or a refusal of one
// sentence; what a refusal says to try leads to an answer.
func TestRandomForming(t *testing.T) {
	const seed = 20261125
	r := rand.New(rand.NewPCG(seed, 7))
	n := testcount.Of(150, 400, 4000)
	answered := map[string]int{}
	tried := 0
	var left []string
	var slowest time.Duration
	slowLine := ""
	for range n {
		line := randomForming(r)
		start := time.Now()
		a, err := askSafely(t, line)
		if d := time.Since(start); d > slowest {
			slowest, slowLine = d, line
		}
		if err == nil {
			answered[a.Request]++
			for _, f := range requeststest.Unfit(a) {
				t.Errorf("seed %d, %s: %s", seed, line, f)
			}
			continue
		}
		refused, ok := answer.AsRefusal(err)
		if !ok || refused.Problem == "" || strings.Contains(refused.Problem, "\n") {
			t.Errorf("seed %d, %q: %v", seed, line, err)
			continue
		}
		// A line with several mistakes is mended one by one, as the service does.
		mended := false
		for hop := 0; hop < 4 && refused != nil && refused.Try != "" && !mended; hop++ {
			_, err := askSafely(t, refused.Try)
			mended = err == nil
			if next, ok := answer.AsRefusal(err); err != nil && !ok {
				t.Errorf("seed %d, %q: %v", seed, refused.Try, err)
				break
			} else {
				refused = next
			}
		}
		tried++
		if !mended {
			left = append(left, line)
		}
	}
	// The service falls back on an example where mending does not end.
	if len(left)*4 > tried {
		t.Errorf("seed %d: %d of %d refused lines were not mended by what they say to try, such as %q", seed, len(left), tried, left)
	}
	for _, request := range []string{"collar", "prongs", "bezel", "match"} {
		if answered[request] < n/60 {
			t.Errorf("only %d lines of %s were answered", answered[request], request)
		}
	}
	t.Logf("answered %v of %d; slowest %v: %s", answered, n, slowest, slowLine)
}

// askSafely tells a panic as a fault.
func askSafely(t *testing.T, line string) (a *answer.Answer, err error) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
	}()
	return requeststest.Ask(All(nil), line)
}
