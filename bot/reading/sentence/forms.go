package sentence

// unknownOutlines are outlines of stones that there is no layout for. The nearest
// one is asked for. Adding one is a word here.
var unknownOutlines = []string{
	"shield", "shield cut", "star cut", "star shaped", "cross shaped", "coffin", "coffin shaped", "bullet cut", "bullet shaped", "pentagon", "pentagonal",
	"trapezoid", "trapeze", "crescent", "leaf shaped", "flower shaped", "briolette", "butterfly shaped", "calf head", "moon shaped", "fan shaped", "egg shaped", "bean shaped", "kidney shaped", "kidney shape", "bar shape", "bar shaped", "half round ends", "rounded ends", "round ends", "stadium", "pill shaped", "racetrack", "sausage shaped", "barrel cut", "barrel shaped", "flame shaped", "cloverleaf", "shield shaped",
}

// unknownForms are forms of a piece that change what is cut and that no request
// works out. Whether the plain piece will do is asked. Adding one is a word here.
var unknownForms = []struct {
	say []string
	// of is the request that the form is one of, with its weight as a cue.
	of     string
	weight int
}{
	{[]string{"wishbone ring", "wishbone", "spinner ring", "spinner", "double wrap", "wrap ring", "bypass ring", "crossover ring", "snake ring", "split shank", "puzzle ring", "open ring", "adjustable ring", "knife edge", "signet", "signet ring", "braided ring", "twisted ring", "flared", "eternity", "half eternity", "full eternity", "eternity ring", "eternity band", "hollow ring", "two tone ring", "mokume ring"}, "band", 3},
	{[]string{"oval jump ring", "oval jumpring", "square jump ring", "square jumpring", "twisted jump ring"}, "jumpring", 6},
	{[]string{"graduated", "graduating in size"}, "", 0},
	{[]string{"double halo", "second halo", "two rows of", "double row"}, "halo", 5},
	{[]string{"double claw", "double prong", "split claw", "split prong", "fishtail"}, "prongs", 4},
	{[]string{"double bezel", "split bezel", "half bezel", "partial bezel", "fluted"}, "bezel", 3},
	{[]string{"tapering to", "tapers to", "two stones", "three stones", "only the ends", "different heights", "one side straight", "twice the size", "twist of", "upside down", "turned over", "inverted", "wider at the bottom", "wider at bottom", "wider at the base", "other way up"}, "", 0},
	{[]string{"twisted wire", "twist wire", "braided wire", "beaded wire", "triangle wire", "triangular wire", "rectangular wire"}, "", 0},
}

// requestOfForm is the request that a form is one of, empty where any may have it.
var requestOfForm = func() map[string]string {
	of := map[string]string{}
	for _, f := range unknownForms {
		for _, say := range f.say {
			of[say] = f.of
		}
	}
	return of
}()

func formTerms() []Term {
	var all []Term
	for _, o := range unknownOutlines {
		all = append(all, Term{Say: []string{o}, Means: []string{"noline:" + o, "stone"}})
	}
	for _, f := range unknownForms {
		for _, say := range f.say {
			t := Term{Say: []string{say}, Means: []string{"form:" + say}}
			if f.of != "" {
				t.Cues = cue(f.of, f.weight)
			}
			if f.of == "band" {
				t.Means = append(t.Means, "ring")
			}
			all = append(all, t)
		}
	}
	return all
}
