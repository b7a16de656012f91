package journal_test

import (
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
)

// A real disk of 64 pages is filled with entries. When it is full Write says
// so, and what was told as written is all there and whole. Where this user may
// not mount one, TestPlaceIsAllOrNothing stands for it.
func TestFullDisk(t *testing.T) {
	mount := t.TempDir()
	if err := syscall.Mount("tmpfs", mount, "tmpfs", 0, "size=256k"); err != nil {
		t.Skipf("no small disk can be mounted here (%v); the failing disk of TestPlaceIsAllOrNothing stands for it", err)
	}
	defer syscall.Unmount(mount, 0)
	require.NoError(t, os.WriteFile(filepath.Join(mount, "kitchen.yaml"), []byte(kitchen), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(mount, "plantings.yaml"), []byte(plantings), 0o644))
	folder, err := journal.Open(mount)
	require.NoError(t, err)
	told := map[string]bool{}
	for n := range 1000 {
		file, err := folder.Write(someLift(1, n))
		if err != nil {
			require.ErrorIs(t, err, syscall.ENOSPC)
			var hinted interface{ Hint() string }
			require.ErrorAs(t, err, &hinted)
			assert.Contains(t, hinted.Hint(), "the disk is full")
			break
		}
		told[file] = true
	}
	require.Greater(t, len(told), 10)
	require.Less(t, len(told), 1000, "the disk never filled up")
	found := remarks(t, mount)
	require.Len(t, found, len(told))
	for file := range told {
		require.Contains(t, found, file)
	}
}

// A folder its user may not write to: an error and exit 1, and nothing made.
// Run by root, the writer runs as an ordinary user.
func TestReadOnlyFolder(t *testing.T) {
	dir := newPlot(t)
	require.NoError(t, os.Chmod(filepath.Dir(dir), 0o755))
	self := copySelf(t, filepath.Join(filepath.Dir(dir), "writer"))
	require.NoError(t, os.Chmod(dir, 0o555))
	defer os.Chmod(dir, 0o755)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "TRENCHER_TEST_WRITER="+dir, "TRENCHER_TEST_ENTRIES=1")
	if os.Geteuid() == 0 {
		const nobody = 65534
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	var says strings.Builder
	cmd.Stderr = &says
	err := cmd.Run()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, 1, exit.ExitCode())
	assert.Contains(t, says.String(), "not written: ")
	assert.Contains(t, says.String(), "permission denied")
	assert.NoFileExists(t, filepath.Join(dir, "journal"))
	folder, err := journal.Open(dir)
	require.NoError(t, err)
	entries, _, err := folder.Season(context.Background(), 2031, options)
	require.NoError(t, err)
	assert.Empty(t, entries)
}

func copySelf(t *testing.T, to string) string {
	t.Helper()
	path, err := os.Executable()
	require.NoError(t, err)
	from, err := os.Open(path)
	require.NoError(t, err)
	defer from.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o755)
	require.NoError(t, err)
	_, err = io.Copy(out, from)
	require.NoError(t, err)
	require.NoError(t, out.Close())
	return to
}
