package tracing

import "math"

// bare tells the bare card from what lies on it. The card is known: on the white
// zone it is neutral paper, in the light or in a shadow that no stone deepens
// below leastShade; on the black zone it sends back no more than its ink. What
// the stone looks like is learnt from its middle, so that veins and patches
// count as stone even where they are like the card.
type bare struct {
	s *sheet
	// noise is how the zone's bare surface scatters.
	noise float64
	// lit and shaded are how often the stone's own middle is like bare card in
	// the light or in shadow.
	lit, shaded float64
}

const (
	leastShade = 0.30
	// Paper darker than this lies in a shadow.
	litPaper = 0.85
	// unlikeLimit is from where a pixel can't be bare card, in deviations.
	unlikeLimit = 3.0
	// A broad spread of colours is this much less likely at one of them than the
	// card's own spread, logarithm.
	broad = 4.0
	// mostEvidence is how sure one pixel can be, logarithm of the odds.
	mostEvidence = 4.0
)

// unlike is how many deviations a pixel is away from what bare card can look
// like.
func (b *bare) unlike(v [3]float64) float64 {
	if b.s.zone == Black {
		return math.Max(0, brightness(v)) / math.Max(0.012, 2*b.noise)
	}
	grey := (v[0] + v[1] + v[2]) / 3
	chroma := math.Sqrt((v[0]-grey)*(v[0]-grey) + (v[1]-grey)*(v[1]-grey) + (v[2]-grey)*(v[2]-grey))
	shade := math.Max(0, math.Min(1-grey, 1))
	// Shadows take the room's colours, the more the deeper they are.
	tint := chroma / (0.022 + 0.045*shade)
	deep := math.Max(0, leastShade-grey) / 0.06
	bright := math.Max(0, grey-1.15) / 0.1
	return math.Sqrt(tint*tint + deep*deep + bright*bright)
}

func (b *bare) inShade(v [3]float64) bool {
	return b.s.zone == White && v[0]+v[1]+v[2] < 3*litPaper
}

// learn takes from a stone's middle how often it is like bare card.
func (b *bare) learn(inner []bool) {
	lit, shaded, all := 0.0, 0.0, 0.0
	for i, in := range inner {
		if !in {
			continue
		}
		all++
		if b.unlike(b.s.pix[i]) < unlikeLimit {
			if b.inShade(b.s.pix[i]) {
				shaded++
			} else {
				lit++
			}
		}
	}
	b.lit = math.Max(0.01, math.Min(lit/math.Max(all, 1), 0.5))
	b.shaded = math.Max(0.03, math.Min(shaded/math.Max(all, 1), 0.5))
}

// evidence is the logarithm of the odds that a pixel is stone.
func (b *bare) evidence() *signal {
	g := &signal{b.s, make([]float64, len(b.s.pix))}
	for i, v := range b.s.pix {
		u := math.Min(b.unlike(v), 6)
		like := b.lit
		card := 0.0
		if b.inShade(v) {
			like = b.shaded
			card = -0.7 // little of the card lies in shadow
		}
		out := -u * u / 2
		in := math.Log(like*math.Exp(out) + (1-like)*math.Exp(-broad))
		g.v[i] = math.Max(-mostEvidence, math.Min(in-out-card, mostEvidence))
	}
	return g
}
