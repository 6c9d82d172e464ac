package bot

import (
	"context"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"

	"guildhand/bot/catalogue"
	"guildhand/bot/reading/sentence"
)

// Addressing is how a message names the bot.
type Addressing int

// Ways to address the bot, from sure to doubtful.
const (
	// Named: a command, a mention, a prefix of the bot's own, or a direct chat.
	Named Addressing = iota
	// Prefixed: a mark that other bots listen for too.
	Prefixed
	// Replied: a reply to the bot's message, in which nobody typed its name.
	Replied
)

// fewWords is how long a reply may be in which a bare number is an answer.
const fewWords = 4

// spokenTo decides whether a message of a room is meant for the bot. Whoever
// named it is answered; otherwise the words have to be of the trade.
func (s *Service) spokenTo(ctx context.Context, req Request) bool {
	if req.Addressed == Named {
		return true
	}
	if _, hurt := s.hurt(ctx, req); hurt {
		return true
	}
	first, rest, _ := strings.Cut(strings.Join(strings.Fields(req.Text), " "), " ")
	first = strings.ToLower(strings.TrimRight(first, ".,:;!?"))
	if spec, known := s.named(first); known && (rest == "" || belongs(spec, rest)) {
		return true
	}
	beside := sentence.SubjectOf(rest)
	whole := sentence.SubjectOf(req.Text)
	if req.Addressed == Replied {
		return whole.Things > 0 || whole.Numbers > 0 && whole.Words <= fewWords
	}
	if s.nearlyNamed(first) {
		// "ban" and "done" are a letter from a request; "guage" is no other word.
		return beside.Things > 0 || beside.Numbers > 0 && utf8.RuneCountInString(first) >= 5
	}
	return whole.Things > 1 // a sentence behind the mark
}

// named finds a request by its word; help needs no description.
func (s *Service) named(word string) (*catalogue.Spec, bool) {
	for i := range s.o.Specs {
		if spec := &s.o.Specs[i]; spec.Name == word {
			return spec, true
		}
	}
	return nil, word == "help"
}

// belongs reports whether what stands behind a request's word may be of the
// request: words of the trade, numbers, the request's own words, or free text.
func belongs(spec *catalogue.Spec, rest string) bool {
	if spec == nil {
		return true
	}
	if s := sentence.SubjectOf(rest); s.Things+s.Numbers > 0 {
		return true
	}
	words := strings.Fields(strings.ToLower(rest))
	for _, o := range spec.Options {
		if o.Kind == catalogue.Text && o.Bare || slices.Contains(words, o.Name) {
			return true
		}
		for _, choice := range o.Choices {
			if slices.Contains(words, choice.Key) {
				return true
			}
		}
	}
	return false
}

// nearlyNamed reports whether a word is a slip of the finger away from a request:
// one letter, or two in a word of five and more, where letters that changed
// places are two.
func (s *Service) nearlyNamed(word string) bool {
	near := func(name string) bool {
		allowed := 1
		switch n := utf8.RuneCountInString(name); {
		case n < 4:
			allowed = 0
		case n >= 5:
			allowed = 2
		}
		return levenshtein.ComputeDistance(word, name) <= allowed
	}
	return near("help") || slices.ContainsFunc(s.o.Specs, func(spec catalogue.Spec) bool { return near(spec.Name) })
}
