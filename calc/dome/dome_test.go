package dome

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReverse(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	faces := []Face{Middle, Outside, Inside}
	for i := range 1000 {
		c := 3 + 60*r.Float64()
		d := Dome{DiameterMM: c, HeightMM: c * (0.1 + 0.4*r.Float64()), ThicknessMM: 0.2 * r.Float64(), Face: faces[i%3]}
		disc := d.DiscMM()
		high := d
		high.HeightMM = 0
		got, err := OfDisc(disc, high)
		if err != nil || math.Abs(got.HeightMM-d.HeightMM) > 1e-9 {
			t.Fatalf("%+v: from the disc %+v, %v", d, got, err)
		}
		wide := d
		wide.DiameterMM = 0
		got, err = OfDisc(disc, wide)
		if err != nil || math.Abs(got.DiameterMM-c) > 1e-9 {
			t.Fatalf("%+v: from the disc %+v, %v", d, got, err)
		}
	}
	// At the middle there is a closed form.
	got, _ := OfDisc(20, Dome{DiameterMM: 16})
	assert.InDelta(t, 6, got.HeightMM, 1e-9, "height")
}

func TestFaces(t *testing.T) {
	// A hemisphere 20 mm outside in 1 mm sheet is 19 mm at the middle.
	d := Dome{DiameterMM: 20, HeightMM: 10, ThicknessMM: 1, Face: Outside}
	assert.InDelta(t, 19*math.Sqrt2, d.DiscMM(), 1e-9, "outside")
	d.Face = Inside
	assert.InDelta(t, 21*math.Sqrt2, d.DiscMM(), 1e-9, "inside")
	assert.InDelta(t, 11, d.OutsideRadiusMM(), 1e-9, "outside radius")
	d.Face = Middle
	assert.InDelta(t, 20*math.Sqrt2, d.DiscMM(), 1e-9, "middle")
	// The disc's volume is the dome's but for (t/2r)^2/3: shell of a hemisphere.
	disc := math.Pi / 4 * 800 * 1
	shell := 2. / 3 * math.Pi * (10.5*10.5*10.5 - 9.5*9.5*9.5)
	assert.InDelta(t, 1, disc/shell, 0.001, "volume")
}

func TestPassesSumAndAnneal(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	planned := 0
	for range 1000 {
		c := 4 + 40*r.Float64()
		d := Dome{DiameterMM: c, HeightMM: c * (0.05 + 0.45*r.Float64()), ThicknessMM: 0.3 + 0.5*r.Float64(), Face: Outside}
		limit := 0.2 + 0.6*r.Float64()
		passes, err := d.Passes(Hollows(), limit)
		if err != nil {
			continue
		}
		planned++
		sum, since := 0.0, 0.0
		for i, p := range passes {
			if i > 0 && p.HollowMM >= passes[i-1].HollowMM {
				t.Fatalf("%+v: hollows do not fall: %+v", d, passes)
			}
			if p.AnnealBefore {
				since = 0
			}
			since += p.Strain
			sum += p.Strain
			if since > limit+1e-12 || math.Abs(since-p.SinceAnneal) > 1e-12 {
				t.Fatalf("%+v: strain since the anneal %g, said %g, limit %g", d, since, p.SinceAnneal, limit)
			}
			disc := math.Hypot(p.DiameterMM, 2*p.HeightMM)
			if math.Abs(disc-d.DiscMM()) > 1e-9 && d.DiscMM() < 2*(p.HollowMM-d.ThicknessMM) {
				t.Fatalf("%+v: area not kept in the %g mm hollow", d, p.HollowMM)
			}
		}
		last := passes[len(passes)-1]
		if last.HollowMM < 2*d.OutsideRadiusMM()-1e-6 {
			t.Fatalf("%+v: last hollow %g mm is tighter than the dome", d, last.HollowMM)
		}
		phi := 2 * math.Atan2(2*last.HeightMM, last.DiameterMM)
		require.InDelta(t, rimStrain(phi), sum, 1e-9, "%+v: strains sum to %g, the cap has %g", d, sum, rimStrain(phi))
	}
	if planned < 500 {
		t.Errorf("only %d of 1000 domes were planned", planned)
	}
}

func TestPassesReachTheDome(t *testing.T) {
	d := Dome{DiameterMM: 20, HeightMM: 10, ThicknessMM: 0.5, Face: Outside}
	passes, err := d.Passes([]float64{20, 24, 28, 40, 22}, 0.4)
	require.NoError(t, err)
	last := passes[len(passes)-1]
	assert.InDelta(t, 19.5, last.DiameterMM, 1e-9, "diameter at the middle")
	assert.InDelta(t, 9.75, last.HeightMM, 1e-9, "height at the middle")
	// Hoop strain at a hemisphere's rim: ln(c/D) = ln(1/sqrt 2).
	assert.InDelta(t, 2/math.Sqrt(3)*math.Log(math.Sqrt2), last.Strain+passes[0].Strain+passes[1].Strain+passes[2].Strain, 1e-9, "strain")
	if passes[0].HollowMM != 28 {
		t.Errorf("starts in %g mm; the 27.58 mm disc drops into 28 mm", passes[0].HollowMM)
	}
	if len(passes) != 4 {
		t.Errorf("%d passes: %+v", len(passes), passes)
	}
}

func TestRefusals(t *testing.T) {
	for _, d := range []Dome{
		{}, {DiameterMM: 10, HeightMM: 6}, {DiameterMM: -1, HeightMM: 1}, {DiameterMM: math.NaN(), HeightMM: 1},
		{DiameterMM: 4, HeightMM: 2, ThicknessMM: 1},
	} {
		if d.Check() == nil {
			t.Errorf("%+v passes the check", d)
		}
		if _, err := d.Passes(Hollows(), 0.4); err == nil {
			t.Errorf("%+v has a plan", d)
		}
	}
	good := Dome{DiameterMM: 20, HeightMM: 10, ThicknessMM: 0.5}
	if _, err := good.Passes(nil, 0.4); err == nil {
		t.Error("a plan without a block")
	}
	if _, err := good.Passes([]float64{21}, 0.1); err == nil {
		t.Error("one pass over the limit was planned")
	}
	for _, v := range [][3]float64{
		{10, 10, 0}, {10, 12, 0}, {20, 10, 0}, {math.NaN(), 1, 0}, {0, 1, 0}, {10, math.NaN(), 0}, {10, -4, 0},
		{10, 0, 4}, {10, 0, -1}, {math.NaN(), 0, 1}, {10, 0, 0}, {math.Inf(1), 0, 1},
	} {
		if d, err := OfDisc(v[0], Dome{DiameterMM: v[1], HeightMM: v[2], ThicknessMM: 0.1}); err == nil {
			t.Errorf("OfDisc%v = %+v", v, d)
		}
	}
}

// The height of a disc's hemisphere is often typed rounded up.
func TestOfDiscTakesARoundedHemisphere(t *testing.T) {
	for disc := 8.0; disc <= 40; disc++ {
		height := math.Round(disc/(2*math.Sqrt2)*1e4) / 1e4
		d, err := OfDisc(disc, Dome{HeightMM: height, ThicknessMM: 0.6})
		require.NoError(t, err, disc)
		assert.InDelta(t, disc/math.Sqrt2, d.DiameterMM, 1e-3)
	}
}
