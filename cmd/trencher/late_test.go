package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// When the serving time is too near, the plan says by how much and what would
// help, each change planned again.
func TestServingTimeTooNear(t *testing.T) {
	t.Chdir(t.TempDir())
	_, errs, status := trencher("", "begin", "garden")
	require.Equal(t, statusDone, status, errs)
	out, errs, status := trencher("", "share", "--plot", "garden", "--serve-at", "13:00")
	require.Equal(t, statusDone, status, errs)
	out = strings.Join(strings.Fields(out), " ")
	require.Contains(t, out, "! 13:00 cannot be met: the work would have begun at")
	require.Regexp(t, `The earliest is 15:\d\d\. Sooner by one of these:`, out)
	for _, change := range []string{"serving Cold potato salad with yoghurt warm", "cutting Cold potato salad with yoghurt to 20 mm", "leaving Cold potato salad with yoghurt out"} {
		require.Regexp(t, change+`: 1\d:\d\d, (\d h )?\d+ min sooner`, out, "its own serving time, and what it brings")
	}
	out, errs, status = trencher("", "share", "--plot", "garden", "--serve-at", "11:00")
	require.Equal(t, statusDone, status, errs)
	require.Contains(t, strings.Join(strings.Fields(out), " "), "! 11:00 cannot be met: the time has passed.")
	out, errs, status = trencher("", "share", "--plot", "garden", "--serve-at", "20:00")
	require.Equal(t, statusDone, status, errs)
	require.NotContains(t, out, "cannot be met")
}
