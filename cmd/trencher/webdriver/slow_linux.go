package webdriver

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"
)

// slice is how long the slowed browser runs at a time.
const slice = 2 * time.Millisecond

// Slow makes the whole browser as many times slower, until end is called: its
// processes are stopped for all but that part of the time. The browser's own
// throttling (Emulation.setCPUThrottlingRate) slows a page but not its workers.
func (b *Browser) Slow(times int) (end func()) {
	b.t.Helper()
	if times <= 1 {
		return func() {}
	}
	stop, over := make(chan struct{}), sync.WaitGroup{}
	over.Go(func() {
		var family []int
		for turn := 0; ; turn++ {
			if turn%100 == 0 { // a worker may have come with a process of its own
				family = processes(b.process)
			}
			signal(family, syscall.SIGSTOP)
			time.Sleep(time.Duration(times-1) * slice)
			signal(family, syscall.SIGCONT)
			select {
			case <-stop:
				return
			case <-time.After(slice):
			}
		}
	})
	return func() {
		close(stop)
		over.Wait()
	}
}

// signal sends a signal to each; those that have ended need none.
func signal(processes []int, what syscall.Signal) {
	for _, each := range processes {
		syscall.Kill(each, what)
	}
}

// Worked is how long the browser's processes have worked until now, the shares of
// all processors added up.
func (b *Browser) Worked() time.Duration {
	b.t.Helper()
	const tick = 10 * time.Millisecond // USER_HZ, proc_pid_stat(5)
	var worked time.Duration
	for _, each := range processes(b.process) {
		text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", each))
		if err != nil {
			continue // it has ended
		}
		_, after, _ := strings.Cut(string(text), ") ")
		fields := strings.Fields(after)
		user, _ := strconv.Atoi(fields[11])
		system, _ := strconv.Atoi(fields[12])
		worked += time.Duration(user+system) * tick
	}
	return worked
}
