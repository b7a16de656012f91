package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// writeFile writes a file whole or not at all: into a temporary file beside
// it, synced, then renamed over the name. When anything fails the old file
// stands as it was and no temporary file is left.
func writeFile(path string, write func(io.Writer) error) (err error) {
	path, err = writablePath(path)
	if err != nil {
		return err
	}
	temporary, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.part")
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, rootCause(err))
	}
	defer func() {
		if err != nil {
			temporary.Close()
			os.Remove(temporary.Name())
		}
	}()
	if err := write(temporary); err != nil {
		return err
	}
	if err := temporary.Chmod(modeOf(path)); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, rootCause(err))
	}
	if err := errors.Join(temporary.Sync(), temporary.Close()); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	if err := os.Rename(temporary.Name(), path); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, rootCause(err))
	}
	return nil
}

// writablePath follows a link to the file it stands for, and refuses what is
// not an ordinary file.
func writablePath(path string) (string, error) {
	if path == "" {
		return "", errors.New("no file name given; write one, such as plan.html")
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	info, err := os.Stat(path)
	if err == nil && !info.Mode().IsRegular() {
		return "", fmt.Errorf("cannot write %s: it is not an ordinary file; name a file", path)
	}
	return path, nil
}

// modeOf keeps the rights of a file that is replaced.
func modeOf(path string) os.FileMode {
	if info, err := os.Stat(path); err == nil {
		return info.Mode().Perm()
	}
	return 0o644
}

// rootCause drops the temporary file's name from an error.
func rootCause(err error) error {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
