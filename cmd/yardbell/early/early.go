// Package early asks for the signals that stop the program before the other packages are
// set up, which takes longer than anything else at a start.
package early

import (
	"os"
	"os/signal"
	"syscall"
)

// Signals are what the program is stopped by. Packages are set up in the order of their
// paths where none needs the other, and this one needs nothing of ours: who is told to
// stop in the first moments ends well all the same.
var Signals = func() chan os.Signal {
	c := make(chan os.Signal, 2)
	signal.Notify(c, os.Interrupt, syscall.SIGTERM)
	return c
}()
