package requests

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests/bench"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/stock"
)

// maker asks with a daybook of her own.
type maker struct {
	book *daybook.Book
	who  catalogue.Who
}

func newMaker(t *testing.T) maker {
	t.Helper()
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return maker{book, catalogue.Who{Platform: "test", Channel: "c1", Maker: "anna"}}
}

func (m maker) ask(t *testing.T, line string) (*answer.Answer, error) {
	t.Helper()
	call, err := requeststest.CallOf(All(m.book), stock.DemoWorkshop(), line)
	if err != nil {
		return nil, err
	}
	m.asks(call)
	return call.Answer(context.Background())
}

// asks makes a call the maker's.
func (m maker) asks(c *catalogue.Call) {
	c.Who = m.who
	c.Corrections = func(ctx context.Context) ([]catalogue.Correction, error) {
		return bench.Corrections(ctx, m.book, c.Who)
	}
}

func (m maker) must(t *testing.T, line string) *answer.Answer {
	t.Helper()
	a, err := m.ask(t, line)
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	for _, f := range requeststest.Unfit(a) {
		t.Errorf("%s: %s", line, f)
	}
	return a
}

// trialLine is a collet formed on a bench of the given factor and kerf, with
// what its calipers show. A collet of that factor whose blank is as long as
// what was left after the saw gives the rim and the base.
// The calipers are told to be good, so that the trial alone decides.
// m, if given, is the maker whose kept correction the blank was cut by.
func trialLine(t *testing.T, piece string, factor, kerf float64, m ...maker) string {
	t.Helper()
	call, err := requeststest.CallOf(All(nil), stock.DemoWorkshop(), "collet "+piece)
	if err != nil {
		t.Fatal(err)
	}
	if len(m) > 0 {
		m[0].asks(call)
	}
	u, err := colletOf(context.Background(), call)
	if err != nil {
		t.Fatal(err)
	}
	slope := (u.Flat.RimLengthMM - u.Flat.BaseLengthMM) / (u.SlantMM + u.KerfMM) * kerf / 2
	size := func(left float64, length func(setting.Collet) float64, face func(setting.Collet) outline.Curve) string {
		lo, hi := -0.6, 0.6
		for range 50 {
			s := tuned(u.Spec, factor, 0)
			s.WiderMM += (lo + hi) / 2
			c, err := setting.Lay(s)
			if err != nil {
				t.Fatal(err)
			}
			if length(c) > left {
				hi = (lo + hi) / 2
			} else {
				lo = (lo + hi) / 2
			}
		}
		s := tuned(u.Spec, factor, 0)
		s.WiderMM += lo
		c, _ := setting.Lay(s)
		got := face(c).Size()
		return fmt.Sprintf("%.4fx%.4f", got.LengthMM, got.WidthMM)
	}
	rim := size(u.Flat.RimLengthMM-kerf-slope, func(c setting.Collet) float64 { return c.Flat.RimLengthMM }, func(c setting.Collet) outline.Curve { return c.RimOuter })
	base := size(u.Flat.BaseLengthMM-kerf+slope, func(c setting.Collet) float64 { return c.Flat.BaseLengthMM }, func(c setting.Collet) outline.Curve { return c.BaseOuter })
	return fmt.Sprintf("tune %s rimgot %s basegot %s calipers 0.001", piece, rim, base)
}

func TestTuneKeepsShowsAndDrops(t *testing.T) {
	m := newMaker(t)
	const k, kerf = 0.42, 0.12
	for i, piece := range []string{"oval 8x6 depth 4 sterling 22ga", "round 7 depth 4 sterling 22ga lean 12"} {
		a := m.must(t, trialLine(t, piece, k, kerf, m))
		if !strings.HasPrefix(a.Headline, "Kept") {
			t.Fatalf("%s: %s %v", piece, a.Headline, a.Notes)
		}
		if got := requeststest.Value(t, a, "neutral_factor"); math.Abs(got/k-1) > 0.01 {
			t.Errorf("%s: factor %.4f", piece, got)
		}
		if got := requeststest.Value(t, a, "kerf"); math.Abs(got/kerf-1) > 0.01 {
			t.Errorf("%s: kerf %.4f", piece, got)
		}
		if got := requeststest.Value(t, a, "trials"); got != float64(i+1) {
			t.Errorf("%s: %v trials", piece, got)
		}
	}
	a := m.must(t, "tune show")
	if !strings.Contains(a.Headline, "You have one correction") || len(a.Figures) != 2 {
		t.Errorf("%s: %v", a.Headline, a.Figures)
	}
	call, err := requeststest.CallOf(All(nil), stock.DemoWorkshop(), "collet oval 8x6 depth 4 sterling 22ga")
	if err != nil {
		t.Fatal(err)
	}
	m.asks(call)
	n, said := neutralOf(t.Context(), call, "sterling", stock.GaugeMM(22), true)
	note := strings.Join(said, " ")
	if math.Abs(n.factor-k) > 0.005 || n.corner != n.factor || math.Abs(n.kerfMM-kerf) > 0.005 || !strings.Contains(note, "tune drop id ") || !strings.Contains(note, "2 trials") {
		t.Errorf("correction %+v %q", n, note)
	}
	for _, other := range []struct {
		alloy string
		mm    float64
	}{{"copper", stock.GaugeMM(22)}, {"sterling", stock.GaugeMM(20)}, {"sterling", stock.GaugeMM(23)}} {
		if _, ok := keptCorrection(t.Context(), call, other.alloy, other.mm); ok {
			t.Errorf("a correction for %s of %.3f mm out of nothing", other.alloy, other.mm)
		}
	}
	// The collet says that it used it, and how to drop it.
	if a := m.must(t, "collet oval 8x6 depth 4 sterling 22ga"); !strings.Contains(strings.Join(a.Assumptions, " "), note) {
		t.Errorf("the collet does not say %q: %v", note, a.Assumptions)
	}
	call.Who.Maker = "ben"
	if _, ok := keptCorrection(t.Context(), call, "sterling", stock.GaugeMM(22)); ok {
		t.Error("one maker's correction is used for another")
	}
	if a := m.must(t, "tune drop sterling"); !strings.HasPrefix(a.Headline, "Dropped") {
		t.Error(a.Headline)
	}
	if a := m.must(t, "tune show"); !strings.Contains(a.Headline, "You have no correction") {
		t.Error(a.Headline)
	}
}

func TestTuneSaysWhenReadingsContradict(t *testing.T) {
	m := newMaker(t)
	const piece = "oval 8x6 depth 4 sterling 22ga"
	m.must(t, trialLine(t, piece, 0.42, 0.12, m))
	m.must(t, trialLine(t, piece, 0.42, 0.12, m))
	before := m.must(t, "tune show")
	a := m.must(t, trialLine(t, piece, 0.42, 0.9, m))
	if !strings.HasPrefix(a.Headline, "Not kept") || len(a.Notes) == 0 {
		t.Errorf("%s %v", a.Headline, a.Notes)
	}
	if after := m.must(t, "tune show"); after.Figures[1].Text != before.Figures[1].Text {
		t.Errorf("a contradiction was kept: %s", after.Figures[1].Text)
	}
}

func TestTuneWithoutADaybook(t *testing.T) {
	a, err := requeststest.Ask(All(nil), trialLine(t, "oval 8x6 depth 4 sterling 22ga", 0.42, 0.12))
	if err != nil || len(a.Notes) == 0 || !strings.HasPrefix(a.Headline, "Next time use") {
		t.Errorf("%+v, %v", a, err)
	}
}

func TestTuneRefusals(t *testing.T) {
	m := newMaker(t)
	for _, line := range []string{
		"tune oval 8x6 depth 4 sterling 22ga",
		"tune oval 8x6 depth 4 sterling 22ga rimgot 20x18",
		"tune oval 8x6 depth 4 sterling 22ga rimgot 10.2x7.2",
		"tune oval 8x6 depth 4 sterling 22ga rimgot 9.6",
		"tune oval 8x6 depth 4 sterling 22ga heightgot 5.7",
		"tune oval 8x6 depth 4 sterling 22ga rimgot 9.62x7.62 cut 25",
	} {
		_, err := m.ask(t, line)
		r, ok := answer.AsRefusal(err)
		if !ok {
			t.Errorf("%s: %v", line, err)
			continue
		}
		if r.Try == "" {
			t.Errorf("%s: %q without a line to try", line, r.Problem)
			continue
		}
		if _, err := m.ask(t, r.Try); err != nil {
			t.Errorf("%s: what it says to try, %q: %v", line, r.Try, err)
		}
	}
}

func TestTuneExamples(t *testing.T) { requeststest.Examples(t, All(nil), "tune") }
