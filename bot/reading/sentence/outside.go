package sentence

import "guildhand/bot/reading/intent"

// outsideTrade is a subject that guildhand leaves to others, with the words that
// ask for it.
type outsideTrade struct {
	topic string
	asks  [][]string
	text  string
}

// notMyTrade is the answer to what has no better one.
const notMyTrade = "That is not my trade. I answer how to cut and form settings, bezels, rings and domes, and what metal, heat and safety go with them."

var outsideTrades = []outsideTrade{
	{"prices of the day", [][]string{{"price", "cost", "=spot", "how much is", "whats it worth", "what is it worth", "whats it at", "what is it at", "whats gold at", "whats silver at", "gold worth", "silver worth", "rate", "per gram", "per ounce", "per oz", "an ounce", "going for"}, {"today", "=now", "atm", "per oz", "current price", "spot price", "silver spot", "gold spot", "=spot", "right now", "this week", "market", "going rate", "per ounce", "per gram", "an ounce", "going for"}},
		"I don't know the day's metal prices. I reckon costs from the prices that your guild has put into its configuration: weigh sheet 50x50 22ga sterling."},
	{"where to buy", [][]string{{"where can i buy", "where do i buy", "where to buy", "where can i get", "where do you buy", "where do i get", "who sells", "good supplier", "recommend a supplier", "know a supplier", "which supplier", "cheapest", "recommend a shop", "which shop", "best place to buy", "link to buy", "order online", "best brand", "which brand", "what brand", "best torch", "torch is the best", "torch is best", "=quid", "which torch should i buy", "what torch should i buy", "what torch to buy", "which torch to buy", "torch to buy", "best kiln", "kiln to buy", "kiln should i buy", "recommend a", "buy from amazon", "buy on amazon", "buy on etsy", "buy from etsy", "any good on amazon", "amazon or", "amazon ones", "amazon any good", "ebay any good", "on etsy or", "is amazon", "is etsy", "is ebay", "worth buying", "to buy it from", "buy it online", "buy them online", "buy online", "place to buy", "where would i buy", "where would i get", "where could i buy", "where could i get", "suppliers in", "supplier in", "anyone sell", "anybody sell", "sells it"}},
		"I don't know shops or brands; ask in the guild. I can tell what to buy for a piece: its sheet, wire or tube."},
	{"plating", [][]string{{"to plate a", "gold plate", "silver plate", "copper plate", "plating", "=plated", "electroplate", "electroforming", "electroform", "rhodium", "rhodium plating", "anodize", "anodise", "vermeil", "gold plated"}, {"voltage", "volts", "amps", "solution", "bath", "current", "how do i", "how to", "thickness", "micron", "microns", "rhodium", "electroforming", "electroform", "anodize", "anodise", "kit"}},
		"Plating and anodising are not my trade: baths, voltages and their hazards belong to their makers' instructions and to licensed shops. I answer settings, rings, domes, soldering and casting weights."},
	{"valuation", [][]string{{"appraise", "appraisal", "valuation", "value of my", "is it real", "is this real", "is my stone real", "ruby real", "diamond real", "sapphire real", "stone real", "real or fake", "a real", "is it real gold", "real silver or", "whats it worth", "whats this worth", "is my ring worth", "ring worth", "is it worth anything", "is it worth money", "worth anything", "stone worth", "how much can i sell", "what would you insure", "opal worth", "diamond worth", "sapphire worth", "garnet worth", "ruby worth", "emerald worth", "pearl worth", "gem worth", "turquoise worth", "worth roughly", "worth anything", "roughly worth", "do you charge", "do u charge", "you charge for", "scrap worth", "scrap silver worth", "scrap gold worth", "what should i charge", "how much should i charge", "what do i charge", "price my work", "sell it for", "insurance", "identify", "is it genuine", "what stone is this", "what is this stone"}},
		"I don't value, identify or price pieces; a gemmologist or valuer does. I can tell the metal's weight and the setting."},
	{"law", [][]string{{"hallmark", "hallmarking", "legal", "law", "lawyer", "copyright", "tax", "vat", "licence", "license", "=customs", "import", "stamp it 925", "stamp 925", "copy a designers", "copy a design", "somebody elses logo", "legally", "quality mark"}},
		"Law, tax and hallmarking differ by country: ask your assay office or the authority where you sell. I answer how to make the piece."},
	{"other crafts", [][]string{{"recipe", "etsy listing", "write my", "write me a", "logo", "instagram", "business card", "weather", "football", "movie", "poem", "joke", "president", "election", "homework", "python", "javascript", "stock market", "crochet", "knit", "knitting", "pottery", "glaze", "lampwork", "enamel", "enamelling", "enameling", "leather", "lapidary", "cut the stone myself", "facet a stone", "song", "capital of", "translate"}},
		notMyTrade},
	{"photograph by a ruler", [][]string{{"photo", "photograph", "picture", "pic", "snapshot"}, {"ruler", "coin", "tape measure", "graph paper", "squared paper"}},
		"I can't measure a photograph by a ruler or a coin. Lay the stone on the printed tracing card and use trace, or measure it with calipers."},
	{"findings", [][]string{{"bail", "necklace chain", "chain length", "necklace length", "ear wire", "earwire", "ear wires", "ear post", "ear posts", "earring post", "clasp", "toggle", "pin back", "brooch pin", "cufflink", "hinge", "rivet", "drill bit for", "what size drill", "what drill"}},
		"I don't work out findings, chains or drills. I can tell a gauge in mm for the drill (gauge 20), and the setting, ring or dome that they go on."},
}

// outside says in one sentence that a subject is not the trade, and what is.
func (m *message) outside() (Reading, bool) {
	if m.wantsPlating() {
		return Reading{Outcome: Declined, Topic: "plating", Text: textOutside("plating")}, true
	}
	named := m.says("worth", "insure", "amps", "volts", "who sells", "where can i buy", "where do i buy", "where to buy")
	if m.cues["kit"] >= 3 || m.cues["tubeset"] >= 5 || !m.asksFor(intent.Declined) && !named {
		return Reading{}, false
	}
	if m.startsWith("where") && m.says("can i get", "can i buy", "do i get", "do i buy", "to buy", "to get") {
		return Reading{Outcome: Declined, Topic: "where to buy", Text: textOutside("where to buy")}, true
	}
	for _, o := range outsideTrades {
		all := true
		for _, group := range o.asks {
			all = all && m.says(group...)
		}
		if all && !m.workOf(o.topic) {
			if r, ok := m.knownBeside(o.topic); ok {
				return r, true
			}
			return Reading{Outcome: Declined, Topic: o.topic, Text: o.text}, true
		}
	}
	return Reading{}, false
}

// textOutside is what is said of a subject that is left to others.
func textOutside(topic string) string {
	for _, o := range outsideTrades {
		if o.topic == topic {
			return o.text
		}
	}
	return notMyTrade
}

// plates are the verb for a coat of metal that a bath or a current makes, and askHow what
// stands before it in a question how that is done.
var (
	plates = wordSet("plate electroplate rhodium-plate anodise anodize electroform gild")
	askHow = wordSet("do can could should how would")
)

// wantsPlating matches "how do i gold plate this", and no backplate: somebody is to plate
// something.
func (m *message) wantsPlating() bool {
	for i, t := range m.tokens {
		if !plates[t.text] || m.says("back plate", "base plate") {
			continue
		}
		k := i - 1
		for k > 0 && (metalStems[m.at(k).stem] || m.at(k).text == "rhodium" || m.at(k).text == "nickel") {
			k--
		}
		who := m.at(k).text
		if (who == "i" || who == "you" || who == "we" || who == "one" || who == "to") && askHow[m.at(k-1).text] {
			return true
		}
	}
	return false
}

// outsideSomehow says that a message is not of the trade, by the subject that it has
// a word of.
func (m *message) outsideSomehow() Reading {
	for _, o := range outsideTrades {
		if m.says(o.asks[0]...) {
			return Reading{Outcome: Declined, Topic: o.topic, Text: o.text}
		}
	}
	return Reading{Outcome: Declined, Topic: "outside the trade", Text: notMyTrade}
}

// knownBeside explains what is known of a subject that is otherwise left to
// others: what a bail is, how a rivet holds.
func (m *message) knownBeside(topic string) (Reading, bool) {
	if topic != "findings" && topic != "other crafts" && topic != "plating" {
		return Reading{}, false
	}
	if r, ok := m.judged(); ok {
		return r, true
	}
	if r, ok := m.fact(); ok {
		return r, true
	}
	if r, ok := m.foreseen(); ok {
		return r, true
	}
	if m.figureCount() > 0 && (m.hasPiece() || m.says(wantsFigures...)) {
		return Reading{}, false
	}
	if topic == "findings" {
		return m.clearly(alsoFor, 1)
	}
	return m.clearly(alsoFor, 2)
}

// workOf rules out words of another trade in a question of ours: a rhodium
// plated ring's size, the price of a sheet of this size.
func (m *message) workOf(topic string) bool {
	switch topic {
	case "where to buy":
		if m.wholePiece() || m.says("start", "starting", "begin", "beginning", "starter") && m.says("what do i need", "need to buy", "least i need", "do i need", "budget", "bare minimum", "what should i buy first", "first tools", "tools") {
			return true
		}
		return m.says("amazon", "etsy", "ebay") && !m.says("buy", "where can i", "where do i get", "order", "recommend", "best", "cheapest", "supplier", "shop", "listing", "which brand", "what brand", "what torch", "which torch", "what kiln", "which kiln")
	case "plating":
		return m.has("backplate") || m.stoneSides() != nil
	case "findings":
		return m.has("solder") || m.says("solder", "join", "joint", "seam") || m.cues["collet"] >= 3 || m.cues["bezel"] >= 3 || m.cues["dome"] >= 3
	case "prices of the day":
		return m.of(size) != nil
	case "other crafts":
		return m.has("solder")
	}
	return false
}

// foreign are common words of other languages, by which a message is told to be
// in one of them.
var foreign = map[string][]string{
	"de": {"ich", "wie", "bei", "man", "welche", "welcher", "welches", "bitte", "warum", "zu", "auf", "von", "was", "der", "die", "das", "ein", "eine", "für", "mit", "und", "nicht", "ist", "viel", "stein", "silber", "brauche", "kann", "einen", "oder"},
	"fr": {"je", "comment", "longueur", "taille", "anneau", "épaisseur", "epaisseur", "coupe", "quelle", "quel", "pour", "avec", "une", "est", "les", "des", "combien", "argent", "pierre", "bague", "faut", "mon", "ma", "dans", "sur"},
	"pt": {"o", "os", "um", "uma", "não", "da", "na", "que", "qual", "quanto", "quanta", "quantos", "com", "de", "por", "para", "pra", "como", "foi", "ficou", "já", "são", "está", "sabe", "fazer", "posso", "anel", "prata", "pedra", "chapa", "solda", "virola", "latão", "cobre", "ouro", "casa", "semana", "entre", "dentro", "toda", "tudo", "em", "ou", "mais", "muito", "preciso", "fecha", "aliança"},
	"es": {"cuanto", "cuánto", "cuanta", "como", "cómo", "para", "un", "una", "anillo", "plata", "piedra", "que", "qué", "necesito", "el", "los", "con", "talla", "mi", "de"},
}

var sorry = map[string]string{
	"de": "Ich lese nur Englisch: zum Beispiel »collet oval 8x6 depth 4 sterling 22ga«. Erste Hilfe verstehe ich auch auf Deutsch.",
	"fr": "Je ne lis que l'anglais, par exemple : collet oval 8x6 depth 4 sterling 22ga. Les premiers secours, je les comprends aussi en français.",
	"pt": "Só leio inglês, por exemplo: collet oval 8x6 depth 4 sterling 22ga. Os primeiros socorros também entendo em português.",
	"es": "Solo leo inglés, por ejemplo: collet oval 8x6 depth 4 sterling 22ga. Los primeros auxilios también los entiendo en español.",
}

// readThroughWords reports whether figures and the trade's own words tell what a message
// in another language asks for.
func (m *message) readThroughWords() bool {
	wanted, chance := m.likeliest()
	return m.figureCount() > 1 || chance >= sure && (readersOf[wanted] != nil || wanted == "heat")
}

// otherLanguage answers a message in another language with one line of it.
func (m *message) otherLanguage() (Reading, bool) {
	best, hits := "", 0
	for _, lang := range []string{"de", "fr", "es", "pt"} {
		n := 0
		for _, w := range foreign[lang] {
			for _, t := range m.tokens {
				if t.text == w || t.corrected == w {
					n++
				}
			}
		}
		if n > hits {
			best, hits = lang, n
		}
	}
	words := 0
	for _, t := range m.tokens {
		if t.word() {
			words++
		}
	}
	if hits < 2 || 3*hits < words || best == "pt" && m.readThroughWords() {
		return Reading{}, false
	}
	return Reading{Outcome: Declined, Topic: "language " + best, Text: sorry[best]}, true
}
