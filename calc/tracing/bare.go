package tracing

import (
	"math"
	"slices"
)

// bare tells the bare card from what lies on it. The card is known: on the white
// zone it is neutral paper, in the light or in a shadow that no stone deepens
// below leastShade; on the black zone it sends back no more than its ink. What
// the stone looks like is learnt from the stone itself, so that veins and
// patches count as stone even where they are a little like the card.
type bare struct {
	s *sheet
	// noise is how the zone's bare surface scatters, and spread by how much more
	// it differs from the model than expected.
	noise, spread float64
	// looks is the logarithm of the odds of stone against card for each class of
	// pixel.
	looks [classes]float64
}

const (
	leastShade = 0.30
	// litPaper is the light below which paper lies in shadow.
	litPaper = 0.85
	// mostEvidence is how sure one pixel can be.
	mostEvidence = 4.0
	classes      = 16
)

var (
	// unlikeSteps part the classes: how many deviations a pixel is unlike the
	// bare card.
	unlikeSteps = [classes/2 - 1]float64{1, 2, 3, 4.5, 7, 11, 18}
	// cardShare is how often bare card falls into each: a normal spread with
	// the tail that dust, gloss and coloured light beside a stone give it.
	cardShare = [classes / 2]float64{0.66, 0.26, 0.05, 0.015, 0.006, 0.004, 0.003, 0.002}
)

// cardInShade is how much of the card round a stone lies in shadow.
const cardInShade = 0.3

// newBare learns how a stone differs from the card, given roughly where it is.
func newBare(s *sheet, stone region) *bare {
	b := &bare{s: s, noise: s.noise, spread: 1}
	around := s.grown(stone.mask, int(2/s.stepMM))
	var off []float64
	for i := 0; i < len(around); i += 7 {
		if !around[i] && s.edgeMM(i) > 0.8 {
			off = append(off, b.unlike(s.pix[i]))
		}
	}
	if len(off) > 50 {
		slices.Sort(off)
		b.spread = math.Max(1, off[len(off)*9/10]/1.645)
	}
	var count [classes]float64
	all := 0.0
	for i, in := range s.grown(stone.mask, -int(0.4/s.stepMM)) {
		if in {
			count[b.class(s.pix[i])]++
			all++
		}
	}
	for k := range count {
		in := 0.85*count[k]/math.Max(all, 1) + 0.15/classes
		out := cardShare[k%(classes/2)] * (1 - cardInShade)
		if k >= classes/2 {
			out = cardShare[k%(classes/2)] * cardInShade
		}
		b.looks[k] = math.Max(-mostEvidence, math.Min(math.Log(in/out), mostEvidence))
	}
	return b
}

// unlike is how many deviations a pixel is away from what bare card can look
// like.
func (b *bare) unlike(v [3]float64) float64 {
	if b.s.zone == Black {
		return math.Max(0, brightness(v)) / math.Max(0.012, 2*b.noise) / b.spread
	}
	grey := (v[0] + v[1] + v[2]) / 3
	chroma := math.Sqrt((v[0]-grey)*(v[0]-grey) + (v[1]-grey)*(v[1]-grey) + (v[2]-grey)*(v[2]-grey))
	shade := math.Max(0, math.Min(1-grey, 1))
	// Shadows take the room's colours, the more the deeper they are.
	tint := chroma / (0.022 + 0.045*shade)
	deep := math.Max(0, leastShade-grey) / 0.06
	bright := math.Max(0, grey-1.15) / 0.1
	return math.Sqrt(tint*tint+deep*deep+bright*bright) / b.spread
}

func (b *bare) class(v [3]float64) int {
	k := 0
	for u := b.unlike(v); k < len(unlikeSteps) && u >= unlikeSteps[k]; k++ {
	}
	if b.s.zone == White && v[0]+v[1]+v[2] < 3*litPaper {
		k += classes / 2
	}
	return k
}

// evidence is the logarithm of the odds that a pixel is stone.
func (b *bare) evidence() *signal {
	g := &signal{b.s, make([]float64, len(b.s.pix))}
	for i, v := range b.s.pix {
		g.v[i] = b.looks[b.class(v)]
	}
	return g
}

// wholeStone is where the stone is by all the evidence, which mends what a
// highlight or a dark patch at its edge cut from it. A region that is very
// different is not believed.
func wholeStone(s *sheet, stone region) region {
	g := newBare(s, stone).evidence()
	set := make([]bool, len(g.v))
	for y := 1; y < s.h-1; y++ {
		for x := 1; x < s.w-1; x++ {
			i := y*s.w + x
			sum := 0.0
			for _, row := range [3]int{i - s.w, i, i + s.w} {
				sum += g.v[row-1] + g.v[row] + g.v[row+1]
			}
			set[i] = sum > 0 && s.edgeMM(i) > 0.6
		}
	}
	whole := s.closed(s.opened(s.filled(s.largest(set))))
	pixels, both, before := 0, 0, 0
	for i, in := range whole.mask {
		if in {
			pixels++
			if stone.mask[i] {
				both++
			}
		}
		if stone.mask[i] {
			before++
		}
	}
	if whole.touches || both*10 < before*9 || pixels*10 > before*15 {
		return stone
	}
	return whole
}

// sides are how much of a line has what looks like card within it, and what
// looks like stone outside it.
func sides(stone *signal, line []Place, blurMM float64) (cardWithin, stoneOutside float64) {
	outward := normals(line)
	near := math.Max(0.15, 0.9*blurMM)
	for i, p := range line {
		mean := func(sign float64) float64 {
			sum := 0.0
			for k := range 5 {
				d := sign * (near + 0.1*float64(k))
				sum += stone.at(Place{p.X + d*outward[i].X, p.Y + d*outward[i].Y}) / 5
			}
			return sum
		}
		if mean(-1) < 0 {
			cardWithin += 1 / float64(len(line))
		}
		if mean(1) > 0 {
			stoneOutside += 1 / float64(len(line))
		}
	}
	return cardWithin, stoneOutside
}
