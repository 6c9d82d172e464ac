package discord

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/requests"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// phoneColumns is how many characters of a message a narrow phone shows in a line.
const phoneColumns = 38

// wantFile compares what is shown with a file that somebody has read; see update.
func wantFile(t *testing.T, name, shown string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(shown), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, figure.ReplaceAllString(string(want), "0"), figure.ReplaceAllString(shown, "0"))
}

// typeNames are Discord's words for the types of options.
var typeNames = map[int]string{
	typeSubcommand: "subcommand", typeString: "text", typeInteger: "whole number", typeBoolean: "yes or no", typeUser: "member", typeNumber: "number", typeAttachment: "file",
}

// The registration as a table, as a member meets it.
func TestRegistrationTable(t *testing.T) {
	m, err := newMenu(requests.All(nil), testShop())
	require.NoError(t, err)
	var b strings.Builder
	for _, c := range m.commands {
		who := ""
		if c.Needs != 0 {
			who = " (seen by those who manage the server)"
		}
		if c.Type == commandMessage {
			fmt.Fprintf(&b, "message menu: %s%s\n\n", c.Name, who)
			continue
		}
		fmt.Fprintf(&b, "/%s%s: %s\n", c.Name, who, c.Description)
		if de := c.Translations["de"]; de != "" {
			fmt.Fprintf(&b, "  de: %s\n  fr: %s\n  es: %s\n", de, c.Translations["fr"], c.Translations["es-ES"])
		}
		writeOptions(&b, "  ", c.Options)
		b.WriteString("\n")
	}
	wantFile(t, "registration.txt", b.String())
}

func writeOptions(b *strings.Builder, indent string, list []option) {
	for _, o := range list {
		how := typeNames[o.Type]
		switch {
		case len(o.Choices) > 0:
			how = fmt.Sprintf("one of %d", len(o.Choices))
		case o.Autocomplete:
			how += ", completed"
		}
		if o.Required {
			how += ", required"
		}
		fmt.Fprintf(b, "%s%-10s %-24s %s\n", indent, o.Name, how, o.Description)
		writeOptions(b, indent+"    ", o.Options)
	}
}

// Six typical answers, as a phone shows their text.
func TestTypicalAnswers(t *testing.T) {
	t.Parallel()
	r, book := realRig(t)
	var b strings.Builder
	show := func(title string, m *shown) {
		fmt.Fprintf(&b, "=== %s ===\n", title)
		text := unplain(m.text())
		for name, id := range people {
			text = strings.ReplaceAll(text, "<@"+id+">", "@"+name)
		}
		for line := range strings.Lines(text) {
			for _, wrapped := range answer.Wrap("", strings.TrimSpace(line), phoneColumns) {
				b.WriteString(wrapped + "\n")
			}
		}
		for _, a := range m.message.Attachments {
			b.WriteString("[picture or file] " + a.Filename + "\n")
		}
		for _, row := range m.message.Components {
			var labels []string
			for _, c := range row.Components {
				labels = append(labels, "["+c.Label+"]")
			}
			b.WriteString(strings.Join(labels, " ") + "\n")
		}
		b.WriteString("\n")
	}
	mention := func(who, text string) *shown {
		return r.replyTo(theChannel, r.discord.say(said{guild: theGuild, maker: people[who], text: atBot + text}))
	}
	show("a member's first mention", mention("ana", "a collet for an 8x6 oval in 22 gauge sterling, 4 deep"))
	show("a follow-up", mention("ana", "and in 20 gauge?"))
	show("one question back", mention("ana", "a band, 4 mm wide and 1.5 thick, sterling"))
	show("somebody is hurt", mention("ben", "i got pickle in my eye"))
	r.wait("first aid to be forgotten, so that ben has asked nothing yet", func() bool {
		asked, err := book.HasAsked(t.Context(), Platform, people["ben"])
		return err == nil && !asked
	})
	show("a refusal", r.answered(r.slash("collet", arg{"outline", "oval"}, arg{"size", "8x6"}, arg{"thickness", "9 mm"})))
	show("a verdict", mention("ben", "can I use 24 ga for a bezel on a 10 mm round cab?"))
	wantFile(t, "answers.txt", b.String())
}
