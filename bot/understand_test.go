package bot_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/stock"
)

// talker says one maker's messages to a service, as an adapter would.
type talker struct {
	t       *testing.T
	service *bot.Service
	who     catalogue.Who
}

func newTalker(t *testing.T) (*talker, *daybook.Book) {
	book, err := daybook.Open(context.Background(), t.TempDir()+"/daybook.db")
	require.NoError(t, err)
	t.Cleanup(func() { book.Close() })
	service := bot.New(bot.Options{Specs: requests.All(book), Shop: stock.DemoWorkshop(), Book: book, Timeout: time.Minute})
	return &talker{t, service, catalogue.Who{Platform: "test", Channel: "bench", Maker: "anna"}}, book
}

func (k *talker) say(r bot.Request) bot.Reply {
	k.t.Helper()
	r.Who = k.who
	reply, err := k.service.Handle(context.Background(), r)
	require.NoError(k.t, err)
	return reply
}

func (k *talker) line(text string) string {
	k.t.Helper()
	reply := k.say(bot.Request{Text: text})
	require.NotNil(k.t, reply.Answer, "%s: %+v", text, reply.Refusal)
	return reply.Answer.Line
}

func TestFollowUps(t *testing.T) {
	k, _ := newTalker(t)
	assert.Equal(t, "collet pear 9x7 sterling 20ga no bench", k.line("I have this 9 x 7 pear and 20 gauge sterling: what do I cut?"))
	assert.Equal(t, "collet pear 9x7 18k-yellow 20ga no bench", k.line("and in 18k?"))
	// Another maker's question in the room, and other rooms, change nothing.
	other := *k
	other.who.Maker = "bert"
	reply := other.say(bot.Request{Text: "and in copper?"})
	require.NotNil(t, reply.Refusal)
	assert.True(t, reply.Refusal.Asks)
	assert.Equal(t, "collet pear 9x7 18k-yellow 22ga no bench", k.line("what about 22 gauge"))
}

// What comes after the log or the defaults were shown goes on from them.
func TestGoesOnFromLogAndDefaults(t *testing.T) {
	k, _ := newTalker(t)
	k.who.Teacher = true
	assert.Equal(t, "bench sterling", k.line("my usual metal is sterling"))
	assert.Equal(t, "bench thickness 0.8mm", k.line("and 0.8 mm"))
	k.line("bezel oval 10x8 fine-silver 28ga")
	k.line("show my log")
	assert.Contains(t, k.line("just the bezels"), "daybook bezel")
	assert.Contains(t, k.line("export it"), "daybook export bezel")
}

func TestReplyGoesOnFromThatAnswer(t *testing.T) {
	k, _ := newTalker(t)
	first := k.say(bot.Request{Text: "collet pear 9x7 sterling 20ga", Message: "1"})
	require.NoError(t, k.service.Delivered(context.Background(), first.Entry, "answer-1"))
	k.line("bezel oval 10x8 fine-silver 28ga")
	reply := k.say(bot.Request{Text: "same in copper please", ReplyTo: "answer-1", Message: "2"})
	require.NotNil(t, reply.Answer)
	assert.Equal(t, "collet pear 9x7 copper 20ga no bench", reply.Answer.Line)
}

func TestQuestionBackTakesABareAnswer(t *testing.T) {
	k, _ := newTalker(t)
	reply := k.say(bot.Request{Text: "collet for a 8x6 stone in 22ga sterling"})
	require.NotNil(t, reply.Refusal)
	assert.True(t, reply.Refusal.Asks)
	require.Len(t, reply.Refusal.Choices, 3)
	assert.Equal(t, "collet emerald 8x6 sterling 22ga no bench", k.line("2"))
}

// A doubted reading is worked out once it is confirmed; one that can't be worked out is
// not offered.
func TestDoubtedReading(t *testing.T) {
	k, _ := newTalker(t)
	reply := k.say(bot.Request{Text: "US size 7, half-round wire 3 mm x 1.5 mm, flat side inside. Please give the length. Finger was measured in the evening, at 34 °C, by a plastic gauge."})
	require.NotNil(t, reply.Refusal)
	assert.Contains(t, reply.Refusal.Problem, "Do you mean")
	require.NotEmpty(t, reply.Refusal.Choices)
	assert.Contains(t, k.line("yes"), "band")

	reply = k.say(bot.Request{Text: "Round wire or D for a ring he'll wear to the gym? I said neither, take it off. He's not for taking it off."})
	require.NotNil(t, reply.Refusal)
	assert.True(t, reply.Refusal.Asks)
	assert.Empty(t, reply.Refusal.Choices)
	assert.NotContains(t, reply.Refusal.Problem, "Do you mean")
}

// Sentences may begin with the word of a request; a slip in a typed line is still told.
func TestSentencesThatBeginWithARequest(t *testing.T) {
	for say, holds := range map[string]string{
		"prongs too short to bend over":               "retipped",
		"resize from o to q, plain d section 3 x 2":   "3 x 2 mm half-round",
		"bezel won't close":                           "planishing hammer",
		"dome has hammer dents all over":              "dome",
		"halo: centre 6.5 round, melee 1.5, gap 0.15": "round 6.5 mm",
	} {
		k, _ := newTalker(t)
		reply := k.say(bot.Request{Text: say})
		require.Nil(t, reply.Refusal, say)
		assert.Contains(t, reply.Answer.Headline+fmt.Sprint(reply.Answer.Notes), holds, say)
	}
	k, _ := newTalker(t)
	for say, holds := range map[string]string{
		"collet oval 8x6 xyzzy":              "xyzzy",
		"collet oval 8x6 depth 4 colour red": "colour",
		"collet oval 8,5x6 depth 4 xyzzy":    "xyzzy",
		"bench gauge 99":                     "99",
	} {
		slip := k.say(bot.Request{Text: say})
		require.NotNil(t, slip.Refusal, say)
		assert.Contains(t, slip.Refusal.Problem, holds, say)
	}
}

func TestForgottenQuestionsCannotBeFollowedUp(t *testing.T) {
	k, _ := newTalker(t)
	k.line("collet pear 9x7 sterling 20ga")
	k.say(bot.Request{Text: "daybook forget yes"})
	reply := k.say(bot.Request{Text: "and in 18k?"})
	require.NotNil(t, reply.Refusal)
	assert.True(t, reply.Refusal.Asks)
}

func TestMemoryOff(t *testing.T) {
	k, _ := newTalker(t)
	k.say(bot.Request{Text: "bench memory off"})
	k.line("collet pear 9x7 sterling 20ga")
	assert.NotNil(t, k.say(bot.Request{Text: "and in 18k?"}).Refusal)
}

// Whoever is hurt gets first aid first, and is not written down.
func TestFirstAidIsNotKept(t *testing.T) {
	k, book := newTalker(t)
	reply := k.say(bot.Request{Text: "got pickle in my eye!!", Message: "1"})
	require.NotNil(t, reply.Answer)
	assert.Contains(t, reply.Answer.Headline, "Rinse")
	require.NoError(t, k.service.Delivered(context.Background(), reply.Entry, "answer"))
	entries, err := book.List(context.Background(), daybook.Filter{Platform: "test", Channel: "bench"})
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// What follows first aid is read with it, whoever of the room says it, and none of
// it is kept; a whole new question ends it.
func TestTalkAfterFirstAid(t *testing.T) {
	k, book := newTalker(t)
	other := *k
	other.who.Maker = "bert"
	k.line("collet pear 9x7 sterling 20ga")
	aid := func(talker *talker, say, begins string) {
		t.Helper()
		reply := talker.say(bot.Request{Text: say, Addressed: bot.Replied})
		require.NotNil(t, reply.Answer, say)
		require.True(t, strings.HasPrefix(reply.Answer.Headline, begins), "%s: %s", say, reply.Answer.Headline)
		require.Contains(t, reply.Answer.Headline+strings.Join(reply.Answer.Notes, " "), "emergency number", say)
		require.NoError(t, k.service.Delivered(context.Background(), reply.Entry, say))
	}
	aid(k, "i burnt my hand on the third arm", "Cool the burn")
	aid(k, "butter? my mum says butter", "No ice, no butter")
	aid(&other, "my hand was like that once, ice is good", "No ice, no butter")
	aid(k, "how long do I hold it under", "Cool the burn")
	aid(k, "help", "Cool the burn")
	assert.NotNil(t, other.say(bot.Request{Text: "collet oval 8x6 sterling 22ga"}).Answer.Line)
	aid(k, "thanks", "Cool the burn")
	assert.Equal(t, "collet pear 9x7 sterling 22ga no bench", k.line("collet pear 9x7 sterling 22ga"))
	assert.True(t, k.say(bot.Request{Text: "thanks", Addressed: bot.Replied}).Silent)
	entries, err := book.List(context.Background(), daybook.Filter{Platform: "test", Channel: "bench"})
	require.NoError(t, err)
	assert.Len(t, entries, 3, "the pieces alone")
}

func TestChatterGetsNothing(t *testing.T) {
	k, book := newTalker(t)
	assert.True(t, k.say(bot.Request{Text: "thanks!", Message: "1"}).Silent)
	entries, err := book.List(context.Background(), daybook.Filter{Platform: "test", Channel: "bench"})
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// An open question stays open through an explanation, and earlier pieces can be gone
// back to.
func TestTalkGoesOnThroughTheDaybook(t *testing.T) {
	k, _ := newTalker(t)
	require.NotNil(t, k.say(bot.Request{Text: "collet for a 8x6 stone in 22ga sterling"}).Refusal)
	require.NotNil(t, k.say(bot.Request{Text: "what is a girdle"}).Answer)
	assert.Equal(t, "collet oval 8x6 sterling 22ga no bench", k.line("oval"))
	assert.Equal(t, "band ring 7 us width 4 thickness 1.5mm sterling no bench", k.line("us 7 ring 4mm wide 1.5mm thick sterling"))
	assert.Equal(t, "band ring 7 us width 5 thickness 1.5mm sterling no bench", k.line("a mm wider"))
	assert.Equal(t, "band ring 7 us width 4 thickness 1.5mm sterling no bench", k.line("undo that"))
	assert.Equal(t, "collet oval 8x6 sterling 22ga no bench", k.line("back to the collet"))
	said := k.say(bot.Request{Text: "is that inside or outside"})
	require.NotNil(t, said.Answer)
	assert.Contains(t, said.Answer.Headline, "flat blank")
}

func TestAVerdictIsGoneOnFrom(t *testing.T) {
	for _, talk := range []struct{ asked, then, answers string }{
		{"would 0.4 sheet be alright for a collet", "what would you use then", "0.60 mm or more is usual"},
		{"is .5 alright for a collet 6mm stone", "wot would u use then", "0.6 to 0.8 mm"},
	} {
		k, _ := newTalker(t)
		require.NotNil(t, k.say(bot.Request{Text: talk.asked}).Answer, talk.asked)
		reply := k.say(bot.Request{Text: talk.then})
		require.NotNil(t, reply.Answer, "%s: %+v", talk.then, reply.Refusal)
		assert.Contains(t, reply.Answer.Headline, talk.answers)
	}
}
