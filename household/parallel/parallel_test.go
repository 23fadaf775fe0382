package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
)

// Every piece is done once, and never more at once than there are workers.
func TestEveryPieceOnceAndNoMoreAtOnce(t *testing.T) {
	for _, workers := range []int{1, 2, 16} {
		for _, pieces := range []int{0, 1, 15, 400} {
			done := make([]atomic.Int32, pieces)
			var now, most atomic.Int32
			Do(workers, pieces, func(i int) {
				n := now.Add(1)
				for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
				}
				runtime.Gosched()
				done[i].Add(1)
				now.Add(-1)
			})
			for i := range done {
				if n := done[i].Load(); n != 1 {
					t.Errorf("%d workers, %d pieces: piece %d was done %d times", workers, pieces, i, n)
				}
			}
			if int(most.Load()) > workers {
				t.Errorf("%d workers did %d pieces at once", workers, most.Load())
			}
		}
	}
}

// As many pieces as there are workers run at the same time: each waits for all, which
// fails at once where one of them never begins.
func TestSideBySide(t *testing.T) {
	synctest.Test(t, func(*testing.T) {
		const workers = 4
		var all sync.WaitGroup
		all.Add(workers)
		Do(workers, workers, func(int) {
			all.Done()
			all.Wait()
		})
	})
}

func TestNoWorkersIsAFaultOfTheCaller(t *testing.T) {
	Do(0, 0, func(int) { t.Error("there was no work") })
	defer func() {
		if recover() == nil {
			t.Error("work without workers was passed over in silence")
		}
	}()
	Do(0, 1, func(int) {})
}
