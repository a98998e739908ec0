package whole

import (
	"os"
	"os/signal"
	"syscall"
)

// Uninterrupted does a work that must not be left half done. An interrupt that comes meanwhile
// is obeyed after it; the work is to be short.
func Uninterrupted(work func() error) error {
	held := make(chan os.Signal, 1)
	signal.Notify(held, os.Interrupt, syscall.SIGTERM)
	err := work()
	signal.Stop(held)
	select {
	case s := <-held:
		obey(s)
	default:
	}
	return err
}

// obey sends the signal once more, now that nobody holds it: whoever else waits for it hears it
// as if it had come now, and where nobody does, the program ends. It is a variable so that a
// test outlives it.
var obey = func(s os.Signal) {
	self, err := os.FindProcess(os.Getpid())
	if err != nil || self.Signal(s) != nil {
		os.Exit(1) // where a process cannot signal itself
	}
}
