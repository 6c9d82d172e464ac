package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// job finds the request that a message is about, and reads it. The tests stand
// in order: what names a job beyond doubt comes before what only hints at it.
func (m *message) job() (Reading, bool) {
	m.bindRoles()
	found, ok := m.namedJob()
	if r, better := m.likelyJob(found); better {
		return r, true
	}
	return found, ok
}

// namedJob is the first job that the message names.
func (m *message) namedJob() (Reading, bool) {
	failed := m.tellsFailure()
	for _, j := range jobs {
		if failed && makesPiece[j.name] || !j.when(m) {
			continue
		}
		m.release()
		r, ok := j.read(m)
		if !ok {
			m.release()
			continue
		}
		r = m.withVerdict(r)
		if r.Outcome == Question && !m.wantsPiece() {
			return m.inWords()
		}
		return r, true
	}
	return Reading{}, false
}

// makesPiece are the jobs that are not meant where the message only tells what went
// wrong with a piece.
var makesPiece = map[string]bool{"collet": true, "collar": true, "bezel": true, "prongs": true, "dome": true, "band": true, "ring": true, "stone": true, "stonealone": true, "thinstone": true, "thinstrip": true}

// tellsFailure reports whether the message tells what went wrong and asks for no
// piece.
func (m *message) tellsFailure() bool {
	if m.says("=cut", "=cuts", "blank", "length", "how long", "template", "pattern", "what size", "how wide", "how high", "how tall") {
		return false
	}
	return m.says("filed it too deep", "filed too deep", "too deep now", "filed too much", "sawn too far", "cut too deep", "keeps snapping", "keeps breaking", "keeps tearing", "keeps cracking", "keeps splitting", "all bent", "bent when", "bent over when", "they bent", "snapped off", "broke off", "collapsed", "went wrinkly", "be rescued", "is it scrap", "can it be saved", "can i save it", "fell apart", "split when", "cracked when", "tore when", "melted when", "tipped to one side", "any way back", "is tipped", "its tipped", "gone wonky", "set crooked", "sits crooked", "sits wonky", "leans to one side", "came loose", "fell out", "popped out")
}

// wantsPiece reports whether the message asks for something to be worked out, so
// that what is missing may be asked for. "Why does the blank come out curved?"
// does not.
func (m *message) wantsPiece() bool {
	if len(m.found) > 0 || m.startsWith("heat", "cautions") {
		return true
	}
	if len(m.tokens) <= 3 && strongest(m.cues) >= 3 {
		return true
	}
	if m.startsWith("why", "whys", "what does", "what is", "whats the difference", "whats the point", "what is the point") || m.says("vs", "versus", "same thing") {
		return false
	}
	if len(m.alloys) > 0 {
		return true
	}
	if m.startsWith("why", "does", "do", "is", "are", "whats the point", "which", "when", "should") && !m.says("cut", "long", "blank", "template", "size") {
		return false
	}
	return m.says("fit", "fits", "tube", "class", "cast", "please", "cut", "long", "length", "blank", "template", "pattern", "need", "make", "making", "lay", "size", "height", "strip", "much", "calculate", "work out", "want", "for", "collet", "bezel", "ring", "prongs", "heat", "anneal", "quench", "solder", "temperature", "melting", "weigh") && !m.says("stuck", "cracked", "wont", "keeps", "went", "ripples", "chewed", "snapped", "warped", "crooked", "shaped")
}

// inWords answers a question without figures from what is known in words, or
// not at all.
func (m *message) inWords() (Reading, bool) {
	if f := m.nearestFact(); f != nil {
		return explain(f), true
	}
	return Reading{}, false
}

// release forgets which quantities and metals an attempt has used.
func (m *message) release() {
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool {
		if q.late {
			for k := q.first; k < q.next; k++ {
				m.taken[k] = false
			}
		}
		return q.late
	})
	for _, q := range m.found {
		q.used, q.option = false, ""
	}
	for _, a := range m.alloys {
		a.used = false
	}
}

// jobs in the order in which they are tried.
var jobs = []struct {
	name string
	when func(*message) bool
	read func(*message) (Reading, bool)
}{
	{"kit", (*message).aboutClass, (*message).kit},
	{"bench", (*message).aboutBench, (*message).bench},
	{"daybook", func(m *message) bool { return m.cues["daybook"] >= 3 && !m.wholePiece() && !m.pieceOfAnotherDay() }, (*message).daybook},
	{"weighfirst", func(m *message) bool {
		return m.has("weight") && m.says("bezel wire", "bezel strip") && m.stoneSides() == nil && m.longestOver(150) != nil && m.with("height", "width") != nil ||
			m.cues["dome"] < 3 && m.has("weight") && m.has("wire", "sheet", "tube", "disc") && len(m.found) >= 2 && m.of(ringSize) == nil && m.cues["collet"]+m.cues["bezel"] < 3
	}, (*message).weigh},
	{"jumpring", func(m *message) bool { return m.cues["jumpring"] >= 5 }, (*message).jumpring},
	{"saddle", func(m *message) bool { return m.cues["saddle"] >= 5 }, (*message).saddle},
	{"tubeset", func(m *message) bool { return m.cues["tubeset"] >= 5 || m.aboutStoneInTube() }, (*message).tubeset},
	{"halo", func(m *message) bool { return m.cues["halo"] >= 5 || m.aboutStonesRound() }, (*message).halo},
	{"trialring", (*message).aboutTrialRing, (*message).trialRing},
	{"resize", func(m *message) bool { return m.cues["resize"] >= 3 || m.aboutTwoSizes() || m.aboutSteps() }, (*message).ringResize},
	{"cuffblank", func(m *message) bool { return m.cues["bangle"] >= 4 && m.threeSides() }, (*message).weigh},
	{"alloying", (*message).aboutAlloying, (*message).alloying},
	{"button", (*message).aboutButton, (*message).freshMetal},
	{"finecontent", func(m *message) bool { return m.of(mass) != nil && len(m.alloys) > 0 }, (*message).fineContent},
	{"madefrom", (*message).aboutMadeFrom, (*message).madeFrom},
	{"cutfrom", (*message).aboutRingsFromStrip, (*message).ringsFromStrip},
	{"hoop", func(m *message) bool { return m.cues["hoop"] >= 4 }, (*message).hoop},
	{"bangle", func(m *message) bool { return m.cues["bangle"] >= 4 || m.aboutRoundTheInside() }, (*message).bangle},
	{"around", (*message).aboutWayRound, func(m *message) (Reading, bool) { return m.bezel(), true }},
	{"freeform", (*message).aboutFreeform, (*message).measureFreeform},
	{"ring", (*message).aboutRingFirst, func(m *message) (Reading, bool) { return m.band(), true }},
	{"later", (*message).aboutLater, (*message).later},
	{"strip", (*message).aboutStrip, (*message).stripFor},
	{"twosizes", (*message).aboutTwoSizes, (*message).later},
	{"tune", func(m *message) bool { return m.cues["tune"] >= 2 }, (*message).tune},
	{"masses", (*message).aboutMasses, (*message).masses},
	{"weigh", (*message).aboutWeight, (*message).weighing},
	{"melt", (*message).aboutCasting, (*message).melt},
	{"match", (*message).aboutStones, (*message).match},
	{"dome", func(m *message) bool { return m.cues["dome"] >= 3 && !m.hasCab() && !m.has("rubover") }, func(m *message) (Reading, bool) { return m.dome(), true }},
	{"prongs", func(m *message) bool { return m.cues["prongs"] >= 4 }, func(m *message) (Reading, bool) { return m.collet("prongs"), true }},
	{"collar", (*message).aboutBlock, func(m *message) (Reading, bool) { return m.collet("collar"), true }},
	{"safety", func(m *message) bool { return m.has("safety") || m.cues["cautions"] >= 3 }, (*message).cautions},
	{"bezel", (*message).aboutBezel, func(m *message) (Reading, bool) { return m.bezel(), true }},
	{"collet", func(m *message) bool { return m.cues["collet"] >= 3 }, func(m *message) (Reading, bool) { return m.collet("collet"), true }},
	{"heat", (*message).aboutHeat, (*message).heat},
	{"band", (*message).aboutRing, func(m *message) (Reading, bool) { return m.band(), true }},
	{"gauge", (*message).aboutGauge, (*message).gaugeOf},
	{"pendant", (*message).aboutPendant, (*message).pendant},
	{"perimeter", (*message).aboutPerimeter, (*message).perimeter},
	{"stock", (*message).aboutStock, (*message).weigh},
	{"stonealone", (*message).aboutStoneAlone, (*message).whatIsMade},
	{"thinstrip", func(m *message) bool { return m.aboutStoneInThin() && m.says("length", "strip", "how long") }, func(m *message) (Reading, bool) { return m.bezel(), true }},
	{"thinstone", (*message).aboutStoneInThin, (*message).whatIsMade},
	{"stone", (*message).aboutStone, func(m *message) (Reading, bool) { return m.collet("collet"), true }},
	{"disc", func(m *message) bool { return m.has("disc") && m.says("dome", "domed", "cup", "dish", "bowl") }, func(m *message) (Reading, bool) { return m.dome(), true }},
	{"cautions", func(m *message) bool { return m.cues["cautions"] >= 1 }, (*message).cautions},
	{"anygauge", func(m *message) bool { return len(m.found) == 1 && m.found[0].measure == gauge && len(m.alloys) == 0 }, (*message).gaugeOf},
}

func (m *message) hasCab() bool { return m.has("cab") || m.cues["bezel"] >= 3 }

func (m *message) aboutClass() bool {
	if m.counts("makers") != nil {
		return m.has("class", "each", "cutlist") || m.cues["kit"] >= 1 || m.cues["collet"]+m.cues["bezel"]+m.cues["band"]+m.cues["dome"] >= 3
	}
	return m.cues["kit"] >= 3 && m.has("class") && len(m.found) > 0 || m.cues["kit"] >= 6
}

func (m *message) aboutBench() bool {
	if m.has("remember") && m.cues["bench"] >= 4 {
		return true
	}
	if m.has("units:inch", "units:mm", "paper:letter", "paper:a4") && len(m.found) == 0 && len(m.alloys) == 0 {
		return m.cues["collet"]+m.cues["bezel"]+m.cues["band"]+m.cues["gauge"] <= 2
	}
	return false
}

// threeSides reports whether a size of three sides is in the message.
func (m *message) threeSides() bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == size && len(q.sides) == 3 })
}

// aboutWayRound: a stone without an outline, of which the way round is known.
func (m *message) aboutWayRound() bool {
	if m.stoneSides() != nil || m.of(length, bare) == nil || !m.has("freeform", "stone", "bezel") || m.says("finger", "wrist") {
		return false
	}
	for _, o := range m.meaning("outline:") {
		if o != "round" {
			return false
		}
	}
	return m.says("string", "thread", "wrapped", "cotton") || m.has("freeform") && m.says("paper", "tape", "around", "all round", "perimeter", "circumference")
}

// aboutRingFirst: a ring by its size, with no stone in sight; a strip or a taper
// is then the ring's.
func (m *message) aboutRingFirst() bool {
	if m.cues["band"] < 3 && !(m.of(ringSize) != nil && m.cues["band"] >= 1) || m.has("stone", "cab", "setting", "block", "weight", "wax", "convert", "price") || m.cues["collet"] > 3 || m.cues["bezel"] >= 3 || m.cues["halo"]+m.cues["saddle"]+m.cues["prongs"] > 0 {
		return false
	}
	for _, o := range m.meaning("outline:") {
		if o != "round" && o != "square" {
			return false
		}
	}
	if q := m.of(length, bare); q != nil && q.value >= 41 && q.value <= 76 && m.says("finger") {
		return true
	}
	inside := m.with("inner")
	return m.of(ringSize) != nil || inside != nil && inside.value >= 11 && inside.value <= 26
}

// aboutWeight: the mass of stock, of a setting's blank or of a ring.
func (m *message) aboutWeight() bool {
	if m.has("wire") && m.of(mass) != nil && m.says("long", "length", "how many") {
		return true
	}
	if m.of(mass) != nil && len(m.alloys) > 0 && m.says("how much", "how big", "how far", "will that make", "gives me") && (m.has("wire", "sheet") || m.of(gauge) != nil) {
		return true
	}
	return m.has("weight") && !m.has("wax", "resin") && !m.aboutCasting() || m.has("price") && m.has("sheet", "wire", "tube", "disc")
}

// weighing reads a weight: of a setting, of a ring, or of a piece of stock.
func (m *message) weighing() (Reading, bool) {
	switch {
	case m.cues["prongs"] >= plainlyNamed:
		return m.collet("prongs"), true
	case m.cues["bezel"] >= 2 && m.cues["bezel"] >= m.cues["collet"]:
		return m.bezel(), true
	case m.cues["collet"] >= 3:
		r := m.collet("collet")
		return r, true
	case m.of(ringSize) != nil || m.cues["band"] >= 3 && !m.has("wire"):
		return m.band(), true
	case m.cues["dome"] >= 3:
		return m.dome(), true
	}
	return m.weigh()
}

func (m *message) aboutCasting() bool {
	if m.has("alloying") {
		return false
	}
	if m.has("dip") && m.has("wax") {
		return true
	}
	if m.has("temperature") && !m.has("wax") {
		return false
	}
	if m.cues["melt"] >= 3 || m.cues["melt"] >= 2 && m.says("how much metal", "how much silver", "how much gold") {
		return true
	}
	if len(m.alloys) >= 2 && m.says("weighs", "weigh", "weighed") && m.of(bare) != nil && m.says("model", "ring", "same", "what in", "master", "pattern", "casting", "piece", "original", "what will", "what would") {
		return true
	}
	if m.cues["melt"] >= 1 && m.of(mass) != nil {
		return true
	}
	// "5 grams in silver, what in 14k?"
	return m.of(mass) != nil && len(m.alloys) >= 2
}

// aboutStones: which stones does a piece of metal serve?
func (m *message) aboutStones() bool {
	metal := m.has("tube", "offcut", "hole", "block") || m.says("strip", "a piece", "piece of", "bit of", "sheet")
	switch {
	case (m.has("whichstone") || m.asksWhichStone()) && metal && m.cues["bezel"] < 3:
		return true
	case m.has("offcut") && m.says("bezel wire", "bezel strip", "strip") && m.says("what size", "which size", "what stone", "which stone"):
		return m.with("length") != nil
	case m.has("offcut") && m.has("stone", "whichstone"):
		return true
	case m.has("tube") && m.has("stone") && m.stoneSides() == nil && m.cues["collet"] < 3:
		return m.with("outer", "inner", "wall") != nil
	}
	return m.says("strip") && m.says("work", "enough") && m.with("length") != nil && !m.has("cab", "bezel") && m.stoneSides() == nil
}

// asksWhichStone finds "what collets could I get out of that", "the biggest round
// I can set", "which calibrated stones go in".
func (m *message) asksWhichStone() bool {
	if m.says("do i cut", "do i saw") {
		return false // "what oval do I cut" is the metal's
	}
	for i, t := range m.tokens {
		if t.text != "what" && t.text != "which" && t.text != "biggest" && t.text != "largest" && t.text != "whats" {
			continue
		}
		for k := i + 1; k <= i+4; k++ {
			switch m.at(k).stem {
			case "stone", "collet", "oval", "pear", "round", "cab", "bezel", "marquis", "cushion", "gem":
				return m.has("offcut") || m.says("fit", "fits", "set", "get", "serve", "do", "go", "goes", "suit", "take", "use", "out of")
			}
		}
	}
	return false
}

// aboutStrip: will this strip do for that stone?
func (m *message) aboutStrip() bool {
	return m.has("strip") && m.asksWhether() && m.with("length", "strip") != nil && m.stoneSides() != nil && m.cues["bezel"] < 2
}

// stripFor works out the strip that a stone needs beside the one there is.
func (m *message) stripFor() (Reading, bool) {
	q := m.with("length", "strip")
	r := m.collet("collar")
	if !q.used && r.Outcome == Question {
		m.release()
		q.used = true
		d := m.draft("collar")
		d.places = settingPlaces
		d.stone("depth")
		d.thickness(1.9)
		d.alloy("alloy", false)
		d.needStone(false)
		d.note("your strip is %s long: it serves if the strip to cut is no longer", q.typed(m))
		r = d.reading()
	}
	return r, true
}

// aboutBlock: a collar that a block tapers, its holes, its press.
func (m *message) aboutBlock() bool {
	if m.has("dip", "wax") {
		return false
	}
	if m.has("pattern") || m.says("fan", "rainbow", "curved piece") {
		return false
	}
	if m.cues["collet"] >= 3 && m.blockIsAngle() || !m.namesPiece() && m.says("wrong", "on purpose", "a pair", "go together", "belong together", "mistake", "mismatch", "is that normal") {
		return false
	}
	if m.cues["collar"] >= 3 {
		return true
	}
	// Which tube for this stone? The collar's answer goes through the tubes.
	if m.has("tube") && !m.has("cab") && len(m.meaning("outline:")) > 0 && !m.has("whichstone") {
		return !m.smallRound()
	}
	return m.cues["collar"] >= 2 && (m.cues["collet"] >= 3 || m.stoneSides() != nil)
}

// widestInTube is the widest round stone, in mm, that is surely meant to be set in the tube
// itself where no block is named; common practice, no source.
const widestInTube = 5

// smallRound reports whether the one stone of a message is round and small enough that a tube
// holds it.
func (m *message) smallRound() bool {
	if o := m.meaning("outline:"); len(o) != 1 || o[0] != "round" {
		return false
	}
	return len(m.found) == 1 && (m.found[0].measure == bare || m.found[0].measure == length) && m.found[0].value <= widestInTube
}

// tubeForRound reads which tube a small round stone is set in, where nothing tells that a
// block shall taper it.
func (m *message) tubeForRound(r Reading) (Reading, bool) {
	asks := m.has("tube") && m.smallRound() && m.says("=what", "=which", "=wot", "size", "=od", "need")
	if !asks || r.Outcome == Request || r.Outcome == Explanation || m.has("cab") || m.cues["collar"] >= 3 || m.cues["collet"] >= 3 || m.says("block", "taper", "tapered", "cone", "collar", "punch", "press", "strip", "long", "length", "how many", "hole", "bore", "=id", "inside", "inner", "which stone", "what stone", "which round", "what round") {
		return Reading{}, false
	}
	d := m.draft("tubeset")
	d.say("outline", "round")
	d.set("size", m.found[0])
	d.alloy("alloy", false)
	return d.reading(), true
}

// blockIsAngle reports whether a block stands only for the angle of its walls, "a
// 17 degree block", and nothing else of forming is named.
func (m *message) blockIsAngle() bool {
	if m.says("collar", "press", "punch", "strip", "hole", "tube", "starting ring", "start ring", "straight ring", "ring to start", "in the block", "in my block", "through the block", "into the block") {
		return false
	}
	for _, s := range m.senses {
		if !contains(s.Means, "block") {
			continue
		}
		for _, q := range m.found {
			if q.measure != angle && (q.measure != bare || q.value < 8 || q.value > 60) {
				continue
			}
			after := q.first - s.next
			if q.next == s.first || after >= 0 && after <= 2 && m.saysBetween(s.next, q.first, "is", "s", "of", "says", "at", ",", "marked", "angle") {
				return true
			}
		}
	}
	return false
}

// namesPiece reports whether a message names a stone or a tube.
func (m *message) namesPiece() bool {
	return m.stoneSides() != nil || len(m.meaning("outline:")) > 0 || m.has("stone", "cab", "tube", "freeform") || m.of(carat) != nil
}

// pieceOfAnotherDay reports whether a piece is described by two figures or more, and a
// day only tells of the last one: "5.5 mm rounds, 0.78, thanks for yesterday".
func (m *message) pieceOfAnotherDay() bool {
	return m.figureCount() >= 2 && m.namesPiece() && !m.says("show", "find", "look up", "log", "history", "what did you", "what was", "which one", "search", "daybook")
}

// wholePiece reports whether a piece is described, so that words of an earlier day
// are an aside.
func (m *message) wholePiece() bool {
	figures := 0
	for _, q := range m.found {
		if q.measure == size || q.measure == length || q.measure == gauge || q.measure == bare || q.measure == angle {
			figures++
		}
	}
	return figures >= 3 && m.namesPiece()
}

func (m *message) aboutBezel() bool {
	if m.has("strip") && m.stoneSides() != nil && m.of(ringSize) == nil && m.cues["collet"]+m.cues["collar"] == 0 && !m.says("have", "got", "fit") {
		return true
	}
	if m.stoneSides() != nil && m.sectionOfStrip() && m.cues["collet"] == 0 {
		return true
	}
	if m.says("wrapped", "paper") && (m.has("strip") || m.has("stone")) && m.of(length, bare) != nil {
		return true
	}
	if m.cues["bezel"] >= 2 {
		return m.cues["collet"] < 3 || m.cues["bezel"] > m.cues["collet"]
	}
	return m.has("gallerywire") || m.has("cabgem") && m.cues["collet"] < 3 && (m.stoneSides() != nil || m.besideStone() != nil) || m.with("perimeter") != nil && m.has("stone")
}

// sectionOfStrip matches a strip or wire as thin as a bezel's: "wire is 3.2 x 0.33".
func (m *message) sectionOfStrip() bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == size && len(q.sides) == 2 && m.ofMetal(q) && min(q.sides[0], q.sides[1]) <= 0.7 && max(q.sides[0], q.sides[1]) <= 12
	})
}

func (m *message) aboutHeat() bool {
	if (m.stoneSides() != nil || m.besideStone() != nil) && m.says("how big", "how long", "what size", "blank") && !m.has("temperature", "anneal", "quench") {
		return false // the soldering is only told
	}
	if m.stoneSides() != nil && m.of(gauge) != nil && !m.has("temperature", "anneal", "quench") && m.cues["collet"] >= 1 {
		return false
	}
	if m.cues["heat"] >= 3 || m.says("melts", "melt") && len(m.alloys) > 0 && m.of(mass) == nil || m.of(temper) != nil && len(m.alloys) > 0 {
		return true
	}
	return m.cues["heat"] >= 2 && (len(m.alloys) > 0 || len(m.meaning("solder:")) > 0 || len(m.meaning("gem:")) > 0) || m.cues["heat"] >= 1 && (m.has("flow", "torch") && (len(m.alloys) > 0 || len(m.meaning("gem:")) > 0))
}

func (m *message) aboutRing() bool {
	if m.of(ringSize) != nil {
		return true
	}
	if m.has("setting") && m.stoneSides() != nil && len(m.meaning("outline:")) > 0 {
		return false
	}
	if m.besideStone() != nil && m.has("stone") && m.with("height", "depth") != nil && !m.says("finger") {
		return false // "a tall one for an 8 mm round cz, for a statement ring"
	}
	if m.with("perimeter") != nil && m.says("size") && !m.has("stone") {
		return true
	}
	if q := m.with("perimeter"); q != nil && q.value >= 41 && q.value <= 76 && m.says("inside", "inner") && len(m.found) > 1 && !m.has("stone") {
		return true
	}
	if q := m.of(length); q != nil && q.value >= 12 && q.value <= 25 && m.says("size") && m.says("us", "uk", "eu", "ring") && !m.has("stone") {
		return true
	}
	if m.cues["band"] >= 3 && len(m.found) == 0 && m.says("blank", "length", "cut", "make", "need") {
		return true
	}
	return m.cues["band"] >= 3 && (len(m.found) > 0 || m.cues["band"] >= 6) || m.has("mandrel") && len(m.found) > 0 || m.says("finger") && len(m.found) > 0
}

func (m *message) aboutGauge() bool {
	if m.has("stone") || m.cues["collet"]+m.cues["bezel"]+m.cues["band"] > 0 {
		return false
	}
	if len(m.found) == 1 && m.found[0].measure == gauge && m.found[0].other != nil && m.says("how many mm", "difference", "how much thicker", "how much thinner") {
		return true
	}
	if len(m.found) == 2 && m.of(gauge) != nil && m.says("is", "down to", "roll", "between", "off") {
		return true
	}
	return m.has("convert", "compare") && len(m.found) > 0 || m.says("gauge", "gage", "guage", "awg", "ga", "b&s") && len(m.found) == 1 && m.of(length, bare) != nil
}

// aboutPendant: a shape cut from sheet, or a stone for one.
func (m *message) aboutPendant() bool {
	return m.says("pendant", "earring", "earrings", "brooch", "charm", "tag") && len(m.meaning("outline:")) > 0 && m.cues["collet"]+m.cues["bezel"]+m.cues["dome"] < 2 && !m.has("stone")
}

// pendant asks whether the outline is a stone's or the piece's own.
func (m *message) pendant() (Reading, bool) {
	r := Reading{Outcome: Question, Ask: "Is that the size of a stone, or of the piece itself? I lay out settings for stones; a shape of your own you can only weigh here."}
	add := func(label string, of Reading) {
		if of.Outcome == Request {
			r.Choices = append(r.Choices, Choice{label, of.Request, of.Options})
		}
		m.release()
	}
	add("a faceted stone in a tapered setting", m.collet("collet"))
	add("a cabochon in a bezel", m.bezel())
	if m.meaning("outline:")[0] == "round" {
		if disc, ok := m.weigh(); ok {
			add("a disc of that size, to weigh", disc)
		}
	}
	return r, len(r.Choices) > 0
}

// aboutPerimeter: the way round an oval or a round, and nothing to make of it.
func (m *message) aboutPerimeter() bool {
	if !m.says("perimeter", "circumference") || m.cues["collet"]+m.cues["bezel"] >= 2 {
		return false
	}
	q := m.stoneSides()
	return q != nil && len(q.sides) == 2 && contains(m.meaning("outline:"), "oval")
}

// perimeter tells the way round an ellipse by Ramanujan's second formula, which
// is right to far less than 0.01 mm for stones.
func (m *message) perimeter() (Reading, bool) {
	q := m.stoneSides()
	a, b := q.sides[0]/2, q.sides[1]/2
	h := (a - b) * (a - b) / ((a + b) * (a + b))
	around := math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
	return Reading{Outcome: Explanation, Topic: "perimeter of an oval", Source: "S. Ramanujan's second formula for the ellipse",
		Text: fmt.Sprintf("An oval of %s mm is %.2f mm round. The average of length and width times pi gives %.2f mm, which is a little short.", q.shown, around, math.Pi*(a+b))}, true
}

// aboutStock: a piece of wire, tube or sheet with its metal, and no job.
func (m *message) aboutStock() bool {
	if len(m.alloys) == 0 || m.has("stone") || m.cues["collet"]+m.cues["bezel"]+m.cues["band"] > 0 {
		return false
	}
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 3 && !m.has("cab") && len(m.meaning("outline:")) == 0 {
			return true
		}
	}
	return m.has("wire", "tube") && (m.of(length) != nil || m.with("outer") != nil && m.with("length") != nil)
}

// aboutStoneAlone: a stone's size and nothing else.
func (m *message) aboutStoneAlone() bool {
	return m.aboutStone() && len(m.found) == 1 && len(m.alloys) == 0 && m.cues["collet"] == 0 && m.of(carat) == nil && len(m.tokens) <= 8 && !m.says("cut", "make", "need")
}

// aboutStoneInThin: a stone and metal as thin as a bezel's, and no word for what is
// made.
func (m *message) aboutStoneInThin() bool {
	t := m.of(gauge)
	return t != nil && t.value >= 26 && m.aboutStone() && m.cues["collet"] == 0 && m.of(carat) == nil && len(m.meaning("gem:")) == 0
}

// whatIsMade asks what the stone goes into.
func (m *message) whatIsMade() (Reading, bool) {
	collet, bezel := m.collet("collet"), Reading{}
	m.release()
	bezel = m.bezel()
	r := Reading{Outcome: Question, Ask: "What do you want to make for it?"}
	for _, c := range []struct {
		label string
		of    Reading
	}{{"a tapered setting (faceted stone)", collet}, {"a bezel (cabochon)", bezel}} {
		if c.of.Outcome == Request {
			r.Choices = append(r.Choices, Choice{c.label, c.of.Request, c.of.Options})
		}
	}
	return r, len(r.Choices) == 2
}

// aboutMasses: one mass in other units.
func (m *message) aboutMasses() bool {
	toCast := m.chance("melt") >= sure && !m.has("convert") // "a wax of eleven grams"
	return len(m.found) == 1 && m.of(mass) != nil && len(m.alloys) == 0 && !toCast && m.says("ounces", "oz", "grams", "pennyweight", "dwt", "convert", "in grams")
}

// masses tells a mass in the units of the trade.
func (m *message) masses() (Reading, bool) {
	q := m.of(mass)
	return massInUnits(strings.TrimSpace(q.typed(m)), q.value), true
}

// aboutStone: a stone and its metal, with no word for what is made.
func (m *message) aboutStone() bool {
	if m.has("ring", "bangle", "hoop") && !(m.has("setting") && m.stoneSides() != nil) || m.says("pendant", "earring", "earrings", "brooch") && m.cues["collet"] == 0 && m.with("depth") == nil {
		return false
	}
	if m.cues["collet"] >= 1 && m.has("setting") && (len(m.meaning("outline:")) > 0 || m.has("stone") && m.says("make", "need", "want") || m.says("the blank", "a blank", "flat pattern", "template")) {
		return true // the size is asked for
	}
	if m.stoneSides() != nil && (m.cues["collet"] >= 1 || m.says("girdle")) {
		return true
	}
	sized := m.stoneSides() != nil || m.besideStone() != nil || m.of(carat) != nil || m.with("diameter") != nil && len(m.found) > 1
	named := len(m.meaning("outline:")) > 0 || m.has("stone")
	return sized && named || m.stoneSides() != nil && m.says("stone", "gem")
}

// withVerdict puts yes, no or it depends before the piece, where that was asked.
func (m *message) withVerdict(r Reading) Reading {
	switch r.Outcome {
	case Request:
		if r.Verdict == "" {
			r.Verdict = m.verdict(r)
		}
	case Question:
		// Whether a thickness will do is told without the piece.
		if v := m.verdict(r); v != "" {
			return Reading{Outcome: Explanation, Topic: "thickness", Text: v, Source: "common practice, no source"}
		}
	}
	return r
}

// aboutTwoSizes: a ring that goes from one size to another.
func (m *message) aboutTwoSizes() bool {
	n := 0
	for _, q := range m.found {
		if q.measure == ringSize {
			n++
		}
	}
	if n == 2 && m.sizesJoined() {
		m.cues["resize"] += 3
		return true
	}
	if n != 2 || m.says(settling...) || !m.says("into", "from", "need it", "need a", "need an", "should be", "supposed to be", "has to be", "want a", "want it", "im an", "im a", "stretch", "bigger", "smaller", "up", "down", "resize") || m.has("convert") || m.says("list", "both", "each", "matching") {
		return false
	}
	m.cues["resize"] += 3
	return true
}

// settling are words before the size that is settled on: "so call it L and a half".
var settling = []string{"call it", "go with", "settle on", "settled on", "ill go"}

// aboutSteps: a ring that goes some sizes up or down: "up half a size from 6".
func (m *message) aboutSteps() bool {
	return m.of(ringSize) != nil && m.says("half a size", "one size", "two sizes", "three sizes", "a size up", "a size down", "sizes up", "sizes down", "sizes bigger", "sizes smaller") && m.says("up", "down", "bigger", "smaller", "larger", "tighter") && !m.widerSize()
}

// sizesJoined matches two sizes with nothing but "to" between them: "K to M".
func (m *message) sizesJoined() bool {
	var last *quantity
	for _, q := range m.found {
		if q.measure != ringSize {
			continue
		}
		if last != nil {
			return m.between(last.next, q.first) == "to" && (!m.has("convert") || m.at(last.first-1).text == "from") && !m.says("=sizes", "list", "chart", "each") && (q.system == last.system || q.system == "" || last.system == "")
		}
		last = q
	}
	return false
}

// later answers what guildhand can't work out yet, by name.
func (m *message) later() (Reading, bool) {
	for _, l := range laterJobs {
		if m.cues[l.job] < l.cue {
			continue
		}
		if m.context.Takes != nil && m.context.takes(l.job, "") || (l.job == "bangle" || l.job == "hoop") && m.context.takes("band", "bangle") {
			continue
		}
		return Reading{Outcome: Declined, Topic: l.job, Text: l.says}, true
	}
	return Reading{}, false
}

func (m *message) aboutLater() bool {
	for _, l := range laterJobs {
		if l.job == "trace" && l.cue == 2 && m.stoneSides() != nil && m.cues["bezel"] >= 3 {
			continue // the nearest outline is asked for
		}
		if m.cues[l.job] >= l.cue {
			return true
		}
	}
	return false
}

// laterJobs are jobs of the trade that have no request yet.
var laterJobs = []struct {
	job  string
	cue  int
	says string
}{
	{"jumpring", 5, "I can't work out jump rings yet. The wire for one ring is pi x (inside diameter + wire); weigh tells what a length of wire weighs: weigh wire 18ga length 300 sterling."},
	{"tubeset", 5, "I can't work out tube settings yet. A tube serves where the stone is wider than its bore and narrower than its outside; match tells which stones go with a tube as a tapered setting: match tubesize 5x0.5."},
	{"halo", 5, "I can't work out halos yet: how many small stones go round, and the plate for them. I can work out the centre stone's setting: collet oval 8x6."},
	{"saddle", 5, "I can't work out the curve that lets a setting sit on a shank yet. Make the wall a little higher than it must be and file it to the shank; I can work out the setting: collet oval 8x6."},
	{"resize", 3, "I can't work out resizing yet. The length to add or take out is pi x the change of the inner diameter: one US size is 2.55 mm, half a size 1.28 mm. band tells the blank of either size: band us 7."},
	{"trace", 4, "I can't read a photograph yet. Measure the stone's length and width with calipers, or give 8 or more caliper points with the outline measured; a strip of paper round the stone gives its perimeter."},
	{"trace", 2, "A freeform stone has no outline by name. Wrap a strip of paper round its foot, mark where it meets, and measure it: the strip to cut is that plus pi x the metal's thickness. For a template give 8 or more caliper points with the outline measured."},
	{"bangle", 4, "I can't work out bangles yet. The length to cut is pi x (inside diameter + thickness of the metal)."},
	{"othersetting", 5, "I can't work out flush, channel, cluster or bead settings. I can work out tapered settings, bezels and prongs: collet oval 8x6."},
	{"formedwire", 5, "I can't work out coils, neck rings or ear cuffs. weigh tells what a length of wire weighs: weigh wire 18ga length 300 sterling."},
	{"alloying", 6, "I don't work out alloys from their parts. melt tells what a model or a wax weighs in another metal: melt model 5 g from sterling 18k-yellow."},
	{"hoop", 4, "I can't work out hoops yet. The length to cut is pi x (inside diameter + thickness of the wire)."},
}

// fewestInGreeting is how many words a greeting has at most that asks for nothing.
const fewestInGreeting = 5

// talk answers greetings, thanks and questions about guildhand itself.
func (m *message) talk() (Reading, bool) {
	switch {
	case m.cues["help"] >= 2 || m.has("greeting") && len(m.found) == 0 && m.words() <= fewestInGreeting:
		return Reading{Outcome: Request, Request: "help", Options: map[string]string{}}, true
	case m.has("thanks") && len(m.found) == 0 && (m.words() <= mostThanks || m.startsWith("thanks", "thank you", "cheers") && !strings.Contains(m.typed, "?")) && !m.startsWith("how", "what", "whats", "why", "which", "where", "can", "should"):
		return Reading{Outcome: Silent}, true
	}
	return Reading{}, false
}

// mostThanks is how many words a message has at most that says thanks and nothing else.
const mostThanks = 10

// asks says what kind of question the message is, by its first words.
func (m *message) startsWith(phrases ...string) bool {
	t := m.text() + " "
	for _, p := range phrases {
		if strings.HasPrefix(t, p+" ") {
			return true
		}
	}
	return false
}
