package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// patience is how long a job may take before a person at a terminal is told
// that it goes on, and how often the line is renewed.
const patience = time.Second

// waiting tells a person at a terminal that a job goes on, should it take
// more than a second. Call what it returns when the job is done: it takes the
// line away. Where standard error is no terminal nothing is written.
func (env *environment) waiting(what string) (done func()) {
	file, ok := env.screen.(*os.File)
	if !ok || !isTerminal(file) {
		return func() {}
	}
	return tellWaiting(file, what, patience)
}

// tellWaiting renews one line until done is called.
func tellWaiting(w io.Writer, what string, every time.Duration) (done func()) {
	stop := make(chan struct{})
	var told sync.WaitGroup
	told.Go(func() {
		tick := time.NewTicker(every)
		defer tick.Stop()
		for n := 1; ; n++ {
			select {
			case <-stop:
				if n > 1 {
					fmt.Fprint(w, "\r\x1b[K") // to the line's start, and clear it
				}
				return
			case <-tick.C:
				fmt.Fprintf(w, "\r%s ... %s", what, time.Duration(n)*every)
			}
		}
	})
	return func() {
		close(stop)
		told.Wait()
	}
}
