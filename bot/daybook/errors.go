package daybook

import "errors"

var (
	// ErrNotFound is returned if the id, key or setting asked for is not in
	// the daybook, or not in the room that was named.
	ErrNotFound = errors.New("not in the daybook")
	// ErrCannotRecord is returned if the store can't be written at the moment:
	// its file is read-only or locked, the disk is full, the server can't be
	// reached. The next call tries again.
	ErrCannotRecord = errors.New("can't record")
	// ErrLeaseLost is returned by Renew, where another owner has taken over.
	ErrLeaseLost = errors.New("lease lost")
	// ErrDamaged is returned for a daybook or a back-up whose file is damaged.
	ErrDamaged = errors.New("the daybook's file is damaged")
	// ErrNewerSchema is returned by Open for a daybook written by a newer
	// program.
	ErrNewerSchema = errors.New("the daybook is newer than this program")
)
