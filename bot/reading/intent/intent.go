// Package intent tells by its words alone what a message most likely asks for: a
// request of the catalogue, an explanation, help with trouble, or none of them.
// It is a second opinion for the rules of bot/reading/sentence, which find what
// the message says in particular.
//
// The model is multinomial logistic regression over words, pairs of words and
// runs of four letters, weighted by tf-idf. It is learnt from the sentences in
// sentence/testdata; after they change, run
//
//	go generate ./bot/reading/intent
package intent

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/gob"
	"fmt"
	"math"
	"sync"
)

//go:generate go run ./learn -sentences ../sentence/testdata -model model.gob.gz

// What a message may ask for, beside the requests of the catalogue, which go by
// their words.
const (
	Explanation = "explain"
	Trouble     = "trouble"
	FirstAid    = "aid"
	Declined    = "decline"
	Silent      = "silent"
)

// Model is what was learnt.
type Model struct {
	// Intents are in the order of the columns of Weights.
	Intents []string
	// Features are all features, with the weight of each for its rarity.
	Features []string
	Rarity   []float32
	// Weights has for each feature a weight for each intent; in whole steps of
	// Step, which is one for each intent.
	Weights []int8
	Step    []float32
	Bias    []float32
	// LearntFrom is the digest of the sentences.
	LearntFrom string
	index      map[string]int
}

//go:embed model.gob.gz
var packed []byte

// learnt is the model of the program.
var learnt = sync.OnceValue(func() *Model {
	m, err := Unpack(packed)
	if err != nil {
		panic(fmt.Sprintf("intent: the model in the program is damaged: %v", err)) // a bug of the build
	}
	return m
})

// Learnt is the model that the program carries.
func Learnt() *Model { return learnt() }

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
	return &m, nil
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

// Likelihoods are the chances of the intents of one message, from 0 to 1, which
// sum to 1.
type Likelihoods map[string]float64

// Of is the sum of the chances of some intents.
func (l Likelihoods) Of(intents ...string) float64 {
	sum := 0.0
	for _, i := range intents {
		sum += l[i]
	}
	return sum
}

// Best is the likeliest intent and its chance; the first by name of two alike.
func (l Likelihoods) Best() (intent string, chance float64) {
	for i, c := range l {
		if c > chance || c == chance && i < intent {
			intent, chance = i, c
		}
	}
	return intent, chance
}

// Likelihoods of what a message asks for.
func (m *Model) Likelihoods(message string) Likelihoods {
	scores := make([]float64, len(m.Intents))
	for k := range scores {
		scores[k] = float64(m.Bias[k])
	}
	for i, x := range m.Vector(message) {
		row := m.Weights[i*len(scores):]
		for k := range scores {
			scores[k] += x * float64(row[k]) * float64(m.Step[k])
		}
	}
	Softmax(scores)
	all := make(Likelihoods, len(scores))
	for k, p := range scores {
		all[m.Intents[k]] = p
	}
	return all
}

// Softmax turns scores into chances.
func Softmax(scores []float64) {
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
