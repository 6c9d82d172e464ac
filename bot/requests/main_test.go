package requests

import (
	"os"
	"runtime/debug"
	"testing"
)

// usualGC is how far a program's heap grows before it is collected, percent.
const usualGC = 100

// The tests compute thousands of answers in a small heap, which would be collected
// all the time.
func TestMain(m *testing.M) {
	debug.SetGCPercent(4 * usualGC)
	os.Exit(m.Run())
}
