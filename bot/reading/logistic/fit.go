package logistic

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"runtime"
	"slices"
	"sync"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/optimize"
)

// Sample is the features of something, by kind, with the classes that are right
// for it; several are right alike.
type Sample struct {
	Kinds   []Counts
	Classes []string
}

// stepsKept is how many steps the optimizer remembers; each costs two vectors as long as
// all weights.
const stepsKept = 6

// ridge is the weight of the squares of the weights against the log-likelihood.
const ridge = 0.1

// Fit learns a model from samples by maximum likelihood with a ridge penalty. A
// feature of a kind that stands in fewer samples than fewest says of that kind is
// left out. See e.g. Bishop, Pattern Recognition and Machine Learning (2006), 4.3.4.
func Fit(samples []Sample, fewest ...int) (*Model, error) {
	m := &Model{index: map[string]int{}}
	m.choose(samples, fewest)
	m.Classes = classesOf(samples)
	data := problem{features: len(m.Features), classes: len(m.Classes)}
	for _, s := range samples {
		target := make([]float64, len(m.Classes))
		for _, c := range s.Classes {
			target[slices.Index(m.Classes, c)] += 1 / float64(len(s.Classes))
		}
		data.rows, data.targets = append(data.rows, sparse(m.vector(s.Kinds))), append(data.targets, target)
	}
	data.byFeature()
	start := make([]float64, (len(m.Features)+1)*len(m.Classes)) // the bias comes last
	result, err := optimize.Minimize(optimize.Problem{Func: data.loss, Grad: data.gradient}, start,
		&optimize.Settings{MajorIterations: 200, GradientThreshold: 1e-3, Converger: &optimize.FunctionConverge{Relative: 1e-6, Iterations: 5}}, &optimize.LBFGS{Store: stepsKept})
	if err != nil {
		return nil, fmt.Errorf("logistic: the model did not settle: %w", err)
	}
	m.quantize(result.X)
	m.numberClasses()
	return m, nil
}

func classesOf(samples []Sample) []string {
	set := map[string]bool{}
	for _, s := range samples {
		for _, c := range s.Classes {
			set[c] = true
		}
	}
	return slices.Sorted(maps.Keys(set))
}

// choose chooses the features, and weighs them by rarity: ln((1+n)/(1+df)) + 1.
func (m *Model) choose(samples []Sample, fewest []int) {
	for kind, least := range fewest {
		in := map[string]int{}
		for _, s := range samples {
			for f := range s.Kinds[kind] {
				in[f]++
			}
		}
		for _, f := range slices.Sorted(maps.Keys(in)) {
			if in[f] < least {
				continue
			}
			m.index[f] = len(m.Features)
			m.Features = append(m.Features, f)
			m.Rarity = append(m.Rarity, float32(math.Log(float64(1+len(samples))/float64(1+in[f]))+1))
		}
	}
}

// sparse is a vector in the order of the features, so that a sum is always the same.
func sparse(v []entry) []entry {
	slices.SortFunc(v, func(a, b entry) int { return cmp.Compare(a.at, b.at) })
	return v
}

// problem is the likelihood of the samples as a function of the weights.
type problem struct {
	features, classes int
	rows              [][]entry
	targets           [][]float64
	columns           [][]entry // of each feature: the rows that have it, with its value
	at                []float64 // the weights of the last step, with what follows from them
	misses            [][]float64
	lost              float64
}

// byFeature notes in which rows each feature stands.
func (p *problem) byFeature() {
	p.columns = make([][]entry, p.features)
	for i, row := range p.rows {
		for _, e := range row {
			p.columns[e.at] = append(p.columns[e.at], entry{i, e.x})
		}
		p.misses = append(p.misses, make([]float64, p.classes))
	}
}

// step works out at new weights by how much the chances of each row miss its target, and
// the loss. The optimizer asks for the loss and for the gradient of the same weights.
func (p *problem) step(w []float64) {
	if slices.Equal(p.at, w) {
		return
	}
	p.at = append(p.at[:0], w...)
	lost := make([]float64, len(p.rows))
	shared(len(p.rows), func(i int) {
		out := p.misses[i]
		copy(out, w[p.features*p.classes:])
		for _, e := range p.rows[i] {
			floats.AddScaled(out, e.x, w[e.at*p.classes:(e.at+1)*p.classes])
		}
		softmax(out)
		for k, t := range p.targets[i] {
			if t > 0 {
				lost[i] -= t * math.Log(max(out[k], 1e-300))
			}
		}
		floats.Sub(out, p.targets[i])
	})
	weights := w[:p.features*p.classes]
	p.lost = floats.Sum(lost) + ridge/2*floats.Dot(weights, weights)
}

func (p *problem) loss(w []float64) float64 {
	p.step(w)
	return p.lost
}

func (p *problem) gradient(grad, w []float64) {
	p.step(w)
	shared(p.features, func(f int) {
		g := grad[f*p.classes : (f+1)*p.classes]
		floats.ScaleTo(g, ridge, w[f*p.classes:(f+1)*p.classes])
		for _, e := range p.columns[f] {
			floats.AddScaled(g, e.x, p.misses[e.at])
		}
	})
	bias := grad[p.features*p.classes:]
	clear(bias)
	for _, miss := range p.misses {
		floats.Add(bias, miss)
	}
}

// shared does n independent pieces of work on all processors.
func shared(n int, do func(i int)) {
	var all sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for k := range workers {
		all.Go(func() {
			for i := k; i < n; i += workers {
				do(i)
			}
		})
	}
	all.Wait()
}

// quantize keeps the weights in steps of 1/127 of the largest of their class.
func (m *Model) quantize(w []float64) {
	n := len(m.Classes)
	m.Step, m.Bias = make([]float32, n), make([]float32, n)
	m.Weights = make([]int8, len(m.Features)*n)
	for k := range n {
		largest := 1e-9
		for i := range m.Features {
			largest = max(largest, math.Abs(w[i*n+k]))
		}
		m.Step[k], m.Bias[k] = float32(largest/127), float32(w[len(m.Features)*n+k])
		for i := range m.Features {
			m.Weights[i*n+k] = int8(math.Round(w[i*n+k] / largest * 127))
		}
	}
}
