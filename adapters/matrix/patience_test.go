//go:build !race

package matrix

import "time"

// patience is how long a test waits for what must come. The machine may be busy.
const patience = 90 * time.Second
