package bot_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"

	"github.com/stretchr/testify/assert"
)

// mending is a service whose request "chain N" refuses and offers what the
// table says.
func mending(t *testing.T, change func(*bot.Options)) *shop {
	t.Helper()
	return openShop(t, func(o *bot.Options) {
		refusing := func(name string, f func(context.Context, *catalogue.Call) (*answer.Answer, error)) catalogue.Spec {
			return catalogue.Spec{Name: name, Summary: name, Answer: f, Examples: []catalogue.Example{{Line: name + " 1"}},
				Options: []catalogue.Option{{Name: "n", Kind: catalogue.Integer, Min: 0, Max: 1000, Bare: true, Required: true, Prompt: "which?"}}}
		}
		o.Specs = append(o.Specs,
			// 1 works; each other offers the one before it.
			refusing("chain", func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
				if n := int(c.Args.Number("n", 0)); n != 1 {
					return nil, answer.Refuse(fmt.Sprint("chain ", n-1), "%d is too many", n)
				}
				return &answer.Answer{Headline: "one"}, nil
			}),
			// Offers itself.
			refusing("loop", func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
				if n := int(c.Args.Number("n", 0)); n != 1 {
					return nil, answer.Refuse(c.Line(), "no")
				}
				return &answer.Answer{Headline: "one"}, nil
			}),
			// Offers what panics, faults, is not understood, is for teachers, keeps, or takes for ever.
			refusing("odd", func(_ context.Context, c *catalogue.Call) (*answer.Answer, error) {
				switch int(c.Args.Number("n", 0)) {
				case 1:
					return &answer.Answer{Headline: "one"}, nil
				case 2:
					return nil, answer.Refuse("panic", "no")
				case 3:
					return nil, answer.Refuse("fault", "no")
				case 4:
					return nil, answer.Refuse("what is this", "no")
				case 5:
					return nil, answer.Refuse("teach 8x6", "no")
				case 6:
					return nil, answer.Refuse("keep", "no")
				case 7:
					return nil, answer.Refuse("slow", "no")
				}
				return nil, answer.Refuse("", "nothing works")
			}),
			// Has an example that does not work.
			refusing("hopeless", func(context.Context, *catalogue.Call) (*answer.Answer, error) {
				return nil, answer.Refuse("hopeless 2", "no")
			}),
			catalogue.Spec{Name: "help", Summary: "help", Options: []catalogue.Option{{Name: "about", Kind: catalogue.Text, Bare: true}},
				Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
					return &answer.Answer{Headline: "ask"}, nil
				}},
		)
		if change != nil {
			change(o)
		}
	})
}

// TestWhatIsOfferedIsAnswered: the line to try of a refusal works, whatever the
// request itself had offered.
func TestWhatIsOfferedIsAnswered(t *testing.T) {
	s := mending(t, func(o *bot.Options) { o.Timeout = time.Second })
	for _, tt := range []struct{ text, try string }{
		{"chain 2", "chain 1"},
		{"chain 3", "chain 1"},   // two hops
		{"chain 4", "chain 1"},   // three
		{"chain 5", "chain 1"},   // one too many: the example
		{"chain 500", "chain 1"}, // not followed to the end
		{"loop 2", "loop 1"},
		{"odd 2", "odd 1"},
		{"odd 3", "odd 1"},
		{"odd 4", "cut 8x6 sterling"}, // what its refusal offers
		{"odd 5", "odd 1"},
		{"odd 6", "keep"},  // never run to try it out
		{"odd 7", "odd 1"}, // out of time
		{"odd 8", ""},      // offers nothing, and is believed
		{"hopeless 3", "help hopeless"},
		{"cut 60x6", "cut 8x6"},
	} {
		r := ask(t, s, anna, "", tt.text)
		if r.Refusal == nil {
			t.Errorf("%q is answered", tt.text)
			continue
		}
		assert.Equal(t, tt.try, r.Refusal.Try)
		if r.Refusal.Try == "" {
			continue
		}
		if e, err := s.book.ByID(t.Context(), r.Entry); err != nil || e.Try != r.Refusal.Try {
			t.Errorf("%q: recorded %q, %v", tt.text, e.Try, err)
		}
		if again := ask(t, s, anna, "", r.Refusal.Try); again.Answer == nil {
			t.Errorf("%q offers %q, which is refused: %s", tt.text, r.Refusal.Try, again.Refusal.Problem)
		}
	}
}

// A request that changes something is not run by offering it.
func TestTryingOutChangesNothing(t *testing.T) {
	s := mending(t, nil)
	runs := s.runs.Load()
	ask(t, s, anna, "", "odd 6")
	assert.Equal(t, runs, s.runs.Load(), "keep was run")
}
