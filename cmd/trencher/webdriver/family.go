//go:build !linux

package webdriver

// processes are a process alone: what it has started is looked up on Linux only.
func processes(first int) []int { return []int{first} }

// runs tells a process that has not ended, where that can be told.
func runs(int) bool { return false }
