package intent

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// Example is a message with what it asks for; several intents are right alike.
type Example struct {
	Message string
	Intents []string
}

// A feature that stands in fewer examples than this says nothing.
const (
	fewestWords = 2
	fewestRuns  = 3
)

// ridge is the weight of the squares of the weights against the log-likelihood.
const ridge = 0.05

// Fit learns a model from examples by maximum likelihood with a ridge penalty.
// See e.g. Bishop, Pattern Recognition and Machine Learning (2006), 4.3.4.
func Fit(examples []Example) (*Model, error) {
	m := &Model{index: map[string]int{}}
	m.features(examples)
	m.Intents = intentsOf(examples)
	data := problem{m: m, intents: len(m.Intents)}
	for _, e := range examples {
		row, target := sparse(m.Vector(e.Message)), make([]float64, len(m.Intents))
		for _, i := range e.Intents {
			target[slices.Index(m.Intents, i)] += 1 / float64(len(e.Intents))
		}
		data.rows, data.targets = append(data.rows, row), append(data.targets, target)
	}
	size := (len(m.Features) + 1) * len(m.Intents) // the bias comes last
	result, err := optimize.Minimize(optimize.Problem{Func: data.loss, Grad: data.gradient}, make([]float64, size),
		&optimize.Settings{MajorIterations: 200, GradientThreshold: 1e-3, Converger: &optimize.FunctionConverge{Relative: 1e-7, Iterations: 5}}, &optimize.LBFGS{})
	if err != nil {
		return nil, fmt.Errorf("intent: the model did not settle: %w", err)
	}
	m.quantize(result.X)
	return m, nil
}

func intentsOf(examples []Example) []string {
	set := map[string]bool{}
	for _, e := range examples {
		for _, i := range e.Intents {
			set[i] = true
		}
	}
	return slices.Sorted(maps.Keys(set))
}

// features chooses the features, and weighs them by rarity: ln((1+n)/(1+df)) + 1.
func (m *Model) features(examples []Example) {
	in := map[string]int{}
	for _, e := range examples {
		words, runs := Counts(e.Message)
		for _, counts := range []map[string]int{words, runs} {
			for f := range counts {
				in[f]++
			}
		}
	}
	for _, f := range slices.Sorted(maps.Keys(in)) {
		fewest := fewestWords
		if f[0] == '~' {
			fewest = fewestRuns
		}
		if in[f] < fewest {
			continue
		}
		m.index[f] = len(m.Features)
		m.Features = append(m.Features, f)
		m.Rarity = append(m.Rarity, float32(math.Log(float64(1+len(examples))/float64(1+in[f]))+1))
	}
}

// entry is one element of a sparse row.
type entry struct {
	at int
	x  float64
}

func sparse(v map[int]float64) []entry {
	var row []entry
	for _, i := range slices.Sorted(maps.Keys(v)) {
		row = append(row, entry{i, v[i]})
	}
	return row
}

// problem is the likelihood of the examples as a function of the weights.
type problem struct {
	m       *Model
	intents int
	rows    [][]entry
	targets [][]float64
}

func (p *problem) chances(w []float64, row []entry, out []float64) {
	copy(out, w[len(p.m.Features)*p.intents:])
	for _, e := range row {
		for k, x := range w[e.at*p.intents : (e.at+1)*p.intents] {
			out[k] += e.x * x
		}
	}
	Softmax(out)
}

func (p *problem) loss(w []float64) float64 {
	sum, out := 0.0, make([]float64, p.intents)
	for i, row := range p.rows {
		p.chances(w, row, out)
		for k, t := range p.targets[i] {
			if t > 0 {
				sum -= t * math.Log(max(out[k], 1e-300))
			}
		}
	}
	for _, x := range w[:len(p.m.Features)*p.intents] {
		sum += ridge / 2 * x * x
	}
	return sum
}

func (p *problem) gradient(grad, w []float64) {
	bias, out := len(p.m.Features)*p.intents, make([]float64, p.intents)
	for i := range grad {
		grad[i] = 0
		if i < bias {
			grad[i] = ridge * w[i]
		}
	}
	for i, row := range p.rows {
		p.chances(w, row, out)
		for k := range out {
			out[k] -= p.targets[i][k]
			grad[bias+k] += out[k]
		}
		for _, e := range row {
			g := grad[e.at*p.intents : (e.at+1)*p.intents]
			for k, d := range out {
				g[k] += d * e.x
			}
		}
	}
}

// quantize keeps the weights in steps of 1/127 of the largest of their intent.
func (m *Model) quantize(w []float64) {
	n := len(m.Intents)
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
