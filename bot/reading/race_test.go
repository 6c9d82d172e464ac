//go:build race

package reading

// raceDetector tells that every line takes ten times as long.
const raceDetector = true
