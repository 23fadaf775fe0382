package terminal

import (
	"fmt"
	"io"
	"time"
)

// Delay is how long a person waits before wondering whether anything
// happens (common practice).
const Delay = 500 * time.Millisecond

// Progress says what is being done when it takes longer than the delay; the returned
// function ends it and wipes the line.
func Progress(w io.Writer, what string, delay time.Duration) (done func()) {
	stop, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		timer := time.NewTimer(delay)
		defer timer.Stop()
		select {
		case <-stop:
		case <-timer.C:
			fmt.Fprintf(w, "%s…", what)
			<-stop
			fmt.Fprint(w, "\r\x1b[K")
		}
	}()
	return func() {
		close(stop)
		<-ended
	}
}
