package sentence

import (
	"fmt"
	"strings"
)

// stretchWords ask whether a ring can be made larger without a piece let in.
var stretchWords = []string{"stretch", "stretched", "stretching", "stretcher", "hammer it up", "without cutting", "without a cut", "instead of cutting", "rather not cut", "dont want to cut", "without adding metal", "without adding any metal"}

// keepsFromStretching are words by which a length is asked for, or another answer is needed
// than that of a plain ring.
var keepsFromStretching = []string{"dont want to stretch", "not stretch", "cant stretch", "cant be stretched", "rather than stretch", "how much", "what length", "eternity", "channel", "pave", "opal", "titanium", "tungsten", "steel", "hollow", "bangle"}

// How much a ring takes on the mandrel, mm round: half a US size where it is plain, a
// whole one where it is heavy and has no joint (two jewellers' pages).
const (
	plainStretchMM = 1.35
	heavyStretchMM = 2.6
)

// stretchedInstead tells whether a ring may be stretched from its size to the new one, with
// the piece to let in where it may not.
func (m *message) stretchedInstead(r Reading) (Reading, bool) {
	stones := m.says("stone", "stones", "diamond", "diamonds") && !m.says("without stone", "without stones", "without any stones", "no stone", "no stones")
	if r.Request != "resize" || r.Outcome != Request || stones || !m.says(stretchWords...) || m.says(keepsFromStretching...) {
		return Reading{}, false
	}
	from, ok := circumferenceOf(r.Options["from"])
	to, known := circumferenceOf(r.Options["to"])
	if !ok || !known || to <= from {
		return Reading{}, false
	}
	more := fmt.Sprintf("%s is %s larger round", sizeNamed(r.Options["to"]), mm(to-from))
	switch {
	case to-from <= plainStretchMM:
		r.Verdict = fmt.Sprintf("Yes, if it is a plain, solid band of silver or gold without stones or solder joint: %s, and about 1.3 mm (half a US size) is the usual limit. Anneal it, let it cool, and stretch it a little at a time, turned end for end. Cut a ring with a joint there and let in a piece; never heat one that was mended with soft solder.", more)
	case to-from <= heavyStretchMM:
		r.Verdict = fmt.Sprintf("Only if it is a heavy, solid band of silver or gold without joint or stones: %s, and about 2.6 mm is the most. Anneal it first, and again when it stiffens. An ordinary plain one stretches only about 1.3 mm (half a US size): cut that and let in a piece.", more)
	default:
		r.Verdict = fmt.Sprintf("No: %s. A plain ring stretches about 1.3 mm (half a US size), a heavy one without a joint 2.6 mm at most. Cut it and let in a piece; if it has stones, leave it to a jeweller, because heat cracks many of them.", more)
	}
	return r, true
}

// sizeNamed names a ring size as makers do: "UK M", "17.8 mm inside".
func sizeNamed(option string) string {
	system, shown, _ := strings.Cut(option, " ")
	if system == "diameter" {
		return shown + " mm inside"
	}
	return strings.ToUpper(system) + " " + shown
}
