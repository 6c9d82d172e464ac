package stock

import "slices"

// Vague is a word that names several alloys, which melt, cool and weigh
// differently: whoever says it is asked which one it is.
type Vague struct {
	Word    string
	Aliases []string
	// Of are the keys of the alloys that are most often meant.
	Of []string
}

var vague = []Vague{
	{"silver", nil, []string{"sterling", "fine-silver", "silver-935"}},
	{"gold", []string{"karat-gold", "carat-gold"}, []string{"14k-yellow", "18k-yellow", "fine-gold"}},
	{"yellow-gold", nil, []string{"18k-yellow", "14k-yellow", "9k-yellow"}},
	{"white-gold", nil, []string{"18k-white", "18k-white-palladium", "14k-white"}},
	{"rose-gold", []string{"red-gold", "pink-gold"}, []string{"18k-rose", "14k-rose", "9k-rose"}},
}

// VagueWords lists the words that name several alloys.
func VagueWords() []Vague { return slices.Clone(vague) }

// VagueByWord finds one by its word or one of its aliases, lower case.
func VagueByWord(word string) (Vague, bool) {
	for _, v := range vague {
		if v.Word == word || slices.Contains(v.Aliases, word) {
			return v, true
		}
	}
	return Vague{}, false
}
