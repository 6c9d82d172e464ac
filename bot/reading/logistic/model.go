// Package logistic is multinomial logistic regression over counted features,
// weighted by tf-idf: which of some classes a sample most likely belongs to. It
// knows nothing of what the features are.
package logistic

import (
	"bytes"
	"compress/gzip"
	"encoding/gob"
	"fmt"
	"iter"
	"math"
	"os"
	"slices"
	"sync"
)

// Counts is how often each feature of one kind stands in a sample.
type Counts map[string]int

// Model is what was learnt.
type Model struct {
	// Classes are in the order of the columns of Weights.
	Classes []string
	// Features are all features, with the weight of each for its rarity.
	Features []string
	Rarity   []float32
	// Weights has for each feature a weight for each class; in whole steps of
	// Step, which is one for each class.
	Weights []int8
	Step    []float32
	Bias    []float32
	index   map[string]int
	classAt map[string]int
}

// Unpack reads a model as Pack wrote it.
func Unpack(data []byte) (*Model, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	var m Model
	if err := gob.NewDecoder(z).Decode(&m); err != nil {
		return nil, err
	}
	m.index = make(map[string]int, len(m.Features))
	for i, f := range m.Features {
		m.index[f] = i
	}
	m.numberClasses()
	return &m, nil
}

// numberClasses notes where each class stands.
func (m *Model) numberClasses() {
	m.classAt = make(map[string]int, len(m.Classes))
	for k, class := range m.Classes {
		m.classAt[class] = k
	}
}

// Embedded unpacks a model that the program carries, when it is first asked for. The
// package is the one that carries it.
func Embedded(inPackage string, packed []byte) func() *Model {
	return sync.OnceValue(func() *Model {
		m, err := Unpack(packed)
		if err != nil {
			panic(fmt.Sprintf("%s: the model in the program is damaged: %v", inPackage, err)) // a bug of the build
		}
		return m
	})
}

// WriteFile packs a model into a file, and says how large it is.
func (m *Model) WriteFile(path string) (said string, err error) {
	data, err := m.Pack()
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%d classes, %d features, %d kB", len(m.Classes), len(m.Features), len(data)/1000), os.WriteFile(path, data, 0o644)
}

// Pack writes a model in few bytes.
func (m *Model) Pack() ([]byte, error) {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if err := gob.NewEncoder(z).Encode(m); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// Chances are the chances of the classes for one sample, from 0 to 1, which sum
// to 1. A class that there is not has none.
type Chances struct {
	classes []string
	index   map[string]int
	chances []float64
}

// Of is the sum of the chances of some classes.
func (c Chances) Of(classes ...string) float64 {
	sum := 0.0
	for _, class := range classes {
		if k, ok := c.index[class]; ok {
			sum += c.chances[k]
		}
	}
	return sum
}

// Best is the likeliest class and its chance; the first by name of two alike.
func (c Chances) Best() (class string, chance float64) {
	for k, p := range c.chances {
		if p > chance {
			class, chance = c.classes[k], p
		}
	}
	return class, chance
}

// All are the classes with their chances, by name.
func (c Chances) All() iter.Seq2[string, float64] {
	return func(yield func(string, float64) bool) {
		for k, p := range c.chances {
			if !yield(c.classes[k], p) {
				return
			}
		}
	}
}

// rounds are how often Exclusive looks at the others anew: after the second hardly
// anything changes.
const rounds = 3

// Exclusive are the chances of samples of one model that hardly share a class: that of a
// class falls by the share times the chance that another sample has it, by mean field
// iteration. Classes named here may be shared.
func Exclusive(all []Chances, share float64, shared ...string) []Chances {
	var apart []int // the classes that are not shared
	for _, c := range all[:min(1, len(all))] {
		for k, class := range c.classes {
			if !slices.Contains(shared, class) {
				apart = append(apart, k)
			}
		}
	}
	now := all
	for range rounds {
		next := make([]Chances, len(all))
		for i, c := range all {
			p := slices.Clone(c.chances)
			for j, other := range now {
				if j == i {
					continue
				}
				for _, k := range apart {
					p[k] *= 1 - share*other.chances[k]
				}
			}
			sum := 0.0
			for _, x := range p {
				sum += x
			}
			for k := range p {
				p[k] /= sum
			}
			next[i] = Chances{c.classes, c.index, p}
		}
		now = next
	}
	return now
}

// Chances of the classes for a sample with these features, by kind.
func (m *Model) Chances(kinds ...Counts) Chances {
	scores := make([]float64, len(m.Classes))
	for _, e := range m.vector(kinds) {
		for k, weight := range m.Weights[e.at*len(scores) : (e.at+1)*len(scores)] {
			scores[k] += e.x * float64(weight)
		}
	}
	for k := range scores {
		scores[k] = float64(m.Bias[k]) + scores[k]*float64(m.Step[k])
	}
	softmax(scores)
	return Chances{m.Classes, m.classAt, scores}
}

// entry is one element of a sparse vector.
type entry struct {
	at int
	x  float64
}

// vector is the tf-idf vector of a sample by the index of the features: the
// features of each kind have the length 1 together.
func (m *Model) vector(kinds []Counts) []entry {
	most := 0
	for _, counts := range kinds {
		most += len(counts)
	}
	v := make([]entry, 0, most)
	for _, counts := range kinds {
		sum, first := 0.0, len(v)
		for f, n := range counts {
			i, ok := m.index[f]
			if !ok {
				continue
			}
			x := (1 + math.Log(float64(n))) * float64(m.Rarity[i])
			sum += x * x
			v = append(v, entry{i, x})
		}
		length := math.Sqrt(sum)
		for k := range v[first:] {
			v[first+k].x /= length
		}
	}
	return v
}

// softmax turns scores into chances.
func softmax(scores []float64) {
	highest, sum := math.Inf(-1), 0.0
	for _, s := range scores {
		highest = max(highest, s)
	}
	for k, s := range scores {
		scores[k] = math.Exp(s - highest)
		sum += scores[k]
	}
	for k := range scores {
		scores[k] /= sum
	}
}
