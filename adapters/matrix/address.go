package matrix

import (
	"net/url"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
	"golang.org/x/net/html"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// self is how people name the bot.
type self struct {
	user  id.UserID
	names []string // display names, in the room and of the account
}

// markOfOtherBots is what many bots listen for.
const markOfOtherBots = "!"

// addressed gives the request in a message, if the message is meant for the
// bot:
//
//   - it begins with the room's prefix and a word that the catalogue knows, or
//     nearly so: other bots listen for "!" too;
//   - it mentions the bot, by m.mentions, by a pill or, from clients that send
//     neither, by full id;
//   - in a direct chat, always.
//
// A reply to the bot mentions it without anyone having typed its name; that
// counts only where the text begins with a known word.
func addressed(c *event.MessageEventContent, who self, f facts, direct bool, known func(string) bool) (string, bool) {
	c.RemoveReplyFallback()
	text := strings.TrimSpace(c.Body)
	if rest, ok := strings.CutPrefix(text, f.prefix); ok && rest != "" {
		rest = strings.TrimSpace(rest)
		if direct || f.prefix != markOfOtherBots || known(firstWord(rest)) {
			return rest, rest != ""
		}
		return "", false
	}
	rest, named := cutName(text, c.FormattedBody, who)
	if direct {
		return rest, rest != ""
	}
	switch {
	case c.Mentions != nil && !c.Mentions.Has(who.user):
		return "", false // the sender says who is meant, and it is not the bot
	case c.Mentions == nil && !named:
		return "", false
	case !named && c.RelatesTo.GetNonFallbackReplyTo() != "" && !known(firstWord(rest)):
		return "", false
	}
	return strings.TrimSpace(strings.TrimPrefix(rest, f.prefix)), rest != ""
}

// cutName takes the bot's name out of a text: as a pill shows it, as full id, or
// as display name at the beginning. named is true where the name is one that
// nobody writes by chance: a pill or the full id.
func cutName(text, formatted string, who self) (rest string, named bool) {
	for _, shown := range pills(formatted, who.user) {
		if r, ok := cutOnce(text, shown); ok {
			return r, true
		}
	}
	if r, ok := cutOnce(text, string(who.user)); ok {
		return r, true
	}
	for _, name := range who.names {
		if r, ok := cutPrefixFold(strings.TrimPrefix(text, "@"), name); ok {
			return r, false
		}
	}
	return text, false
}

// cutOnce removes name and the colon or comma that follows it.
func cutOnce(text, name string) (string, bool) {
	before, after, ok := strings.Cut(text, name)
	if !ok || name == "" {
		return text, false
	}
	before = strings.TrimSuffix(strings.TrimSpace(before), "@")
	after = strings.TrimLeft(after, ":, \t\n")
	return strings.TrimSpace(before + " " + after), true
}

// cutPrefixFold removes a name at the beginning, whatever its case, where a word
// ends after it.
func cutPrefixFold(text, name string) (string, bool) {
	if name == "" || len(text) < len(name) || !strings.EqualFold(text[:len(name)], name) {
		return text, false
	}
	rest := text[len(name):]
	if r, _ := utf8.DecodeRuneInString(rest); unicode.IsLetter(r) || unicode.IsDigit(r) {
		return text, false
	}
	return strings.TrimSpace(strings.TrimLeft(rest, ":, \t\n")), true
}

// pills gives the texts of links to the user in a formatted body.
func pills(formatted string, user id.UserID) []string {
	var shown []string
	inside := false
	z := html.NewTokenizer(strings.NewReader(formatted))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return shown
		case html.StartTagToken:
			t := z.Token()
			if t.Data != "a" {
				continue
			}
			for _, attr := range t.Attr {
				inside = inside || attr.Key == "href" && linksTo(attr.Val, user)
			}
		case html.TextToken:
			if inside {
				shown = append(shown, strings.TrimSpace(z.Token().Data))
				inside = false
			}
		case html.EndTagToken:
			inside = false
		}
	}
}

// linksTo reports whether an address is a link to the user: matrix.to or the
// matrix: scheme.
func linksTo(address string, user id.UserID) bool {
	if rest, ok := strings.CutPrefix(address, "https://matrix.to/#/"); ok {
		unescaped, err := url.PathUnescape(rest)
		return err == nil && unescaped == string(user)
	}
	rest, ok := strings.CutPrefix(address, "matrix:u/")
	return ok && "@"+rest == string(user)
}

func firstWord(text string) string {
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	word, _, _ = strings.Cut(word, "\n")
	return strings.ToLower(word)
}

// nearly tells whether a word is one of the words or a slip of the finger away
// from one: one letter, or two (letters that changed places are two) in a word
// of five and more.
func nearly(word string, words []string) bool {
	for _, w := range words {
		allowed := 1
		switch n := utf8.RuneCountInString(w); {
		case n < 4:
			allowed = 0
		case n >= 5:
			allowed = 2
		}
		if levenshtein.ComputeDistance(word, w) <= allowed {
			return true
		}
	}
	return false
}
