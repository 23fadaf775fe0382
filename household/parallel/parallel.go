// Package parallel spreads numbered pieces of work among goroutines. It is the one
// place that does so, and knows nothing of what the work is.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// OnAllProcessors does the numbered pieces of work side by side, one on each
// processor, and returns when all are done.
func OnAllProcessors(pieces int, work func(i int)) { Do(runtime.GOMAXPROCS(0), pieces, work) }

// Do does the numbered pieces of work, so many at once, and returns when all are
// done. They are begun in the order of their numbers. Less than one worker for some
// work is a fault of the caller.
func Do(workers, pieces int, work func(i int)) {
	if workers < 1 && pieces > 0 {
		panic("parallel: work without a worker")
	}
	var wait sync.WaitGroup
	var next atomic.Int64
	for range min(workers, pieces) {
		wait.Go(func() {
			for i := next.Add(1) - 1; i < int64(pieces); i = next.Add(1) - 1 {
				work(int(i))
			}
		})
	}
	wait.Wait()
}
