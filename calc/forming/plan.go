package forming

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// fitMM is how much a rim may be larger than the hole that is said to take it:
// less than a bench can measure.
const fitMM = 1e-6

// leastTaperMM is the least length of wall that is worth a hole of its own.
const leastTaperMM = 0.25

// ErrNoHole is returned if no hole takes the finished rim, ErrThrough where
// the only holes that do are so large that the collar falls through.
var (
	ErrNoHole  = errors.New("no hole of the block takes the stone and its metal")
	ErrThrough = errors.New("the collar falls through every hole of the block that takes it")
)

// Die is the block as a plan needs it.
type Die struct {
	// Holes, the largest first.
	Holes       []Hole
	ThicknessMM float64
}

// Pass is one pressing.
type Pass struct {
	// Sizing marks the first pass of a tube: it is brought to the outline and
	// to the size of the rim, squeezed or stretched. It has no hole.
	Sizing bool
	Hole   Hole
	// Part of Parts: a hole whose strain passes the alloy's limit is pressed in
	// parts, with an anneal between them.
	Part, Parts int
	// Below is how far below the block's face the rim ends; negative where it
	// stands proud of it.
	BelowMM float64
	// TaperMM is the axial height of the wall that leans after this pass, and
	// StraightMM what is still straight above it.
	TaperMM, StraightMM float64
	// FootPerimeterMM at mid-wall, FootWallMM and HeightMM after this pass.
	FootPerimeterMM, FootWallMM, HeightMM float64
	// Strain is the hoop strain of the foot in this pass, compression positive.
	Strain float64
	// AnnealBefore asks for an anneal before this pass; Extra marks one that
	// the strain alone would not ask for.
	AnnealBefore, Extra bool
	// SinceAnneal is the strain since the last anneal, after this pass, stretch
	// and compression both counted as positive.
	SinceAnneal float64
	// LoadN is an estimate of the press load, N; see NosingShare and
	// SpreadFactor.
	LoadN float64
	// CollapseShare is the axial stress in the straight wall above the hole as
	// a share of its flow stress.
	CollapseShare float64
	Crinkle       Crinkle
	VolumeMM3     float64
}

// Plan is a collar's way through a block.
type Plan struct {
	Wall  *Wall
	Alloy stock.Alloy
	// Last is the hole that takes the finished outer rim.
	Last   Hole
	Passes []Pass
	// Anneals between passes; the stock is taken to be annealed at the start.
	Anneals int
	// AnnealBeforePunch asks for an anneal after the last pass, before a punch
	// trues the inside.
	AnnealBeforePunch bool
	// TotalStrain is the hoop strain of the finished foot.
	TotalStrain float64
	// StraightMM is what is left straight at the rim because the block is too
	// thin; 0 if the whole wall leans.
	StraightMM float64
	// HeightMM after forming.
	HeightMM float64
	// MaxLoadN of all passes.
	MaxLoadN float64
	Crinkle  Crinkle
}

// OuterRim is the finished outer rim: stone plus metal.
func (w *Wall) OuterRim() (outline.Curve, error) { return w.Outline.Offset(w.Rim.OuterOffsetMM) }

// NewPlan takes the collar through the holes of the die that touch it, down to
// the smallest that takes the finished outer rim.
func NewPlan(w *Wall, d Die, alloy stock.Alloy) (*Plan, error) {
	p := &planner{plan: &Plan{Wall: w, Alloy: alloy}, wall: w, die: d}
	if err := p.choose(); err != nil {
		return nil, err
	}
	if err := p.press(); err != nil {
		return nil, err
	}
	if err := p.anneal(); err != nil {
		return nil, err
	}
	if err := p.finish(); err != nil {
		return nil, err
	}
	return p.plan, nil
}

type planner struct {
	plan *Plan
	wall *Wall
	die  Die
	// holes in use, the largest first, and the depth of taper that each gives.
	holes  []Hole
	depths []float64
	// q is the length along the straight wall, after sizing, of a unit of
	// stock: (Ps/P0)^(1/2).
	q float64
}

// choose finds the last hole and those before it that touch the collar.
func (p *planner) choose() error {
	last := -1
	for i, h := range p.die.Holes {
		if h.GapMM >= -fitMM {
			last = i
		}
	}
	if last < 0 {
		return ErrNoHole
	}
	p.plan.Last = p.die.Holes[last]
	p.q = math.Sqrt(p.wall.StockMM / p.wall.Rim.PerimeterMM)
	for i, h := range p.die.Holes[:last+1] {
		x, err := p.taper(h, i == last)
		if err != nil {
			return err
		}
		if x >= leastTaperMM || i == last {
			p.holes, p.depths = append(p.holes, h), append(p.depths, x)
		}
		if i == last && x < leastTaperMM {
			return ErrThrough
		}
	}
	return nil
}

// sink is how far the collar drops into the hole before it touches.
func (p *planner) sink(h Hole) float64 {
	if p.wall.Lean <= 0 {
		return math.Inf(1)
	}
	return math.Max(0, h.GapMM) / p.wall.Lean.Tan()
}

// taper is the depth of taper that the hole gives: pressed flush, or through
// to the end in the last hole.
func (p *planner) taper(h Hole, through bool) (float64, error) {
	sink := p.sink(h)
	room := p.die.ThicknessMM - sink
	if room <= 0 {
		return 0, nil
	}
	stock := p.wall.StripHeightMM
	if !through {
		stock -= sink / p.q
	}
	x, err := p.wall.depthOf(stock)
	return math.Max(0, math.Min(x, room)), err
}

// press makes the passes with their geometry, without anneals.
func (p *planner) press() error {
	limit := p.plan.Alloy.StrainLimit
	w := p.wall
	if strain := math.Log(w.StockMM / w.Rim.PerimeterMM); math.Abs(strain) > 1e-9 {
		parts := partsOf(strain, limit)
		for i := range parts {
			share := float64(i+1) / float64(parts)
			perimeter := w.StockMM * math.Exp(-strain*share)
			q := math.Sqrt(w.StockMM / perimeter)
			height := w.StripHeightMM * q
			p.plan.Passes = append(p.plan.Passes, Pass{
				Sizing: true, Strain: strain / float64(parts),
				StraightMM: height, HeightMM: height,
				FootPerimeterMM: perimeter, FootWallMM: w.WallMM * q,
				VolumeMM3: perimeter * w.WallMM * q * height,
			})
		}
	}
	before, foot := 0.0, w.Rim.PerimeterMM
	for i, h := range p.holes {
		x := p.depths[i]
		if x-before < leastTaperMM && i < len(p.holes)-1 {
			continue // it would do nothing that the last one has not done
		}
		s, err := w.At(x)
		if err != nil {
			return err
		}
		parts := partsOf(math.Log(foot/s.PerimeterMM), limit)
		if err := p.pressIn(h, before, x, foot, s.PerimeterMM, parts); err != nil {
			return err
		}
		before, foot = math.Max(before, x), s.PerimeterMM
	}
	if flats := w.Outline.LongestFlatMM(); flats > 0 {
		return p.moreParts()
	}
	return nil
}

// partsOf is in how many equal parts a strain must be pressed so that none
// passes the limit.
func partsOf(strain, limit float64) int {
	return max(1, int(math.Ceil(math.Abs(strain)/limit-1e-9)))
}

// pressIn adds the passes of one hole: parts of equal strain.
func (p *planner) pressIn(h Hole, before, x, from, to float64, parts int) error {
	last, foot := before, from
	for i := range parts {
		at := x
		if i < parts-1 {
			target := from * math.Pow(to/from, float64(i+1)/float64(parts))
			var err error
			if at, err = p.wall.depthAt(target, last, x); err != nil {
				return err
			}
		}
		pass, err := p.state(h, at)
		if err != nil {
			return err
		}
		pass.Strain = math.Log(foot / pass.FootPerimeterMM)
		p.plan.Passes = append(p.plan.Passes, pass)
		last, foot = at, pass.FootPerimeterMM
	}
	return nil
}

// state is the collar with the depth x tapered, in the hole h.
func (p *planner) state(h Hole, x float64) (Pass, error) {
	w := p.wall
	s, err := w.At(x)
	if err != nil {
		return Pass{}, err
	}
	tapered, err := w.span(0, x)
	if err != nil {
		return Pass{}, err
	}
	straight := math.Max(0, w.StripHeightMM-tapered.stockMM) * p.q
	return Pass{
		Hole: h, TaperMM: x, StraightMM: straight, HeightMM: x + straight,
		BelowMM:         p.sink(h) - straight,
		FootPerimeterMM: s.PerimeterMM, FootWallMM: s.WallMM,
		VolumeMM3: tapered.volumeMM3 + w.Rim.PerimeterMM*w.Rim.WallMM*straight,
	}, nil
}

// LightStrain is the strain below which an anneal does harm: a light strain and
// an anneal let a few grains grow coarse, which shows as orange peel (Z.
// Metallkunde 85 (1994) 723-732, abstract, of copper cones; 2 to 10 % from
// memory of G. E. Dieter, Mechanical Metallurgy).
const LightStrain = 0.10

// extraAnneals is how many anneals more an outline with flats needs.
// Common practice, no source: an emerald outline needs one or two more,
// because it closes in several directions at once. There are none where that
// would leave a light strain between two of them.
func (p *planner) extraAnneals() int {
	total, wanted := p.totalStrain(), 2
	switch {
	case p.wall.Outline.LongestFlatMM() == 0:
		return 0
	case total <= p.plan.Alloy.StrainLimit/2:
		wanted = 1
	}
	return min(wanted, int(total/LightStrain+1e-9))
}

func (p *planner) totalStrain() float64 {
	sum := 0.0
	for _, q := range p.plan.Passes {
		sum += q.Strain
	}
	return sum
}

// split presses the pass i in two parts of equal strain.
func (p *planner) split(i int) error {
	passes := p.plan.Passes
	before, from := 0.0, p.wall.Rim.PerimeterMM
	if i > 0 && !passes[i-1].Sizing {
		before, from = passes[i-1].TaperMM, passes[i-1].FootPerimeterMM
	}
	q, rest := passes[i], append([]Pass(nil), passes[i+1:]...)
	p.plan.Passes = passes[:i]
	if err := p.pressIn(q.Hole, before, q.TaperMM, from, q.FootPerimeterMM, 2); err != nil {
		return err
	}
	p.plan.Passes = append(p.plan.Passes, rest...)
	return nil
}

// moreParts splits the hardest hole in parts until there is a place for every
// extra anneal between two passes.
func (p *planner) moreParts() error {
	for range 4 {
		if len(p.plan.Passes) > p.extraAnneals() {
			return nil
		}
		hardest := p.hardest()
		if p.plan.Passes[hardest].Sizing {
			return nil
		}
		if err := p.split(hardest); err != nil {
			return err
		}
	}
	return nil
}

// anneal puts an anneal wherever the strain since the last one would pass the
// alloy's limit, then the extra ones where the metal is hardest, and one before
// the punch where half the limit is used up. None follows a light strain: a
// pass that would ask for one is pressed in two parts, so that the anneal comes
// between them.
func (p *planner) anneal() error {
	limit := p.plan.Alloy.StrainLimit
	since := 0.0
	for i := 0; i < len(p.plan.Passes); i++ {
		q := &p.plan.Passes[i]
		strain := math.Abs(q.Strain)
		over := since+strain > limit*(1+1e-9)
		if over && since < LightStrain && !q.Sizing {
			if err := p.split(i); err != nil {
				return err
			}
			i--
			continue
		}
		if over {
			q.AnnealBefore, since = true, 0
		}
		since += strain
	}
	p.recount()
	if err := p.annealMore(); err != nil {
		return err
	}
	passes := p.plan.Passes
	for _, q := range passes {
		if q.AnnealBefore {
			p.plan.Anneals++
		}
	}
	p.plan.AnnealBeforePunch = passes[len(passes)-1].SinceAnneal >= math.Max(LightStrain, limit/2)
	return nil
}

// annealMore puts the extra anneals where the metal is hardest, and leaves out
// those that would leave a light strain before them or before the next. Where no
// place is left the hardest pass is pressed in two parts, which makes one.
func (p *planner) annealMore() error {
	for range p.extraAnneals() {
		best := p.placeForAnneal()
		if best < 0 {
			hardest := p.hardest()
			if p.plan.Passes[hardest].Sizing || p.plan.Passes[hardest].Strain < LightStrain {
				return nil
			}
			whole := slices.Clone(p.plan.Passes)
			annealed, extra := p.plan.Passes[hardest].AnnealBefore, p.plan.Passes[hardest].Extra
			if err := p.split(hardest); err != nil {
				return err
			}
			p.plan.Passes[hardest].AnnealBefore, p.plan.Passes[hardest].Extra = annealed, extra
			p.recount()
			if best = p.placeForAnneal(); best < 0 {
				p.plan.Passes = whole // the split made no place
				return nil
			}
		}
		p.plan.Passes[best].AnnealBefore, p.plan.Passes[best].Extra = true, true
		p.recount()
	}
	return nil
}

// placeForAnneal is the pass before which an extra anneal is of most use, -1
// where there is none.
func (p *planner) placeForAnneal() int {
	best, passes := -1, p.plan.Passes
	for i := 1; i < len(passes); i++ {
		if !passes[i].AnnealBefore && passes[i-1].SinceAnneal >= LightStrain && p.untilNext(i) >= LightStrain &&
			(best < 0 || passes[i-1].SinceAnneal > passes[best-1].SinceAnneal) {
			best = i
		}
	}
	return best
}

// hardest is the pass with the largest strain.
func (p *planner) hardest() int {
	hardest := 0
	for i, q := range p.plan.Passes {
		if math.Abs(q.Strain) > math.Abs(p.plan.Passes[hardest].Strain) {
			hardest = i
		}
	}
	return hardest
}

// untilNext is the strain from pass i to the next anneal; past the last one,
// where nothing is annealed after a light strain, it is never light.
func (p *planner) untilNext(i int) float64 {
	sum := 0.0
	for k, q := range p.plan.Passes[i:] {
		if k > 0 && q.AnnealBefore {
			return sum
		}
		sum += math.Abs(q.Strain)
	}
	return math.Inf(1)
}

func (p *planner) recount() {
	since := 0.0
	for i := range p.plan.Passes {
		q := &p.plan.Passes[i]
		if q.AnnealBefore {
			since = 0
		}
		since += math.Abs(q.Strain)
		q.SinceAnneal = since
	}
}

// finish adds loads, risks and the totals.
func (p *planner) finish() error {
	w, plan := p.wall, p.plan
	section := w.Rim.PerimeterMM * w.Rim.WallMM
	flat, err := p.longestFlat()
	if err != nil {
		return err
	}
	for i := range plan.Passes {
		q := &plan.Passes[i]
		if q.Sizing {
			continue // the punch's work is not a nosing load
		}
		flow := MeanFlowMPa(plan.Alloy, q.SinceAnneal-math.Abs(q.Strain), q.SinceAnneal)
		q.CollapseShare = NosingShare(w.Lean, Friction, q.FootPerimeterMM/w.Rim.PerimeterMM)
		q.LoadN = flow * q.CollapseShare * section
		q.Crinkle = CrinkleRisk(plan.Alloy, w.Rim.WallMM, flat, q.TaperMM, q.Strain)
		plan.MaxLoadN = math.Max(plan.MaxLoadN, q.LoadN)
		plan.Crinkle = max(plan.Crinkle, q.Crinkle)
	}
	number(plan.Passes)
	last := plan.Passes[len(plan.Passes)-1]
	plan.HeightMM, plan.StraightMM = last.HeightMM, last.StraightMM
	if plan.StraightMM < 1e-9 {
		plan.StraightMM = 0
	}
	plan.TotalStrain = math.Log(w.StockMM / last.FootPerimeterMM)
	return nil
}

// number counts the parts of each hole.
func number(passes []Pass) {
	for i := 0; i < len(passes); {
		n := 1
		for i+n < len(passes) && passes[i+n].Sizing == passes[i].Sizing && passes[i+n].Hole == passes[i].Hole {
			n++
		}
		for k := range n {
			passes[i+k].Part, passes[i+k].Parts = k+1, n
		}
		i += n
	}
}

// longestFlat is the longest flat of the rim's inner face, 0 if none.
func (p *planner) longestFlat() (float64, error) {
	inner, err := p.wall.Outline.Offset(p.wall.Rim.InnerOffsetMM)
	if err != nil {
		return 0, err
	}
	// Tangent lines at a mitred point are straight too, but are no panels.
	if p.wall.Outline.LongestFlatMM() == 0 {
		return 0, nil
	}
	return inner.LongestFlatMM(), nil
}

// Wanted is the block to look for when the maker names none.
type Wanted struct {
	// Opening of the last hole, at least.
	Opening outline.Size
	// ThicknessMM at least, for a last hole that is GapMM wider than the rim.
	ThicknessMM, GapMM float64
	Lean               units.Angle
}

// Want returns the block to look for: a last hole that takes the finished outer
// rim, and a thickness that lets the whole wall be tapered even in a hole
// gapMM wider all round.
func (w *Wall) Want(gapMM float64) (Wanted, error) {
	rim, err := w.OuterRim()
	if err != nil {
		return Wanted{}, err
	}
	if w.Lean <= 0 {
		return Wanted{}, fmt.Errorf("a straight wall needs no block")
	}
	return Wanted{
		Opening: rim.Size(), GapMM: gapMM, Lean: w.Lean,
		ThicknessMM: w.HeightMM + gapMM/w.Lean.Tan(),
	}, nil
}
