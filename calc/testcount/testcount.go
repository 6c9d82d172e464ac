// Package testcount tells how much tests try: a sample, so that nobody waits long for
// README's test command; the whole with GUILDHAND_WHOLE=1, as .ci/run asks; or what takes
// the better part of an hour with GUILDHAND_LONG=1, as .ci/run long does.
package testcount

import "os"

// Long reports whether the long runs are asked for.
func Long() bool { return os.Getenv("GUILDHAND_LONG") != "" }

// Whole reports whether a test tries all that it otherwise takes a sample of.
func Whole() bool { return os.Getenv("GUILDHAND_WHOLE") != "" || Long() }

// InLong is the everyday count, or the one of a long run.
func InLong(everyday, long int) int { return Of(everyday, everyday, long) }

// Of is the count of a sample, of the whole, or of a long run.
func Of(sample, whole, long int) int {
	switch {
	case Long():
		return long
	case Whole():
		return whole
	}
	return sample
}
