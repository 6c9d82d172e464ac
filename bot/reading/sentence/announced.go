package sentence

import (
	"slices"
	"strings"
)

// Who begins often tells what is to be made and gives no figure yet, or only how long or
// how many: "gotta resize a ring for my mum", "how much wire for a bracelet chain". That is
// a job to be worked out, so what it lacks is asked for.

// planWords tell of work that somebody is about to do.
var planWords = []string{"i need", "need to", "needs to", "needs", "have to", "has to", "got to", "ive got", "gotta", "i want", "want to", "wants", "wanna", "asked to", "asked me", "id like", "would like", "should like", "trying to", "help me", "gonna", "going to", "looking to", "helping", "working out", "making", "makin", "planning", "please", "wishes", "i must", "im to", "got a"}

// knowWords make of an opening a question on how it is done, or on what came of it.
var knowWords = []string{"how do", "how can", "how to", "how would", "how is", "how are", "how hard", "how long", "why", "without", "stretch", "stretcher", "tool", "tools", "best", "better", "texture", "textured", "hammer", "hammered", "hollow", "eternity", "cost", "charge", "price", "mandrel", "machine", "course", "after", "kind of", "type of", "sort of", "solder", "soldered", "safe", "can i", "can you make", "should i", "is it", "explain", "difference", "which"}

// announced asks for what the job that a message announces lacks.
func (m *message) announced() (Reading, bool) {
	if m.context.Asked != nil || m.context.Last != nil || m.words() > wholeQuestion+4 || m.says(knowWords...) || len(m.meaning("gem:")) > 0 {
		return Reading{}, false
	}
	if _, warns := m.anew().warning(); warns {
		return Reading{}, false
	}
	for _, announces := range []func() (Reading, bool){m.resizingAnnounced, m.chainAnnounced, m.castingAnnounced} {
		if r, ok := announces(); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// sizingVerbs are the verbs of a resizing, and sizedWays the ways that a ring can be sized.
var (
	sizingVerbs = []string{"resize", "resizing", "resized", "enlarge", "enlarging", "enlarged", "reduce", "reducing", "reduced", "sizing", "sized", "upsize", "downsize", "size a ring", "size my ring", "size this ring", "size her ring", "size his ring", "size the ring"}
	sizedWays   = []string{"bigger", "smaller", "larger", "size up", "size down"}
	making      = []string{"make", "making", "made", "take", "taking", "taken", "go", "bring", "let", "letting", "be"}
)

// resizingAnnounced asks for the sizes of a ring that is to be made bigger or smaller.
func (m *message) resizingAnnounced() (Reading, bool) {
	ring := m.says("ring", "rings", "band", "wedding ring", "signet")
	if !ring || len(m.found) > 0 || !m.canAnswer("resize") || !m.says(planWords...) && !m.says("can you help", "could you help") || m.startsWith(askingWords...) && !m.startsWith("can you help", "could you help") || m.says("tungsten", "steel", "titanium", "possible", "how much metal") || m.tellsStep() {
		return Reading{}, false
	}
	if !m.says(sizingVerbs...) && !(m.says(sizedWays...) && m.says(making...)) {
		return Reading{}, false
	}
	return m.resize(), true
}

// tellsStep reports whether a message tells by how many sizes: what that takes is known.
func (m *message) tellsStep() bool {
	text := " " + m.text() + " "
	for _, step := range []string{" sizes ", " one size ", " a size ", " half size "} {
		if strings.Contains(text, step) {
			return true
		}
	}
	return false
}

// linkPieces are what is made of jump rings.
var linkPieces = []string{"chain", "chainmail", "chainmaille", "maille", "bracelet chain", "jump rings", "jump ring", "jumprings", "links", "chain bracelet", "chain necklace", "curb", "trace chain", "round rings", "necklace chain", "byzantine"}

// chainAnnounced asks for the wire and the inside of the rings of a chain.
func (m *message) chainAnnounced() (Reading, bool) {
	asksWire := m.says("how much wire", "how many feet of wire", "how many metres of wire", "how many meters of wire", "what length of wire", "working out wire", "working out the wire") || m.startsWith("wire for")
	if !m.says(linkPieces...) && !(asksWire && m.says("bracelet", "necklace", "rings")) || !asksWire && !m.plansChain() || len(m.found) > 1 || m.says("earring", "earrings", "wrap", "clasp", "bangle", "gauge", "gage", "thick", "weave") || !m.canAnswer("jumpring") {
		return Reading{}, false
	}
	if slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == gauge || q.measure == size || q.measure == mass || q.measure == ringSize
	}) {
		return Reading{}, false
	}
	fresh := m.anew()
	d := fresh.draft("jumpring")
	d.countOfRings()
	d.chainOfRings()
	d.alloy("alloy", false)
	for _, q := range fresh.found {
		if !q.used && (q.measure != length || q.value < shortestChain) {
			return Reading{}, false
		}
		if !q.used {
			d.set("chain", q)
		}
	}
	d.needRing()
	return d.reading(), d.ask != ""
}

// shortestChain is the length in mm of the shortest chain that is worn.
const shortestChain = 100

// plansChain reports whether a message tells of a chain that somebody is about to make.
func (m *message) plansChain() bool {
	return m.says(planWords...) && m.says("make", "making", "makin", "made") && !m.startsWith(askingWords...)
}

// castingAnnounced asks what the wax of a casting weighs.
func (m *message) castingAnnounced() (Reading, bool) {
	if len(m.found) > 0 || !m.says("how much") || !m.says("wax", "my wax", "wax model", "wax ring") || len(m.alloys) != 1 || m.says("shrink", "bigger", "dip", "tree") || !m.canAnswer("melt") {
		return Reading{}, false
	}
	d := m.draft("melt")
	d.alloy("alloy", true)
	if d.ask == "" {
		d.needWax()
	}
	return d.reading(), true
}
