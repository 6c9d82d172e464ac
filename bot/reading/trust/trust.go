// Package trust tells how far a reading can be trusted: how likely the piece that
// the rules of bot/reading/sentence made of a message is what its asker meant. It
// goes by signs that the reader counts, such as how likely the request is by all
// words, and how likely each figure's place is by the words round it.
//
// The weights are learnt from what the reader made of messages that neither its
// rules nor its models had seen, in outcomes.gz. New messages are recorded before
// anything learns from them, and then the weights are made anew:
//
//	go run ./bot/reading/trust/learn -record FOLDER -outcomes bot/reading/trust/outcomes.gz
//	go generate ./bot/reading/trust
package trust

import (
	"compress/gzip"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"sync"

	"gonum.org/v1/gonum/optimize"
)

//go:generate go run ./learn -outcomes outcomes.gz -weights weights.json
//go:generate go run ./learn -outcomes turns.gz -weights turns.json

// Signs speak for or against a reading, by their names; one that is not there is 0.
type Signs map[string]float64

// Weights of signs, by their names.
type Weights map[string]float64

//go:embed weights.json
var packed []byte

//go:embed turns.json
var packedTurns []byte

// learnt and learntOfTurns are the weights of the program.
var learnt, learntOfTurns = unpacked(packed), unpacked(packedTurns)

func unpacked(packed []byte) func() Weights {
	return sync.OnceValue(func() Weights {
		var w Weights
		if err := json.Unmarshal(packed, &w); err != nil {
			panic(fmt.Sprintf("trust: the weights in the program are damaged: %v", err)) // a bug of the build
		}
		return w
	})
}

// Chance is how likely a reading with these signs is what was meant, from 0 to 1.
func Chance(s Signs) float64 { return learnt().Chance(s) }

// ChanceInTalk is how likely what was read of a message is meant that comes after a piece.
func ChanceInTalk(s Signs) float64 { return learntOfTurns().Chance(s) }

// Chance is that of these weights.
func (w Weights) Chance(s Signs) float64 { return 1 / (1 + math.Exp(-w.sum(s))) }

// bias is the sign that every reading has.
const bias = "bias"

func (w Weights) sum(s Signs) float64 {
	sum := w[bias]
	for _, name := range slices.Sorted(maps.Keys(s)) { // in order, so that the sum is the same each time
		sum += w[name] * s[name]
	}
	return sum
}

// Outcome is what became of one reading.
type Outcome struct {
	Right bool
	Signs Signs
}

// Append adds outcomes to a file of them, which it makes where there is none.
func Append(path string, outcomes []Outcome) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	z := gzip.NewWriter(f) // members of a gzip file are read one after the other
	e := json.NewEncoder(z)
	for _, o := range outcomes {
		err = errors.Join(err, e.Encode(o))
	}
	return errors.Join(err, z.Close(), f.Close())
}

// ridge is the weight of the squares of the weights against the log-likelihood.
const ridge = 1

// Fit learns weights by logistic regression with a ridge penalty; see Bishop, Pattern
// Recognition and Machine Learning (2006), 4.3.2.
func Fit(outcomes []Outcome) (Weights, error) {
	names := namesOf(outcomes)
	weights := func(x []float64) Weights {
		w := Weights{}
		for i, name := range names {
			w[name] = x[i]
		}
		return w
	}
	loss := func(x []float64) float64 {
		w, sum := weights(x), 0.0
		for _, o := range outcomes {
			z := w.sum(o.Signs)
			if o.Right {
				z = -z
			}
			sum += math.Log1p(math.Exp(z))
		}
		for i, v := range x {
			if names[i] != bias {
				sum += ridge / 2. * v * v
			}
		}
		return sum
	}
	gradient := func(grad, x []float64) {
		w := weights(x)
		for i, v := range x {
			grad[i] = ridge * v
			if names[i] == bias {
				grad[i] = 0
			}
		}
		for _, o := range outcomes {
			off := w.Chance(o.Signs)
			if o.Right {
				off--
			}
			for i, name := range names {
				if name == bias {
					grad[i] += off
				}
				grad[i] += off * o.Signs[name]
			}
		}
	}
	result, err := optimize.Minimize(optimize.Problem{Func: loss, Grad: gradient}, make([]float64, len(names)),
		&optimize.Settings{MajorIterations: 500, GradientThreshold: 1e-3}, &optimize.LBFGS{})
	if err != nil {
		return nil, fmt.Errorf("trust: the weights did not settle: %w", err)
	}
	return weights(result.X), nil
}

// namesOf are the signs of all outcomes, and the bias.
func namesOf(outcomes []Outcome) []string {
	set := map[string]bool{bias: true}
	for _, o := range outcomes {
		for name := range o.Signs {
			set[name] = true
		}
	}
	return slices.Sorted(maps.Keys(set))
}
