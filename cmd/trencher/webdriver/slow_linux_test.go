package webdriver

import (
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A process is found with what it has started; slowed, it is stopped most of the
// time, and runs on afterwards.
func TestSlowStopsTheWholeFamily(t *testing.T) {
	cmd := exec.Command("sh", "-c", "sleep 60 & wait")
	require.NoError(t, cmd.Start())
	defer func() {
		for _, each := range processes(cmd.Process.Pid) {
			if process, err := os.FindProcess(each); err == nil {
				process.Kill()
			}
		}
		cmd.Wait()
	}()
	require.Eventually(t, func() bool { return len(processes(cmd.Process.Pid)) == 2 }, 10*time.Second, 5*time.Millisecond)
	family := processes(cmd.Process.Pid)
	assert.Equal(t, cmd.Process.Pid, family[0])
	b := &Browser{t: t, process: cmd.Process.Pid}
	end := b.Slow(4)
	stopped := map[int]bool{}
	require.Eventually(t, func() bool {
		for _, each := range family {
			stopped[each] = stopped[each] || stateOf(t, each) == 'T'
		}
		return stopped[family[0]] && stopped[family[1]]
	}, 10*time.Second, time.Millisecond)
	end()
	for _, each := range family {
		assert.NotEqual(t, byte('T'), stateOf(t, each), "it runs on")
	}
	b.Slow(1)()
	assert.GreaterOrEqual(t, b.Worked(), time.Duration(0))
}

// stateOf is the letter by which proc_pid_stat(5) tells what a process does.
func stateOf(t *testing.T, process int) byte {
	t.Helper()
	text, err := os.ReadFile("/proc/" + strconv.Itoa(process) + "/stat")
	require.NoError(t, err)
	for i := len(text) - 1; i > 0; i-- {
		if text[i] == ')' {
			return text[i+2]
		}
	}
	return 0
}
