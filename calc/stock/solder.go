package stock

// Solder is a filler metal of the bench or of the standards.
type Solder struct {
	// Key is the canonical word, "hard"; Aliases are other ways to type it.
	Key     string
	Name    string
	Aliases []string
	// Composition in mass percent.
	Composition string
	// SolidusC is where it begins to melt and FlowC where it flows (liquidus).
	SolidusC, FlowC float64
	// CadmiumPercent is more than 0 for filler that must not be used.
	CadmiumPercent float64
	Source         string
}

const (
	grades = "composition and solidus: a bench forum's list; flow: a refiner's data in T. McCreight, The Complete Metalsmith, from memory"
	awsA58 = "Machinery's Handbook, 31st ed., table 1a of silver brazing filler metals, after AWS A5.8"
)

// solders are the silver solders in the order of flow, then the standard's
// filler metals that a maker may find in a drawer. Jewellers' grades have no
// row in ISO 17672, whose scope note says that jewellery often uses others.
var solders = []Solder{
	{Key: "extra-easy", Name: "extra-easy silver solder", Aliases: []string{"extraeasy", "bag-7"}, Composition: "56 Ag, 22 Cu, 17 Zn, 5 Sn", SolidusC: 618, FlowC: 652, Source: awsA58},
	{Key: "easy", Name: "easy silver solder", Composition: "65 Ag, 20 Cu, 15 Zn", SolidusC: 671, FlowC: 718, Source: grades},
	{Key: "medium", Name: "medium silver solder", Composition: "70 Ag, 20 Cu, 10 Zn", SolidusC: 691, FlowC: 738, Source: grades},
	{Key: "hard", Name: "hard silver solder", Composition: "75 Ag, 22 Cu, 3 Zn", SolidusC: 741, FlowC: 788, Source: grades},
	{Key: "extra-hard", Name: "extra-hard (enamelling) silver solder", Aliases: []string{"it", "enamelling"}, Composition: "80 Ag, 16 Cu, 4 Zn", SolidusC: 727, FlowC: 810, Source: grades},
	{Key: "bag-1", Name: "BAg-1", Aliases: []string{"ag-345", "ag345"}, Composition: "45 Ag, 15 Cu, 16 Zn, 24 Cd", SolidusC: 607, FlowC: 618, CadmiumPercent: 24, Source: "AWS A5.8, from memory"},
	{Key: "bag-2a", Name: "BAg-2a", Composition: "30 Ag, 27 Cu, 23 Zn, 20 Cd", SolidusC: 607, FlowC: 710, CadmiumPercent: 20, Source: awsA58},
	{Key: "bag-3", Name: "BAg-3", Composition: "50 Ag, 15.5 Cu, 15.5 Zn, 16 Cd, 3 Ni", SolidusC: 632, FlowC: 688, CadmiumPercent: 16, Source: awsA58},
	{Key: "bag-5", Name: "BAg-5", Aliases: []string{"ag-245", "ag245"}, Composition: "45 Ag, 30 Cu, 25 Zn", SolidusC: 677, FlowC: 743, Source: awsA58},
	{Key: "bag-6", Name: "BAg-6", Composition: "50 Ag, 34 Cu, 16 Zn", SolidusC: 688, FlowC: 774, Source: awsA58},
	{Key: "bag-8", Name: "BAg-8 (eutectic)", Aliases: []string{"ag-272", "ag272", "eutectic"}, Composition: "72 Ag, 28 Cu", SolidusC: 779, FlowC: 779, Source: awsA58},
	{Key: "bag-20", Name: "BAg-20", Composition: "30 Ag, 38 Cu, 32 Zn", SolidusC: 677, FlowC: 766, Source: awsA58},
	{Key: "bag-24", Name: "BAg-24", Composition: "50 Ag, 20 Cu, 28 Zn, 2 Ni", SolidusC: 660, FlowC: 707, Source: awsA58},
}

// Solders returns every solder. The slice is the caller's own.
func Solders() []Solder { return append([]Solder(nil), solders...) }

// SolderByKey finds a solder by its key or one of its aliases, lower case.
func SolderByKey(key string) (Solder, bool) {
	for _, s := range solders {
		if s.Key == key {
			return s, true
		}
		for _, a := range s.Aliases {
			if a == key {
				return s, true
			}
		}
	}
	return Solder{}, false
}

// SolderSequence returns the grade for each of n joints in the order in which
// they are made: hard first, so that a later joint flows below an earlier one.
// With more joints than grades the first ones all take hard, and are kept from
// flowing again by heat shields and by not reheating them fully. Common
// practice, no source. n below 1 gives nil.
func SolderSequence(n int) []Solder {
	var list []Solder
	for i := range n {
		key := "hard"
		switch left := n - 1 - i; {
		case left == 0 && n >= 3:
			key = "easy"
		case left == 0 && n == 2, left == 1 && n >= 3:
			key = "medium"
		}
		s, _ := SolderByKey(key)
		list = append(list, s)
	}
	return list
}
