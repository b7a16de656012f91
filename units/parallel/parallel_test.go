package parallel_test

import (
	"fmt"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/units/parallel"
)

func ExampleEach() {
	squares := make([]int, 5)
	parallel.Each(len(squares), func(i int) { squares[i] = i * i })
	fmt.Println(squares)
	// Output: [0 1 4 9 16]
}

// Every piece is done once, however many there are.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 2, 3, 1000} {
		done, want := make([]int, n), slices.Repeat([]int{1}, n)
		parallel.Each(n, func(i int) { done[i]++ })
		assert.Equal(t, want, done)
	}
}

// With two processors two pieces are on their way at once and never three, and all
// are done when Each comes back.
func TestTwoBesideOneAnother(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
	for range 5 {
		var now, most, done atomic.Int64
		met := make(chan struct{})
		parallel.Each(8, func(i int) {
			at := now.Add(1)
			for before := most.Load(); at > before && !most.CompareAndSwap(before, at); before = most.Load() {
			}
			if i < 2 { // neither goes on without the other
				select {
				case met <- struct{}{}:
				case <-met:
				case <-time.After(2 * time.Second):
					t.Error("alone")
				}
			}
			if i == 1 {
				time.Sleep(20 * time.Millisecond) // longer than the others together
			}
			time.Sleep(time.Millisecond)
			now.Add(-1)
			done.Add(1)
		})
		assert.EqualValues(t, 8, done.Load())
		assert.EqualValues(t, 2, most.Load())
		assert.Equal(t, 2, runtime.GOMAXPROCS(0))
	}
}
