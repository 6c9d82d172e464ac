package sentence

import (
	"strings"
)

// A piece is often asked for after one of its figures was spoken of: "whats 1.2 mm in
// gauge", then "how much does 2 foot of that weigh"; "is 1.3 ok for a shank", then "size K,
// 2.2 wide". What was told before is the piece's, where that names no other.

// withTold is a piece with the thickness and the metal that were told before it.
func (m *message) withTold(r Reading) Reading {
	if r.Outcome != Request || readersOf[r.Request] == nil || r.Request == "gauge" || r.Request == "kit" {
		return r
	}
	if last := m.context.Last; last != nil && last.Request == "gauge" {
		return m.asConverted(r, *last)
	}
	if m.context.Last == nil && m.context.Said != "" && strings.HasPrefix(m.context.Topic, "limit:") {
		return m.asJudged(r)
	}
	return r
}

// thicknessOption is what tells how thick the metal of a request is, empty for none.
func (m *message) thicknessOption(request string) string {
	switch {
	case request == "jumpring":
		return "wire"
	case request == "resize", request == "match", request == "melt", request == "tune", request == "saddle":
		return ""
	case m.context.takes(request, "thickness"):
		return "thickness"
	}
	return ""
}

// asConverted is a piece in the thickness that was told in other units just before, where the
// message points back to it.
func (m *message) asConverted(r Reading, last Last) Reading {
	option, told := m.thicknessOption(r.Request), last.Options["gauge"]
	if option == "" || told == "" {
		return r
	}
	number, isGauge := gaugeNumber(told)
	mistaken := isGauge && r.Options[option] == plain(number)+" mm"
	if !mistaken && (r.Options[option] != "" || r.Options["form"] == "tube" || !m.pointsBack()) {
		return r
	}
	return withOption(r, option, told, "the thickness is taken as "+told+", which you asked about before")
}

// asJudged is a piece in the thickness and the metal that were judged just before.
func (m *message) asJudged(r Reading) Reading {
	said := newMessage(m.context.Said)
	said.context = Context{Takes: m.context.Takes, Excludes: m.context.Excludes, Addressed: true}
	if said.cues[r.Request] == 0 {
		return r
	}
	said.bindRoles()
	before, ok := readersOf[r.Request](said)
	if !ok || before.Request != r.Request {
		return r
	}
	for _, option := range []string{m.thicknessOption(r.Request), "alloy"} {
		if v := before.Options[option]; option != "" && v != "" && r.Options[option] == "" {
			r = withOption(r, option, v, "the "+option+" is taken as "+v+", which you spoke of before")
		}
	}
	return r
}

// withOption is a reading with one option more.
func withOption(r Reading, option, value, note string) Reading {
	options := map[string]string{option: value}
	for name, v := range r.Options {
		if name != option {
			options[name] = v
		}
	}
	r.Options, r.Notes = options, append(r.Notes[:len(r.Notes):len(r.Notes)], note)
	return r
}
