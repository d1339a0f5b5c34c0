package main

import (
	"os"
	"os/signal"
	"syscall"
	"time"
)

// endSoon sees to it that the program ends once its last window is gone. On its
// way out the toolkit (v2.7.4) now and then waits for ever: a function that it
// queues for the window's goroutine after that one has emptied the queue for
// the last time is never run. The time is for what it does before that, such as
// leaving the clipboard to the system.
func endSoon() {
	time.AfterFunc(2*time.Second, func() { os.Exit(0) })
}

// endWhenTold does the same when the system ends the program, which closes no
// window; the journal keeps what is not saved.
func endWhenTold() {
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM)
	<-told
	endSoon()
}
