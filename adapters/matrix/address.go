package matrix

import (
	"net/url"
	"strings"
	"unicode"
	"unicode/utf8"

	"guildhand/bot"

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

// addressed gives the request in a message and how the message names the bot. ok
// is false where it does not:
//
//   - in a direct chat everything is for the bot;
//   - so is what begins with the room's prefix. Other bots listen for "!" too, so
//     that only may be meant for this one;
//   - so is a mention, by m.mentions, by a pill or, from clients that send
//     neither, by full id;
//   - a reply to the bot's message may be, whether or not the client adds the
//     mention that nobody typed.
//
// What only may be meant for the bot, the bot itself decides by the words.
func addressed(c *event.MessageEventContent, who self, f facts, direct, toBot bool) (text string, how bot.Addressing, ok bool) {
	c.RemoveReplyFallback()
	text = strings.TrimSpace(c.Body)
	if rest, ok := strings.CutPrefix(text, f.prefix); ok && rest != "" {
		rest = strings.TrimSpace(rest)
		if !direct && f.prefix == markOfOtherBots {
			how = bot.Prefixed
		}
		return rest, how, rest != ""
	}
	rest, named := cutName(text, c.FormattedBody, who)
	if direct {
		return rest, bot.Named, rest != ""
	}
	mentioned := c.Mentions != nil && c.Mentions.Has(who.user)
	others := c.Mentions != nil && len(c.Mentions.UserIDs) > 0 && !mentioned
	isReply := c.RelatesTo.GetNonFallbackReplyTo() != ""
	switch {
	case others:
		return "", bot.Named, false // the sender says who is meant, and it is not the bot
	case isReply && !named && (mentioned || toBot):
		how = bot.Replied
	case !mentioned && (c.Mentions != nil || !named):
		return "", bot.Named, false
	}
	return strings.TrimSpace(strings.TrimPrefix(rest, f.prefix)), how, rest != ""
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
