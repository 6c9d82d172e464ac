package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A piece that was read from words that speak against it is shown and asked about.
func TestDoubtedPiece(t *testing.T) {
	for _, say := range []string{
		"my card is printed but the squares measure 9.6 not 10, printer did something. does it matter??",
		"Round wire or D for a ring he'll wear to the gym? I said neither, take it off. He's not for taking it off.",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, Request, r.Outcome, "%s -> %s", say, shown(r))
	}
}

// What is plainly typed is worked out without a question.
func TestPlainPieceIsNotDoubted(t *testing.T) {
	for say, want := range map[string]string{
		"bezel oval 10x8":                                "bezel outline oval size 10x8",
		"marquise cab 20x10 bezel":                       "bezel outline marquise size 20x10",
		"collet for a 6mm round, 0.6mm sterling, 5 high": "collet alloy sterling height 5 outline round size 6 mm thickness 0.6 mm",
		"jump rings 18ga, 5mm inside, 100 of them":       "jumpring count 100 inside 5 mm wire 18ga",
	} {
		assert.Equal(t, want, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Line(), say)
	}
}

// doubted asks whether a made-up reading is meant, with another beside it.
func doubted(t *testing.T) (Reading, Context) {
	t.Helper()
	m := newMessage("14 and she wants 11, a ring 1.2 thick")
	first := Reading{Outcome: Request, Request: "band", Options: map[string]string{"ring": "14", "width": "11", "thickness": "1.2 mm"}}
	other := Reading{Outcome: Request, Request: "resize", Options: map[string]string{"from": "iso 14", "to": "iso 11"}}
	q := m.askIfMeant(candidate{first, 0.4}, []candidate{{other, 0.3}})
	require.Equal(t, Question, q.Outcome)
	require.Len(t, q.Choices, 2)
	assert.Contains(t, q.Ask, first.Line(), "the question shows what was read")
	assert.Equal(t, "no, "+other.Line(), q.Choices[1].Label)
	return q, Context{Addressed: true, Takes: takes, Excludes: excludes, Asked: &q}
}

// A doubted reading is confirmed, denied or changed.
func TestAnswersToADoubt(t *testing.T) {
	q, c := doubted(t)
	for _, yes := range []string{"yes", "yep", "yeah that's it", "correct", "1", "ok go ahead"} {
		r := Read(yes, c)
		assert.Equal(t, q.Line(), r.Line(), yes)
		assert.Equal(t, Request, r.Outcome, yes)
	}
	assert.Equal(t, q.Choices[1].Line(), Read("2", c).Line())
	for _, no := range []string{"no", "nope", "wrong", "no not that"} {
		r := Read(no, c)
		assert.Equal(t, Question, r.Outcome, no)
		assert.True(t, strings.HasPrefix(r.Ask, "Say it in other words"), no)
		assert.Len(t, r.Choices, 1, "the other reading is still offered")
	}
}

// A label says in what a reading differs from the one that is asked about.
func TestUnlike(t *testing.T) {
	from := Reading{Request: "collet", Options: map[string]string{"size": "6", "depth": "4", "thickness": "0.6 mm"}}
	assert.Equal(t, "no: height 4, no depth", unlike(Reading{Request: "collet", Options: map[string]string{"size": "6", "height": "4", "thickness": "0.6 mm"}}, from))
	assert.Equal(t, "no, bezel size 6", unlike(Reading{Request: "bezel", Options: map[string]string{"size": "6"}}, from))
}

// A figure that hardly belongs where the rules put it goes where it most likely belongs.
func TestMoved(t *testing.T) {
	m := newMessage("oval 10x8 cab, back plate 0.8 thick please, bezel 0.3")
	m.context = Context{Takes: takes}
	r := Reading{Outcome: Request, Request: "bezel", Options: map[string]string{"outline": "oval", "size": "10x8", "dome": "0.8", "thickness": "0.3 mm"}}
	o := m.moved(r)
	assert.Equal(t, "0.8 mm", o.Options["platethick"], o.Line())
	assert.Equal(t, "0.3 mm", o.Options["thickness"])
	assert.NotContains(t, o.Options, "dome")
	assert.Equal(t, "0.8", r.Options["dome"], "the reading itself is left as it is")
}

func TestHasFigure(t *testing.T) {
	for _, test := range []struct {
		value, typed string
		want         bool
	}{
		{"8x6", "8 x 6", true}, {"8x6", "8", true}, {"22ga", "22 gauge", true}, {"0.6 mm", "0.6", true}, {"0.6 mm", "0.7", false},
		{"bezel oval 10x8 28ga", "10x8", true}, {"20x10", "20x10x4", true}, {"5", "a few", true},
		{"1.6277", "14 ga", true}, {"1.6277", "15 ga", false}, {"18ga and 14ga", "14 ga", true},
	} {
		assert.Equal(t, test.want, HasFigure(test.value, test.typed), "%s in %s", test.typed, test.value)
	}
}

// A number in words that no reader has is a figure until another reader reads the
// message, but for hours, and for what only says "all of them".
func TestNumbersInWords(t *testing.T) {
	for _, test := range []struct{ say, want string }{
		{"teach at seven of my pupils", "seven"}, {"cut it into eight", "eight"}, {"we close at seven", ""},
		{"on all four flat sides", ""}, {"one of the two", ""}, {"a dozen", ""},
	} {
		m, got := newMessage(test.say), []string{}
		m.found = nil
		m.numbersInWords()
		for _, q := range m.found {
			got = append(got, q.typed(m))
		}
		assert.Equal(t, test.want, strings.Join(got, " "), test.say)
		m.release()
		assert.Empty(t, m.found)
	}
}

func TestThingsAt(t *testing.T) {
	for say, want := range map[string]string{
		"11 ladies": "ladies", "5 small diamonds": "diamonds", "6 of my pupils": "pupils", "4 mm": "", "4 deep": "", "6 brass": "", "8 and two stones": "",
	} {
		assert.Equal(t, want, newMessage(say).thingsAt(1), say)
	}
}

// A figure may fill an option that has no value, that its unit and what it counts allow,
// and that nothing excludes.
func TestIsFree(t *testing.T) {
	for _, test := range []struct {
		say, request, option string
		has                  map[string]string
		want                 bool
	}{
		{"2", "collet", "height", nil, true},
		{"2", "collet", "height", map[string]string{"height": "3"}, false},
		{"2 mm", "collet", "lean", nil, false},
		{"5 diamonds", "prongs", "height", nil, false},
		{"5 diamonds", "prongs", "number", nil, true},
		{"4 mm", "saddle", "tubesize", nil, false},
		{"4x0.5", "saddle", "tubesize", nil, true},
		{"52", "band", "bangle", map[string]string{"ring": "uk M"}, false},
		{"50", "weigh", "length", map[string]string{"form": "sheet"}, false},
		{"4 mm", "weigh", "thickness", map[string]string{"form": "tube"}, false},
	} {
		m := newMessage(test.say)
		m.context = Context{Takes: takes, Excludes: excludes}
		require.NotEmpty(t, m.found, test.say)
		assert.Equal(t, test.want, m.isFree(Reading{Request: test.request, Options: test.has}, test.option, m.found[0]), "%s as %s", test.say, test.option)
	}
}

// A disc's two sides are its diameter and its thickness.
func TestDiscByThickness(t *testing.T) {
	r := Read("weight of a sterling disc 30 mm by 1.5", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "weigh alloy sterling form disc size 30 thickness 1.5 mm", r.Line())
}

// Terms give one sign to what is alike.
func TestFound(t *testing.T) {
	a, b := Found("an 8x6 oval in sterling, 22ga"), Found("an 10x4 marquise in copper, 18ga")
	assert.Equal(t, []string{"an", "#size", "@outline", "in", "@metal", "#gauge!"}, a.Terms)
	assert.Equal(t, a.Terms, b.Terms)
	assert.Contains(t, a.Meanings, "means outline:oval")
}
