//go:build !linux

package matrix

func inMemory() string { return "" }
