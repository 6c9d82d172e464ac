package requests

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
)

// outcome runs a line without drawing and checks what comes of it.
func outcome(specs []catalogue.Spec, shop *stock.Workshop, line string) (answered bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v", r)
		}
	}()
	call, refused := requeststest.CallOf(specs, shop, line)
	if refused == nil {
		var used colletUsed
		if used, refused = colletOf(context.Background(), call); refused == nil {
			for _, f := range colletFigures(call, used) {
				below := slices.Contains([]string{"finished_rim_above_girdle", "rest_level", "culet_room", "wall_behind_bearing", "wall_at_rim", "wall_at_corner"}, f.ID)
				negative := f.Value < 0 && !strings.HasPrefix(f.ID, "lean") && f.ID != "offcut_mass" && !below
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

// Thousands of random requests: no panic, no NaN, no negative length, and memory
// stays bounded. In a long run it is a million, none over 100 ms.
func TestRandomRequests(t *testing.T) {
	n := testcount.Of(6_000, 20_000, 1_000_000) / min(requeststest.Slower, 4) // under the race detector a part of them
	const seed = 4711
	rnd := rand.New(rand.NewPCG(seed, 1))
	specs, shop := All(nil), stock.DemoWorkshop()
	answered := 0
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range n {
		line := requeststest.RandomCollet(rnd)
		var took time.Duration
		tries := 1
		if testcount.Long() {
			tries = 8 // the machine may have had something else to do
		}
		for try := range tries {
			time.Sleep(time.Duration(try) * 20 * time.Millisecond)
			start := time.Now()
			ok, err := outcome(specs, shop, line)
			if took = time.Since(start); err != nil {
				t.Fatalf("seed %d, request %d: %q: %v", seed, i, line, err)
			}
			if ok && try == 0 {
				answered++
			}
			if took < requeststest.Slower*100*time.Millisecond {
				break
			}
		}
		if testcount.Long() && took >= requeststest.Slower*100*time.Millisecond {
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
	for _, v := range requeststest.Absurd {
		for _, form := range []string{"collet oval %s depth 4 sterling 22ga", "collet round %s", "collet oval 8x6 depth %s sterling 22ga",
			"collet oval 8x6 depth 4 lean %s sterling 22ga", "collet oval 8x6 depth 4 height %s sterling 22ga", "collet pear 8x%s sterling 22ga"} {
			line := fmt.Sprintf(form, v)
			call, err := requeststest.CallOf(specs, shop, line)
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
				call, err = requeststest.CallOf(specs, shop, r.Try)
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
