package discord

import (
	"strings"
	"unicode"
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
	s = clean(s)
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

// clipBefore joins two texts by a line's end and shortens the first, so that the
// second, the cautions, is shown as long as it has room by itself.
func clipBefore(text, end string, limit int) string {
	if end == "" || text == "" {
		return clip(text+end, limit)
	}
	end = "\n" + clip(end, limit/2)
	return clip(text, limit-length(end)) + end
}

// clipLines shortens s to whole lines and says at its end that it does: half a
// caution could be misread.
func clipLines(s, end string, limit int) string {
	s = clean(s)
	if length(s) <= limit {
		return s
	}
	kept := ""
	for line := range strings.Lines(s) {
		if length(kept)+length(line)+length(end) > limit {
			break
		}
		kept += line
	}
	return kept + end
}

// clean takes out what is no text: control characters, which a tab or line may
// stand for as a blank, and those that turn the direction of writing.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\ufeff':
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
}

// plain makes text that Discord shows as it stands: no bold by accident, and
// no mention, channel or time that was typed into a value.
func plain(s string) string {
	var b strings.Builder
	b.Grow(len(s) + 8)
	for _, r := range clean(s) {
		if r < utf8.RuneSelf && strings.ContainsRune("\\`*_~|<>#[]@", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
