package reading

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/testcount"
)

// seeds are the examples of the catalogue and what people get wrong.
func seeds(t testing.TB) []string {
	list := []string{
		"collet oval 5/16″ × ¼″, depth 4,1 mm in sterling 22 gauge",
		"collet measured (0,0) (8.5,0) (8.5,6) (0,-6.25)",
		"collet oval 8x6 press 20t block demo oval pre-cone: no",
		"band us 7½ 18ga", "weigh wire mass 0.2 troy oz waste 5 %",
		"daybook amend 12 text “use 20 ga”", "collet ovla 8x6 sterlin",
		"oval 8x6", "collet oval NaNx1e999 depth -0 lean ∞ 💎",
	}
	examples := 0
	for _, s := range testSpecs() {
		for _, e := range s.Examples {
			list = append(list, e.Line)
			examples++
		}
	}
	if examples == 0 {
		t.Fatal("the catalogue has no examples to start from")
	}
	return list
}

// checkOutcome holds for any line: arguments that are finite and in range and
// whose line can be typed again, or a refusal with a sentence, whose line to
// try works.
func checkOutcome(t testing.TB, specs []catalogue.Spec, line string, tries bool) {
	t.Helper()
	checkOutcomeIn(t, specs, testLook(), line, tries)
}

func checkOutcomeIn(t testing.TB, specs []catalogue.Spec, look Lookups, line string, tries bool) {
	t.Helper()
	p, err := Parse(specs, line, look)
	if err != nil {
		r, ok := answer.AsRefusal(err)
		if !ok {
			t.Fatalf("%q: not a refusal: %v", line, err)
		}
		if r.Problem == "" || !utf8.ValidString(r.Problem) || strings.ContainsAny(r.Problem, "\n\r\x00") {
			t.Fatalf("%q: problem %q", line, r.Problem)
		}
		if len(r.Problem) > 600 {
			t.Fatalf("%q: the problem is %d bytes long: %q", line, len(r.Problem), r.Problem)
		}
		if r.Try == "" {
			t.Fatalf("%q: nothing to try", line)
		}
		if tries {
			if _, err := Parse(specs, r.Try, look); err != nil {
				t.Fatalf("%q: the line to try, %q, is refused: %v", line, r.Try, err)
			}
		}
		return
	}
	for name, v := range p.Args {
		o, _ := p.Spec.Option(name)
		if v.Text == "" || !utf8.ValidString(v.Text) {
			t.Fatalf("%q: %s has text %q", line, name, v.Text)
		}
		least, most := o.Limits()
		slack := 1e-9 * max(math.Abs(least), math.Abs(most))
		numbers := append([]float64{}, v.Numbers...)
		if numeric(o) {
			numbers = append(numbers, v.Number)
		}
		for _, x := range numbers {
			if !(x >= least-slack && x <= most+slack) {
				t.Fatalf("%q: %s is %v, outside %v to %v", line, name, x, least, most)
			}
		}
	}
	if tries {
		again, err := Parse(specs, p.Line, look)
		if err != nil {
			t.Fatalf("%q: canonical %q is refused: %v", line, p.Line, err)
		}
		if again.Line != p.Line || !reflect.DeepEqual(again.Args, p.Args) {
			t.Fatalf("%q: canonical %q gives %q, %v not %v", line, p.Line, again.Line, again.Args, p.Args)
		}
	}
}

func TestMutatedLines(t *testing.T) {
	const bound = 50 * time.Millisecond
	long := testcount.Long() && !raceDetector
	lines := 20_000
	if long {
		lines = 200_000
	}
	specs := testSpecs()
	list := seeds(t)
	words := []string{" ", "x", ",", ".", "/", "-", `"`, "in", "mm", "ga", "g", "0", "1e9", "nan", "💎", "é", "\n", "\x00", "\xff",
		"depth", "gauge", "oval", "sterling", "size", "points 0,0", "text", "of", "=", ":", "½", "×", "kit", "collet", "999999999999999999999", "(", "find"}
	const seed = 20260811
	r := rand.New(rand.NewPCG(seed, 1))
	worst, worstLine := time.Duration(0), ""
	for n := 0; n < lines; n++ {
		line := mutate(r, list, words)
		began := time.Now()
		checkOutcome(t, specs, line, n%10 == 0)
		d := time.Since(began)
		// A busy machine can hold up any line; a slow one is slow again.
		for again := 0; long && again < 5 && d > bound; again++ {
			began = time.Now()
			checkOutcome(t, specs, line, false)
			d = min(d, time.Since(began))
		}
		if d > worst {
			worst, worstLine = d, line
		}
	}
	t.Logf("%d lines from seed %d, slowest %v: %.80q", lines, seed, worst, worstLine)
	if long && worst > bound {
		t.Errorf("a line took %v: %q", worst, worstLine)
	}
}

func mutate(r *rand.Rand, list, words []string) string {
	b := []byte(list[r.IntN(len(list))])
	for k := r.IntN(6); k >= 0; k-- {
		at := r.IntN(len(b) + 1)
		switch r.IntN(6) {
		case 0: // a letter less
			if at < len(b) {
				b = append(b[:at], b[at+1:]...)
			}
		case 1: // a byte other
			if at < len(b) {
				b[at] = byte(r.IntN(256))
			}
		case 2: // two swapped
			if at+1 < len(b) {
				b[at], b[at+1] = b[at+1], b[at]
			}
		case 3: // a word in between
			w := words[r.IntN(len(words))]
			b = append(b[:at], append([]byte(w), b[at:]...)...)
		case 4: // cut and joined with another
			o := list[r.IntN(len(list))]
			b = append(b[:at], o[r.IntN(len(o)+1):]...)
		case 5: // doubled
			if len(b) < 2000 {
				b = append(b, b[at:]...)
			}
		}
	}
	return string(b)
}

func BenchmarkParse(b *testing.B) {
	specs := testSpecs()
	look := testLook()
	for b.Loop() {
		if _, err := Parse(specs, "collet oval 8x6 depth 4 sterling 22ga lean 8.5", look); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRefuse(b *testing.B) {
	specs := testSpecs()
	look := testLook()
	for b.Loop() {
		if _, err := Parse(specs, "collet ov=afindl 8x6 depth 4 st(erl\xe4ng 22ga", look); err == nil {
			b.Fatal("not refused")
		}
	}
}
