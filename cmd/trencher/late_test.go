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
	require.Contains(t, out, "serving Cold potato salad with yoghurt warm saves")
	require.Contains(t, out, "cutting Cold potato salad with yoghurt to 20 mm saves")
	require.Contains(t, out, "leaving Cold potato salad with yoghurt out")
	require.Contains(t, out, "or serve later")
	out, errs, status = trencher("", "share", "--plot", "garden", "--serve-at", "20:00")
	require.Equal(t, statusDone, status, errs)
	require.NotContains(t, out, "cannot be met")
}
