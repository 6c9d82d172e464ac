//go:build race

package nesting

// slower is by how much the race detector may slow a timed test down.
const slower = 20
