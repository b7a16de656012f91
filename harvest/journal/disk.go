package journal

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// disk is the little of a file system that writing needs. It is an interface so
// that a test can make the Nth write, sync or link fail.
type disk interface {
	MakeFolder(path string) error
	// Create makes a file that must not exist yet.
	Create(path string) (diskFile, error)
	// Link gives an existing file a second name that must not exist yet.
	Link(old, new string) error
	// Rename gives a file another name, in the place of the file that has it.
	Rename(old, new string) error
	Remove(path string) error
	// SyncFolder makes names created in the folder survive a power cut.
	SyncFolder(path string) error
}

type diskFile interface {
	io.WriteCloser
	Chmod(fs.FileMode) error
	Sync() error
}

type realDisk struct{}

func (realDisk) MakeFolder(path string) error { return os.MkdirAll(path, 0o755) }
func (realDisk) Link(old, new string) error   { return os.Link(old, new) }
func (realDisk) Rename(old, new string) error { return os.Rename(old, new) }
func (realDisk) Remove(path string) error     { return os.Remove(path) }
func (realDisk) SyncFolder(path string) error { return syncFolder(path) }
func (realDisk) Create(path string) (diskFile, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// noLinks tells whether a failed link means that this file system has no hard
// links at all (some memory cards and network shares), as against a name that
// is taken or a folder that may not be written to.
func noLinks(err error) bool {
	if errors.Is(err, fs.ErrExist) || errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EROFS) || errors.Is(err, fs.ErrNotExist) {
		return false
	}
	var link *os.LinkError
	return errors.As(err, &link)
}

// bare is the cause of a file error without the path, which the message has
// already.
func bare(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
