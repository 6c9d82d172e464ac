package requests

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

// long reports whether the long runs are asked for; .ci/run asks.
func long() bool { return os.Getenv("GUILDHAND_LONG") != "" }

// absurd are values that people, or their phones, do send.
var absurd = []string{"0", "1e9", "-3", "NaN", "1e-9", "Inf", "1234567890123456789012345678901234567890", "💍", "", "8x", "x", "8xx6", "½", "٣", "0x10", "8x6x4x2", "1/0", "--", "8..5", "a4", "\x00", "\u202e6"}

// randomLine makes a collet request: mostly sensible, sometimes not.
func randomLine(rnd *rand.Rand) string {
	kinds := outline.Kinds()
	pick := func(list ...string) string { return list[rnd.IntN(len(list))] }
	num := func(low, high float64) string {
		if rnd.IntN(25) == 0 {
			return pick(absurd...)
		}
		return fmt.Sprintf("%.*f", rnd.IntN(4), low+(high-low)*rnd.Float64())
	}
	kind := kinds[rnd.IntN(len(kinds))]
	words := []string{"collet", string(kind)}
	switch {
	case kind == outline.Measured:
		words = append(words, "points")
		n := 6 + rnd.IntN(20)
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			words = append(words, fmt.Sprintf("%.2f,%.2f", 3*c+0.1*rnd.Float64(), 4*s+0.1*rnd.Float64()))
		}
	case kind == outline.Round, kind == outline.Square:
		words = append(words, num(1, 20))
	default:
		words = append(words, num(1, 20)+pick("x", " x ", "×", "*", " by ")+num(1, 20))
	}
	for range rnd.IntN(6) {
		words = append(words, pick(
			"depth "+num(0.5, 15), "height "+num(0.5, 20), "rim "+num(0, 3), "lean "+num(0, 45), "included "+num(0, 90),
			"clearance "+num(0, 0.5), "bearing "+num(0, 2), num(10, 30)+"ga", num(0.1, 3)+"mm", "sterling", "18k-yellow",
			"seam "+pick("side", "end", "point", "corner", "cleft", "cut"), "corner "+pick("bent", "scored"), "radius "+num(0, 2),
			"taper "+pick("even", "apex", "base"), "base "+pick("round", "oval", "square", "heart"), "neutral "+num(0.2, 0.6),
			"precone", "allowance "+num(0, 5), "cornercut "+num(2, 45), "paper letter", "units inch"))
	}
	return strings.Join(words, " ")
}

// outcome runs a line without drawing and checks what comes of it.
func outcome(specs []catalogue.Spec, shop *stock.Workshop, line string) (answered bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v", r)
		}
	}()
	call, refused := callOf(specs, shop, line)
	if refused == nil {
		var used colletUsed
		if used, refused = colletOf(context.Background(), call); refused == nil {
			for _, f := range colletFigures(used) {
				negative := f.Value < 0 && !strings.HasPrefix(f.ID, "lean") && f.ID != "offcut_mass"
				if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) || negative || (f.ID == "offcut_mass" && f.Value < -1e-9) {
					return true, fmt.Errorf("%s is %v", f.ID, f.Value)
				}
			}
			return true, nil
		}
	}
	r, ok := answer.AsRefusal(refused)
	switch {
	case !ok:
		return false, fmt.Errorf("a fault and not a refusal: %v", refused)
	case r.Problem == "" || strings.Contains(r.Problem, "\n"):
		return false, fmt.Errorf("refused with %q, which is not one sentence", r.Problem)
	}
	return false, nil
}

// A million random requests (twenty thousand in a short run): no panic, no
// NaN, no negative length, none over 100 ms, and memory stays bounded.
func TestRandomRequests(t *testing.T) {
	n := 20_000 / min(slower, 4) // under the race detector a part of them
	if long() {
		n = 1_000_000
	}
	const seed = 4711
	rnd := rand.New(rand.NewPCG(seed, 1))
	specs, shop := All(nil), stock.DemoWorkshop()
	answered := 0
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range n {
		line := randomLine(rnd)
		var took time.Duration
		for try := range 8 { // the machine may have had something else to do
			time.Sleep(time.Duration(try) * 20 * time.Millisecond)
			start := time.Now()
			ok, err := outcome(specs, shop, line)
			if took = time.Since(start); err != nil {
				t.Fatalf("seed %d, request %d: %q: %v", seed, i, line, err)
			}
			if ok && try == 0 {
				answered++
			}
			if took < slower*100*time.Millisecond {
				break
			}
		}
		if took >= slower*100*time.Millisecond {
			t.Fatalf("seed %d, request %d: %q took %v eight times", seed, i, line, took)
		}
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 32<<20 {
		t.Errorf("the heap has grown by %d MB over %d requests", grown>>20, n)
	}
	if answered < n/20 {
		t.Errorf("only %d of %d requests were answered: the mix says little", answered, n)
	}
	t.Logf("%d requests, %d answered", n, answered)
}

// Absurd sizes and measures get one sentence, and a line to try that works.
func TestAbsurdValues(t *testing.T) {
	specs, shop := All(nil), stock.DemoWorkshop()
	for _, v := range absurd {
		for _, form := range []string{"collet oval %s depth 4 sterling 22ga", "collet round %s", "collet oval 8x6 depth %s sterling 22ga",
			"collet oval 8x6 depth 4 lean %s sterling 22ga", "collet oval 8x6 depth 4 height %s sterling 22ga", "collet pear 8x%s sterling 22ga"} {
			line := fmt.Sprintf(form, v)
			call, err := callOf(specs, shop, line)
			if err == nil {
				_, err = colletOf(context.Background(), call)
			}
			if err == nil {
				continue // "½" is a size in its way, and so on
			}
			r, ok := answer.AsRefusal(err)
			if !ok || r.Problem == "" || strings.ContainsAny(r.Problem, "\n\x00") {
				t.Errorf("%q: %v", line, err)
				continue
			}
			if r.Try == "" {
				t.Errorf("%q: %q has no line to try", line, r.Problem)
				continue
			}
			// The parser knows words and ranges, the computation what can be
			// made: a line to try may be refused once more with a better one.
			// (The service follows them up before it answers.)
			for range 3 {
				call, err = callOf(specs, shop, r.Try)
				if err == nil {
					_, err = colletOf(context.Background(), call)
				}
				next, refused := answer.AsRefusal(err)
				if !refused {
					break
				}
				r = next
			}
			if err != nil {
				t.Errorf("%q: no line to try works; the last, %q, is refused: %v", line, r.Try, err)
			}
		}
	}
}
