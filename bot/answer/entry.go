package answer

import "context"

type entryKey struct{}

// WithEntry tells a Render the number under which its answer was recorded; a
// file is described before the daybook has given the number.
func WithEntry(ctx context.Context, entry int64) context.Context {
	return context.WithValue(ctx, entryKey{}, entry)
}

// EntryOf is that number, 0 where there is none.
func EntryOf(ctx context.Context) int64 {
	entry, _ := ctx.Value(entryKey{}).(int64)
	return entry
}
