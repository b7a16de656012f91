package journal

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func writeText(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

func TestReplaceFileReplacesWhole(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.html")
	require.NoError(t, replaceFile(realDisk{}, path, writeText("first, and longer")))
	require.NoError(t, os.Chmod(path, 0o600))
	require.NoError(t, replaceFile(realDisk{}, path, writeText("second")))
	assertFile(t, path, "second")
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm()&0o600, "the rights stay")
	assertAlone(t, path)
}

func TestReplaceFileFailureLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.ics")
	require.NoError(t, replaceFile(realDisk{}, path, writeText("old")))
	broken := errors.New("broken off half way")
	err := replaceFile(realDisk{}, path, func(w io.Writer) error {
		if _, err := io.WriteString(w, "half"); err != nil {
			return err
		}
		return broken
	})
	assert.ErrorIs(t, err, broken)
	assertFile(t, path, "old")
	assertAlone(t, path)
}

func TestReplaceFileFailureLeavesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.ics")
	assert.Error(t, replaceFile(realDisk{}, path, func(io.Writer) error { return errors.New("no") }))
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Empty(t, entries)
}

func TestReplaceFileFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "real.html"), filepath.Join(dir, "link.html")
	require.NoError(t, os.WriteFile(target, []byte("old"), 0o644))
	if err := os.Symlink(target, link); err != nil {
		t.Log("no links on this file system:", err)
		return
	}
	require.NoError(t, replaceFile(realDisk{}, link, writeText("new")))
	assertFile(t, target, "new")
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still a link")
}

// Whatever step fails, the old file stands as it was and nothing lies beside
// it; a new one is not there at all.
func TestReplaceFileIsAllOrNothing(t *testing.T) {
	for _, cause := range []error{syscall.ENOSPC, syscall.EIO, fs.ErrPermission} {
		tried := []string{}
		for n := 1; ; n++ {
			path := filepath.Join(t.TempDir(), "plan.html")
			require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
			d := &faultyDisk{failAt: n, err: cause}
			err := replaceFile(d, path, writeText("new"))
			assertAlone(t, path)
			if err == nil {
				assertFile(t, path, "new")
				break
			}
			tried = d.calls
			require.ErrorIs(t, err, cause, "%v", d.calls)
			require.ErrorContains(t, err, "cannot write "+path, "%v", d.calls)
			assertFile(t, path, "old")
		}
		assert.Equal(t, []string{"create", "write", "chmod", "sync", "close", "rename"}, tried)
	}
}

func assertFile(t *testing.T, path, want string) {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, want, string(data))
}

func assertAlone(t *testing.T, path string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, entries, 1, "no temporary file is left")
}
