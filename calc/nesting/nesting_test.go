package nesting

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/testcount"
	"guildhand/calc/units"
)

// blank is the flat blank of a usual collet, as a polygon.
func blank(t testing.TB, kind outline.Kind, length, width float64) []Point {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: length, WidthMM: width}})
	require.NoError(t, err)
	got, err := setting.Lay(setting.Spec{Stone: c, HeightMM: 5.75, RimMM: 1, ClearanceMM: 0.05,
		Lean: 8.5 * units.Degree, Taper: setting.Even, ThicknessMM: 0.6438, NeutralFactor: 0.5, CornerFactor: 0.5})
	require.NoError(t, err)
	var out []Point
	for _, q := range got.Flat.Base {
		out = append(out, Point{q.P0.X, q.P0.Y})
	}
	out = append(out, Point{got.Flat.SeamB.B.X, got.Flat.SeamB.B.Y})
	for i := len(got.Flat.Rim) - 1; i >= 0; i-- {
		q := got.Flat.Rim[i]
		out = append(out, Point{q.P3.X, q.P3.Y})
	}
	return append(out, Point{got.Flat.SeamA.A.X, got.Flat.SeamA.A.Y})
}

// polygonOf makes the outside judge's polygon.
func polygonOf(t testing.TB, pts []Point) geom.Geometry {
	t.Helper()
	xy := make([]float64, 0, 2*len(pts)+2)
	for _, p := range append(pts[:len(pts):len(pts)], pts[0]) {
		xy = append(xy, p.X, p.Y)
	}
	poly := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
	if err := poly.Validate(); err != nil {
		t.Fatalf("not a polygon: %v", err)
	}
	return poly.AsGeometry()
}

// judge checks a layout with the polygons of a general geometry library
// (peterstace/simplefeatures): every piece on its sheet and at least the gap
// from any other.
func judge(t testing.TB, pieces []Piece, sheet Sheet, gapMM float64, l Layout) error {
	t.Helper()
	type placed struct {
		sheet int
		g     geom.Geometry
		low   Point
		high  Point
	}
	var all []placed
	counts := make([]int, len(pieces))
	for _, p := range l.Placements {
		counts[p.Piece]++
		pts := p.Apply(pieces[p.Piece].Outline)
		low, high := bounds(pts)
		const eps = 1e-9
		if low.X < gapMM-eps || low.Y < gapMM-eps || high.X > sheet.WidthMM-gapMM+eps || high.Y > sheet.LengthMM-gapMM+eps {
			return fmt.Errorf("piece %d lies %v to %v, off the sheet of %v", p.Piece, low, high, sheet)
		}
		all = append(all, placed{p.Sheet, polygonOf(t, pts), low, high})
	}
	for i, p := range pieces {
		if counts[i] != p.Count {
			return fmt.Errorf("%d of piece %d, want %d", counts[i], i, p.Count)
		}
	}
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.sheet != b.sheet || a.high.X+gapMM < b.low.X || b.high.X+gapMM < a.low.X || a.high.Y+gapMM < b.low.Y || b.high.Y+gapMM < a.low.Y {
				continue
			}
			d, ok := geom.Distance(a.g, b.g)
			if !ok || d < gapMM-1e-9 {
				return fmt.Errorf("two pieces are %v mm apart, want %v", d, gapMM)
			}
		}
	}
	return nil
}

// boxes is the smallest rectangle on which n bounding boxes fit in a grid.
func boxes(pts []Point, n int, sheet Sheet, gapMM float64) float64 {
	low, high := bounds(pts)
	w, h := high.X-low.X+gapMM, high.Y-low.Y+gapMM
	best := math.Inf(1)
	for _, box := range [][2]float64{{w, h}, {h, w}} {
		for columns := 1; columns <= n; columns++ {
			rows := (n + columns - 1) / columns
			x, y := float64(columns)*box[0]+gapMM, float64(rows)*box[1]+gapMM
			if x <= sheet.WidthMM && y <= sheet.LengthMM {
				best = math.Min(best, x*y)
			}
		}
	}
	return best
}

func TestTwelveOvalColletsSaveSheet(t *testing.T) {
	for _, sheet := range []Sheet{{100, 100}, {50, 150}, {75, 200}, {150, 300}} {
		const gap = 0.5
		pieces := []Piece{{Name: "collet", Outline: blank(t, outline.Oval, 8, 6), Count: 12}}
		l, err := Nest(context.Background(), pieces, sheet, gap, nil)
		require.NoError(t, err)
		if err := judge(t, pieces, sheet, gap, l); err != nil {
			t.Fatal(err)
		}
		box := boxes(pieces[0].Outline, 12, sheet, gap)
		saved := 1 - l.UsedMM2/box
		t.Logf("sheet %v: used %.0f mm2 (%.1f x %.1f), boxes %.0f, saved %.1f %%, yield %.1f %%", sheet, l.UsedMM2, l.UsedWidthMM, l.UsedLengthMM, box, 100*saved, 100*l.Yield())
		if l.Sheets != 1 || saved < 0.15 {
			t.Errorf("sheet %v: %d sheets, %.1f %% less than boxes, want 15 %%", sheet, l.Sheets, 100*saved)
		}
	}
}

func TestTwoHundredPiecesInTime(t *testing.T) {
	const gap = 0.4
	sheet := Sheet{100, 300}
	pieces := []Piece{
		{Name: "oval", Outline: blank(t, outline.Oval, 8, 6), Count: 80},
		{Name: "pear", Outline: blank(t, outline.Pear, 9, 6), Count: 60},
		{Name: "emerald", Outline: blank(t, outline.Emerald, 8, 6), Count: 60},
	}
	start := time.Now()
	l, err := Nest(context.Background(), pieces, sheet, gap, nil)
	took := time.Since(start)
	require.NoError(t, err)
	if err := judge(t, pieces, sheet, gap, l); err != nil {
		t.Fatal(err)
	}
	t.Logf("200 pieces on %d sheets in %v, yield %.1f %%", l.Sheets, took, 100*l.Yield())
	// A busy machine takes as long as it likes, so the limit is for long runs.
	if testcount.Long() && took > slower*2*time.Second {
		t.Errorf("took %v, want under 2 s", took)
	}
}

func TestRandomPiecesNeverTouch(t *testing.T) {
	const seed = 3
	rnd := rand.New(rand.NewPCG(seed, 8))
	for i := range 60 {
		var pieces []Piece
		for range 1 + rnd.IntN(4) {
			kinds := []outline.Kind{outline.Oval, outline.Pear, outline.Emerald, outline.Heart, outline.Kite, outline.Marquise}
			w := 4 + 4*rnd.Float64()
			pieces = append(pieces, Piece{Name: "p", Outline: blank(t, kinds[rnd.IntN(len(kinds))], w*1.3, w), Count: 1 + rnd.IntN(6)})
		}
		sheet := Sheet{45 + 100*rnd.Float64(), 60 + 100*rnd.Float64()}
		gap := 1.2 * rnd.Float64()
		l, err := Nest(context.Background(), pieces, sheet, gap, nil)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("seed %d case %d: %v", seed, i, err)
			}
			continue
		}
		if err := judge(t, pieces, sheet, gap, l); err != nil {
			t.Fatalf("seed %d case %d: %v", seed, i, err)
		}
		if y := l.Yield(); !(y > 0 && y < 1) {
			t.Fatalf("seed %d case %d: yield %v", seed, i, y)
		}
	}
}

// The judge sees two pieces moved too near to each other, and a missing one.
func TestJudgeSeesPlantedErrors(t *testing.T) {
	pieces := []Piece{{Name: "collet", Outline: blank(t, outline.Oval, 8, 6), Count: 4}}
	sheet := Sheet{100, 100}
	l, err := Nest(context.Background(), pieces, sheet, 0.5, nil)
	require.NoError(t, err)
	near := l
	near.Placements = append([]Placement(nil), l.Placements...)
	near.Placements[1].Y -= 0.3
	if judge(t, pieces, sheet, 0.5, near) == nil {
		t.Error("a piece moved by 0.3 mm is not seen")
	}
	few := l
	few.Placements = l.Placements[1:]
	if judge(t, pieces, sheet, 0.5, few) == nil {
		t.Error("a missing piece is not seen")
	}
}

func TestRefusals(t *testing.T) {
	oval := blank(t, outline.Oval, 8, 6)
	for name, c := range map[string]struct {
		pieces []Piece
		sheet  Sheet
	}{
		"none":     {nil, Sheet{100, 100}},
		"too wide": {[]Piece{{Name: "a", Outline: oval, Count: 1}}, Sheet{10, 20}},
		"empty":    {[]Piece{{Name: "a", Count: 1}}, Sheet{100, 100}},
		"too many": {[]Piece{{Name: "a", Outline: oval, Count: 5000}}, Sheet{100, 100}},
		"nan":      {[]Piece{{Name: "a", Outline: []Point{{0, 0}, {math.NaN(), 1}, {2, 2}}, Count: 1}}, Sheet{100, 100}},
	} {
		var e *Error
		if _, err := Nest(context.Background(), c.pieces, c.sheet, 0.5, nil); !errors.As(err, &e) || e.Problem == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Nest(ctx, []Piece{{Name: "a", Outline: blank(t, outline.Oval, 8, 6), Count: 50}}, Sheet{100, 300}, 0.5, nil)
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// placedPlainly is what rest does without remembering anything: it looks at
// every place of the coarse search, then at the cells round the best.
func placedPlainly(t trial, s *stack, both []profile, room float64, cells int) (turn, cell int, y float64) {
	best := math.Inf(1)
	try := func(k, c int) {
		p := &both[k]
		if c < 0 || c+len(p.lower) > cells {
			return
		}
		level := s.level(p, c, math.Inf(1))
		if cost := level + p.height + t.waste*s.gap(p, c, level) + 1e-6*float64(c); level+p.height <= room && cost < best-1e-9 {
			best, turn, cell, y = cost, k, c, level
		}
	}
	for k := range both {
		for c := 0; c+len(both[k].lower) <= cells; c += coarse {
			try(k, c)
		}
		try(k, cells-len(both[k].lower))
	}
	for near, k := -1, turn; near != cell; {
		near = cell
		for c := near - coarse + 1; c < near+coarse; c++ {
			try(k, c)
		}
	}
	return turn, cell, y
}

// What a stack remembers of earlier pieces saves looking, and changes no place.
func TestWhatIsRememberedChangesNoPlace(t *testing.T) {
	const gap, cells, room = 0.5, 1200, 2000
	kinds := []outline.Kind{outline.Oval, outline.Pear, outline.Emerald, outline.Heart}
	var profiles [][]profile
	for _, kind := range kinds {
		b := blank(t, kind, 8, 6)
		profiles = append(profiles, []profile{profileOf(b, 0, gap), profileOf(b, 2, gap)})
	}
	rnd := rand.New(rand.NewPCG(5, 8))
	for _, waste := range []float64{1, 0.25} {
		s, way := &stack{top: make([]float64, cells)}, trial{manner: manner{waste: waste}}
		for n := range 40 {
			both := profiles[rnd.IntN(len(profiles))]
			turn, cell, y := placedPlainly(way, s, both, room, cells)
			_, gotTurn, gotCell, gotY, ok := way.rest([]*stack{s}, both, room, cells)
			require.True(t, ok)
			require.Equal(t, []any{turn, cell, y}, []any{gotTurn, gotCell, gotY}, "piece %d, waste %v", n, waste)
			s.put(&both[turn], cell, y)
		}
	}
}
