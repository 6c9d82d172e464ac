package discord

import (
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// length counts as Discord does, in UTF-16 units, which is never less than
// the number of characters.
func length(s string) int {
	n := 0
	for _, r := range s {
		n += utf16.RuneLen(r)
	}
	return n
}

// clip shortens s to at most limit UTF-16 units, with an ellipsis where
// something was left out. It never ends in half an escape.
func clip(s string, limit int) string {
	s = strings.ToValidUTF8(s, "")
	if length(s) <= limit {
		return s
	}
	n := 0
	for i, r := range s {
		n += utf16.RuneLen(r)
		if n > limit-1 {
			cut := s[:i]
			if trailing := len(cut) - len(strings.TrimRight(cut, `\`)); trailing%2 == 1 {
				cut = cut[:len(cut)-1]
			}
			return cut + "…"
		}
	}
	return s
}

// plain makes text that Discord shows as it stands: no bold by accident, and
// no mention, channel or time that was typed into a value.
func plain(s string) string {
	var b strings.Builder
	b.Grow(len(s) + 8)
	for _, r := range strings.ToValidUTF8(s, "") {
		if r < utf8.RuneSelf && strings.ContainsRune("\\`*_~|<>#[]@", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// bullets joins lines as a list, each made plain, within limit. What does not
// fit is left out whole and the last line says so.
func bullets(lines []string, limit int) string {
	const more = "… more under Working"
	var b strings.Builder
	for i, line := range lines {
		item := "• " + plain(line)
		room := limit - length(b.String()) - 1
		if i < len(lines)-1 {
			room -= len(more) + 1
		}
		if length(item) > room {
			if i == 0 {
				return clip(item, limit)
			}
			b.WriteString("\n" + more)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(item)
	}
	return b.String()
}
