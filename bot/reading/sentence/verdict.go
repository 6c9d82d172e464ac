package sentence

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/intent"
)

// walls says which thickness a piece is mostly made from, in mm: under least it
// does not serve, under usual it can with care, over most it is hard to form.
var walls = map[string]struct {
	least, usual, most float64
	thin, thick        string
}{
	"collet": {0.35, 0.6, 1.3, "the rim bends and wears, and little is left behind the bearing", "it is hard to bend to a small outline and to push over"},
	"collar": {0.5, 0.7, 1.3, "it wrinkles in the block", "the press and the anneals have much to do"},
	"prongs": {0.5, 0.75, 1.5, "prongs of it catch and bend", "the prongs are hard to push over a soft stone"},
	"bezel":  {0.2, 0.28, 0.65, "it creases and melts easily while you solder it to its plate", "it is hard to push over the stone: thin its rim first"},
	"band":   {0.8, 1.2, 3, "a ring of it bends out of round in wear", "it takes force to bend: anneal it and use a mandrel and mallet"},
	"dome":   {0.25, 0.4, 1.3, "it splits or dents in a deep hollow", "it needs many anneals and a heavy hammer"},
}

// leftStrip reports whether a length is left that may be a ring's strip: then whether that
// is long enough may be asked.
func (m *message) leftStrip(r Reading) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return m.placeIn(r, q) == "" && (q.measure == length || q.measure == bare) && q.value >= shortestStrip && q.value <= longestStrip
	})
}

// verdict says yes, no or it depends, where the message asks whether a thickness
// will do. The limits are common practice, no source.
func (m *message) verdict(r Reading) string {
	if !m.asksWhether() {
		return ""
	}
	w, ok := walls[r.Request]
	shown := r.Options["thickness"]
	if !ok || shown == "" || r.Request == "band" && (m.leftStrip(r) || m.says("bangle", "cuff", "bracelet")) {
		return ""
	}
	mm := lengthOf(shown)
	said := strings.TrimSuffix(shown, "ga")
	switch {
	case said != shown:
		said = fmt.Sprintf("%s ga (%.2f mm)", said, mm)
	case strings.HasSuffix(shown, " in"):
		said = fmt.Sprintf("%s (%.2f mm)", said, mm)
	}
	name := map[string]string{"collet": "a tapered setting", "collar": "a collar for a block", "prongs": "prongs", "bezel": "a bezel", "band": "a ring", "dome": "a dome"}[r.Request]
	switch {
	case mm < w.least:
		return fmt.Sprintf("No: %s is too thin for %s; %s. Use %.2f mm or more (common practice).", said, name, w.thin, w.usual)
	case mm < w.usual:
		return fmt.Sprintf("It depends: %s is thin for %s; %s. %.2f mm or more is usual (common practice).", said, name, w.thin, w.usual)
	case mm > w.most:
		return fmt.Sprintf("It depends: %s is thick for %s; %s (common practice).", said, name, w.thick)
	}
	return fmt.Sprintf("Yes: %s is usual for %s (common practice).", said, name)
}

func (m *message) asksWhether() bool {
	t := " " + m.text() + " "
	if slices.ContainsFunc(m.alloys, func(a *metal) bool { return m.between(a.first, a.next) == "fine" }) {
		t = strings.ReplaceAll(t, " fine for ", " ") // "28 fine for the wall"
	}
	for _, asks := range []string{"where", "how", "what", "which", "when"} {
		t = strings.ReplaceAll(t, " "+asks+" would you ", " ")
	}
	for _, p := range []string{" can i use ", " can i make ", " could i use ", " can you use ", " is it ok to use ", " thick enough ", " too thin ", " too thick ", " strong enough ", " heavy enough ", " will it work ", " would it work ", " ok to use ", " ok for ", " okay for ", " good for ", " fine for ", " enough for ", " should i use ", " work for ", " do for ", " alright for ", " am i mad ", " mad to ", " crazy to ", " ok or not ", " yes or no ", " too much ", " suitable ", " will do ", " ok if ", " good plan ", " good idea ", " bad idea ", " sensible ", " silly ", " says fine ", " is that fine ", " too chunky ", " will it bend ", " will it dent ", " or too ", " is that too ", " is it too ", " is this too ", " wont bend ", " strong enough ", " daft ", " flimsy ", " does that matter ", " by hand ", " start again ", " is this ok ", " is it ok ", " is that ok ", " will that do ", " sturdy ", " hold up ", " safe enough ", " seems like nothing ", " seems thin ", " seems thick ", " seems a lot ", " would you ", " asking for trouble ", " would you trust ", " i say no "} {
		if strings.Contains(t, p) {
			return true
		}
	}
	if m.startsWith("can you do", "can you give", "can you make", "can you work", "can you tell", "could you", "can i have", "can you lay", "can you calculate", "can u") {
		return false
	}
	first := m.at(0).text
	return (first == "is" || first == "will" || first == "can" || first == "would" || first == "are" || first == "does") && m.says("ok", "okay", "enough", "work", "use", "fine", "do", "suitable", "too")
}

// judged says whether a figure will do by a rule of thumb, where the message asks
// that and has no whole piece to work out.
func (m *message) judged() (Reading, bool) {
	if m.ofLastPiece() && !m.wholeByItself() || !m.weighsUp() || m.hasPiece() && (m.context.Last != nil && !m.wholeByItself() || m.chance(intent.Explanation) < mayJudge || m.figureCount() > 2) || m.with("inner") != nil || m.says(wantsFigures...) || m.says("hot enough") {
		return Reading{}, false
	}
	r, verdict, ok := m.judgedByLimit((*knowledge.Limit).Asked)
	if !ok {
		return Reading{}, false
	}
	if piece, whole := m.likeliestPiece(plainly); whole && m.beginsTalk() && piece.Options["thickness"] != "" && piece.Options["size"] != "" {
		piece.Verdict = verdict // both are asked for
		return piece, true
	}
	m.release()
	return r, true
}

// judgedByLimit says whether a figure will do, and the verdict alone, by the rule of which
// the message has one word of each group.
func (m *message) judgedByLimit(groups func(*knowledge.Limit) [][]string) (r Reading, verdict string, ok bool) {
	var best *knowledge.Limit
	score := 0
	for i, all := 0, knowledge.Limits(); i < len(all); i++ {
		if n := m.saysOneOfEach(groups(&all[i])); n > score && !m.says(all[i].Not...) && m.figureFor(&all[i]) != nil {
			best, score = &all[i], n
		}
	}
	if best == nil {
		return Reading{}, "", false
	}
	verdict = m.weighedBy(best, *m.figureFor(best))
	return Reading{Outcome: Explanation, Topic: "limit: " + best.Key, Text: verdict + " " + best.Rule, Source: best.Source}, verdict, true
}

// weighedBy is what a rule says of a figure.
func (m *message) weighedBy(l *knowledge.Limit, f thinFigure) (verdict string) {
	said := strings.TrimSpace(f.q.typed(m))
	switch {
	case f.q.measure == gauge, strings.HasSuffix(f.q.shown, " in"):
		said = fmt.Sprintf("%s (%.2f mm)", said, f.mm)
	case f.q.measure == bare:
		said += " mm"
	}
	switch {
	case f.mm < l.Least:
		verdict = fmt.Sprintf("No, %s is too %s: %s.", said, cmp.Or(l.Less, "thin"), l.Little)
	case f.mm < l.Usual:
		verdict = fmt.Sprintf("It depends: %s is %s; %s.", said, cmp.Or(l.Less, "thin"), l.Little)
	case f.mm > l.Most:
		verdict = fmt.Sprintf("It depends: %s is %s; %s.", said, cmp.Or(l.More, "thick"), l.Much)
	default:
		verdict = fmt.Sprintf("Yes, %s: %s.", said, l.Enough)
	}
	if l.Soft != "" && slices.ContainsFunc(m.alloys, func(a *metal) bool { return a.likeliestKey() == "fine-silver" }) {
		verdict += " " + l.Soft
	}
	return verdict
}

// ofLastPiece reports whether the piece of the last answer is named again.
func (m *message) ofLastPiece() bool {
	return m.context.Last != nil && (m.says(pieceWords[m.context.Last.Request]...) || m.says("this", "that", "it"))
}

// figureFor is the figure of a message that a rule is about: the one gauge or length
// that is not too large for it and not a stone's, nil where there are two.
func (m *message) figureFor(l *knowledge.Limit) *thinFigure {
	if may := m.figuresFor(l); len(may) == 1 {
		return &may[0]
	}
	return nil
}

// figuresFor lists the figures that a rule may be about. Of a section it is the smaller side.
func (m *message) figuresFor(l *knowledge.Limit) (may []thinFigure) {
	stone := m.besideStone()
	var saidWide []thinFigure
	for _, q := range m.found {
		thick := thicknessOf(q)
		switch {
		case q == stone, m.widthOfBand(l, q), m.tellsHowFarOff(q):
			continue
		case q.measure == size && m.isSection(q):
			thick = slices.Min(q.sides)
		case q.measure != gauge && q.measure != length && q.measure != bare, q.measure == bare && q.value == math.Trunc(q.value) && q.value < 9 && m.says("prongs", "claws"):
			continue
		}
		switch {
		case thick <= 0 || thick > l.Largest:
		case l.Less == "" && m.saidWide(q):
			saidWide = append(saidWide, thinFigure{thick, q})
		default:
			may = append(may, thinFigure{thick, q})
		}
	}
	if len(may) == 0 {
		return saidWide
	}
	return may
}

// isSection reports whether a size of two sides is that of a strip or a wire.
func (m *message) isSection(q *quantity) bool {
	const widest = 8
	return len(q.sides) == 2 && slices.Max(q.sides) <= widest && slices.Min(q.sides) <= thickest && m.says("strip", "wire", "stock", "bar", "section", "flat")
}

// saidWide reports whether a figure is said to be a width or a height, which a rule on a
// thickness is hardly about: "1 mm thick 2 mm wide".
func (m *message) saidWide(q *quantity) bool {
	return slices.Contains([]string{"wide", "tall", "high", "long", "deep", "across"}, m.at(q.next).text)
}

// tellsHowFarOff reports whether a figure is by how much something came out wrong: "2mm too
// small".
func (m *message) tellsHowFarOff(q *quantity) bool {
	off := m.between(q.next, q.next+2)
	return slices.Contains([]string{"too small", "too big", "too large", "too tight", "too loose", "too short", "too long"}, off)
}

// narrowestBand is the least figure right before "band" that is its width and no thickness.
const narrowestBand = 2.5

// widthOfBand reports whether a rule on how thick a ring is meets a figure of how wide it is:
// "is a 3 mm band ok".
func (m *message) widthOfBand(l *knowledge.Limit, q *quantity) bool {
	return slices.Contains(l.Asks[0], "ring") && q.measure != gauge && thicknessOf(q) >= narrowestBand && slices.Contains([]string{"band", "bands", "ring", "rings"}, m.at(q.next).text)
}

// endsInEnough matches "backplate 0.5 under a 40mm stone. enough" and the like.
func (m *message) endsInEnough() bool {
	for i := len(m.tokens) - 1; i >= 0 && i >= len(m.tokens)-3; i-- {
		switch m.tokens[i].text {
		case "fine":
			return !slices.ContainsFunc(m.alloys, func(a *metal) bool { return a.first <= i && i < a.next }) // "fine silver"
		case "enough", "ok", "okay", "sensible", "silly":
			return true
		case "much", "thin", "thick":
			return m.at(i-1).text == "too"
		}
	}
	return false
}

// roundByString tells the strip for a stone that was measured round with a string or a
// paper strip, where it is asked whether the thickness comes on top.
func (m *message) roundByString() (Reading, bool) {
	if m.context.Last != nil || m.context.Asked != nil || !m.says("string", "thread", "paper strip", "strip of paper", "paper", "cotton", "tape", "floss") || !m.says("round", "around", "wrapped") || m.says("finger", "knuckle", "wrist", "hand", "ring", "arm") {
		return Reading{}, false
	}
	if !m.says("or more", "add", "longer", "just cut", "allow", "extra", "on top", "plus") || !m.says("strip", "bezel", "bezels") {
		return Reading{}, false
	}
	m.bindRoles()
	q := m.first(15, 400, length, bare)
	if q == nil {
		return Reading{}, false
	}
	for _, again := range m.found { // "is the strip just 61"
		again.used = again.used || again.value == q.value
	}
	r := m.draft("bezel").aroundOnly(q)
	if r.Outcome == Explanation {
		r.Text = "More than that. " + r.Text
	}
	return r, r.Outcome == Explanation
}

// perimeterStrip is the strip for a bezel round a stone of which only the way
// round is known: any convex outline needs pi times the thickness more.
func perimeterStrip(around, wall float64) Reading {
	if wall == 0 {
		wall = gaugeMM(28)
	}
	return Reading{Outcome: Explanation, Topic: "strip from the way round", Source: "parallel curve of a convex outline at half the thickness",
		Text: fmt.Sprintf("Cut %.1f mm of strip %.2f mm thick: %s mm round the stone plus pi x the thickness (%.1f mm), because the strip's middle lies outside the stone. Add about 0.3 mm if you file the joint, and another 0.3 mm if the stone should drop in easily. For the outline itself I need its length and width by calipers too: trace strip %s size, and the two.", around+3.14159265*wall, wall, plain(around), 3.14159265*wall, plain(around))}
}
