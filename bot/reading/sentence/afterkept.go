package sentence

import (
	"maps"
	"slices"
	"strings"
)

// What comes after an answer on the log or on the maker's defaults goes on from it: "just
// the bezels", "export that", "and 0.8 mm".

// ofKept reads a short message that goes on from the log or the defaults that were shown.
func (m *message) ofKept() (Reading, bool) {
	kept := m.context.Kept
	if kept == nil || m.context.Asked != nil || m.words() > longestChange {
		return Reading{}, false
	}
	if kept.Request == "bench" {
		return m.furtherDefault(*kept)
	}
	return m.narrowerLog(*kept)
}

// furtherDefault keeps one more default: a bare thickness or metal behind another default.
func (m *message) furtherDefault(kept Last) (Reading, bool) {
	leads := m.startsWith("and", "also", "plus", "thickness", "metal", "gauge", "in", "with")
	if !leads || strings.Contains(m.typed, "?") || m.says("what", "how", "which", "is") || len(m.found)+len(m.alloys) != 1 || m.words() > 5 || len(m.meaning("outline:")) > 0 || m.strangeWords() > 1 || m.says("collet", "bezel", "ring", "band", "dome", "stone", "prongs") {
		return Reading{}, false
	}
	if kept.Options["drop"] != "" {
		return Reading{}, false
	}
	d := m.draft("bench")
	if scope := kept.Options["scope"]; scope != "" {
		d.say("scope", scope)
	}
	if len(m.alloys) == 1 {
		d.alloy("alloy", true)
		return d.reading(), true
	}
	q := m.found[0]
	if q.measure != gauge && (q.measure != length || q.value > mostMetal) || q.other != nil {
		return Reading{}, false
	}
	d.set("thickness", q)
	return d.reading(), true
}

// narrowerLog lists or exports less of the log that was shown, or another part of it.
func (m *message) narrowerLog(kept Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || kept.Options["number"] != "" {
		return Reading{}, false
	}
	options := maps.Clone(kept.Options)
	if options == nil {
		options = map[string]string{}
	}
	switch about := m.requestNamedAlone(); {
	case m.startsWith("export", "can you export", "can i export", "please export", "download", "as csv", "in csv", "as a spreadsheet") && m.words() <= 6:
		options["action"] = "export"
	case about != "" && m.startsWith("just", "only", "now", "and", "what about", "how about", "show", "or") && m.words() <= 5 && len(m.meaning("outline:")) == 0:
		options["request"] = about
	default:
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: "daybook", Options: options, Changed: changesOf(kept.Options, options)}, true
}

// listedAs are the words for what the log lists of a request.
var listedAs = map[string]string{
	"collets": "collet", "collars": "collar", "bezels": "bezel", "domes": "dome", "prongs": "prongs", "claws": "prongs", "rings": "band", "bands": "band",
	"halos": "halo", "saddles": "saddle", "resizes": "resize", "resizings": "resize", "traces": "trace", "tracings": "trace", "weights": "weigh", "kits": "kit",
}

// requestNamedAlone is the request whose entries a message names, and no other; empty for none.
func (m *message) requestNamedAlone() string {
	about := ""
	for _, t := range m.tokens {
		if of := listedAs[t.text]; of != "" {
			if about != "" {
				return ""
			}
			about = of
		}
	}
	if about == "" && slices.Contains([]string{"just jump rings", "only jump rings", "just the jump rings", "only the jump rings"}, strings.TrimSpace(m.text())) {
		return "jumpring"
	}
	return about
}
