package sentence

import (
	"math"
	"strings"
)

// A piece of stock that was weighed may be meant of another form: "how about a disc of 30 mm
// instead of square?", "and if it were square".

// formWords name a form of flat stock and what it is weighed as.
var formWords = map[string]string{"disc": "disc", "discs": "disc", "disk": "disc", "circle": "disc", "round": "disc", "circular": "disc", "square": "sheet", "squares": "sheet", "plate": "sheet", "sheet": "sheet", "rectangle": "sheet"}

// formAsks begin or hold a wish for another form.
var formAsks = []string{"instead", "what about", "how about", "what if", "if", "make it", "now", "and", "rather", "same but", "as a", "or a"}

// otherForm is the flat piece that was weighed as a disc in place of a sheet or the other
// way round, with the size that the message gives or that the piece has both ways.
func (m *message) otherForm(last Last) (Reading, bool) {
	was := last.Options["form"]
	if last.Request != "weigh" || was != "disc" && was != "sheet" || m.words() > longestChange || len(m.found) > 1 || len(m.alloys) > 0 || !m.says(formAsks...) || m.says("cut from", "out of", "waste", "scrap", "offcut", "left", "wire", "tube", "ring", "how many", "melt") {
		return Reading{}, false
	}
	form := m.formSaid()
	if form == "" || form == was {
		return Reading{}, false
	}
	d := m.draftWith("weigh", last.Options)
	d.say("form", form)
	if !d.sizeOfForm(last.Options["size"]) {
		return Reading{}, false
	}
	return m.changedFrom(last, d), true
}

// formSaid is the form that a message names first, but for one that it says it is not.
func (m *message) formSaid() string {
	for i, t := range m.tokens {
		form := formWords[t.text]
		before := m.between(max(0, i-2), i)
		if form != "" && !strings.HasSuffix(before, "of") && !strings.HasSuffix(before, "of a") && !strings.HasSuffix(before, "not") && !strings.HasSuffix(before, "not a") {
			return form
		}
	}
	return ""
}

// sizeOfForm sets the size of a flat form: as wide as a disc's or a square's was, where
// the message gives none.
func (d *draft) sizeOfForm(before string) bool {
	disc := d.options["form"] == "disc"
	if len(d.m.found) == 1 {
		q := d.m.found[0]
		switch {
		case q.measure == size && len(q.sides) == 2 && !disc:
			d.set("size", q)
		case q.measure != length && q.measure != bare || q.role != "" && q.role != "diameter" && q.role != "width" || q.value < 2:
			return false
		case disc:
			d.set("size", q)
		default:
			q.used = true
			d.say("size", plain(q.value)+"x"+plain(q.value))
		}
		return true
	}
	long, wide, sides := strings.Cut(before, "x")
	across := lengthOf(long)
	if sides && math.Abs(across-lengthOf(wide)) > 0 || across == 0 {
		return false
	}
	d.say("size", plain(across)+" mm")
	if !disc {
		d.say("size", plain(across)+"x"+plain(across))
	}
	return true
}
