// Guildhand answers the sizing questions of a metalsmithing guild: in a
// terminal, on Discord and on Matrix.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// The first signal lets running requests finish; a second one ends at once.
	context.AfterFunc(ctx, stop)
	os.Exit(fromProcess().Run(ctx, os.Args[1:]))
}
