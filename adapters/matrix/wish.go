package matrix

import (
	"strings"

	"guildhand/bot/answer"
)

// wish is what a reaction on an answer asks for.
type wish string

const (
	wishWorking wish = "working"
	wishPDF     wish = "pdf"
	wishInches  wish = "inches"
	wishFiles   wish = "files"
)

// MIME types that the adapter treats in their own way.
const (
	typePNG = "image/png"
	typePDF = "application/pdf"
	typeSVG = "image/svg+xml"
)

// offers are the wishes in the order in which an answer names them, with the
// reactions that mean them; the first of each is the one named.
var offers = []struct {
	wish  wish
	keys  []string
	label string
	has   func(*answer.Answer) bool
}{
	{wishWorking, []string{"🔧", "🛠", "🔨"}, "working", (*answer.Answer).HasWorking},
	{wishPDF, []string{"📄", "📃", "🖨"}, "PDF at 1:1", func(a *answer.Answer) bool { return len(attachmentsFor(a, wishPDF)) > 0 }},
	{wishInches, []string{"📏", "📐"}, "inches", hasLengths},
	{wishFiles, []string{"📎", "✂"}, "other files", func(a *answer.Answer) bool { return len(attachmentsFor(a, wishFiles)) > 0 }},
}

// wishOf reads a reaction. Emoji come with and without a variation selector, and
// with shades of skin.
func wishOf(key string) (wish, bool) {
	key = strings.Map(func(r rune) rune {
		if r == '\ufe0f' || r == '\ufe0e' || (r >= 0x1f3fb && r <= 0x1f3ff) {
			return -1
		}
		return r
	}, strings.TrimSpace(key))
	for _, o := range offers {
		for _, k := range o.keys {
			if k == key {
				return o.wish, true
			}
		}
	}
	return "", false
}

// offersOf is the line that says which reactions an answer takes.
func offersOf(a *answer.Answer) string {
	var parts []string
	for _, o := range offers {
		if o.has(a) {
			parts = append(parts, o.keys[0]+" "+o.label)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "react with " + strings.Join(parts, ", ")
}

func hasLengths(a *answer.Answer) bool {
	for _, f := range a.Figures {
		if f.Text == "" && (f.Unit == answer.MM || f.Unit == answer.MM2) {
			return true
		}
	}
	return false
}

// picture is the PNG that is shown at once, or nil.
func picture(a *answer.Answer) *answer.Attachment {
	for i := range a.Attachments {
		if a.Attachments[i].Type == typePNG {
			return &a.Attachments[i]
		}
	}
	return nil
}

// atOnce gives the files that go with the answer without being asked for: those
// that are neither drawings nor pictures, such as an export.
func atOnce(a *answer.Answer) []answer.Attachment {
	var out []answer.Attachment
	for _, at := range a.Attachments {
		if at.Type != typePNG && at.Type != typePDF && at.Type != typeSVG {
			out = append(out, at)
		}
	}
	return out
}

// attachmentsFor gives the files that a wish asks for: the PDFs, or the
// drawings and pictures that are left.
func attachmentsFor(a *answer.Answer, w wish) []answer.Attachment {
	var out []answer.Attachment
	shown := false
	for _, at := range a.Attachments {
		switch at.Type {
		case typePNG:
			if shown && w == wishFiles {
				out = append(out, at)
			}
			shown = true
		case typeSVG:
			if w == wishFiles {
				out = append(out, at)
			}
		case typePDF:
			if w == wishPDF {
				out = append(out, at)
			}
		}
	}
	return out
}
