//go:build !unix

package discord

import "time"

// cpuTime is not known here.
func cpuTime() time.Duration { return 0 }
