package tracing

import (
	"fmt"
	"math"
	"slices"

	"guildhand/calc/units"
)

// Options are what the maker knows of the stone.
type Options struct {
	// EdgeMM is how high the stone's widest line lies above the card; 0 takes
	// UsualEdgeMM.
	EdgeMM float64
	// LengthMM is the stone's length by calipers, to which the outline is
	// scaled; 0 for none.
	LengthMM float64
}

// Limits of what is trusted, and what is assumed. All were set on simulated
// photographs, see the tests.
const (
	// UsualEdgeMM is the height of a cabochon's widest line above its back, with
	// the little bevel below it. Common practice, no source.
	UsualEdgeMM = 0.6
	// MaxView is the view from the side from which a stone's far side hides its
	// edge.
	MaxView = 15 * units.Degree
	// MinScalePx is the least resolution at the stone, pixels a mm.
	MinScalePx = 6.0
	// MinShare is the least share of the ring's corners.
	MinShare = 0.4
	// MaxBlurMM is the widest blur of an edge on the card.
	MaxBlurMM  = 0.5
	minWhite   = 0.025
	minAreaMM2 = 9.0
	// A line whose waves of under some 8 mm make it this much longer follows veins
	// or shadows and not the stone's edge. The corners of a rounded oblong reach
	// a third of it.
	maxRough       = 0.010
	roughStiffness = 2e6
	// MaxDeviationMM is how far an outline may be off before it is refused.
	MaxDeviationMM = 0.3
	// MaxRescale is how far a caliper length may lie from the traced one.
	MaxRescale = 0.04
)

// Reason names why a photograph can't be trusted.
type Reason string

// Reasons.
const (
	NoCard      Reason = "no card"
	CardHidden  Reason = "card hidden"
	Tilted      Reason = "tilted"
	TooFar      Reason = "too far"
	Blurred     Reason = "blurred"
	TooDark     Reason = "too dark"
	NoStone     Reason = "no stone"
	AtEdge      Reason = "at the zone's edge"
	OtherZone   Reason = "other zone"
	ClearStone  Reason = "clear stone"
	Unclear     Reason = "unclear edge"
	WrongLength Reason = "wrong length"
)

// Refusal is a photograph that can't be trusted. Advice is a sentence that says
// what to change, without a full stop.
type Refusal struct {
	Reason Reason
	Advice string
}

func (r *Refusal) Error() string { return r.Advice }

func refuse(r Reason, format string, args ...any) *Refusal {
	return &Refusal{r, fmt.Sprintf(format, args...)}
}

// Trace is a stone's outline as found.
type Trace struct {
	// Outline is a closed curve, counter-clockwise, mm, x to the right and y up,
	// its length along y; the middle of its bounds is the origin.
	Outline [][2]float64
	// Drawn is the stone's edge in the photograph, px, for the maker to judge.
	Drawn [][2]float64
	// Corners are the zone's corners in the photograph, px.
	Corners                        [4][2]float64
	PerimeterMM, LengthMM, WidthMM float64
	// DeviationMM is how far the outline may be off, at 19 places in 20.
	DeviationMM float64
	// View is how far from straight above the stone was seen.
	View units.Angle
	// EyeMM is the camera's height over the card, ScalePx the pixels a mm at the
	// stone, BlurMM the width of an edge, Share how much of the ring was seen.
	EyeMM, ScalePx, BlurMM, Share float64
	EdgeMM                        float64
	Zone                          Zone
	// Scaled is by how much a caliper length changed the outline, 1 if not.
	Scaled float64
	// Doubts are what lowers the trust, each a phrase.
	Doubts []string

	// onCard is the outline where it lies on the card, for tests.
	onCard                                         []Place
	weak, contrast, rough, within, beyond, scatter float64
}

// Find traces the stone in a photograph. Between its stages it calls check,
// whose error ends it. An error is a *Refusal or check's.
func Find(p Photo, o Options, check func() error) (Trace, error) {
	if check == nil {
		check = func() error { return nil }
	}
	if p.Width < 400 || p.Height < 400 {
		return Trace{}, refuse(TooFar, "the photograph has only %d x %d pixels: send the original file, not a preview", p.Width, p.Height)
	}
	cam, t, err := findPose(p)
	if err != nil {
		return t, err
	}
	if err := check(); err != nil {
		return t, err
	}
	light, white, ok := lightOf(p, &cam)
	if !ok || white < minWhite {
		return t, refuse(TooDark, "the photograph is too dark: take it by a window or under a lamp, without a shadow over the card")
	}
	s, stone, err := findStone(p, &cam, light, t.ScalePx)
	if err != nil {
		return t, err
	}
	if err := check(); err != nil {
		return t, err
	}
	return t, t.outline(&cam, s, stone, o)
}

// findPose finds the card and where it was photographed from, and refuses a
// view that can't be trusted.
func findPose(p Photo) (camera, Trace, error) {
	t := Trace{Scaled: 1}
	card, ok := findCard(p)
	if !ok {
		return camera{}, t, refuse(NoCard, "I can't find the tracing card: show the whole card with its four corner marks, flat, in focus, and print it with trace card if you have none")
	}
	t.Share = card.share
	if card.share < MinShare {
		return camera{}, t, refuse(CardHidden, "too much of the card's edge is hidden or cut off (%.0f %% of it was seen): show the whole card, with fingers off its checks", 100*card.share)
	}
	cam, off, ok := fitCamera(card, p.Width, p.Height)
	middle := Zones[Black]
	centre := Place{(middle.Left + middle.Right) / 2, (middle.Top + middle.Bottom) / 2}
	if !ok || off > 0.12*cam.scaleAt(centre) {
		return cam, t, refuse(NoCard, "the card is bent or the picture was altered: lay the card flat on a table and send the photograph as it was taken")
	}
	t.ScalePx = cam.scaleAt(Place{})
	_, t.EyeMM = cam.eye()
	if t.ScalePx < MinScalePx {
		return cam, t, refuse(TooFar, "the photograph has %.1f pixels a mm at the card, and %.0f are needed: go closer, and send the original file", t.ScalePx, MinScalePx)
	}
	if t.BlurMM = blur(p, &cam); t.BlurMM > MaxBlurMM {
		return cam, t, refuse(Blurred, "the photograph is blurred: tap on the stone to focus, and hold the phone still, 20 to 30 cm above")
	}
	return cam, t, nil
}

// viewAt is how far from straight above a place is seen.
func viewAt(cam *camera, at Place) units.Angle {
	over, height := cam.eye()
	return units.Angle(math.Atan2(math.Hypot(over.X-at.X, over.Y-at.Y), height))
}

// blur is how wide the card's own edges are in the photograph, mm: contrast over
// steepest slope, at the middles of the checks' sides.
func blur(p Photo, cam *camera) float64 {
	var widths []float64
	h := CheckMM / 2
	for i, c := range corners() {
		if i%2 > 0 {
			continue
		}
		for _, side := range [2][2]Place{{{c.at.X, c.at.Y - h}, {1, 0}}, {{c.at.X - h, c.at.Y}, {0, 1}}} {
			value := func(d float64) float64 {
				x, y := cam.at(Place{side[0].X + d*side[1].X, side[0].Y + d*side[1].Y}, 0)
				v := p.level(x, y)
				return linear[int(v)] + (v-math.Floor(v))*(linear[min(int(v)+1, 255)]-linear[int(v)])
			}
			contrast := math.Abs(value(-0.8) - value(0.8))
			if contrast < 0.02 {
				continue
			}
			steepest := 0.0
			const step = 0.06
			for d := -0.6; d < 0.6; d += step / 2 {
				steepest = math.Max(steepest, math.Abs(value(d+step)-value(d-step))/(2*step))
			}
			widths = append(widths, contrast/steepest)
		}
	}
	if len(widths) < 8 {
		return 0
	}
	return median(widths)
}

// findStone finds on which zone the stone lies, and roughly where.
func findStone(p Photo, cam *camera, light lighting, scalePx float64) (*sheet, region, error) {
	step := math.Max(0.06, math.Min(0.1, 1/scalePx))
	black := rectified(p, cam, light, Black, step)
	onBlack, problemBlack := stoneOnBlack(black)
	if problemBlack == nil {
		return black, onBlack, nil
	}
	white := rectified(p, cam, light, White, step)
	onWhite, problemWhite := stoneOnWhite(white)
	if problemWhite == nil {
		return white, onWhite, nil
	}
	if problemBlack.Reason == NoStone {
		return nil, region{}, problemWhite
	}
	return nil, region{}, problemBlack
}

var (
	adviceAtEdge = refuse(AtEdge, "the stone reaches over the edge of its zone: lay it in the middle of the black zone or of the white one")
	adviceNone   = refuse(NoStone, "I see no stone on the card: lay it in the middle of the black zone, or on the white one if it is black or deeply coloured")
	adviceWhite  = refuse(OtherZone, "the stone hardly differs from the black zone: lay it on the white one")
	adviceBlack  = refuse(OtherZone, "the stone is too pale for the white zone, where its shadow looks like stone: lay it on the black one")
	adviceClear  = refuse(ClearStone, "the stone looks clear or as dark as the zone, so its edge can't be told: lay a dark stone on the white zone; ink a clear one on its back or edge with a marker")
	adviceUneven = refuse(Unclear, "the stone's edge can't be told from its surroundings all round: %s", evenAdvice)
)

const evenAdvice = "use the other zone, and turn the card away from glare and shadows"

func (s *sheet) areaMM2(pixels int) float64 { return float64(pixels) * s.stepMM * s.stepMM }

// brightness is the strongest colour of a pixel.
func brightness(v [3]float64) float64 { return math.Max(v[0], math.Max(v[1], v[2])) }

func stoneOnBlack(s *sheet) (region, *Refusal) {
	noise := s.flatten(nil)
	if math.IsInf(noise, 1) {
		return region{}, adviceUneven
	}
	pick := func(level float64) region {
		set := make([]bool, len(s.pix))
		for i, v := range s.pix {
			// Blur carries the white round the zone a little into it.
			set[i] = s.edgeMM(i) > 0.6 && brightness(v) > level
		}
		return s.largest(set)
	}
	low := math.Max(0.025, 6*noise)
	r := pick(low)
	if s.areaMM2(r.pixels) < minAreaMM2 {
		return r, adviceNone
	}
	// Half of what the stone sends back at its dimmer parts sets the level.
	var inside []float64
	for i, in := range r.mask {
		if in {
			inside = append(inside, brightness(s.pix[i]))
		}
	}
	level := math.Max(low, 0.1*median(inside))
	r = pick(level)
	whole := s.filled(r)
	switch {
	case s.areaMM2(whole.pixels) < minAreaMM2:
		return whole, adviceNone
	case whole.touches:
		return whole, adviceAtEdge
	case float64(r.pixels) < 0.6*float64(whole.pixels):
		return whole, adviceClear
	}
	inside = inside[:0]
	for i, in := range s.grown(whole.mask, -int(0.5/s.stepMM)) {
		if in {
			inside = append(inside, brightness(s.pix[i]))
		}
	}
	if median(inside) < 0.035 {
		return whole, adviceClear
	}
	s.flatten(s.grown(whole.mask, int(1/s.stepMM)))
	return s.closed(s.opened(whole)), nil
}

// opened drops what hangs on by less than half a mm: fluff, a grain of dust.
func (s *sheet) opened(r region) region {
	d := max(1, int(0.3/s.stepMM))
	core := s.largest(s.grown(r.mask, -d))
	core.mask = s.grown(core.mask, d)
	core.touches = r.touches
	return core
}

func stoneOnWhite(s *sheet) (region, *Refusal) {
	noise := s.flatten(nil)
	if math.IsInf(noise, 1) {
		return region{}, adviceUneven
	}
	coloured, dark, some := make([]bool, len(s.pix)), make([]bool, len(s.pix)), make([]bool, len(s.pix))
	for i, v := range s.pix {
		high, low := brightness(v), math.Min(v[0], math.Min(v[1], v[2]))
		coloured[i] = high-low > 0.13
		dark[i] = high < 0.33
		some[i] = high < 0.85 || coloured[i]
	}
	best := s.filled(s.largest(coloured))
	if d := s.filled(s.largest(dark)); d.pixels > best.pixels*6/5 {
		best = d
	}
	all := s.largest(some)
	switch {
	case s.areaMM2(all.pixels) < minAreaMM2:
		return best, adviceNone
	case s.areaMM2(best.pixels) < minAreaMM2 || best.pixels*2 < all.pixels:
		return best, adviceBlack
	case best.touches:
		return best, adviceAtEdge
	}
	return s.closed(s.opened(best)), nil
}

// outline refines the stone's edge and fills in the trace.
func (t *Trace) outline(cam *camera, s *sheet, stone region, o Options) error {
	t.Zone = s.zone
	for i, c := range [4]Place{{s.rect.Left, s.rect.Top}, {s.rect.Right, s.rect.Top}, {s.rect.Right, s.rect.Bottom}, {s.rect.Left, s.rect.Bottom}} {
		t.Corners[i][0], t.Corners[i][1] = cam.at(c, 0)
	}
	stone = wholeStone(s, stone)
	line := s.boundary(stone)
	if len(line) < 30 {
		return adviceNone
	}
	if areaOf(line) < 0 {
		slices.Reverse(line)
	}
	look := lookOf(s, stone)
	if look.contrast < 0.05 {
		if s.zone == Black {
			return adviceWhite
		}
		return adviceBlack
	}
	g := look.signal(s)
	var shade *signal
	bleed := 0.0
	if look.coloured {
		shade, bleed = s.shade(), 1/t.ScalePx
	}
	evidence := newBare(s, stone).evidence()
	line, f, scatter := edgeNear(line, func(line []Place) found { return edgeAlong(g, shade, evidence, line, t.BlurMM, bleed) })
	for _, p := range line {
		x, y := cam.at(p, 0)
		t.Drawn = append(t.Drawn, [2]float64{x, y})
	}
	if sharpness(g, line, t.BlurMM) < 0.5 {
		return adviceClear
	}
	t.scatter = scatter
	t.within, t.beyond = sides(evidence, line, t.BlurMM)
	t.rough = lengthOf(line)/lengthOf(whittaker(line, ones(edgePoints), tips(line), roughStiffness)) - 1
	if t.rough > maxRough {
		return adviceUneven
	}
	for _, p := range line {
		if !s.rect.holds(p, 0.4) {
			return adviceAtEdge
		}
	}
	return t.measure(cam, line, scatter, weakShare(f), look, o)
}

// edgeNear moves a rough line onto the edge that find sees near it, in three
// rounds; scatter is how far the places found lie about the line, mm.
func edgeNear(line []Place, find func([]Place) found) (edge []Place, last found, scatter float64) {
	line = resampled(line, edgePoints)
	line = whittaker(line, ones(edgePoints), tips(line), 3000)
	for round := range 3 {
		if round > 0 {
			line = resampled(withoutFolds(line), edgePoints)
		}
		last = find(line)
		line, scatter = smoothed(last, 1500)
	}
	return resampled(withoutFolds(line), edgePoints), last, scatter
}

// weakShare is the share of an edge's places where little of it was seen.
func weakShare(f found) float64 {
	weak := 0
	for _, w := range f.weight {
		if w < 0.3 {
			weak++
		}
	}
	return float64(weak) / edgePoints
}

// sharpness is how much of the change from 1.2 mm inside a line to 1.2 mm outside
// falls within the blur of an edge: little at the rim of a highlight, which is
// all that is seen of a clear stone.
func sharpness(g *signal, line []Place, blurMM float64) float64 {
	outward := normals(line)
	shares := make([]float64, len(line))
	for i, p := range line {
		at := func(d float64) float64 { return g.at(Place{p.X + d*outward[i].X, p.Y + d*outward[i].Y}) }
		d := math.Max(0.25, 1.2*blurMM)
		shares[i] = (at(-d) - at(d)) / math.Max(at(-1.2)-at(1.2), 0.05)
	}
	return median(shares)
}

func ones(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = 1
	}
	return v
}

// measure lifts the edge to its height and takes its measures.
func (t *Trace) measure(cam *camera, line []Place, scatter, weak float64, look look, o Options) error {
	t.EdgeMM = o.EdgeMM
	if t.EdgeMM == 0 {
		t.EdgeMM = UsualEdgeMM
	}
	var middle Place
	for _, p := range line {
		middle.X += p.X / float64(len(line))
		middle.Y += p.Y / float64(len(line))
	}
	t.ScalePx = cam.scaleAt(middle)
	t.View = viewAt(cam, middle)
	if t.View > MaxView {
		return refuse(Tilted, "the stone was seen %.0f° from the side, and up to %.0f° can be trusted: hold the phone flat, straight above the stone", t.View.Degrees(), MaxView.Degrees())
	}
	if t.ScalePx < MinScalePx {
		return refuse(TooFar, "the photograph has %.1f pixels a mm at the stone, and %.0f are needed: go closer, and send the original file", t.ScalePx, MinScalePx)
	}
	over, height := cam.eye()
	raised := make([]Place, len(line))
	for i, p := range line {
		k := t.EdgeMM / height
		raised[i] = Place{p.X + (over.X-p.X)*k, p.Y + (over.Y-p.Y)*k}
	}
	raised = withoutShoulder(raised, over, height, math.Sqrt(math.Abs(areaOf(raised))/math.Pi))
	t.onCard, t.weak, t.contrast = raised, weak, look.contrast
	t.Outline = upright(raised)
	t.settle()
	t.DeviationMM = math.Sqrt(0.03*0.03+16*scatter*scatter+math.Pow(12*math.Max(0, t.rough-0.002), 2)+math.Pow(0.5/t.ScalePx, 2)+math.Pow(0.5*math.Tan(float64(t.View)), 2)+math.Pow(0.35*t.BlurMM*math.Min(1, 0.12/look.contrast), 2)) + 1.5*weak
	if t.DeviationMM > MaxDeviationMM {
		return refuse(Unclear, "the outline could be %.1f mm off, and up to %.1f mm can be trusted: %s", t.DeviationMM, MaxDeviationMM, evenAdvice)
	}
	if o.LengthMM > 0 {
		k := o.LengthMM / t.LengthMM
		if math.Abs(k-1) > MaxRescale {
			return refuse(WrongLength, "the traced length is %.2f mm and your calipers say %.2f mm: measure the length again, and the card's 50 mm bar, which shows whether it was printed at 100 %%", t.LengthMM, o.LengthMM)
		}
		for i := range t.Outline {
			t.Outline[i][0] *= k
			t.Outline[i][1] *= k
		}
		t.Scaled = k
		t.settle()
	}
	t.doubt()
	return nil
}

// doubt lists what is worse than usual, though not too bad to trust.
func (t *Trace) doubt() {
	if t.View > 8*units.Degree {
		t.Doubts = append(t.Doubts, fmt.Sprintf("seen %.0f° from the side", t.View.Degrees()))
	}
	if t.ScalePx < 9 {
		t.Doubts = append(t.Doubts, fmt.Sprintf("only %.1f pixels a mm", t.ScalePx))
	}
	if t.BlurMM > 0.3 {
		t.Doubts = append(t.Doubts, "a little blurred")
	}
	if t.Share < 0.75 {
		t.Doubts = append(t.Doubts, fmt.Sprintf("%.0f %% of the card's edge was seen", 100*t.Share))
	}
	if t.weak > 0.05 || t.contrast < 0.1 {
		t.Doubts = append(t.Doubts, "the stone stands out little from the card")
	}
}

// withoutShoulder draws the far side in. From the side the stone's shoulder
// hides its edge there: a side that leans by shoulderLean up to shoulderMM is
// seen over from there on.
func withoutShoulder(line []Place, over Place, eyeMM, radiusMM float64) []Place {
	area := areaOf(line)
	outward := normals(line)
	out := make([]Place, len(line))
	for i, p := range line {
		if area < 0 {
			outward[i] = Place{-outward[i].X, -outward[i].Y}
		}
		away := Place{(p.X - over.X) / eyeMM, (p.Y - over.Y) / eyeMM}
		slope := away.X*outward[i].X + away.Y*outward[i].Y
		d := shoulderMM(slope, radiusMM)
		out[i] = Place{p.X - d*outward[i].X, p.Y - d*outward[i].Y}
	}
	return out
}

// shoulderMM is by how much a cabochon's side shows beyond its edge where it is
// seen over at a slope: the side is taken as a quarter ellipse on the edge, as
// high as a sixth of the stone's width, leaning by 8 degrees at its foot.
func shoulderMM(slope, radiusMM float64) float64 {
	lean := 0.14
	if slope <= lean {
		return 0
	}
	height := radiusMM / 3
	s := slope - lean
	return math.Sqrt(radiusMM*radiusMM+height*height*s*s) - radiusMM
}

// upright turns the line so that its longest way lies along y, counter-clockwise
// with y up, and its bounds' middle is the origin.
func upright(line []Place) [][2]float64 {
	out := make([][2]float64, len(line))
	for i, p := range line {
		out[len(line)-1-i] = [2]float64{p.X, -p.Y}
	}
	if areaOf(line) < 0 {
		for i, p := range line {
			out[i] = [2]float64{p.X, -p.Y}
		}
	}
	a, b := 0, 0
	longest := -1.0
	for i := range out {
		for j := i + 1; j < len(out); j += 2 {
			if d := math.Hypot(out[i][0]-out[j][0], out[i][1]-out[j][1]); d > longest {
				a, b, longest = i, j, d
			}
		}
	}
	turn := math.Pi/2 - math.Atan2(out[b][1]-out[a][1], out[b][0]-out[a][0])
	sin, cos := math.Sincos(turn)
	for i, p := range out {
		out[i] = [2]float64{cos*p[0] - sin*p[1], sin*p[0] + cos*p[1]}
	}
	low, high := bounds(out)
	for i := range out {
		out[i][0] -= (low[0] + high[0]) / 2
		out[i][1] -= (low[1] + high[1]) / 2
	}
	return out
}

func bounds(c [][2]float64) (low, high [2]float64) {
	low, high = c[0], c[0]
	for _, p := range c {
		for k := range p {
			low[k], high[k] = math.Min(low[k], p[k]), math.Max(high[k], p[k])
		}
	}
	return low, high
}

// settle takes length, width and perimeter from the outline.
func (t *Trace) settle() {
	low, high := bounds(t.Outline)
	t.LengthMM, t.WidthMM = high[1]-low[1], high[0]-low[0]
	t.PerimeterMM = ClosedLength(t.Outline)
}

// ClosedLength is the length of the smooth closed curve through points that lie
// close together: each chord, with what an arc of the same turning has more. It
// is exact to the fourth order of the distance between points.
func ClosedLength(c [][2]float64) float64 {
	n, sum := len(c), 0.0
	chord := func(i int) (dx, dy, l float64) {
		p, q := c[(i+n)%n], c[(i+1)%n]
		return q[0] - p[0], q[1] - p[1], math.Hypot(q[0]-p[0], q[1]-p[1])
	}
	turn := func(i int) float64 { // at the start of chord i
		ax, ay, _ := chord(i - 1)
		bx, by, _ := chord(i)
		return math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
	}
	for i := range c {
		_, _, l := chord(i)
		k := (turn(i) + turn((i+1)%n)) / 2
		if math.Abs(k) > 0.3 { // a corner, not an arc
			k = 0
		}
		sum += l * (1 + k*k/24)
	}
	return sum
}
