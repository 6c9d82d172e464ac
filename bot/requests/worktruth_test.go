package requests

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
	"guildhand/calc/stone"
	"guildhand/calc/testcount"
)

// makingLines are a line of every request that makes something of an alloy; %s
// is the alloy. Those that take a stone have "gem" or "stone" put behind.
var makingLines = map[string]string{
	"collet":   "collet oval 8x6 depth 4 %s 22ga",
	"scored":   "collet emerald 8x6 depth 4 %s 20ga corner scored",
	"precone":  "collet round 6 depth 3.7 %s 22ga precone",
	"collar":   "collar oval 8x6 depth 4 %s 22ga block demo-oval",
	"bezel":    "bezel oval 10x8 dome 4 %s 26ga bearing step",
	"prongs":   "prongs oval 8x6 depth 4 %s 20ga",
	"band":     "band us 7 width 4 1.5mm %s",
	"jumpring": "jumpring 18ga inside 5 count 10 %s",
	"resize":   "resize us 6 to us 7 width 4 1.5mm %s",
	"tubeset":  "tubeset round 4 %s",
	"saddle":   "saddle oval 8x6 depth 4 %s 22ga shank us 7 1.5mm",
	"halo":     "halo oval 8x6 with 1.3 %s",
	"smaller":  "resize us 8 to us 6 width 4 1.5mm %s stones",
	"dome":     "dome 20 hemisphere 24ga %s",
	"weigh":    "weigh sheet 50x20 22ga %s",
	"melt":     "melt wax 3.2g %s",
	"dip":      "melt dip 8x6 height 5 wall 0.9 %s lean 8.5 tip 2",
	"match":    "match strip 28x6 20ga %s",
	"heat":     "heat %s joints 3",
	"kit":      "kit 3 makers collet oval 8x6 depth 4 %s 22ga",
}

// What must be said of which metals, by their names: a table of its own, not
// derived from the table that the program chooses by.
var (
	cracksInQuench = []string{"18k-white", "14k-white", "10k-white", "9k-white", "nickel-silver"}
	brittleIfSlow  = []string{"18k-rose", "14k-rose", "10k-rose", "9k-rose"}
	whiteHot       = []string{"platinum-950", "palladium-950"}
	dustBurns      = []string{"titanium", "niobium", "aluminium"}
	boilsZinc      = []string{"brass", "red-brass", "commercial-bronze", "nickel-silver"}
	notSolderable  = []string{"titanium", "niobium", "aluminium"}
	notPickled     = []string{"titanium", "niobium", "aluminium", "pewter", "platinum-950", "palladium-950"}
	silverSolder   = []string{"fine-silver", "sterling", "silver-935", "silver-960", "copper", "red-brass", "brass", "commercial-bronze", "phosphor-bronze", "nickel-silver"}
	notAnnealed    = []string{"titanium", "niobium", "pewter"}
	notCastHere    = []string{"titanium", "niobium"}
)

var (
	torchStep  = regexp.MustCompile(`(?i)\banneal it (at|again)|heat to \d|\bsolder it with|\brun [a-z0-9 ]*solder`)
	pickleStep = regexp.MustCompile(`(?i)rinse and pickle|warm sodium`)
	pressStep  = regexp.MustCompile(`; press |pressings?\b`)
	sawStep    = regexp.MustCompile(`(?i)\bsaw |cut the strip|cut .* of tube`)
	punchStep  = regexp.MustCompile(`(?i)strike with a punch|with punch|with a [a-z]+ punch|hammering`)
)

// bare are an answer's steps without the cautions in them.
func bare(a *answer.Answer) string {
	text := strings.Join(a.Steps, "\n")
	for _, c := range cautions.All() {
		text = strings.ReplaceAll(text, c.Short, "")
		text = strings.ReplaceAll(text, c.Full, "")
	}
	return text
}

// takesStone returns the line with a gem, for requests that take one.
func takesStone(name, line, gem string) (string, bool) {
	switch name {
	case "collet", "scored", "precone", "collar", "bezel", "prongs", "kit":
		return line + " gem " + gem, true
	case "heat":
		return line + " stone " + gem, true
	}
	return "", false
}

// mustSay are the sentences that an answer carries on itself, and those that it
// carries there or in a step.
func mustSay(name, alloy, gem, steps string) (onAnswer, anywhere []string) {
	torch := torchStep.MatchString(steps)
	melts := name == "melt" || name == "dip"
	say := func(list *[]string, when bool, words string) {
		if when {
			*list = append(*list, words)
		}
	}
	say(&onAnswer, torch && slices.Contains(cracksInQuench, alloy), "cool in air")
	say(&onAnswer, torch && slices.Contains(brittleIfSlow, alloy), "Quench red gold")
	say(&onAnswer, (torch || melts) && slices.Contains(whiteHot, alloy), "welding lens")
	say(&onAnswer, melts && slices.Contains(boilsZinc, alloy), "zinc")
	say(&onAnswer, sawStep.MatchString(steps) && !torch && slices.Contains(dustBurns, alloy), "dust")
	say(&onAnswer, torch && gem != "", "Take the stone out")
	say(&onAnswer, torch && name == "dome", "vent hole")
	say(&onAnswer, melts, "bone dry")
	say(&onAnswer, name == "melt", "respirator")
	say(&anywhere, melts, "respirator")
	say(&anywhere, melts, "face shield")
	say(&anywhere, torch && slices.Contains(boilsZinc, alloy) && !melts, "zinc")
	say(&anywhere, pickleStep.MatchString(steps), "goggles")
	say(&anywhere, pressStep.MatchString(steps) && name == "collar", "hands out from under the ram")
	say(&anywhere, sawStep.MatchString(steps) && name != "kit", "eye protection")
	say(&anywhere, punchStep.MatchString(steps) && name != "kit", "soft hammer")
	say(&anywhere, strings.Contains(steps, "drill") && name == "prongs", "Clamp the sheet")
	say(&anywhere, pickleStep.MatchString(steps) && slices.Contains([]string{"pearl", "turquoise", "peridot"}, gem), "acid eats")
	say(&anywhere, name == "dip", "never put water")
	return onAnswer, anywhere
}

// Every request, in every alloy, with every stone: what must be said is said,
// and no step contradicts heat.
func TestCautionsThatMustBeThere(t *testing.T) {
	t.Parallel()
	specs := All(nil)
	asked := 0
	for _, alloy := range stock.Alloys() {
		for name, form := range makingLines {
			line := fmt.Sprintf(form, alloy.Key)
			a, err := requeststest.Ask(specs, line)
			if (name == "melt" || name == "dip") && slices.Contains(notCastHere, alloy.Key) {
				refused, ok := answer.AsRefusal(err)
				require.True(t, ok, "%s is answered", line)
				assert.Contains(t, refused.Problem, "not melted at the bench")
				continue
			}
			require.NoError(t, err, line)
			asked++
			steps := bare(a)
			checkSaid(t, line, a, name, alloy.Key, "", steps)
			checkSteps(t, line, name, alloy, steps)
			for _, gem := range stone.Gems() {
				with, ok := takesStone(name, line, gem.Key)
				// What is said of a stone depends little on the metal: but for the long
				// run, every stone in one metal and a stone of each kind in the others; in a
				// sample, a stone of each kind in one metal. A collar and a kit are slow, and
				// take their words from where the collet does.
				all := alloy.Key == "sterling" && name != "collar" && name != "kit" && testcount.Whole() || testcount.Long()
				some := slices.Contains([]string{"opal", "pearl", "diamond"}, gem.Key) && (alloy.Key == "sterling" || testcount.Whole())
				if !ok || !all && !some {
					continue
				}
				b, err := requeststest.Ask(specs, with)
				require.NoError(t, err, with)
				asked++
				checkSaid(t, with, b, name, alloy.Key, gem.Key, bare(b))
			}
		}
	}
	t.Logf("%d answers", asked)
	assert.Greater(t, asked, testcount.Of(600, 1500, 4000))
}

func checkSaid(t *testing.T, line string, a *answer.Answer, name, alloy, gem, steps string) {
	t.Helper()
	if name == "kit" {
		// The kit's own steps are its cut list: its pieces' are on the handout.
		collet, err := requeststest.Ask(All(nil), strings.TrimPrefix(line, "kit 3 makers "))
		require.NoError(t, err)
		steps = bare(collet)
	}
	onAnswer, anywhere := mustSay(name, alloy, gem, steps)
	carried := strings.Join(a.Cautions, "\n")
	for _, words := range onAnswer {
		if !strings.Contains(carried, words) {
			t.Errorf("%s: the answer does not say %q: %q", line, words, a.Cautions)
		}
	}
	all := strings.ToLower(carried + "\n" + strings.Join(a.Steps, "\n"))
	for _, words := range anywhere {
		if name != "kit" && !strings.Contains(all, strings.ToLower(words)) {
			t.Errorf("%s: nothing says %q", line, words)
		}
	}
	if len(a.Cautions) > cautions.MostShown {
		t.Errorf("%s: %d cautions", line, len(a.Cautions))
	}
}

// checkSteps holds the steps of a line against the alloy's heat.
func checkSteps(t *testing.T, line, name string, alloy stock.Alloy, steps string) {
	t.Helper()
	never := func(words string, why string) {
		if found := regexp.MustCompile(words).FindString(steps); found != "" {
			t.Errorf("%s: %q, but %s", line, found, why)
		}
	}
	has := func(list []string) bool { return slices.Contains(list, alloy.Key) }
	if has(notPickled) {
		never(`(?i)rinse and pickle|then pickle|pickle it|warm sodium`, "this metal is not pickled")
	}
	if has(notSolderable) {
		never(`(?i)solder it with|run [^.]*solder|\bquench`, "this metal is not soldered at the bench")
	}
	if has(notAnnealed) {
		never(`(?i)anneal it|heat to \d`, "this metal is not annealed with a torch")
	}
	if has(cracksInQuench) || has(whiteHot) {
		never(`(?i)[^e]quench(?:ed)? (in|it|from|as|once)|then quench`, "this metal is cooled in air")
	}
	if !has(silverSolder) {
		never(`(?i)(with|run) (hard|medium|easy) (silver )?solder`, "this metal takes solder of its own")
	}
	if slices.Contains([]stock.Family{stock.Gold, stock.RoseGold, stock.WhiteGold}, alloy.Family) && strings.Contains(steps, "solder it with") {
		if !regexp.MustCompile(`solder it with (hard|medium|easy) (\d+ karat|gold solder of)`).MatchString(steps) {
			t.Errorf("%s: gold is not soldered with gold solder of its carat", line)
		}
	}
	// What steps say of annealing and cooling is what heat says.
	heat, err := requeststest.Ask(All(nil), "heat "+alloy.Key)
	require.NoError(t, err)
	_, cool, annealed := strings.Cut(strings.TrimSuffix(heat.Headline, "."), " °C, then ")
	for _, m := range regexp.MustCompile(`anneal it at (\d+) to (\d+) °C, then ([^.\n]*)`).FindAllStringSubmatch(steps, -1) {
		assert.Equal(t, fmt.Sprintf("%.0f %.0f", alloy.AnnealLowC, alloy.AnnealHighC), m[1]+" "+m[2], line)
		assert.True(t, annealed && strings.HasPrefix(m[3], cool), "%s: %q, heat says %q", line, m[3], cool)
	}
	if annealed && name != "heat" {
		for _, m := range regexp.MustCompile(`solder it with [^\n]*?, then ([^.\n]*)`).FindAllStringSubmatch(steps, -1) {
			assert.True(t, strings.HasPrefix(m[1], cool), "%s: %q, heat says %q", line, m[1], cool)
		}
	}
}

// The checks above fail for steps that are wrong.
func TestChecksOfStepsCanFail(t *testing.T) {
	white, _ := stock.AlloyByKey("18k-white")
	titanium, _ := stock.AlloyByKey("titanium")
	for _, row := range []struct {
		alloy stock.Alloy
		steps string
	}{
		{white, "solder it with hard solder, then let it cool"},
		{white, "anneal it at 607 to 650 °C, then quench in water"},
		{titanium, "solder it with hard silver solder"},
		{titanium, "rinse and pickle"},
	} {
		inner := &testing.T{}
		func() {
			defer func() { _ = recover() }()
			checkSteps(inner, "line", "collet", row.alloy, row.steps)
		}()
		assert.True(t, inner.Failed(), row.steps)
	}
}

// A word that names several metals is asked back, with a line that works.
func TestVagueMetalsAreAskedBack(t *testing.T) {
	for _, word := range []string{"gold", "silver", "white-gold", "yellow-gold", "rose-gold"} {
		for _, line := range []string{"heat " + word, "collet oval 8x6 depth 4 22ga " + word, "melt wax 3g " + word} {
			_, err := requeststest.Ask(All(nil), line)
			refused, ok := answer.AsRefusal(err)
			require.True(t, ok, line)
			assert.Contains(t, refused.Problem, "which "+strings.ReplaceAll(word, "-", " ")+" is it")
			_, err = requeststest.Ask(All(nil), refused.Try)
			assert.NoError(t, err, refused.Try)
		}
	}
	for _, v := range stock.VagueWords() {
		for _, key := range v.Of {
			a, ok := stock.AlloyByKey(key)
			assert.True(t, ok && a.Key == key, "%s names %s", v.Word, key)
		}
	}
}

// Solder has its margin to the lowest published solidus: 779 °C for sterling
// (Machinery's Handbook, 31st ed., table 1a, BAg-19; others print 788 and 802).
func TestMarginsGoByTheLowestSolidus(t *testing.T) {
	hard, err := requeststest.Ask(All(nil), "heat sterling solder hard")
	require.NoError(t, err)
	assert.InDelta(t, 779-788, requeststest.Value(t, hard, "solder_margin"), 1)
	assert.Contains(t, hard.Notes[0], "no sure margin")
	medium, err := requeststest.Ask(All(nil), "heat sterling solder medium")
	require.NoError(t, err)
	assert.InDelta(t, 779-738, requeststest.Value(t, medium, "solder_margin"), 1)
	assert.Empty(t, medium.Notes)
	_, err = requeststest.Ask(All(nil), "heat sterling solder extra-hard")
	refused, ok := answer.AsRefusal(err)
	require.True(t, ok)
	assert.Contains(t, refused.Problem, "779 to 802 °C")
}
