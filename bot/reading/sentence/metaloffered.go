package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Who knows how thick a piece is to be finds two other thicknesses at the shop: "they only have
// 1.3 or 1.8, which". The one that will do and is nearer to the piece's own is taken, and each
// is judged.

// offerWords are words of what somebody has or can get, and asksWhichOf ask which of it to take.
var (
	offerWords  = []string{"have", "ive", "got", "has", "stock", "stocks", "stocked", "only", "can get", "could get", "offered", "available", "left", "in the drawer", "sells", "sell", "supplier", "shop"}
	asksWhichOf = []string{"which", "what would you", "better", "best", "would do", "should i", "do i take", "pick", "choose"}
	// ofMoreThanMetal are words of figures that are not how thick the metal is.
	ofMoreThanMetal = []string{"both", "how many", "wide", "width", "high", "tall", "long", "length", "inside", "weigh", "size", "stone", "stones", "deep", "prongs", "claws", "mandrel", "each", "between", "solder"}
)

// judgedAs is what the thickness of a request's metal is judged for.
var judgedAs = map[string]string{"band": "a ring", "bezel": "a bezel", "collet": "a collet", "collar": "a collet", "prongs": "prongs", "dome": "", "jumpring": ""}

// An offered thickness is at least and at most so many times the piece's own.
const thinnestOffer, thickestOffer = 0.4, 2.5

// metalOffered takes one of two thicknesses that can be had for the piece in hand.
func (m *message) metalOffered() (Reading, bool) {
	last := m.context.Last
	if last == nil || m.context.Asked != nil || len(m.found) == 0 || len(m.alloys) > 0 || m.words() > longestOfOffer || m.says(ofMoreThanMetal...) {
		return Reading{}, false
	}
	option := "thickness"
	if last.Request == "jumpring" {
		option = "wire"
	}
	noun, ofMetal := judgedAs[last.Request]
	own := lengthOf(last.Options[option])
	barely := m.says("or") && m.words() <= 2
	if !ofMetal || own <= 0 || !barely && !m.says(offerWords...) && !m.says(asksWhichOf...) || !barely && !m.says("or", "and", "both", "n") {
		return Reading{}, false
	}
	two := m.twoOffered(last.Options[option], own)
	if len(two) != 2 {
		return Reading{}, false
	}
	m.useAll()
	best, told := m.judgeOffer(two, noun, own)
	d := m.draftWith(last.Request, last.Options)
	d.say(option, best.shown)
	r := m.changedFrom(*last, d)
	r.Verdict = strings.TrimSpace(fmt.Sprintf("Take the %s, %s. %s", best.named(), nearness(best.mm, own), told))
	return r, r.Outcome == Request
}

// offeredMetal is one thickness that can be had.
type offeredMetal struct {
	shown string
	mm    float64
}

// twoOffered are the thicknesses that a message offers, without the one that the piece has.
func (m *message) twoOffered(now string, own float64) (all []offeredMetal) {
	var figures []*quantity
	for _, q := range m.found {
		if q.other != nil {
			figures = append(figures, q.other)
		}
		figures = append(figures, q)
	}
	_, inGauge := gaugeNumber(now)
	inGauge = inGauge || slices.ContainsFunc(figures, func(q *quantity) bool { return q.measure == gauge })
	for _, q := range figures {
		thick := offeredMetal{shown: plain(math.Round(q.value*1000)/1000) + " mm", mm: q.value}
		whole := q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 8
		switch {
		case q.role != "" && q.role != "thickness", q.measure != bare && q.measure != length && q.measure != gauge:
			return nil
		case q.measure == gauge, inGauge && whole:
			thick = offeredMetal{shown: plain(q.value) + "ga", mm: gaugeMM(q.value)}
		}
		switch {
		case math.Abs(thick.mm-own) < 0.001:
			continue
		case thick.mm < thinnestOffer*own || thick.mm > thickestOffer*own:
			return nil
		}
		all = append(all, thick)
	}
	return all
}

// judgeOffer judges both, and takes the one that will do, or else the nearer one to the piece's
// own.
func (m *message) judgeOffer(two []offeredMetal, noun string, own float64) (best offeredMetal, told string) {
	alone := Context{Takes: m.context.Takes, Excludes: m.context.Excludes, Addressed: true}
	far := func(o offeredMetal) float64 { return math.Abs(math.Log(o.mm / own)) }
	least := math.Inf(1)
	var verdicts []string
	for _, o := range two {
		score := far(o)
		if noun != "" {
			r := Read("is "+o.named()+" thick enough for "+noun, alone)
			if r.Outcome == Explanation && isVerdict(r.Topic) {
				verdict, _, _ := strings.Cut(r.Text, ". ")
				verdicts = append(verdicts, strings.TrimSuffix(verdict, ".")+".")
				if !strings.HasPrefix(verdict, "Yes") {
					score += thickestOffer
				}
			}
		}
		if score < least {
			least, best = score, o
		}
	}
	if len(verdicts) != len(two) || verdicts[0] == verdicts[1] {
		return best, ""
	}
	return best, strings.Join(verdicts, " ")
}

// nearness says how a thickness is to the one that was meant.
func nearness(now, own float64) string {
	way := "thicker"
	if now < own {
		way = "thinner"
	}
	return fmt.Sprintf("%s %s than planned", mm(math.Abs(now-own)), way)
}

// named is a thickness as a sentence has it, "28 gauge".
func (o offeredMetal) named() string { return strings.Replace(o.shown, "ga", " gauge", 1) }
