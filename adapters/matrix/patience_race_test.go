//go:build race

package matrix

import "time"

// patience is how long a test waits for what must come. Under the race detector the bot's
// store, which is compiled from C, takes many times as long.
const patience = 5 * time.Minute
