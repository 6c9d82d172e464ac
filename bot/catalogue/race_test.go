//go:build race

package catalogue

// raceDetector tells that every line takes ten times as long.
const raceDetector = true
