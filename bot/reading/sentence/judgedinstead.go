package sentence

import (
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/intent"
	"guildhand/calc/outline"
	"guildhand/calc/prong"
)

// Whoever asks what to think of a figure, "would 30 ga be stupid for a bangle", mostly tells
// no whole piece. A verdict then serves where a question back or the nearest topic does not.

// opinionWords ask what to think of a figure, however the rest is put.
var opinionWords = []string{"yay or nay", "pass", "fail", "overkill", "excessive", "any good", "mistake", "nuts", "stupid", "silly", "daft", "mad", "crazy", "kidding myself", "get away with", "get away wit", "get away wiv", "skimpy", "flimsy", "bendy", "weak", "too many", "too few", "or nah", "i say light", "i say heavy", "what do you say", "ample", "trust", "enough", "okay", "ok", "too", "hold", "safe", "sturdy", "survive", "is it fine", "bend", "tear"}

// plainOpinion asks for a verdict and nothing else, whatever the rest is.
var plainOpinion = []string{"y - n", "y or n", "yes or no", "yay or nay", "yay nay", "pass or fail", "ok or not", "or nah", "overkill", "skimpy", "kidding myself", "too many", "too few", "i say light", "i say heavy", "what do you say", "will it tear", "will it bend", "will it hold", "will they hold"}

// How likely an explanation must be for such words to ask for a verdict, and how many figures
// a message has at most that asks for one by nothing but its form.
const (
	mayAskOpinion = 0.3
	fewFigures    = 2
	mostJudged    = 3
)

// asksVerdict reports whether a message asks what to think of its figures: by such words, or
// by a question that wants yes or no and by all its words is asked to know something.
func (m *message) asksVerdict() bool {
	if m.says("what gauge", "which gauge", "what thickness", "how thick", "why", "how do", "how to", "explain", "how many", "how long", "how much", "what should", "or do i", "next time", "size for") || m.chance("tune", "resize") >= mayAskOpinion {
		return false
	}
	if m.says(plainOpinion...) {
		return true
	}
	known, figures := m.chance(intent.Explanation), m.figureCount()
	if known >= mayAskOpinion && figures <= mostJudged && m.says(opinionWords...) {
		return true
	}
	return known >= mayJudge && figures <= fewFigures && m.wantsYesOrNo()
}

// wantsYesOrNo reports whether a question is put so that yes or no answers it.
func (m *message) wantsYesOrNo() bool {
	if m.says("what", "whats", "which", "how", "when", "where") {
		return false
	}
	return strings.Contains(m.typed, "?") || m.startsWith("is", "are", "will", "would", "can", "could", "does", "should", "reckon", "wondering", "thinking") || m.says("will it", "will they", "will these", "will this", "would it", "is it")
}

// isNearest reports whether a reading is an explanation that nothing but its words' nearness
// speaks for.
func (r Reading) isNearest() bool {
	return r.Outcome == Explanation && slices.ContainsFunc(r.Notes, func(n string) bool { return strings.HasPrefix(n, nearestKnown) })
}

// judgedInstead gives the verdict that a message asks for, where it is answered by a question
// about a piece or by the nearest topic, and before a piece that is worked out.
func (m *message) judgedInstead(r Reading) Reading {
	if !m.byItself() || m.figureCount() == 0 || m.says(wantsFigures...) {
		return r
	}
	if !m.asksVerdict() {
		return m.pairJudged(r)
	}
	piece := readersOf[r.Request] != nil
	switch {
	case r.Outcome == Unknown, r.isNearest():
	case r.Outcome == Question && (piece || r.Request == ""):
	case r.Outcome == Request && piece && r.Verdict == "" && r.Request != "melt" && r.Request != "weigh":
	default:
		return r
	}
	judged, ok := m.anew().opinion()
	switch {
	case !ok:
		return r
	case r.Outcome == Request && r.Request != "gauge" && !misread(r, judged):
		r.Verdict = judged.Text
		return r
	}
	return judged
}

// misread reports whether a piece has taken a height of the verdict for its stone's size: two
// heights are then all that the message tells.
func misread(r, judged Reading) bool {
	return judged.Topic == bezelVerdict && r.Options["dome"] != "" && !strings.Contains(r.Options["size"], "x")
}

// pairJudged gives the verdict on two figures that go together in place of a question about
// a piece whose stone is not told, and which of two numbers of prongs is the better.
func (m *message) pairJudged(r Reading) Reading {
	if r.Outcome != Question || r.Missing != "size" && r.Missing != "outline" && r.Request != "prongs" {
		return r
	}
	fresh := m.anew()
	if judged, ok := fresh.settingOfDepth(); ok && r.Options["size"] == "" && m.asks() {
		return judged
	}
	fresh.clawNumbers()
	if fresh.counted().other == nil && (r.Options["number"] == "" || !m.says("how many")) {
		return r
	}
	if judged, ok := fresh.countOfProngs(); ok {
		return judged
	}
	return r
}

// opinion is the verdict on the figures of a message: of two that go together, or of one by
// a rule of thumb.
func (m *message) opinion() (Reading, bool) {
	for _, judge := range []func(*message) (Reading, bool){(*message).bezelOfCab, (*message).settingOfDepth, (*message).countOfProngs, (*message).seatOfWall, (*message).prongOfStone} {
		if r, ok := judge(m); ok {
			return r, true
		}
	}
	if r, _, ok := m.judgedByLimit((*knowledge.Limit).Named); ok {
		return r, ok
	}
	return m.judgedBoth()
}

// judgedBoth weighs two figures of which one is to be taken, "I say 0.6, he insists on 0.8".
func (m *message) judgedBoth() (Reading, bool) {
	if !m.says("or", "vs", "versus", "says", "said", "insists", "told me", "reckons", "swears", "instead of", "not", "rather than") {
		return Reading{}, false
	}
	for i, all := 0, knowledge.Limits(); i < len(all); i++ {
		l := &all[i]
		if m.saysOneOfEach(l.Named()) == 0 || m.says(l.Not...) {
			continue
		}
		if both := m.figuresFor(l); len(both) == 2 && both[0].mm != both[1].mm {
			return worked("limit: "+l.Key, l.Source, m.weighedBy(l, both[0])+" "+m.weighedBy(l, both[1])+" "+l.Rule)
		}
	}
	return Reading{}, false
}

// Nouns to which a height belongs.
var (
	cabNouns     = wordSet("cab cabs cabochon cabochons stone stones dome domed gem opal turquoise jasper agate")
	bezelNouns   = wordSet("bezel bezels strip rim wall walls wire")
	settingNouns = wordSet("collet collets setting settings taper cone basket collar")
	gemNouns     = wordSet("stone stones gem gems pavilion diamond sapphire garnet culet tanzanite topaz")
	highWords    = wordSet("high tall thick deep height mm only about of is at a the s with")
)

// nounOf is the noun to which a figure belongs: one right behind it, else the one before it
// with no other figure between, else the next one behind.
func (m *message) nounOf(q *quantity, nouns ...map[string]bool) (which int) {
	kind := func(i int) int {
		return slices.IndexFunc(nouns, func(all map[string]bool) bool { return all[m.at(i).text] })
	}
	for i := q.next; i < len(m.tokens) && (kind(i) >= 0 || highWords[m.at(i).text]) && i < q.next+4; i++ {
		if k := kind(i); k >= 0 {
			return k
		}
	}
	for i := q.first - 1; i >= 0 && !m.inFigure(i); i-- {
		if k := kind(i); k >= 0 {
			return k
		}
	}
	for i := q.next; i < len(m.tokens) && !m.inFigure(i); i++ {
		if k := kind(i); k >= 0 {
			return k
		}
	}
	return -1
}

// twoHeights are the heights, in mm, of two things that a message names, each the one
// length that is told of it. One that is said to be wide is none, nor one of a thin metal.
func (m *message) twoHeights(one, other map[string]bool) (a, b *quantity) {
	const lowest, highest = 1.0, 30
	for _, q := range m.found {
		if q.measure != length && q.measure != bare || q.value < lowest || q.value > highest || q.thing != "" || slices.Contains([]string{"wide", "across", "long", "round", "oval"}, m.at(q.next).text) || m.at(q.first-1).text == "than" {
			continue
		}
		switch m.nounOf(q, one, other) {
		case 0:
			if a != nil {
				return nil, nil
			}
			a = q
		case 1:
			if b != nil {
				return nil, nil
			}
			b = q
		}
	}
	return a, b
}

// How high a bezel stands on its cabochon, as a share of the stone's height.
const (
	lowBezel   = 0.25
	usualBezel = 0.33
	highBezel  = 0.6
)

// bezelVerdict is the topic of a bezel's height.
const bezelVerdict = "limit: bezel of the cabochon"

// bezelOfCab says whether a bezel is high enough for the cabochon that it is to hold.
func (m *message) bezelOfCab() (Reading, bool) {
	if !m.says("bezel", "bezels", "strip", "bezel wire") || m.says("seat", "bearing", "culet", "faceted", "pavilion", "lap", "overlap") {
		return Reading{}, false
	}
	rim, cab := m.twoHeights(bezelNouns, cabNouns)
	if rim == nil || cab == nil || !m.says("high", "tall", "thick", "low", "short", "deep", "dome", "domed", "height") {
		return Reading{}, false
	}
	share := rim.value / cab.value
	steep := m.says("steep", "straight", "vertical", "square sided", "straight sided")
	said, of := strings.TrimSpace(rim.typed(m)), strings.TrimSpace(cab.typed(m))
	verdict := ""
	switch {
	case share >= 1:
		verdict = fmt.Sprintf("No, %s is too tall: it stands higher than a stone %s tall.", said, of)
	case share > highBezel && !steep:
		verdict = fmt.Sprintf("It depends: %s is tall for a cab %s tall, %.0f %% of its height, and hides much of the stone.", said, of, 100*share)
	case share < lowBezel:
		verdict = fmt.Sprintf("No, %s is too low for a cab %s tall, %.0f %% of its height: it has too little to grip.", said, of, 100*share)
	case steep && share < highBezel:
		verdict = fmt.Sprintf("It depends: %s is %.0f %% of the height of a cab %s tall, which is low where its sides stand straight: the rim must reach past the steep part.", said, 100*share, of)
	case share < usualBezel:
		verdict = fmt.Sprintf("It depends: %s is low for a cab %s tall, %.0f %% of its height: enough only where its sides slope from the base.", said, of, 100*share)
	default:
		verdict = fmt.Sprintf("Yes, %s is enough for a cab %s tall with a usual dome: it is %.0f %% of the cab's height.", said, of, 100*share)
	}
	return worked(bezelVerdict, "teachers' pages: by the curve of the side; the third: "+knowledge.CommonPractice,
		verdict+" A third to half of the stone's height is a first guess; the curve of its side decides: the rim must lie 0.5 to 1 mm past where the side turns in.")
}

// pavilionShare is how much of a faceted stone's depth lies under its girdle, as of most
// outlines, and how far a setting's base should stand below the culet, in mm.
const (
	pavilionShare                = 0.7
	leastUnderCulet, underCulet  = 0.2, 0.5
	wordsOfPavilion, deepestEver = "below the girdle", 25
)

// settingOfDepth says whether the point of a stone stays within its setting.
func (m *message) settingOfDepth() (Reading, bool) {
	if m.says("bezel", "cab", "cabochon") || !m.says("touch", "poke", "pokes", "through", "scratch", "clear", "clears", "culet", "point", "tall", "too short", "too low", "enough", "stick out", "tall enough", "deep enough") {
		return Reading{}, false
	}
	high, deep := m.twoHeights(settingNouns, gemNouns)
	if deep == nil || high == nil || !m.says("deep", "depth", "down", "pavilion") || deep.value > deepestEver {
		return Reading{}, false
	}
	pavilion, how := pavilionShare*deep.value, "of a stone so deep"
	if m.says(wordsOfPavilion, "under the girdle", "pavilion", "from the girdle") {
		pavilion, how = deep.value, "as you measured"
	}
	room := high.value - pavilion
	said := fmt.Sprintf("about %s lies under the girdle %s, and the setting is %s high", mm(pavilion), how, mm(high.value))
	verdict := ""
	switch {
	case room < 0:
		verdict = fmt.Sprintf("No, the setting is too low: the stone's point sticks out underneath and scratches the finger. %s.", sentenceCase(said))
	case room < underCulet:
		verdict = fmt.Sprintf("It depends: the point just stays inside, with %s of room. %s.", mm(room), sentenceCase(said))
	default:
		verdict = fmt.Sprintf("Yes, it clears: %s, so %s of room is left under the culet.", said, mm(room))
	}
	return worked("limit: setting of the depth", "girdle to culet + 1 mm: waxcarvers' rule; 70 % under the girdle: "+knowledge.CommonPractice,
		verdict+fmt.Sprintf(" A base 0.5 to 1 mm below the point is safe, and the girdle sinks to its bearing besides: %s to %s from girdle to base.", mm(pavilion+underCulet), mm(pavilion+2*underCulet)))
}

// counted is the number of prongs of a message, zero for none.
func (m *message) counted() quantity {
	for _, q := range m.found {
		if q.thing == "prongs" {
			return *q
		}
	}
	return quantity{}
}

// countOfProngs says whether so many prongs are enough for their stone.
func (m *message) countOfProngs() (Reading, bool) {
	m.clawNumbers()
	number := m.counted()
	if number.value < 2 || number.value > 12 || len(m.thinFigures()) > 0 && (number.other == nil || !m.asksVerdict()) {
		return Reading{}, false
	}
	across := m.stoneAcross()
	if across == 0 {
		return Reading{}, false
	}
	kind := outline.Round
	if o := m.meaning("outline:"); len(o) > 0 {
		kind = outline.Kind(o[0])
	}
	shape := outline.Shape{Kind: kind, Size: outline.Size{LengthMM: across, WidthMM: across}}
	if s := m.of(size); s != nil && len(s.sides) > 1 {
		shape.Size = outline.Size{LengthMM: max(s.sides[0], s.sides[1]), WidthMM: min(s.sides[0], s.sides[1])}
		if kind == outline.Round {
			shape.Kind = outline.Oval
		}
	}
	curve, err := outline.New(shape)
	if err != nil {
		return Reading{}, false
	}
	text := m.prongsWeighed(int(number.value), prong.Usual(curve), shape)
	if number.other != nil {
		text = fmt.Sprintf("It depends: %d prongs are usual for %s. More hold it more securely; fewer show more of the stone.%s", prong.Usual(curve), stoneInWords(shape), prongRule)
	}
	return worked("limit: number of prongs", knowledge.CommonPractice, text)
}

// softGems want more metal round their edge, or a rim.
var softGems = []string{"opal", "tanzanite", "turquoise", "pearl", "emerald", "moonstone", "fluorite", "malachite", "amber", "apatite", "lapis"}

// stoneInWords is a stone with its outline and size.
func stoneInWords(s outline.Shape) string {
	size := plain(s.Size.LengthMM)
	if s.Size.LengthMM != s.Size.WidthMM {
		size += " x " + plain(s.Size.WidthMM)
	}
	return fmt.Sprintf("the %s stone of %s mm", s.Kind, size)
}

// prongRule says how many prongs are usual.
const prongRule = " Four serve most stones up to 7 mm or so, six larger ones, long ovals and rings that get knocked: if one of six opens, five still hold. Points want a V."

// prongsWeighed tells what so many prongs are for a stone of which a number is usual.
func (m *message) prongsWeighed(n, usual int, shape outline.Shape) string {
	const smallForThree, wantsSix = 5.0, 9.0
	stone, across, rule := stoneInWords(shape), shape.Size.LengthMM, prongRule
	soft := ""
	if m.says(softGems...) {
		soft = " So soft or brittle a stone is safer with six broad, thin prongs or in a bezel."
	}
	switch {
	case n <= 3 && usual > 3 && across > smallForThree:
		return fmt.Sprintf("No, %d prongs are too few for %s: if one bends, the stone is lost.%s%s", n, stone, soft, rule)
	case n <= 3 && usual > 3:
		return fmt.Sprintf("It depends: %d prongs hold %s, but with no reserve.%s%s", n, stone, soft, rule)
	case n < usual || n < 6 && (across > wantsSix || soft != ""):
		return fmt.Sprintf("It depends: %d prongs hold %s if they are strong, and %d are safer.%s%s", n, stone, max(usual, 6), soft, rule)
	case n > usual+2 || n > usual && across < smallForThree:
		return fmt.Sprintf("It depends: %d prongs are many for %s; %d are usual.%s%s", n, stone, usual, soft, rule)
	}
	return fmt.Sprintf("Yes, %d prongs are enough for %s.%s%s", n, stone, soft, rule)
}
