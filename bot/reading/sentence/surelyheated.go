package sentence

// surelyHeat is how sure it must be that the heat of a metal is asked for to be told
// where the rules found a trouble or a caution, and hardlyMeant how unlikely what they
// found must be.
const (
	surelyHeat  = 0.75
	hardlyMeant = 0.15
)

// heatInstead tells the heat of the metal that a message names where all its words ask
// for it and only a word of a trouble, a job or another piece was found. Its answer has
// the cautions of annealing, soldering and quenching; a question about a danger keeps
// its own.
func (m *message) heatInstead(r Reading) Reading {
	if wanted, chance := m.likeliest(); wanted != "heat" || chance < likelyHeat || chance < surelyHeat && r.Outcome != Explanation || !m.besideHeat(r) {
		return r
	}
	fresh := m.anew()
	heat, ok := fresh.readAs("heat")
	switch {
	case !ok:
		return r
	case heat.Outcome == Question && heat.Missing == "alloy" && r.Outcome != Request:
		return heat // "which metal?" helps more than a question without it
	case heat.Outcome != Request || heat.Options["alloy"] == "" || len(fresh.alloys) == 0 && r.Outcome == Request:
		return r
	}
	return heat
}

// likelyHeat is asked for in place of an explanation where a point of the metal is named by
// one of meltWords.
const likelyHeat = 0.65

var meltWords = []string{"melt", "melts", "melting", "meltin", "melting point", "solidus", "liquidus", "annealing temperature", "anneal temp", "annealing temp", "flow point"}

// hazardWords ask about a danger.
var hazardWords = []string{"safe", "safely", "fumes", "fume", "danger", "dangerous", "toxic", "poison", "poisonous", "cadmium", "zinc", "lead", "explode", "mask", "ventilation", "hurt", "burn myself", "plumber", "plumbers", "soft solder"}

// heatAsked are words of a question about heat, which a report of a trouble has not.
var heatAsked = []string{"temperature", "temperatures", "temp", "temps", "heat", "heated", "hot", "hotter", "degrees", "colour", "color", "melt at", "melts at", "how is", "how are"}

// besideHeat reports whether a reading is of something else than heat, and is hardly
// meant.
func (m *message) besideHeat(r Reading) bool {
	if m.says(hazardWords...) || r.Verdict != "" || len(r.Changed) > 0 {
		return false
	}
	switch {
	case r.Request == "cautions" && m.has("pickle"):
		return false
	case r.Request == "trouble" && !m.says(heatAsked...):
		return false
	case r.Outcome == Request && (r.Request == "trouble" || r.Request == "cautions" || keepsOrShows[r.Request]):
		return m.byItself() && m.chance(r.Request) <= hardlyMeant
	case r.Outcome == Explanation:
		fact := factNamed(r.Topic)
		return m.byItself() && m.chance("heat") >= likelyHeat && len(m.alloys) > 0 && m.says(meltWords...) && (fact == nil || !fact.Warns) && r.Topic != ""
	}
	return m.foundNothing(r)
}
