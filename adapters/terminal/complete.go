package terminal

import (
	"context"
	"strings"
)

// complete returns the words that may come next, for the line editor: head and tail
// stay, and one of words goes between them.
func complete(ctx context.Context, service Service, line string, pos int) (head string, words []string, tail string) {
	runes := []rune(line)
	pos = min(max(pos, 0), len(runes))
	before, after := string(runes[:pos]), string(runes[pos:])
	begin := strings.LastIndexByte(before, ' ') + 1
	for _, c := range service.Complete(ctx, line, len(before)) {
		words = append(words, c.Text+" ")
	}
	return before[:begin], words, after
}
