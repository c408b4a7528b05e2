package main

import (
	"os"
	"os/signal"
	"sync"
	"syscall"
)

// onInterrupt runs clean if the program is interrupted, then ends it; forget calls that off.
func onInterrupt(clean func()) (forget func()) {
	c := make(chan os.Signal, 1)
	done := make(chan struct{})
	signal.Notify(c, os.Interrupt, syscall.SIGTERM)
	go func() {
		select {
		case <-c:
			clean()
			os.Exit(statusFailed)
		case <-done:
		}
	}()
	var once sync.Once
	return func() {
		once.Do(func() { signal.Stop(c); close(done) })
	}
}
