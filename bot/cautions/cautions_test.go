package cautions

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// vague are phrases that were misread: telegrams, permissions and idioms.
var vague = []string{"no hot metal", "looks cold", "trained eye", "fingers aside", "no mixing", "under its rating", "near water", "bear more heat", "is safe", "are safe", "safely", "harmless"}

func TestEveryTextIsASentenceWithASource(t *testing.T) {
	require.Greater(t, len(hazards), 40)
	keys := map[string]bool{}
	for _, c := range hazards {
		require.NotEmpty(t, c.Key)
		assert.False(t, keys[c.Key], "%s stands twice", c.Key)
		keys[c.Key] = true
		assert.LessOrEqual(t, utf8.RuneCountInString(c.Short), 90, c.Short)
		assert.NotEmpty(t, c.Hazard, c.Key)
		assert.NotEmpty(t, c.Harm, c.Key)
		assert.NotEmpty(t, c.When.Jobs, c.Key)
		for _, j := range c.When.Jobs {
			assert.Contains(t, Jobs(), j, c.Key)
		}
		assert.GreaterOrEqual(t, utf8.RuneCountInString(c.Full), utf8.RuneCountInString(c.Short)/2, c.Key)
	}
	rows := Sources()
	assert.Greater(t, len(rows), 130)
	for _, r := range rows {
		assert.NotEmpty(t, r.Source, r.Text)
		assert.Regexp(t, `^[A-Z].*[.)]$`, r.Text)
		for _, v := range vague {
			assert.NotContains(t, strings.ToLower(r.Text), v)
		}
	}
}

// What must be said first, in one imperative sentence each.
func TestFirstAidBeginsWithWhatToDoNow(t *testing.T) {
	begins := map[string]string{
		"eyes": "Rinse acid", "skin": "Brush off any dry powder, then rinse the skin", "burn": "Cool the burn",
		"swallowed": "Rinse the mouth", "fumes": "Get the person out", "cut": "Press hard",
		"fire": "Get everybody out", "shock": "Do not touch somebody who is still in contact", "hurt": "Stop work and switch off",
	}
	assert.Len(t, firstAid, len(begins))
	for key, words := range begins {
		f, ok := FirstAidFor(key)
		require.True(t, ok, key)
		assert.True(t, strings.HasPrefix(f.Now.Text, words), f.Now.Text)
		assert.Contains(t, strings.ToLower(f.Call.Text), "emergency number")
		assert.NotEmpty(t, f.Then)
	}
	_, ok := FirstAidFor("knitting")
	assert.False(t, ok)
}

// What the ERC guidelines 2021 (basic life support) and a fire and rescue service's
// page on resuscitation say of somebody who neither answers nor breathes normally:
// 5 to 6 cm, 100 to 120 a minute; no helper touches a live circuit (St John
// Ambulance, low-voltage electrocution).
func TestShockAndHurtTellOfTheHeart(t *testing.T) {
	must := map[string][]string{
		"shock": {"at the mains", "5 to 6 cm", "100 to 120", "defibrillator", "Everybody who had a shock is seen by a doctor", "the heart can falter later", "dry wooden broom handle"},
		"hurt":  {"does not answer", "chest pain", "trouble with breathing", "bleeds heavily", "drowsy", "vomits", "When in doubt, call", "5 to 6 cm", "keep still", "do not dig", "nothing to eat or drink", "it may be the air"},
	}
	for key, words := range must {
		f, ok := FirstAidFor(key)
		require.True(t, ok, key)
		all := ""
		for _, l := range f.Lines() {
			all += l.Text + "\n"
		}
		for _, w := range words {
			assert.Contains(t, all, w, key)
		}
	}
}

// Label text is quoted unchanged (CLP, Regulation (EC) No 1272/2008, annex IV,
// as three copies print it), and the minutes of first aid stand apart from it.
func TestLabelTextAndTreatmentStandApart(t *testing.T) {
	labels := map[string]string{
		"eyes":      "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.",
		"skin":      "IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water [or shower].",
		"swallowed": "IF SWALLOWED: Rinse mouth. Do NOT induce vomiting.",
		"fumes":     "IF INHALED: Remove person to fresh air and keep comfortable for breathing.",
	}
	for key, text := range labels {
		f, _ := FirstAidFor(key)
		require.NotEmpty(t, f.Label, key)
		assert.True(t, strings.HasPrefix(f.Label[0].Text, text), f.Label[0].Text)
	}
	for _, f := range firstAid {
		for _, l := range f.Label {
			assert.NotContains(t, l.Text, "20 minutes")
			assert.Contains(t, l.Source, "1272/2008")
		}
	}
	// Twenty minutes for burns and for eyes, never the older ten (national
	// advice for burns; a safety page and the capacity of eyewash equipment).
	for _, key := range []string{"eyes", "burn", "skin"} {
		f, _ := FirstAidFor(key)
		assert.Contains(t, f.Now.Text, "20 minutes")
		for _, l := range f.Lines() {
			assert.NotRegexp(t, `\b10 minutes`, l.Text)
		}
	}
}

func alloy(t *testing.T, key string) stock.Alloy {
	t.Helper()
	a, ok := stock.AlloyByKey(key)
	require.True(t, ok, key)
	return a
}

func TestWorstFirstAndThreeAtMost(t *testing.T) {
	opal, _ := stone.GemByKey("opal")
	rows := []struct {
		what string
		work Work
		want []string
	}{
		{"a collet in sterling", Work{Jobs: []Job{Saw, Files, Annealing, Soldering, Pickle}, Alloy: alloy(t, "sterling")}, []string{"cadmium", "pickle-splash", "saw-blade"}},
		{"nickel white with an opal", Work{Jobs: []Job{Saw, Annealing, Soldering, Pickle}, Alloy: alloy(t, "18k-white"), Stone: &opal}, []string{"cadmium", "stone-heat", "quench-cracks"}},
		{"a hollow bead", Work{Jobs: []Job{Saw, Hammer, Annealing, Soldering, Pickle}, Alloy: alloy(t, "sterling"), Closed: true}, []string{"closed-form", "pickle-splash", "hammer-steel"}},
		{"casting brass", Work{Jobs: []Job{Casting}, Alloy: alloy(t, "brass")}, []string{"water-under-metal", "silica", "zinc-fume"}},
		{"casting platinum", Work{Jobs: []Job{Casting}, Alloy: alloy(t, "platinum-950")}, []string{"water-under-metal", "silica", "white-heat"}},
		{"sawing titanium", Work{Jobs: []Job{Saw, Files}, Alloy: alloy(t, "titanium")}, []string{"reactive-dust", "saw-blade", "file-tang"}},
		{"nothing", Work{}, nil},
	}
	for _, r := range rows {
		var keys []string
		for _, c := range For(r.work) {
			keys = append(keys, c.Key)
		}
		assert.Equal(t, r.want, keys, r.what)
		assert.Len(t, Lines(r.work), len(r.want))
	}
}

func TestStepsSayEachCautionOnce(t *testing.T) {
	w := Work{Jobs: []Job{Annealing, Soldering, Pickle, Press}, Alloy: alloy(t, "14k-white")}
	told := &Told{}
	first := AtStep(Annealing, w, told)
	require.Len(t, first, 2)
	assert.Equal(t, []string{"quench-cracks", "torch-fire"}, []string{first[0].Key, first[1].Key})
	next := AtStep(Soldering, w, told)
	require.Len(t, next, 1)
	assert.Equal(t, "cadmium", next[0].Key)
	assert.Empty(t, AtStep(Soldering, w, told), "the second joint repeats nothing")
	// Acid is rinsed off before steel tools only where a press follows.
	keys := func(list []Caution) (k []string) {
		for _, c := range list {
			k = append(k, c.Key)
		}
		return k
	}
	assert.Contains(t, keys(AtStep(Pickle, w, told)), "pickle-steel-tools")
	assert.NotContains(t, keys(Applicable(Work{Jobs: []Job{Pickle}})), "pickle-steel-tools")
}

func TestEveryJobHasCautions(t *testing.T) {
	for _, j := range Jobs() {
		assert.NotEmpty(t, OfJob(j), j)
	}
	assert.Empty(t, OfJob("knitting"))
	for _, c := range All() {
		found, ok := ByKey(c.Key)
		assert.True(t, ok)
		assert.Equal(t, c.Short, found.Short)
	}
	_, ok := ByKey("knitting")
	assert.False(t, ok)
}
