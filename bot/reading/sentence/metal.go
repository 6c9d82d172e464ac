package sentence

import (
	"slices"
	"strings"

	"guildhand/calc/stock"
)

// metal is what the message says of the alloy.
type metal struct {
	// key is the alloy's in calc/stock; empty if none fits.
	key string
	// says names what was typed, "gold".
	says string
	// among are the alloys that it may be, where more than one.
	among       []string
	first, next int
	used        bool
}

// colours of karat gold. Nickel comes before palladium because a plain "white"
// mostly means it; where it matters the maker is asked.
var colours = map[string]string{
	"yellow": "yellow", "rose": "rose", "red": "rose", "pink": "rose", "white": "white", "green": "green",
	"yell": "yellow", "ylw": "yellow", "yg": "yellow", "rg": "rose", "wg": "white",
}

// colourLetters are colours by the letter behind a karat, with "g" for gold or without:
// "18ky", "14kwg", "9r".
var colourLetters = map[string]string{"y": "yellow", "yg": "yellow", "w": "white", "wg": "white", "r": "rose", "rg": "rose"}

// ofAge come behind years: "my 14y old".
var ofAge = map[string]bool{"old": true, "olds": true, "o": true, "yo": true, "kid": true, "kids": true, "daughter": true, "son": true, "girl": true, "girls": true, "boy": true, "boys": true, "student": true, "students": true, "ago": true}

// fineness of gold in thousandths, and its karats.
var fineness = map[string]string{"375": "9", "417": "10", "416": "10", "583": "14", "585": "14", "750": "18", "916": "22", "917": "22"}

// metals finds alloys: names and aliases of calc/stock, karat golds with their
// colour in any order, and words that may be several.
func (m *message) metals() {
	for i := 0; i < len(m.tokens); i++ {
		if m.taken[i] {
			continue
		}
		got, ok := m.karat(i)
		if before := m.at(i - 1).text; ok && m.at(i).number && (before == "x" || before == "by") && m.at(i+1).text == "gold" {
			ok = false // "16x10 gold filled"
		}
		if !ok {
			got, ok = m.named(i)
		}
		if bad, is := m.named(i); is && bad.key == "" && bad.next > got.next {
			got, ok = bad, true // "gold filled" is no gold
		}
		if !ok {
			continue
		}
		for k := got.first; k < got.next; k++ {
			m.taken[k] = true
		}
		i = got.next - 1
		m.alloys = append(m.alloys, &got)
	}
	m.toolMetals()
	m.sameMetalTwice()
}

// toolMetals leaves out steel and the like where they are a tool's, or another
// metal is named besides.
func (m *message) toolMetals() {
	golden := slices.ContainsFunc(m.alloys, func(a *metal) bool { return strings.Contains(a.key, "k-") || a.says == "gold" })
	m.alloys = slices.DeleteFunc(m.alloys, func(a *metal) bool {
		if a.says == "fine" && golden {
			return true // the fineness of a gold
		}
		tool := a.says == "steel" || a.says == "mild steel" || a.says == "iron" || a.says == "stainless" || a.says == "stainless steel" || a.says == "tungsten" || a.says == "zinc"
		next := m.at(a.next)
		return tool && (len(m.alloys) > 1 || counted[next.stem] == "" && next.word() && next.text != "sheet" && next.text != "wire" && next.text != "ring" && next.text != "band" && next.text != "and")
	})
}

// sameMetalTwice keeps the nearer of two names of one metal: "gold, its 14k".
func (m *message) sameMetalTwice() {
	m.finenessApart()
	m.alloys = slices.DeleteFunc(m.alloys, func(a *metal) bool {
		return slices.ContainsFunc(m.alloys, func(b *metal) bool {
			return b != a && len(a.among) > 0 && (len(b.among) < len(a.among)) && b.key != "" && slices.Contains(a.among, b.key) && a.says != "silver"
		})
	})
	for k := len(m.alloys) - 1; k > 0; k-- { // "palladium white gold"
		pd, gold := m.alloys[k-1], m.alloys[k]
		if pd.key == "palladium-950" && strings.HasSuffix(gold.key, "-white") && gold.first == pd.next {
			gold.key, gold.among = gold.key+"-palladium", nil
			m.alloys = slices.Delete(m.alloys, k-1, k)
			return
		}
	}
	for k := len(m.alloys) - 1; k > 0; k-- { // "18k white (the palladium one)"
		gold, second := m.alloys[k-1], m.alloys[k]
		if second.key == "palladium-950" && strings.HasSuffix(gold.key, "-white") && second.first-gold.next <= 2 {
			gold.key, gold.among = gold.key+"-palladium", nil
			m.alloys = slices.Delete(m.alloys, k, k+1)
		}
	}
}

// finenessApart joins a gold and its fineness that stand apart: "a white gold ring 750".
func (m *message) finenessApart() {
	for k, f := range m.alloys {
		karats := fineness[f.says]
		if karats == "" {
			continue
		}
		for _, gold := range m.alloys {
			i := slices.IndexFunc(gold.among, func(key string) bool { return strings.HasPrefix(key, karats+"k-") })
			if gold != f && i >= 0 {
				gold.key, gold.among = gold.among[i], nil
				m.alloys = slices.Delete(m.alloys, k, k+1)
				return
			}
		}
	}
}

// karat reads "14k", "18 ct rose", "rose 14", "white gold 18 karat", "750 white".
func (m *message) karat(i int) (metal, bool) {
	j, karats, colour, gold, palladium, nickel := i, "", "", false, false, false
	for ; j < len(m.tokens) && !m.taken[j]; j++ {
		t := m.at(j)
		sized := sizeWords[m.at(j-1).text] || sizeSystems[m.at(j-1).text] != ""
		word := speltKarats[t.text] != "" && contains([]string{"carat", "karat", "ct", "kt", "k"}, m.at(j+1).text)
		if (t.number || word) && karats == "" && (!sized || m.at(j+1).text == "k" || m.at(j+1).text == "ct" || m.at(j+1).text == "kt") {
			k, next := m.karatsAt(j, colour != "" || gold)
			if k == "" {
				break
			}
			karats = k
			j = next - 1
			if c := colourLetters[strings.TrimPrefix(m.at(j).text, "k")]; c != "" {
				colour = c
			}
			continue
		}
		if c := colours[t.text]; c != "" && colour == "" {
			colour = c
			if t.text == "yg" || t.text == "rg" || t.text == "wg" {
				gold = true
			}
			continue
		}
		if karats != "" && colour == "" && m.isColourLetter(j) {
			colour = colourLetters[t.text]
			continue
		}
		if t.text == "gold" && !gold {
			gold = true
			continue
		}
		if (t.text == "palladium" || t.text == "pd") && !palladium && (gold || colour != "" || karats != "") {
			palladium = true
			continue
		}
		if t.text == "nickel" && !nickel && (gold || colour == "white" || karats != "" && m.at(j+1).text == "white") {
			nickel = true
			continue
		}
		if (t.text == "-" || t.text == "in") && t.glued && (karats != "" || colour != "") && j+1 < len(m.tokens) {
			continue
		}
		break
	}
	for j > i && m.at(j-1).text == "-" {
		j--
	}
	if karats == "" && !gold || karats != "" && !gold && colour == "" && bareFineness(m.at(i)) && !m.metalAround(i, j) {
		return metal{}, false
	}
	return m.goldBetween(i, j, karats, colour, palladium, nickel), true
}

// isColourLetter reports whether a small letter behind a karat is the gold's colour, "9ct w":
// a capital may be a ring's size, and before a figure or a stone it is short for "with".
func (m *message) isColourLetter(i int) bool {
	t, next := m.at(i), m.at(i+1)
	if t.text != "w" && t.text != "y" || t.capital || next.number {
		return false
	}
	return t.text == "y" || !next.word() && next.text != "-" || contains([]string{"gold", "and", "or", "for", "in", "ring", "band", "bezel", "collet", "wax", "wire", "sheet", "please", "casting", "solder", "prongs", "claws"}, next.text)
}

// goldBetween is the gold that the tokens from i to before j name.
func (m *message) goldBetween(i, j int, karats, colour string, palladium, nickel bool) metal {
	if karats == "24" {
		return metal{key: "fine-gold", says: "24k", first: i, next: j}
	}
	keys := goldKeys(karats, colour, palladium, nickel)
	got := metal{says: m.between(i, j), among: keys, first: i, next: j}
	switch {
	case len(keys) == 1:
		got.key, got.among = keys[0], nil
	case karats != "" && len(keys) > 0:
		got.key = keys[0] // the usual of them; frames that need to know ask
		if colour == "" && !palladium && !nickel {
			got.among = nil // "14k" is yellow unless a colour is said
		}
	}
	return got
}

func bareFineness(t token) bool { return t.number && len(t.text) == 3 && fineness[t.text] != "" }

// makesOfGold reports whether a fineness at i is what gold is to become: "gold 585, I
// want to make 750".
func (m *message) makesOfGold(i int) bool {
	before := m.at(i - 1).text
	return (before == "make" || before == "to" || before == "into" || before == "reach") && slices.ContainsFunc(m.tokens, func(t token) bool { return t.text == "gold" })
}

// metalAround reports whether a metal's word is beside a bare fineness.
func (m *message) metalAround(i, j int) bool {
	if m.makesOfGold(i) {
		return true
	}
	ofGold := slices.ContainsFunc(m.tokens, func(t token) bool { return t.text == "gold" })
	if u, _ := m.unitAt(j, m.at(i).value); ofGold && u.measure == bare && (!m.at(j).word() || m.at(j).text == "and") {
		return true // "a white gold ring 750"
	}
	return metalStems[m.at(i-1).stem] || metalStems[m.at(j).stem] || m.at(i-1).text == "in" || m.at(i-1).text == "au"
}

// speltKarats are karats in words.
var speltKarats = map[string]string{"nine": "9", "ten": "10", "fourteen": "14", "eighteen": "18"}

// karatsAt reads the karats of a gold at i: a number with k, kt, ct or karat
// after it, a fineness, or a plain number beside a colour or "gold".
func (m *message) karatsAt(i int, golden bool) (karats string, next int) {
	t, after := m.at(i), m.at(i+1)
	if spelt := speltKarats[t.text]; spelt != "" {
		t.text = spelt
	}
	known := slices.Contains([]string{"8", "9", "10", "14", "15", "18", "22", "24"}, t.text)
	if f := fineness[t.text]; f != "" {
		if u, _ := m.unitAt(i+1, t.value); u.measure == bare {
			return f, i + 1
		}
	}
	if !known {
		return "", i
	}
	next = i + 1
	if after.text == "-" && after.glued {
		next, after = i+2, m.at(i+2)
	}
	switch after.text {
	case "ky", "kyg", "kw", "kwg", "kr", "krg":
		return t.text, next + 1
	case "k", "kt", "kts", "karat", "karats", "kar", "carrot", "carot":
		return t.text, next + 1
	case "ct", "cts", "carat", "carats":
		common := t.text == "9" || t.text == "14" || t.text == "18" || t.text == "22"
		if golden || goldNear(m, next+1) || common && m.at(next+1).text != "diamond" && m.at(next+1).text != "stone" && m.at(next+1).text != "of" || !m.speaksOfStone() && t.text != "10" && t.text != "8" {
			return t.text, next + 1
		}
		return "", i
	case "gold", "yellow", "rose", "white", "green", "red", "yg", "rg", "wg":
		return t.text, i + 1
	case "y", "w", "r": // "18y"
		if after.glued && !ofAge[m.at(next+1).text] {
			return t.text, next + 1
		}
	}
	if golden && (i+1 >= len(m.tokens) || !unitLike(after.text) && after.text != "x" && after.text != "by" && after.text != "g" && counted[after.stem] == "") {
		return t.text, i + 1
	}
	return "", i
}

func goldNear(m *message, i int) bool {
	w := m.at(i).text
	return w == "gold" || colours[w] != ""
}

// speaksOfStone reports whether a carat may be a stone's.
func (m *message) speaksOfStone() bool {
	for _, t := range m.tokens {
		switch t.stem {
		case "stone", "gem", "gemston", "diamond", "sapphir", "rubi", "facet":
			return true
		}
	}
	return false
}

// goldKeys lists the alloys of these karats and this colour, the usual one first.
func goldKeys(karats, colour string, palladium, nickel bool) []string {
	var keys []string
	for _, a := range stock.Alloys() {
		k, _, isGold := strings.Cut(a.Key, "k")
		if !isGold || !isDigits(k) {
			continue
		}
		if karats != "" && k != karats {
			continue
		}
		_, shade, _ := strings.Cut(a.Key, "-")
		switch {
		case palladium && !strings.HasSuffix(a.Key, "palladium"), nickel && strings.HasSuffix(a.Key, "palladium"):
			continue
		case palladium || nickel:
			if !strings.HasPrefix(shade, "white") {
				continue
			}
		case colour != "" && shade != "" && !strings.HasPrefix(shade, colour):
			continue
		case colour == "" && karats != "" && shade != "yellow" && shade != "":
			continue
		}
		keys = append(keys, a.Key)
	}
	return keys
}

func isDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// metalNames are phrases of the alloys' own names and aliases, and of everyday
// names besides; a value with several keys may be any of them.
var metalNames = func() map[string][]string {
	names := map[string][]string{}
	for _, a := range stock.Alloys() {
		for _, n := range append([]string{a.Key}, a.Aliases...) {
			if a.Key == "fine-silver" && n == "silver" || isDigits(n) {
				continue
			}
			names[strings.ReplaceAll(n, "-", " ")] = []string{a.Key}
		}
	}
	for _, e := range everydayMetals {
		for _, say := range e.say {
			names[say] = e.keys
		}
	}
	for _, say := range unknownMetals {
		names[say] = nil
	}
	return names
}()

// everydayMetals are metals as members name them, beside the alloys' own names.
var everydayMetals = []struct {
	say  []string
	keys []string
}{
	{[]string{"silver"}, []string{"sterling", "fine-silver"}},
	{[]string{"sterling", "sterling silver", "stirling", "stirling silver", "ster", "stg", "ss", "925", "925 silver", "silver 925", "sterling 925", "sterlin", "sterlin silver"}, []string{"sterling"}},
	{[]string{"fine"}, []string{"fine-silver"}},
	{[]string{"fine silver", "finesilver", "999 silver", "999", "silver 999", "pure silver", "fs", "999 fine silver", "fine silver 999"}, []string{"fine-silver"}},
	{[]string{"argentium", "argentium silver", "argentium 935", "935 argentium", "935", "germanium silver"}, []string{"silver-935"}},
	{[]string{"argentium 960", "960 argentium", "960"}, []string{"silver-960"}},
	{[]string{"jewellers brass", "yellow brass"}, []string{"brass"}},
	{[]string{"german silver", "nickel silver", "nickle silver", "alpaca"}, []string{"nickel-silver"}},
	{[]string{"bronze"}, []string{"commercial-bronze"}},
	{[]string{"platinum", "plat", "platnum", "950 platinum"}, []string{"platinum-950"}},
	{[]string{"titanium", "ti"}, []string{"titanium"}},
	{[]string{"niobium"}, []string{"niobium"}},
	{[]string{"aluminium", "aluminum"}, []string{"aluminium"}},
	{[]string{"pewter"}, []string{"pewter"}},
	{[]string{"nugold", "nu gold", "red brass", "jewelers bronze", "jewellers bronze"}, []string{"red-brass"}},
}

// unknownMetals are metals that there are no figures for. The nearest one is
// asked for. Adding one is a word here.
var unknownMetals = []string{
	"gold filled", "goldfilled", "gold fill", "rolled gold", "silver filled", "gold plated", "silver plated", "gold vermeil", "vermeil", "plated silver", "stainless steel", "stainless", "silver steel",
	"mild steel", "steel", "damascus", "damascus steel", "mokume", "mokume gane", "shakudo", "shibuichi", "electrum", "white bronze", "iron", "zinc", "tungsten", "tantalum", "zirconium", "cobalt chrome", "pinchbeck", "britannia silver", "britannia", "billon", "cupronickel", "monel", "britannia metal",
}

// metalNameLengths has, by the first word of the metals' names, how many words they have:
// bit n for n words.
var metalNameLengths = func() map[string]uint8 {
	lengths := map[string]uint8{}
	for name := range metalNames {
		words := strings.Split(name, " ")
		lengths[words[0]] |= 1 << min(len(words), 7)
	}
	return lengths
}()

// named reads an alloy's name at i, the longest first.
func (m *message) named(i int) (metal, bool) {
	if of, has := strings.CutSuffix(m.at(i).text, "s"); has && (of == "silver" || of == "gold" || of == "copper") {
		m.tokens[i].text = of // "the silver's 1.3 thick"
	}
	lengths := metalNameLengths[m.at(i).text]
	for n := 3; n >= 1; n-- {
		if i+n > len(m.tokens) || lengths&(1<<n) == 0 {
			continue
		}
		var words []string
		for k := i; k < i+n; k++ {
			if m.taken[k] || m.at(k).text == "-" {
				words = nil
				break
			}
			words = append(words, m.at(k).text)
		}
		keys, ok := metalNames[strings.Join(words, " ")]
		if !ok {
			continue
		}
		if n == 1 && m.notMetal(i) {
			return metal{}, false
		}
		if len(keys) == 0 {
			return metal{says: strings.Join(words, " "), first: i, next: i + n}, true
		}
		got := metal{key: keys[0], says: strings.Join(words, " "), first: i, next: i + n}
		if len(keys) > 1 {
			got.among = keys
		}
		return got, true
	}
	return metal{}, false
}

// notMetal matches a word that is mostly no alloy where it stands: a bare 925
// with a unit after it, "silver solder", "gold leaf".
func (m *message) notMetal(i int) bool {
	t := m.at(i)
	if t.number {
		u, _ := m.unitAt(i+1, t.value)
		return u.measure != bare || m.at(i+1).text == "x"
	}
	if t.text == "fine" { // "28 ga fine", "28g fine", "0.3 fine"
		before := m.at(i - 1).text
		if before == "," || before == "-" || before == "." {
			before = m.at(i - 2).text
			return !unitLike(before) && (m.at(i+1).word() || before == "")
		}
		return !(m.at(i-1).number || unitLike(before) || before == "g" && m.at(i-2).number)
	}
	if len(t.text) <= 2 && t.text != "ss" && t.text != "fs" { // pt, pd, cu, ti, fs: only beside a metal's figure
		return !(m.at(i-1).number || m.at(i+1).number || unitLike(m.at(i-1).text))
	}
	return m.at(i+1).stem == "solder" && (t.text == "silver" || t.text == "gold")
}

// metal returns the first metal of the message that no reading has.
func (m *message) metal() *metal {
	for _, a := range m.alloys {
		if !a.used {
			return a
		}
	}
	return nil
}

// likeliestKey is the key of an alloy, or of the usual one of those that it may be;
// empty for a metal that there are no figures for.
func (a *metal) likeliestKey() string {
	if a.key == "" && len(a.among) > 0 {
		return usual(a.among)
	}
	return a.key
}

// usual is the alloy to take where several fit and it does not matter much.
func usual(keys []string) string {
	for _, k := range []string{"sterling", "18k-yellow", "18k-rose", "18k-white", "14k-yellow"} {
		if slices.Contains(keys, k) {
			return k
		}
	}
	return keys[0]
}

// spread picks the three most asked for, so that choices differ by karat.
func spread(keys []string) []string {
	var picked []string
	for _, k := range []string{"sterling", "fine-silver", "silver-935", "14k-yellow", "18k-yellow", "9k-yellow", "18k-white", "18k-white-palladium", "14k-white"} {
		if slices.Contains(keys, k) {
			picked = append(picked, k)
		}
	}
	for _, k := range keys {
		if !slices.Contains(picked, k) {
			picked = append(picked, k)
		}
	}
	return picked
}

func alloyName(key string) string {
	if a := alloyOf(key); a.Key != "" {
		return a.Name
	}
	return key
}

// solidus is where an alloy begins to melt, °C; far up for one that is unknown.
func solidus(key string) float64 {
	if a := alloyOf(key); a.Key != "" {
		return a.SolidusC
	}
	return 1e9
}

// alloyOf is the alloy of a key, empty if there is none.
func alloyOf(key string) stock.Alloy {
	for _, a := range stock.Alloys() {
		if a.Key == key {
			return a
		}
	}
	return stock.Alloy{}
}

// ofGold reports whether a metal is a gold of any colour and karat.
func (a *metal) ofGold() bool { return strings.Contains(alloyName(a.likeliestKey()), "gold") }
