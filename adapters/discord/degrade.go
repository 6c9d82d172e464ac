package discord

import (
	"net/http"
	"strings"
)

// What is left out where Discord doesn't take a part of a message.
const (
	filesTooLarge = "The files are too large to send here, so they are left out. The rest of the answer is complete."
	noFiles       = "I am not allowed to send files here, so they are left out. The rest of the answer is complete. Whoever manages the server can allow me *Attach Files*."
	noEmbeds      = "I am not allowed to send embeds here, so this is plain text. Whoever manages the server can allow me *Embed Links*."
)

// degrading sends a message, and again with less where Discord refuses a part of
// it: the text is never lost with a file.
func degrading(m *message, send func(*message) (string, error)) (string, error) {
	for {
		id, err := send(m)
		less := m.less(err)
		if less == nil {
			return id, err
		}
		m = less
	}
}

// less is the message without the part that an error is about, and one sentence
// that says so; nil where it is about something else.
func (m *message) less(err error) *message {
	s, code := status(err)
	tooLarge := s == http.StatusRequestEntityTooLarge || code == codeTooLarge
	switch {
	case len(m.files) > 0 && (tooLarge || code == codeNoPermission):
		less := *m
		less.files, less.Attachments = nil, nil
		less.Embeds = append([]embed(nil), m.Embeds...)
		said := noFiles
		if tooLarge {
			said = filesTooLarge
		}
		for i := range less.Embeds {
			less.Embeds[i].Image = nil
		}
		if len(less.Embeds) > 0 {
			e := &less.Embeds[0]
			e.Description = clipBefore(e.Description, said, maxDescription)
		} else {
			less.Content = clipBefore(m.Content, said, maxContent)
		}
		return &less
	case len(m.Embeds) > 0 && code == codeNoPermission:
		less := *m
		var lines []string
		for _, e := range m.Embeds {
			lines = append(lines, e.Title, e.Description)
			if e.Footer != nil {
				lines = append(lines, e.Footer.Text)
			}
		}
		less.Content = clipBefore(strings.TrimSpace(m.Content+"\n"+strings.Join(lines, "\n")), noEmbeds, maxContent)
		less.Embeds = nil
		return &less
	}
	return nil
}
