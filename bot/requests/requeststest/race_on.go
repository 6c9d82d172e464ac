//go:build race

package requeststest

// Slower is by how much the race detector may slow a timed test down.
const Slower = 20
