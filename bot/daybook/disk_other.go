//go:build !unix

package daybook

// freeBytes is unknown here.
func freeBytes(string) (int64, bool) { return 0, false }

// syncDir has nothing to do where a directory can't be synced.
func syncDir(string) error { return nil }
