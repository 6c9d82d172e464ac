//go:build race

package discord

// testsAtOnce is how many tests run at a time. Under the race detector they compute
// most of the time, and more of them would only keep each other waiting.
const testsAtOnce = 2
