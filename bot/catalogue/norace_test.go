//go:build !race

package catalogue

const raceDetector = false
