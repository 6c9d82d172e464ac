//go:build !race

package requests

import "time"

// photographTime is for how long a photograph is opened and looked at.
const photographTime = 3 * time.Second
