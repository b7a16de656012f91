//go:build !windows

package journal

import (
	"errors"
	"os"
	"syscall"
)

// syncFolder flushes a folder's list of names to the disk. File systems that
// cannot sync a folder say so with EINVAL; there is nothing more to do there.
func syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil
	}
	return errors.Join(err, f.Close())
}
