//go:build !race

package reading

const raceDetector = false
