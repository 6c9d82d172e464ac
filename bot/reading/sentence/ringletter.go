package sentence

// ringLetter changes the ring size of the last piece to a letter that stands alone:
// "she's O not N", "no I tell a lie, she's an R".
func (m *message) ringLetter(last Last) (Reading, bool) {
	option := map[string]string{"band": "ring", "saddle": "shank"}[last.Request]
	if option == "" || last.Options[option] == "" || m.of(ringSize) != nil || len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 13 || m.asksInWords() || m.has("thanks") || m.says("came out", "comes out", "turned out", "made it", "ended up") {
		return Reading{}, false
	}
	var letters []*quantity
	for i, t := range m.tokens {
		if len(t.text) != 1 || !t.capital || m.inFigure(i) || t.text == "x" || t.text == "i" || i == 0 && t.text == "a" || m.at(i+1).glued || m.denied(i) {
			continue
		}
		letters = append(letters, &quantity{measure: ringSize, shown: shownLetter(m, i), system: "uk", first: i, next: i + 1, unit: true})
	}
	if len(letters) == 2 && m.says("between") && letters[1].shown[0] == letters[0].shown[0]+1 && len(letters[0].shown) == 1 {
		letters[0].shown += " 1/2" // "between P and Q"
		letters = letters[:1]
	}
	if len(letters) != 1 {
		return Reading{}, false
	}
	q := letters[0]
	m.add(*q)
	d := m.draftWith(last.Request, last.Options)
	if option == "shank" {
		d.say("shank", "uk "+q.shown)
	} else {
		d.say("ring", q.shown)
		d.say("system", "uk")
	}
	for _, added := range m.found {
		added.used = true
	}
	return m.changedFrom(last, d), true
}

// shownLetter is the letter at i as a ring size, with the half that follows it.
func shownLetter(m *message, i int) string {
	letter := string(m.at(i).text[0] - 'a' + 'A')
	if part, _ := m.andPart(i + 1); part == 0.5 || m.at(i+1).text == "1/2" {
		return letter + " 1/2"
	}
	return letter
}
