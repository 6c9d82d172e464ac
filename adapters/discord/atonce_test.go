//go:build !race

package discord

// testsAtOnce is how many tests run at a time: they wait most of the time, since
// closing a session alone takes a second in the library.
const testsAtOnce = 8
