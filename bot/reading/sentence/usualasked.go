package sentence

// Questions of what is taken where nothing is said: "whats the shop thickness set at".

// keptNames are names of what the settings hold beside the words for each of them.
var keptNames = []string{"taper", "slope", "sheet", "stock", "ring size system", "block angle", "sizes system"}

// takenUnsaid are words for what is taken unless somebody says another.
var takenUnsaid = []string{"set at", "set to", "set up for", "set up as", "unless told", "unless i say", "unless i tell", "unless stated", "unless we say", "unless you are told", "unless otherwise", "fixed as", "as standard", "as its normal", "as the normal", "as its standard", "normally assume", "ordinarily assume", "usually assume",
	"do you presume", "presume when", "assume when", "assume if", "when i dont say", "when i do not", "do not state", "dont state", "dont specify", "do not specify", "if i leave it out", "i leave it out", "none is stated", "none is given", "when none", "if none is", "got stored", "have you stored", "you have stored", "got saved", "am i on", "are we on", "am i set", "are you set", "are we set", "are you on", "is it on", "printing on", "suppose if", "suppose when", "taken for granted"}

// oursHere are words for the settings as those of a shop.
var oursHere = []string{"does the workshop use", "does the shop use", "does the studio use", "does the guild use", "do we use here", "the shops usual", "shops normal", "shops standard", "our standard", "our usual", "the workshops usual", "shop thickness", "shop gauge", "our default"}

// usualAsked shows the settings to whoever asks what one of them is.
func (m *message) usualAsked() (Reading, bool) {
	return Reading{Outcome: Request, Request: "bench", Options: map[string]string{}}, m.asksUsual()
}

// asksUsual reports whether a message asks what is taken where nothing is said.
func (m *message) asksUsual() bool {
	asks := m.startsWith("what", "whats", "which", "is it", "remind me", "tell me", "could you tell me", "can you tell me", "may i ask", "how thick", "so what", "so which", "am i", "are we", "do you know what", "are you")
	if len(m.found) > 0 || len(m.alloys) > 0 || !asks || !m.says(takenUnsaid...) && !m.says(oursHere...) || m.says("kiln", "torch", "oven", "pickle", "kerf", "why", "change", "should", "stone", "finger") {
		return false
	}
	return m.namesDefault() || m.says(keptNames...)
}

// alwaysWords wish something for all answers to come.
var alwaysWords = []string{"prefer", "in all your answers", "in all answers", "always", "from now on", "every time", "record that", "remember that"}

// systemPreferred keeps the system of ring sizes that somebody prefers.
func (m *message) systemPreferred() (Reading, bool) {
	if len(m.found) > 0 || !m.says(alwaysWords...) || !m.says("ring sizes", "ring size", "finger sizes") || m.startsWith("why", "which", "what") {
		return Reading{}, false
	}
	d := m.draft("bench")
	d.benchWords(true)
	if m.says("united states", "usa", "america") {
		d.say("system", "us")
	}
	delete(d.options, "units")
	return d.reading(), d.options["system"] != ""
}

// figuresReplaced leaves out the figure of a setting that another takes the place of: "from
// 0.10 mm to 0.15 mm".
func (d *draft) figuresReplaced() {
	for _, q := range d.m.found {
		if old := d.m.replacedBy(q); old != nil && !old.used {
			old.used = true
			d.note("%s is left out, since it no longer holds", old.shown)
		}
	}
}

// replacedBy is the figure whose place another takes: 0.1 for the 0.15 of "from 0.1 to 0.15";
// nil for none.
func (m *message) replacedBy(q *quantity) *quantity {
	if m.at(q.first-1).text != "to" {
		return nil
	}
	for _, old := range m.found {
		if old.next == q.first-1 && m.at(old.first-1).text == "from" {
			return old
		}
	}
	return nil
}

// setsIt begin a wish that what was just spoken of gets a figure.
var setsIt = []string{"change it to", "set it to", "please change it to", "please set it to", "change that to", "set that to", "can you change it to", "could you change it to", "can you set it to", "could you set it to"}

// settingChanged sets the default that was just asked for, or asks whether it is meant where
// that named none: "change it to 0.7 mm" after the settings were shown.
func (m *message) settingChanged() (Reading, bool) {
	c := m.context
	if c.Last != nil || c.Asked != nil || c.Topic != "" || len(m.found) != 1 || !m.startsWith(setsIt...) {
		return Reading{}, false
	}
	q, d := m.found[0], m.draft("bench")
	limits, known := benchFigures[c.Focus]
	switch {
	case known && (q.measure == bare || q.measure == length) && q.value >= limits[0] && q.value <= limits[1]:
		d.set(c.Focus, q)
	case q.measure == gauge || (q.measure == bare || q.measure == length) && q.value >= leastAlone && q.value <= mostAlone:
		q.used = true
		if c.Focus == "thickness" {
			d.say("thickness", q.shown)
		} else {
			d.question("thickness", "Shall I keep "+q.shown+" as the thickness of your sheet?", d.with("yes, keep it", "thickness", q.shown))
		}
	default:
		return Reading{}, false
	}
	return d.reading(), true
}
