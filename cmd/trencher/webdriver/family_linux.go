package webdriver

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// processes are a process and all that it has started.
func processes(first int) []int {
	family := []int{first}
	for n := 0; n < len(family); n++ {
		threads, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/children", family[n]))
		for _, thread := range threads {
			children, err := os.ReadFile(thread)
			if err != nil {
				continue // it has ended
			}
			for _, each := range strings.Fields(string(children)) {
				if id, err := strconv.Atoi(each); err == nil {
					family = append(family, id)
				}
			}
		}
	}
	return family
}

// runs tells a process that has not ended.
func runs(process int) bool {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", process))
	if err != nil {
		return false
	}
	_, after, _ := strings.Cut(string(text), ") ")
	return !strings.HasPrefix(after, "Z") // ended, and not yet asked about (proc_pid_stat(5))
}
