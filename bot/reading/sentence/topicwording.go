package sentence

import (
	"math"
	"slices"
)

// wordings are all ways to ask for each topic as one: which words and which two words side
// by side have ever been said of it, with those that say nothing alone, since "how long do
// I" and "how long will it" tell topics of the same things apart.
type wordings struct {
	numbers map[string]int32
	pairs   map[[2]int32]int32
	// in are the topics of each word and pair, with what it weighs in the topic; weight is
	// what it weighs in a message.
	in     [][]standing
	weight []float64
}

// pairInWording is what two words side by side weigh, as a share of a word as rare.
const pairInWording = 0.6

// newWordings learns from the ways to ask for each topic.
func newWordings(ways [][]string) *wordings {
	w := &wordings{numbers: map[string]int32{}, pairs: map[[2]int32]int32{}}
	for at, asked := range ways {
		for _, way := range asked {
			for _, n := range w.note(wordsOf(way)) {
				if in := w.in[n]; len(in) == 0 || in[len(in)-1].at != at {
					w.in[n] = append(in, standing{at: at})
				}
			}
		}
	}
	w.weigh(len(ways))
	return w
}

// note are the numbers of the words and pairs of a text, given where they have none yet.
func (w *wordings) note(words []string) []int32 {
	var all []int32
	last := int32(-1)
	for _, word := range words {
		stem := stemOf(word)
		n, known := w.numbers[stem]
		if !known {
			n = w.another()
			w.numbers[stem] = n
		}
		all = append(all, n)
		if last >= 0 {
			pair, known := w.pairs[[2]int32{last, n}]
			if !known {
				pair = w.another()
				w.pairs[[2]int32{last, n}] = pair
				w.weight[pair] = pairInWording
			}
			all = append(all, pair)
		}
		last = n
	}
	return all
}

// another is the number of a new word or pair.
func (w *wordings) another() int32 {
	w.in, w.weight = append(w.in, nil), append(w.weight, 1)
	return int32(len(w.in) - 1)
}

// weigh weighs each word and pair by how few topics have it, and each topic so that all
// that is said of it weighs 1.
func (w *wordings) weigh(topics int) {
	squares := make([]float64, topics)
	for n, in := range w.in {
		w.weight[n] *= math.Log(1 + float64(topics)/float64(len(in)))
		for _, s := range in {
			squares[s.at] += w.weight[n] * w.weight[n]
		}
	}
	for n, in := range w.in {
		for i := range in {
			in[i].weight = w.weight[n] / math.Sqrt(squares[in[i].at])
		}
	}
}

// like adds to each topic how like its wordings those of a message are, from 0 to 1: the
// cosine of the angle between them.
func (w *wordings) like(words []string, by []float64) {
	said := w.known(words)
	square := 0.0
	for _, n := range said {
		square += w.weight[n] * w.weight[n]
	}
	for _, n := range said {
		weight := w.weight[n] / math.Sqrt(square)
		for _, s := range w.in[n] {
			by[s.at] += weight * s.weight
		}
	}
}

// known are the words and pairs of a message that any topic has, each once.
func (w *wordings) known(words []string) []int32 {
	var said []int32
	last, follows := int32(0), false
	for _, word := range words {
		n, known := w.numbers[stemOf(word)]
		if known {
			said = append(said, n)
			if pair, met := w.pairs[[2]int32{last, n}]; follows && met {
				said = append(said, pair)
			}
		}
		last, follows = n, known
	}
	slices.Sort(said)
	return slices.Compact(said)
}
