//go:build race

package requests

import "time"

// photographTime is for how long a photograph is opened and looked at. Under the
// race detector every line takes up to ten times as long.
const photographTime = 30 * time.Second
