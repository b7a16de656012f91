// Package parallel does pieces of work that wait for nothing of one another beside one
// another, on as many processors as there are.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each does the pieces 0 to n-1, and comes back when all are done. No piece may write
// what another reads or writes; in which order they are done is not said.
func Each(n int, do func(i int)) {
	var next atomic.Int64
	work := func() {
		for i := next.Add(1); i <= int64(n); i = next.Add(1) {
			do(int(i - 1))
		}
	}
	var others sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) - 1 {
		others.Go(work)
	}
	work()
	others.Wait()
}
