package strict

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// ReadFile reads a file that a person names, such as an old table of weights or
// a saved recipe: an ordinary one of at most the given number of bytes. A pipe
// or a device, which could be waited for for ever, is refused at once. Its error
// is an [*Error] that names the file.
func ReadFile(name string, most int64) ([]byte, error) {
	if name == "" {
		return nil, &Error{Problem: "no file name given", Accepted: "the name of a file"}
	}
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, unreadable(name, err)
	case !info.Mode().IsRegular():
		return nil, &Error{File: name, Problem: "is no ordinary file", Accepted: "the name of a file"}
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, unreadable(name, err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	switch {
	case err != nil:
		return nil, unreadable(name, err)
	case int64(len(data)) > most:
		return nil, &Error{File: name, Problem: fmt.Sprintf("is larger than %d MB", most>>20), Accepted: "a smaller file"}
	}
	return data, nil
}

func unreadable(name string, err error) error {
	cause := err
	var path *fs.PathError
	if errors.As(err, &path) {
		cause = path.Err
	}
	return &Error{File: name, Problem: "cannot be read: " + cause.Error(), cause: err}
}
