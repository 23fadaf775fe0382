package main

import (
	"fmt"
	"time"
)

// progressDelay is how long a person waits before wondering whether anything
// happens (common practice).
const progressDelay = 500 * time.Millisecond

// progress says on a terminal what is being done when it takes longer than the
// delay; the returned function ends it and wipes the line. Without a terminal
// nothing is ever written.
func (p *program) progress(what string, delay time.Duration) (done func()) {
	if !p.env.progress {
		return func() {}
	}
	stop, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		timer := time.NewTimer(delay)
		defer timer.Stop()
		select {
		case <-stop:
		case <-timer.C:
			fmt.Fprintf(p.env.stderr, "%s…", what)
			<-stop
			fmt.Fprint(p.env.stderr, "\r\x1b[K")
		}
	}()
	return func() {
		close(stop)
		<-ended
	}
}
