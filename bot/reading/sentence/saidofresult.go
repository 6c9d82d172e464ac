package sentence

import (
	"fmt"
	"strings"

	"guildhand/bot/knowledge"
)

// Members speak of what was worked out, too: they repeat a figure of the answer, doubt it,
// or tell what became of the piece.

// doubtsResult are verbs of a doubt about a figure, and doubtedWays what it is doubted to be.
var (
	doubtsResult = []string{"seems", "sounds", "looks", "feels", "cant be", "surely"}
	doubtedWays  = []string{"a lot", "long", "short", "much", "loads", "high", "low", "wrong", "off", "right", "big", "huge", "little", "small", "tiny", "heavy", "light", "odd", "strange", "weird"}
)

// repeatsResult shows the last piece again where a message repeats or doubts a figure that
// is none of the piece's own: "so 59 mm then?", "hm 62 seems a lot".
func (m *message) repeatsResult(last Last) (Reading, bool) {
	if readersOf[last.Request] == nil || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > 8 || m.saysMeasure() || m.strays() {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != bare && q.measure != length && q.measure != mass || q.role != "" {
		return Reading{}, false
	}
	doubts := m.says(doubtsResult...) && m.says(doubtedWays...)
	repeats := m.startsWith("so", "ok so", "right so", "so its", "so thats", "that makes it") && (strings.Contains(m.typed, "?") || m.says("then", "yeah", "right"))
	wishes := m.says("if", "do", "go", "try", "make", "use", "rather", "lets", "right")
	if !doubts && !repeats || q.nearOption(last) && (wishes || !doubts) {
		return Reading{}, false
	}
	m.useAll()
	return figuresOf(last), true
}

// nearOption reports whether a figure may be a new value of one of a piece's options.
func (q *quantity) nearOption(piece Last) bool {
	for name, shown := range piece.Options {
		if now := lengthOf(shown); now > 0 && !notByNearness[name] && q.value <= 2.5*now && now <= 2.5*q.value {
			return true
		}
		if n, is := gaugeNumber(shown); is && q.value >= n-8 && q.value <= n+8 {
			return true
		}
		if sizeOfRing[name] && q.measure == bare && q.value <= mostUSRing {
			return true
		}
	}
	return false
}

// gaugeOfPiece tells the gauge of a thickness in mm, and the mm of a gauge: "whats that in
// gauge".
func (m *message) gaugeOfPiece(last Last) (Reading, bool) {
	thick := last.Options["thickness"]
	if last.Request == "jumpring" {
		thick = last.Options["wire"]
	}
	if thick == "" || last.Request == "gauge" || len(m.found)+len(m.alloys) > 0 || m.words() > 7 || !m.says("in gauge", "in gage", "what gauge", "which gauge", "what gage", "as a gauge", "gauge is that", "in awg") || !m.pointsBack() && !m.startsWith("and in", "in gauge", "in awg", "and whats") || m.says("should", "solder", "best", "for a", "usually", "back") {
		return Reading{}, false
	}
	text := ""
	if n, is := gaugeNumber(thick); is {
		text = fmt.Sprintf("%s ga is %s (B&S, the American gauge).", plain(n), mm(gaugeMM(n)))
	} else if v := lengthOf(thick); v > 0.1 {
		near := nearestGauge(v)
		text = fmt.Sprintf("%s is nearest to %s ga, which is %s (B&S, the American gauge).", mm(v), plain(near), mm(gaugeMM(near)))
	} else {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "gauges", Text: text, Source: "ASTM B258"}, true
}

// cameOutAs tell which size a ring has that was made.
var cameOutAs = []string{"came out", "come out", "comes out", "ended up", "turned out", "made it and its", "came up", "come up", "comes up", "finished", "soldered", "put the piece in", "on the stick", "on the mandrel", "on the triblet", "now its a", "its now a", "now a size", "measures up as", "mandrel reads", "mandrel says", "mandrel shows", "mandrel gives", "triblet reads", "triblet says", "triblet shows", "stick reads", "stick says", "stick shows", "it measures", "measures as a", "measures as an", "reads as a", "on my stick", "on my mandrel", "on my triblet"}

// mendedHow ask what is to be done about a ring of the wrong size.
var mendedHow = []string{"stretch", "roll", "how much", "take out", "let in", "cut out", "take off", "put it right", "to fix", "correct it", "correct this", "hammer it", "file", "or leave", "cut again", "start again", "start over", "remake"}

// cameOutInSize is the trouble of a ring that has another size than it was worked out for,
// "came out a Q, how come", or how it is brought to that size.
func (m *message) cameOutInSize(last Last) (Reading, bool) {
	system, target := ringMeant(last)
	if target == "" || system == "diameter" || len(m.alloys) > 0 || m.words() > longestChange+2 || !m.says(cameOutAs...) || m.says("wax", "too", "wide", "thick", "finger", "knuckle", "if", "gap", "same again", "same for", "for size", "for a size", "next one", "now please") {
		return Reading{}, false
	}
	m = m.anew()
	q := m.sizeOfMade(target)
	if q == nil {
		return Reading{}, false
	}
	got, gotOK := stepsOfSize(q.shown)
	was, wasOK := stepsOfSize(target)
	if !gotOK || !wasOK || letter(q.shown) != letter(target) || got == was || q.system != "" && system != "" && q.system != system {
		return Reading{}, false
	}
	m.useAll()
	if m.says(mendedHow...) {
		return m.broughtToSize(last, system, strings.TrimSpace(q.shown), target), true
	}
	key := "strip too long"
	if got < was {
		key = "strip too short"
	}
	return Reading{Outcome: Request, Request: "trouble", Options: map[string]string{"sign": knowledge.Word(key)}, Topic: "trouble: " + key}, true
}

// ringMeant is the size that a ring was to have.
func ringMeant(last Last) (system, size string) {
	switch last.Request {
	case "band":
		return last.Options["system"], last.Options["ring"]
	case "resize":
		system, size, _ = strings.Cut(last.Options["to"], " ")
		return system, size
	}
	return "", ""
}

// sizeOfMade is the one size of a message that a ring came out in: of two the one that was
// not meant, nil where there is none or it may be another figure.
func (m *message) sizeOfMade(target string) (made *quantity) {
	for _, q := range m.found {
		switch {
		case q.measure != ringSize && q.measure != bare, made != nil && sizeAlike(made.shown, target) == sizeAlike(q.shown, target):
			return nil
		case made == nil || sizeAlike(made.shown, target):
			made = q
		}
	}
	if made == nil {
		made = m.sizeLetter()
	}
	return made
}

// sizeAlike reports whether two sizes of one system are the same.
func sizeAlike(one, other string) bool {
	a, _ := stepsOfSize(one)
	b, _ := stepsOfSize(other)
	return a == b
}

// broughtToSize is the resizing of a ring that was made, with its metal and its section.
func (m *message) broughtToSize(last Last, system, got, target string) Reading {
	d := m.draft("resize")
	for _, option := range []string{"alloy", "thickness", "width", "profile", "stones"} {
		if v := last.Options[option]; v != "" {
			d.say(option, v)
		}
	}
	d.say("from", strings.TrimSpace(system+" "+got))
	d.say("to", strings.TrimSpace(system+" "+target))
	return d.reading()
}

// stepsOfSize orders the sizes of one system, letters or numbers.
func stepsOfSize(shown string) (float64, bool) {
	shown = strings.TrimSpace(shown)
	if letter(shown) {
		at := 2 * float64(shown[0]-'A')
		if strings.HasSuffix(shown, "1/2") || strings.HasSuffix(shown, "½") {
			at++
		}
		return at, len(shown) > 0
	}
	v := lengthOf(shown)
	return v, v > 0
}

// nextRing are words of a new ring after one that came out wrong.
var nextRing = []string{"one for", "next one", "the next", "another one", "another ring", "new one", "new ring", "second one", "second ring", "same again", "the other one"}

// backToBand makes a ring the last piece again that was only brought to its size since, where
// a message speaks of the next one: "now one for his wife, a 6".
func (m *message) backToBand() {
	last := m.context.Last
	if last == nil || last.Request != "resize" || len(m.context.Earlier) == 0 || len(m.found) == 0 || !m.says(nextRing...) {
		return
	}
	before := m.context.Earlier[0]
	if system, size := ringMeant(*last); before.Request == "band" && before.Options["ring"] == size && before.Options["system"] == system {
		m.context.Last = &before
	}
}
